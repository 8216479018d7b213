#pragma once
/// @file
/// The bench sheet as text: one page a repairer takes to the bench.

#include <array>
#include <string>

#include "doubts.hpp"
#include "job.hpp"
#include "measures.hpp"
#include "planning.hpp"
#include "text_table.hpp"

namespace bench_sheet {

/// The cautions that every sheet carries.
inline constexpr std::string_view cautions =
    "Cautions\n"
    "  A string at pitch can cut and can take an eye: slacken before working, wear eye protection.\n"
    "  Old necks, tops and joints can fail at tensions they once bore. Dust of hard tropical woods, shell\n"
    "  and metal, solvents and cyanoacrylate need extraction, gloves and air. Loads are estimates from\n"
    "  measurements: where a failure would hurt someone or spoil an instrument of value, a qualified\n"
    "  repairer decides.\n";

namespace sections {

inline std::string degrees(const tl::angle<>& a) { return tl::fixed_text(a, tl::units::deg, 1); }

inline std::string cents(const tl::interval<>& i) {
    // Adding zero turns a minus zero into zero.
    char buffer[32];
    std::snprintf(buffer, sizeof buffer, "%+.1f", std::round(10 * i.cents()) / 10 + 0.0);
    return buffer;
}

inline std::string strings(const read_job& j, const tl::setup& s, measures m) {
    std::vector<std::string> head{"string", "note"};
    add_heads(head, "gauge", show::height, m);
    add_heads(head, "mass", show::mass, m);
    add_heads(head, "tension", show::pull, m);
    add_heads(head, "core", show::load, m);
    head.push_back("of strength");
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const tl::string_setup& one = s.strings[i];
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch)};
        add_cells(row, show::height, one.gauge, m);
        add_cells(row, show::mass, one.mass_per_length, m);
        add_cells(row, show::pull, one.tension, m);
        add_cells(row, show::load, one.core_stress, m);
        row.push_back(one.share_of_strength ? std::to_string(std::lround(100 * *one.share_of_strength)) + " %" : "?");
        table.row(row);
    }
    return "Strings at pitch, A4 = " + tl::fixed_text(j.strung.standard.a4, tl::units::Hz, 1) + " Hz\n" + table.text() +
           "  All strings together pull " + in_words(show::pull, s.total_tension, m) + ".\n";
}

inline std::string neck(const read_job& j, const tl::setup& s, measures m) {
    std::string text = "Neck under load\n";
    if (s.relief) {
        text += "  Relief " + in_words(show::height, s.relief->gap, m) + " at fret " + std::to_string(s.relief->index + 1) +
                ", straightedge on frets 1 and " +
                std::to_string(std::min(j.found.instrument.neck.joint_fret, j.found.instrument.board.scale.frets)) + ".\n";
    }
    return text + "  The nut rises by " + in_words(show::height, s.nut_rise, m) + " from slack to pitch.\n";
}

/// Heights of all strings over all frets in one unit.
inline std::string heights(const read_job& j, const tl::setup& s, const column_unit<tl::unit::length>& unit) {
    std::vector<std::string> head{"fret"};
    add_heads(head, "from nut", show::place, unit.name == show::height.metric.name ? measures::metric : measures::imperial);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        head.push_back(std::to_string(i + 1) + " " + tl::name_of(j.strung.strings[i].pitch));
    }
    text_table table(head);
    for (std::size_t n = 0; n < s.fret_x.size(); ++n) {
        std::vector<std::string> row{std::to_string(n + 1)};
        add_cells(row, show::place, s.fret_x[n],
                  unit.name == show::height.metric.name ? measures::metric : measures::imperial);
        for (const auto& one : s.strings) { row.push_back(tl::fixed_text(one.heights[n], unit.tag, unit.decimals)); }
        table.row(row);
    }
    return "Action: open string over each fret, " + std::string(unit.name) + "\n" + table.text();
}

inline std::string clearances(const read_job& j, const tl::setup& s, measures m) {
    if (s.fret_x.empty()) { return ""; }
    std::vector<std::string> head{"string", "note", "pressed at"};
    add_heads(head, "clears", show::height, m);
    head.push_back("over fret");
    head.push_back("hardest clean pluck at");
    add_heads(head, "", show::pull, m);
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& gaps = s.strings[i].clearances;
        const auto least =
            std::min_element(gaps.begin(), gaps.end(), [](const auto& a, const auto& b) { return a.gap < b.gap; });
        const auto pressed = least - gaps.begin();
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch),
                                     pressed == 0 ? "open" : "fret " + std::to_string(pressed)};
        add_cells(row, show::height, least->gap, m);
        row.push_back(std::to_string(least->fret_number()));
        const auto& plucks = s.strings[i].plucks;
        const auto softest =
            std::min_element(plucks.begin(), plucks.end(), [](const auto& a, const auto& b) { return a.pull < b.pull; });
        row.push_back(softest == plucks.begin() ? "open" : "fret " + std::to_string(softest - plucks.begin()));
        add_cells(row, show::pull, softest->pull, m);
        table.row(row);
    }
    return "Tightest place of each string\n" + table.text();
}

