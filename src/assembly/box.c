/* box.c: laying joints, leads and devices into the box.
 *
 * Rows and layers of equal blocks on one grid of rows. Leads that turn towards the back do so at the wall, and those of
 * the layers behind inside of them; leads that turn along the wall pass the other rows of their own layer: both cost
 * length there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/box.h"

#include "assembly/assembly-private.h"

#include <math.h>

#define MOST_ROWS 64
/* Sums of sizes that are equal on paper. */
#define EQUAL_MM 1e-6

static const char *const limit_ids[] = { "room.wall-clearance",     "room.device-size",
                                         "room.device-depth",       "grip.bend-radius-aluminium",
                                         "grip.bend-radius-copper", NULL };

typedef struct
{
  const char *id;
  gint        side;
  double      diameter_mm, radius_mm;
  double      deep_mm; /* its axis off the middle of the joint, towards the back */
} Lead;

/* The joint as a block with its leads. */
typedef struct
{
  double length_mm, across_mm, deep_mm;
  Lead   leads[2 * TL_MAX_LEGS]; /* a conductor that is not cut has two */
  guint  n_leads;
  double reach_mm[2];  /* beyond the left and right end: bend and conductor */
  double spread_mm[2]; /* of the leads beside each other */
  double thick_mm[2];  /* thickest lead */
  double beside_mm
      [2]; /* along the wall, of the leads outside of the innermost: the first at the left end, the last at the right */
} Block;

/* A layer of rows. */
typedef struct
{
  guint    rows;
  guint    first_row;  /* of them on the grid */
  guint    grid_rows;  /* rows of the first layer, 0 in the first itself */
  double   z_mm;       /* its side towards the cover */
  double   back_mm;    /* where the bends have to end */
  double   lane_mm[2]; /* taken at each end by leads of the layers before it */
  gboolean turns_back;
} Layer;

const char *const *
tl_box_layout_limits (void)
{
  return limit_ids;
}

static double
limit_or (const TlAssembly *assembly, const char *id, double fallback)
{
  TlThreshold threshold;

  return tl_stock_threshold (assembly->stock, assembly->joint->practice, id, &threshold)
             ? threshold.value
             : fallback;
}

static double
site_number (const TlAssembly *assembly, TlField field)
{
  const TlFact *fact = tl_joint_site_fact (assembly->joint, assembly->stock, field);

  return fact != NULL ? MAX (fact->value.best, 0.0) : 0.0;
}

/* --- the joint --- */

typedef struct
{
  double low[3], high[3];
} Extent;

static void
extend (Extent *extent, guint way, double a, double b)
{
  extent->low[way] = MIN (extent->low[way], MIN (a, b));
  extent->high[way] = MAX (extent->high[way], MAX (a, b));
}

/* A solid in the axes of the assembly; the family axis is z for a stack, else x. */
static void
extend_solid (Extent *extent, const TlSolid *solid, gboolean is_stack)
{
  guint  axis = is_stack ? 2 : 0, u = is_stack ? 0 : 1, v = is_stack ? 1 : 2;
  double half_u = solid->outer_mm / 2.0, half_v = half_u;

  if (solid->kind == TL_SOLID_ROD)
    {
      extend (extent, 0, solid->x0_mm, solid->x1_mm);
      extend (extent, 1, solid->y0_mm, solid->y1_mm);
      extend (extent, 2, solid->z0_mm, solid->z1_mm);
      return;
    }
  if (solid->kind == TL_SOLID_BLOCK)
    half_u = solid->inner_mm / 2.0;
  extend (extent, axis, solid->start_mm, solid->end_mm);
  extend (extent, u, solid->u_mm - half_u, solid->u_mm + half_u);
  extend (extent, v, solid->v_mm - half_v, solid->v_mm + half_v);
}

/* Extent of the bodies of legs or of all others; %FALSE if there are none. */
static gboolean
extent_of (const TlAssembly *assembly, gboolean legs, const char *owner, Extent *extent)
{
  *extent = (Extent){ { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE },
                      { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE } };
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      if (body->is_leg != legs || (owner != NULL && !g_str_equal (body->owner, owner)))
        continue;
      for (guint k = 0; k < body->solids->len; k++)
        extend_solid (extent, &g_array_index (body->solids, TlSolid, k),
                      assembly->family == TL_FAMILY_STACK);
    }
  return extent->low[0] <= extent->high[0];
}

