/* ageing-text.c: a forecast in words: never a line without its band, never a date.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "plan/ageing.h"

#include <math.h>

/* --- names --- */

static const struct
{
  const char *word, *title, *unit;
} outputs[] = {
  { "force", TL_N_ ("Clamping force, cold"), "N" },
  { "resistance", TL_N_ ("Resistance of the joint at 20 °C"), "uohm" },
  { "growth", TL_N_ ("Resistance of the joint, times its value when new"), "1" },
  { "hot", TL_N_ ("Hottest metal at the load"), "degC" },
};
G_STATIC_ASSERT (G_N_ELEMENTS (outputs) == TL_N_AGEING_OUTPUTS);

static const struct
{
  const char *word, *title;
} inputs[] = {
  { "tightening", TL_N_ ("Clamping force when tightened") },
  { "settling", TL_N_ ("Settling of the faces") },
  { "creep", TL_N_ ("Creep of the aluminium in 1000 h") },
  { "creep-exponent", TL_N_ ("How creep goes on with time") },
  { "contact", TL_N_ ("Contact resistance when new, times the estimate") },
  { "force-exponent", TL_N_ ("How resistance follows a fading force") },
  { "growth", TL_N_ ("Time in which films double the resistance at 70 °C") },
  { "growth-exponent", TL_N_ ("How films go on with time") },
  { "cooling", TL_N_ ("Cooling of the surfaces, times the estimate") },
  { "air", TL_N_ ("Air around the box") },
  { "load", TL_N_ ("Load") },
};
G_STATIC_ASSERT (G_N_ELEMENTS (inputs) == TL_N_AGEING_INPUTS);

static const struct
{
  const char *word, *title;
} looks[] = {
  { "change-design", TL_N_ ("Not by retightening: change the design") },
  { "first-cycles", TL_N_ ("After the first heat cycles") },
  { "within-year", TL_N_ ("Within a year") },
  { "ordinary", TL_N_ ("At ordinary inspections") },
};

const char *
tl_ageing_output_title (TlAgeingOutput output)
{
  return outputs[output].title;
}

const char *
tl_ageing_output_unit (TlAgeingOutput output)
{
  return outputs[output].unit;
}

const char *
tl_ageing_output_word (TlAgeingOutput output)
{
  return outputs[output].word;
}

const char *
tl_ageing_input_title (TlAgeingInput input)
{
  return inputs[input].title;
}

const char *
tl_ageing_input_word (TlAgeingInput input)
{
  return inputs[input].word;
}

const char *
tl_ageing_look_title (TlAgeingLook look)
{
  return looks[look].title;
}

const char *
tl_ageing_look_word (TlAgeingLook look)
{
  return looks[look].word;
}

const char *
tl_ageing_why_word (TlAgeingWhy why)
{
  static const char *const words[] = { "force", "resistance", "heat", "practice", "nothing" };

  return words[why];
}

/* --- when to look again --- */

static const char *
heat_reason (const TlAgeing *self)
{
  switch (self->look)
    {
    case TL_AGEING_CHANGE_DESIGN:
      return TL_N_ (
          "Even at the middle of the band the hottest metal passes {limit} from the start. No "
          "look and no retightening cures that.");
    case TL_AGEING_FIRST_CYCLES:
      return TL_N_ (
          "At the unfavourable edge of the band the hottest metal passes {limit} from the "
          "start: see under load whether this joint is one of those.");
    case TL_AGEING_WITHIN_YEAR:
      return TL_N_ (
          "At the unfavourable edge of the band the hottest metal passes {limit} within the "
          "first year.");
    case TL_AGEING_ORDINARY:
    default:
      return TL_N_ ("The unfavourable edge of the band passes {limit} only later.");
    }
}

static const char *
force_reason (const TlAgeing *self)
{
  switch (self->look)
    {
    case TL_AGEING_CHANGE_DESIGN:
      return TL_N_ (
          "After settling and the first hot cycle less than {floor} of the clamping force is "
          "left even at the middle of the band. Turning the nut further starts the same "
          "again: spread the force, or put a conical washer to follow it.");
    case TL_AGEING_FIRST_CYCLES:
      return TL_N_ (
          "At the unfavourable edge of the band settling and the first hot cycles leave less "
          "than {floor} of the clamping force. The look is an inspection, on a dead "
          "circuit; more torque is no cure for aluminium that has crept.");
    case TL_AGEING_WITHIN_YEAR:
      return TL_N_ (
          "At the unfavourable edge of the band creep leaves less than {floor} of the clamping "
          "force within the first year.");
    case TL_AGEING_ORDINARY:
    default:
      return TL_N_ ("Less than {floor} of the clamping force is left only later, and only at the "
                    "unfavourable edge of the band.");
    }
}

