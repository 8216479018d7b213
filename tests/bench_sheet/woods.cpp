// Woods by name in a job file: what they bring, what wins over them, what is told of names that bring nothing.

#include <fstream>
#include <iterator>
#include <string>

#include <doctest/doctest.h>

#include <tautline/job/answer.hpp>
#include <tautline/job/job_doubts.hpp>

#include "changed_job.hpp"
#include "job.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using changed_job::setting;

namespace {

job_file::read_job with(std::vector<setting> settings) {
    std::ifstream file(TEST_JOBS "/four_courses.toml");
    std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    changed_job::set(text, {"adjusting.usual_doubts", "true"});
    for (const setting& s : settings) { changed_job::set(text, s); }
    return job_file::parse_job(text);
}
bench_job job_with(std::vector<setting> settings) {
    auto read = with(std::move(settings));
    for (const auto& m : read.mistakes) { MESSAGE(m.text); }
    REQUIRE(read.mistakes.empty());
    return read.job;
}
/// Standard uncertainty of a number, and whether nobody stated it.
std::pair<stress<>, bool> doubt_in(const std::vector<known_doubt>& all, std::string_view name) {
    for (const known_doubt& d : all) {
        if (d.name == name) { return {d.standard.as<stress<>>(), d.usual}; }
    }
    return {stress<>(), false};
}
const std::vector<setting> named{{"neck.board_modulus", ""},
                                 {"neck.board_wood", "\"African ebony\""},
                                 {"neck.back_modulus", ""},
                                 {"neck.back_wood", "\"maple\""}};

} // namespace

