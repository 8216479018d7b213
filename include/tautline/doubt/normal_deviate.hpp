#pragma once
/// @file
/// Random numbers that are the same on every machine and in whatever order they are drawn.

#include <cmath>
#include <cstdint>
#include <numbers>

namespace tautline::kernel {

/// The normal deviate of row `row` and column `column`. For a given seed it is the same whatever else is drawn.
/// Source: SplitMix64 as the mixer (G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators,
/// OOPSLA 2014, from memory) on a counter; G. E. P. Box and M. E. Muller's transformation (1958).
[[nodiscard]] inline double normal_deviate(std::uint64_t seed, std::uint64_t row, std::uint64_t column) {
    const auto mixed = [](std::uint64_t z) {
        z += 0x9e3779b97f4a7c15U;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    };
    const std::uint64_t key = mixed(mixed(mixed(seed) ^ row) ^ column);
    // More than 0 and at most 1.
    const auto uniform = [&](std::uint64_t k) { return (static_cast<double>(mixed(key ^ k) >> 11U) + 1) * 0x1p-53; };
    return std::sqrt(-2 * std::log(uniform(1))) * std::cos(2 * std::numbers::pi * uniform(2));
}

} // namespace tautline::kernel
