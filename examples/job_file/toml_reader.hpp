#pragma once
/// @file
/// Reads any described aggregate from a TOML table. Keys are the names of its description, and quantities are texts with
/// their unit. A key whose default is not allowed is required. Every mistake is kept with its line; none stops the reading.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <tautline/core/describe.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/doubt/uncertainty.hpp>
#include <tautline/job/former_names.hpp>

#include "checked_toml.hpp"
#include "job.hpp"
#include "keys.hpp"
#include "words.hpp"

namespace job_file {

/// The most entries of a list in a job file.
inline constexpr std::size_t longest_list = 500;

/// The number of unknown keys for which the nearest known key is searched.
inline constexpr std::size_t mistakes_guessed_at = 200;

inline std::uint32_t line_of(const toml::node& node) { return node.source().begin.line; }

inline std::string with_spaces(std::string_view name) {
    std::string text(name);
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}
/// "a length with its unit (mm, cm, ...)"
template <class U>
std::string expected_quantity() {
    const std::string name = with_spaces(tl::kind<U>::name);
    const bool vowel = std::string_view("aeiou").find(name.front()) != std::string_view::npos;
    return (vowel ? "an " : "a ") + name + " as text with its unit (" + tl::unit_names<tl::bu::quantity<U, double>>() + ")";
}
/// The file's own text of a value, for a message.
inline std::string as_written(const toml::node& node) {
    if (const auto* s = node.as_string()) { return '"' + shown(s->get().substr(0, 60)) + '"'; }
    if (const auto* i = node.as_integer()) { return std::to_string(i->get()); }
    if (const auto* f = node.as_floating_point()) { return tl::number_text(f->get()); }
    if (const auto* b = node.as_boolean()) { return b->get() ? "true" : "false"; }
    return node.is_table() ? "a section" : node.is_array() ? "a list" : "a date";
}

/// A list that may be left out. A list left out differs from an empty one.
template <class T>
concept optional_list = tl::description::optional_like<T> && requires {
    requires tl::description::list_like<typename T::value_type>;
};

/// A visitor for an aggregate's `describe`. It fills each member from the table.
class table_reader {
public:
    table_reader(const toml::table& table, std::string path, std::vector<mistake>& found, file_notes& file)
        : table_(table), path_(std::move(path)), found_(found), file_(file) {
        file_.lines[path_] = line_of(table);
    }

    /// A leaf with a range, or an optional or list of such.
    template <class U, class T>
    void operator()(std::string_view key, const tl::range_of<U>& range, T& target) {
        known_.push_back(key);
        const toml::node* node = table_.get(key);
        if (!node) {
            if constexpr (std::is_same_v<U, tl::text_tag>) {
                if (target.empty()) { missing<U>(key); }
            } else if constexpr (!tl::description::optional_like<T> && !tl::description::list_like<T>) {
                if (!range.holds(leaf_value(target))) { missing<U>(key); }
            }
            return;
        }
        file_.lines[at(key)] = line_of(*node);
        file_.given.push_back(at(key));
        leaf(*node, at(key), range, target);
    }
    /// Anything else: text, yes or no, a section, a list of sections.
    template <class T>
    void operator()(std::string_view key, T& target) {
        if constexpr (tl::described<T>) {
            if (key.empty()) { // a part whose keys stand among these
                T::describe(*this, target);
                return;
            }
        }
        known_.push_back(key);
        const toml::node* node = table_.get(key);
        if constexpr (tl::described<T>) {
            static const toml::table none;
            if (node && !node->is_table()) {
                wrong(*node, at(key), "a section");
                return;
            }
            // A missing section is read as an empty one, so that its required keys are named.
            section(node ? *node->as_table() : none, at(key), target);
        } else if constexpr (optional_list<T>) {
            if (node) { list(*node, at(key), target ? *target : target.emplace()); }
        } else if constexpr (tl::description::optional_like<T>) {
            // An existing section is changed and not replaced: what a plan leaves out stays as found.
            if (node && node->is_table()) { section(*node->as_table(), at(key), target ? *target : target.emplace()); }
            if (node && !node->is_table()) { wrong(*node, at(key), "a section"); }
        } else if constexpr (std::is_same_v<T, std::string>) {
            if (node) { text(*node, at(key), target); }
        } else if constexpr (std::is_same_v<T, tl::string_number>) {
            if (node) { number_of_string(*node, at(key), target); }
        } else if constexpr (std::is_same_v<T, bool>) {
            if (node) {
                if (const auto* b = node->as_boolean()) {
                    file_.given.push_back(at(key));
                    target = b->get();
                } else {
                    wrong(*node, at(key), "true or false");
                }
            }
        } else if constexpr (requires { words_of<T>::list; }) {
            if (node) {
                choice(*node, at(key), target);
            } else if (std::none_of(std::begin(words_of<T>::list), std::end(words_of<T>::list),
                                    [&](const auto& w) { return w.choice == target; })) {
                missing(key, words_in_quotes<T>());
            }
        } else if constexpr (tl::description::list_like<T>) {
            if (node) { list(*node, at(key), target); }
        } else {
            static_assert(tl::always_false<T>, "no way is known to read this member");
        }
    }

