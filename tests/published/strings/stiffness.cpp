// Stiff strings: against a numerical solution of the beam under tension, and published constants.

#include <tautline/strings/stiff_string.hpp>
#include <tautline/strings/stretch.hpp>
#include <tautline/strings/wire_materials.hpp>

#include <algorithm>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
/// A string of 1 m, 1 kg/m, 1 N, whose bending stiffness gives the bending share e; in units of its ideal fundamental.
double partial_over_ideal(int n, double e, string_ends ends) {
    return partial<double>(n, 1.0 * kg_per_m, 1 * metre, 1 * N, e * e * N_m2, ends) / Hz / 0.5;
}
} // namespace

TEST_CASE("stiff string against Hermite finite elements solved by scipy (stiff_string_table.py beside this file)" *
          published::reference_program) {
    std::ifstream file(TAUTLINE_TEST_DATA "/stiff_string_table.csv");
    REQUIRE(file.good());
    std::string line;
    std::getline(file, line);
    REQUIRE(line == "ends,e,n,ratio");
    int rows = 0, springs = 0;
    while (std::getline(file, line)) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream row(line);
        CAPTURE(line);
        std::string how;
        string_ends held{};
        double e = 0, solved = 0;
        int n = 0;
        row >> how;
        if (how == "springs") { row >> held.nut >> held.saddle; }
        row >> e >> n >> solved;
        REQUIRE(!row.fail());
        if (how == "clamped") { held = {1, 1}; }
        if (how == "hinged") { held = {0, 0}; }
        if (how == "mixed") { held = {1, 0}; }
        const double ours = partial_over_ideal(n, e, held) / n;
        ++rows;
        if (how == "edges") {
            // With the mass of the string beyond the edges the factor 1/2 is of first order; neither hinges nor clamps
            // would do.
            CHECK(published::relative("over two edges into afterlengths", ours, solved, 2.5 * e * e));
            CHECK(std::abs(partial_over_ideal(n, e, {0, 0}) / n / solved - 1) > 0.9 * e);
            CHECK(std::abs(partial_over_ideal(n, e, {1, 1}) / n / solved - 1) > 0.9 * e);
            continue;
        }
        // The elements themselves are good to some 1e-7 (the program checks them against the frequency equation); what
        // else is left is that both ends' bending layers meet.
        const double allowed = 2e-7 + 0.2 * std::exp(-1 / e);
        if (how == "springs") {
            ++springs;
            CHECK(published::relative("ends of springs, partials over the ideal string's", ours, solved, allowed));
        } else {
            CHECK(published::relative("partials over the ideal string's", ours, solved, allowed));
        }
    }
    CHECK(rows == 437);
    CHECK(springs == 180);
}

TEST_CASE("Morse 1936 (as credited in Fletcher 1964): clamped ends to second order" * published::quoted) {
    for (const double e : {0.001, 0.003, 0.006}) {
        for (const int q : {1, 2, 4}) {
            const double printed = q * (1 + 2 * e + 4 * (1 + std::numbers::pi * std::numbers::pi * q * q / 8) * e * e);
            CHECK(published::relative("partials over the ideal string's", partial_over_ideal(q, e, {1, 1}), printed,
                                      60 * q * q * e * e * e)); // the terms left out
        }
    }
}

TEST_CASE("Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1) 683 (2024): one clamped, one hinged end" * published::seen) {
    for (const double e : {0.001, 0.003, 0.006}) {
        for (const int q : {1, 2, 4}) {
            const double printed = q * (1 + e + (1 + std::numbers::pi * std::numbers::pi * q * q / 2) * e * e);
            CHECK(published::relative("partials over the ideal string's", partial_over_ideal(q, e, {1, 0}), printed,
                                      30 * q * q * e * e * e));
        }
    }
    // Their coefficient for E = 5 GPa, T = 60 N, radius 0.5 mm, L = 650 mm: about 3e-3 (3.1116e-3 recomputed).
    const auto s = plain_string(nylon(5 * GPa), 1.0 * mm);
    const double b = std::sqrt(inharmonicity(core_bending_stiffness(s), 60 * N, 650 * mm)) / std::numbers::pi;
    CHECK(published::within("coefficient B, recomputed", b, 3.1116e-3, 5e-8));
    // kappa = EA/T = 51, radius 0.43 mm, 650 mm: B0 = 0.00236.
    const auto prototype = plain_string(nylon(51 * 60 / (std::numbers::pi * 0.43e-3 * 0.43e-3) * Pa), 0.86 * mm);
    CHECK(published::within(
        "prototype's B0", std::sqrt(inharmonicity(core_bending_stiffness(prototype), 60 * N, 650 * mm)) / std::numbers::pi,
        0.00236, 5e-6));
}

