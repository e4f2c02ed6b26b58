/* terminal.c: screw, spring and device terminals and branch connectors laid out along their bores.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "assembly/terminal-private.h"

#include <math.h>
#include <string.h>

/* Wall between a bore and the outside where width or height are not known; a drawing convention. */
#define WALL_DRAWN_RATIO 0.35
#define WALL_DRAWN_LEAST_MM 1.0

/* --- which layer --- */

static gboolean
is_terminal (const TlLayer *layer)
{
  return layer != NULL && (layer->kind == TL_PART_TERMINAL || layer->kind == TL_PART_BRANCH);
}

/* The first with a conductor in it, else the first; the others are told. */
static const TlLayer *
find_terminal (TlAssembly *self)
{
  const TlLayer *found = NULL;

  for (guint i = 0; i < self->joint->legs->len && !is_terminal (found); i++)
    {
      const TlSeat *seat = &((const TlLeg *) self->joint->legs->pdata[i])->seat;

      found = seat->kind == TL_SEAT_PORT ? tl_joint_layer (self->joint, seat->of) : NULL;
    }
  if (!is_terminal (found))
    found = NULL;
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (!is_terminal (layer))
        continue;
      if (found == NULL)
        found = layer;
      else if (layer != found)
        tl_assembly_problem (self, layer->id, FALSE,
                             TL_N_ ("{part}: the joint has a terminal already."), TL_N_FIELDS, NAN,
                             NAN);
    }
  return found;
}

static TlClamp
clamp_of (const char *form)
{
  if (form == NULL || strcmp (form, "tunnel") == 0)
    return TL_CLAMP_TUNNEL;
  if (strcmp (form, "leaf-spring") == 0 || strcmp (form, "cage-spring") == 0)
    return TL_CLAMP_SPRING;
  return strcmp (form, "piercing") == 0 ? TL_CLAMP_TEETH : TL_CLAMP_SADDLE;
}

static gboolean
sits_in (const TlTerminalBuild *build, const TlSeat *seat)
{
  return seat->kind == TL_SEAT_PORT && g_strcmp0 (seat->of, build->layer->id) == 0;
}

static guint
highest_port (const TlTerminalBuild *build)
{
  const TlJoint *joint = build->assembly->joint;
  guint          most = 1;

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlSeat *seat = &((const TlLeg *) joint->legs->pdata[i])->seat;

      if (sits_in (build, seat))
        most = MAX (most, seat->place);
    }
  return MIN (most, TL_MAX_LEGS);
}

/* Outside of the metal about one bore: its share of the whole, or a drawn wall. */
static gboolean
metal_about (TlTerminalBuild *build, TlField field, guint shares, double *size_mm)
{
  double whole = tl_layer_number (build->layer, build->assembly->stock, field, 0.0);

  *size_mm = whole > 0.0 ? whole / shares
                         : build->bore_mm
                               + 2.0 * MAX (WALL_DRAWN_LEAST_MM, WALL_DRAWN_RATIO * build->bore_mm);
  if (*size_mm > build->bore_mm + TL_SAME_PLACE_MM)
    return TRUE;
  tl_assembly_problem (build->assembly, build->layer->id, FALSE,
                       TL_N_ ("{part} has no metal: bore {a}, outside {b}."), field, build->bore_mm,
                       *size_mm);
  return FALSE;
}

static gboolean
read_layer (TlTerminalBuild *build)
{
  TlAssembly    *self = build->assembly;
  const TlLayer *layer = build->layer;
  const char    *form = tl_layer_word (layer, self->stock, TL_FIELD_TERMINAL_FORM, NULL);
  gboolean       is_known = tl_assembly_need_layer (self, layer, TL_FIELD_TERMINAL_FORM, NULL);
  guint          used = highest_port (build);

  build->is_branch = layer->kind == TL_PART_BRANCH;
  build->clamp = clamp_of (form);
  is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_BORE, &build->bore_mm);
  is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_LENGTH, &build->length_mm);
  is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_MATERIAL, NULL);
  if (build->clamp != TL_CLAMP_SPRING)
    is_known &= tl_assembly_need_layer (self, layer, TL_FIELD_THREAD, &build->thread_mm);
  if (!is_known)
    return FALSE;
  build->ports = (guint) tl_layer_number (layer, self->stock, TL_FIELD_PORTS,
                                          build->is_branch ? MAX (used, 3) : used);
  if (used > build->ports)
    {
      tl_assembly_problem (self, layer->id, FALSE,
                           TL_N_ ("{part} has fewer mouths than its conductors need."),
                           TL_FIELD_PORTS, NAN, NAN);
      build->ports = used;
    }
  build->ports = CLAMP (build->ports, 1, TL_MAX_LEGS);
  build->rows = build->ports > 2 ? 2 : 1;
  build->columns = (build->ports + 3) / 4;
  return metal_about (build, TL_FIELD_HEIGHT, build->rows, &build->row_mm)
         && metal_about (build, TL_FIELD_WIDTH, build->columns, &build->column_mm);
}

