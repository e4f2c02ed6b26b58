/* pictures-page.c: the page with its tools.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/pictures-page-private.h"

#include "app/chooser.h"
#include "app/labelled.h"

#include <glib/gi18n.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (TlPicturesPage, tl_pictures_page, GTK_TYPE_WIDGET)

/* Narrower than this the side column goes below the picture, px. */
static const int FOLD_WIDTH = 760;

static TlDocument *
document_of (TlPicturesPage *self)
{
  return tl_inspector_document (self->inspector);
}

/* --- tools --- */

static const char *const tool_words[] = { "select", "scale", "measure", "mark" };

static void
tool_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  const char     *word;
  guint           detail;

  g_variant_get (target, "(&su)", &word, &detail);
  gtk_toggle_button_set_active (self->report_button, FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (tool_words); i++)
    if (strcmp (tool_words[i], word) == 0)
      tl_inspector_set_tool (self->inspector, (TlTool) i, detail);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
show_tool (TlPicturesPage *self)
{
  guint             detail;
  TlTool            tool = tl_inspector_tool (self->inspector, &detail);
  const TlLanguage *language = tl_document_language (document_of (self));
  g_autofree char  *hint = tl_picture_canvas_hint (self->canvas);
  g_autofree char  *measure = NULL, *mark = NULL;

  self->is_showing = TRUE;
  gtk_toggle_button_set_active (self->select, tool == TL_TOOL_SELECT);
  gtk_toggle_button_set_active (self->scale, tool == TL_TOOL_SCALE && detail == TL_SCALE_LENGTH);
  gtk_toggle_button_set_active (self->square,
                                tool == TL_TOOL_SCALE && detail == TL_SCALE_RECTANGLE);
  self->is_showing = FALSE;
  measure = tool == TL_TOOL_MEASURE ? g_strdup_printf (
                _ ("Measure: %s"),
                tl_language_text (language, tl_measure_kind_label ((TlMeasureKind) detail)))
                                    : g_strdup (_ ("Measure"));
  mark = tool == TL_TOOL_MARK ? g_strdup_printf (
             _ ("Mark: %s"), tl_language_text (language, tl_outline_label ((TlOutline) detail)))
                              : g_strdup (_ ("Mark"));
  gtk_menu_button_set_label (self->measure, measure);
  gtk_menu_button_set_label (self->mark, mark);
  if (*hint == '\0')
    {
      const TlScale *scale = tl_inspector_scale (self->inspector);

      g_free (hint);
      hint = g_strdup (tl_inspector_draft (self->inspector) != NULL
                           ? _ ("Enter the true size beside the picture.")
                       : scale == NULL && tl_inspector_photo (self->inspector) != NULL
                           ? _ ("First the scale: a known length in the picture.")
                           : "");
    }
  gtk_label_set_text (self->hint, hint);
}

static void
on_tool_toggled (GtkToggleButton *button, TlPicturesPage *self)
{
  gboolean is_on = gtk_toggle_button_get_active (button);

  if (self->is_showing || self->inspector == NULL)
    return;
  if (!is_on || button == self->select)
    tl_inspector_set_tool (self->inspector, TL_TOOL_SELECT, 0);
  else
    tl_inspector_set_tool (self->inspector, TL_TOOL_SCALE,
                           button == self->square ? TL_SCALE_RECTANGLE : TL_SCALE_LENGTH);
  show_tool (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static GMenuModel *
tool_menu (TlPicturesPage *self, const char *word)
{
  const TlLanguage *language = tl_document_language (document_of (self));
  GMenu            *menu = g_menu_new ();
  gboolean          is_mark = strcmp (word, "mark") == 0;

  for (guint i = 0; i < (is_mark ? (guint) TL_N_OUTLINES : (guint) TL_N_MEASURE_KINDS); i++)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (
          tl_language_text (language, is_mark ? tl_outline_label ((TlOutline) i)
                                              : tl_measure_kind_label ((TlMeasureKind) i)),
          NULL);

      g_menu_item_set_action_and_target_value (item, "pictures.tool",
                                               g_variant_new ("(su)", word, i));
      g_menu_append_item (menu, item);
    }
  return G_MENU_MODEL (menu);
}

/* --- before and after --- */

static gboolean
is_folded (TlPicturesPage *self)
{
  return gtk_orientable_get_orientation (GTK_ORIENTABLE (self->columns))
         == GTK_ORIENTATION_VERTICAL;
}

static void
show_compare (TlPicturesPage *self)
{
  const GPtrArray *photos = tl_inspector_inspections (self->inspector)->photos;
  const TlPhoto   *now = tl_inspector_photo (self->inspector);
  const char      *compared = tl_picture_canvas_compared (self->canvas);
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("one picture"));
  g_strv_builder_add (ids, "");
  for (guint i = 0; i < photos->len; i++)
    {
      const TlPhoto   *photo = g_ptr_array_index (photos, i);
      g_autofree char *name = g_strdup_printf (
          _ ("beside: %s"), *photo->caption != '\0' ? photo->caption : photo->name);

      if (photo == now)
        continue;
      g_strv_builder_add (texts, name);
      g_strv_builder_add (ids, photo->id);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  if (compared != NULL && !g_strv_contains ((const char *const *) id, compared))
    {
      tl_picture_canvas_compare (self->canvas, NULL);
      compared = NULL;
    }
  self->is_showing = TRUE;
  tl_choice_fill (self->compare, (const char *const *) text, (const char *const *) id);
  tl_choice_select (self->compare, compared == NULL ? "" : compared);
  self->is_showing = FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self->compare), photos->len > 1 && !is_folded (self));
}

