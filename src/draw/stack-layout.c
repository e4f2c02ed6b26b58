/* stack-layout.c: a bolted stack in an area: section above and view from the head below it (first angle), or side
 * by side where the area is wide.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

/* Bare and insulated lead that is drawn beyond the stack before it is broken off. */
#define LEAD_BEYOND_MM 5.0

static void
extend_by_rod (TlStackExtent *e, const TlSolid *solid, gboolean is_insulation)
{
  double far = hypot (solid->x1_mm, solid->y1_mm), near = hypot (solid->x0_mm, solid->y0_mm);

  e->lead_mm = MAX (e->lead_mm, is_insulation ? MIN (near + LEAD_BEYOND_MM, far) : 0.0);
  if (fabs (solid->y1_mm) > 0.35 * fabs (solid->x1_mm))
    e->leads_across = TRUE;
  else if (solid->x1_mm > 0.0)
    e->leads_right = TRUE;
  else
    e->leads_left = TRUE;
}

void
tl_stack_extent (TlDrawing *d, TlStackExtent *extent)
{
  *extent = (TlStackExtent){ .top_mm = HUGE_VAL, .bottom_mm = -HUGE_VAL };
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      for (guint k = 0; k < body->solids->len; k++)
        {
          const TlSolid *solid = &g_array_index (body->solids, TlSolid, k);

          if (solid->kind == TL_SOLID_ROD)
            {
              extend_by_rod (extent, solid, body->role == TL_BODY_INSULATION);
              extent->top_mm = MIN (extent->top_mm, solid->z0_mm - solid->outer_mm / 2.0);
              extent->bottom_mm = MAX (extent->bottom_mm, solid->z0_mm + solid->outer_mm / 2.0);
              continue;
            }
          extent->top_mm = MIN (extent->top_mm, solid->start_mm);
          extent->bottom_mm = MAX (extent->bottom_mm, solid->end_mm);
          extent->reach_mm = MAX (extent->reach_mm,
                                  fabs (solid->u_mm)
                                      + (solid->kind == TL_SOLID_HEX ? solid->outer_mm / sqrt (3.0)
                                                                     : solid->outer_mm / 2.0));
        }
    }
  if (!(extent->bottom_mm > extent->top_mm))
    {
      extent->top_mm = 0.0;
      extent->bottom_mm = 1.0;
    }
  extent->reach_mm = MAX (extent->reach_mm, 0.5);
  extent->lead_mm = MAX (extent->lead_mm, extent->reach_mm + TL_LEAD_LEAST_MM);
  extent->left_mm = extent->leads_left ? extent->lead_mm : extent->reach_mm;
  extent->right_mm = extent->leads_right ? extent->lead_mm : extent->reach_mm;
}

/* --- fitting --- */

typedef struct
{
  double   left, right, top, bottom; /* margins, units */
  double   between;                  /* between the views */
  double   dims;                     /* under the end view */
  gboolean is_beside;
} Margins;

/* Shortens the leads so that both views fit at @scale; %FALSE if even short ones do not. */
static gboolean
fits (const TlDrawing *d, const Margins *m, TlStackExtent *e, double scale)
{
  double height = (e->bottom_mm - e->top_mm + d->opened_mm) * scale;
  double around = 2.0 * (e->leads_across ? e->reach_mm + TL_LEAD_LEAST_MM : e->reach_mm) * scale;
  double width = d->options.width - m->left - m->right,
         room = d->options.height - m->top - m->bottom;
  gboolean both = d->options.show_end_view && d->options.show_section;
  double   lead;

  if (m->is_beside)
    {
      width = (width - m->between) / (both ? 2.0 : 1.0);
      if (height > room || (d->options.show_end_view && around + m->dims > room))
        return FALSE;
    }
  else if ((d->options.show_section ? height : 0.0)
               + (d->options.show_end_view ? around + m->dims : 0.0) + (both ? m->between : 0.0)
           > room)
    return FALSE;
  lead = width / scale / 2.0;
  if (lead < e->reach_mm + (e->leads_left || e->leads_right ? TL_LEAD_LEAST_MM : 0.2))
    return FALSE;
  e->lead_mm = MIN (e->lead_mm, lead);
  return TRUE;
}

