/* custody.c: the chain of entries, fingerprints, and checking them.
 *
 * Own scheme: a link is SHA-256 over the link before and the entry's hash, both in hex; the first one follows 64 zeros.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/inspection-private.h"

#include <string.h>

static const char zeros[] = "0000000000000000000000000000000000000000000000000000000000000000";

char *
tl_custody_link (const char *previous, const char *record_hash)
{
  g_autofree char *joined = g_strconcat (previous, record_hash, NULL);

  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, joined, -1);
}

/* Each text with its length before it: no two entries read alike. */
char *
tl_custody_hash (const TlCustody *self)
{
  const char *texts[] = { self->when, self->who, self->act, self->object, self->content };
  g_autoptr (GString) all = g_string_new (NULL);

  g_string_append_printf (all, "%u", self->number);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_string_append_printf (all, "|%" G_GSIZE_FORMAT ":%s", strlen (texts[i]), texts[i]);
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, all->str, (gssize) all->len);
}

const char *
tl_inspections_last_link (const TlInspections *self)
{
  guint n = self->custody->len;

  return n > 0 ? ((TlCustody *) g_ptr_array_index (self->custody, n - 1))->link : zeros;
}

void
tl_inspections_note (TlInspections *self, const TlActor *actor, const char *act, const char *object,
                     const char *content)
{
  TlCustody       *entry = tl_record_new (&tl_custody_form);
  g_autofree char *hash = NULL;

  entry->number = self->custody->len + 1;
  tl_record_text (&entry->when, actor->when);
  tl_record_text (&entry->who, actor->who);
  tl_record_text (&entry->act, act);
  tl_record_text (&entry->object, object);
  tl_record_text (&entry->content, content);
  hash = tl_custody_hash (entry);
  g_free (entry->link);
  entry->link = tl_custody_link (tl_inspections_last_link (self), hash);
  g_ptr_array_add (self->custody, entry);
}

char *
tl_inspections_seal (const TlInspections *self, const TlInspection *inspection)
{
  TlXmlNode       *node = tl_inspection_write (inspection, "", FALSE);
  g_autofree char *text = NULL;
  gsize            length;
  char            *seal;

  for (guint i = 0; i < self->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (self->readings, i);

      if (strcmp (reading->inspection, inspection->id) == 0)
        tl_node_add (node, tl_record_write (reading, ""));
    }
  text = tl_node_canonical (node, &length);
  seal = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, (gssize) length);
  tl_xml_node_free (node);
  return seal;
}

/* --- verifying --- */

static void
check_line_free (gpointer data)
{
  TlCheckLine *self = data;

  g_free (self->object);
  g_free (self->text);
  g_free (self);
}

typedef struct
{
  const TlInspections *self;
  const TlLanguage    *language;
  GPtrArray           *lines;
  gboolean             is_good;
} Verifying;

/* Takes @text. */
static void
add_line (Verifying *v, const char *object, TlCheck check, char *text)
{
  TlCheckLine *line = g_new0 (TlCheckLine, 1);

  line->object = g_strdup (object);
  line->check = check;
  line->text = text;
  v->is_good = v->is_good && check == TL_CHECK_GOOD;
  g_ptr_array_add (v->lines, line);
}

static void
verify_photo (Verifying *v, const TlPhoto *photo, TlOriginals *originals)
{
  g_autoptr (GBytes) bytes = originals != NULL ? tl_originals_get (originals, photo->sha256) : NULL;
  g_autofree char *hash = bytes != NULL ? tl_photo_hash (bytes) : NULL;

  if (hash == NULL)
    add_line (
        v, photo->id, TL_CHECK_MISSING,
        g_strdup_printf (
            tl_language_text (v->language, TL_N_ ("“%s”: the original is not in the document.")),
            photo->name));
  else if (strcmp (hash, photo->sha256) != 0)
    add_line (v, photo->id, TL_CHECK_CHANGED,
              g_strdup_printf (
                  tl_language_text (
                      v->language,
                      TL_N_ ("“%s”: the original was changed; SHA-256 at import %s, now %s.")),
                  photo->name, photo->sha256, hash));
  else
    add_line (
        v, photo->id, TL_CHECK_GOOD,
        g_strdup_printf (
            tl_language_text (v->language, TL_N_ ("“%s”: unchanged since import, SHA-256 %s.")),
            photo->name, hash));
}

