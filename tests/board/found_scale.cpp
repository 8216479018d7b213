#include <tautline/board/found_scale.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

fret_readings readings_of(const scale& s, double offset_mm, std::initializer_list<int> at) {
    fret_readings job{.steps = s.steps};
    for (const int n : at) { job.readings.push_back({.fret = n, .distance = fret_position(s, n) + offset_mm * mm}); }
    return job;
}

} // namespace

TEST_CASE("found scale: exact readings give the scale back") {
    for (const int steps : {12, 19}) {
        auto job = readings_of({.scale_length = 563.3 * mm, .steps = steps, .frets = 20}, 0, {1, 3, 5, 7, 12});
        const auto found = find_scale(job);
        CHECK(near::within(found.scale_length, 563.3 * mm, 1e-10 * mm));
        CHECK(near::within(*found.scale_length_error, 0 * mm, 1e-9 * mm));
        CHECK(found.nut_offset == 0.0 * mm);
        CHECK_FALSE(found.nut_offset_error.has_value());
        for (const auto& f : found.frets) { CHECK_FALSE(f.outlier); }
    }
    auto moved = readings_of({.scale_length = 563.3 * mm, .frets = 20}, 0.7, {1, 2, 5, 9, 12, 17});
    moved.with_nut_offset = true;
    CHECK(near::within(find_scale(moved).scale_length, 563.3 * mm, 1e-10 * mm));
    CHECK(near::within(find_scale(moved).nut_offset, 0.7 * mm, 1e-10 * mm));
    CHECK(near::within(*find_scale(moved).nut_offset_error, 0 * mm, 1e-9 * mm));
    for (const auto& f : find_scale(moved).frets) { CHECK(near::within(f.residual, 0 * mm, 1e-9 * mm)); }
    moved.with_nut_offset = false;
    CHECK(find_scale(moved).scale_length > 563.6 * mm);
}

TEST_CASE("found scale: the misread fret is pointed out and can be left out") {
    auto job = readings_of({.scale_length = 630 * mm, .frets = 20}, 0, {1, 2, 3, 4, 5, 7, 9, 10, 12, 15});
    std::mt19937 random(2);
    std::normal_distribution<double> noise(0, 0.04);
    for (auto& r : job.readings) { r.distance += noise(random) * mm; }
    const auto clean = find_scale(job);
    for (const auto& f : clean.frets) { CHECK_FALSE(f.outlier); }
    job.readings[4].distance += 2.0 * mm;
    job.readings[8].distance -= 1.0 * mm;
    const auto spoilt = find_scale(job);
    for (std::size_t i = 0; i < spoilt.frets.size(); ++i) { CHECK(spoilt.frets[i].outlier == (i == 4 || i == 8)); }
    job.leave_out_outliers = true;
    const auto kept = find_scale(job);
    CHECK(near::within(kept.scale_length, 630 * mm, 0.15 * mm));
    CHECK(near::within(kept.frets[4].residual, 2 * mm, 0.15 * mm));
    CHECK(kept.frets[4].error > 5.0 * cents);
    CHECK(kept.frets[8].error < -3.0 * cents);
}

TEST_CASE("found scale: a misread fret that draws the line onto itself is found all the same") {
    auto job = readings_of({.scale_length = 630 * mm, .frets = 20}, 0, {1, 2, 3, 4, 5, 6, 19});
    job.with_nut_offset = true;
    int k = 0;
    for (auto& r : job.readings) { r.distance += (k++ % 3 - 1) * 0.06 * mm; }
    for (const auto& f : find_scale(job).frets) { CHECK_FALSE(f.outlier); }
    job.readings[6].distance += 2.5 * mm;
    const auto found = find_scale(job);
    CHECK(abs(found.frets[6].residual) < 0.4 * mm);
    for (std::size_t i = 0; i < 7; ++i) { CHECK(found.frets[i].outlier == (i == 6)); }
}

TEST_CASE("found scale: of three readings two agree, and the third is the one that is off") {
    // Without an offset the line has two readings to spare, the fewest that tell an outlier.
    auto job = readings_of({.scale_length = 630 * mm, .frets = 20}, 0, {3, 7, 12});
    job.readings[1].distance += 2 * mm;
    const auto found = find_scale(job);
    for (std::size_t i = 0; i < 3; ++i) { CHECK(found.frets[i].outlier == (i == 1)); }
    job.with_nut_offset = true; // one to spare tells none: any of the three may be off
    for (const auto& f : find_scale(job).frets) { CHECK_FALSE(f.outlier); }
}

TEST_CASE("found scale: exact readings but one, and steps of the rule itself, are treated as such") {
    auto job = readings_of({.scale_length = 630 * mm, .frets = 20}, 0, {1, 4, 7, 12, 14, 19});
    job.readings[2].distance += 0.5 * mm;
    const auto found = find_scale(job);
    for (std::size_t i = 0; i < found.frets.size(); ++i) { CHECK(found.frets[i].outlier == (i == 2)); }
    job.readings[2].distance -= 0.45 * mm; // within the 0.1 mm of the rule
    for (const auto& f : find_scale(job).frets) { CHECK_FALSE(f.outlier); }
}

