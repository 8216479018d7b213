#include <tautline/doubt/covariance_root.hpp>

#include <cmath>

#include "near.hpp"

using namespace tautline;

namespace {

/// Of three of doubt 1, 2, 3.
template <class R = double>
basic_matrix<R> three(std::type_identity_t<R> ab, std::type_identity_t<R> ac, std::type_identity_t<R> bc) {
    return {3, 3, {1, 2 * ab, 3 * ac, 2 * ab, 4, 6 * bc, 3 * ac, 6 * bc, 9}};
}
template <class R>
R off_by(const basic_matrix<R>& s) {
    const auto root = covariance_root(s);
    const auto back = kernel::times_transposed(root, root);
    R most{};
    for (std::size_t i = 0; i < s.rows(); ++i) {
        for (std::size_t j = 0; j < s.rows(); ++j) { most = std::max(most, std::abs(back(i, j) - s(i, j))); }
    }
    return most;
}

} // namespace

TEST_SUITE("covariance root") {
    TEST_CASE_TEMPLATE("the root times itself is the covariance, in every number type", R, float, double, long double) {
        const R eps = std::numeric_limits<R>::epsilon();
        CHECK(off_by<R>(three<R>(0, 0, 0)) == 0);
        CHECK(off_by<R>(three<R>(R(0.5L), R(-0.25L), R(0.125L))) < 20 * eps);
        CHECK(off_by<R>(three<R>(1, 0, 0)) < 20 * eps);
        CHECK(off_by<R>(three<R>(1, -1, -1)) < 20 * eps);
    }
    TEST_CASE("what errs alike keeps one cause, what has no doubt none") {
        CHECK(covariance_root(three(0.5, 0, 0)).columns() == 3);
        CHECK(covariance_root(three(1, 0, 0)).columns() == 2);
        CHECK(covariance_root(three(-1, 1, -1)).columns() == 1);
        CHECK(covariance_root(matrix(2, 2)).columns() == 0);
        const auto root = covariance_root(matrix(2, 2, {0, 0, 0, 4}));
        REQUIRE(root.columns() == 1);
        CHECK(root(0, 0) == 0);
        CHECK(root(1, 0) == 2);
    }
    TEST_CASE("correlations of three hold at once just where their determinant says so") {
        for (double a = -1; a <= 1; a += 0.25) {
            for (double b = -1; b <= 1; b += 0.25) {
                for (double c = -1; c <= 1; c += 0.25) {
                    CAPTURE(a);
                    CAPTURE(b);
                    CAPTURE(c);
                    if (1 + 2 * a * b * c - a * a - b * b - c * c >= -1e-12) {
                        CHECK(off_by(three(a, b, c)) < 1e-13);
                    } else {
                        CHECK_THROWS_WITH((void)covariance_root(three(a, b, c)),
                                          "correlations must be such that all can hold at once: what errs with one cannot "
                                          "err against another that errs with it.");
                    }
                }
            }
        }
    }
    TEST_CASE("a covariance that is none") {
        CHECK_THROWS_AS((void)covariance_root(matrix(2, 3)), invalid_input);
        CHECK_THROWS_AS((void)covariance_root(matrix(1, 1, {-1})), invalid_input);
        CHECK_THROWS_AS((void)covariance_root(matrix(1, 1, {NAN})), invalid_input);
        CHECK_THROWS_AS((void)covariance_root(matrix(2, 2, {1, NAN, NAN, 1})), invalid_input);
        CHECK_THROWS_AS((void)covariance_root(matrix(2, 2, {0, 1, 1, 1})), invalid_input);
        CHECK_THROWS_AS(matrix(2, 2, {1, 2, 3}), invalid_input);
    }
    TEST_CASE("a reading without doubt is no reading, nor is one that errs exactly as another") {
        CHECK_THROWS_WITH((void)reading_root(matrix(2, 2, {1, 0, 0, 0})),
                          "readings[1] must have a doubt: a reading without one is no reading.");
        CHECK_THROWS_AS((void)reading_root(matrix(2, 2, {1, 1, 1, 1})), invalid_input);
        CHECK_THROWS_AS((void)reading_root(matrix(2, 2, {1, -1, -1, 1})), invalid_input);
        const auto root = reading_root(matrix(2, 2, {1, 0.6, 0.6, 1}));
        CHECK(near::within(root(1, 1), 0.8, 1e-15));
        CHECK(root(0, 1) == 0);
    }
    TEST_CASE("solving by a root and back") {
        const auto root = reading_root(three(0.5, -0.25, 0.125));
        std::vector<double> x{1, -2, 3};
        const auto b = root * x;
        auto solved = b;
        kernel::solve_lower<double>(root, solved);
        for (std::size_t i = 0; i < 3; ++i) { CHECK(near::within(solved[i], x[i], 1e-14)); }
        auto up = root.transposed() * x;
        kernel::solve_upper<double>(root, up);
        for (std::size_t i = 0; i < 3; ++i) { CHECK(near::within(up[i], x[i], 1e-14)); }
        const auto one = root * kernel::solved_lower(root, matrix::identity(3));
        const auto other = root.transposed() * kernel::solved_upper(root, matrix::identity(3));
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t j = 0; j < 3; ++j) {
                CHECK(near::within(one(i, j), i == j ? 1 : 0, 1e-14));
                CHECK(near::within(other(i, j), i == j ? 1 : 0, 1e-14));
            }
        }
    }
}
