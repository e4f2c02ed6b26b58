/* overlay-wet.c: where water could join two unlike metals: double waves from metal to metal, with drops.
 *
 * A pair that is closed (adhesive sleeve, compound) has its wave cut by a bar. The step in volts is that of the one
 * galvanic scale of the data; the length is that of the rim, or of the gap that would be bridged.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define MOST_ROWS 4u
#define COLUMN_PX 190.0

typedef struct
{
  guint    contact;
  gint     step_mV;
  gboolean is_closed;
  gboolean is_drawn;
  double   x, y;         /* middle of its wave, units */
  double   out_x, out_y; /* from which side water comes */
} Wet;

/* Waves nearer than this are one: their pairs stand in the list. */
#define APART_PX 13.0

/* --- which pairs --- */

static gboolean
potential_mV (const TlDrawing *d, const char *material, gint *mV)
{
  const TlMaterial *row =
      material != NULL ? tl_stock_material (d->assembly->stock, material) : NULL;
  const TlFact *fact = row != NULL ? tl_facts_get (row->facts, TL_FIELD_POTENTIAL_J) : NULL;

  if (fact == NULL)
    return FALSE;
  *mV = (gint) lround (fact->value.best);
  return TRUE;
}

static gboolean
wet_of (const TlDrawing *d, guint index, Wet *wet)
{
  const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, index);
  gint             a, b;

  if (!contact->is_metallic || !potential_mV (d, contact->surface_a, &a)
      || !potential_mV (d, contact->surface_b, &b) || a == b)
    return FALSE;
  *wet = (Wet){ .contact = index,
                .step_mV = ABS (a - b),
                .is_closed = contact->closure != TL_CLOSURE_NONE };
  return TRUE;
}

/* Open before closed, greater steps first. */
static gint
compare_wet (gconstpointer a, gconstpointer b)
{
  const Wet *p = a, *q = b;

  if (p->is_closed != q->is_closed)
    return p->is_closed ? 1 : -1;
  if (p->step_mV != q->step_mV)
    return p->step_mV > q->step_mV ? -1 : 1;
  return p->contact < q->contact ? -1 : 1;
}

static GArray *
all_wet (const TlDrawing *d)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Wet));

  for (guint i = 0; i < d->assembly->contacts->len; i++)
    {
      Wet wet;

      if (wet_of (d, i, &wet))
        g_array_append_val (all, wet);
    }
  g_array_sort (all, compare_wet);
  return all;
}

static guint
columns_of (const TlDrawing *d)
{
  return MAX ((guint) ((d->options.width - 30.0 * d->px) / (COLUMN_PX * d->px)), 1u);
}

guint
tl_overlay_wet_rows (const TlDrawing *d)
{
  g_autoptr (GArray) all = all_wet (d);
  guint columns = columns_of (d);

  return MIN ((all->len + columns - 1) / columns, MOST_ROWS);
}

/* --- words --- */

static char *
volts (const TlDrawing *d, gint step_mV)
{
  g_autofree char *figure = tl_language_number (d->language, step_mV / 1000.0, 2);

  return g_strdup_printf ("%s\u202fV", figure);
}

static char *
extent (const TlDrawing *d, const TlContact *contact)
{
  gboolean         is_gap = contact->kind == TL_CONTACT_MAY_BRIDGE;
  double           length = is_gap ? contact->distance_mm : contact->rim_mm;
  g_autofree char *figure = tl_language_number (d->language, length, length < 9.95 ? 1 : 0);

  return tl_wording_fill (is_gap ? tl_draw_text (d, TL_N_ ("gap {length} mm"))
                                 : tl_draw_text (d, TL_N_ ("rim {length} mm")),
                          "length", figure, NULL);
}

static const char *
closed_by (const TlDrawing *d, const TlContact *contact)
{
  switch (contact->closure)
    {
    case TL_CLOSURE_COMPOUND:
      return tl_draw_text (d, TL_N_ ("closed by compound"));
    case TL_CLOSURE_ADHESIVE:
      return tl_draw_text (d, TL_N_ ("closed by adhesive"));
    case TL_CLOSURE_NONE:
    default:
      return tl_draw_text (d, TL_N_ ("open to water"));
    }
}

static char *
pair (const TlDrawing *d, const TlContact *contact)
{
  guint a = tl_assembly_number (d->assembly, tl_assembly_body (d->assembly, contact->a)->owner);
  guint b = tl_assembly_number (d->assembly, tl_assembly_body (d->assembly, contact->b)->owner);

  return g_strdup_printf ("%u–%u", MIN (a, b), MAX (a, b));
}

