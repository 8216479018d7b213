#include <tautline/core/line_fit.hpp>

#include <random>

#include <tautline/core/dual.hpp>

#include "near.hpp"

using namespace tautline;

TEST_SUITE("line_fit") {
    TEST_CASE("points on a line give that line back, wherever it lies") {
        std::mt19937 random(21);
        std::uniform_real_distribution<double> any(-5, 5);
        for (int i = 0; i < 100; ++i) {
            const double offset = any(random), slope = any(random), far = 1e4 * any(random);
            std::vector<double> x, y;
            for (int k = 0; k < 7; ++k) {
                x.push_back(far + k);
                y.push_back(offset + slope * x.back());
            }
            const auto f = fit_line(x, y, true);
            CHECK(near::within(f.slope, slope, 1e-8));
            CHECK(near::within(f.offset, offset, 1e-3));
            CHECK(f.freedom == 5);
            CHECK(f.squares < 1e-15);
        }
    }
    TEST_CASE("a line through points is the fitted one") {
        std::mt19937 random(23);
        std::uniform_real_distribution<double> any(-5, 5);
        for (int i = 0; i < 50; ++i) {
            std::vector<double> x, y;
            for (int k = 0; k < 2 + i % 5; ++k) {
                x.push_back(3 + k + 0.1 * any(random));
                y.push_back(any(random));
            }
            const auto line = line_through<double>(
                x.size(), [&](std::size_t k) { return x[k]; }, [&](std::size_t k) { return y[k]; });
            const auto f = fit_line(x, y, true);
            CHECK(near::within(line.slope, f.slope, 1e-10));
            CHECK(near::within(line.offset, f.offset, 1e-10));
        }
    }
    TEST_CASE("property: no other line is nearer, and residuals balance") {
        std::mt19937 random(22);
        std::uniform_real_distribution<double> any(-5, 5);
        for (int i = 0; i < 100; ++i) {
            std::vector<double> x, y;
            for (int k = 0; k < 9; ++k) {
                x.push_back(any(random));
                y.push_back(any(random));
            }
            const auto squares = [&](double offset, double slope) {
                double sum = 0;
                for (std::size_t k = 0; k < x.size(); ++k) { sum += std::pow(y[k] - offset - slope * x[k], 2); }
                return sum;
            };
            const auto f = fit_line(x, y, true);
            CHECK(near::relative(f.squares, squares(f.offset, f.slope), 1e-12));
            double sum = 0, moment = 0, leverage = 0;
            for (std::size_t k = 0; k < x.size(); ++k) {
                sum += f.residuals[k];
                moment += f.residuals[k] * x[k];
                leverage += f.leverages[k];
                // A point's leverage is the share of its own error that its fitted height takes; also by height_variance.
                CHECK(near::relative(f.leverages[k], height_variance(f, x[k]), 1e-9));
            }
            CHECK(near::within(sum, 0, 1e-12));
            CHECK(near::within(moment, 0, 1e-11));
            CHECK(near::relative(leverage, 2, 1e-12)); // as many as coefficients
            for (const double d : {-0.01, 0.01}) {
                CHECK(squares(f.offset + d, f.slope) > f.squares);
                CHECK(squares(f.offset, f.slope + d) > f.squares);
            }
            const auto g = fit_line(x, y, false);
            CHECK(g.offset == 0);
            CHECK(g.freedom == 8);
            for (const double d : {-0.01, 0.01}) { CHECK(squares(0, g.slope + d) > g.squares); }
            CHECK(near::relative(*reading_variance(g), g.squares / 8, 1e-15));
        }
    }
    TEST_CASE("a line through two points has nothing left to judge it by") {
        CHECK_FALSE(reading_variance(fit_line<double>({1, 2}, {3, 5}, true)).has_value());
    }
    TEST_CASE("a dual carries how the slope follows a reading") {
        using D = dual<double, 1>;
        const auto f = fit_line<D>({D(0.0), D(1.0), D(2.0)}, {D(0.0), D(1.0), D::variable(4, 0)}, true);
        CHECK(near::relative(f.slope.value, 2, 1e-15));
        CHECK(near::relative(f.slope.partial[0], 0.5, 1e-15)); // (x - mean) / sxx
    }
}
