#include <tautline/job/former_names.hpp>

#include <algorithm>

#include <doctest/doctest.h>

using namespace tautline;

namespace {

constexpr former_name made_up[] = {
    {"posts[].reach", "posts[].along"},
    {"strings[].frets[].lift", "strings[].heights[].rise"},
    {"board.tilt", "board.lean"},
    {"board.tilt.bass", "neck.twist"},
    {"board.lean.depth", "board.thickness"},
};

std::ptrdiff_t lists_in(std::string_view path) { return std::count(path.begin(), path.end(), '['); }

} // namespace

TEST_SUITE("former names") {
    TEST_CASE("a renamed path keeps its places in lists, and what stands below it moves with it") {
        CHECK(present_name("posts[3].reach", made_up) == "posts[3].along");
        CHECK(present_name("strings[12].frets[7].lift", made_up) == "strings[12].heights[7].rise");
        CHECK(present_name("board.tilt", made_up) == "board.lean");
        CHECK(present_name("board.tilt.treble[2]", made_up) == "board.lean.treble[2]");
    }
    TEST_CASE("the row that names most of a path counts, and what was renamed twice is told as it is now") {
        CHECK(present_name("board.tilt.bass", made_up) == "neck.twist");
        CHECK(present_name("board.tilt.depth", made_up) == "board.thickness");
    }
    TEST_CASE("what was not renamed has no other name") {
        for (const char* path :
             {"", "board", "board.tilts", "posts[3]", "posts.reach", "neck.board.tilt", "plans.board.tilt"}) {
            CHECK_MESSAGE(present_name(path, made_up).empty(), path);
        }
        CHECK(present_name("board.tilt", {}).empty());
    }
    TEST_CASE("a path of one state is renamed as the path behind it") {
        CHECK(present_name("planned.posts[0].reach", made_up) == "planned.posts[0].along");
        CHECK(present_name("found.board.tilt.depth", made_up) == "found.board.thickness");
    }
    TEST_CASE("two rows that rename into each other come to an end") {
        constexpr former_name circle[] = {{"a", "b"}, {"b", "a"}};
        CHECK(!present_name("a", circle).empty());
    }
    TEST_CASE("no row of the library's table is overruled by another, and lists stay lists") {
        for (const former_name& f : former_names) {
            CAPTURE(f.before);
            CHECK(f.before != f.now);
            CHECK(lists_in(f.before) == lists_in(f.now));
            CHECK(std::count_if(std::begin(former_names), std::end(former_names),
                                [&](const former_name& other) { return other.before == f.before; }) == 1);
        }
    }
}