static const char *
resistance_reason (const TlAgeing *self)
{
  switch (self->look)
    {
    case TL_AGEING_CHANGE_DESIGN:
    case TL_AGEING_FIRST_CYCLES:
    case TL_AGEING_WITHIN_YEAR:
      return TL_N_ (
          "At the unfavourable edge of the band the resistance passes {ratio} times its first "
          "value within the first year: measure it when new, write it down, and compare.");
    case TL_AGEING_ORDINARY:
    default:
      return TL_N_ (
          "The unfavourable edge of the band passes {ratio} times the first resistance only "
          "later: measure it when new, write it down, and compare.");
    }
}

static const char *
reason_of (const TlAgeing *self)
{
  switch (self->why)
    {
    case TL_AGEING_WHY_HEAT:
      return heat_reason (self);
    case TL_AGEING_WHY_FORCE:
      return force_reason (self);
    case TL_AGEING_WHY_RESISTANCE:
      return resistance_reason (self);
    case TL_AGEING_WHY_PRACTICE:
      return TL_N_ (
          "The band stays within its limits in the first year, yet a screw on aluminium is "
          "looked at every {low} to {high} months: common practice, no source.");
    case TL_AGEING_WHY_NOTHING:
    default:
      return TL_N_ ("The whole band stays within its limits over the years shown.");
    }
}

/* The screw's own interval, where the reason is another one. */
static const char *
practice_note (const TlAgeing *self)
{
  return self->has_screw_on_aluminium && self->why != TL_AGEING_WHY_PRACTICE
                 && self->look != TL_AGEING_CHANGE_DESIGN
             ? TL_N_ ("A screw on aluminium is looked at every {low} to {high} months in any case: "
                      "common practice, no source.")
             : NULL;
}

char *
tl_ageing_look_text (const TlAgeing *self, const TlLanguage *language)
{
  const char      *note = practice_note (self);
  g_autofree char *limit =
      tl_quantity_format (self->has_limit ? self->limit_C : self->hottest_C, "degC", language);
  g_autofree char *share = tl_quantity_format (100.0 * self->force_floor_ratio, "%", language);
  g_autofree char *ratio = tl_quantity_format (self->resistance_most, "1", language);
  g_autofree char *low = tl_language_number (language, self->screw_months_low, 0);
  g_autofree char *high = tl_language_number (language, self->screw_months_high, 0);
  GString         *text = g_string_new (NULL);

  if (!self->is_computed)
    return g_string_free (text, FALSE);
  for (guint i = 0; i < 2; i++)
    {
      const char *msgid = i == 0 ? reason_of (self) : note;

      if (msgid != NULL)
        {
          g_autofree char *sentence =
              tl_wording_fill (tl_language_text (language, msgid), "limit", limit, "floor", share,
                               "ratio", ratio, "low", low, "high", high, NULL);

          g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", sentence);
        }
    }
  return g_string_free (text, FALSE);
}

/* --- figures --- */

char *
tl_ageing_driver_text (const TlAgeingDriver *driver, const TlLanguage *language)
{
  return tl_range_format (driver->range, driver->unit, language);
}

char *
tl_ageing_band_text (const TlAgeing *self, TlAgeingOutput output, const TlAgeingBand *band,
                     const TlLanguage *language)
{
  const char      *unit = outputs[output].unit;
  g_autofree char *best = tl_quantity_format (band->value.best, unit, language);
  g_autofree char *low = tl_quantity_format (band->value.low, unit, language);
  g_autofree char *high = tl_quantity_format (band->value.high, unit, language);

  if (band->is_open[0])
    return tl_wording_fill (
        tl_language_text (language, TL_N_ ("above {most}: no steady temperature can be told")),
        "most", low, NULL);
  if (band->is_open[1])
    return tl_wording_fill (tl_language_text (language, TL_N_ ("{low} to above {most}")), "low",
                            low, "most", high, NULL);
  if (band->is_open[2])
    return tl_wording_fill (tl_language_text (language, TL_N_ ("{best} ({low} to above {most})")),
                            "best", best, "low", low, "most", high, NULL);
  return tl_wording_fill (tl_language_text (language, TL_N_ ("{best} ({low} to {high})")), "best",
                          best, "low", low, "high", high, NULL);
}

