/* box-view.c: the layout of the box on a cairo context.
 *
 * Two views beside or below each other, whichever comes out larger, then the figures. Bodies of the joint are shown from
 * outside; a lead is a tube along its axis.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/box-view-private.h"

#include "base/error.h"
#include "base/quantity.h"
#include "draw/picture.h"
#include "rules/wording.h"

#include <math.h>

#define TEXT_SHARE 0.31 /* of the width, for the figures */
#define TEXT_MOST_MM 58.0
#define MARGIN_MM 3.0
#define GAP_MM 9.0 /* between the views */
#define CAPTION_MM 4.2
#define NUMBERS_MM 7.0 /* at each end of the view from the cover */
#define NUMBER_PITCH_MM 4.4
#define LARGEST_RATIO 2.0

/* --- numbers of the leads, outside at the ends --- */

static void
paint_numbers (const TlBoxView *view, gint side)
{
  const TlBoxThing *leads[TL_JOINT_MAX_LEGS];
  guint             count = 0;
  double            middle = 0.0, edge, x, y;

  for (guint i = 0; i < view->layout->things->len; i++)
    {
      const TlBoxThing *thing = &g_array_index (view->layout->things, TlBoxThing, i);

      if (thing->kind != TL_BOX_LEAD || thing->joint != 0 || thing->side != side
          || count == TL_JOINT_MAX_LEGS)
        continue;
      leads[count++] = thing;
      middle += thing->axis_y_mm;
    }
  edge = view->x + (side < 0 ? view->scale * view->x0 : view->scale * view->x1)
         + side * 4.6 * view->unit;
  for (guint i = 0; i < count; i++)
    {
      guint  number = tl_assembly_number (view->assembly, leads[i]->owner);
      double at = view->y + view->scale * middle / count
                  + (i - (count - 1) / 2.0) * NUMBER_PITCH_MM * view->unit;

      tl_box_lead_point (view, leads[i], &x, &y);
      cairo_new_path (view->cr);
      cairo_move_to (view->cr, x, y);
      cairo_line_to (view->cr, edge, at);
      tl_box_line (view, view->palette->ink, 0.15);
      if (number > 0)
        tl_paint_number (view->cr, view->palette, number, edge, at, 3.8 * view->unit, FALSE);
    }
}

/* --- views --- */

static void
paint_things (const TlBoxView *view)
{
  static void (*const painters[]) (const TlBoxView *, const TlBoxThing *) = {
    [TL_BOX_DEVICE] = tl_box_paint_device,
    [TL_BOX_JOINT] = tl_box_paint_joint,
    [TL_BOX_LEAD] = tl_box_paint_lead,
    [TL_BOX_SPARE] = tl_box_paint_spare,
  };
  const GArray *things = view->layout->things;

  /* From the cover what lies deeper comes first; the joints lie before the leads. */
  for (TlBoxKind kind = TL_N_BOX_KINDS; kind-- > 0;)
    for (guint i = 0; i < things->len; i++)
      {
        const TlBoxThing *thing =
            &g_array_index (things, TlBoxThing, view->across == 1 ? things->len - 1 - i : i);

        if (thing->kind == kind)
          painters[kind](view, thing);
      }
  for (guint i = 0; i < things->len; i++)
    if (g_array_index (things, TlBoxThing, i).over_mm > 0.0)
      tl_box_hatch (view, &g_array_index (things, TlBoxThing, i));
  tl_box_outline (view, 0.35 * view->unit / view->scale);
  tl_box_line (view, view->palette->ink, 0.7);
  for (guint i = 0; i < things->len; i++)
    {
      const TlBoxThing *thing = &g_array_index (things, TlBoxThing, i);

      if (thing->over_mm > 0.0 && thing->kind != TL_BOX_LEAD)
        tl_box_mark_change (view, thing);
    }
}

