/* Files of electro-thermal cases: every row of the reference file, and what is refused where.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "physics/network-cases.h"
#include <string.h>

#define HEAD                                                                                       \
  "case,bodies,interfaces,zones,I_A,T_amb_C,box_x0,box_x1,G_box_W_K,P_extra_W,C_box_J_K,bc_A,bc_"  \
  "B,I_pre_A,t_end_s,"                                                                             \
  "xj0,xj1,x_leadA,x_leadB,xv_A,xv_B\n"
#define BODIES                                                                                     \
  "\"A,-1,0.01,2.5e-6,2.8e-8,0.004,230,2.4e6;B,-0.01,1,2.5e-6,1.7e-8,0.0039,390,3.4e6\""
#define FACES "\"A,B,-0.01,0.01,0.0002,0.0026,3\""
#define ZONES                                                                                      \
  "\"A,-1,-0.01,0.01,0.003,0.6,1.32,0.25,0.9,5;B,0.01,1,0.01,0.003,0.6,1.32,0.25,0.9,5\""
#define REST "20,30,0,0,0,0,0,adiabatic,adiabatic,0,0,-0.02,0.02,-0.3,0.3,-0.02,0.02\n"
#define GOOD HEAD "K," BODIES "," FACES "," ZONES "," REST

static void
test_row (gconstpointer data)
{
  const TlNetCase *row = data;
  g_auto (TlNetResult) result = { 0 };
  g_autoptr (GError) error = NULL;
  guint judged = 0;

  tl_network_solve (&row->network, NULL, &result, &error);
  g_assert_no_error (error);
  g_assert_true (tl_net_case_status_fits (row, &result));
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    {
      g_test_message ("%s: %.8g computed, %.8g expected within %g, numerical error %.1g",
                      tl_net_figure_name (i), result.value[i], row->expected[i], row->tolerance[i],
                      result.error[i]);
      g_assert_true (tl_net_case_fits (row, &result, i));
      judged += row->has_expected[i] && row->has_tolerance[i];
    }
  g_assert_cmpuint (judged, ==, TL_NET_N_FIGURES);
  g_autofree char *body = tl_net_remark_text (row, &result, TL_NET_HOT_BODY);
  g_assert_cmpstr (body, ==, row->remarks[TL_NET_HOT_BODY]);
}

static GPtrArray *
parse (const char *text, GError **error)
{
  return tl_net_cases_parse (text, strlen (text), "x.csv", error);
}

static void
test_good (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) cases = parse (GOOD, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (cases->len, ==, 1);
  const TlNetCase *row = cases->pdata[0];
  g_assert_cmpuint (row->network.n_bodies, ==, 2);
  g_assert_cmpuint (row->network.body_b, ==, 1);
  g_assert_cmpfloat (row->network.current_A, ==, 20.0);
  g_assert_false (row->has_status);
  g_assert_false (row->network.has_end_a);
}

/* Names other than A and B: the bodies at the ends are found. */
static void
test_other_names (void)
{
  g_autoptr (GString) text = g_string_new (GOOD);
  g_autoptr (GError) error = NULL;

  g_string_replace (text, "\"A,", "\"right,", 0);
  g_string_replace (text, ";B,", ";left,", 0);
  g_string_replace (text, "right,B,", "right,left,", 0);
  g_autoptr (GPtrArray) cases = parse (text->str, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (((TlNetCase *) cases->pdata[0])->network.body_a, ==, 0);
}

/* Each change of the good file is refused with its line and column, and with what would be right. */
typedef struct
{
  const char *name, *from, *to, *says;
} Bad;

static const Bad bads[] = {
  { "section-negative", "0.01,2.5e-6,2.8e-8", "0.01,-2.5e-6,2.8e-8",
    "x.csv:2: bodies: A: S is -2.5e-06 m2; it must be above 0" },
  { "section-zero", "0.01,2.5e-6,2.8e-8", "0.01,0,2.8e-8", "x.csv:2: bodies: A: S is 0 m2" },
  { "resistivity-zero", "1.7e-8", "0", "x.csv:2: bodies: B: rho20 is 0" },
  { "coefficient-negative", "0.004,230", "-0.004,230", "x.csv:2: bodies: A: alpha is -0.004" },
  { "conductivity-zero", "0.004,230", "0.004,0", "x.csv:2: bodies: A: k is 0" },
  { "capacity-negative", "2.4e6", "-1", "x.csv:2: bodies: A: cv is -1" },
  { "body-turned", "A,-1,0.01", "A,0.01,-1",
    "x.csv:2: bodies: A: the interval from x0 = 0.01 to x1 = -1 does not rise" },
  { "body-not-a-number", "2.5e-6,2.8e-8", "thick,2.8e-8",
    "x.csv:2: bodies: A: S is \"thick\"; it must be a number" },
  { "body-nan", "2.5e-6,2.8e-8", "nan,2.8e-8", "x.csv:2: bodies: A: S is \"nan\"" },
  { "body-short", ",390,3.4e6\"", ",390\"",
    "x.csv:2: bodies: entry 2 (B) has 7 fields; it must have 8" },
  { "body-twice", ";B,-0.01,1,2.5e-6", ";A,-0.01,1,2.5e-6", "x.csv:2: bodies: A stands twice" },
  { "body-nameless", ";B,-0.01,1,2.5e-6", ";,-0.01,1,2.5e-6",
    "x.csv:2: bodies: entry 2 has no name" },
  { "no-bodies", BODIES, "", "x.csv:2: bodies: there is none" },
  { "interface-unknown", "\"A,B,-0.01", "\"A,Z,-0.01",
    "x.csv:2: interfaces: there is no body called \"Z\"" },
  { "interface-same", "\"A,B,-0.01", "\"A,A,-0.01",
    "x.csv:2: interfaces: entry 1 must join two different bodies" },
  { "interface-resistance", "0.0002,0.0026", "0,0.0026", "x.csv:2: interfaces: A-B: R20 is 0 ohm" },
  { "interface-conductance", "0.0026,3\"", "0.0026,-3\"", "x.csv:2: interfaces: A-B: G is -3 W/K" },
  { "interface-outside", "\"A,B,-0.01,0.01", "\"A,B,-0.01,0.5",
    "x.csv:2: interfaces: A-B: -0.01 to 0.5 m is not within the body A" },
  { "interface-turned", "\"A,B,-0.01,0.01", "\"A,B,0.01,-0.01",
    "x.csv:2: interfaces: A-B: the interval" },
  { "disconnected", FACES, "", "x.csv:2: interfaces: the body B is not joined to A" },
  { "zones-missing", ZONES, "", "x.csv:2: zones: there is no surface" },
  { "zone-unknown", "\"A,-1,-0.01,0.01", "\"C,-1,-0.01,0.01",
    "x.csv:2: zones: there is no body called \"C\"" },
  { "zone-outside", "\"A,-1,-0.01,0.01", "\"A,-2,-0.01,0.01",
    "x.csv:2: zones: A: -2 to -0.01 m is not within the body A" },
  { "zone-turned", "\"A,-1,-0.01,0.01", "\"A,-0.01,-1,0.01", "x.csv:2: zones: A: the interval" },
  { "zone-perimeter", "-0.01,0.01,0.003", "-0.01,0,0.003", "x.csv:2: zones: A: P is 0 m" },
  { "zone-size", "0.01,0.003,0.6", "0.01,-0.003,0.6", "x.csv:2: zones: A: D is -0.003 m" },
  { "zone-emissivity", "0.25,0.9,5;", "0.25,1.9,5;", "x.csv:2: zones: A: eps is 1.9" },
  { "zone-exponent", "1.32,0.25,0.9,5;", "1.32,9,0.9,5;", "x.csv:2: zones: A: n is 9" },
  { "current-huge", ",20,30,", ",1e9,30,",
    "x.csv:2: I_A: I is 1e+09 A; it must be from 0 to 100000" },
  { "current-negative", ",20,30,", ",-20,30,", "x.csv:2: I_A: I is -20 A" },
  { "current-nothing", ",20,30,", ",,30,", "x.csv:2: I_A: I_A is \"\"; it must be a number" },
  { "ambient", ",20,30,", ",20,30000,", "x.csv:2: T_amb_C: T is 30000" },
  { "box-turned", ",0,0,0,0,0,adiabatic", ",0.1,-0.1,1,0,0,adiabatic",
    "x.csv:2: box_x0, box_x1: box: the interval" },
  { "box-negative", ",0,0,0,0,0,adiabatic", ",-0.1,0.1,-1,0,0,adiabatic",
    "x.csv:2: G_box_W_K: G is -1" },
  { "end", "adiabatic,adiabatic", "warm,adiabatic",
    "x.csv:2: bc_A: \"warm\" must be adiabatic or a temperature" },
  { "end-hot", "adiabatic,adiabatic", "adiabatic,9000", "x.csv:2: bc_B: T is 9000" },
  { "time-negative", "adiabatic,0,0,", "adiabatic,0,-5,", "x.csv:2: t_end_s: t is -5" },
  { "before-huge", "adiabatic,0,0,", "adiabatic,1e9,0,", "x.csv:2: I_pre_A: I is 1e+09" },
  { "joint-turned", "-0.02,0.02,-0.3", "0.02,-0.02,-0.3",
    "x.csv:2: xj0, xj1: joint zone: the interval" },
  { "joint-outside", "-0.02,0.02,-0.3", "-0.02,5,-0.3",
    "x.csv:2: xj0, xj1: the joint zone from -0.02 to 5 m is not within" },
  { "probe-outside", "-0.3,0.3,", "0.3,0.3,", "x.csv:2: x_leadA: 0.3 m is not on the body A" },
  { "probe-volt", "-0.3,0.3,-0.02,0.02", "-0.3,0.3,-0.02,-0.5",
    "x.csv:2: xv_B: -0.5 m is not on the body B" },
  { "short-row", "\"A,B,-0.01,0.01,0.0002,0.0026,3\",", "",
    "x.csv:2: the row has 20 fields; it must have 21" },
  { "column-missing", ",zones,", ",zone,", "x.csv:1: the column zones is missing" },
  { "column-twice", ",I_A,", ",case,", "x.csv:1: the column case stands twice" },
  { "case-nameless", "\nK,", "\n,", "x.csv:2: case: the row has no name" },
};

static void
test_bad (gconstpointer data)
{
  const Bad *bad = data;
  g_autoptr (GString) text = g_string_new (GOOD);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (g_string_replace (text, bad->from, bad->to, 1), ==, 1);
  g_assert_null (parse (text->str, &error));
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, bad->says));
}

