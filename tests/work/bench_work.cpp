#include <tautline/work/do_work.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;

board_details details() {
    board_details d;
    d.slot = slot{.depth = 1.9 * mm, .width = 0.6 * mm};
    return d;
}
fret_wire tall() {
    return {.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.8 * mm, .tang_thickness = 0.65 * mm};
}

} // namespace

TEST_SUITE("bench_work") {
    TEST_CASE("no work leaves everything as found") {
        const auto done = do_work(strung(), {}, {});
        CHECK_FALSE(done.removal.has_value());
        CHECK(solve(done.after).total_tension == solve(strung()).total_tension);
    }
    TEST_CASE("a flatter board, new wire and new strings: each part's own answer, one after the other") {
        bench_work w;
        w.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack, .allowance = 0.1 * mm};
        w.wire = tall();
        w.strings = demo::unison_pairs();
        w.strings->standard.a4 = 432 * Hz;
        const auto done = do_work(strung(), details(), w);
        const auto by_hand = after_refret(
            after_sanding(strung(), least_removal(strung().instrument.board, cylinder(400 * mm), 0.1 * mm)), tall());
        CHECK(done.after.instrument.saddle.board_line == by_hand.instrument.saddle.board_line);
        CHECK(done.after.instrument.nut.slot_heights == by_hand.instrument.nut.slot_heights);
        CHECK(done.after.instrument.frets.wire.crown_height == 1.2 * mm);
        CHECK(done.after.stringing.standard.a4 == 432 * Hz);
        REQUIRE(done.sanding.has_value());
        CHECK(near::within(done.sanding->needed_slot, 2.1 * mm, 1e-9 * mm));
        length<> lacks_most{};
        for (std::size_t n = 1; n < done.sanding->rows.size(); ++n) {
            lacks_most = std::max(lacks_most, done.sanding->rows[n].slot_to_deepen);
        }
        CHECK(lacks_most > 0.2 * mm);
        CHECK(*numbers_of(done).slot_to_deepen == lacks_most);
        const auto numbers = numbers_of(done);
        CHECK(*numbers.slot_needed == done.sanding->needed_slot);
        CHECK(*numbers.tang_interference == done.fit->tang_interference);
        CHECK(*numbers.off_centre_at_nut == done.removal->at_nut);
        CHECK(near::within(*numbers.off_centre_at_end, done.removal->at_end, 1e-12 * mm));
        CHECK(near::within(*numbers.off_centre_most, std::max(done.removal->at_nut, done.removal->at_end), 1e-12 * mm));
        CHECK(*numbers.thinnest == done.thinnest->left);
        CHECK(near::within(*numbers.thickness_at_nut, 5.5 * mm - done.removal->at_nut, 1e-9 * mm));
        CHECK(near::within(*numbers.thickness_at_end, 5.5 * mm - done.removal->at_end, 1e-9 * mm));
        CHECK_FALSE(done.sanding->cautions.empty()); // slots of 1.9 mm lose wood and the wire wants 2.1
        REQUIRE(done.fit.has_value());
        CHECK(done.fit->grip == tang_grip::wedges);
        CHECK(near::within(done.fit->tang_interference, 0.05 * mm, 1e-9 * mm));
    }
    TEST_CASE("what is told of board and work is what the new radius is planned with") {
        auto d = details();
        d.binding_height = 5 * mm;
        d.binding_thickness = 1.5 * mm;
        d.inlay_thickness = 1.2 * mm;
        bench_work w;
        w.sanding = sanding{.surface = cylinder(400 * mm),
                            .held = neck_held::slack,
                            .allowance = 0.1 * mm,
                            .slot_clearance = 0.2 * mm,
                            .least_edge = 3 * mm,
                            .least_binding = 2.5 * mm,
                            .least_inlay = 0.7 * mm};
        const kernel::held_shape<double> shape{.sanded = {{.x = 100 * mm, .z = 0.1 * mm}}};
        auto on = strung();
        const auto job = kernel::reradius_job<double>(on, d, w, shape);
        CHECK(job.board.thickness == on.instrument.board.thickness);
        CHECK(*job.wanted.radius == 400 * mm);
        CHECK(job.allowance == 0.1 * mm);
        CHECK(job.shape.size() == 1);
        CHECK(job.action_fret == 12);
        CHECK(job.slot.depth == 1.9 * mm);
        CHECK(job.wire.crown_height == 0.9 * mm); // as found
        CHECK(job.slot_clearance == 0.2 * mm);
        CHECK(*job.binding_height == 5 * mm);
        CHECK(job.binding_thickness == 1.5 * mm);
        CHECK(job.least_binding == 2.5 * mm);
        CHECK(job.least_edge == 3 * mm);
        CHECK(*job.inlay_thickness == 1.2 * mm);
        CHECK(job.least_inlay == 0.7 * mm);
        w.wire = tall();
        on.instrument.board.scale.frets = 10;
        const auto short_board = kernel::reradius_job<double>(on, d, w, {});
        CHECK(short_board.wire.crown_height == 1.2 * mm);
        CHECK(short_board.action_fret == 10);
    }
    TEST_CASE("frets worn alike need no file; a proud fret is cut down to the others") {
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack};
        auto on = strung();
        auto done = do_work(on, {}, w);
        REQUIRE(done.levelling.has_value());
        CHECK(done.levelling->slack.total < 1e-6 * mm); // the demo's frets are all worn by 0.05 mm, its neck has no set
        CHECK_FALSE(done.levelling->refret());

        on.instrument.frets.wear[9] = 0 * mm;
        done = do_work(on, {}, w);
        CHECK(near::within(done.levelling->slack.total, 0.05 * mm, 1e-6 * mm));
        CHECK(near::within(done.levelling->slack.cuts[9], 0.05 * mm, 1e-6 * mm));
        CHECK(near::within(done.after.instrument.frets.wear[9], 0.05 * mm, 1e-6 * mm));
    }
    TEST_CASE("a hollow that the crests are to have is left in them; one that is not wanted is filed away") {
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack, .hollow = 0.3 * mm, .least_crown = 0.1 * mm};
        auto on = strung();
        const auto at = [&](int n) { return fret_position(on.instrument.board.scale, n); };
        for (int n = 1; n <= 12; ++n) {
            const double t = (at(n) - at(1)) / (at(12) - at(1));
            on.instrument.neck.set.push_back({.x = at(n), .z = -0.3 * mm * (4 * t * (1 - t))});
        }
        CHECK(do_work(on, {}, w).levelling->slack.total < 0.05 * mm);
        w.levelling->hollow = 0 * mm;
        CHECK(do_work(on, {}, w).levelling->slack.total > 1 * mm); // eleven frets down to a straight line
        // A hump is no hollow.
        w.levelling->hollow = 0.3 * mm;
        for (auto& m : on.instrument.neck.set) { m.z = -m.z; }
        CHECK(do_work(on, {}, w).levelling->slack.total > 1 * mm);
    }
    TEST_CASE("each way of holding the neck is reckoned, the one that was said is filed") {
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.1 * mm};
        w.strings = demo::unison_pairs();
        w.strings->standard.a4 = 400 * Hz;
        auto on = strung();
        // Crests straight at pitch as found, on a neck that bows: any other way of holding it shows a hollow or a hump.
        for (int round = 0; round < 8; ++round) { // the set lifts the strings' ends, and they bow the neck by more
            const auto found = solve(on);
            on.instrument.neck.set.clear();
            for (const auto& x : found.fret_x) {
                on.instrument.neck.set.push_back({.x = x, .z = -kernel::load_deflection_at<double>(found.bow, x)});
            }
        }
        const auto filed = [&](neck_held held) {
            w.levelling->held = held;
            return do_work(on, {}, w);
        };
        const auto slack = filed(neck_held::slack), pitch = filed(neck_held::as_at_pitch),
                   later = filed(neck_held::as_it_will_be);
        const auto& ways = *slack.levelling;
        CHECK(ways.at_pitch.total < 1e-3 * mm);
        CHECK(ways.slack.total > 5 * ways.will_be.total);
        CHECK(ways.will_be.total > 0.05 * mm);
        CHECK(*numbers_of(slack).level_slack == ways.slack.total);
        CHECK(numbers_of(slack).fret_cuts == ways.slack.cuts);
        CHECK(numbers_of(pitch).fret_cuts == ways.at_pitch.cuts);
        CHECK(numbers_of(later).fret_cuts == later.levelling->will_be.cuts);
        CHECK(near::within(slack.after.instrument.frets.wear[0] - 0.05 * mm, ways.slack.cuts[0], 1e-9 * mm));
    }
    TEST_CASE("a fret worn too far asks for new frets") {
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.6 * mm};
        auto on = strung();
        on.instrument.frets.wear[0] = 0.4 * mm;
        const auto done = do_work(on, {}, w);
        CHECK(done.levelling->refret());
        CHECK(done.levelling->slack.too_low > 1);
        CHECK(is_valid(done.after.instrument));
    }
    TEST_CASE("where the file would go through a crown it stops a hundredth above the board") {
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack};
        auto on = strung();
        // A neck with a hump higher than a crown.
        on.instrument.neck.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 90 * mm, .z = 1.5 * mm}, {.x = 280 * mm, .z = 0 * mm}};
        const auto done = do_work(on, {}, w);
        CHECK(done.levelling->refret());
        const auto numbers = numbers_of(done);
        std::size_t stopped = 0;
        for (std::size_t n = 0; n < 19; ++n) {
            const length<> crown = 0.85 * mm, cut = numbers.fret_cuts[n],
                           taken = done.after.instrument.frets.wear[n] - 0.05 * mm;
            stopped += cut > crown ? 1 : 0;
            CHECK(near::within(taken, std::min(cut, 0.99 * crown), 1e-12 * mm));
        }
        CHECK(stopped > 0);
        CHECK(stopped < 19);
    }
    TEST_CASE("contradictory and impossible work is refused") {
        bench_work w;
        w.wire = tall();
        w.levelling = fret_levelling{.held = neck_held::slack};
        CHECK_THROWS_WITH_AS((void)do_work(strung(), {}, w), "work.levelling must be left out where new frets go in.",
                             invalid_input);
        w = {};
        w.levelling = fret_levelling{.held = neck_held::slack};
        auto bare = strung();
        bare.instrument.board.scale.frets = 0;
        bare.instrument.frets.wear.clear();
        CHECK_THROWS_AS((void)do_work(bare, {}, w), invalid_input);
        w = {};
        w.sanding = sanding{.surface = {.radius = 10 * mm}, .held = neck_held::slack};
        CHECK_THROWS_AS((void)do_work(strung(), details(), w), invalid_input);
        w.sanding = sanding{.surface = {.radius = 400 * mm}, .held = neck_held::slack, .allowance = -1 * mm};
        CHECK_THROWS_WITH_AS((void)do_work(strung(), details(), w),
                             "work.sanding.allowance is -1 mm; it must be at least 0 mm and at most 10 mm.", invalid_input);
    }
}
