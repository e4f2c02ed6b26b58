/* record-lines.c: lines of the forms of an inspection.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/record-lines.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- words of the slots, in their order --- */
static const char *const planes[] = { N_ ("nobody says"), N_ ("in the plane of the reference"),
                                      N_ ("off that plane by at most…"), NULL };
static const char *const limits[] = { N_ ("none"), N_ ("at least"), N_ ("at most"), N_ ("between"),
                                      NULL };
static const char *
plane_word (guint index)
{
  return planes[index];
}

static const char *
limit_word (guint index)
{
  return limits[index];
}

static const char *
screw_word (guint index)
{
  return tl_screw_label ((TlScrew) index);
}

static const char *
grade_word (guint index)
{
  return tl_grade_label ((TlGrade) index);
}

static const char *
circuit_word (guint index)
{
  return tl_circuit_label ((TlCircuit) index);
}

static const char *
surface_word (guint index)
{
  return tl_surface_label ((TlSurface) index);
}

/* --- scales --- */
#define TRUST                                                                                      \
  { "plane", TL_LINE_CHOICE, N_ ("What is measured lies"), NULL, plane_word },                     \
      { "off-plane-mm", TL_LINE_NUMBER, N_ ("Off the plane, at most"), "mm", NULL },               \
      { "distance-mm", TL_LINE_NUMBER, N_ ("Camera to reference"), "mm", NULL },                   \
      { "distortion", TL_LINE_NUMBER, N_ ("Lens: corner shift, share"), NULL, NULL },              \
  {                                                                                                \
    "click-px", TL_LINE_NUMBER, N_ ("Spread of a click"), "px", NULL                               \
  }

static const TlRecordLine length_lines[] = {
  { "length-mm", TL_LINE_NUMBER, N_ ("True length"), "mm", NULL },
  { "reference-u-mm", TL_LINE_NUMBER, N_ ("Its uncertainty, standard"), "mm", NULL },
  { "what", TL_LINE_TEXT, N_ ("What it is (“steel rule, 0 to 20 mm”)"), NULL, NULL },
  TRUST,
  { "tilt-deg", TL_LINE_NUMBER, N_ ("Slant to the camera, at most"), "deg", NULL },
  { NULL },
};

static const TlRecordLine rectangle_lines[] = {
  { "length-mm", TL_LINE_NUMBER, N_ ("First edge, 1 to 2"), "mm", NULL },
  { "height-mm", TL_LINE_NUMBER, N_ ("Second edge, 2 to 3"), "mm", NULL },
  { "reference-u-mm", TL_LINE_NUMBER, N_ ("Their uncertainty, standard"), "mm", NULL },
  { "bias-px", TL_LINE_NUMBER, N_ ("Corners all off by"), "px", NULL },
  { "what", TL_LINE_TEXT, N_ ("What it is (“device plate”)"), NULL, NULL },
  TRUST,
  { NULL },
};

/* --- measures --- */
#define MEASURE(unit)                                                                              \
  {                                                                                                \
    { "what", TL_LINE_TEXT, N_ ("What it is"), NULL, NULL },                                       \
        { TL_LINE_CHECKS, TL_LINE_LIST, N_ ("Found value for the design"), NULL, NULL },           \
        { "limit-kind", TL_LINE_CHOICE, N_ ("Limit"), NULL, limit_word },                          \
        { "limit", TL_LINE_NUMBER, N_ ("Limit, or the lower one"), unit, NULL },                   \
        { "limit-most", TL_LINE_NUMBER, N_ ("Upper limit"), unit, NULL },                          \
        { "lean-deg", TL_LINE_NUMBER, N_ ("Leans from its plane, at most"), "deg", NULL },         \
        { "limit-from", TL_LINE_TEXT, N_ ("What gives the limit: rule with edition"), NULL,        \
          NULL },                                                                                  \
        { "scale", TL_LINE_LIST, N_ ("Made by the scale"), NULL, NULL }, { NULL },                 \
  }

static const TlRecordLine length_measure_lines[] = MEASURE ("mm");
static const TlRecordLine angle_measure_lines[] = MEASURE ("deg");
static const TlRecordLine area_measure_lines[] = MEASURE ("mm2");

