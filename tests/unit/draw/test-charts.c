/* test-charts.c: axes, the ladder of potentials, the temperature along a joint, the band over the years.
 *
 * Potentials and the limit of 0.60 V: IEC 60950-1 Annex J (from memory). Round steps of 1, 2 or 5 and four to six of
 * them: common practice of charts, no source. The rest are the project's own rules for charts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/ageing-chart.h"
#include "draw/heat-parts.h"
#include "draw/ladder.h"
#include "draw/picture.h"
#include "plan-test.h"

#include "joint/edit.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define WIDTH 567.0
#define HEIGHT 302.0

/* --- everything that a chart needs of one joint --- */

typedef struct
{
  TlVerdict   *verdict;
  TlAgeing    *ageing;
  TlHeatModel *model;
  TlNetResult  results[3];
  TlHeatChart  heat;
} Case;

static void
case_clear (Case *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (self->results); i++)
    tl_net_result_clear (&self->results[i]);
  g_clear_pointer (&self->model, tl_heat_model_free);
  g_clear_pointer (&self->ageing, tl_ageing_free);
  g_clear_pointer (&self->verdict, tl_verdict_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Case, case_clear)

static void
case_init (Case *self, TlJoint *joint)
{
  TlAgeingOptions options = { 20.0, 64 };
  const char     *reason = NULL, *owner = NULL;
  TlField         field;

  *self = (Case){ 0 };
  self->verdict = pt_judge (joint);
  self->ageing = tl_ageing_new (self->verdict->assembly, &options, NULL, NULL);
  tl_heat_chart_init (&self->heat);
  self->model = tl_heat_model_new (self->verdict->assembly, &reason, &owner, &field);
  self->heat.assembly = self->verdict->assembly;
  self->heat.model = self->model;
  for (guint i = 0; self->model != NULL && i < G_N_ELEMENTS (self->results); i++)
    {
      TlHeatChange change;

      tl_heat_change_init (&change);
      change.which = (TlHeatCase) i;
      change.want_profile = TRUE;
      g_assert_true (tl_heat_model_solve (self->model, &change, NULL, &self->results[i], NULL));
    }
  self->heat.low = &self->results[TL_HEAT_LOW];
  self->heat.best = &self->results[TL_HEAT_BEST];
  self->heat.high = &self->results[TL_HEAT_HIGH];
}

enum
{
  LADDER,
  HEAT,
  AGEING,
  N_CHARTS = AGEING + TL_N_AGEING_OUTPUTS
};

typedef struct
{
  const Case *self;
  guint       chart;
} Painting;

static void
paint (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
       gpointer data)
{
  const Painting   *painting = data;
  const Case       *self = painting->self;
  const TlLanguage *language = tl_language_plain ();

  if (painting->chart == LADDER)
    tl_ladder_paint (cr, palette, self->verdict, width, height, unit, language);
  else if (painting->chart == HEAT && self->model != NULL)
    tl_heat_chart_paint (cr, palette, &self->heat, width, height, unit, language);
  else if (painting->chart >= AGEING)
    tl_ageing_chart_paint (cr, palette, self->ageing, painting->chart - AGEING, width, height, unit,
                           language);
}

/* --- axes --- */

