/* heat-model.c: building the network of a joint, and asking it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/heat-private.h"

#include <math.h>

/* --- the whole --- */

static gboolean
read_limits (TlHeatModel *self)
{
  TlHeatLimits *limits = &self->limits;
  double        gap_um, lead_mm;

  if (!tl_heat_limit (self, "heat.film-constant", &limits->film_constant)
      || !tl_heat_limit (self, "heat.film-exponent", &limits->film_exponent)
      || !tl_heat_limit (self, "heat.emissivity-covered", &limits->emissivity_covered)
      || !tl_heat_limit (self, "heat.emissivity-bare", &limits->emissivity_bare)
      || !tl_heat_limit (self, "heat.lead-length", &lead_mm)
      || !tl_heat_limit (self, "heat.lorenz", &limits->lorenz)
      || !tl_heat_limit (self, "heat.gap-conductivity", &limits->gap_W_per_mK)
      || !tl_heat_limit (self, "heat.gap", &gap_um))
    return FALSE;
  limits->lead_m = lead_mm / 1000.0;
  limits->gap_m = 1e-6 * gap_um;
  return TRUE;
}

static double
site_number (const TlHeatModel *self, TlField field, double fallback)
{
  const TlFact *fact = tl_joint_site_fact (self->assembly->joint, self->assembly->stock, field);

  return fact != NULL ? fact->value.best : fallback;
}

/* Heat of what else is in the box: other joints of the kind, other conductors with their current, and the rest. */
static double
other_heat_W (const TlHeatModel *self, double inside_m)
{
  double watts = MAX (site_number (self, TL_FIELD_OTHER_HEAT, 0.0), 0.0);
  double joints = MAX (site_number (self, TL_FIELD_SAME_JOINTS, 0.0), 0.0);
  double others = MAX (site_number (self, TL_FIELD_OTHER_CONDUCTORS, 0.0), 0.0);
  double section = site_number (self, TL_FIELD_OTHER_SECTION, 0.0);
  double current = site_number (self, TL_FIELD_OTHER_CURRENT, 0.0);

  for (guint i = 0; i < 2; i++)
    {
      const TlNetBody *body = &self->bodies[i == 0 ? self->network.body_a : self->network.body_b];

      watts += joints * self->load_A * self->load_A * body->resistivity_20_ohm_m / body->section_m2
               * inside_m / 2.0;
    }
  if (section > 0.0)
    watts += others * current * current
             * tl_heat_material_number (self, "copper", TL_FIELD_RESISTIVITY, 0.0172) / section
             * inside_m;
  return watts;
}

/* The box: its walls but the one behind. */
static gboolean
add_box (TlHeatModel *self)
{
  double width = site_number (self, TL_FIELD_INNER_WIDTH, 0.0) / 1000.0;
  double height = site_number (self, TL_FIELD_INNER_HEIGHT, 1000.0 * width) / 1000.0;
  double depth = site_number (self, TL_FIELD_INNER_DEPTH, 0.0) / 1000.0;
  double loss, middle;

  if (width <= 0.0 || depth <= 0.0)
    {
      double side = cbrt (1e-6 * site_number (self, TL_FIELD_VOLUME, 0.0));

      width = height = depth = side;
    }
  if (width <= 0.0 || !tl_heat_limit (self, "heat.box-loss", &loss))
    return tl_heat_fail (self, TL_N_ ("The box has no volume and no inner sizes."), "site",
                         TL_FIELD_VOLUME);
  middle = (self->network.joint_x0_m + self->network.joint_x1_m) / 2.0;
  /* Each conductor lies in the box once across, from the entry to the joint. */
  self->network.box_x0_m = middle - MAX (width, height);
  self->network.box_x1_m = middle + MAX (width, height);
  self->network.box_W_per_K = loss * (width * height + 2.0 * depth * (width + height));
  self->network.box_extra_W = other_heat_W (self, 2.0 * MAX (width, height));
  return TRUE;
}

