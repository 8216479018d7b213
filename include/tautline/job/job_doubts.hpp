#pragma once
/// @file
/// How sure the numbers of a job are. Each doubtful measurement is carried through the solve, as found and as planned;
/// what the instrument's readings say of it counts too.

#include <optional>
#include <utility>

#include "../core/when_used.hpp"
#include "../doubt/reconcile.hpp"
#include "known_doubts.hpp"

namespace tautline {

/// All results of a setup, with the contribution of each doubtful measurement.
struct setup_doubts {
    std::vector<doubt> doubts{};             ///< named by the job's paths; after them readings of results, by their words
    std::vector<correlation> together{};     ///< correlations of these
    std::vector<uncertain_result> results{}; ///< results of the setup
    std::vector<std::string> usual{};        ///< names of doubts that nobody stated
    std::vector<std::string> cuts{};         ///< names of doubts about cuts that are still to be made
    /// The same results from the inputs alone, in the same order; empty where nothing was read.
    std::vector<uncertain_result> unread{};
    std::vector<correlation> unread_together{}; ///< correlations of those inputs
    /// Doubts of the setup's instrument that do not err together and hold all that is known; a random sample draws these.
    std::vector<doubt> apart{};

    /// Give or take at about 95 %; nothing where nothing is doubted or there is no such result.
    [[nodiscard]] any_quantity give_or_take(std::string_view path) const {
        const auto* r = find_result(results, path);
        return r ? coverage_factor * r->standard(together) : any_quantity();
    }
    /// The same without the readings.
    [[nodiscard]] any_quantity give_or_take_unread(std::string_view path) const {
        const auto* r = find_result(unread, path);
        return r ? coverage_factor * r->standard(unread_together) : give_or_take(path);
    }
    /// Contributions to a result, largest share first.
    [[nodiscard]] std::vector<budget_line<double>> budget(std::string_view path) const {
        const auto* r = find_result(results, path);
        if (!r) { return {}; }
        std::vector<std::string> names;
        for (const doubt& d : doubts) { names.push_back(d.name); }
        return tautline::budget(names, std::span<const double>(r->contributions));
    }
    /// Whether nobody stated the doubt of that name.
    [[nodiscard]] bool is_usual(std::string_view name) const {
        return std::find(usual.begin(), usual.end(), name) != usual.end();
    }
};

namespace kernel {

/// Those of `moves` whose numbers an instrument has.
[[nodiscard]] inline std::vector<moved_leaf> there(const std::vector<std::string>& leaves, std::vector<moved_leaf> moves) {
    std::erase_if(moves, [&](const moved_leaf& m) { return !std::binary_search(leaves.begin(), leaves.end(), m.path); });
    return moves;
}
template <class Model>
[[nodiscard]] std::vector<std::string> leaf_paths(const Model& model) {
    std::vector<std::string> paths;
    for_each_leaf(model, [&](std::string_view path, const auto&) { paths.emplace_back(path); });
    std::sort(paths.begin(), paths.end());
    return paths;
}

/// Which of a job's doubts err together, by their places.
template <class Doubts>
[[nodiscard]] std::vector<correlation> pairs_of(const bench_job& j, const Doubts& doubts) {
    std::vector<correlation> together;
    const auto place = [&](const std::string& name) {
        const auto at = std::find_if(doubts.begin(), doubts.end(), [&](const auto& d) { return d.name == name; });
        return static_cast<std::size_t>(at - doubts.begin());
    };
    for (const auto& c : j.correlated) {
        const std::size_t a = place(c.first), b = place(c.second);
        if (a >= doubts.size() || b >= doubts.size()) { continue; }
        const bool again = std::any_of(together.begin(), together.end(), [&](const correlation& one) {
            return std::minmax(one.first, one.second) == std::minmax(a, b);
        });
        require_that(!again, "correlated", messages::joined({"must name ", c.first, " and ", c.second, " together once"}));
        together.push_back({a, b, c.coefficient});
    }
    require_that(can_hold(together), "correlated",
                 "must be such that all can hold at once: what errs with one cannot err against another that errs with it");
    return together;
}

/// Adds a doubt of 1 for each column of a matrix; its rows are inputs that move leaves.
inline void add_directions(const std::vector<doubt>& inputs, const matrix& directions, std::vector<doubt>& all) {
    for (std::size_t c = 0; c < directions.columns(); ++c) {
        doubt d{messages::joined({"direction ", c + 1}), 1.0, {}};
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            if (directions(i, c) == 0) { continue; }
            for (const moved_leaf& m : inputs[i].moves) { d.moves.push_back({m.path, m.factor * directions(i, c), true}); }
        }
        if (!d.moves.empty()) { all.push_back(std::move(d)); }
    }
}

/// Doubts that are carried through the same solve as those of a setup, and what they contribute to its results.
struct carried_beside {
    std::vector<doubt> doubts{}; ///< given
    matrix contributions{};      ///< found: a row for each result, a column for each of these doubts
};
/// The doubt in a list that moves the same numbers in the same proportion, and how many times it `d` is; nothing where
/// there is none.
[[nodiscard]] inline std::optional<std::pair<std::size_t, double>> moved_alike(const std::vector<doubt>& all,
                                                                               const doubt& d) {
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto &a = all[i].moves, &b = d.moves;
        if (a.size() != b.size() || a.empty() || a[0].path != b[0].path) { continue; }
        if (a[0].factor == 0 || !(all[i].standard.si() > 0)) { continue; }
        bool alike = true;
        for (std::size_t k = 1; alike && k < a.size(); ++k) {
            alike = a[k].path == b[k].path && a[k].factor * b[0].factor == b[k].factor * a[0].factor;
        }
        if (alike) { return std::pair{i, b[0].factor * d.standard.si() / (a[0].factor * all[i].standard.si())}; }
    }
    return std::nullopt;
}
/// Carries doubts through a solve, and others beside them. Of those beside, only what none of the doubts tells costs a
/// solve of its own.
[[nodiscard]] inline std::vector<uncertain_result>
propagate_both(const strung_instrument& on, const std::vector<doubt>& doubts, carried_beside* beside) {
    if (!beside) { return propagate(on, doubts); }
    std::vector<doubt> both = doubts;
    std::vector<std::pair<std::size_t, double>> places;
    for (const doubt& d : beside->doubts) {
        places.push_back(moved_alike(doubts, d).value_or(std::pair{both.size(), 1.0}));
        if (places.back().first == both.size()) { both.push_back(d); }
    }
    auto results = propagate(on, both);
    beside->contributions = matrix(results.size(), places.size());
    for (std::size_t row = 0; row < results.size(); ++row) {
        auto& parts = results[row].contributions;
        for (std::size_t k = 0; k < places.size(); ++k) {
            beside->contributions(row, k) = places[k].second * parts[places[k].first];
        }
        parts.resize(doubts.size());
    }
    return results;
}

