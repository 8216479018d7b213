#include <tautline/core/short_list.hpp>

#include <doctest/doctest.h>

#include <numeric>

using tautline::short_list;

namespace {
constexpr int sum_of_squares(int n) {
    short_list<int, 8> list;
    for (int i = 1; i <= n; ++i) { list.push_back(i * i); }
    return std::accumulate(list.begin(), list.end(), 0);
}
static_assert(sum_of_squares(4) == 30 && sum_of_squares(0) == 0);
static_assert(short_list<int, 3>{5, 6}.size() == 2 && short_list<int, 3>{5, 6}.back() == 6 &&
              short_list<int, 3>::capacity() == 3);
} // namespace

TEST_SUITE("short_list") {
    TEST_CASE("it holds as many as it says and refuses one more") {
        short_list<int, 3> list{1, 2};
        CHECK_FALSE(list.empty());
        list.push_back(3);
        CHECK_THROWS_AS(list.push_back(4), std::length_error);
        CHECK(list.size() == 3);
        CHECK(list[2] == 3);
        CHECK_THROWS_AS(list.resize(4), std::length_error);
        CHECK_THROWS_AS((short_list<int, 1>{1, 2}), std::length_error);
    }
    TEST_CASE("what was cut off does not come back") {
        short_list<int, 3> list{1, 2, 3};
        list.resize(1);
        list.resize(3);
        CHECK(list[0] == 1);
        CHECK(list[1] == 0);
        CHECK(list[2] == 0);
        list.clear();
        CHECK(list.empty());
        CHECK(list.begin() == list.end());
    }
    TEST_CASE("members change in place") {
        short_list<int, 3> list{1, 2, 3};
        for (int& v : list) { v *= 10; }
        list[1] = 7;
        const auto& seen = list;
        CHECK(seen[0] + seen[1] + seen.back() == 47);
    }
}
