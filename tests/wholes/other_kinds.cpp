/// @file
/// The same instrument told in another way: as a board of two scales that are alike, by single saddles where one top stood,
/// by both edges, with inserts of the wood they lie in, with slots that count for nothing. And from the square board to one
/// that fans out by a micrometre the answers go on smoothly, whichever way they are worked out.

#include <doctest/doctest.h>

#include <cmath>

#include "alike.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

setup solved(const strung_instrument& on) { return solve(on); }

/// A square board told by two scales, the bass string's longer by so much.
strung_instrument as_fan(const whole& w, double longer, double square_fret) {
    strung_instrument on{w.built, w.stringing};
    auto& scale = on.instrument.board.scale;
    const auto from = kernel::outermost(on.instrument.nut.spacing), to = kernel::outermost(on.instrument.saddle.spacing);
    const auto along = [&](std::size_t side) { return hypot(scale.scale_length, length<>(to[side] - from[side])); };
    scale.fan = two_scales{
        .bass_scale = along(0) + length<>::from_value(longer), .treble_scale = along(1), .square_fret = square_fret};
    scale.scale_length = length<>::from_value(std::nan("")); // no part of it
    return on;
}
/// What only boards tell that are not alike on both sides.
std::vector<std::string> of_fans_alone(const setup& s) {
    std::vector<std::string> words{"bass_relief", "treble_relief"};
    for (std::size_t i = 0; i < s.strings.size(); ++i) { words.push_back("strings[" + std::to_string(i) + "].crest_x"); }
    return words;
}
/// Recipes of square boards with two courses or more and frets by the rule.
void square_board(recipe& r) {
    r.fan = r.places = 0;
    r.strings = std::max(2, r.strings);
    r.courses = r.strings == 2 ? 0 : r.courses;
}

} // namespace

