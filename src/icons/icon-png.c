/* icon-png.c: draws the icons of data/icons as PNG when the program is built, so that it shows them on a system
 * that has no loader of SVG, and starts without one.
 *
 * usage: icon-png FOLDER SYMBOLIC.svg… APPLICATION.svg
 * Writes FOLDER/SIZExSIZE/{actions,apps}/….png and FOLDER/icons.gresource.xml, which lists them.
 *
 * Of SVG (W3C, Scalable Vector Graphics 1.1, chapters 9 and 11) it knows what these icons use: g, rect, ellipse,
 * polyline, polygon and path with M, C and Z; fill, stroke, stroke-width and stroke-dasharray. Anything else is an
 * error: an icon is never drawn without a part of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <cairo.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <math.h>
#include <string.h>

typedef struct
{
  const char *fill, *stroke;
  double      width;
} Style;

static const int SYMBOLIC_PX[] = { 16, 24, 32, 48 };
static const int APPLICATION_PX[] = { 16, 32, 48, 128 };

static char *
text_of (xmlNode *node, const char *name)
{
  return (char *) xmlGetProp (node, BAD_CAST name);
}

static double
number_of (xmlNode *node, const char *name, double otherwise)
{
  char  *text = text_of (node, name);
  double value = text == NULL ? otherwise : g_ascii_strtod (text, NULL);

  xmlFree (text);
  return value;
}

/* The next number of a list, past spaces and commas. Returns: %FALSE at the end or at a letter */
static gboolean
take_number (const char **at, double *value)
{
  char *end;

  *at += strspn (*at, " ,\n");
  *value = g_ascii_strtod (*at, &end);
  if (end == *at)
    return FALSE;
  *at = end;
  return TRUE;
}

/* --- shapes --- */
static void
add_points (cairo_t *cr, xmlNode *node)
{
  char       *text = text_of (node, "points");
  const char *at = text;
  double      x, y;

  while (take_number (&at, &x) && take_number (&at, &y))
    cairo_line_to (cr, x, y);
  xmlFree (text);
}

static void
add_ellipse (cairo_t *cr, xmlNode *node)
{
  cairo_save (cr);
  cairo_translate (cr, number_of (node, "cx", 0.0), number_of (node, "cy", 0.0));
  cairo_scale (cr, number_of (node, "rx", 0.0), number_of (node, "ry", 0.0));
  cairo_arc (cr, 0.0, 0.0, 1.0, 0.0, 2.0 * G_PI);
  cairo_close_path (cr);
  cairo_restore (cr);
}

