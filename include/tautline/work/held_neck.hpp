#pragma once
/// @file
/// How a neck is held while its board is sanded or its frets are filed, and the shape of the board then.
///
/// Source: geometry and linear elasticity. A slack board is (nearly) free of stress. So planing wood off it leaves the
/// rest in shape: the glue line and the back keep the set, and the top gets a new line. Released from a jig the whole old
/// bow springs back, since the wood that was taken off was strained like the rest. A neck may also bend without any load,
/// where its board has grown or tangs wedge it. Held slack it keeps that bow, like the bow of a jig.

#include <algorithm>
#include <vector>

#include "../instrument/board_twist.hpp"
#include "../instrument/neck_of.hpp"
#include "../neck/bow.hpp"

namespace tautline {

/// How a neck is held at the bench.
enum class neck_held {
    not_said,      ///< not told; only whoever does the work can know it
    slack,         ///< free, strings and rod slack
    as_at_pitch,   ///< by a jig, in the shape that the strings gave it as found
    as_it_will_be, ///< by a jig, in the shape that the planned strings will give it
};

namespace kernel {

/// Puts places along the board in order and keeps each once: they are then at least a micrometre apart.
template <class R>
void in_order(std::vector<length<R>>& x) {
    const R apart = number<R>(1e-6L);
    std::sort(x.begin(), x.end(), [](const auto& a, const auto& b) { return one_answer(a.value() < b.value()); });
    const auto same = [&](const auto& a, const auto& b) { return one_answer(R(b.value() - a.value()) < apart); };
    x.erase(std::unique(x.begin(), x.end(), same), x.end());
}

/// Places that tell the shape of a held neck, in order: the nut, frets up to the joint, the joint, and marks of the set.
/// Between them the shape is taken as straight; over the widest space between frets a bow bulges by a micrometre or two.
template <class R>
[[nodiscard]] std::vector<length<R>> shape_places(const basic_instrument<R>& i) {
    const length<R> joint = joint_place(i);
    std::vector<length<R>> x{length<R>(), joint};
    for (int n = 1; n <= std::min(i.board.scale.frets, i.neck.joint_fret); ++n) { x.push_back(kernel::fret_place(i, n)); }
    if (const board_lines<R> lines(i); lines.fanned()) {
        // On one side a slanted nut begins the board before its middle.
        const auto nut = kernel::ends_of_fret(i.board, lines, 0);
        x.push_back(nut.bass.x);
        x.push_back(nut.treble.x);
    }
    // A board without frets, or with few, still has a smooth bow.
    constexpr int parts = 12;
    for (int n = 1; n < parts && i.board.scale.frets < parts; ++n) {
        x.push_back(joint * number<R>(static_cast<long double>(n) / parts));
    }
    for (const auto* marks : {&i.neck.set, &i.neck.set_bass, &i.neck.set_treble}) {
        for (const auto& m : *marks) { x.push_back(m.x); }
    }
    in_order(x);
    return x;
}

/// Hollow wanted in the board at x, below its straight line, at least 0. It is a parabola from the first fret to the
/// joint's (from the nut to the joint without frets), like the one that frets are levelled to.
template <class R>
[[nodiscard]] length<R> hollow_at(const basic_instrument<R>& i, const length<R>& depth, const length<R>& x) {
    const length<R> joint = joint_place(i);
    const length<R> from = i.board.scale.frets > 0 ? kernel::fret_place(i, 1) : length<R>();
    const R zero{}, one = number<R>(1);
    const R t = min(one, max(zero, R(ratio<unit::length, R>(x - from, joint - from))));
    return depth * R(number<R>(4) * t * R(one - t));
}

/// The shape that a board is sanded from to a straight line, and the shape of its slack top afterwards.
template <class R>
struct held_shape {
    std::vector<basic_profile_mark<R>> sanded{}; ///< set, bow of the held neck and hollow, summed: all of it comes off
    std::vector<basic_profile_mark<R>> after{};  ///< the slack board off its new line: hollow and bow spring back
    /// Height of its treble edge over its bass edge, off the line; empty: the edges stand alike.
    std::vector<basic_profile_mark<R>> edges_apart{};
};

/// The bow of a neck without strings and with a slack rod, from a board that has grown and from tangs that wedge. Returns
/// nothing where neither bends it.
/// @param frets_in false while the board is sanded: its slots are then empty
template <class R>
[[nodiscard]] std::optional<basic_bow<R>> slack_bow(const basic_instrument<R>& i, bool frets_in) {
    const R none = number<R>(0);
    const auto& slots = i.neck.slots;
    const bool wedged = frets_in && slots && !in_all_lanes(slots->wedging * slots->interference.value() == none);
    const bool grown = !in_all_lanes(i.neck.board_strain == none);
    // With derivatives it is computed all the same: a doubt about a value of 0 still moves the neck.
    if (!wedged && !grown && derivatives_in<R> == 0) { return std::nullopt; }
    basic_neck<R> n;
    neck_of(i, n);
    if (n.slots && !frets_in) { n.slots->share = n.slots->bearing = none; }
    return bend<R>(make_beam<R>(n), {}, force<R>());
}

/// The shape of a board that is held, and what sanding makes of it.
/// @param bow bow of the neck as it is held; null: held slack, with no bow but its set
/// @param hollow hollow to be sanded in, at its deepest
template <class R>
[[nodiscard]] held_shape<R> shape_held(const basic_instrument<R>& i, const basic_bow<R>* bow, const length<R>& hollow) {
    held_shape<R> shape;
    for (const length<R>& x : shape_places(i)) {
        const length<R> held = bow ? kernel::load_deflection_at<R>(*bow, x) : length<R>();
        const length<R> below = hollow_at(i, hollow, x);
        shape.sanded.push_back({.x = x, .z = kernel::set_on_centre<R>(i.neck, x) + held + below});
        if (i.neck.told_by_edges()) { shape.edges_apart.push_back({.x = x, .z = kernel::edges_apart<R>(i.neck, x)}); }
        shape.after.push_back({.x = x, .z = -(held + below)});
    }
    return shape;
}

} // namespace kernel

} // namespace tautline
