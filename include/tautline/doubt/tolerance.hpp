#pragma once
/// @file
/// How sure every result of a setup is, from how sure its measurements are. Each measurement is moved by dual numbers
/// through the same code that solves the setup; what it moves is its sensitivity.

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <span>
#include <string>
#include <vector>

#include "../core/leaves.hpp"
#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../setup/solve.hpp"
#include "uncertainty.hpp"

namespace tautline {

/// One number of the model that a measurement moves, and the factor between the two.
struct moved_leaf {
    std::string path{}; ///< path of the number, as `leaves` names it
    double factor = 1;  ///< its change for each unit that the measurement is off, in SI
    /// Whether the factor has a unit, so that the measurement may be of another kind than the number. Else both must be of
    /// one kind, whatever the factor.
    bool converts = false;
};

/// A measurement that may be off. Its standard uncertainty is half of a reading's "give or take" at 95 %. A reading that
/// serves several places, or a gauge that errs alike everywhere, moves several leaves.
struct doubt {
    std::string name{};              ///< for readers of the budget
    any_quantity standard{};         ///< standard uncertainty, of the kind of what it moves, see `moved_leaf::converts`
    std::vector<moved_leaf> moves{}; ///< the numbers it moves
};

/// A result with its doubt.
struct uncertain_result {
    std::string path{};                  ///< path, as `for_each_leaf` names it
    any_quantity value{};                ///< best estimate
    std::vector<double> contributions{}; ///< of each doubt, in order and in SI: sensitivity times standard uncertainty

    /// Combined standard uncertainty; correlations between doubts count as in `combined_uncertainty`.
    template <class Correlations = std::span<const correlation>>
    [[nodiscard]] any_quantity standard(const Correlations& together = {}) const {
        return any_quantity::of(value.kind(), kernel::combined<double>(contributions, together));
    }
};

namespace kernel {

/// Checks that a measurement moves numbers of its own kind, or others by a factor that converts. Words are put together
/// only where they are needed.
inline void require_kind(const doubt& d, const moved_leaf& m, kind_name moved) {
    if (m.converts || d.standard.kind() == moved) { return; }
    require_that(false, messages::joined({"uncertainty of ", d.name}),
                 messages::joined({"must be a ", moved, ", as ", m.path, " is"}));
}
/// Checks that a factor lies between -1e12 and 1e12.
inline void require_factor(const moved_leaf& m) {
    if (!(std::abs(m.factor) <= 1e12)) {
        require(messages::joined({"factor of ", m.path}), m.factor, between(-1e12, 1e12));
    }
}
/// Checks that a standard uncertainty is 0 or more, and at most 1e12 in SI.
inline void require_uncertainty(const doubt& d) {
    const double v = d.standard.si();
    if (0 <= v && v <= 1e12) { return; }
    messages::refuse(messages::joined({"uncertainty of ", d.name}),
                     d.standard.is_number() ? to_text(d.standard) : messages::joined({"not a number"}),
                     messages::joined({"must be at least ", to_text(any_quantity::of(d.standard.kind(), 0)),
                                       " and at most ", to_text(any_quantity::of(d.standard.kind(), 1e12))}));
}
/// Solves one instrument again and again, each time with derivatives by other numbers. Where none of them may change the
/// neck, its beam is made once.
template <class R>
class seeded_solves {
public:
    /// @param changes_neck whether any derivative is by a number that may change the neck
    /// @param sounds whether notes, clearances and plucks are wanted
    void solve(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations, bool changes_neck,
               bool sounds) {
        const bool made = made_;
        made_ = false; // also where this solve throws
        if (made && !changes_neck) {
            require_valid(on);
            solve_on_neck(on, out);
        } else {
            solve_silent(on, out, stations);
        }
        made_ = !changes_neck;
        if (sounds) { sound(on.instrument, on.stringing, out); }
    }

private:
    bool made_ = false; ///< whether the beam is there, without derivatives
};
/// Whether moving numbers may change the neck of an instrument.
template <class R>
[[nodiscard]] bool may_change_neck(const basic_instrument<R>& i, const std::vector<moved_leaf>& moves) {
    return std::any_of(moves.begin(), moves.end(),
                       [&](const moved_leaf& m) { return tautline::may_change_neck(i, m.path); });
}

} // namespace kernel

/// Every number of a solved setup with its value and what each doubt contributes to it.
///
/// Doubts are taken eight at a time; each pass is one solve in dual numbers.
/// @throws invalid_input for what cannot be solved, for a negative or unbounded uncertainty, and for a path that names no
/// number of the model
template <class R = double>
[[nodiscard]] std::vector<uncertain_result> propagate(const basic_strung_instrument<R>& model,
                                                      std::span<const doubt> doubts) {
    constexpr std::size_t at_once = 8;
    using D = dual<R, at_once>;
    for (const doubt& d : doubts) { kernel::require_uncertainty(d); }

    // Those that change the neck come first.
    std::vector<std::size_t> order(doubts.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto changes_neck = [&](std::size_t k) { return kernel::may_change_neck(model.instrument, doubts[k].moves); };
    const auto no_more = std::stable_partition(order.begin(), order.end(), changes_neck) - order.begin();

    std::vector<uncertain_result> results;
    basic_setup<D> solved;
    kernel::seeded_solves<D> solves;
    auto seeded = over<D>(model);
    const kernel::leaf_places<D> numbers(seeded);
    std::vector<D*> moved;
    for (std::size_t first = 0; first == 0 || first < doubts.size(); first += at_once) {
        const std::size_t last = std::min(doubts.size(), first + at_once);
        for (D* x : moved) { *x = D(x->value); }
        moved.clear();
        for (std::size_t n = first; n < last; ++n) {
            const doubt& d = doubts[order[n]];
            for (const moved_leaf& m : d.moves) {
                kernel::require_factor(m);
                const auto* at = numbers.find(m.path);
                require_that(at != nullptr, m.path, "must be the path of a number of the instrument or its strings");
                kernel::require_kind(d, m, at->kind);
                at->number->partial[n - first] += number<R>(m.factor);
                moved.push_back(at->number);
            }
        }
        solves.solve(seeded, solved, solve_stations, first < static_cast<std::size_t>(no_more), true);
        if (first == 0) {
            for_each_leaf(std::as_const(solved), [&](std::string_view path, const auto& x) {
                results.push_back({std::string(path), any_of(x), std::vector<double>(doubts.size())});
            });
        }
        std::size_t row = 0;
        for_each_number(std::as_const(solved), [&](const auto& x) {
            const D& v = number_of(x);
            auto& contributions = results[row++].contributions;
            for (std::size_t n = first; n < last; ++n) {
                const std::size_t k = order[n];
                contributions[k] = static_cast<double>(v.partial[n - first]) * doubts[k].standard.si();
            }
        });
    }
    return results;
}
TAUTLINE_HELD(std::vector<uncertain_result> propagate<double>(const strung_instrument&, std::span<const doubt>))

/// The result of a path; null where there is none.
[[nodiscard]] inline const uncertain_result* find_result(std::span<const uncertain_result> results, std::string_view path) {
    for (const uncertain_result& r : results) {
        if (r.path == path) { return &r; }
    }
    return nullptr;
}

} // namespace tautline
