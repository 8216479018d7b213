// Curves fitted to readings, against certified parameters and their standard deviations.

#include <array>

#include <tautline/core/dual.hpp>
#include <tautline/doubt/fit_adjustment.hpp>

#include "published/record.hpp"

using namespace tautline;

namespace {

/// A fit of N parameters by readings alone: what is known before is so wide that it counts for nothing.
template <std::size_t N, class Curve>
struct certified {
    std::array<double, N> found, deviation;
    double squares;

    certified(const Curve& curve, const std::array<double, N>& start, const std::vector<double>& x,
              const std::vector<double>& y) {
        using D = dual<double, N>;
        const auto model = [&](std::span<const double> t, const matrix& along) {
            std::array<D, N> b;
            for (std::size_t i = 0; i < N; ++i) {
                b[i] = D(start[i] + t[i]);
                for (std::size_t c = 0; c < along.columns(); ++c) { b[i].partial[c] = along(i, c); }
            }
            modelled m{std::vector<double>(x.size()), matrix(x.size(), along.columns())};
            for (std::size_t k = 0; k < x.size(); ++k) {
                const D h = curve(b, x[k]);
                m.values[k] = h.value;
                for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(k, c) = h.partial[c]; }
            }
            return m;
        };
        std::vector<double> wide;
        for (const double b : start) { wide.push_back(1e5 * std::abs(b)); }
        const std::vector<double> ones(y.size(), 1);
        const auto fit =
            fit_weighted<double>({covariance_root(matrix::squares(wide)), reading_root(matrix::squares(ones)), y, {}, {}},
                                 model, {.most_steps = 400, .least_step = 1e-14});
        CHECK(fit.end == fit_end::settled);
        squares = 0;
        for (std::size_t k = 0; k < y.size(); ++k) { squares += std::pow(y[k] - fit.values[k], 2); }
        const double scatter = squares / static_cast<double>(y.size() - N);
        const auto p = adjustment_of(fit).covariance();
        for (std::size_t i = 0; i < N; ++i) {
            found[i] = start[i] + fit.t[i];
            deviation[i] = std::sqrt(p(i, i) * scatter);
        }
    }
};

} // namespace

TEST_CASE("NIST StRD Misra1a (as reprinted by others): y = b1 (1 - e^(-b2 x)), from both starts" * published::quoted) {
    const std::vector<double> y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
    const std::vector<double> x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
    const auto curve = [](const auto& b, double at) { return b[0] * (1.0 - exp(-(b[1] * at))); };
    for (const auto& start : {std::array{500.0, 1e-4}, std::array{250.0, 5e-4}}) {
        const certified<2, decltype(curve)> fit(curve, start, x, y);
        CHECK(published::relative("b1", fit.found[0], 2.3894212918E+02, 1e-8));
        CHECK(published::relative("b2", fit.found[1], 5.5015643181E-04, 1e-8));
        CHECK(published::relative("standard deviation of b1", fit.deviation[0], 2.7070075241E+00, 1e-8));
        CHECK(published::relative("standard deviation of b2", fit.deviation[1], 7.2668688436E-06, 1e-8));
        CHECK(published::relative("sum of squares", fit.squares, 1.2455138894E-01, 1e-9));
    }
}

TEST_CASE("NIST StRD Thurber (copies in public repositories): a ratio of cubics, 7 parameters, from both starts" *
          published::quoted) {
    const std::vector<double> y{80.574,   84.248,   87.264,   87.195,   89.076,   89.608,   89.868,   90.101,
                                92.405,   95.854,   100.696,  101.060,  401.672,  390.724,  567.534,  635.316,
                                733.054,  759.087,  894.206,  990.785,  1090.109, 1080.914, 1122.643, 1178.351,
                                1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384,
                                1442.962, 1464.350, 1468.705, 1447.894, 1457.628};
    const std::vector<double> x{-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481,
                                -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714,
                                -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010,  0.119,  0.377,  0.790,
                                0.963,  1.006,  1.115,  1.572,  1.841,  2.047,  2.200};
    const auto curve = [](const auto& b, double at) {
        return (b[0] + at * (b[1] + at * (b[2] + at * b[3]))) / (1.0 + at * (b[4] + at * (b[5] + at * b[6])));
    };
    const std::array<double, 7> known{1288.1396800,  1491.0792535,  583.23836877,  75.416644291,
                                      0.96629502864, 0.39797285797, 0.049727297349};
    const std::array<double, 7> sd{4.6647963344,   39.571156086,   28.698696102,   5.5675370270,
                                   0.031333340687, 0.014984928198, 0.0065842344623};
    for (const auto& start : {std::array<double, 7>{1000, 1000, 400, 40, 0.7, 0.3, 0.03},
                              std::array<double, 7>{1300, 1500, 500, 75, 1, 0.4, 0.05}}) {
        const certified<7, decltype(curve)> fit(curve, start, x, y);
        for (std::size_t i = 0; i < 7; ++i) {
            CHECK(published::relative("parameters", fit.found[i], known[i], 1e-7));
            CHECK(published::relative("standard deviations of the parameters", fit.deviation[i], sd[i], 1e-6));
        }
        CHECK(published::relative("sum of squares", fit.squares, 5.6427082397E+03, 1e-9));
    }
}
