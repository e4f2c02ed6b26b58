/* field.c: the table of facts.
 *
 * To add a fact: one enumerator in field.h, one row here, and a label for each new word.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/field.h"

#include "base/language.h"

#include <string.h>

#define NUMBER(key_, unit_, low_, high_, label_)                                                   \
  {                                                                                                \
    .key = key_, .kind = TL_FIELD_KIND_NUMBER, .unit = unit_, .low = low_, .high = high_,          \
    .label = label_                                                                                \
  }
#define COUNT(key_, low_, high_, label_)                                                           \
  {                                                                                                \
    .key = key_, .kind = TL_FIELD_KIND_COUNT, .unit = "1", .low = low_, .high = high_,             \
    .label = label_                                                                                \
  }
#define WORD(key_, words_, label_)                                                                 \
  {                                                                                                \
    .key = key_, .kind = TL_FIELD_KIND_WORD, .unit = "", .words = words_, .label = label_          \
  }
#define ID(key_, label_)                                                                           \
  {                                                                                                \
    .key = key_, .kind = TL_FIELD_KIND_ID, .unit = "", .label = label_                             \
  }

static const char *const yes_no[] = { "yes", "no", NULL };
static const char *const tempers[] = { "soft", "half-hard", "hard", NULL };
static const char *const classes[] = { "class-1", "class-2", "class-5", NULL };
static const char *const roles[] = { "line",  "neutral", "protective", "protective-neutral",
                                     "other", NULL };
static const char *const fixings[] = { "wall", "loose", NULL };
static const char *const ends[] = { "straight", "eye", "hook", NULL };
static const char *const closings[] = { "with-nut", "against-nut", NULL };
static const char *const surfaces[] = { "bright", "brushed", "brushed-compound", "as-found", NULL };
static const char *const forms[] = { "butt", "parallel", NULL };
static const char *const profiles[] = { "hexagon", "indent", "oval", NULL };
static const char *const heat_sources[] = { "hot-air", "flame", NULL };
static const char *const slid_on[] = { "before", "after", NULL };
static const char *const shapes[] = { "round", "rectangular", NULL };
static const char *const surroundings[] = { "dry", "damp", "condensing", "salt", NULL };
static const char *const accesses[] = { "open", "cover", "closed", NULL };
static const char *const methods[] = { "A1", "A2", "B1", "B2", "C", "E", NULL };
static const char *const patterns[] = { "continuous", "daily", "short", NULL };
static const char *const device_kinds[] = { "breaker", "fuse", "rewirable-fuse", NULL };
static const char *const earthings[] = { "TN-S", "TN-C", "TN-C-S", "TT", "IT", "unknown", NULL };

static const char *const terminal_forms[] = { "tunnel", "saddle", "leaf-spring", "cage-spring",
                                              "device", "clamp",  "piercing",    NULL };
static const char *const marked_metals[] = { "copper", "aluminium", "both", "none", NULL };
static const char *const marked_classes[] = { "solid", "stranded", "flexible", "any", NULL };
static const char *const splice_forms[] = { "soldered", "welded", "twisted", NULL };

/* ISO 898-1 bolts, ISO 898-2 nuts, ISO 3506 stainless, ISO 8839 brass, washers by hardness. */
static const char *const property_classes[] = {
  "4.6", "4.8", "5.6", "5.8",   "6.8",   "8.8",   "10.9",  "12.9",  "4",     "5",
  "6",   "8",   "10",  "12",    "A2-50", "A2-70", "A2-80", "A4-50", "A4-70", "A4-80",
  "CU1", "CU2", "CU3", "100HV", "140HV", "200HV", "300HV", "other", NULL
};

