/* faces.c: contacts as lines: on the face where bodies touch, across the gap where one may be bridged.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

typedef struct
{
  double r0, r1, z0, z1; /* half plane of the section, right of the axis */
} Box;

/* Pairs nearer than this are drawn as touching. */
#define TOUCH_MM 0.02

static gboolean
box_of (const TlDrawing *d, const TlBody *body, int side, Box *box)
{
  const TlSolid *solid;
  double         shift = tl_stack_shift_mm (d, body->owner),
         end_shift = body->role == TL_BODY_SHANK ? d->opened_mm : shift, off;

  if (body->solids->len == 0)
    return FALSE;
  solid = &g_array_index (body->solids, TlSolid, 0);
  if (solid->kind == TL_SOLID_ROD)
    return FALSE;
  off = side * solid->u_mm;
  *box = (Box){ MAX (solid->inner_mm / 2.0 + off, 0.0), solid->outer_mm / 2.0 + off,
                solid->start_mm + shift, solid->end_mm + end_shift };
  if (body->role == TL_BODY_HEAD)
    box->r0 = 0.0;
  return box->r1 > box->r0;
}

/* Line of a contact between two boxes, (r, z) to (r, z); %FALSE if they are not beside each other. */
static gboolean
line_between (const Box *a, const Box *b, const TlContact *contact, double *r0, double *z0,
              double *r1, double *z1)
{
  double r_low = MAX (a->r0, b->r0), r_high = MIN (a->r1, b->r1), z_low = MAX (a->z0, b->z0),
         z_high = MIN (a->z1, b->z1);
  double gap_r = r_low - r_high, gap_z = z_low - z_high;

  if (gap_r < -TOUCH_MM && gap_z > -TOUCH_MM)
    {
      if (gap_z < TOUCH_MM)
        {
          double inset = contact->is_line ? 0.3 * (r_high - r_low) : 0.0;

          *r0 = r_low + inset;
          *r1 = r_high - inset;
          *z0 = *z1 = (z_low + z_high) / 2.0;
        }
      else
        {
          *r0 = *r1 = CLAMP (fabs (contact->at_x_mm), r_low, r_high);
          *z0 = z_high;
          *z1 = z_low;
        }
      return TRUE;
    }
  if (gap_z < -TOUCH_MM && gap_r > -TOUCH_MM)
    {
      *z0 = *z1 = (z_low + z_high) / 2.0;
      *r0 = r_high;
      *r1 = r_low;
      if (gap_r < TOUCH_MM)
        {
          *r0 = *r1 = (r_low + r_high) / 2.0;
          *z0 = z_low;
          *z1 = z_high;
        }
      return TRUE;
    }
  if (gap_r >= -TOUCH_MM && gap_z >= -TOUCH_MM)
    {
      *r0 = r_high;
      *r1 = r_low;
      *z0 = z_high;
      *z1 = z_low;
      return TRUE;
    }
  return FALSE;
}

/* A gap that is sound where it is drawn has its line and no mark of its own: marks are for faces that carry, and for
 * whatever is worse than sound. */
static gboolean
has_own_mark (const TlDrawing *d, guint index, TlSeverity severity, gboolean is_near)
{
  const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, index);

  return severity > TL_SEVERITY_SOUND || contact->kind == TL_CONTACT_PRESSED || is_near;
}

