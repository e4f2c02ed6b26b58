/* facts-strip.c: the facts of the selection, by tabs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/facts-strip.h"

#include "app/fact-entry.h"
#include "app/joint-form.h"
#include "app/labelled.h"
#include "app/mark-view.h"
#include "app/preparation-form.h"
#include "app/ways-form.h"

#include <glib/gi18n.h>

typedef enum
{
  TAB_FACTS,     /* a layer */
  TAB_CONDUCTOR, /* a leg */
  TAB_PLACE,
  TAB_END,
  TAB_PREPARATION,
  TAB_JOINT, /* nothing selected */
  TAB_SITE,
  TAB_DUTY,
  N_TABS
} Tab;

static const char *const tab_labels[N_TABS] = {
  N_ ("Facts"),       N_ ("Conductor"), N_ ("Place"),        N_ ("End"),
  N_ ("Preparation"), N_ ("Joint"),     N_ ("Surroundings"), N_ ("Load"),
};

struct _TlFactsStrip
{
  GtkWidget parent_instance;

  TlDocument        *document;
  TlMarkView        *number;
  GtkLabel          *title;
  GtkLabel          *origin;
  GtkBox            *tabs;
  GtkScrolledWindow *scroller;
  GtkBox            *entries;
  TlJointForm       *joint_form;  /* (nullable) in @entries */
  TlPreparationForm *preparation; /* (nullable) in @entries */
  TlWaysForm        *ways;        /* (nullable) in @entries */
  char              *shown;       /* owner and kind that the entries are made for */
  Tab                tab, leg_tab, joint_tab;
  gboolean           is_showing;
};

G_DEFINE_FINAL_TYPE (TlFactsStrip, tl_facts_strip, GTK_TYPE_WIDGET)

/* A leg's fields fall into three groups, in the order of the vocabulary. */
static Tab
tab_of_leg_field (TlField field)
{
  static const TlField places[] = { TL_FIELD_ROLE, TL_FIELD_FIXED, TL_FIELD_FREE_LENGTH,
                                    TL_FIELD_BENDS, TL_FIELD_YEAR };
  static const TlField ends[] = { TL_FIELD_END,         TL_FIELD_STRIP,     TL_FIELD_EYE_BORE,
                                  TL_FIELD_EYE_CLOSES,  TL_FIELD_INSERTION, TL_FIELD_DIRECTION,
                                  TL_FIELD_BEND_RADIUS, TL_FIELD_SURFACE,   TL_FIELD_OFFSET };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    if (places[i] == field)
      return TAB_PLACE;
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (ends[i] == field)
      return TAB_END;
  return TAB_CONDUCTOR;
}

static void
add_entries (TlFactsStrip *self, const char *owner, const TlField *fields, guint count,
             gboolean is_leg)
{
  for (guint i = 0; i < count; i++)
    if (!is_leg || tab_of_leg_field (fields[i]) == self->tab)
      gtk_box_append (self->entries, tl_fact_entry_new (self->document, owner, fields[i]));
}

static void
fill (TlFactsStrip *self)
{
  const char    *selected = tl_document_selected (self->document);
  const TlLayer *layer =
      selected == NULL ? NULL : tl_joint_layer (tl_document_joint (self->document), selected);
  const TlField *fields;
  guint          count = 0;

  tl_box_clear (self->entries);
  self->joint_form = NULL;
  self->preparation = NULL;
  self->ways = NULL;
  switch (self->tab)
    {
    case TAB_FACTS:
      fields = tl_part_kind_fields (layer->kind, &count);
      add_entries (self, selected, fields, count, FALSE);
      break;
    case TAB_PREPARATION:
      self->preparation = TL_PREPARATION_FORM (tl_preparation_form_new (self->document, selected));
      gtk_box_append (self->entries, GTK_WIDGET (self->preparation));
      break;
    case TAB_JOINT:
      self->joint_form = TL_JOINT_FORM (tl_joint_form_new (self->document));
      gtk_box_append (self->entries, GTK_WIDGET (self->joint_form));
      break;
    case TAB_SITE:
      fields = tl_site_fields (&count);
      add_entries (self, "site", fields, count, FALSE);
      self->ways = TL_WAYS_FORM (tl_ways_form_new (self->document));
      gtk_box_append (self->entries, GTK_WIDGET (self->ways));
      break;
    case TAB_DUTY:
      fields = tl_duty_fields (&count);
      add_entries (self, "duty", fields, count, FALSE);
      break;
    case TAB_CONDUCTOR:
    case TAB_PLACE:
    case TAB_END:
      fields = tl_leg_fields (&count);
      add_entries (self, selected, fields, count, TRUE);
      break;
    case N_TABS:
    default:
      g_assert_not_reached ();
    }
  gtk_adjustment_set_value (gtk_scrolled_window_get_hadjustment (self->scroller), 0);
}

