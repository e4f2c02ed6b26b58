/* test-ageing.c: the forecast: what it draws, what clamps, what the years do, and what it refuses.
 *
 * Outside the project: the first points of the Sobol sequence as the manual of the GNU Scientific Library prints them;
 * the shakedown of an M8 stack with and without a disc spring, an elastic and perfectly plastic body worked by hand
 * (see tests/reference/README.md). The rest are limits and trends that follow from the laws: no creep, no loss; warmer,
 * more growth; closed, less. That a disc spring keeps the force: common practice, and the worked figures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan-test.h"
#include "plan/ageing-private.h"

#include "joint/edit.h"

#include <math.h>
#include <string.h>

#define PRESSED "socket-circuit-weaving-floor"
#define BOLTED "bolted-as-it-should-be"
#define NO_SPRING "no-spring-washer"

/* --- helpers --- */

static TlAgeing *
forecast (TlJoint *joint, double span_years, guint n_samples)
{
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
  g_autoptr (GError) error = NULL;
  TlAgeingOptions options = { span_years, n_samples };
  TlAgeing       *ageing = tl_ageing_new (assembly, &options, NULL, &error);

  g_assert_no_error (error);
  tl_joint_unref (joint);
  return ageing;
}

static TlJoint *
with_number (TlJoint *joint, const char *owner, TlField field, double value)
{
  g_autoptr (GError) error = NULL;
  TlFact   fact = { .field = field, .value = tl_range_exact (value), .known_by = TL_KNOWN_STATED };
  TlJoint *edited = tl_edit_set_fact (joint, owner, &fact, &error);

  g_assert_no_error (error);
  tl_joint_unref (joint);
  return edited;
}

static TlJoint *
with_word (TlJoint *joint, const char *owner, TlField field, const char *word)
{
  g_autoptr (GError) error = NULL;
  TlFact   fact = { .field = field, .word = (char *) word, .known_by = TL_KNOWN_STATED };
  TlJoint *edited = tl_edit_set_fact (joint, owner, &fact, &error);

  g_assert_no_error (error);
  tl_joint_unref (joint);
  return edited;
}

static TlRange
at_end (const TlAgeing *ageing, TlAgeingOutput output)
{
  g_assert_true (ageing->is_computed);
  return ageing->bands[output][ageing->n_years - 1].value;
}

static void
assert_near (double value, double wanted, double tolerance)
{
  if (!(fabs (value - wanted) <= tolerance))
    g_error ("%.9g is not %.9g within %g", value, wanted, tolerance);
}

/* --- drawing --- */

/* GNU Scientific Library, reference manual, example of quasi-random sequences: two-dimensional Sobol (from memory). */
static void
test_points (void)
{
  static const double first[][2] = {
    { 0.5, 0.5 }, { 0.75, 0.25 }, { 0.25, 0.75 }, { 0.375, 0.375 }, { 0.875, 0.875 },
  };
  g_autofree double *points = tl_ageing_points (1024);

  for (guint i = 0; i < G_N_ELEMENTS (first); i++)
    for (guint k = 0; k < 2; k++)
      g_assert_cmpfloat (points[i * TL_N_AGEING_INPUTS + k], ==, first[i][k]);
  /* Evenly spread: each of 16 slices of each input holds its share to a few points. */
  for (guint k = 0; k < TL_N_AGEING_INPUTS; k++)
    {
      guint count[16] = { 0 };

      for (guint i = 0; i < 1024; i++)
        count[(guint) (16.0 * points[i * TL_N_AGEING_INPUTS + k])]++;
      for (guint slice = 0; slice < 16; slice++)
        g_assert_cmpuint (count[slice] > 64 ? count[slice] - 64 : 64 - count[slice], <=, 2);
    }
}

static void
test_draw (void)
{
  TlAgeingInputs inputs = { 0 };

  inputs.range[TL_AGEING_BY_AIR] = (TlRange){ 10.0, 20.0, 40.0 };
  inputs.range[TL_AGEING_BY_GROWTH] = (TlRange){ 10.0, 100.0, 1e5 };
  inputs.is_ratio[TL_AGEING_BY_GROWTH] = TRUE;
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_AIR, 0.0), 10.0, 1e-12);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_AIR, 0.25), 15.0, 1e-12);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_AIR, 0.5), 20.0, 1e-12);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_AIR, 1.0), 40.0, 1e-12);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_GROWTH, 0.25), sqrt (10.0 * 100.0),
               1e-9);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_GROWTH, 0.5), 100.0, 1e-9);
  assert_near (tl_ageing_inputs_draw (&inputs, TL_AGEING_BY_GROWTH, 0.75), sqrt (100.0 * 1e5),
               1e-6);
}

