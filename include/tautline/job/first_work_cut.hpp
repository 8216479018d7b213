#pragma once
/// @file
/// How far above its final line the first cut of board and crowns stops. Wood that is sanded off and metal that is filed
/// off cannot be put back, and how much must come off is as doubtful as the measured shapes. What the straightedge shows
/// after the first cut makes the last cut sure.
///
/// Source: the work itself in dual numbers gives what each doubt does to the cut at a place; twice the standard
/// uncertainty is left, as in `first_cuts_of`.

#include <array>
#include <map>

#include "../core/when_used.hpp"
#include "first_cut.hpp"
#include "job_readings.hpp"

namespace tautline {

/// What the first cut leaves of a board or a crown at one place.
struct first_work_cut {
    std::string where{}; ///< "the nut", "fret 7, bass end"
    length<> last{};     ///< how much must come off in all, by what is known now
    length<> left{};     ///< how much of it the first cut leaves; all of it where its doubt is larger
    double standard = 0; ///< standard uncertainty of `last`, in metres

    /// How much the first cut takes off.
    [[nodiscard]] length<> first() const { return length<>(last - left); }
};

/// How much the first cuts of board and crowns leave; empty where no such work is planned.
struct first_work_cuts {
    std::vector<first_work_cut> board{};  ///< on the centre line at the nut, the frets and the end; at both edges where
                                          ///< the edges stood apart
    std::vector<first_work_cut> crowns{}; ///< for each fret that the file touches, or for both its ends

