/* ladder.c: rungs, brackets and the gauge piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/ladder.h"

#include "base/quantity.h"

#include <math.h>
#include <string.h>

/* One surface metal. */
typedef struct
{
  const char *material;
  double      volt;
  GArray     *numbers; /* (element-type guint) of the owners, rising */
} Rung;

/* Two surfaces that touch or may be bridged; @high is the nobler. */
typedef struct
{
  guint      high, low; /* indices of rungs */
  TlSeverity severity;
  guint      column;
} Couple;

typedef struct
{
  GArray *rungs;   /* (element-type Rung) noble first */
  GArray *couples; /* (element-type Couple) */
  double  limit_V;
  guint   n_columns;
} Ladder;

static void
rung_clear (Rung *rung)
{
  g_array_unref (rung->numbers);
}

static void
ladder_clear (Ladder *self)
{
  g_array_unref (self->rungs);
  g_array_unref (self->couples);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Ladder, ladder_clear)

/* --- reading the joint --- */

static gint
rung_of (const Ladder *self, const char *material)
{
  for (guint i = 0; i < self->rungs->len; i++)
    if (g_str_equal (g_array_index (self->rungs, Rung, i).material, material))
      return (gint) i;
  return -1;
}

static void
add_surface (Ladder *self, const TlAssembly *assembly, const char *material, const char *owner)
{
  const TlMaterial *row = material != NULL ? tl_stock_material (assembly->stock, material) : NULL;
  const TlFact *potential = row != NULL ? tl_facts_get (row->facts, TL_FIELD_POTENTIAL_J) : NULL;
  guint         number = tl_assembly_number (assembly, owner), at = 0;
  gint          index = material != NULL ? rung_of (self, material) : -1;
  GArray       *numbers;

  if (potential == NULL)
    return;
  if (index < 0)
    {
      Rung rung = { material, potential->value.best / 1000.0,
                    g_array_new (FALSE, FALSE, sizeof (guint)) };

      g_array_append_val (self->rungs, rung);
      index = (gint) self->rungs->len - 1;
    }
  numbers = g_array_index (self->rungs, Rung, index).numbers;
  while (at < numbers->len && g_array_index (numbers, guint, at) < number)
    at++;
  if (number > 0 && (at == numbers->len || g_array_index (numbers, guint, at) != number))
    g_array_insert_val (numbers, at, number);
}

static gint
compare_rungs (gconstpointer a, gconstpointer b)
{
  const Rung *one = a, *other = b;

  if (one->volt > other->volt || one->volt < other->volt)
    return one->volt > other->volt ? -1 : 1;
  return strcmp (one->material, other->material);
}

/* Worst severity of the potential step at a contact. */
static TlSeverity
step_severity (const TlVerdict *verdict, guint contact)
{
  for (guint i = 0; i < verdict->findings->len; i++) /* worst first */
    {
      const TlFinding *finding = verdict->findings->pdata[i];

      if (!g_str_equal (finding->rule->id, "galvanic.step"))
        continue;
      for (guint k = 0; k < finding->contacts->len; k++)
        if (g_array_index (finding->contacts, guint, k) == contact)
          return finding->severity;
    }
  return TL_SEVERITY_SOUND;
}

static void
add_couple (Ladder *self, gint one, gint other, TlSeverity severity)
{
  Couple couple = { (guint) MIN (one, other), (guint) MAX (one, other), severity, 0 };

  for (guint i = 0; i < self->couples->len; i++)
    {
      Couple *known = &g_array_index (self->couples, Couple, i);

      if (known->high == couple.high && known->low == couple.low)
        {
          known->severity = MAX (known->severity, severity);
          return;
        }
    }
  g_array_append_val (self->couples, couple);
}

static double
step_V (const Ladder *self, const Couple *couple)
{
  return g_array_index (self->rungs, Rung, couple->high).volt
         - g_array_index (self->rungs, Rung, couple->low).volt;
}

/* Shortest first, so that they stand inside the longer ones. */
static gint
compare_couples (gconstpointer a, gconstpointer b, gpointer data)
{
  double one = step_V (data, a), other = step_V (data, b);

  if (one < other || one > other)
    return one < other ? -1 : 1;
  return (gint) ((const Couple *) a)->high - (gint) ((const Couple *) b)->high;
}

