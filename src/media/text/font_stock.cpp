#include "media/text/font_stock.h"

#include <algorithm>
#include <cmath>
#include <new>

#include "media/text/handles.h"
#include "media/text/house.h"
#include "media/text/letter_case.h"
#include "media/text/memory_file.h"

namespace quoin {
namespace {

const FcChar8* fc(const std::string& text) {
  return reinterpret_cast<const FcChar8*>(text.c_str());
}

std::string string_of(const FcPattern* pattern, const char* part) {
  FcChar8* value = nullptr;
  if (FcPatternGetString(pattern, part, 0, &value) != FcResultMatch) return "";
  return reinterpret_cast<const char*>(value);
}

/// Why a face cannot be used for print, or "".
std::string unfit_for_print(const FcPattern* face) {
  FcBool scalable = FcFalse;
  FcPatternGetBool(face, FC_SCALABLE, 0, &scalable);
  if (!scalable) return "holds letters made of dots, which print ragged";
  const std::string format = string_of(face, FC_FONTFORMAT);
  if (format != "TrueType" && format != "CFF") return "is neither TrueType nor OpenType";
  if (family_names(face).empty()) return "does not say what its family is called";
  return "";
}

/// A weight or a range of them, in OpenType's scale.
std::pair<int, int> weights(const FcPattern* pattern) {
  double low = FC_WEIGHT_REGULAR, high = low;
  FcRange* range = nullptr;
  if (FcPatternGetDouble(pattern, FC_WEIGHT, 0, &low) == FcResultMatch) {
    high = low;
  } else if (FcPatternGetRange(pattern, FC_WEIGHT, 0, &range) == FcResultMatch) {
    FcRangeGetDouble(range, &low, &high);
  }
  const auto opentype = [](double w) {
    return static_cast<int>(std::lround(FcWeightToOpenTypeDouble(w)));
  };
  return {opentype(low), opentype(high)};
}

Face face_of(const FcPattern* pattern) {
  Face face;
  std::tie(face.lightest, face.heaviest) = weights(pattern);
  int slant = FC_SLANT_ROMAN;
  FcPatternGetInteger(pattern, FC_SLANT, 0, &slant);
  face.italic = slant != FC_SLANT_ROMAN;
  return face;
}

/// Letters to change, put in or take out to make one word of the other (Levenshtein 1966).
std::size_t spelling_distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string folded(std::string_view family) {
  const GText lower{g_utf8_casefold(valid_utf8(family).c_str(), -1)};
  const std::string_view text = lower.get();
  const std::size_t first = text.find_first_not_of(' ');
  if (first == text.npos) return "";
  return std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

std::vector<std::string> family_names(const FcPattern* pattern) {
  std::vector<std::string> names;
  FcChar8* name = nullptr;
  for (int i = 0; FcPatternGetString(pattern, FC_FAMILY, i, &name) == FcResultMatch; ++i)
    names.emplace_back(reinterpret_cast<const char*>(name));
  return names;
}

FontStock::FontStock(const std::vector<FontFile>& files) : config_(FcConfigCreate()) {
  if (!config_) throw std::bad_alloc();
  for (const FontFile& file : files) add(file.name, *file.bytes);
  for (const HouseFile& file : house_fonts()) add(std::string(file.name), file.bytes);
  list_faces();
}

FontStock::FontStock(const FontStock& own, const std::vector<std::string>& machine_files)
    : config_(FcConfigCreate()) {
  if (!config_) throw std::bad_alloc();
  for (const std::string& file : machine_files)
    if (std::string why = add_file(file); !why.empty()) refused_.push_back(file + " " + why);
  FcFontSet* const here = FcConfigGetFonts(config_, FcSetApplication);
  const FcFontSet* const there = FcConfigGetFonts(own.config_, FcSetApplication);
  for (int i = 0; here && there && i < there->nfont; ++i) {
    FcPatternReference(there->fonts[i]);
    FcFontSetAdd(here, there->fonts[i]);
  }
  list_faces();
}

FontStock::~FontStock() { FcConfigDestroy(config_); }

void FontStock::add(const std::string& name, std::string_view bytes) {
  std::string why;
  const std::string path = memory_file(bytes, why);
  why = path.empty() ? "cannot be held in memory: " + why : add_file(path);
  if (!why.empty()) refused_.push_back(name + " " + why);
}

/// Adds a file's faces and takes out those that cannot be printed. The reason when none is left.
std::string FontStock::add_file(const std::string& path) {
  const FcFontSet* const before = FcConfigGetFonts(config_, FcSetApplication);
  const int first = before ? before->nfont : 0;
  if (!FcConfigAppFontAddFile(config_, fc(path))) return "is not a font file";
  FcFontSet* const fonts = FcConfigGetFonts(config_, FcSetApplication);
  if (!fonts || fonts->nfont == first) return "is not a font file";
  std::string why;
  int kept = first;
  for (int i = first; i < fonts->nfont; ++i) {
    const std::string unfit = unfit_for_print(fonts->fonts[i]);
    if (unfit.empty()) {
      fonts->fonts[kept++] = fonts->fonts[i];
    } else {
      FcPatternDestroy(fonts->fonts[i]);
      why = unfit;
    }
  }
  fonts->nfont = kept;
  return kept > first ? "" : why;
}

void FontStock::list_faces() {
  const FcFontSet* fonts = FcConfigGetFonts(config_, FcSetApplication);
  for (int i = 0; fonts && i < fonts->nfont; ++i) {
    for (const std::string& name : family_names(fonts->fonts[i])) {
      names_.try_emplace(folded(name), name);
      faces_[folded(name)].push_back(face_of(fonts->fonts[i]));
    }
  }
}

const std::vector<Face>* FontStock::faces(const std::string& family) const {
  const auto found = faces_.find(folded(family));
  return found == faces_.end() ? nullptr : &found->second;
}

MachineFonts::~MachineFonts() {
  if (config_) FcConfigDestroy(config_);
}

FcConfig* MachineFonts::config() {
  if (!config_) config_ = FcInitLoadConfigAndFonts();
  return config_;
}

std::vector<std::string> MachineFonts::files_of(const std::string& family) {
  std::vector<std::string> files;
  const FcFontSet* const fonts = config() ? FcConfigGetFonts(config_, FcSetSystem) : nullptr;
  const std::string wanted = folded(family);
  for (int i = 0; fonts && !wanted.empty() && i < fonts->nfont; ++i) {
    const std::vector<std::string> names = family_names(fonts->fonts[i]);
    if (std::any_of(names.begin(), names.end(),
                    [&](const std::string& name) { return folded(name) == wanted; }))
      files.push_back(string_of(fonts->fonts[i], FC_FILE));
  }
  std::sort(files.begin(), files.end());
  files.erase(std::unique(files.begin(), files.end()), files.end());
  return files;
}

std::map<std::string, std::string> MachineFonts::names() {
  std::map<std::string, std::string> names;
  const FcFontSet* const fonts = config() ? FcConfigGetFonts(config_, FcSetSystem) : nullptr;
  for (int i = 0; fonts && i < fonts->nfont; ++i)
    for (const std::string& name : family_names(fonts->fonts[i]))
      names.try_emplace(folded(name), name);
  return names;
}

std::string nearest_spelling(const std::string& family,
                             const std::map<std::string, std::string>& names) {
  constexpr std::size_t longest_name = 64;  // nobody means a font by a longer one
  const std::string wanted = folded(family);
  if (wanted.size() > longest_name) return "";
  std::size_t nearest = std::max<std::size_t>(2, wanted.size() / 4) + 1;
  std::string best;
  for (const auto& [name, written] : names) {
    if (name.size() > longest_name) continue;
    const std::size_t distance = spelling_distance(wanted, name);
    if (distance >= nearest) continue;
    nearest = distance;
    best = written;
  }
  return best;
}

}  // namespace quoin
