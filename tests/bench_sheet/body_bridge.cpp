// A bridge on a solid body in a job file: read, solved, printed, and planned in the place of pins and back.

#include <cmath>
#include <fstream>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "job.hpp"
#include "run_program.hpp"
#include "sheet.hpp"

using namespace job_file;
using program::has;

namespace {

const std::string on_body = "[body_bridge]\ndistance = \"30 mm\"\nheight = \"4 ± 0.5 mm\"\nspread = \"55 mm\"\n\n";
const std::string on_pins = "[pins]\ndistance = \"21 mm\"\nheight = \"7.5 mm\"\nspread = \"56 mm\"\n"
                            "top_thickness = \"2.9 mm\"\nsaddle_exposed = \"4 mm\"\n\n";

/// Takes a section out of a job's text, its heading and all keys up to the next.
void take_out(std::string& text, const std::string& heading) {
    const auto at = text.find("\n[" + heading + "]");
    REQUIRE(at != std::string::npos);
    const auto next = text.find("\n[", at + 1);
    text.erase(at + 1, next == std::string::npos ? next : next - at);
}
void take_line_out(std::string& text, const std::string& begins) {
    const auto at = text.find("\n" + begins);
    REQUIRE(at != std::string::npos);
    text.erase(at, text.find('\n', at + 1) - at);
}
/// The flat-top's job as if its bridge were on a solid body.
std::string solid_body() {
    std::string text = program::read_all(std::string(JOBS) + "/baritone_flat_top.toml");
    take_out(text, "pins");
    take_out(text, "soundboard");
    take_line_out(text, "saddle_break");
    take_out(text, "[objects]"); // its name speaks of a soundhole
    text.insert(text.find("[[strings]]"), on_body);
    return text;
}
tautline::job_answers answered(const std::string& text) {
    const auto job = parse_job(text);
    std::string all;
    for (const auto& m : job.mistakes) { all += m.text + "\n"; }
    REQUIRE_MESSAGE(job.mistakes.empty(), all);
    return bench_sheet::answers_of(job.job);
}
program::run_result sheet_of(const std::string& text, const std::string& arguments = "") {
    std::ofstream(program::scratch() + "/solid.toml", std::ios::binary) << text;
    return program::run(program::scratch() + "/solid.toml " + arguments);
}

} // namespace

