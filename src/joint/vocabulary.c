/* vocabulary.c: the words, ids and forms that a joint and its file know.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/joint-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

const TlField *
tl_leg_fields (guint *count)
{
  static const TlField fields[] = {
    TL_FIELD_METAL,
    TL_FIELD_TEMPER,
    TL_FIELD_SECTION,
    TL_FIELD_CLASS,
    TL_FIELD_STRANDS,
    TL_FIELD_STRAND_DIAMETER,
    TL_FIELD_METAL_DIAMETER,
    TL_FIELD_COATING,
    TL_FIELD_COATING_THICKNESS,
    TL_FIELD_INSULATION,
    TL_FIELD_INSULATION_DIAMETER,
    TL_FIELD_ROLE,
    TL_FIELD_FIXED,
    TL_FIELD_FREE_LENGTH,
    TL_FIELD_BENDS,
    TL_FIELD_YEAR,
    TL_FIELD_END,
    TL_FIELD_STRIP,
    TL_FIELD_EYE_BORE,
    TL_FIELD_EYE_CLOSES,
    TL_FIELD_INSERTION,
    TL_FIELD_DIRECTION,
    TL_FIELD_BEND_RADIUS,
    TL_FIELD_SURFACE,
    TL_FIELD_OFFSET,
  };

  *count = G_N_ELEMENTS (fields);
  return fields;
}

const TlField *
tl_site_fields (guint *count)
{
  static const TlField fields[] = {
    TL_FIELD_SURROUNDINGS,
    TL_FIELD_ACCESS,
    TL_FIELD_SHAPE,
    TL_FIELD_INNER_WIDTH,
    TL_FIELD_INNER_HEIGHT,
    TL_FIELD_INNER_DEPTH,
    TL_FIELD_VOLUME,
    TL_FIELD_SAME_JOINTS,
    TL_FIELD_CIRCUITS,
    TL_FIELD_OTHER_CONDUCTORS,
    TL_FIELD_OTHER_SECTION,
    TL_FIELD_OTHER_CURRENT,
    TL_FIELD_PROTECTIVE_CONDUCTORS,
    TL_FIELD_DEVICES,
    TL_FIELD_OTHER_HEAT,
    TL_FIELD_TOOL_CLEARANCE,
    TL_FIELD_ACCESSORY_NEEDS_PE,
    TL_FIELD_PE_PRESENT,
    TL_FIELD_INSTALLATION,
  };

  *count = G_N_ELEMENTS (fields);
  return fields;
}

const TlField *
tl_duty_fields (guint *count)
{
  static const TlField fields[] = {
    TL_FIELD_LOAD,           TL_FIELD_PATTERN,
    TL_FIELD_DEVICE_KIND,    TL_FIELD_DEVICE_RATING,
    TL_FIELD_PROSPECTIVE,    TL_FIELD_EARTHING,
    TL_FIELD_AMBIENT,        TL_FIELD_LOADED_CONDUCTORS,
    TL_FIELD_CIRCUIT_OPENS,  TL_FIELD_EXTENSION,
    TL_FIELD_LOOP_IMPEDANCE, TL_FIELD_RESIDUAL_DEVICE,
    TL_FIELD_ARC_DEVICE,     TL_FIELD_JOINT_RESISTANCE,
    TL_FIELD_JOINT_DROP,     TL_FIELD_JOINT_TEST_CURRENT,
  };

  *count = G_N_ELEMENTS (fields);
  return fields;
}

const char *const *
tl_preparation_words (void)
{
  static const char *const words[] = {
    "degrease",   "strip", "brush",   "brush-compound", "flux",   "tin",
    "clean-flux", "cool",  "ferrule", "form-eye",       "deburr", NULL,
  };

  return words;
}

const char *const *
tl_practice_words (void)
{
  return tl_stock_practices (NULL);
}

const char *const *
tl_way_words (void)
{
  static const char *const words[] = {
    "bolted-stack",
    "pressed-sleeve",
    "cable-lug",
    "screw-terminal",
    "spring-terminal",
    "device-terminal",
    "branch-connector",
    "soldered",
    "welded",
    "twist",
    NULL,
  };

  return words;
}

const char *
tl_way_label (const char *way)
{
  static const char *const labels[] = {
    TL_N_ ("bolted stack"),
    TL_N_ ("pressed sleeve"),
    TL_N_ ("cable lug, pressed and bolted"),
    TL_N_ ("screw terminal"),
    TL_N_ ("spring terminal"),
    TL_N_ ("terminal of a device"),
    TL_N_ ("branch connector"),
    TL_N_ ("soldered splice"),
    TL_N_ ("welded splice"),
    TL_N_ ("twist"),
  };

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    if (g_strcmp0 (tl_way_words ()[i], way) == 0)
      return labels[i];
  return way;
}

char *
tl_ways_settle (const char *text, GError **error)
{
  const char *const *words = tl_way_words ();
  g_auto (GStrv) given = g_strsplit_set (text, " \t\n", -1);
  g_autoptr (GPtrArray) settled = g_ptr_array_new ();

  for (guint i = 0; given[i] != NULL; i++)
    if (*given[i] != '\0' && !g_strv_contains (words, given[i]))
      {
        g_autofree char *known = g_strjoinv (", ", (char **) words);

        g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                     _ ("“%s” is no way of joining that can be forbidden; these are: %s."),
                     given[i], known);
        return NULL;
      }
  for (guint i = 0; words[i] != NULL; i++)
    if (g_strv_contains ((const char *const *) given, words[i]))
      g_ptr_array_add (settled, (gpointer) words[i]);
  g_ptr_array_add (settled, NULL);
  return g_strjoinv (" ", (char **) settled->pdata);
}

gboolean
tl_joint_forbids (const TlJoint *self, const char *way)
{
  g_auto (GStrv) ways = NULL;

  g_return_val_if_fail (self != NULL && way != NULL, FALSE);

  if (*self->forbidden == '\0')
    return FALSE;
  ways = g_strsplit (self->forbidden, " ", -1);
  return g_strv_contains ((const char *const *) ways, way);
}

const char *const *
tl_unit_system_words (void)
{
  static const char *const words[] = { "metric", "customary", NULL };

  return words;
}

const char *const *
tl_look_words (void)
{
  static const char *const words[] = {
    "copper", "aluminium", "tin",      "steel",      "stainless", "zinc", "nickel",
    "brass",  "polymer",   "adhesive", "insulation", "compound",  "air",  NULL,
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (words) == TL_N_LOOKS + 1);

  return words;
}

gboolean
tl_id_is_valid (const char *id)
{
  gsize length = strlen (id);

  if (length == 0 || length > 64 || !g_ascii_islower (id[0]) || strcmp (id, "site") == 0
      || strcmp (id, "duty") == 0)
    return FALSE;
  for (gsize i = 0; i < length; i++)
    if (!g_ascii_islower (id[i]) && !g_ascii_isdigit (id[i]) && id[i] != '-')
      return FALSE;
  return TRUE;
}

gboolean
tl_part_id_is_valid (const char *id)
{
  gsize length = strlen (id);

  if (length == 0 || length > 128)
    return FALSE;
  for (gsize i = 0; i < length; i++)
    if (!g_ascii_isalnum (id[i]) && strchr ("._+-/", id[i]) == NULL)
      return FALSE;
  return TRUE;
}

gboolean
tl_text_is_storable (const char *text)
{
  if (!g_utf8_validate (text, -1, NULL))
    return FALSE;
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      /* XML 1.0, fifth edition, production 2 (Char), without the carriage return that readers fold.
       */
      if ((c < 0x20 && c != '\t' && c != '\n') || c == 0xFFFE || c == 0xFFFF)
        return FALSE;
    }
  return TRUE;
}

