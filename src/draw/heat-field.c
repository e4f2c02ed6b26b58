/* heat-field.c: solving a joint for its overlays, and where each body lies in the network.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/heat-field.h"

#include "assembly/heat-model.h"
#include "plan/ageing.h"
#include "rules/wording.h"

#include <math.h>
#include <string.h>

/* Leads that count for the range of the colours. */
#define LEAD_SHOWN_MM 10.0
/* Span of the forecast at least: the same as the Ageing page starts with. */
#define SPAN_YEARS 20.0
/* Below this current the metal does not warm itself: the resistance is the cold one. */
#define COLD_A 0.1
#define MOST_RATIO 1e5

/* One line of the network as it lies in the drawing. */
typedef struct
{
  char    *owner;
  guint    body;
  gboolean is_lead;
  guint    n;
  double  *x_mm;          /* (array length=n), rising, of the network */
  double  *temperature_C; /* (array length=n) */
  gboolean has_way;
  double   way_x, way_y; /* of greater x of the network, in the drawing */
  double   origin_mm;    /* x of the network where the drawing has 0 */
} Line;

struct _TlHeatField
{
  gatomicrefcount ref_count;
  TlAssembly     *assembly; /* its own */
  double          years;
  gboolean        is_computed;
  const char     *reason; /* msgid */
  const char     *reason_owner;
  GArray         *lines;        /* (element-type Line) */
  gint           *line_of_body; /* (array length=bodies): -1 by place */
  GArray         *paths;        /* (element-type TlCurrentPath) */
  const char     *source, *sink, *hot_owner;
  double          low_C, high_C, hot_C;
  double          load_A, ambient_C;
  double          growth_ratio;
  gboolean        is_open;
};

static const char *const words[TL_N_OVERLAYS] = { "none", "heat", "current", "wet" };

const char *
tl_overlay_word (TlOverlay overlay)
{
  g_return_val_if_fail ((guint) overlay < TL_N_OVERLAYS, words[0]);
  return words[overlay];
}

gboolean
tl_overlay_from_word (const char *word, TlOverlay *overlay)
{
  g_return_val_if_fail (word != NULL && overlay != NULL, FALSE);
  for (guint i = 0; i < TL_N_OVERLAYS; i++)
    if (strcmp (word, words[i]) == 0)
      {
        *overlay = (TlOverlay) i;
        return TRUE;
      }
  return FALSE;
}

static void
line_clear (Line *line)
{
  g_free (line->owner);
  g_free (line->x_mm);
  g_free (line->temperature_C);
}

/* --- where a line lies in the drawing --- */

static void
place_in_stack (const TlHeatField *self, Line *line, double lead_x_mm)
{
  const TlBody *body = tl_assembly_body (self->assembly, line->body);

  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *solid = &g_array_index (body->solids, TlSolid, i);
      double         angle = solid->direction_deg * G_PI / 180.0;

      if (solid->kind != TL_SOLID_EYE && solid->kind != TL_SOLID_PLATE)
        continue;
      line->has_way = TRUE;
      line->way_x = copysign (1.0, lead_x_mm) * cos (angle);
      line->way_y = copysign (1.0, lead_x_mm) * sin (angle);
      return;
    }
}

static double
family_length_mm (const TlAssembly *assembly)
{
  return assembly->family == TL_FAMILY_TERMINAL ? assembly->terminal.length_mm
         : assembly->family == TL_FAMILY_SPLICE ? assembly->splice.overlap_mm
                                                : assembly->sleeve.length_mm;
}

static void
extent_of (const TlBody *body, double *start_mm, double *end_mm)
{
  *start_mm = HUGE_VAL;
  *end_mm = -HUGE_VAL;
  for (guint i = 0; i < body->solids->len; i++)
    {
      const TlSolid *s = &g_array_index (body->solids, TlSolid, i);
      gboolean       is_rod = s->kind == TL_SOLID_ROD;

      *start_mm = MIN (*start_mm, is_rod ? MIN (s->x0_mm, s->x1_mm) : s->start_mm);
      *end_mm = MAX (*end_mm, is_rod ? MAX (s->x0_mm, s->x1_mm) : s->end_mm);
    }
}

