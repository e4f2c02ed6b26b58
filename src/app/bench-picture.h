/* bench-picture.h: what the bench shows, as a picture for other programs: copied, or dragged out.
 *
 * The light scheme whatever the window wears; the overlay that is shown goes along, selection and zoom do not.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/bench.h"
#include "draw/picture.h"

G_BEGIN_DECLS

/* (transfer full) (nullable): %NULL with @error */
GBytes *tl_bench_picture (TlBench *self, TlPictureKind kind, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Picture (PNG), SVG and a description in words; the receiver takes what it understands. (transfer full) (nullable):
 * %NULL with @error */
GdkContentProvider *tl_bench_content (TlBench *self, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Puts one kind on the clipboard. */
gboolean tl_bench_copy (TlBench *self, TlPictureKind kind, GError **error);

/* Lets @handle drag the drawing out of the window. */
void tl_bench_drag_out (TlBench *self, GtkWidget *handle);

G_END_DECLS
