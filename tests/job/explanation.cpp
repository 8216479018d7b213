#include <tautline/job/explanation.hpp>

#include "setup/demo.hpp"

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using demo::strung;

} // namespace

TEST_SUITE("explanation") {
    TEST_CASE("slopes are those of a finite difference") {
        const auto model = strung();
        const auto e = explain(model, "strings[2].heights[11]");
        CHECK(e.value.kind() == "length");
        CHECK(near::relative(e.value.si(), solve(model).strings[2].heights[11].value(), 1e-14));
        REQUIRE(e.inputs.size() > 10);
        std::size_t checked = 0;
        for (const auto& i : e.inputs) {
            if (i.value.si() == 0 || i.path == "neck.creep_factor") { continue; } // creep below 1 is refused
            const auto shifted = [&](double by) {
                auto moved = model;
                for_each_leaf(moved, [&](std::string_view path, auto& x) {
                    if (path == i.path) { set_number(x, number_of(x) + by); }
                });
                return solve(moved).strings[2].heights[11].value();
            };
            const double h = 1e-5 * std::abs(i.value.si());
            CAPTURE(i.path);
            CHECK(i.effect.si() == doctest::Approx((shifted(h) - shifted(-h)) / (2 * h))
                                       .epsilon(1e-3)
                                       .scale(1e-3 * e.value.si() / i.value.si()));
            if (++checked == 12) { break; }
        }
    }
    TEST_CASE("what has no part in a result is not among its inputs; what has most leads") {
        const auto e = explain(strung(), "strings[0].tension");
        for (const auto& i : e.inputs) {
            CHECK(i.path.find("frets") == std::string::npos);
            CHECK(i.path.find("neck.") == std::string::npos);
            CHECK(i.path.find("strings[1]") == std::string::npos);
        }
        // Mersenne's law: twice the pitch and the length, once the mass.
        REQUIRE(e.inputs.size() > 3);
        CHECK(near::relative(e.inputs[0].for_one_percent().si() / e.value.si(), 0.02, 0.02));
        for (std::size_t k = 1; k < e.inputs.size(); ++k) {
            CHECK(std::abs(e.inputs[k - 1].for_one_percent().si()) >= std::abs(e.inputs[k].for_one_percent().si()));
        }
    }
    TEST_CASE("a path of no result is refused") {
        CHECK_THROWS_WITH_AS((void)explain(strung(), "strings[99].tension"),
                             "strings[99].tension must be the path of a number of the result.", invalid_input);
        CHECK_THROWS_AS((void)explain(strung(), ""), invalid_input);
    }
}