/* --- marks --- */
static const TlRecordLine mark_lines[] = {
  { "grade", TL_LINE_CHOICE, N_ ("Severity"), NULL, grade_word },
  { "deadline", TL_LINE_SHORT, N_ ("To be done by (day)"), NULL, NULL },
  { "seen", TL_LINE_LONG, N_ ("Seen"), NULL, NULL },
  { "measure", TL_LINE_LIST, N_ ("Measured"), NULL, NULL },
  { "criterion", TL_LINE_LONG, N_ ("Criterion: rule and edition"), NULL, NULL },
  { "source", TL_LINE_LIST, N_ ("Its source"), NULL, NULL },
  { "cause", TL_LINE_LONG, N_ ("Likely cause (opinion)"), NULL, NULL },
  { "action", TL_LINE_LONG, N_ ("Action"), NULL, NULL },
  { "tie", TL_LINE_LIST, N_ ("Belongs to, in the design"), NULL, NULL },
  { "colour", TL_LINE_LIST, N_ ("Colour of the line"), NULL, NULL },
  { NULL },
};

/* --- readings --- */
#define INSTRUMENT                                                                                 \
  { "instrument", TL_LINE_TEXT, N_ ("Instrument"), NULL, NULL },                                   \
      { "serial", TL_LINE_SHORT, N_ ("Serial number"), NULL, NULL },                               \
      { "calibrated", TL_LINE_SHORT, N_ ("Calibrated on (day)"), NULL, NULL },                     \
      { "tie", TL_LINE_LIST, N_ ("Belongs to, in the design"), NULL, NULL },                       \
      { "picture", TL_LINE_LIST, N_ ("Picture of it"), NULL, NULL },                               \
  {                                                                                                \
    "note", TL_LINE_LONG, N_ ("Note"), NULL, NULL                                                  \
  }
#define VALUE(unit, spread)                                                                        \
  { "value", TL_LINE_ZERO, N_ ("Read"), unit, NULL },                                              \
  {                                                                                                \
    "uncertainty", TL_LINE_NUMBER, N_ ("U, k = 2"), spread, NULL                                   \
  }
#define COMPARED(unit)                                                                             \
  { "initial", TL_LINE_NUMBER, N_ ("When it was made"), unit, NULL },                              \
      { "conductor", TL_LINE_NUMBER, N_ ("Same length of wire"), unit, NULL },                     \
  {                                                                                                \
    "similar", TL_LINE_NUMBERS, N_ ("At similar joints (a; b; c)"), unit, NULL                     \
  }
#define LOAD                                                                                       \
  { "load-a", TL_LINE_NUMBER, N_ ("Load at the time"), "A", NULL },                                \
  {                                                                                                \
    "full-load-a", TL_LINE_NUMBER, N_ ("Full load"), "A", NULL                                     \
  }
#define SPOT                                                                                       \
  { "emissivity", TL_LINE_NUMBER, N_ ("Emissivity"), NULL, NULL },                                 \
      { "target-px", TL_LINE_NUMBER, N_ ("Spot, camera pixels"), "px", NULL },                     \
  {                                                                                                \
    "contact", TL_LINE_FLAG, N_ ("By a probe that touches"), NULL, NULL                            \
  }

static const TlRecordLine resistance_lines[] = {
  VALUE ("uohm", "uohm"), COMPARED ("uohm"), INSTRUMENT, { NULL }
};
static const TlRecordLine drop_lines[] = { VALUE ("mV", "mV"),
                                           { "current-a", TL_LINE_NUMBER, N_ ("At a current of"),
                                             "A", NULL },
                                           COMPARED ("mV"),
                                           INSTRUMENT,
                                           { NULL } };
static const TlRecordLine spot_lines[] = {
  VALUE ("degC", "K"),
  LOAD,
  { "ambient-known", TL_LINE_FLAG, N_ ("Air is known"), NULL, NULL },
  { "ambient-c", TL_LINE_ZERO, N_ ("Air"), "degC", NULL },
  SPOT,
  { "surface", TL_LINE_CHOICE, N_ ("What the spot lies on"), NULL, surface_word },
  INSTRUMENT,
  { NULL }
};
static const TlRecordLine difference_lines[] = {
  VALUE ("K", "K"),
  LOAD,
  { "ambient-known", TL_LINE_FLAG, N_ ("Air is known"), NULL, NULL },
  { "ambient-c", TL_LINE_ZERO, N_ ("Air"), "degC", NULL },
  SPOT,
  INSTRUMENT,
  { NULL }
};
static const TlRecordLine insulation_lines[] = {
  VALUE ("Mohm", "Mohm"),
  { "circuit", TL_LINE_CHOICE, N_ ("Circuit"), NULL, circuit_word },
  { "test-v", TL_LINE_NUMBER, N_ ("Tested with"), "V", NULL },
  INSTRUMENT,
  { NULL }
};
static const TlRecordLine torque_lines[] = {
  VALUE ("N_m", "N_m"),
  { "screw", TL_LINE_CHOICE, N_ ("Screw"), NULL, screw_word },
  { "nominal-nm", TL_LINE_NUMBER, N_ ("Nominal"), "N_m", NULL },
  { "load-a", TL_LINE_NUMBER, N_ ("Load of the circuit"), "A", NULL },
  { "moved", TL_LINE_FLAG, N_ ("It moved"), NULL, NULL },
  INSTRUMENT,
  { NULL }
};

