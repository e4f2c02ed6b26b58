/* The network against closed forms, limits, mirror images and its own conservation laws.
 *
 * Outside witnesses are the closed forms of fins, long conductors and adiabatic heating in the
 * registry, each checked there against its own rows. Tolerances: 0.05 K is the project's demand on the
 * model; the closed forms have a joint without length, the network one of 0.1 mm.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <gsl/gsl_linalg.h>

#include "physics/banded.h"
#include "physics/formula.h"
#include "nets.h"

static void
solve (const Net *net, TlNetResult *result)
{
  g_autoptr (GError) error = NULL;

  tl_network_solve (&net->net, NULL, result, &error);
  g_assert_no_error (error);
}

static void
near (double found, double wanted, double within)
{
  if (!(fabs (found - wanted) <= within))
    g_test_message ("%.9g, wanted %.9g within %g", found, wanted, within);
  g_assert_cmpfloat (fabs (found - wanted), <=, within);
}

/* One output of a formula; inputs by name in its own units, ended by NULL. */
static double
closed_form (const char *id, const char *output, ...)
{
  g_autoptr (GError) error = NULL;
  TlCall      call;
  va_list     inputs;
  const char *name;

  tl_call_init (&call, id);
  va_start (inputs, output);
  while ((name = va_arg (inputs, const char *)) != NULL)
    tl_call_set_exact (&call, name, va_arg (inputs, double));
  va_end (inputs);
  tl_call_run (&call, &error);
  g_assert_no_error (error);
  return tl_call_get (&call, output).best;
}

/* --- the band matrix --- */

/* The second difference of n points with held ends has the inverse min(i,j)(n+1-max)/(n+1). */
static void
test_banded (void)
{
  enum
  {
    N = 40
  };
  double a[2 * N] = { 0 }, b[N] = { 0 };
  guint  row[N + 1], not_positive;

  for (guint i = 0; i < N; i++)
    {
      row[i] = 2 * i;
      a[2 * i] = 2.0;
      if (i + 1 < N)
        a[2 * i + 1] = -1.0;
    }
  row[N] = 2 * N - 1;
  b[9] = 1.0;
  g_assert_true (tl_banded_factor (a, N, row, &not_positive));
  g_assert_cmpuint (not_positive, ==, 0);
  tl_banded_solve (a, N, row, b);
  for (guint i = 1; i <= N; i++)
    near (b[i - 1], (double) MIN (i, 10) * (N + 1 - MAX (i, 10)) / (N + 1), 1e-12);
}

static void
test_banded_pivots (void)
{
  double      indefinite[] = { 1.0, 2.0, 1.0 }, singular[] = { 0.0, 1.0, 1.0 };
  double      rounded[] = { 1.0, 1.0, 1.0 };
  const guint row[] = { 0, 2, 3 };
  guint       not_positive;

  g_assert_true (tl_banded_factor (indefinite, 2, row, &not_positive));
  g_assert_cmpuint (not_positive, ==, 1);
  g_assert_false (tl_banded_factor (singular, 2, row, &not_positive));
  /* [1 1; 1 1] has a pivot of nothing but rounding. */
  g_assert_true (tl_banded_factor (rounded, 2, row, &not_positive));
  g_assert_cmpuint (not_positive, ==, 1);
}

