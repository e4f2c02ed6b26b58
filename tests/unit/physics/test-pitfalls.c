/* What a first version gets wrong: limits, doublings and the traps of each subject, against published or
 * closed-form figures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "starts.h"
#include <math.h>

static GPtrArray *starts;

/* Best value of one output. */
static double
value_of (const char *formula, const char *inputs, const char *output)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  start_inputs (&call, formula, inputs);
  tl_call_run (&call, &error);
  g_assert_no_error (error);
  return tl_call_get (&call, output).best;
}

static char *
word_of (const char *formula, const char *inputs, const char *output)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  start_inputs (&call, formula, inputs);
  tl_call_run (&call, &error);
  g_assert_no_error (error);
  return g_strdup (tl_call_get_word (&call, output));
}

static void
refused (const char *formula, const char *inputs, int code, const char *part)
{
  g_autoptr (GError) error = NULL;
  TlCall call;

  start_inputs (&call, formula, inputs);
  g_assert_false (tl_call_run (&call, &error));
  g_assert_error (error, TL_ERROR, code);
  if (strstr (error->message, part) == NULL)
    g_error ("\"%s\" does not say \"%s\"", error->message, part);
}

static void
near (double value, double expected, double share)
{
  g_assert_cmpfloat (fabs (value - expected), <=, share * fabs (expected));
}

/* --- dimensions: scaling an input scales an output by a power of it --- */

typedef struct
{
  const char *formula;
  const char *input;
  const char *output;
  double      power;
} Power;

static const Power powers[] = {
  { "stress-area-metric", "diameter+pitch", "area", 2 },
  { "torque-to-preload", "torque", "preload", 1 },
  { "torque-to-preload", "diameter", "preload", -1 },
  { "torque-for-preload", "preload", "torque", 1 },
  { "torque-friction", "preload", "torque", 1 },
  { "torque-friction", "pitch+pitch_diameter+head_diameter+hole_diameter", "torque", 1 },
  { "bearing-pressure", "force", "pressure", 1 },
  { "bearing-pressure", "outer_diameter+hole_diameter", "pressure", -2 },
  { "pressure-cone-area", "head_diameter+depth+part_diameter+hole_diameter", "area", 2 },
  { "allowed-preload", "limit", "preload", 1 },
  { "disc-spring-force", "outside_diameter+inside_diameter+thickness+cone_height+deflection",
    "force", 2 },
  { "disc-spring-force", "outside_diameter+inside_diameter+thickness+cone_height+deflection",
    "stiffness", 1 },
  { "spring-series-stiffness", "bolt+joint+spring", "stiffness", 1 },
  { "bolt-stiffness", "grip+diameter", "stiffness", -1 },
  { "frustum-stiffness", "hole_diameter+head_diameter+thickness", "stiffness", 1 },
  { "thermal-preload-change", "temperature_change", "change", 1 },
  { "embedding-loss", "embedding", "loss", 1 },
  { "shakedown", "preload+thermal_change+limit", "cold", 1 },
  { "eye-flattening", "wire_diameter+eye_diameter", "length", 1 },
  { "eye-flattening", "force+hardness", "width", 0 },
  { "hexagon-area", "width", "area", 2 },
  { "indent-area", "outside_diameter+punch_diameter+depth", "area", 2 },
  { "oval-area", "height+width", "area", 2 },
  { "crimp-grip", "length", "force", 1 },
  { "bend-strain", "wire_diameter+inner_radius", "strain", 0 },
  { "heat-shrink-cut-length", "bare+overlap", "length", 1 },
  { "recovered-outside-diameter", "recovered_bore+recovered_wall+object_diameter",
    "outside_diameter", 1 },
  { "holm-constriction", "spot_radius", "resistance", -1 },
  { "holm-force", "force", "resistance", -0.5 },
  { "holm-force", "hardness", "resistance", 0.5 },
  { "greenwood-constriction", "film_resistivity", "film", 1 },
  { "interface-resistance", "metallic_share", "spots_term", -0.5 },
  { "interface-resistance", "contact_area", "cluster_term", -0.5 },
  { "lap-resistance", "resistance_1+resistance_2+contact_resistance", "resistance", 1 },
  { "performance-factor", "joint_resistance", "factor", 1 },
  { "drop-to-heat", "current", "heat", 2 },
  { "parallel-share", "current", "heat_1", 2 },
  { "faraday-penetration", "density", "rate", 1 },
  { "faraday-penetration", "metal_density", "rate", -1 },
  { "oxygen-limit", "layer", "density", -1 },
  { "wagner-length", "film", "length", 0.5 },
  { "area-ratio", "cathode_area+anode_area", "factor", 0 },
  { "galvanic-penetration", "limiting_density", "rate", 1 },
  { "differential-expansion", "length", "mismatch", 1 },
  { "resistance-at-temperature", "resistance_20", "resistance", 1 },
  { "conductor-resistance", "section", "resistance", -1 },
  { "adiabatic-section", "time", "section", 0.5 },
  { "adiabatic-current", "section", "joule_integral", 2 },
  { "voltage-drop", "length", "drop", 1 },
  { "voltage-drop-nec", "current", "drop", 1 },
  { "loop-resistance", "source+length+joints", "loop", 1 },
  { "image-scale", "reference+reference_uncertainty", "uncertainty", 1 },
  { "image-scale", "reference_pixels+pixels+click", "uncertainty", 0 },
  { "box-depth", "joint_diameter+bend_radius+conductor_diameter+clearance", "depth", 1 },
};

