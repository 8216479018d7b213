#pragma once
/// @file
/// The instrument of the tests of setup/ and what is built on it: four courses, floating bridge, tailpiece.

#include <map>
#include <string>

#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

namespace demo {

using namespace tautline;
using namespace tautline::units;

/// The ready-made octave mandolin, its saddle left as high as the tests' numbers were taken with.
inline instrument four_course() {
    instrument i = ready_made::octave_mandolin().instrument;
    i.saddle.height_bass = 18.5 * mm;
    i.saddle.height_treble = 18 * mm;
    return i;
}

inline stringing unison_pairs() {
    const auto o = ready_made::octave_mandolin();
    return string_up(o.strings, o.a4);
}

/// Every number of a solved setup by its path.
template <class R>
std::map<std::string, double> leaves_of(const basic_setup<R>& s) {
    std::map<std::string, double> v;
    for_each_leaf(s, [&](std::string_view path, const auto& x) {
        v[std::string(path)] = static_cast<double>(value_of(number_of(x)));
    });
    return v;
}

inline strung_instrument strung() { return {four_course(), unison_pairs()}; }

} // namespace demo
