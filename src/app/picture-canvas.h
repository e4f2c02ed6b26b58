/* picture-canvas.h: the picture that is looked at, with what was drawn in it, to be drawn on with pointer or keys.
 *
 * Points are taken to parts of a pixel; a loupe shows where a point falls. The original is never touched.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"
#include "app/picture-levels.h"
#include "draw/picture-paint.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_PICTURE_CANVAS (tl_picture_canvas_get_type ())
G_DECLARE_FINAL_TYPE (TlPictureCanvas, tl_picture_canvas, TL, PICTURE_CANVAS, GtkWidget)

void tl_picture_canvas_set_inspector (TlPictureCanvas *self, TlInspector *inspector, TlPictureLevels *levels);
/* "in", "out", "fit" */
void tl_picture_canvas_zoom (TlPictureCanvas *self, const char *how);
/* A second picture to the right of a divider that slides; %NULL: none. @id: (nullable) */
void tl_picture_canvas_compare (TlPictureCanvas *self, const char *id);
/* (nullable) */
const char *tl_picture_canvas_compared (TlPictureCanvas *self);
/* Where the divider stands, 0 left to 1 right. */
double tl_picture_canvas_divider (TlPictureCanvas *self);
/* Where the picture lies in the widget; for tests. */
TlPictureView tl_picture_canvas_view (TlPictureCanvas *self);
/* Screen px for one mm in the plane of the picture's scale, in the middle of its reference; 0: it has no scale. Signal
 * "view-changed": this is another now. */
double tl_picture_canvas_px_per_mm (TlPictureCanvas *self);
/* How far the shape in hand is: "Click the second end", ""; (transfer full) */
char *tl_picture_canvas_hint (TlPictureCanvas *self);
/* Ends a shape that may have any number of points. */
void tl_picture_canvas_finish (TlPictureCanvas *self);

G_END_DECLS
