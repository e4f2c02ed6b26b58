/* job-private.h: the JSON of `job`, for job.c and its test.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "plan/job.h"

G_BEGIN_DECLS

/* @job: made in the plain language. (transfer full) */
char *tl_cli_job_json (const TlJob *job, const TlStock *stock) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
