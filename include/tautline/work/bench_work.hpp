#pragma once
/// @file
/// The work on board and frets that a job plans: a new line and arc for the board, new frets or levelled ones, new
/// strings.

#include "../board/fret_slot.hpp"
#include "../board/fret_wire.hpp"
#include "../instrument/stringing.hpp"
#include "held_neck.hpp"

namespace tautline {

/// What must be known of a board for sanding and fretting, beyond its outline.
template <class R = double>
struct basic_board_details {
    using real = R;
    std::optional<basic_slot<R>> slot{};               ///< the fret slots as they are in the board
    std::optional<field<length<R>>> binding_height{};  ///< from the edge of the surface down the side of the board
    field<length<R>> binding_thickness = length<R>();  ///< across the board; the slots stop before it
    std::optional<field<length<R>>> inlay_thickness{}; ///< thickness of the dots on the centre line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("slot", self.slot...);
        visit("binding_height", between(0.1 * units::mm, 30 * units::mm), self.binding_height...);
        visit("binding_thickness", between(0 * units::mm, 30 * units::mm).fair_default("no binding"),
              self.binding_thickness...);
        visit("inlay_thickness", between(0.01 * units::mm, 30 * units::mm), self.inlay_thickness...);
    }
};
using board_details = basic_board_details<double>;

/// The rule that the way of holding the neck must be said.
template <class Report>
void report_held(neck_held held, Report&& report) {
    if (held == neck_held::not_said) {
        report("held", "must be given: \"slack\" (the neck free, no strings), \"as at pitch\" (by a jig in the shape the "
                       "strings give it as found) or \"as it will be\" (in the shape the planned strings will give it)");
    }
}

/// The rule for what must be known of new fret wire.
template <class R, class Report>
void report_tang(const basic_fret_wire<R>& wire, Report&& report) {
    const char* const needed = "must be given: the slots are to hold the tang of the new wire";
    if (!wire.tang_depth) { report("wire.tang_depth", needed); }
    if (!wire.tang_thickness) { report("wire.tang_thickness", needed); }
}

/// A new line and arc for a board, and how much must at least be left.
template <class R = double>
struct basic_sanding {
    using real = R;
    basic_surface<R> surface{};           ///< the new surface; no radius: flat
    neck_held held = neck_held::not_said; ///< how the neck is held while the board is sanded; must be said
    /// Hollow to be sanded into the board, deepest midway between the first fret and the joint's; 0: straight. Only the
    /// player knows what hollow to leave to the strings' bow. Most boards are trued straight (common practice, no
    /// source).
    field<length<R>> hollow = length<R>();
    field<length<R>> allowance = length<R>(); ///< least to be taken off everywhere
    field<length<R>> slot_clearance{
        length<R>::from_value(number<R>(3e-4L))};                         ///< under the tang; common practice, no source
    field<length<R>> least_edge{length<R>::from_value(number<R>(2e-3L))}; ///< of the board; common practice, no source
    field<length<R>> least_binding = length<R>();                         ///< height of binding that must stay
    field<length<R>> least_inlay = length<R>();                           ///< thickness of inlay that must stay

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto thin = between(0 * units::mm, 30 * units::mm);
        basic_surface<R>::describe(visit, self.surface...);
        visit("held", self.held...);
        visit("hollow", between(0 * units::mm, 3 * units::mm).fair_default("straight, as most boards are trued"),
              self.hollow...);
        visit("allowance", between(0 * units::mm, 10 * units::mm).fair_default("the least that makes the arc"),
              self.allowance...);
        visit("slot_clearance", thin.fair_default("common practice"), self.slot_clearance...);
        visit("least_edge", thin.fair_default("common practice"), self.least_edge...);
        visit("least_binding", thin.fair_default("no least is asked for"), self.least_binding...);
        visit("least_inlay", thin.fair_default("no least is asked for"), self.least_inlay...);
    }
    template <class Report>
    void rules(Report&& report) const {
        surface.rules(report);
        report_held(held, report);
    }
};
using sanding = basic_sanding<double>;

/// Levelling of the frets that are in the board.
template <class R = double>
struct basic_fret_levelling {
    using real = R;
    neck_held held = neck_held::not_said; ///< how the neck is held while the frets are filed; must be said
    /// Hollow of the crests from the first fret to the joint's, on the neck as it is held; 0: they come to a straight
    /// line.
    field<length<R>> hollow = length<R>();
    field<length<R>> least_crown{length<R>::from_value(number<R>(5e-4L))}; ///< least crown to be left; a fret with less
                                                                           ///< must be replaced

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("held", self.held...);
        visit("hollow", between(0 * units::mm, 3 * units::mm).fair_default("straight, as most boards are trued"),
              self.hollow...);
        visit("least_crown", between(0 * units::mm, 10 * units::mm).fair_default("common practice"), self.least_crown...);
    }
    template <class Report>
    void rules(Report&& report) const {
        report_held(held, report);
    }
};
using fret_levelling = basic_fret_levelling<double>;

/// The work that is planned. Each part may be left out.
template <class R = double>
struct basic_bench_work {
    using real = R;
    std::optional<basic_sanding<R>> sanding{};          ///< a new line and arc for the board
    std::optional<basic_fret_wire<R>> wire{};           ///< new frets
    std::optional<basic_fret_levelling<R>> levelling{}; ///< levelling of the frets that are there
    std::optional<basic_stringing<R>> strings{};        ///< a new string set

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("sanding", self.sanding...);
        visit("wire", self.wire...);
        visit("levelling", self.levelling...);
        visit("strings", self.strings...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (wire && levelling) { report("levelling", "must be left out where new frets go in"); }
        if (wire) { report_tang(*wire, report); }
    }
};
using bench_work = basic_bench_work<double>;

} // namespace tautline
