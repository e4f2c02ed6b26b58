/* terminal-contacts.c: who touches whom in a terminal, and what presses how hard.
 *
 * What is held between screw, plate or spring and the floor of its bore is pressed there; everything else is measured.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

#include <math.h>

/* Part of the thread that the flat of a tip takes. */
#define TIP_RATIO 0.8
/* Conductors that lie higher than this over each other press one another (sine of the slope). */
#define PILED_RATIO 0.5

static guint
shown (const TlTerminalEntry *entry)
{
  return entry->ferrule != TL_NO_BODY ? entry->ferrule : entry->body;
}

/* The bare metal, or the ferrule over it, as one rod. */
static TlSolid
rod_of (const TlTerminalEntry *entry)
{
  return (TlSolid){ .kind = TL_SOLID_TUBE,
                    .start_mm = entry->start_mm,
                    .end_mm = entry->end_mm,
                    .outer_mm = entry->metal_mm,
                    .u_mm = entry->y_mm,
                    .v_mm = entry->z_mm };
}

static guint
held_in (const TlTerminalBuild *build, guint mouth)
{
  guint count = 0;

  for (guint i = 0; i < build->n_entries; i++)
    count += build->entries[i].mouth == mouth && build->entries[i].is_held;
  return MAX (count, 1);
}

/* Force of a mouth's clamp, and the share of each conductor in it. */
static TlRange
force_of (const TlTerminalBuild *build, guint mouth, guint shared_by)
{
  const TlTerminalFigures *figures = &build->assembly->terminal;
  guint                    most = 1;
  double                   ratio;

  /* The figure is that of one conductor of the fullest mouth; a spring presses each mouth for itself. */
  for (guint i = 0; i < build->ports; i++)
    most = MAX (most, build->mouths[i].legs);
  ratio = (build->clamp == TL_CLAMP_SPRING
               ? 1.0
               : (double) most * build->mouths[mouth].screws / MAX (build->mouths[0].screws, 1))
          / shared_by;
  return (TlRange){ figures->clamp_N.low * ratio, figures->clamp_N.best * ratio,
                    figures->clamp_N.high * ratio };
}

/* Length along the conductor that what presses on it bears. */
static double
bearing_length (const TlTerminalBuild *build, guint body)
{
  const TlBody *presser = tl_assembly_body (build->assembly, body);
  double        length = 0.0;

  for (guint i = 0; i < presser->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (presser->solids, TlSolid, i);

      length += s->kind == TL_SOLID_ROD                    ? TIP_RATIO * s->outer_mm
                : build->clamp == TL_CLAMP_TEETH && i == 0 ? 0.0
                                                           : s->end_mm - s->start_mm;
    }
  return length;
}

/* A straight wire flattens like an eye that is unrolled: a line of that length. */
static void
set_line (TlTerminalBuild *build, TlContact *contact, const TlTerminalEntry *entry,
          double length_mm)
{
  TlAssembly       *self = build->assembly;
  const TlBody     *body = tl_assembly_body (self, entry->body);
  const TlMaterial *metal =
      body->material != NULL ? tl_stock_material (self->stock, body->material) : NULL;
  TlCall call;

  contact->is_line = TRUE;
  contact->rim_mm = 2.0 * length_mm;
  if (contact->force_N.best <= 0.0 || metal == NULL
      || !tl_facts_has (metal->facts, TL_FIELD_HARDNESS))
    return;
  tl_call_init (&call, "eye-flattening");
  tl_call_set_exact (&call, "force", contact->force_N.best);
  tl_call_set_exact (&call, "hardness", tl_facts_number (metal->facts, TL_FIELD_HARDNESS, 0.0));
  tl_call_set_exact (&call, "wire_diameter", entry->metal_mm);
  tl_call_set_exact (&call, "eye_diameter", MAX (entry->metal_mm, length_mm));
  tl_call_set_exact (
      &call, "turn",
      MIN (1.0, length_mm / (G_PI * (MAX (entry->metal_mm, length_mm) + entry->metal_mm))));
  if (!tl_call_run_quick (&call) || !tl_call_has (&call, "width"))
    return;
  contact->area_mm2 = tl_call_get (&call, "length").best * tl_call_get (&call, "width").best;
  contact->loaded_area_mm2 = contact->area_mm2;
}

static void
set_place (TlContact *contact, double x_mm, double y_mm, double z_mm)
{
  contact->at_x_mm = x_mm;
  contact->at_y_mm = y_mm;
  contact->at_z_mm = z_mm;
}

static double
held_x (const TlMouth *mouth, const TlTerminalEntry *entry)
{
  for (guint i = 0; i < mouth->screws; i++)
    if (mouth->screw_x_mm[i] > entry->start_mm && mouth->screw_x_mm[i] < entry->end_mm)
      return mouth->screw_x_mm[i];
  return (MAX (entry->start_mm, mouth->from_mm) + MIN (entry->end_mm, mouth->to_mm)) / 2.0;
}