static void
finish_network (TlHeatModel *self)
{
  TlNetwork *network = &self->network;

  network->bodies = self->bodies;
  network->interfaces = self->interfaces;
  network->zones = self->zones;
  network->current_A = self->load_A;
  network->lead_a_x_m = self->bodies[network->body_a].x0_m + 0.1 * self->limits.lead_m;
  network->lead_b_x_m = self->bodies[network->body_b].x1_m - 0.1 * self->limits.lead_m;
  network->volt_a_x_m = network->joint_x0_m;
  network->volt_b_x_m = network->joint_x1_m;
}

static gboolean
build (TlHeatModel *self)
{
  const TlFact *load = tl_facts_get (self->assembly->joint->duty, TL_FIELD_LOAD);

  if (load == NULL)
    return tl_heat_fail (self, TL_N_ ("The load is not entered."), "duty", TL_FIELD_LOAD);
  self->load_A = load->value.best;
  if (!read_limits (self))
    return FALSE;
  tl_network_init_defaults (&self->network);
  self->network.n_bodies = 0;
  self->network.ambient_C = tl_facts_number (self->assembly->joint->duty, TL_FIELD_AMBIENT, 30.0);
  switch (self->assembly->family)
    {
    case TL_FAMILY_STACK:
      if (!tl_heat_build_stack (self))
        return FALSE;
      break;
    case TL_FAMILY_SLEEVE:
      if (!tl_heat_build_sleeve (self))
        return FALSE;
      break;
    case TL_FAMILY_TERMINAL:
      if (!tl_heat_build_terminal (self))
        return FALSE;
      break;
    case TL_FAMILY_SPLICE:
      if (!tl_heat_build_splice (self))
        return FALSE;
      break;
    case TL_FAMILY_NONE:
    default:
      return tl_heat_fail (self, TL_N_ ("Nothing joins the conductors yet."), NULL, TL_N_FIELDS);
    }
  if (self->leg_a == NULL || self->leg_b == NULL || !add_box (self))
    return FALSE;
  finish_network (self);
  return TRUE;
}

static void
line_clear (TlHeatLine *line)
{
  g_free (line->owner);
}

/* Joint resistance without heating, all at 20 degC. */
static double
cold_ohm (const TlHeatModel *self, TlHeatCase which, double ratio)
{
  TlNetInterface interfaces[TL_HEAT_MAX_INTERFACES];
  TlNetwork      network = self->network;

  for (guint i = 0; i < network.n_interfaces; i++)
    {
      const TlHeatInterface *row = &g_array_index (self->rows, TlHeatInterface, i);
      double                 ohm = which == TL_HEAT_LOW    ? row->resistance_ohm.low
                                   : which == TL_HEAT_HIGH ? row->resistance_ohm.high
                                                           : row->resistance_ohm.best;

      interfaces[i] = self->interfaces[i];
      interfaces[i].resistance_20_ohm = ohm * ratio;
    }
  network.interfaces = interfaces;
  return tl_network_cold_ohm (&network, self->workspace);
}

/* A resistance that was measured between the mouths replaces the estimate: all contacts take the same factor. */
static void
fit_measured (TlHeatModel *self)
{
  const TlFacts *duty = self->assembly->joint->duty;
  const TlFact  *resistance = tl_facts_get (duty, TL_FIELD_JOINT_RESISTANCE);
  const TlFact  *drop = tl_facts_get (duty, TL_FIELD_JOINT_DROP),
               *current = tl_facts_get (duty, TL_FIELD_JOINT_TEST_CURRENT);
  double wanted = 0.0, without, with;

  if (resistance != NULL)
    wanted = 1e-6 * resistance->value.best;
  else if (drop != NULL && current != NULL && current->value.best > 0.0)
    wanted = 1e-3 * drop->value.best / current->value.best;
  if (wanted <= 0.0)
    return;
  without = cold_ohm (self, TL_HEAT_BEST, 1e-6);
  self->is_measured = TRUE;
  self->resistance_ratio =
      1e-3; /* below what the bodies alone would have: contacts as good as nothing */
  if (wanted <= without)
    return;
  /* Better contacts draw current into other bodies, so the answer is not quite in proportion: repeat until it fits. */
  self->resistance_ratio = 1.0;
  for (guint i = 0; i < 20; i++)
    {
      with = cold_ohm (self, TL_HEAT_BEST, self->resistance_ratio);
      if (with <= without || fabs (with - wanted) < 1e-4 * wanted)
        break;
      self->resistance_ratio *= (wanted - without) / (with - without);
    }
}

