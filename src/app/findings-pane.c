/* findings-pane.c: verdict head, margins and rows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/findings-pane.h"

#include "app/labelled.h"
#include "app/finding-row.h"
#include "app/margin-cell.h"
#include "app/mark-view.h"

#include <glib/gi18n.h>

struct _TlFindingsPane
{
  GtkWidget parent_instance;

  TlDocument        *document;
  GtkLabel          *context;
  TlMarkView        *mark;
  GtkLabel          *word;
  GtkLabel          *summary;
  GtkBox            *margins;
  TlMarginCell      *cells[TL_N_MARGINS];
  GtkBox            *anew;
  GtkLabel          *anew_text;
  GtkListBox        *list;
  GtkScrolledWindow *scroller;
  GHashTable        *open; /* (element-type utf8) keys of the rows that are open */
};

G_DEFINE_FINAL_TYPE (TlFindingsPane, tl_findings_pane, GTK_TYPE_WIDGET)

enum
{
  HOVER,
  SHOW,
  ENTER,
  PUT_IN,
  FIND,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- head --- */
static void
show_context (TlFindingsPane *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  const TlJoint    *joint = tl_document_joint (self->document);
  const char       *surroundings = tl_facts_word (joint->site, TL_FIELD_SURROUNDINGS, NULL);
  const char       *practice = tl_language_text (language, tl_practice_label (joint->practice));
  const char       *air =
      surroundings == NULL
                ? _ ("surroundings not said")
                : tl_language_text (language, tl_field_word_label (TL_FIELD_SURROUNDINGS, surroundings));
  g_autofree char *text = g_strdup_printf ("%s · %s", practice, air);

  gtk_label_set_text (self->context, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->context), text);
}

static void
show_head (TlFindingsPane *self)
{
  const TlVerdict  *verdict = tl_document_verdict (self->document);
  const TlLanguage *language = tl_document_language (self->document);
  const char       *word = tl_language_text (language, tl_verdict_word (verdict));
  g_autofree char  *summary = tl_wording_summary (verdict, language);
  g_autofree char  *name = g_strdup_printf (_ ("Verdict: %s. %s"), word, summary);

  show_context (self);
  tl_mark_view_show_mark (self->mark, tl_theme_mark (verdict->has_severity, verdict->severity));
  gtk_label_set_text (self->word, word);
  tl_theme_set_severity (GTK_WIDGET (self->word), verdict->has_severity, verdict->severity);
  gtk_label_set_text (self->summary, summary);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->word), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  for (guint i = 0; i < TL_N_MARGINS; i++)
    tl_margin_cell_show (self->cells[i], verdict, language);
}

/* The joint carries its own figures and they differ from the present data: both verdicts are shown. */
static void
show_anew (TlFindingsPane *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  g_autoptr (TlVerdict) anew = tl_document_judge_anew (self->document);
  g_autofree char *text = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->anew), anew != NULL);
  if (anew == NULL)
    return;
  text = g_strdup_printf (
      _ ("Judged by the figures saved with it (data %s): %s. By the present data (%s): %s."),
      tl_document_joint (self->document)->used->data_version,
      tl_language_text (language, tl_verdict_word (tl_document_verdict (self->document))),
      tl_stock_version (tl_document_stock (self->document)),
      tl_language_text (language, tl_verdict_word (anew)));
  gtk_label_set_text (self->anew_text, text);
}

static void
on_anew (GtkButton *button, TlFindingsPane *self)
{
  TlJoint *after = tl_edit_set_used (tl_document_joint (self->document), NULL);

  tl_document_take (self->document, after, _ ("Judge anew"), tl_document_selected (self->document),
                    0);
  tl_document_tell (self->document, _ ("Judged by the present data."));
}

/* --- rows --- */
static void
on_row_enter (GtkEventControllerMotion *controller, double x, double y, TlFindingsPane *self)
{
  TlFindingRow *row =
      TL_FINDING_ROW (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller)));

  g_signal_emit (self, signals[HOVER], 0, tl_finding_row_contact (row));
}

