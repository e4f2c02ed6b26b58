/* pack-private.h: the inside of a pack, for its own files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/pack.h"
#include "stock/stock-private.h"

G_BEGIN_DECLS

/* Kinds of rows, in the order in which they are written and laid. */
typedef enum
{
  TL_PACK_SOURCES,
  TL_PACK_MATERIALS,
  TL_PACK_PARTS,
  TL_PACK_MARKS,
  TL_PACK_MINUTES,
  TL_N_PACK_SECTIONS
} TlPackSection;

/* One row, shared by the packs that hold it. */
typedef struct
{
  /*< private >*/
  gatomicrefcount ref_count;
  /*< public >*/
  TlPackSection section;
  char         *file;
  guint         line; /* 0: made by an edit */
  /* By @section a TlSource, TlMaterial, TlPart, TlPackMark or TlPackMinutes; each opens with its id. */
  gpointer item;
} TlPackRow;

struct _TlPack
{
  gatomicrefcount ref_count;
  char       *name;
  char       *currency; /* "" if none */
  char       *file;     /* "" if none */
  GPtrArray  *rows[TL_N_PACK_SECTIONS];  /* (element-type TlPackRow) */
  GHashTable *by_id[TL_N_PACK_SECTIONS]; /* id of the item -> TlPackRow */
  GPtrArray  *kept;                      /* (element-type TlXmlNode): elements that could not be read */
  GPtrArray  *problems;                  /* (element-type TlPackProblem) */
};

/* Element of each section: "source", "material", "part", "mark", "minutes". */
const char *tl_pack_element (TlPackSection section);

TlPackRow  *tl_pack_row_new (TlPackSection section, gpointer item, const char *file, guint line) G_GNUC_WARN_UNUSED_RESULT;
TlPackRow  *tl_pack_row_ref (TlPackRow *row);
void        tl_pack_row_unref (TlPackRow *row);
const char *tl_pack_row_id (const TlPackRow *row);
gboolean    tl_pack_row_equal (const TlPackRow *a, const TlPackRow *b);

/* A pack with the same content, writable until it is handed out. */
TlPack    *tl_pack_fork (const TlPack *self) G_GNUC_WARN_UNUSED_RESULT;
/* (nullable) (transfer none) */
TlPackRow *tl_pack_find (const TlPack *self, TlPackSection section, const char *id);
/* Takes @row over, behind the others; its id must be new in its section. */
void       tl_pack_append (TlPack *fork, TlPackRow *row);

/* --- checks that reading and editing share: %FALSE with a sentence without file and line --- */
gboolean tl_pack_check_part (const TlPart *part, GError **error);
gboolean tl_pack_check_material (const TlMaterial *material, GError **error);
gboolean tl_pack_check_mark (const TlPackMark *mark, GError **error);
gboolean tl_pack_check_minutes (const TlPackMinutes *minutes, GError **error);
gboolean tl_pack_check_currency (const char *currency, GError **error);

TlPackProblem *tl_pack_problem_new (TlPackTrouble trouble, const char *file, guint line, const char *id, const char *message) G_GNUC_WARN_UNUSED_RESULT;
TlPackProblem *tl_pack_problem_copy (const TlPackProblem *problem) G_GNUC_WARN_UNUSED_RESULT;
void           tl_pack_problem_free (TlPackProblem *problem);

void tl_pack_minutes_free (TlPackMinutes *minutes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPackMark, tl_pack_mark_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlPackMinutes, tl_pack_minutes_free)

G_END_DECLS
