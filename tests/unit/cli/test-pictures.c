/* test-pictures.c: tinlap-cli pictures on the inspected example: report, annotated copy, lists, verifying, wrong calls.
 *
 * The lengths of the scene are known by construction: sleeve 44 mm, bare aluminium 4.3 mm. PDF is read by pdftotext and
 * pdfimages, hashes by sha256sum, the archive by unzip.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "../picture/files.h"
#include "joint/joint-file.h"
#include "joint/pictures.h"
#include "schema-check.h"

#include <glib/gstdio.h>
#include <string.h>

static const TlActor actor = { "A. Tester", "2027-03-03T12:00:00Z" };

typedef struct
{
  char *folder, *file, *out, *complaint;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("tinlap-pictures-XXXXXX", NULL);
  f->file = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                              "sleeve-inspected.tinlap", NULL);
  f->out = f->complaint = NULL;
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);

  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
  g_free (f->file);
  g_free (f->out);
  g_free (f->complaint);
}

/* A command line, in the fixture's folder; its exit code. */
static int
shell (Fixture *f, const char *command)
{
  g_auto (GStrv) argv = NULL;
  g_autoptr (GError) error = NULL;
  int status;

  g_clear_pointer (&f->out, g_free);
  g_clear_pointer (&f->complaint, g_free);
  g_assert_true (g_shell_parse_argv (command, NULL, &argv, NULL));
  if (!g_spawn_sync (f->folder, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &f->out, &f->complaint,
                     &status, &error))
    g_error ("%s: %s", command, error->message);
  return WEXITSTATUS (status);
}

static int
pictures (Fixture *f, const char *options)
{
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autofree char *command = g_strdup_printf ("%s pictures %s %s", program, f->file, options);

  return shell (f, command);
}

static void
assert_says (const char *text, const char *const *phrases)
{
  for (guint i = 0; phrases[i] != NULL; i++)
    if (strstr (text, phrases[i]) == NULL)
      g_error ("“%s” is missing in: %s", phrases[i], text);
}

/* Everything that a report has to hold; three pictures; the same bytes again; no position. */
static void
test_report (Fixture *f, gconstpointer data)
{
  static const char *const wanted[] = {
    "Report FM-2027-014, revision 0",
    "page 1 of",
    "Isolate, prove dead and lock off",
    "Purpose and question",
    "Present",
    "2027-03-03T10:05:00+01:00",
    "Qualification",
    "Not inspected, not reachable",
    "Assumptions",
    "k = 2",
    "Tinlap 0.1.0",
    "as designed",
    "as found",
    "Watch",
    "Change",
    "44.2 ± 0.5",
    "4.3",
    "beyond",
    "ANSI/NETA ATS",
    "Findings: facts",
    "Opinion of the author",
    "consistent with",
    "Assumed as designed: not checked",
    "SHA-256",
    "Signature (by hand)",
    "licensed inspection decide",
    "nothing seen here",
    "no photograph",
    "four-wire ohmmeter",
    "imported",
    NULL,
  };
  g_autofree char *first = NULL, *second = NULL;
  gsize            length_a, length_b;
  g_autofree char *a = g_build_filename (f->folder, "a.pdf", NULL),
                  *b = g_build_filename (f->folder, "b.pdf", NULL);

  g_assert_cmpint (pictures (f, "--report a.pdf --date 2027-03-04"), ==, 1);
  g_assert_cmpint (pictures (f, "--report b.pdf --date 2027-03-04"), ==, 1);
  g_assert_true (g_file_get_contents (a, &first, &length_a, NULL));
  g_assert_true (g_file_get_contents (b, &second, &length_b, NULL));
  g_assert_cmpmem (first, length_a, second, length_b);
  g_assert_cmpint (shell (f, "pdftotext -layout a.pdf -"), ==, 0);
  assert_says (f->out, wanted);
  /* A picture alone never says that a joint is sound. */
  g_assert_null (strstr (f->out, "caused by"));
  g_assert_cmpint (shell (f, "pdfimages -list a.pdf"), ==, 0);
  {
    guint images = 0;

    for (const char *p = f->out; (p = strstr (p, " jpeg ")) != NULL; p++)
      images++;
    g_assert_cmpuint (images, ==, 3);
  }
  g_assert_cmpint (shell (f, "pdfinfo a.pdf"), ==, 0);
  assert_says (f->out, (const char *[]){ "Tagged:          yes", "Inspection report", NULL });
}

