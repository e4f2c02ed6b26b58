/* check-json.c: a verdict as JSON, format 1 (data/schema/check.schema.json).
 *
 * Ids, figures and untranslated sentences only: the same file gives the same bytes in every locale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/check-private.h"

#include "base/json.h"
#include "rules/wording.h"

#include <math.h>
#include <string.h>

#define FORMAT 1

static void
write_figure (TlJson *json, const char *name, const TlFigure *figure)
{
  tl_json_open (json, name, FALSE);
  tl_json_number (json, "value", figure->value.best);
  tl_json_number (json, "low", figure->value.low);
  tl_json_number (json, "high", figure->value.high);
  tl_json_number (json, "limit", figure->limit);
  tl_json_string (json, "unit", figure->unit);
  tl_json_string (json, "class", tl_trust_word (figure->trust));
  tl_json_string (json, "known_by", tl_known_by_to_word (figure->known_by));
  tl_json_string (json, "source", figure->source);
  tl_json_string (json, "severity", tl_severity_word (figure->severity));
  tl_json_close (json);
}

static void
write_seat (TlJson *json, const TlSeat *seat)
{
  static const char *const words[] = {
    [TL_SEAT_NONE] = "none",     [TL_SEAT_STACK] = "stack", [TL_SEAT_ON] = "on",
    [TL_SEAT_AROUND] = "around", [TL_SEAT_PORT] = "port",
  };

  tl_json_open (json, "seat", FALSE);
  tl_json_string (json, "kind", words[seat->kind]);
  if (seat->kind == TL_SEAT_STACK || seat->kind == TL_SEAT_PORT)
    tl_json_number (json, "place", seat->place);
  if (seat->of != NULL)
    tl_json_string (json, "of", seat->of);
  if (seat->from != NULL)
    tl_json_string (json, "from", seat->from);
  if (seat->to != NULL)
    tl_json_string (json, "to", seat->to);
  tl_json_close (json);
}

static void
write_mend (TlJson *json, const TlVerdict *verdict, const TlMend *mend)
{
  static const char *const kinds[] = {
    [TL_MEND_INSERT] = "insert", [TL_MEND_REPLACE] = "replace", [TL_MEND_REMOVE] = "remove",
    [TL_MEND_SET] = "set",       [TL_MEND_MOVE] = "move",
  };
  g_autofree char *text = NULL;

  if (mend == NULL)
    {
      tl_json_null (json, "mend");
      return;
    }
  text = tl_wording_mend (verdict, mend, tl_language_plain ());
  tl_json_open (json, "mend", FALSE);
  tl_json_string (json, "kind", kinds[mend->kind]);
  tl_json_string (json, "owner", mend->owner);
  tl_json_string (json, "part", mend->part);
  if (mend->kind == TL_MEND_INSERT || mend->kind == TL_MEND_MOVE)
    write_seat (json, &mend->seat);
  if (mend->kind == TL_MEND_SET)
    {
      const TlFieldInfo *info = tl_field_info (mend->fact.field);

      tl_json_string (json, "field", info->key);
      if (mend->fact.word != NULL)
        tl_json_string (json, "word", mend->fact.word);
      else
        {
          tl_json_number (json, "value", mend->fact.value.best);
          tl_json_string (json, "unit", info->unit);
        }
    }
  tl_json_string (json, "text", text);
  tl_json_close (json);
}

/* Keys of an object are unique; a second figure of one name gets a number. */
static void
write_figures (TlJson *json, const GArray *figures)
{
  tl_json_open (json, "figures", FALSE);
  for (guint i = 0; i < figures->len; i++)
    {
      const TlFigure  *figure = &g_array_index (figures, TlFigure, i);
      guint            earlier = 1;
      g_autofree char *key = NULL;

      for (guint j = 0; j < i; j++)
        if (strcmp (g_array_index (figures, TlFigure, j).name, figure->name) == 0)
          earlier++;
      key =
          earlier == 1 ? g_strdup (figure->name) : g_strdup_printf ("%s_%u", figure->name, earlier);
      write_figure (json, key, figure);
    }
  tl_json_close (json);
}

