/* own-mark-form.c: van, quantity, price and note of one part.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-mark-form.h"

#include "app/figure-entry.h"
#include "app/labelled.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlOwnMarkForm
{
  GtkWidget parent_instance;

  TlOwnStock     *own;
  TlLanguage     *language;
  char           *part;
  GtkCheckButton *in_van;
  TlFigureEntry  *quantity, *price, *note;
  GtkDropDown    *per;
  GtkLabel       *no_currency; /* a price, and nobody said of what */
  GtkLabel       *wrong;       /* what is wrong with the mark as a whole */
  gboolean        is_showing;
};

G_DEFINE_FINAL_TYPE (TlOwnMarkForm, tl_own_mark_form, GTK_TYPE_WIDGET)

/* The mark as it stands in the own pack, to be changed; strings stay the pack's. */
static TlPackMark
present_mark (TlOwnMarkForm *self)
{
  const TlPackMark *mark =
      self->part == NULL ? NULL : tl_pack_mark (tl_own_stock_pack (self->own), self->part);
  TlPackMark none = { .part = self->part };

  return mark == NULL ? none : *mark;
}

static void
take (TlOwnMarkForm *self, const TlPackMark *mark, TlFigureEntry *entry)
{
  g_autoptr (GError) error = NULL;
  TlPack *pack;

  if (mark->part == NULL)
    return;
  pack = tl_pack_set_mark (tl_own_stock_pack (self->own), mark, &error);
  if (tl_own_stock_take (self->own, pack, _ ("Note about a part"), &error))
    return;
  if (entry != NULL)
    tl_figure_entry_refuse (entry, error->message);
  else
    {
      gtk_label_set_text (self->wrong, error->message);
      gtk_widget_set_visible (GTK_WIDGET (self->wrong), TRUE);
    }
}

static void
on_in_van (GtkCheckButton *button, TlOwnMarkForm *self)
{
  TlPackMark mark;

  if (self->is_showing || self->part == NULL)
    return;
  mark = present_mark (self);
  mark.in_van = gtk_check_button_get_active (button);
  take (self, &mark, NULL);
}

static void
on_per (GtkDropDown *choice, GParamSpec *pspec, TlOwnMarkForm *self)
{
  TlPackMark mark;

  if (self->is_showing || self->part == NULL)
    return;
  mark = present_mark (self);
  mark.per = (TlPer) gtk_drop_down_get_selected (choice);
  /* Without a quantity or a price the unit says nothing and is not kept. */
  if (mark.has_quantity || mark.has_price)
    take (self, &mark, NULL);
}

/* "" is no figure; anything else must be a number. */
static gboolean
read_number (const char *text, gboolean *has, double *value, TlFigureEntry *entry)
{
  g_autoptr (GError) error = NULL;

  *has = *text != '\0';
  if (!*has || tl_quantity_parse (text, "1", value, &error))
    return TRUE;
  tl_figure_entry_refuse (entry, error->message);
  return FALSE;
}

static void
on_quantity (TlFigureEntry *entry, const char *text, TlOwnMarkForm *self)
{
  TlPackMark mark = present_mark (self);

  mark.per = (TlPer) gtk_drop_down_get_selected (self->per);
  if (read_number (text, &mark.has_quantity, &mark.quantity, entry))
    take (self, &mark, entry);
}

static void
on_price (TlFigureEntry *entry, const char *text, TlOwnMarkForm *self)
{
  TlPackMark mark = present_mark (self);

  mark.per = (TlPer) gtk_drop_down_get_selected (self->per);
  if (read_number (text, &mark.has_price, &mark.price, entry))
    take (self, &mark, entry);
}

static void
on_note (TlFigureEntry *entry, const char *text, TlOwnMarkForm *self)
{
  TlPackMark mark = present_mark (self);

  mark.note = (char *) text;
  take (self, &mark, entry);
}

/* --- widget --- */
static void
tl_own_mark_form_dispose (GObject *object)
{
  TlOwnMarkForm *self = TL_OWN_MARK_FORM (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->own);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_pointer (&self->part, g_free);
  G_OBJECT_CLASS (tl_own_mark_form_parent_class)->dispose (object);
}

