/// @file
/// Told twice: the mass of a string from the tension that its packet states.
///
/// The second telling strings the packet's string on a bench: a piece of slack string is drawn until it reaches over the
/// packet's length, its mass is that of the piece, and the pull is searched at which it sounds the packet's note. That pull
/// goes on the packet; the order must give back the mass of the slack string, and an instrument that is strung by packets
/// stands as one whose strings were weighed.

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include <tautline/instrument/ordered_string.hpp>
#include <tautline/strings/wire.hpp>

#include "alike.hpp"
#include "check.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

/// A note's pitch by equal steps from A4 = 440 Hz.
double plain_pitch(note n) { return 440 * std::exp2((n.number - 69) / 12.0); }

/// The pull at which a drawn string sounds: its slack piece is shorter than the length by Hooke's law, and half a wave fits
/// into the length.
double pull_on_bench(double slack_mass, double stretches, double speaking, double hertz) {
    double low = 0, high = 1e5;
    for (int k = 0; k < 200; ++k) {
        const double pull = (low + high) / 2;
        const double piece = speaking / (1 + pull / stretches), mass = slack_mass * piece;
        const double wave = std::sqrt(pull * speaking / mass);
        (wave / (2 * speaking) < hertz ? low : high) = pull;
    }
    return (low + high) / 2;
}

/// A string of a random instrument as one would order it; the recipes build cores and wraps of these materials only.
ordered_string ordered(const music_string& s, const recipe& r, note n) {
    ordered_string o{.note = name_of(n), .gauge = gauge(s)};
    o.material = r.stuff == 5 ? "nylon" : "music wire";
    if (s.layers.size() == 0) { return o; }
    const auto& outer = s.layers[0];
    o.wrap = std::string(outer.material.name);
    (s.core.section == core_section::hexagonal ? o.core_flats : o.core) = length<>(s.core.diameter);
    if (outer.form == layer_form::ribbon) { o.ribbon_width = length<>(outer.ribbon_width); }
    if (outer.ground) { o.ground = *outer.ground; }
    return o;
}

} // namespace

TEST_SUITE("packets, told twice") {
    TEST_CASE("the pull that a packet states gives the mass of the string, and the instrument that it strings") {
        must_hold(
            "packets", 100,
            [](const whole& w, complaints& wrong) {
                const recipe& r = w.from;
                std::vector<ordered_string> packets;
                auto weighed = w.stringing;
                weighed.standard = {};
                for (std::size_t i = 0; i < w.stringing.strings.size(); ++i) {
                    const auto& tuned = w.stringing.strings[i];
                    const auto& built = tuned.string;
                    if (name_of(tuned.pitch).empty()) { return false; }
                    auto o = ordered(built, r, tuned.pitch);
                    if (!validate(o).empty()) { return false; } // thinner or thicker than strings are sold
                    const std::string name = "string " + std::to_string(i + 1) + ", ";
                    const double half = built.core.diameter.value() / 2;
                    const double area = built.core.section == core_section::hexagonal ? 2 * std::sqrt(3.0) * half * half
                                                                                      : std::numbers::pi * half * half;
                    const double stretches =
                        modulus_at(built.core.material, length<>::from_value(2 * std::sqrt(area / std::numbers::pi)))
                            .value() *
                        area;
                    // Lighter or heavier than gauge and materials would have it, and stated for another length and note.
                    const double slack = mass_per_length(made_string(o)).value() * (1 + 0.003 * (r.wish - 50));
                    const double speaking = 0.4 + 0.005 * r.more;
                    const note said{tuned.pitch.number + (r.other % 5) - 2};
                    const double pull = pull_on_bench(slack, stretches, speaking, plain_pitch(said));
                    o.packet_pull = force<>::from_value(pull);
                    o.packet_scale = length<>::from_value(speaking);
                    if (r.other % 5 != 2) { o.packet_note = name_of(said); }
                    if (!validate(o).empty()) { return false; } // no packet states such a pull
                    const auto made = made_string(o);
                    wrong.unless(made.weighed.has_value(), name + "its mass is as if weighed");
                    wrong.unless_near(name + "mass", made.weighed ? made.weighed->value() : 0, slack, 1e-9 * slack);
                    wrong.unless_near(name + "gauge", gauge(made).value(), gauge(built).value(), 1e-12);
                    packets.push_back(o);
                    weighed.strings[i].string = made_string(ordered(built, r, tuned.pitch));
                    weighed.strings[i].string.weighed = linear_density<>::from_value(slack);
                }
                setup by_packets, by_weight;
                try {
                    by_packets = solve(strung_instrument{w.built, string_up(packets, 440 * Hz)});
                    by_weight = solve(strung_instrument{w.built, weighed});
                } catch (const invalid_input&) { return false; } // these strings are too heavy for it
                alike(wrong, by_packets, by_weight, {});
                return true;
            },
            [](recipe& r) { r.stuff = r.stuff == 4   ? 1
                                      : r.stuff == 7 ? 2
                                                     : r.stuff; });
    }
}
