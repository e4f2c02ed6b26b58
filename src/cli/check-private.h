/* check-private.h: the JSON of `check`, for check.c and its test.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/verdict.h"

G_BEGIN_DECLS

/* (transfer full) */
char *tl_cli_check_json (const TlVerdict *verdict) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
