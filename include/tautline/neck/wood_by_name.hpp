#pragma once
/// @file
/// What the name of a wood alone says of its modulus, also where the trade's short name may be one of several woods.

#include <cmath>

#include "wood.hpp"

namespace tautline::woods {

/// A modulus that a name brings, as bending tests give it, and the woods that it may be of.
struct modulus_of_name {
    stress<> modulus{};         ///< the wood's, or the mean of several
    stress<> standard{};        ///< its standard uncertainty: of one board, and between the woods where there are several
    std::vector<wood> may_be{}; ///< one, or several

    /// Whether the name is that of one wood.
    [[nodiscard]] bool is_one() const { return may_be.size() == 1; }
    /// "sugar maple, black maple or red maple".
    [[nodiscard]] std::string names() const {
        std::string list;
        for (std::size_t i = 0; i < may_be.size(); ++i) {
            messages::append(list, {i == 0 ? "" : i + 1 == may_be.size() ? " or " : ", ", may_be[i].name});
        }
        return list;
    }
};

/// The modulus of a name of the table, "African ebony", or of a short one that ends names of it, "ebony". Of a short one
/// the mean of all that it may be, with the standard uncertainty of a wood drawn from among them: the mean of their
/// variances and the variance of their means. Capitals do not count.
/// @return nothing for a name that is neither, and where none of those woods has a modulus
template <class When = when_used>
[[nodiscard]] std::optional<when_used_t<modulus_of_name, When>> find_modulus(std::string_view name) {
    when_used_t<modulus_of_name, When> found;
    if (const auto one = find_wood(name)) {
        found.may_be.push_back(*one);
    } else if (!name.empty()) {
        const auto ends = [&](std::string_view whole) {
            return whole.size() > name.size() && whole[whole.size() - name.size() - 1] == ' ' &&
                   same_name(whole.substr(whole.size() - name.size()), name);
        };
        for (const wood& w : all) {
            if (ends(w.name) || ends(w.other_name)) { found.may_be.push_back(w); }
        }
    }
    std::erase_if(found.may_be, [](const wood& w) { return !w.modulus(); });
    if (found.may_be.empty()) { return std::nullopt; }
    const auto count = static_cast<double>(found.may_be.size());
    double mean = 0, squares = 0;
    for (const wood& w : found.may_be) { mean += w.use_gpa / count; }
    for (const wood& w : found.may_be) {
        squares += (w.standard_gpa * w.standard_gpa + (w.use_gpa - mean) * (w.use_gpa - mean)) / count;
    }
    // One wood's own figures stay as they are, to the last digit.
    found.modulus = (found.is_one() ? found.may_be[0].use_gpa : mean) * units::GPa;
    found.standard = (found.is_one() ? found.may_be[0].standard_gpa : std::sqrt(squares)) * units::GPa;
    return found;
}

/// What stands against taking a modulus from a name that `find_modulus` does not find: for a sentence.
template <class When = when_used>
[[nodiscard]] std::string must_have_modulus(std::string_view name) {
    const auto known = find_wood(name);
    if (!known) { return must_be_known<When>(name); }
    return messages::joined({"must come with a modulus: none was found of ", known->name,
                             ". Give one with how it was measured and its give or take"});
}

} // namespace tautline::woods