/* A pair that is not pressed: touching or near, if it is. */
static void
measured (TlTerminalBuild *build, const TlTerminalEntry *entry, guint other, const TlSolidGap *gap,
          double limit_mm)
{
  gboolean   is_touching = gap->distance_mm <= TL_SAME_PLACE_MM;
  TlContact *contact;

  if (gap->distance_mm >= limit_mm
      || tl_assembly_has_contact (build->assembly, shown (entry), other))
    return;
  contact = tl_assembly_add_contact (build->assembly, shown (entry), other,
                                     is_touching ? TL_CONTACT_TOUCHING : TL_CONTACT_MAY_BRIDGE);
  contact->distance_mm = is_touching ? 0.0 : gap->distance_mm;
  contact->is_line = TRUE;
  contact->rim_mm = G_PI * entry->metal_mm;
  set_place (contact, gap->x_mm, gap->y_mm, gap->z_mm);
}

/* --- conductor and metal --- */

/* Distance from a conductor to the wall of its own bore. */
static TlSolidGap
wall_gap (const TlTerminalBuild *build, const TlTerminalEntry *entry)
{
  const TlMouth *mouth = &build->mouths[entry->mouth];
  double         axial = MAX (0.0, MAX (-entry->end_mm, entry->start_mm - build->length_mm));
  double y = entry->y_mm - mouth->y_mm, z = entry->z_mm - mouth->z_mm, half = build->bore_mm / 2.0,
         radial;
  TlSolidGap gap = { .x_mm =
                         (MAX (entry->start_mm, 0.0) + MIN (entry->end_mm, build->length_mm)) / 2.0,
                     .y_mm = entry->y_mm,
                     .z_mm = entry->z_mm + mouth->side * entry->metal_mm / 2.0 };

  radial = build->clamp == TL_CLAMP_TUNNEL
               ? half - hypot (y, z) - entry->metal_mm / 2.0
               : MIN (half - fabs (y), half - fabs (z)) - entry->metal_mm / 2.0;
  gap.distance_mm = hypot (axial, MAX (0.0, radial));
  return gap;
}

static void
metal_contact (TlTerminalBuild *build, const TlTerminalEntry *entry, double limit_mm)
{
  const TlMouth *mouth = &build->mouths[entry->mouth];
  TlSolidGap     gap = wall_gap (build, entry);
  guint          presser = mouth->plate != TL_NO_BODY ? mouth->plate : mouth->clamp;
  TlContact     *contact;

  /* With its insulation on, a conductor lies on that: only its cut end sees the metal. */
  if (build->clamp == TL_CLAMP_TEETH && entry->passes)
    return;
  if (build->clamp == TL_CLAMP_TEETH)
    gap.x_mm = mouth->port % 2 == 1 ? entry->end_mm : entry->start_mm;
  if (build->clamp == TL_CLAMP_TEETH || !entry->is_held || presser == TL_NO_BODY)
    {
      measured (build, entry, build->metal, &gap, limit_mm);
      return;
    }
  contact =
      tl_assembly_add_contact (build->assembly, shown (entry), build->metal, TL_CONTACT_PRESSED);
  contact->force_N = force_of (build, entry->mouth, held_in (build, entry->mouth));
  set_line (build, contact, entry, bearing_length (build, presser));
  set_place (contact, held_x (mouth, entry), entry->y_mm,
             entry->z_mm + mouth->side * entry->metal_mm / 2.0);
}

/* --- conductor and what presses on it --- */

static TlSolidGap
nearest_solid (const TlTerminalBuild *build, const TlTerminalEntry *entry, guint body,
               double limit_mm)
{
  const TlBody *other = tl_assembly_body (build->assembly, body);
  TlSolid       rod = rod_of (entry);
  TlSolidGap    best = { .distance_mm = limit_mm };

  for (guint i = 0; i < other->solids->len; i++)
    {
      TlSolidGap gap = tl_solid_gap (build->assembly, shown (entry), &rod, body,
                                     &g_array_index (other->solids, TlSolid, i), best.distance_mm);

      if (gap.distance_mm < best.distance_mm)
        best = gap;
    }
  return best;
}

static void
presser_contact (TlTerminalBuild *build, const TlTerminalEntry *entry, guint index, guint body,
                 double limit_mm)
{
  const TlMouth *mouth = &build->mouths[index];
  TlSolidGap     gap;
  TlContact     *contact;
  guint          meets = 0;

  if (body == TL_NO_BODY)
    return;
  gap = nearest_solid (build, entry, body, limit_mm);
  if (gap.distance_mm > TL_SAME_PLACE_MM || entry->mouth != index || !entry->is_held)
    {
      measured (build, entry, body, &gap, limit_mm);
      return;
    }
  for (guint i = 0; i < build->n_entries; i++)
    meets += build->entries[i].mouth == index
             && nearest_solid (build, &build->entries[i], body, limit_mm).distance_mm
                    <= TL_SAME_PLACE_MM;
  contact = tl_assembly_add_contact (build->assembly, shown (entry), body, TL_CONTACT_PRESSED);
  contact->force_N = force_of (build, index, MAX (meets, 1));
  set_line (build, contact, entry, bearing_length (build, body));
  set_place (contact, held_x (mouth, entry), entry->y_mm,
             entry->z_mm - mouth->side * entry->metal_mm / 2.0);
}

