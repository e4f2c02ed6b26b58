/* box-shapes.c: box, joints, leads and devices as shapes of one view.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/box-view-private.h"

#include <math.h>

#define HATCH_MM 1.3 /* pitch, on the medium */

/* --- places --- */

void
tl_box_to_units (const TlBoxView *view, double along_mm, double across_mm, double *x, double *y)
{
  *x = view->x + view->scale * along_mm;
  *y = view->y + view->scale * across_mm;
}

static void
rectangle (const TlBoxView *view, double x0, double a0, double x1, double a1)
{
  double left, top;

  tl_box_to_units (view, x0, a0, &left, &top);
  cairo_rectangle (view->cr, left, top, view->scale * (x1 - x0), view->scale * (a1 - a0));
}

static void
thing_rectangle (const TlBoxView *view, const TlBoxThing *thing)
{
  if (view->across == 1)
    rectangle (view, thing->x0_mm, thing->y0_mm, thing->x1_mm, thing->y1_mm);
  else
    rectangle (view, thing->x0_mm, thing->z0_mm, thing->x1_mm, thing->z1_mm);
}

void
tl_box_line (const TlBoxView *view, TlColour colour, double width_mm)
{
  tl_paint_set_colour (view->cr, colour);
  cairo_set_line_width (view->cr, width_mm * view->unit * view->palette->line_ratio);
  cairo_stroke (view->cr);
}

/* --- the box --- */

void
tl_box_outline (const TlBoxView *view, double beyond_mm)
{
  const TlBoxLayout *layout = view->layout;
  double             half = layout->length_mm / 2.0 + beyond_mm;

  cairo_new_path (view->cr);
  if (view->across == 2)
    rectangle (view, -half, 0.0, half, layout->depth_mm + beyond_mm);
  else if (layout->is_round)
    cairo_arc (view->cr, view->x, view->y, view->scale * half, 0.0, 2.0 * G_PI);
  else
    rectangle (view, -half, -layout->width_mm / 2.0 - beyond_mm, half,
               layout->width_mm / 2.0 + beyond_mm);
}

/* Paper inside, wall as a thick line whose inner edge is the inner size, cover thin. */
void
tl_box_paint_walls (const TlBoxView *view)
{
  double wall_mm = 0.7, beyond = 0.5 * wall_mm * view->unit / view->scale;

  tl_box_outline (view, 0.0);
  tl_paint_set_colour (view->cr, view->palette->paper);
  cairo_fill (view->cr);
  tl_box_outline (view, beyond);
  tl_box_line (view, view->palette->ink, wall_mm);
  if (view->across == 2)
    {
      cairo_new_path (view->cr);
      rectangle (view, -view->layout->length_mm / 2.0 - 4.0 * beyond, -beyond,
                 view->layout->length_mm / 2.0 + 4.0 * beyond, beyond);
      tl_box_line (view, view->palette->ink, 0.35);
    }
}

/* --- the joint's bodies from outside --- */

static gboolean
is_shown (const TlAssembly *assembly, const TlBody *body)
{
  static const TlBodyRole hidden[] = { TL_BODY_INSULATION, TL_BODY_ADHESIVE, TL_BODY_COMPOUND,
                                       TL_BODY_FILLER };

  for (guint i = 0; i < G_N_ELEMENTS (hidden); i++)
    if (body->role == hidden[i])
      return FALSE;
  return body->solids->len > 0
         && (body->role != TL_BODY_CORE || assembly->family == TL_FAMILY_SPLICE);
}

/* What lies outside is painted last; in a stack, what is nearest to the eye. */
static double
order_of (const TlBoxView *view, const TlBody *body)
{
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);

  if (body->role == TL_BODY_SEAL || body->role == TL_BODY_CAP || body->role == TL_BODY_HOUSING)
    return 1e6;
  if (view->assembly->family == TL_FAMILY_STACK)
    return view->across == 1 && !view->layout->on_side
               ? -(solid->kind == TL_SOLID_ROD ? solid->z0_mm : solid->start_mm)
               : -solid->outer_mm;
  return solid->outer_mm;
}

static gint
compare_bodies (gconstpointer a, gconstpointer b, gpointer data)
{
  double one = order_of (data, *(const TlBody *const *) a),
         two = order_of (data, *(const TlBody *const *) b);

  return one < two ? -1 : one > two;
}

