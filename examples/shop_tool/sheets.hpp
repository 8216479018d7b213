#pragma once
/// @file
/// What is kept about an instrument, as text for people.

#include <cstdio>
#include <string>

#include "shop.hpp"

namespace shop {

/// A kept number in a column's unit; "-" when the setup has no such number.
inline std::string column(const kept_setup& kept, const std::string& path, double unit, int decimals) {
    const auto at = kept.results.find(path);
    if (at == kept.results.end()) { return "-"; }
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, at->second / unit);
    return text;
}
inline std::string padded(std::string text, std::size_t width) {
    text.insert(0, text.size() < width ? width - text.size() : 0, ' ');
    return text;
}

/// The sheet that goes with the instrument.
inline std::string sheet(const entry& e, const strung_instrument& model, const kept_setup& kept) {
    constexpr double mm = 1e-3, N = 1;
    std::string out = shown(e.name) + " (" + shown(e.pattern) + "), solved by Tautline " + shown(kept.made_by) + "\n\n" +
                      "  string  note  tension N  action mm at fret 1  at fret 12  fret 12 cents off\n";
    const string_names names = names_of(model.instrument, model.stringing);
    for (std::size_t k = 0; k < model.stringing.strings.size(); ++k) {
        const std::string string = "strings[" + std::to_string(k) + "].";
        out += padded(names.number(k), 8) + padded(names.note_of(k), 6) +
               padded(column(kept, string + "tension", N, 1), 11) + padded(column(kept, string + "heights[0]", mm, 2), 21) +
               padded(column(kept, string + "heights[11]", mm, 2), 12) +
               padded(column(kept, string + "notes[11].error", 1, 1), 19) + "\n";
    }
    out += "\nAll strings pull " + column(kept, "total_tension", N, 1) + " N and press on the saddle with " +
           column(kept, "down_force", N, 1) + " N. Relief " + column(kept, "relief.gap", mm, 2) + " mm.\n";
    for (const auto& f : kept.findings) { out += shown(f.severity) + ": " + shown(f.sentence) + "\n"; }
    out +=
        "\nLoads are estimates from measurements. A string at pitch can cut and can take an eye: slacken before working.\n"
        "Where a failure would hurt someone or spoil an instrument of value, a qualified repairer decides.\n";
    return out;
}

} // namespace shop
