/* seat.c: where a leg or a layer sits, as a small value.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint/edit.h"
#include "joint/joint-private.h"

TlSeat
tl_seat_none (void)
{
  return (TlSeat){ .kind = TL_SEAT_NONE };
}

TlSeat
tl_seat_stack (guint place)
{
  return (TlSeat){ .kind = TL_SEAT_STACK, .place = place };
}

TlSeat
tl_seat_on (const char *of)
{
  return (TlSeat){ .kind = TL_SEAT_ON, .of = g_strdup (of) };
}

TlSeat
tl_seat_around (const char *from, const char *to)
{
  return (TlSeat){ .kind = TL_SEAT_AROUND, .from = g_strdup (from), .to = g_strdup (to) };
}

TlSeat
tl_seat_port (const char *of, guint port)
{
  return (TlSeat){ .kind = TL_SEAT_PORT, .place = port, .of = g_strdup (of) };
}

TlSeat
tl_seat_copy (const TlSeat *seat)
{
  return (TlSeat){
    .kind = seat->kind,
    .place = seat->place,
    .of = g_strdup (seat->of),
    .from = g_strdup (seat->from),
    .to = g_strdup (seat->to),
  };
}

void
tl_seat_clear (TlSeat *seat)
{
  g_free (seat->of);
  g_free (seat->from);
  g_free (seat->to);
  *seat = tl_seat_none ();
}

gboolean
tl_seat_equal (const TlSeat *a, const TlSeat *b)
{
  return a->kind == b->kind && a->place == b->place && g_strcmp0 (a->of, b->of) == 0
         && g_strcmp0 (a->from, b->from) == 0 && g_strcmp0 (a->to, b->to) == 0;
}

const char *const *
tl_seat_words (void)
{
  static const char *const words[] = {
    [TL_SEAT_NONE] = "none",     [TL_SEAT_STACK] = "stack", [TL_SEAT_ON] = "on",
    [TL_SEAT_AROUND] = "around", [TL_SEAT_PORT] = "port",   NULL,
  };

  return words;
}

guint
tl_part_kind_ports (TlPartKind kind)
{
  switch (kind)
    {
    case TL_PART_SLEEVE:
    case TL_PART_SEAL:
      return 2;
    case TL_PART_LUG:
    case TL_PART_FERRULE:
    case TL_PART_CAP:
      return 1;
    case TL_PART_TERMINAL:
    case TL_PART_BRANCH:
      return TL_JOINT_MAX_LEGS;
    case TL_PART_CONDUCTOR:
    case TL_PART_BOLT:
    case TL_PART_NUT:
    case TL_PART_PLAIN_WASHER:
    case TL_PART_LARGE_WASHER:
    case TL_PART_SPRING_RING:
    case TL_PART_CONICAL_WASHER:
    case TL_PART_SERRATED_WASHER:
    case TL_PART_FILLER:
    case TL_PART_COMPOUND:
    case TL_PART_SOLDER:
    case TL_PART_BOX:
    case TL_N_PART_KINDS:
    default:
      return 0;
    }
}
