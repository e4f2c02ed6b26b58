/* test-search.c: what a person types, and which part stands first.
 *
 * Sizes are of the stock, whose figures have their sources; AWG by ASTM B258; the order is this project's own choice.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack.h"
#include "stock/search.h"

#include <string.h>

static const TlStock  *stock;
static const TlSearch *search;

static GArray *
find (const char *text, const TlSearchFilter *filter)
{
  return tl_search_find (search, text, filter);
}

static const TlSearchHit *
hit_at (const GArray *hits, guint index)
{
  g_assert_cmpuint (hits->len, >, index);
  return &g_array_index (hits, TlSearchHit, index);
}

static double
number (const TlPart *part, TlField field)
{
  return tl_facts_number (part->facts, field, -1.0);
}

static gboolean
has (const GArray *hits, const char *id)
{
  for (guint i = 0; i < hits->len; i++)
    if (strcmp (hit_at (hits, i)->part->id, id) == 0)
      return TRUE;
  return FALSE;
}

/* What every hit must be, or the first ones. */
typedef struct
{
  const char *text;
  const char *first; /* (nullable): id that stands first */
  const char *word;  /* (nullable): word that metal or material of every hit is */
  gint        kind;  /* of every hit; -1: any */
  TlField     field; /* of the first hit; TL_N_FIELDS: none */
  double      value;
} Case;

static const Case cases[] = {
  { "m5 steel", NULL, NULL, -1, TL_FIELD_THREAD, 5.0 },
  { "M5 nut steel", "nut-m5-steel", NULL, TL_PART_NUT, TL_FIELD_THREAD, 5.0 },
  { "nut m5 brass", NULL, "brass", TL_PART_NUT, TL_FIELD_THREAD, 5.0 },
  { "washer 10", NULL, NULL, -1, TL_FIELD_THREAD, 10.0 },
  { "washer outer 10", NULL, NULL, -1, TL_FIELD_OUTER, 10.0 },
  { "plain washer bore 5.3", NULL, NULL, TL_PART_PLAIN_WASHER, TL_FIELD_BORE, 5.3 },
  { "12 awg", NULL, NULL, -1, TL_FIELD_SECTION, 3.309 },
  { "AWG 12 solid", NULL, NULL, TL_PART_CONDUCTOR, TL_FIELD_SECTION, 3.309 },
  { "12awg", NULL, NULL, -1, TL_FIELD_SECTION, 3.309 },
  { "2.5 cu flexible", NULL, "copper", TL_PART_CONDUCTOR, TL_FIELD_SECTION, 2.5 },
  { "2,5 mm² copper class-5", NULL, "copper", TL_PART_CONDUCTOR, TL_FIELD_SECTION, 2.5 },
  { "2.5 mm2 al", NULL, "aluminium", TL_PART_CONDUCTOR, TL_FIELD_SECTION, 2.5 },
  { "aluminum 2.5", NULL, "aluminium", -1, TL_FIELD_SECTION, 2.5 },
  { "bolt m5x20", NULL, NULL, TL_PART_BOLT, TL_FIELD_LENGTH, 20.0 },
  { "bolt M5 × 20 steel", NULL, NULL, TL_PART_BOLT, TL_FIELD_LENGTH, 20.0 },
  { "1/2 in", NULL, NULL, -1, TL_N_FIELDS, 0.0 },
  { "sleeve 10 mm²", NULL, NULL, TL_PART_SLEEVE, TL_FIELD_STATED_SECTION, 10.0 },
  { "  SLEEVE,  10 ", NULL, NULL, TL_PART_SLEEVE, TL_FIELD_STATED_SECTION, 10.0 },
  { "box round", NULL, NULL, TL_PART_BOX, TL_N_FIELDS, 0.0 },
  { "heat-shrink adhesive", NULL, NULL, TL_PART_SEAL, TL_N_FIELDS, 0.0 },
  /* what it is called on site; common practice, no source */
  { "crimp lug 16", NULL, NULL, TL_PART_LUG, TL_FIELD_STATED_SECTION, 16.0 },
  { "crimp 2.5 butt", NULL, NULL, TL_PART_SLEEVE, TL_FIELD_STATED_SECTION, 2.5 },
  { "paste", NULL, NULL, TL_PART_COMPOUND, TL_N_FIELDS, 0.0 },
  { "grease", NULL, NULL, TL_PART_COMPOUND, TL_N_FIELDS, 0.0 },
  { "connector strip", NULL, NULL, TL_PART_TERMINAL, TL_N_FIELDS, 0.0 },
  { "shrink tube", NULL, NULL, TL_PART_SEAL, TL_N_FIELDS, 0.0 },
  { "washer-plain-m5-steel-zinc", "washer-plain-m5-steel-zinc", NULL, -1, TL_FIELD_THREAD, 5.0 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (GArray) hits = find (c->text, NULL);

  g_assert_cmpuint (hits->len, >, 0);
  for (guint i = 0; i < hits->len; i++)
    {
      const TlPart *part = hit_at (hits, i)->part;

      g_assert_cmpuint (hit_at (hits, i)->missed, ==, 0);
      if (c->kind >= 0)
        g_assert_cmpint (part->kind, ==, c->kind);
      if (c->word != NULL)
        g_assert_cmpstr (tl_facts_word (part->facts, TL_FIELD_METAL,
                                        tl_facts_word (part->facts, TL_FIELD_MATERIAL, "")),
                         ==, c->word);
    }
  if (c->first != NULL)
    g_assert_cmpstr (hit_at (hits, 0)->part->id, ==, c->first);
  if (c->field != TL_N_FIELDS)
    g_assert_cmpfloat_with_epsilon (number (hit_at (hits, 0)->part, c->field), c->value,
                                    1e-3 * c->value);
}

/* A washer with 10 mm outside is found by "washer 10", behind those for M10. */
static void
test_other_sizes_behind (void)
{
  g_autoptr (GArray) hits = find ("washer 10", NULL);
  gboolean other = FALSE;

  for (guint i = 0; i < hits->len; i++)
    {
      const TlPart *part = hit_at (hits, i)->part;
      gboolean      is_thread = number (part, TL_FIELD_THREAD) == 10.0;

      g_assert_false (is_thread && other);
      other = other || !is_thread;
    }
  g_assert_true (has (hits, "washer-plain-m5-steel"));
}

/* Every row that the words describe is there, and none besides. */
static void
test_complete (void)
{
  g_autoptr (GArray) hits = find ("nut thread 5", NULL);
  const GPtrArray *parts = tl_stock_parts (stock);
  guint            expected = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      gboolean      fits = part->kind == TL_PART_NUT && number (part, TL_FIELD_THREAD) == 5.0;

      expected += fits;
      g_assert_true (!fits || has (hits, part->id));
    }
  g_assert_cmpuint (expected, >, 2);
  g_assert_cmpuint (hits->len, ==, expected);
}

