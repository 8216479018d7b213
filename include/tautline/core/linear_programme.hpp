#pragma once
/// @file
/// Small dense linear programmes: the greatest value of a linear function under linear limits.
///
/// It works on plain numbers, because which limits are tight is a choice, not a smooth function. Callers who want
/// derivatives solve the equations of the `tight` limits again in their own number type.

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <vector>

namespace tautline {

/// Maximise objective times x where rows[i] times x is at most limits[i] for each i, and x[j] is at least 0 unless
/// free[j] is set. Scale rows and variables to about 1: anything smaller than 1e-9 counts as 0. R is double or wider.
template <std::floating_point R = double>
struct basic_linear_programme {
    std::vector<R> objective{};         ///< one coefficient for each variable
    std::vector<std::vector<R>> rows{}; ///< coefficients of each limit
    std::vector<R> limits{};            ///< the greatest value of each row times x
    /// Not 0 for variables of either sign. It may be shorter than x; the rest are then not free. They are bytes because
    /// a vector of bits takes long to compile.
    std::vector<unsigned char> free{};
};
using linear_programme = basic_linear_programme<double>;

/// How a search ended.
enum class programme_end {
    optimal,    ///< the greatest value was found
    infeasible, ///< no x meets all limits
    unbounded,  ///< the objective has no greatest value
    stalled,    ///< gave up, because of rounding, after far more steps than this size needs
};

/// The result of a search: the greatest value and where it lies.
template <std::floating_point R = double>
struct basic_programme_result {
    programme_end end = programme_end::stalled; ///< how it ended
    R value = 0;                                ///< the greatest value of the objective
    std::vector<R> x{};                         ///< the variables there
    /// For each row, how much the greatest value grows with the row's limit; 0 where the row does not limit x.
    std::vector<R> multipliers{};
    std::vector<R> slack{};           ///< limit of each row less row times x
    std::vector<std::size_t> tight{}; ///< the rows whose equations, with x[j] = 0 for the rest, fix x
    /// Whether more rows are tight than are needed to fix x. The multipliers are then one choice among several.
    bool degenerate = false;
    /// True: no other x is as good. False: there is another, or it cannot be ruled out.
    bool unique = false;
};
using programme_result = basic_programme_result<double>;

namespace programme {

inline constexpr double nothing = 1e-9;

/// A dictionary of the simplex method: each basic variable is `b - sum a * nonbasic`, the value is
/// `v + sum c * nonbasic`. Variables are numbered: 0 .. n-1 are x, n .. n+m-1 the slacks of the rows, n+m the
/// artificial variable.
template <std::floating_point R>
class dictionary {
public:
    explicit dictionary(const basic_linear_programme<R>& p)
        : n_(p.objective.size()), m_(p.rows.size()), a_(p.rows), b_(p.limits), free_(p.free) {
        for (std::size_t j = 0; j < n_; ++j) { nonbasic_.push_back(j); }
        for (std::size_t i = 0; i < m_; ++i) { basic_.push_back(n_ + i); }
    }

    /// Makes every slack >= 0; `infeasible` when that cannot be.
    [[nodiscard]] programme_end make_feasible() {
        std::size_t worst = m_;
        for (std::size_t i = 0; i < m_; ++i) {
            if (b_[i] < 0 && (worst == m_ || b_[i] < b_[worst])) { worst = i; }
        }
        if (worst == m_) { return programme_end::optimal; }
        // One artificial variable is subtracted from the left side of every row, and then made as small as possible.
        const std::size_t artificial = n_ + m_;
        nonbasic_.push_back(artificial);
        for (auto& row : a_) { row.push_back(-1); }
        c_.assign(nonbasic_.size(), 0);
        c_.back() = -1;
        v_ = 0;
        pivot(worst, nonbasic_.size() - 1);
        if (climb() != programme_end::optimal) { return programme_end::stalled; }
        if (v_ < -nothing) { return programme_end::infeasible; }
        for (std::size_t i = 0; i < m_; ++i) {
            if (basic_[i] != artificial) { continue; }
            std::size_t s = 0;
            for (std::size_t j = 1; j < nonbasic_.size(); ++j) {
                if (std::abs(a_[i][j]) > std::abs(a_[i][s])) { s = j; }
            }
            pivot(i, s);
        }
        std::size_t column = 0;
        while (nonbasic_[column] != artificial) { ++column; }
        nonbasic_.erase(nonbasic_.begin() + static_cast<std::ptrdiff_t>(column));
        for (auto& row : a_) { row.erase(row.begin() + static_cast<std::ptrdiff_t>(column)); }
        return programme_end::optimal;
    }

