#pragma once
/// @file
/// An instrument and what it is strung with, as one measures them: the input of the whole.

#include <optional>
#include <vector>

#include "../action/intonation.hpp"
#include "../board/fret_wire.hpp"
#include "../board/spacing.hpp"
#include "../neck/neck.hpp"
#include "../strings/music_string.hpp"
#include "../strings/pitch.hpp"
#include "../supports/floating_bridge.hpp"
#include "../supports/nut.hpp"
#include "../supports/pinned_bridge.hpp"
#include "../supports/top.hpp"

namespace tautline {

/// The nut: where the strings cross it and how deep their slots are.
template <class R>
struct basic_nut {
    using real = R;
    basic_spacing<R> spacing{}; ///< where the strings cross it
    /// Bottom of each slot over the bare board under that string, bass first; one value serves all strings.
    std::vector<field<length<R>>> slot_heights{};
    /// String in slot. Published values scatter; the default is metal on wood. Steel on dry bone was found in no source.
    basic_friction<R> friction = over<R>(published_friction::metal_on_wood);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("spacing", self.spacing...);
        visit("slot_heights", between(-2 * units::mm, 20 * units::mm), self.slot_heights...);
        visit("friction", self.friction...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const auto count = static_cast<std::size_t>(string_count(spacing));
        if (slot_heights.size() != 1 && slot_heights.size() != count) {
            report("slot_heights", messages::joined({"must be one for all strings or one for each of the ", count,
                                                     ", but there are ", slot_heights.size()}));
        }
    }
};
using nut = basic_nut<double>;

/// The saddle: the top of a bridge, over the soundboard. Heights are those of the bottom of its string slots, under the
/// outermost strings.
template <class R>
struct basic_saddle {
    using real = R;
    basic_spacing<R> spacing{};       ///< where the strings cross it
    field<length<R>> height_bass{};   ///< over the soundboard, under the first string
    field<length<R>> height_treble{}; ///< over the soundboard, under the last string
    /// Arc of the saddle's top; absent: straight from bass to treble.
    std::optional<field<length<R>>> radius{};
    field<length<R>> setback_bass{};   ///< how far the saddle lies beyond the scale length, at the first string
    field<length<R>> setback_treble{}; ///< the same at the last string
    /// Where the line of the bare board, carried on to the saddle with the strings slack, passes over the soundboard.
    field<length<R>> board_line{};
    /// String on saddle; as at the nut.
    basic_friction<R> friction = over<R>(published_friction::metal_on_wood);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("spacing", self.spacing...);
        visit("height_bass", more_than_up_to(0 * units::mm, 200 * units::mm), self.height_bass...);
        visit("height_treble", more_than_up_to(0 * units::mm, 200 * units::mm), self.height_treble...);
        visit("radius", more_than(0 * units::mm), self.radius...);
        visit("setback_bass", between(-50 * units::mm, 50 * units::mm), self.setback_bass...);
        visit("setback_treble", between(-50 * units::mm, 50 * units::mm), self.setback_treble...);
        visit("board_line", between(-50 * units::mm, 150 * units::mm), self.board_line...);
        visit("friction", self.friction...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (radius &&
            !all(number<R>(0.5L) * (spacing.spread.value() + 2 * abs(spacing.offset.value())) < radius->value())) {
            report("radius", "must be more than half the spread of the strings");
        }
        if (!all(less<unit::length, R>(board_line, min<unit::length, R>(height_bass, height_treble)))) {
            report("board_line", "must pass below the saddle: the strings would lie under the board");
        }
    }
};
using saddle = basic_saddle<double>;

/// A neck as the bench measures it; its widths, its board's thickness and arc come from the board, so that wood taken off
/// the board is gone from the neck too.
template <class R>
struct basic_neck_measures {
    using real = R;
    field<length<R>> depth_at_nut{};   ///< board and back together on the centre line, without frets
    field<length<R>> depth_at_joint{}; ///< the same just before the joint
    R back_exponent = number<R>(2);    ///< roundness of the back: 1 a V, 2 an ellipse, more is squarer
    int joint_fret = 12;               ///< fret at which the neck meets the body
    field<stress<R>> board_modulus{};  ///< along the grain, as bending tests give it
    field<stress<R>> back_modulus{};   ///< along the grain, as bending tests give it
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{}; ///< absent: a rigid joint
    std::optional<basic_truss_rod<R>> rod{};                         ///< the truss rod, if there is one
    field<force<R>> rod_pull{};                                      ///< of the rod as it is set; 0 is slack
    R creep_factor = number<R>(1);                                   ///< all of the elastic bow times this
    std::vector<basic_set_mark<R>> set{}; ///< shape of the board with no load, off the straight line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("depth_at_nut", more_than_up_to(0 * units::mm, 100 * units::mm), self.depth_at_nut...);
        visit("depth_at_joint", more_than_up_to(0 * units::mm, 100 * units::mm), self.depth_at_joint...);
        visit("back_exponent", between(1, 20), self.back_exponent...);
        visit("joint_fret", between(1, 240), self.joint_fret...);
        visit("board_modulus", more_than_up_to(0 * units::GPa, 1000 * units::GPa), self.board_modulus...);
        visit("back_modulus", more_than_up_to(0 * units::GPa, 1000 * units::GPa), self.back_modulus...);
        visit("joint_stiffness", more_than_up_to(0 * units::N_m_per_rad, 1e9 * units::N_m_per_rad),
              self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("rod_pull", between(-100000 * units::N, 100000 * units::N), self.rod_pull...);
        visit("creep_factor", between(1, 10), self.creep_factor...);
        visit("set", self.set...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!rod && !all(rod_pull.value() == number<R>(0))) { report("rod_pull", "must be 0 where there is no rod"); }
    }
};
using neck_measures = basic_neck_measures<double>;

/// A tailpiece that swings on its hanger at the end of the body, behind a floating bridge.
template <class R>
struct basic_tailpiece {
    using real = R;
    field<length<R>> hinge_distance{}; ///< from the saddle's line (scale length) back to where it hangs
    field<length<R>> hinge_height{};   ///< of that place over the soundboard's plane at the saddle; negative below it
    field<length<R>> reach{};          ///< from there forward to where the strings leave it
    field<length<R>> spread{};         ///< between the outermost strings on it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("hinge_distance", more_than_up_to(0 * units::mm, 1000 * units::mm), self.hinge_distance...);
        visit("hinge_height", between(-150 * units::mm, 150 * units::mm), self.hinge_height...);
        visit("reach", more_than_up_to(0 * units::mm, 1000 * units::mm), self.reach...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!all(less<unit::length, R>(reach, hinge_distance))) {
            report("reach", "must be less than hinge_distance: the bridge would stand beyond the tailpiece");
        }
    }
};
using tailpiece = basic_tailpiece<double>;

