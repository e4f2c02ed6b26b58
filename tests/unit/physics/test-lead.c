/* The quick answer against printed figures, against the linear fin and against the full network.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/formula.h"
#include "physics/lead.h"
#include "nets.h"

/* 2.5 mm2 aluminium in 0.8 mm of PVC, still air. */
static const TlLead covered = {
  2.5e-6, 2.8264e-8, 0.00403, 230.0, { 0.0106315, 0.00338412, 0.599328, 1.32, 0.25, 0.9 },
};

static void
near (double found, double wanted, double within)
{
  g_test_message ("%.9g, wanted %.9g within %g", found, wanted, within);
  g_assert_cmpfloat (fabs (found - wanted), <=, within);
}

/* At 20 A in 30 degC: figures of a finely divided solution of the same conductor, from a separate program
 * (no publication prints them). */
static void
test_fine_solution (void)
{
  static const struct
  {
    double end_C, heat_W;
  } rows[] = { { 90.0, 0.33505 }, { 150.0, 1.0416 }, { 40.0, -0.19739 } };
  double far_C;

  g_assert_true (tl_lead_far (&covered, 20.0, 30.0, &far_C));
  near (far_C, 59.289, 5e-4);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    near (tl_lead_heat_W (&covered, 20.0, 30.0, far_C, rows[i].end_C, NULL), rows[i].heat_W, 3e-5);
}

/* With a constant film and resistivity it is the textbook fin: heat = sqrt(h p k A) (T - far). */
static void
test_linear_fin (void)
{
  TlLead linear = { 16e-6, 1.7241e-8, 0.0, 391.0, { G_PI * 5.1e-3, 5.1e-3, 0.0, 12.0, 0.0, 0.0 } };
  TlCall call;
  double far_C, slope;

  tl_call_init (&call, "fin-endless-rod");
  tl_call_set_exact (&call, "film", 12.0);
  tl_call_set_exact (&call, "diameter", 5.1);
  tl_call_set_exact (&call, "conductivity", 391.0);
  tl_call_set_exact (&call, "section", 16.0);
  g_assert_true (tl_call_run (&call, NULL));
  const double W_per_K = tl_call_get (&call, "conductance").best;
  g_assert_true (tl_lead_far (&linear, 60.0, 30.0, &far_C));
  for (int rise_K = -20; rise_K <= 60; rise_K += 20)
    {
      near (tl_lead_heat_W (&linear, 60.0, 30.0, far_C, far_C + rise_K, &slope), W_per_K * rise_K,
            1e-7);
      near (slope, W_per_K, 1e-6);
    }
}

static void
test_slope (void)
{
  double far_C, slope;

  g_assert_true (tl_lead_far (&covered, 20.0, 30.0, &far_C));
  for (double end_C = 35.0; end_C < 200.0; end_C += 7.0)
    {
      const double step_K = 1e-3;
      const double low = tl_lead_heat_W (&covered, 20.0, 30.0, far_C, end_C - step_K, NULL);
      const double high = tl_lead_heat_W (&covered, 20.0, 30.0, far_C, end_C + step_K, NULL);

      tl_lead_heat_W (&covered, 20.0, 30.0, far_C, end_C, &slope);
      near (slope, (high - low) / (2.0 * step_K), 1e-5);
    }
}

/* Constant film: the registry's runaway current is the last with a far temperature (below 3000 degC). */
static void
test_runaway (void)
{
  TlLead linear = {
    16e-6, 1.7241e-8, 0.00393, 391.0, { G_PI * 5.1e-3, 5.1e-3, 0.0, 12.0, 0.0, 0.0 }
  };
  double far_C;

  g_assert_true (tl_lead_far (&linear, 0.0, 30.0, &far_C));
  near (far_C, 30.0, 1e-9);
  g_assert_true (tl_lead_far (&linear, 0.9 * 213.0, 30.0, &far_C));
  g_assert_false (tl_lead_far (&linear, 1.01 * 213.075, 30.0, &far_C));
  g_assert_false (tl_lead_far (&linear, 1e5, 30.0, &far_C));
}

static TlLumped
lumped_lap (const Net *net, double current_A)
{
  TlLumped model = { .n_lumps = 1, .n_leads = 2, .ambient_C = net->net.ambient_C };

  for (guint i = 0; i < 2; i++)
    {
      const TlNetBody *body = &net->bodies[i];
      const TlNetZone *zone = &net->zones[i];

      model.leads[i] = (TlLumpLead){
        .lead = { body->section_m2,
                  body->resistivity_20_ohm_m,
                  body->coefficient_per_K,
                  body->conductivity_W_per_mK,
                  { zone->perimeter_m, zone->size_m, zone->layer_mK_per_W, zone->film_constant,
                    zone->film_exponent, zone->emissivity } },
        .current_A = current_A,
      };
    }
  const TlNetZone *zone = &net->zones[2];
  const double     length_m = zone->x1_m - zone->x0_m;
  model.lumps[0] = (TlLump){
    .coefficient_per_K = 0.0035,
    .current_A = current_A,
    .surface = { zone->perimeter_m * length_m, zone->size_m, zone->layer_mK_per_W / length_m,
                 zone->film_constant, zone->film_exponent, zone->emissivity },
  };
  return model;
}

