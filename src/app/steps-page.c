/* steps-page.c: sheet preview, printing, PDF.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/steps-page.h"

#include "app/labelled.h"
#include "app/print.h"
#include "app/sheet-view.h"

#include <glib/gi18n.h>

struct _TlStepsPage
{
  GtkWidget parent_instance;

  TlDocument      *document;
  GSettings       *settings;
  TlSheet         *sheet;
  gboolean         is_current; /* @sheet is that of the present verdict */
  GtkDropDown     *paper;
  GtkToggleButton *as_text;
  GtkLabel        *state;
  GtkStack        *stack;
  GtkFlowBox      *pages;
  GtkTextView     *text;
  double           scale; /* px for one mm of paper */
  gboolean         is_showing;
};

G_DEFINE_FINAL_TYPE (TlStepsPage, tl_steps_page, GTK_TYPE_WIDGET)

static const double SCALE_STEP = 1.2;

/* --- the sheet --- */
static TlLanguage *
sheet_language (TlStepsPage *self)
{
  const TlJoint *joint = tl_document_joint (self->document);
  const char    *tag = joint->sheet_language != NULL && *joint->sheet_language != '\0'
                           ? joint->sheet_language
                           : NULL;
  TlUnits units = g_strcmp0 (joint->units, "customary") == 0 ? TL_UNITS_CUSTOMARY : TL_UNITS_METRIC;

  return tl_language_new (tag, units);
}

static void
drop_sheet (TlStepsPage *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->pages))) != NULL)
    {
      tl_sheet_view_forget (
          TL_SHEET_VIEW (gtk_flow_box_child_get_child (GTK_FLOW_BOX_CHILD (child))));
      gtk_flow_box_remove (self->pages, child);
    }
  g_clear_pointer (&self->sheet, tl_sheet_free);
}

static void
show_pages (TlStepsPage *self)
{
  for (guint page = 0; page < tl_sheet_pages (self->sheet); page++)
    {
      GtkWidget *view = tl_sheet_view_new (self->sheet, page, self->scale);

      gtk_flow_box_append (self->pages, view);
      gtk_widget_set_focusable (gtk_widget_get_parent (view), FALSE);
    }
}

static void
show_state (TlStepsPage *self)
{
  const TlStepSheet *steps = tl_sheet_steps (self->sheet);
  const char        *text =
      steps->state == TL_SHEET_REFUSED ? _ ("Not to be made as drawn: the sheet says why.")
             : steps->state == TL_SHEET_CHANGE ? _ ("To be changed before it is made: every page says so.")
                                               : "";
  g_autofree char *pages = g_strdup_printf (
      g_dngettext (NULL, "%u page. %s", "%u pages. %s", tl_sheet_pages (self->sheet)),
      tl_sheet_pages (self->sheet), text);

  gtk_label_set_text (self->state, pages);
}

/* The sheet is made when somebody looks at it or wants it on paper. */
static void
bring_up_to_date (TlStepsPage *self)
{
  g_autoptr (TlLanguage) language = NULL;
  g_autofree char *text = NULL;
  gint             paper;

  if (self->is_current || self->document == NULL)
    return;
  language = sheet_language (self);
  paper = g_settings_get_enum (self->settings, "paper");
  drop_sheet (self);
  self->sheet = tl_sheet_new (tl_document_verdict (self->document),
                              paper == 0   ? tl_language_paper (language)
                              : paper == 1 ? TL_PAPER_A4
                                           : TL_PAPER_LETTER,
                              NULL, language);
  self->is_current = TRUE;
  show_pages (self);
  show_state (self);
  text = tl_steps_to_text (tl_sheet_steps (self->sheet), language);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->text), text, -1);
}

static void
on_changed (TlStepsPage *self)
{
  self->is_current = FALSE;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    bring_up_to_date (self);
}

static void
tl_steps_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tl_steps_page_parent_class)->map (widget);
  bring_up_to_date (TL_STEPS_PAGE (widget));
}

/* --- controls --- */
static void
on_as_text (GtkToggleButton *button, TlStepsPage *self)
{
  gtk_stack_set_visible_child_name (self->stack,
                                    gtk_toggle_button_get_active (button) ? "text" : "pages");
}

static void
on_paper (GtkDropDown *choice, GParamSpec *pspec, TlStepsPage *self)
{
  if (self->settings != NULL && !self->is_showing)
    g_settings_set_enum (self->settings, "paper", (gint) gtk_drop_down_get_selected (choice));
}

static void
on_paper_changed (TlStepsPage *self)
{
  self->is_showing = TRUE;
  gtk_drop_down_set_selected (self->paper, (guint) g_settings_get_enum (self->settings, "paper"));
  self->is_showing = FALSE;
  on_changed (self);
}

