/* own-minutes.c: name, currency, minutes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-minutes.h"

#include "app/figure-entry.h"
#include "app/labelled.h"
#include "base/quantity.h"
#include "plan/steps.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _TlOwnMinutes
{
  GtkWidget parent_instance;

  TlOwnStock    *own;
  TlDocument    *document;
  TlFigureEntry *name, *currency;
  GtkBox        *steps;
  GtkWidget     *no_steps;
  char          *shown; /* ids of the steps that have rows */
};

G_DEFINE_FINAL_TYPE (TlOwnMinutes, tl_own_minutes, GTK_TYPE_WIDGET)

static const char *const STEP = "step", *const ENTRY = "entry";
static const int ENTRY_PX = 192;

static void
on_text (TlFigureEntry *entry, const char *text, TlOwnMinutes *self)
{
  gboolean is_name = entry == self->name;
  g_autoptr (GError) error = NULL;
  TlPack *pack =
      tl_pack_set_text (tl_own_stock_pack (self->own), is_name ? "name" : "currency", text, &error);

  if (!tl_own_stock_take (self->own, pack, is_name ? _ ("Set the name") : _ ("Set the currency"),
                          &error))
    tl_figure_entry_refuse (entry, error->message);
}

static void
on_minutes (TlFigureEntry *entry, const char *text, TlOwnMinutes *self)
{
  const char *step = g_object_get_data (G_OBJECT (entry), STEP);
  TlRange     range;
  g_autoptr (GError) error = NULL;
  TlPack *pack = NULL;

  if (*text == '\0' || tl_quantity_parse_range (text, "min", &range, &error))
    pack = tl_pack_set_minutes (tl_own_stock_pack (self->own), step, *text == '\0' ? NULL : &range,
                                &error);
  if (!tl_own_stock_take (self->own, pack, _ ("Set minutes"), &error))
    tl_figure_entry_refuse (entry, error->message);
}

/* --- rows --- */
static void
add_row (TlOwnMinutes *self, const char *id, const char *text)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *label = gtk_label_new (text),
            *entry = tl_figure_entry_new (text, "min", 7), *caption, *clamp = adw_clamp_new ();

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  /* The row says it; the entry keeps the name for the screen reader alone. */
  caption = gtk_widget_get_first_child (gtk_widget_get_first_child (entry));
  gtk_widget_set_visible (caption, FALSE);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 90);
  g_object_set_data (G_OBJECT (row), ENTRY, entry);
  g_object_set_data_full (G_OBJECT (entry), STEP, g_strdup (id), g_free);
  g_signal_connect (entry, "entered", G_CALLBACK (on_minutes), self);
  gtk_widget_add_css_class (row, "minutes-row");
  /* What is wrong would else make the entry as wide as its sentence. */
  adw_clamp_set_maximum_size (ADW_CLAMP (clamp), ENTRY_PX);
  adw_clamp_set_tightening_threshold (ADW_CLAMP (clamp), ENTRY_PX);
  gtk_widget_set_hexpand (clamp, FALSE);
  gtk_widget_set_size_request (clamp, ENTRY_PX, -1);
  adw_clamp_set_child (ADW_CLAMP (clamp), entry);
  gtk_box_append (GTK_BOX (row), clamp);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (self->steps, row);
}

/* A step that is told once: id and text, both borrowed. */
typedef struct
{
  const char *id, *text;
} Row;

static void
note (GArray *rows, GHashTable *seen, const char *id, const char *text)
{
  Row row = { id, text };

  if (g_hash_table_add (seen, (gpointer) id))
    g_array_append_val (rows, row);
}

static void
add_head (TlOwnMinutes *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_margin_top (label, 12);
  gtk_widget_add_css_class (label, "pane-title");
  gtk_box_append (self->steps, label);
}

