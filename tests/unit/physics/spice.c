/* spice.c: see spice.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "spice.h"
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PROGRAM "ngspice"
/* Cells outside the joint zone grow by this much of their distance to it. */
#define GROWTH 0.04
#define SAME_M 1e-9

/* A cell of a body between two edges; cells of a column stand together. */
typedef struct
{
  guint  body, column;
  double x0_m, x1_m;
  int    left; /* index of the body's cell before, -1 if none */
} Cell;

typedef struct
{
  const TlNetwork *net;
  GArray          *edges_m; /* (element-type double) */
  GArray          *cells;   /* (element-type Cell) */
  GString         *text;
  guint            parts; /* for names of elements */
} Deck;

gboolean
spice_is_there (void)
{
  g_autofree char *path = g_find_program_in_path (PROGRAM);

  return path != NULL;
}

/* --- cells --- */

static double
next_mark (const TlNetwork *net, double x_m, double best_m, double towards)
{
  const double places[] = { net->joint_x0_m, net->joint_x1_m, net->lead_a_x_m, net->lead_b_x_m,
                            net->volt_a_x_m, net->volt_b_x_m, net->box_x0_m,   net->box_x1_m };

#define CONSIDER(place)                                                                            \
  if (towards * ((place) -x_m) > SAME_M && towards * ((place) -best_m) < 0.0)                      \
  best_m = (place)
  for (guint i = 0; i < (net->box_W_per_K > 0.0 ? 8u : 6u); i++)
    CONSIDER (places[i]);
  for (guint i = 0; i < net->n_bodies; i++)
    {
      CONSIDER (net->bodies[i].x0_m);
      CONSIDER (net->bodies[i].x1_m);
    }
  for (guint i = 0; i < net->n_interfaces; i++)
    {
      CONSIDER (net->interfaces[i].x0_m);
      CONSIDER (net->interfaces[i].x1_m);
    }
  for (guint i = 0; i < net->n_zones; i++)
    {
      CONSIDER (net->zones[i].x0_m);
      CONSIDER (net->zones[i].x1_m);
    }
#undef CONSIDER
  return best_m;
}

