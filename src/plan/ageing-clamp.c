/* ageing-clamp.c: bolt, parts and conical washers as springs in series, and what settling, heat and creep take.
 *
 * The stretch of the whole against the force is kept as a curve, since a conical washer is a spring only below its
 * flat force: a set of the parts takes so much stretch away, whatever the force. Where the curve is straight this is
 * the textbook's dF = k x set. Round wire under a flat face flattens further when it softens; a flat face is held to
 * its bearing pressure by one-step shakedown.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/ageing-private.h"

#include <math.h>

#define ROOM_C 20.0
/* A face or wire keeps at least this share of its strength, however hot. */
#define LEAST_STRENGTH 0.1
#define DISC_STEPS 32
/* Halvings of the force in which an eye comes to rest. */
#define EYE_STEPS 18

/* --- curves --- */

/* @y at @x on a curve that rises, straight beyond its ends. */
static double
along (const double *x, const double *y, guint n, double at)
{
  guint low = 0, high = n - 1;

  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (x[middle] <= at)
        low = middle;
      else
        high = middle;
    }
  return y[low] + (y[high] - y[low]) * (at - x[low]) / (x[high] - x[low]);
}

/* The forces of the curve stand at even steps: no search. */
static double
stretch_of (const TlAgeingClamp *self, double force_N)
{
  double step_N = self->force_N[1], at = force_N / step_N;
  guint  i = (guint) CLAMP (at, 0.0, TL_CLAMP_NODES - 2.0);

  return self->stretch_mm[i] + (self->stretch_mm[i + 1] - self->stretch_mm[i]) * (at - i);
}

static double
force_of (const TlAgeingClamp *self, double stretch_mm)
{
  return MAX (0.0, along (self->stretch_mm, self->force_N, TL_CLAMP_NODES, stretch_mm));
}

/* --- springs of the stack --- */

static double
material_number (const TlAssembly *assembly, const char *material, TlField field, double fallback)
{
  const TlMaterial *row = material != NULL ? tl_stock_material (assembly->stock, material) : NULL;

  return row != NULL ? tl_facts_number (row->facts, field, fallback) : fallback;
}

static gboolean
is_clamped (const TlBody *body)
{
  return (body->role == TL_BODY_EYE || body->role == TL_BODY_TANG || body->role == TL_BODY_WASHER)
         && body->is_metal && body->solids->len > 0;
}

static gboolean
is_aluminium (const TlAssembly *assembly, const TlBody *body)
{
  const TlMaterial *row = tl_stock_material (assembly->stock, body->material);

  return row != NULL && row->look == TL_LOOK_ALUMINIUM;
}

/* Give of one part under the load cone from the nearer end, mm/N. */
static double
part_mm_per_N (const TlAssembly *assembly, const TlBody *body)
{
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);
  double depth_mm = MAX (0.0, MIN (solid->start_mm, assembly->stack.grip_mm - solid->end_mm));
  double hole_mm = MAX (solid->inner_mm, assembly->stack.thread_mm);
  double reach_mm = assembly->stack.head_bearing_mm + 2.0 * depth_mm * tan (G_PI / 6.0);
  TlCall call;

  tl_call_init (&call, "frustum-stiffness");
  tl_call_set_exact (&call, "modulus",
                     material_number (assembly, body->material, TL_FIELD_MODULUS, 70000.0));
  tl_call_set_exact (&call, "hole_diameter", hole_mm);
  /* An eye wider than the head still bears on its inner edge. */
  tl_call_set_exact (&call, "head_diameter", MAX (MIN (reach_mm, solid->outer_mm), 1.05 * hole_mm));
  tl_call_set_exact (&call, "thickness", solid->end_mm - solid->start_mm);
  if (!tl_call_run (&call, NULL))
    return 0.0;
  return 1.0 / tl_call_get (&call, "stiffness").best;
}

