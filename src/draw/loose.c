/* loose.c: what is not in the joint yet: the empty bench, and parts that lie beside the joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/part-private.h"

#define STRIP_PX 64.0
#define MOST_SCALE_PX 22.0

typedef struct
{
  const char *owner;
  TlPartKind  kind;
  TlFacts    *facts;
  guint       number;
} Loose;

static void
loose_clear (Loose *loose)
{
  tl_facts_unref (loose->facts);
}

static gboolean
has_body (const TlAssembly *assembly, const char *owner)
{
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      if (body->solids->len > 0 && g_strcmp0 (body->owner, owner) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The facts of a part with the person's own laid over them. */
static TlFacts *
merged (const TlStock *stock, const char *part_id, const TlFacts *own)
{
  const TlPart *part = part_id != NULL ? tl_stock_part (stock, part_id) : NULL;
  TlFacts      *facts = part != NULL ? tl_facts_ref (part->facts) : tl_facts_new ();

  for (guint i = 0; i < tl_facts_count (own); i++)
    {
      TlFacts *next = tl_facts_with (facts, tl_facts_at (own, i));

      tl_facts_unref (facts);
      facts = next;
    }
  return facts;
}

static GArray *
loose_of (const TlDrawing *d)
{
  GArray           *all = g_array_new (FALSE, FALSE, sizeof (Loose));
  const TlAssembly *assembly = d->assembly;
  guint             next = assembly->order->len + 1;

  g_array_set_clear_func (all, (GDestroyNotify) loose_clear);
  for (guint i = 0; i < assembly->joint->legs->len; i++)
    {
      const TlLeg *leg = assembly->joint->legs->pdata[i];
      Loose loose = { leg->id, TL_PART_CONDUCTOR, NULL, tl_assembly_number (assembly, leg->id) };

      if (has_body (assembly, leg->id))
        continue;
      if (loose.number == 0)
        loose.number = next++;
      loose.facts = merged (assembly->stock, leg->part, leg->facts);
      g_array_append_val (all, loose);
    }
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];
      Loose loose = { layer->id, layer->kind, NULL, tl_assembly_number (assembly, layer->id) };

      /* a film in the joint has no body of its own and is no loose part */
      if (has_body (assembly, layer->id) || (layer->seat.kind != TL_SEAT_NONE && loose.number != 0))
        continue;
      if (loose.number == 0)
        loose.number = next++;
      loose.facts = merged (assembly->stock, layer->part, layer->facts);
      g_array_append_val (all, loose);
    }
  return all;
}

double
tl_loose_height (const TlDrawing *d)
{
  g_autoptr (GArray) all = loose_of (d);

  return all->len > 0 ? STRIP_PX * d->px : 0.0;
}

/* One scale for all of them, so that they can be compared. */
static double
common_scale (const TlDrawing *d, const GArray *all, double width, double height)
{
  double scale = MOST_SCALE_PX * d->px, room = MAX (width - 34.0 * d->px, 1.0 * d->px);

  for (guint i = 0; i < all->len; i++)
    {
      const Loose *loose = &g_array_index (all, Loose, i);
      double       length, thick;

      tl_part_extent (d->assembly->stock, loose->kind, loose->facts, &length, &thick);
      scale = MIN (scale, MIN (room / length, height / thick));
    }
  return scale;
}

static void
stub (TlDrawing *d, const Loose *loose, double x, double y, double scale)
{
  double length, thick, diameter = 20.0 * d->px;

  tl_part_extent (d->assembly->stock, loose->kind, loose->facts, &length, &thick);
  d->view = TL_VIEW_SHEET;
  tl_part_shapes (d, d->assembly->stock, loose->kind, loose->facts, loose->owner,
                  x + diameter + 10.0 * d->px + length * scale / 2.0, y, scale);
  tl_shape_segment (d, TL_INK_INK, TL_LINE_DIMENSION, x + diameter, y, x + diameter + 10.0 * d->px,
                    y);
  tl_shape_number (d, loose->owner, loose->number, x + diameter / 2.0, y);
}

void
tl_loose_stubs (TlDrawing *d, double y)
{
  g_autoptr (GArray) all = loose_of (d);
  double px = d->px, x = 16.0 * px, each, scale;

  if (all->len == 0)
    return;
  each = MIN ((d->options.width - 32.0 * px) / all->len, 130.0 * px);
  tl_furniture_caption (d, tl_draw_text (d, TL_N_ ("Not in the joint yet")), 16.0 * px,
                        y + 16.0 * px, 0.0);
  tl_shape_segment (d, TL_INK_HAIR, TL_LINE_HAIR, 0.0, y, d->options.width, y);
  if (each < 30.0 * px)
    return;
  scale = common_scale (d, all, each - 6.0 * px, 30.0 * px);
  for (guint i = 0; i < all->len; i++)
    stub (d, &g_array_index (all, Loose, i), x + each * i, y + 40.0 * px, scale);
}

