#include <tautline/neck/calibration.hpp>

#include "demo_neck.hpp"
#include "near.hpp"
#include "random_neck.hpp"
#include "sanitized.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A neck without a rod whose crests lie on an S while the strings are slack: below the line near the nut by `front`, above
/// it near the joint by `rear`.
demo::strung_neck s_shaped(double front, double rear) {
    demo::strung_neck made{demo::plain_neck(), demo::relief_from_first_to_joint()};
    auto& crests = made.c.crests;
    crests[4].z = crests[4].z - front * mm;
    crests[9].z = crests[9].z + rear * mm;
    return made;
}
/// Change of relief from slack to strung, as a straightedge and a feeler find it.
tautline::length<> change_of(const neck& n, const relief_case& c, tautline::force<> rod_pull = 0 * N) {
    auto slack = c;
    slack.strings.clear();
    const auto beam = make_beam(n);
    return relief_under(beam, c, rod_pull).gap - relief_under(beam, slack, rod_pull).gap;
}

} // namespace

TEST_CASE(
    ("calibrate_moduli reads signed relief: a model's own answer gives its factor back, for random necks that are hollow, "
     "straight or bowed back, slack and strung") *
    doctest::skip(sanitized)) {
    demo::random_necks make(7);
    int hollow = 0, through = 0, back = 0, near_straight = 0, several = 0;
    for (int i = 0; i < 120; ++i) {
        const auto kind = static_cast<demo::rod_kind>(i % 4);
        const auto made = make(kind);
        const double factor = make.any(0.6, 1.6);
        const auto rod_pull = kind == demo::rod_kind::none ? 0 * N : make.any(0, 2500) * N;
        const auto beam = make_beam(kernel::with_moduli_times(made.bare, factor));
        auto slack_case = made.c;
        slack_case.strings.clear();
        const auto slack = relief_under(beam, slack_case, rod_pull).gap, strung = relief_under(beam, made.c, rod_pull).gap;
        (slack > 0 * mm ? hollow : strung > 0 * mm ? through : back) += 1;
        near_straight += abs(slack) < 0.03 * mm || abs(strung) < 0.03 * mm;
        CAPTURE(i);
        REQUIRE(strung > slack); // strings make every gap larger
        const auto found = calibrate_moduli(made.bare, made.c, strung - slack, 0.01 * mm, rod_pull);
        REQUIRE(found.reachable);
        CHECK(near::within(found.predicted, strung - slack, 1e-9 * mm));
        CHECK(near::within(change_of(found.neck, made.c, rod_pull), strung - slack, 1e-9 * mm));
        // Where several factors make the same change nobody can tell them apart, and it says so.
        several += !found.unique;
        if (found.unique) { CHECK(near::relative(found.factor, factor, 1e-6)); }
    }
    CHECK(hollow > 10);
    CHECK(through > 10);
    CHECK(back > 10);
    CHECK(near_straight > 10);
    CHECK(several < 25);
}

TEST_CASE("calibrate_moduli gives the factor of a neck near buckling back, and says so where only a softer one would do") {
    auto c = demo::relief_from_first_to_joint();
    const neck n = demo::plain_neck();
    const auto beam = make_beam(n);
    kernel::bow_problem<double> many{beam, kernel::gather<double>(c.strings), 0 * N, {}};
    many.strings.scale(100);
    const double bears = 100 * kernel::buckling_share(many);
    REQUIRE(bears < 100);
    for (auto& s : c.strings) {
        s.pull = s.pull * (0.2 * bears);
        s.z_nut = s.z_saddle = -8.5 * mm; // so near the neutral axis that a neck near buckling bows by millimetres
    }
    // The strings then take a fifth of what this neck bears: one of 0.22 of its moduli is near buckling.
    const double factor = 0.22;
    const auto change = change_of(kernel::with_moduli_times(n, factor), c);
    REQUIRE(change > 5 * change_of(n, c));
    const auto found = calibrate_moduli(n, c, change, 0.01 * mm);
    REQUIRE(found.reachable);
    CHECK(near::relative(found.factor, factor, 1e-6));
    // Of 0.2 / 0.99 it bears but a hundredth more: nearer to buckling than is looked for.
    const auto more = change_of(kernel::with_moduli_times(n, 0.2 / 0.99), c);
    const auto beyond = calibrate_moduli(n, c, more, 0.01 * mm);
    CHECK_FALSE(beyond.reachable);
    CHECK(near::relative(beyond.factor, 0.2 / 0.98, 1e-6));
    CHECK(beyond.predicted > change);
    CHECK(beyond.predicted < more);
}

