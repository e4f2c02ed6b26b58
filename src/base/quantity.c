/* quantity.c: numbers with units, read and printed.
 *
 * Reading goes in two steps: a number and the unit behind it are told apart, then the number is
 * turned into the unit wanted. The number is scanned by hand, since strtod() takes "nan", "0x10"
 * and whatever the locale allows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"

#include "base/unit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MAX_TEXT 200
#define MAX_PIECES 3
#define SHOWN_CHARS 60

/* A number as it stood in the text. */
typedef struct
{
  double      value;
  gboolean    is_whole;     /* digits only, no sign, mark or exponent */
  guint       digits;       /* how many digits a whole number had */
  gboolean    is_over_zero; /* "2/0": a wire size, not a fraction */
  const char *unit;         /* (transfer none): what follows, spaces skipped */
} Scanned;

/* --- messages --- */

/* @text as it can stand in a message: valid UTF-8, one line, not endless. */
static char *
shown (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, (gssize) strnlen (text, 4 * SHOWN_CHARS));
  g_autofree char *start = NULL;

  for (char *c = valid; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  if (g_utf8_strlen (valid, -1) <= SHOWN_CHARS)
    return g_steal_pointer (&valid);
  start = g_utf8_substring (valid, 0, SHOWN_CHARS);
  return g_strconcat (start, "…", NULL);
}

static gboolean
fail_parse (GError **error, const char *text)
{
  g_autofree char *quoted = shown (text);

  g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
               _ ("“%s” is not a number; write digits with a decimal point or comma and no "
                  "grouping, such as 1234.5 or 0,5 or 1/2."),
               quoted);
  return FALSE;
}

static gboolean
fail_range (GError **error, const char *text)
{
  g_autofree char *quoted = shown (text);

  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("“%s” is too large a number; it must be finite and below 1e308."), quoted);
  return FALSE;
}

static gboolean
fail_unit (GError **error, const char *spelling, const TlUnit *wanted)
{
  g_autofree char *quoted = shown (spelling);
  g_autofree char *alike = tl_unit_list_alike (wanted);

  if (*alike == '\0')
    g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                 _ ("“%s” cannot be read here; a plain number without a unit is wanted."), quoted);
  else if (tl_unit_find (spelling) == NULL)
    g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                 _ ("“%s” is not a known unit; one of these is wanted: %s."), quoted, alike);
  else
    g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                 _ ("The unit “%s” does not fit here; one of these is wanted: %s."), quoted, alike);
  return FALSE;
}

/* --- scanning --- */

static const char *
skip_spaces (const char *p)
{
  for (;;)
    {
      gunichar c = g_utf8_get_char (p);

      if (c == 0 || !(g_unichar_isspace (c) || c == 0x202f || c == 0x00a0 || c == 0x2009))
        return p;
      p = g_utf8_next_char (p);
    }
}

static const char *
skip_digits (const char *p)
{
  while (g_ascii_isdigit (*p))
    p++;
  return p;
}

/* Reads "[digits][mark digits][e[sign]digits]" without a sign at @p into @value.
 * Returns: the end, or %NULL if there is no such number */
static const char *
scan_decimal (const char *p, const char *marks, double *value)
{
  char        plain[MAX_TEXT + 1];
  const char *start = p;
  const char *end = skip_digits (p);
  gboolean    has_digits = end > p;

  if (*end != '\0' && strchr (marks, *end) != NULL && g_ascii_isdigit (end[1]))
    {
      end = skip_digits (end + 1);
      has_digits = TRUE;
    }
  if (!has_digits)
    return NULL;
  if (*end == 'e' || *end == 'E')
    {
      const char *exponent = end + 1 + (end[1] == '-' || end[1] == '+');

      if (g_ascii_isdigit (*exponent))
        end = skip_digits (exponent);
    }
  if ((gsize) (end - start) > MAX_TEXT)
    return NULL;

  memcpy (plain, start, (gsize) (end - start));
  plain[end - start] = '\0';
  for (char *c = plain; *c != '\0'; c++)
    if (*c == ',')
      *c = '.';
  *value = g_ascii_strtod (plain, NULL);
  return end;
}

/* Reads "/digits" at @p. Returns: the end, or %NULL */
static const char *
scan_denominator (const char *p, double *denominator)
{
  const char *end;

  if (*p != '/' || !g_ascii_isdigit (p[1]))
    return NULL;
  end = skip_digits (p + 1);
  *denominator = g_ascii_strtod (p + 1, NULL);
  return *end == '.' || *end == ',' ? NULL : end;
}