/* Ranges are what a thing of this trade can be at all; they catch a slip of key or unit. */
static const TlFieldInfo fields[] = {
  [TL_FIELD_METAL] = ID ("metal", TL_N_ ("Metal")),
  [TL_FIELD_TEMPER] = WORD ("temper", tempers, TL_N_ ("Temper")),
  [TL_FIELD_SECTION] = NUMBER ("section", "mm2", 0.05, 1000, TL_N_ ("Cross-section")),
  [TL_FIELD_CLASS] = WORD ("class", classes, TL_N_ ("Class")),
  [TL_FIELD_STRANDS] = COUNT ("strands", 1, 5000, TL_N_ ("Strands")),
  [TL_FIELD_STRAND_DIAMETER] =
      NUMBER ("strand-diameter", "mm", 0.01, 40, TL_N_ ("Strand diameter")),
  [TL_FIELD_METAL_DIAMETER] =
      NUMBER ("metal-diameter", "mm", 0.1, 60, TL_N_ ("Diameter of the metal")),
  [TL_FIELD_RESISTANCE_20] =
      NUMBER ("resistance-20", "ohm/km", 0.001, 1000, TL_N_ ("Resistance at 20 °C")),
  [TL_FIELD_INSULATION] = ID ("insulation", TL_N_ ("Insulation")),
  [TL_FIELD_INSULATION_DIAMETER] =
      NUMBER ("insulation-diameter", "mm", 0.1, 100, TL_N_ ("Diameter over the insulation")),
  [TL_FIELD_ROLE] = WORD ("role", roles, TL_N_ ("Role")),
  [TL_FIELD_FIXED] = WORD ("fixed", fixings, TL_N_ ("Comes from")),
  [TL_FIELD_FREE_LENGTH] = NUMBER ("free-length", "mm", 0, 2000, TL_N_ ("Free length")),
  [TL_FIELD_BENDS] = COUNT ("bends", 0, 100, TL_N_ ("Bends already made")),
  [TL_FIELD_YEAR] = COUNT ("year", 1850, 2200, TL_N_ ("Year")),
  [TL_FIELD_END] = WORD ("end", ends, TL_N_ ("End")),
  [TL_FIELD_STRIP] = NUMBER ("strip", "mm", 0, 500, TL_N_ ("Stripped length")),
  [TL_FIELD_EYE_BORE] = NUMBER ("eye-bore", "mm", 0.5, 100, TL_N_ ("Bore of the eye")),
  [TL_FIELD_EYE_CLOSES] = WORD ("eye-closes", closings, TL_N_ ("Way the eye closes")),
  [TL_FIELD_INSERTION] = NUMBER ("insertion", "mm", 0, 500, TL_N_ ("Length inside the barrel")),
  [TL_FIELD_DIRECTION] = NUMBER ("direction", "deg", -360, 360, TL_N_ ("Direction")),
  [TL_FIELD_BEND_RADIUS] =
      NUMBER ("bend-radius", "mm", 0, 1000, TL_N_ ("Inside radius of the bend")),
  [TL_FIELD_SURFACE] = WORD ("surface", surfaces, TL_N_ ("Surface")),

  [TL_FIELD_MATERIAL] = ID ("material", TL_N_ ("Material")),
  [TL_FIELD_COATING] = ID ("coating", TL_N_ ("Coating")),
  [TL_FIELD_COATING_THICKNESS] =
      NUMBER ("coating-thickness", "um", 0, 1000, TL_N_ ("Coating thickness")),
  [TL_FIELD_REUSED] = WORD ("reused", yes_no, TL_N_ ("Used before")),

  [TL_FIELD_OUTER] = NUMBER ("outer", "mm", 0.01, 2000, TL_N_ ("Outside")),
  [TL_FIELD_BORE] = NUMBER ("bore", "mm", 0.01, 2000, TL_N_ ("Bore")),
  [TL_FIELD_THICKNESS] = NUMBER ("thickness", "mm", 0.001, 500, TL_N_ ("Thickness")),
  [TL_FIELD_HEIGHT] = NUMBER ("height", "mm", 0.01, 500, TL_N_ ("Height")),
  [TL_FIELD_ACROSS_FLATS] = NUMBER ("across-flats", "mm", 0.5, 200, TL_N_ ("Across flats")),
  [TL_FIELD_BEARING_DIAMETER] = NUMBER ("bearing-diameter", "mm", 0.5, 200, TL_N_ ("Bearing face")),
  [TL_FIELD_LENGTH] = NUMBER ("length", "mm", 0.01, 2000, TL_N_ ("Length")),
  [TL_FIELD_WIDTH] = NUMBER ("width", "mm", 0.01, 2000, TL_N_ ("Width")),
  [TL_FIELD_THREAD] = NUMBER ("thread", "mm", 0.5, 100, TL_N_ ("Thread")),
  [TL_FIELD_PITCH] = NUMBER ("pitch", "mm", 0.05, 10, TL_N_ ("Pitch")),
  [TL_FIELD_STRESS_AREA] = NUMBER ("stress-area", "mm2", 0.1, 10000, TL_N_ ("Stress area")),
  [TL_FIELD_PROPERTY_CLASS] = WORD ("property-class", property_classes, TL_N_ ("Property class")),
  [TL_FIELD_PROOF_STRESS] = NUMBER ("proof-stress", "MPa", 1, 2500, TL_N_ ("Proof stress")),
  [TL_FIELD_FREE_HEIGHT] = NUMBER ("free-height", "mm", 0.01, 200, TL_N_ ("Free height")),
  [TL_FIELD_FLAT_FORCE] = NUMBER ("flat-force", "N", 0, 1e6, TL_N_ ("Force when flat")),
  [TL_FIELD_TORQUE] = NUMBER ("torque", "N_m", 0, 500, TL_N_ ("Torque")),
  [TL_FIELD_NUT_FACTOR] = NUMBER ("nut-factor", "1", 0.03, 1, TL_N_ ("Nut factor")),
  [TL_FIELD_OFFSET] = NUMBER ("offset", "mm", -100, 100, TL_N_ ("Offset from the axis")),

  [TL_FIELD_FORM] = WORD ("form", forms, TL_N_ ("Form")),
  [TL_FIELD_STATED_SECTION] =
      NUMBER ("stated-section", "mm2", 0.05, 1000, TL_N_ ("Section marked on it")),
  [TL_FIELD_PRESS_PROFILE] = WORD ("press-profile", profiles, TL_N_ ("Press profile")),
  [TL_FIELD_WANTED_DIE] = NUMBER ("wanted-die", "mm", 0.5, 200, TL_N_ ("Die asked for")),
  [TL_FIELD_DIE] = NUMBER ("die", "mm", 0.5, 200, TL_N_ ("Die used")),
  [TL_FIELD_PRESS_WIDTH] = NUMBER ("press-width", "mm", 0.5, 200, TL_N_ ("Width of one press")),
  [TL_FIELD_PRESSES] = COUNT ("presses", 0, 50, TL_N_ ("Presses on each side")),
  [TL_FIELD_STOP] = WORD ("stop", yes_no, TL_N_ ("Stop in the middle")),
  [TL_FIELD_TESTED_PAIR] = WORD ("tested-pair", yes_no, TL_N_ ("Tested for copper with aluminium")),
  [TL_FIELD_FILLER] = WORD ("filler", yes_no, TL_N_ ("Filler between the conductors")),

  [TL_FIELD_TERMINAL_FORM] = WORD ("terminal-form", terminal_forms, TL_N_ ("Kind of terminal")),
  [TL_FIELD_PORTS] = COUNT ("ports", 1, 8, TL_N_ ("Mouths")),
  [TL_FIELD_SCREWS] = COUNT ("screws", 0, 4, TL_N_ ("Screws on each conductor")),
  [TL_FIELD_CLAMP_FORCE] = NUMBER ("clamp-force", "N", 0.1, 10000, TL_N_ ("Force of the spring")),
  [TL_FIELD_MARKED_FOR] = WORD ("marked-for", marked_metals, TL_N_ ("Marked for")),
  [TL_FIELD_MARKED_CLASS] = WORD ("marked-class", marked_classes, TL_N_ ("Marked for conductors")),
  [TL_FIELD_SECTION_LEAST] =
      NUMBER ("section-least", "mm2", 0.05, 1000, TL_N_ ("Smallest section")),
  [TL_FIELD_SECTION_MOST] = NUMBER ("section-most", "mm2", 0.05, 1000, TL_N_ ("Largest section")),
  [TL_FIELD_BODY_MATERIAL] = ID ("body-material", TL_N_ ("Insulating body")),
  [TL_FIELD_SPLICE_FORM] = WORD ("splice-form", splice_forms, TL_N_ ("Kind of splice")),
  [TL_FIELD_OVERLAP] = NUMBER ("overlap", "mm", 0.1, 500, TL_N_ ("Length side by side")),
  [TL_FIELD_TURNS] = COUNT ("turns", 0, 50, TL_N_ ("Turns")),
  [TL_FIELD_OTHER_FACE] = ID ("other-face", TL_N_ ("Metal of the other face")),

  [TL_FIELD_EXPANDED] = NUMBER ("expanded", "mm", 0.1, 500, TL_N_ ("Bore before shrinking")),
  [TL_FIELD_RECOVERED] = NUMBER ("recovered", "mm", 0.05, 500, TL_N_ ("Bore after free shrinking")),
  [TL_FIELD_RECOVERED_WALL] =
      NUMBER ("recovered-wall", "mm", 0.01, 50, TL_N_ ("Wall after shrinking")),
  [TL_FIELD_ADHESIVE] = WORD ("adhesive", yes_no, TL_N_ ("Adhesive inside")),
  [TL_FIELD_SHRINK_RATIO] = NUMBER ("shrink-ratio", "1", 1, 10, TL_N_ ("Shrink ratio")),
  [TL_FIELD_SHRINK_TEMPERATURE] =
      NUMBER ("shrink-temperature", "degC", 40, 400, TL_N_ ("Shrink temperature")),
  [TL_FIELD_LENGTH_CHANGE] =
      NUMBER ("length-change", "%", -50, 50, TL_N_ ("Change of length on shrinking")),
  [TL_FIELD_COVER] = NUMBER ("cover", "mm", 0, 500, TL_N_ ("Overlap on the insulation")),
  [TL_FIELD_HEAT_SOURCE] = WORD ("heat-source", heat_sources, TL_N_ ("Heat source")),
  [TL_FIELD_SLID_ON] = WORD ("slid-on", slid_on, TL_N_ ("Slid on")),
  [TL_FIELD_AMOUNT] = NUMBER ("amount", "g", 0, 1000, TL_N_ ("Amount")),
  [TL_FIELD_MELTING] = NUMBER ("melting", "degC", -50, 4000, TL_N_ ("Melting point")),

  [TL_FIELD_SHAPE] = WORD ("shape", shapes, TL_N_ ("Shape")),
  [TL_FIELD_INNER_WIDTH] = NUMBER ("inner-width", "mm", 1, 2000, TL_N_ ("Inside width")),
  [TL_FIELD_INNER_HEIGHT] = NUMBER ("inner-height", "mm", 1, 2000, TL_N_ ("Inside height")),
  [TL_FIELD_INNER_DEPTH] = NUMBER ("inner-depth", "mm", 1, 2000, TL_N_ ("Inside depth")),
  [TL_FIELD_VOLUME] = NUMBER ("volume", "cm3", 0.1, 1e6, TL_N_ ("Volume")),

  [TL_FIELD_SURROUNDINGS] = WORD ("surroundings", surroundings, TL_N_ ("Surroundings")),
  [TL_FIELD_ACCESS] = WORD ("access", accesses, TL_N_ ("Access")),
  [TL_FIELD_SAME_JOINTS] = COUNT ("same-joints", 0, 100, TL_N_ ("Further joints of this kind")),
  [TL_FIELD_OTHER_CONDUCTORS] = COUNT ("other-conductors", 0, 500, TL_N_ ("Other conductors")),
  [TL_FIELD_OTHER_SECTION] =
      NUMBER ("other-section", "mm2", 0.05, 1000, TL_N_ ("Section of the other conductors")),
  [TL_FIELD_OTHER_CURRENT] =
      NUMBER ("other-current", "A", 0, 5000, TL_N_ ("Current of the other conductors")),
  [TL_FIELD_PROTECTIVE_CONDUCTORS] =
      COUNT ("protective-conductors", 0, 500, TL_N_ ("Protective conductors")),
  [TL_FIELD_DEVICES] = COUNT ("devices", 0, 100, TL_N_ ("Devices in the box")),
  [TL_FIELD_OTHER_HEAT] = NUMBER ("other-heat", "W", 0, 1000, TL_N_ ("Other heat in the box")),
  [TL_FIELD_TOOL_CLEARANCE] =
      NUMBER ("tool-clearance", "mm", 0, 1000, TL_N_ ("Room that the press head needs")),
  [TL_FIELD_ACCESSORY_NEEDS_PE] =
      WORD ("accessory-needs-pe", yes_no, TL_N_ ("Accessory needs a protective conductor")),
  [TL_FIELD_PE_PRESENT] = WORD ("pe-present", yes_no, TL_N_ ("Protective conductor is there")),
  [TL_FIELD_CIRCUITS] = COUNT ("circuits", 1, 100, TL_N_ ("Circuits bunched")),
  [TL_FIELD_INSTALLATION] = WORD ("installation", methods, TL_N_ ("Installation method")),

  [TL_FIELD_LOAD] = NUMBER ("load", "A", 0, 5000, TL_N_ ("Load current")),
  [TL_FIELD_PATTERN] = WORD ("pattern", patterns, TL_N_ ("Pattern of the load")),
  [TL_FIELD_DEVICE_KIND] = WORD ("device-kind", device_kinds, TL_N_ ("Overcurrent device")),
  [TL_FIELD_DEVICE_RATING] =
      NUMBER ("device-rating", "A", 0.1, 5000, TL_N_ ("Rating of the device")),
  [TL_FIELD_PROSPECTIVE] =
      NUMBER ("prospective", "A", 0, 200000, TL_N_ ("Prospective short-circuit current")),
  [TL_FIELD_EARTHING] = WORD ("earthing", earthings, TL_N_ ("Earthing of the supply")),
  [TL_FIELD_AMBIENT] = NUMBER ("ambient", "degC", -60, 200, TL_N_ ("Ambient temperature")),
  [TL_FIELD_LOADED_CONDUCTORS] = COUNT ("loaded-conductors", 2, 3, TL_N_ ("Loaded conductors")),
  [TL_FIELD_CIRCUIT_OPENS] =
      WORD ("circuit-opens", yes_no, TL_N_ ("Opens when a part is taken out")),
  [TL_FIELD_JOINT_RESISTANCE] =
      NUMBER ("joint-resistance", "uohm", 0.1, 1e7, TL_N_ ("Measured resistance")),
  [TL_FIELD_JOINT_DROP] = NUMBER ("joint-drop", "mV", 0.001, 1e4, TL_N_ ("Measured drop")),
  [TL_FIELD_JOINT_TEST_CURRENT] =
      NUMBER ("joint-test-current", "A", 0.01, 1000, TL_N_ ("Test current")),
  [TL_FIELD_EXTENSION] = NUMBER ("extension", "m", 0.1, 1000, TL_N_ ("Length of the extension")),
  [TL_FIELD_LOOP_IMPEDANCE] =
      NUMBER ("loop-impedance", "ohm", 0.01, 10000, TL_N_ ("Measured loop impedance")),
  [TL_FIELD_RESIDUAL_DEVICE] =
      WORD ("residual-device", yes_no, TL_N_ ("Residual current device, 30 mA")),
  [TL_FIELD_ARC_DEVICE] = WORD ("arc-device", yes_no, TL_N_ ("Arc fault device")),

  [TL_FIELD_RESISTIVITY] =
      NUMBER ("resistivity", "ohm_mm2/m", 0.001, 1e20, TL_N_ ("Resistivity at 20 °C")),
  [TL_FIELD_TEMPERATURE_COEFFICIENT] =
      NUMBER ("temperature-coefficient", "1/K", -0.01, 0.02, TL_N_ ("Temperature coefficient")),
  [TL_FIELD_CONDUCTIVITY] =
      NUMBER ("conductivity", "W/mK", 0.001, 5000, TL_N_ ("Thermal conductivity")),
  [TL_FIELD_EXPANSION] = NUMBER ("expansion", "um/mK", -50, 1000, TL_N_ ("Thermal expansion")),
  [TL_FIELD_MODULUS] = NUMBER ("modulus", "MPa", 0.01, 1.5e6, TL_N_ ("Elastic modulus")),
  [TL_FIELD_POISSON] = NUMBER ("poisson", "1", 0, 0.5, TL_N_ ("Poisson ratio")),
  [TL_FIELD_YIELD] = NUMBER ("yield", "MPa", 0.01, 5000, TL_N_ ("Yield strength")),
  [TL_FIELD_TENSILE] = NUMBER ("tensile", "MPa", 0.01, 5000, TL_N_ ("Tensile strength")),
  [TL_FIELD_HARDNESS] = NUMBER ("hardness", "MPa", 0.01, 50000, TL_N_ ("Contact hardness")),
  [TL_FIELD_DENSITY] = NUMBER ("density", "g/cm3", 0.001, 25, TL_N_ ("Density")),
  [TL_FIELD_HEAT_CAPACITY] = NUMBER ("heat-capacity", "J/kgK", 10, 10000, TL_N_ ("Heat capacity")),
  [TL_FIELD_EMISSIVITY] = NUMBER ("emissivity", "1", 0, 1, TL_N_ ("Emissivity")),
  [TL_FIELD_MAX_TEMPERATURE] =
      NUMBER ("max-temperature", "degC", -50, 2000, TL_N_ ("Highest continuous temperature")),
  [TL_FIELD_POTENTIAL_J] =
      NUMBER ("potential-j", "mV", -3000, 3000, TL_N_ ("Potential, IEC scale")),
  [TL_FIELD_INDEX_MIL] = NUMBER ("index-mil", "mV", -500, 3000, TL_N_ ("Anodic index, MIL scale")),
  [TL_FIELD_POTENTIAL_SEA] =
      NUMBER ("potential-sea", "mV", -3000, 3000, TL_N_ ("Potential in sea water")),
  [TL_FIELD_MOLAR_MASS] = NUMBER ("molar-mass", "g/mol", 1, 300, TL_N_ ("Molar mass")),
  [TL_FIELD_VALENCE] = COUNT ("valence", 1, 8, TL_N_ ("Valence")),
  [TL_FIELD_CATHODE_QUALITY] = NUMBER ("cathode-quality", "1", 0, 10, TL_N_ ("Cathode quality")),
  [TL_FIELD_OXIDE_MELTING] =
      NUMBER ("oxide-melting", "degC", 0, 4000, TL_N_ ("Melting point of the oxide")),
  [TL_FIELD_SOFTENING_VOLTAGE] =
      NUMBER ("softening-voltage", "mV", 1, 2000, TL_N_ ("Softening voltage")),
  [TL_FIELD_MELTING_VOLTAGE] = NUMBER ("melting-voltage", "mV", 1, 3000, TL_N_ ("Melting voltage")),
  [TL_FIELD_BETA] =
      NUMBER ("beta", "degC", 1, 2000, TL_N_ ("Inverse of the temperature coefficient at 0 °C")),
  [TL_FIELD_ADIABATIC_CONSTANT] =
      NUMBER ("adiabatic-constant", "A_sqrt_s/mm2", 1, 1000, TL_N_ ("Adiabatic constant")),
};
G_STATIC_ASSERT (G_N_ELEMENTS (fields) == TL_N_FIELDS);

