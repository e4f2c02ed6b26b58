/* fuzz.h: the entry of a fuzz target, as libFuzzer calls it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once
#include <glib.h>
#include <stddef.h>
#include <stdint.h>

/* Always 0; a broken promise aborts. */
int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);
