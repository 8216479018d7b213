// The tables of docs/strings.md: tensions to check a textbook's against.
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    constexpr auto scale_length = 650 * mm;
    std::printf("Plain steel, 7850 kg/m3, 650 mm, A4 = 440 Hz: N by mu (2 L f)^2, then with the stretch\n"
                "gauge mm   mu g/m       G3      B3      E4   with stretch: G3      B3      E4\n");
    for (const int hundredths : {20, 23, 25, 28, 30, 33, 36, 40, 43, 50}) {
        const auto string = plain_string(music_wire(), hundredths * 0.01 * mm);
        std::printf("    %.2f    %.4f", gauge(string) / mm, mass_per_length(string) / g_per_m);
        for (const char* note : {"G3", "B3", "E4"}) {
            std::printf("  %6.2f", tension(mass_per_length(string), scale_length, pitch_of(note)) / N);
        }
        std::printf("        ");
        for (const char* note : {"G3", "B3", "E4"}) {
            std::printf("  %6.2f", tension(string, scale_length, pitch_of(note)) / N);
        }
        std::printf("\n");
    }

    std::printf("\nWound, phosphor bronze on round steel of a third of the gauge, 650 mm: N with the stretch\n"
                "gauge mm   mu g/m       E2      A2      D3\n");
    for (const int hundredths : {60, 75, 90, 105, 120, 135}) {
        const auto outside = hundredths * 0.01 * mm;
        const auto string = wound_string(
            {.gauge = outside, .core = outside / 3.0, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
        std::printf("    %.2f    %.4f", outside / mm, mass_per_length(string) / g_per_m);
        for (const char* note : {"E2", "A2", "D3"}) {
            std::printf("  %6.2f", tension(string, scale_length, pitch_of(note)) / N);
        }
        std::printf("\n");
    }

    std::printf("\nAnother length: times\n");
    for (const int length_mm : {330, 430, 530, 560, 628, 648, 650, 660, 864}) {
        const double share = length_mm / 650.0;
        std::printf("  %d mm  %.4f\n", length_mm, share * share);
    }
}
