#pragma once
/// @file
/// The readings of a job: the instrument as it is read, also after steps of the work, and what the readings tell of it.

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "../doubt/readings_to_take.hpp"
#include "as_written.hpp"
#include "bench_step.hpp"
#include "first_cut.hpp"
#include "job_doubts.hpp"

namespace tautline {

/// What the readings of a job say.
struct job_readings {
    read_instrument model;               ///< as reconciled: as found, and after the steps that readings follow
    reconciliation said;                 ///< outcome of the readings
    std::vector<bench_stage> after{};    ///< the step before each of `model.after_work`
    std::vector<known_doubt> of_found{}; ///< doubts of what was measured on the instrument as found
    std::vector<known_doubt> of_work{};  ///< doubts that work already done added to what was read

    /// The last step that was done, as far as readings tell; nothing where all are of the instrument as found.
    [[nodiscard]] std::optional<bench_stage> done() const {
        if (after.empty()) { return std::nullopt; }
        return *std::max_element(after.begin(), after.end());
    }
};

namespace kernel {

/// Whether a step is one that sets what the plan sets. Read after it, the instrument is as planned.
[[nodiscard]] constexpr bool sets_up(bench_stage stage) { return bench_stage::set_rod <= stage; }

/// The work on board and frets up to and including a step.
template <class = when_used>
[[nodiscard]] bench_work work_up_to(const bench_job& j, bench_stage stage) {
    bench_work work = j.planned ? j.planned->work() : bench_work{};
    if (stage < bench_stage::sand_board) { work.sanding.reset(); }
    if (stage < bench_stage::fit_frets) { work.wire.reset(); }
    if (stage < bench_stage::level_frets) { work.levelling.reset(); }
    return work;
}
/// The work that is left after a step, on the instrument as it is then.
template <class = when_used>
[[nodiscard]] bench_work work_after(const bench_job& j, const strung_instrument& on, bench_stage stage) {
    bench_work work = work_of(j, on);
    if (bench_stage::sand_board <= stage) { work.sanding.reset(); }
    if (bench_stage::fit_frets <= stage) { work.wire.reset(); }
    if (bench_stage::level_frets <= stage) { work.levelling.reset(); }
    return work;
}

/// The instrument of a job as it is read, as found.
template <class = when_used>
[[nodiscard]] read_instrument read_as_found(const bench_job& j) {
    read_instrument model{strung_as_found(j), {}, {}, {}, j.gauges};
    if (j.wanted) { model.rod_screw = j.wanted->rod_screw; }
    for (const noted_state& n : j.states) {
        reading_state s;
        s.name = n.name;
        s.slack = n.slack;
        s.rod_turns = n.rod_turns;
        s.rod_loose = n.rod == noted_rod::loose;
        if (n.weight) { s.weight = mass<>(*n.weight) * units::standard_gravity; }
        s.at_fret = n.at_fret;
        s.capo = n.capo;
        if (!n.strings.empty()) { s.strings = string_up(n.strings, j.a4).strings; }
        s.air = n.air;
        model.states.push_back(std::move(s));
    }
    if (j.season && reads_in_other_air(j)) {
        const auto is = j.season->season().response;
        model.season = {.measured_in = j.season->measured_in, .bow = is.bow, .top = is.top, .stiffness = is.stiffness};
    }
    return model;
}

/// The steps of a job after which something can be read.
template <class = when_used>
[[nodiscard]] std::vector<bench_stage> steps_to_read_after(const bench_job& j) {
    std::vector<bench_stage> all;
    if (!j.changes_something()) { return all; }
    // One by one: of `insert` with a list g++ 12 warns at -O3 (-Wstringop-overflow).
    const auto add = [&](std::initializer_list<bench_stage> some) {
        for (const bench_stage one : some) { all.push_back(one); }
    };
    if (j.planned && j.planned->sanding) { add({bench_stage::sand_board, bench_stage::deepen_slots}); }
    if (j.planned && j.planned->wire) { all.push_back(bench_stage::fit_frets); }
    if (j.planned && j.planned->levelling) { all.push_back(bench_stage::level_frets); }
    const auto has = [&](auto&& part) { return part(j.instrument) || (j.planned && part(j.planned->changes.values)); };
    if (has([](const instrument& i) { return i.neck.rod.has_value(); })) { all.push_back(bench_stage::set_rod); }
    add({bench_stage::cut_nut, bench_stage::set_saddle});
    if (has([](const instrument& i) { return i.tailpiece || i.pins; })) { all.push_back(bench_stage::hang_tailpiece); }
    add({bench_stage::string_up, bench_stage::finish, bench_stage::check});
    return all;
}
/// The step after which a reading was taken.
/// @throws invalid_input for a step that the job does not have
template <class = when_used>
[[nodiscard]] bench_stage step_before(const bench_job& j, const std::string& id) {
    const auto possible = steps_to_read_after(j);
    std::string ids;
    for (const bench_stage stage : possible) {
        if (id_of(stage) == id) { return stage; }
        messages::append(ids, {ids.empty() ? "" : ", ", id_of(stage)});
    }
    messages::refuse("after", id,
                     possible.empty() ? std::string("must be left out: nothing is planned in this job")
                                      : messages::joined({"must be a step of this job that can be read after: ", ids}));
}

/// Whether what a first cut leaves of the slots, or of the saddle, still stands after a step: the last cut is made at
/// pitch.
[[nodiscard]] constexpr bool slots_left_after(bench_stage stage) {
    return bench_stage::cut_nut <= stage && stage < bench_stage::finish;
}
[[nodiscard]] constexpr bool saddle_left_after(bench_stage stage) {
    return bench_stage::set_saddle <= stage && stage < bench_stage::finish;
}
/// What first cuts leave standing where nobody read it: as much as their step told, with a doubt as large as that. Each
/// moves a number of the planned instrument.
/// @param cuts what the steps told to leave; null: nothing
template <class = when_used>
[[nodiscard]] std::vector<known_doubt> left_by_first_cuts(const job_setups& s, const first_cuts* cuts) {
    std::vector<known_doubt> all;
    if (!cuts) { return all; }
    const auto add = [&](std::string name, const length<>& left, std::string path) {
        all.push_back(
            {std::move(name), any_quantity(length<>(left / coverage_factor)), true, false, {}, {{std::move(path)}}});
    };
    const auto slot = first_cuts::most(cuts->slots), saddle = first_cuts::most(cuts->saddle);
    const std::size_t slots = std::min(cuts->slots.size(), s.plan.adjusted.instrument.nut.slot_heights.size());
    for (std::size_t i = 0; slot && i < slots; ++i) {
        if (!cuts->slots[i]) { continue; }
        add(messages::joined({"nut slot of ", s.plan.solved.names.name(i), " after the first cut"}), *slot,
            nut_slot_path(i));
    }
    if (saddle) {
        add("saddle's height at the bass after the first cut", *saddle, "saddle.height_bass");
        add("saddle's height at the treble after the first cut", *saddle, "saddle.height_treble");
    }
    return all;
}
/// Whether what a first cut left still stands after a step.
[[nodiscard]] inline bool stands_after(const known_doubt& left, bench_stage stage) {
    return is_at_or_below(left.planned.front().path, "saddle") ? saddle_left_after(stage) : slots_left_after(stage);
}
/// The planned instrument as a step leaves it: what the first cuts left is still on it.
template <class = when_used>
[[nodiscard]] strung_instrument set_up_after(const job_setups& s, const first_cuts* cuts, bench_stage stage) {
    strung_instrument on = s.plan.adjusted;
    for (const known_doubt& left : left_by_first_cuts(s, cuts)) {
        if (!stands_after(left, stage)) { continue; }
        const std::string& path = left.planned.front().path;
        set(on, path,
            any_quantity::of(left.standard.kind(), find_at(on, path).si() + coverage_factor * left.standard.si()));
    }
    return on;
}

/// Place of a step among those that readings follow. The instrument as that step leaves it is added where it is new.
template <class = when_used>
[[nodiscard]] std::size_t after_step(const bench_job& j, const job_setups& s, const first_cuts* cuts, bench_stage stage,
                                     job_readings& out) {
    const auto at = std::find(out.after.begin(), out.after.end(), stage);
    if (at != out.after.end()) { return static_cast<std::size_t>(at - out.after.begin()); }
    out.after.push_back(stage);
    out.model.after_work.push_back(
        sets_up(stage) ? set_up_after(s, cuts, stage)
                       : do_work(out.model.at_pitch, j.details, work_up_to(j, stage), &s.plan.solved.bow).after);
    return out.after.size() - 1;
}

/// Whether the rod is loose after a step, as the steps have it.
template <class = when_used>
[[nodiscard]] bool rod_loose_after(const bench_job& j, bench_stage stage) {
    return bench_stage::measure_slack <= stage && stage < bench_stage::set_rod && j.planned &&
           worked_with_rod_loose(j.planned->work(), j.instrument.neck);
}

/// Name of a state after a step. The state is added to the model where it is new.
template <class = when_used>
[[nodiscard]] std::string state_after(const bench_job& j, read_instrument& model, std::string_view when, bench_stage stage,
                                      std::size_t place) {
    const std::string step = messages::joined({"after ", id_of(stage)});
    std::string name = when == pitch_state ? step : messages::joined({when, ", ", step});
    for (const auto& s : model.states) {
        if (s.name == name) { return name; }
    }
    const auto described = find_state(model, when);
    reading_state later = described ? model.states[*described] : reading_state{};
    later.slack = described ? later.slack : when == slack_state;
    const auto noted = std::find_if(j.states.begin(), j.states.end(), [&](const noted_state& n) { return n.name == when; });
    // A rod that is told to be turned from where it is has been set.
    const bool by_steps = noted == j.states.end() || (noted->rod == noted_rod::by_steps && noted->rod_turns == 0);
    if (by_steps) { later.rod_loose = rod_loose_after(j, stage); }
    later.name = name;
    later.after_work = static_cast<int>(place);
    model.states.push_back(std::move(later));
    return name;
}

/// The doubts of a job as they turn what is read. Each moves its number as found, and in every instrument after a step
/// where that number is unchanged.
template <class = when_used>
[[nodiscard]] std::vector<doubt> turned_by(const bench_job& j, const job_setups* s, const first_cuts* cuts,
                                           job_readings& out) {
    out.of_found = doubts_of_found(j);
    const auto& known = out.of_found;
    const auto leaves = leaf_paths(out.model);
    const auto add = [&](doubt& d, std::size_t place, const std::vector<moved_leaf>& moves) {
        for (const moved_leaf& m : moves) {
            d.moves.push_back(
                {messages::joined({messages::path_of("after_work", place), ".", m.path}), m.factor, m.converts});
        }
    };
    std::vector<doubt> doubts;
    const auto keep = [&](doubt d) {
        d.moves = there(leaves, std::move(d.moves));
        if (d.moves.empty()) { return false; }
        doubts.push_back(std::move(d));
        return true;
    };
    for (const known_doubt& k : known) {
        doubt d{k.name, k.standard, k.found};
        for (std::size_t i = 0; i < out.after.size(); ++i) {
            const auto work = work_up_to(j, out.after[i]);
            const bool sanded = work.sanding && is_sanded_away(k.name);
            const bool gone =
                sets_up(out.after[i]) ? is_replaced(j, k.name) : sanded || (work.wire && is_at_or_below(k.name, "frets"));
            if (!gone) { add(d, i, k.found); }
        }
        (void)keep(std::move(d));
    }
    if (out.after.empty()) { return doubts; }
    for (const known_doubt& k : doubts_of_plan(j, *s)) {
        doubt d{k.name, k.standard, {}};
        const bool of_board = is_at_or_below(as_found(k.name), "sanding") || k.name == sanding_doubt;
        const bool of_wire = is_at_or_below(as_found(k.name), "wire");
        for (std::size_t i = 0; i < out.after.size(); ++i) {
            const bool done = sets_up(out.after[i]) || (of_board && bench_stage::sand_board <= out.after[i]) ||
                              (of_wire && bench_stage::fit_frets <= out.after[i]);
            if (done) { add(d, i, k.planned); }
        }
        if (keep(std::move(d))) { out.of_work.push_back(k); }
    }
    for (known_doubt& k : left_by_first_cuts(*s, cuts)) {
        doubt d{k.name, k.standard, {}};
        for (std::size_t i = 0; i < out.after.size(); ++i) {
            if (stands_after(k, out.after[i])) { add(d, i, k.planned); }
        }
        if (!keep(std::move(d))) { continue; }
        if (!stands_after(k, *out.done())) { k.planned.clear(); }
        out.of_work.push_back(std::move(k));
    }
    return doubts;
}

/// Replaces the place of a reading among those taken by its place in the job.
inline void name_by_place_in_job(std::string& text, const std::vector<std::size_t>& places) {
    const std::string_view list = "readings[";
    const std::size_t at = text.find(list);
    if (at == std::string::npos) { return; }
    const std::size_t end = text.find(']', at) + 1;
    const auto k = item_of(std::string_view(text).substr(at, end - at), 0);
    if (k && *k < places.size()) { text.replace(at, end - at, messages::path_of("readings", places[*k])); }
}

} // namespace kernel

/// Reconciles the instrument of a job with its readings.
/// @param s the job, worked and planned by the readings as found; needed for readings that were taken after a step. Null:
/// only the readings as found are taken
/// @param cuts what the steps of `s` told to leave standing by the first cuts: it is taken to stand there in what is read
/// before the last cut; null: nothing was left
/// @param aside places of inputs and readings, inputs first, that count for nothing (`reconcile_settings`)
/// @throws invalid_input for a job that is not valid, and with all that is wrong with the readings, by the job's paths
template <class = when_used>
[[nodiscard]] job_readings reconcile_job(const bench_job& j, const job_setups* s = nullptr,
                                         const first_cuts* cuts = nullptr, std::span<const std::size_t> aside = {}) {
    require_valid(j);
    job_readings out;
    out.model = kernel::read_as_found(j);
    const string_names names = names_of(courses_of(j.instrument), j.strings);
    std::vector<reading> taken;
    std::vector<std::size_t> places;
    std::vector<problem> wrong;
    for (std::size_t i = 0; i < j.readings.size(); ++i) {
        const noted_reading& n = j.readings[i];
        if (!n.after.empty() && !s) { continue; }
        auto r = read_note(n, names, j.objects, [](auto&&...) {});
        std::string_view key = "when";
        try {
            (void)find_state(out.model, r->state);
            key = "after";
            if (!n.after.empty()) {
                const bench_stage stage = kernel::step_before(j, n.after);
                const std::size_t place = kernel::after_step(j, *s, cuts, stage, out);
                r->state = kernel::state_after(j, out.model, r->state, stage, place);
            }
        } catch (const invalid_input& unknown) {
            wrong.push_back({messages::path_of("readings", i, key), key == "when" ? n.when : n.after,
                             unknown.problems().front().allowed});
            continue;
        }
        taken.push_back(*std::move(r));
        places.push_back(i);
    }
    if (!wrong.empty()) { throw invalid_input(std::move(wrong)); }
    // An instrument that cannot stand at all is reported as it is, not as a state of the readings.
    if (!taken.empty()) { (void)solve(out.model.at_pitch); }
    const auto doubts = kernel::turned_by(j, s, cuts, out);
    try {
        reconcile_settings settings;
        settings.fit.huber = j.adjusting.huber;
        settings.aside = aside;
        out.said = reconcile(out.model, doubts, kernel::pairs_of(j, doubts), taken, settings);
    } catch (const invalid_input& e) {
        auto problems = e.problems();
        for (problem& p : problems) {
            if (is_at_or_below(p.field, "rod_screw")) { p.field.insert(0, "wanted."); }
            const std::string_view state = "state \"";
            if (p.field.starts_with(state)) {
                const auto i = find_state(
                    out.model, std::string_view(p.field).substr(state.size(), p.field.size() - state.size() - 1));
                p.field = i && *i < j.states.size() ? messages::path_of("states", *i) : std::string("readings");
            }
            for (std::string* text : {&p.field, &p.allowed}) { kernel::name_by_place_in_job(*text, places); }
        }
        throw invalid_input(std::move(problems));
    }
    for (reconciled_input& i : out.said.inputs) { kernel::tell_as_written(j, i); }
    if (!j.planned) { return out; }
    const string_names then = names_of(courses_of(j.planned->changes.values), j.last_strings());
    for (reconciled_input& i : out.said.inputs) {
        if (is_planned(i.name)) { i.words = messages::joined({input_in_words(as_found(i.name), then), ", as planned"}); }
    }
    return out;
}
TAUTLINE_HELD(job_readings reconcile_job<>(const bench_job&, const job_setups*, const first_cuts*,
                                           std::span<const std::size_t>))

/// The setups of a job whose instrument is reconciled: as found, and planned from how it stands after the steps that are
/// done, as far as readings follow them.
template <class = when_used>
[[nodiscard]] job_setups setups_read(const bench_job& j, const job_readings& read) {
    job_setups s = setups_of(j, read.said.adjusted.at_pitch);
    const auto done = read.done();
    if (!done) { return s; }
    const auto at = std::find(read.after.begin(), read.after.end(), *done) - read.after.begin();
    const strung_instrument& now = read.said.adjusted.after_work[static_cast<std::size_t>(at)];
    if (kernel::sets_up(*done)) {
        // The neck is already reset: the rest is set without turning it again, and what lies on the body stays.
        auto wanted = j.wishes_or_none();
        wanted.reset.reset();
        s.stood.reset(); // what was planned by value is done
        kernel::plan_from<double>(j, now, wanted, s);
    } else {
        kernel::work_and_plan_in_rounds<double>(j, now, kernel::work_after(j, now, *done), s);
        s.objects = kernel::objects_after(j, s);
    }
    kernel::seat_objects(s);
    return s;
}
TAUTLINE_HELD(job_setups setups_read<>(const bench_job&, const job_readings&))

} // namespace tautline
