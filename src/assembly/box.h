/* box.h: where everything lies in the box: joints, leads with their bends, devices, spare length.
 *
 * A simple packing, always the same for the same input: joints lie along the longer side of the box, side by side, then
 * behind each other; a lead bends once at each end of its joint, towards the back of the box where there is depth for it,
 * else along the wall. It shows that things go in; that they do not is an estimate, since a patient hand may find more
 * room.
 *
 * x runs along the longer side, y across, both from the middle of the box; z from the cover to the back. Lengths in mm.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"

G_BEGIN_DECLS

typedef enum
{
  TL_BOX_DEVICE,
  TL_BOX_JOINT,
  TL_BOX_LEAD,
  TL_BOX_SPARE, /* further length of the leads and other conductors, folded on the back */
  TL_N_BOX_KINDS
} TlBoxKind;

typedef enum
{
  TL_BOX_WAY_NONE, /* it goes in */
  TL_BOX_WAY_LENGTH,
  TL_BOX_WAY_WIDTH,
  TL_BOX_WAY_DEPTH,
} TlBoxWay;

typedef struct
{
  TlBoxKind   kind;
  guint       joint;        /* joint, lead: 0 the document's own, 1, ... further ones of its kind */
  const char *owner;        /* lead: id of its leg, of the joint; else %NULL */
  double      x0_mm, y0_mm, z0_mm; /* what it takes up */
  double      x1_mm, y1_mm, z1_mm;
  TlBoxWay    over_way;     /* worst way in which it sticks out */
  double      over_mm;      /* by how much, 0: it goes in */
  /* lead only */
  gint        side;         /* -1 left end of the joint, 1 right end */
  double      diameter_mm;
  double      radius_mm;    /* inside of its bend */
  double      straight_mm;  /* from the mouth of the joint to the bend */
  double      mouth_x_mm, axis_y_mm, axis_z_mm; /* where its axis leaves the joint */
  gboolean    turns_back;   /* towards the back; else along the wall, towards -y at the left end and +y at the right */
} TlBoxThing;

typedef struct
{
  gboolean is_round;
  double   length_mm, width_mm, depth_mm; /* inside of the box; round: both are its diameter */
  GArray  *things;          /* (element-type TlBoxThing) from the cover to the back */
  guint    joints;          /* in the box, this one counted */
  guint    fitting;         /* of them go in, with their leads */
  guint    left_out;        /* joints that are not laid down: those before them do not go in already */
  guint    rows, layers;    /* joints side by side at most; behind each other, as far as laid down */
  double   wanted_length_mm;/* of the longest row with its bends */
  double   wanted_depth_mm; /* of all joints, devices and spare length, also of those left out */
  TlBoxWay over_way;        /* worst of all things */
  double   over_mm;
  gboolean on_side;         /* the joint lies turned a quarter about its length, its width into the depth */
  double   middle_mm[3];    /* middle of the joint in the axes of the assembly */
} TlBoxLayout;

/* It borrows ids from the joint of @assembly. (transfer full) (nullable): %NULL while the inner sizes of the box or of the joint are not known. */
TlBoxLayout *tl_box_layout_new (const TlAssembly *assembly) G_GNUC_WARN_UNUSED_RESULT;
void         tl_box_layout_free (TlBoxLayout *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlBoxLayout, tl_box_layout_free)

/* What the bends of the leads want beyond the left and the right end of the joint, mm: radius and conductor, the widest. */
void tl_box_reach_mm (const TlAssembly *assembly, double reach_mm[2]);

/* Half the length of the box at @y_mm off its middle; below 0: outside by that much. */
double tl_box_half_length_mm (const TlBoxLayout *self, double y_mm);

/* Ids of the thresholds that the layout reads, for rules that have to note them: (array zero-terminated=1) */
const char *const *tl_box_layout_limits (void);

G_END_DECLS
