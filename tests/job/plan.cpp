#include <tautline/action/height_plan.hpp>
#include <tautline/job/plan.hpp>
#include <tautline/work/after_work.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;

strung_instrument with_rod() {
    auto on = strung();
    on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
    on.instrument.neck.rod_pull = 0 * N;
    on.instrument.neck.board_modulus = 9 * GPa;
    on.instrument.neck.back_modulus = 7 * GPa;
    return on;
}

wishes heights() {
    wishes w;
    w.first_fret_bass = 0.55 * mm;
    w.first_fret_treble = 0.45 * mm;
    w.action_bass = 2.2 * mm;
    w.action_treble = 1.8 * mm;
    return w;
}

std::string said(const strung_instrument& on, const wishes& w) {
    try {
        (void)make_plan(on, w);
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}

} // namespace

TEST_SUITE("plan") {
    TEST_CASE("nothing wanted changes nothing") {
        const auto on = strung();
        const auto p = make_plan(on, {});
        const auto s = solve(on);
        CHECK(p.solved.total_tension == s.total_tension);
        CHECK(p.solved.strings[0].heights == s.strings[0].heights);
        CHECK(p.shortfalls.empty());
        for (const auto& c : p.slot_change) { CHECK(c == 0 * mm); }
        for (const auto& c : p.saddle_change) { CHECK(c == 0 * mm); }
        CHECK_FALSE(p.reset.has_value());
        CHECK_FALSE(p.reset_instead.has_value());
    }
    TEST_CASE("wanted heights, down-force and tune are what a solve of the planned instrument gives") {
        auto w = heights();
        w.down_force = 110 * N;
        w.in_tune = true;
        const auto p = make_plan(strung(), w);
        const auto s = solve(p.adjusted);
        CHECK(near::within(s.strings.front().heights[0], 0.55 * mm, 1e-6 * mm));
        CHECK(near::within(s.strings.front().heights[11], 2.2 * mm, 1e-6 * mm));
        CHECK(near::within(s.strings.back().heights[0], 0.45 * mm, 1e-6 * mm));
        CHECK(near::within(s.strings.back().heights[11], 1.8 * mm, 1e-6 * mm));
        CHECK(near::within(s.down_force, 110 * N, 1e-3 * N));
        CHECK(p.shortfalls.empty());
        // The saddle has come to rest: the straight saddle that would suit best is where it is.
        const auto& saddle = p.adjusted.instrument.saddle;
        CHECK(
            near::within(s.straight_saddle->at(s.strings.front().y_at_saddle), 560 * mm + saddle.setback_bass, 1e-4 * mm));
        CHECK(
            near::within(s.straight_saddle->at(s.strings.back().y_at_saddle), 560 * mm + saddle.setback_treble, 1e-4 * mm));
        // Inner strings keep the proportion, as far as one arc allows.
        for (const auto& one : s.strings) { CHECK(one.heights[11] > 1.7 * mm); }
        CHECK(p.saddle_off_arc < 0.2 * mm);
        // What the arc leaves: from the tops as they lie to where lines from slot through wanted height meet the saddle.
        length<> most{};
        for (const auto& one : s.strings) {
            const double share = (one.y_at_nut - s.strings.front().y_at_nut) / (26 * mm);
            const auto wanted = one.crest_z[11] + 2.2 * mm + (1.8 * mm - 2.2 * mm) * share;
            most = std::max(most, abs(one.line.nut_z + (wanted - one.line.nut_z) * (one.line.saddle_x / s.fret_x[11]) -
                                      one.line.saddle_z));
        }
        CHECK(most > 0.01 * mm);
        CHECK(near::within(p.saddle_off_arc, most, 1e-9 * mm));
    }
    TEST_CASE("changes are the difference of what is set and what was") {
        const auto on = strung();
        const auto p = make_plan(on, heights());
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::within(p.adjusted.instrument.nut.slot_heights[i] - on.instrument.nut.slot_heights[i],
                               p.slot_change[i], 1e-12 * mm));
        }
        CHECK(near::within(p.saddle_height.front(), p.adjusted.instrument.saddle.height_bass, 1e-12 * mm));
        CHECK(near::within(p.saddle_height.back(), p.adjusted.instrument.saddle.height_treble, 1e-12 * mm));
        CHECK(near::within(p.saddle_change.front(),
                           p.adjusted.instrument.saddle.height_bass - on.instrument.saddle.height_bass, 1e-12 * mm));
        // The nearest thing by hand: heights over both frets of a straight string, the neck as it bows.
        const auto& one = p.untouched.strings[0];
        const auto by_hand = plan_heights<double>(one.line, {p.untouched.fret_x[0], one.crest_z[0], 0.55 * mm},
                                                  {p.untouched.fret_x[11], one.crest_z[11], 2.2 * mm}, one.gauge);
        CHECK(near::within(p.slot_change[0], by_hand.slot_change, 0.01 * mm));
        CHECK(near::within(p.saddle_change[0], by_hand.saddle_change, 0.1 * mm));
        // No limit of the saddle binds: no reset is spoken of.
        CHECK_FALSE(p.saddle_at_limit);
        CHECK_FALSE(p.reset_instead.has_value());
    }
    TEST_CASE("a rod is set for the wanted relief, heights with it") {
        auto w = heights();
        const auto on = with_rod();
        const auto slack = solve(on);
        w.relief = 0.1 * mm;
        REQUIRE(slack.relief->gap > 0.15 * mm);
        w.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        const auto p = make_plan(on, w);
        CHECK(near::within(p.solved.relief->gap, 0.1 * mm, 1e-6 * mm));
        CHECK(near::within(p.solved.strings[0].heights[11], 2.2 * mm, 1e-5 * mm));
        CHECK(p.rod_pull_change > 0 * N);
        CHECK(*p.rod_turns > 0);
        CHECK(p.shortfalls.empty());
        w.rod_screw->lead = 1.6 * mm; // a steeper thread: half the turns
        CHECK(near::relative(*make_plan(on, w).rod_turns, *p.rod_turns / 2, 1e-9));
    }
    TEST_CASE("wishes out of reach come back with the nearest") {
        auto w = heights();
        w.relief = 0.1 * mm;
        auto p = make_plan(strung(), w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].wish == "relief");
        CHECK(p.shortfalls[0].why == "no rod is there to set it by");
        CHECK(p.shortfalls[0].nearest.as<length<>>() == p.solved.relief->gap);

        w.most_rod_pull = 20 * N;
        p = make_plan(with_rod(), w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].why == "the rod would have to pull harder than most_rod_pull allows");
        CHECK(near::within(p.adjusted.instrument.neck.pull_of_rod(), 20 * N, 1e-9 * N));

        w = heights();
        w.relief = 3 * mm;
        p = make_plan(with_rod(), w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].why == "the strings do not pull the neck so far, even with the rod slack");

        w = heights();
        w.lowest_saddle = 18 * mm;
        p = make_plan(strung(), w);
        REQUIRE(p.shortfalls.size() == 2);
        CHECK(p.shortfalls[0].wish == "action_bass");
        CHECK(p.shortfalls[0].nearest.as<length<>>() > 2.2 * mm);
        CHECK(p.shortfalls[0].why == "the saddle would have to come below lowest_saddle");
        CHECK(near::within(p.adjusted.instrument.saddle.height_treble, 18 * mm, 1e-12 * mm));
        // The first fret's height is still met: the slot follows.
        CHECK(near::within(p.solved.strings[0].heights[0], 0.55 * mm, 1e-6 * mm));

        w = heights();
        w.lowest_slot = 1.3 * mm;
        p = make_plan(strung(), w);
        CHECK(p.adjusted.instrument.nut.slot_heights[0] == 1.3 * mm);
        CHECK(p.shortfalls.size() == 2); // the first fret, both sides; the saddle still gives the action
        CHECK(p.shortfalls[0].wish == "first_fret_bass");
        CHECK(p.shortfalls[0].why == "the nut slot would have to go below lowest_slot");
        CHECK_FALSE(p.saddle_at_limit);

        w = heights();
        w.action_bass = 0.3 * mm; // less than half of 39 thou
        w.first_fret_bass = 0.2 * mm;
        auto flat = strung();
        flat.instrument.board.surface = flat_surface();
        p = make_plan(flat, w);
        REQUIRE_FALSE(p.shortfalls.empty());
        CHECK(near::within(p.solved.strings[0].heights[11], 0.5 * 39 * thou, 1e-6 * mm));
        CHECK(std::any_of(p.shortfalls.begin(), p.shortfalls.end(), [](const shortfall& f) {
            return f.wish == "action_bass" && f.why == "a string lower than half its gauge rattles at the softest touch";
        }));

        w = {};
        w.down_force = 4000 * N;
        p = make_plan(strung(), w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].wish == "down_force");
        CHECK(p.shortfalls[0].why == "the tailpiece would have to hang beyond hinge_lowest");
        CHECK(near::within(p.adjusted.instrument.tailpiece->hinge_height, -40 * mm, 1e-9 * mm));
        w.down_force = 1 * N;
        p = make_plan(strung(), w);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].why == "the tailpiece would have to hang beyond hinge_highest");
    }
    TEST_CASE("a zero fret carries the strings: slots do nothing, the saddle still gives the action") {
        auto on = strung();
        on.instrument.board.scale.zero_fret = true;
        on.instrument.frets.wear.clear();
        const auto s = solve(on);
        auto deeper = on;
        deeper.instrument.nut.slot_heights.assign(8, 0.2 * mm);
        CHECK(solve(deeper).strings[3].heights == s.strings[3].heights);
        // Told twice: strings in the grooves of a zero fret lie as in nut slots that are cut as low.
        auto grooved = on, nut = on;
        grooved.instrument.frets.zero_crown = 0.7 * mm;
        nut.instrument.board.scale.zero_fret = false;
        nut.instrument.nut.slot_heights.assign(8, 0.7 * mm);
        const auto low = solve(grooved), in_slots = solve(nut);
        for (std::size_t n = 0; n < 18; ++n) {
            CHECK(near::within(low.strings[3].heights[n], in_slots.strings[3].heights[n], 1e-9 * mm));
        }
        CHECK(low.strings[3].heights[0] < s.strings[3].heights[0] - 0.15 * mm);
        auto taller = on;
        taller.instrument.frets.wire.crown_height = 1.1 * mm;
        const auto t = solve(taller);
        // All crowns rise by 0.2 mm, the zero fret's too: at the nut nothing changes, toward the saddle all of it.
        CHECK(near::within(t.strings[3].heights[18] - s.strings[3].heights[18],
                           -0.2 * mm * ratio(s.fret_x[18], length<>(s.strings[3].line.saddle_x)), 0.01 * mm));
        const auto p = make_plan(on, heights());
        CHECK(near::within(p.solved.strings[0].heights[11], 2.2 * mm, 1e-6 * mm));
        CHECK(p.shortfalls.empty());
        for (const auto& c : p.slot_change) { CHECK(c == 0 * mm); }
    }
    TEST_CASE("adjusters and pin holes") {
        auto w = heights();
        w.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
        const auto p = make_plan(strung(), w);
        REQUIRE(p.adjusters.has_value());
        // Wheels outside the outer strings (26 mm) carry on the same line.
        const auto slope = (p.saddle_change.back() - p.saddle_change.front()) / (52 * mm);
        CHECK(near::within(p.adjusters->bass, p.saddle_change.front() - slope * 4 * mm, 1e-9 * mm));
        CHECK(near::relative(p.adjusters->bass_turns, p.adjusters->bass / (0.5 * mm), 1e-12));

        auto pinned = strung();
        pinned.instrument.tailpiece.reset();
        pinned.instrument.pins = pins{
            .distance = 20 * mm, .height = 4 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        pinned.instrument.saddle.setback_bass = pinned.instrument.saddle.setback_treble = 0 * mm;
        w = {};
        w.saddle_break = 30 * deg;
        const auto q = make_plan(pinned, w);
        REQUIRE(q.pin_holes.has_value());
        CHECK(q.pin_holes->nearest < q.pin_holes->farthest);
        // With all holes at the nearest place, the string that asked for it has the wanted break, all others more.
        pinned.instrument.pins->distance = q.pin_holes->nearest;
        const auto s = solve(pinned);
        angle<> least = 90 * deg;
        for (const auto& one : s.strings) { least = std::min(least, one.at_saddle.down_break); }
        CHECK(near::within(least, 30 * deg, 0.2 * deg));
        // The numbers are for the holes as they are: so the wish is not met, and no one place of all holes meets it.
        REQUIRE(q.shortfalls.size() == 1);
        CHECK(q.shortfalls[0].wish == "saddle_break");
        CHECK(q.shortfalls[0].why.find("no one pins.distance gives it to all strings") != std::string::npos);
        // Each string has the wanted break with the holes where its own is told.
        for (std::size_t i = 0; i < 8; ++i) {
            auto moved = q.adjusted;
            moved.instrument.pins->distance = q.pin_places[i].distance;
            CHECK(near::within(solve(moved).strings[i].at_saddle.break_angle, 30 * deg, 0.3 * deg));
            const auto [least_behind, most_behind] = std::pair(q.pin_holes->nearest, q.pin_holes->farthest);
            CHECK(q.pin_places[i].behind_saddle >= least_behind);
            CHECK(q.pin_places[i].behind_saddle <= most_behind);
        }
        w.saddle_break = 0.2 * deg; // less than the string's own fall toward the nut
        const auto none = make_plan(pinned, w);
        CHECK_FALSE(none.pin_holes.has_value());
        REQUIRE(none.shortfalls.size() == 1);
        CHECK(none.shortfalls[0].wish == "saddle_break");
    }
    TEST_CASE("one string, and a sensitivity carried through the whole plan") {
        auto on = strung();
        on.instrument.nut.spacing = {.spread = 0 * mm, .courses = {1}};
        on.instrument.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
        on.instrument.nut.slot_heights.resize(1);
        on.instrument.posts.resize(1);
        on.stringing.strings.resize(1);
        auto w = heights();
        w.first_fret_treble = 0.55 * mm;
        w.action_treble = 2.2 * mm;
        w.in_tune = true;
        const auto p = make_plan(on, w);
        CHECK(near::within(p.solved.strings[0].heights[11], 2.2 * mm, 1e-6 * mm));
        CHECK(abs(*p.solved.strings[0].octave_setback) < 1e-4 * mm);

        // d(saddle height)/d(board's line at the saddle): the saddle follows the board one to one.
        using D = dual<double, 1>;
        auto d = over<D>(on);
        auto line = d.instrument.saddle.board_line.value();
        line.partial[0] = 1;
        d.instrument.saddle.board_line = length<D>::from_value(line);
        const auto moved = make_plan(d, over<D>(w));
        CHECK(near::within(moved.saddle_height[0].value().partial[0], 1, 1e-4));
        auto up = on;
        up.instrument.saddle.board_line = up.instrument.saddle.board_line + 0.1 * mm;
        CHECK(near::within(make_plan(up, w).saddle_height[0] - p.saddle_height[0], 0.1 * mm, 1e-4 * mm));
    }
    TEST_CASE("wishes that make no sense are refused, each with its field") {
        auto w = heights();
        w.action_fret = 20;
        CHECK(said(strung(), w) == "wanted.action_fret must be one of the board's 19 frets.");
        auto bare = strung();
        bare.instrument.board.scale.frets = 0;
        bare.instrument.frets.wear.clear();
        w = {};
        w.first_fret_treble = 0.5 * mm;
        CHECK(said(bare, w) == "wanted.first_fret_treble must be left out on a board without frets.");
        w = {};
        w.action_bass = 2 * mm;
        CHECK(said(bare, w) == "wanted.action_bass must be left out on a board with fewer than two frets.");
        w = {};
        w.reset = reset_wish{};
        CHECK(said(bare, w) == "wanted.reset must be left out on a board with fewer than two frets.");
        w.reset->least_turn = 1 * deg;
        w.reset->most_turn = 0.5 * deg;
        CHECK(said(strung(), w) == "wanted.reset.least_turn must not be more than most_turn.");
        w = {};
        w.saddle_break = 20 * deg;
        CHECK(said(strung(), w) ==
              "wanted.saddle_break must be left out where there are no pins: a break is wished for to place their holes.");
        w = {};
        w.hinge_lowest = 30 * mm;
        CHECK(said(strung(), w).find("wanted.hinge_lowest must be less than hinge_highest") != std::string::npos);
        w = {};
        w.lowest_saddle = 19 * mm;
        w.highest_saddle = 18 * mm;
        CHECK(said(strung(), w).find("wanted.lowest_saddle must be less than highest_saddle") != std::string::npos);
        w = {};
        w.relief = NAN * mm;
        CHECK(said(strung(), w).find("wanted.relief") != std::string::npos);
        auto on = strung();
        on.instrument.tailpiece.reset();
        on.instrument.pins = pins{
            .distance = 20 * mm, .height = 4 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
        w = {};
        w.down_force = 100 * N;
        CHECK(said(on, w) == "wanted.down_force must be left out where no tailpiece hangs.");
    }
    TEST_CASE("the highest saddle is a limit too: the action stays lower, the slots still give the first fret") {
        auto w = heights();
        w.action_bass = 3.6 * mm;
        w.action_treble = 3.4 * mm;
        const auto free = make_plan(strung(), w);
        REQUIRE(free.shortfalls.empty());
        const auto higher = free.adjusted.instrument.saddle;
        // Below what both sides want; then only below what the bass wants, and the treble is as free as before.
        w.highest_saddle = std::min<length<>>(higher.height_bass, higher.height_treble) - 0.5 * mm;
        auto p = make_plan(strung(), w);
        CHECK(p.adjusted.instrument.saddle.height_bass == *w.highest_saddle);
        CHECK(p.adjusted.instrument.saddle.height_treble == *w.highest_saddle);
        REQUIRE(p.shortfalls.size() == 2);
        CHECK(p.shortfalls[0].wish == "action_bass");
        CHECK(p.shortfalls[1].wish == "action_treble");
        CHECK(p.shortfalls[0].nearest.as<length<>>() < 3.6 * mm);
        CHECK(near::within(p.solved.strings.front().heights[0], 0.55 * mm, 1e-6 * mm));
        CHECK(near::within(p.solved.strings.back().heights[0], 0.45 * mm, 1e-6 * mm));

        REQUIRE(higher.height_treble + 0.2 * mm < higher.height_bass);
        w.highest_saddle = higher.height_treble + 0.1 * mm;
        p = make_plan(strung(), w);
        CHECK(p.adjusted.instrument.saddle.height_bass == *w.highest_saddle);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].wish == "action_bass");
        CHECK(near::within(p.solved.strings.back().heights[11], 3.4 * mm, 1e-5 * mm));

        w.highest_saddle = higher.height_bass + 0.1 * mm; // no limit to anything
        CHECK(make_plan(strung(), w).shortfalls.empty());
    }
    TEST_CASE("an arc that cannot be cut, or that nobody would tell from a straight line, leaves the saddle straight") {
        const auto shaped = [](double radius_mm, bool hollow) {
            std::vector<length<>> y, z;
            for (int k = 0; k < 6; ++k) {
                const double across = -26 + 10.4 * k;
                const double drop = across * across / (radius_mm + std::sqrt(radius_mm * radius_mm - across * across));
                y.push_back(across * mm);
                z.push_back((6 + (hollow ? drop : -drop)) * mm);
            }
            auto saddle = demo::four_course().saddle;
            saddle.radius = 205 * mm;
            kernel::held_back held;
            kernel::shape_saddle<double>(wishes{}, y, z, {}, {}, saddle, held);
            return saddle.radius;
        };
        // Strings 52 mm apart: from three quarters of that, 39 mm, to 20 m.
        for (const double radius : {39.5, 60.0, 300.0, 5000.0, 19900.0}) {
            const auto r = shaped(radius, false);
            REQUIRE(r.has_value());
            CHECK(near::relative(length<>(*r), radius * mm, 1e-4));
        }
        for (const double radius : {30.0, 38.5, 20100.0, 1e6}) { CHECK_FALSE(shaped(radius, false).has_value()); }
        CHECK_FALSE(shaped(300, true).has_value()); // hollow
        // Two strings fix no arc: what was there stays.
        const std::vector<length<>> two{-26 * mm, 26 * mm}, tops{6 * mm, 5 * mm};
        auto saddle = demo::four_course().saddle;
        kernel::held_back held;
        kernel::shape_saddle<double>(wishes{}, two, tops, {}, {}, saddle, held);
        REQUIRE(saddle.radius.has_value());
        CHECK(*saddle.radius == 205 * mm);
    }
}
