#include <tautline/action/intonation.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {

// An invented plain string on a 560 mm scale.
const sounding_string string{.mass_per_length = 0.8 * g_per_m,
                             .open_pitch = 293.66 * Hz,
                             .axial_stiffness = 20000 * N,
                             .bending_stiffness = 1.5e-4 * N_m2};
const string_line line{.nut_x = 0 * mm, .nut_z = 1.4 * mm, .saddle_x = 562 * mm, .saddle_z = 6 * mm};

lengths frets(int count, int steps = 12, double divisor = 0) {
    lengths x;
    double at = 0;
    for (int n = 1; n <= count; ++n) {
        at = divisor > 0 ? at + (560 - at) / divisor : 560 * (1 - std::exp2(-double(n) / steps));
        x.push_back(at * mm);
    }
    return x;
}
std::vector<pressed_note> notes_of(const sounding_string& s, const string_line& l, const lengths& x,
                                   const finger_press& finger = {}, int steps = 12) {
    std::vector<pressed_note> notes(x.size());
    intonation(s, l, finger, x, lengths(x.size(), 1 * mm), notes, steps);
    return notes;
}

} // namespace

TEST_CASE("a limp, inextensible-as-good string on an exact scale is in tune but for path lengths") {
    auto s = string;
    s.bending_stiffness = 0 * N_m2;
    s.axial_stiffness = 1e-3 * N; // stretching costs no tension
    const string_line flat{.nut_x = 0 * mm, .nut_z = 1.001 * mm, .saddle_x = 560 * mm, .saddle_z = 1.001 * mm};
    for (const auto& n : notes_of(s, flat, frets(20), {.behind = 0 * mm, .depth = 0 * mm})) {
        CHECK(near::within(n.error / cents, 0, 1e-6));
    }
}

TEST_CASE("stretch by pressing in the limit of small heights is the sum of h^2/2l of the three runs") {
    // Exact path lengths against small-angle forms: agreement grows with the square of the heights.
    const auto x = frets(12);
    for (const double small : {1.0, 0.1}) {
        const string_line l{
            .nut_x = 0 * mm, .nut_z = (1 + 0.4 * small) * mm, .saddle_x = 560 * mm, .saddle_z = (1 + 5 * small) * mm};
        lengths z(12, -30 * mm);
        z[11] = 1 * mm;
        const auto n = pressed_at(string, l, {.behind = 8 * mm, .depth = 0.1 * small * mm}, x, z, 12);
        const double by_angles = std::pow(5 * small, 2) / (2 * 280) + std::pow(0.1 * small, 2) / (2 * 8) +
                                 std::pow(0.5 * small, 2) / (2 * 272) - std::pow(4.6 * small, 2) / (2 * 560);
        CHECK(near::relative(n.stretch, by_angles * mm, 1e-3 * small * small));
        CHECK(near::within(n.speaking, std::hypot(280, 5 * small) * mm, 1e-9 * mm));
    }
}

TEST_CASE("behind the finger the string lies taut over the crests, as a hull found by trying all subsets") {
    std::mt19937 random(61);
    std::uniform_real_distribution<double> height(0, 1.5), deep(0, 0.5);
    const auto x = frets(9);
    for (int trial = 0; trial < 100; ++trial) {
        lengths z;
        for (int i = 0; i < 9; ++i) { z.push_back(height(random) * mm); }
        string_line l = line;
        l.nut_z = height(random) * mm;
        const double d = deep(random);
        const auto note = pressed_at(string, l, {.behind = 5 * mm, .depth = d * mm}, x, z, 9);
        // Independent: the hull is the shortest of the chains over subsets of crests that pass below no crest.
        double shortest = 1e9;
        for (unsigned subset = 0; subset < 256; ++subset) {
            std::vector<std::pair<double, double>> chain{{0, l.nut_z / mm}};
            for (unsigned i = 0; i < 8; ++i) {
                if (subset >> i & 1u) { chain.emplace_back(x[i] / mm, z[i] / mm); }
            }
            chain.emplace_back(x[8] / mm - 5, z[8] / mm - d);
            double total = 0;
            bool clear = true;
            for (std::size_t k = 1; k < chain.size(); ++k) {
                const auto [ax, az] = chain[k - 1];
                const auto [bx, bz] = chain[k];
                total += std::hypot(bx - ax, bz - az);
                for (unsigned i = 0; i < 8; ++i) {
                    const double cx = x[i] / mm;
                    if (cx > ax && cx < bx) {
                        clear = clear && az + (bz - az) * (cx - ax) / (bx - ax) >= z[i] / mm - 1e-12;
                    }
                }
            }
            if (clear) { shortest = std::min(shortest, total); }
        }
        const double front = std::hypot(5, d) + note.speaking / mm, open = std::hypot(562, (l.saddle_z - l.nut_z) / mm);
        CHECK(near::within(note.stretch / mm, shortest + front - open, 1e-9));
    }
}

