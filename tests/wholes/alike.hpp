#pragma once
/// @file
/// Whether two setups tell the same numbers.

#include <algorithm>
#include <map>

#include <tautline/core/leaves.hpp>
#include <tautline/setup/solve.hpp>

#include "check.hpp"

namespace wholes {

/// A number and what is nothing beside its kind: a nanometre, a millionth of a newton.
struct leaf_number {
    double number = 0, nothing = 0;
};
[[nodiscard]] inline std::map<std::string, leaf_number> numbers_of_setup(const tautline::setup& s) {
    using namespace tautline;
    std::map<std::string, leaf_number> all;
    for_each_leaf(s, [&](std::string_view path, const auto& x) {
        using leaf_type = std::remove_cvref_t<decltype(x)>;
        double nothing = 1e-8;
        if constexpr (std::is_base_of_v<length<>, leaf_type>) { nothing = 2e-9; }
        if constexpr (std::is_base_of_v<force<>, leaf_type>) { nothing = 1e-5; }
        if constexpr (std::is_base_of_v<interval<>, leaf_type>) { nothing = 1e-4; }
        if constexpr (std::is_base_of_v<stress<>, leaf_type>) { nothing = 1e3; }
        all[std::string(path)] = {number_of(x), nothing};
    });
    return all;
}
[[nodiscard]] inline bool ends_with(const std::string& s, const std::string& tail) {
    return s.size() >= tail.size() && s.compare(s.size() - tail.size(), tail.size(), tail) == 0;
}

/// Both setups tell the same numbers, but for those whose path begins with one of the given words; `share` is how far they
/// may be apart as a share of themselves, `times` how many times nothing.
inline void alike(complaints& wrong, const tautline::setup& a, const tautline::setup& b,
                  const std::vector<std::string>& but_for, double share = 1e-8, double times = 1) {
    const auto first = numbers_of_setup(a), second = numbers_of_setup(b);
    const auto left_out = [&](const std::string& path) {
        // Of two places that are alike either may be named.
        if (ends_with(path, ".fret") || ends_with(path, "relief.x")) { return true; }
        return std::any_of(but_for.begin(), but_for.end(),
                           [&](const auto& word) { return path.compare(0, word.size(), word) == 0; });
    };
    for (const auto& [path, n] : first) {
        if (left_out(path)) { continue; }
        // Margins of feet that hardly anything presses are shares of nearly nothing.
        if (path.compare(0, 9, "standing.") == 0 && std::abs(n.number) > 1 && n.nothing < 1e-6) { continue; }
        const auto other = second.find(path);
        if (other == second.end()) {
            wrong.unless(false, path + " is told by one only");
        } else {
            wrong.unless_near(path, n.number, other->second.number, times * n.nothing + share * std::abs(n.number));
        }
    }
    for (const auto& [path, n] : second) {
        if (!left_out(path)) { wrong.unless(first.count(path) == 1, path + " is told by the other only"); }
    }
}

} // namespace wholes
