/* field.h: the vocabulary of facts.
 *
 * Every figure or word that a leg, a layer, a part, a material, the site or the duty can carry is a row of
 * one table: key in files, unit, permitted range, words, label. Files, forms, checks and sheets read it
 * there and nowhere else.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  /* conductors */
  TL_FIELD_METAL,              /* word: material id */
  TL_FIELD_TEMPER,             /* word: soft | half-hard | hard */
  TL_FIELD_SECTION,            /* mm2 */
  TL_FIELD_CLASS,              /* word: class-1 | class-2 | class-5 */
  TL_FIELD_STRANDS,            /* 1: number of strands */
  TL_FIELD_STRAND_DIAMETER,    /* mm */
  TL_FIELD_METAL_DIAMETER,     /* mm: over the bare metal */
  TL_FIELD_RESISTANCE_20,      /* ohm/km */
  TL_FIELD_INSULATION,         /* word: material id, or none */
  TL_FIELD_INSULATION_DIAMETER,/* mm: over the insulation */
  TL_FIELD_ROLE,               /* word: line | neutral | protective | protective-neutral | other */
  TL_FIELD_FIXED,              /* word: wall | loose */
  TL_FIELD_FREE_LENGTH,        /* mm: from the wall or sheath to the end */
  TL_FIELD_BENDS,              /* 1: bends already made at the place to be bent */
  TL_FIELD_YEAR,               /* 1 */
  TL_FIELD_END,                /* word: straight | eye | hook */
  TL_FIELD_STRIP,              /* mm */
  TL_FIELD_EYE_BORE,           /* mm: inside diameter of the eye */
  TL_FIELD_EYE_CLOSES,         /* word: with-nut | against-nut */
  TL_FIELD_INSERTION,          /* mm: length inside the barrel */
  TL_FIELD_DIRECTION,          /* deg: way the lead leaves the stack, seen from the head */
  TL_FIELD_BEND_RADIUS,        /* mm: inside radius of the bend in the box */
  TL_FIELD_SURFACE,            /* word: bright | brushed | brushed-compound | as-found */
  /* metal and coat of any part */
  TL_FIELD_MATERIAL,           /* word: material id of the body */
  TL_FIELD_COATING,            /* word: material id of the coat, or none */
  TL_FIELD_COATING_THICKNESS,  /* um */
  TL_FIELD_REUSED,             /* word: yes | no */
  /* sizes */
  TL_FIELD_OUTER,              /* mm: outside diameter */
  TL_FIELD_BORE,               /* mm: hole */
  TL_FIELD_THICKNESS,          /* mm */
  TL_FIELD_HEIGHT,             /* mm: head or nut */
  TL_FIELD_ACROSS_FLATS,       /* mm */
  TL_FIELD_BEARING_DIAMETER,   /* mm: smallest bearing face of head or nut, d_w min */
  TL_FIELD_LENGTH,             /* mm: under the head; barrel; tube; cut length */
  TL_FIELD_WIDTH,              /* mm: flat of a lug; width of a split ring */
  TL_FIELD_THREAD,             /* mm: nominal thread diameter */
  TL_FIELD_PITCH,              /* mm */
  TL_FIELD_STRESS_AREA,        /* mm2 */
  TL_FIELD_PROPERTY_CLASS,     /* word */
  TL_FIELD_PROOF_STRESS,       /* MPa */
  TL_FIELD_FREE_HEIGHT,        /* mm: unloaded height of a conical washer */
  TL_FIELD_FLAT_FORCE,         /* N: force at which it lies flat */
  TL_FIELD_TORQUE,             /* N_m */
  TL_FIELD_NUT_FACTOR,         /* 1 */
  TL_FIELD_OFFSET,             /* mm: off the axis, within its clearance */
  /* pressed parts */
  TL_FIELD_FORM,               /* word: butt | parallel */
  TL_FIELD_STATED_SECTION,     /* mm2: section marked on the sleeve */
  TL_FIELD_PRESS_PROFILE,      /* word: hexagon | indent | oval */
  TL_FIELD_WANTED_DIE,         /* mm: die that the sleeve asks for, across flats */
  TL_FIELD_DIE,                /* mm: die used, across flats */
  TL_FIELD_PRESS_WIDTH,        /* mm: width of one press */
  TL_FIELD_PRESSES,            /* 1: number of presses a side */
  TL_FIELD_STOP,               /* word: yes | no: stop in the middle of the barrel */
  TL_FIELD_TESTED_PAIR,        /* word: yes | no: tested for Cu-Al at this section */
  TL_FIELD_FILLER,             /* word: yes | no */
  /* terminals and splices */
  TL_FIELD_TERMINAL_FORM,      /* word: tunnel | saddle | leaf-spring | cage-spring | device | clamp | piercing */
  TL_FIELD_PORTS,              /* 1: mouths */
  TL_FIELD_SCREWS,             /* 1: screws on each conductor */
  TL_FIELD_CLAMP_FORCE,        /* N: of a spring on one conductor */
  TL_FIELD_MARKED_FOR,         /* word: copper | aluminium | both | none: metals that the part is marked for */
  TL_FIELD_MARKED_CLASS,       /* word: solid | stranded | flexible | any: kinds of conductor that it is marked for */
  TL_FIELD_SECTION_LEAST,      /* mm2: range that it is marked for */
  TL_FIELD_SECTION_MOST,       /* mm2 */
  TL_FIELD_BODY_MATERIAL,      /* word: material id of the insulating body */
  TL_FIELD_SPLICE_FORM,        /* word: soldered | welded | twisted */
  TL_FIELD_OVERLAP,            /* mm: length that the conductors lie side by side in a splice */
  TL_FIELD_TURNS,              /* 1: turns of a twist */
  TL_FIELD_OTHER_FACE,         /* word: material id of the second face of a bimetal part */
  /* sealing */
  TL_FIELD_EXPANDED,           /* mm: bore before shrinking, minimum */
  TL_FIELD_RECOVERED,          /* mm: bore after free shrinking, maximum */
  TL_FIELD_RECOVERED_WALL,     /* mm */
  TL_FIELD_ADHESIVE,           /* word: yes | no */
  TL_FIELD_SHRINK_RATIO,       /* 1 */
  TL_FIELD_SHRINK_TEMPERATURE, /* degC */
  TL_FIELD_LENGTH_CHANGE,      /* %: change of length on shrinking, shortening negative */
  TL_FIELD_COVER,              /* mm: overlap on the insulation at each end */
  TL_FIELD_HEAT_SOURCE,        /* word: hot-air | flame */
  TL_FIELD_SLID_ON,            /* word: before | after: before pressing or after */
  TL_FIELD_AMOUNT,             /* g */
  TL_FIELD_MELTING,            /* degC */
  /* boxes */
  TL_FIELD_SHAPE,              /* word: round | rectangular */
  TL_FIELD_INNER_WIDTH,        /* mm (diameter when round) */
  TL_FIELD_INNER_HEIGHT,       /* mm */
  TL_FIELD_INNER_DEPTH,        /* mm */
  TL_FIELD_VOLUME,             /* cm3 */
  /* site */
  TL_FIELD_SURROUNDINGS,       /* word: dry | damp | condensing | salt */
  TL_FIELD_ACCESS,             /* word: open | cover | closed */
  TL_FIELD_SAME_JOINTS,        /* 1: further joints of the same kind in the box */
  TL_FIELD_OTHER_CONDUCTORS,   /* 1: other conductors in the box */
  TL_FIELD_OTHER_SECTION,      /* mm2 */
  TL_FIELD_OTHER_CURRENT,      /* A */
  TL_FIELD_PROTECTIVE_CONDUCTORS, /* 1: equipment grounding / protective conductors in the box */
  TL_FIELD_DEVICES,            /* 1: device gangs in the box */
  TL_FIELD_OTHER_HEAT,         /* W */
  TL_FIELD_TOOL_CLEARANCE,     /* mm: length that the press head needs */
  TL_FIELD_ACCESSORY_NEEDS_PE, /* word: yes | no */
  TL_FIELD_PE_PRESENT,         /* word: yes | no */
  TL_FIELD_INSTALLATION,       /* word: A1 | A2 | B1 | B2 | C | E reference method */
  TL_FIELD_CIRCUITS,           /* 1: circuits bunched along the run, this one counted */
  /* duty */
  TL_FIELD_LOAD,               /* A */
  TL_FIELD_PATTERN,            /* word: continuous | daily | short */
  TL_FIELD_DEVICE_KIND,        /* word: breaker | fuse | rewirable-fuse */
  TL_FIELD_DEVICE_RATING,      /* A */
  TL_FIELD_PROSPECTIVE,        /* A: prospective short-circuit current */
  TL_FIELD_EARTHING,           /* word: TN-S | TN-C | TN-C-S | TT | IT | unknown */
  TL_FIELD_AMBIENT,            /* degC */
  TL_FIELD_LOADED_CONDUCTORS,  /* 1: 2 or 3 */
  TL_FIELD_CIRCUIT_OPENS,      /* word: yes | no: this joint opens when a part is taken out */
  TL_FIELD_JOINT_RESISTANCE,   /* uohm: measured between the mouths, at 20 degC */
  TL_FIELD_JOINT_DROP,         /* mV: measured between the mouths on the dead circuit */
  TL_FIELD_JOINT_TEST_CURRENT, /* A: current of that measurement */
  TL_FIELD_EXTENSION,          /* m: one way, of the new run */
  TL_FIELD_LOOP_IMPEDANCE,     /* ohm: measured at the end of the old run */
  TL_FIELD_RESIDUAL_DEVICE,    /* word: yes | no: residual current device of 30 mA or less before it */
  TL_FIELD_ARC_DEVICE,         /* word: yes | no: arc fault device before it */
  /* materials */
  TL_FIELD_RESISTIVITY,        /* ohm_mm2/m at 20 degC */
  TL_FIELD_TEMPERATURE_COEFFICIENT, /* 1/K at 20 degC */
  TL_FIELD_CONDUCTIVITY,       /* W/mK */
  TL_FIELD_EXPANSION,          /* um/mK */
  TL_FIELD_MODULUS,            /* MPa */
  TL_FIELD_POISSON,            /* 1 */
  TL_FIELD_YIELD,              /* MPa */
  TL_FIELD_TENSILE,            /* MPa */
  TL_FIELD_HARDNESS,           /* MPa: contact hardness */
  TL_FIELD_DENSITY,            /* g/cm3 */
  TL_FIELD_HEAT_CAPACITY,      /* J/kgK */
  TL_FIELD_EMISSIVITY,         /* 1 */
  TL_FIELD_MAX_TEMPERATURE,    /* degC: continuous */
  TL_FIELD_POTENTIAL_J,        /* mV, rising to the noble: IEC 60950-1 Annex J scale */
  TL_FIELD_INDEX_MIL,          /* mV, falling to the noble: MIL-type anodic index */
  TL_FIELD_POTENTIAL_SEA,      /* mV against SCE in sea water */
  TL_FIELD_MOLAR_MASS,         /* g/mol */
  TL_FIELD_VALENCE,            /* 1 */
  TL_FIELD_CATHODE_QUALITY,    /* 1 */
  TL_FIELD_OXIDE_MELTING,      /* degC */
  TL_FIELD_SOFTENING_VOLTAGE,  /* mV */
  TL_FIELD_MELTING_VOLTAGE,    /* mV */
  TL_FIELD_BETA,               /* degC: inverse of the coefficient at 0 degC */
  TL_FIELD_ADIABATIC_CONSTANT, /* A_sqrt_s/mm2 */
  TL_N_FIELDS
} TlField;

typedef enum
{
  TL_FIELD_KIND_NUMBER, /* a figure with unit and range */
  TL_FIELD_KIND_COUNT,  /* a whole number */
  TL_FIELD_KIND_WORD,   /* one of @words */
  TL_FIELD_KIND_ID,     /* id of a material */
} TlFieldKind;

typedef struct
{
  const char        *key;   /* as in files: "outer", "strip" */
  TlFieldKind        kind;
  const char        *unit;  /* for numbers; "1" when dimensionless, "" for words */
  double             low;   /* permitted range, ends included */
  double             high;
  const char *const *words; /* (array zero-terminated=1) for words */
  const char        *label; /* msgid, short, as in a form */
} TlFieldInfo;

/* (transfer none), never %NULL for a valid @field. */
const TlFieldInfo *tl_field_info (TlField field);

/* %TRUE and @field set if @key is in the vocabulary. */
gboolean tl_field_from_key (const char *key, TlField *field);

/* The msgid for a word of a field, as a person reads it ("with-nut" -> "closes as the nut turns"). */
const char *tl_field_word_label (TlField field, const char *word);

G_END_DECLS
