/* names.c: parts, materials and sources as people call them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/quantity.h"
#include "stock/stock-private.h"

#include <math.h>
#include <string.h>

#define TIMES "\u202f×\u202f"

static const char *const group_labels[] = {
  [TL_GROUP_CONDUCTORS] = TL_N_ ("Conductors"),
  [TL_GROUP_COATINGS] = TL_N_ ("Coatings and pastes"),
  [TL_GROUP_SLEEVES] = TL_N_ ("Sleeves and ferrules"),
  [TL_GROUP_FASTENERS] = TL_N_ ("Washers and fasteners"),
  [TL_GROUP_TERMINALS] = TL_N_ ("Clamps and terminals"),
  [TL_GROUP_SEALING] = TL_N_ ("Sealing and insulation"),
  [TL_GROUP_BOXES] = TL_N_ ("Boxes"),
};
G_STATIC_ASSERT (G_N_ELEMENTS (group_labels) == TL_N_GROUPS);

/* A name without material, with one, and with one and its coat. */
typedef struct
{
  const char *plain;
  const char *of_material;
  const char *of_material_and_coat;
} Name;

static const Name names[] = {
  [TL_PART_CONDUCTOR] = { TL_N_ ("Conductor"), TL_N_ ("Conductor, %s"),
                          TL_N_ ("Conductor, %s, %s") },
  [TL_PART_BOLT] = { TL_N_ ("Bolt"), TL_N_ ("Bolt, %s"), TL_N_ ("Bolt, %s, %s") },
  [TL_PART_NUT] = { TL_N_ ("Nut"), TL_N_ ("Nut, %s"), TL_N_ ("Nut, %s, %s") },
  [TL_PART_PLAIN_WASHER] = { TL_N_ ("Plain washer"), TL_N_ ("Plain washer, %s"),
                             TL_N_ ("Plain washer, %s, %s") },
  [TL_PART_LARGE_WASHER] = { TL_N_ ("Large washer"), TL_N_ ("Large washer, %s"),
                             TL_N_ ("Large washer, %s, %s") },
  [TL_PART_SPRING_RING] = { TL_N_ ("Spring lock washer"), TL_N_ ("Spring lock washer, %s"),
                            TL_N_ ("Spring lock washer, %s, %s") },
  [TL_PART_CONICAL_WASHER] = { TL_N_ ("Conical spring washer"), TL_N_ ("Conical spring washer, %s"),
                               TL_N_ ("Conical spring washer, %s, %s") },
  [TL_PART_SERRATED_WASHER] = { TL_N_ ("Serrated washer"), TL_N_ ("Serrated washer, %s"),
                                TL_N_ ("Serrated washer, %s, %s") },
  [TL_PART_SLEEVE] = { TL_N_ ("Butt sleeve"), TL_N_ ("Butt sleeve, %s"),
                       TL_N_ ("Butt sleeve, %s, %s") },
  [TL_PART_LUG] = { TL_N_ ("Lug"), TL_N_ ("Lug, %s"), TL_N_ ("Lug, %s, %s") },
  [TL_PART_FERRULE] = { TL_N_ ("End ferrule"), TL_N_ ("End ferrule, %s"),
                        TL_N_ ("End ferrule, %s, %s") },
  [TL_PART_SEAL] = { TL_N_ ("Heat-shrink sleeve"), TL_N_ ("Heat-shrink sleeve, %s"),
                     TL_N_ ("Heat-shrink sleeve, %s, %s") },
  [TL_PART_CAP] = { TL_N_ ("End cap"), TL_N_ ("End cap, %s"), TL_N_ ("End cap, %s, %s") },
  [TL_PART_FILLER] = { TL_N_ ("Filler"), TL_N_ ("Filler, %s"), TL_N_ ("Filler, %s, %s") },
  [TL_PART_COMPOUND] = { TL_N_ ("Jointing compound"), TL_N_ ("Jointing compound"),
                         TL_N_ ("Jointing compound") },
  [TL_PART_SOLDER] = { TL_N_ ("Tinning"), TL_N_ ("Tinning, %s"), TL_N_ ("Tinning, %s, %s") },
  [TL_PART_TERMINAL] = { TL_N_ ("Terminal"), TL_N_ ("Terminal, %s"), TL_N_ ("Terminal, %s, %s") },
  [TL_PART_BRANCH] = { TL_N_ ("Branch connector"), TL_N_ ("Branch connector, %s"),
                       TL_N_ ("Branch connector, %s, %s") },
  [TL_PART_BOX] = { TL_N_ ("Box"), TL_N_ ("Box, %s"), TL_N_ ("Box, %s, %s") },
};
G_STATIC_ASSERT (G_N_ELEMENTS (names) == TL_N_PART_KINDS);

