/* finding-row.c: a finding, a missing fact or an uncomputed rule as a row.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/finding-row.h"

#include "app/mark-view.h"
#include "app/steady-layout.h"
#include "assembly/places.h"

#include <glib/gi18n.h>

/* px of width that a sentence has at least; the pane decides on more */
static const int SENTENCE_PX = 180;

struct _TlFindingRow
{
  GtkListBoxRow parent_instance;

  TlDocument      *document;
  TlVerdict       *verdict; /* keeps @finding alive */
  const TlFinding *finding; /* NULL for a problem */
  char            *key;
  char            *owner;   /* of a problem */
  char            *awaited; /* (nullable): owner of @field where it is another one */
  TlField          field;
  TlMarkView      *edge;
  TlMarkView      *mark;
  GtkLabel        *word;
  GtkBox          *numbers;
  GtkImage        *arrow;
  GtkWidget       *sentence_place;
  GtkLabel        *sentence;
  GtkButton       *enter;
  char            *words; /* that @enter searches Parts for, or NULL */
  GtkMenuButton   *ways;  /* NULL where no way of joining is asked for */
  GtkRevealer     *revealer;
  GtkBox          *details; /* filled when first opened */
};

G_DEFINE_FINAL_TYPE (TlFindingRow, tl_finding_row, GTK_TYPE_LIST_BOX_ROW)

/* --- details --- */
static GtkWidget *
add_text (GtkBox *box, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (box, label);
  return label;
}

static GtkWidget *
working_cell (const char *text, const char *style, float xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

/* Name and value face each other; the formula with its numbers stands below, where there is one. */
static void
add_working_line (GtkGrid *grid, const TlWorkingLine *line, gboolean is_first_result, int row)
{
  const char *style = is_first_result ? "working-result" : line->is_result ? "name-bold" : NULL;
  GtkWidget  *name = working_cell (line->name, style, 0),
            *value = working_cell (line->value, style, 1);

  gtk_widget_set_hexpand (name, TRUE);
  gtk_grid_attach (grid, name, 0, row, 1, 1);
  gtk_grid_attach (grid, value, 1, row, 1, 1);
  if (line->text != NULL && g_utf8_strlen (line->text, -1) > 1)
    gtk_grid_attach (grid, working_cell (line->text, "caption-text", 0), 0, row + 1, 2, 1);
}

static void
add_working (TlFindingRow *self)
{
  g_autoptr (GPtrArray) lines =
      tl_wording_working (self->verdict, self->finding, tl_document_language (self->document));
  gboolean   had_result = FALSE;
  GtkWidget *grid;

  if (lines->len == 0)
    return;
  add_text (self->details, _ ("Working"), "caption-text");
  grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 3);
  for (guint i = 0; i < lines->len; i++)
    {
      const TlWorkingLine *line = g_ptr_array_index (lines, i);

      add_working_line (GTK_GRID (grid), line, line->is_result && !had_result, (int) i * 2);
      had_result = had_result || line->is_result;
    }
  gtk_box_append (self->details, grid);
}

static void
add_buttons (TlFindingRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *show;

  gtk_widget_set_margin_top (box, 4);
  if (self->finding->mend != NULL)
    {
      g_autofree char *text = tl_wording_mend (self->verdict, self->finding->mend,
                                               tl_document_language (self->document));
      GtkWidget *mend = gtk_button_new (), *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6),
                *label = gtk_label_new (text),
                *icon = gtk_image_new_from_icon_name ("tinlap-mend-symbolic");

      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      /* GTK 4.8 rounds the height of a box with a baseline in two ways; an icon lower than the line stays out of it. */
      gtk_image_set_pixel_size (GTK_IMAGE (icon), 14);
      gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
      gtk_widget_set_valign (icon, GTK_ALIGN_CENTER);
      gtk_widget_set_valign (mend, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (content), icon);
      gtk_box_append (GTK_BOX (content), label);
      gtk_button_set_child (GTK_BUTTON (mend), content);
      gtk_widget_add_css_class (mend, "primary");
      gtk_actionable_set_action_name (GTK_ACTIONABLE (mend), "finding.mend");
      gtk_accessible_update_property (GTK_ACCESSIBLE (mend), GTK_ACCESSIBLE_PROPERTY_LABEL, text,
                                      -1);
      gtk_box_append (GTK_BOX (box), mend);
    }
  show = gtk_button_new_with_label (_ ("Show on bench"));
  gtk_widget_set_valign (show, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (show, "link-button");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (show), "finding.show");
  gtk_box_append (GTK_BOX (box), show);
  gtk_box_append (self->details, box);
}

