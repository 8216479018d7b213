#pragma once
/// @file
/// Solving a setup: from an instrument and its strings to tensions, bow, heights, clearances and forces.
///
/// The order of a solve: string places and speaking lengths; tensions, as pitch is held; the neck's beam and its bow
/// under the strings, second order included; string lines between the risen nut and the saddle; heights
/// over the risen crests; forces at nut and saddle; what the strings sound and clear; findings. Speaking lengths are those
/// of the unloaded neck. A bow of a millimetre changes them, and with them the tensions, by less than one part in ten
/// thousand.

#include "../core/number_row.hpp"
#include "../core/when_used.hpp"
#include "../instrument/named_by_measures.hpp"
#include "../instrument/saddle_top.hpp"
#include "../strings/tension.hpp"
#include "ends.hpp"
#include "findings.hpp"
#include "loose_slots.hpp"
#include "setup.hpp"
#include "sounding.hpp"

namespace tautline {

/// Stations of the neck's beam that a solve uses unless told otherwise. The bow's error is then far below a micrometre.
inline constexpr std::size_t solve_stations = 65;

namespace kernel {

/// What the strings' construction and the spacings tell. It does not change when the saddle gives.
template <class R>
void place_strings(const basic_instrument<R>& built, const basic_stringing<R>& strung, basic_setup<R>& out) {
    const std::size_t count = strung.strings.size();
    out.strings.resize(count);
    name_strings(built, strung, out.names);
    out.pulls.resize(count);
    out.measures.resize(count);
    for (std::size_t i = 0; i < count; ++i) {
        const basic_music_string<R>& string = strung.strings[i].string;
        basic_string_setup<R>& s = out.strings[i];
        basic_string_measures<R>& m = out.measures[i];
        s.gauge = kernel::gauge(string);
        s.pitch = kernel::pitch_of(strung.strings[i].pitch, strung.standard);
        require("pitch", s.pitch, more_than(0 * units::Hz));
        m.slack_mass = kernel::mass_per_length(string);
        m.core_mass = kernel::core_mass(string.core);
        m.axial_stiffness = kernel::axial_stiffness(string);
        m.core_area = kernel::core_area(string.core);
        m.strength = minimum_strength<R>(string.core.material, kernel::core_round_diameter(string.core));
    }
    const auto gauge = [&](std::size_t i) { return out.strings[i].gauge; };
    const std::size_t own_nuts = built.short_strings.size();
    for (std::size_t i = 0; i < count; ++i) {
        const auto* own = own_nut_of(built, i);
        out.strings[i].frets_behind = own ? static_cast<std::size_t>(own->fret) : 0;
        if (own) { out.strings[i].y_at_nut = own->across; }
    }
    kernel::place_strings<R>(
        built.nut.spacing, "nut.spacing", [&](std::size_t i) { return gauge(own_nuts + i); },
        [&](std::size_t i, const length<R>& y) { out.strings[own_nuts + i].y_at_nut = y; });
    kernel::place_strings<R>(built.saddle.spacing, "saddle.spacing", gauge,
                             [&](std::size_t i, const length<R>& y) { out.strings[i].y_at_saddle = y; });
}

/// Lines and tensions of the strings over a saddle that has given by `give`.
template <class R>
void stretch_strings(const basic_instrument<R>& built, const basic_stringing<R>& strung, const basic_top_give<R>& give,
                     basic_setup<R>& out) {
    const std::size_t count = strung.strings.size();
    const R half = number<R>(0.5L);
    const board_lines<R> lines(built);
    const auto nut_line = lines.fret(0), saddle_line = lines.saddle();
    const length<R> y_first = out.strings.front().y_at_saddle, y_last = out.strings.back().y_at_saddle;
    out.total_tension = force<R>();
    for (std::size_t i = 0; i < count; ++i) {
        basic_string_setup<R>& s = out.strings[i];
        const basic_music_string<R>& string = strung.strings[i].string;
        const basic_string_measures<R>& m = out.measures[i];
        const R across = count < 2 ? number<R>(0) : R(ratio<unit::length, R>(s.y_at_saddle - y_first, y_last - y_first));
        s.line.nut_x = lines.fanned() ? nut_line.at(s.y_at_nut) : length<R>();
        s.line.nut_y = s.y_at_nut;
        s.line.saddle_y = s.y_at_saddle;
        const auto* own = own_nut_of(built, i);
        if (own) { s.line.nut_x = lines.fret(own->fret).x; }
        // A zero fret carries the strings on its crown. The nut behind it only spaces them.
        const length<R> over_board =
            !own && built.board.scale.zero_fret ? kernel::crown_left(built.frets, 0) : length<R>(built.nut.slot_height(i));
        s.line.nut_z = kernel::surface_height(built.board.surface, length<R>(s.line.nut_x), s.y_at_nut) + over_board;
        const length<R> line_x = lines.fanned() ? saddle_line.at(s.y_at_saddle) : saddle_line.x;
        s.line.saddle_x = saddle_place_of<R>(built.saddle, i, line_x, across);
        s.line.saddle_z = saddle_height_of<R>(built.saddle, i, y_first, y_last, s.y_at_saddle) - built.saddle.board_line;

        s.line.saddle_x = s.line.saddle_x - give.forward;
        s.line.saddle_z = s.line.saddle_z - give.drop;

        const length<R> dx = s.line.saddle_x - s.line.nut_x, dy = s.y_at_saddle - s.y_at_nut,
                        dz = s.line.saddle_z - s.line.nut_z;
        s.speaking_length = sqrt(dx * dx + dy * dy + dz * dz);
        kernel::require_bare_ends_fit<R>(string, s.speaking_length);
        const linear_density<R> felt = kernel::felt_mass<R>(string, m.slack_mass, m.core_mass, s.speaking_length);
        s.tension =
            kernel::tension_of_stretching<R>(kernel::tension<R>(felt, s.speaking_length, s.pitch), m.axial_stiffness);
        s.mass_per_length = felt / R(number<R>(1) + ratio(s.tension, m.axial_stiffness));
        s.core_stress = s.tension / m.core_area;
        s.share_of_strength.reset();
        if (m.strength) { s.share_of_strength = ratio(s.core_stress, *m.strength); }
        out.total_tension += s.tension;

        auto& pull = out.pulls[i];
        pull.pull = s.tension * R(ratio(dx, s.speaking_length));
        pull.x_nut = s.line.nut_x;
        pull.own_nut = own != nullptr;
        pull.x_saddle = s.line.saddle_x;
        pull.z_nut = s.line.nut_z + s.gauge * half;
        // The neck's bow holds the set of its middle. Where the edges are not alike, the rest lifts a string's end.
        if (built.neck.told_by_edges()) { pull.z_nut = pull.z_nut + twist_at<R>(built, s.line.nut_x, s.line.nut_y); }
        pull.z_saddle = s.line.saddle_z + s.gauge * half;
    }
}

/// Lifts the strings' ends at the nut by the neck's set and bow: at the neck's end, or on a fan at each string's own
/// place.
template <class R>
void lift_nut(const basic_instrument<R>& built, const length<R>& rise, basic_setup<R>& out) {
    out.nut_rise = rise;
    const bool fanned = built.board.scale.fan.has_value();
    for (auto& s : out.strings) {
        s.line.nut_z = fanned || s.frets_behind > 0 ? s.line.nut_z + deflection_at<R>(out.bow, length<R>(s.line.nut_x)) +
                                                          twist_at<R>(built, s.line.nut_x, s.line.nut_y)
                                                    : s.line.nut_z + rise + nut_set_at<R>(built, s.line.nut_y);
    }
}

/// Height and place along x of the crest that a string crosses on a fret of a fan.
template <class R>
[[nodiscard]] basic_crest<R> crest_on_fan(const basic_instrument<R>& built, const basic_setup<R>& out,
                                          const basic_string_setup<R>& s, const R& slope, std::size_t n) {
    const leaning_line<R> fret{out.fret_x[n], out.fret_leans[n]};
    const auto at = fret.crossed_by(s.line.nut_x, s.y_at_nut, slope);
    basic_crest<R> crest;
    crest.x = at.x;
    crest.z = deflection_at<R>(out.bow, at.x) + kernel::crown_left(built.frets, static_cast<int>(n) + 1) +
              kernel::surface_height(built.board.surface, at.x, at.y) + twist_at<R>(built, at.x, at.y) +
              kernel::crown_across(built.board, built.frets, static_cast<int>(n) + 1, at.x, at.y);
    return crest;
}

/// Heights of the crests that a string crosses on square frets, `slope` across for each unit along; as many side by side
/// as a row holds.
template <class R>
void crests_on_square_frets(const basic_instrument<R>& built, const basic_setup<R>& out, const R& slope,
                            basic_string_setup<R>& s) {
    using V = row_of<R>;
    const std::size_t frets = out.fret_x.size();
    const auto surface = over<V>(built.board.surface);
    const auto y_at_nut = over<V>(s.y_at_nut), nut_x = over<V>(length<R>(s.line.nut_x));
    for (std::size_t first = 0; first < frets; first += places_in<V>) {
        const auto at = [&](std::size_t k) { return std::min(first + k, frets - 1); };
        const length<V> x = quantity_row<V>([&](std::size_t k) { return out.fret_x[at(k)]; });
        const length<V> on_arc = kernel::surface_height<V>(surface, x, y_at_nut + (x - nut_x) * V(slope));
        for (std::size_t k = 0; k < places_in<V> && first + k < frets; ++k) {
            s.crest_z[first + k] = out.crests[first + k].z + length<R>::from_value(at_place(on_arc.value(), k));
        }
    }
    if (!built.neck.told_by_edges() && !built.frets.told_by_ends()) { return; }
    for (std::size_t n = 0; n < frets; ++n) {
        const length<R> y = s.y_at_nut + (out.fret_x[n] - s.line.nut_x) * slope;
        s.crest_z[n] = s.crest_z[n] + twist_at<R>(built, out.fret_x[n], y);
        if (built.frets.told_by_ends()) {
            s.crest_z[n] =
                s.crest_z[n] + kernel::crown_across(built.board, built.frets, static_cast<int>(n) + 1, out.fret_x[n], y);
        }
    }
}

/// Relief along a string over its own crests, from fret 1 to fret `last`.
template <class R>
[[nodiscard]] basic_relief<R> relief_along(const basic_string_setup<R>& s, std::size_t last, basic_setup<R>& out) {
    out.crests_along.resize(last);
    for (std::size_t n = 0; n < last; ++n) {
        out.crests_along[n].x = out.crest_places(s)[n];
        out.crests_along[n].z = s.crest_z[n];
    }
    return kernel::relief_between<R>(out.crests_along, 0, last - 1);
}

/// Puts crests under every string and along the centre line in their loaded places; then heights.
template <class R>
void place_frets(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto frets = static_cast<std::size_t>(built.board.scale.frets);
    const board_lines<R> lines(built);
    out.fret_x.resize(frets);
    out.fret_leans.resize(lines.fanned() ? frets : 0);
    out.crests.resize(frets);
    out.board_points.resize(frets);
    for (std::size_t n = 0; n < frets; ++n) {
        const auto line = lines.fret(static_cast<int>(n) + 1);
        const length<R> x = line.x;
        out.fret_x[n] = x;
        if (lines.fanned()) { out.fret_leans[n] = line.lean; }
        out.board_points[n].x = out.crests[n].x = x;
        out.board_points[n].z = deflection_at<R>(out.bow, x);
        out.crests[n].z = out.board_points[n].z + kernel::crown_left(built.frets, static_cast<int>(n) + 1);
    }
    for (auto& s : out.strings) {
        const R spread = ratio(s.y_at_saddle - s.y_at_nut, s.line.saddle_x - s.line.nut_x);
        s.crest_z.resize(frets);
        s.crest_x.resize(out.fret_leans.size());
        s.heights.resize(frets);
        for (std::size_t n = 0; n < s.crest_x.size(); ++n) {
            const auto crest = crest_on_fan(built, out, s, spread, n);
            s.crest_x[n] = crest.x;
            s.crest_z[n] = crest.z;
        }
        if (!lines.fanned()) { crests_on_square_frets(built, out, spread, s); }
        const auto& crest_x = out.crest_places(s);
        const std::size_t behind = s.frets_behind;
        const std::span<const length<R>> x_ahead(crest_x), z_ahead(s.crest_z);
        const std::span<length<R>> heights(s.heights);
        kernel::heights_over_frets<R>(s.line, x_ahead.subspan(behind), z_ahead.subspan(behind), heights.subspan(behind));
        std::fill_n(s.heights.begin(), behind, length<R>::from_value(not_given<R>()));
    }
    out.relief.reset();
    out.bass_relief.reset();
    out.treble_relief.reset();
    out.board_relief.reset();
    const auto last = std::min(frets, static_cast<std::size_t>(built.neck.joint_fret));
    if (last >= 3) {
        out.relief = kernel::relief_between<R>(out.crests, 0, last - 1);
        out.board_relief = kernel::relief_between<R>(out.board_points, 0, last - 1);
        // Elsewhere both sides have the relief of the middle, apart from arc and crowns.
        if ((lines.fanned() || built.neck.told_by_edges() || built.frets.told_by_ends()) && !out.strings.empty()) {
            out.bass_relief = relief_along(out.strings.front(), last, out);
            out.treble_relief = relief_along(out.strings.back(), last, out);
        }
    }
}

/// Bends the neck under its strings and lifts their ends with it.
template <class R>
void bend_and_lift(const basic_instrument<R>& built, basic_setup<R>& out) {
    tautline::bend<R>(out.beam, out.pulls, built.neck.pull_of_rod(), out.bow, nut_kind_of(built));
    lift_nut<R>(built, out.bow.nut_rise(), out);
}

/// Finds where a giving soundboard and the strings come to rest: places, tensions, the nut's rise and the ends, without
/// frets.
template <class R>
void settle(const basic_instrument<R>& built, const basic_stringing<R>& strung, basic_setup<R>& out) {
    out.top = settle_on_top<R>(*built.soundboard, [&](const basic_top_give<R>& give) {
        stretch_strings(built, strung, give, out);
        for (const auto& p : out.pulls) {
            require_that(is_valid(p), "soundboard.sink_stiffness",
                         "must be more: the strings would press the saddle far down");
        }
        if (nut_kind_of(built) == nut_kind::slanted) {
            bend_and_lift(built, out);
        } else {
            lift_nut<R>(built, kernel::nut_rise<R>(out.beam, out.pulls, built.neck.pull_of_rod()), out);
        }
        return load_top(built, give, out);
    });
    require_that(out.top.has_value(), "soundboard.sink_stiffness",
                 "must be more: the strings' load grows with the sinking faster than this soundboard resists");
}

} // namespace kernel

namespace kernel {

/// The part of a silent solve that follows neck, beam and places of the strings, which `out` must hold. It serves again
/// where only nut slots, saddle, tailpiece or the rod's pull have changed.
template <class R>
void solve_on_beam(const basic_strung_instrument<R>& on, basic_setup<R>& out) {
    const auto& built = on.instrument;
    const auto& strung = on.stringing;
    out.top.reset();
    if (built.soundboard) { kernel::settle(built, strung, out); }
    kernel::stretch_strings(built, strung, out.top.value_or(basic_top_give<R>{}), out);
    kernel::bend_and_lift(built, out);
    kernel::place_frets(built, out);
    kernel::load_ends(built, out);
    kernel::put_on_its_feet(built, out);
}
TAUTLINE_HELD(void solve_on_beam<double>(const strung_instrument&, setup&))

/// A silent solve on the neck and beam that `out` holds, for strings that may be others.
template <class R>
void solve_on_neck(const basic_strung_instrument<R>& on, basic_setup<R>& out) {
    kernel::place_strings(on.instrument, on.stringing, out);
    solve_on_beam(on, out);
}

/// What fret slots bear in a solve: what they bear on the instrument, or all.
enum class slots_bear { as_they_are, all };

/// A whole solve except for clearances, how the strings sound, and the findings.
template <class R>
void solve_bearing(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations, slots_bear bear) {
    require_valid(on);
    neck_of(on.instrument, out.neck);
    if (bear == slots_bear::all) { out.neck.slots->bearing = number<R>(1); }
    try {
        tautline::make_beam(out.neck, stations, out.beam);
    } catch (const invalid_input& wrong) {
        throw invalid_input(named_by_measures(wrong.problems(), out.neck.stations.size()));
    }
    solve_on_neck(on, out);
}
template <class R>
void solve_silent(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations) {
    solve_bearing(on, out, stations, slots_bear::as_they_are);
}
TAUTLINE_HELD(void solve_silent<double>(const strung_instrument&, setup&, std::size_t))

} // namespace kernel

namespace kernel {

/// What a silent solve leaves out: how the strings sound, and the findings. Loose slots are compared with full ones in the
/// same setup, so the silent solve is then done here, also where it was done before.
template <class R>
void sound_and_find(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations) {
    const bool loose = tells_loose_slots(on.instrument);
    full_slots<R> full;
    if (loose) {
        try {
            solve_bearing(on, out, stations, slots_bear::all);
        } catch (const invalid_input&) {
            solve_silent(on, out, stations); // which tells it of the neck as it is
            throw;
        }
        full = full_slots_of(out);
        solve_silent(on, out, stations);
    }
    kernel::sound(on.instrument, on.stringing, out);
    tautline::fill_findings(on.instrument, out);
    if (loose) { kernel::find_loose_slots(on.instrument, full, out); }
}

} // namespace kernel

/// Solves a setup in place. What `out` held is overwritten; its arrays are used again.
///
/// @param stations stations of the neck's beam (see `make_beam`), 2 or more
/// @throws invalid_input with everything that is wrong; also where the neck would buckle, with the load at which it does
template <class R>
void solve(const basic_strung_instrument<R>& on, basic_setup<R>& out, std::size_t stations = solve_stations) {
    if (!kernel::tells_loose_slots(on.instrument)) { kernel::solve_silent(on, out, stations); }
    kernel::sound_and_find(on, out, stations);
}
TAUTLINE_HELD(void solve<double>(const strung_instrument&, setup&, std::size_t))

/// Solves a setup of an instrument with its strings.
template <class R>
[[nodiscard]] basic_setup<R> solve(const basic_strung_instrument<R>& on) {
    basic_setup<R> out;
    solve(on, out);
    return out;
}
TAUTLINE_HELD(setup solve<double>(const strung_instrument&))

/// What loosely filled fret slots cost an instrument, with the rod as it is. All numbers are 0 where the slots bear all,
/// or where slots are left out of the bending.
/// @throws invalid_input as `solve`
template <class R>
[[nodiscard]] basic_loose_slots<R> loose_slots_of(const basic_strung_instrument<R>& on) {
    basic_setup<R> now;
    if (!kernel::has_loose_slots(on.instrument)) {
        kernel::solve_silent(on, now, solve_stations); // refuses what cannot be solved
        return {};
    }
    kernel::solve_bearing(on, now, solve_stations, kernel::slots_bear::all);
    const auto full = kernel::full_slots_of(now);
    kernel::solve_silent(on, now, solve_stations);
    return kernel::loose_slots_of<R>(full, now);
}

} // namespace tautline
