// The worked problems of docs/strings.md by program: string_problems 1 ... 5. Sources stand in the document.
#include <cstdio>
#include <cstring>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

void speed_of_a_wave() {
    const auto speed = wave_speed(3.09e-4 * kg_per_m, 56.40 * N);
    std::printf("the wave runs at %.2f m/s\n", speed / metre_per_second);
    // Any length and the pitch that goes with that speed ask the same tension of the heavier string.
    const auto heavier = tension(5.78e-3 * kg_per_m, 0.65 * metre, frequency<>(speed / (2 * (0.65 * metre))));
    std::printf("the heavier string needs %.0f N\n", heavier / N);
}
void standing_waves() {
    const auto first = pitch_at(0.006 * kg_per_m, 2.00 * metre, 2.00 * 9.8 * N);
    for (const int mode : {1, 2, 3}) { std::printf("mode %d: %.2f Hz\n", mode, mode * first / Hz); }
}
void long_nylon_string() {
    const auto mu = 7.20 * g_per_m;
    std::printf("wave %.2f m/s, pitch %.1f Hz\n", wave_speed(mu, 160.00 * N) / metre_per_second,
                pitch_at(mu, 2.00 * metre, 160.00 * N) / Hz);
    std::printf("for E1, %.2f Hz, it needs %.1f N\n", pitch_of("E1") / Hz, tension(mu, 2.00 * metre, pitch_of("E1")) / N);
}
void sharp_partials() {
    const wire_material steel{.name = "steel", .mass_density = 7850 * kg_per_m3, .modulus = 7850 * 25.5e6 * Pa};
    const auto wire = plain_string(steel, 1.0 * mm);
    const auto mu = mass_per_length(wire);
    const auto pull = tension(mu, 620 * mm, 262 * Hz);
    std::printf("tension %.0f N, B %.2e\n", pull / N, inharmonicity(core_bending_stiffness(wire), pull, 620 * mm));
    for (const int mode : {2, 4, 8}) {
        const auto sounds =
            partial<double>(mode, mu, 620 * mm, pull, core_bending_stiffness(wire), {.nut = 0, .saddle = 0});
        std::printf("partial %d: %.2f cents sharp of %d times the open pitch of a limp string\n", mode,
                    interval_between<double>(mode * 262.0 * Hz, sounds) / cents, mode);
    }
}
void wound_bass() {
    const auto string = wound_string(
        {.gauge = 1.35 * mm, .core = 0.45 * mm, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    const auto pull = tension(string, 650 * mm, pitch_of("E2"));
    std::printf("%.2f g/m, %.1f N, stretched by %.2f %%\n", mass_per_length(string) / g_per_m, pull / N,
                100 * strain(string, pull));
    const auto plain = for_tension(music_wire(), pull, 650 * mm, pitch_of("E2"));
    const double stiffer = core_bending_stiffness(plain) / core_bending_stiffness(string);
    std::printf("a plain steel string that pulls as hard: %.2f mm, %.0f times as stiff in bending\n", gauge(plain) / mm,
                stiffer);
}

constexpr void (*problems[])() = {speed_of_a_wave, standing_waves, long_nylon_string, sharp_partials, wound_bass};

} // namespace

int main(int count, char** arguments) {
    const int which = count == 2 && std::strlen(arguments[1]) == 1 ? arguments[1][0] - '1' : -1;
    if (which < 0 || which > 4) {
        std::fputs("one of 1 2 3 4 5\n", stderr);
        return 2;
    }
    problems[which]();
    return 0;
}
