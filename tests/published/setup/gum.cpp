// JCGM 100:2008, "Guide to the expression of uncertainty in measurement", annex H: worked examples H.1 (end gauge) and H.2
// (correlated resistance and reactance). Inputs and printed results as reproduced in the documentation of the GUM Tree
// Calculator, MSLNZ/GTC, docs/API/GUM_H1.rst and GUM_H2.rst.
#include <tautline/doubt/uncertainty.hpp>

#include <array>

#include <tautline/core/units.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("JCGM 100 H.1 (as reproduced by MSLNZ/GTC): end gauge, u_c = 32 nm, components 25, 16.6, 6.7, 5.8, 3.9, 2.9, 0, "
          "0, 0 nm" *
          published::quoted) {
    using D = dual<double, 9>;
    const auto nm = [](const D& v) { return length<D>::from_value(v * 1e-9); };
    // l = l_s + d - l_s (d_alpha theta + alpha_s d_theta); every input and its standard uncertainty, the gauge in nm.
    const D l_s = D::variable(50'000'623, 0), d_0 = D::variable(215, 1), d_1 = D::variable(0, 2), d_2 = D::variable(0, 3);
    const D alpha = D::variable(11.5e-6, 4), d_alpha = D::variable(0, 5), d_theta = D::variable(0, 6);
    const D theta_mean = D::variable(-0.1, 7), theta_swing = D::variable(0, 8);
    const auto result = nm(l_s + d_0 + d_1 + d_2 - l_s * (d_alpha * (theta_mean + theta_swing) + alpha * d_theta));
    const double r3 = std::sqrt(3.0);
    const std::array<double, 9> u{25, 5.8, 3.9, 6.7, 2e-6 / r3, 1e-6 / r3, 0.05 / r3, 0.2, 0.5 / std::sqrt(2.0)};
    std::vector<length<>> parts;
    for (std::size_t i = 0; i < 9; ++i) { parts.push_back(contribution(result, i, u[i])); }

    CHECK(published::within("length, nm", result.value().value * 1e9, 50'000'838, 0.5));
    const std::array<double, 9> printed{25, 5.8, 3.9, 6.7, 0, 2.88679, 16.599, 0, 0};
    for (std::size_t i = 0; i < 9; ++i) {
        CHECK(published::within("components of the uncertainty, nm", std::abs(parts[i].value()) * 1e9, printed[i], 5e-4));
    }
    CHECK(published::within("combined uncertainty, nm", combined_uncertainty<unit::length>(parts).value() * 1e9, 32, 0.5));
    CHECK(published::within("combined uncertainty, recomputed from the inputs, nm",
                            combined_uncertainty<unit::length>(parts).value() * 1e9, 31.664,
                            5e-4)); // recomputed from the inputs
}

TEST_CASE("JCGM 100 H.2 (as reproduced by MSLNZ/GTC): R = 127.732(70), X = 219.85(30), Z = 254.26(24) ohm and their "
          "correlations" *
          published::quoted) {
    using D = dual<double, 3>;
    const D v = D::variable(4.999, 0), i = D::variable(19.661e-3, 1), phi = D::variable(1.04446, 2);
    const std::array<double, 3> u{3.2e-3, 9.5e-6, 7.5e-4};
    const std::array<correlation, 3> together{{{0, 1, -0.36}, {0, 2, 0.86}, {1, 2, -0.65}}};
    // The electrical unit plays no part in the law; plain ratios of lengths carry it.
    using ohm = length<D>;
    const std::array<ohm, 3> results{ohm::from_value(v / i * cos(phi)), ohm::from_value(v / i * sin(phi)),
                                     ohm::from_value(v / i)};
    const std::array<double, 3> printed{127.732, 219.847, 254.260}, printed_u{0.070, 0.30, 0.24},
        tolerance{5e-4, 5e-3, 5e-3};
    std::array<std::vector<length<>>, 3> parts;
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t n = 0; n < 3; ++n) { parts[k].push_back(contribution(results[k], n, u[n])); }
        CHECK(published::within("R, X, Z, ohm", results[k].value().value, printed[k], 5e-4));
        CHECK(published::within("uncertainties of R, X, Z, ohm",
                                combined_uncertainty<unit::length>(parts[k], together).value(), printed_u[k],
                                tolerance[k]));
    }
    const auto r = [&](std::size_t a, std::size_t b) {
        return covariance<unit::length, unit::length>(parts[a], parts[b], together).value() /
               (combined_uncertainty<unit::length>(parts[a], together).value() *
                combined_uncertainty<unit::length>(parts[b], together).value());
    };
    CHECK(published::within("correlation of R and X", r(0, 1), -0.588, 6e-3)); // printed -0.59
    CHECK(published::within("correlation of R and Z", r(0, 2), -0.485, 6e-3)); // printed -0.49
    CHECK(published::within("correlation of X and Z", r(1, 2), 0.993, 6e-3));  // printed +0.99
}

TEST_CASE("MSLNZ/GTC readme: R = V/I with V = 0.1 V (1 mV), I = 15 mA (0.5 mA) is 6.67(23) ohm" * published::seen) {
    using D = dual<double, 2>;
    const auto r = length<D>::from_value(D::variable(0.1, 0) / D::variable(15e-3, 1));
    const std::vector<length<>> parts{contribution(r, 0, 1e-3), contribution(r, 1, 0.5e-3)};
    CHECK(published::within("resistance, ohm", r.value().value, 6.67, 5e-3));
    CHECK(published::within("its uncertainty, ohm", combined_uncertainty<unit::length>(parts).value(), 0.23, 5e-3));
}
