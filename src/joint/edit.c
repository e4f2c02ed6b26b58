/* edit.c: legs and layers put in, moved, taken out, copied and replaced.
 *
 * Each edit forks the joint, changes the fork, and hands it out if tl_joint_check() agrees. Facts
 * and texts are in edit-facts.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit.h"
#include "joint/edit-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- seats of a fork --- */

static void
set_seat (TlJoint *fork, guint index, const TlSeat *seat)
{
  TlSeat  copy = tl_seat_copy (seat);
  TlSeat *own = index < fork->legs->len
                    ? &tl_edit_writable_leg (fork, index)->seat
                    : &tl_edit_writable_layer (fork, index - fork->legs->len)->seat;

  tl_seat_clear (own);
  *own = copy;
}

static void
unseat (TlJoint *fork, guint index)
{
  TlSeat none = tl_seat_none ();

  set_seat (fork, index, &none);
}

static void
set_place (TlJoint *fork, guint index, guint place)
{
  TlSeat seat = tl_seat_stack (place);

  if (tl_joint_member_seat (fork, index)->place != place)
    set_seat (fork, index, &seat);
}

/* Closes gaps in the stack; the order stays. */
static void
close_stack (TlJoint *fork)
{
  g_autoptr (GPtrArray) ids = tl_joint_stack (fork);
  g_autofree guint *members = g_new (guint, ids->len + 1);

  /* Ids are looked up first: setting a place frees the strings that the list points to. */
  for (guint i = 0; i < ids->len; i++)
    {
      gboolean is_there = tl_joint_find_member (fork, g_ptr_array_index (ids, i), &members[i]);
      g_assert (is_there);
    }
  for (guint i = 0; i < ids->len; i++)
    set_place (fork, members[i], i);
}

/* Seats the member @index, which has no seat yet; in the stack what stands there moves one on. */
static gboolean
seat_member (TlJoint *fork, guint index, const TlSeat *seat, GError **error)
{
  if (seat->kind == TL_SEAT_STACK)
    {
      guint standing = 0;
      for (guint i = 0; i < tl_joint_n_members (fork); i++)
        standing += tl_joint_member_seat (fork, i)->kind == TL_SEAT_STACK;
      if (seat->place > standing)
        {
          g_set_error (
              error, TL_ERROR, TL_ERROR_RANGE,
              _ ("Place %u is beyond the end of the stack; it takes parts at places 0 to %u."),
              seat->place, standing);
          return FALSE;
        }
      for (guint i = 0; i < tl_joint_n_members (fork); i++)
        {
          const TlSeat *other = tl_joint_member_seat (fork, i);
          if (other->kind == TL_SEAT_STACK && other->place >= seat->place)
            set_place (fork, i, other->place + 1);
        }
    }
  set_seat (fork, index, seat);
  return TRUE;
}

/* --- putting in --- */

/* (transfer full) (nullable) */
static char *
new_id (TlJoint *fork, const char *stem, GError **error)
{
  if (fork->next_id >= TL_JOINT_MAX_NUMBER)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                   _ ("The joint has used up its ids; they end at %u."), TL_JOINT_MAX_NUMBER);
      return NULL;
    }
  return g_strdup_printf ("%s-%u", stem, fork->next_id++);
}

static const TlPart *
find_part (const TlStock *stock, const char *id, GError **error)
{
  const TlPart *part = stock != NULL ? tl_stock_part (stock, id) : NULL;

  if (part == NULL)
    g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                 _ ("There is no part “%s” in the stock; name one that it holds."), id);
  return part;
}

static gboolean
can_be_layer (TlPartKind kind, GError **error)
{
  if (kind == TL_PART_CONDUCTOR)
    g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                         _ ("A conductor cannot be a layer; add it as a leg."));
  else if (kind == TL_PART_BOX)
    g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                         _ ("A box cannot be a layer; choose it as the box of the site."));
  else
    return TRUE;
  return FALSE;
}

