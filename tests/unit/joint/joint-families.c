/* joint-families.c: the skeleton of each family of joints, in the terms of the first schema, and a rich joint.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "joint-test.h"

/* Adds what needs no name later. */
static void
put_leg (TlJoint **joint, const char *metal, double section_mm2, TlSeat seat)
{
  g_free (tj_add_leg (joint, metal, section_mm2, seat));
}

static void
put_layer (TlJoint **joint, TlPartKind kind, TlSeat seat)
{
  g_free (tj_add_layer (joint, kind, seat));
}

static TlJoint *
bolted_stack (void)
{
  TlJoint *joint = tl_joint_new ();

  put_layer (&joint, TL_PART_BOLT, tl_seat_stack (0));
  put_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (1));
  put_leg (&joint, "aluminium", 2.5, tl_seat_stack (2));
  put_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (3));
  put_leg (&joint, "copper", 2.5, tl_seat_stack (4));
  put_layer (&joint, TL_PART_CONICAL_WASHER, tl_seat_stack (5));
  put_layer (&joint, TL_PART_NUT, tl_seat_stack (6));
  return joint;
}

static TlJoint *
pressed_sleeve (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *aluminium = tj_add_leg (&joint, "aluminium", 16.0, tl_seat_none ());
  g_autofree char *copper = tj_add_leg (&joint, "copper", 10.0, tl_seat_none ());
  g_autofree char *sleeve =
      tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_around (aluminium, copper));

  tj_move (&joint, aluminium, tl_seat_port (sleeve, 1));
  tj_move (&joint, copper, tl_seat_port (sleeve, 2));
  put_layer (&joint, TL_PART_COMPOUND, tl_seat_on (aluminium));
  put_layer (&joint, TL_PART_SEAL, tl_seat_around (aluminium, copper));
  return joint;
}

static TlJoint *
lug_pressed_and_bolted (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *lug = NULL;

  put_layer (&joint, TL_PART_BOLT, tl_seat_stack (0));
  lug = tj_add_layer (&joint, TL_PART_LUG, tl_seat_stack (1));
  put_leg (&joint, "aluminium", 16.0, tl_seat_port (lug, 1));
  put_layer (&joint, TL_PART_LARGE_WASHER, tl_seat_stack (2));
  put_leg (&joint, "copper", 6.0, tl_seat_stack (3));
  put_layer (&joint, TL_PART_NUT, tl_seat_stack (4));
  return joint;
}

/* Lug, sleeve and washer whose one side is of the other metal; the sides are facts of the part. */
static TlJoint *
bimetal (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *lug = NULL, *sleeve = NULL;

  put_layer (&joint, TL_PART_BOLT, tl_seat_stack (0));
  put_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (1));
  lug = tj_add_layer (&joint, TL_PART_LUG, tl_seat_stack (2));
  sleeve = tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_stack (3));
  put_leg (&joint, "aluminium", 25.0, tl_seat_port (lug, 1));
  put_leg (&joint, "aluminium", 25.0, tl_seat_port (sleeve, 1));
  put_leg (&joint, "copper", 16.0, tl_seat_port (sleeve, 2));
  return joint;
}

static TlJoint *
screw_terminal (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *terminal = tj_add_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0));
  g_autofree char *flexible = NULL;

  put_leg (&joint, "aluminium", 2.5, tl_seat_port (terminal, 1));
  flexible = tj_add_leg (&joint, "copper", 1.5, tl_seat_port (terminal, 2));
  put_layer (&joint, TL_PART_FERRULE, tl_seat_on (flexible));
  return joint;
}

static TlJoint *
spring_terminal (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *terminal = tj_add_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0));

  for (guint port = 1; port <= 3; port++)
    put_leg (&joint, port == 1 ? "aluminium" : "copper", 2.5, tl_seat_port (terminal, port));
  put_layer (&joint, TL_PART_COMPOUND, tl_seat_port (terminal, 1));
  return joint;
}

static TlJoint *
branch_connector (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *branch = tj_add_layer (&joint, TL_PART_BRANCH, tl_seat_stack (0));

  put_leg (&joint, "aluminium", 16.0, tl_seat_port (branch, 1));
  put_leg (&joint, "copper", 4.0, tl_seat_port (branch, 3));
  return joint;
}

/* The clamp of a socket outlet or switch; its box is the site's. */
static TlJoint *
device_terminal (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *terminal = tj_add_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0));
  GError          *error = NULL;
  TlJoint         *next;

  put_leg (&joint, "aluminium", 2.5, tl_seat_port (terminal, 1));
  put_leg (&joint, "copper", 2.5, tl_seat_port (terminal, 1));
  next = tl_edit_set_text (joint, "box", "box-round-60", &error);
  tj_take (&joint, next, error);
  return joint;
}

static TlJoint *
soldered_twist (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *one = tj_add_leg (&joint, "copper", 1.5, tl_seat_none ());
  g_autofree char *two = tj_add_leg (&joint, "aluminium", 2.5, tl_seat_around (one, one));

  put_layer (&joint, TL_PART_SOLDER, tl_seat_around (one, two));
  put_layer (&joint, TL_PART_CAP, tl_seat_around (one, two));
  return joint;
}

