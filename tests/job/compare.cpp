#include <tautline/job/compare.hpp>

#include <tautline/setup/solve.hpp>
#include <tautline/work/do_work.hpp>

#include <tautline/job/plan.hpp>
#include <tautline/strings/tuning.hpp>

#include "setup/demo.hpp"

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

setup everything(bool pinned) {
    auto i = demo::four_course();
    i.soundboard = soundboard{.sink_stiffness = 500 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 0 * mm,
                              .saddle_height = 0 * mm};
    if (pinned) {
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 20 * mm, .height = 4 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 0 * mm};
    } else {
        i.feet = bridge_feet{
            .ahead = 5 * mm, .behind = 8 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    }
    return solve(strung_instrument{i, demo::unison_pairs()});
}

} // namespace

TEST_SUITE("meaning") {
    TEST_CASE("every result of a setup has words, a formula and a source") {
        for (const bool pinned : {false, true}) {
            const auto s = everything(pinned);
            for_each_leaf(s, [](std::string_view path, const auto&) {
                const std::string where(path);
                CAPTURE(where);
                const auto m = meaning_of(path);
                REQUIRE(m.has_value());
                CHECK_FALSE(m->formula.empty());
                CHECK_FALSE(m->source.empty());
                CHECK(words_for(path).find_first_of("{}") == std::string::npos);
            });
        }
    }
    TEST_CASE("so has every number of a plan and of bench work") {
        strung_instrument on{demo::four_course(), demo::unison_pairs()};
        on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        on.instrument.neck.rod_pull = 0 * N;
        wishes w;
        w.first_fret_bass = w.first_fret_treble = 0.5 * mm;
        w.action_bass = w.action_treble = 2 * mm;
        w.down_force = 110 * N;
        w.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        w.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
        board_details d;
        d.slot = slot{.depth = 1.9 * mm, .width = 0.6 * mm};
        bench_work work;
        work.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack};
        work.levelling = fret_levelling{.held = neck_held::slack};
        const auto done = do_work(on, d, work);
        const auto check = [](const std::string& prefix, const auto& numbers) {
            std::size_t count = 0;
            for_each_leaf(numbers, [&](std::string_view path, const auto&) {
                const std::string where = prefix + std::string(path);
                CAPTURE(where);
                const auto m = meaning_of(where);
                REQUIRE(m.has_value());
                CHECK_FALSE(m->formula.empty());
                CHECK_FALSE(m->source.empty());
                ++count;
            });
            CHECK(count > 8);
        };
        check("plan.", make_plan(done.after, w));
        check("work.", numbers_of(done));
    }
    TEST_CASE("what is noticed of a change (common practice, no source)") {
        // The greatest change that goes by, in bench units: one of a kind stands for all.
        const auto step = [](auto q) { return static_cast<double>(q.value()); };
        const double share = -1; // of what it was
        const std::vector<std::pair<std::string_view, std::pair<double, double>>> noticed{
            {"strings[].mass_per_length", {share, 0.02}},
            {"strings[].speaking_length", {step(0.5 * mm), 0}},
            {"strings[].tension", {share, 0.02}},
            {"strings[].core_stress", {share, 0.02}},
            {"strings[].share_of_strength", {0.02, 0}},
            {"strings[].y_at_nut", {step(0.2 * mm), 0}},
            {"strings[].y_at_saddle", {step(0.2 * mm), 0}},
            {"strings[].heights[]", {step(0.05 * mm), 0}},
            {"strings[].clearances[].gap", {step(0.05 * mm), 0}},
            {"strings[].at_nut.break_angle", {step(1.0 * deg), 0}},
            {"strings[].at_nut.side_angle", {step(1.0 * deg), 0}},
            {"strings[].at_guide.break_angle", {step(1.0 * deg), 0}},
            {"strings[].at_saddle.break_angle", {step(1.0 * deg), 0}},
            {"strings[].at_saddle.side_angle", {step(1.0 * deg), 0}},
            {"strings[].nut_dead_band", {20, 0}},
            {"strings[].saddle_dead_band", {20, 0}},
            {"strings[].notes[].error", {2, 0}},
            {"strings[].octave_setback", {step(0.3 * mm), 0}},
            {"strings[].plucks[]", {share, 0.1}},
            {"total_tension", {share, 0.02}},
            {"nut_rise", {step(0.05 * mm), 0}},
            {"relief.gap", {step(0.03 * mm), 0}},
            {"bass_relief.gap", {step(0.03 * mm), 0}},
            {"treble_relief.gap", {step(0.03 * mm), 0}},
            {"down_force", {share, 0.05}},
            {"top_force", {share, 0.05}},
            {"tailpiece_press", {share, 0.05}},
            {"bar_force", {share, 0.05}},
            {"tailpiece_rise", {step(1.0 * deg), 0}},
            {"standing.even.front_margin", {step(1.0 * mm), 0}},
            {"standing.even.back_margin", {step(1.0 * mm), 0}},
            {"standing.even.bass_load", {share, 0.05}},
            {"standing.even.treble_load", {share, 0.05}},
            {"pinned.turning", {share, 0.05}},
            {"top", {step(0.05 * mm), 0}},
            {"line_at_saddle", {step(0.3 * mm), 0}},
        };
        std::size_t met = 0;
        for (const auto& row : kernel::meanings) {
            const std::string_view pattern = row.pattern;
            CAPTURE(std::string(pattern));
            const auto it = std::find_if(noticed.begin(), noticed.end(), [&](const auto& n) { return n.first == pattern; });
            met += it != noticed.end();
            const auto [by_step, by_share] = it != noticed.end() ? it->second : std::pair<double, double>(0, 0);
            CHECK(near::relative(row.step, std::max(by_step, 0.0), 0.005));
            CHECK(row.share == by_share);
        }
        CHECK(met == noticed.size());
    }
    TEST_CASE("more of a result means something else than less of it") {
        for (const auto& row : kernel::meanings) {
            CAPTURE(row.pattern);
            const std::string_view more = row.more, less = row.less;
            CHECK(more.empty() == less.empty());
            CHECK((more.empty() || more != less));
            CHECK((more.empty() || row.step > 0 || row.share > 0)); // else it is never told
        }
    }
    TEST_CASE("words name strings and frets as the bench counts them") {
        CHECK(words_for("strings[2].heights[11]") == "height over fret 12 of strings[2]");
        CHECK(words_for("strings[0].clearances[0].gap") == "least clearance open, strings[0]");
        CHECK(words_for("strings[0].plucks[5].pull") == "hardest clean pluck pressed at fret 5, strings[0] (pull)");
        const string_names six{.courses = {1, 1, 1, 1, 1, 1}, .notes = parse_tuning("E2 A2 D3 G3 B3 E4").notes};
        CHECK(words_for("strings[2].heights[11]", six) == "height over fret 12 of string 4 (D3)");
        CHECK(words_for("plan.slot_change[5]", six) == "change of the nut slot of string 1 (E4)");
        CHECK(words_for("plan.pin_places[0].behind_saddle", six) == "hole of string 6 (E2) behind the saddle");
        CHECK(words_for("plan.pin_places[0].distance", six) == "hole of string 6 (E2) behind the end of the scale length");
        CHECK(path_with_string("strings[2].heights[11]", six) == "strings[2].heights[11] (4 D3)");
        CHECK(path_with_string("found.strings[0].tension", six) == "found.strings[0].tension (6 E2)");
        CHECK(path_with_string("posts[5].across", six) == "posts[5].across (1 E4)");
        CHECK(path_with_string("nut.slot_heights[0]", six) == "nut.slot_heights[0]"); // it serves all
        CHECK(path_with_string("nut.slot_heights[0]", six, 6) == "nut.slot_heights[0] (6 E2)");
        CHECK(path_with_string("fret_x[4]", six) == "fret_x[4]");
        CHECK(path_with_string("relief.gap", six) == "relief.gap");
        CHECK(path_with_string("strings[6].tension", six) == "strings[6].tension");
        CHECK(path_by_number("string 6.tension", six) == "strings[0].tension");
        CHECK(path_by_number("found.string 1.heights[11]", six) == "found.strings[5].heights[11]");
        CHECK(path_by_number("string 4", six) == "strings[2]");
        CHECK(path_by_number("relief.gap", six) == "relief.gap");
        CHECK(path_by_number("strings[0].string.core.diameter", six) == "strings[0].string.core.diameter");
        CHECK_FALSE(path_by_number("string 7.tension", six));
        CHECK_FALSE(path_by_number("planned.string 4a.tension", six));
        CHECK_FALSE(path_by_number("string ", six));
        CHECK(words_for("fret_x[4]") == "place of fret 5 from the nut");
        CHECK(words_for("anchor_pull.z") == "pull of all strings on their anchors (z)");
        CHECK(words_for("nothing.of.the.kind") == "nothing.of.the.kind");
        CHECK_FALSE(meaning_of("strings[2]").has_value());
        CHECK_FALSE(meaning_of("nut_rise_more").has_value());
    }
}

