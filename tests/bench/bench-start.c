/* bench-start.c: start to first frame, start to the whole page, and peak memory, in pairs with an empty window of the
 * same toolkit. The first frame is the header and an empty page; the page stands in the frames after it.
 * Twice: once with the software renderer asked for, where Tinlap leaves OpenGL out and the empty window does not; once
 * ("gl.") with the renderer the toolkit chooses, where both load it.
 *
 * usage: bench-start EMPTY TINLAP, under a display of its own (run-under-xvfb.sh).
 * Goals: at most 1.3 times the empty window, and at most 25 MB above it once all stock is loaded.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum
{
  PAIRS = 9,
  LONGEST_MS = 30000,
  SETTLE_MS = 2500, /* the first page fills itself after its first frame */
};

typedef struct
{
  double start_ms, page_ms, peak_MB;
} Run;

/* %NULL @page: any line will do. */
static gboolean
has_line (const char *path, const char *page)
{
  g_autofree char *text = NULL;
  gsize            length;

  return g_file_get_contents (path, &text, &length, NULL) && length > 0
         && (page == NULL || strstr (text, page) != NULL);
}

static double
wait_for (const char *program, const char *status, const char *page, gint64 begin)
{
  while (!has_line (status, page))
    {
      if (g_get_monotonic_time () - begin > LONGEST_MS * 1000)
        g_error ("%s painted no frame", program);
      g_usleep (500);
    }
  return (double) (g_get_monotonic_time () - begin) / 1000.0;
}

/* High-water mark of the resident set, MB. */
static double
peak_MB (GPid pid)
{
  g_autofree char *path = g_strdup_printf ("/proc/%d/status", (int) pid);
  g_autofree char *text = NULL;
  const char      *line;

  if (!g_file_get_contents (path, &text, NULL, NULL) || (line = strstr (text, "VmHWM:")) == NULL)
    g_error ("no peak memory in %s", path);
  return g_ascii_strtod (line + strlen ("VmHWM:"), NULL) / 1024.0;
}

static Run
run_once (const char *program, const char *document, const char *page, const char *status)
{
  char *argv[] = { (char *) program, (char *) document, NULL };
  g_autoptr (GError) error = NULL;
  gint64 begin;
  Run    run;
  GPid   pid;

  g_unlink (status);
  begin = g_get_monotonic_time ();
  if (!g_spawn_async (NULL, argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid, &error))
    g_error ("%s", error->message);
  run.start_ms = wait_for (program, status, NULL, begin);
  run.page_ms = wait_for (program, status, page, begin);
  g_usleep (SETTLE_MS * 1000);
  run.peak_MB = peak_MB (pid);
  kill (pid, SIGKILL);
  waitpid (pid, NULL, 0);
  g_spawn_close_pid (pid);
  return run;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double one = *(const double *) a, other = *(const double *) b;

  return one < other ? -1 : one > other;
}

static double
median (double *values)
{
  qsort (values, PAIRS, sizeof *values, compare);
  return values[PAIRS / 2];
}

static void
measure (const char *name, const char *empty, const char *program, const char *document,
         const char *page, const char *status)
{
  double ratio[PAIRS], whole[PAIRS], more[PAIRS], own[PAIRS];

  for (guint i = 0; i < PAIRS; i++)
    {
      Run other = run_once (empty, NULL, NULL, status),
          run = run_once (program, document, page, status);

      ratio[i] = run.start_ms / other.start_ms;
      whole[i] = run.page_ms / other.start_ms;
      more[i] = run.peak_MB - other.peak_MB;
      own[i] = run.start_ms;
    }
  g_print ("start.%s.ratio %.2f 1\n", name, median (ratio));
  g_print ("start.%s.whole-page-ratio %.2f 1\n", name, median (whole));
  g_print ("start.%s.own %.0f ms\n", name, median (own));
  g_print ("start.%s.memory-above-empty %.1f MB\n", name, median (more));
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("tinlap-start.XXXXXX", NULL);
  g_autofree char *status = g_build_filename (folder, "status", NULL);
  g_autofree char *document = g_build_filename (g_getenv ("TINLAP_SOURCE_ROOT"), "data", "examples",
                                                "bolted-as-it-should-be.tinlap", NULL);

  if (argc != 3)
    g_error ("usage: bench-start EMPTY TINLAP");
  g_setenv ("TINLAP_STATUS_FILE", status, TRUE);
  run_once (argv[1], NULL, NULL,
            status); /* the disk's cache is filled before anything is counted */
  run_once (argv[2], NULL, NULL, status);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  measure ("document", argv[1], argv[2], document, "\"page\":\"build\"", status);
  measure ("first-page", argv[1], argv[2], NULL, "\"page\":\"first\"", status);
  g_unsetenv ("GSK_RENDERER");
  measure ("gl.document", argv[1], argv[2], document, "\"page\":\"build\"", status);
  measure ("gl.first-page", argv[1], argv[2], NULL, "\"page\":\"first\"", status);
  g_unlink (status);
  g_rmdir (folder);
  return 0;
}
