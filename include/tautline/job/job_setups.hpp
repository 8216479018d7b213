#pragma once
/// @file
/// The setups of a job, and the way to them: found, worked, planned, wanted.

#include "../core/to_text.hpp"
#include "../core/when_used.hpp"
#include "../instrument/cut_saddle.hpp"
#include "../setup/solve.hpp"
#include "../work/do_work.hpp"
#include "bench_job.hpp"
#include "plan.hpp"

namespace tautline {

/// The setups of a job, as found and as planned, and what lies between.
template <class R = double>
struct basic_job_setups {
    using real = R;
    basic_strung_instrument<R> as_found;        ///< the instrument as found
    basic_setup<R> found;                       ///< its solved setup
    bool planned = false;                       ///< whether something is to change; if not, the rest is empty
    basic_work_done<R> work;                    ///< outcome of the work on board and frets
    std::optional<basic_instrument<R>> stood{}; ///< the instrument after the work, before the planned values; given where
                                                ///< there are some
    std::optional<length<R>> line_before{};  ///< the board's line at the saddle after the work, where a new one is planned
    std::optional<basic_reset<R>> by_hand{}; ///< the reset that a planned board line speaks of
    std::optional<length<R>> crown_before{}; ///< the zero fret's crown after the work, where a new one is planned
    basic_setup_plan<R> plan;                ///< the plan for what is wanted, made after the work
    std::vector<basic_named_object<R>> objects{};    ///< objects where they lie at the end, over the board as it is then
    std::vector<basic_object_seat<R>> seats{};       ///< how these lie under the strings at the end
    std::vector<basic_object_seat<R>> found_seats{}; ///< how the objects as found lie under the strings as found

