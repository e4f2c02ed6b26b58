/* json.c: JSON for other programs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/json.h"

#include "base/quantity.h"

#include <math.h>

struct _TlJson
{
  GString *text;
  GArray  *levels; /* (element-type Level) open objects and arrays */
};

typedef struct
{
  gboolean is_array;
  guint    count;
} Level;

TlJson *
tl_json_new (void)
{
  TlJson *self = g_new0 (TlJson, 1);

  self->text = g_string_new (NULL);
  self->levels = g_array_new (FALSE, FALSE, sizeof (Level));
  return self;
}

char *
tl_json_finish (TlJson *self)
{
  char *text;

  g_assert (self->levels->len == 0);
  g_string_append_c (self->text, '\n');
  text = g_string_free (self->text, FALSE);
  g_array_unref (self->levels);
  g_free (self);
  return text;
}

static void
line_break (TlJson *self)
{
  g_string_append_c (self->text, '\n');
  for (guint i = 0; i < self->levels->len; i++)
    g_string_append (self->text, "  ");
}

static void
append_quoted (GString *out, const char *value)
{
  g_string_append_c (out, '"');
  for (const char *c = value; *c != '\0'; c++)
    {
      if (*c == '"' || *c == '\\')
        g_string_append_printf (out, "\\%c", *c);
      else if ((guchar) *c < 0x20)
        g_string_append_printf (out, "\\u%04x", (guint) (guchar) *c);
      else
        g_string_append_c (out, *c);
    }
  g_string_append_c (out, '"');
}

/* Comma, line and key before a value. */
static void
begin_value (TlJson *self, const char *name)
{
  Level *level;

  if (self->levels->len == 0)
    return;
  level = &g_array_index (self->levels, Level, self->levels->len - 1);
  g_assert (level->is_array == (name == NULL));
  if (level->count++ > 0)
    g_string_append_c (self->text, ',');
  line_break (self);
  if (name == NULL)
    return;
  append_quoted (self->text, name);
  g_string_append (self->text, ": ");
}

void
tl_json_open (TlJson *self, const char *name, gboolean is_array)
{
  Level level = { is_array, 0 };

  begin_value (self, name);
  g_string_append_c (self->text, is_array ? '[' : '{');
  g_array_append_val (self->levels, level);
}

void
tl_json_close (TlJson *self)
{
  Level level = g_array_index (self->levels, Level, self->levels->len - 1);

  g_array_set_size (self->levels, self->levels->len - 1);
  if (level.count > 0)
    line_break (self);
  g_string_append_c (self->text, level.is_array ? ']' : '}');
}

void
tl_json_string (TlJson *self, const char *name, const char *value)
{
  begin_value (self, name);
  if (value == NULL)
    g_string_append (self->text, "null");
  else
    append_quoted (self->text, value);
}

void
tl_json_number (TlJson *self, const char *name, double value)
{
  g_autofree char *text = isfinite (value) ? tl_number_to_text (value) : NULL;

  begin_value (self, name);
  g_string_append (self->text, text != NULL ? text : "null");
}

void
tl_json_null (TlJson *self, const char *name)
{
  tl_json_string (self, name, NULL);
}
