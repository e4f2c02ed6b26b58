/* terminal-bodies.c: metal, screws, springs, plates, housing and conductors of a terminal in place.
 *
 * What no figure of the stock says is drawn and not judged: the wall of the housing, how far it reaches beyond the metal,
 * the thickness of plates, teeth and springs, the length of the screws.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

#include <math.h>

#define HOUSING_WALL_MM 1.2
#define HOUSING_BEYOND_MM 2.0
#define CLEARANCE_MM 0.2
#define SPRING_DRAWN_MM 0.5
#define TOOTH_DRAWN_MM 0.5
/* Insulation inside reaches so far over that of the lead: no line passes between them. */
#define SEAM_MM 0.5
/* Metal of springs where the part does not say it: common practice, no source. */
#define SPRING_METAL "stainless-a2"

static TlSolid
box (double from_mm, double to_mm, double y0_mm, double y1_mm, double z0_mm, double z1_mm)
{
  return (TlSolid){ .kind = TL_SOLID_BLOCK,
                    .start_mm = from_mm,
                    .end_mm = to_mm,
                    .inner_mm = fabs (y1_mm - y0_mm),
                    .outer_mm = fabs (z1_mm - z0_mm),
                    .u_mm = (y0_mm + y1_mm) / 2.0,
                    .v_mm = (z0_mm + z1_mm) / 2.0 };
}

static TlSolid
along (double from_mm, double to_mm, double inner_mm, double outer_mm, double y_mm, double z_mm)
{
  return (TlSolid){ .kind = TL_SOLID_TUBE,
                    .start_mm = MIN (from_mm, to_mm),
                    .end_mm = MAX (from_mm, to_mm),
                    .inner_mm = inner_mm,
                    .outer_mm = outer_mm,
                    .u_mm = y_mm,
                    .v_mm = z_mm };
}

/* A box between two local heights of a mouth. */
static TlSolid
box_in (const TlMouth *mouth, double from_mm, double to_mm, double half_mm, double h0_mm,
        double h1_mm)
{
  return box (from_mm, to_mm, mouth->y_mm - half_mm, mouth->y_mm + half_mm,
              mouth->z_mm + mouth->side * h0_mm, mouth->z_mm + mouth->side * h1_mm);
}

static void
add (TlAssembly *self, guint body, TlSolid solid)
{
  if (solid.end_mm - solid.start_mm > TL_SAME_PLACE_MM && solid.inner_mm > TL_SAME_PLACE_MM
      && solid.outer_mm > TL_SAME_PLACE_MM)
    tl_assembly_add_solid (self, body, &solid);
}

/* --- the metal about the bores --- */

static void
lay_bore (TlTerminalBuild *build, const TlMouth *mouth)
{
  double  half = build->bore_mm / 2.0, wide = build->column_mm / 2.0, high = build->row_mm / 2.0;
  double  y = mouth->y_mm, z = mouth->z_mm, end = build->length_mm;
  TlSolid whole = box (0.0, end, y - wide, y + wide, z - high, z + high);

  if (build->clamp == TL_CLAMP_TUNNEL)
    {
      whole.bore_mm = build->bore_mm;
      add (build->assembly, build->metal, whole);
      return;
    }
  add (build->assembly, build->metal, box (0.0, end, y - wide, y + wide, z - high, z - half));
  add (build->assembly, build->metal, box (0.0, end, y - wide, y + wide, z + half, z + high));
  add (build->assembly, build->metal, box (0.0, end, y - wide, y - half, z - half, z + half));
  add (build->assembly, build->metal, box (0.0, end, y + half, y + wide, z - half, z + half));
}

/* --- screws and plates --- */

static char *
numbered (const char *name, const TlMouth *mouth)
{
  return g_strdup_printf ("%s-%u", name, mouth->port);
}

static void
lay_screws (TlTerminalBuild *build, TlMouth *mouth, double tip_mm)
{
  TlAssembly      *self = build->assembly;
  g_autofree char *name = numbered ("screw", mouth);
  const char      *metal = tl_layer_word (build->layer, self->stock, TL_FIELD_OTHER_FACE, NULL);
  /* Long enough to reach three quarters of the bore from the outside of the metal. */
  double           length = build->row_mm / 2.0 + 0.25 * build->bore_mm;

  mouth->clamp = tl_assembly_layer_body (self, build->layer, name, TL_BODY_SCREW);
  if (metal != NULL)
    tl_assembly_set_metal (self, mouth->clamp, metal);
  for (guint i = 0; i < mouth->screws; i++)
    {
      TlSolid screw = { .kind = TL_SOLID_ROD, .outer_mm = build->thread_mm };

      screw.x0_mm = screw.x1_mm = mouth->screw_x_mm[i];
      screw.y0_mm = screw.y1_mm = mouth->y_mm;
      screw.z0_mm = mouth->z_mm + mouth->side * (tip_mm - length);
      screw.z1_mm = mouth->z_mm + mouth->side * tip_mm;
      tl_assembly_add_solid (self, mouth->clamp, &screw);
    }
}

