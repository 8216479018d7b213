#pragma once
/// @file
/// How the strings' ends at the nut ride on the neck.

namespace tautline {

/// How the strings' ends at the nut ride on the neck: a matter of how the board is made, whatever its numbers are.
enum class nut_kind {
    square,  ///< all of them on its end, which carries them along as it rises
    slanted, ///< each where it leaves its slot, as on fanned frets, or where one has a nut of its own on the neck
};

} // namespace tautline
