#pragma once
/// @file
/// Re-radius plan: what the sanding would take off, and what that means for slots, binding, inlay, nut and bridge.

#include "fan.hpp"
#include "fret_slot.hpp"
#include "removal.hpp"
#include "reradius_caution.hpp"
#include "string_path.hpp"

namespace tautline {

/// A board, the arc that is wanted, and the slots, binding and inlay of the board.
template <class R = double>
struct basic_reradius {
    using real = R;
    basic_board<R> board;      ///< as found
    basic_surface<R> wanted{}; ///< the arc it is to get
    /// The least to take off everywhere, to clean up wear and tool marks.
    field<length<R>> allowance = length<R>();
    /// Removal on the centre line at the nut, chosen by hand in place of the least that cleans up. Give it for both
    /// ends or for neither.
    std::optional<field<length<R>>> chosen_at_nut{};
    std::optional<field<length<R>>> chosen_at_end{}; ///< the same at the end of the board
    /// How far the board's centre line stands over a straight line while it is sanded, plus the hollow wanted, as in
    /// `removal.hpp`. Empty: straight.
    std::vector<basic_profile_mark<R>> shape{};
    /// How much further the treble edge stands over that line than the bass edge, as in `removal.hpp`. Empty: both
    /// stand alike.
    std::vector<basic_profile_mark<R>> edges_apart{};
    /// The lines of nut and frets across a board with fanned frets, the nut first. Empty: the frets are square.
    std::vector<basic_fret_line<R>> lines{};
    /// Strings, bass first.
    std::vector<basic_string_path<R>> paths{};
    /// The fret at which the action is to be kept.
    int action_fret = 12;
    basic_slot<R> slot; ///< the slots as found
    /// The wire that goes in afterwards.
    basic_fret_wire<R> wire;
    field<length<R>> slot_clearance = length<R>(); ///< room to leave under the tang
    /// Height of the binding down the side of the board, from the edge of the surface. Absent: no binding.
    std::optional<field<length<R>>> binding_height{};
    field<length<R>> binding_thickness = length<R>(); ///< across the board; slots end before it
    field<length<R>> least_binding = length<R>();     ///< height of binding that must stay
    /// Height that the board must keep at its edge.
    field<length<R>> least_edge = length<R>();
    /// Thickness of dots or inlay on the centre line between frets. Absent: none.
    std::optional<field<length<R>>> inlay_thickness{};
    field<length<R>> least_inlay = length<R>(); ///< thickness of inlay that must stay

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto thin = between(0 * units::mm, 30 * units::mm);
        visit("board", self.board...);
        visit("wanted", self.wanted...);
        visit("allowance", between(0 * units::mm, 10 * units::mm).fair_default("the least that makes the arc"),
              self.allowance...);
        visit("chosen_at_nut", thin, self.chosen_at_nut...);
        visit("chosen_at_end", thin, self.chosen_at_end...);
        visit("shape", self.shape...);
        visit("edges_apart", self.edges_apart...);
        visit("lines", self.lines...);
        visit("paths", self.paths...);
        visit("action_fret", between(1, 240).fair_default("where action is mostly told"), self.action_fret...);
        visit("slot", self.slot...);
        visit("wire", self.wire...);
        visit("slot_clearance", thin.fair_default("the tang may stand on the floor"), self.slot_clearance...);
        visit("binding_height", between(0.1 * units::mm, 30 * units::mm), self.binding_height...);
        visit("binding_thickness", thin.fair_default("no binding"), self.binding_thickness...);
        visit("least_binding", thin.fair_default("no least is asked for"), self.least_binding...);
        visit("least_edge", thin.fair_default("no least is asked for"), self.least_edge...);
        visit("inlay_thickness", between(0.01 * units::mm, 30 * units::mm), self.inlay_thickness...);
        visit("least_inlay", thin.fair_default("no least is asked for"), self.least_inlay...);
    }
    template <class Report>
    void rules(Report&& report) const {
        auto after = board;
        after.surface = wanted;
        for (const auto& p : validate(after)) {
            // A problem with "surface.radius" of the new board is one of the `wanted` arc.
            const bool arc = p.field.rfind("surface", 0) == 0;
            report(arc ? messages::joined({"wanted", std::string_view(p.field).substr(7)})
                       : messages::joined({p.field, " under the wanted surface"}),
                   p.allowed);
        }
        const length<R> thinnest =
            min(length<R>(board.thickness), kernel::thickness_at(board, length<R>(board.board_length)));
        if (!in_all_lanes(is_less<unit::length, R>(slot.depth, thinnest))) {
            report("slot.depth", "must be less than the thickness of the board");
        }
        if (binding_height && !in_all_lanes(binding_height->value() <= thinnest.value())) {
            report("binding_height", "must be at most the thickness of the board");
        }
        if (!in_all_lanes(is_less<unit::length, R>(binding_thickness, board.width_at_nut / 2))) {
            report("binding_thickness", "must be less than half the width of the board");
        }
        if (!wire.tang_depth) { report("wire.tang_depth", "must be given: the slots are to take it"); }
        if (chosen_at_nut.has_value() != chosen_at_end.has_value()) {
            report(chosen_at_nut ? "chosen_at_end" : "chosen_at_nut", "must be given too: both or neither");
        }
        kernel::report_marks(shape, "shape", report);
        kernel::report_marks(edges_apart, "edges_apart", report);
        if (board.scale.fan ? lines.size() != static_cast<std::size_t>(board.scale.frets) + 1 : !lines.empty()) {
            report("lines", board.scale.fan ? "must be one for the nut and each fret of a board whose frets fan out"
                                            : "must be left out on a board of square frets");
        }
        if (action_fret > board.scale.frets) { report("action_fret", "must be one of the board's frets"); }
        for (std::size_t i = 0; i < paths.size(); ++i) {
            const auto on_board = [&](const length<R>& x) {
                return in_all_lanes(abs(kernel::y_at(paths[i], x)).value() <= kernel::half_width_at(board, x).value());
            };
            if (!on_board(length<R>()) || !on_board(board.board_length)) {
                report(messages::path_of("paths", i), "must run over the board from nut to end");
            }
        }
    }
};
using reradius = basic_reradius<double>;

