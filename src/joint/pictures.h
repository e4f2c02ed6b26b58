/* pictures.h: the pictures, readings and inspections of a joint, which stand in the reserved elements of its document.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"
#include "picture/inspection.h"

G_BEGIN_DECLS

/* What the document holds, an empty value if it holds none; "line N: what; what would be right". (transfer full) */
TlInspections *tl_joint_inspections (const TlJoint *joint, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tl_edit_set_inspections:
 * @originals: (nullable): bytes of pictures that are new; those of the joint stay
 *
 * Returns: (transfer full): a joint with these inspections; the old one is untouched
 */
TlJoint *tl_edit_set_inspections (const TlJoint *joint, const TlInspections *inspections, TlOriginals *originals) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