/* A conductor that the network has at the other mouth than the drawing is turned over. */
static void
place_along (const TlHeatField *self, Line *line)
{
  double   length = family_length_mm (self->assembly), start, end;
  gboolean net_left = -line->x_mm[0] > line->x_mm[line->n - 1] - length, is_turned;

  extent_of (tl_assembly_body (self->assembly, line->body), &start, &end);
  is_turned = line->is_lead && end > start && net_left != (-start > end - length);
  line->has_way = TRUE;
  line->way_x = is_turned ? -1.0 : 1.0;
  line->origin_mm = is_turned ? length : 0.0;
}

/* What lies between the conductors: from the first towards the last. */
static void
place_between (TlHeatField *self, guint first, guint last)
{
  const Line *a = &g_array_index (self->lines, Line, first),
             *b = &g_array_index (self->lines, Line, last);
  double x = a->way_x + b->way_x, y = a->way_y + b->way_y, length = hypot (x, y);

  for (guint i = 0; i < self->lines->len && length > 0.2; i++)
    {
      Line *line = &g_array_index (self->lines, Line, i);

      if (line->has_way)
        continue;
      line->has_way = TRUE;
      line->way_x = x / length;
      line->way_y = y / length;
    }
}

static gint
line_of_owner (const TlHeatField *self, const char *owner)
{
  for (guint i = 0; i < self->lines->len; i++)
    if (g_strcmp0 (g_array_index (self->lines, Line, i).owner, owner) == 0)
      return (gint) i;
  return -1;
}

/* Bodies that are no line take that of a neighbour, pressed ones first; in a sleeve the place decides instead. */
static void
spread_lines (TlHeatField *self)
{
  const GArray *contacts = self->assembly->contacts;
  gboolean      is_new = TRUE;

  while (is_new)
    {
      is_new = FALSE;
      for (guint kind = TL_CONTACT_PRESSED; kind <= TL_CONTACT_MAY_BRIDGE && !is_new; kind++)
        for (guint i = 0; i < contacts->len; i++)
          {
            const TlContact *contact = &g_array_index (contacts, TlContact, i);
            gint *a = &self->line_of_body[contact->a], *b = &self->line_of_body[contact->b];

            if ((guint) contact->kind != kind || (*a < 0) == (*b < 0))
              continue;
            *a = *b = MAX (*a, *b);
            is_new = TRUE;
          }
    }
}

static void
place_bodies (TlHeatField *self)
{
  guint n = self->assembly->bodies->len;

  self->line_of_body = g_new (gint, n);
  for (guint i = 0; i < n; i++)
    self->line_of_body[i] = line_of_owner (self, tl_assembly_body (self->assembly, i)->owner);
  for (guint i = 0; i < self->lines->len; i++)
    for (guint k = 0; k < n; k++)
      {
        const Line *line = &g_array_index (self->lines, Line, i);

        /* a lug stands for its conductor: its other bodies go with its tang */
        if (line->body == k
            || (self->line_of_body[k] < 0
                && g_strcmp0 (tl_assembly_body (self->assembly, k)->owner,
                              tl_assembly_body (self->assembly, line->body)->owner)
                       == 0))
          self->line_of_body[k] = (gint) i;
      }
  if (self->assembly->family == TL_FAMILY_STACK)
    spread_lines (self);
}

/* --- reading the result --- */

static double
value_at (const Line *line, double x_mm)
{
  guint low = 0, high = line->n - 1;

  if (x_mm <= line->x_mm[0])
    return line->temperature_C[0];
  if (x_mm >= line->x_mm[high])
    return line->temperature_C[high];
  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (line->x_mm[middle] <= x_mm)
        low = middle;
      else
        high = middle;
    }
  return line->temperature_C[low]
         + (line->temperature_C[high] - line->temperature_C[low]) * (x_mm - line->x_mm[low])
               / MAX (line->x_mm[high] - line->x_mm[low], 1e-9);
}

static void
read_lines (TlHeatField *self, const TlHeatModel *model, const TlNetProfile *profile)
{
  const TlNetwork *network = tl_heat_model_network (model);
  const GArray    *rows = tl_heat_model_lines (model);

  for (guint i = 0; i < rows->len; i++)
    {
      const TlHeatLine *row = &g_array_index (rows, TlHeatLine, i);
      const TlNetLine  *from = &profile->lines[i];
      Line              line = {
                     g_strdup (row->owner), row->body, row->is_lead, from->n, NULL, NULL, FALSE, 0.0, 0.0, 0.0
      };

      line.x_mm = g_new (double, from->n);
      line.temperature_C = g_new (double, from->n);
      for (guint k = 0; k < from->n; k++)
        {
          line.x_mm[k] = 1e3 * from->x_m[k];
          line.temperature_C[k] = from->temperature_C[k];
        }
      if (self->assembly->family == TL_FAMILY_STACK)
        place_in_stack (self, &line, i == network->body_a ? -1.0 : 1.0);
      else
        place_along (self, &line);
      g_array_append_val (self->lines, line);
    }
  place_between (self, network->body_a, network->body_b);
}

