// Answers for a ready-made instrument in two states: its numbers while sliders move, and what moves each number.

#include <array>
#include <charconv>
#include <map>
#include <optional>

#include <side_view.hpp>
#include <svg.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/explanation.hpp>
#include <tautline/job/input_words.hpp>
#include <tautline/job/numbered_paths.hpp>
#include <tautline/setup/findings_told.hpp>
#include <tautline/setup/tightest.hpp>

#include "answers.hpp"
#include "json.hpp"
#include "slider_model.hpp"

namespace page {

namespace {

using namespace tl::units;

struct slider {
    const char* key;
    const char* words;
    const char* unit; ///< the unit after its number; empty for a plain number
    double size;      ///< size of the unit in SI
    double least, most, step;
    int decimals;
};
constexpr slider all_sliders[] = {{"set", "all gauges, times", "", 1, 0.7, 1.3, 0.01, 2},
                                  {"one", "that string\xE2\x80\x99s gauge alone, times", "", 1, 0.7, 1.3, 0.01, 2},
                                  {"radius", "radius of the board", "mm", 1e-3, 120, 600, 5, 0},
                                  {"crown", "height of the crowns", "mm", 1e-3, 0.5, 1.6, 0.01, 2},
                                  {"saddle", "saddle higher", "mm", 1e-3, -3, 3, 0.05, 2},
                                  {"rod", "pull of the rod", "N", 1, 0, 3000, 20, 0},
                                  {"humidity", "humidity of the air, %", "", 1, 20, 80, 1, 0}};

const slider* slider_of(std::string_view key) {
    for (const slider& s : all_sliders) {
        if (key == s.key) { return &s; }
    }
    return nullptr;
}

const tl::ready_made::named& instrument_of(const question& q) {
    if (const auto* found = tl::ready_made::find_instrument(q.value("instrument"))) { return *found; }
    throw tl::invalid_input(tl::problem{"instrument", '"' + std::string(q.value("instrument")) + '"',
                                        "must be one of the ready-made instruments"});
}
tl::measures units_of(const question& q) {
    return q.value("units") == "imperial" ? tl::measures::imperial
           : q.value("units") == "both"   ? tl::measures::both
                                          : tl::measures::metric;
}

/// The places of the sliders of one state.
struct places {
    tl::ordered_instrument made;
    slider_places at;
    std::size_t string = 0; ///< the string that has a slider of its own
};
places places_of(const question& q, std::string_view state) {
    const tl::ordered_instrument made = instrument_of(q).make();
    places p{made, as_made(made.instrument), made.strings.size() - 1};
    const std::string prefix = std::string(state) + ".";
    for (const auto& [key, value] : q.values()) {
        if (!key.starts_with(prefix)) { continue; }
        const std::string_view name = key.substr(prefix.size());
        if (name == "string") {
            (void)std::from_chars(value.data(), value.data() + value.size(), p.string);
            tl::require_that(p.string < p.made.strings.size(), "string", "must be one that the instrument has");
        } else {
            tl::set(p.at, name, value);
        }
    }
    tl::require_valid(p.at, "");
    return p;
}

/// The results of the whole instrument that are shown.
constexpr std::array shown_of_all{"relief.gap",     "nut_rise",        "total_tension",    "down_force",
                                  "top_force",      "tailpiece_rise",  "tailpiece_press",  "top.drop",
                                  "line_at_saddle", "bass_relief.gap", "treble_relief.gap"};

struct column {
    const char* head;
    std::string path; ///< path after "strings[i]."
};
/// The results of one string that are shown.
std::vector<column> columns_of(const tl::setup& s, std::size_t i) {
    const auto& one = s.strings[i];
    const std::size_t behind = one.frets_behind, octave = static_cast<std::size_t>(s.octave_fret) + behind;
    const auto entry = [](const char* list, std::size_t k, const char* more = "") {
        return list + ("[" + std::to_string(k)) + "]" + more;
    };
    std::vector<column> all{{"gauge", "gauge"}, {"tension", "tension"}, {"of strength", "share_of_strength"}};
    if (one.heights.size() > behind) { all.push_back({"over its first fret", entry("heights", behind)}); }
    if (s.octave_fret > 0 && octave <= one.heights.size()) {
        all.push_back({"over its octave", entry("heights", octave - 1)});
        all.push_back({"octave sounds", entry("notes", octave - 1, ".error")});
    }
    if (const auto least = tl::tightest(one)) { all.push_back({"least room", entry("clearances", *least, ".gap")}); }
    all.push_back({"bends at the saddle", "at_saddle.break_angle"});
    all.push_back({"presses the saddle", "at_saddle.on_support.z"});
    all.push_back({"presses the nut", "at_nut.on_support.z"});
    return all;
}

/// A solved state, and all its numbers by path.
struct solved {
    std::string key{}; ///< the input that it was solved from
    tl::ordered_instrument made;
    drawing::subject is;
    std::map<std::string, tl::any_quantity, std::less<>> numbers{};
};

/// The input of a state as one text.
std::string key_of(const question& q, std::string_view state) {
    std::string key(q.value("instrument"));
    const std::string prefix = std::string(state) + ".";
    for (const auto& [name, value] : q.values()) {
        if (name.starts_with(prefix)) { key += "\n" + std::string(name.substr(prefix.size())) + "=" + std::string(value); }
    }
    return key;
}

/// The two latest states. While one slider moves, only "now" is solved again.
std::array<std::optional<solved>, 2> last_solved;

const solved& solved_state(const question& q, std::string_view state) {
    const std::size_t slot = state == "kept" ? 0 : 1;
    std::optional<solved>& mine = last_solved[slot];
    std::string key = key_of(q, state);
    if (mine && mine->key == key) { return *mine; }
    const auto& other = last_solved[1 - slot];
    if (other && other->key == key) {
        mine = other;
        return *mine;
    }
    const places p = places_of(q, state);
    auto on = slid(p.made, p.at, p.string);
    ++counts().solves;
    auto is = tl::solve(on);
    solved now{std::move(key), p.made, {on.instrument, on.stringing, std::move(is), {}, {}, {}, false}, {}};
    tl::for_each_leaf(now.is.setup,
                      [&](std::string_view path, const auto& x) { now.numbers.emplace(std::string(path), tl::any_of(x)); });
    mine = std::move(now);
    return *mine;
}

tl::any_quantity number_at(const solved& s, std::string_view path) {
    const auto at = s.numbers.find(path);
    return at == s.numbers.end() ? tl::any_quantity() : at->second;
}

/// The number that is shown. The library counts forces upward; a force that presses a support down is shown as positive.
tl::any_quantity as_told(std::string_view path, const tl::any_quantity& q) {
    return path.ends_with("on_support.z") ? -1.0 * q : q;
}
std::string shown_text(std::string_view path, const tl::any_quantity& q, tl::measures m) {
    if (!q.is_number()) { return "-"; }
    if (path.ends_with("share_of_strength")) { return std::to_string(std::lround(100 * q.si())) + " %"; }
    return tl::bench_text(q, {.units = m});
}
std::string change_text(std::string_view path, const tl::any_quantity& from, const tl::any_quantity& to, tl::measures m) {
    if (!from.is_number() || !to.is_number() || from.si() == to.si()) { return ""; }
    if (path.ends_with("share_of_strength") || shown_text(path, from, m) == shown_text(path, to, m)) { return ""; }
    return tl::bench_text(to - from, tl::shown_kind_of(to), {.units = m, .sign = true});
}
/// A number of both states.
std::string number_json(std::string_view path, const solved& kept, const solved& now, tl::measures m) {
    const auto was = as_told(path, number_at(kept, path)), is = as_told(path, number_at(now, path));
    return json::object({{"path", json::text(path)},
                         {"kept", json::text(shown_text(path, was, m))},
                         {"now", json::text(shown_text(path, is, m))},
                         {"change", json::text(change_text(path, was, is, m))},
                         {"kept_si", json::number(was.si())},
                         {"now_si", json::number(is.si())}});
}

std::string panels_json(const solved& kept, const solved& now, tl::measures m) {
    constexpr double width = 120; // mm of paper
    const bool alike = kept.key == now.key;
    const auto in = m == tl::measures::metric     ? drawing::measures::metric
                    : m == tl::measures::imperial ? drawing::measures::imperial
                                                  : drawing::measures::both;
    std::vector<std::string> all;
    for (const drawing::side_panel& p : drawing::side_panels(kept.is, alike ? nullptr : &now.is, in, width)) {
        const std::string told = "Seen from the side. " + p.heading +
                                 (alike ? "." : ". Dashed and grey is kept, unbroken is now.") +
                                 " Its numbers stand in the tables.";
        all.push_back(
            json::object({{"heading", json::text(p.heading)}, {"svg", json::text(drawing::svg_element(p.drawn, told))}}));
    }
    return json::list(all);
}

/// The name of an input in a job, with its words if there are any, and with its string.
std::string input_in_words(const std::string& path, const solved& s) {
    const std::string named = tl::path_with_string(path, s.is.setup.names, s.is.instrument.nut.slot_heights.size());
    const std::string_view pitch = "standard.a4";
    const tl::input_words* words = tl::words_of_input(path == pitch ? "a4" : std::string_view(path));
    return words ? std::string(words->words) + " (" + named + ")" : named;
}

} // namespace

std::string sliders(const question& q) {
    const tl::ordered_instrument made = instrument_of(q).make();
    const slider_places at = as_made(made.instrument);
    const tl::string_names names = tl::names_of(tl::courses_of(made.instrument), made.strings);
    std::vector<std::string> list, strings;
    tl::for_each_leaf(at, [&](std::string_view path, const auto& x) {
        const slider* s = slider_of(path);
        if (!s) { return; }
        const double stands = tl::number_of(x) / s->size;
        list.push_back(json::object({{"key", json::text(s->key)},
                                     {"words", json::text(s->words)},
                                     {"unit", json::text(s->unit)},
                                     {"least", json::number(std::min(s->least, stands))},
                                     {"most", json::number(std::max(s->most, stands))},
                                     {"step", json::number(s->step)},
                                     {"decimals", json::number(s->decimals)},
                                     {"made", json::number(stands)}}));
    });
    for (std::size_t i = 0; i < names.size(); ++i) { strings.push_back(json::text(names.label(i))); }
    return json::object({{"sliders", json::list(list)}, {"strings", json::list(strings)}});
}

std::string two_states(const question& q) {
    const tl::measures m = units_of(q);
    const solved& kept = solved_state(q, "kept");
    const solved& now = solved_state(q, "now");
    std::vector<std::string> whole, strings, heads, findings;
    for (const char* path : shown_of_all) {
        if (!number_at(now, path).is_number()) { continue; }
        whole.push_back(json::object(
            {{"words", json::text(tl::words_for(path, now.is.setup.names))}, {"number", number_json(path, kept, now, m)}}));
    }
    for (std::size_t i = 0; i < now.is.setup.strings.size(); ++i) {
        std::vector<std::string> cells;
        for (const column& c : columns_of(now.is.setup, i)) {
            const std::string path = "strings[" + std::to_string(i) + "]." + c.path;
            cells.push_back(json::object({{"head", json::text(c.head)}, {"number", number_json(path, kept, now, m)}}));
        }
        strings.push_back(json::object({{"name", json::text(now.is.setup.names.label(i))}, {"cells", json::list(cells)}}));
    }
    for (const tl::told_finding& f : tl::findings_told(now.is.setup.findings, now.is.setup.names)) {
        findings.push_back(
            json::object({{"severity", json::text(tl::name_of(f.severity))}, {"sentence", json::text(f.sentence)}}));
    }
    return json::object({{"panels", panels_json(kept, now, m)},
                         {"whole", json::list(whole)},
                         {"strings", json::list(strings)},
                         {"findings", json::list(findings)}});
}

std::string why(const question& q) {
    const tl::measures m = units_of(q);
    const std::string path(q.value("path"));
    const solved& now = solved_state(q, "now");
    const places p = places_of(q, "now");
    ++counts().explanations;
    // The effect of each slider: one run in dual numbers, with a slope for each.
    const auto by_slider = tl::explain<basic_sliders>(
        p.at, [&](const auto& at) { return tl::solve(slid(p.made, at, p.string)); }, path);
    std::vector<std::string> steps, inputs;
    for (const tl::moving_input& in : by_slider.inputs) {
        const slider& s = *slider_of(in.path);
        steps.push_back(json::object({{"key", json::text(in.path)},
                                      {"words", json::text(s.words)},
                                      {"step", json::text("+" + tl::number_text(s.step) + (*s.unit ? " " : "") + s.unit)},
                                      {"gives", json::text(tl::to_text(as_told(path, s.step * s.size * in.effect),
                                                                       {.units = m, .sign = true, .digits = 3}))},
                                      {"effect_si", json::number(in.effect.si())}}));
    }
    constexpr std::size_t inputs_shown = 6;
    const auto by_input = tl::explain(tl::strung_instrument{now.is.instrument, now.is.stringing}, path);
    for (std::size_t i = 0; i < by_input.inputs.size() && i < inputs_shown; ++i) {
        const auto& in = by_input.inputs[i];
        inputs.push_back(json::object({{"words", json::text(input_in_words(in.path, now))},
                                       {"value", json::text(tl::bench_text(in.value, {.units = m}))},
                                       {"gives", json::text(tl::to_text(as_told(path, in.for_one_percent()),
                                                                        {.units = m, .sign = true, .digits = 3}))},
                                       {"effect_si", json::number(in.effect.si())}}));
    }
    const auto meant = tl::meaning_of(path);
    return json::object({{"words", json::text(tl::words_for(path, now.is.setup.names))},
                         {"value", json::text(shown_text(path, as_told(path, by_input.value), m))},
                         {"value_si", json::number(by_input.value.si())},
                         {"formula", json::text(meant ? meant->formula : "")},
                         {"source", json::text(meant ? meant->source : "")},
                         {"more", json::text(meant ? meant->more : "")},
                         {"less", json::text(meant ? meant->less : "")},
                         {"steps", json::list(steps)},
                         {"inputs", json::list(inputs)}});
}

} // namespace page
