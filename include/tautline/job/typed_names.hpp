#pragma once
/// @file
/// Names of numbers as they are typed in a file, on a command line or in a form: a string by its number, an input by its
/// key in a job, a result with the state that lists write before it.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "asked_results.hpp"
#include "former_names.hpp"
#include "job_setups.hpp"

namespace tautline {

namespace kernel {

[[noreturn]] inline void refuse_name(std::string_view name, std::string_view what, std::string allowed) {
    throw invalid_input(problem{std::string(what), messages::joined({"\"", name, "\""}), std::move(allowed)});
}
/// Refuses a name: the message tells the nearest name, or an example of such names.
template <described T>
[[noreturn]] void refuse_name(std::string_view name, std::string_view what, std::string_view of, const T& model,
                              std::string_view path, std::string_view example) {
    const auto paths = paths_of(model);
    const std::vector<std::string_view> known(paths.begin(), paths.end());
    refuse_name(name, what, messages::joined({"must be the name of ", of, ", such as ", nearest_or(path, known, example)}));
}

} // namespace kernel

/// The path that a typed name means: "strings[0].tension" for "string 6.tension"; any other name stays as it is.
/// @param what what the name is given for, for the message
/// @throws invalid_input for a string that is not there, and for a name that was changed; the message tells the present
/// one
[[nodiscard]] inline std::string typed_path(std::string_view name, const string_names& names, std::string_view what) {
    const auto path = path_by_number(name, names);
    if (!path) {
        kernel::refuse_name(name, what, messages::joined({"must be of a string that is there; there are ", names.range()}));
    }
    if (const std::string now = present_name(*path); !now.empty()) {
        kernel::refuse_name(name, what, messages::joined({"is now named \"", now, "\""}));
    }
    return *path;
}

/// The path of a number of an instrument or its strings. The name may be a job's: "a4", or the gauge of a plain string,
/// "string 1.gauge".
/// @param what what the name is given for, for the message
/// @throws invalid_input where the name is of no such number; the message tells the nearest
template <class = when_used>
[[nodiscard]] std::string input_path(const strung_instrument& model, std::string_view name, std::string_view what) {
    const string_names names = names_of(model.instrument, model.stringing);
    std::string path = typed_path(name, names, what);
    if (const auto i = string_of_path(path)) {
        if (*i >= names.size()) {
            kernel::refuse_name(name, what,
                                messages::joined({"must be of a string that is there; there are ", names.range()}));
        }
        if (path == messages::path_of("strings", *i, "gauge")) {
            if (!model.stringing.strings[*i].string.layers.empty()) {
                kernel::refuse_name(name, what,
                                    "must be the gauge of a plain string; of a wound one vary string.core.diameter or "
                                    "string.layers[0].thickness");
            }
            path = messages::path_of("strings", *i, "string.core.diameter");
        }
    }
    if (path == "a4") { path = "standard.a4"; }
    if (!find_at(model, path).has_value()) {
        kernel::refuse_name(name, what, "a number of the instrument or its strings", model, path, "saddle.height_bass");
    }
    return path;
}
TAUTLINE_HELD(std::string input_path<>(const strung_instrument&, std::string_view, std::string_view))

/// The path of a result of the last setup of a job. The name may tell its state: "planned.relief.gap".
/// @param what what the name is given for, for the message
/// @throws invalid_input where the name is of no result, with the nearest; also for a result as found where something is
/// planned
template <class = when_used>
[[nodiscard]] std::string result_path(const job_setups& s, std::string_view name, std::string_view what) {
    std::string path = typed_path(name, s.last().names, what);
    const std::string_view last = s.planned ? "planned." : "found.", found = "found.";
    if (path.starts_with(last)) {
        path = path.substr(last.size());
    } else if (path.starts_with(found)) {
        kernel::refuse_name(name, what,
                            messages::joined({"must be a result of the instrument as planned, which is what is varied: ",
                                              last, std::string_view(path).substr(found.size())}));
    }
    if (!find_at(s.last(), path).has_value()) { kernel::refuse_name(name, what, "a result", s.last(), path, "relief.gap"); }
    return path;
}
TAUTLINE_HELD(std::string result_path<>(const job_setups&, std::string_view, std::string_view))

/// The paths of results of the last setup of a job by their names. Without names, those with which a sheet begins.
/// @param wanted what is wanted of the job; it decides what a sheet begins with
/// @param what what the names are given for, for the message
/// @throws invalid_input as `result_path`, and for a result that is named twice
template <class = when_used>
[[nodiscard]] std::vector<std::string> result_paths(const job_setups& s, const wishes& wanted,
                                                    const std::vector<std::string>& names, std::string_view what) {
    std::vector<std::string> paths;
    if (names.empty()) {
        for (const asked_result& asked : asked_results(wanted, s.last())) {
            if (find_at(s.last(), asked.path).has_value()) { paths.push_back(asked.path); }
        }
    }
    for (const std::string& name : names) {
        std::string path = result_path(s, name, what);
        if (std::find(paths.begin(), paths.end(), path) != paths.end()) {
            kernel::refuse_name(name, what, "must name each result once");
        }
        paths.push_back(std::move(path));
    }
    return paths;
}

} // namespace tautline
