/* pictures-page.c: pictures in, tools, report out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/pictures-page.h"

#include "app/labelled.h"
#include "app/photo-strip.h"
#include "app/report-view.h"
#include "base/file.h"
#include "rules/picture-list.h"

#include <adwaita.h>
#include <glib/gi18n.h>
#include <string.h>

struct _TlPicturesPage
{
  GtkWidget parent_instance;

  TlInspector          *inspector;
  TlPictureLevels      *levels;
  guint                 reading; /* files that are being read */
  GtkStack             *views;   /* picture, empty, report */
  GtkBox               *columns;
  TlPictureCanvas      *canvas;
  TlPhotoStrip         *strip;
  TlInspectorSide      *side;
  TlReportView         *report;
  GtkBox               *tools;
  GtkToggleButton      *select, *scale, *square, *report_button;
  GtkMenuButton        *measure, *mark;
  GtkLabel             *hint;
  GtkDropDown          *compare;
  GtkWidget            *report_tools;
  GtkWidget            *picture_tools;
  GtkWidget            *zoom_tools;
  GtkLabel             *empty_reason;
  GtkFileChooserNative *chooser;
  guint                 folding, focusing; /* sources */
  gboolean              is_showing;
};

G_DEFINE_FINAL_TYPE (TlPicturesPage, tl_pictures_page, GTK_TYPE_WIDGET)

/* Narrower than this the side column goes below the picture, px. */
static const int FOLD_WIDTH = 760;

static TlDocument *
document_of (TlPicturesPage *self)
{
  return tl_inspector_document (self->inspector);
}

static void
tell (TlPicturesPage *self, const GError *error)
{
  if (error != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.warn", "s", error->message);
}

/* --- pictures in --- */

gboolean
tl_pictures_page_takes (GFile *file)
{
  static const char *const endings[] = { ".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp" };
  g_autofree char         *name = g_file_get_basename (file), *low = g_ascii_strdown (name, -1);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (low, endings[i]))
      return TRUE;
  return FALSE;
}

/* Reads no more than a picture may have, so that a wrong file costs no memory. */
static void
run_read (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GFile  *file = data;
  GError *error = NULL;
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, &error);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  gsize got = 1;

  while (stream != NULL && got > 0 && bytes->len <= TL_PHOTO_MAX_BYTES)
    {
      static const guint CHUNK = 1u << 20;
      guint              before = bytes->len;

      g_byte_array_set_size (bytes, before + CHUNK);
      if (!g_input_stream_read_all (G_INPUT_STREAM (stream), bytes->data + before, CHUNK, &got,
                                    cancellable, &error))
        break;
      g_byte_array_set_size (bytes, before + (guint) got);
    }
  if (error != NULL)
    g_task_return_error (task, error);
  else if (bytes->len > TL_PHOTO_MAX_BYTES)
    {
      g_autofree char *name = g_file_get_basename (file);

      g_task_return_new_error (task, TL_ERROR, TL_ERROR_LIMIT,
                               _ ("“%s” is larger than 128 MB; a smaller copy can be taken in."),
                               name);
    }
  else
    g_task_return_pointer (task, g_byte_array_free_to_bytes (g_steal_pointer (&bytes)),
                           (GDestroyNotify) g_bytes_unref);
}

static void
on_read (GObject *source, GAsyncResult *result, gpointer data)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_task_propagate_pointer (G_TASK (result), &error);
  GFile           *file = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_file_get_basename (file);

  self->reading--;
  if (self->inspector == NULL)
    return;
  if (bytes != NULL)
    tl_inspector_add_photo (self->inspector, bytes, name, &error);
  if (error != NULL && strstr (error->message, name) == NULL)
    g_prefix_error (&error, "“%s”: ", name);
  tell (self, error);
}

void
tl_pictures_page_add_file (TlPicturesPage *self, GFile *file)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, on_read, NULL);

  self->reading++;
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, run_read);
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, TlPicturesPage *self)
{
  gboolean took = FALSE;

  if (!G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    return FALSE;
  for (GSList *files = g_value_get_boxed (value); files != NULL; files = files->next)
    if (tl_pictures_page_takes (files->data))
      {
        tl_pictures_page_add_file (self, files->data);
        took = TRUE;
      }
  return took;
}

static void
on_open_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  g_autoptr (GListModel) files = response == GTK_RESPONSE_ACCEPT
                                     ? gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog))
                                     : NULL;

  for (guint i = 0; files != NULL && i < g_list_model_get_n_items (files); i++)
    {
      g_autoptr (GFile) file = g_list_model_get_item (files, i);

      tl_pictures_page_add_file (self, file);
    }
  g_clear_object (&self->chooser);
}