/* Tells number and unit apart: "-1 1/2 in", "2,5 mm²", "4/0 AWG". */
static gboolean
scan (const char *text, Scanned *scanned, GError **error)
{
  const char *p;
  const char *start;
  double      sign = 1.0;
  double      denominator;
  const char *after;

  if (strlen (text) > MAX_TEXT || !g_utf8_validate (text, -1, NULL))
    return fail_parse (error, text);

  p = skip_spaces (text);
  start = p;
  if (*p == '-' || *p == '+' || g_utf8_get_char (p) == 0x2212)
    {
      sign = *p == '+' ? 1.0 : -1.0;
      p = g_utf8_next_char (p);
    }
  p = skip_spaces (p);
  scanned->digits = (guint) (skip_digits (p) - p);
  after = scan_decimal (p, ".,", &scanned->value);
  if (after == NULL)
    return fail_parse (error, text);
  scanned->is_whole = after == p + scanned->digits && p == start;
  scanned->is_over_zero = FALSE;

  if (after == p + scanned->digits)
    {
      const char *part = skip_spaces (after);
      const char *part_end = skip_digits (part);
      const char *end;

      if ((end = scan_denominator (after, &denominator)) != NULL)
        {
          scanned->is_over_zero = denominator == 0.0 && p == start;
          scanned->value = denominator == 0.0 ? scanned->value : scanned->value / denominator;
          if (denominator == 0.0 && !scanned->is_over_zero)
            return fail_parse (error, text);
          scanned->is_whole = FALSE;
          after = end;
        }
      else if (part > after && part_end > part
               && (end = scan_denominator (part_end, &denominator)) != NULL)
        {
          if (denominator == 0.0)
            return fail_parse (error, text);
          scanned->value += g_ascii_strtod (part, NULL) / denominator;
          scanned->is_whole = FALSE;
          after = end;
        }
    }
  /* "1,234.5", "1.2.3" and "5 mm" written "5.mm" end here. */
  if (*after == '.' || *after == ',' || *after == '/')
    return fail_parse (error, text);
  if (!isfinite (scanned->value))
    return fail_range (error, text);
  scanned->value *= sign;
  scanned->unit = skip_spaces (after);
  return TRUE;
}

/* --- wire sizes --- */

static gboolean
is_awg (const char *unit)
{
  return g_ascii_strcasecmp (unit, "AWG") == 0;
}

static gboolean
evaluate_awg (const Scanned *scanned, const TlUnit *wanted, const char *text, double *value,
              GError **error)
{
  double        size = scanned->value;
  const TlUnit *mm = tl_unit_find ("mm");
  const TlUnit *mm2 = tl_unit_find ("mm2");
  double        diameter_mm;

  if (strcmp (wanted->dimension, mm->dimension) != 0
      && strcmp (wanted->dimension, mm2->dimension) != 0)
    return fail_unit (error, "AWG", wanted);

  /* 1/0 is size 0, 2/0 is -1; "00" is another way to write 2/0. */
  if (scanned->is_over_zero)
    size = 1.0 - scanned->value;
  else if (scanned->is_whole && scanned->value == 0.0)
    size = 1.0 - scanned->digits;
  if ((!scanned->is_over_zero && !scanned->is_whole) || size < -3.0 || size > 36.0
      || (scanned->is_over_zero && scanned->value < 1.0))
    {
      g_autofree char *quoted = shown (text);

      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("“%s” is not an AWG size; sizes run from 36 to 1 and from 1/0 to 4/0."),
                   quoted);
      return FALSE;
    }
  diameter_mm = tl_awg_diameter_mm ((int) size);
  if (strcmp (wanted->dimension, mm->dimension) == 0)
    *value = tl_unit_turn (diameter_mm, mm, wanted);
  else
    *value = tl_unit_turn (G_PI / 4.0 * diameter_mm * diameter_mm, mm2, wanted);
  return TRUE;
}

/* --- reading --- */

static gboolean
evaluate (const Scanned *scanned, const char *unit, const TlUnit *wanted, const char *text,
          double *value, GError **error)
{
  const TlUnit *from;
  double        result;

  if (is_awg (unit))
    return evaluate_awg (scanned, wanted, text, value, error);
  if (scanned->is_over_zero)
    return fail_parse (error, text);

  from = *unit == '\0' ? wanted : tl_unit_find (unit);
  if (from == NULL || strcmp (from->dimension, wanted->dimension) != 0)
    return fail_unit (error, unit, wanted);
  if (strcmp (wanted->name, "K") == 0 && from->zero != wanted->zero
      && !g_str_equal (from->name, "mK"))
    {
      g_autofree char *quoted = shown (text);

      /* A rise written "20 °C" would silently become 293 K. */
      g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                   _ ("“%s” is a point on a scale; a difference of temperature is wanted, in K."),
                   quoted);
      return FALSE;
    }
  result = tl_unit_turn (scanned->value, from, wanted);
  if (!isfinite (result))
    return fail_range (error, text);
  *value = result;
  return TRUE;
}

/* "AWG 12" as "12 AWG"; others as they are. (transfer full) */
static char *
turn_awg_round (const char *text)
{
  const char *p = skip_spaces (text);

  if (g_ascii_strncasecmp (p, "AWG", 3) == 0 && p[3] != '\0')
    return g_strconcat (p + 3, " AWG", NULL);
  return g_strdup (text);
}