/* Nothing typed: the whole stock in its order. Nonsense: nothing. No aluminium of this stock is flexible: what fits
 * all but one of three words is shown, and says so. */
static void
test_edges (void)
{
  static const char *const nothing[] = { "mithril", "zzz 5", "99999 mm", "m999", "-5", "\xff\xfe" };
  g_autoptr (GArray) all = find ("", NULL), null = find (NULL, NULL),
                     spaces = find (" \t,  ", NULL);
  g_autoptr (GArray) near = find ("2.5 aluminium mithril", NULL);
  g_autofree char *long_text = g_strnfill (100000, 'a');
  g_autoptr (GArray) too_long = find (long_text, NULL);

  g_assert_cmpuint (all->len, ==, tl_stock_parts (stock)->len);
  g_assert_cmpuint (null->len, ==, all->len);
  g_assert_cmpuint (spaces->len, ==, all->len);
  g_assert_true (hit_at (all, 3)->part == g_ptr_array_index (tl_stock_parts (stock), 3));
  for (guint i = 0; i < G_N_ELEMENTS (nothing); i++)
    {
      g_autoptr (GArray) hits = find (nothing[i], NULL);

      g_assert_cmpuint (hits->len, ==, 0);
    }
  g_assert_cmpuint (hit_at (near, 0)->missed, ==, 1);
  g_assert_cmpstr (tl_facts_word (hit_at (near, 0)->part->facts, TL_FIELD_METAL, ""), ==,
                   "aluminium");
  g_assert_cmpuint (too_long->len, ==, 0);
}

/* Every part is found by its id, alone on top. */
static void
test_every_part (void)
{
  const GPtrArray *parts = tl_stock_parts (stock);

  for (guint i = 0; i < parts->len; i += 7)
    {
      const TlPart *part = g_ptr_array_index (parts, i);
      g_autoptr (GArray) hits = find (part->id, NULL);

      g_assert_true (has (hits, part->id));
    }
}

static void
test_same_again (void)
{
  g_autoptr (TlSearch) other = tl_search_new (stock, tl_language_plain ());
  g_autoptr (GArray) one = find ("washer 10", NULL),
                     two = tl_search_find (other, "washer 10", NULL);

  g_assert_cmpuint (one->len, ==, two->len);
  for (guint i = 0; i < one->len; i++)
    g_assert_true (hit_at (one, i)->part == hit_at (two, i)->part);
}

/* ISO 7089: 5.3 mm for M5 (seen). Nothing that M5 does not pass, nothing looser than 15 %. */
static void
test_filter_thread (void)
{
  TlSearchFilter filter;
  g_autoptr (GArray) hits = NULL;

  tl_search_filter_init_defaults (&filter);
  tl_search_filter_passes_thread (&filter, 5.0, 0.15);
  hits = find ("", &filter);
  g_assert_true (has (hits, "washer-plain-m5-steel"));
  g_assert_false (has (hits, "washer-plain-m4-steel"));
  g_assert_false (has (hits, "washer-plain-m6-steel"));
  for (guint i = 0; i < hits->len; i++)
    {
      const TlPart *part = hit_at (hits, i)->part;

      if (!part->is_open || tl_facts_has (part->facts, TL_FIELD_BORE))
        {
          g_assert_cmpfloat (number (part, TL_FIELD_BORE), >=, 5.0);
          g_assert_cmpfloat (number (part, TL_FIELD_BORE), <=, 5.75);
        }
    }
}

