/* test-bench.c: the bench in a window: children, keyboard, dragging, refusals, undo.
 *
 * The outcomes of verdicts are those of the must-show list of the rules (IEC 60950-1 Annex J: aluminium on copper
 * 650 mV above 600 mV; a steel washer between them 200 and 450 mV), checked there; here it is checked that a drop and
 * a key press reach them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-item.h"
#include "app/place-card.h"
#include "joint/joint-file.h"
#include "ui-test.h"

#define WASHER "washer-plain-m5-steel"

static TlBench *
bench_of (TlWindow *window)
{
  return tl_build_page_bench (tl_window_build (window));
}

static char *
bytes_of (TlWindow *window)
{
  gsize length;

  return tl_joint_to_text (tl_document_joint (tl_window_document (window)), &length);
}

/* Index of the place in the stack at @at that takes the part being dragged; -1. */
static gint
find_place (TlWindow *window, const char *part, guint at)
{
  g_autoptr (GArray) places =
      tl_places_for (tl_document_verdict (tl_window_document (window))->assembly, part, NULL);

  for (guint i = 0; i < places->len; i++)
    {
      const TlPlace *place = &g_array_index (places, TlPlace, i);

      if (place->takes && place->seat.kind == TL_SEAT_STACK && place->seat.place == at)
        return (gint) i;
    }
  return -1;
}

/* Place between the two eyes: behind the first leg in the stack. */
static guint
between_eyes (TlWindow *window)
{
  const TlJoint *joint = tl_document_joint (tl_window_document (window));
  g_autoptr (GPtrArray) stack = tl_joint_stack (joint);

  for (guint i = 0; i < stack->len; i++)
    if (tl_joint_leg (joint, g_ptr_array_index (stack, i)) != NULL)
      return i + 1;
  g_assert_not_reached ();
}

