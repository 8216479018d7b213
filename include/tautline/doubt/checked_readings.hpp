#pragma once
/// @file
/// Whether an instrument can be reconciled with readings, and what is said of readings that do not allow it.

#include <cmath>

#include "../core/when_used.hpp"
#include "read_model.hpp"

namespace tautline::kernel {

/// Why a string has nothing to read at a fret: it begins at a nut of its own further on, or it is held down there. Empty
/// where neither is so.
template <class = when_used>
[[nodiscard]] std::string why_not_over(const read_instrument& model, const reading& r, std::size_t fret) {
    const std::size_t string = item_of(r.path, 0).value_or(0);
    const auto& own = model.at_pitch.instrument.short_strings;
    if (string < own.size() && static_cast<int>(fret) <= own[string].fret) {
        string_names names;
        name_strings(model.at_pitch.instrument, model.at_pitch.stringing, names);
        return messages::joined({"must be further up: ", names.name(string), " begins at fret ", own[string].fret});
    }
    const auto place = find_state(model, r.state);
    if (place && model.states[*place].capo && *model.states[*place].capo == static_cast<int>(fret)) {
        return messages::joined(
            {"must be at another fret: in \"", r.state, "\" the string is held down at fret ", fret, " and touches it"});
    }
    return {};
}
/// Why a solved state has no such thing to read, in a sentence.
template <class = when_used>
[[nodiscard]] std::string why_not_there(const read_instrument& model, const reading& r, readable what, bool strings_off) {
    string_names names;
    name_strings(model.at_pitch.instrument, model.at_pitch.stringing, names);
    const auto& built = model.at_pitch.instrument;
    if (const auto place = find_state(model, r.state); place && model.states[*place].capo && what != readable::height) {
        return messages::joined({"must be a height in \"", r.state,
                                 "\", where the strings are held down: nothing else is "
                                 "worked out then"});
    }
    const bool of_string = r.path.starts_with("strings[");
    if (strings_off && !find_readable(r.path)->without_strings) {
        return messages::joined({"must be read with the strings at pitch: in \"", r.state, "\" they are off"});
    }
    if (of_string && item_of(r.path, 0).value_or(0) >= model.at_pitch.stringing.strings.size()) {
        return messages::joined({"must be of a string that is there: ", names.range()});
    }
    switch (what) {
    case readable::relief_gap:
        return "must be of a board with three frets and more up to the joint";
    case readable::height:
    case readable::note:
        return messages::joined({"must be at a fret that is there: 1 to ", built.board.scale.frets});
    case readable::gap:
        return "must say what lies under the string: its object";
    case readable::top_drop:
    case readable::top_sink:
        return "must be of a soundboard whose stiffness is given, even if only roughly, with its doubt: "
               "soundboard.sink_stiffness";
    case readable::line_at_saddle:
        return "must be of a board with two frets and more";
    case readable::nut_drop:
        return "must be read in a state with a weight on the slack neck";
    case readable::tailpiece_rise:
        return "must be of an instrument whose strings end on a tailpiece that hangs";
    case readable::octave_setback:
        return "must be of a string whose octave fret a saddle near by can set true";
    case readable::break_at_saddle:
    case readable::break_at_nut:
        break;
    }
    return "must be of something that is there";
}

/// All that is wrong with readings, before anything is solved.
template <class = when_used>
[[nodiscard]] std::vector<problem> wrong_with(const read_instrument& model, std::span<const reading> readings) {
    std::vector<problem> wrong;
    for (std::size_t k = 0; k < readings.size(); ++k) {
        const reading& r = readings[k];
        const std::string here = messages::path_of("readings", k);
        const auto say = [&](std::string_view value, std::string rule) {
            wrong.push_back({here, std::string(value), std::move(rule)});
        };
        const auto thing = find_readable(r.path);
        if (!thing) {
            say(r.path, messages::joined({"must be something that can be read: ", readable_paths()}));
            continue;
        }
        try {
            (void)find_state(model, r.state);
        } catch (const invalid_input& unknown) { say(r.state, unknown.problems().front().allowed); }
        if (!r.value.has_value() || !(std::abs(r.value.si()) <= 1e6)) {
            say("", "must have a value, as read");
        } else if (r.value.kind() != thing->kind) {
            say(r.path, messages::joined({"must be given as a ", thing->kind}));
        }
        if (auto text = why_no_break(thing->what, r.value); !text.empty()) { say(bench_text(r.value), std::move(text)); }
        for (const any_quantity* doubt : {&r.standard, &r.model}) {
            if (!doubt->has_value()) { continue; }
            if (doubt->kind() != thing->kind) { say("", messages::joined({"must have a doubt that is a ", thing->kind})); }
            if (doubt == &r.standard && !(0 < doubt->si() && doubt->si() <= 1e6)) {
                say("", "must have a doubt of more than 0: a reading without one is no reading");
            }
            if (doubt == &r.model && !(0 <= doubt->si() && doubt->si() <= 1e6)) {
                say("", "must have a doubt of the model of at least 0");
            }
        }
        if (r.object && !is_valid(*r.object)) {
            for (problem& p : validate(*r.object, here + ".object")) { wrong.push_back(std::move(p)); }
        }
        bool gauge_there = r.gauge.empty();
        std::string gauges;
        for (const auto& g : model.gauges) {
            gauge_there = gauge_there || g.name == r.gauge;
            messages::append(gauges, {gauges.empty() ? "" : ", ", g.name});
        }
        if (!gauge_there) {
            say(r.gauge, messages::joined({"must be taken with a gauge that is described: ",
                                           gauges.empty() ? "there is none" : gauges.c_str()}));
        }
        if (!r.gauge.empty() && thing->kind != "length") { say(r.gauge, "must be a length to be read with a gauge"); }
        for (std::size_t l = 0; l < k; ++l) {
            const reading& other = readings[l];
            const auto under = [](const reading& one) { return one.object ? number_of(one.object->x) : 0; };
            if (other.path == r.path && other.state == r.state && other.gauge == r.gauge && under(other) == under(r)) {
                say(r.path,
                    messages::joined({"must be read once in a state with a gauge: it is ", messages::path_of("readings", l),
                                      " already; give the mean of several, with its doubt"}));
            }
        }
    }
    return wrong;
}
TAUTLINE_HELD(std::vector<problem> wrong_with<>(const read_instrument&, std::span<const reading>))

/// Refuses readings that the instrument cannot be reconciled with. The model is solved with its inputs as read.
template <class = when_used>
void require_readings(const read_instrument& model, std::span<const reading> readings, read_model& fitted) {
    for (std::size_t s = 0; s < fitted.states().size(); ++s) {
        try {
            fitted.solve_as_read(s);
        } catch (const invalid_input& wrong) {
            std::vector<problem> all{{messages::joined({"state \"", fitted.states()[s], "\""}), "",
                                      "must be one that the instrument as read can stand in; correct what is wrong first"}};
            for (const problem& p : wrong.problems()) { all.push_back(p); }
            throw invalid_input(std::move(all));
        }
    }
    std::vector<problem> wrong;
    for (std::size_t k = 0; k < readings.size(); ++k) {
        const auto value = fitted.last_read(k);
        const auto& r = readings[k];
        const auto fret = item_of(r.path, 1);
        if (auto text = fret ? why_not_over(model, r, *fret + 1) : std::string(); !text.empty()) {
            wrong.push_back({messages::path_of("readings", k, "fret"), messages::joined({*fret + 1}), std::move(text)});
            continue;
        }
        if (value && std::isfinite(*value)) { continue; }
        const auto place = find_state(model, r.state);
        const bool off = r.state == slack_state || (place && model.states[*place].slack);
        wrong.push_back(
            {messages::path_of("readings", k), r.path, why_not_there(model, r, find_readable(r.path)->what, off)});
    }
    if (!wrong.empty()) { throw invalid_input(std::move(wrong)); }
}

} // namespace tautline::kernel
