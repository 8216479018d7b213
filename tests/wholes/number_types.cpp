/// @file
/// Numbers of other types: what a derivative says a parameter moves is what it moves, several instruments side by side are
/// each by itself, and single precision is the same but for its digits, on every kind of instrument.

#include <doctest/doctest.h>

#include <tautline/core/dual.hpp>
#include <tautline/core/pack.hpp>

#include "alike.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

/// Calls `f` with one measure of the kind that the recipe names and what it may be moved by.
template <class R, class F>
void with_measure(const recipe& r, basic_instrument<R>& i, F&& f) {
    auto& s = i.saddle;
    const bool single = !s.single.empty();
    switch (r.wish % 8) {
    case 0:
        single ? f(s.single.back().setback) : f(s.setback_bass);
        return;
    case 1:
        single ? f(s.single.front().height) : f(s.height_bass);
        return;
    case 2:
        // Marks of the set end at the joint, which then moves over a corner.
        if (!i.neck.set.empty() || !i.neck.set_bass.empty()) { return f(s.board_line); }
        if (i.board.scale.fan) { return f(i.board.scale.fan->bass_scale); }
        return f(i.board.scale.scale_length);
    case 3:
        return i.neck.set_bass.empty() ? f(i.neck.depth_at_nut) : f(i.neck.set_bass.front().z);
    case 4:
        return i.neck.inserts.empty() ? f(i.neck.depth_at_joint) : f(i.neck.inserts.back().width);
    case 5:
        return i.neck.traced.empty() ? f(i.headstock.face_drop) : f(i.neck.traced.front().profile[5].depth);
    case 6:
        return i.neck.slots ? f(i.neck.slots->interference) : f(i.nut.slot_heights.front());
    default:
        return f(s.board_line);
    }
}
template <class Length>
void move_by(Length& x, double by) {
    x = x + length<>::from_value(by);
}

/// Corners: what is nearest, deepest, or found by a search that stops.
bool has_corners(const std::string& path) {
    for (const char* word : {"clearances", "plucks", "relief", "standing", ".fret", "octave_setback", "straight_saddle"}) {
        if (path.find(word) != std::string::npos) { return true; }
    }
    return false;
}

} // namespace

TEST_SUITE("number types") {
    TEST_CASE("a derivative by one measure is what a little of that measure moves") {
        must_hold(
            "derivatives", 40,
            [](const whole& w, complaints& wrong) {
                using D = dual<double, 1>;
                const strung_instrument on{w.built, w.stringing};
                auto seeded = over<D>(on);
                with_measure(w.from, seeded.instrument, [](auto& x) {
                    x = length<D>::from_value(D::variable(static_cast<length<D>>(x).value().value, 0));
                });
                const double step = 2e-7;
                auto up = on, down = on;
                with_measure(w.from, up.instrument, [&](auto& x) { move_by(x, step); });
                with_measure(w.from, down.instrument, [&](auto& x) { move_by(x, -step); });
                setup a, b;
                basic_setup<D> slopes;
                try {
                    a = solve(up);
                    b = solve(down);
                    slopes = solve(seeded);
                } catch (const invalid_input&) { return false; } // at a limit of what it may be
                const auto above = numbers_of_setup(a), below = numbers_of_setup(b);
                for_each_leaf(slopes, [&](std::string_view where, const auto& x) {
                    const std::string path(where);
                    if (has_corners(path)) { return; }
                    if (above.count(path) + below.count(path) < 2) { return; }
                    const auto n = above.at(path);
                    const double moved = n.number - below.at(path).number;
                    const double told = static_cast<double>(number_of(x).partial[0]) * 2 * step;
                    wrong.unless_near(path + ", moved", moved, told,
                                      1e-2 * std::abs(told) + 0.1 * n.nothing + 1e-10 * std::abs(n.number));
                });
                return true;
            },
            [](recipe& r) { r.state = r.state == 3 ? 0 : r.state; });
    }
    TEST_CASE("two instruments side by side are each by itself, whatever kind they are of") {
        must_hold("packs", 40, [](const whole& w, complaints& wrong) {
            using P = pack<double>;
            const strung_instrument one{w.built, w.stringing};
            auto two = one;
            with_measure(w.from, two.instrument, [&](auto& x) { move_by(x, 1e-5); });
            auto both = over<P>(one);
            with_measure(w.from, both.instrument, [&](auto& x) {
                const double from = static_cast<double>(lanes_of<P>::get(static_cast<length<P>>(x).value(), 0));
                P lanes(from);
                lanes_of<P>::set(lanes, 1, from + 1e-5);
                x = length<P>::from_value(lanes);
            });
            setup a, b;
            basic_setup<P> together;
            try {
                a = solve(one);
                b = solve(two);
                together = solve(both);
            } catch (const invalid_input&) {
                return false;                               // at a limit of what it may be
            } catch (const lanes_differ&) { return false; } // another order of places in each
            const auto first = numbers_of_setup(a), second = numbers_of_setup(b);
            for_each_leaf(together, [&](std::string_view where, const auto& x) {
                const std::string path(where);
                if (ends_with(path, ".fret") || ends_with(path, "relief.x")) { return; }
                if (first.count(path) + second.count(path) < 2) { return; } // told where every lane has it
                const auto n = first.at(path), m = second.at(path);
                const auto lanes = number_of(x);
                using L = std::remove_cvref_t<decltype(lanes)>;
                const double off = n.nothing + 1e-8 * std::abs(n.number);
                wrong.unless_near(path + ", first", static_cast<double>(lanes_of<L>::get(lanes, 0)), n.number, off);
                wrong.unless_near(path + ", second", static_cast<double>(lanes_of<L>::get(lanes, 1)), m.number, off);
            });
            return true;
        });
    }
    TEST_CASE("single precision tells the same to its digits") {
        must_hold(
            "float", 40,
            [](const whole& w, complaints& wrong) {
                const strung_instrument on{w.built, w.stringing};
                const auto exact = numbers_of_setup(solve(on));
                basic_setup<float> single;
                try {
                    single = solve(over<float>(on));
                } catch (const invalid_input&) { return false; } // at a limit by a last digit
                for_each_leaf(single, [&](std::string_view where, const auto& x) {
                    const std::string path(where);
                    if (has_corners(path) || path.find("dead_band") != std::string::npos) { return; }
                    if (exact.count(path) == 0) { return; }
                    const auto n = exact.at(path);
                    // How far a pressed string stretches is a small difference of its lengths.
                    const double times = path.find("notes") == std::string::npos ? 1 : 10;
                    wrong.unless_near(path, static_cast<double>(number_of(x)), n.number,
                                      times * (2e3 * n.nothing + 2e-4 * std::abs(n.number)));
                });
                return true;
            },
            [](recipe& r) { r.state = r.state == 3 ? 0 : r.state; });
    }
}
