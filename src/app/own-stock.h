/* own-stock.h: the stock as the windows see it: the shipped one with the person's packs laid over.
 *
 * Packs are the .xml files of one folder of the person's data. The first is "own.xml", the one that is edited here; the
 * others are laid behind it in the order of their names and are only read. Each edit is saved at once, whole or not at
 * all, and can be undone as long as the program runs. What a pack cannot do is told, and never stops the rest.
 * Not here: any widget.
 *
 * Signal: "changed" (another stock, pack or history).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/pack.h"

#include <glib-object.h>

G_BEGIN_DECLS

#define TL_TYPE_OWN_STOCK (tl_own_stock_get_type ())
G_DECLARE_FINAL_TYPE (TlOwnStock, tl_own_stock, TL, OWN_STOCK, GObject)

/* @folder: (nullable): %NULL: "tinlap/packs" in the person's data folder. It need not be there. */
TlOwnStock *tl_own_stock_new (const TlStock *system, const char *folder) G_GNUC_WARN_UNUSED_RESULT;

/* All (transfer none). */
const TlStock   *tl_own_stock_stock (TlOwnStock *self);
const TlStock   *tl_own_stock_system (TlOwnStock *self);
/* The pack that is edited. */
const TlPack    *tl_own_stock_pack (TlOwnStock *self);
/* What went wrong in reading and laying: (element-type TlPackProblem) */
const GPtrArray *tl_own_stock_problems (TlOwnStock *self);
const char      *tl_own_stock_file (TlOwnStock *self);

/* --- edits --- */
/**
 * tl_own_stock_take:
 * @pack: (transfer full) (nullable): pack after the edit; %NULL: the edit failed, @error is set already
 * @label: what was done, for the undo button
 *
 * Returns: %FALSE with @error if the edit failed or the file could not be written, or was written by somebody else
 *   since (it is then read anew); nothing has changed here
 */
gboolean    tl_own_stock_take (TlOwnStock *self, TlPack *pack, const char *label, GError **error);
gboolean    tl_own_stock_undo (TlOwnStock *self, GError **error);
gboolean    tl_own_stock_redo (TlOwnStock *self, GError **error);
/* (nullable): %NULL if there is nothing to undo or redo */
const char *tl_own_stock_undo_label (TlOwnStock *self);
const char *tl_own_stock_redo_label (TlOwnStock *self);
/* Reads all files again; the history begins anew. */
void        tl_own_stock_reload (TlOwnStock *self);

/* --- files --- */
/* Takes the rows of another pack in. @problems: (nullable) (element-type TlPackProblem): gets what stayed outside */
gboolean tl_own_stock_import (TlOwnStock *self, const char *path, GPtrArray *problems, GError **error);
/* The whole own pack as a file to give away. */
gboolean tl_own_stock_export (TlOwnStock *self, const char *path, GError **error);

/* --- short hands --- */
/* %TRUE if the own pack has this part, so that it can be changed here. */
gboolean tl_own_stock_has_part (TlOwnStock *self, const char *id);
gboolean tl_own_stock_is_in_van (TlOwnStock *self, const char *part);
gboolean tl_own_stock_set_in_van (TlOwnStock *self, const char *part, gboolean in_van, GError **error);
/* A copy of any part under a new id of one's own. Returns: (transfer full) (nullable): its id */
char *tl_own_stock_copy_part (TlOwnStock *self, const char *part, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
