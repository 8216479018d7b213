// An instrument reconciled with nine readings in three states, twenty of its inputs doubtful; and which reading is next.
#include <benchmark/benchmark.h>

#include <tautline/doubt/readings_to_take.hpp>
#include <tautline/doubt/reconcile.hpp>
#include <tautline/instrument/ready_made.hpp>

namespace {

using namespace tautline;
using namespace tautline::units;

/// The ready-made cittern, with a weight to hang on its neck.
read_instrument read_cittern() {
    const auto o = ready_made::ten_string_cittern();
    read_instrument model{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}};
    model.states.push_back({.name = "2 kg at the nut", .slack = true, .weight = 2 * kgf});
    return model;
}
std::vector<doubt> twenty_doubts() {
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
std::vector<reading> nine_readings() {
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

void twenty_inputs(benchmark::State& state) {
    const auto model = read_cittern();
    const auto doubts = twenty_doubts();
    const auto readings = nine_readings();
    int steps = 0;
    for (auto _ : state) {
        const auto out = reconcile(model, doubts, {}, readings);
        steps = out.fit.steps;
        benchmark::DoNotOptimize(out.tests.square);
    }
    state.counters["steps"] = steps;
}

/// Forty heights that could be read and twenty inputs that could be measured again.
void next_of_sixty(benchmark::State& state) {
    const auto model = read_cittern();
    const auto out = reconcile(model, twenty_doubts(), {}, nine_readings());
    const auto results = propagate(out.adjusted.at_pitch, out.doubts);
    const auto& action = *find_result(results, "strings[0].heights[11]");
    std::vector<reading> candidates;
    for (std::size_t string = 0; string < 10; ++string) {
        for (const int fret : {3, 7, 14, 17}) { candidates.push_back(height_read(string, fret, length<>())); }
    }
    for (auto _ : state) {
        const auto next = readings_to_take(model, out, action, candidates);
        benchmark::DoNotOptimize(next.size());
    }
}
void solve_once(benchmark::State& state) {
    const auto model = read_cittern();
    setup out;
    for (auto _ : state) {
        solve(model.at_pitch, out);
        benchmark::DoNotOptimize(out.down_force);
    }
}
BENCHMARK(solve_once)->Name("one solve of it")->Unit(benchmark::kMillisecond);
BENCHMARK(twenty_inputs)->Name("reconcile/20 inputs, 9 readings, 3 states")->Unit(benchmark::kMillisecond);
BENCHMARK(next_of_sixty)->Name("next readings/60 candidates")->Unit(benchmark::kMillisecond);

} // namespace