static void
on_tab (GtkToggleButton *button, TlFactsStrip *self)
{
  Tab tab = (Tab) GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "tab"));

  if (self->is_showing || !gtk_toggle_button_get_active (button))
    return;
  self->tab = tab;
  if (tab >= TAB_JOINT)
    self->joint_tab = tab;
  else if (tab != TAB_FACTS)
    self->leg_tab = tab;
  fill (self);
}

static void
show_tabs (TlFactsStrip *self, Tab first, Tab last)
{
  GtkWidget *group = NULL;

  self->is_showing = TRUE;
  tl_box_clear (self->tabs);
  for (Tab tab = first; tab <= last && first != last; tab++)
    {
      GtkWidget *button = gtk_toggle_button_new_with_label (_ (tab_labels[tab]));

      if (group != NULL)
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (group));
      group = button;
      g_object_set_data (G_OBJECT (button), "tab", GUINT_TO_POINTER (tab));
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), tab == self->tab);
      g_signal_connect (button, "toggled", G_CALLBACK (on_tab), self);
      gtk_box_append (self->tabs, button);
    }
  self->is_showing = FALSE;
}

/* Where the figures come from: the part of the stock, or the person. */
static char *
origin_text (TlFactsStrip *self, const char *owner)
{
  const TlJoint  *joint = tl_document_joint (self->document);
  const TlStock  *stock = tl_document_effective_stock (self->document);
  const TlLayer  *layer = tl_joint_layer (joint, owner);
  const TlLeg    *leg = tl_joint_leg (joint, owner);
  const char     *id = layer != NULL ? layer->part : leg->part;
  const TlPart   *part = id == NULL ? NULL : tl_stock_part (stock, id);
  const char     *source = NULL;
  const TlSource *found;

  for (guint i = 0; part != NULL && source == NULL && i < tl_facts_count (part->facts); i++)
    source = tl_facts_at (part->facts, i)->source;
  found = source == NULL ? NULL : tl_stock_source (stock, source);
  if (id != NULL && part == NULL)
    return g_strdup_printf (_ ("part “%s” is not in the stock"), id);
  if (part == NULL || part->is_open || found == NULL)
    return g_strdup (_ ("stated by you; any figure can be typed with its unit"));
  return g_strdup_printf (_ ("from %s; any figure can be typed with its unit"), found->title);
}

static void
show_head (TlFactsStrip *self, const char *owner)
{
  g_autofree char *name = NULL, *origin = NULL, *first = NULL, *title = NULL;
  guint            number = owner == NULL
                                ? 0
                                : tl_assembly_number (tl_document_verdict (self->document)->assembly, owner);

  name =
      owner == NULL ? g_strdup (_ ("This joint")) : tl_document_owner_name (self->document, owner);
  first = g_utf8_strup (name, g_utf8_next_char (name) - name);
  title = g_strconcat (first, g_utf8_next_char (name), NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->number), number > 0);
  tl_mark_view_show_number (self->number, number, TRUE);
  gtk_label_set_text (self->title, title);
  origin =
      owner == NULL ? g_strdup (_ ("choose a layer to see its facts")) : origin_text (self, owner);
  gtk_label_set_text (self->origin, origin);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->origin), origin);
}

static void
refresh_entries (TlFactsStrip *self)
{
  if (self->joint_form != NULL)
    tl_joint_form_refresh (self->joint_form);
  if (self->preparation != NULL)
    tl_preparation_form_refresh (self->preparation);
  if (self->ways != NULL)
    tl_ways_form_refresh (self->ways);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->entries)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (TL_IS_FACT_ENTRY (child))
      tl_fact_entry_refresh (TL_FACT_ENTRY (child));
}