/* Random rows of random reach, diagonally dominant, against a dense solve of the reference library. */
static void
test_banded_random (void)
{
  enum
  {
    N = 30
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32) g_test_rand_int ());

  for (guint round = 0; round < 200; round++)
    {
      double      a[N * N], b[N];
      guint       row[N + 1] = { 0 }, reach = 0, not_positive;
      gsl_matrix *dense = gsl_matrix_calloc (N, N);
      gsl_vector *wanted = gsl_vector_alloc (N);

      for (guint i = 0; i < N; i++)
        {
          const guint least = reach > 0 ? reach - 1 : 0;

          reach = (guint) g_rand_int_range (rand, (gint) least, (gint) least + 4);
          reach = MIN (reach, N - 1 - i);
          row[i + 1] = row[i] + reach + 1;
          b[i] = g_rand_double_range (rand, -1.0, 1.0);
          gsl_vector_set (wanted, i, b[i]);
          a[row[i]] = N + g_rand_double (rand);
          for (guint k = 1; k <= reach; k++)
            a[row[i] + k] = g_rand_double_range (rand, -1.0, 1.0);
          for (guint k = 0; k <= reach; k++)
            {
              gsl_matrix_set (dense, i, i + k, a[row[i] + k]);
              gsl_matrix_set (dense, i + k, i, a[row[i] + k]);
            }
        }
      g_assert_true (tl_banded_factor (a, N, row, &not_positive));
      g_assert_cmpuint (not_positive, ==, 0);
      tl_banded_solve (a, N, row, b);
      gsl_linalg_HH_svx (dense, wanted);
      for (guint i = 0; i < N; i++)
        near (b[i], gsl_vector_get (wanted, i), 1e-12);
      gsl_matrix_free (dense);
      gsl_vector_free (wanted);
    }
}

/* --- limits --- */

static void
test_no_current (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_lap (&net, 0.0);
  net.net.ambient_C = 31.0;
  solve (&net, &r);
  g_assert_cmpint (r.status, ==, TL_NET_OK);
  near (r.value[TL_NET_HOT_C], 31.0, 1e-4);
  near (r.value[TL_NET_MAX_C], 31.0, 1e-4);
  near (r.value[TL_NET_JOINT_V], 0.0, 1e-15);
  near (r.heat_W, 0.0, 1e-15);
}

/* Other heat in a box without current: the air stands P/G over the room, and all metal in it. */
static void
test_box_heat (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_lap (&net, 0.0);
  net.net.box_x0_m = -2.0;
  net.net.box_x1_m = 2.0;
  net.net.box_W_per_K = 0.5;
  net.net.box_extra_W = 5.0;
  solve (&net, &r);
  near (r.value[TL_NET_BOX_C], 35.0, 1e-3);
  near (r.value[TL_NET_HOT_C], 35.0, 1e-3);
}

/* Without contact resistance and with equal conductors the joint is a piece of long conductor. */
static void
test_no_contact_resistance (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_butt (&net, 1.5, FALSE, FALSE, 16e-6, 5.1e-3, 1e-9, 12.0);
  net.net.current_A = 80.0;
  solve (&net, &r);
  const double wanted_C =
      closed_form ("long-conductor-temperature", "temperature", "current", 80.0, "resistance_20",
                   1.7241e-8 / 16e-6 * 1e3, "coefficient", 0.00393, "diameter", 5.1, "film", 12.0,
                   "ambient", 25.0, NULL);
  near (r.value[TL_NET_MAX_C], wanted_C, 0.01);
  near (r.value[TL_NET_HOT_C], wanted_C, 0.05);
}

/* Behind a perfect layer the zone gives nothing off itself: all its heat leaves through the conductors. */
static void
test_perfect_insulation (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_lap (&net, 15.0);
  for (guint i = 0; i < net.net.n_zones; i++)
    if (i == 2)
      net.zones[i].layer_mK_per_W = 1e4;
    else
      {
        net.zones[i].x0_m = i == 0 ? -1.0 : 0.02;
        net.zones[i].x1_m = i == 0 ? -0.02 : 1.0;
      }
  solve (&net, &r);
  near (r.value[TL_NET_SURFACE_W], 0.0, 1e-4);
  near (r.value[TL_NET_LEAD_A_W] + r.value[TL_NET_LEAD_B_W],
        r.value[TL_NET_INTERFACES_W] + r.value[TL_NET_BODIES_W], 2e-4);
}

/* --- closed forms --- */

