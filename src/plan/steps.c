/* steps.c: from a verdict to the content of the step sheet; numbers, holds, cautions, refusals.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include "base/quantity.h"

#include <math.h>
#include <string.h>

/* --- memory --- */

static void
part_line_free (gpointer data)
{
  TlPartLine *line = data;

  g_free (line->name);
  g_free (line->size);
  g_free (line);
}

static void
step_free (gpointer data)
{
  TlStep *step = data;

  g_free (step->id);
  g_free (step->letter);
  g_free (step->text);
  g_free (step->if_not);
  g_ptr_array_unref (step->figures);
  g_free (step);
}

static TlStepSheet *
sheet_alloc (void)
{
  TlStepSheet *self = g_new0 (TlStepSheet, 1);

  self->cautions = g_ptr_array_new_with_free_func (g_free);
  self->parts = g_ptr_array_new_with_free_func (part_line_free);
  self->tools = g_ptr_array_new_with_free_func (tl_step_line_free);
  self->steps = g_ptr_array_new_with_free_func (step_free);
  self->refusals = g_ptr_array_new_with_free_func (tl_step_line_free);
  self->instead = g_ptr_array_new_with_free_func (g_free);
  self->findings = g_ptr_array_new_with_free_func (tl_step_line_free);
  self->record = g_ptr_array_new_with_free_func (g_free);
  self->label = g_ptr_array_new_with_free_func (g_free);
  self->assumed = g_ptr_array_new_with_free_func (g_free);
  return self;
}

void
tl_steps_free (TlStepSheet *self)
{
  if (self == NULL)
    return;
  g_free (self->name);
  g_free (self->subtitle);
  g_free (self->place);
  g_free (self->prepared_by);
  g_free (self->date);
  g_free (self->verdict_word);
  g_free (self->banner);
  g_ptr_array_unref (self->cautions);
  g_ptr_array_unref (self->parts);
  g_ptr_array_unref (self->tools);
  g_ptr_array_unref (self->steps);
  g_ptr_array_unref (self->refusals);
  g_ptr_array_unref (self->instead);
  g_ptr_array_unref (self->findings);
  g_ptr_array_unref (self->record);
  g_free (self->upkeep);
  g_free (self->next_look);
  g_ptr_array_unref (self->label);
  g_ptr_array_unref (self->assumed);
  g_free (self->foot);
  g_free (self);
}

/* --- the parts of the sheet that every joint has --- */

/* "breaker 16 A"; "" while the document does not name it. */
static char *
device_text (const TlPlanner *self)
{
  const char      *kind = tl_facts_word (self->joint->duty, TL_FIELD_DEVICE_KIND, "");
  double           rating_A = tl_facts_number (self->joint->duty, TL_FIELD_DEVICE_RATING, 0.0);
  g_autofree char *rating =
      rating_A > 0.0 ? tl_planner_quantity (self, rating_A, "A") : g_strdup ("");

  if (*kind == '\0')
    return g_steal_pointer (&rating);
  return g_strchomp (g_strdup_printf (
      "%s %s", tl_planner_text (self, tl_field_word_label (TL_FIELD_DEVICE_KIND, kind)), rating));
}

/* The largest of the legs' least bend radii; 0 while no leg has a diameter. */
static double
bend_radius_mm (const TlPlanner *self)
{
  double radius_mm = 0.0;

  for (guint i = 0; i < self->joint->legs->len; i++)
    radius_mm =
        MAX (radius_mm, tl_planner_bend_radius_mm (self, g_ptr_array_index (self->joint->legs, i)));
  return radius_mm;
}

