/* picture-row.c: head of a record, and its form.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/picture-row.h"

#include "app/defect-choice.h"
#include "app/labelled.h"
#include "app/mark-view.h"
#include "app/record-lines.h"
#include "base/quantity.h"
#include "draw/picture-paint.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

struct _TlPictureRow
{
  GtkListBoxRow parent_instance;

  TlInspector        *inspector;
  char               *id;
  const TlRecordLine *lines; /* of the form this row would have */
  TlMarkView         *edge, *mark, *number;
  GtkLabel           *word, *sentence, *designed, *measured, *decision, *action, *whose;
  GtkWidget          *trio;
  GtkRevealer        *revealer;
  GtkBox             *details;
  TlRecordForm       *form; /* NULL: never opened */
  GtkWidget          *up, *down, *remove;
};

G_DEFINE_FINAL_TYPE (TlPictureRow, tl_picture_row, GTK_TYPE_LIST_BOX_ROW)

static const TlLanguage *
language_of (TlPictureRow *self)
{
  return tl_document_language (tl_inspector_document (self->inspector));
}

static gconstpointer
record_of (TlPictureRow *self)
{
  return tl_inspector_record (self->inspector, self->id);
}

/* --- what the head says --- */

typedef struct
{
  TlMark      mark;
  const char *word;
  char       *own_word; /* (nullable): frees @word */
  guint       number;   /* 0: none */
  char       *sentence, *designed, *measured, *decision;
  const char *action;
  const char *who, *when; /* "" or %NULL where nobody wrote it down */
} Head;

static void
head_clear (Head *head)
{
  g_free (head->own_word);
  g_free (head->sentence);
  g_free (head->designed);
  g_free (head->measured);
  g_free (head->decision);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Head, head_clear)

static TlMark
decision_mark (TlDecision decision)
{
  return decision == TL_DECISION_BEYOND   ? TL_MARK_CHANGE
         : decision == TL_DECISION_WITHIN ? TL_MARK_SOUND
                                          : TL_MARK_NOT_COMPUTED;
}

static void
measure_figures (TlPictureRow *self, const TlMeasure *measure, Head *head)
{
  const TlInspections *all = tl_inspector_inspections (self->inspector);
  const TlLanguage    *language = language_of (self);
  TlMeasureResult      result;
  TlDecision           decision;

  if (!tl_inspections_run (all, tl_inspector_inspection (self->inspector), measure, &result, NULL))
    {
      head->measured = g_strdup (_ ("not computed"));
      return;
    }
  decision = tl_measure_decide (measure, &result);
  head->measured = tl_measure_text (measure, &result, language);
  head->designed = tl_measure_limit_text (measure, language);
  if (!result.plane_assured && measure->limit_kind != TL_LIMIT_NONE)
    head->decision = g_strdup (_ ("plane not assured"));
  else
    head->decision =
        g_strdup_printf (result.is_outside ? _ ("%s; lies outside the reference") : "%s",
                         tl_language_text (language, tl_decision_word (decision)));
  head->mark = decision_mark (decision);
}

static void
head_of_mark (TlPictureRow *self, const TlPictureMark *mark, Head *head)
{
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);
  const TlMeasure    *measure = tl_inspection_measure (inspection, mark->measure);
  const TlReading    *reading =
      tl_inspections_reading (tl_inspector_inspections (self->inspector), mark->measure);

  if (measure != NULL)
    measure_figures (self, measure, head);
  else if (reading != NULL)
    head->measured = tl_reading_text (reading, language_of (self));
  head->mark = tl_picture_grade_mark (mark->grade);
  head->word = tl_language_text (language_of (self), tl_grade_label (mark->grade));
  head->number = mark->number;
  head->sentence = g_strdup (*mark->seen != '\0' ? mark->seen : _ ("Say what is seen."));
  head->who = mark->who;
  head->when = mark->when;
  head->action = mark->action;
}

static void
head_of_scale (TlPictureRow *self, const TlScale *scale, Head *head)
{
  static const char *const planes[] = {
    N_ ("Nobody says where the measured things lie: measures decide nothing."),
    N_ ("Measured things lie in its plane."), N_ ("Measured things lie off its plane.")
  };
  g_autofree char *length = tl_language_number (language_of (self), scale->length_mm, 1),
                  *height = tl_language_number (language_of (self), scale->height_mm, 1);

  head->who = scale->who;
  head->when = scale->when;
  head->mark = scale->plane == TL_PLANE_UNKNOWN ? TL_MARK_NOT_COMPUTED : TL_MARK_SOUND;
  head->word = head->own_word = scale->length_mm <= 0.0 ? g_strdup (_ ("Scale"))
                                : scale->kind == TL_SCALE_LENGTH
                                    ? g_strdup_printf (_ ("Scale %s mm"), length)
                                    : g_strdup_printf (_ ("Scale %s × %s mm"), length, height);
  if (*self->id == '\0')
    head->sentence = g_strdup (scale->kind == TL_SCALE_LENGTH
                                   ? _ ("Enter the true length of the line that was drawn.")
                                   : _ ("Enter the two edges of the rectangle that was drawn."));
  else
    head->sentence = g_strdup (_ (planes[scale->plane]));
}