char *
tl_overlay_wet_text (const TlDrawing *d, guint index)
{
  const TlContact *contact;
  Wet              wet;
  g_autofree char *names = NULL, *step = NULL, *length = NULL;

  if (index >= d->assembly->contacts->len || !wet_of (d, index, &wet))
    return NULL;
  contact = &g_array_index (d->assembly->contacts, TlContact, index);
  names = pair (d, contact);
  step = volts (d, wet.step_mV);
  length = extent (d, contact);
  return g_strdup_printf ("%s: %s, %s, %s", names, step, length, closed_by (d, contact));
}

/* --- a path --- */

/* One wave from (x0, y0) along the unit vector u, @off to its side. */
static void
wave (TlDrawing *d, TlInk ink, TlLineStyle line, double x0, double y0, double ux, double uy,
      double length, double off)
{
  guint  n = MAX ((guint) lround (length / (8.0 * d->px)), 2u);
  double step = length / n, swing = 3.4 * d->px;

  tl_path_begin (d);
  tl_path_move (d, x0 - uy * off, y0 + ux * off);
  for (guint i = 0; i < n; i++)
    {
      double bulge = off + (i % 2 == 0 ? swing : -swing), from = i * step, to = from + step;

      tl_path_curve (d, x0 + ux * (from + 0.36 * step) - uy * bulge,
                     y0 + uy * (from + 0.36 * step) + ux * bulge,
                     x0 + ux * (from + 0.64 * step) - uy * bulge,
                     y0 + uy * (from + 0.64 * step) + ux * bulge, x0 + ux * to - uy * off,
                     y0 + uy * to + ux * off);
    }
  tl_shape_line (d, ink, line);
}

/* A drop that hangs with its point up, its middle at x, y. */
static void
drop (TlDrawing *d, double x, double y)
{
  double r = 2.8 * d->px, top = y - 6.0 * d->px;

  tl_path_begin (d);
  tl_path_move (d, x, top);
  tl_path_curve (d, x + 0.5 * r, top + 0.9 * r, x + r, y - 0.5 * r, x + r, y + 0.2 * r);
  tl_path_curve (d, x + r, y + 1.4 * r, x - r, y + 1.4 * r, x - r, y + 0.2 * r);
  tl_path_curve (d, x - r, y - 0.5 * r, x - 0.5 * r, top + 0.9 * r, x, top);
  tl_path_close (d);
  tl_shape_line (d, TL_INK_SELECT, TL_LINE_EDGE);
}

/* @out_x, @out_y: to the side from which water comes, a unit vector across the wave. */
static void
path (TlDrawing *d, double x, double y, double ux, double uy, double length, double out_x,
      double out_y, gboolean is_closed)
{
  double px = d->px, x0 = x - ux * length / 2.0, y0 = y - uy * length / 2.0;
  double side = -uy * out_x + ux * out_y >= 0.0 ? 1.0 : -1.0;

  d->view = TL_VIEW_SECTION;
  /* on paper of its own, so that it is told from the patterns */
  wave (d, TL_INK_PAPER, TL_LINE_WATER_BED, x0, y0, ux, uy, length, side * 2.2 * px);
  wave (d, TL_INK_SELECT, TL_LINE_CUT, x0, y0, ux, uy, length, 0.0);
  wave (d, TL_INK_SELECT, TL_LINE_CUT, x0, y0, ux, uy, length, side * 4.4 * px);
  if (is_closed)
    {
      double cx = x + out_x * 2.2 * px, cy = y + out_y * 2.2 * px;

      tl_shape_segment (d, TL_INK_PAPER, TL_LINE_PLANE, cx - out_x * 10.0 * px - ux * 1.6 * px,
                        cy - out_y * 10.0 * px - uy * 1.6 * px,
                        cx + out_x * 10.0 * px - ux * 1.6 * px,
                        cy + out_y * 10.0 * px - uy * 1.6 * px);
      tl_shape_segment (d, TL_INK_PAPER, TL_LINE_PLANE, cx - out_x * 10.0 * px + ux * 1.6 * px,
                        cy - out_y * 10.0 * px + uy * 1.6 * px,
                        cx + out_x * 10.0 * px + ux * 1.6 * px,
                        cy + out_y * 10.0 * px + uy * 1.6 * px);
      tl_shape_segment (d, TL_INK_INK, TL_LINE_PLANE, cx - out_x * 10.0 * px,
                        cy - out_y * 10.0 * px, cx + out_x * 8.0 * px, cy + out_y * 10.0 * px);
      return;
    }
  for (int i = -1; i <= 1; i += 2)
    drop (d, x + out_x * 15.0 * px + ux * i * 5.0 * px, y + out_y * 15.0 * px + uy * i * 5.0 * px);
}

