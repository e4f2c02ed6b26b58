/* effort.c: what a joint, or many, takes: parts, tools, minutes, money.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/effort.h"

#include "base/quantity.h"
#include "plan/steps-private.h"

#include <string.h>

/* --- memory --- */

static void
part_free (gpointer data)
{
  TlEffortPart *part = data;

  g_free (part->part);
  g_free (part->name);
  g_free (part->size);
  g_free (part);
}

static void
tool_free (gpointer data)
{
  TlEffortTool *tool = data;

  g_free (tool->name);
  g_free (tool);
}

static void
sum_free (gpointer data)
{
  TlEffortSum *sum = data;

  g_free (sum->currency);
  g_free (sum);
}

TlEffort *
tl_effort_new (void)
{
  TlEffort *self = g_new0 (TlEffort, 1);

  self->parts = g_ptr_array_new_with_free_func (part_free);
  self->tools = g_ptr_array_new_with_free_func (tool_free);
  self->sums = g_ptr_array_new_with_free_func (sum_free);
  self->part_by_key = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->tool_by_name = g_hash_table_new (g_str_hash, g_str_equal);
  self->steps = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return self;
}

void
tl_effort_free (TlEffort *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->part_by_key);
  g_hash_table_unref (self->tool_by_name);
  g_hash_table_unref (self->steps);
  g_ptr_array_unref (self->parts);
  g_ptr_array_unref (self->tools);
  g_ptr_array_unref (self->sums);
  g_free (self);
}

/* --- gathering --- */

/* The row of parts like @like; a new one if there is none yet. (transfer none) */
static TlEffortPart *
part_row (TlEffort *self, const TlEffortPart *like)
{
  g_autofree char *key =
      g_strdup_printf ("%u\t%d\t%s\t%s\t%s", (guint) like->kind, like->is_there,
                       like->part != NULL ? like->part : "", like->name, like->size);
  TlEffortPart *row = g_hash_table_lookup (self->part_by_key, key);

  if (row != NULL)
    return row;
  row = g_new0 (TlEffortPart, 1);
  row->part = g_strdup (like->part);
  row->kind = like->kind;
  row->name = g_strdup (like->name);
  row->size = g_strdup (like->size);
  row->is_there = like->is_there;
  g_ptr_array_add (self->parts, row);
  g_hash_table_insert (self->part_by_key, g_steal_pointer (&key), row);
  return row;
}

static void
add_part (TlEffort *self, const TlEffortPart *part)
{
  TlEffortPart *row = part_row (self, part);

  row->count += part->count;
  row->length_m += part->length_m;
  row->amount_g += part->amount_g;
  row->joints += part->joints;
}

static void
add_tool (TlEffort *self, const char *name, guint joints)
{
  TlEffortTool *tool = g_hash_table_lookup (self->tool_by_name, name);

  if (tool == NULL)
    {
      tool = g_new0 (TlEffortTool, 1);
      tool->name = g_strdup (name);
      g_ptr_array_add (self->tools, tool);
      g_hash_table_insert (self->tool_by_name, tool->name, tool);
    }
  tool->joints += joints;
}

static void
add_step (TlEffort *self, const char *id, guint times)
{
  guint before = GPOINTER_TO_UINT (g_hash_table_lookup (self->steps, id));

  g_hash_table_replace (self->steps, g_strdup (id), GUINT_TO_POINTER (before + times));
}

/* Length of one piece that is bought by length; 0 for others. */
static double
piece_length_mm (TlPartKind kind, const TlFacts *facts)
{
  if (kind == TL_PART_CONDUCTOR)
    return tl_facts_number (facts, TL_FIELD_FREE_LENGTH, 0.0);
  return kind == TL_PART_SEAL ? tl_facts_number (facts, TL_FIELD_LENGTH, 0.0) : 0.0;
}

/* One leg or layer into @joint, the effort of its own joint. */
static void
add_owner (TlEffort *joint, const TlPlanner *planner, const char *owner)
{
  const TlLeg   *leg = tl_joint_leg (planner->joint, owner);
  const TlLayer *layer = tl_joint_layer (planner->joint, owner);
  g_autoptr (TlFacts) facts = tl_planner_facts (planner, owner);
  TlPartKind       kind = layer != NULL ? layer->kind : TL_PART_CONDUCTOR;
  g_autofree char *name = tl_part_name (kind, facts, planner->stock, planner->language);
  g_autofree char *size = tl_part_dimensions (kind, facts, planner->language);
  TlEffortPart     part = {
        .part = leg != NULL ? leg->part : layer->part,
        .kind = kind,
        .name = name,
        .size = size,
        .is_there = leg != NULL && strcmp (tl_facts_word (facts, TL_FIELD_FIXED, ""), "loose") != 0,
        .count = 1,
        .length_m = piece_length_mm (kind, facts) * 1e-3,
        .amount_g = tl_facts_number (facts, TL_FIELD_AMOUNT, 0.0),
  };

  add_part (joint, &part);
}

