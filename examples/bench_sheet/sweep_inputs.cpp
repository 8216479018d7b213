#include "sweep_inputs.hpp"

#include <cmath>

#include <tautline/core/by_path.hpp>

#include "typed_path.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t most_values = 100'000;

/// The number of the model that an input names: a path, or the gauge of a plain string as the file has it.
std::string find_input(const tl::strung_instrument& model, const std::string& option, const std::string& name) {
    const tl::string_names names = tl::names_of(model.instrument, model.strung);
    std::string path = typed_path(name, names, option);
    if (const auto i = tl::string_of_path(path); i && *i >= names.size()) {
        throw wrong_option(option, shown(name), "a string that is there; there are " + names.range());
    }
    if (const auto i = tl::string_of_path(path); i && path == tl::messages::path_of("strings", *i, "gauge")) {
        if (!model.strung.strings[*i].string.layers.empty()) {
            throw wrong_option(option, shown(name),
                               "the gauge of a plain string; of a wound one vary string.core.diameter or "
                               "string.layers[0].thickness");
        }
        path = tl::messages::path_of("strings", *i, "string.core.diameter");
    }
    if (path == "a4") { path = "standard.a4"; }
    if (!tl::find_at(model, path).has_value()) {
        const auto paths = tl::paths_of(model);
        const std::vector<std::string_view> known(paths.begin(), paths.end());
        throw wrong_option(option, shown(name),
                           "the name of a number of the instrument or its strings, such as " +
                               nearest_or(name, known, "saddle.height_bass"));
    }
    return path;
}
/// @param what the option and the input, for a mistake
tl::any_quantity value_of_text(tl::kind_name kind, const std::string& what, std::string_view text) {
    const auto value = tl::parse_any(kind, text);
    if (!value) { throw wrong_option(what, shown(text), tl::typed_as(kind)); }
    return *value;
}

} // namespace

std::vector<tl::knob> knobs_of(const tl::strung_instrument& model, const sweep_request& r) {
    std::vector<tl::knob> knobs;
    const auto add = [&](tl::knob k, const std::string& option, const std::string& name) {
        for (const tl::knob& other : knobs) {
            if (other.path == k.path) { throw wrong_option(option, shown(name), "each number to be varied once"); }
        }
        knobs.push_back(std::move(k));
    };
    for (std::size_t i = 0; i + 3 < r.ranges.size(); i += 4) {
        const std::string path = find_input(model, "--vary", r.ranges[i]);
        const tl::kind_name kind = tl::kind_of(model, path);
        const std::string what = "--vary " + shown(r.ranges[i]);
        const auto from = value_of_text(kind, what + ", from,", r.ranges[i + 1]),
                   to = value_of_text(kind, what + ", to,", r.ranges[i + 2]);
        const auto count = tl::parse_any("number", r.ranges[i + 3]);
        if (!count || count->si() < 1 || count->si() > most_values || count->si() != std::floor(count->si())) {
            throw wrong_option(what + ", how many,", shown(r.ranges[i + 3]),
                               "a whole number of values, 1 to " + std::to_string(most_values));
        }
        tl::knob k = tl::knob_between(path, from, to, static_cast<std::size_t>(count->si()));
        add(std::move(k), "--vary", r.ranges[i]);
    }
    for (std::size_t i = 0; i + 1 < r.lists.size(); i += 2) {
        const std::string path = find_input(model, "--through", r.lists[i]);
        const tl::kind_name kind = tl::kind_of(model, path);
        tl::knob k{path, {}};
        std::string_view rest = r.lists[i + 1];
        for (;;) {
            const std::size_t comma = std::min(rest.find(','), rest.size());
            k.values.push_back(
                value_of_text(kind, "--through " + shown(r.lists[i]), tl::spelling::trimmed(rest.substr(0, comma))));
            if (comma == rest.size()) { break; }
            rest.remove_prefix(comma + 1);
        }
        add(std::move(k), "--through", r.lists[i]);
    }
    return knobs;
}

} // namespace bench_sheet