/* Solder by what is made with it: the coat of an end, or a splice. */
static const Name soldered_splice = { TL_N_ ("Solder of a splice"),
                                      TL_N_ ("Solder of a splice, %s"),
                                      TL_N_ ("Solder of a splice, %s, %s") };
static const Name weld = { TL_N_ ("Weld"), TL_N_ ("Weld, %s"), TL_N_ ("Weld, %s, %s") };

static const Name parallel_sleeve = { TL_N_ ("Parallel sleeve"), TL_N_ ("Parallel sleeve, %s"),
                                      TL_N_ ("Parallel sleeve, %s, %s") };

typedef struct
{
  const char *id;    /* of the coat */
  const char *label; /* msgid: what the coated part is called */
} Coat;

static const Coat coats[] = {
  { "none", TL_N_ ("bare") },
  { "zinc-plate", TL_N_ ("zinc-plated") },
  { "tin-plate", TL_N_ ("tinned") },
  { "tin", TL_N_ ("tinned") },
  { "nickel-plate", TL_N_ ("nickel-plated") },
  { "silver", TL_N_ ("silver-plated") },
};

const char *
tl_part_group_label (TlPartGroup group)
{
  g_return_val_if_fail ((guint) group < TL_N_GROUPS, "");

  return group_labels[group];
}

const char *
tl_material_name (const TlStock *stock, const char *id, const TlLanguage *language)
{
  const TlMaterial *material;

  g_return_val_if_fail (id != NULL, "");

  material = stock != NULL ? tl_stock_material (stock, id) : NULL;
  return material != NULL ? tl_language_text (language, material->name) : id;
}

static const char *
coat_label (const TlStock *stock, const char *id, const TlLanguage *language)
{
  for (guint i = 0; i < G_N_ELEMENTS (coats); i++)
    if (strcmp (coats[i].id, id) == 0)
      return tl_language_text (language, coats[i].label);
  return tl_material_name (stock, id, language);
}

/* "Conductor, copper, tinned, class 5, flexible, PVC" */
static char *
conductor_name (const TlFacts *facts, const TlStock *stock, const TlLanguage *language)
{
  const char *metal = tl_facts_word (facts, TL_FIELD_METAL, NULL);
  const char *coat = tl_facts_word (facts, TL_FIELD_COATING, NULL);
  const char *class = tl_facts_word (facts, TL_FIELD_CLASS, NULL);
  const char *insulation = tl_facts_word (facts, TL_FIELD_INSULATION, NULL);
  GString    *name = g_string_new (tl_language_text (language, TL_N_ ("Conductor")));

  if (metal != NULL)
    g_string_append_printf (name, ", %s", tl_material_name (stock, metal, language));
  if (coat != NULL && strcmp (coat, "none") != 0)
    g_string_append_printf (name, ", %s", coat_label (stock, coat, language));
  if (class != NULL)
    g_string_append_printf (
        name, ", %s", tl_language_text (language, tl_field_word_label (TL_FIELD_CLASS, class)));
  if (insulation != NULL)
    g_string_append_printf (name, ", %s",
                            strcmp (insulation, "none") == 0
                                ? tl_language_text (language, TL_N_ ("without insulation"))
                                : tl_material_name (stock, insulation, language));
  return g_string_free (name, FALSE);
}

/* "Butt sleeve, aluminium, copper": a part whose other side is of another metal. */
static char *
bimetal_name (const char *of_two, const TlFacts *facts, const TlStock *stock,
              const TlLanguage *language)
{
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  return g_strdup_printf (
      tl_language_text (language, of_two),
      tl_material_name (stock, tl_facts_word (facts, TL_FIELD_MATERIAL, ""), language),
      tl_material_name (stock, tl_facts_word (facts, TL_FIELD_OTHER_FACE, ""), language));
#pragma GCC diagnostic pop
}