/* First column in which nothing else spans the same volts. */
static void
place_couples (Ladder *self)
{
  g_array_sort_with_data (self->couples, compare_couples, self);
  for (guint i = 0; i < self->couples->len; i++)
    {
      Couple  *couple = &g_array_index (self->couples, Couple, i);
      gboolean is_free = FALSE;

      for (; !is_free; couple->column += is_free ? 0 : 1)
        {
          is_free = TRUE;
          for (guint k = 0; k < i; k++)
            {
              const Couple *other = &g_array_index (self->couples, Couple, k);

              is_free &= other->column != couple->column || other->low <= couple->high
                         || other->high >= couple->low;
            }
        }
      self->n_columns = MAX (self->n_columns, couple->column + 1);
    }
}

static void
ladder_read (Ladder *self, const TlVerdict *verdict)
{
  const TlAssembly *assembly = verdict->assembly;
  TlThreshold       limit;

  self->rungs = g_array_new (FALSE, FALSE, sizeof (Rung));
  self->couples = g_array_new (FALSE, FALSE, sizeof (Couple));
  g_array_set_clear_func (self->rungs, (GDestroyNotify) rung_clear);
  self->n_columns = 0;
  self->limit_V =
      tl_stock_threshold (assembly->stock, assembly->joint->practice, "galvanic.limit-j", &limit)
          ? limit.value / 1000.0
          : 0.0;
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      if (body->is_metal)
        add_surface (self, assembly, body->coating != NULL ? body->coating : body->material,
                     body->owner);
    }
  g_array_sort (self->rungs, compare_rungs);
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);
      gint             one, other;

      if (!contact->is_metallic)
        continue;
      one = rung_of (self, contact->surface_a);
      other = rung_of (self, contact->surface_b);
      if (one >= 0 && other >= 0 && one != other)
        add_couple (self, one, other, step_severity (verdict, i));
    }
  place_couples (self);
}

/* --- painting --- */

/* Name and numbers of a rung from @x on; returns where they end. Numbers that do not fit before @end become dots. */
static double
name_rung (const TlChart *chart, const Rung *rung, const TlStock *stock, double x, double baseline,
           double end)
{
  x += tl_paint_text (chart->cr, tl_material_name (stock, rung->material, chart->language), x,
                      baseline, chart->size, TRUE, 0.0);
  for (guint k = 0; k < rung->numbers->len; k++)
    {
      if (x + 2.6 * chart->size > end && k + 1 < rung->numbers->len)
        return x + tl_paint_text (chart->cr, " …", x, baseline, chart->size, FALSE, 0.0);
      x += 1.2 * chart->size;
      tl_paint_number (chart->cr, chart->palette, g_array_index (rung->numbers, guint, k), x,
                       baseline - 0.35 * chart->size, 1.3 * chart->size, FALSE);
      x += 0.4 * chart->size;
    }
  return x + 0.3 * chart->size;
}

/* A name stands above its rung; too near to what is above, below it; with no room there either, beside the one before. */
static void
paint_rungs (const TlChart *chart, const Ladder *self, const TlStock *stock, double end)
{
  double bottom = -HUGE_VAL, taken_x = chart->x, above = 2.0 * chart->size,
         below = 1.7 * chart->size;

  for (guint i = 0; i < self->rungs->len; i++)
    {
      const Rung *rung = &g_array_index (self->rungs, Rung, i);
      gboolean    is_last = i + 1 == self->rungs->len;
      double      y = tl_chart_y (chart, rung->volt), x = chart->x + 0.6 * chart->size,
             baseline = y - 0.7 * chart->size;
      double next =
          is_last ? HUGE_VAL : tl_chart_y (chart, g_array_index (self->rungs, Rung, i + 1).volt);

      cairo_set_line_width (chart->cr, 1.4 * chart->heavy);
      tl_paint_set_colour (chart->cr, chart->palette->ink);
      cairo_move_to (chart->cr, chart->x, y);
      cairo_line_to (chart->cr, end, y);
      cairo_stroke (chart->cr);
      if (y - bottom >= above)
        bottom = y;
      else if (next - y >= above + below)
        {
          baseline = y + 1.3 * chart->size;
          bottom = y + below;
        }
      else
        {
          x = taken_x + chart->size;
          bottom = MAX (bottom, y);
        }
      taken_x = name_rung (chart, rung, stock, x, baseline, end);
    }
}

static void
lead_line (const TlChart *chart, double x0, double x1, double y)
{
  const double dots[] = { 0.3 * chart->unit, 0.5 * chart->unit };

  cairo_save (chart->cr);
  cairo_set_dash (chart->cr, dots, 2, 0.0);
  cairo_set_line_width (chart->cr, chart->ink);
  tl_paint_set_colour (chart->cr, chart->palette->muted);
  cairo_move_to (chart->cr, x0, y);
  cairo_line_to (chart->cr, x1, y);
  cairo_stroke (chart->cr);
  cairo_restore (chart->cr);
}

