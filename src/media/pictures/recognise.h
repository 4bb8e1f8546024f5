#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "media/picture.h"

namespace quoin::pictures {

/// The kind of picture that the bytes are, whatever the file is called. For XML that is not SVG,
/// and for anything else, nothing.
[[nodiscard]] std::optional<PictureFormat> recognise(std::string_view bytes);

/// What a file that is no picture of ours looks like, for a message: "a web page (HTML)", "an
/// empty file", "a text file", "of a kind that Quoin does not know".
[[nodiscard]] std::string_view looks_like(std::string_view bytes);

/// The kind that a file's ending stands for, if it stands for one that Quoin reads.
[[nodiscard]] std::optional<PictureFormat> format_of_ending(std::string_view path);

}  // namespace quoin::pictures