static gboolean
can_be_leg (TlPartKind kind, GError **error)
{
  if (kind == TL_PART_CONDUCTOR)
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_STATE,
               _ ("A part of the kind “%s” cannot be a leg; only a conductor can."),
               tl_part_kind_word (kind));
  return FALSE;
}

/* Seats the new member, checks, and tells its id. */
static TlJoint *
finish_new (TlJoint *fork, guint index, const TlSeat *seat, char **id_out, GError **error)
{
  if (!seat_member (fork, index, seat, error))
    {
      tl_joint_unref (fork);
      return NULL;
    }

  TlJoint *done = tl_edit_finish (fork, error);
  if (done != NULL && id_out != NULL)
    *id_out = g_strdup (tl_joint_member_id (done, index));
  return done;
}

static TlJoint *
add_layer (const TlJoint *joint, TlPartKind kind, const char *part, const TlFacts *facts,
           const TlSeat *seat, char **id_out, GError **error)
{
  if (!can_be_layer (kind, error))
    return NULL;

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  g_autofree char *id = new_id (fork, "layer", error);
  TlSeat           none = tl_seat_none ();
  if (id == NULL)
    return NULL;
  g_ptr_array_add (fork->layers, tl_layer_new (id, part, kind, &none, facts));

  guint index = tl_joint_n_members (fork) - 1;
  return finish_new (g_steal_pointer (&fork), index, seat, id_out, error);
}

TlJoint *
tl_edit_add_layer (const TlJoint *joint, const TlStock *stock, const char *part, const TlSeat *seat,
                   char **id_out, GError **error)
{
  const TlPart *found = find_part (stock, part, error);

  return found != NULL ? add_layer (joint, found->kind, part, NULL, seat, id_out, error) : NULL;
}

TlJoint *
tl_edit_add_own_layer (const TlJoint *joint, TlPartKind kind, const TlFacts *facts,
                       const TlSeat *seat, char **id_out, GError **error)
{
  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS, NULL);

  if (!tl_edit_check_facts (facts, error))
    return NULL;
  return add_layer (joint, kind, NULL, facts, seat, id_out, error);
}

TlJoint *
tl_edit_add_leg (const TlJoint *joint, const TlStock *stock, const char *part, const TlFacts *facts,
                 const TlSeat *seat, char **id_out, GError **error)
{
  if (part != NULL)
    {
      const TlPart *found = find_part (stock, part, error);
      if (found == NULL || !can_be_leg (found->kind, error))
        return NULL;
    }
  if (!tl_edit_check_facts (facts, error))
    return NULL;
  if (joint->legs->len >= TL_JOINT_MAX_LEGS)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_LIMIT,
                   _ ("The joint has %d legs already; it can have at most %d."), TL_JOINT_MAX_LEGS,
                   TL_JOINT_MAX_LEGS);
      return NULL;
    }

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  g_autofree char *id = new_id (fork, "leg", error);
  TlSeat           none = tl_seat_none ();
  if (id == NULL)
    return NULL;
  g_ptr_array_add (fork->legs, tl_leg_new (id, part, &none, facts));

  guint index = fork->legs->len - 1;
  return finish_new (g_steal_pointer (&fork), index, seat, id_out, error);
}