/* The face of a contact that is farthest out on the right, where water comes to its rim. */
static const TlFace *
face_of (const TlDrawing *d, guint contact)
{
  const TlFace *found = NULL;

  for (guint i = 0; i < d->faces->len; i++)
    {
      const TlFace *face = &g_array_index (d->faces, TlFace, i);

      if (face->contact == contact
          && (found == NULL || MAX (face->x0, face->x1) > MAX (found->x0, found->x1)))
        found = face;
    }
  return found;
}

static gboolean
has_lead (const TlBody *body, int side)
{
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);

  return (solid->kind == TL_SOLID_EYE || solid->kind == TL_SOLID_PLATE)
         && side * cos (solid->direction_deg * G_PI / 180.0) > 0.94;
}

static gboolean
takes_place (const GArray *all, Wet *wet, double x, double y, double out_x, double out_y,
             double apart)
{
  for (guint i = 0; i < all->len; i++)
    {
      const Wet *other = &g_array_index (all, Wet, i);

      if (other->is_drawn && hypot (other->x - x, other->y - y) < apart)
        return FALSE;
    }
  wet->is_drawn = TRUE;
  wet->x = x;
  wet->y = y;
  wet->out_x = out_x;
  wet->out_y = out_y;
  return TRUE;
}

/* Down the outside of a stack, from the side of one body to that of the other, where no lead is in the way. */
static void
path_outside (TlDrawing *d, const GArray *all, Wet *wet, const TlContact *contact,
              const TlFace *face)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  const TlBody *a = tl_assembly_body (d->assembly, contact->a),
               *b = tl_assembly_body (d->assembly, contact->b);
  const TlSolid *p = &g_array_index (a->solids, TlSolid, 0),
                *q = &g_array_index (b->solids, TlSolid, 0);
  int    side = has_lead (a, 1) || has_lead (b, 1) ? -1 : 1;
  double reach = MIN (p->outer_mm, q->outer_mm) / 2.0 * view->scale;
  double each =
      MIN (MIN (p->end_mm - p->start_mm, q->end_mm - q->start_mm) * view->scale, 11.0 * d->px);
  double x = view->x + side * (reach + 3.0 * d->px), y = (face->y0 + face->y1) / 2.0;

  if (takes_place (all, wet, x, y, side, 0.0, 4.0 * d->px))
    path (d, x, y, 0.0, 1.0, MAX (2.0 * each, 16.0 * d->px), side, 0.0, wet->is_closed);
}

/* Across a gap, from metal to metal. */
static void
path_across (TlDrawing *d, const GArray *all, Wet *wet, const TlFace *face)
{
  double   length = hypot (face->x1 - face->x0, face->y1 - face->y0), px = d->px;
  double   x = (face->x0 + face->x1) / 2.0, y = (face->y0 + face->y1) / 2.0, ux = 1.0, uy = 0.0;
  gboolean is_upright;

  if (length > 1e-6)
    {
      ux = (face->x1 - face->x0) / length;
      uy = (face->y1 - face->y0) / length;
    }
  is_upright = fabs (uy) > fabs (ux);
  if (takes_place (all, wet, x, y, is_upright ? 1.0 : 0.0, is_upright ? 0.0 : -1.0, APART_PX * px))
    path (d, x, y, ux, uy, MAX (length, 16.0 * px), wet->out_x, wet->out_y, wet->is_closed);
}

static void
path_on_face (TlDrawing *d, const GArray *all, Wet *wet, const TlFace *face)
{
  const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, wet->contact);
  double           length = hypot (face->x1 - face->x0, face->y1 - face->y0), px = d->px;
  double           x = (face->x0 + face->x1) / 2.0, y = (face->y0 + face->y1) / 2.0;
  double           out = y > d->views[TL_VIEW_SECTION].y ? 1.0 : -1.0;

  /* an adhesive sleeve has its bars at its mouths */
  if (contact->closure == TL_CLOSURE_ADHESIVE && d->assembly->family == TL_FAMILY_SLEEVE)
    return;
  if (contact->kind == TL_CONTACT_MAY_BRIDGE)
    path_across (d, all, wet, face);
  else if (d->assembly->family == TL_FAMILY_STACK)
    path_outside (d, all, wet, contact, face);
  else if (takes_place (all, wet, x, y, 0.0, out, APART_PX * px))
    path (d, x, y, 1.0, 0.0, MAX (MIN (length, 40.0 * px), 24.0 * px), 0.0, out, wet->is_closed);
}

