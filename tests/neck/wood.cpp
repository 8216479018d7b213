#include <tautline/neck/wood.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("woods say what is known of them and what the caller supplies") {
    const auto ebony = woods::find("ebony");
    REQUIRE(ebony.has_value());
    CHECK_FALSE(ebony->modulus().has_value());
    CHECK_FALSE(woods::find("unobtainium").has_value());
    CHECK(woods::find("sugar maple")->modulus() == 12.6 * GPa);
    CHECK(near::relative(woods::find("sugar maple")->density_at_12().value(), 705.6 * kg_per_m3, 1e-12));
    CHECK_FALSE(ebony->density_at_12().has_value());
    CHECK(woods::find("Sitka spruce")->modulus_gpa.from == provenance::from_memory);
    for (const wood& w : woods::all) {
        CAPTURE(std::string(w.name));
        if (w.radial_shrinkage.known()) { CHECK(w.radial_shrinkage.value < w.tangential_shrinkage.value); }
        if (w.radial_movement.known()) { CHECK(w.radial_movement.value < w.tangential_movement.value); }
        if (w.green_modulus_gpa.known()) { CHECK(w.green_modulus_gpa.value < w.modulus_gpa.value); }
    }
}

TEST_CASE("modulus at other moisture: itself at 12 %, the green one at 25 %, stiffer when drier") {
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 12 * percent_mc), 12.6 * GPa, 1e-12));
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 25 * percent_mc), 10.7 * GPa, 1e-12));
    CHECK(near::relative(modulus_at(12.6 * GPa, 10.7 * GPa, 90 * percent_mc), 10.7 * GPa, 1e-12));
    CHECK(modulus_at(12.6 * GPa, 10.7 * GPa, 6 * percent_mc) > 13 * GPa);
    CHECK_THROWS_AS((void)modulus_at(12.6 * GPa, 0 * GPa, 6 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)modulus_at(12.6 * GPa, 10 * GPa, -1 * percent_mc), invalid_input);
}

TEST_CASE("a bending test: P L^3/(48 E I) backwards") {
    for (const double e : {7.0, 12.5}) {
        const double i = 20.0 * 8 * 8 * 8 / 12; // mm^4
        const auto d = 15 * 400.0 * 400 * 400 / (48 * e * 1000 * i) * mm;
        CHECK(near::relative(modulus_from_bending_test(400 * mm, 15 * N, d, 20 * mm, 8 * mm), e * GPa, 1e-12));
    }
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400 * mm, 15 * N, 0 * mm, 20 * mm, 8 * mm),
                      "deflection is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_AS((void)modulus_from_bending_test(400 * mm, -15 * N, 1 * mm, 20 * mm, 8 * mm), invalid_input);
}

TEST_CASE("a tap tone: cos(b) cosh(b) = 1 backwards") {
    const double b = 4.730040744862704;
    CHECK(near::within(std::cos(b) * std::cosh(b), 1.0, 1e-11));
    for (const double e : {8.0, 13.0}) {
        for (const double l : {0.3, 0.5}) {
            const double t = 0.007, rho = 620;
            const double f = b * b / (2 * std::numbers::pi * l * l) * std::sqrt(e * 1e9 * t * t / (12 * rho));
            CHECK(near::relative(modulus_from_tap_tone(f * Hz, l * metre, t * metre, rho * kg_per_m3), e * GPa, 1e-12));
        }
    }
    CHECK_THROWS_AS((void)modulus_from_tap_tone(0 * Hz, 0.3 * metre, 7 * mm, 600 * kg_per_m3), invalid_input);
}

TEST_CASE("movement from shrinkage is its share over the moisture it takes") {
    CHECK(near::relative(movement_from_shrinkage(4.1, 30.0), 0.041 / 30, 1e-12));
    CHECK_THROWS_AS((void)movement_from_shrinkage(-1.0, 30.0), invalid_input);
    CHECK_THROWS_AS((void)movement_from_shrinkage(4.0, 5.0), invalid_input);
}

TEST_CASE("woods: the figures of the sources, moduli in their million psi") {
    struct {
        std::string_view name;
        double modulus, green, gravity, radial, tangential, moves_radial, moves_tangential; ///< 0: not given
        int from_memory; ///< figures that are not checked against the source
    } const told[] = {
        {"sugar maple", 1.83, 1.55, 0.63, 4.8, 9.9, 0.00165, 0.00353, 0},
        {"bigleaf maple", 0, 0, 0, 0, 0, 0.00126, 0.00248, 0},
        {"black cherry", 1.49, 0, 0.50, 3.7, 7.1, 0.00126, 0.00248, 0},
        {"black walnut", 1.68, 0, 0.55, 5.5, 7.8, 0.00190, 0.00274, 2},
        {"yellow-poplar", 1.58, 0, 0.42, 4.6, 8.2, 0, 0, 2},
        {"Sitka spruce", 1.57, 0, 0.40, 4.3, 7.5, 0, 0, 4},
        {"western redcedar", 1.11, 0, 0.32, 2.4, 5.0, 0, 0, 1},
        {"African mahogany", 1.40, 1.15, 0.42, 2.5, 4.5, 0, 0, 0},
        {"Honduras mahogany", 1.50, 1.34, 0.45, 3.0, 4.1, 0, 0, 0},
        {"Indian rosewood", 1.78, 1.19, 0.70, 2.7, 5.8, 0, 0, 0},
        {"Brazilian rosewood", 1.88, 1.84, 0.80, 0, 0, 0, 0, 0},
        {"ebony", 0, 0, 0, 0, 0, 0, 0, 0},
        {"Spanish-cedar", 0, 0, 0, 0, 0, 0, 0, 0},
    };
    REQUIRE(std::size(told) == woods::all.size());
    const double million_psi = 6.894757; // GPa
    for (std::size_t k = 0; k < std::size(told); ++k) {
        const auto& t = told[k];
        const wood& w = woods::all[k];
        CAPTURE(std::string(w.name));
        CHECK(w.name == t.name);
        int from_memory = 0;
        const auto same = [&](const wood_figure& f, double value, double within) {
            CHECK(near::within(f.value, value, within));
            CHECK(f.known() == (value > 0));
            from_memory += f.from == provenance::from_memory;
        };
        same(w.modulus_gpa, t.modulus * million_psi, 0.04);
        same(w.green_modulus_gpa, t.green * million_psi, 0.04);
        same(w.specific_gravity, t.gravity, 1e-9);
        same(w.radial_shrinkage, t.radial, 1e-9);
        same(w.tangential_shrinkage, t.tangential, 1e-9);
        same(w.radial_movement, t.moves_radial, 1e-9);
        same(w.tangential_movement, t.moves_tangential, 1e-9);
        CHECK(from_memory == t.from_memory);
        CHECK(woods::find(t.name)->name == t.name);
    }
}