static void
test_ticks (void)
{
  static const double ranges[][2] = {
    { 0.0, 1.0 },  { 33.6, 70.0 }, { 0.68, 1.37 }, { 1.0, 2.0 },  { 0.0, 2449.0 }, { -22.5, 22.5 },
    { 0.0, 40.0 }, { 1.0, 1.0 },   { 0.0, 0.0 },   { 0.0, 1e-7 }, { 1e6, 1e9 },    { -3.0, -1.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      double low = ranges[i][0], high = ranges[i][1], step, power, part, count;

      tl_chart_ticks (&low, &high, &step);
      power = pow (10.0, floor (log10 (step) + 1e-9));
      part = step / power;
      count = (high - low) / step;
      g_test_message ("%g to %g: %g to %g by %g", ranges[i][0], ranges[i][1], low, high, step);
      g_assert_true (fabs (part - 1.0) < 1e-6 || fabs (part - 2.0) < 1e-6
                     || fabs (part - 5.0) < 1e-6);
      g_assert_cmpfloat (low, <=, ranges[i][0] + 1e-9 * step);
      g_assert_cmpfloat (high, >=, ranges[i][1] - 1e-9 * step);
      g_assert_cmpfloat (fabs (count - round (count)), <, 1e-6);
      g_assert_true (count > 1.5 && count < 8.5);
      g_assert_cmpfloat (fabs (low / step - round (low / step)), <, 1e-6);
    }
  g_assert_cmpuint (tl_chart_decimals (5.0), ==, 0);
  g_assert_cmpuint (tl_chart_decimals (0.2), ==, 1);
  g_assert_cmpuint (tl_chart_decimals (0.05), ==, 2);
}

/* --- ladder --- */

static void
assert_line (const char *table, const char *line)
{
  if (strstr (table, line) == NULL)
    g_error ("“%s” is not in:\n%s", line, table);
}

static char *
ladder_of (const char *name)
{
  g_autoptr (TlVerdict) verdict = pt_judge (pt_example (name));

  return tl_ladder_to_table (verdict, tl_language_plain ());
}

/* Aluminium to copper 650 mV, steel between 200 and 450, copper to zinc 850: IEC 60950-1 Annex J (from memory). */
static void
test_ladder_steps (void)
{
  g_autofree char *direct = ladder_of ("copper-on-aluminium");
  g_autofree char *zinc = ladder_of ("zinc-washer");
  g_autofree char *between = ladder_of ("bolted-as-it-should-be");

  assert_line (direct, "copper – aluminium\t0.65\u202fV\tUnsafe");
  assert_line (zinc, "copper – zinc\t0.85\u202fV\t");
  assert_line (between, "steel – aluminium\t0.2\u202fV\tSound");
  assert_line (between, "copper – steel\t0.45\u202fV\tSound");
  assert_line (between, "limit\t0.6\u202fV");
  /* Noble at the top. */
  g_assert_true (strstr (zinc, "\ncopper\t") < strstr (zinc, "\nsteel\t"));
  g_assert_true (strstr (zinc, "\nsteel\t") < strstr (zinc, "\naluminium\t"));
  g_assert_true (strstr (zinc, "\naluminium\t") < strstr (zinc, "\nzinc\t"));
}

static void
test_ladder_empty (void)
{
  g_autoptr (TlVerdict) verdict = pt_judge (tl_joint_new ());
  g_autofree char *table = tl_ladder_to_table (verdict, tl_language_plain ());

  g_assert_null (strstr (table, "–"));
  g_assert_nonnull (strstr (table, "limit"));
}

/* --- tables --- */

static guint
count_lines (const char *text)
{
  guint n = 0;

  for (; *text != '\0'; text++)
    n += *text == '\n';
  return n;
}

static void
test_tables (void)
{
  g_auto (Case) self;

  case_init (&self, pt_example ("bolted-as-it-should-be"));
  for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    {
      g_autofree char *table = tl_ageing_chart_to_table (self.ageing, k, tl_language_plain ());

      g_assert_cmpuint (count_lines (table), ==, self.ageing->n_years + 2);
    }

  g_autofree char *heat = tl_heat_chart_to_table (&self.heat, tl_language_plain ());

  g_assert_nonnull (strstr (heat, "\naluminium (3)\t"));
  g_assert_nonnull (strstr (heat, "\ncopper (5)\t"));
  g_assert_cmpuint (count_lines (heat), >, 20);
  g_assert_nonnull (strstr (heat, "\npart\tfrom, mm\tto, mm\n"));
  g_assert_nonnull (strstr (heat, "(4)\t−5.0\t5.0\n"));
  /* Only the part that is shown. */
  self.heat.x_low_mm = -1.0;
  self.heat.x_high_mm = 1.0;

  g_autofree char *part = tl_heat_chart_to_table (&self.heat, tl_language_plain ());

  g_assert_cmpuint (count_lines (part), <, count_lines (heat));
  self.heat.best = NULL;

  g_autofree char *none = tl_heat_chart_to_table (&self.heat, tl_language_plain ());

  g_assert_nonnull (strstr (none, "No steady temperature."));
}

/* Every part under the number and between the ends that the drawing of the joint has: a sleeve of 30 mm (its layer-1) with its
 * left mouth at 0, the adhesive sleeve that reaches over it, the conductors that run on; a washer of ISO 7089, M5, 10 mm wide, about
 * the bolt. Parts of one row do not touch. */
static void
test_parts (void)
{
  static const struct
  {
    const char *example, *owner;
    double      x0_mm, x1_mm; /* NAN: beyond the part shown */
  } cases[] = {
    { "socket-circuit-weaving-floor", "layer-1", 0.0, 30.0 },
    { "socket-circuit-weaving-floor", "leg-1", NAN, 29.5 },
    { "socket-circuit-weaving-floor", "leg-2", 0.5, NAN },
    { "bolted-as-it-should-be", "layer-3", -5.0, 5.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Case) self;
      g_autoptr (GArray) parts = NULL;
      const TlHeatPart *found = NULL;

      case_init (&self, pt_example (cases[i].example));
      parts = tl_heat_parts_new (&self.heat, -40.0, 70.0, 3.0);
      for (guint k = 0; k < parts->len; k++)
        {
          const TlHeatPart *part = &g_array_index (parts, TlHeatPart, k);

          g_assert_cmpuint (part->number, ==,
                            tl_assembly_number (self.heat.assembly, part->owner));
          g_assert_cmpuint (part->number, >, 0);
          g_assert_cmpfloat (part->x0_mm, <, part->x1_mm);
          if (strcmp (part->owner, cases[i].owner) == 0)
            found = part;
          for (guint j = 0; j < k; j++)
            {
              const TlHeatPart *before = &g_array_index (parts, TlHeatPart, j);

              g_assert_cmpuint (before->number, !=, part->number);
              g_assert_true (before->row != part->row || before->x1_mm <= part->x0_mm);
            }
        }
      g_assert_nonnull (found);
      if (isnan (cases[i].x0_mm))
        g_assert_cmpfloat (found->x0_mm, <, -40.0);
      else
        g_assert_cmpfloat_with_epsilon (found->x0_mm, cases[i].x0_mm, 1e-6);
      if (isnan (cases[i].x1_mm))
        g_assert_cmpfloat (found->x1_mm, >, 70.0);
      else
        g_assert_cmpfloat_with_epsilon (found->x1_mm, cases[i].x1_mm, 1e-6);
    }
}

static void
test_table_open (void)
{
  TlAgeing ageing = { .is_computed = TRUE,
                      .n_years = 2,
                      .years = { 0.0, 20.0 },
                      .span_years = 20.0,
                      .hottest_C = 200.0 };

  ageing.has[TL_AGEING_HOT] = TRUE;
  for (guint i = 0; i < 2; i++)
    ageing.bands[TL_AGEING_HOT][i] =
        (TlAgeingBand){ { 40.0, 50.0, 200.0 }, { FALSE, FALSE, i == 1 } };

  g_autofree char *table = tl_ageing_chart_to_table (&ageing, TL_AGEING_HOT, tl_language_plain ());

  assert_line (table, "\n20.0\t40\u202f°C\t50\u202f°C\tabove 200\u202f°C\n");
  ageing.is_computed = FALSE;

  g_autofree char *none = tl_ageing_chart_to_table (&ageing, TL_AGEING_HOT, tl_language_plain ());

  assert_line (none, "Not computed");
}

/* --- pixels --- */

static cairo_surface_t *
picture (const Case *self, guint chart, TlScheme scheme, double width, double height)
{
  cairo_surface_t *surface =
      cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) width, (int) height);
  cairo_t *cr = cairo_create (surface);
  Painting painting = { self, chart };

  tl_paint_set_colour (cr, tl_palette_get (scheme)->paper);
  cairo_paint (cr);
  paint (cr, tl_palette_get (scheme), width, height, 96.0 / 25.4, &painting);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* Share of pixels that are not the ground; with @is_grey all of them have to be grey. */
