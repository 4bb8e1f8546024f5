#include "media/pictures/opening.h"

#include <fmt/format.h>

#include "media/pictures/nearest_name.h"
#include "media/pictures/readers.h"
#include "media/pictures/recognise.h"
#include "media/pictures/svg.h"

namespace quoin::pictures {
namespace {

Id id_of(ReadFailure failure) {
  switch (failure) {
    case ReadFailure::missing:
      return Id::picture_missing;
    case ReadFailure::too_large:
      return Id::picture_too_large;
    case ReadFailure::unreadable:
    case ReadFailure::is_a_folder:
    case ReadFailure::outside_the_game:
      return Id::picture_unreadable;
  }
  return Id::picture_unreadable;
}

Diagnostic not_a_picture(const SourceFile& file) {
  Diagnostic d = about(Id::picture_not_a_picture, file,
                       fmt::format("is no picture: it is {}", looks_like(file.bytes)));
  return d.hint("save it as PNG, JPEG, WebP, TIFF or SVG");
}

/// The ending to type for each format.
std::string_view ending_of(PictureFormat format) {
  switch (format) {
    case PictureFormat::svg:
      return ".svg";
    case PictureFormat::png:
      return ".png";
    case PictureFormat::jpeg:
      return ".jpg";
    case PictureFormat::webp:
      return ".webp";
    case PictureFormat::tiff:
      return ".tif";
  }
  return "";
}

void check_label(const SourceFile& file, PictureFormat format, Diagnostics& remarks) {
  const std::optional<PictureFormat> label = format_of_ending(file.path);
  if (!label || *label == format) return;
  Diagnostic d =
      about(Id::picture_mislabelled, file,
            fmt::format("holds a {} picture, not {}", to_string(format), to_string(*label)));
  remarks.push_back(d.hint(fmt::format("give the file the ending {}", ending_of(format))));
}

}  // namespace

Result<std::shared_ptr<const Bytes>> read_file(const World& world, const std::string& path) {
  ReadAnswer answer = world.read(path, largest_file);
  if (answer.ok()) return std::move(answer.bytes);
  Diagnostic d(id_of(answer.failure), Origin{}, explain(answer, path));
  if (answer.failure == ReadFailure::missing) {
    const std::string nearest = nearest_file(world, path);
    if (!nearest.empty()) d.hint("there is " + nearest);
  }
  if (answer.failure == ReadFailure::outside_the_game) {
    d.hint("copy the file into the game folder");
  }
  return d;
}

Result<FirstLook> look_at(const SourceFile& file, const Surroundings& around, Nesting& nesting) {
  const std::optional<PictureFormat> format = recognise(file.bytes);
  if (!format) return not_a_picture(file);
  Result<FirstLook> look = *format == PictureFormat::svg ? look_at_svg(file, around, nesting)
                                                         : look_at_raster(file, *format);
  if (look) check_label(file, *format, look->remarks);
  return look;
}

}  // namespace quoin::pictures
