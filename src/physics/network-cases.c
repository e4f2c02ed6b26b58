/* network-cases.c: see network-cases.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "network-cases.h"
#include "cases.h"
#include "base/file.h"
#include "base/quantity.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define BODY_FIELDS 8
#define INTERFACE_FIELDS 7
#define ZONE_FIELDS 10

/* A row with its header: fields are asked for by name. */
typedef struct
{
  char **header;
  char **fields;
} Row;

static void
case_free (TlNetCase *self)
{
  for (guint i = 0; i < self->network.n_bodies; i++)
    g_free ((char *) self->network.bodies[i].name);
  g_free ((gpointer) self->network.bodies);
  g_free ((gpointer) self->network.interfaces);
  g_free ((gpointer) self->network.zones);
  g_free (self->id);
  g_free (self->note);
  for (guint i = 0; i < TL_NET_N_REMARKS; i++)
    g_free (self->remarks[i]);
  g_free (self);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TlNetCase, case_free)

/* Field of a column, stripped; NULL if there is no such column. */
static const char *
field_of (const Row *row, const char *column)
{
  for (guint i = 0; row->header[i] != NULL; i++)
    if (strcmp (row->header[i], column) == 0)
      return row->fields[i];
  return NULL;
}

static gboolean
parse_figure (const char *column, const char *entry, const char *field, const char *text,
              double *value, GError **error)
{
  if (tl_number_parse (text, value, NULL))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_PARSE, _ ("%s: %s%s%s is \"%.60s\"; it must be a number"),
               column, entry, entry[0] == '\0' ? "" : ": ", field, text);
  return FALSE;
}

/* A column that must stand, as a number. */
static gboolean
need_figure (const Row *row, const char *column, double *value, GError **error)
{
  return parse_figure (column, "", column, field_of (row, column), value, error);
}

/* --- lists --- */

/* Splits "a,b;c,d" into entries of @width fields; a last empty entry is dropped. */
static GPtrArray *
split_entries (const char *column, const char *text, guint width, GError **error)
{
  g_auto (GStrv) entries = g_strsplit (text, ";", -1);
  g_autoptr (GPtrArray) result = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  guint n = g_strv_length (entries);

  while (n > 0 && g_strstrip (entries[n - 1])[0] == '\0')
    n--;
  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) fields = g_strsplit (entries[i], ",", -1);
      const guint got = g_strv_length (fields);

      for (guint f = 0; f < got; f++)
        g_strstrip (fields[f]);
      if (got != width)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                       _ ("%s: entry %u (%.40s) has %u fields; it must have %u"), column, i + 1,
                       got > 0 ? fields[0] : "", got, width);
          return NULL;
        }
      g_ptr_array_add (result, g_steal_pointer (&fields));
    }
  return g_steal_pointer (&result);
}

/* The numbers of an entry from its field @first on. */
static gboolean
parse_numbers (const char *column, const char *entry, char **fields, const char *const *names,
               guint first, guint width, double *values, GError **error)
{
  for (guint i = first; i < width; i++)
    if (!parse_figure (column, entry, names[i - first], fields[i], &values[i - first], error))
      return FALSE;
  return TRUE;
}

static gboolean
too_many (const char *column, guint n, guint most, GError **error)
{
  if (n <= most)
    return FALSE;
  g_set_error (error, TL_ERROR, TL_ERROR_LIMIT, _ ("%s: there are %u entries; there may be %u"),
               column, n, most);
  return TRUE;
}

static gboolean
read_bodies (const Row *row, TlNetwork *network, GError **error)
{
  static const char *const names[] = { "x0", "x1", "S", "rho20", "alpha", "k", "cv" };
  g_autoptr (GPtrArray) entries =
      split_entries ("bodies", field_of (row, "bodies"), BODY_FIELDS, error);

  if (entries == NULL || too_many ("bodies", entries->len, TL_NET_MAX_BODIES, error))
    return FALSE;
  if (entries->len == 0)
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE,
                           _ ("bodies: there is none; give two conductors at least"));
      return FALSE;
    }
  TlNetBody *bodies = g_new0 (TlNetBody, entries->len);
  network->bodies = bodies;
  network->n_bodies = entries->len;
  for (guint i = 0; i < entries->len; i++)
    {
      char **fields = entries->pdata[i];
      double v[BODY_FIELDS - 1];

      bodies[i].name = g_strdup (fields[0]);
      if (fields[0][0] == '\0')
        {
          g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("bodies: entry %u has no name"), i + 1);
          return FALSE;
        }
      for (guint k = 0; k < i; k++)
        if (strcmp (bodies[k].name, bodies[i].name) == 0)
          {
            g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                         _ ("bodies: %s stands twice; every body needs its own name"), fields[0]);
            return FALSE;
          }
      if (!parse_numbers ("bodies", fields[0], fields, names, 1, BODY_FIELDS, v, error))
        return FALSE;
      bodies[i] = (TlNetBody){ bodies[i].name, v[0], v[1], v[2], v[3], v[4], v[5], v[6] };
    }
  return TRUE;
}