static double
best_scale (const TlDrawing *d, const Margins *m, TlStackExtent *extent)
{
  double scale = MAX (d->options.height, d->options.width) / (extent->bottom_mm - extent->top_mm);

  for (guint i = 0; i < 400; i++, scale *= 0.98)
    {
      TlStackExtent tried = *extent;
      double        standard = tl_standard_scale (d, scale);

      if (fits (d, m, &tried, standard))
        {
          *extent = tried;
          return standard;
        }
    }
  return scale;
}

static void
set_margins (const TlDrawing *d, Margins *m)
{
  double px = d->px;

  *m = (Margins){ 14.0 * px, 14.0 * px, 34.0 * px, 16.0 * px, 22.0 * px, 0.0, FALSE };
  m->is_beside = d->options.width > 1.5 * d->options.height;
  if (d->options.show_numbers)
    m->left = (d->options.overlay == TL_OVERLAY_HEAT ? 84.0 : 58.0) * px;
  if (d->options.overlay == TL_OVERLAY_WET)
    m->right = 52.0 * px;
  else if (d->options.show_contacts && d->options.overlay == TL_OVERLAY_NONE)
    m->right = 52.0 * px;
  else if (d->options.show_dimensions && !m->is_beside)
    m->right = 44.0 * px;
  if (d->options.places != NULL)
    m->right = MIN (185.0 * px, 0.36 * d->options.width);
  if (d->options.show_dimensions)
    m->dims = 30.0 * px;
  if (m->is_beside)
    m->between = (d->options.show_contacts && d->options.places == NULL ? 70.0
                  : d->options.show_dimensions                          ? 62.0
                                                                        : 30.0)
                 * px;
  if (m->is_beside && d->options.show_scale_bar)
    m->bottom = 30.0 * px;
  if (d->options.show_legend && d->legend_is_band)
    m->bottom = MAX (m->bottom, tl_furniture_legend_height (d) + 6.0 * px);
  else if (!d->options.show_end_view)
    m->bottom = 44.0 * px;
}

/* The looks are known only once the shapes are there; the legend's size is wanted before. */
static void
collect_looks (TlDrawing *d)
{
  for (guint i = 0; i < d->assembly->bodies->len; i++)
    {
      const TlBody *body = d->assembly->bodies->pdata[i];

      if (body->solids->len > 0 && (guint) body->look < TL_N_LOOKS)
        d->looks_seen[body->look] = TRUE;
    }
}

static void
set_views (TlDrawing *d, const Margins *m, const TlStackExtent *e, double scale)
{
  double height = (e->bottom_mm - e->top_mm + d->opened_mm) * scale;
  double around = 2.0 * (e->leads_across ? e->reach_mm + TL_LEAD_LEAST_MM : e->reach_mm) * scale;
  double width = d->options.width - m->left - m->right,
         room = d->options.height - m->top - m->bottom;
  TlView  *section = &d->views[TL_VIEW_SECTION], *end = &d->views[TL_VIEW_END];
  gboolean both = d->options.show_end_view && d->options.show_section;

  section->scale = end->scale = scale;
  section->is_used = d->options.show_section;
  end->is_used = d->options.show_end_view;
  if (m->is_beside)
    {
      double each = both ? (width - m->between) / 2.0 : width;

      section->x = m->left + each / 2.0;
      section->y = m->top + (room - height) / 2.0 - e->top_mm * scale;
      end->x = d->options.width - m->right - each / 2.0;
      end->y = m->top + (room - m->dims) / 2.0;
    }
  else
    {
      double spare = room - (section->is_used ? height : 0.0)
                     - (end->is_used ? around + m->dims : 0.0) - (both ? m->between : 0.0);

      section->x = end->x = m->left + width / 2.0;
      section->y = m->top + MAX (spare, 0.0) * 0.3 - e->top_mm * scale;
      end->y = d->options.height - m->bottom - m->dims - around / 2.0 - MAX (spare, 0.0) * 0.3;
    }
  tl_views_zoom (d, section->x,
                 section->y + (e->top_mm + e->bottom_mm + d->opened_mm) / 2.0 * scale);
}

