// String problems printed with their answers in the OpenStax textbooks University Physics 1
// (sections 16.3, 16.6, 17.4, 17.5; elasticity 12.3) and College Physics (5.3). Tolerances are half the last printed digit
// unless said otherwise.

#include <tautline/strings/stretch.hpp>

#include <numbers>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("OpenStax University Physics 1, 16.3, example The Wave Speed of a Guitar String" * published::seen) {
    CHECK(published::within("wave speed", wave_speed(3.09e-4 * kg_per_m, 56.40 * N), 427.23 * metre_per_second,
                            0.005 * metre_per_second));
    // The same speed on the heavier string: tension for it over a length and the pitch that goes with the speed.
    const auto v = 427.23 * metre_per_second;
    const frequency<double> f = v / (2 * (0.65 * metre));
    CHECK(published::within("tension for the same speed", tension(5.78e-3 * kg_per_m, 0.65 * metre, f), 1055.00 * N,
                            0.01 * N));
}

TEST_CASE("OpenStax University Physics 1, 16.6, example Standing Waves on a String" * published::seen) {
    const auto mu = 0.006 * kg_per_m;
    const auto pull = 2.00 * 9.8 * N;
    CHECK(published::within("wave speed", wave_speed(mu, pull), 57.15 * metre_per_second, 0.005 * metre_per_second));
    const auto f1 = pitch_at(mu, 2.00 * metre, pull);
    CHECK(published::within("first mode", f1, 14.29 * Hz, 0.005 * Hz));
    CHECK(published::within("second mode", 2 * f1, 28.58 * Hz, 0.005 * Hz));
    CHECK(published::within("third mode", 3 * f1, 42.87 * Hz, 0.01 * Hz)); // printed from the rounded wavelength
    CHECK(published::within("length back from the pitch", speaking_length_at(mu, 14.2887 * Hz, pull), 2.00 * metre,
                            0.0001 * metre));
}

TEST_CASE("OpenStax University Physics 1, 16.3, 16.6, 17.4 and 17.5, problems" * published::seen) {
    // 3.00 m, 0.0090 kg, 200.00 N
    const linear_density<double> mu = (0.0090 * kg) / (3.00 * metre);
    const double printed[] = {43.03, 86.07, 129.10, 172.13};
    for (int n = 1; n <= 4; ++n) {
        CHECK(published::within("3.00 m, 200.00 N: modes 1 to 4", n * pitch_at(mu, 3.00 * metre, 200.00 * N),
                                printed[n - 1] * Hz, 0.005 * Hz));
    }
    CHECK(published::within("3.00 m, 200.00 N: wave speed", wave_speed(mu, 200.00 * N), 258.20 * metre_per_second,
                            0.005 * metre_per_second));
    // 3.50 m, 0.005 kg/m, 90 N, five antinodes
    CHECK(published::within("3.50 m, 90 N: fifth mode", 5 * pitch_at(0.005 * kg_per_m, 3.50 * metre, 90 * N), 95.83 * Hz,
                            0.005 * Hz));
    CHECK(published::within("3.50 m, 90 N: wave speed", wave_speed(0.005 * kg_per_m, 90 * N), 134.16 * metre_per_second,
                            0.005 * metre_per_second));
    // 3.00 m, 0.0062 kg/m, 20.00 N, a hundredth mode
    CHECK(published::within("3.00 m, 20.00 N: hundredth mode", 100 * pitch_at(0.0062 * kg_per_m, 3.00 * metre, 20.00 * N),
                            947 * Hz, 0.5 * Hz));
    // the nylon string of 17.4
    CHECK(published::within("17.4, nylon string: wave speed", wave_speed(7.20 * g_per_m, 160.00 * N),
                            149.07 * metre_per_second, 0.005 * metre_per_second));
    CHECK(published::within("17.4, nylon string: pitch", pitch_at(7.20 * g_per_m, 2.00 * metre, 160.00 * N), 37.3 * Hz,
                            0.05 * Hz));
    // 17.5: sixth mode at 2.00 kHz on 1.50 m of 0.0065 kg/m
    CHECK(published::relative("17.5, sixth mode at 2 kHz: tension",
                              tension(0.0065 * kg_per_m, 1.50 * metre, 2.00 / 6 * kHz), 6500 * N, 1e-12));
    // 16.3: 500 N on 5.00 g over 3.00 m
    CHECK(published::within("16.3, 500 N: wave speed",
                            wave_speed(linear_density<double>((5.00 * gram) / (3.00 * metre)), 500 * N),
                            547.723 * metre_per_second, 0.001 * metre_per_second));
}

