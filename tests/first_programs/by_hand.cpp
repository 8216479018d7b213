// A student: Mersenne's law by hand, and what the library says of the same string.
// prints: by hand 73.4514 N, the library 73.4514 N, a wave runs at 428.519 m/s
#include <iostream>
#include <tautline/tautline.hpp>

using namespace std;
using namespace tautline;
using namespace tautline::units;

int main() {
    auto mu = 0.4 * gram / metre;
    auto L = 65 * cm;
    auto f = 329.63 * Hz;
    auto T = 4 * mu * L * L * f * f;
    cout << "by hand " << T / N << " N, the library " << tension(mu, L, f) / N << " N, a wave runs at "
         << to_text(wave_speed(mu, T)) << '\n';
}
