/* own-part-form.c: a part, to be read or edited.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-part-form.h"

#include "app/figure-entry.h"
#include "app/labelled.h"
#include "app/own-mark-form.h"
#include "app/own-start.h"
#include "app/owner-facts.h"
#include "app/part-view.h"
#include "base/quantity.h"

#include <glib/gi18n.h>

struct _TlOwnPartForm
{
  GtkWidget parent_instance;

  TlOwnStock    *own;
  TlLanguage    *language;
  char          *id;
  char          *shape;         /* id, kind and origin that the inputs are made for */
  GtkWidget     *empty, *whole; /* what to begin with; the part */
  TlPartView    *view;
  GtkLabel      *name, *dimensions, *origin;
  GtkWidget     *remove;
  GtkWidget     *known_box;
  GtkDropDown   *known;
  TlFigureEntry *size, *own_id;
  GtkFlowBox    *facts;
  GHashTable    *inputs; /* TlField -> TlFigureEntry or GtkDropDown */
  TlOwnMarkForm *mark;
  gboolean       is_showing;
  gboolean       is_taking; /* a figure: what was refused beside it is tried again, not forgotten */
};

G_DEFINE_FINAL_TYPE (TlOwnPartForm, tl_own_part_form, GTK_TYPE_WIDGET)

/* How a person can know a figure of a part. */
static const TlKnownBy knowns[] = { TL_KNOWN_MEASURED, TL_KNOWN_MARKING, TL_KNOWN_STATED };

/* What is said of a part in a joint, not of the part itself. */
static gboolean
is_of_joint (TlField field)
{
  static const TlField of_joint[] = { TL_FIELD_OFFSET,  TL_FIELD_REUSED,      TL_FIELD_DIE,
                                      TL_FIELD_PRESSES, TL_FIELD_COVER,       TL_FIELD_SLID_ON,
                                      TL_FIELD_AMOUNT,  TL_FIELD_HEAT_SOURCE, TL_FIELD_OVERLAP };

  for (guint i = 0; i < G_N_ELEMENTS (of_joint); i++)
    if (of_joint[i] == field)
      return TRUE;
  return FALSE;
}

static const TlPart *
present_part (TlOwnPartForm *self)
{
  const TlPart *own =
      self->id == NULL ? NULL : tl_pack_part (tl_own_stock_pack (self->own), self->id);

  if (own != NULL || self->id == NULL)
    return own;
  return tl_stock_part (tl_own_stock_stock (self->own), self->id);
}

/* --- edits --- */
/* An entry that loses the keyboard because its part is gone still says so. */
static gboolean
is_editable (TlOwnPartForm *self)
{
  return self->id != NULL && tl_own_stock_has_part (self->own, self->id);
}

static gboolean
take (TlOwnPartForm *self, const TlPart *part, const char *label, GError **error)
{
  TlPack *pack = tl_pack_change_part (tl_own_stock_pack (self->own), self->id, part, error);

  return tl_own_stock_take (self->own, pack, label, error);
}

/* @facts: (transfer full) */
static gboolean
take_facts (TlOwnPartForm *self, TlFacts *facts, TlField field, GError **error)
{
  TlPart          *part = tl_part_copy (present_part (self));
  g_autofree char *label = g_strdup_printf (
      _ ("Set %s"), tl_language_text (self->language, tl_field_info (field)->label));
  gboolean is_taken;

  tl_facts_unref (part->facts);
  part->facts = facts;
  is_taken = take (self, part, label, error);
  tl_part_free (part);
  return is_taken;
}

static gboolean
take_fact (TlOwnPartForm *self, TlFact *fact, GError **error)
{
  fact->known_by = knowns[gtk_drop_down_get_selected (self->known)];
  return take_facts (self, tl_facts_with (present_part (self)->facts, fact), fact->field, error);
}

