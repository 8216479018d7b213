#include <tautline/board/scale.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("scale: the octave fret halves the scale, whatever the steps") {
    for (const int steps : {5, 12, 19, 24, 31}) {
        const scale s{.scale_length = 648 * mm, .steps = steps, .frets = 2 * steps};
        CHECK(near::relative(fret_position(s, steps), 324 * mm, 1e-14));
        CHECK(near::relative(fret_position(s, 2 * steps), 486 * mm, 1e-14));
        CHECK(fret_position(s, 0) == 0.0 * mm);
    }
}

TEST_CASE("scale: positions in a constant expression") {
    constexpr auto x = equal_step_position(25.5 * inch, 12);
    // A place between frets is asked for as an interval: 12.5 would be taken as 12.
    constexpr auto takes = [](auto n) {
        return requires { equal_step_position(25.5 * inch, n); };
    };
    static_assert(takes(12) && !takes(12.5));
    static_assert(x / inch > 12.7499999 && x / inch < 12.7500001);
    constexpr auto y = fret_position(scale{.scale_length = 640 * mm, .steps = 12, .frets = 20}, 5);
    CHECK(near::relative(y, 640 * (1 - std::pow(2.0, -5.0 / 12)) * mm, 1e-14));
}

TEST_CASE("scale: a place for any interval above the open string") {
    // A fifth of 3/2 is stopped at a third of the string; equal steps are where they always are.
    CHECK(near::relative(position_of_interval(660 * mm, 1200 * std::log2(1.5) * cents), 220 * mm, 1e-12));
    CHECK(position_of_interval(660 * mm, 0 * cents) == 0 * mm);
    for (const int steps : {12, 19, 24}) {
        CHECK(near::relative(position_of_interval(648 * mm, 1200.0 / steps * 7 * cents),
                             equal_step_position(648 * mm, 7, steps), 1e-12));
    }
    static_assert(position_of_interval(600 * mm, 1200 * cents) == 300 * mm);
    using D = dual<double, 1>;
    const auto d = position_of_interval(640 * mm, interval<D>::from_cents(D::variable(700, 0)));
    const auto at = [](double c) { return position_of_interval(640 * mm, c * cents) / metre; };
    CHECK(near::relative(d.value().partial[0], (at(700.1) - at(699.9)) / 0.2, 1e-6));
}

TEST_CASE("scale: property, every step leaves the same share of the string") {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> lengths(200, 1200), divisors(8, 40);
    for (int i = 0; i < 200; ++i) {
        scale s{.scale_length = lengths(random) * mm, .steps = 5 + i % 40, .frets = 24};
        if (i % 2 == 1) { s.divisor = divisors(random); }
        const double share = s.divisor ? 1 - 1 / *s.divisor : std::pow(2.0, -1.0 / s.steps);
        for (int n = 1; n <= s.frets; ++n) {
            const double left =
                ratio<unit::length, double>(s.scale_length - fret_position(s, n), s.scale_length - fret_position(s, n - 1));
            CHECK(near::relative(left, share, 1e-12));
        }
    }
}

TEST_CASE("scale: spacings add up to the last place; measured places overrule") {
    scale s{.scale_length = 560 * mm, .frets = 3};
    const auto gaps = fret_spacings(s);
    REQUIRE(gaps.size() == 3);
    CHECK(near::relative(gaps[0] + gaps[1] + gaps[2], fret_position(s, 3), 1e-14));
    CHECK(gaps[1] < gaps[0]);
    s.measured_places = {31.2 * mm, 61.5 * mm, 89.0 * mm};
    CHECK(fret_position(s, 2) == 61.5 * mm);
    CHECK(near::within(fret_spacings(s)[1], 30.3 * mm, 1e-12 * mm));
}