/// Strings held behind the saddle at a fixed place: bridge pins, a tie block.
template <class R>
struct basic_pins {
    using real = R;
    field<length<R>>
        distance{}; ///< from the saddle's line (scale length) back to where the string leaves the edge of its hole
    field<length<R>> height{};         ///< of that edge over the soundboard
    field<length<R>> spread{};         ///< between the outermost strings there
    field<length<R>> top_thickness{};  ///< of the soundboard under the bridge; the turning moment is taken about its middle
    field<length<R>> saddle_exposed{}; ///< how far the saddle stands out of its slot

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("distance", more_than_up_to(0 * units::mm, 300 * units::mm), self.distance...);
        visit("height", between(-50 * units::mm, 150 * units::mm), self.height...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
        visit("top_thickness", between(0 * units::mm, 20 * units::mm), self.top_thickness...);
        visit("saddle_exposed", between(0 * units::mm, 30 * units::mm), self.saddle_exposed...);
    }
};
using pins = basic_pins<double>;

/// The feet of a floating bridge on the soundboard.
template <class R>
struct basic_bridge_feet {
    using real = R;
    field<length<R>> ahead{};       ///< from the saddle's line (scale length) forward to the front edge of the feet
    field<length<R>> behind{};      ///< from there back to their back edge
    field<angle<R>> top_slope{};    ///< of the soundboard there, positive where it rises toward the tail
    field<length<R>> bass_foot{};   ///< middle of the bass foot, across
    field<length<R>> treble_foot{}; ///< middle of the treble foot, across
    basic_friction<R> friction = over<R>(published_friction::wood_on_wood); ///< feet on soundboard

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("ahead", between(-50 * units::mm, 100 * units::mm), self.ahead...);
        visit("behind", between(-50 * units::mm, 100 * units::mm), self.behind...);
        visit("top_slope", between(-30 * units::deg, 30 * units::deg), self.top_slope...);
        visit("bass_foot", between(-150 * units::mm, 150 * units::mm), self.bass_foot...);
        visit("treble_foot", between(-150 * units::mm, 150 * units::mm), self.treble_foot...);
        visit("friction", self.friction...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!all(number<R>(0) < (ahead + behind).value())) {
            report("behind", "must leave the feet some length along the strings");
        }
        if (!all(bass_foot.value() < treble_foot.value())) {
            report("treble_foot", "must be on the treble side of the bass foot");
        }
    }
};
using bridge_feet = basic_bridge_feet<double>;

