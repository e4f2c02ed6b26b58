/* chart-view.c: a chart on screen, its table, and its ways out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/chart-view.h"

#include "app/chooser.h"
#include "app/labelled.h"
#include "app/theme.h"

#include <glib/gi18n.h>

/* The picture alone. */
#define TL_TYPE_CHART_PICTURE (tl_chart_picture_get_type ())
G_DECLARE_FINAL_TYPE (TlChartPicture, tl_chart_picture, TL, CHART_PICTURE, GtkWidget)

struct _TlChartPicture
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (TlChartPicture, tl_chart_picture, GTK_TYPE_WIDGET)

struct _TlChartView
{
  GtkWidget parent_instance;

  TlChartPicture       *picture;
  GtkWidget            *refusal; /* in place of the picture */
  GtkLabel             *refusal_title;
  GtkLabel             *refusal_reason;
  GtkWidget            *tools;
  GtkMenuButton        *table_button;
  GtkTextView          *text;
  GtkScrolledWindow    *scroller; /* around it */
  TlLanguage           *language;
  TlPictureFunc         paint; /* NULL: nothing to show */
  gpointer              data;
  GDestroyNotify        destroy;
  char                 *title;
  char                 *table;
  char                 *file_name;
  char                 *note;
  GtkFileChooserNative *chooser; /* while it is open */
};

G_DEFINE_FINAL_TYPE (TlChartView, tl_chart_view, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_FILE_NAME,
  PROP_NOTE,
};

/* Of a picture that leaves the window, mm. */
static const double PICTURE_WIDTH_MM = 160.0, PICTURE_HEIGHT_MM = 100.0;
static const double PX_PER_MM = 96.0 / 25.4;
/* Between the columns of the table, px. */
static const int    COLUMN_GAP = 24;
static const int    LEAST_TABLE_WIDTH = 240, MOST_TABLE_WIDTH = 620;
/* How much wider bold text may run than the same in regular type. */
static const double BOLD_RATIO = 1.15;

/* --- the picture --- */

/* Charts follow the size of the desktop's type. */
static double
font_scale (GtkWidget *widget)
{
  int dpi = -1;

  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
  return dpi > 0 ? CLAMP (dpi / (96.0 * 1024.0), 0.5, 3.0) : 1.0;
}

static void
tl_chart_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlChartView    *view = TL_CHART_VIEW (gtk_widget_get_ancestor (widget, TL_TYPE_CHART_VIEW));
  double          width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  cairo_t        *cr;

  if (view->paint == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  view->paint (cr, tl_theme_palette (), width, height, PX_PER_MM * font_scale (widget), view->data);
  cairo_destroy (cr);
}

static void
tl_chart_picture_class_init (TlChartPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = tl_chart_picture_snapshot;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, GDK_CONTROL_MASK, "chart.copy",
                                       NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tl_chart_picture_init (TlChartPicture *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  tl_theme_watch (GTK_WIDGET (self));
}

/* --- the table --- */

static int
text_width (TlChartView *self, const char *text)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self->text), text);
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

/* Each column as wide as the widest cell in it. The first line is the title and has no cells.
 * @width: (out): of all columns, px */
static PangoTabArray *
columns_of (TlChartView *self, char **lines, int *width)
{
  g_autoptr (GArray) widths = g_array_new (FALSE, TRUE, sizeof (int));
  PangoTabArray *tabs;

  for (guint i = 1; lines[0] != NULL && lines[i] != NULL; i++)
    {
      g_auto (GStrv) cells = g_strsplit (lines[i], "\t", -1);

      for (guint k = 0; cells[k] != NULL; k++)
        {
          int cell = text_width (self, cells[k]) + COLUMN_GAP;

          if (k >= widths->len)
            g_array_set_size (widths, k + 1);
          g_array_index (widths, int, k) = MAX (g_array_index (widths, int, k), cell);
        }
    }
  tabs = pango_tab_array_new ((int) widths->len, TRUE);
  *width = 0;
  for (guint k = 0; k < widths->len; k++)
    {
      *width += g_array_index (widths, int, k);
      pango_tab_array_set_tab (tabs, (int) k, PANGO_TAB_LEFT, *width);
    }
  return tabs;
}

