/* test-inspection.c: inspections as a value: edits, closing, revisions, the chain, and the way to the file and back.
 *
 * Links of the chain: worked example of the scheme, computed with another program.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "files.h"
#include "picture/inspection.h"

#include <string.h>

static TlStock      *stock;
static const TlActor actor = { "A. Tester", "2026-03-03T12:00:00+01:00" };

typedef struct
{
  TlInspections *self;
  TlOriginals   *originals;
  char          *photo, *visit, *scale, *measure, *mark, *reading;
} Fixture;

/* Replaces the value by what an edit made of it. */
static void
step (Fixture *f, TlInspections *next, GError **error)
{
  g_assert_no_error (*error);
  g_assert_nonnull (next);
  tl_inspections_unref (f->self);
  f->self = next;
}

static void
add (GArray *points, double x, double y)
{
  TlPixel pixel = { x, y };

  g_array_append_val (points, pixel);
}

static void
put (Fixture *f, gpointer record, char **id)
{
  g_autoptr (GError) error = NULL;

  step (f, tl_inspections_put (f->self, f->visit, record, id, &error), &error);
  tl_record_unref (record);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (GBytes) bytes = tf_exif_jpeg (400, 300, 1, FALSE);
  g_autoptr (GError) error = NULL;
  TlPhoto       *photo = tl_photo_new (bytes, "a.jpg", actor.who, actor.when, NULL);
  TlScale       *scale = tl_scale_new (TL_SCALE_LENGTH, stock);
  TlMeasure     *measure = tl_record_new (&tl_measure_form);
  TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);
  TlReading     *reading = tl_record_new (&tl_reading_form);

  f->self = tl_inspections_new ();
  f->originals = tl_originals_new ();
  tl_originals_put (f->originals, photo->sha256, bytes);
  step (f, tl_inspections_add_photo (f->self, photo, &actor, &f->photo, &error), &error);
  step (f, tl_inspections_begin (f->self, &actor, &f->visit, &error), &error);
  tl_record_unref (photo);
  tl_record_text (&scale->picture, f->photo);
  add (scale->points, 10, 10);
  add (scale->points, 210, 10);
  scale->length_mm = 20;
  scale->plane = TL_PLANE_SAME;
  put (f, scale, &f->scale);
  tl_record_text (&measure->picture, f->photo);
  tl_record_text (&measure->scale, f->scale);
  tl_record_text (&measure->what, "bare length");
  add (measure->points, 50, 50);
  add (measure->points, 150, 50);
  put (f, measure, &f->measure);
  tl_record_text (&mark->picture, f->photo);
  tl_record_text (&mark->seen, "Aluminium bare\nfor 10 mm");
  mark->shape = TL_OUTLINE_BOX;
  mark->grade = TL_GRADE_CHANGE;
  add (mark->points, 40, 40);
  add (mark->points, 160, 60);
  put (f, mark, &f->mark);
  reading->kind = TL_READING_RESISTANCE;
  reading->value = 900;
  reading->conductor = 500;
  put (f, reading, &f->reading);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  tl_inspections_unref (f->self);
  tl_originals_unref (f->originals);
  g_free (f->photo);
  g_free (f->visit);
  g_free (f->scale);
  g_free (f->measure);
  g_free (f->mark);
  g_free (f->reading);
}

static const TlInspection *
visit (const Fixture *f)
{
  return tl_inspections_get (f->self, f->visit);
}

static char *
text_of (const TlInspections *self)
{
  g_autoptr (GPtrArray) nodes = tl_inspections_to_nodes (self, "urn:test");
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < nodes->len; i++)
    {
      g_autofree char *text = tl_node_canonical (g_ptr_array_index (nodes, i), NULL);

      g_string_append (all, text);
    }
  return g_string_free (all, FALSE);
}

