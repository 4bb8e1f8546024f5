#pragma once
#include <cstdint>
#include <vector>

#include "base/world.h"

namespace quoin::pictures {

/// Deflates rows of pixels that are handed over one after another, each with the PNG filter that
/// suits it best (W3C PNG, third edition, clause 9), which PDF calls Predictor 15.
class RowDeflater {
 public:
  /// `step` bytes lie between a sample and the same one of its neighbour.
  RowDeflater(std::size_t rows, std::size_t row_bytes, std::size_t step);

  void add(const std::uint8_t* row);
  /// The zlib stream of all rows added.
  [[nodiscard]] Bytes finish();

 private:
  std::size_t row_bytes_, step_;
  std::size_t at_ = 0;
  std::vector<std::uint8_t> filtered_, above_, trial_;
};

}  // namespace quoin::pictures
