#pragma once
/// @file
/// The parts of a string: its core, its wraps, and where the wraps end.

#include <optional>

#include "wire.hpp"

namespace tautline {

/// Section of a core.
enum class core_section { round, hexagonal };

/// How a layer is made.
enum class layer_form {
    round_wire, ///< round wire, wound; ground flat outside if `ground` says so
    ribbon,     ///< flat wire, wound on its broad side
    sleeve,     ///< a covering without turns: silk, floss, a damping tube
};

/// The core of a string, or the whole of a plain string.
template <class R = double>
struct basic_string_core {
    using real = R;
    basic_wire_material<R> material;            ///< wire of the core
    core_section section = core_section::round; ///< round or hexagonal
    /// Diameter of a round core; width across the flats of a hexagonal one.
    needed<length<R>> diameter;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("material", self.material...);
        visit("section", self.section...);
        visit("diameter", between(0.01 * units::mm, 20 * units::mm), self.diameter...);
    }
};
using string_core = basic_string_core<double>;

/// One layer over the core.
template <class R = double>
struct basic_wrap {
    using real = R;
    basic_wire_material<R> material;          ///< wire of the layer
    layer_form form = layer_form::round_wire; ///< how the layer is made
    /// Thickness in the radial direction, before grinding. Of round wire it is the diameter.
    needed<length<R>> thickness;
    /// Width of a ribbon, across the wire.
    field<length<R>> ribbon_width = length<R>();
    /// Distance from turn to turn along the string. Absent: close wound, so that every turn touches the next.
    std::optional<field<length<R>>> pitch{};
    /// Thickness taken off the outside of round wire by grinding or rolling. Absent: none.
    std::optional<field<length<R>>> ground{};
    /// Share of a sleeve's volume that is material; the rest is air, as in loose silk.
    R fill = number<R>(1);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("material", self.material...);
        visit("form", self.form...);
        visit("thickness", between(0.0001 * units::mm, 10 * units::mm), self.thickness...);
        visit("ribbon_width", between(0 * units::mm, 50 * units::mm).fair_default("not a ribbon"), self.ribbon_width...);
        visit("pitch", between(0.01 * units::mm, 100 * units::mm), self.pitch...);
        visit("ground", between(1e-7 * units::mm, 10 * units::mm), self.ground...);
        visit("fill", between(0.01, 1).fair_default("a tube of solid metal"), self.fill...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const {
        if (form == layer_form::ribbon && !in_all_lanes(is_less<unit::length, R>(length<R>(), ribbon_width))) {
            report("ribbon_width", "must be more than 0 mm for a ribbon");
        }
        if (ground.has_value()) {
            if (form != layer_form::round_wire) { report("ground", "must be absent except for round wire"); }
            if (!in_all_lanes(is_less<unit::length, R>(*ground, thickness))) {
                report("ground", "must be less than the diameter of the wrap wire");
            }
        }
        if (form == layer_form::sleeve && pitch.has_value()) { report("pitch", "must be absent for a sleeve"); }
    }
};
using wrap = basic_wrap<double>;

/// Lengths of bare core at the two ends of the speaking length, where the wraps do not reach.
template <class R = double>
struct basic_bare_ends {
    using real = R;
    needed<length<R>> at_nut;    ///< from the nut
    needed<length<R>> at_saddle; ///< from the saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("at_nut", between(0 * units::mm, 2000 * units::mm), self.at_nut...);
        visit("at_saddle", between(0 * units::mm, 2000 * units::mm), self.at_saddle...);
    }
};
using bare_ends = basic_bare_ends<double>;

} // namespace tautline
