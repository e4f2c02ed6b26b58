/* bench-sheet.c: time and size of one step sheet, from verdict to PDF.
 *
 * Prints milliseconds of laying out and of laying out and writing, pages and bytes, for a bolted stack on A4.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <gio/gio.h>
#include <glib/gstdio.h>

#include "bench.h"
#include "draw/sheet.h"

#define TIMES 20

typedef struct
{
  const TlVerdict  *verdict;
  const TlLanguage *language;
  const char       *path; /* (nullable): lay out only */
} Case;

static void
make (gpointer data, guint times)
{
  const Case *self = data;

  for (guint i = 0; i < times; i++)
    {
      g_autoptr (TlSheet) sheet =
          tl_sheet_new (self->verdict, TL_PAPER_A4, "2026-03-03", self->language);
      GError *error = NULL;

      if (self->path != NULL && !tl_sheet_save_pdf (sheet, self->path, &error))
        g_error ("%s", error->message);
    }
}

static guint
count_pages (const Case *one)
{
  g_autoptr (TlSheet) sheet = tl_sheet_new (one->verdict, TL_PAPER_A4, "2026-03-03", one->language);

  return tl_sheet_pages (sheet);
}

int
main (void)
{
  g_autoptr (TlStock) stock = bench_stock ();
  g_autoptr (TlJoint) joint = bench_example ("bolted-as-it-should-be");
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, stock, TL_VERDICT_FULL);
  g_autoptr (TlLanguage) language = tl_language_new ("en", TL_UNITS_METRIC);
  g_autofree char *folder = g_dir_make_tmp ("bench-sheet-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder != NULL ? folder : ".", "sheet.pdf", NULL);
  Case             laid = { verdict, language, NULL }, written = { verdict, language, path };
  double           laid_us = bench_median_us (make, &laid, TIMES);
  double           written_us = bench_median_us (make, &written, TIMES);
  GStatBuf         file = { 0 };

  g_stat (path, &file);
  g_print ("sheet.lay-out %.2f ms\nsheet.pdf %.2f ms\nsheet.pages %u\nsheet.bytes %" G_GINT64_FORMAT
           "\n",
           laid_us / 1000.0, written_us / 1000.0, count_pages (&laid), (gint64) file.st_size);
  g_print ("sheet.pdf-a-page %.2f ms\n", written_us / 1000.0 / count_pages (&laid));
  g_unlink (path);
  if (folder != NULL)
    g_rmdir (folder);
  return 0;
}
