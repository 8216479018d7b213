#pragma once
/// @file
/// The most probable state by inputs as read and readings of results together: damped weighted least squares.
///
/// Minimises `|z|^2 + |Lambda^-1 (y - h(L z))|^2` over z, where `L L^T` is the covariance of the inputs and `Lambda
/// Lambda^T` that of the readings. Inputs are measured in their own doubts. So no step is ill-conditioned, and inputs may
/// always err alike.
///
/// Source: the Gauss-Newton step `(1 + H^T H) delta = H^T d - z`; damping enlarges the diagonal by a share (D. W.
/// Marquardt, J. Soc. Indust. Appl. Math. 11 (1963), from memory). Robust weights after P. J. Huber, Ann. Math. Statist.
/// 35 (1964), from memory.

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "whitened.hpp"

namespace tautline {

namespace kernel {

/// A fit in progress.
template <std::floating_point R, class Model>
class fitting {
public:
    fitting(basic_fit_problem<R> problem, Model& model, const fit_settings& settings)
        : model_(model), settings_(settings), least_step_(std::max(R(settings.least_step), 64 * eps)),
          idle_(R(1e9L) * least_step_ * least_step_), n_(problem.root.rows()), r_(problem.root.columns()) {
        require_that(problem.reading_root.rows() == problem.readings.size(), "readings",
                     "must be as many as their covariance has rows");
        require_that((problem.least.empty() && problem.most.empty()) ||
                         (problem.least.size() == n_ && problem.most.size() == n_),
                     "limits", "must be one for each input");
        fit_.problem = std::move(problem);
        fit_.z.assign(r_, R(0));
        fit_.t.assign(n_, R(0));
        fit_.edges.assign(n_, fit_edge::none);
        fit_.weights.assign(fit_.problem.readings.size(), R(1));
        for (std::size_t i = 0; i < n_; ++i) {
            size_.push_back(std::sqrt(dot<R>(fit_.problem.root.row(i), fit_.problem.root.row(i))));
        }
    }

    [[nodiscard]] basic_weighted_fit<R> run() {
        here_ = evaluated(fit_.t);
        fit_.cost = here_.cost(fit_.z);
        fit_.first_step = fit_.problem.root * step(R(0), {});
        // The damping follows the ratio of a step's gain to its promise (H. B. Nielsen, Damping parameter in Marquardt's
        // method (1999), from memory).
        R damping{}, growth = R(4);
        for (fit_.steps = 1; fit_.steps <= settings_.most_steps; ++fit_.steps) {
            const std::vector<R> plain = step(damping, fit_.edges), from = fit_.z;
            // Plain steps shrink by a steady share, so what is left after this step shrinks by the same share.
            const R size = largest(plain), shrunk = plain_.empty() ? R(1) : 2 * size / largest(plain_);
            const bool short_step = size * std::min(R(1), shrunk) < least_step_;
            auto delta = damping == R(0) && shrunk < R(0.5L) ? extrapolated(plain) : plain;
            // The last step is so short that the model need not be asked where it leads.
            if (short_step && size < R(1e-4L) && follow(delta)) { return done(damping, true); }
            const R gained = advance(delta);
            if (!(gained > R(-1))) {
                plain_.clear();
                if (short_step || here_.promised(fit_.z, step(R(0), fit_.edges)) < idle_) { return done(damping, true); }
                const along_kink found = go_along_kink();
                if (found == along_kink::least) {
                    fit_.end = fit_end::settled;
                    return with_slopes();
                }
                if (found == along_kink::gained) { continue; }
                damping = std::max(growth * damping, R(1e-3L));
                growth *= 2;
                continue;
            }
            plain_.clear();
            if (damping == R(0) && !newly_pinned_ && !settings_.huber) {
                plain_ = plain;
                plain_from_ = from;
            }
            const R off = 2 * std::min(R(1), gained) - 1;
            damping *= std::max(R(0.1L), 1 - off * off * off);
            growth = R(2);
            if (damping < R(1e-7L)) { damping = R(0); }
            // A step across a kink gains little, and the next leads back.
            const along_kink found = go_along_kink();
            if (found == along_kink::least) {
                fit_.end = fit_end::settled;
                return with_slopes();
            }
            if (found == along_kink::gained) {
                plain_.clear();
                continue;
            }
            const bool freed = largest(delta) < R(1e-3L) && let_go();
            if (short_step && !freed && !newly_pinned_) { return done(damping, true); }
        }
        fit_.steps = settings_.most_steps;
        return done(damping, false);
    }

private:
    /// A linear equation for a step.
    struct equation {
        std::vector<R> row{};
        R value{};
    };
    static constexpr R eps = std::numeric_limits<R>::epsilon();
    static constexpr R near_kink = R(0.1L);   ///< a longer step tells nothing of a kink near by; in doubts of the causes
    static constexpr R poor_gain = R(0.25L);  ///< a short step that gains less of its promise has met a kink
    static constexpr R least_turn = R(0.01L); ///< a kink turns the slopes of a reading by more than this share
    static constexpr R kink_gain = R(1e-6L);  ///< less than this share of the cost is nothing to gain along a kink

