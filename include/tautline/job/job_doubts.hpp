#pragma once
/// @file
/// How sure the numbers of a job are: each measurement that may be off is carried through the solve, as found and as
/// planned.

#include "../doubt/tolerance.hpp"
#include "job_setups.hpp"

namespace tautline {

/// All results of a setup with what each doubtful measurement contributes.
struct setup_doubts {
    std::vector<doubt> doubts{};             ///< named by the job's paths
    std::vector<correlation> together{};     ///< of these
    std::vector<uncertain_result> results{}; ///< of the setup

    /// Give or take at about 95 %; nothing where nothing is doubted or no such result is.
    [[nodiscard]] any_quantity give_or_take(std::string_view path) const {
        const auto* r = find_result(results, path);
        return r ? coverage_factor * r->standard(together) : any_quantity();
    }
    /// Contributions to a result, largest share first.
    [[nodiscard]] std::vector<budget_line<double>> budget(std::string_view path) const {
        const auto* r = find_result(results, path);
        if (!r) { return {}; }
        std::vector<std::string> names;
        for (const doubt& d : doubts) { names.push_back(d.name); }
        return tautline::budget(names, std::span<const double>(r->contributions));
    }
};

namespace kernel {

/// What a reading of a string's order moves in the string that is made of it, by dual numbers through the making.
[[nodiscard]] inline std::vector<moved_leaf> moved_by_order(const ordered_string& order, std::size_t place,
                                                            std::string_view key) {
    using D = dual<double, 1>;
    auto seeded = over<D>(order);
    for_each_leaf(seeded, [&](std::string_view path, auto& x) {
        if (path == key) { set_number(x, D::variable(number_of(x).value, 0)); }
    });
    std::vector<moved_leaf> moves;
    const auto made = made_string(seeded);
    for_each_leaf(made, [&](std::string_view path, const auto& x) {
        const double slope = number_of(x).partial[0];
        if (slope != 0) {
            moves.push_back({messages::path_of("strings", place, messages::joined({"string.", path})), slope});
        }
    });
    return moves;
}

/// What of the strung instrument a measurement of a job moves; its path is that of the job without "planned.".
[[nodiscard]] inline std::vector<moved_leaf> moved_by(std::string_view path, const std::vector<ordered_string>& orders) {
    if (path == "a4") { return {{"standard.a4"}}; }
    for (std::size_t i = 0; i < orders.size(); ++i) {
        const std::string list = messages::path_of("strings", i, "");
        if (path != list && is_at_or_below(path, list)) {
            return moved_by_order(orders[i], i, path.substr(list.size() + 1));
        }
    }
    // New wire lies in the frets, a new arc in the board.
    if (is_at_or_below(path, "wire")) { return {{messages::joined({"frets.", path})}}; }
    const std::string_view sanding = "sanding";
    if (is_at_or_below(path, sanding)) { return {{messages::joined({"board.surface", path.substr(sanding.size())})}}; }
    return {{std::string(path)}};
}

/// Whether a measurement of what was found is no longer there once the job is done: new strings, frets and surface are none
/// of those that were measured.
[[nodiscard]] inline bool is_replaced(const bench_job& j, const job_setups& s, std::string_view path) {
    if (!j.planned) { return false; }
    const auto& plan = *j.planned;
    return plan.changes.names(path) || (!plan.strings.empty() && is_at_or_below(path, "strings")) ||
           (plan.a4 != j.a4 && path == "a4") || (plan.wire && is_at_or_below(path, "frets")) ||
           (s.work.removal && (is_at_or_below(path, "board.surface") || is_at_or_below(path, "neck.set")));
}

/// Doubts carried through a solve. One that moves nothing of the model (of a slot's depth, of a worn fret that is replaced)
/// makes no result doubtful.
[[nodiscard]] inline setup_doubts carried(const strung_instrument& on, std::vector<doubt> doubts, const bench_job& j) {
    std::vector<std::string> there;
    for_each_leaf(on, [&](std::string_view path, const auto&) { there.emplace_back(path); });
    std::erase_if(doubts, [&](const doubt& d) {
        return d.moves.empty() || std::any_of(d.moves.begin(), d.moves.end(), [&](const moved_leaf& m) {
                   return std::find(there.begin(), there.end(), m.path) == there.end();
               });
    });
    setup_doubts all{std::move(doubts), {}, {}};
    const auto place = [&](const std::string& name) {
        const auto at = std::find_if(all.doubts.begin(), all.doubts.end(), [&](const doubt& d) { return d.name == name; });
        return static_cast<std::size_t>(at - all.doubts.begin());
    };
    for (const auto& c : j.correlated) {
        const std::size_t a = place(c.first), b = place(c.second);
        if (a < all.doubts.size() && b < all.doubts.size()) { all.together.push_back({a, b, c.coefficient}); }
    }
    require_that(can_hold(all.together), "correlated",
                 "must be such that all can hold at once: what errs with one cannot err against another that errs with it");
    if (!all.doubts.empty()) { all.results = propagate(on, all.doubts); }
    return all;
}

} // namespace kernel

/// The setup as found, with the doubts of the job.
[[nodiscard]] inline setup_doubts doubts_found(const bench_job& j, const job_setups& s) {
    std::vector<doubt> doubts;
    for (const stated_doubt& d : j.doubts) {
        if (is_planned(d.path)) { continue; }
        doubts.push_back({d.path, d.standard, kernel::moved_by(d.path, j.strings)});
    }
    return kernel::carried(s.on, std::move(doubts), j);
}

/// The setup as planned: what was measured is as doubtful as before, what the plan says anew is as sure as it says. What is
/// cut and set is taken as done as planned, so that a measurement that was off is off by as much afterwards.
[[nodiscard]] inline setup_doubts doubts_planned(const bench_job& j, const job_setups& s) {
    std::vector<doubt> doubts;
    for (const stated_doubt& d : j.doubts) {
        if (!is_planned(d.path) && kernel::is_replaced(j, s, d.path)) { continue; }
        doubts.push_back({d.path, d.standard, kernel::moved_by(as_found(d.path), j.last_strings())});
    }
    return kernel::carried(s.plan.set, std::move(doubts), j);
}

} // namespace tautline
