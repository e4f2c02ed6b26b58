/* planner.c: the sheet in the making: steps with their numbers and letters, figures, and the words that all families use.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include "base/quantity.h"

#include <math.h>
#include <string.h>

void
tl_step_line_free (gpointer data)
{
  TlLine *line = data;

  g_free (line->label);
  g_free (line->value);
  g_free (line);
}

void
tl_step_add_line (GPtrArray *lines, gint mark, const char *label, char *value)
{
  TlLine *line = g_new0 (TlLine, 1);

  line->mark = mark;
  line->label = g_strdup (label);
  line->value = value;
  g_ptr_array_add (lines, line);
}

static TlStep *
add_step (TlPlanner *self, const char *id, char *text)
{
  TlStep *step = g_new0 (TlStep, 1);

  step->id = g_strdup (id);
  step->letter = g_strdup ("");
  step->text = text;
  step->if_not = g_strdup ("");
  step->figures = g_ptr_array_new_with_free_func (tl_step_line_free);
  g_ptr_array_add (self->sheet->steps, step);
  return step;
}

TlStep *
tl_planner_step (TlPlanner *self, const char *id, char *text)
{
  TlStep *step = add_step (self, id, text);

  step->number = ++self->n_steps;
  return step;
}

TlStep *
tl_planner_hold (TlPlanner *self, const char *id, char *text, char *if_not)
{
  TlStep *step = add_step (self, id, text);

  g_assert (self->n_holds < 26);
  step->is_hold = TRUE;
  g_free (step->letter);
  step->letter = g_strdup_printf ("%c", 'A' + (char) self->n_holds++);
  g_free (step->if_not);
  step->if_not = if_not;
  return step;
}

void
tl_planner_figure (const TlPlanner *self, TlStep *step, const char *label, char *value)
{
  if (value == NULL || *value == '\0')
    g_free (value);
  else
    tl_step_add_line (step->figures, TL_LINE_PLAIN, label, value);
}

void
tl_planner_tool (TlPlanner *self, const char *name, char *value)
{
  const char *label = tl_planner_text (self, name);

  for (guint i = 0; i < self->sheet->tools->len; i++)
    {
      const TlLine *line = g_ptr_array_index (self->sheet->tools, i);

      if (strcmp (line->label, label) == 0)
        {
          g_free (value);
          return;
        }
    }
  tl_step_add_line (self->sheet->tools, TL_LINE_PLAIN, label,
                    value != NULL ? value : g_strdup (""));
}

const char *
tl_planner_text (const TlPlanner *self, const char *msgid)
{
  return tl_language_text (self->language, msgid);
}

char *
tl_planner_quantity (const TlPlanner *self, double value, const char *unit)
{
  return tl_quantity_format (value, unit, self->language);
}

char *
tl_planner_within (const TlPlanner *self, double value, double tolerance, const char *unit)
{
  g_autofree char *figure = tl_planner_quantity (self, value, unit);
  g_autofree char *band = NULL;

  if (tolerance <= 0.0)
    return g_steal_pointer (&figure);
  band = tl_planner_quantity (self, tolerance, unit);
  return g_strdup_printf ("%s ± %s", figure, band);
}

double
tl_planner_limit (const TlPlanner *self, const char *id, double fallback)
{
  TlThreshold threshold;

  return tl_stock_threshold (self->stock, self->joint->practice, id, &threshold) ? threshold.value
                                                                                 : fallback;
}

char *
tl_planner_limit_text (const TlPlanner *self, const char *id)
{
  TlThreshold threshold;

  return tl_stock_threshold (self->stock, self->joint->practice, id, &threshold)
             ? tl_planner_quantity (self, threshold.value, threshold.unit)
             : NULL;
}

char *
tl_planner_mark (const TlPlanner *self, const char *owner)
{
  guint number = tl_assembly_number (self->assembly, owner);

  return number > 0 ? g_strdup_printf ("(%u)", number)
                    : tl_assembly_owner_name (self->assembly, owner, self->language);
}

char *
tl_planner_marks (const TlPlanner *self, const GPtrArray *owners)
{
  GString *marks = g_string_new (NULL);

  for (guint i = 0; i < owners->len; i++)
    {
      g_autofree char *mark = tl_planner_mark (self, g_ptr_array_index (owners, i));

      g_string_append_printf (marks, "%s%s", i > 0 ? ", " : "", mark);
    }
  return g_string_free (marks, FALSE);
}

const char *
tl_planner_metal (const TlPlanner *self, const TlLeg *leg)
{
  return tl_leg_word (leg, self->stock, TL_FIELD_METAL, "");
}

gboolean
tl_planner_is_aluminium (const TlPlanner *self, const TlLeg *leg)
{
  const char       *id = tl_planner_metal (self, leg);
  const TlMaterial *metal = *id != '\0' ? tl_stock_material (self->stock, id) : NULL;

  return metal != NULL && metal->look == TL_LOOK_ALUMINIUM;
}

gboolean
tl_planner_has_aluminium (const TlPlanner *self)
{
  for (guint i = 0; i < self->joint->legs->len; i++)
    if (tl_planner_is_aluminium (self, g_ptr_array_index (self->joint->legs, i)))
      return TRUE;
  return FALSE;
}

GPtrArray *
tl_planner_rubber_legs (const TlPlanner *self)
{
  GPtrArray *owners = g_ptr_array_new ();

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      TlLeg *leg = g_ptr_array_index (self->joint->legs, i);

      if (strcmp (tl_leg_word (leg, self->stock, TL_FIELD_INSULATION, ""), "rubber") == 0)
        g_ptr_array_add (owners, leg->id);
    }
  return owners;
}

double
tl_planner_bend_radius_mm (const TlPlanner *self, const TlLeg *leg)
{
  double      own_mm = tl_leg_number (leg, self->stock, TL_FIELD_BEND_RADIUS, 0.0);
  double      diameter_mm = tl_leg_number (leg, self->stock, TL_FIELD_METAL_DIAMETER, 0.0);
  const char *id = tl_planner_is_aluminium (self, leg) ? "grip.bend-radius-aluminium"
                                                       : "grip.bend-radius-copper";

  return own_mm > 0.0 ? own_mm : ceil (diameter_mm * tl_planner_limit (self, id, 0.0));
}