TEST_CASE(
    "property: higher action, deeper pressing, stiffer wire and firmer ends sound sharper; shared afterlength flatter") {
    const auto x = frets(17);
    const auto base = notes_of(string, line, x);
    const auto sharper = [&](const std::vector<pressed_note>& other) {
        for (std::size_t i = 0; i < base.size(); ++i) { CHECK(other[i].error > base[i].error); }
    };
    auto high = line;
    high.saddle_z = 8 * mm;
    sharper(notes_of(string, high, x));
    sharper(notes_of(string, line, x, {.behind = 10 * mm, .depth = 0.4 * mm}));
    auto stiff = string;
    stiff.bending_stiffness = 2.5e-4 * N_m2;
    sharper(notes_of(stiff, line, x));
    auto clamped = string;
    clamped.saddle_end = 1;
    sharper(notes_of(clamped, line, x));
    auto sharing = string;
    sharing.shared_afterlength = 150 * mm;
    const auto shared = notes_of(sharing, line, x);
    for (std::size_t i = 0; i < base.size(); ++i) { CHECK(shared[i].error < base[i].error); }
}

TEST_CASE("a clamp at the nut only flattens every fretted note by the same: the open string is what it sharpens") {
    auto clamped = string;
    clamped.nut_end = 1;
    const auto a = notes_of(string, line, frets(12)), b = notes_of(clamped, line, frets(12));
    for (std::size_t i = 0; i < 12; ++i) {
        CHECK(b[i].error < a[i].error);
        CHECK(near::within((a[i].error - b[i].error) / cents, (a[0].error - b[0].error) / cents, 0.05));
    }
}

TEST_CASE("frets by the old rule of 18 are flat: each semitone is 98.95 cents (from memory)") {
    auto s = string;
    s.bending_stiffness = 0 * N_m2;
    s.axial_stiffness = 1e-3 * N;
    const string_line flat{.nut_x = 0 * mm, .nut_z = 1.001 * mm, .saddle_x = 560 * mm, .saddle_z = 1.001 * mm};
    const auto notes = notes_of(s, flat, frets(12, 12, 18), {.behind = 0 * mm, .depth = 0 * mm});
    for (std::size_t i = 0; i < 12; ++i) {
        CHECK(near::within(notes[i].error / cents, -(100 - 98.9546) * double(i + 1), 0.001));
    }
}

TEST_CASE("nineteen steps in the octave are in tune on their own frets") {
    auto s = string;
    s.bending_stiffness = 0 * N_m2;
    s.axial_stiffness = 1e-3 * N;
    const string_line flat{.nut_x = 0 * mm, .nut_z = 1.001 * mm, .saddle_x = 560 * mm, .saddle_z = 1.001 * mm};
    for (const auto& n : notes_of(s, flat, frets(19, 19), {.behind = 0 * mm, .depth = 0 * mm}, 19)) {
        CHECK(near::within(n.error / cents, 0, 1e-6));
    }
}

TEST_CASE("a fret is held against the step it is for") {
    const lengths all = frets(12);
    const std::vector<int> steps{2, 4, 5, 7, 9, 11, 12};
    lengths some;
    for (const int step : steps) { some.push_back(all[static_cast<std::size_t>(step - 1)]); }
    const lengths z(7, 1 * mm);
    std::vector<pressed_note> notes(7);
    intonation(string, line, {}, some, z, notes, {12, steps});
    for (std::size_t n = 0; n < 7; ++n) {
        const double in_octaves = std::log2(notes[n].pitch / (293.66 * Hz));
        CHECK(near::within(notes[n].error / cents, 1200 * in_octaves - 100 * steps[n], 1e-9));
        CHECK(near::within(pressed_at(string, line, {}, some, z, n + 1, {12, steps}).error / cents, notes[n].error / cents,
                           1e-9));
    }
    const std::vector<int> few{2, 4};
    CHECK_THROWS_WITH(intonation(string, line, {}, some, z, notes, {12, few}), "meant.frets must be one for each fret.");
}

TEST_CASE("a spread string is as long as it is in space") {
    auto spread = line;
    spread.nut_y = -10 * mm;
    spread.saddle_y = -25 * mm;
    const auto n = pressed_at(string, spread, {}, frets(12), lengths(12, 1 * mm), 12);
    CHECK(near::within(n.speaking, std::sqrt(282.0 * 282 * (1 + std::pow(15.0 / 562, 2)) + 25) * mm, 1e-9 * mm));
}

