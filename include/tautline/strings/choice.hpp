#pragma once
/// @file
/// Choosing strings: the gauge for a tension, a set with a wanted balance, the nearest from a stock, what a set pulls.

#include <vector>

#include "tension.hpp"

namespace tautline {

/// How wound strings of a kind are proportioned: the core's share of the gauge, and what goes on it.
template <class R = double>
struct basic_wound_rule {
    using real = R;
    basic_wire_material<R> core_material{};
    core_section section = core_section::round;
    /// Core (over the corners of a hexagonal one) as a share of the gauge.
    R core_share{};
    basic_wire_material<R> wrap_material{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("core_material", self.core_material...);
        visit("section", self.section...);
        visit("core_share", between(0.05, 0.95), self.core_share...);
        visit("wrap_material", self.wrap_material...);
    }
};
using wound_rule = basic_wound_rule<double>;

/// A string of one close wound layer of round wire, of a gauge, by a rule. Gauge > 0, core share 0.05 to 0.95.
template <class R>
[[nodiscard]] basic_music_string<R> wound_string(const basic_wound_rule<R>& rule, param<length<R>> outside) {
    require_valid(rule, "rule");
    require("gauge", outside, more_than_up_to(0 * units::mm, 20 * units::mm));
    const length<R> core_outside = outside * rule.core_share;
    basic_music_string<R> s{
        .core = {.material = rule.core_material, .section = rule.section, .diameter = length<R>(outside)}};
    s.core.diameter = core_outside * ratio<unit::length, R>(outside, kernel::core_width(s.core));
    s.layers.push_back({.material = rule.wrap_material, .thickness = (outside - core_outside) * number<R>(0.5L)});
    return s;
}

namespace kernel {

/// Every measure across the string times `r`; the weighed mass goes with its square.
template <class R>
[[nodiscard]] constexpr basic_music_string<R> scaled(basic_music_string<R> s, const R& r) {
    const auto scale = [&](field<length<R>>& l) { l = l * r; };
    scale(s.core.diameter);
    for (basic_wrap<R>& w : s.layers) {
        scale(w.thickness);
        scale(w.ribbon_width);
        if (w.pitch) { scale(*w.pitch); }
        if (w.ground) { scale(*w.ground); }
    }
    if (s.weighed) { s.weighed = *s.weighed * R(r * r); }
    return s;
}

} // namespace kernel

/// The same construction with all its parts in proportion, of another gauge > 0.
template <class R>
[[nodiscard]] basic_music_string<R> of_gauge(const basic_music_string<R>& model, param<length<R>> outside) {
    require_valid_string(model);
    require("gauge", outside, more_than_up_to(0 * units::mm, 20 * units::mm));
    return kernel::scaled<R>(model, ratio<unit::length, R>(outside, kernel::gauge(model)));
}

/// The same construction, in proportion, of the gauge that pulls a tension at a pitch over a speaking length; all > 0.
///
/// Mass per length and axial stiffness go with the square of the gauge, so `mu v^2 q^2 - T q - T^2/EA = 0` gives the square
/// q of the ratio of gauges, v = 2 L f. Music wire's modulus goes with its size in steps: repeated, which leaves at most
/// one part in 10^4 of the tension where the answer falls on a step.
template <class R>
[[nodiscard]] basic_music_string<R> for_tension(const basic_music_string<R>& model, param<force<R>> pull,
                                                param<length<R>> speaking_length, param<frequency<R>> pitch) {
    require_valid_string(model);
    require("tension", pull, more_than(0 * units::N));
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    kernel::require_bare_ends_fit<R>(model, speaking_length);
    const R one = number<R>(1);
    const force<R> slack = kernel::tension<R>(kernel::felt_mass<R>(model, speaking_length), speaking_length, pitch);
    R r = one;
    for (int i = 0; i < 4; ++i) {
        const force<R> ea = kernel::axial_stiffness(kernel::scaled<R>(model, r)) / R(r * r);
        const R q =
            ratio<unit::force, R>(pull, slack) * number<R>(0.5L) * R(one + sqrt(R(one + number<R>(4) * ratio(slack, ea))));
        r = sqrt(q);
    }
    return kernel::scaled<R>(model, r);
}

/// The string that pulls on another scale or at another pitch what `s` pulls now, same construction in proportion.
template <class R>
[[nodiscard]] basic_music_string<R> for_same_tension(const basic_music_string<R>& s, param<length<R>> speaking_length_now,
                                                     param<frequency<R>> pitch_now, param<length<R>> speaking_length,
                                                     param<frequency<R>> pitch) {
    return for_tension<R>(s, tension<R>(s, speaking_length_now, pitch_now), speaking_length, pitch);
}

// From a stock -----------------------------------------------------------------------------------------------------

/// A string that was chosen, and what taking it from the stock costs.
template <class R = double>
struct basic_chosen_string {
    /// Its place in the stock.
    std::size_t index = 0;
    force<R> wanted{};
    force<R> pull{};
    /// Core stress over strength; nothing when unknown. Above 1 the string is expected to break.
    std::optional<R> share{};