static void
fill_details (TlFindingRow *self)
{
  const TlLanguage *language = tl_document_language (self->document);
  g_autofree char  *why = tl_wording_why (self->verdict, self->finding, language);
  g_autofree char  *sources = tl_wording_sources (self->verdict, self->finding, language);

  if (*why != '\0')
    add_text (self->details, why, NULL);
  add_working (self);
  if (*sources != '\0')
    add_text (self->details, sources, "caption-text");
  add_buttons (self);
}

/* --- head --- */
static void
add_number (TlFindingRow *self, guint number)
{
  GtkWidget *view;

  if (number == 0)
    return;
  view = tl_mark_view_new (18);
  tl_mark_view_show_number (TL_MARK_VIEW (view), number, FALSE);
  gtk_box_append (self->numbers, view);
}

static void
set_head (TlFindingRow *self, TlMark mark, const char *word, const char *sentence, GString *numbers)
{
  g_autofree char *name = g_strdup_printf ("%s %s. %s", word, numbers->str, sentence);

  tl_mark_view_show_edge (self->edge, mark);
  tl_mark_view_show_mark (self->mark, mark);
  gtk_label_set_text (self->word, word);
  gtk_label_set_text (self->sentence, sentence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
mend_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlFindingRow *self = TL_FINDING_ROW (widget);
  g_autoptr (TlVerdict) verdict = tl_verdict_ref (self->verdict);
  g_autoptr (TlDocument) document = g_object_ref (self->document);
  g_autoptr (GError) error = NULL;
  g_autofree char *label = NULL, *sentence = NULL;
  TlJoint         *after;

  if (self->finding == NULL || self->finding->mend == NULL)
    return;
  label = tl_wording_mend (verdict, self->finding->mend, tl_document_language (document));
  sentence = g_strdup_printf (_ ("Mended: %s."), label);
  after = tl_mend_apply (self->finding->mend, tl_document_joint (document),
                         tl_document_stock (document), &error);
  if (after == NULL)
    {
      tl_document_refuse (document, error->message);
      return;
    }
  tl_document_take (document, after, label, tl_document_selected (document), 0);
  tl_document_tell (document, sentence);
}

static void
show_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlFindingRow *self = TL_FINDING_ROW (widget);

  if (self->finding != NULL && self->finding->owners->len > 0)
    gtk_widget_activate_action (widget, "findings.show", "s",
                                g_ptr_array_index (self->finding->owners, 0));
}

static void
on_enter (GtkButton *button, TlFindingRow *self)
{
  if (self->words != NULL)
    gtk_widget_activate_action (GTK_WIDGET (self), "findings.find", "s", self->words);
  else if (self->field < TL_N_FIELDS)
    gtk_widget_activate_action (GTK_WIDGET (self), "findings.enter", "(su)",
                                self->awaited != NULL ? self->awaited : self->owner,
                                (guint) self->field);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "findings.put-in", "s", self->owner);
}

static void
tl_finding_row_dispose (GObject *object)
{
  TlFindingRow *self = TL_FINDING_ROW (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_FINDING_ROW);
  g_clear_pointer (&self->verdict, tl_verdict_unref);
  g_clear_object (&self->document);
  g_clear_pointer (&self->key, g_free);
  g_clear_pointer (&self->owner, g_free);
  g_clear_pointer (&self->awaited, g_free);
  g_clear_pointer (&self->words, g_free);
  G_OBJECT_CLASS (tl_finding_row_parent_class)->dispose (object);
}