/* A straight rod between two points of the view, as wide as it is thick; a dot if it is seen from its end. */
static void
rod_path (const TlBoxView *view, double x0, double a0, double x1, double a1, double thick_mm)
{
  double length = hypot (x1 - x0, a1 - a0), half = view->scale * thick_mm / 2.0, ux, uy, vx, vy, nx,
         ny;

  tl_box_to_units (view, x0, a0, &ux, &uy);
  tl_box_to_units (view, x1, a1, &vx, &vy);
  if (length < 0.05)
    {
      cairo_arc (view->cr, ux, uy, half, 0.0, 2.0 * G_PI);
      return;
    }
  nx = -half * (a1 - a0) / length;
  ny = half * (x1 - x0) / length;
  cairo_move_to (view->cr, ux + nx, uy + ny);
  cairo_line_to (view->cr, vx + nx, vy + ny);
  cairo_line_to (view->cr, vx - nx, vy - ny);
  cairo_line_to (view->cr, ux - nx, uy - ny);
  cairo_close_path (view->cr);
}

/* A ring, disc, hexagon or flat looked at along its axis. */
static void
face_path (const TlBoxView *view, const TlSolid *solid, double x_mm, double a_mm)
{
  double x, y, radius = view->scale * solid->outer_mm / 2.0;

  tl_box_to_units (view, x_mm, a_mm, &x, &y);
  if (solid->kind == TL_SOLID_PLATE)
    {
      double way = solid->direction_deg * G_PI / 180.0;

      rod_path (view, x_mm, a_mm, x_mm + solid->length_mm * cos (way),
                a_mm + solid->length_mm * sin (way), solid->outer_mm);
    }
  if (solid->kind == TL_SOLID_HEX)
    {
      for (guint i = 0; i < 6; i++)
        cairo_line_to (view->cr, x + radius / cos (G_PI / 6.0) * cos (i * G_PI / 3.0),
                       y + radius / cos (G_PI / 6.0) * sin (i * G_PI / 3.0));
      cairo_close_path (view->cr);
      return;
    }
  cairo_new_sub_path (view->cr);
  cairo_arc (view->cr, x, y, radius, 0.0, 2.0 * G_PI);
  if (solid->inner_mm > 0.0 && solid->inner_mm < solid->outer_mm)
    {
      cairo_new_sub_path (view->cr);
      cairo_arc_negative (view->cr, x, y, view->scale * solid->inner_mm / 2.0, 2.0 * G_PI, 0.0);
    }
}

static void
solid_path (const TlBoxView *view, const TlSolid *solid, double x_mm, double a_mm)
{
  const TlBoxLayout *layout = view->layout;
  gboolean           is_stack = view->assembly->family == TL_FAMILY_STACK;
  guint              down =
      layout->on_side ? 3 - view->across : view->across; /* axis of the assembly that runs down */
  const double *middle = layout->middle_mm;
  double        half = solid->outer_mm / 2.0;

  if (solid->kind == TL_SOLID_ROD)
    {
      double from[3] = { solid->x0_mm, solid->y0_mm, solid->z0_mm },
             to[3] = { solid->x1_mm, solid->y1_mm, solid->z1_mm };

      rod_path (view, x_mm + from[0] - middle[0], a_mm + from[down] - middle[down],
                x_mm + to[0] - middle[0], a_mm + to[down] - middle[down], solid->outer_mm);
    }
  else if (is_stack && down == 1)
    face_path (view, solid, x_mm + solid->u_mm - middle[0], a_mm + solid->v_mm - middle[1]);
  else if (is_stack)
    rectangle (view, x_mm + solid->u_mm - middle[0] - half, a_mm + solid->start_mm - middle[2],
               x_mm + solid->u_mm - middle[0] + half, a_mm + solid->end_mm - middle[2]);
  else
    {
      double off = (down == 1 ? solid->u_mm : solid->v_mm) - middle[down];

      if (solid->kind == TL_SOLID_BLOCK && down == 1)
        half = solid->inner_mm / 2.0;
      rectangle (view, x_mm + solid->start_mm - middle[0], a_mm + off - half,
                 x_mm + solid->end_mm - middle[0], a_mm + off + half);
    }
}

