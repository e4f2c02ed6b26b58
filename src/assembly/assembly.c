/* assembly.c: a joint laid out in space, and what it lacks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>
#include <string.h>

static void
body_free (TlBody *body)
{
  g_array_unref (body->solids);
  g_free (body);
}

static int
compare_places (gconstpointer a, gconstpointer b)
{
  const TlStanding *left = a, *right = b;

  return left->place < right->place ? -1 : left->place > right->place;
}

/* Every rule of the stack goes through it, so it is put in order once. */
static GArray *
standing_of (const TlJoint *joint)
{
  GArray *standing = g_array_sized_new (FALSE, FALSE, sizeof (TlStanding), 16);

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlLeg *leg = joint->legs->pdata[i];
      TlStanding   entry = { leg->id, leg, NULL, leg->seat.place };

      if (leg->seat.kind == TL_SEAT_STACK)
        g_array_append_val (standing, entry);
    }
  for (guint i = 0; i < joint->layers->len; i++)
    {
      const TlLayer *layer = joint->layers->pdata[i];
      TlStanding     entry = { layer->id, NULL, layer, layer->seat.place };

      if (layer->seat.kind == TL_SEAT_STACK)
        g_array_append_val (standing, entry);
    }
  g_array_sort (standing, compare_places);
  return standing;
}

static TlAssembly *
assembly_alloc (const TlJoint *joint, const TlStock *stock)
{
  TlAssembly *self = g_new0 (TlAssembly, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->joint = tl_joint_ref (joint);
  self->stock = joint->used != NULL ? tl_stock_overlay (stock, joint->used) : tl_stock_ref (stock);
  self->bodies = g_ptr_array_new_full (24, (GDestroyNotify) body_free);
  self->contacts = g_array_sized_new (FALSE, TRUE, sizeof (TlContact), 24);
  self->problems = g_array_new (FALSE, FALSE, sizeof (TlProblem));
  self->standing = standing_of (joint);
  self->order = g_ptr_array_sized_new (16);
  self->strings = g_string_chunk_new (2048);
  self->limits = g_hash_table_new (tl_stock_id_hash, g_str_equal);
  return self;
}

/* --- what every joint has to say, whatever its family --- */

static void
need_site (TlAssembly *self)
{
  static const TlField wanted[] = { TL_FIELD_SURROUNDINGS, TL_FIELD_ACCESS };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    if (tl_joint_site_fact (self->joint, self->stock, wanted[i]) == NULL)
      tl_assembly_problem (self, "site", TRUE, TL_N_ ("Enter {field}."), wanted[i], NAN, NAN);
  if (self->joint->box != NULL && tl_stock_part (self->stock, self->joint->box) == NULL)
    tl_assembly_problem (self, "site", TRUE,
                         TL_N_ ("The box of this joint is not in the stock. Choose another or "
                                "enter its inner sizes."),
                         TL_N_FIELDS, NAN, NAN);
  else if (self->joint->box == NULL
           && tl_joint_site_fact (self->joint, self->stock, TL_FIELD_INNER_WIDTH) == NULL
           && tl_joint_site_fact (self->joint, self->stock, TL_FIELD_VOLUME) == NULL)
    tl_assembly_problem (self, "site", TRUE, TL_N_ ("Choose a box or enter its inner sizes."),
                         TL_FIELD_INNER_WIDTH, NAN, NAN);
}

static void
need_duty (TlAssembly *self)
{
  static const TlField wanted[] = { TL_FIELD_LOAD, TL_FIELD_DEVICE_RATING };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    if (!tl_facts_has (self->joint->duty, wanted[i]))
      tl_assembly_problem (self, "duty", TRUE, TL_N_ ("Enter {field}."), wanted[i], NAN, NAN);
}

static void
need_legs (TlAssembly *self)
{
  guint count = self->joint->legs->len;

  if (count < 2)
    tl_assembly_problem (self, "", TRUE,
                         count == 0 ? TL_N_ ("Put in the two conductors to be joined.")
                                    : TL_N_ ("Put in the second conductor."),
                         TL_N_FIELDS, NAN, NAN);
  for (guint i = 0; i < count; i++)
    {
      const TlLeg *leg = self->joint->legs->pdata[i];

      tl_assembly_knows_part (self, leg->id, leg->part);
      tl_assembly_need_leg (self, leg, TL_FIELD_METAL, NULL);
      tl_assembly_need_leg (self, leg, TL_FIELD_SECTION, NULL);
      tl_assembly_need_leg (self, leg, TL_FIELD_ROLE, NULL);
    }
}

/* --- which family --- */

static gboolean
is_terminal (const TlLayer *layer)
{
  return layer->kind == TL_PART_TERMINAL || layer->kind == TL_PART_BRANCH;
}

static TlFamily
family_of (const TlAssembly *self)
{
  guint    stacked = 0, ported = 0, in_terminal = 0, along = 0;
  gboolean has_bolt = FALSE, has_sleeve = FALSE, has_terminal = FALSE;

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg   *leg = self->joint->legs->pdata[i];
      const TlLayer *of =
          leg->seat.kind == TL_SEAT_PORT ? tl_joint_layer (self->joint, leg->seat.of) : NULL;

      stacked += leg->seat.kind == TL_SEAT_STACK;
      ported += of != NULL && of->kind == TL_PART_SLEEVE;
      in_terminal += of != NULL && is_terminal (of);
      along += leg->seat.kind == TL_SEAT_AROUND;
    }
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      has_bolt |= layer->kind == TL_PART_BOLT;
      has_sleeve |= layer->kind == TL_PART_SLEEVE;
      has_terminal |= is_terminal (layer);
      along += layer->kind == TL_PART_SOLDER && layer->seat.kind == TL_SEAT_AROUND;
      stacked += layer->seat.kind == TL_SEAT_STACK && !is_terminal (layer);
    }
  if (has_terminal && (in_terminal > 0 || !(has_bolt || has_sleeve)))
    return TL_FAMILY_TERMINAL;
  if (has_sleeve && (ported > 0 || !has_bolt))
    return TL_FAMILY_SLEEVE;
  if (stacked > 0 || has_bolt)
    return TL_FAMILY_STACK;
  return along > 0 ? TL_FAMILY_SPLICE : TL_FAMILY_NONE;
}