static void
test_children (void)
{
  TlWindow      *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlBench       *bench = bench_of (window);
  const TlJoint *joint = tl_document_joint (tl_window_document (window));
  guint          bodies = 0, contacts = 0;

  gtk_test_accessible_assert_role (bench, GTK_ACCESSIBLE_ROLE_LIST);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (bench)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (TL_IS_BENCH_ITEM (child) && tl_bench_item_kind (TL_BENCH_ITEM (child)) != TL_ITEM_PLACE)
      {
        gtk_test_accessible_assert_role (child, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
        g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (child),
                                                         GTK_ACCESSIBLE_PROPERTY_LABEL));
        g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (child),
                                                         GTK_ACCESSIBLE_PROPERTY_DESCRIPTION));
        g_assert_true (gtk_widget_get_focusable (child));
        bodies += tl_bench_item_kind (TL_BENCH_ITEM (child)) == TL_ITEM_BODY;
        contacts += tl_bench_item_kind (TL_BENCH_ITEM (child)) == TL_ITEM_CONTACT;
      }
  g_assert_cmpuint (bodies, ==, joint->legs->len + joint->layers->len);
  g_assert_cmpuint (contacts, >, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_drag_between (void)
{
  TlWindow        *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlBench         *bench = bench_of (window);
  TlDocument      *document = tl_window_document (window);
  g_autofree char *before = bytes_of (window), *undone = NULL, *done = NULL, *redone = NULL;
  gint             place = find_place (window, WASHER, between_eyes (window));
  double           x, y;

  g_assert_cmpint (place, >=, 0);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_UNSAFE);
  g_assert_true (tl_bench_drag_begin (bench, WASHER, NULL));
  g_assert_true (ui_test_item (bench, TL_ITEM_PLACE, NULL, (guint) place, &x, &y));
  tl_bench_drag_motion (bench, x, y);
  ui_test_settle (window);
  g_assert_cmpstr (tl_bench_preview_word (bench), ==, "Watch");
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_UNSAFE);
  g_assert_true (ui_test_item (bench, TL_ITEM_PLACE, NULL, (guint) place, &x, &y));
  tl_bench_drag_motion (bench, x, y);
  tl_bench_drag_drop (bench);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_WATCH);
  done = bytes_of (window);

  tl_document_undo (document);
  undone = bytes_of (window);
  g_assert_cmpstr (undone, ==, before);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_UNSAFE);
  tl_document_redo (document);
  redone = bytes_of (window);
  g_assert_cmpstr (redone, ==, done);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_cancel (void)
{
  TlWindow        *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlBench         *bench = bench_of (window);
  g_autofree char *before = bytes_of (window), *after = NULL;
  gint             place = find_place (window, WASHER, between_eyes (window));
  double           x, y;

  g_assert_true (tl_bench_drag_begin (bench, WASHER, NULL));
  g_assert_true (ui_test_item (bench, TL_ITEM_PLACE, NULL, (guint) place, &x, &y));
  tl_bench_drag_motion (bench, x, y);
  ui_test_settle (window);
  tl_bench_drag_cancel (bench);
  /* The release that follows a cancelled drag counts for nothing. */
  tl_bench_drag_drop (bench);
  after = bytes_of (window);
  g_assert_cmpstr (after, ==, before);
  g_assert_null (tl_document_undo_label (tl_window_document (window)));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_drag_out (void)
{
  TlWindow   *window = ui_test_window ("zinc-washer.tinlap");
  TlBench    *bench = bench_of (window);
  TlDocument *document = tl_window_document (window);
  guint       layers = tl_document_joint (document)->layers->len;

  g_assert_true (tl_bench_drag_begin (bench, NULL, "layer-3"));
  tl_bench_drag_motion (bench, -50, 20);
  tl_bench_drag_drop (bench);
  g_assert_cmpuint (tl_document_joint (document)->layers->len, ==, layers - 1);
  g_assert_null (tl_joint_layer (tl_document_joint (document), "layer-3"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A drop over the bench where no place is under the pointer changes nothing. */
static void
test_drop_beside (void)
{
  TlWindow        *window = ui_test_window ("zinc-washer.tinlap");
  TlBench         *bench = bench_of (window);
  g_autofree char *before = bytes_of (window), *after = NULL;

  g_assert_true (tl_bench_drag_begin (bench, NULL, "layer-3"));
  tl_bench_drag_motion (bench, 5, 5);
  tl_bench_drag_drop (bench);
  after = bytes_of (window);
  g_assert_cmpstr (after, ==, before);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_keyboard (void)
{
  TlWindow        *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlBench         *bench = bench_of (window);
  TlDocument      *document = tl_window_document (window);
  g_autofree char *before = bytes_of (window), *after = NULL;
  guint            steps = 0;

  tl_bench_set_chosen_part (bench, WASHER);
  gtk_widget_grab_focus (GTK_WIDGET (bench));
  while (g_strcmp0 (tl_bench_preview_word (bench), "Watch") != 0 && steps++ < 40)
    gtk_widget_activate_action (GTK_WIDGET (bench), "bench.walk", "s", "on");
  g_assert_cmpstr (tl_bench_preview_word (bench), ==, "Watch");
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.insert", NULL);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_WATCH);
  g_assert_nonnull (tl_document_selected (document));
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.remove", NULL);
  g_assert_cmpint (tl_document_verdict (document)->severity, ==, TL_SEVERITY_UNSAFE);
  tl_document_undo (document);
  tl_document_undo (document);
  after = bytes_of (window);
  g_assert_cmpstr (after, ==, before);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_move (void)
{
  TlWindow   *window = ui_test_window ("zinc-washer.tinlap");
  TlDocument *document = tl_window_document (window);
  guint       place = tl_joint_seat (tl_document_joint (document), "layer-3")->place;

  tl_document_select (document, "layer-3");
  gtk_widget_activate_action (GTK_WIDGET (bench_of (window)), "bench.move", "s", "on");
  g_assert_cmpuint (tl_joint_seat (tl_document_joint (document), "layer-3")->place, ==, place + 1);
  gtk_widget_activate_action (GTK_WIDGET (bench_of (window)), "bench.move", "s", "back");
  g_assert_cmpuint (tl_joint_seat (tl_document_joint (document), "layer-3")->place, ==, place);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A conductor that lies beside the joint goes into a mouth of the sleeve by keyboard. */
static void
test_carry (void)
{
  TlWindow   *window = ui_test_window ("socket-circuit-weaving-floor.tinlap");
  TlBench    *bench = bench_of (window);
  TlDocument *document = tl_window_document (window);
  g_auto (TlSeat) beside = tl_seat_none ();
  TlJoint *loose = tl_edit_move (tl_document_joint (document), "leg-1", &beside, NULL);

  tl_document_take (document, loose, "lay beside", "leg-1", 0);
  g_assert_cmpint (tl_joint_seat (tl_document_joint (document), "leg-1")->kind, ==, TL_SEAT_NONE);
  gtk_widget_grab_focus (GTK_WIDGET (bench));
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.insert", NULL);
  g_assert_nonnull (tl_bench_preview_word (bench));
  gtk_widget_activate_action (GTK_WIDGET (bench), "bench.insert", NULL);
  g_assert_cmpint (tl_joint_seat (tl_document_joint (document), "leg-1")->kind, ==, TL_SEAT_PORT);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A part with no place says why, and changes nothing. */
static void
test_refusal (void)
{
  TlWindow        *window = ui_test_window ("copper-on-aluminium.tinlap");
  g_autofree char *before = bytes_of (window), *after = NULL;

  tl_bench_add_part (bench_of (window), "bolt-m5x16-steel");
  after = bytes_of (window);
  g_assert_cmpstr (after, ==, before);
  g_assert_nonnull (tl_window_last_message (window));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* One random act of a person: choose, add, move, copy, take out, drag, undo, redo. */
static void
act_at_random (TlWindow *window)
{
  TlBench         *bench = bench_of (window);
  TlDocument      *document = tl_window_document (window);
  const TlJoint   *joint = tl_document_joint (document);
  const GPtrArray *parts = tl_stock_parts (tl_document_stock (document));
  const TlPart    *part = g_ptr_array_index (parts, g_test_rand_int_range (0, (gint32) parts->len));
  static const char *const acts[] = { "bench.remove", "bench.duplicate", "bench.insert",
                                      "bench.cancel", "bench.explain" };

  if (joint->layers->len > 0)
    tl_document_select (document,
                        ((const TlLayer *) g_ptr_array_index (
                             joint->layers, g_test_rand_int_range (0, (gint32) joint->layers->len)))
                            ->id);
  switch (g_test_rand_int_range (0, 7))
    {
    case 0:
      gtk_widget_activate_action (GTK_WIDGET (bench),
                                  acts[g_test_rand_int_range (0, G_N_ELEMENTS (acts))], NULL);
      break;
    case 1:
      gtk_widget_activate_action (GTK_WIDGET (bench), "bench.move", "s",
                                  g_test_rand_bit () ? "on" : "back");
      break;
    case 2:
      tl_bench_set_chosen_part (bench, part->id);
      gtk_widget_activate_action (GTK_WIDGET (bench), "bench.walk", "s",
                                  g_test_rand_bit () ? "on" : "back");
      break;
    case 3:
      tl_bench_add_part (bench, part->id);
      break;
    case 4:
      tl_document_undo (document);
      break;
    case 5:
      tl_document_redo (document);
      break;
    default:
      if (!tl_bench_drag_begin (bench, g_test_rand_bit () ? part->id : NULL,
                                tl_document_selected (document)))
        break;
      tl_bench_drag_motion (bench, g_test_rand_double_range (-20, 600),
                            g_test_rand_double_range (-20, 500));
      tl_bench_drag_drop (bench);
    }
}

/* Whatever was done: undone to the start, the joint is the same to the byte. The seed is printed by the harness. */
static void
test_random_user (void)
{
  TlWindow        *window = ui_test_window ("bolted-as-it-should-be.tinlap");
  g_autofree char *before = bytes_of (window), *after = NULL;

  for (guint i = 0; i < 120; i++)
    {
      act_at_random (window);
      if (i % 40 == 0)
        ui_test_settle (window);
    }
  tl_bench_drag_cancel (bench_of (window));
  while (tl_document_undo_label (tl_window_document (window)) != NULL)
    tl_document_undo (tl_window_document (window));
  after = bytes_of (window);
  g_assert_cmpstr (after, ==, before);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_zoom (void)
{
  TlWindow *window = ui_test_window ("copper-on-aluminium.tinlap");
  TlBench  *bench = bench_of (window);
  double    fitted = tl_bench_scale (bench);

  tl_bench_zoom (bench, "in");
  g_assert_cmpfloat (tl_bench_scale (bench), >, fitted * 1.1);
  tl_bench_zoom (bench, "out");
  g_assert_cmpfloat_with_epsilon (tl_bench_scale (bench), fitted, 1e-6 * fitted);
  tl_bench_zoom (bench, "in");
  tl_bench_zoom (bench, "fit");
  g_assert_cmpfloat_with_epsilon (tl_bench_scale (bench), fitted, 1e-6 * fitted);
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/bench/children", test_children);
  g_test_add_func ("/bench/drag-between", test_drag_between);
  g_test_add_func ("/bench/cancel", test_cancel);
  g_test_add_func ("/bench/drag-out", test_drag_out);
  g_test_add_func ("/bench/drop-beside", test_drop_beside);
  g_test_add_func ("/bench/keyboard", test_keyboard);
  g_test_add_func ("/bench/move", test_move);
  g_test_add_func ("/bench/carry", test_carry);
  g_test_add_func ("/bench/refusal", test_refusal);
  g_test_add_func ("/bench/random-user", test_random_user);
  g_test_add_func ("/bench/zoom", test_zoom);
  return g_test_run ();
}
