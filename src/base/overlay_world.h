#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/world.h"

namespace quoin {

/// Texts of a game by their paths in the game folder; copies share them.
using Texts = std::map<std::string, std::shared_ptr<const Bytes>, std::less<>>;

/// A game folder with some of its files laid over by others, held in memory. Does not change, so
/// that whoever reads from it twice reads the same. A null text stands for a file that is not
/// there.
class OverlayWorld : public World {
 public:
  OverlayWorld(std::shared_ptr<const World> below, Texts texts);

  [[nodiscard]] ReadAnswer read(std::string_view path, std::size_t limit) const override;
  [[nodiscard]] std::vector<std::string> files_below(std::string_view folder) const override;
  [[nodiscard]] const Texts& texts() const { return texts_; }

 private:
  std::shared_ptr<const World> below_;
  Texts texts_;
};

}  // namespace quoin
