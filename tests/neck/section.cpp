#include <tautline/neck/section.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("log-gamma reproduces factorials and half-integer values") {
    CHECK(near::within(kernel::log_gamma(1.0), 0.0, 1e-14));
    CHECK(near::within(kernel::log_gamma(2.0), 0.0, 1e-14));
    CHECK(near::relative(kernel::log_gamma(5.0), std::log(24.0), 1e-14));
    CHECK(near::relative(kernel::log_gamma(0.5), std::log(std::numbers::pi) / 2, 1e-14));
    for (const double x : {0.05, 0.7, 1.3, 3.9}) { CHECK(near::within(kernel::log_gamma(x), std::lgamma(x), 1e-13)); }
}

TEST_CASE("a superellipse's shape grows from triangle to rectangle") {
    const auto v = superellipse_shape(1.0);
    CHECK(near::relative(v.area, 0.5, 1e-13));
    CHECK(near::relative(v.first, 1.0 / 3, 1e-13));
    CHECK(near::relative(v.second, 0.25, 1e-13));
    double last = 0;
    for (const double k : {1.0, 1.4, 2.0, 3.0, 6.0, 20.0}) {
        const auto s = superellipse_shape(k);
        CHECK(s.area > last);
        CHECK(s.area > s.first);
        CHECK(s.first > s.second);
        CHECK(s.area < 1);
        last = s.area;
    }
}

TEST_CASE("property: moving a section up moves its axis and leaves its rigidities") {
    std::mt19937 random(21);
    std::uniform_real_distribution<double> any(0.5, 2);
    for (int i = 0; i < 200; ++i) {
        const double e = 10 * any(random), b = 20 * any(random), h = 16 * any(random), up = 3 * any(random);
        const auto shape = superellipse_shape(1 + 2 * any(random));
        const auto low = section_from(back_sums<double>(e * GPa, b * mm, h * mm, -6 * mm, shape));
        const auto high = section_from(back_sums<double>(e * GPa, b * mm, h * mm, (-6 + up) * mm, shape));
        CHECK(near::relative(low.bending_rigidity, high.bending_rigidity, 1e-10));
        CHECK(near::relative(low.axial_rigidity, high.axial_rigidity, 1e-12));
        CHECK(near::within(high.neutral_axis - low.neutral_axis, up * mm, 1e-9 * mm));
    }
}

TEST_CASE("pieces add: a board of the back's wood makes one thicker rectangle") {
    const auto board = board_sums(9 * GPa, 20 * mm, 6 * mm, 0 * per_metre);
    const auto back = back_sums<double>(9 * GPa, 20 * mm, 14 * mm, -6 * mm, back_shape{});
    const auto whole = rectangle_sums(9 * GPa, 40 * mm, 0 * mm, -20 * mm);
    const auto s = section_from(board + back), w = section_from(whole);
    CHECK(near::relative(s.bending_rigidity, w.bending_rigidity, 1e-12));
    CHECK(near::relative(s.neutral_axis, w.neutral_axis, 1e-12));
    // What is taken out again is gone.
    const auto rest = section_from(whole - board);
    CHECK(near::relative(rest.bending_rigidity, section_from(back).bending_rigidity, 1e-10));
}

TEST_CASE("a stiffer board draws the neutral axis up; an arched top costs stiffness") {
    const auto at = [](double e, double arc) {
        return section_from(board_sums(e * GPa, 22 * mm, 6 * mm, arc * per_metre) +
                            back_sums<double>(10 * GPa, 22 * mm, 15 * mm, -6 * mm, superellipse_shape(2.0)));
    };
    CHECK(at(17, 0).neutral_axis > at(10, 0).neutral_axis);
    CHECK(at(17, 0).bending_rigidity > at(10, 0).bending_rigidity);
    CHECK(at(17, 1 / 0.184).bending_rigidity < at(17, 0).bending_rigidity);
}