static void
test_filter_conductor_and_seal (void)
{
  TlSearchFilter conductor, seal;
  g_autoptr (GArray) sleeves = NULL, seals = NULL;

  tl_search_filter_init_defaults (&conductor);
  tl_search_filter_takes_conductor (&conductor, 2.76, 1.02, 1.5);
  sleeves = find ("copper", &conductor);
  g_assert_cmpuint (sleeves->len, >, 0);
  for (guint i = 0; i < sleeves->len; i++)
    {
      const TlPart *part = hit_at (sleeves, i)->part;

      g_assert_true (part->kind == TL_PART_SLEEVE || part->kind == TL_PART_FERRULE);
      g_assert_true (part->is_open
                     || (number (part, TL_FIELD_BORE) >= 2.76 * 1.02
                         && number (part, TL_FIELD_BORE) <= 2.76 * 1.5));
    }
  tl_search_filter_init_defaults (&seal);
  tl_search_filter_shrinks (&seal, 6.0, 3.0);
  seals = find ("adhesive", &seal);
  g_assert_cmpuint (seals->len, >, 0);
  for (guint i = 0; i < seals->len; i++)
    {
      const TlPart *part = hit_at (seals, i)->part;

      g_assert_true (
          part->is_open
          || (number (part, TL_FIELD_EXPANDED) >= 6.0 && number (part, TL_FIELD_RECOVERED) <= 3.0));
    }
}

/* Of two that fit alike the one in the van stands first; a note of the pack is searched too. */
static void
test_van (void)
{
  const char text[] =
      "<pack xmlns=\"urn:tinlap:stock:1\" format=\"1\" name=\"Van\">"
      "<part id=\"own-nut\" kind=\"nut\"><fact field=\"thread\" value=\"5\" unit=\"mm\"/></part>"
      "<mark part=\"nut-m5-brass\" in-van=\"yes\" note=\"drawer seventeen\"/></pack>";
  g_autoptr (TlPack) pack = tl_pack_parse (text, strlen (text), "van.xml", NULL);
  g_autoptr (GPtrArray) packs = g_ptr_array_new ();
  g_autoptr (TlStock) laid = NULL;
  g_autoptr (TlSearch) own = NULL;
  g_autoptr (GArray) nuts = NULL, drawer = NULL, in_van = NULL, mine = NULL;
  TlSearchFilter van, only_own;

  g_assert_nonnull (pack);
  g_ptr_array_add (packs, pack);
  laid = tl_stock_with_packs (stock, packs, NULL);
  own = tl_search_new (laid, tl_language_plain ());
  nuts = tl_search_find (own, "nut m5", NULL);
  g_assert_cmpstr (hit_at (nuts, 0)->part->id, ==, "nut-m5-brass");
  drawer = tl_search_find (own, "drawer", NULL);
  g_assert_cmpuint (drawer->len, ==, 1);
  tl_search_filter_init_defaults (&van);
  van.only_in_van = TRUE;
  in_van = tl_search_find (own, "", &van);
  g_assert_cmpuint (in_van->len, ==, 1);
  tl_search_filter_init_defaults (&only_own);
  only_own.only_own = TRUE;
  mine = tl_search_find (own, "", &only_own);
  g_assert_cmpuint (mine->len, ==, 1);
  g_assert_cmpstr (hit_at (mine, 0)->part->id, ==, "own-nut");
}

/* Any bytes: no crash, and never more than the stock. */
static void
test_random (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      char  text[24];
      guint length = (guint) g_test_rand_int_range (0, sizeof text);
      g_autoptr (GArray) hits = NULL;

      for (guint k = 0; k < length; k++)
        text[k] = (char) (g_test_rand_bit () ? "m5 x.,/aw gin²×(0"[g_test_rand_int_range (0, 17)]
                                             : g_test_rand_int_range (1, 256));
      text[length] = '\0';
      hits = find (text, NULL);
      g_assert_cmpuint (hits->len, <=, tl_stock_parts (stock)->len);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (TlStock) own_stock = NULL;
  g_autoptr (TlSearch) own_search = NULL;

  g_test_init (&argc, &argv, NULL);
  own_stock = tl_stock_load (NULL, NULL);
  g_assert_nonnull (own_stock);
  own_search = tl_search_new (own_stock, tl_language_plain ());
  stock = own_stock;
  search = own_search;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/search/typed/%u-%s", i, cases[i].text);

      g_strdelimit (path + strlen ("/search/typed/"), "/", '_');
      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/search/other-sizes-behind", test_other_sizes_behind);
  g_test_add_func ("/search/complete", test_complete);
  g_test_add_func ("/search/edges", test_edges);
  g_test_add_func ("/search/every-part", test_every_part);
  g_test_add_func ("/search/same-again", test_same_again);
  g_test_add_func ("/search/filter-thread", test_filter_thread);
  g_test_add_func ("/search/filter-conductor-and-seal", test_filter_conductor_and_seal);
  g_test_add_func ("/search/van", test_van);
  g_test_add_func ("/search/random", test_random);
  return g_test_run ();
}