/* Words of pdftotext with one space between them: where lines break does not matter. (transfer full) */
static char *
words_of (Fixture *f, const char *file)
{
  g_autofree char *command = g_strdup_printf ("pdftotext %s -", file);
  g_auto (GStrv) words = NULL;
  g_autoptr (GString) all = g_string_new (NULL);

  g_assert_cmpint (shell (f, command), ==, 0);
  words = g_strsplit_set (f->out, " \n\f", -1);
  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      g_string_append_printf (all, "%s ", words[i]);
  g_string_replace (all, "\u202f", " ", 0);
  return g_string_free (g_steal_pointer (&all), FALSE);
}

/* Each picture in words, in the order of the file right behind it; in the structure there is a paragraph after each figure. */
static void
test_words_of_pictures (Fixture *f, gconstpointer data)
{
  static const char *const phrases[] = {
    "Picture 1 in words: measured, middle: length of the sealing sleeve, 44.2 ± 0.5 mm",
    "Picture 2 in words: mark 3, nothing seen here, middle: Left end",
    "Picture 3 in words: mark 1, Unsafe, upper middle: Bare metal between the end of the sleeve",
    "mark 2, Change, upper middle: Brown or stiff insulation",
    NULL,
  };
  g_autofree char *words = NULL;

  g_assert_cmpint (pictures (f, "--report a.pdf --date 2027-03-04"), ==, 1);
  words = words_of (f, "a.pdf");
  assert_says (words, phrases);
  g_assert_cmpint (shell (f, "pdfinfo -struct a.pdf"), ==, 0);
  {
    g_auto (GStrv) lines = g_strsplit (f->out, "\n", -1);
    guint figures = 0;

    for (guint i = 0; lines[i] != NULL && lines[i + 1] != NULL; i++)
      if (strcmp (g_strstrip (lines[i]), "Figure") == 0)
        {
          figures++;
          g_assert_cmpstr (g_strstrip (lines[i + 1]), ==, "P (block)");
        }
    g_assert_cmpuint (figures, ==, 3);
  }
}

/* The annex says what it is, comes after the signature, and has the figures that the forecast of the same joint has. */
static void
test_annex (Fixture *f, gconstpointer data)
{
  static const char *const phrases[] = {
    "Annex: forecast, indicative and not evidence",
    "no finding above rests on it, and the signature does not cover it",
    "Of the joint as found",
    "read the band, not the line",
    "The joint was read as 310 µΩ ± 10 µΩ",
    "Look again",
    "the action and the day of a finding go before it",
    NULL,
  };
  g_autofree char *words = NULL, *bare = NULL, *program = NULL, *command = NULL;
  const char      *annex;

  g_assert_cmpint (pictures (f, "--report a.pdf --date 2027-03-04"), ==, 1);
  words = words_of (f, "a.pdf");
  annex = strstr (words, "Annex:");
  g_assert_nonnull (annex);
  g_assert_true (strstr (words, "Signature (by hand)") < annex);
  assert_says (annex, phrases);
  /* Found values of this joint do not touch its heat: the bands are those of `ageing` on the document. */
  program = g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  command = g_strdup_printf ("%s ageing %s --json", program, f->file);
  shell (f, command);
  {
    g_autoptr (JsonNode) root = json_from_string (f->out, NULL);
    JsonObject *bands = json_object_get_object_member (json_node_get_object (root), "bands");
    JsonArray  *years =
        json_object_get_array_member (json_object_get_object_member (bands, "resistance"), "years");
    JsonObject *new = json_array_get_object_element (years, 0);
    g_autofree char *band = g_strdup_printf (
        "new %.0f µΩ (%.0f µΩ to %.0f µΩ)", json_object_get_double_member (new, "middle"),
        json_object_get_double_member (new, "low"), json_object_get_double_member (new, "high"));

    assert_says (annex, (const char *[]){ band, NULL });
  }
  /* A joint of which nothing is known: one sentence, no figure. */
  {
    g_autoptr (TlJoint) plain = tl_joint_new (), joint = NULL;
    g_autoptr (TlInspections) none = tl_inspections_new (), begun = NULL;
    char *path = g_build_filename (f->folder, "bare.tinlap", NULL);

    begun = tl_inspections_begin (none, &actor, NULL, NULL);
    joint = tl_edit_set_inspections (plain, begun, NULL);
    g_assert_true (tl_joint_save (joint, path, NULL));
    g_free (f->file);
    f->file = path;
  }
  g_assert_cmpint (pictures (f, "--report bare.pdf"), ==, 0);
  bare = words_of (f, "bare.pdf");
  assert_says (bare, (const char *[]){ "No forecast was computed.", NULL });
  g_assert_null (strstr (bare, "Look again"));
  g_assert_null (strstr (bare, "nan"));
}

