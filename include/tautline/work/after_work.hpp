#pragma once
/// @file
/// What work on board and frets does to everything that is measured from them. Each function takes the instrument before
/// the work and gives the instrument after it, so works can follow each other as at the bench.
///
/// Source: geometry in the frame of the setup. Wood is sanded off along a straight line, and the frame then follows the
/// new surface. So whatever did not move (nut, head, saddle, rod, what lies on the body) is measured anew from it.

#include "../board/reradius.hpp"
#include "../board/spacing.hpp"
#include "../instrument/saddle_line.hpp"
#include "../instrument/top_slope.hpp"
#include "held_neck.hpp"

namespace tautline {

namespace kernel {

/// Places of all strings across, at their nuts.
template <class R>
[[nodiscard]] std::vector<length<R>> places_at_nut(const basic_strung_instrument<R>& on) {
    std::vector<length<R>> gauges;
    const auto& own = on.instrument.short_strings;
    for (std::size_t i = own.size(); i < on.stringing.strings.size(); ++i) {
        gauges.push_back(kernel::gauge(on.stringing.strings[i].string));
    }
    auto places = string_places(on.instrument.nut.spacing, gauges);
    for (std::size_t k = own.size(); k-- > 0;) { places.insert(places.begin(), own[k].across); }
    return places;
}

/// Sets what is left of a board's thickness: a straight run from nut to end, and marks off that run that are 0 at both
/// ends.
template <class R>
void thin_board(basic_board<R>& b, const basic_removal<R>& off) {
    using marks_of = const std::vector<basic_profile_mark<R>>*;
    const length<R> end = b.board_length;
    const auto left = [&b, &off](const length<R>& x) {
        return length<R>(kernel::thickness_at(b, x) - kernel::centre_removal(off, x));
    };
    const length<R> at_nut = left(length<R>()), at_end = left(end);
    std::vector<basic_profile_mark<R>> marks;
    if (!off.shape.empty() || !b.thickness_off_line.empty()) {
        std::vector<length<R>> places{length<R>(), end};
        for (marks_of list : {marks_of(&b.thickness_off_line), marks_of(&off.shape)}) {
            for (const auto& m : *list) {
                if (one_answer(number<R>(0) < m.x.value()) && one_answer(m.x.value() < end.value())) {
                    places.push_back(m.x);
                }
            }
        }
        in_order(places);
        for (const length<R>& x : places) {
            const length<R> straight = at_nut + (at_end - at_nut) * R(ratio<unit::length, R>(x, end));
            marks.push_back({.x = x, .z = left(x) - straight});
        }
    }
    b.thickness = at_nut;
    b.thickness_at_end = at_end;
    b.thickness_off_line = std::move(marks);
}

/// Measures the posts anew where the edges stood apart and no longer do: the head was turned with them. Each post stays
/// where it was in space.
template <class R>
void keep_posts(basic_instrument<R>& i, const basic_removal<R>& off) {
    if (off.edges_apart.empty()) { return; }
    const R c = cos(i.headstock.pitch), s = sin(i.headstock.pitch);
    for (auto& post : i.posts) {
        const length<R> rise = kernel::tilt_removal<R>(off, length<R>(), length<R>(post.across));
        post.height = post.height + rise * c;
        post.along = post.along - rise * s;
    }
}

/// Lays the frame on the new line: everything that the sanding left in place is measured from the board's new surface.
template <class R>
void follow_surface(basic_strung_instrument<R>& on, const basic_removal<R>& off) {
    auto& i = on.instrument;
    const auto centre = [&](const length<R>& x) { return kernel::centre_removal(off, x); };
    const auto y_nut = kernel::places_at_nut(on);
    std::vector<field<length<R>>> slots;
    const board_lines<R> lines(i);
    for (std::size_t k = 0; k < y_nut.size(); ++k) {
        const auto* own = own_nut_of(i, k);
        const length<R> x_nut = own ? fret_place(i, own->fret) : lines.fanned() ? lines.fret(0).at(y_nut[k]) : length<R>();
        slots.push_back(i.nut.slot_height(k) + kernel::removal_at<R>(off, x_nut, y_nut[k]));
    }
    i.nut.slot_heights = slots;
    keep_posts(i, off);

    i.neck.depth_at_nut = i.neck.depth_at_nut - centre(length<R>());
    i.neck.depth_at_joint = i.neck.depth_at_joint - centre(joint_place(i));
    thin_board(i.board, off);
    i.board.surface = off.wanted;
    if (i.neck.rod) {
        // A rod is told by its ends and its middle. Each comes nearer to the top by what was taken off over it.
        auto& rod = *i.neck.rod;
        const R half = number<R>(0.5L);
        const length<R> ends = (centre(length<R>(rod.x_from)) + centre(length<R>(rod.x_to))) * half;
        const length<R> middle = centre(length<R>((rod.x_from + rod.x_to) * half));
        rod.z_ends = rod.z_ends + ends;
        rod.dip = rod.dip + ends - middle;
    }
    for (auto& in : i.neck.inserts) {
        in.top = in.top + (centre(length<R>(in.x_from)) + centre(length<R>(in.x_to))) * number<R>(0.5L);
    }
    if (i.neck.slots) {
        // The slots become shallower by the mean of what came off over the neck. Their depth stays at least 0.01 mm.
        auto& in_board = *i.neck.slots;
        const length<R> off_neck = (centre(length<R>()) + centre(joint_place(i))) * number<R>(0.5L);
        in_board.depth = max<unit::length, R>(in_board.depth - off_neck, length<R>::from_value(number<R>(1e-5L)));
    }
    // Slope of the board's new line against the old one: it falls toward the bridge where more came off there.
    const R fall = ratio<unit::length, R>(off.at_end - off.at_nut, off.board_length);
    i.headstock.face_drop = i.headstock.face_drop - centre(length<R>(-i.headstock.face_start));
    const auto turned = angle<R>::from_value(atan2(fall, number<R>(1)));
    i.headstock.pitch = i.headstock.pitch + turned;
    turn_line_over_top(i, angle<R>(-turned));
    const length<R> line_x = line_place(i);
    i.saddle.board_line = i.saddle.board_line - kernel::line_removal(off, line_x);
    if (!lines.fanned()) { return; }
    // Heights are told from a level along the board's line, and a fan's saddles lie far apart along it. What a setback
    // makes of that (some hundredths of a millimetre) is left out, as for square frets.
    const auto x = line_under_strings(on);
    const auto over = [&](field<length<R>>& height, const length<R>& at) {
        height = height + kernel::line_removal(off, at) - kernel::line_removal(off, line_x);
    };
    if (i.saddle.single.empty()) {
        over(i.saddle.height_bass, x.front());
        over(i.saddle.height_treble, x.back());
    }
    for (std::size_t k = 0; k < i.saddle.single.size(); ++k) {
        auto& one = i.saddle.single[k];
        over(one.height, x[k]);
        if (one.lowest) { over(*one.lowest, x[k]); }
        if (one.highest) { over(*one.highest, x[k]); }
    }
}

} // namespace kernel

/// The instrument once its board is sanded from its found arc to that of `off`. Board and neck are thinner. Nut slots and
/// saddle are higher over the board by what came off. The rod is nearer its surface, the head's face less far below it,
/// and the board's line passes the saddle lower. Strings and frets stay as they are.
/// @param off from `least_removal` or `plan_reradius` of this board; its shape, where it has one, includes the neck's set
/// @param slack_top the new set: heights of the slack board off its new line. Left out where `off` has no shape: the old
/// set then stays in the board
/// @throws invalid_input where the removal belongs to another board or would leave an instrument that is not valid
template <class R>
[[nodiscard]] basic_strung_instrument<R>
after_sanding(basic_strung_instrument<R> on, const basic_removal<R>& off,
              const std::type_identity_t<std::vector<basic_profile_mark<R>>>& slack_top = {}) {
    require_valid(on);
    require_that(in_all_lanes(off.board_length.value() == on.instrument.board.board_length.value()), "removal.board_length",
                 "must be that of the board");
    require_that(!off.shape.empty() || slack_top.empty(), "slack_top",
                 "must be left out where the board is sanded along its old line: its set stays in it");
    kernel::follow_surface(on, off);
    if (!off.shape.empty()) {
        on.instrument.neck.set = slack_top;
        on.instrument.neck.set_bass.clear();
        on.instrument.neck.set_treble.clear();
    }
    require_valid(on);
    return on;
}

/// Height over the bare board of something that stays on the body at `x`, after the board is sanded; `z` is its height
/// before.
template <class R>
[[nodiscard]] length<R> height_after_sanding(const basic_removal<R>& off, param<length<R>> x, param<length<R>> z) {
    require("removal.board_length", off.board_length, more_than(0 * units::mm));
    require("x", x, any_finite<unit::length>());
    require("z", z, any_finite<unit::length>());
    return z + kernel::line_removal<R>(off, x);
}

/// The instrument with new, unworn frets. Its slots are made at least as deep as the new tangs.
template <class R>
[[nodiscard]] basic_strung_instrument<R> after_refret(basic_strung_instrument<R> on,
                                                      const std::type_identity_t<basic_fret_wire<R>>& wire) {
    require_valid(wire, "frets.wire");
    on.instrument.frets.wire = wire;
    on.instrument.frets.wear.clear();
    on.instrument.frets.wear_bass.clear();
    on.instrument.frets.wear_treble.clear();
    on.instrument.frets.zero_crown.reset();
    if (auto& slots = on.instrument.neck.slots; slots && wire.tang_depth) {
        slots->depth = max<unit::length, R>(slots->depth, *wire.tang_depth);
    }
    return on;
}

/// The instrument with `cuts` filed off its frets, first fret first.
/// @throws invalid_input where a cut is negative or takes a whole crown
template <class R>
[[nodiscard]] basic_strung_instrument<R> after_levelling(basic_strung_instrument<R> on,
                                                         std::type_identity_t<std::span<const length<R>>> cuts) {
    auto& worn = on.instrument.frets;
    if (worn.told_by_ends()) { return after_levelling<R>(std::move(on), cuts, cuts); }
    const auto count = static_cast<std::size_t>(on.instrument.board.scale.frets);
    require_that(cuts.size() == count, "cuts", "must be one for each fret");
    worn.wear.resize(std::max(worn.wear.size(), count), length<R>());
    for (std::size_t n = 0; n < count; ++n) {
        require(messages::path_of("cuts", n), cuts[n], at_least(0 * units::mm));
        worn.wear[n] = worn.wear[n] + cuts[n];
    }
    require_valid(worn, "frets");
    return on;
}
/// The same with one cut at the bass end and one at the treble end of each fret, at the board's edges, and straight
/// between them.
/// @throws invalid_input where a cut is negative or takes a whole crown
template <class R>
[[nodiscard]] basic_strung_instrument<R> after_levelling(basic_strung_instrument<R> on,
                                                         std::type_identity_t<std::span<const length<R>>> bass_cuts,
                                                         std::type_identity_t<std::span<const length<R>>> treble_cuts) {
    auto& worn = on.instrument.frets;
    const auto count = static_cast<std::size_t>(on.instrument.board.scale.frets);
    const auto file = [&](std::string_view name, std::span<const length<R>> cuts, std::vector<field<length<R>>> end) {
        require_that(cuts.size() == count, name, "must be one for each fret");
        end.resize(std::max(end.size(), count), length<R>());
        for (std::size_t n = 0; n < count; ++n) {
            require(messages::path_of(name, n), cuts[n], at_least(0 * units::mm));
            end[n] = end[n] + cuts[n];
        }
        return end;
    };
    const bool by_ends = worn.told_by_ends();
    auto bass = file("bass_cuts", bass_cuts, by_ends ? worn.wear_bass : worn.wear);
    worn.wear_treble = file("treble_cuts", treble_cuts, by_ends ? worn.wear_treble : worn.wear);
    worn.wear_bass = std::move(bass);
    worn.wear.clear();
    require_valid(worn, "frets");
    return on;
}

} // namespace tautline
