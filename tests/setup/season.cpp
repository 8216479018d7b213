#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/season.hpp>

#include <doctest/doctest.h>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument seasoned_flat_top() {
    const auto o = ready_made::flat_top();
    return {o.instrument, string_up(o.strings, o.a4)};
}
constexpr climate air(double humidity, double temperature = 21) {
    return {.temperature = temperature * celsius, .humidity = humidity * percent_rh};
}
season a_year() {
    return {.measured_in = air(45), .dry = air(28), .damp = air(65), .response = {.bow = 4e-5, .top = 0.06 * mm}};
}
std::vector<double> numbers_of(const setup& s) {
    std::vector<double> all;
    for_each_leaf(s, [&](std::string_view, const auto& x) { all.push_back(static_cast<double>(number_of(x))); });
    return all;
}
visit_measures visit_of(const setup& s) {
    visit_measures v;
    v.relief = s.relief->gap;
    v.action = (s.strings.front().heights[11] + s.strings.back().heights[11]) * 0.5;
    return v;
}

} // namespace

TEST_SUITE("season") {
    TEST_CASE("no change of moisture is no change at all, digit for digit") {
        const auto on = seasoned_flat_top();
        CHECK(numbers_of(solve(moistened(on, a_year().response, 0.0))) == numbers_of(solve(on)));
    }
    TEST_CASE("a response of nothing moves nothing, whatever the air") {
        const auto on = seasoned_flat_top();
        const season_response none{.bow = 0, .top = 0 * mm, .stiffness = 0};
        CHECK(numbers_of(solve(moistened(on, none, 5.0))) == numbers_of(solve(on)));
    }
    TEST_CASE("a board that grows more stands back in the damp; the relief told by hand") {
        const auto on = seasoned_flat_top();
        const season_response r{.bow = 3e-5, .top = 0 * mm, .stiffness = 0};
        const auto now = solve(on), damp = solve(moistened(on, r, 4.0)), dry = solve(moistened(on, r, -4.0));
        CHECK(damp.relief->gap < now.relief->gap);
        CHECK(now.relief->gap < dry.relief->gap);
        // The other sign mirrors it about what was measured, to first order.
        const season_response turned{.bow = -3e-5, .top = 0 * mm, .stiffness = 0};
        const auto other = solve(moistened(on, turned, 4.0));
        const length<> one = now.relief->gap - damp.relief->gap, two = other.relief->gap - now.relief->gap;
        CHECK(near::relative(one.value(), two.value(), 0.03));
        // An even curvature over the span is kappa l^2/8 (design page, 16.2: 0.15 mm on 330 mm for 3e-5 and 4 %).
        const auto joint = static_cast<std::size_t>(on.instrument.neck.joint_fret);
        const double span = (now.fret_x[joint - 1] - now.fret_x[0]).value();
        CHECK(near::relative(one.value(), 0.15e-3 * span * span / (0.33 * 0.33), 0.35));
        // Action over the octave then changes by c times as much (16.3; 2.43 for a joint at fret 14), the curvature even.
        const double x_j = now.fret_x[joint - 1].value(), x_12 = now.fret_x[11].value(),
                     scale = now.strings[2].line.saddle_x.value();
        const double past = std::max(0.0, x_j - x_12);
        const double c = 4 * (x_j * x_j * (1 - x_12 / scale) - past * past) / (span * span);
        const length<> action = now.strings[2].heights[11] - damp.strings[2].heights[11];
        CHECK(near::relative(action / one, c, 0.15));
    }
    TEST_CASE("a top that rises: action over the octave by half of it at the saddle, relief as it was") {
        const auto on = seasoned_flat_top();
        const season_response r{.bow = 0, .top = 0.1 * mm, .stiffness = 0};
        const auto now = solve(on), damp = solve(moistened(on, r, 3.0));
        for (std::size_t i = 0; i < now.strings.size(); ++i) {
            const length<> more = damp.strings[i].heights[11] - now.strings[i].heights[11];
            CHECK(near::within(more.value(), 0.15e-3, 0.01e-3));
        }
        CHECK(near::within(damp.relief->gap.value(), now.relief->gap.value(), 2e-6));
    }
    TEST_CASE("a neck that softens bows more under the same strings") {
        const auto on = seasoned_flat_top();
        const season_response r{.bow = 0, .top = 0 * mm, .stiffness = -0.008};
        const auto now = solve(on), damp = solve(moistened(on, r, 5.0));
        CHECK(damp.bow.nut_rise() > now.bow.nut_rise());
        // 4 % softer: a bow some 1/0.96 of what it was, second order aside.
        CHECK(near::relative(damp.bow.nut_rise() / now.bow.nut_rise(), 1 / 0.96, 0.01));
    }
    TEST_CASE("the year holds what was measured, and pitch keeps the tensions") {
        const auto on = seasoned_flat_top();
        const auto year = through_the_year(on, a_year());
        CHECK(year.gained[0] == 0);
        CHECK(year.gained[1] < 0);
        CHECK(year.gained[2] > 0);
        for (const char* path : {"relief.gap", "strings[0].heights[11]", "strings[5].heights[11]", "down_force"}) {
            CAPTURE(path);
            const auto e = year.extremes_of(path);
            const double measured = get(year.each[0], path).si();
            CHECK(e[0].si() <= measured);
            CHECK(measured <= e[1].si());
            CHECK(e[0].si() < e[1].si());
            // Both ends of the year, since all of it goes one way with moisture.
            for (const auto& end : e) {
                CHECK((end.si() == get(year.each[1], path).si() || end.si() == get(year.each[2], path).si()));
            }
        }
        for (std::size_t i = 0; i < 6; ++i) {
            CHECK(near::relative(year.each[2].strings[i].tension.value(), year.each[0].strings[i].tension.value(), 1e-4));
        }
        CHECK_THROWS_AS((void)year.extremes_of("relief.depth"), invalid_input);
        // Airs that are alike: one answer three times, but for a hair of moisture.
        season same = a_year();
        same.dry = air(45 - 1e-9);
        same.damp = air(45 + 1e-9);
        const auto still = through_the_year(on, same);
        CHECK(near::within(still.each[1].relief->gap.value(), still.each[2].relief->gap.value(), 1e-12));
    }
    TEST_CASE("two visits give back what made them") {
        const auto on = seasoned_flat_top();
        for (const double gained : {-3.0, 2.0, 6.0}) {
            for (const double bow : {-6e-5, 0.0, 1e-4}) {
                const season_response made{.bow = bow, .top = 0.08 * mm};
                const auto found =
                    season_of_visits(on, visit_of(solve(on)), visit_of(solve(moistened(on, made, gained))), gained);
                CHECK(near::within(found.bow, bow, 1e-12));
                CHECK(near::within(found.top.value(), made.top.value(), 1e-10));
            }
        }
        // Readings that are off alike on both visits cancel: what counts is the change.
        auto first = visit_of(solve(on)), second = visit_of(solve(moistened(on, a_year().response, 4.0)));
        for (auto* v : {&first, &second}) {
            v->relief = v->relief + 0.05 * mm;
            v->action = v->action + 0.2 * mm;
        }
        const auto found = season_of_visits(on, first, second, 4.0);
        CHECK(near::within(found.bow, 4e-5, 1e-12));
        CHECK(near::within(found.top.value(), 0.06e-3, 1e-10));
    }
    TEST_CASE("what a season cannot be is refused in a sentence") {
        const auto on = seasoned_flat_top();
        const auto v = visit_of(solve(on));
        CHECK_THROWS_WITH_AS((void)season_of_visits(on, v, v, 1.9), doctest::Contains("must be 2 or more"), invalid_input);
        auto far = v;
        far.relief = v.relief + 2 * mm;
        CHECK_THROWS_WITH_AS((void)season_of_visits(on, v, far, 3.0), doctest::Contains("a season does not do that"),
                             invalid_input);
        auto y = a_year();
        std::swap(y.dry, y.damp);
        CHECK_THROWS_WITH_AS((void)through_the_year(on, y), doctest::Contains("drier than damp"), invalid_input);
        y = a_year();
        y.dry = air(5);
        CHECK_THROWS_WITH_AS((void)through_the_year(on, y), doctest::Contains("season.dry.humidity"), invalid_input);
        y = a_year();
        y.damp = air(65, 80);
        CHECK_THROWS_WITH_AS((void)through_the_year(on, y), doctest::Contains("season.damp.temperature"), invalid_input);
        y = a_year();
        y.measured_in.humidity = std::nan("") * percent_rh;
        CHECK_THROWS_AS((void)through_the_year(on, y), invalid_input);
        CHECK_THROWS_AS((void)moistened(on, {.bow = 1e-3}, 2.0), invalid_input);
        CHECK_THROWS_AS((void)moistened(on, {}, 11.0), invalid_input);
        CHECK_THROWS_AS((void)moistened(on, {}, std::nan("")), invalid_input);
        const auto o = ready_made::solid_body_bass();
        const strung_instrument bass{o.instrument, string_up(o.strings, o.a4)};
        CHECK_THROWS_WITH_AS((void)moistened(bass, {.top = 0.1 * mm}, 2.0), doctest::Contains("must be 0 on a solid body"),
                             invalid_input);
    }
}
