/* ageing-page.c: forecast of the open joint, and its charts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/ageing-page.h"

#include "app/ageing-charts.h"
#include "app/ageing-side.h"
#include "app/labelled.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlAgeingPage
{
  GtkWidget parent_instance;

  TlDocument      *document;
  TlForecast      *forecast;    /* that is shown, or NULL */
  GCancellable    *cancellable; /* of the forecast that is being reckoned, or NULL */
  guint            patience;    /* source: then the bar is shown */
  guint            folding;     /* source: then the columns change places */
  GtkLabel        *basis;
  GtkToggleButton *years_button;
  GtkToggleButton *now_button;
  GtkDropDown     *span;
  GtkWidget       *progress;
  GtkProgressBar  *bar;
  GtkBox          *columns;
  GtkStack        *views;
  GtkStack        *years; /* charts, or why there are none */
  TlAgeingSide    *side;
  TlChartView     *charts[TL_N_AGEING_OUTPUTS]; /* NULL: not shown */
  TlChartView     *hot;
  TlChartView     *growth;
  TlChartView     *force;
  TlChartView     *along;
  TlChartView     *ladder;
  GtkLabel        *empty_head;
  GtkLabel        *empty_reason;
  GtkButton       *empty_button;
};

G_DEFINE_FINAL_TYPE (TlAgeingPage, tl_ageing_page, GTK_TYPE_WIDGET)

static const guint spans[] = { 5, 10, 20, 40 };
static const guint DEFAULT_SPAN = 2; /* row */
/* Work that takes longer says so. */
static const guint PATIENCE_MS = 500;
/* Narrower than this the side column goes below the charts, px. */
static const int   FOLD_WIDTH = 720;

/* --- what is shown --- */

static void
show_bands (TlAgeingPage *self)
{
  for (TlAgeingOutput k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    if (self->charts[k] != NULL)
      tl_ageing_charts_show_band (self->charts[k], self->forecast, k,
                                  tl_document_language (self->document));
}

static void
show_along (TlAgeingPage *self)
{
  if (self->forecast != NULL)
    tl_ageing_charts_show_along (self->along, self->forecast,
                                 tl_document_language (self->document));
  else
    tl_chart_view_refuse (self->along, _ ("Temperature along the joint"),
                          self->cancellable == NULL ? _ ("Cancelled.") : _ ("Being reckoned."));
}

/* --- nothing to show --- */

/* The page's two conditions: how much flows, and where the joint lives. */
static gboolean
has_duty (TlAgeingPage *self)
{
  const TlJoint *joint = tl_document_joint (self->document);
  const TlStock *stock = tl_document_effective_stock (self->document);

  return tl_facts_number (joint->duty, TL_FIELD_LOAD, 0.0) > 0.0
         && tl_joint_site_fact (joint, stock, TL_FIELD_SURROUNDINGS) != NULL;
}

/* What is missing and who lacks it, for the button. */
static gboolean
missing (TlAgeingPage *self, const char **owner, TlField *field)
{
  const TlAgeing *ageing = tl_forecast_ageing (self->forecast);

  *owner = ageing->owner;
  *field = ageing->field;
  if (*owner == NULL
      && tl_facts_number (tl_document_joint (self->document)->duty, TL_FIELD_LOAD, 0.0) <= 0.0)
    {
      *owner = "duty";
      *field = TL_FIELD_LOAD;
    }
  return *owner != NULL && *field < TL_N_FIELDS;
}

static void
show_empty (TlAgeingPage *self, const char *head, const char *reason, const char *button,
            const char *action, GVariant *target)
{
  gtk_label_set_text (self->empty_head, head);
  gtk_label_set_text (self->empty_reason, reason);
  gtk_widget_set_visible (GTK_WIDGET (self->empty_reason), *reason != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->empty_button), button != NULL);
  gtk_button_set_label (self->empty_button, button == NULL ? "" : button);
  gtk_actionable_set_action_target_value (GTK_ACTIONABLE (self->empty_button), target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->empty_button), action);
  gtk_stack_set_visible_child_name (self->years, "empty");
}

