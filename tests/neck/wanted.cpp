#include <tautline/neck/wanted.hpp>

#include "demo_neck.hpp"
#include "near.hpp"
#include "random_neck.hpp"
#include "sanitized.hpp"

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
            REQUIRE(a.reachable());
            CHECK(near::within(a.relief.gap, wanted * slack.gap, 1e-9 * mm));
            CHECK(near::within(relief_under(beam, c, a.pull).gap, wanted * slack.gap, 1e-9 * mm));
        }
        const auto back = rod_pull_for_relief(beam, c, -0.05 * mm, 5000 * N);
        REQUIRE(back.reachable());
        CHECK(near::within(back.relief.gap, -0.05 * mm, 1e-9 * mm));
        const auto more = rod_pull_for_relief(beam, c, 2.0 * slack.gap, 3000 * N);
        CHECK(more.why == rod_shortfall::slack); // a single rod does not add relief
        CHECK(more.pull == 0 * N);
        CHECK(near::within(more.relief.gap, slack.gap, 1e-12 * mm));
        const auto less = rod_pull_for_relief(beam, c, 0.1 * slack.gap, 100 * N);
        CHECK(less.why == rod_shortfall::most_pull);
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
    REQUIRE(a.reachable());
    CHECK(a.pull < 0 * N);
    CHECK(near::within(a.relief.gap, wanted, 1e-9 * mm));
    const auto more = rod_pull_for_relief(beam, c, 5 * mm, 3000 * N);
    CHECK(more.why == rod_shortfall::most_push);
    CHECK(more.pull == -3000 * N);
}

TEST_CASE("rod_pull_for_relief reaches the signed relief that is wished, or says why not, for random necks and rods" *
          doctest::skip(sanitized)) {
    demo::random_necks make(11);
    int met = 0, uneven = 0, slack = 0, weak = 0;
    for (int i = 0; i < 60; ++i) {
        const auto made = make(static_cast<demo::rod_kind>(1 + i % 3));
        const auto beam = make_beam(made.bare);
        const auto most = 2500 * N, least = beam.rod->two_way() ? -most : 0 * N;
        const auto at = [&](tautline::force<> pull) { return relief_under(beam, made.c, pull).gap; };
        for (const double wish : {-0.3, -0.1, -0.02, -0.01, 0.0, 0.005, 0.01, 0.02, 0.05, 0.1, 0.25, 0.6}) {
            CAPTURE(i);
            CAPTURE(wish);
            const auto wanted = wish * mm;
            const auto a = rod_pull_for_relief(beam, made.c, wanted, most);
            CHECK(a.relief.gap == at(a.pull));
            const double off = (a.relief.gap - wanted) / mm;
            switch (a.why) {
            case rod_shortfall::none:
                ++met;
                CHECK(std::abs(off) < 1e-9);
                break;
            case rod_shortfall::slack:
                ++slack;
                CHECK(a.pull == 0 * N);
                CHECK(off < 0);
                break;
            case rod_shortfall::most_push:
                CHECK(a.pull == least);
                CHECK(off < 0);
                break;
            case rod_shortfall::most_pull:
                ++weak;
                CHECK(a.pull == most);
                CHECK(off > 0);
                break;
            case rod_shortfall::uneven: {
                ++uneven;
                // The sign that is wished, and no pull of 400 leaves a smaller magnitude.
                CHECK((a.relief.gap < 0 * mm) == (wish < 0));
                CHECK(abs(a.relief.gap) > abs(wanted));
                for (int k = 0; k <= 400; ++k) {
                    const auto other = at(least + (most - least) * (k / 400.0));
                    REQUIRE(abs(other) > abs(a.relief.gap) - 1e-6 * mm);
                }
                break;
            }
            case rod_shortfall::wrong_way:
                FAIL_CHECK("every rod here lies below the neutral axis");
            }
        }
    }
    CHECK(met > 100);
    CHECK(uneven > 50);
    CHECK(slack > 10);
    CHECK(weak > 10);
}

