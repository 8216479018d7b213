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
    out["anchor_pull_N"] = s.anchor_pull.size() / u::N;
    if (s.line_at_saddle) { out["fret_line_at_saddle_mm"] = mm(*s.line_at_saddle); }
    if (s.straight_saddle) {
        out["straight_saddle"] = {{"at_centre_mm", mm(s.straight_saddle->at_centre)}, {"slant", s.straight_saddle->slant}};
    }
    if (s.standing) {
        out["floating_bridge"] = {{"bass_foot_N", s.standing->even.bass_load / u::N},
                                  {"treble_foot_N", s.standing->even.treble_load / u::N},
                                  {"tip_margin_mm", mm(s.standing->tip_margin())},
                                  {"friction_needed", s.standing->friction_needed()},
                                  {"best_lean_deg", s.standing->even.best_lean / u::deg}};
    }
    if (s.pinned) {
        out["pinned_bridge"] = {{"turning_N_m", s.pinned->turning / u::N_m},
                                {"shear_N", s.pinned->shear / u::N},
                                {"saddle_push_N", s.pinned->saddle_push / u::N},
                                {"saddle_lean_deg", s.pinned->saddle_lean / u::deg}};
    }
    if (s.top) {
        out["soundboard"] = {
            {"sink_mm", mm(s.top->sink)}, {"saddle_drop_mm", mm(s.top->drop)}, {"turn_deg", s.top->turn / u::deg}};
    }
    out["fret_places_mm"] = json::array();
    for (const auto& x : s.fret_x) { out["fret_places_mm"].push_back(mm(x)); }
    const auto plans = sections::height_plans(j, s);
    for (const named_object& o : j.found.objects) {
        const auto a = sections::under_strings(s, o);
        out["objects"].push_back({{"name", o.name},
                                  {"open_mm", mm(a.open)},
                                  {"pressed_mm", a.pressed ? json(mm(*a.pressed)) : json(nullptr)},
                                  {"along_deg", a.tilt.along / u::deg},
                                  {"across_deg", a.tilt.across / u::deg}});
    }
    if (const auto t = sections::tuning(j, s)) {
        out["tuning"] = {{"most_cents_off_for_a_semitone", t->most_cents}, {"rounds_from_a_semitone_low", t->rounds}};
    }
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
        string["notes"] = json::array();
        for (const auto& n : one.notes) {
            string["notes"].push_back(
                {{"pitch_Hz", n.pitch / u::Hz}, {"error_cents", n.error / u::cents}, {"tension_N", n.tension / u::N}});
        }
        string["octave_setback_mm"] = one.octave_setback ? json(mm(*one.octave_setback)) : json(nullptr);
        string["clean_plucks"] = json::array();
        for (std::size_t n = 0; n < one.plucks.size(); ++n) {
            string["clean_plucks"].push_back({{"pressed", n},
                                              {"pull_N", one.plucks[n].pull / u::N},
                                              {"displacement_mm", mm(one.plucks[n].displacement)},
                                              {"over_fret", one.plucks[n].fret_number()}});
        }
        string["nut_dead_band_cents"] = {one.nut_dead_band.least / u::cents, one.nut_dead_band.most / u::cents};
        string["saddle_dead_band_cents"] = {one.saddle_dead_band.least / u::cents, one.saddle_dead_band.most / u::cents};
        if (i < plans.size()) {
            string["wanted"] = {{"slot_change_mm", mm(plans[i].slot_change)},
                                {"saddle_change_mm", mm(plans[i].saddle_change)}};
        }
        string["saddle"] = {{"break_angle_deg", one.at_saddle.break_angle / u::deg},
                            {"down_force_N", one.at_saddle.down() / u::N}};
        string["nut"] = {{"break_angle_deg", one.at_nut.break_angle / u::deg},
                         {"seating_force_N", one.at_nut.down() / u::N}};
        out["strings"].push_back(std::move(string));
    }
    if (const auto doubts = doubts_of(j); !doubts.empty()) {
        const auto results = tl::propagate({j.found.instrument, j.strung}, doubts);
        json& sure = out["uncertainty"] = {{"coverage_factor", tl::coverage_factor}, {"results", json::array()}};
        for (const asked_result& asked : asked_results(s)) {
            const tl::uncertain_result* r = tl::find_result(results, asked.path);
            if (!r) { continue; }
            json one{{"path", asked.path},
                     {"kind", r->kind},
                     {"value_SI", r->value},
                     {"standard_SI", r->standard()},
                     {"contributions_SI", json::object()}};
            for (std::size_t k = 0; k < doubts.size(); ++k) {
                one["contributions_SI"][doubts[k].name] = r->contributions[k];
            }
            sure["results"].push_back(std::move(one));
        }
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
