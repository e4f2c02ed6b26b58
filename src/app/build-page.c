/* build-page.c: the three panes, how they talk to each other, and how they fold.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/build-page.h"

#include "app/bench-picture.h"
#include "app/labelled.h"
#include "app/mark-view.h"
#include "app/overlay-bar.h"
#include "app/overlay-years.h"
#include "app/pane-edge.h"

#include <adwaita.h>
#include <glib/gi18n.h>

/* px of width below which a pane folds, and below which the toolbar drops its words */
static const int FOLD_FINDINGS_PX = 1012;
static const int FOLD_PARTS_PX = 720;
static const int TOOLBAR_WORDS_PX = 1150;
static const int TOOLBAR_TITLE_PX = 620;
/* px of height of the page, in a window of 640, below which the facts move into a popover */
static const int LOW_PX = 590;
/* px of width of the facts in their popover */
static const int FACTS_PX = 560;

struct _TlBuildPage
{
  GtkWidget parent_instance;

  TlDocument      *document;
  GSettings       *settings;
  GtkOverlay      *overlay;
  AdwFlap         *parts_flap;
  AdwFlap         *findings_flap;
  TlPartsPane     *parts;
  TlBench         *bench;
  TlFactsStrip    *strip;
  TlFindingsPane  *findings;
  TlGhost         *ghost;
  TlOverlayBar    *overlay_bar;
  TlOverlayYears  *overlay_years;
  GtkToggleButton *section;
  GtkToggleButton *end_view;
  GtkWidget       *bench_title;
  GtkLabel        *section_word;
  GtkLabel        *end_view_word;
  GtkLabel        *scale;
  GtkButton       *verdict_strip;
  TlMarkView      *verdict_mark;
  GtkLabel        *verdict_text;
  GtkBox          *column;        /* toolbar, bench, facts */
  GtkButton       *facts;         /* opens @facts_popover */
  GtkWidget       *facts_popover; /* (nullable): holds the strip while the page is low */
  GtkWidget       *copy;
  guint            fold;          /* idle that folds after an allocation, 0 none */
  int              width, height; /* last allocated */
  char            *asked_owner;   /* (nullable): what Findings asked for */
  TlField          asked_field;
};

G_DEFINE_FINAL_TYPE (TlBuildPage, tl_build_page, GTK_TYPE_WIDGET)

/* --- facts: below the bench, or in a popover at the layer where the page is low --- */
static gboolean
find_selected (TlBuildPage *self, GdkRectangle *at)
{
  const TlDrawing *drawing = tl_bench_drawing (self->bench);
  const char      *owner = tl_document_selected (self->document);
  const GArray    *items = drawing == NULL ? NULL : tl_drawing_items (drawing);
  graphene_point_t point;

  for (guint i = 0; items != NULL && owner != NULL && i < items->len; i++)
    {
      const TlItem *item = &g_array_index (items, TlItem, i);

      if (item->kind != TL_ITEM_NUMBER || g_strcmp0 (item->owner, owner) != 0
          || !gtk_widget_compute_point (GTK_WIDGET (self->bench), GTK_WIDGET (self),
                                        &GRAPHENE_POINT_INIT ((float) item->x, (float) item->y),
                                        &point))
        continue;
      *at = (GdkRectangle){ (int) point.x, (int) point.y, (int) item->width, (int) item->height };
      return TRUE;
    }
  return FALSE;
}

static void
pop_facts_up (TlBuildPage *self)
{
  graphene_rect_t bounds;
  GdkRectangle    at;

  if (self->facts_popover == NULL)
    return;
  if (!find_selected (self, &at)
      && gtk_widget_compute_bounds (GTK_WIDGET (self->facts), GTK_WIDGET (self), &bounds))
    at = (GdkRectangle){ (int) bounds.origin.x, (int) bounds.origin.y, (int) bounds.size.width,
                         (int) bounds.size.height };
  gtk_popover_set_pointing_to (GTK_POPOVER (self->facts_popover), &at);
  gtk_popover_popup (GTK_POPOVER (self->facts_popover));
}

static void
on_facts (GtkButton *button, TlBuildPage *self)
{
  pop_facts_up (self);
}