static gboolean
read_rest (TlAgeingClamp *self, const TlAssembly *assembly)
{
  const TlStackFigures *stack = &assembly->stack;
  const TlBody         *shank = tl_assembly_find_body (assembly, stack->bolt, TL_BODY_SHANK, NULL);
  double                parts_mm_per_N = 0.0;
  TlCall                bolt, whole;

  if (shank == NULL)
    return FALSE;
  for (guint i = 0; i < assembly->bodies->len; i++)
    if (is_clamped (assembly->bodies->pdata[i]))
      parts_mm_per_N += part_mm_per_N (assembly, assembly->bodies->pdata[i]);
  tl_call_init (&bolt, "bolt-stiffness");
  tl_call_set_exact (&bolt, "modulus",
                     material_number (assembly, shank->material, TL_FIELD_MODULUS, 200000.0));
  tl_call_set_exact (&bolt, "stress_area", stack->stress_area_mm2);
  tl_call_set_exact (&bolt, "grip", stack->grip_mm);
  tl_call_set_exact (&bolt, "diameter", stack->thread_mm);
  if (parts_mm_per_N <= 0.0 || !tl_call_run (&bolt, NULL))
    return FALSE;
  tl_call_init (&whole, "spring-series-stiffness");
  tl_call_set (&whole, "bolt", tl_call_get (&bolt, "stiffness"));
  tl_call_set_exact (&whole, "joint", 1.0 / parts_mm_per_N);
  if (!tl_call_run (&whole, NULL))
    return FALSE;
  self->rest_N_per_mm = tl_call_get (&whole, "stiffness").best;
  return TRUE;
}

/* Deflection of one conical washer against force, up to flat. %FALSE if its sizes are not known: no credit. */
static gboolean
add_disc (TlAgeingClamp *self, const TlAssembly *assembly, const TlLayer *layer)
{
  const TlStock *stock = assembly->stock;
  double         thickness_mm = tl_layer_number (layer, stock, TL_FIELD_THICKNESS, 0.0);
  double         cone_mm = tl_layer_number (layer, stock, TL_FIELD_FREE_HEIGHT, 0.0) - thickness_mm;
  double         force_N[DISC_STEPS + 1], deflection_mm[DISC_STEPS + 1];
  TlCall         call;

  if (thickness_mm <= 0.0 || cone_mm <= 0.0)
    return FALSE;
  tl_call_init (&call, "disc-spring-force");
  tl_call_set_exact (&call, "outside_diameter",
                     tl_layer_number (layer, stock, TL_FIELD_OUTER, 0.0));
  tl_call_set_exact (&call, "inside_diameter", tl_layer_number (layer, stock, TL_FIELD_BORE, 0.0));
  tl_call_set_exact (&call, "thickness", thickness_mm);
  tl_call_set_exact (&call, "cone_height", cone_mm);
  for (guint i = 0; i <= DISC_STEPS; i++)
    {
      deflection_mm[i] = cone_mm * i / DISC_STEPS;
      tl_call_set_exact (&call, "deflection", deflection_mm[i]);
      if (!tl_call_run (&call, NULL))
        return FALSE;
      force_N[i] = tl_call_get (&call, "force").best;
      if (i > 0 && force_N[i] <= force_N[i - 1])
        return FALSE; /* snaps through: no spring to rely on */
    }
  for (guint i = 0; i < TL_CLAMP_NODES; i++)
    self->stretch_mm[i] += self->force_N[i] >= force_N[DISC_STEPS]
                               ? cone_mm
                               : along (force_N, deflection_mm, DISC_STEPS + 1, self->force_N[i]);
  return TRUE;
}

static void
read_curve (TlAgeingClamp *self, const TlAssembly *assembly)
{
  double best_N = assembly->stack.preload_N.best, most_N = 2.0 * assembly->stack.preload_N.high;
  double step_N = 0.01 * best_N;

  for (guint i = 0; i < TL_CLAMP_NODES; i++)
    {
      self->force_N[i] = most_N * i / (TL_CLAMP_NODES - 1);
      self->stretch_mm[i] = self->force_N[i] / self->rest_N_per_mm;
    }
  for (guint i = 0; i < assembly->joint->layers->len; i++)
    {
      const TlLayer *layer = assembly->joint->layers->pdata[i];

      if (layer->kind == TL_PART_CONICAL_WASHER && layer->seat.kind == TL_SEAT_STACK)
        add_disc (self, assembly, layer);
    }
  self->stiffness_N_per_mm =
      2.0 * step_N / (stretch_of (self, best_N + step_N) - stretch_of (self, best_N - step_N));
}

/* --- expansion --- */

#define MAX_METALS 6

