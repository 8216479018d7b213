// How the relief of one neck answers to other strings, to a rod and to the season, on one page.
//
//   neck_relief               the page
//   neck_relief plot.svg      the page, and the same as three small plots
//
// The neck is invented: an old octave mandolin without a rod that has taken a set. It is calibrated on two readings of a
// straightedge, strings slack and at pitch; predictions carry the readings' uncertainty and that of the strings' pull.

#include <array>
#include <cstdio>
#include <fstream>

#include <tautline/board/scale.hpp>
#include <tautline/neck/calibration.hpp>
#include <tautline/neck/moisture.hpp>
#include <tautline/neck/rod_setting.hpp>
#include <tautline/neck/second_order.hpp>
#include <tautline/neck/wanted.hpp>
#include <tautline/neck/wood.hpp>
#include <tautline/strings/tension.hpp>

#include "plot.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr auto scale_length = 22.0625 * inch;
constexpr int joint_fret = 12, middle_fret = 5;

// Read at fret 5 under a straightedge on frets 1 and 12. A feeler gauge's step is the standard uncertainty.
constexpr auto slack_reading = 0.15 * mm, tuned_reading = 0.36 * mm, reading_uncertainty = 0.015 * mm;
// Of a set's pull, reckoned from gauge and pitch, as a share.
constexpr double pull_uncertainty = 0.02;
constexpr climate shop{.temperature = 21 * celsius, .humidity = 45 * percent_rh};

struct string_set {
    const char* name;
    std::array<double, 4> g_per_m; // of each course, bass side first
};
constexpr std::array<string_set, 3> sets{{{"lighter", {5.10, 2.40, 1.12, 0.487}},
                                          {"as strung", {6.05, 2.83, 1.30, 0.556}},
                                          {"heavier", {7.10, 3.30, 1.51, 0.637}}}};
constexpr std::array<double, 4> pitches{98.00, 146.83, 220.00, 329.63}; // G2 D3 A3 E4

/// Two strings to a course.
std::vector<string_pull> strung(const string_set& set) {
    std::vector<string_pull> pulls;
    for (std::size_t i = 0; i < 8; ++i) {
        pulls.push_back({.pull = tension(set.g_per_m[i / 2] * g_per_m, scale_length, pitches[i / 2] * Hz),
                         .z_nut = 1.8 * mm,
                         .z_saddle = 7.5 * mm,
                         .x_saddle = scale_length});
    }
    return pulls;
}

/// The neck as measured; moduli are a first guess. Its set is the parabola through the slack reading.
neck old_neck() {
    neck n;
    n.stations = {{.x = 0 * mm,
                   .half_width = 16 * mm,
                   .board_thickness = 5.2 * mm,
                   .board_arc = 1 / 0.2032 * per_metre,
                   .back_depth = 15.8 * mm,
                   .back_exponent = 1.8},
                  {.x = 281 * mm,
                   .half_width = 19.7 * mm,
                   .board_thickness = 5.2 * mm,
                   .board_arc = 1 / 0.2032 * per_metre,
                   .back_depth = 18.8 * mm,
                   .back_exponent = 1.8}};
    n.board_modulus = 14 * GPa; // ebony: the caller's figure
    n.back_modulus = woods::find_wood("Honduras mahogany")->modulus().value();
    n.joint = equal_step_position(scale_length, joint_fret);
    return n;
}

relief_case straightedge(const string_set& set) {
    relief_case c{.strings = strung(set), .last = joint_fret - 1};
    for (int f = 1; f <= joint_fret; ++f) {
        c.crests.push_back({.x = equal_step_position(scale_length, f), .z = 0.7 * mm});
    }
    return c;
}

/// A set that reads `reading` at the middle fret.
template <class R>
std::vector<basic_permanent_bow_mark<R>> set_of(const tautline::length<R>& reading) {
    const double from = equal_step_position(scale_length, 1) / mm, to = equal_step_position(scale_length, joint_fret) / mm;
    const auto shape = [&](double x) { return (x - from) * (x - to); };
    const double middle = shape(equal_step_position(scale_length, middle_fret) / mm);
    std::vector<basic_permanent_bow_mark<R>> marks;
    for (int f = 0; f <= joint_fret; ++f) {
        const auto x = equal_step_position(scale_length, f);
        marks.push_back({.x = over<R>(x), .z = -reading * R(shape(x / mm) / middle)});
    }
    return marks;
}

/// Calibrated on the readings, over any number: duals carry what the readings do to every prediction.
template <class R>
basic_calibration<R> calibrated(const tautline::length<R>& slack, const tautline::length<R>& tuned) {
    auto n = over<R>(old_neck());
    n.set = set_of<R>(slack);
    return calibrate_moduli<R>(n, over<R>(straightedge(sets[1])), tuned - slack, over<R>(reading_uncertainty));
}

