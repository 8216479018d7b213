#pragma once
/// @file
/// An instrument's year in words: what fails at one end of it, what may fail by what nobody measured, and cautions.

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "year.hpp"

namespace tautline {

/// What fails at one end of the year, in a sentence, such as "In the driest air string 4 (E1) over fret 12 is 2.21 mm,
/// 0.19 mm below the wish (action_bass)."
[[nodiscard]] inline std::string words_of(const year_miss& m, measures units = measures::metric) {
    const auto told = [&](const any_quantity& q) { return bench_text(q, {.units = units}); };
    const std::string start = messages::joined({kernel::air_at_end[m.end], " ", m.words});
    if (m.what != "clearance") {
        return messages::joined({start, m.sure ? " is " : " may be ", told(m.then), ", ", told(m.off),
                                 m.then.si() < m.wanted.si() ? " below" : " above", " the wish (", m.what, ")."});
    }
    const std::string pressed =
        *m.pressed == 0 ? std::string(", open,") : messages::joined({", pressed at fret ", *m.pressed, ","});
    return messages::joined({start, pressed, m.sure ? " touches fret " : " may touch fret ", *m.fret,
                             ", which it clears now: it lacks ", told(m.off), "."});
}

namespace kernel {

/// The failed clearance that lacks most, of those that `counts` takes, and how many it takes.
template <class Counts>
[[nodiscard]] std::pair<const year_miss*, std::size_t> worst_touch(const job_year& year, const Counts& counts) {
    const year_miss* worst = nullptr;
    std::size_t count = 0;
    for (const year_miss& m : year.misses) {
        if (m.what != "clearance" || !counts(m)) { continue; }
        ++count;
        if (!worst || m.off.si() > worst->off.si()) { worst = &m; }
    }
    return {worst, count};
}

/// What fails at an end of the year: each wish, and of the strings that touch the worst, with how many more do.
template <class = when_used>
void tell_failures(const job_year& year, std::size_t end, measures units, std::vector<std::string>& all) {
    for (const year_miss& m : year.misses) {
        if (m.sure && m.end == end && m.what != "clearance") { all.push_back(words_of(m, units)); }
    }
    const auto [worst, count] = worst_touch(year, [&](const year_miss& m) { return m.sure && m.end == end; });
    if (!worst) { return; }
    std::string said = words_of(*worst, units);
    if (count > 1) { messages::append(said, {" So do ", count - 1, count == 2 ? " other string." : " other strings."}); }
    all.push_back(std::move(said));
}

/// What may fail only by what nobody measured, once for both ends of the year: it says less of the instrument than of what
/// is not known of it.
template <class = when_used>
void tell_what_may_fail(const job_year& year, measures units, std::vector<std::string>& all) {
    std::vector<const year_miss*> wishes; // of each the further end
    for (const year_miss& m : year.misses) {
        if (m.sure || m.what == "clearance") { continue; }
        const auto same = std::find_if(wishes.begin(), wishes.end(), [&](const auto* w) { return w->what == m.what; });
        if (same == wishes.end()) {
            wishes.push_back(&m);
        } else if (m.off.si() > (*same)->off.si()) {
            *same = &m;
        }
    }
    if (!wishes.empty()) {
        std::string listed =
            "By what is not known of how it moves with the air, at an end of the year these may be off their "
            "wishes, at most: ";
        for (const year_miss* m : wishes) {
            messages::append(listed,
                             {m == wishes.front() ? "" : "; ", m->words, " by ", bench_text(m->off, {.units = units})});
        }
        all.push_back(listed + ".");
    }
    const year_miss* const worst = worst_touch(year, [](const year_miss& m) { return !m.sure; }).first;
    if (!worst) { return; }
    std::vector<std::size_t> strings;
    for (const year_miss& m : year.misses) {
        if (!m.sure && m.what == "clearance") { strings.push_back(*m.string_index); }
    }
    std::sort(strings.begin(), strings.end());
    const auto others = std::unique(strings.begin(), strings.end()) - strings.begin() - 1;
    std::string said = words_of(*worst, units);
    if (others > 0) {
        messages::append(said,
                         {" So may, at one end of the year, ", others, others == 1 ? " other string." : " other strings."});
    }
    all.push_back(std::move(said));
}

} // namespace kernel

/// What fret ends do in the driest air, where a hand feels it; empty where it does not.
[[nodiscard]] inline std::string fret_ends_in_words(const job_year& year, measures units = measures::metric) {
    const auto line =
        std::find_if(year.lines.begin(), year.lines.end(), [](const year_line& l) { return l.path == "fret_ends"; });
    if (line == year.lines.end()) { return {}; }
    const any_quantity out = line->values[1], may = line->give_or_take[0],
                       felt = any_quantity::of(out.kind(), overhang_felt),
                       narrower = any_quantity::of(out.kind(), 2 * out.si());
    if (out.si() + (may.has_value() ? may.si() : 0) < felt.si()) { return {}; }
    return messages::joined({"In the driest air the board is ", bench_text(narrower, {.units = units}),
                             " narrower: fret ends ", out.si() < felt.si() ? "may then stand" : "then stand", " out by ",
                             bench_text(out, {.units = units, .give_or_take = may}), " at each edge, and are felt from ",
                             bench_text(felt, {.units = units}),
                             " on. File them back there only once the board has dried."});
}

/// All sentences about the year: what fails at its dry end, at its damp end, what may fail, and cautions.
[[nodiscard]] inline std::vector<std::string> sentences_of(const job_year& year, measures units = measures::metric) {
    std::vector<std::string> all;
    for (const std::size_t end : {std::size_t{1}, std::size_t{2}}) { kernel::tell_failures(year, end, units, all); }
    kernel::tell_what_may_fail(year, units, all);
    if (std::string ends = fret_ends_in_words(year, units); !ends.empty()) { all.push_back(std::move(ends)); }
    all.insert(all.end(), year.cautions.begin(), year.cautions.end());
    return all;
}

} // namespace tautline