static void
caption (const TlBoxView *view, const char *text, double y)
{
  tl_paint_set_colour (view->cr, view->palette->muted);
  tl_paint_text (view->cr, text, view->x + view->scale * (view->x0 + view->x1) / 2.0, y,
                 0.92 * view->size, FALSE, 0.5);
}

static void
paint_view (TlBoxView *view, guint across, double x, double y)
{
  g_autofree char *figure = NULL;
  g_autofree char *text = NULL;
  double           ratio = view->unit / view->scale;

  view->across = across;
  view->x = x;
  view->y = y;
  tl_box_paint_walls (view);
  paint_things (view);
  if (across == 2)
    {
      caption (view, tl_language_text (view->language, TL_N_ ("from the side, cover on top")),
               y + view->scale * view->z1 + CAPTION_MM * view->unit);
      return;
    }
  paint_numbers (view, -1);
  paint_numbers (view, 1);
  figure = tl_language_number (view->language, ratio >= 1.0 ? ratio : 1.0 / ratio,
                               fabs (ratio - round (ratio)) < 0.05 ? 0 : 1);
  text = g_strdup_printf (ratio >= 1.0 ? "%s, 1 : %s" : "%s, %s : 1",
                          tl_language_text (view->language, TL_N_ ("from the cover")), figure);
  caption (view, text, y + view->scale * view->y1 + CAPTION_MM * view->unit);
}

/* --- figures --- */

static char *
lengths_text (const TlLanguage *language, const char *msgid, double wanted_mm, double has_mm)
{
  g_autofree char *wanted = tl_quantity_format (wanted_mm, "mm", language);
  g_autofree char *has = tl_quantity_format (has_mm, "mm", language);

  return tl_wording_fill (tl_language_text (language, msgid), "wanted", wanted, "has", has, NULL);
}

static char *
joints_text (const TlBoxLayout *layout, const TlLanguage *language)
{
  g_autofree char *joints = g_strdup_printf ("%u", layout->joints);
  g_autofree char *fitting = g_strdup_printf ("%u", layout->fitting);

  if (layout->joints == 1)
    return g_strdup (tl_language_text (
        language, layout->fitting == 1 ? TL_N_ ("The joint goes in with its bends.")
                                       : TL_N_ ("The joint does not go in with its bends.")));
  return tl_wording_fill (
      tl_language_text (language,
                        layout->fitting == layout->joints
                            ? TL_N_ ("All {joints} joints go in with their bends.")
                            : TL_N_ ("{fitting} of {joints} joints go in with their bends.")),
      "joints", joints, "fitting", fitting, NULL);
}

/* Sentence and mark, from the worst to what is only told. (nullable) past the last. */
static char *
sentence (const TlBoxLayout *layout, const TlLanguage *language, guint index, TlMark *mark)
{
  gboolean         fits = layout->over_mm <= 0.0;
  gboolean         in_depth = layout->wanted_depth_mm <= layout->depth_mm + 1e-6;
  gboolean         in_length = layout->wanted_length_mm <= layout->length_mm + 1e-6;
  g_autofree char *over = NULL;

  *mark = TL_MARK_SOUND;
  switch (index)
    {
    case 0:
      *mark = fits ? TL_MARK_SOUND : TL_MARK_CHANGE;
      return joints_text (layout, language);
    case 1:
      if (fits)
        return g_strdup ("");
      *mark = TL_MARK_CHANGE;
      over = tl_quantity_format (layout->over_mm, "mm", language);
      return tl_wording_fill (tl_language_text (language, layout->over_way == TL_BOX_WAY_DEPTH
                                                              ? TL_N_ ("Too deep by {over}.")
                                                          : layout->over_way == TL_BOX_WAY_WIDTH
                                                              ? TL_N_ ("Too wide by {over}.")
                                                              : TL_N_ ("Too long by {over}.")),
                              "over", over, NULL);
    case 2:
      *mark = in_length ? TL_MARK_SOUND : TL_MARK_CHANGE;
      return lengths_text (language, TL_N_ ("Length with both bends {wanted}, the box has {has}."),
                           layout->wanted_length_mm, layout->length_mm);
    case 3:
      *mark = in_depth ? TL_MARK_SOUND : TL_MARK_CHANGE;
      return lengths_text (language, TL_N_ ("Depth for everything {wanted}, the box has {has}."),
                           layout->wanted_depth_mm, layout->depth_mm);
    default:
      return NULL;
    }
}

