/* ageing-looks.c: what is checked at each later look, as rows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-looks.h"

#include "app/mark-view.h"

#include <glib/gi18n.h>

/* Letters that a column is wide, about. */
enum
{
  FIRST_CHARS = 11,
  SECOND_CHARS = 24,
  FIGURE_CHARS = 15,
};

/* Edge of the mark beside a figure past its limit. */
static const int MARK_PX = 12;

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

/* Below a figure that is past its limit: mark and words. */
static GtkWidget *
past_new (TlLookPast past, const char *words)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4), *mark = tl_mark_view_new (MARK_PX);

  tl_mark_view_show_mark (TL_MARK_VIEW (mark),
                          past == TL_LOOK_UPPER_END_PAST ? TL_MARK_WATCH : TL_MARK_CHANGE);
  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), label_new (words, FIGURE_CHARS, "caption-text"));
  return box;
}

/* The figure alone within its limit, else with what is past; read out as one thing, with its column's head. */
static GtkWidget *
figure_new (const TlLooks *looks, const TlLaterLook *look, TlAgeingOutput output, const char *head,
            const TlLanguage *language)
{
  g_autofree char *text = tl_looks_expected_text (look, output, language), *name = NULL;
  TlLookPast       past = tl_looks_past (looks, look, output);
  const char      *words = tl_language_text (language, tl_look_past_title (past));
  GtkWidget       *label = label_new (*text != '\0' ? text : "–", FIGURE_CHARS, NULL), *box;

  gtk_widget_set_hexpand (label, TRUE);
  if (past == TL_LOOK_WITHIN)
    return label;
  /* Translators: head of the column, its figure, "upper end past the limit". */
  name = g_strdup_printf (_ ("%s: %s, %s"), head, text, words);
  box = g_object_new (GTK_TYPE_BOX, "orientation", GTK_ORIENTATION_VERTICAL, "accessible-role",
                      GTK_ACCESSIBLE_ROLE_GROUP, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (box), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_add_css_class (label, "name-bold");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), past_new (past, words));
  return box;
}

void
tl_ageing_looks_fill_table (GtkGrid *grid, const TlLooks *looks, const TlLanguage *language)
{
  static const TlAgeingOutput figures[] = { TL_AGEING_HOT, TL_AGEING_GROWTH };
  g_autofree char            *hot_limit = tl_looks_limit_text (looks, TL_AGEING_HOT, language),
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
      g_autofree char   *when = tl_looks_when_text (look, language);
      int                row = (int) i + 2;

      gtk_grid_attach (grid, label_new (when, FIRST_CHARS, "figure-words"), 0, row, 1, 1);
      for (guint k = 0; k < G_N_ELEMENTS (figures); k++)
        gtk_grid_attach (grid, figure_new (looks, look, figures[k], head[k + 1], language),
                         (int) k + 1, row, 1, 1);
    }
}
