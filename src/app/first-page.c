/* first-page.c: form, examples, recent files, legend.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/first-page.h"

#include "app/labelled.h"
#include "app/mark-view.h"
#include "app/part-view.h"
#include "app/sight.h"
#include "app/verdict-chip.h"
#include "joint/joint-file.h"

#include <glib/gi18n.h>

static const guint  RECENT_FILES = 5;
/* px at the head of a card that the verdict's chip takes, with its margin */
static const double CHIP_PX = 38.0;
/* px of the drawing of a card at least, and about those of the words below it */
static const int    VIEW_WIDTH_PX = 220;
static const int    VIEW_HEIGHT_PX = 148;
static const int    FOOT_PX = 52;

struct _TlFirstPage
{
  GtkWidget parent_instance;

  TlStock        *stock;
  TlLanguage     *language;
  TlNewJointForm *form;
  GtkFlowBox     *examples;
  GtkListBox     *recent;
  GtkLabel       *no_recent;
  GtkBox         *legend;
  GStrv           names; /* of the examples, sorted */
  guint           next;  /* the example that the idle makes next */
  guint           idle;  /* 0 none */
};

G_DEFINE_FINAL_TYPE (TlFirstPage, tl_first_page, GTK_TYPE_WIDGET)

enum
{
  MADE,
  EXAMPLE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* --- examples --- */
static TlJoint *
load_example (const char *path, GError **error)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, error);

  return bytes == NULL ? NULL : tl_joint_from_bytes (bytes, path, error);
}

static void
on_example (GtkButton *button, TlFirstPage *self)
{
  g_signal_emit (self, signals[EXAMPLE], 0, g_object_get_data (G_OBJECT (button), "path"));
}

static GtkWidget *
example_foot (const TlJoint *joint)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2), *name = gtk_label_new (joint->name),
            *note = gtk_label_new (joint->note == NULL || *joint->note == '\0' ? joint->place
                                                                               : joint->note);

  gtk_widget_add_css_class (foot, "foot");
  gtk_widget_add_css_class (name, "name-bold");
  gtk_widget_add_css_class (note, "caption-text");
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_xalign (GTK_LABEL (note), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_ellipsize (GTK_LABEL (note), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 20);
  gtk_label_set_max_width_chars (GTK_LABEL (note), 20);
  gtk_box_append (GTK_BOX (foot), name);
  gtk_box_append (GTK_BOX (foot), note);
  return foot;
}

/* What is on a card: made when the wall is scrolled to it. */
static void
on_card_seen (GtkWidget *button, gpointer data)
{
  TlFirstPage *self = data;
  const char  *path = g_object_get_data (G_OBJECT (button), "path");
  g_autoptr (TlJoint) joint = load_example (path, NULL);
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, self->stock, TL_VERDICT_QUICK);
  GtkWidget *overlay = gtk_overlay_new (), *view = tl_part_view_new (),
            *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *chip = tl_verdict_chip_new ();

  tl_part_view_set_free_top (TL_PART_VIEW (view), CHIP_PX);
  tl_part_view_show_joint (TL_PART_VIEW (view), verdict);
  gtk_widget_set_size_request (view, VIEW_WIDTH_PX, VIEW_HEIGHT_PX);
  gtk_widget_set_vexpand (view, TRUE);
  gtk_box_append (GTK_BOX (box), view);
  gtk_box_append (GTK_BOX (box), example_foot (joint));
  gtk_overlay_set_child (GTK_OVERLAY (overlay), box);
  tl_verdict_chip_show (TL_VERDICT_CHIP (chip), verdict, self->language);
  gtk_widget_set_halign (chip, GTK_ALIGN_END);
  gtk_widget_set_valign (chip, GTK_ALIGN_START);
  gtk_widget_set_margin_top (chip, 8);
  gtk_widget_set_margin_end (chip, 8);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), chip);
  gtk_button_set_child (GTK_BUTTON (button), overlay);
}

