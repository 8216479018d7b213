#pragma once
/// @file
/// A job's answers in words: lines of its steps, changes, and wishes that are not met; also the cautions that every sheet
/// must carry.

#include <cmath>
#include <string>
#include <string_view>

#include "../core/to_text.hpp"
#include "bench_step.hpp"
#include "compare.hpp"
#include "setup_plan.hpp"

namespace tautline {

/// What every sheet of a job must say, whoever prints it: work on strings, necks and old wood can hurt people.
inline constexpr std::string_view job_cautions =
    "A string at pitch can cut and can take an eye: slacken before working, wear eye protection. Old necks, tops and "
    "joints "
    "can fail at tensions they once bore. Dust of hard tropical woods, shell and metal, solvents and cyanoacrylate need "
    "extraction, gloves and air. Loads are estimates from measurements: where a failure would hurt someone or spoil an "
    "instrument of value, a qualified repairer decides.";

/// How numbers that somebody works to are written.
enum class number_detail {
    bench, ///< in steps that a bench can work to
    fine,  ///< with the decimals of their kind
};

/// A line of a step, such as "relief 0.20 mm" or "change, string 6 (E2): -0.12 mm".
[[nodiscard]] inline std::string words_of(const step_line& l, measures units = measures::metric,
                                          number_detail detail = number_detail::bench) {
    if (!l.number.has_value()) { return l.what; }
    const written how{.units = units, .sign = l.is_change};
    return messages::joined({l.what, l.string_index ? ": " : " ",
                             detail == number_detail::fine ? bench_text(l.number, how) : told_text(l.number, l.told, how)});
}

/// A change in words: what changes, from what to what, by how much or by which share, and what that means.
[[nodiscard]] inline std::string words_of(const setup_change& c, measures units = measures::metric) {
    // A share says nothing about what was near zero, or about cents.
    const bool as_share = c.share() && std::abs(*c.share()) < 10 && c.found.kind() != "interval";
    std::string from = bench_text(c.found, {.units = units}), to = bench_text(c.planned, {.units = units}),
                by = bench_text(c.by(), {.units = units, .sign = true});
    // What the bench would read alike is told with as many digits as tell it apart.
    for (int digits = 2; digits <= 6 && from == to; ++digits) {
        from = to_text(c.found, {.units = units, .digits = digits});
        to = to_text(c.planned, {.units = units, .digits = digits});
        by = to_text(c.by(), {.units = units, .sign = true, .digits = 2});
    }
    if (as_share) { by = messages::joined({shown_number(100 * *c.share(), {"", 1, 0}, true), " %"}); }
    return messages::joined({c.words, ": ", from, " to ", to, " (", by, ")", c.meaning.empty() ? "" : ": ", c.meaning});
}

/// A wish that is not met, in words: its field, what stands in the way, and what comes nearest.
/// @param told how what comes nearest is told
[[nodiscard]] inline std::string words_of(const shortfall& f, measures units = measures::metric,
                                          const bench_rounding& told = {}) {
    return messages::joined({"wanted.", f.wish, ": ", f.why, f.nearest.has_value() ? "; nearest " : "",
                             told_text(f.nearest, told, {.units = units}), f.nearest.kind() == "angle" ? ", of " : "",
                             f.nearest.kind() == "angle" ? bench_text(f.wanted, {.units = units}) : std::string(), "."});
}

/// A plan's remark on a wish that something else decides. Its number is a crown that is filed: told as its step tells it.
[[nodiscard]] inline std::string words_of(const plan_remark& r, measures units = measures::metric,
                                          number_detail detail = number_detail::bench) {
    const written how{.units = units};
    return messages::joined(
        {"wanted.", r.wish, ": ", r.sentence, r.number.has_value() ? " " : "",
         detail == number_detail::fine ? bench_text(r.number, how) : told_text(r.number, kernel::told_as_crown(), how),
         "."});
}

} // namespace tautline
