/* test-every-part.c: every part of the stock is drawn, and is laid out and drawn in a joint of the family of its kind.
 *
 * Generated from the stock. What a part leaves to the user's entry, and the parts around it, are sized in proportion to it:
 * made up for this test.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw-test.h"
#include "families.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const TlPart *part;
  TlJoint      *joint;
  char         *id; /* of the part in the joint */
} Trial;

static double
number (const TlPart *part, TlField field, double fallback)
{
  return tl_facts_number (part->facts, field, fallback);
}

/* --- building with what is there --- */

static void
entry (Trial *self, TlField field, double value)
{
  const TlFieldInfo *info = tl_field_info (field);
  g_autofree char   *text = NULL;

  if (tl_facts_get (self->part->facts, field) != NULL)
    return;
  text = g_strdup_printf ("%s=%.4f %s", info->key, value, info->unit);
  build_fact (&self->joint, self->id, text);
}

static void
entry_word (Trial *self, TlField field, const char *word)
{
  g_autofree char *text = g_strdup_printf ("%s=%s", tl_field_info (field)->key, word);

  if (tl_facts_get (self->part->facts, field) == NULL)
    build_fact (&self->joint, self->id, text);
}

static void
add_part (Trial *self, TlSeat seat)
{
  g_autoptr (GError) error = NULL;
  TlJoint *next = tl_edit_add_layer (self->joint, build_stock (), self->part->id, &seat, &self->id, &error);

  g_assert_no_error (error);
  tl_joint_unref (self->joint);
  self->joint = next;
  tl_seat_clear (&seat);
}

static guint
stack_end (const Trial *self)
{
  g_autoptr (GPtrArray) stack = tl_joint_stack (self->joint);

  return stack->len;
}

/* A round wire of @diameter_mm under insulation. */
static char *
wire (double diameter_mm, const char *metal, const char *more)
{
  return g_strdup_printf ("metal=%s; section=%.4f mm2; class=class-1; role=line; strands=1; metal-diameter=%.4f mm; insulation=pvc; "
                          "insulation-diameter=%.4f mm; surface=bright; %s",
                          metal, G_PI / 4.0 * diameter_mm * diameter_mm, diameter_mm, 1.25 * diameter_mm + 1.2, more);
}

static char *
add_wire (Trial *self, TlSeat seat, double diameter_mm, const char *metal, const char *more)
{
  g_autofree char *facts = wire (diameter_mm, metal, more);

  return build_leg (&self->joint, seat, facts);
}

/* --- a joint for each kind --- */

static void
add_eye (Trial *self, double thread_mm, const char *metal)
{
  g_autofree char *more = g_strdup_printf ("end=eye; eye-bore=%.4f mm; strip=%.4f mm", 1.1 * thread_mm, 7.0 * thread_mm);

  g_free (add_wire (self, tl_seat_stack (stack_end (self)), 0.4 * thread_mm, metal, more));
}

static void
add_bolt (Trial *self, double thread_mm)
{
  g_autofree char *facts = g_strdup_printf ("thread=%.4f mm; height=%.4f mm; across-flats=%.4f mm; bearing-diameter=%.4f mm; length=%.4f mm; material=steel",
                                            thread_mm, 0.7 * thread_mm, 1.6 * thread_mm, 1.4 * thread_mm, 7.0 * thread_mm);

  g_free (build_next (&self->joint, TL_PART_BOLT, facts));
}

static void
add_nut (Trial *self, double thread_mm)
{
  g_autofree char *facts = g_strdup_printf ("thread=%.4f mm; height=%.4f mm; across-flats=%.4f mm; bearing-diameter=%.4f mm; material=steel", thread_mm,
                                            0.9 * thread_mm, 1.6 * thread_mm, 1.4 * thread_mm);

  g_free (build_next (&self->joint, TL_PART_NUT, facts));
}

/* Bolt, eye, washer or lug, eye, nut. */
static TlFamily
make_stack (Trial *self)
{
  TlPartKind kind = self->part->kind;
  gboolean   has_thread = kind == TL_PART_BOLT || kind == TL_PART_NUT;
  double     thread = has_thread ? number (self->part, TL_FIELD_THREAD, 5.0) : number (self->part, TL_FIELD_BORE, 5.3) / 1.06;

  if (kind == TL_PART_BOLT)
    add_part (self, tl_seat_stack (0));
  else
    add_bolt (self, thread);
  add_eye (self, thread, "aluminium");
  if (!has_thread)
    {
      add_part (self, tl_seat_stack (stack_end (self)));
      entry (self, TL_FIELD_BORE, 1.06 * thread);
      entry (self, TL_FIELD_OUTER, 2.2 * thread);
      entry (self, TL_FIELD_THICKNESS, 0.2 * thread);
    }
  add_eye (self, thread, "copper");
  if (kind == TL_PART_NUT)
    add_part (self, tl_seat_stack (stack_end (self)));
  else
    add_nut (self, thread);
  return TL_FAMILY_STACK;
}