static void
tl_finding_row_class_init (TlFindingRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_finding_row_dispose;
  g_type_ensure (TL_TYPE_MARK_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/finding-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, edge);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, mark);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, word);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, numbers);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, arrow);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, sentence_place);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, sentence);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, enter);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, revealer);
  gtk_widget_class_bind_template_child (widget_class, TlFindingRow, details);
  gtk_widget_class_bind_template_callback (widget_class, on_enter);
  gtk_widget_class_install_action (widget_class, "finding.mend", NULL, mend_action);
  gtk_widget_class_install_action (widget_class, "finding.show", NULL, show_action);
}

static void
tl_finding_row_init (TlFindingRow *self)
{
  GtkLayoutManager *layout = g_object_new (TL_TYPE_STEADY_LAYOUT, NULL);

  self->field = TL_N_FIELDS;
  gtk_widget_init_template (GTK_WIDGET (self));
  tl_steady_layout_set_width (TL_STEADY_LAYOUT (layout), SENTENCE_PX);
  gtk_widget_set_layout_manager (self->sentence_place, layout);
}

static TlFindingRow *
new_row (TlDocument *document)
{
  TlFindingRow *self = g_object_new (TL_TYPE_FINDING_ROW, NULL);

  self->document = g_object_ref (document);
  self->verdict = tl_verdict_ref ((TlVerdict *) tl_document_verdict (document));
  return self;
}

GtkWidget *
tl_finding_row_new_finding (TlDocument *document, const TlFinding *finding)
{
  TlFindingRow     *self = new_row (document);
  const TlLanguage *language = tl_document_language (document);
  g_autofree char  *sentence = tl_wording_finding (self->verdict, finding, language);
  g_autoptr (GString) key = g_string_new (finding->rule->id), numbers = g_string_new (NULL);

  self->finding = finding;
  for (guint i = 0; i < finding->owners->len; i++)
    {
      const char *owner = g_ptr_array_index (finding->owners, i);
      guint       number = tl_assembly_number (self->verdict->assembly, owner);

      add_number (self, number);
      g_string_append_printf (key, " %s", owner);
      if (number > 0)
        g_string_append_printf (numbers, "%u ", number);
    }
  self->key = g_strdup (key->str);
  set_head (self, tl_theme_mark (TRUE, finding->severity),
            tl_language_text (language, tl_severity_word (finding->severity)), sentence, numbers);
  tl_theme_set_severity (GTK_WIDGET (self->word), TRUE, finding->severity);
  return GTK_WIDGET (self);
}

/* --- a button that leads on: a figure to enter, a part to put in, a way of joining to choose --- */
static const struct
{
  const char *label;
  const char *words; /* of the search in Parts: kinds and forms by their ids */
} ways[] = {
  { N_ ("Pressed sleeve"), "crimp sleeve" },
  { N_ ("Screw terminal"), "terminal screw" },
  { N_ ("Spring terminal"), "terminal spring" },
  { N_ ("Branch connector"), "branch" },
  { N_ ("Bolted stack"), "bolt" },
  { N_ ("Solder"), "solder" },
};

static gboolean
is_beside (TlFindingRow *self)
{
  const TlSeat *seat = tl_joint_seat (tl_document_joint (self->document), self->owner);

  return seat != NULL && seat->kind == TL_SEAT_NONE
         && self->verdict->assembly->family != TL_FAMILY_NONE;
}

static gboolean
wants_way (TlFindingRow *self)
{
  return *self->owner == '\0' && self->verdict->assembly->family == TL_FAMILY_NONE
         && tl_document_joint (self->document)->legs->len > 0;
}

/* mm of the hole that the thickest conductor goes through, mm² of the largest; 0 where none is known */
static void
measure_legs (TlFindingRow *self, double *thickest_mm, double *largest_mm2)
{
  const TlAssembly *assembly = tl_document_verdict (self->document)->assembly;
  const GPtrArray  *legs = assembly->joint->legs;

  *thickest_mm = *largest_mm2 = 0.0;
  for (guint i = 0; i < legs->len; i++)
    {
      const TlLeg *leg = g_ptr_array_index (legs, i);

      *thickest_mm = MAX (*thickest_mm, tl_places_least_hole_mm (assembly, leg));
      *largest_mm2 =
          MAX (*largest_mm2, tl_leg_number (leg, assembly->stock, TL_FIELD_SECTION, 0.0));
    }
}