/// What happens at the two ends of a fret where they are not alike, at the board's edges and at the ends of its slot.
template <class R = double>
struct basic_reradius_ends {
    length<R> off_bass{};    ///< taken off at the bass edge, where the fret meets it
    length<R> off_treble{};  ///< taken off at the treble edge
    length<R> left_bass{};   ///< height of the board at its bass edge there
    length<R> left_treble{}; ///< the same at the treble edge
    length<R> slot_bass{};   ///< depth left at the slot's bass end
    length<R> slot_middle{}; ///< depth left on the centre line
    length<R> slot_treble{}; ///< depth left at the slot's treble end
};
using reradius_ends = basic_reradius_ends<double>;

/// What happens at one fret (0: at the nut).
template <class R = double>
struct basic_reradius_row {
    int fret = 0;                                 ///< 0: the nut
    length<R> x{};                                ///< from the nut
    length<R> off_centre_line{};                  ///< taken off on the centre line
    length<R> off_edge{};                         ///< taken off at the edge, the lesser of both edges
    std::vector<length<R>> off_under_string{};    ///< bass first
    length<R> thickness_left{};                   ///< on the centre line
    length<R> edge_left{};                        ///< height of the board at its lower edge
    std::optional<length<R>> binding_left{};      ///< height of the binding, if there is one
    length<R> slot_left{};                        ///< at its shallowest place
    length<R> slot_to_deepen{};                   ///< at its shallowest place; 0 where it is deep enough
    std::optional<length<R>> inlay_left{};        ///< in the space before this fret
    std::optional<basic_reradius_ends<R>> ends{}; ///< on fanned frets, and on a board whose edges stood apart
};
using reradius_row = basic_reradius_row<double>;

/// The plan.
template <class R = double>
struct basic_reradius_plan {
    basic_removal<R> removal;                          ///< what comes off
    length<R> needed_slot{};                           ///< depth of slot that the new wire needs
    std::vector<basic_reradius_row<R>> rows{};         ///< nut, first fret, ... last fret
    length<R> edge_left_at_end{};                      ///< at the end of the board
    volume<R> removed{};                               ///< wood that becomes dust
    std::vector<length<R>> nut_slot_drop{};            ///< how far each nut slot follows to keep its height over the board
    std::vector<length<R>> saddle_drop{};              ///< how far each saddle then comes down to keep the action
    std::vector<basic_reradius_caution<R>> cautions{}; ///< none: nothing runs short
};
using reradius_plan = basic_reradius_plan<double>;