TEST_SUITE("a bridge on a solid body in a job file") {
    TEST_CASE("its sheet speaks of a body, and of no soundboard, pins or tailpiece") {
        const auto r = sheet_of(solid_body(), "--detail");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        bool told = false;
        for (const auto& step : answered(solid_body()).steps) {
            for (const auto& line : step.lines) { told = told || line.what.starts_with("slot over the body, "); }
        }
        CHECK(told);
        CHECK(has(r.out, "slot bottoms over board and body"));
        CHECK(has(r.out, " over the body at the saddle.\n"));
        for (const char* word : {"soundboard", "pins", "tailpiece", "The top", "the top"}) {
            CHECK_MESSAGE(!has(r.out, word), word, " in\n", r.out);
        }
    }
    TEST_CASE("its JSON leaves out what it has not") {
        const auto r = sheet_of(solid_body(), "--json");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto sheet = nlohmann::json::parse(r.out);
        for (const char* state : {"found", "planned"}) {
            REQUIRE(sheet.contains(state));
            const auto& s = sheet[state];
            for (const char* key :
                 {"top_force_N", "pinned_bridge", "soundboard", "floating_bridge", "tailpiece_rise_deg"}) {
                CHECK_MESSAGE(!s.contains(key), key);
            }
            CHECK(s["down_force_N"].get<double>() > 50);
        }
    }
    TEST_CASE("an uncertain edge moves the down-force as the statics say") {
        const auto a = answered(solid_body());
        const auto& s = a.setups.found;
        // d(T sin(after))/d(height) = - T cos(after)^2 cos(after) / behind, string by string.
        double moved = 0;
        for (const auto& b : s.bridge_strings) {
            const double dx = (b.anchor.x - b.saddle.x).value(), dy = (b.anchor.y - b.saddle.y).value(),
                         dz = (b.saddle.z - b.anchor.z).value();
            const double level = dx * dx + dy * dy, whole = level + dz * dz;
            moved += b.tension.value() * level / (whole * std::sqrt(whole));
        }
        const auto job = parse_job(solid_body());
        auto lower = job.job;
        lower.instrument.body_bridge->height = lower.instrument.body_bridge->height - 0.01 * tautline::units::mm;
        const auto then = tautline::solve(tautline::strung_as_found(lower));
        CHECK((then.down_force - s.down_force).value() == doctest::Approx(moved * 1e-5).epsilon(2e-3));
    }
    TEST_CASE("planned, it takes the place of pins, and their soundboard goes; pins take its place") {
        std::string text = program::read_all(std::string(JOBS) + "/baritone_flat_top.toml");
        take_line_out(text, "saddle_break");
        std::string planned = on_body;
        planned.insert(1, "planned.");
        text.insert(text.find("[wanted]"), planned);
        const auto a = answered(text);
        CHECK(a.setups.as_found.instrument.pins.has_value());
        const auto& then = a.setups.plan.adjusted.instrument;
        CHECK(then.body_bridge.has_value());
        CHECK_FALSE(then.pins.has_value());
        CHECK_FALSE(then.soundboard.has_value());
        CHECK(a.setups.found.top_force.has_value());
        CHECK_FALSE(a.setups.plan.solved.top_force.has_value());

        text = solid_body();
        planned = on_pins;
        planned.insert(1, "planned.");
        text.insert(text.find("[wanted]"), planned);
        const auto back = answered(text);
        CHECK(back.setups.plan.adjusted.instrument.pins.has_value());
        CHECK_FALSE(back.setups.plan.adjusted.instrument.body_bridge.has_value());
    }
    TEST_CASE("what does not go with it is told in sentences, at the line where it stands") {
        const auto told = [](const std::string& text) {
            std::string all;
            for (const auto& m : parse_job(text).mistakes) { all += (m.line > 0 ? "" : "?") + m.text + "\n"; }
            return all;
        };
        const auto with = [&](const std::string& section) {
            std::string text = solid_body();
            text.insert(text.find("[[strings]]"), section);
            return told(text);
        };
        CHECK(has(with("[soundboard]\nsink_stiffness = \"240 N/mm\"\n\n"),
                  "soundboard must be left out with a body_bridge: a solid body has none that gives"));
        CHECK(has(with("[feet]\nahead = \"5 mm\"\nbehind = \"8 mm\"\ntop_slope = \"0 deg\"\nbass_foot = \"-30 mm\"\n"
                       "treble_foot = \"30 mm\"\n\n"),
                  "feet must be left out with a body_bridge: it is fixed to the body and does not stand on feet"));
        CHECK(has(with(on_pins), "body_bridge must not be given together with pins: it holds the strings' ends"));
        CHECK(has(with("[tailpiece]\nhinge_distance = \"180 mm\"\nhinge_height = \"0 mm\"\nreach = \"90 mm\"\n"
                       "spread = \"50 mm\"\n\n"),
                  "body_bridge must not be given together with a tailpiece: it holds the strings' ends"));
        std::string text = solid_body();
        text.replace(text.find("height = \"4 ± 0.5 mm\""), std::string("height = \"4 ± 0.5 mm\"").size(), "");
        CHECK(has(told(text), "the key \"body_bridge.height\" is missing"));
        text = solid_body();
        text.insert(text.find("in_tune = true"), "saddle_break = \"20 deg\"\n");
        const auto r = sheet_of(text);
        CHECK(r.code == 2);
        CHECK(has(r.err, "wanted.saddle_break must be left out where there are no pins: a break is wished for to place "
                         "their holes"));
    }
}