TEST_CASE("rod_pull_for_relief: 0 is the straightest the rod makes it, hollow and back-bow as large, and reads as hollow") {
    const auto beam = make_beam(demo::neck_with_rod());
    const auto c = demo::relief_from_first_to_joint();
    const auto a = rod_pull_for_relief(beam, c, 0 * mm, 3000 * N);
    CHECK(a.why == rod_shortfall::uneven);
    const auto gaps = kernel::gaps_of(bend(beam, c.strings, a.pull), c);
    CHECK(near::within(gaps.hollow, -gaps.back, 2e-6 * mm));
    CHECK(a.relief.gap == gaps.hollow);
    CHECK(a.relief.gap > 0 * mm);
    CHECK(a.relief.gap < 0.03 * mm);
    // A wish of just what is left there is met by the same pull, and a smaller one by none.
    const auto left = a.relief.gap;
    CHECK(rod_pull_for_relief(beam, c, 1.001 * left, 3000 * N).reachable());
    CHECK(near::relative(rod_pull_for_relief(beam, c, 1.001 * left, 3000 * N).pull, a.pull, 1e-3));
    CHECK(rod_pull_for_relief(beam, c, -1.001 * left, 3000 * N).reachable());
    CHECK(near::relative(rod_pull_for_relief(beam, c, 0.5 * left, 3000 * N).pull, a.pull, 1e-9));
    CHECK(near::relative(rod_pull_for_relief(beam, c, -0.5 * left, 3000 * N).pull, a.pull, 1e-5));
    // Frets that lie on a perfect line with the rod slack and no strings: nothing is left.
    auto bare = c;
    bare.strings.clear();
    const auto none = rod_pull_for_relief(beam, bare, 0 * mm, 3000 * N);
    CHECK(none.reachable());
    CHECK(near::within(none.pull, 0 * N, 1e-3 * N));
}

TEST_CASE("property: rod_pull_for_relief never asks more pull for more relief, and a wish a little lower is no jump") {
    demo::random_necks make(12);
    for (int i = 0; i < 9; ++i) {
        const auto made = make(static_cast<demo::rod_kind>(1 + i % 3));
        const auto beam = make_beam(made.bare);
        const auto pull = [&](double wish) { return rod_pull_for_relief(beam, made.c, wish * mm, 2500 * N).pull / N; };
        double last = 1e9;
        for (double wish = -0.2; wish < 0.2; wish += 0.004) {
            CAPTURE(i);
            CAPTURE(wish);
            const double here = pull(wish), lower = pull(wish - 1e-6);
            CHECK(here <= last + 1e-9);
            CHECK(lower >= here - 1e-9);
            CHECK(lower - here < 0.1);
            last = here;
        }
    }
}

TEST_CASE("a rod above the neutral axis adds relief: pulling it meets wishes above the slack neck's, none below") {
    neck n = demo::plain_neck();
    n.rod = truss_rod{.x_from = 10 * mm, .x_to = 332 * mm, .z_ends = -4 * mm, .dip = 0 * mm};
    const auto beam = make_beam(n);
    const auto c = demo::relief_from_first_to_joint();
    const auto slack = relief_under(beam, c).gap;
    const auto more = rod_pull_for_relief(beam, c, 1.1 * slack, 3000 * N);
    REQUIRE(more.reachable());
    CHECK(more.pull > 0 * N);
    CHECK(near::within(more.relief.gap, 1.1 * slack, 1e-9 * mm));
    const auto less = rod_pull_for_relief(beam, c, 0.9 * slack, 3000 * N);
    CHECK(less.why == rod_shortfall::wrong_way);
    CHECK(less.pull == 0 * N);
    const auto most = rod_pull_for_relief(beam, c, 10 * mm, 3000 * N);
    CHECK(most.why == rod_shortfall::most_pull);
    CHECK(most.pull == 3000 * N);
}

TEST_CASE("the heaviest strings keep just below the limit") {
    const auto beam = make_beam(demo::plain_neck());
    const auto c = demo::relief_from_first_to_joint();
    const auto now = relief_under(beam, c).gap;
    for (const double times : {0.5, 1.0, 1.5, 3.0}) {
        const auto h = heaviest_strings(beam, c, times * now);
        REQUIRE(h.has_value());
        REQUIRE(h->limited);
        auto scaled = c;
        for (auto& s : scaled.strings) { s.pull = s.pull * h->share; }
        CHECK(near::within(relief_under(beam, scaled).gap, times * now, 1e-9 * mm));
        CHECK(near::within(h->relief, times * now, 1e-9 * mm));
        CHECK(near::relative(h->pull, kernel::gather<double>(scaled.strings).pull, 1e-12));
        if (times == 1.0) { CHECK(near::relative(h->share, 1.0, 1e-9)); }
    }
    const auto free = heaviest_strings(beam, c, 49 * mm);
    REQUIRE(free.has_value());
    CHECK_FALSE(free->limited);
}

