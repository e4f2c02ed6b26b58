/* sleeve-contacts.c: who touches whom inside and before a barrel.
 *
 * All metal in a pressed sleeve runs along its axis, so distances are those of parallel rods and
 * rings.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>

/* Share of its round that a conductor turns to the wall: all of it alone, about half beside
 * others. */
#define WALL_SHARE_BESIDE 0.5
#define SCAN_STEPS 720

typedef struct
{
  double start_mm, end_mm;
  double y_mm, z_mm, radius_mm;
} Rod;

static Rod
rod_of (const TlEntry *entry)
{
  return (Rod){ entry->start_mm, entry->end_mm, entry->y_mm, entry->z_mm, entry->metal_mm / 2.0 };
}

static double
axial_gap (const Rod *a, const Rod *b)
{
  return MAX (0.0, MAX (a->start_mm - b->end_mm, b->start_mm - a->end_mm));
}

static double
shared_length (const Rod *a, const Rod *b)
{
  return MAX (0.0, MIN (a->end_mm, b->end_mm) - MAX (a->start_mm, b->start_mm));
}

static double
rod_distance (const Rod *a, const Rod *b)
{
  double lateral = hypot (a->y_mm - b->y_mm, a->z_mm - b->z_mm) - a->radius_mm - b->radius_mm;

  return hypot (axial_gap (a, b), MAX (0.0, lateral));
}

/* Distance from a rod to the wall of the bore; a rod before the mouth is measured to its edge. */
static double
wall_distance (const TlSleeveBuild *build, const Rod *rod)
{
  Rod    barrel = { 0.0, build->length_mm, 0.0, 0.0, 0.0 };
  double radial = build->bore_mm / 2.0 - hypot (rod->y_mm, rod->z_mm) - rod->radius_mm;

  return hypot (axial_gap (rod, &barrel), MAX (0.0, radial));
}

/* --- what stands between, seen along the axis --- */

/* TRUE if a third conductor stands in the way of the line from @y,@z to @y2,@z2 all along where
 * @a runs. */
static gboolean
is_shaded (const TlSleeveBuild *build, const TlEntry *a, const TlEntry *b, double y, double z,
           double y2, double z2)
{
  double all = hypot (y2 - y, z2 - z);

  for (guint i = 0; i < build->n_entries && all > 0.0; i++)
    {
      const TlEntry *other = &build->entries[i];
      double         share, away;

      if (other == a || other == b || other->start_mm > MAX (0.0, a->start_mm) + TL_SAME_PLACE_MM
          || other->end_mm < MIN (build->length_mm, a->end_mm) - TL_SAME_PLACE_MM)
        continue;
      share = ((other->y_mm - y) * (y2 - y) + (other->z_mm - z) * (z2 - z)) / (all * all);
      share = CLAMP (share, 0.0, 1.0);
      away = hypot (y + share * (y2 - y) - other->y_mm, z + share * (z2 - z) - other->z_mm);
      if (away < other->metal_mm / 2.0 - TL_SAME_PLACE_MM)
        return TRUE;
    }
  return FALSE;
}

/* Shortest line from a conductor to the wall that passes beside the others; radial distances only. */
static double
wall_beside_others (const TlSleeveBuild *build, const TlEntry *entry, double limit_mm)
{
  double best = limit_mm, radius = build->bore_mm / 2.0;

  for (guint i = 0; i < SCAN_STEPS; i++)
    {
      double angle = 2.0 * G_PI * i / SCAN_STEPS, y = radius * cos (angle),
             z = radius * sin (angle);
      double distance = hypot (y - entry->y_mm, z - entry->z_mm) - entry->metal_mm / 2.0;

      if (distance < best && !is_shaded (build, entry, NULL, entry->y_mm, entry->z_mm, y, z))
        best = distance;
    }
  return MAX (0.0, best);
}

/* Distance to the wall with other conductors in the way taken into account. */
static double
free_wall_distance (const TlSleeveBuild *build, const TlEntry *entry, double limit_mm)
{
  Rod    rod = rod_of (entry), barrel = { 0.0, build->length_mm, 0.0, 0.0, 0.0 };
  double off = hypot (entry->y_mm, entry->z_mm), radius = build->bore_mm / 2.0;
  double distance = wall_distance (build, &rod);

  if (distance <= TL_SAME_PLACE_MM || distance >= limit_mm || axial_gap (&rod, &barrel) > 0.0
      || off <= TL_SAME_PLACE_MM
      || !is_shaded (build, entry, NULL, entry->y_mm, entry->z_mm, entry->y_mm * radius / off,
                     entry->z_mm * radius / off))
    return distance;
  return wall_beside_others (build, entry, limit_mm);
}

static TlContactKind
kind_of (double distance_mm, gboolean is_pressed)
{
  if (is_pressed)
    return TL_CONTACT_PRESSED;
  return distance_mm <= TL_SAME_PLACE_MM ? TL_CONTACT_TOUCHING : TL_CONTACT_MAY_BRIDGE;
}

static gboolean
is_stranded (const TlSleeveBuild *build, const TlEntry *entry)
{
  return tl_assembly_body (build->assembly, entry->body)->strands > 1;
}

