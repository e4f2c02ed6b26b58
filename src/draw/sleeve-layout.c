/* sleeve-layout.c: a pressed sleeve in an area: section lengthwise with its dimensions, A–A below or beside it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

#define ROW_PX 24.0

typedef struct
{
  double   scale, end_scale;
  double   top, under;  /* above and below the section, units */
  double   left, right; /* of the section */
  double   legend;      /* at the foot */
  double   end_left, end_top, end_right, end_bottom;
  guint    rows; /* of dimensions */
  gboolean is_beside;
} Plan;

typedef struct
{
  double x0_mm, x1_mm;
  char  *text;
  guint  row;
} Dimension;

static void
dimension_clear (Dimension *dimension)
{
  g_free (dimension->text);
}

static void
add_dimension (GArray *all, double x0, double x1, guint row, char *text)
{
  Dimension dimension = { x0, x1, text, row };

  if (x1 > x0)
    g_array_append_val (all, dimension);
  else
    g_free (text);
}

/* A–A is taken of a barrel and of a splice. */
static gboolean
has_end_view (const TlDrawing *d, const TlSleeveShape *shape)
{
  return shape->has_barrel || d->assembly->family == TL_FAMILY_SPLICE;
}

static const TlSleeveRod *
strip_rod (const TlSleeveShape *shape, const TlLeg *leg)
{
  for (guint i = 0; i < shape->n_cores; i++)
    if (g_strcmp0 (shape->cores[i].body->owner, leg->id) == 0)
      return &shape->cores[i];
  return NULL;
}

/* Cover, barrel, cover in the first row; strips below. Figures are the engine's. */
static GArray *
dimensions_of (const TlDrawing *d, const TlSleeveShape *shape)
{
  GArray              *all = g_array_new (FALSE, FALSE, sizeof (Dimension));
  const TlSealFigures *seal = &d->assembly->seal;
  double               ends[2] = { -HUGE_VAL, -HUGE_VAL }, first_strip = -1.0;
  const TlBody        *body = seal->seal != NULL
                                  ? tl_assembly_find_body (d->assembly, seal->seal, TL_BODY_SEAL, NULL)
                                  : NULL;

  g_array_set_clear_func (all, (GDestroyNotify) dimension_clear);
  if (d->assembly->family == TL_FAMILY_SPLICE)
    add_dimension (all, 0.0, shape->length_mm, 0,
                   tl_dimension_figure (d, d->assembly->splice.overlap_mm));
  if (shape->has_barrel)
    add_dimension (all, 0.0, shape->length_mm, 0,
                   tl_dimension_figure (d, d->assembly->sleeve.length_mm));
  if (body != NULL && body->solids->len > 0)
    {
      double start = tl_solid_start (body), end = tl_solid_end (body);

      if (seal->cover_mm[0] > 0.0 && start + seal->cover_mm[0] <= 1e-6)
        add_dimension (all, start, start + seal->cover_mm[0], 0,
                       tl_dimension_figure (d, seal->cover_mm[0]));
      if (seal->cover_mm[1] > 0.0 && end - seal->cover_mm[1] >= shape->length_mm - 1e-6)
        add_dimension (all, end - seal->cover_mm[1], end, 0,
                       tl_dimension_figure (d, seal->cover_mm[1]));
    }
  for (guint i = 0; i < d->assembly->joint->legs->len && i < 2; i++)
    {
      const TlLeg       *leg = d->assembly->joint->legs->pdata[i];
      const TlSleeveRod *rod = strip_rod (shape, leg);
      double             strip = tl_leg_number (leg, d->assembly->stock, TL_FIELD_STRIP, 0.0);
      g_autofree char   *figure = NULL;
      guint              row;

      if (rod == NULL || fabs (rod->end_mm - rod->start_mm - strip) > 0.01)
        continue;
      row = rod->start_mm >= ends[0] + 1.0 ? 0 : 1;
      ends[row] = rod->end_mm;
      figure = tl_dimension_figure (d, strip);
      /* one figure for both where they are stripped alike */
      if (i == 1 && row == 1 && fabs (strip - first_strip) < 0.005)
        continue;
      first_strip = strip;
      add_dimension (all, rod->start_mm, rod->end_mm, row + 1,
                     g_strdup_printf ("%s %s", tl_draw_text (d, TL_N_ ("strip")), figure));
    }
  return all;
}

