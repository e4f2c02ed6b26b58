/* packing.c: round conductors side by side in a round hole.
 *
 * Up to eight circles. The two largest lie on each other; each further one goes where it touches
 * two that lie already and stays nearest to the middle. That is the closest packing for two and
 * three circles and a good one beyond; the circle round them is exact.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/assembly-private.h"

#include <math.h>

#define SLACK_MM 1e-9

static double
apart (const TlCircle *a, const TlCircle *b)
{
  return hypot (a->y_mm - b->y_mm, a->z_mm - b->z_mm);
}

static gboolean
holds (const TlCircle *round, const TlCircle *circles, guint count)
{
  for (guint i = 0; i < count; i++)
    if (apart (round, &circles[i]) + circles[i].diameter_mm / 2.0
        > round->diameter_mm / 2.0 + SLACK_MM * 100.0)
      return FALSE;
  return TRUE;
}

static TlCircle
round_two (const TlCircle *a, const TlCircle *b)
{
  double ra = a->diameter_mm / 2.0, rb = b->diameter_mm / 2.0, away = apart (a, b), radius, share;

  if (away + rb <= ra)
    return *a;
  if (away + ra <= rb)
    return *b;
  radius = (away + ra + rb) / 2.0;
  share = (radius - ra) / away;
  return (TlCircle){ a->y_mm + share * (b->y_mm - a->y_mm), a->z_mm + share * (b->z_mm - a->z_mm),
                     2.0 * radius };
}

/* Circle that touches three from outside of them all (problem of Apollonius); FALSE if there is
 * none. */
static gboolean
round_three (const TlCircle *a, const TlCircle *b, const TlCircle *c, TlCircle *round)
{
  double ra = a->diameter_mm / 2.0, rb = b->diameter_mm / 2.0, rc = c->diameter_mm / 2.0;
  double a1 = 2.0 * (b->y_mm - a->y_mm), b1 = 2.0 * (b->z_mm - a->z_mm), c1 = 2.0 * (rb - ra);
  double a2 = 2.0 * (c->y_mm - a->y_mm), b2 = 2.0 * (c->z_mm - a->z_mm), c2 = 2.0 * (rc - ra);
  double ka = a->y_mm * a->y_mm + a->z_mm * a->z_mm - ra * ra;
  double d1 = b->y_mm * b->y_mm + b->z_mm * b->z_mm - rb * rb - ka;
  double d2 = c->y_mm * c->y_mm + c->z_mm * c->z_mm - rc * rc - ka;
  double det = a1 * b2 - a2 * b1, y0, y1, z0, z1, p, q, s, root;

  if (fabs (det) < 1e-12)
    return FALSE;
  /* |centre - a| = R - ra for each: the differences are linear in the centre and R. */
  y0 = (d1 * b2 - d2 * b1) / det;
  y1 = (c1 * b2 - c2 * b1) / det;
  z0 = (a1 * d2 - a2 * d1) / det;
  z1 = (a1 * c2 - a2 * c1) / det;
  p = y1 * y1 + z1 * z1 - 1.0;
  q = y1 * (y0 - a->y_mm) + z1 * (z0 - a->z_mm) + ra;
  s = (y0 - a->y_mm) * (y0 - a->y_mm) + (z0 - a->z_mm) * (z0 - a->z_mm) - ra * ra;
  if (fabs (p) < 1e-12)
    root = fabs (q) > 1e-12 ? -s / (2.0 * q) : -1.0;
  else
    {
      double square = q * q - p * s, first, second;

      if (square < 0.0)
        return FALSE;
      first = (-q + sqrt (square)) / p;
      second = (-q - sqrt (square)) / p;
      root = MAX (first, second);
    }
  if (root <= 0.0)
    return FALSE;
  *round = (TlCircle){ y0 + y1 * root, z0 + z1 * root, 2.0 * root };
  return TRUE;
}

/* Smallest circle round all: set by two or by three of them. */
static TlCircle
round_all (const TlCircle *circles, guint count)
{
  TlCircle best = { 0.0, 0.0, G_MAXDOUBLE };

  if (count == 1)
    return circles[0];
  for (guint i = 0; i < count; i++)
    for (guint k = i + 1; k < count; k++)
      {
        TlCircle round = round_two (&circles[i], &circles[k]);

        if (round.diameter_mm < best.diameter_mm && holds (&round, circles, count))
          best = round;
      }
  for (guint i = 0; i < count; i++)
    for (guint k = i + 1; k < count; k++)
      for (guint m = k + 1; m < count; m++)
        {
          TlCircle round;

          if (round_three (&circles[i], &circles[k], &circles[m], &round)
              && round.diameter_mm < best.diameter_mm && holds (&round, circles, count))
            best = round;
        }
  return best;
}

