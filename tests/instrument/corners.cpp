#include "corners.hpp"

#include <tautline/instrument/neck_cut.hpp>
#include <tautline/instrument/neck_of.hpp>
#include <tautline/instrument/ordered_string.hpp>
#include <tautline/instrument/strung_instrument.hpp>
#include <tautline/neck/beam.hpp>
#include <tautline/strings/tension.hpp>

#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::each_number;
using corners::everywhere;

TEST_CASE("corners: an instrument that is valid has a joint and a neck that can be told") {
    each_number("joint_place", demo::four_course(), [](const instrument& i) {
        require_valid(i);
        return joint_place(i);
    });
    auto filled = demo::four_course();
    filled.neck.inserts = {
        {.x_from = 20 * mm, .x_to = 260 * mm, .top = -6 * mm, .width = 6 * mm, .height = 8 * mm, .modulus = 0 * GPa}};
    filled.neck.slots = neck_slots{.depth = 2 * mm};
    filled.neck.traced = {
        {.x = 100 * mm,
         .profile = {{.y = -15 * mm, .depth = 2 * mm}, {.y = 0 * mm, .depth = 16 * mm}, {.y = 15 * mm, .depth = 2 * mm}}}};
    filled.board.thickness_off_line = {{.x = 60 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = 0 * mm}};
    for (const instrument& one : {demo::four_course(), filled}) {
        each_number("neck_of", one, [](const instrument& i) {
            require_valid(i);
            neck n;
            neck_of(i, n);
            return n;
        });
        each_number("cut_neck", one, [](const instrument& i) { return cut_neck<double>(i, 100 * mm).depth; });
    }
}
TEST_CASE("corners: the lines of a fan, by its scales or by its frets' places, or why there are none") {
    auto by_scales = demo::four_course();
    by_scales.board.scale.fan = two_scales{.bass_scale = 575 * mm, .treble_scale = 555 * mm, .square_fret = 6};
    const auto lines = lines_on_board(by_scales);
    auto by_places = by_scales;
    std::vector<field<length<>>> bass, treble;
    for (std::size_t n = 1; n < lines.size(); ++n) {
        bass.push_back(lines[n].bass.x - lines[0].bass.x);
        treble.push_back(lines[n].treble.x - lines[0].treble.x);
    }
    by_places.board.scale.fan = fan_by_places<double>(bass, treble, lines[0].treble.x - lines[0].bass.x);
    for (const instrument& one : {by_scales, by_places}) {
        each_number("lines_on_board", one, [](const instrument& i) {
            const auto all = lines_on_board(i);
            return all.back().treble.x - all.front().bass.x;
        });
    }
}
TEST_CASE("corners: strings are made as they are ordered, or it is said why not") {
    const ordered_string wound{.note = "D3", .gauge = 28 * thou, .core = 14 * thou, .wrap = "phosphor bronze"},
        plain{.note = "E4", .gauge = 11 * thou};
    for (const ordered_string& one : {wound, plain}) {
        each_number("made_string", one,
                    [](const ordered_string& order) { return tension<double>(made_string(order), 600 * mm, 147 * Hz); });
    }
    everywhere<frequency<>>("string_up", [&](auto a4) {
        const auto set = string_up(std::vector<ordered_string>{wound, plain}, param<frequency<>>(a4));
        require_valid(set);
        return pitch_of(set.strings[0].pitch, set.standard);
    });
}
