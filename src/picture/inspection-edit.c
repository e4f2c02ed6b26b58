/* inspection-edit.c: every change of the inspections as a function from value to value.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/inspection-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* --- helpers --- */

static gboolean
fail (GError **error, int code, const char *format, const char *what)
{
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  g_set_error (error, TL_ERROR, code, format, what);
#pragma GCC diagnostic pop
  return FALSE;
}

static char *
new_id (TlInspections *self, const char *kind)
{
  return g_strdup_printf ("%s-%u", kind, self->next_id++);
}

static gboolean
index_of (const GPtrArray *list, const char *id, guint *index)
{
  for (guint i = 0; i < list->len; i++)
    if (strcmp (*tl_record_id (g_ptr_array_index (list, i)), id) == 0)
      {
        *index = i;
        return TRUE;
      }
  return FALSE;
}

/* Puts @record (taken) in the place of what stands at @index. */
static void
replace (GPtrArray *list, guint index, gpointer record)
{
  tl_record_unref (g_ptr_array_index (list, index));
  g_ptr_array_index (list, index) = record;
}

/* A fork in which the open inspection @id is writable. */
static TlInspections *
open_up (const TlInspections *self, const char *id, TlInspection **inspection, GError **error)
{
  TlInspections *fork;
  guint          index;

  if (!index_of (self->inspections, id, &index))
    {
      fail (error, TL_ERROR_NAME, _ ("There is no inspection “%s”."), id);
      return NULL;
    }
  if (tl_inspection_is_closed (g_ptr_array_index (self->inspections, index)))
    {
      fail (error, TL_ERROR_STATE,
            _ ("The report of “%s” was issued, so it is closed; begin a new revision of it."), id);
      return NULL;
    }
  fork = tl_inspections_fork (self);
  *inspection = tl_inspection_copy (g_ptr_array_index (fork->inspections, index));
  replace (fork->inspections, index, *inspection);
  return fork;
}

static gboolean
check_actor (const TlActor *actor, GError **error)
{
  if (actor != NULL && actor->who != NULL && actor->when != NULL && *actor->when != '\0')
    return TRUE;
  return fail (error, TL_ERROR_STATE, "%s", _ ("An entry of the chain needs who and when."));
}

/* --- pictures --- */

TlInspections *
tl_inspections_add_photo (const TlInspections *self, const TlPhoto *photo, const TlActor *actor,
                          char **id, GError **error)
{
  TlInspections *fork;
  TlPhoto       *own;

  if (!check_actor (actor, error))
    return NULL;
  for (guint i = 0; i < self->photos->len; i++)
    if (strcmp (((TlPhoto *) g_ptr_array_index (self->photos, i))->sha256, photo->sha256) == 0)
      {
        fail (error, TL_ERROR_STATE, _ ("“%s” is in the document already: the same bytes."),
              photo->name);
        return NULL;
      }
  if (self->photos->len >= TL_INSPECTIONS_MAX_PICTURES)
    {
      fail (error, TL_ERROR_LIMIT, _ ("“%s” was not added: a document holds at most 200 pictures."),
            photo->name);
      return NULL;
    }
  fork = tl_inspections_fork (self);
  own = tl_record_copy (photo);
  g_free (own->id);
  own->id = new_id (fork, "picture");
  g_ptr_array_add (fork->photos, own);
  tl_inspections_note (fork, actor, "import", own->id, own->sha256);
  if (id != NULL)
    *id = g_strdup (own->id);
  return fork;
}

static gboolean
shows (const TlInspection *inspection, const char *photo)
{
  for (guint i = 0; i < inspection->scales->len; i++)
    if (strcmp (((TlScale *) g_ptr_array_index (inspection->scales, i))->picture, photo) == 0)
      return TRUE;
  for (guint i = 0; i < inspection->marks->len; i++)
    if (strcmp (((TlPictureMark *) g_ptr_array_index (inspection->marks, i))->picture, photo) == 0)
      return TRUE;
  return FALSE;
}

