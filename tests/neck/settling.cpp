#include <tautline/neck/settling.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("settling: the series against the diffusion equation, stepped through a plate") {
    // One open face kept at 1, the other closed; explicit differences on 200 layers.
    const int layers = 200;
    const double step = 0.4; // of layer^2/D
    std::vector<double> u(layers, 0.0), next(layers);
    // tau of a plate of `layers` layers, in steps of D t/layer^2.
    const double tau = std::pow(2 * layers / std::numbers::pi, 2);
    double t = 0, checked = 0;
    for (const double at : {0.01, 0.1, 0.5, 1.0, 3.0}) {
        while (t < at * tau) {
            for (int i = 0; i < layers; ++i) {
                const double before = i == 0 ? 2 - u[0] : u[static_cast<std::size_t>(i - 1)];
                const auto here = static_cast<std::size_t>(i);
                const double after = i + 1 == layers ? u[here] : u[here + 1];
                next[here] = u[here] + step * (before - 2 * u[here] + after);
            }
            u.swap(next);
            t += step;
        }
        double mean = 0;
        for (const double v : u) { mean += v / layers; }
        CHECK(near::within(share_settled(t * second, tau * second), mean, 0.002));
        ++checked;
    }
    CHECK(checked == 5);
}

TEST_CASE("settling: nothing at first, then as the square root of time, in the end all") {
    CHECK(near::within(share_settled(0.0 * second, 1.0 * second), 0.0, 0.003)); // a hundred terms
    const double early = share_settled(0.004 * second, 1.0 * second), later = share_settled(0.016 * second, 1.0 * second);
    CHECK(near::relative(later, 2 * early, 0.002));
    // 2 sqrt(D t/pi)/d, with D/d^2 = 4/(pi^2 tau).
    CHECK(near::relative(early, 4 / std::pow(std::numbers::pi, 1.5) * std::sqrt(0.004), 0.002));
    CHECK(near::within(share_settled(40.0 * second, 1.0 * second), 1.0, 1e-12));
    // Twice as thick takes four times as long.
    const auto d = 1e-11 * (1 * metre) * (1 * metre) / (1 * second);
    CHECK(near::relative(settling_time(8 * mm, d), 4.0 * settling_time(4 * mm, d), 1e-14));
    CHECK_THROWS_WITH((void)settling_time(8 * mm, 0.0 * d),
                      "diffusion in mm^2/day is 0; it must be more than 0 and at most 100000.");
}