/* Half of the length of plates: as far as the screws reach, within the mouth. */
static void
plate_extent (const TlTerminalBuild *build, const TlMouth *mouth, double *from, double *to)
{
  double reach = 0.75 * build->thread_mm;

  *from = MAX (mouth->from_mm + CLEARANCE_MM, mouth->screw_x_mm[0] - reach);
  *to = MIN (mouth->to_mm - CLEARANCE_MM, mouth->screw_x_mm[mouth->screws - 1] + reach);
}

static double
plate_thickness (const TlTerminalBuild *build, const TlMouth *mouth)
{
  return CLAMP (build->bore_mm / 2.0 + mouth->tip_mm, 0.2, TL_PLATE_DRAWN_MM);
}

static void
lay_plate (TlTerminalBuild *build, TlMouth *mouth)
{
  TlAssembly      *self = build->assembly;
  g_autofree char *name = numbered ("plate", mouth);
  double           from, to, thick = plate_thickness (build, mouth);

  plate_extent (build, mouth, &from, &to);
  mouth->plate = tl_assembly_layer_body (self, build->layer, name, TL_BODY_TERMINAL);
  add (self, mouth->plate,
       box_in (mouth, from, to, build->bore_mm / 2.0 - CLEARANCE_MM, mouth->tip_mm - thick,
               mouth->tip_mm));
  lay_screws (build, mouth, mouth->tip_mm - thick);
}

/* Teeth belong to the plate: down to the metal of each conductor under it, one under each screw. */
static void
lay_teeth (TlTerminalBuild *build, TlMouth *mouth)
{
  for (guint k = 0; k < build->n_entries; k++)
    {
      const TlTerminalEntry *entry = &build->entries[k];
      double crest = mouth->side * (entry->z_mm - mouth->z_mm) - entry->wire_mm / 2.0;
      double half = entry->wire_mm * 0.3;

      for (guint i = 0; i < mouth->screws && entry->mouth / 2 == (mouth->port - 1) / 2; i++)
        {
          double  x = mouth->screw_x_mm[i];
          TlSolid tooth = box_in (mouth, x - TOOTH_DRAWN_MM / 2.0, x + TOOTH_DRAWN_MM / 2.0, half,
                                  mouth->tip_mm, crest);

          tooth.u_mm = entry->y_mm;
          if (x > entry->start_mm && x < entry->end_mm)
            add (build->assembly, mouth->plate, tooth);
        }
    }
}

static void
lay_spring (TlTerminalBuild *build, TlMouth *mouth)
{
  TlAssembly      *self = build->assembly;
  g_autofree char *name = numbered ("spring", mouth);
  double           x = mouth->screw_x_mm[0], half = SPRING_DRAWN_MM / 2.0;

  mouth->clamp = tl_assembly_layer_body (self, build->layer, name, TL_BODY_SPRING);
  tl_assembly_set_metal (
      self, mouth->clamp,
      tl_layer_word (build->layer, self->stock, TL_FIELD_OTHER_FACE, SPRING_METAL));
  add (self, mouth->clamp,
       box_in (mouth, x - half, x + half, build->bore_mm / 2.0 - CLEARANCE_MM,
               -build->bore_mm / 2.0, mouth->tip_mm));
}

void
tl_terminal_lay_metal (TlTerminalBuild *build)
{
  build->metal = tl_assembly_layer_body (build->assembly, build->layer, "metal", TL_BODY_TERMINAL);
  for (guint i = 0; i < build->ports; i += 2)
    lay_bore (build, &build->mouths[i]);
  for (guint i = 0; i < build->ports; i++)
    {
      TlMouth *mouth = &build->mouths[i];

      if (mouth->screws == 0)
        continue;
      if (build->clamp == TL_CLAMP_SPRING)
        lay_spring (build, mouth);
      else if (build->clamp == TL_CLAMP_TUNNEL)
        lay_screws (build, mouth, mouth->tip_mm);
      else
        lay_plate (build, mouth);
      if (build->clamp == TL_CLAMP_TEETH)
        lay_teeth (build, mouth);
    }
}

/* --- the insulating body --- */

typedef struct
{
  double y0, y1, z0, z1; /* outside of the metal */
  double up, down;       /* room for the screws beyond it */
  double mouth;          /* half of the opening for insulated conductors */
} Shell;

