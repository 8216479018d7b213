#pragma once
/// @file
/// Re-radius plan: before any sanding, what it takes off and what follows for slots, binding, inlay, nut and bridge.

#include "fret_slot.hpp"
#include "removal.hpp"
#include "reradius_caution.hpp"
#include "string_path.hpp"

namespace tautline {

/// A board, the arc that is wanted, and what is glued and cut into it.
template <class R = double>
struct basic_reradius {
    using real = R;
    basic_board<R> board;      ///< as found
    basic_surface<R> wanted{}; ///< the arc it is to get
    /// Least taken off everywhere, to clean up wear and chatter.
    field<length<R>> allowance = length<R>();
    /// Removal on the centre line chosen by hand instead of the least that cleans up; both or neither.
    std::optional<field<length<R>>> chosen_at_nut{};
    std::optional<field<length<R>>> chosen_at_end{}; ///< on the centre line at the end of the board
    /// How the board's centre line stands while it is sanded, and the hollow wanted, as in `removal.hpp`; empty: straight.
    std::vector<basic_profile_mark<R>> shape{};
    /// Strings, bass first.
    std::vector<basic_string_path<R>> paths{};
    /// The fret where the action is to stay what it is.
    int action_fret = 12;
    basic_slot<R> slot; ///< the slots as found
    /// The wire that goes in afterwards, and the room under its tang.
    basic_fret_wire<R> wire;
    field<length<R>> slot_clearance = length<R>(); ///< room to leave under the tang
    /// Height of the binding down the side of the board, from the edge of the surface; and how thick it is, where slots
    /// stop.
    std::optional<field<length<R>>> binding_height{};
    field<length<R>> binding_thickness = length<R>(); ///< across the board; slots end before it
    field<length<R>> least_binding = length<R>();     ///< height of binding that must stay
    /// Least height of the board at its edge.
    field<length<R>> least_edge = length<R>();
    /// Thickness of dots or inlay on the centre line between frets, and how much must stay.
    std::optional<field<length<R>>> inlay_thickness{};
    field<length<R>> least_inlay = length<R>(); ///< thickness of inlay that must stay

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto small = between(0 * units::mm, 30 * units::mm);
        visit("board", self.board...);
        visit("wanted", self.wanted...);
        visit("allowance", between(0 * units::mm, 10 * units::mm).fair_default("the least that makes the arc"),
              self.allowance...);
        visit("chosen_at_nut", small, self.chosen_at_nut...);
        visit("chosen_at_end", small, self.chosen_at_end...);
        visit("shape", self.shape...);
        visit("paths", self.paths...);
        visit("action_fret", between(1, 240).fair_default("where action is mostly told"), self.action_fret...);
        visit("slot", self.slot...);
        visit("wire", self.wire...);
        visit("slot_clearance", small.fair_default("the tang may stand on the floor"), self.slot_clearance...);
        visit("binding_height", between(0.1 * units::mm, 30 * units::mm), self.binding_height...);
        visit("binding_thickness", small.fair_default("no binding"), self.binding_thickness...);
        visit("least_binding", small.fair_default("no least is asked for"), self.least_binding...);
        visit("least_edge", small.fair_default("no least is asked for"), self.least_edge...);
        visit("inlay_thickness", between(0.01 * units::mm, 30 * units::mm), self.inlay_thickness...);
        visit("least_inlay", small.fair_default("no least is asked for"), self.least_inlay...);
    }
    template <class Report>
    void rules(Report&& report) const {
        auto after = board;
        after.surface = wanted;
        for (const auto& p : validate(after)) {
            // "surface.radius" of the board as it will be is what was given as wanted.
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

/// What happens at one fret (0: at the nut).
template <class R = double>
struct basic_reradius_row {
    int fret = 0;                              ///< 0: the nut
    length<R> x{};                             ///< from the nut
    length<R> off_centre_line{};               ///< taken off on the centre line
    length<R> off_edge{};                      ///< taken off at the edge
    std::vector<length<R>> off_under_string{}; ///< bass first
    length<R> thickness_left{};                ///< on the centre line
    length<R> edge_left{};                     ///< height of the board at its edge
    std::optional<length<R>> binding_left{};   ///< height of binding, where there is one
    length<R> slot_left{};                     ///< at its shallowest place
    length<R> slot_to_deepen{};                ///< at its shallowest place; 0 where it is deep enough
    std::optional<length<R>> inlay_left{};     ///< in the space before this fret
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

template <class R>
[[nodiscard]] basic_reradius_row<R> reradius_row(const basic_reradius<R>& job, const basic_removal<R>& removal, int n) {
    const basic_board<R>& b = job.board;
    const length<R> x = kernel::fret_position(b.scale, n), half = kernel::half_width_at(b, x), middle{};
    const auto off = [&](const length<R>& y) { return kernel::removal_at(removal, x, y); };
    basic_reradius_row<R> row{.fret = n, .x = x, .off_centre_line = off(middle), .off_edge = off(half)};
    for (const auto& p : job.paths) { row.off_under_string.push_back(off(kernel::y_at(p, x))); }
    row.thickness_left = kernel::thickness_at(b, x) - row.off_centre_line;
    row.edge_left = row.thickness_left + kernel::surface_height(job.wanted, x, half);
    if (job.binding_height) { row.binding_left = *job.binding_height - row.off_edge; }
    // Depth grows or falls steadily from the centre out: one of its ends is the shallowest.
    const length<R> slot_end = half - job.binding_thickness;
    const auto depth = [&](const length<R>& y) { return kernel::slot_depth(job.slot, b.surface, x, y, off(y)); };
    row.slot_left = min(depth(middle), depth(slot_end));
    row.slot_to_deepen = max(length<R>(), *job.wire.tang_depth + job.slot_clearance - row.slot_left);
    if (job.inlay_thickness && n > 0) {
        const length<R> between_frets = (kernel::fret_position(b.scale, n - 1) + x) / 2;
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
    // A removal that is zero by design may come out a rounding below it.
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

/// Plans a change of arc. Throws on bad input, also when a removal chosen by hand leaves the wanted surface above the board
/// everywhere; where it does so in places only, the plan says `not_cleaned_up` there.
template <class R = double>
[[nodiscard]] basic_reradius_plan<R> plan_reradius(const basic_reradius<R>& job) {
    require_valid(job, "reradius");
    kernel::require_one_scale(job.board.scale, "reradius.board.scale.fan");
    const basic_board<R>& b = job.board;
    basic_reradius_plan<R> plan;
    plan.removal = kernel::least_removal<R>(b, job.wanted, job.allowance, job.shape);
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
                            kernel::surface_height(job.wanted, end, kernel::half_width_at(b, end));

    const length<R> action_at = kernel::fret_position(b.scale, job.action_fret);
    for (const auto& p : job.paths) {
        const length<R> at_nut = kernel::removal_at(plan.removal, length<R>(p.x_at_nut), length<R>(p.y_at_nut));
        const length<R> at_action = kernel::removal_at(plan.removal, action_at, kernel::y_at(p, action_at));
        plan.nut_slot_drop.push_back(at_nut);
        plan.saddle_drop.push_back(saddle_drop_keeping_action(at_action, at_nut, length<R>(action_at - p.x_at_nut),
                                                              length<R>(p.x_at_saddle - p.x_at_nut)));
    }
    return plan;
}

} // namespace tautline
