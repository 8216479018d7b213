#pragma once
/// @file
/// Fret slots: how deep, how wide, and how a wire's tang sits in them.

#include "fret_wire.hpp"

namespace tautline {

/// How the bottom of the slots runs across the board.
enum class slot_floor {
    follows_arc, ///< the same depth everywhere across
    flat,        ///< deepest on the centre line
};

/// The slots of a board.
template <class R = double>
struct basic_slot {
    using real = R;
    /// On the centre line.
    needed<length<R>> depth;
    needed<length<R>> width;                    ///< from wall to wall
    slot_floor floor = slot_floor::follows_arc; ///< what its bottom follows

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("depth", between(0.05 * units::mm, 30 * units::mm), self.depth...);
        visit("width", between(0.05 * units::mm, 5 * units::mm), self.width...);
        visit("floor", self.floor...);
    }
};
using slot = basic_slot<double>;

namespace kernel {

/// Depth left at (x, y) after `removed` was taken off there; negative where the slot is gone.
template <class R>
[[nodiscard]] constexpr length<R> slot_depth(const basic_slot<R>& s, const basic_surface<R>& found, const length<R>& x,
                                             const length<R>& y, const length<R>& removed) {
    const length<R> depth = s.depth - removed;
    return s.floor == slot_floor::flat ? length<R>(depth + kernel::surface_height(found, x, y)) : depth;
}

} // namespace kernel

/// Depth of a slot at (x, y) of a board with surface `found`, after `removed` was taken off there. Negative where the
/// slot is gone.
template <class R = double>
[[nodiscard]] constexpr length<R> slot_depth(const basic_slot<R>& s, const std::type_identity_t<basic_surface<R>>& found,
                                             param<length<R>> x, param<length<R>> y,
                                             param<length<R>> removed = length<R>()) {
    (void)surface_height(found, x, y);
    require("removed", removed, any_finite<unit::length>());
    return kernel::slot_depth<R>(s, found, x, y, removed);
}

/// Depth that a wire needs all across the board: the depth of its tang plus `clearance` (>= 0), the room for glue and
/// chips under it.
template <class R = double>
[[nodiscard]] constexpr length<R> needed_slot_depth(const basic_fret_wire<R>& w, param<length<R>> clearance) {
    require("clearance", clearance, at_least(0 * units::mm));
    require_that(w.tang_depth.has_value(), "wire.tang_depth", "must be given: the slot is to take it");
    return *w.tang_depth + clearance;
}

/// What a tang does in a slot.
enum class tang_grip {
    loose,  ///< the tang with its studs is no wider than the slot: glue it, fill the slot or take another wire
    studs,  ///< the studs bite into the slot's walls; the tang itself has room
    wedges, ///< the tang itself is wider than the slot: it bends the neck back, or must be thinned
};

/// How a wire sits in a slot. Wedged tangs bend the neck back; how far follows from their interference.
template <class R = double>
struct basic_tang_fit {
    tang_grip grip = tang_grip::loose; ///< what holds the wire
    length<R> tang_interference{};     ///< thickness of the tang less width of the slot; negative is room
    length<R> stud_bite{};             ///< into each wall of the slot; negative: none
};

/// New wire against an old slot.
template <class R = double>
[[nodiscard]] basic_tang_fit<R> tang_fit(const basic_fret_wire<R>& w, param<length<R>> slot_width) {
    require_valid(w, "wire");
    require("slot width", slot_width, more_than(0 * units::mm));
    require_that(w.tang_thickness.has_value(), "wire.tang_thickness", "must be given: the slot is to hold it");
    const length<R> over_studs = w.stud_width ? length<R>(*w.stud_width) : length<R>(*w.tang_thickness);
    basic_tang_fit<R> fit{.tang_interference = *w.tang_thickness - slot_width, .stud_bite = (over_studs - slot_width) / 2};
    const auto positive = [](const length<R>& q) { return in_all_lanes(number<R>(0) < q.value()); };
    fit.grip = positive(fit.tang_interference) ? tang_grip::wedges
               : positive(fit.stud_bite)       ? tang_grip::studs
                                               : tang_grip::loose;
    return fit;
}

} // namespace tautline
