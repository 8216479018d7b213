#pragma once
/// @file
/// What a job is answered with, and the way there: found, worked, planned, wanted.

#include "../core/when_used.hpp"
#include "../setup/solve.hpp"
#include "../work/do_work.hpp"
#include "bench_job.hpp"
#include "plan.hpp"

namespace tautline {

/// The setups of a job, as found and as planned, and what lies between.
template <class R = double>
struct basic_job_setups {
    using real = R;
    basic_strung_instrument<R> as_found;          ///< as found
    basic_setup<R> found;                         ///< what that is
    bool planned = false;                         ///< whether something is to change; else the rest is empty
    basic_work_done<R> work;                      ///< on board and frets
    std::optional<length<R>> line_before{};       ///< board's line at the saddle after the work, where another is planned
    basic_setup_plan<R> plan;                     ///< made from there for what is wanted
    std::vector<basic_named_object<R>> objects{}; ///< as they lie in the end, over the board as it is then
    std::vector<basic_object_seat<R>> seats{};    ///< how these lie under the strings in the end
    std::vector<basic_object_seat<R>> found_seats{}; ///< how those that were found lie under the strings as found

    /// The instrument at the end of the job: as planned, or as found where nothing is to change.
    [[nodiscard]] const basic_strung_instrument<R>& last_strung() const { return planned ? plan.adjusted : as_found; }
    /// What that is.
    [[nodiscard]] const basic_setup<R>& last() const { return planned ? plan.solved : found; }
};
using job_setups = basic_job_setups<double>;

namespace kernel {

/// Whether some work is done on a neck that is held as the whole job will leave it.
template <class R>
[[nodiscard]] bool held_as_it_will_be(const basic_bench_work<R>& work) {
    const auto held = [](const auto& part) { return part && part->held == neck_held::as_it_will_be; };
    return held(work.sanding) || held(work.levelling);
}

/// The work that a job plans on board, frets and strings. Strings that stay on are those of the instrument as found.
template <class R>
[[nodiscard]] basic_bench_work<R> work_of(const basic_bench_job<R>& j, const basic_strung_instrument<R>& on) {
    if (!j.planned) { return {}; }
    auto work = j.planned->work();
    const bool other_pitch = !in_all_lanes(j.planned->a4.value() == j.a4.value());
    if (!j.planned->strings.empty() || other_pitch) {
        auto& set = work.strings.emplace(string_up(j.last_strings(), j.last_a4()));
        const std::size_t both = std::min(set.strings.size(), on.stringing.strings.size());
        for (std::size_t i = 0; i < both; ++i) {
            if (!j.planned->renews(i)) { set.strings[i].string = on.stringing.strings[i].string; }
        }
    }
    return work;
}

/// What is wrong with the work of a job, told by the job's paths.
[[nodiscard]] inline std::vector<problem> as_planned(std::vector<problem> problems) {
    const std::string_view work = "work";
    for (problem& p : problems) {
        if (is_at_or_below(p.field, work)) { p.field.replace(0, work.size(), "planned"); }
    }
    return problems;
}

/// What is wrong with an instrument as the work or a plan leaves it: by the job's paths, so that what is planned by value
/// stands under "planned", and so does what stands beside it, and a number that no measurement gave is told as what it
/// comes to.
/// @param laid whether what is planned by value has been laid over the instrument
template <class R>
[[nodiscard]] std::vector<problem> as_left(std::vector<problem> problems, const basic_bench_job<R>& j, bool laid) {
    for (problem& p : problems) {
        if (is_planned(p.field) || is_at_or_below(p.field, "wanted") || is_at_or_below(p.field, "details")) { continue; }
        const bool of_strings = is_at_or_below(p.field, "strings") && j.planned && !j.planned->strings.empty();
        const auto part_of = [](std::string_view path) { return path.substr(0, std::min(path.rfind('.'), path.size())); };
        const auto beside = [&](const std::string& path) { return part_of(path) == part_of(p.field); };
        const bool named = laid && j.planned &&
                           (j.planned->changes.names(p.field) || j.planned->changes.reaches_into(p.field) ||
                            std::any_of(j.planned->changes.paths.begin(), j.planned->changes.paths.end(), beside));
        if (named || of_strings) {
            p.field.insert(0, "planned.");
        } else {
            (p.value.empty() ? p.allowed : p.value) += laid ? ", as the plan leaves it" : ", as the work leaves it";
        }
    }
    return problems;
}

/// Objects where they lie once the job is done: those on the body stay there while the board's line, from which their
/// height is told, moves.
template <class R>
[[nodiscard]] std::vector<basic_named_object<R>> objects_after(const basic_bench_job<R>& j, const basic_job_setups<R>& s) {
    if (j.planned && j.planned->objects) { return *j.planned->objects; }
    auto objects = j.objects;
    for (auto& o : objects) {
        if (s.work.removal) { o.shape.z = height_after_sanding<R>(*s.work.removal, o.shape.x, o.shape.z); }
        if (s.plan.reset) {
            const basic_reset<R> done{
                .turn = s.plan.reset->turn, .leave = s.plan.reset->edge_cut, .edge_depth = j.wanted->reset->edge_depth};
            o.shape = object_after_reset(s.plan.start.instrument, done, o.shape);
        }
    }
    return objects;
}

/// The plan for what is wanted, from an instrument on which all else is done.
template <class R>
void plan_from(const basic_bench_job<R>& j, const basic_strung_instrument<R>& start, basic_wishes<R> wanted,
               basic_job_setups<R>& s) {
    try {
        s.plan = make_plan(start, wanted);
    } catch (const invalid_input& wrong) { throw invalid_input(as_left<R>(wrong.problems(), j, true)); }
}

/// Work on board and frets, the values that are planned laid over it, and the plan made from there.
template <class R>
void work_and_plan(const basic_bench_job<R>& j, const basic_strung_instrument<R>& from, const basic_bench_work<R>& work,
                   const basic_bow<R>* will_be, basic_job_setups<R>& s) {
    try {
        s.work = do_work(from, j.details, work, will_be);
    } catch (const invalid_input& wrong) { throw invalid_input(as_left<R>(as_planned(wrong.problems()), j, false)); }
    auto& built = s.work.after.instrument;
    if (j.planned) {
        // A board line that is planned by hand speaks of a reset, beyond what the work moved.
        if (j.planned->changes.names("saddle.board_line")) { s.line_before = built.saddle.board_line; }
        lay_over(j.planned->changes, built);
    }
    auto wanted = j.wishes_or_none();
    // Held as it will be, the neck has its relief from the work whatever the rod is set to.
    if (held_as_it_will_be(work)) { wanted.relief.reset(); }
    plan_from<R>(j, s.work.after, wanted, s);
}

/// Rounds in which a jig that holds the neck as the whole job will leave it settles with what the work moves.
inline constexpr int jig_rounds = 4;

/// The same, where a jig holds the neck as the whole job will leave it in rounds; then where all that lies on the body is
/// in the end.
template <class R>
void work_and_plan_in_rounds(const basic_bench_job<R>& j, const basic_strung_instrument<R>& from,
                             const basic_bench_work<R>& work, basic_job_setups<R>& s) {
    work_and_plan<R>(j, from, work, nullptr, s);
    for (int round = 0; held_as_it_will_be(work) && round < jig_rounds; ++round) {
        const auto will_be = s.plan.solved.bow;
        work_and_plan<R>(j, from, work, &will_be, s);
    }
}
/// How all that lies on the body lies under the strings in the end.
template <class R>
void seat_objects(basic_job_setups<R>& s) {
    s.seats.clear();
    for (const auto& o : s.objects) { s.seats.push_back(under_strings(s.plan.solved, o)); }
}

} // namespace kernel

/// The setups of a job, in the order of the bench: as found; the work on board and frets; what is planned by value; what is
/// wanted.
/// @param on the instrument as found, where readings say more of it than the job's measurements
/// @throws invalid_input for a job that is not valid, and for what only solving shows: a neck that buckles, a plan that
///         cannot be
template <class R>
[[nodiscard]] basic_job_setups<R> setups_of(const basic_bench_job<R>& j, basic_strung_instrument<R> on) {
    require_valid(j);
    basic_job_setups<R> s;
    s.as_found = std::move(on);
    s.found = solve(s.as_found);
    for (const auto& o : j.objects) { s.found_seats.push_back(under_strings(s.found, o)); }
    s.planned = j.changes_something();
    if (!s.planned) {
        s.objects = j.objects;
        s.seats = s.found_seats;
        return s;
    }
    kernel::work_and_plan_in_rounds<R>(j, s.as_found, kernel::work_of(j, s.as_found), s);
    s.objects = kernel::objects_after(j, s);
    kernel::seat_objects(s);
    return s;
}
/// The same of the instrument as it was measured.
template <class R>
[[nodiscard]] basic_job_setups<R> setups_of(const basic_bench_job<R>& j) {
    require_valid(j);
    return setups_of(j, strung_as_found(j));
}
TAUTLINE_HELD(job_setups setups_of<double>(const bench_job&))

} // namespace tautline
