/* test-drawing.c: the display list: true to scale, numbered, nothing on top of anything.
 *
 * Lengths are held against the assembly's own figures; what may overlap what is common practice (ISO 128 and ISO 129
 * habits, no clause cited).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include "draw/part-private.h"
#include "joint/edit.h"
#include <string.h>

typedef struct
{
  const char *name;
  double      width, height;
  gboolean    paper;
} Area;

static const Area areas[] = {
  { "bench", 664.0, 600.0, FALSE },      { "bench-low", 646.0, 576.0, FALSE },
  { "bench-1024", 476.0, 500.0, FALSE }, { "sheet", 178.0, 66.0, TRUE },
  { "picture", 680.0, 567.0, FALSE },
};

static TlDrawing *
draw_in (const TlVerdict *verdict, const Area *area)
{
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.width = area->width;
  options.height = area->height;
  options.paper = area->paper;
  if (area->paper)
    options.unit = 1.0;
  return tl_drawing_new (verdict, &options, tl_language_plain ());
}

typedef void (*Check) (const TlVerdict *verdict, const TlDrawing *drawing);

/* Runs @check over all examples in all areas. */
static void
over_examples (gconstpointer data)
{
  Check check = *(const Check *) data;
  g_autoptr (GPtrArray) names = pt_example_names ();

  g_assert_cmpuint (names->len, >=, 12);
  for (guint i = 0; i < names->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (areas); k++)
      {
        g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names->pdata[i]));
        g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[k]);

        g_test_message ("%s, %s", (const char *) names->pdata[i], areas[k].name);
        check (verdict, drawing);
      }
}

/* --- checks --- */

static void
check_finite (const TlVerdict *verdict, const TlDrawing *d)
{
  g_assert_cmpuint (d->shapes->len, >, 20);
  for (guint i = 0; i < d->vertices->len; i++)
    {
      const TlVertex *v = &g_array_index (d->vertices, TlVertex, i);

      g_assert_true (isfinite (v->x) && isfinite (v->y));
    }
  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);

      g_assert_true (isfinite (s->x) && isfinite (s->y) && isfinite (s->size));
    }
}

/* Washers and barrels have the assembly's lengths, times one scale. */
static void
check_scale (const TlVerdict *verdict, const TlDrawing *d)
{
  guint  checked = 0;
  double scale = tl_drawing_scale (d);

  /* terminals and splices have neither: test-terminal.c measures them */
  if (verdict->assembly->family != TL_FAMILY_STACK && verdict->assembly->family != TL_FAMILY_SLEEVE)
    return;
  g_assert_cmpfloat (scale, >, 0.0);
  for (guint i = 0; i < verdict->assembly->bodies->len; i++)
    {
      const TlBody  *body = verdict->assembly->bodies->pdata[i];
      gboolean       is_stack = verdict->assembly->family == TL_FAMILY_STACK;
      const TlSolid *solid =
          body->solids->len > 0 ? &g_array_index (body->solids, TlSolid, 0) : NULL;
      double x0, y0, x1, y1, length;

      if (solid == NULL || body->role != (is_stack ? TL_BODY_WASHER : TL_BODY_BARREL))
        continue;
      length = (solid->end_mm - solid->start_mm) * scale;
      g_assert_true (dt_owner_bounds (d, body->owner, TL_VIEW_SECTION, &x0, &y0, &x1, &y1));
      g_assert_cmpfloat_with_epsilon (is_stack ? y1 - y0 : x1 - x0, length, 1e-6 * length + 1e-9);
      g_assert_cmpfloat_with_epsilon (is_stack ? x1 - x0 : y1 - y0, solid->outer_mm * scale,
                                      1e-6 * solid->outer_mm * scale);
      if (is_stack)
        g_assert_cmpfloat_with_epsilon (y0 - d->views[TL_VIEW_SECTION].y, solid->start_mm * scale,
                                        1e-6);
      checked++;
    }
  g_assert_cmpuint (checked, >, 0);
}

