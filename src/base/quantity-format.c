/* quantity-format.c: the printing half of quantity.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"

#include "base/unit-private.h"

#include <math.h>
#include <string.h>

#define SIGNIFICANT 3
#define MAX_DECIMALS 12
#define AWG_MATCH_SHARE 0.01
#define NARROW_SPACE "\u202f"

/* What customary readers get instead of the unit at the left. */
static const struct
{
  const char *metric;
  const char *customary;
} customary_units[] = {
  { "mm", "in" },
  { "N_m", "lbf_in" },
  { "degC", "degF" },
  { "cm3", "in3" },
};

/* Decimals that show three significant figures, and no zero at the end. */
static guint
decimals_for (double value)
{
  int    decimals;
  double scale;

  if (value == 0.0)
    return 0;
  decimals = CLAMP (SIGNIFICANT - 1 - (int) floor (log10 (fabs (value))), 0, MAX_DECIMALS);
  scale = pow (10.0, decimals);
  for (double scaled = round (fabs (value) * scale); decimals > 0; decimals--)
    {
      if (fmod (scaled, 10.0) != 0.0)
        break;
      scaled /= 10.0;
    }
  return (guint) decimals;
}

static char *
format_number (double value, const TlLanguage *language)
{
  return tl_language_number (language, value, decimals_for (value));
}

static char *
append_unit (const char *number, const char *unit)
{
  const char *label = tl_unit_label (unit);
  gboolean    is_close = *label == '\0' || strcmp (label, "°") == 0;

  return g_strconcat (number, is_close ? "" : NARROW_SPACE, label, NULL);
}

/* The unit that @language shows @unit in, and @value in it. */
static const char *
localize (double *value, const char *unit, const TlLanguage *language)
{
  if (tl_language_units (language) != TL_UNITS_CUSTOMARY)
    return unit;
  for (guint i = 0; i < G_N_ELEMENTS (customary_units); i++)
    if (strcmp (customary_units[i].metric, unit) == 0)
      {
        *value =
            tl_unit_turn (*value, tl_unit_find (unit), tl_unit_find (customary_units[i].customary));
        return customary_units[i].customary;
      }
  return unit;
}

/* "12 AWG" if a size fits @section_mm2 within 1 %, else %NULL. */
static char *
format_awg (double section_mm2)
{
  for (int awg = 36; awg >= -3; awg--)
    {
      double diameter_mm = tl_awg_diameter_mm (awg);
      double area_mm2 = G_PI / 4.0 * diameter_mm * diameter_mm;

      if (fabs (section_mm2 - area_mm2) > AWG_MATCH_SHARE * area_mm2)
        continue;
      return awg > 0 ? g_strdup_printf ("%d" NARROW_SPACE "AWG", awg)
                     : g_strdup_printf ("%d/0" NARROW_SPACE "AWG", 1 - awg);
    }
  return NULL;
}

char *
tl_quantity_format (double value, const char *unit, const TlLanguage *language)
{
  g_autofree char *number = NULL;

  g_return_val_if_fail (unit != NULL && language != NULL, g_strdup ("?"));
  g_return_val_if_fail (isfinite (value), g_strdup ("?"));

  if (tl_language_units (language) == TL_UNITS_CUSTOMARY && strcmp (unit, "mm2") == 0)
    {
      char *awg = format_awg (value);

      if (awg != NULL)
        return awg;
    }
  unit = localize (&value, unit, language);
  number = format_number (value, language);
  return append_unit (number, unit);
}

char *
tl_range_format (TlRange range, const char *unit, const TlLanguage *language)
{
  const char      *shown_unit;
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;
  g_autofree char *both = NULL;

  g_return_val_if_fail (unit != NULL && language != NULL, g_strdup ("?"));
  g_return_val_if_fail (tl_range_is_valid (range), g_strdup ("?"));

  if (tl_range_is_exact (range))
    return tl_quantity_format (range.best, unit, language);

  localize (&range.low, unit, language);
  shown_unit = localize (&range.high, unit, language);
  low = format_number (range.low, language);
  high = format_number (range.high, language);
  if (strcmp (low, high) == 0)
    return append_unit (low, shown_unit);
  /* Translators: two figures of a range, as in "1.5 to 2.5"; the unit follows. */
  both = g_strdup_printf (tl_language_text (language, "%s to %s"), low, high);
  return append_unit (both, shown_unit);
}

/* Writes @value with @digits significant figures; the exponent only where there are more places. */
static void
write_digits (char *text, gsize size, int digits, double value)
{
  char format[8];

  g_snprintf (format, sizeof format, "%%.%dg", digits);
  g_ascii_formatd (text, (int) size, format, value);
}

char *
tl_number_to_text (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  int  digits = 0;
  int  places;

  g_return_val_if_fail (isfinite (value), g_strdup ("0"));

  /* A file has one zero. */
  if (value == 0.0)
    return g_strdup ("0");
  do
    write_digits (text, sizeof text, ++digits, value);
  while (digits < 17 && g_ascii_strtod (text, NULL) != value);

  /* "12500" reads better than "1.25e+04" and is as exact. */
  places = (int) floor (log10 (fabs (value))) + 1;
  if (places > digits && places <= 15)
    write_digits (text, sizeof text, places, value);
  return g_strdup (text);
}
