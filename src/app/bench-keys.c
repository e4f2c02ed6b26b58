/* bench-keys.c: what the keyboard does on the bench: walking, and the edits of the selected layer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include <glib/gi18n.h>

/* --- walking: layers, contacts, and the gaps that take the chosen part --- */
typedef struct
{
  TlBenchItem *item; /* NULL: a gap */
  gint         place;
} Stop;

static void
add_stop (GArray *stops, TlBenchItem *item, gint place)
{
  Stop stop = { item, place };

  g_array_append_val (stops, stop);
}

/* Gaps of the stack stand before the layer that they precede; all other gaps behind the layers. While a layer is
 * moved, only gaps are stops. */
static GArray *
find_stops (TlBench *self, gboolean with_gaps)
{
  GArray *stops = g_array_new (FALSE, FALSE, sizeof (Stop));
  g_autoptr (GPtrArray) stack = tl_joint_stack (tl_document_joint (self->document));
  const GArray *places = with_gaps ? self->drag.places : NULL;
  gboolean      only_gaps = self->drag.is_active && self->drag.owner != NULL;

  for (guint i = 0; i < self->items->len; i++)
    {
      TlBenchItem *item = g_ptr_array_index (self->items, i);
      guint        at = G_MAXUINT;

      if (tl_bench_item_kind (item) != TL_ITEM_BODY)
        continue;
      g_ptr_array_find_with_equal_func (stack, tl_bench_item_owner (item), g_str_equal, &at);
      for (guint p = 0; places != NULL && p < places->len; p++)
        {
          const TlPlace *place = &g_array_index (places, TlPlace, p);

          if (place->takes && place->seat.kind == TL_SEAT_STACK && place->seat.place == at)
            add_stop (stops, NULL, (gint) p);
        }
      if (!only_gaps)
        add_stop (stops, item, -1);
    }
  for (guint p = 0; places != NULL && p < places->len; p++)
    {
      const TlPlace *place = &g_array_index (places, TlPlace, p);

      if (place->takes && (place->seat.kind != TL_SEAT_STACK || place->seat.place >= stack->len))
        add_stop (stops, NULL, (gint) p);
    }
  for (guint i = 0; i < self->items->len; i++)
    {
      TlBenchItem *item = g_ptr_array_index (self->items, i);

      if (!only_gaps && tl_bench_item_kind (item) == TL_ITEM_CONTACT)
        add_stop (stops, item, -1);
    }
  return stops;
}

static gint
find_here (TlBench *self, const GArray *stops)
{
  GtkWidget *focused = gtk_widget_get_focus_child (GTK_WIDGET (self));

  for (guint i = 0; i < stops->len; i++)
    {
      const Stop *stop = &g_array_index (stops, Stop, i);

      if (stop->item == NULL ? self->drag.open == stop->place
                             : self->drag.open < 0 && GTK_WIDGET (stop->item) == focused)
        return (gint) i;
    }
  return -1;
}

static void
stand_on (TlBench *self, const Stop *stop)
{
  if (stop->item != NULL)
    {
      tl_bench_drag_cancel (self);
      gtk_widget_grab_focus (GTK_WIDGET (stop->item));
      return;
    }
  tl_bench_open_place (self, stop->place);
  tl_bench_item_describe (self->gap, tl_place_card_text (self->card),
                          _ ("Enter puts the part in here."), 1, 1, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->gap));
}

static void
walk_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench *self = TL_BENCH (widget);
  gboolean is_forward = g_str_equal (g_variant_get_string (target, NULL), "on");
  gboolean with_gaps;
  g_autoptr (GArray) stops = NULL;
  gint here;

  if (self->document == NULL || tl_bench_is_dragging (self))
    return;
  with_gaps = tl_bench_walk_gaps (self);
  stops = find_stops (self, with_gaps);
  if (stops->len == 0)
    return;
  here = find_here (self, stops);
  here = here < 0 ? (is_forward ? 0 : (gint) stops->len - 1) : here + (is_forward ? 1 : -1);
  stand_on (self, &g_array_index (stops, Stop, CLAMP (here, 0, (gint) stops->len - 1)));
}

/* Takes a layer up, so that arrows carry it from gap to gap. */
static void
carry (TlBench *self, const char *owner)
{
  g_autofree char *kept = g_strdup (owner);
  g_autoptr (GArray) stops = NULL;

  if (!tl_bench_walk_owner (self, kept))
    return;
  stops = find_stops (self, TRUE);
  if (stops->len > 0)
    stand_on (self, &g_array_index (stops, Stop, 0));
  else
    {
      tl_bench_drag_cancel (self);
      tl_document_refuse (self->document, _ ("No place on the bench takes this part."));
    }
}

