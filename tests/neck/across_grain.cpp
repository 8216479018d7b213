#include <tautline/neck/across_grain.hpp>

#include <doctest/doctest.h>

#include "near.hpp"

using namespace tautline;

TEST_SUITE("across the grain") {
    TEST_CASE("a wood by name lies midway between its two coefficients, and both lie within its doubt") {
        // Wood Handbook, table 13-5: sugar maple 0.00165 radial, 0.00353 tangential.
        const auto maple = woods::across_grain_of("sugar maple");
        CHECK(maple.by_name);
        CHECK(near::within(maple.share, 0.00259, 1e-9));
        CHECK(maple.share - 2 * maple.standard < 0.00165);
        CHECK(maple.share + 2 * maple.standard > 0.00353);
        // Of a number that is as likely anywhere between two, the standard uncertainty is the way between them over the
        // root of 12 (JCGM 100, 4.3.7); a piece's own 15 % besides.
        CHECK(maple.standard > 0.00188 / std::sqrt(12.0));
        CHECK(maple.standard < 0.00188 / std::sqrt(12.0) + 0.15 * 0.00259);
    }
    TEST_CASE("the less a name says, the wider is its doubt") {
        const auto one = woods::across_grain_of("sugar maple"), some = woods::across_grain_of("maple"),
                   none = woods::across_grain_of("");
        CHECK(some.by_name);
        CHECK_FALSE(none.by_name);
        CHECK(one.standard < some.standard + 1e-12);
        CHECK(some.standard < none.standard);
        CHECK(woods::across_grain_of("no such wood").share == none.share);
    }
    TEST_CASE("every wood of the table lies within the doubt of an unknown one, and within its own") {
        const auto any = woods::across_grain_of("");
        for (const wood& w : woods::all) {
            CAPTURE(w.name);
            const auto own = woods::across_grain_of(w.name);
            CHECK(own.share > 0);
            CHECK(own.standard > 0);
            for (const auto& c : {w.radial_coefficient(), w.tangential_coefficient()}) {
                if (!c) { continue; }
                CHECK(std::abs(*c - any.share) < 2 * any.standard);
                CHECK(std::abs(*c - own.share) < 2 * own.standard);
            }
        }
    }
}
