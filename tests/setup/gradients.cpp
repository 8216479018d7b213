// Derivatives of a whole solve by many inputs at once, whose formulas have slopes of their own (core/local_slopes.hpp),
// against those by one input after the other.
#include <cmath>

#include <doctest/doctest.h>

#include <tautline/core/leaves.hpp>
#include <tautline/core/pack.hpp>
#include <tautline/setup/solve.hpp>

#include "demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Numbers of the instrument and its strings that are varied, one of every kind.
const char* const paths[] = {
    "board.scale.scale_length", "board.surface.radius", "frets.wire.crown_height", "neck.depth_at_nut",
    "neck.back_modulus",        "nut.slot_heights[0]",  "playing.fret_end",        "strings[1].string.core.diameter"};

/// All results over a number that has input number `first` and as many after it as it can take.
template <class D>
std::vector<D> results(std::size_t first, std::size_t inputs) {
    auto on = over<D>(strung_instrument{demo::four_course(), demo::unison_pairs()});
    std::size_t met = 0;
    for_each_leaf(on, [&](std::string_view path, auto& x) {
        for (std::size_t i = 0; i < inputs; ++i) {
            if (path != paths[first + i]) { continue; }
            set_number(x, D::variable(number_of(x).value, i));
            ++met;
        }
    });
    REQUIRE(met == inputs);
    std::vector<D> found;
    const auto solved = solve(on);
    for_each_leaf(solved, [&](std::string_view, const auto& x) { found.push_back(number_of(x)); });
    return found;
}
/// The largest difference of derivatives by one input from those of a solve by it alone, each as a share of the largest.
template <class Partial>
double worst(std::size_t input, std::size_t count, Partial&& partial) {
    const auto alone = results<dual<double, 1>>(input, 1);
    REQUIRE(alone.size() == count);
    double most = 0;
    for (std::size_t k = 0; k < count; ++k) {
        const double want = alone[k].partial[0], off = std::abs(partial(k) - want);
        if (std::isnan(want) && std::isnan(partial(k))) { continue; } // no fret ahead
        const double error = off / (std::abs(want) + 1e-6);
        most = error <= most ? most : error; // not a number counts
    }
    return most;
}

} // namespace

TEST_CASE("derivatives by eight inputs at once are those by each alone") {
    constexpr std::size_t inputs = std::size(paths);
    using packed = dual<double, inputs, pack<double>>;
    constexpr std::size_t lanes = lanes_of<pack<double>>::count;
    const auto all = results<packed>(0, inputs);
    for (std::size_t i = 0; i < inputs; ++i) {
        CHECK(worst(i, all.size(), [&](std::size_t k) { return all[k].partial[i / lanes][i % lanes]; }) < 1e-9);
    }
}
