// The room a plucked string takes, against its motion summed from the Fourier series printed by M. Gallant, "The String
// Plucker", jensign.com/StringPlucker: a_n = 2 y0 sin(n pi Q)/(n^2 pi^2 Q (1 - Q)), Q the plucked place over the length.

#include <tautline/action/pluck.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const double pi_ = std::acos(-1.0);

double coefficient(int n, double q) { return 2 * std::sin(n * pi_ * q) / (n * n * pi_ * pi_ * q * (1 - q)); }

/// Lowest point that the string reaches at `at` (share of the length) over one period, released from +1 or -1 at q.
double lowest(double q, double at, double sign) {
    constexpr int terms = 1500, moments = 240;
    double least = 1e9;
    for (int m = 0; m < moments; ++m) {
        double y = 0;
        for (int n = 1; n <= terms; ++n) {
            y += sign * coefficient(n, q) * std::sin(n * pi_ * at) * std::cos(2 * pi_ * n * m / double(moments));
        }
        least = std::min(least, y);
    }
    return least;
}

} // namespace

TEST_CASE("M. Gallant, The String Plucker (jensign.com): coefficients for Q = 1/4, computed from the printed formula" *
          published::seen) {
    const double expected[] = {0.764212, 0.270190, 0.084912, 0, -0.030568};
    for (int n = 1; n <= 5; ++n) {
        CHECK(published::within("Fourier coefficients 1 to 5", coefficient(n, 0.25), expected[n - 1], 1e-6));
    }
}

TEST_CASE("d'Alembert's envelope is what M. Gallant's Fourier sum (The String Plucker, jensign.com) sweeps" *
          published::own_computation) {
    for (const double q : {0.15, 0.25, 0.4}) {
        for (const double at : {0.05, 0.15, 0.3, 0.5, 0.6, 0.75, 0.85, 0.95}) {
            const double swept = std::max(-lowest(q, at, 1), -lowest(q, at, -1));
            CHECK(published::within("reach below the string's rest over the pluck's height",
                                    kernel::pluck_reach<double>(q * metre, 1 * metre)(at * metre), swept, 0.006));
        }
        // Each way by itself: pulled away, the low corner is at l - p; pushed down, at p.
        CHECK(published::within("reach of a pull at the mirrored place", -lowest(q, 1 - q, 1), 1, 0.006));
        CHECK(published::within("reach of a push at the pluck", -lowest(q, q, -1), 1, 0.006));
        CHECK(-lowest(q, q, 1) < 0.8);
    }
}
