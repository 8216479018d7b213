#include "ready_file.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include <tautline/core/quantity_text.hpp>
#include <tautline/job/input_words.hpp>

#include "words.hpp"

namespace job_file {

namespace {

std::string quoted(const std::string& text) { return '"' + text + '"'; }

/// A value by its path: "posts[0].along".
struct given_value {
    std::string path, toml;
};

/// A visitor for an aggregate's `describe`. It notes each value that is present as TOML.
class value_lister {
public:
    value_lister(std::string path, std::vector<given_value>& values) : path_(std::move(path)), values_(values) {}

    template <class U, class T>
    void operator()(std::string_view key, const tl::range_of<U>&, const T& value) {
        if constexpr (std::is_same_v<U, tl::text_tag>) {
            if (!value.empty()) { note(key, quoted(value)); }
        } else if constexpr (tl::description::optional_like<T>) {
            if (value) { note(key, written<U>(*value)); }
        } else if constexpr (tl::description::list_like<T>) {
            std::string items;
            for (const auto& one : value) { items += (items.empty() ? "" : ", ") + written<U>(one); }
            if (!value.empty()) { note(key, "[" + items + "]"); }
        } else {
            note(key, written<U>(value));
        }
    }
    template <class T>
    void operator()(std::string_view key, const T& value) {
        if constexpr (tl::described<T>) {
            value_lister inner(key.empty() ? path_ : at(key), values_);
            T::describe(inner, value);
        } else if constexpr (tl::description::optional_like<T>) {
            if (value) { (*this)(key, *value); }
        } else if constexpr (std::is_same_v<T, std::string>) {
            if (!value.empty()) { note(key, quoted(value)); }
        } else if constexpr (std::is_same_v<T, tl::string_number>) {
            if (!value.text.empty()) { note(key, quoted(value.text)); }
        } else if constexpr (std::is_same_v<T, bool>) {
            note(key, value ? "true" : "false");
        } else if constexpr (requires { words_of<T>::list; }) {
            for (const auto& w : words_of<T>::list) {
                if (w.choice == value) { note(key, quoted(std::string(w.word))); }
            }
        } else {
            for (std::size_t i = 0; i < value.size(); ++i) {
                (*this)(std::string(key) + "[" + std::to_string(i) + "]", value[i]);
            }
        }
    }

private:
    template <class U, class T>
    static std::string written(const T& value) {
        if constexpr (std::is_integral_v<T>) {
            return tl::number_text(value);
        } else {
            const auto& write = tl::messages::notation_of<U>;
            const std::string text = write(static_cast<long double>(tl::description::leaf(value)));
            return write.symbol ? quoted(text) : text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
        }
    }
    void note(std::string_view key, std::string toml) { values_.push_back({at(key), std::move(toml)}); }
    [[nodiscard]] std::string at(std::string_view key) const {
        return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
    }
    std::string path_;
    std::vector<given_value>& values_;
};

template <class Model>
std::vector<given_value> values_of(const Model& m) {
    std::vector<given_value> values;
    value_lister all("", values);
    Model::describe(all, m);
    return values;
}

/// "[board.surface]", and "[[posts]]" of "posts[2]".
std::string heading_of(const std::string& section) {
    std::string name;
    bool inside = false;
    for (const char c : section) {
        inside = inside || c == '[';
        if (!inside) { name += c; }
        inside = inside && c != ']';
    }
    return section.ends_with("]") ? "[[" + name + "]]" : "[" + name + "]";
}
/// The path without places in lists: "posts[].along".
std::string opened(const std::string& path) {
    std::string open;
    bool inside = false;
    for (const char c : path) {
        inside = inside && c != ']';
        if (!inside) { open += c; }
        inside = inside || c == '[';
    }
    return open;
}

} // namespace

std::string ready_file(const tl::ordered_instrument& made, const std::string& title) {
    std::map<std::string, std::string> untold; // the value of a key that is left out
    for (const given_value& v : values_of(tl::ordered_instrument())) { untold[v.path] = v.toml; }
    // Sections in their order, each with its keys.
    std::vector<std::pair<std::string, std::string>> sections{{"", "title = " + quoted(title) + "\n"}};
    std::vector<std::string> told;
    for (const given_value& v : values_of(made)) {
        const auto preset = untold.find(v.path);
        if (preset != untold.end() && preset->second == v.toml) { continue; }
        const std::size_t dot = v.path.rfind('.');
        const std::string section = dot == std::string::npos ? "" : v.path.substr(0, dot);
        auto at = std::find_if(sections.begin(), sections.end(), [&](const auto& s) { return s.first == section; });
        if (at == sections.end()) { at = sections.insert(at, {section, ""}); }
        at->second += v.path.substr(dot == std::string::npos ? 0 : dot + 1) + " = " + v.toml;
        const std::string key = opened(v.path);
        const tl::input_words* words = tl::words_of_input(key);
        const bool first = std::find(told.begin(), told.end(), key) == told.end();
        if (words && first) {
            at->second += "    # " + std::string(words->words);
            told.push_back(key);
        }
        at->second += "\n";
    }
    std::string out;
    for (const auto& [section, lines] : sections) {
        out += "\n" + (section.empty() ? "" : heading_of(section) + "\n") + lines;
    }
    return out;
}

} // namespace job_file
