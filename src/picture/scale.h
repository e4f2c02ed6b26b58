/* scale.h: what gives a picture its millimetres, and how far they can be trusted.
 *
 * Either one known length (a line with two ends: holds square to the camera, or with a stated tilt) or the four corners of
 * a known rectangle (takes the slant out, in its own plane only). Everything that makes a length uncertain stands here:
 * a click, the known size itself, corners that are rounded or hit on one side, tilt, distance off the plane, the lens.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/picture.h"
#include "stock/stock.h"

G_BEGIN_DECLS

typedef enum
{
  TL_SCALE_LENGTH,
  TL_SCALE_RECTANGLE,
} TlScaleKind;

/* Whether the things measured lie in the plane of the reference. */
typedef enum
{
  TL_PLANE_UNKNOWN, /* nobody says: measures are shown and decide nothing */
  TL_PLANE_SAME,    /* the person says so */
  TL_PLANE_OFF,     /* at most off_plane_mm before or behind it */
} TlPlane;

typedef struct
{
  TlRecord    record;
  char       *id;              /* "scale-2" */
  char       *picture;         /* id */
  TlScaleKind kind;
  GArray     *points;          /* two ends, or four corners in order around */
  char       *what;            /* "steel rule, 0 to 20 mm" */
  double      length_mm;       /* known length; along the first edge of a rectangle */
  double      height_mm;       /* along its second edge */
  double      reference_mm;    /* standard uncertainty of the known sizes */
  double      click_px;        /* standard deviation of one click, along each axis */
  double      bias_px;         /* corners may all be hit this far outside or inside */
  double      tilt_deg;        /* one length: the plane may lean from the camera by up to this */
  TlPlane     plane;
  double      off_plane_mm;
  double      distance_mm;     /* camera to reference, square to its plane; 0: taken from what the camera noted, if it did */
  double      distortion_ratio;/* displacement at the picture's corner by the lens, as a share */
  char       *who, *when;
} TlScale;

extern const TlForm tl_scale_form;

/* A scale with the terms of the table inspection-terms; plane unknown, no points. (transfer full), writable */
TlScale *tl_scale_new (TlScaleKind kind, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_scale_check:
 * Returns: %FALSE with %TL_ERROR_RANGE for a reference of no length, corners on one line, crossing or not convex
 */
gboolean tl_scale_check (const TlScale *self, GError **error);

/* --- millimetres --- */

/* Coordinates a scale has: of its points, then its known sizes. */
#define TL_SCALE_MOST_TERMS 10

/* A scale opened for computing: plain numbers. */
typedef struct
{
  TlScaleKind kind;
  double      x_px[4], y_px[4];
  double      length_mm, height_mm;
} TlScaleFrame;

void     tl_scale_frame (const TlScale *self, TlScaleFrame *frame);
/* Place in mm of a pixel, in axes of the reference; %FALSE beyond the horizon. */
gboolean tl_scale_frame_map (const TlScaleFrame *frame, TlPixel pixel, double *x_mm, double *y_mm);
/* mm for one pixel at @pixel: the larger of the two axes. */
gboolean tl_scale_mm_per_px (const TlScale *self, TlPixel pixel, double *mm_per_px);
/* Angle between line of sight and the square to the plane at @pixel, rad, from how unlike the two axes are shortened. */
gboolean tl_scale_view_rad (const TlScale *self, TlPixel pixel, double *view_rad);
/* %TRUE if @pixel lies outside the reference: outside the rectangle, or farther from the line than its length. */
gboolean tl_scale_is_outside (const TlScale *self, TlPixel pixel);

/**
 * tl_scale_distance_mm:
 * @photo: the picture of the scale
 *
 * Camera to reference, reckoned from the focal length that the camera noted (in terms of 35 mm film, by the diagonal): a claim
 * of the camera, and good to about a tenth. A picture cut afterwards gives too short a distance, which errs on the safe side.
 * Returns: 0 if the camera noted nothing, or the reference admits no figure
 */
double   tl_scale_distance_mm (const TlScale *self, const TlPhoto *photo);

G_END_DECLS