static int
compare (const void *a, const void *b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Walks from the middle of the joint to both ends, a step at a time, stopping at each mark. */
static void
cut (Deck *deck, double cell_m)
{
  const TlNetwork *net = deck->net;
  const double     left_m = net->bodies[net->body_a].x0_m, right_m = net->bodies[net->body_b].x1_m;
  const double     middle_m = 0.5 * (net->joint_x0_m + net->joint_x1_m);

  g_array_append_val (deck->edges_m, middle_m);
  for (int way = -1; way <= 1; way += 2)
    {
      const double   end_m = way < 0 ? left_m : right_m;
      const gboolean held = way < 0 ? net->has_end_a : net->has_end_b;
      double         x_m = middle_m;

      while (way * (end_m - x_m) > SAME_M)
        {
          double away_m = MAX (way < 0 ? net->joint_x0_m - x_m : x_m - net->joint_x1_m, 0.0);

          if (held)
            away_m = MIN (away_m, fabs (end_m - x_m));
          const double mark_m = next_mark (net, x_m, end_m, way), piece_m = fabs (mark_m - x_m);
          const double step_m = cell_m + GROWTH * away_m;
          /* The rest of a piece in equal parts, so that no sliver is left before a mark. */
          x_m = piece_m < 1.5 * step_m ? mark_m : x_m + way * piece_m / ceil (piece_m / step_m);
          g_array_append_val (deck->edges_m, x_m);
        }
    }
  g_array_sort (deck->edges_m, compare);
}

static int
cell_at (const Deck *deck, guint column, guint body)
{
  for (guint i = 0; i < deck->cells->len; i++)
    {
      const Cell *cell = &g_array_index (deck->cells, Cell, i);

      if (cell->column == column && cell->body == body)
        return (int) i;
    }
  return -1;
}

static void
fill (Deck *deck)
{
  for (guint c = 0; c + 1 < deck->edges_m->len; c++)
    for (guint b = 0; b < deck->net->n_bodies; b++)
      {
        const double x0 = g_array_index (deck->edges_m, double, c),
                     x1 = g_array_index (deck->edges_m, double, c + 1);
        const double middle = 0.5 * (x0 + x1);

        if (middle < deck->net->bodies[b].x0_m || middle > deck->net->bodies[b].x1_m)
          continue;
        const Cell cell = { b, c, x0, x1, c == 0 ? -1 : cell_at (deck, c - 1, b) };
        g_array_append_val (deck->cells, cell);
      }
}

/* --- elements --- */

/* printf for netlists: the tests run in the C locale, so that %g has a decimal point. */
static void G_GNUC_PRINTF (2, 3) add (Deck *deck, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_string_append_vprintf (deck->text, format, arguments);
  va_end (arguments);
  deck->parts++;
}

/* Half the resistance of a cell as an expression of its temperature; (transfer full) */
static char *
half_ohm (const Deck *deck, guint cell)
{
  const Cell      *c = &g_array_index (deck->cells, Cell, cell);
  const TlNetBody *b = &deck->net->bodies[c->body];

  return g_strdup_printf ("(%.12g*(1+%.12g*(v(t%u)-20)))",
                          0.5 * b->resistivity_20_ohm_m * (c->x1_m - c->x0_m) / b->section_m2,
                          b->coefficient_per_K, cell);
}

/* Face between a cell and the one before it. */
static void
add_face (Deck *deck, guint cell)
{
  const Cell      *c = &g_array_index (deck->cells, Cell, cell);
  const TlNetBody *b = &deck->net->bodies[c->body];
  const guint      before = (guint) c->left;
  const Cell      *l = &g_array_index (deck->cells, Cell, before);
  g_autofree char *here = half_ohm (deck, cell), *there = half_ohm (deck, before);
  g_autofree char *amperes =
      g_strdup_printf ("((v(e%u)-v(e%u))/(%s+%s))", before, cell, here, there);

  add (deck, "B%u e%u e%u I=%s\n", deck->parts, before, cell, amperes);
  add (deck, "B%u 0 t%u I=%s*%s*%s\n", deck->parts, cell, amperes, amperes, here);
  add (deck, "B%u 0 t%u I=%s*%s*%s\n", deck->parts, before, amperes, amperes, there);
  add (deck, "R%u t%u t%u %.12g\n", deck->parts, before, cell,
       0.5 * ((c->x1_m - c->x0_m) + (l->x1_m - l->x0_m))
           / (b->conductivity_W_per_mK * b->section_m2));
}

static void
add_cells (Deck *deck, gboolean in_time)
{
  for (guint i = 0; i < deck->cells->len; i++)
    {
      const Cell      *c = &g_array_index (deck->cells, Cell, i);
      const TlNetBody *b = &deck->net->bodies[c->body];

      if (c->left >= 0)
        add_face (deck, i);
      if (in_time)
        add (deck, "C%u t%u 0 %.12g\n", deck->parts, i,
             b->capacity_J_per_m3K * b->section_m2 * (c->x1_m - c->x0_m));
      add (deck, ".nodeset v(t%u)=%.6g v(e%u)=0\n", i, deck->net->ambient_C + 20.0, i);
    }
}

static void
add_interfaces (Deck *deck)
{
  for (guint k = 0; k < deck->net->n_interfaces; k++)
    {
      const TlNetInterface *face = &deck->net->interfaces[k];

      for (guint c = 0; c + 1 < deck->edges_m->len; c++)
        {
          const double x0 = g_array_index (deck->edges_m, double, c),
                       x1 = g_array_index (deck->edges_m, double, c + 1);

          if (0.5 * (x0 + x1) < face->x0_m || 0.5 * (x0 + x1) > face->x1_m)
            continue;
          const int        p = cell_at (deck, c, face->p), q = cell_at (deck, c, face->q);
          const double     share = (x1 - x0) / (face->x1_m - face->x0_m);
          g_autofree char *ohm =
              g_strdup_printf ("(%.12g*(1+%.12g*(0.5*(v(t%d)+v(t%d))-20)))",
                               face->resistance_20_ohm / share, face->coefficient_per_K, p, q);
          g_autofree char *volts = g_strdup_printf ("(v(e%d)-v(e%d))", p, q);

          add (deck, "B%u e%d e%d I=%s/%s\n", deck->parts, p, q, volts, ohm);
          add (deck, "B%u 0 t%d I=0.5*%s*%s/%s\n", deck->parts, p, volts, volts, ohm);
          add (deck, "B%u 0 t%d I=0.5*%s*%s/%s\n", deck->parts, q, volts, volts, ohm);
          if (face->conductance_W_per_K > 0.0)
            add (deck, "R%u t%d t%d %.12g\n", deck->parts, p, q,
                 1.0 / (face->conductance_W_per_K * share));
        }
    }
}

static void
add_skin (Deck *deck, const TlNetZone *zone, guint cell, double length_m, gboolean boxed,
          gboolean in_time)
{
  g_autofree char *metal = g_strdup_printf ("t%u", cell);
  g_autofree char *outside =
      zone->layer_mK_per_W > 0.0 ? g_strdup_printf ("s%u", deck->parts) : g_strdup (metal);
  const char      *air = boxed ? "tb" : "ta";
  g_autofree char *rise = g_strdup_printf ("(v(%s)-v(%s))", outside, air);
  g_autofree char *hot = g_strdup_printf ("(v(%s)+273.15)", outside),
                  *cold = g_strdup_printf ("(v(%s)+273.15)", air);

  if (zone->layer_mK_per_W > 0.0)
    {
      add (deck, ".nodeset v(%s)=%.6g\n", outside, deck->net->ambient_C + 15.0);
      add (deck, "R%u %s %s %.12g\n", deck->parts, metal, outside, zone->layer_mK_per_W / length_m);
    }
  if (zone->film_exponent > 0.0)
    add (deck, "B%u %s %s I=%.12g*pow((abs(%s)+1e-9)/%.12g,%.12g)*%s\n", deck->parts, outside, air,
         zone->perimeter_m * length_m * zone->film_constant, rise, zone->size_m,
         zone->film_exponent, rise);
  else
    add (deck, "B%u %s %s I=%.12g*%s\n", deck->parts, outside, air,
         zone->perimeter_m * length_m * zone->film_constant, rise);
  if (zone->emissivity > 0.0)
    add (deck, "B%u %s %s I=%.12g*(%s*%s*%s*%s-%s*%s*%s*%s)\n", deck->parts, outside, air,
         zone->perimeter_m * length_m * zone->emissivity * 5.670374419e-8, hot, hot, hot, hot, cold,
         cold, cold, cold);
  if (in_time && zone->capacity_J_per_mK > 0.0)
    add (deck, "C%u %s 0 %.12g\n", deck->parts, metal, zone->capacity_J_per_mK * length_m);
}

static void
add_skins (Deck *deck, gboolean in_time)
{
  const TlNetwork *net = deck->net;

  for (guint i = 0; i < deck->cells->len; i++)
    {
      const Cell  *c = &g_array_index (deck->cells, Cell, i);
      const double x_m = 0.5 * (c->x0_m + c->x1_m);

      for (guint k = 0; k < net->n_zones; k++)
        if (net->zones[k].body == c->body && x_m > net->zones[k].x0_m && x_m < net->zones[k].x1_m)
          add_skin (deck, &net->zones[k], i, c->x1_m - c->x0_m,
                    net->box_W_per_K > 0.0 && x_m > net->box_x0_m && x_m < net->box_x1_m, in_time);
    }
}

/* The current in and out, held ends, the room and the box. */
static void
add_outside (Deck *deck, gboolean in_time)
{
  const TlNetwork *net = deck->net;
  const guint      first = (guint) cell_at (deck, 0, net->body_a),
              last = (guint) cell_at (deck, deck->edges_m->len - 2, net->body_b);
  g_autofree char *in = half_ohm (deck, first), *out = half_ohm (deck, last);

  if (in_time)
    add (deck, "Vcur cur 0 PWL(0 %.12g 1e-6 %.12g)\n", net->before_A, net->current_A);
  else
    add (deck, "Vcur cur 0 %.12g\n", net->current_A);
  add (deck, "Bin 0 e%u I=v(cur)\nBinh 0 t%u I=v(cur)*v(cur)*%s\n", first, first, in);
  add (deck, "Bout e%u 0 I=v(e%u)/%s\nBouth 0 t%u I=v(cur)*v(cur)*%s\n", last, last, out, last,
       out);
  for (guint end = 0; end < 2; end++)
    {
      const guint      cell = end == 0 ? first : last;
      const Cell      *c = &g_array_index (deck->cells, Cell, cell);
      const TlNetBody *b = &net->bodies[c->body];

      if (!(end == 0 ? net->has_end_a : net->has_end_b))
        continue;
      add (deck, "Vend%u end%u 0 %.12g\n", end, end, end == 0 ? net->end_a_C : net->end_b_C);
      add (deck, "Rend%u end%u t%u %.12g\n", end, end, cell,
           0.5 * (c->x1_m - c->x0_m) / (b->conductivity_W_per_mK * b->section_m2));
    }
  add (deck, "Vta ta 0 %.12g\n", net->ambient_C);
  if (!(net->box_W_per_K > 0.0))
    {
      add (deck, "Vtb tb 0 %.12g\n", net->ambient_C);
      return;
    }
  add (deck, "Rbox tb ta %.12g\nIbox 0 tb %.12g\n.nodeset v(tb)=%.6g\n", 1.0 / net->box_W_per_K,
       net->box_extra_W, net->ambient_C + 3.0);
  if (in_time && net->box_J_per_K > 0.0)
    add (deck, "Cbox tb 0 %.12g\n", net->box_J_per_K);
}

/* --- running and reading --- */

static void
run (Deck *deck, const char *folder, GArray *values)
{
  g_autofree char *netlist = g_build_filename (folder, "net.cir", NULL),
                  *data = g_build_filename (folder, "net.data", NULL);
  g_autofree char *log = g_build_filename (folder, "net.log", NULL), *found = NULL, *said = NULL;
  g_autoptr (GError) error = NULL;
  const gboolean in_time = deck->net->duration_s > 0.0;
  const char    *argv[] = { PROGRAM, "-b", "-o", log, netlist, NULL };
  int            status;

  add (deck, ".options reltol=1e-7 abstol=1e-12 vntol=1e-9 gmin=1e-16 itl1=2000 "
             "method=gear\n.control\nset numdgt=12\nset wr_singlescale\n");
  if (in_time)
    add (deck, "tran %.6g %.6g 0 %.6g\n", deck->net->duration_s / 80.0, deck->net->duration_s,
         deck->net->duration_s / 80.0);
  else
    add (deck, "op\n");
  add (deck, "wrdata %s v(tb)", data);
  for (guint i = 0; i < deck->cells->len; i++)
    add (deck, " v(t%u) v(e%u)", i, i);
  add (deck, "\nquit\n.endc\n.end\n");
  g_assert_true (g_file_set_contents (netlist, deck->text->str, -1, NULL));
  g_remove (data);
  g_spawn_sync (folder, (char **) argv, NULL,
                G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                NULL, NULL, NULL, &status, &error);
  g_assert_no_error (error);
  if (!g_file_get_contents (data, &found, NULL, NULL))
    {
      g_file_get_contents (log, &said, NULL, NULL);
      g_error ("%s did not answer: %.2000s", PROGRAM, said);
    }
  /* The last line is the last time; its first figure is the scale. */
  char *line = strrchr (g_strchomp (found), '\n');
  line = line == NULL ? found : line + 1;
  for (char *end; *line != '\0'; line = end)
    {
      const double value = g_ascii_strtod (line, &end);

      if (end == line)
        break;
      g_array_append_val (values, value);
    }
  g_assert_cmpuint (values->len, ==, 2 * deck->cells->len + 2);
}

/* Figures of the cells beside an edge, weighted; a closed end has the value of its cell. */
static double
edge_value (const Deck *deck, const GArray *values, guint body, double x_m, guint which)
{
  double sum = 0.0, weights = 0.0;

  for (guint i = 0; i < deck->cells->len; i++)
    {
      const Cell *c = &g_array_index (deck->cells, Cell, i);

      if (c->body != body || (fabs (c->x0_m - x_m) > SAME_M && fabs (c->x1_m - x_m) > SAME_M))
        continue;
      sum += g_array_index (values, double, 2 + 2 * i + which) / (c->x1_m - c->x0_m);
      weights += 1.0 / (c->x1_m - c->x0_m);
    }
  g_assert_cmpfloat (weights, >, 0.0);
  return sum / weights;
}

static void
read_answer (const Deck *deck, const GArray *values, SpiceAnswer *answer)
{
  const TlNetwork *net = deck->net;

  *answer = (SpiceAnswer){ .hot_C = -1e9, .box_C = g_array_index (values, double, 1) };
  answer->lead_a_C = edge_value (deck, values, net->body_a, net->lead_a_x_m, 0);
  answer->lead_b_C = edge_value (deck, values, net->body_b, net->lead_b_x_m, 0);
  answer->joint_V = edge_value (deck, values, net->body_a, net->volt_a_x_m, 1)
                    - edge_value (deck, values, net->body_b, net->volt_b_x_m, 1);
  for (guint i = 0; i < deck->cells->len; i++)
    {
      const Cell  *c = &g_array_index (deck->cells, Cell, i);
      const double x_m = 0.5 * (c->x0_m + c->x1_m);

      if (x_m < net->joint_x0_m || x_m > net->joint_x1_m)
        continue;
      answer->hot_C = MAX (answer->hot_C, g_array_index (values, double, 2 + 2 * i));
      answer->hot_C = MAX (answer->hot_C, edge_value (deck, values, c->body, c->x0_m, 0));
      answer->hot_C = MAX (answer->hot_C, edge_value (deck, values, c->body, c->x1_m, 0));
    }
}

void
spice_solve (const TlNetwork *network, double cell_m, const char *folder, SpiceAnswer *answer)
{
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
  const gboolean in_time = network->duration_s > 0.0;
  Deck           deck = {
              .net = network,
              .edges_m = g_array_new (FALSE, FALSE, sizeof (double)),
              .cells = g_array_new (FALSE, FALSE, sizeof (Cell)),
              .text = g_string_new ("joint\n"),
  };

  cut (&deck, cell_m);
  fill (&deck);
  add_cells (&deck, in_time);
  add_interfaces (&deck);
  add_skins (&deck, in_time);
  add_outside (&deck, in_time);
  run (&deck, folder, values);
  read_answer (&deck, values, answer);
  g_array_unref (deck.edges_m);
  g_array_unref (deck.cells);
  g_string_free (deck.text, TRUE);
}