static gboolean
is_beside (TlBench *self, const char *owner)
{
  const TlSeat *seat =
      owner == NULL ? NULL : tl_joint_seat (tl_document_joint (self->document), owner);

  return seat != NULL && seat->kind == TL_SEAT_NONE;
}

/* Enter: into the gap; a part that lies beside the joint is taken up; on a layer, its explanation; on the
 * bare bench, where the part does best. */
static void
insert_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench   *self = TL_BENCH (widget);
  GtkWidget *focused = gtk_widget_get_focus_child (widget);

  if (self->drag.is_active && self->drag.by_keyboard && self->drag.open >= 0)
    tl_bench_drag_drop (self);
  else if (focused != NULL && is_beside (self, tl_document_selected (self->document)))
    carry (self, tl_document_selected (self->document));
  else if (focused != NULL)
    gtk_widget_activate_action (widget, "bench.explain", NULL);
  else if (self->chosen_part != NULL)
    tl_bench_add_part (self, self->chosen_part);
}

/* --- the selected layer --- */
static void
take (TlBench *self, TlJoint *after, const char *format_label, const char *owner, GError *error)
{
  if (after == NULL)
    {
      tl_document_refuse (self->document, error->message);
      return;
    }
  tl_document_take (self->document, after, format_label, owner, 0);
  if (owner != NULL)
    tl_bench_focus_owner (self, owner);
}

static void
move_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench      *self = TL_BENCH (widget);
  const char   *owner = tl_document_selected (self->document);
  gboolean      is_on = g_str_equal (g_variant_get_string (target, NULL), "on");
  const TlSeat *seat =
      owner == NULL ? NULL : tl_joint_seat (tl_document_joint (self->document), owner);
  g_autoptr (GPtrArray) stack = tl_joint_stack (tl_document_joint (self->document));
  g_autofree char *kept = g_strdup (owner), *label = NULL, *part = NULL;
  g_autoptr (GError) error = NULL;
  TlSeat to;

  if (seat != NULL && seat->kind != TL_SEAT_STACK)
    carry (self, owner);
  if (seat == NULL || seat->kind != TL_SEAT_STACK
      || (is_on ? seat->place + 1 >= stack->len : seat->place == 0))
    return;
  to = tl_seat_stack (is_on ? seat->place + 1 : seat->place - 1);
  part = tl_document_owner_name (self->document, owner);
  label = g_strdup_printf (_ ("Move: %s"), part);
  take (self, tl_edit_move (tl_document_joint (self->document), owner, &to, &error), label, kept,
        error);
  tl_seat_clear (&to);
}

static void
remove_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench         *self = TL_BENCH (widget);
  const char      *owner = tl_document_selected (self->document);
  g_autofree char *part = NULL, *label = NULL, *sentence = NULL;
  g_autoptr (GError) error = NULL;
  TlJoint *after;

  if (owner == NULL)
    return;
  part = tl_document_owner_name (self->document, owner);
  label = g_strdup_printf (_ ("Take out: %s"), part);
  sentence = g_strdup_printf (_ ("Taken out: %s."), part);
  after = tl_edit_remove (tl_document_joint (self->document), owner, &error);
  take (self, after, label, NULL, error);
  if (after != NULL)
    tl_document_tell (self->document, sentence);
}

static void
duplicate_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench         *self = TL_BENCH (widget);
  const char      *owner = tl_document_selected (self->document);
  g_autofree char *part = NULL, *label = NULL, *copy = NULL;
  g_autoptr (GError) error = NULL;
  TlJoint *after;

  if (owner == NULL)
    return;
  part = tl_document_owner_name (self->document, owner);
  label = g_strdup_printf (_ ("Copy: %s"), part);
  after = tl_edit_duplicate (tl_document_joint (self->document), owner, &copy, &error);
  take (self, after, label, copy, error);
}

static void
edit_action (GtkWidget *widget, const char *name, GVariant *target)
{
  tl_bench_emit_edit (TL_BENCH (widget));
}

static void
explain_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench   *self = TL_BENCH (widget);
  GtkWidget *focused = gtk_widget_get_focus_child (widget);

  if (TL_IS_BENCH_ITEM (focused) && tl_bench_item_kind (TL_BENCH_ITEM (focused)) == TL_ITEM_CONTACT)
    tl_bench_emit_contact (self, tl_bench_item_index (TL_BENCH_ITEM (focused)));
  else if (tl_document_selected (self->document) != NULL)
    tl_bench_emit_explain (self, tl_document_selected (self->document));
}

