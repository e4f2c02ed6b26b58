/* conductor-choice.c: metal, make, section, role of one conductor of a new joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/conductor-choice.h"

#include "app/labelled.h"
#include "app/part-view.h"
#include "base/quantity.h"

#include <glib/gi18n.h>
#include <math.h>

/* The old circuit's usual wire, and the worse metal of the two. */
static const char *const WORST_MAKE = "aluminium/class-1/none";

struct _TlConductorChoice
{
  GtkWidget parent_instance;

  TlStock       *stock;
  TlLanguage    *language;
  GtkLabel      *title;
  TlPartView    *view;
  GtkDropDown   *make;
  GtkDropDown   *section;
  GtkDropDown   *role;
  GtkDropDown   *fixed;
  GtkMenuButton *unsure;
  GtkEntry      *diameter;
  GtkLabel      *told; /* what the popover found out */
  gboolean       is_assumed;
};

G_DEFINE_FINAL_TYPE (TlConductorChoice, tl_conductor_choice, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- what the stock has --- */
static char *
make_of (const TlPart *part)
{
  return g_strjoin ("/", tl_facts_word (part->facts, TL_FIELD_METAL, ""),
                    tl_facts_word (part->facts, TL_FIELD_CLASS, ""),
                    tl_facts_word (part->facts, TL_FIELD_COATING, "none"), NULL);
}

static char *
make_label (TlConductorChoice *self, const TlPart *part)
{
  const char *metal = tl_material_name (
      self->stock, tl_facts_word (part->facts, TL_FIELD_METAL, ""), self->language);
  const char *class = tl_facts_word (part->facts, TL_FIELD_CLASS, "");
  const char *make = g_str_equal (class, "class-1")   ? _ ("solid")
                     : g_str_equal (class, "class-2") ? _ ("stranded")
                                                      : _ ("flexible");
  const char *coating = tl_facts_word (part->facts, TL_FIELD_COATING, "none");

  if (g_str_equal (coating, "none"))
    return g_strdup_printf ("%s, %s", metal, make);
  return g_strdup_printf ("%s, %s, %s", metal, make,
                          tl_material_name (self->stock, coating, self->language));
}

static void
fill_makes (TlConductorChoice *self)
{
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const GPtrArray *parts = tl_stock_parts (self->stock);
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("choose"));
  g_strv_builder_add (ids, "");
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart    *part = g_ptr_array_index (parts, i);
      g_autofree char *make = NULL, *label = NULL;

      if (part->kind != TL_PART_CONDUCTOR)
        continue;
      make = make_of (part);
      if (g_hash_table_contains (seen, make))
        continue;
      label = make_label (self, part);
      g_strv_builder_add (texts, label);
      g_strv_builder_add (ids, make);
      g_hash_table_add (seen, g_steal_pointer (&make));
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  tl_choice_fill (self->make, (const char *const *) text, (const char *const *) id);
}

static gboolean
is_insulated (const TlPart *part)
{
  return !g_str_equal (tl_facts_word (part->facts, TL_FIELD_INSULATION, "none"), "none");
}

/* A house wire is insulated: the bare one stands in only where the stock has no insulated one of that size. */
static const TlPart *
preferred (TlConductorChoice *self, const TlPart *part)
{
  const GPtrArray *parts = tl_stock_parts (self->stock);
  g_autofree char *make = make_of (part);

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart    *other = g_ptr_array_index (parts, i);
      g_autofree char *its = NULL;

      if (other->kind != TL_PART_CONDUCTOR || g_strcmp0 (other->size, part->size) != 0
          || !is_insulated (other))
        continue;
      its = make_of (other);
      if (g_str_equal (its, make))
        return other;
    }
  return part;
}