/* 1.5 rather than 2: some permitted ranges and geometric checks leave no room to double. */
#define SCALE 1.5

static void
test_power (gconstpointer data)
{
  const Power *power = data;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) names = g_strsplit (power->input, "+", -1);
  TlCall before = *starts_find (starts, power->formula), after = before;

  for (guint i = 0; i < after.n_inputs; i++)
    {
      g_autofree char *name = tl_call_input_name (&after, i);

      if (g_strv_contains ((const char *const *) names, name) && after.given[i])
        after.in[i] = tl_range_exact (after.in[i].best * SCALE);
    }
  tl_call_run (&before, &error);
  g_assert_no_error (error);
  tl_call_run (&after, &error);
  g_assert_no_error (error);
  near (tl_call_get (&after, power->output).best,
        tl_call_get (&before, power->output).best * pow (SCALE, power->power), 1e-9);
}

/* --- galvanic --- */

/* The same pair on both scales; the aluminium is the anode on either (IEC 60950-1 Annex J from memory,
 * MIL-type index seen). A limit that is equalled is marginal even when written in volts. */
static void
test_galvanic (void)
{
  g_autofree char *rising =
      word_of ("galvanic-step",
               "potential_1=1350 mV; potential_2=700 mV; limit=600 mV; noble=rising", "anode");
  g_autofree char *falling =
      word_of ("galvanic-step",
               "potential_1=350 mV; potential_2=900 mV; limit=500 mV; noble=falling", "anode");
  g_autofree char *volts =
      word_of ("galvanic-step", "potential_1=1.10 V; potential_2=0.50 V; limit=0.6 V; noble=rising",
               "outcome");
  g_autofree char *above =
      word_of ("galvanic-step",
               "potential_1=1101 mV; potential_2=500 mV; limit=600 mV; noble=rising", "outcome");
  g_autofree char *strip =
      word_of ("galvanic-step",
               "potential_1=1050 mV; potential_2=500 mV; limit=600 mV; noble=rising", "outcome");
  g_autofree char *below =
      word_of ("galvanic-step",
               "potential_1=1049 mV; potential_2=500 mV; limit=600 mV; noble=rising", "outcome");
  g_autofree char *no_strip = word_of (
      "galvanic-step",
      "potential_1=1099 mV; potential_2=500 mV; limit=600 mV; noble=rising; marginal_strip=0 mV",
      "outcome");
  g_autofree char *none =
      word_of ("galvanic-step",
               "potential_1=700 mV; potential_2=700 mV; limit=600 mV; noble=rising", "anode");

  g_assert_cmpstr (rising, ==, "second");
  g_assert_cmpstr (falling, ==, "second");
  g_assert_cmpstr (volts, ==, "marginal");
  g_assert_cmpstr (above, ==, "above");
  g_assert_cmpstr (strip, ==, "marginal");
  g_assert_cmpstr (below, ==, "within");
  g_assert_cmpstr (no_strip, ==, "within");
  g_assert_cmpstr (none, ==, "none");
  /* A small cathode never protects the anode altogether: the factor stays at 1 or above. */
  g_assert_cmpfloat (value_of ("area-ratio",
                               "limiting_density=0.3 A/m2; cathode_area=0 mm2; anode_area=100 mm2",
                               "factor"),
                     ==, 1.0);
}