static gboolean
find_body (const TlNetwork *network, const char *column, const char *name, guint *body,
           GError **error)
{
  for (guint i = 0; i < network->n_bodies; i++)
    if (strcmp (network->bodies[i].name, name) == 0)
      {
        *body = i;
        return TRUE;
      }
  g_set_error (error, TL_ERROR, TL_ERROR_NAME, _ ("%s: there is no body called \"%.40s\""), column,
               name);
  return FALSE;
}

static gboolean
read_interfaces (const Row *row, TlNetwork *network, GError **error)
{
  static const char *const names[] = { "x0", "x1", "R20", "a", "G" };
  g_autoptr (GPtrArray) entries =
      split_entries ("interfaces", field_of (row, "interfaces"), INTERFACE_FIELDS, error);

  if (entries == NULL || too_many ("interfaces", entries->len, TL_NET_MAX_INTERFACES, error))
    return FALSE;
  TlNetInterface *faces = g_new0 (TlNetInterface, entries->len + 1);
  network->interfaces = faces;
  network->n_interfaces = entries->len;
  for (guint i = 0; i < entries->len; i++)
    {
      char           **fields = entries->pdata[i];
      double           v[INTERFACE_FIELDS - 2];
      guint            p, q;
      g_autofree char *entry = g_strdup_printf ("%s-%s", fields[0], fields[1]);

      if (!find_body (network, "interfaces", fields[0], &p, error)
          || !find_body (network, "interfaces", fields[1], &q, error)
          || !parse_numbers ("interfaces", entry, fields, names, 2, INTERFACE_FIELDS, v, error))
        return FALSE;
      faces[i] = (TlNetInterface){ p, q, v[0], v[1], v[2], v[3], v[4] };
    }
  return TRUE;
}

static gboolean
read_zones (const Row *row, TlNetwork *network, GError **error)
{
  static const char *const names[] = { "x0", "x1", "P", "D", "R'", "C", "n", "eps", "c_a" };
  g_autoptr (GPtrArray) entries =
      split_entries ("zones", field_of (row, "zones"), ZONE_FIELDS, error);

  if (entries == NULL || too_many ("zones", entries->len, TL_NET_MAX_ZONES, error))
    return FALSE;
  TlNetZone *zones = g_new0 (TlNetZone, entries->len + 1);
  network->zones = zones;
  network->n_zones = entries->len;
  for (guint i = 0; i < entries->len; i++)
    {
      char **fields = entries->pdata[i];
      double v[ZONE_FIELDS - 1];
      guint  body;

      if (!find_body (network, "zones", fields[0], &body, error)
          || !parse_numbers ("zones", fields[0], fields, names, 1, ZONE_FIELDS, v, error))
        return FALSE;
      zones[i] = (TlNetZone){ body, v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8] };
    }
  return TRUE;
}

/* --- single columns --- */

/* The bodies that reach both ends of the model. */
static void
find_ends (TlNetwork *network)
{
  guint left = 0, right = 0;

  for (guint i = 1; i < network->n_bodies; i++)
    {
      if (network->bodies[i].x0_m < network->bodies[left].x0_m)
        left = i;
      if (network->bodies[i].x1_m > network->bodies[right].x1_m)
        right = i;
    }
  if (!find_body (network, "bodies", "A", &network->body_a, NULL))
    network->body_a = left;
  if (!find_body (network, "bodies", "B", &network->body_b, NULL))
    network->body_b = right;
}

static gboolean
read_end (const Row *row, const char *column, gboolean *held, double *held_C, GError **error)
{
  const char *text = field_of (row, column);

  *held = strcmp (text, "adiabatic") != 0;
  if (!*held || tl_number_parse (text, held_C, NULL))
    return TRUE;
  g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
               _ ("%s: \"%.40s\" must be adiabatic or a temperature in degrees Celsius"), column,
               text);
  return FALSE;
}

