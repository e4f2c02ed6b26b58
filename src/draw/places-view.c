/* places-view.c: where the part that is being dragged would go, and why it would not.
 *
 * Every place that takes it stands open by 0.8 mm of the joint, the one under the pointer by the part's thickness and
 * 0.9 mm. Each has its note and mark at its end. Refusals are told near the pointer only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define OPEN_MM 0.8
#define OPEN_MORE_MM 0.9
#define NEAR_PX 60.0

typedef struct
{
  guint  index;
  double x, y; /* where its note's line begins */
} Note;

static const TlPlace *
place_at (const TlDrawing *d, guint index)
{
  return &g_array_index (d->options.places, TlPlace, index);
}

static double
own_opening_mm (const TlDrawing *d, guint index)
{
  const TlPlace *place = place_at (d, index);

  if (!place->takes || place->seat.kind != TL_SEAT_STACK)
    return 0.0;
  return (gint) index == d->options.open_place
             ? MAX (d->options.open_thickness_mm, 0.0) + OPEN_MORE_MM
             : OPEN_MM;
}

double
tl_places_opening_mm (const TlDrawing *d, guint place)
{
  double sum = 0.0;

  for (guint i = 0; d->options.places != NULL && i < d->options.places->len; i++)
    if (place_at (d, i)->seat.kind == TL_SEAT_STACK && place_at (d, i)->seat.place <= place)
      sum += own_opening_mm (d, i);
  return sum;
}

static void
frame (TlDrawing *d, guint index, double x0, double y0, double x1, double y1, double hole)
{
  TlShape *shape;
  gboolean is_open = (gint) index == d->options.open_place;

  d->view = TL_VIEW_SHEET;
  tl_path_begin (d);
  tl_path_rectangle (d, x0, y0, x1, y1);
  if (hole > 0.0 && x1 - x0 > 2.0 * hole && y1 - y0 > 2.0 * hole)
    {
      /* turned the other way, so that the wash leaves out what lies inside */
      tl_path_move (d, x0 + hole, y0 + hole);
      tl_path_line (d, x0 + hole, y1 - hole);
      tl_path_line (d, x1 - hole, y1 - hole);
      tl_path_line (d, x1 - hole, y0 + hole);
      tl_path_close (d);
    }
  shape = tl_shape_line (d, TL_INK_SELECT, TL_LINE_PLACE);
  shape->kind = TL_SHAPE_PLACE;
  shape->place = (gint) index;
  shape->is_selected = is_open;
}

static void
hit (TlDrawing *d, guint index, double x0, double y0, double x1, double y1)
{
  double least = 14.0 * d->px, grow_x = MAX (least - (x1 - x0), 0.0) / 2.0,
         grow_y = MAX (least - (y1 - y0), 0.0) / 2.0;

  tl_drawing_add_item (d, TL_ITEM_PLACE, NULL, index, x0 - grow_x, y0 - grow_y,
                       x1 - x0 + 2.0 * grow_x, y1 - y0 + 2.0 * grow_y);
}

/* Text broken into lines of at most @width; at most three, each inside the area. */
static void
lines (TlDrawing *d, const char *text, double x, double y, double width)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) line = g_string_new (NULL);
  guint count = 0;

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *longer =
          line->len > 0 ? g_strdup_printf ("%s %s", line->str, words[i]) : g_strdup (words[i]);

      if (line->len > 0 && tl_paint_text_width (longer, d->text, FALSE) > width && count < 3)
        {
          tl_shape_text (d, TL_INK_MUTED, line->str, x, y + count++ * 1.32 * d->text, d->text,
                         FALSE, 0.0);
          g_string_assign (line, words[i]);
        }
      else
        g_string_assign (line, longer);
    }
  if (line->len > 0 && count < 4)
    tl_shape_text (d, TL_INK_MUTED, line->str, x, y + count * 1.32 * d->text, d->text, FALSE, 0.0);
}

/* Ring with a cross on the face. */
static void
refusal (TlDrawing *d, guint index, double x, double y)
{
  double away = hypot (x - d->options.pointer_x, y - d->options.pointer_y);

  if (!(away <= NEAR_PX * d->px))
    return;
  d->view = TL_VIEW_SHEET;
  tl_shape_dot (d, TL_INK_PAPER, x, y, 6.0 * d->px);
  tl_shape_mark (d, TL_MARK_REFUSED, x, y, 12.0 * d->px)->place = (gint) index;
  if (d->refusal.index >= 0 && d->refusal.away <= away)
    return;
  d->refusal.index = (gint) index;
  d->refusal.away = away;
  d->refusal.x = x;
  d->refusal.y = y;
}

