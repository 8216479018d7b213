#include <tautline/job/bench_layout.hpp>

#include <cmath>

#include <tautline/instrument/ready_made.hpp>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Edges of a board whose middle is 38 mm + 0.004 x from the reference line.
noted_centre straight(std::initializer_list<double> at) {
    noted_centre c;
    for (const double x : at) {
        const double middle = 38 + 0.004 * x, half = 18 + 0.01 * x;
        c.readings.push_back({.x = x * mm, .bass_edge = (middle - half) * mm, .treble_edge = (middle + half) * mm});
    }
    return c;
}
bench_job job_with_edges() {
    bench_job j = demo::job_as_found();
    j.centre = straight({0, 200, 390});
    return j;
}
const carried_place& place(const bench_layout& l, std::string_view begin) {
    for (const carried_place& at : l.centre) {
        if (at.what.find(begin) != std::string::npos) { return at; }
    }
    throw std::runtime_error("no such place");
}
bench_layout laid_out(const bench_job& j) { return layout_of(j, setups_of(j)); }
bench_job fretted_job() {
    bench_job j = demo::job_as_found();
    j.planned = plan_as_found(j);
    j.planned->wire =
        fret_wire{.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.55 * mm};
    j.planned->pieces = wire_cut();
    return j;
}

} // namespace

