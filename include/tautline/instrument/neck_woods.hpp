#pragma once
/// @file
/// The two woods of a neck: which modulus their names bring, and whether a modulus came from a name.

#include <array>

#include "neck_measures.hpp"

namespace tautline {

/// One of the two woods of a neck as its measures have it.
template <class R = double>
struct basic_neck_wood {
    using real = R;
    std::string_view part{};                          ///< "board" or "back": what the names of its fields begin with
    std::string_view name{};                          ///< of the wood; empty: not told
    stress<R> modulus{};                              ///< along the grain, as given or taken from the name
    modulus_method method = modulus_method::not_told; ///< how the modulus was measured

    /// What the wood's name brings, where the modulus is that figure; nobody then measured the wood in hand. Else
    /// nothing.
    [[nodiscard]] std::optional<woods::modulus_of_name> from_name() const {
        if (name.empty() || method != modulus_method::not_told) { return std::nullopt; }
        auto found = woods::find_modulus(name);
        if (!found || !in_all_lanes(modulus.value() == number<R>(found->modulus.value()))) { return std::nullopt; }
        return found;
    }
    /// Standard uncertainty of the modulus where nobody states one. It is that of the wood's name where the modulus came
    /// from the name, else that of the way it was measured. Nothing where neither is told.
    [[nodiscard]] std::optional<stress<R>> standard() const {
        if (const auto named = from_name()) { return over<R>(named->standard); }
        if (const auto share = measured_doubt(method)) { return stress<R>(modulus * number<R>(*share)); }
        return std::nullopt;
    }
};
using neck_wood = basic_neck_wood<double>;

/// The board's wood, then the back's.
template <class R>
[[nodiscard]] std::array<basic_neck_wood<R>, 2> woods_of(const basic_neck_measures<R>& n) {
    return {
        {{"board", n.board_wood, n.board_modulus, n.board_method}, {"back", n.back_wood, n.back_modulus, n.back_method}}};
}

/// Where a modulus is not given, takes the figure that the name of its wood brings. A modulus that is given stays,
/// whatever its wood is called.
/// @throws invalid_input for a name without a modulus; the message lists names that may be meant and says how to give
/// one's own modulus
template <class R>
void take_moduli(basic_neck_measures<R>& n) {
    std::vector<problem> wrong;
    const auto take = [&](const char* field, const std::string& name, needed<stress<R>>& modulus) {
        const bool given = in_all_lanes(modulus.value() == modulus.value());
        if (given || name.empty()) { return; }
        if (const auto found = woods::find_modulus(name)) {
            modulus = over<R>(found->modulus);
        } else {
            wrong.push_back({field, messages::joined({"\"", name, "\""}), woods::must_have_modulus(name)});
        }
    };
    take("board_wood", n.board_wood, n.board_modulus);
    take("back_wood", n.back_wood, n.back_modulus);
    if (!wrong.empty()) { throw invalid_input(std::move(wrong)); }
}

} // namespace tautline
