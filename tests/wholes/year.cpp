/// @file
/// Told twice through the year: moisture, relief, heights, least clearance and fret ends, each as a second telling has
/// them.
///
/// The second telling takes wood's moisture from another fit (plain_air.hpp), bends and tilts the instrument's measures by
/// hand and tells that instrument a second time (retold.hpp), so nothing that a solve has filled counts. Fret ends follow
/// from the board's outline alone.

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include <tautline/job/year.hpp>

#include "check.hpp"
#include "plain_air.hpp"
#include "retold.hpp"

namespace {

using namespace wholes;
using namespace tautline;

/// What is noted of a year, in plain numbers.
struct plain_year {
    std::array<double, 3> celsius{}, humidity{}; ///< as measured, dry, damp
    double bow = 0, bow_standard = 0, top = 0, stiffness = 0, across = 0, across_standard = 0;
};
plain_year year_of_recipe(const recipe& r, bool solid) {
    plain_year y;
    y.celsius = {18 + 0.05 * r.other, 17 + 0.06 * r.more, 20 + 0.05 * r.wish};
    y.humidity = {42 + 0.08 * r.other, 24 + 0.1 * r.wish, 60 + 0.12 * r.more};
    y.bow = (r.wish - 50) * 1e-6;
    y.bow_standard = r.more * 4e-7;
    y.top = solid ? 0 : (r.other - 50) * 1e-6;
    y.stiffness = -0.0002 * r.more;
    y.across = 0.001 + 2e-5 * r.wish;
    y.across_standard = r.other * 3e-6;
    return y;
}
bench_job job_of(const whole& w, const plain_year& y) {
    bench_job j;
    j.instrument = w.built;
    j.season = noted_season{};
    const std::array airs{&j.season->measured_in, &j.season->dry, &j.season->damp};
    for (std::size_t k = 0; k < 3; ++k) { *airs[k] = {.celsius = y.celsius[k], .humidity = y.humidity[k]}; }
    j.season->bow = y.bow;
    j.season->top = length<>::from_value(y.top);
    j.season->stiffness = y.stiffness;
    j.season->across = y.across;
    if (y.bow_standard > 0) { j.doubts.push_back({.path = "season.bow", .standard = any_quantity(y.bow_standard)}); }
    if (y.across_standard > 0) {
        j.doubts.push_back({.path = "season.across", .standard = any_quantity(y.across_standard)});
    }
    return j;
}
/// The instrument with so much more moisture in it: a longer board, softer wood, a saddle that rose with its top.
whole at_moisture(whole w, const plain_year& y, double bow, double gained) {
    auto& n = w.built.neck;
    n.board_strain += bow * gained;
    n.board_modulus = n.board_modulus * (1 + y.stiffness * gained);
    n.back_modulus = n.back_modulus * (1 + y.stiffness * gained);
    w.built.saddle.board_line = w.built.saddle.board_line - length<>::from_value(y.top * gained);
    return w;
}
/// The least clearance of a second telling, and by how much it may be off.
told least_of(const std::map<std::string, told>& all) {
    told least{1e300, 0, {}};
    for (const auto& [path, t] : all) {
        if (path.find(".clearances[") == std::string::npos || !path.ends_with(".gap")) { continue; }
        least.number = std::min(least.number, t.number);
        least.allowed = std::max(least.allowed, t.allowed);
    }
    return least;
}
/// Of several numbers that are right the one next to `number`.
double nearest_told(const told& t, double number) {
    double best = t.number;
    for (const double also : t.or_else) { best = std::abs(also - number) < std::abs(best - number) ? also : best; }
    return best;
}

} // namespace

