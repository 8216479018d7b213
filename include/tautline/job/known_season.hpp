#pragma once
/// @file
/// What is known of what 1 % of moisture does to the instrument of a job: as it was noted, as readings in other airs say,
/// or nothing.

#include <algorithm>
#include <array>
#include <cmath>

#include "../core/when_used.hpp"
#include "../neck/across_grain.hpp"
#include "job_readings.hpp"

namespace tautline {

/// Readings that leave less than this share of a coefficient's doubt have told it.
inline constexpr double season_told = 0.5;

/// A season's coefficients with their standard uncertainties.
struct known_season {
    season_response response{};   ///< what 1 % of moisture does, as far as is known
    double bow_standard = 0;      ///< of `response.bow`
    double top_standard = 0;      ///< of `response.top`, in metres
    bool bow_known = false;       ///< somebody measured it, or readings told it
    bool top_known = false;       ///< the same of the top, or there is none that rises
    bool by_readings = false;     ///< readings in other airs told it
    woods::across_grain across{}; ///< of the board
    bool across_measured = false; ///< `season.across` says it

    /// The response with one coefficient moved by so many standard uncertainties, as far as a season may move it.
    [[nodiscard]] season_response moved(double bow_by, double top_by) const {
        season_response r = response;
        r.bow = std::clamp(r.bow + bow_by * bow_standard, -most_season_bow, most_season_bow);
        r.top = std::clamp(r.top.value() + top_by * top_standard, -most_season_top, most_season_top) * units::metre;
        return r;
    }
};

/// What is known of a job's season.
/// @param read what the readings said; null: nothing was read
template <class = when_used>
[[nodiscard]] known_season season_known(const bench_job& j, const noted_season& noted, const neck_measures& n,
                                        const job_readings* read = nullptr) {
    known_season k;
    const bool solid = j.instrument.body_bridge.has_value();
    k.response = noted.season().response;
    const auto stated = [&](std::string_view path) {
        for (const stated_doubt& d : j.doubts) {
            if (d.path == path) { return d.standard.si(); }
        }
        return 0.0;
    };
    k.bow_known = noted.bow.has_value();
    k.bow_standard = k.bow_known ? stated("season.bow") : unmeasured_season_bow;
    k.top_known = noted.top.has_value() || solid;
    k.top_standard = noted.top ? stated("season.top") : 0;
    if (read && read->said.adjusted.season && !read->said.readings.empty()) {
        k.response = read->said.adjusted.season->response();
        for (const reconciled_input& i : read->said.inputs) {
            const bool of_bow = i.name == "season.bow";
            if (!of_bow && i.name != "season.top") { continue; }
            (of_bow ? k.bow_standard : k.top_standard) = i.after.si();
            // What readings leave as doubtful as it was they have not told.
            const bool told = i.learnt.left < season_told;
            (of_bow ? k.bow_known : k.top_known) = (of_bow ? k.bow_known : k.top_known) || told;
            k.by_readings = k.by_readings || told;
        }
    }
    k.across_measured = noted.across.has_value();
    k.across = woods::across_grain_of(n.board_wood);
    if (k.across_measured) { k.across = {.share = *noted.across, .standard = stated("season.across"), .by_name = true}; }
    return k;
}

} // namespace tautline
