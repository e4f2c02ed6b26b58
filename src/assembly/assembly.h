/* assembly.h: what a joint means in space: bodies in place, and who touches whom.
 *
 * Built from joint and stock in one pure function. The bolted stack has the axis z, from the head downwards, z = 0 at
 * the bearing face of the head. The others have the axis x: pressed sleeve (x = 0 at the left mouth of the barrel),
 * terminal (x = 0 at the left end of its metal, on the axis of the first bore, screws from -z) and splice (x = 0 where
 * the conductors begin to lie side by side). Seen from the head x points right and y down, so angles from +x towards +y run
 * clockwise there. Lengths in mm. It never judges; it says, per layer, why it could not be built.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"
#include "physics/formula.h"

G_BEGIN_DECLS

typedef enum
{
  TL_FAMILY_NONE,   /* nothing that holds the legs together yet */
  TL_FAMILY_STACK,
  TL_FAMILY_SLEEVE,
  TL_FAMILY_TERMINAL, /* screw, spring or device terminal, branch connector: conductors in mouths */
  TL_FAMILY_SPLICE,   /* soldered, welded or twisted: conductors along each other */
} TlFamily;

/* --- solids: the whole shape of a body, enough to draw it and to measure distances --- */
typedef enum
{
  TL_SOLID_TUBE, /* ring or rod about an axis parallel to the family axis: start..end, inner, outer (0 inner: rod) */
  TL_SOLID_HEX,  /* hexagonal prism about the family axis; outer = across flats; inner = bore (0: none); corners at
                    0, 60, ... degrees, so that the section through y = 0 runs through two corners */
  TL_SOLID_EYE,  /* bent round wire about z: bore inside, wire diameter, open share of the turn at angle open_deg */
  TL_SOLID_ROD,  /* straight round rod or tube from (x0,y0,z0) to (x1,y1,z1): outer, inner (insulation) */
  TL_SOLID_BLOCK,/* box about the family axis: start..end along it, inner = width (y), outer = height (z), u/v the centre */
  TL_SOLID_PLATE,/* flat tang of a lug: disc of diameter outer with hole inner, and a strip of that width outwards along
                    direction_deg for `length` from the axis; start..end */
} TlSolidKind;

typedef struct
{
  TlSolidKind kind;
  double start_mm, end_mm;     /* along the family axis: tube, hex, eye (its wire), plate */
  double inner_mm, outer_mm;   /* diameters; eye: inner = bore of the eye, outer = bore + 2 wire */
  double u_mm, v_mm;           /* centre, off the family axis: (x, y) for a stack, (y, z) for a sleeve */
  double x0_mm, y0_mm, z0_mm;  /* rod */
  double x1_mm, y1_mm, z1_mm;
  double direction_deg;        /* eye: the lead; plate */
  double turn_ratio;           /* eye: share of a full turn that is metal */
  double arc_start_deg;        /* eye: the metal runs from here towards greater angles by turn_ratio of a turn */
  double length_mm;            /* plate */
  double bore_mm;              /* block: round hole along the axis through its middle, 0: none */
} TlSolid;

typedef enum
{
  TL_BODY_HEAD,
  TL_BODY_SHANK,
  TL_BODY_NUT,
  TL_BODY_WASHER,     /* any washer or ring of a stack */
  TL_BODY_EYE,        /* eye or hook of round wire, with its bare lead */
  TL_BODY_TANG,       /* flat of a lug */
  TL_BODY_LUG_BARREL,
  TL_BODY_BARREL,     /* of a sleeve */
  TL_BODY_CORE,       /* metal of a leg in or before a barrel */
  TL_BODY_INSULATION,
  TL_BODY_SEAL,
  TL_BODY_ADHESIVE,   /* lining of a seal */
  TL_BODY_COMPOUND,
  TL_BODY_FILLER,
  TL_BODY_CAP,
  TL_BODY_FERRULE,
  TL_BODY_TERMINAL,   /* metal of a terminal or branch connector */
  TL_BODY_SCREW,      /* clamping screw of a terminal */
  TL_BODY_SPRING,     /* leaf or cage */
  TL_BODY_HOUSING,    /* insulating body */
  TL_BODY_SOLDER,
  TL_BODY_WELD,
} TlBodyRole;

typedef struct
{
  const char    *id;         /* "layer-1/shank", "leg-2/core"; stable as long as the owner */
  const char    *owner;      /* leg or layer id, of the joint */
  TlBodyRole     role;
  gboolean       is_leg;
  gboolean       is_metal;
  const char    *material;   /* material id of the base (owned by joint or stock) */
  const char    *coating;    /* (nullable) material id of the coat */
  double         coating_um; /* 0 if none or unknown */
  gboolean       coating_known; /* thickness known */
  TlLook         look;       /* of the base */
  guint          strands;    /* 1 for solid */
  GArray        *solids;     /* (element-type TlSolid) */
} TlBody;

