/* nets.h: networks for tests: a plain one to alter, its mirror image, and random ones.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "physics/network.h"
#include <math.h>

#define NET_BODIES 5
#define NET_INTERFACES 8
#define NET_ZONES 16

/* A network with room of its own; net_fix() after copying. */
typedef struct
{
  TlNetwork      net;
  TlNetBody      bodies[NET_BODIES];
  TlNetInterface interfaces[NET_INTERFACES];
  TlNetZone      zones[NET_ZONES];
} Net;

static inline void
net_fix (Net *self)
{
  self->net.bodies = self->bodies;
  self->net.interfaces = self->interfaces;
  self->net.zones = self->zones;
}

static inline guint
net_body (Net *self, const char *name, double x0_m, double x1_m, double section_m2,
          gboolean aluminium)
{
  self->bodies[self->net.n_bodies] = (TlNetBody){ name,
                                                  x0_m,
                                                  x1_m,
                                                  section_m2,
                                                  aluminium ? 2.8264e-8 : 1.7241e-8,
                                                  aluminium ? 0.00403 : 0.00393,
                                                  aluminium ? 230.0 : 390.0,
                                                  aluminium ? 2.43e6 : 3.45e6 };
  return self->net.n_bodies++;
}

static inline TlNetInterface *
net_join (Net *self, guint p, guint q, double x0_m, double x1_m, double ohm, double W_per_K)
{
  TlNetInterface *face = &self->interfaces[self->net.n_interfaces++];

  *face = (TlNetInterface){ p, q, x0_m, x1_m, ohm, 0.0, W_per_K };
  return face;
}

/* A bare cylinder in still air, covered by PVC of @layer_m. */
static inline TlNetZone *
net_cool (Net *self, guint body, double x0_m, double x1_m, double diameter_m, double layer_m,
          double emissivity)
{
  TlNetZone   *zone = &self->zones[self->net.n_zones++];
  const double outside_m = diameter_m + 2.0 * layer_m;

  *zone = (TlNetZone){
    body,       x0_m,
    x1_m,       G_PI * outside_m,
    outside_m,  log (outside_m / diameter_m) / (2.0 * G_PI * 0.17),
    1.32,       0.25,
    emissivity, layer_m > 0.0 ? 5.0 : 0.0,
  };
  return zone;
}

static inline void
net_places (Net *self, double joint_m, double probe_m)
{
  self->net.joint_x0_m = self->net.volt_a_x_m = -joint_m;
  self->net.joint_x1_m = self->net.volt_b_x_m = joint_m;
  self->net.lead_a_x_m = -probe_m;
  self->net.lead_b_x_m = probe_m;
}

/* A butt joint almost without length between two bare round conductors of @length_m, film as a constant
 * @film_W_per_m2K: what the closed forms of fins describe. */
static inline void
net_butt (Net *self, double length_m, gboolean aluminium_a, gboolean aluminium_b, double section_m2,
          double diameter_m, double ohm, double film_W_per_m2K)
{
  const double half_m = 5e-5;

  *self = (Net){ 0 };
  tl_network_init_defaults (&self->net);
  const guint a = net_body (self, "A", -length_m, half_m, section_m2, aluminium_a);
  const guint b = net_body (self, "B", -half_m, length_m, section_m2, aluminium_b);
  net_join (self, a, b, -half_m, half_m, ohm, 1e4);
  for (guint i = 0; i < 2; i++)
    {
      TlNetZone *zone = net_cool (self, i == 0 ? a : b, i == 0 ? -length_m : 0.0,
                                  i == 0 ? 0.0 : length_m, diameter_m, 0.0, 0.0);
      zone->film_constant = film_W_per_m2K;
      zone->film_exponent = 0.0;
    }
  self->net.body_b = b;
  net_places (self, 0.005, 0.3);
  net_fix (self);
}

/* Two conductors lapped in a barrel, covered leads, bare barrel. */
static inline void
net_lap (Net *self, double current_A)
{
  *self = (Net){ 0 };
  tl_network_init_defaults (&self->net);
  const guint a = net_body (self, "A", -1.0, 0.01, 2.5e-6, TRUE);
  const guint b = net_body (self, "B", -0.01, 1.0, 2.5e-6, FALSE);
  const guint m = net_body (self, "M", -0.01, 0.01, 9e-6, FALSE);
  net_join (self, a, b, -0.01, 0.01, 2e-4, 3.0)->coefficient_per_K = 0.0026;
  net_join (self, a, m, -0.01, 0.01, 1.2e-4, 4.0);
  net_join (self, b, m, -0.01, 0.01, 8e-5, 5.0);
  net_cool (self, a, -1.0, -0.01, 1.78e-3, 8e-4, 0.9);
  net_cool (self, b, 0.01, 1.0, 1.78e-3, 8e-4, 0.9);
  net_cool (self, m, -0.01, 0.01, 7e-3, 0.0, 0.3);
  self->net.body_b = b;
  self->net.current_A = current_A;
  net_places (self, 0.02, 0.3);
  net_fix (self);
}