/* Free growth of the parts less that of the bolt, for one kelvin. */
static gboolean
read_mismatch (TlAgeingClamp *self, const TlAssembly *assembly)
{
  const TlBody *shank = tl_assembly_find_body (assembly, assembly->stack.bolt, TL_BODY_SHANK, NULL);
  const char   *metals[MAX_METALS];
  double        thickness_mm[MAX_METALS] = { 0 };
  guint         n = 0;
  TlCall        call;

  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];
      guint         at = 0;

      if (!is_clamped (body))
        continue;
      while (at < n && !g_str_equal (metals[at], body->material))
        at++;
      if (at == MAX_METALS)
        return FALSE;
      if (at == n)
        metals[n++] = body->material;
      thickness_mm[at] += g_array_index (body->solids, TlSolid, 0).end_mm
                          - g_array_index (body->solids, TlSolid, 0).start_mm;
    }
  tl_call_init (&call, "thermal-preload-change");
  for (guint i = 0; i < n; i++)
    {
      const char *const names[] = { "thickness", "expansion", "modulus" };
      const double      values[] = { thickness_mm[i],
                                     material_number (assembly, metals[i], TL_FIELD_EXPANSION, 17.0),
                                     material_number (assembly, metals[i], TL_FIELD_MODULUS, 70000.0) };

      for (guint k = 0; k < G_N_ELEMENTS (names); k++)
        {
          char name[32];

          g_snprintf (name, sizeof name, "%s_%u", names[k], i + 1);
          tl_call_set_exact (&call, name, values[k]);
        }
    }
  tl_call_set_exact (&call, "area", assembly->stack.stress_area_mm2);
  tl_call_set_exact (&call, "bolt_grip", assembly->stack.grip_mm);
  tl_call_set_exact (&call, "bolt_expansion",
                     material_number (assembly, shank->material, TL_FIELD_EXPANSION, 12.0));
  tl_call_set_exact (&call, "bolt_modulus",
                     material_number (assembly, shank->material, TL_FIELD_MODULUS, 200000.0));
  tl_call_set_exact (&call, "bolt_area", assembly->stack.stress_area_mm2);
  tl_call_set_exact (&call, "temperature_change", 1.0);
  if (n == 0 || !tl_call_run (&call, NULL))
    return FALSE;
  self->mismatch_mm_per_K = 1e-3 * tl_call_get (&call, "mismatch").best;
  return TRUE;
}

/* --- what gives way --- */

/* Flattening of an eye on both sides against force over hardness. */
static gboolean
read_eye (TlAgeingClamp *self, const TlAssembly *assembly, const TlBody *body)
{
  const TlSolid *solid = &g_array_index (body->solids, TlSolid, 0);
  double         wire_mm = solid->end_mm - solid->start_mm, length_mm = 0.0;
  double hardness_MPa = material_number (assembly, body->material, TL_FIELD_HARDNESS, 270.0);
  double most = self->force_N[TL_CLAMP_NODES - 1] / (LEAST_STRENGTH * hardness_MPa);
  TlCall call;

  tl_call_init (&call, "eye-flattening");
  tl_call_set_exact (&call, "hardness", 1.0);
  tl_call_set_exact (&call, "wire_diameter", wire_mm);
  tl_call_set_exact (&call, "eye_diameter", solid->inner_mm);
  if (solid->turn_ratio > 0.0)
    tl_call_set_exact (&call, "turn", MIN (1.0, solid->turn_ratio));
  for (guint i = 0; i < TL_CLAMP_NODES; i++)
    {
      /* Close together where the wire is still round. */
      double share = (double) i / (TL_CLAMP_NODES - 1);

      self->flat_N_per_MPa[i] = most * share * share;
      tl_call_set_exact (&call, "force", self->flat_N_per_MPa[i]);
      if (!tl_call_run (&call, NULL))
        return FALSE;
      self->flat_mm[i] = 2.0 * tl_call_get (&call, "depth").best;
      length_mm = tl_call_get (&call, "length").best;
    }
  self->n_eyes++;
  self->hardness_MPa = hardness_MPa;
  self->aluminium_mm2 = length_mm * wire_mm;
  return TRUE;
}

