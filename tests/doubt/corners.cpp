#include "corners.hpp"

#include <tautline/core/units.hpp>
#include <tautline/doubt/chi_square.hpp>
#include <tautline/doubt/reconcile.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>

#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::everywhere;

TEST_CASE("corners: doubts add up, or say why not, whatever they are") {
    everywhere<length<>, length<>, double>("combined_uncertainty", [](auto a, auto b, auto r) {
        return combined_uncertainty<unit::length>(std::vector<length<>>{a, b}, std::vector<correlation>{{0, 1, r}});
    });
    everywhere<length<>, force<>>("covariance", [](auto a, auto b) {
        return covariance<unit::length, unit::force>(std::vector<length<>>{a}, std::vector<force<>>{b}).value();
    });
    everywhere<length<>, length<>>("budget", [](auto a, auto b) {
        const std::vector<std::string> names{"a", "b"};
        std::vector<double> shares;
        for (const auto& line : budget<unit::length>(names, std::vector<length<>>{a, b})) { shares.push_back(line.share); }
        return shares;
    });
    everywhere<length<>>("rectangular", [](auto a) { return rectangular(a); });
}
TEST_CASE("corners: a doubt of any size, moving any number of the instrument by any share") {
    const strung_instrument on{demo::four_course(), demo::unison_pairs()};
    everywhere<double, double>("propagate", [&](auto standard, auto factor) {
        const doubt d{"saddle", standard * metre, {{"saddle.height_bass", factor}}};
        std::vector<double> all;
        for (const auto& r : propagate(on, std::vector<doubt>{d})) {
            all.push_back(r.value.si());
            all.push_back(r.standard().si());
        }
        return all;
    });
}
TEST_CASE("corners: chance of scatter, usual doubts") {
    for (const std::size_t degrees : {0U, 1U, 2U, 9U, 1000U}) {
        everywhere<double>("chi_square_tail", [&](auto square) { return chi_square_tail(square, degrees); });
    }
    everywhere<double>("usual_standard", [](auto value) {
        return usual_standard("neck.rod_pull", std::isfinite(value) ? value : 0).value_or(0);
    });
}
TEST_CASE("corners: a reading of any size with any doubt, against an input with any doubt") {
    const strung_instrument on{demo::four_course(), demo::unison_pairs()};
    const auto told = [&](const any_quantity& input, const reading& r) {
        const auto out = reconcile(on, std::vector<doubt>{{"modulus", input, {{"neck.back_modulus"}}}}, {}, std::vector{r});
        return std::vector<double>{out.inputs[0].found.si(), out.inputs[0].after.si(),   out.tests.square,
                                   out.tests.chance,         out.readings[0].found.si(), out.readings[0].test.w};
    };
    everywhere<length<>, length<>>(
        "reconcile", [&](auto value, auto give_or_take) { return told(2 * GPa, relief_read(value, give_or_take)); });
    everywhere<stress<>>("reconcile", [&](auto standard) { return told(standard, relief_read(0.3 * mm)); });
}
