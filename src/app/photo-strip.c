/* photo-strip.c: small pictures and their facts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/photo-strip.h"

#include "app/labelled.h"
#include "app/record-form.h"
#include "app/record-lines.h"
#include "app/theme.h"

#include <glib/gi18n.h>
#include <string.h>

static const int   THUMB_WIDTH = 108, THUMB_HEIGHT = 66;
static const guint THUMB_EDGE = 256;

/* --- one small picture --- */
#define TL_TYPE_THUMB (tl_thumb_get_type ())
G_DECLARE_FINAL_TYPE (TlThumb, tl_thumb, TL, THUMB, GtkWidget)

struct _TlThumb
{
  GtkWidget parent_instance;

  TlInspector     *inspector;
  TlPictureLevels *levels;
  char            *id;
};

G_DEFINE_FINAL_TYPE (TlThumb, tl_thumb, GTK_TYPE_WIDGET)

static void
tl_thumb_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TlThumb        *self = TL_THUMB (widget);
  double          width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  const TlPhoto  *photo =
      tl_inspections_photo (tl_inspector_inspections (self->inspector), self->id);
  const TlJoint   *joint = tl_document_joint (tl_inspector_document (self->inspector));
  cairo_surface_t *surface;
  cairo_t         *cr;
  double           scale, w, h;

  if (photo == NULL)
    return;
  surface = tl_picture_levels_get (self->levels, photo, joint->originals, THUMB_EDGE);
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  tl_paint_set_colour (cr, tl_theme_palette ()->hair2);
  cairo_paint (cr);
  if (surface != NULL)
    {
      w = cairo_image_surface_get_width (surface);
      h = cairo_image_surface_get_height (surface);
      scale = MAX (width / w, height / h);
      cairo_translate (cr, (width - w * scale) / 2.0, (height - h * scale) / 2.0);
      cairo_scale (cr, scale, scale);
      cairo_set_source_surface (cr, surface, 0, 0);
      cairo_paint (cr);
    }
  cairo_destroy (cr);
}

static void
tl_thumb_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? THUMB_WIDTH : THUMB_HEIGHT;
  *minimum_baseline = *natural_baseline = -1;
}

static void
tl_thumb_dispose (GObject *object)
{
  TlThumb *self = TL_THUMB (object);

  g_clear_object (&self->inspector);
  g_clear_object (&self->levels);
  g_clear_pointer (&self->id, g_free);
  G_OBJECT_CLASS (tl_thumb_parent_class)->dispose (object);
}

static void
tl_thumb_class_init (TlThumbClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_thumb_dispose;
  GTK_WIDGET_CLASS (klass)->snapshot = tl_thumb_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = tl_thumb_measure;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tl_thumb_init (TlThumb *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

/* --- the row of them --- */

struct _TlPhotoStrip
{
  GtkWidget parent_instance;

  TlInspector     *inspector;
  TlPictureLevels *levels;
  GtkBox          *thumbs;
  GtkLabel        *facts;
  GtkMenuButton   *about;
  TlRecordForm    *form;
};

G_DEFINE_FINAL_TYPE (TlPhotoStrip, tl_photo_strip, GTK_TYPE_WIDGET)

static const char *const ID = "tl-photo";

static void
on_thumb (GtkToggleButton *button, TlPhotoStrip *self)
{
  g_autofree char *id = g_strdup (g_object_get_data (G_OBJECT (button), ID));

  if (gtk_toggle_button_get_active (button))
    tl_inspector_choose_photo (self->inspector, id);
}

static GtkWidget *
thumb_new (TlPhotoStrip *self, const TlPhoto *photo)
{
  GtkWidget *button = gtk_toggle_button_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *caption = gtk_label_new (*photo->caption != '\0' ? photo->caption : photo->name);
  TlThumb         *thumb = g_object_new (TL_TYPE_THUMB, NULL);
  g_autofree char *name =
      g_strdup_printf (_ ("Picture %s"), *photo->caption != '\0' ? photo->caption : photo->name);

  thumb->inspector = g_object_ref (self->inspector);
  thumb->levels = g_object_ref (self->levels);
  thumb->id = g_strdup (photo->id);
  g_signal_connect_object (self->levels, "changed", G_CALLBACK (gtk_widget_queue_draw), thumb,
                           G_CONNECT_SWAPPED);
  gtk_label_set_ellipsize (GTK_LABEL (caption), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (caption), 12);
  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_widget_add_css_class (caption, "thumb-caption");
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (thumb));
  gtk_box_append (GTK_BOX (box), caption);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "thumb");
  gtk_widget_set_tooltip_text (button, photo->name);
  g_object_set_data_full (G_OBJECT (button), ID, g_strdup (photo->id), g_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return button;
}

static void
fill (TlPhotoStrip *self)
{
  const GPtrArray *photos = tl_inspector_inspections (self->inspector)->photos;
  const TlPhoto   *now = tl_inspector_photo (self->inspector);
  GtkWidget       *first = NULL;

  tl_box_clear (self->thumbs);
  for (guint i = 0; i < photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (photos, i);
      GtkWidget     *button = thumb_new (self, photo);

      if (first == NULL)
        first = button;
      else
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (first));
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), photo == now);
      g_signal_connect (button, "toggled", G_CALLBACK (on_thumb), self);
      gtk_box_append (self->thumbs, button);
    }
}