static const Name *
name_of (TlPartKind kind, const TlFacts *facts)
{
  const char *splice = tl_facts_word (facts, TL_FIELD_SPLICE_FORM, "");

  if (kind == TL_PART_SLEEVE && strcmp (tl_facts_word (facts, TL_FIELD_FORM, ""), "parallel") == 0)
    return &parallel_sleeve;
  if (kind == TL_PART_SOLDER && *splice != '\0')
    return strcmp (splice, "welded") == 0 ? &weld : &soldered_splice;
  return &names[kind];
}

char *
tl_part_name (TlPartKind kind, const TlFacts *facts, const TlStock *stock,
              const TlLanguage *language)
{
  const Name *name;
  const char *material, *coat;

  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS && facts != NULL, NULL);

  if (kind == TL_PART_CONDUCTOR)
    return conductor_name (facts, stock, language);
  if (kind == TL_PART_SEAL && tl_facts_has (facts, TL_FIELD_ADHESIVE))
    return g_strdup (tl_language_text (language, tl_facts_is (facts, TL_FIELD_ADHESIVE)
                                                     ? TL_N_ ("Heat-shrink sleeve, adhesive")
                                                     : TL_N_ ("Heat-shrink sleeve, no adhesive")));
  if (kind == TL_PART_BOX && tl_facts_has (facts, TL_FIELD_SHAPE))
    return g_strdup (
        tl_language_text (language, strcmp (tl_facts_word (facts, TL_FIELD_SHAPE, ""), "round") == 0
                                        ? TL_N_ ("Round box")
                                        : TL_N_ ("Rectangular box")));

  name = name_of (kind, facts);
  material = tl_facts_word (facts, TL_FIELD_MATERIAL, NULL);
  coat = tl_facts_word (facts, TL_FIELD_COATING, NULL);
  if (material != NULL && kind != TL_PART_TERMINAL && kind != TL_PART_BRANCH
      && tl_facts_has (facts, TL_FIELD_OTHER_FACE))
    return bimetal_name (name->of_material_and_coat, facts, stock, language);
  if (material == NULL || name->plain == name->of_material)
    return g_strdup (tl_language_text (language, name->plain));

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  if (coat == NULL)
    return g_strdup_printf (tl_language_text (language, name->of_material),
                            tl_material_name (stock, material, language));
  return g_strdup_printf (tl_language_text (language, name->of_material_and_coat),
                          tl_material_name (stock, material, language),
                          coat_label (stock, coat, language));
#pragma GCC diagnostic pop
}

/* A length without its unit: up to two places in millimetres, three in inches; at least @least
 * places. */
static char *
length_text (double length_mm, guint least, const TlLanguage *language)
{
  gboolean is_inch = tl_language_units (language) == TL_UNITS_CUSTOMARY;
  double   length = is_inch ? length_mm / 25.4 : length_mm;
  guint    most = is_inch ? 3 : 2;
  guint    places = least;

  for (double scale = pow (10.0, places);
       places < most && fabs (round (length * scale) / scale - length) > 0.4 * pow (0.1, most);
       scale *= 10.0)
    places++;
  return tl_language_number (language, length, places);
}

static void
append_length (GString *text, const TlFacts *facts, TlField field, guint least,
               const TlLanguage *language)
{
  const TlFact    *fact = tl_facts_get (facts, field);
  g_autofree char *number = NULL;

  if (fact == NULL)
    return;
  number = length_text (fact->value.best, least, language);
  if (text->len > 0)
    g_string_append (text, TIMES);
  g_string_append (text, number);
}

static void
append_unit (GString *text, const TlLanguage *language)
{
  if (text->len > 0)
    g_string_append_printf (
        text, "\u202f%s",
        tl_unit_label (tl_language_units (language) == TL_UNITS_CUSTOMARY ? "in" : "mm"));
}

