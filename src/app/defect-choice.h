/* defect-choice.h: a button that opens the catalogue of defects: by family, searched by words.
 *
 * Signal: "chosen" (id).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/defect.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_DEFECT_CHOICE (tl_defect_choice_get_type ())
G_DECLARE_FINAL_TYPE (TlDefectChoice, tl_defect_choice, TL, DEFECT_CHOICE, GtkWidget)

GtkWidget *tl_defect_choice_new (const TlDefects *defects, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* As if typed and chosen; for tests. */
void       tl_defect_choice_search (TlDefectChoice *self, const char *family, const char *words);
guint      tl_defect_choice_shown (TlDefectChoice *self);

G_END_DECLS