static guint
rows_of (const GArray *dimensions)
{
  guint rows = 0;

  for (guint i = 0; i < dimensions->len; i++)
    rows = MAX (rows, g_array_index (dimensions, Dimension, i).row + 1);
  return rows;
}

static void
collect_looks (TlDrawing *d, const TlSleeveShape *shape)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->solids->len > 0 && (guint) body->look < TL_N_LOOKS)
        d->looks_seen[body->look] = d->looks_cut[body->look] = TRUE;
    }
}

/* What the section takes of the height at @scale. */
static double
section_height (const Plan *plan, const TlSleeveShape *shape, double scale)
{
  return plan->top + 2.0 * shape->half_mm * scale + plan->under;
}

static void
plan_init (Plan *plan, TlDrawing *d, const TlSleeveShape *shape, guint rows, double share)
{
  double px = d->px, w = d->options.width;

  *plan = (Plan){ .rows = d->options.show_dimensions ? rows : 0 };
  plan->is_beside =
      w > 1.5 * d->options.height && d->options.show_end_view && has_end_view (d, shape);
  plan->left = 20.0 * px;
  plan->right = w - 20.0 * px;
  if (plan->is_beside)
    plan->right = share * w;
  if (d->options.places != NULL)
    plan->right = MIN (plan->right, w - MIN (178.0 * px, 0.36 * w));
  plan->top = (d->options.show_numbers ? 84.0 : 52.0) * px;
  plan->under = (d->options.show_contacts ? 46.0 : 30.0) * px + plan->rows * ROW_PX * px;
  plan->legend = d->options.show_scale_bar ? 30.0 * px : 8.0 * px;
  if (d->options.show_legend)
    plan->legend = MAX (plan->legend, tl_furniture_legend_height (d) + 4.0 * px);
}

static void
fit (Plan *plan, TlDrawing *d, const TlSleeveShape *shape)
{
  double   px = d->px, h = d->options.height, end_mm = 2.0 * tl_sleeve_end_half_mm (d, shape);
  double   scale = (plan->right - plan->left) / (shape->end_mm - shape->start_mm), room = 1.0;
  gboolean has_end = d->options.show_end_view && has_end_view (d, shape);

  for (guint i = 0; i < 300; i++, scale *= 0.98)
    {
      double standard = tl_standard_scale (d, scale), used = section_height (plan, shape, standard);

      plan->scale = standard;
      if (plan->is_beside || !has_end)
        {
          if (used + plan->legend <= h)
            break;
          continue;
        }
      /* A–A has at least the scale of the section */
      room = h - used - 46.0 * px - (d->legend_is_band ? plan->legend : 18.0 * px);
      if (room >= end_mm * standard * 1.15)
        break;
    }
  if (plan->is_beside)
    {
      plan->end_left = plan->right + 12.0 * px;
      plan->end_right = d->options.width - 12.0 * px;
      plan->end_top = 40.0 * px;
      plan->end_bottom = h - plan->legend - 8.0 * px;
    }
  else
    {
      plan->end_left = 14.0 * px;
      plan->end_right = d->legend_is_band
                            ? d->options.width - 14.0 * px
                            : d->options.width - tl_furniture_legend_width (d) - 36.0 * px;
      plan->end_bottom = h
                         - (d->legend_is_band           ? plan->legend
                            : d->options.show_scale_bar ? 34.0 * px
                                                        : 14.0 * px);
      plan->end_top = section_height (plan, shape, plan->scale) + 26.0 * px;
    }
  room = MIN (plan->end_bottom - plan->end_top - 18.0 * px,
              plan->end_right - plan->end_left - 66.0 * px);
  plan->end_scale = MAX (tl_standard_scale (d, MIN (room / end_mm, plan->scale * 5.0)), 1e-3);
  if (room <= 0.0)
    plan->end_scale = plan->scale;
}

/* On paper a wider section may take the next standard scale. */
static void
plan_best (Plan *plan, TlDrawing *d, const TlSleeveShape *shape, guint rows)
{
  static const double shares[] = { 0.69, 0.74, 0.79 };

  plan_init (plan, d, shape, rows, shares[0]);
  fit (plan, d, shape);
  for (guint i = 1; plan->is_beside && d->options.paper && i < G_N_ELEMENTS (shares); i++)
    {
      Plan other;

      plan_init (&other, d, shape, rows, shares[i]);
      fit (&other, d, shape);
      if (other.scale > plan->scale * 1.01)
        *plan = other;
    }
}