static void
on_table_map (GtkWidget *popover, TlChartView *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->text);
  g_auto (GStrv) lines = g_strsplit (self->table == NULL ? "" : self->table, "\n", -1);
  GtkTextIter    start, end;
  int            width;
  PangoTabArray *tabs = columns_of (self, lines, &width);

  if (lines[0] != NULL)
    width = MAX (width, (int) (BOLD_RATIO * text_width (self, lines[0])) + COLUMN_GAP);
  gtk_scrolled_window_set_min_content_width (self->scroller,
                                             CLAMP (width, LEAST_TABLE_WIDTH, MOST_TABLE_WIDTH));
  gtk_text_view_set_tabs (self->text, tabs);
  pango_tab_array_free (tabs);
  gtk_text_buffer_set_text (buffer, self->table == NULL ? "" : self->table, -1);
  gtk_text_buffer_get_start_iter (buffer, &start);
  end = start;
  gtk_text_iter_forward_to_line_end (&end);
  gtk_text_buffer_apply_tag_by_name (buffer, "title", &start, &end);
  gtk_text_buffer_place_cursor (buffer, &start);
  gtk_widget_grab_focus (GTK_WIDGET (self->text));
}

static void
on_copy_table (GtkButton *button, TlChartView *self)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), self->table);
  gtk_menu_button_popdown (self->table_button);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s", _ ("The table was copied."));
}

/* --- ways out --- */

GdkContentProvider *
tl_chart_view_content (TlChartView *self, GError **error)
{
  g_autoptr (GBytes) png = NULL;
  g_autoptr (GBytes) svg = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  GdkContentProvider *providers[3];

  if (self->paint == NULL)
    return NULL;
  png = tl_picture_to_bytes (self->paint, self->data, TL_PICTURE_PNG, PICTURE_WIDTH_MM,
                             PICTURE_HEIGHT_MM, TL_SCHEME_LIGHT, self->language, error);
  svg = png == NULL
            ? NULL
            : tl_picture_to_bytes (self->paint, self->data, TL_PICTURE_SVG, PICTURE_WIDTH_MM,
                                   PICTURE_HEIGHT_MM, TL_SCHEME_LIGHT, self->language, error);
  texture = svg == NULL ? NULL : gdk_texture_new_from_bytes (png, error);
  if (texture == NULL)
    return NULL;
  providers[0] = gdk_content_provider_new_typed (GDK_TYPE_TEXTURE, texture);
  providers[1] = gdk_content_provider_new_for_bytes ("image/svg+xml", svg);
  providers[2] = gdk_content_provider_new_typed (G_TYPE_STRING, self->table);
  return gdk_content_provider_new_union (providers, G_N_ELEMENTS (providers));
}

gboolean
tl_chart_view_save (TlChartView *self, const char *path, GError **error)
{
  TlPictureKind kind;

  g_return_val_if_fail (self->paint != NULL, FALSE);
  if (!tl_picture_kind_of (path, &kind))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_FILE,
                   _ ("%s: its ending is none of .png, .svg, .pdf."), path);
      return FALSE;
    }
  return tl_picture_save (self->paint, self->data, kind, PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM,
                          TL_SCHEME_LIGHT, path, self->language, error);
}

static void
table_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gtk_menu_button_popup (TL_CHART_VIEW (widget)->table_button);
}

static void
copy_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkContentProvider) content = tl_chart_view_content (TL_CHART_VIEW (widget), &error);

  if (content != NULL)
    gdk_clipboard_set_content (gtk_widget_get_clipboard (widget), content);
  if (error != NULL)
    gtk_widget_activate_action (widget, "win.warn", "s", error->message);
  else
    gtk_widget_activate_action (widget, "win.tell", "s", _ ("The chart was copied as a picture."));
}

static void
save_to_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autoptr (GError) error = NULL;
  const char      *path = g_variant_get_string (target, NULL);
  g_autofree char *told = g_strdup_printf (_ ("Saved as %s."), path);

  if (tl_chart_view_save (TL_CHART_VIEW (widget), path, &error))
    gtk_widget_activate_action (widget, "win.tell", "s", told);
  else
    gtk_widget_activate_action (widget, "win.warn", "s", error->message);
}

static void
on_chosen (GtkNativeDialog *dialog, int response, TlChartView *self)
{
  g_autofree char *path = tl_chooser_take_path (&self->chooser, response, NULL);

  if (path != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "chart.save-to", "s", path);
}

