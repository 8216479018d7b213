#include <tautline/supports/top.hpp>

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const soundboard soft{.sink_stiffness = 200 * N_per_mm,
                      .turn_stiffness = 1500 * N_m_per_rad,
                      .saddle_ahead = 6 * mm,
                      .saddle_height = 14 * mm};
}

TEST_CASE("the saddle sinks with the down-force and dips and comes forward as the bridge turns") {
    const auto give = top_give(soft, 150 * N, 9 * N_m);
    CHECK(near::within(give.sink, 0.75 * mm, 1e-9 * mm));
    CHECK(near::within(give.turn, 0.006 * rad, 1e-12 * rad));
    CHECK(near::within(give.drop, 0.75 * mm + 0.036 * mm, 1e-9 * mm));
    CHECK(near::within(give.forward, 0.084 * mm, 1e-9 * mm));
    const auto floating = top_give(soft, 150 * N, 0 * N_m);
    CHECK(floating.drop == floating.sink);
    CHECK(floating.forward == 0 * mm);
}

TEST_CASE("top and strings settle where both agree; a load that grows faster than the top resists never does") {
    // Down-force that falls by 30 N for each millimetre of drop: springs side by side.
    const auto straight = settle_on_top(soft, [](const basic_top_give<double>& g) {
        return basic_top_load<double>{150 * N - 30 * N_per_mm * g.drop, 0 * N_m};
    });
    REQUIRE(straight);
    CHECK(near::within(straight->sink, 150.0 / 230 * mm, 1e-9 * mm));
    // Real strings over a saddle that sinks: the load at rest is the load that the give asks for.
    const auto load_at = [](const basic_top_give<double>& g) {
        const auto l = support_load(point{.z = 2 * mm}, {.x = 560 * mm - g.forward, .z = 14 * mm - g.drop},
                                    {.x = 660 * mm, .z = -12 * mm}, 500 * N);
        return basic_top_load<double>{l.down(), 2 * N_m};
    };
    const auto rest = settle_on_top(soft, load_at);
    REQUIRE(rest);
    CHECK(near::within(top_give(soft, load_at(*rest).down, load_at(*rest).turning).drop, rest->drop, 1e-12 * mm));
    CHECK(rest->drop < top_give(soft, load_at({}).down, 2 * N_m).drop);
    CHECK_FALSE(settle_on_top(soft, [](const basic_top_give<double>& g) {
        return basic_top_load<double>{150 * N + 400 * N_per_mm * g.drop, 0 * N_m};
    }));
}

TEST_CASE("a secant rests where plain steps do, in fewer looks, and finds the same tops too soft") {
    std::mt19937 random(19);
    std::uniform_real_distribution<double> any(0, 1);
    int settled = 0, too_soft = 0, looks = 0, plain_looks = 0;
    for (int i = 0; i < 300; ++i) {
        const soundboard t{.sink_stiffness = std::pow(10.0, 0.3 + 3 * any(random)) * N_per_mm,
                           .turn_stiffness = std::pow(10.0, 1 + 3 * any(random)) * N_m_per_rad,
                           .saddle_ahead = (10 * any(random) - 5) * mm,
                           .saddle_height = (5 + 15 * any(random)) * mm};
        const double by_drop = 200 * any(random) - 100, by_forward = 200 * any(random) - 100, bend = 3 * any(random);
        const auto load_at = [&](const basic_top_give<double>& g) {
            const double drop = g.drop / mm, forward = g.forward / mm;
            return top_load{(150 + by_drop * drop + bend * drop * drop + 20 * forward) * N,
                            (9 + 0.1 * by_forward * forward) * N_m};
        };
        // The plain way: the saddle goes where it was pressed, over and over.
        basic_top_give<double> give, before;
        int steps = 0;
        for (; steps < 400; ++steps) {
            before = give;
            const auto load = load_at(give);
            give = kernel::top_give<double>(t, load.down, load.turning);
            if (!(abs(give.drop - before.drop) + abs(give.forward - before.forward) > 1e-16 * metre)) { break; }
        }
        const bool rests = std::isfinite(give.drop / mm) && abs(give.drop - before.drop) < 1e-12 * metre;
        // Near the limit forty plain looks are too few for either way.
        if (rests && steps > 40) { continue; }
        int took = 0;
        const auto rest = settle_on_top(t, [&](const basic_top_give<double>& g) {
            ++took;
            return load_at(g);
        });
        INFO(i << ": " << steps << " plain steps");
        REQUIRE(rest.has_value() == rests);
        ++(rests ? settled : too_soft);
        if (!rests) { continue; }
        looks += took;
        plain_looks += steps + 1;
        CHECK(near::within(rest->drop, give.drop, 1e-12 * (1 * mm + abs(give.drop))));
        CHECK(near::within(rest->forward, give.forward, 1e-12 * (1 * mm + abs(give.forward))));
        CHECK(near::within(rest->turn, give.turn, 1e-12 * rad));
    }
    CHECK(settled > 50);
    CHECK(too_soft > 20);
    CHECK(looks * 3 < plain_looks * 2);
}

