#pragma once
/// @file
/// Sums of a neck's pieces between two stations, at one place or at many side by side.

#include <array>
#include <cstddef>

#include "neck.hpp"

namespace tautline::kernel {

/// The sums that a beam needs at a place, in SI. They are those of the whole neck without its inserts, of the board,
/// and of the board's layer as deep as the tangs reach (0 without slots).
enum section_sum : std::size_t {
    whole_ea,
    whole_es,
    whole_ej,
    board_ea,
    board_es,
    tangs_ea,
    tangs_es,
    tangs_ej,
    section_sum_count
};

/// Each sum at W places.
template <class R, std::size_t W>
using sums_at_places = std::array<std::array<R, W>, section_sum_count>;

/// The neck between two stations. Its measures, the board's radius (`arc_between`) and the back's shape change linearly
/// from one to the other.
template <class R>
class neck_segment {
public:
    neck_segment(const basic_neck<R>& n, std::size_t first)
        : n_(&n), a_(&n.stations[first]), b_(&n.stations[first + 1]), back_(back_shape(*a_)), far_back_(back_shape(*b_)),
          per_span_(number<R>(1) / length<R>(b_->x - a_->x)),
          growth_(kernel::cone_growth<R>(a_->board_arc, b_->board_arc)) {}

    /// x as a share of the way from the first station (0) to the second (1).
    [[nodiscard]] R share(const length<R>& x) const { return R((x - a_->x) * per_span_); }
    /// Height of the glue line between board and back at a share of the way.
    [[nodiscard]] length<R> glue_line(const R& u) const { return -mix(a_->board_thickness, b_->board_thickness, u); }
    /// Growth of the board's radius along the way, as a share of the radius at the first station.
    [[nodiscard]] const R& cone_growth() const { return growth_; }
    /// The sums at a share of the way.
    [[nodiscard]] std::array<R, section_sum_count> at(const R& u) const {
        const length<R> half_width = mix(a_->half_width, b_->half_width, u);
        const length<R> board_thickness = mix(a_->board_thickness, b_->board_thickness, u);
        const curvature<R> arc = arc_between<R>(a_->board_arc, b_->board_arc, u);
        const stress<R> board_modulus = n_->board_modulus * n_->pure_bending_factor;
        arc_shape<R> shape; // that of board and tangs, where it has no slopes of its own
        if constexpr (!has_local_slopes<R, 4>) { shape = arc_shape_of<R>(R((arc * half_width).value())); }
        const auto of_board = [&](const length<R>& depth, bool bottom_follows_arc) __attribute__((always_inline)) {
            if constexpr (has_local_slopes<R, 4>) {
                return kernel::board_sums<R>(board_modulus, half_width, depth, arc, bottom_follows_arc);
            } else {
                return kernel::board_sums<R>(board_modulus, half_width, depth, arc, shape, bottom_follows_arc);
            }
        };
        const auto board = of_board(board_thickness, false);
        const basic_back_shape<R> back{mix(back_.area, far_back_.area, u), mix(back_.first, far_back_.first, u),
                                       mix(back_.second, far_back_.second, u)};
        const auto whole = board + kernel::back_sums<R>(n_->back_modulus * n_->pure_bending_factor, half_width,
                                                        mix(a_->back_depth, b_->back_depth, u), -board_thickness, back);
        std::array<R, section_sum_count> sums{whole.ea.value(), whole.es.value(), whole.ej.value(), board.ea.value(),
                                              board.es.value(), number<R>(0),     number<R>(0),     number<R>(0)};
        if (n_->slots.has_value()) {
            const auto layer = of_board(n_->slots->tang_depth, true);
            sums[tangs_ea] = layer.ea.value();
            sums[tangs_es] = layer.es.value();
            sums[tangs_ej] = layer.ej.value();
        }
        return sums;
    }

private:
    template <class Q>
    [[nodiscard]] static Q mix(const Q& from, const std::type_identity_t<Q>& to, const R& u) {
        return from + (to - from) * u;
    }

    const basic_neck<R>* n_;
    const basic_neck_station<R>*a_, *b_;
    basic_back_shape<R> back_, far_back_;
    curvature<R> per_span_;
    R growth_;
};

/// How many of the sums the beam of a neck needs, in the order of `section_sum`. Those of the board count only for strains
/// in it, and those of the tangs for slots.
template <class R>
[[nodiscard]] std::size_t sums_wanted(const basic_neck<R>& n) {
    if (n.slots.has_value()) { return section_sum_count; }
    const bool strained = derivatives_in<R> > 0 || !in_all_lanes(n.board_strain == number<R>(0));
    return strained ? tangs_ea : board_ea;
}

/// The sums of a segment as polynomials through their values at Chebyshev's places. All but the arc's part are
/// polynomials in x, and that part is nearly one. For many places this is far cheaper than the sums themselves.
///
/// On a cone the arc is 1 over a linear function of x. There the sums times the fourth power of that function are
/// nearly polynomials; with two places more they are as exact.
template <class R>
class segment_polynomials {
public:
    /// @param wanted how many of the sums are needed, in the order of `section_sum`
    segment_polynomials(const neck_segment<R>& segment, std::size_t wanted)
        : sums_(wanted), growth_(segment.cone_growth()), cone_(!in_all_lanes(growth_ == number<R>(0))) {
        cone_ ? find_differences<cone_places>(segment) : find_differences<places>(segment);
    }
    /// The wanted sums at shares of the way along the segment, 0 to 1. Others in `found` are left as they are.
    template <std::size_t W>
    void at(const std::array<R, W>& u, sums_at_places<R, W>& found) const {
        cone_ ? sums_at<cone_places>(u, found) : sums_at<places>(u, found);
    }

private:
    // With these a rigidity is right to 1e-9 for any neck that can be played: to 1e-15 where the board's radius does
    // not change, to 1e-10 where it doubles. It is right to some 1e-8 for an arc whose radius is as small as the board
    // is wide.
    static constexpr std::array<long double, 8> places = {0.5L - 0.4903926402016152245L, 0.5L + 0.4903926402016152245L,
                                                          0.5L - 0.0975451610080641339L, 0.5L + 0.2777851165098011123L,
                                                          0.5L - 0.2777851165098011123L, 0.5L + 0.0975451610080641339L,
                                                          0.5L + 0.4157348061512726185L, 0.5L - 0.4157348061512726185L};
    static constexpr std::array<long double, 10> cone_places = {
        0.5L - 0.4938441702975688631L, 0.5L + 0.4938441702975688631L, 0.5L + 0.0782172325201154345L,
        0.5L - 0.2269952498697733958L, 0.5L + 0.3535533905932737622L, 0.5L - 0.3535533905932737622L,
        0.5L + 0.2269952498697733958L, 0.5L - 0.4455032620941839312L, 0.5L + 0.4455032620941839312L,
        0.5L - 0.0782172325201154345L};