TlJoint *
tl_edit_duplicate (const TlJoint *joint, const char *id, char **id_out, GError **error)
{
  guint index;
  if (!tl_edit_find (joint, id, &index, error))
    return NULL;

  g_auto (TlSeat) seat = tl_seat_copy (tl_joint_member_seat (joint, index));
  if (seat.kind == TL_SEAT_STACK)
    seat.place++;
  if (index >= joint->legs->len)
    {
      const TlLayer *layer = tl_joint_layer (joint, id);
      return add_layer (joint, layer->kind, layer->part, layer->facts, &seat, id_out, error);
    }

  /* The part need not be in the stock any more; so it is put in after the leg was made. */
  const TlLeg     *leg = tl_joint_leg (joint, id);
  g_autofree char *made_id = NULL;
  TlJoint         *made = tl_edit_add_leg (joint, NULL, NULL, leg->facts, &seat, &made_id, error);
  if (made == NULL)
    return NULL;

  TlLeg *copy = tl_edit_writable_leg (made, made->legs->len - 1);
  copy->part = g_strdup (leg->part);
  g_ptr_array_unref (copy->preparation);
  copy->preparation = g_ptr_array_ref (leg->preparation);
  if (id_out != NULL)
    *id_out = g_steal_pointer (&made_id);
  return made;
}

/* --- moving --- */

TlJoint *
tl_edit_move (const TlJoint *joint, const char *id, const TlSeat *seat, GError **error)
{
  guint index;
  if (!tl_edit_find (joint, id, &index, error))
    return NULL;

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  unseat (fork, index);
  close_stack (fork);
  if (!seat_member (fork, index, seat, error))
    return NULL;
  return tl_edit_finish (g_steal_pointer (&fork), error);
}

/* --- taking out --- */

static gboolean
is_coat (const TlJoint *joint, guint index)
{
  if (index < joint->legs->len)
    return FALSE;

  const TlLayer *layer = g_ptr_array_index (joint->layers, index - joint->legs->len);
  return layer->kind == TL_PART_COMPOUND || layer->kind == TL_PART_SOLDER
         || layer->kind == TL_PART_FERRULE;
}

/* @id and all that sits on, in or around it, and so on; or only the coats among that.
 * (element-type utf8) set, strings of @joint. */
static GHashTable *
resting_on (const TlJoint *joint, const char *id, gboolean only_coats)
{
  GHashTable *found = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean    has_grown = TRUE;

  g_hash_table_add (found, (gpointer) id);
  while (has_grown)
    {
      has_grown = FALSE;
      for (guint i = 0; i < tl_joint_n_members (joint); i++)
        {
          const TlSeat *seat = tl_joint_member_seat (joint, i);
          const char   *carriers[] = { seat->of, seat->from, seat->to };
          if (only_coats && (seat->kind != TL_SEAT_ON || !is_coat (joint, i)))
            continue;
          for (guint k = 0; k < G_N_ELEMENTS (carriers); k++)
            if (carriers[k] != NULL && g_hash_table_contains (found, carriers[k])
                && g_hash_table_add (found, (gpointer) tl_joint_member_id (joint, i)))
              has_grown = TRUE;
        }
    }
  return found;
}

/* The seat of the member @index, which stays, once @gone has gone. */
static TlSeat
seat_without (const TlJoint *joint, guint index, GHashTable *gone)
{
  const TlSeat *seat = tl_joint_member_seat (joint, index);
  const char   *first = NULL, *last = NULL;

  if (seat->kind == TL_SEAT_ON || seat->kind == TL_SEAT_PORT)
    return g_hash_table_contains (gone, seat->of) ? tl_seat_none () : tl_seat_copy (seat);
  if (seat->kind != TL_SEAT_AROUND
      || (!g_hash_table_contains (gone, seat->from) && !g_hash_table_contains (gone, seat->to)))
    return tl_seat_copy (seat);

  /* A new end must not be something that sits on this very member, but for what lies in its mouths.
   */
  const char *self = tl_joint_member_id (joint, index);
  g_autoptr (GHashTable) own = resting_on (joint, self, FALSE);
  g_autoptr (GPtrArray) inside = tl_joint_around (joint, seat);
  for (guint i = 0; i < inside->len; i++)
    {
      const char   *id = g_ptr_array_index (inside, i);
      const TlSeat *theirs = tl_joint_seat (joint, id);
      gboolean      is_inside = theirs->kind == TL_SEAT_PORT && strcmp (theirs->of, self) == 0;
      if (g_hash_table_contains (gone, id) || (g_hash_table_contains (own, id) && !is_inside))
        continue;
      first = first != NULL ? first : id;
      last = id;
    }
  return first != NULL ? tl_seat_around (first, last) : tl_seat_none ();
}