static TlJoint *
three_in_a_stack (void)
{
  TlJoint *joint = tl_joint_new ();

  put_layer (&joint, TL_PART_BOLT, tl_seat_stack (0));
  for (guint i = 0; i < 3; i++)
    {
      put_layer (&joint, TL_PART_PLAIN_WASHER, tl_seat_stack (1 + 2 * i));
      put_leg (&joint, i < 2 ? "aluminium" : "copper", 2.5, tl_seat_stack (2 + 2 * i));
    }
  put_layer (&joint, TL_PART_NUT, tl_seat_stack (7));
  return joint;
}

static TlJoint *
three_in_a_barrel (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *sleeve = tj_add_layer (&joint, TL_PART_SLEEVE, tl_seat_stack (0));
  g_autofree char *seal = NULL;

  put_leg (&joint, "aluminium", 2.5, tl_seat_port (sleeve, 1));
  put_leg (&joint, "aluminium", 2.5, tl_seat_port (sleeve, 1));
  put_leg (&joint, "copper", 2.5, tl_seat_port (sleeve, 1));
  seal = tj_add_layer (&joint, TL_PART_SEAL, tl_seat_around (sleeve, sleeve));
  put_layer (&joint, TL_PART_FILLER, tl_seat_port (seal, 1));
  return joint;
}

const TjFamily tj_families[] = {
  { "bolted-stack", bolted_stack },
  { "pressed-sleeve", pressed_sleeve },
  { "lug-pressed-and-bolted", lug_pressed_and_bolted },
  { "bimetal", bimetal },
  { "screw-terminal", screw_terminal },
  { "spring-terminal", spring_terminal },
  { "branch-connector", branch_connector },
  { "device-terminal", device_terminal },
  { "soldered-twist", soldered_twist },
  { "three-in-a-stack", three_in_a_stack },
  { "three-in-a-barrel", three_in_a_barrel },
  { NULL, NULL },
};

TlJoint *
tj_rich (void)
{
  static const char text[] =
      "<joint xmlns='urn:tinlap:joint:1' format='1' minor='0' next-id='40'>"
      "<about name='Socket circuit, Weaving floor' place='Fennick Mill, box W-14'"
      " prepared-by='R. Oakes' date='2026-03-14' practice='nfpa70-style' units='customary'"
      " sheet-language='de' fault-example='yes'><note>first line\n second "
      "&lt;line&gt;</note></about>"
      "<legs><leg id='leg-1' part='conductor-al-2.5'><seat kind='stack' place='1'/>"
      "<fact field='metal' word='aluminium' known-by='marking'/>"
      "<fact field='section' value='2.5' unit='mm2' low='2.4' high='2.6' known-by='measured'"
      " note='slide gauge, 2026-03-12'/>"
      "<fact field='role' word='line' known-by='stated'/>"
      "<preparation><act name='degrease'/><act name='strip'>"
      "<fact field='strip' value='11' unit='mm' known-by='stated'/></act><act name='brush'/>"
      "</preparation></leg>"
      "<leg id='leg-2'><seat kind='port' of='layer-5' port='1'/></leg></legs>"
      "<layers><layer id='layer-3' kind='bolt'><seat kind='stack' place='0'/>"
      "<fact field='torque' value='2' unit='N_m' known-by='assumed'/></layer>"
      "<layer id='layer-5' kind='lug' part='lug-1'><seat kind='stack' place='2'/></layer>"
      "<layer id='layer-6' kind='compound'><seat kind='on' of='leg-1'/></layer>"
      "<layer id='layer-7' kind='seal'><seat kind='around' from='leg-1' to='leg-2'/></layer>"
      "<layer id='layer-8' kind='washer'><seat kind='none'/></layer></layers>"
      "<site box='box-round-60'><fact field='surroundings' word='damp' known-by='stated'/></site>"
      "<duty><fact field='load' value='10' unit='A' known-by='assumed'/></duty>"
      "<used data-version='2026.1' practice='iec-style'>"
      "<part id='lug-1' kind='lug' size='M5' open='no'>"
      "<fact field='bore' value='5.3' unit='mm' known-by='seen' source='iso-7089' note='Table 1'/>"
      "</part><material id='copper' name='copper' kind='metal' look='copper'>"
      "<fact field='density' value='8.9' unit='g/cm3' known-by='memory' "
      "source='memory'/></material>"
      "<threshold id='galvanic.limit' practice='*' known-by='practice' source='practice' note=''>"
      "<cell value='600'/><cell value='mV'/><cell value=''/></threshold></used>"
      "<variants><variant name='with a lug'><about name='v'/><legs><leg "
      "id='leg-1'/></legs></variant>"
      "<variant name='bare'/></variants>"
      "<pictures><picture xmlns='urn:example:x' file='a.png'>caption</picture></pictures>"
      "<readings/><inspections/><exercise><hidden of='leg-1'/></exercise></joint>";
  /* The kind that a washer has in files is that of the stock. */
  g_autofree char *kind = g_strdup_printf ("kind='%s'", tl_part_kind_word (TL_PART_PLAIN_WASHER));
  g_autoptr (GString) filled = g_string_new (text);

  g_string_replace (filled, "kind='washer'", kind, 0);
  return tj_parse (filled->str);
}
