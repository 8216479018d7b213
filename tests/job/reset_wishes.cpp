#include <tautline/job/plan.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument floating() {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.feet =
        bridge_feet{.ahead = 6 * mm, .behind = 9 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
    return on;
}
/// On a top that does not give: what is left is geometry and the neck's bow.
strung_instrument firm() {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.tailpiece.reset();
    on.instrument.pins =
        pins{.distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    return on;
}
strung_instrument on_pins() {
    auto on = firm();
    on.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                          .turn_stiffness = 2000 * N_m_per_rad,
                                          .saddle_ahead = 3 * mm,
                                          .saddle_height = 18 * mm};
    return on;
}
wishes actions(double bass = 2.2, double treble = 1.8) {
    wishes w;
    w.action_bass = bass * mm;
    w.action_treble = treble * mm;
    return w;
}
length<> mean_height(const instrument& i) { return (i.saddle.height_bass + i.saddle.height_treble) / 2.0; }
/// Over the soundboard, as they are measured there.
length<> mean_height(const setup_plan& p) { return (p.saddle_height.front() + p.saddle_height.back()) / 2.0; }
length<> lower_slot(const setup_plan& p) { return std::min(p.saddle_height.front(), p.saddle_height.back()); }
length<> higher_slot(const setup_plan& p) { return std::max(p.saddle_height.front(), p.saddle_height.back()); }
bool meets(const setup_plan& p, const wishes& w) {
    const auto n = static_cast<std::size_t>(p.action_fret - 1);
    return near::within(p.solved.strings.front().heights[n], length<>(*w.action_bass), 1e-6 * mm) &&
           near::within(p.solved.strings.back().heights[n], length<>(*w.action_treble), 1e-6 * mm);
}
const shortfall* shortfall_of(const setup_plan& p, std::string_view wish) {
    for (const auto& f : p.shortfalls) {
        if (f.wish == wish) { return &f; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("reset wishes") {
    TEST_CASE("the neck brings the action, the saddle keeps its mean height and parts what bass and treble need") {
        for (const auto& on : {floating(), firm()}) {
            auto w = actions();
            w.reset = reset_wish{.heel_depth = 88 * mm, .pocket_length = 70 * mm, .leave = 0.2 * mm};
            const auto p = make_plan(on, w);
            CHECK(p.shortfalls.empty());
            CHECK(meets(p, w));
            REQUIRE(p.reset.has_value());
            CHECK_FALSE(p.reset_instead.has_value());
            const auto& r = *p.reset;
            CHECK(r.turn > 0 * deg); // the action comes down: head back
            CHECK(near::within(mean_height(p), mean_height(on.instrument), 1e-6 * mm));
            CHECK(near::within(p.saddle_change.front(), -p.saddle_change.back(), 1e-6 * mm));
            // As told, heights are those that were measured plus what is done.
            CHECK(near::within(p.saddle_height.front() - on.instrument.saddle.height_bass, p.saddle_change.front(),
                               1e-9 * mm));
            // The same turn by pure geometry, from how the strings lay at pitch: the plan's differs by what the new lengths
            // and loads do to neck and top.
            const auto &bass = p.untouched.strings.front(), &treble = p.untouched.strings.back();
            reset_case c;
            c.joint = {.x = joint_place(on.instrument), .z = -5.5 * mm, .leave = 0.2 * mm};
            c.string = {.nut_z = (bass.line.nut_z + treble.line.nut_z) / 2.0,
                        .saddle_x = (bass.line.saddle_x + treble.line.saddle_x) / 2.0,
                        .saddle_z = (bass.line.saddle_z + treble.line.saddle_z) / 2.0};
            c.fret_x = p.untouched.fret_x[11];
            c.crest_z = (bass.crest_z[11] + treble.crest_z[11]) / 2.0;
            const auto by_geometry = turn_for_action(c, 2 * mm);
            CHECK(near::relative(r.turn / rad, by_geometry.turn / rad, 0.03));
            CHECK(near::within(*r.heel_cut, 88 * mm * std::tan(r.turn / rad) + 0.2 * mm, 1e-9 * mm));
            CHECK(r.edge_cut == 0.2 * mm);
            CHECK(near::within(*r.shim, 70 * mm * std::tan(r.turn / rad), 1e-9 * mm));
            CHECK(near::within(*r.wedge, (400 * mm - joint_place(on.instrument)) * std::sin(r.turn / rad), 1e-9 * mm));
            CHECK(r.board_line == p.adjusted.instrument.saddle.board_line);
            CHECK(near::within(r.board_line - on.instrument.saddle.board_line,
                               std::tan(r.turn / rad) * (562 * mm - joint_place(on.instrument)), 0.03 * mm));
            CHECK(near::within(*r.octave_after / cents - *r.octave_before / cents, 0.5 - 0.1, 0.2));
            // The turn bends the strings more over the saddle, the lower action changes nothing in that.
            CHECK(r.break_after > r.break_before);
            for (const auto& slot : p.slot_change) { CHECK(slot == 0 * mm); }
        }
    }
    TEST_CASE("in one round of a plan the outer strings' ends go along with their saddle") {
        const auto start = firm();
        auto on = start;
        auto w = actions();
        w.reset = reset_wish{};
        const auto s = solve(on);
        kernel::plan_room<double> room;
        kernel::lines_of<double>(s, room.lines);
        const auto& lines = room.lines;
        strung_instrument turned;
        kernel::neck_turn<double> neck(start, w.reset, turned, room.turn);
        kernel::turn_neck<double>(w, kernel::height_targets<double>(w, s, {}), start, s, neck, on, room);
        const auto& saddle = on.instrument.saddle;
        const auto line = on.instrument.board.scale.scale_length;
        REQUIRE(neck.now.turn > 0.1 * deg);
        CHECK(near::within(lines.front().saddle_x, line + saddle.setback_bass, 1e-9 * mm));
        CHECK(near::within(lines.front().saddle_z, saddle.height_bass - saddle.board_line, 1e-9 * mm));
        CHECK(near::within(lines.back().saddle_x, line + saddle.setback_treble, 1e-9 * mm));
        CHECK(near::within(lines.back().saddle_z, saddle.height_treble - saddle.board_line, 1e-9 * mm));
    }
    TEST_CASE("a wanted saddle height is had by the turn") {
        for (const double height : {17.0, 19.0}) {
            auto w = actions();
            w.reset = reset_wish{.saddle_height = height * mm};
            const auto p = make_plan(firm(), w);
            CHECK(p.shortfalls.empty());
            CHECK(meets(p, w));
            CHECK(near::within(mean_height(p), height * mm, 1e-6 * mm));
            const auto lower = make_plan(firm(), actions());
            // Against the saddle alone: what it would have come down is had by the turn.
            CHECK(near::relative(p.reset->turn / rad, (height * mm - mean_height(lower)) / (562 * mm - p.solved.beam.joint),
                                 0.02));
        }
    }
    TEST_CASE("the wanted height is kept within the saddle's limits, with room for both sides") {
        auto w = actions();
        w.reset = reset_wish{};
        w.lowest_saddle = 18.6 * mm; // found 18.5 and 18
        auto p = make_plan(on_pins(), w);
        CHECK(p.shortfalls.empty());
        CHECK(meets(p, w));
        CHECK(near::within(lower_slot(p), 18.6 * mm, 1e-6 * mm));
        w.lowest_saddle.reset();
        w.highest_saddle = 18 * mm;
        w.reset->saddle_height = 18.5 * mm;
        p = make_plan(on_pins(), w);
        CHECK(meets(p, w));
        const auto* missed = shortfall_of(p, "reset.saddle_height");
        REQUIRE(missed != nullptr);
        CHECK(missed->why == "with it one of the outer slots would pass lowest_saddle or highest_saddle");
        CHECK(near::within(higher_slot(p), 18 * mm, 1e-6 * mm));
    }
    TEST_CASE("beyond the range of the turn the saddle takes the rest, and the turn it would take is told") {
        auto w = actions();
        w.reset = reset_wish{.most_turn = 0.1 * deg};
        const auto free = make_plan(on_pins(), [&] {
            auto wide = w;
            wide.reset = reset_wish{};
            return wide;
        }());
        auto p = make_plan(on_pins(), w);
        CHECK(near::within(p.reset->turn / deg, 0.1, 1e-9));
        CHECK(meets(p, w));
        CHECK(p.saddle_change.front() < -0.1 * mm);
        REQUIRE(p.shortfalls.size() == 1);
        CHECK(p.shortfalls[0].wish == "reset.most_turn");
        CHECK(near::within(p.shortfalls[0].wanted.as<angle<>>() / deg, free.reset->turn / deg, 1e-5));
        // And where the saddle may not either, the action stays short of its wish, for both reasons.
        w.lowest_saddle = 17.8 * mm;
        p = make_plan(on_pins(), w);
        const auto* action = shortfall_of(p, "action_bass");
        REQUIRE(action != nullptr);
        CHECK(action->why == "the saddle would have to come below lowest_saddle, the neck at most_turn");
        CHECK(p.saddle_at_limit);
        CHECK_FALSE(p.reset_instead.has_value());
        w = actions(5.0, 4.6);
        w.reset = reset_wish{.saddle_height = 18.25 * mm, .least_turn = -0.1 * deg};
        p = make_plan(on_pins(), w);
        CHECK(meets(p, w));
        CHECK(shortfall_of(p, "reset.least_turn") != nullptr);
        CHECK(shortfall_of(p, "reset.saddle_height") != nullptr);
    }
    TEST_CASE(
        "where the saddle's limit binds, the reset that would do is told, of the right sign, the saddle at its limit") {
        for (const bool lower : {true, false}) {
            for (const auto& on : {floating(), on_pins()}) {
                auto w = lower ? actions() : actions(4.5, 4.1);
                (lower ? w.lowest_saddle : w.highest_saddle) = lower ? 17.8 * mm : 19.0 * mm;
                const auto p = make_plan(on, w);
                CHECK(p.saddle_at_limit);
                REQUIRE(p.reset_instead.has_value());
                CHECK((p.reset_instead->turn > 0 * deg) == lower);
                // Done, with no freedom left to the turn, it gives the wishes within the limits.
                auto done = w;
                done.reset = reset_wish{.saddle_height = lower ? w.lowest_saddle : w.highest_saddle,
                                        .least_turn = p.reset_instead->turn,
                                        .most_turn = p.reset_instead->turn};
                const auto q = make_plan(on, done);
                CHECK(meets(q, w));
                CHECK_FALSE(q.saddle_at_limit);
                const auto at_limit = lower ? lower_slot(q) : higher_slot(q);
                CHECK(near::within(at_limit, lower ? 17.8 * mm : 19.0 * mm, 1e-5 * mm));
                // A smaller turn would not: the saddle would still be held.
                done.reset->most_turn = done.reset->least_turn = 0.9 * p.reset_instead->turn;
                CHECK(make_plan(on, done).saddle_at_limit);
            }
        }
    }
    TEST_CASE("a zero fret and a saddle at its limit: crown and reset are both told") {
        auto on = on_pins();
        on.instrument.board.scale.zero_fret = true;
        auto w = actions();
        w.first_fret_bass = 0.6 * mm;
        w.lowest_saddle = 17.8 * mm;
        const auto p = make_plan(on, w);
        CHECK(p.saddle_at_limit);
        CHECK(p.reset_instead.has_value());
        CHECK(p.remarks.size() == 1);
    }
    TEST_CASE("no limit, no reset; limits nearer together than bass and treble are apart leave none") {
        auto w = actions();
        CHECK_FALSE(make_plan(on_pins(), w).reset_instead.has_value());
        w.lowest_saddle = 10 * mm;
        const auto p = make_plan(on_pins(), w);
        CHECK_FALSE(p.saddle_at_limit);
        CHECK_FALSE(p.reset_instead.has_value());
        w = actions(4.5, 1.0);
        w.lowest_saddle = 18.0 * mm;
        w.highest_saddle = 18.3 * mm;
        const auto narrow = make_plan(on_pins(), w);
        CHECK(narrow.saddle_at_limit);
        CHECK_FALSE(narrow.reset_instead.has_value());
    }
    TEST_CASE("everything at once: rod, slots, reset, saddle, tune and hanger come to rest, and planning it again changes "
              "nothing") {
        auto on = floating();
        on.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                              .turn_stiffness = 1e6 * N_m_per_rad,
                                              .saddle_ahead = 0 * mm,
                                              .saddle_height = 0 * mm};
        on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 250 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        on.instrument.neck.rod_pull = 0 * N;
        auto w = actions();
        w.first_fret_bass = 0.55 * mm;
        w.first_fret_treble = 0.45 * mm;
        w.relief = 0.1 * mm;
        w.in_tune = true;
        w.down_force = 110 * N;
        w.reset = reset_wish{.saddle_height = 19 * mm, .leave = 0.3 * mm};
        const auto p = make_plan(on, w);
        CHECK(p.shortfalls.empty());
        CHECK(meets(p, w));
        CHECK(near::within(p.solved.strings.front().heights[0], 0.55 * mm, 1e-6 * mm));
        CHECK(near::within(p.solved.relief->gap, 0.1 * mm, 1e-6 * mm));
        CHECK(near::within(p.solved.down_force, 110 * N, 1e-4 * N));
        CHECK(near::within(mean_height(p), 19 * mm, 1e-6 * mm));
        w.reset.reset();
        const auto again = make_plan(p.adjusted, w);
        for (const auto& c : again.saddle_change) { CHECK(abs(c) < 1e-5 * mm); }
        for (const auto& c : again.slot_change) { CHECK(abs(c) < 1e-5 * mm); }
        CHECK(abs(*again.hinge_change) < 1e-4 * mm);
        CHECK(abs(again.setback_change_bass) < 1e-4 * mm);
        w.reset = reset_wish{};
        CHECK(abs(make_plan(p.adjusted, w).reset->turn / deg) < 1e-5);
    }
    TEST_CASE("a reset alone trades saddle for neck and leaves the action where it was") {
        wishes w;
        w.reset = reset_wish{};
        auto p = make_plan(firm(), w);
        CHECK(abs(p.reset->turn / deg) < 1e-5);
        for (const auto& c : p.saddle_change) { CHECK(abs(c) < 1e-3 * mm); }
        w.reset->saddle_height = 19 * mm;
        p = make_plan(firm(), w);
        CHECK(p.shortfalls.empty());
        CHECK(near::within(p.solved.strings[0].heights[11], p.untouched.strings[0].heights[11], 1e-6 * mm));
        CHECK(near::relative(p.reset->turn / rad, 0.75 * mm / (562 * mm - p.solved.beam.joint), 0.03));
    }
    TEST_CASE("what is left off the face brings the neck nearer; in tune the saddle follows") {
        wishes w;
        w.reset = reset_wish{.leave = 0.5 * mm};
        const auto p = make_plan(on_pins(), w);
        CHECK(near::within(p.adjusted.instrument.saddle.setback_bass - 3 * mm, -0.5 * mm, 0.05 * mm));
        CHECK(near::within((*p.reset->octave_after - *p.reset->octave_before) / cents, 1.5, 0.2));
        w.in_tune = true;
        const auto tuned = make_plan(on_pins(), w);
        w.reset->leave = 0 * mm;
        const auto before = make_plan(on_pins(), w);
        CHECK(near::within(tuned.setback_change_bass - before.setback_change_bass, 0.5 * mm, 0.05 * mm));
    }
    TEST_CASE("the hanger's limits hold on the body, wherever the neck is turned") {
        auto w = actions();
        w.reset = reset_wish{.saddle_height = 19 * mm};
        w.down_force = 4000 * N;
        const auto on = floating();
        const auto p = make_plan(on, w);
        const auto* missed = shortfall_of(p, "down_force");
        REQUIRE(missed != nullptr);
        CHECK(missed->why == "the tailpiece would have to hang beyond hinge_lowest");
        // Found at -10 mm, it may go down to -40 mm.
        CHECK(near::within(*p.hinge_change, -30 * mm, 1e-6 * mm));
    }
    TEST_CASE("a sensitivity goes through the whole plan") {
        auto w = actions();
        w.reset = reset_wish{.heel_depth = 88 * mm};
        using D = dual<double, 1>;
        auto seeded = over<D>(w);
        auto wish = seeded.action_bass->value();
        wish.partial[0] = 1;
        seeded.action_bass = length<D>::from_value(wish);
        const auto d = make_plan(over<D>(on_pins()), seeded);
        const auto cut = [&](double by) {
            auto other = w;
            other.action_bass = *w.action_bass + by * metre;
            return make_plan(on_pins(), other).reset->heel_cut->value();
        };
        CHECK(near::relative(d.reset->heel_cut->value().partial[0], (cut(1e-6) - cut(-1e-6)) / 2e-6, 1e-3));
    }
}
