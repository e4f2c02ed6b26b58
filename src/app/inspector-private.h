/* inspector-private.h: what the inspector's files share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/inspector.h"

G_BEGIN_DECLS

typedef enum
{
  TL_INSPECTOR_CHANGED,
  TL_INSPECTOR_SELECTION_CHANGED,
  TL_INSPECTOR_TOOL_CHANGED,
  TL_N_INSPECTOR_SIGNALS
} TlInspectorSignal;

struct _TlInspector
{
  GObject parent_instance;

  TlDocument    *document;
  GSettings     *settings;
  TlInspections *inspections;
  TlDefects     *defects;
  TlAsFound     *as_found; /* NULL until somebody asks */
  char          *problem;
  char          *photo;
  char          *inspection;
  char          *selected;
  TlScale       *draft;
  TlTool         tool;
  guint          detail;
  gboolean       is_taking; /* a change of our own comes back from the document */
};

void tl_inspector_emit (TlInspector *self, TlInspectorSignal which);
/* Reads the inspections out of the document; what was looked at may be gone. */
void tl_inspector_read (TlInspector *self);

G_END_DECLS
