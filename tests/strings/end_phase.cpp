#include <tautline/strings/end_phase.hpp>

#include "near.hpp"
#include <tautline/core/dual.hpp>

using namespace tautline;

TEST_CASE("end phase: a hinge adds nothing, a clamp atan(x/sqrt(1 + x^2)), an edge what a massless string beyond makes") {
    for (const double x : {0.0, 0.003, 0.1, 0.6, 5.0}) {
        const double root = std::sqrt(1 + x * x);
        CHECK(kernel::end_phase_of(x, 0.0).phase == 0);
        CHECK(kernel::end_phase_of(x, 0.0).slope == 0);
        CHECK(near::within(kernel::end_phase_of(x, 1.0).phase, std::atan(x / root), 1e-15));
        CHECK(near::within(kernel::end_phase_of(x, 0.5).phase, std::atan(x / (1 + 2 * x * x + root)), 1e-15));
    }
}

TEST_CASE("end phase: the string near the end is held at 0 and its moment is the spring's") {
    // y = sin(a s - psi) + sin(psi) exp(-b s), T = 1, EI = e^2: (1 - k) e y'' = k y' at s = 0, b^2 = a^2 + 1/e^2.
    for (const double e : {0.001, 0.02, 0.1}) {
        for (const double a : {3.2, 6.5, 40.0}) {
            for (const double k : {0.1, 0.5, 0.8, 0.99}) {
                const double psi = kernel::end_phase_of(a * e, k).phase, b = std::sqrt(a * a + 1 / (e * e));
                const double slope = a * std::cos(psi) - b * std::sin(psi);
                const double bend = (a * a + b * b) * std::sin(psi);
                CHECK(near::relative((1 - k) * e * bend, k * slope, 1e-12));
            }
        }
    }
}

TEST_CASE("end phase: its slope is its derivative, also in dual numbers; it rises with the factor") {
    for (const double k : {0.0, 0.2, 0.5, 0.9, 1.0}) {
        for (const double x : {0.01, 0.3, 0.9, 4.0}) {
            const auto at = kernel::end_phase_of(x, k);
            const double h = 1e-5,
                         difference =
                             (kernel::end_phase_of(x + h, k).phase - kernel::end_phase_of(x - h, k).phase) / (2 * h);
            CHECK(near::within(at.slope, difference, 1e-9));
            CHECK(
                near::within(kernel::end_phase_of(dual<double, 1>::variable(x, 0), {k}).phase.partial[0], at.slope, 1e-14));
            if (k < 1) { CHECK(at.phase < kernel::end_phase_of(x, k + 0.1).phase); }
        }
    }
}

TEST_CASE("partials: hinged ends give n sqrt(1 + B n^2); the phase condition holds to the last digits") {
    const double pi2 = 9.869604401089358;
    for (const int n : {1, 3, 30, 200}) {
        for (const double e : {0.0, 0.001, 0.01, 0.1}) {
            CHECK(near::relative(kernel::partial_ratio(n, e, 0.0, 0.0), n * std::sqrt(1 + pi2 * n * n * e * e), 1e-14));
            for (const double k : {0.3, 1.0}) {
                const double ratio = kernel::partial_ratio(n, e, k, 0.6);
                // Back from the frequency to the wave number: a sqrt(1 + (a e)^2) = pi ratio.
                const double square = std::numbers::pi * ratio;
                const double a =
                    e == 0 ? square : std::sqrt((std::sqrt(1 + 4 * e * e * square * square) - 1) / (2 * e * e));
                const double phases = kernel::end_phase_of(a * e, k).phase + kernel::end_phase_of(a * e, 0.6).phase;
                CHECK(near::relative(a, n * std::numbers::pi + phases, 1e-9));
                CHECK(near::relative(ratio, kernel::partial_ratio(n, e, 0.6, k), 1e-15));
            }
        }
    }
}

TEST_CASE("partials: first and second derivatives by stiffness and by an end's factor, against differences") {
    using D = dual<double, 2>;
    using DD = dual<dual<double, 1>, 1>;
    const auto f = [](double e, double k) { return kernel::partial_ratio(2, e, k, 0.5); };
    for (const double e : {0.004, 0.09}) {
        const double k = 0.7, h = 1e-5;
        const auto d = kernel::partial_ratio<D>(2, D::variable(e, 0), D::variable(k, 1), D(0.5));
        CHECK(near::relative(d.partial[0], (f(e + h, k) - f(e - h, k)) / (2 * h), 1e-7));
        CHECK(near::relative(d.partial[1], (f(e, k + h) - f(e, k - h)) / (2 * h), 1e-7));
        const DD twice = kernel::partial_ratio<DD>(2, DD::variable(dual<double, 1>::variable(e, 0), 0), DD(k), DD(0.5));
        const double wide = 1e-4;
        CHECK(near::relative(twice.partial[0].partial[0], (f(e + wide, k) - 2 * f(e, k) + f(e - wide, k)) / (wide * wide),
                             1e-5));
    }
    CHECK(near::relative(static_cast<double>(kernel::partial_ratio(1, 0.05f, 0.5f, 1.0f)),
                         kernel::partial_ratio(1, 0.05, 0.5, 1.0), 1e-6));
}
