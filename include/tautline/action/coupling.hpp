#pragma once
/// @file
/// How tuning one string moves the others: top and neck give, every path shortens a little, and every other string goes
/// flat.
///
/// Source: linear elasticity. `C_ik` is how much the path of string i shortens for each newton more on string k. The
/// other strings are not turned at their tuners, so `dT_i + K_i sum_k C_ik dT_k = 0` for every i but the string being
/// tuned, with K = EA/length.

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "../core/interval.hpp"
#include "../core/invalid_input.hpp"
#include "../core/linear_system.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A square table with a row and a column for each string, stored row by row.
template <class Q>
class string_table {
public:
    /// A table over `strings` strings; all cells are zero.
    explicit string_table(std::size_t strings) : strings_(strings), cells_(strings * strings) {}
    /// How many strings the table is over.
    [[nodiscard]] std::size_t strings() const { return strings_; }
    /// The cell of two strings, counted from 0; not checked.
    [[nodiscard]] Q& at(std::size_t row, std::size_t column) { return cells_[row * strings_ + column]; }
    /// The cell of two strings, counted from 0; not checked.
    [[nodiscard]] const Q& at(std::size_t row, std::size_t column) const { return cells_[row * strings_ + column]; }

private:
    std::size_t strings_;
    std::vector<Q> cells_;
};

/// Adds a motion along a straight line that all strings share: the sink of a top, the nut drawn toward the bridge.
/// @param gains shortening of each string's path for each length of that motion; for the sink of a saddle that is the
/// string's down-force over its tension. By reciprocity it is also the force on the motion for each newton of tension.
/// @param give how far the motion goes for each newton
template <class R>
void add_shared_give(string_table<compliance<R>>& table, std::type_identity_t<std::span<const R>> gains,
                     param<compliance<R>> give) {
    require_that(gains.size() == table.strings(), "gains", "must have one entry for each string");
    require("give", give, at_least(0 * units::mm_per_N));
    for (std::size_t i = 0; i < gains.size(); ++i) {
        for (std::size_t k = 0; k < gains.size(); ++k) { table.at(i, k) += gains[i] * gains[k] * give; }
    }
}

/// Adds a motion that turns and that all strings share: a bridge, a neck joint.
/// @param levers shortening of each string's path for each radian
template <class R>
void add_shared_turn(string_table<compliance<R>>& table, std::type_identity_t<std::span<const length<R>>> levers,
                     param<rotational_stiffness<R>> resists) {
    require_that(levers.size() == table.strings(), "levers", "must have one entry for each string");
    require("resists", resists, more_than(0 * units::N_m_per_rad));
    for (std::size_t i = 0; i < levers.size(); ++i) {
        for (std::size_t k = 0; k < levers.size(); ++k) {
            table.at(i, k) += compliance<R>::from_value(levers[i].value() * levers[k].value() / resists.value());
        }
    }
}

/// How the strings move each other: `m_ij` is the relative change of tension of string i for each relative change of
/// tension of string j while j is being tuned. Pitches follow in the same ratio. 1 on the diagonal, mostly -0.004 ...
/// -0.012 beside it.
/// @param shortening the table C of `add_shared_give` and `add_shared_turn`
/// @param springs    EA/length of each string, end to end, more than 0
/// @param tensions   more than 0
template <class R>
[[nodiscard]] string_table<R> tuning_coupling(const string_table<compliance<R>>& shortening,
                                              std::type_identity_t<std::span<const stiffness<R>>> springs,
                                              std::type_identity_t<std::span<const force<R>>> tensions) {
    const std::size_t n = shortening.strings();
    require_that(n >= 1 && springs.size() == n && tensions.size() == n, "springs and tensions",
                 "must have one entry for each string, and at least one");
    std::vector<R> a(n * n), inverse(n * n);
    for (std::size_t i = 0; i < n; ++i) {
        require(messages::path_of("springs", i), springs[i], more_than(0 * units::N_per_m));
        require(messages::path_of("tensions", i), tensions[i], more_than(0 * units::N));
        for (std::size_t k = 0; k < n; ++k) {
            a[i * n + k] = springs[i].value() * shortening.at(i, k).value();
            require("shortening", a[i * n + k], range_of<void>{});
        }
        a[i * n + i] = a[i * n + i] + number<R>(1);
        inverse[i * n + i] = number<R>(1);
    }
    // Only row j of (I + K C) dT is not zero. So dT is column j of the inverse, scaled to dT_j = 1.
    solve_in_place<R>(a, inverse, n);
    string_table<R> m(n);
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            m.at(i, j) = inverse[i * n + j] / inverse[j * n + j] * ratio(tensions[j], tensions[i]);
        }
    }
    return m;
}

/// How a tuning ends.
struct tuning_passes_result {
    int passes = 0;           ///< rounds over all strings that were taken
    interval<double> worst{}; ///< the largest error of any string after them
    bool settled = false;     ///< whether the tolerance was reached within the limit of rounds
};

/// How many rounds over all strings bring every one within a tolerance. In a round each string in turn is tuned to its
/// exact pitch, in their order; the errors are judged at the end of the round. The model is linear: it is meant for
/// strings that start near their pitch.
/// @param start how far off each string is, -1200 to 1200 cents
/// @param tolerance more than 0
/// @param limit rounds after which to give up
[[nodiscard]] inline tuning_passes_result tuning_passes(const string_table<double>& coupling,
                                                        std::span<const interval<double>> start,
                                                        interval<double> tolerance = interval<double>::from_cents(1),
                                                        int limit = 100) {
    const std::size_t n = coupling.strings();
    require_that(start.size() == n, "start", "must have one entry for each string");
    require("tolerance", tolerance, range_of<cents_tag>{{.low = 0, .low_open = true}});
    std::vector<double> off(n);
    for (std::size_t i = 0; i < n; ++i) {
        require(messages::path_of("start", i), start[i], between(-1200 * units::cents, 1200 * units::cents));
        off[i] = start[i].cents();
    }
    tuning_passes_result result;
    const auto judge = [&] {
        double worst = 0;
        for (const double o : off) { worst = std::max(worst, std::abs(o)); }
        result.worst = interval<double>::from_cents(worst);
        result.settled = worst <= tolerance.cents();
    };
    judge();
    while (!result.settled && result.passes < limit) {
        for (std::size_t j = 0; j < n; ++j) {
            const double turn = -off[j];
            for (std::size_t i = 0; i < n; ++i) { off[i] += coupling.at(i, j) * turn; }
        }
        ++result.passes;
        judge();
    }
    return result;
}

} // namespace tautline
