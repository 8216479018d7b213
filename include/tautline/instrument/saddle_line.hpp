#pragma once
/// @file
/// The line of the saddle before compensation, under each string. Setbacks are told from there.

#include <vector>

#include "strung_instrument.hpp"

namespace tautline::kernel {

/// The places on the saddle's line from which setbacks are told: one for all strings, or on a fan one for each string.
template <class R>
void line_under_strings(const basic_strung_instrument<R>& on, std::vector<length<R>>& x) {
    const auto& i = on.instrument;
    x.assign(on.stringing.strings.size(), line_place(i));
    if (!i.board.scale.fan) { return; }
    const auto line = board_lines<R>(i).saddle();
    const auto gauge = [&](std::size_t k) { return kernel::gauge(on.stringing.strings[k].string); };
    kernel::place_strings<R>(i.saddle.spacing, "saddle.spacing", gauge,
                             [&](std::size_t k, const length<R>& y) { x[k] = line.at(y); });
}
template <class R>
[[nodiscard]] std::vector<length<R>> line_under_strings(const basic_strung_instrument<R>& on) {
    std::vector<length<R>> x;
    line_under_strings(on, x);
    return x;
}

} // namespace tautline::kernel
