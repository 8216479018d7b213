#pragma once
/// @file
/// Two setups compared result by result: what changed, by how much, and what it means, most noticeable first.

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "../core/leaves.hpp"
#include "../core/quantity_text.hpp"
#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../setup/setup.hpp"
#include "meaning.hpp"

namespace tautline {

/// A result that has changed.
struct setup_change {
    std::string path{};         ///< of the result, as `for_each_leaf` names it
    any_quantity found{};       ///< value before
    any_quantity planned{};     ///< value after
    double weight = 0;          ///< change over the smallest change that is noticed; 0: told only where asked for
    std::string words{};        ///< what the result is, in words
    std::string_view meaning{}; ///< what more or less of it means; may be empty

    /// The change; positive: more than before.
    [[nodiscard]] any_quantity by() const { return planned - found; }
    /// The change as a share of the value before; nothing where that was 0.
    [[nodiscard]] std::optional<double> share() const {
        return found.si() != 0 ? std::optional(by().si() / std::abs(found.si())) : std::nullopt;
    }
};

namespace kernel {

/// Whether a change is rounding alone: a thousandth of a nanometre, a nanonewton, a billionth of a degree. What is 0 by
/// right comes out as some such number.
[[nodiscard]] inline bool by_rounding_alone(const any_quantity& by) {
    return std::abs(by.si()) < 1e-9 * column_unit_of(by.kind()).size;
}
/// Changes by weight, the largest first. Those that weigh the same by right differ in their last digits; they stand in the
/// order of the results, so weights are compared with the digits of a float.
inline void put_most_noticeable_first(std::vector<setup_change>& changes) {
    std::vector<std::size_t> order(changes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto weighs = [&](std::size_t k) { return static_cast<float>(changes[k].weight); };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return weighs(a) > weighs(b); });
    std::vector<setup_change> sorted;
    sorted.reserve(changes.size());
    for (const std::size_t k : order) { sorted.push_back(std::move(changes[k])); }
    changes = std::move(sorted);
}

} // namespace kernel

/// All results that both setups have and that differ by more than rounding, most noticeable first. Results that only one
/// setup has (of an added string, of a bridge that no longer floats) cannot be compared and are left out.
template <class R>
[[nodiscard]] std::vector<setup_change> compare(const basic_setup<R>& found, const basic_setup<R>& planned) {
    using number_at = std::pair<std::string, R>;
    std::vector<number_at> before;
    for_each_leaf(found, [&](std::string_view path, const auto& x) {
        before.push_back({std::string(path), number_of(x)});
    });
    // Both setups list what they have in the same order, so the next number is mostly the one that is looked for.
    std::size_t next = 0;
    const auto find = [&](std::string_view path) -> const number_at* {
        for (std::size_t k = 0; k < before.size(); ++k) {
            const std::size_t at = next + k < before.size() ? next + k : next + k - before.size();
            if (before[at].first != path) { continue; }
            next = at + 1;
            return &before[at];
        }
        return nullptr;
    };
    std::vector<setup_change> changes;
    kernel::known_meanings meanings;
    const kernel::names_by_heart names(planned.names);
    for_each_leaf(planned, [&](std::string_view path, const auto& x) {
        const number_at* const was = find(path);
        if (!was || was->second == number_of(x)) { return; }
        setup_change c{.path = was->first,
                       .found = any_quantity::of(kind_name_of(x), static_cast<double>(was->second)),
                       .planned = any_of(x)};
        // What lies behind a string's own nut is no number.
        if (!c.found.is_number() || !c.planned.is_number() || kernel::by_rounding_alone(c.by())) { return; }
        const auto& m = meanings.of(path);
        c.words = kernel::words_of(m, path, names);
        if (m) {
            const double noticed = std::max(m->step, m->share * std::abs(c.found.si()));
            if (noticed > 0) { c.weight = std::abs(c.by().si()) / noticed; }
            c.meaning = c.by().si() > 0 ? m->more : m->less;
        }
        changes.push_back(std::move(c));
    });
    kernel::put_most_noticeable_first(changes);
    return changes;
}
TAUTLINE_HELD(std::vector<setup_change> compare<double>(const setup&, const setup&))

/// The first change of each kind of result that is noticeable; one string and fret stand for all. Changes must be in
/// order, most noticeable first.
template <class Change>
[[nodiscard]] std::vector<Change> leading_changes(const std::vector<Change>& changes) {
    std::vector<Change> first;
    for (const Change& c : changes) {
        const auto kind = [](const Change& of) {
            const auto m = meaning_of(of.path);
            return m ? m->pattern : std::string_view(of.path);
        };
        const auto alike = [&](const Change& met) { return kind(met) == kind(c); };
        if (c.weight >= 1 && std::none_of(first.begin(), first.end(), alike)) { first.push_back(c); }
    }
    return first;
}

} // namespace tautline
