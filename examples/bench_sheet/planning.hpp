#pragma once
/// @file
/// The sheet's answers to what a job asks for: slots and saddle for wanted heights, neck reset, objects under the strings,
/// and how a tuning settles.

#include <tautline/action/coupling.hpp>
#include <tautline/action/neck_set.hpp>
#include <tautline/action/saddle_arc.hpp>
#include <tautline/supports/tailpiece_plan.hpp>

#include "job.hpp"
#include "measures.hpp"
#include "text_table.hpp"

namespace bench_sheet::sections {

/// A change as the bench does it: "+0.12", down is minus.
inline std::string signed_text(const tl::length<>& q, const column_unit<tl::unit::length>& unit) {
    const std::string text = tl::fixed_text(q, unit.tag, unit.decimals);
    return text.front() == '-' || text.find_first_not_of("0.") == std::string::npos ? text : "+" + text;
}

/// Where tailpiece or pins must be for the wanted down-force or break angle; with the nearest where that cannot be.
inline std::string wanted_anchors(const read_job& j, const tl::setup& s, measures m) {
    const wanted_heights& w = *j.found.wanted;
    const tl::instrument& built = j.found.instrument;
    const tl::length<> top = built.saddle.board_line;
    std::string text;
    if (w.down_force) {
        std::vector<tl::point> slots;
        for (const auto& b : s.bridge_strings) { slots.push_back(b.slot); }
        tl::hinged_tailpiece hung;
        hung.hinge_x = built.board.scale.scale_length + built.tailpiece->hinge_distance;
        hung.reach = built.tailpiece->reach;
        const auto plan = tl::anchor_for_down_force(hung, slots, s.tail_strings, *w.down_force, w.hinge_lowest - top,
                                                    w.hinge_highest - top);
        const tl::length<> hangs = plan.height + top;
        text += "  For " + in_words(show::pull, *w.down_force, m) +
                " on the saddle, as it stands now, the tailpiece hangs " + in_words(show::place, tl::abs(hangs), m) +
                (hangs < 0 * tl::units::mm ? " below" : " above") + " the soundboard's plane" +
                (plan.reachable
                     ? ".\n"
                     : "; that is the nearest that is allowed, and gives " + in_words(show::pull, plan.down, m) + ".\n");
    }
    if (w.saddle_break) {
        std::optional<tl::length<>> nearest, farthest;
        bool all_there = true;
        for (const auto& b : s.bridge_strings) {
            const auto fall = tl::atan2(tl::length<>(b.saddle.z - b.slot.z), b.saddle.x - b.slot.x);
            const auto behind = tl::pin_distance(tl::length<>(b.saddle.z - b.anchor.z), fall, *w.saddle_break);
            all_there = all_there && behind;
            if (!behind) { continue; }
            nearest = nearest ? std::min(*nearest, *behind) : *behind;
            farthest = farthest ? std::max(*farthest, *behind) : *behind;
        }
        text += all_there ? "  For " + tl::fixed_text(tl::angle<>(*w.saddle_break), tl::units::deg, 1) +
                                " deg over the saddle the strings go in " + in_words(show::place, *nearest, m) + " to " +
                                in_words(show::place, *farthest, m) + " behind it.\n"
                          : "  No place behind the saddle gives every string the wanted break.\n";
    }
    return text;
}

/// What each string's slot and saddle must do for the wanted heights, the neck as it bows now: a lower saddle pulls a
/// little less, so look again at the solved setup afterwards.
inline std::vector<tl::basic_height_plan<double>> height_plans(const read_job& j, const tl::setup& s) {
    std::vector<tl::basic_height_plan<double>> plans;
    if (!j.found.wanted) { return plans; }
    const wanted_heights& w = *j.found.wanted;
    const auto fret = static_cast<std::size_t>(w.action_fret);
    const tl::length<> spread = s.strings.back().y_at_nut - s.strings.front().y_at_nut;
    for (const tl::string_setup& one : s.strings) {
        const double t = spread.value() > 0 ? tl::ratio(one.y_at_nut - s.strings.front().y_at_nut, spread) : 0.0;
        const tl::height_wish first{s.fret_x[0], one.crest_z[0],
                                    w.first_fret_bass + (w.first_fret_treble - w.first_fret_bass) * t};
        const tl::height_wish action{s.fret_x[fret - 1], one.crest_z[fret - 1],
                                     w.action_bass + (w.action_treble - w.action_bass) * t};
        plans.push_back(tl::plan_heights(one.line, first, action, one.gauge));
    }
    return plans;
}

inline std::string wanted(const read_job& j, const tl::setup& s, measures m) {
    if (!j.found.wanted) { return ""; }
    const wanted_heights& w = *j.found.wanted;
    const auto plans = height_plans(j, s);
    std::vector<std::string> head{"string", "note"};
    add_heads(head, "slot by", show::height, m);
    add_heads(head, "saddle by", show::height, m);
    add_heads(head, "saddle stands", show::place, m);
    text_table table(head);
    std::vector<tl::length<>> y, z;
    tl::length<> points_at{};
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const tl::basic_height_plan<double>& plan = plans[i];
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch)};
        show::height.each(m, [&](const auto& unit) { row.push_back(signed_text(plan.slot_change, unit)); });
        show::height.each(m, [&](const auto& unit) { row.push_back(signed_text(plan.saddle_change, unit)); });
        add_cells(row, show::place, plan.line.saddle_z + j.found.instrument.saddle.board_line, m);
        table.row(row);
        y.push_back(s.strings[i].y_at_saddle);
        z.push_back(plan.line.saddle_z);
        points_at += plan.saddle_change / static_cast<double>(s.strings.size());
    }
    std::string text =
        "For the wanted heights: change of slot bottom and saddle, + up; saddle over the soundboard then\n" + table.text();
    if (y.size() >= 3) {
        const auto arc = tl::saddle_arc<double>(y, z);
        text += arc.radius() && *arc.radius() < 5 * tl::units::metre
                    ? "  The saddle's arc: radius " + in_words(show::place, *arc.radius(), m) + " fits best, within " +
                          in_words(show::height, arc.worst_off, m) + ".\n"
                    : "  The saddle's top is flat within " + in_words(show::height, arc.worst_off, m) + ".\n";
    }
    if (s.crests.size() >= 2) {
        // Instead of a saddle change, the neck could be turned until the frets point as much lower or higher at the saddle.
        std::vector<tl::length<>> crest_z;
        for (const auto& c : s.crests) { crest_z.push_back(c.z); }
        const auto line = tl::sighted_line<double>(s.fret_x, crest_z);
        tl::neck_joint joint;
        joint.x = s.beam.joint;
        joint.saddle_x = j.found.instrument.board.scale.scale_length;
        if (w.heel_depth) { joint.heel_depth = *w.heel_depth; }
        const auto reset = tl::neck_set(joint, line, line.at(joint.saddle_x) - points_at);
        text += "  The saddle left as it is, the neck would be reset by " +
                tl::fixed_text(reset.turn, tl::unit_tag<tl::unit::angle>{tl::units::deg.size}, 2) + " deg (+ head back)";
        if (w.heel_depth) { text += ", " + in_words(show::height, reset.heel_cut, m) + " off the heel at its cap"; }
        text += ".\n";
    }
    if (w.adjusters && s.strings.size() > 1) {
        const auto& first = s.strings.front();
        const auto& last = s.strings.back();
        const auto lift = [&](std::size_t i) { return z[i] - s.strings[i].line.saddle_z; };
        const auto moves = tl::adjuster_moves<double>(*w.adjusters, first.y_at_saddle, lift(0), last.y_at_saddle,
                                                      lift(s.strings.size() - 1));
        char turns[64];
        std::snprintf(turns, sizeof turns, "%+.1f turns bass, %+.1f turns treble", moves.bass_turns, moves.treble_turns);
        text += "  The outer strings by the bridge's adjusters: " + std::string(turns) + " (+ up).\n";
    }
    return text + wanted_anchors(j, s, m);
}