static void
add_face (TlDrawing *d, guint index, double x0, double y0, double x1, double y1, gboolean has_ring,
          gboolean is_marked)
{
  TlSeverity severity = TL_SEVERITY_SOUND;
  gboolean   has_mark = tl_verdict_of_contact (d->verdict, index, &severity);
  gboolean   is_near =
      (gint) index == d->options.hovered_contact || (gint) index == d->options.selected_contact;
  TlFace face = { index,
                  x0,
                  y0,
                  x1,
                  y1,
                  has_mark && is_marked && has_own_mark (d, index, severity, is_near),
                  (TlMark) severity };
  double target = 8.0 * d->px;

  if (!isfinite (x0 + y0 + x1 + y1))
    return;
  if (hypot (x1 - x0, y1 - y0) < 3.0 * d->px)
    {
      /* a gap too small to be seen is drawn so long that its style can be told */
      double   half = 1.5 * d->px;
      gboolean level = fabs (x1 - x0) >= fabs (y1 - y0);

      x0 -= level ? half : 0.0;
      x1 += level ? half : 0.0;
      y0 -= level ? 0.0 : half;
      y1 += level ? 0.0 : half;
    }
  if (d->options.overlay != TL_OVERLAY_NONE)
    face.has_mark = FALSE; /* it can still be met, but the overlay has the page */
  else if (has_mark)
    {
      TlShape *shape = tl_shape_contact (d, (TlMark) severity, x0, y0, x1, y1);

      shape->contact = (gint) index;
      shape->is_hovered = is_near;
      if (has_ring)
        {
          tl_shape_dot (d, TL_INK_PAPER, (x0 + x1) / 2.0, (y0 + y1) / 2.0, 3.0 * d->px)->contact =
              (gint) index;
          tl_path_begin (d);
          tl_path_circle (d, (x0 + x1) / 2.0, (y0 + y1) / 2.0, 3.0 * d->px);
          shape = tl_shape_line (d, TL_INK_SEVERITY, TL_LINE_EDGE);
          shape->mark = (TlMark) severity;
          shape->contact = (gint) index;
        }
    }
  g_array_append_val (d->faces, face);
  tl_drawing_add_item (d, TL_ITEM_CONTACT, NULL, index, MIN (x0, x1) - target / 2.0,
                       MIN (y0, y1) - target / 2.0, fabs (x1 - x0) + target,
                       fabs (y1 - y0) + target);
}

static void
stack_face (TlDrawing *d, guint index, const TlContact *contact)
{
  const TlBody *a = tl_assembly_body (d->assembly, contact->a),
               *b = tl_assembly_body (d->assembly, contact->b);
  const TlView *view = &d->views[TL_VIEW_SECTION];
  gboolean      has_ring = contact->kind == TL_CONTACT_TOUCHING;
  gboolean      is_drawn = FALSE;

  /* what an open place holds apart does not touch while it is open */
  if (d->stack != NULL
      && fabs (tl_stack_shift_mm (d, a->owner) - tl_stack_shift_mm (d, b->owner)) > TOUCH_MM)
    return;
  for (int side = -1; side <= 1; side += 2)
    {
      Box    p, q;
      double r0, z0, r1, z1;

      if (!box_of (d, a, side, &p) || !box_of (d, b, side, &q)
          || !line_between (&p, &q, contact, &r0, &z0, &r1, &z1))
        continue;
      add_face (d, index, view->x + side * r0 * view->scale, view->y + z0 * view->scale,
                view->x + side * r1 * view->scale, view->y + z1 * view->scale, has_ring, side > 0);
      is_drawn = TRUE;
    }
  if (!is_drawn)
    {
      double x = view->x + contact->at_x_mm * view->scale,
             y = view->y + (contact->at_z_mm + tl_stack_shift_mm (d, a->owner)) * view->scale;

      add_face (d, index, x - 4.0 * d->px, y, x + 4.0 * d->px, y, has_ring, TRUE);
    }
}

/* Insulation and other polymers touch too, but there is nothing to be told about them. */
static gboolean
is_told (const TlDrawing *d, guint index, const TlContact *contact)
{
  TlSeverity severity;

  return contact->is_metallic || tl_verdict_of_contact (d->verdict, index, &severity);
}

void
tl_stack_faces (TlDrawing *d, const TlStackExtent *extent)
{
  d->view = TL_VIEW_SECTION;
  for (guint i = 0; d->options.show_contacts && i < d->assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, i);

      if (is_told (d, i, contact))
        stack_face (d, i, contact);
    }
}

static const TlSleeveRod *
core_of (const TlSleeveShape *shape, const TlBody *body)
{
  for (guint i = 0; i < shape->n_cores; i++)
    if (shape->cores[i].body == body)
      return &shape->cores[i];
  return NULL;
}

/* Middle of what two things share along the axis, else the gap between their ends. */
static void
shared (double a0, double a1, double b0, double b1, double *from, double *to)
{
  *from = MAX (a0, b0);
  *to = MIN (a1, b1);
  if (*from > *to)
    {
      double keep = *from;

      *from = *to;
      *to = keep;
    }
}

