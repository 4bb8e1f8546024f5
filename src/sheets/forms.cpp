#include <algorithm>
#include <numeric>

#include "sheets/printable.h"
#include "sheets/sheets.h"

namespace quoin::sheets {
namespace {

bool same(const Placed& a, const Placed& b) {
  return a.drawing == b.drawing && a.is_back == b.is_back && a.map == b.map && a.trim == b.trim &&
         a.window == b.window;
}

/// Sheets by their form, in the order in which the forms first appear.
std::vector<Distinct> distinct(const Plan& plan, Form Sheet::*side) {
  std::vector<Distinct> all;
  for (int i = 0; i < static_cast<int>(plan.sheets.size()); ++i) {
    const Form& form = plan.sheets[i].*side;
    if (form.placed.empty()) continue;
    const auto known = std::find_if(all.begin(), all.end(), [&](const Distinct& d) {
      return plan.sheets[d.sheet].*side == form;
    });
    if (known == all.end()) {
      all.push_back({i, {i}});
    } else {
      known->sheets.push_back(i);
    }
  }
  return all;
}

}  // namespace

bool Form::operator==(const Form& other) const {
  return std::equal(placed.begin(), placed.end(), other.placed.begin(), other.placed.end(), same);
}

std::vector<Distinct> distinct_backs(const Plan& plan) { return distinct(plan, &Sheet::back); }
std::vector<Distinct> distinct_fronts(const Plan& plan) { return distinct(plan, &Sheet::front); }

std::vector<int> backs_order(const Plan& plan) {
  if (!has_back_forms(plan.wishes)) return {};
  std::vector<int> order(plan.sheets.size());
  std::iota(order.begin(), order.end(), 0);
  const bool as_it_lies =
      plan.wishes.backs == game::BackPrinting::by_hand && plan.wishes.pile == game::Pile::face_down;
  if (as_it_lies) std::reverse(order.begin(), order.end());
  return order;
}

}  // namespace quoin::sheets
