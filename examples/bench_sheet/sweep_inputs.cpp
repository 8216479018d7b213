#include "sweep_inputs.hpp"

#include <cmath>
#include <cstdlib>

#include "typed_path.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t most_values = 100'000;

/// Calls `f.operator()<U>()` for the unit whose kind has a name, of those that can be typed.
template <class F>
void of_kind(std::string_view kind, F&& f) {
    namespace unit = tl::unit;
    const auto each = [&]<class... Units>() {
        (void)((kind == tl::kind<Units>::name && (f.template operator()<Units>(), true)) || ...);
    };
    each.template operator()<unit::length, unit::force, unit::stress, unit::angle, unit::frequency, unit::density,
                             unit::stiffness, unit::rotational_stiffness>();
}
/// A text as the number of a kind in SI, or nothing.
std::optional<double> parsed(std::string_view kind, std::string_view text) {
    std::optional<double> si;
    if (kind == "number" || kind == "interval") {
        char* end = nullptr;
        const std::string copy(text);
        const double v = std::strtod(copy.c_str(), &end);
        return !copy.empty() && *end == '\0' && std::isfinite(v) ? std::optional(v) : std::nullopt;
    }
    of_kind(kind, [&]<class U>() {
        if (const auto q = tl::parse_quantity<tl::bu::quantity<U, double>>(text)) { si = q->value(); }
    });
    return si;
}
/// "a length with its unit (mm, cm, ...)"
std::string expected_of(std::string_view kind) {
    std::string units;
    of_kind(kind, [&]<class U>() { units = tl::unit_names<tl::bu::quantity<U, double>>(); });
    if (kind == "interval") { return "a number of cents"; }
    if (units.empty()) { return "a number"; }
    std::string name(kind);
    std::replace(name.begin(), name.end(), '_', ' ');
    return (name.front() == 'a' ? "an " : "a ") + name + " with its unit (" + units + ")";
}

struct model_number {
    std::string path;
    const char* kind;
};
/// The number of the model that an input names: a path, or the gauge of a plain string as the file has it.
model_number find_input(const tl::strung_instrument& model, const std::string& option, const std::string& name) {
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
    const char* kind = nullptr;
    std::vector<std::string> paths;
    tl::for_each_leaf(model, [&](std::string_view at, const auto& x) {
        paths.emplace_back(at);
        if (at == path) { kind = tl::kind_name_of(x); }
    });
    if (!kind) {
        const std::vector<std::string_view> known(paths.begin(), paths.end());
        throw wrong_option(option, shown(name),
                           "the name of a number of the instrument or its strings, such as " +
                               nearest_or(name, known, "saddle.height_bass"));
    }
    return {path, kind};
}
/// @param what the option and the input, for a mistake
double value_of_text(const model_number& n, const std::string& what, const std::string& text) {
    std::string_view trimmed = text;
    while (trimmed.starts_with(' ')) { trimmed.remove_prefix(1); }
    while (trimmed.ends_with(' ')) { trimmed.remove_suffix(1); }
    const auto si = parsed(n.kind, trimmed);
    if (!si) { throw wrong_option(what, shown(trimmed), expected_of(n.kind)); }
    return *si;
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
        const auto n = find_input(model, "--vary", r.ranges[i]);
        const std::string what = "--vary " + shown(r.ranges[i]);
        const double from = value_of_text(n, what + ", from,", r.ranges[i + 1]),
                     to = value_of_text(n, what + ", to,", r.ranges[i + 2]);
        const auto count = parsed("number", r.ranges[i + 3]);
        if (!count || *count < 1 || *count > most_values || *count != std::floor(*count)) {
            throw wrong_option(what + ", how many,", shown(r.ranges[i + 3]),
                               "a whole number of values, 1 to " + std::to_string(most_values));
        }
        tl::knob k{n.path, n.kind, {}};
        const auto steps = static_cast<std::size_t>(*count);
        for (std::size_t s = 0; s < steps; ++s) {
            k.values.push_back(steps == 1 ? from
                                          : from + (to - from) * static_cast<double>(s) / static_cast<double>(steps - 1));
        }
        add(std::move(k), "--vary", r.ranges[i]);
    }
    for (std::size_t i = 0; i + 1 < r.lists.size(); i += 2) {
        const auto n = find_input(model, "--through", r.lists[i]);
        tl::knob k{n.path, n.kind, {}};
        std::string_view rest = r.lists[i + 1];
        for (;;) {
            const std::size_t comma = std::min(rest.find(','), rest.size());
            k.values.push_back(value_of_text(n, "--through " + shown(r.lists[i]), std::string(rest.substr(0, comma))));
            if (comma == rest.size()) { break; }
            rest.remove_prefix(comma + 1);
        }
        add(std::move(k), "--through", r.lists[i]);
    }
    return knobs;
}

} // namespace bench_sheet