static const TlRecordLine *const readings[TL_N_READING_KINDS] = {
  resistance_lines, drop_lines, spot_lines, difference_lines, insulation_lines, torque_lines
};

const TlRecordLine *
tl_record_lines (gconstpointer record)
{
  const TlForm *form = ((const TlRecord *) record)->form;

  if (form == &tl_scale_form)
    return ((const TlScale *) record)->kind == TL_SCALE_LENGTH ? length_lines : rectangle_lines;
  if (form == &tl_measure_form)
    {
      TlMeasureKind kind = ((const TlMeasure *) record)->kind;

      return kind == TL_MEASURE_ANGLE  ? angle_measure_lines
             : kind == TL_MEASURE_AREA ? area_measure_lines
                                       : length_measure_lines;
    }
  if (form == &tl_picture_mark_form)
    return mark_lines;
  g_assert (form == &tl_reading_form);
  return readings[((const TlReading *) record)->kind];
}

/* --- texts --- */
static const TlRecordLine inspection_lines[] = {
  { "number", TL_LINE_TEXT, N_ ("Number of the report"), NULL, NULL },
  { "purpose", TL_LINE_LONG, N_ ("Purpose and question"), NULL, NULL },
  { "begun", TL_LINE_TEXT, N_ ("Date and time, with zone"), NULL, NULL },
  { "present", TL_LINE_TEXT, N_ ("Who was present"), NULL, NULL },
  { "author", TL_LINE_TEXT, N_ ("Author"), NULL, NULL },
  { "qualification", TL_LINE_TEXT, N_ ("Author's qualification"), NULL, NULL },
  { "not-inspected", TL_LINE_LONG, N_ ("Not inspected or not reached"), NULL, NULL },
  { "assumptions", TL_LINE_LONG, N_ ("Assumptions"), NULL, NULL },
  { "conclusion", TL_LINE_LONG, N_ ("Conclusion (opinion)"), NULL, NULL },
  { NULL },
};

static const TlRecordLine photo_lines[] = {
  { "caption", TL_LINE_TEXT, N_ ("Caption"), NULL, NULL },
  { "view", TL_LINE_TEXT, N_ ("View (the same word for each look)"), NULL, NULL },
  { "clock-known", TL_LINE_FLAG, N_ ("Camera clock checked"), NULL, NULL },
  { "clock-offset-s", TL_LINE_ZERO, N_ ("To be added to it"), "s", NULL },
  { "rendered", TL_LINE_FLAG, N_ ("Drawn by a program"), NULL, NULL },
  { NULL },
};

static const TlRecordLine found_lines[] = {
  { TL_LINE_CHECKS, TL_LINE_LIST, N_ ("Fact of the design"), NULL, NULL },
  { "value", TL_LINE_ZERO, N_ ("Found"), NULL, NULL },
  { "expanded", TL_LINE_NUMBER, N_ ("U, k = 2"), NULL, NULL },
  { "tolerance", TL_LINE_NUMBER, N_ ("Permitted, both ways"), NULL, NULL },
  { "word", TL_LINE_TEXT, N_ ("Or in a word"), NULL, NULL },
  { "note", TL_LINE_TEXT, N_ ("How: instrument and date"), NULL, NULL },
  { NULL },
};

const TlRecordLine *
tl_record_lines_inspection (void)
{
  return inspection_lines;
}

const TlRecordLine *
tl_record_lines_photo (void)
{
  return photo_lines;
}

const TlRecordLine *
tl_record_lines_found (void)
{
  return found_lines;
}

/* --- lists --- */

typedef struct
{
  GStrvBuilder *texts, *ids;
} List;

static void
add (List *list, const char *text, const char *id)
{
  g_strv_builder_add (list->texts, text);
  g_strv_builder_add (list->ids, id);
}

static void
hand_over (List *list, TlRecordForm *form, const char *slot, const char *chosen)
{
  g_auto (GStrv) texts = g_strv_builder_end (list->texts), ids = g_strv_builder_end (list->ids);

  g_strv_builder_unref (list->texts);
  g_strv_builder_unref (list->ids);
  if (tl_record_form_input (form, slot) != NULL)
    tl_record_form_fill (form, slot, (const char *const *) texts, (const char *const *) ids,
                         chosen);
}

