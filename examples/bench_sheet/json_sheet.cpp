#include "json_sheet.hpp"

namespace bench_sheet {

namespace {

using json = nlohmann::ordered_json;
namespace u = tl::units;

double mm(const tl::length<>& q) { return q / u::mm; }

const char* name_of(tl::severity s) {
    return s == tl::severity::stop ? "stop" : s == tl::severity::warning ? "warning" : "note";
}

/// Which string is meant, both ways: its place in lists and paths, bass first from 0, and what people call it.
json string_json(const tl::string_names& names, std::size_t i) {
    return {{"place", i}, {"number", names.number(i)}, {"note", names.note_of(i)}};
}
/// Adds that where there is one.
void add_string(json& to, const tl::string_names& names, const std::optional<std::size_t>& i) {
    if (i) { to["string"] = string_json(names, *i); }
}

/// One setup. Keys end in their unit; frets count from 1.
json setup_json(const seen_setup& j, const tl::setup& s) {
    json out;
    out["a4_Hz"] = j.on.stringing.standard.a4 / u::Hz;
    out["total_tension_N"] = s.total_tension / u::N;
    out["nut_rise_mm"] = mm(s.nut_rise);
    if (s.relief) { out["relief"] = {{"gap_mm", mm(s.relief->gap)}, {"fret", s.relief->index + 1}}; }
    out["down_force_N"] = s.down_force / u::N;
    out["push_along_N"] = s.push_along / u::N;
    if (s.top_force) { out["top_force_N"] = *s.top_force / u::N; }
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
    for (std::size_t i = 0; i < j.objects.size(); ++i) {
        const tl::object_seat& a = j.seats[i];
        out["objects"].push_back({{"name", shown(j.objects[i].name)},
                                  {"open_mm", mm(a.open)},
                                  {"pressed_mm", a.pressed ? json(mm(*a.pressed)) : json(nullptr)},
                                  {"along_deg", a.along / u::deg},
                                  {"across_deg", a.across / u::deg}});
    }
    if (const auto t = tl::tuning_up_of(j.on, s)) {
        out["tuning"] = {{"most_cents_off_for_a_semitone", t->most_moved.cents()},
                         {"rounds_from_a_semitone_low", t->rounds}};
    }
    out["strings"] = json::array();
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const tl::string_setup& one = s.strings[i];
        json string = string_json(s.names, i);
        string["name"] = s.names.name(i);
        string["pitch_Hz"] = one.pitch / u::Hz;
        string["gauge_mm"] = mm(one.gauge);
        string["mass_g_per_m"] = one.mass_per_length / u::g_per_m;
        string["speaking_length_mm"] = mm(one.speaking_length);
        string["tension_N"] = one.tension / u::N;
        string["core_stress_MPa"] = one.core_stress / u::MPa;
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
        string["saddle"] = {{"break_angle_deg", one.at_saddle.break_angle / u::deg},
                            {"down_force_N", one.at_saddle.down() / u::N}};
        string["nut"] = {{"break_angle_deg", one.at_nut.break_angle / u::deg},
                         {"seating_force_N", one.at_nut.down() / u::N}};
        out["strings"].push_back(std::move(string));
    }
    out["findings"] = json::array();
    for (const tl::finding& f : s.findings) {
        json one{{"severity", name_of(f.severity)}, {"sentence", f.sentence}};
        add_string(one, s.names, f.string_index);
        if (f.fret) { one["fret"] = *f.fret; }
        out["findings"].push_back(std::move(one));
    }
    return out;
}

/// A number of a step or a wish, with its unit in the key.
json number_json(const tl::any_quantity& v) {
    if (v.kind() == "length") { return {{"mm", mm(v.as<tl::length<>>())}}; }
    if (v.kind() == "force") { return {{"N", v.as<tl::force<>>() / u::N}}; }
    if (v.kind() == "stress") { return {{"MPa", v.as<tl::stress<>>() / u::MPa}}; }
    if (v.kind() == "angle") { return {{"deg", v.as<tl::angle<>>() / u::deg}}; }
    if (v.kind() == "interval") { return {{"cents", v.as<tl::interval<>>().cents()}}; }
    if (v.has_value()) { return {{"number", v.si()}}; }
    return nullptr;
}

/// A reset: lengths that are not known are null.
json reset_json(const tl::reset_plan& r) {
    const auto known = [](const auto& q) { return q ? json(mm(*q)) : json(nullptr); };
    json out{{"turn_deg", r.turn / u::deg},
             {"heel_cut_mm", known(r.heel_cut)},
             {"edge_cut_mm", mm(r.edge_cut)},
             {"shim_mm", known(r.shim)},
             {"board_line_mm", mm(r.board_line)},
             {"wedge_mm", known(r.wedge)},
             {"break_deg", {{"before", r.break_before / u::deg}, {"after", r.break_after / u::deg}}}};
    if (r.octave_before) {
        out["octave_cents"] = {{"before", r.octave_before->cents()}, {"after", r.octave_after->cents()}};
    }
    return out;
}

json plan_json(const whole_job& w) {
    const tl::setup_plan& p = w.a.setups.plan;
    json out;
    const auto list = [](const auto& lengths) {
        json a = json::array();
        for (const auto& q : lengths) { a.push_back(mm(q)); }
        return a;
    };
    out["slot_change_mm"] = list(p.slot_change);
    out["saddle_height_mm"] = list(p.saddle_height);
    out["saddle_change_mm"] = list(p.saddle_change);
    const auto& radius = p.adjusted.instrument.saddle.radius;
    out["saddle_radius_mm"] = radius ? json(mm(tl::length<>(*radius))) : json(nullptr);
    out["rod_pull_change_N"] = p.rod_pull_change / u::N;
    if (p.rod_turns) { out["rod_turns"] = *p.rod_turns; }
    out["setback_change_mm"] = {{"bass", mm(p.setback_change_bass)}, {"treble", mm(p.setback_change_treble)}};
    if (p.hinge_change) { out["hinge_change_mm"] = mm(*p.hinge_change); }
    if (p.adjusters) { out["adjuster_turns"] = {{"bass", p.adjusters->bass_turns}, {"treble", p.adjusters->treble_turns}}; }
    if (p.pin_holes) {
        out["pin_holes_mm"] = {{"nearest", mm(p.pin_holes->nearest)}, {"farthest", mm(p.pin_holes->farthest)}};
    }
    out["action_fret"] = p.action_fret;
    if (p.reset) { out["reset"] = reset_json(*p.reset); }
    out["saddle_at_limit"] = p.saddle_at_limit;
    if (p.reset_instead) { out["reset_instead"] = reset_json(*p.reset_instead); }
    out["shortfalls"] = json::array();
    for (const auto& f : p.shortfalls) {
        out["shortfalls"].push_back(
            {{"wish", f.wish}, {"wanted", number_json(f.wanted)}, {"nearest", number_json(f.nearest)}, {"why", f.why}});
    }
    out["remarks"] = json::array();
    for (const auto& r : p.remarks) {
        out["remarks"].push_back({{"wish", r.wish}, {"sentence", r.sentence}, {"number", number_json(r.number)}});
    }
    out["steps"] = json::array();
    for (const auto& s : w.a.steps) {
        json one{{"stage", tl::id_of(s.stage)}, {"title", s.title}, {"lines", json::array()}};
        for (const auto& l : s.lines) {
            json line{{"what", l.what}, {"number", number_json(l.number)}};
            add_string(line, p.solved.names, l.string_index);
            one["lines"].push_back(std::move(line));
        }
        if (!s.decision.empty()) { one["decision"] = s.decision; }
        one["check"] = s.check;
        out["steps"].push_back(std::move(one));
    }
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

json doubt_json(const whole_job& w, const tl::setup& s, const tl::setup_doubts& d) {
    json out{{"coverage_factor", tl::coverage_factor}, {"results", json::array()}};
    for (const tl::asked_result& asked : tl::asked_results(w.job.wishes_or_none(), s)) {
        const tl::uncertain_result* r = tl::find_result(d.results, asked.path);
        if (!r) { continue; }
        json one{{"path", asked.path},
                 {"words", asked.name},
                 {"kind", r->value.kind()},
                 {"value_SI", r->value.si()},
                 {"standard_SI", r->standard(d.together).si()},
                 {"contributions_SI", json::object()}};
        add_string(one, s.names, tl::string_of_path(asked.path));
        for (std::size_t k = 0; k < d.doubts.size(); ++k) {
            one["contributions_SI"][d.doubts[k].name] = r->contributions[k];
        }
        out["results"].push_back(std::move(one));
    }
    return out;
}

/// What the readings say: numbers in SI, of notes in cents.
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
    out["found"] = setup_json({w.a.setups.as_found, w.job.objects, w.a.setups.found_seats}, w.a.setups.found);
    if (!w.a.found_doubts.doubts.empty()) {
        out["found"]["uncertainty"] = doubt_json(w, w.a.setups.found, w.a.found_doubts);
    }
    if (w.a.setups.planned) {
        if (w.job.planned) { out["planned_title"] = shown(w.job.planned->title); }
        out["planned"] =
            setup_json({w.a.setups.plan.adjusted, w.a.setups.objects, w.a.setups.seats}, w.a.setups.plan.solved);
        if (!w.a.planned_doubts.doubts.empty()) {
            out["planned"]["uncertainty"] = doubt_json(w, w.a.setups.plan.solved, w.a.planned_doubts);
        }
        out["plan"] = plan_json(w);
    }
    if (!w.a.readings.said.readings.empty()) { out["readings"] = readings_json(w); }
    out["cautions"] = cautions;
    return out;
}

} // namespace bench_sheet
