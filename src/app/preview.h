/* preview.h: what would become of the joint if a part went into a place.
 *
 * For drags and for walking the gaps by keyboard: the joint after it, its quick verdict, and the one couple that
 * the person should see. No widget here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "assembly/places.h"

G_BEGIN_DECLS

typedef struct
{
  TlJoint    *joint;        /* after the edit */
  TlVerdict  *verdict;      /* quick */
  char       *owner;        /* id of the part in @joint */
  char       *couple;       /* "aluminium–zinc 0.20 V", or "" if it touches no other metal */
  TlSeverity  severity;     /* the worst thing that is said about the part there */
  TlSeverity  couple_severity; /* of the couple alone */
  const TlFinding *worst;   /* (nullable) in @verdict: why the whole joint would be as it is */
} TlPreview;

/**
 * tl_preview_new:
 * @part: (nullable): id in the stock; %NULL when @moving is moved
 * @moving: (nullable): leg or layer that is moved
 *
 * Returns: (transfer full) (nullable): %NULL with @error if the edit is refused
 */
TlPreview *tl_preview_new (TlDocument *document, const char *part, const char *moving, const TlSeat *seat, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void       tl_preview_free (TlPreview *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPreview, tl_preview_free)

G_END_DECLS