static void
head_of_reading (TlPictureRow *self, const TlReading *reading, Head *head)
{
  const TlLanguage *language = language_of (self);
  const TlStock    *stock = tl_document_stock (tl_inspector_document (self->inspector));
  g_autoptr (GArray) results = tl_reading_judge (reading, stock);
  const TlReadingResult *worst = NULL;
  TlGrade                grade;

  head->word = tl_language_text (language, tl_reading_kind_label (reading->kind));
  head->measured = tl_reading_text (reading, language);
  head->who = reading->who;
  head->when = reading->when;
  head->mark = TL_MARK_NOT_COMPUTED;
  if (tl_reading_grade (reading, stock, &grade))
    head->mark = grade == TL_GRADE_NOTHING_SEEN ? TL_MARK_SOUND : tl_picture_grade_mark (grade);
  for (guint i = 0; i < results->len; i++)
    {
      const TlReadingResult *result = &g_array_index (results, TlReadingResult, i);

      if (worst == NULL || (result->is_computed && !worst->is_computed)
          || (result->is_computed && result->grade_most > worst->grade_most))
        worst = result;
    }
  if (worst == NULL)
    {
      head->sentence = g_strdup (_ ("No published criterion for it here."));
      return;
    }
  head->sentence = g_strdup_printf ("%s: %s", tl_language_text (language, worst->criterion),
                                    tl_language_text (language, worst->says));
  head->decision =
      g_strdup (worst->is_computed ? tl_language_text (language, tl_grade_label (worst->grade_most))
                                   : _ ("not computed"));
  if (worst->is_computed && !isnan (worst->limit))
    head->designed = tl_quantity_format (worst->limit, worst->unit, language);
}

static void
head_of_measure (TlPictureRow *self, const TlMeasure *measure, Head *head)
{
  head->word = tl_language_text (language_of (self), tl_measure_kind_label (measure->kind));
  head->who = measure->who;
  head->when = measure->when;
  head->mark = TL_MARK_NOT_COMPUTED;
  measure_figures (self, measure, head);
  head->sentence = g_strdup (*measure->what != '\0' ? measure->what : _ ("Say what was measured."));
}

static void
head_of (TlPictureRow *self, gconstpointer record, Head *head)
{
  const TlForm *form = ((const TlRecord *) record)->form;

  if (form == &tl_picture_mark_form)
    head_of_mark (self, record, head);
  else if (form == &tl_measure_form)
    head_of_measure (self, record, head);
  else if (form == &tl_scale_form)
    head_of_scale (self, record, head);
  else
    head_of_reading (self, record, head);
}

/* --- the form --- */

static gboolean
put (TlPictureRow *self, gpointer record, const char *slot, GError **error)
{
  g_autofree char *label = NULL;

  if (*self->id == '\0')
    {
      TlScale *scale = record;

      if (scale->length_mm <= 0.0 || (scale->kind == TL_SCALE_RECTANGLE && scale->height_mm <= 0.0))
        {
          tl_inspector_set_draft (self->inspector, tl_record_ref (record));
          return TRUE;
        }
      if (!tl_inspector_put (self->inspector, record, _ ("Set the scale"), 0, error))
        return FALSE;
      tl_inspector_drop_draft (self->inspector);
      return TRUE;
    }
  label = g_strdup_printf (_ ("Set %s"), slot);
  return tl_inspector_put (self->inspector, record, label, 0, error);
}

static void
on_edited (TlRecordForm *form, const char *slot, const char *text, TlPictureRow *self)
{
  gconstpointer record = record_of (self);
  g_autoptr (TlPictureRow) kept = g_object_ref (self);
  g_autofree char *line = g_strdup (slot);
  g_autoptr (GError) error = NULL;
  gpointer changed;

  if (record == NULL)
    return;
  if (strcmp (slot, TL_LINE_CHECKS) == 0)
    {
      if (!tl_inspector_tie_measure (self->inspector, self->id, text, &error))
        tl_record_form_refuse (form, line, error == NULL ? NULL : error->message);
      return;
    }
  changed = tl_record_copy (record);
  if (!tl_record_form_apply (form, changed, slot, text, &error)
      || !put (self, changed, slot, &error))
    tl_record_form_refuse (form, line, error->message);
  tl_record_unref (changed);
}

