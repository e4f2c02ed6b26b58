/* verdict-chip.c: mark and word in a frame.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/verdict-chip.h"

#include "app/labelled.h"
#include "app/mark-view.h"

struct _TlVerdictChip
{
  GtkWidget parent_instance;

  TlMarkView *mark;
  GtkLabel   *word;
};

G_DEFINE_FINAL_TYPE (TlVerdictChip, tl_verdict_chip, GTK_TYPE_WIDGET)

static void
tl_verdict_chip_dispose (GObject *object)
{

  tl_widget_clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (tl_verdict_chip_parent_class)->dispose (object);
}

static void
tl_verdict_chip_class_init (TlVerdictChipClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_verdict_chip_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_STATUS);
}

static void
tl_verdict_chip_init (TlVerdictChip *self)
{
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              5);
  gtk_widget_add_css_class (GTK_WIDGET (self), "chip");
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  self->mark = TL_MARK_VIEW (tl_mark_view_new (14));
  gtk_widget_set_parent (GTK_WIDGET (self->mark), GTK_WIDGET (self));
  self->word = GTK_LABEL (gtk_label_new (NULL));
  gtk_widget_set_parent (GTK_WIDGET (self->word), GTK_WIDGET (self));
}

GtkWidget *
tl_verdict_chip_new (void)
{
  return g_object_new (TL_TYPE_VERDICT_CHIP, NULL);
}

void
tl_verdict_chip_show (TlVerdictChip *self, const TlVerdict *verdict, const TlLanguage *language)
{
  const char *word = tl_language_text (language, tl_verdict_word (verdict));

  tl_mark_view_show_mark (self->mark, tl_theme_mark (verdict->has_severity, verdict->severity));
  gtk_label_set_text (self->word, word);
  tl_theme_set_severity (GTK_WIDGET (self), verdict->has_severity, verdict->severity);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, word, -1);
}