inline std::string ends(const read_job& j, const tl::setup& s, measures m) {
    std::vector<std::string> head{"string", "note", "saddle break deg"};
    add_heads(head, "down-force", show::pull, m);
    head.push_back("nut break deg");
    head.push_back("to the side");
    add_heads(head, "seating", show::pull, m);
    head.push_back("slot floor falls");
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch),
                                     degrees(one.at_saddle.break_angle)};
        add_cells(row, show::pull, one.at_saddle.down(), m);
        row.push_back(degrees(one.at_nut.break_angle));
        row.push_back(degrees(one.at_nut.side_angle));
        add_cells(row, show::pull, one.at_nut.down(), m);
        const auto floor = tl::nut_slot_floor(s.bridge_strings[i].slot, s.bridge_strings[i].saddle,
                                              tl::post_point(j.found.instrument.headstock, j.found.instrument.posts[i]));
        row.push_back(floor.possible() ? degrees(floor.least) + "-" + degrees(floor.most) : "none");
        table.row(row);
    }
    std::string text = "Saddle and nut\n" + table.text() + "  All strings together press the saddle down with " +
                       in_words(show::pull, s.down_force, m) + " and push it toward the " +
                       (s.push_along < 0 * tl::units::N ? "nut" : "tail") + " with " +
                       in_words(show::pull, tl::abs(s.push_along), m) + ".\n";
    if (s.tailpiece_rise) {
        text += "  The tailpiece stands at " + degrees(*s.tailpiece_rise) + " deg above the soundboard's plane.\n";
    }
    if (s.line_at_saddle) {
        text += "  A straightedge along the frets passes " + in_words(show::place, *s.line_at_saddle, m) +
                " over the soundboard at the saddle.\n";
    }
    const auto body = tl::section_load<double>(s.bridge_strings, s.beam.joint, tl::length<>());
    text += "  Slot floors fall toward the head by so many degrees, for the string to leave at the front edge and bear on "
            "more than it.\n";
    text += "  At the joint the strings press along with " + in_words(show::pull, body.compression, m) + " and bend with " +
            in_words(show::turning, body.bending, m) + " about the board's own line.\n";
    return text + "  The anchors behind the saddle bear " + in_words(show::pull, s.anchor_pull.size(), m) + ".\n";
}

inline std::string inside(const tl::length<>& margin, measures m) {
    return in_words(show::height, tl::abs(margin), m) + (margin < 0 * tl::units::mm ? " outside" : " inside");
}
inline std::string two_decimals(double v) {
    char buffer[32];
    std::snprintf(buffer, sizeof buffer, "%.2f", v);
    return buffer;
}

/// How the bridge bears it: a floating bridge on its feet, or a pinned one on its glue; and the soundboard under it.
inline std::string bridge(const read_job& j, const tl::setup& s, measures m) {
    std::string text;
    if (s.standing) {
        const auto& b = *s.standing;
        text += "  Feet: " + in_words(show::pull, b.even.bass_load, m) + " on the bass foot, " +
                in_words(show::pull, b.even.treble_load, m) + " on the treble foot.\n";
        const tl::length<> even = std::min(b.even.front_margin, b.even.back_margin), worst = b.tip_margin();
        text += "  Tipping: the pull falls " + inside(even, m) +
                " the feet's edges; with the most friction on the saddle, " + inside(worst, m) + ".\n";
        text += "  Sliding: the feet need a friction of " + two_decimals(b.even.friction_needed) +
                "; with the most friction on the saddle, " + two_decimals(b.friction_needed()) + ". They have at least " +
                two_decimals(j.found.instrument.feet->friction.least) + ".\n";
        text += "  Best lean: " + degrees(tl::abs(b.even.best_lean)) + " deg " +
                (b.even.best_lean < 0 * tl::units::rad ? "toward the nut" : "toward the tail") +
                " from square to the soundboard.\n";
    }
    if (s.pinned) {
        text += "  The strings turn the bridge toward the nut with " + in_words(show::turning, s.pinned->turning, m) +
                " and shear its glue with " + in_words(show::pull, s.pinned->shear, m) + ".\n";
        text += "  The saddle is pushed toward the nut with " + in_words(show::pull, s.pinned->saddle_push, m) +
                "; leaning back by " + degrees(s.pinned->saddle_lean) + " deg it would not be.\n";
    }
    if (s.top) {
        text += "  The soundboard sinks by " + in_words(show::height, s.top->sink, m) + ", the saddle drops by " +
                in_words(show::height, s.top->drop, m) + ".\n";
    }
    return text.empty() ? text : "Bridge and soundboard\n" + text;
}

