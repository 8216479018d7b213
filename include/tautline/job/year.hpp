#pragma once
/// @file
/// What the season does to the instrument at the end of a job. It tells relief, heights, the least clearance and fret ends
/// as measured and at the dry and the damp end of the year, and what holds now but not then.

#include <algorithm>
#include <cmath>

#include "../core/when_used.hpp"
#include "../doubt/uncertainty.hpp"
#include "../setup/fret_overhang.hpp"
#include "../setup/tightest.hpp"
#include "compare.hpp"
#include "known_season.hpp"
#include "year_wishes.hpp"

namespace tautline {

/// Where a string has least room.
struct year_place {
    std::size_t string_index = 0; ///< index of its string, bass first, from 0
    int pressed = 0;              ///< fret it is pressed at; 0 is open
    int fret = 0;                 ///< fret that it comes nearest to, counted from 1
};

/// One result through the year.
struct year_line {
    /// Path of the result; "least_clearance" for the least of all strings, "fret_ends" for what stands out of the board.
    std::string path{};
    std::string words{};                  ///< what it is, in words
    std::array<any_quantity, 3> values{}; ///< in the air it was measured in, in the dry, and in the damp
    /// Give or take at the dry and the damp end, at about 95 %, from the doubt of what 1 % of moisture does. Absent where
    /// that is not doubted.
    std::array<any_quantity, 2> give_or_take{};
    /// Where the least clearance is, in each air, since the season may move it to another string or fret. Absent for
    /// other results.
    std::array<std::optional<year_place>, 3> places{};
};

/// An instrument's year.
struct job_year {
    std::array<double, 3> gained{};      ///< moisture in per cent beyond that of the measured state
    known_season known{};                ///< what 1 % of moisture does
    std::vector<year_line> lines{};      ///< relief, the outer strings' heights, the least clearance, fret ends
    std::vector<year_miss> misses{};     ///< wishes and clearances that hold now but not at the ends of the year
    std::vector<std::string> cautions{}; ///< cautions without numbers, in sentences; job/year_words.hpp tells the others
};

namespace kernel {

/// The results that are told through the year.
template <class = when_used>
[[nodiscard]] std::vector<std::string> seasonal_results(const setup& s) {
    std::vector<std::string> paths;
    if (s.relief) { paths.emplace_back("relief.gap"); }
    const std::size_t last = s.strings.size() - 1, frets = s.fret_x.size();
    if (frets == 0) { return paths; }
    const std::size_t over = std::min<std::size_t>(12, frets) - 1;
    for (const std::size_t i : {last, std::size_t{0}}) {
        std::string height = messages::joined({messages::path_of("strings", i), ".", messages::path_of("heights", over)});
        if (paths.empty() || paths.back() != height) { paths.push_back(std::move(height)); }
    }
    return paths;
}

/// Tells fret ends through the year, and whether a hand feels them.
template <class = when_used>
void tell_fret_ends(const board& b, const season& year, job_year& told) {
    if (b.scale.frets == 0) { return; }
    year_line line{"fret_ends", "fret ends stand out, each side, at most", {}, {}, {}};
    const basic_climate<double>* const airs[] = {&year.measured_in, &year.dry, &year.damp};
    const auto widest = [&](double share, const climate& air) {
        const auto ends = fret_overhang_in(b, std::clamp(share, 0.0, 0.01), year.measured_in, air);
        return abs(ends.at_nut) < abs(ends.at_end) ? ends.at_end : ends.at_nut;
    };
    const auto& across = told.known.across;
    const double doubt = coverage_factor * across.standard;
    for (std::size_t k = 0; k < 3; ++k) {
        const length<> out = k == 0 ? length<>() : widest(across.share, *airs[k]);
        line.values[k] = any_quantity(out);
        if (k > 0 && doubt > 0) {
            // In proportion to the share: its doubt moves the ends by the same proportion.
            line.give_or_take[k - 1] = any_quantity(length<>(abs(out) * (doubt / across.share)));
        }
    }
    const double out = line.values[1].si(), may = line.give_or_take[0].has_value() ? line.give_or_take[0].si() : 0;
    told.lines.push_back(line);
    if (out + may < overhang_felt) { return; }
    if (!told.known.across_measured) {
        told.cautions.emplace_back(
            told.known.across.by_name ? "How the board grows across its grain is taken from its wood's name, its rings "
                                        "upright or flat: season.across "
                                        "tells it."
            : told.known.wood_named
                ? "How the board grows across its grain is not known, also not from its wood's name: season.across tells "
                  "it."
                : "How the board grows across its grain is not known: season.across or the name of its wood tells it.");
    }
}

/// Setups at one end of the year, with each coefficient at either end of its doubt.
template <class = when_used>
[[nodiscard]] std::vector<setup> may_be_at_end(const strung_instrument& on, const known_season& known, double gained) {
    std::vector<setup> all;
    for (const double way : {-1.0, 1.0}) {
        const double by = way * coverage_factor;
        if (known.bow_standard > 0) { all.push_back(solve(moistened(on, known.moved(by, 0), gained))); }
        if (known.top_standard > 0) { all.push_back(solve(moistened(on, known.moved(0, by), gained))); }
    }
    return all;
}

/// The least clearance of all strings, in metres, and where it is.
struct least_room {
    double gap = 0;
    year_place at{};
};
/// The least clearance of a setup; nothing on a board without frets. Of equal places the bass-most counts, there the one
/// nearest to the nut.
template <class = when_used>
[[nodiscard]] std::optional<least_room> least_room_of(const setup& s) {
    std::optional<least_room> least;
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto pressed = tightest(s.strings[i]);
        if (!pressed) { continue; }
        const auto& c = s.strings[i].clearances[*pressed];
        if (least && !(c.gap.value() < least->gap)) { continue; }
        least = {c.gap.value(), {i, static_cast<int>(*pressed), c.fret_number()}};
    }
    return least;
}

/// Tells the least clearance through the year. A bow that takes room from one fret gives it to another, so the least may
/// fall whichever way a coefficient is off. Its give or take is the further of both ways, those of several coefficients
/// summed as squares.
/// @param may setups at the dry and at the damp end, as `may_be_at_end` orders them
template <class = when_used>
void tell_least_clearance(const setups_of_year& all, const std::array<std::vector<setup>, 2>& may, job_year& told) {
    year_line line{"least_clearance", "least clearance of any string", {}, {}, {}};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto least = least_room_of(all.each[k]);
        if (!least) { return; }
        line.values[k] = any_quantity(length<>::from_value(least->gap));
        line.places[k] = least->at;
        if (k == 0 || may[k - 1].empty()) { continue; }
        const std::size_t half = may[k - 1].size() / 2;
        const auto moved = [&](std::size_t of) { return std::abs(least_room_of(may[k - 1][of])->gap - least->gap); };
        double squares = 0;
        for (std::size_t c = 0; c < half; ++c) {
            const double by = std::max(moved(c), moved(c + half));
            squares += by * by;
        }
        line.give_or_take[k - 1] = any_quantity(length<>::from_value(std::sqrt(squares)));
    }
    told.lines.push_back(std::move(line));
}

} // namespace kernel

