#include <tautline/action/clearance.hpp>
#include <tautline/action/coupling.hpp>
#include <tautline/action/height.hpp>
#include <tautline/action/height_plan.hpp>
#include <tautline/action/moved_ends.hpp>
#include <tautline/action/neck_reset.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/action/pluck.hpp>

#include <doctest/doctest.h>

#include <limits>
#include <vector>

// What functions of action refuse, and the sentence they say: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {
const double inf = std::numeric_limits<double>::infinity();
const string_line taut{.nut_z = 1 * mm, .saddle_x = 640 * mm, .saddle_z = 12 * mm},
    no_line{.nut_z = 1 * mm, .saddle_x = 0 * mm, .saddle_z = 12 * mm};
const lengths x{100 * mm, 200 * mm, 300 * mm}, z(3, 1 * mm);
const sounding_string sounding{
    .mass_per_length = 0.8 * g_per_m, .open_pitch = 200 * Hz, .axial_stiffness = 20000 * N, .bending_stiffness = 0 * N_m2};
} // namespace

TEST_CASE("action's door: heights and clearances") {
    lengths room(3);
    CHECK_THROWS_WITH((void)height_over(no_line, 100 * mm, 1 * mm), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)speaking_length(no_line), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)height_over(taut, inf * mm, 1 * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)height_over(taut, 100 * mm, inf * mm), "crest_z is infinite; it must be a finite number.");
    const auto over = [&](const lengths& at, const lengths& high) { heights_over_frets(taut, at, high, room); };
    CHECK_THROWS_WITH(over(x, lengths(2)), "crest_x and crest_z must have one entry for each fret.");
    CHECK_THROWS_WITH(over({100 * mm, 200 * mm, inf * mm}, z), "crest_x[2] is infinite; it must be a finite number.");
    CHECK_THROWS_WITH(over(x, {1 * mm, inf * mm, 1 * mm}), "crest_z[1] is infinite; it must be a finite number.");
    CHECK_THROWS_WITH(over({100 * mm, 200 * mm, 200 * mm}, z),
                      "crest_x[2] must lie beyond the fret before it and before the saddle.");
    CHECK_THROWS_WITH(over({0 * mm, 100 * mm, 200 * mm}, z),
                      "crest_x[0] must lie beyond the fret before it and before the saddle.");
    CHECK_THROWS_WITH(over({100 * mm, 200 * mm, 640 * mm}, z),
                      "crest_x[2] must lie beyond the fret before it and before the saddle.");
    room.pop_back();
    CHECK_THROWS_WITH(over(x, z), "heights must have one entry for each fret.");
    CHECK_THROWS_WITH((void)least_clearance(no_line, x, z, 0), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)least_clearance(taut, x, z, 4),
                      "pressed is 4; it must be the number of a fret, 0 (the open string) to 3.");
    CHECK_NOTHROW((void)least_clearance(taut, x, z, 3));
}

TEST_CASE("action's door: planned heights") {
    const height_wish first{.x = 100 * mm, .crest = 1 * mm, .wanted = 0.4 * mm},
        twelfth{.x = 300 * mm, .crest = 1 * mm, .wanted = 2 * mm};
    const auto at = [](double place, double wanted) {
        return height_wish{.x = place * mm, .crest = 1 * mm, .wanted = wanted * mm};
    };
    CHECK_THROWS_WITH((void)plan_heights(no_line, first, twelfth, 1 * mm), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)plan_heights(taut, at(100, 0), twelfth, 1 * mm),
                      "first.wanted is 0 mm; it must be at least 0.001 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, at(300, 0), 1 * mm),
                      "action.wanted is 0 mm; it must be at least 0.001 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, twelfth, 0 * mm),
                      "gauge is 0 mm; it must be more than 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, twelfth, 10.1 * mm),
                      "gauge is 10.1 mm; it must be more than 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, at(300, 0.49), 1 * mm),
                      "action.wanted must be at least half the string's gauge: the string would rattle on the fret at the "
                      "softest touch.");
    CHECK_NOTHROW((void)plan_heights(taut, first, at(300, 0.5), 1 * mm));
    CHECK_THROWS_WITH((void)plan_heights(taut, at(0, 0.4), twelfth, 1 * mm),
                      "first.x and action.x must lie between nut and saddle, in this order.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, at(100, 2), 1 * mm),
                      "first.x and action.x must lie between nut and saddle, in this order.");
    CHECK_THROWS_WITH((void)plan_heights(taut, first, at(640, 2), 1 * mm),
                      "first.x and action.x must lie between nut and saddle, in this order.");
    CHECK_THROWS_WITH((void)plan_saddle_height(no_line, twelfth, 1 * mm), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)plan_saddle_height(taut, at(300, 0), 1 * mm),
                      "action.wanted is 0 mm; it must be at least 0.001 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)plan_saddle_height(taut, at(300, 0.49), 1 * mm),
                      "action.wanted must be at least half the string's gauge: the string would rattle on the fret at the "
                      "softest touch.");
    CHECK_THROWS_WITH((void)plan_saddle_height(taut, at(0, 2), 1 * mm), "action.x must lie between nut and saddle.");
    CHECK_THROWS_WITH((void)plan_saddle_height(taut, at(640, 2), 1 * mm), "action.x must lie between nut and saddle.");
}