static void
show_not_computed (TlAgeingPage *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  g_autofree char  *reason =
      tl_ageing_reason_text (tl_forecast_ageing (self->forecast),
                             tl_document_verdict (self->document)->assembly, language);
  g_autofree char *button = NULL;
  const char      *head =
      has_duty (self) ? _ ("Not computed") : _ ("Needs the load and the surroundings.");
  const char *owner;
  TlField     field;

  if (!missing (self, &owner, &field))
    {
      show_empty (self, head, reason, _ ("Go to the bench"), "win.page",
                  g_variant_new_string ("build"));
      return;
    }
  button =
      g_strdup_printf (_ ("Enter: %s"), tl_language_text (language, tl_field_info (field)->label));
  show_empty (self, head, reason, button, "win.enter",
              g_variant_new ("(su)", owner, (guint) field));
}

/* --- all of it --- */

/* On what load and air the charts in front stand. */
static void
show_basis (TlAgeingPage *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  const TlAgeing   *ageing = self->forecast == NULL ? NULL : tl_forecast_ageing (self->forecast);
  g_autofree char  *load = NULL, *air = NULL, *text = NULL;

  if (ageing == NULL || !ageing->is_computed)
    text = g_strdup (_ ("Indicative: read the band, not the line."));
  else if (gtk_toggle_button_get_active (self->years_button))
    text = tl_ageing_basis_text (ageing, language);
  else
    {
      load = tl_quantity_format (ageing->load_A, "A", language);
      air = tl_quantity_format (ageing->ambient_C, "degC", language);
      text = g_strdup_printf (_ ("This joint as built, at %s and %s around the box. An estimate."),
                              load, air);
    }
  gtk_label_set_text (self->basis, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->basis), text);
}

/* The side column is about the years alone. */
static void
show_side (TlAgeingPage *self)
{
  gboolean is_years = gtk_toggle_button_get_active (self->years_button);
  gboolean has_years = self->forecast != NULL && tl_forecast_ageing (self->forecast)->is_computed;

  gtk_widget_set_visible (GTK_WIDGET (self->side), is_years && has_years);
  gtk_widget_set_visible (GTK_WIDGET (self->span), is_years);
  show_basis (self);
}

static void
show_all (TlAgeingPage *self)
{
  tl_ageing_charts_show_ladder (self->ladder, tl_document_verdict (self->document),
                                tl_document_language (self->document));
  show_along (self);
  show_side (self);
  if (self->forecast == NULL)
    {
      if (self->cancellable == NULL)
        show_empty (self, _ ("Cancelled."), _ ("The years ahead were not reckoned."), _ ("Reckon"),
                    "ageing.reckon", NULL);
      else
        show_empty (self, _ ("Being reckoned."), "", NULL, NULL, NULL);
      return;
    }
  if (!tl_forecast_ageing (self->forecast)->is_computed)
    {
      show_not_computed (self);
      return;
    }
  show_bands (self);
  tl_ageing_side_show (self->side, self->forecast, tl_document_language (self->document));
  gtk_stack_set_visible_child_name (self->years, "charts");
}

/* --- reckoning --- */

typedef struct
{
  TlVerdict *verdict;
  double     span_years;
} Job;

static void
job_free (gpointer data)
{
  Job *self = data;

  tl_verdict_unref (self->verdict);
  g_free (self);
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job  *job = data;
  GError     *error = NULL;
  TlForecast *forecast = tl_forecast_new (job->verdict, job->span_years, cancellable, &error);

  if (forecast == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, forecast, (GDestroyNotify) tl_forecast_unref);
}

/* Leaves nothing that could still call the page. */
static void
stop (TlAgeingPage *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->patience, g_source_remove);
  if (self->progress != NULL)
    gtk_widget_set_visible (self->progress, FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "ageing.cancel", FALSE);
}

