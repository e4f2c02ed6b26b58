/* pack.c: the reader of packs under any bytes.
 *
 * Refused: with one line that names the file. Read: it can be laid over a stock, writes itself, reads back, and writes the
 * same; what could not be read stays as it was.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

#include "stock/pack.h"

#include <string.h>

/* Read once: it is the same for every run. */
static const TlStock *
system_stock (void)
{
  static gsize stock = 0;

  if (g_once_init_enter (&stock))
    g_once_init_leave (&stock, (gsize) tl_stock_load (NULL, NULL));
  return (const TlStock *) stock;
}

static void
check_problems (const GPtrArray *problems)
{
  for (guint i = 0; i < problems->len; i++)
    {
      const TlPackProblem *problem = g_ptr_array_index (problems, i);

      g_assert_true (g_str_has_prefix (problem->message, "fuzz.xml:"));
      g_assert_null (strchr (problem->message, '\n'));
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlPack) pack = tl_pack_parse ((const char *) data, size, "fuzz.xml", &error),
                     back = NULL;
  g_autoptr (GPtrArray) packs = g_ptr_array_new (), problems = tl_pack_problems_new ();
  g_autoptr (TlStock) stock = NULL;
  g_autofree char *text = NULL, *again = NULL;
  gsize            length;

  if (pack == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (g_str_has_prefix (error->message, "fuzz.xml:"));
      g_assert_null (strchr (error->message, '\n'));
      return 0;
    }
  g_assert_no_error (error);
  check_problems (tl_pack_problems (pack));
  g_ptr_array_add (packs, pack);
  stock = tl_stock_with_packs (system_stock (), packs, problems);
  check_problems (problems);
  g_assert_true (tl_stock_part (stock, "washer-plain-m5-steel")
                 == tl_stock_part (system_stock (), "washer-plain-m5-steel"));

  text = tl_pack_to_text (pack, &length);
  back = tl_pack_parse (text, length, "back.xml", &error);
  /* What is read at the very cap may need a few bytes more when written. */
  if (g_error_matches (error, TL_ERROR, TL_ERROR_LIMIT))
    return 0;
  g_assert_no_error (error);
  g_assert_cmpuint (tl_pack_problems (back)->len, ==, tl_pack_problems (pack)->len);
  again = tl_pack_to_text (back, NULL);
  g_assert_cmpstr (text, ==, again);
  return 0;
}
