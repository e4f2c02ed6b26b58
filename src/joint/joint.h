/* joint.h: the document: what the person made.
 *
 * An immutable, reference-counted value: an edit (edit.h) makes a new joint that shares what did not change.
 * Facts here are what the person states; figures of the stock are looked up through part ids.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "base/fact.h"
#include "base/xml.h"
#include "picture/picture.h"
#include "stock/stock.h"

G_BEGIN_DECLS

/* Where a leg or a layer sits. */
typedef enum
{
  TL_SEAT_NONE,   /* not placed yet: lies beside the joint */
  TL_SEAT_STACK,  /* in the stack, at @place, counted from the head */
  TL_SEAT_ON,     /* on the leg or layer @of: coat, compound, ferrule, lug */
  TL_SEAT_AROUND, /* around the legs or layers @from .. @to: sleeve, sealing sleeve, cap */
  TL_SEAT_PORT,   /* in mouth @place (1, 2) of the layer @of */
} TlSeatKind;

typedef struct
{
  TlSeatKind kind;
  guint      place; /* stack: 0, 1, ...; port: 1 left mouth, 2 right mouth */
  char      *of;
  char      *from;
  char      *to;
} TlSeat;

/* One act of preparing a leg, in order: "degrease", "strip", "brush", "brush-compound", "flux", "tin",
 * "clean-flux", "cool", "ferrule", "form-eye", "deburr". */
typedef struct
{
  char    *act;
  TlFacts *facts; /* figures of the act */
} TlPreparation;

/* A conductor that ends here. */
typedef struct
{
  /*< private >*/
  gatomicrefcount ref_count;
  /*< public >*/
  char      *id;          /* "leg-1": kept through moves, undo, copies, variants */
  char      *part;        /* (nullable): id of a conductor in the stock */
  TlSeat     seat;
  TlFacts   *facts;
  GPtrArray *preparation; /* (element-type TlPreparation) */
} TlLeg;

/* A part that is not a leg. */
typedef struct
{
  /*< private >*/
  gatomicrefcount ref_count;
  /*< public >*/
  char      *id;    /* "layer-3" */
  char      *part;  /* (nullable): id in the stock */
  TlPartKind kind;
  TlSeat     seat;
  TlFacts   *facts; /* what differs from the stock, and what the person adds (torque, die) */
} TlLayer;

typedef struct _TlJoint TlJoint;

#define TL_JOINT_MAX_LEGS 8

/* Another way to make the same joint: a joint of its own, without variants of its own. */
typedef struct
{
  char    *name;
  TlJoint *joint;
} TlVariant;

/* All fields are read-only for everybody but the edits and joint-read.c. */
struct _TlJoint
{
  /*< private >*/
  gatomicrefcount ref_count;
  /*< public >*/
  char      *name;          /* "Socket circuit, Weaving floor" */
  char      *place;         /* "Fennick Mill, box W-14" */
  char      *prepared_by;
  char      *date;          /* ISO 8601 day, or "" */
  char      *note;
  char      *practice;      /* "iec-style" | "nfpa70-style" | "strict" */
  char      *units;         /* "metric" | "customary" */
  char      *sheet_language;/* tag or "" for the reader's own */
  gboolean   fault_example; /* a teaching example of a fault: the sheet says so across each page */
  GPtrArray *legs;          /* (element-type TlLeg) 0 to 8 */
  GPtrArray *layers;        /* (element-type TlLayer) */
  char      *box;           /* (nullable): id of a box in the stock */
  char      *forbidden;     /* ways of joining that local rules forbid: words of tl_way_words() in their order, one
                               space between; "" if none */
  TlFacts   *site;          /* facts of the box (inner sizes) stand here too */
  TlFacts   *duty;
  TlUsed    *used;          /* (nullable) */
  GPtrArray *variants;      /* (element-type TlVariant) */
  GPtrArray *reserved;      /* (element-type TlXmlNode): pictures, readings, inspections, exercise, as read */
  guint      minor;         /* minor version of the file it came from */
  guint      next_id;       /* number of the next new id: only grows, so no id is used twice */
  TlOriginals *originals;   /* (nullable): the bytes of its pictures; shared by all that come from this joint */
  /*< private >*/
  GHashTable *kept;         /* (nullable): unknown elements and attributes of a newer minor version, by place */
};

TlJoint *tl_joint_new (void) G_GNUC_WARN_UNUSED_RESULT;
TlJoint *tl_joint_ref (const TlJoint *self);
void     tl_joint_unref (TlJoint *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlJoint, tl_joint_unref)

/* (transfer none) (nullable) */
const TlLeg   *tl_joint_leg (const TlJoint *self, const char *id);
const TlLayer *tl_joint_layer (const TlJoint *self, const char *id);
/* Seat of a leg or layer; (nullable) */
const TlSeat  *tl_joint_seat (const TlJoint *self, const char *id);
/* Equal in everything that a file holds. */
gboolean tl_joint_equal (const TlJoint *a, const TlJoint *b);

/* Effective fact: the person's own, else that of the stock's part (or of its copy in `used`); (nullable). */
const TlFact *tl_leg_fact (const TlLeg *leg, const TlStock *stock, TlField field);
const TlFact *tl_layer_fact (const TlLayer *layer, const TlStock *stock, TlField field);
/* Best value or @fallback; word or @fallback. */
double      tl_leg_number (const TlLeg *leg, const TlStock *stock, TlField field, double fallback);
const char *tl_leg_word (const TlLeg *leg, const TlStock *stock, TlField field, const char *fallback);
double      tl_layer_number (const TlLayer *layer, const TlStock *stock, TlField field, double fallback);
const char *tl_layer_word (const TlLayer *layer, const TlStock *stock, TlField field, const char *fallback);
/* Fact of the site, else of the box part. */
const TlFact *tl_joint_site_fact (const TlJoint *self, const TlStock *stock, TlField field);

/* Ids of what a seat "around" embraces, ends included: in the order of the stack if both ends stand there,
 * else in the order of the legs or of the layers; of a leg and a layer just these two.
 * (element-type utf8) (transfer container) */
GPtrArray *tl_joint_around (const TlJoint *self, const TlSeat *seat) G_GNUC_WARN_UNUSED_RESULT;

/* Mouths that a layer of @kind has: 0 for what takes nothing in (a washer). Ports count from 1. */
guint tl_part_kind_ports (TlPartKind kind);

/* Ids of what stands in the stack, from the head: (element-type utf8) (transfer container) */
GPtrArray *tl_joint_stack (const TlJoint *self) G_GNUC_WARN_UNUSED_RESULT;

/* Ways of joining: "bolted-stack", "pressed-sleeve", "cable-lug", "screw-terminal", "spring-terminal",
 * "device-terminal", "branch-connector", "soldered", "welded", "twist"; (array zero-terminated=1) */
const char *const *tl_way_words (void);
/* msgid: "bolted stack" */
const char *tl_way_label (const char *way);
/* %TRUE if the person marked @way as forbidden by local rules. */
gboolean    tl_joint_forbids (const TlJoint *self, const char *way);

/* Fields a person may edit, in the order of the form: (array length=count) (transfer none) */
const TlField *tl_leg_fields (guint *count);
const TlField *tl_site_fields (guint *count);
const TlField *tl_duty_fields (guint *count);

/* Every fact known by "assumed" as (owner id or "site"/"duty", fact): for the sheet's box. */
typedef struct
{
  const char   *owner;
  const TlFact *fact;
} TlAssumed;
GArray *tl_joint_assumed (const TlJoint *self) G_GNUC_WARN_UNUSED_RESULT; /* (element-type TlAssumed) */

G_END_DECLS
