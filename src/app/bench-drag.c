/* bench-drag.c: places and previews while a part is dragged, and the same by keyboard.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/bench-private.h"

#include <glib/gi18n.h>

/* Within so many px of an edge a drag scrolls a drawing that is larger than the window. */
static const double EDGE_PX = 24.0;
static const double EDGE_STEP_PX = 8.0;

/* --- a place opens in 120 ms, fast at first; at once where animations are off --- */
static const double OPENING_US = 120000.0;

static void
stop_opening (TlBench *self)
{
  if (self->opening_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->opening_tick);
  self->opening_tick = 0;
  self->opening_ratio = 1.0;
}

void
tl_bench_drag_init (TlBench *self)
{
  self->drag.open = -1;
  self->opening_ratio = 1.0;
}

void
tl_bench_drag_clear (TlBench *self)
{
  TlBenchDrag *drag = &self->drag;

  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  stop_opening (self);
  g_clear_pointer (&drag->part, g_free);
  g_clear_pointer (&drag->owner, g_free);
  g_clear_pointer (&drag->facts, tl_facts_unref);
  g_clear_pointer (&drag->places, g_array_unref);
  g_clear_pointer (&drag->previews, g_ptr_array_unref);
  g_clear_pointer (&drag->notes, g_ptr_array_unref);
  g_clear_pointer (&drag->severities, g_array_unref);
  drag->is_active = drag->by_keyboard = drag->is_inside = FALSE;
  drag->open = -1;
}

/* What is dragged, as kind and facts: enough to draw it. */
static gboolean
find_dragged (TlBench *self, const char *part, const char *owner)
{
  TlBenchDrag   *drag = &self->drag;
  const TlJoint *joint = tl_document_joint (self->document);
  const TlStock *stock = tl_document_effective_stock (self->document);
  const TlLayer *layer = owner == NULL ? NULL : tl_joint_layer (joint, owner);
  const TlLeg   *leg = owner == NULL ? NULL : tl_joint_leg (joint, owner);
  const char    *id = layer != NULL ? layer->part : leg != NULL ? leg->part : part;
  const TlPart  *info = id == NULL ? NULL : tl_stock_part (stock, id);
  const TlFacts *own = layer != NULL ? layer->facts : leg != NULL ? leg->facts : NULL;

  if (info == NULL && own == NULL)
    return FALSE;
  drag->kind = layer != NULL ? layer->kind : leg != NULL ? TL_PART_CONDUCTOR : info->kind;
  drag->facts = tl_facts_ref (info != NULL ? info->facts : own);
  for (guint i = 0; info != NULL && own != NULL && i < tl_facts_count (own); i++)
    {
      TlFacts *with = tl_facts_with (drag->facts, tl_facts_at (own, i));

      tl_facts_unref (drag->facts);
      drag->facts = with;
    }
  drag->part = g_strdup (id);
  drag->owner = g_strdup (owner);
  return TRUE;
}

static void
find_places (TlBench *self)
{
  TlBenchDrag *drag = &self->drag;

  drag->places =
      tl_places_for (tl_document_verdict (self->document)->assembly, drag->part, drag->owner);
  drag->previews = g_ptr_array_new_with_free_func ((GDestroyNotify) tl_preview_free);
  drag->notes = g_ptr_array_new_with_free_func (g_free);
  drag->severities = g_array_new (FALSE, TRUE, sizeof (TlSeverity));
  for (guint i = 0; i < drag->places->len; i++)
    {
      TlPlace   *place = &g_array_index (drag->places, TlPlace, i);
      TlPreview *preview = NULL;
      TlSeverity severity = TL_SEVERITY_SOUND;

      if (place->takes)
        preview = tl_preview_new (self->document, drag->part, drag->owner, &place->seat, NULL);
      place->takes = preview != NULL;
      if (preview != NULL)
        severity = preview->severity;
      g_ptr_array_add (drag->previews, preview);
      g_ptr_array_add (drag->notes, g_strdup (preview == NULL ? "" : preview->couple));
      g_array_append_val (drag->severities, severity);
    }
}

