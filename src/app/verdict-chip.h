/* verdict-chip.h: mark and word of a verdict in a small frame.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/theme.h"
#include "rules/verdict.h"

G_BEGIN_DECLS

#define TL_TYPE_VERDICT_CHIP (tl_verdict_chip_get_type ())
G_DECLARE_FINAL_TYPE (TlVerdictChip, tl_verdict_chip, TL, VERDICT_CHIP, GtkWidget)

GtkWidget *tl_verdict_chip_new (void) G_GNUC_WARN_UNUSED_RESULT;
void       tl_verdict_chip_show (TlVerdictChip *self, const TlVerdict *verdict, const TlLanguage *language);

G_END_DECLS