/* At full resolution, lossless, called a copy, without a word of the camera. */
static void
test_annotated (Fixture *f, gconstpointer data)
{
  g_assert_cmpint (pictures (f, "--annotated copy.png --picture picture-3"), ==, 1);
  g_assert_cmpint (shell (f, "identify copy.png"), ==, 0);
  assert_says (f->out, (const char *[]){ "PNG", "900x600", NULL });
  g_assert_cmpint (pictures (f, "--annotated copy.jpg"), ==, 2);
  g_assert_cmpint (pictures (f, "--annotated copy.png --picture picture-77"), ==, 2);
}

static void assert_fits (Fixture *f, gboolean has_inspection);

static void
test_json (Fixture *f, gconstpointer data)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonObject *root, *measure;

  assert_fits (f, TRUE);
  g_assert_cmpint (pictures (f, "--json"), ==, 1);
  json_parser_load_from_data (parser, f->out, -1, &error);
  g_assert_no_error (error);
  root = json_node_get_object (json_parser_get_root (parser));
  g_assert_cmpint (json_object_get_int_member (root, "format"), ==, 1);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "pictures")), ==, 3);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "findings")), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (root, "as_designed"), ==, "Watch");
  g_assert_cmpstr (json_object_get_string_member (root, "as_found"), ==, "Change");
  /* The truth of the scene lies within U. */
  measure = json_array_get_object_element (json_object_get_array_member (root, "measures"), 0);
  g_assert_cmpfloat (ABS (json_object_get_double_member (measure, "value") - 44.0), <=,
                     json_object_get_double_member (measure, "expanded_uncertainty"));
  measure = json_array_get_object_element (json_object_get_array_member (root, "measures"), 1);
  g_assert_cmpfloat (ABS (json_object_get_double_member (measure, "value") - 4.3), <=,
                     json_object_get_double_member (measure, "expanded_uncertainty"));
}

static void
test_csv (Fixture *f, gconstpointer data)
{
  g_auto (GStrv) lines = NULL;

  g_assert_cmpint (pictures (f, "--csv"), ==, 1);
  lines = g_strsplit (f->out, "\r\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 5);
  g_assert_true (g_str_has_prefix (lines[0], "number,picture,severity,"));
  g_assert_true (g_str_has_prefix (lines[1], "\"1\",\"right-end.jpg\",\"unsafe\",\"D79\","));
}

/* Hashes as sha256sum has them; a byte of a picture exchanged is told. */
static void
test_verify (Fixture *f, gconstpointer data)
{
  g_autofree char *sums = g_strdup_printf (
      "sh -c 'for m in $(unzip -Z1 %s \"pictures/*\"); do unzip -p %s $m | sha256sum; done'",
      f->file, f->file);
  g_autofree char *listed = NULL, *copy = NULL,
                  *path = g_build_filename (f->folder, "c.tinlap", NULL), *bytes = NULL;
  g_auto (GStrv) lines = NULL;
  gsize length, at;

  g_assert_cmpint (pictures (f, "--verify"), ==, 0);
  /* Each entry of the chain, then each check. */
  assert_says (f->out, (const char *[]){ "1  2027-03-03T10:40:00+01:00", "import picture-3",
                                         "Chain: 3 entries", NULL });
  listed = g_strdup (f->out);
  g_assert_cmpint (shell (f, sums), ==, 0);
  lines = g_strsplit (f->out, "\n", -1);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *hash = g_strndup (lines[i], 64);

      g_assert_nonnull (strstr (listed, hash));
    }
  /* The words of the document are deflated; its name in the list is not: a hash exchanged in the name of a member. */
  g_assert_true (g_file_get_contents (f->file, &bytes, &length, NULL));
  for (at = 0; memcmp (bytes + at, "pictures/", 9) != 0; at++)
    g_assert_cmpuint (at, <, length);
  bytes[at + 200] ^= 1;
  g_assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
  copy = f->file;
  f->file = g_steal_pointer (&path);
  g_assert_cmpint (pictures (f, "--verify"), !=, 0);
  g_free (f->file);
  f->file = g_steal_pointer (&copy);
}