static gboolean
on_opening (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  TlBench *self = TL_BENCH (widget);
  gint64   now_us = gdk_frame_clock_get_frame_time (clock);
  double   left;

  if (self->opening_from_us == 0)
    self->opening_from_us = now_us;
  left = 1.0 - MIN (1.0, (double) (now_us - self->opening_from_us) / OPENING_US);
  self->opening_ratio = 1.0 - left * left * left;
  tl_bench_lay_out (self);
  if (left > 0.0)
    return G_SOURCE_CONTINUE;
  self->opening_tick = 0;
  return G_SOURCE_REMOVE;
}

static void
start_opening (TlBench *self)
{
  gboolean has_motion = FALSE;

  stop_opening (self);
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &has_motion,
                NULL);
  if (!has_motion || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  self->opening_ratio = 0.0;
  self->opening_from_us = 0;
  self->opening_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_opening, NULL, NULL);
}

void
tl_bench_open_place (TlBench *self, gint place)
{
  TlBenchDrag     *drag = &self->drag;
  const TlPreview *preview = NULL;

  if (place >= 0 && place < (gint) drag->previews->len)
    preview = g_ptr_array_index (drag->previews, place);
  if (preview == NULL)
    stop_opening (self);
  else if (place != drag->open)
    start_opening (self);
  drag->open = preview == NULL ? -1 : place;
  gtk_widget_set_visible (GTK_WIDGET (self->card), preview != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->gap), preview != NULL && drag->by_keyboard);
  if (preview != NULL)
    tl_place_card_show (self->card, self->document, preview,
                        &g_array_index (drag->places, TlPlace, place).seat);
  tl_bench_lay_out (self);
  tl_bench_emit_preview (self, preview == NULL ? NULL : preview->verdict);
}

/* Once per frame: the place under the pointer, and the edges. */
static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  TlBench     *self = TL_BENCH (widget);
  TlBenchDrag *drag = &self->drag;
  int          width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  gint         place = drag->is_inside && self->drawing != NULL
                           ? tl_drawing_place_at (self->drawing, drag->x, drag->y)
                           : -1;
  gboolean     scrolls = FALSE;

  if (self->zoom > 0.0 && drag->is_inside)
    {
      double dx = drag->x < EDGE_PX           ? EDGE_STEP_PX
                  : drag->x > width - EDGE_PX ? -EDGE_STEP_PX
                                              : 0.0;
      double dy = drag->y < EDGE_PX            ? EDGE_STEP_PX
                  : drag->y > height - EDGE_PX ? -EDGE_STEP_PX
                                               : 0.0;

      self->pan_x += dx;
      self->pan_y += dy;
      scrolls = dx != 0.0 || dy != 0.0;
    }
  if (place != drag->open)
    tl_bench_open_place (self, place);
  else
    tl_bench_lay_out (self);
  if (scrolls)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

gboolean
tl_bench_drag_begin (TlBench *self, const char *part, const char *owner)
{
  if (self->drag.is_active)
    tl_bench_drag_cancel (self);
  self->drag_cancelled = FALSE;
  if (self->document == NULL || !find_dragged (self, part, owner))
    return FALSE;
  find_places (self);
  self->drag.is_active = TRUE;
  if (self->ghost != NULL)
    tl_ghost_show (self->ghost, tl_document_effective_stock (self->document), self->drag.kind,
                   self->drag.facts, tl_bench_scale (self));
  tl_bench_lay_out (self);
  return TRUE;
}

void
tl_bench_drag_motion (TlBench *self, double x, double y)
{
  TlBenchDrag *drag = &self->drag;

  if (!drag->is_active)
    return;
  drag->x = x;
  drag->y = y;
  drag->is_inside = gtk_widget_contains (GTK_WIDGET (self), x, y);
  if (self->ghost != NULL)
    tl_ghost_move (self->ghost, GTK_WIDGET (self), x, y);
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_tick, NULL, NULL);
}

