#include <tautline/neck/bending.hpp>

#include "demo_neck.hpp"
#include "near.hpp"
#include "random_neck.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("bending_along: the moment is the statics of what is cut free on the nut's side, the strings where they went") {
    const auto pulls = demo::strings();
    const auto rod_pull = 900 * N;
    for (const bool free : {false, true}) {
        neck n = demo::neck_with_rod();
        n.rod->free_in_channel = free;
        const auto beam = make_beam(n, 129);
        const auto b = bend(beam, pulls, rod_pull);
        const auto w = [&](tautline::length<> place) { return deflection_at(b, place); };
        int inside = 0;
        for (const auto& here : bending_along(beam, pulls, rod_pull)) {
            const auto x = here.x;
            if (x < 20 * mm || x > 325 * mm) { continue; } // the rod's ends are looked at below
            const auto s = section_at(n, x);
            const auto line = w(10 * mm) + (w(332 * mm) - w(10 * mm)) * ratio(x - 10 * mm, 322 * mm);
            moment<> m = -rod_pull * (s.neutral_axis + (free ? w(x) - line : 0 * mm) - (-13.5 * mm));
            for (const auto& p : pulls) {
                const auto nut = p.z_nut + b.nut_rise();
                m += p.pull * (nut + (p.z_saddle - nut) * ratio(x, p.x_saddle) - (s.neutral_axis + w(x)));
            }
            CHECK(near::relative(here.moment, m, 1e-6));
            CHECK(near::relative(here.curvature, m / s.bending_rigidity, 1e-6));
            ++inside;
        }
        CHECK(inside > 40);
    }
}

TEST_CASE("bending_along: curvature is the bow's second difference, whatever is in the neck") {
    demo::random_necks make(31);
    for (int i = 0; i < 12; ++i) {
        const auto kind = static_cast<demo::rod_kind>(i % 4);
        const auto made = make(kind);
        const auto pull = kind == demo::rod_kind::none ? 0 * N : make.any(0, 300) * N;
        const auto beam = make_beam(made.bare, 513);
        const auto b = bend(beam, made.c.strings, pull);
        const auto all = bending_along(beam, made.c.strings, pull);
        CHECK(all.front().x == 0 * mm);
        CHECK(all.back().x == beam.joint);
        // Steps in a row say the slope's growth: by Simpson's rule over two of them, and only without a break between.
        double furthest = 0;
        for (std::size_t k = 1; k < all.size(); ++k) {
            const auto h = all[k].x - all[k - 1].x;
            if (!(h > 0.2 * mm)) { continue; }
            const auto slope = [&](tautline::length<> at) {
                const auto d = h * 1e-3;
                return (deflection_at(b, at + d) - kernel::permanent_bow_at<double>(b.set, at + d) -
                        deflection_at(b, at - d) + kernel::permanent_bow_at<double>(b.set, at - d)) /
                       (2.0 * d);
            };
            const auto grown = slope(all[k].x - h * 0.01) - slope(all[k - 1].x + h * 0.01);
            const auto said = 0.98 * h * 0.5 * (all[k].curvature + all[k - 1].curvature);
            furthest = std::max(furthest, std::abs(grown.value() - said.value()));
        }
        double largest = 0;
        for (const auto& here : all) { largest = std::max(largest, std::abs(here.curvature.value())); }
        CAPTURE(i);
        CHECK(furthest < 2e-5 * largest * (beam.joint / metre));
    }
}

