#include <tautline/strings/pitch.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using namespace tautline::literals;

TEST_CASE("pitch: names and numbers") {
    static_assert(parse_note("A4") == note{69});
    CHECK(parse_note("C-1").number == 0);
    CHECK(parse_note("Cb4") == parse_note("B3"));
    CHECK(parse_note("B#3") == parse_note("C4"));
    CHECK(parse_note("F##2") == parse_note("G2"));
    CHECK(parse_note("Fx2") == parse_note("G2"));
    CHECK(parse_note("Ebbb5") == parse_note("Db5"));
    CHECK(parse_note("B10").number == 143);
    CHECK(parse_note("D\u266F3").number == 51);
    CHECK(parse_note("E\u266D3").number == 51);
    CHECK(parse_note("F\U0001D12A3") == parse_note("G3"));
    CHECK(parse_note("E\U0001D12B\u266D3") == parse_note("Ebbb3"));
    CHECK(parse_note("D\u266E3") == parse_note("D3"));
    CHECK(parse_note("C\u22121").number == 0);
    for (int n = 0; n <= 143; ++n) {
        CHECK(parse_note(name_of(note{n})).number == n);
        CHECK(parse_note(name_of(note{n}, accidental::flat)).number == n);
    }
}

TEST_CASE("pitch: what is not a note is refused with a sentence") {
    for (const char* wrong : {"", "H4", "e2", "E", "E#b4", "Eb#4", "E\u266E#4", "E\u266Eb4", "E11", "E04", "C-2", "Cb-1",
                              "B#10", "E4 ", "4", "E4.5", "E-", "#4"}) {
        CAPTURE(wrong);
        try {
            (void)parse_note(wrong);
            FAIL("taken for a note");
        } catch (const invalid_input& e) {
            REQUIRE(e.problems().size() == 1);
            CHECK(e.problems()[0].value == '"' + std::string(wrong) + '"');
            CHECK(std::string(e.what()).find("must be a letter A to G") != std::string::npos);
        }
    }
    CHECK_THROWS_AS((void)parse_note("C" + std::string(100000, '#') + "4"), invalid_input);
    CHECK_THROWS_AS((void)name_of(note{-1}), invalid_input);
    CHECK_THROWS_AS((void)name_of(note{144}), invalid_input);
}

TEST_CASE("pitch: other standards and steps") {
    const note e2 = parse_note("E2");
    CHECK(near::relative(pitch_of(e2, pitch_standard{.a4 = 415 * Hz}), pitch_of(e2) * (415.0 / 440), 1e-14));
    const pitch_standard quarter_tones{.steps = 24, .a4_number = 138};
    CHECK(near::relative(pitch_of(in_finer_steps(e2, 2), quarter_tones), pitch_of(e2), 1e-14));
    CHECK(near::relative(interval_between<double>(pitch_of(note{138}, quarter_tones), pitch_of(note{139}, quarter_tones)) /
                             cents,
                         50.0, 1e-11));
    CHECK_THROWS_AS((void)pitch_of(e2, pitch_standard{.a4 = 0 * Hz}), invalid_input);
    CHECK_THROWS_AS((void)pitch_of(e2, pitch_standard{.offsets = {1_cents}}), invalid_input);
    const auto wrong = validate(pitch_standard{.offsets = {1_cents}});
    REQUIRE(wrong.size() == 1);
    CHECK(wrong.front().sentence() == "offsets must be one for each of the 12 steps of the octave, but there are 1.");
    CHECK_THROWS_AS((void)pitch_of(note{1 << 30}), invalid_input);
}

TEST_CASE("pitch: a note alone sounds as the standard has it unless told otherwise") {
    static_assert(pitch_of("A4") == 440 * Hz);
    for (int n = 69 - 239; n < 69 + 240; ++n) { CHECK(pitch_of(note{n}) == pitch_of(note{n}, pitch_standard{})); }
    CHECK_THROWS_AS((void)pitch_of(note{69 + 240}), invalid_input);
    CHECK_THROWS_AS((void)pitch_of(note{69 - 240}), invalid_input);
}

TEST_CASE("pitch: a temperament leaves A4 where it is") {
    pitch_standard uneven{};
    for (int i = 0; i < 12; ++i) { uneven.offsets.push_back((3.0 * i - 10) * cents); }
    CHECK(near::relative(pitch_of(note{69}, uneven), 440 * Hz, 1e-15));
    // C stands 27 cents lower against A than in equal steps: offsets -10 and 17.
    CHECK(near::within(interval_between<double>(pitch_of(note{60}), pitch_of(note{60}, uneven)) / cents, -27.0, 1e-9));
    CHECK(near::within(interval_between<double>(pitch_of(note{48}), pitch_of(note{48}, uneven)) / cents, -27.0, 1e-9));
    CHECK(near::within(interval_between<double>(pitch_of(note{71}), pitch_of(note{71}, uneven)) / cents, 6.0, 1e-9));
}

TEST_CASE("pitch: nearest note and its error") {
    const auto found = nearest_note(111 * Hz);
    CHECK(found.note == parse_note("A2"));
    CHECK(near::within(found.error / cents, 1200 * std::log2(111.0 / 110), 1e-9));
    for (int n = 10; n < 130; ++n) {
        for (const double c : {-49.0, -20.0, 0.0, 33.0, 49.0}) {
            const auto back = nearest_note(pitch_of(note{n}) * frequency_ratio(c * cents));
            CHECK(back.note.number == n);
            CHECK(near::within(back.error / cents, c, 1e-8));
        }
    }
    CHECK_THROWS_AS((void)nearest_note(0.0 * Hz), invalid_input);
}

TEST_CASE("pitch: nearest note in an uneven temperament, where the nearest can be a neighbour of the equal one") {
    pitch_standard uneven{};
    for (int i = 0; i < 12; ++i) { uneven.offsets.push_back((i % 2 ? 70.0 : 0.0) * cents); } // every other step 70 cents up
    for (int n = 30; n < 90; ++n) {
        for (const double c : {-10.0, 0.0, 10.0}) {
            const auto found = nearest_note(pitch_of(note{n}, uneven) * frequency_ratio(c * cents), uneven);
            CHECK(found.note.number == n);
            CHECK(near::within(found.error / cents, c, 1e-8));
        }
    }
}

TEST_CASE("pitch: transposing and finer steps") {
    CHECK(transposed(parse_note("E2"), 5) == parse_note("A2"));
    CHECK(transposed(parse_note("C4"), -1) == parse_note("B3"));
    CHECK(in_finer_steps(note{69}, 2).number == 138);
    CHECK_THROWS_AS((void)in_finer_steps(note{69}, 0), invalid_input);
}

TEST_CASE("pitch: the derivative by A4 is the ratio; other number types") {
    using D = dual<double, 1>;
    const auto f = pitch_of(note{45}, basic_pitch_standard<D>{.a4 = D::variable(440.0, 0) * Hz});
    CHECK(near::relative(f.value().partial[0], 0.25, 1e-14));
    CHECK(near::relative(static_cast<double>(pitch_of(note{40}, basic_pitch_standard<float>{}).value()), 82.40688922821748,
                         1e-6));
    CHECK(near::relative(static_cast<double>(pitch_of(note{40}, basic_pitch_standard<long double>{}).value()),
                         82.40688922821748, 1e-15));
}
