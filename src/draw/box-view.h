/* box-view.h: what lies in the box, drawn to scale: from the cover and from the side.
 *
 * What does not go in is hatched and carries the mark of Change; beside the views stand length, depth and how many joints
 * go in.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/box.h"
#include "draw/drawing.h"

G_BEGIN_DECLS

/* Paints into @width by @height units; @unit: units for one mm on the medium. */
void tl_box_view_paint (cairo_t *cr, const TlPalette *palette, const TlAssembly *assembly, const TlBoxLayout *layout, double width, double height, double unit, const TlLanguage *language);

/* The same as sentences, one a line; (transfer full) */
char *tl_box_view_describe (const TlBoxLayout *layout, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* As tl_drawing_save(); also %FALSE with %TL_ERROR_RANGE while the inner sizes of the box, or of the joint, are not known. */
gboolean tl_box_view_save (const TlVerdict *verdict, TlPictureKind kind, double width_mm, double height_mm, TlScheme scheme, const char *path, const TlLanguage *language, GError **error);

G_END_DECLS
