// One thing is planned on the demo job: every result that depends on it moves, and no other.
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <set>

#include <tautline/job/job_setups.hpp>

#include "job.hpp"

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The demo job as found, its soundboard stiff (a giving one couples everything with everything), with a plan of its own.
bench_job job_with(const std::string& plan) {
    std::ifstream file(std::string(TEST_JOBS) + "/four_courses.toml");
    REQUIRE(file);
    std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    text.erase(text.find("# What is planned"));
    const auto top = text.find("[soundboard]");
    text.erase(top, text.find("[feet]") - top);
    auto read = job_file::parse_job(text + "\n" + plan);
    for (const auto& m : read.mistakes) { MESSAGE(m.text); }
    REQUIRE(read.mistakes.empty());
    return read.job;
}

using values = std::map<std::string, double>;
values leaves(const setup& s) {
    values v;
    for_each_leaf(s, [&](std::string_view path, const auto& x) { v.emplace(path, number_of(x)); });
    return v;
}

/// "strings[*].heights[*]" against a path.
bool matches(std::string_view pattern, std::string_view path) {
    std::size_t i = 0, k = 0;
    while (k < pattern.size() && i < path.size()) {
        if (pattern[k] == '*') {
            while (i < path.size() && path[i] >= '0' && path[i] <= '9') { ++i; }
            ++k;
        } else if (pattern[k++] != path[i++]) {
            return false;
        }
    }
    return k == pattern.size();
}

/// Checks that all results that begin like one of `must` moved and that, beside these and those of `may`, none did.
void check_flow(const std::string& plan, const std::set<std::string>& must, const std::set<std::string>& may) {
    const auto a = setups_of(job_with(plan));
    REQUIRE(a.planned);
    const auto found = leaves(a.found), planned = leaves(a.plan.solved);
    REQUIRE(found.size() == planned.size());
    const auto any = [](const std::set<std::string>& patterns, const std::string& path) {
        return std::any_of(patterns.begin(), patterns.end(), [&](const std::string& p) { return matches(p, path); });
    };
    std::map<std::string, int> hits;
    for (const auto& leaf : found) {
        const std::string& path = leaf.first;
        const double by = planned.at(path) - leaf.second;
        const bool moved = std::abs(by) > 1e-9 * (1e-3 + std::abs(leaf.second));
        for (const auto& p : must) { hits[p] += matches(p, path) ? 1 : 0; }
        if (any(must, path)) {
            CHECK_MESSAGE(moved, path << " did not move");
        } else if (!any(may, path)) {
            CHECK_MESSAGE(!moved, path << " moved by " << by);
        }
    }
    for (const auto& hit : hits) { CHECK_MESSAGE(hit.second > 0, hit.first << " is no result"); }
}

/// What follows from where strings and crests are.
const std::set<std::string> heights{"strings[*].crest_z", "strings[*].heights", "strings[*].clearances[*].gap"};
/// What must move where only the neck bows otherwise: frets beyond the joint stand on the body.
const std::set<std::string> heights_on_neck{"strings[*].crest_z[5]", "strings[*].heights[0]", "strings[*].heights[5]"};
/// What must move where every crest does; pressed at the last fret nothing is left to clear.
const std::set<std::string> all_heights{"strings[*].crest_z", "strings[*].heights", "strings[*].clearances[5].gap"};
const std::set<std::string> sound{"strings[*].notes",
                                  "strings[*].octave_setback",
                                  "strings[*].plucks",
                                  "strings[*].clearances",
                                  "straight_saddle",
                                  "line_at_saddle",
                                  "relief"};
/// What follows from the strings' pull and the directions they take.
const std::set<std::string> forces{"strings[*].at_nut",
                                   "strings[*].at_saddle",
                                   "strings[*].nut_dead_band",
                                   "strings[*].saddle_dead_band",
                                   "down_force",
                                   "push_along",
                                   "top_force",
                                   "anchor_pull",
                                   "standing",
                                   "tailpiece_rise"};
const std::set<std::string> neck_bow{"nut_rise", "board_relief", "strings[*].line.nut_z"};

std::set<std::string> all_of(std::initializer_list<std::set<std::string>> sets) {
    std::set<std::string> all;
    for (const auto& s : sets) { all.insert(s.begin(), s.end()); }
    return all;
}

} // namespace

