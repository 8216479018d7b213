#pragma once
/// @file
/// Names of wire materials as people write them: short names of the trade, and names with a slip of the pen.

#include <span>
#include <string>
#include <vector>

#include "../core/near_names.hpp"
#include "wire_materials.hpp"

namespace tautline {

/// Another name that the trade has for a material of `wire_materials()`.
struct material_byname {
    std::string_view said{};  ///< in small letters
    std::string_view meant{}; ///< as in `wire_materials()`; empty where it may mean several, so that it is not taken
};

/// Names that the trade uses for the materials of strings. Common practice, no source.
///
/// "bronze" alone is not taken: red brass and phosphor bronze differ by 2 % in weight and are both sold under it.
inline constexpr material_byname material_bynames[] = {
    {"steel", "music wire"},
    {"plain steel", "music wire"},
    {"tinned steel", "music wire"},
    {"carbon steel", "music wire"},
    {"piano wire", "music wire"},
    {"nickel plated", "nickel-plated steel"},
    {"plated steel", "nickel-plated steel"},
    {"stainless", "stainless steel"},
    {"304", "stainless steel"},
    {"magnetic stainless", "ferritic stainless steel"},
    {"ferritic", "ferritic stainless steel"},
    {"pure nickel", "nickel"},
    {"ni", "nickel"},
    {"phosphor", "phosphor bronze"},
    {"phos bronze", "phosphor bronze"},
    {"bronze", ""},
    {"80/20", "80/20 bronze"},
    {"80 20", "80/20 bronze"},
    {"80 20 bronze", "80/20 bronze"},
    {"red brass", "80/20 bronze"},
    {"90/10", "90/10 bronze"},
    {"90 10", "90/10 bronze"},
    {"90 10 bronze", "90/10 bronze"},
    {"cartridge brass", "brass"},
    {"cu", "copper"},
    {"ag", "silver"},
    {"polyamide", "nylon"},
    {"pa", "nylon"},
    {"pvdf", "fluorocarbon"},
    {"fluoro", "fluorocarbon"},
    {"catgut", "gut"},
    {"sheep gut", "gut"},
    {"silk floss", "silk"},
};

namespace kernel {

/// The name in small letters; hyphens, underscores, tabs and runs of blanks become one blank.
[[nodiscard]] inline std::string plain_name(std::string_view name) {
    std::string text;
    for (char c : name) {
        if (c >= 'A' && c <= 'Z') { c = static_cast<char>(c - 'A' + 'a'); }
        if (c == '-' || c == '_' || c == '\t') { c = ' '; }
        if (c == ' ' && (text.empty() || text.back() == ' ')) { continue; }
        text += c;
    }
    if (!text.empty() && text.back() == ' ') { text.pop_back(); }
    return text;
}
/// The digits of a name. Names with different digits, such as "80/20" and "90/10", are never taken for each other.
[[nodiscard]] inline std::string digits_of(std::string_view name) {
    std::string digits;
    for (const char c : name) {
        if (c >= '0' && c <= '9') { digits += c; }
    }
    return digits;
}

} // namespace kernel

/// The name in `wire_materials()` of the material that is meant; empty where no material or more than one may be meant.
///
/// Capitals, hyphens and blanks do not matter. A name of up to four letters must be spelled exactly. From five letters
/// on one letter may be wrong, from eight on two, as long as only one material is that near and has the same digits.
[[nodiscard]] inline std::string_view meant_material(std::string_view name) {
    const auto all = wire_materials();
    // Nearly every name is spelled as it is in the table.
    for (const wire_material& m : all) {
        if (name == m.name) { return m.name; }
    }
    const std::string said = kernel::plain_name(name);
    if (said.empty() || said.size() > 40) { return {}; }
    for (const material_byname& by : material_bynames) {
        if (said == by.said) { return by.meant; }
    }
    const std::size_t slips = said.size() < 5 ? 0 : said.size() < 8 ? 1 : 2;
    std::string_view best;
    std::size_t distance = slips + 1;
    bool alone = false;
    const auto look = [&](std::string_view spelled, std::string_view meant) {
        const std::string known = kernel::plain_name(spelled);
        if (kernel::digits_of(known) != kernel::digits_of(said)) { return; }
        const std::size_t apart = letters_apart(said, known);
        if (apart > distance || apart > slips) { return; }
        alone = apart < distance || (alone && best == meant);
        best = meant;
        distance = apart;
    };
    for (const wire_material& m : all) { look(m.name, m.name); }
    for (const material_byname& by : material_bynames) {
        if (by.said.size() >= 5) { look(by.said, by.meant); }
    }
    return alone ? best : std::string_view();
}

/// The material that a name means, over number type R; nothing where no material or more than one may be meant.
template <real R = double>
[[nodiscard]] std::optional<basic_wire_material<R>> meant_wire_material(std::string_view name) {
    return find_wire_material<R>(meant_material(name));
}

/// The rule to tell for a name that `meant_material` does not find: "must be one of: music wire, ...; did you mean
/// \"nickel\"?"
[[nodiscard]] inline std::string must_be_a_material(std::string_view name) {
    std::string known;
    std::vector<std::string_view> names;
    const auto all = wire_materials();
    for (const wire_material& m : all) {
        messages::append(known, {known.empty() ? "" : ", ", m.name});
        names.push_back(m.name);
    }
    std::string text = messages::joined({"must be one of: ", known});
    const std::string said = kernel::plain_name(name);
    if (said == "bronze") { return text + "; say which bronze it is"; }
    if (const std::string_view close = nearest(said, names); !close.empty()) {
        messages::append(text, {"; did you mean \"", close, "\"?"});
    }
    return text;
}

} // namespace tautline