static void
find_middle (const TlAssembly *assembly, double *middle)
{
  Extent extent;

  middle[0] = middle[1] = middle[2] = 0.0;
  if (!extent_of (assembly, FALSE, NULL, &extent) && !extent_of (assembly, TRUE, NULL, &extent))
    return;
  for (guint way = 0; way < 3; way++)
    middle[way] = (extent.low[way] + extent.high[way]) / 2.0;
}

/* Ends of the joint at which a leg leaves it: where most of it lies, by turns if it lies evenly; a conductor that is not
 * cut goes on at both. */
static void
ends_of (const TlAssembly *assembly, const TlLeg *leg, double middle_mm, guint index,
         gboolean *ends)
{
  Extent extent;
  double off = 0.0, half = assembly->packed_length_mm / 2.0;

  if (extent_of (assembly, TRUE, leg->id, &extent))
    {
      off = (extent.low[0] + extent.high[0]) / 2.0 - middle_mm;
      ends[0] = extent.low[0] < middle_mm - half - 1.0;
      ends[1] = extent.high[0] > middle_mm + half + 1.0;
      if (ends[0] && ends[1] && assembly->terminal.is_branch)
        return;
    }
  ends[1] = fabs (off) < 1.0 ? index % 2 == 1 : off > 0.0;
  ends[0] = !ends[1];
}

/* How far towards the back the axis of a leg leaves the joint; within its block. */
static double
deep_of (const TlAssembly *assembly, const TlLeg *leg, const double *middle, gboolean on_side,
         const Block *block, double diameter_mm)
{
  guint         way = on_side ? 1 : 2, index;
  double        room = MAX ((block->deep_mm - diameter_mm) / 2.0, 0.0);
  Extent        extent = { { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE },
                           { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE } };
  const TlBody *body = tl_assembly_find_body (assembly, leg->id, TL_BODY_INSULATION, &index);

  if (body == NULL || body->solids->len == 0)
    return 0.0;
  for (guint k = 0; k < body->solids->len; k++)
    extend_solid (&extent, &g_array_index (body->solids, TlSolid, k),
                  assembly->family == TL_FAMILY_STACK);
  return CLAMP ((extent.low[way] + extent.high[way]) / 2.0 - middle[way], -room, room);
}

static double
radius_of (const TlAssembly *assembly, const TlLeg *leg)
{
  const char       *id = tl_leg_word (leg, assembly->stock, TL_FIELD_METAL, NULL);
  const TlMaterial *metal = id != NULL ? tl_stock_material (assembly->stock, id) : NULL;
  gboolean          aluminium = metal != NULL && metal->look == TL_LOOK_ALUMINIUM;
  double            own_mm = tl_leg_number (leg, assembly->stock, TL_FIELD_BEND_RADIUS, 0.0);

  if (own_mm > 0.0)
    return own_mm;
  return tl_leg_metal_diameter_mm (assembly, leg)
         * limit_or (assembly, aluminium ? "grip.bend-radius-aluminium" : "grip.bend-radius-copper",
                     0.0);
}

static void
add_lead (Block *block, const Lead *lead, guint end)
{
  block->leads[block->n_leads] = *lead;
  block->leads[block->n_leads++].side = end == 0 ? -1 : 1;
  block->reach_mm[end] = MAX (block->reach_mm[end], lead->radius_mm + lead->diameter_mm);
  block->thick_mm[end] = MAX (block->thick_mm[end], lead->diameter_mm);
  if (end == 0 && block->spread_mm[0] > 0.0)
    block->beside_mm[0] += lead->diameter_mm;
  if (end == 1)
    block->beside_mm[1] = block->spread_mm[1];
  block->spread_mm[end] += lead->diameter_mm;
}