TEST_CASE("Anderson & Beausoleil 2024: 3 mm of stretch on 614 mm raises the pitch a whole tone when R = 23.65" *
          published::seen) {
    // R = d ln f/d ln l = (614/3) 200/1731, of a string whose sounding length is stretched as well: with tension EA eps and
    // conserved mass R = EA/(2T), so EA/T = 47.3 and the path's rate alone is R + 1.
    const double r = 614.0 / 3 * 200 * std::log(2.0) / 1200;
    CHECK(published::within("R, rise of pitch over stretch", r, 23.65, 0.01));
    const double ea = 2 * r * 60;
    const auto s = plain_string(nylon(ea / (std::numbers::pi / 4 * 0.86e-3 * 0.86e-3) * Pa), 0.86 * mm);
    const double path_alone = pitch_by_path(s, 614 * mm, 60 * N) * (3 * mm) / cents;
    CHECK(published::within("rise of pitch for 3 mm, cents", path_alone - 1200 / std::log(2.0) * 3 / 614, 200.0, 0.01));
}

TEST_CASE(
    "Young, J. Acoust. Soc. Am. 24(3) 267 (1952): 3.4e13 n^2 d^2/(f^2 l^4) cents for steel of E/rho = 25.5e10 (cm/s)^2" *
    published::seen) {
    const wire_material steel{.name = "steel", .mass_density = 7850 * kg_per_m3, .modulus = 7850 * 25.5e6 * Pa};
    struct wire {
        double d_cm, l_cm, hertz;
    };
    for (const wire& w : {wire{0.1, 62, 262}, {0.08, 20, 1000}, {0.11, 110, 110}}) {
        const auto s = plain_string(steel, w.d_cm * cm);
        const auto mu = mass_per_length(s);
        const auto pull = tension(mu, w.l_cm * cm, w.hertz * Hz);
        for (const int n : {2, 4}) {
            const double printed = 3.4e13 * n * n * w.d_cm * w.d_cm / (w.hertz * w.hertz * std::pow(w.l_cm, 4));
            const auto f = partial<double>(n, mu, w.l_cm * cm, pull, core_bending_stiffness(s), {0, 0});
            // The constant is printed to two digits (3.404 unrounded); the formula leaves out B^2, 1.2 % at 20 cents.
            CHECK(published::relative("inharmonicity, cents", interval_between<double>(n * w.hertz * Hz, f) / cents,
                                      printed, 0.003 + 0.0007 * printed));
        }
    }
}

TEST_CASE(
    "Fletcher, J. Acoust. Soc. Am. 36(1) 203 (1964): B = pi^3 E d^4/(64 T L^2), f_n = n f0 sqrt(1 + B n^2) (from memory)" *
    published::from_memory) {
    const double d = 1e-3, modulus = 200e9, pull = 700, l = 0.6;
    const double printed = std::pow(std::numbers::pi, 3) * modulus * std::pow(d, 4) / (64 * pull * l * l);
    const wire_material steel{.name = "steel", .mass_density = 7850 * kg_per_m3, .modulus = modulus * Pa};
    const auto s = plain_string(steel, d * metre);
    CHECK(published::relative("inharmonicity B", inharmonicity(core_bending_stiffness(s), pull * N, l * metre), printed,
                              1e-12));
    for (int n = 1; n <= 16; ++n) {
        CHECK(published::relative("partials 1 to 16 over the ideal string's",
                                  partial_over_ideal(n, std::sqrt(printed) / std::numbers::pi, {0, 0}),
                                  n * std::sqrt(1 + printed * n * n), 1e-12));
    }
}