/* --- fastening and springs --- */

static void
test_fastening (void)
{
  /* Torque there and back. */
  const double torque_Nm =
      value_of ("torque-for-preload", "preload=12500 N; nut_factor=0.2; diameter=8 mm", "torque");
  near (torque_Nm, 20.0, 1e-12);
  /* Washer bore in place of the hole: 85.8 MPa, too low (ISO 7089 with 8.4 mm, closed form). */
  near (value_of ("bearing-pressure", "force=12500 N; outer_diameter=16 mm; hole_diameter=8.4 mm",
                  "pressure"),
        85.8, 1e-3);
  /* A part narrower than the cone: its own width. */
  g_assert_cmpfloat (
      value_of ("pressure-cone-area",
                "head_diameter=16 mm; depth=4 mm; part_diameter=12 mm; hole_diameter=9 mm",
                "loaded_diameter"),
      ==, 12.0);
  refused ("bearing-pressure", "force=1 N; outer_diameter=9 mm; hole_diameter=9 mm", TL_ERROR_RANGE,
           "9 mm");
  refused ("pressure-cone-area",
           "head_diameter=8 mm; depth=0 mm; part_diameter=30 mm; hole_diameter=9 mm",
           TL_ERROR_RANGE, "8 mm");
  refused ("stress-area-metric", "diameter=1 mm; pitch=1 mm", TL_ERROR_RANGE, "core");
  refused ("stress-area-inch", "diameter=0.25 in; threads_per_inch=3 1/in", TL_ERROR_RANGE, "core");
  refused ("torque-friction",
           "preload=1 N; pitch=1 mm; pitch_diameter=7 mm; thread_friction=0.1; head_friction=0.1; "
           "head_diameter=9 mm; hole_diameter=9 mm",
           TL_ERROR_RANGE, "hole");
  /* An eye under a force that no wire bears is flat, not wider than itself. */
  g_assert_cmpfloat (
      value_of ("eye-flattening",
                "force=1e6 N; hardness=250 MPa; wire_diameter=1.784 mm; eye_diameter=5.3 mm",
                "share"),
      ==, 1.0);
  g_assert_cmpfloat (
      value_of ("eye-flattening",
                "force=0 N; hardness=250 MPa; wire_diameter=1.784 mm; eye_diameter=5.3 mm",
                "share"),
      ==, 0.0);
}