static void
captions (TlDrawing *d, const Margins *m)
{
  double           px = d->px;
  g_autofree char *ratio = tl_furniture_ratio (d, d->views[TL_VIEW_SECTION].scale);
  g_autofree char *scaled = NULL;
  const TlView    *end = &d->views[TL_VIEW_END];

  if (d->options.show_section)
    {
      scaled = g_strdup_printf ("%s   %s",
                                tl_draw_text (d, TL_N_ ("Section through the bolt axis")), ratio);
      tl_furniture_caption (
          d, d->options.paper ? scaled : tl_draw_text (d, "Section through the bolt axis"),
          16.0 * px, 22.0 * px, 0.0);
    }
  if (d->opened_mm > 0.0)
    tl_furniture_caption (d, tl_draw_text (d, TL_N_ ("Opened for placing; closes to true scale")),
                          d->options.width - 16.0 * px, 22.0 * px, 1.0);
  if (d->options.show_end_view && d->options.zoom <= 0.0)
    {
      double y = m->is_beside ? 22.0 * px : end->y - end->scale * 2.0 - 26.0 * px;

      if (!d->options.show_section)
        tl_furniture_caption (d, tl_draw_text (d, TL_N_ ("Seen from the head")), 16.0 * px,
                              22.0 * px, 0.0);
      else if (d->opened_mm <= 0.0 || !m->is_beside)
        tl_furniture_caption (d, tl_draw_text (d, TL_N_ ("Seen from the head")),
                              d->options.width - 16.0 * px, y, 1.0);
    }
}

void
tl_stack_lay_out (TlDrawing *d)
{
  TlStackExtent extent;
  Margins       margins;
  double        scale, px = d->px;

  tl_stack_extent (d, &extent);
  if (d->options.places != NULL)
    {
      guint index;

      d->stack = tl_joint_stack (d->assembly->joint);
      if (d->options.lifted != NULL
          && g_ptr_array_find_with_equal_func (d->stack, d->options.lifted, g_str_equal, &index))
        {
          d->lifted_from = index;
          g_ptr_array_remove_index (d->stack, index);
        }
      d->opened_mm = tl_places_opening_mm (d, G_MAXUINT);
    }
  collect_looks (d);
  d->legend_is_band =
      d->options.paper || d->options.width < 560.0 * px || d->options.overlay != TL_OVERLAY_NONE;
  d->legend_left = d->options.show_scale_bar && d->legend_is_band ? 150.0 * px : 0.0;
  tl_furniture_drop_legend (d);
  set_margins (d, &margins);
  scale = best_scale (d, &margins, &extent);
  extent.left_mm = extent.leads_left ? extent.lead_mm : extent.reach_mm;
  extent.right_mm = extent.leads_right ? extent.lead_mm : extent.reach_mm;
  set_views (d, &margins, &extent, scale);
  scale = d->views[TL_VIEW_SECTION].scale;
  memset (d->looks_seen, 0, sizeof d->looks_seen);
  memset (d->looks_cut, 0, sizeof d->looks_cut);
  if (d->options.show_end_view)
    tl_stack_end_view (d, &extent);
  if (d->options.show_section)
    {
      double x = d->views[TL_VIEW_SECTION].x, top = 30.0 * px,
             bottom = d->options.height - margins.bottom;

      tl_stack_section (d, &extent);
      if (!margins.is_beside && d->options.show_end_view)
        bottom =
            d->views[TL_VIEW_SECTION].y + (extent.bottom_mm + d->opened_mm) * scale + 12.0 * px;
      bottom = MIN (MAX (bottom, 120.0 * px), d->options.height - 4.0 * px);
      tl_stack_faces (d, &extent);
      tl_places_stack (d, &extent);
      if (d->options.show_contacts && d->options.places == NULL)
        tl_marks_column (
            d, MIN (x + extent.right_mm * scale + 34.0 * px, d->options.width - 16.0 * px),
            x + extent.reach_mm * scale + 7.0 * px, top, bottom);
      if (d->options.show_numbers)
        tl_leaders_column (d, (d->options.overlay == TL_OVERLAY_HEAT ? 54.0 : 26.0) * px,
                           MIN (x - extent.left_mm * scale, x - extent.reach_mm * scale - 8.0 * px)
                               - 3.0 * px,
                           top, bottom);
    }
  captions (d, &margins);
}
