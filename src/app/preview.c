/* preview.c: the joint and verdict that an edit would give.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/preview.h"

#include "base/quantity.h"

static gboolean
is_about (const TlFinding *finding, const char *owner)
{
  return g_ptr_array_find_with_equal_func (finding->owners, owner, g_str_equal, NULL);
}

/* The first two metals that a finding names, and the first voltage among its figures. */
static char *
couple_text (const TlFinding *finding, const TlStock *stock, const TlLanguage *language)
{
  const char *metals[2] = { NULL, NULL };
  guint       n = 0;

  for (guint i = 0; i < finding->words->len && n < 2; i++)
    {
      const TlWord *word = &g_array_index (finding->words, TlWord, i);

      if (word->kind == TL_WORD_MATERIAL)
        metals[n++] = tl_material_name (stock, word->text, language);
    }
  for (guint i = 0; i < finding->figures->len && n == 2; i++)
    {
      const TlFigure  *figure = &g_array_index (finding->figures, TlFigure, i);
      g_autofree char *number = NULL;
      double           volts;

      if (!tl_quantity_convert (figure->value.best, figure->unit, "V", &volts, NULL))
        continue;
      number = tl_language_number (language, volts, 2);
      return g_strdup_printf ("%s–%s %s\u202fV", metals[0], metals[1], number);
    }
  return NULL;
}

static void
look_at_findings (TlPreview *self, const TlStock *stock, const TlLanguage *language)
{
  self->severity = self->couple_severity = TL_SEVERITY_SOUND;
  if (self->verdict->findings->len > 0)
    self->worst = g_ptr_array_index (self->verdict->findings, 0);
  for (guint i = 0; i < self->verdict->findings->len; i++)
    {
      const TlFinding *finding = g_ptr_array_index (self->verdict->findings, i);

      if (!is_about (finding, self->owner))
        continue;
      self->severity = MAX (self->severity, finding->severity);
      if (self->couple == NULL && finding->rule->concern == TL_CONCERN_GALVANIC)
        {
          self->couple = couple_text (finding, stock, language);
          self->couple_severity = finding->severity;
        }
    }
  if (self->couple == NULL)
    self->couple = g_strdup ("");
}

TlPreview *
tl_preview_new (TlDocument *document, const char *part, const char *moving, const TlSeat *seat,
                GError **error)
{
  const TlStock   *stock = tl_document_stock (document);
  const TlJoint   *joint = tl_document_joint (document);
  const TlPart    *info = part == NULL ? NULL : tl_stock_part (stock, part);
  g_autofree char *owner = NULL;
  g_autoptr (TlJoint) after = NULL;
  TlPreview *self;

  if (moving != NULL)
    {
      after = tl_edit_move (joint, moving, seat, error);
      owner = g_strdup (moving);
    }
  else if (info != NULL && info->kind == TL_PART_CONDUCTOR)
    after = tl_edit_add_leg (joint, stock, part, NULL, seat, &owner, error);
  else
    after = tl_edit_add_layer (joint, stock, part, seat, &owner, error);
  if (after == NULL)
    return NULL;
  self = g_new0 (TlPreview, 1);
  self->verdict = tl_verdict_new (after, stock, TL_VERDICT_QUICK);
  self->joint = g_steal_pointer (&after);
  self->owner = g_steal_pointer (&owner);
  look_at_findings (self, stock, tl_document_language (document));
  return self;
}

void
tl_preview_free (TlPreview *self)
{
  if (self == NULL)
    return;
  tl_joint_unref (self->joint);
  tl_verdict_unref (self->verdict);
  g_free (self->owner);
  g_free (self->couple);
  g_free (self);
}
