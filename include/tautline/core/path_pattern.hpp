#pragma once
/// @file
/// Compares paths with patterns that have empty brackets, such as "strings[].gauge". Tables of results and inputs are
/// looked up by it.

#include <cstddef>
#include <optional>
#include <string_view>

namespace tautline {

namespace kernel {

/// The number in the brackets of a path. `which` chooses the brackets, from 0; nothing when there are fewer.
[[nodiscard]] constexpr std::optional<std::size_t> item_of(std::string_view path, std::size_t which) {
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (path[i] != '[' || which-- > 0) { continue; }
        std::size_t n = 0;
        while (++i < path.size() && path[i] >= '0' && path[i] <= '9') {
            n = 10 * n + static_cast<std::size_t>(path[i] - '0');
        }
        return n;
    }
    return std::nullopt;
}

/// How many letters of a path a pattern covers: all where it names the whole path, fewer where it names something above
/// it, and 0 where it does not fit.
[[nodiscard]] constexpr std::size_t covered(std::string_view pattern, std::string_view path) {
    std::size_t at = 0;
    for (const char c : pattern) {
        if (at == path.size() || path[at] != c) { return 0; }
        ++at;
        while (c == '[' && at < path.size() && path[at] >= '0' && path[at] <= '9') { ++at; }
    }
    return at == path.size() || path[at] == '.' || path[at] == '[' ? at : 0;
}

} // namespace kernel

} // namespace tautline
