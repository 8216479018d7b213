#include <tautline/neck/wanted.hpp>

#include <random>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("the rod's pull for a wanted relief gives that relief; one out of reach comes back with the nearest") {
    for (const bool free : {false, true}) {
        neck n = demo::neck_with_rod();
        n.rod->free_in_channel = free;
        const auto beam = make_beam(n);
        const auto c = demo::relief_from_first_to_joint();
        const auto slack = relief_under(beam, c);
        for (const double wanted : {0.9, 0.6, 0.3}) {
            const auto a = rod_pull_for_relief(beam, c, wanted * slack.gap, 3000 * N);
            REQUIRE(a.reachable);
            CHECK(near::within(a.relief.gap, wanted * slack.gap, 1e-9 * mm));
            CHECK(near::within(relief_under(beam, c, a.pull).gap, wanted * slack.gap, 1e-9 * mm));
        }
        const auto back = rod_pull_for_relief(beam, c, -0.05 * mm, 5000 * N);
        REQUIRE(back.reachable);
        CHECK(near::within(back.relief.gap, -0.05 * mm, 1e-9 * mm));
        const auto more = rod_pull_for_relief(beam, c, 2.0 * slack.gap, 3000 * N);
        CHECK_FALSE(more.reachable); // a single rod does not add relief
        CHECK(more.pull == 0 * N);
        CHECK(near::within(more.relief.gap, slack.gap, 1e-12 * mm));
        const auto less = rod_pull_for_relief(beam, c, 0.1 * slack.gap, 100 * N);
        CHECK_FALSE(less.reachable);
        CHECK(less.pull == 100 * N);
    }
}

TEST_CASE("a two-way rod adds relief as well") {
    neck n = demo::neck_with_rod();
    n.rod->separation = 6 * mm;
    const auto beam = make_beam(n);
    const auto c = demo::relief_from_first_to_joint();
    const auto wanted = 1.3 * relief_under(beam, c).gap;
    const auto a = rod_pull_for_relief(beam, c, wanted, 3000 * N);
    REQUIRE(a.reachable);
    CHECK(a.pull < 0 * N);
    CHECK(near::within(a.relief.gap, wanted, 1e-9 * mm));
}

TEST_CASE("property: moduli calibrated on a measured change are those it was made with") {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> any(0.6, 1.7);
    const auto c = demo::relief_from_first_to_joint();
    auto slack = c;
    slack.strings.clear();
    for (int i = 0; i < 10; ++i) {
        neck n = demo::plain_neck();
        n.set = {{.x = 0 * mm}, {.x = 170 * mm, .z = -0.1 * mm}, {.x = 347.7 * mm}};
        const double factor = any(random);
        const auto truth = make_beam(kernel::with_moduli_times(n, factor));
        const auto change = relief_under(truth, c).gap - relief_under(truth, slack).gap;
        const auto found = calibrate_moduli(n, c, change, 0.01 * mm);
        REQUIRE(found.reachable);
        CHECK(near::relative(found.factor, factor, 1e-9));
        CHECK(near::within(found.predicted, change, 1e-9 * mm));
        CHECK(near::relative(relief_under(make_beam(found.neck), c).gap, relief_under(truth, c).gap, 1e-9));
        // The uncertainty is what a change read 0.01 mm larger does, to first order.
        const auto other = calibrate_moduli(n, c, change + 0.0001 * mm, 0.01 * mm);
        CHECK(near::relative(found.uncertainty, 100 * (found.factor - other.factor), 0.01));
    }
}

TEST_CASE("a change no modulus explains comes back with the nearest") {
    const auto c = demo::relief_from_first_to_joint();
    const auto found = calibrate_moduli(demo::plain_neck(), c, 0.0001 * mm, 0 * mm);
    CHECK_FALSE(found.reachable);
    CHECK(near::relative(found.factor, 20.0, 1e-9));
    CHECK(found.predicted > 0.0001 * mm);
}