static Shell
shell_of (const TlTerminalBuild *build)
{
  double high = build->row_mm / 2.0, wide = build->column_mm / 2.0;
  double room = build->clamp == TL_CLAMP_SPRING ? 0.0 : 0.75 * build->bore_mm + 0.5;
  Shell  shell = { -wide,
                   wide + (build->columns - 1) * build->column_mm,
                   -high,
                   high + (build->rows - 1) * build->row_mm,
                   room,
                  build->rows > 1 ? room : 0.0,
                   build->bore_mm / 2.0 };

  for (guint i = 0; i < build->n_entries; i++)
    shell.mouth = MAX (shell.mouth, build->entries[i].insulated_mm / 2.0 + CLEARANCE_MM);
  return shell;
}

/* A wall across the screws leaves a shaft about each. */
static void
wall_with_shafts (TlTerminalBuild *build, guint body, const Shell *s, double z0, double z1,
                  double side)
{
  double at = -HOUSING_BEYOND_MM, half = build->thread_mm / 2.0 + CLEARANCE_MM;
  double y0 = s->y0 - HOUSING_WALL_MM, y1 = s->y1 + HOUSING_WALL_MM;

  for (guint i = 0; i < MIN (build->ports, 4); i++)
    {
      const TlMouth *mouth = &build->mouths[i];

      for (guint k = 0; k < mouth->screws && build->clamp != TL_CLAMP_SPRING; k++)
        if (mouth->side * side > 0.0)
          {
            add (build->assembly, body, box (at, mouth->screw_x_mm[k] - half, y0, y1, z0, z1));
            at = mouth->screw_x_mm[k] + half;
          }
    }
  add (build->assembly, body, box (at, build->length_mm + HOUSING_BEYOND_MM, y0, y1, z0, z1));
}

/* Before the mouths: what is left above, between and below the openings. */
static void
end_wall (TlTerminalBuild *build, guint body, const Shell *s, double from, double to)
{
  double at = s->z0;

  for (guint row = 0; row < build->rows; row++)
    {
      double z = row * build->row_mm;

      add (build->assembly, body, box (from, to, s->y0, s->y1, at, MAX (at, z - s->mouth)));
      at = z + s->mouth;
    }
  add (build->assembly, body, box (from, to, s->y0, s->y1, at, MAX (at, s->z1)));
}

void
tl_terminal_lay_housing (TlTerminalBuild *build)
{
  TlAssembly *self = build->assembly;
  Shell       s = shell_of (build);
  double      end = build->length_mm + HOUSING_BEYOND_MM;
  guint       body;

  if (tl_layer_word (build->layer, self->stock, TL_FIELD_BODY_MATERIAL, NULL) == NULL)
    return;
  body = tl_assembly_layer_body (self, build->layer, "housing", TL_BODY_HOUSING);
  wall_with_shafts (build, body, &s, s.z0 - s.up - HOUSING_WALL_MM, s.z0, 1.0);
  wall_with_shafts (build, body, &s, s.z1, s.z1 + s.down + HOUSING_WALL_MM, -1.0);
  add (self, body, box (-HOUSING_BEYOND_MM, end, s.y0 - HOUSING_WALL_MM, s.y0, s.z0, s.z1));
  add (self, body, box (-HOUSING_BEYOND_MM, end, s.y1, s.y1 + HOUSING_WALL_MM, s.z0, s.z1));
  end_wall (build, body, &s, -HOUSING_BEYOND_MM, 0.0);
  end_wall (build, body, &s, build->length_mm, end);
}

/* --- conductors --- */

/* From where the bare metal ends to where the drawing ends; insulated leads of one mouth spread beside each other. */
static void
lay_lead (TlTerminalBuild *build, TlTerminalEntry *entry, double from, double to,
          const TlCircle *lead)
{
  TlAssembly *self = build->assembly;
  TlSolid     metal = along (from, to, 0.0, entry->wire_mm, entry->y_mm, entry->z_mm);
  TlSolid cover = along (from, to, entry->wire_mm, entry->insulated_mm, entry->y_mm, entry->z_mm);
  guint   index;

  if (hypot (lead->y_mm - entry->y_mm, lead->z_mm - entry->z_mm) > TL_SAME_PLACE_MM)
    {
      metal.kind = TL_SOLID_ROD;
      metal.x0_mm = from;
      metal.x1_mm = to;
      metal.y0_mm = entry->y_mm;
      metal.y1_mm = lead->y_mm;
      metal.z0_mm = entry->z_mm;
      metal.z1_mm = lead->z_mm;
      cover = metal;
      cover.inner_mm = entry->wire_mm;
      cover.outer_mm = entry->insulated_mm;
    }
  tl_assembly_add_solid (self, entry->body, &metal);
  if (entry->insulated_mm <= entry->wire_mm)
    return;
  if (tl_assembly_find_body (self, entry->leg->id, TL_BODY_INSULATION, &index) == NULL)
    index = tl_assembly_leg_body (self, entry->leg, "insulation", TL_BODY_INSULATION);
  tl_assembly_add_solid (self, index, &cover);
}