static void
fill_cautions (TlPlanner *self)
{
  GPtrArray       *lines = self->sheet->cautions;
  g_autofree char *device = device_text (self);
  double           radius_mm = bend_radius_mm (self);

  if (*device != '\0')
    g_ptr_array_add (
        lines,
        tl_wording_fill (
            tl_planner_text (
                self, TL_N_ ("Cut off every source of the circuit at its protective device "
                             "({device}); a switch "
                             "is no isolation. Isolate any other circuit in the box as well.")),
            "device", device, NULL));
  else
    g_ptr_array_add (lines, g_strdup (tl_planner_text (
                                self, TL_N_ ("Cut off every source of the circuit at its "
                                             "protective device; a switch is no isolation. Isolate "
                                             "any other circuit in the box as well."))));
  g_ptr_array_add (
      lines,
      g_strdup (tl_planner_text (
          self,
          TL_N_ ("Lock off, hang the tag with name, date and reason, keep the key on you."))));
  g_ptr_array_add (lines, g_strdup (tl_planner_text (
                              self, TL_N_ ("Prove dead with a two-pole tester: try it on a known "
                                           "live source, test every conductor to all "
                                           "others and to earth, try it on the source again."))));
  if (radius_mm > 0.0 && tl_planner_has_aluminium (self))
    {
      g_autofree char *radius = tl_planner_quantity (self, radius_mm, "mm");

      g_ptr_array_add (
          lines,
          tl_wording_fill (tl_planner_text (self, TL_N_ ("Eye protection on. Old aluminium breaks "
                                                         "when it is bent twice in one place: bend "
                                                         "once, inside radius {radius} or more.")),
                           "radius", radius, NULL));
    }
  else
    g_ptr_array_add (lines,
                     g_strdup (tl_planner_text (
                         self, TL_N_ ("Eye protection on for cutting, brushing and pressing."))));
  g_ptr_array_add (lines, g_strdup (tl_planner_text (
                              self, TL_N_ ("Boards, rope and flash guards of old fuse boards may "
                                           "be asbestos, and old rubber cracks when moved: "
                                           "stop and have it looked at."))));
}

/* Label of one finding, sentence and mend. */
static void
add_finding (TlPlanner *self, const TlFinding *finding, GPtrArray *lines)
{
  g_autofree char *sentence = tl_wording_finding (self->verdict, finding, self->language);
  g_autofree char *mend =
      finding->mend != NULL ? tl_wording_mend (self->verdict, finding->mend, self->language) : NULL;

  tl_step_add_line (
      lines, (gint) finding->severity, tl_planner_text (self, tl_severity_word (finding->severity)),
      mend == NULL ? g_steal_pointer (&sentence)
                   : tl_wording_fill (tl_planner_text (self, TL_N_ ("{why} Mend: {mend}.")), "why",
                                      sentence, "mend", mend, NULL));
}

static void
add_not_computed (TlPlanner *self, GPtrArray *lines)
{
  for (guint i = 0; i < self->verdict->not_computed->len; i++)
    {
      const TlNotComputed *row = &g_array_index (self->verdict->not_computed, TlNotComputed, i);

      tl_step_add_line (lines, TL_LINE_NOT_COMPUTED, tl_planner_text (self, TL_N_ ("Not computed")),
                        tl_wording_not_computed (self->verdict, row, self->language));
    }
}

static void
fill_findings (TlPlanner *self)
{
  for (guint i = 0; i < self->verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

      if (finding->severity >= TL_SEVERITY_WATCH)
        add_finding (self, finding, self->sheet->findings);
    }
  add_not_computed (self, self->sheet->findings);
}

static void
fill_refusals (TlPlanner *self)
{
  for (guint i = 0; i < self->verdict->unfinished->len; i++)
    {
      const TlProblem *problem = &g_array_index (self->verdict->unfinished, TlProblem, i);

      tl_step_add_line (self->sheet->refusals, TL_LINE_UNFINISHED,
                        tl_planner_text (self, problem->is_missing ? TL_N_ ("Missing")
                                                                   : TL_N_ ("Cannot be built")),
                        tl_wording_problem (self->assembly, problem, self->language));
    }
  for (guint i = 0; i < self->verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

      if (finding->severity >= TL_SEVERITY_CHANGE)
        add_finding (self, finding, self->sheet->refusals);
    }
  add_not_computed (self, self->sheet->refusals);
}

/* "Metal of (2): aluminium (read it from the sheath)" */
static char *
assumed_text (const TlPlanner *self, const TlAssumed *assumed)
{
  const TlFact      *fact = assumed->fact;
  const TlFieldInfo *info = tl_field_info (fact->field);
  g_autofree char   *value = NULL;
  g_autofree char   *owner = NULL;
  g_autofree char   *line = NULL;

  if (info->kind == TL_FIELD_KIND_ID)
    value = g_strdup (tl_material_name (self->stock, fact->word, self->language));
  else if (info->kind == TL_FIELD_KIND_WORD)
    value = g_strdup (tl_planner_text (self, tl_field_word_label (fact->field, fact->word)));
  else
    value = tl_range_format (fact->value, info->unit, self->language);
  if (strcmp (assumed->owner, "site") == 0 || strcmp (assumed->owner, "duty") == 0)
    line = g_strdup_printf ("%s: %s", tl_planner_text (self, info->label), value);
  else
    {
      owner = tl_planner_mark (self, assumed->owner);
      line = g_strdup_printf ("%s %s: %s", owner, tl_planner_text (self, info->label), value);
    }
  return fact->note != NULL && *fact->note != '\0' ? g_strdup_printf ("%s (%s)", line, fact->note)
                                                   : g_steal_pointer (&line);
}