/// The place in words, for a table: "4b G2, open, 1", or "4b G2, 5, 9" where it is pressed at fret 5 and nearest to 9.
[[nodiscard]] inline std::string words_of(const year_place& at, const string_names& names) {
    const std::string pressed = at.pressed == 0 ? "open" : messages::joined({at.pressed});
    return messages::joined({names.label(at.string_index), ", ", pressed, ", ", at.fret});
}

/// The year of the instrument at the end of a job; nothing where no season is noted. Wishes of the plan, and whether
/// strings clear the frets, are checked in all three airs.
/// @param read outcome of the readings, some of which may be in other airs; null: no readings
/// @throws invalid_input where the instrument cannot stand at one end of the year
template <class = when_used>
[[nodiscard]] std::optional<job_year> year_of(const bench_job& j, const job_setups& s, const job_readings* read = nullptr) {
    if (!j.season) { return std::nullopt; }
    season year = j.season->season();
    const strung_instrument& on = s.last_strung();
    if (on.instrument.body_bridge && j.season->top) {
        require_that(j.season->top->value() == 0, "season.top",
                     "must be 0 on a solid body, or left out: it has no top that rises");
    }
    const known_season known = season_known(j, *j.season, on.instrument.neck, read);
    year.response = known.response;
    const setups_of_year all = through_the_year(on, year);
    job_year told;
    told.gained = all.gained;
    told.known = known;
    const std::array may{kernel::may_be_at_end(on, known, all.gained[1]), kernel::may_be_at_end(on, known, all.gained[2])};
    for (const std::string& path : kernel::seasonal_results(all.each[0])) {
        year_line line{path,
                       words_for(path, all.each[0].names),
                       {get(all.each[0], path), get(all.each[1], path), get(all.each[2], path)},
                       {},
                       {}};
        for (std::size_t end = 0; end < 2 && !may[end].empty(); ++end) {
            // Half of what each coefficient does from one end of its doubt to the other, summed as squares.
            double squares = 0;
            const std::size_t half = may[end].size() / 2;
            for (std::size_t k = 0; k < half; ++k) {
                const double d = (get(may[end][k + half], path).si() - get(may[end][k], path).si()) / 2;
                squares += d * d;
            }
            line.give_or_take[end] = any_quantity::of(line.values[0].kind(), std::sqrt(squares));
        }
        told.lines.push_back(std::move(line));
    }
    for (std::size_t end = 1; end < 3; ++end) {
        year_end at{end, all.each[end], {}};
        for (const setup& m : may[end - 1]) { at.may.push_back(&m); }
        if (s.planned && j.wanted) { kernel::find_missed_wishes(*j.wanted, s.plan, at, told.misses); }
        kernel::find_touches(all.each[0], at, told.misses);
        if (all.each[end].board_relief && all.each[0].board_relief && all.each[end].board_relief->gap < length<>() &&
            !(all.each[0].board_relief->gap < length<>())) {
            told.cautions.push_back(messages::joined({kernel::air_at_end[end], " the neck stands in back-bow."}));
        }
    }
    kernel::tell_least_clearance(all, may, told);
    kernel::tell_fret_ends(on.instrument.board, year, told);
    if (!known.bow_known) {
        told.cautions.emplace_back(
            "How board and back grow along the grain was not measured: two visits in different air tell it. Until then "
            "relief and heights have a wide ±.");
    }
    if (!known.top_known) {
        told.cautions.emplace_back(
            known.top_standard > 0
                ? "How far the top rises in the damp was not measured: only the ± of the heights allows for it."
                : "How far the top rises in the damp was not measured: heights leave it out.");
    }
    told.cautions.emplace_back("Within two weeks of a change of air a neck may stand as far out as the year ever puts it: "
                               "wait, and measure again.");
    return told;
}
TAUTLINE_HELD(std::optional<job_year> year_of<>(const bench_job&, const job_setups&, const job_readings*))

} // namespace tautline
