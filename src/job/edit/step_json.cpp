#include "job/edit/step_json.h"

#include <nlohmann/json.hpp>

#include "game/toml_file.h"

namespace quoin::job {
namespace {

using game::Change;
using game::Claim;
using game::Node;
using nlohmann::json;

/// What is not as it was written; caught where reading begins.
struct NotOurs {};

constexpr int deepest_value = game::deepest_toml + 8;

json json_of(const Node& value) {
  if (value.text()) return *value.text();
  if (value.number()) return *value.number();
  if (value.flag()) return *value.flag();
  if (value.list()) {
    json list = json::array();
    for (const Node& item : *value.list()) list.push_back(json_of(item));
    return list;
  }
  // A list of pairs: keys keep their order.
  json pairs = json::array();
  for (const game::Entry& entry : *value.table()) {
    pairs.push_back(json::array({entry.key, json_of(entry.value)}));
  }
  return json{{"table", pairs}};
}

Node node_from(const json& from, int depth) {
  if (depth > deepest_value) throw NotOurs{};
  if (from.is_string()) return {{}, from.get<std::string>()};
  if (from.is_number()) return {{}, from.get<double>()};
  if (from.is_boolean()) return {{}, from.get<bool>()};
  if (from.is_array()) {
    game::List list;
    for (const json& item : from) list.push_back(node_from(item, depth + 1));
    return {{}, std::move(list)};
  }
  game::Table table;
  for (const json& pair : from.at("table")) {
    table.push_back({pair.at(0).get<std::string>(), {}, node_from(pair.at(1), depth + 1)});
  }
  return {{}, std::move(table)};
}

json json_of(const game::ValuePath& path) {
  json steps = json::array();
  for (const game::PathStep& step : path) {
    std::visit([&](const auto& each) { steps.push_back(each); }, step);
  }
  return steps;
}

game::ValuePath path_from(const json& from) {
  game::ValuePath path;
  for (const json& step : from) {
    if (step.is_string())
      path.emplace_back(step.get<std::string>());
    else
      path.emplace_back(step.get<std::size_t>());
  }
  return path;
}

template <typename Op>
Op op_from(const json& from, Op last) {
  const int op = from.at("op").get<int>();
  if (op < 0 || op > static_cast<int>(last)) throw NotOurs{};
  return static_cast<Op>(op);
}

json json_of(const game::SetValue& set) {
  json made{{"kind", "value"}, {"path", json_of(set.path)}, {"written", set.written}};
  if (set.value) made["value"] = json_of(*set.value);
  return made;
}

json json_of(const game::EditElement& edit) {
  json made{{"kind", "element"},
            {"op", static_cast<int>(edit.op)},
            {"path", json_of(edit.path)},
            {"to", edit.to},
            {"written", edit.written}};
  if (edit.value) made["value"] = json_of(*edit.value);
  return made;
}

json json_of(const game::SetCell& set) {
  json made{{"kind", "cell"},
            {"row", set.row},
            {"id", set.id},
            {"column", set.column},
            {"text", set.text}};
  if (set.written) made["written"] = *set.written;
  return made;
}

json json_of(const game::EditRow& edit) {
  json made{{"kind", "rows"}, {"op", static_cast<int>(edit.op)}, {"row", edit.row},
            {"id", edit.id},  {"values", edit.values},           {"written", edit.written}};
  if (edit.to) made["to"] = *edit.to;
  return made;
}

json json_of(const game::EditColumn& edit) {
  json made{{"kind", "column"},
            {"op", static_cast<int>(edit.op)},
            {"column", edit.column},
            {"to", edit.to},
            {"written", edit.written}};
  if (edit.place) made["place"] = *edit.place;
  return made;
}

json json_of(const game::EditText& edit) {
  const game::EditText::Passage& passage = edit.passage.value();
  return {{"kind", "text"},
          {"text", edit.text},
          {"passage", json::array({passage.at, passage.was, passage.before, passage.after})}};
}

std::optional<std::size_t> place_from(const json& from, const char* key) {
  if (!from.contains(key)) return std::nullopt;
  return from.at(key).get<std::size_t>();
}

std::optional<Node> value_from(const json& from) {
  if (!from.contains("value")) return std::nullopt;
  return node_from(from.at("value"), 0);
}

Change change_from(const json& from) {
  const std::string kind = from.at("kind").get<std::string>();
  const std::string file = from.at("file").get<std::string>();
  if (!may_be_changed(file)) throw NotOurs{};
  const auto text = [&](const char* key) { return from.at(key).get<std::string>(); };
  if (kind == "value") {
    return game::SetValue{file, path_from(from.at("path")), value_from(from), text("written")};
  }
  if (kind == "element") {
    return game::EditElement{file,
                             op_from(from, game::ListOp::move),
                             path_from(from.at("path")),
                             from.at("to").get<std::size_t>(),
                             value_from(from),
                             text("written")};
  }
  if (kind == "cell") {
    game::SetCell cell{file, from.at("row").get<std::size_t>(), text("id"), text("column"),
                       text("text")};
    if (from.contains("written")) cell.written = text("written");
    return cell;
  }
  if (kind == "rows") {
    return game::EditRow{file,
                         op_from(from, game::ListOp::move),
                         from.at("row").get<std::size_t>(),
                         text("id"),
                         place_from(from, "to"),
                         from.at("values").get<std::map<std::string, std::string>>(),
                         text("written")};
  }
  if (kind == "text") {
    const json& passage = from.at("passage");
    return game::EditText{file, text("text"),
                          game::EditText::Passage{
                              passage.at(0).get<std::size_t>(), passage.at(1).get<std::string>(),
                              passage.at(2).get<std::string>(), passage.at(3).get<std::string>()}};
  }
  if (kind != "column") throw NotOurs{};
  return game::EditColumn{file,
                          op_from(from, game::ColumnOp::rename),
                          text("column"),
                          text("to"),
                          place_from(from, "place"),
                          from.at("written").get<std::vector<std::string>>()};
}

json json_of(const game::Sight& sight) {
  return json::array({sight.name, sight.content, sight.size});
}

game::Sight sight_from(const json& from) {
  return {from.at(0).get<std::string>(), from.at(1).get<std::string>(),
          from.at(2).get<std::size_t>()};
}

json json_of(const Claim& claim) {
  json made{{"change", std::visit([](const auto& each) { return json_of(each); }, claim.change)}};
  made["change"]["file"] = game::file_of(claim.change);
  made["sights"] = json::array();
  for (const game::Sight& sight : claim.sights) made["sights"].push_back(json_of(sight));
  if (claim.above) made["above"] = json_of(*claim.above);
  if (claim.saw) made["saw"] = *claim.saw;
  return made;
}

Claim claim_from(const json& from) {
  Claim made{change_from(from.at("change"))};
  for (const json& sight : from.at("sights")) made.sights.push_back(sight_from(sight));
  if (from.contains("above")) made.above = sight_from(from.at("above"));
  if (from.contains("saw")) made.saw = from.at("saw").get<std::string>();
  const auto* row = std::get_if<game::EditRow>(&made.change);
  const bool of_row =
      std::holds_alternative<game::SetCell>(made.change) || (row && row->op != game::ListOp::add);
  if (of_row && made.sights.empty()) throw NotOurs{};
  const auto* column = std::get_if<game::EditColumn>(&made.change);
  if (column && column->op == game::ColumnOp::add && made.sights.size() > column->written.size()) {
    throw NotOurs{};
  }
  return made;
}

FileSplice splice_from(const json& from) {
  FileSplice made{from.at("file").get<std::string>(),    from.at("before").get<std::string>(),
                  from.at("after").get<std::string>(),   from.at("at").get<std::size_t>(),
                  from.at("removed").get<std::string>(), from.at("inserted").get<std::string>()};
  if (!may_be_changed(made.file)) throw NotOurs{};
  return made;
}

/// Calls `read`; nothing when it meets what is not ours.
template <typename Read>
auto read_ours(const Read& read) -> std::optional<decltype(read())> {
  try {
    return read();
  } catch (const json::exception&) {
    return std::nullopt;
  } catch (const NotOurs&) {
    return std::nullopt;
  }
}

}  // namespace

bool may_be_changed(std::string_view path) {
  const std::string inside = normal_path(path);
  const bool is_text =
      inside.ends_with(".toml") || inside.ends_with(".csv") || inside.ends_with(".md");
  return is_text && inside == path && !inside.starts_with(".quoin/");
}

json to_json(const std::vector<Claim>& claims) {
  json made = json::array();
  for (const Claim& claim : claims) made.push_back(json_of(claim));
  return made;
}

std::optional<std::vector<Claim>> claims_from(const json& from) {
  return read_ours([&] {
    std::vector<Claim> claims;
    for (const json& each : from) claims.push_back(claim_from(each));
    return claims;
  });
}

json to_json(const std::vector<FileSplice>& splices) {
  json made = json::array();
  for (const FileSplice& each : splices) {
    made.push_back({{"file", each.file},
                    {"before", each.before},
                    {"after", each.after},
                    {"at", each.at},
                    {"removed", each.removed},
                    {"inserted", each.inserted}});
  }
  return made;
}

std::optional<std::vector<FileSplice>> splices_from(const json& from) {
  return read_ours([&] {
    std::vector<FileSplice> splices;
    for (const json& each : from) splices.push_back(splice_from(each));
    return splices;
  });
}

json to_json(const Step& step) {
  return {{"label", step.label},
          {"group", step.group},
          {"files", to_json(step.files)},
          {"done", to_json(step.done)},
          {"back", to_json(step.back)}};
}

std::optional<Step> step_from(const json& from) {
  return read_ours([&] {
    auto files = splices_from(from.at("files"));
    auto done = claims_from(from.at("done"));
    auto back = claims_from(from.at("back"));
    if (!files || !done || !back) throw NotOurs{};
    return Step{from.at("label").get<std::string>(), from.at("group").get<std::string>(),
                std::move(*files), std::move(*done), std::move(*back)};
  });
}

}  // namespace quoin::job