TEST_CASE("of a bridge that only sinks, derivatives rest with the values, in few looks, and its limits are the same") {
    using D = dual<double, 2>;
    using DD = dual<dual<double, 1>, 1>;
    for (const double by_drop : {-90.0, -20.0, 15.0, 60.0}) {
        for (const double bend : {0.0, 4.0}) {
            CAPTURE(by_drop);
            CAPTURE(bend);
            // Sunk by x mm the top resists with 200 x N and is pressed with p + q x + b x^2.
            const double p = 150, k = 200 - by_drop,
                         x = bend > 0 ? (k - std::sqrt(k * k - 4 * bend * p)) / (2 * bend) : p / k;
            const double slope = k - 2 * bend * x;
            const auto load_at = [&]<class R>(const basic_top_give<R>& g, const R& pressed, const R& linear) {
                const R drop = g.drop.value() * number<R>(1e3L);
                return basic_top_load<R>{force<R>::from_value(pressed + linear * drop + number<R>(bend) * drop * drop), {}};
            };
            int looks = 0;
            const auto d =
                settle_on_top(over<D>(soundboard{.sink_stiffness = 200 * N_per_mm}), [&](const basic_top_give<D>& g) {
                    ++looks;
                    return load_at(g, D::variable(p, 0), D::variable(by_drop, 1));
                });
            REQUIRE(d);
            CHECK(looks <= 6);
            CHECK(near::relative(d->drop.value().value, x * 1e-3, 1e-12));
            CHECK(near::relative(d->drop.value().partial[0], 1e-3 / slope, 1e-10));
            CHECK(near::relative(d->sink.value().partial[1], x * 1e-3 / slope, 1e-10));
            const auto dd =
                settle_on_top(over<DD>(soundboard{.sink_stiffness = 200 * N_per_mm}), [&](const basic_top_give<DD>& g) {
                    DD pressed(dual<double, 1>::variable(p, 0));
                    pressed.partial[0] = dual<double, 1>(1.0);
                    return load_at(g, pressed, DD(by_drop));
                });
            REQUIRE(dd);
            CHECK(near::within(dd->drop.value().partial[0].partial[0], 1e-3 * 2 * bend / (slope * slope * slope), 1e-14));
        }
    }
    const auto runs_away =
        settle_on_top(over<D>(soundboard{.sink_stiffness = 200 * N_per_mm}), [](const basic_top_give<D>& g) {
            return basic_top_load<D>{force<D>::from_value(D(150.0) + D(4e5) * g.drop.value()), {}};
        });
    CHECK_FALSE(runs_away);
}

