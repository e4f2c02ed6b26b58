/* identify-text.c: what an old wire is, in sentences.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/identify.h"

#include "base/quantity.h"
#include "rules/wording.h"

#include <string.h>

static const char *
text (const TlLanguage *language, const char *msgid)
{
  return tl_language_text (language, msgid);
}

/* "copper, tinned copper" of the metals that are left; (transfer full) */
static char *
names_left (const TlIdentity *self, const TlLanguage *language)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < self->metals->len; i++)
    {
      const TlMetalCandidate *metal = g_ptr_array_index (self->metals, i);

      if (metal->is_possible)
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "",
                                text (language, metal->name));
    }
  return g_string_free (names, FALSE);
}

char *
tl_identity_summary (const TlIdentity *self, const TlLanguage *language)
{
  static const char *const sentences[] = {
    [TL_IDENTITY_NOTHING] =
        TL_N_ ("Undecided: nothing was given that tells one metal from another."),
    [TL_IDENTITY_DECIDED] = TL_N_ ("Decided: {names}."),
    [TL_IDENTITY_INDICATED] =
        TL_N_ ("By its look {names}; not decided, since looks deceive: weigh or measure a length."),
    [TL_IDENTITY_UNDECIDED] = TL_N_ ("Undecided between: {names}."),
    [TL_IDENTITY_NONE] =
        TL_N_ ("No metal of the table fits; measure again, or it is another metal."),
  };
  g_autofree char *names = names_left (self, language);

  return tl_wording_fill (text (language, sentences[self->state]), "names", names, NULL);
}

/* "2.68 to 2.72 g/cm³" */
static char *
band (TlRange range, const char *unit, const TlLanguage *language)
{
  return tl_range_format (range, unit, language);
}

static char *
figure_sentence (const TlEvidenceRow *reason, const TlLanguage *language)
{
  static const char *const speaks_for[] = {
    [TL_EVIDENCE_PRODUCT] = TL_N_ ("for it: resistivity times density {measured}, wanted {wanted}"),
    [TL_EVIDENCE_DENSITY] = TL_N_ ("for it: density {measured}, wanted {wanted}"),
    [TL_EVIDENCE_RESISTIVITY] = TL_N_ ("for it: resistivity {measured}, wanted {wanted}"),
  };
  static const char *const against[] = {
    [TL_EVIDENCE_PRODUCT] =
        TL_N_ ("against it: resistivity times density {measured}, wanted {wanted}"),
    [TL_EVIDENCE_DENSITY] = TL_N_ ("against it: density {measured}, wanted {wanted}"),
    [TL_EVIDENCE_RESISTIVITY] = TL_N_ ("against it: resistivity {measured}, wanted {wanted}"),
  };
  g_autofree char *measured = band (reason->measured, reason->unit, language);
  g_autofree char *wanted = band (reason->wanted, reason->unit, language);
  const char      *msgid = (reason->is_against ? against : speaks_for)[reason->evidence];

  return tl_wording_fill (text (language, msgid), "measured", measured, "wanted", wanted, NULL);
}

static char *
look_sentence (const TlEvidenceRow *reason, const TlLanguage *language)
{
  gboolean    is_red = strcmp (reason->seen, "red") == 0;
  gboolean    is_cut = reason->evidence == TL_EVIDENCE_CUT;
  const char *seen = is_red ? TL_N_ ("red") : TL_N_ ("silver");
  const char *msgid;

  if (reason->is_against)
    msgid = is_cut ? TL_N_ ("against it: a fresh cut is {seen}")
                   : TL_N_ ("against it: the surface is {seen}");
  else
    msgid =
        is_cut ? TL_N_ ("for it: a fresh cut is {seen}") : TL_N_ ("for it: the surface is {seen}");
  return tl_wording_fill (text (language, msgid), "seen", text (language, seen), NULL);
}

static char *
reason_sentence (const TlEvidenceRow *reason, const TlLanguage *language)
{
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;

  if (reason->evidence == TL_EVIDENCE_SURFACE || reason->evidence == TL_EVIDENCE_CUT)
    return look_sentence (reason, language);
  if (reason->evidence != TL_EVIDENCE_YEAR)
    return figure_sentence (reason, language);
  from = g_strdup_printf ("%.0f", reason->wanted.low);
  to = g_strdup_printf ("%.0f", reason->wanted.high);
  return tl_wording_fill (text (language, TL_N_ ("a hint only: usual from {from} to {to}")), "from",
                          from, "to", to, NULL);
}