/// How an object lies under all strings.
struct object_answer {
    tl::length<> open{};
    std::optional<tl::length<>> pressed{}; ///< at the last fret; none without frets
    tl::basic_parallel_tilt<double> tilt{};
};
inline object_answer under_strings(const tl::setup& s, const named_object& o) {
    object_answer a{.open = 1 * tl::units::metre, .pressed = std::nullopt, .tilt = {}};
    std::vector<tl::string_line> lines;
    for (const auto& one : s.strings) {
        lines.push_back(one.line);
        a.open = std::min(a.open, tl::object_clearance(o.shape, one.line).least());
        if (s.fret_x.empty()) { continue; }
        const auto line = tl::pressed_line<double>(one.line, s.fret_x.back(), one.crest_z.back());
        const tl::length<> gap = tl::object_clearance(o.shape, line).least();
        a.pressed = a.pressed ? std::min(*a.pressed, gap) : gap;
    }
    a.tilt = tl::parallel_tilt<double>(o.shape, lines);
    return a;
}

inline std::string objects(const read_job& j, const tl::setup& s, measures m) {
    if (j.found.objects.empty()) { return ""; }
    std::string text = "Under the strings: least clearance, open and pressed at the last fret\n";
    for (const named_object& o : j.found.objects) {
        const object_answer a = under_strings(s, o);
        const auto turn = [](const tl::angle<>& angle) { return tl::fixed_text(angle, tl::units::deg, 1); };
        text += "  " + shown(o.name.empty() ? "object" : o.name) + ": " + in_words(show::height, a.open, m);
        if (a.pressed) { text += ", pressed " + in_words(show::height, *a.pressed, m); }
        text += "; parallel to the strings when it rises " + turn(a.tilt.along) + " deg toward the bridge, " +
                turn(a.tilt.across) + " deg toward the treble.\n";
    }
    return text;
}