static gboolean
has_problem (const TlAssembly *self, const char *owner)
{
  for (guint i = 0; i < self->problems->len; i++)
    if (strcmp (g_array_index (self->problems, TlProblem, i).owner, owner) == 0)
      return TRUE;
  return FALSE;
}

/* Whatever found no place in the drawing has to say so, once. */
static void
report_if_unplaced (TlAssembly *self, const char *id, const TlSeat *seat)
{
  if (tl_assembly_is_placed (self, id))
    return;
  if (seat->kind == TL_SEAT_NONE)
    tl_assembly_problem (self, id, TRUE, TL_N_ ("{part} lies beside the joint."), TL_N_FIELDS, NAN,
                         NAN);
  else if (self->family != TL_FAMILY_NONE && !has_problem (self, id))
    tl_assembly_problem (self, id, TRUE, TL_N_ ("{part} has no place in this joint yet."),
                         TL_N_FIELDS, NAN, NAN);
}

static void
report_unplaced (TlAssembly *self)
{
  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg *leg = self->joint->legs->pdata[i];

      report_if_unplaced (self, leg->id, &leg->seat);
    }
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (tl_assembly_knows_part (self, layer->id, layer->part))
        report_if_unplaced (self, layer->id, &layer->seat);
    }
}

static int
problem_rank (const TlAssembly *self, const TlProblem *problem)
{
  guint rank = 0;

  if (*problem->owner == '\0')
    return -1;
  for (guint i = 0; i < self->joint->legs->len; i++, rank++)
    if (strcmp (((const TlLeg *) self->joint->legs->pdata[i])->id, problem->owner) == 0)
      return (int) rank;
  for (guint i = 0; i < self->joint->layers->len; i++, rank++)
    if (strcmp (((const TlLayer *) self->joint->layers->pdata[i])->id, problem->owner) == 0)
      return (int) rank;
  return strcmp (problem->owner, "site") == 0 ? (int) rank : (int) rank + 1;
}

