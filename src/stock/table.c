/* table.c: limits and published tables.
 *
 * In a file a row carries its cells as attributes named after the columns. An empty or missing cell
 * means that the source gives no figure there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "stock/stock-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Attributes of a row that are no cells; no column may be called so. */
static const char *const row_attributes[] = {
  "id", "practice", "known-by", "source", "note", NULL
};

static gboolean
practice_is_known (const char *practice)
{
  return strcmp (practice, "*") == 0 || g_strv_contains (tl_stock_practices (NULL), practice);
}

static gboolean
read_columns (const TlStockReader *reader, const TlXmlNode *node, TlTable *table, GError **error)
{
  static const char *const allowed[] = { "key", "unit", NULL };
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) units = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      const char      *key, *unit;

      if (strcmp (child->name, "column") != 0)
        continue;
      if (!tl_stock_only (reader, child, allowed, error)
          || (key = tl_stock_required (reader, child, "key", error)) == NULL)
        return FALSE;
      unit = tl_xml_attribute (child, "unit");
      if (g_strv_contains (row_attributes, key) || (unit != NULL && !tl_unit_is_known (unit)))
        {
          tl_xml_error (error, reader->document, child, TL_ERROR_UNIT,
                        _ ("The column “%s” has the unit “%s”; the unit must be one that the "
                           "program knows, and the key none of: id, practice, known-by, source, "
                           "note."),
                        key, unit != NULL ? unit : "");
          return FALSE;
        }
      g_ptr_array_add (keys, g_strdup (key));
      g_ptr_array_add (units, g_strdup (unit != NULL ? unit : ""));
    }
  if (keys->len == 0)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("The table “%s” has no column; at least one is needed."), table->id);
      return FALSE;
    }
  g_ptr_array_add (keys, NULL);
  g_ptr_array_add (units, NULL);
  table->columns = (char **) g_ptr_array_free (g_steal_pointer (&keys), FALSE);
  table->units = (char **) g_ptr_array_free (g_steal_pointer (&units), FALSE);
  return TRUE;
}

/* Cells in the order of the columns; a cell under a unit must be a number. */
static gboolean
read_cells (const TlStockReader *reader, const TlXmlNode *node, const TlTable *table,
            TlTableRow *row, GError **error)
{
  guint n = g_strv_length (table->columns);

  for (char **attribute = node->attributes; *attribute != NULL; attribute += 2)
    if (!g_strv_contains (row_attributes, attribute[0])
        && !g_strv_contains ((const char *const *) table->columns, attribute[0]))
      {
        tl_xml_error (error, reader->document, node, TL_ERROR_NAME,
                      _ ("The table “%s” has no column “%s”."), table->id, attribute[0]);
        return FALSE;
      }

  row->cells = g_new0 (char *, n + 1);
  row->numbers = g_new0 (double, n);
  for (guint i = 0; i < n; i++)
    {
      const char *cell = tl_xml_attribute (node, table->columns[i]);
      g_autoptr (GError) cause = NULL;

      row->cells[i] = g_strdup (cell != NULL ? cell : "");
      row->numbers[i] = NAN;
      if (*row->cells[i] == '\0' || *table->units[i] == '\0'
          || tl_number_parse (row->cells[i], &row->numbers[i], &cause))
        continue;
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE, _ ("“%s”: %s"),
                    table->columns[i], cause->message);
      return FALSE;
    }
  return TRUE;
}

/* Rows of the table of limits: a number and a unit that is known. */
static gboolean
check_threshold (const TlStockReader *reader, const TlXmlNode *node, const TlTable *table,
                 const TlTableRow *row, GError **error)
{
  g_autoptr (GError) cause = NULL;
  double value;

  if (strcmp (table->columns[0], "value") != 0 || g_strcmp0 (table->columns[1], "unit") != 0)
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_PARSE,
                    _ ("The first columns of the table of limits must be value and unit."));
      return FALSE;
    }
  if (!tl_number_parse (row->cells[0], &value, &cause) || !tl_unit_is_known (row->cells[1]))
    {
      tl_xml_error (error, reader->document, node, TL_ERROR_UNIT,
                    _ ("The limit “%s” is “%s %s”; it must be a number and a unit that the program "
                       "knows (1 if it has none)."),
                    row->id, row->cells[0], row->cells[1]);
      return FALSE;
    }
  return TRUE;
}

static TlTableRow *
read_row (const TlStockReader *reader, const TlXmlNode *node, const TlTable *table,
          const TlStockDefaults *defaults, GError **error)
{
  g_autoptr (TlTableRow) row = g_new0 (TlTableRow, 1);
  const char *id, *source, *note = tl_xml_attribute (node, "note");
  const char *practice = tl_xml_attribute (node, "practice");

  if (!tl_stock_id (reader, node, &id, error)
      || !tl_stock_origin (reader, node, defaults, &source, &row->known_by, error))
    return NULL;
  row->id = g_strdup (id);
  row->practice = g_strdup (practice != NULL ? practice : "*");
  row->source = g_strdup (source);
  row->note = g_strdup (note != NULL ? note : "");
  if (!practice_is_known (row->practice))
    {
      tl_xml_error (
          error, reader->document, node, TL_ERROR_NAME,
          _ ("The practice “%s” does not exist; iec-style, nfpa70-style, strict or * are right."),
          row->practice);
      return NULL;
    }
  if (!read_cells (reader, node, table, row, error)
      || (strcmp (table->id, TL_STOCK_THRESHOLDS) == 0
          && !check_threshold (reader, node, table, row, error)))
    return NULL;
  return g_steal_pointer (&row);
}

