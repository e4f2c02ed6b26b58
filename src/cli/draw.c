/* draw.c: the drawing of a joint as a picture file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cli/draw.h"

#include "cli/common.h"
#include "draw/box-view.h"
#include "draw/drawing.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define DEFAULT_WIDTH_MM 180.0
#define DEFAULT_HEIGHT_MM 150.0
#define LEAST_MM 20.0
#define MOST_MM 1200.0

typedef struct
{
  char  *output, *scheme, *tag, *practice, *overlay, *view;
  double width_mm, height_mm, years;
} Options;

static void
options_clear (Options *self)
{
  g_free (self->output);
  g_free (self->scheme);
  g_free (self->tag);
  g_free (self->practice);
  g_free (self->overlay);
  g_free (self->view);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Options, options_clear)

static gboolean
kind_of (const char *path, TlPictureKind *kind)
{
  static const char *const endings[] = { ".png", ".svg", ".pdf" };
  g_autofree char         *lower = g_ascii_strdown (path, -1);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (lower, endings[i]))
      {
        *kind = (TlPictureKind) i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
scheme_of (const char *word, TlScheme *scheme)
{
  static const struct
  {
    const char *word;
    TlScheme    scheme;
  } schemes[] = {
    { "light", TL_SCHEME_LIGHT },
    { "dark", TL_SCHEME_DARK },
    { "contrast", TL_SCHEME_CONTRAST },
    { "paper", TL_SCHEME_ONE_INK },
  };

  for (guint i = 0; i < G_N_ELEMENTS (schemes); i++)
    if (word == NULL || strcmp (word, schemes[i].word) == 0)
      {
        *scheme = schemes[i].scheme;
        return TRUE;
      }
  return FALSE;
}

/* An overlay and an age that fit together; "none" is no overlay. */
static gboolean
read_overlay (const Options *options, TlOverlay *overlay)
{
  *overlay = TL_OVERLAY_NONE;
  if (options->overlay != NULL && !tl_overlay_from_word (options->overlay, overlay))
    {
      tl_cli_fail_text (_ ("There is no overlay “%s”; there are: heat, current, wet."),
                        options->overlay);
      return FALSE;
    }
  if (!(options->years >= 0.0 && options->years <= TL_HEAT_FIELD_MOST_YEARS))
    {
      tl_cli_fail_text (_ ("--years %g: it has to be 0 to %g."), options->years,
                        TL_HEAT_FIELD_MOST_YEARS);
      return FALSE;
    }
  if (options->years > 0.0 && *overlay != TL_OVERLAY_HEAT && *overlay != TL_OVERLAY_CURRENT)
    {
      tl_cli_fail_text (_ ("--years goes with --overlay heat or --overlay current."));
      return FALSE;
    }
  return TRUE;
}

/* The joint, or the box that it lies in; %FALSE, told, for anything else. */
static gboolean
read_view (const Options *options, gboolean *is_box)
{
  *is_box = g_strcmp0 (options->view, "box") == 0;
  if (options->view != NULL && !*is_box && strcmp (options->view, "joint") != 0)
    {
      tl_cli_fail_text (_ ("There is no view “%s”; there are: joint, box."), options->view);
      return FALSE;
    }
  if (*is_box && options->overlay != NULL)
    {
      tl_cli_fail_text (_ ("--overlay goes with --view joint."));
      return FALSE;
    }
  return TRUE;
}

static gboolean
is_same_file (const char *a, const char *b)
{
  g_autoptr (GFile) file_a = g_file_new_for_path (a);
  g_autoptr (GFile) file_b = g_file_new_for_path (b);

  return g_file_equal (file_a, file_b);
}

static gboolean
is_size (double mm)
{
  return mm >= LEAST_MM && mm <= MOST_MM;
}

