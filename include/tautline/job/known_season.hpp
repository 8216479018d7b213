#pragma once
/// @file
/// What is known of the effect of 1 % of moisture on the instrument of a job: as noted, as readings in other airs tell,
/// or nothing.

#include <algorithm>
#include <array>
#include <cmath>

#include "../core/when_used.hpp"
#include "../neck/across_grain.hpp"
#include "job_readings.hpp"

namespace tautline {

/// A reading has told a coefficient where less than this share of its doubt is left.
inline constexpr double season_told = 0.5;

/// A season's coefficients with their standard uncertainties.
struct known_season {
    season_response response{};   ///< effect of 1 % of moisture, as far as it is known
    double bow_standard = 0;      ///< standard uncertainty of `response.bow`
    double top_standard = 0;      ///< standard uncertainty of `response.top`, in metres
    bool bow_known = false;       ///< whether somebody measured it or readings told it
    bool top_known = false;       ///< the same for the top; also true where no top rises
    bool by_readings = false;     ///< whether readings in other airs told it
    woods::across_grain across{}; ///< movement of the board across its grain
    bool across_measured = false; ///< whether `season.across` gives it
    bool wood_named = false;      ///< whether the board's wood has a name, which need not tell its movement

    /// The response with each coefficient moved by that many standard uncertainties, within what a season may do.
    [[nodiscard]] season_response moved(double bow_by, double top_by) const {
        season_response r = response;
        r.bow = std::clamp(r.bow + bow_by * bow_standard, -most_season_bow, most_season_bow);
        r.top = std::clamp(r.top.value() + top_by * top_standard, -most_season_top, most_season_top) * units::metre;
        return r;
    }
};

/// What is known of a job's season.
/// @param read outcome of the readings; null: no readings
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
            // A coefficient that readings leave as doubtful as before was not told by them.
            const bool told = i.learnt.left < season_told;
            (of_bow ? k.bow_known : k.top_known) = (of_bow ? k.bow_known : k.top_known) || told;
            k.by_readings = k.by_readings || told;
        }
    }
    k.across_measured = noted.across.has_value();
    k.wood_named = !n.board_wood.empty();
    k.across = woods::across_grain_of(n.board_wood);
    if (k.across_measured) { k.across = {.share = *noted.across, .standard = stated("season.across"), .by_name = true}; }
    return k;
}

} // namespace tautline
