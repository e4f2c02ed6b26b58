/* test-potfiles.c: every file with a sentence in it is listed for the translators, and no other.
 *
 * With TINLAP_WRITE_POTFILES=1 in the environment the list is written anew, to be reviewed as a diff.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

static const char *const folders[] = { "data", "src", "ui" };

/* How a sentence is marked in C and in templates. */
static const char *const marks[] = {
  "_ (\"", "_ (\n", "tl_language_text (", "tl_language_plural (", "translatable=\"yes\"",
};

/* What of the data has texts that people read: as po/its/tinlap.its says. */
static const char *const data_marks[] = {
  "<family ",
  "<material ",
  "<table id=\"identify-metals\"",
  "<table id=\"disputes\"",
  "<table id=\"inspection-",
};

/* Files that are made of sentences throughout. */
static const char *const always[] = { ".desktop.in", ".metainfo.xml.in", ".gschema.xml" };

static gboolean
has_mark (const char *path, const char *const *some, guint n)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  for (guint i = 0; i < n; i++)
    if (strstr (text, some[i]) != NULL)
      return TRUE;
  return FALSE;
}

static gboolean
has_sentence (const char *path)
{

  for (guint i = 0; i < G_N_ELEMENTS (always); i++)
    if (g_str_has_suffix (path, always[i]))
      return TRUE;
  if (g_str_has_suffix (path, ".c") || g_str_has_suffix (path, ".ui"))
    return has_mark (path, marks, G_N_ELEMENTS (marks));
  return g_str_has_suffix (path, ".xml") && has_mark (path, data_marks, G_N_ELEMENTS (data_marks));
}

/* Adds "src/base/field.c" and its like to @found. */
static void
collect (const char *root, const char *below, GPtrArray *found)
{
  g_autofree char *folder = g_build_filename (root, below, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *relative = g_build_filename (below, name, NULL);
      g_autofree char *path = g_build_filename (root, relative, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        continue;
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        collect (root, relative, found);
      else if (has_sentence (path))
        g_ptr_array_add (found, g_steal_pointer (&relative));
    }
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* The list as it ought to be, one path a line. (transfer full) */
static char *
wanted_list (const char *root)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (g_free);
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    collect (root, folders[i], found);
  g_ptr_array_sort (found, by_name);
  for (guint i = 0; i < found->len; i++)
    g_string_append_printf (list, "%s\n", (const char *) g_ptr_array_index (found, i));
  return g_string_free (list, FALSE);
}

/* Says which lines of @list are not in @other. */
static void
report (const char *list, const char *other, const char *what)
{
  g_auto (GStrv) lines = g_strsplit (list, "\n", -1);
  g_auto (GStrv) others = g_strsplit (other, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    if (!g_strv_contains ((const char *const *) others, lines[i]))
      g_printerr ("po/POTFILES %s %s\n", what, lines[i]);
}

static void
test_complete (void)
{
  const char      *root = g_getenv ("TINLAP_SOURCE_ROOT");
  g_autofree char *path = g_build_filename (root, "po", "POTFILES", NULL);
  g_autofree char *wanted = wanted_list (root);
  g_autofree char *list = NULL;

  g_assert_nonnull (strstr (wanted, "src/base/field.c\n"));
  g_assert_null (strstr (wanted, "src/base/range.c\n"));
  g_assert_nonnull (strstr (wanted, "data/defects.xml\n"));
  g_assert_null (strstr (wanted, "data/sources.xml\n"));
  if (g_getenv ("TINLAP_WRITE_POTFILES") != NULL)
    g_assert_true (g_file_set_contents (path, wanted, -1, NULL));

  g_assert_true (g_file_get_contents (path, &list, NULL, NULL));
  report (wanted, list, "does not list");
  report (list, wanted, "needlessly lists");
  g_assert_true (g_str_equal (list, wanted));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/potfiles/complete", test_complete);
  return g_test_run ();
}
