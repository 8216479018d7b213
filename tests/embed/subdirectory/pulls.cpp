#include "pulls.hpp"

#include <tautline/strings/pitch.hpp>

#include <tautline/strings/wire_materials.hpp>

tautline::force<> pull_of_first_string(tautline::length<> scale_length) {
    using namespace tautline::units;
    return tension(tautline::plain_string(tautline::music_wire(), 11 * thou), scale_length, tautline::pitch_of("E4"));
}
