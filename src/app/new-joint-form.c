/* new-joint-form.c: the form of the first page, and the joint made from it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/new-joint-form.h"

#include "app/joint-form.h"
#include "app/labelled.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlNewJointForm
{
  GtkWidget parent_instance;

  TlStock           *stock;
  TlLanguage        *language;
  GSettings         *settings;
  TlConductorChoice *first;
  TlConductorChoice *second;
  GtkDropDown       *box;
  GtkDropDown       *air;
  GtkDropDown       *device;
  GtkEntry          *load;
  GtkButton         *make;
  GtkLabel          *wrong;
};

G_DEFINE_FINAL_TYPE (TlNewJointForm, tl_new_joint_form, GTK_TYPE_WIDGET)

static guint made_signal;

/* Ratings of IEC 60898-1 and IEC 60269-3 that stand before such circuits; "KIND RATING". */
static const char *const devices[] = { "breaker 6",  "breaker 10", "breaker 13", "breaker 16",
                                       "breaker 20", "breaker 25", "breaker 32", "breaker 40",
                                       "breaker 50", "breaker 63", "fuse 6",     "fuse 10",
                                       "fuse 16",    "fuse 20",    "fuse 25",    "fuse 35",
                                       "fuse 50",    "fuse 63" };

static void
fill_devices (TlNewJointForm *self)
{
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("not known"));
  g_strv_builder_add (ids, "");
  for (guint i = 0; i < G_N_ELEMENTS (devices); i++)
    {
      const char      *rating = strchr (devices[i], ' ') + 1;
      g_autofree char *kind = g_strndup (devices[i], (gsize) (rating - devices[i] - 1));
      g_autofree char *label = g_strdup_printf (
          "%s %s A",
          tl_language_text (self->language, tl_field_word_label (TL_FIELD_DEVICE_KIND, kind)),
          rating);

      g_strv_builder_add (texts, label);
      g_strv_builder_add (ids, devices[i]);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  tl_choice_fill (self->device, (const char *const *) text, (const char *const *) id);
}

static void
fill_air (TlNewJointForm *self)
{
  const char *const *words = tl_field_info (TL_FIELD_SURROUNDINGS)->words;
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("choose"));
  g_strv_builder_add (ids, "");
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_strv_builder_add (
          texts,
          tl_language_text (self->language, tl_field_word_label (TL_FIELD_SURROUNDINGS, words[i])));
      g_strv_builder_add (ids, words[i]);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  tl_choice_fill (self->air, (const char *const *) text, (const char *const *) id);
}

static void
check (TlNewJointForm *self)
{
  gboolean is_ready = *tl_conductor_choice_part (self->first) != '\0'
                      && *tl_conductor_choice_part (self->second) != '\0';

  gtk_widget_set_sensitive (GTK_WIDGET (self->make), is_ready);
  gtk_label_set_text (self->wrong,
                      is_ready ? _ ("A licensed person and the local code have the last word.")
                               : _ ("Choose metal and section of both conductors."));
}

/* --- making the joint, edit by edit --- */
static gboolean
set_text (TlJoint **joint, const char *what, const char *value, GError **error)
{
  TlJoint *after;

  if (value == NULL || *value == '\0')
    return TRUE;
  after = tl_edit_set_text (*joint, what, value, error);
  if (after == NULL)
    return FALSE;
  tl_joint_unref (*joint);
  *joint = after;
  return TRUE;
}

static gboolean
set_fact (TlJoint **joint, const char *owner, TlField field, const char *text, GError **error)
{
  TlFact           fact = { .field = field };
  g_autofree char *word = NULL;
  TlJoint         *after;

  if (text == NULL || *text == '\0')
    return TRUE;
  if (!tl_fact_parse (field, text, &fact, error))
    return FALSE;
  word = fact.word;
  fact.known_by = TL_KNOWN_STATED;
  after = tl_edit_set_fact (*joint, owner, &fact, error);
  if (after == NULL)
    return FALSE;
  tl_joint_unref (*joint);
  *joint = after;
  return TRUE;
}

static gboolean
add_conductor (TlJoint **joint, TlConductorChoice *choice, GError **error)
{
  TlJoint *after = tl_conductor_choice_add (choice, *joint, error);

  if (after == NULL)
    return FALSE;
  tl_joint_unref (*joint);
  *joint = after;
  return TRUE;
}

