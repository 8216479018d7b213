#pragma once
/// @file
/// Wire for a refret: the length of each piece, how much to buy, how far to pre-bend it.

#include "fan.hpp"
#include "fret_wire.hpp"

namespace tautline {

/// How pieces are cut.
template <class R = double>
struct basic_piece_rule {
    using real = R;
    /// How far the crown stands out over the edge at each end, to be filed off.
    field<length<R>> overhang = 3 * units::mm;
    /// How far the tang is cut back from each edge of the board: the thickness of the binding and a little room. 0
    /// without binding.
    field<length<R>> tang_notch = length<R>();
    /// Length of wire lost at each cut.
    field<length<R>> waste = length<R>();
    /// How much more wire to buy than needed, as a share of it.
    R spare = number<R>(0.1L);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("overhang", between(0 * units::mm, 50 * units::mm).fair_default("common practice"), self.overhang...);
        visit("tang_notch", between(0 * units::mm, 20 * units::mm).fair_default("no binding"), self.tang_notch...);
        visit("waste", between(0 * units::mm, 50 * units::mm).fair_default("cutters take nothing away"), self.waste...);
        visit("spare", between(0, 10).fair_default("common practice"), self.spare...);
    }
};
using piece_rule = basic_piece_rule<double>;

/// One piece of wire.
template <class R = double>
struct basic_fret_piece {
    int fret = 0;      ///< 1 and up
    length<R> crown{}; ///< length of the piece, along the arc, overhang included
    length<R> tang{};  ///< what is left of the tang between the notches
};
using fret_piece = basic_fret_piece<double>;

/// All pieces and the wire for them.
template <class R = double>
struct basic_fret_pieces {
    std::vector<basic_fret_piece<R>> pieces{}; ///< fret 1 first
    length<R> to_buy{};                        ///< sum of the crowns, with what cutting and spare take
};

namespace kernel {

/// Length of the arc over a half width, `asin(k y)/k`; it holds for a flat board too.
template <class R>
[[nodiscard]] constexpr length<R> arc_over(const curvature<R>& k, const length<R>& y) {
    const R u = k * y, one = number<R>(1);
    const auto slight = u * u < number<R>(1e-8L);
    const R safe = select(slight, number<R>(0.5L), u);
    const R full = atan2(safe, sqrt(R(one - safe * safe))) / safe;
    const R series = one + u * u / number<R>(6);
    return y * select(slight, series, full);
}

} // namespace kernel

/// Length of the arc of `radius` across a chord of `width`; 0 <= width <= 2 radius.
[[nodiscard]] constexpr auto arc_length(a_length auto radius, a_length auto width) {
    using R = common_real_t<decltype(radius), decltype(width)>;
    require("radius", over<R>(radius), more_than(0 * units::mm));
    require("width", over<R>(width), at_least(0 * units::mm));
    const curvature<R> k = number<R>(1) / over<R>(radius);
    const length<R> half = over<R>(width) / 2;
    require("half the width over the radius", R(k * half), between(0, 1));
    return length<R>(kernel::arc_over(k, half) * 2);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH> arc_length(Given...)
    TAUTLINE_REFUSED("wanted are two LENGTHS: arc_length(300*mm, 50*mm)");

namespace kernel {

template <class R>
[[nodiscard]] basic_fret_piece<R> fret_piece(const basic_board<R>& b, const basic_piece_rule<R>& rule, int fret,
                                             const basic_fret_line<R>& ends) {
    // The arc is taken at the middle of a slanted fret; the slant stretches it.
    const length<R> middle = (ends.bass.x + ends.treble.x) / 2, half = (ends.treble.y - ends.bass.y) / 2;
    const R lean = kernel::lean(ends), slant = sqrt(R(number<R>(1) + lean * lean));
    const length<R> arc = kernel::arc_over(kernel::arc_curvature(b.surface, middle), half) * R(number<R>(2) * slant);
    return {.fret = fret,
            .crown = arc + rule.overhang * 2 + rule.waste,
            .tang = max(length<R>(), arc - rule.tang_notch * R(number<R>(2) * slant))};
}
template <class R>
void add(basic_fret_pieces<R>& all_pieces, const basic_fret_piece<R>& piece, const basic_piece_rule<R>& rule) {
    all_pieces.pieces.push_back(piece);
    all_pieces.to_buy += piece.crown * R(number<R>(1) + rule.spare);
}

} // namespace kernel

/// Pieces for square frets; a zero fret is counted as fret 0.
template <class R = double>
[[nodiscard]] basic_fret_pieces<R> fret_pieces(const basic_board<R>& b,
                                               const std::type_identity_t<basic_piece_rule<R>>& rule) {
    require_valid(b, "board");
    require_valid(rule, "piece_rule");
    kernel::require_one_scale(b.scale, "board.scale.fan");
    basic_fret_pieces<R> all_pieces;
    for (int n = b.scale.zero_fret ? 0 : 1; n <= b.scale.frets; ++n) {
        const length<R> x = kernel::fret_position(b.scale, n), half = kernel::half_width_at(b, x);
        kernel::add(all_pieces, kernel::fret_piece<R>(b, rule, n, {.bass = {x, -half}, .treble = {x, half}}), rule);
    }
    return all_pieces;
}

/// Pieces for fanned frets. The board gives outline and arc, the fan the frets.
template <class R = double>
[[nodiscard]] basic_fret_pieces<R> fret_pieces(const basic_board<R>& b,
                                               const std::type_identity_t<basic_piece_rule<R>>& rule,
                                               const std::type_identity_t<basic_fan<R>>& f) {
    require_valid(b, "board");
    require_valid(rule, "piece_rule");
    require_valid(f, "fan");
    basic_fret_pieces<R> all_pieces;
    for (int n = b.scale.zero_fret ? 0 : 1; n <= f.frets; ++n) {
        kernel::add(all_pieces, kernel::fret_piece<R>(b, rule, n, fret_ends(fret_line<R>(f, n), b)), rule);
    }
    return all_pieces;
}

/// Radius to bend wire to so that its ends touch the board first. The middle then stands off the board by `lead` (>=
/// 0): over `width` the sagitta of the wire is that of the board plus `lead`. Bending wire tighter than the board is
/// common practice, no source.
[[nodiscard]] constexpr auto prebend_radius(a_curvature auto board_arc, a_length auto width, a_length auto lead) {
    using R = common_real_t<decltype(board_arc), decltype(width), decltype(lead)>;
    require("width", over<R>(width), more_than(0 * units::mm));
    require("lead", over<R>(lead), at_least(0 * units::mm));
    const length<R> half = over<R>(width) / 2;
    require("half the width over the radius", R(over<R>(board_arc) * half), between(0, 1));
    const length<R> height = kernel::arc_drop(over<R>(board_arc), half) + over<R>(lead);
    require("sagitta of the wire", height, more_than(0 * units::mm));
    return radius_from_sagitta(height, over<R>(width));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::CURVATURE, messages::LENGTH, messages::LENGTH> prebend_radius(Given...)
    TAUTLINE_REFUSED("wanted are a CURVATURE, a LENGTH, a LENGTH: prebend_radius(3*per_metre, 50*mm, 0.1*mm)");

} // namespace tautline
