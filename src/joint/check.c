/* check.c: the rules between legs and layers that every joint keeps, whoever made it.
 *
 * The reader and the edits ask the same function; so no edit makes a joint that its file would
 * refuse.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const TlJoint *joint;
  GHashTable    *index_of; /* id -> member number + 1 */
  char         **offender;
  GError       **error;
} Check;

static gboolean refuse (Check *check, guint member, int code, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

static gboolean
refuse (Check *check, guint member, int code, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_autofree char *message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error_literal (check->error, TL_ERROR, code, message);
  if (check->offender != NULL)
    *check->offender = g_strdup (tl_joint_member_id (check->joint, member));
  return FALSE;
}

static gboolean
check_ids (Check *check)
{
  const TlJoint *joint = check->joint;

  for (guint i = 0; i < tl_joint_n_members (joint); i++)
    {
      const char *id = tl_joint_member_id (joint, i);
      if (!tl_id_is_valid (id))
        return refuse (check, i, TL_ERROR_NAME,
                       _ ("The id “%s” is not valid; it must be 1 to 64 lower-case letters, digits "
                          "and hyphens, begin with a letter, and be neither “site” nor “duty”."),
                       id);
      if (!g_hash_table_insert (check->index_of, (gpointer) id, GUINT_TO_POINTER (i + 1)))
        return refuse (check, i, TL_ERROR_STATE,
                       _ ("The id “%s” is given twice; every leg and layer needs its own."), id);
    }
  if (joint->legs->len > TL_JOINT_MAX_LEGS)
    return refuse (check, TL_JOINT_MAX_LEGS, TL_ERROR_LIMIT,
                   _ ("The joint has %u legs; it can have at most %d."), joint->legs->len,
                   TL_JOINT_MAX_LEGS);
  return TRUE;
}

/* Number of the member @id that @i refers to. */
static gboolean
find_other (Check *check, guint i, const char *id, guint *other)
{
  gpointer    found = id != NULL ? g_hash_table_lookup (check->index_of, id) : NULL;
  const char *own = tl_joint_member_id (check->joint, i);

  if (found == NULL)
    return refuse (
        check, i, TL_ERROR_NAME,
        _ ("The seat of “%s” names “%s”, which is no leg or layer of this joint; it must "
           "name one that is there."),
        own, id != NULL ? id : "");
  *other = GPOINTER_TO_UINT (found) - 1;
  if (*other == i)
    return refuse (check, i, TL_ERROR_STATE,
                   _ ("The seat of “%s” names itself; it must name another leg or layer."), own);
  return TRUE;
}

static gboolean
check_port (Check *check, guint i, guint other)
{
  const TlJoint *joint = check->joint;
  const TlSeat  *seat = tl_joint_member_seat (joint, i);

  if (other < joint->legs->len)
    return refuse (check, i, TL_ERROR_STATE,
                   _ ("“%s” sits in a mouth of “%s”, which is a leg; only a layer has mouths."),
                   tl_joint_member_id (joint, i), seat->of);

  const TlLayer *layer = g_ptr_array_index (joint->layers, other - joint->legs->len);
  guint          ports = tl_part_kind_ports (layer->kind);
  if (ports == 0)
    return refuse (check, i, TL_ERROR_STATE,
                   _ ("“%s” sits in a mouth of “%s”, but a part of the kind “%s” has none; name a "
                      "sleeve, lug, ferrule, cap, seal, terminal or branch connector."),
                   tl_joint_member_id (joint, i), seat->of, tl_part_kind_word (layer->kind));
  if (seat->place < 1 || seat->place > ports)
    return refuse (check, i, TL_ERROR_RANGE,
                   _ ("“%s” sits in mouth %u of “%s”; that layer has mouths 1 to %u."),
                   tl_joint_member_id (joint, i), seat->place, seat->of, ports);
  return TRUE;
}

static gboolean
check_references (Check *check)
{
  for (guint i = 0; i < tl_joint_n_members (check->joint); i++)
    {
      const TlSeat *seat = tl_joint_member_seat (check->joint, i);
      guint         other;

      if (seat->kind == TL_SEAT_ON || seat->kind == TL_SEAT_PORT)
        {
          if (!find_other (check, i, seat->of, &other))
            return FALSE;
          if (seat->kind == TL_SEAT_PORT && !check_port (check, i, other))
            return FALSE;
        }
      if (seat->kind == TL_SEAT_AROUND
          && (!find_other (check, i, seat->from, &other)
              || !find_other (check, i, seat->to, &other)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_stack (Check *check)
{
  guint             n = tl_joint_n_members (check->joint), standing = 0;
  g_autofree guint *at_place = g_new0 (guint, n + 1);

  for (guint i = 0; i < n; i++)
    standing += tl_joint_member_seat (check->joint, i)->kind == TL_SEAT_STACK;
  for (guint i = 0; i < n; i++)
    {
      const TlSeat *seat = tl_joint_member_seat (check->joint, i);
      const char   *id = tl_joint_member_id (check->joint, i);
      if (seat->kind != TL_SEAT_STACK)
        continue;
      if (seat->place >= standing)
        return refuse (check, i, TL_ERROR_RANGE,
                       _ ("“%s” stands at place %u of the stack, which holds %u; places run from 0 "
                          "without a gap."),
                       id, seat->place, standing);
      if (at_place[seat->place] != 0)
        return refuse (
            check, i, TL_ERROR_STATE,
            _ ("“%s” and “%s” both stand at place %u of the stack; each place holds one."),
            tl_joint_member_id (check->joint, at_place[seat->place] - 1), id, seat->place);
      at_place[seat->place] = i + 1;
    }
  return TRUE;
}

/* Members on, in or around which @i sits: 0 to 2 of them. A sleeve around the very legs that lie in
 * its mouths is one thing said twice, not a circle. */
static guint
carriers_of (Check *check, guint i, guint carriers[2])
{
  const TlSeat *seat = tl_joint_member_seat (check->joint, i);
  const char   *ids[] = { seat->of != NULL ? seat->of : seat->from, seat->to };
  guint         n = 0;

  for (guint k = 0; k < G_N_ELEMENTS (ids); k++)
    {
      if (ids[k] == NULL)
        continue;
      guint         carrier = GPOINTER_TO_UINT (g_hash_table_lookup (check->index_of, ids[k])) - 1;
      const TlSeat *theirs = tl_joint_member_seat (check->joint, carrier);
      gboolean      is_inside = seat->kind == TL_SEAT_AROUND && theirs->kind == TL_SEAT_PORT
                           && strcmp (theirs->of, tl_joint_member_id (check->joint, i)) == 0;
      if (!is_inside)
        carriers[n++] = carrier;
    }
  return n;
}

/* Takes away, again and again, what carries nothing; what is left carries itself. */
static gboolean
check_circles (Check *check)
{
  guint             n = tl_joint_n_members (check->joint), carriers[2];
  g_autofree guint *load = g_new0 (guint, n + 1);
  g_autoptr (GArray) free_members = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < n; i++)
    for (guint k = carriers_of (check, i, carriers); k > 0; k--)
      load[carriers[k - 1]]++;
  for (guint i = 0; i < n; i++)
    if (load[i] == 0)
      g_array_append_val (free_members, i);
  for (guint next = 0; next < free_members->len; next++)
    {
      guint i = g_array_index (free_members, guint, next);
      for (guint k = carriers_of (check, i, carriers); k > 0; k--)
        if (--load[carriers[k - 1]] == 0)
          g_array_append_val (free_members, carriers[k - 1]);
    }
  for (guint i = 0; i < n; i++)
    if (load[i] > 0)
      return refuse (
          check, i, TL_ERROR_STATE,
          _ ("The seats around “%s” lead back to it; a part cannot sit on what sits on it."),
          tl_joint_member_id (check->joint, i));
  return TRUE;
}

gboolean
tl_joint_check (const TlJoint *self, char **offender, GError **error)
{
  g_autoptr (GHashTable) index_of = g_hash_table_new (g_str_hash, g_str_equal);
  Check check = { self, index_of, offender, error };

  if (offender != NULL)
    *offender = NULL;
  return check_ids (&check) && check_references (&check) && check_stack (&check)
         && check_circles (&check);
}
