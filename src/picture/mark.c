/* mark.c: marks in a picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture/mark.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static const char *const shape_words[] = { "point",   "line",     "arrow", "box",
                                           "polygon", "freehand", NULL };
static const char *const grade_words[] = { "nothing-seen", "watch", "change", "unsafe", NULL };

#define AT(field) G_STRUCT_OFFSET (TlPictureMark, field)
#define TEXT(name, field)                                                                          \
  {                                                                                                \
    name, TL_SLOT_TEXT, AT (field), 0, 0, NULL, FALSE                                              \
  }

static const TlSlot slots[] = {
  { "id", TL_SLOT_TEXT, AT (id), 0, 0, NULL, TRUE },
  { "number", TL_SLOT_COUNT, AT (number), 1, 9999, NULL, TRUE },
  { "picture", TL_SLOT_TEXT, AT (picture), 0, 0, NULL, TRUE },
  { "shape", TL_SLOT_WORD, AT (shape), 0, 0, shape_words, TRUE },
  { "points", TL_SLOT_POINTS, AT (points), 0, 0, NULL, TRUE },
  TEXT ("colour", colour),
  TEXT ("defect", defect),
  { "grade", TL_SLOT_WORD, AT (grade), 0, 0, grade_words, TRUE },
  TEXT ("seen", seen),
  TEXT ("measure", measure),
  TEXT ("criterion", criterion),
  TEXT ("source", source),
  TEXT ("cause", cause),
  TEXT ("action", action),
  TEXT ("deadline", deadline),
  TEXT ("tie", tie),
  TEXT ("who", who),
  TEXT ("when", when),
  { NULL },
};

const TlForm tl_picture_mark_form = { "mark", sizeof (TlPictureMark), slots };

guint
tl_outline_points (TlOutline shape, guint *most)
{
  static const guint least[] = { 1, 2, 2, 2, 3, 2 };

  g_return_val_if_fail ((guint) shape < TL_N_OUTLINES, 0);
  if (most != NULL)
    *most = shape == TL_OUTLINE_POLYGON || shape == TL_OUTLINE_FREEHAND ? 0 : least[shape];
  return least[shape];
}

const char *
tl_outline_word (TlOutline shape)
{
  return shape_words[shape];
}

const char *
tl_outline_label (TlOutline shape)
{
  static const char *const labels[] = { TL_N_ ("Point"), TL_N_ ("Line"),    TL_N_ ("Arrow"),
                                        TL_N_ ("Box"),   TL_N_ ("Outline"), TL_N_ ("Freehand") };

  g_return_val_if_fail ((guint) shape < TL_N_OUTLINES, "");
  return labels[shape];
}

gboolean
tl_picture_mark_check (const TlPictureMark *self, GError **error)
{
  guint most, least = tl_outline_points (self->shape, &most);

  if (!tl_record_check (self, error))
    return FALSE;
  if (self->points->len >= least && (most == 0 || self->points->len <= most))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_RANGE, _ ("The mark has %u points; %u are needed."),
               self->points->len, least);
  return FALSE;
}

void
tl_picture_mark_set_defect (TlPictureMark *self, const TlDefect *defect, const TlLanguage *language)
{
  tl_record_text (&self->defect, defect->id);
  tl_record_text (&self->seen, tl_language_text (language, defect->seen));
  tl_record_text (&self->cause, tl_language_text (language, defect->cause));
  tl_record_text (&self->action, tl_language_text (language, defect->action));
  tl_record_text (&self->source, defect->source);
  self->grade = defect->grade;
}

TlPixel
tl_picture_mark_anchor (const TlPictureMark *self)
{
  TlPixel first = g_array_index (self->points, TlPixel, 0);

  if (self->shape == TL_OUTLINE_BOX)
    {
      TlPixel second = g_array_index (self->points, TlPixel, 1);

      first.x_px = MIN (first.x_px, second.x_px);
      first.y_px = MIN (first.y_px, second.y_px);
    }
  return first;
}

static double
to_segment (TlPixel p, TlPixel a, TlPixel b)
{
  double dx = b.x_px - a.x_px, dy = b.y_px - a.y_px, length2 = dx * dx + dy * dy;
  double t = length2 > 0.0 ? ((p.x_px - a.x_px) * dx + (p.y_px - a.y_px) * dy) / length2 : 0.0;

  t = CLAMP (t, 0.0, 1.0);
  return hypot (p.x_px - a.x_px - t * dx, p.y_px - a.y_px - t * dy);
}

double
tl_picture_mark_distance_px (const TlPictureMark *self, TlPixel pixel)
{
  const TlPixel *p = (const TlPixel *) (gpointer) self->points->data;
  guint          n = self->points->len;
  double         least = G_MAXDOUBLE;
  TlPixel        corners[4];

  if (self->shape == TL_OUTLINE_POINT)
    return hypot (pixel.x_px - p[0].x_px, pixel.y_px - p[0].y_px);
  if (self->shape == TL_OUTLINE_BOX)
    {
      corners[0] = p[0];
      corners[1] = (TlPixel){ p[1].x_px, p[0].y_px };
      corners[2] = p[1];
      corners[3] = (TlPixel){ p[0].x_px, p[1].y_px };
      p = corners;
      n = 4;
    }
  for (guint i = 0; i + 1 < n; i++)
    least = MIN (least, to_segment (pixel, p[i], p[i + 1]));
  if (self->shape == TL_OUTLINE_BOX || self->shape == TL_OUTLINE_POLYGON)
    least = MIN (least, to_segment (pixel, p[n - 1], p[0]));
  return least;
}

/* --- what a picture cannot carry --- */