static void
add_box (TlEffort *joint, const TlPlanner *planner)
{
  const TlPart *box =
      planner->joint->box != NULL ? tl_stock_part (planner->stock, planner->joint->box) : NULL;
  g_autofree char *name = NULL;
  g_autofree char *size = NULL;
  TlEffortPart     part = { .kind = TL_PART_BOX, .is_there = TRUE, .count = 1 };

  if (box == NULL)
    return;
  name = tl_part_name (TL_PART_BOX, box->facts, planner->stock, planner->language);
  size = tl_part_dimensions (TL_PART_BOX, box->facts, planner->language);
  if (*size == '\0')
    {
      g_free (size);
      size = g_strdup (box->size);
    }
  part.part = box->id;
  part.name = name;
  part.size = size;
  add_part (joint, &part);
}

static void
gather (TlEffort *joint, const TlPlanner *planner, const TlStepSheet *steps)
{
  for (guint i = 0; i < planner->joint->legs->len; i++)
    add_owner (joint, planner, ((TlLeg *) g_ptr_array_index (planner->joint->legs, i))->id);
  for (guint i = 0; i < planner->joint->layers->len; i++)
    {
      const TlLayer *layer = g_ptr_array_index (planner->joint->layers, i);

      if (layer->seat.kind != TL_SEAT_NONE)
        add_owner (joint, planner, layer->id);
    }
  add_box (joint, planner);
  for (guint i = 0; i < steps->tools->len; i++)
    add_tool (joint, ((TlLine *) g_ptr_array_index (steps->tools, i))->label, 1);
  for (guint i = 0; i < steps->steps->len; i++)
    add_step (joint, ((TlStep *) g_ptr_array_index (steps->steps, i))->id, 1);
  for (guint i = 0; i < joint->parts->len; i++)
    ((TlEffortPart *) g_ptr_array_index (joint->parts, i))->joints = 1;
}

void
tl_effort_add (TlEffort *self, const TlVerdict *verdict, const TlStepSheet *steps,
               const TlLanguage *language)
{
  g_autoptr (TlEffort) joint = tl_effort_new ();
  const TlPlanner planner = { .verdict = verdict,
                              .assembly = verdict->assembly,
                              .joint = verdict->assembly->joint,
                              .stock = verdict->assembly->stock,
                              .language = language };

  joint->joints = 1;
  if (steps->state == TL_SHEET_REFUSED)
    joint->without_steps = 1;
  else
    gather (joint, &planner, steps);
  tl_effort_merge (self, joint);
}

void
tl_effort_merge (TlEffort *self, const TlEffort *other)
{
  GHashTableIter iter;
  gpointer       id, times;

  for (guint i = 0; i < other->parts->len; i++)
    add_part (self, g_ptr_array_index (other->parts, i));
  for (guint i = 0; i < other->tools->len; i++)
    {
      const TlEffortTool *tool = g_ptr_array_index (other->tools, i);

      add_tool (self, tool->name, tool->joints);
    }
  g_hash_table_iter_init (&iter, other->steps);
  while (g_hash_table_iter_next (&iter, &id, &times))
    add_step (self, id, GPOINTER_TO_UINT (times));
  self->joints += other->joints;
  self->without_steps += other->without_steps;
}

/* --- prices, minutes, order --- */

/* What is there, by kind, name and size; bytes compare alike in every locale. */
static gint
compare_parts (gconstpointer a, gconstpointer b)
{
  const TlEffortPart *one = *(TlEffortPart *const *) a, *two = *(TlEffortPart *const *) b;
  gint                by_text;

  if (one->is_there != two->is_there)
    return one->is_there ? 1 : -1;
  if (one->kind != two->kind)
    return one->kind < two->kind ? -1 : 1;
  by_text = strcmp (one->name, two->name);
  if (by_text == 0)
    by_text = strcmp (one->size, two->size);
  return by_text != 0 ? by_text : g_strcmp0 (one->part, two->part);
}

static gint
compare_tools (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(TlEffortTool *const *) a)->name, (*(TlEffortTool *const *) b)->name);
}

/* How much of @part in the unit of a mark; 0 if that is not known. */
static double
needed (const TlEffortPart *part, TlPer per)
{
  if (per == TL_PER_METRE)
    return part->length_m;
  return per == TL_PER_GRAM ? part->amount_g : part->count;
}

