/* inspector.h: the pictures of the open joint under somebody's hands: which picture, which inspection, what is selected.
 *
 * Reads the inspections out of the document whenever that changes, and hands edits back to it, so that undo, saving and the
 * other pages know nothing of pictures. A scale that was drawn but whose true length nobody gave yet is a draft: it
 * stands here and not in the document.
 *
 * Signals: "changed" (inspections, picture, inspection or draft), "selection-changed", "tool-changed".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "app/document.h"
#include "rules/as-found.h"
#include <gio/gio.h>

G_BEGIN_DECLS

/* What the next points in the picture become. */
typedef enum
{
  TL_TOOL_SELECT,
  TL_TOOL_SCALE,   /* detail: a #TlScaleKind */
  TL_TOOL_MEASURE, /* detail: a #TlMeasureKind */
  TL_TOOL_MARK,    /* detail: a #TlOutline */
} TlTool;

#define TL_TYPE_INSPECTOR (tl_inspector_get_type ())
G_DECLARE_FINAL_TYPE (TlInspector, tl_inspector, TL, INSPECTOR, GObject)

TlInspector *tl_inspector_new (TlDocument *document, GSettings *settings) G_GNUC_WARN_UNUSED_RESULT;

TlDocument          *tl_inspector_document (TlInspector *self);
const TlInspections *tl_inspector_inspections (TlInspector *self);
/* The one looked at: (nullable): none was begun */
const TlInspection  *tl_inspector_inspection (TlInspector *self);
/* %TRUE if there is none yet, or the one looked at is open: something can be drawn. */
gboolean             tl_inspector_is_open (TlInspector *self);
/* (nullable) */
const TlPhoto       *tl_inspector_photo (TlInspector *self);
/* Scale that new measures in the present picture are made by: the last one put there; (nullable) */
const TlScale       *tl_inspector_scale (TlInspector *self);
const TlDefects     *tl_inspector_defects (TlInspector *self);
/* Designed beside found for the inspection looked at; (nullable) (transfer none) */
const TlAsFound     *tl_inspector_as_found (TlInspector *self);
/* Why the document's inspections could not be read; (nullable) */
const char          *tl_inspector_problem (TlInspector *self);

void tl_inspector_choose_photo (TlInspector *self, const char *id);
void tl_inspector_choose_inspection (TlInspector *self, const char *id);

/* --- selection: a scale, measure, mark, reading of the inspection looked at, or the draft --- */
const char   *tl_inspector_selected (TlInspector *self);
/* Also brings its picture up. @id: (nullable) */
void          tl_inspector_select (TlInspector *self, const char *id);
/* A record of the inspection looked at: (nullable) (transfer none) */
gconstpointer tl_inspector_record (TlInspector *self, const char *id);
/* Points of a record that has any; (nullable) */
GArray       *tl_record_points (gconstpointer record);
/* Picture in which a record lies; "" for none */
const char   *tl_record_picture (gconstpointer record);
/* The scale that waits for its true length; (nullable) */
const TlScale *tl_inspector_draft (TlInspector *self);
void           tl_inspector_drop_draft (TlInspector *self);
/* @scale: (transfer full): takes its place */
void           tl_inspector_set_draft (TlInspector *self, TlScale *scale);

/* --- tool --- */
TlTool tl_inspector_tool (TlInspector *self, guint *detail);
void   tl_inspector_set_tool (TlInspector *self, TlTool tool, guint detail);
/* Points that the tool wants; @most 0: any number. */
guint  tl_inspector_tool_points (TlInspector *self, guint *most);

/* --- edits: each is told in a sentence if it fails, and can be undone --- */
/* Points drawn with the tool in hand become a record, which is then selected. @points: (element-type TlPixel) */
void     tl_inspector_draw (TlInspector *self, const GArray *points);
/* Puts a record, as tl_inspections_put(). @merge_key: as tl_document_take(). */
gboolean tl_inspector_put (TlInspector *self, gconstpointer record, const char *label, guint merge_key, GError **error);
/* @after: (transfer full) (nullable): what an edit gave; %NULL with @error */
gboolean tl_inspector_take (TlInspector *self, TlInspections *after, TlOriginals *added, const char *label, guint merge_key);
void     tl_inspector_remove (TlInspector *self, const char *id);
/* What a measure checks: a fact of the design, by "owner field", or "" for none. */
gboolean tl_inspector_tie_measure (TlInspector *self, const char *measure, const char *target, GError **error);
/* @name: of the file, or of where it was pasted from */
gboolean tl_inspector_add_photo (TlInspector *self, GBytes *bytes, const char *name, GError **error);
void     tl_inspector_remove_photo (TlInspector *self, const char *id);
void     tl_inspector_begin (TlInspector *self);
/* Closes the inspection: the report is out. What was done before cannot be undone any more. */
gboolean tl_inspector_issue (TlInspector *self, GError **error);
void     tl_inspector_revise (TlInspector *self);
/* Who and when, for a record or the chain; (transfer full) */
char    *tl_inspector_who (TlInspector *self);
char    *tl_inspector_when (void);

G_END_DECLS
