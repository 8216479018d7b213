#pragma once
/// @file
/// How the strings' ends at the nut ride on the neck.

namespace tautline {

/// How the strings' ends at the nut ride on the neck. It depends on how the board is made, not on its measures.
enum class nut_kind {
    square,  ///< all ends rise with the end of the neck
    slanted, ///< each end rises with the neck under it: fanned frets, or a string with a nut of its own
};

} // namespace tautline
