#include <tautline/board/centre_line.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

edge_readings straight(std::initializer_list<double> at) {
    edge_readings job;
    for (const double x : at) {
        const double middle = 1.5 - 0.004 * x, half = 16 + 0.0125 * x;
        job.readings.push_back({.x = x * mm, .bass_edge = (middle - half) * mm, .treble_edge = (middle + half) * mm});
    }
    return job;
}

} // namespace

TEST_CASE("centre line: middles of the board carried to bridge and tail") {
    const auto line = find_centre_line(straight({0, 150, 300, 400}));
    CHECK(near::within(centre_at(line, 560 * mm).y, (1.5 - 0.004 * 560) * mm, 1e-10 * mm));
    CHECK(near::within(*centre_at(line, 560 * mm).uncertainty, 0 * mm, 1e-10 * mm));
    const auto bridge = off_centre(line, 560 * mm, 0.26 * mm, 0.2 * mm);
    CHECK(near::within(bridge.y, 1.0 * mm, 1e-10 * mm));
    CHECK(near::within(*bridge.uncertainty, 0.2 * mm, 1e-10 * mm));
}

TEST_CASE("centre line: two places need a reading error to say how sure they are; it grows with the distance") {
    auto job = straight({0, 400});
    CHECK_FALSE(centre_at(find_centre_line(job), 560 * mm).uncertainty.has_value());
    CHECK_FALSE(off_centre(find_centre_line(job), 560 * mm, 0 * mm).uncertainty.has_value());
    job.reading_error = 0.2 * mm;
    const auto line = find_centre_line(job);
    // Two middles of u = 0.2/sqrt(2), weights 1 - x/400 and x/400.
    for (const double x : {0.0, 200.0, 560.0, 800.0}) {
        const double t = x / 400;
        CHECK(
            near::within(*centre_at(line, x * mm).uncertainty, 0.2 / std::sqrt(2) * std::hypot(1 - t, t) * mm, 1e-10 * mm));
    }
}

TEST_CASE("centre line: derivative by one edge is half its weight") {
    using D = dual<double, 1>;
    auto d = over<D>(straight({0, 400}));
    d.readings[1].treble_edge = D::variable(d.readings[1].treble_edge.value().value, 0) * metre;
    CHECK(near::relative(centre_at(find_centre_line(d), 560 * mm).y.value().partial[0], 0.5 * 560 / 400, 1e-12));
}

TEST_CASE("centre line: bad input is named") {
    const auto first = [](const edge_readings& job) { return validate(job).front().sentence(); };
    CHECK(first({}) == "readings must hold at least two places.");
    CHECK(first(straight({0})) == "readings must hold at least two places.");
    CHECK(first(straight({100, 100})) == "readings[1].x must be further from the nut than the place before it.");
    auto job = straight({0, 100});
    job.readings[0].bass_edge = 30 * mm;
    CHECK(first(job) == "readings[0].treble_edge must lie on the treble side of the bass edge.");
    job = straight({0, 100});
    job.reading_error = 0 * mm;
    CHECK(first(job).find("reading_error is 0 mm") == 0);
    CHECK_THROWS_AS((void)centre_at(find_centre_line(straight({0, 100})), NAN * mm), invalid_input);
}

TEST_CASE("centre line: readings, places and their errors are looked at where they are used") {
    using doctest::Contains;
    CHECK_THROWS_WITH((void)find_centre_line(straight({100, 100})),
                      "edge_readings.readings[1].x must be further from the nut than the place before it.");
    const auto line = find_centre_line(straight({0, 100}));
    CHECK_THROWS_WITH((void)off_centre(line, 560 * mm, NAN * mm), Contains("y is not a number"));
    CHECK_THROWS_WITH((void)off_centre(line, 560 * mm, 0 * mm, -0.1 * mm), Contains("place error is -0.1 mm"));
}
