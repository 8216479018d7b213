#pragma once
/// @file
/// Woods by name, how sure their values are, their movement, and a modulus of one's own from a bending or a tapping
/// test.

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../core/climate.hpp"
#include "../core/near_names.hpp"
#include "../core/units.hpp"
#include "../core/when_used.hpp"
#include "wood_table.hpp"

namespace tautline {

namespace woods {

/// Whether two names are the same but for capitals.
[[nodiscard]] constexpr bool same_name(std::string_view a, std::string_view b) {
    const auto lower = [](char c) { return 'A' <= c && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    if (a.size() != b.size()) { return false; }
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (lower(a[i]) != lower(b[i])) { return false; }
    }
    return true;
}

/// The species of that name, or none.
[[nodiscard]] constexpr std::optional<wood> find_wood(std::string_view name) {
    if (name.empty()) { return std::nullopt; }
    for (const wood& w : all) {
        if (same_name(w.name, name) || same_name(w.other_name, name)) { return w; }
    }
    return std::nullopt;
}

/// Names of the table that an unknown name may mean: those that contain the word, else those that are nearest by
/// spelling, as a whole or by one of their words. Capitals do not matter.
template <class When = when_used>
[[nodiscard]] std::vector<std::string_view> near_names(std::string_view name) {
    when_used_t<std::vector<std::string_view>, When> holds, close;
    if (name.empty() || name.size() > 80) { return holds; }
    const std::string sought = small_letters(name);
    std::size_t least = std::min(most_letters_apart(name), name.size() - 1); // some letters must be the same
    for (const wood& w : all) {
        for (const std::string_view n : {w.name, w.other_name}) {
            if (n.empty()) { continue; }
            const std::string known = small_letters(n);
            if (known.find(sought) != std::string::npos) { holds.push_back(n); }
            std::size_t apart = letters_apart(sought, known);
            for (std::string_view rest = known; !rest.empty();) {
                const std::size_t end = std::min(rest.find(' '), rest.size());
                apart = std::min(apart, letters_apart(sought, rest.substr(0, end)));
                rest.remove_prefix(std::min(end + 1, rest.size()));
            }
            if (apart < least) { close.clear(); }
            if (apart <= least) {
                least = apart;
                close.push_back(n);
            }
        }
    }
    return holds.empty() ? close : holds;
}

/// The rule to tell for a name that is not in the table: the names that may be meant, and how to give a wood of one's
/// own.
template <class When = when_used>
[[nodiscard]] std::string must_be_known(std::string_view name) {
    std::string rule = "must be a wood of the table";
    const auto meant = near_names<When>(name);
    for (std::size_t i = 0; i < meant.size(); ++i) {
        messages::append(rule, {i == 0 ? ", perhaps " : i + 1 == meant.size() ? " or " : ", ", meant[i]});
    }
    messages::append(rule,
                     {". ", "For another give its modulus along the grain, how that was measured and its give or take; "
                            "where nothing was measured, 19 GPa for each g/cm3 of its density, give or take 40 %"});
    return rule;
}

/// The species of that name.
/// @throws invalid_input for an unknown name, with the text of `must_be_known`
template <class When = when_used>
[[nodiscard]] wood named(std::string_view name) {
    if (const auto found = find_wood(name)) { return *found; }
    messages::refuse("wood", name, must_be_known<When>(name));
}

/// A sentence with what a repairer must know before using the modulus of a name. Empty where the sources agree.
[[nodiscard]] inline std::string caution_of(const wood& w) {
    if (!w.printed_gpa.disagree()) { return {}; }
    return messages::joined({w.name, ": respectable sources print ", number_text(w.printed_gpa.least), " to ",
                             number_text(w.printed_gpa.most), " GPa; its name alone says ", number_text(w.use_gpa),
                             ", give or take ", number_text(2 * w.standard_gpa), " GPa. Tap or bend the board itself."});
}

/// Whether a modulus that somebody gives for a wood is higher than that of five of six boards.
template <class R>
[[nodiscard]] bool is_asked_about(const wood& w, const stress<R>& given) {
    return w.use_gpa > 0 && static_cast<double>(value_of(given.value())) * 1e-9 > w.use_gpa + w.standard_gpa;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> is_asked_about(const wood&, Given)
TAUTLINE_REFUSED("wanted are a wood and a STRESS: woods::is_asked_about(woods::all[0], 12*GPa)");

/// A question about a modulus that somebody gives for a wood; empty where there is nothing to ask. A modulus higher
/// than that of five boards in six may be a dynamic one. Then it must be converted first (`as_bending_tests_give`).
template <class R>
[[nodiscard]] std::string question_about(const wood& w, const stress<R>& given) {
    require("modulus", given, more_than(0 * units::GPa));
    if (!is_asked_about(w, given)) { return {}; }
    const double gpa = static_cast<double>(value_of(given.value())) * 1e-9;
    return messages::joined({number_text(gpa), " GPa is more than five of six boards of ", w.name, " have (",
                             number_text(w.use_gpa), ", give or take ", number_text(2 * w.standard_gpa),
                             " GPa): was it told by a tone, by sound or between two loads? Then say so beside it, since ",
                             "a neck's own bending is reckoned ", number_text(pure_bending::factor),
                             " times as stiff as a bending test says; a bending test would have said ",
                             number_text(gpa / pure_bending::factor), " GPa."});
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> question_about(const wood&, Given)
TAUTLINE_REFUSED("wanted are a wood and a STRESS: woods::question_about(woods::all[0], 12*GPa)");

} // namespace woods

/// Movement coefficient for 1 % of moisture, from total shrinkage green to oven-dry in %. Movement is taken as linear
/// below fibre saturation. Use it where the coefficient itself is not known. Take the wood's own fibre saturation: with
/// the usual 28 or 30 % the coefficient is 3 to 36 % too low for five tropical woods (CIRAD's sheets). Shrinkage at
/// least 0, fibre saturation 15 to 35 %.
template <real R>
[[nodiscard]] constexpr R movement_from_shrinkage(const R& shrinkage_percent,
                                                  const std::type_identity_t<R>& fibre_saturation) {
    require("shrinkage", shrinkage_percent, between(0, 30));
    require("fibre saturation", fibre_saturation, between(15, 35));
    return shrinkage_percent / number<R>(100) / fibre_saturation;
}

/// Modulus at another moisture content, `E12 (E12/Egreen)^((12 - M)/(Mp - 12))`, Mp = 25 % where wood acts as green.
/// Both moduli more than 0; M from 0 up to Mp, above which the wood is green.
/// Source: Wood Handbook, equation 5-3 (from memory).
template <class R>
[[nodiscard]] stress<R> modulus_at(const stress<R>& at_12, const stress<std::type_identity_t<R>>& green,
                                   const moisture_content<std::type_identity_t<R>>& moisture) {
    require("modulus at 12 %", at_12, more_than(0 * units::GPa));
    require("green modulus", green, more_than(0 * units::GPa));
    require_valid(moisture, "moisture content");
    const R m = min(number<R>(25), moisture.in_unit());
    return at_12 * R(exp(R(log(ratio(at_12, green)) * (number<R>(12) - m) / number<R>(13))));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind At12, of_any_kind Green, class R>
requires(!(a_stress<At12> &&
           a_stress<Green>)) messages::wanted_are<messages::STRESS, messages::STRESS> modulus_at(At12, Green,
                                                                                                 const moisture_content<R>&)
TAUTLINE_REFUSED("wanted are two STRESSES: modulus_at(12*GPa, 10*GPa, 8*percent_mc)");

/// Modulus of a strip from a bending test on two supports with the load midway: `P L^3 / (4 w t^3 d)`, where d is the
/// deflection that the load P adds. As in any such test it includes shear and is some 10 % low at a span of 14 times
/// the thickness. All more than 0.
[[nodiscard]] constexpr auto modulus_from_bending_test(a_length auto span, a_force auto load, a_length auto deflection,
                                                       a_length auto width, a_length auto thickness) {
    using R = common_real_t<decltype(span), decltype(load), decltype(deflection), decltype(width), decltype(thickness)>;
    require("span", over<R>(span), more_than(0 * units::mm));
    require("load", over<R>(load), more_than(0 * units::N));
    require("deflection", over<R>(deflection), more_than(0 * units::mm));
    require("width", over<R>(width), more_than(0 * units::mm));
    require("thickness", over<R>(thickness), more_than(0 * units::mm));
    const auto l = over<R>(span), t = over<R>(thickness);
    return stress<R>(over<R>(load) * l * l * l / (number<R>(4) * over<R>(width) * t * t * t * over<R>(deflection)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::FORCE, messages::LENGTH, messages::LENGTH, messages::LENGTH>
modulus_from_bending_test(Given...) TAUTLINE_REFUSED("wanted are a LENGTH, a FORCE, a LENGTH, a LENGTH, a LENGTH: "
                                                     "modulus_from_bending_test(300*mm, 10*N, 1*mm, 30*mm, 5*mm)");

/// Modulus of a strip from its lowest tap tone, held free at 0.224 of its length from both ends:
/// `f = beta^2/(2 pi L^2) sqrt(EI/m)`, beta = 4.730041. Meant for thin strips, of a length of twenty thicknesses or
/// more. The modulus is free of shear: convert it with `as_bending_tests_give` for a neck. All more than 0. Source:
/// Euler-Bernoulli beam with free ends (R. D. Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1, from
/// memory).
[[nodiscard]] constexpr auto modulus_from_tap_tone(a_frequency auto tone, a_length auto strip_length,
                                                   a_length auto thickness, a_density auto strip_density) {
    using R = common_real_t<decltype(tone), decltype(strip_length), decltype(thickness), decltype(strip_density)>;
    require("tone", over<R>(tone), more_than(0 * units::Hz));
    require("strip_length", over<R>(strip_length), more_than(0 * units::mm));
    require("thickness", over<R>(thickness), more_than(0 * units::mm));
    require("strip_density", over<R>(strip_density), more_than(0 * units::kg_per_m3));
    const auto l2 = over<R>(strip_length) * over<R>(strip_length);
    const R beta = number<R>(4.7300407448627040260L);
    const auto speed = over<R>(tone) * l2 / over<R>(thickness) * R(number<R>(2) * pi<R>() / (beta * beta));
    return stress<R>(speed * speed * over<R>(strip_density) * number<R>(12));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FREQUENCY, messages::LENGTH, messages::LENGTH, messages::DENSITY>
modulus_from_tap_tone(Given...) TAUTLINE_REFUSED(
    "wanted are a FREQUENCY, a LENGTH, a LENGTH, a DENSITY: modulus_from_tap_tone(200*Hz, 300*mm, 5*mm, 600*kg_per_m3)");

} // namespace tautline