/* The sentence of the nearest refusal, on paper of its own. */
static void
tell_refusal (TlDrawing *d)
{
  g_autofree char *text = NULL;
  double px = d->px, width = MIN (150.0 * px, d->options.width - 20.0 * px), x = d->refusal.x, y,
         left, rows;

  if (d->refusal.index < 0 || width < 40.0 * px)
    return;
  text = tl_place_refusal (place_at (d, (guint) d->refusal.index), d->language);
  rows = MIN (ceil (tl_paint_text_width (text, d->text, FALSE) / width + 0.3), 4.0);
  left = x + 26.0 * px + width < d->options.width - 6.0 * px
             ? x + 26.0 * px
             : MAX (x - 26.0 * px - width, 8.0 * px);
  y = CLAMP (d->refusal.y + 14.0 * px, d->text * 1.5,
             MAX (d->options.height - rows * 1.32 * d->text, d->text * 1.5));
  d->view = TL_VIEW_SHEET;
  tl_path_begin (d);
  tl_path_rectangle (d, left - 5.0 * px, y - 1.2 * d->text, left + width + 5.0 * px,
                     y + (rows * 1.32 - 0.8) * d->text);
  tl_shape_fill (d, TL_INK_PAPER);
  if (left > x)
    tl_shape_segment (d, TL_INK_MUTED, TL_LINE_DIMENSION, x + 6.0 * px, d->refusal.y,
                      left - 5.0 * px, y - 0.4 * d->text);
  lines (d, text, left, y, width);
}

static gint
upper_first (gconstpointer a, gconstpointer b)
{
  const Note *p = a, *q = b;

  return p->y < q->y ? -1 : p->y > q->y ? 1 : (gint) p->index - (gint) q->index;
}

/* Shortens a note to what fits. */
static char *
fitted (const TlDrawing *d, const char *text, double width)
{
  glong length = g_utf8_strlen (text, -1);

  if (tl_paint_text_width (text, d->text, FALSE) <= width)
    return g_strdup (text);
  while (length > 1)
    {
      g_autofree char *start = g_utf8_substring (text, 0, --length);
      g_autofree char *cut = g_strconcat (start, "…", NULL);

      if (tl_paint_text_width (cut, d->text, FALSE) <= width)
        return g_steal_pointer (&cut);
    }
  return g_strdup ("");
}

/* Marks and worst couples in a column at the right, each with a line to its place. */
static void
notes (TlDrawing *d, GArray *all, double x)
{
  double gap = 21.0 * d->px, y = 34.0 * d->px, most = d->options.height - 20.0 * d->px;

  g_array_sort (all, upper_first);
  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < all->len; i++)
    {
      const Note *note = &g_array_index (all, Note, i);
      const char *text =
          d->options.place_notes != NULL ? d->options.place_notes[note->index] : NULL;
      double left = x;

      y = MAX (y, MIN (note->y, most - gap * (all->len - 1 - i)));
      if (text == NULL && d->options.place_severities == NULL)
        continue;
      tl_path_begin (d);
      tl_path_move (d, note->x, note->y);
      if (fabs (y - note->y) > 1.0)
        tl_path_line (d, MIN (note->x + 12.0 * d->px, x - 10.0 * d->px), note->y);
      tl_path_line (d, x - 10.0 * d->px, y);
      tl_shape_line (d, TL_INK_SELECT, TL_LINE_DIMENSION)->place = (gint) note->index;
      if (d->options.place_severities != NULL)
        {
          tl_shape_mark (d, (TlMark) d->options.place_severities[note->index], x, y, 13.0 * d->px)
              ->place = (gint) note->index;
          left += 12.0 * d->px;
        }
      if (text != NULL)
        {
          g_autofree char *shown = fitted (d, text, d->options.width - 8.0 * d->px - left);

          tl_shape_text (d, TL_INK_INK, shown, left, y + 0.35 * d->text, d->text, FALSE, 0.0)
              ->place = (gint) note->index;
        }
      y += gap;
    }
}