static void
on_defect (TlDefectChoice *choice, const char *id, TlPictureRow *self)
{
  const TlDefect *defect = tl_defects_find (tl_inspector_defects (self->inspector), id);
  gconstpointer   record = record_of (self);
  g_autoptr (GError) error = NULL;
  TlPictureMark *mark;

  if (record == NULL || defect == NULL)
    return;
  mark = tl_record_copy (record);
  tl_picture_mark_set_defect (mark, defect, language_of (self));
  if (!tl_inspector_put (self->inspector, mark, _ ("Name the defect"), 0, &error))
    tl_document_refuse (tl_inspector_document (self->inspector), error->message);
  tl_record_unref (mark);
}

static void
on_remove (GtkButton *button, TlPictureRow *self)
{
  tl_inspector_remove (self->inspector, self->id);
}

static void
number_by (TlPictureRow *self, int step)
{
  const TlPictureMark *mark = record_of (self);
  const TlInspection  *inspection = tl_inspector_inspection (self->inspector);
  g_autoptr (GError) error = NULL;

  if (mark == NULL || (int) mark->number + step < 1)
    return;
  if (!tl_inspector_take (self->inspector,
                          tl_inspections_number_mark (tl_inspector_inspections (self->inspector),
                                                      inspection->id, self->id,
                                                      (guint) ((int) mark->number + step), &error),
                          NULL, _ ("Number the mark"), 0))
    tl_document_refuse (tl_inspector_document (self->inspector), error->message);
}

static void
on_up (GtkButton *button, TlPictureRow *self)
{
  number_by (self, -1);
}

static void
on_down (GtkButton *button, TlPictureRow *self)
{
  number_by (self, 1);
}

static GtkWidget *
button_new (const char *label, GCallback callback, TlPictureRow *self)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "plain");
  g_signal_connect (button, "clicked", callback, self);
  return button;
}

static void
add_objections (TlPictureRow *self, GtkBox *box)
{
  /* Filled by refresh: sentences that a report may not have. */
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "error-text");
  gtk_widget_set_visible (label, FALSE);
  g_object_set_data (G_OBJECT (self), "tl-objections", label);
  gtk_box_append (box, label);
}

static void
fill_details (TlPictureRow *self)
{
  gconstpointer record = record_of (self);
  GtkWidget    *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gboolean      is_mark = ((const TlRecord *) record)->form == &tl_picture_mark_form;

  if (is_mark)
    {
      GtkWidget *choice =
          tl_defect_choice_new (tl_inspector_defects (self->inspector), language_of (self));

      g_signal_connect_object (choice, "chosen", G_CALLBACK (on_defect), self, 0);
      gtk_box_append (self->details, choice);
      add_objections (self, self->details);
    }
  self->form = TL_RECORD_FORM (tl_record_form_new (self->lines, language_of (self)));
  g_signal_connect_object (self->form, "edited", G_CALLBACK (on_edited), self, 0);
  gtk_box_append (self->details, GTK_WIDGET (self->form));
  if (is_mark)
    {
      self->up = button_new (_ ("Earlier"), G_CALLBACK (on_up), self);
      self->down = button_new (_ ("Later"), G_CALLBACK (on_down), self);
      gtk_widget_set_tooltip_text (self->up, _ ("One number lower"));
      gtk_widget_set_tooltip_text (self->down, _ ("One number higher"));
      gtk_box_append (GTK_BOX (buttons), self->up);
      gtk_box_append (GTK_BOX (buttons), self->down);
    }
  self->remove =
      button_new (*self->id == '\0' ? _ ("Cancel") : _ ("Remove"), G_CALLBACK (on_remove), self);
  gtk_box_append (GTK_BOX (buttons), self->remove);
  gtk_box_append (self->details, buttons);
}

/* --- showing --- */

static void
set_text (GtkLabel *label, const char *text)
{
  gboolean has_text = text != NULL && *text != '\0';

  gtk_label_set_text (label, has_text ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), has_text);
}

