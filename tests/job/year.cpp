#include <tautline/job/answer.hpp>
#include <tautline/job/year_words.hpp>

#include <doctest/doctest.h>

#include "job_of_a_year.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::job_of_a_year;

const year_line& fret_ends_of(const job_year& y) {
    REQUIRE(y.lines.back().path == "fret_ends");
    return y.lines.back();
}
const year_line& least_of(const job_year& y) {
    REQUIRE(y.lines.size() > 1);
    const year_line& line = y.lines[y.lines.size() - 2];
    REQUIRE(line.path == "least_clearance");
    return line;
}
/// The least of all clearances of a setup, by looking at each.
double least_of_all(const setup& s) {
    double least = 1;
    for (const auto& string : s.strings) {
        for (const auto& c : string.clearances) { least = std::min(least, c.gap.value()); }
    }
    return least;
}
/// The clearance at a place that a year names.
double room_at(const setup& s, const year_place& at) {
    const auto& c = s.strings[at.string_index].clearances[static_cast<std::size_t>(at.pressed)];
    CHECK(c.fret_number() == at.fret);
    return c.gap.value();
}
bool says(const std::vector<std::string>& all, std::string_view part) {
    return std::any_of(all.begin(), all.end(), [&](const auto& one) { return one.find(part) != std::string::npos; });
}

} // namespace

