// One number of the demo job is changed: what physics says must move, moves, the right way; nothing else does.
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <set>

#include <tautline/core/leaves.hpp>

#include <tautline/setup/solve.hpp>

#include "job.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
namespace {

using values = std::map<std::string, double>;

bench_job demo_job(const char* name) {
    std::ifstream file(name);
    REQUIRE(file);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    const auto read = job_file::parse_job(text);
    for (const auto& m : read.mistakes) { MESSAGE(m.text); }
    REQUIRE(read.mistakes.empty());
    return read.job;
}
values solved(const strung_instrument& on) {
    values v;
    const auto s = solve(on);
    for_each_leaf(s,
                  [&](std::string_view path, const auto& x) { v[std::string(path)] = static_cast<double>(number_of(x)); });
    return v;
}

/// Before and after one change.
struct change {
    values before, after;

    change(const char* name, const std::function<void(strung_instrument&)>& make) {
        auto on = strung_as_found(demo_job(name));
        // A giving soundboard couples everything with everything; these tests follow single threads.
        on.instrument.soundboard.reset();
        before = solved(on);
        make(on);
        after = solved(on);
        REQUIRE(before.size() == after.size());
    }
    [[nodiscard]] double step(const std::string& path) const { return after.at(path) - before.at(path); }
    /// Checks that exactly the results that start like one of these moved (by more than rounding).
    void moved_only(const std::set<std::string>& starts) const {
        for (const auto& leaf : before) {
            // Not a structured binding: clang 14 does not let a lambda, and so no check, see one.
            const std::string& path = leaf.first;
            const double value = leaf.second;
            const bool allowed = std::any_of(starts.begin(), starts.end(), [&](const std::string& s) {
                // "*" stands for any number in a path.
                std::size_t i = 0, k = 0;
                while (k < s.size() && i < path.size()) {
                    if (s[k] == '*') {
                        while (i < path.size() && path[i] >= '0' && path[i] <= '9') { ++i; }
                        ++k;
                    } else if (s[k++] != path[i++]) {
                        return false;
                    }
                }
                return k == s.size();
            });
            const bool moved = std::abs(step(path)) > 1e-12 * (1 + std::abs(value));
            CHECK_MESSAGE((allowed || !moved), path << " moved by " << step(path));
        }
    }
};

const char* const four_courses = TEST_JOBS "/four_courses.toml";
const char* const baritone = JOBS "/baritone_flat_top.toml";

/// What a change of the load or the stiffness of the neck carries along.
const std::set<std::string> bow_and_what_follows{"nut_rise",
                                                 "relief",
                                                 "board_relief",
                                                 "strings[*].line.nut_z",
                                                 "strings[*].crest_z",
                                                 "strings[*].heights",
                                                 "strings[*].clearances",
                                                 "strings[*].at_nut",
                                                 "strings[*].at_saddle",
                                                 "strings[*].notes",
                                                 "strings[*].octave_setback",
                                                 "strings[*].plucks",
                                                 "strings[*].nut_dead_band",
                                                 "strings[*].saddle_dead_band",
                                                 "straight_saddle",
                                                 "line_at_saddle",
                                                 "down_force",
                                                 "push_along",
                                                 "top_force",
                                                 "anchor_pull",
                                                 "standing",
                                                 "pinned",
                                                 "tailpiece_rise"};

} // namespace