static void
renumber (GPtrArray *marks)
{
  for (guint i = 0; i < marks->len; i++)
    {
      TlPictureMark *mark = g_ptr_array_index (marks, i);

      if (mark->number == i + 1)
        continue;
      mark = tl_record_copy (mark);
      mark->number = i + 1;
      replace (marks, i, mark);
    }
}

/* Takes out of an open inspection what lies in @photo. */
static void
forget_photo (TlInspection *inspection, const char *photo)
{
  for (guint i = inspection->measures->len; i > 0; i--)
    if (strcmp (((TlMeasure *) g_ptr_array_index (inspection->measures, i - 1))->picture, photo)
        == 0)
      g_ptr_array_remove_index (inspection->measures, i - 1);
  for (guint i = inspection->scales->len; i > 0; i--)
    if (strcmp (((TlScale *) g_ptr_array_index (inspection->scales, i - 1))->picture, photo) == 0)
      g_ptr_array_remove_index (inspection->scales, i - 1);
  for (guint i = inspection->marks->len; i > 0; i--)
    if (strcmp (((TlPictureMark *) g_ptr_array_index (inspection->marks, i - 1))->picture, photo)
        == 0)
      g_ptr_array_remove_index (inspection->marks, i - 1);
  renumber (inspection->marks);
}

TlInspections *
tl_inspections_remove_photo (const TlInspections *self, const char *id, const TlActor *actor,
                             GError **error)
{
  TlInspections *fork;
  guint          index;

  if (!check_actor (actor, error))
    return NULL;
  if (!index_of (self->photos, id, &index))
    {
      fail (error, TL_ERROR_NAME, _ ("There is no picture “%s”."), id);
      return NULL;
    }
  for (guint i = 0; i < self->inspections->len; i++)
    {
      const TlInspection *inspection = g_ptr_array_index (self->inspections, i);

      if (tl_inspection_is_closed (inspection) && shows (inspection, id))
        {
          fail (error, TL_ERROR_STATE, _ ("“%s” stands in a report that was issued; it stays."),
                id);
          return NULL;
        }
    }
  fork = tl_inspections_fork (self);
  tl_inspections_note (fork, actor, "remove", id,
                       ((TlPhoto *) g_ptr_array_index (fork->photos, index))->sha256);
  g_ptr_array_remove_index (fork->photos, index);
  for (guint i = 0; i < fork->inspections->len; i++)
    {
      TlInspection *inspection = g_ptr_array_index (fork->inspections, i);

      if (tl_inspection_is_closed (inspection))
        continue;
      inspection = tl_inspection_copy (inspection);
      forget_photo (inspection, id);
      replace (fork->inspections, i, inspection);
    }
  return fork;
}

TlInspections *
tl_inspections_set_photo (const TlInspections *self, const TlPhoto *photo, GError **error)
{
  TlInspections *fork;
  TlPhoto       *own;
  guint          index;

  if (!tl_record_check (photo, error))
    return NULL;
  if (!index_of (self->photos, photo->id, &index))
    {
      fail (error, TL_ERROR_NAME, _ ("There is no picture “%s”."), photo->id);
      return NULL;
    }
  fork = tl_inspections_fork (self);
  own = tl_record_copy (g_ptr_array_index (fork->photos, index));
  tl_record_text (&own->caption, photo->caption);
  tl_record_text (&own->view, photo->view);
  own->has_clock = photo->has_clock;
  own->clock_s = photo->clock_s;
  own->is_rendered = photo->is_rendered;
  replace (fork->photos, index, own);
  return fork;
}

/* --- inspections --- */

TlInspections *
tl_inspections_begin (const TlInspections *self, const TlActor *actor, char **id, GError **error)
{
  TlInspections *fork;
  TlInspection  *inspection;

  if (!check_actor (actor, error))
    return NULL;
  fork = tl_inspections_fork (self);
  inspection = tl_inspection_new ();
  g_free (inspection->id);
  inspection->id = new_id (fork, "inspection");
  tl_record_text (&inspection->author, actor->who);
  tl_record_text (&inspection->begun, actor->when);
  g_ptr_array_add (fork->inspections, inspection);
  if (id != NULL)
    *id = g_strdup (inspection->id);
  return fork;
}

