#include <tautline/job/asked_results.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const asked_result* of(const std::vector<asked_result>& list, std::string_view path) {
    for (const auto& a : list) {
        if (a.path == path) { return &a; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("asked results") {
    TEST_CASE("each names a number of the setup, with the wish where there is one") {
        auto i = demo::four_course();
        wishes w;
        w.first_fret_bass = 0.5 * mm;
        w.action_treble = 1.8 * mm;
        w.down_force = 90 * N;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        const auto list = asked_results(w, s);
        const auto numbers = demo::leaves_of(s);
        for (const auto& a : list) { CHECK_MESSAGE(numbers.count(a.path) == 1, a.path); }
        CHECK(near::within(of(list, "strings[0].heights[0]")->wanted.as<length<>>(), 0.5 * mm, 1e-9 * mm));
        CHECK_FALSE(of(list, "strings[7].heights[0]")->wanted.has_value());
        CHECK(near::within(of(list, "strings[7].heights[11]")->wanted.as<length<>>(), 1.8 * mm, 1e-9 * mm));
        CHECK(of(list, "strings[7].heights[11]")->name == "over fret 12, course 1 (E4), its treble-side string");
        CHECK(of(list, "down_force")->wanted == any_quantity(90 * N));
        CHECK_FALSE(of(list, "top.sink"));
        CHECK_FALSE(of(list, "pinned.turning"));
    }
    TEST_CASE("one string takes the treble's wish where that is alone") {
        auto i = demo::four_course();
        i.nut.spacing = {.spread = 0 * mm, .courses = {1}};
        i.saddle.spacing = i.nut.spacing;
        i.nut.slot_heights = {1.3 * mm};
        i.posts.resize(1);
        i.saddle.height_treble = i.saddle.height_bass;
        auto strung = demo::unison_pairs();
        strung.strings.resize(1);
        wishes w;
        w.action_treble = 1.8 * mm;
        const auto list = asked_results(w, solve(strung_instrument{i, strung}));
        CHECK(near::within(of(list, "strings[0].heights[11]")->wanted.as<length<>>(), 1.8 * mm, 1e-9 * mm));
        CHECK(list.size() == 6);
    }
}
