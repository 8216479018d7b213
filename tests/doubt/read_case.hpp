#pragma once
/// @file
/// Instruments, doubts and readings that the tests of reconciliation share: readings are what the model itself says of a
/// truth, with the scatter that is asked for.

#include <cstdint>
#include <string>
#include <vector>

#include <tautline/core/by_path.hpp>
#include <tautline/doubt/normal_deviate.hpp>
#include <tautline/doubt/reconcile.hpp>
#include <tautline/instrument/ready_made.hpp>

namespace read_case {

using namespace tautline;
using namespace tautline::units;

/// The ready-made cittern with all that can be turned and hung on it. Its joint lies a little behind the last mark of its
/// set: just at it what the scale length does has a kink.
inline read_instrument cittern() {
    auto o = ready_made::ten_string_cittern();
    o.instrument.board.scale.scale_length = 526 * mm;
    read_instrument model{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}};
    model.states.push_back({.name = "2 kg at the nut", .slack = true, .weight = 2 * kgf});
    model.gauges.push_back({.name = "feelers"});
    return model;
}
/// The ready-made flat-top, with a screw for its rod.
inline read_instrument flat_top() {
    const auto o = ready_made::flat_top();
    read_instrument model{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}};
    model.rod_screw = rod_screw{.diameter = 4.8 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};
    model.states.push_back({.name = "a quarter turn", .rod_turns = 0.25});
    model.states.push_back({.name = "slack, a quarter turn", .slack = true, .rod_turns = 0.25});
    return model;
}
/// A doubt of one number of either, standard, in SI.
inline doubt of(const char* path, double standard) {
    static const read_instrument one = cittern(), other = flat_top();
    const auto here = find_at(one, path), there = find_at(other, path);
    return {path,
            any_quantity::of(here.has_value()    ? here.kind()
                             : there.has_value() ? there.kind()
                                                 : "length",
                             standard),
            {{path}}};
}
/// Twenty doubts of the cittern, as usual at the bench.
inline std::vector<doubt> cittern_doubts() {
    std::vector<doubt> all{of("neck.board_modulus", 2.5e9),        of("neck.back_modulus", 2e9),
                           of("saddle.board_line", 0.15e-3),       of("saddle.height_bass", 0.05e-3),
                           of("saddle.height_treble", 0.05e-3),    of("soundboard.sink_stiffness", 8e4),
                           of("frets.wire.crown_height", 0.01e-3), of("neck.depth_at_nut", 0.1e-3),
                           of("neck.depth_at_joint", 0.1e-3),      of("board.thickness", 0.1e-3),
                           of("neck.set[1].z", 0.015e-3),          of("neck.set[2].z", 0.015e-3),
                           of("neck.set[3].z", 0.015e-3),          of("board.scale.scale_length", 0.25e-3),
                           of("saddle.setback_bass", 0.25e-3),     of("saddle.setback_treble", 0.25e-3),
                           of("playing.finger.depth", 0.02e-3),    of("tailpiece.hinge_height", 0.5e-3)};
    doubt slots{"nut slots", 0.025 * mm, {}};
    for (int i = 0; i < 10; ++i) {
        slots.moves.push_back({messages::path_of("nut.slot_heights", static_cast<std::size_t>(i))});
    }
    all.push_back(slots);
    all.push_back({"feelers", 0.01 * mm, {{"gauges[0].zero"}}});
    return all;
}
/// Nine readings of the cittern in three states; values are still to be filled in.
inline std::vector<reading> cittern_readings() {
    const auto nothing = 0 * mm, fine = 0.05 * mm;
    std::vector<reading> all{relief_read(nothing, fine).with("feelers"),
                             relief_read(nothing, fine).when("slack").with("feelers"),
                             height_read(0, 12, nothing, fine),
                             height_read(9, 12, nothing, fine),
                             height_read(4, 12, nothing, fine),
                             height_read(0, 1, nothing, fine).with("feelers"),
                             top_drop_read(nothing, 0.1 * mm),
                             line_at_saddle_read(nothing, 0.3 * mm).when("slack"),
                             nut_drop_read(nothing, 0.02 * mm).when("2 kg at the nut")};
    return all;
}
/// Fills readings with what the model says at changes of the inputs, told in their doubts, and with scatter of so many of
/// their own doubts.
inline void fill(const read_instrument& model, const std::vector<doubt>& doubts, std::vector<reading>& readings,
                 const std::vector<double>& truth, double scatter, std::uint64_t seed) {
    const auto inputs = read_inputs_of(model, doubts);
    kernel::read_model says(model, inputs, readings);
    std::vector<double> t;
    for (std::size_t i = 0; i < inputs.size(); ++i) { t.push_back(truth[i] * inputs[i].standard); }
    const auto values = says(t, matrix(t.size(), 0)).values;
    for (std::size_t k = 0; k < readings.size(); ++k) {
        const kind_name kind = find_readable(readings[k].path)->kind;
        readings[k].value = any_quantity::of(kind, values[k]);
        const double off = scatter * standard_of(readings[k]) * kernel::normal_deviate(seed, 1, k);
        readings[k].value = any_quantity::of(kind, values[k] + off);
    }
}
/// A reading off by so much, in SI.
inline void shift(reading& r, double by) { r.value = any_quantity::of(r.value.kind(), r.value.si() + by); }
/// The truth of a simulated job, in doubts of the inputs.
inline std::vector<double> truth(std::size_t inputs, std::uint64_t seed) {
    std::vector<double> t;
    for (std::size_t i = 0; i < inputs; ++i) { t.push_back(kernel::normal_deviate(seed, 0, i)); }
    return t;
}

} // namespace read_case
