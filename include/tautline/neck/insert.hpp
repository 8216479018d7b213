#pragma once
/// @file
/// Bars, tubes and channels along a neck: they replace wood or leave a void.

#include "station.hpp"

namespace tautline {

/// Cross-section of an insert.
enum class insert_profile { rectangle, round };

/// Something let into a neck over part of its length, parallel to the board's top. It replaces the wood it sits in;
/// across the glue line it replaces wood of board and back. A modulus of 0 makes a void, such as a rod's channel.
template <class R = double>
struct basic_insert {
    using real = R;
    insert_profile profile = insert_profile::rectangle; ///< bar or tube
    needed<length<R>> x_from;                           ///< where it begins
    needed<length<R>> x_to;                             ///< where it ends
    field<length<R>> y = length<R>();                   ///< of its middle, bass side negative
    needed<length<R>> top;                              ///< z of its upper face, negative: below the board's top
    needed<length<R>> width;                            ///< across; the diameter of a round one
    field<length<R>> height = length<R>();              ///< down; leave it 0 for a round one
    field<length<R>> wall = length<R>();                ///< of a tube; 0 is solid
    needed<stress<R>> modulus;                          ///< true axial modulus along the neck; 0 is a void

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("profile", self.profile...);
        visit("x_from", between(-300 * units::mm, 2000 * units::mm), self.x_from...);
        visit("x_to", between(-300 * units::mm, 2000 * units::mm), self.x_to...);
        visit("y", between(-200 * units::mm, 200 * units::mm).fair_default("on the centre line"), self.y...);
        visit("top", between(-100 * units::mm, 0 * units::mm), self.top...);
        visit("width", between(0.01 * units::mm, 100 * units::mm), self.width...);
        visit("height", between(0 * units::mm, 100 * units::mm).fair_default("a round one has its width"), self.height...);
        visit("wall", between(0 * units::mm, 50 * units::mm).fair_default("solid"), self.wall...);
        visit("modulus", between(0 * units::GPa, 1000 * units::GPa), self.modulus...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const R zero = number<R>(0), two = number<R>(2);
        if (!in_all_lanes(x_from.value() < x_to.value())) { report("x_to", "must be further from the nut than x_from"); }
        if (profile == insert_profile::rectangle) {
            if (!in_all_lanes(zero < height.value())) { report("height", "must be more than 0 mm"); }
            if (!in_all_lanes(two * wall.value() < min(width.value(), height.value()))) {
                report("wall", "must be less than half the width and half the height");
            }
        } else {
            if (!in_all_lanes(height.value() == zero)) {
                report("height", "must be left out of a round one, which has its width");
            }
            if (!in_all_lanes(two * wall.value() < width.value())) {
                report("wall", "must be less than half the diameter");
            }
        }
        if (!in_all_lanes(zero < modulus.value()) && !in_all_lanes(wall.value() == zero)) {
            report("wall", "must be 0 mm for a void");
        }
    }
    /// Its height, from its upper face down.
    [[nodiscard]] constexpr length<R> tall() const { return profile == insert_profile::round ? width : height; }
};
using insert = basic_insert<double>;

namespace kernel {

/// Sums of the part of a circle between two angles from its top, 0 to pi.
template <class R>
[[nodiscard]] basic_section_sums<R> round_sums(const stress<R>& e, const length<R>& radius, const length<R>& middle,
                                               const R& from, const R& to) {
    // Integrals of 2 r^2 sin^2, and of this times r cos and times r^2 cos^2.
    const auto upto = [&](const R& a) {
        const R s = sin(a), c = cos(a), area = R(a - s * c);
        const R first = number<R>(2) * s * s * s / number<R>(3);
        const R second = a / number<R>(4) - sin(R(number<R>(4) * a)) / number<R>(16);
        const force<R> unit = e * radius * radius;
        return basic_section_sums<R>{unit * area, unit * radius * first, unit * radius * radius * second};
    };
    const auto about_middle = upto(to) - upto(from);
    return {about_middle.ea, about_middle.es + about_middle.ea * middle,
            about_middle.ej + number<R>(2) * (about_middle.es * middle) + about_middle.ea * middle * middle};
}

/// Sums of an area with the modulus `above` over the glue line and `below` under it.
template <class R>
[[nodiscard]] basic_section_sums<R> split_sums(insert_profile profile, const stress<R>& above, const stress<R>& below,
                                               const length<R>& width, const length<R>& height, const length<R>& top,
                                               const length<R>& glue_line) {
    if (profile == insert_profile::rectangle) {
        const length<R> bottom = top - height;
        const length<R> cut = max<unit::length, R>(bottom, min<unit::length, R>(top, glue_line));
        return rectangle_sums<R>(above, width, top, cut) + rectangle_sums<R>(below, width, cut, bottom);
    }
    const length<R> radius = number<R>(0.5L) * width, middle = top - radius;
    const R c = ratio(glue_line - middle, radius), one = number<R>(1), zero = number<R>(0);
    // The arc cosine has no finite slope at its ends, so it is taken inside only.
    const auto inside = abs(c) < one;
    const R cut = select(inside, R(acos(select(inside, c, zero))), select(zero < c, zero, pi<R>()));
    return round_sums<R>(above, radius, middle, zero, cut) + round_sums<R>(below, radius, middle, cut, pi<R>());
}

/// What an insert changes in the sums of a section whose board and back have the given moduli.
template <class R>
[[nodiscard]] basic_section_sums<R> insert_sums(const basic_insert<R>& i, const stress<R>& board, const stress<R>& back,
                                                const length<R>& glue_line) {
    const length<R> height = i.tall();
    auto sums = split_sums<R>(i.profile, i.modulus - board, i.modulus - back, i.width, height, i.top, glue_line);
    if (one_answer(number<R>(0) < i.wall.value())) {
        const length<R> two_walls = number<R>(2) * i.wall;
        sums = sums - split_sums<R>(i.profile, i.modulus, i.modulus, i.width - two_walls, height - two_walls,
                                    i.top - i.wall, glue_line);
    }
    return sums;
}

/// What is wrong with an insert in a section: where it sticks out of the wood, or nothing. `outline(u)` is the back's
/// depth at `u` half widths from the centre line, as a share of its greatest depth.
template <class R, class Outline>
[[nodiscard]] const char* insert_sticks_out(const basic_insert<R>& i, const basic_neck_station<R>& s, Outline outline) {
    const length<R> height = i.tall(), half = number<R>(0.5L) * i.width;
    constexpr int around = 16; // places looked at around a circle; a rectangle's four corners and its lower face
    const auto margin = number<R>(1e-9L);
    for (int k = 0; k <= around; ++k) {
        length<R> dy{}, z_top{}, z_bottom{};
        if (i.profile == insert_profile::round) {
            const R a = pi<R>() * number<R>(static_cast<long double>(k) / around);
            dy = half * R(cos(a));
            z_top = i.top - half + half * R(sin(a));
            z_bottom = i.top - half - half * R(sin(a));
        } else {
            dy = half * number<R>(2.0L * k / around - 1);
            z_top = i.top;
            z_bottom = i.top - height;
        }
        const length<R> y = i.y + dy;
        if (!in_all_lanes(abs(y.value()) <= s.half_width.value())) { return "must not stick out of the neck's side"; }
        if (!in_all_lanes(z_top.value() <= -arc_fall<R>(s.board_arc, y).value() + margin)) {
            return "must not stick out of the board's top";
        }
        const length<R> floor = -s.board_thickness - s.back_depth * outline(ratio(y, s.half_width));
        if (!in_all_lanes(floor.value() <= z_bottom.value() + margin)) { return "must not come out of the neck's back"; }
    }
    return nullptr;
}

/// Whether the boxes around two inserts overlap.
template <class R>
[[nodiscard]] bool inserts_overlap(const basic_insert<R>& a, const basic_insert<R>& b) {
    const auto meet = [](const length<R>& a0, const length<R>& a1, const length<R>& b0, const length<R>& b1) {
        return one_answer(is_less(a0, b1)) && one_answer(is_less(b0, a1));
    };
    const R half = number<R>(0.5L);
    if (a.profile == insert_profile::round && b.profile == insert_profile::round) {
        const length<R> apart = hypot<unit::length, R>(a.y - b.y, (a.top - half * a.width) - (b.top - half * b.width));
        if (!one_answer(is_less<unit::length, R>(apart, half * (a.width + b.width)))) { return false; }
    }
    return meet(a.x_from, a.x_to, b.x_from, b.x_to) &&
           meet(a.y - half * a.width, a.y + half * a.width, b.y - half * b.width, b.y + half * b.width) &&
           meet(a.top - a.tall(), a.top, b.top - b.tall(), b.top);
}

} // namespace kernel

} // namespace tautline
