// What is in a neck as an instrument has it: bars and channels, slots, a traced back; by hand, and against what they must
// leave alone.

#include <tautline/instrument/neck_slots.hpp>
#include <tautline/instrument/traced_back.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/work/after_work.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The demo with a flat board of one width and a square back: 36 by 5.5 mm of 15 GPa on 15 mm of 10 GPa.
instrument square_neck() {
    auto i = demo::four_course();
    i.board.width_at_nut = i.board.width_at_end = 36 * mm;
    i.board.surface = flat_surface();
    i.neck.depth_at_nut = i.neck.depth_at_joint = 20.5 * mm;
    for (const double x : {0.0, 280.0}) {
        i.neck.traced.push_back({.x = x * mm,
                                 .profile = {{.y = -18 * mm, .depth = 15 * mm},
                                             {.y = 0 * mm, .depth = 15 * mm},
                                             {.y = 18 * mm, .depth = 15 * mm}}});
    }
    i.neck.pure_bending_factor = 1;
    return i;
}
beam_point section_of(const instrument& i, double x) {
    neck n;
    neck_of(i, n);
    return section_at(n, x * mm);
}
double rise(const instrument& i) { return solve(strung_instrument{i, demo::unison_pairs()}).nut_rise / mm; }
/// Strips by hand: modulus times width in N/mm, top and bottom in mm.
struct strip {
    double ew, top, bottom;
};
std::pair<double, double> axis_and_rigidity(const std::vector<strip>& strips) {
    double ea = 0, es = 0, ej = 0;
    for (const strip& s : strips) {
        const double h = s.top - s.bottom, z = (s.top + s.bottom) / 2;
        ea += s.ew * h;
        es += s.ew * h * z;
        ej += s.ew * h * (h * h / 12 + z * z);
    }
    return {es / ea, ej - es * es / ea};
}
insert channel() {
    return {.x_from = 20 * mm, .x_to = 260 * mm, .top = -5.5 * mm, .width = 6 * mm, .height = 9 * mm, .modulus = 0 * GPa};
}
insert carbon(double y) {
    return {.x_from = 10 * mm,
            .x_to = 280 * mm,
            .y = y * mm,
            .top = -7.5 * mm,
            .width = 4 * mm,
            .height = 8 * mm,
            .modulus = 120 * GPa};
}
std::string told(const instrument& i) {
    try {
        (void)rise(i);
    } catch (const invalid_input& e) { return e.what(); }
    return "";
}

} // namespace

