#pragma once
/// @file
/// The neck of an instrument, as its beam is made from it.

#include <algorithm>
#include <string_view>

#include "instrument.hpp"

namespace tautline {

namespace kernel {

/// Height of the slack board off its straight line, on the centre line. Between the edges the board is straight across,
/// so this is the mean of both where they are told.
template <class R>
[[nodiscard]] constexpr length<R> set_on_centre(const basic_neck_measures<R>& neck, const length<R>& x) {
    if (!neck.told_by_edges()) { return profile_height(neck.set, x); }
    return (profile_height(neck.set_bass, x) + profile_height(neck.set_treble, x)) * number<R>(0.5L);
}
/// The same at all marks, in order along the board.
template <class R>
void set_on_centre(const basic_neck_measures<R>& neck, std::vector<basic_permanent_bow_mark<R>>& marks) {
    marks = neck.told_by_edges() ? neck.set_bass : neck.set;
    if (!neck.told_by_edges()) { return; }
    marks.insert(marks.end(), neck.set_treble.begin(), neck.set_treble.end());
    std::sort(marks.begin(), marks.end(),
              [](const auto& a, const auto& b) { return one_answer(a.x.value() < b.x.value()); });
    const auto same = [](const auto& a, const auto& b) { return one_answer(b.x.value() - a.x.value() < number<R>(1e-9L)); };
    marks.erase(std::unique(marks.begin(), marks.end(), same), marks.end());
    for (auto& m : marks) { m.z = set_on_centre<R>(neck, length<R>(m.x)); }
}

/// The slots of an instrument's board as its neck has them: at the places of the frets.
template <class R>
void slots_of(const basic_instrument<R>& i, std::optional<basic_fret_slots<R>>& slots) {
    if (!i.neck.slots) {
        slots.reset();
        return;
    }
    const auto& m = *i.neck.slots;
    auto& s = slots ? *slots : slots.emplace();
    s.interference = m.interference;
    s.share = m.wedging;
    s.tang_depth = m.depth;
    s.bearing = m.bearing;
    s.shear_ratio = m.shear_ratio;
    s.places.resize(static_cast<std::size_t>(std::max(i.board.scale.frets, 0)));
    for (std::size_t k = 0; k < s.places.size(); ++k) { s.places[k] = kernel::fret_place(i, static_cast<int>(k) + 1); }
}

} // namespace kernel

/// How the strings' ends at the nut ride on the neck; only the kind of board decides that.
template <class R>
[[nodiscard]] constexpr nut_kind nut_kind_of(const basic_instrument<R>& i) {
    return i.board.scale.fan || !i.short_strings.empty() ? nut_kind::slanted : nut_kind::square;
}

/// Whether the number of an instrument with a path may change its neck as a beam is made from it. Where lines of the
/// strings place the frets, every number may.
template <class R>
[[nodiscard]] bool may_change_neck(const basic_instrument<R>& i, std::string_view path) {
    return i.board.scale.fan || path.starts_with("neck.") || path.starts_with("board.") ||
           path.starts_with("short_strings");
}

/// The neck of an instrument as a beam is made from it, written into `n`. It has sections at the nut and at the joint,
/// wherever the board's thickness has a mark, and wherever the back was traced. The back is straight between these,
/// whatever was sanded off the board.
template <class R>
void neck_of(const basic_instrument<R>& i, basic_neck<R>& n) {
    const auto& m = i.neck;
    n.joint = joint_place(i);
    const length<R> back_at_nut = m.depth_at_nut - kernel::thickness_at<R>(i.board, length<R>());
    const length<R> back_at_joint = m.depth_at_joint - kernel::thickness_at<R>(i.board, length<R>(n.joint));
    std::size_t count = 0;
    const auto station_at = [&](const length<R>& x) {
        if (n.stations.size() == count) { n.stations.emplace_back(); }
        auto& s = n.stations[count++];
        s.x = x;
        s.half_width = kernel::half_width_at<R>(i.board, x);
        s.board_thickness = kernel::thickness_at<R>(i.board, x);
        s.board_arc = kernel::arc_curvature<R>(i.board.surface, x);
        s.back_depth = back_at_nut + (back_at_joint - back_at_nut) * R(ratio<unit::length, R>(x, n.joint));
        s.back_exponent = m.back_exponent;
        s.profile.clear();
    };
    station_at(length<R>());
    const R near_end = number<R>(1e-6L);
    const auto between_ends = [&](const length<R>& x) {
        if (one_answer(near_end < x.value()) && one_answer(x.value() < n.joint.value() - near_end)) { station_at(x); }
    };
    std::size_t next = 0; // of the traced places
    for (const auto& mark : i.board.thickness_off_line) {
        for (; next < m.traced.size() && one_answer(m.traced[next].x.value() < mark.x.value() - near_end); ++next) {
            between_ends(m.traced[next].x);
        }
        if (next < m.traced.size() && kernel::is_one_place<R>(m.traced[next].x, mark.x)) { ++next; }
        between_ends(mark.x);
    }
    for (; next < m.traced.size(); ++next) { between_ends(m.traced[next].x); }
    station_at(n.joint);
    // Where a string has a nut of its own, its pull on the neck begins there.
    for (const auto& own : i.short_strings) {
        const length<R> x = kernel::fret_place(i, own.fret);
        std::size_t before = count;
        while (before > 0 && one_answer(is_less<unit::length, R>(x, n.stations[before - 1].x))) { --before; }
        if (before == 0 || before == count || kernel::is_one_place<R>(n.stations[before - 1].x, x) ||
            kernel::is_one_place<R>(n.stations[before].x, x)) {
            continue;
        }
        station_at(x);
        std::rotate(n.stations.begin() + static_cast<std::ptrdiff_t>(before),
                    n.stations.begin() + static_cast<std::ptrdiff_t>(count - 1),
                    n.stations.begin() + static_cast<std::ptrdiff_t>(count));
    }
    n.stations.resize(count);
    if (!m.traced.empty()) { kernel::trace_stations<R>(m.traced, n.stations); }
    // A modulus that is free of shear is taken as it was measured.
    n.pure_bending_factor = m.pure_bending_factor;
    const auto as_bent = [&](modulus_method how, const stress<R>& e) {
        return is_free_of_shear(how) ? stress<R>(e / m.pure_bending_factor) : e;
    };
    n.board_modulus = as_bent(m.board_method, m.board_modulus);
    n.back_modulus = as_bent(m.back_method, m.back_modulus);
    n.joint_stiffness = m.joint_stiffness;
    n.rod = m.rod;
    n.inserts = m.inserts;
    kernel::slots_of(i, n.slots);
    n.board_strain = m.board_strain;
    n.creep_factor = m.creep_factor;
    kernel::set_on_centre(m, n.set);
}

} // namespace tautline
