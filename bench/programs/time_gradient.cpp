// Nanoseconds of one gradient of INPUTS inputs, best of many turns. Packs of doubles hold the partials.
#include <algorithm>
#include <chrono>
#include <cstdio>

#include <tautline/core/pack.hpp>

#include "../instrument.hpp"

int main() {
    using namespace tautline;
    using gradient = dual<double, INPUTS / lanes_of<pack<double>>::count, pack<double>>;
    const auto on = over<gradient>(strung_instrument{bench::make_instrument(6, 22), bench::make_stringing(6)});
    basic_setup<gradient> out;
    double best = 1e30, sum = 0;
    for (int turn = 0; turn < 200; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        for (int i = 0; i < 4; ++i) {
            solve(on, out);
            sum += out.down_force.value().value;
        }
        const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count() / 4);
    }
    std::fprintf(stderr, "%g\n", sum);
    std::printf("%.1f\n", best);
}