TEST_SUITE("the year, told twice") {
    TEST_CASE("moisture, relief, heights and the least clearance in each air") {
        must_hold("year twice", 60, [](const whole& w, complaints& wrong) {
            const auto y = year_of_recipe(w.from, w.built.body_bridge.has_value());
            job_setups s;
            s.as_found = {w.built, w.stringing};
            s.found = solve(s.as_found);
            std::optional<job_year> year;
            try {
                year = year_of(job_of(w, y), s);
            } catch (const invalid_input&) { return false; } // it buckles in the damp
            bool looked_at = false;
            for (std::size_t k = 0; k < 3; ++k) {
                const std::string air = k == 0 ? "measured: " : k == 1 ? "dry: " : "damp: ";
                const double gained =
                    plain_moisture(y.celsius[k], y.humidity[k]) - plain_moisture(y.celsius[0], y.humidity[0]);
                wrong.unless_near(air + "moisture", year->gained[k], gained, 0.04);
                // The fits part by a share of the year; what follows is told for the same moisture.
                const auto again = retell(at_moisture(w, y, y.bow, year->gained[k]));
                if (again.empty()) { return false; }
                // A bow that is off by two standard uncertainties, either way.
                std::vector<std::map<std::string, told>> may;
                for (const double way : {-2.0, 2.0}) {
                    if (k == 0) { break; }
                    may.push_back(retell(at_moisture(w, y, y.bow + way * y.bow_standard, year->gained[k])));
                    if (may.back().empty()) { return false; }
                }
                for (const year_line& line : year->lines) {
                    if (line.path == "fret_ends") { continue; }
                    looked_at = true;
                    const bool room = line.path == "least_clearance";
                    const told t = room ? least_of(again) : again.at(line.path);
                    const double number = nearest_told(t, line.values[k].si());
                    wrong.unless_near(air + line.path, line.values[k].si(), number, t.allowed);
                    if (room) {
                        const year_place& at = *line.places[k];
                        const std::string there = "strings[" + std::to_string(at.string_index) + "].clearances[" +
                                                  std::to_string(at.pressed) + "].";
                        wrong.unless_near(air + "room at the place", again.at(there + "gap").number, number, 2 * t.allowed);
                        const auto& frets = again.at(there + "fret").or_else;
                        wrong.unless(std::find(frets.begin(), frets.end(), at.fret) != frets.end(), air + "its fret");
                    }
                    if (k == 0) { continue; }
                    const any_quantity& give = line.give_or_take[k - 1];
                    wrong.unless(give.has_value() == (y.bow_standard > 0), air + line.path + " has a doubt");
                    const auto either = [&](const std::map<std::string, told>& all) {
                        const auto at = all.find(line.path);
                        return at != all.end() && !at->second.or_else.empty();
                    };
                    if (!give.has_value() || either(again) || either(may[0]) || either(may[1])) { continue; }
                    const auto off = [&](std::size_t way) {
                        return (room ? least_of(may[way]) : may[way].at(line.path)).number - t.number;
                    };
                    const double expected =
                        room ? std::max(std::abs(off(0)), std::abs(off(1))) : std::abs(off(1) - off(0)) / 2;
                    wrong.unless_near(air + "give or take of " + line.path, give.si(), expected, 2 * t.allowed);
                }
            }
            return looked_at;
        });
    }
    TEST_CASE("fret ends stand out by half of what the board loses at its widest") {
        must_hold("fret ends", 150, [](const whole& w, complaints& wrong) {
            const auto y = year_of_recipe(w.from, w.built.body_bridge.has_value());
            job_year year;
            year.known.across = {.share = y.across, .standard = y.across_standard, .by_name = true};
            year.known.across_measured = true;
            kernel::tell_fret_ends(w.built.board, job_of(w, y).season->season(), year);
            if (w.built.board.scale.frets == 0) {
                wrong.unless(year.lines.empty(), "fret ends without frets");
                return true;
            }
            // Each edge comes in by its half of what the board loses, most where the board is widest.
            const double half = std::max(w.built.board.width_at_nut.value(), w.built.board.width_at_end.value()) / 2;
            const auto out_of = [&](double share, std::size_t k) {
                const double drier =
                    plain_moisture(y.celsius[0], y.humidity[0]) - plain_moisture(y.celsius[k], y.humidity[k]);
                return half - half * (1 - share * drier);
            };
            const year_line& line = year.lines.back();
            wrong.unless(line.path == "fret_ends", "the line of the fret ends");
            wrong.unless(line.values[0].si() == 0, "flush as measured");
            for (std::size_t k = 1; k < 3; ++k) {
                const double out = out_of(y.across, k), off = 0.02 * std::abs(out) + 1e-8;
                wrong.unless_near(k == 1 ? "dry" : "damp", line.values[k].si(), out, off);
                wrong.unless(line.give_or_take[k - 1].has_value() == (y.across_standard > 0), "a doubt of the fret ends");
                if (y.across_standard > 0) {
                    const double further = out_of(y.across + 2 * y.across_standard, k);
                    wrong.unless_near(k == 1 ? "give or take, dry" : "give or take, damp", line.give_or_take[k - 1].si(),
                                      std::abs(further - out), 0.02 * std::abs(further - out) + 1e-8);
                }
            }
            return true;
        });
    }
}