static void
move_facts (TlBuildPage *self, gboolean is_low)
{
  GtkWidget *strip = GTK_WIDGET (self->strip);

  if (is_low == (self->facts_popover != NULL))
    return;
  g_object_ref (strip);
  if (is_low)
    {
      gtk_box_remove (self->column, strip);
      self->facts_popover = gtk_popover_new ();
      gtk_widget_set_parent (self->facts_popover, GTK_WIDGET (self));
      gtk_popover_set_child (GTK_POPOVER (self->facts_popover), strip);
    }
  else
    {
      gtk_popover_set_child (GTK_POPOVER (self->facts_popover), NULL);
      g_clear_pointer (&self->facts_popover, gtk_widget_unparent);
      gtk_box_append (self->column, strip);
    }
  g_object_unref (strip);
  gtk_widget_set_size_request (strip, is_low ? MIN (FACTS_PX, self->width - 60) : -1, -1);
  gtk_widget_set_visible (GTK_WIDGET (self->facts), is_low);
}

/* --- bench and findings talk to each other --- */
static void
on_bench_edit (TlBench *bench, TlBuildPage *self)
{
  pop_facts_up (self);
  tl_facts_strip_edit (self->strip);
}

static void
reveal_findings (TlBuildPage *self)
{
  adw_flap_set_reveal_flap (self->findings_flap, TRUE);
}

static void
on_bench_explain (TlBench *bench, const char *owner, TlBuildPage *self)
{
  reveal_findings (self);
  tl_findings_pane_open_owner (self->findings, owner);
}

static void
on_bench_contact (TlBench *bench, guint contact, TlBuildPage *self)
{
  reveal_findings (self);
  tl_findings_pane_open_contact (self->findings, contact);
}

static void
on_bench_hover (TlBench *bench, int contact, TlBuildPage *self)
{
  tl_findings_pane_hover (self->findings, contact);
}

static void
on_bench_preview (TlBench *bench, gpointer verdict, TlBuildPage *self)
{
  tl_findings_pane_preview (self->findings, verdict);
}

static void
on_findings_hover (TlFindingsPane *findings, int contact, TlBuildPage *self)
{
  tl_bench_set_hovered_contact (self->bench, contact);
}

static void
on_findings_show (TlFindingsPane *findings, const char *owner, TlBuildPage *self)
{
  tl_document_select (self->document, owner);
  tl_bench_focus_owner (self->bench, owner);
}

static void
on_findings_enter (TlFindingsPane *findings, const char *owner, guint field, TlBuildPage *self)
{
  tl_build_page_enter (self, owner, (TlField) field);
}

static void
on_findings_put_in (TlFindingsPane *findings, const char *owner, TlBuildPage *self)
{
  tl_bench_put_in (self->bench, owner);
}

static void
on_findings_find (TlFindingsPane *findings, const char *words, TlBuildPage *self)
{
  tl_build_page_find (self);
  tl_parts_pane_search (self->parts, words);
}

/* Enter in the figure that was asked for: on to the next one that is missing. */
static void
go_on_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBuildPage     *self = TL_BUILD_PAGE (widget);
  g_autofree char *owner = NULL;
  guint            field;

  g_variant_get (target, "(su)", &owner, &field);
  if (g_strcmp0 (owner, self->asked_owner) != 0 || (TlField) field != self->asked_field)
    return;
  if (!tl_findings_pane_next_missing (self->findings))
    g_clear_pointer (&self->asked_owner, g_free);
}

/* --- toolbar --- */
static void
show_scale (TlBuildPage *self)
{
  double           px_per_mm = tl_bench_scale (self->bench) / (96.0 / 25.4);
  g_autofree char *number = NULL, *text = NULL;

  if (px_per_mm <= 0.0)
    return;
  number = tl_language_number (tl_document_language (self->document), px_per_mm, 1);
  /* Isolated, so that it reads the same from right to left. */
  text = g_strdup_printf ("\u2066%s : 1\u2069", number);
  gtk_label_set_text (self->scale, text);
}

