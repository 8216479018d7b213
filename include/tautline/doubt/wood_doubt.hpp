#pragma once
/// @file
/// What the name of a wood, or a test of the board itself, leaves in doubt of its modulus: a line of the budget.

#include "../neck/wood.hpp"
#include "tolerance.hpp"

namespace tautline {

/// Standard uncertainty of a bending modulus that was told by tapping or vibrating the board itself, as a share: what is
/// left of 30 boards' static moduli once the vibration, or a shock wave's speed, is known is 8 to 12 %. Source: worked out
/// of the covariances in R. A. Johnson and D. W. Wichern, Applied Multivariate Statistical Analysis, as a data set reprints
/// them.
inline constexpr double tapped_doubt = 0.10;

/// The doubt of a modulus of which the name of the wood alone is known.
/// @param path of the modulus that it moves, such as "neck.board_modulus"
/// @throws invalid_input where no modulus of the wood was found
[[nodiscard]] inline doubt modulus_doubt(const wood& w, std::string_view path) {
    const auto standard = w.modulus_standard();
    require_that(standard.has_value(), "wood",
                 messages::joined({"must be one whose modulus is known, and of ", w.name, " none was found"}));
    return {messages::joined({"modulus of ", w.name}), *standard, {{messages::joined({path})}}};
}

} // namespace tautline
