/* test-terminal.c: terminals and splices drawn: every part there, numbered, inside the area, true to scale.
 *
 * Lengths are held against the assembly's own figures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include "families.h"

typedef struct
{
  const char *name;
  double      width, height;
  gboolean    paper;
} Area;

static const Area areas[] = {
  { "bench", 664.0, 600.0, FALSE },
  { "bench-1024", 476.0, 500.0, FALSE },
  { "sheet", 178.0, 66.0, TRUE },
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

static void
check_parts (const TlVerdict *verdict, const TlDrawing *drawing)
{
  const GArray *items = tl_drawing_items (drawing);

  for (guint i = 0; i < verdict->assembly->order->len; i++)
    {
      const char *owner = verdict->assembly->order->pdata[i];
      guint       bodies = 0, numbers = 0;

      for (guint k = 0; k < items->len; k++)
        {
          const TlItem *item = &g_array_index (items, TlItem, k);

          if (g_strcmp0 (item->owner, owner) != 0)
            continue;
          bodies += item->kind == TL_ITEM_BODY;
          numbers += item->kind == TL_ITEM_NUMBER;
        }
      if (bodies != 1 || numbers != 1)
        g_error ("%s: %u bodies, %u numbers", owner, bodies, numbers);
    }
}

static void
check_inside (const TlDrawing *drawing)
{
  for (guint i = 0; i < drawing->vertices->len; i++)
    {
      const TlVertex *v = &g_array_index (drawing->vertices, TlVertex, i);

      g_assert_true (isfinite (v->x) && isfinite (v->y));
    }
  for (guint i = 0; i < drawing->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (drawing->shapes, TlShape, i);
      double         x0, y0, x1, y1;

      if ((s->kind != TL_SHAPE_TEXT && s->kind != TL_SHAPE_NUMBER && s->kind != TL_SHAPE_MARK)
          || !tl_shape_bounds (drawing, s, &x0, &y0, &x1, &y1))
        continue;
      g_assert_cmpfloat (x0, >=, 0.0);
      g_assert_cmpfloat (y0, >=, 0.0);
      g_assert_cmpfloat (x1, <=, drawing->options.width);
      g_assert_cmpfloat (y1, <=, drawing->options.height);
    }
}

/* The widest cut piece of the metal of a terminal is as long as its figure says. */
static void
check_scale (const TlVerdict *verdict, const TlDrawing *drawing)
{
  const TlTerminalFigures *figures = &verdict->assembly->terminal;
  double                   wanted = figures->length_mm * tl_drawing_scale (drawing);
  gboolean                 found = FALSE;

  if (verdict->assembly->family != TL_FAMILY_TERMINAL)
    return;
  for (guint i = 0; i < drawing->shapes->len; i++)
    {
      const TlShape *s = &g_array_index (drawing->shapes, TlShape, i);
      double         x0, y0, x1, y1;

      if (s->kind == TL_SHAPE_BODY && s->view == TL_VIEW_SECTION && s->is_cut
          && g_strcmp0 (s->owner, figures->terminal) == 0
          && tl_shape_bounds (drawing, s, &x0, &y0, &x1, &y1))
        found |= fabs (x1 - x0 - wanted) < 1e-6 * wanted;
    }
  g_assert_true (found);
}

static void
test_family (gconstpointer data)
{
  const TestFamily *family = data;
  g_autoptr (TlJoint) joint = family->make ();
  TlVerdict *verdict = tl_verdict_new (joint, build_stock (), TL_VERDICT_FULL);

  for (guint i = 0; i < G_N_ELEMENTS (areas); i++)
    {
      g_autoptr (TlDrawing) drawing = draw_in (verdict, &areas[i]);

      g_test_message ("%s", areas[i].name);
      g_assert_cmpuint (drawing->shapes->len, >, 15);
      check_parts (verdict, drawing);
      check_inside (drawing);
      check_scale (verdict, drawing);
      g_assert_cmpuint (drawing->faces->len, >, 0);
      dt_paint_nowhere (drawing);
    }
  tl_verdict_unref (verdict);
}

/* A terminal from its facts alone, as in the rows of Parts. */
static void
test_parts (void)
{
  static const char *const facts[] = {
    "terminal-form=tunnel; ports=2; bore=3 mm; length=16 mm; thread=3 mm; material=brass",
    "terminal-form=leaf-spring; ports=3; bore=3 mm; length=16 mm; material=copper; "
    "body-material=polyolefin",
    "terminal-form=clamp; bore=7 mm; length=24 mm; height=24 mm; thread=6 mm; material=aluminium",
  };

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    {
      g_autoptr (TlFacts) part = build_facts (facts[i]);

      g_assert_cmpuint (
          dt_part_pixels (build_stock (), i < 2 ? TL_PART_TERMINAL : TL_PART_BRANCH, part, 90, 40),
          >, 100);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; test_families[i].name != NULL; i++)
    {
      g_autofree char *path = g_strdup_printf ("/draw/families/%s", test_families[i].name);

      g_test_add_data_func (path, &test_families[i], test_family);
    }
  g_test_add_func ("/draw/families/parts", test_parts);
  return g_test_run ();
}