static GtkFileChooserNative *
chooser_new (TlPicturesPage *self, const char *title, GtkFileChooserAction action,
             const char *accept, GCallback callback)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
  self->chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (root), action, accept, NULL);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_signal_connect_object (self->chooser, "response", callback, self, 0);
  return self->chooser;
}

static void
open_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  GtkFileChooserNative *chooser =
      chooser_new (self, _ ("Open a picture"), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"),
                   G_CALLBACK (on_open_chosen));
  const char *const endings[] = { "jpg", "jpeg", "png", "tif", "tiff", "webp" };

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    gtk_file_filter_add_suffix (filter, endings[i]);
  gtk_file_filter_set_name (filter, _ ("Pictures"));
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (chooser), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
open_path_action (GtkWidget *widget, const char *name, GVariant *target)
{
  g_autoptr (GFile) file = g_file_new_for_path (g_variant_get_string (target, NULL));

  tl_pictures_page_add_file (TL_PICTURES_PAGE (widget), file);
}

/* What lies on the clipboard has no file: it is kept as PNG, and that is its original. */
static void
on_pasted (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (TlPicturesPage) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture =
      gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (source), result, &error);
  g_autoptr (GBytes) bytes = NULL;

  if (self->inspector == NULL)
    return;
  if (texture == NULL)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s",
                                  _ ("There is no picture on the clipboard."));
      return;
    }
  bytes = gdk_texture_save_to_png_bytes (texture);
  tl_inspector_add_photo (self->inspector, bytes, _ ("pasted.png"), &error);
  tell (self, error);
}

static void
paste_action (GtkWidget *widget, const char *name, GVariant *target)
{
  gdk_clipboard_read_texture_async (gtk_widget_get_clipboard (widget), NULL, on_pasted,
                                    g_object_ref (widget));
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

/* --- report out --- */

gboolean
tl_pictures_page_save_report (TlPicturesPage *self, const char *path, GError **error)
{
  const TlPictureReport *report = tl_report_view_report (self->report, error);

  return report != NULL && tl_picture_report_save_pdf (report, path, error);
}

gboolean
tl_pictures_page_save_annotated (TlPicturesPage *self, const char *path, GError **error)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);

  if (photo == NULL)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE, _ ("There is no picture to copy."));
      return FALSE;
    }
  return tl_picture_save_annotated (tl_inspector_inspections (self->inspector),
                                    tl_inspector_inspection (self->inspector), photo,
                                    tl_document_joint (document_of (self))->originals, path,
                                    tl_document_language (document_of (self)), error);
}

gboolean
tl_pictures_page_save_findings (TlPicturesPage *self, const char *path, GError **error)
{
  TlDocument      *document = document_of (self);
  TlPictureList    list = { .stock = (TlStock *) tl_document_stock (document),
                            .joint = (TlJoint *) tl_document_joint (document),
                            .inspections =
                                (TlInspections *) tl_inspector_inspections (self->inspector),
                            .inspection = tl_inspector_inspection (self->inspector) };
  g_autofree char *text =
      g_str_has_suffix (path, ".json") ? tl_picture_list_json (&list) : tl_picture_list_csv (&list);

  return tl_file_save (path, text, strlen (text), error);
}

typedef gboolean (*SaveFunc) (TlPicturesPage *self, const char *path, GError **error);

static void
save_to (TlPicturesPage *self, SaveFunc save, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *done = g_strdup_printf (_ ("Written to %s."), path);

  if (save (self, path, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s", done);
  tell (self, error);
}

static void
save_chosen (TlPicturesPage *self, GtkNativeDialog *dialog, int response, SaveFunc save,
             const char *ending)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog))
                               : NULL;
  g_autofree char *path = file == NULL ? NULL : g_file_get_path (file);
  g_autofree char *whole = NULL;

  g_clear_object (&self->chooser);
  if (path == NULL)
    return;
  whole = g_str_has_suffix (path, ending) || g_str_has_suffix (path, ".json")
              ? g_strdup (path)
              : g_strconcat (path, ending, NULL);
  save_to (self, save, whole);
}