TEST_CASE("OpenStax University Physics 1, 16.3, problem: a wire of density 8920 and radius 1.20 mm" * published::seen) {
    const wire_material copper_wire{.name = "copper", .mass_density = 8920 * kg_per_m3, .modulus = 110 * GPa};
    const auto s = plain_string(copper_wire, 2.40 * mm);
    CHECK(published::within("mass per length", mass_per_length(s), 0.040 * kg_per_m, 0.0005 * kg_per_m));
    // Printed 15.75 m/s follows from the rounded 0.040; unrounded it is 15.74.
    CHECK(published::within("wave speed, printed from a rounded mass", wave_speed(mass_per_length(s), 10.00 * N),
                            15.75 * metre_per_second, 0.02 * metre_per_second));
}

TEST_CASE("M. Gallant, The String Plucker (jensign.com): 65 cm, 1.6 g/m, 104 N sound 196 Hz" * published::seen) {
    // 65 cm, 1.6 g/m, 104 N sound 196 Hz and carry waves at 255 m/s: M. Gallant, The String Plucker (jensign.com).
    CHECK(published::within("pitch", pitch_at(1.6 * g_per_m, 65 * cm, 104 * N), 196 * Hz, 0.5 * Hz));
    CHECK(published::within("wave speed", wave_speed(1.6 * g_per_m, 104 * N), 255 * metre_per_second,
                            0.5 * metre_per_second));
    CHECK(published::within("mass per length for a tension and pitch", mass_per_length_for(104 * N, 65 * cm, 196.116 * Hz),
                            1.6 * g_per_m, 1e-5 * g_per_m));
}

namespace {
wire_material elastic(stress<double> modulus) {
    return {.name = "steel", .mass_density = 7850 * kg_per_m3, .modulus = modulus};
}
} // namespace

TEST_CASE("OpenStax College Physics 5.3 and University Physics 1, 12.3: elastic stretch" * published::seen) {
    // College Physics 5.3, problem: a tightrope of 15 m and 0.50 cm under 3.94e3 N stretches by 1.4 cm.
    const auto rope = plain_string(elastic(210 * GPa), 0.50 * cm);
    CHECK(published::within("tightrope's stretch, m", strain(rope, 3.94e3 * N) * 15, 0.014, 0.0005));
    // College Physics 5.3, example The Stretch of a Long Cable: 5.6 cm, 3020 m, 3.0e6 N: 2.46e-3 m2, 18 m. The library's
    // diameters end at 20 mm: a cable a tenth as thick under a hundredth of the pull stretches the same.
    const auto cable = plain_string(elastic(210 * GPa), 0.56 * cm);
    CHECK(published::within("long cable's area, a tenth as thick", core_area(cable), area<double>(2.46e-5 * metre * metre),
                            area<double>(0.005e-5 * metre * metre)));
    CHECK(published::within("long cable's stretch, m", strain(cable, 3.0e4 * N) * 3020, 18, 0.5));
    // University Physics 1 12.3, example Stretching a Rod: 0.30 cm2, 550 kg, 2.0 m: 1.8e8 Pa, 1.8 mm.
    const auto rod = plain_string(elastic(200 * GPa), std::sqrt(0.30e-4 * 4 / std::numbers::pi) * metre);
    CHECK(published::within("stretched rod's stress", core_stress(rod, 550 * 9.8 * N), 1.8e8 * Pa, 0.05e8 * Pa));
    CHECK(published::within("stretched rod's stretch, m", strain(rod, 550 * 9.8 * N) * 2.0, 1.8e-3, 0.05e-3));
    // College Physics 5.3, problem: piano wire of 1.35 m and 0.850 mm stretched by 8.00 mm; no printed answer, 706.2 N
    // computed by hand from F = EA dl/l. Slack length 1.35 m, path 1.358 m.
    const auto wire = plain_string(elastic(210 * GPa), 0.850 * mm);
    CHECK(published::within("piano wire's stretch, no printed answer", length_drawn_in(wire, 1.358 * metre, 706.2 * N),
                            8.00 * mm, 0.001 * mm));
}