/* Messages name figures as files do; here they read as the labels do. */
static char *
message_with_labels (TlOwnPartForm *self, TlField field, const char *message)
{
  g_autoptr (GString) text = g_string_new (message);
  guint            count;
  const TlField   *fields = tl_part_kind_fields (present_part (self)->kind, &count);
  g_autofree char *own = g_strdup_printf ("“%s”: ", tl_field_info (field)->key);

  if (g_str_has_prefix (text->str, own))
    g_string_erase (text, 0, (gssize) strlen (own));
  for (guint i = 0; i < count; i++)
    {
      const TlFieldInfo *info = tl_field_info (fields[i]);
      g_autofree char   *key = g_strdup_printf ("“%s”", info->key);
      g_autofree char   *label =
          g_strdup_printf ("“%s”", tl_language_text (self->language, info->label));

      g_string_replace (text, key, label, 0);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static TlField
field_of (gpointer input)
{
  return (TlField) GPOINTER_TO_UINT (g_object_get_data (input, "field"));
}

/* Bore before outside, or the other way round: what one figure refused, another may allow. */
static void
retry_refused (TlOwnPartForm *self)
{
  g_autoptr (GList) inputs = g_hash_table_get_values (self->inputs);

  for (GList *at = inputs; at != NULL; at = at->next)
    if (TL_IS_FIGURE_ENTRY (at->data) && *tl_figure_entry_wrong (at->data) != '\0')
      tl_figure_entry_retry (at->data);
}

static void
on_figure (TlFigureEntry *entry, const char *text, TlOwnPartForm *self)
{
  TlFact           fact = { .field = field_of (entry) };
  g_autofree char *word = NULL;
  g_autoptr (GError) error = NULL;
  gboolean is_taken;

  if (!is_editable (self))
    return;
  tl_figure_entry_refuse (entry, NULL);
  self->is_taking = TRUE;
  if (*text == '\0')
    is_taken = take_facts (self, tl_facts_without (present_part (self)->facts, fact.field),
                           fact.field, &error);
  else
    {
      is_taken = tl_fact_parse (fact.field, text, &fact, &error) && tl_fact_check (&fact, &error)
                 && take_fact (self, &fact, &error);
      word = fact.word;
    }
  self->is_taking = FALSE;
  if (is_taken)
    retry_refused (self);
  else
    {
      g_autofree char *message = message_with_labels (self, fact.field, error->message);

      tl_figure_entry_refuse (entry, message);
    }
}

static void
on_word (GtkDropDown *choice, GParamSpec *pspec, TlOwnPartForm *self)
{
  g_autofree char *word = g_strdup (tl_choice_id (choice));
  TlFact           fact = { .field = field_of (choice), .word = word };
  g_autoptr (GError) error = NULL;

  if (self->is_showing || *word == '\0' || !is_editable (self))
    return;
  if (!take_fact (self, &fact, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "own.warn", "s", error->message);
}

static void
on_text (TlFigureEntry *entry, const char *text, TlOwnPartForm *self)
{
  g_autofree char *after = g_strdup (text);
  g_autoptr (GError) error = NULL;
  gboolean is_id = entry == self->own_id, is_taken;
  TlPart  *part;

  if (!is_editable (self))
    return;
  part = tl_part_copy (present_part (self));
  if (is_id)
    {
      g_free (part->id);
      part->id = g_strdup (text);
    }
  else
    {
      g_free (part->size);
      part->size = g_strdup (text);
    }
  is_taken = take (self, part, is_id ? _ ("Set the id") : _ ("Set the size"), &error);
  tl_part_free (part);
  if (!is_taken)
    tl_figure_entry_refuse (entry, error->message);
  else if (is_id)
    gtk_widget_activate_action (GTK_WIDGET (self), "own.show", "s", after);
}

/* --- what is shown --- */
static const char *
material_kind (const TlPart *part, TlField field)
{
  if (field == TL_FIELD_BODY_MATERIAL)
    return "polymer";
  if (field != TL_FIELD_MATERIAL)
    return "metal";
  return tl_part_kind_group (part->kind) == TL_GROUP_SEALING ? "polymer"
         : part->kind == TL_PART_COMPOUND                    ? "compound"
         : part->kind == TL_PART_SOLDER                      ? "solder"
                                                             : "metal";
}

static void
fill_choice (TlOwnPartForm *self, GtkDropDown *choice, const TlPart *part, TlField field)
{
  const TlStock     *stock = tl_own_stock_stock (self->own);
  const TlFieldInfo *info = tl_field_info (field);
  const TlFact      *fact = tl_facts_get (part->facts, field);
  g_auto (GStrv) words = info->kind == TL_FIELD_KIND_ID
                             ? tl_material_choices (stock, field, fact == NULL ? NULL : fact->word,
                                                    material_kind (part, field))
                             : g_strdupv ((char **) info->words);
  g_autoptr (GStrvBuilder) texts = g_strv_builder_new (), ids = g_strv_builder_new ();
  g_auto (GStrv) text = NULL, id = NULL;

  if (fact == NULL)
    {
      g_strv_builder_add (texts, _ ("choose"));
      g_strv_builder_add (ids, "");
    }
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_strv_builder_add (texts, tl_word_choice_label (stock, self->language, field, words[i]));
      g_strv_builder_add (ids, words[i]);
    }
  text = g_strv_builder_end (texts);
  id = g_strv_builder_end (ids);
  tl_choice_fill (choice, (const char *const *) text, (const char *const *) id);
  tl_choice_select (choice, fact == NULL ? "" : fact->word);
}

static GtkWidget *
new_input (TlOwnPartForm *self, TlField field, GtkWidget **box)
{
  const TlFieldInfo *info = tl_field_info (field);
  const char        *label = tl_language_text (self->language, info->label);
  GtkWidget         *input;

  if (info->kind == TL_FIELD_KIND_NUMBER || info->kind == TL_FIELD_KIND_COUNT)
    {
      input = *box = tl_figure_entry_new (label, tl_unit_label (info->unit), 7);
      g_signal_connect (input, "entered", G_CALLBACK (on_figure), self);
    }
  else
    {
      input = gtk_drop_down_new (NULL, NULL);
      g_signal_connect (input, "notify::selected", G_CALLBACK (on_word), self);
      *box = tl_labelled_new (label, input);
    }
  g_object_set_data (G_OBJECT (input), "field", GUINT_TO_POINTER (field));
  gtk_widget_set_valign (*box, GTK_ALIGN_START);
  return input;
}

static void
make_inputs (TlOwnPartForm *self, const TlPart *part)
{
  guint          count;
  const TlField *fields = tl_part_kind_fields (part->kind, &count);
  GtkWidget     *child;

  g_hash_table_remove_all (self->inputs);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->facts))) != NULL)
    gtk_flow_box_remove (self->facts, child);
  for (guint i = 0; i < count; i++)
    {
      GtkWidget *box;

      if (is_of_joint (fields[i]))
        continue;
      g_hash_table_insert (self->inputs, GUINT_TO_POINTER (fields[i]),
                           new_input (self, fields[i], &box));
      gtk_flow_box_append (self->facts, box);
      gtk_widget_set_focusable (gtk_widget_get_parent (box), FALSE);
    }
}

