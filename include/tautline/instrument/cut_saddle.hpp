#pragma once
/// @file
/// What follows a saddle that is cut, shimmed or made anew: how far it stands out of its slot, and how high the strings
/// run over the line that the bridge turns about.

#include "strung_instrument.hpp"

namespace tautline::kernel {

/// Mean height of the strings' slots on the saddle, over the soundboard.
template <class R>
[[nodiscard]] length<R> mean_saddle_height(const basic_strung_instrument<R>& on) {
    const auto& saddle = on.instrument.saddle;
    const auto& strings = on.stringing.strings;
    const auto ends = kernel::outermost(saddle.spacing);
    length<R> sum{};
    kernel::place_strings<R>(
        saddle.spacing, "saddle.spacing", [&](std::size_t i) { return kernel::gauge(strings[i].string); },
        [&](std::size_t i, const length<R>& y) { sum += kernel::saddle_height_of<R>(saddle, i, ends[0], ends[1], y); });
    return sum / number<R>(static_cast<double>(strings.size()));
}

/// How far the saddle stands out of its slot on a bridge that holds the strings' ends; null on other bridges.
template <class Instrument>
[[nodiscard]] constexpr auto* exposed_saddle(Instrument& i) {
    return i.pins ? &i.pins->saddle_exposed : i.tie_block ? &i.tie_block->saddle_exposed : nullptr;
}
/// Height of the strings' axis over the line that the bridge turns about; null where it is not given.
template <class Instrument>
[[nodiscard]] constexpr auto* height_over_turn_of(Instrument& i) {
    return i.soundboard && i.soundboard->saddle_height ? &*i.soundboard->saddle_height : nullptr;
}

/// A length after a change, kept within 0 and `most`, in metres.
template <class R>
[[nodiscard]] length<R> moved_within(const length<R>& was, const length<R>& by, double most) {
    return min<unit::length, R>(max<unit::length, R>(was + by, length<R>()), length<R>::from_value(number<R>(most)));
}
/// Lets the height that stands out of the slot follow a saddle that is cut or raised by `by` from where it was in `from`.
/// It ends at 0: a saddle below the wood is told by the plan.
template <class R>
void move_exposed(const basic_instrument<R>& from, const length<R>& by, basic_instrument<R>& to) {
    const auto* was = exposed_saddle(from);
    auto* is = exposed_saddle(to);
    if (was && is) { *is = moved_within<R>(length<R>(*was), by, 0.03); }
}
/// The same for the height of the strings over the line that the bridge turns about.
template <class R>
void move_height_over_turn(const basic_instrument<R>& from, const length<R>& by, basic_instrument<R>& to) {
    const auto* was = height_over_turn_of(from);
    auto* is = height_over_turn_of(to);
    if (was && is) { *is = moved_within<R>(length<R>(*was), by, 0.1); }
}

} // namespace tautline::kernel