static void
fill_assumed (TlPlanner *self)
{
  g_autoptr (GArray) assumed = tl_joint_assumed (self->joint);

  for (guint i = 0; i < assumed->len; i++)
    g_ptr_array_add (self->sheet->assumed,
                     assumed_text (self, &g_array_index (assumed, TlAssumed, i)));
}

/* "aluminium conductor 2.5 mm², copper conductor 2.5 mm²" */
static char *
subtitle (const TlPlanner *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      const TlLeg     *leg = g_ptr_array_index (self->joint->legs, i);
      g_autofree char *name = tl_assembly_owner_name (self->assembly, leg->id, self->language);

      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", name);
    }
  return g_string_free (text, FALSE);
}

static void
fill_head (TlPlanner *self, const char *date)
{
  TlStepSheet   *sheet = self->sheet;
  const TlJoint *joint = self->joint;

  sheet->name = g_strdup (joint->name != NULL && *joint->name != '\0'
                              ? joint->name
                              : tl_planner_text (self, TL_N_ ("Joint without a name")));
  sheet->subtitle = subtitle (self);
  sheet->place = g_strdup (joint->place != NULL ? joint->place : "");
  sheet->prepared_by = g_strdup (joint->prepared_by != NULL ? joint->prepared_by : "");
  sheet->date = g_strdup (date != NULL ? date : joint->date != NULL ? joint->date : "");
  sheet->verdict_word = g_strdup (tl_planner_text (self, tl_verdict_word (self->verdict)));
  sheet->has_severity = self->verdict->has_severity;
  sheet->severity = self->verdict->severity;
  sheet->fault_example = joint->fault_example;
  sheet->foot =
      g_strdup (tl_planner_text (self, TL_N_ ("This joint only; the other old joints of the "
                                              "circuit are not judged. The local code and a "
                                              "licensed person have the last word.")));
}

/* A family that has no steps yet is refused like one that is Unfinished: nothing is printed that
 * nobody planned. */
static TlSheetState
state_of (const TlVerdict *verdict)
{
  if (!verdict->has_severity || verdict->severity == TL_SEVERITY_UNSAFE
      || verdict->unfinished->len > 0 || verdict->assembly->family == TL_FAMILY_NONE)
    return TL_SHEET_REFUSED;
  return verdict->severity == TL_SEVERITY_CHANGE ? TL_SHEET_CHANGE : TL_SHEET_STEPS;
}

static void
fill_steps (TlPlanner *self)
{
  switch (self->assembly->family)
    {
    case TL_FAMILY_SLEEVE:
      tl_steps_sleeve (self);
      break;
    case TL_FAMILY_TERMINAL:
      tl_steps_terminal (self);
      break;
    case TL_FAMILY_SPLICE:
      tl_steps_splice (self);
      break;
    case TL_FAMILY_STACK:
    case TL_FAMILY_NONE:
    default:
      tl_steps_stack (self);
      break;
    }
  tl_upkeep_fill (self, *self->sheet->date != '\0' ? self->sheet->date : NULL);
}

TlStepSheet *
tl_steps_new (const TlVerdict *verdict, const char *date, const TlLanguage *language)
{
  TlPlanner planner = { .verdict = verdict, .language = language };

  g_return_val_if_fail (verdict != NULL, NULL);
  g_return_val_if_fail (language != NULL, NULL);

  planner.assembly = verdict->assembly;
  planner.joint = verdict->assembly->joint;
  planner.stock = verdict->assembly->stock;
  planner.sheet = sheet_alloc ();
  planner.sheet->state = state_of (verdict);
  fill_head (&planner, date);
  fill_cautions (&planner);
  tl_parts_list_fill (&planner);
  fill_assumed (&planner);
  tl_steps_instead (&planner);
  planner.sheet->banner =
      g_strdup (planner.sheet->state == TL_SHEET_CHANGE
                    ? tl_planner_text (&planner, TL_N_ ("To be changed before it is made"))
                    : "");
  if (planner.sheet->state == TL_SHEET_REFUSED)
    {
      planner.sheet->upkeep = g_strdup ("");
      planner.sheet->next_look = g_strdup ("");
      fill_refusals (&planner);
    }
  else
    {
      fill_findings (&planner);
      fill_steps (&planner);
    }
  return planner.sheet;
}
