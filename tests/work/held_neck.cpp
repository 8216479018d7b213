// Sanding a neck that has a set, free or held: what comes off, what is left, what the strings make of it.
#include <tautline/work/do_work.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument with_set(double depth_mm) {
    strung_instrument on{demo::four_course(), demo::unison_pairs()};
    const auto joint = joint_place(on.instrument);
    for (int k = 0; k <= 28; ++k) {
        const double u = k / 28.0;
        on.instrument.neck.set.push_back({.x = joint * u, .z = depth_mm * mm * ((1 - u) * (1 - u))});
    }
    return on;
}
bench_work sanded(neck_held held, length<> hollow = 0 * mm, length<> allowance = 0 * mm) {
    bench_work w;
    w.sanding = sanding{.surface = cylinder(205 * mm), .held = held, .hollow = hollow, .allowance = allowance};
    return w;
}
/// Of the board's outline: where the line of least removal is supported.
length<> centroid(const board& b) {
    const double w0 = b.width_at_nut / mm, w1 = b.width_at_end / mm;
    return b.board_length * ((w0 + 2 * w1) / (3 * (w0 + w1)));
}
length<> off(const work_done& done, length<> x) { return removal_at<double>(*done.removal, x, 0 * mm); }
length<> relief_of_board(const strung_instrument& on) { return solve(on).board_relief->gap; }

} // namespace