static void
test_springs (void)
{
  /* DIN 6796 M8: the published test force of 14900 N is twice the flat force (dimensions partly from memory). */
  const char *m8 =
      "outside_diameter=18 mm; inside_diameter=8.4 mm; thickness=2.0 mm; cone_height=0.24 mm";
  near (14900.0 / value_of ("disc-spring-force", m8, "flat_force"), 2.0, 0.01);
  /* Pressed flat, the force is the flat force. */
  near (value_of ("disc-spring-force",
                  "outside_diameter=18 mm; inside_diameter=8.4 mm; thickness=2 mm; "
                  "cone_height=0.24 mm; deflection=0.24 mm",
                  "force"),
        value_of ("disc-spring-force", m8, "flat_force"), 1e-12);
  refused ("disc-spring-force",
           "outside_diameter=18 mm; inside_diameter=18 mm; thickness=2 mm; cone_height=0.2 mm",
           TL_ERROR_RANGE, "inside");
  refused ("disc-spring-force",
           "outside_diameter=18 mm; inside_diameter=8 mm; thickness=2 mm; cone_height=0.2 mm; "
           "deflection=0.3 mm",
           TL_ERROR_RANGE, "flat");
  refused ("frustum-stiffness",
           "modulus=70000 MPa; hole_diameter=9 mm; head_diameter=9 mm; thickness=4 mm",
           TL_ERROR_RANGE, "wider");
  refused ("thermal-preload-change",
           "thickness_1=10 mm; expansion_1=23 um/mK; modulus_1=70000 MPa; thickness_2=4 mm; "
           "area=200 mm2; bolt_grip=15 mm; "
           "bolt_expansion=11.5 um/mK; bolt_modulus=205000 MPa; bolt_area=36.6 mm2; "
           "temperature_change=60 K",
           TL_ERROR_NAME, "expansion_2");
  /* Below the pressure limit the hot cycle costs nothing. */
  g_assert_cmpfloat (
      value_of ("shakedown", "preload=5000 N; thermal_change=1000 N; limit=60 MPa; area=145.6 mm2",
                "cold"),
      ==, 5000.0);
}

/* --- pressing and sealing --- */

static void
test_pressing (void)
{
  /* Across flats is larger than across corners by 4/3. */
  near (value_of ("hexagon-area", "width=8 mm; across=flats", "area"),
        4.0 / 3.0 * value_of ("hexagon-area", "width=8 mm; across=corners", "area"), 1e-12);
  /* No depth takes nothing away; an oval as high as wide is a circle. */
  near (value_of ("indent-area", "outside_diameter=8 mm; punch_diameter=4 mm; depth=0 mm", "area"),
        G_PI * 16.0, 1e-9);
  near (value_of ("oval-area", "height=8 mm; width=8 mm", "area"), G_PI * 16.0, 1e-12);
  refused ("oval-area", "height=8 mm; width=7 mm", TL_ERROR_RANGE, "higher");
  refused ("indent-area", "outside_diameter=8 mm; punch_diameter=4 mm; depth=4 mm; indents=2",
           TL_ERROR_RANGE, "through");
  refused ("crimp-compaction",
           "conductor_area=16 mm2; barrel_outside=5 mm; barrel_bore=5.5 mm; die_width=8 mm; "
           "across=corners",
           TL_ERROR_RANGE, "wall");
  refused ("crimp-compaction", "conductor_area=16 mm2; barrel_outside=8.5 mm; barrel_bore=5.5 mm",
           TL_ERROR_NAME, "die_width");
  refused ("crimp-compaction",
           "conductor_area=16 mm2; barrel_outside=8.5 mm; barrel_bore=5.5 mm; die_width=8 mm",
           TL_ERROR_NAME, "across");
  refused ("crimp-compaction",
           "conductor_area=16 mm2; barrel_outside=8.5 mm; barrel_bore=5.5 mm; die_width=8 mm; "
           "across=flats; die_area=40 mm2",
           TL_ERROR_NAME, "once");
  refused ("crimp-grip",
           "retained=0.2; yield_strength=100 MPa; outside_diameter=4 mm; bore=4 mm; friction=0.3; "
           "length=10 mm; conductor_area=6 mm2; "
           "conductor_strength=220 MPa",
           TL_ERROR_RANGE, "wall");
  /* IEC 60999-1 Table 3 (seen): 80 N at 6 mm2; 50 N at 2.5 mm2 is a terminal, not a press. */
  g_assert_cmpfloat (
      value_of ("pull-force-requirement", "rule=clamping-unit; section=6 mm2", "force"), ==, 80.0);
  g_assert_cmpfloat (
      value_of ("pull-force-requirement", "rule=clamping-unit; section=5.26 mm2", "force"), ==,
      80.0);
  refused ("pull-force-requirement", "rule=clamping-unit; section=400 mm2", TL_ERROR_RANGE,
           "400 mm2");
  refused ("pull-force-requirement", "rule=iec-61238-1; section=50 mm2", TL_ERROR_NAME, "metal");
  refused ("pull-force-requirement", "rule=strength-share; section=50 mm2; share=0.6",
           TL_ERROR_NAME, "tensile_strength");
}

