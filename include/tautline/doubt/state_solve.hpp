#pragma once
/// @file
/// Solving an instrument in the state in which it is read, and the values of its readings there.
///
/// Source: statics, as in setup/. A weight F hung at x_F bends the neck by the moment `-F (x - x_F)` from there to the
/// joint. The nut comes down by as much as that place does under the same weight at the nut (reciprocity of J. C. Maxwell
/// and E. Betti, from memory).

#include "../core/when_used.hpp"
#include "../setup/solve.hpp"
#include "reading.hpp"

namespace tautline {

/// A solved state.
template <class R = double>
struct basic_solved_state {
    using real = R;
    basic_setup<R> setup;                ///< of a slack instrument: without strings and what depends on them
    std::optional<length<R>> nut_drop{}; ///< of the nut under the hung weight, at once, before the neck creeps
    std::optional<int> capo{};           ///< the fret at which all strings are held down
};
using solved_state = basic_solved_state<double>;

namespace kernel {

/// What lies on a neck without strings, once it is bent.
template <class R>
void lay_on_slack_neck(const basic_instrument<R>& built, basic_setup<R>& out) {
    lift_nut<R>(built, out.bow.nut_rise(), out);
    place_frets(built, out);
    carry_line_to_saddle(built, out);
}

/// Solves the neck and its frets without strings, with the rod as it is.
template <class R>
void solve_slack(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations) {
    require_valid(on);
    const auto& built = on.instrument;
    neck_of(built, out.neck);
    try {
        tautline::make_beam(out.neck, stations, out.beam);
    } catch (const invalid_input& wrong) {
        throw invalid_input(named_by_measures(wrong.problems(), out.neck.stations.size()));
    }
    out.strings.clear();
    out.pulls.clear();
    out.top.reset();
    out.top_force.reset();
    out.tailpiece_rise.reset();
    out.tailpiece_press.reset();
    out.bar_force.reset();
    bend<R>(out.beam, out.pulls, built.neck.pull_of_rod(), out.bow);
    lay_on_slack_neck(built, out);
}

/// Solves the instrument at pitch, with its notes or without.
template <class R>
void solve_strung(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations, bool sounds) {
    solve_silent(on, out, stations);
    if (sounds) { sound(on.instrument, on.stringing, out); }
}

/// The bow of a slack beam under a weight that hangs at `x` and acts at once, before the neck creeps under it.
template <class R>
void bend_under_weight(const basic_neck_beam<R>& beam, const force<R>& rod_pull, const force<R>& weight, const length<R>& x,
                       basic_bow<R>& loaded) {
    auto problem = checked_problem<R>(beam, {}, rod_pull);
    // A neck without strings bends in proportion to its load: this much of it, with creep, is all of it without.
    const force<R> at_once = weight / beam.creep_factor;
    problem.strings.per_x = -at_once;
    problem.strings.at_zero = at_once * x;
    require_stands(problem, bend(problem, loaded));
}

/// Hangs a weight on the slack neck of a solved setup: bends it, moves what lies on it, and returns how far the nut comes
/// down.
template <class R>
[[nodiscard]] length<R> hang_weight(const basic_instrument<R>& built, const force<R>& weight, int at_fret,
                                    basic_setup<R>& slack) {
    const force<R> pull = built.neck.pull_of_rod();
    const length<R> x = at_fret == 0 ? length<R>() : fret_place(built, at_fret);
    basic_bow<R> loaded;
    bend_under_weight<R>(slack.beam, pull, weight, length<R>(), loaded);
    const length<R> drop = load_deflection_at<R>(slack.bow, x) - load_deflection_at<R>(loaded, x);
    if (at_fret != 0) {
        // Between nut and weight the neck bears nothing of it: what the moment's straight line has there is taken back.
        auto beam = slack.beam;
        for (const auto& step : beam.steps) {
            for (std::size_t k = 0; k < 3; ++k) {
                const length<R> there = step.x + step.span * number<R>(0.5L * static_cast<long double>(k));
                const length<R> ahead = select(is_less(there, x), length<R>(x - there), length<R>());
                beam.points[step.first + k].free_curvature =
                    slack.beam.points[step.first + k].free_curvature -
                    weight / beam.creep_factor * ahead * beam.points[step.first + k].bending_compliance;
            }
        }
        bend_under_weight<R>(beam, pull, weight, x, loaded);
    }
    std::swap(slack.bow, loaded);
    lay_on_slack_neck(built, slack);
    return drop;
}

} // namespace kernel

/// Index of a state among those described; nothing for "at pitch" and "slack".
/// @throws invalid_input where no state has that name
template <class R>
[[nodiscard]] std::optional<std::size_t> find_state(const basic_read_instrument<R>& model, std::string_view name) {
    if (name == pitch_state || name == slack_state) { return std::nullopt; }
    std::string known = messages::joined({"must be one of: ", pitch_state, ", ", slack_state});
    for (std::size_t i = 0; i < model.states.size(); ++i) {
        if (model.states[i].name == name) { return i; }
        messages::append(known, {", ", model.states[i].name});
    }
    messages::refuse("state", name, known);
}

/// Solves an instrument in a state, in place. The instrument is changed meanwhile and then restored.
/// @param sounds whether notes, and the setbacks that follow from them, are wanted; a solve without them is cheaper
/// @throws invalid_input where the instrument cannot stand in that state
template <class R>
void solve_state(basic_read_instrument<R>& model, std::string_view name, basic_solved_state<R>& out,
                 std::size_t stations = solve_stations, bool sounds = true) {
    out.nut_drop.reset();
    const auto place = find_state(model, name);
    out.capo = place ? model.states[*place].capo : std::nullopt;
    const auto later = place ? model.states[*place].after_work : std::nullopt;
    auto& on = later ? model.after_work[static_cast<std::size_t>(*later)] : model.at_pitch;
    if (!place) {
        if (name == slack_state) {
            kernel::solve_slack(on, out.setup, stations);
        } else {
            kernel::solve_strung(on, out.setup, stations, sounds);
        }
        return;
    }
    auto& state = model.states[*place];
    struct put_back {
        basic_strung_instrument<R>& on;
        basic_reading_state<R>& state;
        force<R> pull;
        bool turned, restrung;
        ~put_back() {
            if (turned || (state.rod_loose && on.instrument.neck.rod_pull)) { on.instrument.neck.rod_pull = pull; }
            if (restrung) { std::swap(on.stringing.strings, state.strings); }
        }
    } const as_before{on, state, on.instrument.neck.pull_of_rod(), !in_all_lanes(state.rod_turns == number<R>(0)),
                      !state.strings.empty()};
    std::optional<kernel::moist_meanwhile<R>> moist;
    if (state.air) {
        require_that(model.season.has_value(), "season", "must be given where a state has an air of its own");
        moist.emplace(on, *model.season, *state.air);
    }
    if (as_before.restrung) { std::swap(on.stringing.strings, state.strings); }
    if (as_before.turned) {
        require_valid(on);
        require_that(model.rod_screw.has_value(), "rod_screw", "must be given to turn the rod");
        neck_of(on.instrument, out.setup.neck);
        make_beam(out.setup.neck, stations, out.setup.beam);
        on.instrument.neck.rod_pull =
            as_before.pull + rod_pull_from_turns<R>(out.setup.beam, *model.rod_screw, state.rod_turns);
    }
    if (state.rod_loose && on.instrument.neck.rod_pull) { on.instrument.neck.rod_pull = force<R>(); }
    if (!state.slack) { return kernel::solve_strung(on, out.setup, stations, sounds); }
    kernel::solve_slack(on, out.setup, stations);
    if (state.weight) { out.nut_drop = kernel::hang_weight<R>(on.instrument, *state.weight, state.at_fret, out.setup); }
}
TAUTLINE_HELD(void solve_state<double>(read_instrument&, std::string_view, solved_state&, std::size_t, bool))

namespace kernel {

/// What a state leaves out: which numbers cannot move what is read in it.
struct state_scope {
    bool slack = false;                 ///< whether the strings are off
    bool sounds = false;                ///< whether notes are read
    bool fanned = false;                ///< whether the spacings of the strings place the frets
    std::optional<std::size_t> later{}; ///< which of the instruments after some work it is of