static void
read_block (const TlAssembly *assembly, const double *middle, gboolean on_side, Block *block)
{
  *block = (Block){ .length_mm = assembly->packed_length_mm };
  block->across_mm = on_side ? assembly->packed_height_mm : assembly->packed_width_mm;
  block->deep_mm = on_side ? assembly->packed_width_mm : assembly->packed_height_mm;
  for (guint i = 0; i < assembly->joint->legs->len && i < TL_MAX_LEGS; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      gboolean     ends[2] = { FALSE, FALSE };
      Lead         lead = { .id = leg->id };

      lead.diameter_mm = tl_leg_number (leg, assembly->stock, TL_FIELD_INSULATION_DIAMETER,
                                        tl_leg_metal_diameter_mm (assembly, leg));
      if (lead.diameter_mm <= 0.0)
        continue;
      lead.radius_mm = radius_of (assembly, leg);
      lead.deep_mm = deep_of (assembly, leg, middle, on_side, block, lead.diameter_mm);
      ends_of (assembly, leg, middle[0], i, ends);
      for (guint end = 0; end < 2; end++)
        if (ends[end])
          add_lead (block, &lead, end);
    }
  block->across_mm = MAX (block->across_mm, MAX (block->spread_mm[0], block->spread_mm[1]));
  block->deep_mm = MAX (block->deep_mm, MAX (block->thick_mm[0], block->thick_mm[1]));
}

void
tl_box_reach_mm (const TlAssembly *assembly, double reach_mm[2])
{
  double middle[3];
  Block  block;

  find_middle (assembly, middle);
  read_block (assembly, middle, FALSE, &block);
  reach_mm[0] = block.reach_mm[0];
  reach_mm[1] = block.reach_mm[1];
}

/* --- the box --- */

double
tl_box_half_length_mm (const TlBoxLayout *self, double y_mm)
{
  double half = self->width_mm / 2.0, y = fabs (y_mm);

  if (y > half + EQUAL_MM)
    return half - y;
  return self->is_round ? sqrt (MAX (half * half - y * y, 0.0)) : self->length_mm / 2.0;
}

static gboolean
read_box (const TlAssembly *assembly, TlBoxLayout *self)
{
  const TlFact *shape = tl_joint_site_fact (assembly->joint, assembly->stock, TL_FIELD_SHAPE);
  double        width = site_number (assembly, TL_FIELD_INNER_WIDTH);
  double        height = site_number (assembly, TL_FIELD_INNER_HEIGHT);

  self->depth_mm = site_number (assembly, TL_FIELD_INNER_DEPTH);
  self->is_round = shape != NULL && g_strcmp0 (shape->word, "round") == 0;
  if (height <= 0.0)
    height = width;
  self->length_mm = self->is_round ? width : MAX (width, height);
  self->width_mm = self->is_round ? width : MIN (width, height);
  return width > 0.0 && self->depth_mm > 0.0;
}

static void
note_over (TlBoxThing *thing, TlBoxWay way, double over_mm)
{
  if (over_mm > thing->over_mm + EQUAL_MM)
    {
      thing->over_mm = over_mm;
      thing->over_way = way;
    }
}

static void
add_thing (TlBoxLayout *self, const TlBoxThing *thing)
{
  if (thing->over_mm > self->over_mm)
    {
      self->over_mm = thing->over_mm;
      self->over_way = thing->over_way;
    }
  g_array_append_val (self->things, *thing);
}

/* Devices hang from the cover; returns how deep they reach. */
static double
lay_devices (const TlAssembly *assembly, TlBoxLayout *self)
{
  guint  count = (guint) site_number (assembly, TL_FIELD_DEVICES);
  double size = limit_or (assembly, "room.device-size", 0.0),
         deep = limit_or (assembly, "room.device-depth", 0.0);

  if (count == 0 || size <= 0.0 || deep <= 0.0)
    return 0.0;
  for (guint i = 0; i < count; i++)
    {
      TlBoxThing thing = { .kind = TL_BOX_DEVICE, .joint = i };

      thing.x0_mm = (i - count / 2.0) * size;
      thing.x1_mm = thing.x0_mm + size;
      thing.y0_mm = -size / 2.0;
      thing.y1_mm = size / 2.0;
      thing.z1_mm = deep;
      note_over (&thing, TL_BOX_WAY_DEPTH, deep - self->depth_mm);
      note_over (&thing, TL_BOX_WAY_WIDTH, size - self->width_mm);
      note_over (&thing, TL_BOX_WAY_LENGTH, count * size - self->length_mm);
      add_thing (self, &thing);
    }
  return deep;
}

/* Thickness of what lies folded on the back: the rest of each lead beyond its bend, and the other conductors, the way
 * there and back. */