static void
check_numbers (const TlVerdict *verdict, const TlDrawing *d)
{
  const GArray *items = tl_drawing_items (d);

  for (guint i = 0; i < verdict->assembly->order->len; i++)
    {
      const char *owner = verdict->assembly->order->pdata[i];
      guint       numbers = 0, bodies = 0;

      for (guint k = 0; k < items->len; k++)
        {
          const TlItem *item = &g_array_index (items, TlItem, k);

          if (g_strcmp0 (item->owner, owner) != 0)
            continue;
          numbers += item->kind == TL_ITEM_NUMBER;
          bodies += item->kind == TL_ITEM_BODY;
          if (item->kind == TL_ITEM_NUMBER)
            g_assert_cmpuint (item->index, ==, i + 1);
        }
      g_assert_cmpuint (numbers, ==, 1);
      g_assert_cmpuint (bodies, ==, 1);
    }
}

static gboolean
cross (const TlVertex *a, const TlVertex *b, const TlVertex *c, const TlVertex *e)
{
  double d1 = (b->x - a->x) * (c->y - a->y) - (b->y - a->y) * (c->x - a->x);
  double d2 = (b->x - a->x) * (e->y - a->y) - (b->y - a->y) * (e->x - a->x);
  double d3 = (e->x - c->x) * (a->y - c->y) - (e->y - c->y) * (a->x - c->x);
  double d4 = (e->x - c->x) * (b->y - c->y) - (e->y - c->y) * (b->x - c->x);

  return d1 * d2 < -1e-6 && d3 * d4 < -1e-6;
}

static gboolean
is_leader (const TlShape *s)
{
  return s->kind == TL_SHAPE_LINE && s->view == TL_VIEW_SHEET && s->ink == TL_INK_INK
         && s->line == TL_LINE_DIMENSION && s->count == 3;
}

static void
check_leaders (const TlVerdict *verdict, const TlDrawing *d)
{
  guint leaders = 0;

  for (guint i = 0; i < d->shapes->len; i++)
    for (guint k = i + 1; k < d->shapes->len && is_leader (&g_array_index (d->shapes, TlShape, i));
         k++)
      {
        const TlShape *p = &g_array_index (d->shapes, TlShape, i),
                      *q = &g_array_index (d->shapes, TlShape, k);

        if (!is_leader (q))
          continue;
        leaders++;
        for (guint m = 0; m + 1 < p->count; m++)
          for (guint n = 0; n + 1 < q->count; n++)
            g_assert_false (cross (&g_array_index (d->vertices, TlVertex, p->first + m),
                                   &g_array_index (d->vertices, TlVertex, p->first + m + 1),
                                   &g_array_index (d->vertices, TlVertex, q->first + n),
                                   &g_array_index (d->vertices, TlVertex, q->first + n + 1)));
      }
  g_assert_cmpuint (leaders, >, 0);
}

static void
check_text_inside (const TlVerdict *verdict, const TlDrawing *d)
{
  guint texts = 0;

  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);
      double         x0, y0, x1, y1;

      if (s->kind != TL_SHAPE_TEXT && s->kind != TL_SHAPE_NUMBER && s->kind != TL_SHAPE_MARK)
        continue;
      texts++;
      if (!tl_shape_bounds (d, s, &x0, &y0, &x1, &y1))
        continue;
      g_assert_cmpfloat (x0, >=, 0.0);
      g_assert_cmpfloat (y0, >=, 0.0);
      g_assert_cmpfloat (x1, <=, d->options.width);
      g_assert_cmpfloat (y1, <=, d->options.height);
      /* nothing under 10.5 px on screen, 2.0 mm on paper */
      if (s->kind == TL_SHAPE_TEXT)
        g_assert_cmpfloat (s->size, >=, d->options.paper ? 2.0 : 10.5);
    }
  g_assert_cmpuint (texts, >, 6);
}