TEST_SUITE("a planned change flows where it must and nowhere else") {
    TEST_CASE("nothing planned: planned is found") { check_flow("[planned]\n", {}, {}); }
    TEST_CASE("wood sanded off: thickness and stiffness, slots, bridge, action") {
        check_flow("[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n",
                   all_of({{"strings[*].crest_z", "strings[*].heights"},
                           {"nut_rise", "board_relief.gap", "strings[*].line.nut_z", "strings[*].line.saddle_z",
                            "line_at_saddle", "strings[*].notes[*].error", "down_force"}}),
                   all_of({heights,
                           sound,
                           forces,
                           neck_bow,
                           {"strings[*].speaking_length", "strings[*].tension", "strings[*].core_stress",
                            "strings[*].share_of_strength", "strings[*].mass_per_length", "total_tension"}}));
        // What the library is told to be different, by hand: slots ride higher over the lowered board, the line passes
        // lower.
        const auto a = setups_of(job_with("[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n"));
        const auto found = job_with("").instrument;
        const auto& after = a.work.after.instrument;
        CHECK(after.board.thickness < found.board.thickness);
        CHECK(after.neck.depth_at_joint < found.neck.depth_at_joint);
        CHECK(after.saddle.board_line < found.saddle.board_line);
        for (std::size_t i = 0; i < 8; ++i) { CHECK(after.nut.slot_heights[i] > found.nut.slot_heights[i]); }
        // The inner strings' slots most: the board was highest there.
        CHECK(after.nut.slot_heights[3] - found.nut.slot_heights[3] >
              after.nut.slot_heights[0] - found.nut.slot_heights[0] + 0.05 * mm);
    }
    TEST_CASE("new wire: crests and what stands on them, not load or bow") {
        check_flow("[planned.wire]\ncrown_height = \"1.1 mm\"\ncrown_width = \"2 mm\"\ntang_depth = \"1.5 "
                   "mm\"\ntang_thickness = \"0.5 mm\"\n",
                   all_of({all_heights, {"line_at_saddle", "strings[*].notes[*].error"}}), all_of({heights, sound}));
    }
    TEST_CASE("a levelling: the crests that were filed") {
        check_flow("[planned.levelling]\nheld = \"as it will be\"\n", {"relief.gap"}, all_of({heights, sound}));
    }
    TEST_CASE("a lighter set: load, bow, intonation, forces; not the frets' places or the board") {
        std::string plan;
        for (const char* s : {"G2\"\ngauge = \"36 thou\"\ncore = \"16 thou\"\nwrap = \"phosphor bronze\"",
                              "D3\"\ngauge = \"24 thou\"\ncore = \"13 thou\"\nwrap = \"phosphor bronze\"",
                              "A3\"\ngauge = \"15 thou\"", "E4\"\ngauge = \"10 thou\""}) {
            for (int k = 0; k < 2; ++k) { plan += std::string("[[planned.strings]]\nnote = \"") + s + "\n"; }
        }
        check_flow(plan,
                   all_of({heights_on_neck,
                           {"nut_rise", "relief.gap", "strings[*].gauge", "strings[*].tension",
                            "strings[*].mass_per_length", "total_tension", "down_force", "strings[*].notes[*].error"}}),
                   all_of({heights, sound, forces, neck_bow, {"strings[*].core_stress", "strings[*].share_of_strength"}}));
    }
    TEST_CASE("another pitch: load and all it does") {
        check_flow("[planned]\na4 = \"432 Hz\"\n",
                   all_of({heights_on_neck, {"nut_rise", "strings[*].pitch", "strings[*].tension", "down_force"}}),
                   all_of({heights,
                           sound,
                           forces,
                           neck_bow,
                           {"strings[*].core_stress", "strings[*].share_of_strength", "strings[*].mass_per_length",
                            "total_tension"}}));
    }
    TEST_CASE("another tailpiece: the saddle's and the anchors' forces, nothing before the saddle") {
        check_flow(
            "[planned.tailpiece]\nreach = \"104 mm\"\n",
            {"tailpiece_rise", "down_force", "strings[*].at_saddle.break_angle", "anchor_pull.z", "standing.even.down"},
            {"strings[*].at_saddle", "strings[*].saddle_dead_band", "push_along", "top_force", "anchor_pull", "standing"});
    }
    TEST_CASE("slots cut: heights near the nut, nothing at the far end but what the string's line carries there") {
        check_flow("[planned.nut]\nslot_heights = [\"1.0 mm\"]\n",
                   {"strings[*].heights", "strings[*].line.nut_z", "strings[*].at_nut.break_angle", "nut_rise"},
                   all_of({heights,
                           sound,
                           forces,
                           neck_bow,
                           {"strings[*].speaking_length", "strings[*].tension", "strings[*].core_stress",
                            "strings[*].share_of_strength", "strings[*].mass_per_length", "total_tension"}}));
    }
    TEST_CASE("what lies under the strings: its own clearance and nothing else") {
        check_flow("[[planned.objects]]\nname = \"pickup\"\nx = \"425 mm\"\nz = \"-3 mm\"\n", {}, {});
        const auto a = setups_of(job_with("[[planned.objects]]\nname = \"pickup\"\nx = \"425 mm\"\nz = \"-3 mm\"\n"));
        REQUIRE(a.objects.size() == 1);
        CHECK(a.objects[0].name == "pickup");
        // And sanding brings what stays on the body nearer to the board's own line.
        const auto s = setups_of(job_with("[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n"));
        CHECK(s.objects[0].shape.z > -6 * mm);
        // What is planned anew is told over the board as it will be.
        const auto both = setups_of(job_with("[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n"
                                             "[[planned.objects]]\nx = \"425 mm\"\nz = \"-3 mm\"\n"));
        REQUIRE(both.objects.size() == 1);
        CHECK(length<>(both.objects[0].shape.z) == -3 * mm);
    }
    TEST_CASE("wishes follow: after sanding and new frets, slots and saddle differ by what both did") {
        const std::string wishes =
            "[wanted]\nfirst_fret_bass = \"0.55 mm\"\nfirst_fret_treble = \"0.45 mm\"\naction_bass = \"2.2 mm\"\n"
            "action_treble = \"1.8 mm\"\n";
        const auto plain = setups_of(job_with(wishes));
        const auto worked = setups_of(job_with("[planned.sanding]\nheld = \"slack\"\nradius = \"12 "
                                               "in\"\n[planned.wire]\ncrown_height = \"1.1 mm\"\ncrown_width = \"2 "
                                               "mm\"\ntang_depth = \"1.5 mm\"\ntang_thickness = \"0.5 mm\"\n" +
                                               wishes));
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::relative(worked.plan.solved.strings[i].heights[0], plain.plan.solved.strings[i].heights[0], 0.02));
            CHECK(abs(worked.plan.slot_change[i] - plain.plan.slot_change[i]) > 0.02 * mm);
        }
        CHECK(abs(worked.plan.saddle_height[0] - plain.plan.saddle_height[0]) > 0.02 * mm);
    }
}
