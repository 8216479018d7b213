#pragma once
/// @file
/// What the core and each wrap add to a string's mass.

#include "music_string.hpp"

namespace tautline {

/// Mass per length of the slack string, part by part.
template <class R = double>
struct basic_mass_by_layer {
    using real = R;
    linear_density<R> core{};                  ///< of the core, or of a whole plain string
    short_list<linear_density<R>, 6> layers{}; ///< of each layer, from the inside out

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("core", self.core...);
        visit("layers", self.layers...);
    }

    /// Mass per length of core and layers together.
    [[nodiscard]] constexpr linear_density<R> total() const {
        linear_density<R> sum = core;
        for (const linear_density<R>& layer : layers) { sum += layer; }
        return sum;
    }
};

/// What the core and each layer add to the mass per length, from the construction. `weighed` is not used.
/// Source: as `mass_per_length`.
template <class R = double>
[[nodiscard]] constexpr basic_mass_by_layer<R> mass_by_layer(const basic_music_string<R>& s) {
    require_valid_string(s);
    basic_mass_by_layer<R> mass;
    mass.core = kernel::core_mass(s.core);
    kernel::for_each_layer_mass(s, [&](const linear_density<R>& layer) { mass.layers.push_back(layer); });
    return mass;
}

} // namespace tautline
