/* finding.c: building findings, and the one table from figure to severity.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules/finding-private.h"

#include <math.h>

void
tl_not_computed_clear (TlNotComputed *row)
{
  g_clear_pointer (&row->owner, g_free);
}

/* --- lists of a finding ---
 * A drag makes some thirty findings on every motion of the pointer, and most have nothing in most of their lists:
 * these share the two empty ones until something is put in. */

static const GArray *
no_rows (void)
{
  static gsize   ready;
  static GArray *empty;

  if (g_once_init_enter (&ready))
    {
      empty = g_array_new (FALSE, FALSE, 1);
      g_once_init_leave (&ready, 1);
    }
  return empty;
}

static const GPtrArray *
no_pointers (void)
{
  static gsize      ready;
  static GPtrArray *empty;

  if (g_once_init_enter (&ready))
    {
      empty = g_ptr_array_new ();
      g_once_init_leave (&ready, 1);
    }
  return empty;
}

static void
add_row (GArray **rows, gconstpointer row, guint size, guint reserved)
{
  if (*rows == no_rows ())
    *rows = g_array_sized_new (FALSE, FALSE, size, reserved);
  g_array_append_vals (*rows, row, 1);
}

static void
add_pointer (GPtrArray **pointers, gpointer pointer, GDestroyNotify free_func)
{
  if (*pointers == no_pointers ())
    *pointers = g_ptr_array_new_with_free_func (free_func);
  g_ptr_array_add (*pointers, pointer);
}

static void
drop_rows (GArray *rows)
{
  if (rows != no_rows ())
    g_array_unref (rows);
}

static void
drop_pointers (GPtrArray *pointers)
{
  if (pointers != no_pointers ())
    g_ptr_array_unref (pointers);
}

TlFinding *
tl_finding_new (const TlRule *rule, GStringChunk *strings)
{
  TlFinding *self = g_new0 (TlFinding, 1);

  self->rule = rule;
  self->source = rule->source;
  self->owners = (GPtrArray *) no_pointers ();
  self->contacts = (GArray *) no_rows ();
  self->figures = (GArray *) no_rows ();
  self->words = (GArray *) no_rows ();
  self->calls = (GPtrArray *) no_pointers ();
  self->sources = (GPtrArray *) no_pointers ();
  self->strings = strings;
  return self;
}

void
tl_finding_free (TlFinding *self)
{
  if (self == NULL)
    return;
  drop_pointers (self->owners);
  drop_rows (self->contacts);
  drop_rows (self->figures);
  drop_rows (self->words);
  drop_pointers (self->calls);
  drop_pointers (self->sources);
  tl_mend_free (self->mend);
  g_free (self);
}

/* --- what a rule calls --- */

TlFinding *
tl_findings_add (TlFindings *self, TlSeverity severity, TlTrust trust, const char *message)
{
  TlFinding *finding = tl_finding_new (self->rule, self->verdict->strings);

  finding->severity = severity;
  finding->trust = trust;
  finding->message = message;
  g_ptr_array_add (self->verdict->findings, finding);
  return finding;
}

void
tl_findings_not_computed (TlFindings *self, const char *reason, const char *owner, TlField field)
{
  TlNotComputed row = { self->rule, reason, NULL, field };

  for (guint i = 0; i < self->verdict->not_computed->len; i++)
    {
      const TlNotComputed *have = &g_array_index (self->verdict->not_computed, TlNotComputed, i);

      if (have->rule == self->rule && g_str_equal (have->reason, reason) && have->field == field
          && g_strcmp0 (have->owner, owner) == 0)
        return;
    }
  row.owner = g_strdup (owner);
  g_array_append_val (self->verdict->not_computed, row);
}

gboolean
tl_findings_is_quick (const TlFindings *self)
{
  return self->quick;
}

TlHeatModel *
tl_findings_heat (TlFindings *self)
{
  if (!self->heat_was_tried)
    {
      self->heat_was_tried = TRUE;
      self->heat_field = TL_N_FIELDS;
      self->heat = tl_heat_model_new (self->verdict->assembly, &self->heat_reason,
                                      &self->heat_owner, &self->heat_field);
    }
  return self->heat;
}

static gboolean
margin_of_concern (TlConcern concern, TlMargin *margin)
{
  switch (concern)
    {
    case TL_CONCERN_GALVANIC:
      *margin = TL_MARGIN_GALVANIC;
      return TRUE;
    case TL_CONCERN_HEAT:
      *margin = TL_MARGIN_HEAT;
      return TRUE;
    case TL_CONCERN_GRIP:
      *margin = TL_MARGIN_GRIP;
      return TRUE;
    case TL_CONCERN_SEAL:
      *margin = TL_MARGIN_SEAL;
      return TRUE;
    case TL_CONCERN_CURRENT:
    case TL_CONCERN_ROOM:
    case TL_CONCERN_ROLES:
    case TL_CONCERN_PRACTICE:
    default:
      return FALSE;
    }
}

