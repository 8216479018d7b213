#include <tautline/board/levelling_plan.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

levelling board_of(std::mt19937& random, int fret_count, int lines, double noise_mm) {
    std::normal_distribution<double> noise(0, noise_mm);
    levelling job{.scale = {.scale_length = 560 * mm, .frets = fret_count}, .crown = 1 * mm};
    for (int k = 0; k < lines; ++k) {
        const double y = lines == 1 ? 3 : -13 + 26.0 * k / (lines - 1);
        crest_line line{.path = {.y_at_nut = y * mm, .y_at_saddle = 1.5 * y * mm, .x_at_saddle = 560 * mm}};
        for (int n = 1; n <= fret_count; ++n) {
            line.crests.push_back({.fret = n, .height = (noise(random) - 0.02 * n + 0.01 * y) * mm});
        }
        job.lines.push_back(line);
    }
    return job;
}

/// Least total cut of one line by trying every pair of crests as the ones the straightedge rests on.
double least_by_pairs(const levelling& job) {
    const auto& crests = job.lines[0].crests;
    std::vector<double> x, h;
    for (const auto& c : crests) {
        x.push_back(fret_position(job.scale, c.fret) / mm);
        h.push_back((c.height - wanted_shape(job, fret_position(job.scale, c.fret))) / mm);
    }
    double best = 1e9;
    for (std::size_t i = 0; i < x.size(); ++i) {
        for (std::size_t j = i + 1; j < x.size(); ++j) {
            const double slope = (h[j] - h[i]) / (x[j] - x[i]);
            double total = 0, least = 0;
            for (std::size_t k = 0; k < x.size(); ++k) {
                const double cut = h[k] - h[i] - slope * (x[k] - x[i]);
                total += cut;
                least = std::min(least, cut);
            }
            if (least > -1e-9) { best = std::min(best, total); }
        }
    }
    return best;
}

} // namespace

TEST_CASE("levelling plan: exact on one line by enumeration, straight, with fall-away, with relief") {
    std::mt19937 random(21);
    for (int i = 0; i < 60; ++i) {
        auto job = board_of(random, 3 + i % 10, 1, 0.05);
        if (i % 3 == 1) {
            job.fall_away_from = 2;
            job.fall_away = 0.1 * mm;
        }
        if (i % 3 == 2) { job.relief = 0.08 * mm; }
        const auto plan = plan_levelling(job);
        CHECK(near::within(plan.total_cut / mm, least_by_pairs(job), 1e-9));
    }
}

TEST_CASE("levelling plan: exact on three lines by enumeration of four crests") {
    std::mt19937 random(22);
    for (int i = 0; i < 10; ++i) {
        const auto job = board_of(random, 4, 3, 0.05);
        const auto list = kernel::crest_list(job);
        REQUIRE(list.size() == 12);
        double best = 1e9;
        for (std::size_t a = 0; a < 12; ++a) {
            for (std::size_t b = a + 1; b < 12; ++b) {
                for (std::size_t c = b + 1; c < 12; ++c) {
                    for (std::size_t d = c + 1; d < 12; ++d) {
                        const auto surface_through = kernel::resting_surface(list, {a, b, c, d});
                        double total = 0, least = 0, missed = 0;
                        for (std::size_t k = 0; k < 12; ++k) {
                            double cut = kernel::room(list[k]);
                            for (std::size_t j = 0; j < 4; ++j) { cut -= surface_through[j] * list[k].terms[j]; }
                            total += cut;
                            least = std::min(least, cut);
                            if (k == a || k == b || k == c || k == d) { missed = std::max(missed, std::abs(cut)); }
                        }
                        // Four crests in one line do not fix a surface.
                        if (least > -1e-9 && missed < 1e-9) { best = std::min(best, total); }
                    }
                }
            }
        }
        CHECK(near::within(plan_levelling(job).total_cut / mm, best, 1e-8));
    }
}

TEST_CASE("levelling plan: property, no crest is left above the surface, none is cut below it, it touches at two places at "
          "least") {
    std::mt19937 random(23);
    for (int i = 0; i < 40; ++i) {
        auto job = board_of(random, 8 + i % 14, 1 + i % 5, 0.04);
        job.one_reference = i % 4 != 3;
        const auto plan = plan_levelling(job);
        int touching = 0;
        for (const auto& c : plan.crests) {
            CHECK(c.cut >= 0.0 * mm);
            CHECK(near::within(c.crown_left, 1 * mm - c.cut, 1e-12 * mm));
            touching += c.touches;
            if (c.touches) { CHECK(near::within(c.cut, 0 * mm, 1e-6 * mm)); }
            if (c.holds > 0) { CHECK(c.touches); }
        }
        CHECK(touching >= 2);
        // Straight along every line afterwards: crests lie on one line.
        std::size_t at = 0;
        for (const auto& line : job.lines) {
            const auto left = [&](std::size_t k) { return (plan.crests[at + k].found - plan.crests[at + k].cut) / mm; };
            const auto x = [&](std::size_t k) { return plan.crests[at + k].x / mm; };
            const std::size_t last = line.crests.size() - 1;
            for (std::size_t k = 1; k < last; ++k) {
                const double chord = left(0) + (left(last) - left(0)) * (x(k) - x(0)) / (x(last) - x(0));
                CHECK(near::within(left(k), chord, 1e-9));
            }
            at += line.crests.size();
        }
    }
}

