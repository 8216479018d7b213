#include <tautline/doubt/sweep.hpp>

#include <cstring>

#include <doctest/doctest.h>

#include "counted_allocations.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument mandolin() { return {demo::four_course(), demo::unison_pairs()}; }
const std::vector<std::string>& heights() {
    static const std::vector<std::string> known{"strings[0].heights[11]", "relief.gap"};
    return known;
}
/// Numbers of all rows and places of all problems of some tables, one behind the other.
struct joined {
    std::vector<double> numbers{};
    std::vector<std::size_t> refused{};
    void add(const sweep_table& t) {
        CHECK(t.first * t.width() == numbers.size());
        numbers.insert(numbers.end(), t.numbers.begin(), t.numbers.end());
        for (const auto& p : t.problems) { refused.push_back(t.first + p.row); }
    }
    /// Bit by bit, so that NaN equals itself.
    [[nodiscard]] bool same_as(const joined& other) const {
        return numbers.size() == other.numbers.size() && refused == other.refused &&
               std::memcmp(numbers.data(), other.numbers.data(), numbers.size() * sizeof(double)) == 0;
    }
};
/// Half of these rows cannot be solved.
std::vector<knob> half_refused(std::size_t rows) { return {knob_between("neck.depth_at_nut", -22 * mm, 22 * mm, rows)}; }

} // namespace

TEST_SUITE("sweep in parts") {
    TEST_CASE("parts cover every row once and differ by one row at most") {
        for (const std::size_t rows : {0u, 1u, 7u, 8u, 9u, 1000u, 2000000u}) {
            for (const std::size_t of : {1u, 2u, 3u, 8u, 97u}) {
                std::size_t next = 0;
                for (std::size_t k = 1; k <= of; ++k) {
                    const row_range part = sweep_part{k, of}.rows_of(rows);
                    CHECK(part.first == next);
                    CHECK((part.count == rows / of || part.count == rows / of + 1));
                    next += part.count;
                }
                CHECK(next == rows);
            }
        }
        CHECK(sweep_part{most_parts, most_parts}.rows_of(most_variants).count == 1);
        for (const sweep_part none :
             {sweep_part{0, 8}, sweep_part{9, 8}, sweep_part{1, 0}, sweep_part{1, most_parts + 1}}) {
            CHECK_THROWS_WITH((void)none.rows_of(5), "part must be one of the parts that there are, counted from 1.");
        }
        CHECK_THROWS_AS((void)sweep_part{}.rows_of(most_variants + 1), invalid_input);
        CHECK(row_range{3, 5}.within(4).count == 1);
        CHECK(row_range{3, 5}.within(2).count == 0);
        CHECK(row_range{3, most_variants}.within(10).count == 7);
    }
    TEST_CASE("a part from text, or nothing") {
        const auto third = find_part("3/8");
        REQUIRE(third);
        CHECK(third->number == 3);
        CHECK(third->of == 8);
        CHECK(find_part("1/1"));
        CHECK(find_part("8/8"));
        for (const char* text : {"", "/", "3", "3/", "/8", "0/8", "9/8", "x", "3/0", "-1/8", "3/-8", " 3/8", "3/8 ",
                                 "3/8/1", "+3/8", "3.0/8", "1/2000001", "1/18446744073709551617"}) {
            CAPTURE(text);
            CHECK_FALSE(find_part(text));
        }
    }
    TEST_CASE("rows of a part are those of the whole, to the last bit, whatever the threads") {
        const auto model = mandolin();
        const auto knobs = half_refused(30);
        const std::vector<doubt> doubts{{"height", 0.1 * mm, {{"saddle.height_bass"}}},
                                        {"both", 0.1 * mm, {{"saddle.height_bass"}, {"saddle.height_treble", 0.5}}}};
        joined grid, sample, grid_parts, sample_parts;
        grid.add(sweep_grid(model, knobs, heights()));
        sample.add(sweep_sample(model, doubts, 30, 9, heights()));
        CHECK(grid.refused.size() > 10);
        for (std::size_t k = 1; k <= 8; ++k) {
            const auto rows = sweep_part{k, 8}.rows_of(30);
            const unsigned threads = k % 2 == 0 ? 2 : 1;
            grid_parts.add(sweep_grid(model, knobs, heights(), {.threads = threads, .rows = rows}));
            sample_parts.add(sweep_sample(model, doubts, 30, 9, heights(), {.threads = threads, .rows = rows}));
        }
        CHECK(grid_parts.same_as(grid));
        CHECK(sample_parts.same_as(sample));
        CHECK(sweep_grid(model, knobs, heights(), {.rows = {30, 5}}).rows == 0);
    }
    TEST_CASE("of a long sweep told in blocks so much is held as a block takes, however many rows there are") {
        const auto model = mandolin();
        const auto most_held = [&](std::size_t rows) {
            const std::vector<knob> knobs{knob_between("saddle.height_bass", 17 * mm, 20 * mm, rows)};
            std::size_t told = 0;
            const std::size_t before = live_bytes;
            most_live_bytes = before; // the knob holds its values already
            const bool all = for_each_block(
                row_range{0, rows},
                [&](const row_range& block) { return sweep_grid(model, knobs, heights(), {.threads = 1, .rows = block}); },
                [&](const sweep_table& t) {
                    CHECK(t.rows <= 128);
                    told += t.rows;
                    return true;
                },
                128);
            CHECK(all);
            CHECK(told == rows);
            CHECK(live_bytes == before);
            return most_live_bytes - before;
        };
        const std::size_t some = most_held(256), many = most_held(2560);
        CHECK(some > 128 * 3 * sizeof(double)); // it is counted
        CHECK(many == some);
        int blocks = 0;
        CHECK_FALSE(for_each_block(
            row_range{0, 300}, [](const row_range& r) { return r.count; },
            [&](std::size_t count) {
                CHECK(count == (blocks < 2 ? 128u : 44u));
                return ++blocks < 2;
            },
            128));
        CHECK(blocks == 2);
        CHECK_THROWS_AS(
            for_each_block(
                row_range{0, 3}, [](const row_range& r) { return r.count; }, [](std::size_t) { return true; }, 0),
            invalid_input);
    }
    TEST_CASE("a row of a sweep allocates nothing, whether anything is found or not") {
        const std::vector<kernel::sweep_input> inputs{{"saddle.height_bass", "length", false, {{"saddle.height_bass", 1}}}};
        for (const bool proud : {false, true}) {
            auto model = mandolin();
            for (auto& w : model.instrument.frets.wear) { w = proud ? 0.5 * mm : 0 * mm; }
            if (proud) { model.instrument.frets.wear[9] = 0 * mm; } // each string touches fret 10 from several before it
            CHECK((solve(model).findings.size() > 5) == proud);
            kernel::row_solver<double> solver(model, inputs, heights(), solve_stations);
            std::vector<double> numbers(1 + heights().size());
            const std::span<double> row(numbers);
            std::vector<problem> wrong;
            const auto solve_at = [&](double metres) {
                numbers[0] = metres;
                return solver.solve(std::span(&row, 1), wrong);
            };
            REQUIRE(solve_at(18.5e-3));
            const std::size_t counted = allocations;
            REQUIRE(solve_at(18.6e-3));
            REQUIRE(solve_at(18.5e-3));
            CHECK(allocations == counted);
        }
    }
}
