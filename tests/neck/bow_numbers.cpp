// The bow on other number types, and its derivatives by every number of the neck.

#include <tautline/neck/bow.hpp>

#include <string>

#include <tautline/core/leaves.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("number types: float and long double follow double; a dual of duals too") {
    const auto rise = [](auto zero) {
        using R = decltype(zero);
        std::vector<basic_string_pull<R>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<R>(s)); }
        return bend(make_beam(over<R>(demo::everything()), 33), pulls, over<R>(700 * N)).nut_rise().value();
    };
    const double plain = rise(0.0);
    CHECK(near::relative(static_cast<double>(rise(0.0f)), plain, 1e-3));
    CHECK(near::relative(static_cast<double>(rise(0.0L)), plain, 1e-12));
    CHECK(near::relative(rise(dual<dual<double, 1>, 2>()).value.value, plain, 1e-13));
}

TEST_CASE("property: the dual's derivative of the nut's rise agrees with differences for every number of the neck") {
    using D = dual<double, 1>;
    const neck n = demo::everything();
    std::vector<std::string> paths;
    auto names = n;
    for_each_leaf(names, [&](std::string_view path, const auto&) { paths.emplace_back(path); });
    REQUIRE(paths.size() > 60);
    // A single rod has no separation, a void no wall: at 0 they are of another kind.
    std::erase_if(paths, [](const std::string& p) { return p == "rod.separation" || p == "inserts[0].wall"; });
    int moved = 0;
    for (const auto& path : paths) {
        CAPTURE(path);
        auto seeded = over<D>(n);
        double at = 0;
        for_each_leaf(seeded, [&](std::string_view p, auto& leaf) {
            if (p == path) {
                at = number_of(leaf).value;
                set_number(leaf, D::variable(at, 0));
            }
        });
        std::vector<basic_string_pull<D>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<D>(s)); }
        basic_neck_beam<D> beam_d;
        kernel::make_beam(seeded, 65, beam_d);
        const double exact = bend(beam_d, pulls, over<D>(700 * N)).nut_rise().value().partial[0];
        const double step = 1e-5 * std::max(std::abs(at), 1e-3);
        const auto shifted = [&](double by) {
            auto other = n;
            for_each_leaf(other, [&](std::string_view p, auto& leaf) {
                if (p == path) { set_number(leaf, at + by); }
            });
            neck_beam beam;
            kernel::make_beam(other, 65, beam);
            return bend(beam, demo::strings(), 700 * N).nut_rise().value();
        };
        const double by_difference = (shifted(step) - shifted(-step)) / (2 * step);
        // Rod and channel begin and end at one place: there the two sides' slopes differ a little.
        const bool corner = path.find("x_from") != path.npos || path.find("x_to") != path.npos;
        CHECK(near::within(exact, by_difference, corner ? 5e-5 : 1e-4 * std::abs(by_difference) + 1e-9));
        moved += exact != 0;
    }
    CHECK(moved > 50);
}