/* --- clamp --- */

/* M8, washer 16/8.4, 4 mm aluminium: 3.8 um mismatch for 60 K, 145.6 mm2 at 60 MPa, strength that does not fade. */
static TlAgeingClamp
worked_stack (double stiffness_N_per_mm)
{
  TlAgeingClamp clamp = { .has_force = TRUE, .creeps = TRUE };

  clamp.mismatch_mm_per_K = 3.8e-3 / 60.0;
  clamp.bearing_mm2 = clamp.aluminium_mm2 = 145.6;
  clamp.bearing_MPa = 60.0;
  clamp.softening_K = 1e9;
  clamp.aluminium_mm = 4.0;
  for (guint i = 0; i < TL_CLAMP_NODES; i++)
    {
      clamp.force_N[i] = 20000.0 * i / (TL_CLAMP_NODES - 1);
      clamp.stretch_mm[i] = clamp.force_N[i] / stiffness_N_per_mm;
    }
  return clamp;
}

/* Rows E06, E10, E11 of mechanics_cases.csv and the same with the spring: 7373 N stiff, 8666 N with it, rounded. */
static void
test_shakedown (void)
{
  TlAgeingClamp stiff = worked_stack (3.6e5), sprung = worked_stack (18935.6);

  assert_near (tl_ageing_clamp_first_cycle (&stiff, 9375.0, 0.0, 80.0), 7370.0, 0.005 * 7370.0);
  assert_near (tl_ageing_clamp_first_cycle (&sprung, 9375.0, 0.0, 80.0), 8664.0, 0.005 * 8664.0);
  /* A set of 8 um: stiffness times set, textbook. */
  assert_near (9375.0 - tl_ageing_clamp_relax (&stiff, 9375.0, 0.008), 2880.0, 0.005 * 2880.0);
  assert_near (9375.0 - tl_ageing_clamp_relax (&sprung, 9375.0, 0.008), 151.5, 0.005 * 151.5);
  /* A cycle that stays elastic costs nothing, and force never turns negative. */
  assert_near (tl_ageing_clamp_first_cycle (&stiff, 3000.0, 0.0, 80.0), 3000.0, 1e-6);
  g_assert_cmpfloat (tl_ageing_clamp_relax (&stiff, 9375.0, 1.0), ==, 0.0);
  g_assert_cmpfloat (tl_ageing_clamp_first_cycle (&stiff, 500.0, 1000.0, 80.0), >=, 0.0);
}

/* Creep under a constant pressure would take the floor of row T42 (5625 N after 6912 h at 70 degC); since the pressure
 * fades, more is left, and less than at the start. */
static void
test_creep (void)
{
  TlAgeingClamp stiff = worked_stack (3.6e5), sprung = worked_stack (18935.6);
  double        strain_per_MPa = (7373.0 - 5625.0) / 3.6e5 / 4.0 / (7373.0 / 145.6), left;

  left = tl_ageing_clamp_creep (&stiff, 7373.0, strain_per_MPa);
  /* Straight spring: F = F1 / (1 + loss / F1). */
  assert_near (left, 7373.0 / (1.0 + (7373.0 - 5625.0) / 7373.0), 0.01);
  g_assert_cmpfloat (tl_ageing_clamp_creep (&sprung, 7373.0, strain_per_MPa), >, left);
  assert_near (tl_ageing_clamp_creep (&stiff, 7373.0, 0.0), 7373.0, 1e-6);
  g_assert_cmpfloat (tl_ageing_clamp_creep (&stiff, 7373.0, 1.0), >=, 0.0);
  stiff.creeps = FALSE;
  g_assert_cmpfloat (tl_ageing_clamp_creep (&stiff, 7373.0, strain_per_MPa), ==, 7373.0);
}

