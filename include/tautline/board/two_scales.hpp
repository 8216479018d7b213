#pragma once
/// @file
/// What describes fanned frets: two scales in place of one, or the measured places of the frets along both edges.

#include <optional>
#include <utility>
#include <vector>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The scales of a fanned board, each along its outer string, and the fret that stands square. Where the scales are not
/// known, give the places of the frets along the board's edges. Each fret is then a line between its two places. The
/// line of the saddles lies at twice the distance from nut to octave fret along each outer string.
template <class R = double>
struct basic_two_scales {
    using real = R;
    /// Measured distances along the board's bass edge from the nut's front face to each fret, first fret first. Then
    /// leave out the scales.
    std::vector<field<length<R>>> bass_places{};
    std::vector<field<length<R>>> treble_places{}; ///< the same along the treble edge
    /// For measured places only: how much nearer to the bridge the nut's treble end lies than its bass end, along the
    /// centre line. Negative where the bass end lies nearer.
    std::optional<field<length<R>>> nut_slant{};
    needed<length<R>> bass_scale;   ///< nut to saddle before compensation along the outermost bass string, seen from above
    needed<length<R>> treble_scale; ///< the same along the outermost treble string
    /// The fret that stands square to the centre line; between two frets if it is not whole, 0 for a square nut.
    R square_fret = not_given<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass_places", between(0.1 * units::mm, 3000 * units::mm), self.bass_places...);
        visit("treble_places", between(0.1 * units::mm, 3000 * units::mm), self.treble_places...);
        visit("nut_slant", between(-200 * units::mm, 200 * units::mm), self.nut_slant...);
        if (const bool by_scales = (... && !self.measured()); by_scales) {
            visit("bass_scale", between(10 * units::mm, 3000 * units::mm), self.bass_scale...);
            visit("treble_scale", between(10 * units::mm, 3000 * units::mm), self.treble_scale...);
            visit("square_fret", between(0, 240), self.square_fret...);
        }
    }
    /// Whether the frets are told by their places along the edges.
    [[nodiscard]] constexpr bool measured() const { return !bass_places.empty() || !treble_places.empty(); }
    template <class Report>
    constexpr void rules(Report&& report) const {
        if (!measured()) {
            if (nut_slant) { report("nut_slant", "must be left out where two scales tell how the nut lies"); }
            return;
        }
        if (!nut_slant) {
            report("nut_slant", "must be given where frets are told by their places from the nut; 0 is square");
        }
        if (bass_places.size() != treble_places.size()) {
            const bool less = bass_places.size() < treble_places.size();
            report(less ? "bass_places" : "treble_places",
                   messages::joined({"must be as many as along the other edge, ",
                                     less ? treble_places.size() : bass_places.size(), ", but there are ",
                                     less ? bass_places.size() : treble_places.size()}));
        }
        report_order(bass_places, "bass_places", report);
        report_order(treble_places, "treble_places", report);
    }

private:
    template <class Report>
    static constexpr void report_order(const std::vector<field<length<R>>>& places, std::string_view name,
                                       Report&& report) {
        for (std::size_t i = 1; i < places.size(); ++i) {
            if (!in_all_lanes(is_less<unit::length, R>(places[i - 1], places[i]))) {
                report(messages::path_of(name, i),
                       "must lie beyond the fret before it: two frets would cross on the board");
            }
        }
    }
};
using two_scales = basic_two_scales<double>;

/// A fan told by its frets' places.
/// @param bass,treble from the nut along the board's bass and treble edge to each fret
/// @param nut_slant as in `basic_two_scales`
template <class R>
[[nodiscard]] basic_two_scales<R> fan_by_places(std::vector<field<length<R>>> bass, std::vector<field<length<R>>> treble,
                                                param<length<R>> nut_slant) {
    basic_two_scales<R> fan;
    fan.bass_places = std::move(bass);
    fan.treble_places = std::move(treble);
    fan.nut_slant = nut_slant;
    return fan;
}

} // namespace tautline