static void
read_range (TlHeatField *self, const TlHeatModel *model, const TlNetResult *result)
{
  const TlNetwork *network = tl_heat_model_network (model);
  double           from = 1e3 * network->joint_x0_m - LEAD_SHOWN_MM,
         to = 1e3 * network->joint_x1_m + LEAD_SHOWN_MM;

  self->low_C = HUGE_VAL;
  self->high_C = -HUGE_VAL;
  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);

      for (guint k = 0; k < line->n; k++)
        if (line->x_mm[k] >= from && line->x_mm[k] <= to)
          {
            self->low_C = MIN (self->low_C, line->temperature_C[k]);
            self->high_C = MAX (self->high_C, line->temperature_C[k]);
          }
    }
  self->hot_C = result->value[TL_NET_HOT_C];
  self->high_C = MAX (self->high_C, self->hot_C);
  self->hot_owner = g_array_index (self->lines, Line, result->hot_body).owner;
}

static void
read_paths (TlHeatField *self, const TlHeatModel *model, const TlNetProfile *profile)
{
  const TlNetwork *network = tl_heat_model_network (model);
  const GArray    *rows = tl_heat_model_interfaces (model);
  gboolean         is_stack = self->assembly->family == TL_FAMILY_STACK;

  self->source = g_array_index (self->lines, Line, network->body_a).owner;
  self->sink = g_array_index (self->lines, Line, network->body_b).owner;
  for (guint i = 0; i < rows->len && self->load_A > 0.0; i++)
    {
      const TlHeatInterface *row = &g_array_index (rows, TlHeatInterface, i);
      gboolean               is_forward = profile->interface_A[i] >= 0.0;
      const Line   *from = &g_array_index (self->lines, Line, is_forward ? row->p : row->q);
      const Line   *to = &g_array_index (self->lines, Line, is_forward ? row->q : row->p);
      const Line   *placed = from->is_lead ? from : to;
      double        x0 = 1e3 * network->interfaces[i].x0_m, x1 = 1e3 * network->interfaces[i].x1_m;
      TlCurrentPath path = { row->contact, from->body,
                             to->body,     from->owner,
                             to->owner,    fabs (profile->interface_A[i]) / self->load_A,
                             0.0,          0.0 };

      if (!is_stack)
        {
          path.x0_mm = (x0 - placed->origin_mm) * placed->way_x;
          path.x1_mm = (x1 - placed->origin_mm) * placed->way_x;
        }
      g_array_append_val (self->paths, path);
    }
}

/* --- years ahead --- */

static double
cold_ohm (const TlHeatModel *model, double ratio, TlNetWorkspace *workspace)
{
  g_auto (TlNetResult) result = { 0 };
  TlHeatChange       change;
  guint              n = tl_heat_model_interfaces (model)->len;
  g_autofree double *ratios = g_new (double, n);

  for (guint i = 0; i < n; i++)
    ratios[i] = ratio;
  tl_heat_change_init (&change);
  change.current_A = COLD_A;
  change.ambient_C = 20.0;
  change.resistance_ratio = ratios;
  return tl_heat_model_solve (model, &change, workspace, &result, NULL)
                 && result.status == TL_NET_OK
             ? result.joint_ohm
             : 0.0;
}

/* The ratio of all contacts at which the joint has @growth times its resistance: it rises, so halve. */
static double
contact_ratio (const TlHeatModel *model, double growth, TlNetWorkspace *workspace)
{
  double wanted = growth * cold_ohm (model, 1.0, workspace), low = 0.0, high = log (MOST_RATIO);

  if (growth <= 1.0 || wanted <= 0.0)
    return 1.0;
  for (guint i = 0; i < 24; i++)
    {
      double middle = (low + high) / 2.0;

      if (cold_ohm (model, exp (middle), workspace) < wanted)
        low = middle;
      else
        high = middle;
    }
  return exp ((low + high) / 2.0);
}