TEST_SUITE("compare") {
    TEST_CASE("a setup does not differ from itself") {
        const auto s = everything(false);
        CHECK(compare(s, s).empty());
    }
    TEST_CASE("a change of pitch changes loads and bow, not places") {
        auto strung = demo::unison_pairs();
        const auto found = solve(strung_instrument{demo::four_course(), strung});
        strung.standard.a4 = 415 * Hz;
        const auto changes = compare(found, solve(strung_instrument{demo::four_course(), strung}));
        const auto of = [&](std::string_view path) {
            return std::find_if(changes.begin(), changes.end(), [&](const auto& c) { return c.path == path; });
        };
        const auto pull = of("total_tension");
        REQUIRE(pull != changes.end());
        // Mersenne: tension goes with the square of pitch, the stretch of the wire takes off a little.
        CHECK(near::relative(*pull->share(), 415.0 * 415 / (440.0 * 440) - 1, 0.01));
        CHECK(pull->meaning == "less load on neck and body");
        CHECK(near::relative(pull->weight, -*pull->share() / 0.02, 1e-12)); // noticed from 2 % on
        CHECK(pull->found.kind() == "force");
        CHECK(of("strings[0].tension")->meaning == "easier to press, nearer to rattling");
        CHECK(of("fret_x[3]") == changes.end());
        CHECK(of("strings[0].y_at_nut") == changes.end());
        CHECK(of("nut_rise") != changes.end());
        // What weighs the same by right stands in the order of the results, whatever its last digits.
        for (std::size_t i = 1; i < changes.size(); ++i) { CHECK(changes[i - 1].weight >= changes[i].weight * (1 - 1e-6)); }
    }
    TEST_CASE("what rounding alone moves is no change") {
        const auto found = everything(true);
        auto planned = found;
        planned.strings[0].heights[0] += 1e-10 * mm;
        planned.strings[1].tension += 1e-13 * N;
        planned.strings[2].notes[4].error = planned.strings[2].notes[4].error + 1e-11 * cents;
        CHECK(compare(found, planned).empty());
        planned.strings[0].heights[0] += 0.001 * mm;
        const auto changes = compare(found, planned);
        REQUIRE(changes.size() == 1);
        CHECK(changes[0].path == "strings[0].heights[0]");
        CHECK(near::relative(changes[0].by().si(), 1e-6, 1e-3));
    }
    TEST_CASE("the order of changes does not hang on their last digits") {
        const auto found = everything(false);
        for (const double last_digit : {-1e-15, 0.0, 1e-15}) {
            auto planned = found;
            planned.strings[0].heights[0] -= 0.1 * mm;
            planned.strings[1].heights[0] -= 0.1 * mm * (1 + last_digit);
            const auto changes = compare(found, planned);
            REQUIRE(changes.size() == 2);
            CHECK(changes[0].path == "strings[0].heights[0]");
        }
    }
    TEST_CASE("of each kind the largest leads, and what nobody notices is left out") {
        auto i = demo::four_course();
        const auto found = solve(strung_instrument{i, demo::unison_pairs()});
        i.nut.slot_heights[6] = 1.3 * mm - 0.3 * mm;
        i.nut.slot_heights[1] = 1.3 * mm - 0.001 * mm;
        const auto changes = compare(found, solve(strung_instrument{i, demo::unison_pairs()}));
        const auto leading = leading_changes(changes);
        std::size_t heights = 0;
        for (const auto& c : leading) {
            CHECK(c.weight >= 1);
            if (c.path.find("].heights[") != std::string::npos) {
                ++heights;
                CHECK(c.path == "strings[6].heights[0]");
                CHECK(c.meaning == "lower: nearer to buzzing");
            }
        }
        CHECK(heights == 1);
    }
    TEST_CASE("results that only one of two setups has are left out") {
        const auto with = everything(false);
        const auto without = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        for (const auto& c : compare(with, without)) {
            CHECK(c.path.rfind("standing", 0) != 0);
            CHECK(c.path.rfind("top.", 0) != 0);
        }
    }
}
