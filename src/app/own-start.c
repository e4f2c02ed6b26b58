/* own-start.c: how to begin a part of one's own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/own-start.h"

#include "app/part-view.h"

#include <glib/gi18n.h>

static GtkWidget *
add_label (GtkWidget *box, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

/* The drawing stands for the kind: it has no sizes yet. */
static GtkWidget *
kind_card (TlOwnStock *own, TlPartKind kind, const char *name)
{
  GtkWidget *button = gtk_button_new (), *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2),
            *view = tl_part_view_new (), *label = gtk_label_new (name);
  g_autoptr (TlFacts) none = tl_facts_new ();

  tl_part_view_show_part (TL_PART_VIEW (view), tl_own_stock_stock (own), kind, none);
  gtk_widget_set_size_request (view, 96, 56);
  gtk_widget_set_vexpand (view, TRUE);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_widget_set_size_request (label, -1, 34);
  gtk_box_append (GTK_BOX (column), view);
  gtk_box_append (GTK_BOX (column), label);
  gtk_button_set_child (GTK_BUTTON (button), column);
  gtk_widget_add_css_class (button, "kind-card");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "own.add");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", tl_part_kind_word (kind));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return button;
}

static GtkWidget *
kind_cards (TlOwnStock *own, const TlLanguage *language)
{
  GtkWidget *flow = gtk_flow_box_new ();
  g_autoptr (TlFacts) none = tl_facts_new ();

  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (flow), GTK_SELECTION_NONE);
  gtk_flow_box_set_homogeneous (GTK_FLOW_BOX (flow), TRUE);
  gtk_flow_box_set_min_children_per_line (GTK_FLOW_BOX (flow), 3);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (flow), 7);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (flow), 10);
  gtk_flow_box_set_row_spacing (GTK_FLOW_BOX (flow), 10);
  gtk_widget_add_css_class (flow, "plain-flow");
  gtk_accessible_update_property (GTK_ACCESSIBLE (flow), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Make a part of your own"), -1);
  for (TlPartKind kind = 0; kind < TL_N_PART_KINDS; kind++)
    {
      g_autofree char *name = tl_part_name (kind, none, tl_own_stock_stock (own), language);
      GtkWidget       *card = kind_card (own, kind, name);

      gtk_flow_box_append (GTK_FLOW_BOX (flow), card);
      gtk_widget_set_focusable (gtk_widget_get_parent (card), FALSE);
    }
  return flow;
}

GtkWidget *
tl_own_start_new (TlOwnStock *own, const TlLanguage *language)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10),
            *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12),
            *import = gtk_button_new_with_label (_ ("Take a pack in…"));

  add_label (column, _ ("Make a part of your own"), "page-head");
  add_label (column,
             _ ("Choose what it is, then enter its sizes: the drawing follows them, and the part "
                "can be put into joints like any other. To start from a shipped part, find it on "
                "the left and copy it."),
             "muted");
  gtk_box_append (GTK_BOX (column), kind_cards (own, language));
  gtk_widget_set_margin_top (row, 8);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (import), "own.import");
  gtk_widget_add_css_class (import, "plain");
  gtk_widget_set_valign (import, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), import);
  gtk_widget_set_hexpand (
      add_label (row, _ ("Parts that somebody else wrote down come as a pack, one file."), "muted"),
      TRUE);
  gtk_box_append (GTK_BOX (column), row);
  return column;
}