    /// The instrument at the end of the job: as planned, or as found where nothing is to change.
    [[nodiscard]] const basic_strung_instrument<R>& last_strung() const { return planned ? plan.adjusted : as_found; }
    /// The solved setup of that instrument.
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

/// Problems of the work of a job, under the job's paths.
[[nodiscard]] inline std::vector<problem> as_planned(std::vector<problem> problems) {
    const std::string_view work = "work";
    for (problem& p : problems) {
        if (is_at_or_below(p.field, work)) { p.field.replace(0, work.size(), "planned"); }
    }
    return problems;
}

/// Problems of an instrument as the work or a plan leaves it, under the job's paths. What is planned by value is under
/// "planned", and so is everything next to it. Any other number is told as the work or the plan leaves it.
/// @param laid whether the planned values have been laid over the instrument
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

/// Objects where they lie once the job is done. Those on the body stay in place, while the board's line moves, from which
/// their heights are told.
template <class R>
[[nodiscard]] std::vector<basic_named_object<R>> objects_after(const basic_bench_job<R>& j, const basic_job_setups<R>& s) {
    if (j.planned && j.planned->objects) { return *j.planned->objects; }
    auto objects = j.objects;
    auto before_hand = s.work.after.instrument; // its board as it was before a line planned by hand
    if (s.line_before) { before_hand.saddle.board_line = *s.line_before; }
    for (auto& o : objects) {
        if (s.work.removal) { o.shape.z = height_after_sanding<R>(*s.work.removal, o.shape.x, o.shape.z); }
        if (s.by_hand) { o.shape = object_after_reset(before_hand, *s.by_hand, o.shape); }
        if (s.plan.reset) {
            const basic_reset<R> done{
                .turn = s.plan.reset->turn, .leave = s.plan.reset->edge_cut, .edge_depth = j.wanted->reset->edge_depth};
            o.shape = object_after_reset(s.plan.start.instrument, done, o.shape);
        }
    }
    return objects;
}

/// Heights that sides without a wish keep where new strings pull otherwise: those under the strings as found. Empty where
/// the strings stay, and where no side is kept.
template <class R>
[[nodiscard]] std::vector<std::vector<length<R>>>
kept_under_new_strings(const basic_bench_job<R>& j, const basic_strung_instrument<R>& start,
                       const basic_strung_instrument<R>& as_found, const basic_wishes<R>& w) {
    const bool keeps = w.first_fret_bass.has_value() != w.first_fret_treble.has_value() ||
                       w.action_bass.has_value() != w.action_treble.has_value() || (w.reset && !w.action());
    const bool alike = start.stringing.strings.size() == as_found.stringing.strings.size();
    if (!keeps || !alike || !work_of(j, as_found).strings) { return {}; }
    basic_setup<R> before;
    solve_silent(basic_strung_instrument<R>{start.instrument, as_found.stringing}, before, solve_stations);
    std::vector<std::vector<length<R>>> kept;
    for (const auto& one : before.strings) { kept.push_back(one.heights); }
    return kept;
}

/// Makes the plan for what is wanted, from an instrument on which everything else is done.
template <class R>
void plan_from(const basic_bench_job<R>& j, const basic_strung_instrument<R>& start, basic_wishes<R> wanted,
               basic_job_setups<R>& s) {
    try {
        basic_setup_plan<R> plan;
        plan.kept = kept_under_new_strings(j, start, s.as_found, wanted);
        make_plan(start, wanted, plan, s.stood ? &*s.stood : nullptr);
        s.plan = std::move(plan);
    } catch (const invalid_input& wrong) { throw invalid_input(as_left<R>(wrong.problems(), j, true)); }
}

/// Rounds in which the turn that brings the board's line to a planned place is found; each leaves a hundredth.
inline constexpr int by_hand_rounds = 4;

/// Turns the neck of an instrument so that its board's line comes to where it is planned by hand. Returns how; nothing
/// where it moves no further than rounding does.
template <class R>
[[nodiscard]] std::optional<basic_reset<R>> reset_by_hand(const basic_bench_job<R>& j, basic_strung_instrument<R>& on) {
    const length<R> from = on.instrument.saddle.board_line, to = j.planned->changes.values.saddle.board_line;
    if (in_all_lanes(abs(length<R>(to - from)).value() < number<R>(5e-6L))) { return std::nullopt; }
    basic_reset<R> by;
    by.turn = turn_of_board_line(on.instrument, from, to);
    std::vector<length<R>> lines;
    basic_strung_instrument<R> turned;
    for (int round = 0; round < by_hand_rounds; ++round) {
        require_that(in_all_lanes(abs(angle<R>(by.turn)).value() <= number<R>(most_neck_turn.value())),
                     "planned.saddle.board_line", "must not speak of a turn of the neck by more than 3.4 deg");
        kernel::after_reset<R>(on, by, lines, turned);
        const R share = ratio<unit::length, R>(to - from, turned.instrument.saddle.board_line - from);
        if (round + 1 < by_hand_rounds) { by.turn = by.turn * share; }
    }
    on.instrument = turned.instrument;
    return by;
}

/// Lets what follows the saddle follow one that is planned by value. What is planned by value itself stays so.
/// @param before the instrument before the planned values were laid over it
template <class R>
void follow_planned_saddle(const basic_overlay<R>& planned, const basic_strung_instrument<R>& before,
                           basic_strung_instrument<R>& after) {
    if (!is_valid(before) || !is_valid(after)) { return; } // the plan tells what is wrong
    const length<R> by = mean_saddle_height(after) - mean_saddle_height(before);
    if (!planned.names("soundboard.saddle_height")) { move_height_over_turn<R>(before.instrument, by, after.instrument); }
    const auto* exposed = exposed_saddle(before.instrument);
    if (!exposed || planned.names("pins.saddle_exposed") || planned.names("tie_block.saddle_exposed")) { return; }
    if (!in_all_lanes(number<R>(-1e-6L) < (*exposed + by).value())) {
        const auto text = [](const length<R>& q) { return bench_text(plain(q)); };
        for (const std::string& path : planned.paths) {
            require_that(!is_at_or_below(path, "saddle"), messages::joined({"planned.", path}),
                         messages::joined({"must leave the saddle above the bridge's wood: it would come down by ",
                                           text(length<R>(-by)), ", and ", text(length<R>(*exposed)),
                                           " of it stands out of its slot"}));
        }
    }
    move_exposed<R>(before.instrument, by, after.instrument);
}

/// Does the work on board and frets, lays the planned values over it, and makes the plan from there.
template <class R>
void work_and_plan(const basic_bench_job<R>& j, const basic_strung_instrument<R>& from, const basic_bench_work<R>& work,
                   const basic_bow<R>* will_be, basic_job_setups<R>& s) {
    try {
        s.work = do_work(from, j.details, work, will_be);
    } catch (const invalid_input& wrong) { throw invalid_input(as_left<R>(as_planned(wrong.problems()), j, false)); }
    auto& built = s.work.after.instrument;
    if (j.planned) {
        // A board line that is planned by hand means a reset, beyond what the work moved. What stays on the body and is
        // not measured anew is then told from the board as it stands afterwards.
        s.by_hand.reset();
        if (j.planned->changes.names("saddle.board_line")) {
            s.line_before = built.saddle.board_line;
            s.by_hand = reset_by_hand(j, s.work.after);
        }
        if (j.planned->changes.names("frets.zero_crown")) { s.crown_before = kernel::crown_left(built.frets, 0); }
        const auto before = s.work.after;
        s.stood.reset();
        if (!j.planned->changes.paths.empty()) { s.stood = built; }
        lay_over(j.planned->changes, built);
        const auto named = [&](const char* path) { return j.planned->changes.names(path); };
        if (named("saddle") || j.planned->changes.reaches_into("saddle")) {
            follow_planned_saddle<R>(j.planned->changes, before, s.work.after);
        }
    }
    auto wanted = j.wishes_or_none();
    // Where the neck is held as it will be, the work gives it its relief, whatever the rod is set to.
    if (held_as_it_will_be(work)) { wanted.relief.reset(); }
    plan_from<R>(j, s.work.after, wanted, s);
}

/// Rounds in which a jig that holds the neck as the whole job will leave it settles with what the work moves.
inline constexpr int jig_rounds = 4;

/// The same, in rounds where a jig holds the neck as the whole job will leave it. Then tells where the objects are at the
/// end.
template <class R>
void work_and_plan_in_rounds(const basic_bench_job<R>& j, const basic_strung_instrument<R>& from,
                             const basic_bench_work<R>& work, basic_job_setups<R>& s) {
    work_and_plan<R>(j, from, work, nullptr, s);
    for (int round = 0; held_as_it_will_be(work) && round < jig_rounds; ++round) {
        const auto will_be = s.plan.solved.bow;
        work_and_plan<R>(j, from, work, &will_be, s);
    }
}
/// Tells how the objects lie under the strings at the end.
template <class R>
void seat_objects(basic_job_setups<R>& s) {
    s.seats.clear();
    for (const auto& o : s.objects) { s.seats.push_back(under_strings(s.plan.solved, o)); }
}

} // namespace kernel

/// The setups of a job, in the order of the bench: as found; the work on board and frets; what is planned by value; what
/// is wanted.
/// @param on the instrument as found, also where readings have adjusted it
/// @throws invalid_input for a job that is not valid, and for what only solving shows: a neck that buckles, a plan that
/// is impossible
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
/// The same for the instrument as it was measured.
template <class R>
[[nodiscard]] basic_job_setups<R> setups_of(const basic_bench_job<R>& j) {
    require_valid(j);
    return setups_of(j, strung_as_found(j));
}
TAUTLINE_HELD(job_setups setups_of<double>(const bench_job&))

} // namespace tautline
