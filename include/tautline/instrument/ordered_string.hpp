#pragma once
/// @file
/// Strings as they are ordered: plain by gauge, wound by gauge and core, materials by name.

#include <optional>
#include <string>
#include <vector>

#include "../strings/string_names.hpp"
#include "../strings/wire_materials.hpp"
#include "../strings/wound_string.hpp"
#include "string_order.hpp"

namespace tautline {

namespace kernel {

/// The rule that a wire material of the table is named.
[[nodiscard]] inline std::string known_material() {
    std::string known;
    for (const wire_material& m : wire_materials()) { messages::append(known, {known.empty() ? "" : ", ", m.name}); }
    return messages::joined({"must be one of: ", known});
}
[[nodiscard]] inline std::string in_quotes(std::string_view text) { return messages::joined({"\"", text, "\""}); }

} // namespace kernel

/// A string's number as the trade counts: 6, or "4a" in a course. Kept as text; empty: not said.
struct string_number {
    std::string text{}; ///< as it is said
};

/// The thinnest that strings are made: the finest music wire of ASTM A228 is 0.10 mm (from memory); gut and nylon are
/// thicker.
inline constexpr auto thinnest_string = 0.1 * units::mm;
/// The thickest: the largest wound strings, those of contrabasses and the lowest of pianos, stay below (common practice, no
/// source).
inline constexpr auto thickest_string = 8 * units::mm;

/// A string as it is ordered.
template <class R = double>
struct basic_ordered_string {
    using real = R;
    string_number number{};                 ///< may be said; it must then fit the place in the list
    std::string note{};                     ///< with its octave: "E2"
    needed<length<R>> gauge;                ///< diameter over all
    std::string material = "music wire";    ///< of a plain string, or of a wound one's core
    std::optional<field<length<R>>> core{}; ///< diameter of a wound string's core
    std::string wrap{};                     ///< material of a wound string's wrap; empty: plain

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("number", self.number...);
        visit("note", any_text, self.note...);
        visit("gauge", between(thinnest_string, thickest_string), self.gauge...);
        visit("material", self.material...);
        visit("core", between(thinnest_string, thickest_string), self.core...);
        visit("wrap", self.wrap...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!note.empty() && !find_note(note)) { report("note", note_spelling, kernel::in_quotes(note)); }
        if (!find_wire_material<R>(material)) { report("material", kernel::known_material(), kernel::in_quotes(material)); }
        if (!wrap.empty() && !find_wire_material<R>(wrap)) {
            report("wrap", kernel::known_material(), kernel::in_quotes(wrap));
        }
        if (core.has_value() != !wrap.empty()) {
            report(core ? "wrap" : "core", "must be given: a wound string needs both a core (a diameter) and a wrap (a "
                                           "material), a plain one neither");
        }
        if (core && !in_all_lanes(core->value() < gauge.value())) {
            report("core", "must be less than the string's gauge");
        }
    }
};
using ordered_string = basic_ordered_string<double>;

/// Names, checked, so that none is missing: what an ordered string is made of.
/// @throws invalid_input where the order is not valid
template <class R>
[[nodiscard]] basic_music_string<R> made_string(const basic_ordered_string<R>& order) {
    require_valid(order, "string");
    const auto core_material = *find_wire_material<R>(order.material);
    if (!order.core) { return plain_string(core_material, order.gauge); }
    return wound_string(basic_wound_order<R>{.gauge = order.gauge,
                                             .core = *order.core,
                                             .core_material = core_material,
                                             .wrap_material = *find_wire_material<R>(order.wrap)});
}

/// The strings of a list of orders, bass first, tuned to a pitch of A4.
/// @throws invalid_input with all that is wrong with the orders
template <class R>
[[nodiscard]] basic_stringing<R> string_up(const std::vector<basic_ordered_string<R>>& orders, param<frequency<R>> a4) {
    std::vector<problem> wrong;
    for (std::size_t i = 0; i < orders.size(); ++i) {
        for (problem& p : validate(orders[i], messages::path_of("strings", i))) { wrong.push_back(std::move(p)); }
    }
    if (!wrong.empty()) { throw invalid_input(std::move(wrong)); }
    basic_stringing<R> set;
    set.standard.a4 = a4;
    for (const auto& order : orders) { set.strings.push_back({made_string(order), *find_note(order.note)}); }
    return set;
}

/// What the strings of a list of orders are called. A note that is none has no name.
template <class R>
[[nodiscard]] string_names names_of(const std::vector<int>& courses, const std::vector<basic_ordered_string<R>>& orders) {
    string_names names{.courses = courses, .notes = {}};
    for (const auto& order : orders) { names.notes.push_back(find_note(order.note).value_or(note{-1})); }
    return names;
}

/// Reports what is wrong with the order of a list: strings stand bass first, and a number that is said is that of its
/// place.
template <class R, class Report>
void report_order(const std::vector<int>& courses, const std::vector<basic_ordered_string<R>>& orders,
                  std::string_view path, Report&& report) {
    const string_names names = names_of(courses, orders);
    if (names.size() != orders.size()) { return; } // told elsewhere
    bool all_notes = true;
    std::vector<basic_tuned_string<R>> tuned;
    for (const auto& order : orders) {
        const auto pitch = find_note(order.note);
        all_notes = all_notes && pitch;
        tuned.push_back({basic_music_string<R>(), pitch.value_or(note{})});
    }
    if (all_notes && is_listed_treble_first(courses, tuned)) {
        report(std::string(path), must_stand_bass_first);
        return;
    }
    for (std::size_t i = 0; i < orders.size(); ++i) {
        const std::string& said = orders[i].number.text;
        if (said.empty() || names.place_of(said) == i) { continue; }
        report(messages::path_of(path, i, "number"),
               messages::joined({"must be ", names.number(i), ": the list stands bass first, and this is ", names.name(i),
                                 "; there are ", names.range()}),
               kernel::in_quotes(said));
    }
}

} // namespace tautline