static void
end (TlBench *self)
{
  gboolean had_focus = gtk_widget_has_focus (GTK_WIDGET (self->gap));

  tl_bench_drag_clear (self);
  if (self->ghost != NULL)
    tl_ghost_hide (self->ghost);
  gtk_widget_set_visible (GTK_WIDGET (self->card), FALSE);
  if (had_focus)
    gtk_widget_grab_focus (GTK_WIDGET (self));
  gtk_widget_set_visible (GTK_WIDGET (self->gap), FALSE);
  tl_bench_lay_out (self);
  tl_bench_emit_preview (self, NULL);
}

static void
take_out (TlBench *self, const char *owner)
{
  g_autofree char *name = tl_document_owner_name (self->document, owner);
  g_autofree char *label = g_strdup_printf (_ ("Take out: %s"), name);
  g_autofree char *sentence = g_strdup_printf (_ ("Taken out: %s."), name);
  g_autoptr (GError) error = NULL;
  TlJoint *after = tl_edit_remove (tl_document_joint (self->document), owner, &error);

  if (after == NULL)
    tl_document_refuse (self->document, error->message);
  else
    {
      tl_document_take (self->document, after, label, NULL, 0);
      tl_document_tell (self->document, sentence);
    }
}

/* Commits the open place. The preview already holds the joint after it. */
static void
commit (TlBench *self)
{
  TlBenchDrag     *drag = &self->drag;
  const TlPreview *preview = g_ptr_array_index (drag->previews, drag->open);
  g_autoptr (TlJoint) joint = tl_joint_ref (preview->joint);
  g_autofree char *owner = g_strdup (preview->owner);
  g_autofree char *name = tl_assembly_owner_name (preview->verdict->assembly, owner,
                                                  tl_document_language (self->document));
  gboolean         is_move = drag->owner != NULL;
  g_autofree char *label =
      is_move ? g_strdup_printf (_ ("Move: %s"), name) : g_strdup_printf (_ ("Put in: %s"), name);
  g_autofree char *sentence = is_move ? g_strdup_printf (_ ("Moved: %s."), name)
                                      : g_strdup_printf (_ ("Put in: %s."), name);
  gboolean         by_keyboard = drag->by_keyboard;

  end (self);
  tl_document_take (self->document, g_steal_pointer (&joint), label, owner, 0);
  tl_document_tell (self->document, sentence);
  if (by_keyboard)
    tl_bench_focus_owner (self, owner);
}

void
tl_bench_drag_drop (TlBench *self)
{
  TlBenchDrag     *drag = &self->drag;
  g_autofree char *owner = g_strdup (drag->owner);
  gboolean         is_inside = drag->is_inside;

  if (!drag->is_active)
    return;
  /* The last motion may not have had its frame yet. */
  if (!drag->by_keyboard && is_inside && self->drawing != NULL)
    {
      gint place = tl_drawing_place_at (self->drawing, drag->x, drag->y);

      if (place != drag->open)
        tl_bench_open_place (self, place);
    }
  if (drag->open >= 0)
    {
      commit (self);
      return;
    }
  end (self);
  if (owner != NULL && !is_inside)
    take_out (self, owner);
}

void
tl_bench_drag_cancel (TlBench *self)
{
  if (!self->drag.is_active)
    return;
  /* The pointer may still be down: what it does until it is released counts for nothing. */
  self->drag_cancelled = TRUE;
  end (self);
}

gboolean
tl_bench_is_dragging (TlBench *self)
{
  return self->drag.is_active && !self->drag.by_keyboard;
}

/* --- the same by keyboard --- */
gboolean
tl_bench_walk_gaps (TlBench *self)
{
  TlBenchDrag *drag = &self->drag;

  if (drag->is_active)
    return drag->by_keyboard;
  if (self->chosen_part == NULL || !find_dragged (self, self->chosen_part, NULL))
    return FALSE;
  find_places (self);
  drag->is_active = drag->by_keyboard = TRUE;
  return TRUE;
}

