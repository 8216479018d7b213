// Nanoseconds of one solve in doubles at the default stations, best of many turns; for ratios to gradients of this state
// of the library. Compiled against an earlier state as well (BEFORE).
#include <algorithm>
#include <chrono>
#include <cstdio>

#include <instrument.hpp>

int main() {
    using namespace tautline;
    const auto built = bench::make_instrument(6, 22);
    const auto strung = bench::make_stringing(6);
#ifndef BEFORE
    const strung_instrument on{built, strung};
#endif
    setup out;
    double best = 1e30, sum = 0;
    for (int turn = 0; turn < 200; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        for (int i = 0; i < 20; ++i) {
#ifdef BEFORE
            solve(built, strung, out);
#else
            solve(on, out);
#endif
            sum += out.down_force.value();
        }
        const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count() / 20);
    }
    std::fprintf(stderr, "%g\n", sum);
    std::printf("%.1f\n", best);
}
