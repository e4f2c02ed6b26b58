/* window-private.h: what the window's files share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/kept-work.h"
#include "app/verdict-chip.h"
#include "app/window.h"

G_BEGIN_DECLS

/* What waits while the person is asked about unsaved work. */
typedef enum
{
  TL_NEXT_NOTHING,
  TL_NEXT_CLOSE,
  TL_NEXT_OPEN,    /* @next_path */
  TL_NEXT_EXAMPLE, /* @next_path is a resource */
  TL_NEXT_JOINT,   /* @next_joint */
} TlNext;

struct _TlWindow
{
  AdwApplicationWindow  parent_instance;

  TlDocument           *document;
  TlOwnStock           *own;
  GtkWidget            *own_window; /* (nullable): of one's own parts; kept, hidden, until the window goes */
  GSettings            *settings;
  TlKeptWork           *kept;       /* (nullable): unsaved work of this window */
  GPtrArray            *left;       /* (nullable) (element-type TlLeftWork): still to be asked about */
  gboolean              has_joint;  /* something was made or opened here */
  GtkWidget            *notice;      /* what was refused, until it is closed or something succeeds */
  GtkLabel             *notice_text;
  AdwToastOverlay      *toasts;
  AdwToast             *edit_toast; /* (nullable), weak: about the last edit */
  guint                 toast_end;  /* ends it; 0 none */
  GtkHeaderBar         *header;
  GtkStack             *outer;      /* first page, or a joint */
  GtkStack             *pages;      /* Build, Steps, Ageing, Pictures */
  GtkStackSwitcher     *tabs;
  GtkMenuButton        *pages_menu; /* in place of @tabs where the window is narrow */
  guint                 fold;       /* idle that folds the tabs after an allocation, 0 none */
  int                   width;      /* last allocated */
  GtkLabel             *title;
  GtkLabel             *place;
  GtkWidget            *title_box;
  GtkWidget            *first_head;
  GtkWidget            *undo;
  GtkWidget            *redo;
  GtkWidget            *separator;
  GtkButton            *back;
  TlVerdictChip        *chip;
  AdwBin               *first_place; /* where each page goes once it is made */
  AdwBin               *build_place;
  AdwBin               *steps_place;
  AdwBin               *ageing_place;
  AdwBin               *pictures_place;
  TlFirstPage          *first;      /* (nullable), as the four below: not wanted yet */
  TlBuildPage          *build;
  TlStepsPage          *steps;
  TlAgeingPage         *ageing;
  TlPicturesPage       *pictures;
  guint                 first_frame; /* idle that makes the page after the first frame, 0 none */
  gboolean              is_painted;  /* the first frame stands */
  gboolean              focuses_bench; /* once the page is made */
  GtkFileChooserNative *chooser;    /* while it is open */
  TlNext                next;
  char                 *next_path;
  TlJoint              *next_joint;
  gboolean              is_stale_told;
  char                 *last_message;
};

/* window-header.c */
/* In the header, on the pages of a joint, once the first frame stands. */
void tl_window_show_verdict (TlWindow *self);
/* All that hangs on the document: verdict, title, undo, actions. */
void tl_window_show_state (TlWindow *self);
/* Not on the first page. */
gboolean tl_window_is_on_joint (TlWindow *self);
void tl_window_update_actions (TlWindow *self);
/* Tabs or a menu of the pages, by the width that was last allocated. */
void tl_window_fold_tabs (TlWindow *self);
GMenu *tl_window_pages_menu (TlWindow *self) G_GNUC_WARN_UNUSED_RESULT;

/* window-actions.c */
void tl_window_install_actions (GtkWidgetClass *klass);

/* window-pages.c */
void tl_window_await_first_frame (TlWindow *self);
/* Makes the page that is looked at if it is not there yet and the first frame is. */
void tl_window_show_page (TlWindow *self);
void tl_window_focus_bench (TlWindow *self);

/* window-files.c */
/* A toast with  as it stands. @seconds 0: until it is closed. (transfer none) */
AdwToast *tl_window_toast (TlWindow *self, const char *text, guint seconds);
void     tl_window_show_message (TlWindow *self, const char *text);
void     tl_window_show_joint (TlWindow *self);
/* Asks about unsaved work if there is any, then does it. */
void     tl_window_ask_then (TlWindow *self, TlNext next, const char *path, const TlJoint *joint);
gboolean tl_window_save (TlWindow *self, const char *path);
void     tl_window_save_asking (TlWindow *self);
void     tl_window_choose_to_open (TlWindow *self);
void     tl_window_choose_to_save (TlWindow *self);
void     tl_window_choose_to_export (TlWindow *self);
gboolean tl_window_export (TlWindow *self, const char *path);
void     tl_window_check_stale (TlWindow *self);

G_END_DECLS