static void
check_no_overlap (const TlVerdict *verdict, const TlDrawing *d)
{
  for (guint i = 0; i < d->shapes->len; i++)
    for (guint k = i + 1; k < d->shapes->len; k++)
      {
        const TlShape *p = &g_array_index (d->shapes, TlShape, i),
                      *q = &g_array_index (d->shapes, TlShape, k);
        gboolean both_text = p->kind == TL_SHAPE_TEXT && q->kind == TL_SHAPE_TEXT;
        gboolean text_and_number = (p->kind == TL_SHAPE_TEXT && q->kind == TL_SHAPE_NUMBER)
                                   || (p->kind == TL_SHAPE_NUMBER && q->kind == TL_SHAPE_TEXT);
        double a0, b0, a1, b1, c0, e0, c1, e1;

        if (p->kind == TL_SHAPE_NUMBER && q->kind == TL_SHAPE_NUMBER)
          g_assert_cmpfloat (hypot (p->x - q->x, p->y - q->y), >=, (p->size + q->size) / 2.0);
        if ((!both_text && !text_and_number) || !tl_shape_bounds (d, p, &a0, &b0, &a1, &b1)
            || !tl_shape_bounds (d, q, &c0, &e0, &c1, &e1))
          continue;
        if (MIN (a1, c1) - MAX (a0, c0) > 0.5 * d->px && MIN (b1, e1) - MAX (b0, e0) > 0.5 * d->px)
          g_error ("“%s” and “%s” lie on each other", p->text != NULL ? p->text : "a number",
                   q->text != NULL ? q->text : "a number");
      }
}

/* No line of a contact runs through the letters of the cutting plane. */
static void
check_letters_free (const TlVerdict *verdict, const TlDrawing *d)
{
  for (guint i = 0; i < d->shapes->len; i++)
    for (guint k = 0; k < d->shapes->len; k++)
      {
        const TlShape *text = &g_array_index (d->shapes, TlShape, i),
                      *line = &g_array_index (d->shapes, TlShape, k);
        double a0, b0, a1, b1;

        if (text->kind != TL_SHAPE_TEXT || g_strcmp0 (text->text, "A") != 0
            || line->kind != TL_SHAPE_LINE || line->ink != TL_INK_SEVERITY
            || !tl_shape_bounds (d, text, &a0, &b0, &a1, &b1))
          continue;
        for (guint n = 0; n + 1 < line->count; n++)
          {
            const TlVertex *p = &g_array_index (d->vertices, TlVertex, line->first + n), *q = p + 1;

            if (MAX (p->x, q->x) > a0 && MIN (p->x, q->x) < a1 && MAX (p->y, q->y) > b0
                && MIN (p->y, q->y) < b1)
              g_error ("“%s”: a line at %.0f, %.0f runs through “A” at %.0f, %.0f",
                       verdict->assembly->joint->name, p->x, p->y, a0, b0);
          }
      }
}

/* A turned figure is read on bare paper, not on a barrel or a wire that leaves the end view on its side. */
static void
check_figures_beside (const TlVerdict *verdict, const TlDrawing *d)
{
  for (guint i = 0; i < d->shapes->len; i++)
    for (guint k = 0; k < d->shapes->len; k++)
      {
        const TlShape *text = &g_array_index (d->shapes, TlShape, i),
                      *body = &g_array_index (d->shapes, TlShape, k);
        double a0, b0, a1, b1, c0, e0, c1, e1;

        if (text->kind != TL_SHAPE_TEXT || text->turn_rad == 0.0 || body->kind != TL_SHAPE_BODY
            || body->view != TL_VIEW_END || !tl_shape_bounds (d, text, &a0, &b0, &a1, &b1)
            || !tl_shape_bounds (d, body, &c0, &e0, &c1, &e1))
          continue;
        g_assert_false (MIN (a1, c1) > MAX (a0, c0) && MIN (b1, e1) > MAX (b0, e0));
      }
}

/* Every look that is drawn has its row and no other. */
static void
check_legend (const TlVerdict *verdict, const TlDrawing *d)
{
  guint swatches = 0, looks = 0;

  for (guint i = 0; i < d->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (d->shapes, TlShape, i);
      gboolean       is_drawn = FALSE;

      if (s->kind != TL_SHAPE_BODY || s->view != TL_VIEW_SHEET)
        continue;
      swatches++;
      for (guint k = 0; k < d->shapes->len; k++)
        {
          const TlShape *other = &g_array_index (d->shapes, TlShape, k);

          is_drawn |= other->kind == TL_SHAPE_BODY && other->view != TL_VIEW_SHEET
                      && other->look == s->look;
        }
      g_assert_true (is_drawn);
    }
  for (guint i = 0; i < TL_N_LOOKS; i++)
    looks += i != TL_LOOK_AIR && (d->looks_seen[i] || d->looks_cut[i]);
  g_assert_cmpuint (swatches, ==, looks);
}