TEST_CASE("bending_along: a couple at the nut is the same everywhere, a load across grows with the lever") {
    // As handbooks have a cantilever: M, and P x from the free end. So little load that nothing moves.
    const auto slab = [](double x) {
        return neck_station{
            .x = x * mm, .half_width = 20 * mm, .board_thickness = 5 * mm, .back_depth = 10 * mm, .back_exponent = 3};
    };
    const neck n{.stations = {slab(0), slab(300)},
                 .board_modulus = 10 * GPa,
                 .back_modulus = 10 * GPa,
                 .pure_bending_factor = 1,
                 .joint = 300 * mm};
    const auto beam = make_beam(n);
    const auto axis = beam.points[0].neutral_axis;
    const auto feather = 1e-6 * N;
    const std::vector couple{
        string_pull{.pull = feather, .z_nut = axis + 20 * mm, .z_saddle = axis + 20 * mm, .x_saddle = 1 * metre}};
    for (const auto& here : bending_along(beam, couple)) {
        CHECK(near::relative(here.moment, feather * (20 * mm), 1e-6));
        CHECK(near::relative(here.curvature, feather * (20 * mm) / beam.points[0].bending_rigidity, 1e-6));
    }
    const std::vector across{
        string_pull{.pull = feather, .z_nut = axis, .z_saddle = axis + 200 * mm, .x_saddle = 1 * metre}};
    for (const auto& here : bending_along(beam, across)) {
        CHECK(near::within(here.moment, 0.2 * feather * here.x, 1e-9 * (feather * metre)));
    }
    for (const auto& here : bending_along(beam, {})) { CHECK(here.moment.value() == 0); }
}

TEST_CASE("bending_along: the moment jumps where the rod begins, by its pull times its depth under the neutral axis") {
    const auto n = demo::neck_with_rod();
    const auto beam = make_beam(n);
    const auto all = bending_along(beam, demo::strings(), 900 * N);
    force<> pull{};
    for (const auto& p : demo::strings()) { pull += p.pull; }
    int jumps = 0;
    for (std::size_t i = 1; i < all.size(); ++i) {
        const bool begins = all[i].x == 10 * mm, ends = all[i].x == 332 * mm;
        if (all[i].x != all[i - 1].x || (!begins && !ends)) { continue; }
        ++jumps;
        // The rod's channel begins and ends there too, and the neutral axis jumps with it.
        const auto before = section_at(n, all[i].x - 1e-6 * mm), after = section_at(n, all[i].x + 1e-6 * mm);
        const auto rod = (900 * N) * ((begins ? after : before).neutral_axis + 13.5 * mm);
        const auto jump = -pull * (after.neutral_axis - before.neutral_axis) + (begins ? -rod : rod);
        CHECK(near::relative(all[i].moment - all[i - 1].moment, jump, 1e-6));
    }
    CHECK(jumps == 2);
}

TEST_CASE("bending_along carries derivatives, refuses a neck that buckles and bad input") {
    using D = dual<double, 1>;
    const auto at_joint = [](auto pull) {
        using R = decltype(pull);
        std::vector<basic_string_pull<R>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<R>(s)); }
        pulls[0].pull = force<R>::from_value(pull);
        return bending_along<R>(make_beam(over<R>(demo::plain_neck())), pulls).back().moment.value();
    };
    CHECK(near::relative(at_joint(D::variable(110, 0)).partial[0], (at_joint(110.01) - at_joint(109.99)) / 0.02, 1e-6));
    const auto beam = make_beam(demo::plain_neck());
    const string_pull heavy{.pull = 5000 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm};
    CHECK_THROWS_AS((void)bending_along(beam, std::vector(10, heavy)), invalid_input);
    CHECK_THROWS_AS((void)bending_along(beam, demo::strings(), 10 * N), invalid_input); // no rod
    CHECK_THROWS_AS((void)bending_along(neck_beam{}, demo::strings()), invalid_input);
    // Creep bows further and does not bend harder.
    neck lasting = demo::plain_neck();
    lasting.creep_factor = 1.5;
    const auto now = bending_along(beam, demo::strings()).back(),
               later = bending_along(make_beam(lasting), demo::strings()).back();
    CHECK(near::relative(later.moment, now.moment, 1e-12));
    CHECK(near::relative(later.curvature, 1.5 * now.curvature, 1e-12));
}
