// What do the strings do to the ends? Two invented instruments: an octave mandolin with a floating bridge and a hinged
// tailpiece, and a baritone flat-top with a pinned bridge.
//
//   bridge_forces

#include <cstdio>
#include <exception>
#include <vector>

#include <tautline/core/quantity_text.hpp>
#include <tautline/strings/string_names.hpp>
#include <tautline/strings/tuning.hpp>
#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/floating_bridge.hpp>
#include <tautline/supports/nut.hpp>
#include <tautline/supports/pinned_bridge.hpp>
#include <tautline/supports/tailpiece_plan.hpp>
#include <tautline/supports/top.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

void string_head() {
    std::printf("           tension  at the nut:            in tune    at the saddle:\n");
    std::printf("string        N     break  side   down-N   within c   break   down-N\n");
}
void string_row(const std::string& name, force<double> pull, const basic_support_load<double>& nut,
                const basic_support_load<double>& saddle, const friction& slot_friction) {
    std::printf("%-10s %6.1f  %6.1f %6.1f %7.1f %9.0f   %6.1f  %7.1f%s\n", name.c_str(), pull / N, nut.break_angle / deg,
                nut.side_angle / deg, nut.down() / N, tuning_dead_band(slot_friction, nut.break_angle).most / cents,
                saddle.break_angle / deg, saddle.down() / N, saddle.seated() && nut.seated() ? "" : "  lifts off");
}
void stand_row(const char* name, const basic_bridge_stand<double>& s) {
    std::printf("%-36s %7.1f %7.1f  %6.1f %6.1f     %5.2f   %7.1f %7.1f\n", name, s.down / N, s.push / N,
                s.front_margin / mm, s.back_margin / mm, s.friction_needed, s.bass_load / N, s.treble_load / N);
}

void octave_mandolin() {
    const string_names names{.courses = {2, 2, 2, 2}, .notes = parse_tuning("G2 G2 D3 D3 A3 A3 E4 E4").notes};
    const double pulls[] = {86, 86, 92, 92, 78, 78, 83, 83}; // N, invented set
    const headstock head{.pitch = 13 * deg, .face_start = 5 * mm, .face_drop = 3.5 * mm};
    hinged_tailpiece tail{.hinge_x = 738 * mm, .hinge_z = -26 * mm, .reach = 92 * mm};
    const friction slot_friction{0.1, 0.25};

    std::vector<point> slots;
    std::vector<tail_string> strings;
    std::vector<basic_support_load<double>> at_nut, at_saddle(8);
    for (int i = 0; i < 8; ++i) {
        const double across = -24 + 16.0 * (i / 2) + (i % 2 == 0 ? -1.5 : 1.5); // four courses of two
        slots.push_back({.x = 0 * mm, .y = 0.52 * across * mm, .z = 1.9 * mm});
        strings.push_back({.saddle = {.x = 562 * mm, .y = across * mm, .z = (5.5 - across * across / 400) * mm},
                           .across = 0.9 * across * mm,
                           .tension = pulls[i] * N});
        const int row = i < 4 ? i : 7 - i;
        const tuner_post post{
            .along = (50 + 25 * row) * mm, .across = (i < 4 ? -1 : 1) * (15 + row) * mm, .height = 7 * mm};
        at_nut.push_back(nut_load(slots.back(), strings.back().saddle, head, post, strings.back().tension));
    }
    const auto rise = saddle_loads(tail, slots, strings, at_saddle);

    std::printf("Octave mandolin: floating bridge, hinged tailpiece\n\n");
    string_head();
    for (std::size_t i = 0; i < 8; ++i) {
        string_row(names.label(i), strings[i].tension, at_nut[i], at_saddle[i], slot_friction);
    }
    const auto pull = total_anchor_pull<double>(at_saddle);
    std::printf(
        "\nDown-force %.0f N (%.1f lbf). The tailpiece stands %.1f deg up from the end block and pulls it with %.0f N "
        "(%.0f lbf).\n\n",
        total_force<double>(at_saddle).down() / N, total_force<double>(at_saddle).down() / lbf, rise / deg, pull.size() / N,
        pull.size() / lbf);

    const floating_bridge bridge{.front_edge = {.x = 556 * mm, .z = -13.0 * mm},
                                 .back_edge = {.x = 569 * mm, .z = -13.6 * mm},
                                 .bass_foot = -34 * mm,
                                 .treble_foot = 34 * mm,
                                 .saddle = {0.05, 0.15},
                                 .foot = published_friction::wood_on_wood};
    std::vector<bridge_string> over_bridge;
    for (std::size_t i = 0; i < 8; ++i) {
        over_bridge.push_back(
            {slots[i], strings[i].saddle, tailpiece_point(tail, rise, strings[i].across), strings[i].tension});
    }
    const auto stand = bridge_summary(bridge, over_bridge);
    std::printf("%-36s %7s %7s  %13s  %9s  %15s\n", "How the bridge stands", "down", "push", "to the edges", "friction",
                "on the feet");
    std::printf("%-36s %7s %7s  %6s %6s  %9s  %7s %7s\n", "", "N", "N", "front", "back", "needed", "bass", "treble");
    stand_row("nothing rubs at the saddle", stand.even);
    stand_row("just tuned up: slack behind", stand.tail_slack);
    stand_row("just let down: tight behind", stand.tail_tight);
    std::printf(
        "\nIts feet %s with friction %.1f or more on the top; it tips %s. Best lean %.1f deg back from square to the "
        "top.\n",
        feet_hold(bridge, stand) ? "hold" : "may slide", bridge.foot.least,
        stand.tip_margin() > 0 * mm ? "in no case" : "in the worst case", stand.even.best_lean / deg);

    const auto moves = adjuster_moves<double>({.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.7 * mm}, -25.5 * mm,
                                              -0.6 * mm, 25.5 * mm, -0.3 * mm);
    std::printf(
        "To lower the saddle 0.6 mm under the bass strings and 0.3 mm under the treble: %.2f turns bass, %.2f turns "
        "treble.\n",
        moves.bass_turns, moves.treble_turns);

    for (const auto& wanted : {135 * N, 400 * N}) {
        const auto plan = anchor_for_down_force(tail, slots, strings, wanted, -34 * mm, -8 * mm);
        std::printf("For a down-force of %.0f N the hinge goes to %.1f mm%s.\n", wanted / N, plan.height / mm,
                    plan.reachable ? ""
                                   : (", which gives only " + fixed_text(plan.down, N, 0) + " N: out of reach").c_str());
    }
}

