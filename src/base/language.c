/* language.c: messages, number format and paper of one language.
 *
 * Messages come from gettext under a locale object of this language, so that nothing of the process
 * changes. Where no locale of the language is installed, gettext has nothing to go by and the text
 * stays English; decimal mark and paper come from the tables below and never depend on what is
 * installed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "base/language.h"

#include <libintl.h>
#include <locale.h>
#include <math.h>
#include <string.h>

#define MAX_DECIMALS 15
#define MAX_TAG 32

struct _TlLanguage
{
  gint        ref_count; /* (atomic) */
  char       *tag;
  TlUnits     units;
  TlPaper     paper;
  const char *decimal_mark;
  gboolean    is_process;
  locale_t    locale; /* 0: none, text stays English */
};

/* Languages that write a decimal comma, and territories that differ from their language.
 * Source: Unicode CLDR, number symbols (from memory). */
static const char *const comma_languages[] = {
  "af", "az", "be", "bg", "bs", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fr",
  "gl", "hr", "hu", "hy", "id", "is", "it", "ka", "kk", "lt", "lv", "mk", "nb", "nl", "nn",
  "no", "pl", "pt", "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk", "uz", "vi", NULL
};
static const char *const point_tags[] = { "de_CH", "de_LI", "it_CH", "es_MX", "es_US",
                                          "es_PR", "es_GT", "es_HN", "es_NI", "es_PA",
                                          "es_SV", "es_DO", "es_PE", NULL };
static const char *const comma_tags[] = { "en_ZA", "en_AT", "en_DE", "en_NL", "en_SE", NULL };

/* Territories on Letter paper. Source: Unicode CLDR, paper size (from memory). */
static const char *const letter_territories[] = { "US", "CA", "MX", "PH", "CL", "CO", "CR", "GT",
                                                  "NI", "PA", "PR", "SV", "VE", "BZ", NULL };

/* "de_CH.UTF-8@x" and "de-ch" give "de_CH"; what is no tag at all gives "en". */
static char *
tidy_tag (const char *tag)
{
  gsize length = strcspn (tag, ".@");
  char *result;
  char *territory;

  if (length < 2 || length > MAX_TAG)
    return g_strdup ("en");
  result = g_strndup (tag, length);
  for (char *c = result; *c != '\0'; c++)
    {
      if (*c == '-')
        *c = '_';
      else if (!g_ascii_isalnum (*c) && *c != '_')
        {
          g_free (result);
          return g_strdup ("en");
        }
    }
  territory = strchr (result, '_');
  for (char *c = result; *c != '\0' && c != territory; c++)
    *c = g_ascii_tolower (*c);
  if (territory != NULL && strlen (territory) == 3)
    for (char *c = territory; *c != '\0'; c++)
      *c = g_ascii_toupper (*c);
  if (strcmp (result, "posix") == 0)
    {
      g_free (result);
      return g_strdup ("en");
    }
  return result;
}

static const char *
decimal_mark_of (const char *tag)
{
  char code[MAX_TAG + 1];

  if (g_strv_contains (point_tags, tag))
    return ".";
  if (g_strv_contains (comma_tags, tag))
    return ",";
  g_strlcpy (code, tag, MIN (sizeof code, strcspn (tag, "_") + 1));
  return g_strv_contains (comma_languages, code) ? "," : ".";
}

static TlPaper
paper_of (const char *tag)
{
  const char *territory = strchr (tag, '_');

  return territory != NULL && g_strv_contains (letter_territories, territory + 1) ? TL_PAPER_LETTER
                                                                                  : TL_PAPER_A4;
}

/* A locale object for the messages of @tag, or 0. */
static locale_t
find_locale (const char *tag)
{
  g_autofree char *with_codeset = g_strconcat (tag, ".UTF-8", NULL);
  g_autofree char *upper = g_ascii_strup (tag, -1);
  g_autofree char *home = g_strconcat (tag, "_", upper, ".UTF-8", NULL);
  const char      *names[] = { with_codeset, tag, home };

  /* Messages are written in English. */
  if (g_str_has_prefix (tag, "en") && (tag[2] == '\0' || tag[2] == '_'))
    return (locale_t) 0;
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      locale_t found = newlocale (LC_MESSAGES_MASK | LC_CTYPE_MASK, names[i], (locale_t) 0);

      if (found != (locale_t) 0)
        return found;
    }
  return (locale_t) 0;
}