static void
test_fin_endless (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_butt (&net, 1.6, FALSE, FALSE, 16e-6, 5.1e-3, 5e-4, 12.0);
  net.net.current_A = 60.0;
  net.net.lead_a_x_m = -0.1;
  solve (&net, &r);
  const double resistance = 1.7241e-8 / 16e-6 * 1e3;
  near (r.value[TL_NET_HOT_C],
        closed_form ("fin-joint", "temperature", "current", 60.0, "joint_resistance", 0.5,
                     "resistance_20", resistance, "coefficient", 0.00393, "section", 16.0,
                     "diameter", 5.1, "conductivity", 390.0, "film", 12.0, "ambient", 25.0, NULL),
        0.05);
  near (r.value[TL_NET_LEAD_A_C],
        closed_form ("fin-joint", "temperature", "current", 60.0, "joint_resistance", 0.5,
                     "resistance_20", resistance, "coefficient", 0.00393, "section", 16.0,
                     "diameter", 5.1, "conductivity", 390.0, "film", 12.0, "ambient", 25.0,
                     "distance", 100.0, NULL),
        0.05);
}

/* Ends held at 40 degC half a metre away (end word 1), and closed ends (end word 2). */
static void
test_fin_ends (void)
{
  for (guint ends = 1; ends <= 2; ends++)
    {
      Net net;
      g_auto (TlNetResult) r = { 0 };

      net_butt (&net, 0.5, FALSE, FALSE, 16e-6, 5.1e-3, 5e-4, 12.0);
      net.net.current_A = 60.0;
      net.net.has_end_a = net.net.has_end_b = ends == 1;
      net.net.end_a_C = net.net.end_b_C = 40.0;
      net.net.lead_a_x_m = -0.25;
      solve (&net, &r);
      for (guint k = 0; k < 2; k++)
        near (r.value[k == 0 ? TL_NET_HOT_C : TL_NET_LEAD_A_C],
              closed_form ("fin-joint", "temperature", "current", 60.0, "joint_resistance", 0.5,
                           "resistance_20", 1.7241e-8 / 16e-6 * 1e3, "coefficient", 0.00393,
                           "section", 16.0, "diameter", 5.1, "conductivity", 390.0, "film", 12.0,
                           "ambient", 25.0, "ends", (double) ends, "half_length", 500.0,
                           "end_temperature", 40.0, "distance", k == 0 ? 0.0 : 250.0, NULL),
              0.05);
    }
}

static void
test_fin_two_metals (void)
{
  static const struct
  {
    const char *output;
    TlNetFigure figure;
    double      within;
  } figures[] = {
    { "temperature", TL_NET_HOT_C, 0.05 },
    /* The zone reaches 0.5 mm to each side: its own heat and loss lie between. */
    { "heat_1", TL_NET_LEAD_A_W, 0.006 },
    { "heat_2", TL_NET_LEAD_B_W, 0.006 },
  };
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_butt (&net, 1.6, FALSE, TRUE, 16e-6, 5.1e-3, 5e-4, 12.0);
  net_places (&net, 5e-4, 0.3);
  net.net.current_A = 60.0;
  solve (&net, &r);
  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    near (r.value[figures[i].figure],
          closed_form ("fin-joint-two-metals", figures[i].output, "current", 60.0,
                       "joint_resistance", 0.5, "resistance_1", 1.7241e-8 / 16e-6 * 1e3,
                       "section_1", 16.0, "diameter_1", 5.1, "conductivity_1", 390.0,
                       "coefficient_1", 0.00393, "resistance_2", 2.8264e-8 / 16e-6 * 1e3,
                       "section_2", 16.0, "diameter_2", 5.1, "conductivity_2", 230.0,
                       "coefficient_2", 0.00403, "film", 12.0, "ambient", 25.0, NULL),
          figures[i].within);
}