static void
fill_sections (TlConductorChoice *self)
{
  const char *make = tl_choice_id (self->make);
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  const GPtrArray *parts = tl_stock_parts (self->stock);
  g_auto (GStrv) text = NULL, id = NULL;

  g_strv_builder_add (texts, _ ("choose"));
  g_strv_builder_add (ids, "");
  /* Metric sizes first, then AWG: two runs of a list that is short anyhow. */
  for (guint i = 0; i < 2 * parts->len && *make != 0; i++)
    {
      const TlPart    *part = g_ptr_array_index (parts, i % parts->len);
      gboolean         is_awg = part->size != NULL && strstr (part->size, "AWG") != NULL;
      g_autofree char *its = part->kind == TL_PART_CONDUCTOR ? make_of (part) : NULL;

      if (its == NULL || is_awg != (i >= parts->len) || !g_str_equal (its, make)
          || preferred (self, part) != part)
        continue;
      g_strv_builder_add (texts, part->size);
      g_strv_builder_add (ids, part->id);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  tl_choice_fill (self->section, (const char *const *) text, (const char *const *) id);
}

static void
show_part (TlConductorChoice *self)
{
  const char   *id = tl_conductor_choice_part (self);
  const TlPart *part = *id == '\0' ? NULL : tl_stock_part (self->stock, id);

  tl_part_view_show_part (self->view, self->stock, TL_PART_CONDUCTOR,
                          part == NULL ? NULL : part->facts);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
on_make (GtkDropDown *make, GParamSpec *pspec, TlConductorChoice *self)
{
  self->is_assumed = FALSE;
  if (self->stock == NULL)
    return;
  fill_sections (self);
  show_part (self);
}

static void
on_section (GtkDropDown *section, GParamSpec *pspec, TlConductorChoice *self)
{
  if (self->stock != NULL)
    show_part (self);
}

/* --- not sure --- */
static void
on_worst (GtkButton *button, TlConductorChoice *self)
{
  tl_choice_select (self->make, WORST_MAKE);
  self->is_assumed = TRUE;
  gtk_label_set_text (
      self->told,
      _ ("Taken as aluminium, assumed: it will stand so on the sheet. Now the section."));
}

/* The section whose bare diameter is nearest to the one measured. */
static void
on_diameter (GtkEntry *entry, TlConductorChoice *self)
{
  g_autoptr (GError) error = NULL;
  const char *const *ids = tl_choice_ids (self->section);
  const TlPart      *best = NULL;
  double             diameter_mm, best_off_mm = INFINITY;
  g_autofree char   *text = NULL;

  if (!tl_quantity_parse (gtk_editable_get_text (GTK_EDITABLE (entry)), "mm", &diameter_mm, &error))
    {
      gtk_label_set_text (self->told, error->message);
      return;
    }
  for (guint i = 1; ids != NULL && ids[i] != NULL; i++)
    {
      const TlPart *part = tl_stock_part (self->stock, ids[i]);
      double        off_mm =
          fabs (tl_facts_number (part->facts, TL_FIELD_METAL_DIAMETER, INFINITY) - diameter_mm);

      if (off_mm < best_off_mm)
        {
          best = part;
          best_off_mm = off_mm;
        }
    }
  if (best == NULL)
    {
      gtk_label_set_text (self->told, _ ("First say the metal."));
      return;
    }
  tl_choice_select (self->section, best->id);
  text =
      g_strdup_printf (_ ("Nearest: %s. Check it against the marking on the sheath."), best->size);
  gtk_label_set_text (self->told, text);
}

/* --- widget --- */
static void
tl_conductor_choice_dispose (GObject *object)
{
  TlConductorChoice *self = TL_CONDUCTOR_CHOICE (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_CONDUCTOR_CHOICE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  G_OBJECT_CLASS (tl_conductor_choice_parent_class)->dispose (object);
}

static void
tl_conductor_choice_class_init (TlConductorChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_conductor_choice_dispose;
  signals[CHANGED] = g_signal_new ("changed", TL_TYPE_CONDUCTOR_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (TL_TYPE_PART_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/conductor-choice.ui");
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, title);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, view);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, make);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, section);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, role);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, fixed);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, unsure);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, diameter);
  gtk_widget_class_bind_template_child (widget_class, TlConductorChoice, told);
  gtk_widget_class_bind_template_callback (widget_class, on_make);
  gtk_widget_class_bind_template_callback (widget_class, on_section);
  gtk_widget_class_bind_template_callback (widget_class, on_worst);
  gtk_widget_class_bind_template_callback (widget_class, on_diameter);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tl_conductor_choice_init (TlConductorChoice *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
fill_words (TlConductorChoice *self, GtkDropDown *choice, TlField field)
{
  const char *const *words = tl_field_info (field)->words;
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new ();
  g_auto (GStrv) text = NULL;

  for (guint i = 0; words[i] != NULL; i++)
    g_strv_builder_add (texts,
                        tl_language_text (self->language, tl_field_word_label (field, words[i])));
  text = g_strv_builder_end (texts);
  tl_choice_fill (choice, (const char *const *) text, words);
}

void
tl_conductor_choice_set_stock (TlConductorChoice *self, const TlStock *stock,
                               const TlLanguage *language, const char *title, const char *fixed)
{
  g_return_if_fail (self->stock == NULL);
  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  gtk_label_set_text (self->title, title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  fill_makes (self);
  fill_sections (self);
  fill_words (self, self->role, TL_FIELD_ROLE);
  fill_words (self, self->fixed, TL_FIELD_FIXED);
  tl_choice_select (self->fixed, fixed);
}

void
tl_conductor_choice_change_stock (TlConductorChoice *self, const TlStock *stock)
{
  g_autofree char *make = g_strdup (tl_choice_id (self->make));
  g_autofree char *section = g_strdup (tl_choice_id (self->section));
  gboolean         was_assumed = self->is_assumed;
  TlStock         *old = self->stock;

  self->stock = tl_stock_ref (stock);
  fill_makes (self);
  tl_choice_select (self->make, make);
  fill_sections (self);
  tl_choice_select (self->section, section);
  self->is_assumed = was_assumed;
  show_part (self);
  tl_stock_unref (old);
}

const char *
tl_conductor_choice_part (TlConductorChoice *self)
{
  return tl_choice_id (self->section);
}

TlJoint *
tl_conductor_choice_add (TlConductorChoice *self, const TlJoint *joint, GError **error)
{
  const TlPart *part = tl_stock_part (self->stock, tl_conductor_choice_part (self));
  g_autoptr (TlFacts) none = tl_facts_new ();
  g_autoptr (TlFacts) role =
      tl_facts_with_word (none, TL_FIELD_ROLE, tl_choice_id (self->role), TL_KNOWN_STATED);
  g_autoptr (TlFacts) fixed =
      tl_facts_with_word (role, TL_FIELD_FIXED, tl_choice_id (self->fixed), TL_KNOWN_STATED);
  g_autoptr (TlFacts) facts = NULL;
  g_auto (TlSeat) seat = tl_seat_none ();

  facts = self->is_assumed ? tl_facts_with_word (fixed, TL_FIELD_METAL,
                                                 tl_facts_word (part->facts, TL_FIELD_METAL, ""),
                                                 TL_KNOWN_ASSUMED)
                           : tl_facts_ref (fixed);
  return tl_edit_add_leg (joint, self->stock, part->id, facts, &seat, NULL, error);
}

gboolean
tl_conductor_choice_choose (TlConductorChoice *self, const char *make, const char *section)
{
  const char *const *ids;

  tl_choice_select (self->make, make);
  if (!g_str_equal (tl_choice_id (self->make), make))
    return FALSE;
  ids = tl_choice_ids (self->section);
  for (guint i = 1; ids[i] != NULL; i++)
    if (g_strcmp0 (tl_stock_part (self->stock, ids[i])->size, section) == 0)
      {
        gtk_drop_down_set_selected (self->section, i);
        return TRUE;
      }
  return FALSE;
}