static TlFamily
make_lug (Trial *self)
{
  double bore = number (self->part, TL_FIELD_BORE, 5.0), eye = number (self->part, TL_FIELD_EYE_BORE, 8.4);
  g_autofree char *more = NULL;

  add_bolt (self, eye / 1.06);
  add_part (self, tl_seat_stack (1));
  entry (self, TL_FIELD_EYE_BORE, eye);
  entry (self, TL_FIELD_WIDTH, 2.0 * eye);
  entry (self, TL_FIELD_THICKNESS, 2.0);
  entry (self, TL_FIELD_BORE, bore);
  entry (self, TL_FIELD_OUTER, 1.4 * bore);
  entry (self, TL_FIELD_LENGTH, 3.0 * bore);
  more = g_strdup_printf ("strip=%.4f mm", 3.0 * bore);
  g_free (add_wire (self, tl_seat_port (self->id, 1), 0.9 * bore, "copper", more));
  add_eye (self, eye / 1.06, "copper");
  add_nut (self, eye / 1.06);
  return TL_FAMILY_STACK;
}

static TlFamily
make_sleeve (Trial *self)
{
  gboolean side_by_side = g_strcmp0 (tl_facts_word (self->part->facts, TL_FIELD_FORM, "butt"), "parallel") == 0;
  double   bore = number (self->part, TL_FIELD_BORE, 4.0), length = number (self->part, TL_FIELD_LENGTH, 8.0 * bore);
  double   inside = side_by_side ? length - 0.5 : length / 2.0 - 0.5;
  g_autofree char *more = g_strdup_printf ("strip=%.4f mm; insertion=%.4f mm", inside + 1.0, inside);

  add_part (self, tl_seat_none ());
  entry (self, TL_FIELD_BORE, bore);
  entry (self, TL_FIELD_OUTER, 1.5 * bore);
  entry (self, TL_FIELD_LENGTH, length);
  entry (self, TL_FIELD_WANTED_DIE, 1.2 * bore);
  entry_word (self, TL_FIELD_FORM, "butt");
  entry_word (self, TL_FIELD_MATERIAL, "copper");
  for (guint port = 1; port <= 2; port++)
    g_free (add_wire (self, tl_seat_port (self->id, port), (side_by_side ? 0.45 : 0.9) * bore, "copper", more));
  return TL_FAMILY_SLEEVE;
}

/* Two conductors pressed in a sleeve that is in proportion to them; returns the sleeve. */
static char *
pressed (Trial *self, double diameter_mm)
{
  g_autofree char *facts = g_strdup_printf ("form=butt; stop=yes; length=%.4f mm; outer=%.4f mm; bore=%.4f mm; material=copper; die=%.4f mm; "
                                            "press-width=5 mm; presses=1",
                                            10.0 * diameter_mm, 1.6 * diameter_mm, 1.1 * diameter_mm, 1.4 * diameter_mm);
  g_autofree char *more = g_strdup_printf ("strip=%.4f mm; insertion=%.4f mm", 5.0 * diameter_mm, 4.9 * diameter_mm);
  char *sleeve = build_layer (&self->joint, TL_PART_SLEEVE, tl_seat_none (), facts);

  for (guint port = 1; port <= 2; port++)
    g_free (add_wire (self, tl_seat_port (sleeve, port), diameter_mm, "copper", more));
  return sleeve;
}

static TlFamily
make_seal (Trial *self)
{
  double expanded = number (self->part, TL_FIELD_EXPANDED, 8.0);
  g_autofree char *sleeve = pressed (self, MIN (0.4 * expanded, 30.0));

  add_part (self, tl_seat_around (sleeve, sleeve));
  entry (self, TL_FIELD_EXPANDED, expanded);
  entry (self, TL_FIELD_RECOVERED, 0.4 * expanded);
  entry (self, TL_FIELD_RECOVERED_WALL, 0.15 * expanded);
  entry (self, TL_FIELD_LENGTH, 8.0 * expanded);
  return TL_FAMILY_SLEEVE;
}

/* Compound lies on the sleeve; filler in the mouths of a sealing sleeve round it. */
static TlFamily
make_coat (Trial *self)
{
  g_autofree char *sleeve = pressed (self, 1.78);

  if (self->part->kind == TL_PART_FILLER)
    g_free (build_layer (&self->joint, TL_PART_SEAL, tl_seat_around (sleeve, sleeve),
                         "expanded=8 mm; recovered=2 mm; recovered-wall=1 mm; length=60 mm; adhesive=yes; material=polyolefin"));
  add_part (self, tl_seat_on (sleeve));
  return TL_FAMILY_SLEEVE;
}

