/* upkeep.c: when to look at the joint again, the label for the cover, the record to fill in.
 *
 * A date here is an invitation to inspect, never an order to turn a screw further: on aluminium
 * that has crept, more torque is no cure. The intervals stand in the table of thresholds and are
 * common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plan/steps-private.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MONTHS_A_YEAR 12

char *
tl_upkeep_span_text (guint months, const TlLanguage *language)
{
  gboolean         whole_years = months % MONTHS_A_YEAR == 0;
  guint            count = whole_years ? months / MONTHS_A_YEAR : months;
  g_autofree char *number = tl_language_number (language, count, 0);
  const char *msgid = whole_years ? tl_language_plural (language, "{n} year", "{n} years", count)
                                  : tl_language_plural (language, "{n} month", "{n} months", count);

  return tl_wording_fill (msgid, "n", number, NULL);
}

static guint
interval_months (const TlPlanner *self, const char *id)
{
  double years = tl_planner_limit (self, id, 1.0);

  return MAX (1u, (guint) lround (years * MONTHS_A_YEAR));
}

static const char *
surroundings (const TlPlanner *self)
{
  const TlFact *fact = tl_joint_site_fact (self->joint, self->stock, TL_FIELD_SURROUNDINGS);

  return fact != NULL && fact->word != NULL ? fact->word : "condensing";
}

/* Day of the next look as ISO year and month, or words while the day of making is open. */
static char *
next_look_text (const TlPlanner *self, const char *date, guint months)
{
  int              year, month, day;
  GDate            made;
  g_autofree char *span = NULL;

  if (date != NULL && sscanf (date, "%4d-%2d-%2d", &year, &month, &day) == 3
      && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    {
      g_date_set_dmy (&made, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
      g_date_add_months (&made, months);
      return g_strdup_printf ("%04d-%02d", g_date_get_year (&made), g_date_get_month (&made));
    }
  span = tl_upkeep_span_text (months, self->language);
  return tl_wording_fill (tl_planner_text (self, TL_N_ ("{span} after it was made")), "span", span,
                          NULL);
}

/* A conductor is held by a screw of a terminal. */
static gboolean
has_screw (const TlPlanner *self)
{
  return self->assembly->family == TL_FAMILY_TERMINAL && self->assembly->terminal.screws > 0;
}

static const char *
what_to_look_for (const TlPlanner *self)
{
  if (self->assembly->family == TL_FAMILY_STACK)
    return TL_N_ ("Cover closed: is it warm under load? Then dead and open: is the line of "
                  "paint whole, the insulation not browned, the resistance as written down? A "
                  "line that has parted means: cut back and make the joint anew, not turn the "
                  "nut further. An indication; common practice, no source.");
  if (has_screw (self))
    return TL_N_ ("Cover closed: is it warm under load? Then dead and open: does each "
                  "conductor stand firm, the insulation not browned, the resistance as written "
                  "down? One that has come loose means: cut back and make the joint anew, not turn "
                  "the screw further. An indication; common practice, no source.");
  if (self->assembly->family == TL_FAMILY_TERMINAL)
    return TL_N_ ("Look for browned insulation and a conductor that moves in its mouth; "
                  "measured dead from terminal to terminal, for a resistance well above the one "
                  "written down. An indication; common practice, no source.");
  return TL_N_ ("Look for a dry or lifted sleeve end and browned insulation; measured dead "
                "from terminal to terminal, for a resistance well above the one written "
                "down. An indication; common practice, no source.");
}

static char *
upkeep_text (const TlPlanner *self, guint first_months, guint then_months)
{
  g_autofree char *first = tl_upkeep_span_text (first_months, self->language);
  g_autofree char *then = tl_upkeep_span_text (then_months, self->language);
  const char      *rhythm = first_months == then_months
                                ? TL_N_ ("Look after {first}, and again each time as long has passed.")
                                : TL_N_ ("First look after {first}, then every {then} while the "
                                              "surroundings stay as they are.");
  g_autofree char *when =
      tl_wording_fill (tl_planner_text (self, rhythm), "first", first, "then", then, NULL);

  return g_strdup_printf ("%s %s", when, tl_planner_text (self, what_to_look_for (self)));
}

/* --- label --- */

/* How the conductors are held, in a word or two. */
static const char *
held_by (const TlPlanner *self)
{
  const char *form = self->assembly->splice.form;

  switch (self->assembly->family)
    {
    case TL_FAMILY_STACK:
      return TL_N_ ("bolted");
    case TL_FAMILY_TERMINAL:
      return has_screw (self) ? TL_N_ ("screw terminal") : TL_N_ ("spring terminal");
    case TL_FAMILY_SPLICE:
      return g_strcmp0 (form, "welded") == 0    ? TL_N_ ("welded")
             : g_strcmp0 (form, "twisted") == 0 ? TL_N_ ("twisted")
                                                : TL_N_ ("soldered");
    case TL_FAMILY_SLEEVE:
    case TL_FAMILY_NONE:
    default:
      return TL_N_ ("pressed");
    }
}

static char *
label_head (const TlPlanner *self)
{
  gboolean has_other = FALSE;

  for (guint i = 0; i < self->joint->legs->len; i++)
    has_other |= !tl_planner_is_aluminium (self, g_ptr_array_index (self->joint->legs, i));
  if (!tl_planner_has_aluminium (self))
    return g_strdup (tl_planner_text (self, TL_N_ ("JOINT INSIDE")));
  return g_strdup (tl_planner_text (self, has_other ? TL_N_ ("COPPER–ALUMINIUM JOINT INSIDE")
                                                    : TL_N_ ("ALUMINIUM JOINT INSIDE")));
}

static char *
label_way (const TlPlanner *self)
{
  GString         *sections = g_string_new (NULL);
  g_autofree char *text = NULL;
  gboolean         is_sealed = self->assembly->seal.closed[0] && self->assembly->seal.closed[1];
  const char      *msgid;

  for (guint i = 0; i < self->joint->legs->len; i++)
    {
      double section_mm2 = tl_leg_number (g_ptr_array_index (self->joint->legs, i), self->stock,
                                          TL_FIELD_SECTION, 0.0);
      g_autofree char *section = tl_planner_quantity (self, section_mm2, "mm2");

      if (section_mm2 > 0.0)
        g_string_append_printf (sections, "%s%s", sections->len > 0 ? " + " : "", section);
    }
  text = g_string_free (sections, FALSE);
  /* Translators: sections, how they are held, on the label of the cover: "2.5 mm² + 2.5 mm², pressed" */
  msgid = is_sealed ? TL_N_ ("{sections}, {way}, sealed") : TL_N_ ("{sections}, {way}");
  return tl_wording_fill (tl_planner_text (self, msgid), "sections", text, "way",
                          tl_planner_text (self, held_by (self)), NULL);
}

static char *
label_load (const TlPlanner *self)
{
  double           load_A = tl_facts_number (self->joint->duty, TL_FIELD_LOAD, 0.0);
  double           device_A = tl_facts_number (self->joint->duty, TL_FIELD_DEVICE_RATING, 0.0);
  g_autofree char *load = tl_planner_quantity (self, load_A, "A");
  g_autofree char *device = tl_planner_quantity (self, device_A, "A");

  if (load_A > 0.0 && device_A > 0.0)
    return tl_wording_fill (tl_planner_text (self, TL_N_ ("behind {device} · largest load {load}")),
                            "device", device, "load", load, NULL);
  if (load_A > 0.0)
    return tl_wording_fill (tl_planner_text (self, TL_N_ ("largest load {load}")), "load", load,
                            NULL);
  return g_strdup (self->sheet->place);
}

static void
fill_label (TlPlanner *self, const char *date)
{
  GPtrArray *label = self->sheet->label;

  g_ptr_array_add (label, label_head (self));
  g_ptr_array_add (label, label_way (self));
  g_ptr_array_add (label, label_load (self));
  g_ptr_array_add (label, tl_wording_fill (tl_planner_text (self, TL_N_ ("made: {date}")), "date",
                                           date != NULL ? date : "____________", NULL));
  g_ptr_array_add (label,
                   tl_wording_fill (tl_planner_text (self, TL_N_ ("look again: {date}")), "date",
                                    date != NULL ? self->sheet->next_look : "____________", NULL));
  g_ptr_array_add (
      label, g_strdup (tl_planner_text (self, TL_N_ ("Isolate and prove dead before opening."))));
}

static void
fill_record (TlPlanner *self)
{
  static const char *const pressed[] = {
    TL_N_ ("Pressed across flats, mm"),
    TL_N_ ("Bench sample pulled, N"),
    TL_N_ ("Resistance of the joint, mΩ"),
  };
  static const char *const bolted[] = {
    TL_N_ ("Torque set, N·m"),
    TL_N_ ("Torque driver, number and check"),
    TL_N_ ("Resistance of the joint, mΩ"),
  };
  static const char *const held[] = {
    TL_N_ ("Tug by hand, each conductor"),
    TL_N_ ("Marking of the part"),
    TL_N_ ("Resistance of the joint, mΩ"),
  };
  static const char *const both[] = {
    TL_N_ ("Insulation resistance, MΩ"),   TL_N_ ("Air in the box, °C"),
    TL_N_ ("Device, type and rating"),     TL_N_ ("Made by, date, signature"),
    TL_N_ ("Checked by, date, signature"), TL_N_ ("Licence or number"),
  };
  const char *const *own = self->assembly->family == TL_FAMILY_STACK || has_screw (self) ? bolted
                           : self->assembly->family == TL_FAMILY_SLEEVE                  ? pressed
                                                                                         : held;

  for (guint i = 0; i < G_N_ELEMENTS (pressed); i++)
    g_ptr_array_add (self->sheet->record, g_strdup (tl_planner_text (self, own[i])));
  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    g_ptr_array_add (self->sheet->record, g_strdup (tl_planner_text (self, both[i])));
}

void
tl_upkeep_intervals (const TlPlanner *self, guint *first_months, guint *then_months)
{
  g_autofree char *then_id = g_strconcat ("upkeep.then-", surroundings (self), NULL);

  *first_months = interval_months (self, "upkeep.first-look");
  *then_months = interval_months (self, then_id);
  if (self->assembly->family == TL_FAMILY_STACK
      || (has_screw (self) && tl_planner_has_aluminium (self)))
    *then_months = MIN (*then_months, interval_months (self, "upkeep.screw-on-aluminium"));
}

void
tl_upkeep_fill (TlPlanner *self, const char *date)
{
  guint first_months, then_months;

  tl_upkeep_intervals (self, &first_months, &then_months);
  self->sheet->upkeep = upkeep_text (self, first_months, then_months);
  self->sheet->next_look = next_look_text (self, date, first_months);
  fill_label (self, date);
  fill_record (self);
}
