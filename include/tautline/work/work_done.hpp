#pragma once
/// @file
/// The outcome of the work on board and frets: the instrument after it, what sanding takes off and endangers, how new
/// wire fits, and what a file takes off.

#include "../board/levelling_plan.hpp"
#include "../board/reradius.hpp"
#include "after_work.hpp"
#include "bench_work.hpp"

namespace tautline {

/// One way of levelling: how much metal comes off, and how many frets are left too low.
template <class R = double>
struct basic_levelling_way {
    using real = R;
    std::vector<length<R>> cuts{}; ///< off each fret, first fret first; on the centre line where the ends differ
    /// Off the bass end of each fret, on fanned frets and where the edges of board or frets differ; else empty.
    std::vector<length<R>> bass_cuts{};
    std::vector<length<R>> treble_cuts{}; ///< off the treble end of each fret, likewise
    length<R> total{};                    ///< sum over all crests
    int too_low = 0;                      ///< number of frets left with too little crown
};
using levelling_way = basic_levelling_way<double>;

/// Frets filed level: in the way that was said, and what the other ways of holding the neck would take off.
template <class R = double>
struct basic_level_choice {
    using real = R;
    neck_held held = neck_held::not_said; ///< how the neck is held
    length<R> hollow{};                   ///< wanted of the crests on the neck as it is held
    basic_levelling_way<R> slack{};       ///< with the neck free, strings and rod slack
    basic_levelling_way<R> at_pitch{};    ///< with the neck held in the shape that the strings gave it as found
    basic_levelling_way<R> will_be{};     ///< with the neck held in the shape that the planned strings will give it

    /// The way of levelling for the neck as it is held.
    [[nodiscard]] const basic_levelling_way<R>& way() const {
        return held == neck_held::slack ? slack : held == neck_held::as_at_pitch ? at_pitch : will_be;
    }
    /// Whether the file would leave a fret too low. New frets are then proposed.
    [[nodiscard]] bool refret() const { return way().too_low > 0; }
};
using level_choice = basic_level_choice<double>;

/// The thinnest place of a sanded board.
template <class R = double>
struct basic_thinnest {
    using real = R;
    length<R> x{};                          ///< place from the nut
    length<R> left{};                       ///< thickness of the board left there, on the centre line
    length<R> least{};                      ///< thickness that must be left
    length<R> edge{};                       ///< least height left at the board's edge
    std::optional<length<R>> bass_edge{};   ///< for a board whose edges stood apart: least height left at its bass edge
    std::optional<length<R>> treble_edge{}; ///< least height left at its treble edge, likewise
    /// Whether enough thickness is left.
    [[nodiscard]] auto enough() const { return least.value() <= left.value(); }
};
using thinnest = basic_thinnest<double>;

/// Least thickness that any board must keep on its centre line; common practice, no source.
inline constexpr long double least_board_thickness_mm = 2;

/// The outcome of the work.
template <class R = double>
struct basic_work_done {
    using real = R;
    basic_strung_instrument<R> after;                ///< the instrument after the work
    std::optional<basic_removal<R>> removal{};       ///< what sanding took off
    std::optional<basic_reradius_plan<R>> sanding{}; ///< slot by slot; given where the slots were measured
    std::optional<basic_thinnest<R>> thinnest{};     ///< where the sanded board is thinnest
    neck_held held = neck_held::not_said;            ///< how the neck was held while it was sanded
    length<R> hollow{};                              ///< hollow sanded into the board
    length<R> line_lowered{};               ///< how far sanding lowers the board's line over the body at the saddle
    length<R> held_rise{};                  ///< rise of the nut by the jig, over its slack place, while it was sanded
    bool new_frets = false;                 ///< whether new frets went in
    std::optional<basic_tang_fit<R>> fit{}; ///< of new wire; given where the slots were measured
    std::optional<basic_level_choice<R>> levelling{}; ///< given where frets were levelled
};
using work_done = basic_work_done<double>;

/// The numbers of a work done, by name, for steps and sheets. A number is absent where no such work is planned.
template <class R = double>
struct basic_work_numbers {
    using real = R;
    std::optional<length<R>> off_centre_at_nut{}; ///< sanded off on the centre line at the nut
    std::optional<length<R>> off_centre_at_end{}; ///< the same at the end of the board
    std::optional<length<R>> off_centre_most{};   ///< the same where most comes off
    std::optional<length<R>> thinnest{};          ///< least thickness of the board left on the centre line
    std::optional<length<R>> thickness_at_nut{};  ///< of the board, left on the centre line at the nut
    std::optional<length<R>> thickness_at_end{};  ///< the same at the end of the board
    std::optional<length<R>> off_bass_most{};     ///< most that is sanded off the bass edge, where the edges stood apart
    std::optional<length<R>> off_treble_most{};   ///< most that is sanded off the treble edge, likewise
    std::optional<length<R>> bass_edge_left{};    ///< least height of the board left at its bass edge
    std::optional<length<R>> treble_edge_left{};  ///< least height of the board left at its treble edge
    std::optional<length<R>> slot_needed{};       ///< depth of slot that the wire needs
    std::optional<length<R>> slot_to_deepen{};    ///< how much the fret's slot that lacks most must be deepened
    std::optional<length<R>> slot_bass_left{};    ///< least depth left at the slots' bass ends, where the ends differ
    std::optional<length<R>> slot_treble_left{};  ///< least depth left at their treble ends
    std::optional<length<R>> tang_interference{}; ///< of new wire in old slots
    std::optional<length<R>> level_slack{};       ///< metal off all crowns together, with the neck slack
    std::optional<length<R>> level_at_pitch{};    ///< the same, with the neck held as found at pitch
    std::optional<length<R>> level_will_be{};     ///< the same, with the neck held as it will be
    std::vector<length<R>> fret_cuts{};           ///< off each fret, first fret first
    std::vector<length<R>> fret_cuts_bass{};      ///< off the bass end of each fret, where the ends differ
    std::vector<length<R>> fret_cuts_treble{};    ///< off the treble end of each fret, likewise

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("off_centre_at_nut", self.off_centre_at_nut...);
        visit("off_centre_at_end", self.off_centre_at_end...);
        visit("off_centre_most", self.off_centre_most...);
        visit("thinnest", self.thinnest...);
        visit("thickness_at_nut", self.thickness_at_nut...);
        visit("thickness_at_end", self.thickness_at_end...);
        visit("off_bass_most", self.off_bass_most...);
        visit("off_treble_most", self.off_treble_most...);
        visit("bass_edge_left", self.bass_edge_left...);
        visit("treble_edge_left", self.treble_edge_left...);
        visit("slot_needed", self.slot_needed...);
        visit("slot_to_deepen", self.slot_to_deepen...);
        visit("slot_bass_left", self.slot_bass_left...);
        visit("slot_treble_left", self.slot_treble_left...);
        visit("tang_interference", self.tang_interference...);
        visit("level_slack", self.level_slack...);
        visit("level_at_pitch", self.level_at_pitch...);
        visit("level_will_be", self.level_will_be...);
        visit("fret_cuts", self.fret_cuts...);
        visit("fret_cuts_bass", self.fret_cuts_bass...);
        visit("fret_cuts_treble", self.fret_cuts_treble...);
    }
};
using work_numbers = basic_work_numbers<double>;