TEST_CASE("found scale: the only reading of a second fret stays, however far off: one fret alone is no scale") {
    fret_readings job{.readings = {{.fret = 5, .distance = 161 * mm}}};
    for (int k = 0; k < 6; ++k) { job.readings.push_back({.fret = 12, .distance = 315 * mm}); }
    job.leave_out_outliers = true;
    const auto found = find_scale(job);
    for (const auto& f : found.frets) { CHECK_FALSE(f.outlier); }
    // By hand, the line through the nut: sum of share times place over the sum of squared shares.
    const double share = 1 - std::exp2(-5 / 12.0);
    CHECK(near::within(found.scale_length / mm, (share * 161 + 6 * 0.5 * 315) / (share * share + 6 * 0.25), 1e-9));
    job.readings.insert(job.readings.begin() + 1, {.fret = 7, .distance = 210.3 * mm}); // a third fret: now it may go
    CHECK(find_scale(job).frets[0].outlier);
}

TEST_CASE("found scale: residual in cents is the fret's error on the fitted string") {
    auto job = readings_of({.scale_length = 650 * mm, .frets = 20}, 0, {1, 2, 3, 5, 7, 9, 10, 14, 16, 19, 20});
    job.readings.insert(job.readings.begin() + 7, {.fret = 12, .distance = 325.5 * mm});
    job.leave_out_outliers = true;
    const auto found = find_scale(job);
    CHECK(near::within(found.frets[7].error / cents, 1200 * std::log2(325 / 324.5), 1e-6));
}

TEST_CASE("found scale: two readings fit exactly and say nothing of their error") {
    auto job = readings_of({.scale_length = 600 * mm, .frets = 20}, 0.2, {5, 12});
    job.with_nut_offset = true;
    const auto found = find_scale(job);
    CHECK(near::within(found.nut_offset, 0.2 * mm, 1e-9 * mm));
    CHECK_FALSE(found.scale_length_error.has_value());
    CHECK_FALSE(found.scatter.has_value());
}

TEST_CASE("found scale: derivative by one reading against differences") {
    using D = dual<double, 1>;
    auto job = readings_of({.scale_length = 600 * mm, .frets = 20}, 0.2, {1, 5, 7, 12});
    job.with_nut_offset = true;
    job.readings[1].distance += 0.3 * mm;
    auto d = over<D>(job);
    d.readings[2].distance = D::variable(job.readings[2].distance.value(), 0) * metre;
    const auto slope = find_scale(d);
    const double h = 1e-6;
    auto up = job, down = job;
    up.readings[2].distance += h * metre;
    down.readings[2].distance -= h * metre;
    const auto a = find_scale(up), b = find_scale(down);
    CHECK(near::relative(slope.scale_length.value().partial[0], (a.scale_length - b.scale_length).value() / (2 * h), 1e-7));
    CHECK(near::relative(slope.scatter->value().partial[0], (*a.scatter - *b.scatter).value() / (2 * h), 1e-4));
    CHECK(near::within(static_cast<double>(find_scale(over<float>(job)).scale_length.value()),
                       find_scale(job).scale_length.value(), 1e-6));
}

TEST_CASE("found scale: bad input is named") {
    const auto first = [](const fret_readings& job) { return validate(job).front().sentence(); };
    CHECK(first({}) == "readings must hold at least two different frets.");
    CHECK(first({.readings = {{.fret = 5, .distance = 140 * mm}}}) == "readings must hold at least two different frets.");
    CHECK(first({.readings = {{.fret = 5, .distance = 140 * mm}, {.fret = 5, .distance = 140.1 * mm}}}) ==
          "readings must hold at least two different frets.");
    CHECK(first({.readings = {{.fret = 5, .distance = 140 * mm}, {.fret = 3, .distance = 100 * mm}}}) ==
          "readings[1].fret must not be lower than the fret of the reading before it.");
    CHECK(first({.readings = {{.fret = 3, .distance = 140 * mm}, {.fret = 5, .distance = 100 * mm}}}) ==
          "readings[1].distance must be more than that of the lower fret before it.");
    CHECK(first({.readings = {{.fret = 0, .distance = 140 * mm}, {.fret = 5, .distance = 150 * mm}}}) ==
          "readings[0].fret is 0; it must be at least 1 and at most 240.");
    CHECK(first({.readings = {{.fret = 1, .distance = NAN * mm}, {.fret = 5, .distance = 150 * mm}}})
              .find("readings[0].dist") == 0);
    CHECK_THROWS_AS((void)find_scale(fret_readings{}), invalid_input);
}