TEST_CASE("levelling plan: level boards need nothing, whatever their tilt, roll and twist") {
    levelling job{
        .scale = {.scale_length = 560 * mm, .frets = 15}, .arc = cone(200 * mm, 300 * mm, 400 * mm), .crown = 1 * mm};
    for (const double y : {-12.0, 0.0, 12.0}) {
        crest_line line{.path = {.y_at_nut = y * mm, .y_at_saddle = 1.5 * y * mm, .x_at_saddle = 560 * mm}};
        for (int n = 1; n <= 15; ++n) {
            const auto x = fret_position(job.scale, n);
            const double across = y / 12, along = x / (560 * mm);
            line.crests.push_back({.fret = n,
                                   .height = (0.3 - 0.5 * along + 0.1 * across + 0.2 * across * along) * mm +
                                             surface_height(job.arc, x, y_at(line.path, x))});
        }
        job.lines.push_back(line);
    }
    CHECK(near::within(plan_levelling(job).total_cut, 0 * mm, 1e-9 * mm));
    job.lines[1].crests[6].height += 0.2 * mm;
    const auto plan = plan_levelling(job);
    CHECK(near::within(plan.total_cut, 0.2 * mm, 1e-9 * mm));
    CHECK(near::within(plan.frets[6].greatest_cut, 0.2 * mm, 1e-9 * mm));
}

TEST_CASE("levelling plan: one low fret holds the rest down; replacing it saves what the plan says") {
    std::mt19937 random(24);
    auto job = board_of(random, 20, 4, 0.01);
    for (auto& line : job.lines) { line.crests[8].height -= 0.3 * mm; }
    const auto plan = plan_levelling(job);
    const auto& low = plan.frets[8];
    CHECK(low.fret == 9);
    CHECK(low.holds_down);
    for (const auto& f : plan.frets) {
        CHECK(f.saved_if_replaced <= low.saved_if_replaced);
        CHECK(f.saved_if_replaced >= 0.0 * mm);
    }
    // A new, high fret 9 ground down to the surface of the others: their cuts are the total less its own.
    auto raised = job;
    for (auto& line : raised.lines) { line.crests[8].height += 3 * mm; }
    const auto after = plan_levelling(raised);
    length<double> others{}, before{};
    for (std::size_t i = 0; i < plan.crests.size(); ++i) {
        if (plan.crests[i].fret == 9) { continue; }
        others += after.crests[i].cut;
        before += plan.crests[i].cut;
    }
    CHECK(near::within(low.saved_if_replaced, before - others, 1e-8 * mm));
}

TEST_CASE("levelling plan: multipliers are what a slightly higher crest saves") {
    std::mt19937 random(25);
    const auto job = board_of(random, 12, 3, 0.05);
    const auto plan = plan_levelling(job);
    for (std::size_t i = 0; i < plan.crests.size(); ++i) {
        auto raised = job;
        raised.lines[i / 12].crests[i % 12].height += 1e-6 * mm;
        const double more = (plan_levelling(raised).total_cut - plan.total_cut) / mm / 1e-6;
        CHECK(near::within(1 - more, plan.crests[i].holds, 1e-5));
    }
}

TEST_CASE("levelling plan: crowns of their own, frets to replace") {
    levelling job{.scale = {.scale_length = 560 * mm, .frets = 5}, .crown = 1 * mm, .least_crown = 0.6 * mm};
    job.lines = {{.path = {.x_at_saddle = 560 * mm},
                  .crests = {{.fret = 1, .height = 0 * mm},
                             {.fret = 2, .height = 0.1 * mm, .crown = 0.65 * mm},
                             {.fret = 3, .height = 0.1 * mm},
                             {.fret = 4, .height = 0 * mm},
                             {.fret = 5, .height = 0.5 * mm}}}};
    const auto plan = plan_levelling(job);
    CHECK(near::within(plan.frets[1].least_crown_left, 0.55 * mm, 1e-9 * mm));
    CHECK(plan.frets[1].replace);
    CHECK_FALSE(plan.frets[2].replace);
    CHECK(plan.frets[4].replace);
}

