#include "json_sheet.hpp"

#include <tautline/job/names_taken.hpp>

#include "../text/season_json.hpp"
#include "layout_json.hpp"

namespace bench_sheet {

namespace {

using json = nlohmann::ordered_json;
namespace u = tl::units;

/// A quantity as a number in the unit that its key names. A missing quantity is null.
json in_unit(double v) { return v; }
json in_unit(const tl::length<>& q) { return q / u::mm; }
json in_unit(const tl::force<>& q) { return q / u::N; }
json in_unit(const tl::angle<>& q) { return q / u::deg; }
json in_unit(const tl::moment<>& q) { return q / u::N_m; }
json in_unit(const tl::interval<>& q) { return q / u::cents; }
template <class Q>
json in_unit(const std::optional<Q>& q) {
    return q ? in_unit(*q) : json(nullptr);
}
/// A list of what `told` makes of each entry and its place. Entries that are null are left out.
template <class List, class Told>
json each(const List& list, Told&& told) {
    json out = json::array();
    for (std::size_t i = 0; i < list.size(); ++i) {
        if (json one = told(list[i], i); !one.is_null()) { out.push_back(std::move(one)); }
    }
    return out;
}
/// A list of quantities.
template <class List>
json each_in_unit(const List& list) {
    json out = json::array();
    for (const auto& q : list) { out.push_back(in_unit(q)); }
    return out;
}

/// A string in both counts: its place in lists and paths (from 0 at the bass), and the number that people use.
json string_json(const tl::string_names& names, std::size_t i) {
    return {{"place", i}, {"number", names.number(i)}, {"note", names.note_of(i)}};
}
/// Adds the string, if there is one.
void add_string(json& to, const tl::string_names& names, const std::optional<std::size_t>& i) {
    if (i) { to["string"] = string_json(names, *i); }
}

/// One setup. Keys end in their unit; frets count from 1.
json setup_json(const tl::job_state& j) {
    const tl::setup& s = j.is;
    json out;
    out["a4_Hz"] = j.on.stringing.standard.a4 / u::Hz;
    out["total_tension_N"] = in_unit(s.total_tension);
    out["nut_rise_mm"] = in_unit(s.nut_rise);
    if (s.relief) { out["relief"] = {{"gap_mm", in_unit(s.relief->gap)}, {"fret", s.relief->index + 1}}; }
    if (s.bass_relief && s.treble_relief) {
        out["bass_relief_mm"] = in_unit(s.bass_relief->gap);
        out["treble_relief_mm"] = in_unit(s.treble_relief->gap);
    }
    out["down_force_N"] = in_unit(s.down_force);
    out["push_along_N"] = in_unit(s.push_along);
    if (s.top_force) { out["top_force_N"] = in_unit(*s.top_force); }
    if (s.tailpiece_rise) { out["tailpiece_rise_deg"] = in_unit(*s.tailpiece_rise); }
    if (s.tailpiece_press) { out["tailpiece_press_N"] = in_unit(*s.tailpiece_press); }
    if (s.bar_force) {
        out["pressing_bar"] = {{"lift_N", in_unit(s.bar_force->z)}, {"push_along_N", in_unit(s.bar_force->x)}};
    }
    out["anchor_pull_N"] = in_unit(s.anchor_pull.size());
    if (s.line_at_saddle) { out["fret_line_at_saddle_mm"] = in_unit(*s.line_at_saddle); }
    if (s.straight_saddle) {
        out["straight_saddle"] = {{"at_centre_mm", in_unit(s.straight_saddle->at_centre)},
                                  {"slant", s.straight_saddle->slant}};
    }
    if (s.standing) {
        out["floating_bridge"] = {{"bass_foot_N", in_unit(s.standing->even.bass_load)},
                                  {"treble_foot_N", in_unit(s.standing->even.treble_load)},
                                  {"tip_margin_mm", in_unit(s.standing->tip_margin())},
                                  {"friction_needed", s.standing->friction_needed()},
                                  {"best_lean_deg", in_unit(s.standing->even.best_lean)}};
    }
    if (s.pinned) {
        out["pinned_bridge"] = {{"turning_N_m", in_unit(s.pinned->turning)},
                                {"shear_N", in_unit(s.pinned->shear)},
                                {"saddle_push_N", in_unit(s.pinned->saddle_push)},
                                {"saddle_lean_deg", in_unit(s.pinned->saddle_lean)}};
    }
    if (s.top) {
        out["soundboard"] = {{"sink_mm", in_unit(s.top->sink)},
                             {"saddle_drop_mm", in_unit(s.top->drop)},
                             {"turn_deg", in_unit(s.top->turn)}};
    }
    out["fret_places_mm"] = each_in_unit(s.fret_x);
    for (std::size_t i = 0; i < j.objects.size(); ++i) {
        const tl::object_seat& a = j.seats[i];
        out["objects"].push_back({{"name", shown(j.objects[i].name)},
                                  {"open_mm", in_unit(a.open)},
                                  {"pressed_mm", in_unit(a.pressed)},
                                  {"along_deg", in_unit(a.along)},
                                  {"across_deg", in_unit(a.across)}});
    }
    if (const auto t = tl::tuning_up_of(j.on, s)) {
        out["tuning"] = {{"most_cents_off_for_a_semitone", in_unit(t->most_moved)},
                         {"rounds_from_a_semitone_low", t->rounds}};
    }
    out["strings"] = each(s.strings, [&](const tl::string_setup& one, std::size_t i) {
        json string = string_json(s.names, i);
        string["name"] = s.names.name(i);
        string["pitch_Hz"] = one.pitch / u::Hz;
        string["gauge_mm"] = in_unit(one.gauge);
        string["mass_g_per_m"] = one.mass_per_length / u::g_per_m;
        string["speaking_length_mm"] = in_unit(one.speaking_length);
        string["tension_N"] = in_unit(one.tension);
        string["core_stress_MPa"] = one.core_stress / u::MPa;
        string["share_of_strength"] = in_unit(one.share_of_strength);
        for (const auto& x : one.crest_x) { string["fret_places_mm"].push_back(in_unit(x)); }
        string["heights_mm"] = each_in_unit(one.heights);
        string["pressed_clearances"] = each(one.clearances, [&](const auto& c, std::size_t n) {
            return one.has_fret(n) ? json{{"pressed", n}, {"gap_mm", in_unit(c.gap)}, {"over_fret", c.fret_number()}}
                                   : json();
        });
        string["notes"] = each(one.notes, [](const auto& n, std::size_t) {
            return json{
                {"pitch_Hz", n.pitch / u::Hz}, {"error_cents", in_unit(n.error)}, {"tension_N", in_unit(n.tension)}};
        });
        string["octave_setback_mm"] = in_unit(one.octave_setback);
        string["clean_plucks"] = each(one.plucks, [&](const auto& p, std::size_t n) {
            return one.has_fret(n) ? json{{"pressed", n},
                                          {"pull_N", in_unit(p.pull)},
                                          {"displacement_mm", in_unit(p.displacement)},
                                          {"over_fret", p.fret_number()}}
                                   : json();
        });
        string["nut_dead_band_cents"] = {in_unit(one.nut_dead_band.least), in_unit(one.nut_dead_band.most)};
        string["saddle_dead_band_cents"] = {in_unit(one.saddle_dead_band.least), in_unit(one.saddle_dead_band.most)};
        string["saddle"] = {{"break_angle_deg", in_unit(one.at_saddle.break_angle)},
                            {"down_force_N", in_unit(one.at_saddle.down())}};
        string["nut"] = {{"break_angle_deg", in_unit(one.at_nut.break_angle)},
                         {"seating_force_N", in_unit(one.at_nut.down())}};
        if (one.at_guide) {
            string["guide"] = {{"break_angle_deg", in_unit(one.at_guide->break_angle)},
                               {"force_N", in_unit(one.at_guide->on_support.size())}};
        }
        return string;
    });
    out["findings"] = each(s.findings, [&](const tl::finding& f, std::size_t) {
        json one{{"severity", tl::name_of(f.severity)}, {"sentence", tl::sentence_of(f, s.names)}};
        add_string(one, s.names, f.string_index);
        if (f.fret) { one["fret"] = *f.fret; }
        return one;
    });
    return out;
}

/// A number of a step or a wish, with its unit in the key.
json number_json(const tl::any_quantity& v) {
    if (!v.has_value()) { return nullptr; }
    const tl::shown_unit unit = tl::column_unit_of(v.kind());
    return {{unit.name.empty() ? "number" : unit.name, v.si() / unit.size}};
}

/// A neck reset. Unknown lengths are null.
json reset_json(const tl::reset_plan& r) {
    json out{{"turn_deg", in_unit(r.turn)},
             {"heel_cut_mm", in_unit(r.heel_cut)},
             {"edge_cut_mm", in_unit(r.edge_cut)},
             {"shim_mm", in_unit(r.shim)},
             {"board_line_mm", in_unit(r.board_line)},
             {"wedge_mm", in_unit(r.wedge)},
             {"break_deg", {{"before", in_unit(r.break_before)}, {"after", in_unit(r.break_after)}}}};
    if (r.octave_before) {
        out["octave_cents"] = {{"before", in_unit(*r.octave_before)}, {"after", in_unit(*r.octave_after)}};
    }
    return out;
}

json plan_json(const whole_job& w) {
    const tl::setup_plan& p = w.a.setups.plan;
    json out;
    out["slot_change_mm"] = each_in_unit(p.slot_change);
    out["saddle_height_mm"] = each_in_unit(p.saddle_height);
    out["saddle_change_mm"] = each_in_unit(p.saddle_change);
    const auto& radius = p.adjusted.instrument.saddle.radius;
    out["saddle_radius_mm"] = radius ? in_unit(tl::length<>(*radius)) : json(nullptr);
    out["rod_pull_change_N"] = in_unit(p.rod_pull_change);
    if (p.rod_turns) { out["rod_turns"] = *p.rod_turns; }
    out["setback_change_mm"] = {{"bass", in_unit(p.setback_change_bass)}, {"treble", in_unit(p.setback_change_treble)}};
    for (std::size_t i = 0; i < p.singles.size(); ++i) {
        const auto& one = p.singles[i];
        json set{{"setback_mm", in_unit(one.setback)}, {"setback_change_mm", in_unit(one.setback_change)}};
        if (one.height_left) { set["height_left_mm"] = in_unit(*one.height_left); }
        if (one.octave_left) { set["octave_left_cents"] = one.octave_left->cents(); }
        out["single_saddles"].push_back(set);
    }
    if (p.hinge_change) { out["hinge_change_mm"] = in_unit(*p.hinge_change); }
    if (p.adjusters) { out["adjuster_turns"] = {{"bass", p.adjusters->bass_turns}, {"treble", p.adjusters->treble_turns}}; }
    if (p.pin_holes) {
        out["pin_holes_mm"] = {{"nearest", in_unit(p.pin_holes->nearest)}, {"farthest", in_unit(p.pin_holes->farthest)}};
    }
    out["action_fret"] = p.action_fret;
    if (p.reset) { out["reset"] = reset_json(*p.reset); }
    out["saddle_at_limit"] = p.saddle_at_limit;
    if (p.reset_instead) { out["reset_instead"] = reset_json(*p.reset_instead); }
    out["shortfalls"] = each(p.shortfalls, [](const tl::shortfall& f, std::size_t) {
        return json{
            {"wish", f.wish}, {"wanted", number_json(f.wanted)}, {"nearest", number_json(f.nearest)}, {"why", f.why}};
    });
    out["remarks"] = each(p.remarks, [](const tl::plan_remark& r, std::size_t) {
        return json{{"wish", r.wish}, {"sentence", r.sentence}, {"number", number_json(r.number)}};
    });
    out["steps"] = each(w.a.steps, [&](const tl::bench_step& s, std::size_t) {
        json one{{"stage", tl::id_of(s.stage)}, {"title", s.title}};
        one["lines"] = each(s.lines, [&](const tl::step_line& l, std::size_t) {
            json line{{"what", l.what}, {"number", number_json(l.number)}};
            add_string(line, p.solved.names, l.string_index);
            return line;
        });
        if (!s.decision.empty()) { one["decision"] = s.decision; }
        one["check"] = s.check;
        one["in_hand"] = s.in_hand;
        one["checked"] = s.checked == tl::bench_state::at_pitch ? "at pitch" : "slack";
        return one;
    });
    out["changes"] = json::array();
    for (const auto& c : w.a.changes) {
        if (c.weight < 1) { continue; }
        json one{{"path", c.path},
                 {"words", c.words},
                 {"kind", c.found.kind()},
                 {"found_SI", c.found.si()},
                 {"planned_SI", c.planned.si()},
                 {"times_noticed", c.weight}};
        add_string(one, p.solved.names, tl::string_of_path(c.path));
        out["changes"].push_back(std::move(one));
    }
    return out;
}

json doubt_json(const whole_job& w, const tl::job_state& s) {
    const tl::setup_doubts& d = s.doubts;
    json out{{"coverage_factor", tl::coverage_factor}, {"results", json::array()}};
    for (const tl::asked_result& asked : tl::asked_results(w.job.wishes_or_none(), s.is)) {
        const tl::uncertain_result* r = tl::find_result(d.results, asked.path);
        if (!r) { continue; }
        json one{{"path", asked.path},
                 {"words", asked.name},
                 {"kind", r->value.kind()},
                 {"value_SI", r->value.si()},
                 {"standard_SI", r->standard(d.together).si()},
                 {"contributions_SI", json::object()}};
        add_string(one, s.is.names, tl::string_of_path(asked.path));
        for (std::size_t k = 0; k < d.doubts.size(); ++k) {
            one["contributions_SI"][d.doubts[k].name] = r->contributions[k];
        }
        out["results"].push_back(std::move(one));
    }
    return out;
}

/// The result of the readings. Numbers are in SI units, those of notes in cents.
json readings_json(const whole_job& w) {
    const tl::reconciliation& r = w.a.readings.said;
    json out{{"adjusted", !w.job.adjusting.as_read},
             {"chance", r.tests.chance},
             {"sentences", tl::sentences_of(w.job, w.a.readings, w.a.learnt)},
             {"readings", json::array()},
             {"inputs", json::array()},
             {"suspicions", json::array()},
             {"results", json::array()}};
    const auto test = [](json& to, const tl::reading_test& t) {
        to["redundancy"] = t.redundancy;
        to["times_doubt"] = t.controlled() ? json(t.w) : json(nullptr);
        to["error_if_alone_wrong_SI"] = t.controlled() ? json(t.error) : json(nullptr);
    };
    for (const tl::reconciled_reading& one : r.readings) {
        json row{{"path", one.path},           {"state", one.state},
                 {"words", one.words},         {"kind", one.value.kind()},
                 {"value_SI", one.value.si()}, {"standard_SI", one.standard.si()},
                 {"usual_doubt", one.usual},   {"expected_SI", one.expected.si()},
                 {"found_SI", one.found.si()}};
        test(row, one.test);
        out["readings"].push_back(std::move(row));
    }
    for (const tl::reconciled_input& one : r.inputs) {
        json row{{"path", one.name},
                 {"words", one.words},
                 {"kind", one.found.kind()},
                 {"as_read_SI", one.as_read.si()},
                 {"as_read_standard_SI", one.before.si()},
                 {"found_SI", one.found.si()},
                 {"found_standard_SI", one.after.si()},
                 {"at_edge", one.edge != tl::fit_edge::none}};
        test(row, one.test);
        out["inputs"].push_back(std::move(row));
    }
    for (const tl::suspicion& one : r.suspicions) {
        json names = json::array();
        for (const std::size_t place : one.places) { names.push_back(r.name_of(place)); }
        out["suspicions"].push_back(std::move(names));
    }
    for (std::size_t i = 0; i < w.a.learnt.results.size(); ++i) {
        const tl::learnt_result& one = w.a.learnt.results[i];
        json next = json::array();
        for (const tl::reading_to_take& n : w.a.learnt.next[i]) {
            next.push_back({{"words", n.words}, {"standard_after_SI", n.after.si()}});
        }
        out["results"].push_back({{"path", one.path},
                                  {"words", one.words},
                                  {"value_SI", one.value.si()},
                                  {"give_or_take_SI", one.give_or_take.si()},
                                  {"without_readings_SI", one.without_them.si()},
                                  {"read_next", std::move(next)}});
    }
    return out;
}

} // namespace

json json_sheet(const whole_job& w) {
    json out;
    out["format"] = "tautline-sheet";
    out["version"] = 4;
    out["title"] = shown(w.job.title);
    for (const tl::job_state& s : w.states) {
        if (s.name == "planned" && w.job.planned) { out["planned_title"] = shown(w.job.planned->title); }
        json& of = out[std::string(s.name)] = setup_json(s);
        if (!s.doubts.doubts.empty()) { of["uncertainty"] = doubt_json(w, s); }
    }
    if (w.a.setups.planned) { out["plan"] = plan_json(w); }
    if (!w.a.layout.empty()) { out["layout"] = layout_json(w.a.layout); }
    if (w.a.year) { out["season"] = season_json::of(*w.a.year, w.last().is.names); }
    if (!w.a.readings.said.readings.empty()) { out["readings"] = readings_json(w); }
    for (const tl::taken_name& t : tl::names_taken(w.job)) {
        out["taken_for"].push_back(
            {{"said", shown(t.said)}, {"meant", t.meant}, {"paths", t.paths}, {"sentence", shown(t.sentence)}});
    }
    out["cautions"] = cautions();
    return out;
}

} // namespace bench_sheet
