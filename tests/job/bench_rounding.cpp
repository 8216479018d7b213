// Numbers in steps that a bench can work to.
#include <tautline/job/bench_rounding.hpp>

#include <cmath>
#include <limits>
#include <random>

#include <doctest/doctest.h>

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr written metric{}, imperial{.units = measures::imperial}, both{.units = measures::both};

bench_rounding rounded(worked_as as, rounded_to side, const any_quantity& room) {
    return {.as = as, .side = side, .room = room};
}
/// By no step may the number move further than this.
bench_rounding read_within(const length<>& room) { return rounded(worked_as::height, rounded_to::nearest, room); }

any_quantity number_of_kind(worked_as as, double steps) {
    return as == worked_as::tilt    ? any_quantity(steps * deg)
           : as == worked_as::turns ? any_quantity(steps)
                                    : any_quantity(steps * mm);
}

} // namespace

TEST_SUITE("bench rounding") {
    TEST_CASE("each kind of number in its listed step") {
        const any_quantity wide(1 * mm);
        const auto told = [](const any_quantity& q, worked_as as, rounded_to side, const any_quantity& room,
                             const written& how = metric) { return told_text(q, rounded(as, side, room), how); };
        using enum worked_as;
        using enum rounded_to;
        CHECK(told(2.311 * mm, height, nearest, wide) == "2.30 mm");
        CHECK(told(0.123 * mm, gap, nearest, wide) == "0.12 mm");
        CHECK(told(0.131 * mm, gap, nearest, wide) == "0.14 mm");
        CHECK(told(0.1016 * mm, gap, nearest, wide, imperial) == "4 thou");
        CHECK(told(0.9711 * mm, cut, more, wide) == "0.98 mm");
        CHECK(told(38.2 * thou, cut, more, wide, imperial) == "38.5 thou");
        CHECK(told(0.0691 * mm, cut, less, wide) == "0.06 mm");
        CHECK(told(1.0372 * mm, wood, less, wide) == "1.00 mm");
        CHECK(told(41 * thou, wood, less, wide, imperial) == "40 thou");
        CHECK(told(0.137 * deg, tilt, nearest, 1 * deg) == "0.1 deg");
        CHECK(told(0.4, turns, nearest, 1.0) == "3/8");
        CHECK(told_text(1.4, rounded(turns, nearest, 1.0), {.sign = true}) == "+1 3/8");
        CHECK(told_text(-0.13, rounded(turns, nearest, 1.0), {.sign = true}) == "-1/8");
        CHECK(told_text(-0.6233 * mm, rounded(cut, more, wide), {.sign = true}) == "-0.62 mm");
        // Lengths of 30 mm and more are told in inches.
        CHECK(told(45.3 * mm, height, nearest, 0.02 * mm, imperial) == "1.783 in");
    }
    TEST_CASE("what a plan keeps is told as it is, also where it comes to rest a thousandth of a millimetre beside") {
        const bench_rounding slot = rounded(worked_as::cut, rounded_to::more, 0.05 * mm);
        CHECK(told_text(0.0004 * mm, slot, {.sign = true}) == "+0.00 mm");
        CHECK(told_text(1.6004 * mm, slot) == "1.60 mm");
        CHECK(told_text(1.6012 * mm, slot) == "1.61 mm");
        CHECK(told_text(1.6004 * mm, rounded(worked_as::wood, rounded_to::less, 0.05 * mm)) == "1.60 mm");
        CHECK(told_text(1.5996 * mm, rounded(worked_as::wood, rounded_to::less, 0.05 * mm)) == "1.60 mm");
    }
    TEST_CASE("where the room is less than a step, the next finer one") {
        CHECK(told_text(2.311 * mm, read_within(0.012 * mm)) == "2.30 mm"); // 0.011 mm off
        CHECK(told_text(2.311 * mm, read_within(0.010 * mm)) == "2.32 mm"); // 0.009 mm off
        CHECK(told_text(2.311 * mm, read_within(0.005 * mm)) == "2.31 mm");
        CHECK(told_text(2.3134 * mm, read_within(0.002 * mm)) == "2.315 mm");
        CHECK(told_text(2.3134 * mm, read_within(0 * mm)) == "2.315 mm"); // the finest there is
        CHECK(told_text(0.4, rounded(worked_as::turns, rounded_to::nearest, 0.02)) == "13/32");
        CHECK(told_text(0.4, rounded(worked_as::turns, rounded_to::nearest, 0.001)) == "0.40");
        CHECK(told_text(0.137 * deg, rounded(worked_as::tilt, rounded_to::nearest, 0.02 * deg)) == "0.15 deg");
    }
    TEST_CASE("a wish of 5/64 in reads 5/64 in, and one in thousandths in thousandths") {
        auto how = read_within(0.0125 * mm);
        const length<> fraction = 5.0 / 64 * inch, thousandths = 78 * thou;
        how.wish = fraction;
        CHECK(told_text(fraction, how, imperial) == "5/64 in");
        CHECK(told_text(fraction, how) == "1.98 mm");
        CHECK(told_text(fraction, how, both) == "1.98 mm = 5/64 in");
        // A height that was set to it comes within a thousandth of a millimetre.
        CHECK(told_text(length<>(fraction + 0.9e-3 * mm), how, imperial) == "5/64 in");
        CHECK(told_text(fraction, {.as = worked_as::height, .wish = fraction}, imperial) == "5/64 in"); // no room known
        CHECK(told_text(fraction, how, {.units = measures::imperial, .give_or_take = 2 * thou}) == "5/64 in ± 2.0 thou");
        how.wish = thousandths; // 0.003 mm beside it
        CHECK(told_text(thousandths, how, imperial) == "78 thou");
        // A wish of 0.15 mm of relief is no number of steps of 0.02 mm, and is read back all the same.
        const bench_rounding hollow{.as = worked_as::gap, .room = 0.02 * mm, .wish = 0.15 * mm};
        CHECK(told_text(0.15 * mm, hollow) == "0.15 mm");
        CHECK(told_text(0.1508 * mm, hollow) == "0.15 mm");
        CHECK(told_text(0.153 * mm, hollow) == "0.16 mm"); // does not meet it
        how.wish = {};
        CHECK(told_text(thousandths, how, imperial) == "5/64 in");
        CHECK(told_text(80 * thou, how, imperial) == "80 thou");
        for (int parts = 1; parts < 200; ++parts) {
            how.wish = length<>(parts / 64.0 * inch);
            CHECK(told_text(how.wish, how, imperial) == to_fraction_text(how.wish));
        }
    }
    TEST_CASE("any number: whole steps, never to the wrong side, within its room, and no coarser step would do") {
        std::mt19937 draw(20);
        std::uniform_real_distribution<double> value(-3, 12), power(-4, 0);
        for (const worked_as as :
             {worked_as::height, worked_as::gap, worked_as::cut, worked_as::wood, worked_as::tilt, worked_as::turns}) {
            for (const rounded_to side : {rounded_to::nearest, rounded_to::more, rounded_to::less}) {
                for (int k = 0; k < 400; ++k) {
                    const bool inches = k % 2 == 0;
                    const any_quantity q = number_of_kind(as, value(draw));
                    const any_quantity room = number_of_kind(as, std::pow(10.0, power(draw)));
                    const auto marks = bench_marks(as, inches);
                    const auto told = told_at_bench(q, rounded(as, side, room), inches);
                    const bool is_length = as != worked_as::turns && as != worked_as::tilt;
                    const double off = told.value.si() - q.si(), tiny = 1e-5 * told.mark.size;
                    // A length that lies this near beside a step lies on it.
                    const double beside = tiny + (is_length ? kernel::lies_on_step : 0);
                    CAPTURE(q.si());
                    CAPTURE(room.si());
                    CHECK(std::abs(std::remainder(told.value.si(), told.mark.size)) < tiny);
                    if (side == rounded_to::more) { CHECK(off > -beside); }
                    if (side == rounded_to::less) { CHECK(off < beside); }
                    CHECK(told.mark.size <= marks.front().size);
                    const bool finest = told.mark.size == marks.back().size;
                    CHECK((std::abs(off) < room.si() + tiny || finest));
                    const bool file = as == worked_as::cut && side == rounded_to::less; // tells nothing as something
                    for (const bench_mark& m : marks) {
                        if (m.size <= told.mark.size || file) { break; }
                        const double below = std::fmod(q.si(), m.size) + (q.si() < 0 ? m.size : 0), above = m.size - below;
                        const double misses = side == rounded_to::more   ? above
                                              : side == rounded_to::less ? below
                                                                         : std::min(below, above);
                        CHECK(misses > room.si() - beside);
                    }
                    // What is printed is what is told.
                    if (is_length) {
                        const auto text = told_text(q, rounded(as, side, room), inches ? imperial : metric);
                        const auto read = parse_quantity<length<>>(text);
                        REQUIRE_MESSAGE(read, text);
                        CHECK_MESSAGE(std::abs(read->value() - told.value.si()) < 1e-9, text);
                    }
                }
            }
        }
    }
    TEST_CASE("a column has one unit, no fractions, and decimals alike") {
        const auto how = read_within(0.01 * mm);
        CHECK(bench_cell(5.0 / 64 * inch, how, show::height.imperial) == "78.0");
        CHECK(bench_cell(2 * mm, how, show::height.metric) == "2.00");
        CHECK(bench_cell(2 * mm, rounded(worked_as::height, rounded_to::nearest, 1 * mm), show::height.metric, true) ==
              "+2.00");
        CHECK(bench_cell(2.3134 * mm, read_within(0.002 * mm), show::height.metric) == "2.315");
        CHECK(bench_cell(2.3134 * mm, {}, show::height.metric) == "2.31");
        CHECK(bench_cell(length<>(NAN * mm), how, show::height.metric) == "-");
    }
    TEST_CASE("where the room is not known, the last decimal, still to its side") {
        const auto unknown = [](worked_as as, rounded_to side) { return bench_rounding{.as = as, .side = side}; };
        CHECK(told_text(0.9711 * mm, unknown(worked_as::cut, rounded_to::more)) == "0.98 mm");
        CHECK(told_text(2.311 * mm, unknown(worked_as::height, rounded_to::nearest)) == "2.31 mm");
        CHECK(told_text(2.311 * mm, unknown(worked_as::height, rounded_to::more), imperial) == "91.0 thou");
        CHECK(told_text(0.137 * deg, unknown(worked_as::tilt, rounded_to::nearest)) == "0.14 deg");
        CHECK(told_text(0.4, unknown(worked_as::turns, rounded_to::nearest)) == "0.40");
    }
    TEST_CASE("what a file takes off is told as something") {
        const auto off = rounded(worked_as::cut, rounded_to::less, 1 * mm);
        CHECK(told_text(0.0069 * mm, off) == "0.005 mm");
        CHECK(told_text(0.0169 * mm, off) == "0.01 mm");
        CHECK(told_text(0 * mm, off) == "0.00 mm");
    }
    TEST_CASE("what is not worked to is told as before, and nothing as nothing") {
        CHECK(told_text(71.16 * N, {}) == "71.2 N");
        CHECK(told_text(0.374 * mm, {}, {.give_or_take = 0.05 * mm}) == "0.37 ± 0.05 mm");
        CHECK(told_text({}, read_within(1 * mm)).empty());
        CHECK(told_text(length<>(NAN * mm), read_within(1 * mm)) == "-");
        CHECK(told_text(length<>(std::numeric_limits<double>::infinity() * mm), read_within(1 * mm)) ==
              bench_text(length<>(std::numeric_limits<double>::infinity() * mm)));
        CHECK(told_text(0.1229 * mm, rounded(worked_as::gap, rounded_to::nearest, 1 * mm), {.give_or_take = 0.04 * mm}) ==
              "0.12 ± 0.04 mm");
    }
    TEST_CASE("rooms and wishes that cannot be") {
        const auto refused = [](const any_quantity& q, const bench_rounding& how) { (void)told_at_bench(q, how, false); };
        CHECK_THROWS_WITH(refused(1 * mm, read_within(-1 * mm)), "room must be a number that is not negative.");
        CHECK_THROWS_WITH(refused(1 * mm, read_within(NAN * mm)), "room must be a number that is not negative.");
        CHECK_THROWS_WITH(refused(1 * mm, rounded(worked_as::height, rounded_to::nearest, 1.0)),
                          "room must be of the kind length.");
        CHECK_THROWS_WITH(refused(1 * N, read_within(1 * mm)), "the number must be of the kind length.");
        CHECK_THROWS_WITH(refused(1 * mm, rounded(worked_as::tilt, rounded_to::nearest, {})),
                          "the number must be of the kind angle.");
        CHECK_THROWS_WITH(refused(1 * mm, {}), "as must be something that a number is worked to with.");
        auto other = read_within(1 * mm);
        other.wish = 1 * N;
        CHECK_THROWS_WITH(refused(1 * mm, other), "wish must be of the kind length.");
    }
}
