#include "number_archetype.hpp"

#include <vector>

#include <tautline/action/height.hpp>
#include <tautline/board/scale.hpp>
#include <tautline/board/surface.hpp>
#include <tautline/core/describe.hpp>
#include <tautline/core/line_fit.hpp>
#include <tautline/core/root.hpp>
#include <tautline/core/units.hpp>
#include <tautline/strings/tension.hpp>

#include "near.hpp"

// Every line below is run on the archetype and on double, and must agree to the last bit. On x87 an archetype's number is
// stored where a double stays in a register, so that there only nearly all bits can agree.

using namespace tautline;
using namespace tautline::units;
using A = archetype::number;

namespace {

static_assert(real<A> && real<dual<A, 2>> && !std::is_convertible_v<archetype::mask, bool>);
static_assert(!std::is_convertible_v<double, A> && !std::is_constructible_v<A, int>);

double seen(double v) { return v; }
double seen(const A& v) { return v.seen(); }
template <class U, class R>
double seen(const bu::quantity<U, R>& q) {
    return seen(q.value());
}

/// `f` told the number type, run on both.
template <class F>
void agree(F f) {
    const double told = seen(f(A())), plain = seen(f(0.0));
    CHECK((near::rounds_at_once ? told == plain : near::relative(told, plain, 1e-15)));
    CHECK(seen(f(0.0)) != 0);
}

template <class R>
struct rail {
    using real = R;
    field<length<R>> span{over<R>(300 * mm)};
    R share{number<R>(0.5L)};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("span", more_than(0 * mm), self.span...);
        visit("share", between(0, 1), self.share...);
    }
};

} // namespace

TEST_SUITE("number archetype") {
    TEST_CASE("core's functions") {
        agree([]<class R>(R) { return min(number<R>(3), number<R>(2)); });
        agree([]<class R>(R) { return max(number<R>(3), number<R>(2)); });
        agree([]<class R>(R) { return abs(number<R>(-3)); });
        agree([]<class R>(R) { return hypot(number<R>(3), number<R>(2)); });
        agree([]<class R>(R) { return power(number<R>(3), -4); });
        agree([]<class R>(R) { return root_or_zero(number<R>(3)); });
        agree([]<class R>(R) { return pi<R>(); });
        agree([]<class R>(R) {
            const auto a = over<R>(3 * mm), b = over<R>(2 * inch);
            return sqrt(square(min(a, b)) + abs(a) * hypot(a, b) + max(a, b) * select(is_less(a, b), a, b));
        });
        CHECK(all_finite(number<A>(3)));
        CHECK_FALSE(all_finite(number<A>(INFINITY)));
        CHECK_FALSE(all_finite(number<A>(NAN)));
    }
    TEST_CASE("duals, roots and line fits") {
        agree([]<class R>(R) {
            const auto x = dual<R, 1>::variable(number<R>(0.7L), 0);
            return pow(x, number<R>(1.5L)).partial[0] + exp(sin(x) * cos(x)).partial[0] + (log(x) / atan(x)).partial[0] +
                   (tan(x) - asin(x) * acos(x)).partial[0] + atan2(x, sqrt(x)).partial[0] + exp2(log2(x)).partial[0];
        });
        agree([]<class R>(R) { return find_root([](auto x) { return x * x * x - 5; }, number<R>(1), number<R>(4)); });
        agree([]<class R>(R) { return newton_root([](auto x) { return x * x - number<decltype(x)>(5); }, number<R>(2)); });
        agree([]<class R>(R) {
            const auto n = [](long double v) { return number<R>(v); };
            return height_variance(fit_line<R>({n(1), n(2), n(4)}, {n(3), n(2), n(7)}, true), n(3));
        });
    }
    TEST_CASE("descriptions: carried, checked and refused, with no value to show") {
        CHECK(is_valid(over<A>(rail<double>{})));
        auto r = over<A>(rail<double>{});
        r.span = over<A>(-3 * mm);
        r.share = number<A>(NAN);
        const auto found = validate(r, "rail");
        REQUIRE(found.size() == 2);
        CHECK(found[0].sentence() == "rail.span must be more than 0 mm.");
        CHECK_THROWS_AS(require_valid(r), invalid_input);
    }
    TEST_CASE("intervals") {
        agree([]<class R>(R) { return frequency_ratio(interval<R>::from_cents(number<R>(702))); });
        agree([]<class R>(R) { return interval_between<R>(over<R>(220 * Hz), over<R>(275 * Hz)).cents(); });
    }
    TEST_CASE("free formulas of strings and board") {
        agree([]<class R>(R) { return tension(over<R>(0.56 * g_per_m), over<R>(25.5 * inch), over<R>(330 * Hz)); });
        agree([]<class R>(R) { return pitch_at(over<R>(0.56 * g_per_m), over<R>(25.5 * inch), over<R>(70 * N)); });
        agree([]<class R>(R) { return mass_per_length_for(over<R>(70 * N), over<R>(25.5 * inch), over<R>(330 * Hz)); });
        agree([]<class R>(R) { return equal_step_position(over<R>(25.5 * inch), 7); });
        agree([]<class R>(R) { return sagitta(over<R>(12 * inch), over<R>(52 * mm)); });
        agree([]<class R>(R) { return radius_from_sagitta(over<R>(1 * mm), over<R>(52 * mm)); });
    }
    TEST_CASE("heights over frets") {
        agree([]<class R>(R) {
            const auto line = over<R>(string_line{.nut_z = 1 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm});
            const std::vector<length<R>> x{over<R>(100 * mm), over<R>(300 * mm)}, z{over<R>(1 * mm), over<R>(1 * mm)};
            std::vector<length<R>> heights(2);
            kernel::heights_over_frets<R>(line, x, z, heights);
            return heights[1];
        });
    }
}
