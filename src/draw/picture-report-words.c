/* picture-report-words.c: what is in a picture and marked in it, in sentences below it.
 *
 * cairo 1.16 tags a figure and cannot give it an alternative text (there is no /Alt in what it writes): the words stand as a
 * paragraph of the document right behind the figure, where a screen reader comes to them next.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/picture-report-private.h"

#include <string.h>

static const char *text (const TlPictureReport *self, const char *msgid) G_GNUC_FORMAT (2);

static const char *
text (const TlPictureReport *self, const char *msgid)
{
  return tl_language_text (self->language, msgid);
}

/* Where in the picture, by thirds; msgid */
static const char *
place_of (const TlPhoto *photo, const GArray *points)
{
  static const char *const places[3][3] = {
    { TL_N_ ("upper left"), TL_N_ ("upper middle"), TL_N_ ("upper right") },
    { TL_N_ ("middle left"), TL_N_ ("middle"), TL_N_ ("middle right") },
    { TL_N_ ("lower left"), TL_N_ ("lower middle"), TL_N_ ("lower right") },
  };
  double x = 0.0, y = 0.0;
  guint  width, height;

  tl_photo_size (photo, &width, &height);
  for (guint i = 0; i < points->len; i++)
    {
      x += g_array_index (points, TlPixel, i).x_px / points->len;
      y += g_array_index (points, TlPixel, i).y_px / points->len;
    }
  return places[CLAMP ((int) (3.0 * y / MAX (height, 1)), 0, 2)]
               [CLAMP ((int) (3.0 * x / MAX (width, 1)), 0, 2)];
}

/* Without the full stop of a part that is a sentence: the whole has its own. */
static void
append (GString *all, const char *part)
{
  g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", part);
  while (all->len > 0 && (all->str[all->len - 1] == '.' || all->str[all->len - 1] == ' '))
    g_string_truncate (all, all->len - 1);
}

static void
append_marks (const TlPictureReport *self, const TlPhoto *photo, GString *all)
{
  for (guint i = 0; i < self->inspection->marks->len; i++)
    {
      const TlPictureMark *mark = g_ptr_array_index (self->inspection->marks, i);
      g_autofree char     *part = NULL;

      if (strcmp (mark->picture, photo->id) != 0)
        continue;
      part = g_strdup_printf (text (self, TL_N_ ("mark %u, %s, %s: %s")), mark->number,
                              text (self, tl_grade_label (mark->grade)),
                              text (self, place_of (photo, mark->points)), mark->seen);
      append (all, part);
    }
}

static void
append_measures (const TlPictureReport *self, const TlPhoto *photo, GString *all)
{
  for (guint i = 0; i < self->inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (self->inspection->measures, i);
      g_autofree char *value = NULL, *part = NULL;
      TlMeasureResult  result;

      if (strcmp (measure->picture, photo->id) != 0
          || !tl_inspections_run (self->inspections, self->inspection, measure, &result, NULL))
        continue;
      value = tl_measure_text (measure, &result, self->language);
      part = g_strdup_printf (text (self, TL_N_ ("measured, %s: %s, %s")),
                              text (self, place_of (photo, measure->points)), measure->what, value);
      append (all, part);
    }
}

static void
append_scales (const TlPictureReport *self, const TlPhoto *photo, GString *all)
{
  for (guint i = 0; i < self->inspection->scales->len; i++)
    {
      const TlScale   *scale = g_ptr_array_index (self->inspection->scales, i);
      g_autofree char *part = NULL;

      if (strcmp (scale->picture, photo->id) != 0)
        continue;
      part = g_strdup_printf (text (self, TL_N_ ("scale, %s: %s")),
                              text (self, place_of (photo, scale->points)), scale->what);
      append (all, part);
    }
}

char *
tl_picture_report_words (const TlPictureReport *self, guint index)
{
  const TlPhoto *photo = g_ptr_array_index (self->inspections->photos, index);
  g_autoptr (GString) all = g_string_new (NULL);

  append_marks (self, photo, all);
  append_measures (self, photo, all);
  append_scales (self, photo, all);
  if (all->len == 0)
    return g_strdup_printf (text (self, TL_N_ ("Picture %u in words: nothing is marked in it.")),
                            index + 1);
  return g_strdup_printf (text (self, TL_N_ ("Picture %u in words: %s.")), index + 1, all->str);
}