static GtkWidget *
example_card (TlFirstPage *self, const TlJoint *joint, const char *path)
{
  g_autoptr (TlVerdict) verdict = tl_verdict_new (joint, self->stock, TL_VERDICT_QUICK);
  GtkWidget       *button = gtk_button_new ();
  g_autofree char *name =
      g_strdup_printf (_ ("Example: %s. Verdict: %s. %s"), joint->name,
                       tl_language_text (self->language, tl_verdict_word (verdict)), joint->note);

  gtk_widget_set_size_request (button, VIEW_WIDTH_PX, VIEW_HEIGHT_PX + FOOT_PX);
  gtk_widget_add_css_class (button, "example-card");
  gtk_widget_set_tooltip_text (button, joint->note);
  g_object_set_data_full (G_OBJECT (button), "path", g_strdup (path), g_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", G_CALLBACK (on_example), self);
  tl_sight_await (button, on_card_seen, self);
  return button;
}

/* One example a turn: the window is there at once and the wall fills while it is looked at. */
static gboolean
on_idle (gpointer data)
{
  TlFirstPage *self = data;
  const char  *name = self->names[self->next];
  g_autoptr (TlJoint) joint = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  GtkWidget       *card;

  if (name == NULL)
    {
      self->idle = 0;
      return G_SOURCE_REMOVE;
    }
  self->next++;
  path = g_strconcat (TL_EXAMPLES_PATH "/", name, NULL);
  joint = load_example (path, &error);
  if (joint == NULL)
    {
      g_warning ("%s", error->message);
      return G_SOURCE_CONTINUE;
    }
  card = example_card (self, joint, path);
  gtk_flow_box_append (self->examples, card);
  gtk_widget_set_focusable (gtk_widget_get_parent (card), FALSE);
  return G_SOURCE_CONTINUE;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

static void
start_examples (TlFirstPage *self)
{
  self->names =
      g_resources_enumerate_children (TL_EXAMPLES_PATH, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  if (self->names == NULL)
    self->names = g_new0 (char *, 1);
  qsort (self->names, g_strv_length (self->names), sizeof (char *), compare_names);
  self->idle = g_idle_add (on_idle, self);
}

/* --- recent files --- */
static int
compare_visits (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_visited ((GtkRecentInfo *) b),
                              gtk_recent_info_get_visited ((GtkRecentInfo *) a));
}

static void
add_recent (TlFirstPage *self, GtkRecentInfo *info)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8),
            *name = gtk_label_new (gtk_recent_info_get_display_name (info)), *when;
  g_autoptr (GDateTime) local = g_date_time_to_local (gtk_recent_info_get_visited (info));
  g_autofree char *day = g_date_time_format (local, "%x");
  g_autofree char *path = g_filename_from_uri (gtk_recent_info_get_uri (info), NULL, NULL);
  g_autofree char *label = g_strdup_printf (_ ("Open %s"), gtk_recent_info_get_display_name (info));

  if (path == NULL)
    return;
  when = gtk_label_new (day);
  gtk_widget_add_css_class (when, "caption-text");
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_MIDDLE);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), when);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_widget_add_css_class (row, "recent");
  gtk_widget_set_tooltip_text (row, path);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_object_set_data_full (G_OBJECT (row), "path", g_steal_pointer (&path), g_free);
  gtk_list_box_append (self->recent, row);
}

static void
on_recent (GtkListBox *list, GtkListBoxRow *row, TlFirstPage *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.open-path", "s",
                              g_object_get_data (G_OBJECT (row), "path"));
}

void
tl_first_page_refresh (TlFirstPage *self)
{
  GList         *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  guint          count = 0;
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->recent, 0)) != NULL)
    gtk_list_box_remove (self->recent, GTK_WIDGET (row));
  items = g_list_sort (items, compare_visits);
  for (GList *l = items; l != NULL && count < RECENT_FILES; l = l->next)
    if (g_strcmp0 (gtk_recent_info_get_mime_type (l->data), "application/x-tinlap") == 0
        && gtk_recent_info_exists (l->data))
      {
        add_recent (self, l->data);
        count++;
      }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  gtk_widget_set_visible (GTK_WIDGET (self->no_recent), count == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->recent), count > 0);
}