TEST_CASE("action's door: fretted notes and compensation") {
    std::vector<pressed_note> notes(2);
    const finger_press deep{.behind = 0 * mm, .depth = 0.1 * mm};
    CHECK_THROWS_WITH((void)pressed_at(sounding, taut, deep, x, z, 1),
                      "press.behind must be more than 0 mm where the finger presses deeper than the crest.");
    CHECK_THROWS_WITH(
        (void)pressed_at(sounding_string(), taut, {}, x, z, 1),
        doctest::Contains("string.mass_per_length is not given, or not a number; it must be at least 0.001 g/m"));
    CHECK_THROWS_WITH((void)pressed_at(sounding, taut, {}, x, z, 1, {0}), "steps_per_octave is 0; it must be at least 1.");
    CHECK_THROWS_WITH((void)pressed_at(sounding, taut, {}, x, z, 0), "fret is 0; it must be the number of a fret, 1 to 3.");
    CHECK_THROWS_WITH((void)pressed_at(sounding, taut, {}, x, z, 4), "fret is 4; it must be the number of a fret, 1 to 3.");
    CHECK_THROWS_WITH(intonation(sounding, taut, {}, x, z, notes), "notes must have one entry for each fret.");
    CHECK_THROWS_WITH((void)setback_for_fret(sounding, no_line, {}, x, z, 1),
                      "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)setback_for_fret(sounding, taut, {}, x, z, 0),
                      "fret is 0; it must be the number of a fret, 1 to 3.");
    CHECK_THROWS_WITH((void)setback_for_fret(sounding, taut, {}, x, z, 4),
                      "fret is 4; it must be the number of a fret, 1 to 3.");
    CHECK_THROWS_WITH((void)ends_moved_over(sounding, no_line, {}, x, z, 1, 3, false),
                      "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)ends_moved_over(sounding, taut, {}, x, z, 0, 3, false),
                      "first and last must be numbers of frets, in this order.");
    CHECK_THROWS_WITH((void)ends_moved_over(sounding, taut, {}, x, z, 3, 2, false),
                      "first and last must be numbers of frets, in this order.");
    CHECK_THROWS_WITH((void)ends_moved_over(sounding, taut, {}, x, z, 1, 4, false),
                      "first and last must be numbers of frets, in this order.");
    CHECK_THROWS_WITH((void)ends_moved_over(sounding, taut, {}, x, z, 2, 2, true),
                      "last must be a later fret than the first where nut and saddle both move.");
    CHECK_NOTHROW((void)ends_moved_over(sounding, taut, {}, x, z, 3, 3, false));
}

