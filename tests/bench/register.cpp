// Prints, pricks and scans measuring sheets in simulation, measures them and compares with what was
// put in: `measured_register TRIALS`. Seeds are fixed, so that figures come back. Exit status 1
// when a target is missed.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "press/scan/measure_scans.h"
#include "press/scan/simulated_scan.h"

namespace quoin::press {
namespace {

const Size a4{Mm{210}, Mm{297}}, letter{Mm{215.9}, Mm{279.4}};
const std::vector<Size> papers{a4, turned(a4), letter, turned(letter)};

struct Case {
  std::string name;
  SimulatedFaults faults;
  double most_mean = 0, most_worst = 0;  ///< targets of the mean over the sheet, 0: none
  std::string refused = "";              ///< not empty: nearly none may be accepted
};

SimulatedFaults with(double SimulatedFaults::*what, double value) {
  SimulatedFaults faults;
  faults.*what = value;
  return faults;
}

SimulatedFaults blurred(double deviation) {
  SimulatedFaults faults;
  faults.blur_least = faults.blur_most = deviation;
  return faults;
}

SimulatedFaults noisy(double deviation) {
  SimulatedFaults faults;
  faults.noise_least = faults.noise_most = deviation;
  return faults;
}

SimulatedFaults with_pins(int pins) {
  SimulatedFaults faults;
  faults.pins = pins;
  return faults;
}

SimulatedFaults jpegs(int quality) {
  SimulatedFaults faults;
  faults.jpeg_least = faults.jpeg_most = quality;
  return faults;
}

SimulatedFaults photograph(double perspective) {
  SimulatedFaults faults;
  faults.perspective = perspective;
  faults.wobble_mm = 0;
  return faults;
}

SimulatedFaults lidded() {
  SimulatedFaults faults;
  faults.white_lid = true;
  faults.pins = 0;
  return faults;
}

std::vector<Case> all_cases() {
  return {{"6 pinholes", {}, 0.07, 0.12},
          {"edges", with_pins(0), 0.16, 0.20},
          {"4 pinholes", with_pins(4)},
          {"150 ppi", with(&SimulatedFaults::ppi, 150)},
          {"blur of 2 px", blurred(2)},
          {"blur of 4 px", blurred(4)},
          {"noise of 25", noisy(25)},
          {"JPEG of quality 15", jpegs(15)},
          {"light falls by 70 %", with(&SimulatedFaults::light, 0.7)},
          {"turned by 20 degrees", with(&SimulatedFaults::scan_turn_degrees, 20)},
          {"foot of 20 % missing", with(&SimulatedFaults::missing, 0.2)},
          {"foot of 45 % missing", with(&SimulatedFaults::missing, 0.45)},
          {"camera, 4 %", photograph(0.04)},
          {"camera, 10 %", photograph(0.10)},
          {"slanted pins, 0.15 mm", with(&SimulatedFaults::pin_slant_mm, 0.15)},
          {"curl of 1 mm", with(&SimulatedFaults::curl_mm, 1), 0, 0, "must be refused"},
          {"white lid, no holes", lidded(), 0, 0, "must be refused"}};
}

struct Tally {
  std::vector<double> means, worsts, bounds;
  int covered = 0, trials = 0;
  std::vector<std::string> reasons;
};

void compare(const SimulatedPair& pair, const ScanMeasured& found, Tally& tally) {
  double sum = 0, worst = 0;
  for (int i = 0; i < 25; ++i) {
    const Point p{Mm{15} + (a4.width - Mm{30}) * (i % 5 / 4.0),
                  Mm{15} + (a4.height - Mm{30}) * (static_cast<int>(i / 5) / 4.0)};
    const double off = length(found.sheet.back(p) - pair.truth(p)).value;
    sum += off / 25;
    worst = std::max(worst, off);
  }
  tally.means.push_back(sum);
  tally.worsts.push_back(worst);
  tally.bounds.push_back(found.sheet.within.value);
  tally.covered += worst <= found.sheet.within.value ? 1 : 0;
}

void try_once(const SimulatedPair& pair, Tally& tally) {
  ++tally.trials;
  const FileName front_file("front"), back_file("back");
  const auto front = read_side(pair.front, papers, front_file);
  const auto back = read_side(pair.back, papers, back_file);
  Diagnostics why;
  if (!front) why = front.why();
  if (!back) why = back.why();
  if (front && back) {
    const auto found =
        measure_pair(*front, *back, game::FlipEdge::long_edge, front_file, back_file);
    if (found) return compare(pair, *found, tally);
    why = found.why();
  }
  tally.reasons.emplace_back(facts(why.front().id).name);
}

double mean_of(const std::vector<double>& all) {
  double sum = 0;
  for (const double each : all) sum += each;
  return all.empty() ? 0 : sum / static_cast<double>(all.size());
}
double part_of(std::vector<double> all, double part) {
  if (all.empty()) return 0;
  std::sort(all.begin(), all.end());
  return all[static_cast<std::size_t>(part * static_cast<double>(all.size() - 1))];
}

std::string reasons_of(std::vector<std::string> reasons) {
  std::sort(reasons.begin(), reasons.end());
  std::string text;
  for (std::size_t i = 0; i < reasons.size();) {
    std::size_t end = i;
    while (end < reasons.size() && reasons[end] == reasons[i]) ++end;
    text += fmt::format(" {} x {}", end - i, reasons[i]);
    i = end;
  }
  return text;
}

/// One case: a line of figures; false when it misses its target.
bool measure(const Case& one, int trials) {
  const SheetLayout layout = sheet_layout(a4);
  Tally tally;
  SimulatedFaults faults = one.faults;
  if (faults.jpeg_most == 0) {
    faults.jpeg_least = 60;
    faults.jpeg_most = 92;
  }
  for (int i = 0; i < trials; ++i) {
    const auto seed = static_cast<std::uint32_t>(1000 + i);
    try_once(simulated_pair(layout, faults, seed, game::FlipEdge::long_edge), tally);
  }
  const auto accepted = static_cast<int>(tally.means.size());
  bool met = one.refused.empty() ? true : accepted * 20 <= tally.trials;
  if (one.most_mean > 0) {
    met = accepted >= tally.trials * 0.95 && mean_of(tally.means) <= one.most_mean &&
          part_of(tally.means, 1) <= one.most_worst;
  }
  if (accepted > 0 && one.name != "slanted pins, 0.15 mm" && one.refused.empty()) {
    met = met && tally.covered >= accepted * 0.95 - 1e-9;
  }
  fmt::print("| {} | {} of {} | {:.3f} | {:.3f} | {:.3f} | {:.3f} | {:.3f} | {} |{} | {} |\n",
             one.name, accepted, tally.trials, mean_of(tally.means), part_of(tally.means, 0.95),
             part_of(tally.means, 1), part_of(tally.worsts, 0.95), mean_of(tally.bounds),
             tally.covered, reasons_of(tally.reasons), met ? "met" : "MISSED");
  std::fflush(stdout);
  return met;
}

/// Seconds to read both scans of a sheet, one after the other; the least of three.
double seconds_to_read() {
  const SheetLayout layout = sheet_layout(a4);
  const SimulatedPair pair = simulated_pair(layout, {}, 1, game::FlipEdge::long_edge);
  double least = 1e9;
  for (int i = 0; i < 3; ++i) {
    const auto begun = std::chrono::steady_clock::now();
    Tally tally;
    try_once(pair, tally);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
    least = std::min(least, took.count());
  }
  return least;
}

}  // namespace
}  // namespace quoin::press

int main(int argc, char** argv) {
  int trials = 0;
  const std::string_view count = argc >= 2 ? argv[1] : "";
  const auto read = std::from_chars(count.data(), count.data() + count.size(), trials);
  if (read.ec != std::errc{} || trials < 1) {
    std::fputs("use: measured_register TRIALS [CASE]\n", stderr);
    return 1;
  }
  bool met = true;
  fmt::print(
      "| sheet | accepted | mean mm | 95 % | worst | worst place 95 % | bound | covered | "
      "refused | target |\n|---|---|---|---|---|---|---|---|---|---|\n");
  for (const quoin::press::Case& one : quoin::press::all_cases()) {
    if (argc >= 3 && one.name != argv[2]) continue;
    const bool main_case = one.most_mean > 0;
    met = quoin::press::measure(one, main_case ? trials : std::max(1, trials / 5)) && met;
  }
  const double seconds = quoin::press::seconds_to_read();
  fmt::print("two scans of a sheet at 300 ppi: {:.2f} s (target: 2 s)\n", seconds);
  return met && seconds < 2 ? 0 : 1;
}