TEST_CASE("scale: on measured places each fret is for the nearest step, and the octave is found by its pitch") {
    // A diatonic board, as on a dulcimer: whole and half steps of twelve (common practice, no source), each fret a little
    // off.
    const int steps[] = {2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21, 22, 24};
    scale s{.scale_length = 700 * mm, .frets = 14};
    double off = -6;
    for (const int step : steps) {
        s.measured_places.push_back(700 * (1 - std::exp2(-(100 * step + off) / 1200)) * mm);
        off = -off + 1;
    }
    CHECK(is_valid(s));
    for (int n = 1; n <= 14; ++n) { CHECK(fret_step(s, n) == steps[n - 1]); }
    CHECK(fret_step(s, 0) == 0);
    CHECK(octave_fret(s) == 7);
    CHECK(near::relative(octave_length(s), 2.0 * length<>(s.measured_places[6]), 1e-14));
    // Errors are against the step each fret is for: what it was put off by.
    CHECK(near::within(fret_error(s, 1, 700 * mm) / cents, -6, 1e-9));
    CHECK(near::within(fret_error(s, 2, 700 * mm) / cents, 7, 1e-9));
    CHECK(fret_step(over<dual<double, 2>>(s), 7) == 12);
    // Twice as fine steps: every second one.
    s.steps = 24;
    CHECK(fret_step(s, 3) == 10);
    CHECK(octave_fret(s) == 7);
    s.frets = 6;
    s.measured_places.resize(6);
    CHECK(octave_fret(s) == std::nullopt);
    CHECK_THROWS_WITH((void)octave_length(s), "scale.frets must reach the octave of the open string.");
    // Without measured places fret n is for step n, by an old rule too.
    CHECK(octave_fret(scale{.scale_length = 600 * mm, .steps = 19, .frets = 20}) == 19);
    CHECK(octave_fret(scale{.scale_length = 600 * mm, .frets = 20, .divisor = 18.0}) == 12);
    CHECK(octave_fret(scale{.scale_length = 600 * mm, .frets = 11}) == std::nullopt);
    // Two frets near the octave: the one nearer to its place.
    const scale two{.scale_length = 600 * mm, .frets = 3, .measured_places = {295 * mm, 299 * mm, 304 * mm}};
    CHECK(octave_fret(two) == 2);
}

TEST_CASE("scale: the divisor of equal steps is the divisor that gives equal steps") {
    for (const int steps : {12, 19, 24}) {
        const scale equal{.scale_length = 600 * mm, .steps = steps, .frets = 20};
        scale old = equal;
        old.divisor = equal_step_divisor(steps);
        for (int n = 1; n <= 20; ++n) { CHECK(near::relative(fret_position(old, n), fret_position(equal, n), 1e-13)); }
    }
}

TEST_CASE("scale: the derivative by scale length is the share, in duals of any depth") {
    using D = dual<double, 2>;
    basic_scale<D> s{.scale_length = D::variable(0.65, 0) * metre, .frets = 12};
    CHECK(near::relative(fret_position(s, 7).value().partial[0], 1 - std::pow(2.0, -7.0 / 12), 1e-14));
    s.divisor = D::variable(18.0, 1);
    const double h = 1e-5;
    const auto at = [](double divisor) {
        return fret_position(scale{.scale_length = 650 * mm, .frets = 20, .divisor = divisor}, 9).value();
    };
    CHECK(near::relative(fret_position(s, 9).value().partial[1], (at(18 + h) - at(18 - h)) / (2 * h), 1e-7));
    using DD = dual<dual<double, 1>, 1>;
    CHECK(near::relative(value_of(fret_position(basic_scale<DD>{.scale_length = 650 * mm, .frets = 20}, 12).value()), 0.325,
                         1e-14));
    CHECK(near::relative(fret_position(basic_scale<float>{.scale_length = 650.0f * mm, .frets = 20}, 12).value(), 0.325,
                         1e-6));
}