static void
test_edits (Fixture *f, gconstpointer data)
{
  g_autoptr (TlInspections) old = tl_inspections_ref (f->self);
  TlPictureMark *moved = tl_record_copy (tl_inspection_mark (visit (f), f->mark));
  g_autoptr (GError) error = NULL;
  g_autofree char *second = NULL;

  g_array_index (moved->points, TlPixel, 0).x_px = 44;
  put (f, tl_record_copy (moved), NULL);
  g_assert_cmpfloat (
      g_array_index (tl_inspection_mark (visit (f), f->mark)->points, TlPixel, 0).x_px, ==, 44);
  /* The old value is untouched: undo swaps a pointer. */
  g_assert_cmpfloat (
      g_array_index (tl_inspection_mark (tl_inspections_get (old, f->visit), f->mark)->points,
                     TlPixel, 0)
          .x_px,
      ==, 40);

  tl_record_text (&moved->id, "");
  moved->number = 0;
  put (f, moved, &second);
  g_assert_cmpuint (tl_inspection_mark (visit (f), second)->number, ==, 2);
  step (f, tl_inspections_number_mark (f->self, f->visit, second, 1, &error), &error);
  g_assert_cmpuint (tl_inspection_mark (visit (f), second)->number, ==, 1);
  g_assert_cmpuint (tl_inspection_mark (visit (f), f->mark)->number, ==, 2);
  step (f, tl_inspections_remove (f->self, f->visit, second, &error), &error);
  g_assert_cmpuint (tl_inspection_mark (visit (f), f->mark)->number, ==, 1);
  /* A scale takes its measures with it. */
  step (f, tl_inspections_remove (f->self, f->visit, f->scale, &error), &error);
  g_assert_cmpuint (visit (f)->measures->len, ==, 0);
}

static void
test_refusals (Fixture *f, gconstpointer data)
{
  g_autoptr (GBytes) bytes =
      tl_originals_get (f->originals, tl_inspections_photo (f->self, f->photo)->sha256);
  TlPhoto   *again = tl_photo_new (bytes, "b.jpg", actor.who, actor.when, NULL);
  TlMeasure *measure = tl_record_copy (tl_inspection_measure (visit (f), f->measure));
  TlFound   *found = tl_record_new (&tl_found_form);
  g_autoptr (GError) twice = NULL, lost = NULL, nobody = NULL, field = NULL, missing = NULL;
  static const TlActor no_time = { "A", "" };

  g_assert_null (tl_inspections_add_photo (f->self, again, &actor, NULL, &twice));
  g_assert_error (twice, TL_ERROR, TL_ERROR_STATE);
  tl_record_text (&measure->scale, "scale-99");
  g_assert_null (tl_inspections_put (f->self, f->visit, measure, NULL, &lost));
  g_assert_error (lost, TL_ERROR, TL_ERROR_NAME);
  g_assert_null (tl_inspections_begin (f->self, &no_time, NULL, &nobody));
  g_assert_error (nobody, TL_ERROR, TL_ERROR_STATE);
  tl_record_text (&found->owner, "leg-1");
  tl_record_text (&found->field, "no-such");
  g_assert_null (tl_inspections_put (f->self, f->visit, found, NULL, &field));
  g_assert_error (field, TL_ERROR, TL_ERROR_NAME);
  g_assert_null (tl_inspections_remove (f->self, f->visit, "mark-77", &missing));
  g_assert_error (missing, TL_ERROR, TL_ERROR_NAME);
  tl_record_unref (again);
  tl_record_unref (measure);
  tl_record_unref (found);
}

static void
test_round_trip (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) nodes = tl_inspections_to_nodes (f->self, "urn:test");
  g_autoptr (GError) error = NULL;
  g_autoptr (TlInspections) again = tl_inspections_from_nodes (nodes, &error);
  g_autofree char *before = text_of (f->self), *after = NULL;

  g_assert_no_error (error);
  after = text_of (again);
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpuint (again->next_id, ==, f->self->next_id);
}

/* What a newer version wrote is kept in its element. */
static void
test_newer (Fixture *f, gconstpointer data)
{
  g_autofree char  *before = text_of (f->self);
  static const char text[] =
      "<r xmlns='urn:test'><pictures><picture id='picture-1' "
      "sha256='0000000000000000000000000000000000000000000000000000000000000000'"
      " kind='png' bytes='1' width='2' height='2' orientation='1' glow='blue'/><album "
      "name='x'/></pictures>"
      "<inspections><inspection id='inspection-2' weather='rain'><hologram "
      "depth='3'/></inspection><seal by='wax'/></inspections></r>";
  g_autoptr (TlXmlDocument) document =
      tl_xml_parse (text, strlen (text), "t", &tl_xml_caps_joint, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TlInspections) self = tl_inspections_from_nodes (document->root->children, &error);
  g_autofree char         *written = NULL;
  static const char *const kept[] = { "glow=\"blue\"", "<album name=\"x\"/>", "weather=\"rain\"",
                                      "<hologram depth=\"3\"/>", "<seal by=\"wax\"/>" };

  g_assert_no_error (error);
  written = text_of (self);
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    g_assert_nonnull (strstr (written, kept[i]));
}

