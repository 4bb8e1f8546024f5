#pragma once
#include <cstddef>
#include <cstdint>

namespace quoin::pictures {

// How large a picture may be before it is refused unread. A sheet of A3 at 600 ppi has 70
// megapixels, so that no picture on one needs more than the first of these.
inline constexpr std::int64_t most_pixels = 100'000'000;
inline constexpr int longest_side = 50'000;                                // px
inline constexpr std::size_t most_unpacked = std::size_t{512} << 20;       // bytes of a PNG's rows
inline constexpr std::size_t largest_profile = std::size_t{16} << 20;      // bytes
inline constexpr int most_scans = 500;                                     // of one JPEG
inline constexpr std::int64_t most_scanned_pixels = 2'000'000'000;         // scans x pixels
inline constexpr std::size_t most_raster_memory = std::size_t{768} << 20;  // bytes kept by a shelf

inline constexpr std::size_t largest_svg = std::size_t{4} << 20;  // bytes as written
inline constexpr int most_svg_elements = 64'000;
inline constexpr int deepest_svg = 256;  // elements inside each other
// The renderer's XML reader takes no attribute and no text of more than 10,000,000 bytes (measured:
// it broke off at 12.5 MB); 7 MiB are 9.8 million once they are written as base64.
inline constexpr std::size_t most_inlined = std::size_t{7} << 20;  // bytes brought in by an SVG
inline constexpr std::size_t largest_safe_svg = 10'000'000;        // bytes, all brought in
inline constexpr int most_svg_levels = 8;                          // SVG in SVG in SVG …
inline constexpr std::int64_t most_drawn_elements = 500'000;       // after each use is followed
inline constexpr int most_filter_uses = 256;
inline constexpr int most_filter_steps = 64;  // primitives of one filter
inline constexpr int most_octaves = 8;        // of feTurbulence

}  // namespace quoin::pictures
