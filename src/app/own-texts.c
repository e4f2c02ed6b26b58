/* own-texts.c: what reading and taking in packs came to, as a person reads it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-texts.h"

#include "stock/pack.h"

#include <glib/gi18n.h>

/* Problems told at once; the rest as a number. */
static const guint MAX_TOLD = 8;

char *
tl_own_problems_text (const GPtrArray *problems)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < problems->len && i < MAX_TOLD; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "",
                            ((TlPackProblem *) g_ptr_array_index (problems, i))->message);
  if (problems->len > MAX_TOLD)
    g_string_append_printf (text, ngettext ("\n%u more.", "\n%u more.", problems->len - MAX_TOLD),
                            problems->len - MAX_TOLD);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
tl_own_import_text (const char *path, guint came, const GPtrArray *problems)
{
  g_autofree char *name = g_path_get_basename (path), *why = tl_own_problems_text (problems);
  g_autofree char *told =
      came == 0 ? g_strdup_printf (_ ("No new part was taken in from “%s”."), name)
                : g_strdup_printf (ngettext ("%u part was taken in from “%s”.",
                                             "%u parts were taken in from “%s”.", came),
                                   came, name);

  if (problems->len == 0)
    return g_steal_pointer (&told);
  return g_strdup_printf (
      ngettext ("%s %u row was not:\n%s", "%s %u rows were not:\n%s", problems->len), told,
      problems->len, why);
}
