/* csv.c: comma-separated text as RFC 4180 has it, from files that may be hostile.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cases.h"
#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const char *at;
  const char *end;
  const char *file;
  guint       line;
} Reader;

static gboolean
refuse (const Reader *self, guint line, int code, GError **error, const char *message)
{
  g_set_error (error, TL_ERROR, code, "%s:%u: %s", self->file, line, message);
  return FALSE;
}

/* Appends the field that begins here; leaves the reader on its separator. */
static gboolean
read_quoted (Reader *self, GString *field, GError **error)
{
  const guint opened = self->line;
  gboolean    closed = FALSE;

  for (self->at++; self->at < self->end && !closed; self->at++)
    {
      if (*self->at == '"')
        {
          if (self->at + 1 == self->end || self->at[1] != '"')
            {
              closed = TRUE;
              continue;
            }
          self->at++;
        }
      else if (*self->at == '\n')
        self->line++;
      g_string_append_c (field, *self->at);
      if (field->len > TL_CASES_MAX_FIELD_BYTES)
        return refuse (self, opened, TL_ERROR_LIMIT, error,
                       _ ("a field is longer than 65536 bytes; is a quote missing?"));
    }
  if (!closed)
    return refuse (self, opened, TL_ERROR_PARSE, error,
                   _ ("a quoted field is not closed; end it with a double quote"));
  if (self->at < self->end && strchr (",\r\n", *self->at) == NULL)
    return refuse (self, self->line, TL_ERROR_PARSE, error,
                   _ ("text follows a closing quote; double a quote that belongs to the text"));
  return TRUE;
}

static gboolean
read_plain (Reader *self, GString *field, GError **error)
{
  for (; self->at < self->end && strchr (",\r\n", *self->at) == NULL; self->at++)
    {
      if (*self->at == '"')
        return refuse (self, self->line, TL_ERROR_PARSE, error,
                       _ ("a quote stands inside an unquoted field; quote the whole field"));
      g_string_append_c (field, *self->at);
      if (field->len > TL_CASES_MAX_FIELD_BYTES)
        return refuse (self, self->line, TL_ERROR_LIMIT, error,
                       _ ("a field is longer than 65536 bytes; split the row"));
    }
  return TRUE;
}

/* One row with its line end. */
static gboolean
read_row (Reader *self, GPtrArray *fields, GError **error)
{
  for (;;)
    {
      g_autoptr (GString) field = g_string_new (NULL);

      if (!(self->at < self->end && *self->at == '"' ? read_quoted (self, field, error)
                                                     : read_plain (self, field, error)))
        return FALSE;
      g_ptr_array_add (fields, g_string_free (g_steal_pointer (&field), FALSE));
      if (fields->len > 256)
        return refuse (self, self->line, TL_ERROR_LIMIT, error,
                       _ ("a row has more than 256 fields; is a line end missing?"));
      if (self->at == self->end)
        return TRUE;
      if (*self->at == ',')
        {
          self->at++;
          continue;
        }
      if (*self->at == '\r')
        self->at++;
      if (self->at == self->end || *self->at != '\n')
        return refuse (self, self->line, TL_ERROR_PARSE, error,
                       _ ("a carriage return stands alone; end lines with LF or CR LF"));
      self->at++;
      self->line++;
      return TRUE;
    }
}

/* NUL bytes and broken UTF-8, with their line. */
static gboolean
check_text (Reader *self, GError **error)
{
  const char *wrong;
  guint       line = 1;

  if (g_utf8_validate_len (self->at, (gsize) (self->end - self->at), &wrong))
    return TRUE;
  for (const char *p = self->at; p < wrong; p++)
    line += *p == '\n';
  return refuse (self, line, TL_ERROR_PARSE, error,
                 *wrong == '\0' ? _ ("there is a NUL byte; the file must be text")
                                : _ ("the text is not UTF-8; save the file as UTF-8"));
}

GPtrArray *
tl_csv_parse (const char *data, gsize length, const char *file, GArray **lines, GError **error)
{
  Reader reader = { data, data + length, file, 1 };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (guint));

  if (!check_text (&reader, error))
    return NULL;
  if (length >= 3 && memcmp (data, "\xEF\xBB\xBF", 3) == 0)
    reader.at += 3;
  while (reader.at < reader.end)
    {
      g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func (g_free);
      const guint line = reader.line;

      if (!read_row (&reader, fields, error))
        return NULL;
      if (fields->len == 1 && *g_strstrip (fields->pdata[0]) == '\0')
        continue;
      g_ptr_array_set_free_func (fields, NULL);
      g_ptr_array_add (fields, NULL);
      g_ptr_array_add (rows, g_ptr_array_free (g_steal_pointer (&fields), FALSE));
      g_array_append_val (starts, line);
    }
  *lines = g_steal_pointer (&starts);
  return g_steal_pointer (&rows);
}