/* Bodies that reach past the ends, a joint zone too long for its mesh, a heat capacity missing in time. */
static void
test_bad_models (void)
{
  static const Bad models[] = {
    { NULL, "B,-0.01,1,", "B,-1.5,1,", "x.csv:2: bodies: B: x0 lies left of the body A" },
    { NULL, "A,-1,0.01", "A,-1,2", "x.csv:2: bodies: A: x1 lies right of the body B" },
    { NULL, "2.4e6", "0", "x.csv:2: bodies: A: cv is 0" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (models); i++)
    {
      g_autoptr (GString) text = g_string_new (GOOD);
      g_autoptr (GError) error = NULL;

      g_string_replace (text, "adiabatic,0,0,", "adiabatic,0,60,", 1);
      g_string_replace (text, models[i].from, models[i].to, 1);
      g_assert_null (parse (text->str, &error));
      g_test_message ("%s", error->message);
      g_assert_true (g_str_has_prefix (error->message, models[i].says));
    }
}

static void
test_bad_expectations (void)
{
  static const struct
  {
    const char *column, *value, *says;
  } rows[] = {
    { "expect_status", "fine", "x.csv:2: expect_status: \"fine\" must be ok or no_steady_state" },
    { "T_hot_C", "hot", "x.csv:2: T_hot_C: T_hot_C is \"hot\"" },
    { "T_hot_C,tol_T_hot_C", "60,-1",
      "x.csv:2: tol_T_hot_C: the tolerance is -1; it must not be negative" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) text = g_string_new (GOOD);
      g_autoptr (GError) error = NULL;
      g_autofree char *column = g_strdup_printf (",xv_B,%s\n", rows[i].column);
      g_autofree char *value = g_strdup_printf (",-0.02,0.02,%s\n", rows[i].value);

      g_string_replace (text, ",xv_B\n", column, 1);
      g_string_replace (text, ",-0.02,0.02\n", value, 1);
      g_assert_null (parse (text->str, &error));
      g_test_message ("%s", error->message);
      g_assert_true (g_str_has_prefix (error->message, rows[i].says));
    }
}

/* A joint without a steady state fits a row that expects it, and not one that expects figures. */
static void
test_expects_runaway (void)
{
  static const char *const states[] = { "no_steady_state", "ok" };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GString) text = g_string_new (GOOD);
      g_autoptr (GError) error = NULL;
      g_autofree char *value = g_strdup_printf (",-0.02,0.02,%s,,0.1\n", states[i]);
      g_auto (TlNetResult) result = { 0 };

      g_string_replace (text, ",xv_B\n", ",xv_B,expect_status,T_hot_C,tol_T_hot_C\n", 1);
      g_string_replace (text, ",-0.02,0.02\n", value, 1);
      g_string_replace (text, ",20,30,", ",400,30,", 1);
      g_autoptr (GPtrArray) cases = parse (text->str, &error);
      g_assert_no_error (error);
      g_assert_true (
          tl_network_solve (&((TlNetCase *) cases->pdata[0])->network, NULL, &result, &error));
      g_assert_no_error (error);
      g_assert_cmpint (result.status, ==, TL_NET_NO_STEADY_STATE);
      g_assert_true (tl_net_case_status_fits (cases->pdata[0], &result) == (i == 0));
    }
}