static gboolean
read_growth (TlHeatField *self, GCancellable *cancellable)
{
  g_autoptr (TlAgeing) ageing = NULL;
  TlAgeingOptions options;
  TlAgeingBand    band;

  if (self->years <= 0.0)
    return TRUE;
  tl_ageing_options_init (&options);
  options.span_years = MAX (SPAN_YEARS, self->years);
  ageing = tl_ageing_new (self->assembly, &options, cancellable, NULL);
  if (ageing == NULL || !ageing->is_computed || !ageing->has[TL_AGEING_GROWTH])
    {
      self->reason = TL_N_ ("The years ahead could not be reckoned.");
      return FALSE;
    }
  band = tl_ageing_band_at (ageing, TL_AGEING_GROWTH, self->years);
  self->growth_ratio = MAX (band.value.best, 1.0);
  self->is_open = band.is_open[1];
  return TRUE;
}

/* --- making --- */

static void
solve (TlHeatField *self, const TlHeatModel *model, GCancellable *cancellable)
{
  g_autoptr (TlNetWorkspace) workspace = tl_net_workspace_new ();
  g_auto (TlNetResult) result = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree double *ratios = NULL;
  guint              n = tl_heat_model_interfaces (model)->len;
  TlHeatChange       change;
  double             ratio;

  self->load_A = tl_heat_model_load_A (model);
  self->ambient_C = tl_heat_model_network (model)->ambient_C;
  if (!read_growth (self, cancellable))
    return;
  ratio = contact_ratio (model, self->growth_ratio, workspace);
  ratios = g_new (double, n);
  for (guint i = 0; i < n; i++)
    ratios[i] = ratio;
  tl_heat_change_init (&change);
  change.resistance_ratio = ratios;
  change.want_profile = TRUE;
  if (!tl_heat_model_solve (model, &change, workspace, &result, &error))
    self->reason = TL_N_ ("The heat could not be reckoned.");
  else if (result.status != TL_NET_OK || result.profile == NULL)
    self->reason = TL_N_ (
        "No steady temperature: the joint heats faster than it sheds heat. Do not energise.");
  else
    {
      read_lines (self, model, result.profile);
      read_range (self, model, &result);
      read_paths (self, model, result.profile);
      place_bodies (self);
      self->is_computed = TRUE;
    }
}

TlHeatField *
tl_heat_field_new (const TlVerdict *verdict, double years, GCancellable *cancellable)
{
  TlHeatField *self = g_new0 (TlHeatField, 1);
  g_autoptr (TlHeatModel) model = NULL;
  const char *reason = NULL, *owner = NULL;
  TlField     field;

  g_return_val_if_fail (verdict != NULL, self);

  g_atomic_ref_count_init (&self->ref_count);
  self->years = isfinite (years) ? CLAMP (years, 0.0, TL_HEAT_FIELD_MOST_YEARS) : 0.0;
  self->growth_ratio = 1.0;
  self->lines = g_array_new (FALSE, FALSE, sizeof (Line));
  g_array_set_clear_func (self->lines, (GDestroyNotify) line_clear);
  self->paths = g_array_new (FALSE, FALSE, sizeof (TlCurrentPath));
  self->assembly = tl_assembly_new (verdict->assembly->joint, verdict->assembly->stock);
  model = tl_heat_model_new (self->assembly, &reason, &owner, &field);
  if (model != NULL)
    solve (self, model, cancellable);
  else
    {
      self->reason = reason;
      self->reason_owner = owner;
    }
  return self;
}

TlHeatField *
tl_heat_field_ref (const TlHeatField *self)
{
  TlHeatField *own = (TlHeatField *) self;

  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&own->ref_count);
  return own;
}

void
tl_heat_field_unref (TlHeatField *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_array_unref (self->lines);
  g_array_unref (self->paths);
  g_free (self->line_of_body);
  tl_assembly_unref (self->assembly);
  g_free (self);
}

/* --- asking --- */

gboolean
tl_heat_field_is_of (const TlHeatField *self, const TlVerdict *verdict)
{
  return self != NULL && verdict != NULL && self->assembly->joint == verdict->assembly->joint
         && self->assembly->bodies->len == verdict->assembly->bodies->len;
}

gboolean
tl_heat_field_is_computed (const TlHeatField *self)
{
  return self != NULL && self->is_computed;
}

char *
tl_heat_field_reason (const TlHeatField *self, const TlLanguage *language)
{
  g_autofree char *part = NULL;

  if (self->is_computed)
    return NULL;
  part = self->reason_owner != NULL
             ? tl_assembly_owner_name (self->assembly, self->reason_owner, language)
             : g_strdup ("");
  return tl_wording_fill (tl_language_text (language, self->reason), "part", part, NULL);
}