void
tl_box_paint_joint (const TlBoxView *view, const TlBoxThing *thing)
{
  g_autoptr (GPtrArray) bodies = g_ptr_array_new ();
  double x = (thing->x0_mm + thing->x1_mm) / 2.0;
  double a =
      view->across == 1 ? (thing->y0_mm + thing->y1_mm) / 2.0 : (thing->z0_mm + thing->z1_mm) / 2.0;

  for (guint i = 0; i < view->assembly->bodies->len; i++)
    if (is_shown (view->assembly, view->assembly->bodies->pdata[i]))
      g_ptr_array_add (bodies, view->assembly->bodies->pdata[i]);
  g_ptr_array_sort_with_data (bodies, compare_bodies, (gpointer) view);
  cairo_save (view->cr);
  cairo_new_path (view->cr);
  thing_rectangle (view, thing);
  cairo_clip (view->cr);
  for (guint i = 0; i < bodies->len; i++)
    {
      const TlBody *body = bodies->pdata[i];

      for (guint k = 0; k < body->solids->len; k++)
        {
          cairo_new_path (view->cr);
          solid_path (view, &g_array_index (body->solids, TlSolid, k), x, a);
          tl_paint_look (view->cr, view->palette, body->look, FALSE, view->unit, 0.6);
          tl_box_line (view, view->palette->ink, 0.18);
        }
    }
  cairo_restore (view->cr);
  /* Its block, which is what was laid down. */
  cairo_new_path (view->cr);
  thing_rectangle (view, thing);
  tl_box_line (view, view->palette->hair, 0.15);
}

/* --- leads --- */

/* A point on the axis that is seen from the cover, well away from the joint. */
void
tl_box_lead_point (const TlBoxView *view, const TlBoxThing *thing, double *x, double *y)
{
  double reach = thing->radius_mm + thing->diameter_mm / 2.0,
         share = thing->turns_back ? 1.0 : sqrt (0.5);

  tl_box_to_units (
      view, thing->mouth_x_mm + thing->side * (thing->straight_mm + share * reach),
      thing->axis_y_mm + (thing->turns_back ? 0.0 : thing->side * (1.0 - share) * reach), x, y);
}

/* Axis of a lead: straight from the mouth, a quarter turn, on to the wall or to the back. */
static void
lead_path (const TlBoxView *view, const TlBoxThing *thing)
{
  const TlBoxLayout *layout = view->layout;
  double reach = thing->side * (thing->radius_mm + thing->diameter_mm / 2.0), turn, down, x, y, cx,
         cy;
  double   a = view->across == 1 ? thing->axis_y_mm : thing->axis_z_mm;
  gboolean shows_bend = (view->across == 2) == thing->turns_back;

  cairo_new_path (view->cr);
  tl_box_to_units (view, thing->mouth_x_mm, a, &x, &y);
  cairo_move_to (view->cr, x, y);
  tl_box_to_units (view, thing->mouth_x_mm + thing->side * thing->straight_mm, a, &x, &y);
  cairo_line_to (view->cr, x, y);
  tl_box_to_units (view, thing->mouth_x_mm + thing->side * thing->straight_mm + reach, a, &cx, &cy);
  if (!shows_bend)
    {
      cairo_line_to (view->cr, cx, cy);
      return;
    }
  /* towards the back, and along the wall at the right end: downwards in the view */
  down = thing->turns_back || thing->side > 0 ? 1.0 : -1.0;
  turn = view->scale * fabs (reach) * down;
  cairo_curve_to (view->cr, x + 0.5523 * (cx - x), y, cx, y + turn - 0.5523 * turn, cx, y + turn);
  if (thing->turns_back)
    tl_box_to_units (view, 0.0, MAX (layout->depth_mm, thing->z1_mm), &x, &y);
  else if (layout->is_round)
    y = y + turn + down * view->scale * thing->diameter_mm;
  else
    tl_box_to_units (view, 0.0, down * layout->width_mm / 2.0, &x, &y);
  if ((y - (cy + turn)) * down > 0.0)
    cairo_line_to (view->cr, cx, y);
}

