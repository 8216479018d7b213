#pragma once
/// @file
/// What the season does to the instrument at the end of a job: relief, heights and clearances as measured, at the dry and
/// at the damp end of its year.

#include <algorithm>
#include <cmath>

#include "../core/when_used.hpp"
#include "../doubt/uncertainty.hpp"
#include "compare.hpp"
#include "job_setups.hpp"

namespace tautline {

/// One result through the year.
struct year_line {
    std::string path{};                   ///< of the result
    std::string words{};                  ///< what it is
    std::array<any_quantity, 3> values{}; ///< in the air it was measured in, dry, damp
    /// Either way at the dry and the damp end, 95 %, for what nobody measured of how board and back grow; without a value
    /// where it was measured.
    std::array<any_quantity, 2> give_or_take{};
};

/// An instrument's year.
struct job_year {
    std::array<double, 3> gained{};      ///< of moisture over what it was measured with, in per cent
    std::vector<year_line> lines{};      ///< relief, the outer strings' heights and clearances
    std::vector<std::string> cautions{}; ///< sentences
};

namespace kernel {

/// The results that a season is asked about.
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
/// The least clearance of any note, negative where a string touches.
[[nodiscard]] inline length<> least_clearance(const setup& s) {
    length<> least = length<>(10000 * units::mm);
    for (const auto& string : s.strings) {
        for (std::size_t n = 0; n < string.clearances.size(); ++n) {
            if (string.has_fret(n)) { least = min(least, length<>(string.clearances[n].gap)); }
        }
    }
    return least;
}

} // namespace kernel

/// The year of the instrument at the end of a job; nothing where no season is noted.
/// @throws invalid_input where the instrument cannot stand at one end of the year
template <class = when_used>
[[nodiscard]] std::optional<job_year> year_of(const bench_job& j, const job_setups& s) {
    if (!j.season) { return std::nullopt; }
    const season year = j.season->season();
    const strung_instrument& on = s.last_strung();
    if (on.instrument.body_bridge && j.season->top) {
        require_that(j.season->top->value() == 0, "season.top",
                     "must be 0 on a solid body, or left out: it has no top that rises");
    }
    const setups_of_year all = through_the_year(on, year);
    job_year told{.gained = all.gained};
    std::array<std::vector<setup>, 2> doubtful; // at each end, with the bow as much as it may be either way
    if (!j.season->bow) {
        for (std::size_t end = 0; end < 2; ++end) {
            for (const double way : {-1.0, 1.0}) {
                auto response = year.response;
                response.bow = way * coverage_factor * unmeasured_season_bow;
                doubtful[end].push_back(solve(moistened(on, response, all.gained[end + 1])));
            }
        }
    }
    for (const std::string& path : kernel::seasonal_results(all.each[0])) {
        year_line line{path,
                       words_for(path, all.each[0].names),
                       {get(all.each[0], path), get(all.each[1], path), get(all.each[2], path)},
                       {}};
        for (std::size_t end = 0; end < 2 && !j.season->bow; ++end) {
            const double low = get(doubtful[end][0], path).si(), high = get(doubtful[end][1], path).si();
            line.give_or_take[end] = any_quantity::of(line.values[0].kind(), std::abs(high - low) / 2);
        }
        told.lines.push_back(std::move(line));
    }
    if (!j.season->bow) {
        told.cautions.emplace_back(
            "How board and back grow along the grain was not measured: two visits in different air tell it, and until then "
            "relief and heights are only so sure.");
    }
    if (!j.season->top && !on.instrument.body_bridge) {
        told.cautions.emplace_back("How the top rises in the damp was not measured: heights leave it out.");
    }
    static constexpr const char* when[] = {"", "In the driest air", "In the dampest air"};
    const auto now = kernel::least_clearance(all.each[0]);
    for (std::size_t end = 1; end < 3; ++end) {
        const auto then = kernel::least_clearance(all.each[end]);
        if (now > length<>() && then <= length<>()) {
            told.cautions.push_back(messages::joined({when[end], " a string touches a fret that it clears now."}));
        }
        if (all.each[end].board_relief && all.each[0].board_relief && all.each[end].board_relief->gap < length<>() &&
            !(all.each[0].board_relief->gap < length<>())) {
            told.cautions.push_back(messages::joined({when[end], " the neck stands in back-bow."}));
        }
    }
    told.cautions.emplace_back("Within two weeks of a change of air a neck may stand as far out as the year ever puts it: "
                               "wait, and measure again.");
    return told;
}
TAUTLINE_HELD(std::optional<job_year> year_of<>(const bench_job&, const job_setups&))

} // namespace tautline
