#pragma once
/// @file
/// Places of the strings across the nut or the bridge, by equal centres or equal gaps, for single strings or courses.

#include <array>
#include <vector>

#include "../core/describe.hpp"
#include "../core/quantity_text.hpp"
#include "../core/units.hpp"

namespace tautline {

/// What is made equal from course to course.
enum class spacing_rule {
    equal_centres, ///< distances between string centres
    equal_gaps,    ///< free space between strings, so thick strings take more room
};

/// A row of strings from bass (negative y) to treble.
template <class R = double>
struct basic_spacing {
    using real = R;
    /// Distance between the centres of the outermost strings; not used when there is one course.
    field<length<R>> spread = length<R>();
    spacing_rule rule = spacing_rule::equal_centres; ///< what is made equal
    /// Strings in each course, bass first: {1,1,1,1,1,1} six single strings, {2,2,2,2} eight in four courses.
    std::vector<int> courses = {1, 1, 1, 1, 1, 1};
    /// Distance from string to string within a course: between centres or as free space, as `rule` says.
    field<length<R>> course_gap = length<R>();
    /// How far the middle of the spread lies off the centre line; positive toward the treble.
    field<length<R>> offset = length<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("spread", between(0 * units::mm, 500 * units::mm).fair_default("of one course; two are asked for it"),
              self.spread...);
        visit("rule", self.rule...);
        visit("courses", between(1, 12), self.courses...);
        visit("course_gap", between(0 * units::mm, 50 * units::mm).fair_default("single strings have none"),
              self.course_gap...);
        visit("offset",
              between(-250 * units::mm, 250 * units::mm).fair_default("strings are laid out about the centre line"),
              self.offset...);
    }
    template <class Report>
    void rules(Report&& report) const {
        bool pairs = false;
        for (const int c : courses) { pairs = pairs || c > 1; }
        if (courses.empty()) { report("courses", "must name at least one course"); }
        if (courses.size() > 1 && !in_all_lanes(number<R>(0) < spread.value())) {
            report("spread", "must be more than 0 mm");
        }
        if (pairs && !in_all_lanes(number<R>(0) < course_gap.value())) {
            report("course_gap", "must be more than 0 mm where a course has more than one string");
        }
    }
};
using spacing = basic_spacing<double>;

/// Number of strings in a row.
template <class R = double>
[[nodiscard]] constexpr int string_count(const basic_spacing<R>& s) {
    int count = 0;
    for (const int c : s.courses) { count += c; }
    return count;
}

namespace kernel {

/// Places of the outermost strings, bass and treble. For a single course their gauges are left out of account.
template <class R>
[[nodiscard]] constexpr std::array<length<R>, 2> outermost(const basic_spacing<R>& s) {
    const length<R> wide =
        s.courses.size() > 1 ? length<R>(s.spread) : length<R>(s.course_gap * number<R>(string_count(s) - 1.0));
    return {s.offset - wide * number<R>(0.5L), s.offset + wide * number<R>(0.5L)};
}

/// Refuses a spread that the strings and the gaps within courses fill up.
template <class R>
[[noreturn]] void refuse_full_spread(std::string_view name, const length<R>& spread, const length<R>& filled) {
    const auto text = [](const length<R>& q) {
        const auto told = messages::shown_value(q.value());
        return told.shown ? quantity_text<unit::length>(told.value) : std::string();
    };
    messages::refuse(messages::joined({name, ".spread"}), text(spread),
                     messages::joined({"must leave room between the courses: the strings in them fill ", text(filled)}));
}

/// Calls `put(i, y)` for every string, bass first; `gauge(i)` is asked for equal gaps only.
/// @param name of the spacing, for what is said of it
template <class R, class Gauge, class Put>
void place_strings(const basic_spacing<R>& s, std::string_view name, Gauge&& gauge, Put&& put) {
    // Distance from string i to the next, without the gap that is the same between all courses.
    const auto step = [&](std::size_t i, bool within_course) {
        length<R> d{};
        if (s.rule == spacing_rule::equal_gaps) { d = (gauge(i) + gauge(i + 1)) * number<R>(0.5L); }
        return within_course ? length<R>(d + s.course_gap) : d;
    };
    const auto for_each_step = [&](auto&& f) {
        std::size_t i = 0;
        for (std::size_t c = 0; c < s.courses.size(); ++c) {
            for (int k = 0; k < s.courses[c]; ++k, ++i) {
                if (i > 0) { f(i, step(i - 1, k > 0), k == 0); }
            }
        }
    };
    length<R> fixed{}, shared{};
    for_each_step([&](std::size_t, const length<R>& d, bool) { fixed += d; });
    const R between = number<R>(static_cast<double>(s.courses.size()) - 1);
    if (s.courses.size() > 1) {
        shared = (s.spread - fixed) / between;
        if (!in_all_lanes(number<R>(0) < shared.value())) { refuse_full_spread<R>(name, s.spread, fixed); }
    }
    length<R> y = s.offset - (fixed + shared * between) * number<R>(0.5L);
    put(std::size_t(0), y);
    for_each_step([&](std::size_t i, const length<R>& d, bool new_course) {
        y += new_course ? length<R>(d + shared) : d;
        put(i, y);
    });
}

} // namespace kernel