static void
on_view (GtkToggleButton *button, TlBuildPage *self)
{
  gboolean section = gtk_toggle_button_get_active (self->section);
  gboolean end_view = gtk_toggle_button_get_active (self->end_view);

  /* At least one view stays: taking out the last one brings the other. */
  if (!section && !end_view)
    gtk_toggle_button_set_active (button == self->section ? self->end_view : self->section, TRUE);
  else
    tl_bench_set_views (self->bench, section, end_view);
  if (self->document != NULL)
    show_scale (self);
}

static void
zoom_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBuildPage *self = TL_BUILD_PAGE (widget);

  tl_bench_zoom (self->bench, g_variant_get_string (target, NULL));
  show_scale (self);
}

static void
on_verdict_strip (GtkButton *button, TlBuildPage *self)
{
  reveal_findings (self);
}

static void
on_changed (TlBuildPage *self)
{
  const TlVerdict  *verdict = tl_document_verdict (self->document);
  const TlLanguage *language = tl_document_language (self->document);
  g_autofree char  *summary = tl_wording_summary (verdict, language);
  g_autofree char  *text =
      g_strdup_printf ("%s. %s", tl_language_text (language, tl_verdict_word (verdict)), summary);

  tl_mark_view_show_mark (self->verdict_mark,
                          tl_theme_mark (verdict->has_severity, verdict->severity));
  gtk_label_set_text (self->verdict_text, text);
  show_scale (self);
}

/* --- panes --- */
static void
on_pull_parts (TlPaneEdge *edge, int px, TlBuildPage *self)
{
  gboolean is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int      width = gtk_widget_get_width (GTK_WIDGET (self->parts)) + (is_mirrored ? -px : px);

  g_settings_set_int (self->settings, "parts-width", CLAMP (width, 180, 320));
}

static void
on_pull_findings (TlPaneEdge *edge, int px, TlBuildPage *self)
{
  gboolean is_mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int      width = gtk_widget_get_width (GTK_WIDGET (self->findings)) - (is_mirrored ? -px : px);

  g_settings_set_int (self->settings, "findings-width", CLAMP (width, 320, 460));
}

static void
fold (AdwFlap *flap, gboolean folds)
{
  if ((adw_flap_get_fold_policy (flap) == ADW_FLAP_FOLD_POLICY_ALWAYS) == folds)
    return;
  adw_flap_set_fold_policy (flap, folds ? ADW_FLAP_FOLD_POLICY_ALWAYS : ADW_FLAP_FOLD_POLICY_NEVER);
  adw_flap_set_reveal_flap (flap, !folds);
}

/* Widths of the panes at a width of the page: full at 1280, narrower at 1024 (the saved width is the wish). */
static int
pane_width (TlBuildPage *self, const char *key, int narrow)
{
  int wish = g_settings_get_int (self->settings, key);

  return self->width >= TOOLBAR_WORDS_PX ? wish : MIN (wish, narrow);
}

static gboolean
on_fold (gpointer data)
{
  TlBuildPage *self = data;
  gboolean     words = self->width >= TOOLBAR_WORDS_PX;

  self->fold = 0;
  fold (self->findings_flap, self->width < FOLD_FINDINGS_PX);
  fold (self->parts_flap, self->width < FOLD_PARTS_PX);
  gtk_widget_set_visible (GTK_WIDGET (self->verdict_strip), self->width < FOLD_FINDINGS_PX);
  /* between the folds both panes leave the toolbar no room for its heading */
  gtk_widget_set_visible (
      self->bench_title,
      words || (self->width >= TOOLBAR_TITLE_PX && self->width < FOLD_FINDINGS_PX));
  gtk_widget_set_visible (GTK_WIDGET (self->scale), self->width >= TOOLBAR_TITLE_PX);
  gtk_widget_set_visible (GTK_WIDGET (self->section_word), words);
  gtk_widget_set_visible (GTK_WIDGET (self->end_view_word), words);
  gtk_widget_set_size_request (GTK_WIDGET (self->parts), pane_width (self, "parts-width", 200), -1);
  gtk_widget_set_size_request (GTK_WIDGET (self->findings),
                               pane_width (self, "findings-width", 336), -1);
  move_facts (self, self->height < LOW_PX);
  show_scale (self);
  return G_SOURCE_REMOVE;
}