TlInspections *
tl_inspections_set (const TlInspections *self, const TlInspection *texts, GError **error)
{
  TlInspection  *inspection;
  TlInspections *fork;

  if (!tl_record_check (texts, error))
    return NULL;
  fork = open_up (self, texts->id, &inspection, error);
  if (fork == NULL)
    return NULL;
  tl_record_text (&inspection->number, texts->number);
  tl_record_text (&inspection->begun, texts->begun);
  tl_record_text (&inspection->purpose, texts->purpose);
  tl_record_text (&inspection->present, texts->present);
  tl_record_text (&inspection->author, texts->author);
  tl_record_text (&inspection->qualification, texts->qualification);
  tl_record_text (&inspection->not_inspected, texts->not_inspected);
  tl_record_text (&inspection->assumptions, texts->assumptions);
  tl_record_text (&inspection->conclusion, texts->conclusion);
  return fork;
}

static GPtrArray *
list_for (TlInspections *self, TlInspection *inspection, const TlForm *form)
{
  if (form == &tl_scale_form)
    return inspection->scales;
  if (form == &tl_measure_form)
    return inspection->measures;
  if (form == &tl_picture_mark_form)
    return inspection->marks;
  if (form == &tl_found_form)
    return inspection->found;
  g_assert (form == &tl_reading_form);
  return self->readings;
}

static gboolean
check_put (const TlInspections *self, const TlInspection *inspection, gconstpointer record,
           GError **error)
{
  const TlForm *form = ((const TlRecord *) record)->form;
  const char   *picture = NULL;
  TlField       field;

  if (!tl_record_check (record, error))
    return FALSE;
  if (form == &tl_scale_form)
    {
      picture = ((const TlScale *) record)->picture;
      if (!tl_scale_check (record, error))
        return FALSE;
    }
  if (form == &tl_picture_mark_form)
    {
      picture = ((const TlPictureMark *) record)->picture;
      if (!tl_picture_mark_check (record, error))
        return FALSE;
    }
  if (form == &tl_measure_form)
    {
      const TlMeasure *measure = record;
      TlMeasureResult  unused;

      picture = measure->picture;
      if (!tl_inspections_run (self, inspection, measure, &unused, error))
        return FALSE;
    }
  if (form == &tl_found_form && !tl_field_from_key (((const TlFound *) record)->field, &field))
    return fail (error, TL_ERROR_NAME, _ ("There is no fact “%s”."),
                 ((const TlFound *) record)->field);
  if (picture != NULL && tl_inspections_photo (self, picture) == NULL)
    return fail (error, TL_ERROR_NAME, _ ("There is no picture “%s”."), picture);
  return TRUE;
}

static gboolean
same_found (const TlFound *a, const TlFound *b)
{
  return strcmp (a->owner, b->owner) == 0 && strcmp (a->field, b->field) == 0;
}

static void
put_found (GPtrArray *list, TlFound *own)
{
  for (guint i = 0; i < list->len; i++)
    if (same_found (g_ptr_array_index (list, i), own))
      {
        replace (list, i, own);
        return;
      }
  g_ptr_array_add (list, own);
}

