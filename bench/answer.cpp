// A whole job answered, and a plan with many wishes.
#include <benchmark/benchmark.h>

#include "demo_job.hpp"

namespace {

using namespace tautline;

void answered(benchmark::State& state, const bench_job& j) {
    for (auto _ : state) {
        const job_answers a = answer(j);
        benchmark::DoNotOptimize(a.steps.size());
    }
}
void without_readings(benchmark::State& state) { answered(state, bench::demo_job()); }
void with_readings(benchmark::State& state) { answered(state, bench::demo_job_read()); }
BENCHMARK(without_readings)->Name("answer/without readings")->Unit(benchmark::kMillisecond);
BENCHMARK(with_readings)->Name("answer/with readings")->Unit(benchmark::kMillisecond);

void planned(benchmark::State& state) {
    const strung_instrument on = bench::many_parts();
    const wishes wanted = bench::every_wish();
    for (auto _ : state) {
        const setup_plan p = make_plan(on, wanted);
        benchmark::DoNotOptimize(p.rod_pull_change);
    }
}
void solved_before(benchmark::State& state) {
    const strung_instrument on = bench::many_parts();
    setup out;
    for (auto _ : state) {
        solve(on, out);
        benchmark::DoNotOptimize(out.down_force);
    }
}
BENCHMARK(planned)->Name("plan/every wish");
BENCHMARK(solved_before)->Name("plan/one solve of before");

} // namespace