/* The stack of the example as springs: softer with its conical washer than without. */
static void
test_springs (void)
{
  const char *const names[] = { BOLTED, NO_SPRING };
  double            rest[2], whole[2];

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlJoint) joint = pt_example (names[i]);
      g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
      const char *reason = NULL, *owner = NULL;
      TlField     field;
      g_autoptr (TlHeatModel) model = tl_heat_model_new (assembly, &reason, &owner, &field);
      TlAgeingClamp clamp;

      g_assert_nonnull (model);
      g_assert_true (tl_ageing_clamp_read (&clamp, assembly, model, &reason));
      g_assert_true (clamp.has_force && clamp.creeps);
      g_assert_cmpuint (clamp.n_eyes, ==, 1);
      for (guint k = 1; k < TL_CLAMP_NODES; k++)
        g_assert_cmpfloat (clamp.stretch_mm[k], >, clamp.stretch_mm[k - 1]);
      rest[i] = clamp.rest_N_per_mm;
      whole[i] = clamp.stiffness_N_per_mm;
    }
  g_assert_cmpfloat (whole[0], <, 0.3 * rest[0]);
  assert_near (whole[1], rest[1], 1e-6 * rest[1]);
}

/* --- the surface --- */

/* Between its nodes the surface gives what the network itself gives. */
static void
test_surface (void)
{
  const char *const names[] = { PRESSED, BOLTED, NO_SPRING };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlJoint) joint = with_number (pt_example (names[i]), "duty", TL_FIELD_LOAD, 16.0);
      g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
      const char *reason = NULL, *owner = NULL;
      TlField     field;
      g_autoptr (TlHeatModel) model = tl_heat_model_new (assembly, &reason, &owner, &field);
      TlAgeingInputs  inputs;
      TlAgeingSurface surface;

      g_assert_true (tl_ageing_inputs_read (&inputs, assembly, model, &reason));
      g_assert_true (tl_ageing_surface_read (&surface, model, &inputs, NULL, &reason, NULL));
      for (double ratio = 0.5; ratio < 30.0; ratio *= 1.7)
        {
          g_autofree double *ratios = g_new (double, tl_heat_model_interfaces (model)->len);
          g_auto (TlNetResult) result = { 0 };
          TlHeatChange change;
          double       hot_C;

          for (guint k = 0; k < tl_heat_model_interfaces (model)->len; k++)
            ratios[k] = ratio;
          tl_heat_change_init (&change);
          change.resistance_ratio = ratios;
          change.ambient_C = 33.0;
          change.film_ratio = 0.9;
          g_assert_true (tl_heat_model_solve (model, &change, NULL, &result, NULL));
          if (result.status != TL_NET_OK || result.value[TL_NET_HOT_C] > inputs.hottest_C)
            continue;
          g_assert_true (tl_ageing_surface_hot (&surface, ratio, 0.9, 33.0, 16.0, &hot_C));
          /* The effects are taken apart: their product is good to a few per cent of the rise. */
          assert_near (hot_C, result.value[TL_NET_HOT_C],
                       0.2 + 0.03 * (result.value[TL_NET_HOT_C] - 33.0));
        }
    }
}

/* --- the forecast --- */

static void
test_order_and_trends (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();
  guint computed = 0;

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlAgeing) ageing = forecast (pt_example (names->pdata[i]), 40.0, 256);

      g_test_message ("%s", (const char *) names->pdata[i]);
      if (!ageing->is_computed)
        {
          g_assert_nonnull (ageing->reason);
          continue;
        }
      computed++;
      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        for (guint year = 0; year < ageing->n_years; year++)
          {
            TlRange now = ageing->bands[k][year].value,
                    before = ageing->bands[k][year ? year - 1 : 0].value;
            double sign = k == TL_AGEING_FORCE ? -1.0 : 1.0;

            g_assert_true (tl_range_is_valid (now));
            g_assert_cmpfloat (sign * (now.low - before.low), >=, -1e-9);
            g_assert_cmpfloat (sign * (now.best - before.best), >=, -1e-9);
            g_assert_cmpfloat (sign * (now.high - before.high), >=, -1e-9);
          }
      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        {
          double sum = 0.0;

          for (guint d = 0; d < ageing->n_drivers; d++)
            sum += ageing->drivers[d].share[k];
          g_assert_true (sum <= 1.0 + 1e-9 && (sum > 0.9 || !ageing->has[k]));
        }
      g_assert_cmpfloat (ageing->years[0], ==, 0.0);
      g_assert_cmpfloat (ageing->years[ageing->n_years - 1], ==, 40.0);
      g_assert_cmpfloat (ageing->bands[TL_AGEING_GROWTH][0].value.high, ==, 1.0);
    }
  g_assert_cmpuint (computed, >=, 12);
}

