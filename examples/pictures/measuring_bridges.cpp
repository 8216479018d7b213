// The pictures of docs/first-hour.md for what strings end on at the body. Nothing is to scale.
#include "measuring.hpp"

namespace pictures {

namespace {

using drawing::align, drawing::canvas, drawing::ink, drawing::place;

/// The end of the board with a notched straightedge on it, its underside from (x0, y) to (x1, y).
void board_and_straightedge(canvas& c, double y, double board_end, double edge_end, double top) {
    c.path(std::vector{place{4, y}, {board_end, y}, {board_end, y + 9}, {4, y + 9}}, {.width = 0.4});
    std::vector<double> notches;
    for (double x = board_end - 6; x > 6; x -= 11) {
        fret(c, {x, y}, 2, 2.2);
        notches.push_back(x);
    }
    straightedge(c, {4, y}, {edge_end, y}, 7, {notches.rbegin(), notches.rend()});
    c.line({board_end - 14, top}, {184, top}, {.width = 0.4});
}

void pinned(canvas& c) {
    const double top = 84, line = 62, scale = 100, saddle = 108, crest = 40;
    board_and_straightedge(c, line, 52, 80, top);
    dashed(c, {80, line}, {170, line});
    c.line({38, top + 5}, {184, top + 5}, {.width = 0.4});
    c.path(std::vector{place{82, top}, {86, 64}, {140, 64}, {148, top}}, {.width = 0.4});
    c.path(std::vector{place{105, 75}, {105, crest + 1}, {saddle, crest}, {111, crest + 1}, {111, 75}}, {.width = 0.35},
           true);
    c.path(std::vector{place{4, 46}, {saddle, crest}, {129, 64}}, {.width = 0.8});
    c.line({129, 64}, {132, 92}, {.width = 0.5});
    c.fill(std::vector{place{130, 64}, {133, 92}, {136, 92}, {136, 64}}, ink::pale);
    c.fill(drawing::box{128.5, 58, 9, 5.5}, ink::pale);
    word(c, {139.5, 56.5}, "pin");
    // Heights.
    led(c, {saddle, crest}, {182, crest});
    measured(c, {178, crest}, {178, top}, "1", {180, 26});
    measured(c, {166, line}, {166, top}, "2", {166, 26});
    led(c, {129, 64}, {158, 64});
    measured(c, {155, 64}, {155, top}, "6", {155, 100});
    led(c, {105, 64}, {92, 64});
    measured(c, {95, crest + 0.5}, {95, 64}, "7", {84, 26});
    measured(c, {66, top}, {66, top + 5}, "8", {50, 100});
    // Lengths.
    dashed(c, {scale, 98}, {scale, 12});
    led(c, {saddle, crest}, {saddle, 14});
    measured(c, {scale, 16}, {saddle, 16}, "3", {88, 12});
    led(c, {129, 64}, {129, 22});
    measured(c, {scale, 28}, {129, 28}, "5", {122, 12});
    mark(c, "4", {142, 18}, {112, 44.5});
    word(c, {scale - 2, 103}, "end of the scale length", align::middle);
    word(c, {22, 76}, "board");
    word(c, {30, 100}, "top", align::right);
    led(c, {31, 98}, {40, top + 2});
}

void floating(canvas& c) {
    const double top = 74, line = 52, scale = 62, saddle = 68, crest = 34, rim = 170;
    board_and_straightedge(c, line, 34, 56, top);
    dashed(c, {56, line}, {104, line});
    // The arched top falls to the rim; its plane at the bridge runs on.
    c.fill(drawing::box{20, top - 0.5, 165, 1}, ink::white);
    std::vector<place> arch;
    for (int i = 0; i <= 40; ++i) {
        const double x = 20 + (rim - 20) * i / 40, share = (x - 66) / (rim - 66);
        arch.push_back({x, top + (share > 0 ? 14 * share * share : 14 * share * share * 0.3)});
    }
    arch.push_back({rim, 104});
    c.path(arch, {.width = 0.4});
    dashed(c, {30, top}, {184, top});
    c.path(std::vector{place{56, top}, {64, 46}, {saddle, crest}, {71, 46}, {78, top}}, {.width = 0.4}, true);
    c.line({61, 57}, {75, 57}, {.width = 1.4});
    const place loop{116, 60}, hinge{rim, 86};
    c.path(std::vector{place{4, 38}, {saddle, crest}, loop}, {.width = 0.8});
    c.path(std::vector{loop, {hinge.x - 2, 84}, hinge, {rim, 94}}, {.width = 1.3});
    // Heights.
    led(c, {saddle, crest}, {100, crest});
    measured(c, {96, crest}, {96, top}, "1", {104, 20});
    measured(c, {88, line}, {88, top}, "2", {88, 98});
    measured(c, {178, top}, {178, hinge.y}, "6", {180, 58});
    led(c, hinge, {180, hinge.y});
    measured(c, {loop.x, loop.y}, {loop.x, top}, "11", {126, 98});
    // Lengths.
    dashed(c, {scale, 110}, {scale, 8});
    led(c, {saddle, crest}, {saddle, 10});
    measured(c, {scale, 12}, {saddle, 12}, "3", {50, 12});
    led(c, hinge, {rim, 20});
    measured(c, {scale, 24}, {rim, 24}, "5", {140, 24});
    led(c, loop, {loop.x, 38});
    measured(c, {loop.x, 42}, {rim, 42}, "7", {144, 42});
    led(c, {56, top}, {56, 90});
    led(c, {78, top}, {78, 90});
    measured(c, {56, 84}, {scale, 84}, "8", {42, 98});
    measured(c, {scale, 88}, {78, 88}, "9", {72, 102});
    mark(c, "4", {84, 12}, {72.5, 37.5});
    mark(c, "10", {146, 66}, {130, 65});
    word(c, {128, 88}, "level with the top");
    word(c, {128, 92.5}, "under the bridge");
    led(c, {138, 85}, {138, top});
    word(c, {scale, 116}, "end of the scale length", align::middle);
    word(c, {52, 57}, "wheel", align::right);
    word(c, {184, 104}, "rim", align::right);
}

/// A tie block, and a saddle of its own on a solid body.
void other_ends(canvas& c) {
    {
        const double top = 78, scale = 32, saddle = 36, crest = 42;
        word(c, {6, 10}, "Tie block");
        c.line({6, top}, {90, top}, {.width = 0.4});
        c.path(std::vector{place{18, top}, {22, 64}, {44, 64}, {46, 68}, {56, 68}, {56, 54}, {78, 54}, {82, top}},
               {.width = 0.4});
        c.path(std::vector{place{34, 72}, {34, crest + 1}, {saddle, crest}, {38, crest + 1}, {38, 72}}, {.width = 0.35},
               true);
        c.rectangle({56, 60, 22, 4}, {.width = 0.25, .dash = 1, .gap = 0.8});
        c.path(std::vector{place{6, 45}, {saddle, crest}, {56, 61}, {78, 61}, {80, 56}, {76, 52}, {60, 52}, {52, 57}},
               {.width = 0.7});
        dashed(c, {scale, 92}, {scale, 20});
        led(c, {56, 54}, {56, 20});
        measured(c, {scale, 22}, {56, 22}, "1", {46, 32});
        led(c, {78, 62}, {90, 62});
        measured(c, {88, 62}, {88, top}, "2", {88, 96});
        measured(c, {66, 60}, {66, 64}, "3", {66, 96});
        measured(c, {50, 57}, {50, 59.8}, "4", {68, 36});
    }
    {
        const double top = 86, scale = 120, saddle = 128, crest = 52;
        word(c, {104, 10}, "A saddle for each string, on a solid body");
        c.line({104, top}, {186, top}, {.width = 0.4});
        c.path(std::vector{place{110, top}, {110, 80}, {168, 80}, {168, 60}, {172, 60}, {172, top}}, {.width = 0.4});
        c.path(std::vector{place{122, 76}, {122, 60}, {saddle, crest}, {134, 60}, {134, 76}}, {.width = 0.4}, true);
        c.line({125, 58}, {125, 80}, {.width = 1.1, .shade = ink::grey});
        c.line({134, 68}, {178, 68}, {.width = 1.1, .shade = ink::grey});
        c.path(std::vector{place{104, 55}, {saddle, crest}, {168, 64}, {180, 64}}, {.width = 0.8});
        dashed(c, {scale, 98}, {scale, 22});
        led(c, {saddle, crest}, {saddle, 24});
        measured(c, {scale, 26}, {saddle, 26}, "5", {108, 26});
        led(c, {168, 60}, {168, 24});
        measured(c, {scale, 36}, {168, 36}, "6", {150, 36});
        led(c, {168, 64}, {184, 64});
        measured(c, {182, 64}, {182, top}, "7", {180, 46});
        led(c, {saddle, crest}, {152, crest});
        measured(c, {148, crest}, {148, top}, "8", {152, 98});
        mark(c, "9", {136, 98}, {125, 78});
        mark(c, "10", {166, 98}, {160, 68});
    }
}

/// Fanned frets from above, and a short string with its own nut from the side.
void own_ways(canvas& c) {
    {
        word(c, {6, 10}, "Fanned frets, from above");
        const auto bass = [](double share) { return place{10 + 74 * share, 76 + 3 * share}; };
        const auto treble = [](double share) { return place{16 + 57 * share, 44 - 3 * share}; };
        const auto share_of = [](int n) { return 1 - std::exp2(-n / 12.0); };
        c.line(bass(0), treble(0), {.width = 1.2});
        for (int n = 1; n <= 18; ++n) { c.line(bass(share_of(n)), treble(share_of(n)), {.width = 0.3}); }
        c.path(std::vector{bass(0), bass(0.68), treble(0.68), treble(0)}, {.width = 0.4});
        dashed(c, {4, 60}, {92, 60});
        c.line({84, 79}, {73, 41}, {.width = 0.8});
        c.line({10.4, 73}, {84, 76}, {.width = 0.35});
        c.line({15.6, 46}, {73.6, 43}, {.width = 0.35});
        led(c, bass(0), {10, 26});
        led(c, treble(0), {16, 26});
        measured(c, {10, 28}, {16, 28}, "1", {32, 28});
        const double f5 = share_of(5), f12 = share_of(12);
        measured(c, {10, 84}, {bass(f5).x, 84}, "2", {22, 98});
        led(c, bass(0), {10, 86});
        led(c, bass(f5), {bass(f5).x, 86});
        measured(c, {16, 36}, {treble(f12).x, 36}, "3", {58, 28});
        led(c, treble(f12), {treble(f12).x, 34});
        mark(c, "4", {46, 98}, {bass(share_of(7)).x - 0.5, 66});
        mark(c, "5", {78, 98}, {84, 79});
        word(c, {92, 36}, "treble side", align::right);
    }
    {
        word(c, {104, 10}, "A short string, from the side");
        const double board = 56, own = 152;
        c.path(std::vector{place{106, board}, {186, board}}, {.width = 0.4});
        c.path(std::vector{place{106, board + 8}, {186, board + 8}}, {.width = 0.35});
        for (const double x : {114.0, 134.0, own, 168.0, 182.0}) { fret(c, {x, board}, 4, 4); }
        c.fill(drawing::box{146, 42, 4, 14}, ink::pale);
        c.rectangle({146, 42, 4, 14}, {.width = 0.3});
        c.path(std::vector{place{124, 50}, {147, 45}, {150, 45}, {186, 40}}, {.width = 0.8});
        c.line({123, 74}, {123, 46}, {.width = 2});
        led(c, {150, 45}, {164, 45});
        measured(c, {161, board}, {161, 44}, "6", {166, 24});
        mark(c, "7", {146, 24}, {148, 42});
        led(c, {150, board}, {150, 88});
        led(c, {124, 50}, {124, 88});
        measured(c, {150, 84}, {124, 84}, "8", {150, 98});
        measured(c, {118, board}, {118, 50}, "9", {114, 30});
        led(c, {124, 50}, {116, 50});
        word(c, {128, 72}, "peg");
        mark(c, "10", {176, 98}, {own, board - 2});
    }
}

} // namespace

std::vector<picture> of_measuring_bridges() {
    return {{"measure_pinned", white_page(188, 108, pinned), measuring_dots},
            {"measure_floating", white_page(188, 120, floating), measuring_dots},
            {"measure_other_ends", white_page(188, 106, other_ends), measuring_dots},
            {"measure_own_ways", white_page(188, 106, own_ways), measuring_dots}};
}

} // namespace pictures
