// A neck's bow against the number of stations: making the beam, bending it, both in place.
#include <benchmark/benchmark.h>

#include <tautline/neck/loaded_frets.hpp>

#include "neck.hpp"

namespace {

using namespace tautline;
using namespace tautline::units;

neck neck_with_rod() {
    neck n = bench::plain_neck();
    n.rod = truss_rod{.x_from = 10 * mm, .x_to = 330 * mm, .z_ends = -13 * mm, .dip = 0 * mm};
    return n;
}

void neck_beam_by_stations(benchmark::State& state) {
    const neck n = neck_with_rod();
    basic_neck_beam<double> beam;
    for (auto _ : state) {
        make_beam(n, static_cast<std::size_t>(state.range(0)), beam);
        benchmark::DoNotOptimize(beam.steps.data());
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(neck_beam_by_stations)->RangeMultiplier(4)->Range(8, 2048)->Complexity(benchmark::oN);

void neck_bow_by_stations(benchmark::State& state) {
    const auto beam = make_beam(neck_with_rod(), static_cast<std::size_t>(state.range(0)));
    const auto pulls = bench::six_pulls();
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
    const auto beam = make_beam(over<D>(neck_with_rod()), static_cast<std::size_t>(state.range(0)));
    std::vector<basic_string_pull<D>> pulls;
    for (const auto& p : bench::six_pulls()) { pulls.push_back(over<D>(p)); }
    basic_bow<D> bowed;
    for (auto _ : state) {
        bend<D>(beam, pulls, over<D>(500 * N), bowed);
        benchmark::DoNotOptimize(bowed.w.data());
    }
}
BENCHMARK(neck_bow_dual)->Arg(33);

} // namespace