/* --- mouths --- */

static gboolean
is_used (const TlTerminalBuild *build, guint port)
{
  const TlJoint *joint = build->assembly->joint;

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlSeat *seat = &((const TlLeg *) joint->legs->pdata[i])->seat;

      if (sits_in (build, seat) && seat->place == port)
        return TRUE;
    }
  return FALSE;
}

/* The main conductor of a branch goes in by mouth 1 and out by 2, unless another end comes in there. */
static gboolean
is_through (const TlTerminalBuild *build, guint port)
{
  return build->is_branch && port == 1 && !is_used (build, 2);
}

static void
set_mouths (TlTerminalBuild *build)
{
  TlAssembly *self = build->assembly;
  double      screws = tl_layer_number (build->layer, self->stock, TL_FIELD_SCREWS, 1.0);
  double      middle = build->length_mm / 2.0;

  for (guint port = 1; port <= build->ports; port++)
    {
      TlMouth *mouth = &build->mouths[port - 1];
      guint    row = (port - 1) / 2, other = port % 2 == 1 ? port + 1 : port - 1;
      gboolean is_whole = is_through (build, port) || other > build->ports
                          || (build->is_branch && row > 0 && !is_used (build, other));

      *mouth = (TlMouth){
        .port = port, .to_mm = build->length_mm, .clamp = TL_NO_BODY, .plate = TL_NO_BODY
      };
      if (!is_whole && port % 2 == 1)
        mouth->to_mm = middle;
      else if (!is_whole)
        mouth->from_mm = middle;
      mouth->side = row % 2 == 0 ? 1.0 : -1.0;
      mouth->y_mm = (row / 2) * build->column_mm;
      mouth->z_mm = row % 2 == 0 ? 0.0 : build->row_mm;
      mouth->screws =
          build->clamp == TL_CLAMP_SPRING ? 1 : (guint) CLAMP (screws, 1.0, TL_MAX_SCREWS);
      for (guint i = 0; i < mouth->screws; i++)
        mouth->screw_x_mm[i] =
            mouth->from_mm + (mouth->to_mm - mouth->from_mm) * (i + 0.5) / mouth->screws;
    }
}

/* A whole bore has one clamp: that of the mouth it is entered by. */
static gboolean
has_clamp (const TlTerminalBuild *build, guint port)
{
  guint other = port % 2 == 1 ? port + 1 : port - 1;

  if (is_through (build, port % 2 == 1 ? port : other))
    return port % 2 == 1;
  return !(build->is_branch && port > 2 && !is_used (build, port)
           && (port % 2 == 0 || is_used (build, other)));
}

/* --- conductors --- */