/* --- contacts --- */
typedef enum
{
  TL_CONTACT_PRESSED,    /* force and current */
  TL_CONTACT_TOUCHING,   /* distance 0, no force credited */
  TL_CONTACT_MAY_BRIDGE, /* apart by less than the bridge distance */
} TlContactKind;

typedef enum
{
  TL_CLOSURE_NONE,
  TL_CLOSURE_COMPOUND,
  TL_CLOSURE_ADHESIVE, /* adhesive sleeve closed at both ends */
} TlClosure;

typedef struct
{
  const char   *id;          /* "BODY|BODY|kind", bodies in order of their ids */
  guint         a, b;        /* indices of bodies */
  TlContactKind kind;
  gboolean      is_metallic; /* both bodies are metal: galvanic rules apply */
  gboolean      is_line;     /* eye of round wire, or strands: two lines, not a ring */
  const char   *surface_a;   /* material that is touched: coat if there is one, else base */
  const char   *surface_b;
  double        area_mm2;    /* overlap of the faces, 0 for a pair that is apart */
  double        loaded_area_mm2; /* clipped by the pressure cone from both sides; 0 if no force */
  double        rim_mm;      /* length of edge where an electrolyte can sit */
  double        distance_mm; /* 0 when pressed or touching */
  TlRange       force_N;     /* credited clamping force; all 0 if none */
  TlClosure     closure;
  double        at_x_mm;     /* a point of the contact in the drawing plane of the section: (x, z) */
  double        at_z_mm;
  double        at_y_mm;     /* terminal and splice: out of that plane */
} TlContact;

/* Why a layer could not be placed, or what is missing. */
typedef struct
{
  const char *owner;    /* leg, layer, "site" or "duty"; "" for the joint */
  gboolean    is_missing;/* TRUE: something has to be entered (Unfinished); FALSE: it cannot be built so */
  const char *message;  /* msgid with {part} {field} {a} {b} placeholders */
  TlField     field;    /* the field that is missing, or TL_N_FIELDS */
  double      a, b;     /* figures, mm, for {a} {b}; NAN if unused */
} TlProblem;

/* --- figures of a family that several rules need --- */
typedef struct
{
  gboolean    has_bolt, has_nut;
  const char *bolt, *nut;      /* layer ids */
  double      thread_mm, pitch_mm, stress_area_mm2, proof_MPa;
  gboolean    has_proof;
  double      head_bearing_mm; /* d_w */
  double      grip_mm;         /* head face to nut face, washers and eyes as they lie */
  double      bolt_length_mm;
  double      nut_height_mm;
  double      engaged_mm;      /* thread inside the nut: min(bolt length - grip, nut height), may be negative */
  double      protrusion_mm;   /* thread beyond the nut, may be negative */
  gboolean    has_torque;
  TlRange     torque_Nm;
  TlRange     nut_factor;
  TlRange     preload_N;       /* 0 if no torque */
  gboolean    has_conical;     /* at least one conical washer in the stack */
  gboolean    has_spring_ring;
  double      conical_flat_N;  /* least flat force of the conical washers */
} TlStackFigures;

typedef struct
{
  const char *sleeve;          /* layer id */
  double      length_mm, outer_mm, bore_mm;
  double      metal_mm2[2];    /* metal inside at the left and right press */
  guint       legs[2];         /* legs entering by mouth 1 and 2 */
  double      inserted_mm[2];  /* shortest insertion by mouth, 0 if none */
  gboolean    overlaps;        /* legs of both mouths lie side by side */
  double      overlap_mm;
  gboolean    has_die;
  double      die_mm;          /* across flats */
  double      wanted_die_mm;   /* 0 if the sleeve asks for none */
  const char *profile;         /* (nullable) used */
  const char *wanted_profile;  /* (nullable) */
  gboolean    unlike_metals;   /* copper and aluminium in one barrel or a barrel of the other metal */
} TlSleeveFigures;

typedef struct
{
  const char *seal;            /* (nullable) layer id of the outermost sealing sleeve */
  gboolean    has_adhesive;
  double      expanded_mm, recovered_mm, wall_mm, length_mm; /* length as cut */
  double      recovered_length_mm;
  double      largest_mm;      /* largest thing it has to pass */
  double      needed_bare_mm;  /* bare length that must be covered, insulation to insulation */
  guint       conductors[2];   /* conductors through each mouth */
  gboolean    filler[2];       /* filler or several-way part in that mouth */
  gboolean    capped[2];       /* end cap, no conductor */
  double      smallest_mm[2];  /* what each mouth has to grip; 0 if nothing known */
  double      cover_mm[2];     /* overlap on insulation */
  gboolean    closed[2];       /* closed by the figures of thresholds */
  gboolean    has_compound;    /* compound in the joint */
} TlSealFigures;

