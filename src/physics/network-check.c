/* network-check.c: what a network must be before it is solved.
 *
 * Messages begin with the column of the case file, then the body or entry, then the field as the
 * column spells it, so that whoever wrote the file finds the place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-private.h"
#include <glib/gi18n-lib.h>
#include <math.h>

#define FARTHEST_M 1e4
#define MOST_JOINT_CELLS 2000.0
#define THICKEST 1e3

/* Permitted range of a figure; @low itself is refused if @open. */
typedef struct
{
  const char *field, *unit;
  double      value, low, high;
  gboolean    open;
} Figure;

/* What a message is about. Names are made for messages only: a verdict checks hundreds of figures, and nearly all of
 * them are right. */
typedef struct
{
  const TlNetwork *network; /* (nullable): else it is @word */
  guint            p, q;    /* bodies; the same for one alone */
  const char      *word;
} Entry;
#define WORD(text) ((Entry){ NULL, 0, 0, (text) })

/* The name of a body for messages; (transfer full). */
static char *
body_name (const TlNetwork *self, guint body)
{
  if (self->bodies[body].name != NULL && self->bodies[body].name[0] != '\0')
    return g_strdup (self->bodies[body].name);
  return g_strdup_printf ("%u", body + 1);
}

/* (transfer full). */
static char *
entry_name (Entry entry)
{
  if (entry.network == NULL)
    return g_strdup (entry.word);
  g_autofree char *p = body_name (entry.network, entry.p);
  g_autofree char *q = body_name (entry.network, entry.q);

  return entry.p == entry.q ? g_steal_pointer (&p) : g_strdup_printf ("%s-%s", p, q);
}

static gboolean
check_figures (const char *column, Entry about, const Figure *figures, guint n, GError **error)
{
  for (guint i = 0; i < n; i++)
    {
      const Figure *f = &figures[i];

      if (isfinite (f->value) && f->value <= f->high
          && (f->open ? f->value > f->low : f->value >= f->low))
        continue;
      g_autofree char *entry = entry_name (about);
      if (f->open)
        g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                     _ ("%s: %s%s%s is %g%s%s; it must be above %g and at most %g"), column, entry,
                     entry[0] == '\0' ? "" : ": ", f->field, f->value,
                     f->unit[0] == '\0' ? "" : " ", f->unit, f->low, f->high);
      else
        g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                     _ ("%s: %s%s%s is %g%s%s; it must be from %g to %g"), column, entry,
                     entry[0] == '\0' ? "" : ": ", f->field, f->value,
                     f->unit[0] == '\0' ? "" : " ", f->unit, f->low, f->high);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_interval (const char *column, Entry about, double x0_m, double x1_m, GError **error)
{
  const Figure figures[] = {
    { "x0", "m", x0_m, -FARTHEST_M, FARTHEST_M, FALSE },
    { "x1", "m", x1_m, -FARTHEST_M, FARTHEST_M, FALSE },
  };

  if (!check_figures (column, about, figures, G_N_ELEMENTS (figures), error))
    return FALSE;
  if (x1_m - x0_m > 10.0 * TL_NET_SAME_M)
    return TRUE;
  g_autofree char *entry = entry_name (about);
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("%s: %s: the interval from x0 = %g to x1 = %g does not rise; x1 must be greater"),
               column, entry, x0_m, x1_m);
  return FALSE;
}

static gboolean
check_inside (const TlNetwork *self, const char *column, Entry about, guint body, double x0_m,
              double x1_m, GError **error)
{
  const TlNetBody *b = &self->bodies[body];

  if (x0_m >= b->x0_m - TL_NET_SAME_M && x1_m <= b->x1_m + TL_NET_SAME_M)
    return TRUE;
  g_autofree char *name = body_name (self, body), *entry = entry_name (about);
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("%s: %s: %g to %g m is not within the body %s, which reaches from %g to %g m"),
               column, entry, x0_m, x1_m, name, b->x0_m, b->x1_m);
  return FALSE;
}