static void
test_sealing (void)
{
  /* The 80/20 habit takes a 2:1 tube over a step of 4/3 at most (common practice, no source). */
  g_assert_cmpfloat (value_of ("heat-shrink-choice",
                               "largest=4 mm; smallest=3 mm; expanded_1=4.8 mm; recovered_1=2.4 mm",
                               "choice"),
                     ==, 1.0);
  g_assert_cmpfloat (
      value_of ("heat-shrink-choice",
                "largest=4.01 mm; smallest=3 mm; expanded_1=4.8 mm; recovered_1=2.4 mm", "choice"),
      ==, 0.0);
  refused ("heat-shrink-choice", "largest=4 mm; smallest=5 mm", TL_ERROR_RANGE, "smallest");
  refused ("heat-shrink-choice", "largest=4 mm; smallest=3 mm; expanded_2=9 mm", TL_ERROR_NAME,
           "recovered_2");
  /* Onto its own bore the wall is the free wall. */
  near (value_of ("recovered-outside-diameter",
                  "recovered_bore=6 mm; recovered_wall=2.2 mm; object_diameter=6 mm", "wall"),
        2.2, 1e-12);
  near (value_of ("heat-shrink-cut-length", "bare=30 mm; overlap=15 mm; longitudinal_change=0 %",
                  "length"),
        60.0, 1e-12);
}

/* --- contact, heat, circuit --- */

static void
test_contact (void)
{
  /* rho/2a for one metal, both halves together. */
  near (value_of ("holm-constriction",
                  "resistivity_1=0.02 ohm_mm2/m; resistivity_2=0.02 ohm_mm2/m; spot_radius=0.1 mm",
                  "resistance"),
        1000.0 * 0.02 / (2.0 * 0.1), 1e-12);
  /* Kelvin inside: no voltage, no rise; 10 mV at 60 degC is far from 10 K (Kohlrausch). */
  near (value_of ("voltage-temperature", "contact_voltage=0 mV; bulk=60 degC; lorenz=2.45e-8 V2/K2",
                  "spot"),
        60.0, 1e-12);
  near (value_of ("voltage-temperature",
                  "contact_voltage=120 mV; bulk=60 degC; lorenz=2.45e-8 V2/K2", "spot"),
        235.0, 0.01);
  /* Wiedemann-Franz misses stainless steel by half again. */
  g_assert_cmpfloat (value_of ("wiedemann-franz",
                               "resistivity=0.73 ohm_mm2/m; temperature=20 degC; lorenz=2.443e-8 "
                               "V2/K2; conductivity=15 W/mK",
                               "lorenz_found"),
                     >, 1.4 * 2.443e-8);
  /* A short overlap is the contact and a third of the bodies; a long one carries on as both in parallel. */
  near (
      value_of (
          "lap-resistance",
          "resistance_1=10 mohm/m; resistance_2=7 mohm/m; overlap=1 mm; contact_resistance=50 mohm",
          "resistance"),
      50.0 + 17e-3 / 3.0, 1e-6);
  near (value_of ("lap-resistance",
                  "resistance_1=10 mohm/m; resistance_2=10 mohm/m; overlap=100000 mm; "
                  "contact_resistance=0.001 mohm",
                  "resistance"),
        500.0, 1e-2);
}

static void
test_heat (void)
{
  /* k = 115 assumes a start at 70 degC; from 90 to 160 degC it is 99.9 (IEC 60364-5-54 Annex A form, from memory). */
  near (value_of ("adiabatic-k",
                  "constant=226 A_sqrt_s/mm2; beta=234.5 degC; start=90 degC; end=160 degC", "k"),
        99.9, 1e-3);
  g_assert_cmpfloat (
      value_of ("adiabatic-k",
                "constant=226 A_sqrt_s/mm2; beta=234.5 degC; start=90 degC; end=90 degC", "k"),
      ==, 0.0);
  refused ("adiabatic-k", "constant=226 A_sqrt_s/mm2; beta=234.5 degC; start=90 degC; end=80 degC",
           TL_ERROR_RANGE, "start");
  near (value_of ("adiabatic-final-temperature",
                  "current=0 A; time=1 s; section=16 mm2; constant=226 A_sqrt_s/mm2; beta=234.5 "
                  "degC; start=70 degC",
                  "temperature"),
        70.0, 1e-12);
  refused ("adiabatic-final-temperature",
           "current=1e6 A; time=100 s; section=1 mm2; constant=148 A_sqrt_s/mm2; beta=228 degC; "
           "start=70 degC",
           TL_ERROR_RANGE, "beyond all figures");
}

