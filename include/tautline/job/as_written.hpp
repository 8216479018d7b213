#pragma once
/// @file
/// Reconciled measurements told as they were written. A hung weight acts by its pull and a string's weight or packet by its
/// mass per length: a fit varies these, and people read the mass, the length or the tension that they noted.

#include <cmath>

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "../doubt/reconciliation.hpp"
#include "known_doubts.hpp"

namespace tautline::kernel {

/// The string that a measurement is of and its key there: 0 and "weight" for "strings[0].weight". Nothing for others.
struct order_key {
    const ordered_string* order = nullptr;
    std::size_t place = 0;
    std::string_view key{};
};
[[nodiscard]] inline order_key order_of(const bench_job& j, std::string_view name) {
    const std::string_view path = as_found(name);
    const auto& orders = is_planned(name) && j.planned ? j.planned->strings : j.strings;
    for (std::size_t i = 0; i < orders.size(); ++i) {
        const std::string list = messages::path_of("strings", i, "");
        if (path != list && is_at_or_below(path, list)) { return {&orders[i], i, path.substr(list.size() + 1)}; }
    }
    return {};
}

/// Tells a reconciled input in the kind in which it was written, where the fit varied something else.
template <class = when_used>
void tell_as_written(const bench_job& j, reconciled_input& told) {
    const auto in_kind = [&](kind_name kind, auto&& change) {
        for (any_quantity* q : {&told.as_read, &told.before, &told.found, &told.after}) {
            *q = any_quantity::of(kind, change(*q));
        }
    };
    if (told.name.starts_with("states[") && told.name.ends_with("weight")) {
        // The fit varies the mass already: the pull is its multiple.
        in_kind("mass", [](const any_quantity& q) { return q.si(); });
        return;
    }
    if (told.found.kind() != "linear_density") { return; }
    const order_key of = order_of(j, told.name);
    if (!of.order) { return; }
    const auto moves = moved_by_order(*of.order, of.place, of.key);
    const any_quantity written = find_at(*of.order, of.key);
    // What errs together with another may be varied the other way round.
    const double way = told.as_read.si() < 0 ? -1 : 1, was = way * told.as_read.si(), is = way * told.found.si();
    if (moves.size() != 1 || !written.has_value() || !(was > 0) || !(is > 0)) { return; }
    // The mass goes with a power of what was written: 1 of a weight, -1 of the length that was weighed, about 1 of a
    // packet's tension and -2 of its length.
    const double power = moves.front().factor * written.si() / was;
    const double found = written.si() * std::pow(is / was, 1 / power);
    const double slope = found / (power * is);
    const double before = written.si() / (std::abs(power) * was) * told.before.si();
    const double after = std::abs(slope) * told.after.si();
    const kind_name kind = written.kind();
    told.as_read = written;
    told.before = any_quantity::of(kind, before);
    told.found = any_quantity::of(kind, found);
    told.after = any_quantity::of(kind, after);
    told.per_varied = way * slope;
    told.test.error *= way * slope;
    told.test.least_detectable *= std::abs(slope);
}

} // namespace tautline::kernel