static gboolean
set_protection (TlNewJointForm *self, TlJoint **joint, GError **error)
{
  g_auto (GStrv) device = g_strsplit (tl_choice_id (self->device), " ", 2);

  if (device[0] != NULL && device[1] != NULL
      && (!set_fact (joint, "duty", TL_FIELD_DEVICE_KIND, device[0], error)
          || !set_fact (joint, "duty", TL_FIELD_DEVICE_RATING, device[1], error)))
    return FALSE;
  return set_fact (joint, "duty", TL_FIELD_LOAD, gtk_editable_get_text (GTK_EDITABLE (self->load)),
                   error);
}

TlJoint *
tl_new_joint_form_make (TlNewJointForm *self, GError **error)
{
  g_autoptr (TlJoint) joint = tl_joint_new ();
  g_autofree char *practice = g_settings_get_string (self->settings, "practice");
  g_autofree char *units = g_settings_get_string (self->settings, "units");
  g_autofree char *language = g_settings_get_string (self->settings, "sheet-language");
  g_autofree char *prepared_by = g_settings_get_string (self->settings, "prepared-by");

  if (*tl_conductor_choice_part (self->first) == '\0'
      || *tl_conductor_choice_part (self->second) == '\0')
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                           _ ("Choose metal and section of both conductors."));
      return NULL;
    }
  if (!set_text (&joint, "practice", practice, error) || !set_text (&joint, "units", units, error)
      || !set_text (&joint, "sheet-language", language, error)
      || !set_text (&joint, "prepared-by", prepared_by, error)
      || !add_conductor (&joint, self->first, error) || !add_conductor (&joint, self->second, error)
      || !set_text (&joint, "box", tl_choice_id (self->box), error)
      || !set_fact (&joint, "site", TL_FIELD_SURROUNDINGS, tl_choice_id (self->air), error)
      || !set_protection (self, &joint, error))
    return NULL;
  return g_steal_pointer (&joint);
}

static void
on_make (GtkButton *button, TlNewJointForm *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = tl_new_joint_form_make (self, &error);

  if (joint == NULL)
    gtk_label_set_text (self->wrong, error->message);
  else
    g_signal_emit (self, made_signal, 0, joint);
}

/* --- widget --- */
static void
tl_new_joint_form_dispose (GObject *object)
{
  TlNewJointForm *self = TL_NEW_JOINT_FORM (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_NEW_JOINT_FORM);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (tl_new_joint_form_parent_class)->dispose (object);
}

static void
tl_new_joint_form_class_init (TlNewJointFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_new_joint_form_dispose;
  made_signal = g_signal_new ("made", TL_TYPE_NEW_JOINT_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                              NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  g_type_ensure (TL_TYPE_CONDUCTOR_CHOICE);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/new-joint-form.ui");
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, first);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, second);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, box);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, air);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, device);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, load);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, make);
  gtk_widget_class_bind_template_child (widget_class, TlNewJointForm, wrong);
  gtk_widget_class_bind_template_callback (widget_class, on_make);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_FORM);
}

static void
tl_new_joint_form_init (TlNewJointForm *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->first, "changed", G_CALLBACK (check), self);
  g_signal_connect_swapped (self->second, "changed", G_CALLBACK (check), self);
}

void
tl_new_joint_form_set_stock (TlNewJointForm *self, const TlStock *stock, const TlLanguage *language,
                             GSettings *settings)
{
  g_auto (GStrv) boxes = NULL, box_ids = NULL;

  g_return_if_fail (self->stock == NULL);
  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  self->settings = g_object_ref (settings);
  tl_conductor_choice_set_stock (self->first, stock, language, _ ("First conductor"), "wall");
  tl_conductor_choice_set_stock (self->second, stock, language, _ ("Second conductor"), "loose");
  tl_joint_form_boxes (stock, language, &boxes, &box_ids);
  tl_choice_fill (self->box, (const char *const *) boxes, (const char *const *) box_ids);
  fill_air (self);
  fill_devices (self);
  check (self);
}

void
tl_new_joint_form_change_stock (TlNewJointForm *self, const TlStock *stock)
{
  g_autofree char *box = g_strdup (tl_choice_id (self->box));
  g_auto (GStrv) boxes = NULL, box_ids = NULL;
  TlStock *old = self->stock;

  self->stock = tl_stock_ref (stock);
  tl_conductor_choice_change_stock (self->first, stock);
  tl_conductor_choice_change_stock (self->second, stock);
  tl_joint_form_boxes (stock, self->language, &boxes, &box_ids);
  tl_choice_fill (self->box, (const char *const *) boxes, (const char *const *) box_ids);
  tl_choice_select (self->box, box);
  tl_stock_unref (old);
}

TlConductorChoice *
tl_new_joint_form_conductor (TlNewJointForm *self, guint which)
{
  return which == 0 ? self->first : self->second;
}
