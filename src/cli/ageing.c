/* ageing.c: a forecast in the terminal, as JSON or as a chart.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/ageing.h"

#include "cli/common.h"
#include "base/json.h"
#include "draw/ageing-chart.h"
#include "draw/picture.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define CHART_WIDTH_MM 180.0
#define CHART_PANEL_MM 80.0

/* --- JSON --- */

static void
add_flag (TlJson *json, const char *name, gboolean value)
{
  tl_json_number (json, name, value ? 1.0 : 0.0);
}

/* A band that is open has null where no figure can be told. */
static void
add_band (TlJson *json, double year, const TlAgeingBand *band)
{
  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "year", year);
  tl_json_number (json, "low", band->is_open[0] ? (double) NAN : band->value.low);
  tl_json_number (json, "middle", band->is_open[1] ? (double) NAN : band->value.best);
  tl_json_number (json, "high", band->is_open[2] ? (double) NAN : band->value.high);
  tl_json_close (json);
}

static void
add_bands (TlJson *json, const TlAgeing *ageing)
{
  tl_json_open (json, "bands", FALSE);
  for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    {
      if (!ageing->has[k])
        continue;
      tl_json_open (json, tl_ageing_output_word (k), FALSE);
      tl_json_string (json, "unit", tl_ageing_output_unit (k));
      tl_json_string (json, "class", "I");
      tl_json_open (json, "years", TRUE);
      for (guint i = 0; i < ageing->n_years; i++)
        add_band (json, ageing->years[i], &ageing->bands[k][i]);
      tl_json_close (json);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
add_drivers (TlJson *json, const TlAgeing *ageing)
{
  tl_json_open (json, "drivers", TRUE);
  for (guint i = 0; i < ageing->n_drivers; i++)
    {
      const TlAgeingDriver *driver = &ageing->drivers[i];

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "input", tl_ageing_input_word (driver->input));
      tl_json_number (json, "low", driver->range.low);
      tl_json_number (json, "value", driver->range.best);
      tl_json_number (json, "high", driver->range.high);
      tl_json_string (json, "unit", driver->unit);
      tl_json_open (json, "share", FALSE);
      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        if (ageing->has[k])
          tl_json_number (json, tl_ageing_output_word (k), driver->share[k]);
      tl_json_close (json);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
add_look (TlJson *json, const TlAgeing *ageing)
{
  g_autofree char *text = tl_ageing_look_text (ageing, tl_language_plain ());

  tl_json_open (json, "look", FALSE);
  tl_json_string (json, "when", tl_ageing_look_word (ageing->look));
  tl_json_string (json, "why", tl_ageing_why_word (ageing->why));
  tl_json_string (json, "text", text);
  add_flag (json, "screw_on_aluminium", ageing->has_screw_on_aluminium);
  tl_json_close (json);
}

static char *
ageing_json (const TlAgeing *ageing, const TlAssembly *assembly)
{
  TlJson          *json = tl_json_new ();
  g_autofree char *reason = tl_ageing_reason_text (ageing, assembly, tl_language_plain ());

  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "format", 1.0);
  tl_json_string (json, "program", "tinlap " TL_VERSION);
  tl_json_string (json, "data_version", tl_stock_version (assembly->stock));
  tl_json_string (json, "joint", assembly->joint->name);
  tl_json_string (json, "class", "I");
  tl_json_string (json, "not_computed", ageing->is_computed ? NULL : reason);
  tl_json_number (json, "span_years", ageing->span_years);
  tl_json_number (json, "samples", ageing->n_samples);
  if (ageing->is_computed)
    {
      tl_json_number (json, "load_A", ageing->load_A);
      tl_json_number (json, "ambient_C", ageing->ambient_C);
      tl_json_number (json, "limit_C", ageing->has_limit ? ageing->limit_C : (double) NAN);
      tl_json_number (json, "open_above_C", ageing->hottest_C);
      tl_json_number (json, "resistance_most_ratio", ageing->resistance_most);
      tl_json_number (json, "force_floor_N",
                      ageing->has[TL_AGEING_FORCE] ? ageing->force_floor_N : (double) NAN);
      add_bands (json, ageing);
      add_drivers (json, ageing);
      add_look (json, ageing);
    }
  tl_json_close (json);
  return tl_json_finish (json);
}

/* --- chart --- */

typedef struct
{
  const TlAgeing   *ageing;
  const TlLanguage *language;
} Picture;

static void
paint_panels (cairo_t *cr, const TlPalette *palette, double width, double height, double unit,
              gpointer data)
{
  const Picture              *self = data;
  static const TlAgeingOutput order[] = { TL_AGEING_HOT, TL_AGEING_GROWTH, TL_AGEING_FORCE };
  double                      panel = CHART_PANEL_MM * unit, y = 0.0;

  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      if (!self->ageing->has[order[i]] || y + panel > height * 1.001)
        continue;
      cairo_save (cr);
      cairo_translate (cr, 0.0, y);
      tl_ageing_chart_paint (cr, palette, self->ageing, order[i], width, panel, unit,
                             self->language);
      cairo_restore (cr);
      y += panel;
    }
}

static gboolean
save_chart (const TlAgeing *ageing, const char *path, TlScheme scheme, const TlLanguage *language,
            GError **error)
{
  Picture       self = { ageing, language };
  TlPictureKind kind;
  guint         panels = ageing->has[TL_AGEING_FORCE] ? 3 : 2;

  return tl_picture_kind_of (path, &kind)
         && tl_picture_save (paint_panels, &self, kind, CHART_WIDTH_MM, panels * CHART_PANEL_MM,
                             scheme, path, language, error);
}

/* --- the verb --- */

typedef struct
{
  gboolean as_json, paper;
  double   years;
  gint     samples;
  char    *chart, *tag, *practice;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->chart);
  g_free (self->tag);
  g_free (self->practice);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static gboolean
is_same_file (const char *a, const char *b)
{
  g_autoptr (GFile) file_a = g_file_new_for_path (a);
  g_autoptr (GFile) file_b = g_file_new_for_path (b);

  return g_file_equal (file_a, file_b);
}

/* Everything about the options that can be said before the file is read. */
static gboolean
check_options (const Options *options, const char *path)
{
  TlPictureKind kind;

  if (options->samples < TL_AGEING_LEAST_SAMPLES || options->samples > TL_AGEING_MOST_SAMPLES)
    tl_cli_fail_text (_ ("--samples %d: it has to be %d to %d."), options->samples,
                      TL_AGEING_LEAST_SAMPLES, TL_AGEING_MOST_SAMPLES);
  else if (!(options->years >= TL_AGEING_LEAST_SPAN && options->years <= TL_AGEING_MOST_SPAN))
    tl_cli_fail_text (_ ("--years %g: it has to be %g to %g."), options->years,
                      TL_AGEING_LEAST_SPAN, TL_AGEING_MOST_SPAN);
  else if (options->chart != NULL && !tl_picture_kind_of (options->chart, &kind))
    tl_cli_fail_text (_ ("%s: its ending is none of .png, .svg, .pdf."), options->chart);
  else if (options->chart != NULL && is_same_file (options->chart, path))
    tl_cli_fail_text (_ ("%s is the joint itself; give another file for the picture."), path);
  else
    return TRUE;
  return FALSE;
}

static void
print_forecast (const TlAgeing *ageing, const TlAssembly *assembly, gboolean as_json,
                const TlLanguage *language)
{
  g_autofree char *text =
      as_json ? ageing_json (ageing, assembly) : tl_ageing_to_text (ageing, assembly, language);

  if (!as_json)
    g_print ("%s\n", assembly->joint->name);
  g_print ("%s", text);
}

int
tl_cli_ageing (int argc, char **argv, const TlLanguage *language)
{
  TlAgeingOptions span;
  g_auto (Options) options = { 0 };
  const GOptionEntry entries[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &options.as_json, N_ ("Print JSON for other programs"),
      NULL },
    { "years", 0, 0, G_OPTION_ARG_DOUBLE, &options.years, N_ ("Years to look ahead, 1 to 40"),
      N_ ("N") },
    { "samples", 0, 0, G_OPTION_ARG_INT, &options.samples, N_ ("Samples to draw, 16 to 20000"),
      N_ ("N") },
    { "chart", 0, 0, G_OPTION_ARG_FILENAME, &options.chart,
      N_ ("Chart to write: .png, .svg or .pdf"), N_ ("OUT") },
    { "paper", 0, 0, G_OPTION_ARG_NONE, &options.paper, N_ ("Chart in one ink"), NULL },
    { "language", 0, 0, G_OPTION_ARG_STRING, &options.tag, N_ ("Language of the text"),
      N_ ("TAG") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &options.practice,
      N_ ("Judge by this practice, not by the document's"), N_ ("NAME") },
    { NULL },
  };
  g_autoptr (TlVerdict) verdict = NULL;
  g_autoptr (TlLanguage) own = NULL;
  g_autoptr (TlAgeing) ageing = NULL;
  g_autoptr (GError) error = NULL;
  const char *path;

  tl_ageing_options_init (&span);
  options.years = span.span_years;
  options.samples = (gint) span.n_samples;
  if (!tl_cli_parse (&argc, &argv, entries, "ageing", N_ ("FILE")))
    return TL_CLI_BAD;
  path = tl_cli_only_file (argc, argv);
  if (path == NULL || !check_options (&options, path))
    return TL_CLI_BAD;
  span = (TlAgeingOptions){ options.years, (guint) options.samples };
  verdict = tl_cli_judge (path, options.practice);
  if (verdict == NULL)
    return TL_CLI_BAD;
  own = tl_language_new (options.tag != NULL ? options.tag : tl_language_tag (language),
                         tl_language_units (language));
  ageing = tl_ageing_new (verdict->assembly, &span, NULL, &error);
  if (ageing == NULL
      || (options.chart != NULL && ageing->is_computed
          && !save_chart (ageing, options.chart,
                          options.paper ? TL_SCHEME_ONE_INK : TL_SCHEME_LIGHT, own, &error)))
    return tl_cli_fail (error);
  print_forecast (ageing, verdict->assembly, options.as_json, own);
  return ageing->is_computed ? tl_cli_exit_of (verdict) : TL_CLI_WORSE;
}
