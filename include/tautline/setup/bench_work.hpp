#pragma once
/// @file
/// The work on board and frets that a job plans, done on paper: sanding with what it threatens, new wire and how it sits,
/// or a levelling with the choice between file and new frets.

#include "../board/levelling_plan.hpp"
#include "../board/reradius.hpp"
#include "work.hpp"

namespace tautline {

/// What sanding and fretting must know of a board beyond its outline.
template <class R = double>
struct basic_board_details {
    using real = R;
    std::optional<basic_slot<R>> slot{};               ///< as they are in the board
    std::optional<field<length<R>>> binding_height{};  ///< down the side, from the edge of the surface
    field<length<R>> binding_thickness{};              ///< slots stop before it
    std::optional<field<length<R>>> inlay_thickness{}; ///< of dots on the centre line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("slot", self.slot...);
        visit("binding_height", more_than_up_to(0 * units::mm, 30 * units::mm), self.binding_height...);
        visit("binding_thickness", between(0 * units::mm, 30 * units::mm), self.binding_thickness...);
        visit("inlay_thickness", more_than_up_to(0 * units::mm, 30 * units::mm), self.inlay_thickness...);
    }
};
using board_details = basic_board_details<double>;

/// A new arc for a board, sanded along a straight line, with the least that must be left.
template <class R = double>
struct basic_sanding {
    using real = R;
    basic_surface<R> surface{};   ///< no radius: flat
    field<length<R>> allowance{}; ///< least taken off everywhere
    field<length<R>> slot_clearance{
        length<R>::from_value(number<R>(3e-4L))};                         ///< under the tang; common practice, no source
    field<length<R>> least_edge{length<R>::from_value(number<R>(2e-3L))}; ///< of the board; common practice, no source
    field<length<R>> least_binding{};                                     ///< height of binding that must stay
    field<length<R>> least_inlay{};                                       ///< thickness of inlay that must stay

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto small = between(0 * units::mm, 30 * units::mm);
        basic_surface<R>::describe(visit, self.surface...);
        visit("allowance", between(0 * units::mm, 10 * units::mm), self.allowance...);
        visit("slot_clearance", small, self.slot_clearance...);
        visit("least_edge", small, self.least_edge...);
        visit("least_binding", small, self.least_binding...);
        visit("least_inlay", small, self.least_inlay...);
    }
    template <class Report>
    void rules(Report&& report) const {
        surface.rules(report);
    }
};
using sanding = basic_sanding<double>;

/// Frets to be filed level.
template <class R = double>
struct basic_fret_levelling {
    using real = R;
    field<length<R>> least_crown{length<R>::from_value(number<R>(5e-4L))}; ///< a fret left with less is to be replaced

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("least_crown", between(0 * units::mm, 10 * units::mm), self.least_crown...);
    }
};
using fret_levelling = basic_fret_levelling<double>;

/// The work; each part may be left out.
template <class R = double>
struct basic_bench_work {
    using real = R;
    std::optional<basic_sanding<R>> sanding{};          ///< the board's new arc
    std::optional<basic_fret_wire<R>> wire{};           ///< new frets
    std::optional<basic_fret_levelling<R>> levelling{}; ///< of the frets that are there
    std::optional<basic_stringing<R>> strings{};        ///< a new set

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("sanding", self.sanding...);
        visit("wire", self.wire...);
        visit("levelling", self.levelling...);
        visit("strings", self.strings...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (wire && levelling) { report("levelling", "must be left out where new frets go in"); }
    }
};
using bench_work = basic_bench_work<double>;

/// How a levelling goes: metal off all crests together, and how many frets it leaves too low.
template <class R = double>
struct basic_levelling_way {
    using real = R;
    std::vector<length<R>> cuts{}; ///< first fret first
    length<R> total{};             ///< off all crests together
    int too_low = 0;               ///< frets left with too little crown
};

/// What is best done with worn frets. The two ways differ by the shape that neck and strings give the crests; the one that
/// takes less metal is proposed, and new frets where either leaves one too low (common practice, no source).
enum class fret_choice { level_slack, level_under_load, refret };

/// Frets filed level, both ways.
template <class R = double>
struct basic_level_choice {
    using real = R;
    fret_choice choice{};                ///< what is proposed
    basic_levelling_way<R> slack{};      ///< the neck unloaded, its own hollow kept
    basic_levelling_way<R> under_load{}; ///< the neck as the strings hold it, its hollow kept
};

