// Arcs, humps, fans and centre lines against reference programs.

#include <tautline/board/centre_line.hpp>
#include <tautline/board/fret_pieces.hpp>
#include <tautline/board/straightness.hpp>

#include "published/record.hpp"
#include "table.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("arc lengths against scipy.integrate.quad (arcs.txt)" * published::reference_program) {
    table t("arcs.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        const double radius = t.number(), width = t.number();
        CHECK(published::within("length of the arc", arc_length(radius * mm, width * mm), t.number() * mm, 1e-9 * mm));
    }
    CHECK(cases == 5);
}

TEST_CASE("the hump under a string against scipy.optimize.minimize_scalar (humps.txt)" * published::reference_program) {
    table t("humps.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        const double r0 = t.number(), r1 = t.number(), y0 = t.number(), y1 = t.number(), saddle = t.number();
        const double from = t.number(), to = t.number(), height = t.number(), at = t.number();
        const auto s = r0 == r1 ? cylinder(r0 * mm) : cone(r0 * mm, r1 * mm, 450 * mm);
        const auto h =
            hump_under(s, {.y_at_nut = y0 * mm, .y_at_saddle = y1 * mm, .x_at_saddle = saddle * mm}, from * mm, to * mm);
        CHECK(published::within("height of the hump", h.height, height * mm, 1e-9 * mm));
        CHECK(published::within("place of the hump", h.at, at * mm, 0.01 * mm));
    }
    CHECK(cases == 4);
}

TEST_CASE("sagitta w^2/(8R), handbooks' short form, to its own accuracy (from memory)" * published::from_memory) {
    for (const double radius : {184.0, 254.0, 406.0}) {
        const double w = 50;
        CHECK(published::relative("sagitta", sagitta(radius * mm, w * mm), w * w / (8 * radius) * mm,
                                  0.3 * w * w / (4 * radius * radius)));
    }
}

TEST_CASE("fret ends and string crossings of fans against numpy.linalg.solve (fans.txt)" * published::reference_program) {
    table t("fans.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        fan f;
        f.frets = 24;
        f.bass_scale = t.number() * mm;
        f.treble_scale = t.number() * mm;
        f.square_fret = t.number();
        f.y_bass_at_nut = t.number() * mm;
        f.y_treble_at_nut = t.number() * mm;
        f.y_bass_at_saddle = t.number() * mm;
        f.y_treble_at_saddle = t.number() * mm;
        const int n = t.whole();
        const board b{.width_at_nut = 46 * mm,
                      .width_at_end = 58 * mm,
                      .board_length = 480 * mm,
                      .thickness = 6 * mm,
                      .scale = {.scale_length = 640 * mm, .frets = 20}};
        const auto ends = fret_ends(fret_line(f, n), b);
        CHECK(published::within("bass end along", ends.bass.x, t.number() * mm, 1e-9 * mm));
        CHECK(published::within("bass end across", ends.bass.y, t.number() * mm, 1e-9 * mm));
        CHECK(published::within("treble end along", ends.treble.x, t.number() * mm, 1e-9 * mm));
        CHECK(published::within("treble end across", ends.treble.y, t.number() * mm, 1e-9 * mm));
        CHECK(published::within("error of a fret under a slanted string, cents",
                                fret_error(f, path_between(f, 0.35, 0.45), n) / cents, t.number(), 1e-8));
    }
    CHECK(cases == 18);
}

TEST_CASE("centre line and its uncertainty against numpy.polyfit (centre_lines.txt)" * published::reference_program) {
    table t("centre_lines.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        const int count = t.whole();
        const double at = t.number(), y = t.number(), u = t.number();
        edge_readings job;
        for (int i = 0; i < count; ++i) {
            edge_reading r;
            r.x = t.number() * mm;
            r.bass_edge = t.number() * mm;
            r.treble_edge = t.number() * mm;
            job.readings.push_back(r);
        }
        const auto there = centre_at(find_centre_line(job), at * mm);
        CHECK(published::within("centre line's place", there.y, y * mm, 1e-9 * mm));
        CHECK(published::within("its uncertainty", *there.uncertainty, u * mm, 1e-8 * mm));
    }
    CHECK(cases == 8);
}