/* In a small area the section itself comes first: the others give way, the end view before the numbers. */
static void
plan_small (Plan *plan, TlDrawing *d, const TlSleeveShape *shape, guint rows)
{
  gboolean *const less[] = { &d->options.show_end_view, &d->options.show_dimensions,
                             &d->options.show_contacts, &d->options.show_numbers };

  plan_best (plan, d, shape, rows);
  for (guint i = 0; i < G_N_ELEMENTS (less); i++)
    {
      double wanted = (plan->right - plan->left) / (shape->end_mm - shape->start_mm);
      /* On paper the next standard scale below, 2 after 5 at the widest step, is still fair. */
      double share = d->options.paper ? 0.399 : 0.5;

      if (plan->scale >= share * tl_standard_scale (d, wanted))
        return;
      *less[i] = FALSE;
      plan_best (plan, d, shape, rows);
    }
}

static void
set_views (TlDrawing *d, const Plan *plan, const TlSleeveShape *shape)
{
  TlView *section = &d->views[TL_VIEW_SECTION], *end = &d->views[TL_VIEW_END];
  double  scale = plan->scale, length = (shape->end_mm - shape->start_mm) * scale;

  section->scale = scale;
  section->x = plan->left + (plan->right - plan->left - length) / 2.0 - shape->start_mm * scale;
  section->y = plan->top + shape->half_mm * scale;
  if (plan->is_beside)
    section->y +=
        MAX (d->options.height - plan->legend - section_height (plan, shape, scale), 0.0) * 0.4;
  section->is_used = d->options.show_section;
  end->scale = plan->end_scale;
  end->x = (plan->end_left + plan->end_right) / 2.0 - 14.0 * d->px;
  end->y = (plan->end_top + plan->end_bottom) / 2.0;
  end->is_used = d->options.show_end_view && has_end_view (d, shape);
  tl_views_zoom (d, section->x + (shape->start_mm + shape->end_mm) / 2.0 * scale, section->y);
}

void
tl_cutting_plane (TlDrawing *d, double cut_mm, double top, double bottom)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];
  double        x = view->x + cut_mm * view->scale, px = d->px;

  d->has_plane = TRUE;
  d->plane_x = x;
  d->view = TL_VIEW_SHEET;
  for (int way = -1; way <= 1; way += 2)
    {
      double y = way < 0 ? top : bottom;

      tl_shape_segment (d, TL_INK_INK, TL_LINE_PLANE, x, y, x, y + way * 13.0 * px);
      tl_shape_segment (d, TL_INK_INK, TL_LINE_DIMENSION, x, y + way * 8.0 * px, x + 12.0 * px,
                        y + way * 8.0 * px);
      tl_path_begin (d);
      tl_path_move (d, x + 12.0 * px, y + way * 8.0 * px);
      tl_path_line (d, x + 5.0 * px, y + way * 8.0 * px - 1.6 * px);
      tl_path_line (d, x + 5.0 * px, y + way * 8.0 * px + 1.6 * px);
      tl_path_close (d);
      tl_shape_fill (d, TL_INK_INK);
      tl_shape_text (d, TL_INK_INK, "A", x + 15.0 * px, y + way * 8.0 * px + 0.36 * d->text,
                     d->text * 1.08, TRUE, 0.0);
    }
}

/* Lines of the rows below run through the first row: its figure gives way to one that would cross it. */
static double
share_of (const TlDrawing *d, const GArray *dimensions, const Dimension *own)
{
  double half = 0.5 * tl_paint_text_width (own->text, d->text, FALSE) + 2.0 * d->px;
  double middle = 0.5 * (own->x0_mm + own->x1_mm), scale = d->views[TL_VIEW_SECTION].scale;

  for (guint i = 0; i < dimensions->len; i++)
    {
      const Dimension *it = &g_array_index (dimensions, Dimension, i);

      if (it->row > own->row
          && (fabs (it->x0_mm - middle) * scale < half || fabs (it->x1_mm - middle) * scale < half))
        return 0.3;
    }
  return 0.5;
}