static List
list_new (const char *none)
{
  List list = { g_strv_builder_new (), g_strv_builder_new () };

  if (none != NULL)
    add (&list, none, "");
  return list;
}

/* One contact of each pair of parts; %TRUE if @chosen is among them. */
static gboolean
add_contacts (List *list, TlDocument *document, const char *chosen)
{
  const TlVerdict  *verdict = tl_document_verdict (document);
  const TlAssembly *assembly = verdict->assembly;
  g_autoptr (GHashTable) pairs = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gboolean found = FALSE;

  for (guint i = 0; i < assembly->contacts->len; i++)
    {
      const TlContact *contact = &g_array_index (assembly->contacts, TlContact, i);
      const char      *a = tl_assembly_body (assembly, contact->a)->owner,
                 *b = tl_assembly_body (assembly, contact->b)->owner;
      gboolean         is_it = strcmp (contact->id, chosen) == 0;
      g_autofree char *text = NULL;

      if (strcmp (a, b) == 0
          || (!g_hash_table_add (pairs, g_strconcat (a, " ", b, NULL)) && !is_it))
        continue;
      text = tl_owner_text (verdict, contact->id, tl_document_effective_stock (document),
                            tl_document_language (document));
      add (list, text, contact->id);
      found = found || is_it;
    }
  return found;
}

static void
fill_ties (TlRecordForm *form, TlInspector *inspector, const char *chosen)
{
  TlDocument    *document = tl_inspector_document (inspector);
  const TlJoint *joint = tl_document_joint (document);
  List           list = list_new (_ ("nothing in particular"));
  gboolean       is_there = *chosen == '\0';

  for (guint i = 0; i < joint->legs->len + joint->layers->len; i++)
    {
      const char *id =
          i < joint->legs->len
              ? ((const TlLeg *) g_ptr_array_index (joint->legs, i))->id
              : ((const TlLayer *) g_ptr_array_index (joint->layers, i - joint->legs->len))->id;
      g_autofree char *text =
          tl_owner_text (tl_document_verdict (document), id, tl_document_effective_stock (document),
                         tl_document_language (document));

      add (&list, text, id);
      is_there = is_there || strcmp (id, chosen) == 0;
    }
  is_there = add_contacts (&list, document, chosen) || is_there;
  /* A part or contact that was taken out since: the tie stays as it is. */
  if (!is_there)
    add (&list, chosen, chosen);
  hand_over (&list, form, "tie", chosen);
}

static void
fill_measured (TlRecordForm *form, TlInspector *inspector, const char *chosen)
{
  const TlInspection  *inspection = tl_inspector_inspection (inspector);
  const TlInspections *all = tl_inspector_inspections (inspector);
  const TlLanguage    *language = tl_document_language (tl_inspector_document (inspector));
  List                 list = list_new (_ ("not measured"));

  for (guint i = 0; inspection != NULL && i < inspection->measures->len; i++)
    {
      const TlMeasure *measure = g_ptr_array_index (inspection->measures, i);
      TlMeasureResult  result;
      g_autofree char *figure = NULL, *text = NULL;

      if (!tl_inspections_run (all, inspection, measure, &result, NULL))
        continue;
      figure = tl_measure_text (measure, &result, language);
      text = g_strdup_printf (
          "%s · %s", figure,
          *measure->what != '\0'
              ? measure->what
              : tl_language_text (language, tl_measure_kind_label (measure->kind)));
      add (&list, text, measure->id);
    }
  for (guint i = 0; inspection != NULL && i < all->readings->len; i++)
    {
      const TlReading *reading = g_ptr_array_index (all->readings, i);
      g_autofree char *figure = NULL, *text = NULL;

      if (strcmp (reading->inspection, inspection->id) != 0)
        continue;
      figure = tl_reading_text (reading, language);
      text = g_strdup_printf ("%s · %s", figure,
                              tl_language_text (language, tl_reading_kind_label (reading->kind)));
      add (&list, text, reading->id);
    }
  hand_over (&list, form, "measure", chosen);
}

static void
fill_sources (TlRecordForm *form, TlInspector *inspector, const char *chosen)
{
  const GPtrArray *sources =
      tl_stock_sources (tl_document_stock (tl_inspector_document (inspector)));
  List list = list_new (_ ("none named"));

  for (guint i = 0; i < sources->len; i++)
    {
      const TlSource *source = g_ptr_array_index (sources, i);

      add (&list, source->title, source->id);
    }
  hand_over (&list, form, "source", chosen);
}