/// How the instrument is played and how the ends hold a sounding string: habits and calibrations, none of which has a
/// published value. They move intonation and buzz; measure or try them on the instrument in hand.
template <class R>
struct basic_playing {
    using real = R;
    basic_finger_press<R> finger{};                                             ///< how strings are pressed
    field<length<R>> pluck_from_saddle{length<R>::from_value(number<R>(0.1L))}; ///< where strings are plucked
    R nut_end = number<R>(0.5L);    ///< 0 hinged, 1/2 running on over an edge, 1 clamped
    R fret_end = number<R>(0.5L);   ///< the same at a fret
    R saddle_end = number<R>(0.5L); ///< the same at the saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("finger", self.finger...);
        visit("pluck_from_saddle", more_than_up_to(0 * units::mm, 1000 * units::mm), self.pluck_from_saddle...);
        visit("nut_end", between(0, 1), self.nut_end...);
        visit("fret_end", between(0, 1), self.fret_end...);
        visit("saddle_end", between(0, 1), self.saddle_end...);
    }
};
using playing = basic_playing<double>;

template <class R>
struct basic_instrument;
template <class R>
[[nodiscard]] constexpr length<R> joint_place(const basic_instrument<R>& i);

/// An instrument, unstrung.
template <class R>
struct basic_instrument {
    using real = R;
    basic_board<R> board{};                        ///< outline, thickness, arc and scale
    basic_frets<R> frets{};                        ///< the wire and how it was left
    basic_neck_measures<R> neck{};                 ///< what is known of the neck
    basic_nut<R> nut{};                            ///< where strings begin
    basic_headstock<R> headstock{};                ///< where the tuners are
    std::vector<basic_tuner_post<R>> posts{};      ///< one for each string, bass first
    basic_saddle<R> saddle{};                      ///< where strings end
    std::optional<basic_tailpiece<R>> tailpiece{}; ///< this or pins
    std::optional<basic_pins<R>> pins{};           ///< this or a tailpiece
    std::optional<basic_bridge_feet<R>> feet{};    ///< of a floating bridge: whether it stands, slides, tips
    /// How the soundboard gives at the bridge; where it is known, heights of the saddle are those of the slack instrument.
    std::optional<basic_soundboard<R>> soundboard{};
    basic_playing<R> playing{}; ///< habits and calibrations

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("board", self.board...);
        visit("frets", self.frets...);
        visit("neck", self.neck...);
        visit("nut", self.nut...);
        visit("headstock", self.headstock...);
        visit("posts", self.posts...);
        visit("saddle", self.saddle...);
        visit("tailpiece", self.tailpiece...);
        visit("pins", self.pins...);
        visit("feet", self.feet...);
        visit("soundboard", self.soundboard...);
        visit("playing", self.playing...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const int count = string_count(nut.spacing);
        if (string_count(saddle.spacing) != count) { report("saddle.spacing", "must have as many strings as the nut"); }
        if (posts.size() != static_cast<std::size_t>(count)) {
            report("posts",
                   messages::joined({"must be one for each of the ", count, " strings, but there are ", posts.size()}));
        }
        if (tailpiece.has_value() == pins.has_value()) {
            report("tailpiece", tailpiece ? "must not be given together with pins" : "must be given, or pins");
        }
        const length<R> saddle_x =
            board.scale.scale_length + min<unit::length, R>(saddle.setback_bass, saddle.setback_treble);
        if (!all(less<unit::length, R>(kernel::fret_position(board.scale, board.scale.frets), saddle_x))) {
            report("board.scale.frets", "must end before the saddle");
        }
        if (board.scale.frets > 0 && neck.joint_fret > board.scale.frets) {
            report("neck.joint_fret", messages::joined({"must be one of the board's ", board.scale.frets, " frets"}));
        }
        if (!all(less<unit::length, R>(board.thickness, neck.depth_at_nut))) {
            report("neck.depth_at_nut", "must be more than the thickness of the board there");
        }
        const bool joint_known = board.scale.measured_places.empty() || neck.joint_fret <= board.scale.frets;
        if (joint_known &&
            !all(less<unit::length, R>(kernel::thickness_at<R>(board, joint_place(*this)), neck.depth_at_joint))) {
            report("neck.depth_at_joint", "must be more than the thickness of the board there");
        }
    }
};
using instrument = basic_instrument<double>;