TEST_SUITE("woods of a job file") {
    TEST_CASE("a name brings modulus and doubt, as found") {
        const bench_job j = job_with(named);
        CHECK(j.instrument.neck.board_modulus == 17.7 * GPa);
        CHECK(j.instrument.neck.back_modulus == woods::find_modulus("maple")->modulus);
        const auto known = doubts_of_found(j);
        CHECK(doubt_in(known, "neck.board_modulus") == std::pair{stress<>(3.5 * GPa), true});
        CHECK(doubt_in(known, "neck.back_modulus") == std::pair{woods::find_modulus("maple")->standard, true});
        // Into the budget of what the neck does, twice the doubt of a wood half as well known.
        const auto s = setups_of(j);
        const auto carried = doubts_found(j, s);
        double ebony = 0;
        for (const auto& line : carried.budget("nut_rise")) {
            if (line.input == "neck.board_modulus") { ebony = line.contribution; }
        }
        const auto* rise = find_result(carried.results, "nut_rise");
        REQUIRE(rise);
        CHECK(std::abs(ebony) > 0.02 * rise->value.si());
        // Answered whole, the doubtful name is told with the rest.
        CHECK(answer(j).setups.found.findings.size() > 0);
    }
    TEST_CASE("what is stated wins: a modulus over the name, a doubt over the table's, a method over none") {
        auto stated = named;
        stated[0].value = "\"16 GPa\"";
        stated[2].value = "\"11 ± 1 GPa\"";
        const bench_job j = job_with(stated);
        CHECK(j.instrument.neck.board_modulus == 16 * GPa);
        const auto known = doubts_of_found(j);
        // Measured, and nobody says how: what is usual for a wood of the handbook.
        const auto [board, usual] = doubt_in(known, "neck.board_modulus");
        CHECK(near::relative(board, 0.22 * 16 * GPa, 1e-12));
        CHECK(usual);
        CHECK(doubt_in(known, "neck.back_modulus") == std::pair{stress<>(0.5 * GPa), false});
        stated.push_back({"neck.board_method", "\"tap tone\""});
        const bench_job tapped = job_with(stated);
        CHECK(tapped.instrument.neck.board_method == modulus_method::tap_tone);
        CHECK(near::relative(doubt_in(doubts_of_found(tapped), "neck.board_modulus").first, 1.6 * GPa, 1e-12));
        // Told as dynamic, the same figure is a softer board: nothing is added to it.
        CHECK(setups_of(tapped).found.nut_rise > setups_of(j).found.nut_rise);
    }
    TEST_CASE("a wood that is planned brings its own, and what was measured of the old one is gone") {
        auto planned = named;
        planned[0].value = "\"16 ± 1 GPa\"";
        planned.push_back({"neck.board_method", "\"sound\""});
        planned.push_back({"planned.neck.board_wood", "\"wenge\""});
        const bench_job j = job_with(planned);
        REQUIRE(j.planned);
        CHECK(j.planned->changes.values.neck.board_modulus == 17 * GPa);
        const auto s = setups_of(j);
        CHECK(s.last_strung().instrument.neck.board_wood == "wenge");
        CHECK(s.last_strung().instrument.neck.board_modulus == 17 * GPa);
        CHECK(s.last_strung().instrument.neck.board_method == modulus_method::not_told);
        CHECK(s.as_found.instrument.neck.board_method == modulus_method::sound_speed);
        CHECK(doubt_in(doubts_of_plan(j, s), "planned.neck.board_modulus") == std::pair{stress<>(4 * GPa), true});
        const auto& findings = s.last().findings;
        CHECK(std::any_of(findings.begin(), findings.end(),
                          [](const finding& f) { return f.kind == finding_kind::wood_by_name; }));
    }
    TEST_CASE("names that bring nothing are told once, with line, near names and what else to give") {
        const auto one = [](std::vector<setting> settings) {
            const auto read = with(std::move(settings));
            REQUIRE(read.mistakes.size() == 1);
            CHECK(read.mistakes[0].line > 0);
            return read.mistakes[0].text;
        };
        auto wrong = named;
        wrong[1].value = "\"African ebny\"";
        CHECK(one(wrong).starts_with("neck.board_wood is \"African ebny\"; it must be a wood of the table, perhaps African "
                                     "ebony. For another give its modulus along the grain, how that was measured"));
        wrong[1].value = "\"plum\"";
        CHECK(one(wrong) ==
              "neck.board_wood is \"plum\"; it must come with a modulus: none was found of plum. Give one with "
              "how it was measured and its give or take.");
        // Neither name nor modulus: the key is missing, with what it means.
        wrong[1].value = "\"\"";
        CHECK(one(wrong).starts_with("the key \"neck.board_modulus\" is missing"));
        // One's own wood: any name with its modulus.
        wrong[0].value = "\"20 ± 3 GPa\"";
        wrong[1].value = "\"a black wood of the islands\"";
        CHECK(with(wrong).mistakes.empty());
        // The method of what nobody measured.
        wrong = named;
        wrong.push_back({"neck.board_method", "\"sound\""});
        CHECK(one(wrong) ==
              "neck.board_method must be left out where board_modulus is: the modulus that board_wood brings is "
              "as bending tests give it");
        wrong = named;
        wrong.push_back({"planned.neck.back_wood", "\"mapel\""});
        CHECK(one(wrong).starts_with("planned.neck.back_wood is \"mapel\"; it must be a wood of the table"));
        wrong.back() = {"neck.back_method", "\"hearsay\""};
        CHECK(with(wrong).mistakes.size() == 2);
    }
    TEST_CASE("the factor of pure bending is doubted to both sides, stated or not") {
        const bench_job j = job_with({{"neck.pure_bending_factor", "1.2"}});
        CHECK(j.instrument.neck.pure_bending_factor == 1.2);
        const auto known = doubts_of_found(j);
        const auto at = std::find_if(known.begin(), known.end(),
                                     [](const known_doubt& d) { return d.name == "neck.pure_bending_factor"; });
        REQUIRE(at != known.end());
        // Half of what lies between 1.05 and 1.25 about 1.10: the root of 0.05 squared, twice.
        CHECK(near::within(at->standard.si(), std::sqrt(0.005), 1e-4));
        CHECK(with({{"neck.pure_bending_factor", "2.1"}}).mistakes.size() == 1);
        CHECK(job_with({}).instrument.neck.pure_bending_factor == 1.1);
    }
}