/// What came of the work.
template <class R = double>
struct basic_work_done {
    using real = R;
    basic_strung_instrument<R> on{};                  ///< the instrument with the work in it
    std::optional<basic_removal<R>> removal{};        ///< what sanding took off
    std::optional<basic_reradius_plan<R>> sanding{};  ///< slot by slot; where the slots were measured
    std::optional<basic_tang_fit<R>> fit{};           ///< of new wire; where the slots were measured
    std::optional<basic_level_choice<R>> levelling{}; ///< where frets were levelled
};
using work_done = basic_work_done<double>;

/// The numbers of a work done, by name: what steps and sheets tell. Absent where no such work is planned.
template <class R = double>
struct basic_work_numbers {
    using real = R;
    std::optional<length<R>> off_centre_at_nut{}; ///< sanded off on the centre line
    std::optional<length<R>> off_centre_at_end{}; ///< the same at the end of the board
    std::optional<length<R>> thickness_at_nut{};  ///< of the board, left on the centre line
    std::optional<length<R>> thickness_at_end{};  ///< the same at the end of the board
    std::optional<length<R>> slot_needed{};       ///< depth that the wire needs
    std::optional<length<R>> slot_to_deepen{};    ///< at the fret that lacks most
    std::optional<length<R>> tang_interference{}; ///< of new wire in old slots
    std::optional<length<R>> level_slack{};       ///< metal off all crowns, neck slack
    std::optional<length<R>> level_under_load{};  ///< the same under load
    std::vector<length<R>> fret_cuts{};           ///< off each fret, first fret first

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("off_centre_at_nut", self.off_centre_at_nut...);
        visit("off_centre_at_end", self.off_centre_at_end...);
        visit("thickness_at_nut", self.thickness_at_nut...);
        visit("thickness_at_end", self.thickness_at_end...);
        visit("slot_needed", self.slot_needed...);
        visit("slot_to_deepen", self.slot_to_deepen...);
        visit("tang_interference", self.tang_interference...);
        visit("level_slack", self.level_slack...);
        visit("level_under_load", self.level_under_load...);
        visit("fret_cuts", self.fret_cuts...);
    }
};
using work_numbers = basic_work_numbers<double>;

