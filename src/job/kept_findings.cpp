#include "job/kept_findings.h"

#include <bit>

#include "base/build_id.h"
#include "base/hash.h"
#include "base/packed.h"

namespace quoin::job {
namespace {

/// What bears on no card's looks, or on each card's own row alone.
constexpr std::string_view card_list = "cards.csv";
constexpr std::size_t sum_size = 64;

void write(PackedWriter& out, const Origin& origin) {
  out.string(origin.file.str());
  out.number(origin.line);
  out.number(origin.column);
  out.number(origin.length);
}

Origin read_origin(PackedReader& in) {
  const std::string_view file = in.string();
  Origin origin{file.empty() ? FileName() : FileName(file), 0, 0, 0};
  for (std::uint32_t* part : {&origin.line, &origin.column, &origin.length}) {
    *part = static_cast<std::uint32_t>(in.number());
  }
  return origin;
}

void write(PackedWriter& out, const std::vector<std::string>& lines) {
  out.number(lines.size());
  for (const std::string& line : lines) out.string(line);
}

std::vector<std::string> read_lines(PackedReader& in) {
  std::vector<std::string> lines;
  for (std::uint64_t left = in.number(); left > 0 && in.is_sound(); --left) {
    lines.emplace_back(in.string());
  }
  return lines;
}

void write(PackedWriter& out, const Diagnostic& d) {
  out.number(static_cast<std::uint64_t>(d.id));
  out.number(static_cast<std::uint64_t>(d.severity));
  write(out, d.origin);
  out.string(d.place.piece);
  out.string(d.place.element);
  out.string(d.message);
  write(out, d.details);
  write(out, d.hints);
}

Diagnostic read_diagnostic(PackedReader& in) {
  const int most = static_cast<int>(all_diagnostics().size()) - 1;
  const Id id = static_cast<Id>(in.small(0, most));
  const auto severity = static_cast<Severity>(in.small(0, static_cast<int>(Severity::error)));
  Diagnostic d(id, read_origin(in), {});
  d.severity = severity;
  d.place.piece = in.string();
  d.place.element = in.string();
  d.message = in.string();
  d.details = read_lines(in);
  d.hints = read_lines(in);
  return d;
}

/// Lengths and shares are kept to the last bit.
void write(PackedWriter& out, double value) { out.number(std::bit_cast<std::uint64_t>(value)); }
double read_double(PackedReader& in) { return std::bit_cast<double>(in.number()); }

void write(PackedWriter& out, const pieces::FaceMeasure& measure) {
  write(out, measure.kept.value);
  out.string(measure.kept_element);
  write(out, measure.kept_origin);
  out.number(measure.is_paper_at_edge ? 1 : 0);
  for (const double plate : measure.ink) write(out, plate);
  out.number(measure.border ? 1 : 0);
  if (!measure.border) return;
  write(out, measure.border->width.value);
  out.string(measure.border->element);
  write(out, measure.border->origin);
}

pieces::FaceMeasure read_measure(PackedReader& in) {
  pieces::FaceMeasure measure;
  measure.kept = Mm{read_double(in)};
  measure.kept_element = in.string();
  measure.kept_origin = read_origin(in);
  measure.is_paper_at_edge = in.number() != 0;
  for (double& plate : measure.ink) plate = read_double(in);
  if (in.number() == 0) return measure;
  pieces::Border border;
  border.width = Mm{read_double(in)};
  border.element = in.string();
  border.origin = read_origin(in);
  measure.border = std::move(border);
  return measure;
}

void write(PackedWriter& out, const std::string& name, const FaceFindings& face) {
  out.string(name);
  out.number(face.edge ? std::uint64_t{1} << 32 | *face.edge : 0);
  write(out, face.measure);
  out.number(face.found.size());
  for (const Diagnostic& d : face.found) write(out, d);
}

FaceFindings read_face(PackedReader& in) {
  FaceFindings face;
  const std::uint64_t edge = in.number();
  if (edge != 0) face.edge = static_cast<std::uint32_t>(edge);
  face.measure = read_measure(in);
  for (std::uint64_t left = in.number(); left > 0 && in.is_sound(); --left) {
    face.found.push_back(read_diagnostic(in));
  }
  return face;
}

/// Everything behind its own sum; nothing when that does not fit.
std::map<std::string, FaceFindings> read_all(std::string_view bytes) {
  if (bytes.size() < sum_size || sha256(bytes.substr(sum_size)) != bytes.substr(0, sum_size)) {
    return {};
  }
  PackedReader in(bytes.substr(sum_size));
  std::map<std::string, FaceFindings> all;
  for (std::uint64_t left = in.number(); left > 0 && in.is_sound(); --left) {
    std::string name(in.string());
    all.emplace(std::move(name), read_face(in));
  }
  if (!in.ended_well()) all.clear();
  return all;
}

/// Calls `use` with every picture of the items, those in lines of text too.
template <typename Use>
void each_picture(const std::vector<Item>& items, const Use& use) {
  for (const Item& item : items) {
    if (const auto* group = std::get_if<GroupItem>(&item.what)) each_picture(group->items, use);
    if (const auto* shown = std::get_if<PictureItem>(&item.what)) use(*shown->picture);
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr) continue;
    for (const TextRun& run : text->block.runs) {
      if (run.symbol && run.symbol->picture) use(*run.symbol->picture);
    }
  }
}

}  // namespace

