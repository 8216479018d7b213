// Tension and the properties of strings.
#include <benchmark/benchmark.h>

#include <tautline/strings/stiff_string.hpp>

namespace {

using namespace tautline;
using namespace tautline::units;

/// Mersenne's law over a long row of strings.
void tension_of_many(benchmark::State& state) {
    const auto n = static_cast<std::size_t>(state.range(0));
    std::vector<linear_density<double>> mu(n);
    std::vector<force<double>> pull(n);
    for (std::size_t i = 0; i < n; ++i) { mu[i] = (0.4 + 0.01 * static_cast<double>(i)) * g_per_m; }
    const length<double> l = 640 * mm;
    const frequency<double> f = 110 * Hz;
    for (auto _ : state) {
        for (std::size_t i = 0; i < n; ++i) { pull[i] = kernel::tension<double>(mu[i], l, f); }
        benchmark::DoNotOptimize(pull.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(tension_of_many)->Arg(520);

/// The same on bare doubles: what quantities cost.
void tension_of_many_raw(benchmark::State& state) {
    const auto n = static_cast<std::size_t>(state.range(0));
    std::vector<double> mu(n), pull(n);
    for (std::size_t i = 0; i < n; ++i) { mu[i] = (0.4 + 0.01 * static_cast<double>(i)) * 1e-3; }
    const double l = 0.640, f = 110;
    for (auto _ : state) {
        for (std::size_t i = 0; i < n; ++i) { pull[i] = mu[i] * (l * f * 2) * (l * f * 2); }
        benchmark::DoNotOptimize(pull.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(tension_of_many_raw)->Arg(520);

music_string built() {
    auto s = wound_string(music_wire(), 0.4 * mm, phosphor_bronze(), 0.3 * mm);
    s.core.section = core_section::hexagonal;
    s.layers[0].ground = 0.04 * mm;
    return s;
}

/// Mass per length of a ground wrap on a hexagonal core, unchecked and checked.
void mass_of_construction(benchmark::State& state) {
    auto s = built();
    for (auto _ : state) {
        benchmark::DoNotOptimize(s);
        benchmark::DoNotOptimize(kernel::mass_per_length(s));
    }
}
BENCHMARK(mass_of_construction);

void mass_of_construction_checked(benchmark::State& state) {
    auto s = built();
    for (auto _ : state) {
        benchmark::DoNotOptimize(s);
        benchmark::DoNotOptimize(mass_per_length(s));
    }
}
BENCHMARK(mass_of_construction_checked);

/// Tension at which the stiff string sounds its pitch.
void stiff_tension(benchmark::State& state) {
    const auto s = built();
    for (auto _ : state) { benchmark::DoNotOptimize(tension_of_stiff(s, 640 * mm, 110 * Hz)); }
}
BENCHMARK(stiff_tension);

} // namespace