/* The same pictures under the same captions in the same order stay. */
static gboolean
is_same (TlPhotoStrip *self)
{
  const GPtrArray *photos = tl_inspector_inspections (self->inspector)->photos;
  GtkWidget       *child = gtk_widget_get_first_child (GTK_WIDGET (self->thumbs));

  for (guint i = 0; i < photos->len; i++, child = gtk_widget_get_next_sibling (child))
    {
      const TlPhoto *photo = g_ptr_array_index (photos, i);
      GtkWidget     *caption;

      if (child == NULL || g_strcmp0 (g_object_get_data (G_OBJECT (child), ID), photo->id) != 0)
        return FALSE;
      caption = gtk_widget_get_last_child (gtk_button_get_child (GTK_BUTTON (child)));
      if (strcmp (gtk_label_get_text (GTK_LABEL (caption)),
                  *photo->caption != '\0' ? photo->caption : photo->name)
          != 0)
        return FALSE;
    }
  return child == NULL;
}

static void
show_chosen (TlPhotoStrip *self)
{
  const TlPhoto *now = tl_inspector_photo (self->inspector);

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->thumbs)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (now != NULL && g_strcmp0 (g_object_get_data (G_OBJECT (child), ID), now->id) == 0)
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (child), TRUE);
}

/* What EXIF says is a claim, and said as one. */
static char *
facts_of (TlPhotoStrip *self, const TlPhoto *photo)
{
  const TlScale    *scale = tl_inspector_scale (self->inspector);
  const TlLanguage *language = tl_document_language (tl_inspector_document (self->inspector));
  GString          *text = g_string_new (NULL);
  g_autofree char  *head = g_strndup (photo->sha256, 8), *tail = g_strdup (photo->sha256 + 56);
  const char       *problem = tl_picture_levels_problem (self->levels, photo);
  guint             width, height;

  tl_photo_size (photo, &width, &height);
  g_string_append_printf (text, "%s · %s · %u × %u", photo->name,
                          tl_language_text (language, tl_photo_kind_label (photo->kind)), width,
                          height);
  if (photo->is_rendered)
    g_string_append (text, _ (" · drawn by a program, no photograph"));
  g_string_append_c (text, '\n');
  if (*photo->taken != '\0')
    g_string_append_printf (text, _ ("camera says %s %s, %s"), photo->taken,
                            *photo->zone != '\0' ? photo->zone : _ ("(zone not given)"),
                            *photo->camera != '\0' ? photo->camera : _ ("camera not named"));
  else
    g_string_append (text, _ ("the picture does not say when or by what it was taken"));
  g_string_append_printf (text, _ ("\noriginal untouched · SHA-256 %s…%s\n"), head, tail);
  /* More pixels than are decoded: what is there is shown, measures are in full pixels all the same. */
  if (problem != NULL)
    g_string_append_printf (text, _ ("Shown reduced: %s"), problem);
  else if (scale == NULL)
    g_string_append (text, _ ("No scale yet: nothing can be measured."));
  else if (scale->plane == TL_PLANE_UNKNOWN)
    g_string_append (
        text, _ ("Nobody says that things lie in the scale's plane: measures decide nothing."));
  else
    g_string_append (text, _ ("Measured figures carry their uncertainty U (k = 2, about 95 %)."));
  return g_string_free (text, FALSE);
}

static void
on_changed (TlPhotoStrip *self)
{
  const TlPhoto   *photo = tl_inspector_photo (self->inspector);
  g_autofree char *facts = photo == NULL ? g_strdup ("") : facts_of (self, photo);

  if (is_same (self))
    show_chosen (self);
  else
    fill (self);
  gtk_label_set_text (self->facts, facts);
  gtk_widget_set_visible (GTK_WIDGET (self->about), photo != NULL);
  if (photo != NULL)
    tl_record_form_show (self->form, photo, TRUE);
}

static void
on_edited (TlRecordForm *form, const char *slot, const char *text, TlPhotoStrip *self)
{
  const TlPhoto *photo = tl_inspector_photo (self->inspector);
  g_autoptr (GError) error = NULL;
  g_autofree char *line = g_strdup (slot);
  TlPhoto         *changed;

  if (photo == NULL)
    return;
  changed = tl_record_copy (photo);
  if (!tl_record_form_apply (form, changed, line, text, &error)
      || !tl_inspector_take (
          self->inspector,
          tl_inspections_set_photo (tl_inspector_inspections (self->inspector), changed, &error),
          NULL, _ ("Describe the picture"), 0))
    tl_record_form_refuse (form, line, error->message);
  tl_record_unref (changed);
}

