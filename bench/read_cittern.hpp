#pragma once
/// @file
/// An instrument with twenty doubtful inputs, three states and nine readings, for what reconciles it.

#include <tautline/doubt/reconcile.hpp>
#include <tautline/instrument/ready_made.hpp>

namespace bench {

using namespace tautline;
using namespace tautline::units;

/// The ready-made cittern, with a weight to hang on its neck.
inline read_instrument read_cittern() {
    const auto o = ready_made::ten_string_cittern();
    read_instrument model{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}};
    model.states.push_back({.name = "2 kg at the nut", .slack = true, .weight = 2 * kgf});
    return model;
}
inline std::vector<doubt> twenty_doubts() {
    std::vector<doubt> all{{"nut slots", 0.025 * mm, {}}};
    for (std::size_t i = 0; i < 10; ++i) { all[0].moves.push_back({messages::path_of("nut.slot_heights", i)}); }
    for (const auto& [path, standard] :
         std::initializer_list<std::pair<const char*, any_quantity>>{{"neck.board_modulus", 2.5 * GPa},
                                                                     {"neck.back_modulus", 2 * GPa},
                                                                     {"saddle.board_line", 0.15 * mm},
                                                                     {"saddle.height_bass", 0.05 * mm},
                                                                     {"saddle.height_treble", 0.05 * mm},
                                                                     {"soundboard.sink_stiffness", 80 * N_per_mm},
                                                                     {"frets.wire.crown_height", 0.01 * mm},
                                                                     {"neck.depth_at_nut", 0.1 * mm},
                                                                     {"neck.depth_at_joint", 0.1 * mm},
                                                                     {"board.thickness", 0.1 * mm},
                                                                     {"board.width_at_nut", 0.1 * mm},
                                                                     {"neck.set[1].z", 0.015 * mm},
                                                                     {"neck.set[2].z", 0.015 * mm},
                                                                     {"neck.set[3].z", 0.015 * mm},
                                                                     {"neck.back_exponent", 0.15},
                                                                     {"saddle.setback_bass", 0.25 * mm},
                                                                     {"saddle.setback_treble", 0.25 * mm},
                                                                     {"playing.finger.depth", 0.02 * mm},
                                                                     {"tailpiece.hinge_height", 0.5 * mm}}) {
        all.push_back({path, standard, {{path}}});
    }
    return all;
}
/// As the instrument would read, scattered by a doubt or so.
inline std::vector<reading> nine_readings() {
    return {relief_read(0.22 * mm),
            relief_read(0.10 * mm).when("slack"),
            height_read(0, 12, 3.48 * mm),
            height_read(9, 12, 2.93 * mm),
            height_read(4, 12, 3.22 * mm),
            height_read(0, 1, 1.15 * mm),
            top_drop_read(0.25 * mm),
            line_at_saddle_read(15.5 * mm).when("slack"),
            nut_drop_read(0.20 * mm).when("2 kg at the nut")};
}

} // namespace bench
