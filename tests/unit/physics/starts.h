/* starts.h: inputs of the reference rows, as sensible starting points for property tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "physics/cases.h"
#include <string.h>

typedef struct
{
  char  *id; /* of the row */
  char  *formula;
  TlCall call; /* with the row's inputs set */
} Start;

static inline void
start_free (Start *self)
{
  g_free (self->id);
  g_free (self->formula);
  g_free (self);
}

/* Inputs "a=1 mm; b=2" into a call; the test fails if one does not fit. */
static inline void
start_inputs (TlCall *call, const char *formula, const char *inputs)
{
  g_auto (GStrv) pieces = g_strsplit (inputs, ";", -1);

  tl_call_init (call, formula);
  for (guint i = 0; pieces[i] != NULL; i++)
    {
      g_autoptr (GError) error = NULL;
      char *equals = strchr (g_strstrip (pieces[i]), '=');

      g_assert_nonnull (equals);
      *equals = '\0';
      tl_call_set_text (call, pieces[i], equals + 1, &error);
      g_assert_no_error (error);
    }
}

/* All rows of tests/reference; (transfer full) (element-type Start) */
static inline GPtrArray *
starts_read (void)
{
  static const char *const files[] = { "mechanics_cases.csv", "galvanic_cases.csv",
                                       "box_fill_cases.csv", "circuit_cases.csv",
                                       "thermal_cases.csv",      "identify_cases.csv" };
  GPtrArray               *starts = g_ptr_array_new_with_free_func ((GDestroyNotify) start_free);

  for (guint f = 0; f < G_N_ELEMENTS (files); f++)
    {
      g_autofree char *path =
          g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "reference", files[f], NULL);
      g_autofree char *data = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) lines = NULL;
      gsize length;

      g_file_get_contents (path, &data, &length, &error);
      g_assert_no_error (error);
      g_autoptr (GPtrArray) rows = tl_csv_parse (data, length, path, &lines, &error);
      g_assert_no_error (error);
      for (guint r = 1; r < rows->len; r++)
        {
          char **row = rows->pdata[r];
          Start *start = g_new0 (Start, 1);

          start->id = g_strdup (row[0]);
          start->formula = g_strdup (row[1]);
          start_inputs (&start->call, row[1], row[2]);
          g_ptr_array_add (starts, start);
        }
    }
  return starts;
}

/* First start of a formula; the test fails if there is none. */
static inline const TlCall *
starts_find (const GPtrArray *starts, const char *formula)
{
  for (guint i = 0; i < starts->len; i++)
    {
      const Start *start = starts->pdata[i];
      if (strcmp (start->formula, formula) == 0)
        return &start->call;
    }
  g_error ("no reference row for %s", formula);
}