/// Where the neck meets the body: the place of its joint fret. On a board without frets the fret is counted on the scale
/// all the same.
template <class R>
[[nodiscard]] constexpr length<R> joint_place(const basic_instrument<R>& i) {
    auto counted = i.board.scale;
    if (counted.measured_places.empty()) { counted.frets = i.neck.joint_fret; }
    return kernel::fret_position(counted, i.neck.joint_fret);
}

/// The neck of an instrument as a beam is made of it, written into `n`: sections at the nut and at the joint.
template <class R>
void neck_of(const basic_instrument<R>& i, basic_neck<R>& n) {
    const auto& m = i.neck;
    n.joint = joint_place(i);
    n.stations.resize(2);
    for (std::size_t k = 0; k < 2; ++k) {
        auto& s = n.stations[k];
        s.x = k == 0 ? length<R>() : length<R>(n.joint);
        s.half_width = kernel::half_width_at<R>(i.board, s.x);
        s.board_thickness = kernel::thickness_at<R>(i.board, s.x);
        s.board_arc = kernel::arc_curvature<R>(i.board.surface, s.x);
        s.back_depth = (k == 0 ? m.depth_at_nut : m.depth_at_joint) - s.board_thickness;
        s.back_exponent = m.back_exponent;
    }
    n.board_modulus = m.board_modulus;
    n.back_modulus = m.back_modulus;
    n.joint_stiffness = m.joint_stiffness;
    n.rod = m.rod;
    n.creep_factor = m.creep_factor;
    n.set = m.set;
}

/// A string and the note it is tuned to.
template <class R>
struct basic_tuned_string {
    using real = R;
    basic_music_string<R> string{}; ///< what it is made of
    note pitch{};                   ///< by number, in the standard's steps

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("string", self.string...);
        visit("pitch", self.pitch...);
    }
};
using tuned_string = basic_tuned_string<double>;

/// What an instrument is strung with, bass first, and the pitch standard it is tuned to.
template <class R>
struct basic_stringing {
    using real = R;
    std::vector<basic_tuned_string<R>> strings{}; ///< bass first
    basic_pitch_standard<R> standard{};           ///< pitch of A4 and temperament

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("standard", self.standard...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (strings.empty()) { report("strings", "must hold at least one string"); }
    }
};
using stringing = basic_stringing<double>;

} // namespace tautline
