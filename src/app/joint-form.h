/* joint-form.h: what belongs to the joint as a whole: name, place, practice, box, units, language of the sheet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TL_TYPE_JOINT_FORM (tl_joint_form_get_type ())
G_DECLARE_FINAL_TYPE (TlJointForm, tl_joint_form, TL, JOINT_FORM, GtkWidget)

GtkWidget *tl_joint_form_new (TlDocument *document) G_GNUC_WARN_UNUSED_RESULT;
void       tl_joint_form_refresh (TlJointForm *self);

/* Boxes of the stock as texts and ids, each starting with "choose"; (transfer full) */
void tl_joint_form_boxes (const TlStock *stock, const TlLanguage *language, GStrv *texts, GStrv *ids);

G_END_DECLS