static gpointer
forecast_in_thread (gpointer data)
{
  return tl_ageing_new (data, NULL, NULL, NULL);
}

/* Same joint, same bytes, also from several threads on one assembly. */
static void
test_same_bytes (void)
{
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
  g_autoptr (TlAgeing) first = tl_ageing_new (assembly, NULL, NULL, NULL);
  GThread *threads[3];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("forecast", forecast_in_thread, assembly);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_autoptr (TlAgeing) other = g_thread_join (threads[i]);

      g_assert_cmpmem (other->bands, sizeof other->bands, first->bands, sizeof first->bands);
      g_assert_cmpuint (other->n_drivers, ==, first->n_drivers);
      for (guint d = 0; d < first->n_drivers; d++)
        for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
          g_assert_cmpfloat (other->drivers[d].share[k], ==, first->drivers[d].share[k]);
    }
}

/* Twice the samples move a middle by less than 2 % and an edge by less than 5 %. */
static void
test_enough_samples (void)
{
  const char *const names[] = { PRESSED, BOLTED, NO_SPRING };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (TlAgeing) once = forecast (pt_example (names[i]), 20.0, 1000);
      g_autoptr (TlAgeing) twice = forecast (pt_example (names[i]), 20.0, 2000);

      for (guint k = 0; k < TL_N_AGEING_OUTPUTS; k++)
        {
          TlRange a = at_end (once, k), b = at_end (twice, k);

          assert_near (a.best, b.best, 0.02 * b.best);
          assert_near (a.low, b.low, 0.05 * b.low);
          assert_near (a.high, b.high, 0.05 * b.high);
        }
    }
}

static void
test_limits (void)
{
  g_autoptr (TlAgeing) cool =
      forecast (with_number (pt_example (BOLTED), "duty", TL_FIELD_AMBIENT, 20.0), 20.0, 256);
  g_autoptr (TlAgeing) warm =
      forecast (with_number (pt_example (BOLTED), "duty", TL_FIELD_AMBIENT, 45.0), 20.0, 256);
  g_autoptr (TlAgeing) none =
      forecast (with_number (pt_example (BOLTED), "duty", TL_FIELD_LOAD, 0.0), 20.0, 256);
  g_autoptr (TlAgeing) open = forecast (pt_example ("sleeve-without-adhesive"), 20.0, 256);
  g_autoptr (TlAgeing) closed = forecast (pt_example (PRESSED), 20.0, 256);
  g_autoptr (TlAgeing) sprung = forecast (pt_example (BOLTED), 20.0, 256);
  g_autoptr (TlAgeing) stiff = forecast (pt_example (NO_SPRING), 20.0, 256);

  /* Warmer, more growth and less force. */
  g_assert_cmpfloat (at_end (warm, TL_AGEING_GROWTH).best, >, at_end (cool, TL_AGEING_GROWTH).best);
  g_assert_cmpfloat (at_end (warm, TL_AGEING_FORCE).best, <, at_end (cool, TL_AGEING_FORCE).best);
  /* Without a current the hottest metal is the air. */
  assert_near (at_end (none, TL_AGEING_HOT).best, none->ambient_C, 0.05);
  /* Sealed, less growth in the same damp air. */
  g_assert_cmpfloat (at_end (closed, TL_AGEING_GROWTH).best, <,
                     at_end (open, TL_AGEING_GROWTH).best);
  g_assert_cmpfloat (at_end (closed, TL_AGEING_GROWTH).high, <,
                     at_end (open, TL_AGEING_GROWTH).high);
  /* What the conical washer buys. */
  g_assert_cmpfloat (at_end (sprung, TL_AGEING_FORCE).best, >,
                     1.3 * at_end (stiff, TL_AGEING_FORCE).best);
  g_assert_cmpint (sprung->look, ==, TL_AGEING_WITHIN_YEAR);
  g_assert_cmpint (sprung->why, ==, TL_AGEING_WHY_PRACTICE);
  g_assert_cmpint (stiff->look, <=, TL_AGEING_FIRST_CYCLES);
  g_assert_cmpint (stiff->why, ==, TL_AGEING_WHY_FORCE);
  /* A sleeve has no clamping force that could be told. */
  g_assert_false (closed->has[TL_AGEING_FORCE]);
  g_assert_false (closed->has_screw_on_aluminium);
}