/* How far a conductor goes in: stated, else as far as the bare metal or its half of the bore lets it. */
static gboolean
find_insertion (TlTerminalBuild *build, TlTerminalEntry *entry)
{
  TlAssembly    *self = build->assembly;
  const TlMouth *mouth = &build->mouths[entry->mouth];
  const TlFact  *stated = tl_leg_fact (entry->leg, self->stock, TL_FIELD_INSERTION);
  double         room = mouth->to_mm - mouth->from_mm;

  if (build->clamp == TL_CLAMP_TEETH)
    {
      entry->inserted_mm = stated != NULL ? MIN (stated->value.best, build->length_mm) : room;
      entry->strip_mm = 0.0;
      return TRUE;
    }
  if (!tl_assembly_need_leg (self, entry->leg, TL_FIELD_STRIP, &entry->strip_mm))
    return FALSE;
  entry->inserted_mm = stated != NULL ? stated->value.best : MIN (entry->strip_mm, room);
  if (entry->passes && entry->strip_mm < build->length_mm - TL_SAME_PLACE_MM)
    tl_assembly_problem (
        self, entry->leg->id, FALSE,
        TL_N_ ("{part} is to go through {b} of metal but is stripped for {a} only."),
        TL_FIELD_STRIP, entry->strip_mm, build->length_mm);
  if (entry->inserted_mm > entry->strip_mm + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, entry->leg->id, FALSE,
                           TL_N_ ("{part} is to go in {a} but is stripped for {b} only."),
                           TL_FIELD_INSERTION, entry->inserted_mm, entry->strip_mm);
      entry->inserted_mm = entry->strip_mm;
    }
  entry->inserted_mm = MIN (entry->inserted_mm, build->length_mm);
  return TRUE;
}

static void
set_extent (const TlTerminalBuild *build, TlTerminalEntry *entry)
{
  const TlMouth *mouth = &build->mouths[entry->mouth];
  double         tail = MAX (0.0, entry->strip_mm - entry->inserted_mm), spare;

  entry->start_mm = -tail;
  entry->end_mm = entry->inserted_mm;
  if (entry->passes)
    {
      spare = build->clamp == TL_CLAMP_TEETH ? 0.0
                                             : MAX (0.0, entry->strip_mm - build->length_mm) / 2.0;
      entry->start_mm = -spare;
      entry->end_mm = build->length_mm + spare;
    }
  else if (mouth->port % 2 == 0)
    {
      entry->start_mm = build->length_mm - entry->inserted_mm;
      entry->end_mm = build->length_mm + tail;
    }
}

static void
take_entry (TlTerminalBuild *build, const TlLeg *leg)
{
  TlAssembly     *self = build->assembly;
  const TlLayer  *ferrule = tl_assembly_layer_on (self, leg->id, TL_PART_FERRULE);
  TlTerminalEntry entry = {
    .leg = leg, .mouth = leg->seat.place - 1, .body = TL_NO_BODY, .ferrule = TL_NO_BODY
  };

  entry.wire_mm = entry.metal_mm = ferrule != NULL ? tl_leg_metal_diameter_mm (self, leg)
                                                   : tl_leg_in_bore_mm (self, leg, build->bore_mm);
  if (ferrule != NULL)
    entry.metal_mm =
        MAX (entry.wire_mm, tl_layer_number (ferrule, self->stock, TL_FIELD_OUTER, 0.0));
  entry.insulated_mm = tl_leg_insulation_diameter_mm (self, leg);
  entry.held_mm =
      build->clamp == TL_CLAMP_TEETH ? MAX (entry.insulated_mm, entry.metal_mm) : entry.metal_mm;
  entry.passes = is_through (build, leg->seat.place);
  if (entry.wire_mm <= 0.0 || tl_leg_fact (leg, self->stock, TL_FIELD_METAL) == NULL
      || !find_insertion (build, &entry) || build->n_entries == TL_MAX_LEGS)
    return;
  if (entry.held_mm > build->bore_mm + TL_SAME_PLACE_MM)
    {
      tl_assembly_problem (self, leg->id, FALSE,
                           TL_N_ ("{part} does not go into the terminal: metal {a}, bore {b}."),
                           TL_FIELD_METAL_DIAMETER, entry.held_mm, build->bore_mm);
      return;
    }
  set_extent (build, &entry);
  build->mouths[entry.mouth].legs++;
  build->entries[build->n_entries++] = entry;
}

static void
take_entries (TlTerminalBuild *build)
{
  const TlJoint *joint = build->assembly->joint;

  for (guint port = 1; port <= build->ports; port++)
    for (guint i = 0; i < joint->legs->len; i++)
      {
        const TlLeg *leg = joint->legs->pdata[i];

        if (sits_in (build, &leg->seat) && leg->seat.place == port)
          take_entry (build, leg);
      }
}