/* A lap of two conductors in parallel against the transmission-line form, with constant resistivity. */
static void
test_lap_resistance (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_lap (&net, 0.1);
  net.net.n_bodies = 2;
  net.net.n_interfaces = 1;
  net.net.n_zones = 2;
  net.interfaces[0].coefficient_per_K = net.bodies[0].coefficient_per_K =
      net.bodies[1].coefficient_per_K = 0.0;
  net_places (&net, 0.01, 0.3);
  solve (&net, &r);
  near (r.joint_ohm * 1e3,
        closed_form ("lap-resistance", "resistance", "resistance_1", 11.3056, "resistance_2",
                     6.8964, "overlap", 20.0, "contact_resistance", 0.2, NULL),
        2e-5);
}

/* The potentials alone give the same closed form, on one mesh and whatever the air: all metal counts as at 20 degC. */
static void
test_cold_resistance (void)
{
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();
  Net net;

  net_lap (&net, 50.0);
  net.net.n_bodies = 2;
  net.net.n_interfaces = 1;
  net.net.n_zones = 2;
  net_places (&net, 0.01, 0.3);
  net.net.mesh_m = 2.5e-4;
  near (tl_network_cold_ohm (&net.net, workspace) * 1e3,
        closed_form ("lap-resistance", "resistance", "resistance_1", 11.3056, "resistance_2",
                     6.8964, "overlap", 20.0, "contact_resistance", 0.2, NULL),
        2e-5);
}

/* Just below and just above the current that the closed form calls the last steady one. */
static void
test_runaway (void)
{
  const double last_A =
      closed_form ("runaway-current", "current", "resistance_20", 1.7241e-8 / 16e-6 * 1e3,
                   "coefficient", 0.00393, "diameter", 5.1, "film", 12.0, NULL);

  for (guint i = 0; i < 4; i++)
    {
      static const double shares[] = { 0.9, 1.01, 1.3, 3.0 };
      Net                 net;
      g_auto (TlNetResult) r = { 0 };

      net_butt (&net, 3.0, FALSE, FALSE, 16e-6, 5.1e-3, 1e-5, 12.0);
      net.net.current_A = shares[i] * last_A;
      solve (&net, &r);
      g_test_message ("%g A of %g A: status %d, %u passes", net.net.current_A, last_A, r.status,
                      r.passes);
      g_assert_cmpint (r.status, ==, i == 0 ? TL_NET_OK : TL_NET_NO_STEADY_STATE);
      for (guint k = 0; k < TL_NET_N_FIGURES; k++)
        g_assert_true (isfinite (r.value[k]));
    }
}

/* --- time --- */

/* A second of a heavy current with next to no cooling: the adiabatic equation, K and beta of these
 * properties. */
static void
test_adiabatic (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };
  const double beta_C = 1.0 / 0.00393 - 20.0,
               k = sqrt (3.45e6 * (beta_C + 20.0) / 1.7241e-8) * 1e-6;

  net_butt (&net, 1.0, FALSE, FALSE, 16e-6, 5.1e-3, 1e-9, 0.01);
  net.net.current_A = 1500.0;
  net.net.duration_s = 1.0;
  solve (&net, &r);
  near (r.value[TL_NET_LEAD_A_C],
        closed_form ("adiabatic-final-temperature", "temperature", "current", 1500.0, "time", 1.0,
                     "section", 16.0, "constant", k, "beta", beta_C, "start", 25.0, NULL),
        0.05);
}