TEST_CASE("close frets: the finger stays between them") {
    const auto x = frets(24);
    const auto notes = notes_of(string, line, x, {.behind = 40 * mm, .depth = 0.3 * mm});
    for (const auto& n : notes) { CHECK(std::isfinite(n.error / cents)); }
    // Three quarters of the way back: nut, crest 23, finger 0.3 mm deep, crest 24, saddle.
    const double space = (x[23] - x[22]) / mm;
    const double path = std::hypot(x[22] / mm, 0.4) + std::hypot(0.25 * space, 0.3) + std::hypot(0.75 * space, 0.3);
    CHECK(near::within(notes[23].stretch / mm, path + notes[23].speaking / mm - std::hypot(562, 4.6), 1e-9));
}

TEST_CASE("number types: float and long double follow, a dual carries the derivative") {
    const auto error = [](auto z) {
        using R = real_of_t<decltype(z)>;
        auto l = over<R>(line);
        l.saddle_z = z;
        std::vector<length<R>> x, crest;
        for (const auto& at : frets(12)) {
            x.push_back(over<R>(at));
            crest.push_back(over<R>(1 * mm));
        }
        return pressed_at(over<R>(string), l, over<R>(finger_press{}), x, crest, 12).error.cents();
    };
    using D = dual<double, 1>;
    const double h = 1e-6, by_difference = (error((0.006 + h) * metre) - error((0.006 - h) * metre)) / (2 * h);
    CHECK(near::relative(error(length<D>::from_value(D::variable(0.006, 0))).partial[0], by_difference, 1e-6));
    CHECK(near::within(double(error(6.0f * mm)), error(6 * mm), 0.02));
    CHECK(near::within(double(error(6.0L * mm)), error(6 * mm), 1e-9));
    using DD = dual<dual<double, 1>, 1>;
    CHECK(near::relative(error(length<DD>::from_value(DD(D(0.006)))).value.value, error(6 * mm), 1e-11));
}

TEST_CASE("all notes side by side are each note alone, over even and uneven crests, limp and stiff") {
    std::mt19937 random(23);
    std::uniform_real_distribution<double> height(0.4, 1.4);
    for (const int count : {1, 2, 5, 12, 23}) {
        for (const double stiff : {0.0, 1.5e-4, 0.01}) {
            auto one = string;
            one.bending_stiffness = stiff * N_m2;
            const auto x = frets(count);
            lengths z(x.size());
            for (auto& h : z) { h = height(random) * mm; }
            std::vector<pressed_note> notes(x.size());
            intonation(one, line, finger_press{}, x, z, notes);
            for (std::size_t n = 0; n < x.size(); ++n) {
                const auto alone = pressed_at(one, line, finger_press{}, x, z, n + 1);
                CHECK(near::relative(notes[n].pitch, alone.pitch, 2e-13));
                CHECK(near::relative(notes[n].tension, alone.tension, 2e-13));
                CHECK(near::within(notes[n].stretch, alone.stretch, 1e-15 * metre));
                CHECK(near::within(notes[n].speaking, alone.speaking, 1e-15 * metre));
                CHECK(near::within(notes[n].error.cents(), alone.error.cents(), 1e-9));
            }
        }
    }
}

TEST_CASE("bad input is named") {
    const auto x = frets(5);
    const lengths z(5, 1 * mm);
    CHECK_THROWS_WITH((void)pressed_at(string, line, {}, x, z, 6), "fret is 6; it must be the number of a fret, 1 to 5.");
    CHECK_THROWS_AS((void)pressed_at(string, line, {}, x, z, 0), invalid_input);
    CHECK_THROWS_WITH((void)pressed_at(string, line, {.behind = 0 * mm, .depth = 1 * mm}, x, z, 1),
                      "press.behind must be more than 0 mm where the finger presses deeper than the crest.");
    CHECK_THROWS_AS((void)pressed_at(string, line, {}, x, z, 1, 0), invalid_input);
    std::vector<pressed_note> notes(4);
    CHECK_THROWS_AS(intonation(string, line, {}, x, z, notes), invalid_input);
    intonation(string, line, {}, {}, {}, {}); // no frets, no notes
}

TEST_CASE("string, line and crests are looked at, for one note and for all") {
    const lengths x{300 * mm, 200 * mm}, z(2, 1 * mm);
    const char* const disorder = "crest_x[1] must lie beyond the fret before it and before the saddle.";
    CHECK_THROWS_WITH((void)pressed_at(string, line, {}, x, z, 1), disorder);
    std::vector<pressed_note> notes(2);
    CHECK_THROWS_WITH(intonation(string, line, {}, x, z, notes), disorder);
    auto slack = string;
    slack.axial_stiffness = 0 * N;
    CHECK_THROWS_WITH((void)pressed_at(slack, line, {}, frets(5), lengths(5, 1 * mm), 1),
                      "string.axial_stiffness is 0 N; it must be at least 0.000001 N and at most 100000000 N.");
}
