#include "cut/simulate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace quoin::cut {
namespace {

bool same(Rect a, Rect b) {
  return nearly_equal(a.left(), b.left()) && nearly_equal(a.top(), b.top()) &&
         nearly_equal(a.right(), b.right()) && nearly_equal(a.bottom(), b.bottom());
}

/// Where an edge lies, and which of its places is meant by an Edge.
Mm place(Rect rect, Edge edge) {
  switch (edge) {
    case Edge::left:
      return rect.left();
    case Edge::top:
      return rect.top();
    case Edge::right:
      return rect.right();
    case Edge::bottom:
      break;
  }
  return rect.bottom();
}

/// A piece of paper on the table: where it was printed, and how its edges came about.
struct Paper {
  Rect at;
  /// Variance in mm² of each edge against the print, by Edge; nothing for the mill's edge.
  std::optional<double> variance[4];
  [[nodiscard]] std::optional<double>& of(Edge edge) { return variance[static_cast<int>(edge)]; }
};

std::string words(Rect rect) {
  return fmt::format("{:.2f} to {:.2f} by {:.2f} to {:.2f}", rect.left().value, rect.right().value,
                     rect.top().value, rect.bottom().value);
}

/// The two halves of a paper that is cut.
void part(Paper paper, const Cut& cut, double variance, std::vector<Paper>& table) {
  Paper first = paper, second = paper;
  const bool down = cut.run == Run::down;
  first.at = rect_between(
      paper.at.at, down ? Point{cut.at, paper.at.bottom()} : Point{paper.at.right(), cut.at});
  second.at = rect_between(down ? Point{cut.at, paper.at.top()} : Point{paper.at.left(), cut.at},
                           {paper.at.right(), paper.at.bottom()});
  first.of(down ? Edge::right : Edge::bottom) = variance;
  second.of(down ? Edge::left : Edge::top) = variance;
  table.push_back(first);
  table.push_back(second);
}

class Table {
 public:
  Table(const Plan& plan, const Tool& tool, std::size_t steps) : tool_(tool) {
    table_.push_back({Rect{{}, plan.grid.sheet}, {}});
    for (std::size_t i = 0; i < std::min(steps, plan.steps.size()); ++i) {
      for (const Cut& cut : plan.steps[i].cuts) make(cut);
    }
  }
  [[nodiscard]] std::vector<Paper>& papers() { return table_; }
  [[nodiscard]] std::vector<std::string>& faults() { return faults_; }

 private:
  void make(const Cut& cut) {
    const auto found = std::find_if(table_.begin(), table_.end(),
                                    [&](const Paper& p) { return same(p.at, cut.through); });
    if (found == table_.end()) {
      faults_.push_back("there is no piece " + words(cut.through));
      return;
    }
    const Mm low = cut.run == Run::down ? found->at.left() : found->at.top();
    const Mm high = cut.run == Run::down ? found->at.right() : found->at.bottom();
    if (cut.at <= low + epsilon || cut.at >= high - epsilon) {
      faults_.push_back(
          fmt::format("a cut at {:.2f} misses the piece {}", cut.at.value, words(cut.through)));
      return;
    }
    const double variance = variance_of(cut, *found);
    const Paper paper = *found;
    *found = table_.back();
    table_.pop_back();
    part(paper, cut, variance, table_);
  }

  double variance_of(const Cut& cut, Paper& paper) {
    if (cut.found == Found::by_mark) return tool_.mark.value * tool_.mark.value;
    const double own = tool_.setting.value * tool_.setting.value;
    const std::optional<double> fence = paper.of(cut.fence);
    const Mm away = abs(cut.at - place(paper.at, cut.fence));
    if (!fence) faults_.push_back("the mill's edge of " + words(paper.at) + " is at the fence");
    if (!nearly_equal(away, cut.setting)) {
      faults_.push_back(fmt::format("the fence is at {:.2f}, the cut is {:.2f} away",
                                    cut.setting.value, away.value));
    }
    return fence.value_or(0) + own;
  }

  const Tool& tool_;
  std::vector<Paper> table_;
  std::vector<std::string> faults_;
};

}  // namespace

Cuttings simulate(const Plan& plan) {
  const Tool any = usual(ToolKind::guillotine);
  Table table(plan, any, plan.steps.size());
  Cuttings result;
  result.faults = table.faults();
  std::vector<Rect> left;
  for (const Paper& paper : table.papers()) left.push_back(paper.at);
  for (int row = 0; row < plan.grid.rows; ++row) {
    for (int column = 0; column < plan.grid.columns; ++column) {
      if (!is_taken(plan.grid, column, row)) continue;
      const Rect card = cell(plan.grid, column, row);
      const auto found =
          std::find_if(left.begin(), left.end(), [&](Rect r) { return same(r, card); });
      if (found == left.end()) {
        result.faults.push_back(
            fmt::format("the piece in column {}, row {} is not there whole", column + 1, row + 1));
        continue;
      }
      result.pieces.push_back(*found);
      left.erase(found);
    }
  }
  result.waste = std::move(left);
  return result;
}

std::vector<Board> boards_before(const Plan& plan, std::size_t step) {
  const Tool any = usual(ToolKind::guillotine);
  Table table(plan, any, step);
  std::vector<Board> boards;
  for (Paper& paper : table.papers()) {
    Board board{paper.at, {}};
    for (std::size_t edge = 0; edge < 4; ++edge) {
      board.fresh[edge] = paper.variance[edge].has_value();
    }
    boards.push_back(board);
  }
  return boards;
}

std::vector<EdgeErrors> edge_errors(const Plan& plan, const Tool& tool) {
  Table table(plan, tool, plan.steps.size());
  std::vector<EdgeErrors> errors;
  for (int row = 0; row < plan.grid.rows; ++row) {
    for (int column = 0; column < plan.grid.columns; ++column) {
      if (!is_taken(plan.grid, column, row)) continue;
      const Rect card = cell(plan.grid, column, row);
      for (Paper& paper : table.papers()) {
        if (!same(paper.at, card)) continue;
        const auto sd = [&](Edge edge) { return Mm{std::sqrt(paper.of(edge).value_or(0))}; };
        errors.push_back(
            {column, row, sd(Edge::left), sd(Edge::top), sd(Edge::right), sd(Edge::bottom)});
      }
    }
  }
  return errors;
}

Mm worst_edge(const std::vector<EdgeErrors>& errors) {
  Mm worst;
  for (const EdgeErrors& e : errors) worst = std::max({worst, e.left, e.top, e.right, e.bottom});
  return worst;
}

}  // namespace quoin::cut