/* One form for all ways to write a letter; (transfer full) */
static char *
folded_of (const char *text)
{
  g_autofree char *composed = g_utf8_normalize (text, -1, G_NORMALIZE_ALL);

  return composed != NULL ? g_utf8_casefold (composed, -1) : g_strdup ("");
}

/* Whether @words stand in @text at the beginning of a word: what ends a longer one may say the opposite ("неисправно"). How they
 * end is left open for inflection. Both folded. */
static gboolean
has_words (const char *text, const char *words)
{
  for (const char *at = text; (at = strstr (at, words)) != NULL; at = g_utf8_next_char (at))
    {
      const char *before = g_utf8_find_prev_char (text, at);
      gunichar    letter = before != NULL ? g_utf8_get_char (before) : ' ';

      if (!g_unichar_isalnum (letter) && !g_unichar_ismark (letter))
        return TRUE;
    }
  return FALSE;
}

/* %TRUE if @text holds words of @kind, in English or in @language ("de" of "de_CH"). */
static gboolean
says (const char *text, const char *kind, const TlStock *stock, const TlLanguage *language)
{
  const TlTable   *table = tl_stock_table (stock, "report-words");
  g_autofree char *folded = folded_of (text);
  const char      *tag = tl_language_tag (language);
  g_autofree char *own = g_strndup (tag, strcspn (tag, "_-.@"));

  for (guint i = 0; table != NULL && i < table->rows->len; i++)
    {
      const TlTableRow *row = g_ptr_array_index (table->rows, i);
      const char       *of = tl_table_word (table, row, "language");
      g_autofree char  *words = NULL;

      if (strcmp (tl_table_word (table, row, "kind"), kind) != 0
          || (strcmp (of, "en") != 0 && strcmp (of, own) != 0))
        continue;
      words = folded_of (tl_table_word (table, row, "words"));
      if (has_words (folded, words))
        return TRUE;
    }
  return FALSE;
}

GPtrArray *
tl_picture_mark_objections_by (const TlPictureMark *self, const TlStock *stock,
                               const TlLanguage *language)
{
  GPtrArray  *objections = g_ptr_array_new_with_free_func (g_free);
  const char *texts[] = { self->seen, self->criterion, self->action, self->cause };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      const char *objection = NULL;

      if (says (texts[i], "certain", stock, language))
        objection = TL_N_ (
            "it says what something comes from as if it were known; write “consistent with”.");
      else if (says (texts[i], "complying", stock, language) && *self->source == '\0')
        objection = TL_N_ ("it says that something complies; name the rule and its edition.");
      else if (says (texts[i], "sound", stock, language))
        objection = TL_N_ ("it calls a joint sound; a picture shows only that nothing was seen.");
      if (objection == NULL)
        continue;
      g_ptr_array_add (objections,
                       g_strdup_printf (tl_language_text (language, TL_N_ ("Mark %u: %s")),
                                        self->number, tl_language_text (language, objection)));
    }
  if (*self->seen == '\0')
    g_ptr_array_add (
        objections,
        g_strdup_printf (
            tl_language_text (language, TL_N_ ("Mark %u: it does not say what is seen.")),
            self->number));
  return objections;
}

static gpointer
load_once (gpointer unused)
{
  g_autoptr (GError) error = NULL;
  TlStock *stock = tl_stock_load (NULL, &error);

  if (stock == NULL)
    g_error ("%s", error->message);
  return stock;
}

GPtrArray *
tl_picture_mark_objections (const TlPictureMark *self, const TlLanguage *language)
{
  /* Read-only and the same for the life of the process. */
  static GOnce once = G_ONCE_INIT;

  return tl_picture_mark_objections_by (self, g_once (&once, load_once, NULL), language);
}