/* Place for circle @next where it touches @a and @b, on side @sign; FALSE if they lie too far
 * apart. */
static gboolean
touch_two (const TlCircle *a, const TlCircle *b, double sign, TlCircle *next)
{
  double ra = (a->diameter_mm + next->diameter_mm) / 2.0;
  double rb = (b->diameter_mm + next->diameter_mm) / 2.0;
  double away = apart (a, b), along, square, across;

  if (away <= 0.0 || away > ra + rb)
    return FALSE;
  along = (away * away + ra * ra - rb * rb) / (2.0 * away);
  square = ra * ra - along * along;
  if (square < 0.0)
    return FALSE;
  across = sign * sqrt (square);
  next->y_mm = a->y_mm + (along * (b->y_mm - a->y_mm) - across * (b->z_mm - a->z_mm)) / away;
  next->z_mm = a->z_mm + (along * (b->z_mm - a->z_mm) + across * (b->y_mm - a->y_mm)) / away;
  return TRUE;
}

static gboolean
is_clear (const TlCircle *next, const TlCircle *laid, guint count)
{
  for (guint i = 0; i < count; i++)
    if (apart (next, &laid[i]) < (next->diameter_mm + laid[i].diameter_mm) / 2.0 - SLACK_MM)
      return FALSE;
  return TRUE;
}

static void
lay_next (TlCircle *laid, guint count)
{
  TlCircle best = laid[count];
  double   best_mm = G_MAXDOUBLE;

  for (guint i = 0; i < count; i++)
    for (guint k = i + 1; k < count; k++)
      for (guint side = 0; side < 2; side++)
        {
          TlCircle next = laid[count];

          if (!touch_two (&laid[i], &laid[k], side == 0 ? 1.0 : -1.0, &next)
              || !is_clear (&next, laid, count))
            continue;
          laid[count] = next;
          if (round_all (laid, count + 1).diameter_mm < best_mm - SLACK_MM)
            {
              best_mm = round_all (laid, count + 1).diameter_mm;
              best = next;
            }
        }
  laid[count] = best;
}

double
tl_pack_circles (TlCircle *circles, guint count)
{
  guint    order[TL_MAX_LEGS];
  TlCircle laid[TL_MAX_LEGS], round;

  g_return_val_if_fail (circles != NULL && count <= TL_MAX_LEGS, 0.0);

  if (count == 0)
    return 0.0;
  for (guint i = 0; i < count; i++)
    {
      guint k = i;

      /* Largest first; equal ones keep their order. */
      for (; k > 0 && circles[order[k - 1]].diameter_mm < circles[i].diameter_mm; k--)
        order[k] = order[k - 1];
      order[k] = i;
    }
  for (guint i = 0; i < count; i++)
    {
      laid[i] = (TlCircle){ 0.0, 0.0, circles[order[i]].diameter_mm };
      if (i == 1)
        laid[1].z_mm = (laid[0].diameter_mm + laid[1].diameter_mm) / 2.0;
      else if (i > 1)
        lay_next (laid, i);
    }
  round = round_all (laid, count);
  for (guint i = 0; i < count; i++)
    {
      circles[order[i]].y_mm = laid[i].y_mm - round.y_mm;
      circles[order[i]].z_mm = laid[i].z_mm - round.z_mm;
    }
  return round.diameter_mm;
}

void
tl_drop_circles (TlCircle *circles, guint count, double bore_mm)
{
  double fall = G_MAXDOUBLE;

  for (guint i = 0; i < count; i++)
    {
      double reach = bore_mm / 2.0 - circles[i].diameter_mm / 2.0;
      double square = reach * reach - circles[i].y_mm * circles[i].y_mm;

      fall = MIN (fall, square > 0.0 ? sqrt (square) - circles[i].z_mm : 0.0);
    }
  for (guint i = 0; i < count; i++)
    circles[i].z_mm += MAX (0.0, fall);
}

void
tl_spread_circles (TlCircle *circles, guint count)
{
  double y = 0.0, z = 0.0, ratio = 1.0;

  for (guint i = 0; i < count; i++)
    {
      y += circles[i].y_mm / count;
      z += circles[i].z_mm / count;
    }
  for (guint i = 0; i < count; i++)
    for (guint k = i + 1; k < count; k++)
      {
        double away = apart (&circles[i], &circles[k]);
        double wanted = (circles[i].diameter_mm + circles[k].diameter_mm) / 2.0;

        if (away > 0.0)
          ratio = MAX (ratio, wanted / away);
      }
  for (guint i = 0; i < count; i++)
    {
      circles[i].y_mm = y + ratio * (circles[i].y_mm - y);
      circles[i].z_mm = z + ratio * (circles[i].z_mm - z);
    }
}
