// The properties of strings.
#include <benchmark/benchmark.h>

#include <tautline/strings/stiff_string.hpp>
#include <tautline/strings/wire_materials.hpp>
#include <tautline/strings/wound_string.hpp>

namespace {

using namespace tautline;
using namespace tautline::units;

music_string built() {
    auto s = wound_string(
        {.gauge = 1.0 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
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
