/* unit.c: units of the trade, and turning one into another.
 *
 * To add a unit: one row. Its place in the row of its dimension does not matter.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/unit-private.h"

#include <math.h>
#include <string.h>

#define AWG_THINNEST 36
#define AWG_THICKEST (-3)

static const TlUnit units[] = {
  /* Plain figures. */
  { "1", "ratio", 1.0, 1.0, 0.0, "" },
  { "%", "ratio", 1.0, 100.0, 0.0, "%" },
  { "ppm", "ratio", 1.0, 1e6, 0.0, "ppm" },
  /* International inch: 25.4 mm exactly. */
  { "mm", "length", 1.0, 1.0, 0.0, "mm" },
  { "cm", "length", 10.0, 1.0, 0.0, "cm" },
  { "m", "length", 1000.0, 1.0, 0.0, "m" },
  { "km", "length", 1e6, 1.0, 0.0, "km" },
  { "um", "length", 1.0, 1000.0, 0.0, "µm" },
  { "nm", "length", 1.0, 1e6, 0.0, "nm" },
  { "in", "length", 254.0, 10.0, 0.0, "in" },
  { "ft", "length", 3048.0, 10.0, 0.0, "ft" },
  { "kft", "length", 304800.0, 1.0, 0.0, "kft" },
  { "mil", "length", 254.0, 10000.0, 0.0, "mil" },
  { "1/mm", "per length", 1.0, 1.0, 0.0, "1/mm" },
  { "1/in", "per length", 10.0, 254.0, 0.0, "1/in" },
  { "1/m", "per length", 1.0, 1000.0, 0.0, "1/m" },
  /* Circular mil: area of a circle of one mil. */
  { "mm2", "area", 1.0, 1.0, 0.0, "mm²" },
  { "cm2", "area", 100.0, 1.0, 0.0, "cm²" },
  { "m2", "area", 1e6, 1.0, 0.0, "m²" },
  { "um2", "area", 1.0, 1e6, 0.0, "µm²" },
  { "in2", "area", 64516.0, 100.0, 0.0, "in²" },
  { "cmil", "area", G_PI * 64516.0, 4e8, 0.0, "cmil" },
  { "kcmil", "area", G_PI * 64516.0, 4e5, 0.0, "kcmil" },
  { "cm3", "volume", 1.0, 1.0, 0.0, "cm³" },
  { "mm3", "volume", 1.0, 1000.0, 0.0, "mm³" },
  { "m3", "volume", 1e6, 1.0, 0.0, "m³" },
  { "mL", "volume", 1.0, 1.0, 0.0, "mL" },
  { "L", "volume", 1000.0, 1.0, 0.0, "L" },
  { "in3", "volume", 16387064.0, 1e6, 0.0, "in³" },
  /* 1 lbf = 4.4482216152605 N and 1 kgf = 9.80665 N exactly. */
  { "N", "force", 1.0, 1.0, 0.0, "N" },
  { "kN", "force", 1000.0, 1.0, 0.0, "kN" },
  { "lbf", "force", 44482216152605.0, 1e13, 0.0, "lbf" },
  { "kgf", "force", 980665.0, 1e5, 0.0, "kgf" },
  { "N_m", "torque", 1.0, 1.0, 0.0, "N·m" },
  { "N_cm", "torque", 1.0, 100.0, 0.0, "N·cm" },
  { "N_mm", "torque", 1.0, 1000.0, 0.0, "N·mm" },
  { "lbf_in", "torque", 1129848290276167.0, 1e16, 0.0, "lbf·in" },
  { "lbf_ft", "torque", 13558179483314004.0, 1e16, 0.0, "lbf·ft" },
  { "MPa", "pressure", 1.0, 1.0, 0.0, "MPa" },
  { "N/mm2", "pressure", 1.0, 1.0, 0.0, "N/mm²" },
  { "Pa", "pressure", 1.0, 1e6, 0.0, "Pa" },
  { "kPa", "pressure", 1.0, 1000.0, 0.0, "kPa" },
  { "GPa", "pressure", 1000.0, 1.0, 0.0, "GPa" },
  { "psi", "pressure", 44482216152605.0, 6.4516e15, 0.0, "psi" },
  { "ksi", "pressure", 44482216152605.0, 6.4516e12, 0.0, "ksi" },
  { "N/mm", "stiffness", 1.0, 1.0, 0.0, "N/mm" },
  { "kN/mm", "stiffness", 1000.0, 1.0, 0.0, "kN/mm" },
  { "N/m", "stiffness", 1.0, 1000.0, 0.0, "N/m" },
  /* One year is 365.25 days. */
  { "s", "time", 1.0, 1.0, 0.0, "s" },
  { "ms", "time", 1.0, 1000.0, 0.0, "ms" },
  { "min", "time", 60.0, 1.0, 0.0, "min" },
  { "h", "time", 3600.0, 1.0, 0.0, "h" },
  { "d", "time", 86400.0, 1.0, 0.0, "d" },
  { "y", "time", 31557600.0, 1.0, 0.0, "y" },
  { "mm/y", "corrosion rate", 1.0, 1.0, 0.0, "mm/y" },
  { "um/y", "corrosion rate", 1.0, 1000.0, 0.0, "µm/y" },
  { "mpy", "corrosion rate", 254.0, 10000.0, 0.0, "mpy" },
  { "m/s2", "acceleration", 1.0, 1.0, 0.0, "m/s²" },
  { "um2/h", "diffusivity", 1.0, 1.0, 0.0, "µm²/h" },
  { "m2/s", "diffusivity", 3.6e15, 1.0, 0.0, "m²/s" },
  { "g", "mass", 1.0, 1.0, 0.0, "g" },
  { "kg", "mass", 1000.0, 1.0, 0.0, "kg" },
  { "mg", "mass", 1.0, 1000.0, 0.0, "mg" },
  { "g/cm3", "density", 1.0, 1.0, 0.0, "g/cm³" },
  { "kg/m3", "density", 1.0, 1000.0, 0.0, "kg/m³" },
  { "g/mol", "molar mass", 1.0, 1.0, 0.0, "g/mol" },
  { "kg/mol", "molar mass", 1000.0, 1.0, 0.0, "kg/mol" },
  { "mol/m3", "concentration", 1.0, 1.0, 0.0, "mol/m³" },
  { "mol/L", "concentration", 1000.0, 1.0, 0.0, "mol/L" },
  /* Points on the scale; a difference is in K throughout. */
  { "degC", "temperature", 1.0, 1.0, 0.0, "°C" },
  { "K", "temperature", 1.0, 1.0, 273.15, "K" },
  { "mK", "temperature", 1.0, 1000.0, 273150.0, "mK" },
  { "degF", "temperature", 5.0, 9.0, 32.0, "°F" },
  { "1/K", "per kelvin", 1.0, 1.0, 0.0, "1/K" },
  { "um/mK", "per kelvin", 1.0, 1e6, 0.0, "µm/(m·K)" },
  { "ppm/K", "per kelvin", 1.0, 1e6, 0.0, "ppm/K" },
  { "W", "power", 1.0, 1.0, 0.0, "W" },
  { "mW", "power", 1.0, 1000.0, 0.0, "mW" },
  { "kW", "power", 1000.0, 1.0, 0.0, "kW" },
  { "J", "energy", 1.0, 1.0, 0.0, "J" },
  { "kJ", "energy", 1000.0, 1.0, 0.0, "kJ" },
  { "J/mol", "molar energy", 1.0, 1.0, 0.0, "J/mol" },
  { "kJ/mol", "molar energy", 1000.0, 1.0, 0.0, "kJ/mol" },
  { "W/K", "thermal conductance", 1.0, 1.0, 0.0, "W/K" },
  { "W/m", "heat per length", 1.0, 1.0, 0.0, "W/m" },
  { "W/mK", "thermal conductivity", 1.0, 1.0, 0.0, "W/(m·K)" },
  { "W/m2K", "film coefficient", 1.0, 1.0, 0.0, "W/(m²·K)" },
  { "W/m2K1.25", "natural film coefficient", 1.0, 1.0, 0.0, "W/(m²·K^1.25)" },
  { "J/kgK", "heat capacity", 1.0, 1.0, 0.0, "J/(kg·K)" },
  { "kJ/kgK", "heat capacity", 1000.0, 1.0, 0.0, "kJ/(kg·K)" },
  { "J/m3K", "heat capacity by volume", 1.0, 1.0, 0.0, "J/(m³·K)" },
  { "MJ/m3K", "heat capacity by volume", 1e6, 1.0, 0.0, "MJ/(m³·K)" },
  { "A", "current", 1.0, 1.0, 0.0, "A" },
  { "mA", "current", 1.0, 1000.0, 0.0, "mA" },
  { "kA", "current", 1000.0, 1.0, 0.0, "kA" },
  { "mV", "voltage", 1.0, 1.0, 0.0, "mV" },
  { "V", "voltage", 1000.0, 1.0, 0.0, "V" },
  { "kV", "voltage", 1e6, 1.0, 0.0, "kV" },
  { "uV", "voltage", 1.0, 1000.0, 0.0, "µV" },
  { "mohm", "resistance", 1.0, 1.0, 0.0, "mΩ" },
  { "uohm", "resistance", 1.0, 1000.0, 0.0, "µΩ" },
  { "ohm", "resistance", 1000.0, 1.0, 0.0, "Ω" },
  { "kohm", "resistance", 1e6, 1.0, 0.0, "kΩ" },
  { "Mohm", "resistance", 1e9, 1.0, 0.0, "MΩ" },
  { "ohm/km", "resistance per length", 1.0, 1.0, 0.0, "Ω/km" },
  { "mohm/m", "resistance per length", 1.0, 1.0, 0.0, "mΩ/m" },
  { "ohm/m", "resistance per length", 1000.0, 1.0, 0.0, "Ω/m" },
  { "ohm/kft", "resistance per length", 10000.0, 3048.0, 0.0, "Ω/kft" },
  { "ohm_mm2/m", "resistivity", 1.0, 1.0, 0.0, "Ω·mm²/m" },
  { "uohm_cm", "resistivity", 1.0, 100.0, 0.0, "µΩ·cm" },
  { "nohm_m", "resistivity", 1.0, 1000.0, 0.0, "nΩ·m" },
  { "ohm_m", "resistivity", 1e6, 1.0, 0.0, "Ω·m" },
  { "ohm_g/m2", "mass resistivity", 1.0, 1.0, 0.0, "Ω·g/m²" },
  { "ohm_m2", "film resistivity", 1.0, 1.0, 0.0, "Ω·m²" },
  { "S/m", "conductivity", 1.0, 1.0, 0.0, "S/m" },
  { "MS/m", "conductivity", 1e6, 1.0, 0.0, "MS/m" },
  { "A/m2", "current density", 1.0, 1.0, 0.0, "A/m²" },
  { "mA/cm2", "current density", 10.0, 1.0, 0.0, "mA/cm²" },
  { "A/mm2", "current density", 1e6, 1.0, 0.0, "A/mm²" },
  { "C/m2", "charge density", 1.0, 1.0, 0.0, "C/m²" },
  { "A2s", "joule integral", 1.0, 1.0, 0.0, "A²s" },
  { "kA2s", "joule integral", 1e6, 1.0, 0.0, "kA²s" },
  { "A_sqrt_s/mm2", "adiabatic constant", 1.0, 1.0, 0.0, "A·√s/mm²" },
  { "kg/A_y", "metal loss", 1.0, 1.0, 0.0, "kg/(A·y)" },
  { "V2/K2", "lorenz number", 1.0, 1.0, 0.0, "V²/K²" },
  { "deg", "angle", 1.0, 1.0, 0.0, "°" },
  { "rad", "angle", 180, G_PI, 0.0, "rad" },
  { "px", "pixels", 1.0, 1.0, 0.0, "px" },
};