void
tl_box_paint_lead (const TlBoxView *view, const TlBoxThing *thing)
{
  double   thick = view->scale * thing->diameter_mm, edge = 0.2 * view->unit;
  gboolean is_end = view->across == 1 && thing->turns_back;

  cairo_save (view->cr);
  if (thing->over_mm <= 0.0)
    {
      tl_box_outline (view, 0.0);
      cairo_clip (view->cr);
    }
  cairo_set_line_cap (view->cr, is_end ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  lead_path (view, thing);
  tl_paint_set_colour (view->cr, view->palette->ink);
  cairo_set_line_width (view->cr, thick);
  cairo_stroke_preserve (view->cr);
  tl_paint_set_colour (view->cr, view->palette->tint[TL_LOOK_INSULATION]);
  cairo_set_line_width (view->cr, MAX (thick - 2.0 * edge, 0.3 * thick));
  cairo_stroke (view->cr);
  if (is_end)
    {
      double x, y;

      /* It goes on into the depth. */
      tl_box_lead_point (view, thing, &x, &y);
      cairo_new_path (view->cr);
      cairo_arc (view->cr, x, y, 0.5 * thick - 0.5 * edge, 0.0, 2.0 * G_PI);
      tl_box_line (view, view->palette->ink, 0.2);
      cairo_arc (view->cr, x, y, 0.14 * thick, 0.0, 2.0 * G_PI);
      tl_paint_set_colour (view->cr, view->palette->ink);
      cairo_fill (view->cr);
    }
  cairo_restore (view->cr);
}

/* --- devices, spare length --- */

void
tl_box_paint_device (const TlBoxView *view, const TlBoxThing *thing)
{
  const double dashes[] = { 1.6 * view->unit, 0.8 * view->unit };

  cairo_new_path (view->cr);
  thing_rectangle (view, thing);
  if (view->across == 2)
    {
      tl_paint_look (view->cr, view->palette, TL_LOOK_POLYMER, FALSE, view->unit, 0.6);
      tl_box_line (view, view->palette->ink, 0.25);
      return;
    }
  /* It hangs before everything else: only its edge. */
  cairo_save (view->cr);
  cairo_set_dash (view->cr, dashes, 2, 0.0);
  tl_box_line (view, view->palette->ink, 0.25);
  cairo_restore (view->cr);
}

/* Strands of lead that lie folded on the back, seen from their ends. */
void
tl_box_paint_spare (const TlBoxView *view, const TlBoxThing *thing)
{
  double thick = 0.0;

  if (view->across != 2)
    return;
  for (guint i = 0; i < view->layout->things->len; i++)
    thick = MAX (thick, g_array_index (view->layout->things, TlBoxThing, i).diameter_mm);
  if (thick <= 0.0)
    thick = thing->z1_mm - thing->z0_mm;
  cairo_save (view->cr);
  tl_box_outline (view, 0.0);
  cairo_clip (view->cr);
  for (double z = thing->z1_mm - thick / 2.0; z > thing->z0_mm; z -= thick)
    for (double along = thing->x0_mm + 2.0 * thick; along < thing->x1_mm - 1.5 * thick;
         along += thick)
      {
        double x, y;

        tl_box_to_units (view, along, z, &x, &y);
        cairo_new_path (view->cr);
        cairo_arc (view->cr, x, y, 0.42 * view->scale * thick, 0.0, 2.0 * G_PI);
        tl_paint_set_colour (view->cr, view->palette->tint[TL_LOOK_INSULATION]);
        cairo_fill_preserve (view->cr);
        tl_box_line (view, view->palette->muted, 0.12);
      }
  cairo_restore (view->cr);
}

/* --- what does not go in --- */

void
tl_box_hatch (const TlBoxView *view, const TlBoxThing *thing)
{
  double x0, y0, x1, y1, pitch = HATCH_MM * view->unit;

  cairo_save (view->cr);
  cairo_new_path (view->cr);
  thing_rectangle (view, thing);
  cairo_path_extents (view->cr, &x0, &y0, &x1, &y1);
  cairo_clip (view->cr);
  for (double x = x0 - (y1 - y0); x < x1; x += pitch)
    {
      cairo_move_to (view->cr, x, y1);
      cairo_line_to (view->cr, x + (y1 - y0), y0);
    }
  tl_box_line (view, view->palette->severity[TL_SEVERITY_CHANGE], 0.2);
  cairo_restore (view->cr);
  cairo_new_path (view->cr);
  thing_rectangle (view, thing);
  tl_box_line (view, view->palette->severity[TL_SEVERITY_CHANGE], 0.4);
}

void
tl_box_mark_change (const TlBoxView *view, const TlBoxThing *thing)
{
  double x, y, size = 1.25 * view->size;
  double a =
      view->across == 1 ? (thing->y0_mm + thing->y1_mm) / 2.0 : (thing->z0_mm + thing->z1_mm) / 2.0;

  tl_box_to_units (view, (thing->x0_mm + thing->x1_mm) / 2.0, a, &x, &y);
  cairo_new_path (view->cr);
  cairo_arc (view->cr, x, y, 0.75 * size, 0.0, 2.0 * G_PI);
  tl_paint_set_colour (view->cr, view->palette->paper);
  cairo_fill (view->cr);
  tl_paint_mark (view->cr, view->palette, TL_MARK_CHANGE, x, y, size);
}
