#pragma once
/// @file
/// The work on board and frets, computed in the order of the bench.

#include "../core/when_used.hpp"
#include "../setup/solve.hpp"
#include "level_frets.hpp"
#include "work_done.hpp"

namespace tautline {

namespace kernel {

template <class R>
[[nodiscard]] basic_reradius<R> reradius_job(const basic_strung_instrument<R>& on, const basic_board_details<R>& details,
                                             const basic_bench_work<R>& work, const held_shape<R>& shape) {
    const auto& s = *work.sanding;
    basic_reradius<R> job;
    job.board = on.instrument.board;
    job.wanted = s.surface;
    job.allowance = s.allowance;
    job.shape = shape.sanded;
    job.edges_apart = shape.edges_apart;
    if (const board_lines<R> lines(on.instrument); lines.fanned()) {
        for (int n = 0; n <= job.board.scale.frets; ++n) { job.lines.push_back(kernel::ends_of_fret(job.board, lines, n)); }
    }
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

/// Where the sanded board is thinnest, and what it must keep: two millimetres, and at least the depth of its slots.
template <class R>
[[nodiscard]] basic_thinnest<R> thinnest(const basic_board<R>& found, const basic_board_details<R>& details,
                                         const basic_removal<R>& off) {
    std::vector<length<R>> places{length<R>(), length<R>(found.board_length)};
    for (const auto& m : off.shape) {
        if (one_answer(number<R>(0) < m.x.value()) && one_answer(m.x.value() < found.board_length.value())) {
            places.push_back(m.x);
        }
    }
    basic_thinnest<R> t;
    t.least = length<R>::from_value(number<R>(1e-3L * least_board_thickness_mm));
    if (details.slot) { t.least = max<unit::length, R>(t.least, details.slot->depth); }
    for (std::size_t k = 0; k < places.size(); ++k) {
        const length<R> left = kernel::thickness_at(found, places[k]) - kernel::centre_removal(off, places[k]);
        const auto thinner = is_less(left, t.left);
        t.x = k == 0 ? places[k] : select(thinner, places[k], t.x);
        t.left = k == 0 ? left : min(left, t.left);
        const length<R> edge =
            left + kernel::surface_height(off.wanted, places[k], kernel::half_width_at(found, places[k]));
        t.edge = k == 0 ? edge : min(edge, t.edge);
        if (off.edges_apart.empty()) { continue; }
        const length<R> tilt = kernel::tilt_removal<R>(off, places[k], kernel::half_width_at(found, places[k]));
        const auto least = [&](std::optional<length<R>>& so_far, const length<R>& here) {
            so_far = so_far ? min(*so_far, here) : here;
        };
        least(t.bass_edge, edge + tilt);
        least(t.treble_edge, edge - tilt);
    }
    if (t.bass_edge) { t.edge = min(*t.bass_edge, *t.treble_edge); }
    return t;
}

/// Carries problems of a change of arc over to the fields that the work was made from: slots, bindings and inlays are
/// details.
[[nodiscard]] inline std::vector<problem> named_by_details(std::vector<problem> problems) {
    constexpr std::string_view job = "reradius.";
    for (problem& p : problems) {
        if (!p.field.starts_with(job)) { continue; }
        const std::string field = p.field.substr(job.size());
        const bool detail = field.starts_with("slot.") || field.starts_with("binding_") || field.starts_with("inlay_");
        p.field = messages::joined({detail ? "details." : "work.sanding.", field});
    }
    return problems;
}

/// Sands the board of `done.after` with its neck held by `jig` (null: slack).
template <class R>
void sand(const basic_strung_instrument<R>& found, const basic_board_details<R>& details, const basic_bench_work<R>& work,
          const basic_bow<R>* jig, basic_work_done<R>& done) {
    const auto& s = *work.sanding;
    const auto& i = found.instrument;
    const auto within = [](const std::vector<basic_permanent_bow_mark<R>>& marks, const char* name) {
        for (std::size_t k = 0; k < marks.size(); ++k) {
            if (!between(-3 * units::mm, 3 * units::mm).holds(marks[k].z.value())) {
                require_that(false, "work.sanding",
                             messages::joined({"must be left out where the neck's set is more than 3 mm, as ",
                                               messages::path_of(name, k, "z"), " is"}));
            }
        }
    };
    within(i.neck.set, "neck.set");
    within(i.neck.set_bass, "neck.set_bass");
    within(i.neck.set_treble, "neck.set_treble");
    const auto slack = slack_bow(i, false);
    const auto* const bow = jig ? jig : slack ? &*slack : nullptr;
    held_shape<R> shape;
    if (bow || !i.neck.set.empty() || i.neck.told_by_edges() || !in_all_lanes(s.hollow.value() == number<R>(0))) {
        shape = kernel::shape_held<R>(i, bow, s.hollow);
    }
    for (const auto& mark : shape.sanded) {
        require_that(between(-10 * units::mm, 10 * units::mm).holds(mark.z.value()), "work.sanding",
                     "must be left out on a neck that bends so far: its board would stand more than 10 mm off its line");
    }
    done.held = s.held;
    done.hollow = s.hollow;
    done.held_rise = length<R>();
    if (jig) { done.held_rise = slack ? length<R>(jig->nut_rise() - slack->nut_rise()) : jig->nut_rise(); }
    auto arced = i.board;
    arced.surface = s.surface;
    if (const auto wrong = validate(arced); !wrong.empty()) {
        require_that(false, "work.sanding.radius",
                     messages::joined({"must leave a board: its ", wrong.front().field, " ", wrong.front().allowed}));
    }
    const auto nut = kernel::ends_of_fret(i.board, board_lines<R>(i), 0);
    const length<R> from = min(length<R>(), min(nut.bass.x, nut.treble.x));
    done.removal = tautline::least_removal<R>(i.board, s.surface, s.allowance, shape.sanded, shape.edges_apart, from);
    done.thinnest = kernel::thinnest<R>(i.board, details, *done.removal);
    require_that(in_all_lanes(number<R>(0) < done.thinnest->edge.value()), "work.sanding",
                 "must leave some board: it would go through at the edge");
    if (details.slot && i.board.scale.frets > 0) {
        try {
            done.sanding = plan_reradius(kernel::reradius_job<R>(found, details, work, shape));
        } catch (const invalid_input& wrong) { throw invalid_input(named_by_details(wrong.problems())); }
    }
    done.after = after_sanding(found, *done.removal, shape.after);
    done.line_lowered = i.saddle.board_line - done.after.instrument.saddle.board_line;
}

/// The work with the neck held as it is said. Where it is to be held as it will be, its shape is `will_be`.
template <class R>
[[nodiscard]] basic_work_done<R> work_held(const basic_strung_instrument<R>& found, const basic_board_details<R>& details,
                                           const basic_bench_work<R>& work, const basic_bow<R>& at_pitch,
                                           const basic_bow<R>& will_be) {
    const auto bow_of = [&](neck_held held) {
        return held == neck_held::slack ? nullptr : held == neck_held::as_at_pitch ? &at_pitch : &will_be;
    };
    basic_work_done<R> done;
    done.after = found;
    if (work.sanding) { kernel::sand<R>(found, details, work, bow_of(work.sanding->held), done); }
    if (work.strings) { done.after.stringing = *work.strings; }
    if (work.wire) {
        done.after = after_refret(done.after, *work.wire);
        done.new_frets = true;
        if (details.slot) { done.fit = tang_fit(*work.wire, details.slot->width); }
    }
    if (work.levelling) {
        const auto& i = done.after.instrument;
        basic_level_choice<R> c;
        c.held = work.levelling->held;
        c.hollow = work.levelling->hollow;
        const auto slack = slack_bow(i, true);
        c.slack = level<R>(i, slack ? &*slack : nullptr, *work.levelling);
        c.at_pitch = level<R>(i, bow_of(neck_held::as_at_pitch), *work.levelling);
        c.will_be = level<R>(i, bow_of(neck_held::as_it_will_be), *work.levelling);
        done.after = kernel::filed<R>(done.after, c.way());
        done.levelling = std::move(c);
    }
    return done;
}

/// Rounds in which a shape that depends on the work's own outcome settles. Each round leaves some hundredths of the last
/// error.
inline constexpr int work_rounds = 4;
/// In metres. A board that is planed to half its thickness changes its own bow by more. Such work takes rounds until the
/// nut's rise moves by less than this, but no more than `most_work_rounds`.
inline constexpr double settled_rise = 1e-8;
inline constexpr int most_work_rounds = 60;

} // namespace kernel

/// Does the work in the order of the bench: the board, the chosen strings, then new frets or the file. Where the file
/// would leave a fret too low, the frets are filed all the same as far as their crowns allow; `levelling->refret()` tells
/// of it.
/// @param will_be bow of the whole job's outcome, for work on a neck that is held as it will be; null: the bow under the
/// strings after this work, before anything else is set
/// @throws invalid_input for an instrument that cannot be solved, work that contradicts itself, a set of more than 3 mm
/// where the board is sanded, and a levelling of fewer than three frets
template <class R>
[[nodiscard]] basic_work_done<R> do_work(const basic_strung_instrument<R>& found,
                                         const std::type_identity_t<basic_board_details<R>>& details,
                                         const std::type_identity_t<basic_bench_work<R>>& work,
                                         const std::type_identity_t<basic_bow<R>>* will_be = nullptr) {
    require_valid(details, "details");
    require_valid(work, "work");
    const auto& i = found.instrument;
    require_that(!work.levelling || (i.board.scale.frets >= 3 && i.neck.joint_fret >= 3), "work.levelling",
                 "must be left out where fewer than three frets are to be levelled");
    if (!work.sanding && !work.levelling) { return kernel::work_held<R>(found, details, work, {}, {}); }
    const auto at_pitch = solve(found).bow;
    if (will_be) { return kernel::work_held<R>(found, details, work, at_pitch, *will_be); }
    auto done = kernel::work_held<R>(found, details, work, at_pitch, at_pitch);
    length<R> rise = at_pitch.nut_rise();
    for (int round = 0; round < kernel::most_work_rounds; ++round) {
        const auto bowed = solve(done.after).bow;
        done = kernel::work_held<R>(found, details, work, at_pitch, bowed);
        const bool settled =
            in_all_lanes(abs(length<R>(bowed.nut_rise() - rise)).value() < number<R>(kernel::settled_rise));
        if (settled && round + 1 >= kernel::work_rounds) { break; }
        rise = bowed.nut_rise();
    }
    return done;
}
TAUTLINE_HELD(work_done do_work<double>(const strung_instrument&, const board_details&, const bench_work&,
                                        const basic_bow<double>*))

} // namespace tautline
