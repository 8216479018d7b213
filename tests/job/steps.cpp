#include <tautline/job/steps.hpp>

#include <tautline/doubt/state_solve.hpp>
#include <tautline/work/do_work.hpp>

#include "setup/demo.hpp"

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;

struct worked {
    setup found;
    work_done work;
    setup_plan plan;
    std::vector<bench_step> steps;
};
/// Whether a line tells a change, with its sign: what moves or turns, what is more or less than it was.
bool tells_change(const step_line& l, bool before) {
    if (l.what == "to") { return before; } // "from ... to"
    for (const char* begin :
         {"change", "turn", "against", "off the heel", "off the whole face", "octave fret", "tang wider", "a neck reset"}) {
        if (l.what.find(begin) == 0) { return true; }
    }
    return false;
}
worked run(const strung_instrument& on, const bench_work& work, const wishes& w) {
    board_details d;
    d.slot = slot{.depth = 1.9 * mm, .width = 0.6 * mm};
    worked j{solve(on), do_work(on, d, work), setup_plan(), {}};
    j.plan = make_plan(j.work.after, w);
    j.steps = steps_of(j.found, j.work, j.plan);
    for (const auto& one : j.steps) {
        CAPTURE(one.title);
        CHECK_FALSE(one.title.empty());
        CHECK_FALSE(one.check.empty());
        bool before = false;
        for (const auto& l : one.lines) {
            CAPTURE(l.what);
            CHECK(l.is_change == tells_change(l, before));
            before = l.is_change;
        }
    }
    return j;
}
std::vector<bench_stage> stages(const worked& j) {
    std::vector<bench_stage> list;
    for (const auto& s : j.steps) { list.push_back(s.stage); }
    return list;
}
const bench_step& step(const worked& j, bench_stage stage) {
    for (const auto& s : j.steps) {
        if (s.stage == stage) { return s; }
    }
    throw std::runtime_error("no such step");
}
template <class Q>
Q number(const bench_step& s, const std::string& what) {
    for (const auto& l : s.lines) {
        if (l.what == what) { return l.number.template as<Q>(); }
    }
    throw std::runtime_error("no line " + what);
}

wishes everything() {
    wishes w;
    w.first_fret_bass = 0.55 * mm;
    w.first_fret_treble = 0.45 * mm;
    w.action_bass = 2.2 * mm;
    w.action_treble = 1.8 * mm;
    w.down_force = 110 * N;
    w.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
    return w;
}

} // namespace