struct prediction {
    double relief, expanded; // mm, k = 2
};
/// Relief under another set, with what the two readings and the set's pull leave uncertain.
prediction predicted(const string_set& set) {
    using D = dual<double, 3>;
    const auto slack = tautline::length<D>::from_value(D::variable(slack_reading / metre, 0));
    const auto tuned = tautline::length<D>::from_value(D::variable(tuned_reading / metre, 1));
    const D pull = D::variable(1, 2);
    const auto found = calibrated<D>(slack, tuned);
    auto c = over<D>(straightedge(set));
    for (auto& s : c.strings) { s.pull = s.pull * pull; }
    const D relief = relief_under(make_beam(found.neck), c).gap.value();
    const double u = std::hypot(relief.partial[0] * (reading_uncertainty / metre),
                                relief.partial[1] * (reading_uncertainty / metre), relief.partial[2] * pull_uncertainty);
    return {1000 * relief.value, 2 * 1000 * u};
}

void string_sets(neck_relief::plot& plot) {
    std::puts("\nString sets (k = 2)\n  set          pull of all   relief");
    neck_relief::panel panel{.title = "string set", .x_axis = "pull of all strings, bars k = 2"};
    for (const auto& set : sets) {
        const auto p = predicted(set);
        force<double> all{};
        for (const auto& one : strung(set)) { all += one.pull; }
        const double pull = all / N;
        std::printf("  %-10s   %5.0f N       %.2f +- %.2f mm\n", set.name, pull, p.relief, p.expanded);
        panel.marks.push_back({pull, p.relief, p.expanded, set.name});
    }
    plot.add(panel);
}

void a_rod(const neck& n, neck_relief::plot& plot) {
    // What cutting a channel and fitting a single rod would do.
    neck fitted = n;
    const auto from = 8 * mm, to = 268 * mm;
    fitted.inserts.push_back(
        {.x_from = from, .x_to = to, .top = -7 * mm, .width = 5.5 * mm, .height = 8 * mm, .modulus = 0 * GPa});
    fitted.rod = truss_rod{.x_from = from, .x_to = to, .z_ends = -12.2 * mm, .dip = 0 * mm};
    const auto beam = make_beam(fitted);
    const auto c = straightedge(sets[1]);
    const rod_screw screw{.diameter = 4.8 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};
    std::puts("\nIf a rod were fitted (single, straight, held in its channel; turns from where the nut bears)\n"
              "  turns    pull     rod's stress   relief");
    neck_relief::panel panel{.title = "turns of a rod, were one fitted", .x_axis = "turns"};
    for (const double turns : {0.0, 0.1, 0.2, 0.3, 0.4}) {
        const auto pull = rod_pull_from_turns(beam, screw, turns);
        const auto r = relief_under(beam, c, pull);
        std::printf("  %.1f    %6.0f N   %5.0f MPa      %+.2f mm\n", turns, pull / N, rod_stress(pull, 4.1 * mm) / MPa,
                    r.gap / mm);
        panel.marks.push_back({turns, r.gap / mm});
    }
    const auto wanted = rod_pull_for_relief(beam, c, 0.15 * mm, 4000 * N);
    const auto torque = torque_for_rod_pull(wanted.pull, torque_coefficient(thread_state::lubricated), 4.8 * mm);
    if (wanted.reachable()) {
        std::printf(
            "  0.15 mm takes %.2f turns: %.0f N, about %.1f N m on an oiled thread (such pulls scatter by 8 %% at best)\n",
            rod_turns(beam, screw, wanted.pull), wanted.pull / N, torque / N_m);
    } else {
        std::printf("  0.15 mm is out of the rod's reach; nearest %.2f mm\n", wanted.relief.gap / mm);
    }
    plot.add(panel);
}

