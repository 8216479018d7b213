#include <string>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const finding* find(const setup& s, finding_kind kind) {
    for (const auto& f : s.findings) {
        if (f.kind == kind) { return &f; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("findings about the saddle") {
    TEST_CASE("a saddle that barely stands out of its bridge") {
        auto on = string_up(ready_made::flat_top());
        const auto told = [&](double exposed_mm) {
            on.instrument.pins->saddle_exposed = exposed_mm * mm;
            return solve(on);
        };
        CHECK_FALSE(find(told(4), finding_kind::saddle_barely_out));
        CHECK_FALSE(find(told(1), finding_kind::saddle_barely_out));
        const setup s = told(0.6);
        const auto* f = find(s, finding_kind::saddle_barely_out);
        REQUIRE(f);
        CHECK(f->severity == severity::warning);
        CHECK(near::within(f->number.as<length<>>(), 0.6 * mm, 1e-12 * mm));
        CHECK(
            sentence_of(*f, s.names) ==
            "The saddle stands 0.60 mm out of its slot: below about 1.00 mm nothing is left to cut, and strings come near "
            "the bridge's wood. A neck reset would let it stand higher.");
        CHECK_FALSE(find(solve(string_up(ready_made::octave_mandolin())), finding_kind::saddle_barely_out));
    }
}
