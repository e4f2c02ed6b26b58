/* container.h: a document with pictures as one ZIP: joint.xml beside the untouched originals.
 *
 * Members are joint.xml and pictures/HASH.ENDING, nothing else; originals are stored as they are, joint.xml is deflated, and
 * the same joint gives the same bytes. Reading refuses other names, names that stand twice, sizes that lie and what passes the
 * caps, in bounded memory. joint-file.h opens and saves both forms; only it calls this.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "joint/joint.h"

G_BEGIN_DECLS

#define TL_CONTAINER_MAX_BYTES (512u * 1024u * 1024u) /* of all originals, and of the file */
#define TL_CONTAINER_MAX_MEMBERS 256u

/* %TRUE if the file at @path begins like a ZIP; %FALSE too if it cannot be read. */
gboolean tl_container_is (const char *path);
/* %TRUE if the joint names pictures and came with a store of their bytes: it is saved as a ZIP. */
gboolean tl_container_wants (const TlJoint *joint);
/* A picture whose bytes are another's than its record says is no error here: verifying tells it. */
TlJoint *tl_container_load (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The same from memory. @file: for messages */
TlJoint *tl_container_parse (GBytes *bytes, const char *file, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/**
 * tl_container_save:
 * @text: joint.xml
 *
 * Atomic. An original that the joint does not hold any more is left out, as verifying will tell.
 */
gboolean tl_container_save (const TlJoint *joint, const char *text, gsize length, const char *path, GError **error);

G_END_DECLS
