#include <tautline/doubt/sweep.hpp>

#include <cmath>
#include <cstring>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument demo_model() { return {demo::four_course(), demo::unison_pairs()}; }

const std::vector<std::string>& outputs() {
    static const std::vector<std::string> known{"strings[0].heights[11]", "down_force", "relief.gap", "strings[7].tension",
                                                "pinned.turning"};
    return known;
}

/// Bit by bit, so that NaN equals itself.
bool same(const sweep_table& a, const sweep_table& b) {
    return a.numbers.size() == b.numbers.size() && a.problems.size() == b.problems.size() &&
           std::memcmp(a.numbers.data(), b.numbers.data(), a.numbers.size() * sizeof(double)) == 0;
}

} // namespace

TEST_SUITE("sweep") {
    TEST_CASE("a grid's rows are plain solves, the last knob turning fastest") {
        const auto model = demo_model();
        const std::vector<knob> knobs{knob_between("saddle.height_bass", 17 * mm, 20 * mm, 4),
                                      {"nut.slot_heights[0]", {1.2 * mm, 1.5 * mm, 1.4 * mm}}};
        auto asked = outputs();
        asked.insert(asked.end(), {"strings[2].line.saddle_z", "strings[2].line.nut_y"}); // inside a line
        const auto table = sweep_grid(model, knobs, asked);
        REQUIRE(table.rows == 12);
        CHECK(table.problems.empty());
        CHECK(std::string(table.inputs[0].kind) == "length");
        CHECK(std::string(table.outputs[1].kind) == "force");
        std::size_t row = 0;
        for (const double height : {17e-3, 18e-3, 19e-3, 20e-3}) {
            for (const double slot : {1.2e-3, 1.5e-3, 1.4e-3}) {
                CHECK(near::relative(table.input(row, 0).si(), height, 1e-15));
                auto moved = model;
                moved.instrument.saddle.height_bass = length<>::from_value(table.input(row, 0).si());
                moved.instrument.nut.slot_heights[0] = length<>::from_value(slot);
                const auto s = solve(moved);
                CHECK(table.input(row, 1).si() == slot);
                CHECK(table.output(row, 0).si() == s.strings[0].heights[11].value());
                CHECK(table.output(row, 1).si() == s.down_force.value());
                CHECK(table.output(row, 2).si() == s.relief->gap.value());
                CHECK(table.output(row, 3).si() == s.strings[7].tension.value());
                CHECK(std::isnan(table.output(row, 4).si())); // no pins on this one
                CHECK(table.output(row, 5).si() == s.strings[2].line.saddle_z.value());
                CHECK(table.output(row, 6).si() == s.strings[2].line.nut_y.value());
                ++row;
            }
        }
    }
    TEST_CASE("the number of threads changes nothing, and progress comes from here to the end") {
        const auto model = demo_model();
        const std::vector<knob> knobs{knob_between("saddle.height_bass", 17 * mm, 20 * mm, 25),
                                      knob_between("neck.back_modulus", 8 * GPa, 12 * GPa, 11)};
        std::vector<std::size_t> seen;
        const auto here = std::this_thread::get_id();
        const auto one =
            sweep_grid(model, knobs, outputs(), {.threads = 1, .progress = [&](std::size_t done, std::size_t all) {
                                                     CHECK(std::this_thread::get_id() == here);
                                                     CHECK(all == 275);
                                                     seen.push_back(done);
                                                 }});
        CHECK(std::is_sorted(seen.begin(), seen.end()));
        CHECK(seen.size() > 2);
        CHECK(seen.back() == 275);
        for (const unsigned threads : {2U, 3U, 8U}) {
            CHECK(same(one, sweep_grid(model, knobs, outputs(), {.threads = threads})));
        }
    }
    TEST_CASE("what a caller's progress throws comes back to the caller, whatever the number of threads") {
        const auto model = demo_model();
        const std::vector<knob> knobs{knob_between("saddle.height_bass", 17 * mm, 20 * mm, 300)};
        for (const unsigned threads : {1U, 3U}) {
            std::size_t calls = 0;
            const auto stop = [&](std::size_t, std::size_t) {
                ++calls;
                throw std::runtime_error("enough");
            };
            CHECK_THROWS_WITH_AS((void)sweep_grid(model, knobs, outputs(), {.threads = threads, .progress = stop}),
                                 "enough", std::runtime_error);
            CHECK(calls == 1);
        }
    }
    TEST_CASE("a row that cannot be solved is named, the others are not lost") {
        const auto model = demo_model();
        const std::vector<std::string> paths{"saddle.height_bass", "strings[0].string.core.diameter"};
        const std::vector<std::vector<any_quantity>> rows{
            {18 * mm, 0.45 * mm}, {-1 * mm, 0.45 * mm}, {18 * mm, std::nan("") * mm}, {19 * mm, 0.4 * mm}};
        const auto table = sweep_rows(model, paths, rows, outputs());
        REQUIRE(table.problems.size() == 2);
        CHECK(table.problems[0].row == 1);
        CHECK(table.problems[0].problems[0].field == "saddle.height_bass");
        CHECK(table.problems[1].row == 2);
        CHECK(table.problems[1].problems[0].field == "strings[0].string.core.diameter");
        CHECK(std::isnan(table.output(1, 1).si()));
        CHECK(table.output(0, 1).si() > 0);
        CHECK(table.output(3, 1).si() > 0);
        CHECK(table.input(1, 0).si() == -1e-3);
        // Nor where the model itself cannot be solved.
        auto broken = model;
        broken.instrument.saddle.height_bass = length<>();
        const auto mended = sweep_rows(broken, paths, rows, outputs());
        CHECK(same(mended, table));
        CHECK(std::string(mended.outputs[1].kind) == "force");
    }
    TEST_CASE("a sample's deviates are SplitMix64 on a counter and Box and Muller's transformation") {
        // The next number of a generator whose state is z. Its first five of 1234567 are those that Rosetta Code lists.
        const auto next = [](std::uint64_t z) {
            z += 0x9e3779b97f4a7c15;
            z ^= z >> 30;
            z *= 0xbf58476d1ce4e5b9;
            z ^= z >> 27;
            z *= 0x94d049bb133111eb;
            return z ^ (z >> 31);
        };
        std::uint64_t state = 1234567;
        for (const std::uint64_t listed : {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                           4593380528125082431U, 16408922859458223821U}) {
            CHECK(next(state) == listed);
            state += 0x9e3779b97f4a7c15;
        }
        for (const std::uint64_t row : {0U, 1U, 7U}) {
            for (const std::uint64_t column : {0U, 1U, 3U}) {
                const std::uint64_t key = next(next(next(42) ^ row) ^ column);
                const auto share = [](std::uint64_t bits) {
                    return std::ldexp(static_cast<double>((bits >> 11) + 1), -53);
                };
                const double a = share(next(key ^ 1)), b = share(next(key ^ 2));
                CHECK(near::relative(kernel::normal_deviate(42, row, column),
                                     std::sqrt(2 * std::log(1 / a)) * std::cos(6.283185307179586 * b), 1e-12));
            }
        }
    }
    TEST_CASE("a sample scatters as the law of propagation says, the same for a seed") {
        const auto model = demo_model();
        const std::vector<doubt> doubts{{"saddle", 0.05 * mm, {{"saddle.height_bass"}}},
                                        {"feeler", 0.02 * mm, {{"nut.slot_heights[0]"}, {"nut.slot_heights[1]"}}},
                                        {"gauge twice", 0.03 * mm, {{"saddle.height_bass", 2}}}};
        const std::vector<std::string> wanted{"strings[0].heights[11]"};
        const auto table = sweep_sample(model, doubts, 1000, 42, wanted);
        CHECK(same(table, sweep_sample(model, doubts, 1000, 42, wanted, {.threads = 2})));
        CHECK_FALSE(same(table, sweep_sample(model, doubts, 1000, 43, wanted)));
        double mean = 0, square = 0;
        for (std::size_t i = 0; i < table.rows; ++i) { mean += table.output(i, 0).si() / 1000; }
        for (std::size_t i = 0; i < table.rows; ++i) { square += std::pow(table.output(i, 0).si() - mean, 2) / 999; }
        const auto results = propagate(model, doubts);
        const auto* expected = find_result(results, wanted[0]);
        const double standard = expected->standard().si();
        CHECK(std::abs(mean - expected->value.si()) < 4 * standard / std::sqrt(1000.0));
        CHECK(near::relative(std::sqrt(square), standard, 0.1)); // four standard errors of a standard deviation
    }
    TEST_CASE("a number that cannot be less than its range is reflected at its end, and no variant is lost") {
        auto model = demo_model();
        model.instrument.frets.wear.assign(19, field<length<>>(0.02 * mm)); // 0 at least
        const std::vector<doubt> doubts{{"wear", 0.05 * mm, {{"frets.wear[11]"}}},
                                        {"wear, too", 0.02 * mm, {{"frets.wear[11]", -1}}},
                                        {"saddle", 0.1 * mm, {{"saddle.height_bass"}}}};
        const std::vector<std::string> wanted{"strings[0].crest_z[11]"};
        const std::size_t rows = 400;
        const auto table = sweep_sample(model, doubts, rows, 5, wanted);
        CHECK(table.problems.empty());
        int reflected = 0;
        for (std::size_t i = 0; i < rows; ++i) {
            const double worn = 0.02e-3 + table.input(i, 0).si() - table.input(i, 1).si();
            reflected += worn < 0;
            auto moved = model;
            moved.instrument.frets.wear[11] = length<>::from_value(std::abs(worn));
            moved.instrument.saddle.height_bass =
                moved.instrument.saddle.height_bass + length<>::from_value(table.input(i, 2).si());
            CHECK(near::within(table.output(i, 0).si(), solve(moved).strings[0].crest_z[11].value(), 1e-12));
        }
        CHECK(reflected > 100);
        // In packs, and far beyond both ends of a range.
        CHECK(same(table, sweep_sample<double>(model, doubts, rows, 5, wanted, {.threads = 2})));
        const std::vector<doubt> wide{{"end", 3.0, {{"playing.saddle_end"}}}};
        CHECK(sweep_sample(model, wide, 50, 5, wanted).problems.empty());
        // A knob that is set beyond its range is refused as ever.
        CHECK(sweep_grid(model, std::vector<knob>{{"frets.wear[11]", {-0.1 * mm}}}, wanted).problems.size() == 1);
    }
    TEST_CASE("what names no number, or another kind, is refused") {
        const auto model = demo_model();
        const std::vector<knob> good{knob_between("saddle.height_bass", 17 * mm, 20 * mm, 2)};
        CHECK_THROWS_WITH((void)sweep_grid(model, good, std::vector<std::string>{"no.such"}),
                          "no.such must be the path of a number of a solved setup.");
        CHECK_THROWS_AS((void)sweep_grid(model, std::vector{knob_between("saddle.hat", 17 * mm, 20 * mm, 2)}, outputs()),
                        invalid_input);
        CHECK_THROWS_WITH(
            (void)sweep_grid(model, std::vector{knob_between("saddle.height_bass", 17 * N, 20 * N, 2)}, outputs()),
            "saddle.height_bass must be moved by a length, as it is one.");
        CHECK_THROWS_AS((void)sweep_grid(model, std::vector{knob{"saddle.height_bass", {}}}, outputs()), invalid_input);
        CHECK_THROWS_AS((void)sweep_rows(model, std::vector<std::string>{"saddle.height_bass"},
                                         std::vector<std::vector<any_quantity>>{{1 * mm, 2 * mm}}, outputs()),
                        invalid_input);
        CHECK(sweep_rows(model, std::vector<std::string>{"saddle.height_bass"}, {}, outputs()).rows == 0);
        CHECK_THROWS_WITH((void)sweep_grid(model, std::vector{good[0], good[0]}, outputs()),
                          "saddle.height_bass must be varied once.");
        CHECK(sweep_grid(model, {}, outputs()).rows == 1);
        CHECK(sweep_grid(model, good, {}).rows == 2);
    }
}