/* "2.5 mm²" and what follows, with a comma between. */
static char *
after_section (const TlFacts *facts, TlField field, GString *sizes, const TlLanguage *language)
{
  const TlFact    *section = tl_facts_get (facts, field);
  g_autofree char *rest = g_string_free (sizes, FALSE);
  g_autofree char *first = NULL;

  if (section == NULL)
    return g_steal_pointer (&rest);
  first = tl_quantity_format (section->value.best, "mm2", language);
  return *rest != '\0' ? g_strdup_printf ("%s, %s", first, rest) : g_steal_pointer (&first);
}

/* "2.5 mm², 1.8 / 3.4 mm": metal, then over the insulation. */
static char *
conductor_dimensions (const TlFacts *facts, const TlLanguage *language)
{
  const TlFact *over = tl_facts_get (facts, TL_FIELD_INSULATION_DIAMETER);
  GString      *text = g_string_new (NULL);

  append_length (text, facts, TL_FIELD_METAL_DIAMETER, 0, language);
  if (over != NULL)
    {
      g_autofree char *number = length_text (over->value.best, 0, language);

      g_string_append_printf (text, text->len > 0 ? " / %s" : "%s", number);
    }
  append_unit (text, language);
  return after_section (facts, TL_FIELD_SECTION, text, language);
}

/* "M5 × 16" for a bolt, "M5, 8 × 4.7 mm" for a nut. */
static char *
thread_dimensions (TlPartKind kind, const TlFacts *facts, const TlLanguage *language)
{
  const TlFact    *thread = tl_facts_get (facts, TL_FIELD_THREAD);
  GString         *text = g_string_new (NULL);
  g_autofree char *size = NULL, *rest = NULL;

  if (kind == TL_PART_BOLT)
    append_length (text, facts, TL_FIELD_LENGTH, 0, language);
  else
    {
      append_length (text, facts, TL_FIELD_ACROSS_FLATS, 0, language);
      append_length (text, facts, TL_FIELD_HEIGHT, 1, language);
    }
  if (kind != TL_PART_BOLT || tl_language_units (language) == TL_UNITS_CUSTOMARY)
    append_unit (text, language);
  if (thread == NULL)
    return g_string_free (text, FALSE);

  /* Metric threads are called by their millimetres everywhere. */
  size = tl_number_to_text (thread->value.best);
  rest = g_string_free (text, FALSE);
  if (*rest == '\0')
    return g_strconcat ("M", size, NULL);
  return g_strconcat ("M", size, kind == TL_PART_BOLT ? TIMES : ", ", rest, NULL);
}

static char *
box_dimensions (const TlFacts *facts, const TlLanguage *language)
{
  const TlFact *volume = tl_facts_get (facts, TL_FIELD_VOLUME);
  GString      *text = g_string_new (NULL);

  append_length (text, facts, TL_FIELD_INNER_WIDTH, 0, language);
  append_length (text, facts, TL_FIELD_INNER_HEIGHT, 0, language);
  append_length (text, facts, TL_FIELD_INNER_DEPTH, 0, language);
  append_unit (text, language);
  if (text->len == 0 && volume != NULL)
    {
      g_string_free (text, TRUE);
      return tl_quantity_format (volume->value.best, "cm3", language);
    }
  return g_string_free (text, FALSE);
}

/* "9 / 3 mm": before and after shrinking. */
static char *
seal_dimensions (const TlFacts *facts, const TlLanguage *language)
{
  const TlFact *recovered = tl_facts_get (facts, TL_FIELD_RECOVERED);
  GString      *text = g_string_new (NULL);

  append_length (text, facts, TL_FIELD_EXPANDED, 0, language);
  if (recovered != NULL)
    {
      g_autofree char *number = length_text (recovered->value.best, 0, language);

      g_string_append_printf (text, text->len > 0 ? " / %s" : "%s", number);
    }
  append_length (text, facts, TL_FIELD_LENGTH, 0, language);
  append_unit (text, language);
  return g_string_free (text, FALSE);
}

static char *
barrel_dimensions (const TlFacts *facts, const TlLanguage *language)
{
  GString *text = g_string_new (NULL);

  append_length (text, facts, TL_FIELD_OUTER, 0, language);
  append_length (text, facts, TL_FIELD_BORE, 0, language);
  append_length (text, facts, TL_FIELD_LENGTH, 0, language);
  append_unit (text, language);
  return after_section (facts, TL_FIELD_STATED_SECTION, text, language);
}