static void
cancel_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench *self = TL_BENCH (widget);

  if (self->drag.is_active)
    tl_bench_drag_cancel (self);
  else if (self->document != NULL)
    tl_document_select (self->document, NULL);
}

static void
menu_action (GtkWidget *widget, const char *name, GVariant *target)
{
  TlBench     *self = TL_BENCH (widget);
  const char  *owner = tl_document_selected (self->document);
  TlBenchItem *item = owner == NULL ? NULL : tl_bench_find_item (self, TL_ITEM_BODY, owner, 0);
  g_autoptr (GMenu) menu = g_menu_new ();
  graphene_rect_t at;

  if (item == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (item), widget, &at))
    return;
  g_menu_append (menu, _ ("Edit facts"), "bench.edit");
  g_menu_append (menu, _ ("Explain"), "bench.explain");
  g_menu_append (menu, _ ("Copy"), "bench.duplicate");
  g_menu_append (menu, _ ("Move towards the head"), "bench.move::back");
  g_menu_append (menu, _ ("Move towards the nut"), "bench.move::on");
  g_menu_append (menu, _ ("Take out"), "bench.remove");
  if (self->menu == NULL)
    {
      self->menu = GTK_POPOVER (gtk_popover_menu_new_from_model (G_MENU_MODEL (menu)));
      gtk_widget_set_parent (GTK_WIDGET (self->menu), widget);
    }
  gtk_popover_set_pointing_to (self->menu,
                               &(GdkRectangle){ (int) (at.origin.x + at.size.width / 2),
                                                (int) (at.origin.y + at.size.height / 2), 1, 1 });
  gtk_popover_popup (self->menu);
}

static void
bind (GtkWidgetClass *klass, guint key, GdkModifierType modifiers, const char *action,
      const char *target)
{
  if (target == NULL)
    gtk_widget_class_add_binding_action (klass, key, modifiers, action, NULL);
  else
    gtk_widget_class_add_binding_action (klass, key, modifiers, action, "s", target);
}

void
tl_bench_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "bench.walk", "s", walk_action);
  gtk_widget_class_install_action (klass, "bench.insert", NULL, insert_action);
  gtk_widget_class_install_action (klass, "bench.move", "s", move_action);
  gtk_widget_class_install_action (klass, "bench.remove", NULL, remove_action);
  gtk_widget_class_install_action (klass, "bench.duplicate", NULL, duplicate_action);
  gtk_widget_class_install_action (klass, "bench.edit", NULL, edit_action);
  gtk_widget_class_install_action (klass, "bench.explain", NULL, explain_action);
  gtk_widget_class_install_action (klass, "bench.cancel", NULL, cancel_action);
  gtk_widget_class_install_action (klass, "bench.menu", NULL, menu_action);
  tl_bench_overlay_install (klass);
  bind (klass, GDK_KEY_h, 0, "bench.overlay", "heat");
  bind (klass, GDK_KEY_c, 0, "bench.overlay", "current");
  bind (klass, GDK_KEY_w, 0, "bench.overlay", "wet");
  bind (klass, GDK_KEY_Up, 0, "bench.walk", "back");
  bind (klass, GDK_KEY_Left, 0, "bench.walk", "back");
  bind (klass, GDK_KEY_Down, 0, "bench.walk", "on");
  bind (klass, GDK_KEY_Right, 0, "bench.walk", "on");
  bind (klass, GDK_KEY_Up, GDK_ALT_MASK, "bench.move", "back");
  bind (klass, GDK_KEY_Left, GDK_ALT_MASK, "bench.move", "back");
  bind (klass, GDK_KEY_Down, GDK_ALT_MASK, "bench.move", "on");
  bind (klass, GDK_KEY_Right, GDK_ALT_MASK, "bench.move", "on");
  bind (klass, GDK_KEY_Return, 0, "bench.insert", NULL);
  bind (klass, GDK_KEY_KP_Enter, 0, "bench.insert", NULL);
  bind (klass, GDK_KEY_Delete, 0, "bench.remove", NULL);
  bind (klass, GDK_KEY_d, GDK_CONTROL_MASK, "bench.duplicate", NULL);
  bind (klass, GDK_KEY_F2, 0, "bench.edit", NULL);
  bind (klass, GDK_KEY_space, 0, "bench.explain", NULL);
  bind (klass, GDK_KEY_Escape, 0, "bench.cancel", NULL);
  bind (klass, GDK_KEY_Menu, 0, "bench.menu", NULL);
  bind (klass, GDK_KEY_F10, GDK_SHIFT_MASK, "bench.menu", NULL);
}