/* What cannot be built comes first, then the joint, legs, layers, site, duty. */
static int
compare_problems (gconstpointer a, gconstpointer b, gpointer data)
{
  const TlProblem *left = a, *right = b;
  int              rank_left, rank_right;

  if (left->is_missing != right->is_missing)
    return left->is_missing ? 1 : -1;
  rank_left = problem_rank (data, left);
  rank_right = problem_rank (data, right);
  if (rank_left != rank_right)
    return rank_left < rank_right ? -1 : 1;
  if (left->field != right->field)
    return left->field < right->field ? -1 : 1;
  return strcmp (left->message, right->message);
}

TlAssembly *
tl_assembly_new (const TlJoint *joint, const TlStock *stock)
{
  TlAssembly *self;

  g_return_val_if_fail (joint != NULL && stock != NULL, NULL);

  self = assembly_alloc (joint, stock);
  need_legs (self);
  need_site (self);
  need_duty (self);
  self->family = family_of (self);
  switch (self->family)
    {
    case TL_FAMILY_STACK:
      tl_stack_build (self);
      break;
    case TL_FAMILY_SLEEVE:
      tl_sleeve_build (self);
      break;
    case TL_FAMILY_NONE:
      tl_assembly_problem (self, "", TRUE,
                           TL_N_ ("Choose how the conductors are joined: a bolt or a sleeve, a "
                                  "terminal or solder."),
                           TL_N_FIELDS, NAN, NAN);
      break;
    case TL_FAMILY_TERMINAL:
      tl_terminal_build (self);
      break;
    case TL_FAMILY_SPLICE:
      tl_splice_build (self);
      break;
    default:
      break;
    }
  report_unplaced (self);
  tl_assembly_sort_contacts (self);
  g_array_sort_with_data (self->problems, compare_problems, self);
  return self;
}

TlAssembly *
tl_assembly_ref (TlAssembly *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
tl_assembly_unref (TlAssembly *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_ptr_array_unref (self->bodies);
  g_array_unref (self->contacts);
  g_array_unref (self->problems);
  g_array_unref (self->standing);
  g_ptr_array_unref (self->order);
  g_string_chunk_free (self->strings);
  g_hash_table_unref (self->limits);
  tl_joint_unref ((TlJoint *) self->joint);
  tl_stock_unref ((TlStock *) self->stock);
  g_free (self);
}

double
tl_assembly_stack_thickness_mm (const TlAssembly *self, const char *owner)
{
  static const TlBodyRole stacked[] = { TL_BODY_WASHER, TL_BODY_EYE, TL_BODY_TANG };
  const TlLeg            *leg;
  const TlLayer          *lug;

  g_return_val_if_fail (self != NULL && owner != NULL, 0.0);

  leg = tl_joint_leg (self->joint, owner);
  lug = leg != NULL ? tl_leg_lug (self, leg) : NULL;
  if (lug != NULL)
    owner = lug->id;
  for (guint i = 0; i < G_N_ELEMENTS (stacked); i++)
    {
      const TlBody  *body = tl_assembly_find_body (self, owner, stacked[i], NULL);
      const TlSolid *solid;

      if (body == NULL || body->solids->len == 0)
        continue;
      solid = &g_array_index (body->solids, TlSolid, 0);
      return solid->end_mm - solid->start_mm;
    }
  return 0.0;
}