static gboolean
read_scalars (const Row *row, TlNetwork *network, GError **error)
{
  const struct
  {
    const char *column;
    double     *value;
  } columns[] = {
    { "I_A", &network->current_A },         { "T_amb_C", &network->ambient_C },
    { "box_x0", &network->box_x0_m },       { "box_x1", &network->box_x1_m },
    { "G_box_W_K", &network->box_W_per_K }, { "P_extra_W", &network->box_extra_W },
    { "C_box_J_K", &network->box_J_per_K }, { "I_pre_A", &network->before_A },
    { "t_end_s", &network->duration_s },    { "xj0", &network->joint_x0_m },
    { "xj1", &network->joint_x1_m },        { "x_leadA", &network->lead_a_x_m },
    { "x_leadB", &network->lead_b_x_m },    { "xv_A", &network->volt_a_x_m },
    { "xv_B", &network->volt_b_x_m },
  };

  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    if (!need_figure (row, columns[i].column, columns[i].value, error))
      return FALSE;
  return read_end (row, "bc_A", &network->has_end_a, &network->end_a_C, error)
         && read_end (row, "bc_B", &network->has_end_b, &network->end_b_C, error);
}

static gboolean
read_expected (const Row *row, TlNetCase *self, GError **error)
{
  const char *status = field_of (row, "expect_status");

  self->has_status = status != NULL && status[0] != '\0';
  self->expects_no_steady = self->has_status && strcmp (status, "no_steady_state") == 0;
  if (self->has_status && !self->expects_no_steady && strcmp (status, "ok") != 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_NAME,
                   _ ("expect_status: \"%.40s\" must be ok or no_steady_state"), status);
      return FALSE;
    }
  for (guint i = 0; i < TL_NET_N_REMARKS; i++)
    self->remarks[i] = g_strdup (field_of (row, tl_net_remark_name (i)));
  for (guint i = 0; i < TL_NET_N_FIGURES; i++)
    {
      const char      *name = tl_net_figure_name (i), *text = field_of (row, name);
      g_autofree char *column = g_strconcat ("tol_", name, NULL);
      const char      *tolerance = field_of (row, column);

      if (text == NULL || text[0] == '\0' || g_ascii_strcasecmp (text, "nan") == 0)
        continue;
      self->has_expected[i] = !self->expects_no_steady;
      if (!parse_figure (name, "", name, text, &self->expected[i], error))
        return FALSE;
      if (tolerance == NULL || tolerance[0] == '\0')
        continue;
      self->has_tolerance[i] = TRUE;
      if (!parse_figure (column, "", column, tolerance, &self->tolerance[i], error))
        return FALSE;
      if (self->tolerance[i] < 0.0)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_RANGE,
                       _ ("%s: the tolerance is %g; it must not be negative"), column,
                       self->tolerance[i]);
          return FALSE;
        }
    }
  return TRUE;
}

static TlNetCase *
read_case (const Row *row, guint line, GError **error)
{
  g_autoptr (TlNetCase) self = g_new0 (TlNetCase, 1);
  const char *note = field_of (row, "note");

  tl_network_init_defaults (&self->network);
  self->line = line;
  self->id = g_strdup (field_of (row, "case"));
  self->note = g_strdup (note == NULL ? "" : note);
  if (self->id[0] == '\0')
    {
      g_set_error_literal (error, TL_ERROR, TL_ERROR_PARSE, _ ("case: the row has no name"));
      return NULL;
    }
  if (!read_bodies (row, &self->network, error) || !read_interfaces (row, &self->network, error)
      || !read_zones (row, &self->network, error) || !read_scalars (row, &self->network, error)
      || !read_expected (row, self, error))
    return NULL;
  find_ends (&self->network);
  if (!tl_network_check (&self->network, error))
    return NULL;
  return g_steal_pointer (&self);
}

/* --- the file --- */

static gboolean
check_header (char **header, const char *file, guint line, GError **error)
{
  static const char *const needed[] = {
    "case",    "bodies",    "interfaces", "zones",     "I_A",     "T_amb_C", "box_x0",
    "box_x1",  "G_box_W_K", "P_extra_W",  "C_box_J_K", "bc_A",    "bc_B",    "I_pre_A",
    "t_end_s", "xj0",       "xj1",        "x_leadA",   "x_leadB", "xv_A",    "xv_B",
  };

  for (guint i = 0; header[i] != NULL; i++)
    {
      g_strstrip (header[i]);
      for (guint k = 0; k < i; k++)
        if (header[i][0] != '\0' && strcmp (header[i], header[k]) == 0)
          {
            g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                         _ ("%s:%u: the column %s stands twice; it must stand once"), file, line,
                         header[i]);
            return FALSE;
          }
    }
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (!g_strv_contains ((const char *const *) header, needed[i]))
      {
        g_set_error (error, TL_ERROR, TL_ERROR_PARSE, _ ("%s:%u: the column %s is missing"), file,
                     line, needed[i]);
        return FALSE;
      }
  return TRUE;
}