static gboolean
check_bodies (const TlNetwork *self, GError **error)
{
  for (guint i = 0; i < self->n_bodies; i++)
    {
      const TlNetBody *b = &self->bodies[i];
      const Entry      name = { self, i, i, NULL };
      const Figure     figures[] = {
            { "S", "m2", b->section_m2, 0.0, 1.0, TRUE },
            { "rho20", "ohm m", b->resistivity_20_ohm_m, 0.0, 1.0, TRUE },
            { "alpha", "1/K", b->coefficient_per_K, 0.0, 0.1, FALSE },
            { "k", "W/mK", b->conductivity_W_per_mK, 0.0, 1e5, TRUE },
            { "cv", "J/m3K", b->capacity_J_per_m3K, 0.0, 1e9, self->duration_s > 0.0 },
      };

      if (!check_interval ("bodies", name, b->x0_m, b->x1_m, error)
          || !check_figures ("bodies", name, figures, G_N_ELEMENTS (figures), error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_interfaces (const TlNetwork *self, GError **error)
{
  for (guint i = 0; i < self->n_interfaces; i++)
    {
      const TlNetInterface *face = &self->interfaces[i];

      if (face->p >= self->n_bodies || face->q >= self->n_bodies || face->p == face->q)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                       _ ("interfaces: entry %u must join two different bodies"), i + 1);
          return FALSE;
        }
      const Entry  name = { self, face->p, face->q, NULL };
      const Figure figures[] = {
        { "R20", "ohm", face->resistance_20_ohm, 0.0, 1e6, TRUE },
        { "a", "1/K", face->coefficient_per_K, 0.0, 0.1, FALSE },
        { "G", "W/K", face->conductance_W_per_K, 0.0, 1e9, FALSE },
      };
      if (!check_interval ("interfaces", name, face->x0_m, face->x1_m, error)
          || !check_figures ("interfaces", name, figures, G_N_ELEMENTS (figures), error)
          || !check_inside (self, "interfaces", name, face->p, face->x0_m, face->x1_m, error)
          || !check_inside (self, "interfaces", name, face->q, face->x0_m, face->x1_m, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_zones (const TlNetwork *self, GError **error)
{
  for (guint i = 0; i < self->n_zones; i++)
    {
      const TlNetZone *zone = &self->zones[i];

      if (zone->body >= self->n_bodies)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("zones: entry %u must name a body"),
                       i + 1);
          return FALSE;
        }
      const Entry  name = { self, zone->body, zone->body, NULL };
      const Figure figures[] = {
        { "P", "m", zone->perimeter_m, 0.0, THICKEST, TRUE },
        { "D", "m", zone->size_m, 0.0, THICKEST, TRUE },
        { "R'", "K m/W", zone->layer_mK_per_W, 0.0, 1e4, FALSE },
        { "C", "", zone->film_constant, 0.0, 1e6, FALSE },
        { "n", "", zone->film_exponent, 0.0, 1.0, FALSE },
        { "eps", "", zone->emissivity, 0.0, 1.0, FALSE },
        { "c_a", "J/mK", zone->capacity_J_per_mK, 0.0, 1e9, FALSE },
      };
      if (!check_interval ("zones", name, zone->x0_m, zone->x1_m, error)
          || !check_figures ("zones", name, figures, G_N_ELEMENTS (figures), error)
          || !check_inside (self, "zones", name, zone->body, zone->x0_m, zone->x1_m, error))
        return FALSE;
    }
  if (self->n_zones > 0 || self->has_end_a || self->has_end_b)
    return TRUE;
  g_set_error_literal (error, TL_ERROR, TL_ERROR_STATE,
                       _ ("zones: there is no surface and no end is held at a temperature; the "
                          "heat must have a way out"));
  return FALSE;
}

/* Every body must be reached from A through interfaces. */
static gboolean
check_joined (const TlNetwork *self, GError **error)
{
  gboolean reached[TL_NET_MAX_BODIES] = { FALSE };
  gboolean changed = TRUE;

  reached[self->body_a] = TRUE;
  while (changed)
    {
      changed = FALSE;
      for (guint i = 0; i < self->n_interfaces; i++)
        if (reached[self->interfaces[i].p] != reached[self->interfaces[i].q])
          reached[self->interfaces[i].p] = reached[self->interfaces[i].q] = changed = TRUE;
    }
  for (guint i = 0; i < self->n_bodies; i++)
    if (!reached[i])
      {
        g_autofree char *name = body_name (self, i), *first = body_name (self, self->body_a);

        g_set_error (error, TL_ERROR, TL_ERROR_STATE,
                     _ ("interfaces: the body %s is not joined to %s; every body must be reached "
                        "through interfaces"),
                     name, first);
        return FALSE;
      }
  return TRUE;
}

static gboolean
check_ends (const TlNetwork *self, GError **error)
{
  for (guint i = 0; i < self->n_bodies; i++)
    {
      const gboolean left = self->bodies[i].x0_m < self->bodies[self->body_a].x0_m - TL_NET_SAME_M;
      const gboolean right = self->bodies[i].x1_m > self->bodies[self->body_b].x1_m + TL_NET_SAME_M;

      if (!left && !right)
        continue;
      g_autofree char *name = body_name (self, i),
                      *outer = body_name (self, left ? self->body_a : self->body_b);
      if (left)
        g_set_error (error, TL_ERROR, TL_ERROR_STATE,
                     _ ("bodies: %s: x0 lies left of the body %s, which must reach the left end"),
                     name, outer);
      else
        g_set_error (error, TL_ERROR, TL_ERROR_STATE,
                     _ ("bodies: %s: x1 lies right of the body %s, which must reach the right end"),
                     name, outer);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_probe (const TlNetwork *self, const char *column, guint body, double x_m, GError **error)
{
  const TlNetBody *b = &self->bodies[body];

  if (isfinite (x_m) && x_m >= b->x0_m - TL_NET_SAME_M && x_m <= b->x1_m + TL_NET_SAME_M)
    return TRUE;
  g_autofree char *name = body_name (self, body);
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
               _ ("%s: %g m is not on the body %s, which reaches from %g to %g m"), column, x_m,
               name, b->x0_m, b->x1_m);
  return FALSE;
}

static gboolean
check_places (const TlNetwork *self, GError **error)
{
  const double left = self->bodies[self->body_a].x0_m, right = self->bodies[self->body_b].x1_m;
  const double mesh_m = self->mesh_m > 0.0 ? self->mesh_m : 1e-3;

  if (!check_interval ("xj0, xj1", WORD (_ ("joint zone")), self->joint_x0_m, self->joint_x1_m,
                       error)
      || !check_probe (self, "x_leadA", self->body_a, self->lead_a_x_m, error)
      || !check_probe (self, "x_leadB", self->body_b, self->lead_b_x_m, error)
      || !check_probe (self, "xv_A", self->body_a, self->volt_a_x_m, error)
      || !check_probe (self, "xv_B", self->body_b, self->volt_b_x_m, error))
    return FALSE;
  if (self->joint_x0_m < left - TL_NET_SAME_M || self->joint_x1_m > right + TL_NET_SAME_M)
    {
      g_set_error (
          error, TL_ERROR, TL_ERROR_RANGE,
          _ ("xj0, xj1: the joint zone from %g to %g m is not within the model, %g to %g m"),
          self->joint_x0_m, self->joint_x1_m, left, right);
      return FALSE;
    }
  if ((self->joint_x1_m - self->joint_x0_m) / mesh_m > MOST_JOINT_CELLS)
    {
      g_set_error (
          error, TL_ERROR, TL_ERROR_LIMIT,
          _ ("xj0, xj1: the joint zone is %g m long; with cells of %g m it may be %g m at most"),
          self->joint_x1_m - self->joint_x0_m, mesh_m, MOST_JOINT_CELLS * mesh_m);
      return FALSE;
    }
  if (self->box_W_per_K > 0.0)
    return check_interval ("box_x0, box_x1", WORD (_ ("box")), self->box_x0_m, self->box_x1_m,
                           error);
  return TRUE;
}

gboolean
tl_network_check (const TlNetwork *self, GError **error)
{
  g_return_val_if_fail (self != NULL, FALSE);

  const Figure counts[] = {
    { _ ("number of bodies"), "", self->n_bodies, 1.0, TL_NET_MAX_BODIES, FALSE },
  };
  const Figure more_counts[] = {
    { _ ("number of interfaces"), "", self->n_interfaces, 0.0, TL_NET_MAX_INTERFACES, FALSE },
  };
  const Figure most_counts[] = {
    { _ ("number of zones"), "", self->n_zones, 0.0, TL_NET_MAX_ZONES, FALSE },
  };
  const Figure ends_C[] = {
    { "T", "degC", self->has_end_a ? self->end_a_C : 0.0, -200.0, 2000.0, FALSE },
    { "T", "degC", self->has_end_b ? self->end_b_C : 0.0, -200.0, 2000.0, FALSE },
  };
  const struct
  {
    const char *column;
    Figure      figure;
  } scalars[] = {
    { "I_A", { "I", "A", self->current_A, 0.0, TL_NET_MAX_CURRENT_A, FALSE } },
    { "T_amb_C", { "T", "degC", self->ambient_C, -100.0, 1000.0, FALSE } },
    { "G_box_W_K", { "G", "W/K", self->box_W_per_K, 0.0, 1e6, FALSE } },
    { "P_extra_W", { "P", "W", self->box_extra_W, 0.0, 1e6, FALSE } },
    { "C_box_J_K", { "C", "J/K", self->box_J_per_K, 0.0, 1e9, FALSE } },
    { "I_pre_A", { "I", "A", self->before_A, 0.0, TL_NET_MAX_CURRENT_A, FALSE } },
    { "t_end_s", { "t", "s", self->duration_s, 0.0, 1e7, FALSE } },
  };

  if (!check_figures ("bodies", WORD (""), counts, 1, error)
      || !check_figures ("interfaces", WORD (""), more_counts, 1, error)
      || !check_figures ("zones", WORD (""), most_counts, 1, error))
    return FALSE;
  g_return_val_if_fail (self->body_a < self->n_bodies && self->body_b < self->n_bodies, FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (scalars); i++)
    if (!check_figures (scalars[i].column, WORD (""), &scalars[i].figure, 1, error))
      return FALSE;
  if (!check_figures ("bc_A", WORD (""), &ends_C[0], 1, error)
      || !check_figures ("bc_B", WORD (""), &ends_C[1], 1, error))
    return FALSE;
  return check_bodies (self, error) && check_interfaces (self, error) && check_zones (self, error)
         && check_joined (self, error) && check_ends (self, error) && check_places (self, error);
}