static void
on_row_leave (GtkEventControllerMotion *controller, TlFindingsPane *self)
{
  g_signal_emit (self, signals[HOVER], 0, -1);
}

static void
add_row (TlFindingsPane *self, GtkWidget *row)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();

  g_signal_connect (motion, "enter", G_CALLBACK (on_row_enter), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_row_leave), self);
  gtk_widget_add_controller (row, motion);
  gtk_list_box_append (self->list, row);
  if (g_hash_table_contains (self->open, tl_finding_row_key (TL_FINDING_ROW (row))))
    tl_finding_row_set_open (TL_FINDING_ROW (row), TRUE);
}

static void
fill (TlFindingsPane *self)
{
  const TlVerdict *verdict = tl_document_verdict (self->document);
  gboolean         had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self->list)) != NULL;
  GtkListBoxRow   *row;

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < verdict->unfinished->len; i++)
    add_row (self, tl_finding_row_new_problem (self->document,
                                               &g_array_index (verdict->unfinished, TlProblem, i)));
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (verdict->findings, i);

      if (finding->severity > TL_SEVERITY_SOUND)
        add_row (self, tl_finding_row_new_finding (self->document, finding));
    }
  for (guint i = 0; i < verdict->not_computed->len; i++)
    add_row (self, tl_finding_row_new_not_computed (
                       self->document, &g_array_index (verdict->not_computed, TlNotComputed, i)));
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (verdict->findings, i);

      if (finding->severity == TL_SEVERITY_SOUND)
        add_row (self, tl_finding_row_new_finding (self->document, finding));
    }
  row = gtk_list_box_get_row_at_index (self->list, 0);
  if (had_focus && row != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row));
  gtk_widget_set_visible (GTK_WIDGET (self->list), row != NULL);
}

static void
on_changed (TlFindingsPane *self)
{
  show_head (self);
  show_anew (self);
  fill (self);
}

static void
on_row_activated (GtkListBox *list, GtkListBoxRow *list_row, TlFindingsPane *self)
{
  TlFindingRow *row = TL_FINDING_ROW (list_row);
  gboolean      is_open = !tl_finding_row_is_open (row);

  if (tl_finding_row_lead_on (row))
    return;
  tl_finding_row_set_open (row, is_open);
  if (is_open)
    g_hash_table_add (self->open, g_strdup (tl_finding_row_key (row)));
  else
    g_hash_table_remove (self->open, tl_finding_row_key (row));
}

/* The keyboard's row does what the pointer's row does. */
static void
on_row_focused (GtkListBox *list, GtkListBoxRow *row, TlFindingsPane *self)
{
  if (row != NULL)
    g_signal_emit (self, signals[HOVER], 0, tl_finding_row_contact (TL_FINDING_ROW (row)));
}

static void
open_row (TlFindingsPane *self, TlFindingRow *row)
{
  g_hash_table_add (self->open, g_strdup (tl_finding_row_key (row)));
  tl_finding_row_set_open (row, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (row));
}

static void
show_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_signal_emit (widget, signals[SHOW], 0, g_variant_get_string (target, NULL));
}

static void
enter_action (GtkWidget *widget, const char *name, GVariant *target)
{
  const char *owner;
  guint       field;

  g_variant_get (target, "(&su)", &owner, &field);
  g_signal_emit (widget, signals[ENTER], 0, owner, field);
}

/* The rows are made anew by what they ask for: the text is kept until it is done. */
static void
put_in_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autofree char *owner = g_variant_dup_string (target, NULL);

  g_signal_emit (widget, signals[PUT_IN], 0, owner);
}

static void
find_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_signal_emit (widget, signals[FIND], 0, g_variant_get_string (target, NULL));
}