namespace kernel {

/// Fret n across the board, 0 the nut.
template <class R>
[[nodiscard]] basic_fret_line<R> across_board(const basic_reradius<R>& job, int n) {
    if (!job.lines.empty()) { return job.lines[static_cast<std::size_t>(n)]; }
    const length<R> x = kernel::fret_position(job.board.scale, n), half = kernel::half_width_at(job.board, x);
    return {.bass = {x, -half}, .treble = {x, half}};
}
/// x at which fret n crosses the centre line.
template <class R>
[[nodiscard]] length<R> middle_of_fret(const basic_reradius<R>& job, int n) {
    return job.lines.empty() ? kernel::fret_position(job.board.scale, n)
                             : kernel::x_at(kernel::across_board(job, n), length<R>());
}
/// Where a string crosses fret n.
template <class R>
[[nodiscard]] basic_plan_point<R> path_crossing(const basic_reradius<R>& job, int n, const basic_string_path<R>& p) {
    if (!job.lines.empty()) { return kernel::crossing(kernel::across_board(job, n), p); }
    const length<R> x = kernel::fret_position(job.board.scale, n);
    return {x, kernel::y_at(p, x)};
}

/// Fills in the ends of a row that are not alike, and takes the worse of both for the row itself.
template <class R>
void tell_ends(const basic_reradius<R>& job, const basic_removal<R>& removal, basic_reradius_row<R>& row) {
    const basic_board<R>& b = job.board;
    const auto line = kernel::across_board(job, row.fret);
    const auto edges = kernel::ends_inside<R>(line, b, length<R>()),
               slot = kernel::ends_inside<R>(line, b, job.binding_thickness);
    const auto off = [&](const basic_plan_point<R>& p) { return kernel::removal_at(removal, p.x, p.y); };
    const auto left = [&](const basic_plan_point<R>& p) {
        return length<R>(kernel::thickness_at(b, p.x) + kernel::surface_height(b.surface, p.x, p.y) - off(p));
    };
    const auto depth = [&](const basic_plan_point<R>& p) {
        return kernel::slot_depth(job.slot, b.surface, p.x, p.y, off(p));
    };
    auto& e = row.ends.emplace();
    e.off_bass = off(edges.bass);
    e.off_treble = off(edges.treble);
    e.left_bass = left(edges.bass);
    e.left_treble = left(edges.treble);
    e.slot_bass = depth(slot.bass);
    e.slot_middle = depth({row.x, length<R>()});
    e.slot_treble = depth(slot.treble);
    row.off_edge = min(e.off_bass, e.off_treble);
    row.edge_left = min(e.left_bass, e.left_treble);
    if (job.binding_height) { row.binding_left = *job.binding_height - max(e.off_bass, e.off_treble); }
    // The depth may be least between middle and end.
    row.slot_left = min(e.slot_middle, min(e.slot_bass, e.slot_treble));
    constexpr int parts = 32;
    for (int j = 1; j < parts; ++j) {
        const length<R> y = slot.bass.y + (slot.treble.y - slot.bass.y) * number<R>(static_cast<long double>(j) / parts);
        row.slot_left = min(row.slot_left, depth({kernel::x_at(line, y), y}));
    }
}

template <class R>
[[nodiscard]] basic_reradius_row<R> reradius_row(const basic_reradius<R>& job, const basic_removal<R>& removal, int n) {
    const basic_board<R>& b = job.board;
    const length<R> x = kernel::middle_of_fret(job, n), half = kernel::half_width_at(b, x), middle{};
    const auto off = [&](const length<R>& y) { return kernel::removal_at(removal, x, y); };
    basic_reradius_row<R> row{.fret = n, .x = x, .off_centre_line = off(middle), .off_edge = off(half)};
    for (const auto& p : job.paths) {
        const auto at = path_crossing<R>(job, n, p);
        row.off_under_string.push_back(kernel::removal_at(removal, at.x, at.y));
    }
    row.thickness_left = kernel::thickness_at(b, x) - row.off_centre_line;
    row.edge_left = row.thickness_left + kernel::surface_height(job.wanted, x, half);
    if (job.binding_height) { row.binding_left = *job.binding_height - row.off_edge; }
    // The depth grows or falls steadily from the centre to the edge, so it is least at one of these two places.
    const length<R> slot_end = half - job.binding_thickness;
    const auto depth = [&](const length<R>& y) { return kernel::slot_depth(job.slot, b.surface, x, y, off(y)); };
    row.slot_left = min(depth(middle), depth(slot_end));
    if (!job.lines.empty() || !removal.edges_apart.empty()) { tell_ends(job, removal, row); }
    row.slot_to_deepen = max(length<R>(), *job.wire.tang_depth + job.slot_clearance - row.slot_left);
    if (job.inlay_thickness && n > 0) {
        const length<R> between_frets = (kernel::middle_of_fret(job, n - 1) + x) / 2;
        row.inlay_left = *job.inlay_thickness - kernel::centre_removal(removal, between_frets);
    }
    return row;
}

template <class R>
void look_over(std::vector<basic_reradius_caution<R>>& cautions, const basic_reradius<R>& job,
               const basic_reradius_row<R>& row, const length<R>& needed_slot) {
    const auto below = [](const length<R>& q, const length<R>& limit) { return in_any_lane(is_less(q, limit)); };
    const int n = row.fret;
    const length<R> least = min(row.off_centre_line, row.off_edge);
    // Rounding may put a removal that should be 0 just below it.
    if (below(least, length<R>::from_value(number<R>(-1e-9L)))) {
        warn(cautions, reradius_warning::not_cleaned_up, n, least, length<R>());
    }
    if (n > 0 && below(row.slot_left, length<R>())) {
        warn(cautions, reradius_warning::slot_gone, n, row.slot_left, needed_slot);
    } else if (n > 0 && below(row.slot_left, needed_slot)) {
        warn(cautions, reradius_warning::slot_too_shallow, n, row.slot_left, needed_slot);
    }
    if (row.binding_left && below(*row.binding_left, job.least_binding)) {
        warn<R>(cautions, reradius_warning::binding_limit, n, *row.binding_left, job.least_binding);
    }
    if (below(row.edge_left, job.least_edge)) {
        warn<R>(cautions, reradius_warning::edge_limit, n, row.edge_left, job.least_edge);
    }
    if (row.inlay_left && below(*row.inlay_left, job.least_inlay)) {
        warn<R>(cautions, reradius_warning::inlay_limit, n, *row.inlay_left, job.least_inlay);
    }
}

} // namespace kernel

