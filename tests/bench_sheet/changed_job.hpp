#pragma once
/// @file
/// A job file with some of its keys set otherwise or taken away, for tests of what is then said.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <doctest/doctest.h>

namespace changed_job {

/// A key, "saddle.radius" or "strings[2].note", and its value as TOML; an empty value takes the key away. "pins.*" takes
/// the section away, "strings[].*" every section of the list.
struct setting {
    std::string path, value;
};

/// Where the value that begins at `at` ends: its line, or the last of a list over several lines.
inline std::size_t end_of_value(const std::string& text, std::size_t at) {
    int open = 0;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        open += c == '[' ? 1 : c == ']' ? -1 : 0;
        if (c == '\n' && open <= 0) { return at + 1; }
    }
    return at;
}
/// Takes a section away, head and all, once or wherever it stands.
inline void take_section(std::string& text, const std::string& head, bool each) {
    std::size_t at = text.find(head);
    REQUIRE_MESSAGE(at != std::string::npos, head);
    for (; at != std::string::npos; at = each ? text.find(head) : std::string::npos) {
        text.erase(at, std::min(text.find("\n[", at + head.size()), text.size()) - at);
    }
}
inline void set(std::string& text, const setting& s) {
    const std::size_t dot = s.path.rfind('.');
    std::string section = dot == std::string::npos ? "" : s.path.substr(0, dot);
    const std::string name = dot == std::string::npos ? s.path : s.path.substr(dot + 1);
    // "strings[2]" is the third of its sections.
    int place = 0;
    const bool listed = section.ends_with(']');
    if (listed) {
        const std::size_t open = section.rfind('[');
        const std::string digits = section.substr(open + 1, section.size() - open - 2);
        place = digits.empty() ? 0 : std::stoi(digits);
        section.resize(open);
    }
    const std::string head = section.empty() ? "" : listed ? "\n[[" + section + "]]\n" : "\n[" + section + "]\n";
    if (name == "*") {
        take_section(text, head, s.path.find("[]") != std::string::npos);
        return;
    }
    std::size_t at = head.empty() ? 0 : text.find(head);
    // What is not there yet comes last.
    for (; place > 0 && at != std::string::npos; --place) { at = text.find(head, at + 1); }
    const std::string line = name + " = " + s.value + "\n";
    if (at == std::string::npos) {
        text += head + line;
        return;
    }
    std::size_t inside = at + head.size();
    const std::size_t end = std::min(text.find("\n[", inside), text.size());
    const std::size_t there = text.find("\n" + name + " = ", inside == 0 ? 0 : inside - 1);
    if (there < end) {
        inside = there + 1;
        text.erase(inside, end_of_value(text, inside) - inside);
    } else {
        REQUIRE_MESSAGE(!s.value.empty(), s.path);
    }
    if (!s.value.empty()) { text.insert(inside, line); }
}
inline std::string with(std::string text, const std::vector<setting>& settings) {
    for (const setting& s : settings) { set(text, s); }
    return text;
}

} // namespace changed_job
