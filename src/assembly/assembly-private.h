/* assembly-private.h: what the files of this room share while an assembly is being built.
 *
 * One thread builds one assembly; nothing here outlives tl_assembly_new() except the assembly
 * itself. Lengths in mm, angles in degrees from +x towards +y.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"

G_BEGIN_DECLS

/* Length of a lead that is drawn beyond its bare part; a drawing convention, nothing is judged by
 * it. */
#define TL_LEAD_DRAWN_MM 18.0
/* Bare lead that stays visible between the widest washer and the insulation; drawing convention. */
#define TL_LEAD_BARE_MM 1.0
/* Two figures closer than this are the same place: far below any tolerance of a part. */
#define TL_SAME_PLACE_MM 1e-6
#define TL_NO_BODY G_MAXUINT
#define TL_MAX_LEGS 8

/* --- building (assembly.c, bodies.c) --- */
void     tl_assembly_problem (TlAssembly *self, const char *owner, gboolean is_missing,
                              const char *message, TlField field, double a, double b);
/* Figure of a leg or layer; a missing one becomes a problem and gives FALSE. */
gboolean tl_assembly_need_leg (TlAssembly *self, const TlLeg *leg, TlField field, double *value);
gboolean tl_assembly_need_layer (TlAssembly *self, const TlLayer *layer, TlField field,
                                 double *value);
/* @a, @between and @b, kept as long as the assembly. */
const char *tl_assembly_join (TlAssembly *self, const char *a, const char *between, const char *b);
/* Puts @owner in the numbered order, and behind it what sits on it. */
void     tl_assembly_place (TlAssembly *self, const char *owner);
gboolean tl_assembly_is_placed (const TlAssembly *self, const char *owner);
/* Threshold value, or @fallback when the data have no such row. */
double   tl_assembly_limit_or (TlAssembly *self, const char *id, double fallback);

/* A new body of a leg or of a layer without solids; returns its index. */
guint tl_assembly_leg_body (TlAssembly *self, const TlLeg *leg, const char *suffix,
                            TlBodyRole role);
guint tl_assembly_layer_body (TlAssembly *self, const TlLayer *layer, const char *suffix,
                              TlBodyRole role);
/* The body is of another metal than its layer, bare. */
void  tl_assembly_set_metal (TlAssembly *self, guint body, const char *material);
void  tl_assembly_add_solid (TlAssembly *self, guint body, const TlSolid *solid);

/* Diameter of the bare metal: stated, else that of a solid round wire of the section; 0 if neither
 * is known. */
double         tl_leg_metal_diameter_mm (const TlAssembly *self, const TlLeg *leg);
/* Loose strands twisted tight, as far as their number and diameter are known; else @diameter_mm. @fill: the limit
 * TL_STRANDS_FILL, 0 while it is not known. */
#define TL_STRANDS_FILL "grip.strands-fill"
double         tl_gathered_mm (double fill, double diameter_mm, double strands, double strand_mm);
/* The bare metal as it goes into a bore: loose strands are gathered to it if they can be; wider than the bore if
 * it does not go in. */
double         tl_leg_in_bore_mm (TlAssembly *self, const TlLeg *leg, double bore_mm);
/* Diameter over the insulation, 0 for a bare conductor; a missing figure becomes a problem. */
double         tl_leg_insulation_diameter_mm (TlAssembly *self, const TlLeg *leg);
/* First layer of @kind that sits on @owner; (nullable) */
const TlLayer *tl_assembly_layer_on (const TlAssembly *self, const char *owner, TlPartKind kind);
/* FALSE, with a problem, if the part is neither in the stock nor copied into the document. */
gboolean       tl_assembly_knows_part (TlAssembly *self, const char *owner, const char *part);

/* --- the stack --- */
typedef enum
{
  TL_SPOT_HEAD,
  TL_SPOT_RING,
  TL_SPOT_EYE,
  TL_SPOT_TANG,
  TL_SPOT_NUT,
  TL_SPOT_FILM, /* compound or the like between two faces: no thickness */
} TlSpotKind;

/* One thing in the stack, with the faces it offers up and down. */
typedef struct
{
  TlSpotKind  kind;
  const char *owner;
  const char *leg; /* (nullable): leg of a tang */
  guint       body;
  double      start_mm, end_mm;
  double      inner_mm;   /* hole; head: the shank */
  double      outer_mm;   /* outside diameter of the body */
  double      bearing_mm; /* outside diameter of the face: d_w of head and nut, else outer_mm */
  double      offset_mm;
  double      wire_mm;    /* eye */
  double      turn_ratio; /* eye */
} TlSpot;