TEST_CASE("calibrate_moduli says so where the relief leaps over the change: from back-bow to a hollow as large") {
    // Slack it reads a back-bow of 0.10 mm and a hollow of 0.07 mm. Strings lift both; where the two are as large the
    // relief leaps from -0.08 or so to as much above 0.
    const auto made = s_shaped(0.07, 0.10);
    auto slack = made.c;
    slack.strings.clear();
    REQUIRE(near::within(relief_under(make_beam(made.bare), slack).gap, -0.10 * mm, 1e-9 * mm));
    const auto found = calibrate_moduli(made.bare, made.c, 0.10 * mm, 0.01 * mm);
    CHECK_FALSE(found.reachable);
    // The nearest is one side of the leap: the hollow and the back-bow of the neck that is told are as large.
    const auto bowed = bend(make_beam(found.neck), made.c.strings);
    const auto gaps = kernel::gaps_of(bowed, made.c);
    CHECK(near::within(gaps.hollow, -gaps.back, 1e-6 * mm));
    CHECK(near::within(found.predicted, change_of(found.neck, made.c), 1e-9 * mm));
    // Less than the leap's lower side and more than its upper are explained.
    for (const double change : {0.01, 0.25}) {
        const auto fine = calibrate_moduli(made.bare, made.c, change * mm, 0.01 * mm);
        REQUIRE(fine.reachable);
        CHECK(fine.unique);
        CHECK(near::within(change_of(fine.neck, made.c), change * mm, 1e-9 * mm));
    }
}

TEST_CASE("calibrate_moduli says so where several factors explain the change: a rod does as much as the strings") {
    demo::random_necks make(7);
    int shown = 0;
    for (int i = 0; i < 200 && shown < 3; ++i) {
        const auto made = make(demo::rod_kind::held);
        const auto rod_pull = make.any(1500, 2500) * N;
        const double factor = make.any(0.6, 1.6);
        const auto change = change_of(kernel::with_moduli_times(made.bare, factor), made.c, rod_pull);
        const auto found = calibrate_moduli(made.bare, made.c, change, 0.01 * mm, rod_pull);
        REQUIRE(found.reachable);
        if (found.unique || std::abs(found.factor / factor - 1) < 1e-6) { continue; }
        ++shown; // the factor it was made with and the one found make the same change
        CHECK(near::within(change_of(found.neck, made.c, rod_pull), change, 1e-9 * mm));
        CHECK(std::abs(std::log(found.factor)) < std::abs(std::log(factor))); // the one nearer to 1 is told
    }
    CHECK(shown > 0);
}

TEST_CASE("calibrate_moduli finds what explains a change just above the least that softer and softer wood makes") {
    // One fret is low, one near the joint is proud, and the rod does a little more than the strings: softer wood then makes
    // the change smaller until another fret is the proudest, and larger from there.
    neck n = demo::neck_with_rod();
    auto c = demo::relief_from_first_to_joint();
    c.crests[6].z = c.crests[6].z - 0.16 * mm;
    c.crests[12].z = c.crests[12].z + 0.10 * mm;
    for (auto& s : c.strings) { s.pull = s.pull * 0.3; }
    const auto rod_pull = 750 * N;
    const auto change = [&](double softer) { return change_of(kernel::with_moduli_times(n, 1 / softer), c, rod_pull); };
    double least = 1;
    for (double s = 1; s < 1.2; s *= 1.0005) {
        if (change(s) < change(least)) { least = s; }
    }
    REQUIRE(least > 1.02);
    REQUIRE(change(0.98) < change(least) + 1e-3 * mm);
    for (const double times : {0.999, 1.0002, 1.0005, 1.002}) {
        const auto found = calibrate_moduli(n, c, change(least * times), 0.01 * mm, rod_pull);
        CAPTURE(times);
        CHECK(found.reachable);
        CHECK_FALSE(found.unique); // one on each side of the least
        CHECK(near::within(found.predicted, change(least * times), 1e-9 * mm));
        CHECK(std::abs(1 / found.factor / least - 1) < 0.2);
    }
}

TEST_CASE("property: moduli calibrated on a measured change are those it was made with") {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> any(0.6, 1.7);
    const auto c = demo::relief_from_first_to_joint();
    auto slack = c;
    slack.strings.clear();
    for (int i = 0; i < 10; ++i) {
        neck n = demo::plain_neck();
        n.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 170 * mm, .z = -0.1 * mm}, {.x = 347.7 * mm, .z = 0 * mm}};
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

TEST_CASE("a calibration runs on other number types, and what is wrong with it is named") {
    using D = dual<double, 1>;
    const auto factor = [](auto change) {
        using R = decltype(change);
        return calibrate_moduli<R>(over<R>(demo::plain_neck()), over<R>(demo::relief_from_first_to_joint()),
                                   tautline::length<R>::from_value(change), over<R>(0.01 * mm))
            .factor;
    };
    CHECK(
        near::relative(factor(D::variable(2e-4, 0)).partial[0], (factor(2e-4 + 1e-9) - factor(2e-4 - 1e-9)) / 2e-9, 1e-5));
    CHECK(near::relative(static_cast<double>(factor(2e-4L)), factor(2e-4), 1e-9));
    auto c = demo::relief_from_first_to_joint();
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, 0 * mm, 0.01 * mm), invalid_input);
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, -0.1 * mm, 0.01 * mm), invalid_input);
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, 0.1 * mm, -1 * mm), invalid_input);
    c.strings.clear();
    CHECK_THROWS_AS((void)calibrate_moduli(demo::plain_neck(), c, 0.1 * mm, 0.01 * mm), invalid_input);
}
