/* identify.c: metal, section and class of a wire that was found, in the terminal.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/identify.h"

#include "cli/common.h"
#include "base/json.h"
#include "plan/identify.h"
#include "base/quantity.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  char    *measured[TL_N_MEASURED];
  char    *strand_diameter, *surface, *cut, *practice, *tag;
  int      strands, year;
  gboolean as_json;
} Options;

static void
options_clear (Options *self)
{
  for (guint i = 0; i < TL_N_MEASURED; i++)
    g_free (self->measured[i]);
  g_free (self->strand_diameter);
  g_free (self->surface);
  g_free (self->cut);
  g_free (self->practice);
  g_free (self->tag);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static gboolean
parse_options (int *argc, char ***argv, Options *self)
{
  const GOptionEntry entries[] = {
    { "diameter", 0, 0, G_OPTION_ARG_STRING, &self->measured[TL_MEASURED_DIAMETER],
      N_ ("Diameter of a bare solid wire"), N_ ("\"1.78 mm\"") },
    { "strands", 0, 0, G_OPTION_ARG_INT, &self->strands, N_ ("Number of strands"), N_ ("N") },
    { "strand-diameter", 0, 0, G_OPTION_ARG_STRING, &self->strand_diameter,
      N_ ("Diameter of one strand"), N_ ("\"0.25 mm\"") },
    { "length", 0, 0, G_OPTION_ARG_STRING, &self->measured[TL_MEASURED_LENGTH],
      N_ ("Length of the piece weighed or measured"), N_ ("\"1 m\"") },
    { "weight", 0, 0, G_OPTION_ARG_STRING, &self->measured[TL_MEASURED_MASS],
      N_ ("Weight of that piece, bare"), N_ ("\"22 g\"") },
    { "resistance", 0, 0, G_OPTION_ARG_STRING, &self->measured[TL_MEASURED_RESISTANCE],
      N_ ("Resistance of that piece"), N_ ("\"7.1 mohm\"") },
    { "temperature", 0, 0, G_OPTION_ARG_STRING, &self->measured[TL_MEASURED_TEMPERATURE],
      N_ ("Temperature of the wire then"), N_ ("\"20 degC\"") },
    { "surface", 0, 0, G_OPTION_ARG_STRING, &self->surface, N_ ("Surface: red, silver or dull"),
      N_ ("WORD") },
    { "cut", 0, 0, G_OPTION_ARG_STRING, &self->cut, N_ ("Fresh cut: red or silver"), N_ ("WORD") },
    { "year", 0, 0, G_OPTION_ARG_INT, &self->year, N_ ("Year of installation"), N_ ("YEAR") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &self->practice, N_ ("Practice, for usual years"),
      N_ ("NAME") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &self->tag, N_ ("Language of the text"), N_ ("TAG") },
    { "json", 0, 0, G_OPTION_ARG_NONE, &self->as_json, N_ ("Print JSON for other programs"), NULL },
    { NULL },
  };

  if (!tl_cli_parse (argc, argv, entries, "identify", ""))
    return FALSE;
  if (*argc > 1)
    tl_cli_fail_text (_ ("“%s” is not understood; identify takes options only, see --help."),
                      (*argv)[1]);
  else if (self->strands < 0 || self->year < 0)
    tl_cli_fail_text (_ ("A count or year below 0 was given; it must be above 0."));
  else if ((self->strands > 1 && self->measured[TL_MEASURED_DIAMETER] != NULL)
           || (self->strands <= 1 && self->strand_diameter != NULL))
    tl_cli_fail_text (_ ("Give --diameter for a solid wire, or --strands above 1 with "
                         "--strand-diameter for a stranded one."));
  else
    return TRUE;
  return FALSE;
}

static gboolean
fill_sighting (const Options *options, TlSighting *sighting, GError **error)
{
  tl_sighting_init (sighting);
  for (guint i = 0; i < TL_N_MEASURED; i++)
    {
      const char *text = options->measured[i];

      if (i == TL_MEASURED_DIAMETER && options->strand_diameter != NULL)
        text = options->strand_diameter;
      if (text == NULL)
        continue;
      if (!tl_quantity_parse_range (text, tl_measured_unit ((TlMeasured) i), &sighting->value[i],
                                    error))
        {
          g_prefix_error (error, "%s: ", tl_measured_key ((TlMeasured) i));
          return FALSE;
        }
      sighting->given[i] = TRUE;
    }
  if (options->strands > 0)
    sighting->strands = (guint) options->strands;
  sighting->surface = options->surface;
  sighting->cut = options->cut;
  sighting->year = (guint) options->year;
  if (options->practice != NULL)
    sighting->practice = options->practice;
  return TRUE;
}

/* --- JSON --- */