/* --- how a verdict reads --- */
static void
add_meaning (TlFirstPage *self, TlSeverity severity, const char *meaning)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *mark = tl_mark_view_new (22),
            *word = gtk_label_new (tl_language_text (self->language, tl_severity_word (severity))),
            *text = gtk_label_new (meaning), *line = tl_mark_view_new (12);

  tl_mark_view_show_mark (TL_MARK_VIEW (mark), tl_theme_mark (TRUE, severity));
  tl_mark_view_show_line (TL_MARK_VIEW (line), tl_theme_mark (TRUE, severity));
  gtk_widget_add_css_class (word, "pane-title");
  tl_theme_set_severity (word, TRUE, severity);
  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_label_set_width_chars (GTK_LABEL (text), 11);
  gtk_label_set_yalign (GTK_LABEL (text), 0);
  gtk_widget_set_vexpand (text, TRUE);
  gtk_box_append (GTK_BOX (head), mark);
  gtk_box_append (GTK_BOX (head), word);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), text);
  gtk_box_append (GTK_BOX (box), line);
  gtk_box_append (self->legend, box);
}

static void
on_made (TlNewJointForm *form, gpointer joint, TlFirstPage *self)
{
  g_signal_emit (self, signals[MADE], 0, joint);
}

/* --- widget --- */
static void
tl_first_page_dispose (GObject *object)
{
  TlFirstPage *self = TL_FIRST_PAGE (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (self), TL_TYPE_FIRST_PAGE);
  tl_widget_clear (GTK_WIDGET (self));
  g_clear_pointer (&self->stock, tl_stock_unref);
  g_clear_pointer (&self->language, tl_language_unref);
  g_clear_pointer (&self->names, g_strfreev);
  G_OBJECT_CLASS (tl_first_page_parent_class)->dispose (object);
}

static void
tl_first_page_class_init (TlFirstPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tl_first_page_dispose;
  signals[MADE] = g_signal_new ("made", TL_TYPE_FIRST_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[EXAMPLE] = g_signal_new ("example", TL_TYPE_FIRST_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  g_type_ensure (TL_TYPE_NEW_JOINT_FORM);
  gtk_widget_class_set_template_from_resource (widget_class, "/tinlap/ui/first-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TlFirstPage, form);
  gtk_widget_class_bind_template_child (widget_class, TlFirstPage, examples);
  gtk_widget_class_bind_template_child (widget_class, TlFirstPage, recent);
  gtk_widget_class_bind_template_child (widget_class, TlFirstPage, no_recent);
  gtk_widget_class_bind_template_child (widget_class, TlFirstPage, legend);
  gtk_widget_class_bind_template_callback (widget_class, on_recent);
  gtk_widget_class_bind_template_callback (widget_class, on_made);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_REGION);
}

static void
tl_first_page_init (TlFirstPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
tl_first_page_set_stock (TlFirstPage *self, const TlStock *stock, const TlLanguage *language,
                         GSettings *settings)
{
  g_return_if_fail (self->stock == NULL);
  self->stock = tl_stock_ref (stock);
  self->language = tl_language_ref ((TlLanguage *) language);
  tl_new_joint_form_set_stock (self->form, stock, language, settings);
  add_meaning (self, TL_SEVERITY_UNSAFE, _ ("Can burn or shock. Do not energise."));
  add_meaning (self, TL_SEVERITY_CHANGE, _ ("Will fail early. One change named."));
  add_meaning (self, TL_SEVERITY_WATCH, _ ("Good with a stated look now and then."));
  add_meaning (self, TL_SEVERITY_SOUND, _ ("Holds, and the finding says why."));
  tl_first_page_refresh (self);
  start_examples (self);
}

void
tl_first_page_change_stock (TlFirstPage *self, const TlStock *stock)
{
  TlStock *old = self->stock;

  self->stock = tl_stock_ref (stock);
  tl_new_joint_form_change_stock (self->form, stock);
  tl_stock_unref (old);
}

TlNewJointForm *
tl_first_page_form (TlFirstPage *self)
{
  return self->form;
}

guint
tl_first_page_example_count (TlFirstPage *self)
{
  return self->next;
}
