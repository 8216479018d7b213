// Packs against scalars, threads against one, gradients against solves and differences. Compiled for AVX2 (see
// CMakeLists.txt), scalars too, so that ratios are those of one set of flags.
#include <benchmark/benchmark.h>

#include <tautline/core/pack.hpp>
#include <tautline/doubt/sweep.hpp>

#include "instrument.hpp"

namespace {

using namespace tautline;
using namespace tautline::units;

template <class R>
void solve_over(benchmark::State& state) {
    const auto on = over<R>(strung_instrument{bench::make_instrument(6, 22), bench::make_stringing(6)});
    basic_setup<R> out;
    for (auto _ : state) {
        solve(on, out);
        benchmark::DoNotOptimize(out.down_force);
    }
}
/// Sixteen inputs: a value and four packs of four partials where there is AVX2.
using gradient = dual<double, 16 / lanes_of<pack<double>>::count, pack<double>>;

BENCHMARK(solve_over<double>)->Name("solve/double");
BENCHMARK(solve_over<pack<double>>)->Name("solve/pack");
BENCHMARK(solve_over<gradient>)->Name("solve/gradient of 16");

void differences(benchmark::State& state) {
    strung_instrument on{bench::make_instrument(6, 22), bench::make_stringing(6)};
    setup out;
    for (auto _ : state) {
        for (int k = 0; k < 17; ++k) {
            on.instrument.saddle.height_bass = (16 + 1e-6 * k) * mm;
            solve(on, out);
            benchmark::DoNotOptimize(out.down_force);
        }
    }
}
BENCHMARK(differences)->Name("solve/differences of 16, one-sided");

/// The bow alone, which no compiler makes parallel by itself.
template <class R>
void bow_over(benchmark::State& state) {
    const auto on = over<R>(strung_instrument{bench::make_instrument(6, 22), bench::make_stringing(6)});
    basic_setup<R> out;
    solve(on, out, 200);
    for (auto _ : state) {
        const kernel::bow_problem<R> problem{out.beam, kernel::gather<R>(out.pulls), {}, {}};
        benchmark::DoNotOptimize(kernel::solve_bow(problem).parts.nut_rise);
    }
}
BENCHMARK(bow_over<double>)->Name("bow/double");
BENCHMARK(bow_over<pack<double>>)->Name("bow/pack");

template <class R, unsigned Threads>
void sweep_of(benchmark::State& state) {
    const strung_instrument model{bench::make_instrument(6, 22), bench::make_stringing(6)};
    const std::vector<knob> knobs{knob_between("saddle.height_bass", 15 * mm, 17 * mm, 32),
                                  knob_between("nut.slot_heights[0]", 1.4 * mm, 1.6 * mm, 32)};
    const std::vector<std::string> outputs{"strings[0].heights[11]", "down_force", "relief.gap"};
    for (auto _ : state) {
        const auto table = sweep_grid<R>(model, knobs, outputs, {.threads = Threads});
        benchmark::DoNotOptimize(table.numbers.data());
    }
    state.SetItemsProcessed(state.iterations() * 1024);
}
BENCHMARK(sweep_of<double, 1>)->Name("sweep/double, 1 thread")->UseRealTime();
BENCHMARK(sweep_of<pack<double>, 1>)->Name("sweep/pack, 1 thread")->UseRealTime();
BENCHMARK(sweep_of<double, 2>)->Name("sweep/double, 2 threads")->UseRealTime();
BENCHMARK(sweep_of<pack<double>, 2>)->Name("sweep/pack, 2 threads")->UseRealTime();

} // namespace
