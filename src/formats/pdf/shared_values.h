#pragma once
#include <map>
#include <set>
#include <string>

#include "formats/pdf/qpdf.h"

namespace quoin::pdf {

/// Lets parts of one file that read alike be one and the same object in memory. Ten thousand faces
/// differ in little, and the library keeps some 250 bytes for each name and number it reads.
/// Whoever changes a shared dictionary changes it for all, so only do what all need.
class SharedValues {
 public:
  /// The one object for all that read like this direct one; an indirect one stays itself.
  [[nodiscard]] Object of(Object direct);

  /// Shares what stands directly in a form and, once each, in the drawings it shows.
  void within_form(Object stream);

 private:
  void within(Object dictionary);
  void within_resources(Object dictionary);
  void within_each(Object dictionary);

  std::map<std::string, Object> known_;
  std::set<QPDFObjGen> visited_;
};

}  // namespace quoin::pdf
