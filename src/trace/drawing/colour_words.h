#pragma once
#include <string>

#include "trace/tracing.h"

namespace quoin::trace {

/// A colour in plain words: "dark blue", "pale pink", "grey". Limits by our own eye, no source.
[[nodiscard]] std::string colour_words(Colour colour);
/// The same for whatever a layer is painted with: "dark blue", "blue to white".
[[nodiscard]] std::string fill_words(const Fill& fill);

}  // namespace quoin::trace