/* A long conductor warming from a steady state at another current. */
static void
test_warming (void)
{
  static const double times_s[] = { 10.0, 300.0, 3000.0 };
  const double        resistance = 1.7241e-8 / 16e-6 * 1e3;
  const double start_C = closed_form ("long-conductor-temperature", "temperature", "current", 40.0,
                                      "resistance_20", resistance, "coefficient", 0.00393,
                                      "diameter", 5.1, "film", 12.0, "ambient", 25.0, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (times_s); i++)
    {
      Net net;
      g_auto (TlNetResult) r = { 0 };

      net_butt (&net, 2.0, FALSE, FALSE, 16e-6, 5.1e-3, 1e-9, 12.0);
      net.net.before_A = 40.0;
      net.net.current_A = 90.0;
      net.net.duration_s = times_s[i];
      net.net.lead_a_x_m = -1.5;
      solve (&net, &r);
      /* Density and specific heat with the product that the network has. */
      near (r.value[TL_NET_LEAD_A_C],
            closed_form ("lumped-transient", "temperature", "current", 90.0, "resistance_20",
                         resistance, "coefficient", 0.00393, "section", 16.0, "metal_density",
                         8625.0, "specific_heat", 400.0, "film", 12.0, "diameter", 5.1, "ambient",
                         25.0, "start", start_C, "time", times_s[i], NULL),
            0.05);
    }
}

/* A joint's own heat spreading into endless rods (their resistance next to nothing). */
static void
test_spreading (void)
{
  Net net;
  g_auto (TlNetResult) r = { 0 };

  net_butt (&net, 2.0, FALSE, FALSE, 16e-6, 5.1e-3, 1e-3, 12.0);
  for (guint i = 0; i < 2; i++)
    net.bodies[i] = (TlNetBody){
      net.bodies[i].name, net.bodies[i].x0_m, net.bodies[i].x1_m, 16e-6, 1e-13, 0.0, 391.0, 3.45e6
    };
  net.net.current_A = sqrt (1.8e3);
  net.net.duration_s = 60.0;
  solve (&net, &r);
  near (r.value[TL_NET_HOT_C] - 25.0,
        closed_form ("transient-fin", "rise", "power", 1.8, "section", 16.0, "conductivity", 391.0,
                     "capacity", 3.45e6, "time", 60.0, "film", 12.0, "diameter", 5.1, NULL),
        0.05);
}

/* Long enough, the way in time ends in the steady state; a box warms with it. */
static void
test_time_ends_steady (void)
{
  Net net;
  g_auto (TlNetResult) steady = { 0 }, late = { 0 };

  net_lap (&net, 25.0);
  net.net.box_x0_m = -0.1;
  net.net.box_x1_m = 0.1;
  net.net.box_W_per_K = 0.4;
  net.net.box_J_per_K = 80.0;
  solve (&net, &steady);
  net.net.duration_s = 1e5;
  solve (&net, &late);
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    near (late.value[i], steady.value[i], 2e-3);
}

/* --- symmetry, scale, trend --- */

static void
test_mirror (void)
{
  static const TlNetFigure partner[] = {
    [TL_NET_HOT_C] = TL_NET_HOT_C,
    [TL_NET_MAX_C] = TL_NET_MAX_C,
    [TL_NET_LEAD_A_C] = TL_NET_LEAD_B_C,
    [TL_NET_LEAD_B_C] = TL_NET_LEAD_A_C,
    [TL_NET_BOX_C] = TL_NET_BOX_C,
    [TL_NET_JOINT_V] = TL_NET_JOINT_V,
    [TL_NET_INTERFACES_W] = TL_NET_INTERFACES_W,
    [TL_NET_BODIES_W] = TL_NET_BODIES_W,
    [TL_NET_LEAD_A_W] = TL_NET_LEAD_B_W,
    [TL_NET_LEAD_B_W] = TL_NET_LEAD_A_W,
    [TL_NET_SURFACE_W] = TL_NET_SURFACE_W,
    [TL_NET_INTERFACE_V] = TL_NET_INTERFACE_V,
  };
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint n = 0; n < 40; n++)
    {
      Net net;
      g_auto (TlNetResult) here = { 0 }, there = { 0 };

      net_random (&net, random);
      solve (&net, &here);
      net_mirror (&net);
      solve (&net, &there);
      g_assert_cmpint (here.status, ==, there.status);
      for (guint i = 0; i < TL_NET_N_FIGURES; i++)
        near (there.value[partner[i]], here.value[i], 1e-3);
    }
}

