/* The verb `calc heat-network`: what it prints, its exit codes, and its refusals.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/calc.h"
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

enum
{
  DONE,
  OUT,
  WRONG
};

/* Runs the verb in a child on the reference file with @from replaced by @to in it; checks the exit code. */
static void
run (const char *option, const char *from, const char *to, int code)
{
  if (g_test_subprocess ())
    {
      g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests",
                                                "reference", "electrothermal_cases.csv", NULL);
      g_autofree char *data = NULL, *copy = NULL;
      const char      *argv[] = { "calc", option, "heat-network", "--cases", NULL, NULL };

      g_assert_true (g_file_get_contents (path, &data, NULL, NULL));
      g_autoptr (GString) text = g_string_new (data);
      if (from != NULL)
        g_assert_cmpuint (g_string_replace (text, from, to, 1), ==, 1);
      close (g_file_open_tmp ("tinlap-heat-XXXXXX.csv", &copy, NULL));
      g_assert_true (g_file_set_contents (copy, text->str, -1, NULL));
      argv[4] = copy;
      const int got = tl_cli_calc (5, (char **) argv, tl_language_plain ());
      g_remove (copy);
      /* As a sign of the exit code on the channel that the trap reads. */
      g_printerr ("\nexit code %d\n", got);
      return;
    }
  g_autofree char *says = g_strdup_printf ("*exit code %d*", code);
  g_test_trap_subprocess (NULL, 0, G_TEST_SUBPROCESS_DEFAULT);
  g_test_trap_assert_passed ();
  g_test_trap_assert_stderr (says);
}

/* Computed beside expected for every figure, and the count last. */
static void
test_table (void)
{
  run ("--language=en", NULL, NULL, DONE);
  if (g_test_subprocess ())
    return;
  g_test_trap_assert_stdout ("*O1_lap_crimp_2.5Al_2.5Cu\tT_hot_C\t53.72*\t53.7252\t0.0745\tin\n*");
  g_test_trap_assert_stdout (
      "*O5_transient_overload_2.5\tmax_V_interface_V\t0.034060*\t0.0340608\t0.000103\tin\n*");
  g_test_trap_assert_stdout ("*O6_two_strands_parallel_fixed_ends\thot_body\tA\tA\t-\t-\n*");
  g_test_trap_assert_stdout ("*6 passed, 0 failed\n*");
}

static void
test_json (void)
{
  run ("--json", NULL, NULL, DONE);
  if (g_test_subprocess ())
    return;
  g_test_trap_assert_stdout ("*\"id\" : \"O1_lap_crimp_2.5Al_2.5Cu\"*");
  g_test_trap_assert_stdout ("*\"output\" : \"T_hot_C\"*\"unit\" : \"degC\"*");
  g_test_trap_assert_stdout ("*\"passed\" : 6*\"failed\" : 0*");
}

/* One figure a little outside its tolerance fails its case and no other. */
static void
test_out (void)
{
  run ("--language=en", "ok,53.7252,0.0745", "ok,53.8,0.0745", OUT);
  if (g_test_subprocess ())
    return;
  g_test_trap_assert_stdout ("*O1_lap_crimp_2.5Al_2.5Cu\tT_hot_C\t53.72*\t53.8\t0.0745\tout\n*");
  g_test_trap_assert_stdout ("*5 passed, 1 failed\n*");
}

/* Ten times the current: the steady state that the row expects is not there, and no figure is shown. */
static void
test_runaway (void)
{
  run ("--language=en", ",20,30,0.0,0.0,0,", ",400,30,0.0,0.0,0,", OUT);
  if (g_test_subprocess ())
    return;
  g_test_trap_assert_stdout ("*O1_lap_crimp_2.5Al_2.5Cu\tstatus\tno_steady_state\tok\t-\tout\n*");
  g_test_trap_assert_stdout ("*O1_lap_crimp_2.5Al_2.5Cu\tT_hot_C\t-\t53.7252\t0.0745\tout\n*");
}

/* One wrong row, and there is only its place. */
static void
test_refused (void)
{
  run ("--language=en", "0.01,2.5e-06", "0.01,-2.5e-06", WRONG);
  if (g_test_subprocess ())
    return;
  g_test_trap_assert_stderr ("*.csv:2: bodies: A: S is -2.5e-06 m2; it must be above 0*");
  g_test_trap_assert_stdout_unmatched ("*passed*");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/heat-cases/table", test_table);
  g_test_add_func ("/heat-cases/json", test_json);
  g_test_add_func ("/heat-cases/out", test_out);
  g_test_add_func ("/heat-cases/runaway", test_runaway);
  g_test_add_func ("/heat-cases/refused", test_refused);
  return g_test_run ();
}
