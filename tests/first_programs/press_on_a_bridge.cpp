// An embedding developer: what six strings press a bridge with, from numbers in a table.
// prints: they press with 220.8 N, the first bends by 27.47 deg
#include <cstdio>
#include <tautline/supports/break_angle.hpp>
#include <vector>

namespace tl = tautline;
using tl::units::deg, tl::units::mm, tl::units::N;

struct row {
    double across, pull;
};

int main() {
    const std::vector<row> rows{{-26, 80}, {-15, 90}, {-5, 85}, {5, 80}, {15, 70}, {26, 72}};
    std::vector<tl::basic_support_load<>> loads;
    for (const row& r : rows) {
        loads.push_back(tl::support_load({.y = 0.7 * r.across * mm}, {.x = 640 * mm, .y = r.across * mm, .z = 10 * mm},
                                         {.x = 660 * mm, .y = r.across * mm}, r.pull * N));
    }
    std::printf("they press with %.1f N, the first bends by %.2f deg\n", -tl::total_force(loads).z / N,
                loads.front().break_angle / deg);
}
