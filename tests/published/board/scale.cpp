// The scale against published rules and a reference fit.

#include <tautline/board/found_scale.hpp>

#include "published/record.hpp"
#include "table.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("divisor 17.817 (a high-school lesson on fret spacing, studylib 6799113)" * published::seen) {
    CHECK(published::within("divisor", equal_step_divisor(), 17.817, 0.0005));
    // Dividing the rest by the rounded divisor reaches the octave to a few microns.
    const scale lesson{.scale_length = 650 * mm, .frets = 20, .divisor = 17.817};
    CHECK(published::within("octave fret by the rounded divisor", fret_position(lesson, 12), 325 * mm, 0.003 * mm));
}

TEST_CASE("a fret space is (2^(1/12) - 1)/2^(n/12) of the string (answer on Mathematics Stack Exchange 1858103)" *
          published::seen) {
    const auto gaps = fret_spacings(scale{.scale_length = 1 * metre, .frets = 24});
    for (int n = 1; n <= 24; ++n) {
        CHECK(published::relative("fret spaces over the string's length", gaps[static_cast<std::size_t>(n - 1)].value(),
                                  (std::pow(2, 1 / 12.0) - 1) / std::pow(2, n / 12.0), 1e-12));
    }
}

// J. M. Barbour, Tuning and Temperament: A Historical Survey, p. 57, as cited by the Xenharmonic Wiki, "Galilei's tuning":
// eleven semitones 18/17 of 98.95459 cents and a larger one of about 111.5 to the octave; narrow fifths of about 692.7.
TEST_CASE("J. M. Barbour, Tuning and Temperament, p. 57, as cited by the Xenharmonic Wiki: the rule of 18 makes semitones "
          "of 98.95 cents" *
          published::quoted) {
    const scale old{.scale_length = 600 * mm, .frets = 12, .divisor = 18.0};
    for (int n = 1; n <= 12; ++n) {
        const double semitone = (fret_error(old, n, 600 * mm) - fret_error(old, n - 1, 600 * mm)) / cents + 100;
        CHECK(published::within("semitone, cents", semitone, 98.95459, 5e-6));
    }
    CHECK(published::within("last semitone to the octave, cents", 1200 - (fret_error(old, 11, 600 * mm) / cents + 1100),
                            111.5, 0.05));
    CHECK(published::within("fifth, cents", fret_error(old, 7, 600 * mm) / cents + 700, 692.7, 0.05));
    // Twice the octave fret is 0.9927 of the length divided; with the saddle there the octave is true and the fifth about a
    // cent flat: 1200 log2(0.99273/(0.99273 - 0.32975)) = 698.9.
    CHECK(published::within("octave length over the length divided",
                            ratio<unit::length, double>(octave_length(old), old.scale_length), 0.9927, 5e-5));
    CHECK(published::within("octave fret from the octave length, cents", fret_error(old, 12, octave_length(old)) / cents, 0,
                            1e-9));
    CHECK(published::within("fifth from the octave length, off equal temperament, cents",
                            fret_error(old, 7, octave_length(old)) / cents, -1.1, 0.05));
}

TEST_CASE("least-squares scale against scipy.stats.linregress and numpy.linalg.lstsq (scale_fits.txt)" *
          published::reference_program) {
    table t("scale_fits.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        fret_readings job{.with_nut_offset = t.whole() == 1};
        job.steps = t.whole();
        const int count = t.whole();
        const double s = t.number(), us = t.number(), a = t.number(), ua = t.number(), scatter = t.number();
        for (int i = 0; i < count; ++i) {
            const int fret = t.whole();
            job.readings.push_back({.fret = fret, .distance = t.number() * mm});
        }
        const auto found = find_scale(job);
        CHECK(published::within("scale length", found.scale_length, s * mm, 1e-8 * mm));
        CHECK(published::within("its uncertainty", *found.scale_length_error, us * mm, 1e-8 * mm));
        CHECK(published::within("scatter", *found.scatter, scatter * mm, 1e-8 * mm));
        CHECK(published::within("nut offset", found.nut_offset, a * mm, 1e-8 * mm));
        CHECK(found.nut_offset_error.has_value() == job.with_nut_offset);
        if (found.nut_offset_error) {
            CHECK(published::within("uncertainty of the nut offset", *found.nut_offset_error, ua * mm, 1e-8 * mm));
        }
    }
    CHECK(cases == 12);
}
