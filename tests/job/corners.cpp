#include "corners.hpp"

#include <tautline/job/answer.hpp>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::each_number;

namespace {

wishes all_wishes() {
    wishes w;
    w.first_fret_bass = 0.5 * mm;
    w.first_fret_treble = 0.4 * mm;
    w.action_bass = 2.4 * mm;
    w.action_treble = 1.9 * mm;
    w.action_fret = 12;
    w.down_force = 90 * N;
    w.in_tune = true;
    w.lowest_saddle = 12 * mm;
    w.highest_saddle = 25 * mm;
    w.adjusters = bridge_adjusters{.bass = -28 * mm, .treble = 28 * mm, .thread_pitch = 0.7 * mm};
    return w;
}
wishes reset_wishes() {
    wishes w;
    w.action_bass = 2.4 * mm;
    w.action_treble = 1.9 * mm;
    w.reset = reset_wish{
        .saddle_height = 17 * mm, .heel_depth = 80 * mm, .pocket_length = 60 * mm, .leave = 0.3 * mm, .edge_depth = 8 * mm};
    return w;
}
/// A rod that sets the relief, pins whose holes are sought.
strung_instrument pinned() {
    strung_instrument s{demo::four_course(), demo::unison_pairs()};
    s.instrument.tailpiece.reset();
    s.instrument.pins =
        pins{.distance = 20 * mm, .height = 6 * mm, .spread = 54 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    s.instrument.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
    s.instrument.neck.rod_pull = 400 * N;
    return s;
}
wishes pinned_wishes() {
    wishes w;
    w.relief = 0.1 * mm;
    w.rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 200 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};
    w.saddle_break = 25 * deg;
    return w;
}
/// Every number of the answers that has a name; without the names and words, which take far longer than the numbers.
std::vector<double> told_of(const bench_job& j) {
    const auto s = setups_of(j);
    std::vector<double> all;
    const auto add = [&](const auto& part) {
        for_each_leaf(part, [&](std::string_view, const auto& x) { all.push_back(number_of(x)); });
    };
    add(s.found);
    add(s.plan.solved);
    add(s.plan);
    add(numbers_of(s.work));
    for (const object_seat& seat : s.seats) { add(seat); }
    const bench_layout layout = layout_of(j, s);
    for (const carried_place& at : layout.centre) { all.insert(all.end(), {at.x.value(), at.y.value()}); }
    for (const marker& m : layout.dots) { all.push_back(m.x.value()); }
    for (const brought_to_gap& o : layout.objects) {
        all.insert(all.end(), {o.raise.value(), o.raise_when_tilted.value()});
    }
    return all;
}

} // namespace

TEST_CASE("corners: a plan is made, or is told why not, whatever is wished") {
    const strung_instrument hung{demo::four_course(), demo::unison_pairs()};
    each_number("wishes", all_wishes(), [&](const wishes& w) { return make_plan(hung, w); });
    each_number("a reset", reset_wishes(), [&](const wishes& w) { return make_plan(hung, w); });
    each_number("rod and pins", pinned_wishes(), [&](const wishes& w) { return make_plan(pinned(), w); });
}
TEST_CASE("corners: a whole job is answered, or is told why not, wherever one of its numbers lies") {
    bench_job j = demo::job_as_found();
    j.objects = {{.name = "guard", .shape = {.x = 430 * mm, .z = -6 * mm, .extent = 40 * mm}, .gap = 2 * mm}};
    j.centre = noted_centre{.readings = {{.x = 0 * mm, .bass_edge = 20 * mm, .treble_edge = 56 * mm},
                                         {.x = 390 * mm, .bass_edge = 15 * mm, .treble_edge = 61 * mm}},
                            .give_or_take = 0.4 * mm,
                            .bridge_at = 38 * mm,
                            .end_pin = 800 * mm};
    j.strings[0].weight = 4.9 * gram;
    j.strings[0].weight_length = 1000 * mm;
    j.strings[7].packet_pull = 70 * N;
    j.strings[7].packet_scale = 648 * mm;
    j.wanted.emplace();
    j.wanted->action_bass = 2.4 * mm;
    j.wanted->action_treble = 1.9 * mm;
    auto plan = plan_as_found(j);
    plan.a4 = 432 * Hz;
    plan.sanding = sanding{.surface = cylinder(400 * mm), .held = neck_held::slack};
    plan.dots = marker_layout();
    j.planned = plan;
    each_number("a job", j, [](const bench_job& job) { return told_of(job); });
}
