/* build.c: joints for the tests of the assembly.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "build.h"

#include <string.h>

const TlStock *
build_stock (void)
{
  static TlStock *stock = NULL;

  if (stock == NULL)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *data = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", NULL);

      stock = tl_stock_load (data, &error);
      g_assert_no_error (error);
    }
  return stock;
}

static TlFacts *
with_text (TlFacts *facts, const char *text)
{
  g_auto (GStrv) items = g_strsplit (text, ";", -1);

  for (guint i = 0; items[i] != NULL; i++)
    {
      g_auto (GStrv) pair = g_strsplit (g_strstrip (items[i]), "=", 2);
      g_autoptr (GError) error = NULL;
      TlFact   fact = { .known_by = TL_KNOWN_STATED };
      TlFacts *wider;

      if (*items[i] == '\0')
        continue;
      if (!tl_field_from_key (pair[0], &fact.field))
        g_error ("no field is called %s", pair[0]);
      tl_fact_parse (fact.field, pair[1], &fact, &error);
      g_assert_no_error (error);
      wider = tl_facts_with (facts, &fact);
      tl_facts_unref (facts);
      facts = wider;
      g_free (fact.word);
    }
  return facts;
}

TlFacts *
build_facts (const char *text)
{
  return with_text (tl_facts_new (), text);
}

static void
take (TlJoint **joint, TlJoint *next, GError *error)
{
  g_assert_no_error (error);
  tl_joint_unref (*joint);
  *joint = next;
}

char *
build_layer (TlJoint **joint, TlPartKind kind, TlSeat seat, const char *text)
{
  g_autoptr (TlFacts) facts = build_facts (text);
  g_autoptr (GError) error = NULL;
  char *id = NULL;

  take (joint, tl_edit_add_own_layer (*joint, kind, facts, &seat, &id, &error), error);
  tl_seat_clear (&seat);
  return id;
}

char *
build_leg (TlJoint **joint, TlSeat seat, const char *text)
{
  g_autoptr (TlFacts) facts = build_facts (text);
  g_autoptr (GError) error = NULL;
  char *id = NULL;

  take (joint, tl_edit_add_leg (*joint, build_stock (), NULL, facts, &seat, &id, &error), error);
  tl_seat_clear (&seat);
  return id;
}

void
build_fact (TlJoint **joint, const char *owner, const char *text)
{
  g_autoptr (TlFacts) facts = build_facts (text);

  for (guint i = 0; i < tl_facts_count (facts); i++)
    {
      g_autoptr (GError) error = NULL;

      take (joint, tl_edit_set_fact (*joint, owner, tl_facts_at (facts, i), &error), error);
    }
}

static guint
next_place (const TlJoint *joint)
{
  g_autoptr (GPtrArray) stack = tl_joint_stack (joint);

  return stack->len;
}

char *
build_next (TlJoint **joint, TlPartKind kind, const char *facts)
{
  return build_layer (joint, kind, tl_seat_stack (next_place (*joint)), facts);
}

char *
build_next_leg (TlJoint **joint, const char *facts)
{
  return build_leg (joint, tl_seat_stack (next_place (*joint)), facts);
}

const TlContact *
build_contact (const TlAssembly *assembly, const char *body, const char *other)
{
  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);
      const char      *a = tl_assembly_body (assembly, contact->a)->id;
      const char      *b = tl_assembly_body (assembly, contact->b)->id;

      if ((strcmp (a, body) == 0 && strcmp (b, other) == 0)
          || (strcmp (a, other) == 0 && strcmp (b, body) == 0))
        return contact;
    }
  return NULL;
}

const TlProblem *
build_problem (const TlAssembly *assembly, const char *owner, const char *words)
{
  for (guint i = 0; i < assembly->problems->len; i++)
    {
      const TlProblem *problem = &g_array_index (assembly->problems, TlProblem, i);

      if (strcmp (problem->owner, owner) == 0 && strstr (problem->message, words) != NULL)
        return problem;
    }
  return NULL;
}
