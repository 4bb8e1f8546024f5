#pragma once
#include <string>

#include "desk/easel.h"
#include "formats/document.h"
#include "game/game.h"
#include "media/picture.h"

namespace quoin::desk {

struct Snapshot;

/// How far a face is shown.
enum class Extent {
  trim,  ///< as it will be held: round corners, nothing round it
  bleed  ///< all ink, to the edge of the bleed
};

/// Pictures are not wider or narrower than this, in pixels.
inline constexpr int narrowest = 16, widest = 3000;

/// The face as a PNG `width` pixels wide.
[[nodiscard]] Bytes draw_face(const Tools& tools, const game::Game& game, const Face& face,
                              int width, Extent extent);
/// Names it for the easel.
[[nodiscard]] std::string name_of_picture(const Face& face, int width, Extent extent);

/// The face with its bleed as an SVG that stands by itself; "" with the reasons in `found` when it
/// cannot be written.
[[nodiscard]] Bytes face_drawing(const Tools& tools, const game::Game& game, const Face& face,
                                 Diagnostics& found);

enum class SheetSide {
  front,
  back,
  /// both sides over each other, as against the light: the back where the printer will put it
  light,
  uncorrected  ///< the same as if nothing were corrected for the printer that was measured
};

/// One sheet as it comes out of the printer, on white paper, `width` pixels wide. The snapshot must
/// have a plan with that sheet.
[[nodiscard]] Bytes draw_sheet(const Tools& tools, const Snapshot& shown, std::size_t sheet,
                               SheetSide side, int width);

/// A picture of handwork: step `step` of sheets of the kind `kind`, or, with -1 for both, a corner
/// in its punch.
struct WorkPicture {
  int kind = -1, step = -1;
};
/// What it is drawn with: dark on light, or light on dark. It has no ground of its own.
enum class WorkInk { paper, dark };
/// Whether the moment has such a step, or corners to round.
[[nodiscard]] bool has_work_picture(const Snapshot& shown, const WorkPicture& which);
/// The picture as an SVG whose sides are as `width` to `height`; letters are of such a size that
/// they can be read at that many pixels. "" when it cannot be written.
[[nodiscard]] Bytes draw_work(const Tools& tools, const Snapshot& shown, const WorkPicture& which,
                              int width, int height, WorkInk ink);

/// One net of the box as line work, `width` pixels wide, transparent where there is no board.
[[nodiscard]] Bytes draw_net(const Tools& tools, const Snapshot& shown, std::size_t net, int width);

/// What is printed on one net of the box, for a model: the net's own rectangle and nothing round
/// it.
[[nodiscard]] Bytes draw_texture(const Tools& tools, const Snapshot& shown, std::size_t net);

/// The name of a font family set in itself.
[[nodiscard]] Bytes draw_font_sample(const Tools& tools, const std::string& family);

}  // namespace quoin::desk