static void
write_disputes (TlJson *json, const TlVerdict *verdict, const TlFinding *finding)
{
  const TlTable *table = tl_stock_table (verdict->assembly->stock, "disputes");
  g_autoptr (GPtrArray) rows = tl_finding_disputes (finding, verdict->assembly->stock);

  tl_json_open (json, "disputed", TRUE);
  for (guint i = 0; i < rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (rows, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "side", tl_table_word (table, row, "side"));
      tl_json_string (json, "text", tl_table_word (table, row, "text"));
      tl_json_string (json, "known_by", tl_known_by_to_word (row->known_by));
      tl_json_string (json, "source", row->source);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_finding (TlJson *json, const TlVerdict *verdict, const TlFinding *finding)
{
  const GArray    *contacts = verdict->assembly->contacts;
  g_autofree char *text = tl_wording_finding (verdict, finding, tl_language_plain ());

  tl_json_open (json, NULL, FALSE);
  tl_json_string (json, "rule", finding->rule->id);
  tl_json_string (json, "severity", tl_severity_word (finding->severity));
  tl_json_string (json, "class", tl_trust_word (finding->trust));
  tl_json_open (json, "layers", TRUE);
  for (guint i = 0; i < finding->owners->len; i++)
    tl_json_string (json, NULL, g_ptr_array_index (finding->owners, i));
  tl_json_close (json);
  tl_json_open (json, "contacts", TRUE);
  for (guint i = 0; i < finding->contacts->len; i++)
    tl_json_string (
        json, NULL,
        g_array_index (contacts, TlContact, g_array_index (finding->contacts, guint, i)).id);
  tl_json_close (json);
  write_figures (json, finding->figures);
  tl_json_string (json, "text", text);
  tl_json_string (json, "source", finding->source);
  tl_json_open (json, "further_sources", TRUE);
  for (guint i = 0; i < finding->sources->len; i++)
    tl_json_string (json, NULL, g_ptr_array_index (finding->sources, i));
  tl_json_close (json);
  write_disputes (json, verdict, finding);
  write_mend (json, verdict, finding->mend);
  tl_json_close (json);
}

static void
write_open_questions (TlJson *json, const TlVerdict *verdict)
{
  tl_json_open (json, "unfinished", TRUE);
  for (guint i = 0; i < verdict->unfinished->len; i++)
    {
      const TlProblem *problem = &g_array_index (verdict->unfinished, TlProblem, i);
      g_autofree char *text = tl_wording_problem (verdict->assembly, problem, tl_language_plain ());

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "owner", problem->owner);
      tl_json_string (json, "field",
                      problem->field < TL_N_FIELDS ? tl_field_info (problem->field)->key : NULL);
      tl_json_string (json, "text", text);
      tl_json_close (json);
    }
  tl_json_close (json);
  tl_json_open (json, "not_computed", TRUE);
  for (guint i = 0; i < verdict->not_computed->len; i++)
    {
      const TlNotComputed *row = &g_array_index (verdict->not_computed, TlNotComputed, i);
      g_autofree char     *reason = tl_wording_not_computed (verdict, row, tl_language_plain ());

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "rule", row->rule->id);
      tl_json_string (json, "reason", reason);
      tl_json_close (json);
    }
  tl_json_close (json);
}

static void
write_margins (TlJson *json, const TlVerdict *verdict)
{
  static const char *const names[] = {
    [TL_MARGIN_GALVANIC] = "galvanic",
    [TL_MARGIN_HEAT] = "heat",
    [TL_MARGIN_GRIP] = "grip",
    [TL_MARGIN_SEAL] = "seal",
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (names) == TL_N_MARGINS);

  tl_json_open (json, "margins", FALSE);
  for (guint i = 0; i < TL_N_MARGINS; i++)
    {
      if (verdict->has_margin[i])
        write_figure (json, names[i], &verdict->margins[i]);
      else
        tl_json_null (json, names[i]);
    }
  tl_json_close (json);
}

static void
write_assembly (TlJson *json, const TlAssembly *assembly)
{
  tl_json_open (json, "assembly", FALSE);
  tl_json_open (json, "bodies", TRUE);
  for (guint i = 0; i < assembly->bodies->len; i++)
    {
      const TlBody *body = tl_assembly_body (assembly, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "id", body->id);
      tl_json_string (json, "owner", body->owner);
      tl_json_string (json, "material", body->material);
      tl_json_string (json, "coating", body->coating);
      tl_json_close (json);
    }
  tl_json_close (json);
  tl_json_open (json, "contacts", TRUE);
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);

      tl_json_open (json, NULL, FALSE);
      tl_json_string (json, "id", contact->id);
      tl_json_open (json, "between", TRUE);
      tl_json_string (json, NULL, tl_assembly_body (assembly, contact->a)->id);
      tl_json_string (json, NULL, tl_assembly_body (assembly, contact->b)->id);
      tl_json_close (json);
      tl_json_string (json, "kind", tl_contact_kind_word (contact->kind));
      tl_json_number (json, "area_mm2", contact->area_mm2);
      tl_json_number (json, "distance_mm", contact->distance_mm);
      tl_json_close (json);
    }
  tl_json_close (json);
  tl_json_close (json);
}

char *
tl_cli_check_json (const TlVerdict *verdict)
{
  TlJson        *json = tl_json_new ();
  const TlJoint *joint = verdict->assembly->joint;

  tl_json_open (json, NULL, FALSE);
  tl_json_number (json, "format", FORMAT);
  tl_json_string (json, "program", "tinlap " TL_VERSION);
  tl_json_string (json, "data_version", tl_stock_version (verdict->assembly->stock));
  tl_json_string (json, "practice", joint->practice);
  tl_json_string (json, "joint", joint->name);
  tl_json_string (json, "verdict",
                  verdict->has_severity ? tl_severity_word (verdict->severity) : NULL);
  write_open_questions (json, verdict);
  write_margins (json, verdict);
  tl_json_open (json, "findings", TRUE);
  for (guint i = 0; i < verdict->findings->len; i++)
    write_finding (json, verdict, g_ptr_array_index (verdict->findings, i));
  tl_json_close (json);
  write_assembly (json, verdict->assembly);
  tl_json_close (json);
  return tl_json_finish (json);
}
