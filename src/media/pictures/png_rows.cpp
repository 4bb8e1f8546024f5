#include "media/pictures/png_rows.h"

#include <stdexcept>

QUOIN_VECTOR_LOOPS

namespace quoin::pictures {
namespace {

/// Rows whose samples are `step` bytes apart: known when compiled, so that the neighbours stay in
/// registers and the channels are worked on side by side.
template <std::size_t step>
void undo_sub(std::uint8_t* row, std::size_t bytes) {
  for (std::size_t i = step; i < bytes; ++i) row[i] = std::uint8_t(row[i] + row[i - step]);
}

void undo_up(std::uint8_t* row, const std::uint8_t* above, std::size_t bytes) {
  for (std::size_t i = 0; i < bytes; ++i) row[i] = std::uint8_t(row[i] + above[i]);
}

template <std::size_t step>
void undo_average(std::uint8_t* row, const std::uint8_t* above, std::size_t bytes) {
  for (std::size_t i = 0; i < bytes; ++i) {
    const int left = i < step ? 0 : row[i - step];
    row[i] = std::uint8_t(row[i] + (left + above[i]) / 2);
  }
}

template <std::size_t step>
void undo_paeth(std::uint8_t* row, const std::uint8_t* above, std::size_t bytes) {
  int left[step] = {}, corner[step] = {};
  std::size_t i = 0;
  for (; i + step <= bytes; i += step) {
    for (std::size_t c = 0; c < step; ++c) {
      const int up = above[i + c];
      left[c] = (row[i + c] + paeth(left[c], up, corner[c])) & 0xff;
      corner[c] = up;
      row[i + c] = static_cast<std::uint8_t>(left[c]);
    }
  }
}

template <std::size_t step>
void undo(int filter, std::uint8_t* row, const std::uint8_t* above, std::size_t bytes) {
  switch (filter) {
    case 1:
      return undo_sub<step>(row, bytes);
    case 2:
      return undo_up(row, above, bytes);
    case 3:
      return undo_average<step>(row, above, bytes);
    case 4:
      return undo_paeth<step>(row, above, bytes);
    default:
      return;
  }
}

}  // namespace

void undo_filter(int filter, std::uint8_t* row, const std::uint8_t* above, std::size_t bytes,
                 std::size_t step) {
  switch (step) {
    case 1:
      return undo<1>(filter, row, above, bytes);
    case 2:
      return undo<2>(filter, row, above, bytes);
    case 3:
      return undo<3>(filter, row, above, bytes);
    case 4:
      return undo<4>(filter, row, above, bytes);
    case 6:
      return undo<6>(filter, row, above, bytes);
    case 8:
      return undo<8>(filter, row, above, bytes);
    default:
      throw std::logic_error("a PNG with samples of a size that PNG does not have");
  }
}

}  // namespace quoin::pictures
