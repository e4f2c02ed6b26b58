/* inspector-side.c: the column beside the picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/inspector-side.h"

#include "app/found-list.h"
#include "app/inspection-texts.h"
#include "app/labelled.h"
#include "app/part-view.h"
#include "app/verdict-chip.h"

#include <glib/gi18n.h>
#include <string.h>

struct _TlInspectorSide
{
  GtkWidget parent_instance;

  TlInspector       *inspector;
  TlVerdictChip     *designed;
  TlVerdictChip     *found;
  GtkLabel          *found_none;
  GtkLabel          *note;
  GtkBox            *drawing_box;
  GtkLabel          *drawing_head;
  TlPartView        *drawing;
  GtkStack          *stack;
  GtkListBox        *marks;
  GtkListBox        *measures;
  GtkListBox        *readings;
  GtkLabel          *marks_empty;
  GtkLabel          *measures_empty;
  GtkLabel          *readings_empty;
  GtkDropDown       *reading_kind;
  GtkWidget         *reading_add;
  TlFoundList       *found_list;
  TlInspectionTexts *texts;
  TlVerdict         *drawn; /* what the drawing shows */
  GtkScrolledWindow *scroller;
  guint              revealing; /* source: then the open row comes into view */
};

/* After the lists were laid out. */
static const guint REVEAL_MS = 60;

G_DEFINE_FINAL_TYPE (TlInspectorSide, tl_inspector_side, GTK_TYPE_WIDGET)

/* --- lists --- */

/* Rows of a list that are still of a record stay where they are, so that a form that is being typed in lives. */
static void
keep_in_step (TlInspectorSide *self, GtkListBox *list, const GPtrArray *ids)
{
  for (guint i = 0; i < ids->len; i++)
    {
      const char    *id = g_ptr_array_index (ids, i);
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, (int) i);

      if (row != NULL && strcmp (tl_picture_row_id (TL_PICTURE_ROW (row)), id) == 0
          && tl_picture_row_refresh (TL_PICTURE_ROW (row)))
        continue;
      /* One that was taken out leaves its place to the next. */
      while (row != NULL && strcmp (tl_picture_row_id (TL_PICTURE_ROW (row)), id) != 0
             && tl_inspector_record (self->inspector, tl_picture_row_id (TL_PICTURE_ROW (row)))
                    == NULL)
        {
          gtk_list_box_remove (list, GTK_WIDGET (row));
          row = gtk_list_box_get_row_at_index (list, (int) i);
        }
      if (row != NULL && strcmp (tl_picture_row_id (TL_PICTURE_ROW (row)), id) == 0
          && tl_picture_row_refresh (TL_PICTURE_ROW (row)))
        continue;
      if (row != NULL && strcmp (tl_picture_row_id (TL_PICTURE_ROW (row)), id) == 0)
        gtk_list_box_remove (list, GTK_WIDGET (row));
      gtk_list_box_insert (list, tl_picture_row_new (self->inspector, id), (int) i);
    }
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (list, (int) ids->len)) != NULL;)
    gtk_list_box_remove (list, GTK_WIDGET (row));
}

static void
show_marks (TlInspectorSide *self, const TlInspection *inspection)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; inspection != NULL && i < inspection->marks->len; i++)
    g_ptr_array_add (ids, ((TlPictureMark *) g_ptr_array_index (inspection->marks, i))->id);
  keep_in_step (self, self->marks, ids);
  gtk_widget_set_visible (GTK_WIDGET (self->marks_empty), ids->len == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->marks), ids->len > 0);
}

/* Those of the picture looked at: figures of another one would only be confused with them. */
static void
show_measures (TlInspectorSide *self, const TlInspection *inspection)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  if (tl_inspector_draft (self->inspector) != NULL)
    g_ptr_array_add (ids, (gpointer) "");
  for (guint i = 0; inspection != NULL && photo != NULL && i < inspection->scales->len; i++)
    {
      TlScale *scale = g_ptr_array_index (inspection->scales, i);

      if (strcmp (scale->picture, photo->id) == 0)
        g_ptr_array_add (ids, scale->id);
    }
  for (guint i = 0; inspection != NULL && photo != NULL && i < inspection->measures->len; i++)
    {
      TlMeasure *measure = g_ptr_array_index (inspection->measures, i);

      if (strcmp (measure->picture, photo->id) == 0)
        g_ptr_array_add (ids, measure->id);
    }
  keep_in_step (self, self->measures, ids);
  gtk_widget_set_visible (GTK_WIDGET (self->measures_empty), ids->len == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->measures), ids->len > 0);
}

static void
show_readings (TlInspectorSide *self, const TlInspection *inspection)
{
  const GPtrArray *readings = tl_inspector_inspections (self->inspector)->readings;
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; inspection != NULL && i < readings->len; i++)
    {
      TlReading *reading = g_ptr_array_index (readings, i);

      if (strcmp (reading->inspection, inspection->id) == 0)
        g_ptr_array_add (ids, reading->id);
    }
  keep_in_step (self, self->readings, ids);
  gtk_widget_set_visible (GTK_WIDGET (self->readings_empty), ids->len == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->readings), ids->len > 0);
  gtk_widget_set_sensitive (self->reading_add, tl_inspector_is_open (self->inspector));
}