static void
tl_own_mark_form_class_init (TlOwnMarkFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_own_mark_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tl_own_mark_form_init (TlOwnMarkForm *self)
{
}

static TlFigureEntry *
add_entry (TlOwnMarkForm *self, GtkWidget *box, const char *label, int chars, GCallback callback)
{
  GtkWidget *entry = tl_figure_entry_new (label, "", chars);

  g_signal_connect (entry, "entered", callback, self);
  gtk_box_append (GTK_BOX (box), entry);
  return TL_FIGURE_ENTRY (entry);
}

GtkWidget *
tl_own_mark_form_new (TlOwnStock *own, const TlLanguage *language)
{
  TlOwnMarkForm *self = g_object_new (TL_TYPE_OWN_MARK_FORM, NULL);
  GtkWidget     *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8),
            *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *choice, *per, *head;
  const char *pers[TL_N_PERS + 1] = { NULL }, *ids[TL_N_PERS + 1] = { NULL };

  self->own = g_object_ref (own);
  self->language = tl_language_ref ((TlLanguage *) language);
  for (TlPer i = 0; i < TL_N_PERS; i++)
    {
      pers[i] = tl_language_text (language, tl_per_label (i));
      ids[i] = tl_per_word (i);
    }
  head = gtk_label_new (_ ("What I have of it"));
  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_widget_add_css_class (head, "pane-title");
  gtk_box_append (GTK_BOX (column), head);
  self->in_van = GTK_CHECK_BUTTON (gtk_check_button_new_with_label (_ ("In the van")));
  g_signal_connect (self->in_van, "toggled", G_CALLBACK (on_in_van), self);
  gtk_widget_set_halign (GTK_WIDGET (self->in_van), GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (column), GTK_WIDGET (self->in_van));
  self->quantity = add_entry (self, row, _ ("How many, or how much"), 8, G_CALLBACK (on_quantity));
  choice = tl_choice_new (pers, ids);
  self->per = GTK_DROP_DOWN (choice);
  per = tl_labelled_new (_ ("Counted in"), choice);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_per), self);
  gtk_box_append (GTK_BOX (row), per);
  self->price = add_entry (self, row, _ ("Price of one"), 8, G_CALLBACK (on_price));
  self->note = add_entry (self, row, _ ("Note"), 14, G_CALLBACK (on_note));
  gtk_widget_set_hexpand (GTK_WIDGET (self->note), TRUE);
  gtk_box_append (GTK_BOX (column), row);
  self->no_currency = GTK_LABEL (
      gtk_label_new (_ ("The price has no currency yet: it stands under Minutes and money.")));
  gtk_label_set_wrap (self->no_currency, TRUE);
  gtk_label_set_xalign (self->no_currency, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->no_currency), "caption-text");
  gtk_box_append (GTK_BOX (column), GTK_WIDGET (self->no_currency));
  self->wrong = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->wrong, TRUE);
  gtk_label_set_xalign (self->wrong, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->wrong), "error-text");
  gtk_widget_set_visible (GTK_WIDGET (self->wrong), FALSE);
  gtk_box_append (GTK_BOX (column), GTK_WIDGET (self->wrong));
  gtk_widget_set_parent (column, GTK_WIDGET (self));
  tl_own_mark_form_show (self, NULL);
  return GTK_WIDGET (self);
}

static void
show_number (TlOwnMarkForm *self, TlFigureEntry *entry, gboolean has, double value)
{
  g_autofree char *plain = tl_number_to_text (value);
  const char      *point = strchr (plain, '.');
  g_autofree char *text = tl_language_number (
      self->language, value, point == NULL ? 0 : MIN ((guint) strlen (point + 1), 4));

  tl_figure_entry_show (entry, has ? text : "");
}

void
tl_own_mark_form_show (TlOwnMarkForm *self, const char *part)
{
  g_autofree char  *kept = g_strdup (part);
  const TlPackMark *mark = kept == NULL ? NULL : tl_pack_mark (tl_own_stock_pack (self->own), kept);
  TlPackMark        none = { .part = NULL };

  g_free (self->part);
  self->part = g_steal_pointer (&kept);
  if (mark == NULL)
    mark = &none;
  self->is_showing = TRUE;
  gtk_widget_set_sensitive (GTK_WIDGET (self), self->part != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->wrong), FALSE);
  gtk_check_button_set_active (self->in_van, mark->in_van);
  gtk_drop_down_set_selected (self->per, mark->per);
  show_number (self, self->quantity, mark->has_quantity, mark->quantity);
  tl_figure_entry_set_unit (self->price, tl_pack_currency (tl_own_stock_pack (self->own)));
  show_number (self, self->price, mark->has_price, mark->price);
  gtk_widget_set_visible (GTK_WIDGET (self->no_currency),
                          mark->has_price
                              && *tl_pack_currency (tl_own_stock_pack (self->own)) == '\0');
  tl_figure_entry_show (self->note, mark->note == NULL ? "" : mark->note);
  self->is_showing = FALSE;
}
