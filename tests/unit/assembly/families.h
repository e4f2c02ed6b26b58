/* families.h: every way of joining that is laid out along x, complete with facts.
 *
 * Sizes are made up for the tests unless the test that uses them says otherwise.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "build.h"

typedef struct
{
  const char *name;
  TlJoint *(*make) (void);
  TlFamily family;
} TestFamily;

/* (array zero-terminated=1) the families of joint-families.c, with all facts they need */
extern const TestFamily test_families[];

TlJoint *families_screw (void);
TlJoint *families_spring (void);
TlJoint *families_branch (void);
TlJoint *families_device (void);
TlJoint *families_soldered (void);
TlJoint *families_lug (void);
