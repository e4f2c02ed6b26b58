/* picture-list.h: an inspection as text, JSON and CSV.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/as-found.h"

G_BEGIN_DECLS

typedef struct
{
  TlStock            *stock;
  TlJoint            *joint;
  TlInspections      *inspections;
  const TlInspection *inspection; /* (nullable): none was begun */
} TlPictureList;

/* All (transfer full) */
char *tl_picture_list_text (const TlPictureList *self, const TlLanguage *language) G_GNUC_WARN_UNUSED_RESULT;
/* Ids, figures and the inspector's own words only: the same file gives the same bytes in every locale. */
char *tl_picture_list_json (const TlPictureList *self) G_GNUC_WARN_UNUSED_RESULT;
/* Findings, one a line, RFC 4180. A field that a table program would take for a formula begins with an apostrophe. */
char *tl_picture_list_csv (const TlPictureList *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