TEST_SUITE("year of a job") {
    TEST_CASE("what nobody measured is told as a doubt, and what was is not") {
        auto j = job_of_a_year();
        const auto s = setups_of(j);
        const auto unmeasured = year_of(j, s);
        REQUIRE(unmeasured);
        REQUIRE(unmeasured->lines.size() == 5);
        CHECK(unmeasured->lines[0].path == "relief.gap");
        CHECK(unmeasured->lines[1].path == "strings[7].heights[11]");
        CHECK(unmeasured->lines[2].path == "strings[0].heights[11]");
        CHECK(unmeasured->gained[1] < -2);
        CHECK(unmeasured->gained[2] > 3);
        CHECK(says(unmeasured->cautions, "was not measured"));
        j.season->bow = 4e-5;
        const auto measured = year_of(j, s);
        CHECK_FALSE(says(measured->cautions, "along the grain was not measured"));
        for (std::size_t k = 0; k < 3; ++k) {
            CHECK(near::within(unmeasured->lines[k].values[0].si(), get(s.found, unmeasured->lines[k].path).si(), 1e-15));
            for (std::size_t end = 0; end < 2; ++end) {
                CAPTURE(k);
                CAPTURE(end);
                CHECK_FALSE(measured->lines[k].give_or_take[end].has_value());
                // Twice 9e-5 for 1 %, against the 4e-5 that was measured.
                const double moved = measured->lines[k].values[end + 1].si() - unmeasured->lines[k].values[end + 1].si();
                CHECK(near::relative(unmeasured->lines[k].give_or_take[end].si(), std::abs(moved) * 4.5, 0.05));
            }
        }
        // A board that grows more in the damp takes relief out there.
        CHECK(measured->lines[0].values[2].si() < measured->lines[0].values[0].si());
        CHECK(measured->lines[0].values[0].si() < measured->lines[0].values[1].si());
    }
    TEST_CASE("the year is that of the instrument at the end of the job") {
        auto j = job_of_a_year();
        j.season->bow = 0.0;
        j.season->top = 0.1 * mm;
        j.planned = plan_as_found(j);
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        j.wanted->action_treble = 1.8 * mm;
        const auto a = answer(j);
        REQUIRE(a.year);
        CHECK(near::within(a.year->lines[2].values[0].si(), 2.2e-3, 1e-6));
        CHECK(near::within(a.year->lines[1].values[0].si(), 1.8e-3, 1e-6));
        CHECK(a.year->lines[1].values[1].si() < a.year->lines[1].values[2].si());
        CHECK_FALSE(says(a.year->cautions, "was not measured"));
        CHECK(says(a.year->cautions, "two weeks"));
        j.season.reset();
        CHECK_FALSE(answer(j).year);
    }
    TEST_CASE("a back-bow at one end of the year is told") {
        auto j = job_of_a_year();
        const auto s = setups_of(j);
        j.season->bow = 0.0;
        CHECK_FALSE(says(year_of(j, s)->cautions, "back-bow"));
        j.season->bow = 2e-4; // as much as any board does
        CHECK(says(year_of(j, s)->cautions, "In the dampest air the neck stands in back-bow"));
    }
    TEST_CASE("fret ends stand out of the dry board by half of what it loses, with the doubt of its wood") {
        auto j = job_of_a_year();
        j.instrument.neck.board_wood = "sugar maple";
        const auto s = setups_of(j);
        const auto told = year_of(j, s);
        const auto& ends = fret_ends_of(*told);
        const double width = std::max(j.instrument.board.width_at_nut / mm, j.instrument.board.width_at_end / mm) * 1e-3;
        // Wood Handbook, table 13-5: 0.00165 with rings upright, 0.00353 flat; midway of both here.
        CHECK(near::within(ends.values[1].si(), -width / 2 * 0.00259 * told->gained[1], 1e-9));
        CHECK(near::within(ends.values[2].si(), -width / 2 * 0.00259 * told->gained[2], 1e-9));
        CHECK(ends.values[0].si() == 0);
        CHECK(ends.values[2].si() < 0);
        for (const double c : {0.00165, 0.00353}) {
            const double of_it = -width / 2 * c * told->gained[1];
            CHECK(std::abs(of_it - ends.values[1].si()) < ends.give_or_take[0].si());
        }
        CHECK(says(sentences_of(*told), "In the driest air the board is"));
        CHECK(says(told->cautions, "taken from its wood's name"));
        // One that was measured counts as it is, without a doubt where none is stated, with it where it is.
        j.season->across = 0.0020;
        const auto measured = year_of(j, s);
        CHECK(near::within(fret_ends_of(*measured).values[1].si(), -width / 2 * 0.0020 * measured->gained[1], 1e-9));
        CHECK_FALSE(fret_ends_of(*measured).give_or_take[0].has_value());
        CHECK_FALSE(says(measured->cautions, "across its grain"));
        j.doubts = {{.path = "season.across", .standard = any_quantity(0.0002)}};
        const auto stated = year_of(j, s);
        CHECK(near::relative(fret_ends_of(*stated).give_or_take[0].si(), 0.2 * fret_ends_of(*stated).values[1].si(), 1e-9));
        // A board that hardly moves is not felt; one of an unknown wood is told as such.
        j.doubts.clear();
        j.season->across = 0.0001;
        CHECK_FALSE(says(sentences_of(*year_of(j, s)), "narrower"));
        j.season->across.reset();
        j.instrument.neck.board_wood.clear();
        CHECK(says(year_of(j, setups_of(j))->cautions, "is not known"));
        j.season->across = 0.02;
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.across"), invalid_input);
    }
    TEST_CASE("the least clearance of any string is told in each air, with string, fret and doubt") {
        auto j = job_of_a_year();
        const auto s = setups_of(j);
        // A bow as large as any board's takes all room at one end of the year and opens the other.
        for (const double bow : {0.0, 1e-4, -2e-4, 2e-4}) {
            CAPTURE(bow);
            j.season->bow = bow;
            const auto told = year_of(j, s);
            const auto& line = least_of(*told);
            for (std::size_t k = 0; k < 3; ++k) {
                CAPTURE(k);
                const auto there = solve(moistened(s.last_strung(), told->known.response, told->gained[k]));
                CHECK(near::within(line.values[k].si(), least_of_all(there), 1e-12));
                REQUIRE(line.places[k]);
                CHECK(near::within(room_at(there, *line.places[k]), line.values[k].si(), 1e-12));
            }
            CHECK_FALSE(line.give_or_take[0].has_value());
        }
        const auto moves = year_of(j, s);
        const auto &dry = *least_of(*moves).places[1], &damp = *least_of(*moves).places[2];
        CHECK((dry.pressed != damp.pressed || dry.string_index != damp.string_index));
        CHECK(words_of({1, 0, 3}, s.found.names) == "4b G2, open, 3");
        CHECK(words_of({7, 5, 9}, s.found.names) == "1b E4, 5, 9");
        // Of a bow that nobody measured either way may take room: the further of both counts.
        j.season->bow.reset();
        const auto unsure = year_of(j, s);
        for (std::size_t end = 0; end < 2; ++end) {
            double most = 0;
            for (const double way : {-2.0, 2.0}) {
                const auto may = solve(moistened(s.last_strung(), unsure->known.moved(way, 0), unsure->gained[end + 1]));
                most = std::max(most, std::abs(least_of_all(may) - least_of(*unsure).values[end + 1].si()));
            }
            CHECK(most > 0.01e-3);
            CHECK(near::within(least_of(*unsure).give_or_take[end].si(), most, 1e-9));
        }
        // Two coefficients that are doubted add as squares.
        j.season->bow = 0.0;
        j.season->top = 0 * mm;
        const auto doubted = [&](double bow, double top) {
            j.doubts.clear();
            if (bow > 0) { j.doubts.push_back({.path = "season.bow", .standard = any_quantity(bow)}); }
            if (top > 0) { j.doubts.push_back({.path = "season.top", .standard = any_quantity(top * mm)}); }
            return least_of(*year_of(j, s)).give_or_take[1].si();
        };
        CHECK(near::relative(doubted(2e-5, 0.03), std::hypot(doubted(2e-5, 0), doubted(0, 0.03)), 1e-6));
        CHECK(doubted(0, 0.03) > 0.01e-3);
    }
    TEST_CASE("a board without frets has a year without clearances") {
        auto j = job_of_a_year();
        j.instrument.board.scale.frets = 0;
        j.instrument.frets.wear.clear();
        const auto told = year_of(j, setups_of(j));
        REQUIRE(told);
        CHECK(told->lines.empty());
    }
    TEST_CASE("a season that cannot be is refused by its key") {
        auto j = job_of_a_year();
        std::swap(j.season->dry, j.season->damp);
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.dry.humidity"), invalid_input);
        j = job_of_a_year();
        j.season->damp = noted_air{};
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.damp.celsius"), invalid_input);
        j = job_of_a_year();
        j.season->dry.celsius = 80;
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.dry.celsius"), invalid_input);
        j = job_of_a_year();
        j.season->bow = 0.01;
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.bow"), invalid_input);
    }
}
