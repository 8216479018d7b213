#pragma once
/// @file
/// The sheet's answers to what a job asks for: slots and saddle for wanted heights, neck reset, objects under the strings,
/// and how a tuning settles.

#include <tautline/action/coupling.hpp>
#include <tautline/action/neck_set.hpp>
#include <tautline/action/saddle_arc.hpp>

#include "job.hpp"
#include "measures.hpp"
#include "text_table.hpp"

namespace bench_sheet::sections {

/// A change as the bench does it: "+0.12", down is minus.
inline std::string signed_text(const tl::length<>& q, const column_unit<tl::unit::length>& unit) {
    const std::string text = tl::fixed_text(q, unit.tag, unit.decimals);
    return text.front() == '-' || text.find_first_not_of("0.") == std::string::npos ? text : "+" + text;
}

/// Slots and saddle for the wanted heights, the neck as it bows now: a lower saddle pulls a little less, so look again at
/// the solved setup afterwards.
inline std::string wanted(const read_job& j, const tl::setup& s, measures m) {
    if (!j.found.wanted) { return ""; }
    const wanted_heights& w = *j.found.wanted;
    const auto fret = static_cast<std::size_t>(w.action_fret);
    std::vector<std::string> head{"string", "note"};
    add_heads(head, "slot by", show::height, m);
    add_heads(head, "saddle by", show::height, m);
    add_heads(head, "saddle stands", show::place, m);
    text_table table(head);
    std::vector<tl::length<>> y, z;
    tl::length<> points_at{};
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const tl::string_setup& one = s.strings[i];
        const tl::length<> spread = s.strings.back().y_at_nut - s.strings.front().y_at_nut;
        const double t = spread.value() > 0 ? tl::ratio(one.y_at_nut - s.strings.front().y_at_nut, spread) : 0.0;
        const tl::height_wish first{s.fret_x[0], one.crest_z[0],
                                    w.first_fret_bass + (w.first_fret_treble - w.first_fret_bass) * t};
        const tl::height_wish action{s.fret_x[fret - 1], one.crest_z[fret - 1],
                                     w.action_bass + (w.action_treble - w.action_bass) * t};
        const auto plan = tl::plan_heights(one.line, first, action, one.gauge);
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch)};
        show::height.each(m, [&](const auto& unit) { row.push_back(signed_text(plan.slot_change, unit)); });
        show::height.each(m, [&](const auto& unit) { row.push_back(signed_text(plan.saddle_change, unit)); });
        add_cells(row, show::place, plan.line.saddle_z + j.found.instrument.saddle.board_line, m);
        table.row(row);
        y.push_back(one.y_at_saddle);
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
    return text;
}

inline std::string objects(const read_job& j, const tl::setup& s, measures m) {
    if (j.found.objects.empty()) { return ""; }
    std::string text = "Under the strings: least clearance, open and pressed at the last fret\n";
    std::vector<tl::string_line> lines;
    for (const auto& one : s.strings) { lines.push_back(one.line); }
    for (const named_object& o : j.found.objects) {
        tl::length<> open = 1 * tl::units::metre, pressed = open;
        for (const auto& one : s.strings) {
            open = std::min(open, tl::object_clearance(o.shape, one.line).least());
            if (!s.fret_x.empty()) {
                const auto line = tl::pressed_line<double>(one.line, s.fret_x.back(), one.crest_z.back());
                pressed = std::min(pressed, tl::object_clearance(o.shape, line).least());
            }
        }
        const auto tilt = tl::parallel_tilt<double>(o.shape, lines);
        const auto turn = [](const tl::angle<>& a) { return tl::fixed_text(a, tl::units::deg, 1); };
        text += "  " + shown(o.name.empty() ? "object" : o.name) + ": " + in_words(show::height, open, m);
        if (!s.fret_x.empty()) { text += ", pressed " + in_words(show::height, pressed, m); }
        text += "; parallel to the strings when it rises " + turn(tilt.along) + " deg toward the bridge, " +
                turn(tilt.across) + " deg toward the treble.\n";
    }
    return text;
}

/// How tuning one string moves the others through the soundboard, and how many rounds settle.
inline std::string settling(const read_job& j, const tl::setup& s) {
    if (!j.found.instrument.soundboard) { return ""; }
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
    char most[32];
    std::snprintf(most, sizeof most, "%.1f", -100 * worst);
    return "Tuning\n  Through the soundboard, a string drawn up by a semitone takes up to " + std::string(most) +
           " cents off another; from a semitone low,\n  all are within a cent after " + std::to_string(settled.passes) +
           " rounds.\n";
}

} // namespace bench_sheet::sections
