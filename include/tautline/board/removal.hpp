#pragma once
/// @file
/// What comes off a board when its arc is changed or its line is trued. This is the least removal that cleans the board
/// up everywhere and leaves it as straight, or as hollow, as wanted.

#include <vector>

#include "board.hpp"

namespace tautline {

/// What takes a board from one surface to another. The line of the new board is straight. On the centre line the
/// removal is linear from nut to board end, plus the old board's `shape` where that was not straight.
template <class R = double>
struct basic_removal {
    basic_surface<R> found{};       ///< the arc before
    basic_surface<R> wanted{};      ///< the arc after
    needed<length<R>> board_length; ///< from the nut to the end of the board
    needed<length<R>> at_nut;       ///< from the old straight line down to the new one at the nut
    needed<length<R>> at_end;       ///< the same at the end of the board
    /// How far the centre line of the board stood over its straight line while it was sanded (set, bow), plus the
    /// hollow wanted below the new line. All of it comes off too. Empty: the old board was straight and so is the new
    /// one.
    std::vector<basic_profile_mark<R>> shape{};
    /// How much further the treble edge stood over that line than the bass edge. It is linear across between them.
    /// Empty: both edges stood alike. The new surface is level across, as the body is.
    std::vector<basic_profile_mark<R>> edges_apart{};
    field<length<R>> width_at_nut = length<R>(); ///< width of the board; used where `edges_apart` is given
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
/// How much more than on the centre line comes off at y, because one edge stood over the other.
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

/// The weight of station i in Simpson's rule over so many parts, as a share of the whole.
template <class R>
[[nodiscard]] constexpr R simpson_share(int i, int parts) {
    const int weight = i == 0 || i == parts ? 1 : i % 2 == 1 ? 4 : 2;
    return number<R>(weight / (3.0L * parts));
}

/// Removal on the centre line at x that puts the wanted arc nowhere above the found one. The difference of two arcs
/// grows or falls steadily from the centre to the edge, so only the centre and the edge need a look.
template <class R>
[[nodiscard]] constexpr length<R> needed_removal(const basic_board<R>& b, const basic_surface<R>& wanted,
                                                 const length<R>& x) {
    const length<R> half = kernel::half_width_at(b, x);
    const length<R> edge = kernel::surface_height(wanted, x, half) - kernel::surface_height(b.surface, x, half);
    return max(length<R>(), edge);
}
/// The same where the treble edge stands `apart` over the bass edge. A tilted arc may need most between centre and
/// edge. It is looked for from edge to edge at places 1/128 of the width apart, and the result is too small by less
/// than a quarter of a micrometre on boards of 120 mm radius and more.
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

/// The removal of least volume whose linear part is at least `needed` less the shape, at every station and mark.
///
/// The volume depends on the line's height at the centroid of the board's outline alone, and it is linear in it. So the
/// best line is the side of the upper hull of the needed removals over that centroid. That side is the highest chord
/// there between a station on the left and one on the right. Between stations the line may be too low by the bulge of
/// the needed removal over 1/64 of the board: less than a micrometre on boards of 120 mm radius and more.
///
/// @param edges_apart as in `basic_removal`
/// @param from x where the board begins: 0, or less on one side of a slanted nut
template <class R>
[[nodiscard]] constexpr basic_removal<R>
least_removal(const basic_board<R>& b, const basic_surface<R>& wanted, const length<R>& allowance,
              const std::vector<basic_profile_mark<R>>& shape = {},
              const std::vector<basic_profile_mark<R>>& edges_apart = {}, const length<R>& from = length<R>()) {
    const R w0 = b.width_at_nut.value(), w1 = b.width_at_end.value();
    // Centroid of a trapezium, as a share of its length, moved by a hair. Where a corner of the hull lies exactly at
    // the centroid, all chords through it are equally high there, whatever their slope. A hair beside it the highest
    // chord is a side of the hull, and the volume is the same.
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
    // A shape is lowest at one of its marks. A mark beyond the board counts at the board's end.
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

/// Volume that comes off, by Simpson's rule along and across.
template <class R>
[[nodiscard]] constexpr volume<R> removed_volume(const basic_board<R>& b, const basic_removal<R>& r) {
    constexpr int across = 16;
    volume<R> sum{};
    for (int i = 0; i <= removal_parts; ++i) {
        const length<R> x = kernel::station(b, i), half = kernel::half_width_at(b, x);
        length<R> mean{}; // of one half; the other half is its mirror image unless the edges stood apart
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

/// The least removal that takes `b` to the `wanted` arc. It takes at least `allowance` (>= 0) off everywhere and leaves
/// the new centre line straight. A flatter arc takes most off the centre, a tighter one most off the edges. A hollow
/// takes most off at its ends.
/// @param shape how far the board's centre line stands over a straight line while it is sanded, and the hollow wanted below
///              the new one added: at marks, x increasing, z up to 10 mm either way; empty where it is straight
/// @param edges_apart how much further its treble edge stands over that line than its bass edge, in the same way; empty
///                    where both stand alike
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

/// Height taken off at (x, y), straight down. Negative where the found surface lies below the wanted one, as a removal
/// chosen by hand may leave it.
template <class R = double>
[[nodiscard]] constexpr length<R> removal_at(const basic_removal<R>& r, param<length<R>> x, param<length<R>> y) {
    require("board length", r.board_length, more_than(0 * units::mm));
    (void)surface_height(r.found, x, y);
    (void)surface_height(r.wanted, x, y);
    return kernel::removal_at<R>(r, x, y);
}

/// All that comes off, as a volume. Places where the wanted surface lies above the found one count as 0.
template <class R = double>
[[nodiscard]] volume<R> removed_volume(const basic_board<R>& b, const basic_removal<R>& r) {
    require_valid(b, "board");
    return kernel::removed_volume(b, r);
}

/// How far the saddle must come down (+) to keep the action at the place `action_at` from the nut. There the surface
/// comes down by `removed_there`, and the nut slot comes down by `slot_lowered`: `(r_a - r_0 (1 - x_a/L)) L/x_a`.
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