ReadAnswer WitnessedWorld::read(std::string_view path, std::size_t limit) const {
  ReadAnswer answer = world_.read(path, limit);
  if (path != card_list && path != game::sources_file) {
    hashes_[std::string(path)] = answer.ok() ? sha256(*answer.bytes) : explain(answer, path);
  }
  return answer;
}

std::vector<std::string> WitnessedWorld::files_below(std::string_view folder) const {
  return world_.files_below(folder);
}

std::string WitnessedWorld::hash() const {
  PackedWriter all;
  for (const auto& [path, hash] : hashes_) {
    all.string(path);
    all.string(hash);
  }
  return sha256(all.take());
}

KeptFindings::KeptFindings(ImageCache* cache, const std::string& game_hash)
    : cache_(build_id().empty() ? nullptr : cache) {
  if (cache_ == nullptr) return;
  file_ = "findings-" + sha256(build_id() + game_hash);
  if (const std::optional<Bytes> kept = cache_->get(file_)) known_ = read_all(*kept);
}

const std::string& KeptFindings::picture_hash(const Picture& picture) {
  std::string& hash = pictures_[&picture];
  // A drawing's safe text holds what it brings in from other files as well.
  if (hash.empty()) {
    hash = picture.facts().is_vector() ? sha256(picture.safe_svg()) : picture.key();
  }
  return hash;
}

std::string KeptFindings::name(std::string_view side, const game::Game& game,
                               const game::Card& card, const Scene& scene) {
  if (cache_ == nullptr) return {};
  PackedWriter all;
  all.string(file_);
  all.string(side);
  for (const std::vector<game::Text>* row : {&game.columns, &card.cells}) {
    all.number(row->size());
    for (const game::Text& cell : *row) {
      all.string(cell.text);
      write(all, cell.origin);
    }
  }
  for (const int number : {card.number, card.copies, card.layout + 1, card.back + 1}) {
    all.number(static_cast<std::uint64_t>(number));
  }
  write(all, card.origin);
  each_picture(scene.items, [&](const Picture& picture) {
    all.string(picture.path());
    all.string(picture_hash(picture));
  });
  return sha256(all.take());
}

const FaceFindings* KeptFindings::find(const std::string& name) {
  const auto known = known_.find(name);
  if (known == known_.end()) return nullptr;
  used_.insert(name);
  return &known->second;
}

void KeptFindings::keep(const std::string& name, FaceFindings findings) {
  if (cache_ != nullptr) met_.insert_or_assign(name, std::move(findings));
}

void KeptFindings::save() const {
  if (cache_ == nullptr || met_.empty()) return;
  std::map<std::string, FaceFindings> all = met_;
  const bool all_fit = known_.size() - used_.size() <= used_.size() + met_.size() + 1000;
  for (const auto& [name, face] : known_) {
    if (all_fit || used_.contains(name)) all.emplace(name, face);
  }
  PackedWriter out;
  out.number(all.size());
  for (const auto& [name, face] : all) write(out, name, face);
  const std::string body = out.take();
  cache_->put(file_, sha256(body) + body);
}

}  // namespace quoin::job
