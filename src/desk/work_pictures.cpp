#include <algorithm>

#include "desk/pictures.h"
#include "desk/session.h"
#include "formats/svg/svg.h"
#include "making/cut_steps.h"

namespace quoin::desk {
namespace {

/// Letters of the pictures are 2.2 to 2.9 mm high: at this many pixels a millimetre they can be
/// read at arm's length, beside the trimmer (a choice of ours).
constexpr double wanted_pixels_per_mm = 6;

/// The picture's room in millimetres: at least as wide as it takes to draw it, at most as is usual.
Size room_for(int width, int height) {
  const double least = 84, most = making::usual_step_room.width.value;
  const double wide = std::clamp(width / wanted_pixels_per_mm, least, most);
  return {Mm{wide}, Mm{std::max(wide * height / width, 50.0)}};
}

}  // namespace

bool has_work_picture(const Snapshot& shown, const WorkPicture& which) {
  if (!shown.checkup || !shown.checkup->outcome.making) return false;
  const making::Cutting& cutting = shown.checkup->outcome.making->cutting;
  if (which.kind < 0) return cutting.corners.punches > 0;
  const auto kind = static_cast<std::size_t>(which.kind);
  return kind < cutting.kinds.size() &&
         static_cast<std::size_t>(which.step) < cutting.kinds[kind].cuts.steps.size();
}

Bytes draw_work(const Tools& tools, const Snapshot& shown, const WorkPicture& which, int width,
                int height, WorkInk ink) {
  const making::Cutting& cutting = shown.checkup->outcome.making->cutting;
  const making::StepInk& inks = ink == WorkInk::dark ? making::on_dark : making::on_paper;
  const Size room = room_for(width, height);
  Scene scene = which.kind < 0 ? making::corner_picture(cutting.corners, room, inks)
                               : making::step_picture(
                                     cutting, cutting.kinds[static_cast<std::size_t>(which.kind)],
                                     static_cast<std::size_t>(which.step), room, inks);
  typeset(scene, tools.typesetter);
  Diagnostics found;
  const Drawing drawing{"step", Rect{{}, room}, std::move(scene)};
  return write_svg(drawing, {Layer::art}, tools.shelf).or_report(found).value_or("");
}

}  // namespace quoin::desk
