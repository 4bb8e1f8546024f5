#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/origin.h"
#include "base/units.h"
#include "base/world.h"

namespace quoin::game {

/// What the maker cuts with.
enum class CuttingTool { guillotine, rotary_trimmer, knife_and_rule };
/// What comes first when both cannot be had: a fence that stays where it is, or lines that are all
/// measured from one edge.
enum class CuttingOrder { fewest_settings, least_drift };

/// What [cutting] says. What is not given is empty and follows from the tool.
struct CuttingWishes {
  CuttingTool tool = CuttingTool::rotary_trimmer;
  std::optional<Mm> stack;          ///< how much paper it goes through at once
  std::optional<int> stack_sheets;  ///< the same as sheets
  std::optional<Mm> repeatability;  ///< 19 cuts in 20 lie within this of the setting
  std::optional<bool> has_fence;
  CuttingOrder order = CuttingOrder::fewest_settings;
  std::optional<Mm> punch;         ///< radius of the corner punch; 0: there is none
  std::optional<Mm> punch_within;  ///< 19 punched corners in 20 lie within this of their edges
  double target = 0.05;            ///< the chance of a fault that the maker puts up with
  double evenness = 0.6;           ///< a border's narrow side against its wide one
  Origin origin;                   ///< of [cutting], or of game.toml
  Origin stack_origin, punch_origin;
};

/// What [prices] says, in the maker's currency. What is not given is empty.
struct Prices {
  std::string currency;
  std::optional<double> sheet;   ///< of the cards' stock, a sheet
  std::optional<double> board;   ///< of the box's board, a sheet
  std::optional<double> paper;   ///< of the plain paper of rules and mat, a sheet
  std::optional<double> ink;     ///< to cover one side of an A4 sheet with one colour entirely
  std::optional<double> glue;    ///< a millilitre
  std::optional<double> sleeve;  ///< one
  bool is_example = false;       ///< figures to show the sum with, not of a shop
};

/// Where prices lie that all games of a machine share.
struct MachinePrices {
  const World* folder = nullptr;      ///< may hold prices.toml; null: there are none
  std::string shown = "prices.toml";  ///< what messages call that file
};

/// What a shop asks for so many decks.
struct Quotation {
  std::string name;
  int decks = 1;
  double price = 0;  ///< for all of them
  std::string note;
};

/// What [times] says, in seconds.
struct Times {
  double side = 15;       ///< to print one side of a sheet
  double refeed = 60;     ///< to put a printed pile in again for its backs
  double cut = 10;        ///< to lay a pile under the blade and cut
  double setting = 20;    ///< to set the fence and try it
  double corner = 3;      ///< to punch one corner
  double knife_cut = 15;  ///< one straight cut round a net
  double crease = 15;     ///< one
  double glue = 60;       ///< one seam, until it holds
};

/// All that bears on the making of the game at home.
struct MakingWishes {
  CuttingWishes cutting;
  Prices prices;
  Times times;
  std::vector<Quotation> quotations;
};

}  // namespace quoin::game