namespace kernel {

/// One way of levelling: crests as the neck holds them, `shape` its surface under them.
template <class R>
[[nodiscard]] basic_levelling_way<R> level(const basic_instrument<R>& i, std::span<const length<R>> shape,
                                           const length<R>& hollow, const length<R>& least_crown) {
    basic_levelling<R> job;
    job.scale = i.board.scale;
    job.least_crown = least_crown;
    job.crown = i.frets.wire.crown_height;
    job.relief = max(length<R>(), hollow);
    job.relief_to = std::min(i.neck.joint_fret, i.board.scale.frets);
    basic_crest_line<R> line;
    line.path.x_at_saddle = i.board.scale.scale_length;
    for (int n = 1; n <= i.board.scale.frets; ++n) {
        const length<R> crown = kernel::crown_left(i.frets, n);
        line.crests.push_back({.fret = n, .height = shape[static_cast<std::size_t>(n - 1)] + crown, .crown = crown});
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

/// Both ways, and the better.
template <class R>
[[nodiscard]] basic_level_choice<R> choose_levelling(const basic_strung_instrument<R>& on, const length<R>& least_crown) {
    const auto solved = solve(on.instrument, on.strung);
    std::vector<length<R>> slack, loaded;
    std::vector<basic_crest<R>> points;
    for (std::size_t n = 0; n < solved.fret_x.size(); ++n) {
        slack.push_back(set_height<R>(on.instrument.neck.set, solved.fret_x[n]));
        loaded.push_back(solved.board_points[n].z);
        points.push_back({solved.fret_x[n], slack.back()});
    }
    const auto last = std::min(points.size(), static_cast<std::size_t>(on.instrument.neck.joint_fret)) - 1;
    const length<R> slack_hollow = kernel::relief_between<R>(points, std::size_t{0}, last).gap;
    basic_level_choice<R> c;
    c.slack = level<R>(on.instrument, slack, slack_hollow, least_crown);
    c.under_load = level<R>(on.instrument, loaded, solved.board_relief->gap, least_crown);
    const auto& better = all(c.under_load.total.value() < c.slack.total.value()) ? c.under_load : c.slack;
    c.choice = better.too_low > 0    ? fret_choice::refret
               : &better == &c.slack ? fret_choice::level_slack
                                     : fret_choice::level_under_load;
    return c;
}

template <class R>
[[nodiscard]] basic_reradius<R> reradius_job(const basic_strung_instrument<R>& on, const basic_board_details<R>& details,
                                             const basic_bench_work<R>& work) {
    const auto& s = *work.sanding;
    basic_reradius<R> job;
    job.board = on.instrument.board;
    job.wanted = s.surface;
    job.allowance = s.allowance;
    job.action_fret = std::min(12, on.instrument.board.scale.frets);
    job.slot = *details.slot;
    job.wire = work.wire ? *work.wire : on.instrument.frets.wire;
    job.slot_clearance = s.slot_clearance;
    job.binding_height = details.binding_height;
    job.binding_thickness = details.binding_thickness;
    job.least_binding = s.least_binding;
    job.least_edge = s.least_edge;
    job.inlay_thickness = details.inlay_thickness;
    job.least_inlay = s.least_inlay;
    return job;
}

} // namespace kernel

/// Does the work in the order of the bench: the board, the strings chosen, then new frets or the file. Where the file
/// would leave a fret too low the frets are filed all the same, as far as their crowns allow: see `levelling->choice`.
/// @throws invalid_input for an instrument that cannot be solved, work that contradicts itself, and a levelling on fewer
///         than three frets
template <class R>
[[nodiscard]] basic_work_done<R> do_work(const basic_strung_instrument<R>& found,
                                         const std::type_identity_t<basic_board_details<R>>& details,
                                         const std::type_identity_t<basic_bench_work<R>>& work) {
    require_valid(details, "details");
    require_valid(work, "work");
    basic_work_done<R> done;
    done.on = found;
    if (work.sanding) {
        const auto& s = *work.sanding;
        done.removal = least_removal(found.instrument.board, s.surface, s.allowance);
        if (details.slot && found.instrument.board.scale.frets > 0) {
            done.sanding = plan_reradius(kernel::reradius_job<R>(found, details, work));
        }
        done.on = after_sanding(done.on, *done.removal);
    }
    if (work.strings) { done.on.strung = *work.strings; }
    if (work.wire) {
        done.on = after_refret(done.on, *work.wire);
        if (details.slot) { done.fit = tang_fit(*work.wire, details.slot->width); }
    }
    if (work.levelling) {
        require_that(done.on.instrument.board.scale.frets >= 3 && done.on.instrument.neck.joint_fret >= 3, "levelling",
                     "must be left out where fewer than three frets are to be levelled");
        done.levelling = kernel::choose_levelling<R>(done.on, work.levelling->least_crown);
        const auto& c = *done.levelling;
        auto cuts = c.choice == fret_choice::level_under_load ? c.under_load.cuts : c.slack.cuts;
        for (std::size_t n = 0; n < cuts.size(); ++n) {
            const length<R> crown = kernel::crown_left(done.on.instrument.frets, static_cast<int>(n) + 1);
            cuts[n] = min(cuts[n], length<R>(crown * number<R>(0.99L)));
        }
        done.on = after_levelling<R>(done.on, cuts);
    }
    return done;
}

/// The numbers of a work done.
template <class R>
[[nodiscard]] basic_work_numbers<R> numbers_of(const basic_work_done<R>& done) {
    basic_work_numbers<R> n;
    if (done.removal) {
        const auto& sanded = done.on.instrument.board;
        n.off_centre_at_nut = done.removal->at_nut;
        n.off_centre_at_end = done.removal->at_end;
        n.thickness_at_nut = sanded.thickness;
        n.thickness_at_end = kernel::thickness_at(sanded, length<R>(sanded.board_length));
    }
    if (done.sanding) {
        n.slot_needed = done.sanding->needed_slot;
        length<R> most{};
        for (const auto& row : done.sanding->rows) {
            if (row.fret > 0) { most = max(most, row.slot_to_deepen); }
        }
        n.slot_to_deepen = most;
    }
    if (done.fit) { n.tang_interference = done.fit->tang_interference; }
    if (done.levelling) {
        const auto& c = *done.levelling;
        n.level_slack = c.slack.total;
        n.level_under_load = c.under_load.total;
        n.fret_cuts = c.choice == fret_choice::level_under_load ? c.under_load.cuts : c.slack.cuts;
    }
    return n;
}

} // namespace tautline
