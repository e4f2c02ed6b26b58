/* place-card.h: the card beside the place under the pointer: what the part would do there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/preview.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PLACE_CARD (tl_place_card_get_type ())
G_DECLARE_FINAL_TYPE (TlPlaceCard, tl_place_card, TL, PLACE_CARD, GtkWidget)

GtkWidget *tl_place_card_new (void) G_GNUC_WARN_UNUSED_RESULT;
void       tl_place_card_show (TlPlaceCard *self, TlDocument *document, const TlPreview *preview, const TlSeat *seat);
/* All that it says, for the screen reader. (transfer none) */
const char *tl_place_card_text (TlPlaceCard *self);

G_END_DECLS
