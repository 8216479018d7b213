#pragma once
/// @file
/// Many measurements from a file: all of them, or none.

#include <cmath>
#include <cstdlib>
#include <map>

#include "csv.hpp"
#include "lines.hpp"

namespace shop {

/// One measurement in a file. Either somebody typed it, or `export` wrote it in SI with its kind.
struct told {
    std::string name{}, path{}, value{};
    std::optional<std::string> kind{};
};

/// Reads a line of NAME, PATH and VALUE, separated by tabs.
inline told told_by_hand(const std::string& line) {
    const auto first = line.find('\t'), second = line.find('\t', first == line.npos ? first : first + 1);
    if (second == line.npos) { throw wrong_input("A line is a name, a path and a value, with tabs between."); }
    return {line.substr(0, first), line.substr(first + 1, second - first - 1), line.substr(second + 1), {}};
}
/// Reads a line that `export` wrote. Returns nothing for a result, because results follow from the measurements.
inline std::optional<told> told_by_export(const std::string& line) {
    const auto fields = csv_fields(line);
    if (!fields || fields->size() != 5) {
        throw wrong_input("A line is an instrument, a table, a path, a value and a kind, with commas between.");
    }
    const std::string& table = (*fields)[1];
    if (table == "results") { return std::nullopt; }
    if (table != "measurements") {
        throw wrong_input("There is no table \"" + shown(table) + "\"; it is measurements or results.");
    }
    return told{text_of_field((*fields)[0]), text_of_field((*fields)[2]), (*fields)[3], text_of_field((*fields)[4])};
}

/// Sets a measurement, under its present name, to a number in SI.
/// @param former what was renamed since the export was written
inline void change_to(strung_instrument& model, const told& t, std::span<const former_name> former = former_names) {
    char* end = nullptr;
    const double v = std::strtod(t.value.c_str(), &end);
    if (t.value.empty() || *end != '\0' || !std::isfinite(v)) {
        throw wrong_input("\"" + shown(t.value) + "\" is not a number.");
    }
    const std::string now = present_name(t.path, former);
    const std::string_view path = now.empty() ? t.path : now;
    if (!find_at(model, path).has_value()) {
        throw wrong_input("There is no measurement \"" + shown(t.path) + "\"; `show` lists them.");
    }
    try {
        set(model, path, any_quantity::of(*t.kind, v));
    } catch (const invalid_input& e) { throw wrong_input(shown(e.what())); }
}

/// The instruments of a file after all its changes. The shop itself is not changed.
/// @throws wrong_input with the line; also when the file cannot be read to its end
inline std::map<std::string, strung_instrument> measured_in(lines file, const instruments& shop) {
    std::map<std::string, strung_instrument> measured;
    std::string line;
    bool exported = false;
    for (bool first = true; file.next(line); first = false) {
        if (first) {
            if (line.starts_with("\xef\xbb\xbf")) { line.erase(0, 3); } // the byte order mark that spreadsheets write
            exported = line == csv_head;
            if (exported) { continue; }
        }
        if (line.empty()) { continue; }
        try {
            const std::optional<told> t = exported ? told_by_export(line) : told_by_hand(line);
            if (!t) { continue; }
            auto at = measured.find(t->name);
            if (at == measured.end()) { at = measured.emplace(t->name, shop.load(shop.find(t->name))).first; }
            t->kind ? change_to(at->second, *t, shop.former()) : change(at->second, t->path, t->value, shop.former());
        } catch (const wrong_input& e) { throw wrong_input(file.place() + e.what()); }
    }
    return measured;
}

} // namespace shop
