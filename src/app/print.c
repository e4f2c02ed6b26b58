/* print.c: the desktop's print dialog.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/print.h"

/* A4 is 210 mm wide, Letter 215.9. */
static const double BETWEEN_MM = 212.0;

typedef struct
{
  TlPrintFunc paint;
  gpointer    data;
} Painter;

static void
on_draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, Painter *painter)
{
  painter->paint (gtk_print_context_get_cairo_context (context), (guint) page, painter->data);
}

gboolean
tl_print (GtkWindow *parent, const char *title, guint pages, double width_mm, TlPrintFunc paint,
          gpointer data, GError **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  Painter       painter = { paint, data };
  GtkPaperSize *paper =
      gtk_paper_size_new (width_mm > BETWEEN_MM ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);

  gtk_page_setup_set_paper_size (setup, paper);
  gtk_paper_size_free (paper);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_n_pages (operation, (int) pages);
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page), &painter);
  return gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, error)
         != GTK_PRINT_OPERATION_RESULT_ERROR;
}
