#pragma once
/// @file
/// What the name of a wood alone tells of its modulus, also for a short name that several woods share.

#include <cmath>

#include "../core/short_list.hpp"
#include "wood.hpp"

namespace tautline::woods {

/// The most woods of the table that a short name may mean.
inline constexpr std::size_t most_alike = 8;

/// A modulus from a name, as bending tests give it, and the woods that the name may mean.
struct modulus_of_name {
    stress<> modulus{};  ///< the wood's, or the mean of several
    stress<> standard{}; ///< its standard uncertainty: between boards, and between the woods where there are several
    short_list<wood, most_alike> may_be{}; ///< one, or several

    /// Whether the name is that of one wood.
    [[nodiscard]] bool is_one() const { return may_be.size() == 1; }
    /// The names of these woods: "sugar maple, black maple or red maple".
    [[nodiscard]] std::string names() const {
        std::string list;
        for (std::size_t i = 0; i < may_be.size(); ++i) {
            messages::append(list, {i == 0 ? "" : i + 1 == may_be.size() ? " or " : ", ", may_be[i].name});
        }
        return list;
    }
};

/// The modulus for a name of the table ("African ebony") or for a short name that ends names of the table ("ebony").
/// For a short name it is the mean of all woods that it may be. The variance is then the mean of their variances plus
/// the variance of their means. Capitals do not matter.
/// @return nothing for any other name, and where none of the woods has a modulus
template <class When = when_used>
[[nodiscard]] std::optional<when_used_t<modulus_of_name, When>> find_modulus(std::string_view name) {
    when_used_t<modulus_of_name, When> found;
    const auto take = [&](const wood& w) {
        if (w.modulus()) { found.may_be.push_back(w); }
    };
    if (const auto one = find_wood(name)) {
        take(*one);
    } else if (!name.empty()) {
        const auto ends = [&](std::string_view whole) {
            return whole.size() > name.size() && whole[whole.size() - name.size() - 1] == ' ' &&
                   same_name(whole.substr(whole.size() - name.size()), name);
        };
        for (const wood& w : all) {
            if (ends(w.name) || ends(w.other_name)) { take(w); }
        }
    }
    if (found.may_be.empty()) { return std::nullopt; }
    const auto count = static_cast<double>(found.may_be.size());
    double mean = 0, squares = 0;
    for (const wood& w : found.may_be) { mean += w.use_gpa / count; }
    for (const wood& w : found.may_be) {
        squares += (w.standard_gpa * w.standard_gpa + (w.use_gpa - mean) * (w.use_gpa - mean)) / count;
    }
    // The figures of a single wood stay as they are, to the last digit.
    found.modulus = (found.is_one() ? found.may_be[0].use_gpa : mean) * units::GPa;
    found.standard = (found.is_one() ? found.may_be[0].standard_gpa : std::sqrt(squares)) * units::GPa;
    return found;
}

/// The rule to tell for a name for which `find_modulus` finds nothing.
template <class When = when_used>
[[nodiscard]] std::string must_have_modulus(std::string_view name) {
    const auto known = find_wood(name);
    if (!known) { return must_be_known<When>(name); }
    return messages::joined({"must come with a modulus: none was found of ", known->name,
                             ". Give one with how it was measured and its give or take"});
}

} // namespace tautline::woods
