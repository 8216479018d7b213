#pragma once
/// @file
/// Tunings that have a name in the trade or in folk practice.

#include <array>
#include <optional>
#include <string_view>

#include "tuning.hpp"

namespace tautline {

/// A tuning's name and its notes, bass side first. Instruments with double courses have one note for each course.
struct named_tuning {
    std::string_view name;  ///< to find it by
    std::string_view notes; ///< bass first, as `parse_tuning` reads them
};

/// All named tunings. Common practice, no source.
inline constexpr std::array named_tunings{
    named_tuning{"guitar", "E2 A2 D3 G3 B3 E4"},
    named_tuning{"guitar, drop D", "D2 A2 D3 G3 B3 E4"},
    named_tuning{"guitar, double drop D", "D2 A2 D3 G3 B3 D4"},
    named_tuning{"guitar, DADGAD", "D2 A2 D3 G3 A3 D4"},
    named_tuning{"guitar, open D", "D2 A2 D3 F#3 A3 D4"},
    named_tuning{"guitar, open E", "E2 B2 E3 G#3 B3 E4"},
    named_tuning{"guitar, open G", "D2 G2 D3 G3 B3 D4"},
    named_tuning{"guitar, open A", "E2 A2 E3 A3 C#4 E4"},
    named_tuning{"guitar, open C", "C2 G2 C3 G3 C4 E4"},
    named_tuning{"baritone guitar in B", "B1 E2 A2 D3 F#3 B3"},
    named_tuning{"baritone guitar in A", "A1 D2 G2 C3 E3 A3"},
    named_tuning{"tenor guitar", "C3 G3 D4 A4"},
    named_tuning{"bass guitar", "E1 A1 D2 G2"},
    named_tuning{"five-string bass guitar", "B0 E1 A1 D2 G2"},
    named_tuning{"mandolin", "G3 D4 A4 E5"},
    named_tuning{"mandola", "C3 G3 D4 A4"},
    named_tuning{"octave mandolin", "G2 D3 A3 E4"},
    named_tuning{"mandocello", "C2 G2 D3 A3"},
    named_tuning{"Irish bouzouki", "G2 D3 A3 D4"},
    named_tuning{"tenor banjo", "C3 G3 D4 A4"},
    named_tuning{"Irish tenor banjo", "G2 D3 A3 E4"},
    named_tuning{"plectrum banjo", "C3 G3 B3 D4"},
    named_tuning{"five-string banjo, open G", "G4 D3 G3 B3 D4"},
    named_tuning{"five-string banjo, double C", "G4 C3 G3 C4 D4"},
    named_tuning{"ukulele", "G4 C4 E4 A4"},
    named_tuning{"ukulele, low G", "G3 C4 E4 A4"},
    named_tuning{"baritone ukulele", "D3 G3 B3 E4"},
};

/// The tuning of a name, spelled as in `named_tunings`; nothing when there is none.
template <class When = when_used>
[[nodiscard]] std::optional<tuning> find_tuning(std::string_view name) {
    for (const named_tuning& t : named_tunings) {
        if (t.name == name) { return parse_tuning<When>(t.notes); }
    }
    return std::nullopt;
}

} // namespace tautline
