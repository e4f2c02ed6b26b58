/* error.h: the one error domain of the engine.
 *
 * Messages are whole sentences in the reader's language that name the place (file and line, layer and
 * field), the value, and what would be right.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define TL_ERROR (tl_error_quark ())

/**
 * TlError:
 * @TL_ERROR_RANGE: a value lies outside its permitted range, or is not finite
 * @TL_ERROR_UNIT: a unit is unknown or of another dimension than the one wanted
 * @TL_ERROR_PARSE: text, XML or CSV that cannot be read
 * @TL_ERROR_NAME: a name (formula, part, field, word, rule) that does not exist
 * @TL_ERROR_LIMIT: a cap on size, depth or count was passed
 * @TL_ERROR_VERSION: a format that this program is too old for
 * @TL_ERROR_FILE: reading or writing failed
 * @TL_ERROR_STATE: the joint does not admit this edit
 */
typedef enum
{
  TL_ERROR_RANGE,
  TL_ERROR_UNIT,
  TL_ERROR_PARSE,
  TL_ERROR_NAME,
  TL_ERROR_LIMIT,
  TL_ERROR_VERSION,
  TL_ERROR_FILE,
  TL_ERROR_STATE,
} TlError;

GQuark tl_error_quark (void);

G_END_DECLS
