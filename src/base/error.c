/* error.c: the error domain.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/error.h"

G_DEFINE_QUARK (tl - error - quark, tl_error)
