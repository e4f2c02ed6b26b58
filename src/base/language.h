/* language.h: the language of a text as an argument, not as a global.
 *
 * Everything in wording, steps and draw takes a #TlLanguage; only the desktop and the terminal use the
 * process's own. It carries messages (gettext domain "tinlap"), number format and paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef struct _TlLanguage TlLanguage;

typedef enum
{
  TL_PAPER_A4,
  TL_PAPER_LETTER,
} TlPaper;

/* Units a person wants to read. Metric shows mm2, N m, degC; customary adds AWG, in, lbf in, degF. */
typedef enum
{
  TL_UNITS_METRIC,
  TL_UNITS_CUSTOMARY,
} TlUnits;

/* Marks a string for translation where it cannot be translated at once. */
#define TL_N_(text) text

/**
 * tl_language_new:
 * @tag: (nullable): "en", "de", "fr_CA"...; %NULL for the process's own locale
 * @units: units to show
 *
 * A tag without a translation gives English text with that language's number format where known.
 * Returns: (transfer full): a reference; immutable, shared by threads
 */
TlLanguage *tl_language_new (const char *tag, TlUnits units) G_GNUC_WARN_UNUSED_RESULT;
TlLanguage *tl_language_ref (const TlLanguage *self);
void        tl_language_unref (TlLanguage *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlLanguage, tl_language_unref)

/* English, metric: for files, tests and JSON. (transfer none) */
const TlLanguage *tl_language_plain (void);

const char *tl_language_tag (const TlLanguage *self);
TlPaper     tl_language_paper (const TlLanguage *self);
TlUnits     tl_language_units (const TlLanguage *self);

/* The translation of @msgid, or @msgid itself. (transfer none), lives as long as the process. */
const char *tl_language_text (const TlLanguage *self, const char *msgid) G_GNUC_FORMAT (2);

/* Plural form for @n. */
const char *tl_language_plural (const TlLanguage *self, const char *one, const char *many, gulong n) G_GNUC_FORMAT (2);

/* @value with exactly @decimals places: decimal mark of the language, true minus U+2212, no exponent. */
char *tl_language_number (const TlLanguage *self, double value, guint decimals) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