TEST_CASE("what a held string does to a top is the work of its pull: length lost for each unit of sink and turn") {
    const bridge_string s{.slot = {.x = 0 * mm, .y = -15 * mm, .z = 3 * mm},
                          .saddle = {.x = 640 * mm, .y = -27 * mm, .z = 7 * mm},
                          .anchor = {.x = 660 * mm, .y = -27 * mm, .z = 0 * mm},
                          .tension = 80 * N};
    const auto load = held_load<double>(soft, std::vector<bridge_string>{s});
    // Saddle and pin move as one body; the path is nut, saddle, pin.
    const auto path = [&](double sink, double turn) {
        const auto at = [&](double x, double y, double z) {
            const double from_axis_x = 646 - x, from_axis_z = z - (7 - 14);
            return std::array{x - turn * from_axis_z, y, z - sink - turn * from_axis_x};
        };
        const auto saddle = at(640, -27, 7), pin = at(660, -27, 0);
        const std::array nut{0.0, -15.0, 3.0};
        const auto apart = [](const auto& a, const auto& b) {
            return std::sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) + (a[2] - b[2]) * (a[2] - b[2]));
        };
        return apart(nut, saddle) + apart(saddle, pin);
    };
    const double step = 1e-4;
    CHECK(near::within(load.down, -80 * N * ((path(step, 0) - path(-step, 0)) / (2 * step)), 1e-5 * N));
    CHECK(near::within(load.turning, -80 * N * ((path(0, step) - path(0, -step)) / (2 * step)) * mm, 1e-5 * N_m));
    // A string that rises toward the nut lifts.
    auto up = s;
    up.slot.z = 9 * mm;
    CHECK(held_load<double>(soft, std::vector<bridge_string>{up}).down < 0 * N);
    CHECK_THROWS_AS((void)held_load<double>(soft, std::vector<bridge_string>{}), invalid_input);
}

TEST_CASE("a top whose bridge does not turn gives by sinking alone") {
    const auto give = top_give(soundboard{.sink_stiffness = 200 * N_per_mm, .saddle_ahead = 6 * mm}, 150 * N, 9 * N_m);
    CHECK(give.drop == give.sink);
    CHECK(give.forward == 0 * mm);
}

TEST_CASE("a measurement gives the stiffness that gives the measurement") {
    auto t = soft;
    t.sink_stiffness = measured_stiffness(49.03 * N, 0.31 * mm);
    CHECK(near::within(top_give(t, 49.03 * N, 0 * N_m).sink, 0.31 * mm, 1e-9 * mm));
}

TEST_CASE("a section bears the strings' pull at their height over it") {
    const std::vector<bridge_string> strings{{.slot = {.x = 0 * mm, .z = 2 * mm},
                                              .saddle = {.x = 600 * mm, .z = 14 * mm},
                                              .anchor = {.x = 800 * mm, .z = -26 * mm},
                                              .tension = 70 * N}};
    const double speaking = 600 / std::hypot(600, 12), behind = 200 / std::hypot(200, 40);
    const auto neck = section_load<double>(strings, 300 * mm, -10 * mm);
    CHECK(near::relative(neck.compression, 70 * speaking * N, 1e-12));
    CHECK(near::relative(neck.bending, 70 * speaking * 0.018 * N_m, 1e-12));
    const auto tail = section_load<double>(strings, 700 * mm, -10 * mm);
    CHECK(near::relative(tail.compression, 70 * behind * N, 1e-12));
    CHECK(near::relative(tail.bending, 70 * behind * 0.004 * N_m, 1e-12));
}

TEST_CASE("property: across the bridge the bending changes by what the bridge bears") {
    // Cut just before and just behind: the difference is the moment and the push of the saddle's force.
    const bridge_string s{.slot = {.x = 0 * mm, .z = 2 * mm},
                          .saddle = {.x = 600 * mm, .z = 14 * mm},
                          .anchor = {.x = 800 * mm, .z = -26 * mm},
                          .tension = 70 * N};
    const std::vector<bridge_string> strings{s};
    const auto before = section_load<double>(strings, 599.9999 * mm, 3 * mm),
               behind = section_load<double>(strings, 600.0001 * mm, 3 * mm);
    const auto on = support_load(s.slot, s.saddle, s.anchor, s.tension).on_support;
    CHECK(near::within(behind.compression - before.compression, on.x, 1e-6 * N));
    CHECK(near::within(behind.bending - before.bending, 11 * mm * on.x, 1e-4 * N_m));
}

TEST_CASE("bad input is named") {
    auto hard = soft;
    hard.sink_stiffness = 0 * N_per_mm;
    CHECK_THROWS_WITH((void)top_give(hard, 1 * N, 0 * N_m),
                      "top.sink_stiffness is 0 N/mm; it must be at least 0.1 N/mm and at most 1000000000000 N/mm.");
    CHECK_THROWS_AS((void)measured_stiffness(1 * N, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)section_load<double>({}, 100 * mm, 0 * mm), invalid_input);
}
