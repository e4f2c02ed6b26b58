/* palette.c: the four schemes of the screen and the one ink of paper.
 *
 * Tokens as in the style sheet of the window; the text contrasts that they promise are checked in the tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "draw/paint.h"
#include <math.h>

#define HEX(rgb)                                                                                   \
  {                                                                                                \
    ((rgb) >> 16 & 0xff) / 255.0, ((rgb) >> 8 & 0xff) / 255.0, ((rgb) &0xff) / 255.0               \
  }

#define LIGHT_TINTS                                                                                \
  {                                                                                                \
    [TL_LOOK_COPPER] = HEX (0xE9BFA0), [TL_LOOK_ALUMINIUM] = HEX (0xE4EAEE),                       \
    [TL_LOOK_TIN] = HEX (0xCBD2D6), [TL_LOOK_STEEL] = HEX (0xB9C3CA),                              \
    [TL_LOOK_STAINLESS] = HEX (0xCDD8D8), [TL_LOOK_ZINC] = HEX (0xC3CADF),                         \
    [TL_LOOK_NICKEL] = HEX (0xD6D2C6), [TL_LOOK_BRASS] = HEX (0xE6D48D),                           \
    [TL_LOOK_POLYMER] = HEX (0xDAD2E6), [TL_LOOK_ADHESIVE] = HEX (0xF3E3D8),                       \
    [TL_LOOK_INSULATION] = HEX (0xE4E2DB), [TL_LOOK_COMPOUND] = HEX (0xF1EBC6),                    \
    [TL_LOOK_AIR] = HEX (0xFCFCFA),                                                                \
  }

#define DARK_TINTS                                                                                 \
  {                                                                                                \
    [TL_LOOK_COPPER] = HEX (0x6E4630), [TL_LOOK_ALUMINIUM] = HEX (0x3F4C56),                       \
    [TL_LOOK_TIN] = HEX (0x56626A), [TL_LOOK_STEEL] = HEX (0x33414B),                              \
    [TL_LOOK_STAINLESS] = HEX (0x3B4C4C), [TL_LOOK_ZINC] = HEX (0x3D4565),                         \
    [TL_LOOK_NICKEL] = HEX (0x54514A), [TL_LOOK_BRASS] = HEX (0x5E5424),                           \
    [TL_LOOK_POLYMER] = HEX (0x43385A), [TL_LOOK_ADHESIVE] = HEX (0x57422F),                       \
    [TL_LOOK_INSULATION] = HEX (0x3A3C3B), [TL_LOOK_COMPOUND] = HEX (0x4A4526),                    \
    [TL_LOOK_AIR] = HEX (0x11181D),                                                                \
  }

#define WHITE HEX (0xFFFFFF)
#define BLACK HEX (0x000000)

static const TlPalette palettes[TL_N_SCHEMES] = {
  [TL_SCHEME_LIGHT] = {
    .scheme = TL_SCHEME_LIGHT,
    .ground = HEX (0xE3E7E6), .panel = HEX (0xF0F2F1), .paper = HEX (0xFCFCFA), .field = WHITE, .raised = WHITE,
    .ink = HEX (0x17222D), .muted = HEX (0x4C5A66), .dim = HEX (0x2F4254), .centre = HEX (0x5A6B78),
    .hair = HEX (0xB4BEC2), .hair2 = HEX (0xD5DBDC), .select = HEX (0x0F5AA8),
    .select_wash = HEX (0xDCE9F6), .on_select = WHITE, .pattern = HEX (0x33424F),
    .severity = { HEX (0x12606A), HEX (0x55409A), HEX (0x8F4A00), HEX (0x9C0F3C) },
    .severity_wash = { HEX (0xDDEFF0), HEX (0xEAE6F6), HEX (0xF8EAD8), HEX (0xF9E3EA) },
    .tint = LIGHT_TINTS, .line_ratio = 1.0,
  },
  [TL_SCHEME_DARK] = {
    .scheme = TL_SCHEME_DARK,
    .ground = HEX (0x0D1216), .panel = HEX (0x182026), .paper = HEX (0x11181D), .field = HEX (0x0D1317),
    .raised = HEX (0x222C33), .ink = HEX (0xE9EEF0), .muted = HEX (0xA7B4BC), .dim = HEX (0xC3CED5),
    .centre = HEX (0x8C9BA5), .hair = HEX (0x41505A), .hair2 = HEX (0x2A363E), .select = HEX (0x7DB8F2),
    .select_wash = HEX (0x1D3750), .on_select = HEX (0x0D1216), .pattern = HEX (0xCFD8DD),
    .severity = { HEX (0x72CDD3), HEX (0xBDB2FF), HEX (0xF2B261), HEX (0xFF93AC) },
    .severity_wash = { HEX (0x12373B), HEX (0x2C2752), HEX (0x40290F), HEX (0x46182A) },
    .tint = DARK_TINTS, .line_ratio = 1.0,
  },
  [TL_SCHEME_CONTRAST] = {
    .scheme = TL_SCHEME_CONTRAST,
    .ground = WHITE, .panel = WHITE, .paper = WHITE, .field = WHITE, .raised = WHITE, .ink = BLACK,
    .muted = HEX (0x1F2933), .dim = BLACK, .centre = BLACK, .hair = BLACK, .hair2 = BLACK,
    .select = HEX (0x003E8A), .select_wash = WHITE, .on_select = WHITE, .pattern = BLACK,
    .severity = { HEX (0x00454D), HEX (0x3A2480), HEX (0x6B3300), HEX (0x7A0029) },
    .severity_wash = { WHITE, WHITE, WHITE, WHITE },
    .tint = LIGHT_TINTS, .line_ratio = 1.4,
  },
  [TL_SCHEME_CONTRAST_DARK] = {
    .scheme = TL_SCHEME_CONTRAST_DARK,
    .ground = BLACK, .panel = BLACK, .paper = BLACK, .field = BLACK, .raised = BLACK, .ink = WHITE,
    .muted = HEX (0xC3CED5), .dim = WHITE, .centre = WHITE, .hair = WHITE, .hair2 = WHITE,
    .select = HEX (0x7DB8F2), .select_wash = BLACK, .on_select = BLACK, .pattern = WHITE,
    .severity = { HEX (0x72CDD3), HEX (0xBDB2FF), HEX (0xF2B261), HEX (0xFF93AC) },
    .severity_wash = { BLACK, BLACK, BLACK, BLACK },
    .tint = DARK_TINTS, .line_ratio = 1.4,
  },
  [TL_SCHEME_ONE_INK] = {
    .scheme = TL_SCHEME_ONE_INK,
    .ground = WHITE, .panel = WHITE, .paper = WHITE, .field = WHITE, .raised = WHITE, .ink = BLACK,
    .muted = BLACK, .dim = BLACK, .centre = BLACK, .hair = BLACK, .hair2 = BLACK, .select = BLACK,
    .select_wash = WHITE, .on_select = WHITE, .pattern = BLACK,
    .severity = { BLACK, BLACK, BLACK, BLACK },
    .severity_wash = { WHITE, WHITE, WHITE, WHITE },
    .tint = { WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE, WHITE },
    .line_ratio = 1.0,
  },
};

G_STATIC_ASSERT (TL_N_LOOKS == 13);

const TlPalette *
tl_palette_get (TlScheme scheme)
{
  g_return_val_if_fail ((guint) scheme < TL_N_SCHEMES, &palettes[TL_SCHEME_LIGHT]);
  return &palettes[scheme];
}

double
tl_colour_contrast (TlColour a, TlColour b)
{
  const TlColour *colours[2] = { &a, &b };
  double          luminance[2];

  for (guint i = 0; i < 2; i++)
    {
      double channel[3] = { colours[i]->red, colours[i]->green, colours[i]->blue };

      for (guint k = 0; k < 3; k++)
        channel[k] =
            channel[k] <= 0.04045 ? channel[k] / 12.92 : pow ((channel[k] + 0.055) / 1.055, 2.4);
      luminance[i] = 0.2126 * channel[0] + 0.7152 * channel[1] + 0.0722 * channel[2];
    }
  return (MAX (luminance[0], luminance[1]) + 0.05) / (MIN (luminance[0], luminance[1]) + 0.05);
}