static void
show_inputs (TlOwnPartForm *self, const TlPart *part, gboolean is_own)
{
  GHashTableIter iter;
  gpointer       key, input;

  g_hash_table_iter_init (&iter, self->inputs);
  while (g_hash_table_iter_next (&iter, &key, &input))
    {
      TlField field = (TlField) GPOINTER_TO_UINT (key);

      if (TL_IS_FIGURE_ENTRY (input))
        {
          g_autofree char *text =
              tl_fact_entry_text (tl_facts_get (part->facts, field), self->language);

          if (!self->is_taking || *tl_figure_entry_wrong (input) == '\0')
            tl_figure_entry_show (input, text);
          tl_figure_entry_set_editable (input, is_own);
        }
      else
        {
          fill_choice (self, input, part, field);
          gtk_widget_set_sensitive (input, is_own);
        }
    }
}

static void
show_head (TlOwnPartForm *self, const TlPart *part, gboolean is_own)
{
  const TlStock   *stock = tl_own_stock_stock (self->own);
  const TlPack    *pack = tl_stock_pack_of (stock, part->id);
  g_autofree char *name = tl_part_name (part->kind, part->facts, stock, self->language);
  g_autofree char *dimensions = tl_part_dimensions (part->kind, part->facts, self->language);
  g_autofree char *from = pack == NULL
                              ? NULL
                              : g_strdup_printf (_ ("From the pack “%s”; it can be copied, "
                                                    "not changed here."),
                                                 tl_pack_name (pack));
  const char      *origin = is_own ? _ ("Your own part: each figure is saved as you enter it.")
                            : pack != NULL ? from
                                           : _ ("Shipped with Tinlap: it can be copied, not changed.");

  tl_part_view_show_part (self->view, stock, part->kind, part->facts);
  gtk_label_set_text (self->name, name);
  gtk_label_set_text (self->dimensions,
                      *dimensions != '\0' ? dimensions
                      : tl_facts_count (part->facts) == 0
                          ? _ ("No sizes yet: the drawing shows its kind. Enter the sizes and it "
                               "follows them.")
                          : _ ("Enter its sizes; the drawing follows them."));
  gtk_label_set_text (self->origin, origin);
  gtk_widget_set_visible (self->remove, is_own);
  gtk_widget_set_visible (self->known_box, is_own);
  gtk_widget_set_visible (GTK_WIDGET (self->own_id), is_own);
  tl_figure_entry_show (self->size, part->size == NULL ? "" : part->size);
  tl_figure_entry_set_editable (self->size, is_own);
  tl_figure_entry_show (self->own_id, part->id);
}

