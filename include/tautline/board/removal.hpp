#pragma once
/// @file
/// What comes off a board when its arc is changed or its line is trued: the least removal that cleans it up everywhere and
/// leaves it as straight (or as hollow) as wanted.

#include <vector>

#include "board.hpp"

namespace tautline {

/// From one surface to another. The line of the new board is straight. Where the old one was straight too, the removal on
/// the centre line runs linearly from nut to board end; else its shape comes on top of that.
template <class R = double>
struct basic_removal {
    basic_surface<R> found{};       ///< the arc before
    basic_surface<R> wanted{};      ///< the arc after
    needed<length<R>> board_length; ///< from the nut to the end of the board
    needed<length<R>> at_nut;       ///< from the old straight line down to the new one at the nut
    needed<length<R>> at_end;       ///< the same at the end of the board
    /// How far the centre line of the board stood over its straight line while it was sanded (set, bow), and the hollow
    /// wanted below the new line added: all of it comes off, too. Empty: straight to straight.
    std::vector<basic_profile_mark<R>> shape{};
    /// How much further the treble edge stood over that line than the bass edge; straight across between them. Empty: the
    /// edges stood alike. The new surface is level across, as the body is.
    std::vector<basic_profile_mark<R>> edges_apart{};
    field<length<R>> width_at_nut = length<R>(); ///< of the board; counts where its edges stood apart
    field<length<R>> width_at_end = length<R>(); ///< the same at the end of the board
};
using removal = basic_removal<double>;

namespace kernel {

/// From the straight line of the old board down to that of the new one.
template <class R>
[[nodiscard]] constexpr length<R> line_removal(const basic_removal<R>& r, const length<R>& x) {
    return r.at_nut + (r.at_end - r.at_nut) * R(ratio<unit::length, R>(x, r.board_length));
}
template <class R>
[[nodiscard]] constexpr length<R> centre_removal(const basic_removal<R>& r, const length<R>& x) {
    return line_removal(r, x) + profile_height(r.shape, x);
}
/// How much more than on the centre line comes off at y for edges that stood apart.
template <class R>
[[nodiscard]] constexpr length<R> tilt_removal(const basic_removal<R>& r, const length<R>& x, const length<R>& y) {
    if (r.edges_apart.empty()) { return {}; }
    const length<R> width =
        r.width_at_nut + (r.width_at_end - r.width_at_nut) * R(ratio<unit::length, R>(x, r.board_length));
    return y * R(ratio<unit::length, R>(profile_height(r.edges_apart, x), width));
}
template <class R>
[[nodiscard]] constexpr length<R> removal_at(const basic_removal<R>& r, const length<R>& x, const length<R>& y) {
    return kernel::centre_removal(r, x) + kernel::surface_height(r.found, x, y) - kernel::surface_height(r.wanted, x, y) +
           kernel::tilt_removal(r, x, y);
}

/// Stations from nut to board end: an even number of parts, for Simpson's rule.
inline constexpr int removal_parts = 64;

template <class R>
[[nodiscard]] constexpr length<R> station(const basic_board<R>& b, int i) {
    return b.board_length * number<R>(static_cast<long double>(i) / removal_parts);
}

/// The share of Simpson's rule that station i of n parts has in the whole.
template <class R>
[[nodiscard]] constexpr R simpson_share(int i, int parts) {
    const int weight = i == 0 || i == parts ? 1 : i % 2 == 1 ? 4 : 2;
    return number<R>(weight / (3.0L * parts));
}

/// What the wanted arc needs off the centre at x so that it lies nowhere above the found one. The difference of two arcs
/// grows or falls steadily from the centre out, so that the centre or the edge decides.
template <class R>
[[nodiscard]] constexpr length<R> needed_removal(const basic_board<R>& b, const basic_surface<R>& wanted,
                                                 const length<R>& x) {
    const length<R> half = kernel::half_width_at(b, x);
    const length<R> edge = kernel::surface_height(wanted, x, half) - kernel::surface_height(b.surface, x, half);
    return max(length<R>(), edge);
}
/// The same where the treble edge stands `apart` over the bass edge: what a tilted arc needs most may lie between centre
/// and edge, so that it is looked for from edge to edge, 1/128 of the width apart. It is then short by less than a quarter
/// of a micrometre on boards of 120 mm radius and more.
template <class R>
[[nodiscard]] constexpr length<R> needed_removal(const basic_board<R>& b, const basic_surface<R>& wanted,
                                                 const length<R>& x, const length<R>& apart) {
    constexpr int parts = 128;
    const length<R> half = kernel::half_width_at(b, x);
    length<R> most{};
    for (int j = 0; j <= parts; ++j) {
        const R across = number<R>(2.0L * j / parts - 1);
        const length<R> y = half * across;
        most = max(most, kernel::surface_height(wanted, x, y) - kernel::surface_height(b.surface, x, y) -
                             apart * R(across * number<R>(0.5L)));
    }
    return most;
}

/// The removal of least volume whose straight part lies above `needed` less the shape at every station and mark.
///
/// Volume is linear in a straight line's height at the centroid of the board's outline, so the best line is the side of the
/// needed removals' upper hull over that centroid: the highest chord there between a station on its left and one on its
/// right. Between stations the line may fall short by what the needed removal bulges over 1/64 of the board: less than a
/// micron on boards of 120 mm radius and more.
///
/// @param edges_apart as in `basic_removal`
/// @param from where the board begins, 0 or before the middle of a slanted nut
template <class R>
[[nodiscard]] constexpr basic_removal<R>
least_removal(const basic_board<R>& b, const basic_surface<R>& wanted, const length<R>& allowance,
              const std::vector<basic_profile_mark<R>>& shape = {},
              const std::vector<basic_profile_mark<R>>& edges_apart = {}, const length<R>& from = length<R>()) {
    const R w0 = b.width_at_nut.value(), w1 = b.width_at_end.value();
    // Centroid of a trapezium, as a share of its length; a hair beside it. All chords through a corner that lies exactly
    // there would be as high, whatever their slope; beside it the highest is a side of the hull, and the volume is the
    // same.
    const R centroid = R(w0 + number<R>(2) * w1) / R(number<R>(3) * R(w0 + w1)) + number<R>(1e-6L);
    std::vector<length<R>> needed;
    std::vector<R> share;
    const auto look_at = [&](const length<R>& x, const R& part) {
        needed.push_back((edges_apart.empty() ? kernel::needed_removal(b, wanted, x)
                                              : kernel::needed_removal(b, wanted, x, profile_height(edges_apart, x))) -
                         profile_height(shape, x));
        share.push_back(part);
    };
    for (int i = 0; i <= removal_parts; ++i) {
        look_at(kernel::station(b, i), number<R>(static_cast<long double>(i) / removal_parts));
    }
    // A shape is lowest at one of its marks. One beyond the board counts where it leaves it.
    const R start = ratio<unit::length, R>(from, b.board_length);
    for (const auto* marks : {&shape, &edges_apart}) {
        for (const auto& m : *marks) {
            const R part = max(start, min(number<R>(1), R(ratio<unit::length, R>(m.x, b.board_length))));
            look_at(b.board_length * part, part);
        }
    }
    length<R> best = length<R>::from_value(number<R>(-1)), slope{}; // lower than any removal
    for (std::size_t i = 0; i < needed.size(); ++i) {
        for (std::size_t j = 0; j < needed.size(); ++j) {
            const auto left = share[i] <= centroid;
            const auto right = centroid < share[j];
            const R apart = select(right, select(left, R(share[j] - share[i]), number<R>(1)), number<R>(1));
            const length<R> rise = (needed[j] - needed[i]) / apart;
            const length<R> height = needed[i] + rise * R(centroid - share[i]);
            const length<R> offered = select(left, select(right, height, best), best);
            slope = select(is_less(best, offered), rise, slope);
            best = max(best, offered);
        }
    }
    return {.found = b.surface,
            .wanted = wanted,
            .board_length = b.board_length,
            .at_nut = best - slope * centroid + allowance,
            .at_end = best + slope * R(number<R>(1) - centroid) + allowance,
            .shape = shape,
            .edges_apart = edges_apart,
            .width_at_nut = b.width_at_nut,
            .width_at_end = b.width_at_end};
}

/// Volume by Simpson's rule along and across.
template <class R>
[[nodiscard]] constexpr volume<R> removed_volume(const basic_board<R>& b, const basic_removal<R>& r) {
    constexpr int across = 16;
    volume<R> sum{};
    for (int i = 0; i <= removal_parts; ++i) {
        const length<R> x = kernel::station(b, i), half = kernel::half_width_at(b, x);
        length<R> mean{}; // of one half; the other is its mirror image but where the edges stood apart
        for (int j = 0; j <= across; ++j) {
            const length<R> y = half * number<R>(static_cast<long double>(j) / across);
            length<R> off = max(length<R>(), kernel::removal_at(r, x, y));
            if (!r.edges_apart.empty()) {
                off = (off + max(length<R>(), kernel::removal_at(r, x, length<R>(-y)))) * number<R>(0.5L);
            }
            mean += off * simpson_share<R>(j, across);
        }
        sum += mean * half * b.board_length * R(number<R>(2) * simpson_share<R>(i, removal_parts));
    }
    return sum;
}

} // namespace kernel

/// The least removal that takes `b` to the `wanted` arc with at least `allowance` off everywhere and a straight new centre
/// line. Flattening takes most off the centre, tightening most off the edges; a hollow takes most at its ends.
/// @param shape how far the board's centre line stands over a straight line while it is sanded, and the hollow wanted below
///              the new one added: at marks, x increasing, z up to 10 mm either way; empty where it is straight
/// @param edges_apart how much further its treble edge stands over that line than its bass edge, in the same way; empty
///              where both stand alike
/// @param from where the board begins: 0, or before that on one side of a slanted nut, up to 200 mm
template <class R = double>
[[nodiscard]] basic_removal<R> least_removal(
    const basic_board<R>& b, const std::type_identity_t<basic_surface<R>>& wanted, param<length<R>> allowance = length<R>(),
    const std::type_identity_t<std::vector<basic_profile_mark<R>>>& shape = {},
    const std::type_identity_t<std::vector<basic_profile_mark<R>>>& edges_apart = {}, param<length<R>> from = length<R>()) {
    require_valid(b, "board");
    basic_board<R> after = b;
    after.surface = wanted;
    require_valid(after, "board with the wanted surface");
    require("allowance", allowance, between(0 * units::mm, 10 * units::mm));
    const auto marks_ordered = [](const std::vector<basic_profile_mark<R>>& marks, std::string_view name) {
        for (std::size_t i = 0; i < marks.size(); ++i) {
            require_valid(marks[i], messages::path_of(name, i));
            require(messages::path_of(name, i, "z"), marks[i].z, between(-10 * units::mm, 10 * units::mm));
            require_that(i == 0 || in_all_lanes(marks[i - 1].x.value() < marks[i].x.value()),
                         messages::path_of(name, i, "x"), "must be further from the nut than the mark before it");
        }
    };
    marks_ordered(shape, "shape");
    marks_ordered(edges_apart, "edges_apart");
    require("from", from, between(-200 * units::mm, 0 * units::mm));
    return kernel::least_removal<R>(b, wanted, allowance, shape, edges_apart, from);
}

/// Taken off at (x, y), straight down. Negative where a removal chosen by hand leaves the found surface too low.
template <class R = double>
[[nodiscard]] constexpr length<R> removal_at(const basic_removal<R>& r, param<length<R>> x, param<length<R>> y) {
    require("board length", r.board_length, more_than(0 * units::mm));
    (void)surface_height(r.found, x, y);
    (void)surface_height(r.wanted, x, y);
    return kernel::removal_at<R>(r, x, y);
}

/// All that comes off, as a volume; places where the wanted surface lies above the found one count for nothing.
template <class R = double>
[[nodiscard]] volume<R> removed_volume(const basic_board<R>& b, const basic_removal<R>& r) {
    require_valid(b, "board");
    return kernel::removed_volume(b, r);
}

/// How far the saddle comes down (+) so that the action at `action_at` from the nut stays what it was, when the surface
/// there comes down by `removed_there` and the nut slot by `slot_lowered`: `(r_a - r_0 (1 - x_a/L)) L/x_a`.
[[nodiscard]] constexpr auto saddle_drop_keeping_action(a_length auto removed_there, a_length auto slot_lowered,
                                                        a_length auto action_at, a_length auto nut_to_saddle) {
    using R = common_real_t<decltype(removed_there), decltype(slot_lowered), decltype(action_at), decltype(nut_to_saddle)>;
    require("place of the action", over<R>(action_at), more_than(0 * units::mm));
    require("nut to saddle", over<R>(nut_to_saddle), more_than(0 * units::mm));
    const R share = ratio(over<R>(action_at), over<R>(nut_to_saddle));
    require("place of the action over nut to saddle", share, between(0, 1));
    return length<R>((over<R>(removed_there) - over<R>(slot_lowered) * R(number<R>(1) - share)) / share);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH, messages::LENGTH>
saddle_drop_keeping_action(Given...)
    TAUTLINE_REFUSED("wanted are four LENGTHS: saddle_drop_keeping_action(0.5*mm, 0.3*mm, 320*mm, 640*mm)");

} // namespace tautline