/* --- stack --- */

static gboolean
extent_of (const TlDrawing *d, const char *owner, double *start, double *end)
{
  *start = HUGE_VAL;
  *end = -HUGE_VAL;
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; g_strcmp0 (body->owner, owner) == 0 && body->role != TL_BODY_SHANK
                        && k < body->solids->len;
           k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);

          if (solid->kind == TL_SOLID_ROD)
            continue;
          *start = MIN (*start, solid->start_mm);
          *end = MAX (*end, solid->end_mm);
        }
    }
  return *end >= *start;
}

/* Height of the gap before stack place @gap, with everything moved. */
static double
gap_mm (const TlDrawing *d, guint gap, double opening)
{
  double start, end;

  for (guint i = gap; i < d->stack->len; i++)
    if (extent_of (d, d->stack->pdata[i], &start, &end))
      return start + tl_places_opening_mm (d, gap) - opening;
  for (guint i = MIN (gap, d->stack->len); i-- > 0;)
    if (extent_of (d, d->stack->pdata[i], &start, &end))
      return end + tl_places_opening_mm (d, i);
  return 0.0;
}

static void
place_on_leg (TlDrawing *d, guint index, GArray *all)
{
  for (guint i = 0; i < d->targets->len; i++)
    {
      const TlTarget *t = &g_array_index (d->targets, TlTarget, i);
      Note            note = { index, t->x + 16.0 * d->px, t->y };
      double          half = 9.0 * d->px;

      if (g_strcmp0 (t->owner, place_at (d, index)->seat.of) != 0)
        continue;
      if (!place_at (d, index)->takes)
        {
          refusal (d, index, t->x, t->y);
          return;
        }
      frame (d, index, t->x - 16.0 * d->px, t->y - half, t->x + 16.0 * d->px, t->y + half, 0.0);
      hit (d, index, t->x - 16.0 * d->px, t->y - half, t->x + 16.0 * d->px, t->y + half);
      g_array_append_val (all, note);
      return;
    }
}

static void
place_around (TlDrawing *d, guint index, double x0, double y0, double x1, double y1, double hole,
              GArray *all)
{
  Note note = { index, x1, y0 };

  if (!place_at (d, index)->takes)
    {
      refusal (d, index, (x0 + x1) / 2.0, y0);
      return;
    }
  x0 = MAX (x0, 4.0 * d->px);
  x1 = MIN (x1, d->options.width - 4.0 * d->px);
  frame (d, index, x0, y0, x1, y1, place_at (d, index)->seat.kind == TL_SEAT_PORT ? 0.0 : hole);
  hit (d, index, x0, y0, x1, y1);
  g_array_append_val (all, note);
}

static void
place_in_stack (TlDrawing *d, guint index, const TlStackExtent *extent, GArray *all)
{
  const TlView  *view = &d->views[TL_VIEW_SECTION];
  const TlPlace *place = place_at (d, index);
  double opening = own_opening_mm (d, index), reach = extent->reach_mm * view->scale + 3.0 * d->px;
  double hole = d->assembly->stack.has_bolt
                    ? d->assembly->stack.thread_mm / 2.0 * view->scale + 2.0 * d->px
                    : 0.0;
  double y = view->y + gap_mm (d, place->seat.place, opening) * view->scale,
         y1 = y + opening * view->scale;
  double inset = (gint) index == d->options.open_place ? 0.0 : 1.5 * d->px;
  Note   note = { index, view->x + reach, (y + y1) / 2.0 };

  if (!place->takes)
    {
      refusal (d, index, view->x + reach, y);
      return;
    }
  if (hole > 0.0 && hole < reach)
    {
      frame (d, index, view->x - reach, y + inset, view->x - hole, y1 - inset, 0.0);
      frame (d, index, view->x + hole, y + inset, view->x + reach, y1 - inset, 0.0);
    }
  else
    frame (d, index, view->x - reach, y + inset, view->x + reach, y1 - inset, 0.0);
  hit (d, index, view->x - reach, y, view->x + reach, y1);
  g_array_append_val (all, note);
}

