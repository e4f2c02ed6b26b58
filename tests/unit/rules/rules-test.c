/* rules-test.c: see rules-test.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-test.h"

#include <math.h>

const TlStock *
rt_stock (void)
{
  static TlStock *stock;

  if (stock == NULL)
    {
      g_autoptr (GError) error = NULL;

      stock = tl_stock_load (NULL, &error);
      g_assert_no_error (error);
    }
  return stock;
}

TlJoint *
rt_example (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".tinlap", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples", file, NULL);
  g_autoptr (GError) error = NULL;
  TlJoint *joint = tl_joint_load (path, &error);

  g_assert_no_error (error);
  return joint;
}

static void
take (TlJoint **joint, TlJoint *next, GError *error)
{
  g_assert_no_error (error);
  tl_joint_unref (*joint);
  *joint = next;
}

void
rt_word (TlJoint **joint, const char *owner, TlField field, const char *word)
{
  TlFact fact = { .field = field, .word = (char *) word, .known_by = TL_KNOWN_STATED };
  GError *error = NULL;

  take (joint, tl_edit_set_fact (*joint, owner, &fact, &error), error);
}

void
rt_number (TlJoint **joint, const char *owner, TlField field, double value)
{
  TlFact fact = { .field = field, .value = tl_range_exact (value), .known_by = TL_KNOWN_MEASURED };
  GError *error = NULL;

  take (joint, tl_edit_set_fact (*joint, owner, &fact, &error), error);
}

void
rt_replace (TlJoint **joint, const char *id, const char *part)
{
  GError *error = NULL;

  take (joint, tl_edit_replace_part (*joint, rt_stock (), id, part, &error), error);
}

void
rt_remove (TlJoint **joint, const char *id)
{
  GError *error = NULL;

  take (joint, tl_edit_remove (*joint, id, &error), error);
}

void
rt_insert (TlJoint **joint, const char *part, guint place)
{
  g_auto (TlSeat) seat = tl_seat_stack (place);
  GError *error = NULL;

  take (joint, tl_edit_add_layer (*joint, rt_stock (), part, &seat, NULL, &error), error);
}

void
rt_practice (TlJoint **joint, const char *practice)
{
  GError *error = NULL;

  take (joint, tl_edit_set_text (*joint, "practice", practice, &error), error);
}

const TlFinding *
rt_worst (const TlVerdict *verdict, const char *rule)
{
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = verdict->findings->pdata[i];

      if (g_str_equal (finding->rule->id, rule))
        return finding;
    }
  return NULL;
}

const TlFinding *
rt_with_figure (const TlVerdict *verdict, const char *rule, const char *name, double value)
{
  for (guint i = 0; i < verdict->findings->len; i++)
    {
      const TlFinding *finding = verdict->findings->pdata[i];

      for (guint k = 0; g_str_equal (finding->rule->id, rule) && k < finding->figures->len; k++)
        {
          const TlFigure *figure = &g_array_index (finding->figures, TlFigure, k);

          if (g_str_equal (figure->name, name) && fabs (figure->value.best - value) < 1e-9)
            return finding;
        }
    }
  return NULL;
}

void
rt_assert (const TlVerdict *verdict, const char *rule, const char *severity)
{
  const TlFinding *finding = rt_worst (verdict, rule);

  if (finding != NULL)
    g_test_message ("%s: %s", rule, finding->message);
  g_assert_cmpstr (finding != NULL ? tl_severity_word (finding->severity) : "none", ==, severity);
}
