/* preparation-form.c: the acts of preparation as a row of chips.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/preparation-form.h"

#include "app/labelled.h"

#include <glib/gi18n.h>

typedef struct
{
  const char *act;
  const char *label;
} Act;

/* The vocabulary of the joint's file (joint.h), in the order of the work. */
static const Act acts[] = {
  { "degrease", N_ ("degrease") },
  { "strip", N_ ("strip") },
  { "brush", N_ ("brush bright") },
  { "brush-compound", N_ ("brush under compound") },
  { "flux", N_ ("flux") },
  { "tin", N_ ("tin") },
  { "clean-flux", N_ ("clean off flux") },
  { "cool", N_ ("let cool") },
  { "ferrule", N_ ("press on a ferrule") },
  { "form-eye", N_ ("form the eye") },
  { "deburr", N_ ("deburr") },
};

struct _TlPreparationForm
{
  GtkWidget parent_instance;

  TlDocument  *document;
  char        *leg;
  GtkBox      *chips;
  GtkDropDown *add;
  gboolean     is_showing;
};

G_DEFINE_FINAL_TYPE (TlPreparationForm, tl_preparation_form, GTK_TYPE_WIDGET)

static const char *
act_label (const char *act)
{
  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    if (g_str_equal (acts[i].act, act))
      return _ (acts[i].label);
  return act;
}

static GPtrArray *
present_acts (TlPreparationForm *self)
{
  const TlLeg *leg = tl_joint_leg (tl_document_joint (self->document), self->leg);
  GPtrArray   *list = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; leg != NULL && i < leg->preparation->len; i++)
    {
      const TlPreparation *preparation = g_ptr_array_index (leg->preparation, i);

      g_ptr_array_add (list, g_strdup (preparation->act));
    }
  return list;
}

static void
set_acts (TlPreparationForm *self, GPtrArray *list)
{
  g_autoptr (GError) error = NULL;
  TlJoint *after;

  g_ptr_array_add (list, NULL);
  after = tl_edit_set_preparation (tl_document_joint (self->document), self->leg,
                                   (const char *const *) list->pdata, &error);
  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    tl_document_take (self->document, after, _ ("Change the preparation"), self->leg, 0);
}

static void
on_remove (GtkButton *button, TlPreparationForm *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "index"));
  g_autoptr (GPtrArray) list = present_acts (self);

  g_ptr_array_remove_index (list, index);
  set_acts (self, list);
}

static void
on_back (GtkButton *button, TlPreparationForm *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "index"));
  g_autoptr (GPtrArray) list = present_acts (self);
  char *act = g_ptr_array_steal_index (list, index);

  g_ptr_array_insert (list, (gint) index - 1, act);
  set_acts (self, list);
}

static void
on_add (GtkDropDown *choice, GParamSpec *pspec, TlPreparationForm *self)
{
  g_autofree char *act = g_strdup (tl_choice_id (choice));
  g_autoptr (GPtrArray) list = NULL;

  if (self->is_showing || *act == '\0')
    return;
  list = present_acts (self);
  g_ptr_array_add (list, g_steal_pointer (&act));
  set_acts (self, list);
}

static GtkWidget *
chip_button (TlPreparationForm *self, const char *icon, const char *format, const char *act,
             guint index, GCallback callback)
{
  g_autofree char *label = tl_wording_fill (format, "act", act_label (act), NULL);
  GtkWidget       *button = tl_icon_button_new (icon, label, NULL);

  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  g_object_set_data (G_OBJECT (button), "index", GUINT_TO_POINTER (index));
  g_signal_connect (button, "clicked", callback, self);
  return button;
}

static void
add_chip (TlPreparationForm *self, const char *act, guint index)
{
  GtkWidget       *chip = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  g_autofree char *text = g_strdup_printf ("%u  %s", index + 1, act_label (act));

  gtk_widget_add_css_class (chip, "act");
  gtk_widget_set_valign (chip, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (chip), gtk_label_new (text));
  if (index > 0)
    gtk_box_append (GTK_BOX (chip), chip_button (self, "tinlap-undo-symbolic", _ ("Earlier: {act}"),
                                                 act, index, G_CALLBACK (on_back)));
  gtk_box_append (GTK_BOX (chip),
                  chip_button (self, "tinlap-remove-symbolic", _ ("Leave out: {act}"), act, index,
                               G_CALLBACK (on_remove)));
  gtk_box_append (self->chips, chip);
}

static void
tl_preparation_form_dispose (GObject *object)
{
  TlPreparationForm *self = TL_PREPARATION_FORM (object);

  g_clear_object (&self->document);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->leg, g_free);
  G_OBJECT_CLASS (tl_preparation_form_parent_class)->dispose (object);
}

static void
tl_preparation_form_class_init (TlPreparationFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tl_preparation_form_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
tl_preparation_form_init (TlPreparationForm *self)
{
  const char *texts[G_N_ELEMENTS (acts) + 2] = { _ ("add an act") };
  const char *ids[G_N_ELEMENTS (acts) + 2] = { "" };
  GtkWidget  *add;

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                              12);
  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    {
      texts[i + 1] = _ (acts[i].label);
      ids[i + 1] = acts[i].act;
    }
  self->chips = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8));
  gtk_widget_set_parent (GTK_WIDGET (self->chips), GTK_WIDGET (self));
  add = tl_choice_new (texts, ids);
  self->add = GTK_DROP_DOWN (add);
  gtk_widget_set_valign (add, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (add), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Add an act of preparation"), -1);
  g_signal_connect (add, "notify::selected", G_CALLBACK (on_add), self);
  gtk_widget_set_parent (add, GTK_WIDGET (self));
}

GtkWidget *
tl_preparation_form_new (TlDocument *document, const char *leg)
{
  TlPreparationForm *self = g_object_new (TL_TYPE_PREPARATION_FORM, NULL);

  self->document = g_object_ref (document);
  self->leg = g_strdup (leg);
  tl_preparation_form_refresh (self);
  return GTK_WIDGET (self);
}

void
tl_preparation_form_refresh (TlPreparationForm *self)
{
  g_autoptr (GPtrArray) list = present_acts (self);

  tl_box_clear (self->chips);
  for (guint i = 0; i < list->len; i++)
    add_chip (self, g_ptr_array_index (list, i), i);
  self->is_showing = TRUE;
  gtk_drop_down_set_selected (self->add, 0);
  self->is_showing = FALSE;
}
