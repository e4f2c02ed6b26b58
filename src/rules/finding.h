/* finding.h: what a rule says about a joint.
 *
 * A finding holds ids and typed figures, the working behind them, the source, and where one exists the mend.
 * Sentences are made from it only where a person reads (wording.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "assembly/assembly.h"
#include "joint/edit.h"

G_BEGIN_DECLS

/* Worst last, so that the greater is the worse. */
typedef enum
{
  TL_SEVERITY_SOUND,
  TL_SEVERITY_WATCH,
  TL_SEVERITY_CHANGE,
  TL_SEVERITY_UNSAFE,
} TlSeverity;

typedef enum
{
  TL_CONCERN_GALVANIC,
  TL_CONCERN_GRIP,
  TL_CONCERN_CURRENT,
  TL_CONCERN_HEAT,
  TL_CONCERN_SEAL,
  TL_CONCERN_ROOM,
  TL_CONCERN_ROLES,
  TL_CONCERN_PRACTICE,
} TlConcern;

/* A figure against its limit. */
typedef struct
{
  const char *name;      /* static: key in JSON and placeholder in the sentence */
  TlRange     value;
  double      limit;     /* NAN if it has none */
  gboolean    limit_is_least; /* the figure has to reach the limit (else: must not pass it) */
  const char *unit;      /* static or owned by stock */
  TlTrust     trust;
  TlKnownBy   known_by;
  const char *source;    /* (nullable) source id */
  TlSeverity  severity;
} TlFigure;

typedef enum
{
  TL_WORD_MATERIAL, /* id of a material: its name in the reader's language */
  TL_WORD_OWNER,    /* id of a leg or layer: its name and number */
  TL_WORD_PART,     /* id of a part in the stock: its name and size */
  TL_WORD_FIELD_WORD, /* "surroundings=damp": the label of a word of a field */
  TL_WORD_TEXT,     /* msgid, translated as it stands */
  TL_WORD_VERBATIM, /* the person's own text or a citation, not translated */
} TlWordKind;

typedef struct
{
  const char *name; /* static placeholder */
  TlWordKind  kind;
  char       *text;
} TlWord;

/* --- mend: an edit that repairs --- */
typedef enum
{
  TL_MEND_INSERT,   /* @part of the stock at @seat */
  TL_MEND_REPLACE,  /* @owner becomes @part */
  TL_MEND_REMOVE,   /* @owner goes */
  TL_MEND_SET,      /* @fact of @owner */
  TL_MEND_MOVE,     /* @owner to @seat */
} TlMendKind;

typedef struct
{
  TlMendKind  kind;
  char       *owner;
  char       *part;
  TlSeat      seat;
  TlFact      fact;
  const char *label;  /* msgid for the button, with {part} {value}: "Put {part} under the head" */
} TlMend;

/* --- rules --- */
typedef struct _TlFindings TlFindings;
typedef void (*TlRuleFunc) (TlAssembly *assembly, TlFindings *findings);

typedef struct
{
  const char *id;      /* "galvanic.step": concern.what, never renamed */
  TlConcern   concern;
  const char *source;  /* source id */
  const char *title;   /* msgid: what the rule looks at */
  TlRuleFunc  run;
} TlRule;

typedef struct
{
  const TlRule *rule;
  TlSeverity    severity;
  TlTrust       trust;
  const char   *message;   /* msgid, placeholders in braces */
  const char   *why;       /* (nullable) msgid: why it matters, one or two sentences */
  GPtrArray    *owners;    /* (element-type utf8) legs and layers it is about */
  GArray       *contacts;  /* (element-type guint) indices in the assembly */
  GArray       *figures;   /* (element-type TlFigure) */
  GArray       *words;     /* (element-type TlWord) */
  GPtrArray    *calls;     /* (element-type TlCall) the working, inputs first */
  GPtrArray    *sources;   /* (element-type utf8) further source ids */
  const char   *dispute;   /* (nullable) question of the table of disputes that it turns on */
  const char   *source;    /* source id, that of the rule unless a better one was set */
  TlMend       *mend;      /* (nullable) */
  /*< private >*/
  GStringChunk *strings;   /* of the verdict: holds the owners, words and further sources */
  guint         place;     /* in the drawing: lowest leader number of its owners */
} TlFinding;