static void
test_wrong_calls (Fixture *f, gconstpointer data)
{
  g_autofree char *same = g_strdup_printf ("--report %s", f->file);
  const char      *calls[] = { "--json --csv", "--date tomorrow --report a.pdf",
                               "--paper a3",   "--inspection none",
                               same,           "--report /no/such/folder/a.pdf",
                               "second.tinlap" };

  for (guint i = 0; i < G_N_ELEMENTS (calls); i++)
    {
      g_assert_cmpint (pictures (f, calls[i]), ==, 2);
      g_assert_cmpstr (f->out, ==, "");
      /* One line. */
      g_assert_true (strchr (f->complaint, '\n') == f->complaint + strlen (f->complaint) - 1);
    }
}

/* --- schema --- */

static void
assert_fits (Fixture *f, gboolean has_inspection)
{
  g_autofree char *path = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "schema",
                                            "pictures.schema.json", NULL);
  g_autofree char *text = NULL, *complaint = NULL, *lack = NULL;
  g_autoptr (JsonNode) schema = NULL, data = NULL;
  JsonObject *root;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  schema = json_from_string (text, NULL);
  pictures (f, "--json");
  data = json_from_string (f->out, NULL);
  complaint = tl_schema_check (schema, data);
  g_assert_cmpstr (complaint, ==, NULL);
  root = json_node_get_object (data);
  g_assert_cmpint (json_object_has_member (root, "inspection"), ==, has_inspection);
  json_object_set_string_member (root, "pictures", "none");
  lack = tl_schema_check (schema, data);
  g_assert_nonnull (lack);
}

/* --- a document with two pictures whose cameras knew where they were --- */

/* @without: leave the bytes of the second picture out of the document. @spoil_ids: ids that would lead out of a folder. */
static void
make_document (Fixture *f, gboolean without, gboolean spoil_ids)
{
  g_autoptr (TlJoint) plain = tl_joint_new (), joint = NULL;
  g_autoptr (TlInspections) inspections = tl_inspections_new ();
  g_autoptr (TlOriginals) originals = tl_originals_new ();
  char *path = g_build_filename (f->folder, "made.tinlap", NULL);

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GBytes) bytes = tf_exif_jpeg (40 + i, 30, 1, TRUE);
      TlPhoto       *photo = tl_photo_new (bytes, "a.jpg", actor.who, actor.when, NULL);
      TlInspections *next;

      g_assert_true (photo->has_position);
      if (i == 0 || !without)
        tl_originals_put (originals, photo->sha256, bytes);
      next = tl_inspections_add_photo (inspections, photo, &actor, NULL, NULL);
      tl_inspections_unref (inspections);
      inspections = next;
      tl_record_unref (photo);
    }
  if (spoil_ids)
    for (guint i = 0; i < 2; i++)
      {
        TlPhoto *photo = g_ptr_array_index (inspections->photos, i);

        g_free (photo->id);
        photo->id = g_strdup_printf ("../../%u/out", i);
      }
  joint = tl_edit_set_inspections (plain, inspections, originals);
  g_assert_true (tl_joint_save (joint, path, NULL));
  g_free (f->file);
  f->file = path;
}

/* Position known to the camera, as another program reads it. */
static gboolean
has_position (Fixture *f, const char *file)
{
  g_autofree char *command = g_strdup_printf ("identify -format %%[EXIF:GPS*] %s", file);

  g_assert_cmpint (shell (f, command), ==, 0);
  return strstr (f->out, "GPSLatitude") != NULL;
}

/* Without position by default, the pixels as before; with it byte for byte; sha256sum agrees with what stands beside. */
static void
test_originals (Fixture *f, gconstpointer data)
{
  g_autofree char *sum = NULL;

  make_document (f, FALSE, FALSE);
  g_assert_cmpint (pictures (f, "--originals plain"), ==, 0);
  g_assert_cmpint (pictures (f, "--originals whole --with-position"), ==, 0);
  g_assert_cmpint (shell (f, "sh -c 'cd plain && sha256sum -c SHA256SUMS'"), ==, 0);
  g_assert_cmpint (shell (f, "sh -c 'cd whole && sha256sum -c SHA256SUMS'"), ==, 0);
  g_assert_true (has_position (f, "whole/picture-1.jpg"));
  g_assert_false (has_position (f, "plain/picture-1.jpg"));
  g_assert_false (has_position (f, "plain/picture-2.jpg"));
  g_assert_cmpint (shell (f, "compare -metric AE plain/picture-1.jpg whole/picture-1.jpg null:"),
                   ==, 0);
  /* The whole ones have the hash that the document lists. */
  g_assert_cmpint (shell (f, "sha256sum whole/picture-2.jpg"), ==, 0);
  sum = g_strndup (f->out, 64);
  pictures (f, "");
  g_assert_nonnull (strstr (f->out, sum));
  g_assert_cmpint (shell (f, "cat plain/pictures.csv whole/pictures.csv"), ==, 0);
  assert_says (f->out, (const char *[]){ sum, "other bytes", "as imported", NULL });
  /* Nothing is written over. */
  g_assert_cmpint (pictures (f, "--originals plain"), ==, 2);
  assert_says (f->complaint, (const char *[]){ "picture-1.jpg", "empty or new", NULL });
  g_assert_cmpint (pictures (f, "--with-position"), ==, 2);
  g_assert_cmpint (pictures (f, "--originals no/such/folder"), ==, 2);
  shell (f, "rm -r plain whole");
}