/* Figures of dimensions are those of the engine. */
static void
check_dimensions (const TlVerdict *verdict, const TlDrawing *d)
{
  const TlAssembly *a = verdict->assembly;
  g_autofree char  *figure = NULL, *text = NULL;

  if (a->family == TL_FAMILY_SLEEVE)
    {
      g_autofree char *length = tl_dimension_figure (d, a->sleeve.length_mm);

      g_assert_true (dt_has_text (d, length));
      figure = tl_dimension_figure (d, a->sleeve.die_mm);
      text = g_strdup_printf ("die %s", figure);
      if (a->sleeve.has_die && a->sleeve.die_mm < a->sleeve.outer_mm)
        g_assert_true (dt_has_text (d, text));
      for (guint i = 0; i < 2; i++)
        {
          g_autofree char *cover = tl_dimension_figure (d, a->seal.cover_mm[i]);

          if (a->seal.seal != NULL && a->seal.cover_mm[i] > 0.5)
            g_assert_true (dt_has_text (d, cover));
        }
      return;
    }
  if (a->family == TL_FAMILY_TERMINAL || a->family == TL_FAMILY_SPLICE)
    {
      g_autofree char *bore = tl_dimension_figure (d, a->terminal.bore_mm);

      figure = tl_dimension_figure (d, a->family == TL_FAMILY_TERMINAL ? a->terminal.length_mm
                                                                       : a->splice.overlap_mm);
      g_assert_true (dt_has_text (d, figure));
      if (a->family == TL_FAMILY_TERMINAL)
        g_assert_true (dt_has_text (d, bore));
      return;
    }
  for (guint i = 0; i < a->bodies->len; i++)
    {
      const TlBody *body = a->bodies->pdata[i];

      if (body->role != TL_BODY_HEAD)
        continue;
      figure = tl_dimension_figure (d, g_array_index (body->solids, TlSolid, 0).outer_mm);
      g_assert_true (dt_has_text (d, figure));
      return;
    }
  g_assert_not_reached ();
}

/* The middle of a number is that number; the middle of a cut washer is that washer. */
static void
check_pick (const TlVerdict *verdict, const TlDrawing *d)
{
  const GArray *items = tl_drawing_items (d);
  guint         picked = 0;
  TlItem        found;

  for (guint i = 0; i < items->len; i++)
    {
      const TlItem *item = &g_array_index (items, TlItem, i);

      if (item->kind != TL_ITEM_NUMBER)
        continue;
      g_assert_true (
          tl_drawing_pick (d, item->x + item->width / 2.0, item->y + item->height / 2.0, &found));
      g_assert_cmpint (found.kind, ==, TL_ITEM_NUMBER);
      g_assert_cmpstr (found.owner, ==, item->owner);
      picked++;
    }
  g_assert_cmpuint (picked, ==, verdict->assembly->order->len);
  g_assert_false (tl_drawing_pick (d, d->options.width - 1.0, 1.0, &found));
}

/* Every contact that a finding is about can be met. */
static void
check_contacts (const TlVerdict *verdict, const TlDrawing *d)
{
  const GArray *items = tl_drawing_items (d);

  for (guint i = 0; i < verdict->assembly->contacts->len; i++)
    {
      TlSeverity severity;
      guint      count = 0;

      if (!tl_verdict_of_contact (verdict, i, &severity))
        continue;
      for (guint k = 0; k < items->len; k++)
        count += g_array_index (items, TlItem, k).kind == TL_ITEM_CONTACT
                 && g_array_index (items, TlItem, k).index == i;
      g_assert_cmpuint (count, ==, 1);
    }
}

/* --- single cases --- */

static void
test_golden (gconstpointer data)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example (data));
  g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[0]);
  g_autofree char *text = dt_body_lines (drawing);
  g_autofree char *file = g_strdup_printf ("%s.list", (const char *) data);
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "unit",
                                            "draw", "golden", file, NULL);
  g_autofree char *golden = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("TINLAP_REGENERATE") != NULL)
    g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_file_get_contents (path, &golden, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (text, ==, golden);
}