/* Every link, and that every picture was imported by an entry of the chain. */
static void
verify_chain (Verifying *v)
{
  const char *previous = zeros;
  guint       broken = 0;

  for (guint i = 0; i < v->self->custody->len && broken == 0; i++)
    {
      const TlCustody *entry = g_ptr_array_index (v->self->custody, i);
      g_autofree char *hash = tl_custody_hash (entry);
      g_autofree char *link = tl_custody_link (previous, hash);

      if (strcmp (link, entry->link) != 0 || entry->number != i + 1)
        broken = i + 1;
      previous = entry->link;
    }
  if (broken > 0)
    add_line (v, "custody", TL_CHECK_CHANGED,
              g_strdup_printf (
                  tl_language_text (v->language,
                                    TL_N_ ("Chain: entry %u does not follow from the one before.")),
                  broken));
  else if (v->self->custody->len > 0)
    add_line (
        v, "custody", TL_CHECK_GOOD,
        g_strdup_printf (tl_language_text (
                             v->language, TL_N_ ("Chain: %u entries, each follows; last link %s.")),
                         v->self->custody->len, previous));
}

static gboolean
has_entry (const TlInspections *self, const char *act, const char *object, const char *content)
{
  for (guint i = 0; i < self->custody->len; i++)
    {
      const TlCustody *entry = g_ptr_array_index (self->custody, i);

      if (strcmp (entry->act, act) == 0 && strcmp (entry->object, object) == 0
          && strcmp (entry->content, content) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
verify_import (Verifying *v, const TlPhoto *photo)
{
  if (!has_entry (v->self, "import", photo->id, photo->sha256))
    add_line (
        v, photo->id, TL_CHECK_CHANGED,
        g_strdup_printf (
            tl_language_text (v->language, TL_N_ ("“%s”: the chain has no entry of its import.")),
            photo->name));
}

static void
verify_inspection (Verifying *v, const TlInspection *inspection)
{
  const TlInspection *old =
      *inspection->of != '\0' ? tl_inspections_get (v->self, inspection->of) : NULL;
  g_autofree char *seal = NULL;

  if (*inspection->of != '\0' && (old == NULL || strcmp (old->seal, inspection->previous) != 0))
    add_line (
        v, inspection->id, TL_CHECK_CHANGED,
        g_strdup_printf (
            tl_language_text (v->language,
                              TL_N_ ("Report %s: what it revises is not there as it was issued.")),
            inspection->number));
  if (!tl_inspection_is_closed (inspection))
    return;
  seal = tl_inspections_seal (v->self, inspection);
  if (strcmp (seal, inspection->seal) != 0 || !has_entry (v->self, "issue", inspection->id, seal))
    add_line (v, inspection->id, TL_CHECK_CHANGED,
              g_strdup_printf (
                  tl_language_text (v->language,
                                    TL_N_ ("Report %s, revision %u: changed since it was issued.")),
                  inspection->number, inspection->revision));
  else
    add_line (v, inspection->id, TL_CHECK_GOOD,
              g_strdup_printf (
                  tl_language_text (
                      v->language,
                      TL_N_ ("Report %s, revision %u: unchanged since it was issued, SHA-256 %s.")),
                  inspection->number, inspection->revision, seal));
}

GPtrArray *
tl_inspections_verify (const TlInspections *self, TlOriginals *originals,
                       const TlLanguage *language, gboolean *is_good)
{
  Verifying v = { self, language, g_ptr_array_new_with_free_func (check_line_free), TRUE };

  for (guint i = 0; i < self->photos->len; i++)
    {
      verify_photo (&v, g_ptr_array_index (self->photos, i), originals);
      verify_import (&v, g_ptr_array_index (self->photos, i));
    }
  verify_chain (&v);
  for (guint i = 0; i < self->inspections->len; i++)
    verify_inspection (&v, g_ptr_array_index (self->inspections, i));
  *is_good = v.is_good;
  return v.lines;
}
