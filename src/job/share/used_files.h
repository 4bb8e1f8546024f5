#pragma once
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "job/workshop.h"
#include "pieces/box/box.h"

namespace quoin::job {

/// What a game's files are used for: each file with the pieces that show it, "shell-3",
/// "back of main", "box", "mat", "rules". Fonts count as used by none in particular.
using UsedFiles = std::map<std::string, std::set<std::string>>;

/// Calls `see` for each picture in the scene, those within lines of text too.
void for_each_picture(const Scene& scene, const std::function<void(const Picture&)>& see);

/// Adds the pictures of a scene, and the files that they themselves show.
void add_used(const Scene& scene, const std::string& piece, const World& world, UsedFiles& used);

/// The files in pictures of other pictures: those of the folder that an SVG names.
[[nodiscard]] std::vector<std::string> shown_by(const Picture& picture, const World& world);

}  // namespace quoin::job