TlInspections *
tl_inspections_put (const TlInspections *self, const char *inspection, gconstpointer record,
                    char **id, GError **error)
{
  const TlForm *form = ((const TlRecord *) record)->form;
  TlInspection *open;
  g_autoptr (TlInspections) fork = open_up (self, inspection, &open, error);
  GPtrArray *list;
  gpointer   own;
  guint      index;

  if (fork == NULL)
    return NULL;
  list = list_for (fork, open, form);
  own = tl_record_copy (record);
  if (form == &tl_reading_form)
    tl_record_text (&((TlReading *) own)->inspection, inspection);
  if (form == &tl_picture_mark_form && ((TlPictureMark *) own)->number == 0)
    ((TlPictureMark *) own)->number = list->len + 1;
  if (!check_put (fork, open, own, error))
    {
      tl_record_unref (own);
      return NULL;
    }
  if (form == &tl_found_form)
    {
      put_found (list, own);
      return g_steal_pointer (&fork);
    }
  if (**tl_record_id (own) == '\0')
    {
      g_free (*tl_record_id (own));
      *tl_record_id (own) = new_id (fork, form->element);
      g_ptr_array_add (list, own);
    }
  else if (index_of (list, *tl_record_id (own), &index))
    replace (list, index, own);
  else
    {
      fail (error, TL_ERROR_NAME, _ ("There is no “%s” in this inspection."), *tl_record_id (own));
      tl_record_unref (own);
      return NULL;
    }
  if (id != NULL)
    *id = g_strdup (*tl_record_id (own));
  return g_steal_pointer (&fork);
}

TlInspections *
tl_inspections_remove (const TlInspections *self, const char *inspection, const char *id,
                       GError **error)
{
  TlInspection *open;
  g_autoptr (TlInspections) fork = open_up (self, inspection, &open, error);
  guint index;

  if (fork == NULL)
    return NULL;
  if (index_of (open->scales, id, &index))
    {
      for (guint i = open->measures->len; i > 0; i--)
        if (strcmp (((TlMeasure *) g_ptr_array_index (open->measures, i - 1))->scale, id) == 0)
          g_ptr_array_remove_index (open->measures, i - 1);
      g_ptr_array_remove_index (open->scales, index);
    }
  else if (index_of (open->measures, id, &index))
    g_ptr_array_remove_index (open->measures, index);
  else if (index_of (open->marks, id, &index))
    {
      g_ptr_array_remove_index (open->marks, index);
      renumber (open->marks);
    }
  else if (index_of (fork->readings, id, &index)
           && strcmp (((TlReading *) g_ptr_array_index (fork->readings, index))->inspection,
                      inspection)
                  == 0)
    g_ptr_array_remove_index (fork->readings, index);
  else
    {
      fail (error, TL_ERROR_NAME, _ ("There is no “%s” in this inspection."), id);
      return NULL;
    }
  return g_steal_pointer (&fork);
}

TlInspections *
tl_inspections_remove_found (const TlInspections *self, const char *inspection, const char *owner,
                             const char *field, GError **error)
{
  TlInspection *open;
  g_autoptr (TlInspections) fork = open_up (self, inspection, &open, error);

  if (fork == NULL)
    return NULL;
  for (guint i = 0; i < open->found->len; i++)
    {
      const TlFound *found = g_ptr_array_index (open->found, i);

      if (strcmp (found->owner, owner) != 0 || strcmp (found->field, field) != 0)
        continue;
      g_ptr_array_remove_index (open->found, i);
      return g_steal_pointer (&fork);
    }
  fail (error, TL_ERROR_NAME, _ ("There is no found value “%s”."), field);
  return NULL;
}

TlInspections *
tl_inspections_number_mark (const TlInspections *self, const char *inspection, const char *id,
                            guint number, GError **error)
{
  TlInspection *open;
  g_autoptr (TlInspections) fork = open_up (self, inspection, &open, error);
  gpointer mark;
  guint    index;

  if (fork == NULL)
    return NULL;
  if (!index_of (open->marks, id, &index))
    {
      fail (error, TL_ERROR_NAME, _ ("There is no “%s” in this inspection."), id);
      return NULL;
    }
  number = CLAMP (number, 1, open->marks->len);
  mark = tl_record_ref (g_ptr_array_index (open->marks, index));
  g_ptr_array_remove_index (open->marks, index);
  g_ptr_array_insert (open->marks, (int) number - 1, mark);
  renumber (open->marks);
  return g_steal_pointer (&fork);
}

