#include <limits>

#include <doctest/doctest.h>
#include <tautline/core/to_text.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("to text") {
    TEST_CASE("as a bench sheet shows it") {
        CHECK(bench_text(0.374 * mm) == "0.37 mm");
        CHECK(bench_text(0.374 * mm, {.units = measures::both}) == "0.37 mm = 14.7 thou");
        CHECK(bench_text(640 * mm, {.units = measures::imperial}) == "25.197 in");
        CHECK(bench_text(0.374 * mm, {.give_or_take = 0.05 * mm}) == "0.37 ± 0.05 mm");
        CHECK(bench_text(0.374 * mm, {.sign = true}) == "+0.37 mm");
        CHECK(bench_text(-0.001 * mm) == "0.00 mm"); // no minus zero
        CHECK(bench_text(71.16 * N) == "71.2 N");
        CHECK(bench_text(1400 * MPa, {.units = measures::both}) == "1400 MPa = 203.1 ksi");
        CHECK(bench_text(12 * deg, {.units = measures::both}) == "12.00 deg"); // one unit in both
        CHECK(bench_text(interval<>::from_cents(-3.25)) == "-3.3 cents");
        CHECK(bench_text(0.5) == "0.50");
        CHECK(bench_text({}) == "");
        CHECK(bench_text(2000 * N_m_per_rad) == "2000 N m/rad");                 // shown as messages do
        CHECK(bench_text(std::numeric_limits<double>::quiet_NaN() * mm) == "-"); // of a fret that a string does not reach
        CHECK(bench_text(1e300 * metre).size() > 300);
    }
    TEST_CASE("a minus zero is written as zero") {
        CHECK(to_text(-0.0 * mm) == "0 mm");
        CHECK(to_text(-0.0) == "0");
        CHECK(number_text(-0.0L) == "0");
        CHECK(to_text(-0.25 * mm) == "-0.25 mm");
    }
    TEST_CASE("quantities of any built-in number type") {
        CHECK(to_text(1.5f * mm) == "1.5 mm");
        CHECK(to_text(1.5L * N) == "1.5 N");
        CHECK(bench_text(0.375f * mm) == "0.38 mm");
        CHECK(bench_text(71.25L * N, {.give_or_take = 0.5L * N}) == "71.3 ± 0.5 N");
        CHECK(to_text(interval<float>::from_cents(-3.5f)) == "-3.5 cents");
    }
    TEST_CASE("another kind is refused, as the form and as the doubt") {
        CHECK_THROWS_WITH((void)bench_text(1 * N, show::height), "the number must be shown as a force.");
        CHECK_THROWS_WITH((void)bench_text(1 * N, {.give_or_take = 1 * mm}), "give or take must be a force.");
    }
    TEST_CASE("with significant digits") {
        CHECK(to_text(0.0254 * mm) == "0.0254 mm");
        CHECK(to_text(0.0254 * mm, {.units = measures::both}) == "0.0254 mm = 1 thou");
        CHECK(to_text(1 * kgf) == "9.80665 N");
        CHECK(to_text(1.0 / 3 * mm, {.digits = 3}) == "0.333 mm");
        CHECK(to_text(1.0 / 3 * mm, {.sign = true, .digits = 2}) == "+0.33 mm");
        CHECK(to_text(-1.0 / 3 * mm, {.sign = true, .digits = 2}) == "-0.33 mm");
        CHECK_THROWS_AS((void)to_text(1 * mm, {.digits = 0}), invalid_input);
        CHECK_THROWS_AS((void)to_text(1 * mm, {.digits = 7}), invalid_input);
    }
    TEST_CASE("one unit for a column, whatever stands in it") {
        const auto named = [](kind_name kind, measures m) { return std::string(column_unit_of(kind, m).name); };
        const std::pair<const char*, const char*> imperial[] = {
            {"length", "in"}, {"force", "lbf"}, {"stress", "psi"},     {"linear_density", "lb/in"}, {"moment", "lbf in"},
            {"angle", "deg"}, {"number", ""},   {"interval", "cents"}, {"second_moment", "mm^4"}};
        for (const auto& [kind, unit] : imperial) { CHECK(named(kind, measures::imperial) == unit); }
        CHECK(named("length", measures::metric) == "mm");
        CHECK(named("length", measures::both) == "mm");
        CHECK(named("stress", measures::metric) == "MPa");
        CHECK(column_unit_of("length", measures::imperial).size == doctest::Approx(0.0254).epsilon(1e-15));
        CHECK(column_unit_of("stress", measures::imperial).size == doctest::Approx(6894.757293).epsilon(1e-9));
        CHECK(column_unit_of("linear_density", measures::imperial).size == doctest::Approx(17.857967).epsilon(1e-6));
    }
    TEST_CASE("as a rule shows it") {
        CHECK(to_fraction_text(25.5 * inch) == "25 1/2 in");
        CHECK(to_fraction_text(2 * mm) == "5/64 in");
        CHECK(to_fraction_text(2 * mm, 16) == "1/16 in");
        CHECK_THROWS_AS((void)to_fraction_text(2 * N), invalid_input);
        CHECK_THROWS_AS((void)to_fraction_text(2 * mm, 10), invalid_input);
    }
    TEST_CASE("what is written can be read again") {
        for (const double v : {1e-4, 0.123456, 7.0, 123.456, 98765.4}) {
            CHECK(parse_quantity<length<>>(to_text(v * mm))->value() == doctest::Approx((v * mm).value()).epsilon(1e-5));
            CHECK(parse_quantity<force<>>(to_text(v * N, {.units = measures::imperial}))->value() ==
                  doctest::Approx(v).epsilon(1e-5));
        }
    }
    TEST_CASE("a give or take that is less than can be shown is never told as none") {
        const any_quantity pull(force<>(19.52 * N));
        const auto with = [&](double doubt, measures in = measures::metric) {
            return bench_text(pull, {.units = in, .give_or_take = any_quantity(force<>(doubt * N))});
        };
        CHECK(with(0.01) == "19.5 ± 0.1 N");
        CHECK(with(0.049) == "19.5 ± 0.1 N");
        CHECK(with(0.06) == "19.5 ± 0.1 N");
        CHECK(with(0.26) == "19.5 ± 0.3 N");
        CHECK(with(0.001, measures::imperial) == "4.39 ± 0.01 lbf");
        CHECK(with(0) == "19.5 N"); // what is exact has none
        CHECK_THROWS_WITH((void)bench_text(pull, {.give_or_take = any_quantity(0 * mm)}), "give or take must be a force.");
        // Alone it is the same.
        CHECK(doubt_text(any_quantity(0.01 * N)) == "0.1 N");
        CHECK(doubt_text(any_quantity(0.26 * N)) == "0.3 N");
        CHECK(doubt_text(any_quantity(0.001 * N), measures::both) == "0.1 N = 0.01 lbf");
        CHECK(doubt_text(any_quantity(0 * N)) == "none");
    }
}