void
tl_places_stack (TlDrawing *d, const TlStackExtent *extent)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Note));
  const TlView *view = &d->views[TL_VIEW_SECTION];

  for (guint i = 0; d->options.places != NULL && i < d->options.places->len; i++)
    {
      const TlPlace *place = place_at (d, i);

      if (place->seat.kind == TL_SEAT_STACK)
        place_in_stack (d, i, extent, all);
      else if (place->seat.kind == TL_SEAT_ON)
        place_on_leg (d, i, all);
      else
        place_around (d, i, view->x - (extent->reach_mm + 1.5) * view->scale,
                      view->y + (extent->top_mm - 1.0) * view->scale,
                      view->x + (extent->reach_mm + 1.5) * view->scale,
                      view->y + (extent->bottom_mm + d->opened_mm + 1.0) * view->scale,
                      0.9 * view->scale, all);
    }
  tell_refusal (d);
  notes (d, all, d->options.width - MIN (165.0 * d->px, 0.33 * d->options.width));
}

/* --- sleeve --- */

void
tl_places_sleeve (TlDrawing *d, const TlSleeveShape *shape)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Note));
  const TlView *view = &d->views[TL_VIEW_SECTION];
  double        half = (shape->half_mm + OPEN_MM) * view->scale,
         bore = MAX (shape->bore_mm / 2.0 * view->scale, 5.0 * d->px), reach = 4.0 * view->scale;

  for (guint i = 0; d->options.places != NULL && i < d->options.places->len; i++)
    {
      const TlPlace *place = place_at (d, i);
      gboolean       is_right = place->seat.place == 2;
      double         mouth = view->x + (is_right ? shape->length_mm * view->scale : 0.0);

      if (place->seat.kind == TL_SEAT_PORT)
        place_around (d, i, is_right ? mouth : mouth - reach, view->y - bore,
                      is_right ? mouth + reach : mouth, view->y + bore, 0.0, all);
      else if (place->seat.kind == TL_SEAT_ON)
        place_on_leg (d, i, all);
      else
        place_around (d, i, view->x - 3.0 * view->scale, view->y - half,
                      view->x + (shape->length_mm + 3.0) * view->scale, view->y + half,
                      OPEN_MM * view->scale, all);
    }
  tell_refusal (d);
  notes (d, all, d->options.width - MIN (160.0 * d->px, 0.32 * d->options.width));
}

void
tl_places_terminal (TlDrawing *d)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Note));
  const TlTerminalFigures *figures = &d->assembly->terminal;
  const TlView            *view = &d->views[TL_VIEW_SECTION];
  double half = MAX (figures->bore_mm / 2.0 * view->scale, 5.0 * d->px), reach = 4.0 * view->scale;

  for (guint i = 0; d->options.places != NULL && i < d->options.places->len; i++)
    {
      const TlPlace *place = place_at (d, i);
      gboolean       is_right = place->seat.place % 2 == 0;
      guint          bore = place->seat.place > 0 ? (place->seat.place - 1) / 2 : 0;
      double         mouth = view->x + (is_right ? figures->length_mm * view->scale : 0.0);
      double         y = view->y + (bore % 2) * figures->row_mm * view->scale;

      if (place->seat.kind == TL_SEAT_PORT)
        place_around (d, i, is_right ? mouth : mouth - reach, y - half,
                      is_right ? mouth + reach : mouth, y + half, 0.0, all);
      else if (place->seat.kind == TL_SEAT_ON)
        place_on_leg (d, i, all);
      else
        place_around (d, i, view->x - 3.0 * view->scale, view->y - 2.0 * half,
                      view->x + (figures->length_mm + 3.0) * view->scale, view->y + 2.0 * half,
                      OPEN_MM * view->scale, all);
    }
  tell_refusal (d);
  notes (d, all, d->options.width - MIN (160.0 * d->px, 0.32 * d->options.width));
}

void
tl_places_loose (TlDrawing *d, double x0, double y0, double x1, double y1)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Note));

  for (guint i = 0; d->options.places != NULL && i < d->options.places->len; i++)
    if (place_at (d, i)->seat.kind == TL_SEAT_ON)
      place_on_leg (d, i, all);
    else
      place_around (d, i, x0, y0, x1, y1, 9.0 * d->px, all);
  tell_refusal (d);
  notes (d, all, d->options.width - MIN (165.0 * d->px, 0.33 * d->options.width));
}