/* With nothing but proportions in it, the rise goes with the square of the current and the drop with it;
 * conducting everything twice as well and sending 1.414 times the current changes no temperature. */
static void
test_dimensions (void)
{
  Net net;
  g_auto (TlNetResult) once = { 0 }, twice = { 0 }, conducted = { 0 };

  net_butt (&net, 1.0, FALSE, TRUE, 16e-6, 5.1e-3, 5e-4, 12.0);
  net.bodies[0].coefficient_per_K = net.bodies[1].coefficient_per_K = 0.0;
  net.net.current_A = 30.0;
  solve (&net, &once);
  net.net.current_A = 60.0;
  solve (&net, &twice);
  near (twice.value[TL_NET_HOT_C] - 25.0, 4.0 * (once.value[TL_NET_HOT_C] - 25.0), 1e-5);
  near (twice.value[TL_NET_JOINT_V], 2.0 * once.value[TL_NET_JOINT_V], 1e-10);
  near (twice.value[TL_NET_LEAD_A_W], 4.0 * once.value[TL_NET_LEAD_A_W], 1e-6);
  net.net.current_A = 30.0 * G_SQRT2;
  for (guint i = 0; i < 2; i++)
    {
      net.bodies[i].conductivity_W_per_mK *= 2.0;
      net.zones[i].film_constant *= 2.0;
    }
  net.interfaces[0].conductance_W_per_K *= 2.0;
  solve (&net, &conducted);
  near (conducted.value[TL_NET_HOT_C], once.value[TL_NET_HOT_C], 1e-5);
  near (conducted.value[TL_NET_LEAD_A_W], 2.0 * once.value[TL_NET_LEAD_A_W], 1e-6);
}

/* More current, a worse contact, a warmer room or less air: nothing becomes cooler. */
static void
test_trends (void)
{
  Net net;
  g_auto (TlNetResult) base = { 0 };

  net_lap (&net, 20.0);
  solve (&net, &base);
  for (guint i = 0; i < 4; i++)
    {
      g_auto (TlNetResult) more = { 0 };

      net_lap (&net, i == 0 ? 24.0 : 20.0);
      if (i == 1)
        for (guint k = 0; k < net.net.n_interfaces; k++)
          net.interfaces[k].resistance_20_ohm *= 3.0;
      if (i == 2)
        net.net.ambient_C += 10.0;
      if (i == 3)
        for (guint k = 0; k < net.net.n_zones; k++)
          net.zones[k].film_constant *= 0.7;
      solve (&net, &more);
      g_assert_cmpfloat (more.value[TL_NET_HOT_C], >, base.value[TL_NET_HOT_C]);
      g_assert_cmpfloat (more.value[TL_NET_JOINT_V], >, base.value[TL_NET_JOINT_V]);
      g_assert_cmpfloat (more.value[TL_NET_LEAD_A_C], >, base.value[TL_NET_LEAD_A_C] - 1e-3);
    }
}

/* --- conservation --- */

/* Heat of the zone, heat of the whole model, and the heat that the drop over the whole model stands for. */
static void
check_conservation (const Net *net, TlNetResult *r)
{
  const double *v = r->value, share_W = 1e-6 * r->heat_W + 1e-9;
  double        made_W = 0.0;

  near (v[TL_NET_INTERFACES_W] + v[TL_NET_BODIES_W],
        v[TL_NET_LEAD_A_W] + v[TL_NET_LEAD_B_W] + v[TL_NET_SURFACE_W], 3.0 * share_W);
  near (r->balance_W, 0.0, share_W);
  for (guint i = 0; i < r->profile->n_bodies; i++)
    made_W += r->profile->body_W[i];
  for (guint i = 0; i < r->profile->n_interfaces; i++)
    made_W += r->profile->interface_W[i];
  near (net->net.current_A * r->profile->lines[net->net.body_a].potential_V[0], made_W, share_W);
  for (guint i = 0; i < r->profile->n_bodies; i++)
    for (guint k = 0; k < r->profile->lines[i].n; k++)
      {
        g_assert_true (isfinite (r->profile->lines[i].temperature_C[k]));
        g_assert_cmpfloat (r->profile->lines[i].temperature_C[k], >=, net->net.ambient_C - 1e-3);
      }
}