static double
spare_mm (const TlAssembly *assembly, const TlBoxLayout *self, const Block *block)
{
  double plan_mm2 = self->is_round ? G_PI / 4.0 * self->length_mm * self->length_mm
                                   : self->length_mm * self->width_mm;
  double other_mm = sqrt (4.0 * site_number (assembly, TL_FIELD_OTHER_SECTION));
  double others = site_number (assembly, TL_FIELD_OTHER_CONDUCTORS);
  double covered_mm2 = others * other_mm * 2.0 * self->length_mm,
         thick = others > 0.0 ? other_mm : 0.0;

  for (guint i = 0; i < block->n_leads; i++)
    {
      const Lead  *lead = &block->leads[i];
      const TlLeg *leg = tl_joint_leg (assembly->joint, lead->id);
      double free_mm = tl_leg_number (leg, assembly->stock, TL_FIELD_FREE_LENGTH, self->length_mm);
      double bend_mm = G_PI / 2.0 * (lead->radius_mm + lead->diameter_mm / 2.0);

      covered_mm2 += self->joints * lead->diameter_mm * MAX (free_mm - bend_mm, 0.0);
      thick = MAX (thick, lead->diameter_mm);
    }
  return thick * ceil (covered_mm2 / plan_mm2 - 1e-9);
}

/* --- rows --- */

static double
row_y_mm (const Layer *layer, guint row, double pitch_mm)
{
  guint grid = layer->grid_rows > 0 ? layer->grid_rows : layer->rows;

  return (layer->first_row + row - (grid - 1) / 2.0) * pitch_mm;
}

/* What row @row takes beyond the ends of the joint: bend, lanes of the layers before, and where leads turn along the wall
 * the lanes of its own further leads and of the other rows: equal at both ends, so that all rows are of one length. */
static double
end_mm (const Block *block, const Layer *layer, guint row, guint end)
{
  guint  passing = end == 0 ? layer->rows - 1 - row : row;
  double beside =
      layer->turns_back
          ? 0.0
          : block->beside_mm[end] + MAX (block->spread_mm[0], block->spread_mm[1]) * passing;

  return block->reach_mm[end] + layer->lane_mm[end] + beside;
}

/* How far across from the middle of its joint a bend along the wall reaches. */
static double
bend_far_mm (const Block *block)
{
  double far = 0.0;

  for (guint i = 0; i < block->n_leads; i++)
    far = MAX (far, block->leads[i].diameter_mm / 2.0 + block->leads[i].radius_mm);
  return far;
}

/* By how much a row is too long for the box where it lies. */
static double
row_over_mm (const TlBoxLayout *self, const Block *block, const Layer *layer, guint row,
             double y_mm)
{
  double left = end_mm (block, layer, row, 0), right = end_mm (block, layer, row, 1);
  double half = (block->length_mm + left + right) / 2.0,
         body = block->length_mm / 2.0 + fabs (left - right) / 2.0;
  double spread = MAX (block->spread_mm[0], block->spread_mm[1]) / 2.0;
  double far = self->is_round && !layer->turns_back ? MAX (spread, bend_far_mm (block)) : spread;

  return 2.0
         * MAX (half - tl_box_half_length_mm (self, fabs (y_mm) + far),
                body - tl_box_half_length_mm (self, fabs (y_mm) + block->across_mm / 2.0));
}

/* In the middle of the grid. */
static void
set_rows (Layer *layer, guint rows)
{
  layer->rows = rows;
  layer->first_row = layer->grid_rows > rows ? (layer->grid_rows - rows) / 2 : 0;
}

/* Most rows of which each goes in, not more than @wanted; 0 if not even one does. */
static guint
rows_of (const TlBoxLayout *self, const Block *block, const Layer *layer, guint wanted,
         double clearance_mm)
{
  double pitch = block->across_mm + clearance_mm;

  for (guint rows = MIN (wanted, layer->grid_rows > 0 ? layer->grid_rows : MOST_ROWS); rows > 0;
       rows--)
    {
      Layer    trial = *layer;
      gboolean fits = rows * pitch + clearance_mm <= self->width_mm + EQUAL_MM;

      set_rows (&trial, rows);
      for (guint row = 0; fits && row < rows; row++)
        {
          double y = row_y_mm (&trial, row, pitch);

          fits = row_over_mm (self, block, &trial, row, y) <= EQUAL_MM
                 && (trial.turns_back
                     || 2.0 * (fabs (y) + bend_far_mm (block)) <= self->width_mm + EQUAL_MM);
        }
      if (fits)
        return rows;
    }
  return 0;
}

