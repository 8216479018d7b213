#pragma once
/// @file
/// How a board moves across its grain when nobody measured it: what the name of its wood tells.

#include <algorithm>
#include <cmath>

#include "wood_by_name.hpp"

namespace tautline::woods {

/// Share of its width by which a board moves for 1 % of moisture.
struct across_grain {
    double share = 0;     ///< for 1 %
    double standard = 0;  ///< its standard uncertainty: from the rings' direction and between pieces
    bool by_name = false; ///< true: it follows from the name; false: it is that of any wood of the table
};

/// Coefficient of variation of shrinkage between pieces of one wood, with the rings in the same direction: some 15 %
/// (Wood Handbook ch. 4, from memory).
inline constexpr double movement_scatter = 0.15;

/// The movement across a board as its wood's name tells it. The direction of the rings is not known. So the movement is
/// taken midway between the radial and the tangential coefficient, with the standard uncertainty of a number that is
/// equally likely anywhere between the two. For a short name that several woods share it lies between the least and the
/// greatest coefficient of them. Without a name, or for an unknown one, it lies between those of all woods of the
/// table.
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