/* Left and right exchanged. */
static inline void
net_mirror (Net *self)
{
  const TlNetwork old = self->net;

  for (guint i = 0; i < old.n_bodies; i++)
    {
      const double x0_m = self->bodies[i].x0_m;
      self->bodies[i].x0_m = -self->bodies[i].x1_m;
      self->bodies[i].x1_m = -x0_m;
    }
  for (guint i = 0; i < old.n_interfaces; i++)
    {
      const double x0_m = self->interfaces[i].x0_m;
      self->interfaces[i].x0_m = -self->interfaces[i].x1_m;
      self->interfaces[i].x1_m = -x0_m;
    }
  for (guint i = 0; i < old.n_zones; i++)
    {
      const double x0_m = self->zones[i].x0_m;
      self->zones[i].x0_m = -self->zones[i].x1_m;
      self->zones[i].x1_m = -x0_m;
    }
  self->net.body_a = old.body_b;
  self->net.body_b = old.body_a;
  self->net.box_x0_m = -old.box_x1_m;
  self->net.box_x1_m = -old.box_x0_m;
  self->net.joint_x0_m = -old.joint_x1_m;
  self->net.joint_x1_m = -old.joint_x0_m;
  self->net.lead_a_x_m = -old.lead_b_x_m;
  self->net.lead_b_x_m = -old.lead_a_x_m;
  self->net.volt_a_x_m = -old.volt_b_x_m;
  self->net.volt_b_x_m = -old.volt_a_x_m;
  self->net.has_end_a = old.has_end_b;
  self->net.has_end_b = old.has_end_a;
  self->net.end_a_C = old.end_b_C;
  self->net.end_b_C = old.end_a_C;
}

static inline double
net_log_range (GRand *random, double low, double high)
{
  return low * pow (high / low, g_rand_double (random));
}

/* A random joint: lap or butt of two conductors, up to three pieces beside them, box, held ends. */
static inline void
net_random (Net *self, GRand *random)
{
  static const char *const names[] = { "M", "N", "O" };
  const double             section_m2 = net_log_range (random, 1.5e-6, 5e-5);
  const double             diameter_m = sqrt (4.0 * section_m2 / G_PI),
               lap_m = net_log_range (random, 0.004, 0.03);
  const double length_m = g_rand_double_range (random, 0.4, 1.6);
  const guint  pieces = (guint) g_rand_int_range (random, 0, 4);
  const double contact = net_log_range (random, 1e-5, 3e-3);

  *self = (Net){ 0 };
  tl_network_init_defaults (&self->net);
  self->net.ambient_C = g_rand_double_range (random, 0.0, 45.0);
  const guint a = net_body (self, "A", -length_m, lap_m, section_m2, g_rand_boolean (random));
  const guint b = net_body (self, "B", -lap_m, length_m, section_m2, g_rand_boolean (random));
  if (pieces == 0 || g_rand_boolean (random))
    net_join (self, a, b, -lap_m, lap_m, contact, net_log_range (random, 0.3, 30.0))
        ->coefficient_per_K = 0.0026;
  for (guint i = 0; i < pieces; i++)
    {
      const double out_m = g_rand_double_range (random, 0.5, 1.0) * lap_m;
      const guint  m =
          net_body (self, names[i], -out_m, out_m, section_m2 * net_log_range (random, 0.3, 4.0),
                    g_rand_boolean (random));
      net_join (self, a, m, -out_m, out_m, contact * net_log_range (random, 0.3, 3.0),
                net_log_range (random, 0.3, 30.0));
      net_join (self, b, m, -out_m, out_m, contact * net_log_range (random, 0.3, 3.0),
                net_log_range (random, 0.3, 30.0));
      net_cool (self, m, -out_m, out_m, 2.0 * diameter_m, 0.0, g_rand_double (random));
    }
  net_cool (self, a, -length_m, -lap_m, diameter_m, 8e-4, 0.9);
  net_cool (self, b, lap_m, length_m, diameter_m, 8e-4, 0.9);
  if (g_rand_boolean (random))
    net_cool (self, a, -lap_m, lap_m, diameter_m, 0.0, 0.1);
  self->net.body_b = b;
  self->net.current_A =
      section_m2 * 1e6 * net_log_range (random, 0.5, 9.0) * pow (2.5e-6 / section_m2, 0.3);
  if (g_rand_boolean (random))
    {
      self->net.box_x0_m = -g_rand_double_range (random, 0.05, 0.3);
      self->net.box_x1_m = g_rand_double_range (random, 0.05, 0.3);
      self->net.box_W_per_K = net_log_range (random, 0.2, 2.0);
      self->net.box_extra_W = g_rand_double_range (random, 0.0, 3.0);
    }
  self->net.has_end_a = g_rand_int_range (random, 0, 4) == 0;
  self->net.has_end_b = g_rand_int_range (random, 0, 4) == 0;
  self->net.end_a_C = self->net.ambient_C + g_rand_double_range (random, 0.0, 40.0);
  self->net.end_b_C = self->net.ambient_C + g_rand_double_range (random, 0.0, 40.0);
  net_places (self, lap_m + 0.004, 0.3);
  net_fix (self);
}
