/* schema-check.c: see schema-check.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "schema-check.h"

#include <string.h>

#define DEFS "#/$defs/"

typedef struct
{
  JsonObject *defs;
  char       *complaint; /* the first one */
} Checker;

static gboolean check (Checker *self, JsonNode *schema, JsonNode *data, const char *path);

static gboolean
complain (Checker *self, const char *path, const char *what)
{
  if (self->complaint == NULL)
    self->complaint = g_strdup_printf ("%s: %s", path, what);
  return FALSE;
}

static const char *
type_of (JsonNode *data)
{
  if (JSON_NODE_HOLDS_NULL (data))
    return "null";
  if (JSON_NODE_HOLDS_OBJECT (data))
    return "object";
  if (JSON_NODE_HOLDS_ARRAY (data))
    return "array";
  if (json_node_get_value_type (data) == G_TYPE_STRING)
    return "string";
  return json_node_get_value_type (data) == G_TYPE_BOOLEAN ? "boolean" : "number";
}

/* "type": a word or a list of words; "const" and "enum": values. */
static gboolean
is_among (JsonNode *wanted, JsonNode *data, gboolean by_type)
{
  g_autoptr (JsonNode) word = json_node_new (JSON_NODE_VALUE);

  if (JSON_NODE_HOLDS_ARRAY (wanted))
    {
      JsonArray *list = json_node_get_array (wanted);

      for (guint i = 0; i < json_array_get_length (list); i++)
        if (is_among (json_array_get_element (list, i), data, by_type))
          return TRUE;
      return FALSE;
    }
  if (!by_type)
    return json_node_equal (wanted, data);
  json_node_set_string (word, type_of (data));
  return json_node_equal (wanted, word);
}

static gboolean
check_required (Checker *self, JsonNode *wanted, JsonNode *data, const char *path)
{
  JsonArray *names = json_node_get_array (wanted);

  for (guint i = 0; i < json_array_get_length (names); i++)
    {
      const char *name = json_array_get_string_element (names, i);

      if (!json_object_has_member (json_node_get_object (data), name))
        {
          g_autofree char *what = g_strdup_printf ("“%s” is missing", name);

          return complain (self, path, what);
        }
    }
  return TRUE;
}

/* Every member by its own schema, or by that of additionalProperties; false refuses it. */
static gboolean
check_members (Checker *self, JsonObject *schema, JsonNode *data, const char *path)
{
  JsonObject    *properties = json_object_has_member (schema, "properties")
                                  ? json_object_get_object_member (schema, "properties")
                                  : NULL;
  JsonNode      *others = json_object_get_member (schema, "additionalProperties");
  JsonObjectIter iter;
  const char    *name;
  JsonNode      *member;

  json_object_iter_init (&iter, json_node_get_object (data));
  while (json_object_iter_next (&iter, &name, &member))
    {
      g_autofree char *below = g_strdup_printf ("%s/%s", path, name);
      JsonNode *own = properties != NULL ? json_object_get_member (properties, name) : others;

      own = own != NULL ? own : others;
      if (own == NULL)
        continue;
      if (!JSON_NODE_HOLDS_OBJECT (own))
        return complain (self, below, "is not known");
      if (!check (self, own, member, below))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_items (Checker *self, JsonNode *items, JsonNode *data, const char *path)
{
  JsonArray *list = json_node_get_array (data);

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      g_autofree char *below = g_strdup_printf ("%s/%u", path, i);

      if (!check (self, items, json_array_get_element (list, i), below))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_any (Checker *self, JsonNode *choices, JsonNode *data, const char *path)
{
  JsonArray *list = json_node_get_array (choices);

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      Checker  trial = { .defs = self->defs };
      gboolean fits = check (&trial, json_array_get_element (list, i), data, path);

      g_free (trial.complaint);
      if (fits)
        return TRUE;
    }
  return complain (self, path, "fits none of the choices");
}

static gboolean
check_keyword (Checker *self, JsonObject *schema, const char *keyword, JsonNode *data,
               const char *path)
{
  static const char *const notes[] = { "$schema", "$id", "$defs", "title", "properties", NULL };
  JsonNode                *value = json_object_get_member (schema, keyword);

  if (g_strv_contains (notes, keyword))
    return TRUE;
  if (strcmp (keyword, "$ref") == 0)
    {
      const char *target = json_node_get_string (value);

      g_assert_true (g_str_has_prefix (target, DEFS));
      g_assert_true (json_object_has_member (self->defs, target + strlen (DEFS)));
      return check (self, json_object_get_member (self->defs, target + strlen (DEFS)), data, path);
    }
  if (strcmp (keyword, "type") == 0)
    return is_among (value, data, TRUE) || complain (self, path, "is of another type");
  if (strcmp (keyword, "const") == 0 || strcmp (keyword, "enum") == 0)
    return is_among (value, data, FALSE)
           || complain (self, path, "is none of the values permitted");
  if (strcmp (keyword, "anyOf") == 0)
    return check_any (self, value, data, path);
  if (strcmp (keyword, "required") == 0)
    return !JSON_NODE_HOLDS_OBJECT (data) || check_required (self, value, data, path);
  if (strcmp (keyword, "items") == 0)
    return !JSON_NODE_HOLDS_ARRAY (data) || check_items (self, value, data, path);
  if (strcmp (keyword, "additionalProperties") == 0)
    return TRUE;
  return complain (self, keyword, "is a keyword that this check does not know");
}

static gboolean
check (Checker *self, JsonNode *schema, JsonNode *data, const char *path)
{
  JsonObject *object = json_node_get_object (schema);
  g_autoptr (GList) keywords = json_object_get_members (object);

  for (GList *l = keywords; l != NULL; l = l->next)
    if (!check_keyword (self, object, l->data, data, path))
      return FALSE;
  return !JSON_NODE_HOLDS_OBJECT (data) || check_members (self, object, data, path);
}

char *
tl_schema_check (JsonNode *schema, JsonNode *data)
{
  Checker self = { .defs = json_object_get_object_member (json_node_get_object (schema), "$defs") };

  check (&self, schema, data, "");
  return self.complaint;
}
