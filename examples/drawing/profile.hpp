#pragma once
/// @file
/// The lines of a setup from the side, in millimetres of the instrument: x from the nut, y up.

#include "subject.hpp"

namespace drawing {

/// The profile under one string, under load.
struct string_profile {
    std::vector<place> board{};  ///< the bare board
    std::vector<place> crests{}; ///< fret 1 first
    std::vector<place> feet{};   ///< the board under each crest
    place nut{}, saddle{};       ///< the string's underside
};
/// The profile under a string of the setup.
[[nodiscard]] string_profile profile_under(const subject& s, std::size_t string);

/// The instrument along its centre line, under load.
struct whole_profile {
    std::vector<place> board{}, underside{};
    std::vector<place> neck{};                 ///< its end at the nut, its back, and the heel up to the board
    std::vector<std::vector<place>> inside{};  ///< bars, tubes, channels, and the rod with them
    std::vector<place> head{};                 ///< the face of the headstock
    std::vector<place> posts{};                ///< where the outermost strings leave them
    std::vector<std::vector<place>> strings{}; ///< axes of the outermost strings, post or guide to anchor or pressing bar
    std::vector<std::vector<place>> beyond{};  ///< the strings' runs from guides to posts, and from a bar to their ends
    std::vector<place> soundboard{};
    std::vector<place> bridge{};
    std::vector<place> tailpiece{}; ///< hinge and where the strings leave it; empty where there is none
    const char* end = "";           ///< what the strings end on
    const char* top = "";           ///< the plane under the bridge
    place nut{};                    ///< under the outermost string that crosses it
    place joint{}, anchor{};
};
[[nodiscard]] whole_profile profile_of(const subject& s);

} // namespace drawing