TlHeatModel *
tl_heat_model_new (TlAssembly *assembly, const char **reason, const char **owner, TlField *field)
{
  g_autoptr (TlHeatModel) self = g_new0 (TlHeatModel, 1);

  self->assembly = assembly;
  self->field = TL_N_FIELDS;
  self->resistance_ratio = 1.0;
  self->workspace = tl_net_workspace_new ();
  self->rows = g_array_new (FALSE, FALSE, sizeof (TlHeatInterface));
  self->lines = g_array_new (FALSE, FALSE, sizeof (TlHeatLine));
  g_array_set_clear_func (self->lines, (GDestroyNotify) line_clear);
  if (build (self))
    {
      fit_measured (self);
      return g_steal_pointer (&self);
    }
  *reason = self->reason != NULL ? self->reason : TL_N_ ("The joint cannot be reckoned.");
  *owner = self->owner;
  *field = self->field;
  return NULL;
}

void
tl_heat_model_free (TlHeatModel *self)
{
  if (self == NULL)
    return;
  tl_net_workspace_free (self->workspace);
  g_array_unref (self->rows);
  g_array_unref (self->lines);
  g_free (self);
}

const GArray *
tl_heat_model_interfaces (const TlHeatModel *self)
{
  return self->rows;
}

const GArray *
tl_heat_model_lines (const TlHeatModel *self)
{
  return self->lines;
}

const TlNetwork *
tl_heat_model_network (const TlHeatModel *self)
{
  return &self->network;
}

double
tl_heat_model_load_A (const TlHeatModel *self)
{
  return self->load_A;
}

gboolean
tl_heat_model_is_measured (const TlHeatModel *self)
{
  return self->is_measured;
}

void
tl_heat_change_init (TlHeatChange *self)
{
  *self = (TlHeatChange){ TL_HEAT_BEST, -1.0, NAN, 1.0, NULL, FALSE };
}

/* --- solving --- */

gboolean
tl_heat_model_solve (const TlHeatModel *self, const TlHeatChange *change, TlNetWorkspace *workspace,
                     TlNetResult *result, GError **error)
{
  TlNetInterface interfaces[TL_HEAT_MAX_INTERFACES];
  TlNetZone      zones[TL_HEAT_MAX_ZONES];
  TlNetwork      network = self->network;

  for (guint i = 0; i < network.n_interfaces; i++)
    {
      const TlHeatInterface *row = &g_array_index (self->rows, TlHeatInterface, i);
      TlRange                ohm = row->resistance_ohm;
      double                 value = self->is_measured || change->which == TL_HEAT_BEST
                                         ? ohm.best * self->resistance_ratio
                                     : change->which == TL_HEAT_LOW ? ohm.low
                                                                    : ohm.high;

      interfaces[i] = self->interfaces[i];
      interfaces[i].resistance_20_ohm =
          value * (change->resistance_ratio != NULL ? change->resistance_ratio[i] : 1.0);
    }
  for (guint i = 0; i < network.n_zones; i++)
    {
      zones[i] = self->zones[i];
      zones[i].film_constant *= change->film_ratio;
      zones[i].emissivity = MIN (1.0, zones[i].emissivity * change->film_ratio);
    }
  network.interfaces = interfaces;
  network.zones = zones;
  network.want_profile = change->want_profile;
  if (change->current_A >= 0.0)
    {
      network.box_extra_W *= self->load_A > 0.0 ? pow (change->current_A / self->load_A, 2.0) : 1.0;
      network.current_A = change->current_A;
    }
  if (isfinite (change->ambient_C))
    network.ambient_C = change->ambient_C;
  return tl_network_solve (&network, workspace, result, error);
}

