#include <tautline/board/levelling.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

levelling sound_job() {
    levelling job{.scale = {.scale_length = 560 * mm, .frets = 20}, .crown = 1 * mm};
    crest_line line{.path = {.y_at_nut = 5 * mm, .y_at_saddle = 8 * mm, .x_at_saddle = 560 * mm}};
    for (int n = 1; n <= 20; ++n) { line.crests.push_back({.fret = n, .height = 0 * mm}); }
    job.lines = {line};
    return job;
}
std::string all_problems(const levelling& job) {
    std::string text;
    for (const auto& p : validate(job, "job")) { text += p.sentence() + "\n"; }
    return text;
}

} // namespace

TEST_CASE("levelling: the wanted shape is straight, falls away in a ramp, hollows in a parabola") {
    auto job = sound_job();
    const auto x = [&](int n) { return fret_position(job.scale, n); };
    CHECK(wanted_shape(job, 100 * mm) == 0.0 * mm);
    CHECK_THROWS_WITH((void)wanted_shape(job, NAN * mm), doctest::Contains("x is not a number"));
    job.fall_away_from = 12;
    job.fall_away = 0.3 * mm;
    CHECK(near::within(wanted_shape(job, x(12)), 0 * mm, 1e-12 * mm));
    CHECK(near::within(wanted_shape(job, x(20)), -0.3 * mm, 1e-12 * mm));
    CHECK(near::within(wanted_shape(job, (x(12) + x(20)) / 2.0), -0.15 * mm, 1e-12 * mm));
    job.fall_away_from = 0;
    job.relief = 0.2 * mm;
    job.relief_to = 14;
    CHECK(near::within(wanted_shape(job, (x(1) + x(14)) / 2.0), -0.2 * mm, 1e-12 * mm));
    CHECK(near::within(wanted_shape(job, x(1) + (x(14) - x(1)) / 4.0), -0.15 * mm, 1e-12 * mm));
    CHECK(wanted_shape(job, x(16)) == 0.0 * mm);
    CHECK(wanted_shape(job, 0 * mm) == 0.0 * mm);
}

TEST_CASE("levelling: bad input is named") {
    CHECK(all_problems(sound_job()).empty());
    auto job = sound_job();
    std::swap(job.lines[0].crests[3], job.lines[0].crests[4]);
    CHECK(all_problems(job) ==
          "job.lines[0].crests[4].fret must be higher than the fret before it: give the heights in the "
          "order of the frets.\n");
    job = sound_job();
    job.lines[0].crests[3].fret = 3;
    CHECK(all_problems(job).find("job.lines[0].crests[3].fret must be higher") == 0);
    job = sound_job();
    job.lines[0].crests.resize(1);
    CHECK(all_problems(job) == "job.lines[0].crests must hold at least two frets.\n");
    job.lines.clear();
    CHECK(all_problems(job) == "job.lines must hold at least one line of crests.\n");
    job = sound_job();
    job.scale.frets = 18;
    CHECK(all_problems(job).find("job.lines[0].crests[18].fret must be one of the board's frets.") == 0);
    job = sound_job();
    job.fall_away_from = 20;
    CHECK(all_problems(job) == "job.fall_away_from must be lower than the last fret.\n");
    job = sound_job();
    job.relief_from = 9;
    job.relief_to = 9;
    CHECK(all_problems(job).find("job.relief_to must be one of") == 0);
    job = sound_job();
    job.arc = cylinder(6 * mm);
    CHECK(all_problems(job) == "job.lines[0].path must lie within the radius of the arc.\n");
    job = sound_job();
    job.lines[0].crests[2].height = NAN * mm;
    CHECK(all_problems(job).find("job.lines[0].crests[2].height") == 0);
    job = sound_job();
    job.crown = 0 * mm;
    CHECK(all_problems(job).find("job.crown is 0 mm") == 0);
}

TEST_CASE("levelling: a shape is asked of a sound job") {
    auto job = sound_job();
    job.crown = 0 * mm;
    CHECK_THROWS_WITH((void)wanted_shape(job, 100 * mm), doctest::Contains("levelling.crown is 0 mm"));
}