/* Conductors side by side; solder and caps go round them. */
static TlFamily
make_splice (Trial *self)
{
  g_autofree char *one = add_wire (self, tl_seat_none (), 1.78, "copper", "strip=22 mm");
  g_autofree char *two = add_wire (self, tl_seat_around (one, one), 1.78, "copper", "strip=20 mm");

  if (self->part->kind == TL_PART_SOLDER || self->part->kind == TL_PART_CAP)
    add_part (self, tl_seat_around (one, two));
  if (self->part->kind == TL_PART_SOLDER)
    entry_word (self, TL_FIELD_SPLICE_FORM, "soldered");
  if (self->part->kind == TL_PART_CAP)
    {
      entry (self, TL_FIELD_EXPANDED, 12.0);
      entry (self, TL_FIELD_RECOVERED, 3.0);
      entry (self, TL_FIELD_RECOVERED_WALL, 1.0);
      entry (self, TL_FIELD_LENGTH, 30.0);
    }
  return TL_FAMILY_SPLICE;
}

static TlFamily
make_conductor (Trial *self)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (TlFacts) facts = build_facts ("strip=40 mm; role=line");
      g_autoptr (GError) error = NULL;
      g_autofree char *first = g_strdup (self->id);
      TlSeat   seat = i == 0 ? tl_seat_none () : tl_seat_around (first, first);
      TlJoint *next = tl_edit_add_leg (self->joint, build_stock (), self->part->id, facts, &seat, i == 0 ? &self->id : NULL, &error);

      g_assert_no_error (error);
      tl_joint_unref (self->joint);
      self->joint = next;
      tl_seat_clear (&seat);
    }
  return TL_FAMILY_SPLICE;
}

static TlFamily
make_terminal (Trial *self)
{
  gboolean is_branch = self->part->kind == TL_PART_BRANCH;
  double   ports = number (self->part, TL_FIELD_PORTS, 2.0);
  guint    second = is_branch ? 3 : ports > 1.5 ? 2 : 1;

  add_part (self, tl_seat_stack (0));
  entry (self, TL_FIELD_PORTS, is_branch ? 4.0 : 2.0);
  entry (self, TL_FIELD_BORE, 5.0);
  entry (self, TL_FIELD_LENGTH, 18.0);
  entry (self, TL_FIELD_WIDTH, 8.0);
  entry (self, TL_FIELD_HEIGHT, is_branch ? 20.0 : 8.0);
  entry (self, TL_FIELD_THREAD, 3.0);
  entry (self, TL_FIELD_CLAMP_FORCE, 20.0);
  g_free (add_wire (self, tl_seat_port (self->id, 1), 1.78, "aluminium", is_branch ? "strip=20 mm" : "strip=8 mm"));
  g_free (add_wire (self, tl_seat_port (self->id, second), 1.78, "copper", is_branch ? "strip=20 mm" : "strip=8 mm"));
  return TL_FAMILY_TERMINAL;
}

static TlFamily
make_ferrule (Trial *self)
{
  double bore = number (self->part, TL_FIELD_BORE, 2.0), length = number (self->part, TL_FIELD_LENGTH, 8.0);
  g_autofree char *facts = g_strdup_printf ("terminal-form=tunnel; ports=2; bore=%.4f mm; length=%.4f mm; width=%.4f mm; height=%.4f mm; thread=3 mm; "
                                            "screws=1; material=brass; other-face=steel; body-material=polyolefin",
                                            2.0 * bore, 2.2 * length, 3.0 * bore, 3.0 * bore);
  g_autofree char *more = g_strdup_printf ("strip=%.4f mm", length);
  g_autofree char *terminal = build_layer (&self->joint, TL_PART_TERMINAL, tl_seat_stack (0), facts);
  g_autofree char *leg = add_wire (self, tl_seat_port (terminal, 1), 0.9 * bore, "copper", more);

  g_free (add_wire (self, tl_seat_port (terminal, 2), 0.9 * bore, "aluminium", more));
  add_part (self, tl_seat_on (leg));
  entry (self, TL_FIELD_OUTER, 1.2 * bore);
  entry (self, TL_FIELD_LENGTH, length);
  return TL_FAMILY_TERMINAL;
}

static TlFamily
make_in_box (Trial *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *sleeve = pressed (self, 1.78);
  TlJoint *next = tl_edit_set_text (self->joint, "box", self->part->id, &error);

  g_assert_no_error (error);
  tl_joint_unref (self->joint);
  self->joint = next;
  self->id = g_strdup (sleeve);
  return TL_FAMILY_SLEEVE;
}

