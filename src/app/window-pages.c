/* window-pages.c: the pages, each made when it is first wanted: what nobody looks at costs no time and no memory.
 *
 * The first frame shows the header over an empty page; the page is made right after it, so that the window stands
 * there at once.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/window-private.h"

/* After the frame that is being painted, before anything that waits for a person. */
static const int AFTER_PAINT = GDK_PRIORITY_REDRAW + 10;

TlFirstPage *
tl_window_first (TlWindow *self)
{
  if (self->first == NULL)
    {
      self->first = g_object_new (TL_TYPE_FIRST_PAGE, NULL);
      tl_first_page_set_stock (self->first, tl_own_stock_stock (self->own),
                               tl_document_language (self->document), self->settings);
      adw_bin_set_child (self->first_place, GTK_WIDGET (self->first));
    }
  return self->first;
}

TlBuildPage *
tl_window_build (TlWindow *self)
{
  if (self->build == NULL)
    {
      self->build = g_object_new (TL_TYPE_BUILD_PAGE, NULL);
      tl_build_page_set_document (self->build, self->document, self->settings);
      adw_bin_set_child (self->build_place, GTK_WIDGET (self->build));
    }
  return self->build;
}

TlStepsPage *
tl_window_steps (TlWindow *self)
{
  if (self->steps == NULL)
    {
      self->steps = g_object_new (TL_TYPE_STEPS_PAGE, NULL);
      tl_steps_page_set_document (self->steps, self->document, self->settings);
      adw_bin_set_child (self->steps_place, GTK_WIDGET (self->steps));
    }
  return self->steps;
}

TlAgeingPage *
tl_window_ageing (TlWindow *self)
{
  if (self->ageing == NULL)
    {
      self->ageing = g_object_new (TL_TYPE_AGEING_PAGE, NULL);
      tl_ageing_page_set_document (self->ageing, self->document);
      adw_bin_set_child (self->ageing_place, GTK_WIDGET (self->ageing));
    }
  return self->ageing;
}

TlPicturesPage *
tl_window_pictures (TlWindow *self)
{
  if (self->pictures == NULL)
    {
      self->pictures = g_object_new (TL_TYPE_PICTURES_PAGE, NULL);
      tl_pictures_page_set_document (self->pictures, self->document, self->settings);
      adw_bin_set_child (self->pictures_place, GTK_WIDGET (self->pictures));
    }
  return self->pictures;
}

gboolean
tl_window_has_made (TlWindow *self, const char *page)
{
  const struct
  {
    const char *name;
    gpointer    page;
  } pages[] = { { "first", self->first },
                { "build", self->build },
                { "steps", self->steps },
                { "ageing", self->ageing },
                { "pictures", self->pictures } };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_str_equal (pages[i].name, page))
      return pages[i].page != NULL;
  return FALSE;
}

const char *
tl_window_page (TlWindow *self)
{
  const char *outer = gtk_stack_get_visible_child_name (self->outer);

  return g_strcmp0 (outer, "first") == 0 ? outer : gtk_stack_get_visible_child_name (self->pages);
}

/* --- the page that is looked at --- */
/* A page that is there only now finds the keyboard still in the page before it. */
static void
take_focus (TlWindow *self, GtkWidget *page)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));

  if (focus == NULL || gtk_widget_is_ancestor (focus, GTK_WIDGET (self->pages)))
    gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD);
}

static void
make_page (TlWindow *self)
{
  const char *page = tl_window_page (self);
  gboolean    is_new = !tl_window_has_made (self, page);
  GtkWidget  *made;

  if (g_str_equal (page, "first"))
    tl_first_page_refresh (tl_window_first (self));
  else if (g_str_equal (page, "build"))
    {
      tl_window_build (self);
      if (self->focuses_bench)
        gtk_widget_grab_focus (GTK_WIDGET (tl_build_page_bench (self->build)));
      self->focuses_bench = FALSE;
    }
  else
    {
      made = g_str_equal (page, "steps")    ? GTK_WIDGET (tl_window_steps (self))
             : g_str_equal (page, "ageing") ? GTK_WIDGET (tl_window_ageing (self))
                                            : GTK_WIDGET (tl_window_pictures (self));
      if (is_new)
        take_focus (self, made);
    }
}

static gboolean
on_first_frame (gpointer data)
{
  TlWindow *self = data;

  self->first_frame = 0;
  self->is_painted = TRUE;
  tl_window_show_verdict (self);
  make_page (self);
  return G_SOURCE_REMOVE;
}

static void
on_after_paint (GdkFrameClock *clock, TlWindow *self)
{
  if (self->is_painted || self->first_frame != 0)
    return;
  self->first_frame = g_idle_add_full (AFTER_PAINT, on_first_frame, self, NULL);
}

void
tl_window_await_first_frame (TlWindow *self)
{
  g_signal_connect_object (gtk_widget_get_frame_clock (GTK_WIDGET (self)), "after-paint",
                           G_CALLBACK (on_after_paint), self, 0);
}

void
tl_window_show_page (TlWindow *self)
{
  if (self->is_painted)
    make_page (self);
}

void
tl_window_focus_bench (TlWindow *self)
{
  self->focuses_bench = TRUE;
  tl_window_show_page (self);
}