TlJoint *
tl_edit_remove (const TlJoint *joint, const char *id, GError **error)
{
  guint index;
  if (!tl_edit_find (joint, id, &index, error))
    return NULL;

  g_autoptr (GHashTable) gone = resting_on (joint, tl_joint_member_id (joint, index), TRUE);
  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  for (guint i = 0; i < tl_joint_n_members (joint); i++)
    {
      const TlSeat *old = tl_joint_member_seat (joint, i);
      g_auto (TlSeat) seat = seat_without (joint, i, gone);
      if (!tl_seat_equal (&seat, old))
        set_seat (fork, i, &seat);
    }
  for (guint i = tl_joint_n_members (joint); i > 0; i--)
    {
      const char      *member = tl_joint_member_id (joint, i - 1);
      gboolean         is_leg = i - 1 < joint->legs->len;
      g_autofree char *path = g_strconcat (is_leg ? "legs/leg=" : "layers/layer=", member, NULL);
      if (!g_hash_table_contains (gone, member))
        continue;
      if (is_leg)
        g_ptr_array_remove_index (fork->legs, i - 1);
      else
        g_ptr_array_remove_index (fork->layers, i - 1 - joint->legs->len);
      tl_edit_drop_kept (fork, path);
    }
  close_stack (fork);
  return tl_edit_finish (g_steal_pointer (&fork), error);
}

/* --- replacing --- */

static TlFacts *
facts_that_fit (const TlFacts *facts, const TlField *fields, guint n_fields)
{
  TlFacts *fitting = tl_facts_new ();

  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      const TlFact *fact = tl_facts_at (facts, i);
      for (guint k = 0; k < n_fields; k++)
        if (fields[k] == fact->field)
          {
            TlFacts *more = tl_facts_with (fitting, fact);
            tl_facts_unref (fitting);
            fitting = more;
            break;
          }
    }
  return fitting;
}

/* Lays beside the joint what sat in a mouth that the layer @id no longer has. */
static void
empty_lost_ports (TlJoint *fork, const char *id, guint ports)
{
  for (guint i = 0; i < tl_joint_n_members (fork); i++)
    {
      const TlSeat *seat = tl_joint_member_seat (fork, i);
      if (seat->kind == TL_SEAT_PORT && strcmp (seat->of, id) == 0 && seat->place > ports)
        unseat (fork, i);
    }
}

TlJoint *
tl_edit_replace_part (const TlJoint *joint, const TlStock *stock, const char *id, const char *part,
                      GError **error)
{
  guint         index, n_fields;
  const TlPart *found = find_part (stock, part, error);
  if (found == NULL || !tl_edit_find (joint, id, &index, error))
    return NULL;
  if (index < joint->legs->len ? !can_be_leg (found->kind, error)
                               : !can_be_layer (found->kind, error))
    return NULL;

  g_autoptr (TlJoint) fork = tl_joint_fork (joint);
  if (index < fork->legs->len)
    {
      TlLeg *leg = tl_edit_writable_leg (fork, index);
      g_free (leg->part);
      leg->part = g_strdup (part);
    }
  else
    {
      TlLayer       *layer = tl_edit_writable_layer (fork, index - fork->legs->len);
      const TlField *fields = tl_part_kind_fields (found->kind, &n_fields);
      TlFacts       *fitting = facts_that_fit (layer->facts, fields, n_fields);
      g_free (layer->part);
      layer->part = g_strdup (part);
      layer->kind = found->kind;
      tl_facts_unref (layer->facts);
      layer->facts = fitting;
      empty_lost_ports (fork, id, tl_part_kind_ports (found->kind));
    }
  return tl_edit_finish (g_steal_pointer (&fork), error);
}