void
tl_findings_margin (TlFindings *self, TlConcern concern, const TlFigure *figure, double slack_ratio)
{
  TlMargin margin;

  if (!margin_of_concern (concern, &margin))
    return;
  if (self->verdict->has_margin[margin] && self->slack[margin] <= slack_ratio)
    return;
  self->verdict->has_margin[margin] = TRUE;
  self->verdict->margins[margin] = *figure;
  self->slack[margin] = slack_ratio;
}

void
tl_finding_owner (TlFinding *self, const char *owner)
{
  for (guint i = 0; i < self->owners->len; i++)
    if (g_str_equal (self->owners->pdata[i], owner))
      return;
  add_pointer (&self->owners, g_string_chunk_insert (self->strings, owner), NULL);
}

void
tl_finding_contact (TlFinding *self, guint contact)
{
  add_row (&self->contacts, &contact, sizeof contact, 4);
}

void
tl_finding_figure (TlFinding *self, const char *name, TlRange value, const char *unit,
                   TlTrust trust)
{
  TlFigure figure = {
    name, value, NAN, FALSE, unit, trust, TL_KNOWN_COMPUTED, NULL, self->severity
  };

  add_row (&self->figures, &figure, sizeof figure, 4);
}

void
tl_finding_limit (TlFinding *self, const char *name, TlRange value, double limit,
                  gboolean limit_is_least, const char *unit, TlTrust trust, TlKnownBy known_by,
                  const char *source)
{
  TlFigure figure = { name,  value,    limit,  limit_is_least, unit,
                      trust, known_by, source, self->severity };

  add_row (&self->figures, &figure, sizeof figure, 4);
}

void
tl_finding_word (TlFinding *self, const char *name, TlWordKind kind, const char *text)
{
  TlWord word = { name, kind, text != NULL ? g_string_chunk_insert (self->strings, text) : NULL };

  add_row (&self->words, &word, sizeof word, 4);
}

void
tl_finding_call (TlFinding *self, const TlFindings *findings, const TlCall *call)
{
  if (!findings->quick)
    add_pointer (&self->calls, g_memdup2 (call, sizeof *call), g_free);
}

void
tl_finding_why (TlFinding *self, const char *why)
{
  self->why = why;
}

void
tl_finding_source (TlFinding *self, const char *source)
{
  self->source = source;
}

void
tl_finding_add_source (TlFinding *self, const char *source)
{
  for (guint i = 0; i < self->sources->len; i++)
    if (g_str_equal (self->sources->pdata[i], source))
      return;
  add_pointer (&self->sources, g_string_chunk_insert (self->strings, source), NULL);
}

void
tl_finding_dispute (TlFinding *self, const char *question)
{
  self->dispute = question;
}

GPtrArray *
tl_finding_disputes (const TlFinding *self, const TlStock *stock)
{
  const TlTable *table = tl_stock_table (stock, "disputes");
  GPtrArray     *rows = g_ptr_array_new ();

  for (guint i = 0; self->dispute != NULL && table != NULL && i < table->rows->len; i++)
    {
      TlTableRow *row = g_ptr_array_index (table->rows, i);

      if (g_strcmp0 (tl_table_word (table, row, "question"), self->dispute) == 0)
        g_ptr_array_add (rows, row);
    }
  return rows;
}

/* --- mends --- */

static TlMend *
set_mend (TlFinding *self, TlMendKind kind, const char *owner, const char *part, const char *label)
{
  tl_mend_free (self->mend);
  self->mend = g_new0 (TlMend, 1);
  self->mend->kind = kind;
  self->mend->owner = g_strdup (owner);
  self->mend->part = g_strdup (part);
  self->mend->label = label;
  return self->mend;
}

void
tl_finding_mend_insert (TlFinding *self, const char *part, TlSeat seat, const char *label)
{
  set_mend (self, TL_MEND_INSERT, NULL, part, label)->seat = seat;
}

void
tl_finding_mend_replace (TlFinding *self, const char *owner, const char *part, const char *label)
{
  set_mend (self, TL_MEND_REPLACE, owner, part, label);
}

void
tl_finding_mend_remove (TlFinding *self, const char *owner, const char *label)
{
  set_mend (self, TL_MEND_REMOVE, owner, NULL, label);
}

void
tl_finding_mend_number (TlFinding *self, const char *owner, TlField field, double value,
                        const char *label)
{
  TlMend *mend = set_mend (self, TL_MEND_SET, owner, NULL, label);

  mend->fact.field = field;
  mend->fact.value = tl_range_exact (value);
  mend->fact.known_by = TL_KNOWN_STATED;
}

