/* scene.h: rendered pictures of a pressed sleeve on a box's floor, with a rule and a card beside it: known to a thousandth.
 *
 * Everything is drawn in mm of one plane and then seen by a pinhole camera with slant, shadow, uneven light and noise. The
 * same input gives the same bytes. They are no photographs, and say so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "picture/picture.h"

G_BEGIN_DECLS

/* Ground truth of the scene, mm in its plane; x to the right, y down, from the middle. */
#define SCENE_SEAL_LEFT -26.0
#define SCENE_SEAL_RIGHT 18.0  /* 44 mm long */
#define SCENE_BARE_RIGHT 22.3  /* 4.3 mm of bare aluminium behind the sleeve */
#define SCENE_BROWN_RIGHT 31.4 /* 9.1 mm of browned insulation */
#define SCENE_AXIS_Y -8.0
#define SCENE_RULE_Y 14.0      /* upper edge of the rule: 50 mm from SCENE_RULE_X */
#define SCENE_RULE_X -30.0
#define SCENE_CARD_X -20.0     /* card 60 by 20 mm, its upper left corner */
#define SCENE_CARD_Y 16.0

typedef struct
{
  double   distance_mm, focal_px; /* camera */
  double   tilt_deg, turn_deg;    /* slant, and the way it leans */
  double   at_x, at_y;            /* what it looks at */
  guint    width, height;
  gboolean has_card;              /* a card in place of the rule */
  guint32  noise;                 /* start of the noise */
} SceneCamera;

/* Where a point of the plane is seen. */
TlPixel scene_see (const SceneCamera *camera, double x_mm, double y_mm);
/* A JPEG; (transfer full) */
GBytes *scene_render (const SceneCamera *camera) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
