// The pictures of docs/first-hour.md for head, nut, neck and board: where each measurement is taken. Nothing is to scale.
#include "measuring.hpp"

namespace pictures {

namespace {

using drawing::align, drawing::canvas, drawing::ink, drawing::place;

/// Nut, first frets and head from the side.
void at_the_nut(canvas& c) {
    const double front = 96, board = 52, tilt = std::tan(14 * std::numbers::pi / 180);
    const auto face = [&](double x) { return 64 + (80 - x) * tilt; };
    // Neck and head, board, nut.
    c.path(std::vector{place{184, 92}, {112, 90}, {96, 92}, {8, face(8) + 13}, {8, face(8)}, {80, face(80)}, {84, 64}},
           {.width = 0.35});
    c.path(std::vector{place{184, board}, {front, board}, {front, 64}, {184, 64}}, {.width = 0.4});
    c.path(std::vector{place{84, 64}, {84, 41}, {front, 41}, {front, 64}}, {.width = 0.35}, true);
    fret(c, {138, board}, 5, 9, 8);
    fret(c, {172, board}, 5, 9, 8);
    c.line({138, board}, {138, board + 8}, {.width = 1.2});
    // Post, and the string from it over the slot.
    c.line({26, face(26) + 3}, {26, face(26) - 16}, {.width = 2});
    const double slot = 44, left = face(26) - 11;
    c.path(std::vector{place{27, left}, {84, slot + 1}, {front, slot}, {184, 38}}, {.width = 0.9});
    // The slot: feelers under the string, at the nut's front.
    feelers(c, {97, board}, 20, board - slot - 0.4);
    word(c, {100, 36}, "feelers");
    measured(c, {119, board}, {119, 42.8}, "1", {119, 22});
    led(c, {117, board}, {120, board});
    // Over fret 1, crown, its width, tang.
    measured(c, {138, 47}, {138, 41.6}, "2", {138, 22});
    led(c, {172, 47}, {182, 47});
    measured(c, {180, 47}, {180, board}, "3", {180, 72});
    measured(c, {167.5, 45}, {176.5, 45}, "4", {162, 22});
    measured(c, {143, board}, {143, board + 8}, "5", {143, 76});
    // Where the face is taken.
    dashed(c, {front, board}, {20, board});
    led(c, {80, face(80)}, {80, 88});
    led(c, {front, 64}, {front, 88});
    measured(c, {80, 86}, {front, 86}, "6", {88, 102});
    measured(c, {80, board}, {80, face(80)}, "7", {68, 32});
    std::vector<place> turn;
    for (int i = 0; i <= 12; ++i) {
        const double by = 14 * std::numbers::pi / 180 * i / 12, r = 72;
        turn.push_back({128 - r * std::cos(by), board + r * std::sin(by)});
    }
    c.path(turn, {.width = 0.3});
    mark(c, "8", {46, 32}, turn[6]);
    // The post.
    const auto below = [&](double x, double by) { return place{x - by * tilt, face(x) + by}; };
    led(c, below(80, 0), below(80, 17));
    led(c, below(26, 0), below(26, 17));
    measured(c, below(80, 15), below(26, 15), "9", {48, 104});
    measured(c, {17, left}, {17, face(17)}, "10", {10, 46});
    led(c, {27, left}, {15, left});
    word(c, {34, 24}, "post", align::right);
    led(c, {31, 25}, {26.5, face(26) - 15});
    mark(c, "11", {94, 22}, {90, slot + 0.4});
}

/// A strung neck from the side.
void heights(canvas& c) {
    const double nut = 18, scale = 146, board = 46;
    const auto place_of = [&](int n) { return nut + scale * (1 - std::exp2(-n / 12.0)); };
    const double end = place_of(19) + 5, joint = place_of(14), saddle = nut + scale + 3;
    const auto string = [&](double x) { return 42.6 - (x - nut) * 0.075; };
    c.path(std::vector{place{nut, board}, {end, board}, {end, board + 4}, {nut, board + 4}}, {.width = 0.4}, true);
    c.path(
        std::vector{place{8, board + 7}, {nut, board + 4}, {nut, board + 14}, {joint - 8, board + 16}, {joint, board + 24}},
        {.width = 0.35});
    c.path(std::vector{place{joint, board + 4}, {joint, board + 30}, {184, board + 30}}, {.width = 0.35});
    c.line({end, board + 4}, {184, board + 4}, {.width = 0.35});
    c.fill(drawing::box{nut - 4, 41.5, 4, 8.5}, ink::pale);
    for (int n = 1; n <= 19; ++n) { fret(c, {place_of(n), board}, 1.6, 2); }
    c.fill(std::vector{place{saddle - 9, board + 4},
                       {saddle - 1.5, string(saddle) + 1},
                       {saddle, string(saddle)},
                       {saddle + 1.5, string(saddle) + 1},
                       {saddle + 9, board + 4}},
           ink::pale);
    c.path(std::vector{place{6, 46}, {nut - 1, string(nut)}, {saddle, string(saddle)}, {184, 38}}, {.width = 0.7});
    standing_rule(c, {place_of(12) + 1.5, board - 1.6}, 22);
    word(c, {place_of(12) + 10, 20}, "rule");
    const auto over = [&](int n, const char* number, double x) {
        measured(c, {place_of(n), board - 1.6}, {place_of(n), string(place_of(n))}, number, {x, 12});
    };
    over(1, "1", 30);
    over(12, "2", 78);
    over(19, "3", 126);
    led(c, {nut, board + 4}, {nut, 94});
    led(c, {place_of(12), board}, {place_of(12), 80});
    led(c, {end, board + 4}, {end, 94});
    measured(c, {nut, 78}, {place_of(12), 78}, "4", {54, 78});
    measured(c, {nut, 92}, {end, 92}, "5", {70, 92});
    mark(c, "6", {150, 88}, {joint, board + 27});
    word(c, {saddle - 10, 66}, "body", align::right);
}

/// Relief at pitch, and the slack board with a notched straightedge.
void relief(canvas& c) {
    const double nut = 14, scale = 140;
    const auto place_of = [&](int n) { return nut + scale * (1 - std::exp2(-n / 12.0)); };
    const double end = place_of(19) + 4, joint = place_of(14), f1 = place_of(1);
    const auto draw = [&](double y, double deep) {
        const auto board = [=](double x) {
            const double share = (x - f1) / (joint - f1);
            return y + (share > 0 && share < 1 ? deep * 4 * share * (1 - share) : 0.0);
        };
        std::vector<place> top, under;
        for (int i = 0; i <= 60; ++i) {
            const double x = nut + (end - nut) * i / 60;
            top.push_back({x, board(x)});
            under.insert(under.begin(), {x, board(x) + 5});
        }
        top.insert(top.end(), under.begin(), under.end());
        c.path(top, {.width = 0.4}, true);
        for (int n = 1; n <= 19; ++n) { fret(c, {place_of(n), board(place_of(n))}, 1.8, 2); }
        return board;
    };
    // At pitch: on fret 1 and the joint's fret, between the strings.
    const auto strung = draw(36, 4.5);
    word(c, {nut, 9}, "At pitch, between the strings (not drawn)");
    straightedge(c, {f1 - 3, 34.2}, {joint + 3, 34.2}, 7);
    const double f7 = place_of(7);
    measured(c, {f7, 34.2}, {f7, strung(f7) - 1.8}, "1", {f7 + 8, 56});
    mark(c, "2", {140, 52}, {joint, 34.2});
    mark(c, "3", {16, 58}, {f1, 34.2});
    word(c, {joint + 12, 31}, "straightedge");
    // Slack: on the bare board.
    const auto slack = draw(96, 3);
    word(c, {nut, 69}, "Slack, on the bare board");
    const double saddle = nut + scale + 3, top = 110;
    std::vector<double> notches;
    for (int n = 1; n <= 19; ++n) { notches.push_back(place_of(n)); }
    straightedge(c, {nut, 96}, {saddle - 8, 96}, 9, notches);
    dashed(c, {saddle - 8, 96}, {saddle + 22, 96});
    const double at = (place_of(5) + place_of(6)) / 2;
    measured(c, {at, 96}, {at, slack(at)}, "5", {at + 12, 117});
    led(c, {at, slack(at)}, {at, 82});
    led(c, {nut, 96}, {nut, 78});
    measured(c, {nut, 80}, {at, 80}, "4", {36, 80});
    word(c, {90, 84}, "notched straightedge");
    c.line({joint, top}, {186, top}, {.width = 0.35});
    c.fill(std::vector{place{saddle - 5, top}, {saddle - 1, 90}, {saddle, 89}, {saddle + 1, 90}, {saddle + 5, top}},
           ink::pale);
    standing_rule(c, {saddle + 8, top}, 24, 5);
    measured(c, {saddle + 20, 96}, {saddle + 20, top}, "6", {181, 86});
    led(c, {saddle, 96}, {saddle + 22, 96});
    word(c, {184, 117}, "soundboard, or the solid body", align::right);
}

/// Board and neck cut across, and shapes of the back.
void sections(canvas& c) {
    const double middle = 60, half = 36, top = 34;
    const auto arc = [&](double x) { return top + 5 * (x - middle) * (x - middle) / (half * half); };
    std::vector<place> board;
    for (int i = 0; i <= 40; ++i) {
        const double x = middle - half + 2 * half * i / 40;
        board.push_back({x, arc(x)});
    }
    // The gauge touches the arc all along it.
    std::vector<place> gauge{{middle - half + 6, 18}, {middle + half - 6, 18}};
    for (int i = 38; i >= 2; --i) {
        const double x = middle - half + 2 * half * i / 40;
        if (x > middle - half + 5.9 && x < middle + half - 5.9) { gauge.push_back({x, arc(x) - 0.5}); }
    }
    c.fill(gauge, ink::pale);
    c.path(gauge, {.width = 0.3}, true);
    word(c, {middle, 25}, "radius gauge", align::middle);
    board.push_back({middle + half, 52});
    board.push_back({middle - half, 52});
    c.path(board, {.width = 0.4}, true);
    const auto back = [&](place centre, double a, double b, double power) {
        std::vector<place> curve;
        for (int i = 0; i <= 80; ++i) {
            const double x = std::cos(std::numbers::pi * i / 80);
            curve.push_back({centre.x + a * x, centre.y + b * std::pow(1 - std::pow(std::abs(x), power), 1 / power)});
        }
        c.path(curve, {.width = 0.4});
        c.line({centre.x - a, centre.y}, {centre.x + a, centre.y}, {.width = 0.25});
    };
    back({middle, 52}, half, 30, 2);
    led(c, {middle, top}, {104, top});
    led(c, {middle, 82}, {118, 82});
    led(c, {middle + half, 52}, {108, 52});
    measured(c, {102, top}, {102, 52}, "1", {108, 22});
    measured(c, {116, top}, {116, 82}, "3", {124, 58});
    led(c, {102, top}, {118, top});
    measured(c, {middle - half - 6, 39}, {middle - half - 6, 52}, "2", {9, 45});
    led(c, {middle - half, 39}, {middle - half - 8, 39});
    led(c, {middle - half, 52}, {middle - half - 8, 52});
    led(c, {middle - half, 52}, {middle - half, 96});
    led(c, {middle + half, 52}, {middle + half, 96});
    measured(c, {middle - half, 94}, {middle + half, 94}, "4", {middle, 94});
    mark(c, "5", {36, 22}, {middle - 20, arc(middle - 20)});
    word(c, {middle, 46}, "board", align::middle);
    word(c, {middle, 64}, "neck's back", align::middle);
    // Backs.
    const struct {
        double power;
        const char* words;
    } shapes[] = {{1, "1: a V"}, {1.5, "1.5: a soft V"}, {2, "2: an ellipse"}, {3, "3: nearly square"}};
    mark(c, "6", {138, 12}, {150, 18});
    double y = 18;
    for (const auto& s : shapes) {
        back({162, y}, 18, 13, s.power);
        word(c, {162, y + 18}, s.words, align::middle);
        y += 23;
    }
}

/// The instrument from above, bass below.
void from_above(canvas& c) {
    const double nut = 62, scale = 112, middle = 46, head = 14;
    const auto place_of = [&](int n) { return nut + scale * (1 - std::exp2(-n / 12.0)); };
    const double end = place_of(17) + 6;
    const auto half = [&](double x) { return 14 + 5 * (x - nut) / (end - nut); };
    c.path(std::vector{place{nut, middle - 14}, {end, middle - half(end)}, {end, middle + half(end)}, {nut, middle + 14}},
           {.width = 0.4}, true);
    c.path(std::vector{place{nut - 4, middle - 14},
                       {nut - 16, middle - 22},
                       {head - 6, middle - 22},
                       {head - 6, middle + 22},
                       {nut - 16, middle + 22},
                       {nut - 4, middle + 14}},
           {.width = 0.35});
    for (int n = 1; n <= 17; ++n) {
        c.line({place_of(n), middle - half(place_of(n))}, {place_of(n), middle + half(place_of(n))}, {.width = 0.25});
    }
    dashed(c, {4, middle}, {184, middle});
    const double end_of_scale = nut + scale;
    dashed(c, {end_of_scale, middle - 24}, {end_of_scale, middle + 36});
    const double bass = 7, treble = 3;
    c.line({end_of_scale + bass, middle + 23}, {end_of_scale + treble, middle - 23}, {.width = 1.2});
    c.fill(drawing::box{nut - 4, middle - 14, 4, 28}, ink::pale);
    for (int i = 0; i < 4; ++i) {
        const double share = i / 1.5 - 1; // -1 the treble side, drawn above
        const place slot{nut, middle + share * 11};
        const place post{i == 0 || i == 3 ? 46.0 : 26.0, middle + (i < 2 ? -15.0 : 15.0)};
        c.line(slot, {end_of_scale + (bass + treble) / 2 + share * 2 * (bass - treble) / 4, middle + share * 20},
               {.width = 0.35});
        c.line(slot, {post.x, post.y + (i < 2 ? 1.5 : -1.5)}, {.width = 0.35});
        c.circle(post, 1.8, {.width = 0.4});
        c.dot(post, 0.5);
    }
    const double f2 = 80;
    measured(c, {nut - 2, middle - 14}, {nut - 2, middle + 14}, "1", {50, 12});
    led(c, {end, middle - half(end)}, {end + 6, middle - half(end)});
    led(c, {end, middle + half(end)}, {end + 6, middle + half(end)});
    measured(c, {end + 4, middle - half(end)}, {end + 4, middle + half(end)}, "2", {end - 8, 12});
    measured(c, {f2, middle - 11.6}, {f2, middle + 11.6}, "3", {94, 86});
    measured(c, {160, middle - 18.1}, {160, middle + 18.1}, "4", {146, 86});
    led(c, {end_of_scale + bass, middle + 23}, {end_of_scale + bass, middle + 36});
    measured(c, {end_of_scale, middle + 33}, {end_of_scale + bass, middle + 33}, "5", {164, 86});
    led(c, {end_of_scale + treble, middle - 23}, {end_of_scale + treble, middle - 34});
    led(c, {end_of_scale, middle - 24}, {end_of_scale, middle - 34});
    measured(c, {end_of_scale, middle - 31}, {end_of_scale + treble, middle - 31}, "6", {157, 12});
    measured(c, {26, middle}, {26, middle + 15}, "7", {16, 80});
    mark(c, "8", {120, 86}, {116, middle});
    word(c, {126, 99}, "centre line");
    led(c, {125, 96}, {122, 89});
    word(c, {head - 4, 22}, "head");
    word(c, {112, 20}, "treble side", align::middle);
    word(c, {56, 80}, "bass side", align::middle);
}

/// A neck with its joint, heel and rod, cut along.
void heel(canvas& c) {
    const double nut = 22, board = 24, joint = 120;
    c.path(std::vector{place{nut, board}, {164, board}, {164, board + 8}, {nut, board + 8}}, {.width = 0.4}, true);
    c.path(std::vector{place{4, board + 13}, {nut, board + 8}}, {.width = 0.35});
    c.path(std::vector{place{4, board + 25},
                       {nut, board + 28},
                       {joint - 18, board + 32},
                       {joint - 8, board + 44},
                       {joint - 6, 86},
                       {joint, 86},
                       {joint, board + 8}},
           {.width = 0.35});
    c.line({joint, board + 8}, {184, board + 8}, {.width = 0.35});
    c.path(std::vector{place{joint, 86}, {joint, 92}, {184, 92}}, {.width = 0.35});
    for (int n = 1; n <= 14; ++n) { fret(c, {nut + 168 * (1 - std::exp2(-n / 12.0)), board}, 1.8, 2); }
    c.fill(drawing::box{nut - 4, board - 4, 4, 12}, ink::pale);
    // The rod in a curved channel.
    std::vector<place> rod;
    for (int i = 0; i <= 30; ++i) {
        const double share = i / 30.0;
        rod.push_back({14 + 92 * share, board + 15 + 4 * 4 * share * (1 - share)});
    }
    c.path(rod, {.width = 1.1, .shade = ink::grey});
    led(c, {14, board + 15}, {14, 8});
    led(c, {nut, board}, {nut, 8});
    measured(c, {14, 10}, {nut, 10}, "6", {32, 10});
    led(c, {106, board + 15}, {106, 8});
    measured(c, {nut, 16}, {106, 16}, "7", {72, 16});
    measured(c, {84, board}, {84, board + 15}, "8", {84, 68});
    dashed(c, {14, board + 15}, {106, board + 15});
    measured(c, {60, board + 15}, {60, board + 19}, "9", {62, 68});
    measured(c, {nut + 8, board}, {nut + 8, board + 28.4}, "1", {30, 68});
    measured(c, {98, board}, {98, board + 31.8}, "2", {98, 74});
    mark(c, "3", {128, 12}, {joint, board});
    led(c, {joint, board + 8}, {140, board + 8});
    led(c, {joint, 86}, {140, 86});
    measured(c, {136, board + 8}, {136, 86}, "4", {148, 64});
    measured(c, {152, board}, {152, board + 8}, "5", {166, 48});
    word(c, {104, 98}, "heel cap", align::right);
    led(c, {105, 96}, {joint - 4, 86});
    word(c, {160, 84}, "body");
}

} // namespace

std::vector<picture> of_measuring_necks() {
    return {{"measure_nut", white_page(188, 110, at_the_nut), measuring_dots},
            {"measure_heights", white_page(188, 100, heights), measuring_dots},
            {"measure_relief", white_page(188, 124, relief), measuring_dots},
            {"measure_sections", white_page(188, 112, sections), measuring_dots},
            {"measure_above", white_page(188, 104, from_above), measuring_dots},
            {"measure_neck", white_page(188, 102, heel), measuring_dots}};
}

} // namespace pictures
