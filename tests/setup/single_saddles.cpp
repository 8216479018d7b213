// A saddle for each string, in the whole solve.

#include <tautline/instrument/saddle_top.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/work/reset.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The four courses on single saddles that stand where their one top stood.
instrument on_singles() {
    auto i = demo::four_course();
    const auto s = solve(strung_instrument{i, demo::unison_pairs()});
    std::vector<single_saddle> each;
    for (std::size_t k = 0; k < s.strings.size(); ++k) {
        const auto y0 = s.strings.front().y_at_saddle, y1 = s.strings.back().y_at_saddle, y = s.strings[k].y_at_saddle;
        const double across = (y - y0) / (y1 - y0);
        each.push_back({.height = kernel::saddle_height_at<double>(i.saddle, y0, y1, y),
                        .setback = i.saddle.setback_bass + (i.saddle.setback_treble - i.saddle.setback_bass) * across});
    }
    i.saddle = single_saddles(i.saddle.spacing, each, i.saddle.board_line);
    return i;
}
std::string single_said(const instrument& i) {
    try {
        (void)solve(strung_instrument{i, demo::unison_pairs()});
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}

} // namespace

TEST_SUITE("single saddles") {
    TEST_CASE("single saddles where one top stood give that top's answers") {
        auto plain = demo::leaves_of(solve(demo::strung()));
        const auto single = demo::leaves_of(solve(strung_instrument{on_singles(), demo::unison_pairs()}));
        REQUIRE(single.size() == plain.size());
        for (const auto& row : single) {
            const std::string& path = row.first;
            const double x = row.second;
            CAPTURE(path);
            CHECK(std::abs(x - plain.at(path)) <= 1e-9 * std::abs(x) + 1e-12);
        }
    }
    TEST_CASE("one saddle moves its own string, by the line from its slot, and the others by the neck alone") {
        auto i = on_singles();
        i.neck.board_modulus = i.neck.back_modulus = 1000 * GPa;
        const auto before = solve(strung_instrument{i, demo::unison_pairs()});
        i.saddle.single[2].height = i.saddle.single[2].height + 1 * mm;
        i.saddle.single[5].setback = i.saddle.single[5].setback + 2 * mm;
        const auto after = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < 8; ++k) {
            const auto rise = after.strings[k].heights[11] - before.strings[k].heights[11];
            const double share = before.fret_x[11] / before.strings[2].line.saddle_x;
            CHECK(near::within(rise, k == 2 ? share * mm : k == 5 ? rise : 0 * mm, 0.002 * mm));
            CHECK(near::within(after.strings[k].line.saddle_x - before.strings[k].line.saddle_x, k == 5 ? 2 * mm : 0 * mm,
                               1e-12 * mm));
        }
        // Half of what the octave fret leaves is what it is sharper by for each length: the saddle is the octave's double.
        CHECK(near::within(*after.strings[5].octave_setback, *before.strings[5].octave_setback - 2 * mm, 0.05 * mm));
    }
    TEST_CASE("a mirrored instrument gives the mirrored setup") {
        auto i = on_singles();
        for (std::size_t k = 0; k < 8; ++k) {
            i.saddle.single[k].height = i.saddle.single[k].height + 0.1 * double(k * k % 5) * mm;
        }
        auto strung = demo::unison_pairs();
        const auto s = solve(strung_instrument{i, strung});
        std::reverse(strung.strings.begin(), strung.strings.end());
        std::reverse(i.posts.begin(), i.posts.end());
        i.saddle.single = std::vector<single_saddle>(i.saddle.single.rbegin(), i.saddle.single.rend());
        for (auto& p : i.posts) { p.across = -p.across; }
        const auto m = solve(strung_instrument{i, strung});
        CHECK(near::within(m.relief->gap, s.relief->gap, 1e-12 * mm));
        for (std::size_t k = 0; k < 8; ++k) {
            const auto &a = s.strings[k], &b = m.strings[7 - k];
            CHECK(near::relative(b.tension, a.tension, 1e-12));
            CHECK(near::within(b.heights[11], a.heights[11], 1e-9 * mm));
            CHECK(near::within(*b.octave_setback, *a.octave_setback, 1e-9 * mm));
            CHECK(near::relative(b.at_saddle.down(), a.at_saddle.down(), 1e-9));
        }
    }
    TEST_CASE("derivatives by a saddle's height and setback are those of finite differences") {
        using D = dual<double, 2>;
        const strung_instrument on{on_singles(), demo::unison_pairs()};
        auto seeded = over<D>(on);
        auto& one = seeded.instrument.saddle.single[3];
        one.height = length<D>::from_value(D::variable(one.height.value().value, 0));
        one.setback = length<D>::from_value(D::variable(one.setback.value().value, 1));
        const auto s = solve(seeded);
        const auto moved = [&](double up, double back) {
            auto other = on;
            auto& m = other.instrument.saddle.single[3];
            m.height = m.height + up * mm;
            m.setback = m.setback + back * mm;
            return solve(other);
        };
        const double h = 1e-4;
        const auto slope = [&](const auto& of) {
            return std::array{(of(moved(h, 0)) - of(moved(-h, 0))) / (2e-3 * h),
                              (of(moved(0, h)) - of(moved(0, -h))) / (2e-3 * h)};
        };
        const auto height = [](const setup& t) { return t.strings[3].heights[11].value(); };
        const auto relief = [](const setup& t) { return t.relief->gap.value(); };
        for (std::size_t k = 0; k < 2; ++k) {
            CHECK(near::within(s.strings[3].heights[11].value().partial[k], slope(height)[k], 1e-6));
            CHECK(near::within(s.relief->gap.value().partial[k], slope(relief)[k], 1e-6));
        }
    }
    TEST_CASE("a reset carries every saddle with the ends of its travel, and back") {
        auto i = on_singles();
        for (auto& one : i.saddle.single) {
            one.lowest = one.height - 2 * mm;
            one.most_setback = one.setback + 5 * mm;
        }
        const strung_instrument on{i, demo::unison_pairs()};
        const auto turned = after_reset<double>(on, {.turn = 0.5 * deg});
        for (std::size_t k = 0; k < 8; ++k) {
            const auto &was = i.saddle.single[k], &is = turned.instrument.saddle.single[k];
            CHECK(near::within(is.height - *is.lowest, 2 * mm, 1e-9 * mm));
            CHECK(near::within(*is.most_setback - is.setback, 5 * mm, 1e-9 * mm));
            CHECK(abs(is.height - was.height) < 1 * mm); // told from the top beside it, which turns too
        }
        const auto back = after_reset<double>(turned, {.turn = -0.5 * deg});
        for (std::size_t k = 0; k < 8; ++k) {
            CHECK(near::within(back.instrument.saddle.single[k].height, i.saddle.single[k].height, 0.01 * mm));
            CHECK(near::within(back.instrument.saddle.single[k].setback, i.saddle.single[k].setback, 0.01 * mm));
        }
    }
    TEST_CASE("bad input is told by the saddle's place") {
        auto i = on_singles();
        i.saddle.single.pop_back();
        CHECK(single_said(i) == "saddle.single must be one for each of the 8 strings, but there are 7.");
        i = on_singles();
        i.saddle.single[1].lowest = 20 * mm;
        i.saddle.single[1].highest = 19 * mm;
        i.saddle.single[4].least_setback = 3 * mm;
        i.saddle.single[4].most_setback = 2 * mm;
        CHECK(single_said(i) == "saddle.single[1].lowest must not be more than highest.\n"
                                "saddle.single[4].least_setback must not be more than most_setback.");
        i = on_singles();
        i.saddle.single[0].height = 12 * mm;
        CHECK(single_said(i) ==
              "saddle.single[0].height must be more than board_line: the string would lie under the board.");
        i = on_singles();
        i.saddle.pieces = {4, 3};
        CHECK(single_said(i) == "saddle.pieces must carry 8 strings in all, but they carry 7.");
        i = on_singles();
        i.saddle.single[3].height = length<>::from_value(std::nan(""));
        CHECK(single_said(i).starts_with("saddle.single[3].height is not given, or not a number"));
        auto plain = demo::four_course();
        plain.saddle.pieces = {8};
        CHECK(single_said(plain) == "saddle.pieces must be left out where the strings have no single saddles.");
        plain = demo::four_course();
        plain.saddle = saddle();
        plain.saddle.board_line = 12 * mm;
        CHECK(single_said(plain).find("saddle.height_bass is not given") != std::string::npos);
    }
}