    /// What rounding to the stock costs: the pull less the wanted one.
    [[nodiscard]] constexpr force<R> off() const { return pull - wanted; }
};
using chosen_string = basic_chosen_string<double>;

/// The string of a stock whose pull at a pitch and speaking length is nearest to a wanted one, by ratio. The stock has at
/// least one string, all quantities > 0, else `invalid_input`.
template <class R>
[[nodiscard]] basic_chosen_string<R> nearest_in_stock(const std::vector<basic_music_string<R>>& stock,
                                                      param<force<R>> wanted, param<length<R>> speaking_length,
                                                      param<frequency<R>> pitch) {
    require_that(!stock.empty(), "stock", "must have at least one string to choose from");
    require("wanted tension", wanted, more_than(0 * units::N));
    basic_chosen_string<R> best{};
    R least{};
    for (std::size_t i = 0; i < stock.size(); ++i) {
        const force<R> pull = tension<R>(stock[i], speaking_length, pitch);
        const R distance = tautline::abs<R>(log2(ratio<unit::force, R>(pull, wanted)));
        if (i == 0 || all(distance < least)) {
            least = distance;
            best = {i, wanted, pull, std::nullopt};
        }
    }
    best.share = share_of_strength<R>(stock[best.index], best.pull);
    return best;
}

/// Where a string is to go: what it sounds and over which length.
template <class R = double>
struct basic_string_place {
    using real = R;
    field<length<R>> speaking_length{};
    field<frequency<R>> pitch{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("speaking_length", more_than_up_to(0 * units::mm, 5000 * units::mm), self.speaking_length...);
        visit("pitch", more_than_up_to(0 * units::Hz, 20000 * units::Hz), self.pitch...);
    }
};
using string_place = basic_string_place<double>;

/// A share of a total pull for each string: in proportion to `weights` (even tension: all the same; any other profile as
/// wished). At least one, all > 0; total > 0.
template <class R>
[[nodiscard]] std::vector<force<R>> shared_pull(const force<R>& total, const std::vector<R>& weights) {
    require("total pull", total, more_than(0 * units::N));
    require_that(!weights.empty(), "weights", "must have one for each string");
    R sum{};
    for (const R& w : weights) {
        require("weight", w, more_than(0));
        sum += w;
    }
    std::vector<force<R>> pulls;
    for (const R& w : weights) { pulls.push_back(total * R(w / sum)); }
    return pulls;
}

/// Even feel: every string as stiff sideways at the same share of its length, so the pull in proportion to the speaking
/// length. On one scale it is even tension; on a fan it is not.
template <class R>
[[nodiscard]] std::vector<force<R>> even_feel(const force<R>& total, const std::vector<basic_string_place<R>>& places) {
    std::vector<R> weights;
    for (const auto& p : places) { weights.push_back(p.speaking_length.value()); }
    return shared_pull<R>(total, weights);
}

/// The nearest string of a stock for each place. One wanted pull for each place, all valid, else `invalid_input`.
template <class R>
[[nodiscard]] std::vector<basic_chosen_string<R>> choose_set(const std::vector<basic_music_string<R>>& stock,
                                                             const std::vector<basic_string_place<R>>& places,
                                                             const std::vector<force<R>>& wanted) {
    require_that(places.size() == wanted.size(), "wanted pulls", "must be one for each string");
    require_that(!places.empty(), "places", "must have at least one string");
    std::vector<basic_chosen_string<R>> chosen;
    for (std::size_t i = 0; i < places.size(); ++i) {
        require_valid(places[i], "places[" + std::to_string(i) + "]");
        chosen.push_back(nearest_in_stock<R>(stock, wanted[i], places[i].speaking_length, places[i].pitch));
    }
    return chosen;
}

/// What a set pulls, altogether and on each side of the neck.
template <class R = double>
struct basic_set_pull {
    force<R> total{};
    /// First half of the strings; a middle string counts half to each side.
    force<R> bass{};
    force<R> treble{};
};
using set_pull = basic_set_pull<double>;

/// Sum of the pulls of a set, bass side first. Each >= 0.
template <class R>
[[nodiscard]] basic_set_pull<R> pull_of_set(const std::vector<force<R>>& pulls) {
    basic_set_pull<R> sum{};
    for (std::size_t i = 0; i < pulls.size(); ++i) {
        require("pull", pulls[i], at_least(0 * units::N));
        const std::size_t twice = 2 * i + 1;
        const long double bass = twice < pulls.size() ? 1 : twice == pulls.size() ? 0.5L : 0;
        sum.total += pulls[i];
        sum.bass += pulls[i] * number<R>(bass);
        sum.treble += pulls[i] * number<R>(1 - bass);
    }
    return sum;
}

} // namespace tautline
