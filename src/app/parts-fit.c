/* parts-fit.c: the selection as a filter.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "app/parts-fit.h"

#include <glib/gi18n.h>

static double
limit (TlDocument *document, const char *id, double fallback)
{
  const TlThreshold *threshold = tl_stock_find_threshold (
      tl_document_effective_stock (document), tl_document_joint (document)->practice, id);

  return threshold == NULL ? fallback : threshold->value;
}

static char *
fit_thread (TlDocument *document, TlSearchFilter *filter)
{
  const TlAssembly *assembly = tl_document_verdict (document)->assembly;

  if (!assembly->stack.has_bolt || assembly->stack.thread_mm <= 0.0)
    return NULL;
  tl_search_filter_passes_thread (filter, assembly->stack.thread_mm,
                                  limit (document, "geometry.hole-clearance", 0.0));
  return g_strdup_printf (_ ("washers and lugs for M%g"), assembly->stack.thread_mm);
}

static char *
fit_conductor (TlDocument *document, const TlLeg *leg, TlSearchFilter *filter)
{
  const TlFact *fact =
      tl_leg_fact (leg, tl_document_effective_stock (document), TL_FIELD_METAL_DIAMETER);
  double low = limit (document, "grip.bore-ratio-low", 0.0),
         high = limit (document, "grip.bore-ratio-high", 0.0);
  g_autofree char *diameter = NULL;

  if (fact == NULL || fact->value.best <= 0.0 || high <= 0.0)
    return NULL;
  tl_search_filter_takes_conductor (filter, fact->value.best, low, high);
  diameter = tl_language_number (tl_document_language (document), fact->value.best, 2);
  return g_strdup_printf (_ ("sleeves and ferrules for a wire of %s mm"), diameter);
}

static char *
fit_seal (TlDocument *document, const TlLayer *layer, TlSearchFilter *filter)
{
  const TlStock *stock = tl_document_effective_stock (document);
  const TlJoint *joint = tl_document_joint (document);
  const TlFact  *outer = tl_layer_fact (layer, stock, TL_FIELD_OUTER);
  double         largest_mm = outer == NULL ? 0.0 : outer->value.best, least_mm = G_MAXDOUBLE;

  for (guint i = 0; i < joint->legs->len; i++)
    {
      const TlFact *fact =
          tl_leg_fact (g_ptr_array_index (joint->legs, i), stock, TL_FIELD_INSULATION_DIAMETER);

      if (fact == NULL || fact->value.best <= 0.0)
        continue;
      largest_mm = MAX (largest_mm, fact->value.best);
      least_mm = MIN (least_mm, fact->value.best);
    }
  if (largest_mm <= 0.0 || least_mm > largest_mm)
    return NULL;
  tl_search_filter_shrinks (filter, largest_mm, least_mm);
  return g_strdup_printf (_ ("heat-shrink sleeves from %.1f down to %.1f mm"), largest_mm,
                          least_mm);
}

char *
tl_parts_fit (TlDocument *document, TlSearchFilter *filter)
{
  const TlJoint *joint = tl_document_joint (document);
  const char    *owner = tl_document_selected (document);
  const TlLeg   *leg = owner == NULL ? NULL : tl_joint_leg (joint, owner);
  const TlLayer *layer = owner == NULL ? NULL : tl_joint_layer (joint, owner);
  const TlSeat  *seat = owner == NULL ? NULL : tl_joint_seat (joint, owner);

  if (owner == NULL || (seat != NULL && seat->kind == TL_SEAT_STACK))
    return fit_thread (document, filter);
  if (leg != NULL)
    return fit_conductor (document, leg, filter);
  if (layer != NULL && (layer->kind == TL_PART_SLEEVE || layer->kind == TL_PART_LUG))
    return fit_seal (document, layer, filter);
  return NULL;
}