/* "10 × 5.3 × 1.0 mm" */
static char *
washer_dimensions (const TlFacts *facts, const TlLanguage *language)
{
  GString *text = g_string_new (NULL);

  append_length (text, facts, TL_FIELD_OUTER, 0, language);
  append_length (text, facts, TL_FIELD_BORE, 0, language);
  append_length (text, facts, TL_FIELD_THICKNESS, 1, language);
  append_unit (text, language);
  return g_string_free (text, FALSE);
}

char *
tl_part_dimensions (TlPartKind kind, const TlFacts *facts, const TlLanguage *language)
{
  char *text;

  g_return_val_if_fail ((guint) kind < TL_N_PART_KINDS && facts != NULL, NULL);

  switch (kind)
    {
    case TL_PART_CONDUCTOR:
      text = conductor_dimensions (facts, language);
      break;
    case TL_PART_BOLT:
    case TL_PART_NUT:
      text = thread_dimensions (kind, facts, language);
      break;
    case TL_PART_SLEEVE:
    case TL_PART_LUG:
    case TL_PART_FERRULE:
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
      text = barrel_dimensions (facts, language);
      break;
    case TL_PART_SEAL:
    case TL_PART_CAP:
      text = seal_dimensions (facts, language);
      break;
    case TL_PART_BOX:
      text = box_dimensions (facts, language);
      break;
    case TL_PART_SOLDER:
      text = tl_facts_has (facts, TL_FIELD_MELTING)
                 ? tl_range_format (tl_facts_get (facts, TL_FIELD_MELTING)->value, "degC", language)
                 : g_strdup ("");
      break;
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
    case TL_PART_FILLER:
    case TL_PART_COMPOUND:
    case TL_N_PART_KINDS:
    default:
      text = washer_dimensions (facts, language);
      break;
    }
  return text;
}

/* Sentences for how a cited figure is known. */
static const char *
known_sentence (const TlSource *source, TlKnownBy known_by)
{
  if (strcmp (source->kind, "practice") == 0 || strcmp (source->kind, "design") == 0)
    return "%s";
  switch (known_by)
    {
    case TL_KNOWN_SEEN:
      return TL_N_ ("%s (seen)");
    case TL_KNOWN_MEMORY:
      return TL_N_ ("%s (from memory)");
    case TL_KNOWN_DISPUTED:
      return TL_N_ ("%s (sources differ)");
    case TL_KNOWN_COMPUTED:
      return TL_N_ ("%s (computed)");
    case TL_KNOWN_PRACTICE:
      return TL_N_ ("%s (common practice)");
    case TL_KNOWN_STATED:
    case TL_KNOWN_MEASURED:
    case TL_KNOWN_MARKING:
    case TL_KNOWN_STOCK:
    case TL_KNOWN_ASSUMED:
    case TL_N_KNOWN:
    default:
      return "%s";
    }
}

char *
tl_source_citation (const TlStock *stock, const char *source_id, TlKnownBy known_by,
                    const TlLanguage *language)
{
  const TlSource *source;
  g_autoptr (GString) text = NULL;

  g_return_val_if_fail (stock != NULL && source_id != NULL, NULL);

  source = tl_stock_source (stock, source_id);
  if (source == NULL)
    return g_strdup (source_id);

  /* Practice and design choices are sentences and translated; titles of works are not. */
  text = g_string_new (NULL);
  if (strcmp (source->kind, "practice") == 0 || strcmp (source->kind, "design") == 0
      || strcmp (source->kind, "page") == 0)
    g_string_append (text, tl_language_text (language, source->title));
  else
    g_string_append (text, source->title);
  if (*source->edition != '\0')
    g_string_append_printf (text, ", %s", source->edition);
  if (*source->clause != '\0')
    g_string_append_printf (text, ", %s", source->clause);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  return g_strdup_printf (tl_language_text (language, known_sentence (source, known_by)),
                          text->str);
#pragma GCC diagnostic pop
}
