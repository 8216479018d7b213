#include <tautline/board/reradius.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

reradius reradius_job() {
    reradius job{
        .board = {.width_at_nut = 32 * mm,
                  .width_at_end = 42 * mm,
                  .board_length = 400 * mm,
                  .thickness = 6 * mm,
                  .surface = cylinder(8 * inch),
                  .scale = {.scale_length = 560 * mm, .frets = 20}},
        .wanted = cylinder(12 * inch),
        .allowance = 0.1 * mm,
        .slot = {.depth = 2.2 * mm, .width = 0.6 * mm},
        .wire = {.crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm},
        .slot_clearance = 0.2 * mm,
        .binding_height = 1.6 * mm,
        .binding_thickness = 1.5 * mm,
        .inlay_thickness = 1.3 * mm};
    for (const double y : {-13.0, -4.0, 4.0, 13.0}) {
        job.paths.push_back({.y_at_nut = y * mm, .y_at_saddle = 1.6 * y * mm, .x_at_saddle = 560 * mm});
    }
    return job;
}
bool warns_of(const basic_reradius_plan<double>& plan, reradius_warning what) {
    for (const auto& c : plan.cautions) {
        if (c.what == what) { return true; }
    }
    return false;
}
std::string all_problems(const reradius& job) {
    std::string text;
    for (const auto& p : validate(job, "job")) { text += p.sentence() + "\n"; }
    return text;
}

} // namespace

TEST_CASE("re-radius: every row agrees with the removal") {
    const auto job = reradius_job();
    const auto plan = plan_reradius(job);
    REQUIRE(plan.rows.size() == 21);
    CHECK(plan.cautions.empty());
    for (const auto& row : plan.rows) {
        const auto half = half_width_at(job.board, row.x);
        CHECK(near::within(row.off_centre_line, removal_at(plan.removal, row.x, 0 * mm), 1e-12 * mm));
        CHECK(near::within(row.off_edge, removal_at(plan.removal, row.x, half), 1e-12 * mm));
        CHECK(
            near::within(row.off_under_string[3], removal_at(plan.removal, row.x, y_at(job.paths[3], row.x)), 1e-12 * mm));
        CHECK(row.off_centre_line > row.off_under_string[1]);
        CHECK(row.off_under_string[1] > row.off_under_string[0]);
        CHECK(near::within(row.thickness_left, 6 * mm - row.off_centre_line, 1e-12 * mm));
        CHECK(near::within(row.edge_left, row.thickness_left - sagitta(12 * inch, 2.0 * half), 1e-12 * mm));
        CHECK(near::within(*row.binding_left, 1.6 * mm - row.off_edge, 1e-12 * mm));
        CHECK(near::within(row.slot_left, 2.2 * mm - row.off_centre_line,
                           1e-12 * mm)); // flattening: shallowest in the middle
        CHECK(row.slot_to_deepen == 0.0 * mm);
        CHECK(row.inlay_left.has_value() == (row.fret > 0));
    }
    const auto middle = (plan.rows[4].x + plan.rows[5].x) / 2.0;
    CHECK(near::within(*plan.rows[5].inlay_left, 1.3 * mm - removal_at(plan.removal, middle, 0 * mm), 1e-12 * mm));
    CHECK(near::within(plan.edge_left_at_end, 6 * mm - plan.removal.at_end - sagitta(12 * inch, 42 * mm), 1e-12 * mm));
    CHECK(near::within(plan.nut_slot_drop[1], plan.rows[0].off_under_string[1], 1e-12 * mm));
    CHECK(near::within(
        plan.saddle_drop[1],
        saddle_drop_keeping_action(plan.rows[12].off_under_string[1], plan.nut_slot_drop[1], plan.rows[12].x, 560 * mm),
        1e-12 * mm));
}

TEST_CASE("re-radius: slots of both floors; tightening leaves the edges shallow") {
    auto job = reradius_job();
    job.slot.floor = slot_floor::flat;
    const auto flat = plan_reradius(job);
    // A flat floor under the new arc is shallowest where the slot stops at the binding.
    const auto end = half_width_at(job.board, flat.rows[9].x) - 1.5 * mm;
    CHECK(near::within(flat.rows[9].slot_left, 2.2 * mm - flat.rows[9].off_centre_line - sagitta(12 * inch, 2.0 * end),
                       1e-12 * mm));
    job = reradius_job();
    job.board.surface = cylinder(12 * inch);
    job.wanted = cylinder(8 * inch);
    const auto tight = plan_reradius(job);
    CHECK(tight.rows[20].slot_left < 2.2 * mm - tight.rows[20].off_centre_line);
    CHECK(near::within(
        tight.rows[20].slot_left,
        2.2 * mm - removal_at(tight.removal, tight.rows[20].x, half_width_at(job.board, tight.rows[20].x) - 1.5 * mm),
        1e-12 * mm));
}

