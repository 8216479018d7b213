#include <tautline/doubt/reconcile.hpp>

#include "near.hpp"
#include "read_case.hpp"

using namespace tautline;
using namespace tautline::units;
using read_case::of;

namespace {

/// What is said of readings of an instrument.
std::string told(const read_instrument& model, std::vector<reading> readings,
                 std::vector<doubt> doubts = {of("saddle.board_line", 1e-4)}, std::vector<correlation> together = {}) {
    try {
        (void)reconcile(model, doubts, together, readings);
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}
std::string told_of_cittern(reading r) { return told(read_case::cittern(), {std::move(r)}); }

} // namespace

TEST_SUITE("checked readings") {
    TEST_CASE("what the instrument has not cannot be read") {
        CHECK(
            told_of_cittern(height_read(12, 5, 2 * mm)) ==
            "readings[0] is strings[12].heights[4]; it must be of a string that is there: courses 1 (D4) to 5 (D2); 5a is "
            "course 5 (D2), its bass-side string.");
        CHECK(told_of_cittern(height_read(0, 20, 2 * mm)) ==
              "readings[0] is strings[0].heights[19]; it must be at a fret that is there: 1 to 19.");
        CHECK(told_of_cittern(note_read(0, 30, 2 * cents)) ==
              "readings[0] is strings[0].notes[29].error; it must be at a fret that is there: 1 to 19.");
        CHECK(
            told_of_cittern(height_read(0, 12, 2 * mm).when("slack")) ==
            "readings[0] is strings[0].heights[11]; it must be read with the strings at pitch: in \"slack\" they are off.");
        CHECK(told_of_cittern(nut_drop_read(0.2 * mm)) ==
              "readings[0] is nut_drop; it must be read in a state with a weight on the slack neck.");
        CHECK(told_of_cittern(reading_of("strings[0].gap", 2 * mm)) ==
              "readings[0] is strings[0].gap; it must say what lies under the string: its object.");
        const auto flat = read_case::flat_top();
        CHECK(told(flat, {tailpiece_read(3 * deg)}) ==
              "readings[0] is tailpiece_rise; it must be of an instrument whose strings end on a tailpiece that hangs.");
        CHECK(
            told(flat, {top_drop_read(0.2 * mm)}) ==
            "readings[0] is top.drop; it must be of a soundboard whose stiffness is given, even if only roughly, with its "
            "doubt: soundboard.sink_stiffness.");
        auto few = flat;
        few.at_pitch.instrument.board.scale.frets = 0;
        CHECK(told(few, {relief_read(0.1 * mm)}) ==
              "readings[0] is relief.gap; it must be of a board with three frets and more up to the joint.");
        CHECK(told(few, {line_at_saddle_read(0.1 * mm)}) ==
              "readings[0] is line_at_saddle; it must be of a board with two frets and more.");
        CHECK(told(few, {setback_read(1, 0.1 * mm)}) ==
              "readings[0] is strings[1].octave_setback; it must be of a string whose octave fret a saddle near by can set "
              "true.");
    }
    TEST_CASE("a string is read where it runs: past its own nut, and not at the fret that holds it down") {
        read_instrument banjo{string_up(ready_made::five_string_banjo()), {}, {}, {}, {}};
        const auto& own = banjo.at_pitch.instrument.short_strings;
        REQUIRE(own.size() == 1);
        const int begins = own[0].fret;
        for (const int fret : {1, begins}) {
            const auto text = told(banjo, {height_read(0, fret, 2 * mm)});
            CAPTURE(text);
            CHECK(text.find(messages::joined({"readings[0].fret is ", fret, "; it must be further up: "})) == 0);
            CHECK(text.find(messages::joined({"begins at fret ", begins, "."})) != std::string::npos);
        }
        CHECK(told(banjo, {height_read(0, begins + 1, 2 * mm)}) == "nothing");
        CHECK(told(banjo, {height_read(1, 1, 2 * mm)}) == "nothing");
        banjo.states.push_back({.name = "held", .capo = 3});
        CHECK(
            told(banjo, {height_read(1, 3, 0.3 * mm).when("held")}) ==
            "readings[0].fret is 3; it must be at another fret: in \"held\" the string is held down at fret 3 and touches "
            "it.");
        CHECK(told(banjo, {height_read(1, 2, 0.3 * mm).when("held")}) == "nothing");
    }
    TEST_CASE("a break is how far a string turns, not the angle between its two sides") {
        CHECK(told_of_cittern(saddle_break_read(0, 168 * deg)) ==
              "readings[0] is 168.00 deg; it must be how far the string turns there, at most 90 deg; between the two sides "
              "of "
              "a string that turns by 12.00 deg lie 168.00 deg.");
        CHECK(told_of_cittern(nut_break_read(0, 171 * deg)).find("turns by 9.00 deg") != std::string::npos);
        CHECK(told_of_cittern(nut_break_read(0, 200 * deg)).find("at most 90 deg.") != std::string::npos);
        CHECK(told_of_cittern(saddle_break_read(0, 12 * deg)) == "nothing");
    }
    TEST_CASE("a reading that is none") {
        auto r = relief_read(0.2 * mm, 0 * mm);
        CHECK(told_of_cittern(r) == "readings[0] must have a doubt of more than 0: a reading without one is no reading.");
        r = relief_read(length<>::from_value(not_given<double>()));
        CHECK(told_of_cittern(r) == "readings[0] must have a value, as read.");
        CHECK(told_of_cittern(reading_of("relief.gap", 3 * N)) ==
              "readings[0] is relief.gap; it must be given as a length.");
        CHECK(told_of_cittern(reading_of("saddle.height_bass", 3 * mm))
                  .find("must be something that can be read: relief.gap, ") != std::string::npos);
        CHECK(told_of_cittern(relief_read(0.2 * mm).when("half slack")) ==
              "readings[0] is half slack; it must be one of: at pitch, slack, 2 kg at the nut.");
        CHECK(told_of_cittern(relief_read(0.2 * mm).with("rule")) ==
              "readings[0] is rule; it must be taken with a gauge that is described: feelers.");
        CHECK(told(read_case::flat_top(), {relief_read(0.2 * mm).with("rule")}) ==
              "readings[0] is rule; it must be taken with a gauge that is described: there is none.");
        CHECK(told_of_cittern(tailpiece_read(3 * deg).with("feelers")) ==
              "readings[0] is feelers; it must be a length to be read with a gauge.");
        r = relief_read(0.2 * mm);
        r.model = -1 * mm;
        CHECK(told_of_cittern(r) == "readings[0] must have a doubt of the model of at least 0.");
        CHECK(told_of_cittern(gap_read(0, flat_object(), 1 * mm)).find("readings[0].object.x is not given") !=
              std::string::npos);
    }
    TEST_CASE("a reading twice; in another state, with another gauge, under another place it is another") {
        auto model = read_case::cittern();
        model.gauges.push_back({.name = "rule"});
        const auto r = relief_read(0.24 * mm);
        CHECK(
            told(model, {r, r}) ==
            "readings[1] is relief.gap; it must be read once in a state with a gauge: it is readings[0] already; give the "
            "mean of several, with its doubt.");
        const flat_object near{.x = 400 * mm, .z = 0 * mm, .extent = 0 * mm},
            far{.x = 430 * mm, .z = 0 * mm, .extent = 0 * mm};
        CHECK(told(model, {r, r.when("slack"), r.with("rule"), gap_read(0, near, 4 * mm), gap_read(0, far, 4 * mm)}) ==
              "nothing");
    }
    TEST_CASE("all that is wrong is said at once") {
        const auto text = told(read_case::cittern(), {relief_read(0.2 * mm, 0 * mm), relief_read(0.2 * mm).when("x")});
        CHECK(text.find("readings[0]") != std::string::npos);
        CHECK(text.find("readings[1]") != std::string::npos);
    }
    TEST_CASE("doubts that are none, and correlations that contradict each other") {
        const auto model = read_case::cittern();
        const std::vector<reading> r{relief_read(0.24 * mm)};
        CHECK(told(model, r, {of("saddle.board_line", 0)}) ==
              "doubt of saddle.board_line is 0 mm; it must be more than 0: leave out what is exact.");
        CHECK(told(model, r, {of("saddle.bord_line", 1e-4)}) ==
              "saddle.bord_line must be the path of a number of the instrument or its readings.");
        CHECK(told(model, r, {{"nothing", 1e-4, {}}}) ==
              "doubt of nothing must move at least one number of the instrument.");
        const std::vector<doubt> three{of("saddle.board_line", 1e-4), of("saddle.height_bass", 1e-4),
                                       of("saddle.height_treble", 1e-4)};
        CHECK(
            told(model, r, three, {{0, 1, -1}, {0, 2, -1}, {1, 2, -1}}) ==
            "correlations must be such that all can hold at once: what errs with one cannot err against another that errs "
            "with it.");
        CHECK(told(model, r, three, {{0, 1, 0.5}, {1, 0, 0.5}}) == "correlation must be given once for each pair.");
        CHECK(told(model, r, three, {{0, 7, 0.5}}) == "correlation must name two different inputs of the list.");
        CHECK(told(model, r, three, {{0, 1, 1}, {0, 2, -1}, {1, 2, -1}}) == "nothing");
    }
    TEST_CASE("an instrument that does not stand as read is told by its state, with what is wrong") {
        auto model = read_case::cittern();
        model.at_pitch.instrument.neck.back_modulus = 0.05 * GPa;
        model.at_pitch.instrument.neck.board_modulus = 0.05 * GPa;
        const auto text = told(model, {relief_read(0.2 * mm).when("slack"), relief_read(0.2 * mm)});
        CHECK(text.find(
                  "state \"at pitch\" must be one that the instrument as read can stand in; correct what is wrong first.\n"
                  "neck must bear the pull of the strings and the rod") == 0);
        auto rod = read_case::flat_top();
        rod.states[0].rod_turns = -3;
        CHECK(told(rod, {relief_read(0.1 * mm).when("a quarter turn")}).find("state \"a quarter turn\" must be one that") ==
              0);
    }
    TEST_CASE("limits of inputs are those of what they move") {
        auto model = read_case::flat_top();
        const auto inputs = read_inputs_of(
            model, std::vector<doubt>{of("neck.back_modulus", 1e9),
                                      of("neck.rod_pull", 50),
                                      {"both", 1e-3, {{"saddle.height_bass", 2, true}, {"saddle.height_treble", -1, true}}},
                                      of("playing.nut_end", 0.1)});
        CHECK(inputs[0].by_share);
        CHECK(near::relative(inputs[0].at(inputs[0].least), 0.01e9, 1e-9));
        CHECK(near::relative(inputs[0].at(inputs[0].most), 1000e9, 1e-9));
        CHECK(near::relative(inputs[0].standard, 1e9 / 10.5e9, 1e-12));
        CHECK_FALSE(inputs[1].by_share);
        CHECK(inputs[1].at(inputs[1].least) == 0); // a single rod only pulls
        // Bass 12.5 + 2 t from 0.1 to 200, treble 12 - t.
        CHECK(near::within(inputs[2].least, -(12.5 - 0.1) / 2 * 1e-3, 1e-9));
        CHECK(near::within(inputs[2].most, (12 - 0.1) * 1e-3, 1e-9));
        CHECK(near::within(inputs[2].as_read, 12.5e-3 / 2, 1e-12));
        CHECK(inputs[3].least == -0.5);
        CHECK(inputs[3].most == 0.5);
        CHECK(near::relative(inputs[0].slope(0), 10.5e9, 1e-12));
        CHECK(inputs[1].slope(0.3) == 1);
    }
}