typedef struct
{
  const char *const *words;
  const char        *word;
  const char        *label;
} WordLabel;

static const WordLabel word_labels[] = {
  { yes_no, "yes", TL_N_ ("yes") },
  { yes_no, "no", TL_N_ ("no") },
  { tempers, "soft", TL_N_ ("soft") },
  { tempers, "half-hard", TL_N_ ("half hard") },
  { tempers, "hard", TL_N_ ("hard") },
  { classes, "class-1", TL_N_ ("class 1, solid") },
  { classes, "class-2", TL_N_ ("class 2, stranded") },
  { classes, "class-5", TL_N_ ("class 5, flexible") },
  { roles, "line", TL_N_ ("line") },
  { roles, "neutral", TL_N_ ("neutral") },
  { roles, "protective", TL_N_ ("protective") },
  { roles, "protective-neutral", TL_N_ ("protective and neutral combined") },
  { roles, "other", TL_N_ ("other") },
  { fixings, "wall", TL_N_ ("fixed in the wall") },
  { fixings, "loose", TL_N_ ("loose") },
  { ends, "straight", TL_N_ ("straight") },
  { ends, "eye", TL_N_ ("eye") },
  { ends, "hook", TL_N_ ("hook") },
  { closings, "with-nut", TL_N_ ("closes as the nut turns") },
  { closings, "against-nut", TL_N_ ("opens as the nut turns") },
  { surfaces, "bright", TL_N_ ("bright") },
  { surfaces, "brushed", TL_N_ ("brushed") },
  { surfaces, "brushed-compound", TL_N_ ("brushed under compound") },
  { surfaces, "as-found", TL_N_ ("as found") },
  { forms, "butt", TL_N_ ("from both ends") },
  { forms, "parallel", TL_N_ ("side by side") },
  { profiles, "hexagon", TL_N_ ("hexagon") },
  { profiles, "indent", TL_N_ ("indent") },
  { profiles, "oval", TL_N_ ("oval") },
  { heat_sources, "hot-air", TL_N_ ("hot air") },
  { heat_sources, "flame", TL_N_ ("flame") },
  { slid_on, "before", TL_N_ ("before pressing") },
  { slid_on, "after", TL_N_ ("after pressing") },
  { shapes, "round", TL_N_ ("round") },
  { shapes, "rectangular", TL_N_ ("rectangular") },
  { surroundings, "dry", TL_N_ ("dry and heated") },
  { surroundings, "damp", TL_N_ ("damp") },
  { surroundings, "condensing", TL_N_ ("condensing or outdoors") },
  { surroundings, "salt", TL_N_ ("salt") },
  { accesses, "open", TL_N_ ("open to hand") },
  { accesses, "cover", TL_N_ ("behind a cover") },
  { accesses, "closed", TL_N_ ("closed for good") },
  { methods, "A1", TL_N_ ("A1, single cores in conduit in an insulated wall") },
  { methods, "A2", TL_N_ ("A2, cable in conduit in an insulated wall") },
  { methods, "B1", TL_N_ ("B1, single cores in conduit on a wall") },
  { methods, "B2", TL_N_ ("B2, cable in conduit on a wall") },
  { methods, "C", TL_N_ ("C, cable fixed on or in a wall") },
  { methods, "E", TL_N_ ("E, cable in free air") },
  { patterns, "continuous", TL_N_ ("continuous") },
  { patterns, "daily", TL_N_ ("some hours a day") },
  { patterns, "short", TL_N_ ("short use") },
  { device_kinds, "breaker", TL_N_ ("circuit breaker") },
  { device_kinds, "fuse", TL_N_ ("fuse") },
  { device_kinds, "rewirable-fuse", TL_N_ ("rewirable fuse") },
  { earthings, "TN-S", "TN-S" },
  { earthings, "TN-C", "TN-C" },
  { earthings, "TN-C-S", "TN-C-S" },
  { earthings, "TT", "TT" },
  { earthings, "IT", "IT" },
  { earthings, "unknown", TL_N_ ("unknown") },
  { terminal_forms, "tunnel", TL_N_ ("tunnel with screw") },
  { terminal_forms, "saddle", TL_N_ ("screw with saddle plate") },
  { terminal_forms, "leaf-spring", TL_N_ ("leaf spring") },
  { terminal_forms, "cage-spring", TL_N_ ("cage spring") },
  { terminal_forms, "device", TL_N_ ("terminal of a device") },
  { terminal_forms, "clamp", TL_N_ ("clamp without cutting") },
  { terminal_forms, "piercing", TL_N_ ("clamp that pierces the insulation") },
  { marked_metals, "copper", TL_N_ ("copper only") },
  { marked_metals, "aluminium", TL_N_ ("aluminium only") },
  { marked_metals, "both", TL_N_ ("copper and aluminium") },
  { marked_metals, "none", TL_N_ ("nothing marked") },
  { marked_classes, "solid", TL_N_ ("solid") },
  { marked_classes, "stranded", TL_N_ ("solid and stranded") },
  { marked_classes, "flexible", TL_N_ ("flexible") },
  { marked_classes, "any", TL_N_ ("any kind") },
  { splice_forms, "soldered", TL_N_ ("soldered") },
  { splice_forms, "welded", TL_N_ ("welded") },
  { splice_forms, "twisted", TL_N_ ("twisted") },
  { property_classes, "other", TL_N_ ("other") },
};

const TlFieldInfo *
tl_field_info (TlField field)
{
  g_return_val_if_fail ((guint) field < TL_N_FIELDS, &fields[0]);

  return &fields[field];
}

gboolean
tl_field_from_key (const char *key, TlField *field)
{
  g_return_val_if_fail (key != NULL, FALSE);

  for (guint i = 0; i < TL_N_FIELDS; i++)
    if (strcmp (fields[i].key, key) == 0)
      {
        if (field != NULL)
          *field = (TlField) i;
        return TRUE;
      }
  return FALSE;
}

const char *
tl_field_word_label (TlField field, const char *word)
{
  g_return_val_if_fail ((guint) field < TL_N_FIELDS, word);
  g_return_val_if_fail (word != NULL, "");

  for (guint i = 0; i < G_N_ELEMENTS (word_labels); i++)
    if (word_labels[i].words == fields[field].words && strcmp (word_labels[i].word, word) == 0)
      return word_labels[i].label;

  /* Property classes and ids of materials read as they are written. */
  return word;
}