/* --- designed beside found --- */

static void
show_verdicts (TlInspectorSide *self)
{
  TlDocument      *document = tl_inspector_document (self->inspector);
  const TlVerdict *designed = tl_document_verdict (document);
  const TlAsFound *as_found = tl_inspector_as_found (self->inspector);
  const TlVerdict *found = as_found == NULL ? NULL : as_found->found;
  guint            unchecked = as_found == NULL ? 0 : as_found->unchecked->len;
  g_autofree char *note = NULL;

  tl_verdict_chip_show (self->designed, designed, tl_document_language (document));
  gtk_widget_set_visible (GTK_WIDGET (self->found), found != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->found_none), found == NULL);
  if (found != NULL)
    tl_verdict_chip_show (self->found, found, tl_document_language (document));
  note = found == NULL
             ? g_strdup (_ ("The figures of the design, until a measure is tied to one of them."))
             : g_strdup_printf (g_dngettext (NULL, "%u figure assumed as designed: not checked.",
                                             "%u figures assumed as designed: not checked.",
                                             unchecked),
                                unchecked);
  gtk_label_set_text (self->note, note);
  if (self->drawn == designed)
    return;
  g_clear_pointer (&self->drawn, tl_verdict_unref);
  self->drawn = tl_verdict_ref ((TlVerdict *) designed);
  tl_part_view_show_joint (self->drawing, designed);
}

/* --- selection --- */

/* The row that is open comes into view, once it has its place. */
static gboolean
on_reveal (gpointer data)
{
  TlInspectorSide *self = data;
  const char      *selected = tl_inspector_selected (self->inspector);
  TlPictureRow    *row = selected == NULL ? NULL : tl_inspector_side_row (self, selected);
  GtkAdjustment   *adjustment = gtk_scrolled_window_get_vadjustment (self->scroller);
  double           x, y;

  self->revealing = 0;
  if (row != NULL
      && gtk_widget_translate_coordinates (GTK_WIDGET (row), GTK_WIDGET (self->stack), 0, 0, &x,
                                           &y))
    gtk_adjustment_clamp_page (adjustment, y,
                               y
                                   + MIN (gtk_widget_get_height (GTK_WIDGET (row)),
                                          gtk_adjustment_get_page_size (adjustment)));
  return G_SOURCE_REMOVE;
}

static void
open_selected (TlInspectorSide *self)
{
  GtkListBox *lists[] = { self->marks, self->measures, self->readings };
  const char *names[] = { "marks", "measures", "readings" };
  const char *selected = tl_inspector_selected (self->inspector);

  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (int i = 0; gtk_list_box_get_row_at_index (lists[k], i) != NULL; i++)
      {
        TlPictureRow *row = TL_PICTURE_ROW (gtk_list_box_get_row_at_index (lists[k], i));
        gboolean      is_it = g_strcmp0 (tl_picture_row_id (row), selected) == 0;

        tl_picture_row_set_open (row, is_it);
        if (!is_it)
          continue;
        gtk_stack_set_visible_child_name (self->stack, names[k]);
        if (self->revealing == 0)
          self->revealing = g_timeout_add (REVEAL_MS, on_reveal, self);
        /* What was just drawn wants its length before anything else. */
        if (*selected == '\0')
          gtk_widget_grab_focus (tl_record_form_input (tl_picture_row_form (row), "length-mm"));
      }
}

static void
on_changed (TlInspectorSide *self)
{
  const TlInspection *inspection = tl_inspector_inspection (self->inspector);

  show_verdicts (self);
  show_marks (self, inspection);
  show_measures (self, inspection);
  show_readings (self, inspection);
  tl_found_list_refresh (self->found_list);
  tl_inspection_texts_refresh (self->texts);
}

static void
on_selection (TlInspectorSide *self)
{
  open_selected (self);
}

/* A row opens by being chosen, and closes when it is chosen again. */
static void
on_row_activated (GtkListBox *list, GtkListBoxRow *row, TlInspectorSide *self)
{
  g_autofree char *id = g_strdup (tl_picture_row_id (TL_PICTURE_ROW (row)));

  tl_inspector_select (self->inspector,
                       g_strcmp0 (id, tl_inspector_selected (self->inspector)) == 0 ? NULL : id);
}

static void
on_add_reading (GtkButton *button, TlInspectorSide *self)
{
  TlReading       *reading = tl_record_new (&tl_reading_form);
  g_autofree char *who = tl_inspector_who (self->inspector), *when = tl_inspector_when ();
  g_autoptr (GError) error = NULL;

  reading->kind = (TlReadingKind) gtk_drop_down_get_selected (self->reading_kind);
  tl_record_text (&reading->who, who);
  tl_record_text (&reading->when, when);
  if (!tl_inspector_put (self->inspector, reading, _ ("Add a reading"), 0, &error))
    tl_document_refuse (tl_inspector_document (self->inspector), error->message);
  tl_record_unref (reading);
}

