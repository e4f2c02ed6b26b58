/* photo-strip.h: the pictures of the document in a row, small, and what is known of the one looked at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/picture-levels.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PHOTO_STRIP (tl_photo_strip_get_type ())
G_DECLARE_FINAL_TYPE (TlPhotoStrip, tl_photo_strip, TL, PHOTO_STRIP, GtkWidget)

void tl_photo_strip_set_inspector (TlPhotoStrip *self, TlInspector *inspector, TlPictureLevels *levels);
/* What is said of the picture looked at. (transfer none) */
const char *tl_photo_strip_facts (TlPhotoStrip *self);

G_END_DECLS