static void
paint_couples (const TlChart *chart, const Ladder *self, double start, double pitch)
{
  for (guint i = 0; i < self->couples->len; i++)
    {
      const Couple *couple = &g_array_index (self->couples, Couple, i);
      TlColour      colour = chart->palette->severity[couple->severity];
      double        top = tl_chart_y (chart, g_array_index (self->rungs, Rung, couple->high).volt);
      double bottom = tl_chart_y (chart, g_array_index (self->rungs, Rung, couple->low).volt);
      double x = start + couple->column * pitch, middle = (top + bottom) / 2.0;
      g_autofree char *text = tl_language_number (chart->language, step_V (self, couple), 2);

      lead_line (chart, start - chart->size, x, top);
      lead_line (chart, start - chart->size, x, bottom);
      tl_paint_contact (chart->cr, chart->palette, (TlMark) couple->severity, chart->unit, x, top,
                        x, bottom);
      tl_paint_set_colour (chart->cr, chart->palette->paper);
      cairo_rectangle (chart->cr, x + 0.6 * chart->size, middle - 0.8 * chart->size,
                       3.9 * chart->size, 1.6 * chart->size);
      cairo_fill (chart->cr);
      tl_paint_mark (chart->cr, chart->palette, (TlMark) couple->severity, x + 1.3 * chart->size,
                     middle, 1.3 * chart->size);
      tl_paint_set_colour (chart->cr, colour);
      tl_paint_text (chart->cr, text, x + 2.2 * chart->size, middle + 0.36 * chart->size,
                     chart->size, TRUE, 0.0);
    }
}

/* The limit as a piece to hold against any step: it hangs from the noblest rung. */
static void
paint_gauge (const TlChart *chart, const Ladder *self, double right)
{
  double noble = g_array_index (self->rungs, Rung, 0).volt;
  double top = tl_chart_y (chart, noble), bottom = tl_chart_y (chart, noble - self->limit_V);
  double x = right - 2.6 * chart->size, foot = 0.8 * chart->size;
  g_autofree char *figure = tl_language_number (chart->language, self->limit_V, 2);
  g_autofree char *text = tl_wording_fill (
      tl_language_text (chart->language, TL_N_ ("limit {value}")), "value", figure, NULL);

  tl_paint_set_colour (chart->cr, chart->palette->ink);
  cairo_set_line_width (chart->cr, chart->ink);
  cairo_rectangle (chart->cr, x - 0.5 * foot, top, foot, bottom - top);
  cairo_stroke (chart->cr);
  cairo_set_line_width (chart->cr, chart->heavy);
  for (guint i = 0; i < 2; i++)
    {
      cairo_move_to (chart->cr, x - 1.1 * foot, i == 0 ? top : bottom);
      cairo_rel_line_to (chart->cr, 2.2 * foot, 0.0);
    }
  cairo_stroke (chart->cr);
  tl_chart_label (chart, text, right, bottom + 1.4 * chart->size, TRUE, 1.0, chart->palette->ink);
}

static void
set_scale (TlChart *chart, const Ladder *self)
{
  double high = g_array_index (self->rungs, Rung, 0).volt;
  double low = g_array_index (self->rungs, Rung, self->rungs->len - 1).volt;

  chart->y_high = high + 0.02;
  chart->y_low = MIN (low, high - self->limit_V) - 0.02;
  tl_chart_ticks (&chart->y_low, &chart->y_high, &chart->y_step);
  /* Room for the name above the noblest rung. */
  if (chart->y_high - high < 0.6 * chart->y_step)
    chart->y_high += chart->y_step;
}

static void
y_axis (const TlChart *chart)
{
  tl_paint_set_colour (chart->cr, chart->palette->ink);
  cairo_set_line_width (chart->cr, chart->ink);
  cairo_move_to (chart->cr, chart->x, chart->y);
  cairo_rel_line_to (chart->cr, 0.0, chart->height);
  cairo_stroke (chart->cr);
  for (gint i = 0; chart->y_low + i * chart->y_step <= chart->y_high + 1e-6; i++)
    {
      double           value = chart->y_low + i * chart->y_step, y = tl_chart_y (chart, value);
      g_autofree char *text =
          tl_language_number (chart->language, value, tl_chart_decimals (chart->y_step));

      tl_paint_set_colour (chart->cr, chart->palette->ink);
      cairo_move_to (chart->cr, chart->x - 0.35 * chart->size, y);
      cairo_rel_line_to (chart->cr, 0.35 * chart->size, 0.0);
      cairo_stroke (chart->cr);
      tl_paint_set_colour (chart->cr, chart->palette->muted);
      tl_paint_text (chart->cr, text, chart->x - 0.7 * chart->size, y + 0.35 * chart->size,
                     chart->size, FALSE, 1.0);
    }
}