TEST_CASE("the heaviest strings keep just below the limit") {
    const auto beam = make_beam(demo::plain_neck());
    const auto c = demo::relief_from_first_to_joint();
    const auto now = relief_under(beam, c).gap;
    for (const double times : {0.5, 1.0, 1.5, 3.0}) {
        const auto h = heaviest_strings(beam, c, times * now);
        REQUIRE(h.limited);
        auto scaled = c;
        for (auto& s : scaled.strings) { s.pull = s.pull * h.share; }
        CHECK(near::within(relief_under(beam, scaled).gap, times * now, 1e-9 * mm));
        CHECK(near::within(h.relief, times * now, 1e-9 * mm));
        CHECK(near::relative(h.pull, kernel::gather<double>(scaled.strings).pull, 1e-12));
        if (times == 1.0) { CHECK(near::relative(h.share, 1.0, 1e-9)); }
    }
    const auto free = heaviest_strings(beam, c, 49 * mm);
    CHECK_FALSE(free.limited);
    const auto none = heaviest_strings(beam, c, -1 * mm);
    CHECK(none.limited);
    CHECK(none.share == 0);
}

TEST_CASE("a bar of carbon stiffens, a channel softens; a bar near the neutral axis does little") {
    const neck n = demo::plain_neck();
    const auto c = demo::relief_from_first_to_joint();
    const insert bar{
        .x_from = 0 * mm, .x_to = 340 * mm, .top = -6.5 * mm, .width = 5 * mm, .height = 11 * mm, .modulus = 120 * GPa};
    const auto e = effect_of(n, bar, c);
    CHECK(e.after.gap < e.before.gap);
    CHECK(e.nut_rise_after < e.nut_rise_before);
    CHECK(e.stiffer > 1.1);
    auto channel = bar;
    channel.modulus = 0 * GPa;
    const auto f = effect_of(n, channel, c);
    CHECK(f.after.gap > f.before.gap);
    CHECK(f.stiffer < 1);
    auto flat = bar;
    flat.top = -7 * mm;
    flat.height = 3 * mm;
    CHECK(effect_of(n, flat, c).stiffer < 0.3 * (e.stiffer - 1) + 1);
    CHECK_THROWS_AS((void)effect_of(n, insert{}, c), invalid_input);
}

TEST_CASE("the answers run on other number types and carry derivatives") {
    using D = dual<double, 1>;
    const auto pull = [](auto modulus) {
        using R = decltype(modulus);
        auto n = over<R>(demo::neck_with_rod());
        n.back_modulus = stress<R>::from_value(modulus);
        return rod_pull_for_relief<R>(make_beam(n), over<R>(demo::relief_from_first_to_joint()), over<R>(0.1 * mm),
                                      over<R>(3000 * N))
            .pull.value();
    };
    const double exact = pull(D::variable(10e9, 0)).partial[0];
    CHECK(near::relative(exact, (pull(10e9 + 1e5) - pull(10e9 - 1e5)) / 2e5, 1e-4));
    CHECK(near::relative(static_cast<double>(pull(10e9L)), pull(10e9), 1e-9));
    const auto share = [](auto modulus) {
        using R = decltype(modulus);
        auto n = over<R>(demo::plain_neck());
        n.back_modulus = stress<R>::from_value(modulus);
        return heaviest_strings<R>(make_beam(n), over<R>(demo::relief_from_first_to_joint()), over<R>(0.3 * mm)).share;
    };
    CHECK(near::relative(share(D::variable(10e9, 0)).partial[0], (share(10e9 + 1e5) - share(10e9 - 1e5)) / 2e5, 1e-4));
}

TEST_CASE("bad input is named") {
    const auto beam = make_beam(demo::neck_with_rod());
    auto c = demo::relief_from_first_to_joint();
    CHECK_THROWS_AS((void)rod_pull_for_relief(make_beam(demo::plain_neck()), c, 0.1 * mm, 1000 * N), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_for_relief(beam, c, std::nan("") * mm, 1000 * N), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_for_relief(beam, c, 0.1 * mm, 0 * N), invalid_input);
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, 0 * mm, 0.01 * mm), invalid_input);
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, 0.1 * mm, -1 * mm), invalid_input);
    c.last = 40;
    CHECK_THROWS_WITH((void)relief_under(beam, c), "case.last must be one of the crests, after the first one.");
    c = demo::relief_from_first_to_joint();
    c.first = 12;
    CHECK_THROWS_AS((void)relief_under(beam, c), invalid_input);
    c = demo::relief_from_first_to_joint();
    c.crests[4].x = c.crests[3].x;
    CHECK_THROWS_WITH((void)relief_under(beam, c),
                      "case.crests[4].x must be further from the nut than the crest before it.");
    c = demo::relief_from_first_to_joint();
    c.strings.clear();
    CHECK_THROWS_AS((void)heaviest_strings(beam, c, 0.1 * mm), invalid_input);
    c.crests.clear();
    CHECK_THROWS_AS((void)relief_under(beam, c), invalid_input);
}