    /// Fourth power of a cone's radius over that at the first station.
    [[nodiscard]] R radius_to_the_fourth(const R& u) const {
        const R radius = number<R>(1) + growth_ * u, square = radius * radius;
        return square * square;
    }

    using differences = std::array<R, cone_places.size()>;
    /// Finds Newton's divided differences.
    template <const auto& Places>
    void find_differences(const neck_segment<R>& segment) {
        for (std::size_t i = 0; i < Places.size(); ++i) {
            const R u = number<R>(Places[i]), scale = cone_ ? radius_to_the_fourth(u) : number<R>(1);
            const auto there = segment.at(u);
            for (std::size_t sum = 0; sum < sums_; ++sum) { differences_[sum][i] = there[sum] * scale; }
        }
        for (std::size_t order = 1; order < Places.size(); ++order) {
            for (std::size_t i = Places.size(); i-- > order;) {
                const R per_gap = number<R>(1 / (Places[i] - Places[i - order]));
                for (std::size_t sum = 0; sum < sums_; ++sum) {
                    auto& of = differences_[sum];
                    of[i] = (of[i] - of[i - 1]) * per_gap;
                }
            }
        }
    }
    template <const auto& Places, std::size_t W>
    void sums_at(const std::array<R, W>& u, sums_at_places<R, W>& found) const {
        if constexpr (has_local_slopes<R, 1>) {
            for (std::size_t k = 0; k < W; ++k) {
                duals_at<Places>(u[k], std::make_index_sequence<Places.size()>{},
                                 [&](std::size_t sum) -> R& { return found[sum][k]; });
            }
        } else {
            numbers_at<Places>(u, found);
        }
        if (!cone_) { return; }
        std::array<R, W> scale;
        for (std::size_t k = 0; k < W; ++k) { scale[k] = number<R>(1) / radius_to_the_fourth(u[k]); }
        for (std::size_t sum = 0; sum < sums_; ++sum) {
            for (std::size_t k = 0; k < W; ++k) { found[sum][k] = found[sum][k] * scale[k]; }
        }
    }
    template <const auto& Places, std::size_t W>
    void numbers_at(const std::array<R, W>& u, sums_at_places<R, W>& found) const {
        std::array<std::array<R, W>, Places.size() - 1> from; // each of the places
        for (std::size_t i = 0; i < from.size(); ++i) {
            for (std::size_t k = 0; k < W; ++k) { from[i][k] = u[k] - number<R>(Places[i]); }
        }
        for (std::size_t sum = 0; sum < sums_; ++sum) { one_at(differences_[sum], from, found[sum]); }
    }
    /// For duals. Each difference counts for a product of distances, which is the same in all sums.
    template <const auto& Places, std::size_t... i, class Found>
    void duals_at(const R& u, std::index_sequence<i...>, Found&& found) const {
        using V = std::remove_cvref_t<decltype(u.value)>;
        using P = std::remove_cvref_t<decltype(u.partial[0])>;
        constexpr std::size_t last = Places.size() - 1;
        std::array<V, last> from;
        std::array<P, last + 1> counts;
        V product = number<V>(1);
        for (std::size_t k = 0; k < last; ++k) {
            counts[k] = P(product);
            from[k] = u.value - number<V>(Places[k]);
            product = product * from[k];
        }
        counts[last] = P(product);
        for (std::size_t sum = 0; sum < sums_; ++sum) {
            const auto& of = differences_[sum];
            V value = of[last].value, slope = number<V>(0);
            for (std::size_t k = last; k-- > 0;) {
                slope = slope * from[k] + value;
                value = value * from[k] + of[k].value;
            }
            const P along(slope);
            found(sum) = R::made(
                value, [&](std::size_t k) __attribute__((always_inline)) {
                    P all = along * u.partial[k];
                    ((all = P(all + P(counts[i] * of[i].partial[k]))), ...);
                    return all;
                });
        }
    }
    // A function of its own, so that compilers vectorise over places and not over sums.
    template <std::size_t Count, std::size_t W>
    [[gnu::noinline]] static void one_at(const differences& of, const std::array<std::array<R, W>, Count>& from,
                                         std::array<R, W>& found) {
        std::array<R, W> value;
        value.fill(of[Count]);
        for (std::size_t i = Count; i-- > 0;) {
            for (std::size_t k = 0; k < W; ++k) { value[k] = value[k] * from[i][k] + of[i]; }
        }
        found = value;
    }

    std::size_t sums_;
    R growth_;
    bool cone_;
    std::array<differences, section_sum_count> differences_;
};

} // namespace tautline::kernel