    static R largest(const std::vector<R>& x) {
        R most{};
        for (const R& v : x) { most = std::max(most, std::abs(v)); }
        return most;
    }
    [[nodiscard]] whitened<R> evaluated(const std::vector<R>& t) const {
        whitened<R> at;
        at.model = model_(std::span<const R>(t), fit_.problem.root);
        require_that(at.model.values.size() == fit_.problem.readings.size(), "model", "must give a value for each reading");
        for (const R& v : at.model.values) { require_that(std::isfinite(v), "model", "must give numbers"); }
        at.whiten(fit_.problem, fit_.weights);
        return at;
    }
    [[nodiscard]] R limit(std::size_t i, fit_edge edge) const {
        // Slightly inside, since limits are rounded on their way through the model.
        const R hair = size_[i] * std::max(R(1e-7L), 64 * eps);
        return edge == fit_edge::least ? fit_.problem.least[i] + hair : fit_.problem.most[i] - hair;
    }
    /// The step from here. An input at a limit is held there by an added reading of the limit.
    /// @param kinks equations that the step must meet besides, each with a row of size 1
    [[nodiscard]] std::vector<R> step(R damping, const std::vector<fit_edge>& edges,
                                      const std::vector<equation>& kinks = {}) const {
        std::vector<R> right = here_.pull(fit_.z);
        std::size_t held = kinks.size();
        for (const fit_edge e : edges) { held += e != fit_edge::none ? 1U : 0U; }
        basic_matrix<R> rows(here_.slopes.rows() + held, r_);
        for (std::size_t k = 0; k < here_.slopes.rows(); ++k) {
            std::copy(here_.slopes.row(k).begin(), here_.slopes.row(k).end(), rows.row(k).begin());
        }
        std::size_t row = here_.slopes.rows();
        const R firm = R(0.1L) / std::sqrt(std::sqrt(eps) * R(1e-7L));
        for (std::size_t i = 0; held > kinks.size() && i < n_; ++i) {
            if (edges[i] == fit_edge::none) { continue; }
            const R off = (limit(i, edges[i]) - fit_.t[i]) / size_[i] * firm;
            for (std::size_t a = 0; a < r_; ++a) {
                rows(row, a) = fit_.problem.root(i, a) / size_[i] * firm;
                right[a] += rows(row, a) * off;
            }
            ++row;
        }
        for (const equation& one : kinks) {
            for (std::size_t a = 0; a < r_; ++a) {
                rows(row, a) = one.row[a] * firm;
                right[a] += rows(row, a) * one.value * firm;
            }
            ++row;
        }
        const auto root = root_of_one_and<R>(rows, damping);
        solve_lower<R>(root, right);
        solve_upper<R>(root, right);
        return right;
    }
    /// A step that also goes where this step and the one before lead (D. G. Anderson, J. ACM 12 (1965), of depth 1, from
    /// memory).
    [[nodiscard]] std::vector<R> extrapolated(const std::vector<R>& plain) const {
        R across{}, size{};
        for (std::size_t a = 0; a < r_; ++a) {
            const R change = plain[a] - plain_[a];
            across += change * plain[a];
            size += change * change;
        }
        const R share = size > R(0) ? across / size : R(0);
        std::vector<R> delta = plain;
        for (std::size_t a = 0; std::abs(share) < R(0.5L) && a < r_; ++a) {
            delta[a] -= share * (fit_.z[a] - plain_from_[a] + plain[a] - plain_[a]);
        }
        return delta;
    }
    /// Goes a step along the known slopes. Returns false without going where a limit is in the way or weights would
    /// change.
    [[nodiscard]] bool follow(const std::vector<R>& delta) {
        const std::vector<R> change = fit_.problem.root * delta;
        for (std::size_t i = 0; i < n_; ++i) {
            if (fit_.edges[i] != fit_edge::none || settings_.huber) { return false; }
            if (fit_.problem.least.empty() || size_[i] == R(0)) { continue; }
            const R t = fit_.t[i] + change[i];
            if (!(limit(i, fit_edge::least) <= t && t <= limit(i, fit_edge::most))) { return false; }
        }
        for (std::size_t a = 0; a < r_; ++a) { fit_.z[a] += delta[a]; }
        fit_.t = fit_.problem.root * fit_.z;
        const std::vector<R> moved = here_.model.slopes * delta, white = here_.slopes * delta;
        for (std::size_t k = 0; k < moved.size(); ++k) {
            here_.model.values[k] += moved[k];
            here_.misfit[k] -= white[k];
        }
        fit_.cost = here_.cost(fit_.z);
        return true;
    }
    /// Goes a step, or as much of it as limits allow. Returns its gain as a share of what it promised. Returns -1 and
    /// stays where it gains nothing or the model refuses.
    [[nodiscard]] R advance(std::vector<R>& delta) {
        newly_pinned_ = false;
        const std::vector<R> change = fit_.problem.root * delta;
        R share = R(1);
        std::optional<std::pair<std::size_t, fit_edge>> met;
        for (std::size_t i = 0; !fit_.problem.least.empty() && i < n_; ++i) {
            if (fit_.edges[i] != fit_edge::none || size_[i] == R(0) || change[i] == R(0)) { continue; }
            const fit_edge edge = change[i] < R(0) ? fit_edge::least : fit_edge::most;
            const R allowed = std::max(R(0), (limit(i, edge) - fit_.t[i]) / change[i]);
            if (allowed < share) {
                share = allowed;
                met = {i, edge};
            }
        }
        std::vector<R> z = fit_.z;
        for (std::size_t a = 0; a < r_; ++a) {
            delta[a] *= share;
            z[a] += delta[a];
        }
        const std::vector<R> t = fit_.problem.root * z;
        whitened<R> there;
        try {
            there = evaluated(t);
        } catch (const invalid_input&) {
            refused_ = fit_.steps;
            beyond_.reset();
            return R(-1);
        }
        const R c = there.cost(z);
        const bool close = largest(delta) < near_kink;
        if (!(c <= fit_.cost + std::max(R(1e-12L), 16 * eps) * (1 + fit_.cost))) {
            beyond_.reset();
            if (close) { beyond_ = {std::move(there), std::move(z)}; }
            return R(-1);
        }
        const R gained = (fit_.cost - c) / std::max(here_.promised(fit_.z, delta), std::numeric_limits<R>::min());
        std::swap(fit_.z, z);
        fit_.t = t;
        std::swap(here_, there);
        beyond_.reset();
        if (gained < poor_gain && close) { beyond_ = {std::move(there), std::move(z)}; }
        fit_.cost = c;
        if (met) {
            fit_.edges[met->first] = met->second;
            newly_pinned_ = true;
        }
        if (settings_.huber) { weigh(); }
        return std::max(gained, R(-0.5L));
    }
    /// What a step along a kink came to.
    enum class along_kink { none, gained, least };
    /// Where a short step meets other slopes on its way (a relief becomes largest at another crest), the state stands
    /// beside a kink. The step along it keeps the readings alike by the slopes of both sides. Where that has nothing to
    /// gain either, the kink is the least.
    [[nodiscard]] along_kink go_along_kink() {
        if (!beyond_ || settings_.huber) { return along_kink::none; }
        const auto [other, from] = *std::exchange(beyond_, std::nullopt);
        std::vector<equation> kinks;
        for (std::size_t k = 0; k < here_.misfit.size(); ++k) {
            equation alike{std::vector<R>(r_), other.misfit[k] - here_.misfit[k]};
            R turn{}, size{};
            for (std::size_t a = 0; a < r_; ++a) {
                alike.row[a] = other.slopes(k, a) - here_.slopes(k, a);
                alike.value += other.slopes(k, a) * (from[a] - fit_.z[a]);
                turn += alike.row[a] * alike.row[a];
                size += here_.slopes(k, a) * here_.slopes(k, a);
            }
            if (!(turn > least_turn * least_turn * size)) { continue; }
            for (R& x : alike.row) { x /= std::sqrt(turn); }
            alike.value /= std::sqrt(turn);
            kinks.push_back(std::move(alike));
        }
        if (kinks.empty()) { return along_kink::none; }
        auto delta = step(R(0), fit_.edges, kinks);
        if (std::abs(here_.promised(fit_.z, delta)) < kink_gain * (1 + fit_.cost)) { return along_kink::least; }
        return advance(delta) > R(-1) ? along_kink::gained : along_kink::none;
    }
    /// Releases one limit from which the rest pulls its input away; returns whether there was one.
    [[nodiscard]] bool let_go() {
        const std::vector<R> pull = here_.pull(fit_.z);
        for (std::size_t i = 0; i < n_; ++i) {
            if (fit_.edges[i] == fit_edge::none) { continue; }
            R up{}; // gain by more of this input, from all the rest
            for (std::size_t a = 0; a < r_; ++a) { up += pull[a] * fit_.problem.root(i, a) / size_[i]; }
            if (fit_.edges[i] == fit_edge::least ? up > R(1e-6L) : up < R(-1e-6L)) {
                fit_.edges[i] = fit_edge::none;
                return true;
            }
        }
        return false;
    }
    void weigh() {
        const auto& root = fit_.problem.reading_root;
        for (std::size_t k = 0; k < fit_.weights.size(); ++k) {
            const R v = std::sqrt(dot<R>(root.row(k), root.row(k)));
            const R off = std::abs(fit_.problem.readings[k] - here_.model.values[k]) / v;
            fit_.weights[k] = off > R(1.5L) ? R(1.5L) / off : R(1);
        }
        here_.whiten(fit_.problem, fit_.weights);
        fit_.cost = here_.cost(fit_.z);
    }
    [[nodiscard]] basic_weighted_fit<R> done(R damping, bool ended) {
        // The last step may be small only because it was damped. Where the model has a kink, that is no minimum.
        const bool still = damping == R(0) || here_.promised(fit_.z, step(R(0), fit_.edges)) < 100 * idle_;
        if (still && ended) {
            fit_.end = fit_end::settled;
        } else if (ended || fit_.steps - refused_ < 5) {
            fit_.end = fit_end::stuck;
        }
        return with_slopes();
    }
    [[nodiscard]] basic_weighted_fit<R> with_slopes() {
        fit_.values = here_.model.values;
        fit_.slopes = here_.model.slopes;
        fit_.by_input = slopes_by_input();
        return std::move(fit_);
    }
    /// The slopes by an input that has a cause of its own are known. For the others the model is asked once more.
    [[nodiscard]] basic_matrix<R> slopes_by_input() const {
        const auto& root = fit_.problem.root;
        std::vector<std::size_t> moved(r_); // how many inputs each cause moves
        for (std::size_t i = 0; i < n_; ++i) {
            for (std::size_t a = 0; a < r_; ++a) { moved[a] += root(i, a) != R(0) ? 1U : 0U; }
        }
        basic_matrix<R> by(fit_.slopes.rows(), n_);
        std::vector<std::size_t> others;
        for (std::size_t i = 0; i < n_; ++i) {
            std::size_t causes = 0, own = 0;
            for (std::size_t a = 0; a < r_; ++a) {
                if (root(i, a) == R(0)) { continue; }
                ++causes;
                own = a;
            }
            if (causes != 1 || moved[own] != 1) {
                others.push_back(i);
                continue;
            }
            for (std::size_t k = 0; k < by.rows(); ++k) { by(k, i) = fit_.slopes(k, own) / root(i, own); }
        }
        if (others.empty()) { return by; }
        basic_matrix<R> along(n_, others.size());
        for (std::size_t c = 0; c < others.size(); ++c) { along(others[c], c) = R(1); }
        const auto asked = model_(std::span<const R>(fit_.t), along).slopes;
        for (std::size_t k = 0; k < by.rows(); ++k) {
            for (std::size_t c = 0; c < others.size(); ++c) { by(k, others[c]) = asked(k, c); }
        }
        return by;
    }

