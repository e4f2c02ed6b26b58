/* place-card.c: what a part would do in the place under the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/place-card.h"

#include "app/labelled.h"
#include "app/mark-view.h"

#include <glib/gi18n.h>

struct _TlPlaceCard
{
  GtkWidget parent_instance;

  GtkLabel   *title;
  TlMarkView *numbers[2];
  TlMarkView *mark;
  GtkLabel   *couple;
  GtkLabel   *now;
  GtkLabel   *outcome;
  char       *text;
};

G_DEFINE_FINAL_TYPE (TlPlaceCard, tl_place_card, GTK_TYPE_WIDGET)

static void
tl_place_card_dispose (GObject *object)
{
  TlPlaceCard *self = TL_PLACE_CARD (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->text, g_free);
  G_OBJECT_CLASS (tl_place_card_parent_class)->dispose (object);
}

static void
tl_place_card_class_init (TlPlaceCardClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_place_card_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_STATUS);
}

static GtkLabel *
add_label (GtkWidget *box, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
tl_place_card_init (TlPlaceCard *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4),
            *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_add_css_class (GTK_WIDGET (self), "place-card");
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (box), head);
  self->title = add_label (head, "muted");
  for (guint i = 0; i < 2; i++)
    {
      self->numbers[i] = TL_MARK_VIEW (tl_mark_view_new (18));
      gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->numbers[i]));
    }
  gtk_box_append (GTK_BOX (box), line);
  self->mark = TL_MARK_VIEW (tl_mark_view_new (16));
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->mark));
  self->couple = add_label (line, "couple");
  self->now = add_label (box, NULL);
  self->outcome = add_label (box, NULL);
  gtk_label_set_wrap (self->outcome, TRUE);
  gtk_label_set_max_width_chars (self->outcome, 36);
}

GtkWidget *
tl_place_card_new (void)
{
  return g_object_new (TL_TYPE_PLACE_CARD, NULL);
}

/* Leader numbers on either side of a place in the stack; 0 at an end. */
static void
find_neighbours (TlDocument *document, const TlSeat *seat, guint numbers[2])
{
  const TlAssembly *assembly = tl_document_verdict (document)->assembly;
  g_autoptr (GPtrArray) stack = tl_joint_stack (tl_document_joint (document));
  const char *one = NULL, *other = NULL;

  if (seat->kind == TL_SEAT_STACK)
    {
      one = seat->place > 0 && seat->place <= stack->len
                ? g_ptr_array_index (stack, seat->place - 1)
                : NULL;
      other = seat->place < stack->len ? g_ptr_array_index (stack, seat->place) : NULL;
    }
  else if (seat->kind == TL_SEAT_AROUND)
    {
      one = seat->from;
      other = seat->to;
    }
  else
    one = seat->of;
  numbers[0] = one == NULL ? 0 : tl_assembly_number (assembly, one);
  numbers[1] =
      other == NULL || g_strcmp0 (one, other) == 0 ? 0 : tl_assembly_number (assembly, other);
}

static const char *
place_phrase (const TlSeat *seat, const guint numbers[2])
{
  if (seat->kind == TL_SEAT_STACK && numbers[0] != 0 && numbers[1] != 0)
    /* Translators: {part} is the name of a part; one or two numbers in circles follow */
    return _ ("{part} between");
  if (seat->kind == TL_SEAT_STACK && numbers[0] == 0 && numbers[1] != 0)
    return _ ("{part} before");
  if (seat->kind == TL_SEAT_STACK && numbers[0] != 0)
    return _ ("{part} behind");
  if (seat->kind == TL_SEAT_AROUND && numbers[0] != 0)
    return _ ("{part} around");
  if (seat->kind == TL_SEAT_PORT && numbers[0] != 0)
    return seat->place == 1 ? _ ("{part} into the left mouth of")
                            : _ ("{part} into the right mouth of");
  if (seat->kind == TL_SEAT_ON && numbers[0] != 0)
    return _ ("{part} on");
  return "{part}";
}

static char *
outcome_text (TlDocument *document, const TlPreview *preview)
{
  const TlLanguage *language = tl_document_language (document);
  const char       *word = tl_language_text (language, tl_verdict_word (preview->verdict));
  g_autofree char  *sentence = NULL;

  if (preview->worst == NULL)
    return g_strdup_printf (_ ("Verdict would be %s."), word);
  sentence = tl_wording_finding (preview->verdict, preview->worst, language);
  return g_strdup_printf (_ ("Verdict would be %s. %s"), word, sentence);
}

void
tl_place_card_show (TlPlaceCard *self, TlDocument *document, const TlPreview *preview,
                    const TlSeat *seat)
{
  const TlLanguage *language = tl_document_language (document);
  const TlVerdict  *verdict = tl_document_verdict (document);
  g_autofree char  *name =
      tl_assembly_owner_name (preview->verdict->assembly, preview->owner, language);
  g_autofree char *outcome = outcome_text (document, preview);
  g_autofree char *margin = tl_wording_margin (verdict, TL_MARGIN_GALVANIC, language);
  g_autofree char *limit = tl_wording_margin_limit (verdict, TL_MARGIN_GALVANIC, language);
  g_autofree char *now = g_strdup_printf (_ ("now %s, %s"), margin, limit);
  g_autofree char *title = NULL;
  TlSeverity       shown = *preview->couple != 0 ? preview->couple_severity : preview->severity;
  guint            numbers[2];

  find_neighbours (document, seat, numbers);
  title = tl_wording_fill (place_phrase (seat, numbers), "part", name, NULL);
  gtk_label_set_text (self->title, title);
  for (guint i = 0; i < 2; i++)
    {
      gtk_widget_set_visible (GTK_WIDGET (self->numbers[i]), numbers[i] != 0);
      tl_mark_view_show_number (self->numbers[i], numbers[i], FALSE);
    }
  tl_mark_view_show_mark (self->mark, tl_theme_mark (TRUE, shown));
  gtk_label_set_text (self->couple, *preview->couple != '\0'
                                        ? preview->couple
                                        : tl_language_text (language, tl_severity_word (shown)));
  tl_theme_set_severity (GTK_WIDGET (self->couple), TRUE, shown);
  gtk_widget_set_visible (GTK_WIDGET (self->now), verdict->has_margin[TL_MARGIN_GALVANIC]);
  gtk_label_set_text (self->now, now);
  gtk_label_set_text (self->outcome, outcome);
  g_free (self->text);
  self->text = g_strdup_printf ("%s %u %u. %s. %s", title, numbers[0], numbers[1],
                                gtk_label_get_text (self->couple), outcome);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->text,
                                  -1);
}

const char *
tl_place_card_text (TlPlaceCard *self)
{
  return self->text;
}
