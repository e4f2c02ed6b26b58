/* quantity.c: what a person may type into a field: numbers with units, ranges, words.
 *
 * The first line of the input names the field, the rest is the text. Refused: with a message. Taken: the
 * figures are finite and in order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

#include "base/fact.h"
#include "base/quantity.h"

#include <math.h>
#include <string.h>

static void
try_unit (const char *text, const char *unit)
{
  g_autoptr (GError) error = NULL, range_error = NULL;
  double  value;
  TlRange range;

  if (tl_quantity_parse (text, unit, &value, &error))
    {
      g_autofree char *shown = tl_quantity_format (value, unit, tl_language_plain ());
      g_assert_true (isfinite (value));
      g_assert_true (g_utf8_validate (shown, -1, NULL));
    }
  else
    g_assert_nonnull (error);
  if (tl_quantity_parse_range (text, unit, &range, &range_error))
    g_assert_true (tl_range_is_valid (range));
  else
    g_assert_nonnull (range_error);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *input = g_strndup ((const char *) data, size);
  char            *text = strchr (input, '\n');
  TlField          field;

  if (text == NULL)
    return 0;
  *text++ = '\0';
  if (!tl_field_from_key (input, &field))
    return 0;

  const TlFieldInfo *info = tl_field_info (field);
  g_autoptr (GError) error = NULL;
  TlFact fact = { 0 };
  if (tl_fact_parse (field, text, &fact, &error))
    {
      fact.field = field;
      g_assert_true (tl_fact_check (&fact, NULL));
    }
  else
    g_assert_nonnull (error);
  if (*info->unit != '\0')
    try_unit (text, info->unit);
  g_free (fact.word);
  return 0;
}