/* Sleeves go by the narrowest one that takes every conductor and is made for the largest. */
static char *
way_words (TlFindingRow *self, const char *words)
{
  const GPtrArray *parts = tl_stock_parts (tl_document_effective_stock (self->document));
  double           narrowest = G_MAXDOUBLE, section = 0.0, thickest, largest;
  char             text[G_ASCII_DTOSTR_BUF_SIZE];

  measure_legs (self, &thickest, &largest);
  if (thickest <= 0.0 || !g_str_has_suffix (words, "sleeve"))
    return g_strdup (words);
  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      double        bore = tl_facts_number (part->facts, TL_FIELD_BORE, 0.0);
      double        stated = tl_facts_number (part->facts, TL_FIELD_STATED_SECTION, 0.0);

      if (part->kind != TL_PART_SLEEVE || stated <= 0.0 || stated < largest || bore < thickest
          || bore > narrowest || (bore == narrowest && stated > section))
        continue;
      narrowest = bore;
      section = stated;
    }
  if (section <= 0.0)
    return g_strdup (words);
  return g_strdup_printf ("%s %s", words, g_ascii_formatd (text, sizeof text, "%.4g", section));
}

static void
add_ways (TlFindingRow *self)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget *button = gtk_menu_button_new ();

  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (_ (ways[i].label), NULL);
      g_autofree char *words = way_words (self, ways[i].words);

      g_menu_item_set_action_and_target (item, "findings.find", "s", words);
      g_menu_append_item (menu, item);
    }
  self->ways = GTK_MENU_BUTTON (button);
  gtk_menu_button_set_label (self->ways, _ ("Choose"));
  gtk_menu_button_set_menu_model (self->ways, G_MENU_MODEL (menu));
  gtk_widget_add_css_class (button, "plain");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Choose how the conductors are joined"), -1);
  gtk_box_insert_child_after (GTK_BOX (gtk_widget_get_parent (GTK_WIDGET (self->enter))), button,
                              GTK_WIDGET (self->enter));
}

static gboolean
has_kind (const TlJoint *joint, TlPartKind kind)
{
  for (guint i = 0; i < joint->layers->len; i++)
    if (((const TlLayer *) g_ptr_array_index (joint->layers, i))->kind == kind)
      return TRUE;
  return FALSE;
}

/* Words for the part that a joint as a whole still wants; (nullable) */
static char *
wanted_words (TlFindingRow *self)
{
  const TlAssembly *assembly = self->verdict->assembly;
  const TlJoint    *joint = tl_document_joint (self->document);

  if (*self->owner != '\0')
    return NULL;
  if (joint->legs->len < 2)
    return g_strdup (tl_part_kind_word (TL_PART_CONDUCTOR));
  if (assembly->family != TL_FAMILY_STACK)
    return NULL;
  if (!has_kind (joint, TL_PART_BOLT))
    return g_strdup (tl_part_kind_word (TL_PART_BOLT));
  if (has_kind (joint, TL_PART_NUT))
    return NULL;
  return g_strdup_printf ("%s M%g", tl_part_kind_word (TL_PART_NUT), assembly->stack.thread_mm);
}

/* What is put in but not drawn yet waits for the first figure that its mouth lacks. */
static const TlProblem *
find_awaited (TlFindingRow *self)
{
  const TlSeat *seat = tl_joint_seat (tl_document_joint (self->document), self->owner);
  const GArray *problems = self->verdict->unfinished;

  for (guint i = 0; seat != NULL && seat->kind == TL_SEAT_PORT && i < problems->len; i++)
    {
      const TlProblem *problem = &g_array_index (problems, TlProblem, i);

      if (problem->field < TL_N_FIELDS && g_strcmp0 (problem->owner, seat->of) == 0)
        return problem;
    }
  return NULL;
}

static void
show_next (TlFindingRow *self, const TlProblem *problem)
{
  const TlProblem *awaited;

  if (problem->field < TL_N_FIELDS)
    return;
  self->words = wanted_words (self);
  awaited = find_awaited (self);
  if (self->words != NULL || is_beside (self))
    {
      gtk_button_set_label (self->enter, self->words != NULL ? _ ("Find it") : _ ("Put it in"));
      gtk_widget_set_visible (GTK_WIDGET (self->enter), TRUE);
    }
  else if (awaited != NULL)
    {
      self->awaited = g_strdup (awaited->owner);
      self->field = awaited->field;
      gtk_widget_set_visible (GTK_WIDGET (self->enter), TRUE);
    }
  else if (wants_way (self))
    add_ways (self);
}

