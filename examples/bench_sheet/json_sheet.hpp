#pragma once
/// @file
/// The same numbers for programs: JSON, SI units with milli and mega prefixes said in the keys.

#include <nlohmann/json.hpp>

#include "job.hpp"
#include "sheet.hpp"

namespace bench_sheet {

/// The sheet as JSON. Keys end in their unit; strings and frets count from 1.
inline nlohmann::ordered_json json_sheet(const read_job& j, const tl::setup& s) {
    using json = nlohmann::ordered_json;
    namespace u = tl::units;
    const auto mm = [](const tl::length<>& q) { return q / u::mm; };
    json out;
    out["format"] = "tautline-sheet";
    out["version"] = 1;
    out["title"] = j.found.title;
    out["a4_Hz"] = j.strung.standard.a4 / u::Hz;
    out["total_tension_N"] = s.total_tension / u::N;
    out["nut_rise_mm"] = mm(s.nut_rise);
    if (s.relief) { out["relief"] = {{"gap_mm", mm(s.relief->gap)}, {"fret", s.relief->index + 1}}; }
    out["down_force_N"] = s.down_force / u::N;
    out["push_along_N"] = s.push_along / u::N;
    if (s.tailpiece_rise) { out["tailpiece_rise_deg"] = *s.tailpiece_rise / u::deg; }
    out["fret_places_mm"] = json::array();
    for (const auto& x : s.fret_x) { out["fret_places_mm"].push_back(mm(x)); }
    out["strings"] = json::array();
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const tl::string_setup& one = s.strings[i];
        json string{{"note", tl::name_of(j.strung.strings[i].pitch)},
                    {"pitch_Hz", one.pitch / u::Hz},
                    {"gauge_mm", mm(one.gauge)},
                    {"mass_g_per_m", one.mass_per_length / u::g_per_m},
                    {"speaking_length_mm", mm(one.speaking_length)},
                    {"tension_N", one.tension / u::N},
                    {"core_stress_MPa", one.core_stress / u::MPa}};
        string["share_of_strength"] = one.share_of_strength ? json(*one.share_of_strength) : json(nullptr);
        string["heights_mm"] = json::array();
        for (const auto& h : one.heights) { string["heights_mm"].push_back(mm(h)); }
        string["pressed_clearances"] = json::array();
        for (std::size_t n = 0; n < one.clearances.size(); ++n) {
            string["pressed_clearances"].push_back(
                {{"pressed", n}, {"gap_mm", mm(one.clearances[n].gap)}, {"over_fret", one.clearances[n].fret_number()}});
        }
        string["saddle"] = {{"break_angle_deg", one.at_saddle.break_angle / u::deg},
                            {"down_force_N", one.at_saddle.down() / u::N}};
        string["nut"] = {{"break_angle_deg", one.at_nut.break_angle / u::deg},
                         {"seating_force_N", one.at_nut.down() / u::N}};
        out["strings"].push_back(std::move(string));
    }
    out["findings"] = json::array();
    for (const tl::finding& f : s.findings) {
        json one{{"severity", f.severity == tl::severity::stop      ? "stop"
                              : f.severity == tl::severity::warning ? "warning"
                                                                    : "note"},
                 {"sentence", f.sentence}};
        if (f.string) { one["string"] = *f.string; }
        if (f.fret) { one["fret"] = *f.fret; }
        out["findings"].push_back(std::move(one));
    }
    out["cautions"] = cautions;
    return out;
}

} // namespace bench_sheet
