/* practice.c: the practices that limits can belong to.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/stock-private.h"

#include <string.h>

static const char *const practices[] = { "iec-style", "nfpa70-style", "strict", NULL };

typedef struct
{
  const char *id;
  const char *base;
  const char *label;
} Practice;

/* A strict practice has the limits of the IEC-style one and is harder on what is disputed. */
static const Practice practice_rows[] = {
  { "iec-style", "iec-style", TL_N_ ("IEC-style practice") },
  { "nfpa70-style", "nfpa70-style", TL_N_ ("NFPA 70-style practice") },
  { "strict", "iec-style", TL_N_ ("Strict practice") },
};
G_STATIC_ASSERT (G_N_ELEMENTS (practice_rows) + 1 == G_N_ELEMENTS (practices));

const char *const *
tl_stock_practices (const TlStock *self)
{
  return practices;
}

const char *
tl_practice_base (const char *practice)
{
  for (guint i = 0; i < G_N_ELEMENTS (practice_rows); i++)
    if (g_strcmp0 (practice_rows[i].id, practice) == 0)
      return practice_rows[i].base;
  return practice;
}

const char *
tl_practice_label (const char *practice)
{
  for (guint i = 0; i < G_N_ELEMENTS (practice_rows); i++)
    if (g_strcmp0 (practice_rows[i].id, practice) == 0)
      return practice_rows[i].label;
  return practice;
}
