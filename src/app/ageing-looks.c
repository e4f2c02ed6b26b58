/* ageing-looks.c: what is checked at each later look, as rows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-looks.h"

#include <glib/gi18n.h>

/* Letters that a column is wide, about. */
enum
{
  FIRST_CHARS = 11,
  SECOND_CHARS = 24,
  FIGURE_CHARS = 15,
};

static void
empty (GtkGrid *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))) != NULL)
    gtk_grid_remove (grid, child);
}

static GtkWidget *
label_new (const char *text, int most_chars, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  /* Without a limit each would want its line whole, and the column would grow over the charts. */
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), most_chars);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

void
tl_ageing_looks_fill_checks (GtkGrid *grid, const TlLooks *looks, const TlLanguage *language)
{
  empty (grid);
  for (guint i = 0; i < looks->n_checks; i++)
    {
      const TlLookCheck *check = &looks->checks[i];
      g_autofree char   *good = tl_looks_good_text (looks, check, language);
      GtkWidget         *what = label_new (tl_language_text (language, check->what), FIRST_CHARS,
                                           "figure-words"),
                *wanted = label_new (good, SECOND_CHARS, NULL);
      int row = (int) (2 * i);

      gtk_label_set_width_chars (GTK_LABEL (what), FIRST_CHARS);
      gtk_widget_set_hexpand (wanted, TRUE);
      gtk_grid_attach (grid, what, 0, row, 1, 2);
      gtk_grid_attach (grid, wanted, 1, row, 1, 1);
      gtk_grid_attach (
          grid,
          label_new (tl_language_text (language, check->if_not), SECOND_CHARS, "caption-text"), 1,
          row + 1, 1, 1);
    }
}

static void
add_row (GtkGrid *grid, int row, const char *const *texts, const char *first_style,
         const char *style)
{
  for (int i = 0; texts[i] != NULL; i++)
    {
      GtkWidget *label =
          label_new (*texts[i] != '\0' ? texts[i] : "–", i == 0 ? FIRST_CHARS : FIGURE_CHARS,
                     i == 0 ? first_style : style);

      gtk_widget_set_hexpand (label, i > 0);
      gtk_grid_attach (grid, label, i, row, 1, 1);
    }
}

void
tl_ageing_looks_fill_table (GtkGrid *grid, const TlLooks *looks, const TlLanguage *language)
{
  g_autofree char *hot_limit = tl_looks_limit_text (looks, TL_AGEING_HOT, language),
                  *growth_limit = tl_looks_limit_text (looks, TL_AGEING_GROWTH, language);
  const char *head[] = { _ ("after"), _ ("hottest metal at the load"),
                         _ ("resistance, times the first"), NULL };
  const char *limits[] = { _ ("limit"), hot_limit, growth_limit, NULL };

  empty (grid);
  add_row (grid, 0, head, "label-text", "label-text");
  add_row (grid, 1, limits, "label-text", "figure-words");
  for (guint i = 0; i < looks->looks->len; i++)
    {
      const TlLaterLook *look = &g_array_index (looks->looks, TlLaterLook, i);
      g_autofree char   *when = tl_looks_when_text (look, language),
                      *hot = tl_looks_expected_text (look, TL_AGEING_HOT, language),
                      *growth = tl_looks_expected_text (look, TL_AGEING_GROWTH, language);
      const char *texts[] = { when, hot, growth, NULL };

      add_row (grid, (int) i + 2, texts, "figure-words", NULL);
    }
}