TEST_SUITE("what is in a neck") {
    TEST_CASE("a channel and carbon bars: axis and rigidity by hand") {
        auto i = square_neck();
        const strip board{36 * 15000.0, 0, -5.5}, back{36 * 10000.0, -5.5, -20.5};
        const strip taken{-6 * 10000.0, -5.5, -14.5}, bar{4 * (120000.0 - 10000.0), -7.5, -15.5};
        const auto check = [&](double x, const std::vector<strip>& strips) {
            const auto [axis, rigidity] = axis_and_rigidity(strips);
            const auto p = section_of(i, x);
            CHECK(near::within(p.neutral_axis, axis * mm, 1e-9 * mm));
            CHECK(near::relative(p.bending_rigidity, rigidity * N_mm2, 1e-9));
        };
        check(150, {board, back});
        i.neck.inserts = {channel()};
        check(150, {board, back, taken});
        i.neck.inserts = {channel(), carbon(-9), carbon(9)};
        check(150, {board, back, taken, bar, bar});
        check(15, {board, back, bar, bar}); // before the channel
        check(5, {board, back});
        // All of it reaches the answers: bars stiffen, a channel weakens.
        const double with_both = rise(i);
        i.neck.inserts = {channel()};
        const double with_channel = rise(i);
        i.neck.inserts.clear();
        const double bare = rise(i);
        CHECK(with_channel > bare);
        CHECK(with_both < 0.95 * bare);
    }
    TEST_CASE("an insert of next to no size, or of the wood it replaces, is not there") {
        auto i = square_neck();
        const double bare = rise(i);
        auto thread = channel();
        thread.width = thread.height = 0.01 * mm;
        i.neck.inserts = {thread};
        CHECK(near::relative(rise(i), bare, 1e-6));
        auto plug = channel();
        plug.modulus = 10 * GPa;
        i.neck.inserts = {plug};
        CHECK(near::relative(rise(i), bare, 1e-9));
        i.neck.pure_bending_factor = 1.10; // an insert's modulus is the true one, which wood's is not yet
        plug.modulus = 11 * GPa;
        const double raised = [&] {
            auto without = i;
            without.neck.inserts.clear();
            return rise(without);
        }();
        i.neck.inserts = {plug};
        CHECK(near::relative(rise(i), raised, 1e-9));
    }
    TEST_CASE("what does not fit is told by the job's own keys") {
        auto i = square_neck();
        i.neck.inserts = {channel(), carbon(4)};
        CHECK(told(i) == "neck.inserts[1] must not overlap inserts[0].");
        i.neck.inserts = {channel()};
        i.neck.inserts[0].height = 16 * mm;
        CHECK(told(i) == "neck.inserts[0] must not come out of the neck's back.");
        i = square_neck();
        i.neck.slots = neck_slots{.depth = 5.6 * mm};
        CHECK(told(i) == "neck.slots.depth must be less than the thickness of the board.");
        // Thin between nut and end, where a mark says so.
        i.neck.slots->depth = 3 * mm;
        i.board.thickness_off_line = {
            {.x = 0 * mm, .z = 0 * mm}, {.x = 100 * mm, .z = -3 * mm}, {.x = 200 * mm, .z = 0 * mm}};
        CHECK(told(i) == "neck.slots.depth must be less than the board's thickness.");
        i = square_neck();
        i.neck.traced[1].x = 0 * mm;
        CHECK(told(i) == "neck.traced[1].x must be further from the nut than the place before it.");
        i.neck.traced[1].x = 281 * mm;
        CHECK(told(i) == "neck.traced[1].x must lie between the nut and the joint.");
        i.neck.traced[1].x = 200 * mm;
        i.neck.traced[1].profile[2].y = 19.1 * mm;
        CHECK(told(i) == "neck.traced[1].profile must not be wider than the board there.");
        i.neck.traced[1].profile[2].y = -0.1 * mm;
        CHECK(told(i) == "neck.traced[1].profile[2].y must not lie on the bass side of the point before it.");
        i.neck.traced[1].profile.pop_back();
        CHECK(told(i) == "neck.traced[1].profile must have at least three points.");
        i = square_neck();
        for (auto& p : i.neck.traced[0].profile) { p.depth = 0 * mm; }
        CHECK(told(i) == "neck.traced[0].profile must be at least 0.1 mm deep somewhere.");
        for (auto& p : i.neck.traced[0].profile) { p.depth = 13 * mm; }
        CHECK(told(i) ==
              "neck.depth_at_nut must be otherwise: at the nut the back's depth under the board must be the depth "
              "of the profile's deepest point, within 5 %.");
        for (auto& p : i.neck.traced[0].profile) { p = {.y = 3 * mm, .depth = 15 * mm}; }
        CHECK(told(i) == "neck.traced[0].profile must have a width.");
    }
    TEST_CASE("a back traced along a half ellipse is the ellipse, at any number of places") {
        auto i = demo::four_course();
        i.neck.depth_at_joint = i.neck.depth_at_nut + 4 * mm;
        i.neck.back_exponent = 2;
        const double ellipse = rise(i);
        for (const int places : {1, 2, 5}) {
            auto traced = i;
            traced.neck.back_exponent = 1.2; // what is traced everywhere overrules it
            traced.neck.traced.clear();
            for (int k = 0; k < places; ++k) {
                const double share = places == 1 ? 0.5 : k / (places - 1.0);
                traced_back t{.x = 280 * share * mm, .profile = {}};
                const double half = kernel::half_width_at<double>(i.board, t.x) / mm;
                const double deep =
                    (i.neck.depth_at_nut / mm + 4 * share) - kernel::thickness_at<double>(i.board, t.x) / mm;
                for (int a = 0; a <= 200; ++a) {
                    const double c = -std::cos(3.14159265358979 * a / 200);
                    t.profile.push_back({.y = half * c * mm, .depth = deep * std::sqrt(std::max(0.0, 1 - c * c)) * mm});
                }
                traced.neck.traced.push_back(t);
            }
            if (places == 1) { traced.neck.back_exponent = 2; }
            CHECK(near::relative(rise(traced), ellipse, 3e-4));
        }
    }
    TEST_CASE("between traced places the back goes straight, marks of the board's thickness or not") {
        auto i = square_neck();
        i.neck.traced[1].x = 140 * mm;
        for (auto& p : i.neck.traced[1].profile) { p.depth = 17 * mm; }
        i.neck.traced.push_back(i.neck.traced[0]);
        i.neck.traced[2].x = 280 * mm;
        const auto by_hand = [](double deep) {
            return axis_and_rigidity({{36 * 15000.0, 0, -5.5}, {36 * 10000.0, -5.5, -5.5 - deep}}).second * N_mm2;
        };
        CHECK(near::relative(section_of(i, 0).bending_rigidity, by_hand(15), 1e-9));
        CHECK(near::relative(section_of(i, 140).bending_rigidity, by_hand(17), 1e-9));
        CHECK(near::relative(section_of(i, 280).bending_rigidity, by_hand(15), 1e-9));
        const double smooth = rise(i);
        CHECK(smooth < rise(square_neck()));
        // Marks that lie on the line change nothing, wherever they stand among the traced places.
        i.board.thickness_off_line = {{.x = 30 * mm, .z = 0 * mm},
                                      {.x = 70 * mm, .z = 0 * mm},
                                      {.x = 140 * mm, .z = 0 * mm},
                                      {.x = 200 * mm, .z = 0 * mm}};
        neck n;
        neck_of(i, n);
        REQUIRE(n.stations.size() == 6);
        CHECK(near::relative(n.stations[2].back_depth, 16 * mm, 1e-9));
        CHECK(near::relative(section_of(i, 70).bending_rigidity, by_hand(16), 1e-9));
        CHECK(near::relative(rise(i), smooth, 1e-4));
        // The next instrument solved in the same place has no back of this one.
        neck_of(demo::four_course(), n);
        for (const auto& s : n.stations) { CHECK(s.profile.empty()); }
        CHECK(n.inserts.empty());
        CHECK_FALSE(n.slots.has_value());
    }
    TEST_CASE("slots: tight ones are today's neck, empty ones limper by what their layer loses; tangs bend back") {
        auto i = demo::four_course();
        const double today = rise(i);
        i.neck.slots = neck_slots{.depth = 2 * mm};
        CHECK(rise(i) == today);
        neck n;
        neck_of(i, n);
        REQUIRE(n.slots.has_value());
        REQUIRE(n.slots->places.size() == static_cast<std::size_t>(i.board.scale.frets));
        CHECK(near::within(n.slots->places[11], 280 * mm, 1e-9 * mm));
        i.neck.slots->bearing = 0;
        const double empty = rise(i);
        CHECK(empty > 1.10 * today);
        CHECK(empty < 1.30 * today);
        i.neck.slots->bearing = 0.5;
        CHECK(rise(i) > today);
        CHECK(rise(i) < empty);
        i.neck.slots->bearing = 0;
        i.neck.slots->depth = 3 * mm;
        CHECK(rise(i) > empty);
        // Softer in shear, the layer gets less from below.
        i.neck.slots->shear_ratio = 25;
        const double softer = rise(i);
        i.neck.slots->shear_ratio = 16;
        CHECK(softer > rise(i));
        i.neck.slots = neck_slots{.depth = 2 * mm, .interference = 0.05 * mm, .wedging = 0.2};
        CHECK(rise(i) < today);
        i.neck.slots->wedging = 0;
        CHECK(rise(i) == today);
    }
    TEST_CASE("sanding brings inserts nearer the top and leaves slots less deep; new tangs deepen them again") {
        auto on = demo::strung();
        on.instrument.neck.inserts = {channel()};
        on.instrument.neck.slots = neck_slots{.depth = 2 * mm};
        const auto removal = least_removal(on.instrument.board, on.instrument.board.surface, 0.4 * mm);
        const auto sanded = after_sanding(on, removal).instrument;
        CHECK(near::within(sanded.neck.inserts[0].top, -5.1 * mm, 1e-9 * mm));
        CHECK(near::within(sanded.neck.slots->depth, 1.6 * mm, 1e-9 * mm));
        const fret_wire low{
            .crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.2 * mm, .tang_thickness = 0.5 * mm};
        auto deep = low;
        deep.tang_depth = 1.9 * mm;
        CHECK(after_refret(strung_instrument{sanded, on.stringing}, low).instrument.neck.slots->depth ==
              sanded.neck.slots->depth);
        CHECK(after_refret(strung_instrument{sanded, on.stringing}, deep).instrument.neck.slots->depth == 1.9 * mm);
        // The wood around an insert is where it was: from the back's side it lies as deep as before.
        const auto from_back = [](const instrument& i) { return i.neck.depth_at_nut + i.neck.inserts[0].top; };
        CHECK(near::within(from_back(sanded), from_back(on.instrument), 1e-9 * mm));
        // Slots that are sanded away are gone but for a hair.
        on.instrument.neck.slots->depth = 0.3 * mm;
        CHECK(near::within(after_sanding(on, removal).instrument.neck.slots->depth, 0.01 * mm, 1e-9 * mm));
    }
    TEST_CASE("derivatives of what is in a neck against differences") {
        using D = dual<double, 1>;
        auto i = demo::four_course();
        i.neck.inserts = {channel(), carbon(-9), carbon(9)};
        i.neck.inserts[0].top = -6 * mm; // at the glue line the slope leaps
        i.neck.slots = neck_slots{.depth = 2 * mm, .bearing = 0.4, .interference = 0.04 * mm, .wedging = 0.1};
        traced_back t{.x = 120 * mm, .profile = {}};
        for (const double y : {-17.0, -10.0, 0.0, 10.0, 17.0}) {
            t.profile.push_back({.y = y * mm, .depth = 15.5 * std::sqrt(1 - y * y / 290) * mm});
        }
        i.neck.traced = {t};
        for (const std::string path :
             {"neck.inserts[1].modulus", "neck.inserts[0].top", "neck.inserts[0].x_to", "neck.slots.bearing",
              "neck.slots.depth", "neck.slots.wedging", "neck.slots.shear_ratio", "neck.traced[0].profile[1].depth",
              "neck.pure_bending_factor"}) {
            CAPTURE(path);
            auto seeded = over<D>(i);
            double value = 0;
            for_each_leaf(seeded, [&](std::string_view at, auto& x) {
                if (at != path) { return; }
                value = number_of(x).value;
                set_number(x, D::variable(value, 0));
            });
            const double slope =
                solve(basic_strung_instrument<D>{seeded, over<D>(demo::unison_pairs())}).nut_rise.value().partial[0];
            const auto moved = [&](double by) {
                auto there = i;
                for_each_leaf(there, [&](std::string_view at, auto& x) {
                    if (at == path) { set_number(x, value + by); }
                });
                return rise(there) / 1000;
            };
            const double step = 1e-4 * std::abs(value);
            CHECK(slope != 0);
            CHECK(near::relative((moved(step) - moved(-step)) / (2 * step), slope, 1e-4));
        }
    }
}