namespace kernel {

/// Places at which the removal along an edge may be greatest or least: the ends of the board, and the marks of its shape.
template <class R>
[[nodiscard]] std::vector<length<R>> places_to_look(const basic_removal<R>& off) {
    const length<R> end = off.board_length;
    std::vector<length<R>> places{length<R>(), end};
    for (const auto& m : off.shape) {
        if (one_answer(m.x.value() < end.value())) { places.push_back(m.x); }
    }
    return places;
}

/// Sets what comes off the edges of a board whose edges stood apart, and what is left there.
template <class R>
void tell_edges(const basic_work_done<R>& done, basic_work_numbers<R>& n) {
    const auto& off = *done.removal;
    if (off.edges_apart.empty()) { return; }
    const auto most_at = [&](const R& side) {
        std::optional<length<R>> most;
        for (const length<R>& x : places_to_look(off)) {
            const length<R> here =
                kernel::removal_at<R>(off, x, length<R>(half_width_at(done.after.instrument.board, x) * side));
            most = most ? max(*most, here) : here;
        }
        return most;
    };
    n.off_bass_most = most_at(number<R>(-1));
    n.off_treble_most = most_at(number<R>(1));
    n.bass_edge_left = done.thinnest->bass_edge;
    n.treble_edge_left = done.thinnest->treble_edge;
}

} // namespace kernel

/// The numbers of a work done.
template <class R>
[[nodiscard]] basic_work_numbers<R> numbers_of(const basic_work_done<R>& done) {
    basic_work_numbers<R> n;
    if (done.removal) {
        const auto& sanded = done.after.instrument.board;
        const auto off = [&](const length<R>& x) { return length<R>(kernel::centre_removal(*done.removal, x)); };
        n.off_centre_at_nut = off(length<R>());
        n.off_centre_at_end = off(length<R>(sanded.board_length));
        n.off_centre_most = max(*n.off_centre_at_nut, *n.off_centre_at_end);
        for (const auto& m : done.removal->shape) {
            if (in_all_lanes(m.x.value() < sanded.board_length.value())) {
                n.off_centre_most = max(*n.off_centre_most, off(length<R>(m.x)));
            }
        }
        n.thinnest = done.thinnest->left;
        n.thickness_at_nut = sanded.thickness;
        n.thickness_at_end = kernel::thickness_at(sanded, length<R>(sanded.board_length));
        kernel::tell_edges(done, n);
    }
    if (done.sanding) {
        n.slot_needed = done.sanding->needed_slot;
        length<R> most{};
        for (const auto& row : done.sanding->rows) {
            if (row.fret > 0) { most = max(most, row.slot_to_deepen); }
        }
        n.slot_to_deepen = most;
        for (const auto& row : done.sanding->rows) {
            if (row.fret == 0 || !row.ends) { continue; }
            n.slot_bass_left = n.slot_bass_left ? min(*n.slot_bass_left, row.ends->slot_bass) : row.ends->slot_bass;
            n.slot_treble_left =
                n.slot_treble_left ? min(*n.slot_treble_left, row.ends->slot_treble) : row.ends->slot_treble;
        }
    }
    if (done.fit) { n.tang_interference = done.fit->tang_interference; }
    if (done.levelling) {
        const auto& c = *done.levelling;
        n.level_slack = c.slack.total;
        n.level_at_pitch = c.at_pitch.total;
        n.level_will_be = c.will_be.total;
        n.fret_cuts = c.way().cuts;
        n.fret_cuts_bass = c.way().bass_cuts;
        n.fret_cuts_treble = c.way().treble_cuts;
    }
    return n;
}

} // namespace tautline
