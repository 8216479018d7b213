#pragma once
/// @file
/// All results of one setup, part by part: every string over every fret, and the loads on ends, bridge and soundboard.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <tautline/job/end_loads.hpp>
#include <tautline/setup/tightest.hpp>
#include <tautline/setup/tuning_up.hpp>

#include "block.hpp"
#include "measures.hpp"
#include "mistakes.hpp"

namespace bench_sheet {

using namespace job_file;

namespace sections {

inline std::string degrees(const tl::angle<>& a) { return tl::fixed_text(a, tl::units::deg, 1); }
/// The break of a string at a support: negative where it lifts off.
inline std::string break_degrees(const tl::basic_support_load<>& load) {
    return degrees(load.down() < 0 * tl::units::N ? -load.break_angle : load.break_angle);
}

inline std::string cents(const tl::interval<>& i) { return tl::shown_number(i, show::interval.metric, true); }
inline std::string share_of_strength(const tl::string_setup& s) {
    return s.share_of_strength ? std::to_string(std::lround(100 * *s.share_of_strength)) + " %" : "?";
}
inline std::string two_decimals(double v) { return tl::shown_number(v, show::number.metric); }

inline block strings(const tl::job_state& j, measures m) {
    std::vector<std::string> head{"string", "note"};
    add_heads(head, "gauge", show::height, m);
    add_heads(head, "mass", show::mass, m);
    add_heads(head, "tension", show::pull, m);
    add_heads(head, "core", show::load, m);
    head.push_back("of strength");
    block b{"Strings at pitch, A4 = " + tl::fixed_text(j.on.stringing.standard.a4, tl::units::Hz, 1) + " Hz", {head}, {}};
    for (std::size_t i = 0; i < j.is.strings.size(); ++i) {
        const tl::string_setup& one = j.is.strings[i];
        std::vector<std::string> row{j.is.names.number(i), j.is.names.note_of(i)};
        add_cells(row, show::height, one.gauge, m);
        add_cells(row, show::mass, one.mass_per_length, m);
        add_cells(row, show::pull, one.tension, m);
        add_cells(row, show::load, one.core_stress, m);
        row.push_back(share_of_strength(one));
        b.rows.push_back(row);
    }
    b.sentences.push_back({"All strings together pull " + in_words(show::pull, j.is.total_tension, m) + "."});
    return b;
}

inline block neck(const tl::job_state& j, measures m) {
    block b{"Neck under load", {}, {}};
    if (j.is.relief) {
        b.sentences.push_back(
            {"Relief " + in_words(show::height, j.is.relief->gap, m) + " at fret " +
             std::to_string(j.is.relief->index + 1) + ", straightedge on frets 1 and " +
             std::to_string(std::min(j.on.instrument.neck.joint_fret, j.on.instrument.board.scale.frets)) + "."});
    }
    if (j.is.bass_relief && j.is.treble_relief) {
        b.sentences.push_back(
            {"Along the outermost strings, over their own crests: " + in_words(show::height, j.is.bass_relief->gap, m) +
             " under the bass, " + in_words(show::height, j.is.treble_relief->gap, m) + " under the treble."});
    }
    b.sentences.push_back(
        {"The nut rises by " + in_words(show::height, j.is.nut_rise, m) + " from slack, any rod loose, to pitch."});
    return b;
}

/// Heights of all strings over all frets in one unit.
inline block heights(const tl::setup& s, const tl::shown_unit& unit) {
    std::vector<std::string> head{"fret"};
    const measures places = unit.name == show::height.metric.name ? measures::metric : measures::imperial;
    add_heads(head, s.fret_leans.empty() ? "from nut" : "from nut, centre line", show::place, places);
    for (std::size_t i = 0; i < s.strings.size(); ++i) { head.push_back(s.names.label(i)); }
    block b{"Action: open string over each fret, " + std::string(unit.name), {head}, {}};
    for (std::size_t n = 0; n < s.fret_x.size(); ++n) {
        std::vector<std::string> row{std::to_string(n + 1)};
        add_cells(row, show::place, s.fret_x[n], places);
        for (const auto& one : s.strings) { row.push_back(tl::shown_number(one.heights[n], unit)); }
        b.rows.push_back(row);
    }
    return b;
}

inline block clearances(const tl::setup& s, measures m) {
    if (s.fret_x.empty()) { return {}; }
    std::vector<std::string> head{"string", "note", "pressed at"};
    add_heads(head, "clears", show::height, m);
    head.push_back("over fret");
    head.push_back("hardest clean pluck at");
    add_heads(head, "", show::pull, m);
    block b{"Tightest place of each string", {head}, {}};
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto pressed_at = [](std::size_t n) { return n == 0 ? "open" : "fret " + std::to_string(n); };
        const tl::string_setup& one = s.strings[i];
        const std::size_t pressed = *tl::tightest(one), plucked = *tl::soonest_to_buzz(one);
        std::vector<std::string> row{s.names.number(i), s.names.note_of(i), pressed_at(pressed)};
        add_cells(row, show::height, one.clearances[pressed].gap, m);
        row.push_back(std::to_string(one.clearances[pressed].fret_number()));
        row.push_back(pressed_at(plucked));
        add_cells(row, show::pull, one.plucks[plucked].pull, m);
        b.rows.push_back(row);
    }
    return b;
}

inline block ends(const tl::job_state& j, measures m) {
    std::vector<std::string> head{"string", "note", "saddle break deg"};
    add_heads(head, "down-force", show::pull, m);
    head.insert(head.end(), {"nut break deg", "to the side"});
    add_heads(head, "seating", show::pull, m);
    head.push_back("slot floor falls");
    const bool guided = std::any_of(j.is.strings.begin(), j.is.strings.end(), [](const auto& s) { return s.at_guide; });
    if (guided) {
        head.push_back("guide break deg");
        add_heads(head, "on guide", show::pull, m);
    }
    block b{"Saddle and nut", {head}, {}};
    for (std::size_t i = 0; i < j.is.strings.size(); ++i) {
        const auto& one = j.is.strings[i];
        std::vector<std::string> row{j.is.names.number(i), j.is.names.note_of(i), break_degrees(one.at_saddle)};
        add_cells(row, show::pull, one.at_saddle.down(), m);
        row.insert(row.end(), {break_degrees(one.at_nut), degrees(one.at_nut.side_angle)});
        add_cells(row, show::pull, one.at_nut.down(), m);
        const auto floor =
            tl::nut_slot_floor(j.is.bridge_strings[i].slot, j.is.bridge_strings[i].saddle, j.is.behind_nut[i]);
        row.push_back(floor.possible() ? degrees(floor.least) + "-" + degrees(floor.most) : "none");
        if (guided) {
            row.push_back(one.at_guide ? degrees(one.at_guide->break_angle) : "");
            add_cells(row, show::pull,
                      one.at_guide ? tl::any_quantity(one.at_guide->on_support.size()) : tl::any_quantity(), m);
        }
        b.rows.push_back(row);
    }
    for (const std::string& sentence : tl::end_loads_in_words(j, m)) { b.sentences.push_back({sentence}); }
    return b;
}

inline std::string inside(const tl::length<>& margin, measures m) {
    return in_words(show::height, tl::abs(margin), m) + (margin < 0 * tl::units::mm ? " outside" : " inside");
}
/// The loads on the bridge and the soundboard. A floating bridge stands on its feet, a pinned one is glued.
inline block bridge(const tl::job_state& j, measures m) {
    block all{"Bridge and soundboard", {}, {}};
    const auto say = [&](std::string sentence) { all.sentences.push_back({std::move(sentence)}); };
    if (j.is.standing) {
        const auto& b = *j.is.standing;
        say("Feet: " + in_words(show::pull, b.even.bass_load, m) + " on the bass foot, " +
            in_words(show::pull, b.even.treble_load, m) + " on the treble foot.");
        const tl::length<> even = std::min(b.even.front_margin, b.even.back_margin), worst = b.tip_margin();
        say("Tipping: the pull falls " + inside(even, m) + " the feet's edges; with the most friction on the saddle, " +
            inside(worst, m) + ".");
        say("Sliding: the feet need a friction of " + two_decimals(b.even.friction_needed) +
            "; with the most friction on the saddle, " + two_decimals(b.friction_needed()) + ". They have at least " +
            two_decimals(j.on.instrument.feet->friction.least) + ".");
        say("Best lean: " + degrees(tl::abs(b.even.best_lean)) + " deg " +
            (b.even.best_lean < 0 * tl::units::rad ? "toward the nut" : "toward the tail") +
            " from square to the soundboard.");
    }
    if (j.is.pinned) {
        say("The strings turn the bridge toward the nut with " + in_words(show::turning, j.is.pinned->turning, m) +
            " and shear its glue with " + in_words(show::pull, j.is.pinned->shear, m) + ".");
        say("The saddle is pushed toward the nut with " + in_words(show::pull, j.is.pinned->saddle_push, m) +
            "; leaning back by " + degrees(j.is.pinned->saddle_lean) + " deg it would not be.");
    }
    if (j.is.top) {
        const auto moves = [&](const tl::length<>& down, const char* falls, const char* comes_up) {
            return (down < 0 * tl::units::mm ? comes_up : falls) + (" by " + in_words(show::height, tl::abs(down), m));
        };
        say("The soundboard " + moves(j.is.top->sink, "sinks", "rises") + ", the saddle " +
            moves(j.is.top->drop, "drops", "rises") + ".");
    }
    return all;
}

/// The frets of the intonation table.
inline constexpr std::array intonation_frets{1, 3, 5, 7, 9, 12, 15, 19};

inline block intonation(const tl::job_state& j, measures m) {
    if (j.is.fret_x.empty()) { return {}; }
    std::vector<std::string> head{"string", "note"};
    for (const int n : intonation_frets) {
        if (static_cast<std::size_t>(n) <= j.is.fret_x.size()) { head.push_back("fret " + std::to_string(n)); }
    }
    add_heads(head, "saddle back", show::height, m);
    add_heads(head, "or back", show::height, m);
    add_heads(head, "and nut in", show::height, m);
    head.push_back("nut may hold");
    block b{"Intonation: cents off when pressed (+ sharp), open string in tune; saddle back for the octave fret,\n"
            "or saddle back and nut in toward it for the first octave as a whole;\n"
            "how far friction in the nut may hold the pitch back, least to most, before it slips",
            {head},
            {}};
    for (std::size_t i = 0; i < j.is.strings.size(); ++i) {
        const auto& one = j.is.strings[i];
        std::vector<std::string> row{j.is.names.number(i), j.is.names.note_of(i)};
        for (const int n : intonation_frets) {
            if (static_cast<std::size_t>(n) > j.is.fret_x.size()) { continue; }
            row.push_back(cents(one.notes[static_cast<std::size_t>(n - 1)].error));
        }
        const auto both = tl::both_ends_moved(j.on, j.is, i);
        const auto cells = [&](const auto& q) {
            add_cells(row, show::height, q ? tl::any_quantity(*q) : tl::any_quantity(), m);
        };
        cells(one.octave_setback);
        for (const auto end : {&tl::moved_ends::setback, &tl::moved_ends::nut_advance}) {
            cells(both ? std::optional((*both).*end) : std::nullopt);
        }
        row.push_back(std::to_string(std::lround(one.nut_dead_band.least.cents())) + "-" +
                      std::to_string(std::lround(one.nut_dead_band.most.cents())));
        b.rows.push_back(row);
    }
    if (j.is.straight_saddle) {
        const auto& saddle = *j.is.straight_saddle;
        // How far behind the uncompensated line under a string.
        const auto back = [&](const tl::string_setup& one) {
            return tl::length<>(saddle.at(one.y_at_saddle) - tl::saddle_line_at(j.on.instrument, one.y_at_saddle));
        };
        b.sentences.push_back(
            {"One straight saddle would stand " + in_words(show::height, back(j.is.strings.front()), m) +
             (j.on.instrument.board.scale.fan ? " along the centre line behind the line between both scales' ends"
                                              : " beyond the scale length") +
             " at the outermost bass string and " + in_words(show::height, back(j.is.strings.back()), m) +
             " at the outermost treble string."});
    }
    return b;
}

inline constexpr const char* objects_heading = "Under the strings: least clearance, open and pressed at the last fret";
inline std::vector<std::string> object_sentences(const tl::job_state& j, measures m) {
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < j.objects.size(); ++i) {
        const tl::named_object& o = j.objects[i];
        const tl::object_seat& a = j.seats[i];
        std::string line = shown(o.name.empty() ? "object" : o.name) + ": " + in_words(show::height, a.open, m);
        if (a.pressed) { line += ", pressed " + in_words(show::height, *a.pressed, m); }
        sentences.push_back(line + "; parallel to the strings when it rises " + degrees(a.along) +
                            " deg toward the bridge, " + degrees(a.across) + " deg toward the treble.");
    }
    return sentences;
}
inline std::string objects(const tl::job_state& j, measures m) {
    std::string text;
    for (const std::string& sentence : object_sentences(j, m)) { text += wrapped(sentence, 2); }
    return text.empty() ? text : std::string(objects_heading) + "\n" + text;
}

