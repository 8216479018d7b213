#pragma once
/// @file
/// From a recipe to a strung instrument. Numbers are invented and plausible; no instrument is meant.

#include <optional>

#include <tautline/instrument/strung_instrument.hpp>

#include "recipe.hpp"

namespace wholes {

/// An instrument with its strings and the recipe it was made from.
struct whole {
    tautline::instrument built;
    tautline::stringing stringing{};
    recipe from{};
};

/// The instrument of a recipe as far as it can be described, whether or not it can be solved.
[[nodiscard]] whole described_by(const recipe& r);

/// The instrument of a recipe, brought into the state it asks for (near straight, back-bowed, near buckling); nothing where
/// that instrument cannot be described or strung: its neck buckles, its board has no room for the strings.
[[nodiscard]] std::optional<whole> made_from(const recipe& r);

/// Raises what the strings lie on at the saddle, straight from the bass to the treble.
void raise_saddle(tautline::saddle& s, tautline::length<> bass, tautline::length<> treble);

} // namespace wholes
