#include "keys.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <tautline/core/any_from_text.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/job/input_words.hpp>

#include <tautline/instrument/ready_made.hpp>

#include "job.hpp"
#include "ready_file.hpp"
#include "words.hpp"

namespace job_file {

namespace {

std::string spaced(std::string_view name) {
    std::string text(name);
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}
template <class T>
struct kind_of {
    static std::string name() { return std::is_integral_v<T> ? "whole number" : "number"; }
};
template <class U>
struct kind_of<tl::bu::quantity<U, double>> {
    static std::string name() { return spaced(tl::kind<U>::name); }
};
template <>
struct kind_of<std::string> {
    static std::string name() { return "text"; }
};
template <class T>
requires requires { typename T::plain; }
struct kind_of<T> : kind_of<typename T::plain> {};
template <class T>
struct kind_of<std::vector<T>> {
    static std::string name() { return "list of " + kind_of<T>::name() + "s"; }
};
template <class T>
struct kind_of<std::optional<T>> : kind_of<T> {};

/// The type inside a list or an optional, or the type itself.
template <class T>
struct plain_leaf {
    using type = T;
};
template <class T>
requires requires { typename T::value_type; }
struct plain_leaf<T> {
    using type = typename T::value_type;
};
template <class T>
using plain_leaf_t = typename plain_leaf<T>::type;

/// A limit, or a value just below or above it, as a job file writes it.
std::string beyond(long double limit, int side, const tl::messages::notation& write) {
    if (!std::isfinite(limit)) { return ""; }
    const long double value = limit == 0 ? side * write.size : limit + side * 0.01L * std::abs(limit);
    const std::string text = write(value);
    return write.symbol && std::string_view(write.symbol) != "cents" ? '"' + text + '"' : tl::number_text(value);
}

/// A visitor for an aggregate's `describe`. On a freshly made object it notes each key with its range and preset.
class key_lister {
public:
    key_lister(std::string path, std::vector<key_row>& keys) : path_(std::move(path)), keys_(keys) {}