/* Depth at which the bends of a layer end that turn towards the back. */
static double
bends_end_mm (const Block *block, double z_mm)
{
  double bend = 0.0;

  for (guint i = 0; i < block->n_leads; i++)
    bend = MAX (bend, block->leads[i].deep_mm + block->leads[i].radius_mm
                          + block->leads[i].diameter_mm / 2.0);
  return z_mm + block->deep_mm / 2.0 + bend;
}

static void
lay_leads (TlBoxLayout *self, const Block *block, const Layer *layer, const TlBoxThing *joint)
{
  double laid[2] = { 0.0, 0.0 }, y = (joint->y0_mm + joint->y1_mm) / 2.0;

  for (guint i = 0; i < block->n_leads; i++)
    {
      const Lead *lead = &block->leads[i];
      guint       end = lead->side > 0;
      double      half = lead->diameter_mm / 2.0, reach;
      TlBoxThing  thing = { .kind = TL_BOX_LEAD,
                            .joint = joint->joint,
                            .owner = lead->id,
                            .side = lead->side,
                            .diameter_mm = lead->diameter_mm,
                            .radius_mm = lead->radius_mm,
                            .turns_back = layer->turns_back,
                            .over_mm = joint->over_mm,
                            .over_way = joint->over_way };

      thing.mouth_x_mm = end ? joint->x1_mm : joint->x0_mm;
      thing.axis_y_mm = y - block->spread_mm[end] / 2.0 + laid[end] + half;
      thing.axis_z_mm = (joint->z0_mm + joint->z1_mm) / 2.0 + lead->deep_mm;
      if (layer->turns_back)
        thing.straight_mm =
            MAX (tl_box_half_length_mm (self, fabs (thing.axis_y_mm) + half) - layer->lane_mm[end]
                     - lead->side * thing.mouth_x_mm - lead->radius_mm - lead->diameter_mm,
                 0.0);
      else
        thing.straight_mm =
            block->beside_mm[end] + block->reach_mm[end] - lead->radius_mm - lead->diameter_mm
            - (end == 0 ? block->spread_mm[0] - laid[0] - lead->diameter_mm : laid[1]);
      laid[end] += lead->diameter_mm;
      reach = thing.straight_mm + lead->radius_mm + lead->diameter_mm;
      thing.x0_mm = end ? thing.mouth_x_mm : thing.mouth_x_mm - reach;
      thing.x1_mm = end ? thing.mouth_x_mm + reach : thing.mouth_x_mm;
      thing.y0_mm = thing.axis_y_mm - half - (layer->turns_back || end ? 0.0 : lead->radius_mm);
      thing.y1_mm = thing.axis_y_mm + half + (layer->turns_back || !end ? 0.0 : lead->radius_mm);
      thing.z0_mm = thing.axis_z_mm - half;
      thing.z1_mm = thing.axis_z_mm + half + (layer->turns_back ? lead->radius_mm : 0.0);
      if (!layer->turns_back && !self->is_round)
        note_over (&thing, TL_BOX_WAY_WIDTH,
                   MAX (-thing.y0_mm, thing.y1_mm) - self->width_mm / 2.0);
      add_thing (self, &thing);
    }
}

static void
lay_layer (TlBoxLayout *self, const Block *block, const Layer *layer, guint first,
           double clearance_mm)
{
  double pitch = block->across_mm + clearance_mm;

  for (guint row = 0; row < layer->rows; row++)
    {
      double     left = end_mm (block, layer, row, 0), right = end_mm (block, layer, row, 1);
      double     y = row_y_mm (layer, row, pitch), x = (left - right) / 2.0;
      guint      before = self->things->len;
      TlBoxThing thing = { .kind = TL_BOX_JOINT, .joint = first + row };
      gboolean   fits = TRUE;

      thing.x0_mm = x - block->length_mm / 2.0;
      thing.x1_mm = x + block->length_mm / 2.0;
      thing.y0_mm = y - block->across_mm / 2.0;
      thing.y1_mm = y + block->across_mm / 2.0;
      thing.z0_mm = layer->z_mm;
      thing.z1_mm = layer->z_mm + block->deep_mm;
      note_over (&thing, TL_BOX_WAY_DEPTH, thing.z1_mm - layer->back_mm);
      note_over (&thing, TL_BOX_WAY_WIDTH, block->across_mm - self->width_mm);
      note_over (&thing, TL_BOX_WAY_LENGTH, row_over_mm (self, block, layer, row, y));
      self->wanted_length_mm = MAX (self->wanted_length_mm, block->length_mm + left + right);
      add_thing (self, &thing);
      lay_leads (self, block, layer, &thing);
      for (guint i = before; i < self->things->len; i++)
        fits = fits && g_array_index (self->things, TlBoxThing, i).over_mm <= 0.0;
      self->fitting += fits;
    }
}