static void
test_circuit (void)
{
  /* IEC 60364-5-52 Annex D at nominal 50 mm2: 50 in place of 47.5 reads 3 % high. */
  near (value_of ("ampacity-formula", "section=50 mm2; a=13.5; m=0.625", "current")
            / value_of ("ampacity-formula", "section=47.5 mm2; a=13.5; m=0.625", "current"),
        1.033, 1e-3);
  /* Three phases: phase to neutral, half of the single-phase drop. */
  const char *single =
      "phases=single; resistivity=0.0225 ohm_mm2/m; length=30 m; section=2.5 mm2; current=16 A";
  const char *three =
      "phases=three; resistivity=0.0225 ohm_mm2/m; length=30 m; section=2.5 mm2; current=16 A";
  near (value_of ("voltage-drop", single, "drop"), 2.0 * value_of ("voltage-drop", three, "drop"),
        1e-12);
  refused ("resistance-at-temperature", "resistance_20=12.1 ohm/km; temperature=70 degC",
           TL_ERROR_NAME, "coefficient");
  refused ("resistance-at-temperature",
           "resistance_20=12.1 ohm/km; temperature=70 degC; form=iec-60228", TL_ERROR_NAME,
           "metal");
  refused ("ambient-factor", "limit=70 degC; reference=30 degC; ambient=71 degC", TL_ERROR_RANGE,
           "limit");
  refused ("loop-resistance", "source=0 mohm; line=0 mohm/m; back=0 mohm/m; length=10 m",
           TL_ERROR_RANGE, "no resistance");
  /* The scatter divides by n - 1: six of which one stands out by 0.6, t = sqrt 6. */
  near (value_of ("connector-statistics",
                  "first_1=1; first_2=1; first_3=1; first_4=1; first_5=1; first_6=1.6; "
                  "student=2.449489742783178",
                  "initial_scatter"),
        sqrt (0.06) / 1.1, 1e-9);
}

/* --- boxes and pictures --- */

static void
test_boxes (void)
{
  /* 24.6 mL belongs to 14 AWG in CSA C22.1, and 1.50 in3 (24.6 cm3) to 18 AWG in NFPA 70. */
  g_assert_cmpfloat (value_of ("box-fill-cec", "conductors_14=1", "total"), ==, 24.6);
  g_assert_cmpfloat (value_of ("box-fill-nec", "edition=2023; conductors_18=1", "total"), ==, 1.5);
  g_assert_cmpfloat (value_of ("box-fill-nec", "edition=2023; conductors_14=1", "total"), ==, 2.0);
  /* Connectors count by full pairs in CSA C22.1 and not at all in NFPA 70. */
  near (value_of ("box-fill-cec", "conductors_14=4; connectors=1; charged_awg=14", "total"), 98.4,
        1e-12);
  refused ("box-fill-cec", "conductors_14=4; connectors=2", TL_ERROR_NAME, "charged_awg");
  refused ("box-fill-nec", "edition=2023; egc=2", TL_ERROR_NAME, "egc_awg");
  refused ("box-fill-nec", "edition=2023; egc=2; egc_awg=13", TL_ERROR_NAME, "egc_awg");
  refused ("box-fill-nec", "edition=2023; clamps=1", TL_ERROR_RANGE, "conductor");
  g_assert_cmpfloat (value_of ("box-fill-nec", "edition=2023", "total"), ==, 0.0);
}