int
tl_cli_draw (int argc, char **argv, const TlLanguage *language)
{
  g_auto (Options) options = { .width_mm = DEFAULT_WIDTH_MM, .height_mm = DEFAULT_HEIGHT_MM };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &options.output,
      N_ ("Picture to write: .png, .svg or .pdf"), N_ ("OUT") },
    { "width", 0, 0, G_OPTION_ARG_DOUBLE, &options.width_mm, N_ ("Width in mm"), N_ ("MM") },
    { "height", 0, 0, G_OPTION_ARG_DOUBLE, &options.height_mm, N_ ("Height in mm"), N_ ("MM") },
    { "scheme", 0, 0, G_OPTION_ARG_STRING, &options.scheme,
      N_ ("Colours: light, dark, contrast or paper"), N_ ("NAME") },
    { "view", 0, 0, G_OPTION_ARG_STRING, &options.view,
      N_ ("Draw the joint, or the box with all that lies in it: joint or box"), N_ ("NAME") },
    { "overlay", 0, 0, G_OPTION_ARG_STRING, &options.overlay,
      N_ ("Show heat, current, or wet (paths that water could take)"), N_ ("NAME") },
    { "years", 0, 0, G_OPTION_ARG_DOUBLE, &options.years,
      N_ ("Age for heat and current; later years are indicative"), N_ ("YEARS") },
    { "language", 0, 0, G_OPTION_ARG_STRING, &options.tag, N_ ("Language of the drawing"),
      N_ ("TAG") },
    { "practice", 0, 0, G_OPTION_ARG_STRING, &options.practice,
      N_ ("Judge by this practice, not by the document's"), N_ ("NAME") },
    { NULL },
  };
  g_autoptr (TlVerdict) verdict = NULL;
  g_autoptr (TlLanguage) own = NULL;
  g_autoptr (TlHeatField) field = NULL;
  g_autoptr (GError) error = NULL;
  TlPictureKind kind = TL_PICTURE_PNG;
  TlScheme      scheme = TL_SCHEME_LIGHT;
  TlOverlay     overlay;
  gboolean      is_box = FALSE;
  const char   *path;

  if (!tl_cli_parse (&argc, &argv, entries, "draw", N_ ("FILE")))
    return TL_CLI_BAD;
  path = tl_cli_only_file (argc, argv);
  if (path == NULL)
    return TL_CLI_BAD;
  if (options.output == NULL)
    return tl_cli_fail_text (_ ("Nowhere to draw; give --output OUT.png, OUT.svg or OUT.pdf."));
  if (!kind_of (options.output, &kind))
    return tl_cli_fail_text (_ ("%s: its ending is none of .png, .svg, .pdf."), options.output);
  if (!scheme_of (options.scheme, &scheme))
    return tl_cli_fail_text (
        _ ("There is no scheme “%s”; there are: light, dark, contrast, paper."), options.scheme);
  if (!is_size (options.width_mm) || !is_size (options.height_mm))
    return tl_cli_fail_text (
        _ ("A picture of %g × %g mm cannot be made: each side has to be %g to %g mm."),
        options.width_mm, options.height_mm, LEAST_MM, MOST_MM);
  if (!read_overlay (&options, &overlay) || !read_view (&options, &is_box))
    return TL_CLI_BAD;
  if (is_same_file (options.output, path))
    return tl_cli_fail_text (_ ("%s is the joint itself; give another file for the picture."),
                             path);
  verdict = tl_cli_judge (path, options.practice);
  if (verdict == NULL)
    return TL_CLI_BAD;
  own = tl_language_new (options.tag != NULL ? options.tag : tl_language_tag (language),
                         tl_language_units (language));
  if (is_box)
    return tl_box_view_save (verdict, kind, options.width_mm, options.height_mm, scheme,
                             options.output, own, &error)
               ? tl_cli_exit_of (verdict)
               : tl_cli_fail (error);
  if (overlay == TL_OVERLAY_HEAT || overlay == TL_OVERLAY_CURRENT)
    field = tl_heat_field_new (verdict, options.years, NULL);
  if (!tl_drawing_save_overlay (verdict, overlay, field, kind, options.width_mm, options.height_mm,
                                scheme, options.output, own, &error))
    return tl_cli_fail (error);
  return tl_cli_exit_of (verdict);
}