    template <class U, class T>
    void operator()(std::string_view key, const tl::range_of<U>& range, T& preset) {
        key_row row{at(key), kind_of<T>::name(), "", false, ""};
        if constexpr (std::is_same_v<U, tl::text_tag>) {
            row.required = true;
        } else {
            const auto& write = tl::messages::notation_of<U>;
            row.allowed = tl::messages::allowed_text(range, write);
            row.too_low = beyond(range.low, -1, write);
            row.too_high = beyond(range.high, 1, write);
            row.lowest = beyond(range.low, 0, write);
            row.highest = beyond(range.high, 0, write);
            row.list = tl::description::list_like<T>;
            if (std::is_same_v<plain_leaf_t<T>, int>) {
                row.too_low = tl::number_text(range.low - 1);
                row.too_high = tl::number_text(range.high + 1);
            }
        }
        if constexpr (!std::is_same_v<U, tl::text_tag> && !tl::description::optional_like<T> &&
                      !tl::description::list_like<T>) {
            const auto number = [&] {
                if constexpr (std::is_integral_v<T>) {
                    return static_cast<long double>(preset);
                } else {
                    return static_cast<long double>(tl::description::leaf(preset));
                }
            }();
            row.required = !range.holds(number);
            if (!row.required) { row.preset = tl::messages::notation_of<U>(number); }
            if (!row.required && range.reason) { row.preset += std::string(": ") + range.reason; }
        }
        keys_.push_back(row);
    }
    template <class T>
    void operator()(std::string_view key, T& preset) {
        if constexpr (tl::described<T>) {
            key_lister inner(key.empty() ? path_ : at(key), keys_);
            T::describe(inner, preset);
        } else if constexpr (tl::description::optional_like<T>) {
            auto inside = typename T::value_type();
            (*this)(key, inside);
        } else if constexpr (std::is_same_v<T, std::string>) {
            keys_.push_back({at(key), "text", "", false, preset});
        } else if constexpr (std::is_same_v<T, tl::string_number>) {
            keys_.push_back({at(key), "whole number, or text in a course", "", false, ""});
        } else if constexpr (std::is_same_v<T, bool>) {
            keys_.push_back({at(key), "true or false", "", false, preset ? "true" : "false"});
        } else if constexpr (requires { words_of<T>::list; }) {
            std::string words, now;
            for (const auto& w : words_of<T>::list) {
                words += (words.empty() ? "\"" : " or \"") + std::string(w.word) + "\"";
                if (w.choice == preset) { now = w.word; }
            }
            // A choice without a preset must be made.
            keys_.push_back({at(key), words, "", now.empty(), now});
        } else {
            auto inside = typename T::value_type();
            (*this)(std::string(key) + "[]", inside);
        }
    }

private:
    [[nodiscard]] std::string at(std::string_view key) const {
        return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
    }
    std::string path_;
    std::vector<key_row>& keys_;
};

} // namespace

std::vector<key_row> all_keys() {
    std::vector<key_row> keys;
    tl::bench_job fresh;
    key_lister all("", keys);
    tl::bench_job::describe(all, fresh);
    // A wood's name fills in what is not given.
    for (const std::string part : {"board", "back"}) {
        const auto at =
            std::find_if(keys.begin(), keys.end(), [&](const key_row& k) { return k.path == "neck." + part + "_modulus"; });
        at->required = false;
        at->preset = "that of " + part + "_wood: without one it must be there";
    }
    // The plan begins as found, so none of its keys is required.
    for (key_row& k : keys) {
        const auto under = [&k](std::string_view section) { return k.path.rfind(section, 0) == 0; };
        if (under("planned.") && !under("planned.wire") && !under("planned.strings") && !under("planned.sanding") &&
            !under("planned.levelling")) {
            k.required = false;
        }
    }
    return keys;
}

namespace {

/// A key's section and its own name: "board.surface" and "radius".
std::pair<std::string, std::string> parted(const std::string& path) {
    const std::size_t dot = path.rfind('.');
    return dot == std::string::npos ? std::pair{std::string(), path} : std::pair{path.substr(0, dot), path.substr(dot + 1)};
}
/// "[board.surface]", "[[strings]]".
std::string headed(const std::string& section) {
    const bool list = section.ends_with("[]");
    std::string name;
    for (const char c : section) { name += c == '[' || c == ']' ? "" : std::string(1, c); }
    return list ? "[[" + name + "]]" : "[" + name + "]";
}

/// The pieces between marks, each without leading spaces.
std::vector<std::string> pieces(std::string_view text, char mark) {
    std::vector<std::string> each;
    for (std::size_t cut = 0; cut != std::string_view::npos;) {
        cut = text.find(mark);
        each.emplace_back(tl::spelling::trimmed(text.substr(0, cut)));
        text.remove_prefix(cut == std::string_view::npos ? 0 : cut + 1);
    }
    return each;
}
/// A value as TOML: numbers and yes-or-no choices as they are, everything else in quotes.
std::string as_toml(const std::string& value) {
    return value.empty() || tl::parse_any("number", value) || value == "true" || value == "false" ? value
                                                                                                  : '"' + value + '"';
}
/// The examples of one key as TOML, one for each of a list of sections.
std::vector<std::string> examples_of(const key_row& k) {
    const std::string_view example = tl::words_of_input(k.path)->example;
    std::vector<std::string> each =
        k.path.find("[]") == std::string::npos ? std::vector{std::string(example)} : pieces(example, ';');
    const bool of_texts = k.path.ends_with("[]");
    for (std::string& one : each) {
        if (!k.list && !of_texts) {
            one = as_toml(one);
            continue;
        }
        std::string items;
        for (const std::string& item : pieces(one, ',')) { items += (items.empty() ? "" : ", ") + as_toml(item); }
        one = "[" + items + "]";
    }
    return each;
}

/// One section of the starting file: its keys in order, and whether it is in use from the start.
struct section {
    std::string name;
    std::vector<const key_row*> keys;
    bool begins = false;
    bool whole = false; ///< starts with all required keys
};

void write_section(const section& s, std::string& out) {
    std::size_t times = 0;
    for (const key_row* k : s.keys) {
        const auto examples = examples_of(*k);
        const bool any = std::any_of(examples.begin(), examples.end(), [](const std::string& e) { return !e.empty(); });
        times = std::max(times, any ? examples.size() : 0);
    }
    for (std::size_t i = 0; i < times; ++i) {
        out += "\n";
        if (!s.name.empty()) { out += std::string(s.begins ? "" : "# ") + headed(s.name) + "\n"; }
        for (const key_row* k : s.keys) {
            const tl::input_words& w = *tl::words_of_input(k->path);
            const auto examples = examples_of(*k);
            const std::string& value = examples[std::min(i, examples.size() - 1)];
            const bool begins = w.begins || (s.whole && k->required);
            if (value.empty() || (i > 0 && s.begins && !begins)) { continue; }
            const std::string name = parted(k->path).second;
            out += std::string(s.begins && begins ? "" : "# ") + name.substr(0, name.find('[')) + " = " + value;
            const auto told = examples.begin() + static_cast<std::ptrdiff_t>(std::min(i, examples.size()));
            const bool first = std::all_of(examples.begin(), told, [](const std::string& e) { return e.empty(); });
            out += first ? "    # " + std::string(w.words) + "\n" : "\n";
        }
    }
}

} // namespace

std::string_view meaning_of_key(std::string_view path) {
    const tl::input_words* k = tl::words_of_input(path);
    return k ? k->words : std::string_view();
}

std::string key_document() {
    std::string text =
        "# Keys of a job file\n\n"
        "A job file is [TOML](https://toml.io/en/v1.0.0). A quantity is text with its unit: `\"43 mm\"`, `\"22 1/16 in\"`, "
        "`\"12 thou\"`, "
        "`\"9.5 deg\"`; a measured one may say how sure it is, at about 95 %: `\"43 ± 0.1 mm\"` or `\"0.3 mm +- 0.05\"`.\n"
        "This page is printed by `bench_sheet --keys` from the table the program reads by. `[]` stands for each "
        "section of a list (`[[strings]]`).\n\n"
        "Under `planned` stands what will be different, under the key it was found under; what is left out stays as "
        "found. Board and frets are changed by work alone: `planned.sanding`, `planned.wire`, `planned.levelling`; a "
        "zero fret is filed to `planned.frets.zero_crown`. Strings end on one of `tailpiece`, `pins`, `tie_block` "
        "and `body_bridge`: one that is given under `planned` takes the place of the one that was found; `pins`, "
        "`tie_block` and `body_bridge` take its feet away, `body_bridge` the soundboard, too.\n";
    std::string last = "-";
    for (const key_row& k : all_keys()) {
        const tl::input_words* w = tl::words_of_input(k.path);
        // A planned key is read like the found one. Describing it twice would only lengthen the page.
        if (tl::is_planned(k.path) && w && !tl::is_planned(w->path)) { continue; }
        const auto [section_name, name] = parted(k.path);
        if (section_name != last) {
            text += "\n## " + (section_name.empty() ? "At the top" : "`" + headed(section_name) + "`") +
                    "\n| key | what | expected | left out |\n|---|---|---|---|\n";
            last = section_name;
        }
        text += "| `" + name + "` | " + std::string(w ? w->words : std::string_view()) + " | " + k.expected +
                (k.allowed.empty() || k.allowed == "must be a finite number" ? "" : ", " + k.allowed) + " | " +
                (k.required         ? "must be there"
                 : k.preset.empty() ? "none"
                                    : k.preset) +
                " |\n";
    }
    return text;
}

const std::vector<starting_kind>& starting_kinds() {
    static const std::vector<starting_kind> kinds{
        {"pinned",
         "a bridge that holds the strings' ends by pins",
         {"pins"},
         {"tailpiece", "feet", "tie_block", "body_bridge", "pressing_bar", "wanted.down_force", "wanted.hinge_lowest",
          "wanted.hinge_highest"}},
        {"floating",
         "a floating bridge, the strings held by a tailpiece",
         {"tailpiece", "feet"},
         {"pins", "tie_block", "body_bridge", "soundboard.turn_stiffness", "soundboard.saddle_ahead",
          "soundboard.saddle_height", "wanted.saddle_break"}},
        {"solid",
         "a bridge screwed to a solid body",
         {"body_bridge"},
         {"pins", "tie_block", "tailpiece", "feet", "soundboard", "wanted.down_force", "wanted.hinge_lowest",
          "wanted.hinge_highest", "wanted.saddle_break"}},
        {"slotted_nylon",
         "a nylon-strung guitar with a slotted head and a tie block",
         {},
         {},
         tl::ready_made::slotted_nylon},
        {"zero_fret", "a neck with a zero fret and guides on the head", {}, {}, tl::ready_made::zero_fret_guitar},
        {"banjo", "a five-string banjo with a short string", {}, {}, tl::ready_made::five_string_banjo},
        {"fanned_bass", "a five-string bass with fanned frets and single saddles", {}, {}, tl::ready_made::fanned_bass},
    };
    return kinds;
}

std::string starting_file(const starting_kind& kind) {
    std::string out =
        "# A job file to begin with, for " + std::string(kind.words) +
        ":\n"
        "# replace every value by your own measurement (docs/first-hour.md shows where each is taken), then\n"
        "#   bench_sheet --check FILE    says what is wrong\n"
        "#   bench_sheet FILE            prints the sheet\n"
        "# Quantities carry their unit; \"43 ± 0.1 mm\" says how sure a measurement is. " +
        (kind.make ? "bench_sheet --keys names all\n# keys there are.\n" : "Lines behind # may be left out.\n") +
        "# A string at pitch can cut and can take an eye: slacken before working. Where a failure would hurt "
        "someone,\n"
        "# a qualified repairer decides.\n";
    if (kind.make) { return out + ready_file(kind.make(), "To begin with: " + std::string(kind.words)); }
    const auto is_one_of = [](const std::vector<std::string_view>& list, std::string_view path) {
        return std::any_of(list.begin(), list.end(), [&](std::string_view p) { return tl::is_at_or_below(path, p); });
    };
    const auto keys = all_keys();
    std::vector<section> sections;
    for (const key_row& k : keys) {
        const tl::input_words* w = tl::words_of_input(k.path);
        if (!w || (tl::is_planned(k.path) && !tl::is_planned(w->path)) || is_one_of(kind.leaves_out, k.path)) { continue; }
        const std::string name = parted(k.path).first;
        auto at = std::find_if(sections.begin(), sections.end(), [&](const section& s) { return s.name == name; });
        if (at == sections.end()) { at = sections.insert(at, section{name, {}, false, is_one_of(kind.begins, name)}); }
        at->keys.push_back(&k);
        at->begins = at->begins || at->whole || w->begins;
    }
    for (const section& s : sections) { write_section(s, out); }
    return out;
}

} // namespace job_file