TEST_CASE("heaviest_strings has none where the neck is above the limit without any") {
    const auto c = demo::relief_from_first_to_joint();
    CHECK_FALSE(heaviest_strings(make_beam(demo::plain_neck()), c, -1 * mm).has_value());
    CHECK_FALSE(heaviest_strings(make_beam(demo::plain_neck()), c, 0 * mm).has_value()); // any string bows it
    neck hollow = demo::plain_neck();
    hollow.set = {{.x = 30 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = -0.3 * mm}, {.x = 347 * mm, .z = 0 * mm}};
    const auto beam = make_beam(hollow);
    auto slack = c;
    slack.strings.clear();
    const auto gap = relief_under(beam, slack).gap;
    REQUIRE(gap > 0.2 * mm);
    CHECK_FALSE(heaviest_strings(beam, c, gap - 0.01 * mm).has_value());
    const auto a_little = heaviest_strings(beam, c, gap + 0.01 * mm);
    REQUIRE(a_little.has_value());
    CHECK(a_little->share > 0);
    CHECK(a_little->share < 0.2);
}

TEST_CASE(
    "heaviest_strings keeps the signed relief, for random necks and rods: a little heavier and it is above the limit") {
    demo::random_necks make(13);
    int limited = 0, none = 0, leaps = 0;
    for (int i = 0; i < 60; ++i) {
        const auto kind = static_cast<demo::rod_kind>(i % 4);
        const auto made = make(kind);
        const auto beam = make_beam(made.bare);
        const auto rod_pull = kind == demo::rod_kind::none ? 0 * N : make.any(0, 2000) * N;
        const auto at = [&](double share) {
            auto scaled = made.c;
            for (auto& s : scaled.strings) { s.pull = s.pull * share; }
            return relief_under(beam, scaled, rod_pull).gap;
        };
        for (const double mm_limit : {-0.2, -0.01, 0.0, 0.01, 0.1, 0.3}) {
            CAPTURE(i);
            CAPTURE(mm_limit);
            const auto limit = mm_limit * mm;
            const auto h = heaviest_strings(beam, made.c, limit, rod_pull);
            if (!h) {
                ++none;
                CHECK(at(0) >= limit);
                continue;
            }
            CHECK(at(h->share) <= limit + 1e-9 * mm);
            CHECK(near::within(h->relief, at(h->share), 1e-12 * mm));
            if (!h->limited) { continue; }
            ++limited;
            CHECK(at(1.0001 * h->share) > limit);
            leaps += h->relief < limit - 1e-6 * mm; // from a back-bow to a hollow as large
        }
    }
    CHECK(limited > 50);
    CHECK(none > 50);
    CHECK(leaps > 5);
}

TEST_CASE("heaviest_strings stays below buckling where a free rod alone comes near it") {
    neck n = demo::neck_with_rod();
    n.rod->free_in_channel = true;
    n.rod->z_ends = -9 * mm; // near the neutral axis: it presses the neck more than it bends it
    const auto beam = make_beam(n);
    auto c = demo::relief_from_first_to_joint();
    for (auto& s : c.strings) { s.pull = s.pull * 5.0; }
    const kernel::bow_problem<double> rod_alone{beam, {}, 80000 * N, {}};
    const auto rod_pull = 80000 * N * (0.9 * kernel::buckling_share(rod_alone));
    const auto h = heaviest_strings(beam, c, 40 * mm, rod_pull);
    REQUIRE(h.has_value());
    auto scaled = c;
    for (auto& s : scaled.strings) { s.pull = s.pull * h->share; }
    CHECK_NOTHROW((void)relief_under(beam, scaled, rod_pull));
    CHECK(near::within(h->relief, relief_under(beam, scaled, rod_pull).gap, 1e-9 * mm));
    CHECK_THROWS_AS((void)heaviest_strings(beam, c, 40 * mm, rod_pull * 1.2), invalid_input);
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
    CHECK_THROWS_AS((void)effect_of(n, insert(), c), invalid_input);
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
        return heaviest_strings<R>(make_beam(n), over<R>(demo::relief_from_first_to_joint()), over<R>(0.3 * mm))->share;
    };
    CHECK(near::relative(share(D::variable(10e9, 0)).partial[0], (share(10e9 + 1e5) - share(10e9 - 1e5)) / 2e5, 1e-4));
}

TEST_CASE("bad input is named") {
    const auto beam = make_beam(demo::neck_with_rod());
    auto c = demo::relief_from_first_to_joint();
    CHECK_THROWS_AS((void)rod_pull_for_relief(make_beam(demo::plain_neck()), c, 0.1 * mm, 1000 * N), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_for_relief(beam, c, std::nan("") * mm, 1000 * N), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_for_relief(beam, c, 0.1 * mm, 0 * N), invalid_input);
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