TEST_CASE("levelling plan: a fret is as its worst crest, whichever line that is on") {
    // Three level lines, whose crest of fret 3 stands high by turns, and one that was worn or reground before.
    levelling job{.scale = {.scale_length = 560 * mm, .frets = 6}, .crown = 1 * mm, .least_crown = 0.6 * mm};
    for (const double y : {-12.0, 0.0, 12.0}) {
        crest_line line{.path = {.y_at_nut = y * mm, .y_at_saddle = 1.5 * y * mm, .x_at_saddle = 560 * mm}};
        for (int n = 1; n <= 6; ++n) { line.crests.push_back({.fret = n, .height = 0 * mm}); }
        job.lines.push_back(line);
    }
    for (std::size_t high = 0; high < 3; ++high) {
        for (std::size_t low = 0; low < 3; ++low) {
            auto j = job;
            for (std::size_t k = 0; k < 3; ++k) { j.lines[k].crests[2].height = (k == high ? 0.3 : 0.1) * mm; }
            j.lines[low].crests[2].crown = 0.65 * mm;
            const auto plan = plan_levelling(j);
            // The other frets hold the surface level, so that what stands up comes off.
            const double cut_there = low == high ? 0.3 : 0.1;
            REQUIRE(plan.frets.size() == 6);
            CHECK(near::within(plan.frets[2].greatest_cut, 0.3 * mm, 1e-9 * mm));
            CHECK(near::within(plan.frets[2].least_crown_left, (0.65 - cut_there) * mm, 1e-9 * mm));
            CHECK(plan.frets[2].replace);
            CHECK(near::within(plan.frets[3].least_crown_left, 1 * mm, 1e-9 * mm));
            CHECK_FALSE(plan.frets[3].replace);
        }
    }
    // Against the crests of random boards.
    std::mt19937 random(28);
    for (int i = 0; i < 10; ++i) {
        const auto plan = plan_levelling(board_of(random, 9, 2 + i % 4, 0.05));
        for (const auto& f : plan.frets) {
            double most = 0, least = 1e9;
            for (const auto& c : plan.crests) {
                if (c.fret != f.fret) { continue; }
                most = std::max(most, c.cut / mm);
                least = std::min(least, c.crown_left / mm);
            }
            CHECK(near::within(f.greatest_cut / mm, most, 1e-12));
            CHECK(near::within(f.least_crown_left / mm, least, 1e-12));
        }
    }
}

TEST_CASE("levelling plan: two bests are said to be two; two crests; a hundred lines") {
    // A seesaw: the line over the low middle crest may tilt either way.
    levelling job{.scale = {.scale_length = 560 * mm, .frets = 3, .measured_places = {100 * mm, 200 * mm, 300 * mm}},
                  .crown = 1 * mm};
    job.lines = {
        {.path = {.x_at_saddle = 560 * mm},
         .crests = {{.fret = 1, .height = 0.3 * mm}, {.fret = 2, .height = 0 * mm}, {.fret = 3, .height = 0.3 * mm}}}};
    CHECK(plan_levelling(job).other_surfaces);
    CHECK(near::within(plan_levelling(job).total_cut, 0.6 * mm, 1e-9 * mm));
    job.lines[0].crests.pop_back();
    CHECK(near::within(plan_levelling(job).total_cut, 0 * mm, 1e-9 * mm));
    CHECK_FALSE(plan_levelling(job).other_surfaces);
    std::mt19937 random(26);
    CHECK(plan_levelling(board_of(random, 5, 100, 0.05)).crests.size() == 500);
}

TEST_CASE("levelling plan: derivative of the total by a crest is 1 less what it holds; floats and deeper duals agree") {
    std::mt19937 random(27);
    const auto job = board_of(random, 10, 3, 0.05);
    const auto plan = plan_levelling(job);
    using D = dual<double, 1>;
    for (std::size_t i = 0; i < 30; ++i) {
        auto d = over<D>(job);
        auto& height = d.lines[i / 10].crests[i % 10].height;
        height = D::variable(height.value().value, 0) * metre;
        CHECK(near::within(plan_levelling(d).total_cut.value().partial[0], 1 - plan.crests[i].holds, 1e-9));
    }
    CHECK(near::relative(static_cast<double>(plan_levelling(over<float>(job)).total_cut.value()), plan.total_cut.value(),
                         1e-4));
    CHECK(near::relative(value_of(plan_levelling(over<dual<D, 1>>(job)).total_cut.value()), plan.total_cut.value(), 1e-12));
}

TEST_CASE("levelling plan: bad input is refused") { CHECK_THROWS_AS((void)plan_levelling(levelling()), invalid_input); }
