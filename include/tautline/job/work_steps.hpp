#pragma once
/// @file
/// The steps of a job that take wood off the board or metal off the frets, or fit new frets.

#include "../core/quantity_text.hpp"
#include "../work/work_done.hpp"
#include "bench_step.hpp"

namespace tautline::kernel {

/// A warning about sanding as a line with its number: what is left at the worst place.
template <class Caution>
[[nodiscard]] step_line warning_line(const Caution& c) {
    const std::string at = fret_or_nut(c.worst_fret);
    switch (c.what) {
    case reradius_warning::slot_too_shallow:
        return {messages::joined({"shallowest slot, at ", at}), c.left, false};
    case reradius_warning::slot_gone:
        return {messages::joined({"slots are sanded away and must be cut anew, most at ", at}), c.left, false};
    case reradius_warning::binding_limit:
        return {messages::joined({"too little binding left, at ", at}), c.left, false};
    case reradius_warning::edge_limit:
        return {messages::joined({"too little height left at the board's edge, at ", at}), c.left, false};
    case reradius_warning::inlay_limit:
        return {messages::joined({"too little inlay left, at ", at}), c.left, false};
    case reradius_warning::not_cleaned_up:
        return {messages::joined({"the old surface stays lower than the new, at ", at, " by"}), -c.left, false};
    }
    return {};
}

/// How the neck is held during the work, as a line of a step.
[[nodiscard]] inline step_line held_line(neck_held held, bool has_rod) {
    switch (held) {
    case neck_held::slack:
        return {messages::joined({"the neck free: no string pulls", has_rod ? ", the rod is slack" : "",
                                  ", nothing under the neck lifts it"}),
                {},
                false};
    case neck_held::as_at_pitch:
        return {messages::joined({"the neck in a jig, brought to the shape that it has at pitch as found",
                                  has_rod ? ", its rod as found" : ""}),
                {},
                false};
    case neck_held::as_it_will_be:
        return {messages::joined({"the neck in a jig, brought to the shape that the planned strings will give it",
                                  has_rod ? ", its rod as it will be set" : ""}),
                {},
                false};
    case neck_held::not_said:
        break;
    }
    return {};
}

/// What a trued board shows at the bench: the light over the hollow while the neck is held, and how it springs when it is
/// let go.
template <class Job>
[[nodiscard]] std::string trued_check(const Job& j, const length<>& hollow) {
    const auto text = [](const length<>& q) { return messages::joined({fixed_text(q, units::mm, 2), " mm"}); };
    const bool straight = !(hollow > 0.005 * units::mm);
    const char* const rod = j.plan.start.instrument.neck.pull_of_rod() != 0 * units::N ? " and its rod loosened" : "";
    const std::string shows = straight
                                  ? messages::joined({"no light from nut to end"})
                                  : messages::joined({"no light but the hollow, ", text(hollow), " midway to the joint"});
    if (j.work.held == neck_held::slack) {
        return messages::joined({"Gauge and straightedge show ", shows, "; the centre line measures what is left above."});
    }
    return messages::joined({"Gauge and straightedge show ", shows, " while the neck is held; let go", rod,
                             ", its nut falls back by ", text(j.work.held_rise),
                             " and the board stands in back-bow until it is strung."});
}

/// Wood that comes off the board at one place, as a line.
[[nodiscard]] inline step_line off_board(std::string where, const length<>& off) {
    return worked({std::move(where), off, false}, worked_as::wood, whole_board, rounded_to::less);
}

/// Adds the wood that comes off the centre line. Where that is no straight run it is told at the frets.
template <class Job>
void add_removal(const Job& j, std::vector<step_line>& lines) {
    const auto& off = *j.work.removal;
    const auto& built = j.work.after.instrument;
    const auto add = [&](std::string where, const length<>& x) {
        lines.push_back(off_board(std::move(where), length<>(kernel::centre_removal(off, x))));
    };
    add("off the centre line at the nut", length<>());
    for (const int n : {1, 3, 5, 7, 9, 12, 15}) {
        if (!off.shape.empty() && n <= built.board.scale.frets) {
            add(messages::joined({"at fret ", n}), kernel::fret_place(built, n));
        }
    }
    add(off.shape.empty() ? "off the centre line at the end" : "at the end", off.board_length);
}

/// Adds the wood that comes off both edges where they stood apart, and what is left of them.
template <class Job>
void add_edges(const Job& j, const work_numbers& numbers, std::vector<step_line>& lines) {
    const auto& off = *j.work.removal;
    if (off.edges_apart.empty()) { return; }
    const auto& built = j.work.after.instrument;
    const auto add = [&](const std::string& where, const length<>& x) {
        const length<> half = kernel::half_width_at(built.board, x);
        lines.push_back(
            off_board(messages::joined({"off the bass edge at ", where}), kernel::removal_at(off, x, length<>(-half))));
        lines.push_back(off_board(messages::joined({"off the treble edge at ", where}), kernel::removal_at(off, x, half)));
    };
    add("the nut", length<>());
    for (const int n : {5, 9, 12}) {
        if (n <= built.board.scale.frets) { add(messages::joined({"fret ", n}), kernel::fret_place(built, n)); }
    }
    add("the end", length<>(off.board_length));
    lines.push_back({"bass edge left where it is least", *numbers.bass_edge_left, false});
    lines.push_back({"treble edge left where it is least", *numbers.treble_edge_left, false});
}

/// Brings the neck to the shape in which it is worked, before any wood comes off.
template <class Job>
void straightening(const Job& j, std::vector<bench_step>& steps) {
    const bool rod = j.work.after.instrument.neck.rod.has_value();
    bench_step s{
        bench_stage::straighten_neck, "Bring the neck to the shape it is sanded in", {held_line(j.work.held, rod)}, "", ""};
    if (j.work.held == neck_held::slack) {
        s.decision =
            "The trade sands a neck free or held in a jig: free, what comes off is what the slack board shows; in a "
            "jig, the board is true once it is strung. The plan says free.";
        s.check = rod ? "The rod's nut turns without load and the neck lies free; it has rested and moves no more."
                      : "The neck lies free; it has rested and moves no more.";
    } else {
        const bool pulls = j.plan.start.instrument.neck.pull_of_rod() != 0 * units::N;
        s.lines.push_back({pulls ? "risen at the nut, over its place with strings slack and rod loose, by"
                                 : "risen at the nut over its slack place by",
                           j.work.held_rise, false});
        s.decision =
            "The trade sands a neck free or held in a jig: free, what comes off is what the slack board shows; in a "
            "jig, the board is true once it is strung. The plan says in a jig.";
        s.check =
            "The nut stands risen as told over its slack place, by a dial or a feeler against the jig; it stays there "
            "under the sanding block's pressure.";
    }
    steps.push_back(s);
}

/// A fret slot may be so much deeper than its tang: a saw is set no closer. Common practice, no source.
inline constexpr length<> slot_depth_room = 0.05 * units::mm;

template <class Job>
void board_steps(const Job& j, std::vector<bench_step>& steps) {
    if (!j.work.removal) { return; }
    const auto& off = *j.work.removal;
    straightening(j, steps);
    bench_step s{bench_stage::sand_board, "Sand the board to its new line and arc", {}, "", ""};
    if (off.wanted.radius) {
        s.lines.push_back({off.wanted.radius_at_end ? "radius at the nut" : "radius", length<>(*off.wanted.radius), false});
    }
    if (off.wanted.radius_at_end) {
        s.lines.push_back({"radius at the far end", length<>(*off.wanted.radius_at_end), false});
    }
    add_removal(j, s.lines);
    const auto numbers = numbers_of(j.work);
    add_edges(j, numbers, s.lines);
    const auto left = [&](const char* where, const length<>& q) {
        s.lines.push_back(worked({where, q, false}, worked_as::wood, whole_board, rounded_to::more));
    };
    left("thickness left at the nut", *numbers.thickness_at_nut);
    left("thickness left at the end", *numbers.thickness_at_end);
    if (const auto& thin = *j.work.thinnest; !thin.enough()) {
        s.lines.push_back({"thickness left where it is least", thin.left, false});
        s.decision = messages::joined(
            {"Not like this: a board needs ", fixed_text(thin.least, units::mm, 1),
             " mm at least, and more than its slots are deep. ", fixed_text(length<>(thin.least - thin.left), units::mm, 2),
             " mm less may come off at its thinnest place: hold the neck otherwise, leave a hollow, ",
             "or have the neck straightened or the board replaced first."});
    }
    if (turns_neck(j.plan) || reset_by_hand(j)) {
        // What the reset is checked by moves with the new surface.
        const auto& planned = j.plan.reset ? j.plan.reset->board_line : j.plan.start.instrument.saddle.board_line;
        s.lines.push_back(worked({messages::joined({"then the board's line over the ", top_word(j.plan.start.instrument),
                                                    " at the saddle, strings slack"}),
                                  length<>(planned), false},
                                 worked_as::height, board_line_path));
    }
    s.check = trued_check(j, j.work.hollow);
    steps.push_back(s);
    if (j.work.sanding && j.work.sanding->rows.size() > 1) {
        bench_step slots{bench_stage::deepen_slots, "See to the fret slots", {}, "", ""};
        const auto depth = [&](const char* what, const length<>& q, rounded_to side, worked_as as = worked_as::wood) {
            step_line l{what, q, false};
            l.told = {as, side, any_quantity(slot_depth_room), {}};
            slots.lines.push_back(std::move(l));
        };
        depth("depth the wire needs", length<>(*numbers.slot_needed), rounded_to::more);
        // As closely as the depth that is left is told: both are to add up.
        depth("deepen by up to", length<>(*numbers.slot_to_deepen), rounded_to::nearest, worked_as::cut);
        if (numbers.slot_bass_left) {
            depth("least depth left at the slots' bass ends", *numbers.slot_bass_left, rounded_to::less);
            depth("least depth left at their treble ends", *numbers.slot_treble_left, rounded_to::less);
        }
        for (const auto& c : j.work.sanding->cautions) { slots.lines.push_back(warning_line(c)); }
        slots.check = "A scrap of the tang goes to the bottom of every slot, also at the edges.";
        steps.push_back(slots);
    }
}

template <class Job>
void fret_steps(const Job& j, std::vector<bench_step>& steps) {
    if (j.work.new_frets) {
        const auto& wire = j.work.after.instrument.frets.wire;
        bench_step s{bench_stage::fit_frets, "Fit the new frets", {}, "", ""};
        s.lines.push_back({"crown over the board", length<>(wire.crown_height), false});
        if (j.work.fit) {
            const length<> over = j.work.fit->tang_interference;
            if (over < 0 * units::mm) {
                s.lines.push_back({"tang narrower than its slot by", -over, false});
            } else {
                s.lines.push_back({"tang wider than its slot by", over, true});
            }
            s.decision = j.work.fit->grip == tang_grip::loose
                             ? "The tang is loose in its slot: glue, fill the slot or take other wire."
                         : j.work.fit->grip == tang_grip::studs
                             ? "The studs hold, the tang has room: the neck stays as it is."
                             : "The tang wedges the slot and bends the neck back: widen the slots or thin the tang unless "
                               "that is wanted.";
        }
        s.check = "Every crown lies on the board along its whole length; a rocker over any three frets is still.";
        steps.push_back(s);
    }
    if (!j.work.levelling) { return; }
    const auto& c = *j.work.levelling;
    const auto& way = c.way();
    bench_step s{bench_stage::level_frets,
                 "Level, crown and polish the frets",
                 {held_line(c.held, j.work.after.instrument.neck.rod.has_value())},
                 "",
                 ""};
    s.lines.push_back({"metal off all crowns together", way.total, false});
    const auto other = [&](neck_held held, const char* what, const length<>& total) {
        if (c.held != held) { s.lines.push_back({what, total, false}); }
    };
    const auto numbers = numbers_of(j.work);
    other(neck_held::slack, "with the neck slack it would be", *numbers.level_slack);
    other(neck_held::as_at_pitch, "held as at pitch as found", *numbers.level_at_pitch);
    other(neck_held::as_it_will_be, "held as it will be", *numbers.level_will_be);
    const bool by_ends = !numbers.fret_cuts_bass.empty();
    const auto cut = [&](std::size_t n, const char* end, const length<>& off) {
        if (!(off > 0.005 * units::mm)) { return; }
        s.lines.push_back(worked({messages::joined({"off fret ", n + 1, end}), off, false}, worked_as::cut, crown_path(n),
                                 rounded_to::less));
    };
    for (std::size_t n = 0; n < numbers.fret_cuts.size(); ++n) {
        if (by_ends) {
            cut(n, ", bass end", numbers.fret_cuts_bass[n]);
            cut(n, ", treble end", numbers.fret_cuts_treble[n]);
        } else {
            cut(n, "", numbers.fret_cuts[n]);
        }
    }
    if (c.refret()) {
        s.decision = messages::joined({"Refret: the file would leave ", way.too_low, " frets lower than they may be."});
    }
    const std::string hollow = messages::joined({fixed_text(c.hollow, units::mm, 2), " mm"});
    s.check = messages::joined({"While the neck is held so, a straightedge ", by_ends ? "along each edge " : "",
                                c.hollow > 0.005 * units::mm
                                    ? messages::joined({"shows no light but the hollow, ", hollow, " midway to the joint"})
                                    : messages::joined({"touches every crown"}),
                                "; crowns are rounded and polished again."});
    steps.push_back(s);
}

} // namespace tautline::kernel
