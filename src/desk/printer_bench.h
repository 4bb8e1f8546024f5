#pragma once
#include <cstddef>
#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/world.h"
#include "desk/http/guard.h"
#include "job/printer/measure_printer.h"

namespace quoin::desk {

/// What is under way while a maker gets to know a printer: pictures of measuring sheets in a folder
/// of their own among the system's temporary files, which goes when this does, and what was
/// measured and is not kept yet. Functions may be called from any thread; one measures at a time.
class PrinterBench {
 public:
  PrinterBench() = default;
  ~PrinterBench();
  PrinterBench(const PrinterBench&) = delete;
  PrinterBench& operator=(const PrinterBench&) = delete;

  /// Takes a picture; the newest 24 and at most 600 MB stay. Its name for `measure`, or why it was
  /// not taken: 415 for what is no picture, 413 for one of over 600 MB.
  [[nodiscard]] std::variant<std::string, Refusal> take(std::string_view name, const Bytes& bytes);

  /// The two pictures of one sheet, as `take` named them.
  struct Pair {
    std::string front, back;
  };
  /// Measures by pictures. What is found wrong lies at its sheet ("sheet 2") and side ("front",
  /// "back"), not at a file. Refused with 410 when a picture is here no more.
  [[nodiscard]] std::variant<Result<job::MeasuredPrinter>, Refusal> measure(
      const press::Profile& asked, const std::vector<Pair>& pairs, const press::BarReadings& bars);

  /// Keeps the newest 8 in mind; the name for `measured`.
  [[nodiscard]] std::string remember(job::MeasuredPrinter printer);
  [[nodiscard]] std::optional<job::MeasuredPrinter> measured(const std::string& id);

 private:
  struct Scan {
    std::string id, file;
    std::size_t bytes = 0;
  };
  struct Remembered {
    std::string id;
    job::MeasuredPrinter printer;
  };
  [[nodiscard]] const Scan* find(const std::string& id) const;
  void drop_oldest();

  std::mutex mutex_;
  std::string folder_;  // of the pictures; "" until there is one
  std::deque<Scan> scans_;
  std::size_t bytes_ = 0;  // of all scans
  std::deque<Remembered> remembered_;
};

}  // namespace quoin::desk
