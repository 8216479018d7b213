#pragma once
/// @file
/// A neck cut across at one place: the outline of board and back, the glue line, the bars, tubes and channels there, and
/// the rod's axis.

#include <optional>
#include <vector>

#include "neck_of.hpp"

namespace tautline {

/// A point of a neck's section.
template <class R = double>
struct basic_cut_point {
    length<R> y{}; ///< across, bass negative
    length<R> z{}; ///< from the board's top on the centre line, up
};
using cut_point = basic_cut_point<double>;

/// The section of a slack neck.
template <class R = double>
struct basic_neck_cut {
    length<R> x{};                               ///< its place, from the nut
    std::vector<basic_cut_point<R>> top{};       ///< the board's top, bass edge first
    std::vector<basic_cut_point<R>> glue_line{}; ///< the board's underside, bass edge first
    std::vector<basic_cut_point<R>> back{};      ///< the back, bass edge first
    std::vector<basic_insert<R>> inserts{};      ///< those that reach across this place
    std::optional<length<R>> rod{};              ///< height of the rod's axis, on the centre line; absent: no rod here
    length<R> depth{};                           ///< of board and back together, where they are deepest
};
using neck_cut = basic_neck_cut<double>;

/// The section of an instrument's neck at a place. The back is told at the nut, at traced places and at the joint;
/// between these it goes straight from one to the next.
/// @param x from the nut to the joint
/// @throws invalid_input where the instrument is not valid or the place is not on its neck
template <class R>
[[nodiscard]] basic_neck_cut<R> cut_neck(const basic_instrument<R>& i, param<length<R>> x) {
    require_valid(i, "instrument");
    basic_neck<R> as_beam;
    neck_of(i, as_beam);
    require_that(in_all_lanes(number<R>(0) <= x.value()) && in_all_lanes(x.value() <= as_beam.joint.value()), "x",
                 "must lie between the nut and the joint");
    const auto& stations = as_beam.stations;
    std::size_t after = 1;
    while (after + 1 < stations.size() && one_answer(stations[after].x.value() < x.value())) { ++after; }
    const auto &from = stations[after - 1], &to = stations[after];
    const R share = ratio<unit::length, R>(x - from.x, to.x - from.x);
    const length<R> half = kernel::half_width_at<R>(i.board, x), under = -kernel::thickness_at<R>(i.board, x);
    basic_neck_cut<R> cut;
    cut.x = x;
    constexpr int parts = 60;
    for (int k = 0; k <= parts; ++k) {
        const R u = number<R>(2.0L * k / parts - 1);
        const length<R> y = half * u;
        const length<R> a = from.back_depth * kernel::outline_depth<R>(from, u),
                        b = to.back_depth * kernel::outline_depth<R>(to, u), depth = a + (b - a) * share;
        cut.top.push_back({y, kernel::surface_height<R>(i.board.surface, x, y)});
        cut.back.push_back({y, under - depth});
        cut.depth = max(cut.depth, depth - under);
    }
    cut.glue_line = {{-half, under}, {half, under}};
    for (const auto& one : i.neck.inserts) {
        if (one_answer(one.x_from.value() <= x.value()) && one_answer(x.value() <= one.x_to.value())) {
            cut.inserts.push_back(one);
        }
    }
    if (const auto& rod = i.neck.rod;
        rod && one_answer(rod->x_from.value() <= x.value()) && one_answer(x.value() <= rod->x_to.value())) {
        cut.rod = kernel::rod_height<R>(*rod, x);
    }
    return cut;
}

} // namespace tautline
