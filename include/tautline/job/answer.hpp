#pragma once
/// @file
/// All answers to a job in one call.

#include "../core/when_used.hpp"
#include "../instrument/neck_woods.hpp"
#include "bench_layout.hpp"
#include "compare.hpp"
#include "doubtful_seats.hpp"
#include "first_cut.hpp"
#include "first_work_cut.hpp"
#include "learnt.hpp"
#include "rounding_room.hpp"
#include "steps.hpp"
#include "year.hpp"

namespace tautline {

/// Everything that a job is asked for.
struct job_answers {
    job_setups setups;                   ///< as found and as planned, and what lies between
    std::vector<bench_step> steps{};     ///< from one to the other; empty where nothing is to change
    std::vector<setup_change> changes{}; ///< of all results, most noticeable first
    setup_doubts found_doubts{};         ///< doubts of the numbers as found
    setup_doubts planned_doubts{};       ///< doubts of the numbers as planned
    job_readings readings;               ///< what the readings say of the instrument
    std::optional<job_year> year{};      ///< what the season does to it at the end; absent where no season is noted
    bench_layout layout{};               ///< what else is laid out: centre line, wire, dots, objects
    first_cuts cuts{};                   ///< how far the first cuts of slots and saddle stop short
    first_work_cuts work_cuts{};         ///< how far the first cuts of board and crowns stop short
    rounding_room room{};                ///< how far settings may be off by being told in steps of the bench
    what_was_learnt learnt;              ///< what readings taught of the results that matter, and what to read next

    /// The doubts of the numbers at the end of the job.
    [[nodiscard]] const setup_doubts& last_doubts() const { return setups.planned ? planned_doubts : found_doubts; }
};

namespace kernel {

/// Takes back what is asked about moduli that nobody measured: the names of their woods brought them, and readings moved
/// them.
inline void ask_of_given_moduli(const bench_job& j, job_setups& s) {
    for (const neck_wood& w : woods_of(j.instrument.neck)) {
        if (!w.from_name()) { continue; }
        for (auto* list : {&s.found.findings, &s.plan.solved.findings}) {
            std::erase_if(
                *list, [&](const finding& f) { return f.kind == finding_kind::modulus_asked_about && f.part == w.part; });
        }
    }
}

} // namespace kernel

/// Answers a job: found, work, planned, wanted, steps, changes, doubts. Where there are readings, the instrument is first
/// reconciled with them. Where some were taken after steps of the work, the rest is planned from there.
///
/// @throws invalid_input for a job that is not valid, and for what only solving shows: a neck that buckles, a plan that
/// is impossible. Its paths are those of the job.
template <class = when_used>
[[nodiscard]] job_answers answer(const bench_job& j) {
    job_answers a;
    a.readings = reconcile_job(j);
    const bool adjusted = !j.readings.empty() && !j.adjusting.as_read;
    a.setups = adjusted ? setups_read(j, a.readings) : setups_of(j);
    const auto later = [](const noted_reading& n) { return !n.after.empty(); };
    std::optional<job_setups> before; // as planned before what was read after a step
    std::optional<first_cuts> cuts;   // and what its steps told to leave
    if (std::any_of(j.readings.begin(), j.readings.end(), later)) {
        before = a.setups;
        if (before->planned) {
            const bool known = adjusted && !a.readings.said.readings.empty();
            const auto sure =
                kernel::doubts_planned(j, *before, a.readings.of_found, known ? &a.readings.said : nullptr, {}, nullptr);
            cuts = first_cuts_of(before->plan, sure, before->crown_before.has_value());
        }
        a.readings = reconcile_job(j, &*before, cuts ? &*cuts : nullptr);
        if (adjusted) { a.setups = setups_read(j, a.readings); }
    }
    if (adjusted) { kernel::ask_of_given_moduli(j, a.setups); }
    const reconciliation* read = adjusted ? &a.readings.said : nullptr;
    const job_setups& s = a.setups;
    a.found_doubts = kernel::doubts_found(j, s, a.readings.of_found, read);
    kernel::ask_of_doubtful_seats(a.found_doubts, a.setups.found);
    if (s.planned) {
        const auto done = adjusted ? a.readings.done() : std::nullopt;
        const bool rod_loose = done && kernel::rod_loose_after(j, *done);
        a.steps = steps_left(steps_of(s.found, s.work, s.plan, s.line_before, s.crown_before, rod_loose), done);
        a.changes = compare(s.found, s.plan.solved);
        // What settings do is found in the same solves.
        const auto settings = kernel::settings_of(s.plan, s.work);
        kernel::carried_beside told{kernel::units_of(settings), {}};
        a.planned_doubts = kernel::doubts_planned(j, s, a.readings.of_found, read,
                                                  adjusted ? a.readings.of_work : std::vector<known_doubt>(), &told);
        kernel::ask_of_doubtful_seats(a.planned_doubts, a.setups.plan.solved);
        a.cuts = first_cuts_of(s.plan, a.planned_doubts, s.crown_before.has_value());
        tell_first_cuts(a.cuts, s.plan.action_fret, a.steps);
        a.work_cuts = first_work_cuts_of(j, s, adjusted ? &a.readings : nullptr, a.found_doubts, a.planned_doubts);
        tell_first_work_cuts(a.work_cuts, kernel::work_of(j, s.as_found), a.steps);
        a.room = kernel::room_of(settings, told.contributions, a.planned_doubts);
        tell_room(a.room, s.plan, a.planned_doubts, j.wishes_or_none(), a.steps);
    }
    a.year = year_of(j, s, adjusted ? &a.readings : nullptr);
    a.layout = layout_of(j, s);
    // Where the numbers stay as the file has them, they are not those of the instrument that the readings lead to.
    const bool as_read_to = adjusted || j.readings.empty();
    a.learnt = learnt_by(j, a.readings, s, a.last_doubts(), as_read_to ? &a.found_doubts : nullptr);
    tell_what_to_read(a.learnt, a.steps);
    if (adjusted && !a.readings.said.suspicions.empty()) {
        a.learnt.in_doubt = true;
        a.learnt.without = answers_without(j, a.readings, before ? &*before : nullptr, cuts ? &*cuts : nullptr, s,
                                           a.found_doubts, a.planned_doubts);
        tell_to_measure_first(a.readings.said, a.steps);
    }
    return a;
}
TAUTLINE_HELD(job_answers answer<>(const bench_job&))

} // namespace tautline