void
tl_own_part_form_show (TlOwnPartForm *self, const char *id)
{
  g_autofree char *kept = g_strdup (id);
  const TlPart    *part;
  gboolean         is_own;
  g_autofree char *shape = NULL;

  g_free (self->id);
  self->id = g_steal_pointer (&kept);
  part = present_part (self);
  gtk_widget_set_visible (self->empty, part == NULL);
  gtk_widget_set_visible (self->whole, part != NULL);
  tl_own_mark_form_show (self->mark, part == NULL ? NULL : self->id);
  if (part == NULL)
    {
      g_clear_pointer (&self->id, g_free);
      return;
    }
  is_own = tl_own_stock_has_part (self->own, part->id);
  shape = g_strdup_printf ("%s %d", part->id, (int) part->kind);
  self->is_showing = TRUE;
  if (g_strcmp0 (shape, self->shape) != 0)
    make_inputs (self, part);
  g_free (self->shape);
  self->shape = g_steal_pointer (&shape);
  show_head (self, part, is_own);
  show_inputs (self, part, is_own);
  self->is_showing = FALSE;
}

void
tl_own_part_form_begin (TlOwnPartForm *self)
{
  const TlPart  *part = present_part (self);
  guint          count;
  const TlField *fields = part == NULL ? NULL : tl_part_kind_fields (part->kind, &count);

  for (guint i = 0; part != NULL && i < count; i++)
    {
      GtkWidget *input = g_hash_table_lookup (self->inputs, GUINT_TO_POINTER (fields[i]));

      if (input != NULL)
        {
          gtk_widget_grab_focus (input);
          return;
        }
    }
}

const char *
tl_own_part_form_part (TlOwnPartForm *self)
{
  return self->id;
}

/* --- widget --- */
static void
tl_own_part_form_dispose (GObject *object)
{
  TlOwnPartForm *self = TL_OWN_PART_FORM (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_OWN_PART_FORM);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->inputs, g_hash_table_unref);
  g_clear_object (&self->own);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_pointer (&self->id, g_free);
  g_clear_pointer (&self->shape, g_free);
  G_OBJECT_CLASS (tl_own_part_form_parent_class)->dispose (object);
}

static void
tl_own_part_form_class_init (TlOwnPartFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_own_part_form_dispose;
  g_type_ensure (TL_TYPE_PART_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/own-part-form.ui");
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, empty);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, whole);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, view);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, name);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, dimensions);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, origin);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, remove);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, known_box);
  gtk_widget_class_bind_template_child (widget_class, TlOwnPartForm, facts);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_FORM);
}

static void
tl_own_part_form_init (TlOwnPartForm *self)
{
  self->inputs = g_hash_table_new (NULL, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}

static TlFigureEntry *
add_text (TlOwnPartForm *self, const char *label, int chars)
{
  GtkWidget *entry = tl_figure_entry_new (label, "", chars);

  g_signal_connect (entry, "entered", G_CALLBACK (on_text), self);
  gtk_box_append (GTK_BOX (self->known_box), entry);
  return TL_FIGURE_ENTRY (entry);
}

GtkWidget *
tl_own_part_form_new (TlOwnStock *own, const TlLanguage *language)
{
  TlOwnPartForm *self = g_object_new (TL_TYPE_OWN_PART_FORM, NULL);
  const char    *texts[G_N_ELEMENTS (knowns) + 1] = { NULL };

  self->own = g_object_ref (own);
  self->language = tl_language_ref ((TlLanguage *) language);
  for (guint i = 0; i < G_N_ELEMENTS (knowns); i++)
    texts[i] = _ (tl_known_by_label (knowns[i]));
  self->known = GTK_DROP_DOWN (tl_choice_new (texts, texts));
  gtk_box_append (GTK_BOX (self->known_box),
                  tl_labelled_new (_ ("What I enter is"), GTK_WIDGET (self->known)));
  self->size = add_text (self, _ ("Sold as (M5, 16 mm²…)"), 12);
  self->own_id = add_text (self, _ ("Id in files"), 20);
  self->mark = TL_OWN_MARK_FORM (tl_own_mark_form_new (own, language));
  gtk_widget_set_margin_top (GTK_WIDGET (self->mark), 12);
  gtk_box_append (GTK_BOX (self->whole), GTK_WIDGET (self->mark));
  gtk_box_append (GTK_BOX (self->empty), tl_own_start_new (own, language));
  tl_own_part_form_show (self, NULL);
  return GTK_WIDGET (self);
}
