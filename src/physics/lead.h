/* lead.h: the quick answer: a joint of a few lumps between long conductors.
 *
 * For search and for previews while a part is dragged. A long uniform conductor needs no mesh: the
 * heat that flows into it follows exactly from a first integral of its heat balance, with the film's
 * and the resistivity's dependence on temperature kept. The joint is up to five lumps at one
 * temperature each. Sound joints rank right; before a limit is trusted, and whenever a contact
 * carries more than 50 mV, the network of network.h decides.
 *
 * Source: first integral of k S T'' = q'(T) - I^2 rho(T)/S, derived; linear fins in Incropera and
 * DeWitt, Fundamentals of Heat and Mass Transfer, chapter 3
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>

G_BEGIN_DECLS

#define TL_LEAD_MAX_LUMPS 5
#define TL_LEAD_MAX_LEADS 8
#define TL_LEAD_MAX_LINKS 10

/* A surface for each metre (or of a whole lump); the law of #TlNetZone. */
typedef struct
{
  double perimeter_m; /* of a lump: its area divided by 1 m */
  double size_m;
  double layer_mK_per_W;
  double film_constant;
  double film_exponent;
  double emissivity;
} TlLeadSurface;

/* A long uniform conductor. */
typedef struct
{
  double        section_m2;
  double        resistivity_20_ohm_m;
  double        coefficient_per_K;
  double        conductivity_W_per_mK;
  TlLeadSurface surface;
} TlLead;

/**
 * tl_lead_far:
 * @current_A: 0 or more
 * @air_C: around it
 * @far_C: (out): where its own heat equals its loss, far from any joint
 * Returns: %FALSE if there is none below 3000 degC: the conductor runs away by itself
 */
gboolean tl_lead_far (const TlLead *self, double current_A, double air_C, double *far_C);

/**
 * tl_lead_heat_W:
 * @far_C: from tl_lead_far()
 * @end_C: temperature at its near end
 * @slope_W_per_K: (out) (nullable): change with @end_C
 *
 * Heat into the conductor; negative when it warms the joint. Exact for a conductor longer than about
 * three decay lengths, to the four Gauss points of the integral (six digits).
 */
double tl_lead_heat_W (const TlLead *self, double current_A, double air_C, double far_C,
                       double end_C, double *slope_W_per_K);

/* One lump of metal at one temperature; shorter than a third of its decay length. */
typedef struct
{
  double        resistance_20_ohm; /* its own and of the contacts that warm it */
  double        coefficient_per_K;
  double        current_A; /* through it */
  TlLeadSurface surface;   /* perimeter 0: none */
} TlLump;

/* A conductor at a lump. */
typedef struct
{
  TlLead lead;
  guint  lump;
  double current_A;
  double boxed_m; /* length of it inside the box, for the box's balance */
} TlLumpLead;

typedef struct
{
  guint  p, q;
  double W_per_K;
} TlLumpLink;

typedef struct
{
  guint      n_lumps, n_leads, n_links;
  TlLump     lumps[TL_LEAD_MAX_LUMPS];
  TlLumpLead leads[TL_LEAD_MAX_LEADS];
  TlLumpLink links[TL_LEAD_MAX_LINKS];
  double     ambient_C;
  double     box_W_per_K; /* 0: no box; else lumps and leads stand in its air */
  double     box_extra_W;
} TlLumped;

typedef struct
{
  double lump_C[TL_LEAD_MAX_LUMPS];
  double far_C[TL_LEAD_MAX_LEADS];  /* leads without joint */
  double lead_W[TL_LEAD_MAX_LEADS]; /* into each lead */
  double box_C;
  guint  passes;
} TlLumpedResult;

/**
 * tl_lumped_solve:
 * Newton on the lumps, the box's air outside of it. No allocation, no checks.
 * Returns: %FALSE if there is no steady state or anything is not finite
 */
gboolean tl_lumped_solve (const TlLumped *self, TlLumpedResult *result);

G_END_DECLS