/* What stands at a place of the stack: a leg or a layer. */
typedef struct
{
  const char    *id;
  const TlLeg   *leg;   /* (nullable) */
  const TlLayer *layer; /* (nullable) */
  guint          place; /* as the seat says */
} TlStanding;

typedef struct
{
  const char *terminal;        /* layer id */
  gboolean    is_branch;       /* the main conductor is not cut */
  const char *form;            /* (nullable) word of TL_FIELD_TERMINAL_FORM */
  const char *marked_for;      /* (nullable) */
  const char *marked_class;    /* (nullable) */
  double      section_least_mm2, section_most_mm2; /* 0: not marked */
  const char *body_material;   /* (nullable) of the insulating body */
  guint       screws;          /* on each conductor */
  gboolean    has_torque;
  TlRange     torque_Nm;
  double      thread_mm;
  TlRange     clamp_N;         /* force on one conductor: of the screw(s) or the spring; 0 unknown */
  double      bore_mm;         /* of a mouth */
  double      length_mm;
  guint       legs[8];         /* conductors in each mouth */
  guint       ports;           /* mouths: 1 and 2 are the ends of the first bore, 3 and 4 of the one below, ... */
  guint       columns;         /* pairs of bores beside each other (y) */
  double      row_mm, column_mm; /* from bore to bore, downwards (z) and beside (y) */
} TlTerminalFigures;

typedef struct
{
  const char *form;            /* (nullable) soldered | welded | twisted */
  const char *layer;           /* (nullable) the solder or weld */
  double      overlap_mm;
  double      melting_C;       /* of the solder; 0 none */
  guint       turns;
} TlSpliceFigures;

typedef struct
{
  gatomicrefcount  ref_count;
  const TlJoint   *joint;      /* owned reference */
  const TlStock   *stock;      /* owned reference: overlay with the joint's `used` if it has one */
  TlFamily         family;
  GPtrArray       *bodies;     /* (element-type TlBody) */
  GArray          *contacts;   /* (element-type TlContact) sorted by id */
  GArray          *problems;   /* (element-type TlProblem) */
  GArray          *standing;   /* (element-type TlStanding) what stands in the stack, from the head */
  GPtrArray       *order;      /* (element-type utf8) owner ids in leader-number order: number = index + 1 */
  TlStackFigures   stack;
  TlSleeveFigures  sleeve;
  TlSealFigures    seal;
  TlTerminalFigures terminal;
  TlSpliceFigures  splice;
  double           packed_length_mm; /* the joint itself with sealing, without leads */
  double           packed_width_mm;
  double           packed_height_mm;
  GStringChunk    *strings;    /* ids of bodies and contacts */
  GHashTable      *limits;     /* thresholds that were read, by id: for `used`, and to find them again at once */
} TlAssembly;

/**
 * tl_assembly_new:
 * Never fails: what cannot be placed is a row of @problems and its bodies are left out.
 * Returns: (transfer full)
 */
TlAssembly *tl_assembly_new (const TlJoint *joint, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;
TlAssembly *tl_assembly_ref (TlAssembly *self);
void        tl_assembly_unref (TlAssembly *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlAssembly, tl_assembly_unref)

/* Threshold @id for the joint's practice, noted as used. A threshold that the data lack is a programmer's
 * mistake in the shipped data: g_error() is not raised; %FALSE is returned and the rule reports not computed. */
gboolean tl_assembly_limit (TlAssembly *self, const char *id, TlThreshold *threshold);

/* Leader number of an owner, 0 if it is not in the drawing. */
guint         tl_assembly_number (const TlAssembly *self, const char *owner);
const TlBody *tl_assembly_body (const TlAssembly *self, guint index);
/* First body of that owner and role; (nullable) */
const TlBody *tl_assembly_find_body (const TlAssembly *self, const char *owner, TlBodyRole role, guint *index);
/* Name of a leg or layer for people: "aluminium conductor 2.5 mm²", "plain washer, steel"; (transfer full) */
char *tl_assembly_owner_name (const TlAssembly *self, const char *owner, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;

/* "pressed" ... as in JSON. */
const char *tl_contact_kind_word (TlContactKind kind);

/* Thickness that an owner takes in the stack as it lies (eye: its wire after flattening is not taken off). */
double tl_assembly_stack_thickness_mm (const TlAssembly *self, const char *owner);

G_END_DECLS