static TlFamily (*const makers[TL_N_PART_KINDS]) (Trial *) = {
  [TL_PART_CONDUCTOR] = make_conductor,
  [TL_PART_BOLT] = make_stack,
  [TL_PART_NUT] = make_stack,
  [TL_PART_PLAIN_WASHER] = make_stack,
  [TL_PART_LARGE_WASHER] = make_stack,
  [TL_PART_SPRING_RING] = make_stack,
  [TL_PART_CONICAL_WASHER] = make_stack,
  [TL_PART_SERRATED_WASHER] = make_stack,
  [TL_PART_SLEEVE] = make_sleeve,
  [TL_PART_LUG] = make_lug,
  [TL_PART_FERRULE] = make_ferrule,
  [TL_PART_SEAL] = make_seal,
  [TL_PART_CAP] = make_splice,
  [TL_PART_FILLER] = make_coat,
  [TL_PART_COMPOUND] = make_coat,
  [TL_PART_SOLDER] = make_splice,
  [TL_PART_TERMINAL] = make_terminal,
  [TL_PART_BRANCH] = make_terminal,
  [TL_PART_BOX] = make_in_box,
};

/* --- what is asked of each --- */

static void
check_solids (const TlAssembly *assembly)
{
  for (guint i = 0; i < assembly->bodies->len; i++)
    for (guint k = 0; k < tl_assembly_body (assembly, i)->solids->len; k++)
      {
        const TlSolid *s = &g_array_index (tl_assembly_body (assembly, i)->solids, TlSolid, k);

        g_assert_true (isfinite (s->start_mm + s->end_mm + s->inner_mm + s->outer_mm + s->u_mm + s->v_mm));
        g_assert_true (isfinite (s->x0_mm + s->y0_mm + s->z0_mm + s->x1_mm + s->y1_mm + s->z1_mm + s->length_mm));
      }
}

static void
check_drawing (const Trial *self, const TlVerdict *verdict)
{
  g_autoptr (TlDrawing) drawing = NULL;
  TlDrawingOptions options;
  double x0, y0, x1, y1;

  tl_drawing_options_init (&options);
  drawing = tl_drawing_new (verdict, &options, tl_language_plain ());
  for (guint i = 0; i < drawing->vertices->len; i++)
    {
      const TlVertex *v = &g_array_index (drawing->vertices, TlVertex, i);

      g_assert_true (isfinite (v->x) && isfinite (v->y));
    }
  if (!dt_owner_bounds (drawing, self->id, TL_VIEW_SECTION, &x0, &y0, &x1, &y1) && !dt_owner_bounds (drawing, self->id, TL_VIEW_END, &x0, &y0, &x1, &y1))
    g_error ("%s is laid out but not drawn", self->part->id);
  dt_paint_nowhere (drawing);
}

static void
check_placed (const TlPart *part)
{
  Trial self = { part, tl_joint_new (), NULL };
  TlFamily family;
  g_autoptr (TlVerdict) verdict = NULL;

  g_assert_nonnull (makers[part->kind]);
  family = makers[part->kind](&self);
  verdict = tl_verdict_new (self.joint, build_stock (), TL_VERDICT_QUICK);
  g_assert_cmpint (verdict->assembly->family, ==, family);
  for (guint i = 0; i < verdict->assembly->problems->len; i++)
    {
      const TlProblem *problem = &g_array_index (verdict->assembly->problems, TlProblem, i);

      if (strcmp (problem->owner, "site") != 0 && strcmp (problem->owner, "duty") != 0)
        g_error ("%s: %s: %s", part->id, problem->owner, problem->message);
    }
  if (tl_assembly_number (verdict->assembly, self.id) == 0)
    g_error ("%s is not in its joint", part->id);
  check_solids (verdict->assembly);
  check_drawing (&self, verdict);
  tl_joint_unref (self.joint);
  g_free (self.id);
}

static void
test_kind (gconstpointer data)
{
  TlPartKind       kind = (TlPartKind) GPOINTER_TO_UINT (data);
  const GPtrArray *parts = tl_stock_parts (build_stock ());
  guint            count = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      const TlPart *part = parts->pdata[i];

      if (part->kind != kind)
        continue;
      count++;
      if (dt_part_pixels (build_stock (), kind, part->facts, 96, 56) == 0)
        g_error ("%s paints nothing", part->id);
      check_placed (part);
    }
  /* the stock has parts of every kind */
  g_assert_cmpuint (count, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint kind = 0; kind < TL_N_PART_KINDS; kind++)
    {
      g_autofree char *path = g_strconcat ("/draw/every-part/", tl_part_kind_word ((TlPartKind) kind), NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (kind), test_kind);
    }
  return g_test_run ();
}