static const char *
footnote (const TlLanguage *language)
{
  return tl_language_text (language,
                           TL_N_ ("Each lead bends once at its joint; its further length lies "
                                  "folded on the back. Other ways of laying them are "
                                  "possible."));
}

char *
tl_box_view_describe (const TlBoxLayout *layout, const TlLanguage *language)
{
  GString *text = g_string_new (NULL);
  char    *line_text;
  TlMark   mark;

  g_return_val_if_fail (layout != NULL && language != NULL, g_string_free (text, FALSE));

  for (guint i = 0; (line_text = sentence (layout, language, i, &mark)) != NULL; i++)
    {
      if (*line_text != '\0')
        g_string_append_printf (text, "%s\n", line_text);
      g_free (line_text);
    }
  g_string_append_printf (text, "%s\n", footnote (language));
  return g_string_free (text, FALSE);
}

static void
paint_figures (const TlBoxView *view, double x, double y, double width)
{
  double indent = 1.9 * view->size;
  char  *text;
  TlMark mark;

  for (guint i = 0; (text = sentence (view->layout, view->language, i, &mark)) != NULL; i++)
    {
      if (*text != '\0')
        {
          tl_paint_mark (view->cr, view->palette, mark, x + 0.6 * view->size, y + 0.68 * view->size,
                         1.1 * view->size);
          tl_paint_set_colour (view->cr, view->palette->ink);
          y += tl_paint_paragraph (view->cr, text, x + indent, y, width - indent, view->size, i < 2,
                                   TRUE)
               + 0.5 * view->size;
        }
      g_free (text);
    }
  tl_paint_set_colour (view->cr, view->palette->muted);
  tl_paint_paragraph (view->cr, footnote (view->language), x, y + 0.4 * view->size, width,
                      0.88 * view->size, FALSE, TRUE);
}

/* --- laying out --- */

static void
find_extent (TlBoxView *view)
{
  const TlBoxLayout *layout = view->layout;

  view->x0 = -layout->length_mm / 2.0;
  view->x1 = layout->length_mm / 2.0;
  view->y0 = -layout->width_mm / 2.0;
  view->y1 = layout->width_mm / 2.0;
  view->z1 = layout->depth_mm;
  for (guint i = 0; i < layout->things->len; i++)
    {
      const TlBoxThing *thing = &g_array_index (layout->things, TlBoxThing, i);

      view->x0 = MIN (view->x0, thing->x0_mm);
      view->x1 = MAX (view->x1, thing->x1_mm);
      view->y0 = MIN (view->y0, thing->y0_mm);
      view->y1 = MAX (view->y1, thing->y1_mm);
      view->z1 = MAX (view->z1, thing->z1_mm);
    }
}

/* Scales of paper, in units for one mm: those of ISO 5455 and steps between, since the place is small. */
static double
round_scale (const TlBoxView *view, double scale)
{
  static const double ratios[] = { 2.0,  1.0, 1.0 / 1.5, 0.5,  0.4,  1.0 / 3.0,
                                   0.25, 0.2, 0.1,       0.05, 0.02, 0.01 };

  if (view->palette->scheme != TL_SCHEME_ONE_INK)
    return scale;
  for (guint i = 0; i < G_N_ELEMENTS (ratios); i++)
    if (ratios[i] * view->unit <= scale)
      return ratios[i] * view->unit;
  return scale;
}