static void
test_bad_files (void)
{
  static const char *const bad[] = {
    "<pictures><picture id='p'/></pictures>",
    "<pictures><picture id='p-1' sha256='zz' kind='png' bytes='1' width='2' height='2' "
    "orientation='1'/></pictures>",
    "<pictures><picture id='p-1' sha256='0' kind='bmp' bytes='1' width='2' height='2' "
    "orientation='1'/></pictures>",
    "<readings><reading id='r-1' kind='drop' value='nan'/></readings>",
    "<readings><reading id='r-1' kind='drop' value='1'/><reading id='r-1' kind='drop' "
    "value='1'/></readings>",
    "<inspections><inspection id='i-1'><mark id='m-1' number='1' picture='p' shape='box' "
    "points='1,2' grade='watch'/></inspection></inspections>",
    "<inspections><inspection id='i-1'><mark id='m-1' number='1' picture='p' shape='point' "
    "points='1;2' grade='watch'/></inspection></inspections>",
    "<inspections><inspection id='i-1'><scale id='s-1' picture='p' kind='length' points='1,1 1,1' "
    "length-mm='5' plane='same'/></inspection></inspections>",
    "<inspections><inspection id='i-1'><measure id='m' picture='p' scale='s' kind='area' "
    "points='1,1 2,2' limit-kind='none'/></inspection></inspections>",
    "<inspections><entry number='1' act='import'/></inspections>",
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strdup_printf ("<r>%s</r>", bad[i]);
      g_autoptr (TlXmlDocument) document =
          tl_xml_parse (text, strlen (text), "t", &tl_xml_caps_joint, NULL);
      g_autoptr (GError) error = NULL;

      g_assert_nonnull (document);
      g_assert_null (tl_inspections_from_nodes (document->root->children, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, "line 1"));
    }
}

static void
test_links (void)
{
  static const char zeros[] = "0000000000000000000000000000000000000000000000000000000000000000";
  g_autofree char  *one = g_compute_checksum_for_string (G_CHECKSUM_SHA256, "photo-0001", -1),
                  *two = g_compute_checksum_for_string (G_CHECKSUM_SHA256, "photo-0002", -1);
  g_autofree char *first = tl_custody_link (zeros, one), *second = tl_custody_link (first, two);

  g_assert_cmpstr (one, ==, "ece1c187404d439a7201e1ce42088f85a1d1fa93b427041d6b5f6ecf35b78536");
  g_assert_cmpstr (first, ==, "7aa2cb0eaf550c907ac84b35f27e827f6639c3a14ce488dc630fa1c7684d6939");
  g_assert_cmpstr (second, ==, "714e7b18c0cdaeaa7dd7f444b68acf21c1f3dd39b0a12a0a858ac1f20061a707");
}

static gboolean
is_good (const TlInspections *self, TlOriginals *originals)
{
  gboolean good;
  g_autoptr (GPtrArray) lines =
      tl_inspections_verify (self, originals, tl_language_plain (), &good);

  return good;
}

/* The same, read back from text in which @from was replaced by @to. */
static gboolean
is_good_after (const TlInspections *self, TlOriginals *originals, const char *from, const char *to)
{
  g_autoptr (GPtrArray) nodes = tl_inspections_to_nodes (self, "");
  GString *text = g_string_new ("<r>");
  g_autoptr (TlXmlDocument) document = NULL;
  g_autoptr (TlInspections) again = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < nodes->len; i++)
    {
      g_autofree char *part = tl_node_canonical (g_ptr_array_index (nodes, i), NULL);

      g_string_append (text, strchr (part, '\n'));
    }
  g_string_append (text, "</r>");
  g_assert_cmpuint (g_string_replace (text, from, to, 1), ==, 1);
  document = tl_xml_parse (text->str, text->len, "t", &tl_xml_caps_joint, &error);
  g_assert_no_error (error);
  again = tl_inspections_from_nodes (document->root->children, &error);
  g_assert_no_error (error);
  g_string_free (text, TRUE);
  return is_good (again, originals);
}