double
tl_heat_field_years (const TlHeatField *self)
{
  return self->years;
}

double
tl_heat_field_load_A (const TlHeatField *self)
{
  return self->load_A;
}

double
tl_heat_field_ambient_C (const TlHeatField *self)
{
  return self->ambient_C;
}

double
tl_heat_field_growth_ratio (const TlHeatField *self)
{
  return self->growth_ratio;
}

gboolean
tl_heat_field_is_open (const TlHeatField *self)
{
  return self->is_open;
}

static double
net_x_mm (const Line *line, double x_mm, double y_mm)
{
  return line->has_way ? line->origin_mm + x_mm * line->way_x + y_mm * line->way_y : 0.0;
}

/* Of what goes around others (a seal): the barrel where there is one, else the conductor that lies there. */
static const Line *
line_at (const TlHeatField *self, double x_mm)
{
  const Line *found = NULL;

  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);
      double      x = net_x_mm (line, x_mm, 0.0);

      if (x < line->x_mm[0] || x > line->x_mm[line->n - 1])
        continue;
      if (found == NULL || !line->is_lead)
        found = line;
    }
  return found != NULL ? found : &g_array_index (self->lines, Line, 0);
}

static const Line *
line_of (const TlHeatField *self, guint body, double x_mm)
{
  return self->line_of_body[body] >= 0
             ? &g_array_index (self->lines, Line, self->line_of_body[body])
             : line_at (self, x_mm);
}

double
tl_heat_field_C (const TlHeatField *self, guint body, double x_mm, double y_mm)
{
  const Line *line;

  g_return_val_if_fail (self != NULL && self->is_computed && body < self->assembly->bodies->len,
                        0.0);

  line = line_of (self, body, x_mm);
  return value_at (line, net_x_mm (line, x_mm, y_mm));
}

gboolean
tl_heat_field_direction (const TlHeatField *self, guint body, double *x, double *y)
{
  const Line *line;

  g_return_val_if_fail (self != NULL && self->is_computed && body < self->assembly->bodies->len,
                        FALSE);

  line = line_of (self, body, 0.0);
  *x = line->way_x;
  *y = line->way_y;
  return line->has_way;
}

void
tl_heat_field_range_C (const TlHeatField *self, double *low_C, double *high_C)
{
  *low_C = self->low_C;
  *high_C = self->high_C;
}

const char *
tl_heat_field_hottest (const TlHeatField *self, double *hot_C)
{
  *hot_C = self->hot_C;
  return self->hot_owner;
}

const GArray *
tl_heat_field_paths (const TlHeatField *self)
{
  return self->paths;
}

const char *
tl_heat_field_source (const TlHeatField *self)
{
  return self->source;
}

const char *
tl_heat_field_sink (const TlHeatField *self)
{
  return self->sink;
}

static double
bolt_share (const TlHeatField *self)
{
  for (guint i = 0; i < self->paths->len; i++)
    if (g_array_index (self->paths, TlCurrentPath, i).contact == G_MAXUINT)
      return g_array_index (self->paths, TlCurrentPath, i).share_ratio;
  return 0.0;
}

double
tl_heat_field_body_share (const TlHeatField *self, guint body)
{
  double      in = 0.0, out = 0.0;
  const char *owner;
  gint        line;

  g_return_val_if_fail (self != NULL && body < self->assembly->bodies->len, 0.0);

  line = self->is_computed ? self->line_of_body[body] : -1;
  if (line < 0 || !tl_assembly_body (self->assembly, body)->is_metal)
    return 0.0;
  owner = g_array_index (self->lines, Line, line).body == body
              ? g_array_index (self->lines, Line, line).owner
              : tl_assembly_body (self->assembly, body)->owner;
  if (g_strcmp0 (owner, self->source) == 0 || g_strcmp0 (owner, self->sink) == 0)
    return 1.0;
  /* what lies outside the conductors of a stack is on the bolt's path */
  if (line_of_owner (self, owner) < 0)
    return self->assembly->family == TL_FAMILY_STACK ? bolt_share (self) : 0.0;
  for (guint i = 0; i < self->paths->len; i++)
    {
      const TlCurrentPath *path = &g_array_index (self->paths, TlCurrentPath, i);

      if (self->line_of_body[path->to] == line)
        in += path->share_ratio;
      if (self->line_of_body[path->from] == line)
        out += path->share_ratio;
    }
  return MAX (in, out);
}
