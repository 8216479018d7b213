#include <tautline/doubt/readings_to_take.hpp>

#include "near.hpp"
#include "read_case.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const char* const action = "strings[0].heights[11]";

} // namespace

TEST_SUITE("readings to take") {
    TEST_CASE("what is told beforehand is what comes of it, one after the other") {
        const auto model = read_case::cittern();
        const auto doubts = read_case::cittern_doubts();
        std::vector<reading> taken;
        auto out = reconcile(model, doubts, {}, taken);
        auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const auto next = readings_to_take(model, out, *find_result(results, action));
        REQUIRE(next.size() == 3);
        double before = out.result_of(*find_result(results, action)).after.si();
        for (const auto& one : next) {
            CHECK(near::relative(one.before.si(), before, 1e-9));
            REQUIRE_FALSE(one.path.empty());
            // Taken, it reads what the instrument as read says: then nothing moves.
            reading r;
            r.path = one.path;
            r.state = one.state;
            taken.push_back(r);
            for (reading& t : taken) { t.value = 0; }
            read_case::fill(model, doubts, taken, std::vector<double>(20), 0, 1);
            out = reconcile(model, doubts, {}, taken);
            results = propagate(out.adjusted.at_pitch, out.doubts);
            before = out.result_of(*find_result(results, action)).after.si();
            CHECK(near::relative(one.after.si(), before, 1e-6));
        }
        // A height over a fret settles action better than relief does.
        CHECK(next[0].path.find("heights") != std::string::npos);
        CHECK(next[0].after.si() < 0.5 * next[0].before.si());
    }
    TEST_CASE("what is read already is not told again, nor what the instrument has not") {
        const auto model = read_case::cittern();
        const auto doubts = read_case::cittern_doubts();
        auto readings = read_case::cittern_readings();
        read_case::fill(model, doubts, readings, std::vector<double>(20), 0, 1);
        const auto out = reconcile(model, doubts, {}, readings);
        const auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const std::vector<reading> list{relief_read(0 * mm), height_read(0, 12, 0 * mm), height_read(0, 30, 0 * mm),
                                        height_read(2, 12, 0 * mm), height_read(2, 12, 0 * mm)};
        const auto next = readings_to_take(model, out, *find_result(results, action), list, 50);
        std::size_t read = 0;
        for (const auto& one : next) { read += !one.path.empty(); }
        CHECK(read == 1);
        for (const auto& one : next) {
            if (!one.path.empty()) { CHECK(one.path == "strings[2].heights[11]"); }
        }
    }
    TEST_CASE("an input may be what is best measured again; woods are not") {
        const auto model = read_case::cittern();
        const std::vector<doubt> doubts{read_case::of("neck.back_modulus", 2e9),
                                        read_case::of("saddle.height_bass", 0.5e-3)};
        const auto out = reconcile(model, doubts, {}, {});
        const auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const std::vector<reading> list{relief_read(0 * mm)};
        const auto next = readings_to_take(model, out, *find_result(results, action), list, 5);
        REQUIRE(next.size() == 2);
        CHECK(next[0].path.empty());
        CHECK(next[0].input == 1);
        CHECK(next[0].words == "saddle's height at the bass");
        CHECK(near::relative(next[0].standard.si(), 0.05e-3, 1e-12)); // the usual doubt
        CHECK(next[1].path == "relief.gap");
    }
}