static void
on_report_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_report, ".pdf");
}

static void
on_annotated_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_annotated, ".png");
}

static void
on_findings_chosen (GtkNativeDialog *dialog, int response, TlPicturesPage *self)
{
  save_chosen (self, dialog, response, tl_pictures_page_save_findings, ".csv");
}

/* What can leave the page: its action, what the chooser says, how its name ends. */
static const struct
{
  const char *action, *title, *ending;
  GCallback   chosen;
} ways_out[] = {
  { "pictures.save-report", N_ ("Report as PDF"), ".pdf", G_CALLBACK (on_report_chosen) },
  { "pictures.save-annotated", N_ ("Annotated copy as PNG"), ".png",
    G_CALLBACK (on_annotated_chosen) },
  { "pictures.save-findings", N_ ("Findings as CSV or JSON"), ".csv",
    G_CALLBACK (on_findings_chosen) },
};

static void
save_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage       *self = TL_PICTURES_PAGE (widget);
  g_autofree char      *title = tl_document_title (document_of (self)), *file = NULL;
  GtkFileChooserNative *chooser;
  guint                 way = 0;

  while (strcmp (ways_out[way].action, name) != 0)
    way++;
  chooser = chooser_new (self, _ (ways_out[way].title), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"),
                         ways_out[way].chosen);
  g_strdelimit (title, "/", '-');
  file = g_strconcat (title, ways_out[way].ending, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), file);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
print_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  tl_report_view_print (self->report, GTK_WINDOW (gtk_widget_get_root (widget)));
}

static void
on_issue_answer (AdwMessageDialog *dialog, const char *answer, TlPicturesPage *self)
{
  g_autoptr (GError) error = NULL;

  if (strcmp (answer, "issue") != 0)
    return;
  if (tl_inspector_issue (self->inspector, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.tell", "s",
                                _ ("The report is issued; the inspection is closed."));
  tell (self, error);
}

/* Cannot be undone, so it is asked. */
static void
issue_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);
  GtkWidget      *dialog = adw_message_dialog_new (
           GTK_WINDOW (gtk_widget_get_root (widget)), _ ("Issue the report?"),
           _ ("The inspection is closed and gets a fingerprint. What was done before cannot be undone; "
                   "later changes are a new revision."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("_Cancel"), "issue",
                                    _ ("_Issue"), NULL);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_issue_answer), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
report_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlPicturesPage *self = TL_PICTURES_PAGE (widget);

  gtk_toggle_button_set_active (self->report_button,
                                !gtk_toggle_button_get_active (self->report_button));
}

/* --- all of it --- */

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
}

static void
on_report_toggled (GtkToggleButton *button, TlPicturesPage *self)
{
  if (self->inspector != NULL)
    show_view (self);
}

static void
on_changed (TlPicturesPage *self)
{
  show_view (self);
  show_compare (self);
  show_tool (self);
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
  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
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
  gtk_widget_class_install_action (widget_class, "pictures.open", NULL, open_action);
  gtk_widget_class_install_action (widget_class, "pictures.open-path", "s", open_path_action);
  gtk_widget_class_install_action (widget_class, "pictures.paste", NULL, paste_action);
  gtk_widget_class_install_action (widget_class, "pictures.tool", "(su)", tool_action);
  gtk_widget_class_install_action (widget_class, "pictures.compare", "s", compare_action);
  gtk_widget_class_install_action (widget_class, "pictures.report", NULL, report_action);
  gtk_widget_class_install_action (widget_class, "pictures.issue", NULL, issue_action);
  for (guint i = 0; i < G_N_ELEMENTS (ways_out); i++)
    gtk_widget_class_install_action (widget_class, ways_out[i].action, NULL, save_action);
  gtk_widget_class_install_action (widget_class, "pictures.print-report", NULL, print_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, "pictures.paste",
                                       NULL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_pictures_page_init (TlPicturesPage *self)
{
  GtkDropTarget *drop = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (drop, "drop", G_CALLBACK (on_drop), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
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