static void
append_section (GString *out, const TlIdentity *self, const TlLanguage *language)
{
  g_autofree char *section = NULL;

  if (!self->has_section)
    return;
  section = band (self->section_mm2, "mm2", language);
  g_string_append_printf (out, "%s: %s\n",
                          text (language, self->section_by_metal
                                              ? TL_N_ ("Section, if it is that metal")
                                              : TL_N_ ("Section")),
                          section);
  if (self->sizes->len == 0)
    g_string_append_printf (out, "  %s\n", text (language, TL_N_ ("No size of the stock fits.")));
  for (guint i = 0; i < self->sizes->len; i++)
    {
      const TlSizeCandidate *size = &g_array_index (self->sizes, TlSizeCandidate, i);
      const char            *label = tl_field_word_label (TL_FIELD_CLASS, size->class_word);

      g_string_append_printf (out, "  %s, %s\n", size->size, text (language, label));
    }
}

static void
append_metals (GString *out, const TlIdentity *self, const TlStock *stock,
               const TlLanguage *language)
{
  for (guint i = 0; i < self->metals->len; i++)
    {
      const TlMetalCandidate *metal = g_ptr_array_index (self->metals, i);
      g_autofree char        *source =
          tl_source_citation (stock, metal->source, metal->known_by, language);

      g_string_append_printf (
          out, "%u. %s: %s\n", i + 1, text (language, metal->name),
          text (language, metal->is_possible ? TL_N_ ("possible") : TL_N_ ("excluded")));
      for (guint k = 0; k < metal->reasons->len; k++)
        {
          g_autofree char *sentence =
              reason_sentence (&g_array_index (metal->reasons, TlEvidenceRow, k), language);

          g_string_append_printf (out, "   %s\n", sentence);
        }
      g_string_append_printf (out, "   [%s]\n", source);
    }
}

static void
append_advice (GString *out, const TlIdentity *self, const TlLanguage *language)
{
  static const char *const advice[TL_N_EVIDENCE] = {
    [TL_EVIDENCE_DENSITY] = TL_N_ ("weigh a bare length of known section"),
    [TL_EVIDENCE_RESISTIVITY] =
        TL_N_ ("measure the resistance of a bare length with four leads, dead and disconnected"),
    [TL_EVIDENCE_SURFACE] = TL_N_ ("look at the surface, wiped clean"),
    [TL_EVIDENCE_CUT] = TL_N_ ("look at a fresh cut under a lens"),
  };

  for (guint i = 0; i < self->would_decide->len; i++)
    g_string_append_printf (
        out, "%s %s\n", text (language, i == 0 ? TL_N_ ("Would decide:") : TL_N_ ("or:")),
        text (language, advice[g_array_index (self->would_decide, TlEvidence, i)]));
}

static void
append_assumed (GString *out, const TlIdentity *self, const TlLanguage *language)
{
  static const char *const labels[TL_N_MEASURED] = {
    [TL_MEASURED_DIAMETER] = TL_N_ ("diameter"),
    [TL_MEASURED_LENGTH] = TL_N_ ("length"),
    [TL_MEASURED_MASS] = TL_N_ ("weight"),
    [TL_MEASURED_RESISTANCE] = TL_N_ ("resistance"),
    [TL_MEASURED_TEMPERATURE] = TL_N_ ("temperature"),
  };

  for (guint i = 0; i < self->assumed->len; i++)
    {
      TlMeasured       measured = g_array_index (self->assumed, TlMeasured, i);
      g_autofree char *range =
          band (self->sighting.value[measured], tl_measured_unit (measured), language);
      g_autofree char *line =
          tl_wording_fill (text (language, TL_N_ ("Assumed error of the instrument: {label} "
                                                  "{range}")),
                           "label", text (language, labels[measured]), "range", range, NULL);

      g_string_append_printf (out, "%s\n", line);
    }
}

char *
tl_identity_to_text (const TlIdentity *self, const TlStock *stock, const TlLanguage *language)
{
  GString         *out = g_string_new (NULL);
  g_autofree char *summary = tl_identity_summary (self, language);

  g_string_append_printf (out, "%s\n", summary);
  append_section (out, self, language);
  append_metals (out, self, stock, language);
  append_advice (out, self, language);
  append_assumed (out, self, language);
  return g_string_free (out, FALSE);
}
