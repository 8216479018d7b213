#pragma once
/// @file
/// Strings as they are bought or measured. A plain string is told by its gauge, a wound one by gauge and core, and
/// materials by name. The mass follows from the construction, from the weight of a measured length, or from the tension
/// that a packet states.

#include <optional>
#include <string>
#include <vector>

#include "../strings/material_names.hpp"
#include "../strings/string_names.hpp"
#include "../strings/tension.hpp"
#include "../strings/wound_string.hpp"
#include "string_order.hpp"

namespace tautline {

namespace kernel {

[[nodiscard]] inline std::string in_quotes(std::string_view text) { return messages::joined({"\"", text, "\""}); }

} // namespace kernel

/// A string's number as the trade counts it: 6, or "4a" in a course. Kept as text; empty: not said.
struct string_number {
    std::string text{}; ///< as it is said
};

/// The thinnest string: the finest music wire of ASTM A228 is 0.10 mm (from memory); gut and nylon are thicker.
inline constexpr auto thinnest_string = 0.1 * units::mm;
/// The thickest string: the largest wound strings, those of contrabasses and of the lowest notes of pianos, are thinner
/// (common practice, no source).
inline constexpr auto thickest_string = 8 * units::mm;
/// The thinnest wire or ribbon that is wound on strings (common practice, no source).
inline constexpr auto thinnest_wrap = 0.02 * units::mm;

/// A string as it is ordered or measured.
///
/// Gauge, core and wraps give the stiffness. The mass follows from them too, unless a balance or a packet states it: that
/// then counts. Only the construction tells the stiffness, so a wound string that is weighed needs its core too.
template <class R = double>
struct basic_ordered_string {
    using real = R;
    string_number number{};                 ///< optional; where it is said it must fit the place in the list
    std::string note{};                     ///< with its octave, such as "E2"
    needed<length<R>> gauge;                ///< diameter over all
    std::string material = "music wire";    ///< of a plain string, or of a wound one's core
    std::optional<field<length<R>>> core{}; ///< diameter of a wound string's core
    std::string wrap{};                     ///< material of a wound string's wrap; empty: plain
    /// Instead of `core` for a hexagonal core: its diameter across the flats.
    std::optional<field<length<R>>> core_flats{};
    std::string inner_wrap{};                       ///< material of a wrap under the outer one; empty: none
    std::optional<field<length<R>>> inner_wire{};   ///< diameter of that wrap's wire
    std::optional<field<length<R>>> ground{};       ///< thickness taken off the outer wire by grinding or rolling, on
                                                    ///< each side of the string
    std::optional<field<length<R>>> ribbon_width{}; ///< of an outer wrap of flat wire, along the string; absent: round wire
    std::optional<field<mass<R>>> weight{};         ///< of a measured length of slack string, wound from end to end
    std::optional<field<length<R>>> weight_length{}; ///< that length; where several pieces were weighed, of all together
    std::optional<field<force<R>>> packet_pull{};    ///< tension that the packet states
    std::optional<field<length<R>>> packet_scale{};  ///< the speaking length that this tension is stated for
    std::string packet_note{};                       ///< the note that it is stated for, with A4 at 440 Hz; empty: the
                                                     ///< string's own note

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("number", self.number...);
        visit("note", any_text, self.note...);
        visit("gauge", between(thinnest_string, thickest_string), self.gauge...);
        visit("material", self.material...);
        visit("core", between(thinnest_string, thickest_string), self.core...);
        visit("wrap", self.wrap...);
        visit("core_flats", between(thinnest_string, thickest_string), self.core_flats...);
        visit("inner_wrap", self.inner_wrap...);
        visit("inner_wire", between(thinnest_wrap, thickest_string), self.inner_wire...);
        visit("ground", between(0.001 * units::mm, 2 * units::mm), self.ground...);
        visit("ribbon_width", between(thinnest_wrap, 10 * units::mm), self.ribbon_width...);
        visit("weight", between(0.01 * units::gram, 2 * units::kg), self.weight...);
        visit("weight_length", between(10 * units::mm, 100'000 * units::mm), self.weight_length...);
        visit("packet_pull", between(1 * units::N, 2000 * units::N), self.packet_pull...);
        visit("packet_scale", between(100 * units::mm, 2000 * units::mm), self.packet_scale...);
        visit("packet_note", self.packet_note...);
    }
    /// The measure of the core, round or across flats, whichever is given; nothing for a plain string.
    [[nodiscard]] std::optional<length<R>> core_measure() const {
        return core ? std::optional<length<R>>(*core) : core_flats ? std::optional<length<R>>(*core_flats) : std::nullopt;
    }
    template <class Report>
    void rules(Report&& report_to) const;

private:
    /// Checks that the mass that a balance or a packet states fits the construction.
    template <class Report>
    void report_mass(Report&& report) const;
};
using ordered_string = basic_ordered_string<double>;

namespace kernel {

/// Pitch of a packet's note. Packets are printed for A4 = 440 Hz, ISO 16 (common practice, no source).
[[nodiscard]] inline frequency<double> packet_pitch(std::string_view note_said) {
    return tautline::pitch_of(*find_note(note_said));
}

/// The string of a valid order as it is built, before a weight or a packet is taken into account.
template <class R>
[[nodiscard]] basic_music_string<R> built_string(const basic_ordered_string<R>& o) {
    basic_music_string<R> s;
    s.core.material = *meant_wire_material<R>(o.material);
    s.core.diameter = o.core_measure().value_or(length<R>(o.gauge));
    s.core.section = o.core_flats ? core_section::hexagonal : core_section::round;
    if (o.wrap.empty()) { return s; }
    length<R> room = o.gauge - core_width(s.core);
    if (o.inner_wire) {
        s.layers.push_back({.material = *meant_wire_material<R>(o.inner_wrap), .thickness = length<R>(*o.inner_wire)});
        room -= *o.inner_wire * number<R>(2);
    }
    basic_wrap<R> outer{.material = *meant_wire_material<R>(o.wrap), .thickness = length<R>(room * number<R>(0.5L))};
    if (o.ribbon_width) {
        outer.form = layer_form::ribbon;
        outer.ribbon_width = *o.ribbon_width;
    }
    if (o.ground) {
        // The gauge is that of the finished string: before grinding the wire was thicker by what was taken off.
        outer.ground = *o.ground;
        outer.thickness = length<R>(outer.thickness + *o.ground);
    }
    s.layers.push_back(outer);
    return s;
}

/// Mass per length of the slack string as a balance or a packet states it; nothing where neither does.
template <class R>
[[nodiscard]] std::optional<linear_density<R>> told_mass(const basic_ordered_string<R>& o, const basic_music_string<R>& s) {
    if (o.weight && o.weight_length) { return linear_density<R>(*o.weight / *o.weight_length); }
    if (!o.packet_pull || !o.packet_scale) { return std::nullopt; }
    const auto pitch = over<R>(packet_pitch(o.packet_note.empty() ? o.note : o.packet_note));
    const R stretched = number<R>(1) + ratio<unit::force, R>(*o.packet_pull, kernel::axial_stiffness(s));
    return linear_density<R>(*o.packet_pull / square(kernel::wave_speed<R>(*o.packet_scale, pitch)) * stretched);
}

/// The largest factor, either way, between the mass that a balance or a packet states and that of the construction.
/// Beyond it a unit, a length or a gauge must be mistaken (common practice, no source).
inline constexpr double strange_mass = 2;

/// Room that core and inner wrap leave for the outer wrap within the gauge, on both sides together.
template <class R>
[[nodiscard]] length<R> outer_room(const basic_ordered_string<R>& o) {
    const auto measure = o.core_measure();
    if (!measure) { return o.gauge; }
    const length<R> wide = o.core_flats ? length<R>(*measure * R(number<R>(2) / sqrt(number<R>(3)))) : *measure;
    return o.gauge - wide - (o.inner_wire ? length<R>(*o.inner_wire * number<R>(2)) : length<R>());
}

} // namespace kernel

template <class R>
template <class Report>
void basic_ordered_string<R>::rules(Report&& report_to) const {
    bool sound = true;
    const auto report = [&](std::string_view key, std::string_view rule, std::string_view value = {}) {
        sound = false;
        report_to(key, rule, value);
    };
    const auto names_none = [&](const char* key, const std::string& name) {
        if (!meant_material(name).empty()) { return false; }
        report(key, must_be_a_material(name), kernel::in_quotes(name));
        return true;
    };
    if (!note.empty() && !find_note(note)) { report("note", note_spelling, kernel::in_quotes(note)); }
    bool unknown = names_none("material", material);
    unknown = (!wrap.empty() && names_none("wrap", wrap)) || unknown;
    unknown = (!inner_wrap.empty() && names_none("inner_wrap", inner_wrap)) || unknown;
    const bool cored = core || core_flats;
    if (core && core_flats) {
        report("core_flats", "must be left out beside core: a core is round (core) or hexagonal (core_flats)");
        return;
    }
    if (cored != !wrap.empty()) {
        report(cored ? "wrap" : "core",
               "must be given: a wound string needs both a core (a diameter) and a wrap (a material), a plain one neither. "
               "Weight and packet say nothing of the core: measure it where the wrap ends");
        return;
    }
    if (wrap.empty()) {
        const char* needs_wrap = "must be left out on a plain string, which has no wrap";
        if (!inner_wrap.empty()) { report("inner_wrap", needs_wrap); }
        if (inner_wire) { report("inner_wire", needs_wrap); }
        if (ground) { report("ground", needs_wrap); }
        if (ribbon_width) { report("ribbon_width", needs_wrap); }
    } else if (inner_wire.has_value() != !inner_wrap.empty()) {
        report(inner_wire ? "inner_wrap" : "inner_wire",
               "must be given: an inner wrap needs both its wire (a diameter) and its material");
    } else if (!in_all_lanes(tautline::number<R>(0) < kernel::outer_room(*this).value())) {
        report(core_flats ? "core_flats" : "core",
               inner_wire   ? "must be less: core and inner wrap leave no room for the outer one within the string's gauge"
               : core_flats ? "must be less: over its corners the core is 1.155 times as wide, which must be less than the "
                              "string's gauge"
                            : "must be less than the string's gauge");
    } else if (ribbon_width && ground) {
        report("ground", "must be left out beside ribbon_width: flat wire is told by its width alone");
    } else if (ribbon_width && !unknown) {
        const auto built = kernel::built_string(*this);
        const length<R> inside = gauge - built.layers[built.layers.size() - 1].thickness * tautline::number<R>(2);
        if (!in_all_lanes(ribbon_width->value() < (inside * pi<R>()).value())) {
            report("ribbon_width", "must be less than once around what it is wound on");
        }
    }
    if (weight.has_value() != weight_length.has_value()) {
        report(weight ? "weight_length" : "weight", "must be given: a weight is that of a measured length");
    }
    if (packet_pull.has_value() != packet_scale.has_value()) {
        report(packet_pull ? "packet_scale" : "packet_pull",
               "must be given: a packet's tension is that at a speaking length");
    }
    if (weight && packet_pull) {
        report("packet_pull", "must be left out beside weight: what a balance says of the string in hand counts");
    }
    const bool strange = !packet_note.empty() && !find_note(packet_note);
    if (strange) {
        report("packet_note", note_spelling, kernel::in_quotes(packet_note));
    } else if (!packet_note.empty() && !packet_pull) {
        report("packet_note", "must be left out without packet_pull");
    }
    if (sound && (weight || packet_pull)) { report_mass(report); }
}

template <class R>
template <class Report>
void basic_ordered_string<R>::report_mass(Report&& report) const {
    const auto made = kernel::built_string(*this);
    const linear_density<R> built = kernel::mass_per_length(made), told = *kernel::told_mass(*this, made);
    const R most = tautline::number<R>(kernel::strange_mass);
    if (in_all_lanes(told.value() < (built * most).value()) && in_all_lanes(built.value() < (told * most).value())) {
        return;
    }
    const auto text = [](const linear_density<R>& mu) {
        return quantity_text<unit::linear_density>(messages::plain_value(mu.value()));
    };
    report(
        weight ? "weight" : "packet_pull",
        messages::joined({"must be otherwise: it comes to ", text(told), ", but gauge, core and materials to ", text(built),
                          weight ? "; see the weight, its unit and the length that was weighed"
                                 : "; see the tension, its unit, the scale and the note"}));
}

/// What an ordered string is made of. All materials are looked up by name and checked.
///
/// The mass per length of the slack string is the weight over its length. A packet's tension is that of the string at
/// pitch, which its strain has made longer: `mu = T/(2 L f)^2 (1 + T/(E A))`. Source: Mersenne's law; conservation of
/// mass.
/// @throws invalid_input where the order is not valid
template <class R>
[[nodiscard]] basic_music_string<R> made_string(const basic_ordered_string<R>& order) {
    require_valid(order, "string");
    basic_music_string<R> s = kernel::built_string(order);
    if (const auto told = kernel::told_mass(order, s)) { s.weighed = *told; }
    return s;
}

/// The strings of a list of orders, bass first, tuned to a given pitch of A4.
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

/// What the strings of a list of orders are called. Text that is no note gives a string without a name.
template <class R>
[[nodiscard]] string_names names_of(const std::vector<int>& courses, const std::vector<basic_ordered_string<R>>& orders) {
    string_names names{.courses = courses, .notes = {}};
    for (const auto& order : orders) { names.notes.push_back(find_note(order.note).value_or(note{-1})); }
    return names;
}

/// Reports what is wrong with the order of a list. Strings must stand bass first, and a number that is said must be that
/// of its place.
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