TlInspections *
tl_inspections_issue (const TlInspections *self, const char *inspection, const TlActor *actor,
                      GError **error)
{
  TlInspection  *open;
  TlInspections *fork;
  char          *seal;

  if (!check_actor (actor, error))
    return NULL;
  fork = open_up (self, inspection, &open, error);
  if (fork == NULL)
    return NULL;
  /* The inspection is read for its seal, so the old one goes only afterwards. */
  seal = tl_inspections_seal (fork, open);
  g_free (open->seal);
  open->seal = seal;
  tl_record_text (&open->issued, actor->when);
  tl_inspections_note (fork, actor, "issue", open->id, open->seal);
  return fork;
}

/* Readings made at @from are made again, as they stand, at @to. */
static void
copy_readings (TlInspections *self, const char *from, const char *to)
{
  guint n = self->readings->len;

  for (guint i = 0; i < n; i++)
    {
      TlReading *reading = g_ptr_array_index (self->readings, i), *copy;

      if (strcmp (reading->inspection, from) != 0)
        continue;
      copy = tl_record_copy (reading);
      g_free (copy->id);
      copy->id = new_id (self, "reading");
      tl_record_text (&copy->inspection, to);
      g_ptr_array_add (self->readings, copy);
    }
}

/* Ids are unique in the document: everything in a revision gets a new one, and what names it follows. */
static void
give_new_ids (TlInspections *self, TlInspection *inspection)
{
  g_autoptr (GHashTable) renamed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  GPtrArray *lists[] = { inspection->scales, inspection->measures, inspection->marks };

  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (guint i = 0; i < lists[k]->len; i++)
      {
        TlRecord *copy = tl_record_copy (g_ptr_array_index (lists[k], i));
        char    **id = tl_record_id (copy);
        char     *fresh = new_id (self, copy->form->element);

        g_hash_table_insert (renamed, g_strdup (*id), g_strdup (fresh));
        g_free (*id);
        *id = fresh;
        replace (lists[k], i, copy);
      }
  for (guint i = 0; i < inspection->measures->len; i++)
    {
      TlMeasure *measure = g_ptr_array_index (inspection->measures, i);

      tl_record_text (&measure->scale, g_hash_table_lookup (renamed, measure->scale));
    }
  for (guint i = 0; i < inspection->marks->len; i++)
    {
      TlPictureMark *mark = g_ptr_array_index (inspection->marks, i);
      const char    *fresh = g_hash_table_lookup (renamed, mark->measure);

      if (fresh != NULL)
        tl_record_text (&mark->measure, fresh);
    }
  for (guint i = 0; i < inspection->found->len; i++)
    {
      TlFound    *found = tl_record_copy (g_ptr_array_index (inspection->found, i));
      const char *fresh = g_hash_table_lookup (renamed, found->measure);

      if (fresh != NULL)
        tl_record_text (&found->measure, fresh);
      replace (inspection->found, i, found);
    }
}

TlInspections *
tl_inspections_revise (const TlInspections *self, const char *inspection, const TlActor *actor,
                       char **id, GError **error)
{
  const TlInspection *closed = tl_inspections_get (self, inspection);
  TlInspections      *fork;
  TlInspection       *open;

  if (!check_actor (actor, error))
    return NULL;
  if (closed == NULL || !tl_inspection_is_closed (closed))
    {
      fail (error, TL_ERROR_STATE,
            _ ("“%s” is no closed inspection; only one whose report was issued is revised."),
            inspection);
      return NULL;
    }
  fork = tl_inspections_fork (self);
  open = tl_inspection_copy (closed);
  tl_record_text (&open->of, closed->id);
  tl_record_text (&open->previous, closed->seal);
  tl_record_text (&open->seal, "");
  tl_record_text (&open->issued, "");
  g_free (open->id);
  open->id = new_id (fork, "inspection");
  open->revision = closed->revision + 1;
  give_new_ids (fork, open);
  copy_readings (fork, inspection, open->id);
  g_ptr_array_add (fork->inspections, open);
  tl_inspections_note (fork, actor, "revise", open->id, closed->seal);
  if (id != NULL)
    *id = g_strdup (open->id);
  return fork;
}