static void
save_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlChartView     *self = TL_CHART_VIEW (widget);
  g_autofree char *file =
      g_strdup_printf ("%s.png", self->file_name == NULL ? "chart" : self->file_name);

  tl_chooser_new (&self->chooser, widget, _ ("Save the chart: .png, .svg or .pdf"),
                  GTK_FILE_CHOOSER_ACTION_SAVE, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), file);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (on_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static GdkContentProvider *
on_prepare (GtkDragSource *source, double x, double y, TlChartView *self)
{
  return tl_chart_view_content (self, NULL);
}

/* --- widget --- */

static void
tl_chart_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TlChartView *self = TL_CHART_VIEW (object);

  if (id == PROP_FILE_NAME)
    g_value_set_string (value, self->file_name);
  else if (id == PROP_NOTE)
    g_value_set_string (value, self->note);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tl_chart_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TlChartView *self = TL_CHART_VIEW (object);

  if (id == PROP_FILE_NAME)
    self->file_name = g_value_dup_string (value);
  else if (id == PROP_NOTE)
    self->note = g_value_dup_string (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
drop_chart (TlChartView *self)
{
  if (self->destroy != NULL)
    self->destroy (self->data);
  self->paint = NULL;
  self->data = NULL;
  self->destroy = NULL;
  g_clear_pointer (&self->title, g_free);
  g_clear_pointer (&self->table, g_free);
}

static void
tl_chart_view_dispose (GObject *object)
{
  TlChartView *self = TL_CHART_VIEW (object);

  tl_chooser_close (&self->chooser);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_CHART_VIEW);
  tl_widget_clear (GTK_WIDGET (self));
  drop_chart (self);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_pointer (&self->file_name, g_free);
  g_clear_pointer (&self->note, g_free);
  G_OBJECT_CLASS (tl_chart_view_parent_class)->dispose (object);
}

static void
tl_chart_view_class_init (TlChartViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GObjectClass   *object_class = G_OBJECT_CLASS (klass);
  GParamFlags     flags = G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tl_chart_view_dispose;
  object_class->get_property = tl_chart_view_get_property;
  object_class->set_property = tl_chart_view_set_property;
  g_object_class_install_property (object_class, PROP_FILE_NAME,
                                   g_param_spec_string ("file-name", NULL, NULL, NULL, flags));
  g_object_class_install_property (object_class, PROP_NOTE,
                                   g_param_spec_string ("note", NULL, NULL, NULL, flags));
  g_type_ensure (TL_TYPE_CHART_PICTURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/chart-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TlChartView, picture);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, refusal);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, refusal_title);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, refusal_reason);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, tools);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, table_button);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, text);
  gtk_widget_class_bind_template_child (widget_class, TlChartView, scroller);
  gtk_widget_class_bind_template_callback (widget_class, on_table_map);
  gtk_widget_class_bind_template_callback (widget_class, on_copy_table);
  gtk_widget_class_install_action (widget_class, "chart.table", NULL, table_action);
  gtk_widget_class_install_action (widget_class, "chart.copy", NULL, copy_action);
  gtk_widget_class_install_action (widget_class, "chart.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "chart.save-to", "s", save_to_action);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tl_chart_view_init (TlChartView *self)
{
  GtkDragSource *source = gtk_drag_source_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_text_buffer_create_tag (gtk_text_view_get_buffer (self->text), "title", "weight",
                              PANGO_WEIGHT_BOLD, NULL);
  g_signal_connect (source, "prepare", G_CALLBACK (on_prepare), self);
  gtk_widget_add_controller (GTK_WIDGET (self->picture), GTK_EVENT_CONTROLLER (source));
}

/* The picture or what stands in its place, with or without tools. */
static void
show_state (TlChartView *self)
{
  gboolean         has_chart = self->paint != NULL;
  g_autofree char *described = g_strdup_printf ("%s %s", self->note == NULL ? "" : self->note,
                                                _ ("“As table” reads it out."));

  gtk_widget_set_visible (GTK_WIDGET (self->picture), has_chart);
  gtk_widget_set_visible (self->refusal, !has_chart);
  gtk_widget_set_visible (self->tools, has_chart);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "chart.table", has_chart);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "chart.copy", has_chart);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "chart.save", has_chart);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "chart.save-to", has_chart);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  self->title, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  g_strstrip (described), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->title,
                                  -1);
  gtk_widget_queue_draw (GTK_WIDGET (self->picture));
}

void
tl_chart_view_show (TlChartView *self, const TlLanguage *language, const char *table,
                    TlPictureFunc paint, gpointer data, GDestroyNotify destroy)
{
  const char *end = strchr (table, '\n');

  g_return_if_fail (paint != NULL);
  drop_chart (self);
  g_clear_pointer (&self->language, tl_language_unref);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->paint = paint;
  self->data = data;
  self->destroy = destroy;
  self->table = g_strdup (table);
  self->title = end == NULL ? g_strdup (table) : g_strndup (table, (gsize) (end - table));
  show_state (self);
}

void
tl_chart_view_refuse (TlChartView *self, const char *title, const char *reason)
{
  gtk_menu_button_popdown (self->table_button);
  drop_chart (self);
  self->title = g_strdup (title);
  gtk_label_set_text (self->refusal_title, title);
  gtk_label_set_text (self->refusal_reason, reason);
  show_state (self);
}

gboolean
tl_chart_view_has_chart (TlChartView *self)
{
  return self->paint != NULL;
}

const char *
tl_chart_view_title (TlChartView *self)
{
  return self->title;
}

const char *
tl_chart_view_table (TlChartView *self)
{
  return self->table;
}
