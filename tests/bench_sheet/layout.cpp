#include <nlohmann/json.hpp>

#include "changed_job.hpp"
#include "run_program.hpp"

using namespace program;

// What else is laid out at the bench: the block of the sheet, its JSON, and what is wrong with such keys.

namespace {

const std::string baritone = std::string(JOBS) + "/baritone_flat_top.toml";
const std::string asked =
    "\n[centre_line]\ngive_or_take = \"0.4 mm\"\nbridge_at = \"42 mm\"\nend_pin = \"1010 mm\"\n"
    "[[centre_line.readings]]\nx = \"0 mm\"\nbass_edge = \"20 mm\"\ntreble_edge = \"64 mm\"\n"
    "[[centre_line.readings]]\nx = \"470 mm\"\nbass_edge = \"14 mm\"\ntreble_edge = \"70 mm\"\n"
    "[planned.wire]\ncrown_height = \"1.2 mm\"\ncrown_width = \"2.4 mm\"\ntang_depth = \"1.6 mm\"\n"
    "tang_thickness = \"0.5 mm\"\n[planned.pieces]\noverhang = \"2 mm\"\n[planned.dots]\nsingles = [3, 5, 7, 9]\n";
std::string job() {
    std::string text = read_all(baritone);
    const auto levelling = text.find("[planned.levelling]");
    text.erase(levelling, text.find("[[planned.strings]]") - levelling);
    const auto object = text.find("extent = \"22 mm\"\n");
    text.insert(object, "gap = \"3 mm\"\n");
    return text + asked;
}
run_result run_text(const std::string& text, const std::string& arguments = "") {
    std::ofstream(scratch() + "/layout.toml", std::ios::binary) << text;
    return run(scratch() + "/layout.toml " + arguments);
}

} // namespace

TEST_SUITE("bench_sheet: layout") {
    TEST_CASE("the sheet has a block of what is laid out, and none where nothing is asked for") {
        const auto r = run_text(job());
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto at = r.out.find("Laid out at the bench\n");
        REQUIRE(at != std::string::npos);
        const std::string block = r.out.substr(at);
        for (const char* said : {"middle of the bridge, at the saddle, ", "end pin, 1010.0 mm from the nut: 42.0 mm across",
                                 "Wire to buy: ", "string 6 (B1) at the pins, ",
                                 "pickup in the soundhole, to clear the strings by 3.00 mm pressed at the last",
                                 "\n  12                  2 ", "bent to radius mm"}) {
            CHECK_MESSAGE(has(block, said), said << " in\n" << block);
        }
        CHECK_FALSE(has(run(baritone).out, "Laid out at the bench"));
        CHECK(has(run_text(job(), "--units imperial").out, "bent to radius in"));
    }
    TEST_CASE("wire or dots alone stand under the same heading as all that is laid out") {
        const std::string dots = "\n[planned.dots]\nsingles = [5, 7]\n";
        std::string text = read_all(baritone);
        const auto r = run_text(text + dots);
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto at =
            r.out.find("Laid out at the bench\n  Dots before frets 5, 7, 17 and 19, and more than one before fret 12.\n"
                       "Dots\n");
        CHECK_MESSAGE(at != std::string::npos, r.out);
        CHECK(r.out.find("Laid out at the bench", at + 1) == std::string::npos);
        text = job();
        text.erase(text.find("\n[centre_line]"), text.find("[planned.wire]") - text.find("\n[centre_line]"));
        text.erase(text.find("[planned.dots]"));
        text.erase(text.find("gap = \"3 mm\"\n"), 13);
        const auto wire = run_text(text);
        REQUIRE_MESSAGE(wire.code == 0, wire.err);
        CHECK_MESSAGE(has(wire.out, "Laid out at the bench\n  Wire to buy: "), wire.out);
        CHECK(has(wire.out, " with cuts and spare, for 20 pieces.\nWire, piece by piece\n"));
        CHECK(run_text(text, "--page " + scratch() + "/laid.html").code == 0);
        CHECK(has(read_all(scratch() + "/laid.html"), "<h2>Laid out at the bench</h2>"));
    }
    TEST_CASE("JSON has the same, and a job without has none") {
        const auto r = run_text(job(), "--json");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto j = nlohmann::json::parse(r.out);
        const auto& layout = j["layout"];
        CHECK(layout["centre_line"].size() == 7);
        CHECK(layout["wire"]["pieces"].size() == 20);
        CHECK(layout["dots"].size() == 8); // 3 5 7 9 12 15 17 19
        CHECK(layout["objects"][0]["wished_gap_mm"] == 3);
        CHECK_FALSE(nlohmann::json::parse(run(baritone + " --json").out).contains("layout"));
        if (std::system("/usr/bin/python3 -c 'import jsonschema' 2>/dev/null") != 0) { return; }
        std::ofstream(scratch() + "/layout.json") << r.out;
        CHECK(run_command(
                  "/usr/bin/python3 -c 'import json,sys,jsonschema; "
                  "jsonschema.Draft7Validator(json.load(open(sys.argv[1]))).validate(json.load(open(sys.argv[2])))' " +
                  std::string(SCHEMA) + " " + scratch() + "/layout.json")
                  .code == 0);
    }
    TEST_CASE("dots are chosen and left off one by one") {
        const std::string text = read_all(baritone);
        const auto dots = nlohmann::json::parse(run_text(text + "\n[planned.dots]\nwithout = [9, 19]\n", "--json").out);
        std::string frets;
        for (const auto& d : dots["layout"]["dots"]) { frets += std::to_string(d["fret"].get<int>()) + " "; }
        CHECK(frets == "3 5 7 12 15 17 ");
        CHECK(
            has(run_text(text + "\n[planned.dots]\nwithout = [9, 19]\n[[planned.dots.at]]\nfret = 10\n[[planned.dots.at]]\n"
                                "fret = 7\ndots = 2\n")
                    .out,
                "Dots before frets 3, 5, 10, 15 and 17, and more than one before frets 7 and 12."));
    }
    TEST_CASE("on a fan wire and centre line are laid out too; dots are refused") {
        const std::string fan = run("--new fanned_bass").out;
        const std::string centre = asked.substr(0, asked.find("[planned.wire]"));
        const auto r = run_text(fan + centre);
        REQUIRE_MESSAGE(r.code == 0, r.err);
        CHECK(has(r.out, "string 5 ("));
        CHECK(has(r.out, " over the saddle, "));
        const auto refused = run_text(fan + "\n[planned.dots]\nsingles = [3]\n");
        CHECK(refused.code == 2);
        CHECK(has(refused.err, "planned.dots must be left out on fanned frets"));
    }
}