/* Where the lead of an entry ends across: insulations of one mouth beside each other in the order of their metals. */
static TlCircle
lead_end (const TlTerminalBuild *build, guint index)
{
  TlCircle circles[TL_MAX_LEGS];
  guint    count = 0, own = 0;

  for (guint i = 0; i < build->n_entries; i++)
    {
      const TlTerminalEntry *other = &build->entries[i];

      if (other->mouth != build->entries[index].mouth)
        continue;
      if (i == index)
        own = count;
      circles[count++] =
          (TlCircle){ other->y_mm, other->z_mm, MAX (other->insulated_mm, other->wire_mm) };
    }
  tl_spread_circles (circles, count);
  return circles[own];
}

static void
lay_ferrule (TlTerminalBuild *build, TlTerminalEntry *entry)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *ferrule = tl_assembly_layer_on (self, entry->leg->id, TL_PART_FERRULE);
  gboolean       is_left = build->mouths[entry->mouth].port % 2 == 1;
  double         length, from;
  TlSolid        solid;

  if (ferrule == NULL || entry->metal_mm <= entry->wire_mm)
    return;
  length = MIN (tl_layer_number (ferrule, self->stock, TL_FIELD_LENGTH, entry->strip_mm),
                entry->end_mm - entry->start_mm);
  from = is_left ? entry->end_mm - length : entry->start_mm;
  solid = along (from, from + length, entry->wire_mm, entry->metal_mm, entry->y_mm, entry->z_mm);
  entry->ferrule = tl_assembly_layer_body (self, ferrule, "ferrule", TL_BODY_FERRULE);
  tl_assembly_add_solid (self, entry->ferrule, &solid);
}

void
tl_terminal_lay_entries (TlTerminalBuild *build)
{
  for (guint i = 0; i < build->n_entries; i++)
    {
      TlTerminalEntry *entry = &build->entries[i];
      TlSolid          core =
          along (entry->start_mm, entry->end_mm, 0.0, entry->wire_mm, entry->y_mm, entry->z_mm);
      gboolean leaves_left = build->mouths[entry->mouth].port % 2 == 1;
      gboolean leaves_right = !leaves_left || entry->passes;
      TlCircle straight = { entry->y_mm, entry->z_mm, 0.0 }, lead = lead_end (build, i);

      entry->body = tl_assembly_leg_body (build->assembly, entry->leg, "core", TL_BODY_CORE);
      tl_assembly_add_solid (build->assembly, entry->body, &core);
      lay_ferrule (build, entry);
      if (build->clamp == TL_CLAMP_TEETH)
        lay_lead (build, entry, entry->start_mm - (leaves_left ? SEAM_MM : 0.0),
                  entry->end_mm + (leaves_right ? SEAM_MM : 0.0), &straight);
      if (leaves_left)
        lay_lead (build, entry, entry->start_mm, entry->start_mm - TL_LEAD_DRAWN_MM, &lead);
      if (leaves_right)
        lay_lead (build, entry, entry->end_mm, entry->end_mm + TL_LEAD_DRAWN_MM, &lead);
    }
}

/* Compound on the terminal fills all bores, on a conductor or in a mouth its own. */
void
tl_terminal_lay_compound (TlTerminalBuild *build)
{
  TlAssembly *self = build->assembly;

  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];
      guint          body = TL_NO_BODY;

      for (guint k = 0; layer->kind == TL_PART_COMPOUND && k < build->ports; k++)
        {
          const TlMouth *mouth = &build->mouths[k];
          gboolean       is_here =
              layer->seat.kind == TL_SEAT_ON && g_strcmp0 (layer->seat.of, build->layer->id) == 0;
          TlSolid fill =
              along (mouth->from_mm, mouth->to_mm, 0.0, build->bore_mm, mouth->y_mm, mouth->z_mm);

          is_here |= layer->seat.kind == TL_SEAT_PORT
                     && g_strcmp0 (layer->seat.of, build->layer->id) == 0
                     && layer->seat.place == mouth->port;
          for (guint m = 0; m < build->n_entries; m++)
            is_here |= layer->seat.kind == TL_SEAT_ON && build->entries[m].mouth == k
                       && g_strcmp0 (layer->seat.of, build->entries[m].leg->id) == 0;
          if (!is_here)
            continue;
          if (build->clamp != TL_CLAMP_TUNNEL)
            fill = box_in (mouth, mouth->from_mm, mouth->to_mm, build->bore_mm / 2.0,
                           -build->bore_mm / 2.0, build->bore_mm / 2.0);
          if (body == TL_NO_BODY)
            body = tl_assembly_layer_body (self, layer, "compound", TL_BODY_COMPOUND);
          tl_assembly_add_solid (self, body, &fill);
        }
    }
}
