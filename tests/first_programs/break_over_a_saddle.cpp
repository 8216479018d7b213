// A repairer: how much more does the string bend over the saddle when the tailpiece hangs 5 mm lower?
// prints: 10.4 deg becomes 13.1 deg
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace std;
using namespace tautline;
using namespace tautline::units;

int main() {
    const point nut{.z = 1.3 * mm}, saddle{.x = 560 * mm, .z = 5.5 * mm};
    point tailpiece{.x = 660 * mm, .z = -12 * mm};
    const auto now = support_load(nut, saddle, tailpiece, 65 * N);
    tailpiece.z = tailpiece.z - 5 * mm;
    const auto then = support_load(nut, saddle, tailpiece, 65 * N);
    printf("%s becomes %s\n", to_text(now.break_angle, {.digits = 3}).c_str(),
           to_text(then.break_angle, {.digits = 3}).c_str());
}