    /// Goes from a feasible dictionary to the best one for an objective over x.
    [[nodiscard]] programme_end maximise(const std::vector<R>& objective) {
        c_.assign(nonbasic_.size(), 0);
        v_ = 0;
        for (std::size_t j = 0; j < nonbasic_.size(); ++j) {
            if (nonbasic_[j] < n_) { c_[j] += objective[nonbasic_[j]]; }
        }
        for (std::size_t i = 0; i < m_; ++i) {
            if (basic_[i] >= n_) { continue; }
            const R f = objective[basic_[i]];
            v_ += f * b_[i];
            for (std::size_t j = 0; j < nonbasic_.size(); ++j) { c_[j] -= f * a_[i][j]; }
        }
        return climb();
    }

    void read(basic_programme_result<R>& r) const {
        r.value = v_;
        r.x.assign(n_, 0);
        r.slack.assign(m_, 0);
        r.multipliers.assign(m_, 0);
        r.degenerate = false;
        r.unique = true;
        for (std::size_t i = 0; i < m_; ++i) {
            (basic_[i] < n_ ? r.x[basic_[i]] : r.slack[basic_[i] - n_]) = b_[i];
            r.degenerate = r.degenerate || (!is_free(basic_[i]) && b_[i] < nothing);
        }
        for (std::size_t j = 0; j < nonbasic_.size(); ++j) {
            if (nonbasic_[j] >= n_) {
                r.tight.push_back(nonbasic_[j] - n_);
                r.multipliers[nonbasic_[j] - n_] = c_[j] < 0 ? -c_[j] : 0;
            }
            r.unique = r.unique && !is_free(nonbasic_[j]) && c_[j] < -nothing;
        }
    }

private:
    /// Simplex steps by Bland's rule: the lowest number enters and leaves. It cannot go round in circles.
    /// Source: R. G. Bland, "New finite pivoting rules for the simplex method", Math. Oper. Res. 2 (1977); dictionaries as
    /// in V. Chvatal, Linear Programming (1983), ch. 2, 3 (both from memory).
    [[nodiscard]] programme_end climb() {
        const std::size_t cap = 2000 + 50 * (n_ + m_);
        for (std::size_t step = 0; step < cap; ++step) {
            std::size_t s = nonbasic_.size();
            for (std::size_t j = 0; j < nonbasic_.size(); ++j) {
                const bool better = c_[j] > nothing || (is_free(nonbasic_[j]) && c_[j] < -nothing);
                if (better && (s == nonbasic_.size() || nonbasic_[j] < nonbasic_[s])) { s = j; }
            }
            if (s == nonbasic_.size()) { return programme_end::optimal; }
            const R way = c_[s] > 0 ? 1 : -1; // a free variable may also fall
            std::size_t r = m_;
            R least = 0;
            for (std::size_t i = 0; i < m_; ++i) {
                const R fall = way * a_[i][s];
                if (is_free(basic_[i]) || fall < nothing) { continue; }
                const R t = (b_[i] > 0 ? b_[i] : 0) / fall;
                const bool nearer = r == m_ || t < least - 1e-13;
                const bool tie = r != m_ && t <= least + 1e-13;
                if (nearer || (tie && basic_[i] < basic_[r])) {
                    r = i;
                    least = t;
                }
            }
            if (r == m_) { return programme_end::unbounded; }
            pivot(r, s);
        }
        return programme_end::stalled;
    }

    void pivot(std::size_t r, std::size_t s) {
        const R p = a_[r][s];
        for (R& v : a_[r]) { v /= p; }
        a_[r][s] = 1 / p;
        b_[r] /= p;
        for (std::size_t i = 0; i < m_; ++i) {
            if (i == r) { continue; }
            const R f = a_[i][s];
            if (f == 0) { continue; }
            for (std::size_t j = 0; j < nonbasic_.size(); ++j) { a_[i][j] -= f * a_[r][j]; }
            a_[i][s] = -f / p;
            b_[i] -= f * b_[r];
        }
        const R f = c_[s];
        v_ += f * b_[r];
        for (std::size_t j = 0; j < nonbasic_.size(); ++j) { c_[j] -= f * a_[r][j]; }
        c_[s] = -f / p;
        std::swap(basic_[r], nonbasic_[s]);
    }

    [[nodiscard]] bool is_free(std::size_t variable) const {
        return variable < std::min(n_, free_.size()) && free_[variable];
    }

    std::size_t n_, m_;
    std::vector<std::vector<R>> a_;
    std::vector<R> b_, c_{};
    const std::vector<unsigned char>& free_;
    std::vector<std::size_t> basic_{}, nonbasic_{};
    R v_ = 0;
};

} // namespace programme

/// Solves a linear programme. Each row must be as long as the objective, and there must be as many rows as limits.
template <std::floating_point R = double>
[[nodiscard]] basic_programme_result<R> solve_programme(const basic_linear_programme<R>& p) {
    basic_programme_result<R> r;
    programme::dictionary<R> d(p);
    r.end = d.make_feasible();
    if (r.end == programme_end::optimal) { r.end = d.maximise(p.objective); }
    if (r.end == programme_end::optimal) { d.read(r); }
    return r;
}

} // namespace tautline
