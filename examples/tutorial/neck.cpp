// Tutorial 3: a neck over those frets, under three sets of strings; with a file name, drawn.
#include <cstdio>
#include <tautline/neck/relief_case.hpp>
#include <tautline/tautline.hpp>
#include <vector>

#include "drawn_bows.hpp"

using namespace tautline;
using namespace tautline::units;

int main(int count, char** arguments) {
    constexpr auto scale_length = 645 * mm;
    constexpr int joint_fret = 14;

    neck wood; // two cross-sections: at the nut, and at the joint
    wood.joint = equal_step_position(scale_length, joint_fret);
    wood.stations = {{.x = 0 * mm, .half_width = 22 * mm, .board_thickness = 6 * mm, .back_depth = 15 * mm},
                     {.x = wood.joint, .half_width = 26.5 * mm, .board_thickness = 6 * mm, .back_depth = 19 * mm}};
    wood.board_modulus = 14 * GPa;
    wood.back_modulus = 10.5 * GPa;
    const auto beam = make_beam(wood);

    relief_case question{.last = joint_fret - 1}; // a straightedge from the first crest to that of the joint
    for (int fret = 1; fret <= joint_fret; ++fret) {
        question.crests.push_back({.x = equal_step_position(scale_length, fret), .z = 1 * mm});
    }

    const struct {
        const char* name;
        std::vector<double> thou;
    } sets[] = {
        {"light", {46, 36, 26, 20, 14, 11}}, {"middle", {53, 42, 32, 24, 16, 12}}, {"heavy", {56, 45, 35, 26, 17, 13}}};
    const wound_rule wound{.core_material = music_wire(), .core_share = 0.4, .wrap_material = phosphor_bronze()};
    const char* const notes[] = {"E2", "A2", "D3", "G3", "B3", "E4"};

    std::vector<tutorial::drawn_bow> drawn;
    for (const auto& set : sets) {
        question.strings.clear();
        force<> all{};
        for (std::size_t i = 0; i < 6; ++i) {
            const auto gauge = set.thou[i] * thou;
            const auto string = i < 4 ? wound_string(wound, gauge) : plain_string(music_wire(), gauge);
            const auto pull = tension(string, scale_length, pitch_of(notes[i]));
            question.strings.push_back({.pull = pull, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = scale_length});
            all += pull;
        }
        const auto bowed = bend(beam, question.strings);
        const auto relief = relief_under(beam, question);
        std::printf("%-6s pulls %5.0f N: the nut rises %.2f mm, relief is %.2f mm at fret %zu\n", set.name, all / N,
                    bowed.nut_rise() / mm, relief.gap / mm, relief.index + 1);
        drawn.push_back({set.name, loaded_crests(bowed, question.crests), relief.gap});
    }
    if (count > 1) { tutorial::draw_bows(arguments[1], drawn); }
}