    Model& model_;
    fit_settings settings_;
    R least_step_;
    R idle_; ///< a change of the cost below this counts as none: it is far below a doubt squared
    std::size_t n_, r_;
    basic_weighted_fit<R> fit_{};
    whitened<R> here_{};
    std::vector<R> size_{}; ///< doubt of each input
    bool newly_pinned_ = false;
    std::vector<R> plain_{}, plain_from_{}; ///< the last step where it was not damped, and where it began; else empty
    std::optional<std::pair<whitened<R>, std::vector<R>>>
        beyond_{};      ///< the other side of a kink, where a short step has met one
    int refused_ = -10; ///< step of the last try that the model refused
};

} // namespace kernel

/// Fits a state to inputs and readings, from t = 0.
/// @param model called with a state t and directions (a row for each input); returns a `basic_modelled`, and throws
/// `invalid_input` for a state that it refuses
/// @throws invalid_input for settings or sizes that are wrong, and what the model throws at t = 0, which must be allowed
template <std::floating_point R, class Model>
[[nodiscard]] basic_weighted_fit<R> fit_weighted(basic_fit_problem<R> problem, Model&& model,
                                                 const fit_settings& settings = {}) {
    require_that(settings.most_steps >= 1, "most_steps", "must be at least 1");
    require_that(0 < settings.least_step && settings.least_step <= 1, "least_step", "must be more than 0 and at most 1");
    return kernel::fitting<R, std::remove_reference_t<Model>>(std::move(problem), model, settings).run();
}

} // namespace tautline
