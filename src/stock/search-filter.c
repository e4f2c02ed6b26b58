/* search-filter.c: what a gap asks of a part.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "stock/pack.h"
#include "stock/search.h"

#include <string.h>

void
tl_search_filter_init_defaults (TlSearchFilter *filter)
{
  g_return_if_fail (filter != NULL);

  memset (filter, 0, sizeof *filter);
}

void
tl_search_filter_add_kind (TlSearchFilter *filter, TlPartKind kind)
{
  G_STATIC_ASSERT (TL_N_PART_KINDS <= 32);

  g_return_if_fail (filter != NULL && (guint) kind < TL_N_PART_KINDS);

  filter->kinds |= 1u << kind;
}

void
tl_search_filter_add_condition (TlSearchFilter *filter, TlField field, double low, double high)
{
  g_return_if_fail (filter != NULL && filter->n_conditions < TL_SEARCH_MAX_CONDITIONS);

  filter->conditions[filter->n_conditions++] = (TlSearchCondition){ field, low, high };
}

void
tl_search_filter_passes_thread (TlSearchFilter *filter, double thread_mm, double clearance_ratio)
{
  static const TlPartKind kinds[] = { TL_PART_PLAIN_WASHER,    TL_PART_LARGE_WASHER,
                                      TL_PART_SPRING_RING,     TL_PART_CONICAL_WASHER,
                                      TL_PART_SERRATED_WASHER, TL_PART_LUG };

  g_return_if_fail (filter != NULL);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    tl_search_filter_add_kind (filter, kinds[i]);
  tl_search_filter_add_condition (filter, TL_FIELD_BORE, thread_mm,
                                  thread_mm * (1.0 + clearance_ratio));
}

void
tl_search_filter_takes_conductor (TlSearchFilter *filter, double diameter_mm, double low_ratio,
                                  double high_ratio)
{
  g_return_if_fail (filter != NULL);

  tl_search_filter_add_kind (filter, TL_PART_SLEEVE);
  tl_search_filter_add_kind (filter, TL_PART_FERRULE);
  tl_search_filter_add_condition (filter, TL_FIELD_BORE, diameter_mm * low_ratio,
                                  diameter_mm * high_ratio);
}

void
tl_search_filter_shrinks (TlSearchFilter *filter, double largest_mm, double smallest_mm)
{
  g_return_if_fail (filter != NULL);

  tl_search_filter_add_kind (filter, TL_PART_SEAL);
  tl_search_filter_add_condition (filter, TL_FIELD_EXPANDED, largest_mm, G_MAXDOUBLE);
  tl_search_filter_add_condition (filter, TL_FIELD_RECOVERED, 0.0, smallest_mm);
}

static gboolean
fits_conditions (const TlSearchFilter *filter, const TlPart *part)
{
  for (guint i = 0; i < filter->n_conditions; i++)
    {
      const TlSearchCondition *condition = &filter->conditions[i];
      const TlFact            *fact = tl_facts_get (part->facts, condition->field);

      if (fact == NULL ? !part->is_open
                       : (fact->value.best < condition->low || fact->value.best > condition->high))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_of_metal (const TlPart *part, const char *metal)
{
  return strcmp (tl_facts_word (part->facts, TL_FIELD_METAL, ""), metal) == 0
         || strcmp (tl_facts_word (part->facts, TL_FIELD_MATERIAL, ""), metal) == 0;
}

gboolean
tl_search_filter_fits (const TlSearchFilter *filter, const TlStock *stock, const TlPart *part)
{
  g_return_val_if_fail (filter != NULL && stock != NULL && part != NULL, FALSE);

  if ((filter->kinds != 0 && (filter->kinds & (1u << part->kind)) == 0)
      || !fits_conditions (filter, part)
      || (filter->metal != NULL && !is_of_metal (part, filter->metal)))
    return FALSE;
  if (filter->only_own && tl_stock_pack_of (stock, part->id) == NULL)
    return FALSE;
  if (filter->only_in_van)
    {
      const TlPackMark *mark = tl_stock_mark (stock, part->id, NULL);

      return mark != NULL && mark->in_van;
    }
  return TRUE;
}