TEST_SUITE("bench layout") {
    TEST_CASE("nothing is asked for, nothing is laid out") {
        const auto l = laid_out(demo::job_as_found());
        CHECK(l.empty());
        CHECK(sentences_of(l, measures::metric).empty());
    }
    TEST_CASE("the centre line goes on to bridge, strings, tailpiece and end pin") {
        bench_job j = job_with_edges();
        j.centre->end_pin = 800 * mm;
        const auto s = setups_of(j);
        const auto l = layout_of(j, s);
        for (const carried_place& at : l.centre) {
            CAPTURE(at.what);
            length<> beside{};
            if (at.what.find("over the saddle") != std::string::npos) {
                beside = at.what.find("(G2)") != std::string::npos ? s.found.strings.front().y_at_saddle
                                                                   : s.found.strings.back().y_at_saddle;
            }
            if (at.what.find("(G2)") != std::string::npos && at.what.find("tailpiece") != std::string::npos) {
                beside = s.found.string_ends.front().y;
            }
            if (at.what.find("(E4)") != std::string::npos && at.what.find("tailpiece") != std::string::npos) {
                beside = s.found.string_ends.back().y;
            }
            CHECK(near::within(at.y, 38 * mm + 0.004 * at.x + beside, 1e-9 * mm));
            CHECK(near::within(*at.give_or_take, 0 * mm, 1e-9 * mm)); // readings without scatter
            CHECK_FALSE(at.off);
        }
        CHECK(place(l, "middle of the bridge").x ==
              (s.found.strings.front().line.saddle_x + s.found.strings.back().line.saddle_x) / 2);
        CHECK(place(l, "hanger").x > place(l, "where strings leave").x);
        CHECK(place(l, "end pin").x == 800 * mm);
        CHECK(s.found.string_ends.front().y < 0 * mm);
        CHECK(l.centre.size() == 8);
        CHECK(sentences_of(l, measures::metric).size() == 8);
    }
    TEST_CASE("its doubt grows with the way to the tail as a straight line's does; two places alone say nothing of it") {
        bench_job j = job_with_edges();
        j.centre->give_or_take = 0.4 * mm;
        const auto l = laid_out(j);
        for (const carried_place& at : l.centre) {
            // 95 % of the middle of two edges of 0.4 mm each, spread over three places: the textbook's line.
            const double mean = (0 + 200 + 390) / 3.0, x = at.x / mm - mean;
            const double spread = mean * mean + (200 - mean) * (200 - mean) + (390 - mean) * (390 - mean);
            CHECK(near::within(*at.give_or_take, 0.4 / std::sqrt(2) * std::sqrt(1 / 3.0 + x * x / spread) * mm, 1e-9 * mm));
        }
        j.centre = straight({0, 390});
        const auto two = laid_out(j);
        CHECK_FALSE(two.centre.front().give_or_take);
        CHECK(sentences_of(two, measures::metric).back().find("measure the edges at a third place") != std::string::npos);
    }
    TEST_CASE("what was found off the line is told toward its side, and whether reading explains it") {
        bench_job j = job_with_edges();
        j.centre->give_or_take = 0.4 * mm;
        const double on_line = place(laid_out(j), "middle of the bridge").y / mm;
        j.centre->bridge_at = (on_line + 3) * mm;
        j.centre->tail_at = (place(laid_out(j), "where strings leave").y / mm - 0.2) * mm;
        const auto l = laid_out(j);
        CHECK(near::within(*place(l, "middle of the bridge").off, 3 * mm, 1e-9 * mm));
        CHECK(near::within(*place(l, "where strings leave").off, -0.2 * mm, 1e-9 * mm));
        const auto told = sentences_of(l, measures::metric);
        CHECK(told[0].find("found 3.00 mm toward the treble, more than reading explains") != std::string::npos);
        CHECK(std::any_of(told.begin(), told.end(), [](const std::string& t) {
            return t.find("found 0.20 mm toward the bass, which reading may explain") != std::string::npos;
        }));
    }
    TEST_CASE("wire is cut along the board's arc and bent to touch with its ends first") {
        bench_job j = fretted_job();
        j.planned->pieces->rule.overhang = 2 * mm;
        j.planned->pieces->lead = 0.4 * mm;
        const auto s = setups_of(j);
        const auto wire = *layout_of(j, s).wire;
        const auto& board = s.plan.adjusted.instrument.board;
        REQUIRE(wire.pieces.size() == static_cast<std::size_t>(board.scale.frets));
        REQUIRE(board.surface.radius);
        REQUIRE_FALSE(board.surface.radius_at_end);
        const double r = length<>(*board.surface.radius) / mm;
        length<> sum{};
        for (std::size_t n = 1; n <= wire.pieces.size(); ++n) {
            const cut_piece& p = wire.pieces[n - 1];
            const double w = 2 * (kernel::half_width_at(board, s.plan.solved.fret_x[n - 1]) / mm);
            CHECK(p.fret == static_cast<int>(n));
            CHECK(near::within(p.crown, (2 * r * std::asin(w / (2 * r)) + 4) * mm, 1e-6 * mm));
            CHECK(near::within(p.tang, 2 * r * std::asin(w / (2 * r)) * mm, 1e-6 * mm));
            const double rise = r - std::sqrt(r * r - w * w / 4) + 0.4;
            CHECK(near::relative(p.bend_radius, (rise * rise + w * w / 4) / (2 * rise) * mm, 1e-9));
            CHECK(p.bend_radius < r * mm);
            sum += p.crown;
        }
        CHECK(near::relative(wire.all, sum * 1.1, 1e-12));
    }
    TEST_CASE("dots are those of the board; on fanned frets they are refused with a sentence") {
        bench_job j = demo::job_as_found();
        j.planned = plan_as_found(j);
        j.planned->dots = marker_layout{.singles = {5, 7}};
        const auto l = laid_out(j);
        REQUIRE(l.dots.size() >= 3);
        CHECK(l.dots[0].fret == 5);
        CHECK(l.dots[1].fret == 7);
        CHECK(l.dots[2].fret == 12);
        CHECK(l.dots[2].dots == 2);
        const auto bass = ready_made::fanned_bass();
        bench_job fanned;
        fanned.instrument = bass.instrument;
        fanned.strings = bass.strings;
        fanned.planned = plan_as_found(fanned);
        CHECK(is_valid(fanned));
        fanned.planned->dots = marker_layout();
        const auto problems = validate(fanned);
        CHECK(std::any_of(problems.begin(), problems.end(), [](const problem& p) {
            return p.field == "planned.dots" && p.allowed.find("left out on fanned frets") != std::string::npos;
        }));
    }
    TEST_CASE("on fanned frets each piece is as long as its slanted line across the arc") {
        const auto bass = ready_made::fanned_bass();
        bench_job fanned;
        fanned.instrument = bass.instrument;
        fanned.strings = bass.strings;
        fanned.planned = plan_as_found(fanned);
        fanned.planned->pieces = wire_cut{.rule = {.overhang = 0 * mm}};
        const auto lines = lines_on_board(fanned.instrument);
        const auto wire = kernel::wire_for(*fanned.planned->pieces, fanned.instrument);
        REQUIRE(wire.pieces.size() + 1 == lines.size());
        for (const cut_piece& p : wire.pieces) {
            const auto& ends = lines[static_cast<std::size_t>(p.fret)];
            const double along = (ends.treble.x - ends.bass.x) / mm, across = (ends.treble.y - ends.bass.y) / mm;
            // Longer than the straight chord, by less than the arc of a cylinder that tight adds.
            CHECK(p.crown > std::hypot(along, across) * mm);
            CHECK(p.crown < std::hypot(along, across) * 1.03 * mm);
            CHECK(p.bend_radius > across / 2 * mm);
            // The wire rises over its ends by its lead more than the board does along the slanted line, told point by
            // point.
            const auto over_board = [&](const length<>& x, const length<>& y) {
                return surface_height(fanned.instrument.board.surface, x, y) / mm;
            };
            const length<> x = (ends.bass.x + ends.treble.x) / 2, y = (ends.bass.y + ends.treble.y) / 2;
            const double rise = over_board(x, y) + fanned.planned->pieces->lead / mm -
                                (over_board(ends.bass.x, ends.bass.y) + over_board(ends.treble.x, ends.treble.y)) / 2;
            const double w = std::hypot(along, across);
            CHECK(near::relative(p.bend_radius, (rise * rise + w * w / 4) / (2 * rise) * mm, 2e-3));
        }
    }
    TEST_CASE("wire is cut only where there is new wire") {
        bench_job j = fretted_job();
        CHECK(is_valid(j));
        j.planned->wire.reset();
        CHECK_FALSE(is_valid(j));
    }
    TEST_CASE("an object raised as told clears the strings by the wished gap, as it lies and tilted") {
        bench_job j = demo::job_as_found();
        j.objects.push_back({.name = "guard", .shape = {.x = 430 * mm, .z = -4 * mm, .extent = 30 * mm}, .gap = 1.5 * mm});
        j.objects.push_back(
            {.name = "pickup",
             .shape = {.x = 480 * mm, .z = -2 * mm, .extent = 15 * mm, .along = 1 * deg, .across = -0.5 * deg},
             .gap = 3 * mm});
        j.objects.push_back({.name = "no wish", .shape = {.x = 450 * mm, .z = -4 * mm, .extent = 30 * mm}});
        const auto s = setups_of(j);
        const auto l = layout_of(j, s);
        REQUIRE(l.objects.size() == 2);
        for (std::size_t i = 0; i < 2; ++i) {
            const brought_to_gap& o = l.objects[i];
            named_object moved = j.objects[i];
            CHECK(near::within(o.is, *under_strings(s.found, moved).pressed, 1e-12 * mm));
            moved.shape.z = moved.shape.z + o.raise;
            CHECK(near::within(*under_strings(s.found, moved).pressed, o.wished, 1e-9 * mm));
            moved.shape.along = moved.shape.along + o.along_change;
            moved.shape.across = moved.shape.across + o.across_change;
            moved.shape.z = j.objects[i].shape.z + o.raise_when_tilted;
            CHECK(near::within(*under_strings(s.found, moved).pressed, o.wished, 1e-9 * mm));
            // Parallel to the strings it can stand higher at the same least gap, or as high.
            CHECK(o.raise_when_tilted >= o.raise - 0.3 * mm);
        }
        CHECK(sentences_of(l, measures::metric)[0].find(
                  "guard, to clear the strings by 1.50 mm pressed at the last fret: ") == 0);
        CHECK_THROWS_AS((void)bring_to_gap(s.found, j.objects[2], -1 * mm), invalid_input);
    }
}