/* Screw in its thread, plate under its screw, spring on its seat. */
static void
clamp_contacts (TlTerminalBuild *build)
{
  for (guint i = 0; i < build->ports; i++)
    {
      const TlMouth *mouth = &build->mouths[i];
      double         roof = -build->bore_mm / 2.0, outside = -build->row_mm / 2.0;
      TlContact     *contact;

      if (mouth->clamp == TL_NO_BODY)
        continue;
      contact =
          tl_assembly_add_contact (build->assembly, build->metal, mouth->clamp, TL_CONTACT_PRESSED);
      contact->force_N = mouth->legs > 0 ? force_of (build, i, 1) : (TlRange){ 0.0, 0.0, 0.0 };
      contact->area_mm2 = build->clamp == TL_CLAMP_SPRING
                              ? 0.0
                              : G_PI * build->thread_mm * (roof - outside) * mouth->screws;
      contact->loaded_area_mm2 = contact->force_N.best > 0.0 ? contact->area_mm2 : 0.0;
      contact->rim_mm = 2.0 * G_PI * build->thread_mm * mouth->screws;
      set_place (contact, mouth->screw_x_mm[0] + build->thread_mm / 2.0, mouth->y_mm,
                 mouth->z_mm
                     + mouth->side
                           * (build->clamp == TL_CLAMP_SPRING ? roof : (roof + outside) / 2.0));
      if (mouth->plate == TL_NO_BODY)
        continue;
      contact =
          tl_assembly_add_contact (build->assembly, mouth->plate, mouth->clamp, TL_CONTACT_PRESSED);
      contact->force_N = mouth->legs > 0 ? force_of (build, i, 1) : (TlRange){ 0.0, 0.0, 0.0 };
      contact->area_mm2 = G_PI / 4.0 * build->thread_mm * build->thread_mm * mouth->screws;
      contact->loaded_area_mm2 = contact->force_N.best > 0.0 ? contact->area_mm2 : 0.0;
      contact->rim_mm = G_PI * build->thread_mm * mouth->screws;
      set_place (
          contact, mouth->screw_x_mm[0], mouth->y_mm,
          g_array_index (tl_assembly_body (build->assembly, mouth->clamp)->solids, TlSolid, 0)
              .z1_mm);
    }
}

/* --- conductors among themselves --- */

static void
pair_contact (TlTerminalBuild *build, const TlTerminalEntry *a, const TlTerminalEntry *b,
              double limit_mm)
{
  TlSolid    first = rod_of (a), second = rod_of (b);
  double     slope, away;
  TlSolidGap gap;
  TlContact *contact;

  gap = tl_solid_gap (build->assembly, shown (a), &first, shown (b), &second, limit_mm);
  away = hypot (a->y_mm - b->y_mm, a->z_mm - b->z_mm);
  slope = away > 0.0 ? fabs (a->z_mm - b->z_mm) / away : 0.0;
  if (gap.distance_mm > TL_SAME_PLACE_MM || !a->is_held || !b->is_held
      || a->mouth / 2 != b->mouth / 2 || slope < PILED_RATIO)
    {
      measured (build, a, shown (b), &gap, limit_mm);
      return;
    }
  contact = tl_assembly_add_contact (build->assembly, shown (a), shown (b), TL_CONTACT_PRESSED);
  contact->force_N = force_of (build, a->mouth, held_in (build, a->mouth));
  set_line (build, contact, a, MIN (a->end_mm, b->end_mm) - MAX (a->start_mm, b->start_mm));
  set_place (contact, gap.x_mm, gap.y_mm, gap.z_mm);
}

static void
ferrule_contact (TlTerminalBuild *build, const TlTerminalEntry *entry)
{
  TlContact *contact;

  if (entry->ferrule == TL_NO_BODY)
    return;
  contact =
      tl_assembly_add_contact (build->assembly, entry->body, entry->ferrule, TL_CONTACT_PRESSED);
  contact->is_line = TRUE;
  contact->rim_mm = 2.0 * G_PI * entry->wire_mm;
  set_place (contact, (entry->start_mm + entry->end_mm) / 2.0, entry->y_mm, entry->z_mm);
}

void
tl_terminal_contacts (TlTerminalBuild *build)
{
  double limit = tl_assembly_bridge_mm (build->assembly);

  clamp_contacts (build);
  for (guint i = 0; i < build->n_entries; i++)
    {
      const TlTerminalEntry *entry = &build->entries[i];

      metal_contact (build, entry, limit);
      ferrule_contact (build, entry);
      for (guint k = 0; k < build->ports; k++)
        {
          presser_contact (build, entry, k, build->mouths[k].plate, limit);
          presser_contact (build, entry, k, build->mouths[k].clamp, limit);
        }
      for (guint k = i + 1; k < build->n_entries; k++)
        pair_contact (build, entry, &build->entries[k], limit);
    }
}
