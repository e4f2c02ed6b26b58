/* conductor-choice.h: one conductor of a new joint: metal and make, section, role, fixed or loose.
 *
 * Metal and section are never chosen for the person. "Not sure what it is?" tells how to find out, takes a measured
 * diameter, or takes the worst case, which then stands on the sheet as assumed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/edit.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_CONDUCTOR_CHOICE (tl_conductor_choice_get_type ())
G_DECLARE_FINAL_TYPE (TlConductorChoice, tl_conductor_choice, TL, CONDUCTOR_CHOICE, GtkWidget)

/* @fixed: "wall" or "loose": what is usual for this one */
void        tl_conductor_choice_set_stock (TlConductorChoice *self, const TlStock *stock, const TlLanguage *language, const char *title, const char *fixed);
/* Another stock: metal and section stay where they still exist. */
void        tl_conductor_choice_change_stock (TlConductorChoice *self, const TlStock *stock);
/* Id of the conductor in the stock; "" while metal or section are not chosen. */
const char *tl_conductor_choice_part (TlConductorChoice *self);
/* The joint with this conductor added; (transfer full) */
TlJoint    *tl_conductor_choice_add (TlConductorChoice *self, const TlJoint *joint, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* As if a person chose: @make "aluminium/class-1/none", @section "2.5 mm²". %FALSE if the stock has no such thing. */
gboolean    tl_conductor_choice_choose (TlConductorChoice *self, const char *make, const char *section);

G_END_DECLS