/// Carries doubts through a solve; `moves` tells what each moves there. A doubt that moves nothing of the model (the
/// depth of a slot, wear of a fret that is replaced) makes no result doubtful.
template <class Moves>
[[nodiscard]] setup_doubts carried(const strung_instrument& on, const std::vector<known_doubt>& known, Moves&& moves,
                                   const bench_job& j, carried_beside* beside = nullptr) {
    const auto leaves = leaf_paths(on);
    setup_doubts all;
    for (const known_doubt& k : known) {
        doubt d{k.name, k.standard, there(leaves, moves(k))};
        if (d.moves.empty()) { continue; }
        if (k.usual) { all.usual.push_back(k.name); }
        if (k.cut) { all.cuts.push_back(k.name); }
        all.doubts.push_back(std::move(d));
    }
    all.together = pairs_of(j, all.doubts);
    if (all.doubts.empty()) { return all; }
    all.results = propagate_both(on, all.doubts, beside);
    all.apart = all.doubts;
    if (!all.together.empty()) {
        std::vector<double> standard;
        for (const doubt& d : all.doubts) { standard.push_back(d.standard.si()); }
        all.apart.clear();
        add_directions(all.doubts, covariance_root(covariance_of(standard, all.together)), all.apart);
    }
    return all;
}