/// How tuning one string moves the others through the soundboard, and how many rounds settle.
struct tuning_answer {
    double most_cents = 0; ///< off another string, for a semitone up
    int rounds = 0;        ///< until all are within a cent, from a semitone low
};
inline std::optional<tuning_answer> tuning(const read_job& j, const tl::setup& s) {
    if (!j.found.instrument.soundboard) { return std::nullopt; }
    const std::size_t n = s.strings.size();
    std::vector<double> gains;
    std::vector<tl::stiffness<>> springs;
    std::vector<tl::force<>> tensions;
    std::vector<tl::interval<>> start;
    for (std::size_t i = 0; i < n; ++i) {
        const auto& one = s.strings[i];
        gains.push_back(one.at_saddle.down() / one.tension);
        springs.push_back(tl::axial_stiffness(j.strung.strings[i].string) / one.speaking_length);
        tensions.push_back(one.tension);
        start.push_back(-100 * tl::units::cents);
    }
    tl::string_table<tl::compliance<>> table(n);
    tl::add_shared_give<double>(table, gains, 1.0 / j.found.instrument.soundboard->sink_stiffness);
    const auto coupling = tl::tuning_coupling<double>(table, springs, tensions);
    const auto settled = tl::tuning_passes(coupling, start);
    double worst = 0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < n; ++k) { worst = i == k ? worst : std::min(worst, coupling.at(i, k)); }
    }
    return tuning_answer{-100 * worst, settled.passes};
}

inline std::string settling(const read_job& j, const tl::setup& s) {
    const auto answer = tuning(j, s);
    if (!answer) { return ""; }
    char most[32];
    std::snprintf(most, sizeof most, "%.1f", answer->most_cents);
    return "Tuning\n  Through the soundboard, a string drawn up by a semitone takes up to " + std::string(most) +
           " cents off another; from a semitone low,\n  all are within a cent after " + std::to_string(answer->rounds) +
           " rounds.\n";
}

} // namespace bench_sheet::sections
