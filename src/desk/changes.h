#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/world.h"
#include "desk/api/json.h"
#include "game/edit/change.h"

namespace quoin::desk {

/// The maker's files at one moment, as the page saw them.
struct Sight {
  std::shared_ptr<const World> world;
  std::shared_ptr<const void> basis;  ///< the changer's own, handed back with what is to change
  std::size_t bytes = 0;              ///< of texts that the sight before this one had not
};

/// A value that was changed here and elsewhere.
struct OpenConflict {
  std::string id, label, file, mine, theirs;
  Origin place;
};

/// What became of a change.
struct Changed {
  enum class State { done, conflict, waiting, refused, not_understood, nothing_there };
  State state = State::done;
  std::string label;
  Diagnostics found;
  std::string fault;  ///< not_understood: what of the request makes no sense
};

/// Whoever changes the maker's files. Called by one thread at a time.
class Changes {
 public:
  virtual ~Changes() = default;
  [[nodiscard]] virtual Sight look() = 0;
  /// `asked` is the body of POST /api/edit (EditRequest in api/types.cpp).
  [[nodiscard]] virtual Changed apply(const Sight& seen, const Json& asked) = 0;
  /// The same for changes that the desk itself works out.
  [[nodiscard]] virtual Changed put(const Sight& seen, const std::string& label,
                                    const std::vector<game::Change>& changes) = 0;
  [[nodiscard]] virtual Changed undo() = 0;
  [[nodiscard]] virtual Changed redo() = 0;
  [[nodiscard]] virtual Changed choose(const std::string& conflict, const std::string& keep) = 0;
  [[nodiscard]] virtual std::optional<std::string> undo_label() const = 0;
  [[nodiscard]] virtual std::optional<std::string> redo_label() const = 0;
  [[nodiscard]] virtual std::vector<OpenConflict> conflicts() const = 0;
  /// What the maker should know of changes that wait to be written.
  [[nodiscard]] virtual Diagnostics found() const = 0;
};

/// Changes of the game in `folder`. Looks at the disk alone when the folder cannot be opened for
/// changing; then every change is refused with the reason.
[[nodiscard]] std::unique_ptr<Changes> changes_of(const std::string& folder);

}  // namespace quoin::desk