void
tl_finding_mend_word (TlFinding *self, const char *owner, TlField field, const char *word,
                      const char *label)
{
  TlMend *mend = set_mend (self, TL_MEND_SET, owner, NULL, label);

  mend->fact.field = field;
  mend->fact.word = g_strdup (word);
  mend->fact.known_by = TL_KNOWN_STATED;
}

void
tl_finding_mend_move (TlFinding *self, const char *owner, TlSeat seat, const char *label)
{
  set_mend (self, TL_MEND_MOVE, owner, NULL, label)->seat = seat;
}

/* Another part in its place: what the new part says of itself wins over what was stated of the old one. */
static TlJoint *
replace_part (const TlMend *mend, const TlJoint *joint, const TlStock *stock, GError **error)
{
  const TlPart *part = tl_stock_part (stock, mend->part);
  TlJoint      *next = tl_edit_replace_part (joint, stock, mend->owner, mend->part, error);

  for (guint i = 0; next != NULL && part != NULL && i < tl_facts_count (part->facts); i++)
    {
      TlField        field = tl_facts_at (part->facts, i)->field;
      const TlLayer *layer = tl_joint_layer (next, mend->owner);
      TlJoint       *bare;

      if (layer == NULL || !tl_facts_has (layer->facts, field))
        continue;
      bare = tl_edit_unset_fact (next, mend->owner, field, error);
      tl_joint_unref (next);
      next = bare;
    }
  return next;
}

TlJoint *
tl_mend_apply (const TlMend *mend, const TlJoint *joint, const TlStock *stock, GError **error)
{
  switch (mend->kind)
    {
    case TL_MEND_INSERT:
      return tl_edit_add_layer (joint, stock, mend->part, &mend->seat, NULL, error);
    case TL_MEND_REPLACE:
      return replace_part (mend, joint, stock, error);
    case TL_MEND_REMOVE:
      return tl_edit_remove (joint, mend->owner, error);
    case TL_MEND_SET:
      return tl_edit_set_fact (joint, mend->owner, &mend->fact, error);
    case TL_MEND_MOVE:
    default:
      return tl_edit_move (joint, mend->owner, &mend->seat, error);
    }
}

TlMend *
tl_mend_copy (const TlMend *mend)
{
  TlMend *copy = g_memdup2 (mend, sizeof *mend);

  copy->owner = g_strdup (mend->owner);
  copy->part = g_strdup (mend->part);
  copy->seat = tl_seat_copy (&mend->seat);
  copy->fact.word = g_strdup (mend->fact.word);
  copy->fact.source = g_strdup (mend->fact.source);
  copy->fact.note = g_strdup (mend->fact.note);
  return copy;
}

void
tl_mend_free (TlMend *mend)
{
  if (mend == NULL)
    return;
  g_free (mend->owner);
  g_free (mend->part);
  tl_seat_clear (&mend->seat);
  g_free (mend->fact.word);
  g_free (mend->fact.source);
  g_free (mend->fact.note);
  g_free (mend);
}

/* --- from figure to severity --- */

TlSeverity
tl_severity_of_figure (TlRange value, double limit, gboolean limit_is_least, double strip,
                       TlTrust trust, TlSeverity worst)
{
  /* Turned so that a figure may rise up to the limit. */
  double best = limit_is_least ? -value.best : value.best;
  double bad = limit_is_least ? -value.low : value.high;
  double most = limit_is_least ? -limit : limit;
  /* A few parts in 1e12: two figures that are equal on paper are equal here. */
  double nought = 1e-12 * fmax (fabs (limit), 1e-9);

  if (best > most + nought)
    return trust == TL_TRUST_I ? MIN (worst, TL_SEVERITY_WATCH) : worst;
  if (best >= most - strip - nought)
    return TL_SEVERITY_WATCH;
  if (trust == TL_TRUST_B && bad > most + nought)
    return TL_SEVERITY_WATCH;
  return TL_SEVERITY_SOUND;
}

TlSeverity
tl_severity_worse (TlSeverity severity)
{
  return severity == TL_SEVERITY_UNSAFE ? severity : severity + 1;
}

const char *
tl_severity_word (TlSeverity severity)
{
  static const char *const words[] = { TL_N_ ("Sound"), TL_N_ ("Watch"), TL_N_ ("Change"),
                                       TL_N_ ("Unsafe") };

  return words[severity];
}

const char *
tl_concern_word (TlConcern concern)
{
  static const char *const words[] = { TL_N_ ("galvanic"), TL_N_ ("grip"),    TL_N_ ("current"),
                                       TL_N_ ("heat"),     TL_N_ ("seal"),    TL_N_ ("room"),
                                       TL_N_ ("roles"),    TL_N_ ("practice") };

  return words[concern];
}

const char *
tl_trust_word (TlTrust trust)
{
  static const char *const words[] = { "A", "B", "I" };

  return words[trust];
}
