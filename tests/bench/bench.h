/* bench.h: what the timings share: joints of a wanted number of layers, medians, a fitted slope.
 *
 * Timings never pass or fail: they print figures, one "name value unit" to a line.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include "rules/verdict.h"

G_BEGIN_DECLS

/* The compiled-in stock; aborts with a message if it does not load. (transfer full) */
TlStock *bench_stock (void);
/* data/examples/@name.tinlap of the source tree; aborts with a message. (transfer full) */
TlJoint *bench_example (const char *name);
/* The bolted example with plain washers put between its eyes, and a bolt long enough, until @n_layers things
 * stand in its stack; @n_layers at least those of the example. (transfer full) */
TlJoint *bench_stack (const TlStock *stock, guint n_layers);
/* @joint without its load: no temperature is reckoned then. (transfer full) */
TlJoint *bench_without_load (const TlJoint *joint);
/* @joint with its own copies of all that its verdict uses, as a saved document has them. (transfer full) */
TlJoint *bench_with_copies (const TlJoint *joint, const TlStock *stock);

/* One piece of work, done @times over. */
typedef void (*BenchWork) (gpointer data, guint times);

/* Median of the runs of @work with @times repetitions each, in microseconds for one repetition. */
double bench_median_us (BenchWork work, gpointer data, guint times);
/* Least-squares slope of ln y over ln x; (array length=n), all > 0, n at least 2. */
double bench_log_slope (const double *x, const double *y, guint n);

G_END_DECLS
