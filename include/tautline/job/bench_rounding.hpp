#pragma once
/// @file
/// Numbers that a bench can work to. Each is told in the coarsest step of its tools that keeps it within its room: how far
/// it may be off without moving a result by more than a quarter of its give or take. What is cut is rounded to the side
/// that leaves wood or metal.
///
/// Source of the steps: common practice, no source.

#include <array>
#include <cmath>
#include <span>

#include "../core/to_text.hpp"

namespace tautline {

/// What a number is worked to with; this decides the steps in which it may be told.
enum class worked_as {
    value,  ///< not worked to: told with the decimals of its kind
    height, ///< by rule or height gauge: 0.05 mm, 1/64 in, a thou
    gap,    ///< by feelers, such as relief: 0.02 mm, a thou
    cut,    ///< by file or saw, a slot or a crown: 0.01 mm, half a thou
    wood,   ///< by plane, chisel or block, a heel or a board: 0.05 mm, 2 thou
    tilt,   ///< by a bevel or a protractor: 0.1 deg
    turns,  ///< of a screw: eighths
};

/// To which side a number is rounded.
enum class rounded_to {
    nearest,
    more, ///< up: what is left standing, such as the bottom of a slot over the board
    less, ///< down: what is taken off
};

/// How a number is told at the bench.
struct bench_rounding {
    worked_as as = worked_as::value;       ///< what it is worked to with
    rounded_to side = rounded_to::nearest; ///< to which side it is rounded
    /// How far the told number may be off, 0 or more, of the number's kind. Empty: not known; the number is then told in
    /// the last decimal of its kind.
    any_quantity room{};
    /// The wish that the number meets, of the number's kind; empty: none. A number that meets its wish is told as the wish
    /// is: in the coarsest step that the wish lies on, and as a fraction of an inch only where it lies on one.
    any_quantity wish{};
};

/// A step in which numbers are told.
struct bench_mark {
    double size = 0;   ///< one step, in SI
    shown_unit unit{}; ///< how a number of whole steps is written
    int parts = 0;     ///< written as a fraction of its unit: into at most so many parts; 0: with decimals
};

namespace kernel {

[[nodiscard]] constexpr bench_mark mark_in(const shown_unit& unit, double steps, int decimals) {
    return {steps * unit.size, {unit.name, unit.size, decimals}, 0};
}
/// In metres: lengths from here on are told in inches instead of thousandths of one, as `show::place`.
inline constexpr double told_in_inches = 0.03;
/// In metres: a number this near to its wish meets it, which is closer than anything at the bench is measured.
inline constexpr double meets_its_wish = 1.5e-6;

inline constexpr shown_unit mm_shown = show::height.metric, thou_shown = show::height.imperial,
                            deg_shown = show::slope.metric, turn_shown = show::number.metric;
inline constexpr shown_unit inch_shown = show::place.imperial;

inline constexpr std::array height_marks_mm{mark_in(mm_shown, 0.05, 2), mark_in(mm_shown, 0.02, 2),
                                            mark_in(mm_shown, 0.01, 2), mark_in(mm_shown, 0.005, 3)};
inline constexpr std::array height_marks_inch{bench_mark{inch_shown.size / 64, inch_shown, 64}, mark_in(thou_shown, 1, 0),
                                              mark_in(thou_shown, 0.5, 1), mark_in(thou_shown, 0.2, 1)};
inline constexpr std::array wood_marks_inch{mark_in(thou_shown, 2, 0), mark_in(thou_shown, 1, 0),
                                            mark_in(thou_shown, 0.5, 1), mark_in(thou_shown, 0.2, 1)};
inline constexpr std::array tilt_marks{mark_in(deg_shown, 0.1, 1), mark_in(deg_shown, 0.05, 2), mark_in(deg_shown, 0.02, 2),
                                       mark_in(deg_shown, 0.01, 2)};
inline constexpr std::array turn_marks{bench_mark{1.0 / 8, turn_shown, 32}, bench_mark{1.0 / 16, turn_shown, 32},
                                       bench_mark{1.0 / 32, turn_shown, 32}, mark_in(turn_shown, 0.01, 2)};

[[nodiscard]] inline std::string must_be(kind_name kind) { return messages::joined({"must be of the kind ", kind}); }

/// In metres: a length this near to a step lies on it. A plan comes to rest within less, and no file works so closely.
inline constexpr double lies_on_step = 0.5e-6;

/// A number of whole steps nearest to `v`, or on the asked side of it.
/// @param on_it share of a step within which what lies beside one lies on it
[[nodiscard]] inline double whole_steps(double v, rounded_to side, double on_it) {
    return side == rounded_to::more   ? std::ceil(v - on_it)
           : side == rounded_to::less ? std::floor(v + on_it)
                                      : std::round(v);
}

} // namespace kernel

/// The steps in which a number may be told, coarsest first; empty for what is not worked to.
/// @param imperial whether in inches and their thousandths
[[nodiscard]] constexpr std::span<const bench_mark> bench_marks(worked_as as, bool imperial) {
    const std::span<const bench_mark> metric = kernel::height_marks_mm;
    switch (as) {
    case worked_as::height:
        return imperial ? std::span<const bench_mark>(kernel::height_marks_inch) : metric;
    case worked_as::gap:
        return imperial ? std::span<const bench_mark>(kernel::height_marks_inch).subspan(1) : metric.subspan(1);
    case worked_as::cut:
        return imperial ? std::span<const bench_mark>(kernel::height_marks_inch).subspan(2) : metric.subspan(2);
    case worked_as::wood:
        return imperial ? std::span<const bench_mark>(kernel::wood_marks_inch) : metric;
    case worked_as::tilt:
        return kernel::tilt_marks;
    case worked_as::turns:
        return kernel::turn_marks;
    case worked_as::value:
        break;
    }
    return {};
}

/// A number as it is told at the bench, and the step that it is told in.
struct told_number {
    any_quantity value{}; ///< the number told
    bench_mark mark{};    ///< its step
};

/// Tells a number in the coarsest step that keeps it within its room, and rounded to its side. Where no step does it is
/// told in the finest. Where the room is not known it is told in the last decimal of its kind.
///
/// What a file takes off is not told as nothing where a finer step tells something.
/// @param q a length; for `worked_as::tilt` an angle, for `worked_as::turns` a plain number; not `worked_as::value`
/// @param imperial whether in inches and their thousandths
/// @param fractions whether fractions of an inch may be used
/// @throws invalid_input for a room that is negative or no number, and for a room or a wish of another kind
[[nodiscard]] inline told_number told_at_bench(const any_quantity& q, const bench_rounding& how, bool imperial,
                                               bool fractions = true) {
    const auto marks = bench_marks(how.as, imperial);
    require_that(!marks.empty(), "as", "must be something that a number is worked to with");
    const kind_name kind = how.as == worked_as::tilt    ? show::slope.kind
                           : how.as == worked_as::turns ? show::number.kind
                                                        : show::height.kind;
    require_that(q.kind() == kind, "the number", kernel::must_be(kind));
    const bool known = how.room.has_value(), wished = how.wish.has_value();
    require_that(!known || how.room.kind() == kind, "room", kernel::must_be(kind));
    require_that(!wished || how.wish.kind() == kind, "wish", kernel::must_be(kind));
    require_that(!known || how.room.si() >= 0, "room", "must be a number that is not negative");
    const bool met = wished && std::abs(q.si() - how.wish.si()) <= kernel::meets_its_wish;
    const double v = met ? how.wish.si() : q.si();
    told_number told{q, marks.back()};
    const auto tell = [&](const bench_mark& m) {
        const double on_it = kind == show::height.kind ? kernel::lies_on_step / m.size : 1e-6;
        told = {any_quantity::of(kind, kernel::whole_steps(v / m.size, how.side, on_it) * m.size), m};
        return std::abs(told.value.si() - v);
    };
    const auto in_inches = [&](const bench_mark& m) { return m.parts > 0 && kind == show::height.kind; };
    for (const bench_mark& m : marks) {
        constexpr double lies_on_it = 1e-9; // metres
        if (met && (fractions || !in_inches(m)) && tell(m) < lies_on_it) { return told; }
    }
    for (const bench_mark& m : marks) {
        if (in_inches(m) && (met || !fractions)) { continue; }
        const double off = tell(m);
        const bool nothing = how.as == worked_as::cut && how.side == rounded_to::less && v > 0 && !(told.value.si() > 0);
        const bool within = known && off <= how.room.si() + 1e-6 * m.size;
        if (within && !nothing) { return told; }
    }
    if (!known) {
        const shown_unit& last = how.as == worked_as::tilt    ? kernel::deg_shown
                                 : how.as == worked_as::turns ? kernel::turn_shown
                                 : imperial                   ? kernel::thou_shown
                                                              : kernel::mm_shown;
        (void)tell(kernel::mark_in(last, std::pow(10.0, -last.decimals), last.decimals));
    }
    return told;
}

namespace kernel {

/// A number of whole steps as text without its unit.
/// @param decimals at least so many where it is no fraction
[[nodiscard]] inline std::string steps_text(const told_number& told, bool sign, int decimals = 0) {
    const double v = told.value.si();
    if (told.mark.parts > 0) {
        // A fraction of a turn is written as one of an inch is.
        const length<> as_inches = v / told.mark.unit.size * units::inch;
        return messages::joined({sign && v > 0 ? "+" : "", inch_fraction_text(as_inches, told.mark.parts)});
    }
    shown_unit unit = told.mark.unit;
    unit.decimals = std::max(unit.decimals, decimals);
    return shown_number(told.value, unit, sign);
}
/// Long lengths are written in inches, in steps of as many thousandths.
[[nodiscard]] inline told_number in_inches(told_number told) {
    if (told.mark.parts == 0 && told.mark.unit.name == thou_shown.name && std::abs(told.value.si()) >= told_in_inches) {
        told.mark.unit = {inch_shown.name, inch_shown.size, told.mark.unit.decimals + 3};
    }
    return told;
}

} // namespace kernel

/// A number as a bench sheet tells it to who works to it: "2.30 mm", "5/64 in", "+1 3/8", "0.12 ± 0.04 mm". What is not
/// worked to, or is no number, is told as `bench_text` tells it.
/// @throws invalid_input as `told_at_bench`
[[nodiscard]] inline std::string told_text(const any_quantity& q, const bench_rounding& told_as, const written& how = {}) {
    if (told_as.as == worked_as::value || !q.is_number() || !std::isfinite(q.si())) { return bench_text(q, how); }
    std::string text;
    const shown_kind as = shown_kind_of(q);
    as.each(how.units, [&](const shown_unit& u) {
        const bool imperial = u.name == as.imperial.name && as.metric.name != as.imperial.name;
        const told_number told = kernel::in_inches(told_at_bench(q, told_as, imperial));
        const shown_unit& unit = told.mark.unit;
        messages::append(text, {text.empty() ? "" : " = "});
        const bool doubted = how.give_or_take.has_value();
        messages::append(text, {kernel::steps_text(told, how.sign, doubted ? u.decimals : 0)});
        if (!doubted) {
            messages::append(text, {unit.name.empty() ? "" : " ", unit.name});
            return;
        }
        require_that(how.give_or_take.kind() == q.kind(), "give or take", kernel::must_be(q.kind()));
        // A doubt beside a fraction is written with decimals.
        const bool fraction = told.mark.parts > 0;
        const shown_unit beside = fraction ? u : shown_unit{unit.name, unit.size, std::max(unit.decimals, u.decimals)};
        if (fraction && !unit.name.empty()) { messages::append(text, {" ", unit.name}); }
        messages::append(
            text, {" ± ", kernel::shown_doubt(how.give_or_take, beside), beside.name.empty() ? "" : " ", beside.name});
    });
    return text;
}

/// The same for a column of numbers in one unit, without the unit: no fractions, and all with the unit's decimals or
/// more.
/// @param unit one of `show::height`, `show::slope` or `show::number`, metric or imperial
[[nodiscard]] inline std::string bench_cell(const any_quantity& q, const bench_rounding& told_as, const shown_unit& unit,
                                            bool sign = false) {
    if (told_as.as == worked_as::value || !q.is_number() || !std::isfinite(q.si())) { return shown_number(q, unit, sign); }
    const told_number told = told_at_bench(q, told_as, unit.name == kernel::thou_shown.name, false);
    return kernel::steps_text(told, sign, unit.decimals);
}

} // namespace tautline
