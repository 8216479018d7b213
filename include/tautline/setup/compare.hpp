#pragma once
/// @file
/// Two setups side by side, result by result: what changed, by how much, what it means, most noticeable first.

#include <algorithm>
#include <cmath>
#include <map>

#include "../core/quantity_text.hpp"
#include "meaning.hpp"
#include "tolerance.hpp"

namespace tautline {

/// A result that is not what it was. Numbers are in SI, intervals in cents, as `kind` says.
struct setup_change {
    std::string path{}; ///< as `leaves` names it
    /// "length", "force", ...
    const char* kind = "";
    double found = 0;           ///< before
    double planned = 0;         ///< after
    double weight = 0;          ///< change over the change that is noticed; 0: told to nobody unasked
    std::string words{};        ///< what the result is
    std::string_view meaning{}; ///< of more or less of it; may be empty

    /// The change: + is more than before.
    [[nodiscard]] double by() const { return planned - found; }
    /// Change as a share of what it was; nothing where it was 0.
    [[nodiscard]] std::optional<double> share() const {
        return found != 0 ? std::optional(by() / std::abs(found)) : std::nullopt;
    }
};

namespace kernel {

[[nodiscard]] inline setup_change change_between(std::string_view path, const char* kind, double found, double planned) {
    setup_change c{std::string(path), kind, found, planned, 0, words_for(path), {}};
    if (const result_meaning* m = meaning_of(path)) {
        const double noticed = std::max(m->step, m->share * std::abs(found));
        if (noticed > 0) { c.weight = std::abs(c.by()) / noticed; }
        c.meaning = c.by() > 0 ? m->more : m->less;
    }
    return c;
}

} // namespace kernel

/// All results that both setups have and that differ, those that are noticed most first. Results that only one of them has
/// (a string more, a bridge that floats no longer) cannot be compared and are left out.
template <class = void> // compiled only for who asks
[[nodiscard]] std::vector<setup_change> compare(const setup& found, const setup& planned) {
    std::map<std::string, double, std::less<>> before;
    for_each_leaf(found, [&](std::string_view path, const auto& x) { before.emplace(path, number_of(x)); });
    std::vector<setup_change> changes;
    for_each_leaf(planned, [&](std::string_view path, const auto& x) {
        const auto was = before.find(path);
        const double now = number_of(x);
        if (was == before.end() || was->second == now) { return; }
        changes.push_back(
            kernel::change_between(path, kernel::leaf_kind<std::remove_cvref_t<decltype(x)>>::name, was->second, now));
    });
    std::stable_sort(changes.begin(), changes.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
    return changes;
}

/// Of changes in order, the first of every kind of result (one string and fret stand for all), and only what is noticed.
[[nodiscard]] inline std::vector<setup_change> leading_changes(std::span<const setup_change> changes) {
    std::vector<setup_change> first;
    std::vector<std::string> met;
    for (const setup_change& c : changes) {
        if (c.weight < 1) { continue; }
        const result_meaning* m = meaning_of(c.path);
        const std::string pattern(m ? m->pattern : std::string_view(c.path));
        if (std::find(met.begin(), met.end(), pattern) != met.end()) { continue; }
        met.push_back(pattern);
        first.push_back(c);
    }
    return first;
}

} // namespace tautline