static void
test_random (void)
{
  const guint   count = g_strcmp0 (g_getenv ("TINLAP_LONG"), "1") == 0 ? 10000 : 1000;
  const guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();
  guint steady = 0;

  g_test_message ("seed %u, %u networks", seed, count);
  for (guint n = 0; n < count; n++)
    {
      Net net;
      g_auto (TlNetResult) r = { 0 };
      g_autoptr (GError) error = NULL;

      net_random (&net, random);
      net.net.want_profile = TRUE;
      tl_network_solve (&net.net, workspace, &r, &error);
      g_assert_no_error (error);
      if (r.status != TL_NET_OK)
        continue;
      steady++;
      check_conservation (&net, &r);
    }
  g_test_message ("%u of them steady", steady);
  g_assert_cmpuint (steady, >, count * 3 / 4);
}

/* Room used before gives the same bytes as new room; the quick solution is the first mesh of the whole. */
static void
test_same_bytes (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();

  for (guint n = 0; n < 30; n++)
    {
      Net net;
      g_auto (TlNetResult) fresh = { 0 }, again = { 0 }, quick = { 0 };

      net_random (&net, random);
      solve (&net, &fresh);
      g_assert_true (tl_network_solve (&net.net, workspace, &again, NULL));
      g_assert_cmpmem (fresh.value, sizeof fresh.value, again.value, sizeof again.value);
      g_assert_true (tl_network_solve_quick (&net.net, workspace, &quick));
      g_assert_cmpint (quick.status, ==, fresh.status);
      if (fresh.status == TL_NET_OK)
        near (quick.value[TL_NET_HOT_C], fresh.value[TL_NET_HOT_C],
              0.02 * fresh.value[TL_NET_HOT_C]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/network/banded/solve", test_banded);
  g_test_add_func ("/network/banded/pivots", test_banded_pivots);
  g_test_add_func ("/network/banded/random", test_banded_random);
  g_test_add_func ("/network/limits/no-current", test_no_current);
  g_test_add_func ("/network/limits/box-heat", test_box_heat);
  g_test_add_func ("/network/limits/no-contact-resistance", test_no_contact_resistance);
  g_test_add_func ("/network/limits/perfect-insulation", test_perfect_insulation);
  g_test_add_func ("/network/closed-form/fin-endless", test_fin_endless);
  g_test_add_func ("/network/closed-form/fin-ends", test_fin_ends);
  g_test_add_func ("/network/closed-form/fin-two-metals", test_fin_two_metals);
  g_test_add_func ("/network/closed-form/lap-resistance", test_lap_resistance);
  g_test_add_func ("/network/closed-form/cold-resistance", test_cold_resistance);
  g_test_add_func ("/network/closed-form/runaway", test_runaway);
  g_test_add_func ("/network/time/adiabatic", test_adiabatic);
  g_test_add_func ("/network/time/warming", test_warming);
  g_test_add_func ("/network/time/spreading", test_spreading);
  g_test_add_func ("/network/time/ends-steady", test_time_ends_steady);
  g_test_add_func ("/network/mirror", test_mirror);
  g_test_add_func ("/network/dimensions", test_dimensions);
  g_test_add_func ("/network/trends", test_trends);
  g_test_add_func ("/network/random", test_random);
  g_test_add_func ("/network/same-bytes", test_same_bytes);
  return g_test_run ();
}