/* One original is not in the document: the other is written, the table says so, and so does the code. */
static void
test_originals_missing (Fixture *f, gconstpointer data)
{
  make_document (f, TRUE, FALSE);
  g_assert_cmpint (pictures (f, "--originals some"), ==, 1);
  assert_says (f->complaint, (const char *[]){ "1 original is not in the document", NULL });
  g_assert_cmpint (shell (f, "sh -c 'ls some; cat some/pictures.csv'"), ==, 0);
  assert_says (f->out, (const char *[]){ "picture-1.jpg", "missing", NULL });
  g_assert_cmpint (shell (f, "test -e some/picture-2.jpg"), !=, 0);
  g_assert_cmpint (pictures (f, "--verify"), ==, 1);
  shell (f, "rm -r some");
}

/* An original that is no longer the one taken in lends its name to nothing: not written, and the table says why. */
static void
test_originals_altered (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) plain = tl_joint_new (), joint = NULL;
  g_autoptr (TlInspections) none = tl_inspections_new (), one = NULL;
  g_autoptr (TlOriginals) originals = tl_originals_new ();
  g_autoptr (GBytes) bytes = tf_exif_jpeg (40, 30, 1, TRUE), other = tf_exif_jpeg (41, 30, 1, TRUE);
  TlPhoto *photo = tl_photo_new (bytes, "a.jpg", actor.who, actor.when, NULL);

  tl_originals_put (originals, photo->sha256, other);
  one = tl_inspections_add_photo (none, photo, &actor, NULL, NULL);
  joint = tl_edit_set_inspections (plain, one, originals);
  g_free (f->file);
  f->file = g_build_filename (f->folder, "altered.tinlap", NULL);
  g_assert_true (tl_joint_save (joint, f->file, NULL));
  tl_record_unref (photo);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_cmpint (
          pictures (f, i == 0 ? "--originals some" : "--originals some --with-position"), ==, 1);
      assert_says (f->complaint, (const char *[]){ "1 original is not in the document", NULL });
      g_assert_cmpint (shell (f, "sh -c 'ls some; cat some/pictures.csv'"), ==, 0);
      assert_says (f->out, (const char *[]){ "altered", NULL });
      g_assert_null (strstr (f->out, "picture-1.jpg"));
      shell (f, "rm -r some");
    }
}

/* What is seen may be a sentence with its own full stop: it is not printed twice. */
static void
test_full_stop (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) joint = NULL, next = NULL;
  g_autoptr (TlInspections) old = NULL, begun = NULL, marked = NULL;
  g_autofree char *id = NULL, *words = NULL;
  g_autoptr (GError) error = NULL;
  const TlPixel  at = { .x_px = 5, .y_px = 5 };
  TlPictureMark *mark = tl_record_new (&tl_picture_mark_form);

  make_document (f, FALSE, FALSE);
  joint = tl_joint_load (f->file, NULL);
  old = tl_joint_inspections (joint, NULL);
  begun = tl_inspections_begin (old, &actor, &id, NULL);
  mark->shape = TL_OUTLINE_POINT;
  mark->grade = TL_GRADE_WATCH;
  g_array_append_val (mark->points, at);
  tl_record_text (&mark->picture, ((TlPhoto *) g_ptr_array_index (begun->photos, 0))->id);
  tl_record_text (&mark->seen, "Insulation browned. ");
  marked = tl_inspections_put (begun, id, mark, NULL, &error);
  g_assert_no_error (error);
  tl_record_unref (mark);
  next = tl_edit_set_inspections (joint, marked, NULL);
  g_assert_true (tl_joint_save (next, f->file, NULL));
  g_assert_cmpint (pictures (f, "--report a.pdf"), ==, 0);
  words = words_of (f, "a.pdf");
  assert_says (words, (const char *[]){ "upper left: Insulation browned. ", NULL });
  g_assert_null (strstr (words, "browned.."));
  g_assert_null (strstr (words, "browned. ."));
}