void a_season(const neck& n, neck_relief::plot& plot) {
    // Ebony's movement is the caller's figure; along the grain both woods' are, within what the handbook gives for any
    // wood.
    const moving_board board{
        .width = 39.4 * mm, .thickness = 5.2 * mm, .across = 0.0030, .down = 0.0022, .fretted_in = shop};
    const double board_along = 6e-5, back_along = 4e-5;
    const auto mahogany = woods::find_wood("Honduras mahogany").value();
    const auto then = equilibrium_moisture(shop);
    std::puts("\nSeasons, come to rest (board fretted at 45 %, at the joint; movement along the grain is a guess)\n"
              "  humidity   moisture   board's width   fret ends a side   relief");
    neck_relief::panel panel{.title = "humidity, come to rest", .x_axis = "% relative humidity"};
    for (const double humidity : {25.0, 35.0, 45.0, 55.0, 65.0, 75.0}) {
        const climate air{.temperature = shop.temperature, .humidity = humidity * percent_rh};
        const auto now = board_in(board, air);
        neck other = n;
        other.board_strain = board_strain(board_along, back_along, then, now.moisture);
        const auto modulus = [&](const moisture_content<>& m) {
            return modulus_at(mahogany.modulus_gpa.value * GPa, mahogany.green_modulus_gpa.value * GPa, m);
        };
        const double softer = ratio(modulus(now.moisture), modulus(then));
        other.back_modulus = n.back_modulus * softer;
        other.board_modulus = n.board_modulus * softer;
        const auto r = relief_under(make_beam(other), straightedge(sets[1]));
        std::printf("  %3.0f %%       %4.1f %%     %+.2f mm        %+.2f mm           %.2f mm\n", humidity,
                    now.moisture / percent_mc, (now.width - board.width) / mm, now.fret_ends / mm, r.gap / mm);
        panel.marks.push_back({humidity, r.gap / mm});
    }
    plot.add(panel);
}

} // namespace

int main(int count, char** arguments) try {
    const auto found = calibrated<double>(slack_reading, tuned_reading);
    const auto c = straightedge(sets[1]);
    const auto beam = make_beam(found.neck);
    const auto now = relief_under(beam, c);
    neck_relief::plot plot("relief, mm");

    std::puts("RELIEF OF AN OLD NECK     octave mandolin, eight strings in four courses, 22 1/16 in, no rod");
    std::printf("\nReadings at fret %d, straightedge on frets 1 and %d\n", middle_fret, joint_fret);
    std::printf("  slack %.2f mm, at pitch %.2f mm, each +- %.3f mm (k = 1)\n", slack_reading / mm, tuned_reading / mm,
                reading_uncertainty / mm);
    std::printf("Calibration\n  moduli times %.2f +- %.2f (k = 1): board %.1f GPa, back %.1f GPa\n", found.factor,
                found.uncertainty, found.neck.board_modulus / GPa, found.neck.back_modulus / GPa);
    std::printf("  relief as found, from the model: %.2f mm at fret %zu\n", now.gap / mm, now.index + 1);
    const auto loaded = bend(beam, c.strings);
    std::printf("  nut rises %.2f mm under the strings, %.1f %% more than if the bow did not move the load\n",
                loaded.nut_rise() / mm, 100 * (second_order_growth(beam, c.strings) - 1));

    string_sets(plot);
    if (const auto heaviest = heaviest_strings(beam, c, 0.40 * mm)) {
        std::printf("  heaviest that keep 0.40 mm: %.0f N in all, %.2f of the set as strung\n", heaviest->pull / N,
                    heaviest->share);
    } else {
        std::puts("  none keep 0.40 mm: the neck is as hollow without strings");
    }
    neck lasting = found.neck;
    lasting.creep_factor = 1.5;
    std::printf("  if the bow crept by half as in seasoned timber (NDS): %.2f mm\n",
                relief_under(make_beam(lasting), c).gap / mm);

    a_rod(found.neck, plot);
    const insert bar{
        .x_from = 5 * mm, .x_to = 270 * mm, .top = -5.2 * mm, .width = 5 * mm, .height = 10 * mm, .modulus = 120 * GPa};
    const auto effect = effect_of(found.neck, bar, c);
    std::printf("\nIf a carbon bar of 5 x 10 mm were let in under the board\n  relief %.2f -> %.2f mm, section %.2f times "
                "as stiff\n",
                effect.before.gap / mm, effect.after.gap / mm, effect.stiffer);

    const auto added = relief_from_load(loaded, c.crests, c.first, c.last);
    std::printf("\nLevelling\n  strings add %.2f mm: level %s\n", added / mm,
                where_to_level(added) == levelling_place::bench
                    ? "on the bench"
                    : "under load, or on the bench to heights that allow for it");

    a_season(found.neck, plot);
    std::puts(
        "\nEstimates from measurements, with the uncertainty shown. Slacken strings before working and wear eye "
        "protection:\n"
        "a string at pitch can cut and can take an eye. Old necks and joints can fail at tensions they once bore. Where a\n"
        "failure would hurt someone or spoil an instrument of value, a qualified repairer decides.");

    if (count > 1) {
        std::ofstream file(arguments[1]);
        file << plot.svg();
        if (!file) {
            std::fprintf(stderr, "cannot write %s\n", arguments[1]);
            return 1;
        }
    }
    return 0;
} catch (const invalid_input& wrong) {
    std::fprintf(stderr, "%s\n", wrong.what());
    return 2;
}