/* Cuts spaces of every kind from the end. */
static void
chomp (char *text)
{
  char *end = text + strlen (text);

  while (end > text)
    {
      char *last = g_utf8_find_prev_char (text, end);

      if (last == NULL || skip_spaces (last) != end)
        return;
      *last = '\0';
      end = last;
    }
}

/* @text valid, trimmed, with AWG behind; %NULL with @error if it cannot be. (transfer full) */
static char *
prepare (const char *text, GError **error)
{
  g_autofree char *turned = NULL;

  if (strlen (text) > MAX_TEXT || !g_utf8_validate (text, -1, NULL))
    {
      fail_parse (error, text);
      return NULL;
    }
  turned = turn_awg_round (text);
  chomp (turned);
  return g_steal_pointer (&turned);
}

gboolean
tl_quantity_parse (const char *text, const char *unit, double *value, GError **error)
{
  const TlUnit    *wanted;
  Scanned          scanned;
  g_autofree char *tidy = NULL;

  g_return_val_if_fail (text != NULL && unit != NULL && value != NULL, FALSE);
  wanted = tl_unit_find (unit);
  g_return_val_if_fail (wanted != NULL, FALSE);

  tidy = prepare (text, error);
  return tidy != NULL && scan (tidy, &scanned, error)
         && evaluate (&scanned, scanned.unit, wanted, tidy, value, error);
}

gboolean
tl_quantity_parse_range (const char *text, const char *unit, TlRange *range, GError **error)
{
  const TlUnit *wanted;
  g_auto (GStrv) pieces = NULL;
  g_autofree char *tidy = NULL;
  Scanned          scanned[MAX_PIECES];
  double           values[MAX_PIECES];
  guint            count;

  g_return_val_if_fail (text != NULL && unit != NULL && range != NULL, FALSE);
  wanted = tl_unit_find (unit);
  g_return_val_if_fail (wanted != NULL, FALSE);

  tidy = prepare (text, error);
  if (tidy == NULL)
    return FALSE;
  pieces = g_strsplit (tidy, "..", MAX_PIECES + 1);
  count = g_strv_length (pieces);
  if (count == 0 || count > MAX_PIECES)
    return fail_parse (error, tidy);
  for (guint i = 0; i < count; i++)
    {
      chomp (pieces[i]);
      if (!scan (pieces[i], &scanned[i], error))
        return FALSE;
    }
  for (guint i = 0; i < count; i++)
    {
      const char *own = *scanned[i].unit != '\0' ? scanned[i].unit : scanned[count - 1].unit;

      if (!evaluate (&scanned[i], own, wanted, tidy, &values[i], error))
        return FALSE;
    }
  for (guint i = 1; i < count; i++)
    if (values[i] < values[i - 1])
      {
        g_autofree char *quoted = shown (tidy);

        g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                     _ ("“%s” falls; the figures of a range must rise, as in 1.5..2.5."), quoted);
        return FALSE;
      }
  range->low = values[0];
  range->high = values[count - 1];
  range->best = count == 2 ? values[0] + (values[1] - values[0]) / 2.0 : values[count / 2];
  return TRUE;
}

gboolean
tl_number_parse (const char *text, double *value, GError **error)
{
  const char *p;
  double      sign = 1.0;
  double      result;

  g_return_val_if_fail (text != NULL && value != NULL, FALSE);

  for (p = text; g_ascii_isspace (*p); p++)
    ;
  if (*p == '-' || *p == '+')
    sign = *p++ == '-' ? -1.0 : 1.0;
  p = scan_decimal (p, ".", &result);
  while (p != NULL && g_ascii_isspace (*p))
    p++;
  if (p == NULL || *p != '\0')
    {
      g_autofree char *quoted = shown (text);

      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("“%s” is not a number; write it with a decimal point, such as 2.5."), quoted);
      return FALSE;
    }
  if (!isfinite (result))
    return fail_range (error, text);
  *value = sign * result;
  return TRUE;
}

gboolean
tl_quantity_convert (double value, const char *from, const char *to, double *result, GError **error)
{
  const TlUnit *a;
  const TlUnit *b;
  double        turned;

  g_return_val_if_fail (from != NULL && to != NULL && result != NULL, FALSE);

  a = tl_unit_find (from);
  b = tl_unit_find (to);
  if (b == NULL)
    {
      g_autofree char *quoted = shown (to);

      g_set_error (error, TL_ERROR, TL_ERROR_UNIT,
                   _ ("“%s” is not a known unit; units are spelled as mm2, N_m or degC."), quoted);
      return FALSE;
    }
  if (a == NULL || strcmp (a->dimension, b->dimension) != 0)
    return fail_unit (error, from, b);
  turned = tl_unit_turn (value, a, b);
  if (!isfinite (turned))
    {
      g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                   _ ("%g %s cannot be turned into %s; it must be a finite number."), value,
                   a->label, b->label);
      return FALSE;
    }
  *result = turned;
  return TRUE;
}