TEST_SUITE("steps") {
    TEST_CASE("nothing planned: measure, slacken, measure slack, string up, check") {
        const auto j = run(strung(), {}, {});
        CHECK(stages(j) == std::vector{bench_stage::measure, bench_stage::slacken, bench_stage::measure_slack,
                                       bench_stage::string_up, bench_stage::check});
        CHECK(step(j, bench_stage::string_up).decision == "The top is pressed as before.");
    }
    TEST_CASE("a whole job in the order of the bench, every step with a check") {
        bench_work work;
        work.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack, .allowance = 0.1 * mm};
        work.wire =
            fret_wire{.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.8 * mm, .tang_thickness = 0.65 * mm};
        auto on = strung();
        on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        on.instrument.neck.rod_pull = 0 * N;
        auto w = everything();
        w.relief = 0.05 * mm;
        const auto j = run(on, work, w);
        CHECK(stages(j) == std::vector{bench_stage::measure, bench_stage::slacken, bench_stage::measure_slack,
                                       bench_stage::take_off, bench_stage::straighten_neck, bench_stage::sand_board,
                                       bench_stage::deepen_slots, bench_stage::fit_frets, bench_stage::set_rod,
                                       bench_stage::cut_nut, bench_stage::set_saddle, bench_stage::hang_tailpiece,
                                       bench_stage::string_up, bench_stage::finish, bench_stage::check});
        // The parts that the trade takes off first: a nut over wood that goes, the frets, a tailpiece with its bridge.
        CHECK(step(j, bench_stage::take_off).lines.size() == 3);
        CHECK(number<length<>>(step(j, bench_stage::finish), "relief at pitch") == j.plan.solved.relief->gap);
        CHECK(step(j, bench_stage::finish).check.find("Relief at pitch is as told") == 0);
        for (const auto& s : j.steps) { CHECK_FALSE(s.check.empty()); }
        CHECK(number<length<>>(step(j, bench_stage::sand_board), "radius") == 400 * mm);
        CHECK(step(j, bench_stage::fit_frets).decision.find("wedges") != std::string::npos);
        length<> lacks_most{};
        for (const auto& row : j.work.sanding->rows) {
            if (row.fret > 0) { lacks_most = std::max(lacks_most, row.slot_to_deepen); }
        }
        CHECK(number<length<>>(step(j, bench_stage::deepen_slots), "deepen by up to") == lacks_most);
        CHECK(lacks_most > 0 * mm);
        CHECK(step(j, bench_stage::set_rod).decision == "The rod reaches the wanted relief.");
        CHECK(number<length<>>(step(j, bench_stage::cut_nut), "change, course 3 (D3), its bass-side string") ==
              j.plan.slot_change[2]);
        CHECK(number<length<>>(step(j, bench_stage::set_saddle),
                               "slot over the soundboard, course 1 (E4), its treble-side string") ==
              j.plan.saddle_height[7]);
        CHECK(number<double>(step(j, bench_stage::set_saddle), "turns of the bass wheel (+ raises)") ==
              j.plan.adjusters->bass_turns);
        CHECK(number<force<>>(step(j, bench_stage::string_up), "all together") == j.plan.solved.total_tension);
        CHECK(step(j, bench_stage::string_up).decision.find("more than as found: whether it bears that") !=
              std::string::npos);
        CHECK(
            number<length<>>(step(j, bench_stage::measure), "height over fret 12 of course 4 (G2), its bass-side string") ==
            j.found.strings[0].heights[11]);
        CHECK(number<length<>>(step(j, bench_stage::check), "height over fret 12 of course 4 (G2), its bass-side string") ==
              j.plan.solved.strings[0].heights[11]);
    }
    TEST_CASE("slots that only go down are cut; one that must come up asks for a shim or a new nut") {
        const auto low = run(strung(), {}, everything());
        for (const auto& c : low.plan.slot_change) { CHECK(c < 0 * mm); }
        CHECK(step(low, bench_stage::cut_nut).decision.empty());
        auto w = everything();
        w.first_fret_treble = 1.6 * mm;
        const auto high = run(strung(), {}, w);
        CHECK(high.plan.slot_change.front() < 0 * mm);
        CHECK(high.plan.slot_change.back() > 0 * mm);
        CHECK(step(high, bench_stage::cut_nut).decision == "Some slots must come up: shim the nut or make a new one.");
    }
    TEST_CASE("level or refret, and what a rod cannot do, are said") {
        bench_work work;
        work.levelling = fret_levelling{.held = neck_held::slack};
        auto on = strung();
        on.instrument.frets.wear[9] = 0 * mm;
        wishes w;
        w.relief = 0 * mm;
        auto j = run(on, work, w);
        CHECK(step(j, bench_stage::level_frets).decision.empty());
        CHECK(step(j, bench_stage::level_frets).lines.front().what.find("the neck free: no string pulls") == 0);
        CHECK(number<length<>>(step(j, bench_stage::level_frets), "off fret 10") > 0.02 * mm);
        CHECK(step(j, bench_stage::set_rod).decision ==
              "The rod does not reach the wanted relief: no rod is there to set it by.");
        CHECK(step(j, bench_stage::check).lines.back().what == "not met: relief, no rod is there to set it by");
        work.levelling->least_crown = 0.86 * mm;
        j = run(on, work, w);
        CHECK(step(j, bench_stage::level_frets).decision.find("Refret: the file would leave ") == 0);
    }
    TEST_CASE("a board with a set is trued as it is held: what comes off fret by fret, what the straightedge shows") {
        bench_work work;
        work.sanding = sanding{.surface = cylinder(205 * mm), .held = neck_held::slack, .hollow = 0.1 * mm};
        auto on = strung();
        on.instrument.neck.set = {
            {.x = 0 * mm, .z = 0 * mm}, {.x = 140 * mm, .z = -0.4 * mm}, {.x = 280 * mm, .z = 0 * mm}};
        on.instrument.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        on.instrument.neck.rod_pull = 100 * N;
        auto j = run(on, work, {});
        const auto& slack = step(j, bench_stage::sand_board);
        CHECK(number<length<>>(slack, "at fret 5") == kernel::centre_removal(*j.work.removal, j.found.fret_x[4]));
        CHECK(number<length<>>(slack, "at fret 5") < number<length<>>(slack, "off the centre line at the nut") - 0.2 * mm);
        CHECK(slack.check == "Gauge and straightedge show no light but the hollow, 0.10 mm midway to the joint; the centre "
                             "line measures what is left above.");
        CHECK(slack.decision.empty());
        const auto says_rod = [](const bench_step& s) {
            return std::any_of(s.lines.begin(), s.lines.end(), [](const step_line& l) {
                return l.what.find("then loosen the rod until it bears nothing, and count its turns: its pull") == 0;
            });
        };
        CHECK(says_rod(step(j, bench_stage::measure_slack)));
        // Without strings the rod that still pulls bends the neck back; loosened, it lets it up again.
        read_instrument read{on, {}, {}, {}, {}, {}};
        solved_state as_slack;
        solve_state(read, slack_state, as_slack);
        const length<> rod_alone = as_slack.setup.bow.nut_rise();
        CHECK(rod_alone < -0.01 * mm);
        CHECK(near::within(
            number<length<>>(step(j, bench_stage::slacken), "the rod left as it is set, the nut falls back by"),
            j.found.nut_rise - rod_alone, 1e-9 * mm));
        CHECK(near::within(number<length<>>(step(j, bench_stage::measure_slack), "with the rod loose the nut comes up by"),
                           -rod_alone, 1e-9 * mm));
        // Work that left it loose and is done leaves it to be set.
        const auto later = steps_of<double>(j.found, run(on, {}, {}).work, j.plan, {}, {}, true);
        CHECK(std::any_of(later.begin(), later.end(), [](const bench_step& s) { return s.stage == bench_stage::set_rod; }));
        // What was slackened for the work is set again, from where it bears.
        CHECK(number<force<>>(step(j, bench_stage::set_rod), "pull of the rod") == 100 * N);
        CHECK(step(j, bench_stage::set_rod).decision == "The rod goes back to where it was found.");
        // A rod that keeps its pull has no turns to be told.
        wishes screw_known;
        screw_known.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        const auto unturned = run(on, work, screw_known);
        for (const auto& l : step(unturned, bench_stage::set_rod).lines) {
            CHECK(l.what.find("turns") == std::string::npos);
        }
        wishes straighter;
        straighter.relief = 0.05 * mm;
        straighter.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        const auto wished = run(on, work, straighter);
        const auto& rod = step(wished, bench_stage::set_rod);
        const auto beam = wished.plan.solved.beam;
        CHECK(near::relative(
            number<double>(rod, "turns from where it begins to bear"),
            rod_turns<double>(beam, *straighter.rod_screw, wished.plan.adjusted.instrument.neck.pull_of_rod()), 1e-9));
        CHECK(near::relative(number<double>(rod, "turns of its nut against as found (+ tightens)"), *wished.plan.rod_turns,
                             1e-12));
        work.sanding->held = neck_held::as_at_pitch;
        work.sanding->hollow = 0 * mm;
        j = run(on, work, {});
        const auto& held = step(j, bench_stage::sand_board);
        const auto& jig = step(j, bench_stage::straighten_neck);
        CHECK(number<length<>>(jig, "risen at the nut, over its place with strings slack and rod loose, by") ==
              j.found.nut_rise);
        CHECK(jig.decision.find("The plan says in a jig.") != std::string::npos);
        CHECK(held.check.find("show no light from nut to end while the neck is held; let go and its rod loosened, its nut "
                              "falls back by ") != std::string::npos);
        CHECK_FALSE(says_rod(step(j, bench_stage::measure_slack)));
        // Too thin is no work to be done.
        on.instrument.board.thickness = 3.2 * mm;
        work.sanding->allowance = 1 * mm;
        j = run(on, work, {});
        CHECK(step(j, bench_stage::sand_board).decision.find("Not like this: a board needs 2.0 mm at least") == 0);
    }
    TEST_CASE("what sanding threatens is told at its worst place") {
        bench_work work;
        work.sanding = sanding{.surface = cone(400 * mm, 450 * mm, 400 * mm),
                               .held = neck_held::slack,
                               .allowance = 0.1 * mm,
                               .least_edge = 5.4 * mm,
                               .least_binding = 1.9 * mm,
                               .least_inlay = 1 * mm};
        board_details d;
        d.slot = slot{.depth = 0.3 * mm, .width = 0.6 * mm};
        d.binding_height = 2 * mm;
        d.inlay_thickness = 1 * mm;
        const auto on = strung();
        const auto found = solve(on);
        auto done = do_work(on, d, work);
        const auto steps_with = [&] { return steps_of(found, done, make_plan(done.after, {})); };
        worked j{found, done, setup_plan(), steps_with()};
        CHECK(number<length<>>(step(j, bench_stage::sand_board), "radius at the nut") == 400 * mm);
        CHECK(number<length<>>(step(j, bench_stage::sand_board), "radius at the far end") == 450 * mm);
        // Each warning with the least that its column of the plan has.
        struct {
            const char* begins;
            length<> (*left)(const basic_reradius_row<double>&);
        } const warnings[] = {
            {"slots are sanded away and must be cut anew, most at ", [](const auto& row) { return row.slot_left; }},
            {"too little binding left, at ", [](const auto& row) { return *row.binding_left; }},
            {"too little height left at the board's edge, at ", [](const auto& row) { return row.edge_left; }},
            {"too little inlay left, at ", [](const auto& row) { return row.inlay_left.value_or(1 * metre); }}};
        for (const auto& w : warnings) {
            CAPTURE(w.begins);
            const auto& lines = step(j, bench_stage::deepen_slots).lines;
            const auto line =
                std::find_if(lines.begin(), lines.end(), [&](const step_line& l) { return l.what.find(w.begins) == 0; });
            REQUIRE(line != lines.end());
            length<> least = 1 * metre;
            int at = 0;
            for (const auto& row : done.sanding->rows) {
                if (row.fret == 0 && w.begins[0] == 's') { continue; } // no slot at the nut
                if (w.left(row) < least) {
                    least = w.left(row);
                    at = row.fret;
                }
            }
            CHECK(line->number.as<length<>>() == least);
            CHECK(line->what == w.begins + (at == 0 ? std::string("the nut") : "fret " + std::to_string(at)));
        }
        // A removal chosen by hand that does not reach the old surface everywhere.
        auto chosen = kernel::reradius_job<double>(on, d, work, {});
        chosen.chosen_at_nut = chosen.chosen_at_end = 0.1 * mm;
        done.sanding = plan_reradius(chosen);
        j.steps = steps_with();
        length<> most_short{};
        for (const auto& row : done.sanding->rows) {
            most_short = std::max({most_short, length<>(-row.off_centre_line), length<>(-row.off_edge)});
        }
        bool told = false;
        for (const auto& l : step(j, bench_stage::deepen_slots).lines) {
            if (l.what.find("the old surface stays lower than the new, at ") != 0) { continue; }
            told = true;
            CHECK(l.number.as<length<>>() == most_short);
        }
        CHECK(told == (most_short > 1e-6 * mm));
        CHECK(told);
    }
    TEST_CASE("pins are placed by their holes; a finding is read out at the end") {
        auto on = strung();
        on.instrument.tailpiece.reset();
        on.instrument.pins = pins{
            .distance = 20 * mm, .height = 4 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 8 * mm};
        on.stringing.strings[7].pitch = parse_note("B4");
        auto w = everything();
        w.down_force.reset();
        w.saddle_break = 30 * deg;
        w.reset = reset_wish{.heel_depth = 80 * mm};
        const auto j = run(on, {}, w);
        const auto& holes = step(j, bench_stage::hang_tailpiece);
        CHECK(holes.title == "Place the pins");
        REQUIRE(j.plan.pin_places.size() == 8);
        CHECK(number<length<>>(holes, "hole behind the saddle, course 4 (G2), its bass-side string") ==
              j.plan.pin_places[0].behind_saddle);
        CHECK(number<length<>>(holes, "behind the end of the scale length, course 4 (G2), its treble-side string") ==
              j.plan.pin_places[1].distance);
        CHECK(number<length<>>(holes, "the holes as they are, behind the end of the scale length") ==
              j.plan.adjusted.instrument.pins->distance);
        CHECK(holes.decision.find("for the holes as they are") != std::string::npos);
        const auto turn = number<angle<>>(step(j, bench_stage::reset_neck), "turn (+ head back and down)");
        // A wedge with the heel's depth as its side.
        CHECK(near::within(number<length<>>(step(j, bench_stage::reset_neck), "off the heel at its cap (- is to add)"),
                           80 * mm * std::tan(turn.value()), 1e-9 * mm));
        const auto& last = step(j, bench_stage::check).lines;
        REQUIRE(j.plan.solved.findings.size() == 1);
        // A line has no full stop.
        CHECK(std::count_if(last.begin(), last.end(), [&](const step_line& l) {
                  return l.what + "." == sentence_of(j.plan.solved.findings[0], j.plan.solved.names) &&
                         !l.number.has_value();
              }) == 1);
        std::size_t numbers = 0;
        for_each_leaf(j.plan, [&](std::string_view path, const auto& x) {
            if (path == "pin_holes.nearest") {
                CHECK(number_of(x) == j.plan.pin_holes->nearest.value());
                ++numbers;
            }
        });
        CHECK(numbers == 1);
    }
    TEST_CASE("heights are told over the fret where the action is wished, first and last") {
        auto w = everything();
        w.action_fret = 14;
        const auto j = run(strung(), {}, w);
        for (const auto stage : {bench_stage::measure, bench_stage::check}) {
            const auto& s = stage == bench_stage::measure ? j.found : j.plan.solved;
            CHECK(number<length<>>(step(j, stage), "height over fret 14 of course 4 (G2), its bass-side string") ==
                  s.strings[0].heights[13]);
            CHECK(number<length<>>(step(j, stage), "height over fret 14 of course 1 (E4), its treble-side string") ==
                  s.strings[7].heights[13]);
            for (const auto& l : step(j, stage).lines) { CHECK(l.what.find("over fret 12") == std::string::npos); }
        }
        CHECK(step(j, bench_stage::finish).check.find("action at pitch over fret 14 is as told") != std::string::npos);
    }
    TEST_CASE("saddle or reset: by which limits bind") {
        const char* const instead = "a neck reset that gives the action with it (+ head back and down)";
        // No limit: the saddle.
        auto w = everything();
        auto j = run(strung(), {}, w);
        CHECK(step(j, bench_stage::set_saddle).decision ==
              "Saddle: it gives the wanted action within its limits; the neck stays as it is joined.");
        for (const auto& l : step(j, bench_stage::set_saddle).lines) { CHECK(l.what != instead); }
        // A limit below: the neck back; one above: forward.
        for (const bool lower : {true, false}) {
            w = everything();
            if (lower) {
                w.lowest_saddle = 17.5 * mm;
            } else {
                w.action_bass = 4.4 * mm;
                w.action_treble = 4.0 * mm;
                w.highest_saddle = 18.6 * mm;
            }
            j = run(strung(), {}, w);
            const auto& s = step(j, bench_stage::set_saddle);
            CHECK(s.title == "Set the saddle as far as it goes");
            CHECK(s.decision.find("Reset: the saddle stops at its limit") == 0);
            CHECK(step(j, bench_stage::cut_nut).decision.find("Leave the saddle at its limit, or reset the neck?") == 0);
            CHECK((number<angle<>>(s, instead) > 0 * deg) == lower);
            CHECK(number<angle<>>(s, instead) == j.plan.reset_instead->turn);
        }
        // Neither.
        w = everything();
        w.action_bass = 4.4 * mm;
        w.action_treble = 1.0 * mm;
        w.lowest_saddle = 18 * mm;
        w.highest_saddle = 18.3 * mm;
        CHECK(step(run(strung(), {}, w), bench_stage::set_saddle).decision ==
              "The saddle stops at its limit short of the wanted action, and no reset of the neck gives it.");
    }
    TEST_CASE("a wanted reset is a step of its own, before the board, with what it takes") {
        bench_work work;
        work.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack, .allowance = 0.1 * mm};
        auto w = everything();
        w.reset = reset_wish{.heel_depth = 80 * mm, .pocket_length = 60 * mm, .leave = 0.3 * mm};
        const auto j = run(strung(), work, w);
        CHECK(stages(j)[4] == bench_stage::reset_neck);
        CHECK(stages(j)[6] == bench_stage::sand_board);
        const auto& s = step(j, bench_stage::reset_neck);
        const auto& r = *j.plan.reset;
        CHECK(number<angle<>>(s, "turn (+ head back and down)") == r.turn);
        CHECK(number<length<>>(s, "off the heel at its cap (- is to add)") == *r.heel_cut);
        CHECK(number<length<>>(s, "off the whole face, also at its edge") == 0.3 * mm);
        CHECK(number<length<>>(s, r.turn > 0 * deg ? "shim under the bridge end of the pocket"
                                                   : "shim under the nut end of the pocket") == abs(*r.shim));
        // The board is sanded later, which lowers the line to that of the plan.
        const char* const line = "then the board's line over the soundboard at the saddle, strings slack";
        CHECK(number<length<>>(s, line) == length<>(r.board_line + j.work.line_lowered));
        CHECK(j.work.line_lowered > 0.1 * mm);
        CHECK(number<length<>>(step(j, bench_stage::sand_board), line) == r.board_line);
        CHECK(number<length<>>(s, r.turn > 0 * deg ? "wedge under the tongue at the board's end"
                                                   : "off the tongue's underside at the board's end") == abs(*r.wedge));
        CHECK(number<interval<>>(s, "octave fret by lengths alone, the saddle where it stands, from") == *r.octave_before);
        CHECK(number<angle<>>(s, "break over the saddle, mean, from") == r.break_before);
        CHECK(s.decision.find("Reset: ") == 0);
        CHECK(step(j, bench_stage::set_saddle).decision.find("Reset: the neck is turned first") == 0);
        // The other way round.
        w.action_bass = 5 * mm;
        w.action_treble = 4.6 * mm;
        const auto forward = run(strung(), work, w);
        CHECK(number<length<>>(step(forward, bench_stage::reset_neck), "shim under the nut end of the pocket") > 0 * mm);
        CHECK(number<length<>>(step(forward, bench_stage::reset_neck), "off the tongue's underside at the board's end") >
              0 * mm);
        // Not needed: no step, and the saddle says so.
        wishes none;
        none.reset = reset_wish{};
        const auto still = run(strung(), {}, none);
        for (const auto stage : stages(still)) { CHECK(stage != bench_stage::reset_neck); }
        CHECK(step(still, bench_stage::set_saddle).decision == "Saddle: the neck needs no turn.");
        // Held by its range.
        w.reset->least_turn = -0.1 * deg;
        CHECK(step(run(strung(), {}, w), bench_stage::reset_neck).decision.find("Reset as far as the joint") == 0);
    }
    TEST_CASE("a board line that is planned by hand says the turn it speaks of, beyond what sanding moved") {
        const auto on = strung();
        bench_work work;
        work.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack, .allowance = 0.1 * mm};
        worked j{solve(on), do_work(on, {}, work), setup_plan(), {}};
        const length<> sanded = j.work.after.instrument.saddle.board_line;
        j.plan = make_plan(j.work.after, {});
        j.steps = steps_of(j.found, j.work, j.plan, sanded);
        for (const auto stage : stages(j)) { CHECK(stage != bench_stage::reset_neck); }
        auto by_hand = j.work.after;
        by_hand.instrument.saddle.board_line = sanded + 1.5 * mm;
        j.plan = make_plan(by_hand, {});
        j.steps = steps_of(j.found, j.work, j.plan, sanded);
        const auto& s = step(j, bench_stage::reset_neck);
        // (new - old)/(x_s - x_e), the joint at fret 12 of 560 mm.
        CHECK(near::within(number<angle<>>(s, "turn that the planned board line speaks of (+ head back and down)") / rad,
                           1.5 / 280, 1e-6));
        // The board is sanded after the reset: its line begins where it was found.
        CHECK(near::within(number<length<>>(s, "board's line over the soundboard at the saddle, strings slack, from"),
                           on.instrument.saddle.board_line, 1e-9 * mm));
        CHECK(near::within(number<length<>>(s, "to"), on.instrument.saddle.board_line + 1.5 * mm, 1e-9 * mm));
        CHECK(near::within(number<length<>>(step(j, bench_stage::sand_board),
                                            "then the board's line over the soundboard at the saddle, strings slack"),
                           sanded + 1.5 * mm, 1e-9 * mm));
    }
    TEST_CASE("what the last check tells of fret 3 is what a string from slot to third crest clears") {
        wishes w;
        w.first_fret_bass = 0.95 * mm;
        w.first_fret_treble = 0.85 * mm;
        const auto said = [](const worked& j) { return step(j, bench_stage::finish).check; };
        const auto j = run(strung(), {}, w);
        double least = 1, most = 0;
        for (const auto& one : j.plan.solved.strings) {
            // Crests of one height over a straight board; x from the nut.
            const auto& x = j.plan.solved.fret_x;
            const double nut = one.line.nut_z / mm, third = one.crest_z[2] / mm, share = x[0] / x[2];
            const double clear = nut + (third - nut) * share - one.crest_z[0] / mm;
            least = std::min(least, clear);
            most = std::max(most, clear);
        }
        REQUIRE(least > 0.01);
        const auto& s = step(j, bench_stage::finish);
        CHECK(near::within(number<length<>>(s, "pressed at fret 3 the strings clear fret 1 by, least"), least * mm,
                           1e-9 * mm));
        CHECK(near::within(number<length<>>(s, "most"), most * mm, 1e-9 * mm));
        CHECK(said(j).find("; pressed at fret 3 they clear it as told") != std::string::npos);
        CHECK(said(j).find("just clear") == std::string::npos);
        w.first_fret_bass = w.first_fret_treble = 0.1 * mm;
        CHECK(said(run(strung(), {}, w)).find("; pressed at fret 3 some already lie on it") != std::string::npos);
        // With two frets there is no third to press; without an octave's fret none is compared.
        auto few = strung();
        few.instrument.board.scale.frets = 2;
        few.instrument.frets.wear.clear();
        few.instrument.neck.joint_fret = 2;
        w = {};
        w.first_fret_bass = w.first_fret_treble = 0.5 * mm;
        w.action_bass = w.action_treble = 0.7 * mm;
        const auto short_check = said(run(few, {}, w));
        CHECK(short_check.find("fret 3") == std::string::npos);
        CHECK(short_check.find("octave") == std::string::npos);
    }
    TEST_CASE("what a zero fret decides is read out at the end") {
        auto on = strung();
        on.instrument.board.scale.zero_fret = true;
        const auto j = run(on, {}, everything());
        REQUIRE(j.plan.remarks.size() == 3); // two crowns, and what one crown for both leaves
        const auto& lines = step(j, bench_stage::check).lines;
        CHECK(std::count_if(lines.begin(), lines.end(), [](const step_line& l) {
                  return l.what.find("zero fret and its crown decides") != std::string::npos;
              }) == 2);
        for (const auto& l : lines) { CHECK(l.what.find("not met: first_fret") == std::string::npos); }
    }
    TEST_CASE("what becomes of the load on the top: in shares where they say something, else both loads") {
        const auto told = [](double found, double planned) { return kernel::load_on_top(found * N, planned * N); };
        CHECK(told(100, 100.4) == "The top is pressed as before.");
        CHECK(told(100, 99.6) == "The top is pressed as before.");
        CHECK(told(100, 100.6) == "The top is pressed 1 % more than as found.");
        CHECK(told(100, 90) == "The top is pressed 10 % less than as found.");
        CHECK(told(100, 104.9) == "The top is pressed 5 % more than as found.");
        CHECK(told(100, 105.1) ==
              "The top is pressed 5 % more than as found: whether it bears that is for a qualified repairer to judge.");
        CHECK(told(100, 199) ==
              "The top is pressed 99 % more than as found: whether it bears that is for a qualified repairer to judge.");
        CHECK(told(100, 201) == "The top is pressed with 201 N; as found it is pressed with 100 N.");
        CHECK(told(20, 20) == "The top is pressed with 20 N, as before.");
        CHECK(told(20.1, 20.1) == "The top is pressed as before.");
        CHECK(told(100, 0) == "The top is pressed with 0 N; as found it is pressed with 100 N.");
        CHECK(told(100, 0.6) == "The top is pressed 99 % less than as found.");
        CHECK(told(100, -2.5) == "The top is lifted with 3 N; as found it is pressed with 100 N.");
        CHECK(told(-30, 100) == "The top is pressed with 100 N; as found it is lifted with 30 N.");
    }
    TEST_CASE("what would round to nothing on the bench is no work: a two-hundredth of a millimetre, of a degree") {
        const auto on = strung();
        const auto has = [](const worked& j, bench_stage stage) {
            const auto all = stages(j);
            return std::find(all.begin(), all.end(), stage) != all.end();
        };
        const worked still = run(on, {}, {});
        const auto with = [&](const auto& change) {
            worked j = still;
            change(j.plan);
            j.steps = steps_of(j.found, j.work, j.plan);
            return j;
        };
        for (const double sign : {-1.0, 1.0}) {
            for (const double by : {0.0049, 0.0051}) {
                CAPTURE(sign * by);
                const auto moved = sign * by * mm;
                const auto slot = with([&](setup_plan& p) { p.slot_change[3] = moved; });
                REQUIRE(has(slot, bench_stage::cut_nut) == (by > 0.005));
                if (by > 0.005) {
                    CHECK(step(slot, bench_stage::cut_nut).decision == ""); // and none that a shim could raise
                }
                const auto saddle = with([&](setup_plan& p) { p.saddle_change[3] = moved; });
                CHECK(has(saddle, bench_stage::set_saddle) == (by > 0.005));
                const auto back = with([&](setup_plan& p) { p.setback_change_bass = moved; });
                REQUIRE(has(back, bench_stage::set_saddle) == (by > 0.005));
                if (by > 0.005) { CHECK(step(back, bench_stage::set_saddle).decision.empty()); }
                const auto treble = with([&](setup_plan& p) { p.setback_change_treble = moved; });
                CHECK(has(treble, bench_stage::set_saddle) == (by > 0.005));
                const auto turned = with([&](setup_plan& p) { p.reset.emplace().turn = sign * by * deg; });
                CHECK(has(turned, bench_stage::reset_neck) == (by > 0.005));
                worked line = still;
                line.steps = steps_of(line.found, line.work, line.plan,
                                      length<>(line.plan.start.instrument.saddle.board_line + moved));
                CHECK(has(line, bench_stage::reset_neck) == (by > 0.005));
            }
        }
        // A slot comes up by a shim, and no shim is thinner than a fiftieth.
        for (const double by : {0.0199, 0.0201}) {
            const auto up = with([&](setup_plan& p) { p.slot_change[3] = by * mm; });
            CHECK(step(up, bench_stage::cut_nut).decision ==
                  (by > 0.02 ? "Some slots must come up: shim the nut or make a new one." : ""));
            CHECK(has(up, bench_stage::take_off) == (by > 0.02));
        }
        CHECK(has(with([](setup_plan& p) { p.reset.emplace().edge_cut = 0.1 * mm; }), bench_stage::reset_neck));
        bench_work work;
        work.levelling = fret_levelling{.held = neck_held::slack};
        worked level = run(on, work, {});
        for (const double by : {0.0049, 0.0051}) {
            auto& way = level.work.levelling->slack;
            for (auto& cut : way.cuts) { cut = 0 * mm; }
            way.cuts[3] = by * mm;
            level.work.levelling->hollow = by * mm;
            level.steps = steps_of(level.found, level.work, level.plan);
            const auto& s = step(level, bench_stage::level_frets);
            CHECK(std::count_if(s.lines.begin(), s.lines.end(),
                                [](const step_line& l) { return l.what.find("off fret ") == 0; }) == (by > 0.005));
            CHECK(s.check == (by > 0.005
                                  ? "While the neck is held so, a straightedge shows no light but the hollow, 0.01 mm "
                                    "midway to the joint; crowns are rounded and polished again."
                                  : "While the neck is held so, a straightedge touches every crown; crowns are "
                                    "rounded and polished again."));
        }
    }
    TEST_CASE("wood off a board that is no straight run is told at the frets that a ruler finds, as far as they go") {
        bench_work work;
        work.sanding = sanding{.surface = cylinder(205 * mm), .held = neck_held::slack, .hollow = 0.1 * mm};
        for (const int frets : {14, 15, 19}) {
            auto on = strung();
            on.instrument.board.scale.frets = frets;
            on.instrument.frets.wear.resize(static_cast<std::size_t>(frets));
            const auto j = run(on, work, {});
            std::string at;
            for (const auto& l : step(j, bench_stage::sand_board).lines) {
                if (l.what.find("at fret ") == 0) { at += l.what.substr(7); }
            }
            CHECK(at == (frets < 15 ? " 1 3 5 7 9 12" : " 1 3 5 7 9 12 15"));
        }
    }
    TEST_CASE("one string alone is measured once at each fret") {
        strung_instrument on = strung();
        auto& i = on.instrument;
        i.nut.spacing = i.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
        i.nut.slot_heights.resize(1);
        i.posts.resize(1);
        on.stringing.strings.resize(1);
        const auto j = run(on, {}, {});
        const auto& lines = step(j, bench_stage::measure).lines;
        CHECK(std::count_if(lines.begin(), lines.end(), [](const step_line& l) {
                  return l.what.find("height over fret ") == 0 && l.string_index == 0u;
              }) == 2);
        CHECK(lines.size() == 3); // with the relief
    }
    TEST_CASE("one string without frets") {
        strung_instrument on = strung();
        auto& i = on.instrument;
        i.nut.spacing = i.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
        i.nut.slot_heights.resize(1);
        i.posts.resize(1);
        i.board.scale.frets = 0;
        i.frets.wear.clear();
        on.stringing.strings.resize(1);
        const auto j = run(on, {}, {});
        CHECK(j.steps.size() == 5);
    }
}