/* Least flat face that presses on aluminium. */
static void
read_faces (TlAgeingClamp *self, const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);
      const TlBody    *a = tl_assembly_body (assembly, contact->a);
      const TlBody    *b = tl_assembly_body (assembly, contact->b);
      double           area_mm2 = contact->loaded_area_mm2;

      if (contact->kind != TL_CONTACT_PRESSED || contact->is_line || area_mm2 <= 0.0
          || !((is_clamped (a) && is_aluminium (assembly, a))
               || (is_clamped (b) && is_aluminium (assembly, b))))
        continue;
      if (self->bearing_mm2 <= 0.0 || area_mm2 < self->bearing_mm2)
        self->bearing_mm2 = area_mm2;
    }
}

static gboolean
read_aluminium (TlAgeingClamp *self, TlAssembly *assembly)
{
  TlThreshold bearing, span;

  if (!tl_assembly_limit (assembly, "grip.bearing-aluminium-max", &bearing)
      || !tl_assembly_limit (assembly, "ageing.softening-span", &span))
    return FALSE;
  self->bearing_MPa = bearing.value;
  self->softening_K = span.value;
  read_faces (self, assembly);
  self->aluminium_mm2 = self->bearing_mm2;
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody  *body = assembly->bodies->pdata[i];
      const TlSolid *solid;

      if (!is_clamped (body) || !is_aluminium (assembly, body))
        continue;
      solid = &g_array_index (body->solids, TlSolid, 0);
      self->aluminium_mm += solid->end_mm - solid->start_mm;
      if (solid->kind == TL_SOLID_EYE && !read_eye (self, assembly, body))
        return FALSE;
    }
  self->creeps = self->aluminium_mm > 0.0 && self->aluminium_mm2 > 0.0;
  return TRUE;
}

/* --- sleeves, terminals, splices: the force itself is not told --- */

/* A spring follows and solder needs no force: only a screw and a press lose theirs to creep. */
static gboolean
holds_by_strain (const TlAssembly *assembly)
{
  const char *form = assembly->terminal.form;

  return assembly->family == TL_FAMILY_SLEEVE
         || (assembly->family == TL_FAMILY_TERMINAL
             && (form == NULL || !g_str_has_suffix (form, "-spring")));
}

static gboolean
has_aluminium_pressed (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = assembly->bodies->pdata[i];

      if ((body->role == TL_BODY_CORE || body->role == TL_BODY_BARREL)
          && is_aluminium (assembly, body))
        return TRUE;
    }
  return FALSE;
}

/* Pressure on the worst contact; what keeps it is the elastic recovery of what presses and of the core. */
static gboolean
read_pressed (TlAgeingClamp *self, TlAssembly *assembly, const TlHeatModel *model)
{
  const GArray *rows = tl_heat_model_interfaces (model);
  TlThreshold   strain;

  if (!tl_assembly_limit (assembly, "ageing.press-strain", &strain))
    return FALSE;
  self->pressed_strain = strain.value;
  for (guint i = 0; i < rows->len; i++)
    {
      const TlHeatInterface *row = &g_array_index (rows, TlHeatInterface, i);

      if (row->area_mm2 > 0.0)
        self->pressed_MPa = MAX (self->pressed_MPa, row->force_N.best / row->area_mm2);
    }
  self->creeps =
      self->pressed_MPa > 0.0 && holds_by_strain (assembly) && has_aluminium_pressed (assembly);
  return TRUE;
}

gboolean
tl_ageing_clamp_read (TlAgeingClamp *self, TlAssembly *assembly, const TlHeatModel *model,
                      const char **reason)
{
  gboolean is_read;

  *self = (TlAgeingClamp){ 0 };
  if (assembly->family != TL_FAMILY_STACK)
    is_read = read_pressed (self, assembly, model);
  else
    {
      self->has_force = assembly->stack.preload_N.low > 0.0 && assembly->stack.grip_mm > 0.0;
      is_read = self->has_force && read_rest (self, assembly);
      if (is_read)
        read_curve (self, assembly);
      is_read = is_read && read_mismatch (self, assembly) && read_aluminium (self, assembly);
    }
  if (!is_read)
    *reason = TL_N_ ("What clamps the joint cannot be reckoned as springs.");
  return is_read;
}

/* --- what time and heat take --- */

double
tl_ageing_clamp_relax (const TlAgeingClamp *self, double force_N, double set_mm)
{
  return force_of (self, stretch_of (self, force_N) - set_mm);
}

static double
strength_left (const TlAgeingClamp *self, double hot_C)
{
  return CLAMP (1.0 - (hot_C - ROOM_C) / self->softening_K, LEAST_STRENGTH, 1.0);
}

