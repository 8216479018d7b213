#pragma once
/// @file
/// A wound string given as it is sold, by its gauge and its core.

#include "music_string.hpp"

namespace tautline {

/// A wound string as it is sold, by its gauge and its core: one layer of round wire, close wound.
template <class R = double>
struct basic_wound_order {
    using real = R;
    needed<length<R>> gauge;                    ///< diameter over all
    needed<length<R>> core;                     ///< of a round core; across the flats of a hexagonal one
    core_section section = core_section::round; ///< round or hexagonal
    basic_wire_material<R> core_material;       ///< wire of the core
    basic_wire_material<R> wrap_material;       ///< wire of the wrap

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("gauge", more_than_up_to(0 * units::mm, 20 * units::mm), self.gauge...);
        visit("core", more_than_up_to(0 * units::mm, 20 * units::mm), self.core...);
        visit("section", self.section...);
        visit("core_material", self.core_material...);
        visit("wrap_material", self.wrap_material...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const;
};
using wound_order = basic_wound_order<double>;

namespace kernel {

/// Room for the wrap on both sides of the core: the gauge less the width of the core.
template <class R>
[[nodiscard]] constexpr length<R> wrap_room(const basic_wound_order<R>& o) {
    return o.gauge - core_width<R>({.material = o.core_material, .section = o.section, .diameter = o.core});
}

} // namespace kernel

template <class R>
template <class Report>
constexpr void basic_wound_order<R>::rules(Report&& report) const {
    if (!in_all_lanes(is_less<unit::length, R>(length<R>(), kernel::wrap_room(*this)))) {
        report("core", messages::joined({"must be narrower than the gauge of ",
                                         quantity_text<unit::length>(messages::plain_value(gauge.value())),
                                         ", which is over core and wrap together"}));
    }
}

/// A wound string from its gauge and its core, as it is sold: `wound_string({.gauge = 46 * thou, .core = 18 * thou,
/// .core_material = music_wire(), .wrap_material = phosphor_bronze()})`. Throws `invalid_input` for a value out of
/// range, and for a core as wide as the gauge or wider. In constant expressions a wrong order fails to compile.
template <class R = double>
[[nodiscard]] constexpr basic_music_string<R> wound_string(const basic_wound_order<R>& order) {
    constexpr_require_valid(order);
    basic_music_string<R> s{.core = {.material = order.core_material, .section = order.section, .diameter = order.core}};
    s.layers.push_back({.material = order.wrap_material, .thickness = kernel::wrap_room(order) * number<R>(0.5L)});
    return s;
}
/// Refuses two diameters without names: nobody can see which of a gauge, a core and a wrap they are.
template <class R, class First, class Second>
basic_music_string<R> wound_string(const basic_wire_material<R>&, const First&, const basic_wire_material<R>&,
                                   const Second&) {
    static_assert(
        always_false<R>,
        "a wound string takes its GAUGE and its CORE by name: write wound_string({.gauge = 46 * thou, .core = 18 * "
        "thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()})");
    return basic_music_string<R>();
}

} // namespace tautline
