// A neck's bow against the number of stations: making the beam, bending it, both in place.
#include <benchmark/benchmark.h>

#include <tautline/neck/loaded_frets.hpp>

namespace {

using namespace tautline;
using namespace tautline::units;

neck make_neck() {
    neck n;
    for (const double u : {0.0, 1.0}) {
        n.stations.push_back({.x = 350 * u * mm,
                              .half_width = (21.5 + 6 * u) * mm,
                              .board_thickness = 6 * mm,
                              .board_arc = 3 * per_metre,
                              .back_depth = (15 + 3 * u) * mm});
    }
    n.board_modulus = 14 * GPa;
    n.back_modulus = 10 * GPa;
    n.joint = 348 * mm;
    n.rod = truss_rod{.x_from = 10 * mm, .x_to = 330 * mm, .z_ends = -13 * mm};
    return n;
}
std::vector<string_pull> make_pulls() {
    return std::vector<string_pull>(6, {.pull = 110 * N, .z_nut = 1.8 * mm, .z_saddle = 12 * mm, .x_saddle = 630 * mm});
}

void neck_beam_by_stations(benchmark::State& state) {
    const neck n = make_neck();
    basic_neck_beam<double> beam;
    for (auto _ : state) {
        make_beam(n, static_cast<std::size_t>(state.range(0)), beam);
        benchmark::DoNotOptimize(beam.steps.data());
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(neck_beam_by_stations)->RangeMultiplier(4)->Range(8, 2048)->Complexity(benchmark::oN);

void neck_bow_by_stations(benchmark::State& state) {
    const auto beam = make_beam(make_neck(), static_cast<std::size_t>(state.range(0)));
    const auto pulls = make_pulls();
    bow bowed;
    for (auto _ : state) {
        bend<double>(beam, pulls, 500 * N, bowed);
        benchmark::DoNotOptimize(bowed.w.data());
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(neck_bow_by_stations)->RangeMultiplier(4)->Range(8, 2048)->Complexity(benchmark::oN);

void neck_bow_dual(benchmark::State& state) {
    using D = dual<double, 1>;
    const auto beam = make_beam(over<D>(make_neck()), static_cast<std::size_t>(state.range(0)));
    std::vector<basic_string_pull<D>> pulls;
    for (const auto& p : make_pulls()) { pulls.push_back(over<D>(p)); }
    basic_bow<D> bowed;
    for (auto _ : state) {
        bend<D>(beam, pulls, over<D>(500 * N), bowed);
        benchmark::DoNotOptimize(bowed.w.data());
    }
}
BENCHMARK(neck_bow_dual)->Arg(33);

} // namespace
