#pragma once
/// @file
/// The rules that the library's headers report, read off their text: `report(field, sentence)` with the words in quotes.

#include <algorithm>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include "scratch_folder.hpp"

namespace source_rules {

/// A rule as it stands in a header.
struct rule {
    std::string header;                 ///< "board/scale.hpp"
    std::string field;                  ///< its first argument, as written
    std::vector<std::string> keys;      ///< words in quotes there: any of them is told
    std::vector<std::string> sentences; ///< words in quotes of its second argument: each of them is told
};

/// The text without its comments.
inline std::string without_comments(const std::string& text) {
    std::string out;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!quoted && text.compare(i, 2, "//") == 0) { i = std::min(text.find('\n', i), text.size() - 1); }
        if (text[i] == '"' && (i == 0 || text[i - 1] != '\\')) { quoted = !quoted; }
        out += text[i];
    }
    return out;
}
/// The arguments of the call whose bracket opens at `at`.
inline std::vector<std::string> arguments_at(const std::string& text, std::size_t at) {
    std::vector<std::string> all(1);
    int open = 0;
    bool quoted = false;
    for (std::size_t i = at; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '"' && text[i - 1] != '\\') { quoted = !quoted; }
        const bool in = !quoted && (c == '(' || c == '{'), out = !quoted && (c == ')' || c == '}');
        open += in ? 1 : out ? -1 : 0;
        if (open == 0) { return all; }
        if (in && open == 1) { continue; }
        if (c == ',' && open == 1 && !quoted) {
            all.emplace_back();
        } else {
            all.back() += c;
        }
    }
    return all;
}
/// The words in quotes of an expression; those with nothing between them are one.
inline std::vector<std::string> words_of(const std::string& expression) {
    std::vector<std::string> all;
    std::size_t end = 0; // behind the quotes before
    for (std::size_t i = 0; i < expression.size(); ++i) {
        if (expression[i] != '"') { continue; }
        const bool goes_on = !all.empty() && expression.find_first_not_of(" \n", end) == i;
        std::string words;
        for (++i; i < expression.size() && expression[i] != '"'; ++i) {
            if (expression[i] == '\\') { ++i; }
            words += expression[i];
        }
        if (goes_on) {
            all.back() += words;
        } else {
            all.push_back(words);
        }
        end = i + 1;
    }
    std::erase_if(all, [](const std::string& w) { return w.size() < 3; });
    return all;
}

/// Every rule of the headers in a folder.
inline std::vector<rule> all_in(const std::filesystem::path& folder) {
    struct header {
        std::string name, text;
    };
    std::vector<header> headers;
    std::string everything;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().extension() != ".hpp") { continue; }
        headers.push_back({std::filesystem::relative(entry.path(), folder).generic_string(),
                           without_comments(files::read_all(entry.path().string()))});
        everything += headers.back().text;
    }
    std::sort(headers.begin(), headers.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    std::vector<rule> rules;
    for (const header& h : headers) {
        const std::regex call("\\breport\\(");
        for (std::sregex_iterator it(h.text.begin(), h.text.end(), call), none; it != none; ++it) {
            const auto arguments = arguments_at(h.text, static_cast<std::size_t>(it->position() + it->length() - 1));
            if (arguments.size() < 2) { continue; }
            rule r{h.name, std::regex_replace(arguments[0], std::regex("\\s+"), " "), words_of(arguments[0]),
                   words_of(arguments[1])};
            if (r.sentences.empty()) { // a sentence that has a name
                const std::string name = std::regex_replace(arguments[1], std::regex("\\W"), "");
                const std::regex named("\\b" + name + "\\s*=\\s*((\"[^\"]*\"\\s*)+)");
                std::smatch found;
                if (std::regex_search(h.text, found, named) || std::regex_search(everything, found, named)) {
                    r.sentences = words_of(found[1].str());
                }
            }
            rules.push_back(std::move(r));
        }
    }
    return rules;
}

} // namespace source_rules
