/* new-joint-form.h: the four facts with which a joint begins: two conductors, box and air, protection.
 *
 * Signal "made": a joint (boxed as a pointer, owned by the form until the handlers have run).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/conductor-choice.h"

G_BEGIN_DECLS

#define TL_TYPE_NEW_JOINT_FORM (tl_new_joint_form_get_type ())
G_DECLARE_FINAL_TYPE (TlNewJointForm, tl_new_joint_form, TL, NEW_JOINT_FORM, GtkWidget)

void               tl_new_joint_form_set_stock (TlNewJointForm *self, const TlStock *stock, const TlLanguage *language, GSettings *settings);
/* Another stock: what is chosen stays where it still exists. */
void               tl_new_joint_form_change_stock (TlNewJointForm *self, const TlStock *stock);
TlConductorChoice *tl_new_joint_form_conductor (TlNewJointForm *self, guint which);
/* What the form says now; (transfer full) (nullable): %NULL with @error while a conductor is not chosen */
TlJoint           *tl_new_joint_form_make (TlNewJointForm *self, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