typedef struct
{
  TlAssembly    *assembly;
  GArray        *spots; /* (element-type TlSpot) from the head down */
  const TlLayer *bolt, *nut;
  guint          shank; /* body */
  double         thread_mm;
  double         reach_mm; /* largest radius of what is stacked */
  double         depth_mm; /* where the next thing begins */
} TlStackBuild;

void           tl_stack_build (TlAssembly *self);
void           tl_stack_figures (TlStackBuild *build);
void           tl_stack_contacts (TlStackBuild *build);
/* Eye of round wire or tang of a lug, with lead and insulation (leads.c). */
gboolean       tl_stack_lay_eye (TlStackBuild *build, const TlLeg *leg, TlSpot *spot);
gboolean       tl_stack_lay_tang (TlStackBuild *build, const TlLayer *lug, TlSpot *spot);
void           tl_stack_lay_leads (TlStackBuild *build);
const TlLayer *tl_leg_lug (const TlAssembly *self, const TlLeg *leg);

/* --- the sleeve --- */
typedef struct
{
  const TlLeg *leg;
  guint        body;         /* core */
  guint        port;         /* 1 or 2 */
  double       metal_mm;     /* diameter of the bare metal, or of a ferrule on it */
  double       wire_mm;      /* diameter of the bare metal */
  double       insulated_mm; /* 0: bare conductor */
  double       inserted_mm, strip_mm;
  double       y_mm, z_mm;       /* centre inside the barrel */
  double       start_mm, end_mm; /* metal inside or before the barrel, up to the insulation */
} TlEntry;

typedef struct
{
  TlAssembly    *assembly;
  const TlLayer *sleeve;
  guint          barrel;
  double         length_mm, outer_mm, bore_mm;
  gboolean       is_pressed;
  TlEntry        entries[TL_MAX_LEGS];
  guint          n_entries;
} TlSleeveBuild;

void tl_sleeve_build (TlAssembly *self);
void tl_sleeve_contacts (TlSleeveBuild *build);

/* --- terminals (terminal.c) and splices (splice.c) --- */
void tl_terminal_build (TlAssembly *self);
void tl_splice_build (TlAssembly *self);

/* --- packing.c: round things side by side --- */
typedef struct
{
  double y_mm, z_mm, diameter_mm;
} TlCircle;

/* Lays @count circles side by side as close as they go, centred on 0,0; returns the diameter that
 * holds all. */
double tl_pack_circles (TlCircle *circles, guint count);
/* Moves packed circles together towards +z until one lies on the wall of @bore_mm. */
void   tl_drop_circles (TlCircle *circles, guint count, double bore_mm);

/* Moves circles out from their middle, all by one ratio, until none lies in another. */
void   tl_spread_circles (TlCircle *circles, guint count);

/* --- sealing --- */
/* What the seal has to go over, from left to right, whatever the family. */
typedef struct
{
  double middle_mm;                  /* diameter of the joint itself */
  double start_mm, end_mm;           /* extent of that, along the leads */
  double bare_start_mm, bare_end_mm; /* where the insulation begins on both sides */
  double mouth_mm[2]; /* smallest round that holds the conductors of each mouth; 0: none */
  guint  conductors[2];
} TlSealTarget;

void     tl_seal_build (TlAssembly *self, const TlSealTarget *target);
gboolean tl_assembly_has_compound_on (const TlAssembly *self, const char *owner);

/* --- contacts.c --- */
/* A contact with bodies in the order of their ids, surfaces, closure and id filled in; borrowed
 * until the next. */
TlContact *tl_assembly_add_contact (TlAssembly *self, guint a, guint b, TlContactKind kind);
/* The contact is on the second face of @body, of the part's other metal if it has one. */
void       tl_contact_show_other_face (TlAssembly *self, TlContact *contact, guint body);
/* Bodies nearer than this may bridge, 0 if the data have no such row. A washer as thick as the limit
 * is not nearer, though sums of thicknesses round. */
double     tl_assembly_bridge_mm (TlAssembly *self);
void       tl_assembly_sort_contacts (TlAssembly *self);
gboolean   tl_assembly_has_contact (const TlAssembly *self, guint a, guint b);

/* --- distance.c --- */
/* Finds every metal pair of a stack that is closer than @bridge_mm along a straight line through
 * free space and
 * that has no contact yet, and adds it. */
void tl_stack_bridges (TlStackBuild *build, double bridge_mm);

G_END_DECLS
