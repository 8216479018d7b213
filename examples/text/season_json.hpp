#pragma once
/// @file
/// What the season does to an instrument, as JSON for programs; docs/tautline-sheet.schema.json describes it.

#include <nlohmann/json.hpp>

#include <tautline/job/year_words.hpp>

namespace season_json {

using json = nlohmann::ordered_json;

/// The effects of 1 % of moisture, each with its standard uncertainty.
inline json response(const tautline::known_season& k) {
    return {{"bow", k.response.bow},
            {"bow_standard", k.bow_standard},
            {"top_SI", k.response.top.value()},
            {"top_standard_SI", k.top_standard},
            {"stiffness", k.response.stiffness},
            {"across", k.across.share},
            {"across_standard", k.across.standard},
            {"by_readings", k.by_readings}};
}
inline json string(std::size_t i, const tautline::string_names& names) {
    return {{"place", i}, {"number", names.number(i)}, {"note", names.note_of(i)}};
}
/// One result as measured and at both ends.
inline json line(const tautline::year_line& l, const tautline::string_names& names) {
    json one{{"path", l.path}, {"words", l.words}, {"measured_SI", l.values[0].si()}};
    one.update({{"dry_SI", l.values[1].si()}, {"damp_SI", l.values[2].si()}});
    if (l.give_or_take[0].has_value()) { one["dry_give_or_take_SI"] = l.give_or_take[0].si(); }
    if (l.give_or_take[1].has_value()) { one["damp_give_or_take_SI"] = l.give_or_take[1].si(); }
    for (std::size_t k = 0; k < 3; ++k) {
        if (!l.places[k]) { continue; }
        const tautline::year_place& at = *l.places[k];
        one[k == 0   ? "measured_at"
            : k == 1 ? "dry_at"
                     : "damp_at"] = {
            {"string", string(at.string_index, names)}, {"pressed_at", at.pressed}, {"over_fret", at.fret}};
    }
    return one;
}
/// A wish or a clearance that holds now but not at one end of the year.
inline json miss(const tautline::year_miss& m, const tautline::string_names& names) {
    json one{{"what", m.what}, {"air", m.end == 1 ? "dry" : "damp"}, {"sure", m.sure}};
    one.update({{"wanted_SI", m.wanted.si()}, {"then_SI", m.then.si()}, {"off_SI", m.off.si()}});
    if (m.string_index) { one["string"] = string(*m.string_index, names); }
    if (m.pressed) { one["pressed_at"] = *m.pressed; }
    if (m.fret) { one["fret"] = *m.fret; }
    one["sentence"] = tautline::words_of(m);
    return one;
}
/// The whole year.
inline json of(const tautline::job_year& y, const tautline::string_names& names) {
    auto cautions = y.cautions;
    if (const auto ends = tautline::fret_ends_in_words(y); !ends.empty()) { cautions.insert(cautions.begin(), ends); }
    json out{{"moisture_gained_percent", y.gained}, {"response", response(y.known)}, {"cautions", cautions}};
    out["results"] = json::array();
    for (const auto& l : y.lines) { out["results"].push_back(line(l, names)); }
    out["misses"] = json::array();
    for (const auto& m : y.misses) { out["misses"].push_back(miss(m, names)); }
    return out;
}

} // namespace season_json