TEST_CASE("scale: bad input is named") {
    const auto text = [](const scale& s) {
        std::string all;
        for (const auto& p : validate(s, "scale")) { all += p.sentence() + "\n"; }
        return all;
    };
    CHECK(text({.scale_length = -1 * mm, .frets = 20}) ==
          "scale.scale_length is -1 mm; it must be at least 10 mm and at most 3000 mm.\n");
    CHECK(text({.scale_length = 600 * mm, .steps = 0, .frets = 20}).find("scale.steps is 0") == 0);
    CHECK(text({.scale_length = 600 * mm, .frets = -1}).find("scale.frets is -1") == 0);
    CHECK(text({.scale_length = 600 * mm, .frets = 20, .divisor = 1.0}).find("scale.divisor is 1") == 0);
    CHECK(text({.scale_length = NAN * mm, .frets = 20}).find("scale.scale_length") == 0);
    CHECK(text({.scale_length = 600 * mm, .frets = 0}).empty());
    CHECK(text({.scale_length = 600 * mm, .frets = 2, .measured_places = {30 * mm}}) ==
          "scale.measured_places must be one for each of the 2 frets, but there are 1.\n");
    CHECK(text({.scale_length = 600 * mm, .frets = 2, .measured_places = {40 * mm, 30 * mm}}) ==
          "scale.measured_places[1] must be further from the nut than the place of the fret before it.\n");
    CHECK(text({.scale_length = 600 * mm, .frets = 2, .measured_places = {40 * mm, 700 * mm}}) ==
          "scale.measured_places[1] must be less than the scale length.\n");
    CHECK_THROWS_AS((void)fret_position(scale{.scale_length = 600 * mm, .frets = 20}, 21), invalid_input);
    CHECK_THROWS_AS((void)fret_position(scale{.scale_length = 600 * mm, .frets = 20}, -1), invalid_input);
    CHECK_THROWS_AS((void)fret_position(scale(), 1), invalid_input);
    CHECK_THROWS_AS((void)equal_step_position(-1.0 * mm, 1), invalid_input);
    CHECK_THROWS_AS((void)equal_step_divisor(0), invalid_input);
    CHECK(fret_positions(scale{.scale_length = 600 * mm, .frets = 0}).size() == 1);
    CHECK(fret_positions(scale{.scale_length = 600 * mm, .frets = 100}).size() == 101);
}

TEST_CASE("scale: a question about one fret looks at the whole scale, as one about all frets does") {
    using doctest::Contains;
    scale s{.scale_length = 648 * mm, .frets = 20};
    const auto refused = [&](const char* sentence) {
        CHECK_THROWS_WITH((void)fret_positions(s), Contains(sentence));
        CHECK_THROWS_WITH((void)fret_position(s, 2), Contains(sentence));
        CHECK_THROWS_WITH((void)fret_position(s, 0), Contains(sentence));
        CHECK_THROWS_WITH((void)fret_step(s, 2), Contains(sentence));
        CHECK_THROWS_WITH((void)octave_fret(s), Contains(sentence));
        CHECK_THROWS_WITH((void)octave_length(s), Contains(sentence));
        CHECK_THROWS_WITH((void)fret_error(s, 2, 648 * mm), Contains(sentence));
    };
    for (const int steps : {0, -12}) {
        s.steps = steps;
        refused("scale.steps is ");
    }
    s.steps = 12;
    for (const double divisor : {0.5, 0.0, -18.0, double(NAN), double(INFINITY)}) {
        s.divisor = divisor;
        refused("scale.divisor is ");
    }
    s = {.scale_length = 648 * mm, .frets = 3, .measured_places = {36 * mm, 20 * mm, 70 * mm}};
    refused("scale.measured_places[1] must be further from the nut");
    s.measured_places = {36 * mm, NAN * mm, 70 * mm};
    refused("scale.measured_places[1] is not given, or not a number");
    s.measured_places = {36 * mm, 50 * mm, 700 * mm};
    refused("scale.measured_places[2] must be less than the scale length");
    s = {.scale_length = 648 * mm};
    refused("scale.frets is not given");
    CHECK_THROWS_WITH((void)fret_error(scale{.scale_length = 648 * mm, .frets = 3}, 2, NAN * mm),
                      Contains("saddle beyond"));
}

TEST_CASE("scale: frets, steps and saddle are looked at by each function") {
    using doctest::Contains;
    const scale s{.scale_length = 600 * mm, .frets = 20};
    CHECK_THROWS_WITH((void)equal_step_position(600 * mm, -1), "fret is -1; it must be 0 or more.");
    CHECK_THROWS_WITH((void)equal_step_position(600 * mm, 1, 0), "steps is 0; it must be 1 or more.");
    CHECK_THROWS_WITH((void)fret_position(scale{.scale_length = 600 * mm, .frets = 2, .measured_places = {30 * mm}}, 1),
                      "scale.measured_places must be one for each of the 2 frets, but there are 1.");
    CHECK_THROWS_WITH((void)fret_positions(scale{.scale_length = 600 * mm, .steps = 0, .frets = 20}),
                      Contains("scale.steps is 0"));
    CHECK_THROWS_WITH((void)fret_error(s, 12, 300 * mm), Contains("saddle beyond the fret is 0 mm"));
}
