#include <tautline/neck/creep.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("creep: the usual figures are the measured law at those times, rounded") {
    const auto hour = 3600.0 * second;
    CHECK(near::within(creep_factor_after(24 * hour), usual_creep::day, 0.005));
    CHECK(near::within(creep_factor_after(168 * hour), usual_creep::week, 0.006));
    CHECK(near::within(creep_factor_after(8766 * hour), usual_creep::year, 0.025));
    // Ten times as long makes 10^0.221 times as much.
    CHECK(near::relative((creep_factor_after(1000 * hour) - 1) / (creep_factor_after(100 * hour) - 1),
                         std::pow(10.0, 0.221), 1e-12));
    CHECK_THROWS_WITH((void)creep_factor_after(1.0 * second),
                      "hours under load is 0.000277778; it must be at least 0.00833333 and at most 87660.");
}
