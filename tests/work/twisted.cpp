// Sanding and levelling a board whose edges are not alike.
#include <tautline/work/do_work.hpp>

#include <algorithm>
#include <cmath>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using edge_marks = std::vector<permanent_bow_mark>;

edge_marks edge_like(const strung_instrument& on, double nut, double middle) {
    const auto joint = joint_place(on.instrument);
    return {{.x = 0 * mm, .z = nut * mm}, {.x = joint * 0.5, .z = middle * mm}, {.x = joint, .z = 0 * mm}};
}
strung_instrument twisted(double bass_nut, double bass_middle, double treble_nut, double treble_middle) {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    on.instrument.neck.set_bass = edge_like(on, bass_nut, bass_middle);
    on.instrument.neck.set_treble = edge_like(on, treble_nut, treble_middle);
    return on;
}
bench_work to_arc(double radius, double allowance, neck_held held = neck_held::slack, double hollow = 0) {
    bench_work w;
    w.sanding = sanding{.surface = cylinder(radius * mm), .held = held, .hollow = hollow * mm, .allowance = allowance * mm};
    return w;
}
double arc(const basic_surface<double>& s, double y) {
    if (!s.radius) { return 0; }
    const double r = *s.radius / mm;
    return std::sqrt(r * r - y * y) - r;
}
/// The slack board's top by interpolation of its own: marks along both edges, straight across.
double slack_top(const instrument& i, double x, double y) {
    const auto at = [&](const edge_marks& marks) {
        if (x <= marks.front().x / mm) { return marks.front().z / mm; }
        for (std::size_t k = 1; k < marks.size(); ++k) {
            if (x > marks[k].x / mm) { continue; }
            const double u = (x - marks[k - 1].x / mm) / ((marks[k].x - marks[k - 1].x) / mm);
            return (marks[k - 1].z / mm) * (1 - u) + (marks[k].z / mm) * u;
        }
        return marks.back().z / mm;
    };
    const double half =
        (i.board.width_at_nut / mm + (i.board.width_at_end - i.board.width_at_nut) / mm * x / (i.board.board_length / mm)) /
        2;
    const double t = (y / half + 1) / 2;
    return at(i.neck.set_bass) * (1 - t) + at(i.neck.set_treble) * t + arc(i.board.surface, y);
}
double half_of(const instrument& i, double x) { return kernel::half_width_at<double>(i.board, x * mm) / mm; }

} // namespace