static void
show_head (TlPictureRow *self, const Head *head)
{
  g_autofree char *name = g_strdup_printf (
      "%s %s %s %s", head->word, head->sentence == NULL ? "" : head->sentence,
      head->measured == NULL ? "" : head->measured, head->decision == NULL ? "" : head->decision);

  tl_mark_view_show_edge (self->edge, head->mark);
  tl_mark_view_show_mark (self->mark, head->mark);
  gtk_label_set_text (self->word, head->word);
  gtk_widget_set_visible (GTK_WIDGET (self->number), head->number > 0);
  if (head->number > 0)
    tl_mark_view_show_number (self->number, head->number, FALSE);
  set_text (self->sentence, head->sentence);
  set_text (self->action, head->action);
  gtk_label_set_text (self->designed,
                      head->designed != NULL && *head->designed != '\0' ? head->designed : "–");
  gtk_label_set_text (self->measured, head->measured != NULL ? head->measured : "–");
  gtk_label_set_text (self->decision, head->decision != NULL ? head->decision : "–");
  gtk_widget_set_visible (self->trio, head->measured != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* The day only; the report's chain has the hour. */
static void
show_whose (TlPictureRow *self, const Head *head)
{
  gboolean has_who = head->who != NULL && *head->who != '\0',
           has_when = head->when != NULL && *head->when != '\0';
  g_autofree char *day = g_strndup (has_when ? head->when : "", strlen ("2026-03-03")),
                  *text = NULL;

  if (has_who && has_when)
    /* Translators: a name and a day */
    text = g_strdup_printf (_ ("by %s, %s"), head->who, day);
  else
    text = has_who ? g_strdup_printf (_ ("by %s"), head->who) : g_steal_pointer (&day);
  set_text (self->whose, text);
}

static void
show_objections (TlPictureRow *self, gconstpointer record)
{
  GtkWidget *label = g_object_get_data (G_OBJECT (self), "tl-objections");
  g_autoptr (GPtrArray) objections = NULL;
  g_autofree char *text = NULL;

  if (label == NULL)
    return;
  objections = tl_picture_mark_objections_by (
      record, tl_document_stock (tl_inspector_document (self->inspector)), language_of (self));
  g_ptr_array_add (objections, NULL);
  text = g_strjoinv ("\n", (char **) objections->pdata);
  set_text (GTK_LABEL (label), text);
}

gboolean
tl_picture_row_refresh (TlPictureRow *self)
{
  gconstpointer record = record_of (self);
  g_auto (Head) head = { .word = "" };
  gboolean is_open = tl_inspector_is_open (self->inspector);

  if (record == NULL || tl_record_lines (record) != self->lines)
    return FALSE;
  head_of (self, record, &head);
  show_head (self, &head);
  show_whose (self, &head);
  if (self->form == NULL)
    return TRUE;
  tl_record_form_show (self->form, record, is_open);
  tl_record_lines_fill (self->form, self->inspector, record);
  show_objections (self, record);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->details)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (child != GTK_WIDGET (self->form))
      gtk_widget_set_sensitive (child, is_open);
  return TRUE;
}

void
tl_picture_row_set_open (TlPictureRow *self, gboolean is_open)
{
  if (is_open && self->form == NULL && record_of (self) != NULL)
    {
      fill_details (self);
      tl_picture_row_refresh (self);
    }
  gtk_revealer_set_reveal_child (self->revealer, is_open);
  gtk_widget_set_visible (GTK_WIDGET (self->revealer), is_open);
  if (is_open)
    gtk_widget_add_css_class (GTK_WIDGET (self), "marked");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "marked");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_EXPANDED, is_open, -1);
}

const char *
tl_picture_row_id (TlPictureRow *self)
{
  return self->id;
}

const char *
tl_picture_row_whose (TlPictureRow *self)
{
  return gtk_label_get_text (self->whose);
}

TlRecordForm *
tl_picture_row_form (TlPictureRow *self)
{
  return self->form;
}

/* --- widget --- */

static void
tl_picture_row_dispose (GObject *object)
{
  TlPictureRow *self = TL_PICTURE_ROW (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_PICTURE_ROW);
  g_clear_object (&self->inspector);
  g_clear_pointer (&self->id, g_free);
  G_OBJECT_CLASS (tl_picture_row_parent_class)->dispose (object);
}

static void
tl_picture_row_class_init (TlPictureRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_picture_row_dispose;
  g_type_ensure (TL_TYPE_MARK_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/picture-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, edge);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, mark);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, number);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, word);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, sentence);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, trio);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, designed);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, measured);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, decision);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, action);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, whose);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, revealer);
  gtk_widget_class_bind_template_child (widget_class, TlPictureRow, details);
}

static void
tl_picture_row_init (TlPictureRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tl_picture_row_new (TlInspector *inspector, const char *id)
{
  TlPictureRow *self = g_object_new (TL_TYPE_PICTURE_ROW, NULL);

  self->inspector = g_object_ref (inspector);
  self->id = g_strdup (id);
  self->lines = tl_record_lines (record_of (self));
  tl_picture_row_refresh (self);
  return GTK_WIDGET (self);
}
