#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/world.h"
#include "game/game.h"
#include "job/kept_findings.h"
#include "media/picture.h"
#include "media/text.h"
#include "pieces/card/check_suits.h"
#include "pieces/card/inspect.h"
#include "pieces/card/studio.h"

namespace quoin::job {

/// One distinct drawing of the run: a front, or a back that several cards share.
struct Drawing {
  int card = 0;  ///< index into the game's cards: the first that has it
  bool is_back = false;
  std::string piece;  ///< "W-07", "back of main"
  std::string file;   ///< "cards/W-07", "backs/main": names its picture in the pack
};

/// The distinct drawings of some cards: a front for each, in order, then the backs.
struct DrawingList {
  std::vector<Drawing> drawings;
  int fronts = 0;
  std::vector<int> back_of;  ///< of each front, counted among the backs, or -1
};
/// `cards` are indices into the game's cards.
[[nodiscard]] DrawingList list_drawings(const game::Game& game, const std::vector<int>& cards);

/// Draws and checks the faces of one game, one after another, and remembers what the run as a
/// whole needs to know of them. Refers to `world`.
class Workshop {
 public:
  /// `cards` are the indices of the cards to be printed.
  /// `game_hash` names the files of the game, as WitnessedWorld does.
  Workshop(const World& world, const game::Game& game, std::vector<int> cards, ImageCache* cache,
           const std::string& game_hash);
  ~Workshop();

  [[nodiscard]] const std::vector<Drawing>& drawings() const { return list_.drawings; }
  [[nodiscard]] int fronts() const { return list_.fronts; }
  /// The back of each front, counted among the backs, or -1.
  [[nodiscard]] const std::vector<int>& back_of() const { return list_.back_of; }
  [[nodiscard]] PictureShelf& shelf() { return shelf_; }
  [[nodiscard]] Typesetter& typesetter() { return typesetter_; }
  [[nodiscard]] const pieces::Studio& studio() const { return studio_; }

  /// One drawing as a scene whose texts are not set yet; to be called once for each, in order.
  [[nodiscard]] Scene compose(std::size_t drawing);

  /// Names everything that the looks of a finished drawing follow from; "" when nothing is kept,
  /// or when a font of the machine was used, which may change.
  [[nodiscard]] std::string name(std::size_t drawing, const Scene& scene);

  /// Whether the checks must look at the composed drawing: their findings are not known from an
  /// earlier run.
  [[nodiscard]] bool must_look(std::size_t drawing, const Scene& scene);

  /// Sets the texts of a composed drawing and checks it.
  void finish(std::size_t drawing, Scene& scene);

  /// Checks a composed drawing that nobody will look at: its texts are set only when its findings
  /// are not known from an earlier run.
  void check(std::size_t drawing, Scene& scene);

  /// What can only be said when all were drawn: backs, suits, fonts. Call once, at the end.
  void conclude();

  /// True when all fronts share one flat edge colour.
  [[nodiscard]] bool edges_alike() const { return edges_alike_; }
  /// What was measured on each drawing that was looked at, or known from an earlier run.
  [[nodiscard]] const std::vector<pieces::FaceMeasure>& measures() const { return measures_; }
  [[nodiscard]] Diagnostics& found() { return found_; }

 private:
  [[nodiscard]] std::vector<FontFile> fonts(const World& world);
  void read_suit_colours();
  void check_backs();
  void add(Diagnostics problems);
  [[nodiscard]] const game::Card& card_of(const Drawing& what) const;
  /// What an earlier run found, or null.
  [[nodiscard]] const FaceFindings* known(const Drawing& what, const Scene& scene);
  void take_over(std::size_t drawing, const FaceFindings& findings);
  [[nodiscard]] FaceFindings look_over(const Drawing& what, const pieces::Face& face);
  [[nodiscard]] bool is_measured_for_suit(const Drawing& what) const;
  void compare_edges(std::optional<std::uint32_t> edge);

  const game::Game& game_;
  Diagnostics found_;
  PictureShelf shelf_;
  Typesetter typesetter_;
  pieces::Studio studio_;
  KeptFindings kept_;
  DrawingList list_;
  std::map<std::string, Colour> declared_;
  pieces::SuitColours suit_colours_;
  std::vector<pieces::FaceMeasure> measures_;
  bool edges_alike_ = true;
  std::optional<std::uint32_t> edge_;
  bool edge_seen_ = false;
};

}  // namespace quoin::job