static void
test_same_twice (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("zinc-washer"));
  g_autoptr (TlDrawing) a = draw_in (verdict, &areas[0]);
  g_autoptr (TlDrawing) b = draw_in (verdict, &areas[0]);
  g_autofree char *p = tl_drawing_to_text (a), *q = tl_drawing_to_text (b);

  g_assert_cmpuint (strlen (p), >, 2000);
  g_assert_cmpstr (p, ==, q);
}

static void
test_standard_scales (void)
{
  static const double iso_5455[] = { 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1 };
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlVerdict) verdict = pt_judge (pt_example (names->pdata[i]));
      g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[3]);
      gboolean is_standard = FALSE;

      for (guint k = 0; k < G_N_ELEMENTS (iso_5455); k++)
        is_standard |= fabs (tl_drawing_scale (drawing) - iso_5455[k]) < 1e-9;
      g_assert_true (is_standard);
    }
}

/* ISO 5455 has 1, 2 and 5 with their decades; a bar takes the same. */
static void
test_scale_bar (void)
{
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (7.3), 5.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (5.0), 5.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (4.99), 2.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (19.0), 10.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (240.0), 200.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tl_scale_bar_mm (0.07), 0.05, 1e-12);
}

static void
test_zoom (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("zinc-washer"));
  g_autoptr (TlDrawing) drawing = NULL;
  TlDrawingOptions options;

  tl_drawing_options_init (&options);
  options.zoom = 50.0;
  options.pan_x = 30.0;
  options.pan_y = -40.0;
  drawing = tl_drawing_new (verdict, &options, tl_language_plain ());
  g_assert_cmpfloat_with_epsilon (tl_drawing_scale (drawing), 50.0, 1e-12);
  check_finite (verdict, drawing);
}

/* Open places: 0.8 mm each, the one under the pointer the part's thickness and 0.9 mm; nothing else moves. */
static void
test_places (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("copper-on-aluminium"));
  g_autoptr (GArray) places = tl_places_for (verdict->assembly, "washer-plain-m5-steel", NULL);
  g_autoptr (TlDrawing) drawing = NULL;
  g_autoptr (GPtrArray) stack = tl_joint_stack (verdict->assembly->joint);
  const GArray    *items;
  TlDrawingOptions options;
  double           sum = 0.0;
  guint            seen = 0, taking = 0;

  tl_drawing_options_init (&options);
  options.places = places;
  options.open_thickness_mm = 1.0;
  for (guint i = 0; i < places->len; i++)
    if (g_array_index (places, TlPlace, i).takes)
      options.open_place = (gint) i;
  drawing = tl_drawing_new (verdict, &options, tl_language_plain ());
  g_assert_true (dt_has_text (drawing, "Opened for placing; closes to true scale"));
  for (guint k = 0; k < stack->len; k++)
    {
      const TlBody *body =
          tl_assembly_find_body (verdict->assembly, stack->pdata[k], TL_BODY_WASHER, NULL);
      double x0, y0, x1, y1, scale = tl_drawing_scale (drawing);

      for (guint i = 0; i < places->len; i++)
        {
          const TlPlace *place = &g_array_index (places, TlPlace, i);

          if (place->takes && place->seat.place == k)
            sum += (gint) i == options.open_place ? 1.9 : 0.8;
        }
      if (body == NULL)
        continue;
      g_assert_true (dt_owner_bounds (drawing, body->owner, TL_VIEW_SECTION, &x0, &y0, &x1, &y1));
      g_assert_cmpfloat_with_epsilon ((y0 - drawing->views[TL_VIEW_SECTION].y) / scale,
                                      g_array_index (body->solids, TlSolid, 0).start_mm + sum,
                                      1e-6);
      seen++;
    }
  g_assert_cmpuint (seen, >, 2);
  items = tl_drawing_items (drawing);
  for (guint k = 0; k < items->len; k++)
    {
      const TlItem *item = &g_array_index (items, TlItem, k);

      if (item->kind != TL_ITEM_PLACE)
        continue;
      g_assert_cmpint (
          tl_drawing_place_at (drawing, item->x + item->width / 2.0, item->y + item->height / 2.0),
          ==, (gint) item->index);
      taking++;
    }
  g_assert_cmpuint (taking, ==, 6);
  g_assert_cmpint (tl_drawing_place_at (drawing, 1.0, 590.0), ==, -1);
}