static void
add_to_sum (TlEffort *self, const char *currency, double price)
{
  TlEffortSum *sum;

  for (guint i = 0; i < self->sums->len; i++)
    {
      sum = g_ptr_array_index (self->sums, i);
      if (strcmp (sum->currency, currency) == 0)
        {
          sum->price += price;
          return;
        }
    }
  sum = g_new0 (TlEffortSum, 1);
  sum->currency = g_strdup (currency);
  sum->price = price;
  g_ptr_array_add (self->sums, sum);
}

static void
price_part (TlEffort *self, TlEffortPart *part, const TlStock *stock)
{
  const char       *currency = "";
  const TlPackMark *mark = part->part != NULL ? tl_stock_mark (stock, part->part, &currency) : NULL;
  double            amount = mark != NULL ? needed (part, mark->per) : 0.0;

  if (part->is_there)
    return;
  if (mark != NULL)
    {
      part->in_van = mark->in_van;
      part->has_stock = mark->has_quantity;
      part->stock = mark->quantity;
      part->per = mark->per;
      part->is_short = mark->has_quantity && mark->quantity < amount;
    }
  if (mark == NULL || !mark->has_price || amount <= 0.0)
    {
      self->unpriced++;
      return;
    }
  part->has_price = TRUE;
  part->price = mark->price * amount;
  part->currency = currency;
  add_to_sum (self, currency, part->price);
}

static void
time_steps (TlEffort *self, const TlStock *stock)
{
  g_autoptr (GList) ids = g_list_sort (g_hash_table_get_keys (self->steps), (GCompareFunc) strcmp);

  for (GList *l = ids; l != NULL; l = l->next)
    {
      guint                times = GPOINTER_TO_UINT (g_hash_table_lookup (self->steps, l->data));
      const TlPackMinutes *minutes = tl_stock_minutes (stock, l->data);

      if (minutes == NULL)
        {
          self->untimed_steps += times;
          continue;
        }
      self->timed_steps += times;
      self->minutes_min.low += times * minutes->minutes_min.low;
      self->minutes_min.best += times * minutes->minutes_min.best;
      self->minutes_min.high += times * minutes->minutes_min.high;
    }
}

void
tl_effort_finish (TlEffort *self, const TlStock *stock)
{
  g_ptr_array_sort (self->parts, compare_parts);
  g_ptr_array_sort (self->tools, compare_tools);
  for (guint i = 0; i < self->parts->len; i++)
    price_part (self, g_ptr_array_index (self->parts, i), stock);
  time_steps (self, stock);
}

/* --- for people --- */

char *
tl_effort_quantity (const TlEffortPart *part, const TlLanguage *language)
{
  g_autofree char *amount = NULL;
  g_autofree char *count = g_strdup_printf ("%u", part->count);

  if (part->amount_g > 0.0)
    return tl_quantity_format (part->amount_g, "g", language);
  if (part->length_m <= 0.0)
    return g_steal_pointer (&count);
  amount = tl_quantity_format (part->length_m, "m", language);
  return tl_wording_fill (tl_language_text (language, TL_N_ ("{n}, together {length}")), "n", count,
                          "length", amount, NULL);
}

char *
tl_effort_price_text (const TlEffort *self, const TlLanguage *language)
{
  GString         *out = g_string_new (NULL);
  g_autofree char *sums = NULL;
  g_autofree char *count = g_strdup_printf ("%u", self->unpriced);

  for (guint i = 0; i < self->sums->len; i++)
    {
      const TlEffortSum *sum = g_ptr_array_index (self->sums, i);
      g_autofree char   *price = tl_language_number (language, sum->price, 2);

      g_string_append_printf (out, "%s%s%s%s", i > 0 ? " + " : "", price,
                              *sum->currency != '\0' ? " " : "", sum->currency);
    }
  sums = g_string_free (out, FALSE);
  if (self->sums->len == 0 || self->unpriced == 0)
    return g_steal_pointer (&sums);
  return tl_wording_fill (
      tl_language_plural (language, "{sum}, and {n} kind of part without a price",
                          "{sum}, and {n} kinds of part without a price", self->unpriced),
      "sum", sums, "n", count, NULL);
}

char *
tl_effort_minutes_text (const TlEffort *self, const TlLanguage *language)
{
  g_autofree char *minutes = NULL;
  g_autofree char *count = g_strdup_printf ("%u", self->untimed_steps);

  if (self->timed_steps == 0)
    return g_strdup ("");
  minutes = tl_range_format (self->minutes_min, "min", language);
  if (self->untimed_steps == 0)
    return g_steal_pointer (&minutes);
  return tl_wording_fill (tl_language_plural (language, "{minutes}, and {n} step without minutes",
                                              "{minutes}, and {n} steps without minutes",
                                              self->untimed_steps),
                          "minutes", minutes, "n", count, NULL);
}
