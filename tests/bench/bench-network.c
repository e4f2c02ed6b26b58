/* bench-network.c: time of the heat network, of its quick answer, and of a general circuit simulator
 * on the same network.
 *
 * The simulator's time is that of the whole process less that of one with an almost empty netlist, in
 * the same run; it solves one mesh of 0.5 mm, the network a mesh of 1 mm and its halving.
 * With "--count ROW TIMES" it only solves that row of the reference file: for counting instructions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

#include "physics/lead.h"
#include "physics/network-cases.h"
#include "../unit/physics/spice.h"

#define TIMES 300
#define QUICK_TIMES 10000
#define SIMULATOR_RUNS 5
#define CELL_M 5e-4

typedef struct
{
  const TlNetwork *network;
  TlNetWorkspace  *workspace;
} Full;

static void
solve_full (gpointer data, guint times)
{
  const Full *self = data;

  for (guint i = 0; i < times; i++)
    {
      g_auto (TlNetResult) result = { 0 };

      if (!tl_network_solve (self->network, self->workspace, &result, NULL))
        g_error ("the network was refused");
    }
}

static void
solve_quick (gpointer data, guint times)
{
  TlLumpedResult result;

  for (guint i = 0; i < times; i++)
    if (!tl_lumped_solve (data, &result))
      g_error ("the quick answer has no steady state");
}

/* A lap of 2.5 mm2 as one lump in a box: the dearest form of the quick answer but for more lumps. */
static TlLumped
lumped_lap (void)
{
  const TlLeadSurface covered = { 0.0106315, 0.00338412, 0.599328, 1.32, 0.25, 0.9 };
  TlLumped model = { .n_lumps = 1, .n_leads = 2, .ambient_C = 30.0, .box_W_per_K = 0.45 };

  model.lumps[0] = (TlLump){ 4.4e-4, 0.0035, 20.0, { 4.5e-4, 0.0072, 10.0, 1.32, 0.25, 0.9 } };
  model.leads[0] = (TlLumpLead){ { 2.5e-6, 2.8264e-8, 0.00403, 230.0, covered }, 0, 20.0, 0.12 };
  model.leads[1] = (TlLumpLead){ { 2.5e-6, 1.7241e-8, 0.00393, 390.0, covered }, 0, 20.0, 0.12 };
  return model;
}

static double
run_empty (const char *folder)
{
  g_autofree char *netlist = g_build_filename (folder, "empty.cir", NULL);
  const char      *argv[] = { "ngspice", "-b", netlist, NULL };
  const char      *text = "empty\nR1 a 0 1\nV1 a 0 1\n.control\nop\nquit\n.endc\n.end\n";
  GError          *error = NULL;

  if (!g_file_set_contents (netlist, text, -1, &error))
    g_error ("%s", error->message);
  const gint64 start_us = g_get_monotonic_time ();
  if (!g_spawn_sync (NULL, (char **) argv, NULL,
                     G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                     NULL, NULL, NULL, NULL, NULL, &error))
    g_error ("%s", error->message);
  const double took_us = (double) (g_get_monotonic_time () - start_us);
  g_remove (netlist);
  return took_us;
}

/* The least of some runs each: what else the machine does only adds. */
static void
compare_with_simulator (const TlNetwork *network, double full_us)
{
  double      whole_us = G_MAXDOUBLE, empty_us = G_MAXDOUBLE;
  const char *left[] = { "net.cir", "net.data", "net.log" };

  if (!spice_is_there ())
    {
      g_print ("network.simulator not installed\n");
      return;
    }
  g_autofree char *folder = g_dir_make_tmp ("tinlap-bench-XXXXXX", NULL);
  for (guint i = 0; i < SIMULATOR_RUNS; i++)
    {
      SpiceAnswer  answer;
      const gint64 start_us = g_get_monotonic_time ();

      spice_solve (network, CELL_M, folder, &answer);
      whole_us = MIN (whole_us, (double) (g_get_monotonic_time () - start_us));
      empty_us = MIN (empty_us, run_empty (folder));
    }
  for (guint i = 0; i < G_N_ELEMENTS (left); i++)
    {
      g_autofree char *file = g_build_filename (folder, left[i], NULL);
      g_remove (file);
    }
  g_rmdir (folder);
  g_print ("network.simulator %.0f us\n", whole_us - empty_us);
  g_print ("network.times-faster %.0f 1\n", (whole_us - empty_us) / full_us);
}

int
main (int argc, char **argv)
{
  const char      *root = g_getenv ("TINLAP_SOURCE_ROOT");
  g_autofree char *path = g_build_filename (root != NULL ? root : ".", "tests", "reference",
                                            "electrothermal_cases.csv", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) cases = tl_net_cases_read (path, &error);
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();
  double first_us = 0.0;

  if (cases == NULL)
    g_error ("%s", error->message);
  if (argc == 4 && strcmp (argv[1], "--count") == 0)
    {
      const guint row = (guint) strtoul (argv[2], NULL, 10);
      Full full = { &((TlNetCase *) cases->pdata[MIN (row, cases->len - 1)])->network, workspace };

      solve_full (&full, (guint) strtoul (argv[3], NULL, 10));
      return 0;
    }
  for (guint i = 0; i < cases->len; i++)
    {
      const TlNetCase *one = cases->pdata[i];
      Full             full = { &one->network, workspace };
      const gboolean   in_time = one->network.duration_s > 0.0;
      const double     us = bench_median_us (solve_full, &full, in_time ? 10 : TIMES);

      g_print ("network.%s %.1f us\n", one->id, us);
      if (i == 0)
        first_us = us;
    }
  TlLumped model = lumped_lap ();
  g_print ("network.quick %.2f us\n", bench_median_us (solve_quick, &model, QUICK_TIMES));
  compare_with_simulator (&((TlNetCase *) cases->pdata[0])->network, first_us);
  return 0;
}
