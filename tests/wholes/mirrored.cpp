/// @file
/// Mirrored: an instrument seen in a mirror, bass and treble swapped and everything across turned round, gives the mirrored
/// answers, when it is solved and when it is planned.
///
/// Source: symmetry. What is taken from the wrong side, or from the outer string where it should be each string's own,
/// shows here.

#include <algorithm>

#include <doctest/doctest.h>

#include <tautline/job/plan.hpp>

#include "alike.hpp"
#include "found_and_wished.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

template <class List>
void turn_round(List& list) {
    list = List(list.rbegin(), list.rend());
}
void mirror(spacing& s) {
    turn_round(s.courses);
    s.offset = -s.offset;
}
void mirror(saddle& s) {
    mirror(s.spacing);
    turn_round(s.single);
    turn_round(s.pieces);
    if (string_count(s.spacing) == 1) { return; } // the bass side is the string's
    std::swap(s.height_bass, s.height_treble);
    std::swap(s.setback_bass, s.setback_treble);
}
void mirror(neck_measures& n) {
    std::swap(n.set_bass, n.set_treble);
    for (auto& part : n.inserts) { part.y = -part.y; }
    for (auto& t : n.traced) {
        turn_round(t.profile);
        for (auto& p : t.profile) { p.y = -p.y; }
    }
}
strung_instrument mirrored(strung_instrument on) {
    auto& i = on.instrument;
    turn_round(on.stringing.strings);
    mirror(i.nut.spacing);
    turn_round(i.nut.slot_heights);
    turn_round(i.posts);
    for (auto& p : i.posts) { p.across = -p.across; }
    mirror(i.saddle);
    mirror(i.neck);
    if (auto& fan = i.board.scale.fan) { std::swap(fan->bass_scale, fan->treble_scale); }
    if (i.feet) {
        const auto bass = i.feet->bass_foot;
        i.feet->bass_foot = -i.feet->treble_foot;
        i.feet->treble_foot = -bass;
    }
    return on;
}

/// The same place on the other side: `strings[1].line.nut_y` of six as `strings[4].line.nut_y`.
std::string other_side(std::string path, std::size_t strings) {
    const std::string list = "strings[";
    if (path.compare(0, list.size(), list) == 0) {
        const auto close = path.find(']');
        const auto i = static_cast<std::size_t>(std::stoul(path.substr(list.size(), close - list.size())));
        path = list + std::to_string(strings - 1 - i) + path.substr(close);
    }
    for (const auto& [a, b] : {std::pair{"bass_", "treble_"}, std::pair{"treble_", "bass_"}}) {
        const std::string from(a);
        if (const auto at = path.find(from); at != std::string::npos) {
            path.replace(at, from.size(), b);
            break;
        }
    }
    return path;
}
bool across(const std::string& path) {
    return ends_with(path, "_y") || ends_with(path, ".y") || path.find("y_at_") != std::string::npos ||
           ends_with(path, "side_angle") || ends_with(path, "slant");
}

void mirror_images(complaints& wrong, const setup& a, const setup& b, double times) {
    const auto first = numbers_of_setup(a), second = numbers_of_setup(b);
    wrong.unless(first.size() == second.size(), "one side tells more than the other");
    for (const auto& [path, n] : first) {
        // Of two places that are alike either may be named.
        if (ends_with(path, ".fret") || ends_with(path, "relief.x")) { continue; }
        const auto other = second.find(other_side(path, a.strings.size()));
        if (other == second.end()) {
            wrong.unless(false, path + " is told by one only");
            continue;
        }
        const double there = (across(path) ? -1 : 1) * other->second.number;
        wrong.unless_near(path, n.number, there, times * n.nothing + times * 1e-8 * std::abs(n.number));
    }
}

} // namespace

TEST_SUITE("mirrored") {
    TEST_CASE("an instrument in a mirror is solved to the mirrored setup") {
        must_hold("mirror", 300, [](const whole& w, complaints& wrong) {
            mirror_images(wrong, solve(both(w)), solve(mirrored(both(w))), 1);
            return true;
        });
    }
    TEST_CASE("mirrored wishes of it are planned to the mirrored plan") {
        must_hold("mirrored plan", 80, [](const whole& w, complaints& wrong) {
            wishes wish;
            const auto other = set_otherwise(w, keep_rod);
            if (!other || !wish_heights(*other, wish)) { return false; }
            wish.in_tune = w.from.wish % 2 == 1;
            auto swapped = wish;
            std::swap(swapped.first_fret_bass, swapped.first_fret_treble);
            std::swap(swapped.action_bass, swapped.action_treble);
            const auto a = make_plan(both(w), wish), b = make_plan(mirrored(both(w)), swapped);
            wrong.unless(a.shortfalls.size() == b.shortfalls.size(), "one side falls short of more wishes");
            // Near buckling, or at a limit, rounds end where they end.
            const auto of_outer = [](const shortfall& f) { return !f.string_index; };
            if (w.from.state == 3 || std::any_of(a.shortfalls.begin(), a.shortfalls.end(), of_outer)) { return false; }
            mirror_images(wrong, a.solved, b.solved, 300);
            for (std::size_t i = 0; i < a.slot_change.size(); ++i) {
                const std::size_t k = a.slot_change.size() - 1 - i;
                const std::string name = "string " + std::to_string(i + 1) + ", ";
                wrong.unless_near(name + "slot_change", a.slot_change[i].value(), b.slot_change[k].value(), 1e-6);
                wrong.unless_near(name + "saddle_change", a.saddle_change[i].value(), b.saddle_change[k].value(), 1e-6);
            }
            return true;
        });
    }
}
