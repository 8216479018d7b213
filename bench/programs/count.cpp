// Runs one kernel so many times, for an instruction counter: `count tension_units 1000`. The difference of two runs is the
// kernel alone. Says first whether both ways agree.
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "../kernels.hpp"

int main(int argc, char** argv) {
    using namespace bench;
    kernel_data d;
    if (argc < 3) {
        tension_units(d);
        tension_raw(d);
        heights_units(d);
        heights_raw(d);
        double worst = std::abs(pluck_units(d) / pluck_raw(d) - 1);
        worst = std::max(worst, std::abs(bow_units(d) / bow_raw(d) - 1));
        for (std::size_t i = 0; i < d.pull.size(); ++i) {
            worst = std::max(worst, std::abs(d.pull[i].value() / d.raw_pull[i] - 1));
        }
        for (std::size_t i = 0; i < d.heights.size(); ++i) {
            worst = std::max(worst, std::abs(d.heights[i].value() / d.raw_heights[i] - 1));
        }
        std::printf("both ways agree within %.1e of themselves\n", worst);
        return worst < 1e-12 ? 0 : 1;
    }
    const int times = std::atoi(argv[2]);
    const auto is = [&](const char* name) { return std::strcmp(argv[1], name) == 0; };
    double sum = 0;
    for (int i = 0; i < times; ++i) {
        if (is("tension_units")) { tension_units(d); }
        if (is("tension_raw")) { tension_raw(d); }
        if (is("heights_units")) { heights_units(d); }
        if (is("heights_raw")) { heights_raw(d); }
        if (is("pluck_units")) { sum += pluck_units(d); }
        if (is("pluck_raw")) { sum += pluck_raw(d); }
        if (is("bow_units")) { sum += bow_units(d); }
        if (is("bow_raw")) { sum += bow_raw(d); }
    }
    std::printf("%g\n", sum + d.pull[7].value() + d.raw_pull[7] + d.heights[3].value() + d.raw_heights[3]);
}