TEST_SUITE("held neck") {
    TEST_CASE("a straight board without a set loses the allowance and nothing else") {
        const strung_instrument on{demo::four_course(), demo::unison_pairs()};
        const auto done = do_work(on, {}, sanded(neck_held::slack, 0 * mm, 0.2 * mm));
        for (const double x : {0.0, 130.0, 280.0, 400.0}) { CHECK(near::within(off(done, x * mm), 0.2 * mm, 1e-9 * mm)); }
        CHECK(done.after.instrument.neck.set.empty());
        CHECK(done.after.instrument.board.thickness_off_line.empty());
    }
    TEST_CASE("a hollow set is sanded away at the ends of the board, a back-bow midway") {
        // By hand: the highest line under s0 (1 - x/xj)^2 touches it over the middle of the board. Marks a centimetre
        // apart make of the touch a side of a polygon, a hundredth of a millimetre off at the nut.
        const auto hollow = with_set(0.6);
        const auto joint = joint_place(hollow.instrument);
        const auto done = do_work(hollow, {}, sanded(neck_held::slack, 0 * mm, 0.1 * mm));
        const double middle = ratio(centroid(hollow.instrument.board), joint);
        CHECK(near::within(off(done, 0 * mm), 0.6 * mm * (middle * middle) + 0.1 * mm, 0.02 * mm));
        CHECK(near::within(off(done, joint * middle), 0.1 * mm, 0.002 * mm));
        const auto hump = do_work(with_set(-0.6), {}, sanded(neck_held::slack, 0 * mm, 0.1 * mm));
        CHECK(off(hump, 150 * mm) > off(hump, 0 * mm) + 0.05 * mm);
        CHECK(near::within(off(hump, 0 * mm), 0.1 * mm, 0.002 * mm));
    }
    TEST_CASE("nothing comes off more thinly than allowed, everywhere on the board") {
        for (const double depth : {0.9, -0.7}) {
            for (const auto held : {neck_held::slack, neck_held::as_at_pitch, neck_held::as_it_will_be}) {
                const auto on = with_set(depth);
                auto w = sanded(held, 0.15 * mm, 0.1 * mm);
                w.sanding->surface = cylinder(300 * mm);
                const auto done = do_work(on, {}, w);
                length<> least = 1 * metre;
                for (int k = 0; k <= 400; ++k) {
                    const auto x = k * mm, half = half_width_at<double>(on.instrument.board, x);
                    for (const double y : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
                        least = min(least, removal_at<double>(*done.removal, x, half * y));
                    }
                }
                CHECK(least > 0.1 * mm - 0.002 * mm);
                CHECK(least < 0.1 * mm + 0.01 * mm);
            }
        }
    }
    TEST_CASE("a board trued slack is straight when slack; the strings then bow it from there") {
        const auto on = with_set(0.6);
        const auto done = do_work(on, {}, sanded(neck_held::slack));
        for (const auto& m : done.after.instrument.neck.set) { CHECK(near::within(m.z, 0 * mm, 1e-12 * mm)); }
        const auto after = solve(done.after);
        std::vector<crest> bow;
        for (const auto& x : after.fret_x) { bow.push_back({x, deflection_at<double>(after.bow, x)}); }
        CHECK(near::within(after.board_relief->gap, relief_between<double>(bow, 0, 11).gap, 1e-9 * mm));
        CHECK(relief_of_board(on) > after.board_relief->gap + 0.1 * mm); // the set's own hollow is gone
    }
    TEST_CASE("a hollow sanded into a slack board adds to the bow of the strings") {
        const strung_instrument on{demo::four_course(), demo::unison_pairs()};
        const auto straight = do_work(on, {}, sanded(neck_held::slack)),
                   hollow = do_work(on, {}, sanded(neck_held::slack, 0.2 * mm));
        // A parabola from fret 1 to the joint, read at frets: a fret stands near its middle.
        CHECK(near::within(relief_of_board(hollow.after) - relief_of_board(straight.after), 0.2 * mm, 0.006 * mm));
    }
    TEST_CASE("a jig that holds what will be leaves exactly the hollow at pitch") {
        for (const double depth : {0.6, 0.0, -0.4}) {
            for (const double q : {0.0, 0.15}) {
                auto on = with_set(depth);
                auto w = sanded(neck_held::as_it_will_be, q * mm, 0.1 * mm);
                w.strings = demo::unison_pairs();
                w.strings->standard.a4 = 425 * Hz;
                const auto done = do_work(on, {}, w);
                const auto after = solve(done.after);
                const auto at = [&](int n) { return after.fret_x[static_cast<std::size_t>(n - 1)]; };
                for (int n = 1; n <= 12; ++n) {
                    const double t = ratio(at(n) - at(1), at(12) - at(1));
                    CHECK(near::within(after.board_points[static_cast<std::size_t>(n - 1)].z, -q * mm * (4 * t * (1 - t)),
                                       1e-6 * mm));
                }
            }
        }
    }
    TEST_CASE("a jig that holds the shape at pitch leaves the change of the bow, some hundredths") {
        const auto on = with_set(0.6);
        const auto done = do_work(on, {}, sanded(neck_held::as_at_pitch));
        const auto before = solve(on), after = solve(done.after);
        for (std::size_t n = 0; n < 12; ++n) {
            const auto x = after.fret_x[n];
            const auto change =
                kernel::load_deflection_at<double>(after.bow, x) - kernel::load_deflection_at<double>(before.bow, x);
            CHECK(near::within(after.board_points[n].z, change, 1e-6 * mm));
        }
        CHECK(tautline::abs(after.board_relief->gap) < 0.03 * mm);
        // The same work again takes that change, slack nothing.
        const auto again = do_work(done.after, {}, sanded(neck_held::as_at_pitch));
        CHECK(tautline::abs(off(again, 0 * mm)) < 0.1 * mm);
        const auto slack = do_work(on, {}, sanded(neck_held::slack)),
                   twice = do_work(slack.after, {}, sanded(neck_held::slack));
        for (const double x : {0.0, 130.0, 280.0, 400.0}) { CHECK(near::within(off(twice, x * mm), 0 * mm, 1e-9 * mm)); }
    }
    TEST_CASE("what came off and what is left make the board that was; back and rod keep their place in the wood") {
        auto on = with_set(0.6);
        on.instrument.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -14 * mm, .dip = 2 * mm};
        on.instrument.neck.rod_pull = 0 * N;
        const auto done = do_work(on, {}, sanded(neck_held::slack, 0.1 * mm, 0.1 * mm));
        const auto& after = done.after.instrument;
        for (int k = 0; k <= 40; ++k) {
            const auto x = 10 * k * mm;
            CHECK(near::within(thickness_at<double>(after.board, x) + off(done, x),
                               thickness_at<double>(on.instrument.board, x), 1e-9 * mm));
        }
        neck was, is;
        neck_of(on.instrument, was);
        neck_of(after, is);
        CHECK(is.stations.size() > 10);
        for (const auto& s : is.stations) {
            const double u = ratio(s.x, is.joint);
            CHECK(near::within(s.back_depth,
                               was.stations[0].back_depth + (was.stations[1].back_depth - was.stations[0].back_depth) * u,
                               1e-9 * mm));
        }
        const auto depth = [](const instrument& i, length<> x) {
            return -kernel::rod_height<double>(*i.neck.rod, x) - thickness_at<double>(i.board, x); // below the glue line
        };
        CHECK(near::within(depth(after, 140 * mm), depth(on.instrument, 140 * mm), 1e-9 * mm));
        CHECK(near::within(depth(after, 10 * mm) + depth(after, 270 * mm),
                           depth(on.instrument, 10 * mm) + depth(on.instrument, 270 * mm), 1e-9 * mm));
    }
    TEST_CASE("truing a set moves the frame, not the parts: nut, saddle, posts and anchors keep their distances") {
        auto on = with_set(0.8);
        on.instrument.neck.board_modulus = on.instrument.neck.back_modulus = 1000 * GPa;
        const auto done = do_work(on, {}, sanded(neck_held::slack, 0 * mm, 0.1 * mm));
        const auto a = solve(on), b = solve(done.after);
        for (std::size_t i = 0; i < 8; ++i) {
            const auto apart = [](const point& p, const point& q) {
                const length<> dx = p.x - q.x, dy = p.y - q.y, dz = p.z - q.z;
                return sqrt(dx * dx + dy * dy + dz * dz);
            };
            CHECK(near::within(apart(a.bridge_strings[i].slot, a.bridge_strings[i].saddle),
                               apart(b.bridge_strings[i].slot, b.bridge_strings[i].saddle), 0.015 * mm));
            CHECK(near::within(apart(a.posts[i], a.bridge_strings[i].saddle), apart(b.posts[i], b.bridge_strings[i].saddle),
                               0.02 * mm));
            CHECK(near::within(apart(a.posts[i], a.bridge_strings[i].slot), apart(b.posts[i], b.bridge_strings[i].slot),
                               0.02 * mm));
            CHECK(near::within(b.strings[i].at_saddle.break_angle, a.strings[i].at_saddle.break_angle, 0.1 * deg));
        }
        // Heights grow by what came off under the string.
        const auto& s = a.strings[3];
        for (const std::size_t n : {std::size_t{0}, std::size_t{6}, std::size_t{11}, std::size_t{18}}) {
            const auto x = a.fret_x[n];
            const auto y = s.y_at_nut + (s.y_at_saddle - s.y_at_nut) * ratio(x, length<>(s.line.saddle_x));
            CHECK(near::within(b.strings[3].heights[n] - s.heights[n], removal_at<double>(*done.removal, x, y), 0.01 * mm));
        }
    }
    TEST_CASE("frets filed slack leave the bow at pitch, frets filed as they will be leave the hollow") {
        auto on = with_set(0.25);
        on.instrument.frets.wear[6] = 0.15 * mm;
        bench_work w;
        w.levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.1 * mm};
        const auto slack = do_work(on, {}, w);
        w.levelling->held = neck_held::as_it_will_be;
        w.levelling->hollow = 0.08 * mm;
        const auto held = do_work(on, {}, w);
        CHECK(near::within(solve(held.after).relief->gap, 0.08 * mm, 0.003 * mm));
        const auto s = solve(slack.after);
        std::vector<crest> bow;
        for (const auto& x : s.fret_x) { bow.push_back({x, kernel::load_deflection_at<double>(s.bow, x)}); }
        CHECK(near::within(s.relief->gap, relief_between<double>(bow, 0, 11).gap, 1e-9 * mm));
        CHECK(slack.after.instrument.neck.set[0].z == on.instrument.neck.set[0].z); // a file leaves the board as it was
    }
    TEST_CASE("a board that would be left too thin is told with its thinnest place") {
        auto on = with_set(2.5);
        on.instrument.board.thickness = 4.2 * mm;
        board_details d;
        d.slot = slot{.depth = 3 * mm, .width = 0.6 * mm};
        const auto done = do_work(on, d, sanded(neck_held::slack, 0 * mm, 0.3 * mm));
        REQUIRE(done.thinnest.has_value());
        CHECK_FALSE(done.thinnest->enough());
        CHECK(done.thinnest->least == 3 * mm);
        CHECK(near::within(done.thinnest->left, thickness_at<double>(done.after.instrument.board, done.thinnest->x),
                           1e-9 * mm));
        CHECK(do_work(with_set(0.3), d, sanded(neck_held::slack)).thinnest->enough());
    }
    TEST_CASE("how the neck is held must be said, and a set that no plane takes out is refused") {
        const auto on = with_set(0.4);
        bench_work w;
        w.sanding = sanding{.surface = cylinder(205 * mm)};
        CHECK_THROWS_WITH_AS(
            (void)do_work(on, {}, w),
            "work.sanding.held must be given: \"slack\" (the neck free, no strings), \"as at pitch\" (by a "
            "jig in the shape the strings give it as found) or \"as it will be\" (in the shape the planned "
            "strings will give it).",
            invalid_input);
        w = {};
        w.levelling = fret_levelling{};
        CHECK_THROWS_AS((void)do_work(on, {}, w), invalid_input);
        CHECK_THROWS_AS((void)do_work(with_set(3.5), {}, sanded(neck_held::slack)), invalid_input);
        CHECK_THROWS_AS((void)do_work(on, {}, sanded(neck_held::slack, -0.1 * mm)), invalid_input);
        CHECK_THROWS_WITH_AS((void)do_work(on, {}, sanded(neck_held::slack, 0 * mm, 4.8 * mm)),
                             "work.sanding must leave some board: it would go through at the edge.", invalid_input);
    }
    TEST_CASE("what bends a slack neck by itself is sanded and filed as a set of the same shape is") {
        // A board that has grown, told as such, and as the shape that it gives the slack neck.
        strung_instrument grown{demo::four_course(), demo::unison_pairs()};
        grown.instrument.neck.slots = neck_slots{.depth = 2 * mm};
        const auto bare = grown.instrument;
        const auto as_a_set = [&](const instrument& bent, double bearing) {
            neck n;
            auto with = bent;
            with.neck.slots->bearing = bearing;
            neck_of(with, n);
            const auto bow = bend(make_beam(n), {}, 0 * N);
            strung_instrument set = {bare, grown.stringing};
            for (const auto& x : kernel::shape_places(bare)) {
                set.instrument.neck.set.push_back({.x = x, .z = deflection_at(bow, x)});
            }
            return set;
        };
        grown.instrument.neck.board_strain = 2e-4;
        // While it is sanded the slots are empty.
        const auto sanded_set = as_a_set(grown.instrument, 0), filed_set = as_a_set(grown.instrument, 1);
        CHECK(sanded_set.instrument.neck.set.front().z < -0.05 * mm);
        const auto a = do_work(grown, {}, sanded(neck_held::slack)), b = do_work(sanded_set, {}, sanded(neck_held::slack));
        for (const double x : {0.0, 90.0, 200.0, 280.0}) { CHECK(near::within(off(a, x * mm), off(b, x * mm), 1e-9 * mm)); }
        CHECK(a.held_rise == 0 * mm);
        bench_work file;
        file.levelling = fret_levelling{.held = neck_held::slack};
        const auto c = do_work(grown, {}, file), d = do_work(filed_set, {}, file);
        double most = 0;
        for (std::size_t n = 0; n < c.levelling->slack.cuts.size(); ++n) {
            CHECK(near::within(c.levelling->slack.cuts[n], d.levelling->slack.cuts[n], 1e-9 * mm));
            most = std::max(most, c.levelling->slack.cuts[n] / mm);
        }
        CHECK(most > 0.01);
        // Tangs that wedge bend it when they are in, and not while it is sanded.
        strung_instrument wedged = {bare, grown.stringing};
        wedged.instrument.neck.slots->interference = 0.05 * mm;
        wedged.instrument.neck.slots->wedging = 0.2;
        const auto e = do_work(wedged, {}, sanded(neck_held::slack));
        CHECK(near::within(off(e, 0 * mm), 0 * mm, 1e-9 * mm));
        const auto f = do_work(wedged, {}, file), g = do_work(as_a_set(wedged.instrument, 1), {}, file);
        for (std::size_t n = 0; n < f.levelling->slack.cuts.size(); ++n) {
            CHECK(near::within(f.levelling->slack.cuts[n], g.levelling->slack.cuts[n], 1e-9 * mm));
        }
        CHECK(g.levelling->slack.total > 0.01 * mm);
        // A jig's rise is told over the slack neck's own place.
        const auto h = do_work(grown, {}, sanded(neck_held::as_at_pitch));
        CHECK(near::within(h.held_rise, solve(grown).bow.nut_rise() - sanded_set.instrument.neck.set.front().z, 1e-9 * mm));
    }
    TEST_CASE("derivatives run through the work: what the set moves is what a little more of it moves") {
        using D = dual<double, 1>;
        const auto relief_at = [](double more) {
            auto on = with_set(0.5);
            on.instrument.neck.set[7].z = on.instrument.neck.set[7].z + more * mm;
            const auto done = do_work(on, {}, sanded(neck_held::as_at_pitch, 0 * mm, 0.1 * mm));
            return off(done, 0 * mm) / mm;
        };
        auto on = over<D>(with_set(0.5));
        on.instrument.neck.set[7].z = on.instrument.neck.set[7].z + length<D>::from_value(D::variable(0, 0));
        basic_bench_work<D> w;
        w.sanding = over<D>(*sanded(neck_held::as_at_pitch, 0 * mm, 0.1 * mm).sanding);
        const auto done = do_work<D>(on, {}, w);
        const auto nut = kernel::centre_removal(*done.removal, length<D>());
        const double h = 1e-4;
        CHECK(near::within(nut.value().partial[0], (relief_at(h) - relief_at(-h)) / (2 * h), 1e-4));
    }
}