TEST_CASE("action's door: a neck's turn") {
    const neck_joint joint{.x = 320 * mm, .z = -6 * mm}, no_joint{.x = 0 * mm, .z = -6 * mm};
    const reset_case c{.joint = joint, .string = taut, .fret_x = 300 * mm, .crest_z = 1 * mm};
    const auto no_case = reset_case();
    const auto far = 3.5 * deg, back = -3.5 * deg;
    CHECK_THROWS_WITH((void)after_turn(no_joint, 1 * deg, {}),
                      "joint.x is 0 mm; it must be at least 1 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)after_turn(joint, far, {}),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)after_turn(joint, back, {}),
                      "turn is -3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)after_turn(joint, 1 * deg, {.x = inf * mm}),
                      "point.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)seen_after_turn(no_joint, 1 * deg, {}),
                      "joint.x is 0 mm; it must be at least 1 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)seen_after_turn(joint, far, {}),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)seen_after_turn(joint, 1 * deg, {.x = inf * mm}),
                      "point.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    const auto joint_first =
        doctest::Contains("case.joint.x is not given, or not a number; it must be at least 1 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)string_after_turn(no_case, 1 * deg), joint_first);
    CHECK_THROWS_WITH((void)string_after_turn(c, far),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)action_after_turn(no_case, 1 * deg), joint_first);
    CHECK_THROWS_WITH((void)action_after_turn(c, far),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)turn_for_action(no_case, 2 * mm), joint_first);
    CHECK_THROWS_WITH((void)turn_for_action(c, 0 * mm), "wanted is 0 mm; it must be more than 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)turn_for_action(c, 30.1 * mm),
                      "wanted is 30.1 mm; it must be more than 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm, back),
                      "turn is -3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm, -1 * deg, far),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm, 1 * deg, 1 * deg), "most must be more than least.");
    CHECK_THROWS_WITH((void)first_order_turn(no_case, 2 * mm), joint_first);
    CHECK_THROWS_WITH((void)first_order_turn(c, 0 * mm), "wanted is 0 mm; it must be more than 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)first_order_turn(c, 30.1 * mm),
                      "wanted is 30.1 mm; it must be more than 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)heel_cut(no_joint, 1 * deg, 90 * mm),
                      "joint.x is 0 mm; it must be at least 1 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)heel_cut(joint, far, 90 * mm),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)heel_cut(joint, 1 * deg, 301 * mm),
                      "depth is 301 mm; it must be at least 0 mm and at most 300 mm.");
    CHECK_THROWS_WITH((void)heel_cut(joint, 1 * deg, -1 * mm),
                      "depth is -1 mm; it must be at least 0 mm and at most 300 mm.");
    CHECK_THROWS_WITH((void)pocket_shim(far, 70.0 * mm),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)pocket_shim(1 * deg, 301.0 * mm),
                      "pocket is 301 mm; it must be at least 0 mm and at most 300 mm.");
    CHECK_THROWS_WITH((void)pocket_shim(1 * deg, -1.0 * mm),
                      "pocket is -1 mm; it must be at least 0 mm and at most 300 mm.");
    CHECK_THROWS_WITH((void)tongue_wedge(no_joint, 1 * deg, 400 * mm),
                      "joint.x is 0 mm; it must be at least 1 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)tongue_wedge(joint, far, 400 * mm),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)tongue_wedge(joint, 1 * deg, 319 * mm), "x must lie beyond the joint.");
    CHECK(tongue_wedge(joint, 1 * deg, 320 * mm) == 0 * mm);
    CHECK_THROWS_WITH((void)length_error_after_turn(no_case, 1 * deg), joint_first);
    CHECK_THROWS_WITH((void)length_error_after_turn(c, far),
                      "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    CHECK_THROWS_WITH((void)break_change(no_case, 1 * deg), joint_first);
    CHECK_THROWS_WITH((void)break_change(c, far), "turn is 3.5 deg; it must be at least -3.4 deg and at most 3.4 deg.");
    auto at_fret = c;
    at_fret.fret_x = 0 * mm;
    CHECK_THROWS_WITH((void)action_after_turn(at_fret, 1 * deg), "case.fret_x must lie between nut and saddle.");
    at_fret.fret_x = 640 * mm;
    CHECK_THROWS_WITH((void)action_after_turn(at_fret, 1 * deg), "case.fret_x must lie between nut and saddle.");
    at_fret = c;
    at_fret.joint.x = 640 * mm;
    CHECK_THROWS_WITH((void)action_after_turn(at_fret, 1 * deg), "case.joint.x must lie before the saddle.");
}

TEST_CASE("action's door: what lies under the strings, and plucks") {
    const flat_object object{.x = 500 * mm, .z = 5 * mm, .extent = 0 * mm};
    CHECK_THROWS_WITH((void)object_clearance(flat_object{.x = inf * mm, .z = 5 * mm, .extent = 0 * mm}, taut),
                      "object.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)object_clearance(object, no_line), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)parallel_tilt(flat_object{.x = inf * mm, .z = 5 * mm, .extent = 0 * mm}, std::vector{taut}),
                      "object.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)parallel_tilt(object, std::vector<string_line>{}), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)parallel_tilt(object, std::vector{taut, no_line}),
                      "strings[1].saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)pluck_displacement(1.0 * N, 640.0 * mm, 640.0 * mm, 80.0 * N),
                      "from_saddle must be less than the speaking length.");
    CHECK_THROWS_WITH((void)plucked_clearance(taut, x, z, 4, 100 * mm, 1 * mm),
                      "pressed is 4; it must be the number of a fret, 0 (the open string) to 3.");
    CHECK_THROWS_WITH((void)plucked_clearance(taut, x, z, 3, 340 * mm, 1 * mm),
                      "from_saddle must be less than the speaking length: nobody plucks behind the pressed fret.");
    CHECK_THROWS_WITH((void)hardest_clean_pluck(taut, x, z, 0, 100 * mm, 0 * N),
                      "tension is 0 N; it must be more than 0 N.");
}

TEST_CASE("action's door: strings that share what gives") {
    string_table<compliance<double>> table(2), unmeasured(2);
    const std::vector<double> one{1}, two{1, 1};
    const lengths lever{10 * mm}, levers{10 * mm, -10 * mm};
    CHECK_THROWS_WITH(add_shared_give(table, one, 1e-3 * mm_per_N), "gains must have one entry for each string.");
    CHECK_THROWS_WITH(add_shared_give(table, two, -1e-3 * mm_per_N), "give is -0.001 mm/N; it must be at least 0 mm/N.");
    CHECK_THROWS_WITH(add_shared_turn(table, lever, 1000 * N_m_per_rad), "levers must have one entry for each string.");
    CHECK_THROWS_WITH(add_shared_turn(table, levers, 0 * N_m_per_rad),
                      "resists is 0 N m/rad; it must be more than 0 N m/rad.");
    const std::vector<stiffness<double>> springs{1e4 * N_per_m, 1e4 * N_per_m}, limp{1e4 * N_per_m, 0 * N_per_m};
    const std::vector<force<double>> pulls{80 * N, 80 * N}, slack{80 * N, 0 * N};
    CHECK_THROWS_WITH((void)tuning_coupling(string_table<compliance<double>>(0), {}, {}),
                      "springs and tensions must have one entry for each string, and at least one.");
    CHECK_THROWS_WITH((void)tuning_coupling(table, std::vector<stiffness<double>>{1e4 * N_per_m}, pulls),
                      "springs and tensions must have one entry for each string, and at least one.");
    CHECK_THROWS_WITH((void)tuning_coupling(table, springs, std::vector<force<double>>{80 * N}),
                      "springs and tensions must have one entry for each string, and at least one.");
    CHECK_THROWS_WITH((void)tuning_coupling(table, limp, pulls), "springs[1] is 0 N/mm; it must be more than 0 N/mm.");
    CHECK_THROWS_WITH((void)tuning_coupling(table, springs, slack), "tensions[1] is 0 N; it must be more than 0 N.");
    const string_table<double> free(2);
    CHECK_THROWS_WITH((void)tuning_passes(free, std::vector{1.0 * cents}), "start must have one entry for each string.");
    CHECK_THROWS_WITH((void)tuning_passes(free, std::vector{1.0 * cents, 1.0 * cents}, 0.0 * cents),
                      "tolerance is 0 cents; it must be more than 0 cents.");
    CHECK_THROWS_WITH((void)tuning_passes(free, std::vector{1.0 * cents, 1201.0 * cents}),
                      "start[1] is 1201 cents; it must be at least -1200 cents and at most 1200 cents.");
    CHECK_THROWS_WITH((void)tuning_passes(free, std::vector{1.0 * cents, -1201.0 * cents}),
                      "start[1] is -1201 cents; it must be at least -1200 cents and at most 1200 cents.");
}
