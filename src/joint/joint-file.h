/* joint-file.h: a joint as a .tinlap file and back.
 *
 * XML in our own namespace, format="1" minor="0"; RELAX NG in data/schema/joint.rng for tests and other tools.
 * A newer minor is read tolerantly: unknown elements are kept in place and written back. A newer format is refused.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"

G_BEGIN_DECLS

#define TL_JOINT_NAMESPACE "urn:tinlap:joint:1"
#define TL_JOINT_FORMAT 1
#define TL_JOINT_MINOR 0

/* Messages "FILE:LINE: what is wrong; what would be right". Unknown part ids are not an error here. */
TlJoint *tl_joint_parse (const char *data, gsize length, const char *file, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlJoint *tl_joint_load (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Either form of a file, XML or ZIP, from memory. @file: for messages */
TlJoint *tl_joint_from_bytes (GBytes *bytes, const char *file, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Same joint, same bytes. (transfer full) */
char    *tl_joint_to_text (const TlJoint *joint, gsize *length) G_GNUC_WARN_UNUSED_RESULT;
/* A joint beyond the caps of the reader is not written: %TL_ERROR_LIMIT. */
gboolean tl_joint_save (const TlJoint *joint, const char *path, GError **error);

G_END_DECLS
