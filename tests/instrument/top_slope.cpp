#include <tautline/instrument/top_slope.hpp>

#include <cmath>

#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/work/after_work.hpp>
#include <tautline/work/reset.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A flat-top whose top gives nothing, so that its strings keep their lines.
strung_instrument stiff_flat_top() {
    const auto o = ready_made::flat_top();
    strung_instrument on{o.instrument, string_up(o.strings, o.a4)};
    on.instrument.soundboard.reset();
    on.instrument.board.surface = {.radius = 300 * mm, .radius_at_end = 500 * mm, .cone_length = 480 * mm};
    return on;
}
/// What the speaking sides press square to a top that runs through two points of it.
double pressed(const setup& s, double x1, double z1, double x2, double z2) {
    const double along = std::hypot(x2 - x1, z2 - z1), nx = -(z2 - z1) / along, nz = (x2 - x1) / along;
    double sum = 0;
    for (const auto& b : s.bridge_strings) {
        const double x = (b.slot.x - b.saddle.x) / metre, y = (b.slot.y - b.saddle.y) / metre,
                     z = (b.slot.z - b.saddle.z) / metre;
        sum -= b.tension / N * (x * nx + z * nz) / std::sqrt(x * x + y * y + z * z);
    }
    return sum;
}

} // namespace

TEST_SUITE("top slope") {
    TEST_CASE("strings press a top that stays when the neck is reset square to its own plane") {
        const auto on = stiff_flat_top();
        const double top = -(on.instrument.saddle.board_line / metre);
        const auto found = solve(on);
        CHECK(near::within(*found.top_force / N, pressed(found, 0.5, top, 0.7, top), 1e-9));
        const double joint = joint_place(on.instrument) / metre,
                     edge = kernel::joint_of<double>(on.instrument, length<>(), {}).z / metre;
        for (const double turn : {-0.004, 0.0105}) {
            const auto after = after_reset(on, {.turn = turn * rad});
            const auto s = solve(after);
            // Two points of the top, seen from the neck that has turned about its edge.
            const auto seen_x = [&](double x) {
                return joint + (x - joint) * std::cos(turn) + (top - edge) * std::sin(turn);
            };
            const auto seen_z = [&](double x) {
                return edge - (x - joint) * std::sin(turn) + (top - edge) * std::cos(turn);
            };
            const double square = pressed(s, seen_x(0.5), seen_z(0.5), seen_x(0.7), seen_z(0.7));
            CHECK(near::within(*s.top_force / N, square, 1e-6));
            CHECK(near::within(s.pinned->down / N, square, 1e-6));
            // Square to the board it would be another force, by the sine of the turn of all that they pull.
            CHECK(near::within((*s.top_force / N - pressed(s, 0, 0, 1, 0)) / (s.total_tension / N), std::sin(turn), 1e-3));
        }
    }
    TEST_CASE("the same where the board is sanded to a line that falls otherwise") {
        for (auto on : {stiff_flat_top(), [] {
                            auto o = stiff_flat_top();
                            o.instrument.pins->top_slope = 1 * deg;
                            return o;
                        }()}) {
            const double top = -(on.instrument.saddle.board_line / metre),
                         slope = std::tan(on.instrument.pins->top_slope / rad);
            const auto off = least_removal(on.instrument.board, {.radius = 420 * mm}, 0.05 * mm);
            const double line = kernel::line_place(on.instrument) / metre;
            const auto after = after_sanding(on, off);
            const auto s = solve(after);
            const auto seen = [&](double x) {
                return height_after_sanding<double>(off, x * metre, (top + (x - line) * slope) * metre) / metre;
            };
            CHECK(std::abs(seen(0.7) - seen(0.5) - 0.2 * slope) > 1e-4);
            // The turn of the line shortens nothing here: its square, some millionth, is left out.
            CHECK(near::within(*s.top_force / N, pressed(s, 0.5, seen(0.5), 0.7, seen(0.7)), 2e-3));
        }
    }
    TEST_CASE("a top that gives sinks by what presses it square to its plane") {
        auto on = stiff_flat_top();
        on.instrument.soundboard = soundboard{.sink_stiffness = 250 * N_per_mm,
                                              .turn_stiffness = 1e9 * N_m_per_rad,
                                              .saddle_ahead = 0 * mm,
                                              .saddle_height = 12 * mm};
        const auto level = solve(on);
        on.instrument.pins->top_slope = 0.6 * deg;
        const auto sloping = solve(on);
        CHECK(near::relative(sloping.top->sink.value() * 250e3, *sloping.top_force / N, 1e-6));
        CHECK(near::within((*sloping.top_force - *level.top_force) / N,
                           -std::sin(0.6 * 3.14159265358979 / 180) * (level.total_tension / N), 0.4));
    }
}
