#pragma once
/// @file
/// How a board moves across its grain where nobody measured it: what the name of its wood says.

#include <algorithm>
#include <cmath>

#include "wood_by_name.hpp"

namespace tautline::woods {

/// Share of its width by which a board moves for 1 % of moisture.
struct across_grain {
    double share = 0;     ///< for 1 %
    double standard = 0;  ///< its standard uncertainty: rings upright or flat, and one piece from another
    bool by_name = false; ///< the wood's name told it; else it is that of any wood of the table
};

/// Coefficient of variation of shrinkage between pieces of one wood, rings alike: some 15 % (Wood Handbook ch. 4, from
/// memory).
inline constexpr double movement_scatter = 0.15;

/// What a wood's name says of the movement across a board. Nobody tells from a board's top how its rings stand: the
/// movement is taken midway from the radial to the tangential coefficient, with the doubt of a number that is as likely
/// anywhere between the two. A short name that may be of several woods lies between the least and the greatest of them;
/// without a name, or where nothing is known of it, between those of all woods of the table.
[[nodiscard]] inline across_grain across_grain_of(std::string_view name) {
    double least = 1, most = 0;
    const auto take = [&](const wood& w) {
        for (const auto& c : {w.radial_coefficient(), w.tangential_coefficient()}) {
            if (!c) { continue; }
            least = std::min(least, *c);
            most = std::max(most, *c);
        }
    };
    if (const auto found = find_modulus(name)) {
        for (const wood& w : found->may_be) { take(w); }
    }
    across_grain a;
    a.by_name = least < most;
    if (!a.by_name) {
        for (const wood& w : all) { take(w); }
    }
    a.share = (least + most) / 2;
    a.standard = std::hypot((most - least) / std::sqrt(12.0), movement_scatter * a.share);
    return a;
}

} // namespace tautline::woods
