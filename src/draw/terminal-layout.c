/* terminal-layout.c: a terminal in an area: section along its bores with dimensions, A–A below or beside it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/terminal-private.h"

#define ROW_PX 24.0
#define STEPS 300

typedef struct
{
  double   top, under, left, right, legend; /* units */
  double   end_left, end_right, end_top, end_bottom;
  double   scale;
  guint    rows; /* of dimensions */
  gboolean is_beside;
} Plan;

/* --- dimensions: the metal, then what is stripped on both sides --- */

static const TlSolid *
bare_part (const TlDrawing *d, const TlLeg *leg)
{
  const TlBody *core = tl_assembly_find_body (d->assembly, leg->id, TL_BODY_CORE, NULL);

  return core != NULL && core->solids->len > 0 ? &g_array_index (core->solids, TlSolid, 0) : NULL;
}

static void
level (TlDrawing *d, double x0, double x1, guint row, double under, const char *text)
{
  const TlView *view = &d->views[TL_VIEW_SECTION];

  tl_dimension_level (d, view->x + x0 * view->scale, view->x + x1 * view->scale, under,
                      under + ((d->options.show_contacts ? 52.0 : 38.0) + row * ROW_PX) * d->px,
                      0.5, text);
}

static void
draw_dimensions (TlDrawing *d, double under)
{
  const TlTerminalFigures *figures = &d->assembly->terminal;
  g_autofree char         *length = tl_dimension_figure (d, figures->length_mm);
  double                   free_from = -HUGE_VAL;

  d->view = TL_VIEW_SHEET;
  level (d, 0.0, figures->length_mm, 0, under, length);
  for (guint port = 1; port <= 2; port++)
    for (guint i = 0; i < d->assembly->joint->legs->len; i++)
      {
        const TlLeg     *leg = d->assembly->joint->legs->pdata[i];
        const TlSolid   *bare = leg->seat.place == port ? bare_part (d, leg) : NULL;
        double           strip = tl_leg_number (leg, d->assembly->stock, TL_FIELD_STRIP, 0.0);
        g_autofree char *figure = tl_dimension_figure (d, strip);
        g_autofree char *text = g_strdup_printf ("%s %s", tl_draw_text (d, "strip"), figure);

        if (bare == NULL || bare->start_mm < free_from
            || fabs (bare->end_mm - bare->start_mm - strip) > 0.01)
          continue;
        level (d, bare->start_mm, bare->end_mm, 1, under, text);
        free_from = bare->end_mm;
      }
}

/* --- where everything stands --- */

static double
section_height (const Plan *plan, const TlTerminalShape *shape, double scale)
{
  return plan->top + shape->height_mm * scale + plan->under;
}

static void
plan_init (Plan *plan, TlDrawing *d)
{
  double px = d->px, w = d->options.width;

  *plan = (Plan){ .rows = d->options.show_dimensions ? 2 : 0, .left = 20.0 * px };
  plan->is_beside = w > 1.5 * d->options.height && d->options.show_end_view;
  plan->right = plan->is_beside ? 0.69 * w : w - 20.0 * px;
  if (d->options.places != NULL)
    plan->right = MIN (plan->right, w - MIN (178.0 * px, 0.36 * w));
  plan->top = (d->options.show_numbers ? 84.0 : 52.0) * px;
  plan->under = (d->options.show_contacts ? 46.0 : 30.0) * px + plan->rows * ROW_PX * px;
  plan->legend = d->options.show_scale_bar ? 30.0 * px : 8.0 * px;
  if (d->options.show_legend)
    plan->legend = MAX (plan->legend, tl_furniture_legend_height (d) + 4.0 * px);
}

