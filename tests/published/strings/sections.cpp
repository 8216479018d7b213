// Properties of sections against numerical integration that knows nothing of the formulas.

#include <tautline/strings/tension.hpp>
#include <tautline/strings/wound_string.hpp>

#include <tautline/strings/wire_materials.hpp>

#include <numbers>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
/// Half width of a hexagon of width 1 across the flats (flats above and below) at height y from the middle.
double half_width(double y) {
    // Inside when |x cos t + y sin t| <= 1/2 for the three pairs of flats.
    double reach = 10;
    for (const double t : {30.0, 150.0}) {
        const double c = std::cos(t * std::numbers::pi / 180), s = std::sin(t * std::numbers::pi / 180);
        reach = std::min(reach, (0.5 - std::copysign(1.0, c) * y * s) / std::abs(c));
        reach = std::min(reach, (0.5 + std::copysign(1.0, c) * y * s) / std::abs(c));
    }
    return reach;
}
} // namespace

TEST_CASE("hexagonal core: area and second moment by integration in strips" * published::own_computation) {
    const int strips = 20000;
    double whole = 0, about_middle = 0;
    for (int i = 0; i < strips; ++i) {
        const double y = (i + 0.5) / strips - 0.5;
        whole += 2 * half_width(y) / strips;
        about_middle += 2 * half_width(y) * y * y / strips;
    }
    const basic_music_string<double> s{
        .core = {.material = nickel_plated_steel(), .section = core_section::hexagonal, .diameter = 0.4 * mm}};
    CHECK(published::relative("area", core_area(s), area<double>(whole * 0.16e-6 * metre * metre), 1e-7));
    CHECK(published::relative("bending stiffness", core_bending_stiffness(s),
                              207e9 * about_middle * std::pow(0.4e-3, 4) * N_m2, 1e-7));
    CHECK(published::within("area over the square of the flats' distance", whole, 0.866025, 1e-6));
    CHECK(published::within("second moment over its fourth power", about_middle, 0.0601407, 1e-6));
}

TEST_CASE(
    "hexagonal core: once around a layer's middle by Cauchy's formula, the perimeter is the support function's integral" *
    published::own_computation) {
    const double a = 0.4, w = 0.3;
    const int n = 60000;
    double around = 0;
    for (int i = 0; i < n; ++i) {
        const double t = 2 * std::numbers::pi * (i + 0.5) / n;
        double support = 0; // of the hexagon's corners, at a/sqrt(3) from the middle
        for (int corner = 0; corner < 6; ++corner) {
            support = std::max(support, a / std::sqrt(3.0) * std::cos(t - corner * std::numbers::pi / 3));
        }
        around += (support + w / 2) * 2 * std::numbers::pi / n;
    }
    basic_music_string<double> s{
        .core = {.material = nickel_plated_steel(), .section = core_section::hexagonal, .diameter = a * mm}};
    const auto bare = mass_per_length(s);
    s.layers.push_back({.material = nickel(), .thickness = w * mm});
    // Close wound: around/w of wire per length.
    CHECK(published::relative("mass of a layer", mass_per_length(s) - bare,
                              8880 * std::numbers::pi / 4 * w * w * 1e-6 * around / w * kg_per_m, 1e-8));
    CHECK(published::relative("gauge", gauge(s), (2 * a / std::sqrt(3.0) + 2 * w) * mm, 1e-13));
}

TEST_CASE("ground wrap: mass by sweeping what is left of the wire's section along the helix, strip by strip" *
          published::own_computation) {
    for (const double ground : {0.02, 0.05, 0.09}) {
        const double d = 0.45, w = 0.40, pitch = 0.42;
        // A strip at y outward of the wire's axis sweeps (1 + curvature y) times the axis' length (Pappus, Goursat).
        const double radius = (d + w) / 2, advance = pitch / (2 * std::numbers::pi);
        const double curvature = radius / (radius * radius + advance * advance);
        const double axis = std::hypot(2 * std::numbers::pi * radius, pitch) / pitch;
        const int strips = 200000;
        double volume = 0; // per length of string, mm2
        for (int i = 0; i < strips; ++i) {
            const double from = -w / 2, to = w / 2 - ground, y = from + (to - from) * (i + 0.5) / strips;
            volume += (to - from) / strips * 2 * std::sqrt(w * w / 4 - y * y) * axis * (1 + curvature * y);
        }
        auto s = wound_string(
            {.gauge = (d + 2 * w) * mm, .core = d * mm, .core_material = music_wire(), .wrap_material = nickel()});
        s.layers[0].pitch = pitch * mm;
        s.layers[0].ground = ground * mm;
        const auto wrap_mass = mass_per_length(s) - mass_per_length(plain_string(music_wire(), d * mm));
        CHECK(published::relative("mass of the ground wrap", wrap_mass, 8880 * volume * 1e-6 * kg_per_m,
                                  3e-4)); // the helix, of second order in y
        CHECK(published::relative("gauge", gauge(s), (d + 2 * w - 2 * ground) * mm, 1e-13));
    }
}

TEST_CASE("bare ends: pitch against the exact modes of a string in three parts" * published::own_computation) {
    // Exact: displacement and slope go on across the joints, each part a sine with its own wave number.
    auto s = wound_string(
        {.gauge = 1.1 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    const double l = 0.640, b1 = 0.012, b2 = 0.025;
    const double middle = mass_per_length(s).value(), core = mass_per_length(plain_string(music_wire(), 0.4 * mm)).value();
    s.bare = bare_ends{.at_nut = b1 * metre, .at_saddle = b2 * metre};
    const double pull = 90;
    const auto end_value = [&](double omega) {
        const double kc = omega * std::sqrt(core / pull), km = omega * std::sqrt(middle / pull);
        double y = std::sin(kc * b1) / kc, slope = std::cos(kc * b1);
        const double m = l - b1 - b2;
        const double y2 = y * std::cos(km * m) + slope / km * std::sin(km * m),
                     s2 = -y * km * std::sin(km * m) + slope * std::cos(km * m);
        return y2 * std::cos(kc * b2) + s2 / kc * std::sin(kc * b2);
    };
    double low = 2 * std::numbers::pi * 50, high = 2 * std::numbers::pi * 200;
    for (int i = 0; i < 200; ++i) { (end_value((low + high) / 2) > 0 ? low : high) = (low + high) / 2; }
    const double stretched = std::sqrt(1 + strain(s, pull * N));
    const auto f = pitch_at(s, l * metre, pull * N);
    CHECK(
        published::relative("pitch with bare ends", f, low / (2 * std::numbers::pi) * stretched * Hz, 5e-6)); // 0.01 cents
    auto covered = s;
    covered.bare.reset();
    CHECK(f > pitch_at(covered, l * metre, pull * N)); // it is sharper by what its ends lack
    CHECK(published::relative("pitch back from the tension", pitch_at(s, l * metre, tension(s, l * metre, f)), f, 1e-12));
    CHECK(published::relative("length back from the pitch", speaking_length_at(s, f, pull * N), l * metre, 1e-12));
}
