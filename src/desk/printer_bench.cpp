#include "desk/printer_bench.h"

#include <fmt/format.h>
#include <stdlib.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "desk/uploads.h"

namespace quoin::desk {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t most_scans = 24, most_bytes_of_scans = 600'000'000, most_remembered = 8;
constexpr std::size_t id_length = 16;

/// Nobody guesses it, and a desk that was started anew knows none of an earlier one's.
std::string new_id() { return new_token().substr(0, id_length); }

/// Says of each fault at which picture of which sheet it is, and names no file of the tray.
Diagnostics at_sheets(Diagnostics found, const std::vector<job::ScanFiles>& files) {
  for (Diagnostic& each : found) {
    if (each.origin.file.empty()) continue;
    for (std::size_t i = 0; i < files.size(); ++i) {
      const bool is_front = each.origin.file.str() == files[i].front;
      if (!is_front && each.origin.file.str() != files[i].back) continue;
      each.on(fmt::format("sheet {}", i + 1), is_front ? "front" : "back");
      break;
    }
    each.origin = {};
  }
  return found;
}

}  // namespace

PrinterBench::~PrinterBench() {
  std::error_code unneeded;
  if (!folder_.empty()) fs::remove_all(folder_, unneeded);
}

void PrinterBench::drop_oldest() {
  std::error_code unneeded;
  fs::remove(scans_.front().file, unneeded);
  bytes_ -= scans_.front().bytes;
  scans_.pop_front();
}

std::variant<std::string, Refusal> PrinterBench::take(std::string_view name, const Bytes& bytes) {
  if (bytes.size() > most_bytes_of_scans) {
    return Refusal{413, "the picture is too large", "scan at 300 ppi, and save it as PNG or JPEG"};
  }
  const std::lock_guard lock(mutex_);
  if (folder_.empty()) {
    std::error_code fault;
    std::string pattern = (fs::temp_directory_path(fault) / "quoin-scans-XXXXXX").string();
    if (fault || ::mkdtemp(pattern.data()) == nullptr) {
      return Refusal{500, fmt::format("the picture could not be put by: {}", std::strerror(errno)),
                     "make room on the disk"};
    }
    folder_ = pattern;
  }
  while (scans_.size() >= most_scans ||
         (!scans_.empty() && bytes_ + bytes.size() > most_bytes_of_scans)) {
    drop_oldest();
  }
  Uploaded put = put_picture(folder_, "", name, bytes);
  if (auto* refusal = std::get_if<Refusal>(&put)) return std::move(*refusal);
  scans_.push_back({new_id(), folder_ + "/" + std::get<std::string>(put), bytes.size()});
  bytes_ += bytes.size();
  return scans_.back().id;
}

const PrinterBench::Scan* PrinterBench::find(const std::string& id) const {
  const auto found = std::ranges::find(scans_, id, &Scan::id);
  return found == scans_.end() ? nullptr : &*found;
}

std::variant<Result<job::MeasuredPrinter>, Refusal> PrinterBench::measure(
    const press::Profile& asked, const std::vector<Pair>& pairs, const press::BarReadings& bars) {
  const std::lock_guard lock(mutex_);
  std::vector<job::ScanFiles> files;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const Scan* front = find(pairs[i].front);
    const Scan* back = find(pairs[i].back);
    if (front == nullptr || back == nullptr) {
      return Refusal{410,
                     fmt::format("the picture of the {} of sheet {} is here no more",
                                 front == nullptr ? "front" : "back", i + 1),
                     "choose it again"};
    }
    files.push_back({front->file, back->file});
  }
  std::vector<Size> papers = job::usual_papers();
  if (std::ranges::find(papers, asked.paper) == papers.end()) papers.push_back(asked.paper);
  Result<job::MeasuredPrinter> measured = job::measure_printer(asked, files, bars, papers);
  if (measured) return measured;
  return Result<job::MeasuredPrinter>(at_sheets(std::move(measured).why(), files));
}

std::string PrinterBench::remember(job::MeasuredPrinter printer) {
  const std::lock_guard lock(mutex_);
  remembered_.push_back({new_id(), std::move(printer)});
  if (remembered_.size() > most_remembered) remembered_.pop_front();
  return remembered_.back().id;
}

std::optional<job::MeasuredPrinter> PrinterBench::measured(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = std::ranges::find(remembered_, id, &Remembered::id);
  return found == remembered_.end() ? std::nullopt : std::optional(found->printer);
}

}  // namespace quoin::desk
