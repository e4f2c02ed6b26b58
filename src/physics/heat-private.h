/* heat-private.h: what the files of the subject heat share: still air and its rules.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

/* W/m2K4 */
#define TL_STEFAN_BOLTZMANN 5.670374419e-8
#define TL_GRAVITY_M_PER_S2 9.81

/* Dry air at 1 atm. */
typedef struct
{
  double viscosity_m2_per_s; /* kinematic */
  double conductivity_W_per_mK;
  double diffusivity_m2_per_s;
  double prandtl;
} TlAir;

/* Rules for a long horizontal cylinder in still air; the order of tl_film_rule_words. */
typedef enum
{
  TL_FILM_CHURCHILL_CHU,
  TL_FILM_MORGAN,
  TL_FILM_QUARTER_POWER,
} TlFilmRule;

extern const char *const tl_film_rule_words[];

/* Straight lines between 300, 350 and 400 K, the outer ones carried on. */
TlAir  tl_heat_air (double temperature_C);
double tl_heat_nusselt (TlFilmRule rule, double rayleigh, double prandtl);
/* Convection and radiation of a horizontal cylinder in still air, W/m; negative if it is colder. */
double tl_heat_still_air_W_per_m (TlFilmRule rule, double diameter_m, double surface_C,
                                  double ambient_C, double emissivity);
/* Radiation of a cylinder in large surroundings, W/m. */
double tl_heat_radiation_W_per_m (double emissivity, double diameter_m, double surface_C,
                                  double surroundings_C);