/* Two conductors in outline, ends towards each other. */
static void
outlined_conductor (TlDrawing *d, double x, double y, double way)
{
  double px = d->px, metal = 7.0 * px, over = 13.0 * px;

  tl_path_begin (d);
  tl_path_move (d, x, y - metal);
  tl_path_line (d, x - way * 70.0 * px, y - metal);
  tl_path_move (d, x - way * 70.0 * px, y + metal);
  tl_path_line (d, x, y + metal);
  tl_path_line (d, x, y - metal);
  tl_path_move (d, x - way * 160.0 * px, y - over);
  tl_path_line (d, x - way * 70.0 * px, y - over);
  tl_path_line (d, x - way * 70.0 * px, y + over);
  tl_path_line (d, x - way * 160.0 * px, y + over);
  tl_path_curve (d, x - way * 156.0 * px, y + over * 0.6, x - way * 156.0 * px, y + over * 0.3,
                 x - way * 160.0 * px, y);
  tl_path_curve (d, x - way * 164.0 * px, y - over * 0.3, x - way * 164.0 * px, y - over * 0.6,
                 x - way * 160.0 * px, y - over);
  tl_shape_line (d, TL_INK_HAIR, TL_LINE_EDGE);
}

static void
sentence (TlDrawing *d, double y)
{
  const char *text = tl_draw_text (
      d, TL_N_ ("Drag a part here, or press Enter on one. First: the two conductors."));
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) line = g_string_new (NULL);
  double width = d->options.width - 32.0 * d->px, size = MAX (d->text, 12.5 * d->px);

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *longer =
          line->len > 0 ? g_strdup_printf ("%s %s", line->str, words[i]) : g_strdup (words[i]);

      if (line->len > 0 && tl_paint_text_width (longer, size, FALSE) > width)
        {
          tl_shape_text (d, TL_INK_MUTED, line->str, d->options.width / 2.0, y, size, FALSE, 0.5);
          g_string_assign (line, words[i]);
          y += 1.35 * size;
        }
      else
        g_string_assign (line, longer);
    }
  if (tl_paint_text_width (line->str, size, FALSE) <= d->options.width && y < d->options.height)
    tl_shape_text (d, TL_INK_MUTED, line->str, d->options.width / 2.0, y, size, FALSE, 0.5);
}

void
tl_loose_empty (TlDrawing *d)
{
  double x = d->options.width / 2.0, y = d->options.height / 2.0, px = d->px;
  g_autoptr (GArray) all = loose_of (d);
  guint  n = all->len, columns, rows;
  double each, row, scale;

  d->view = TL_VIEW_SHEET;
  if (n == 0)
    {
      if (d->options.width > 360.0 * px && d->options.height > 90.0 * px)
        {
          outlined_conductor (d, x - 12.0 * px, y - 14.0 * px, 1.0);
          outlined_conductor (d, x + 12.0 * px, y - 14.0 * px, -1.0);
        }
      sentence (d, MIN (y + 34.0 * px, d->options.height - 20.0 * px));
      tl_places_loose (d, x - 150.0 * px, y - 60.0 * px, x + 150.0 * px, y + 60.0 * px);
      return;
    }
  columns = MIN (n, 2u);
  rows = (n + columns - 1) / columns;
  each = (d->options.width - 48.0 * px) / columns;
  row = MIN ((d->options.height - 110.0 * px) / rows, 90.0 * px);
  if (row <= 4.0 * px || each <= 40.0 * px)
    return;
  scale = common_scale (d, all, each - 12.0 * px, row * 0.62);
  d->views[TL_VIEW_SECTION].scale = scale;
  for (guint i = 0; i < n; i++)
    {
      const Loose *loose = &g_array_index (all, Loose, i);
      double       cx = 24.0 * px + (i % columns) * each,
             cy = y + ((i / columns) - (rows - 1) / 2.0) * row;

      stub (d, loose, cx, cy, scale);
      tl_target_add (d, loose->owner, cx + each * 0.5, cy);
    }
  tl_places_loose (d, x - each * 0.9, y - rows * row / 2.0 - 10.0 * px, x + each * 0.9,
                   y + rows * row / 2.0 + 10.0 * px);
}
