/* application.h: the program: stock, settings, windows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "stock/stock.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define TL_APPLICATION_ID "org.tinlap.Tinlap"

#define TL_TYPE_APPLICATION (tl_application_get_type ())
G_DECLARE_FINAL_TYPE (TlApplication, tl_application, TL, APPLICATION, AdwApplication)

/* With TINLAP_TEST set each start is a program of its own. */
TlApplication *tl_application_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* Settings from the installed schema, or from the one that stands beside an uninstalled build. */
GSettings     *tl_application_settings_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
