/* drawing-text.c: the display list as text for tests, and the drawing as sentences for who cannot see it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/drawing-private.h"

static const char *const kind_words[] = { "body", "line",   "fill", "place",
                                          "text", "number", "mark", "contact" };
static const char *const look_words[TL_N_LOOKS] = {
  "copper", "aluminium", "tin",      "steel",      "stainless", "zinc", "nickel",
  "brass",  "polymer",   "adhesive", "insulation", "compound",  "air"
};
static const char *const mark_words[] = { "sound",      "watch",        "change", "unsafe",
                                          "unfinished", "not-computed", "refused" };

static void
append_number (GString *text, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  /* no minus zero: it would differ between machines */
  if (fabs (value) < 0.005)
    value = 0.0;
  g_string_append_c (text, ' ');
  g_string_append (text, g_ascii_formatd (buffer, sizeof buffer, "%.2f", value));
}

static void
append_points (const TlDrawing *d, GString *text, const TlShape *shape)
{
  const TlView *view = shape->view >= 0 ? &d->views[shape->view] : NULL;
  gboolean      in_mm = view != NULL && view->scale > 0.0;

  for (guint i = 0; i < shape->count; i++)
    {
      const TlVertex *v = &g_array_index (d->vertices, TlVertex, shape->first + i);

      g_string_append_printf (text, " %c", v->op);
      if (v->op == 'Z')
        continue;
      append_number (text, in_mm ? (v->x - view->x) / view->scale : v->x);
      append_number (text, in_mm ? (v->y - view->y) / view->scale : v->y);
    }
}

char *
tl_drawing_to_text (const TlDrawing *self)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (self != NULL, g_string_free (text, FALSE));

  for (guint i = 0; i < self->shapes->len; i++)
    {
      const TlShape *shape = &g_array_index (self->shapes, TlShape, i);

      g_string_append_printf (text, "%s %s", kind_words[shape->kind],
                              shape->view == TL_VIEW_SECTION ? "section"
                              : shape->view == TL_VIEW_END   ? "end"
                                                             : "sheet");
      if (shape->owner != NULL)
        g_string_append_printf (text, " %s", shape->owner);
      if (shape->contact >= 0)
        g_string_append_printf (
            text, " contact %s",
            g_array_index (self->assembly->contacts, TlContact, shape->contact).id);
      if (shape->kind == TL_SHAPE_BODY)
        g_string_append_printf (text, " %s %s", look_words[shape->look],
                                shape->is_cut ? "cut" : "seen");
      if (shape->kind == TL_SHAPE_MARK || shape->kind == TL_SHAPE_CONTACT)
        g_string_append_printf (text, " %s", mark_words[shape->mark]);
      if (shape->kind == TL_SHAPE_NUMBER)
        g_string_append_printf (text, " %u", shape->number);
      if (shape->kind == TL_SHAPE_TEXT || shape->kind == TL_SHAPE_NUMBER
          || shape->kind == TL_SHAPE_MARK)
        {
          append_number (text, shape->x);
          append_number (text, shape->y);
        }
      if (shape->text != NULL)
        g_string_append_printf (text, " \"%s\"", shape->text);
      append_points (self, text, shape);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

/* What one part does within itself is told only where it is not well; @told: lines so far, for what is the same twice. */
static void
describe_contact (GString *text, GHashTable *told, const TlVerdict *verdict, guint index,
                  const TlLanguage *language)
{
  const TlAssembly *assembly = verdict->assembly;
  const TlContact  *contact = &g_array_index (assembly->contacts, TlContact, index);
  const char       *owner_a = tl_assembly_body (assembly, contact->a)->owner,
             *owner_b = tl_assembly_body (assembly, contact->b)->owner;
  g_autofree char *a = tl_assembly_owner_name (assembly, owner_a, language);
  g_autofree char *b = tl_assembly_owner_name (assembly, owner_b, language);
  gboolean         is_within = g_strcmp0 (owner_a, owner_b) == 0;
  const char      *pattern = is_within ? TL_N_ ("Inside {a}, one piece on the other.")
                             : contact->kind == TL_CONTACT_PRESSED ? TL_N_ ("{a} is pressed on {b}.")
                             : contact->kind == TL_CONTACT_TOUCHING ? TL_N_ ("{a} touches {b}.")
                                                                    : TL_N_ ("{a} may touch {b}.");
  g_autofree char *line =
      tl_wording_fill (tl_language_text (language, pattern), "a", a, "b", b, NULL);
  g_autofree char *whole = NULL;
  TlSeverity       severity;
  gboolean         is_judged = tl_verdict_of_contact (verdict, index, &severity);

  if (is_within && (!is_judged || severity == TL_SEVERITY_SOUND))
    return;
  whole = is_judged ? g_strdup_printf ("%s %s.\n", line,
                                       tl_language_text (language, tl_severity_word (severity)))
                    : g_strdup_printf ("%s\n", line);
  if (g_hash_table_contains (told, whole))
    return;
  g_string_append (text, whole);
  g_hash_table_add (told, g_steal_pointer (&whole));
}

char *
tl_drawing_describe (const TlVerdict *verdict, const TlLanguage *language)
{
  g_autoptr (GHashTable) told = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GString          *text = g_string_new (NULL);
  const TlAssembly *assembly;

  g_return_val_if_fail (verdict != NULL && language != NULL, g_string_free (text, FALSE));

  assembly = verdict->assembly;
  g_string_append (text, tl_language_text (
                             language, assembly->family == TL_FAMILY_STACK
                                           ? TL_N_ ("Bolted stack, from the head to the nut.")
                                       : assembly->family == TL_FAMILY_SLEEVE
                                           ? TL_N_ ("Pressed sleeve, from left to right.")
                                       : assembly->family == TL_FAMILY_TERMINAL
                                           ? TL_N_ ("Terminal, from left to right.")
                                       : assembly->family == TL_FAMILY_SPLICE
                                           ? TL_N_ ("Splice, from left to right.")
                                           : TL_N_ ("Nothing holds the conductors together yet.")));
  g_string_append_c (text, '\n');
  for (guint i = 0; i < assembly->order->len; i++)
    {
      g_autofree char *name =
          tl_assembly_owner_name (assembly, assembly->order->pdata[i], language);

      g_string_append_printf (text, "%u: %s\n", i + 1, name);
    }
  for (guint i = 0; i < assembly->contacts->len; i++)
    if (g_array_index (assembly->contacts, TlContact, i).is_metallic)
      describe_contact (text, told, verdict, i, language);
  return g_string_free (text, FALSE);
}
