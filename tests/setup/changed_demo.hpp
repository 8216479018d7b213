#pragma once
/// @file
/// The demo after changes that a door refuses.

#include <utility>

#include <tautline/setup/solve.hpp>

#include "demo.hpp"

namespace demo {

using namespace tautline;
using namespace tautline::units;

inline strung_instrument on() { return {demo::four_course(), demo::unison_pairs()}; }
/// The demo after a change.
template <class Change>
strung_instrument but(Change&& change) {
    auto s = on();
    change(s.instrument, s.stringing);
    return s;
}
inline strung_instrument on_pins() {
    return but([](instrument& i, stringing&) {
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    });
}
inline strung_instrument without_frets(int left = 0) {
    return but([&](instrument& i, stringing&) {
        i.board.scale.frets = left;
        i.frets.wear.clear();
        i.neck.joint_fret = left > 0 ? left : 12;
    });
}

} // namespace demo