    /// The largest of a list: one number that suits every place.
    [[nodiscard]] static std::optional<length<>> most(const std::vector<first_work_cut>& list) {
        std::optional<length<>> m;
        for (const auto& one : list) {
            if (!m || one.left > *m) { m = one.left; }
        }
        return m;
    }
};

namespace kernel {

/// What comes off at every place that is told.
template <class R>
struct work_taken {
    std::vector<length<R>> board{}, crowns{};
};

/// The frets at which the removal from a board is told. 0 is the nut; for frets beyond the last it is the end.
inline constexpr std::array removal_frets{0, 1, 3, 5, 7, 9, 12, 15};

/// A place of the removal from a board: x and the side of the board, 0 on the centre line.
template <class R>
struct board_place {
    std::string where{};
    length<R> x{};
    double side = 0;
};
template <class R>
[[nodiscard]] std::vector<board_place<R>> board_places(const basic_instrument<R>& i) {
    std::vector<board_place<R>> all;
    const auto add = [&](const std::string& where, const length<R>& x) {
        if (!i.neck.told_by_edges()) {
            all.push_back({where, x, 0});
        } else {
            all.push_back({where + ", bass edge", x, -1});
            all.push_back({where + ", treble edge", x, 1});
        }
    };
    for (const int n : removal_frets) {
        if (n == 0) {
            add("the nut", length<R>());
        } else if (n <= i.board.scale.frets) {
            add(messages::joined({"fret ", n}), kernel::fret_place(i, n));
        }
    }
    add("the end", length<R>(i.board.board_length));
    return all;
}

/// What the work takes off with the neck held in the given shapes; null for a shape that no work is done in.
template <class R>
[[nodiscard]] work_taken<R> take_off(const basic_strung_instrument<R>& from, const basic_board_details<R>& details,
                                     const basic_bench_work<R>& work, const basic_bow<R>* at_pitch,
                                     const basic_bow<R>* will_be) {
    const auto bow_of = [&](neck_held held) {
        return held == neck_held::slack ? nullptr : held == neck_held::as_at_pitch ? at_pitch : will_be;
    };
    work_taken<R> off;
    basic_work_done<R> done;
    done.after = from;
    if (work.sanding) {
        auto plain = details;
        plain.slot.reset(); // what slots need does not change how much comes off
        sand<R>(from, plain, work, bow_of(work.sanding->held), done);
        for (const auto& p : board_places<R>(from.instrument)) {
            const length<R> y = half_width_at<R>(from.instrument.board, p.x) * number<R>(static_cast<long double>(p.side));
            off.board.push_back(removal_at<R>(*done.removal, p.x, y));
        }
    }
    if (work.levelling) {
        const auto& i = done.after.instrument;
        const auto slack = slack_bow(i, true);
        const bool free = work.levelling->held == neck_held::slack;
        const auto* const bow = free ? (slack ? &*slack : nullptr) : bow_of(work.levelling->held);
        const auto way = level<R>(i, bow, *work.levelling);
        if (way.bass_cuts.empty()) {
            off.crowns = way.cuts;
        } else {
            off.crowns = way.bass_cuts;
            off.crowns.insert(off.crowns.end(), way.treble_cuts.begin(), way.treble_cuts.end());
        }
    }
    return off;
}

/// A doubt that moves the instrument worked on, the one planned, or both.
struct work_doubt {
    double standard = 0;
    const std::vector<moved_leaf>* found = nullptr;
    const std::vector<moved_leaf>* planned = nullptr;
};

/// The doubts of both instruments that do not err together, each name once. Doubts about cuts that are still to be made
/// are left out.
[[nodiscard]] inline std::vector<work_doubt> doubts_of_work(const setup_doubts& worked_on, const setup_doubts& planned) {
    std::map<std::string, work_doubt, std::less<>> all;
    for (const doubt& d : worked_on.apart) { all[d.name] = {d.standard.si(), &d.moves, nullptr}; }
    for (const doubt& d : planned.apart) {
        const bool by_hand =
            d.name == sanding_doubt || std::find(planned.cuts.begin(), planned.cuts.end(), d.name) != planned.cuts.end();
        if (by_hand) { continue; }
        auto& one = all[d.name];
        one.standard = d.standard.si();
        one.planned = &d.moves;
    }
    std::vector<work_doubt> list;
    list.reserve(all.size());
    for (const auto& [name, d] : all) { list.push_back(d); }
    return list;
}

/// Numbers that doubts move in the same proportion, of the instrument worked on and of the one planned.
struct numbers_together {
    std::vector<std::string_view> found{}, planned{}; ///< their paths
    std::vector<double> by{};                         ///< by how much each doubt moves them
};

/// The numbers that doubts move, those together that none of the doubts moves apart. Paths refer to the doubts.
/// @param counts whether a number may move the work, by its path
template <class Counts>
[[nodiscard]] std::vector<numbers_together> numbers_moved(const std::vector<work_doubt>& doubts, bool with_planned,
                                                          Counts&& counts) {
    struct one {
        std::string_view path;
        bool planned;
        std::vector<double> by;
    };
    std::vector<one> all;
    std::map<std::string_view, std::size_t> places[2];
    for (std::size_t k = 0; k < doubts.size(); ++k) {
        const auto add = [&](const std::vector<moved_leaf>* moves, bool planned) {
            if (!moves) { return; }
            std::size_t next = 0; // doubts often move the same numbers in the same order
            for (const moved_leaf& m : *moves) {
                if (!counts(m.path)) { continue; }
                if (!(next < all.size() && all[next].planned == planned && all[next].path == m.path)) {
                    const auto [at, is_new] = places[planned ? 1 : 0].try_emplace(m.path, all.size());
                    if (is_new) { all.push_back({m.path, planned, std::vector<double>(doubts.size())}); }
                    next = at->second;
                }
                all[next++].by[k] += m.factor * doubts[k].standard;
            }
        };
        add(doubts[k].found, false);
        if (with_planned) { add(doubts[k].planned, true); }
    }
    std::vector<numbers_together> together;
    std::map<std::vector<double>, std::size_t> by_moves;
    for (one& n : all) {
        const auto [at, is_new] = by_moves.try_emplace(n.by, together.size());
        if (is_new) { together.push_back({{}, {}, std::move(n.by)}); }
        auto& group = together[at->second];
        (n.planned ? group.planned : group.found).push_back(n.path);
    }
    return together;
}

/// Gives the numbers with these paths the derivative of one by an input.
template <class D>
void seed(const leaf_places<D>& numbers, const std::vector<std::string_view>& paths, std::size_t input) {
    for (const std::string_view path : paths) {
        if (const auto* at = numbers.find(path)) { at->number->partial[input] = 1; }
    }
}

/// What the first cut leaves of a cut with that variance.
[[nodiscard]] inline first_work_cut stopped_short(std::string where, const length<>& last, double variance) {
    first_work_cut c{std::move(where), last, {}, std::sqrt(variance)};
    c.left = min(last, left_standing(c.standard));
    return c;
}

} // namespace kernel

/// How much the first cuts of a job's work on board and crowns leave.
/// @param from the instrument as the work finds it
/// @param work the work that is left to do
/// @param p what the work leads to; its shape at pitch is that of a neck held as it will be
/// @param worked_on doubts of `from`
/// @param planned doubts of the planned instrument
/// @throws invalid_input as `do_work`
template <class = when_used>
[[nodiscard]] first_work_cuts first_work_cuts_of(const strung_instrument& from, const board_details& details,
                                                 const bench_work& work, const setup_plan& p, const setup_doubts& worked_on,
                                                 const setup_doubts& planned) {
    first_work_cuts cuts;
    if (!work.sanding && !work.levelling) { return cuts; }
    constexpr std::size_t at_once = 8;
    using D = dual<double, at_once>;
    const auto is_held = [&](neck_held held) {
        return (work.sanding && work.sanding->held == held) || (work.levelling && work.levelling->held == held);
    };
    const bool pitch = is_held(neck_held::as_at_pitch), will = is_held(neck_held::as_it_will_be);
    const auto doubts = kernel::doubts_of_work(worked_on, planned);
    // The shape of a slack neck is that of board, frets and neck alone, where no string places the frets.
    const bool all_count = pitch || will || from.instrument.board.scale.fan;
    const auto counts = [&](std::string_view path) {
        return all_count || is_at_or_below(path, "board") || is_at_or_below(path, "frets") ||
               is_at_or_below(path, "neck") || is_at_or_below(path, "short_strings");
    };
    const auto groups = kernel::numbers_moved(doubts, will, counts);
    kernel::work_taken<double> off;
    matrix board_slopes, crown_slopes; // a row for each place, a column for each group
    auto on = over<D>(from);
    auto at_end = over<D>(p.adjusted);
    const auto details_d = over<D>(details);
    const auto work_d = over<D>(work);
    const kernel::leaf_places<D> found_numbers(on), planned_numbers(at_end);
    basic_setup<D> now, then;
    for (std::size_t first = 0; first == 0 || first < groups.size(); first += at_once) {
        const std::size_t last = std::min(first + at_once, groups.size());
        for_each_number(on, [](auto& x) { set_number(x, D(number_of(x).value)); });
        if (will) {
            for_each_number(at_end, [](auto& x) { set_number(x, D(number_of(x).value)); });
        }
        for (std::size_t g = first; g < last; ++g) {
            kernel::seed(found_numbers, groups[g].found, g - first);
            kernel::seed(planned_numbers, groups[g].planned, g - first);
        }
        if (pitch) { kernel::solve_silent(on, now, solve_stations); }
        if (will) { kernel::solve_silent(at_end, then, solve_stations); }
        const auto taken =
            kernel::take_off<D>(on, details_d, work_d, pitch ? &now.bow : nullptr, will ? &then.bow : nullptr);
        const auto gather = [&](const std::vector<length<D>>& list, matrix& slopes, std::vector<length<>>& values) {
            if (first == 0) { slopes = matrix(list.size(), groups.size()); }
            values.clear();
            for (std::size_t k = 0; k < list.size(); ++k) {
                const D v = list[k].value();
                values.push_back(length<>::from_value(v.value));
                for (std::size_t g = first; g < last; ++g) { slopes(k, g) = v.partial[g - first]; }
            }
        };
        gather(taken.board, board_slopes, off.board);
        gather(taken.crowns, crown_slopes, off.crowns);
    }
    matrix by_doubt(groups.size(), doubts.size());
    for (std::size_t g = 0; g < groups.size(); ++g) {
        std::copy_n(groups[g].by.begin(), doubts.size(), by_doubt.row(g).begin());
    }
    const auto variances = [&](const matrix& slopes) {
        const matrix parts = slopes * by_doubt;
        std::vector<double> all;
        for (std::size_t k = 0; k < parts.rows(); ++k) { all.push_back(kernel::dot<double>(parts.row(k), parts.row(k))); }
        return all;
    };
    const auto board_variance = variances(board_slopes), crown_variance = variances(crown_slopes);
    const auto places = kernel::board_places(from.instrument);
    for (std::size_t k = 0; k < off.board.size(); ++k) {
        cuts.board.push_back(kernel::stopped_short(places[k].where, off.board[k], board_variance[k]));
    }
    const std::size_t count = static_cast<std::size_t>(from.instrument.board.scale.frets);
    for (std::size_t k = 0; k < off.crowns.size(); ++k) {
        if (!(off.crowns[k].value() > kernel::smallest_cut)) { continue; }
        const char* end = off.crowns.size() == count ? "" : k < count ? ", bass end" : ", treble end";
        cuts.crowns.push_back(
            kernel::stopped_short(messages::joined({"fret ", k % count + 1, end}), off.crowns[k], crown_variance[k]));
    }
    return cuts;
}

/// The same for an answered job. Where something was read after a step, it is for the work that is left then.
/// @param read outcome of the readings; null: no readings
template <class = when_used>
[[nodiscard]] first_work_cuts first_work_cuts_of(const bench_job& j, const job_setups& s, const job_readings* read,
                                                 const setup_doubts& found, const setup_doubts& planned) {
    const auto done = read ? read->done() : std::nullopt;
    if (!done) { return first_work_cuts_of(s.as_found, j.details, kernel::work_of(j, s.as_found), s.plan, found, planned); }
    // The remaining work is done on the instrument as it stood after that step; its remaining doubts are those of the
    // plan.
    const auto at = std::find(read->after.begin(), read->after.end(), *done) - read->after.begin();
    const strung_instrument& now = read->said.adjusted.after_work[static_cast<std::size_t>(at)];
    return first_work_cuts_of(now, j.details, kernel::work_after(j, now, *done), s.plan, planned, planned);
}
TAUTLINE_HELD(first_work_cuts first_work_cuts_of<>(const bench_job&, const job_setups&, const job_readings*,
                                                   const setup_doubts&, const setup_doubts&))

namespace kernel {

/// Adds to a step where its first cut stops, and the reading that makes the last cut sure.
inline void tell_short_cut(const std::vector<first_work_cut>& list, const char* what, std::string reading, bench_step& s) {
    const auto left = first_work_cuts::most(list);
    if (!left) { return; }
    bool some = false;
    for (const first_work_cut& c : list) { some = some || c.first().value() > smallest_cut; }
    std::string told = some ? messages::joined({"the first time leave ", what, " higher by"})
                            : messages::joined({"the first time take nothing off: what is to come off ", what,
                                                " is less than its own doubt"});
    s.lines.push_back(left_line(std::move(told), *left));
    s.lines.push_back({std::move(reading), {}, false});
}

} // namespace kernel

/// Adds to the steps that sand the board and level the frets where the first cut stops, and which reading makes the last
/// cut sure.
inline void tell_first_work_cuts(const first_work_cuts& cuts, const bench_work& work, std::vector<bench_step>& steps) {
    const bool allowed = work.sanding && work.sanding->allowance.value() > 0;
    const bool hollow = work.levelling && work.levelling->hollow.value() > 0;
    for (bench_step& s : steps) {
        if (s.stage == bench_stage::sand_board) {
            kernel::tell_short_cut(
                cuts.board, "the board",
                messages::joined({"then, the neck held alike, read straightedge and gauge: the most light over the old ",
                                  "surface, where it still shows, ", allowed ? "and the allowance besides, " : "",
                                  "is left to sand off everywhere"}),
                s);
        }
        if (s.stage == bench_stage::level_frets) {
            kernel::tell_short_cut(
                cuts.crowns, "the crowns",
                messages::joined({"then, the neck held alike, ink the crowns and read the straightedge: the most light ",
                                  "over a crown that the file has not met", hollow ? ", less the hollow there," : "",
                                  " is left to file off the others"}),
                s);
        }
    }
}

} // namespace tautline
