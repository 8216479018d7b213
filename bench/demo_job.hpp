#pragma once
/// @file
/// The job of examples/jobs/ten_string_cittern.toml, with its readings and without, and a plan with many wishes.

#include <tautline/instrument/ready_made.hpp>
#include <tautline/job.hpp>

#include "instrument.hpp"

namespace bench {

/// A lower standard with another set, worn frets filed level, what is wanted.
inline bench_job demo_job() {
    bench_job j;
    j.instrument = ready_made::ten_string_cittern().instrument;
    j.strings = ready_made::ten_string_cittern().strings;
    j.objects.push_back({"guard beside the soundhole", {.x = 400 * mm, .z = -7 * mm, .extent = 50 * mm}});
    for (const auto& [path, standard] :
         std::initializer_list<std::pair<const char*, any_quantity>>{{"board.thickness", 0.05 * mm},
                                                                     {"board.scale.scale_length", 0.2 * mm},
                                                                     {"frets.wire.crown_height", 0.01 * mm},
                                                                     {"neck.depth_at_nut", 0.1 * mm},
                                                                     {"neck.depth_at_joint", 0.1 * mm},
                                                                     {"neck.board_modulus", 1 * GPa},
                                                                     {"neck.back_modulus", 1 * GPa},
                                                                     {"neck.set[1].z", 0.015 * mm},
                                                                     {"neck.set[2].z", 0.015 * mm},
                                                                     {"neck.set[3].z", 0.015 * mm},
                                                                     {"saddle.height_bass", 0.1 * mm},
                                                                     {"saddle.height_treble", 0.1 * mm},
                                                                     {"saddle.board_line", 0.1 * mm},
                                                                     {"tailpiece.hinge_height", 1 * mm},
                                                                     {"soundboard.sink_stiffness", 30 * N_per_mm}}) {
        j.doubts.push_back({path, standard});
    }
    j.correlated.push_back({"saddle.height_bass", "saddle.height_treble", 1.0});
    j.planned = plan_as_found(j);
    j.planned->a4 = 415 * Hz;
    j.planned->levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.55 * mm};
    for (const ordered_string& one :
         {ordered_string{.note = "D2", .gauge = 58 * thou, .core = 19 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "A2", .gauge = 40 * thou, .core = 17 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "D3", .gauge = 30 * thou, .core = 14 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "A3", .gauge = 21 * thou, .core = 11 * thou, .wrap = "phosphor bronze"},
          ordered_string{.note = "D4", .gauge = 15 * thou}}) {
        j.planned->strings.insert(j.planned->strings.end(), 2, one); // in pairs
    }
    j.wanted = wishes{.first_fret_bass = 0.55 * mm,
                      .first_fret_treble = 0.45 * mm,
                      .action_bass = 2.3 * mm,
                      .action_treble = 1.8 * mm,
                      .in_tune = true,
                      .lowest_saddle = 18.4 * mm};
    return j;
}
/// The same with what the instrument shows.
inline bench_job demo_job_read() {
    bench_job j = demo_job();
    j.gauges.push_back({.name = "feelers"});
    j.doubts.push_back({"gauges[0].zero", 0.01 * mm});
    j.readings = {{.of = "relief", .value = "0.27 ± 0.05 mm", .gauge = "feelers"},
                  {.of = "relief", .value = "0.05 ± 0.05 mm", .when = "slack", .gauge = "feelers"},
                  {.of = "height", .value = "3.30 ± 0.05 mm", .string = {"5a"}, .fret = 12},
                  {.of = "height", .value = "2.81 ± 0.05 mm", .string = {"1b"}, .fret = 12},
                  {.of = "saddle sink", .value = "0.35 ± 0.1 mm"}};
    return j;
}

/// An instrument on which all can be set that a plan sets, a neck reset aside.
inline strung_instrument many_parts() { return {with_everything(make_instrument(6, 22)), make_stringing(6)}; }
/// All that can be wished of it.
inline wishes every_wish() {
    return {.relief = 0.15 * mm,
            .first_fret_bass = 0.55 * mm,
            .first_fret_treble = 0.45 * mm,
            .action_bass = 2.3 * mm,
            .action_treble = 1.8 * mm,
            .down_force = 120 * N,
            .in_tune = true};
}

} // namespace bench