TEST_SUITE("work on a twisted board") {
    TEST_CASE("both edges alike: the same work as on one set, digit for digit") {
        const auto by_edges = twisted(0.3, 0.1, 0.3, 0.1);
        auto by_set = by_edges;
        by_set.instrument.neck.set = by_edges.instrument.neck.set_bass;
        by_set.instrument.neck.set_bass.clear();
        by_set.instrument.neck.set_treble.clear();
        board_details details;
        details.slot = slot{.depth = 2 * mm, .width = 0.6 * mm};
        for (const auto held : {neck_held::slack, neck_held::as_at_pitch}) {
            const auto a = do_work(by_edges, details, to_arc(300, 0.1, held)),
                       b = do_work(by_set, details, to_arc(300, 0.1, held));
            const auto one = numbers_of(a), other = numbers_of(b);
            CHECK(near::within(*one.off_centre_at_nut, *other.off_centre_at_nut, 2e-3 * mm));
            CHECK(near::within(*one.off_centre_most, *other.off_centre_most, 2e-3 * mm));
            CHECK(near::within(*one.slot_to_deepen, *other.slot_to_deepen, 2e-3 * mm));
            CHECK(near::within(*one.off_bass_most, *one.off_treble_most, 1e-12 * mm));
            CHECK(near::within(*one.bass_edge_left, b.thinnest->edge, 2e-3 * mm));
        }
        const bench_work file{.levelling = fret_levelling{.held = neck_held::slack}};
        const auto a = do_work(by_edges, {}, file), b = do_work(by_set, {}, file);
        for (std::size_t n = 0; n < b.levelling->way().cuts.size(); ++n) {
            CHECK(near::within(a.levelling->way().bass_cuts[n], b.levelling->way().cuts[n], 1e-9 * mm));
            CHECK(near::within(a.levelling->way().treble_cuts[n], b.levelling->way().cuts[n], 1e-9 * mm));
        }
        CHECK(near::within(a.levelling->slack.total, b.levelling->slack.total, 1e-9 * mm));
    }
    TEST_CASE("sanded true: a straight line along, the arc across, level with the body; no place is left out") {
        for (const auto& on : {twisted(0.6, 0.25, -0.2, 0.0), twisted(-0.3, -0.3, 0.4, 0.3), twisted(0, 0.3, 0, 0)}) {
            for (const double radius : {140.0, 205.0, 600.0}) {
                const auto& i = on.instrument;
                const auto done = do_work(on, {}, to_arc(radius, 0.08));
                const auto new_top = [&](double x, double y) {
                    return slack_top(i, x, y) - removal_at<double>(*done.removal, x * mm, y * mm) / mm;
                };
                const double end = i.board.board_length / mm, first = new_top(0, 0), last = new_top(end, 0);
                double least = 1;
                for (int k = 0; k <= 200; ++k) {
                    const double x = end * k / 200;
                    CHECK(near::within(new_top(x, 0), first + (last - first) * x / end, 1e-9));
                    for (int j = -10; j <= 10; ++j) {
                        const double y = half_of(i, x) * j / 10;
                        CHECK(near::within(new_top(x, y) - new_top(x, 0), arc(cylinder(radius * mm), y), 1e-9));
                        least = std::min(least, removal_at<double>(*done.removal, x * mm, y * mm) / mm);
                    }
                }
                CHECK(least > 0.08 - 0.002);
                CHECK(least < 0.08 + 0.004);
                CHECK(done.after.instrument.neck.set_bass.empty());
                for (const auto& m : done.after.instrument.neck.set) { CHECK(near::within(m.z, 0 * mm, 1e-12 * mm)); }
                CHECK_FALSE(solve(done.after).bass_relief.has_value());
            }
        }
    }
    TEST_CASE("what comes off each edge and is left of it is told, and the slots' depths along") {
        const auto on = twisted(0.5, 0.2, -0.1, 0.0);
        const auto& i = on.instrument;
        board_details details;
        details.slot = slot{.depth = 2.4 * mm, .width = 0.6 * mm};
        details.binding_height = 3 * mm;
        details.binding_thickness = 1.5 * mm;
        const auto done = do_work(on, details, to_arc(300, 0.05));
        const auto told = numbers_of(done);
        double bass_most = -1, treble_most = -1, bass_left = 99, treble_left = 99;
        for (int k = 0; k <= 4000; ++k) {
            const double x = i.board.board_length / mm * k / 4000, half = half_of(i, x);
            const double b = removal_at<double>(*done.removal, x * mm, -half * mm) / mm,
                         t = removal_at<double>(*done.removal, x * mm, half * mm) / mm;
            const double edge = kernel::thickness_at<double>(i.board, x * mm) / mm + arc(i.board.surface, half);
            bass_most = std::max(bass_most, b);
            treble_most = std::max(treble_most, t);
            bass_left = std::min(bass_left, edge - b);
            treble_left = std::min(treble_left, edge - t);
        }
        CHECK(near::within(*told.off_bass_most / mm, bass_most, 2e-3));
        CHECK(near::within(*told.off_treble_most / mm, treble_most, 2e-3));
        CHECK(near::within(*told.bass_edge_left / mm, bass_left, 2e-3));
        CHECK(near::within(*told.treble_edge_left / mm, treble_left, 2e-3));
        CHECK(done.thinnest->edge == min(*told.bass_edge_left, *told.treble_edge_left));
        CHECK(*told.off_bass_most > *told.off_treble_most + 0.1 * mm);
        double slot_left = 99;
        for (const auto& row : done.sanding->rows) {
            REQUIRE(row.ends.has_value());
            const double x = row.x / mm, half = half_of(i, x);
            const auto depth = [&](double y) { return 2.4 - removal_at<double>(*done.removal, x * mm, y * mm) / mm; };
            CHECK(near::within(row.ends->slot_bass / mm, depth(-half + 1.5), 1e-9));
            CHECK(near::within(row.ends->slot_treble / mm, depth(half - 1.5), 1e-9));
            CHECK(near::within(row.ends->off_bass / mm, 2.4 - depth(-half), 1e-9));
            CHECK(near::within(*row.binding_left / mm, 3 - std::max(2.4 - depth(-half), 2.4 - depth(half)), 1e-9));
            double least = 99;
            for (int j = 0; j <= 500; ++j) { least = std::min(least, depth((half - 1.5) * (j / 250.0 - 1))); }
            CHECK(near::within(row.slot_left / mm, least, 1e-3));
            if (row.fret > 0) { slot_left = std::min(slot_left, row.ends->slot_bass / mm); }
        }
        CHECK(near::within(*told.slot_bass_left / mm, slot_left, 1e-12));
        // Volume by sums of small boxes.
        double sum = 0;
        const auto& off = *done.removal;
        constexpr int along = 800, across = 60;
        for (int k = 0; k < along; ++k) {
            const double step = i.board.board_length / mm / along, x = step * (k + 0.5), half = half_of(i, x);
            for (int j = 0; j < across; ++j) {
                const double wide = 2 * half / across, y = -half + wide * (j + 0.5);
                sum += step * wide * std::max(0.0, removal_at<double>(off, x * mm, y * mm) / mm);
            }
        }
        CHECK(near::relative(removed_volume(i.board, off).value() * 1e9, sum, 2e-3));
    }
    TEST_CASE("nut slots, posts and saddle stay where they were, seen from the new line") {
        const auto on = twisted(0.5, 0.2, -0.3, -0.1);
        const auto done = do_work(on, {}, to_arc(250, 0.1));
        const auto &was = on.instrument, &is = done.after.instrument;
        const auto line = [&](double x) { return kernel::line_removal<double>(*done.removal, x * mm) / mm; };
        const auto y = kernel::places_at_nut(on);
        for (std::size_t k = 0; k < y.size(); ++k) {
            const double from = was.nut.slot_height(k) / mm + slack_top(was, 0, y[k] / mm);
            const double to = is.nut.slot_height(k) / mm + arc(is.board.surface, y[k] / mm);
            CHECK(near::within(to, from + line(0), 1e-9));
        }
        for (std::size_t k = 0; k < was.posts.size(); ++k) {
            const auto before = kernel::post_point(was.headstock, was.posts[k]),
                       after = kernel::post_point(is.headstock, is.posts[k]);
            const double tilt =
                slack_top(was, 0, was.posts[k].across / mm) - arc(was.board.surface, was.posts[k].across / mm);
            CHECK(near::within(after.z / mm, before.z / mm + tilt + line(before.x / mm), 5e-3));
        }
        CHECK(near::within((is.saddle.height_bass - is.saddle.board_line) / mm,
                           (was.saddle.height_bass - was.saddle.board_line) / mm + line(560), 1e-9));
    }
    TEST_CASE("a twist of a micrometre is sanded and filed as a straight board, a mirrored one as its mirror") {
        const auto straight = twisted(0.2, 0.1, 0.2, 0.1), little = twisted(0.2, 0.1, 0.201, 0.1);
        const auto a = numbers_of(do_work(straight, {}, to_arc(400, 0))),
                   b = numbers_of(do_work(little, {}, to_arc(400, 0)));
        CHECK(near::within(*a.off_bass_most, *b.off_bass_most, 1.1e-3 * mm));
        CHECK(near::within(*a.off_centre_at_end, *b.off_centre_at_end, 1e-3 * mm));
        const bench_work file{.levelling = fret_levelling{.held = neck_held::slack}};
        const auto c = do_work(straight, {}, file), d = do_work(little, {}, file);
        for (std::size_t n = 0; n < c.levelling->way().cuts.size(); ++n) {
            CHECK(near::within(c.levelling->way().cuts[n], d.levelling->way().cuts[n], 1e-3 * mm));
        }
        const auto one = twisted(0.5, 0.2, -0.1, 0.0), other = twisted(-0.1, 0.0, 0.5, 0.2);
        const auto e = numbers_of(do_work(one, {}, to_arc(300, 0.1))), f = numbers_of(do_work(other, {}, to_arc(300, 0.1)));
        CHECK(near::within(*e.off_bass_most, *f.off_treble_most, 1e-9 * mm));
        CHECK(near::within(*e.treble_edge_left, *f.bass_edge_left, 1e-9 * mm));
        CHECK(near::within(*e.off_centre_at_nut, *f.off_centre_at_nut, 1e-9 * mm));
        const auto g = do_work(one, {}, file).levelling->way(), h = do_work(other, {}, file).levelling->way();
        for (std::size_t n = 0; n < g.cuts.size(); ++n) {
            CHECK(near::within(g.bass_cuts[n], h.treble_cuts[n], 1e-9 * mm));
        }
    }
    TEST_CASE("frets of an evenly twisted board need no file; a bass edge bowed alone is filed there alone") {
        auto even = twisted(0, 0, 0.8, 0.4);
        even.instrument.board.width_at_end = even.instrument.board.width_at_nut;
        even.instrument.frets.wear.clear();
        const bench_work file{.levelling = fret_levelling{.held = neck_held::slack}};
        // Beyond the joint the board is level: frets there stand off the edge's straight line.
        even.instrument.board.scale.frets = even.instrument.neck.joint_fret;
        CHECK(near::within(do_work(even, {}, file).levelling->way().total, 0 * mm, 1e-9 * mm));

        auto bowed = twisted(0, 0.15, 0, 0);
        bowed.instrument.frets.wear.clear();
        const auto done = do_work(bowed, {}, file);
        auto alone = bowed;
        alone.instrument.neck.set = bowed.instrument.neck.set_bass;
        alone.instrument.neck.set_bass.clear();
        alone.instrument.neck.set_treble.clear();
        const auto by_set = do_work(alone, {}, file);
        for (std::size_t n = 0; n < done.levelling->way().cuts.size(); ++n) {
            CHECK(near::within(done.levelling->way().treble_cuts[n], 0 * mm, 1e-9 * mm));
            CHECK(near::within(done.levelling->way().bass_cuts[n], by_set.levelling->way().cuts[n], 1e-9 * mm));
            CHECK(done.after.instrument.frets.wear_bass[n] == done.levelling->way().bass_cuts[n]);
        }
        // Solved, the crests under a string follow both ends, straight between them.
        const auto s = solve(done.after);
        const auto& one = s.strings.front();
        const std::size_t n = 4;
        const double x = s.fret_x[n] / mm;
        const double y = one.y_at_nut / mm + (one.y_at_saddle - one.y_at_nut) / (one.line.saddle_x - one.line.nut_x) *
                                                 (s.fret_x[n] - one.line.nut_x) / mm;
        const double share = (y / half_of(bowed.instrument, x) + 1) / 2;
        const double worn = done.levelling->way().bass_cuts[n] / mm * (1 - share);
        const double bow = kernel::load_deflection_at<double>(s.bow, s.fret_x[n]) / mm;
        CHECK(near::within(one.crest_z[n] / mm,
                           slack_top(bowed.instrument, x, y) + bow + bowed.instrument.frets.wire.crown_height / mm - worn,
                           1e-9));
        CHECK(near::within(s.crests[n].z / mm,
                           slack_top(bowed.instrument, x, 0) + bow + bowed.instrument.frets.wire.crown_height / mm -
                               done.levelling->way().cuts[n] / mm,
                           1e-9));
        // Filed again, nothing more comes off; new wire ends the wear.
        CHECK(near::within(do_work(done.after, {}, file).levelling->way().total, 0 * mm, 1e-6 * mm));
        const auto fresh = after_refret<double>(done.after, bowed.instrument.frets.wire);
        CHECK_FALSE(fresh.instrument.frets.told_by_ends());
    }
    TEST_CASE("frets told at both ends: alike is wear alone; wrong lists are named") {
        strung_instrument on{demo::four_course(), demo::unison_pairs()};
        const auto alike = [&] {
            auto other = on;
            other.instrument.frets.wear_bass = other.instrument.frets.wear_treble = on.instrument.frets.wear;
            other.instrument.frets.wear.clear();
            return other;
        }();
        const auto a = solve(on), b = solve(alike);
        for (std::size_t n = 0; n < a.fret_x.size(); ++n) {
            CHECK(near::within(a.strings[2].heights[n], b.strings[2].heights[n], 1e-12 * mm));
            CHECK(near::within(crest_height<double>(on.instrument.board, on.instrument.frets, 3, 5 * mm),
                               crest_height<double>(alike.instrument.board, alike.instrument.frets, 3, 5 * mm),
                               1e-12 * mm));
        }
        CHECK(b.bass_relief.has_value());
        auto wrong = on.instrument.frets;
        wrong.wear_bass = {0.1 * mm};
        const auto said = validate(wrong, "frets");
        REQUIRE(said.size() == 2);
        CHECK(said[0].sentence().starts_with("frets.wear_treble must be given, too"));
        CHECK(said[1].sentence().starts_with("frets.wear must be left out"));
        wrong.wear.clear();
        wrong.wear_treble = {5 * mm};
        CHECK(validate(wrong, "frets").front().sentence() ==
              "frets.wear_treble[0] must be less than the height of the crown.");
        const std::vector<length<>> few(3, 0 * mm), all(19, 0.01 * mm);
        CHECK_THROWS_WITH((void)after_levelling<double>(on, few, all), "bass_cuts must be one for each fret.");
        CHECK_THROWS_WITH((void)after_levelling<double>(on, all, few), "treble_cuts must be one for each fret.");
    }
}
