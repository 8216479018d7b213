#include <tautline/board/string_path.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("string path: its ends, the points between and beyond") {
    const string_path p{.y_at_nut = -14 * mm, .y_at_saddle = -26 * mm, .x_at_nut = 0.5 * mm, .x_at_saddle = 560.5 * mm};
    CHECK(near::within(y_at(p, 0.5 * mm), -14 * mm, 1e-12 * mm));
    CHECK(near::within(y_at(p, 560.5 * mm), -26 * mm, 1e-12 * mm));
    CHECK(near::within(y_at(p, 280.5 * mm), -20 * mm, 1e-12 * mm));
    CHECK(near::within(y_at(p, 700.5 * mm), -29 * mm, 1e-12 * mm));
    CHECK(near::relative(path_slope(p), -12.0 / 560, 1e-14));
    using D = dual<double, 1>;
    auto d = over<D>(p);
    d.y_at_saddle = D::variable(-0.026, 0) * metre;
    CHECK(near::relative(y_at(d, 140.5 * mm).value().partial[0], 0.25, 1e-13));
}

TEST_CASE("string path: the saddle lies beyond the nut") {
    const string_path p{.y_at_nut = 1 * mm, .y_at_saddle = 2 * mm, .x_at_saddle = 0 * mm};
    CHECK(validate(p).front().sentence() == "x_at_saddle must lie beyond the nut.");
    CHECK_THROWS_AS((void)y_at(p, 1 * mm), invalid_input);
    CHECK_THROWS_AS((void)path_slope(p), invalid_input);
}
