#include <tautline/doubt/sweep.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "setup/changed_demo.hpp"

// What each function of doubt refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using namespace demo;

TEST_CASE("doubt's door: sweeps, doubts and budgets") {
    const std::vector<std::string> tension_asked{"strings[0].tension"};
    const std::vector<knob> none{{"saddle.height_bass", {}}}, stranger{{"saddle.hat", {18 * mm}}},
        wrong_kind{{"saddle.height_bass", {18 * N}}};
    const std::vector<std::string> path{"saddle.height_bass"}, unknown{"no.such"}, one{"a"};
    const std::vector<std::vector<any_quantity>> two_values{{18 * mm, 18 * mm}};
    CHECK_THROWS_WITH((void)sweep_grid(on(), none, tension_asked), "saddle.height_bass must be given at least one value.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), stranger, tension_asked),
                      "saddle.hat must be the path of a number of the instrument or its strings.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), wrong_kind, tension_asked),
                      "saddle.height_bass must be moved by a length, as it is one.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), {}, unknown), "no.such must be the path of a number of a solved setup.");
    CHECK_THROWS_WITH((void)sweep_rows(on(), path, two_values, tension_asked),
                      "rows[0] must have one value for each path.");
    const auto sampled = [&](double standard) {
        return sweep_sample(on(), std::vector<doubt>{{"height", standard * metre, {{"saddle.height_bass"}}}}, 1, 7,
                            tension_asked);
    };
    CHECK_THROWS_WITH((void)sampled(-1),
                      "uncertainty of height is -1000 mm; it must be at least 0 mm and at most 1000000000000000 mm.");
    CHECK_THROWS_WITH((void)sampled(1.1e12),
                      doctest::Contains("uncertainty of height is 1100000000000000 mm; it must be at least 0 mm"));
    CHECK_THROWS_WITH((void)sampled(NAN), doctest::Contains("uncertainty of height is not a number; it must be"));
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", -1, {{"saddle.height_bass"}}}}),
                      "uncertainty of height is -1; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", 1.1e12, {{"saddle.height_bass"}}}}),
                      "uncertainty of height is 1100000000000; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", 1 * mm, {{"saddle.hat"}}}}),
                      "saddle.hat must be the path of a number of the instrument or its strings.");
    // A plain factor, whatever its size, leaves the kinds compared; only one that is said to convert does not.
    for (const double factor : {1.0, -1.0, 2.0}) {
        const std::vector<doubt> force_for_height{{"height", 1 * N, {{"saddle.height_bass", factor}}}};
        CHECK_THROWS_WITH((void)propagate(on(), force_for_height),
                          "uncertainty of height must be a length, as saddle.height_bass is.");
        CHECK_THROWS_WITH((void)sweep_sample(on(), force_for_height, 1, 7, tension_asked),
                          "saddle.height_bass must be moved by a length, as it is one.");
    }
    // A force that bends a gauge by 0.1 mm for each newton.
    const std::vector<doubt> by_gauge{{"gauge", 1 * N, {{"saddle.height_bass", 1e-4, true}}},
                                      {"height", 0.1 * mm, {{"saddle.height_bass"}}}};
    const auto alike = propagate(on(), by_gauge);
    const auto* height = find_result(alike, "strings[0].heights[11]");
    CHECK(height->contributions[1] > 1e-5);
    CHECK(near::relative(height->contributions[0], height->contributions[1], 1e-12));
    using D = dual<double, 2>;
    const auto two = length<D>::from_value(D::variable(1, 1));
    CHECK(contribution(two, 1, 0.5) == 500 * mm);
    CHECK_THROWS_WITH((void)contribution(two, 2, 0.5), "input is 2; it must be one of the result's, 0 to 1.");
    CHECK_THROWS_WITH((void)contribution(two, 1, -0.5), "standard uncertainty is -0.5; it must be at least 0.");
    CHECK_THROWS_WITH((void)contribution(two, 1, double(NAN)),
                      "standard uncertainty is not a number; it must be at least 0.");
    const std::vector<length<>> parts{1 * mm, 1 * mm}, three{1 * mm, 1 * mm, 1 * mm};
    const auto together = [&](std::vector<correlation> c) { return combined_uncertainty<unit::length>(parts, c); };
    CHECK_THROWS_WITH((void)together({{0, 2, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{2, 0, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{1, 1, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{0, 1, 0.5}, {0, 1, 0.5}}), "correlation must be given once for each pair.");
    CHECK_THROWS_WITH((void)together({{0, 1, 0.5}, {1, 0, 0.5}}), "correlation must be given once for each pair.");
    CHECK_THROWS_WITH((void)together({{0, 1, -1.01}}),
                      "correlation.coefficient is -1.01; it must be at least -1 and at most 1.");
    CHECK_THROWS_WITH((void)(covariance<unit::length, unit::length>(parts, three)),
                      "contributions must be given for the same inputs in both results.");
    CHECK_THROWS_WITH((void)(covariance<unit::length, unit::length>(parts, parts, std::vector<correlation>{{0, 2, 0.5}})),
                      "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)budget<unit::length>(one, parts), "inputs must be as many as contributions.");
}
