/* steps-private.h: what the files of the step sheet share: the sheet in the making.
 *
 * The planner hands out numbers and hold letters in the order in which steps are added, so that the order in
 * the family files is the order on paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/steps.h"

G_BEGIN_DECLS

typedef struct
{
  const TlVerdict  *verdict;
  const TlAssembly *assembly;
  const TlJoint    *joint;
  const TlStock    *stock;
  const TlLanguage *language;
  TlStepSheet      *sheet;
  guint             n_steps; /* numbered so far */
  guint             n_holds;
} TlPlanner;

/* --- planner.c --- */
void tl_step_line_free (gpointer line);
/* Takes @value. */
void tl_step_add_line (GPtrArray *lines, gint mark, const char *label, char *value);

/* Numbered step or lettered hold at the end of the sheet; both texts are taken. (transfer none) */
TlStep *tl_planner_step (TlPlanner *self, const char *id, char *text);
TlStep *tl_planner_hold (TlPlanner *self, const char *id, char *text, char *if_not);
/* A figure beside a step; @value is taken, %NULL or "" adds nothing. */
void    tl_planner_figure (const TlPlanner *self, TlStep *step, const char *label, char *value);
/* Line of the tools list, once each; @value is taken, (nullable). */
void    tl_planner_tool (TlPlanner *self, const char *name, char *value);

/* @msgid in the language of the sheet; (transfer none) */
const char *tl_planner_text (const TlPlanner *self, const char *msgid);
/* "12.5 mm" in the units of the sheet; (transfer full) */
char *tl_planner_quantity (const TlPlanner *self, double value, const char *unit) G_GNUC_WARN_UNUSED_RESULT;
/* "11 mm ± 0.5 mm"; without a tolerance (0) just the figure. (transfer full) */
char *tl_planner_within (const TlPlanner *self, double value, double tolerance, const char *unit) G_GNUC_WARN_UNUSED_RESULT;
/* Figure @id of the table of thresholds for the joint's practice, with its unit; (transfer full) (nullable) */
char *tl_planner_limit_text (const TlPlanner *self, const char *id) G_GNUC_WARN_UNUSED_RESULT;
double tl_planner_limit (const TlPlanner *self, const char *id, double fallback);

/* "(2)" for an owner in the drawing, its name for one that is not. (transfer full) */
char *tl_planner_mark (const TlPlanner *self, const char *owner) G_GNUC_WARN_UNUSED_RESULT;
/* "(1), (3)" for @owners: (element-type utf8). (transfer full) */
char *tl_planner_marks (const TlPlanner *self, const GPtrArray *owners) G_GNUC_WARN_UNUSED_RESULT;
/* Metal of a leg, material id; "" while unknown. (transfer none) */
const char *tl_planner_metal (const TlPlanner *self, const TlLeg *leg);
gboolean tl_planner_is_aluminium (const TlPlanner *self, const TlLeg *leg);
gboolean tl_planner_has_aluminium (const TlPlanner *self);
/* Ids of legs with rubber insulation: (element-type utf8) (transfer container) */
GPtrArray *tl_planner_rubber_legs (const TlPlanner *self) G_GNUC_WARN_UNUSED_RESULT;
/* Inside radius of the one bend of a leg: its own, else whole millimetres by the limit for its metal; 0 unknown. */
double tl_planner_bend_radius_mm (const TlPlanner *self, const TlLeg *leg);

/* --- steps-ends.c: what is done to the ends of the conductors --- */
void tl_steps_strip (TlPlanner *self);
void tl_steps_prepare (TlPlanner *self);

/* --- steps-close.c: sealing, measuring, putting away --- */
void tl_steps_slide_seal (TlPlanner *self);
void tl_steps_shrink (TlPlanner *self);
void tl_steps_measure_bare (TlPlanner *self); /* while its metal can still be reached */
void tl_steps_measure (TlPlanner *self);
void tl_steps_dress_and_close (TlPlanner *self);

/* --- steps-sleeve.c, steps-stack.c: the families --- */
void tl_steps_sleeve (TlPlanner *self);
void tl_steps_stack (TlPlanner *self);

/* --- steps-terminal.c --- */
void tl_steps_terminal (TlPlanner *self);
void tl_steps_splice (TlPlanner *self);

/* --- steps-instead.c --- */
/* Where no joint, or not this one, can be made: whether to say so, and what to do in place of it. */
void tl_steps_instead (TlPlanner *self);

/* --- parts-list.c --- */
/* Facts of a leg or layer with those of its stock part beneath; (transfer full) */
TlFacts *tl_planner_facts (const TlPlanner *self, const char *owner) G_GNUC_WARN_UNUSED_RESULT;
void tl_parts_list_fill (TlPlanner *self);

/* --- upkeep.c: when to look again, the label, the record --- */
void tl_upkeep_fill (TlPlanner *self, const char *date);
/* "1 year", "6 months"; (transfer full) */
char *tl_upkeep_span_text (guint months, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Months from making to the first look, and from one look to the next; both at least 1. */
void tl_upkeep_intervals (const TlPlanner *self, guint *first_months, guint *then_months);

G_END_DECLS
