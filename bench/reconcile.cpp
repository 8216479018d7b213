// An instrument reconciled with nine readings in three states, twenty of its inputs doubtful; and which reading is next.
#include <benchmark/benchmark.h>

#include <tautline/doubt/readings_to_take.hpp>

#include "read_cittern.hpp"

namespace {

using namespace bench;

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
