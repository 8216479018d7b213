// One whole solve, and how it grows with strings, frets and stations of the neck.
#include <benchmark/benchmark.h>

#include "instrument.hpp"

namespace {

using namespace tautline;

void solve_again(benchmark::State& state, const instrument& i, std::size_t stations) {
    const strung_instrument on{i, bench::make_stringing(string_count(i.nut.spacing))};
    setup out;
    for (auto _ : state) {
        solve(on, out, stations);
        benchmark::DoNotOptimize(out.down_force);
    }
}

void whole(benchmark::State& state) { solve_again(state, bench::make_instrument(6, 22), 200); }
BENCHMARK(whole)->Name("whole/6 strings, 22 frets, 200 stations");

void everything(benchmark::State& state) { solve_again(state, bench::with_everything(bench::make_instrument(6, 22)), 200); }
BENCHMARK(everything)->Name("whole/and a giving soundboard, feet, rod, set");

void by_strings(benchmark::State& state) {
    solve_again(state, bench::make_instrument(static_cast<int>(state.range(0)), 22), solve_stations);
}
BENCHMARK(by_strings)->Name("by strings")->Arg(6)->Arg(12)->Arg(24)->Arg(48);

void by_frets(benchmark::State& state) {
    solve_again(state, bench::make_instrument(6, static_cast<int>(state.range(0))), solve_stations);
}
BENCHMARK(by_frets)->Name("by frets")->Arg(14)->Arg(18)->Arg(22)->Arg(26);

void by_stations(benchmark::State& state) {
    solve_again(state, bench::make_instrument(6, 22), static_cast<std::size_t>(state.range(0)));
}
BENCHMARK(by_stations)->Name("by stations")->Arg(100)->Arg(200)->Arg(400)->Arg(800);

} // namespace