/* What people write besides, after simplify(). */
static const struct
{
  const char *spelling;
  const char *name;
} aliases[] = {
  { "\"", "in" },
  { "″", "in" },
  { "inch", "in" },
  { "inches", "in" },
  { "'", "ft" },
  { "′", "ft" },
  { "feet", "ft" },
  { "thou", "mil" },
  { "sqmm", "mm2" },
  { "mmsq", "mm2" },
  { "sqin", "in2" },
  { "MCM", "kcmil" },
  { "ml", "mL" },
  { "l", "L" },
  { "cc", "cm3" },
  { "ccm", "cm3" },
  { "cuin", "in3" },
  { "lbin", "lbf_in" },
  { "inlb", "lbf_in" },
  { "inlbf", "lbf_in" },
  { "lbft", "lbf_ft" },
  { "ftlb", "lbf_ft" },
  { "ftlbf", "lbf_ft" },
  { "degc", "degC" },
  { "degf", "degF" },
  { "1/degC", "1/K" },
  { "sec", "s" },
  { "hr", "h" },
  { "yr", "y" },
  { "a", "y" },
  { "mm/yr", "mm/y" },
  { "mm/a", "mm/y" },
  { "ohm/1000ft", "ohm/kft" },
  { "W/degC", "W/K" },
  { "As0.5/mm2", "A_sqrt_s/mm2" },
};

