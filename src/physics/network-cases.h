/* network-cases.h: files of electro-thermal cases, and the solver's answer to each.
 *
 * CSV with the columns case, bodies, interfaces, zones, I_A, T_amb_C, box_x0, box_x1, G_box_W_K,
 * P_extra_W, C_box_J_K, bc_A, bc_B, I_pre_A, t_end_s, xj0, xj1, x_leadA, x_leadB, xv_A, xv_B, in any
 * order; optional: note, expect_status, each figure ("T_hot_C") and its tolerance ("tol_T_hot_C").
 * bodies: "name,x0,x1,S,rho20,alpha,k,cv;...", interfaces: "p,q,x0,x1,R20,a,G;...",
 * zones: "body,x0,x1,P,D,R',C,n,eps,c_a;...", all in SI units. bc: "adiabatic" or degC.
 *
 * All rows are read and checked before any is solved: one bad row and there is only its place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "network.h"

G_BEGIN_DECLS

/* Figures of a case file without a tolerance: shown beside the computed ones, not judged. */
typedef enum
{
  TL_NET_SHARES,    /* Q_frac_A_B_S: leads and surface as shares of the zone's heat */
  TL_NET_JOINT_OHM, /* R_joint_ohm */
  TL_NET_HOT_BODY,  /* hot_body */
  TL_NET_HOT_X,     /* x_hot_m */
  TL_NET_N_REMARKS
} TlNetRemark;

typedef struct
{
  guint     line;
  char     *id;
  char     *note;
  TlNetwork network;           /* its arrays belong to the case */
  gboolean  expects_no_steady; /* expect_status is no_steady_state */
  gboolean  has_status;        /* expect_status is given */
  gboolean  has_expected[TL_NET_N_FIGURES];
  gboolean  has_tolerance[TL_NET_N_FIGURES];
  double    expected[TL_NET_N_FIGURES];
  double    tolerance[TL_NET_N_FIGURES]; /* absolute, in the figure's unit */
  char     *remarks[TL_NET_N_REMARKS];   /* (nullable): as the file has them */
} TlNetCase;

/**
 * tl_net_cases_parse:
 * @data: @length bytes
 * @file: name for messages
 *
 * Body "A" takes the current at its left end and "B" gives it back; where no body has that name, the
 * one that alone reaches the left (right) end does.
 * Returns: (transfer full) (nullable) (element-type TlNetCase): %NULL with "FILE:LINE: column: ..."
 */
GPtrArray *tl_net_cases_parse (const char *data, gsize length, const char *file,
                               GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Reads @path, then tl_net_cases_parse(). */
GPtrArray *tl_net_cases_read (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* %TRUE if figure @i of @result is as the case expects, or nothing is expected of it. */
gboolean tl_net_case_fits (const TlNetCase *self, const TlNetResult *result, guint i);
/* %TRUE if the status is as expected; without expectation a steady state is. */
gboolean tl_net_case_status_fits (const TlNetCase *self, const TlNetResult *result);

/* Column of a remark ("R_joint_ohm"); (transfer none) */
const char *tl_net_remark_name (TlNetRemark remark);
/* The computed remark as text; (transfer full) */
char       *tl_net_remark_text (const TlNetCase *self, const TlNetResult *result,
                                TlNetRemark remark) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
