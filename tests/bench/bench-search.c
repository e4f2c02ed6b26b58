/* bench-search.c: how long it takes to search all parts, and to lay a large pack.
 *
 * Prints "search-QUERY N us" for each query, "search-index", and "pack-100000-read" and "-lay".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"

#include "stock/pack.h"
#include "stock/search.h"

#include <string.h>

typedef struct
{
  const TlStock  *stock;
  const TlSearch *search;
  const char     *text;
  const char     *query;
  GPtrArray      *packs;
} Work;

static void
search (gpointer data, guint times)
{
  const Work *work = data;

  for (guint i = 0; i < times; i++)
    g_array_unref (tl_search_find (work->search, work->query, NULL));
}

static void
index_parts (gpointer data, guint times)
{
  const Work *work = data;

  for (guint i = 0; i < times; i++)
    tl_search_free (tl_search_new (work->stock, tl_language_plain ()));
}

static void
read_pack (gpointer data, guint times)
{
  const Work *work = data;

  for (guint i = 0; i < times; i++)
    tl_pack_unref (tl_pack_parse (work->text, strlen (work->text), "many.xml", NULL));
}

static void
lay_pack (gpointer data, guint times)
{
  const Work *work = data;

  for (guint i = 0; i < times; i++)
    tl_stock_unref (tl_stock_with_packs (work->stock, work->packs, NULL));
}

static char *
many_parts (void)
{
  GString *text = g_string_new ("<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"Many\">\n");

  for (guint i = 0; i < 100000; i++)
    g_string_append_printf (text,
                            "<part id=\"own-%u\" kind=\"nut\"><fact field=\"thread\" value=\"5\" "
                            "unit=\"mm\"/></part>\n",
                            i);
  g_string_append (text, "</pack>\n");
  return g_string_free (text, FALSE);
}

int
main (void)
{
  static const char *const queries[] = { "2.5 al flexible", "m5 steel", "washer 10", "12 awg", "" };
  g_autoptr (TlStock) stock = bench_stock ();
  g_autoptr (TlSearch) ready = tl_search_new (stock, tl_language_plain ());
  g_autofree char *text = many_parts ();
  g_autoptr (GPtrArray) packs = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_pack_unref);
  Work work = { stock, ready, text, NULL, packs };

  for (guint i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      work.query = queries[i];
      g_print ("search-\"%s\" %.0f us\n", queries[i], bench_median_us (search, &work, 50));
    }
  g_print ("search-index %.0f us\n", bench_median_us (index_parts, &work, 1));
  g_print ("pack-100000-read %.0f us\n", bench_median_us (read_pack, &work, 1));
  g_ptr_array_add (packs, tl_pack_parse (text, strlen (text), "many.xml", NULL));
  g_print ("pack-100000-lay %.0f us\n", bench_median_us (lay_pack, &work, 1));
  return 0;
}