static void
on_compare (GtkDropDown *choice, GParamSpec *pspec, TlPicturesPage *self)
{
  const char *id = tl_choice_id (choice);

  if (!self->is_showing && self->inspector != NULL)
    tl_picture_canvas_compare (self->canvas, *id == '\0' ? NULL : id);
}

static void
compare_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  tl_choice_select (self->compare, g_variant_get_string (target, NULL));
}

/* --- all of it --- */

static void
report_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  gtk_toggle_button_set_active (self->report_button,
                                !gtk_toggle_button_get_active (self->report_button));
}

static void
show_view (TlPicturesPage *self)
{
  gboolean has_photo = tl_inspector_photo (self->inspector) != NULL,
           has_report = tl_inspector_inspection (self->inspector) != NULL,
           is_report = has_report && gtk_toggle_button_get_active (self->report_button),
           is_open = tl_inspector_is_open (self->inspector);
  const char *problem = tl_inspector_problem (self->inspector);

  gtk_widget_set_sensitive (GTK_WIDGET (self->report_button), has_report);
  if (!has_report)
    gtk_toggle_button_set_active (self->report_button, FALSE);
  gtk_label_set_text (self->empty_reason,
                      problem != NULL ? problem
                                      : _ ("A ruler or any known length in it gives the scale."));
  gtk_stack_set_visible_child_name (self->views, is_report   ? "report"
                                                 : has_photo ? "picture"
                                                             : "empty");
  gtk_widget_set_visible (self->picture_tools, !is_report);
  gtk_widget_set_visible (self->report_tools, is_report);
  gtk_widget_set_sensitive (self->picture_tools, has_photo);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "pictures.issue", has_report && is_open);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "pictures.save-annotated", has_photo);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "pictures.save-originals",
                                 tl_inspector_inspections (self->inspector)->photos->len > 0);
}

static void
on_report_toggled (GtkToggleButton *button, TlPicturesPage *self)
{
  if (self->inspector != NULL)
    show_view (self);
}

static void
on_view_changed (TlPicturesPage *self)
{
  if (self->inspector != NULL)
    tl_inspector_side_set_scale (self->side, tl_picture_canvas_px_per_mm (self->canvas));
}

static void
on_changed (TlPicturesPage *self)
{
  show_view (self);
  show_compare (self);
  show_tool (self);
  on_view_changed (self);
}

static gboolean
fold (gpointer data)
{
  TlPicturesPage *self = data;
  gboolean        is_narrow = gtk_widget_get_width (GTK_WIDGET (self)) < FOLD_WIDTH;

  self->folding = 0;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns), is_narrow
                                                                      ? GTK_ORIENTATION_VERTICAL
                                                                      : GTK_ORIENTATION_HORIZONTAL);
  /* The keys zoom as well. */
  gtk_widget_set_visible (self->zoom_tools, !is_narrow);
  show_compare (self);
  gtk_widget_set_size_request (GTK_WIDGET (self->side), is_narrow ? -1 : 340, is_narrow ? 260 : -1);
  return G_SOURCE_REMOVE;
}

static gboolean
on_focus_idle (gpointer data)
{
  TlPicturesPage *self = data;

  self->focusing = 0;
  if (gtk_widget_get_mapped (GTK_WIDGET (self->canvas)))
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
  return G_SOURCE_REMOVE;
}

/* Keys go to the picture at once; the stack of pages gives the focus to the first button after this. */
static void
tl_pictures_page_map (GtkWidget *widget)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  GTK_WIDGET_CLASS (tl_pictures_page_parent_class)->map (widget);
  if (self->focusing == 0)
    self->focusing = g_idle_add (on_focus_idle, self);
}