/* The steps of the open joint in its words, then the other kinds, then what only the pack knows. */
static void
make_rows (TlOwnMinutes *self, const TlStepSheet *sheet)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) minutes = tl_pack_all_minutes (tl_own_stock_pack (self->own));
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_autoptr (GString) ids = g_string_new (NULL);
  guint             of_joint, count;
  const TlStepKind *kinds = tl_step_kinds (&count);

  for (guint i = 0; i < sheet->steps->len; i++)
    {
      const TlStep *step = g_ptr_array_index (sheet->steps, i);

      note (rows, seen, step->id, step->text);
    }
  of_joint = rows->len;
  for (guint i = 0; i < count; i++)
    note (rows, seen, kinds[i].id,
          tl_language_text (tl_document_language (self->document), kinds[i].name));
  for (guint i = 0; i < minutes->len; i++)
    {
      const TlPackMinutes *row = g_ptr_array_index (minutes, i);

      note (rows, seen, row->step, row->step);
    }
  for (guint i = 0; i < rows->len; i++)
    g_string_append_printf (ids, "%s=%s\n", g_array_index (rows, Row, i).id,
                            g_array_index (rows, Row, i).text);
  if (g_strcmp0 (ids->str, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (ids->str);
  tl_box_clear (self->steps);
  for (guint i = 0; i < rows->len; i++)
    {
      if (i == 0 && of_joint > 0)
        add_head (self, _ ("Steps of the open joint"));
      if (i == of_joint)
        add_head (self, of_joint > 0 ? _ ("Other steps") : _ ("All steps"));
      add_row (self, g_array_index (rows, Row, i).id, g_array_index (rows, Row, i).text);
    }
}

static void
show_rows (TlOwnMinutes *self)
{
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->steps)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget           *entry = g_object_get_data (G_OBJECT (row), ENTRY);
      const char          *step;
      const TlPackMinutes *minutes;
      g_autofree char     *text = NULL;

      if (entry == NULL)
        continue;
      step = g_object_get_data (G_OBJECT (entry), STEP);
      minutes = tl_pack_minutes (tl_own_stock_pack (self->own), step);
      if (minutes == NULL)
        text = g_strdup ("");
      else if (tl_range_is_exact (minutes->minutes_min))
        text = g_strdup_printf ("%g", minutes->minutes_min.best);
      else
        text = g_strdup_printf ("%g..%g", minutes->minutes_min.low, minutes->minutes_min.high);
      tl_figure_entry_show (TL_FIGURE_ENTRY (entry), text);
    }
}

void
tl_own_minutes_refresh (TlOwnMinutes *self)
{
  const TlPack *pack = tl_own_stock_pack (self->own);
  g_autoptr (TlStepSheet) sheet = tl_steps_new (tl_document_verdict (self->document), NULL,
                                                tl_document_language (self->document));

  tl_figure_entry_show (self->name, tl_pack_name (pack));
  tl_figure_entry_show (self->currency, tl_pack_currency (pack));
  make_rows (self, sheet);
  gtk_widget_set_visible (self->no_steps, sheet->steps->len == 0);
  show_rows (self);
}

/* --- widget --- */
static void
tl_own_minutes_dispose (GObject *object)
{
  TlOwnMinutes *self = TL_OWN_MINUTES (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->own);
  g_clear_object (&self->document);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (tl_own_minutes_parent_class)->dispose (object);
}

static void
tl_own_minutes_class_init (TlOwnMinutesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_own_minutes_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_own_minutes_init (TlOwnMinutes *self)
{
}

static TlFigureEntry *
add_text (TlOwnMinutes *self, GtkWidget *row, const char *label, int chars)
{
  GtkWidget *entry = tl_figure_entry_new (label, "", chars);

  g_signal_connect (entry, "entered", G_CALLBACK (on_text), self);
  gtk_box_append (GTK_BOX (row), entry);
  return TL_FIGURE_ENTRY (entry);
}

GtkWidget *
tl_own_minutes_new (TlOwnStock *own, TlDocument *document)
{
  TlOwnMinutes *self = g_object_new (TL_TYPE_OWN_MINUTES, NULL);
  GtkWidget    *scroller = gtk_scrolled_window_new (),
            *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12),
            *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *told;

  self->own = g_object_ref (own);
  self->document = g_object_ref (document);
  gtk_widget_add_css_class (column, "reading");
  self->name = add_text (self, row, _ ("Name of the pack"), 24);
  self->currency = add_text (self, row, _ ("Currency (EUR, USD …)"), 8);
  gtk_box_append (GTK_BOX (column), row);
  told =
      gtk_label_new (_ ("How long each step takes you, as “2” or “1.5..4” minutes. The register of "
                        "a folder of joints adds them up, and the prices of the parts with them."));
  gtk_label_set_wrap (GTK_LABEL (told), TRUE);
  gtk_label_set_xalign (GTK_LABEL (told), 0);
  gtk_widget_add_css_class (told, "muted");
  gtk_box_append (GTK_BOX (column), told);
  self->no_steps =
      gtk_label_new (_ ("The open joint has no steps of its own: it is not to be made as drawn."));
  gtk_label_set_xalign (GTK_LABEL (self->no_steps), 0);
  gtk_box_append (GTK_BOX (column), self->no_steps);
  self->steps = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  gtk_box_append (GTK_BOX (column), GTK_WIDGET (self->steps));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), column);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
