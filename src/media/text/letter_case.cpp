#include "media/text/letter_case.h"

#include <algorithm>

#include "media/text/handles.h"

namespace quoin {
namespace {

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at))
    at = text.replace(at, what.size(), with).find(with, at) + with.size();
  return text;
}

bool is_greek(gunichar c) { return g_unichar_get_script(c) == G_UNICODE_SCRIPT_GREEK; }

constexpr gunichar tonos = 0x301, dialytika = 0x308;
constexpr gunichar iota = 0x3B9, upsilon = 0x3C5, eta = 0x3B7;

bool is_accent(gunichar c) {
  return c == tonos || c == 0x300 || c == 0x342 || c == 0x313 || c == 0x314;
}

/// Greek capitals carry no accents; a vowel pair kept apart by one is kept apart by a dialytika
/// instead (άι, ΑΪ). The word ή alone keeps it. Works on decomposed small letters.
/// Source: Unicode Standard, section 7.2, "Greek"; the lone ή: common practice, no source.
std::u32string without_greek_accents(const std::u32string& text) {
  std::u32string out;
  bool accent_before = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const gunichar c = text[i];
    const bool letter_before = !out.empty() && is_greek(out.back());
    const bool lone = i > 0 && text[i - 1] == eta && (i < 2 || !g_unichar_isalpha(text[i - 2])) &&
                      (i + 1 == text.size() || !g_unichar_isalpha(text[i + 1]));
    if (is_accent(c) && (letter_before || accent_before) && !lone) {
      accent_before = true;
      continue;
    }
    out.push_back(c);
    const bool has_dialytika = i + 1 < text.size() && text[i + 1] == dialytika;
    if (accent_before && (c == iota || c == upsilon) && !has_dialytika) out.push_back(dialytika);
    accent_before = false;
  }
  return out;
}

std::string greek_unaccented(const std::string& text) {
  const GText parts{g_utf8_normalize(text.c_str(), -1, G_NORMALIZE_NFD)};
  const GText small{g_utf8_strdown(parts.get(), -1)};
  glong count = 0;
  const std::unique_ptr<gunichar, Closer<g_free>> letters{
      g_utf8_to_ucs4_fast(small.get(), -1, &count)};
  const std::u32string plain =
      without_greek_accents(std::u32string(letters.get(), letters.get() + count));
  const GText joined{g_ucs4_to_utf8(reinterpret_cast<const gunichar*>(plain.data()),
                                    static_cast<glong>(plain.size()), nullptr, nullptr, nullptr)};
  const GText composed{g_utf8_normalize(joined.get(), -1, G_NORMALIZE_NFC)};
  return composed.get();
}

}  // namespace

std::string valid_utf8(std::string_view text) {
  const GText valid{g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()))};
  return valid.get();
}

std::string_view primary_language(std::string_view tag) {
  return tag.substr(0, std::min(tag.find('-'), tag.find('_')));
}

std::string upper_case(std::string_view text, std::string_view language) {
  std::string small = valid_utf8(text);
  const std::string_view primary = primary_language(language);
  if (primary == "tr" || primary == "az") small = replaced(std::move(small), "i", "İ");
  if (primary == "el") small = greek_unaccented(small);
  const GText upper{g_utf8_strup(small.c_str(), -1)};
  return upper.get();
}

}  // namespace quoin
