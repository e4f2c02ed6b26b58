/* sheet-layout.c: which blocks a step sheet has, and on which page each stands.
 *
 * Blocks never break. A hold stays with the step before it, a heading with the first row below it; only a chain
 * that is longer than a page gives way.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/sheet-private.h"

/* Rows of a table or box that fit a page whatever they hold. */
#define MOST_ROWS 16
#define MOST_SENTENCES 40
/* What a repeated heading takes from a page. */
#define HEAD_ROOM 10.0

static void
add (TlSheet *self, TlBlockFunc draw, guint first, guint count, gboolean keep)
{
  TlBlock block = { draw, first, count, keep, 0.0, 0, 0.0 };

  block.height = draw (self, NULL, &block, 0.0);
  g_array_append_val (self->blocks, block);
}

/* A long list as several tables of at most @most rows. */
static void
add_chunks (TlSheet *self, TlBlockFunc draw, guint count, guint most)
{
  for (guint first = 0; first < count; first += most)
    add (self, draw, first, MIN (most, count - first), FALSE);
}

static void
add_rows (TlSheet *self, TlBlockFunc head, TlBlockFunc row, guint count)
{
  if (count == 0)
    return;
  add (self, head, 0, 0, FALSE);
  for (guint i = 0; i < count; i++)
    add (self, row, i, 1, i == 0);
}

static void
add_plan (TlSheet *self)
{
  const GPtrArray *steps = self->steps->steps;

  add (self, tl_block_cautions, 0, 0, FALSE);
  add_chunks (self, tl_block_lists, MAX (self->steps->parts->len, self->steps->tools->len),
              MOST_ROWS);
  add (self, tl_block_drawing, 0, 0, FALSE);
  add_chunks (self, tl_block_words, self->words->len, MOST_SENTENCES);
  if (self->box != NULL)
    add (self, tl_block_box, 0, 0, FALSE);
  add (self, tl_block_steps_head, 0, 0, FALSE);
  for (guint i = 0; i < steps->len; i++)
    add (self, tl_block_step, i, 1, i == 0 || ((TlStep *) g_ptr_array_index (steps, i))->is_hold);
  add_rows (self, tl_block_watch_head, tl_block_watch, self->steps->findings->len);
  if (self->steps->no_joint)
    add (self, tl_block_instead, 0, 0, FALSE);
  add (self, tl_block_record, 0, 0, FALSE);
  add (self, tl_block_upkeep, 0, 0, FALSE);
}

static void
add_refusal (TlSheet *self)
{
  add_rows (self, tl_block_refusal_head, tl_block_refusal, self->steps->refusals->len);
  add (self, tl_block_instead, 0, 0, FALSE);
  add (self, tl_block_drawing, 0, 0, FALSE);
  if (self->box != NULL && self->box->over_mm > 0.0)
    add (self, tl_block_box, 0, 0, FALSE);
  add_chunks (self, tl_block_lists, self->steps->parts->len, MOST_ROWS);
}

static double
chain_height (const TlSheet *self, guint first)
{
  double height = g_array_index (self->blocks, TlBlock, first).height;

  for (guint i = first + 1; i < self->blocks->len && g_array_index (self->blocks, TlBlock, i).keep;
       i++)
    height += g_array_index (self->blocks, TlBlock, i).height;
  return height;
}

/* The last page that has room for the ruler above its foot; a page of its own if none has. */
static void
place_ruler (TlSheet *self, const GArray *ends)
{
  double limit = tl_sheet_body_bottom (self) + 2.0 - TL_SHEET_RULER;

  for (guint page = self->n_pages; page > 0; page--)
    if (g_array_index (ends, double, page - 1) <= limit)
      {
        self->ruler_page = page - 1;
        return;
      }
  self->ruler_page = self->n_pages++;
}

/* What is assumed is read before anything is done, and stands by itself: rather than on a page of its own, block @index
 * goes into the first room that an earlier one has left, behind what is there. */
static gboolean
place_in_room (TlSheet *self, guint index, GArray *ends)
{
  TlBlock block = g_array_index (self->blocks, TlBlock, index);
  guint   page = 0, behind = 0;

  if (block.draw != tl_block_assumed)
    return FALSE;
  while (page < ends->len
         && g_array_index (ends, double, page) + block.height > tl_sheet_body_bottom (self))
    page++;
  if (page == ends->len)
    return FALSE;
  while (behind < index && g_array_index (self->blocks, TlBlock, behind).page <= page)
    behind++;
  block.page = page;
  block.y = g_array_index (ends, double, page);
  g_array_index (ends, double, page) += block.height;
  g_array_remove_index (self->blocks, index);
  g_array_insert_val (self->blocks, behind, block);
  return TRUE;
}

/* A page that opens with a step gets the heading of the steps again. */
static void
repeat_head (TlSheet *self, guint index)
{
  TlBlock head = { tl_block_steps_head, 0, 0, FALSE, 0.0, 0, 0.0 };

  if (g_array_index (self->blocks, TlBlock, index).draw != tl_block_step)
    return;
  head.height = head.draw (self, NULL, &head, 0.0);
  g_array_insert_val (self->blocks, index, head);
}

static void
paginate (TlSheet *self)
{
  double top = tl_sheet_body_top (self), bottom = tl_sheet_body_bottom (self), y = top;
  g_autoptr (GArray) ends = g_array_new (FALSE, TRUE, sizeof (double));

  self->n_pages = 1;
  g_array_append_val (ends, y);
  for (guint i = 0; i < self->blocks->len; i++)
    {
      TlBlock *block = &g_array_index (self->blocks, TlBlock, i);
      double   wanted = block->keep ? block->height : chain_height (self, i);

      if (wanted > bottom - top - HEAD_ROOM)
        wanted = block->height;
      if (y + wanted > bottom && place_in_room (self, i, ends))
        continue;
      if (y + wanted > bottom && y > top)
        {
          self->n_pages++;
          y = top;
          g_array_append_val (ends, y);
          repeat_head (self, i);
          block = &g_array_index (self->blocks, TlBlock, i);
        }
      block->page = self->n_pages - 1;
      block->y = y;
      y += block->height;
      g_array_index (ends, double, ends->len - 1) = y;
    }
  place_ruler (self, ends);
}

void
tl_sheet_lay_out (TlSheet *self)
{
  if (self->steps->state == TL_SHEET_REFUSED)
    add_refusal (self);
  else
    add_plan (self);
  add_chunks (self, tl_block_assumed, self->steps->assumed->len, MOST_ROWS);
  paginate (self);
}