static double
ink_share (cairo_surface_t *surface, gboolean is_grey)
{
  int width = cairo_image_surface_get_width (surface),
      height = cairo_image_surface_get_height (surface);
  int     stride = cairo_image_surface_get_stride (surface);
  guchar *data = cairo_image_surface_get_data (surface);
  guint32 ground = ((guint32 *) data)[0] & 0xffffff;
  guint   count = 0;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        guint32 pixel = ((guint32 *) (data + y * stride))[x] & 0xffffff;

        count += pixel != ground;
        if (is_grey)
          g_assert_true ((pixel >> 16) == (pixel >> 8 & 0xff)
                         && (pixel & 0xff) == (pixel >> 8 & 0xff));
      }
  return count / (double) (width * height);
}

static void
test_every_example (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    {
      g_auto (Case) self;

      case_init (&self, pt_example (names->pdata[i]));
      for (guint chart = 0; chart < N_CHARTS; chart++)
        {
          cairo_surface_t *surface = picture (&self, chart, TL_SCHEME_ONE_INK, WIDTH, HEIGHT);
          double           share = ink_share (surface, TRUE);

          g_test_message ("%s %u: %g", (const char *) names->pdata[i], chart, share);
          if (chart != HEAT || self.model != NULL)
            g_assert_true (share > 0.003 && share < 0.4);
          cairo_surface_destroy (surface);
        }
    }
}

