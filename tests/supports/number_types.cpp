// Every answer of this folder over every number type: the same number as in double, to what the type carries.

#include <vector>

#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/floating_bridge.hpp>
#include <tautline/supports/nut.hpp>
#include <tautline/supports/pinned_bridge.hpp>
#include <tautline/supports/tailpiece_plan.hpp>
#include <tautline/supports/top.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

template <class R>
double plain(const R& x) {
    return static_cast<double>(value_of(x));
}
template <class U, class R>
double plain(const boost::units::quantity<U, R>& q) {
    return plain(q.value());
}

template <class R>
std::vector<double> answers() {
    std::vector<basic_point<R>> slots;
    std::vector<basic_tail_string<R>> strings;
    std::vector<basic_bridge_string<R>> bridged;
    for (int i = 0; i < 4; ++i) {
        const double across = -18 + 12 * i;
        slots.push_back(over<R>(point{.x = 0 * mm, .y = 0.6 * across * mm, .z = 1.5 * mm}));
        strings.push_back(
            over<R>(tail_string{.saddle = {.x = 560 * mm, .y = across * mm, .z = (9 - across * across / 300) * mm},
                                .across = 0.9 * across * mm,
                                .tension = (70 + 4 * i) * N}));
        bridged.push_back({slots.back(), strings.back().saddle,
                           over<R>(point{.x = 640 * mm, .y = across * mm, .z = -12 * mm}), strings.back().tension});
    }
    const auto tail = over<R>(hinged_tailpiece{.hinge_x = 740 * mm, .hinge_z = -25 * mm, .reach = 90 * mm});
    std::vector<basic_support_load<R>> loads(4);
    const auto rise = saddle_loads(tail, slots, strings, loads);
    const auto head = over<R>(headstock{.pitch = 13 * deg, .face_start = 5 * mm, .face_drop = 3 * mm});
    const auto post = over<R>(tuner_post{.along = 80 * mm, .across = -22 * mm, .height = 6 * mm});
    const auto at_nut = nut_load(slots[0], strings[0].saddle, head, post, 70 * N);
    const auto bridge = over<R>(floating_bridge{.front_edge = {.x = 555 * mm, .z = -10 * mm},
                                                .back_edge = {.x = 568 * mm, .z = -11 * mm},
                                                .bass_foot = -30 * mm,
                                                .treble_foot = 30 * mm,
                                                .saddle = {0.1, 0.2},
                                                .foot = {0.3, 0.5}});
    const auto stand = bridge_summary(bridge, bridged);
    const auto pinned = pinned_load(over<R>(pinned_bridge{.top_middle = -7 * mm, .saddle_exposed = 4 * mm}), bridged);
    const auto top = over<R>(soundboard{.sink_stiffness = 200 * N_per_mm,
                                        .turn_stiffness = 500 * N_m_per_rad,
                                        .saddle_ahead = 4 * mm,
                                        .saddle_height = 12 * mm});
    const auto moves =
        adjuster_moves(over<R>(bridge_adjusters{.bass = -30 * mm, .treble = 28 * mm, .thread_pitch = 0.7 * mm}), -20 * mm,
                       0.4 * mm, 20 * mm, 0.2 * mm);
    return {plain(total_force<R>(loads).down()),
            plain(total_anchor_pull<R>(loads).size()),
            plain(rise) * 100,
            plain(at_nut.down()),
            plain(at_nut.side_angle) * 100,
            plain(nut_slot_floor(slots[0], strings[0].saddle, post_point(head, post)).advised) * 100,
            plain(capstan_ratio<R>(number<R>(0.2L), at_nut.break_angle)),
            plain(tuning_dead_band(over<R>(friction{0.1, 0.2}), at_nut.break_angle).most.cents()),
            plain(stand.tail_slack.front_margin) * 1e3,
            plain(stand.even.bass_load),
            plain(stand.friction_needed()) * 10,
            plain(pinned.turning),
            plain(top_give<R>(top, pinned.saddle_down, pinned.turning).drop) * 1e3,
            plain(section_load<R>(bridged, over<R>(300 * mm), -8 * mm).bending),
            plain(moves.bass_turns),
            plain(*pin_distance(over<R>(6 * mm), over<R>(0.5 * deg), over<R>(25 * deg))) * 1e3,
            plain(anchor_for_down_force(tail, slots, strings, 70 * N, -60 * mm, 0 * mm).height) * 1e3};
}

template <class R>
void agrees(double tolerance) {
    const auto here = answers<R>(), reference = answers<double>();
    for (std::size_t i = 0; i < reference.size(); ++i) {
        INFO(i);
        CHECK(std::abs(reference[i]) > 1e-2); // each answer says something
        CHECK(near::within(here[i], reference[i], tolerance * (1 + std::abs(reference[i]))));
    }
}

} // namespace

TEST_CASE("float, long double and nested duals give the answers of double") {
    agrees<float>(1e-3);
    agrees<long double>(1e-9);
    agrees<dual<double, 3>>(1e-12);
    agrees<dual<dual<double, 1>, 2>>(1e-12);
}
