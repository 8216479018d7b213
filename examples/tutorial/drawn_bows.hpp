#pragma once
/// @file
/// Draws frets' crests over a straightedge, one curve for each set of strings.

#include <string>
#include <tautline/neck/loaded_frets.hpp>
#include <vector>

namespace tutorial {

/// The crests of one neck under one set.
struct drawn_bow {
    std::string name{};
    std::vector<tautline::crest> crests{}; ///< under load, from the first fret to the joint's
    tautline::length<> relief{};
};

/// Writes a PNG of the gaps under a straightedge on the first and the last crest.
void draw_bows(const std::string& file, const std::vector<drawn_bow>& bows);

} // namespace tutorial