TEST_SUITE("other kinds") {
    TEST_CASE("two scales that are alike are one scale") {
        must_hold(
            "fan of none", 150,
            [](const whole& w, complaints& wrong) {
                if (w.built.nut.spacing.courses.size() < 2) { return false; }
                const auto square = solved({w.built, w.stringing});
                const double at = std::min(0.25 * w.from.square, static_cast<double>(w.built.board.scale.frets));
                alike(wrong, solved(as_fan(w, 0, at)), square, of_fans_alone(square), 1e-7, 3);
                return true;
            },
            square_board);
    }
    TEST_CASE("a fan of a micrometre, either way, moves every answer evenly") {
        must_hold(
            "small fan", 80,
            [](const whole& w, complaints& wrong) {
                if (w.built.nut.spacing.courses.size() < 2) { return false; }
                const double at = std::min(0.25 * w.from.square, static_cast<double>(w.built.board.scale.frets));
                const auto square = numbers_of_setup(solved({w.built, w.stringing}));
                const auto longer = numbers_of_setup(solved(as_fan(w, 1e-6, at))),
                           shorter = numbers_of_setup(solved(as_fan(w, -1e-6, at)));
                for (const auto& row : square) {
                    const std::string& path = row.first;
                    const auto& n = row.second;
                    // These turn at a corner where another fret becomes the nearest; a setback is searched for.
                    const auto has = [&](const char* word) { return path.find(word) != std::string::npos; };
                    const bool corner =
                        has("clearances") || has("plucks") || has("relief") || has("setback") || has("straight_saddle");
                    if (corner) { continue; }
                    const double up = longer.at(path).number - n.number, down = shorter.at(path).number - n.number;
                    wrong.unless_near(path + ", both ways together", up + down, 0,
                                      5 * n.nothing + 5e-7 * std::abs(n.number) + 1e-2 * std::abs(up));
                    wrong.unless(std::abs(up) < 1e-3 * std::abs(n.number) + 1e4 * n.nothing, path + " jumps");
                }
                return true;
            },
            [](recipe& r) {
                square_board(r);
                r.set = r.edges = 0; // its marks end at the joint's fret: a corner right under a crest
                r.state = r.state == 3 ? 0 : r.state;
            });
    }
    TEST_CASE("single saddles where one top stood are that top") {
        must_hold(
            "one top", 100,
            [](const whole& w, complaints& wrong) {
                strung_instrument on{w.built, w.stringing};
                const auto one_top = solved(on);
                auto& s = on.instrument.saddle;
                std::vector<single_saddle> each;
                const auto y0 = one_top.strings.front().y_at_saddle, y1 = one_top.strings.back().y_at_saddle;
                for (std::size_t i = 0; i < one_top.strings.size(); ++i) {
                    const auto y = one_top.strings[i].y_at_saddle;
                    const double share = i == 0 ? 0 : static_cast<double>((y - y0) / (y1 - y0));
                    each.push_back({.height = kernel::saddle_height_at<double>(s, y0, y1, y),
                                    .setback = s.setback_bass + (s.setback_treble - s.setback_bass) * share});
                }
                const auto friction = s.friction;
                s = single_saddles<double>(s.spacing, each, s.board_line);
                s.friction = friction;
                alike(wrong, solved(on), one_top, {}, 1e-8, 2);
                return true;
            },
            [](recipe& r) { r.single = 0; });
    }
    TEST_CASE("both edges alike are one set") {
        must_hold(
            "edges alike", 80,
            [](const whole& w, complaints& wrong) {
                strung_instrument on{w.built, w.stringing};
                if (on.instrument.neck.set.empty()) { return false; }
                const auto one_set = solved(on);
                on.instrument.neck.set_bass = on.instrument.neck.set_treble = on.instrument.neck.set;
                on.instrument.neck.set.clear();
                alike(wrong, solved(on), one_set, {"bass_relief", "treble_relief"});
                return true;
            },
            [](recipe& r) {
                r.edges = 0;
                r.set = std::max(1, r.set);
            });
    }
    TEST_CASE("an insert of the wood it lies in is none") {
        must_hold("same wood", 100, [](const whole& w, complaints& wrong) {
            strung_instrument on{w.built, w.stringing};
            auto& n = on.instrument.neck;
            const auto without = solved(on);
            const auto joint = joint_place(on.instrument);
            // As it bends: what an insert is told by is free of shear.
            const auto bends = [&](modulus_method how, const stress<>& e) {
                return is_free_of_shear(how) ? e : n.pure_bending_factor * e;
            };
            const auto& board = on.instrument.board;
            const length<> thin = std::min<length<>>(board.thickness, board.thickness_at_end.value_or(board.thickness));
            const double a = 0.001 * w.from.wish, b = 0.3 + 0.006 * w.from.more;
            insert part{.x_from = joint * a,
                        .x_to = joint * b,
                        .top = -0.45 * thin,
                        .width = 2 * mm,
                        .height = 0.3 * thin,
                        .modulus = bends(n.board_method, n.board_modulus)};
            if (w.from.other % 3 == 1) {
                part.profile = insert_profile::round;
                part.width = part.height;
                part.height = 0 * mm;
            }
            if (w.from.other % 3 == 2) {
                // In the back, under whatever else there is.
                part.top = -(on.instrument.board.thickness + 7.5 * mm);
                part.height = 1.5 * mm;
                part.modulus = bends(n.back_method, n.back_modulus);
            }
            n.inserts.push_back(part);
            if (!validate(on).empty()) { return false; }
            setup with;
            try {
                with = solved(on);
            } catch (const invalid_input&) { return false; } // it lies where another one is, or sticks out
            alike(wrong, with, without, {}, 1e-6, 30);
            return true;
        });
    }
    TEST_CASE("slots that bear all and wedge nothing are none") {
        must_hold("filled slots", 80, [](const whole& w, complaints& wrong) {
            strung_instrument with{w.built, w.stringing}, without = with;
            with.instrument.neck.slots = neck_slots{.depth = 1.8 * mm};
            without.instrument.neck.slots.reset();
            alike(wrong, solved(with), solved(without), {}, 1e-6, 30);
            return true;
        });
    }
}
