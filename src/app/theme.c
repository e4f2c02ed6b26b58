/* theme.c: palette and style classes of the present scheme.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/theme.h"

#include <adwaita.h>

const TlPalette *
tl_theme_palette (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();
  gboolean         is_dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    return tl_palette_get (is_dark ? TL_SCHEME_CONTRAST_DARK : TL_SCHEME_CONTRAST);
  return tl_palette_get (is_dark ? TL_SCHEME_DARK : TL_SCHEME_LIGHT);
}

void
tl_theme_watch (GtkWidget *widget)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();

  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (gtk_widget_queue_draw), widget,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (manager, "notify::high-contrast", G_CALLBACK (gtk_widget_queue_draw),
                           widget, G_CONNECT_SWAPPED);
}

void
tl_theme_choose (gint scheme)
{
  static const AdwColorScheme schemes[] = { ADW_COLOR_SCHEME_DEFAULT, ADW_COLOR_SCHEME_FORCE_LIGHT,
                                            ADW_COLOR_SCHEME_FORCE_DARK };

  g_return_if_fail (scheme >= 0 && scheme < (gint) G_N_ELEMENTS (schemes));
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), schemes[scheme]);
}

const char *
tl_theme_severity_class (TlSeverity severity)
{
  static const char *const classes[] = { "sound", "watch", "change", "unsafe" };

  return classes[severity];
}

void
tl_theme_set_severity (GtkWidget *widget, gboolean has, TlSeverity severity)
{
  for (TlSeverity s = TL_SEVERITY_SOUND; s <= TL_SEVERITY_UNSAFE; s++)
    if (has && s == severity)
      gtk_widget_add_css_class (widget, tl_theme_severity_class (s));
    else
      gtk_widget_remove_css_class (widget, tl_theme_severity_class (s));
}

TlMark
tl_theme_mark (gboolean has_severity, TlSeverity severity)
{
  static const TlMark marks[] = { TL_MARK_SOUND, TL_MARK_WATCH, TL_MARK_CHANGE, TL_MARK_UNSAFE };

  return has_severity ? marks[severity] : TL_MARK_UNFINISHED;
}
