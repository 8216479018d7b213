// One job file for every rule between keys, and for what only solving, working and planning show: each is answered by line,
// key and what is expected, with exit code 2, and nothing is written. Rules that no job file can break are listed with the
// reason.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "changed_job.hpp"
#include "job.hpp"
#include "keys.hpp"
#include "read_key.hpp"
#include "run_program.hpp"
#include "source_rules.hpp"

using namespace job_file;
using changed_job::setting;
using program::has;

namespace {

/// Which job is changed: the flat-top with pins and a rod, the cittern with a floating bridge, or the file to begin with.
enum class begun { pinned, floating, starting };
const std::string& text_of(begun b) {
    static const std::string texts[] = {program::read_all(std::string(JOBS) + "/baritone_flat_top.toml"),
                                        program::read_all(std::string(JOBS) + "/ten_string_cittern.toml"),
                                        starting_file(starting_kinds().front())};
    return texts[static_cast<std::size_t>(b)];
}

/// Settings that break a rule, the key it is told by, and words of what is told.
struct rule_case {
    begun from;
    std::vector<setting> settings;
    std::string key, words;
};
constexpr begun pinned = begun::pinned, floating = begun::floating, starting = begun::starting;

const std::string sanding = "planned.sanding.";
/// What sanding the cittern needs: how it is held, the slots, wire that fits them.
std::vector<setting> sanded(std::vector<setting> more) {
    std::vector<setting> all{{"planned.levelling.*", ""},
                             {"planned.sanding.held", "\"slack\""},
                             {"planned.sanding.radius", "\"400 mm\""},
                             {"details.slot.depth", "\"2 mm\""},
                             {"details.slot.width", "\"0.5 mm\""}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}
/// New wire in the cittern, in place of the file.
std::vector<setting> fretted(std::vector<setting> more) {
    std::vector<setting> all{{"planned.levelling.*", ""},
                             {"planned.wire.crown_height", "\"1 mm\""},
                             {"planned.wire.crown_width", "\"2 mm\""},
                             {"planned.wire.tang_depth", "\"1.6 mm\""},
                             {"planned.wire.tang_thickness", "\"0.5 mm\""}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

/// Two scales, in place of the one of the file to begin with.
std::vector<setting> fanned(std::vector<setting> more) {
    std::vector<setting> all{{"board.scale.scale_length", ""},
                             {"board.scale.fan.bass_scale", "\"600 mm\""},
                             {"board.scale.fan.treble_scale", "\"570 mm\""},
                             {"board.scale.fan.square_fret", "7.0"}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

/// Edges of the board at two places, the second 200 mm from the nut.
std::vector<setting> edges(const std::string& first_x, const std::string& first_treble, std::vector<setting> more) {
    const std::string at = "centre_line.readings";
    // Sections of a list come in their order.
    std::vector<setting> all{{at + "[0].x", '"' + first_x + '"'},
                             {at + "[0].bass_edge", "\"20 mm\""},
                             {at + "[0].treble_edge", '"' + first_treble + '"'},
                             {at + "[1].x", "\"200 mm\""},
                             {at + "[1].bass_edge", "\"18 mm\""},
                             {at + "[1].treble_edge", "\"60 mm\""}};
    all.insert(all.begin(), more.begin(), more.end());
    return all;
}

/// A list of so many lengths, the places of frets on a scale or one millimetre apart.
std::string places(int frets, double scale) {
    std::string list;
    for (int n = 1; n <= frets; ++n) {
        list += (n > 1 ? ", \"" : "\"") + std::to_string(scale > 0 ? scale * (1 - std::exp2(-n / 12.0)) : n) + " mm\"";
    }
    return "[" + list + "]";
}
/// Frets told by their places along both edges, in place of the one scale.
std::vector<setting> placed(std::vector<setting> more) {
    std::vector<setting> all{{"board.scale.scale_length", ""},
                             {"board.scale.fan.bass_places", places(18, 590)},
                             {"board.scale.fan.treble_places", places(18, 575)},
                             {"board.scale.fan.nut_slant", "\"8 mm\""}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

/// A saddle for each string, in place of the one top of the file to begin with.
std::vector<setting> singly(std::vector<setting> more, int strings = 4) {
    std::vector<setting> all{{"saddle.height_bass", ""},
                             {"saddle.height_treble", ""},
                             {"saddle.radius", ""},
                             {"saddle.setback_bass", ""},
                             {"saddle.setback_treble", ""}};
    for (int i = 0; i < strings; ++i) {
        const std::string at = "saddle.single[" + std::to_string(i) + "].";
        all.push_back({at + "height", "\"14 mm\""});
        all.push_back({at + "setback", "\"2 mm\""});
    }
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

/// A tie block, besides what there is.
std::vector<setting> tied(std::vector<setting> more) {
    std::vector<setting> all{{"tie_block.distance", "\"12 mm\""},     {"tie_block.hole_height", "\"5 mm\""},
                             {"tie_block.hole_diameter", "\"2 mm\""}, {"tie_block.spread", "\"46 mm\""},
                             {"tie_block.top_thickness", "\"3 mm\""}, {"tie_block.saddle_exposed", "\"4 mm\""}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}
/// A string with a nut of its own, besides the others.
std::vector<setting> short_strings(const std::string& fret, std::vector<setting> more) {
    std::vector<setting> all{{"short_strings[0].fret", fret}, {"short_strings[0].across", "\"-12 mm\""}};
    all.insert(all.end(), more.begin(), more.end());
    return all;
}
/// A bar behind the saddle.
std::vector<setting> barred(const std::string& distance) {
    return {{"pressing_bar.distance", '"' + distance + '"'}, {"pressing_bar.height", "\"4 mm\""}};
}

const std::vector<rule_case>& board_cases() {
    static const std::vector<rule_case> cases{
        {pinned,
         {{"board.surface.radius", "\"10 mm\""}},
         "board.surface.radius",
         "at least half the width of the board at the nut"},
        {pinned,
         {{"board.surface.radius", "\"400 mm\""},
          {"board.surface.radius_at_end", "\"100 mm\""},
          {"board.surface.cone_length", "\"200 mm\""}},
         "board.surface",
         "must have a radius above 0 at the end"},
        {pinned,
         {{"board.surface.radius", ""}, {"board.surface.radius_at_end", "\"8 in\""}},
         "board.surface.radius",
         "must be given too where a radius at the end is"},
        {pinned, {{"board.surface.radius_at_end", "\"20 in\""}}, "board.surface.cone_length", "both or neither"},
        {pinned, {{"board.surface.cone_length", "\"400 mm\""}}, "board.surface.radius_at_end", "both or neither"},
        {floating,
         {{"board.surface.radius", "\"30 mm\""}},
         "board.thickness",
         "more than the arc falls at the edge at the nut"},
        {floating,
         {{"board.thickness_at_end", "\"0.5 mm\""}},
         "board.thickness_at_end",
         "more than the arc falls at the edge at the end"},
        {floating,
         {{"board.thickness_off_line",
           "[{ x = \"0 mm\", z = \"0 mm\" }, { x = \"100 mm\", z = \"-5.5 mm\" }, { x = \"200 mm\", z = \"0 mm\" }]"}},
         "board.thickness_off_line[1].z",
         "must leave the board thicker than the arc falls at its edge there"},
        {floating,
         {{"board.thickness_off_line", "[{ x = \"100 mm\", z = \"0 mm\" }, { x = \"50 mm\", z = \"0 mm\" }]"}},
         "board.thickness_off_line[1].x",
         "further from the nut than the mark before it"},
        {pinned, {{"board.board_length", "\"298 mm\""}}, "board.board_length", "reach the last fret"},
        {pinned,
         {{"board.scale.measured_places", "[\"32 mm\"]"}},
         "board.scale.measured_places",
         "one for each of the 20 frets, but there are 1"},
        {starting,
         {{"board.scale.frets", "2"}, {"board.scale.measured_places", "[\"32 mm\", \"31 mm\"]"}},
         "board.scale.measured_places[1]",
         "further from the nut than the place of the fret before it"},
        {starting,
         {{"board.scale.frets", "2"}, {"board.scale.measured_places", "[\"32 mm\", \"632 mm\"]"}},
         "board.scale.measured_places[1]",
         "less than the scale length"},
        {starting,
         {{"board.scale.frets", "60"},
          {"board.board_length", "\"570 mm\""},
          {"saddle.setback_bass", "\"-50 mm\""},
          {"saddle.setback_treble", "\"-50 mm\""}},
         "board.scale.frets",
         "must end before the saddle"},
        {starting, {{"frets.zero_crown", "\"0.9 mm\""}}, "frets.zero_crown", "left out: the board has no zero fret"},
        {starting, {{"planned.frets.wear", "[\"0.1 mm\"]"}}, "planned.frets.wear", "planned.levelling say what becomes"},
        {starting, fanned({{"board.scale.divisor", "18.0"}}), "board.scale.divisor", "left out on a board of two scales"},
        {starting, fanned({{"board.scale.measured_places", "[\"32 mm\"]"}}), "board.scale.measured_places",
         "left out on a board of two scales"},
        {starting, fanned({{"board.scale.fan.square_fret", "19.0"}}), "board.scale.fan.square_fret",
         "must be on the board: 0, the nut, to 18, the last fret"},
        {starting, fanned({{"board.scale.scale_length", "\"580 mm\""}}), "board.scale.scale_length",
         "must be left out beside"},
        {starting, fanned({{"board.scale.fan.nut_slant", "\"3 mm\""}}), "board.scale.fan.nut_slant",
         "left out where two scales tell how the nut lies"},
        {starting, placed({{"board.scale.fan.nut_slant", ""}}), "board.scale.fan.nut_slant",
         "must be given where frets are told by their places"},
        {starting, placed({{"board.scale.fan.bass_places", places(17, 590)}}), "board.scale.fan.bass_places",
         "as many as along the other edge, 18, but there are 17"},
        {starting, placed({{"board.scale.fan.treble_places", places(16, 575)}}), "board.scale.fan.treble_places",
         "as many as along the other edge, 18, but there are 16"},
        {starting, placed({{"board.scale.fan.treble_places", "[\"40 mm\", \"30 mm\"]"}}),
         "board.scale.fan.treble_places[1]", "two frets would cross on the board"},
        {starting, placed({{"board.scale.frets", "11"}, {"neck.joint_fret", "11"}}), "board.scale.frets",
         "must reach the octave, fret 12"},
        {starting, placed({{"board.scale.frets", "17"}}), "board.scale.fan.bass_places",
         "one for each of the 17 frets, but there are 18"},
        {starting, placed({{"saddle.spacing.spread", "\"120 mm\""}}), "board.scale.fan", "beside the end of fret"},
        {starting,
         placed({{"board.scale.fan.nut_slant", "\"200 mm\""},
                 {"board.scale.fan.bass_places", places(18, 0)},
                 {"board.scale.fan.treble_places", places(18, 0)}}),
         "board.scale.fan.nut_slant", "must leave the nut before the octave's fret"},
        {starting,
         fanned({{"nut.spacing.courses", "[4]"},
                 {"nut.spacing.course_gap", "\"8 mm\""},
                 {"saddle.spacing.courses", "[4]"},
                 {"saddle.spacing.course_gap", "\"8 mm\""}}),
         "board.scale.fan", "left out where there are not two courses"},
        {starting, fanned({{"board.scale.fan.treble_scale", "\"10 mm\""}, {"saddle.spacing.spread", "\"66 mm\""}}),
         "board.scale.fan", "longer than their strings run sideways"},
        {starting, fanned({{"board.scale.fan.treble_scale", "\"60 mm\""}, {"board.scale.fan.square_fret", "0.0"}}),
         "board.scale.fan", "frets do not cross on the board"},
        {starting,
         fanned({{"board.scale.fan.treble_scale", "\"480 mm\""},
                 {"board.scale.fan.square_fret", "18.0"},
                 {"neck.joint_fret", "1"}}),
         "board.scale.fan", "leave the whole nut before the joint"},
        {floating,
         {{"board.scale.scale_length", ""},
          {"board.scale.fan.bass_scale", "\"560 mm\""},
          {"board.scale.fan.treble_scale", "\"524 mm\""},
          {"board.scale.fan.square_fret", "0.0"},
          {"tailpiece.reach", "\"150 mm\""}},
         "tailpiece.reach",
         "must be less: some string's saddle would lie beyond the tailpiece"},
        {starting, fanned({{"board.board_length", "\"300 mm\""}}), "board.board_length", "must reach the last fret"},
        {starting,
         fanned({{"headstock.face_start", "\"0 mm\""}, {"posts[1].along", "\"1 mm\""}, {"posts[1].height", "\"0 mm\""}}),
         "posts[1].along", "beside the slanted nut"},
        {floating,
         {{"board.scale.scale_length", ""},
          {"board.scale.fan.bass_scale", "\"540 mm\""},
          {"board.scale.fan.treble_scale", "\"524 mm\""},
          {"board.scale.fan.square_fret", "0.0"},
          {"pressing_bar.distance", "\"20 mm\""},
          {"pressing_bar.height", "\"4 mm\""}},
         "pressing_bar",
         "must be left out on fanned frets"},
        {pinned, {{"frets.wear", "[\"0.1 mm\", \"1.2 mm\"]"}}, "frets.wear[1]", "less than the height of the crown"},
        {pinned,
         {{"frets.wear", ""}, {"frets.wear_bass", "[\"1.2 mm\"]"}, {"frets.wear_treble", "[\"0.1 mm\"]"}},
         "frets.wear_bass[0]",
         "less than the height of the crown"},
        {pinned,
         {{"frets.wear", ""}, {"frets.wear_bass", "[\"0.1 mm\"]"}, {"frets.wear_treble", "[\"1.2 mm\"]"}},
         "frets.wear_treble[0]",
         "less than the height of the crown"},
        {pinned, {{"frets.wear", ""}, {"frets.wear_bass", "[\"0.1 mm\"]"}}, "frets.wear_treble", "must be given, too"},
        {pinned, {{"frets.wear", ""}, {"frets.wear_treble", "[\"0.1 mm\"]"}}, "frets.wear_bass", "must be given, too"},
        {pinned,
         {{"frets.wear", "[\"0.1 mm\"]"}, {"frets.wear_bass", "[\"0.1 mm\"]"}, {"frets.wear_treble", "[\"0.1 mm\"]"}},
         "frets.wear",
         "left out where wear_bass and wear_treble tell the frets at their ends"},
        {pinned,
         {{"frets.wire.tang_thickness", "\"2.5 mm\""}},
         "frets.wire.tang_thickness",
         "less than the width of the crown"},
        {pinned, {{"frets.wire.stud_width", "\"0.4 mm\""}}, "frets.wire.stud_width", "at least the thickness of the tang"},
    };
    return cases;
}

const std::string one_mark = "[{ x = \"0 mm\", z = \"0.1 mm\" }]";
const std::vector<rule_case>& neck_cases() {
    static const std::vector<rule_case> cases{
        {pinned, {{"neck.joint_fret", "21"}}, "neck.joint_fret", "one of the board's 20 frets"},
        {pinned, {{"neck.depth_at_nut", "\"5 mm\""}}, "neck.depth_at_nut", "more than the thickness of the board there"},
        {pinned,
         {{"neck.depth_at_joint", "\"5 mm\""}},
         "neck.depth_at_joint",
         "more than the thickness of the board there"},
        {floating, {{"neck.rod_pull", "\"5 N\""}}, "neck.rod_pull", "0 where there is no rod"},
        {pinned, {{"neck.rod_pull", ""}}, "neck.rod_pull", "must be given where there is a rod"},
        {pinned, {{"neck.rod_pull", "\"-5 N\""}}, "neck.rod_pull", "at least 0 N: a single rod only pulls"},
        {pinned, {{"neck.rod.x_from", "\"401 mm\""}}, "neck.rod.x_to", "further from the nut than x_from"},
        {pinned, {{"neck.rod.z_ends", "\"-45 mm\""}}, "neck.rod.z_ends", "must keep the whole rod inside the neck"},
        {floating,
         {{"neck.set", "[{ x = \"40 mm\", z = \"0 mm\" }, { x = \"40 mm\", z = \"-0.1 mm\" }]"}},
         "neck.set[1].x",
         "further from the nut than the mark before it"},
        {pinned, {{"neck.set_bass", one_mark}}, "neck.set_treble", "must be given, too"},
        {pinned, {{"neck.set_treble", one_mark}}, "neck.set_bass", "must be given, too"},
        {floating,
         {{"neck.set_bass", one_mark}, {"neck.set_treble", one_mark}},
         "neck.set",
         "left out where set_bass and set_treble tell the slack board along its edges"},
    };
    return cases;
}

/// The airs of a year, by their humidity.
std::vector<setting> a_year(const std::string& measured_in, const std::string& dry, const std::string& damp) {
    std::vector<setting> all;
    for (const auto& [air, humidity] :
         {std::pair{"measured_in", measured_in}, std::pair{"dry", dry}, std::pair{"damp", damp}}) {
        all.push_back({std::string("season.") + air + ".celsius", "21"});
        all.push_back({std::string("season.") + air + ".humidity", humidity});
    }
    return all;
}
/// A visit in another air, besides these settings.
std::vector<setting> visited(const std::string& temperature, const std::string& humidity, std::vector<setting> more) {
    more.push_back({"states[0].name", "\"in winter\""});
    more.push_back({"states[0].air", "{ celsius = " + temperature + ", humidity = " + humidity + " }"});
    return more;
}
const std::vector<rule_case>& season_cases() {
    static const std::vector<rule_case> cases{
        {pinned, a_year("45", "65", "30"), "season.dry.humidity", "must leave the wood drier than damp does"},
        {pinned, a_year("45", "2", "65"), "season.dry.humidity", "must leave 4 to 20 % of moisture in the wood"},
        {pinned, a_year("45", "30", "98"), "season.damp.humidity", "must leave 4 to 20 % of moisture in the wood"},
        {pinned, visited("21", "60", {}), "states[0].air", "must be left out, or season.measured_in"},
        {pinned, visited("21", "97", a_year("45", "30", "65")), "states[0].air",
         "must leave 4 to 20 % of moisture in the wood"},
        {pinned, visited("21", "20", a_year("84", "30", "85")), "states[0].air", "must leave the wood within 10 %"},
    };
    return cases;
}

/// A neck with a bar of these keys besides its ends and its place.
std::vector<setting> with_bar(const std::string& keys, const std::string& more = "") {
    return {{"neck.inserts", "[{ x_from = \"20 mm\", x_to = \"260 mm\", top = \"-7 mm\", " + keys + " }" + more + "]"}};
}
/// A back traced here.
std::vector<setting> with_tracing(const std::string& points, const std::string& more = "") {
    return {{"neck.traced", "[{ x = \"100 mm\", profile = [" + points + "] }" + more + "]"}};
}
std::string point(const std::string& y, const std::string& depth) {
    return "{ y = \"" + y + "\", depth = \"" + depth + "\" }";
}
const std::vector<rule_case>& in_neck_cases() {
    const std::string bar = "width = \"4 mm\", height = \"6 mm\", modulus = \"120 GPa\"";
    const std::string round = "profile = \"round\", width = \"4 mm\", modulus = \"120 GPa\"";
    const std::string deep = point("0 mm", "15 mm"), bass = point("-16 mm", "2 mm"), treble = point("16 mm", "2 mm");
    const std::string three = bass + ", " + deep + ", " + treble;
    static const std::vector<rule_case> cases{
        {floating, with_bar(bar + " }, { x_from = \"30 mm\", x_to = \"30 mm\", top = \"-9 mm\", " + bar),
         "neck.inserts[1].x_to", "further from the nut than x_from"},
        {floating, with_bar("width = \"4 mm\", modulus = \"120 GPa\""), "neck.inserts[0].height", "more than 0 mm"},
        {floating, with_bar(bar + ", wall = \"2 mm\""), "neck.inserts[0].wall", "half the width and half the height"},
        {floating, with_bar(round + ", height = \"4 mm\""), "neck.inserts[0].height", "left out of a round one"},
        {floating, with_bar(round + ", wall = \"2 mm\""), "neck.inserts[0].wall", "less than half the diameter"},
        {floating, with_bar("width = \"6 mm\", height = \"9 mm\", wall = \"1 mm\", modulus = \"0 GPa\""),
         "neck.inserts[0].wall", "0 mm for a void"},
        {floating, with_bar(bar, ", { x_from = \"50 mm\", x_to = \"70 mm\", top = \"-8 mm\", " + bar + " }"),
         "neck.inserts[1]", "must not overlap inserts[0]"},
        {floating, with_bar("y = \"30 mm\", " + bar), "neck.inserts[0]", "must not stick out of the neck's side"},
        {floating, with_bar("width = \"4 mm\", height = \"18 mm\", modulus = \"120 GPa\""), "neck.inserts[0]",
         "must not come out of the neck's back"},
        {floating, {{"neck.slots.depth", "\"5.8 mm\""}}, "neck.slots.depth", "less than the thickness of the board"},
        {floating,
         {{"neck.slots.depth", "\"3 mm\""},
          {"board.thickness_off_line",
           "[{ x = \"0 mm\", z = \"0 mm\" }, { x = \"100 mm\", z = \"-3 mm\" }, { x = \"200 mm\", z = \"0 mm\" }]"}},
         "neck.slots.depth",
         "less than the board's thickness"},
        {floating, with_tracing(bass + ", " + treble), "neck.traced[0].profile", "at least three points"},
        {floating, with_tracing(bass + ", " + treble + ", " + deep), "neck.traced[0].profile[2].y",
         "not lie on the bass side of the point before it"},
        {floating, with_tracing(deep + ", " + deep + ", " + deep), "neck.traced[0].profile", "must have a width"},
        {floating, with_tracing(point("-16 mm", "0 mm") + ", " + point("0 mm", "0 mm") + ", " + point("16 mm", "0 mm")),
         "neck.traced[0].profile", "at least 0.1 mm deep somewhere"},
        {floating, with_tracing(bass + ", " + deep + ", " + point("40 mm", "2 mm")), "neck.traced[0].profile",
         "not be wider than the board there"},
        {floating, with_tracing(three, ", { x = \"100 mm\", profile = [" + three + "] }"), "neck.traced[1].x",
         "further from the nut than the place before it"},
        {floating, with_tracing(three, ", { x = \"340 mm\", profile = [" + three + "] }"), "neck.traced[1].x",
         "between the nut and the joint"},
    };
    return cases;
}

const std::vector<rule_case>& end_cases() {
    static const std::vector<rule_case> cases{
        {floating,
         {{"nut.slot_heights", "[\"1.5 mm\", \"1.5 mm\"]"}},
         "nut.slot_heights",
         "one for all strings or one for each of the 10, but there are 2"},
        {floating,
         {{"board.scale.frets", "6"}, {"neck.joint_fret", "6"}},
         "frets.wear",
         "at most one for each of the 6 frets, but there are 7"},
        {floating, {{"nut.spacing.spread", "\"0 mm\""}}, "nut.spacing.spread", "must be more than 0 mm"},
        {floating,
         {{"nut.spacing.course_gap", "\"0 mm\""}},
         "nut.spacing.course_gap",
         "must be more than 0 mm where a course has more than one string"},
        {floating, {{"nut.spacing.courses", "[]"}}, "nut.spacing.courses", "at least one course"},
        {floating, {{"nut.spacing.offset", "\"40 mm\""}}, "nut.spacing", "must keep the strings over the board"},
        {pinned,
         {{"saddle.spacing.offset", "\"250 mm\""}, {"board.surface.radius", "\"150 mm\""}},
         "saddle.spacing",
         "must keep the strings over the arc of the board"},
        {floating, {{"saddle.spacing.courses", "[2, 2, 2]"}}, "saddle.spacing", "as many strings as the nut"},
        {starting, {{"posts[1].*", ""}}, "posts", "one for each of the 4 strings, but there are 3"},
        {starting,
         {{"posts[0].across", "\"16 mm\""},
          {"posts[1].across", "\"18 mm\""},
          {"posts[2].across", "\"-18 mm\""},
          {"posts[3].across", "\"-16 mm\""}},
         "posts",
         "must stand in the strings' order"},
        {pinned, {{"saddle.radius", "\"20 mm\""}}, "saddle.radius", "more than half the spread of the strings"},
        {pinned, {{"saddle.board_line", "\"13 mm\""}}, "saddle.board_line", "below the saddle"},
        {starting, {{"saddle.pieces", "[2, 2]"}}, "saddle.pieces", "left out where the strings have no single saddles"},
        {starting, singly({}, 3), "saddle.single", "one for each of the 4 strings, but there are 3"},
        {starting, singly({{"saddle.pieces", "[2, 1]"}}), "saddle.pieces", "carry 4 strings in all, but they carry 3"},
        {starting, singly({{"saddle.single[2].height", "\"2 mm\""}}), "saddle.single[2].height", "more than board_line"},
        {starting, singly({{"saddle.single[1].lowest", "\"13 mm\""}, {"saddle.single[1].highest", "\"12 mm\""}}),
         "saddle.single[1].lowest", "must not be more than highest"},
        {starting, singly({{"saddle.single[1].least_setback", "\"4 mm\""}, {"saddle.single[1].most_setback", "\"3 mm\""}}),
         "saddle.single[1].least_setback", "must not be more than most_setback"},
        {starting, singly({{"saddle.setback_bass", "\"2 mm\""}}), "saddle.setback_bass", "must be left out beside"},
        {pinned,
         {{"pins.*", ""}},
         "tailpiece",
         "must be given, or pins, or a tie_block, or body_bridge: the strings end on one of them"},
        {starting, tied({}), "tie_block", "must not be given together with pins"},
        {floating, tied({}), "tie_block", "must not be given together with a tailpiece"},
        {starting,
         tied({{"pins.*", ""},
               {"body_bridge.distance", "\"30 mm\""},
               {"body_bridge.height", "\"4 mm\""},
               {"body_bridge.spread", "\"55 mm\""}}),
         "body_bridge", "must not be given together with a tie_block: it holds the strings' ends"},
        {starting, barred("15 mm"), "pressing_bar", "must be left out where the bridge itself holds the strings' ends"},
        {floating, barred("250 mm"), "pressing_bar.distance", "must be less than to where the strings end"},
        {floating, barred("0.5 mm"), "pressing_bar.distance", "must be more than every saddle's setback"},
        {floating,
         {{"tailpiece.pressed_height", "\"140 mm\""}},
         "tailpiece.pressed_height",
         "must be within the tailpiece's reach of hinge_height"},
        {starting, short_strings("9", {}), "saddle.spacing", "must have as many strings as the nut and short_strings"},
        {starting, short_strings("5", {{"nut.spacing.courses", "[1, 1, 1]"}, {"strings[3].*", ""}}), "strings",
         "must be 4, as the nut and short_strings have, but there are 3"},
        {starting, short_strings("12", {{"nut.spacing.courses", "[1, 1, 1]"}}), "short_strings[0].fret",
         "must be before the joint and before the last fret"},
        {starting, short_strings("5", {{"nut.spacing.courses", "[1, 1, 1]"}, {"posts[0].roller", "\"9 mm\""}}), "posts[0]",
         "must be without guide and roller: it is the peg of a short string"},
        {starting, short_strings("5", fanned({{"nut.spacing.courses", "[1, 1, 1]"}})), "short_strings",
         "must be left out on fanned frets"},
        {starting, short_strings("5", {{"nut.spacing.courses", "[1, 1, 1]"}, {"wanted.first_fret_bass", "\"0.5 mm\""}}),
         "wanted.first_fret_bass", "must be left out where a string has a nut of its own"},
        {starting,
         short_strings(
             "5", {{"nut.spacing.courses", "[1, 1, 1]"}, {"wanted.action_bass", "\"2 mm\""}, {"wanted.action_fret", "4"}}),
         "wanted.action_fret", "must be beyond the nuts of short strings"},
        {starting, {{"posts[1].height", "\"-4 mm\""}}, "posts[1].height", "must be at least 0 mm without a roller"},
        {starting,
         {{"posts[1].guide", "{ along = \"95 mm\", height = \"4 mm\" }"}},
         "posts[1].guide.along",
         "must be less than the post's"},
        {starting,
         {{"headstock.pitch", "\"-29 deg\""},
          {"headstock.face_start", "\"0 mm\""},
          {"posts[1].guide", "{ along = \"1 mm\", height = \"20 mm\" }"}},
         "posts[1].guide.along",
         "must be more: the guide would stand before the nut"},
        {starting,
         {{"posts[1].along", "\"10 mm\""}, {"posts[1].roller", "\"40 mm\""}},
         "posts[1].roller",
         "must be less: it would reach the nut"},
        {starting,
         {{"headstock.slot_start", "\"58 mm\""}, {"posts[0].roller", "\"10 mm\""}},
         "headstock.slot_start",
         "must be less: every roller lies in its slot"},
        {starting,
         {{"saddle.slot_offsets", "[\"0 mm\", \"0 mm\"]"}},
         "saddle.slot_offsets",
         "must be one for each of the 4 strings, but there are 2"},
        {starting,
         {{"saddle.slot_offsets", "[\"1 mm\", \"0 mm\", \"0 mm\", \"0 mm\"]"}},
         "saddle.slot_offsets[0]",
         "must be 0 mm: the heights are told under the outermost strings"},
        {starting,
         {{"saddle.slot_offsets", "[\"0 mm\", \"-5 mm\", \"0 mm\", \"0 mm\"]"}, {"saddle.board_line", "\"10 mm\""}},
         "saddle.slot_offsets[1]",
         "must leave the string over the board's line"},
        {pinned,
         {{"body_bridge.distance", "\"30 mm\""}, {"body_bridge.height", "\"4 mm\""}, {"body_bridge.spread", "\"55 mm\""}},
         "body_bridge",
         "must not be given together with pins: it holds the strings' ends"},
        {floating,
         {{"body_bridge.distance", "\"30 mm\""}, {"body_bridge.height", "\"4 mm\""}, {"body_bridge.spread", "\"55 mm\""}},
         "body_bridge",
         "must not be given together with a tailpiece: it holds the strings' ends"},
        {floating,
         {{"body_bridge.distance", "\"30 mm\""}, {"body_bridge.height", "\"4 mm\""}, {"body_bridge.spread", "\"55 mm\""}},
         "feet",
         "must be left out with a body_bridge"},
        {pinned,
         {{"body_bridge.distance", "\"30 mm\""}, {"body_bridge.height", "\"4 mm\""}, {"body_bridge.spread", "\"55 mm\""}},
         "soundboard",
         "must be left out with a body_bridge"},
        {floating,
         {{"pins.distance", "\"20 mm\""},
          {"pins.height", "\"5 mm\""},
          {"pins.spread", "\"46 mm\""},
          {"pins.top_thickness", "\"3 mm\""},
          {"pins.saddle_exposed", "\"4 mm\""}},
         "tailpiece",
         "must not be given together with pins"},
        // A slip of the point: 2.1 mm for 21 mm puts the hole before the saddle.
        {pinned, {{"pins.distance", "\"2.1 mm\""}}, "pins.distance", "must be more than every saddle's setback"},
        {pinned,
         {{"pins.*", ""},
          {"tie_block.distance", "\"1.4 mm\""},
          {"tie_block.hole_height", "\"5 mm\""},
          {"tie_block.hole_diameter", "\"1.8 mm\""},
          {"tie_block.spread", "\"55 mm\""},
          {"tie_block.top_thickness", "\"3 mm\""},
          {"tie_block.saddle_exposed", "\"4 mm\""}},
         "tie_block.distance",
         "must be more than every saddle's setback"},
        {pinned,
         {{"pins.*", ""},
          {"soundboard.*", ""},
          {"body_bridge.distance", "\"5 mm\""},
          {"body_bridge.height", "\"4 mm\""},
          {"body_bridge.spread", "\"55 mm\""}},
         "body_bridge.distance",
         "must be more than every saddle's setback"},
        {floating, {{"tailpiece.reach", "\"192 mm\""}}, "tailpiece.reach", "less than hinge_distance"},
        {floating, {{"feet.behind", "\"-8 mm\""}}, "feet.behind", "some length along the strings"},
        {floating, {{"feet.treble_foot", "\"-44 mm\""}}, "feet.treble_foot", "treble side of the bass foot"},
        {floating,
         {{"feet.friction.least", "0.6"}, {"feet.friction.most", "0.5"}},
         "feet.friction.most",
         "at least as large as the least"},
        {pinned,
         {{"soundboard.turn_stiffness", ""}},
         "soundboard.turn_stiffness",
         "must be given: the strings turn a bridge"},
        {pinned, {{"soundboard.saddle_height", ""}}, "soundboard.saddle_height", "must be given where the bridge turns"},
        {pinned, {{"soundboard.saddle_ahead", ""}}, "soundboard.saddle_ahead", "must be given where the bridge turns"},
        {pinned,
         {{"playing.finger.behind", "\"0 mm\""}},
         "playing.finger.behind",
         "more than 0 mm where the finger presses deeper"},
    };
    return cases;
}

const std::vector<rule_case>& string_cases() {
    static const std::vector<rule_case> cases{
        {pinned, {{"strings[2].note", "\"H2\""}}, "strings[2].note", "is \"H2\"; it must be"},
        {pinned, {{"strings[2].material", "\"tin\""}}, "strings[2].material", "is \"tin\"; it must be one of"},
        {pinned, {{"strings[2].wrap", "\"tin\""}}, "strings[2].wrap", "is \"tin\"; it must be one of"},
        {pinned, {{"strings[2].core", ""}}, "strings[2].core", "a wound string needs both"},
        {pinned, {{"strings[2].wrap", ""}}, "strings[2].wrap", "a wound string needs both"},
        {pinned, {{"strings[2].core", "\"36 thou\""}}, "strings[2].core", "less than the string's gauge"},
        {pinned,
         {{"strings[2].core_flats", "\"16 thou\""}},
         "strings[2].core_flats",
         "must be left out beside core: a core is round"},
        {pinned,
         {{"strings[2].core", ""}, {"strings[2].core_flats", "\"32 thou\""}},
         "strings[2].core_flats",
         "must be less: over its corners"},
        {pinned,
         {{"strings[2].inner_wire", "\"10 thou\""}, {"strings[2].inner_wrap", "\"nylon\""}},
         "strings[2].core",
         "leave no room for the outer one"},
        {pinned,
         {{"strings[2].core", ""},
          {"strings[2].core_flats", "\"16 thou\""},
          {"strings[2].inner_wire", "\"10 thou\""},
          {"strings[2].inner_wrap", "\"nylon\""}},
         "strings[2].core_flats",
         "leave no room for the outer one"},
        {pinned, {{"strings[2].inner_wire", "\"2 thou\""}}, "strings[2].inner_wrap", "an inner wrap needs both"},
        {pinned, {{"strings[2].inner_wrap", "\"silk\""}}, "strings[2].inner_wire", "an inner wrap needs both"},
        {pinned, {{"strings[2].inner_wrap", "\"tin\""}}, "strings[2].inner_wrap", "is \"tin\"; it must be one of"},
        {pinned, {{"strings[5].inner_wrap", "\"silk\""}}, "strings[5].inner_wrap", "left out on a plain string"},
        {pinned, {{"strings[5].inner_wire", "\"2 thou\""}}, "strings[5].inner_wire", "left out on a plain string"},
        {pinned, {{"strings[5].ground", "\"1 thou\""}}, "strings[5].ground", "left out on a plain string"},
        {pinned, {{"strings[5].ribbon_width", "\"1 mm\""}}, "strings[5].ribbon_width", "left out on a plain string"},
        {pinned,
         {{"strings[2].ground", "\"1 thou\""}, {"strings[2].ribbon_width", "\"1 mm\""}},
         "strings[2].ground",
         "must be left out beside ribbon_width"},
        {pinned, {{"strings[2].ribbon_width", "\"8 mm\""}}, "strings[2].ribbon_width", "less than once around what it is"},
        {pinned, {{"strings[2].weight", "\"4 g\""}}, "strings[2].weight_length", "a weight is that of a measured length"},
        {pinned, {{"strings[2].weight_length", "\"1 m\""}}, "strings[2].weight", "a weight is that of a measured length"},
        {pinned,
         {{"strings[2].weight", "\"40 g\""}, {"strings[2].weight_length", "\"1000 mm\""}},
         "strings[2].weight",
         "see the weight, its unit and the length that was weighed"},
        {pinned, {{"strings[2].packet_pull", "\"100 N\""}}, "strings[2].packet_scale", "that at a speaking length"},
        {pinned, {{"strings[2].packet_scale", "\"648 mm\""}}, "strings[2].packet_pull", "that at a speaking length"},
        {pinned,
         {{"strings[2].packet_pull", "\"1000 N\""}, {"strings[2].packet_scale", "\"648 mm\""}},
         "strings[2].packet_pull",
         "see the tension, its unit, the scale and the note"},
        {pinned,
         {{"strings[2].packet_pull", "\"110 N\""},
          {"strings[2].packet_scale", "\"648 mm\""},
          {"strings[2].weight", "\"4 g\""},
          {"strings[2].weight_length", "\"1000 mm\""}},
         "strings[2].packet_pull",
         "must be left out beside weight"},
        {pinned,
         {{"strings[2].packet_note", "\"H2\""},
          {"strings[2].packet_pull", "\"110 N\""},
          {"strings[2].packet_scale", "\"648 mm\""}},
         "strings[2].packet_note",
         "is \"H2\"; it must be"},
        {pinned, {{"strings[2].packet_note", "\"A2\""}}, "strings[2].packet_note", "left out without packet_pull"},
        {floating,
         {{"planned.strings[].*", ""}, {"planned.strings[0].gauge", "\"10 thou\""}},
         "planned.strings",
         "expected the whole set, or the number of each string that is new"},
        {floating,
         {{"planned.strings[].*", ""}, {"planned.strings[0].number", "9"}, {"planned.strings[0].gauge", "\"10 thou\""}},
         "planned.strings",
         "expected that of a string: there are"},
        {pinned, {{"centre_line.end_pin", "\"900 mm\""}}, "centre_line.readings", "must hold at least two places"},
        {pinned, edges("0 mm", "58 mm", {{"centre_line.end_pin_at", "\"40 mm\""}}), "centre_line.end_pin",
         "where end_pin_at is"},
        {pinned, edges("160 mm", "58 mm", {}), "centre_line.readings", "must lie 50 mm or more apart"},
        {pinned, edges("300 mm", "58 mm", {}), "centre_line.readings[1].x", "further from the nut than the place before"},
        {pinned, edges("0 mm", "10 mm", {}), "centre_line.readings[0].treble_edge", "the treble side of the bass edge"},
        {pinned, {{"planned.pieces.overhang", "\"2 mm\""}}, "planned.pieces", "must come with planned.wire"},
        {starting, fanned({{"planned.dots.singles", "[3, 5]"}}), "planned.dots", "must be left out on fanned frets"},
        {pinned,
         {{"planned.dots.without", "[3, 21]"}},
         "planned.dots.without[1]",
         "must be one of the board's frets, 1 to the last"},
        {pinned,
         {{"planned.dots.at", "[{ fret = 21 }]"}},
         "planned.dots.at[0].fret",
         "must be one of the board's frets, 1 to the last"},
        {pinned,
         {{"planned.dots.at", "[{ fret = 3 }, { fret = 3, dots = 2 }]"}},
         "planned.dots.at[1].fret",
         "must be a fret that is not listed yet"},
        {pinned,
         {{"planned.dots.at", "[{ fret = 3 }]"}, {"planned.dots.without", "[3]"}},
         "planned.dots.at[0].fret",
         "must not be among those without dots"},
        {pinned, {{"strings[2].number", "5"}}, "strings[2].number", "must be 4: the list stands bass first"},
        {floating, {{"strings[9].*", ""}}, "strings", "must be 10, as the nut has, but there are 9"},
        {floating, {{"strings[].*", ""}}, "strings", "must hold at least one string"},
        {pinned, {{"strings[].*", ""}}, "strings", "must hold at least one string"},
        {starting,
         {{"strings[0].note", "\"A5\""},
          {"strings[1].note", "\"D5\""},
          {"strings[2].note", "\"G4\""},
          {"strings[3].note", "\"C4\""}},
         "strings",
         "must stand bass first"},
        {pinned,
         {{"planned.strings[0].note", "\"C4\""},
          {"planned.strings[1].note", "\"B3\""},
          {"planned.strings[2].note", "\"A3\""},
          {"planned.strings[3].note", "\"G3\""},
          {"planned.strings[4].note", "\"F3\""},
          {"planned.strings[5].note", "\"E3\""}},
         "planned.strings",
         "must stand bass first"},
        {pinned,
         {{"planned.strings[2].number", "5"}},
         "planned.strings[2].number",
         "must be 4: the list stands bass first"},
        {floating,
         {{"correlated[0].first", "\"saddle.height_b\""}},
         "correlated[0].first",
         "expected the key of a measurement"},
        {floating, {{"correlated[0].second", "\"saddle.height_bass\""}}, "correlated[0]", "two different keys"},
    };
    return cases;
}

const std::vector<rule_case>& plan_cases() {
    static const std::vector<rule_case> cases{
        {floating, fretted({{"planned.wire.tang_depth", ""}}), "planned.wire.tang_depth",
         "must be given: the slots are to hold the tang"},
        {floating, fretted({{"planned.wire.tang_thickness", ""}}), "planned.wire.tang_thickness",
         "must be given: the slots are to hold the tang"},
        {floating, fretted({{"planned.levelling.held", "\"slack\""}}), "planned.levelling",
         "left out where new frets go in"},
        {floating, sanded({{"frets.wire.tang_depth", ""}}), "planned.sanding", "must come with planned.wire"},
        {pinned, {{"planned.levelling.held", ""}}, "planned.levelling.held", "is missing; expected \"slack\""},
        {pinned,
         {{"planned.levelling.held", "\"as it will be\""}},
         "planned.levelling.held",
         "but wanted.relief is 0.15 mm"},
        {floating, sanded({{"planned.sanding.held", "\"as it will be\""}, {"wanted.relief", "\"0.2 mm\""}}),
         "planned.sanding.held", "but wanted.relief is 0.2 mm"},
        {floating, {{"wanted.highest_saddle", "\"18 mm\""}}, "wanted.lowest_saddle", "less than highest_saddle"},
        {floating, {{"wanted.hinge_lowest", "\"20 mm\""}}, "wanted.hinge_lowest", "less than hinge_highest"},
        {floating,
         {{"wanted.adjusters.bass", "\"28 mm\""},
          {"wanted.adjusters.treble", "\"-28 mm\""},
          {"wanted.adjusters.thread_pitch", "\"0.7 mm\""}},
         "wanted.adjusters.treble",
         "treble side of the bass adjuster"},
        {floating,
         {{"wanted.reset.least_turn", "\"1 deg\""}, {"wanted.reset.most_turn", "\"0 deg\""}},
         "wanted.reset.least_turn",
         "not be more than most_turn"},
    };
    return cases;
}

/// What only the whole instrument shows, as found, worked and planned.
const std::vector<rule_case>& whole_cases() {
    static const std::vector<rule_case> cases{
        // As found.
        {floating,
         {{"nut.spacing.course_gap", "\"7 mm\""}},
         "nut.spacing.spread",
         "is 33 mm; it must leave room between the courses"},
        {floating,
         {{"saddle.spacing.course_gap", "\"12 mm\""}},
         "saddle.spacing.spread",
         "is 58 mm; it must leave room between the courses"},
        {starting,
         {{"neck.back_modulus", "\"10 MPa\""}, {"neck.board_modulus", "\"10 MPa\""}},
         "neck",
         "must bear the pull of the strings and the rod"},
        {starting,
         {{"neck.depth_at_nut", "\"5.05 mm\""}},
         "neck.depth_at_nut",
         "at the nut the back's depth under the board is 0.05 mm, which must be at least 0.1 mm"},
        {starting,
         {{"neck.depth_at_joint", "\"5.05 mm\""}},
         "neck.depth_at_joint",
         "at the joint the back's depth under the board is 0.05 mm"},
        {starting,
         {{"board.surface.radius", "\"18.5 mm\""},
          {"board.width_at_end", "\"36 mm\""},
          {"saddle.spacing.spread", "\"30 mm\""},
          {"board.thickness", "\"20 mm\""},
          {"neck.depth_at_nut", "\"40 mm\""},
          {"neck.depth_at_joint", "\"40 mm\""}},
         "board.surface.radius",
         "at the nut the board's arc must have a radius of more than half the board's width"},
        {starting,
         {{"board.scale.scale_length", "\"20 mm\""}, {"board.board_length", "\"19 mm\""}},
         "strings[0]",
         "this is a bar, not a string"},
        {pinned, {{"soundboard.sink_stiffness", "\"0.5 N/mm\""}}, "soundboard.sink_stiffness", "must be more"},
        {floating,
         {{"correlated[0].coefficient", "-1.0"},
          {"correlated[1].first", "\"saddle.height_bass\""},
          {"correlated[1].second", "\"saddle.board_line\""},
          {"correlated[1].coefficient", "-1.0"},
          {"correlated[2].first", "\"saddle.height_treble\""},
          {"correlated[2].second", "\"saddle.board_line\""},
          {"correlated[2].coefficient", "-1.0"}},
         "correlated",
         "must be such that all can hold at once"},
        {floating,
         {{"correlated[1].first", "\"saddle.height_treble\""}, {"correlated[1].second", "\"saddle.height_bass\""}},
         "correlated[1]",
         "must name two different keys, each pair once"},
        // Work.
        {pinned,
         {{"board.scale.frets", "0"}, {"frets.wear", "[]"}},
         "planned.levelling",
         "left out where fewer than three frets"},
        {floating, sanded({{"details.slot.depth", "\"30 mm\""}}), "details.slot.depth",
         "less than the thickness of the board"},
        {floating, sanded({{"details.binding_height", "\"8 mm\""}}), "details.binding_height",
         "at most the thickness of the board"},
        {floating, sanded({{"details.binding_thickness", "\"25 mm\""}}), "details.binding_thickness",
         "less than half the width of the board"},
        {floating, sanded({{"planned.sanding.radius", "\"10 mm\""}}), "planned.sanding.radius",
         "must leave a board: its surface.radius must be at least half the width"},
        {floating, sanded({{"planned.sanding.allowance", "\"9 mm\""}}), "planned.sanding", "must leave some board"},
        {floating,
         sanded(
             {{"neck.set",
               "[{ x = \"0 mm\", z = \"0 mm\" }, { x = \"131 mm\", z = \"-4 mm\" }, { x = \"262 mm\", z = \"0 mm\" }]"}}),
         "planned.sanding", "left out where the neck's set is more than 3 mm, as neck.set[1].z is"},
        {floating, sanded({{"headstock.face_drop", "\"-49.99 mm\""}}), "headstock.face_drop",
         "as the work leaves it; it must be at least -50 mm"},
        {pinned, {{"neck.rod_pull", "\"100000 N\""}}, "planned.levelling", "left out on a neck that bends so far"},
        // Planned by value.
        {floating,
         {{"planned.neck.depth_at_nut", "\"5 mm\""}},
         "planned.neck.depth_at_nut",
         "more than the thickness of the board there"},
        {floating, {{"planned.neck.joint_fret", "61"}}, "planned.neck.joint_fret", "one of the board's 19 frets"},
        {pinned, {{"planned.neck.rod.z_ends", "\"-45 mm\""}}, "planned.neck.rod.z_ends", "inside the neck"},
        {floating,
         {{"planned.nut.spacing.course_gap", "\"7 mm\""}},
         "planned.nut.spacing.spread",
         "room between the courses"},
        {floating, {{"planned.saddle.spacing.courses", "[2, 2]"}}, "planned.saddle.spacing", "as many strings as the nut"},
        {starting,
         {{"planned.soundboard.sink_stiffness", "\"0.5 N/mm\""},
          {"planned.soundboard.turn_stiffness", "\"460 N m/rad\""},
          {"planned.soundboard.saddle_ahead", "\"3 mm\""},
          {"planned.soundboard.saddle_height", "\"12 mm\""}},
         "planned.soundboard.sink_stiffness",
         "must be more"},
        {starting,
         {{"planned.soundboard.sink_stiffness", "\"200 N/mm\""}},
         "planned.soundboard.turn_stiffness",
         "must be given"},
        // Wishes.
        {pinned, {{"wanted.down_force", "\"100 N\""}}, "wanted.down_force", "left out where no tailpiece hangs"},
        {floating,
         {{"wanted.down_force", "\"100 N\""}, {"tailpiece.pressed_height", "\"4 mm\""}},
         "wanted.down_force",
         "must be left out where something presses the strings down behind the saddle"},
        {floating, {{"wanted.saddle_break", "\"20 deg\""}}, "wanted.saddle_break", "left out where there are no pins"},
        {floating, {{"wanted.action_fret", "20"}}, "wanted.action_fret", "one of the board's 19 frets"},
        {starting,
         {{"board.scale.frets", "0"}, {"wanted.first_fret_bass", "\"0.5 mm\""}},
         "wanted.first_fret_bass",
         "left out on a board without frets"},
        {starting,
         {{"board.scale.frets", "0"}, {"wanted.first_fret_treble", "\"0.5 mm\""}},
         "wanted.first_fret_treble",
         "left out on a board without frets"},
        {starting,
         {{"board.scale.frets", "1"}, {"neck.joint_fret", "1"}, {"wanted.action_bass", "\"2 mm\""}},
         "wanted.action_bass",
         "left out on a board with fewer than two frets"},
        {starting,
         {{"board.scale.frets", "1"}, {"neck.joint_fret", "1"}, {"wanted.action_treble", "\"2 mm\""}},
         "wanted.action_treble",
         "left out on a board with fewer than two frets"},
        {starting,
         {{"board.scale.frets", "1"}, {"neck.joint_fret", "1"}, {"wanted.reset.leave", "\"1 mm\""}},
         "wanted.reset",
         "left out on a board with fewer than two frets"},
        {floating,
         {{"planned.saddle.height_bass", "\"200 mm\""},
          {"wanted.adjusters.bass", "\"-28 mm\""},
          {"wanted.adjusters.treble", "\"28 mm\""},
          {"wanted.adjusters.thread_pitch", "\"0.7 mm\""}},
         "wanted.adjusters",
         "no adjuster moves a saddle by more than 50 mm"},
        {pinned,
         {{"wanted.lowest_saddle", ""},
          {"wanted.action_bass", "\"0.01 mm\""},
          {"wanted.action_treble", "\"0.01 mm\""},
          {"saddle.height_bass", "\"2 mm\""},
          {"saddle.height_treble", "\"2 mm\""},
          {"saddle.board_line", "\"-3 mm\""}},
         "saddle.height",
         "as the plan leaves it; it must be at least 0.1 mm"},
    };
    return cases;
}

const std::vector<rule_case>& reading_cases() {
    const std::string few = "[{ note = \"E2\", gauge = \"40 thou\" }]", by_name = "\"a state\"";
    static const std::vector<rule_case> cases{
        {floating, {{"readings[0].of", "\"tallness\""}}, "readings[0].of", "must be one of: \"relief\""},
        {floating, {{"readings[0].when", "\"on Sunday\""}}, "readings[0].when", "must be one of: at pitch, slack"},
        {floating, {{"readings[0].after", "\"fit_frets\""}}, "readings[0].after", "must be a step of this job"},
        {floating, {{"readings[0].gauge", "\"ruler\""}}, "readings[0]", "a gauge that is described: feelers"},
        {floating, {{"gauges[1].name", "\"feelers\""}}, "gauges[1].name", "another than that of a gauge before it"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].weight", "\"2 kg\""}},
         "states[0].slack",
         "where a weight is hung"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].slack", "true"}, {"states[0].strings", few}},
         "states[0].strings",
         "left out where the strings are off"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].strings", few}},
         "states[0].strings",
         "must be 10, as the instrument"},
        {floating, {{"states[0].name", "\"slack\""}}, "states[0].name", "are there without being described"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].slack", "true"}, {"states[0].capo", "2"}},
         "states[0].capo",
         "left out where the strings are off"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].capo", "20"}},
         "states[0].capo",
         "one of the board's 19 frets"},
        {floating,
         {{"states[0].name", by_name}, {"states[1].name", by_name}},
         "states[1].name",
         "another than that of a state before it"},
        {floating,
         {{"states[0].name", by_name}, {"states[0].rod_turns", "0.5"}},
         "states[0].rod_turns",
         "the neck has no rod to turn"},
        {pinned,
         {{"states[0].name", by_name}, {"states[0].rod_turns", "0.5"}, {"states[0].rod", "\"loose\""}},
         "states[0].rod_turns",
         "must be 0 where the rod is loose"},
        {pinned,
         {{"wanted.rod_screw.*", ""}, {"states[0].name", by_name}, {"states[0].rod_turns", "0.5"}},
         "wanted.rod_screw",
         "must be given where a state has the rod turned"},
        {floating,
         {{"states[0].name", by_name},
          {"states[0].slack", "true"},
          {"states[0].weight", "\"2 kg\""},
          {"states[0].at_fret", "12"}},
         "states[0].at_fret",
         "before the joint"},
    };
    return cases;
}

std::vector<rule_case> all_cases() {
    std::vector<rule_case> all;
    for (const auto* list : {&board_cases(), &neck_cases(), &in_neck_cases(), &season_cases(), &end_cases(),
                             &string_cases(), &plan_cases(), &whole_cases(), &reading_cases()}) {
        all.insert(all.end(), list->begin(), list->end());
    }
    return all;
}

/// What the program says of a case, line by line, without the file's name.
std::vector<std::string> told(const rule_case& c) {
    const std::string file = program::scratch() + "/rule.toml", out = program::scratch() + "/never.txt";
    std::ofstream(file, std::ios::binary) << changed_job::with(text_of(c.from), c.settings);
    const auto r = program::run(file + " --out " + out);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK_FALSE(std::filesystem::exists(out));
    std::filesystem::remove(out); // other cases name it, too
    std::vector<std::string> lines;
    std::istringstream err(r.err);
    for (std::string line; std::getline(err, line);) {
        CHECK_MESSAGE(line.starts_with(file + ":"), line);
        lines.push_back(line.substr(std::min(file.size() + 1, line.size())));
    }
    return lines;
}
/// The key a sentence begins with: "strings[2].note" of `12: strings[2].note (4 A2) is "H2"; it must be ...`.
std::string key_of(const std::string& line) {
    std::string key = line.substr(std::min(line.find(' ') + 1, line.size()));
    if (key.starts_with("the key \"")) { key.erase(0, 9); }
    return key.substr(0, key.find_first_of(" \""));
}
/// Rules of the headers that no job file can break, by header and field (all of a header where none is named), and why.
struct out_of_reach {
    std::string header, field, why;
};
const std::vector<out_of_reach>& not_reached() {
    static const std::vector<out_of_reach> list{
        {"board/reradius.hpp", "arc ?", "sanding looks at the wanted arc first and tells it as planned.sanding"},
        {"board/reradius.hpp", "wire.tang_depth", "sanding without it is refused before: it must come with planned.wire"},
        {"board/reradius.hpp", "chosen_at_nut", "a job takes the least off; no key chooses more"},
        {"board/reradius.hpp", "action_fret", "a job takes one of the board's"},
        {"board/reradius.hpp", "paths", "a job names none"},
        {"board/reradius.hpp", "lines", "a job's lines are those of its own nut and frets"},
        {"board/string_path.hpp", "", "a job's frets are levelled along the scale, nut to saddle"},
        {"board/levelling.hpp", "", "a job's crests are those of its own frets, three at least, along a line"},
        {"board/fan.hpp", "", "the instrument tells first what its scales and its strings together cannot be"},
        {"board/found_scale.hpp", "", "no key holds such readings"},
        {"strings/pitch.hpp", "", "a job is tuned in twelve equal steps"},
        {"strings/string_parts.hpp", "", "an ordered string is told first what its wraps cannot be"},
        {"job/bench_job.hpp", "planned.strings", "the reader puts new strings where they stand in the set"},
        {"strings/wound_string.hpp", "", "an ordered string whose core is as wide as its gauge is refused before"},
        {"strings/music_string.hpp", "", "an ordered string is told first what its wraps cannot be"},
        {"neck/fret_slots.hpp", "", "a job's slots lie where its frets do"},
        {"neck/relief_case.hpp", "", "relief is asked for only where there are three frets, and they are in order"},
        {"setup/season.hpp", ".temperature", "a job's airs are held to -1.2 to 60 deg C by the ranges of their keys"},
        {"neck/string_load.hpp", "", "the last fret, at or beyond the nut, must end before the saddle"},
        {"neck/neck.hpp", "stations", "a job's neck has sections at nut and joint, and at marks in order between them"},
        {"neck/neck.hpp", "stations[0].x", "a job's neck begins at the nut"},
        {"neck/neck.hpp", "joint", "the joint is a job's last section"},
        {"neck/neck.hpp", "slots.tang_depth", "it is told by what it is made of, neck.slots.depth"},
        {"neck/neck_by_rigidity.hpp", "", "a job's neck is told by its sections"},
        {"neck/station.hpp", "board_arc", "it is told by what it is made of, board.surface.radius"},
        {"neck/station.hpp", "board_thickness", "the board's own rule is told first"},
        {"neck/station.hpp", "profile", "the tracing's own rule is told first"},
        {"neck/station.hpp", "back_depth", "it is told by what it is made of, neck.depth_at_nut"},
        {"work/bench_work.hpp", "held", "the reader says first that the key is missing"},
        {"action/neck_reset.hpp", "", "the joint is one of the frets, and all of them lie between nut and saddle"},
        {"action/height.hpp", "", "the last fret, at or beyond the nut, must end before the saddle"},
        {"supports/floating_bridge.hpp", "back_edge", "feet.behind is told first"},
        {"doubt/read_instrument.hpp", "season", "the job says first that the state's air must be left out"},
        {"doubt/read_instrument.hpp", "after_work", "the program numbers them itself"},
        {"supports/bridge.hpp", "",
         "solving makes them itself, and a string that nothing presses onto the saddle is a finding"},
    };
    return list;
}

void check(const std::vector<rule_case>& cases) {
    for (const rule_case& c : cases) {
        std::string what, all;
        for (const setting& s : c.settings) { what += s.path + " = " + s.value + "; "; }
        CAPTURE(what);
        bool found = false;
        for (const std::string& line : told(c)) {
            all += line + "\n";
            CHECK_MESSAGE(std::regex_search(line, std::regex("^[1-9][0-9]*: ")), line);
            CHECK_MESSAGE(is_read(key_of(line)), line);
            found = found || (key_of(line).starts_with(c.key) && has(line, c.words));
        }
        CHECK_MESSAGE(found, c.key, " ", c.words, " expected in\n", all);
    }
}

} // namespace

TEST_SUITE("rules of a job") {
    TEST_CASE("of board and frets") { check(board_cases()); }
    TEST_CASE("of the neck") { check(neck_cases()); }
    TEST_CASE("of what is in the neck") { check(in_neck_cases()); }
    TEST_CASE("of the season") { check(season_cases()); }
    TEST_CASE("of nut, posts, saddle, what holds the strings, and top") { check(end_cases()); }
    TEST_CASE("of strings and readings") { check(string_cases()); }
    TEST_CASE("of what is planned and wanted") { check(plan_cases()); }
    TEST_CASE("what only the whole instrument shows") { check(whole_cases()); }
    TEST_CASE("of readings of what it does") { check(reading_cases()); }
    TEST_CASE("every rule of the headers has a job that breaks it, or a reason why none can") {
        std::vector<std::string> sentences;
        for (const rule_case& c : all_cases()) {
            for (const std::string& line : told(c)) { sentences.push_back(line); }
        }
        const auto is_told = [&](const std::string& key, const std::string& words) {
            return std::any_of(sentences.begin(), sentences.end(),
                               [&](const std::string& line) { return has(key_of(line), key) && has(line, words); });
        };
        const auto rules = source_rules::all_in(HEADERS);
        CHECK(rules.size() > 100);
        std::set<const out_of_reach*> used;
        for (const auto& r : rules) {
            bool reached = true;
            const std::vector<std::string> any{""};
            const auto& keys = r.keys.empty() ? any : r.keys;
            const auto& words = r.sentences.empty() ? any : r.sentences;
            for (const std::string& key : keys) {
                reached = reached &&
                          std::any_of(words.begin(), words.end(), [&](const std::string& w) { return is_told(key, w); });
            }
            for (const std::string& w : words) {
                reached = reached &&
                          std::any_of(keys.begin(), keys.end(), [&](const std::string& key) { return is_told(key, w); });
            }
            const out_of_reach* reason = nullptr;
            for (const out_of_reach& o : not_reached()) {
                if (o.header == r.header && has(r.field, o.field)) { reason = &o; }
            }
            if (!reached && reason) { used.insert(reason); }
            CHECK_MESSAGE((reached || reason), r.header, ": ", r.field, " \"", words.front(),
                          "\" has neither a case nor a reason");
        }
        for (const out_of_reach& o : not_reached()) {
            CHECK_MESSAGE(used.count(&o) == 1, o.header, " ", o.field, ": a reason that no rule needs");
        }
    }
}
