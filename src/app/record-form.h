/* record-form.h: a record of an inspection as a form, made from a table of its lines.
 *
 * Shows a record and says which line was entered; whoever made it applies that to a copy and hands it on. What is
 * being typed is not disturbed by showing the record again.
 *
 * Signal: "edited" (slot, text).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/language.h"
#include "picture/form.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  TL_LINE_TEXT,
  TL_LINE_SHORT,   /* a word or a day: half a row */
  TL_LINE_LONG,    /* several lines of text */
  TL_LINE_NUMBER,  /* 0 shows as empty: not given */
  TL_LINE_ZERO,    /* a number for which 0 is a value */
  TL_LINE_NUMBERS, /* separated by semicolons */
  TL_LINE_CHOICE,  /* one of the slot's words */
  TL_LINE_FLAG,
  TL_LINE_LIST,    /* an id out of a list that tl_record_form_fill() gives; need not be a slot */
} TlLineKind;

typedef struct
{
  const char        *slot;
  TlLineKind         kind;
  const char        *label; /* msgid */
  const char        *unit;  /* (nullable): of numbers */
  const char *(*word) (guint index); /* (nullable): msgid of one of the slot's words */
} TlRecordLine;

#define TL_TYPE_RECORD_FORM (tl_record_form_get_type ())
G_DECLARE_FINAL_TYPE (TlRecordForm, tl_record_form, TL, RECORD_FORM, GtkWidget)

/* @lines: (array): ended by a line without slot; lives as long as the program */
GtkWidget *tl_record_form_new (const TlRecordLine *lines, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
const TlRecordLine *tl_record_form_lines (TlRecordForm *self);
void       tl_record_form_show (TlRecordForm *self, gconstpointer record, gboolean is_editable);
/* Fills a list. @chosen: id */
void       tl_record_form_fill (TlRecordForm *self, const char *slot, const char *const *texts, const char *const *ids, const char *chosen);
/* Sets a slot of a record that is still writable from what was entered; %FALSE with what would be right. */
gboolean   tl_record_form_apply (TlRecordForm *self, gpointer record, const char *slot, const char *text, GError **error);
/* Says at the line what is wrong; %NULL: nothing is. */
void       tl_record_form_refuse (TlRecordForm *self, const char *slot, const char *message);
/* Input of a line: (transfer none) (nullable) */
GtkWidget *tl_record_form_input (TlRecordForm *self, const char *slot);
/* As if entered; for tests. */
void       tl_record_form_enter (TlRecordForm *self, const char *slot, const char *text);

G_END_DECLS