gboolean
tl_date_is_valid (const char *date)
{
  static const char form[] = "dddd-dd-dd";

  if (*date == '\0')
    return TRUE;
  if (strlen (date) != sizeof form - 1)
    return FALSE;
  for (gsize i = 0; i < sizeof form - 1; i++)
    if (form[i] == 'd' ? !g_ascii_isdigit (date[i]) : date[i] != form[i])
      return FALSE;

  guint year = (guint) g_ascii_strtoull (date, NULL, 10);
  guint month = (guint) g_ascii_strtoull (date + 5, NULL, 10);
  guint day = (guint) g_ascii_strtoull (date + 8, NULL, 10);
  return year > 0 && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year);
}

gboolean
tl_language_tag_is_valid (const char *tag)
{
  return *tag == '\0'
         || g_regex_match_simple ("\\A[A-Za-z]{2,3}([-_@.][A-Za-z0-9-]{1,16}){0,3}\\z", tag, 0, 0);
}

gboolean
tl_known_by_person (TlKnownBy known_by)
{
  return known_by == TL_KNOWN_STATED || known_by == TL_KNOWN_MEASURED
         || known_by == TL_KNOWN_MARKING || known_by == TL_KNOWN_STOCK
         || known_by == TL_KNOWN_ASSUMED;
}

void
tl_joint_note_id (TlJoint *self, const char *id)
{
  const char *dash = strrchr (id, '-');
  if (dash == NULL || !g_ascii_isdigit (dash[1]))
    return;

  guint64 number = g_ascii_strtoull (dash + 1, NULL, 10);
  /* A number beyond the cap cannot be reached by counting, so it cannot be met again either. */
  if (number < TL_JOINT_MAX_NUMBER && number >= self->next_id)
    self->next_id = (guint) number + 1;
}
