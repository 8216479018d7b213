#pragma once
/// @file
/// Solving a setup: from an instrument and its strings to tensions, bow, heights, clearances and forces.
///
/// In order: string places and speaking lengths, tensions (pitch is held), the neck's beam and its bow under the strings
/// with the second order, string lines between the risen nut and the saddle, heights and clearances over the risen crests,
/// forces at nut and saddle, findings. Speaking lengths are those of the unloaded neck: the bow of a millimetre changes
/// them, and with them the tensions, by less than one part in ten thousand.

#include "../board/string_path.hpp"
#include "../strings/tension.hpp"
#include "ends.hpp"
#include "findings.hpp"
#include "setup.hpp"
#include "sounding.hpp"

namespace tautline {

/// Stations of the neck's beam that a solve uses unless told otherwise; the bow's error is then far below a micrometre.
inline constexpr std::size_t solve_stations = 33;

namespace kernel {

/// Height z of the saddle under a string at y between the first string (at y0) and the last (at y1): a line between the two
/// heights, bulged by the arc of the saddle's top.
template <class R>
[[nodiscard]] length<R> saddle_height_at(const basic_saddle<R>& s, const length<R>& y0, const length<R>& y1,
                                         const length<R>& y) {
    // One string stands at y0 = y1: the bass height.
    const length<R> spread = y1 - y0;
    const bool one_place = !all(length<R>().value() < spread.value());
    const R t = one_place ? number<R>(0) : R(ratio<unit::length, R>(y - y0, spread));
    const length<R> line = s.height_bass + (s.height_treble - s.height_bass) * t;
    if (!s.radius) { return line; }
    const curvature<R> k = number<R>(1) / *s.radius;
    const length<R> drop0 = arc_drop(k, y0), drop1 = arc_drop(k, y1);
    return line + drop0 + (drop1 - drop0) * t - arc_drop(k, y);
}

/// Places and tensions: everything about the strings that does not need the neck.
template <class R>
void place_strings(const basic_instrument<R>& built, const basic_stringing<R>& strung, const basic_top_give<R>& give,
                   basic_setup<R>& out) {
    const std::size_t count = strung.strings.size();
    const R half = number<R>(0.5L);
    out.strings.resize(count);
    out.pulls.resize(count);

    std::vector<length<R>> gauges(count);
    for (std::size_t i = 0; i < count; ++i) { gauges[i] = kernel::gauge(strung.strings[i].string); }
    const auto y_nut = string_places(built.nut.spacing, gauges);
    const auto y_saddle = string_places(built.saddle.spacing, gauges);

    out.total_tension = force<R>();
    for (std::size_t i = 0; i < count; ++i) {
        basic_string_setup<R>& s = out.strings[i];
        const basic_music_string<R>& string = strung.strings[i].string;
        s.gauge = gauges[i];
        s.pitch = kernel::pitch_of(strung.strings[i].pitch, strung.standard);
        s.y_at_nut = y_nut[i];
        s.y_at_saddle = y_saddle[i];
        const R across =
            count < 2 ? number<R>(0)
                      : R(ratio<unit::length, R>(y_saddle[i] - y_saddle.front(), y_saddle.back() - y_saddle.front()));
        const auto& slots = built.nut.slot_heights;
        s.line.nut_x = length<R>();
        s.line.nut_y = y_nut[i];
        s.line.saddle_y = y_saddle[i];
        s.line.nut_z =
            kernel::surface_height(built.board.surface, length<R>(), y_nut[i]) + slots[slots.size() == 1 ? 0 : i];
        s.line.saddle_x = built.board.scale.scale_length + built.saddle.setback_bass +
                          (built.saddle.setback_treble - built.saddle.setback_bass) * across;
        s.line.saddle_z =
            saddle_height_at<R>(built.saddle, y_saddle.front(), y_saddle.back(), y_saddle[i]) - built.saddle.board_line;

        s.line.saddle_x = s.line.saddle_x - give.forward;
        s.line.saddle_z = s.line.saddle_z - give.drop;

        const length<R> dx = s.line.saddle_x, dy = s.y_at_saddle - s.y_at_nut, dz = s.line.saddle_z - s.line.nut_z;
        s.speaking_length = sqrt(dx * dx + dy * dy + dz * dz);
        s.tension = tension<R>(string, s.speaking_length, s.pitch);
        s.mass_per_length = kernel::felt_mass<R>(string, s.speaking_length) /
                            R(number<R>(1) + ratio(s.tension, kernel::axial_stiffness(string)));
        s.core_stress = s.tension / kernel::core_area(string.core);
        s.share_of_strength = share_of_strength<R>(string, s.tension);
        out.total_tension += s.tension;

        auto& pull = out.pulls[i];
        pull.pull = s.tension * R(ratio(dx, s.speaking_length));
        pull.x_nut = length<R>();
        pull.x_saddle = s.line.saddle_x;
        pull.z_nut = s.line.nut_z + s.gauge * half;
        pull.z_saddle = s.line.saddle_z + s.gauge * half;
    }
}

/// Frets: crests under every string and along the centre line in their loaded places, then heights and clearances.
template <class R>
void place_frets(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto frets = static_cast<std::size_t>(built.board.scale.frets);
    const length<R> rise_at_nut = out.nut_rise + set_height<R>(built.neck.set, length<R>());
    out.fret_x.resize(frets);
    out.crests.resize(frets);
    out.board_points.resize(frets);
    for (std::size_t n = 0; n < frets; ++n) {
        const length<R> x = kernel::fret_position(built.board.scale, static_cast<int>(n) + 1);
        out.fret_x[n] = x;
        out.board_points[n].x = out.crests[n].x = x;
        out.board_points[n].z = deflection_at<R>(out.bow, x);
        out.crests[n].z = out.board_points[n].z + kernel::crown_left(built.frets, static_cast<int>(n) + 1);
    }
    for (auto& s : out.strings) {
        s.line.nut_z = s.line.nut_z + rise_at_nut;
        const basic_string_path<R> path{s.y_at_nut, s.y_at_saddle, s.line.nut_x, s.line.saddle_x};
        s.crest_z.resize(frets);
        s.heights.resize(frets);
        s.clearances.resize(frets);
        for (std::size_t n = 0; n < frets; ++n) {
            s.crest_z[n] = out.crests[n].z +
                           kernel::surface_height(built.board.surface, out.fret_x[n], kernel::y_at(path, out.fret_x[n]));
        }
        kernel::heights_over_frets<R>(s.line, out.fret_x, s.crest_z, s.heights);
        for (std::size_t n = 0; n < frets; ++n) {
            s.clearances[n] = kernel::least_clearance<R>(s.line, out.fret_x, s.crest_z, n);
        }
    }
    out.relief.reset();
    out.board_relief.reset();
    const auto last = std::min(frets, static_cast<std::size_t>(built.neck.joint_fret));
    if (last >= 3) {
        out.relief = kernel::relief_between<R>(out.crests, 0, last - 1);
        out.board_relief = kernel::relief_between<R>(out.board_points, 0, last - 1);
    }
}

/// One pass from strings to forces with the saddle where a giving soundboard has let it go.
template <class R>
void solve_at(const basic_instrument<R>& built, const basic_stringing<R>& strung, const basic_top_give<R>& give,
              basic_setup<R>& out) {
    place_strings(built, strung, give, out);
    bend<R>(out.beam, out.pulls, built.neck.rod_pull, out.bow);
    out.nut_rise = out.bow.nut_rise();
    place_frets(built, out);
    load_ends(built, out);
}

} // namespace kernel

/// Everything that is wrong with an instrument and its strings taken together; empty when they can be solved.
template <class R>
[[nodiscard]] std::vector<problem> validate(const basic_instrument<R>& built, const basic_stringing<R>& strung) {
    std::vector<problem> found = validate(built);
    for (auto& p : validate(strung)) { found.push_back(std::move(p)); }
    const auto count = static_cast<std::size_t>(string_count(built.nut.spacing));
    if (found.empty() && strung.strings.size() != count) {
        found.push_back({"strings", "",
                         "must be " + std::to_string(count) + ", as the nut has, but there are " +
                             std::to_string(strung.strings.size())});
    }
    return found;
}

/// Solves a setup in place; what `out` held is overwritten, its arrays are used again.
///
/// @param stations of the neck's beam, 2 or more
/// @throws invalid_input with everything that is wrong; also where the neck would buckle, with the load at which it starts
template <class R>
void solve(const basic_instrument<R>& built, const basic_stringing<R>& strung, basic_setup<R>& out,
           std::size_t stations = solve_stations) {
    if (auto found = validate(built, strung); !found.empty()) { throw invalid_input(std::move(found)); }
    neck_of(built, out.neck);
    make_beam(out.neck, stations, out.beam);
    out.top.reset();
    if (built.soundboard) {
        out.top = settle_on_top<R>(*built.soundboard, [&](const basic_top_give<R>& give) {
            kernel::solve_at(built, strung, give, out);
            return basic_top_load<R>{out.down_force, out.pinned ? out.pinned->turning : moment<R>()};
        });
        require_that(out.top.has_value(), "soundboard.sink_stiffness",
                     "must be more: the strings' load grows with the sinking faster than this soundboard resists");
    }
    kernel::solve_at(built, strung, out.top.value_or(basic_top_give<R>{}), out);
    kernel::stand(built, out);
    kernel::sound(built, strung, out);
    find(built, out);
}

/// Solves a setup.
template <class R>
[[nodiscard]] basic_setup<R> solve(const basic_instrument<R>& built, const basic_stringing<R>& strung) {
    basic_setup<R> out;
    solve(built, strung, out);
    return out;
}

} // namespace tautline