static void
bind_domain_once (void)
{
  static gsize is_bound = 0;

  if (g_once_init_enter (&is_bound))
    {
      bindtextdomain (GETTEXT_PACKAGE, TL_LOCALE_DIR);
      bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
      g_once_init_leave (&is_bound, 1);
    }
}

TlLanguage *
tl_language_new (const char *tag, TlUnits units)
{
  TlLanguage *self = g_new0 (TlLanguage, 1);

  bind_domain_once ();
  self->ref_count = 1;
  self->units = units;
  self->is_process = tag == NULL;
  if (self->is_process)
    {
      g_autofree char *numeric = tidy_tag (setlocale (LC_NUMERIC, NULL));
      g_autofree char *paper = tidy_tag (setlocale (LC_PAPER, NULL));

      self->tag = tidy_tag (setlocale (LC_MESSAGES, NULL));
      self->decimal_mark = decimal_mark_of (numeric);
      self->paper = paper_of (paper);
    }
  else
    {
      self->tag = tidy_tag (tag);
      self->decimal_mark = decimal_mark_of (self->tag);
      self->paper = paper_of (self->tag);
      self->locale = find_locale (self->tag);
    }
  return self;
}

TlLanguage *
tl_language_ref (const TlLanguage *self)
{
  TlLanguage *mine = (TlLanguage *) self;

  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_int_inc (&mine->ref_count);
  return mine;
}

void
tl_language_unref (TlLanguage *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_int_dec_and_test (&self->ref_count))
    return;
  if (self->locale != (locale_t) 0)
    freelocale (self->locale);
  g_free (self->tag);
  g_free (self);
}

const TlLanguage *
tl_language_plain (void)
{
  static TlLanguage *plain = NULL;

  if (g_once_init_enter (&plain))
    g_once_init_leave (&plain, tl_language_new ("en", TL_UNITS_METRIC));
  return plain;
}

const char *
tl_language_tag (const TlLanguage *self)
{
  g_return_val_if_fail (self != NULL, "en");

  return self->tag;
}

TlPaper
tl_language_paper (const TlLanguage *self)
{
  g_return_val_if_fail (self != NULL, TL_PAPER_A4);

  return self->paper;
}

TlUnits
tl_language_units (const TlLanguage *self)
{
  g_return_val_if_fail (self != NULL, TL_UNITS_METRIC);

  return self->units;
}

const char *
tl_language_text (const TlLanguage *self, const char *msgid)
{
  locale_t    before;
  const char *text;

  g_return_val_if_fail (self != NULL && msgid != NULL, msgid);

  /* gettext would give the catalogue's heading for the empty text. */
  if (*msgid == '\0')
    return msgid;
  if (self->is_process)
    return dgettext (GETTEXT_PACKAGE, msgid);
  if (self->locale == (locale_t) 0)
    return msgid;
  before = uselocale (self->locale);
  text = dgettext (GETTEXT_PACKAGE, msgid);
  uselocale (before);
  return text;
}

const char *
tl_language_plural (const TlLanguage *self, const char *one, const char *many, gulong n)
{
  locale_t    before;
  const char *text;

  g_return_val_if_fail (self != NULL && one != NULL && many != NULL, one);

  if (self->is_process)
    return dngettext (GETTEXT_PACKAGE, one, many, n);
  if (self->locale == (locale_t) 0)
    return n == 1 ? one : many;
  before = uselocale (self->locale);
  text = dngettext (GETTEXT_PACKAGE, one, many, n);
  uselocale (before);
  return text;
}

char *
tl_language_number (const TlLanguage *self, double value, guint decimals)
{
  char     format[16];
  char     digits[G_ASCII_DTOSTR_BUF_SIZE + 320];
  GString *text;
  gboolean is_negative;

  g_return_val_if_fail (self != NULL, g_strdup ("?"));
  g_return_val_if_fail (isfinite (value), g_strdup ("?"));

  g_snprintf (format, sizeof format, "%%.%uf", MIN (decimals, MAX_DECIMALS));
  g_ascii_formatd (digits, sizeof digits, format, fabs (value));

  /* What rounds to nothing has no sign. */
  is_negative = value < 0.0 && strspn (digits, "0.") < strlen (digits);
  text = g_string_new (is_negative ? "\u2212" : "");
  for (const char *c = digits; *c != '\0'; c++)
    if (*c == '.')
      g_string_append (text, self->decimal_mark);
    else
      g_string_append_c (text, *c);
  return g_string_free (text, FALSE);
}
