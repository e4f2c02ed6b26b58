/* The same networks by a general circuit simulator, ngspice: the cases of the reference file and a seeded
 * sample of random joints. Every temperature within 0.05 K, the drop within 0.1 %.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/network-cases.h"
#include "nets.h"
#include "spice.h"
#include <glib/gstdio.h>

#define WITHIN_K 0.05
#define DROP_SHARE 1e-3
#define CELL_M 4e-4
#define SEED 20260

static char *folder;

static void
near (const char *what, double found, double wanted, double within)
{
  g_test_message ("%s: %.9g, the simulator %.9g", what, found, wanted);
  g_assert_cmpfloat (fabs (found - wanted), <=, within);
}

static gboolean
skip_without_simulator (void)
{
  if (spice_is_there ())
    return FALSE;
  g_test_skip ("ngspice is not installed: apt-get install ngspice");
  return TRUE;
}

static void
compare (const TlNetwork *network)
{
  SpiceAnswer wanted;
  g_auto (TlNetResult) r = { 0 };
  g_autoptr (GError) error = NULL;

  tl_network_solve (network, NULL, &r, &error);
  g_assert_no_error (error);
  g_assert_cmpint (r.status, ==, TL_NET_OK);
  spice_solve (network, CELL_M, folder, &wanted);
  near ("hot", r.value[TL_NET_HOT_C], wanted.hot_C, WITHIN_K);
  near ("lead A", r.value[TL_NET_LEAD_A_C], wanted.lead_a_C, WITHIN_K);
  near ("lead B", r.value[TL_NET_LEAD_B_C], wanted.lead_b_C, WITHIN_K);
  near ("box", r.value[TL_NET_BOX_C], wanted.box_C, WITHIN_K);
  near ("drop", r.value[TL_NET_JOINT_V], wanted.joint_V, DROP_SHARE * wanted.joint_V);
}

static void
test_row (gconstpointer data)
{
  if (!skip_without_simulator ())
    compare (&((const TlNetCase *) data)->network);
}

static void
test_sample (gconstpointer data)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (SEED + GPOINTER_TO_UINT (data));
  Net net;

  if (skip_without_simulator ())
    return;
  net_random (&net, random);
  compare (&net.net);
}

int
main (int argc, char **argv)
{
  const guint count = g_strcmp0 (g_getenv ("TINLAP_LONG"), "1") == 0 ? 50 : 4;
  g_autoptr (GError) error = NULL;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("tinlap-spice-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "reference",
                                            "electrothermal_cases.csv", NULL);
  g_autoptr (GPtrArray) cases = tl_net_cases_read (path, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < cases->len; i++)
    {
      g_autofree char *name =
          g_strdup_printf ("/network-spice/row/%s", ((TlNetCase *) cases->pdata[i])->id);
      g_test_add_data_func (name, cases->pdata[i], test_row);
    }
  for (guint i = 0; i < count; i++)
    {
      g_autofree char *name = g_strdup_printf ("/network-spice/sample/%u", SEED + i);
      g_test_add_data_func (name, GUINT_TO_POINTER (i), test_sample);
    }
  const int                result = g_test_run ();
  static const char *const left[] = { "net.cir", "net.data", "net.log" };
  for (guint i = 0; i < G_N_ELEMENTS (left); i++)
    {
      g_autofree char *file = g_build_filename (folder, left[i], NULL);
      g_remove (file);
    }
  g_rmdir (folder);
  g_free (folder);
  return result;
}