static void
tl_findings_pane_dispose (GObject *object)
{
  TlFindingsPane *self = TL_FINDINGS_PANE (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_FINDINGS_PANE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->document);
  g_clear_pointer (&self->open, g_hash_table_unref);
  G_OBJECT_CLASS (tl_findings_pane_parent_class)->dispose (object);
}

static void
tl_findings_pane_class_init (TlFindingsPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_findings_pane_dispose;
  signals[HOVER] = g_signal_new ("hover", TL_TYPE_FINDINGS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[SHOW] = g_signal_new ("show-owner", TL_TYPE_FINDINGS_PANE, G_SIGNAL_RUN_LAST, 0, NULL,
                                NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[ENTER] = g_signal_new ("enter", TL_TYPE_FINDINGS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_UINT);
  signals[PUT_IN] = g_signal_new ("put-in", TL_TYPE_FINDINGS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[FIND] = g_signal_new ("find", TL_TYPE_FINDINGS_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  g_type_ensure (TL_TYPE_MARK_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/findings-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, context);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, mark);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, word);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, summary);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, margins);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, anew);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, anew_text);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, list);
  gtk_widget_class_bind_template_child (widget_class, TlFindingsPane, scroller);
  gtk_widget_class_bind_template_callback (widget_class, on_anew);
  gtk_widget_class_bind_template_callback (widget_class, on_row_activated);
  gtk_widget_class_bind_template_callback (widget_class, on_row_focused);
  gtk_widget_class_install_action (widget_class, "findings.show", "s", show_action);
  gtk_widget_class_install_action (widget_class, "findings.enter", "(su)", enter_action);
  gtk_widget_class_install_action (widget_class, "findings.put-in", "s", put_in_action);
  gtk_widget_class_install_action (widget_class, "findings.find", "s", find_action);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_findings_pane_init (TlFindingsPane *self)
{
  self->open = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  for (TlMargin margin = 0; margin < TL_N_MARGINS; margin++)
    {
      self->cells[margin] = TL_MARGIN_CELL (tl_margin_cell_new (margin));
      gtk_widget_set_hexpand (GTK_WIDGET (self->cells[margin]), TRUE);
      gtk_box_append (self->margins, GTK_WIDGET (self->cells[margin]));
    }
}

void
tl_findings_pane_set_document (TlFindingsPane *self, TlDocument *document)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
  on_changed (self);
}

void
tl_findings_pane_preview (TlFindingsPane *self, const TlVerdict *verdict)
{
  for (guint i = 0; i < TL_N_MARGINS; i++)
    tl_margin_cell_preview (self->cells[i], verdict);
}

void
tl_findings_pane_hover (TlFindingsPane *self, gint contact)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (contact >= 0 && tl_finding_row_has_contact (TL_FINDING_ROW (row), (guint) contact))
      gtk_widget_add_css_class (GTK_WIDGET (row), "hovered");
    else
      gtk_widget_remove_css_class (GTK_WIDGET (row), "hovered");
}

void
tl_findings_pane_open_contact (TlFindingsPane *self, guint contact)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (tl_finding_row_has_contact (TL_FINDING_ROW (row), contact))
      {
        open_row (self, TL_FINDING_ROW (row));
        return;
      }
}

void
tl_findings_pane_open_owner (TlFindingsPane *self, const char *owner)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (tl_finding_row_is_about (TL_FINDING_ROW (row), owner))
      {
        open_row (self, TL_FINDING_ROW (row));
        return;
      }
}

gboolean
tl_findings_pane_next_missing (TlFindingsPane *self)
{
  const TlVerdict *verdict = tl_document_verdict (self->document);

  for (guint i = 0; i < verdict->unfinished->len; i++)
    {
      const TlProblem *problem = &g_array_index (verdict->unfinished, TlProblem, i);
      g_autofree char *owner = NULL;

      if (problem->field >= TL_N_FIELDS)
        continue;
      owner = g_strdup (problem->owner);
      g_signal_emit (self, signals[ENTER], 0, owner, (guint) problem->field);
      return TRUE;
    }
  return FALSE;
}