/// The effect of tuning one string on the others, through the soundboard alone.
inline block settling(const tl::job_state& j) {
    const auto answer = tl::tuning_up_of(j.on, j.is);
    if (!answer) { return {}; }
    return {"Tuning",
            {},
            {{"Through the soundboard alone, without the neck's bow, a string drawn up by a semitone takes up to " +
              tl::shown_number(answer->most_moved, show::interval.metric) +
              " cents off another; from a semitone low,\nall are within a cent after " + std::to_string(answer->rounds) +
              " rounds as far as that moves them."}}};
}

} // namespace sections

/// The parts of a setup in order, without the objects under the strings. A line break in a heading or a sentence is that
/// of a terminal.
inline std::vector<block> detail_blocks(const tl::job_state& j, measures m) {
    std::vector<block> all{sections::strings(j, m), sections::neck(j, m)};
    show::height.each(m, [&](const auto& unit) { all.push_back(sections::heights(j.is, unit)); });
    for (block& b : std::vector<block>{sections::clearances(j.is, m), sections::intonation(j, m), sections::ends(j, m),
                                       sections::bridge(j, m), sections::settling(j)}) {
        if (!b.empty()) { all.push_back(std::move(b)); }
    }
    return all;
}

/// All parts of a setup as text.
inline std::string detail(const tl::job_state& j, measures m) {
    std::string text;
    for (const block& b : detail_blocks(j, m)) {
        text += b.heading + "\n" + table_text(b.rows);
        for (const block_sentence& s : b.sentences) {
            text += "  ";
            for (const char c : s.words) { text += c == '\n' ? "\n  " : std::string(1, c); }
            text += "\n";
        }
        text += "\n";
    }
    const std::string objects = sections::objects(j, m);
    return objects.empty() ? text : text + objects + "\n";
}

} // namespace bench_sheet
