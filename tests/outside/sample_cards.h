#pragma once
#include <string>
#include <vector>

#include "formats/pdf/pdf.h"
#include "media/picture.h"
#include "media/text.h"

namespace quoin::outside {

/// Cards with everything that a PDF can hold: gradients, pictures with and without clear parts,
/// turned and half clear groups, a soft shadow, text.
class SampleCards {
 public:
  SampleCards();

  [[nodiscard]] Item picture(const std::string& name, Rect to);
  [[nodiscard]] static Item rectangle(Rect where, Paint paint);
  /// One line of text in the house font, black.
  [[nodiscard]] Item text(const std::string& words, Rect box);

  /// A face of 63 x 88 mm with 3 mm bleed.
  [[nodiscard]] Scene face();
  [[nodiscard]] static Rect face_bounds();

  /// The document with these drawings, each a symbol bounded by `face_bounds`.
  [[nodiscard]] Bytes pdf(const std::vector<Scene>& drawings, const Document& document);
  /// A page of whole size `media` that places `drawings` left to right, top to bottom.
  [[nodiscard]] static Page page(Size media, const std::vector<int>& drawings);

  /// The bytes of a file in tests/outside/data/pictures.
  [[nodiscard]] static Bytes file(const std::string& name);
  [[nodiscard]] PictureShelf& shelf() { return shelf_; }

 private:
  MemoryWorld world_;
  PictureShelf shelf_;
  Typesetter typesetter_;
};

}  // namespace quoin::outside
