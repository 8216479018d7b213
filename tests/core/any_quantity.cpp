#include <doctest/doctest.h>
#include <tautline/core/any_quantity.hpp>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("any quantity") {
    TEST_CASE("it is read as what it is, and as nothing else") {
        CHECK(any_quantity{}.si() == 0);
        // A member of a model is what it holds, whether it may be left out or not.
        CHECK(std::string_view(kernel::leaf_kind<field<length<>>>::name) == "length");
        CHECK(std::string_view(kernel::leaf_kind<needed<force<>>>::name) == "force");
        CHECK(std::string_view(kernel::leaf_kind<dual<double, 2>>::name) == "number");
        const any_quantity gap = 0.3 * mm, pull = 70 * N, sharp = interval<>::from_cents(4), share = 0.7, none;
        CHECK(gap.kind() == "length");
        CHECK(gap.as<length<>>() == 0.3 * mm);
        CHECK(pull.as<force<>>() == 70 * N);
        CHECK(sharp.as<interval<>>().cents() == 4);
        CHECK(share.as<double>() == 0.7);
        CHECK_FALSE(none.has_value());
        CHECK_THROWS_WITH((void)pull.as<length<>>(), "the number is force; it must be read as what it is, not as length.");
        CHECK_THROWS_WITH((void)none.as<double>(), "the number is nothing; it must be read as what it is, not as number.");
        CHECK_THROWS_AS((void)sharp.as<double>(), invalid_input);
        static_assert(any_quantity(2 * mm).as<length<>>() == 2 * mm);
    }
    TEST_CASE("differences and multiples keep the kind; two kinds have no difference") {
        CHECK((any_quantity(3 * mm) - any_quantity(1 * mm)).as<length<>>() == 2 * mm);
        CHECK((2 * any_quantity(3 * N)).as<force<>>() == 6 * N);
        CHECK_THROWS_AS((void)(any_quantity(3 * mm) - any_quantity(1 * N)), invalid_input);
        CHECK_THROWS_AS((void)(any_quantity(3 * mm) - any_quantity(1)), invalid_input);
        CHECK(any_quantity(3 * mm) == any_quantity(3 * mm));
        CHECK_FALSE(any_quantity(3e-3) == any_quantity(3 * mm));
    }
    TEST_CASE("every kind is found by its name") {
        int found = 0;
        const auto each = [&]<class... U>() {
            ((found += kernel::with_kind(kind<U>::name, [&]<class V>() { CHECK(std::is_same_v<U, V>); })), ...);
            return sizeof...(U);
        };
        const auto kinds =
            each.operator()<unit::length, unit::area, unit::volume, unit::mass, unit::duration, unit::frequency,
                            unit::velocity, unit::acceleration, unit::force, unit::stress, unit::density, unit::angle,
                            unit::curvature, unit::linear_density, unit::stiffness, unit::compliance, unit::moment,
                            unit::rotational_stiffness, unit::second_moment, unit::flexural_rigidity,
                            unit::thermal_expansion, unit::temperature_difference>();
        CHECK(found == static_cast<int>(kinds));
        CHECK_FALSE(kernel::with_kind("hat size", []<class V>() { FAIL("no such kind"); }));
    }
}
