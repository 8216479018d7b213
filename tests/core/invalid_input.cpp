#include <tautline/core/invalid_input.hpp>

#include <limits>
#include <string>

#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

template <class Q, class Range>
std::string said(const Q& q, const Range& range) {
    try {
        require("string.diameter", q, range);
    } catch (const invalid_input& e) { return e.what(); }
    return "";
}

// Ranges keep their kind: a length's range cannot guard a force.
template <class Q, class Range>
concept guards = requires(Q q, Range r) {
    require("x", q, r);
};
static_assert(guards<length<>, range_of<unit::length>> && !guards<force<>, range_of<unit::length>>);
static_assert(guards<double, range_of<void>> && !guards<length<>, range_of<void>> &&
              !guards<double, range_of<unit::length>>);
static_assert(guards<interval<>, range_of<cents_tag>> && !guards<interval<>, range_of<void>>);

static_assert(between(0, 1).holds(0.0) && between(0, 1).holds(1.0) && !between(0, 1).holds(-0.001));
// Nothing measures 1e-300 of anything: what is to be more than 0 begins where its kind does, and no range is without end.
static_assert(!more_than(0).holds(1e-300) && more_than(0).holds(1e-9) && !more_than(0).holds(1e300));
static_assert(!more_than(0 * mm).holds(1e-300) && more_than(0 * mm).holds(1e-6) && !more_than(0 * mm).holds(1e300));
static_assert(!more_than_up_to(0 * N, 5 * N).holds(1e-300) && more_than_up_to(0 * N, 5 * N).holds(1e-6));
static_assert(!at_least(0 * N).holds(1e300) && at_least(0 * N).holds(0.0) && !any_finite<unit::force>().holds(-1e300));
static_assert(!more_than(0).holds(0.0) && !more_than_up_to(0, 1).holds(1.001));
static_assert(more_than_up_to(0, 1).holds(1.0f) && !more_than_up_to(0, 1).holds(0.0f));
static_assert(at_least(1 * mm).holds(0.001) && !at_least(1 * mm).holds(0.0009));

// A character is not a number in digits.
static_assert(std::is_constructible_v<messages::part, short> && !std::is_constructible_v<messages::part, char> &&
              !std::is_constructible_v<messages::part, bool>);

constexpr double infinity = std::numeric_limits<double>::infinity();

} // namespace