/* Any one byte of the good file lost or changed: refused or solved, never more. */
static void
test_damaged (void)
{
  const gsize length = strlen (GOOD);

  for (gsize i = 0; i < length; i++)
    for (guint kind = 0; kind < 3; kind++)
      {
        g_autofree char *text = g_strdup (GOOD);
        g_autoptr (GError) error = NULL;

        if (kind == 0)
          memmove (text + i, text + i + 1, length - i);
        else
          text[i] = kind == 1 ? '9' : (char) 0xFF;
        g_autoptr (GPtrArray) cases = parse (text, &error);
        g_assert_true ((cases == NULL) == (error != NULL));
        for (guint k = 0; cases != NULL && k < cases->len; k++)
          {
            g_auto (TlNetResult) result = { 0 };
            g_autoptr (GError) refused = NULL;

            g_assert_true (tl_network_solve (&((TlNetCase *) cases->pdata[k])->network, NULL,
                                             &result, &refused)
                           == (refused == NULL));
          }
      }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  g_test_init (&argc, &argv, NULL);
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "tests", "reference",
                                            "electrothermal_cases.csv", NULL);
  g_autoptr (GPtrArray) cases = tl_net_cases_read (path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (cases->len, ==, 6);
  for (guint i = 0; i < cases->len; i++)
    {
      g_autofree char *name =
          g_strdup_printf ("/network-files/row/%s", ((TlNetCase *) cases->pdata[i])->id);
      g_test_add_data_func (name, cases->pdata[i], test_row);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bads); i++)
    {
      g_autofree char *name = g_strdup_printf ("/network-files/bad/%s", bads[i].name);
      g_test_add_data_func (name, &bads[i], test_bad);
    }
  g_test_add_func ("/network-files/good", test_good);
  g_test_add_func ("/network-files/other-names", test_other_names);
  g_test_add_func ("/network-files/bad-models", test_bad_models);
  g_test_add_func ("/network-files/bad-expectations", test_bad_expectations);
  g_test_add_func ("/network-files/expects-runaway", test_expects_runaway);
  g_test_add_func ("/network-files/damaged", test_damaged);
  return g_test_run ();
}