/* The step beside its wave, where there is room: all of them stand in the list. */
static void
label_path (TlDrawing *d, const Wet *wet)
{
  static const double away_px[][2] = {
    { 40.0, 0.0 }, { 40.0, 7.0 }, { 40.0, -7.0 }, { -34.0, 0.0 }, { 40.0, 15.0 }
  };
  g_autofree char *step = volts (d, wet->step_mV);

  for (guint i = 0; i < G_N_ELEMENTS (away_px); i++)
    {
      double along = away_px[i][0] * d->px, across = away_px[i][1] * d->px;

      if (wet->out_y != 0.0 && away_px[i][0] > 0.0)
        along *= 0.75; /* above and below text is less wide */
      if (tl_overlay_label (d, step, wet->x + wet->out_x * along + fabs (wet->out_y) * across,
                            wet->y + wet->out_y * along + fabs (wet->out_x) * across, FALSE))
        return;
    }
}

/* --- mouths of a sealing sleeve --- */

static void
mouths (TlDrawing *d)
{
  const TlSealFigures *seal = &d->assembly->seal;
  const TlView        *view = &d->views[TL_VIEW_SECTION];
  const TlBody        *body = seal->seal != NULL
                                  ? tl_assembly_find_body (d->assembly, seal->seal, TL_BODY_SEAL, NULL)
                                  : NULL;

  if (body == NULL || body->solids->len == 0 || d->assembly->family != TL_FAMILY_SLEEVE)
    return;
  for (guint i = 0; i < 2; i++)
    {
      TlSleeveShape shape;
      double        x_mm = i == 0 ? tl_solid_start (body) : tl_solid_end (body), top = 0.0;

      tl_sleeve_shape (d, &shape);
      for (guint k = 0; k < shape.n_insulations; k++)
        if (x_mm >= shape.insulations[k].start_mm - 1.0
            && x_mm <= shape.insulations[k].end_mm + 1.0)
          top = MIN (top, tl_sleeve_rod_at (&shape.insulations[k], x_mm)
                              - shape.insulations[k].radius_mm);
      path (d, view->x + x_mm * view->scale, view->y + top * view->scale, 1.0, 0.0, 32.0 * d->px,
            0.0, -1.0, seal->closed[i]);
    }
}

/* --- band --- */

static void
list (TlDrawing *d, const GArray *all, double y)
{
  double x = 22.0 * d->px, right = d->options.width - 14.0 * d->px;
  guint  columns = columns_of (d), cells = columns * MOST_ROWS;

  d->view = TL_VIEW_SHEET;
  tl_overlay_text (
      d, TL_INK_INK,
      all->len == 0
          ? tl_draw_text (d, TL_N_ ("No two unlike metals lie where water could join them."))
          : tl_draw_text (d,
                          TL_N_ ("Double wave: where water could join two metals. A bar: closed.")),
      x, y + 18.0 * d->px, right, TRUE);
  for (guint i = 0; i < MIN (all->len, cells); i++)
    {
      const Wet       *wet = &g_array_index (all, Wet, i);
      const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, wet->contact);
      g_autofree char *names = pair (d, contact), *step = volts (d, wet->step_mV),
                      *length = extent (d, contact), *text = NULL;
      double left = x + (i % columns) * COLUMN_PX * d->px;

      if (i + 1 == cells && all->len > cells)
        {
          g_autofree char *more = g_strdup_printf ("%u", all->len - i);

          text =
              tl_wording_fill (tl_draw_text (d, TL_N_ ("and {count} more")), "count", more, NULL);
        }
      else
        text = g_strdup_printf ("%s  %s, %s", names, step,
                                wet->is_closed ? closed_by (d, contact) : length);
      tl_overlay_text (d, wet->is_closed ? TL_INK_MUTED : TL_INK_INK, text, left,
                       y + (36.0 + 16.0 * (i / columns)) * d->px,
                       MIN (left + (COLUMN_PX - 8.0) * d->px, right), FALSE);
    }
}

/* Gaps about the shank of a bolt lie too near each other for figures: these stand in the list. */
static gboolean
is_labelled (const TlDrawing *d, const Wet *wet)
{
  return d->assembly->family != TL_FAMILY_STACK
         || g_array_index (d->assembly->contacts, TlContact, wet->contact).kind
                != TL_CONTACT_MAY_BRIDGE;
}

void
tl_overlay_wet (TlDrawing *d, double y)
{
  g_autoptr (GArray) all = all_wet (d);

  for (guint i = 0; d->options.show_section && i < all->len; i++)
    {
      Wet          *wet = &g_array_index (all, Wet, i);
      const TlFace *face = face_of (d, wet->contact);

      if (face != NULL)
        path_on_face (d, all, wet, face);
    }
  for (guint i = 0; i < all->len; i++)
    if (g_array_index (all, Wet, i).is_drawn && is_labelled (d, &g_array_index (all, Wet, i)))
      label_path (d, &g_array_index (all, Wet, i));
  if (d->options.show_section)
    mouths (d);
  if (y < d->options.height)
    list (d, all, y);
}