TEST_CASE("re-radius: warnings come in runs with the worst fret, and say what to do") {
    auto job = reradius_job();
    job.slot.depth = 2.05 * mm;
    auto plan = plan_reradius(job);
    REQUIRE(plan.cautions.size() == 1);
    const auto& c = plan.cautions[0];
    CHECK(c.what == reradius_warning::slot_too_shallow);
    CHECK(c.to_fret == 20);
    CHECK(c.worst_fret == 20);
    for (const auto& row : plan.rows) {
        if (row.fret == 0) { continue; }
        CHECK((row.slot_left < plan.needed_slot) == (row.fret >= c.from_fret));
        CHECK(near::within(row.slot_to_deepen, max(0.0 * mm, plan.needed_slot - row.slot_left), 1e-12 * mm));
    }
    CHECK(sentence(c) ==
          "From fret " + std::to_string(c.from_fret) +
              " to fret 20 slots are left as shallow as 1.59 mm (at fret 20); the wire needs 1.70 mm: deepen them.");

    job = reradius_job();
    job.slot.depth = 0.2 * mm;
    CHECK(warns_of(plan_reradius(job), reradius_warning::slot_gone));
    job = reradius_job();
    job.least_binding = 1.55 * mm;
    CHECK(warns_of(plan_reradius(job), reradius_warning::binding_limit));
    job = reradius_job();
    job.least_edge = 5 * mm;
    CHECK(warns_of(plan_reradius(job), reradius_warning::edge_limit));
    job = reradius_job();
    job.least_inlay = 1 * mm;
    CHECK(warns_of(plan_reradius(job), reradius_warning::inlay_limit));
    for (const auto& caution : plan_reradius(job).cautions) {
        CHECK(sentence(caution).find("less than 1.00 mm") != std::string::npos);
    }
}

TEST_CASE("re-radius: a removal chosen by hand may leave places that do not clean up, but not the whole board") {
    auto job = reradius_job();
    job.chosen_at_nut = 0.25 * mm;
    job.chosen_at_end = 0.25 * mm;
    const auto plan = plan_reradius(job);
    CHECK(near::within(plan.rows[0].off_centre_line, 0.25 * mm, 1e-12 * mm));
    REQUIRE(warns_of(plan, reradius_warning::not_cleaned_up));
    CHECK(plan.cautions[0].from_fret > 0);
    CHECK(sentence(plan.cautions[0]).find("does not clean up") != std::string::npos);
    job.chosen_at_nut = 0 * mm;
    job.chosen_at_end = 0 * mm;
    CHECK_THROWS_WITH_AS(
        (void)plan_reradius(job),
        "reradius.chosen_at_nut must be more: the wanted surface lies above the board everywhere, so nothing "
        "would come off.",
        invalid_input);
}

TEST_CASE("re-radius: property, the string's height over fret 12 and over the nut's end of the board stays") {
    std::mt19937 random(31);
    std::uniform_real_distribution<double> radii(6, 20);
    for (int i = 0; i < 30; ++i) {
        auto job = reradius_job();
        job.board.surface = cylinder(radii(random) * inch);
        job.wanted = cone(radii(random) * inch, radii(random) * inch, 400 * mm);
        for (auto& p : job.paths) { p.x_at_nut = (i % 3) * 2.0 * mm; } // a nut that was moved
        const auto plan = plan_reradius(job);
        for (std::size_t s = 0; s < job.paths.size(); ++s) {
            const double share =
                (plan.rows[12].x - job.paths[s].x_at_nut) / (job.paths[s].x_at_saddle - job.paths[s].x_at_nut);
            const auto string_falls = plan.nut_slot_drop[s] * (1 - share) + plan.saddle_drop[s] * share;
            CHECK(near::within(string_falls, plan.rows[12].off_under_string[s], 1e-12 * mm));
        }
    }
}