void
tl_box_view_paint (cairo_t *cr, const TlPalette *palette, const TlAssembly *assembly,
                   const TlBoxLayout *layout, double width, double height, double unit,
                   const TlLanguage *language)
{
  TlBoxView view = { .cr = cr,
                     .palette = palette,
                     .assembly = assembly,
                     .layout = layout,
                     .language = language,
                     .unit = unit };
  double    margin = MARGIN_MM * unit, text = MIN (TEXT_SHARE * width, TEXT_MOST_MM * unit), left,
         wide, deep, high;
  double room, tall, beside, below, caption_high = (CAPTION_MM + 1.2) * unit,
                                    numbers = NUMBERS_MM * unit, x, y;

  g_return_if_fail (cr != NULL && layout != NULL && assembly != NULL);

  view.size = palette->scheme == TL_SCHEME_ONE_INK ? 2.6 * unit : 3.0 * unit;
  find_extent (&view);
  wide = view.x1 - view.x0;
  high = view.y1 - view.y0;
  deep = view.z1;
  room = width - text - 3.0 * margin - 2.0 * numbers;
  tall = height - 2.0 * margin - caption_high;
  if (room <= 0.0 || tall <= caption_high)
    return;
  beside = MIN ((room - GAP_MM * unit) / (2.0 * wide), tall / MAX (high, deep));
  below = MIN (room / wide, (tall - caption_high - 0.5 * GAP_MM * unit) / (high + deep));
  view.scale = round_scale (&view, MIN (MAX (beside, below), LARGEST_RATIO * unit));
  if (!(view.scale > 0.0))
    return;
  left = margin + numbers;
  if (beside >= below)
    {
      double extra = 0.3 * MAX (room - 2.0 * view.scale * wide - GAP_MM * unit, 0.0);

      y = margin + (tall - view.scale * MAX (high, deep)) / 2.0;
      x = left + extra - view.scale * view.x0;
      paint_view (&view, 1, x, y - view.scale * view.y0);
      paint_view (&view, 2, x + view.scale * wide + GAP_MM * unit + numbers + extra, y);
    }
  else
    {
      y = margin + (tall - caption_high - 0.5 * GAP_MM * unit - view.scale * (high + deep)) / 2.0;
      x = left + (room - view.scale * wide) / 2.0 - view.scale * view.x0;
      paint_view (&view, 1, x, y - view.scale * view.y0);
      paint_view (&view, 2, x, y + view.scale * high + caption_high + 0.5 * GAP_MM * unit);
    }
  paint_figures (&view, width - margin - text, margin + 1.0 * unit, text);
}

/* --- to a file --- */

typedef struct
{
  const TlAssembly  *assembly;
  const TlBoxLayout *layout;
  const TlLanguage  *language;
} Export;

static void
paint_export (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
              gpointer data)
{
  const Export *self = data;

  tl_box_view_paint (cr, palette, self->assembly, self->layout, width, height, unit,
                     self->language);
}

gboolean
tl_box_view_save (const TlVerdict *verdict, TlPictureKind kind, double width_mm, double height_mm,
                  TlScheme scheme, const char *path, const TlLanguage *language, GError **error)
{
  g_autoptr (TlBoxLayout) layout = NULL;
  Export self;

  g_return_val_if_fail (verdict != NULL && path != NULL && language != NULL, FALSE);

  layout = tl_box_layout_new (verdict->assembly);
  if (layout == NULL)
    {
      g_set_error_literal (
          error, TL_ERROR, TL_ERROR_RANGE,
          tl_language_text (language, TL_N_ ("The box cannot be drawn: its inner width and depth "
                                             "are not entered, or the joint has no size "
                                             "yet.")));
      return FALSE;
    }
  self = (Export){ verdict->assembly, layout, language };
  return tl_picture_save (paint_export, &self, kind, width_mm, height_mm, scheme, path, language,
                          error);
}