/* Body that a conductor shows to others: the ferrule on it, if it has one. */
static guint
shown_body (const TlSleeveBuild *build, const TlEntry *entry)
{
  const TlLayer *ferrule = tl_assembly_layer_on (build->assembly, entry->leg->id, TL_PART_FERRULE);
  guint          body = entry->body;

  if (ferrule != NULL)
    tl_assembly_find_body (build->assembly, ferrule->id, TL_BODY_FERRULE, &body);
  return body;
}

static guint
neighbours_inside (const TlSleeveBuild *build, guint index)
{
  Rod   own = rod_of (&build->entries[index]);
  guint count = 0;

  for (guint i = 0; i < build->n_entries; i++)
    {
      Rod other = rod_of (&build->entries[i]);

      count += i != index && shared_length (&own, &other) > TL_SAME_PLACE_MM;
    }
  return count;
}

static void
wall_contact (TlSleeveBuild *build, guint index, double bridge_mm)
{
  const TlEntry *entry = &build->entries[index];
  Rod            rod = rod_of (entry), barrel = { 0.0, build->length_mm, 0.0, 0.0, 0.0 };
  double         distance = free_wall_distance (build, entry, bridge_mm),
         inside = shared_length (&rod, &barrel);
  gboolean   is_pressed = build->is_pressed && inside > TL_SAME_PLACE_MM;
  double     share = neighbours_inside (build, index) > 0 ? WALL_SHARE_BESIDE : 1.0;
  TlContact *contact;

  if (!is_pressed && distance >= bridge_mm)
    return;
  contact = tl_assembly_add_contact (build->assembly, build->barrel, shown_body (build, entry),
                                     kind_of (distance, is_pressed));
  /* The side of mouth 2 of a bimetal sleeve is of the other metal. */
  if (entry->port == 2)
    tl_contact_show_other_face (build->assembly, contact, build->barrel);
  contact->distance_mm = contact->kind == TL_CONTACT_MAY_BRIDGE ? distance : 0.0;
  contact->is_line = is_stranded (build, entry);
  contact->rim_mm = G_PI * entry->metal_mm;
  contact->at_x_mm = entry->port == 1
                         ? MAX (0.0, rod.end_mm) / 2.0
                         : (MIN (rod.start_mm, build->length_mm) + build->length_mm) / 2.0;
  contact->at_z_mm = entry->z_mm - entry->metal_mm / 2.0;
  if (is_pressed)
    contact->area_mm2 = G_PI * entry->metal_mm * inside * share;
}

static void
pair_contact (TlSleeveBuild *build, const TlEntry *a, const TlEntry *b, double bridge_mm)
{
  Rod      first = rod_of (a), second = rod_of (b);
  Rod      barrel = { 0.0, build->length_mm, 0.0, 0.0, 0.0 };
  double   distance = rod_distance (&first, &second);
  gboolean is_apart = distance > TL_SAME_PLACE_MM && axial_gap (&first, &second) <= 0.0;
  double   shared = shared_length (&first, &second);
  gboolean is_pressed = build->is_pressed && shared > TL_SAME_PLACE_MM
                        && shared_length (&first, &barrel) > TL_SAME_PLACE_MM
                        && shared_length (&second, &barrel) > TL_SAME_PLACE_MM;
  TlContact *contact;

  if (!is_pressed
      && (distance >= bridge_mm
          || (is_apart && is_shaded (build, a, b, a->y_mm, a->z_mm, b->y_mm, b->z_mm))))
    return;
  contact = tl_assembly_add_contact (build->assembly, shown_body (build, a), shown_body (build, b),
                                     kind_of (distance, is_pressed));
  contact->distance_mm = contact->kind == TL_CONTACT_MAY_BRIDGE ? distance : 0.0;
  contact->is_line = is_stranded (build, a) || is_stranded (build, b);
  contact->rim_mm = G_PI * MIN (a->metal_mm, b->metal_mm);
  contact->at_x_mm =
      (MAX (first.start_mm, second.start_mm) + MIN (first.end_mm, second.end_mm)) / 2.0;
  contact->at_z_mm = (a->z_mm + b->z_mm) / 2.0;
  if (is_pressed)
    contact->area_mm2 = MIN (a->metal_mm, b->metal_mm) * shared * WALL_SHARE_BESIDE;
}

/* A ferrule is pressed on its own conductor, whatever happens to the sleeve. */
static void
ferrule_contact (TlSleeveBuild *build, const TlEntry *entry)
{
  guint      shown = shown_body (build, entry);
  TlContact *contact;

  if (shown == entry->body)
    return;
  contact = tl_assembly_add_contact (build->assembly, entry->body, shown, TL_CONTACT_PRESSED);
  contact->is_line = TRUE;
  contact->rim_mm = 2.0 * G_PI * entry->wire_mm;
  contact->at_x_mm = (entry->start_mm + entry->end_mm) / 2.0;
  contact->at_z_mm = entry->z_mm;
}

void
tl_sleeve_contacts (TlSleeveBuild *build)
{
  double bridge = tl_assembly_bridge_mm (build->assembly);

  for (guint i = 0; i < build->n_entries; i++)
    {
      wall_contact (build, i, bridge);
      ferrule_contact (build, &build->entries[i]);
      for (guint k = i + 1; k < build->n_entries; k++)
        pair_contact (build, &build->entries[i], &build->entries[k], bridge);
    }
}