static void
add_rect (cairo_t *cr, xmlNode *node)
{
  double x = number_of (node, "x", 0.0), y = number_of (node, "y", 0.0),
         width = number_of (node, "width", 0.0), height = number_of (node, "height", 0.0),
         radius = number_of (node, "rx", 0.0);

  if (radius <= 0.0)
    {
      cairo_rectangle (cr, x, y, width, height);
      return;
    }
  cairo_arc (cr, x + width - radius, y + radius, radius, -0.5 * G_PI, 0.0);
  cairo_arc (cr, x + width - radius, y + height - radius, radius, 0.0, 0.5 * G_PI);
  cairo_arc (cr, x + radius, y + height - radius, radius, 0.5 * G_PI, G_PI);
  cairo_arc (cr, x + radius, y + radius, radius, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

static void
add_path (cairo_t *cr, xmlNode *node)
{
  char       *text = text_of (node, "d");
  const char *at = text;
  double      v[6];

  while (*(at += strspn (at, " ,\n")) != '\0')
    switch (*at++)
      {
      case 'M':
        if (!take_number (&at, &v[0]) || !take_number (&at, &v[1]))
          g_error ("a place is missing in \"%s\"", text);
        cairo_move_to (cr, v[0], v[1]);
        break;
      case 'C':
        while (take_number (&at, &v[0]))
          {
            for (int i = 1; i < 6; i++)
              if (!take_number (&at, &v[i]))
                g_error ("a place is missing in \"%s\"", text);
            cairo_curve_to (cr, v[0], v[1], v[2], v[3], v[4], v[5]);
          }
        break;
      case 'Z':
        cairo_close_path (cr);
        break;
      default:
        g_error ("\"%s\": only M, C and Z are known", text);
      }
  xmlFree (text);
}

/* Returns: %FALSE for what is no shape */
static gboolean
add_shape (cairo_t *cr, xmlNode *node)
{
  const char *name = (const char *) node->name;

  cairo_new_path (cr);
  if (g_str_equal (name, "polyline"))
    add_points (cr, node);
  else if (g_str_equal (name, "polygon"))
    {
      add_points (cr, node);
      cairo_close_path (cr);
    }
  else if (g_str_equal (name, "ellipse"))
    add_ellipse (cr, node);
  else if (g_str_equal (name, "rect"))
    add_rect (cr, node);
  else if (g_str_equal (name, "path"))
    add_path (cr, node);
  else
    return FALSE;
  return TRUE;
}

/* --- paint --- */
static void
set_colour (cairo_t *cr, const char *text)
{
  guint  rgb = 0;
  size_t length = strlen (text);

  if (*text != '#' || (length != 4 && length != 7))
    g_error ("colour \"%s\": #rgb or #rrggbb is right", text);
  for (const char *at = text + 1; *at != '\0'; at++)
    for (int i = 0; i < (length == 4 ? 2 : 1); i++)
      rgb = rgb << 4 | (guint) g_ascii_xdigit_value (*at);
  cairo_set_source_rgb (cr, (rgb >> 16 & 255) / 255.0, (rgb >> 8 & 255) / 255.0,
                        (rgb & 255) / 255.0);
}

static void
set_dashes (cairo_t *cr, xmlNode *node)
{
  char       *text = text_of (node, "stroke-dasharray");
  const char *at = text;
  double      dashes[2];

  if (text != NULL && take_number (&at, &dashes[0]) && take_number (&at, &dashes[1]))
    cairo_set_dash (cr, dashes, 2, 0.0);
  else
    cairo_set_dash (cr, NULL, 0, 0.0);
  xmlFree (text);
}

static gboolean
is_painted (const char *colour)
{
  return colour != NULL && !g_str_equal (colour, "none");
}

static void
draw_children (cairo_t *cr, xmlNode *parent, Style outer)
{
  for (xmlNode *node = parent->children; node != NULL; node = node->next)
    {
      char *fill, *stroke;
      Style style = outer;

      if (node->type != XML_ELEMENT_NODE)
        continue;
      fill = text_of (node, "fill");
      stroke = text_of (node, "stroke");
      style.fill = fill != NULL ? fill : outer.fill;
      style.stroke = stroke != NULL ? stroke : outer.stroke;
      style.width = number_of (node, "stroke-width", outer.width);
      if (g_str_equal (node->name, "g"))
        draw_children (cr, node, style);
      else if (!add_shape (cr, node))
        g_error ("<%s> is not known; draw it by lines and curves", node->name);
      else
        {
          if (is_painted (style.fill))
            {
              set_colour (cr, style.fill);
              cairo_fill_preserve (cr);
            }
          if (is_painted (style.stroke))
            {
              set_colour (cr, style.stroke);
              set_dashes (cr, node);
              cairo_set_line_width (cr, style.width);
              cairo_stroke (cr);
            }
        }
      xmlFree (fill);
      xmlFree (stroke);
    }
}

static void
draw (xmlNode *svg, int px, const char *path)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, px, px);
  cairo_t         *cr = cairo_create (surface);
  g_autofree char *folder = g_path_get_dirname (path);
  cairo_status_t   status;

  g_mkdir_with_parents (folder, 0755);
  cairo_scale (cr, px / number_of (svg, "width", 16.0), px / number_of (svg, "height", 16.0));
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  draw_children (cr, svg, (Style){ .fill = "#000", .width = 1.0 });
  cairo_destroy (cr);
  status = cairo_surface_write_to_png (surface, path);
  if (status != CAIRO_STATUS_SUCCESS)
    g_error ("%s: %s", path, cairo_status_to_string (status));
  cairo_surface_destroy (surface);
}

static void
draw_icon (const char *folder, const char *file, gboolean is_symbolic, GString *list)
{
  const int       *sizes = is_symbolic ? SYMBOLIC_PX : APPLICATION_PX;
  g_autofree char *base = g_path_get_basename (file);
  xmlDoc          *document = xmlReadFile (file, NULL, XML_PARSE_NONET);

  if (document == NULL || !g_str_has_suffix (base, ".svg"))
    g_error ("%s is no SVG file", file);
  base[strlen (base) - strlen (".svg")] = '\0';
  for (guint i = 0; i < G_N_ELEMENTS (SYMBOLIC_PX); i++)
    {
      /* GTK colours by the text's colour what is called so. */
      g_autofree char *name =
          g_strdup_printf ("%dx%d/%s/%s%s", sizes[i], sizes[i], is_symbolic ? "actions" : "apps",
                           base, is_symbolic ? ".symbolic.png" : ".png");
      g_autofree char *path = g_build_filename (folder, name, NULL);

      draw (xmlDocGetRootElement (document), sizes[i], path);
      g_string_append_printf (list, "    <file>%s</file>\n", name);
    }
  xmlFreeDoc (document);
}

int
main (int argc, char **argv)
{
  g_autoptr (GString) list =
      g_string_new ("<gresources>\n  <gresource prefix=\"/tinlap/icons\">\n");
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  if (argc < 3)
    g_error ("usage: icon-png FOLDER SYMBOLIC.svg… APPLICATION.svg");
  for (int i = 2; i < argc; i++)
    draw_icon (argv[1], argv[i], i + 1 < argc, list);
  g_string_append (list, "  </gresource>\n</gresources>\n");
  path = g_build_filename (argv[1], "icons.gresource.xml", NULL);
  if (!g_file_set_contents (path, list->str, -1, &error))
    g_error ("%s", error->message);
  return 0;
}