static void
sleeve_face (TlDrawing *d, const TlSleeveShape *shape, guint index, const TlContact *contact)
{
  const TlBody *a = tl_assembly_body (d->assembly, contact->a),
               *b = tl_assembly_body (d->assembly, contact->b);
  const TlSleeveRod *p = core_of (shape, a), *q = core_of (shape, b);
  const TlView      *view = &d->views[TL_VIEW_SECTION];
  double             from, to, height, x0, x1, y0, y1;

  if (p != NULL && q != NULL && MIN (p->end_mm, q->end_mm) <= MAX (p->start_mm, q->start_mm) + 0.05)
    {
      /* ends that butt or face each other */
      shared (p->start_mm, p->end_mm, q->start_mm, q->end_mm, &from, &to);
      height = MIN (p->radius_mm, q->radius_mm) * 0.7;
      x0 = view->x + from * view->scale;
      x1 = view->x + to * view->scale;
      y0 = y1 = view->y;
      if (to - from < 0.1)
        {
          x0 = x1 = (x0 + x1) / 2.0;
          y0 = view->y - height * view->scale;
          y1 = view->y + height * view->scale;
        }
      add_face (d, index, x0, y0, x1, y1, contact->kind == TL_CONTACT_TOUCHING, TRUE);
      return;
    }
  if (p != NULL && q != NULL)
    {
      shared (p->start_mm, p->end_mm, q->start_mm, q->end_mm, &from, &to);
      height = (p->across_mm + q->across_mm) / 2.0
               + (p->across_mm < q->across_mm ? p->radius_mm - q->radius_mm
                                              : q->radius_mm - p->radius_mm)
                     / 2.0;
    }
  else if ((p != NULL || q != NULL) && shape->has_barrel
           && (a == shape->barrel || b == shape->barrel))
    {
      const TlSleeveRod *core = p != NULL ? p : q;
      double below = core->across_mm + core->radius_mm, above = core->across_mm - core->radius_mm;

      shared (core->start_mm, core->end_mm, 0.0, shape->length_mm, &from, &to);
      height = fabs (below) >= fabs (above) - 1e-9 ? below : above;
      if (shape->die_mm > 0.0)
        height = copysign (shape->bore_mm / 2.0, height);
    }
  else
    {
      from = contact->at_x_mm - 0.5;
      to = contact->at_x_mm + 0.5;
      height = contact->at_z_mm;
    }
  /* the middle part is enough and leaves the shape to be seen */
  x0 = (from + to) / 2.0 - MIN (0.3 * (to - from), 2.5);
  x1 = (from + to) / 2.0 + MIN (0.3 * (to - from), 2.5);
  /* on a press where there is one, rather on another than that of A–A */
  for (guint i = 0; i < shape->n_presses; i++)
    if (shape->press_mm[i] > from && shape->press_mm[i] < to && (i == 0 || x0 <= shape->cut_mm))
      {
        x0 = shape->press_mm[i] - 0.4 * shape->press_width_mm;
        x1 = shape->press_mm[i] + 0.4 * shape->press_width_mm;
      }
  height = tl_sleeve_squeezed_mm (shape, (x0 + x1) / 2.0, height);
  y0 = view->y + height * view->scale;
  add_face (d, index, view->x + x0 * view->scale, y0, view->x + x1 * view->scale, y0,
            contact->kind == TL_CONTACT_TOUCHING, TRUE);
}

void
tl_sleeve_faces (TlDrawing *d, const TlSleeveShape *shape)
{
  d->view = TL_VIEW_SECTION;
  for (guint i = 0; d->options.show_contacts && i < d->assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, i);

      if (is_told (d, i, contact))
        sleeve_face (d, shape, i, contact);
    }
}

void
tl_face_add (TlDrawing *d, guint index, double x0, double y0, double x1, double y1)
{
  const TlContact *contact = &g_array_index (d->assembly->contacts, TlContact, index);

  if (is_told (d, index, contact))
    add_face (d, index, x0, y0, x1, y1, contact->kind == TL_CONTACT_TOUCHING, TRUE);
}
