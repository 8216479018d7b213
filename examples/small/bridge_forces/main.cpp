// What do the strings do to the ends? Two ready-made instruments: a ten-string cittern with a floating bridge and a hinged
// tailpiece, and a flat-top with a pinned bridge.
//
//   bridge_forces

#include <cstdio>
#include <exception>
#include <vector>

#include <tautline/core/quantity_text.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/tailpiece_plan.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

void string_table(const strung_instrument& on, const setup& s) {
    std::printf("           tension  at the nut:            in tune    at the saddle:\n");
    std::printf("string        N     break  side   down-N   within c   break   down-N\n");
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        const auto band = tuning_dead_band(on.instrument.nut.friction, one.at_nut.break_angle);
        std::printf("%-10s %6.1f  %6.1f %6.1f %7.1f %9.0f   %6.1f  %7.1f%s\n", s.names.label(i).c_str(), one.tension / N,
                    one.at_nut.break_angle / deg, one.at_nut.side_angle / deg, one.at_nut.down() / N, band.most / cents,
                    one.at_saddle.break_angle / deg, one.at_saddle.down() / N,
                    one.at_saddle.seated() && one.at_nut.seated() ? "" : "  lifts off");
    }
}
void stand_row(const char* name, const basic_bridge_footing<double>& s) {
    std::printf("%-36s %7.1f %7.1f  %6.1f %6.1f     %5.2f   %7.1f %7.1f\n", name, s.down / N, s.push / N,
                s.front_margin / mm, s.back_margin / mm, s.friction_needed, s.bass_load / N, s.treble_load / N);
}

void floating() {
    const strung_instrument on = string_up(ready_made::ten_string_cittern());
    const instrument& built = on.instrument;
    const setup s = solve(on);
    std::printf("Ten-string cittern: floating bridge, hinged tailpiece\n\n");
    string_table(on, s);
    std::printf(
        "\nDown-force %.0f N (%.1f lbf). The tailpiece stands %.1f deg up from the soundboard's plane and is pulled with "
        "%.0f N (%.0f lbf).\n\n",
        s.down_force / N, s.down_force / lbf, *s.tailpiece_rise / deg, s.anchor_pull.size() / N,
        s.anchor_pull.size() / lbf);

    const auto& stand = *s.standing;
    std::printf("%-36s %7s %7s  %13s  %9s  %15s\n", "How the bridge stands", "down", "push", "to the edges", "friction",
                "on the feet");
    std::printf("%-36s %7s %7s  %6s %6s  %9s  %7s %7s\n", "", "N", "N", "front", "back", "needed", "bass", "treble");
    stand_row("nothing rubs at the saddle", stand.even);
    stand_row("just tuned up: slack behind", stand.tail_slack);
    stand_row("just let down: tight behind", stand.tail_tight);
    const double least = built.feet->friction.least;
    std::printf(
        "\nIts feet %s with friction %.1f or more on the top; it tips %s. Best lean %.1f deg back from square to the "
        "top.\n",
        stand.friction_needed() <= least ? "hold" : "may slide", least,
        stand.tip_margin() > 0 * mm ? "in no case" : "in the worst case", stand.even.best_lean / deg);

    const auto moves =
        adjuster_moves<double>({.bass = -32 * mm, .treble = 32 * mm, .thread_pitch = 0.7 * mm},
                               s.strings.front().y_at_saddle, -0.6 * mm, s.strings.back().y_at_saddle, -0.3 * mm);
    std::printf(
        "To lower the saddle 0.6 mm under the bass strings and 0.3 mm under the treble: %.2f turns bass, %.2f turns "
        "treble.\n",
        moves.bass_turns, moves.treble_turns);

    std::vector<point> slots;
    for (const auto& b : s.bridge_strings) { slots.push_back(b.slot); }
    const tailpiece& hung = *built.tailpiece;
    const hinged_tailpiece tail{.hinge_x = built.board.scale.scale_length + hung.hinge_distance,
                                .hinge_z = hung.hinge_height - built.saddle.board_line,
                                .reach = hung.reach};
    const length<> plane = built.saddle.board_line; // of the soundboard, under the board's line
    for (const auto& wanted : {135 * N, 400 * N}) {
        const auto plan = anchor_for_down_force(tail, slots, s.tail_strings, wanted, -30 * mm - plane, 5 * mm - plane);
        std::printf("For a down-force of %.0f N the hinge goes to %.1f mm over the soundboard's plane%s.\n", wanted / N,
                    (plan.height + plane) / mm,
                    plan.reachable ? ""
                                   : (", which gives only " + fixed_text(plan.down, N, 0) + " N: out of reach").c_str());
    }
}

void pinned() {
    strung_instrument on = string_up(ready_made::flat_top());
    on.instrument.soundboard = soundboard{.sink_stiffness = 240 * N_per_mm,
                                          .turn_stiffness = 460 * N_m_per_rad,
                                          .saddle_ahead = 3 * mm,
                                          .saddle_height = 12 * mm};
    const setup s = solve(on);
    std::printf("\n\nFlat-top: pinned bridge\n\n");
    string_table(on, s);
    const auto& load = *s.pinned;
    std::printf("\nThe strings turn the bridge with %.2f N m (%.0f lbf in) and shear it with %.0f N (%.0f lbf).\n",
                load.turning / N_m, load.turning / lbf_in, load.shear / N, load.shear / lbf);
    std::printf(
        "The saddle bears %.0f N down and %.0f N toward the nut, %.2f N m at the edge of its slot; leaning back %.0f deg "
        "it would feel no push.\n",
        load.saddle_down / N, load.saddle_push / N, load.saddle_tipping / N_m, load.saddle_lean / deg);
    std::printf("On a top of %.0f N/mm the bridge turns %.2f deg; the saddle drops %.2f mm and comes forward %.2f mm.\n",
                on.instrument.soundboard->sink_stiffness / N_per_mm, s.top->turn / deg, s.top->drop / mm,
                s.top->forward / mm);
    const auto pins = pin_distance(6 * mm, 0.4 * deg, 30 * deg);
    if (pins) { std::printf("For a break of 30 deg over the saddle the strings go in %.1f mm behind it.\n", *pins / mm); }
}

} // namespace

int main() try {
    floating();
    pinned();
    std::printf(
        "\nForces are estimates from the measurements given. Old tops, blocks and joints can fail under loads they once "
        "bore: where\nthat would hurt someone or spoil an instrument of value, a qualified repairer decides. Slacken the "
        "strings before working.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
