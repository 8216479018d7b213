#pragma once
/// @file
/// Whether a name that was told is one of a job file's.

#include <algorithm>
#include <set>
#include <string>
#include <string_view>

#include "keys.hpp"

/// A path without places in lists: "strings.note" of "strings[2].note".
inline std::string without_places(std::string_view path) {
    std::string out;
    bool in_brackets = false;
    for (const char c : path) {
        in_brackets = (in_brackets || c == '[') && c != ']';
        if (!in_brackets && c != ']') { out += c; }
    }
    return out;
}
/// Whether the program reads such a key, or keys below it.
inline bool is_read(std::string_view key) {
    static const std::set<std::string> paths = [] {
        std::set<std::string> all;
        for (const auto& k : job_file::all_keys()) {
            const std::string path = without_places(k.path);
            for (std::size_t dot = path.find('.'); dot != path.npos; dot = path.find('.', dot + 1)) {
                all.insert(path.substr(0, dot));
            }
            all.insert(path);
        }
        return all;
    }();
    return paths.count(without_places(key)) == 1;
}