static void
test_refusals_near_pointer (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("copper-on-aluminium"));
  g_autoptr (GArray) places = tl_places_for (verdict->assembly, "washer-plain-m4-steel", NULL);
  TlDrawingOptions options;
  g_autoptr (TlDrawing) far = NULL, near = NULL;
  guint marks[2] = { 0, 0 };

  tl_drawing_options_init (&options);
  options.places = places;
  far = tl_drawing_new (verdict, &options, tl_language_plain ());
  options.pointer_x = far->views[TL_VIEW_SECTION].x + 6.0 * tl_drawing_scale (far);
  options.pointer_y = far->views[TL_VIEW_SECTION].y + 3.0 * tl_drawing_scale (far);
  near = tl_drawing_new (verdict, &options, tl_language_plain ());
  for (guint pass = 0; pass < 2; pass++)
    {
      const TlDrawing *d = pass == 0 ? far : near;

      for (guint i = 0; i < d->shapes->len; i++)
        marks[pass] += g_array_index (d->shapes, TlShape, i).kind == TL_SHAPE_MARK
                       && g_array_index (d->shapes, TlShape, i).mark == TL_MARK_REFUSED;
    }
  g_assert_cmpuint (marks[0], ==, 0);
  g_assert_cmpuint (marks[1], >, 0);
  check_text_inside (verdict, near);
}

static void
test_empty (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (tl_joint_new ());

  for (guint i = 0; i < G_N_ELEMENTS (areas); i++)
    {
      g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[i]);
      TlItem item;

      g_assert_cmpuint (tl_drawing_items (drawing)->len, ==, 0);
      g_assert_false (tl_drawing_pick (drawing, 20.0, 20.0, &item));
      if (areas[i].width > 400.0)
        g_assert_true (dt_has_text (
            drawing, "Drag a part here, or press Enter on one. First: the two conductors."));
    }
}

/* Two conductors and nothing that holds them: both lie there with their numbers. */
static void
test_loose (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_unfinished ());
  g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[0]);
  const GArray *items = tl_drawing_items (drawing);
  guint         numbers = 0, bodies = 0;

  for (guint i = 0; i < items->len; i++)
    {
      numbers += g_array_index (items, TlItem, i).kind == TL_ITEM_NUMBER;
      bodies += g_array_index (items, TlItem, i).kind == TL_ITEM_BODY;
    }
  g_assert_cmpuint (numbers, ==,
                    verdict->assembly->joint->legs->len + verdict->assembly->joint->layers->len);
  g_assert_cmpuint (bodies, ==, numbers);
}

/* --- hostile --- */

static void
test_many_layers (void)
{
  TlJoint *joint = pt_example ("zinc-washer");
  g_autoptr (TlVerdict) verdict = NULL;

  for (guint i = 0; i < 200; i++)
    {
      g_auto (TlSeat) seat = tl_seat_stack (1);
      TlJoint *next =
          tl_edit_add_layer (joint, pt_stock (), "washer-plain-m5-steel", &seat, NULL, NULL);

      if (next == NULL)
        break;
      tl_joint_unref (joint);
      joint = next;
    }
  g_assert_cmpuint (joint->layers->len, >, 50);
  verdict = pt_judge (joint);
  for (guint i = 0; i < G_N_ELEMENTS (areas); i++)
    {
      g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[i]);

      check_finite (verdict, drawing);
      check_numbers (verdict, drawing);
      check_leaders (verdict, drawing);
      check_no_overlap (verdict, drawing);
    }
}