static const struct
{
  const char *from;
  const char *to;
} simpler[] = {
  { "²", "2" },     { "³", "3" },   { "µ", "u" },    { "μ", "u" },     { "Ω", "ohm" },
  { "Ω", "ohm" },   { "°", "deg" }, { "√", "sqrt" }, { "·", "" },      { "⋅", "" },
  { "*", "" },      { "^", "" },    { "_", "" },     { "-", "" },      { "(", "" },
  { ")", "" },      { " ", "" },    { "\t", "" },    { "\u00a0", "" }, { "\u202f", "" },
  { "\u2009", "" },
};

/* @spelling with powers, products and Greek letters written plainly: "N·m" and "N_m" both give
 * "Nm". */
static void
simplify (const char *spelling, char *plain, gsize size)
{
  gsize length = 0;

  while (*spelling != '\0' && length + 1 < size)
    {
      const char *piece = NULL;
      gsize       eaten = 1;

      for (guint i = 0; i < G_N_ELEMENTS (simpler) && piece == NULL; i++)
        if (g_str_has_prefix (spelling, simpler[i].from))
          {
            piece = simpler[i].to;
            eaten = strlen (simpler[i].from);
          }
      if (piece == NULL)
        plain[length++] = *spelling;
      else
        for (; *piece != '\0' && length + 1 < size; piece++)
          plain[length++] = *piece;
      spelling += eaten;
    }
  plain[length] = '\0';
}