static void
test_pictures (void)
{
  /* Upright corner of the stored corner for each code, on 4000 x 3000 (Exif tag 0x0112; 5 to 8 swap the sides). */
  static const double upright[8][2] = { { 0, 0 }, { 3999, 0 }, { 3999, 2999 }, { 0, 2999 },
                                        { 0, 0 }, { 2999, 0 }, { 2999, 3999 }, { 0, 3999 } };

  for (guint code = 1; code <= 8; code++)
    {
      g_autofree char *inputs =
          g_strdup_printf ("code=%u; width=4000 px; height=3000 px; x=0 px; y=0 px", code);

      g_assert_cmpfloat (value_of ("image-orientation", inputs, "upright_x"), ==,
                         upright[code - 1][0]);
      g_assert_cmpfloat (value_of ("image-orientation", inputs, "upright_y"), ==,
                         upright[code - 1][1]);
    }
  refused ("image-orientation", "code=1; width=10 px; height=10 px; x=10 px; y=0 px",
           TL_ERROR_RANGE, "outside");
  refused ("image-plane-error", "distance=10 mm; depth=10 mm", TL_ERROR_RANGE, "behind");
  const char      *world = "world_x_1=0 mm; world_y_1=0 mm; world_x_2=80 mm; world_y_2=0 mm; "
                           "world_x_3=80 mm; world_y_3=50 mm; "
                           "world_x_4=0 mm; world_y_4=50 mm; x=1 px; y=1 px";
  g_autofree char *line = g_strconcat (
      "x_1=0 px; y_1=0 px; x_2=100 px; y_2=0 px; x_3=200 px; y_3=0 px; x_4=0 px; y_4=50 px; ",
      world, NULL);
  g_autofree char *point = g_strconcat (
      "x_1=5 px; y_1=5 px; x_2=5 px; y_2=5 px; x_3=5 px; y_3=5 px; x_4=5 px; y_4=5 px; ", world,
      NULL);
  refused ("homography-point", line, TL_ERROR_RANGE, "line");
  refused ("homography-point", point, TL_ERROR_RANGE, "line");
  /* A picture taken straight on: plain scale, here 2 px a mm. */
  g_autofree char *straight = g_strconcat (
      "x_1=0 px; y_1=0 px; x_2=160 px; y_2=0 px; x_3=160 px; y_3=100 px; x_4=0 px; y_4=100 px; ",
      world, NULL);
  near (value_of ("homography-point", straight, "world_x"), 0.5, 1e-9);
}

static void
test_units (void)
{
  near (value_of ("unit-conversion", "value=1 in; to=mm", "result"), 25.4, 1e-15);
  near (value_of ("unit-conversion", "value=1 lbf; to=N", "result"), 4.4482216152605, 1e-15);
  near (value_of ("unit-conversion", "value=2 mpy; to=mm/y", "result"), 0.0508, 1e-12);
  refused ("unit-conversion", "value=1 in; to=N", TL_ERROR_UNIT, "unit-conversion");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  starts = starts_read ();
  for (gsize i = 0; i < G_N_ELEMENTS (powers); i++)
    {
      g_autofree char *path = g_strdup_printf ("/pitfalls/dimension/%s/%s/%s", powers[i].formula,
                                               powers[i].input, powers[i].output);
      g_test_add_data_func (path, &powers[i], test_power);
    }
  g_test_add_func ("/pitfalls/galvanic", test_galvanic);
  g_test_add_func ("/pitfalls/fastening", test_fastening);
  g_test_add_func ("/pitfalls/springs", test_springs);
  g_test_add_func ("/pitfalls/pressing", test_pressing);
  g_test_add_func ("/pitfalls/sealing", test_sealing);
  g_test_add_func ("/pitfalls/contact", test_contact);
  g_test_add_func ("/pitfalls/heat", test_heat);
  g_test_add_func ("/pitfalls/circuit", test_circuit);
  g_test_add_func ("/pitfalls/boxes", test_boxes);
  g_test_add_func ("/pitfalls/pictures", test_pictures);
  g_test_add_func ("/pitfalls/units", test_units);
  const int result = g_test_run ();
  g_ptr_array_unref (starts);
  return result;
}