static void
write_range (TlJson *json, const char *name, TlRange range, const char *unit)
{
  tl_json_open (json, name, FALSE);
  tl_json_number (json, "value", range.best);
  tl_json_number (json, "low", range.low);
  tl_json_number (json, "high", range.high);
  tl_json_string (json, "unit", unit);
  tl_json_close (json);
}

static void
write_reason (TlJson *json, const TlEvidenceRow *reason)
{
  tl_json_open (json, NULL, FALSE);
  tl_json_string (json, "evidence", tl_evidence_word (reason->evidence));
  tl_json_string (json, "speaks",
                  reason->is_against                     ? "against"
                  : reason->evidence == TL_EVIDENCE_YEAR ? "hint"
                                                         : "for");
  if (reason->seen != NULL)
    tl_json_string (json, "seen", reason->seen);
  else
    {
      write_range (json, "measured", reason->measured, reason->unit);
      write_range (json, "wanted", reason->wanted, reason->unit);
    }
  tl_json_close (json);
}

static void
write_metals (TlJson *json, const TlIdentity *identity)
{
  tl_json_open (json, "metals", TRUE);
  for (guint i = 0; i < identity->metals->len; i++)
    {
      const TlMetalCandidate *metal = g_ptr_array_index (identity->metals, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "metal", metal->metal);
      tl_json_string (json, "state", metal->is_possible ? "possible" : "excluded");
      tl_json_string (json, "source", metal->source);
      tl_json_string (json, "known_by", tl_known_by_to_word (metal->known_by));
      tl_json_open (json, "reasons", TRUE);
      for (guint k = 0; k < metal->reasons->len; k++)
        write_reason (json, &g_array_index (metal->reasons, TlEvidenceRow, k));
      tl_json_close (json);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_sizes (TlJson *json, const TlIdentity *identity)
{
  tl_json_open (json, "sizes", TRUE);
  for (guint i = 0; i < identity->sizes->len; i++)
    {
      const TlSizeCandidate *size = &g_array_index (identity->sizes, TlSizeCandidate, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "size", size->size);
      tl_json_string (json, "class", size->class_word);
      tl_json_number (json, "section_mm2", size->section_mm2);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static char *
identity_json (const TlIdentity *identity, const TlStock *stock)
{
  TlJson *json = tl_json_new ();

  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "format", 1);
  tl_json_string (json, "program", "tinlap " TL_VERSION);
  tl_json_string (json, "data_version", tl_stock_version (stock));
  tl_json_string (json, "state", tl_identity_state_word (identity->state));
  if (identity->has_section)
    write_range (json, "section", identity->section_mm2, "mm2");
  else
    tl_json_null (json, "section");
  write_sizes (json, identity);
  write_metals (json, identity);
  tl_json_open (json, "would_decide", TRUE);
  for (guint i = 0; i < identity->would_decide->len; i++)
    tl_json_string (json, NULL,
                    tl_evidence_word (g_array_index (identity->would_decide, TlEvidence, i)));
  tl_json_close (json);
  tl_json_open (json, "assumed_errors", TRUE);
  for (guint i = 0; i < identity->assumed->len; i++)
    tl_json_string (json, NULL, tl_measured_key (g_array_index (identity->assumed, TlMeasured, i)));
  tl_json_close (json);
  tl_json_close (json);
  return tl_json_finish (json);
}

int
tl_cli_identify (int argc, char **argv, const TlLanguage *language)
{
  g_auto (Options) options = { 0 };
  g_autoptr (TlLanguage) own = NULL;
  g_autoptr (TlStock) stock = NULL;
  g_autoptr (TlIdentity) identity = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  TlSighting       sighting;

  if (!parse_options (&argc, &argv, &options))
    return TL_CLI_BAD;
  if (options.tag != NULL)
    own = tl_language_new (options.tag, tl_language_units (language));
  stock = tl_stock_load (NULL, &error);
  if (stock != NULL && fill_sighting (&options, &sighting, &error))
    identity = tl_identity_new (&sighting, stock, &error);
  if (identity == NULL)
    return tl_cli_fail (error);
  text = options.as_json ? identity_json (identity, stock)
                         : tl_identity_to_text (identity, stock, own != NULL ? own : language);
  g_print ("%s", text);
  return identity->state == TL_IDENTITY_DECIDED ? TL_CLI_GOOD : TL_CLI_WORSE;
}
