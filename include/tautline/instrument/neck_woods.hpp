#pragma once
/// @file
/// The two woods of a neck: which modulus their names bring, and whether one came from a name.

#include <array>

#include "neck_measures.hpp"

namespace tautline {

/// One of the two woods of a neck as its measures have it.
template <class R = double>
struct basic_neck_wood {
    using real = R;
    std::string_view part{};                          ///< "board" or "back": what its fields begin with
    std::string_view name{};                          ///< of the wood; empty: not told
    stress<R> modulus{};                              ///< along the grain, as given or brought
    modulus_method method = modulus_method::not_told; ///< how it was measured

    /// What the name brings, where the modulus is that: nobody measured the wood in hand.
    [[nodiscard]] std::optional<woods::modulus_of_name> from_name() const {
        if (name.empty() || method != modulus_method::not_told) { return std::nullopt; }
        auto found = woods::find_modulus(name);
        if (!found || !in_all_lanes(modulus.value() == number<R>(found->modulus.value()))) { return std::nullopt; }
        return found;
    }
    /// Standard uncertainty where nobody states one: that of the wood's name where the modulus came from it, else by how it
    /// was measured; nothing where neither is told.
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

/// Gives a modulus that is not given the figure that the name of its wood brings. One that is given stays, whatever its
/// wood is called.
/// @throws invalid_input for a name without a modulus, with the names that may be meant and how one's own is told
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