/* Copper alone does not creep, so that after the first cycles the force stays. */
static void
test_no_creep (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (TlJoint) copper =
      tl_edit_replace_part (joint, pt_stock (), "leg-1", "cond-cu-class1-2.5-pvc", &error);

  g_assert_no_error (error);

  g_autoptr (TlAgeing) ageing = forecast (tl_joint_ref (copper), 20.0, 64);
  const TlAgeingBand *force = ageing->bands[TL_AGEING_FORCE];

  g_assert_true (ageing->is_computed);
  g_assert_false (ageing->has_screw_on_aluminium);
  assert_near (force[ageing->n_years - 1].value.best, force[1].value.best, 1e-9);
  g_assert_cmpfloat (force[1].value.best, <, force[0].value.best); /* the faces settled */
}

/* A spring follows the wire, a screw does not, and solder needs no force; where the examples have such joints. */
static void
test_other_families (void)
{
  g_autoptr (GPtrArray) names = pt_example_names ();

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (TlJoint) joint = pt_example (names->pdata[i]);
      g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
      const char *reason = NULL, *owner = NULL, *form = assembly->terminal.form;
      TlField     field;
      g_autoptr (TlHeatModel) model = tl_heat_model_new (assembly, &reason, &owner, &field);
      TlAgeingClamp clamp;
      double        left;

      if (model == NULL || assembly->family == TL_FAMILY_STACK)
        continue;
      g_assert_true (tl_ageing_clamp_read (&clamp, assembly, model, &reason));
      g_assert_false (clamp.has_force);
      left = tl_ageing_clamp_creep (&clamp, 1.0, 1e-5);
      g_assert_true (left > 0.0 && left <= 1.0);
      if (assembly->family == TL_FAMILY_SPLICE
          || (form != NULL && g_str_has_suffix (form, "-spring")))
        g_assert_cmpfloat (left, ==, 1.0);
    }
}

/* A joint that was measured: its contacts are no longer uncertain. */
static void
test_measured (void)
{
  g_autoptr (TlAgeing) ageing = forecast (
      with_number (pt_example (BOLTED), "duty", TL_FIELD_JOINT_RESISTANCE, 300.0), 20.0, 64);

  assert_near (ageing->bands[TL_AGEING_RESISTANCE][0].value.best, 300.0, 3.0);
  assert_near (ageing->bands[TL_AGEING_RESISTANCE][0].value.high, 300.0, 3.0);
  for (guint i = 0; i < ageing->n_drivers; i++)
    g_assert_cmpint (ageing->drivers[i].input, !=, TL_AGEING_BY_CONTACT);
}

/* --- refusals --- */

static void
assert_refused (const TlAssembly *assembly, double span_years, guint n_samples)
{
  TlAgeingOptions options = { span_years, n_samples };
  g_autoptr (GError) error = NULL;

  g_assert_null (tl_ageing_new (assembly, &options, NULL, &error));
  g_assert_error (error, TL_ERROR, TL_ERROR_RANGE);
}