    /// Whether the number with a path may move what is read. With the strings off, neck and frets are all that counts;
    /// where their line passes the saddle is told from the board's line there.
    [[nodiscard]] bool may_be_moved_by(std::string_view path) const {
        constexpr std::string_view after_work = "after_work[", beside[] = {"rod_screw", "states", "gauges", "season"};
        const bool of_later = path.starts_with(after_work);
        if (of_later) {
            if (!later || item_of(path, 0) != *later) { return false; }
            path.remove_prefix(std::min(path.find("].") + 2, path.size()));
        }
        const auto below = [&path](std::string_view part) { return is_at_or_below(path, part); };
        if (std::any_of(std::begin(beside), std::end(beside), below)) { return true; }
        if (later && !of_later) { return false; }
        if (below("playing")) { return sounds; }
        if (!slack) { return true; }
        constexpr std::string_view of_strings[] = {"strings",     "standard",     "headstock", "posts",
                                                   "tailpiece",   "pins",         "tie_block", "feet",
                                                   "body_bridge", "pressing_bar", "soundboard"};
        if (std::any_of(std::begin(of_strings), std::end(of_strings), below)) { return false; }
        return fanned || !(below("nut") || (below("saddle") && !below("saddle.board_line")));
    }
};
/// What a state leaves out.
template <class = when_used>
[[nodiscard]] state_scope scope_of(const read_instrument& model, std::string_view name, bool sounds) {
    const auto place = find_state(model, name);
    state_scope of{.slack = name == slack_state, .sounds = sounds};
    if (place) {
        const auto& state = model.states[*place];
        of.slack = state.slack;
        if (state.after_work) { of.later = static_cast<std::size_t>(*state.after_work); }
    }
    const auto& on = of.later ? model.after_work[*of.later] : model.at_pitch;
    of.fanned = on.instrument.board.scale.fan.has_value();
    return of;
}

/// Height of a string over a fret while it is held down at another. From the held fret it runs straight to the saddle and
/// straight to the nut. Holding it down also raises its pull, which moves neck and top by some hundredths of what they
/// have moved; that is left out.
template <class R>
[[nodiscard]] length<R> height_held(const basic_setup<R>& s, std::size_t string, std::size_t over_fret, std::size_t held) {
    const auto& one = s.strings[string];
    if (over_fret == held) { return length<R>(); }
    const auto& crest_x = s.crest_places(one);
    const length<R> from_x = crest_x[held], from_z = one.crest_z[held];
    const bool ahead = held < over_fret;
    const length<R> to_x = ahead ? one.line.saddle_x : one.line.nut_x, to_z = ahead ? one.line.saddle_z : one.line.nut_z;
    return line_height<R>(from_x, from_z, to_x, to_z, crest_x[over_fret]) - one.crest_z[over_fret];
}

/// Value of a reading in a solved state, without its gauge; nothing where that state has no such thing.
template <class R>
[[nodiscard]] std::optional<R> read_in(const basic_solved_state<R>& solved, readable what, const reading& r) {
    const basic_setup<R>& s = solved.setup;
    const std::size_t i = item_of(r.path, 0).value_or(0), k = item_of(r.path, 1).value_or(0);
    const auto of_string = [&](auto&& value) -> std::optional<R> {
        if (i >= s.strings.size()) { return std::nullopt; }
        return value(s.strings[i]);
    };
    const auto entry = [k](const auto& list, auto&& value) -> std::optional<R> {
        if (k >= list.size()) { return std::nullopt; }
        return value(list[k]);
    };
    const auto if_there = [](const auto& optional) -> std::optional<R> {
        if (!optional) { return std::nullopt; }
        return optional->value();
    };
    if (solved.capo && what != readable::height) { return std::nullopt; }
    switch (what) {
    case readable::relief_gap:
        return s.relief ? std::optional<R>(s.relief->gap.value()) : std::nullopt;
    case readable::height:
        // A short string that begins at the capo or beyond passes it free.
        if (solved.capo && i < s.strings.size() && k < s.fret_x.size() &&
            s.strings[i].frets_behind < static_cast<std::size_t>(*solved.capo)) {
            return height_held(s, i, k, static_cast<std::size_t>(*solved.capo - 1)).value();
        }
        return of_string([&](const auto& one) { return entry(one.heights, [](const auto& h) { return h.value(); }); });
    case readable::gap:
        return of_string([&](const auto& one) -> std::optional<R> {
            if (!r.object) { return std::nullopt; }
            return object_clearance<R>(over<R>(*r.object), one.line).least().value();
        });
    case readable::top_drop:
        return s.top ? std::optional<R>(s.top->drop.value()) : std::nullopt;
    case readable::top_sink:
        return s.top ? std::optional<R>(s.top->sink.value()) : std::nullopt;
    case readable::line_at_saddle:
        return if_there(s.line_at_saddle);
    case readable::note:
        return of_string([&](const auto& one) { return entry(one.notes, [](const auto& n) { return n.error.cents(); }); });
    case readable::break_at_saddle:
        return of_string([](const auto& one) { return std::optional<R>(one.at_saddle.break_angle.value()); });
    case readable::break_at_nut:
        return of_string([](const auto& one) { return std::optional<R>(one.at_nut.break_angle.value()); });
    case readable::nut_drop:
        return if_there(solved.nut_drop);
    case readable::tailpiece_rise:
        return if_there(s.tailpiece_rise);
    case readable::octave_setback:
        return of_string([&](const auto& one) { return if_there(one.octave_setback); });
    }
    return std::nullopt;
}

} // namespace kernel

} // namespace tautline
