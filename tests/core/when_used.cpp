#include <tautline/core/when_used.hpp>

#include <cstddef>
#include <type_traits>

#include <doctest/doctest.h>

using namespace tautline;

namespace {

struct never_defined;

// Would not compile if anybody called it.
template <class When = when_used>
std::size_t size_of_what_is_never_defined() {
    return sizeof(typename known_when_used<never_defined, When>::type);
}
template <class = when_used>
int twice(int x) {
    return 2 * x;
}

} // namespace

TEST_CASE("A function marked so is compiled where it is called") {
    CHECK(twice(21) == 42);
    CHECK(twice({}) == 0); // its parameters take what those of any function take
    const bool one = &twice<> == &twice<when_used>;
    CHECK(one);
    // Its address would compile it: that it has a type does not.
    CHECK(std::is_same_v<decltype(size_of_what_is_never_defined()), std::size_t>);
}