/// The frets that the intonation table shows.
inline constexpr std::array intonation_frets{1, 3, 5, 7, 9, 12, 15, 19};

/// Saddle and nut moved together for the least error over the first octave.
inline std::optional<tl::compensation> both_ends(const read_job& j, const tl::setup& s, std::size_t i) {
    const tl::instrument& built = j.found.instrument;
    const auto last = std::min(s.fret_x.size(), static_cast<std::size_t>(built.board.scale.steps));
    if (last < 2) { return std::nullopt; }
    const auto sounds = tl::kernel::sounding(built, j.strung.strings[i].string, s.strings[i]);
    return tl::compensation_over<double>(sounds, s.strings[i].line, built.playing.finger, s.fret_x, s.strings[i].crest_z, 1,
                                         last, true, built.board.scale.steps);
}

inline std::string intonation(const read_job& j, const tl::setup& s, measures m) {
    if (s.fret_x.empty()) { return ""; }
    std::vector<std::string> head{"string", "note"};
    for (const int n : intonation_frets) {
        if (static_cast<std::size_t>(n) <= s.fret_x.size()) { head.push_back("fret " + std::to_string(n)); }
    }
    add_heads(head, "saddle back", show::height, m);
    add_heads(head, "or back", show::height, m);
    add_heads(head, "and nut in", show::height, m);
    head.push_back("nut may hold");
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        std::vector<std::string> row{std::to_string(i + 1), tl::name_of(j.strung.strings[i].pitch)};
        for (const int n : intonation_frets) {
            if (static_cast<std::size_t>(n) > s.fret_x.size()) { continue; }
            row.push_back(cents(one.notes[static_cast<std::size_t>(n - 1)].error));
        }
        show::height.each(m, [&](const auto& unit) {
            row.push_back(one.octave_setback ? tl::fixed_text(*one.octave_setback, unit.tag, unit.decimals) : "-");
        });
        const auto both = both_ends(j, s, i);
        for (const auto end : {&tl::compensation::setback, &tl::compensation::nut_advance}) {
            show::height.each(m, [&](const auto& unit) {
                row.push_back(both ? tl::fixed_text((*both).*end, unit.tag, unit.decimals) : "-");
            });
        }
        row.push_back(std::to_string(std::lround(one.nut_dead_band.least.cents())) + "-" +
                      std::to_string(std::lround(one.nut_dead_band.most.cents())));
        table.row(row);
    }
    std::string text =
        "Intonation: cents off when pressed (+ sharp), open string in tune; saddle back for the octave fret,\n"
        "or saddle back and nut in toward it for the first octave as a whole;\n"
        "how far friction in the nut may hold the pitch back, least to most, before it slips\n" +
        table.text();
    if (s.straight_saddle) {
        const auto& saddle = *s.straight_saddle;
        const tl::length<> nominal = j.found.instrument.board.scale.scale_length;
        text += "  One straight saddle would stand " +
                in_words(show::height, saddle.at(s.strings.front().y_at_saddle) - nominal, m) +
                " beyond the scale length at string 1 and " +
                in_words(show::height, saddle.at(s.strings.back().y_at_saddle) - nominal, m) + " at string " +
                std::to_string(s.strings.size()) + ".\n";
    }
    return text;
}

inline std::string findings(const tl::setup& s) {
    std::string text = "Findings\n";
    for (const tl::finding& f : s.findings) {
        const char* mark = f.severity == tl::severity::stop      ? "STOP"
                           : f.severity == tl::severity::warning ? "warning"
                                                                 : "note";
        text += "  " + std::string(mark) + ": " + f.sentence + "\n";
    }
    return s.findings.empty() ? text + "  Nothing out of range.\n" : text;
}

} // namespace sections

/// The whole sheet.
inline std::string sheet(const read_job& j, const tl::setup& s, measures m) {
    std::string text = (j.found.title.empty() ? "Untitled instrument" : shown(j.found.title)) + "\n\n";
    text += sections::strings(j, s, m) + "\n" + sections::neck(j, s, m) + "\n";
    show::height.each(m, [&](const auto& unit) { text += sections::heights(j, s, unit) + "\n"; });
    for (const auto& part : {sections::clearances(j, s, m), sections::intonation(j, s, m), sections::ends(j, s, m),
                             sections::bridge(j, s, m), sections::settling(j, s), sections::objects(j, s, m),
                             sections::wanted(j, s, m), doubt_section(j, s, m), sections::findings(s)}) {
        if (!part.empty()) { text += part + "\n"; }
    }
    return text + std::string(cautions);
}

} // namespace bench_sheet