/// Plans a change of arc. Throws `invalid_input` on bad input, and when a removal chosen by hand leaves the wanted
/// surface above the board everywhere. Where it does so in places only, the plan warns of `not_cleaned_up` there.
template <class R = double>
[[nodiscard]] basic_reradius_plan<R> plan_reradius(const basic_reradius<R>& job) {
    require_valid(job, "reradius");
    const basic_board<R>& b = job.board;
    basic_reradius_plan<R> plan;
    const auto at_nut_line = kernel::ends_inside<R>(kernel::across_board(job, 0), b, length<R>());
    plan.removal = kernel::least_removal<R>(b, job.wanted, job.allowance, job.shape, job.edges_apart,
                                            min(length<R>(), min(at_nut_line.bass.x, at_nut_line.treble.x)));
    const length<R> end = b.board_length;
    if (job.chosen_at_nut) {
        plan.removal.at_nut = *job.chosen_at_nut - kernel::profile_height(job.shape, length<R>());
        plan.removal.at_end = *job.chosen_at_end - kernel::profile_height(job.shape, end);
    }
    plan.needed_slot = *job.wire.tang_depth + job.slot_clearance;
    plan.removed = kernel::removed_volume(b, plan.removal);
    require_that(!job.chosen_at_nut || in_any_lane(number<R>(0) < plan.removed.value()), "reradius.chosen_at_nut",
                 "must be more: the wanted surface lies above the board everywhere, so nothing would come off");
    for (int n = 0; n <= b.scale.frets; ++n) {
        plan.rows.push_back(kernel::reradius_row(job, plan.removal, n));
        kernel::look_over(plan.cautions, job, plan.rows.back(), plan.needed_slot);
    }
    plan.edge_left_at_end = kernel::thickness_at(b, end) - kernel::centre_removal(plan.removal, end) +
                            kernel::surface_height(job.wanted, end, kernel::half_width_at(b, end)) -
                            abs(kernel::tilt_removal(plan.removal, end, kernel::half_width_at(b, end)));

    for (const auto& p : job.paths) {
        const length<R> at_nut = kernel::removal_at(plan.removal, length<R>(p.x_at_nut), length<R>(p.y_at_nut));
        const auto action = kernel::path_crossing<R>(job, job.action_fret, p);
        const length<R> action_at = action.x, at_action = kernel::removal_at(plan.removal, action.x, action.y);
        plan.nut_slot_drop.push_back(at_nut);
        plan.saddle_drop.push_back(saddle_drop_keeping_action(at_action, at_nut, length<R>(action_at - p.x_at_nut),
                                                              length<R>(p.x_at_saddle - p.x_at_nut)));
    }
    return plan;
}

} // namespace tautline