gboolean
tl_bench_walk_owner (TlBench *self, const char *owner)
{
  if (self->drag.is_active)
    tl_bench_drag_cancel (self);
  if (!find_dragged (self, NULL, owner))
    return FALSE;
  find_places (self);
  self->drag.is_active = self->drag.by_keyboard = TRUE;
  return TRUE;
}

void
tl_bench_set_chosen_part (TlBench *self, const char *part)
{
  if (g_strcmp0 (part, self->chosen_part) == 0)
    return;
  if (self->drag.is_active && self->drag.by_keyboard)
    tl_bench_drag_cancel (self);
  g_free (self->chosen_part);
  self->chosen_part = g_strdup (part);
}

/* The worst of a whole verdict as a number to be made least; Unfinished counts as worse than all. */
static guint
badness (const TlVerdict *verdict)
{
  static const guint weights[] = { 0, 1, 100, 10000 };
  guint              bad = 0;

  for (TlSeverity s = TL_SEVERITY_WATCH; s <= TL_SEVERITY_UNSAFE; s++)
    bad += tl_verdict_count (verdict, s) * weights[s];
  return bad + verdict->unfinished->len * 1000000;
}

/* The mouth that another conductor is in already. */
static gboolean
is_taken (TlBench *self, const TlSeat *seat)
{
  const GPtrArray *legs = tl_document_joint (self->document)->legs;

  for (guint i = 0; seat->kind == TL_SEAT_PORT && i < legs->len; i++)
    if (tl_seat_equal (&((const TlLeg *) g_ptr_array_index (legs, i))->seat, seat))
      return TRUE;
  return FALSE;
}

/* Where what is dragged does best; -1 if nothing takes it. A mouth of its own before one that is taken. */
static gint
find_best (TlBench *self)
{
  TlBenchDrag *drag = &self->drag;
  guint        least = G_MAXUINT;
  gboolean     best_is_taken = TRUE;
  gint         best = -1;

  for (guint i = 0; i < drag->previews->len; i++)
    {
      const TlPreview *preview = g_ptr_array_index (drag->previews, i);
      gboolean         taken = is_taken (self, &g_array_index (drag->places, TlPlace, i).seat);

      if (preview == NULL || (best >= 0 && taken && !best_is_taken)
          || (taken == best_is_taken && badness (preview->verdict) >= least))
        continue;
      least = badness (preview->verdict);
      best_is_taken = taken;
      best = (gint) i;
    }
  return best;
}

/* Puts what is dragged where it does best; a refusal goes to the document as a sentence. */
static void
put_best (TlBench *self)
{
  TlBenchDrag     *drag = &self->drag;
  gint             best = find_best (self);
  g_autofree char *refusal = NULL;

  if (best < 0)
    {
      refusal = drag->places->len > 0 ? tl_place_refusal (&g_array_index (drag->places, TlPlace, 0),
                                                          tl_document_language (self->document))
                                      : g_strdup (_ ("No place on the bench takes this part."));
      end (self);
      tl_document_refuse (self->document, refusal);
      return;
    }
  drag->open = best;
  commit (self);
}

void
tl_bench_add_part (TlBench *self, const char *part)
{
  if (tl_bench_drag_begin (self, part, NULL))
    put_best (self);
}

void
tl_bench_put_in (TlBench *self, const char *owner)
{
  if (tl_bench_drag_begin (self, NULL, owner))
    put_best (self);
}

const char *
tl_bench_preview_word (TlBench *self)
{
  const TlPreview *preview =
      self->drag.open < 0 ? NULL : g_ptr_array_index (self->drag.previews, self->drag.open);

  return preview == NULL ? NULL : tl_verdict_word (preview->verdict);
}

const char *
tl_bench_chosen_part (TlBench *self)
{
  return self->chosen_part;
}
