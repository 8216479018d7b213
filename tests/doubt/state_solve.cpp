#include <tautline/doubt/state_solve.hpp>

#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/instrument/ready_made_bent.hpp>
#include <tautline/neck/loaded_frets.hpp>

#include <cmath>

#include "near.hpp"
#include "read_case.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Rise of the nut under a moment about each place, by summing M/EI twice over many short pieces.
template <class Moment>
double bent_by(const neck& n, Moment&& moment_at) {
    constexpr int pieces = 4000;
    const double joint = n.joint / metre, h = joint / pieces;
    double rise = 0;
    for (int i = 0; i < pieces; ++i) {
        const double x = (i + 0.5) * h;
        const double ei = section_at<double>(n, x * metre).bending_rigidity.value();
        rise += moment_at(x) / ei * x * h; // what a turn at x does at the nut
    }
    return rise;
}

/// How far a place comes down under a weight further out or further in, by the same sum: what a turn at x does there.
double dropped_at(const neck& n, double place, double weight, double from) {
    return bent_by(n, [&](double x) { return x <= place ? 0 : weight * std::max(0.0, x - from) * (1 - place / x); });
}

} // namespace

TEST_SUITE("state solve") {
    TEST_CASE("at pitch: the solve itself") {
        auto model = read_case::cittern();
        const auto plain = solve(model.at_pitch);
        solved_state s;
        solve_state(model, pitch_state, s);
        CHECK(s.setup.relief->gap == plain.relief->gap);
        CHECK(s.setup.strings[3].notes[4].error.cents() == plain.strings[3].notes[4].error.cents());
        CHECK_FALSE(s.nut_drop.has_value());
    }
    TEST_CASE("slack: the beam without strings, its own rod pulling, over the crests") {
        for (auto model : {read_case::cittern(), read_case::flat_top()}) {
            solved_state s;
            solve_state(model, slack_state, s);
            const auto& i = model.at_pitch.instrument;
            basic_neck<double> n;
            neck_of(i, n);
            std::vector<crest> crests;
            for (int f = 1; f <= i.board.scale.frets; ++f) {
                crests.push_back({fret_position(i.board.scale, f), kernel::crown_left(i.frets, f)});
            }
            const auto loaded = loaded_crests(bend(make_beam(n), {}, i.neck.pull_of_rod()), crests);
            const auto r = relief_between<double>(loaded, 0, static_cast<std::size_t>(i.neck.joint_fret) - 1);
            CHECK(near::within(s.setup.relief->gap, r.gap, 1e-9 * mm));
            CHECK(s.setup.strings.empty());
            // Without a bow the crests' line is the board's and their own height; the bow tilts it a little.
            CHECK(near::within(*s.setup.line_at_saddle, i.saddle.board_line + crests.back().z, 0.9 * mm));
        }
    }
    TEST_CASE("the frets' line at the saddle comes down with a top that sinks; slack it is the body's") {
        auto model = read_case::cittern();
        solved_state pitch, slack;
        solve_state(model, pitch_state, pitch);
        solve_state(model, slack_state, slack);
        const auto line = line_through<double>(
            slack.setup.crests.size(), [&](std::size_t k) { return slack.setup.crests[k].x / metre; },
            [&](std::size_t k) { return slack.setup.crests[k].z / metre; });
        const double there = line.offset + line.slope * (model.at_pitch.instrument.board.scale.scale_length / metre);
        CHECK(near::within(*slack.setup.line_at_saddle, model.at_pitch.instrument.saddle.board_line + there * metre,
                           1e-9 * mm));
        CHECK(pitch.setup.top->drop > 0.2 * mm);
    }
    TEST_CASE("a weight at the nut bends the neck by M/EI summed twice; hung further in, by the same sum from there") {
        auto model = read_case::cittern();
        basic_neck<double> n;
        neck_of(model.at_pitch.instrument, n);
        for (const int fret : {0, 3, 7}) {
            model.states[0].at_fret = fret;
            solved_state s;
            solve_state(model, "2 kg at the nut", s);
            const double from = fret == 0 ? 0 : fret_position(model.at_pitch.instrument.board.scale, fret) / metre;
            const double weight = 2 * 9.80665;
            const double expected = bent_by(n, [&](double x) { return weight * std::max(0.0, x - from); });
            REQUIRE(s.nut_drop.has_value());
            CAPTURE(fret);
            CHECK(near::relative(*s.nut_drop / metre, expected, 2e-4));
        }
    }
    TEST_CASE("relief and the frets' line at the saddle are read on the neck that the weight has bent") {
        for (auto model : {read_case::cittern(), read_case::flat_top()}) {
            auto& built = model.at_pitch.instrument;
            built.neck.creep_factor = 1.3; // the weight has hung for a moment only
            basic_neck<double> n;
            neck_of(built, n);
            const double weight = 2 * 9.80665;
            solved_state free, loaded;
            solve_state(model, slack_state, free);
            for (const int fret : {0, 6}) {
                CAPTURE(fret);
                model.states = {{.name = "weight", .slack = true, .weight = 2 * kgf, .at_fret = fret}};
                solve_state(model, "weight", loaded);
                const double from = fret == 0 ? 0 : fret_position(built.board.scale, fret) / metre;
                const auto& before = free.setup.crests;
                std::vector<double> z;
                for (const auto& crest : before) {
                    const double x = crest.x / metre;
                    z.push_back(crest.z / metre - (x < n.joint / metre ? dropped_at(n, x, weight, from) : 0));
                }
                // The largest gap to the chord over fret 1 and the joint's fret.
                const std::size_t last = static_cast<std::size_t>(built.neck.joint_fret) - 1;
                double gap = 0;
                for (std::size_t k = 1; k < last; ++k) {
                    const double share = (before[k].x - before[0].x) / (before[last].x - before[0].x);
                    const double here = z[0] + share * (z[last] - z[0]) - z[k];
                    if (std::abs(here) > std::abs(gap)) { gap = here; }
                }
                CHECK(near::within(loaded.setup.relief->gap / metre, gap, 2e-7));
                CHECK(std::abs((loaded.setup.relief->gap - free.setup.relief->gap) / mm) > (fret == 0 ? 0.03 : 0.003));
                const auto line = [&](auto&& height) {
                    const auto l = line_through<double>(
                        z.size(), [&](std::size_t k) { return before[k].x / metre; }, height);
                    return l.offset + l.slope * (kernel::line_place(built) / metre);
                };
                const double risen =
                    line([&](std::size_t k) { return z[k]; }) - line([&](std::size_t k) { return before[k].z / metre; });
                CHECK(near::within((*loaded.setup.line_at_saddle - *free.setup.line_at_saddle) / metre, risen, 2e-7));
                CHECK(risen > (fret == 0 ? 1e-4 : 1e-5));
            }
        }
    }
    TEST_CASE("a loose rod leaves the slack neck the shape that it has without load; as it is set it bends it back") {
        auto model = read_case::flat_top();
        auto& neck = model.at_pitch.instrument.neck;
        neck.rod_pull = 900 * N;
        model.states = {{.name = "rod loose", .slack = true, .rod_loose = true},
                        {.name = "loose, strung", .rod_loose = true}};
        solved_state loose, set, strung;
        solve_state(model, "rod loose", loose);
        solve_state(model, slack_state, set);
        for (const auto& w : loose.setup.bow.w) { CHECK(near::within(w / mm, 0, 1e-12)); }
        CHECK(neck.rod_pull->value() == 900);
        CHECK(set.setup.relief->gap < loose.setup.relief->gap - 0.02 * mm);
        // Strung it is the instrument whose rod pulls nothing.
        solve_state(model, "loose, strung", strung);
        auto other = model.at_pitch;
        other.instrument.neck.rod_pull = 0 * N;
        CHECK(strung.setup.relief->gap.value() == solve(other).relief->gap.value());
        // A neck without a rod has none to loosen.
        auto plain = read_case::cittern();
        plain.states[0].rod_loose = true;
        solve_state(plain, "2 kg at the nut", loose);
        CHECK_FALSE(plain.at_pitch.instrument.neck.rod_pull.has_value());
    }
    TEST_CASE("a weight drops the nut at once: a neck that creeps under its strings has not crept yet") {
        auto model = read_case::cittern();
        solved_state stiff, creeping;
        solve_state(model, "2 kg at the nut", stiff);
        model.at_pitch.instrument.neck.creep_factor = 1.5;
        solve_state(model, "2 kg at the nut", creeping);
        CHECK(near::relative(*creeping.nut_drop, *stiff.nut_drop, 1e-12));
    }
    TEST_CASE("a turned rod: the instrument with so much more pull, which is put back") {
        auto model = read_case::flat_top();
        const auto before = model.at_pitch.instrument.neck.rod_pull;
        basic_neck<double> n;
        neck_of(model.at_pitch.instrument, n);
        const auto more = rod_pull_from_turns(make_beam(n), *model.rod_screw, 0.25);
        solved_state s;
        solve_state(model, "a quarter turn", s);
        CHECK(model.at_pitch.instrument.neck.rod_pull->value() == before->value());
        auto turned = model.at_pitch;
        turned.instrument.neck.rod_pull = *before + more;
        CHECK(near::within(s.setup.relief->gap, solve(turned).relief->gap, 1e-9 * mm));
        CHECK(solve(turned).relief->gap < solve(model.at_pitch).relief->gap);
        // Slack it pulls as much more.
        solve_state(model, "slack, a quarter turn", s);
        CHECK(s.setup.strings.empty());
        CHECK(s.setup.relief->gap < 0 * mm);
    }
    TEST_CASE("other strings on the same neck, which are put back too, also when they break it") {
        auto model = read_case::cittern();
        const auto own = model.at_pitch.stringing.strings;
        reading_state other{.name = "lighter"};
        for (auto s : own) {
            s.string.core.diameter = 0.9 * s.string.core.diameter;
            other.strings.push_back(s);
        }
        model.states.push_back(other);
        solved_state s;
        solve_state(model, "lighter", s);
        auto lighter = model.at_pitch;
        lighter.stringing.strings = other.strings;
        CHECK(near::relative(s.setup.total_tension, solve(lighter).total_tension, 1e-12));
        CHECK(model.at_pitch.stringing.strings[0].string.core.diameter == own[0].string.core.diameter);
        CHECK(model.states[1].strings.size() == own.size());
        model.at_pitch.instrument.neck.back_modulus = 0.02 * GPa;
        model.at_pitch.instrument.neck.board_modulus = 0.02 * GPa;
        CHECK_THROWS_AS(solve_state(model, "lighter", s), invalid_input);
        CHECK(model.at_pitch.stringing.strings[0].string.core.diameter == own[0].string.core.diameter);
        CHECK(model.states[1].strings.size() == own.size());
    }
    TEST_CASE("held down at a fret: ahead the pressed string's clearances, behind the straight line to the nut") {
        auto model = read_case::cittern();
        model.states.push_back({.name = "capo at 3"});
        model.states.back().capo = 3;
        solved_state held;
        solve_state(model, "capo at 3", held);
        const auto& open = held.setup.strings[2];
        const auto read = [&](int fret) {
            return *kernel::read_in(held, readable::height, height_read(2, fret, length<>()));
        };
        CHECK(read(3) == 0);
        double least = 1;
        for (int n = 4; n <= model.at_pitch.instrument.board.scale.frets; ++n) { least = std::min(least, read(n)); }
        CHECK(near::within(least, open.clearances[3].gap.value(), 1e-12));
        // By hand: slot and crest 3, at the place of fret 1.
        const auto& x = held.setup.fret_x;
        const double share = ratio(x[0] - open.line.nut_x, x[2] - open.line.nut_x);
        const length<> line = open.line.nut_z + share * (open.crest_z[2] - open.line.nut_z);
        CHECK(near::within(read(1), (line - open.crest_z[0]).value(), 1e-12));
        CHECK_FALSE(kernel::read_in(held, readable::relief_gap, relief_read(length<>())).has_value());
    }
    TEST_CASE("a capo at a short string's own nut or behind it does not touch that string") {
        const auto o = ready_made::five_string_banjo();
        read_instrument model{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}, {}, {}};
        const int own_nut = model.at_pitch.instrument.short_strings.at(0).fret;
        REQUIRE(own_nut == 5);
        for (const int fret : {3, 5, 7}) {
            model.states = {{.name = "held"}};
            model.states[0].capo = fret;
            solved_state held;
            solve_state(model, "held", held);
            std::size_t free = 0;
            for (std::size_t i = 0; i < held.setup.strings.size(); ++i) {
                const auto& one = held.setup.strings[i];
                const double read = *kernel::read_in(held, readable::height, height_read(i, 12, length<>()));
                const bool open = read == one.heights[11].value();
                CHECK(open == (one.frets_behind > 0 && fret <= own_nut));
                free += open ? 1 : 0;
            }
            CHECK(free == (fret <= own_nut ? 1 : 0));
        }
    }
    TEST_CASE("after work it is the other instrument that is read") {
        auto model = read_case::cittern();
        model.after_work = {model.at_pitch};
        auto& saddle_height = model.after_work[0].instrument.saddle.height_bass;
        saddle_height = saddle_height - 1 * mm;
        model.states.push_back({.name = "lowered"});
        model.states.back().after_work = 0;
        solved_state now, before;
        solve_state(model, "lowered", now);
        solve_state(model, pitch_state, before);
        const auto alone = solve(model.after_work[0]);
        CHECK(now.setup.strings[0].heights[11].value() == alone.strings[0].heights[11].value());
        CHECK(now.setup.strings[0].heights[11] < before.setup.strings[0].heights[11] - 0.4 * mm);
    }
    TEST_CASE("a state that nobody described is refused by name, with those there are") {
        auto model = read_case::cittern();
        solved_state s;
        CHECK_THROWS_WITH(solve_state(model, "half slack", s),
                          "state is half slack; it must be one of: at pitch, slack, 2 kg at the nut.");
    }
}
TEST_SUITE("read instrument") {
    TEST_CASE("states and gauges that cannot be are refused with a sentence") {
        const auto told = [](auto&& change) {
            auto model = read_case::cittern();
            change(model);
            std::string all;
            for (const auto& p : validate(model)) { all += p.sentence(); }
            return all;
        };
        CHECK(told([](auto&) {}).empty());
        CHECK(told([](auto& m) { m.states[0].slack = false; }) ==
              "states[0].slack must be true where a weight is hung: strings at pitch would hold the neck.");
        CHECK(told([](auto& m) { m.states[0].rod_turns = 1; }) ==
              "states[0].rod_turns must be 0: the neck has no rod to turn.");
        CHECK(told([](auto& m) { m.states[0].at_fret = 12; }) ==
              "states[0].at_fret must be before the joint: the body bears the rest.");
        CHECK(told([](auto& m) { m.states[0].strings = m.at_pitch.stringing.strings; }) ==
              "states[0].strings must be left out where the strings are off.");
        CHECK(told([](auto& m) { m.states[0].name = "slack"; }) ==
              "states[0].name must be another one: \"at pitch\" and \"slack\" are there without being described.");
        CHECK(told([](auto& m) { m.states.push_back(m.states[0]); }) ==
              "states[1].name must be another than that of a state before it.");
        CHECK(told([](auto& m) { m.gauges.push_back(m.gauges[0]); }) ==
              "gauges[1].name must be another than that of a gauge before it.");
        CHECK(told([](auto& m) {
                  m.states.push_back({.name = "few"});
                  m.states[1].strings.assign(2, m.at_pitch.stringing.strings[0]);
              }) == "states[1].strings must be 10, as the instrument has, but there are 2.");
        CHECK(told([](auto& m) { m.states[0].after_work = 0; }) ==
              "states[0].after_work must be of an instrument that is there.");
        CHECK(told([](auto& m) { m.states[0].capo = 2; }) == "states[0].capo must be left out where the strings are off.");
        CHECK(told([](auto& m) {
                  m.states.push_back({.name = "high"});
                  m.states[1].capo = 20;
              }) == "states[1].capo must be one of the board's 19 frets.");
        auto rod = read_case::flat_top();
        rod.states[0].rod_loose = true;
        CHECK(validate(rod).front().sentence() ==
              "states[0].rod_turns must be 0 where the rod is loose: turns are counted from the rod as it is set.");
        rod.states[0].rod_loose = false;
        rod.rod_screw.reset();
        CHECK(validate(rod).front().field == "rod_screw");
    }
    TEST_CASE("property: a number beyond what a state counts moves nothing that is read in it") {
        using D = dual<double, 1>;
        for (const auto& o : {ready_made::ten_string_cittern(), ready_made::flat_top(), ready_made::five_string_banjo(),
                              ready_made::fanned_bass()}) {
            const read_instrument base{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}, {}, {}};
            for (const std::string_view state : {pitch_state, slack_state}) {
                CAPTURE(state);
                const auto scope = kernel::scope_of(base, state, false);
                auto model = over<D>(base);
                int beyond = 0, counted = 0;
                for_each_leaf(model, [&](std::string_view path, auto& x) {
                    D v = number_of(x);
                    const bool counts = scope.may_be_moved_by(path);
                    // No two alike, so that they cannot cancel.
                    v.partial[0] = counts ? 0 : std::sqrt(2.0 + ++beyond);
                    counted += counts ? 1 : 0;
                    set_number(x, v);
                });
                CHECK(beyond > 0);
                CHECK(counted > 0);
                basic_solved_state<D> solved;
                solve_state(model, state, solved, solve_stations, false);
                for_each_number(solved.setup, [&](const auto& x) {
                    const D v = number_of(x);
                    if (v.value == v.value) { CHECK(v.partial[0] == 0); }
                });
            }
        }
    }
    TEST_CASE("what counts in the states of an instrument after some work, and where notes are read") {
        auto base = read_case::cittern();
        base.after_work = {base.at_pitch, base.at_pitch};
        base.states.push_back({.name = "worked", .after_work = 1});
        const auto found = kernel::scope_of(base, pitch_state, false), worked = kernel::scope_of(base, "worked", true);
        CHECK(found.may_be_moved_by("neck.depth_at_nut"));
        CHECK_FALSE(found.may_be_moved_by("after_work[1].neck.depth_at_nut"));
        CHECK_FALSE(found.may_be_moved_by("playing.finger.depth"));
        CHECK_FALSE(worked.may_be_moved_by("neck.depth_at_nut"));
        CHECK_FALSE(worked.may_be_moved_by("after_work[0].neck.depth_at_nut"));
        CHECK(worked.may_be_moved_by("after_work[1].neck.depth_at_nut"));
        CHECK(worked.may_be_moved_by("after_work[1].playing.finger.depth"));
        for (const char* path : {"gauges[0].zero", "rod_screw.lead", "states[0].weight", "season.bow"}) {
            CHECK(found.may_be_moved_by(path));
            CHECK(worked.may_be_moved_by(path));
        }
        const auto slack = kernel::scope_of(base, slack_state, false);
        CHECK(slack.may_be_moved_by("saddle.board_line"));
        CHECK_FALSE(slack.may_be_moved_by("saddle.height_bass"));
        CHECK_FALSE(slack.may_be_moved_by("nut.slot_heights[3]"));
    }
}