TEST_CASE("re-radius: no frets, no strings, a hundred strings; other numbers") {
    auto job = reradius_job();
    job.paths.clear();
    CHECK(plan_reradius(job).saddle_drop.empty());
    job.paths.assign(100, {.y_at_nut = 1 * mm, .y_at_saddle = 2 * mm, .x_at_saddle = 560 * mm});
    CHECK(plan_reradius(job).saddle_drop.size() == 100);
    job = reradius_job();
    job.board.scale.frets = 0;
    CHECK(all_problems(job) == "job.action_fret must be one of the board's frets.\n");
    using D = dual<double, 1>;
    auto d = over<D>(reradius_job());
    d.board.surface.radius = D::variable(0.2032, 0) * metre;
    const auto at = [](double r) {
        auto j = reradius_job();
        j.board.surface = cylinder(r * metre);
        return plan_reradius(j).saddle_drop[1].value();
    };
    CHECK(near::relative(plan_reradius(d).saddle_drop[1].value().partial[0], (at(0.2032 + 1e-5) - at(0.2032 - 1e-5)) / 2e-5,
                         1e-6));
    CHECK(near::within(static_cast<double>(plan_reradius(over<float>(reradius_job())).removal.at_end.value()),
                       plan_reradius(reradius_job()).removal.at_end.value(), 1e-7));
}

TEST_CASE("re-radius: bad input is named") {
    CHECK(all_problems(reradius_job()).empty());
    auto job = reradius_job();
    job.wanted = cylinder(18 * mm);
    job.board.thickness = 20 * mm;
    CHECK(all_problems(job) == "job.wanted.radius must be at least half the width of the board at the end.\n");
    job = reradius_job();
    job.board.surface = cylinder(18 * mm);
    job.board.thickness = 20 * mm;
    CHECK(all_problems(job).find("job.board.surface.radius must be at least half the width of the board at the end.") == 0);
    job = reradius_job();
    job.board.width_at_end = -1 * mm;
    CHECK(all_problems(job).find("job.board.width_at_end is -1 mm") == 0);
    job = reradius_job();
    job.slot.depth = 6.5 * mm;
    CHECK(all_problems(job) == "job.slot.depth must be less than the thickness of the board.\n");
    job = reradius_job();
    job.binding_height = 7 * mm;
    CHECK(all_problems(job) == "job.binding_height must be at most the thickness of the board.\n");
    job = reradius_job();
    job.binding_thickness = 17 * mm;
    CHECK(all_problems(job) == "job.binding_thickness must be less than half the width of the board.\n");
    job = reradius_job();
    job.chosen_at_end = 1 * mm;
    CHECK(all_problems(job) == "job.chosen_at_nut must be given too: both or neither.\n");
    job = reradius_job();
    job.action_fret = 21;
    CHECK(all_problems(job) == "job.action_fret must be one of the board's frets.\n");
    job = reradius_job();
    job.paths[0].y_at_nut = -17 * mm;
    CHECK(all_problems(job) == "job.paths[0] must run over the board from nut to end.\n");
    job = reradius_job();
    job.allowance = NAN * mm;
    CHECK_THROWS_AS((void)plan_reradius(job), invalid_input);
}

TEST_CASE("reradius: every warning is said in words, with its place and its numbers") {
    const auto said = [](reradius_warning what) {
        return sentence(basic_reradius_caution<double>{
            .what = what, .from_fret = 0, .to_fret = 3, .worst_fret = 2, .left = 0.4 * mm, .wanted = 1.5 * mm});
    };
    const std::string where = "From the nut to fret 3", worst = "0.40 mm (at fret 2)";
    CHECK(said(reradius_warning::slot_too_shallow) ==
          where + " slots are left as shallow as " + worst + "; the wire needs 1.50 mm: deepen them.");
    CHECK(said(reradius_warning::slot_gone) == where + " slots are sanded away: cut them anew, 1.50 mm deep.");
    CHECK(said(reradius_warning::binding_limit) == where + " the binding is left " + worst + " high, less than 1.50 mm.");
    CHECK(said(reradius_warning::edge_limit) ==
          where + " the edge of the board is left " + worst + " high, less than 1.50 mm.");
    CHECK(said(reradius_warning::inlay_limit) == where + " inlay is left " + worst + " thick, less than 1.50 mm.");
    CHECK(
        sentence(basic_reradius_caution<double>{
            .what = reradius_warning::not_cleaned_up, .from_fret = 5, .to_fret = 5, .worst_fret = 5, .left = -0.2 * mm}) ==
        "At fret 5 the wanted surface stands up to 0.20 mm above the board: it does not clean up.");
}