/* --- widget --- */

static void
tl_inspector_side_dispose (GObject *object)
{
  TlInspectorSide *self = TL_INSPECTOR_SIDE (object);

  g_clear_handle_id (&self->revealing, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_INSPECTOR_SIDE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  g_clear_pointer (&self->drawn, tl_verdict_unref);
  G_OBJECT_CLASS (tl_inspector_side_parent_class)->dispose (object);
}

static void
tl_inspector_side_class_init (TlInspectorSideClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_inspector_side_dispose;
  g_type_ensure (TL_TYPE_FOUND_LIST);
  g_type_ensure (TL_TYPE_INSPECTION_TEXTS);
  g_type_ensure (TL_TYPE_VERDICT_CHIP);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/inspector-side.ui");
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, designed);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, found);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, found_none);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, note);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, drawing_box);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, drawing_head);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, scroller);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, stack);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, marks);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, measures);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, readings);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, marks_empty);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, measures_empty);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, readings_empty);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, reading_kind);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, reading_add);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, found_list);
  gtk_widget_class_bind_template_child (widget_class, TlInspectorSide, texts);
  gtk_widget_class_bind_template_callback (widget_class, on_row_activated);
  gtk_widget_class_bind_template_callback (widget_class, on_add_reading);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_inspector_side_init (TlInspectorSide *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->drawing = TL_PART_VIEW (tl_part_view_new_movable (_ ("Drawing of the design")));
  gtk_widget_set_tooltip_text (
      GTK_WIDGET (self->drawing),
      _ ("Drag, or use the arrow keys: it is larger than its field. Home: back to the middle"));
  gtk_widget_add_css_class (GTK_WIDGET (self->drawing), "drawing");
  gtk_widget_set_size_request (GTK_WIDGET (self->drawing), -1, 96);
  gtk_box_append (self->drawing_box, GTK_WIDGET (self->drawing));
}

void
tl_inspector_side_set_inspector (TlInspectorSide *self, TlInspector *inspector)
{
  const TlLanguage *language = tl_document_language (tl_inspector_document (inspector));
  const char       *texts[TL_N_READING_KINDS + 1] = { NULL };
  const char       *ids[TL_N_READING_KINDS + 1] = { NULL };

  g_return_if_fail (self->inspector == NULL);
  self->inspector = g_object_ref (inspector);
  for (TlReadingKind kind = 0; kind < TL_N_READING_KINDS; kind++)
    {
      texts[kind] = tl_language_text (language, tl_reading_kind_label (kind));
      ids[kind] = tl_reading_kind_word (kind);
    }
  tl_choice_fill (self->reading_kind, texts, ids);
  tl_choice_narrow (self->reading_kind);
  tl_found_list_set_inspector (self->found_list, inspector);
  tl_inspection_texts_set_inspector (self->texts, inspector);
  g_signal_connect_object (inspector, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (inspector, "selection-changed", G_CALLBACK (on_selection), self,
                           G_CONNECT_SWAPPED);
  on_changed (self);
}

void
tl_inspector_side_set_scale (TlInspectorSide *self, double px_per_mm)
{
  static const char *const planes[] = {
    N_ ("The design, drawn at the picture's scale; nobody says that it lies in its plane"),
    N_ ("The design, drawn at the picture's scale"),
    N_ ("The design, drawn at the picture's scale; it lies off its plane")
  };
  const TlScale *scale = tl_inspector_scale (self->inspector);
  gboolean       has_scale = px_per_mm > 0.0 && scale != NULL;

  tl_part_view_set_scale (self->drawing, has_scale ? px_per_mm : 0.0);
  gtk_label_set_text (self->drawing_head, has_scale ? _ (planes[scale->plane])
                                          : tl_inspector_photo (self->inspector) != NULL
                                              ? _ ("The design, fitted: the picture has no scale")
                                              : _ ("The design"));
}

TlPartView *
tl_inspector_side_drawing (TlInspectorSide *self)
{
  return self->drawing;
}

void
tl_inspector_side_show (TlInspectorSide *self, const char *list)
{
  gtk_stack_set_visible_child_name (self->stack, list);
}

const char *
tl_inspector_side_shown (TlInspectorSide *self)
{
  return gtk_stack_get_visible_child_name (self->stack);
}

TlPictureRow *
tl_inspector_side_row (TlInspectorSide *self, const char *id)
{
  GtkListBox *lists[] = { self->marks, self->measures, self->readings };

  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (int i = 0; gtk_list_box_get_row_at_index (lists[k], i) != NULL; i++)
      {
        TlPictureRow *row = TL_PICTURE_ROW (gtk_list_box_get_row_at_index (lists[k], i));

        if (strcmp (tl_picture_row_id (row), id) == 0)
          return row;
      }
  return NULL;
}

TlRecordForm *
tl_inspector_side_texts (TlInspectorSide *self)
{
  return tl_inspection_texts_form (self->texts);
}

TlRecordForm *
tl_inspector_side_new_found (TlInspectorSide *self)
{
  return tl_found_list_new_form (self->found_list);
}