static void
fill_colours (TlRecordForm *form, const char *chosen)
{
  List list = list_new (_ ("white"));

  add (&list, _ ("blue"), "blue");
  add (&list, _ ("yellow"), "yellow");
  add (&list, _ ("black"), "black");
  hand_over (&list, form, "colour", chosen);
}

static void
fill_scales (TlRecordForm *form, TlInspector *inspector, const TlMeasure *measure)
{
  const TlInspection *inspection = tl_inspector_inspection (inspector);
  List                list = list_new (NULL);

  for (guint i = 0; inspection != NULL && i < inspection->scales->len; i++)
    {
      const TlScale   *scale = g_ptr_array_index (inspection->scales, i);
      g_autofree char *length = NULL, *text = NULL;

      if (strcmp (scale->picture, measure->picture) != 0)
        continue;
      length = tl_language_number (tl_document_language (tl_inspector_document (inspector)),
                                   scale->length_mm, 1);
      text = g_strdup_printf (_ ("%s mm, %s"), length,
                              *scale->what != '\0'                ? scale->what
                              : scale->kind == TL_SCALE_RECTANGLE ? _ ("rectangle")
                                                                  : _ ("length"));
      add (&list, text, scale->id);
    }
  hand_over (&list, form, "scale", measure->scale);
}

static void
fill_photos (TlRecordForm *form, TlInspector *inspector, const char *chosen)
{
  const GPtrArray *photos = tl_inspector_inspections (inspector)->photos;
  List             list = list_new (_ ("none"));

  for (guint i = 0; i < photos->len; i++)
    {
      const TlPhoto *photo = g_ptr_array_index (photos, i);

      add (&list, *photo->caption != '\0' ? photo->caption : photo->name, photo->id);
    }
  hand_over (&list, form, "picture", chosen);
}

/* Every figure of the design that nobody checked yet, and the one that @chosen checks. */
static void
fill_checks (TlRecordForm *form, TlInspector *inspector, const char *chosen)
{
  TlDocument      *document = tl_inspector_document (inspector);
  const TlAsFound *as_found = tl_inspector_as_found (inspector);
  List             list = list_new (_ ("none: only measured"));

  for (guint i = 0; as_found != NULL && i < as_found->rows->len; i++)
    {
      const TlFoundRow *row = g_ptr_array_index (as_found->rows, i);
      g_autofree char  *id = g_strconcat (row->found->owner, " ", row->found->field, NULL);
      g_autofree char  *owner = NULL, *text = NULL;

      if (strcmp (id, chosen) != 0)
        continue;
      owner =
          tl_owner_text (as_found->designed, row->found->owner,
                         tl_document_effective_stock (document), tl_document_language (document));
      text = g_strdup_printf (
          "%s: %s", owner,
          tl_language_text (tl_document_language (document), tl_field_info (row->field)->label));
      add (&list, text, id);
    }
  for (guint i = 0; as_found != NULL && i < as_found->unchecked->len; i++)
    {
      const TlUnchecked *fact = g_ptr_array_index (as_found->unchecked, i);
      g_autofree char *id = g_strconcat (fact->owner, " ", tl_field_info (fact->field)->key, NULL);
      g_autofree char *text =
          tl_unchecked_text (fact, as_found->designed, tl_document_effective_stock (document),
                             tl_document_language (document));

      add (&list, text, id);
    }
  hand_over (&list, form, TL_LINE_CHECKS, chosen);
}

void
tl_record_lines_fill (TlRecordForm *form, TlInspector *inspector, gconstpointer record)
{
  const TlForm *kind = ((const TlRecord *) record)->form;

  if (kind == &tl_measure_form)
    {
      const TlMeasure *measure = record;
      g_autofree char *checks = *measure->owner == '\0'
                                    ? g_strdup ("")
                                    : g_strconcat (measure->owner, " ", measure->field, NULL);

      fill_checks (form, inspector, checks);
      fill_scales (form, inspector, measure);
    }
  else if (kind == &tl_picture_mark_form)
    {
      const TlPictureMark *mark = record;

      fill_measured (form, inspector, mark->measure);
      fill_sources (form, inspector, mark->source);
      fill_ties (form, inspector, mark->tie);
      fill_colours (form, mark->colour);
    }
  else if (kind == &tl_reading_form)
    {
      fill_ties (form, inspector, ((const TlReading *) record)->tie);
      fill_photos (form, inspector, ((const TlReading *) record)->picture);
    }
  else if (kind == &tl_found_form)
    fill_checks (form, inspector, "");
}
