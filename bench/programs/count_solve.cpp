// Solves again and again, for an instruction counter: `count_solve plain 200 100`. The difference of two runs is the solve
// alone. Compiled against an earlier state of the library as well (BEFORE), with that state's own bench/instrument.hpp.
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include <instrument.hpp>

int main(int argc, char** argv) {
    using namespace tautline;
    if (argc < 4) {
        std::fprintf(stderr, "count_solve plain|everything STATIONS TIMES\n");
        return 1;
    }
    auto built = bench::make_instrument(6, 22);
    if (std::strcmp(argv[1], "everything") == 0) { built = bench::with_everything(built); }
    const auto strung = bench::make_stringing(6);
    const auto stations = static_cast<std::size_t>(std::atoi(argv[2]));
#ifndef BEFORE
    const strung_instrument on{built, strung};
#endif
    setup out;
    double sum = 0;
    for (int i = std::atoi(argv[3]); i > 0; --i) {
#ifdef BEFORE
        solve(built, strung, out, stations);
#else
        solve(on, out, stations);
#endif
        sum += out.down_force.value();
    }
    std::printf("%g\n", sum);
}