/* Flattening of one eye; the nodes stand at squares of even steps. */
static double
flat_of (const TlAgeingClamp *self, double N_per_MPa)
{
  guint i = (guint) CLAMP (sqrt (N_per_MPa / self->flat_N_per_MPa[1]), 0.0, TL_CLAMP_NODES - 2.0);

  return self->flat_mm[i]
         + (self->flat_mm[i + 1] - self->flat_mm[i]) * (N_per_MPa - self->flat_N_per_MPa[i])
               / (self->flat_N_per_MPa[i + 1] - self->flat_N_per_MPa[i]);
}

/* Set of the aluminium eyes when they soften under the force of the hot joint. */
static double
eyes_set_mm (const TlAgeingClamp *self, double force_N, double hot_C)
{
  double hot_MPa = self->hardness_MPa * strength_left (self, hot_C);
  double before_mm = flat_of (self, force_N / self->hardness_MPa);
  double whole_mm = stretch_of (self, force_N) + self->mismatch_mm_per_K * (hot_C - ROOM_C);
  double low_N = 0.0, high_N = force_of (self, whole_mm), set_mm = 0.0;

  for (guint i = 0; i < EYE_STEPS; i++)
    {
      double middle_N = (low_N + high_N) / 2.0;

      set_mm = self->n_eyes * (flat_of (self, middle_N / hot_MPa) - before_mm);
      if (stretch_of (self, middle_N) + set_mm < whole_mm)
        low_N = middle_N;
      else
        high_N = middle_N;
    }
  return MAX (0.0, set_mm);
}

/* Force left when every newton that stays takes @mm_per_N of the stretch: stretch(F) + F mm_per_N = stretch(start). */
static double
give_way (const TlAgeingClamp *self, double force_N, double mm_per_N)
{
  double start_mm = stretch_of (self, force_N), from_mm, to_mm;
  guint  low = 0, high = TL_CLAMP_NODES - 1;

  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (self->stretch_mm[middle] + mm_per_N * self->force_N[middle] <= start_mm)
        low = middle;
      else
        high = middle;
    }
  from_mm = self->stretch_mm[low] + mm_per_N * self->force_N[low];
  to_mm = self->stretch_mm[high] + mm_per_N * self->force_N[high];
  return self->force_N[low]
         + (self->force_N[high] - self->force_N[low]) * (start_mm - from_mm) / (to_mm - from_mm);
}

double
tl_ageing_clamp_first_cycle (const TlAgeingClamp *self, double force_N, double settling_um,
                             double hot_C)
{
  /* The faces settle under the force that is left; the textbook's loss, settling x stiffness, is the start of this. */
  double settled_N = force_N > 0.0 ? give_way (self, force_N, 1e-3 * settling_um / force_N) : 0.0;
  double cold_N = settled_N;

  if (self->bearing_mm2 > 0.0)
    {
      double free_N =
          tl_ageing_clamp_relax (self, settled_N, -self->mismatch_mm_per_K * (hot_C - ROOM_C));
      TlCall call;

      tl_call_init (&call, "shakedown");
      tl_call_set_exact (&call, "preload", settled_N);
      tl_call_set_exact (&call, "thermal_change", free_N - settled_N);
      tl_call_set_exact (&call, "limit", self->bearing_MPa * strength_left (self, hot_C));
      tl_call_set_exact (&call, "area", self->bearing_mm2);
      if (tl_call_run_quick (&call))
        cold_N = CLAMP (tl_call_get (&call, "cold").best, 0.0, settled_N);
    }
  if (self->n_eyes > 0)
    cold_N =
        MIN (cold_N, tl_ageing_clamp_relax (self, settled_N, eyes_set_mm (self, settled_N, hot_C)));
  return cold_N;
}

double
tl_ageing_clamp_creep (const TlAgeingClamp *self, double force_N, double strain_per_MPa)
{
  if (!self->creeps || force_N <= 0.0)
    return force_N;
  if (!self->has_force)
    return force_N / (1.0 + strain_per_MPa * self->pressed_MPa / self->pressed_strain);
  /* Strain follows the pressure that is left. */
  return give_way (self, force_N, strain_per_MPa * self->aluminium_mm / self->aluminium_mm2);
}