char *
tl_ageing_basis_text (const TlAgeing *self, const TlLanguage *language)
{
  g_autofree char *load = tl_quantity_format (self->load_A, "A", language);
  g_autofree char *air = tl_quantity_format (self->ambient_C, "degC", language);

  return tl_wording_fill (
      tl_language_text (language,
                        TL_N_ ("Years ahead of this joint at {load} and {air} around the box. "
                               "Indicative: read the band, not the line.")),
      "load", load, "air", air, NULL);
}

char *
tl_ageing_reason_text (const TlAgeing *self, const TlAssembly *assembly, const TlLanguage *language)
{
  g_autofree char *part = NULL;

  if (self->is_computed || self->reason == NULL)
    return g_strdup ("");
  part = self->owner != NULL ? tl_assembly_owner_name (assembly, self->owner, language) : NULL;
  return tl_wording_fill (tl_language_text (language, self->reason), "part",
                          part != NULL ? part : "", NULL);
}

/* --- the terminal --- */

static void
append_bands (GString *text, const TlAgeing *self, TlAgeingOutput output,
              const TlLanguage *language)
{
  static const double years[] = { 0.0, 0.1, 1.0, 5.0, 10.0, 20.0, 30.0, 40.0 };

  g_string_append_printf (text, "\n%s\n", tl_language_text (language, outputs[output].title));
  for (guint i = 0; i < G_N_ELEMENTS (years); i++)
    {
      TlAgeingBand     band;
      g_autofree char *told = NULL;
      g_autofree char *year = NULL;

      if (years[i] > self->span_years)
        break;
      band = tl_ageing_band_at (self, output, years[i]);
      told = tl_ageing_band_text (self, output, &band, language);
      year = years[i] > 0.0 ? tl_quantity_format (years[i], "y", language)
                            : g_strdup (tl_language_text (language, TL_N_ ("new")));
      g_string_append_printf (text, "  %8s  %s\n", year, told);
    }
}

static void
append_drivers (GString *text, const TlAgeing *self, TlAgeingOutput output,
                const TlLanguage *language)
{
  guint            order[TL_N_AGEING_INPUTS], n = tl_ageing_drivers_of (self, output, order);
  g_autofree char *head = tl_wording_fill (
      tl_language_text (language, TL_N_ ("What drives the band at the end: {output}")), "output",
      tl_language_text (language, outputs[output].title), NULL);

  g_string_append_printf (text, "\n%s\n", head);
  for (guint i = 0; i < n; i++)
    {
      const TlAgeingDriver *driver = &self->drivers[order[i]];
      g_autofree char      *share = tl_language_number (language, 100.0 * driver->share[output], 0);
      g_autofree char      *range = tl_ageing_driver_text (driver, language);

      g_string_append_printf (text, "  %3s %%  %s: %s\n", share,
                              tl_language_text (language, inputs[driver->input].title), range);
    }
}

char *
tl_ageing_to_text (const TlAgeing *self, const TlAssembly *assembly, const TlLanguage *language)
{
  GString         *text = g_string_new (NULL);
  g_autofree char *reason = tl_ageing_reason_text (self, assembly, language);
  g_autofree char *basis = NULL;
  g_autofree char *look = NULL;

  if (!self->is_computed)
    {
      g_string_append_printf (text, "%s  %s\n", tl_language_text (language, TL_N_ ("Not computed")),
                              reason);
      return g_string_free (text, FALSE);
    }
  basis = tl_ageing_basis_text (self, language);
  look = tl_ageing_look_text (self, language);
  g_string_append_printf (text, "%s\n", basis);
  g_string_append_printf (
      text, "%s\n",
      tl_language_text (
          language,
          TL_N_ ("Each figure is the middle of the samples, in brackets the 5 and 95 % of them.")));
  for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
    if (self->has[k])
      append_bands (text, self, k, language);
  append_drivers (text, self, TL_AGEING_GROWTH, language);
  append_drivers (text, self, TL_AGEING_HOT, language);
  g_string_append_printf (text, "\n%s: %s\n%s\n", tl_language_text (language, TL_N_ ("Look again")),
                          tl_language_text (language, looks[self->look].title), look);
  return g_string_free (text, FALSE);
}