typedef struct
{
  const TlRule *rule;
  const char   *reason;    /* msgid with {field} or {part} */
  char         *owner;     /* (nullable) */
  TlField       field;     /* or TL_N_FIELDS */
} TlNotComputed;

/* --- what a rule calls --- */
TlFinding *tl_findings_add (TlFindings *self, TlSeverity severity, TlTrust trust, const char *message);
/* The rule applies but could not be computed: Sound is then impossible. */
void       tl_findings_not_computed (TlFindings *self, const char *reason, const char *owner, TlField field);
/* %TRUE while nobody wants workings (drag, search): tl_finding_call() then does nothing. */
gboolean   tl_findings_is_quick (const TlFindings *self);
/* Headline margin of this concern (galvanic, heat, grip, seal): the worst one offered is kept. @slack: how far from
 * the limit as a share of it, negative beyond; used to pick the worst. */
void       tl_findings_margin (TlFindings *self, TlConcern concern, const TlFigure *figure, double slack_ratio);

void tl_finding_owner (TlFinding *self, const char *owner);
void tl_finding_contact (TlFinding *self, guint contact);
void tl_finding_figure (TlFinding *self, const char *name, TlRange value, const char *unit, TlTrust trust);
/* Adds a figure with its limit; limits read from thresholds bring their known_by and source along. */
void tl_finding_limit (TlFinding *self, const char *name, TlRange value, double limit, gboolean limit_is_least, const char *unit, TlTrust trust, TlKnownBy known_by, const char *source);
void tl_finding_word (TlFinding *self, const char *name, TlWordKind kind, const char *text);
void tl_finding_call (TlFinding *self, const TlFindings *findings, const TlCall *call);
void tl_finding_why (TlFinding *self, const char *why);
void tl_finding_source (TlFinding *self, const char *source);      /* replaces the rule's */
void tl_finding_add_source (TlFinding *self, const char *source);  /* a further one */
/* @question: of the table "disputes", static; both sides are then told where the sources are */
void tl_finding_dispute (TlFinding *self, const char *question);
/* Rows of the table "disputes" on the finding's question, in file order; empty without one. Columns "side" ("for", "against")
 * and "text", a msgid: (element-type TlTableRow) (transfer container) */
GPtrArray *tl_finding_disputes (const TlFinding *self, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;
void tl_finding_mend_insert (TlFinding *self, const char *part, TlSeat seat, const char *label); /* takes @seat */
void tl_finding_mend_replace (TlFinding *self, const char *owner, const char *part, const char *label);
void tl_finding_mend_remove (TlFinding *self, const char *owner, const char *label);
void tl_finding_mend_number (TlFinding *self, const char *owner, TlField field, double value, const char *label);
void tl_finding_mend_word (TlFinding *self, const char *owner, TlField field, const char *word, const char *label);
void tl_finding_mend_move (TlFinding *self, const char *owner, TlSeat seat, const char *label);

/* Applies a mend; (transfer full) */
TlJoint *tl_mend_apply (const TlMend *mend, const TlJoint *joint, const TlStock *stock, GError **error) G_GNUC_WARN_UNUSED_RESULT;
TlMend  *tl_mend_copy (const TlMend *mend) G_GNUC_WARN_UNUSED_RESULT;
void     tl_mend_free (TlMend *mend);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlMend, tl_mend_free)

/**
 * tl_severity_of_figure:
 * The one function that turns a figure with a band into a severity (contract: beyond at the best estimate, beyond
 * only at the unfavourable end, equal or within the marginal strip, within), by trust class.
 * @worst: the rule's severity when the limit is passed
 * @strip: width of the marginal strip inside the limit, in the figure's unit, 0 if the rule has none
 */
TlSeverity tl_severity_of_figure (TlRange value, double limit, gboolean limit_is_least, double strip, TlTrust trust, TlSeverity worst);

/* One worse, Unsafe stays. */
TlSeverity  tl_severity_worse (TlSeverity severity);
/* "Unsafe" ... msgid and JSON word. */
const char *tl_severity_word (TlSeverity severity);
const char *tl_concern_word (TlConcern concern);
/* "A", "B", "I" */
const char *tl_trust_word (TlTrust trust);

G_END_DECLS
