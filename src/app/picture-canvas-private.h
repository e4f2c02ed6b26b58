/* picture-canvas-private.h: what the canvas's files share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/picture-canvas.h"

G_BEGIN_DECLS

/* What the pointer that is held down does. */
typedef enum
{
  TL_HOLD_NOTHING,
  TL_HOLD_PAN,
  TL_HOLD_HANDLE,   /* one point of the selected record */
  TL_HOLD_RECORD,   /* all of them */
  TL_HOLD_STROKE,   /* freehand */
  TL_HOLD_SPAN,     /* from the point just set to the next one */
  TL_HOLD_DIVIDER,
} TlHold;

struct _TlPictureCanvas
{
  GtkWidget parent_instance;

  TlInspector     *inspector;
  TlPictureLevels *levels;
  double           zoom; /* px for one pixel of the picture; 0: fitted */
  double           pan_x, pan_y;
  char            *shown;    /* (nullable): id of the picture that zoom and pan are of */
  GArray          *points;   /* (element-type TlPixel): of the shape in hand */
  TlPixel          cross;    /* where the next point would fall */
  gboolean         has_cross;
  double           told_px_per_mm; /* by the last "view-changed" */
  guint            telling;  /* source */
  gint             handle;   /* point of the selected record that keys move; -1: all */
  char            *compared; /* (nullable) */
  double           divider;
  /* while the pointer is held */
  TlHold           hold;
  guint            hold_key; /* merge key: one hold is one step of undo */
  gpointer         held;     /* (nullable): record as it was when it was taken hold of */
  double           from_x, from_y, pan_from_x, pan_from_y, zoom_from;
};

/* Forgets the shape in hand. */
void     tl_picture_canvas_drop_points (TlPictureCanvas *self);
/* Adds a point; the shape is handed over when it has all it wants. */
void     tl_picture_canvas_add_point (TlPictureCanvas *self, TlPixel pixel);
/* Points of the selected record, which goes to @record; %NULL: none, or of another picture. (transfer none) */
GArray  *tl_picture_canvas_selected_points (TlPictureCanvas *self, gconstpointer *record);
/* Point of the selected record near a place in the widget; -1: none. */
gint     tl_picture_canvas_handle_at (TlPictureCanvas *self, double x, double y);
/* Puts a record with points moved by @dx, @dy pixels; @handle -1: all of them. */
void     tl_picture_canvas_move (TlPictureCanvas *self, gconstpointer record, gint handle, double dx, double dy, guint merge_key);
/* Whatever changes the view has the picture painted again: called then, it tells others once that is done. */
void     tl_picture_canvas_tell_view (TlPictureCanvas *self);
void     tl_picture_canvas_install_view (GtkWidgetClass *klass);
void     tl_picture_canvas_say (TlPictureCanvas *self);
void     tl_picture_canvas_add_input (TlPictureCanvas *self);
void     tl_picture_canvas_install_keys (GtkWidgetClass *klass);

G_END_DECLS