/* TRUE if conductors of both mouths of a bore lie beside each other. */
static gboolean
overlaps (const TlTerminalBuild *build, guint row)
{
  double deepest[2] = { 0.0, 0.0 };

  for (guint i = 0; i < build->n_entries; i++)
    if (build->entries[i].mouth / 2 == row)
      deepest[build->entries[i].mouth % 2] =
          MAX (deepest[build->entries[i].mouth % 2], build->entries[i].inserted_mm);
  return deepest[0] > 0.0 && deepest[1] > 0.0
         && deepest[0] + deepest[1] > build->length_mm + TL_SAME_PLACE_MM;
}

/* Side by side: on the floor of a square channel, in a round bore as close as they go and let down. */
static double
lay_side_by_side (const TlTerminalBuild *build, TlCircle *circles, guint count)
{
  double needed = 0.0, y;

  if (build->clamp == TL_CLAMP_TUNNEL)
    {
      needed = tl_pack_circles (circles, count);
      for (guint i = 0; i < count; i++)
        circles[i] = (TlCircle){ -circles[i].z_mm, circles[i].y_mm, circles[i].diameter_mm };
      if (needed <= build->bore_mm + TL_SAME_PLACE_MM)
        tl_drop_circles (circles, count, build->bore_mm);
      return needed;
    }
  for (guint i = 0; i < count; i++)
    needed += circles[i].diameter_mm;
  y = -needed / 2.0;
  for (guint i = 0; i < count; i++)
    {
      circles[i].y_mm = y + circles[i].diameter_mm / 2.0;
      circles[i].z_mm = (build->bore_mm - circles[i].diameter_mm) / 2.0;
      y += circles[i].diameter_mm;
    }
  return needed;
}

/* Mouths @first to @last share the room across. */
static void
pack_mouths (TlTerminalBuild *build, guint first, guint last)
{
  TlCircle circles[TL_MAX_LEGS];
  guint    which[TL_MAX_LEGS], count = 0;
  double   needed;

  for (guint i = 0; i < build->n_entries; i++)
    if (build->entries[i].mouth >= first && build->entries[i].mouth <= last)
      {
        circles[count] = (TlCircle){ 0.0, 0.0, build->entries[i].held_mm };
        which[count++] = i;
      }
  needed = count > 0 ? lay_side_by_side (build, circles, count) : 0.0;
  if (needed > build->bore_mm + TL_SAME_PLACE_MM)
    tl_assembly_problem (
        build->assembly, build->layer->id, FALSE,
        TL_N_ ("{part} does not take its conductors side by side: they need {a}, its bore is {b}."),
        TL_FIELD_BORE, needed, build->bore_mm);
  for (guint i = 0; i < count; i++)
    {
      TlTerminalEntry *entry = &build->entries[which[i]];
      const TlMouth   *mouth = &build->mouths[entry->mouth];

      entry->y_mm = mouth->y_mm + circles[i].y_mm;
      entry->z_mm = mouth->z_mm + mouth->side * circles[i].z_mm;
    }
}

static void
pack_entries (TlTerminalBuild *build)
{
  for (guint first = 0; first < build->ports; first += 2)
    if (overlaps (build, first / 2))
      pack_mouths (build, first, first + 1);
    else
      {
        pack_mouths (build, first, first);
        pack_mouths (build, first + 1, first + 1);
      }
}

/* --- what presses on them --- */

/* Room along the bore in which a conductor has to lie to be held: about the screws, plate or spring of its mouth. */
static gboolean
reaches (const TlMouth *mouth, const TlTerminalEntry *entry)
{
  for (guint i = 0; i < mouth->screws; i++)
    if (mouth->screw_x_mm[i] > entry->start_mm && mouth->screw_x_mm[i] < entry->end_mm)
      return TRUE;
  return FALSE;
}

/* Local height of the side of a conductor that is turned to the screw. */
static double
crest (const TlMouth *mouth, const TlTerminalEntry *entry)
{
  return mouth->side * (entry->z_mm - mouth->z_mm) - entry->held_mm / 2.0;
}

