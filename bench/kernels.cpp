// Quantities against bare doubles in the same kernels.
#include <benchmark/benchmark.h>

#include "kernels.hpp"

namespace {

template <auto Kernel>
void run(benchmark::State& state) {
    bench::kernel_data data;
    for (auto _ : state) {
        if constexpr (std::is_void_v<decltype(Kernel(data))>) {
            Kernel(data);
        } else {
            benchmark::DoNotOptimize(Kernel(data));
        }
        benchmark::ClobberMemory();
    }
}
BENCHMARK(run<bench::tension_units>)->Name("kernel/tension/units");
BENCHMARK(run<bench::tension_raw>)->Name("kernel/tension/raw");
BENCHMARK(run<bench::heights_units>)->Name("kernel/heights/units");
BENCHMARK(run<bench::heights_raw>)->Name("kernel/heights/raw");
BENCHMARK(run<bench::pluck_units>)->Name("kernel/pluck/units");
BENCHMARK(run<bench::pluck_raw>)->Name("kernel/pluck/raw");
BENCHMARK(run<bench::bow_units>)->Name("kernel/bow/units");
BENCHMARK(run<bench::bow_raw>)->Name("kernel/bow/raw");

} // namespace