static void
tl_pictures_page_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  GtkAllocation   whole = { 0, 0, width, height };
  GtkOrientation  now = gtk_orientable_get_orientation (GTK_ORIENTABLE (self->columns));

  gtk_widget_size_allocate (gtk_widget_get_first_child (widget), &whole, baseline);
  if ((width < FOLD_WIDTH) != (now == GTK_ORIENTATION_VERTICAL) && self->folding == 0)
    self->folding = g_idle_add (fold, self);
}

static void
tl_pictures_page_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  gtk_widget_measure (gtk_widget_get_first_child (widget), orientation, -1, minimum, natural, NULL,
                      NULL);
  /* Unfolded, it would keep the window from becoming narrow enough to fold it. */
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = MIN (*minimum, 360);
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_pictures_page_dispose (GObject *object)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (object);

  g_clear_handle_id (&self->folding, g_source_remove);
  g_clear_handle_id (&self->focusing, g_source_remove);
  tl_chooser_close (&self->chooser);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_PICTURES_PAGE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  g_clear_object (&self->levels);
  G_OBJECT_CLASS (tl_pictures_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *klass)
{
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, views);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, columns);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, canvas);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, strip);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, side);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, report);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, select);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, scale);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, square);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, report_button);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, measure);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, mark);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, hint);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, compare);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, report_tools);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, picture_tools);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, zoom_tools);
  gtk_widget_class_bind_template_child (klass, TlPicturesPage, empty_reason);
  gtk_widget_class_bind_template_callback (klass, on_tool_toggled);
  gtk_widget_class_bind_template_callback (klass, on_report_toggled);
  gtk_widget_class_bind_template_callback (klass, on_compare);
}

static void
tl_pictures_page_class_init (TlPicturesPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_pictures_page_dispose;
  widget_class->map = tl_pictures_page_map;
  widget_class->size_allocate = tl_pictures_page_size_allocate;
  widget_class->measure = tl_pictures_page_measure;
  g_type_ensure (TL_TYPE_PICTURE_CANVAS);
  g_type_ensure (TL_TYPE_PHOTO_STRIP);
  g_type_ensure (TL_TYPE_INSPECTOR_SIDE);
  g_type_ensure (TL_TYPE_REPORT_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/pictures-page.ui");
  bind_children (widget_class);
  tl_pictures_page_install_files (widget_class);
  gtk_widget_class_install_action (widget_class, "pictures.tool", "(su)", tool_action);
  gtk_widget_class_install_action (widget_class, "pictures.compare", "s", compare_action);
  gtk_widget_class_install_action (widget_class, "pictures.report", NULL, report_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, "pictures.paste",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_o, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "pictures.save-originals", NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_pictures_page_init (TlPicturesPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  tl_pictures_page_add_drop (self);
}

void
tl_pictures_page_set_document (TlPicturesPage *self, TlDocument *document, GSettings *settings)
{
  g_autoptr (GMenuModel) measures = NULL;
  g_autoptr (GMenuModel) marks = NULL;

  g_return_if_fail (self->inspector == NULL);
  self->inspector = tl_inspector_new (document, settings);
  self->levels = tl_picture_levels_new ();
  measures = tool_menu (self, "measure");
  marks = tool_menu (self, "mark");
  gtk_menu_button_set_menu_model (self->measure, measures);
  gtk_menu_button_set_menu_model (self->mark, marks);
  tl_choice_narrow (self->compare);
  tl_picture_canvas_set_inspector (self->canvas, self->inspector, self->levels);
  tl_photo_strip_set_inspector (self->strip, self->inspector, self->levels);
  tl_inspector_side_set_inspector (self->side, self->inspector);
  tl_report_view_set_inspector (self->report, self->inspector, settings);
  g_signal_connect_object (self->inspector, "changed", G_CALLBACK (on_changed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->inspector, "tool-changed", G_CALLBACK (show_tool), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->canvas, "view-changed", G_CALLBACK (on_view_changed), self,
                           G_CONNECT_SWAPPED);
  on_changed (self);
}

TlInspector *
tl_pictures_page_inspector (TlPicturesPage *self)
{
  return self->inspector;
}

TlPictureCanvas *
tl_pictures_page_canvas (TlPicturesPage *self)
{
  return self->canvas;
}

TlInspectorSide *
tl_pictures_page_side (TlPicturesPage *self)
{
  return self->side;
}

gboolean
tl_pictures_page_is_busy (TlPicturesPage *self)
{
  return self->reading > 0 || tl_picture_levels_is_busy (self->levels);
}

void
tl_pictures_page_zoom (TlPicturesPage *self, const char *how)
{
  tl_picture_canvas_zoom (self->canvas, how);
}
