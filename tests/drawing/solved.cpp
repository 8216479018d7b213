#include "solved.hpp"

#include <algorithm>

#include "setup/demo.hpp"

namespace drawn {

using namespace tautline;
using namespace tautline::units;

namespace {

drawing::subject solved(const instrument& i, const stringing& s) { return {i, s, solve(strung_instrument{i, s}), {}, {}}; }

} // namespace

drawing::subject four_course() { return solved(demo::four_course(), demo::unison_pairs()); }

drawing::subject four_course_planned() {
    instrument i = demo::four_course();
    i.nut.slot_heights = std::vector<field<length<>>>(8, 1.1 * mm);
    i.saddle.height_bass = 17.4 * mm;
    i.saddle.height_treble = 17 * mm;
    i.board.surface = cylinder(300 * mm);
    i.saddle.radius = 300 * mm;
    i.frets.wear.clear();
    return solved(i, demo::unison_pairs());
}

drawing::subject diatonic() {
    instrument i = demo::four_course();
    for (const int step : {2, 4, 5, 7, 9, 11, 12, 14, 16}) {
        i.board.scale.measured_places.push_back(equal_step_position(560 * mm, step));
    }
    i.board.scale.frets = 9;
    i.neck.joint_fret = 7;
    i.frets.wear.clear();
    return solved(i, demo::unison_pairs());
}

drawing::subject solid_body() {
    const auto on = string_up(ready_made::solid_body_bass());
    return solved(on.instrument, on.stringing);
}

drawing::subject fanned(bool by_places) {
    auto on = string_up(ready_made::solid_body_bass());
    auto& i = on.instrument;
    i.board.board_length = 625 * mm;
    i.board.scale.fan = two_scales{.bass_scale = 880 * mm, .treble_scale = 845 * mm, .square_fret = 7};
    std::vector<single_saddle> each;
    for (int k = 0; k < 4; ++k) { each.push_back({.height = (11.2 - 0.2 * k) * mm, .setback = (6 - k) * mm}); }
    i.saddle = single_saddles(i.saddle.spacing, each, i.saddle.board_line);
    if (by_places) {
        const auto lines = lines_on_board(i);
        std::vector<field<length<>>> bass, treble;
        const auto from_nut = [](const plan_point& nut, const plan_point& p) {
            return length<>(hypot(length<>(p.x - nut.x), length<>(p.y - nut.y)));
        };
        for (std::size_t n = 1; n < lines.size(); ++n) {
            bass.push_back(from_nut(lines[0].bass, lines[n].bass));
            treble.push_back(from_nut(lines[0].treble, lines[n].treble));
        }
        i.board.scale.fan = fan_by_places<double>(bass, treble, lines[0].treble.x - lines[0].bass.x);
    }
    return solved(i, on.stringing);
}

drawing::subject touching() {
    instrument i = demo::four_course();
    i.nut.slot_heights = std::vector<field<length<>>>(8, 0.2 * mm);
    return solved(i, demo::unison_pairs());
}

drawing::subject pinned(int strings, double scale_mm, int frets) {
    const bool many = strings > 20;
    const double spread = (many ? 3.8 : 8.0) * (strings - 1), on_saddle = (many ? 1.1 : 1.3) * spread;
    const auto n = static_cast<std::size_t>(strings);
    instrument i = demo::four_course();
    i.board.width_at_nut = (spread + 8) * mm;
    i.board.width_at_end = (spread + 20) * mm;
    i.board.surface = flat_surface();
    i.board.scale = {.scale_length = scale_mm * mm, .frets = frets};
    i.board.board_length = (frets > 24 ? 0.98 : 0.8) * scale_mm * mm;
    if (frets > 0) { i.neck.joint_fret = std::min(frets, 12); }
    i.frets.wear.clear();
    i.nut = {.spacing = {.spread = spread * mm, .courses = std::vector<int>(n, 1)},
             .slot_heights = {field<length<>>(1.4 * mm)}};
    i.posts = std::vector<tuner_post>(n, {.along = 60 * mm, .across = 5 * mm, .height = 8 * mm});
    i.saddle.spacing = {.spread = on_saddle * mm, .courses = std::vector<int>(n, 1)};
    i.saddle.radius.reset();
    i.tailpiece.reset();
    i.pins = pins{.distance = 20 * mm,
                  .height = 8 * mm,
                  .spread = std::min(300.0, on_saddle) * mm,
                  .top_thickness = 3 * mm,
                  .saddle_exposed = 4 * mm};
    stringing s;
    // Some 60 N each whatever the length.
    for (int k = 0; k < strings; ++k) {
        s.strings.push_back({plain_string(music_wire(), 13 * thou), parse_note(scale_mm > 900 ? "C3" : "A3")});
    }
    return solved(i, s);
}

} // namespace drawn