/* --- references --- */

/* A lead alone: one line with one surface and closed ends is everywhere as warm as a long one is far from its joint. */
static gboolean
far_C (const TlHeatModel *self, guint line, double current_A, double *temperature_C)
{
  g_auto (TlNetResult) result = { 0 };
  TlNetBody body = self->bodies[line];
  TlNetZone zone = { 0 };
  TlNetwork network;

  /* The longest covered stretch of the line is its lead. */
  for (guint i = 0; i < self->network.n_zones; i++)
    if (self->zones[i].body == line
        && self->zones[i].x1_m - self->zones[i].x0_m > zone.x1_m - zone.x0_m)
      zone = self->zones[i];
  tl_network_init_defaults (&network);
  body.x0_m = zone.x0_m = 0.0;
  body.x1_m = zone.x1_m = 0.01;
  zone.body = 0;
  network.bodies = &body;
  network.n_bodies = 1;
  network.zones = &zone;
  network.n_zones = 1;
  network.body_a = network.body_b = 0;
  network.current_A = current_A;
  network.ambient_C = self->network.ambient_C;
  network.joint_x0_m = network.volt_a_x_m = network.lead_a_x_m = 0.002;
  network.joint_x1_m = network.volt_b_x_m = network.lead_b_x_m = 0.008;
  if (zone.perimeter_m <= 0.0 || !tl_network_solve_quick (&network, self->workspace, &result)
      || result.status != TL_NET_OK)
    return FALSE;
  *temperature_C = result.value[TL_NET_HOT_C];
  return TRUE;
}

gboolean
tl_heat_model_far_C (const TlHeatModel *self, double current_A, double *a_C, double *b_C)
{
  double current = current_A >= 0.0 ? current_A : self->load_A;

  return far_C (self, self->network.body_a, current, a_C)
         && far_C (self, self->network.body_b, current, b_C);
}

TlRange
tl_heat_model_joint_ohm (TlHeatModel *self)
{
  double best, low, high;

  if (self->has_joint_ohm)
    return self->joint_ohm;
  best = cold_ohm (self, TL_HEAT_BEST, self->resistance_ratio);
  self->joint_ohm = tl_range_exact (best);
  if (!self->is_measured)
    {
      low = cold_ohm (self, TL_HEAT_LOW, 1.0);
      high = cold_ohm (self, TL_HEAT_HIGH, 1.0);
      self->joint_ohm.low = MIN (best, low);
      self->joint_ohm.high = MAX (best, high);
    }
  self->has_joint_ohm = TRUE;
  return self->joint_ohm;
}

double
tl_heat_model_conductor_ohm (const TlHeatModel *self)
{
  const TlNetBody *a = &self->bodies[self->network.body_a],
                  *b = &self->bodies[self->network.body_b];
  double half = (self->network.volt_b_x_m - self->network.volt_a_x_m) / 2.0;

  return half * (a->resistivity_20_ohm_m / a->section_m2 + b->resistivity_20_ohm_m / b->section_m2);
}

static void
take_limit (const TlHeatModel *self, const char *owner, const char *material, double *limit_C,
            const char **limit_owner, const char **limit_material)
{
  double own = tl_heat_material_number (self, material, TL_FIELD_MAX_TEMPERATURE, G_MAXDOUBLE);

  if (own < *limit_C)
    {
      *limit_C = own;
      *limit_owner = owner;
      *limit_material = material;
    }
}

gboolean
tl_heat_model_limit_C (const TlHeatModel *self, double *limit_C, const char **owner,
                       const char **material)
{
  const TlAssembly *assembly = self->assembly;

  *limit_C = G_MAXDOUBLE;
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      take_limit (self, body->owner, body->material, limit_C, owner, material);
    }
  return *limit_C < G_MAXDOUBLE;
}
