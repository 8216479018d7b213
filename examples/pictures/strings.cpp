// The pictures of docs/strings.md. What is a number in them is the library's.
#include <array>
#include <cstdio>
#include <numbers>
#include <tautline/tautline.hpp>

#include "pictures.hpp"

namespace pictures {

namespace {

using namespace tautline;
using namespace tautline::units;
using drawing::align, drawing::canvas, drawing::ink, drawing::place;

constexpr double pi_ = std::numbers::pi;
constexpr drawing::lettering large{.size = 4}, middle{.size = 4, .side = align::middle};

/// A short piece of a bent string with the pull at both its ends.
void piece(canvas& c) {
    const double half = 0.5, r = 70; // half the angle it spans, and its radius on paper
    const place centre{75, 96};
    const auto at = [&](double turn, double radius) {
        return place{centre.x + radius * std::sin(turn), centre.y - radius * std::cos(turn)};
    };
    std::vector<place> arc;
    for (int i = -20; i <= 20; ++i) { arc.push_back(at(half * i / 20.0, r)); }
    c.path(arc, {.width = 1.2});
    c.line(centre, at(-half, r), {.width = 0.25, .shade = ink::grey, .dash = 1.5, .gap = 1});
    c.line(centre, at(half, r), {.width = 0.25, .shade = ink::grey, .dash = 1.5, .gap = 1});
    for (const double side : {-1.0, 1.0}) {
        const place end = at(side * half, r);
        arrow(c, end, {end.x + side * 28 * std::cos(half), end.y + 28 * std::sin(half)}, {.width = 0.6});
        c.text({end.x + side * 30, end.y + 17}, "T", large);
    }
    arrow(c, at(0, r - 2), at(0, r - 22), {.width = 0.6});
    c.text({centre.x + 3, centre.y - r + 18}, "T dφ", large);
    c.text({centre.x, centre.y - r - 4}, "length R dφ, mass μ R dφ, speed v along itself", middle);
    c.text({centre.x - 19, centre.y - 18}, "R", large);
    c.text({centre.x - 3, centre.y - 10}, "dφ", large);
}

/// The first three modes between two fixed ends.
void modes(canvas& c) {
    for (int n = 1; n <= 3; ++n) {
        const double y = 14 + 26.0 * (n - 1);
        for (const double sign : {1.0, -1.0}) {
            std::vector<place> shape;
            for (int i = 0; i <= 120; ++i) {
                shape.push_back({10 + 90.0 * i / 120, y - sign * 9 * std::sin(pi_ * n * i / 120.0)});
            }
            if (sign > 0) {
                c.path(shape, {.width = 0.6});
            } else {
                c.path(shape, {.width = 0.3, .shade = ink::grey, .dash = 1.6, .gap = 1});
            }
        }
        c.dot({10, y}, 1);
        c.dot({100, y}, 1);
        const std::array words{"one half wave: L, f", "two: L/2, 2 f", "three: L/3, 3 f"};
        c.text({105, y + 1.4}, words[static_cast<std::size_t>(n - 1)], large);
    }
}

/// How sharp partials are of three strings of one pitch.
void partials(canvas& c) {
    const struct {
        const char* name;
        music_string string;
        drawing::pen stroke;
    } three[] = {
        {"plain steel, 0.50 mm", plain_string(music_wire(), 0.50 * mm), {.width = 0.5}},
        {"wound, 0.60 mm on 0.36 mm",
         wound_string(
             {.gauge = 0.60 * mm, .core = 0.36 * mm, .core_material = music_wire(), .wrap_material = phosphor_bronze()}),
         {.width = 0.5, .dash = 3, .gap = 1}},
        {"plain steel, 0.40 mm", plain_string(music_wire(), 0.40 * mm), {.width = 0.5, .dash = 1, .gap = 0.8}}};
    const drawing::box room{16, 12, 100, 58};
    const double most = 20; // cents
    const auto at = [&](int n, double c_) {
        return place{room.left + room.width * (n - 1) / 11.0, room.bottom() - room.height * c_ / most};
    };
    c.rectangle(room, {.width = 0.25});
    for (int n = 1; n <= 12; ++n) {
        c.text({at(n, 0).x, room.bottom() + 5}, std::to_string(n), middle);
        c.line({at(n, 0).x, room.bottom()}, {at(n, 0).x, room.bottom() - 1}, {.width = 0.25});
    }
    for (int v = 0; v <= 20; v += 4) {
        c.text({room.left - 2, at(1, v).y + 1.4}, std::to_string(v), {.size = 4, .side = align::right});
        c.line({room.left, at(1, v).y}, {room.left + 1, at(1, v).y}, {.width = 0.25});
    }
    c.text({room.left, 8}, "cents sharp of n times the fundamental", large);
    c.text({room.middle(), room.bottom() + 11}, "partial n", middle);
    double line_y = room.top + 8;
    for (const auto& one : three) {
        const auto pull = tension_of_stiff(one.string, 650 * mm, pitch_of("G3"));
        std::vector<place> curve;
        for (int n = 1; n <= 12; ++n) { curve.push_back(at(n, partial_error(n, one.string, 650 * mm, pull) / cents)); }
        c.path(curve, one.stroke);
        c.line({room.left + 5, line_y - 1.4}, {room.left + 19, line_y - 1.4}, one.stroke);
        c.text({room.left + 21, line_y}, one.name, large);
        line_y += 6;
    }
}

/// Sections of a plain string, a wound one and one on a hexagonal core; every circle is wire.
void sections(canvas& c) {
    const double y = 30;
    c.circle({25, y}, 9, {.width = 0.5});
    c.text({25, 62}, "plain", middle);
    const double core = 7, wrap = 11;
    c.circle({75, y}, core, {.width = 0.5});
    c.circle({75, y}, core + wrap, {.width = 0.5});
    c.text({75, 62}, "wound", middle);
    // Along its length: close turns of round wire over and under the core.
    const double left = 108, w = 6;
    c.rectangle({left, y - 7, 54, 14}, {.width = 0.4});
    for (int i = 0; i < 9; ++i) {
        const double x = left + w / 2 + w * i;
        c.circle({x, y - 7 - w / 2}, w / 2, {.width = 0.4});
        c.circle({x, y + 7 + w / 2}, w / 2, {.width = 0.4});
    }
    c.text({left + 27, y + 1.4}, "core: carries the pull", {.size = 3.4, .side = align::middle});
    c.text({left + 27, 62}, "the same, cut along", middle);
}

} // namespace

std::vector<picture> of_strings() {
    return {{"strings_piece", white_page(150, 90, piece)},
            {"strings_modes", white_page(150, 80, modes)},
            {"strings_partials", white_page(125, 86, partials)},
            {"strings_sections", white_page(172, 68, sections)}};
}

} // namespace pictures