/* A sound lap against the full model: both give the joint within 2 K and the same leads. */
static void
test_against_network (void)
{
  static const double currents_A[] = { 8.0, 16.0, 25.0 };

  for (guint i = 0; i < G_N_ELEMENTS (currents_A); i++)
    {
      Net            net;
      TlLumpedResult quick;
      g_auto (TlNetResult) full = { 0 };

      net_lap (&net, currents_A[i]);
      net_places (&net, 0.01, 0.9);
      g_assert_true (tl_network_solve (&net.net, NULL, &full, NULL));
      TlLumped model = lumped_lap (&net, currents_A[i]);
      /* The lump's own resistance at 20 degC from the full model's heat at its temperature. */
      model.lumps[0].resistance_20_ohm =
          (full.value[TL_NET_INTERFACES_W] + full.value[TL_NET_BODIES_W])
          / (currents_A[i] * currents_A[i] * (1.0 + 0.0035 * (full.value[TL_NET_HOT_C] - 20.0)));
      g_assert_true (tl_lumped_solve (&model, &quick));
      near (quick.lump_C[0], full.value[TL_NET_HOT_C], 2.0);
      near (quick.far_C[0], full.value[TL_NET_LEAD_A_C], 0.1);
      near (quick.far_C[1], full.value[TL_NET_LEAD_B_C], 0.1);
    }
}

/* The box closes its own balance: what the metal gives off is what the walls let through. */
static void
test_box (void)
{
  Net            net;
  TlLumpedResult r;

  net_lap (&net, 20.0);
  TlLumped model = lumped_lap (&net, 20.0);
  model.lumps[0].resistance_20_ohm = 4e-4;
  model.box_W_per_K = 0.4;
  model.box_extra_W = 1.0;
  model.leads[0].boxed_m = model.leads[1].boxed_m = 0.2;
  g_assert_true (tl_lumped_solve (&model, &r));
  /* All heat that arises in the box: lump, conductors, other. */
  double heat_W = 1.0 + 400.0 * 4e-4 * (1.0 + 0.0035 * (r.lump_C[0] - 20.0));
  for (guint i = 0; i < 2; i++)
    heat_W += 0.2 * 400.0 * net.bodies[i].resistivity_20_ohm_m / 2.5e-6
              * (1.0 + net.bodies[i].coefficient_per_K * (r.far_C[i] - 20.0));
  near (r.box_C - 25.0, heat_W / 0.4, 5e-3);
  g_assert_cmpfloat (r.far_C[0], >, r.box_C);
}

/* Two lumps with a link against the registry's two-node joint: leads absent, films constant. */
static void
test_two_lumps (void)
{
  TlLumped       model = { .n_lumps = 2, .n_links = 1, .ambient_C = 25.0 };
  TlLumpedResult r;

  model.lumps[0] = (TlLump){ 0.2e-3, 0.0, 100.0, { 0.05, 1.0, 0.0, 1.0, 0.0, 0.0 } };
  model.lumps[1] = (TlLump){ 0.6e-3, 0.0, 100.0, { 0.08, 1.0, 0.0, 1.0, 0.0, 0.0 } };
  model.links[0] = (TlLumpLink){ 0, 1, 0.5 };
  g_assert_true (tl_lumped_solve (&model, &r));
  TlCall call;
  tl_call_init (&call, "two-node-joint");
  tl_call_set_exact (&call, "current", 100.0);
  tl_call_set_exact (&call, "resistance_1", 0.2);
  tl_call_set_exact (&call, "resistance_2", 0.6);
  tl_call_set_exact (&call, "cooling_1", 0.05);
  tl_call_set_exact (&call, "cooling_2", 0.08);
  tl_call_set_exact (&call, "link", 0.5);
  tl_call_set_exact (&call, "ambient", 25.0);
  g_assert_true (tl_call_run (&call, NULL));
  near (r.lump_C[0], tl_call_get (&call, "temperature_1").best, 1e-6);
  near (r.lump_C[1], tl_call_get (&call, "temperature_2").best, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lead/fine-solution", test_fine_solution);
  g_test_add_func ("/lead/linear-fin", test_linear_fin);
  g_test_add_func ("/lead/slope", test_slope);
  g_test_add_func ("/lead/runaway", test_runaway);
  g_test_add_func ("/lead/against-network", test_against_network);
  g_test_add_func ("/lead/box", test_box);
  g_test_add_func ("/lead/two-lumps", test_two_lumps);
  return g_test_run ();
}
