#include <tautline/core/linear_system.hpp>

#include <random>
#include <vector>

#include <tautline/core/dual.hpp>

#include "near.hpp"

using namespace tautline;

TEST_CASE("property: A X = B holds for the X that comes back") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> any(-1, 1);
    for (std::size_t n = 1; n <= 8; ++n) {
        std::vector<double> a(n * n), b(n * 3);
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j) { a[i * n + j] = any(random) / double(n) + (i == j ? 2 : 0); }
        }
        for (auto& v : b) { v = any(random); }
        auto left = a;
        auto x = b;
        solve_in_place<double>(left, x, n);
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < 3; ++j) {
                double sum = 0;
                for (std::size_t k = 0; k < n; ++k) { sum += a[i * n + k] * x[k * 3 + j]; }
                CHECK(near::within(sum, b[i * 3 + j], 1e-12));
            }
        }
    }
    solve_in_place<double>({}, {}, 0); // nothing asked, nothing done
}

TEST_CASE("least squares through points of a plane give the plane; a weight counts as so many points") {
    normal_equations<double, 3> plane;
    for (int i = 0; i < 6; ++i) {
        const double x = i % 3, y = i / 3;
        plane.add({1, x, y}, 2 + 3 * x - 4 * y);
    }
    const auto s = plane.solution();
    CHECK(near::within(s[0], 2, 1e-12));
    CHECK(near::within(s[1], 3, 1e-12));
    CHECK(near::within(s[2], -4, 1e-12));
    normal_equations<double, 1> weighted, thrice;
    weighted.add({1}, 6, 3);
    weighted.add({1}, 2);
    for (int i = 0; i < 3; ++i) { thrice.add({1}, 6); }
    thrice.add({1}, 2);
    CHECK(near::within(weighted.solution()[0], 5, 1e-12));
    CHECK(near::within(thrice.solution()[0], 5, 1e-12));
}

TEST_CASE("duals pass through") {
    using D = dual<double, 1>;
    std::vector<D> a{D::variable(2, 0)}, b{D(6.0)};
    solve_in_place<D>(a, b, 1);
    CHECK(near::within(b[0].value, 3, 1e-15));
    CHECK(near::within(b[0].partial[0], -1.5, 1e-15));
}
