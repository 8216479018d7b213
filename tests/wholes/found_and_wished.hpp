#pragma once
/// @file
/// Instruments set otherwise, and wishes made of what they then show.

#include <optional>
#include <vector>

#include <tautline/doubt/tolerance.hpp>
#include <tautline/job/wishes.hpp>

#include "random_instrument.hpp"

namespace wholes {

[[nodiscard]] inline tautline::strung_instrument both(const whole& w) { return {w.built, w.stringing}; }

/// The same instrument with rod, slots, saddle and hanger set as the recipe's spare numbers say; nothing where that cannot
/// be solved.
enum class rod_too : bool {};
inline constexpr rod_too keep_rod{false}, set_rod{true};
[[nodiscard]] std::optional<whole> set_otherwise(const whole& w, rod_too rod = set_rod);

/// Wishes for the four heights that an instrument shows; false where it has too few frets, or a string touches one.
bool wish_heights(const whole& w, tautline::wishes& wish);

/// Twice what the rod pulls, and some.
[[nodiscard]] tautline::force<> most_pull(const whole& w);

/// What the rod's pull makes of the relief, from the least pull to the most; nothing where the neck buckles on the way.
struct pulled {
    double pull = 0, relief = 0;
};
[[nodiscard]] std::vector<pulled> reliefs_over_pulls(const whole& w, double least, double most, int steps);

} // namespace wholes
