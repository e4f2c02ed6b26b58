/* seeds.h: inputs of the reference rows, as sensible starting points for property tests.
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
} Seed;

static inline void
seed_free (Seed *self)
{
  g_free (self->id);
  g_free (self->formula);
  g_free (self);
}

/* Inputs "a=1 mm; b=2" into a call; the test fails if one does not fit. */
static inline void
seed_inputs (TlCall *call, const char *formula, const char *inputs)
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

/* All rows of tests/reference; (transfer full) (element-type Seed) */
static inline GPtrArray *
seeds_read (void)
{
  static const char *const files[] = { "mechanics_cases.csv", "galvanic_cases.csv",
                                       "box_fill_cases.csv", "circuit_cases.csv" };
  GPtrArray               *seeds = g_ptr_array_new_with_free_func ((GDestroyNotify) seed_free);

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
          Seed  *seed = g_new0 (Seed, 1);

          seed->id = g_strdup (row[0]);
          seed->formula = g_strdup (row[1]);
          seed_inputs (&seed->call, row[1], row[2]);
          g_ptr_array_add (seeds, seed);
        }
    }
  return seeds;
}

/* First seed of a formula; the test fails if there is none. */
static inline const TlCall *
seeds_find (const GPtrArray *seeds, const char *formula)
{
  for (guint i = 0; i < seeds->len; i++)
    {
      const Seed *seed = seeds->pdata[i];
      if (strcmp (seed->formula, formula) == 0)
        return &seed->call;
    }
  g_error ("no reference row for %s", formula);
}