static void
test_custody (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL, closed = NULL, stays = NULL;
  g_autofree char    *revision = NULL;
  const TlInspection *later;

  g_assert_true (is_good (f->self, f->originals));
  step (f, tl_inspections_issue (f->self, f->visit, &actor, &error), &error);
  g_assert_true (is_good (f->self, f->originals));
  g_assert_true (tl_inspection_is_closed (visit (f)));

  /* Closed: no edit, no picture of it goes. */
  g_assert_null (tl_inspections_remove (f->self, f->visit, f->mark, &closed));
  g_assert_error (closed, TL_ERROR, TL_ERROR_STATE);
  g_assert_null (tl_inspections_remove_photo (f->self, f->photo, &actor, &stays));
  g_assert_error (stays, TL_ERROR, TL_ERROR_STATE);

  step (f, tl_inspections_revise (f->self, f->visit, &actor, &revision, &error), &error);
  later = tl_inspections_get (f->self, revision);
  g_assert_cmpuint (later->revision, ==, 1);
  g_assert_cmpstr (later->previous, ==, visit (f)->seal);
  g_assert_cmpuint (later->measures->len, ==, 1);
  g_assert_nonnull (
      tl_inspection_scale (later, ((TlMeasure *) g_ptr_array_index (later->measures, 0))->scale));
  g_assert_cmpuint (f->self->readings->len, ==, 2);
  g_assert_true (is_good (f->self, f->originals));

  /* Anything that is changed by hand is noticed. */
  g_assert_false (is_good_after (f->self, f->originals, "Aluminium bare", "Aluminium covered"));
  g_assert_false (is_good_after (f->self, f->originals, "act=\"import\"", "act=\"imported\""));
  g_assert_false (is_good_after (f->self, f->originals, "A. Tester\" act", "B. Tester\" act"));
  g_assert_false (is_good_after (f->self, f->originals, "value=\"900\"", "value=\"100\""));
  g_assert_true (is_good_after (f->self, f->originals, "<r>", "<r >"));
}

static void
test_originals (Fixture *f, gconstpointer data)
{
  g_autoptr (TlOriginals) none = tl_originals_new (), changed = tl_originals_new ();
  g_autoptr (GBytes) other = tf_picture (10, 10, "png");

  tl_originals_put (changed, tl_inspections_photo (f->self, f->photo)->sha256, other);
  g_assert_false (is_good (f->self, none));
  g_assert_false (is_good (f->self, changed));
  g_assert_false (is_good (f->self, NULL));
}

/* From one year to the next: what changed, and what cannot be told apart. */
static void
test_changes (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *later = NULL, *all = NULL;
  g_autoptr (GPtrArray) changes = NULL;
  TlReading *reading = tl_record_copy (tl_inspections_reading (f->self, f->reading));

  step (f, tl_inspections_issue (f->self, f->visit, &actor, &error), &error);
  step (f, tl_inspections_revise (f->self, f->visit, &actor, &later, &error), &error);
  tl_record_text (&reading->id, "");
  reading->value = 1200;
  step (f, tl_inspections_put (f->self, later, reading, NULL, &error), &error);
  tl_record_unref (reading);
  changes = tl_inspections_changes (f->self, visit (f), tl_inspections_get (f->self, later),
                                    tl_language_plain ());
  g_ptr_array_add (changes, NULL);
  all = g_strjoinv ("\n", (char **) changes->pdata);
  g_assert_nonnull (strstr (all, "no change to be told"));
  g_assert_nonnull (strstr (all, "Resistance of the joint"));
}

int
main (int argc, char **argv)
{
  int code;

  g_test_init (&argc, &argv, NULL);
  stock = tl_stock_load (NULL, NULL);
#define ADD(name, func) g_test_add ("/inspection/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("edits", test_edits);
  ADD ("refusals", test_refusals);
  ADD ("round-trip", test_round_trip);
  ADD ("newer", test_newer);
  ADD ("custody", test_custody);
  ADD ("originals", test_originals);
  ADD ("changes", test_changes);
  g_test_add_func ("/inspection/bad-files", test_bad_files);
  g_test_add_func ("/inspection/links", test_links);
  code = g_test_run ();
  tl_stock_unref (stock);
  return code;
}