/* The original vanished: the report is written, says so in place of the picture and in the checks; no annotated copy is. */
static void
test_vanished (Fixture *f, gconstpointer data)
{
  g_autoptr (TlJoint) joint = NULL, next = NULL;
  g_autoptr (TlInspections) old = NULL, begun = NULL;
  g_autofree char *words = NULL;

  make_document (f, TRUE, FALSE);
  joint = tl_joint_load (f->file, NULL);
  old = tl_joint_inspections (joint, NULL);
  begun = tl_inspections_begin (old, &actor, NULL, NULL);
  next = tl_edit_set_inspections (joint, begun, NULL);
  g_assert_true (tl_joint_save (next, f->file, NULL));
  g_assert_cmpint (pictures (f, "--report a.pdf"), ==, 0);
  words = words_of (f, "a.pdf");
  assert_says (words,
               (const char *[]){ "The original of this picture is missing or cannot be decoded",
                                 "the original is not in the document", NULL });
  g_assert_cmpint (pictures (f, "--annotated b.png --picture picture-2"), ==, 2);
  g_assert_cmpint (shell (f, "test -e b.png"), !=, 0);
}

/* Ids of a document that would lead out of the folder do not. */
static void
test_originals_hostile (Fixture *f, gconstpointer data)
{
  make_document (f, FALSE, TRUE);
  g_assert_cmpint (pictures (f, "--originals deep"), ==, 0);
  g_assert_cmpint (shell (f, "find . -name '*.jpg'"), ==, 0);
  assert_says (f->out, (const char *[]){ "./deep/picture-1.jpg", "./deep/picture-2.jpg", NULL });
  g_assert_null (strstr (f->out, "out"));
  shell (f, "rm -r deep");
}

/* All criteria, those with words, none with others. */
static void
test_criteria (Fixture *f, gconstpointer data)
{
  g_autofree char *program =
      g_build_filename (g_getenv ("TINLAP_BUILD_ROOT"), "src", "cli", "tinlap-cli", NULL);
  g_autofree char *all = g_strdup_printf ("%s pictures --criteria", program),
                  *some = g_strdup_printf ("%s pictures --criteria Similar Load", program),
                  *none = g_strdup_printf ("%s pictures --criteria zebra", program);

  g_assert_cmpint (shell (f, all), ==, 0);
  assert_says (f->out, (const char *[]){ "ic001 ", "ic122 ", "ic036 ", "from memory", NULL });
  g_assert_cmpint (shell (f, some), ==, 0);
  assert_says (f->out,
               (const char *[]){ "ic001  Watch", "1\u202fK to 3\u202fK", "Table 100.18", NULL });
  g_assert_null (strstr (f->out, "ic122"));
  g_assert_cmpint (shell (f, none), ==, 2);
}

/* A joint without pictures has none, and nothing to report. */
static void
test_none (Fixture *f, gconstpointer data)
{
  g_free (f->file);
  f->file = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                              "zinc-washer.tinlap", NULL);
  g_assert_cmpint (pictures (f, ""), ==, 0);
  assert_says (f->out, (const char *[]){ "no picture", NULL });
  g_assert_cmpint (pictures (f, "--report a.pdf"), ==, 2);
  g_assert_cmpint (pictures (f, "--verify"), ==, 0);
  assert_fits (f, FALSE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, func) g_test_add ("/pictures/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("report", test_report);
  ADD ("words", test_words_of_pictures);
  ADD ("annex", test_annex);
  ADD ("annotated", test_annotated);
  ADD ("json", test_json);
  ADD ("csv", test_csv);
  ADD ("verify", test_verify);
  ADD ("wrong-calls", test_wrong_calls);
  ADD ("originals", test_originals);
  ADD ("originals-missing", test_originals_missing);
  ADD ("full-stop", test_full_stop);
  ADD ("originals-altered", test_originals_altered);
  ADD ("vanished", test_vanished);
  ADD ("originals-hostile", test_originals_hostile);
  ADD ("criteria", test_criteria);
  ADD ("none", test_none);
  return g_test_run ();
}