/* The frame of the area stays free: nothing runs out of it. */
static void
test_inside (void)
{
  const char *const names[] = { "bolted-as-it-should-be", "stainless-between",
                                "socket-circuit-weaving-floor" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_auto (Case) self;

      case_init (&self, pt_example (names[i]));
      for (guint chart = 0; chart < N_CHARTS; chart++)
        {
          cairo_rectangle_t extents = { 0.0, 0.0, 3000.0, 3000.0 };
          cairo_surface_t  *surface =
              cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, &extents);
          cairo_t *cr = cairo_create (surface);
          Painting painting = { &self, chart };
          double   x, y, width, height;

          cairo_translate (cr, 1000.0, 1000.0);
          paint (cr, tl_palette_get (TL_SCHEME_LIGHT), WIDTH, HEIGHT, 96.0 / 25.4, &painting);
          cairo_recording_surface_ink_extents (surface, &x, &y, &width, &height);
          g_test_message ("%s %u: %g %g %g %g", names[i], chart, x - 1000.0, y - 1000.0, width,
                          height);
          g_assert_true (x >= 1000.0 && y >= 1000.0 && x + width <= 1000.0 + WIDTH
                         && y + height <= 1000.0 + HEIGHT);
          cairo_destroy (cr);
          cairo_surface_destroy (surface);
        }
    }
}

static void
test_schemes_and_sizes (void)
{
  static const double sizes[][2] = {
    { 1.0, 1.0 }, { 20.0, 20.0 }, { 200.0, 80.0 }, { 2000.0, 1200.0 }
  };
  g_auto (Case) self;

  case_init (&self, pt_example ("stainless-between"));
  for (TlScheme scheme = 0; scheme < TL_N_SCHEMES; scheme++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      for (guint chart = 0; chart < N_CHARTS; chart++)
        {
          cairo_surface_t *surface = picture (&self, chart, scheme, sizes[i][0], sizes[i][1]);

          if (sizes[i][0] > 100.0)
            g_assert_cmpfloat (ink_share (surface, FALSE), >, 0.001);
          cairo_surface_destroy (surface);
        }
}

/* --- files --- */

static void
test_files (void)
{
  static const char *const names[] = { "chart.png", "chart.svg", "chart.pdf" };
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("tinlap-charts-XXXXXX", &error);
  g_auto (Case) self;
  Painting painting = { &self, LADDER };

  g_assert_no_error (error);
  case_init (&self, pt_example ("zinc-washer"));
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      g_autofree char *first = NULL;
      g_autofree char *again = NULL;
      gsize            length, again_length;
      TlPictureKind    kind;

      g_assert_true (tl_picture_kind_of (names[i], &kind));
      g_assert_cmpint (kind, ==, i);
      for (guint k = 0; k < 2; k++)
        {
          g_assert_true (tl_picture_save (paint, &painting, kind, 150.0, 80.0, TL_SCHEME_ONE_INK,
                                          path, tl_language_plain (), &error));
          g_assert_no_error (error);
          g_assert_true (g_file_get_contents (path, k == 0 ? &first : &again,
                                              k == 0 ? &length : &again_length, NULL));
        }
      /* cairo numbers the ids of SVG through the life of the process. */
      if (kind != TL_PICTURE_SVG)
        g_assert_cmpmem (first, length, again, again_length);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_false (tl_picture_save (paint, &painting, TL_PICTURE_PNG, 1e9, 80.0, TL_SCHEME_LIGHT,
                                   "x.png", tl_language_plain (), &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/charts/ticks", test_ticks);
  g_test_add_func ("/charts/ladder/steps", test_ladder_steps);
  g_test_add_func ("/charts/ladder/empty", test_ladder_empty);
  g_test_add_func ("/charts/tables", test_tables);
  g_test_add_func ("/charts/parts", test_parts);
  g_test_add_func ("/charts/table-open", test_table_open);
  g_test_add_func ("/charts/every-example", test_every_example);
  g_test_add_func ("/charts/inside", test_inside);
  g_test_add_func ("/charts/schemes-and-sizes", test_schemes_and_sizes);
  g_test_add_func ("/charts/files", test_files);
  return g_test_run ();
}