/* The task holds the page weakly, so that a page that was closed meanwhile is not finalized in a thread of work. */
static void
on_ready (GObject *source, GAsyncResult *result, gpointer data)
{
  GWeakRef *weak = data;
  g_autoptr (TlAgeingPage) self = g_weak_ref_get (weak);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlForecast) forecast = g_task_propagate_pointer (G_TASK (result), &error);

  g_weak_ref_clear (weak);
  g_free (weak);
  if (self == NULL || g_task_get_cancellable (G_TASK (result)) != self->cancellable)
    return;
  stop (self);
  g_clear_pointer (&self->forecast, tl_forecast_unref);
  self->forecast = g_steal_pointer (&forecast);
  show_all (self);
  if (error != NULL)
    gtk_label_set_text (self->empty_reason, error->message);
}

static gboolean
on_slow (gpointer data)
{
  TlAgeingPage *self = data;

  self->patience = 0;
  gtk_widget_set_visible (self->progress, TRUE);
  gtk_progress_bar_pulse (self->bar);
  return G_SOURCE_REMOVE;
}

static double
span_years (TlAgeingPage *self)
{
  return spans[MIN (gtk_drop_down_get_selected (self->span), G_N_ELEMENTS (spans) - 1)];
}

/* A forecast belongs to one verdict and one span. */
static gboolean
is_current (TlAgeingPage *self)
{
  return self->forecast != NULL
         && tl_forecast_verdict (self->forecast) == tl_document_verdict (self->document)
         && tl_forecast_ageing (self->forecast)->span_years == span_years (self);
}

static void
start (TlAgeingPage *self)
{
  g_autoptr (GTask) task = NULL;
  GWeakRef *weak = g_new0 (GWeakRef, 1);
  Job      *job = g_new0 (Job, 1);

  stop (self);
  self->cancellable = g_cancellable_new ();
  g_weak_ref_init (weak, self);
  job->verdict = tl_verdict_ref (tl_document_verdict (self->document));
  job->span_years = span_years (self);
  task = g_task_new (NULL, self->cancellable, on_ready, weak);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
  self->patience = g_timeout_add (PATIENCE_MS, on_slow, self);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "ageing.cancel", TRUE);
}

/* What is on screen stays until the next is there, unless it is of another joint. */
static void
bring_up_to_date (TlAgeingPage *self)
{
  if (self->document == NULL)
    return;
  if (is_current (self))
    {
      stop (self);
      show_all (self);
      return;
    }
  if (self->forecast != NULL
      && tl_forecast_verdict (self->forecast) != tl_document_verdict (self->document))
    g_clear_pointer (&self->forecast, tl_forecast_unref);
  start (self);
  if (self->forecast == NULL)
    show_all (self);
}

static void
on_changed (TlAgeingPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    bring_up_to_date (self);
  else
    stop (self);
}

/* --- controls --- */

static void
on_span (GtkDropDown *choice, GParamSpec *pspec, TlAgeingPage *self)
{
  if (self->document != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    bring_up_to_date (self);
}

static void
on_view (GtkToggleButton *button, TlAgeingPage *self)
{
  gboolean is_years = gtk_toggle_button_get_active (self->years_button);

  gtk_stack_set_visible_child_name (self->views, is_years ? "years" : "now");
  if (self->document != NULL)
    show_side (self);
}

static void
view_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlAgeingPage *self = TL_AGEING_PAGE (widget);
  gboolean      is_now = g_str_equal (g_variant_get_string (target, NULL), "now");

  gtk_toggle_button_set_active (is_now ? self->now_button : self->years_button, TRUE);
}

static void
cancel_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlAgeingPage *self = TL_AGEING_PAGE (widget);

  stop (self);
  if (!is_current (self))
    g_clear_pointer (&self->forecast, tl_forecast_unref);
  show_all (self);
}

static void
reckon_action (GtkWidget *widget, const char *name, GVariant *target)
{
  bring_up_to_date (TL_AGEING_PAGE (widget));
}

/* --- widget --- */

