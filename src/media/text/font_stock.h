#pragma once
#include <fontconfig/fontconfig.h>

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "media/text.h"

namespace quoin {

/// One face of a family: a font file, or a stretch of a variable one.
struct Face {
  int lightest = 400, heaviest = 400;  ///< OpenType weights; equal but for variable fonts
  bool italic = false;                 ///< italic or oblique
};

/// Fonts in a fontconfig configuration of their own: a game's files first, then the house fonts;
/// nothing of the machine unless it was borrowed by name.
///
/// Font bytes become files in memory, because FreeType, HarfBuzz and cairo all open fonts by name
/// (see memory_file.h).
class FontStock {
 public:
  explicit FontStock(const std::vector<FontFile>& files);
  /// The fonts of `own`, and before them those files of the machine: for texts that ask for a
  /// family that only the machine has. A stock of its own, so that no other text falls back to it.
  FontStock(const FontStock& own, const std::vector<std::string>& machine_files);
  ~FontStock();
  FontStock(const FontStock&) = delete;
  FontStock& operator=(const FontStock&) = delete;

  [[nodiscard]] FcConfig* config() const { return config_; }

  /// The faces of the family of that name, letter case aside; null when there is none.
  [[nodiscard]] const std::vector<Face>* faces(const std::string& family) const;

  /// Folded names with the names as written.
  [[nodiscard]] const std::map<std::string, std::string>& names() const { return names_; }

  /// "fonts/a.ttf is not a font file": files that were left out.
  [[nodiscard]] const std::vector<std::string>& refused() const { return refused_; }

 private:
  void add(const std::string& name, std::string_view bytes);
  [[nodiscard]] std::string add_file(const std::string& path);
  void list_faces();

  FcConfig* config_ = nullptr;
  std::map<std::string, std::vector<Face>> faces_;  ///< by folded family name
  std::map<std::string, std::string> names_;
  std::vector<std::string> refused_;
};

/// The fonts installed on this machine, listed when first asked for.
class MachineFonts {
 public:
  MachineFonts() = default;
  ~MachineFonts();
  MachineFonts(const MachineFonts&) = delete;
  MachineFonts& operator=(const MachineFonts&) = delete;

  /// The files of the family of exactly that name, letter case aside, in order of name.
  [[nodiscard]] std::vector<std::string> files_of(const std::string& family);
  /// Folded names with the names as written.
  [[nodiscard]] std::map<std::string, std::string> names();

 private:
  FcConfig* config();
  FcConfig* config_ = nullptr;
};

/// Of the names, the one whose spelling is nearest to `family`, or "" when none is near.
[[nodiscard]] std::string nearest_spelling(const std::string& family,
                                           const std::map<std::string, std::string>& names);

/// A family name with letter case and outer spaces taken away, for comparing.
[[nodiscard]] std::string folded(std::string_view family);

/// The names a fontconfig pattern goes by, as written.
[[nodiscard]] std::vector<std::string> family_names(const FcPattern* pattern);

}  // namespace quoin