static void
fold_soon (TlBuildPage *self)
{
  if (self->fold == 0)
    self->fold = g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_fold, self, NULL);
}

/* --- Escape while something is dragged, seen before anybody else --- */
static gboolean
on_key (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
        TlBuildPage *self)
{
  if (key != GDK_KEY_Escape || !tl_bench_is_dragging (self->bench))
    return FALSE;
  tl_bench_drag_cancel (self->bench);
  return TRUE;
}

/* --- widget --- */
static void
tl_build_page_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  gtk_widget_measure (GTK_WIDGET (TL_BUILD_PAGE (widget)->overlay), orientation, for_size, minimum,
                      natural, minimum_baseline, natural_baseline);
  /* Panes fold when there is less room: the page itself asks for little. */
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = MIN (*minimum, FOLD_PARTS_PX / 2);
}

static void
tl_build_page_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlBuildPage *self = TL_BUILD_PAGE (widget);
  int          least;

  gtk_widget_measure (GTK_WIDGET (self->overlay), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL,
                      NULL, NULL);
  gtk_widget_allocate (GTK_WIDGET (self->overlay), MAX (width, least), height, baseline, NULL);
  if (self->facts_popover != NULL)
    gtk_popover_present (GTK_POPOVER (self->facts_popover));
  if (width == self->width && height == self->height)
    return;
  self->width = width;
  self->height = height;
  fold_soon (self);
}

static void
tl_build_page_dispose (GObject *object)
{
  TlBuildPage *self = TL_BUILD_PAGE (object);

  g_clear_handle_id (&self->fold, g_source_remove);
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  g_clear_pointer (&self->facts_popover, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_BUILD_PAGE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->document);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->asked_owner, g_free);
  G_OBJECT_CLASS (tl_build_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, overlay);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, parts_flap);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, findings_flap);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, parts);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, bench);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, strip);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, findings);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, ghost);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, overlay_bar);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, overlay_years);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, section);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, end_view);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, bench_title);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, section_word);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, end_view_word);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, scale);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, verdict_strip);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, verdict_mark);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, verdict_text);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, column);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, facts);
  gtk_widget_class_bind_template_child (widget_class, TlBuildPage, copy);
}

static void
bind_callbacks (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, on_bench_edit);
  gtk_widget_class_bind_template_callback (widget_class, on_bench_explain);
  gtk_widget_class_bind_template_callback (widget_class, on_bench_contact);
  gtk_widget_class_bind_template_callback (widget_class, on_bench_hover);
  gtk_widget_class_bind_template_callback (widget_class, on_bench_preview);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_hover);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_show);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_enter);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_put_in);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_find);
  gtk_widget_class_bind_template_callback (widget_class, on_facts);
  gtk_widget_class_bind_template_callback (widget_class, on_view);
  gtk_widget_class_bind_template_callback (widget_class, on_verdict_strip);
  gtk_widget_class_bind_template_callback (widget_class, on_pull_parts);
  gtk_widget_class_bind_template_callback (widget_class, on_pull_findings);
}

static void
tl_build_page_class_init (TlBuildPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_build_page_dispose;
  widget_class->measure = tl_build_page_measure;
  widget_class->size_allocate = tl_build_page_size_allocate;
  g_type_ensure (TL_TYPE_BENCH);
  g_type_ensure (TL_TYPE_FACTS_STRIP);
  g_type_ensure (TL_TYPE_FINDINGS_PANE);
  g_type_ensure (TL_TYPE_GHOST);
  g_type_ensure (TL_TYPE_MARK_VIEW);
  g_type_ensure (TL_TYPE_OVERLAY_BAR);
  g_type_ensure (TL_TYPE_OVERLAY_YEARS);
  g_type_ensure (TL_TYPE_PANE_EDGE);
  g_type_ensure (TL_TYPE_PARTS_PANE);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/build-page.ui");
  bind_children (widget_class);
  bind_callbacks (widget_class);
  gtk_widget_class_install_action (widget_class, "build.zoom", "s", zoom_action);
  gtk_widget_class_install_action (widget_class, "build.go-on", "(su)", go_on_action);
}