TEST_SUITE("invalid_input") {
    TEST_CASE("a sentence is put together from words and whole numbers of any type") {
        using messages::joined;
        const std::string text = "text";
        CHECK(joined({}).empty());
        CHECK(joined({"words, ", text, ", ", std::string_view(text).substr(1), "."}) == "words, text, ext.");
        CHECK(joined({0, " ", 7u, " ", -42, " ", std::size_t{100}}) == "0 7 -42 100");
        CHECK(joined({std::numeric_limits<long long>::min()}) == std::to_string(std::numeric_limits<long long>::min()));
        CHECK(joined({std::numeric_limits<unsigned long long>::max()}) ==
              std::to_string(std::numeric_limits<unsigned long long>::max()));
        CHECK(joined({std::numeric_limits<short>::min()}) == "-32768");
        std::string more = "so far";
        messages::append(more, {", and ", 3});
        CHECK(more == "so far, and 3");
        CHECK(messages::path_of("layers", 12) == "layers[12]");
        CHECK(messages::path_of("layers", 0, "pitch") == "layers[0].pitch");
    }

    TEST_CASE("the sentence names the field, the value as the bench reads it, and what is allowed") {
        CHECK(said(-0.3 * mm, more_than(0 * mm)) == "string.diameter is -0.3 mm; it must be more than 0 mm.");
        CHECK(said(12 * mm, more_than_up_to(0 * mm, 10 * mm)) ==
              "string.diameter is 12 mm; it must be more than 0 mm and at most 10 mm.");
        CHECK(said(0 * N, at_least(5 * N)) == "string.diameter is 0 N; it must be at least 5 N.");
        CHECK(said(3 * GPa, between(20 * GPa, 400 * GPa)) ==
              "string.diameter is 3000 MPa; it must be at least 20000 MPa and at most 400000 MPa.");
        CHECK(said(91 * deg, between(-90 * deg, 90 * deg)) ==
              "string.diameter is 91 deg; it must be at least -90 deg and at most 90 deg.");
        CHECK(said(1.5, between(0, 1)) == "string.diameter is 1.5; it must be at least 0 and at most 1.");
        CHECK(said(60 * cents, between(-50 * cents, 50 * cents)) ==
              "string.diameter is 60 cents; it must be at least -50 cents and at most 50 cents.");
        CHECK(said(5 * mm, more_than_up_to(0 * mm, 10 * mm)).empty());
        CHECK(said(50 * cents, between(-50 * cents, 50 * cents)).empty());
    }
    TEST_CASE("what is no number is refused by every range, and said without a sign or a unit") {
        const std::string nan = "string.diameter is not a number; it must be more than 0 mm.";
        CHECK(said(std::nan("") * mm, more_than(0 * mm)) == nan);
        CHECK(said(-std::nan("") * mm, more_than(0 * mm)) == nan);
        CHECK(said(infinity * mm, more_than(0 * mm)) == "string.diameter is infinite; it must be more than 0 mm.");
        CHECK(said(-infinity * mm, any_finite<unit::length>()) ==
              "string.diameter is infinite; it must be a finite number.");
        CHECK(said(std::nan(""), between(0, 1)) == "string.diameter is not a number; it must be at least 0 and at most 1.");
        CHECK(said(std::nan("") * cents, between(0 * cents, 9 * cents)).substr(0, 35) ==
              "string.diameter is not a number; it");
        CHECK(said(1e6 * mm, any_finite<unit::length>()).empty());
        // What no length has is told as that, where the range itself would hold it.
        CHECK(said(1e30 * mm, any_finite<unit::length>()) ==
              "string.diameter is 1e+30 mm; it must be a possible size: at most 10000000 mm.");
        CHECK(said(-1e30 * mm, any_finite<unit::length>()) ==
              "string.diameter is -1e+30 mm; it must be a possible size: at least -10000000 mm.");
        CHECK(said(1e-300 * mm, more_than(0 * mm)) ==
              "string.diameter is 1e-300 mm; it must be a possible size: at least 0.0001 mm.");
    }
    TEST_CASE("a limit itself, for every number type: an open end excludes it, a closed one does not") {
        const auto ends = []<class R>(R) {
            CHECK_FALSE(said(over<R>(0 * mm), more_than_up_to(0 * mm, 10 * mm)).empty());
            CHECK(said(over<R>(10 * mm), more_than_up_to(0 * mm, 10 * mm)).empty());
            CHECK_FALSE(said(over<R>(10.001 * mm), more_than_up_to(0 * mm, 10 * mm)).empty());
        };
        ends(0.0f);
        ends(0.0);
        ends(0.0L);
        ends(dual<double, 2>());
        ends(dual<dual<double, 1>, 1>());
    }
    TEST_CASE("an error carries all its problems, a line each") {
        const invalid_input e({{"a", "1 mm", "must be 2"}, {"b", "", "must be there"}});
        CHECK(std::string(e.what()) == "a is 1 mm; it must be 2.\nb must be there.");
        REQUIRE(e.problems().size() == 2);
        CHECK(e.problems()[1].field == "b");
    }
    TEST_CASE("a rule in words") {
        CHECK_NOTHROW(require_that(true, "frets", "must rise"));
        CHECK_THROWS_WITH_AS(require_that(false, "frets", "must rise"), "frets must rise.", invalid_input);
    }
    TEST_CASE("numbers are printed short: six digits, or all before the point") {
        CHECK(number_text(0.1L + 0.2L) == "0.3");
        CHECK(number_text(123456.7L) == "123457");
        // Large ones have all that stands before the point, as they are typed.
        CHECK(number_text(1234567.8L) == "1234568");
        CHECK(number_text(-999999.6L) == "-1000000");
        CHECK(number_text(1e15L) == "1000000000000000");
        CHECK(number_text(1.5e16L) == "1.5e+16");
        CHECK(quantity_text<unit::length>(0.0123456789L) == "12.3457 mm");
    }
    TEST_CASE("every kind is printed in its bench unit: written in that unit it keeps its number") {
        const auto text = []<class U>(const bu::quantity<U, double>& q) { return quantity_text<U>(q.value()); };
        CHECK(text(3 * mm) == "3 mm");
        CHECK(text(3 * mm2) == "3 mm^2");
        CHECK(text(3000 * mm3) == "3 cm^3");
        CHECK(text(3 * gram) == "3 g");
        CHECK(text(3 * second) == "3 s");
        CHECK(text(3 * Hz) == "3 Hz");
        CHECK(text(3 * metre_per_second) == "3 m/s");
        CHECK(text(3 * metre_per_second2) == "3 m/s^2");
        CHECK(text(3 * N) == "3 N");
        CHECK(text(3 * MPa) == "3 MPa");
        CHECK(text(3 * kg_per_m3) == "3 kg/m^3");
        CHECK(text(3 * deg) == "3 deg");
        CHECK(text(3 * per_metre) == "3 1/m");
        CHECK(text(3 * g_per_m) == "3 g/m");
        CHECK(text(3 * N_per_mm) == "3 N/mm");
        CHECK(text(3 * mm_per_N) == "3 mm/N");
        CHECK(text(3 * N_m) == "3 N m");
        CHECK(text(3 * N_m_per_rad) == "3 N m/rad");
        CHECK(text(3 * mm4) == "3 mm^4");
        CHECK(text(3 * N_m2) == "3 N m^2");
        CHECK(text(3 * per_kelvin) == "3 1/K");
        CHECK(text(3 * kelvin) == "3 K");
    }
}