/// Place y of each string's centre, bass first. `gauges`, one for each string, are needed for equal gaps only. Throws
/// `invalid_input` when there is no room between the courses.
template <class R = double>
[[nodiscard]] std::vector<length<R>> string_places(const basic_spacing<R>& s,
                                                   const std::type_identity_t<std::vector<length<R>>>& gauges = {}) {
    require_valid(s, "spacing");
    const auto count = static_cast<std::size_t>(string_count(s));
    require_that(s.rule != spacing_rule::equal_gaps || gauges.size() == count, "gauges",
                 "must be one for each string when the gaps are to be equal");
    for (const auto& g : gauges) { require("gauge", g, more_than(0 * units::mm)); }
    std::vector<length<R>> y(count);
    kernel::place_strings<R>(
        s, "spacing", [&](std::size_t i) { return gauges[i]; }, [&](std::size_t i, const length<R>& at) { y[i] = at; });
    return y;
}

/// Distance between the centres of the outermost strings on a board or nut of `width`, when they stand at these margins
/// from its edges.
[[nodiscard]] constexpr auto spread_from_margins(a_length auto width, a_length auto bass_margin,
                                                 a_length auto treble_margin) {
    using R = common_real_t<decltype(width), decltype(bass_margin), decltype(treble_margin)>;
    require("width", over<R>(width), more_than(0 * units::mm));
    require("bass margin", over<R>(bass_margin), at_least(0 * units::mm));
    require("treble margin", over<R>(treble_margin), at_least(0 * units::mm));
    const length<R> spread = over<R>(width) - over<R>(bass_margin) - over<R>(treble_margin);
    require("width less the two margins", spread, more_than(0 * units::mm));
    return spread;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH> spread_from_margins(Given...)
    TAUTLINE_REFUSED("wanted are three LENGTHS: spread_from_margins(43*mm, 3*mm, 3.5*mm)");

/// How far the middle of the spread lies off the centre line for unequal margins. It is positive, toward the treble,
/// when the bass margin is wider. Both margins 0 or more, else `invalid_input`.
[[nodiscard]] constexpr auto offset_from_margins(a_length auto bass_margin, a_length auto treble_margin) {
    using R = common_real_t<decltype(bass_margin), decltype(treble_margin)>;
    require("bass margin", over<R>(bass_margin), at_least(0 * units::mm));
    require("treble margin", over<R>(treble_margin), at_least(0 * units::mm));
    return length<R>((over<R>(bass_margin) - over<R>(treble_margin)) / 2);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH> offset_from_margins(Given...)
    TAUTLINE_REFUSED("wanted are two LENGTHS: offset_from_margins(3*mm, 3.5*mm)");

/// Width of each nut slot: the gauge plus `clearance` (>= 0), so that the string slides but does not rattle.
template <class R>
[[nodiscard]] std::vector<length<R>> slot_widths(const std::vector<length<R>>& gauges, param<length<R>> clearance) {
    require("clearance", clearance, at_least(0 * units::mm));
    std::vector<length<R>> widths;
    for (const auto& g : gauges) {
        require("gauge", g, more_than(0 * units::mm));
        widths.push_back(g + clearance);
    }
    return widths;
}

/// Thickness of the walls between neighbouring slots of these places and widths. Negative where two slots overlap.
template <class R>
[[nodiscard]] std::vector<length<R>> walls_between(const std::vector<length<R>>& places,
                                                   const std::vector<length<R>>& widths) {
    require_that(places.size() == widths.size(), "slot widths", "must be one for each place");
    std::vector<length<R>> walls;
    for (std::size_t i = 1; i < places.size(); ++i) {
        walls.push_back(places[i] - places[i - 1] - (widths[i] + widths[i - 1]) / 2);
    }
    return walls;
}

} // namespace tautline
