/// @file
/// What ever broke an invariant, as it was shrunk; stays, so that it is tried first in every run.

#include "check.hpp"

namespace wholes {

const std::vector<recipe>& found_before() {
    static const std::vector<recipe> list = {
        // The plainest instrument there is: posts that do not ride on the neck's rise, a wrong growth of the bow.
        {},
        // A top under pins: it bears the speaking sides alone, its moment is conjugate to its turn, pins go with the
        // bridge.
        {.end = 2, .top = 1},
        {.frets = 1, .end = 2, .top = 1},
        // A straight saddle told at pitch, set slack.
        {.strings = 1, .frets = 12, .end = 2, .top = 1},
        // Feet stand on a top that sinks; a floating bridge turns none.
        {.end = 1, .top = 1},
        {.top = 1},
        // A joint that yields to nut and posts together.
        {.yields = 1},
        // A rod free in its channel: past the joint, from the head, under a neck with a set.
        {.yields = 1, .rod = 2, .rod_ends = 41, .rod_pull = 14},
        {.rod = 2, .rod_ends = 41, .rod_pull = 22},
        {.frets = 12, .rod = 2, .rod_begins = 60, .rod_pull = 60},
        {.frets = 12, .set = 1, .set_by = 60, .rod = 2, .rod_pull = 60},
        // A cone, once with a radius linear in x, once with its inverse.
        {.frets = 14, .arc = 2, .radius = 60},
        {.frets = 14, .arc = 3, .radius = 60},
        // Stiff strings at the last frets.
        {.strings = 3, .stuff = 6, .frets = 24, .ends = 100},
        // Calibrating a neck that stands back when slack.
        {.frets = 5, .other = 31},
        {.frets = 12, .rod = 1, .state = 2, .state_by = 40, .other = 60},
        // Strings that cannot keep a limit the bare neck passes; a sanded board that keeps its set.
        {.frets = 5, .set = 1},
        // The least removal whose line touches the board at its centroid: an even board, a hollow deepest there.
        {.frets = 13, .steps = 3, .joint = 6, .set = 1},
        // The relief of a slack rod, wished; wishes where hollow and back-bow are alike.
        {.frets = 5, .rod = 1},
        {.strings = 2, .frets = 7, .arc = 1, .rod = 1, .slots = 7, .action = 5, .over_top = 16, .top = 3},
        {.uneven = 93, .frets = 7, .wear = 32, .joint = 2, .rod = 1, .rod_dips = 42, .wish = 15, .more = 24},
        {.frets = 5, .wear = 2, .rod = 1},
        // Plans near buckling, which settle slowly.
        {.frets = 4, .state = 3, .state_by = 32, .other = 2},
        {.frets = 4, .rod = 1, .state = 3, .more = 24},
        // One height alone; octaves that are not the twelfth fret's; action at another fret than the twelfth.
        {.frets = 4},
        {.frets = 7, .places = 4},
        {.frets = 4, .other = 2},
        // A reset where a limit of the saddle binds; a single string's saddle has one height.
        {.strings = 1, .frets = 4},
        {.frets = 4, .more = 3},
        {.frets = 10, .steps = 3, .joint = 3, .end = 2, .action = 61, .slant = 1},
    };
    return list;
}

} // namespace wholes
