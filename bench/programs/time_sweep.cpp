// Nanoseconds of one row of a sweep in packs, the median of many turns: time_sweep THREADS. For ratios to an earlier state
// of the library (BEFORE), and of two threads to two processes side by side.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include <tautline/core/pack.hpp>
#ifdef BEFORE
#include <tautline/setup/sweep.hpp>
#else
#include <tautline/doubt/sweep.hpp>
#endif

#include <instrument.hpp>

int main(int count, char** words) {
    using namespace tautline;
    using namespace tautline::units;
    const unsigned threads = count > 1 ? static_cast<unsigned>(std::atoi(words[1])) : 1;
    const strung_instrument model{bench::make_instrument(6, 22), bench::make_stringing(6)};
    const std::vector<knob> knobs{knob_between("saddle.height_bass", 15 * mm, 17 * mm, 64),
                                  knob_between("nut.slot_heights[0]", 1.4 * mm, 1.6 * mm, 64)};
    const std::vector<std::string> outputs{"strings[0].heights[11]", "down_force", "relief.gap"};
    std::vector<double> taken;
    double sum = 0;
    for (int turn = 0; turn < 61; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        const auto table = sweep_grid<pack<double>>(model, knobs, outputs, {.threads = threads});
        const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
        taken.push_back(took.count() / (64 * 64));
        sum += table.numbers.back();
    }
    std::nth_element(taken.begin(), taken.begin() + 30, taken.end());
    std::fprintf(stderr, "%g\n", sum);
    std::printf("%.1f\n", taken[30]);
}