static void
tl_build_page_init (TlBuildPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_autoptr (AdwSpringParams) drawer = NULL;

  gtk_widget_init_template (GTK_WIDGET (self));
  /* Without overshoot, and at rest after 180 ms; AdwFlap itself leaves it out where animations are off. */
  drawer = adw_spring_params_new (1.0, 0.5, 1300.0);
  adw_flap_set_reveal_params (self->parts_flap, drawer);
  adw_flap_set_reveal_params (self->findings_flap, drawer);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

void
tl_build_page_set_document (TlBuildPage *self, TlDocument *document, GSettings *settings)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  self->settings = g_object_ref (settings);
  tl_bench_set_document (self->bench, document);
  tl_bench_set_ghost (self->bench, self->ghost);
  tl_bench_drag_out (self->bench, self->copy);
  tl_overlay_bar_set_bench (self->overlay_bar, self->bench);
  tl_overlay_years_set_bench (self->overlay_years, self->bench);
  tl_parts_pane_set_document (self->parts, document, self->bench);
  tl_findings_pane_set_document (self->findings, document);
  tl_facts_strip_set_document (self->strip, document);
  /* The widths of a wide window at once: laid out at another one, every text would be broken twice. */
  gtk_widget_set_size_request (GTK_WIDGET (self->parts),
                               g_settings_get_int (settings, "parts-width"), -1);
  gtk_widget_set_size_request (GTK_WIDGET (self->findings),
                               g_settings_get_int (settings, "findings-width"), -1);
  g_settings_bind (settings, "show-section", self->section, "active", G_SETTINGS_BIND_DEFAULT);
  g_settings_bind (settings, "show-end-view", self->end_view, "active", G_SETTINGS_BIND_DEFAULT);
  g_signal_connect_swapped (settings, "changed::parts-width", G_CALLBACK (fold_soon), self);
  g_signal_connect_swapped (settings, "changed::findings-width", G_CALLBACK (fold_soon), self);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (on_changed), self);
  on_changed (self);
}

TlBench *
tl_build_page_bench (TlBuildPage *self)
{
  return self->bench;
}

TlPartsPane *
tl_build_page_parts (TlBuildPage *self)
{
  return self->parts;
}

void
tl_build_page_enter (TlBuildPage *self, const char *owner, TlField field)
{
  g_autofree char *kept = g_strdup (owner);

  g_free (self->asked_owner);
  self->asked_owner = g_strdup (kept);
  self->asked_field = field;
  pop_facts_up (self);
  tl_facts_strip_edit_field (self->strip, kept, field);
}

void
tl_build_page_find (TlBuildPage *self)
{
  adw_flap_set_reveal_flap (self->parts_flap, TRUE);
  tl_parts_pane_find (self->parts);
}

/* Parts, bench, strip, findings, and round again; a folded drawer is left out. */
void
tl_build_page_next_pane (TlBuildPage *self)
{
  GtkWidget *panes[] = { GTK_WIDGET (self->parts), GTK_WIDGET (self->bench),
                         GTK_WIDGET (self->strip), GTK_WIDGET (self->findings) };
  GtkWidget *focused = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  guint      now = G_N_ELEMENTS (panes) - 1;

  for (guint i = 0; focused != NULL && i < G_N_ELEMENTS (panes); i++)
    if (focused == panes[i] || gtk_widget_is_ancestor (focused, panes[i]))
      now = i;
  for (guint step = 1; step <= G_N_ELEMENTS (panes); step++)
    {
      GtkWidget *pane = panes[(now + step) % G_N_ELEMENTS (panes)];

      if (!gtk_widget_get_mapped (pane))
        continue;
      if (pane == GTK_WIDGET (self->bench) ? gtk_widget_grab_focus (pane)
                                           : gtk_widget_child_focus (pane, GTK_DIR_TAB_FORWARD))
        return;
    }
}

void
tl_build_page_toggle_parts (TlBuildPage *self)
{
  adw_flap_set_reveal_flap (self->parts_flap, !adw_flap_get_reveal_flap (self->parts_flap));
}

void
tl_build_page_toggle_findings (TlBuildPage *self)
{
  adw_flap_set_reveal_flap (self->findings_flap, !adw_flap_get_reveal_flap (self->findings_flap));
}
