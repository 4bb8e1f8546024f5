#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fold/space.h"
#include "geometry/polygon.h"

namespace quoin::fold {

/// Folding of board: panels are rigid plates of the board's thickness on a tree of hinges.
///
/// The net lies in the plane of the page: x right, y down, millimetres, its printed side towards
/// the reader. In space z runs away from the reader. A plate reaches half the board's thickness to
/// either side of the page: the printed face lies at z = -t/2, the inside face at z = +t/2.
///
/// A crease lies on the mid-plane of the board, for both panels that it joins. So two panels folded
/// to a right angle have their inside faces t/2 nearer than their crease lines: a panel between two
/// such folds is the clear inside plus one thickness from crease to crease (derived).

/// Whether the printed side of a panel can be seen once the box is closed.
enum class Seen { outside, hidden };

struct Panel {
  std::string name;  ///< as layouts call it: "front", "top lid"; one of a kind in its model
  Polygon outline;   ///< millimetres of the net; simple
  /// How far what stands on the panel is turned clockwise on the net, so that it reads upright on
  /// the closed box.
  Angle upright;
  Seen seen = Seen::outside;
};

/// How far a hinge is turned at one moment of the folding; between two moments it turns evenly.
struct Turn {
  double progress = 0;  ///< in steps of the folding order, see Model::steps
  Angle angle;          ///< 0: flat. Positive: the child is folded away from the reader.
};

/// A crease that joins two panels. A panel is the child of at most one hinge; the one that is the
/// child of none is the root and stays where it lies on the net. A parent's number is lower than
/// its child's.
struct Hinge {
  int parent = 0, child = 0;  ///< panels of the net
  Point from, to;             ///< the crease's ends; on the outlines of both panels
  std::vector<Turn> turns;    ///< by rising progress; before the first it is flat
};

/// A panel that is bent by hand while it is pushed into place, and is straight before and after: a
/// tuck flap. For the time of its moments it counts as strips of equal width along its hinge, each
/// turned against the one before it, the first against the panel's parent. The turns of the panel's
/// own hinge are then those of the straight line from the crease to the far edge: what pictures
/// show.
struct BowMoment {
  double progress = 0;
  std::vector<Angle> strips;  ///< the same number at every moment
};
struct Bow {
  int panel = 0;
  Mm depth;  ///< from the hinge to the far edge
  std::vector<BowMoment> moments;
};

/// A cut without width inside the net's outline, such as the slits that lock a tuck flap.
struct Slit {
  int panel = 0;
  Point from, to;
};

/// Where glue goes: on the printed side of `panel`, which is stuck to the inside of `onto`.
struct Glue {
  int panel = 0, onto = 0;
  Polygon area;
  /// The part whose panel `onto` is; nothing: this net's own.
  std::optional<int> onto_part = std::nullopt;
};

/// One piece of board, flat.
struct Net {
  std::string name;  ///< "box", "lid", "base", "sleeve", "tray"
  Mm thickness;      ///< the board's caliper
  std::vector<Panel> panels;
  std::vector<Hinge> hinges;
  std::vector<Bow> bows;
  std::vector<Slit> slits;
  std::vector<Glue> glue;
};

/// One step of the folding order, in words for the maker: "fold the glue flap back".
struct Step {
  std::string words;
};

/// A net's way to the others it is put together with.
struct Part {
  Net net;
  Rigid home;  ///< where the net's root lies on the closed box
  Vec3 away;   ///< added to `home` until the part is put in place; zero for a single part
  double arrives_from = 0,
         arrives_by = 0;  ///< the progress between which `away` goes evenly to zero
};

struct PanelRef {
  int part = 0, panel = 0;
  bool operator==(const PanelRef&) const = default;
};

/// Two panels whose edges meet on the closed box: what is between them is measured.
struct Meeting {
  PanelRef a, b;
};

/// A tuck flap, and the panel it is pushed behind.
struct Tuck {
  PanelRef flap, behind;
};

/// A box as something to fold: its nets, the order of folding, and what meets where.
///
/// Steps are played one after another: `progress` runs from 0 (all flat) to the number of steps
/// (closed), and step k is the time from k to k+1.
///
/// On the closed box x is the deck's width, y its height, z the way through the pile.
struct Model {
  std::vector<Part> parts;
  std::vector<Step> steps;
  std::vector<Meeting> meetings;
  std::vector<Tuck> tucks;
  Vec3 middle;              ///< a place inside the closed box, where the deck is
  double deck_goes_in = 0;  ///< the progress at which the deck is put in
};

[[nodiscard]] const Panel& panel(const Model& model, PanelRef which);
[[nodiscard]] const Net& net(const Model& model, PanelRef which);
/// The panel of that name, or nothing.
[[nodiscard]] std::optional<PanelRef> find_panel(const Model& model, std::string_view name);
/// The names of all panels, part after part.
[[nodiscard]] std::vector<std::string> panel_names(const Model& model);

/// Where each panel of a net lies at a moment of the folding, in the frame of its root: a rigid
/// placement of net coordinates. A panel with a bow lies straight from its crease to its far edge.
[[nodiscard]] std::vector<Rigid> pose(const Net& net, double progress);

/// Where each panel of each part lies in space; one list for each part. Progress beyond the steps
/// is taken as closed, below 0 as flat.
[[nodiscard]] std::vector<std::vector<Rigid>> pose(const Model& model, double progress);

/// The angle of a hinge at a moment.
[[nodiscard]] Angle angle_at(const Hinge& hinge, double progress);

/// What of the net is not as the words above promise: an outline that crosses itself, panels that
/// lie on each other, a crease that is on no edge, a panel without a hinge. Empty for a sound net.
/// For whoever writes a new kind of box.
[[nodiscard]] std::vector<std::string> faults_of(const Net& net);

/// The cut outline: all panels joined.
[[nodiscard]] std::vector<Region> cut_outline(const Net& net);

/// The cut outline grown by `by`, without the glue areas: where ink goes.
[[nodiscard]] std::vector<Region> inked_outline(const Net& net, Mm by);

}  // namespace quoin::fold