TEST_SUITE("one change flows where it must and nowhere else") {
    TEST_CASE("a thicker treble string pulls more, bows the neck and lifts every string over every fret before the joint") {
        const change c(four_courses, [](strung_instrument& j) { j.stringing.strings[7].string.core.diameter = 12 * thou; });
        auto may = bow_and_what_follows;
        for (const char* p : {"strings[7].gauge", "strings[7].mass_per_length", "strings[7].tension",
                              "strings[7].share_of_strength", "total_tension"}) {
            may.insert(p);
        }
        c.moved_only(may);
        // The same wire at the same pitch and length: tension grows as the square of the gauge, stress not at all.
        CHECK(near::relative(c.after.at("strings[7].tension") / c.before.at("strings[7].tension"), 12.0 * 12 / (11 * 11),
                             1e-6));
        CHECK(c.step("strings[7].share_of_strength") > 0); // thicker wire is weaker for its size
        CHECK(near::within(c.step("total_tension"), c.step("strings[7].tension"), 1e-9));
        CHECK(c.step("nut_rise") > 0);
        CHECK(c.step("relief.gap") > 0);
        for (int n = 1; n < 11; ++n) { CHECK(c.step("strings[0].heights[" + std::to_string(n) + "]") > 0); }
        CHECK(c.step("down_force") > 0);
    }
    TEST_CASE("a flatter board: outer strings stand lower over the middle frets than the slots, which ride on the board, "
              "let them") {
        const change c(four_courses, [](strung_instrument& j) { j.instrument.board.surface.radius = 12 * inch; });
        for (const auto& leaf : c.before) {
            // Not a structured binding: clang 14 does not let a lambda, and so no check, see one.
            const std::string& path = leaf.first;
            const bool own =
                path.find(".notes") == std::string::npos &&
                (path.find(".gauge") != std::string::npos || path.find(".pitch") != std::string::npos ||
                 path.find("fret_x") == 0 || path.find(".y_at") != std::string::npos ||
                 path.find(".line.saddle") != std::string::npos || path.find(".line.nut_x") != std::string::npos ||
                 path.find(".line.nut_y") != std::string::npos);
            if (own) { CHECK_MESSAGE(c.step(path) == 0, path); }
        }
        // Crests of the outer strings rise by what the arc falls less, far up the board more than at the nut.
        CHECK(c.step("strings[0].crest_z[0]") > 0);
        CHECK(c.step("strings[0].crest_z[18]") > c.step("strings[0].crest_z[0]"));
        CHECK(c.step("strings[0].heights[18]") < 0);
        CHECK(c.step("strings[7].heights[18]") < 0);
        // The inner strings stand near the centre line, where both boards are level.
        CHECK(std::abs(c.step("strings[3].heights[18]")) < 0.2 * std::abs(c.step("strings[0].heights[18]")));
        // More wood is left at the edges: the neck is stiffer.
        CHECK(c.step("nut_rise") < 0);
    }
    TEST_CASE("a bridge 1 mm higher lifts every string in proportion to its distance from the nut and presses harder") {
        const change c(four_courses, [](strung_instrument& j) {
            j.instrument.saddle.height_bass = j.instrument.saddle.height_bass + 1 * mm;
            j.instrument.saddle.height_treble = j.instrument.saddle.height_treble + 1 * mm;
        });
        for (int i = 0; i < 8; ++i) {
            const std::string s = "strings[" + std::to_string(i) + "].";
            for (int n = 0; n < 19; ++n) {
                const double share = c.before.at("fret_x[" + std::to_string(n) + "]") / c.before.at(s + "line.saddle_x");
                // The higher pull bows the neck a little more, which lifts the nut's end too.
                CHECK(near::within(c.step(s + "heights[" + std::to_string(n) + "]"), 1e-3 * share, 0.06e-3));
            }
            CHECK(c.step(s + "at_saddle.break_angle") > 0);
            CHECK(c.step(s + "at_saddle.on_support.z") < 0);
            CHECK(near::within(c.step(s + "line.saddle_z"), 1e-3, 1e-12));
            CHECK(c.step(s + "gauge") == 0);
            CHECK(c.step(s + "pitch") == 0);
        }
        CHECK(c.step("down_force") > 0);
    }
    TEST_CASE("wear of one fret touches that fret's heights and the clearances around it only") {
        const change c(four_courses, [](strung_instrument& j) {
            auto& wear = j.instrument.frets.wear;
            wear.resize(19, 0.0 * mm);
            wear[10] = 0.05 * mm; // fret 11
        });
        c.moved_only({"strings[*].crest_z[10]", "strings[*].heights[10]", "strings[*].clearances", "relief",
                      "strings[*].notes", "strings[*].octave_setback", "strings[*].plucks", "straight_saddle",
                      "line_at_saddle"});
        for (int i = 0; i < 8; ++i) {
            CHECK(near::within(c.step("strings[" + std::to_string(i) + "].heights[10]"), 0.05e-3, 1e-12));
        }
        CHECK(c.step("strings[0].clearances[11].gap") < 0); // pressed lower, at the worn fret
    }
    TEST_CASE("higher frets bring every crest closer by as much, and steepen a pressed string toward the saddle") {
        const change c(four_courses, [](strung_instrument& j) { j.instrument.frets.wire.crown_height = 1.0 * mm; });
        c.moved_only({"strings[*].crest_z", "strings[*].heights", "strings[*].clearances", "strings[*].notes",
                      "strings[*].octave_setback", "strings[*].plucks", "straight_saddle", "line_at_saddle"});
        for (int n = 0; n < 19; ++n) {
            const std::string fret = std::to_string(n);
            CHECK(near::within(c.step("strings[4].heights[" + fret + "]"), -0.2e-3, 1e-12));
            // From a crest 0.2 mm higher to the same saddle: the next crest is cleared by less, in proportion to its share.
            if (n == 0) { continue; }
            const double x0 = c.before.at("fret_x[" + std::to_string(n - 1) + "]"),
                         x1 = c.before.at("fret_x[" + fret + "]");
            const double share = (x1 - x0) / (c.before.at("strings[4].line.saddle_x") - x0);
            if (c.before.at("strings[4].clearances[" + fret + "].fret") == n + 1) {
                CHECK(near::within(c.step("strings[4].clearances[" + fret + "].gap"), -0.2e-3 * share, 1e-9));
            }
        }
    }
    TEST_CASE("a tuner post further down the head bends its own string only, at the nut only") {
        const change c(four_courses, [](strung_instrument& j) { j.instrument.posts[0].along = 90 * mm; });
        c.moved_only({"strings[0].at_nut", "strings[0].nut_dead_band"});
        CHECK(c.step("strings[0].at_nut.break_angle") != 0);
    }
    TEST_CASE("a tailpiece hung lower presses every string harder on the saddle and leaves tensions and heights alone") {
        const change c(four_courses, [](strung_instrument& j) { j.instrument.tailpiece->hinge_height = -20 * mm; });
        c.moved_only({"strings[*].at_saddle", "strings[*].saddle_dead_band", "down_force", "push_along", "top_force",
                      "anchor_pull", "standing", "tailpiece_rise"});
        for (int i = 0; i < 8; ++i) { CHECK(c.step("strings[" + std::to_string(i) + "].at_saddle.break_angle") > 0); }
        CHECK(c.step("down_force") > 0);
    }
    TEST_CASE("a softer back bows more; tensions stay") {
        const change c(four_courses, [](strung_instrument& j) { j.instrument.neck.back_modulus = 8 * GPa; });
        c.moved_only(bow_and_what_follows);
        CHECK(c.step("nut_rise") > 0);
        CHECK(c.step("relief.gap") > 0);
    }
    TEST_CASE("a lower standard pitch slackens everything alike") {
        const change c(four_courses, [](strung_instrument& j) { j.stringing.standard.a4 = 415 * Hz; });
        for (int i = 0; i < 8; ++i) {
            const std::string t = "strings[" + std::to_string(i) + "].tension";
            const double ratio = c.after.at(t) / c.before.at(t);
            CHECK(near::relative(ratio, 415.0 * 415 / (440.0 * 440), 1e-3)); // the string also stretches a little less
        }
        CHECK(c.step("nut_rise") < 0);
        CHECK(c.step("down_force") < 0);
    }
    TEST_CASE("more pull on the rod straightens the neck of the flat-top and lowers its action") {
        const change c(baritone, [](strung_instrument& j) { j.instrument.neck.rod_pull = 1200 * N; });
        c.moved_only(bow_and_what_follows);
        CHECK(c.step("relief.gap") < 0);
        CHECK(c.step("nut_rise") < 0);
        for (int i = 0; i < 6; ++i) { CHECK(c.step("strings[" + std::to_string(i) + "].heights[6]") < 0); }
    }
    TEST_CASE("pins nearer the saddle steepen the break, nothing else") {
        const change c(baritone, [](strung_instrument& j) { j.instrument.pins->distance = 17 * mm; });
        c.moved_only(
            {"strings[*].at_saddle", "strings[*].saddle_dead_band", "down_force", "push_along", "anchor_pull", "pinned"});
        for (int i = 0; i < 6; ++i) { CHECK(c.step("strings[" + std::to_string(i) + "].at_saddle.break_angle") > 0); }
    }
}
