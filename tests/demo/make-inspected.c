/* make-inspected.c: makes the example with rendered pictures: make-inspected JOINT OUT.
 *
 * Scales, measures and marks are set where the scene has them, rounded to half pixels as a hand would.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit.h"
#include "joint/joint-file.h"
#include "joint/pictures.h"
#include "scene.h"

#include <math.h>

#define WHO "R. Alder, inspector at Fennick Mill"
static const TlActor actor = { WHO, "2027-03-03T10:40:00+01:00" };

typedef struct
{
  TlStock       *stock;
  TlDefects     *defects;
  TlInspections *self;
  TlOriginals   *originals;
  char          *visit;
} Making;

static void
step (Making *m, TlInspections *next, GError **error)
{
  if (next == NULL)
    g_error ("%s", (*error)->message);
  tl_inspections_unref (m->self);
  m->self = next;
}

static char *
add_photo (Making *m, const SceneCamera *camera, const char *name, const char *caption)
{
  g_autoptr (GBytes) bytes = scene_render (camera);
  g_autoptr (GError) error = NULL;
  TlPhoto *photo = tl_photo_new (bytes, name, actor.who, actor.when, &error);
  char    *id = NULL;

  photo->is_rendered = TRUE;
  tl_record_text (&photo->caption, caption);
  tl_originals_put (m->originals, photo->sha256, bytes);
  step (m, tl_inspections_add_photo (m->self, photo, &actor, &id, &error), &error);
  tl_record_unref (photo);
  return id;
}

static void
add (GArray *points, const SceneCamera *camera, double x_mm, double y_mm)
{
  TlPixel pixel = scene_see (camera, x_mm, y_mm);

  pixel.x_px = round (pixel.x_px * 2.0) / 2.0;
  pixel.y_px = round (pixel.y_px * 2.0) / 2.0;
  g_array_append_val (points, pixel);
}

static char *
put (Making *m, gpointer record)
{
  g_autoptr (GError) error = NULL;
  char *id = NULL;

  step (m, tl_inspections_put (m->self, m->visit, record, &id, &error), &error);
  tl_record_unref (record);
  return id;
}

static char *
put_scale (Making *m, const SceneCamera *camera, const char *photo)
{
  TlScale *scale = tl_scale_new (camera->has_card ? TL_SCALE_RECTANGLE : TL_SCALE_LENGTH, m->stock);

  tl_record_text (&scale->picture, photo);
  tl_record_text (&scale->who, WHO);
  tl_record_text (&scale->when, actor.when);
  scale->distance_mm = camera->distance_mm;
  scale->distortion_ratio = 0.0;
  scale->click_px = 0.5;
  scale->plane = TL_PLANE_OFF;
  scale->off_plane_mm = 1.0;
  if (camera->has_card)
    {
      add (scale->points, camera, SCENE_CARD_X, SCENE_CARD_Y);
      add (scale->points, camera, SCENE_CARD_X + 60, SCENE_CARD_Y);
      add (scale->points, camera, SCENE_CARD_X + 60, SCENE_CARD_Y + 20);
      add (scale->points, camera, SCENE_CARD_X, SCENE_CARD_Y + 20);
      scale->length_mm = 60;
      scale->height_mm = 20;
      tl_record_text (&scale->what, "card 60 × 20 mm");
    }
  else
    {
      add (scale->points, camera, SCENE_RULE_X, SCENE_RULE_Y);
      add (scale->points, camera, SCENE_RULE_X + 50, SCENE_RULE_Y);
      scale->length_mm = 50;
      scale->tilt_deg = 3;
      tl_record_text (&scale->what, "steel rule, 0 to 50 mm");
    }
  scale->reference_mm = 0.05;
  return put (m, scale);
}

static char *
put_measure (Making *m, const SceneCamera *camera, const char *photo, const char *scale, double x0,
             double x1, const char *what, TlLimitKind limit_kind, double limit, double limit_most,
             const char *from)
{
  TlMeasure *measure = tl_record_new (&tl_measure_form);

  tl_record_text (&measure->picture, photo);
  tl_record_text (&measure->scale, scale);
  tl_record_text (&measure->what, what);
  tl_record_text (&measure->limit_from, from);
  tl_record_text (&measure->who, WHO);
  tl_record_text (&measure->when, actor.when);
  measure->limit_kind = limit_kind;
  measure->limit = limit;
  measure->limit_most = limit_most;
  add (measure->points, camera, x0, SCENE_AXIS_Y);
  add (measure->points, camera, x1, SCENE_AXIS_Y);
  return put (m, measure);
}

static void
put_mark (Making *m, const SceneCamera *camera, const char *photo, const char *defect, double x0,
          double x1, const char *measure, const char *tie, const char *deadline)
{
  TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);

  tl_record_text (&mark->picture, photo);
  mark->shape = TL_OUTLINE_BOX;
  add (mark->points, camera, x0, SCENE_AXIS_Y - 4);
  add (mark->points, camera, x1, SCENE_AXIS_Y + 4);
  if (defect != NULL)
    tl_picture_mark_set_defect (mark, tl_defects_find (m->defects, defect), tl_language_plain ());
  else
    {
      tl_record_text (&mark->seen, "Left end: the sleeve lies close on the insulation all round");
      tl_record_text (&mark->action, "None");
    }
  tl_record_text (&mark->measure, measure);
  tl_record_text (&mark->tie, tie);
  tl_record_text (&mark->deadline, deadline);
  tl_record_text (&mark->who, WHO);
  tl_record_text (&mark->when, actor.when);
  g_free (put (m, mark));
}

static void
put_readings (Making *m)
{
  TlReading *resistance = tl_record_new (&tl_reading_form),
            *rise = tl_record_new (&tl_reading_form);
  double similar[] = { 180, 196 };

  resistance->kind = TL_READING_RESISTANCE;
  resistance->value = 310;
  resistance->uncertainty = 10;
  resistance->conductor = 364;
  g_array_append_vals (resistance->similar, similar, 2);
  rise->kind = TL_READING_DIFFERENCE;
  rise->value = 6;
  rise->load_A = 7;
  rise->full_load_A = 10;
  rise->has_ambient = TRUE;
  rise->ambient_C = 22;
  rise->emissivity = 0.95;
  rise->target_px = 8;
  tl_record_text (&resistance->instrument, "four-wire ohmmeter");
  tl_record_text (&resistance->serial, "FM-07");
  tl_record_text (&resistance->calibrated, "2026-11-12");
  tl_record_text (&rise->instrument, "thermal camera");
  tl_record_text (&rise->serial, "FM-11");
  tl_record_text (&rise->calibrated, "2026-10-02");
  g_free (put (m, resistance));
  g_free (put (m, rise));
}

static void
put_texts (Making *m)
{
  TlInspection *texts = tl_record_copy (tl_inspections_get (m->self, m->visit));
  g_autoptr (GError) error = NULL;

  tl_record_text (&texts->number, "FM-2027-014");
  tl_record_text (&texts->begun, "2027-03-03T10:05:00+01:00");
  tl_record_text (&texts->purpose,
                  "Yearly look. May the joint in box W-14 stay, and is it what was designed?");
  tl_record_text (&texts->present, "R. Alder; M. Quill, tenant of the Weaving floor");
  tl_record_text (&texts->qualification, "Example: an invented inspector without licence");
  tl_record_text (&texts->not_inspected,
                  "The side of the sleeve towards the wall; the metal inside the press.");
  tl_record_text (&texts->assumptions, "Rule, card and joint lie in one plane within 1 mm.");
  tl_record_text (
      &texts->conclusion,
      "The sleeve slid or was cut too short. In this damp place the joint should be made anew.");
  step (m, tl_inspections_set (m->self, texts, &error), &error);
  tl_record_unref (texts);
}

static void
fill (Making *m)
{
  const SceneCamera open = { 210, 1650, 3, 40, 0, 0, 1200, 800, FALSE, 11 },
                    left = { 150, 1500, 2, 200, -14, 2, 900, 600, FALSE, 12 },
                    right = { 150, 1350, 18, 75, 12, 6, 900, 600, TRUE, 13 };
  g_autoptr (GError) error = NULL;
  g_autofree char *p1 = add_photo (m, &open, "box-open.jpg", "Box W-14, open"),
                  *p2 = add_photo (m, &left, "left-end.jpg", "Left end"),
                  *p3 =
                      add_photo (m, &right, "right-end.jpg", "Right end, with a card in its plane");
  g_autofree char *s1 = NULL, *s3 = NULL, *length = NULL, *bare = NULL, *brown = NULL, *s2 = NULL;
  TlFound         *found = tl_record_new (&tl_found_form);

  step (m, tl_inspections_begin (m->self, &actor, &m->visit, &error), &error);
  put_texts (m);
  s1 = put_scale (m, &open, p1);
  s2 = put_scale (m, &left, p2);
  s3 = put_scale (m, &right, p3);
  length =
      put_measure (m, &open, p1, s1, SCENE_SEAL_LEFT, SCENE_SEAL_RIGHT,
                   "length of the sealing sleeve", TL_LIMIT_BETWEEN, 60, 64, "design: 62 mm ± 2");
  bare = put_measure (m, &right, p3, s3, SCENE_SEAL_RIGHT, SCENE_BARE_RIGHT,
                      "bare aluminium behind the sleeve", TL_LIMIT_MOST, 0.5, 0, "design: none");
  brown = put_measure (m, &right, p3, s3, SCENE_BARE_RIGHT, SCENE_BROWN_RIGHT, "browned insulation",
                       TL_LIMIT_NONE, 0, 0, "");
  put_mark (m, &right, p3, "D79", SCENE_SEAL_RIGHT - 0.5, SCENE_BARE_RIGHT + 0.5, bare, "layer-3",
            "2027-03-10");
  put_mark (m, &right, p3, "D94", SCENE_BARE_RIGHT, SCENE_BROWN_RIGHT, brown, "leg-2",
            "2027-03-10");
  put_mark (m, &left, p2, NULL, SCENE_SEAL_LEFT - 3, SCENE_SEAL_LEFT + 3, "", "layer-3", "");
  put_readings (m);
  tl_record_text (&found->owner, "layer-3");
  tl_record_text (&found->field, "length");
  tl_record_text (&found->measure, length);
  tl_record_text (&found->note, "measured in picture 1");
  found->tolerance = 2.0;
  g_free (put (m, found));
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  Making m = { .self = tl_inspections_new (), .originals = tl_originals_new () };
  g_autoptr (TlJoint) joint = NULL, named = NULL, noted = NULL, result = NULL;

  if (argc != 3)
    g_error ("make-inspected JOINT OUT");
  m.stock = tl_stock_load (NULL, &error);
  m.defects = tl_defects_load (m.stock, &error);
  joint = tl_joint_load (argv[1], &error);
  if (joint == NULL)
    g_error ("%s", error->message);
  fill (&m);
  named = tl_edit_set_text (joint, "name", "Socket circuit, Weaving floor, inspected", NULL);
  noted = tl_edit_set_text (named, "note",
                            "The pictures are rendered by a program: no photographs. Bare length "
                            "4.3 mm, sleeve 44 mm by construction.",
                            NULL);
  result = tl_edit_set_inspections (noted, m.self, m.originals);
  if (!tl_joint_save (result, argv[2], &error))
    g_error ("%s", error->message);
  tl_inspections_unref (m.self);
  tl_originals_unref (m.originals);
  tl_defects_unref (m.defects);
  tl_stock_unref (m.stock);
  g_free (m.visit);
  return 0;
}