static const TlUnit *
find_by_name (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (units[i].name, name) == 0)
      return &units[i];
  return NULL;
}

const TlUnit *
tl_unit_find (const char *spelling)
{
  const TlUnit *unit = find_by_name (spelling);
  char          plain[40];
  char          plain_name[40];

  if (unit != NULL)
    return unit;
  if (*spelling == '\0' || strlen (spelling) >= sizeof plain)
    return NULL;

  simplify (spelling, plain, sizeof plain);
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      simplify (units[i].name, plain_name, sizeof plain_name);
      if (strcmp (plain_name, plain) == 0)
        return &units[i];
    }
  for (guint i = 0; i < G_N_ELEMENTS (aliases); i++)
    if (strcmp (aliases[i].spelling, plain) == 0)
      return find_by_name (aliases[i].name);
  return NULL;
}

const TlUnit *
tl_unit_all (guint *count)
{
  *count = G_N_ELEMENTS (units);
  return units;
}

char *
tl_unit_list_alike (const TlUnit *unit)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (units[i].dimension, unit->dimension) == 0 && *units[i].label != '\0')
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", units[i].label);
  return g_string_free (list, FALSE);
}

double
tl_unit_turn (double value, const TlUnit *from, const TlUnit *to)
{
  double shifted;

  if (from == to)
    return value;
  /* Scales with one zero, such as K and mK, need no shift and lose no digit to one. */
  if (from->zero * from->numerator * to->denominator
      == to->zero * to->numerator * from->denominator)
    return value * (from->numerator * to->denominator) / (from->denominator * to->numerator);

  shifted = value - from->zero;
  return shifted * (from->numerator * to->denominator) / (from->denominator * to->numerator)
         + to->zero;
}

gboolean
tl_unit_is_known (const char *unit)
{
  g_return_val_if_fail (unit != NULL, FALSE);

  return tl_unit_find (unit) != NULL;
}

gboolean
tl_unit_converts (const char *from, const char *to)
{
  const TlUnit *a;
  const TlUnit *b;

  g_return_val_if_fail (from != NULL && to != NULL, FALSE);

  a = tl_unit_find (from);
  b = tl_unit_find (to);
  return a != NULL && b != NULL && strcmp (a->dimension, b->dimension) == 0;
}

const char *
tl_unit_label (const char *unit)
{
  const TlUnit *row;

  g_return_val_if_fail (unit != NULL, "");

  row = tl_unit_find (unit);
  return row != NULL ? row->label : unit;
}

double
tl_awg_diameter_mm (int awg)
{
  g_return_val_if_fail (awg >= AWG_THICKEST && awg <= AWG_THINNEST, 0.0);

  return 0.127 * pow (92.0, (36 - awg) / 39.0);
}