/// The same after the instrument is reconciled. Inputs and readings share what they know of each result; doubts that are
/// not among the reconciled inputs count beside them.
template <class Moves>
[[nodiscard]] setup_doubts carried(const strung_instrument& on, const std::vector<known_doubt>& known, Moves&& moves,
                                   const bench_job& j, const reconciliation& read, carried_beside* with = nullptr) {
    const auto leaves = leaf_paths(on);
    setup_doubts all;
    std::vector<doubt> inputs;
    std::vector<bool> reconciled(known.size());
    for (std::size_t i = 0; i < read.turned.size(); ++i) {
        const auto is = [&](const known_doubt& k) { return k.name == read.turned[i].name; };
        const auto at = std::find_if(known.begin(), known.end(), is);
        doubt d{read.turned[i].name, any_quantity::of(read.turned[i].kind, read.turned[i].standard), {}};
        const double slope = read.turned[i].slope(read.fit.t[i]);
        if (read.turned[i].by_share) { d.standard = any_quantity(read.turned[i].standard); }
        if (at != known.end()) {
            reconciled[static_cast<std::size_t>(at - known.begin())] = true;
            d.moves = there(leaves, moves(*at));
            if (at->usual) { all.usual.push_back(at->name); }
        }
        for (moved_leaf& m : d.moves) {
            m.factor *= slope;
            m.converts = m.converts || read.turned[i].by_share;
        }
        inputs.push_back(std::move(d));
    }
    std::vector<doubt> beside;
    for (std::size_t i = 0; i < known.size(); ++i) {
        doubt d{known[i].name, known[i].standard, there(leaves, moves(known[i]))};
        if (reconciled[i] || d.moves.empty()) { continue; }
        if (known[i].usual) { all.usual.push_back(known[i].name); }
        if (known[i].cut) { all.cuts.push_back(known[i].name); }
        beside.push_back(std::move(d));
    }
    auto both = inputs;
    both.insert(both.end(), beside.begin(), beside.end());
    if (both.empty()) { return all; }
    all.unread = propagate_both(on, both, with);
    all.unread_together = pairs_of(j, both);
    all.together = read.all_together();
    add_directions(inputs, read.adjustment->unit_directions(), all.apart);
    all.apart.insert(all.apart.end(), beside.begin(), beside.end());
    all.doubts = std::move(inputs);
    for (const auto& r : read.readings) { all.doubts.push_back({r.words, r.standard, {}}); }
    all.doubts.insert(all.doubts.end(), beside.begin(), beside.end());
    const basic_contribution_map<double> now(*read.adjustment);
    const std::size_t count = read.turned.size();
    std::vector<double> slopes(count);
    all.results.reserve(all.unread.size());
    for (const uncertain_result& r : all.unread) {
        for (std::size_t i = 0; i < count; ++i) { slopes[i] = r.contributions[i] / read.turned[i].standard; }
        auto parts = now.to(slopes);
        parts.insert(parts.end(), r.contributions.begin() + static_cast<std::ptrdiff_t>(count), r.contributions.end());
        all.results.push_back({r.path, r.value, std::move(parts)});
    }
    return all;
}

} // namespace kernel

namespace kernel {

/// The setup as found, with doubts that are known of what was found.
template <class = when_used>
[[nodiscard]] setup_doubts doubts_found(const bench_job& j, const job_setups& s, const std::vector<known_doubt>& known,
                                        const reconciliation* read) {
    const auto moves = [](const known_doubt& k) -> const std::vector<moved_leaf>& { return k.found; };
    return read ? carried(s.as_found, known, moves, j, *read) : carried(s.as_found, known, moves, j);
}
/// The setup as planned, with doubts that are known of what was found.
/// @param beside doubts of the planned instrument that are carried through the same solve; null: none
template <class = when_used>
[[nodiscard]] setup_doubts doubts_planned(const bench_job& j, const job_setups& s, std::vector<known_doubt> known,
                                          const reconciliation* read, const std::vector<known_doubt>& of_work,
                                          carried_beside* beside) {
    for (known_doubt& k : known) {
        if (!is_replaced(j, k.name)) { k.planned = k.found; }
    }
    known.insert(known.end(), of_work.begin(), of_work.end());
    for (known_doubt& k : doubts_of_plan(j, s)) {
        const auto same = [&](const known_doubt& done) { return done.name == k.name; };
        const bool done = std::any_of(of_work.begin(), of_work.end(), same);
        if (done && !k.cut) { continue; }
        if (done) { k.name += ", once more"; }
        known.push_back(std::move(k));
    }
    const auto moves = [](const known_doubt& k) -> const std::vector<moved_leaf>& { return k.planned; };
    return read ? carried(s.plan.adjusted, known, moves, j, *read, beside)
                : carried(s.plan.adjusted, known, moves, j, beside);
}

} // namespace kernel

/// The setup as found, with the doubts of the job.
/// @param read outcome of the readings; null: no readings
template <class = when_used>
[[nodiscard]] setup_doubts doubts_found(const bench_job& j, const job_setups& s, const reconciliation* read = nullptr) {
    return kernel::doubts_found(j, s, doubts_of_found(j), read);
}

/// The setup as planned, with the doubts of the job. What was measured is as doubtful as before: a measurement that was
/// off is off by as much afterwards. What the plan gives anew has the doubt stated there, and cuts have the doubt of the
/// hands that make them.
/// @param read outcome of the readings of the instrument as found; null: no readings
/// @param of_work doubts that work already done added to the instrument that was read
template <class = when_used>
[[nodiscard]] setup_doubts doubts_planned(const bench_job& j, const job_setups& s, const reconciliation* read = nullptr,
                                          const std::vector<known_doubt>& of_work = {}) {
    return kernel::doubts_planned(j, s, doubts_of_found(j), read, of_work, nullptr);
}

} // namespace tautline