GPtrArray *
tl_net_cases_parse (const char *data, gsize length, const char *file, GError **error)
{
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GPtrArray) rows = tl_csv_parse (data, length, file, &lines, error);
  g_autoptr (GPtrArray) cases = g_ptr_array_new_with_free_func ((GDestroyNotify) case_free);

  if (rows == NULL)
    return NULL;
  if (rows->len == 0)
    {
      g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                   _ ("%s:1: the file is empty; it must begin with a line of column names"), file);
      return NULL;
    }
  char **header = rows->pdata[0];
  if (!check_header (header, file, g_array_index (lines, guint, 0), error))
    return NULL;
  const guint width = g_strv_length (header);
  for (guint r = 1; r < rows->len; r++)
    {
      const Row   row = { header, rows->pdata[r] };
      const guint line = g_array_index (lines, guint, r), got = g_strv_length (row.fields);

      if (got != width)
        {
          g_set_error (error, TL_ERROR, TL_ERROR_PARSE,
                       _ ("%s:%u: the row has %u fields; it must have %u"), file, line, got, width);
          return NULL;
        }
      for (guint i = 0; i < width; i++)
        g_strstrip (row.fields[i]);
      TlNetCase *one = read_case (&row, line, error);
      if (one == NULL)
        {
          g_prefix_error (error, "%s:%u: ", file, line);
          return NULL;
        }
      g_ptr_array_add (cases, one);
    }
  return g_steal_pointer (&cases);
}

GPtrArray *
tl_net_cases_read (const char *path, GError **error)
{
  g_autofree char *data = NULL;
  gsize            length;

  if (!tl_file_load (path, TL_CASES_MAX_BYTES, &data, &length, error))
    return NULL;
  return tl_net_cases_parse (data, length, path, error);
}

gboolean
tl_net_case_status_fits (const TlNetCase *self, const TlNetResult *result)
{
  return (result->status == TL_NET_NO_STEADY_STATE) == self->expects_no_steady;
}

gboolean
tl_net_case_fits (const TlNetCase *self, const TlNetResult *result, guint i)
{
  if (!self->has_expected[i] || !self->has_tolerance[i])
    return TRUE;
  return result->status == TL_NET_OK
         && fabs (result->value[i] - self->expected[i]) <= self->tolerance[i];
}

const char *
tl_net_remark_name (TlNetRemark remark)
{
  static const char *const names[] = { "Q_frac_A_B_S", "R_joint_ohm", "hot_body", "x_hot_m" };

  G_STATIC_ASSERT (G_N_ELEMENTS (names) == TL_NET_N_REMARKS);
  g_return_val_if_fail (remark < TL_NET_N_REMARKS, NULL);
  return names[remark];
}

char *
tl_net_remark_text (const TlNetCase *self, const TlNetResult *result, TlNetRemark remark)
{
  const double *value = result->value;
  const double  out_W = value[TL_NET_LEAD_A_W] + value[TL_NET_LEAD_B_W] + value[TL_NET_SURFACE_W];
  char          text[3][G_ASCII_DTOSTR_BUF_SIZE];

  switch (remark)
    {
    case TL_NET_SHARES:
      for (guint i = 0; i < 3; i++)
        g_ascii_formatd (text[i], sizeof text[i], "%.4f",
                         out_W != 0.0 ? value[TL_NET_LEAD_A_W + i] / out_W : 0.0);
      return g_strdup_printf ("%s %s %s", text[0], text[1], text[2]);
    case TL_NET_JOINT_OHM:
      return g_strdup (g_ascii_formatd (text[0], sizeof text[0], "%.5g", result->joint_ohm));
    case TL_NET_HOT_BODY:
      return g_strdup (self->network.bodies[result->hot_body].name);
    case TL_NET_HOT_X:
      return g_strdup (g_ascii_formatd (text[0], sizeof text[0], "%.5g", result->hot_x_m));
    case TL_NET_N_REMARKS:
      break;
    }
  g_return_val_if_reached (NULL);
}
