#pragma once
/// @file
/// Names of materials that a job has in another spelling than the table: short names of the trade, and names with a slip of
/// the pen. A sheet tells what each was taken for.

#include <algorithm>
#include <string>
#include <vector>

#include "../core/when_used.hpp"
#include "../strings/material_names.hpp"
#include "bench_job.hpp"

namespace tautline {

/// A name that was understood though the table spells it otherwise.
struct taken_name {
    std::string said{};               ///< as it is written in the job
    std::string meant{};              ///< as the table has it
    std::vector<std::string> paths{}; ///< where it is written, such as "strings[0].wrap" or "planned.strings[0].wrap"
    std::string sentence{};           ///< what was taken for what, and where
};

namespace kernel {

/// Where a name stands in a sentence: "wrap of string 6 (E2)".
struct place_of_name {
    std::string_view key{};
    std::string label{}; ///< of the string, with its state where it has one
};

/// The sentence about a name, its places gathered by their keys.
[[nodiscard]] inline std::string taken_in_words(const taken_name& t, const std::vector<place_of_name>& places) {
    std::string text = messages::joined({"\"", t.said, "\" was taken for ", t.meant, ": "});
    for (std::size_t i = 0; i < places.size(); ++i) {
        const bool same = i > 0 && places[i].key == places[i - 1].key;
        if (!same) {
            const bool several = i + 1 < places.size() && places[i + 1].key == places[i].key;
            messages::append(text, {i == 0 ? "" : "; ", places[i].key, several ? " of strings " : " of string "});
        }
        messages::append(text, {same ? ", " : "", places[i].label});
    }
    return text + ".";
}

} // namespace kernel

/// The names of a job that were taken for others, in the order of its strings. Capitals, hyphens and blanks alone make no
/// other name. A name that is written for several strings comes once.
template <class = when_used>
[[nodiscard]] std::vector<taken_name> names_taken(const bench_job& j) {
    struct gathered {
        taken_name told;
        std::vector<kernel::place_of_name> places;
    };
    std::vector<gathered> all;
    const auto look = [&](const std::string& list, std::string_view state, const string_names& names,
                          const std::vector<ordered_string>& orders, auto&& counts) {
        for (const auto& [key, name] :
             {std::pair{"material", &ordered_string::material}, std::pair{"wrap", &ordered_string::wrap},
              std::pair{"inner_wrap", &ordered_string::inner_wrap}}) {
            for (std::size_t i = 0; i < orders.size(); ++i) {
                const std::string& said = orders[i].*name;
                const std::string_view meant = meant_material(said);
                if (!counts(i) || meant.empty() || kernel::plain_name(said) == kernel::plain_name(meant)) { continue; }
                auto at = std::find_if(all.begin(), all.end(), [&](const gathered& g) { return g.told.said == said; });
                if (at == all.end()) {
                    all.push_back({{said, std::string(meant), {}, {}}, {}});
                    at = all.end() - 1;
                }
                at->told.paths.push_back(messages::joined({messages::path_of(list, i), ".", key}));
                at->places.push_back({key, messages::joined({names.label(i), state})});
            }
        }
    };
    const auto every = [](std::size_t) { return true; };
    look("strings", "", names_of(courses_of(j.instrument), j.strings), j.strings, every);
    for (std::size_t k = 0; k < j.states.size(); ++k) {
        const auto& s = j.states[k];
        look(messages::path_of("states", k, "strings"), messages::joined({" ", s.name}),
             names_of(courses_of(j.instrument), s.strings), s.strings, every);
    }
    if (j.planned) {
        look("planned.strings", " as planned", names_of(courses_of(j.planned->changes.values), j.planned->strings),
             j.planned->strings, [&](std::size_t i) { return j.planned->renews(i); });
    }
    std::vector<taken_name> told;
    for (gathered& g : all) {
        std::stable_sort(g.places.begin(), g.places.end(), [](const auto& a, const auto& b) { return a.key < b.key; });
        g.told.sentence = kernel::taken_in_words(g.told, g.places);
        told.push_back(std::move(g.told));
    }
    return told;
}
TAUTLINE_HELD(std::vector<taken_name> names_taken<>(const bench_job&))

} // namespace tautline
