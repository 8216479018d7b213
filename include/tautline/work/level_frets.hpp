#pragma once
/// @file
/// Levelling frets on a neck that is held: along the centre line, or along each edge where the edges differ.

#include "work_done.hpp"

namespace tautline::kernel {

inline constexpr const char* bends_too_far =
    "must be left out on a neck that bends so far: a fret would stand more than 50 mm off its line";

/// Levels frets that are alike from edge to edge. The crests, as the neck holds them under `bow` (null: slack, with
/// nothing that bends it), come down to a straight line with the hollow.
template <class R>
[[nodiscard]] basic_levelling_way<R> level_centre(const basic_instrument<R>& i, const basic_bow<R>* bow,
                                                  const basic_fret_levelling<R>& wanted) {
    basic_levelling<R> job;
    job.scale = i.board.scale;
    job.least_crown = wanted.least_crown;
    job.crown = i.frets.wire.crown_height;
    job.relief = wanted.hollow;
    job.relief_to = std::min(i.neck.joint_fret, i.board.scale.frets);
    basic_crest_line<R> line;
    line.path.x_at_saddle = i.board.scale.scale_length;
    for (int n = 1; n <= i.board.scale.frets; ++n) {
        const length<R> crown = kernel::crown_left(i.frets, n), x = kernel::fret_position(i.board.scale, n);
        const length<R> board =
            kernel::profile_height(i.neck.set, x) + (bow ? load_deflection_at<R>(*bow, x) : length<R>());
        const length<R> stands = board + crown, most = length<R>::from_value(number<R>(0.05L));
        require_that(in_all_lanes(abs(stands).value() <= most.value()), "work.levelling", bends_too_far);
        line.crests.push_back({.fret = n, .height = stands, .crown = crown});
    }
    job.lines.push_back(line);
    const auto plan = plan_levelling(job);
    basic_levelling_way<R> way;
    way.total = plan.total_cut;
    for (const auto& f : plan.frets) {
        way.cuts.push_back(max(length<R>(), f.greatest_cut));
        way.too_low += f.replace ? 1 : 0;
    }
    return way;
}

enum class board_side { bass, treble };

/// One edge of a board whose frets are filed along both edges: its crests, and the frets' places counted from the nut's
/// line there.
template <class R>
[[nodiscard]] basic_levelling<R> edge_to_level(const basic_instrument<R>& i, const basic_bow<R>* bow,
                                               const basic_fret_levelling<R>& wanted, board_side side) {
    const board_lines<R> lines(i);
    const auto end_of = [&](int n) {
        const auto ends = kernel::ends_of_fret(i.board, lines, n);
        return side == board_side::bass ? ends.bass : ends.treble;
    };
    const length<R> nut = end_of(0).x;
    basic_levelling<R> job;
    job.scale.frets = i.board.scale.frets;
    job.least_crown = wanted.least_crown;
    job.crown = i.frets.wire.crown_height;
    job.relief = wanted.hollow;
    job.relief_to = std::min(i.neck.joint_fret, i.board.scale.frets);
    basic_crest_line<R> line;
    for (int n = 1; n <= i.board.scale.frets; ++n) {
        const auto at = end_of(n);
        const length<R> crown = kernel::crown_left(i.frets, n) + kernel::crown_across(i.board, i.frets, n, at.x, at.y);
        const length<R> board = kernel::set_on_centre<R>(i.neck, at.x) + kernel::twist_at<R>(i, at.x, at.y) +
                                (bow ? load_deflection_at<R>(*bow, at.x) : length<R>());
        const length<R> stands = board + crown, most = length<R>::from_value(number<R>(0.05L));
        require_that(in_all_lanes(abs(stands).value() <= most.value()), "work.levelling", bends_too_far);
        line.crests.push_back({.fret = n, .height = stands, .crown = crown});
        job.scale.measured_places.push_back(at.x - nut);
    }
    job.scale.scale_length = length<R>(job.scale.measured_places.back()) * number<R>(2);
    line.path.x_at_saddle = job.scale.scale_length;
    job.lines.push_back(std::move(line));
    return job;
}

/// Levels frets along both edges of their board, each to a straight line with the hollow. Needed on fanned frets, and
/// where the edges of the board or the ends of the frets differ. An evenly twisted board stays twisted.
template <class R>
[[nodiscard]] basic_levelling_way<R> level_edges(const basic_instrument<R>& i, const basic_bow<R>* bow,
                                                 const basic_fret_levelling<R>& wanted) {
    const auto bass = plan_levelling(edge_to_level<R>(i, bow, wanted, board_side::bass));
    const auto treble = plan_levelling(edge_to_level<R>(i, bow, wanted, board_side::treble));
    basic_levelling_way<R> way;
    const R half = number<R>(0.5L);
    way.total = (bass.total_cut + treble.total_cut) * half;
    for (std::size_t n = 0; n < bass.frets.size(); ++n) {
        way.bass_cuts.push_back(max(length<R>(), bass.frets[n].greatest_cut));
        way.treble_cuts.push_back(max(length<R>(), treble.frets[n].greatest_cut));
        way.cuts.push_back((way.bass_cuts.back() + way.treble_cuts.back()) * half);
        way.too_low += bass.frets[n].replace || treble.frets[n].replace ? 1 : 0;
    }
    return way;
}

/// Whether frets must be filed along both edges to come out true.
template <class R>
[[nodiscard]] bool levelled_by_edges(const basic_instrument<R>& i) {
    return i.board.scale.fan || i.neck.told_by_edges() || i.frets.told_by_ends();
}
template <class R>
[[nodiscard]] basic_levelling_way<R> level(const basic_instrument<R>& i, const basic_bow<R>* bow,
                                           const basic_fret_levelling<R>& wanted) {
    return levelled_by_edges(i) ? level_edges<R>(i, bow, wanted) : level_centre<R>(i, bow, wanted);
}

/// The cuts, reduced so that at least a hundredth of each crown is left.
template <class R, class Crown>
[[nodiscard]] std::vector<length<R>> kept_to_crowns(std::vector<length<R>> cuts, Crown&& crown) {
    for (std::size_t n = 0; n < cuts.size(); ++n) {
        cuts[n] = min(cuts[n], length<R>(crown(static_cast<int>(n) + 1) * number<R>(0.99L)));
    }
    return cuts;
}
/// The instrument with its frets filed in one of the ways.
template <class R>
[[nodiscard]] basic_strung_instrument<R> filed(const basic_strung_instrument<R>& on, const basic_levelling_way<R>& way) {
    const auto& f = on.instrument.frets;
    if (way.bass_cuts.empty()) {
        return after_levelling<R>(on, kept_to_crowns<R>(way.cuts, [&](int n) { return kernel::crown_left(f, n); }));
    }
    const bool by_ends = f.told_by_ends();
    const auto left = [&](const std::vector<field<length<R>>>& worn) {
        return [&](int n) { return length<R>(f.wire.crown_height - kernel::worn_off(worn, n)); };
    };
    return after_levelling<R>(on, kept_to_crowns<R>(way.bass_cuts, left(by_ends ? f.wear_bass : f.wear)),
                              kept_to_crowns<R>(way.treble_cuts, left(by_ends ? f.wear_treble : f.wear)));
}

} // namespace tautline::kernel