static gboolean
fold (gpointer data)
{
  TlAgeingPage *self = data;
  gboolean      is_narrow = gtk_widget_get_width (GTK_WIDGET (self)) < FOLD_WIDTH;

  self->folding = 0;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns), is_narrow
                                                                      ? GTK_ORIENTATION_VERTICAL
                                                                      : GTK_ORIENTATION_HORIZONTAL);
  return G_SOURCE_REMOVE;
}

/* Children must not be turned while they are being allocated. */
static void
tl_ageing_page_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlAgeingPage  *self = TL_AGEING_PAGE (widget);
  GtkAllocation  whole = { 0, 0, width, height };
  GtkOrientation now = gtk_orientable_get_orientation (GTK_ORIENTABLE (self->columns));

  gtk_widget_size_allocate (gtk_widget_get_first_child (widget), &whole, baseline);
  if ((width < FOLD_WIDTH) != (now == GTK_ORIENTATION_VERTICAL) && self->folding == 0)
    self->folding = g_idle_add (fold, self);
}

static void
tl_ageing_page_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  gtk_widget_measure (gtk_widget_get_first_child (widget), orientation, for_size, minimum, natural,
                      minimum_baseline, natural_baseline);
}

static void
tl_ageing_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tl_ageing_page_parent_class)->map (widget);
  bring_up_to_date (TL_AGEING_PAGE (widget));
}

static void
tl_ageing_page_dispose (GObject *object)
{
  TlAgeingPage *self = TL_AGEING_PAGE (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  stop (self);
  g_clear_handle_id (&self->folding, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_AGEING_PAGE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->forecast, tl_forecast_unref);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (tl_ageing_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, basis);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, years_button);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, now_button);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, span);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, progress);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, bar);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, columns);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, views);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, years);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, side);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, hot);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, growth);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, force);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, along);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, ladder);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, empty_head);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, empty_reason);
  gtk_widget_class_bind_template_child (widget_class, TlAgeingPage, empty_button);
}

static void
tl_ageing_page_class_init (TlAgeingPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_ageing_page_dispose;
  widget_class->map = tl_ageing_page_map;
  widget_class->size_allocate = tl_ageing_page_size_allocate;
  widget_class->measure = tl_ageing_page_measure;
  g_type_ensure (TL_TYPE_CHART_VIEW);
  g_type_ensure (TL_TYPE_AGEING_SIDE);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/ageing-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_span);
  gtk_widget_class_bind_template_callback (widget_class, on_view);
  gtk_widget_class_install_action (widget_class, "ageing.view", "s", view_action);
  gtk_widget_class_install_action (widget_class, "ageing.cancel", NULL, cancel_action);
  gtk_widget_class_install_action (widget_class, "ageing.reckon", NULL, reckon_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "ageing.cancel", NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_ageing_page_init (TlAgeingPage *self)
{
  const char *texts[G_N_ELEMENTS (spans) + 1] = { NULL };
  const char *ids[] = { "5", "10", "20", "40", NULL };
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func (g_free);

  gtk_widget_init_template (GTK_WIDGET (self));
  self->charts[TL_AGEING_HOT] = self->hot;
  self->charts[TL_AGEING_GROWTH] = self->growth;
  self->charts[TL_AGEING_FORCE] = self->force;
  for (guint i = 0; i < G_N_ELEMENTS (spans); i++)
    {
      g_ptr_array_add (
          kept, g_strdup_printf (g_dngettext (NULL, "%u year", "%u years", spans[i]), spans[i]));
      texts[i] = g_ptr_array_index (kept, i);
    }
  tl_choice_fill (self->span, texts, ids);
  gtk_drop_down_set_selected (self->span, DEFAULT_SPAN);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "ageing.cancel", FALSE);
}

void
tl_ageing_page_set_document (TlAgeingPage *self, TlDocument *document)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
}

gboolean
tl_ageing_page_is_busy (TlAgeingPage *self)
{
  return self->cancellable != NULL;
}

const TlForecast *
tl_ageing_page_forecast (TlAgeingPage *self)
{
  return self->forecast;
}