/* Layer by layer until all joints lie; the first that does not go in is the last that is laid. */
static void
lay_joints (TlBoxLayout *self, const Block *block, double front_mm, double back_mm,
            double clearance_mm)
{
  Layer  layer = { .z_mm = front_mm + clearance_mm, .back_mm = back_mm };
  guint  laid = 0;
  double bends = 0.0;

  while (laid < self->joints)
    {
      guint count;

      layer.turns_back = bends_end_mm (block, layer.z_mm) <= back_mm + EQUAL_MM;
      count = rows_of (self, block, &layer, self->joints - laid, clearance_mm);
      set_rows (&layer, MAX (count, 1));
      lay_layer (self, block, &layer, laid, clearance_mm);
      layer.grid_rows = MAX (layer.grid_rows, layer.rows);
      self->rows = MAX (self->rows, layer.rows);
      self->layers++;
      laid += layer.rows;
      layer.z_mm += block->deep_mm + clearance_mm;
      if (layer.turns_back)
        {
          bends = bends_end_mm (block, layer.z_mm - block->deep_mm - clearance_mm);
          for (guint end = 0; end < 2; end++)
            layer.lane_mm[end] += block->thick_mm[end];
        }
      if (self->over_mm > 0.0)
        break;
    }
  self->left_out = self->joints - laid;
  layer.z_mm +=
      ceil ((double) self->left_out / MAX (self->rows, 1)) * (block->deep_mm + clearance_mm)
      - clearance_mm;
  self->wanted_depth_mm = MAX (layer.z_mm, bends) + (self->depth_mm - back_mm);
}

static TlBoxLayout *
lay_out (const TlAssembly *assembly, gboolean on_side)
{
  TlBoxLayout *self = g_new0 (TlBoxLayout, 1);
  double       clearance = limit_or (assembly, "room.wall-clearance", 0.0), front, spare;
  Block        block;

  self->things = g_array_new (FALSE, FALSE, sizeof (TlBoxThing));
  self->joints = 1 + (guint) site_number (assembly, TL_FIELD_SAME_JOINTS);
  self->on_side = on_side;
  if (!read_box (assembly, self))
    return self;
  find_middle (assembly, self->middle_mm);
  read_block (assembly, self->middle_mm, on_side, &block);
  spare = spare_mm (assembly, self, &block);
  front = lay_devices (assembly, self);
  lay_joints (self, &block, front, self->depth_mm - MAX (spare, clearance), clearance);
  if (spare > 0.0)
    {
      TlBoxThing thing = { .kind = TL_BOX_SPARE,
                           .x0_mm = -self->length_mm / 2.0,
                           .x1_mm = self->length_mm / 2.0,
                           .y0_mm = -self->width_mm / 2.0,
                           .y1_mm = self->width_mm / 2.0,
                           .z0_mm = self->depth_mm - spare,
                           .z1_mm = self->depth_mm };

      note_over (&thing, TL_BOX_WAY_DEPTH, spare - self->depth_mm);
      add_thing (self, &thing);
    }
  return self;
}

TlBoxLayout *
tl_box_layout_new (const TlAssembly *assembly)
{
  TlBoxLayout *flat, *side;
  gboolean     side_is_better;

  g_return_val_if_fail (assembly != NULL, NULL);

  if (assembly->packed_length_mm <= 0.0 || assembly->bodies->len == 0)
    return NULL;
  flat = lay_out (assembly, FALSE);
  if (flat->length_mm <= 0.0 || flat->depth_mm <= 0.0)
    {
      tl_box_layout_free (flat);
      return NULL;
    }
  side = lay_out (assembly, TRUE);
  side_is_better = side->fitting > flat->fitting
                   || (side->fitting == flat->fitting && side->over_mm < flat->over_mm - EQUAL_MM);
  tl_box_layout_free (side_is_better ? flat : side);
  return side_is_better ? side : flat;
}

void
tl_box_layout_free (TlBoxLayout *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->things);
  g_free (self);
}
