/* schema-check.h: JSON against the part of JSON Schema that our schema uses.
 *
 * Known: $ref into #/$defs, type, const, enum, anyOf, required, properties, additionalProperties, items.
 * Any other keyword is an error, so that the schema cannot ask for more than is checked.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* %NULL if @data fits @schema, else what does not and where. (transfer full) */
char *tl_schema_check (JsonNode *schema, JsonNode *data) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
