// Torque and pull of threads against printed examples.

#include <tautline/neck/rod_setting.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("Mechanical Fastening, Joining, and Assembly, ch. 3: T = K D P, D 0.190 in, P 1275 lbf" * published::seen) {
    const double k[] = {0.3, 0.25, 0.2, 0.15, 0.1}, printed[] = {72.7, 60.6, 48.5, 36.3, 24.2};
    for (int i = 0; i < 5; ++i) {
        const auto torque = torque_for_rod_pull(1275 * lbf, k[i], 0.190 * inch);
        CHECK(published::within("torque, lbf in", torque / lbf_in, printed[i], 0.06));
        CHECK(published::relative("pull back from the torque", rod_pull_from_torque(torque, k[i], 0.190 * inch), 1275 * lbf,
                                  1e-12));
    }
}

TEST_CASE(
    "Shigley 9th ed., table 8-15; example 8-3 (answer from memory): 25 kip on a zinc-plated 3/4 in bolt take 3750 lbf in" *
    published::seen) {
    CHECK(published::same("torque coefficient, black finish", torque_coefficient(thread_state::black_finish), 0.30));
    CHECK(published::same("torque coefficient, zinc-plated", torque_coefficient(thread_state::zinc_plated), 0.20));
    CHECK(published::same("torque coefficient, lubricated", torque_coefficient(thread_state::lubricated), 0.18));
    CHECK(published::same("torque coefficient, cadmium-plated", torque_coefficient(thread_state::cadmium_plated), 0.16));
    CHECK(published::same("torque coefficient, anti-seize", torque_coefficient(thread_state::anti_seize), 0.12));
    const auto torque = torque_for_rod_pull(25000 * lbf, torque_coefficient(thread_state::zinc_plated), 0.75 * inch);
    CHECK(published::relative("torque, lbf in", torque / lbf_in, 3750.0, 1e-9));
}

TEST_CASE("Shigley 9th ed., table 8-14: ten lubricated bolts of one torque scatter by 8.4 %" * published::seen) {
    const double preload[] = {30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5};
    double mean = 0, square = 0;
    for (const double p : preload) { mean += p / 10; }
    for (const double p : preload) { square += (p - mean) * (p - mean) / 9; }
    CHECK(published::within("scatter of the pull from one torque", std::sqrt(square) / mean,
                            static_cast<double>(torque_pull_scatter), 0.001));
}

TEST_CASE("Shigley 9th ed., example 8-3: stress P/A, 25 kip on 0.373 in^2 is 67.02 kpsi" * published::seen) {
    const auto diameter = std::sqrt(4 * 0.373 / std::numbers::pi) * inch;
    CHECK(published::within("stress, kpsi", rod_stress(25000 * lbf, diameter) / (1000 * psi), 67.02, 0.01));
}

TEST_CASE(
    "bimetal strip (Timoshenko 1925, from memory): equal strips of one modulus curve by 3/2 of the strain over the height" *
    published::from_memory) {
    // kappa = 6 e (1 + m)^2 / (h (3 (1 + m)^2 + (1 + m n)(m^2 + 1/(m n)))), m thickness ratio, n modulus ratio.
    for (const double m : {1.0, 0.5, 2.0}) {
        for (const double n : {1.0, 0.4, 3.0}) {
            const double h = 12, upper = h / (1 + m), strain = 2e-4; // lower / upper = m
            const auto top = rectangle_sums(10 * GPa, 20 * mm, 0 * mm, -upper * mm);
            const auto bottom = rectangle_sums(n * 10 * GPa, 20 * mm, -upper * mm, -h * mm);
            const auto bends = strain_curvature(section_from(top + bottom), top, strain);
            const double expected =
                6 * strain * (1 + m) * (1 + m) / (h * (3 * (1 + m) * (1 + m) + (1 + m * n) * (m * m + 1 / (m * n))));
            CHECK(published::relative("curvature, 1/m", bends / per_metre, -1000 * expected, 1e-9));
        }
    }
}