static const char *
series_name (const TlLanguage *language)
{
  return tl_language_text (language, TL_N_ ("series of IEC 60950-1, Annex J"));
}

void
tl_ladder_paint (cairo_t *cr, const TlPalette *palette, const TlVerdict *verdict, double width,
                 double height, double unit, const TlLanguage *language)
{
  g_auto (Ladder) ladder;
  double  start, pitch, right;
  TlChart chart;

  ladder_read (&ladder, verdict);
  tl_chart_init (&chart, cr, palette, unit, language);
  if (ladder.rungs->len > 0)
    set_scale (&chart, &ladder);
  tl_chart_place (&chart, tl_language_text (language, TL_N_ ("Ladder of potentials, V")), width,
                  height, chart.size);
  tl_paint_set_colour (cr, palette->muted);
  tl_paint_text (cr, series_name (language), chart.x, chart.y - 0.1 * chart.size, chart.size, FALSE,
                 0.0);
  if (ladder.rungs->len == 0)
    {
      tl_paint_text (cr,
                     tl_language_text (language, TL_N_ ("No metal with a known potential yet.")),
                     chart.x, chart.y + 2.0 * chart.size, chart.size, FALSE, 0.0);
      return;
    }
  chart.y += 1.2 * chart.size;
  chart.height -= 0.2 * chart.size; /* no x scale below */
  right = chart.x + chart.width;
  pitch = MIN (5.6 * chart.size, 0.5 * chart.width / MAX (1u, ladder.n_columns));
  start = right - 5.0 * chart.size - pitch * ladder.n_columns;
  y_axis (&chart);
  paint_rungs (&chart, &ladder, verdict->assembly->stock, start - 1.2 * chart.size);
  paint_couples (&chart, &ladder, start, pitch);
  if (ladder.limit_V > 0.0)
    paint_gauge (&chart, &ladder, right);
}

/* --- table --- */

static char *
numbers_text (const Rung *rung)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rung->numbers->len; i++)
    g_string_append_printf (text, "%s%u", i > 0 ? ", " : "",
                            g_array_index (rung->numbers, guint, i));
  return g_string_free (text, FALSE);
}

char *
tl_ladder_to_table (const TlVerdict *verdict, const TlLanguage *language)
{
  const TlStock   *stock = verdict->assembly->stock;
  GString         *text = g_string_new (NULL);
  g_autofree char *limit = NULL;
  g_auto (Ladder) ladder;

  ladder_read (&ladder, verdict);
  limit = tl_quantity_format (ladder.limit_V, "V", language);
  g_string_append_printf (text, "%s, %s\n",
                          tl_language_text (language, TL_N_ ("Ladder of potentials, V")),
                          series_name (language));
  for (guint i = 0; i < ladder.rungs->len; i++)
    {
      const Rung      *rung = &g_array_index (ladder.rungs, Rung, i);
      g_autofree char *numbers = numbers_text (rung);
      g_autofree char *volt = tl_quantity_format (rung->volt, "V", language);

      g_string_append_printf (text, "%s\t%s\t%s\n",
                              tl_material_name (stock, rung->material, language), numbers, volt);
    }
  for (guint i = 0; i < ladder.couples->len; i++)
    {
      const Couple    *couple = &g_array_index (ladder.couples, Couple, i);
      const char      *high = g_array_index (ladder.rungs, Rung, couple->high).material;
      const char      *low = g_array_index (ladder.rungs, Rung, couple->low).material;
      g_autofree char *step = tl_quantity_format (step_V (&ladder, couple), "V", language);

      g_string_append_printf (text, "%s – %s\t%s\t%s\n", tl_material_name (stock, high, language),
                              tl_material_name (stock, low, language), step,
                              tl_language_text (language, tl_severity_word (couple->severity)));
    }
  g_string_append_printf (text, "%s\t%s\n", tl_language_text (language, TL_N_ ("limit")), limit);
  return g_string_free (text, FALSE);
}