    /// After the last member: reports keys of the table that no member has.
    void finish() {
        for (const auto& [key, node] : table_) {
            if (std::find(known_.begin(), known_.end(), key.str()) != known_.end()) { continue; }
            if (const std::string now = tl::present_name(at(key.str())); !now.empty()) {
                found_.push_back({key.source().begin.line,
                                  "the key \"" + at(key.str()) + "\" is no longer read; it is now \"" + now + "\""});
                continue;
            }
            // Some keys are read only if others are absent. The two heights of a saddle are read if the strings have no
            // heights of their own.
            if (const std::string_view words = meaning_of_key(at(key.str())); !words.empty()) {
                found_.push_back(
                    {key.source().begin.line,
                     at(key.str()) + " must be left out beside the other keys given there: it is the " + std::string(words),
                     at(key.str())});
                continue;
            }
            // Guesses do not help with so many mistakes, and each guess takes time.
            const std::string_view close = found_.size() < mistakes_guessed_at ? nearest(key.str(), known_) : "";
            found_.push_back(
                {key.source().begin.line, "unknown key \"" + shown(at(key.str())) + "\"" +
                                              (close.empty() ? "" : "; did you mean \"" + std::string(close) + "\"?")});
        }
    }

    template <class T>
    static void read(const toml::table& table, const std::string& path, T& target, std::vector<mistake>& found,
                     file_notes& file) {
        table_reader reader(table, path, found, file);
        T::describe(reader, target);
        reader.finish();
    }

private:
    [[nodiscard]] std::string at(std::string_view key) const {
        return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
    }

    template <class T>
    void section(const toml::table& table, const std::string& path, T& target) {
        read(table, path, target, found_, file_);
    }
    template <class T>
    static auto leaf_value(const T& t) {
        if constexpr (std::is_integral_v<T>) {
            return static_cast<long double>(t);
        } else {
            return tl::description::leaf(t);
        }
    }
    void wrong(const toml::node& node, const std::string& path, const std::string& expected) {
        found_.push_back({line_of(node), path + " is " + as_written(node) + "; expected " + expected, path});
    }
    template <class U>
    void missing(std::string_view key) {
        std::string expected = "a number";
        if constexpr (std::is_same_v<U, tl::text_tag>) {
            expected = "text in quotes";
        } else if constexpr (!std::is_void_v<U> && !std::is_same_v<U, tl::cents_tag>) {
            expected = expected_quantity<U>();
        }
        missing(key, expected);
    }
    void missing(std::string_view key, const std::string& expected) {
        found_.push_back(
            {line_of(table_), "the key \"" + at(key) + "\" is missing; expected " + expected + meaning(key), at(key)});
    }
    /// ": what the key means", for a message.
    [[nodiscard]] std::string meaning(std::string_view key) const {
        const std::string_view words = meaning_of_key(at(key));
        return words.empty() ? "" : ": " + std::string(words);
    }