/* Rows of one table: each id once for each practice. */
static gboolean
read_rows (const TlStockReader *reader, const TlXmlNode *node, TlTable *table, GError **error)
{
  const TlStockDefaults defaults = { tl_xml_attribute (node, "source"),
                                     tl_xml_attribute (node, "known-by") };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < node->children->len; i++)
    {
      const TlXmlNode *child = g_ptr_array_index (node->children, i);
      TlTableRow      *row;

      if (strcmp (child->name, "column") == 0)
        continue;
      if (strcmp (child->name, "row") != 0)
        {
          tl_xml_error (error, reader->document, child, TL_ERROR_NAME,
                        _ ("<%s> does not belong in <table>; only <column> and <row> do."),
                        child->name);
          return FALSE;
        }
      row = read_row (reader, child, table, &defaults, error);
      if (row == NULL)
        return FALSE;
      g_ptr_array_add (table->rows, row);
      if (!g_hash_table_add (seen, g_strconcat (row->practice, " ", row->id, NULL)))
        {
          tl_xml_error (error, reader->document, child, TL_ERROR_NAME,
                        _ ("The row “%s” stands twice in the table “%s”; once is right."), row->id,
                        table->id);
          return FALSE;
        }
    }
  return TRUE;
}

TlTable *
tl_table_read (const TlStockReader *reader, const TlXmlNode *node, GError **error)
{
  static const char *const allowed[] = { "id", "title", "source", "known-by", NULL };
  g_autoptr (TlTable) table = NULL;
  const char *id, *title;

  if (!tl_stock_only (reader, node, allowed, error) || !tl_stock_id (reader, node, &id, error)
      || (title = tl_stock_required (reader, node, "title", error)) == NULL)
    return NULL;

  table = g_new0 (TlTable, 1);
  table->id = g_strdup (id);
  table->title = g_strdup (title);
  table->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_table_row_free);
  if (!read_columns (reader, node, table, error) || !read_rows (reader, node, table, error))
    return NULL;
  tl_table_index (table);
  return g_steal_pointer (&table);
}

void
tl_table_free (TlTable *table)
{
  if (table == NULL)
    return;
  g_free (table->id);
  g_free (table->title);
  g_strfreev (table->columns);
  g_strfreev (table->units);
  g_clear_pointer (&table->groups, g_hash_table_unref);
  g_clear_pointer (&table->rows, g_ptr_array_unref);
  g_free (table);
}

TlTableRow *
tl_table_row_copy (const TlTableRow *row)
{
  TlTableRow *copy;

  g_return_val_if_fail (row != NULL, NULL);

  copy = g_new0 (TlTableRow, 1);
  copy->id = g_strdup (row->id);
  copy->practice = g_strdup (row->practice);
  copy->cells = g_strdupv (row->cells);
  copy->known_by = row->known_by;
  copy->source = g_strdup (row->source);
  copy->note = g_strdup (row->note);
  copy->numbers = row->numbers != NULL
                      ? g_memdup2 (row->numbers, g_strv_length (row->cells) * sizeof (double))
                      : NULL;
  return copy;
}

void
tl_table_row_free (TlTableRow *row)
{
  if (row == NULL)
    return;
  g_free (row->id);
  g_free (row->practice);
  g_strfreev (row->cells);
  g_free (row->source);
  g_free (row->note);
  g_free (row->numbers);
  g_free (row);
}

/* Place of @column, or %FALSE. */
static gboolean
find_column (const TlTable *table, const char *column, guint *place)
{
  for (guint i = 0; table->columns[i] != NULL; i++)
    if (table->columns[i][0] == column[0] && strcmp (table->columns[i], column) == 0)
      {
        *place = i;
        return TRUE;
      }
  return FALSE;
}

const char *
tl_table_word (const TlTable *table, const TlTableRow *row, const char *column)
{
  guint place;

  g_return_val_if_fail (table != NULL && row != NULL && column != NULL, NULL);

  return find_column (table, column, &place) ? row->cells[place] : NULL;
}

gboolean
tl_table_number (const TlTable *table, const TlTableRow *row, const char *column, double *value)
{
  guint place;

  g_return_val_if_fail (table != NULL && row != NULL && column != NULL && value != NULL, FALSE);

  if (!find_column (table, column, &place))
    return FALSE;
  if (row->numbers == NULL || *table->units[place] == '\0')
    return *row->cells[place] != '\0' && tl_number_parse (row->cells[place], value, NULL);
  if (isnan (row->numbers[place]))
    return FALSE;
  *value = row->numbers[place];
  return TRUE;
}
