#include <tautline/core/leaves.hpp>
#include <tautline/instrument/board_twist.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>

#include <doctest/doctest.h>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A flat-top whose slack board is told along its edges: heights of the bass and of the treble edge at the nut and at
/// half the way to the joint, in millimetres. Both are straight beyond the joint.
strung_instrument board_of(double bass_nut, double bass_middle, double treble_nut, double treble_middle) {
    const auto o = ready_made::flat_top();
    strung_instrument on{o.instrument, string_up(o.strings, o.a4)};
    const auto joint = joint_place(on.instrument);
    const auto edge = [&](double nut, double middle) {
        return std::vector<permanent_bow_mark>{
            {.x = 0 * mm, .z = nut * mm}, {.x = joint * 0.5, .z = middle * mm}, {.x = joint, .z = 0 * mm}};
    };
    on.instrument.neck.set.clear();
    on.instrument.neck.set_bass = edge(bass_nut, bass_middle);
    on.instrument.neck.set_treble = edge(treble_nut, treble_middle);
    return on;
}
/// A board as wide at its end as at the nut: there a twist that grows evenly along the neck is a ruled surface.
strung_instrument even_width(strung_instrument on) {
    on.instrument.board.width_at_end = on.instrument.board.width_at_nut;
    on.instrument.saddle.spacing = on.instrument.nut.spacing;
    return on;
}
/// The greatest height of one string's crests under the straight line from the first to the joint's.
double relief_under(const setup& s, std::size_t string, std::size_t joint_fret) {
    const auto& z = s.strings[string].crest_z;
    double deepest = 0;
    for (std::size_t n = 0; n < joint_fret; ++n) {
        const double u = ratio(s.fret_x[n] - s.fret_x[0], s.fret_x[joint_fret - 1] - s.fret_x[0]);
        deepest = std::max(deepest, (z[0] + (z[joint_fret - 1] - z[0]) * u - z[n]).value());
    }
    return deepest;
}
const finding* twist_found(const setup& s) {
    for (const auto& f : s.findings) {
        if (f.kind == finding_kind::board_twisted) { return &f; }
    }
    return nullptr;
}
bool says(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_SUITE("board twist") {
    TEST_CASE("both edges alike: the same answers as one set, digit for digit") {
        auto by_edges = board_of(-0.2, -0.15, -0.2, -0.15);
        auto by_set = by_edges;
        by_set.instrument.neck.set = by_edges.instrument.neck.set_bass;
        by_set.instrument.neck.set_bass.clear();
        by_set.instrument.neck.set_treble.clear();
        const auto a = solve(by_edges), b = solve(by_set);
        // A board told by its edges tells the relief along the outer strings, too.
        const auto numbers_of = [](const setup& one) {
            std::vector<double> all;
            for_each_leaf(one, [&](std::string_view path, const auto& x) {
                const bool more = is_at_or_below(path, "bass_relief") || is_at_or_below(path, "treble_relief");
                if (!more) { all.push_back(static_cast<double>(number_of(x))); }
            });
            return all;
        };
        const auto left = numbers_of(a), right = numbers_of(b);
        CHECK(left == right);
        CHECK(twist_found(a) == nullptr);
        CHECK(twist_of(by_edges.instrument).apart == 0 * mm);
    }
    TEST_CASE("a twist that grows evenly along the neck moves heights as plane geometry says, and no relief") {
        const auto plain = solve(even_width(board_of(0, 0, 0, 0)));
        const auto on = even_width(board_of(-0.25, -0.125, 0.25, 0.125));
        const auto twisted = solve(on);
        const auto joint = joint_place(on.instrument);
        const double phi = 0.5 / (on.instrument.board.width_at_nut.value() * 1e3);
        const auto last = static_cast<std::size_t>(on.instrument.neck.joint_fret);
        for (std::size_t i = 0; i < plain.strings.size(); ++i) {
            CAPTURE(i);
            // The strings' ends on the turned nut bend the neck by half a micrometre less: the bass strings pull a little
            // more.
            CHECK(near::within(relief_under(twisted, i, last), relief_under(plain, i, last), 2e-7));
            for (const std::size_t n : {0U, 4U, 11U}) {
                CAPTURE(n);
                const length<> x = plain.fret_x[n], y = plain.strings[i].y_at_nut;
                const double board = phi * std::max(0.0, ratio(joint - x, joint));
                const double nut = phi * (1 - ratio(x, plain.strings[i].line.saddle_x));
                const length<> by_hand = y * (nut - board);
                CHECK(near::within((twisted.strings[i].heights[n] - plain.strings[i].heights[n]).value(), by_hand.value(),
                                   6e-7));
            }
        }
        // 0.40 times the nut's own rise at the octave of a neck that joins the body at fret 14 (design page, 14.1).
        const auto t = twist_of(on.instrument);
        const length<> treble = plain.strings.back().y_at_nut;
        if (on.instrument.neck.joint_fret == 14) {
            CHECK(near::within(ratio(t.moved_at_octave, treble * phi), 0.40, 0.03));
        }
        CHECK(near::within((twisted.strings.back().heights[11] - plain.strings.back().heights[11]).value(),
                           t.moved_at_octave.value(), 5e-6));
        CHECK(near::within(t.apart.value(), 0.5e-3, 1e-12));
        CHECK(t.x == 0 * mm);
        REQUIRE(twist_found(twisted));
        CHECK(says(sentence_of(*twist_found(twisted), twisted.names),
                   "treble edge stands 0.50 mm higher than the other, at the nut"));
        CHECK(says(sentence_of(*twist_found(twisted), twisted.names), "not relief"));
        CHECK(twist_found(twisted)->severity == severity::note);
    }
    TEST_CASE("a twisted nut bends the neck as slots do that are as much higher and lower") {
        const auto untwisted = even_width(board_of(0, 0, 0, 0)), twisted = even_width(board_of(-0.4, -0.2, 0.4, 0.2));
        auto by_slots = untwisted;
        const auto flat = solve(untwisted);
        auto& slots = by_slots.instrument.nut.slot_heights;
        const auto found = untwisted.instrument.nut;
        slots.clear();
        const double phi = 0.8 * mm / by_slots.instrument.board.width_at_nut;
        for (std::size_t i = 0; i < flat.strings.size(); ++i) {
            slots.push_back(found.slot_height(i) + flat.strings[i].y_at_nut * phi);
        }
        const auto a = solve(twisted), b = solve(by_slots);
        // Lengths of the strings differ in the ninth digit.
        CHECK(near::within(a.nut_rise, b.nut_rise, 1e-6 * mm));
        CHECK(abs(b.nut_rise - flat.nut_rise) > 1e-5 * mm);
    }
    TEST_CASE("one edge bowed alone: the centre gets the mean, and the bowed side the relief") {
        const auto straight = solve(board_of(0, 0, 0, 0)), bowed = solve(board_of(0, -0.3, 0, 0)),
                   both = solve(board_of(0, -0.15, 0, -0.15));
        CHECK(near::within(bowed.relief->gap.value(), both.relief->gap.value(), 1e-9));
        const auto last = static_cast<std::size_t>(ready_made::flat_top().instrument.neck.joint_fret);
        const auto more = [&](std::size_t i) { return relief_under(bowed, i, last) - relief_under(straight, i, last); };
        CHECK(more(0) > 0.2e-3);
        CHECK(more(5) < 0.1e-3);
        CHECK(more(0) > 3 * more(5));
        REQUIRE(bowed.bass_relief);
        REQUIRE(bowed.treble_relief);
        CHECK(near::within(bowed.bass_relief->gap.value(), relief_under(bowed, 0, last), 1e-9));
        CHECK(near::within(bowed.treble_relief->gap.value(), relief_under(bowed, 5, last), 1e-9));
        const auto t = twist_of(board_of(0, -0.3, 0, 0).instrument);
        CHECK(t.hollow_bass > 0.25 * mm);
        CHECK(t.hollow_bass <= 0.3 * mm);
        CHECK(t.hollow_treble == 0 * mm);
        REQUIRE(twist_found(bowed));
        CHECK(says(sentence_of(*twist_found(bowed), bowed.names), "a rod bends both alike"));
    }
    TEST_CASE("the other way round: heights swap sides") {
        // A set of one wire on every string, so that nothing but the board tells the sides apart.
        auto one = board_of(-0.3, -0.1, 0.2, 0.05), other = board_of(0.2, 0.05, -0.3, -0.1);
        for (auto* on : {&one, &other}) {
            for (auto& s : on->stringing.strings) { s = on->stringing.strings.front(); }
            auto& i = on->instrument;
            i.saddle.height_treble = i.saddle.height_bass;
            i.saddle.setback_treble = i.saddle.setback_bass;
            i.nut.slot_heights.assign(6, 0.5 * mm);
            for (std::size_t k = 0; k < 3; ++k) {
                i.posts[5 - k] = i.posts[k];
                i.posts[5 - k].across = -i.posts[k].across;
            }
        }
        const auto a = solve(one), b = solve(other);
        for (std::size_t i = 0; i < 6; ++i) {
            for (std::size_t n = 0; n < a.fret_x.size(); ++n) {
                CHECK(near::within(a.strings[i].heights[n].value(), b.strings[5 - i].heights[n].value(), 1e-12));
            }
            CHECK(near::relative(a.strings[i].at_nut.down().value(), b.strings[5 - i].at_nut.down().value(), 1e-9));
        }
    }
    TEST_CASE("half of it is asked about, and so is one set beside two edges") {
        auto on = board_of(0, -0.1, 0, 0.1);
        on.instrument.neck.set_treble.clear();
        CHECK_THROWS_WITH_AS((void)solve(on), doctest::Contains("neck.set_treble must be given, too"), invalid_input);
        on = board_of(0, -0.1, 0, 0.1);
        on.instrument.neck.set_bass.clear();
        CHECK_THROWS_WITH_AS((void)solve(on), doctest::Contains("neck.set_bass must be given, too"), invalid_input);
        on = board_of(0, -0.1, 0, 0.1);
        on.instrument.neck.set = on.instrument.neck.set_bass;
        CHECK_THROWS_WITH_AS((void)solve(on), doctest::Contains("neck.set must be left out"), invalid_input);
        on = board_of(0, -0.1, 0, 0.1);
        std::swap(on.instrument.neck.set_bass[0], on.instrument.neck.set_bass[1]);
        CHECK_THROWS_WITH_AS((void)solve(on), doctest::Contains("must be further from the nut"), invalid_input);
        on = board_of(0, -0.1, 0, 0.1);
        on.instrument.neck.set_bass[1].z = length<>::from_value(std::nan(""));
        CHECK_THROWS_AS((void)solve(on), invalid_input);
    }
}
