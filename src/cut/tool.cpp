#include "cut/tool.h"

namespace quoin::cut {

Tool usual(ToolKind kind) {
  switch (kind) {
    case ToolKind::guillotine:
      return {kind, 10_mm, Mm{0.35}, Mm{0.2}, 25_mm};
    case ToolKind::knife_and_rule:
      return {kind, Mm{0.45}, Mm{0.2}, Mm{0.2}, 8_mm};
    case ToolKind::rotary_trimmer:
      break;
  }
  return {ToolKind::rotary_trimmer, Mm{0.6}, Mm{0.2}, Mm{0.2}, 15_mm};
}

std::string_view to_string(ToolKind kind) {
  switch (kind) {
    case ToolKind::guillotine:
      return "guillotine";
    case ToolKind::rotary_trimmer:
      return "rotary trimmer";
    case ToolKind::knife_and_rule:
      break;
  }
  return "knife and rule";
}

}  // namespace quoin::cut