static void
on_remove (GtkButton *button, TlPhotoStrip *self)
{
  const TlPhoto   *photo = tl_inspector_photo (self->inspector);
  g_autofree char *id = photo == NULL ? NULL : g_strdup (photo->id);

  gtk_menu_button_popdown (self->about);
  if (id != NULL)
    tl_inspector_remove_photo (self->inspector, id);
}

static void
tl_photo_strip_dispose (GObject *object)
{
  TlPhotoStrip *self = TL_PHOTO_STRIP (object);

  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->inspector);
  g_clear_object (&self->levels);
  G_OBJECT_CLASS (tl_photo_strip_parent_class)->dispose (object);
}

static void
tl_photo_strip_class_init (TlPhotoStripClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_photo_strip_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tl_photo_strip_init (TlPhotoStrip *self)
{
}

static GtkWidget *
about_new (TlPhotoStrip *self)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8),
            *remove = gtk_button_new_with_label (_ ("Remove this picture"));

  self->form = TL_RECORD_FORM (tl_record_form_new (
      tl_record_lines_photo (), tl_document_language (tl_inspector_document (self->inspector))));
  g_signal_connect_object (self->form, "edited", G_CALLBACK (on_edited), self, 0);
  gtk_widget_set_size_request (GTK_WIDGET (self->form), 300, -1);
  gtk_widget_add_css_class (remove, "plain");
  gtk_widget_set_halign (remove, GTK_ALIGN_START);
  g_signal_connect (remove, "clicked", G_CALLBACK (on_remove), self);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->form));
  gtk_box_append (GTK_BOX (box), remove);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  self->about = GTK_MENU_BUTTON (gtk_menu_button_new ());
  gtk_menu_button_set_label (self->about, _ ("About this picture…"));
  gtk_menu_button_set_popover (self->about, popover);
  gtk_widget_add_css_class (GTK_WIDGET (self->about), "link");
  gtk_widget_set_valign (GTK_WIDGET (self->about), GTK_ALIGN_START);
  return GTK_WIDGET (self->about);
}

/* Here and not only among the report's outputs: pictures are there before anything is inspected. */
static GtkWidget *
save_new (void)
{
  GtkWidget *save = gtk_button_new_with_label (_ ("Save originals…"));

  gtk_widget_add_css_class (save, "link-button");
  gtk_widget_set_tooltip_text (
      save, _ ("All pictures as they were taken in, without the place where they were taken, with "
               "their hashes, in a folder (Ctrl+Shift+O)"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (save), "pictures.save-originals");
  return save;
}

/* Beside the pictures and not among them: it is there however many there are. */
static GtkWidget *
add_new (void)
{
  GtkWidget *add = gtk_button_new_with_label (_ ("drop a picture\nor open"));
  gtk_label_set_justify (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (add))), GTK_JUSTIFY_CENTER);
  gtk_widget_add_css_class (add, "thumb-add");
  gtk_widget_set_tooltip_text (add, _ ("Open a picture: JPEG, PNG, TIFF or WebP"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (add), "pictures.open");
  gtk_widget_set_valign (add, GTK_ALIGN_FILL);
  return add;
}

void
tl_photo_strip_set_inspector (TlPhotoStrip *self, TlInspector *inspector, TlPictureLevels *levels)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14),
            *scroller = gtk_scrolled_window_new (),
            *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *links = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->inspector = g_object_ref (inspector);
  self->levels = g_object_ref (levels);
  self->thumbs = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->thumbs));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_NEVER);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_min_content_width (GTK_SCROLLED_WINDOW (scroller), 160);
  gtk_box_append (GTK_BOX (box), scroller);
  gtk_box_append (GTK_BOX (box), add_new ());
  self->facts = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->facts, 0);
  gtk_label_set_ellipsize (self->facts, PANGO_ELLIPSIZE_END);
  gtk_label_set_selectable (self->facts, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->facts), "caption-text");
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (texts), GTK_WIDGET (self->facts));
  gtk_box_append (GTK_BOX (links), about_new (self));
  gtk_box_append (GTK_BOX (links), save_new ());
  gtk_box_append (GTK_BOX (texts), links);
  gtk_box_append (GTK_BOX (box), texts);
  gtk_widget_set_parent (box, GTK_WIDGET (self));
  g_signal_connect_object (inspector, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (levels, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  fill (self);
  on_changed (self);
}

const char *
tl_photo_strip_facts (TlPhotoStrip *self)
{
  return gtk_label_get_text (self->facts);
}