static void
fit (Plan *plan, TlDrawing *d, const TlTerminalShape *shape)
{
  double px = d->px, h = d->options.height, end_mm = shape->z1_mm - shape->z0_mm;
  double scale = (plan->right - plan->left) / (shape->end_mm - shape->start_mm);

  for (guint i = 0; i < STEPS; i++, scale *= 0.98)
    {
      double used, room;

      plan->scale = tl_standard_scale (d, scale);
      used = section_height (plan, shape, plan->scale);
      room = plan->is_beside || !d->options.show_end_view
                 ? h - used - plan->legend
                 : h - used - 56.0 * px - (d->legend_is_band ? plan->legend : 18.0 * px)
                       - end_mm * plan->scale * 0.8;
      if (room >= 0.0)
        break;
    }
  if (plan->is_beside)
    {
      plan->end_left = plan->right + 12.0 * px;
      plan->end_right = d->options.width - 12.0 * px;
      plan->end_top = 44.0 * px;
      plan->end_bottom = h - plan->legend - 8.0 * px;
      return;
    }
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

static void
set_views (TlDrawing *d, const Plan *plan, const TlTerminalShape *shape)
{
  TlView *section = &d->views[TL_VIEW_SECTION], *end = &d->views[TL_VIEW_END];
  double  length = (shape->end_mm - shape->start_mm) * plan->scale;
  double  wide = shape->y1_mm - shape->y0_mm, high = shape->z1_mm - shape->z0_mm, room;

  section->scale = plan->scale;
  section->x =
      plan->left + (plan->right - plan->left - length) / 2.0 - shape->start_mm * plan->scale;
  section->y = plan->top - shape->strips[0].low_mm * plan->scale;
  if (plan->is_beside)
    section->y +=
        MAX (d->options.height - plan->legend - section_height (plan, shape, plan->scale), 0.0)
        * 0.4;
  section->is_used = d->options.show_section;
  /* room for its dimension on the right */
  room = MIN ((plan->end_bottom - plan->end_top - 18.0 * d->px) / high,
              (plan->end_right - plan->end_left - 66.0 * d->px) / wide);
  end->scale = room > 0.0 ? tl_standard_scale (d, MIN (room, plan->scale * 3.0)) : plan->scale;
  end->x = (plan->end_left + plan->end_right) / 2.0 - 14.0 * d->px
           - (shape->y0_mm + shape->y1_mm) / 2.0 * end->scale;
  end->y =
      (plan->end_top + plan->end_bottom) / 2.0 - (shape->z0_mm + shape->z1_mm) / 2.0 * end->scale;
  end->is_used = d->options.show_end_view;
  if (d->options.zoom <= 0.0)
    return;
  section->x = d->options.width / 2.0 - (shape->start_mm + shape->end_mm) / 2.0 * d->options.zoom
               + d->options.pan_x;
  section->y += d->options.pan_y;
  end->x += d->options.pan_x;
  end->y += d->options.pan_y + MAX (d->options.zoom - plan->scale, 0.0) * shape->height_mm;
  end->scale *= d->options.zoom / plan->scale;
  section->scale = d->options.zoom;
}

static void
captions (TlDrawing *d, const Plan *plan, const TlTerminalShape *shape)
{
  double           px = d->px;
  const char      *what = shape->is_level
                              ? tl_draw_text (d, TL_N_ ("Section lengthwise, seen from the screws"))
                              : tl_draw_text (d, "Section lengthwise");
  g_autofree char *ratio = tl_furniture_ratio (d, d->views[TL_VIEW_SECTION].scale);
  g_autofree char *end_ratio = tl_furniture_ratio (d, d->views[TL_VIEW_END].scale);
  g_autofree char *name = g_strdup_printf ("%s   %s", what, ratio);
  g_autofree char *end_name = g_strdup_printf ("A–A   %s", end_ratio);

  if (d->options.show_section)
    tl_furniture_caption (d, d->options.paper ? name : what, 16.0 * px, 22.0 * px, 0.0);
  if (!d->views[TL_VIEW_END].is_used)
    return;
  if (plan->is_beside)
    tl_furniture_caption (d, end_name, d->options.width - 16.0 * px, 22.0 * px, 1.0);
  else
    tl_furniture_caption (d, end_name, 16.0 * px, plan->end_top - 8.0 * px, 0.0);
}

static void
collect_looks (TlDrawing *d)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->solids->len > 0 && (guint) body->look < TL_N_LOOKS)
        d->looks_seen[body->look] = d->looks_cut[body->look] = TRUE;
    }
}

void
tl_terminal_lay_out (TlDrawing *d)
{
  TlTerminalShape shape;
  Plan            plan;
  double          top, bottom;
  const TlView   *view = &d->views[TL_VIEW_SECTION];

  tl_terminal_shape (d, &shape);
  collect_looks (d);
  d->legend_is_band = d->options.paper || d->options.width < 560.0 * d->px
                      || !d->options.show_end_view || d->options.width > 1.5 * d->options.height;
  d->legend_left = d->options.show_scale_bar && d->legend_is_band ? 150.0 * d->px : 0.0;
  plan_init (&plan, d);
  fit (&plan, d, &shape);
  set_views (d, &plan, &shape);
  memset (d->looks_seen, 0, sizeof d->looks_seen);
  memset (d->looks_cut, 0, sizeof d->looks_cut);
  top = view->y + shape.strips[0].low_mm * view->scale;
  bottom = top + shape.height_mm * view->scale;
  if (d->views[TL_VIEW_END].is_used)
    tl_terminal_end_view (d, &shape);
  if (d->options.show_section)
    {
      tl_terminal_section (d, &shape);
      tl_terminal_faces (d, &shape);
      if (d->views[TL_VIEW_END].is_used)
        tl_cutting_plane (d, shape.cut_mm, top - 2.0 * d->px, bottom + 2.0 * d->px);
      if (d->options.show_dimensions)
        draw_dimensions (d, bottom);
      tl_places_terminal (d);
      if (d->options.show_contacts && d->options.places == NULL)
        tl_marks_row (d, bottom + 29.5 * d->px, bottom + 17.5 * d->px, 8.0 * d->px, plan.right);
      if (d->options.show_numbers)
        tl_leaders_row (d, MAX (top - 38.0 * d->px, 44.0 * d->px),
                        MAX (top - 16.0 * d->px, 62.0 * d->px), 14.0 * d->px, plan.right);
    }
  captions (d, &plan, &shape);
}