static void
test_odd_areas (void)
{
  static const double odd[] = { 0.0, -1.0, 1.0, 7.0, 30.0, 120.0, 1e9, NAN, INFINITY };
  g_autoptr (TlVerdict) stack = pt_judge (pt_example ("zinc-washer")),
                        sleeve = pt_judge (pt_example ("bare-copper-sleeve"));

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    for (guint k = 0; k < G_N_ELEMENTS (odd); k++)
      for (guint which = 0; which < 2; which++)
        {
          const Area area = { "odd", odd[i], odd[k], FALSE };
          g_autoptr (TlDrawing) drawing = draw_in (which == 0 ? stack : sleeve, &area);
          g_autofree char *text = tl_drawing_to_text (drawing);

          g_assert_null (strstr (text, "nan"));
          g_assert_null (strstr (text, "inf "));
          dt_paint_nowhere (drawing);
        }
}

/* Each kind of part shows something in its row, also without a single figure. */
static void
test_parts (void)
{
  const GPtrArray *parts = tl_stock_parts (pt_stock ());
  g_autoptr (TlFacts) none = tl_facts_new ();

  for (guint i = 0; i < parts->len; i += i < TL_N_PART_KINDS ? 1 : 7)
    {
      const TlPart *part = parts->pdata[i];

      g_assert_cmpuint (dt_part_pixels (pt_stock (), part->kind, part->facts, 52, 34), >, 20);
    }
  for (guint kind = 0; kind < TL_N_PART_KINDS; kind++)
    g_assert_cmpuint (dt_part_pixels (pt_stock (), (TlPartKind) kind, none, 52, 34), >, 20);
}

static void
test_describe (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("zinc-washer"));
  g_autofree char *text = tl_drawing_describe (verdict, tl_language_plain ());

  g_assert_true (g_str_has_prefix (text, "Bolted stack, from the head to the nut.\n1: "));
  g_assert_nonnull (strstr (text, "zinc"));
  g_assert_nonnull (strstr (text, " is pressed on "));
  g_assert_nonnull (strstr (text, "Unsafe."));
}

/* Screw, plate and body of one terminal are one part to the reader; what it does to a wire is told once. */
static void
test_describe_terminal (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example ("screw-terminal-plated"));
  g_autofree char *text = tl_drawing_describe (verdict, tl_language_plain ());
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  g_assert_nonnull (strstr (text, "is pressed on aluminium conductor"));
  g_assert_null (strstr (text, "is pressed on terminal"));
  for (guint i = 0; lines[i] != NULL; i++)
    for (guint k = i + 1; lines[k] != NULL; k++)
      g_assert_cmpstr (lines[i], !=, lines[k]);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    Check       check;
  } checks[] = {
    { "/drawing/examples/finite", check_finite },
    { "/drawing/examples/scale", check_scale },
    { "/drawing/examples/numbers", check_numbers },
    { "/drawing/examples/leaders", check_leaders },
    { "/drawing/examples/text-inside", check_text_inside },
    { "/drawing/examples/no-overlap", check_no_overlap },
    { "/drawing/examples/letters-free", check_letters_free },
    { "/drawing/examples/figures-beside", check_figures_beside },
    { "/drawing/examples/legend", check_legend },
    { "/drawing/examples/dimensions", check_dimensions },
    { "/drawing/examples/pick", check_pick },
    { "/drawing/examples/contacts", check_contacts },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
    g_test_add_data_func (checks[i].path, &checks[i].check, over_examples);
  g_test_add_data_func ("/drawing/golden/stack", "zinc-washer", test_golden);
  g_test_add_data_func ("/drawing/golden/sleeve", "socket-circuit-weaving-floor", test_golden);
  g_test_add_func ("/drawing/same-twice", test_same_twice);
  g_test_add_func ("/drawing/standard-scales", test_standard_scales);
  g_test_add_func ("/drawing/scale-bar", test_scale_bar);
  g_test_add_func ("/drawing/zoom", test_zoom);
  g_test_add_func ("/drawing/places", test_places);
  g_test_add_func ("/drawing/refusals", test_refusals_near_pointer);
  g_test_add_func ("/drawing/empty", test_empty);
  g_test_add_func ("/drawing/loose", test_loose);
  g_test_add_func ("/drawing/hostile/many-layers", test_many_layers);
  g_test_add_func ("/drawing/hostile/odd-areas", test_odd_areas);
  g_test_add_func ("/drawing/parts", test_parts);
  g_test_add_func ("/drawing/describe", test_describe);
  g_test_add_func ("/drawing/describe-terminal", test_describe_terminal);
  return g_test_run ();
}
