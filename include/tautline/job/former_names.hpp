#pragma once
/// @file
/// Names that are no longer used. One table of what was renamed serves everything that meets an old name in a file or on
/// a command line.

#include <algorithm>
#include <span>
#include <string>
#include <string_view>

#include "numbered_paths.hpp"

namespace tautline {

/// A name that was changed: of a job file's key or section, of a measurement, or of a number of the answers. Empty
/// brackets stand for any place in a list; both names have equally many. What lies below a renamed path moves with it.
struct former_name {
    std::string_view before{}; ///< the former name
    std::string_view now{};    ///< the present name
};

/// Everything that was renamed so far.
inline constexpr former_name former_names[] = {
    {"wanted.heel_depth", "wanted.reset.heel_depth"},
    {"plan.neck_reset", "plan.reset.turn"},
    {"work.level_under_load", "work.level_at_pitch"},
    {"strings[].at_nut.on", "strings[].at_nut.on_support"},
    {"strings[].at_saddle.on", "strings[].at_saddle.on_support"},
};

namespace kernel {

/// What a path became by the row that covers most of it; empty where no row covers it.
[[nodiscard]] inline std::string renamed_once(std::string_view path, std::span<const former_name> table) {
    const former_name* best = nullptr;
    std::size_t most = 0;
    for (const former_name& f : table) {
        if (const std::size_t n = covered(f.before, path); n > most) {
            best = &f;
            most = n;
        }
    }
    if (!best) { return {}; }
    std::string now;
    std::size_t at = 0;
    for (const char c : best->now) {
        now += c;
        if (c != '[') { continue; }
        at = std::min(path.find('[', at), path.size() - 1) + 1;
        while (at < path.size() && path[at] >= '0' && path[at] <= '9') { now += path[at++]; }
    }
    return now.append(path.substr(most));
}

} // namespace kernel

/// What a path is called now: "wanted.reset.heel_depth" for "wanted.heel_depth". In a path of one state ("planned.",
/// "found.") the part behind the state is renamed.
/// @param path  as `leaves` or a job file names it
/// @param table what was renamed
/// @return empty for a path that was never renamed
[[nodiscard]] inline std::string present_name(std::string_view path, std::span<const former_name> table = former_names) {
    std::string now;
    // What was renamed may have been renamed again, but not more often than there are rows.
    for (std::size_t i = 0; i < table.size(); ++i) {
        const std::string before = now.empty() ? std::string(path) : now;
        std::string after = kernel::renamed_once(before, table);
        for (const std::string_view state : {"planned.", "found."}) {
            if (!after.empty() || !before.starts_with(state)) { continue; }
            after = kernel::renamed_once(std::string_view(before).substr(state.size()), table);
            if (!after.empty()) { after.insert(0, state); }
        }
        if (after.empty()) { break; }
        now = std::move(after);
    }
    return now;
}

} // namespace tautline