static void
draw_dimensions (TlDrawing *d, const GArray *dimensions, double under)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  d->view = TL_VIEW_SHEET;
  for (guint i = 0; i < dimensions->len; i++)
    {
      const Dimension *it = &g_array_index (dimensions, Dimension, i);

      tl_dimension_level (
          d, view->x + it->x0_mm * view->scale, view->x + it->x1_mm * view->scale, under,
          under + (d->options.show_contacts ? 52.0 : 38.0) * d->px + it->row * ROW_PX * d->px,
          share_of (d, dimensions, it), it->text);
    }
}

static void
captions (TlDrawing *d, const Plan *plan, const TlSleeveShape *shape)
{
  double           px = d->px;
  g_autofree char *ratio = tl_furniture_ratio (d, d->views[TL_VIEW_SECTION].scale);
  g_autofree char *end_ratio = tl_furniture_ratio (d, d->views[TL_VIEW_END].scale);
  g_autofree char *name = NULL, *end_name = NULL;

  if (d->options.show_section)
    {
      name =
          d->options.paper
              ? g_strdup_printf ("%s   %s", tl_draw_text (d, TL_N_ ("Section lengthwise")), ratio)
              : g_strdup (tl_draw_text (d, "Section lengthwise"));
      tl_furniture_caption (d, name, 16.0 * px, 22.0 * px, 0.0);
    }
  if (!d->views[TL_VIEW_END].is_used || d->options.zoom > 0.0)
    return;
  end_name =
      g_strdup_printf ("A–A%s%s   %s", shape->die_mm > 0.0 ? ", " : "",
                       shape->die_mm > 0.0 ? tl_draw_text (d, TL_N_ ("pressed")) : "", end_ratio);
  if (plan->is_beside)
    tl_furniture_caption (d, end_name, d->options.width - 16.0 * px, 22.0 * px, 1.0);
  else
    tl_furniture_caption (d, end_name, 16.0 * px, plan->end_top - 8.0 * px, 0.0);
}

void
tl_sleeve_lay_out (TlDrawing *d)
{
  TlSleeveShape shape;
  g_autoptr (GArray) dimensions = NULL;
  Plan   plan;
  double top, bottom;

  tl_sleeve_shape (d, &shape);
  dimensions = dimensions_of (d, &shape);
  collect_looks (d, &shape);
  d->legend_is_band = d->options.paper || d->options.width < 560.0 * d->px
                      || !d->options.show_end_view || !has_end_view (d, &shape)
                      || d->options.width > 1.5 * d->options.height;
  d->legend_left = d->options.show_scale_bar && d->legend_is_band ? 150.0 * d->px : 0.0;
  tl_furniture_drop_legend (d);
  plan_small (&plan, d, &shape, rows_of (dimensions));
  set_views (d, &plan, &shape);
  memset (d->looks_seen, 0, sizeof d->looks_seen);
  memset (d->looks_cut, 0, sizeof d->looks_cut);
  top = d->views[TL_VIEW_SECTION].y - shape.half_mm * d->views[TL_VIEW_SECTION].scale;
  bottom = d->views[TL_VIEW_SECTION].y + shape.half_mm * d->views[TL_VIEW_SECTION].scale;
  if (d->views[TL_VIEW_END].is_used)
    tl_sleeve_end_view (d, &shape);
  if (d->options.show_section)
    {
      tl_sleeve_section (d, &shape);
      tl_sleeve_faces (d, &shape);
      if (d->views[TL_VIEW_END].is_used)
        tl_cutting_plane (d, shape.cut_mm, top - 2.0 * d->px, bottom + 2.0 * d->px);
      if (d->options.show_dimensions)
        draw_dimensions (d, dimensions, bottom);
      tl_places_sleeve (d, &shape);
      if (d->options.show_contacts && d->options.places == NULL)
        tl_marks_row (d, bottom + 29.5 * d->px, bottom + 17.5 * d->px, 8.0 * d->px, plan.right);
      if (d->options.show_numbers)
        tl_leaders_row (d, MAX (top - 38.0 * d->px, 44.0 * d->px),
                        MAX (top - 16.0 * d->px, 62.0 * d->px), 14.0 * d->px, plan.right);
    }
  captions (d, &plan, &shape);
}