void baritone() {
    const string_names names{.courses = {1, 1, 1, 1, 1, 1}, .notes = parse_tuning("B1 E2 A2 D3 F#3 B3").notes};
    const double pulls[] = {112, 118, 122, 118, 96, 92}; // N, invented set
    const headstock head{.pitch = 15 * deg, .face_start = 6 * mm, .face_drop = 4 * mm};
    const friction slot_friction{0.1, 0.25};

    std::printf("\n\nBaritone flat-top: pinned bridge\n\n");
    string_head();
    std::vector<bridge_string> strings;
    for (int i = 0; i < 6; ++i) {
        const double across = -27.5 + 11 * i;
        strings.push_back({.slot = {.x = 0 * mm, .y = 0.66 * across * mm, .z = 2 * mm},
                           .saddle = {.x = 692 * mm, .y = across * mm, .z = (7.2 - across * across / 800) * mm},
                           .anchor = {.x = 710 * mm, .y = across * mm, .z = 1.2 * mm},
                           .tension = pulls[i] * N});
        const int row = i < 3 ? i : 5 - i;
        const tuner_post post{
            .along = (52 + 38 * row) * mm, .across = (i < 3 ? -1 : 1) * (13 + 2 * row) * mm, .height = 8 * mm};
        const auto& s = strings.back();
        string_row(names.label(static_cast<std::size_t>(i)), s.tension, nut_load(s.slot, s.saddle, head, post, s.tension),
                   saddle_load(s.slot, s.saddle, s.anchor, s.tension), slot_friction);
    }
    const pinned_bridge bridge{.top_middle = -7 * mm, .saddle_exposed = 4 * mm};
    const auto load = pinned_load(bridge, strings);
    std::printf("\nThe strings turn the bridge with %.2f N m (%.0f lbf in) and shear it with %.0f N (%.0f lbf).\n",
                load.turning / N_m, load.turning / lbf_in, load.shear / N, load.shear / lbf);
    std::printf(
        "The saddle bears %.0f N down and %.0f N toward the nut, %.2f N m at the edge of its slot; leaning back %.0f deg "
        "it would feel no push.\n",
        load.saddle_down / N, load.saddle_push / N, load.saddle_tipping / N_m, load.saddle_lean / deg);
    const soundboard top{.sink_stiffness = 240 * N_per_mm,
                         .turn_stiffness = 460 * N_m_per_rad,
                         .saddle_ahead = 3 * mm,
                         .saddle_height = 12 * mm};
    const auto rest = settle_on_top(top, [&](const basic_top_give<double>& give) {
        auto sunk = strings;
        for (auto& s : sunk) {
            s.saddle.x = s.saddle.x - give.forward;
            s.saddle.z = s.saddle.z - give.drop;
        }
        const auto now = pinned_load(bridge, sunk);
        return basic_top_load<double>{now.down, now.turning};
    });
    if (rest) {
        std::printf("On this top the bridge turns %.2f deg; the saddle drops %.2f mm and comes forward %.2f mm.\n",
                    rest->turn / deg, rest->drop / mm, rest->forward / mm);
    }
    const auto pins = pin_distance(6 * mm, 0.4 * deg, 30 * deg);
    if (pins) { std::printf("For a break of 30 deg over the saddle the strings go in %.1f mm behind it.\n", *pins / mm); }
}

} // namespace

int main() try {
    octave_mandolin();
    baritone();
    std::printf(
        "\nForces are estimates from the measurements given. Old tops, blocks and joints can fail under loads they once "
        "bore: where\nthat would hurt someone or spoil an instrument of value, a qualified repairer decides. Slacken the "
        "strings before working.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
