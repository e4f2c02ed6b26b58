/* calc-private.h: what the files of the verb calc share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"
#include "base/range.h"
#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Exit codes of the verb. */
enum
{
  TL_CALC_DONE,
  TL_CALC_OUT_OF_TOLERANCE,
  TL_CALC_WRONG,
};

/* One line on standard error; returns TL_CALC_WRONG. */
int   tl_calc_fail (const char *message);
/* All of @text on standard output; returns @code, or TL_CALC_WRONG if it cannot be written. */
int   tl_calc_write_out (const char *text, int code);
int   tl_calc_write_json (JsonBuilder *builder, int code);
/* "12500 N", "7211.54..11718.7 N"; @language is (nullable): %NULL for tables that other programs read. */
char *tl_calc_range_text (TlRange range, const char *unit,
                          const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

void tl_calc_json_range (JsonBuilder *builder, TlRange range, const char *unit);
void tl_calc_json_word (JsonBuilder *builder, const char *word);
void tl_calc_json_text (JsonBuilder *builder, const char *name, const char *text);

/* Judges a case file and prints every row. */
int tl_calc_cases (const char *path, gboolean as_json, const TlLanguage *language);

G_END_DECLS