static void
refresh (TlFactsStrip *self)
{
  const char    *owner = tl_document_selected (self->document);
  const TlLayer *layer =
      owner == NULL ? NULL : tl_joint_layer (tl_document_joint (self->document), owner);
  g_autofree char *key =
      g_strdup_printf ("%s %d", owner == NULL ? "" : owner, layer == NULL ? -1 : (int) layer->kind);

  show_head (self, owner);
  if (g_strcmp0 (key, self->shown) == 0)
    {
      refresh_entries (self);
      return;
    }
  g_free (self->shown);
  self->shown = g_steal_pointer (&key);
  self->tab = layer != NULL ? TAB_FACTS : owner != NULL ? self->leg_tab : self->joint_tab;
  if (layer != NULL)
    show_tabs (self, TAB_FACTS, TAB_FACTS);
  else if (owner != NULL)
    show_tabs (self, TAB_CONDUCTOR, TAB_PREPARATION);
  else
    show_tabs (self, TAB_JOINT, TAB_DUTY);
  fill (self);
}

static void
tl_facts_strip_dispose (GObject *object)
{
  TlFactsStrip *self = TL_FACTS_STRIP (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_FACTS_STRIP);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_object (&self->document);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (tl_facts_strip_parent_class)->dispose (object);
}

static void
tl_facts_strip_class_init (TlFactsStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_facts_strip_dispose;
  g_type_ensure (TL_TYPE_MARK_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/facts-strip.ui");
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, number);
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, title);
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, origin);
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, tabs);
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, scroller);
  gtk_widget_class_bind_template_child (widget_class, TlFactsStrip, entries);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_FORM);
}

static void
stay_at_top (GtkAdjustment *adjustment)
{
  if (gtk_adjustment_get_value (adjustment) > 0.0)
    gtk_adjustment_set_value (adjustment, 0.0);
}

static void
tl_facts_strip_init (TlFactsStrip *self)
{
  self->leg_tab = TAB_CONDUCTOR;
  self->joint_tab = TAB_JOINT;
  gtk_widget_init_template (GTK_WIDGET (self));
  /* The list of a choice lies below its button; scrolling to it would take the labels away. */
  g_signal_connect (gtk_scrolled_window_get_vadjustment (self->scroller), "value-changed",
                    G_CALLBACK (stay_at_top), NULL);
}

/* Lists of parts are made anew with the next look at the selection. */
static void
on_stock (TlFactsStrip *self)
{
  g_clear_pointer (&self->shown, g_free);
}

void
tl_facts_strip_set_document (TlFactsStrip *self, TlDocument *document)
{
  g_return_if_fail (self->document == NULL);
  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "stock-changed", G_CALLBACK (on_stock), self);
  g_signal_connect_swapped (document, "selection-changed", G_CALLBACK (refresh), self);
  refresh (self);
}

void
tl_facts_strip_edit (TlFactsStrip *self)
{
  GtkWidget *first = gtk_widget_get_first_child (GTK_WIDGET (self->entries));

  if (first != NULL && TL_IS_FACT_ENTRY (first))
    gtk_widget_grab_focus (first);
  else if (first != NULL)
    gtk_widget_child_focus (first, GTK_DIR_TAB_FORWARD);
}

void
tl_facts_strip_edit_field (TlFactsStrip *self, const char *owner, TlField field)
{
  gboolean is_site = g_str_equal (owner, "site"), is_duty = g_str_equal (owner, "duty");

  if (is_site || is_duty)
    self->joint_tab = is_site ? TAB_SITE : TAB_DUTY;
  else if (tl_joint_leg (tl_document_joint (self->document), owner) != NULL)
    self->leg_tab = tab_of_leg_field (field);
  g_clear_pointer (&self->shown, g_free);
  tl_document_select (self->document, is_site || is_duty || *owner == '\0' ? NULL : owner);
  refresh (self);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->entries)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (TL_IS_FACT_ENTRY (child) && tl_fact_entry_field (TL_FACT_ENTRY (child)) == field)
      {
        gtk_widget_grab_focus (child);
        return;
      }
}