static void
zoom_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlStepsPage *self = TL_STEPS_PAGE (widget);
  const char  *how = g_variant_get_string (target, NULL);

  self->scale = g_str_equal (how, "fit")
                    ? 96.0 / 25.4 * 0.75
                    : CLAMP (self->scale * (g_str_equal (how, "in") ? SCALE_STEP : 1 / SCALE_STEP),
                             1.0, 12.0);
  on_changed (self);
}

/* --- printing --- */
static void
paint_page (cairo_t *cr, guint page, gpointer sheet)
{
  tl_sheet_paint (sheet, cr, page);
}

void
tl_steps_page_print (TlStepsPage *self, GtkWindow *parent)
{
  g_autofree char *title = tl_document_title (self->document);
  g_autoptr (GError) error = NULL;
  double width, height;

  bring_up_to_date (self);
  tl_sheet_size_mm (self->sheet, &width, &height);
  if (!tl_print (parent, title, tl_sheet_pages (self->sheet), width, paint_page, self->sheet,
                 &error))
    tl_document_refuse (self->document, error == NULL ? _ ("Printing failed.") : error->message);
}

gboolean
tl_steps_page_export (TlStepsPage *self, const char *path, GError **error)
{
  bring_up_to_date (self);
  return tl_sheet_save_pdf (self->sheet, path, error);
}

guint
tl_steps_page_pages (TlStepsPage *self)
{
  bring_up_to_date (self);
  return tl_sheet_pages (self->sheet);
}

/* --- widget --- */
static void
tl_steps_page_dispose (GObject *object)
{
  TlStepsPage *self = TL_STEPS_PAGE (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  if (self->pages != NULL)
    drop_sheet (self);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_STEPS_PAGE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->document);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (tl_steps_page_parent_class)->dispose (object);
}

/* The pages take no focus: keys that no button of the toolbar uses scroll them. @target: pages, or "first" and "last" */
static void
scroll_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlStepsPage   *self = TL_STEPS_PAGE (widget);
  GtkWidget     *shown = gtk_stack_get_visible_child (self->stack);
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (shown));
  const char    *where = g_variant_get_string (target, NULL);
  double         step = gtk_adjustment_get_page_increment (adjustment);
  double         value = gtk_adjustment_get_value (adjustment);

  gtk_adjustment_set_value (adjustment, g_str_equal (where, "first") ? 0.0
                                        : g_str_equal (where, "last")
                                            ? gtk_adjustment_get_upper (adjustment)
                                        : g_str_equal (where, "on") ? value + step
                                                                    : value - step);
}

static void
bind_scroll (GtkWidgetClass *widget_class, guint key, guint keypad_key, const char *where)
{
  gtk_widget_class_add_binding_action (widget_class, key, 0, "steps.scroll", "s", where);
  gtk_widget_class_add_binding_action (widget_class, keypad_key, 0, "steps.scroll", "s", where);
}

static void
tl_steps_page_class_init (TlStepsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_steps_page_dispose;
  widget_class->map = tl_steps_page_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/steps-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, paper);
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, as_text);
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, state);
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, stack);
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, pages);
  gtk_widget_class_bind_template_child (widget_class, TlStepsPage, text);
  gtk_widget_class_bind_template_callback (widget_class, on_as_text);
  gtk_widget_class_bind_template_callback (widget_class, on_paper);
  gtk_widget_class_install_action (widget_class, "steps.zoom", "s", zoom_action);
  gtk_widget_class_install_action (widget_class, "steps.scroll", "s", scroll_action);
  bind_scroll (widget_class, GDK_KEY_Page_Down, GDK_KEY_KP_Page_Down, "on");
  bind_scroll (widget_class, GDK_KEY_Page_Up, GDK_KEY_KP_Page_Up, "back");
  bind_scroll (widget_class, GDK_KEY_Home, GDK_KEY_KP_Home, "first");
  bind_scroll (widget_class, GDK_KEY_End, GDK_KEY_KP_End, "last");
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_steps_page_init (TlStepsPage *self)
{
  const char *papers[] = { _ ("Paper by language"), _ ("A4"), _ ("Letter"), NULL };
  const char *ids[] = { "language", "a4", "letter", NULL };

  self->scale = 96.0 / 25.4 * 0.75;
  gtk_widget_init_template (GTK_WIDGET (self));
  tl_choice_fill (self->paper, papers, ids);
}

void
tl_steps_page_set_document (TlStepsPage *self, TlDocument *document, GSettings *settings)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  self->settings = g_object_ref (settings);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
  g_signal_connect_swapped (settings, "changed::paper", G_CALLBACK (on_paper_changed), self);
  on_paper_changed (self);
}