    template <class U, class T>
    void leaf(const toml::node& node, const std::string& path, const tl::range_of<U>& range, T& target) {
        if constexpr (std::is_same_v<U, tl::text_tag>) {
            text(node, path, target);
            if (node.is_string() && target.empty()) { wrong(node, path, "text in quotes that says something"); }
        } else if constexpr (tl::description::optional_like<T>) {
            leaf(node, path, range, target.emplace());
        } else if constexpr (tl::description::list_like<T>) {
            const toml::array* array = node.as_array();
            if (!array) {
                wrong(node, path, "a list in [ ]");
                return;
            }
            if (!few_enough(*array, node, path)) { return; }
            target.resize(array->size());
            for (std::size_t i = 0; i < array->size(); ++i) {
                leaf(*array->get(i), path + "[" + std::to_string(i) + "]", range, target[i]);
            }
        } else {
            if (!value(node, path, target)) { return; }
            if (!range.holds(leaf_value(target))) {
                const std::string allowed = tl::messages::allowed_text(range, tl::messages::notation_of<U>);
                found_.push_back({line_of(node), path + " is " + as_written(node) + "; it " + allowed, path});
            } else {
                doubt(node, path, range, static_cast<long double>(leaf_value(target)));
            }
        }
    }
    /// Refuses a doubt that leaves nothing known. If zero is out of range, the value less its doubt must be in range. If
    /// zero is in range (a relief, a setback), one of the two ends must be.
    template <class U>
    void doubt(const toml::node& node, const std::string& path, const tl::range_of<U>& range, long double value) {
        const auto it = file_.doubts.find(path);
        if (it == file_.doubts.end()) { return; }
        const auto by = static_cast<long double>(tl::coverage_factor * it->second.si());
        if (range.holds(value - by) || (range.holds(0.0L) && range.holds(value + by))) { return; }
        const auto write = tl::messages::notation_of<U>;
        found_.push_back({line_of(node),
                          path + " is " + as_written(node) + "; with its doubt it may be " + write(value - by) +
                              ", but it " + tl::messages::allowed_text(range, write) + ": expected a smaller doubt than " +
                              write(by),
                          path});
    }
    template <class U>
    bool value(const toml::node& node, const std::string& path, tl::bu::quantity<U, double>& target) {
        if (const auto* s = node.as_string()) {
            if (const auto q = tl::parse_measured<tl::bu::quantity<U, double>>(s->get())) {
                target = q->best;
                if (q->give_or_take.value() > 0) { file_.doubts[path] = q->give_or_take / tl::coverage_factor; }
                return true;
            }
        }
        const auto* text = node.as_string();
        wrong(node, path, expected_quantity<U>() + std::string(text ? tl::about_fractions(text->get()) : ""));
        return false;
    }
    bool value(const toml::node& node, const std::string& path, tl::interval<double>& target) {
        if (const auto v = node.value<double>()) {
            target = tl::interval<double>::from_cents(*v);
            return true;
        }
        wrong(node, path, "a number of cents");
        return false;
    }
    bool value(const toml::node& node, const std::string& path, double& target) {
        if (node.is_number()) {
            target = *node.value<double>();
            return true;
        }
        // Text with a doubt, "0.4 ± 0.3"; without one a number is written as such.
        if (const auto* s = node.as_string()) {
            if (const auto n = tl::parse_any_measured("number", s->get()); n && n->give_or_take.has_value()) {
                target = n->best.si();
                if (n->give_or_take.si() > 0) { file_.doubts[path] = (1 / tl::coverage_factor) * n->give_or_take; }
                return true;
            }
        }
        wrong(node, path, "a number");
        return false;
    }
    bool value(const toml::node& node, const std::string& path, int& target) {
        if (const auto* i = node.as_integer(); i && i->get() >= -1000000 && i->get() <= 1000000) {
            target = static_cast<int>(i->get());
            return true;
        }
        wrong(node, path, "a whole number");
        return false;
    }
    void number_of_string(const toml::node& node, const std::string& path, tl::string_number& target) {
        file_.lines[path] = line_of(node);
        const auto* i = node.as_integer();
        const auto* s = node.as_string();
        if (i) { target.text = std::to_string(i->get()); }
        if (s) { target.text = s->get(); }
        if ((!i && !s) || target.text.empty()) { wrong(node, path, "the number of a string, 6 or \"4a\""); }
    }
    void text(const toml::node& node, const std::string& path, std::string& target) {
        file_.lines[path] = line_of(node);
        file_.given.push_back(path);
        if (const auto* s = node.as_string()) {
            target = s->get();
        } else {
            wrong(node, path, "text in quotes");
        }
    }
    template <class T>
    void choice(const toml::node& node, const std::string& path, T& target) {
        for (const auto& w : words_of<T>::list) {
            if (const auto* s = node.as_string(); s && s->get() == w.word) {
                file_.given.push_back(path);
                target = w.choice;
                return;
            }
        }
        wrong(node, path, words_in_quotes<T>());
    }
    template <class T>
    [[nodiscard]] static std::string words_in_quotes() {
        std::string words;
        for (const auto& w : words_of<T>::list) { words += (words.empty() ? "\"" : " or \"") + std::string(w.word) + "\""; }
        return words;
    }
    /// Whether a list may have this many entries. No instrument has thousands of anything.
    bool few_enough(const toml::array& array, const toml::node& node, const std::string& path) {
        if (array.size() <= longest_list) { return true; }
        found_.push_back({line_of(node), path + " has " + std::to_string(array.size()) + " entries; expected at most " +
                                             std::to_string(longest_list)});
        return false;
    }
    template <class T>
    void list(const toml::node& node, const std::string& path, T& target) {
        const toml::array* array = node.as_array();
        if (!array) {
            wrong(node, path, "a list");
            return;
        }
        if (!few_enough(*array, node, path)) { return; }
        file_.lines[path] = line_of(node);
        file_.given.push_back(path);
        target.resize(array->size());
        for (std::size_t i = 0; i < array->size(); ++i) {
            const toml::node& item = *array->get(i);
            const std::string item_path = path + "[" + std::to_string(i) + "]";
            file_.lines[item_path] = line_of(item);
            if constexpr (std::is_same_v<typename T::value_type, std::string>) {
                text(item, item_path, target[i]);
            } else if (item.is_table()) {
                section(*item.as_table(), item_path, target[i]);
            } else {
                wrong(item, item_path, "a section");
            }
        }
    }

    const toml::table& table_;
    std::string path_;
    std::vector<mistake>& found_;
    file_notes& file_;
    std::vector<std::string_view> known_;
};

} // namespace job_file
