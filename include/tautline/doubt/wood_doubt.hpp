#pragma once
/// @file
/// What the name of a wood leaves doubtful of its modulus, as a line of the budget.

#include "../neck/wood.hpp"
#include "tolerance.hpp"

namespace tautline {

/// The doubt of a modulus where only the name of the wood is known.
/// @param path path of the modulus that it moves, such as "neck.board_modulus"
/// @throws invalid_input where no modulus is known for the wood
[[nodiscard]] inline doubt modulus_doubt(const wood& w, std::string_view path) {
    const auto standard = w.modulus_standard();
    require_that(standard.has_value(), "wood",
                 messages::joined({"must be one whose modulus is known, and of ", w.name, " none was found"}));
    return {messages::joined({"modulus of ", w.name}), *standard, {{messages::joined({path})}}};
}

} // namespace tautline
