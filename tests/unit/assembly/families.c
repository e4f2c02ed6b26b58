/* families.c: every way of joining that is laid out along x, complete with facts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "families.h"

#define SITE                                                                                       \
  "surroundings=damp; access=cover; shape=round; inner-width=60 mm; inner-depth=45 mm; "           \
  "volume=120 cm3"
#define DUTY "load=10 A; device-kind=breaker; device-rating=16 A; ambient=30 degC"
#define AL_25                                                                                      \
  "metal=aluminium; section=2.5 mm2; class=class-1; role=line; strands=1; metal-diameter=1.78 "    \
  "mm; insulation=pvc; insulation-diameter=3.4 mm; surface=brushed"
#define CU_25                                                                                      \
  "metal=copper; section=2.5 mm2; class=class-1; role=line; strands=1; metal-diameter=1.78 mm; "   \
  "insulation=pvc; insulation-diameter=3.4 mm; surface=bright"
#define CU_FLEX_15                                                                                 \
  "metal=copper; section=1.5 mm2; class=class-5; role=line; strands=30; metal-diameter=1.8 mm; "   \
  "insulation=pvc; insulation-diameter=3.1 mm; surface=bright"

static void
finish (TlJoint **joint)
{
  build_fact (joint, "site", SITE);
  build_fact (joint, "duty", DUTY);
}

static TlJoint *
screw_with (const char *form)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *text = g_strdup_printf (
      "terminal-form=%s; ports=2; bore=3.4 mm; length=18 mm; width=6 mm; height=6.4 mm; thread=3 "
      "mm; torque=0.5 N_m; screws=1; material=brass; other-face=steel; body-material=polyolefin; "
      "marked-for=copper; marked-class=any; section-least=0.5 mm2; section-most=2.5 mm2",
      form);
  g_autofree char *terminal = build_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0), text);
  g_autofree char *flexible = NULL;

  g_free (build_leg (&joint, tl_seat_port (terminal, 1), AL_25 "; strip=9 mm"));
  flexible = build_leg (&joint, tl_seat_port (terminal, 2), CU_FLEX_15 "; strip=8 mm");
  g_free (
      build_layer (&joint, TL_PART_FERRULE, tl_seat_on (flexible),
                   "bore=1.8 mm; outer=2.1 mm; length=8 mm; material=copper; coating=tin-plate"));
  finish (&joint);
  return joint;
}

TlJoint *
families_screw (void)
{
  return screw_with ("tunnel");
}

static TlJoint *
saddle (void)
{
  return screw_with ("saddle");
}

static TlJoint *
spring_with (const char *form)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *text = g_strdup_printf (
      "terminal-form=%s; ports=3; bore=3 mm; length=16 mm; width=4.6 mm; height=9.6 mm; "
      "clamp-force=20 N; material=copper; coating=tin-plate; body-material=polyolefin; "
      "marked-for=both; marked-class=solid; section-least=0.5 mm2; section-most=2.5 mm2",
      form);
  g_autofree char *terminal = build_layer (&joint, TL_PART_TERMINAL, tl_seat_stack (0), text);

  for (guint port = 1; port <= 3; port++)
    g_free (build_leg (&joint, tl_seat_port (terminal, port),
                       port == 1 ? AL_25 "; strip=9 mm" : CU_25 "; strip=9 mm"));
  g_free (build_layer (&joint, TL_PART_COMPOUND, tl_seat_port (terminal, 1), "material=compound"));
  finish (&joint);
  return joint;
}

TlJoint *
families_spring (void)
{
  return spring_with ("leaf-spring");
}

static TlJoint *
cage (void)
{
  return spring_with ("cage-spring");
}

static TlJoint *
branch_with (const char *form, const char *main_strip)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *text = g_strdup_printf (
      "terminal-form=%s; ports=3; bore=7.2 mm; length=24 mm; width=12 mm; height=24 mm; thread=6 "
      "mm; torque=5 N_m; screws=1; material=aluminium; coating=tin-plate; other-face=steel; "
      "body-material=polyolefin",
      form);
  g_autofree char *branch = build_layer (&joint, TL_PART_BRANCH, tl_seat_stack (0), text);
  g_autofree char *main_facts =
      g_strconcat ("metal=aluminium; section=16 mm2; class=class-1; role=line; strands=1; "
                   "metal-diameter=4.5 mm; "
                   "insulation=pvc; insulation-diameter=6.9 mm; surface=brushed; strip=",
                   main_strip, NULL);

  g_free (build_leg (&joint, tl_seat_port (branch, 1), main_facts));
  g_free (build_leg (&joint, tl_seat_port (branch, 3),
                     "metal=copper; section=4 mm2; class=class-1; role=line; strands=1; "
                     "metal-diameter=2.25 mm; insulation=pvc; insulation-diameter=4 mm; strip=20 "
                     "mm; surface=bright"));
  finish (&joint);
  return joint;
}

TlJoint *
families_branch (void)
{
  return branch_with ("clamp", "28 mm");
}

static TlJoint *
piercing (void)
{
  return branch_with ("piercing", "1 mm");
}

TlJoint *
families_device (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *terminal = build_layer (
      &joint, TL_PART_TERMINAL, tl_seat_stack (0),
      "terminal-form=device; ports=1; bore=4.6 mm; length=9 mm; width=7 mm; height=7 mm; "
      "thread=3.5 "
      "mm; torque=0.8 N_m; screws=1; material=brass; other-face=steel; body-material=polyolefin");

  g_free (build_leg (&joint, tl_seat_port (terminal, 1), AL_25 "; strip=9 mm"));
  g_free (build_leg (&joint, tl_seat_port (terminal, 1), CU_25 "; strip=9 mm"));
  finish (&joint);
  return joint;
}

static TlJoint *
splice_with (const char *solder, gboolean has_cap)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *one = build_leg (&joint, tl_seat_none (), CU_25 "; strip=22 mm");
  g_autofree char *two = build_leg (&joint, tl_seat_around (one, one), AL_25 "; strip=20 mm");

  if (solder != NULL)
    g_free (build_layer (&joint, TL_PART_SOLDER, tl_seat_around (one, two), solder));
  if (has_cap)
    g_free (build_layer (&joint, TL_PART_CAP, tl_seat_around (one, two),
                         "expanded=12 mm; recovered=3 mm; recovered-wall=1 mm; length=30 mm; "
                         "adhesive=yes; material=polyolefin"));
  finish (&joint);
  return joint;
}

TlJoint *
families_soldered (void)
{
  return splice_with ("splice-form=soldered; material=solder-sn60pb40", TRUE);
}

static TlJoint *
soldered_lap (void)
{
  return splice_with ("splice-form=soldered; material=solder-sn60pb40; overlap=15 mm", FALSE);
}

static TlJoint *
welded (void)
{
  return splice_with ("splice-form=welded; material=aluminium", FALSE);
}

static TlJoint *
twisted (void)
{
  return splice_with (NULL, FALSE);
}

TlJoint *
families_lug (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *lug = NULL;

  g_free (build_next (&joint, TL_PART_BOLT, BUILD_BOLT_M5 "; torque=2 N_m; stress-area=14.2 mm2"));
  lug = build_next (
      &joint, TL_PART_LUG,
      "eye-bore=5.3 mm; width=10 mm; thickness=1.2 mm; outer=7 mm; bore=5 mm; "
      "length=14 mm; material=aluminium; other-face=copper; die=6 mm; press-width=5 mm");
  g_free (
      build_leg (&joint, tl_seat_port (lug, 1),
                 "metal=aluminium; section=16 mm2; role=line; strands=1; metal-diameter=4.5 mm; "
                 "insulation=pvc; insulation-diameter=6.9 mm; strip=14 mm; surface=brushed"));
  g_free (
      build_next (&joint, TL_PART_LARGE_WASHER,
                  "bore=5.3 mm; outer=15 mm; thickness=1.2 mm; material=steel; other-face=copper"));
  g_free (build_next_leg (
      &joint, "metal=copper; section=6 mm2; role=line; strands=1; metal-diameter=2.76 "
              "mm; insulation=pvc; insulation-diameter=4.4 mm; end=eye; eye-bore=5.4 mm; "
              "strip=35 mm; surface=bright"));
  g_free (build_next (&joint, TL_PART_NUT, BUILD_NUT_M5));
  finish (&joint);
  return joint;
}

static TlJoint *
bimetal_sleeve (void)
{
  TlJoint         *joint = tl_joint_new ();
  g_autofree char *sleeve = build_layer (
      &joint, TL_PART_SLEEVE, tl_seat_none (),
      "form=butt; stop=yes; length=50 mm; outer=9 mm; bore=6.2 mm; material=aluminium; "
      "other-face=copper; die=8 mm; press-width=5 mm; presses=2");

  g_free (
      build_leg (&joint, tl_seat_port (sleeve, 1),
                 "metal=aluminium; section=25 mm2; role=line; strands=1; metal-diameter=5.6 mm; "
                 "insulation=pvc; insulation-diameter=8.2 mm; strip=25 mm; surface=brushed"));
  g_free (build_leg (&joint, tl_seat_port (sleeve, 2),
                     "metal=copper; section=16 mm2; role=line; strands=7; metal-diameter=5.1 mm; "
                     "insulation=pvc; insulation-diameter=7.2 mm; strip=25 mm; surface=bright"));
  finish (&joint);
  return joint;
}

const TestFamily test_families[] = {
  { "screw-tunnel", families_screw, TL_FAMILY_TERMINAL },
  { "screw-saddle", saddle, TL_FAMILY_TERMINAL },
  { "leaf-spring", families_spring, TL_FAMILY_TERMINAL },
  { "cage-spring", cage, TL_FAMILY_TERMINAL },
  { "branch-clamp", families_branch, TL_FAMILY_TERMINAL },
  { "branch-piercing", piercing, TL_FAMILY_TERMINAL },
  { "device", families_device, TL_FAMILY_TERMINAL },
  { "soldered-pigtail", families_soldered, TL_FAMILY_SPLICE },
  { "soldered-lap", soldered_lap, TL_FAMILY_SPLICE },
  { "welded", welded, TL_FAMILY_SPLICE },
  { "twisted", twisted, TL_FAMILY_SPLICE },
  { "lug", families_lug, TL_FAMILY_STACK },
  { "bimetal-sleeve", bimetal_sleeve, TL_FAMILY_SLEEVE },
  { NULL, NULL, TL_FAMILY_NONE },
};