static void
show_enter (TlFindingRow *self, const char *owner, TlField field)
{
  self->owner = g_strdup (owner == NULL ? "" : owner);
  self->field = field;
  gtk_widget_set_visible (GTK_WIDGET (self->enter), field < TL_N_FIELDS);
  gtk_widget_set_visible (GTK_WIDGET (self->arrow), FALSE);
  add_number (self, tl_assembly_number (self->verdict->assembly, self->owner));
}

GtkWidget *
tl_finding_row_new_problem (TlDocument *document, const TlProblem *problem)
{
  TlFindingRow    *self = new_row (document);
  g_autofree char *sentence =
      tl_wording_problem (self->verdict->assembly, problem, tl_document_language (document));
  g_autoptr (GString) numbers = g_string_new (NULL);

  self->key = g_strdup_printf ("problem %s %u", problem->owner, (guint) problem->field);
  set_head (self, TL_MARK_UNFINISHED,
            problem->is_missing ? _ ("Missing") : _ ("Cannot be built so"), sentence, numbers);
  show_enter (self, problem->owner, problem->field);
  show_next (self, problem);
  return GTK_WIDGET (self);
}

GtkWidget *
tl_finding_row_new_not_computed (TlDocument *document, const TlNotComputed *row)
{
  TlFindingRow    *self = new_row (document);
  g_autofree char *sentence =
      tl_wording_not_computed (self->verdict, row, tl_document_language (document));
  g_autoptr (GString) numbers = g_string_new (NULL);

  self->key =
      g_strdup_printf ("not-computed %s %s", row->rule->id, row->owner == NULL ? "" : row->owner);
  set_head (self, TL_MARK_NOT_COMPUTED, _ ("Not computed"), sentence, numbers);
  show_enter (self, row->owner, row->field);
  return GTK_WIDGET (self);
}

const char *
tl_finding_row_key (TlFindingRow *self)
{
  return self->key;
}

const TlFinding *
tl_finding_row_finding (TlFindingRow *self)
{
  return self->finding;
}

gboolean
tl_finding_row_is_about (TlFindingRow *self, const char *owner)
{
  if (self->finding == NULL)
    return g_strcmp0 (self->owner, owner) == 0;
  return g_ptr_array_find_with_equal_func (self->finding->owners, owner, g_str_equal, NULL);
}

gboolean
tl_finding_row_has_contact (TlFindingRow *self, guint contact)
{
  for (guint i = 0; self->finding != NULL && i < self->finding->contacts->len; i++)
    if (g_array_index (self->finding->contacts, guint, i) == contact)
      return TRUE;
  return FALSE;
}

gint
tl_finding_row_contact (TlFindingRow *self)
{
  if (self->finding == NULL || self->finding->contacts->len == 0)
    return -1;
  return (gint) g_array_index (self->finding->contacts, guint, 0);
}

void
tl_finding_row_set_open (TlFindingRow *self, gboolean is_open)
{
  if (self->finding == NULL)
    return;
  if (is_open && gtk_widget_get_first_child (GTK_WIDGET (self->details)) == NULL)
    fill_details (self);
  gtk_revealer_set_reveal_child (self->revealer, is_open);
  gtk_image_set_from_icon_name (self->arrow,
                                is_open ? "tinlap-less-symbolic" : "tinlap-more-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_EXPANDED, (int) is_open,
                               -1);
}

gboolean
tl_finding_row_is_open (TlFindingRow *self)
{
  return gtk_revealer_get_reveal_child (self->revealer);
}

gboolean
tl_finding_row_lead_on (TlFindingRow *self)
{
  if (self->ways != NULL)
    gtk_menu_button_popup (self->ways);
  else if (gtk_widget_get_visible (GTK_WIDGET (self->enter)))
    on_enter (self->enter, self);
  else
    return FALSE;
  return TRUE;
}