TEST_CASE("an arched board's sums are the integrals over its section, on a flat back and on one that follows the arc") {
    const double e = 12e9, b = 0.022, t = 0.006;
    for (const double arc : {0.0, 3.3, 12.0}) {
        for (const bool follows : {false, true}) {
            // Strips of the section from side to side, each from its top down to its bottom.
            double ea = 0, es = 0, ej = 0;
            const int strips = 20000;
            for (int k = 0; k < strips; ++k) {
                const double dy = 2 * b / strips, y = -b + (k + 0.5) * dy;
                const double fall = arc > 0 ? 1 / arc - std::sqrt(1 / (arc * arc) - y * y) : 0;
                const double top = -fall, bottom = follows ? -fall - t : -t;
                ea += e * dy * (top - bottom);
                es += e * dy * (top * top - bottom * bottom) / 2;
                ej += e * dy * (top * top * top - bottom * bottom * bottom) / 3;
            }
            const auto sums = kernel::board_sums<double>(e * Pa, b * metre, t * metre, arc * per_metre,
                                                         kernel::arc_shape_of<double>(arc * b), follows);
            CHECK(near::relative(sums.ea.value(), ea, 1e-7));
            CHECK(near::relative(sums.es.value(), es, 1e-7));
            CHECK(near::relative(sums.ej.value(), ej, 1e-7));
        }
    }
}

TEST_CASE("number types: float follows double; a dual carries every derivative of the rigidity") {
    const auto rigidity = [](auto b, auto t, auto arc, auto h, auto k) {
        using R = decltype(b);
        return kernel::section_from<R>(
                   kernel::board_sums<R>(over<R>(15 * GPa), tautline::length<R>::from_value(b),
                                         tautline::length<R>::from_value(t), curvature<R>::from_value(arc)) +
                   kernel::back_sums<R>(over<R>(10 * GPa), tautline::length<R>::from_value(b),
                                        tautline::length<R>::from_value(h), -tautline::length<R>::from_value(t),
                                        kernel::superellipse_shape<R>(k)))
            .bending_rigidity.value();
    };
    using D = dual<double, 5>;
    double at[] = {0.022, 0.006, 3.3, 0.016, 2.3};
    const auto exact = rigidity(D::variable(at[0], 0), D::variable(at[1], 1), D::variable(at[2], 2), D::variable(at[3], 3),
                                D::variable(at[4], 4));
    const auto plain = [&] { return rigidity(at[0], at[1], at[2], at[3], at[4]); };
    CHECK(near::relative(exact.value, plain(), 1e-14));
    for (std::size_t i = 0; i < 5; ++i) {
        const double keep = at[i], step = 1e-5 * keep;
        at[i] = keep + step;
        const double up = plain();
        at[i] = keep - step;
        const double down = plain();
        at[i] = keep;
        CHECK(near::relative(exact.partial[i], (up - down) / (2 * step), 1e-6));
    }
    CHECK(near::relative(static_cast<double>(rigidity(0.022f, 0.006f, 3.3f, 0.016f, 2.3f)), plain(), 1e-5));
    CHECK(near::relative(static_cast<double>(rigidity(0.022L, 0.006L, 3.3L, 0.016L, 2.3L)), plain(), 1e-13));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)rectangle_sums(-1 * GPa, 1 * mm, 0 * mm, -1 * mm),
                      "modulus is -1000 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_AS((void)rectangle_sums(1 * GPa, 0 * mm, 0 * mm, -1 * mm), invalid_input);
    CHECK_THROWS_AS((void)rectangle_sums(1 * GPa, 1 * mm, -1 * mm, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)board_sums(1 * GPa, 20 * mm, 6 * mm, 100 * per_metre),
                    invalid_input); // arc narrower than the board
    CHECK_THROWS_AS((void)board_sums(1 * GPa, 40 * mm, 1 * mm, 10 * per_metre), invalid_input); // thinner than its sagitta
    CHECK_THROWS_AS((void)board_sums(1 * GPa, std::nan("") * mm, 6 * mm, 0 * per_metre), invalid_input);
    CHECK_THROWS_AS((void)superellipse_shape(0.9), invalid_input);
    CHECK_THROWS_AS((void)superellipse_shape(21.0), invalid_input);
    CHECK_THROWS_AS((void)back_sums<double>(1 * GPa, 20 * mm, -1 * mm, 0 * mm, back_shape{}), invalid_input);
    const auto piece = rectangle_sums(1 * GPa, 1 * mm, 0 * mm, -1 * mm);
    CHECK_THROWS_AS((void)section_from(piece - piece), invalid_input);
}