static void
test_hostile (void)
{
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  assert_refused (assembly, 20.0, 0);
  assert_refused (assembly, 20.0, 15);
  assert_refused (assembly, 20.0, G_MAXUINT);
  assert_refused (assembly, 1e9, 1000);
  assert_refused (assembly, 0.0, 1000);
  assert_refused (assembly, -1.0, 1000);
  assert_refused (assembly, NAN, 1000);
  g_cancellable_cancel (cancellable);
  g_assert_null (tl_ageing_new (assembly, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
assert_not_computed (TlJoint *joint)
{
  g_autoptr (TlJoint) kept = tl_joint_ref (joint);
  g_autoptr (TlAssembly) assembly = tl_assembly_new (kept, pt_stock ());
  g_autoptr (TlAgeing) ageing = forecast (joint, 20.0, 64);
  g_autofree char *reason = tl_ageing_reason_text (ageing, assembly, tl_language_plain ());
  g_autofree char *text = tl_ageing_to_text (ageing, assembly, tl_language_plain ());

  g_assert_false (ageing->is_computed);
  g_assert_cmpuint (strlen (reason), >, 10);
  g_assert_null (strchr (reason, '{'));
  g_assert_nonnull (strstr (text, reason));
}

static void
test_not_computed (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  TlJoint *without = tl_edit_unset_fact (joint, "layer-1", TL_FIELD_TORQUE, &error);

  g_assert_no_error (error);
  assert_not_computed (without);
  assert_not_computed (tl_joint_new ());
  assert_not_computed (pt_unfinished ());
  /* Far beyond what the wire carries there is no steady temperature to begin with. */
  assert_not_computed (with_number (pt_example (BOLTED), "duty", TL_FIELD_LOAD, 500.0));
}

/* A band that runs away is open, its figures stay finite and the text says so. */
static void
test_open_band (void)
{
  TlJoint *joint = with_word (pt_example (NO_SPRING), "site", TL_FIELD_SURROUNDINGS, "condensing");

  joint = with_word (joint, "leg-1", TL_FIELD_SURFACE, "as-found");
  joint = with_number (joint, "duty", TL_FIELD_LOAD, 20.0);

  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
  g_autoptr (TlAgeing) ageing = forecast (joint, 40.0, 256);
  g_autofree char    *text = tl_ageing_to_text (ageing, assembly, tl_language_plain ());
  const TlAgeingBand *last = &ageing->bands[TL_AGEING_HOT][ageing->n_years - 1];

  g_assert_true (ageing->is_computed);
  g_assert_true (last->is_open[2]);
  g_assert_true (ageing->bands[TL_AGEING_GROWTH][ageing->n_years - 1].is_open[2]);
  assert_near (last->value.high, ageing->hottest_C, 1e-9);
  g_assert_nonnull (strstr (text, "to above"));
  g_assert_cmpint (ageing->look, <=, TL_AGEING_WITHIN_YEAR);
}

/* Every class and reason has a sentence without an open place; "indicative" is always said. */
static void
test_words (void)
{
  g_autoptr (TlJoint) joint = pt_example (BOLTED);
  g_autoptr (TlAssembly) assembly = tl_assembly_new (joint, pt_stock ());
  g_autoptr (TlAgeing) ageing = forecast (tl_joint_ref (joint), 20.0, 64);
  g_autofree char *text = tl_ageing_to_text (ageing, assembly, tl_language_plain ());

  g_assert_nonnull (strstr (text, "Indicative"));
  g_assert_nonnull (strstr (text, "no source"));
  for (gint look = TL_AGEING_CHANGE_DESIGN; look <= TL_AGEING_ORDINARY; look++)
    for (gint why = TL_AGEING_WHY_FORCE; why <= TL_AGEING_WHY_NOTHING; why++)
      {
        g_autofree char *sentence = NULL;

        ageing->look = (TlAgeingLook) look;
        ageing->why = (TlAgeingWhy) why;
        sentence = tl_ageing_look_text (ageing, tl_language_plain ());
        g_assert_cmpuint (strlen (sentence), >, 20);
        g_assert_null (strchr (sentence, '{'));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ageing/points", test_points);
  g_test_add_func ("/ageing/draw", test_draw);
  g_test_add_func ("/ageing/shakedown", test_shakedown);
  g_test_add_func ("/ageing/creep", test_creep);
  g_test_add_func ("/ageing/springs", test_springs);
  g_test_add_func ("/ageing/surface", test_surface);
  g_test_add_func ("/ageing/order-and-trends", test_order_and_trends);
  g_test_add_func ("/ageing/same-bytes", test_same_bytes);
  g_test_add_func ("/ageing/enough-samples", test_enough_samples);
  g_test_add_func ("/ageing/limits", test_limits);
  g_test_add_func ("/ageing/no-creep", test_no_creep);
  g_test_add_func ("/ageing/other-families", test_other_families);
  g_test_add_func ("/ageing/measured", test_measured);
  g_test_add_func ("/ageing/hostile", test_hostile);
  g_test_add_func ("/ageing/not-computed", test_not_computed);
  g_test_add_func ("/ageing/open-band", test_open_band);
  g_test_add_func ("/ageing/words", test_words);
  return g_test_run ();
}