static void
find_tips (TlTerminalBuild *build)
{
  for (guint i = 0; i < build->ports; i++)
    {
      TlMouth *mouth = &build->mouths[i];
      gboolean is_met = FALSE;

      mouth->tip_mm = build->bore_mm / 2.0;
      for (guint k = 0; k < build->n_entries; k++)
        {
          TlTerminalEntry *entry = &build->entries[k];

          if (entry->mouth / 2 != i / 2 || !reaches (mouth, entry))
            continue;
          entry->is_held = TRUE;
          /* The tip of a screw meets only what lies under it. */
          if (build->clamp == TL_CLAMP_TUNNEL
              && fabs (entry->y_mm - mouth->y_mm) >= build->thread_mm / 2.0)
            continue;
          is_met = TRUE;
          mouth->tip_mm = MIN (mouth->tip_mm, crest (mouth, entry));
        }
      if (!is_met)
        mouth->tip_mm =
            -build->bore_mm / 2.0 + (build->clamp == TL_CLAMP_TUNNEL ? 0.0 : TL_PLATE_DRAWN_MM);
    }
  for (guint k = 0; k < build->n_entries; k++)
    {
      const TlTerminalEntry *entry = &build->entries[k];
      const TlMouth         *mouth = &build->mouths[entry->mouth];
      double                 at = mouth->screw_x_mm[mouth->port % 2 == 1 ? 0 : mouth->screws - 1];

      if (!entry->is_held)
        tl_assembly_problem (
            build->assembly, entry->leg->id, FALSE,
            TL_N_ ("{part} goes in {a} and is not held: what presses on it begins at {b}."),
            TL_FIELD_INSERTION, entry->inserted_mm,
            mouth->port % 2 == 1 ? at : build->length_mm - at);
    }
}

/* --- the whole --- */

static void
seal_terminal (TlTerminalBuild *build)
{
  TlAssembly  *self = build->assembly;
  TlSealTarget target = { .middle_mm = MAX (self->packed_width_mm, self->packed_height_mm),
                          .end_mm = build->length_mm,
                          .bare_end_mm = build->length_mm };

  for (guint side = 0; side < 2; side++)
    {
      TlCircle circles[TL_MAX_LEGS];
      guint    count = 0;

      for (guint i = 0; i < build->n_entries; i++)
        {
          const TlTerminalEntry *entry = &build->entries[i];

          if (entry->mouth % 2 != side && !entry->passes)
            continue;
          circles[count++].diameter_mm = MAX (entry->insulated_mm, entry->wire_mm);
          target.bare_start_mm = MIN (target.bare_start_mm, entry->start_mm);
          target.bare_end_mm = MAX (target.bare_end_mm, entry->end_mm);
        }
      target.conductors[side] = count;
      target.mouth_mm[side] = tl_pack_circles (circles, count);
    }
  tl_seal_build (self, &target);
}

static void
place_in_order (TlTerminalBuild *build)
{
  TlAssembly *self = build->assembly;

  for (guint i = 0; i < build->n_entries; i++)
    if (build->entries[i].mouth % 2 == 0)
      tl_assembly_place (self, build->entries[i].leg->id);
  tl_assembly_place (self, build->layer->id);
  for (guint i = 0; i < self->joint->layers->len; i++)
    {
      const TlLayer *layer = self->joint->layers->pdata[i];

      if (layer->kind == TL_PART_COMPOUND && sits_in (build, &layer->seat))
        tl_assembly_place (self, layer->id);
    }
  for (guint i = 0; i < build->n_entries; i++)
    tl_assembly_place (self, build->entries[i].leg->id);
}

void
tl_terminal_build (TlAssembly *self)
{
  TlTerminalBuild build = { .assembly = self, .layer = find_terminal (self), .metal = TL_NO_BODY };

  self->terminal.terminal = build.layer->id;
  if (!read_layer (&build))
    return;
  set_mouths (&build);
  for (guint port = 1; port <= build.ports; port++)
    if (!has_clamp (&build, port))
      build.mouths[port - 1].screws = 0;
  take_entries (&build);
  pack_entries (&build);
  find_tips (&build);
  tl_terminal_figures (&build);
  tl_terminal_lay_metal (&build);
  tl_terminal_lay_housing (&build);
  tl_terminal_packed_sizes (&build);
  tl_terminal_lay_entries (&build);
  tl_terminal_lay_compound (&build);
  place_in_order (&build);
  seal_terminal (&build);
  tl_terminal_contacts (&build);
}
