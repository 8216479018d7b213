#pragma once
/// @file
/// An instrument as it is measured, without strings.

#include <optional>
#include <vector>

#include "../board/fret_wire.hpp"
#include "../core/when_used.hpp"
#include "../neck/nut_kind.hpp"
#include "../supports/nut.hpp"
#include "../supports/top.hpp"
#include "fret_lines.hpp"
#include "parts.hpp"
#include "saddle_top.hpp"

namespace tautline {

template <class R = double>
struct basic_instrument;
template <class R>
[[nodiscard]] length<R> joint_place(const basic_instrument<R>& i);

/// An instrument without strings. Strings, slots and posts are listed bass first.
template <class R>
struct basic_instrument {
    using real = R;
    basic_board<R> board;         ///< outline, thickness, arc and scale
    basic_frets<R> frets;         ///< the wire and how it was left
    basic_neck_measures<R> neck;  ///< what is known of the neck
    basic_nut<R> nut{};           ///< where strings begin
    basic_headstock<R> headstock; ///< where the tuners are
    /// One post for each string, bass first. For a string with a nut of its own it is the peg: `along` counts back from
    /// that nut, and `height` is over the plane of the bare board.
    std::vector<basic_tuner_post<R>> posts{};
    /// Strings that begin at nuts of their own on the neck. They are the first of all strings, on the bass side.
    std::vector<basic_short_string<R>> short_strings{};
    basic_saddle<R> saddle;                            ///< where strings end
    std::optional<basic_tailpiece<R>> tailpiece{};     ///< strings end on exactly one of this and the next three
    std::optional<basic_pins<R>> pins{};               ///< in place of a tailpiece
    std::optional<basic_tie_block<R>> tie_block{};     ///< in place of a tailpiece
    std::optional<basic_body_bridge<R>> body_bridge{}; ///< in place of a tailpiece; then neither feet nor soundboard
    std::optional<basic_pressing_bar<R>>
        pressing_bar{};                         ///< the strings run under it behind the saddle; absent: straight on
    std::optional<basic_bridge_feet<R>> feet{}; ///< of a floating bridge: tell whether it stands, slides or tips
    /// How the soundboard gives at the bridge. Where it is given, the saddle's heights are those of the slack instrument.
    std::optional<basic_soundboard<R>> soundboard{};
    basic_playing<R> playing{}; ///< habits of the player and calibrations

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("board", self.board...);
        visit("frets", self.frets...);
        visit("neck", self.neck...);
        visit("nut", self.nut...);
        visit("headstock", self.headstock...);
        visit("posts", self.posts...);
        visit("short_strings", self.short_strings...);
        visit("saddle", self.saddle...);
        visit("tailpiece", self.tailpiece...);
        visit("pins", self.pins...);
        visit("tie_block", self.tie_block...);
        visit("body_bridge", self.body_bridge...);
        visit("pressing_bar", self.pressing_bar...);
        visit("feet", self.feet...);
        visit("soundboard", self.soundboard...);
        visit("playing", self.playing...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const int count = string_count(nut.spacing) + static_cast<int>(short_strings.size());
        if (string_count(saddle.spacing) != count) {
            report("saddle.spacing", short_strings.empty() ? "must have as many strings as the nut"
                                                           : "must have as many strings as the nut and short_strings");
        }
        if (nut.slot_heights.size() != 1 && nut.slot_heights.size() != static_cast<std::size_t>(count)) {
            report("nut.slot_heights", messages::joined({"must be one for all strings or one for each of the ", count,
                                                         ", but there are ", nut.slot_heights.size()}));
        }
        if (posts.size() != static_cast<std::size_t>(count)) {
            report("posts",
                   messages::joined({"must be one for each of the ", count, " strings, but there are ", posts.size()}));
        }
        if (posts_are_mirrored()) {
            report("posts",
                   "must stand in the strings' order, bass first and the bass side negative, but every one is on the "
                   "other side of the centre line than its string");
        }
        report_string_ends(report);
        if (!report_short_strings(report)) { return; }
        if ((pins || tie_block) && soundboard && !soundboard->turn_stiffness) {
            report("soundboard.turn_stiffness", "must be given: the strings turn a bridge that holds them");
        }
        if (!board.scale.fan) { report_head(length<R>(), report); }
        const auto at_nut = kernel::outermost(nut.spacing), at_saddle = kernel::outermost(saddle.spacing);
        if (board.scale.fan && !report_fan(report)) { return; }
        const kernel::board_lines<R> lines(*this);
        const R along = ratio<unit::length, R>(board.board_length, lines.saddle().x);
        const auto over_arc = [this](const length<R>& x, const length<R>& y) {
            return in_all_lanes(abs(R(kernel::arc_curvature(board.surface, x) * y)) <= number<R>(1));
        };
        bool by_board = true, on_arc = true;
        for (std::size_t side = 0; side < 2; ++side) {
            const length<R> y = at_nut[side] + (at_saddle[side] - at_nut[side]) * along;
            by_board = by_board && over_arc(length<R>(), at_nut[side]) &&
                       in_all_lanes(abs(at_nut[side]).value() <= board.width_at_nut.value());
            on_arc = on_arc && over_arc(board.board_length, y);
        }
        if (!by_board) { report("nut.spacing", "must keep the strings over the board, or close beside it"); }
        if (by_board && !on_arc) {
            report("saddle.spacing", "must keep the strings over the arc of the board as far as it reaches");
        }
        const auto last = lines.fret(board.scale.frets), end = lines.saddle();
        for (const length<R>& y : at_saddle) {
            if (in_all_lanes(is_less<unit::length, R>(last.at(y), end.at(y) + kernel::least_setback(saddle)))) { continue; }
            report("board.scale.frets", "must end before the saddle");
            break;
        }
        if (frets.zero_crown && !board.scale.zero_fret) {
            report("frets.zero_crown", "must be left out: the board has no zero fret");
        }
        report_wear(frets.wear, "frets.wear", report);
        report_wear(frets.wear_bass, "frets.wear_bass", report);
        report_wear(frets.wear_treble, "frets.wear_treble", report);
        if (board.scale.frets > 0 && neck.joint_fret > board.scale.frets) {
            report("neck.joint_fret", messages::joined({"must be one of the board's ", board.scale.frets, " frets"}));
        }
        if (!in_all_lanes(is_less<unit::length, R>(board.thickness, neck.depth_at_nut))) {
            report("neck.depth_at_nut", "must be more than the thickness of the board there");
        }
        report_neck_parts(report);
        const bool joint_known = board.scale.measured_places.empty() || neck.joint_fret <= board.scale.frets;
        if (joint_known && !in_all_lanes(is_less<unit::length, R>(kernel::thickness_at<R>(board, joint_place(*this)),
                                                                  neck.depth_at_joint))) {
            report("neck.depth_at_joint", "must be more than the thickness of the board there");
        }
    }

private:
    /// Wear is told of frets that are there. The last ones may be left out: they count as unworn.
    template <class Report>
    void report_wear(const std::vector<field<length<R>>>& wear, const char* name, Report&& report) const {
        if (wear.size() > static_cast<std::size_t>(board.scale.frets)) {
            report(name, messages::joined({"must be at most one for each of the ", board.scale.frets,
                                           " frets, but there are ", wear.size()}));
        }
    }
    /// Whatever is let into the neck must lie inside it.
    template <class Report>
    void report_neck_parts(Report&& report) const {
        if (neck.slots && !in_all_lanes(is_less<unit::length, R>(neck.slots->depth, board.thickness))) {
            report("neck.slots.depth", "must be less than the thickness of the board");
        }
        const bool joint_known = board.scale.measured_places.empty() || neck.joint_fret <= board.scale.frets;
        const length<R> joint = joint_known ? joint_place(*this) : length<R>(board.board_length);
        const R room = number<R>(1e-3L); // a profile gauge reaches that far over the edge
        for (std::size_t k = 0; k < neck.traced.size(); ++k) {
            const auto& t = neck.traced[k];
            if (!in_all_lanes(t.x.value() <= joint.value() + number<R>(1e-6L))) {
                report(messages::path_of("neck.traced", k, "x"), "must lie between the nut and the joint");
                continue;
            }
            const R half = kernel::half_width_at<R>(board, t.x).value() + room;
            if (!in_all_lanes(-half <= t.profile.front().y.value()) || !in_all_lanes(t.profile.back().y.value() <= half)) {
                report(messages::path_of("neck.traced", k, "profile"), "must not be wider than the board there");
            }
        }
    }
    /// Checks what only strings and board together say of a fan; returns whether the other rules make sense then.
    template <class Report>
    bool report_fan(Report&& report) const {
        if (nut.spacing.courses.size() < 2 || saddle.spacing.courses.size() < 2) {
            report("board.scale.fan", "must be left out where there are not two courses, whose scales they would be");
            return false;
        }
        const bool by_scales = !board.scale.fan->measured();
        if (by_scales && !is_valid(kernel::fan_of(board.scale, nut.spacing, saddle.spacing))) {
            report("board.scale.fan", "must be scales that are longer than their strings run sideways from nut to saddle");
            return false;
        }
        if (!by_scales && (!is_valid(*board.scale.fan) || !is_valid(board.scale))) { return false; } // told there
        const kernel::board_lines<R> lines(*this);
        if (by_scales && !kernel::lines_in_order<R>(*this, lines)) {
            report("board.scale.fan", "must be scales whose frets do not cross on the board");
            return false;
        }
        if (!by_scales && !report_missed_fret(lines, report)) { return false; }
        if (in_any_lane(is_less<unit::length, R>(board.board_length, lines.fret(board.scale.frets).x))) {
            report("board.board_length", "must reach the last fret");
        }
        const auto at_nut = lines.fret(0);
        const auto y = kernel::outermost(nut.spacing);
        const length<R> joint = lines.fret(neck.joint_fret).x;
        const length<R> furthest = max<unit::length, R>(at_nut.at(y[0]), at_nut.at(y[1]));
        if (!in_all_lanes(is_less<unit::length, R>(furthest, joint))) {
            report("board.scale.fan", "must be scales that leave the whole nut before the joint of the neck");
            return false;
        }
        const length<R> nearest = min<unit::length, R>(at_nut.at(y[0]), at_nut.at(y[1]));
        for (std::size_t k = 0; k < posts.size(); ++k) {
            if (in_all_lanes(is_less(kernel::post_point(headstock, posts[k]).x, nearest))) { continue; }
            report(messages::path_of("posts", k, "along"), "must be more: the post would stand beside the slanted nut");
        }
        report_head(nearest, report);
        const auto y_end = kernel::outermost(saddle.spacing);
        const length<R> saddles = max<unit::length, R>(lines.saddle().at(y_end[0]), lines.saddle().at(y_end[1]));
        if (tailpiece && !in_all_lanes(is_less<unit::length, R>(saddles, lines.saddle().x + tailpiece->hinge_distance -
                                                                             tailpiece->reach))) {
            report("tailpiece.reach", "must be less: some string's saddle would lie beyond the tailpiece");
        }
        return true;
    }
    /// Checks the strings that have nuts of their own; returns whether the other rules make sense then.
    template <class Report>
    bool report_short_strings(Report&& report) const {
        if (short_strings.empty()) { return true; }
        if (board.scale.fan) {
            report("short_strings",
                   "must be left out on fanned frets: the place of a string's own nut is known on square frets only");
            return false;
        }
        for (std::size_t k = 0; k < short_strings.size(); ++k) {
            const int fret = short_strings[k].fret;
            if (fret >= neck.joint_fret || fret >= board.scale.frets) {
                report(messages::path_of("short_strings", k, "fret"), "must be before the joint and before the last fret");
                return false;
            }
            if (k < posts.size() && (posts[k].guide || posts[k].roller)) {
                report(messages::path_of("posts", k), "must be without guide and roller: it is the peg of a short string");
                return false;
            }
        }
        return true;
    }
    /// Checks a board whose frets are told by their places along its edges: every string must cross all of them on the
    /// board, one after the other.
    template <class Report>
    bool report_missed_fret(const kernel::board_lines<R>& lines, Report&& report) const {
        for (const auto& path : {lines.outer().bass, lines.outer().treble}) {
            if (!in_all_lanes(is_less<unit::length, R>(path.x_at_nut, path.x_at_saddle))) {
                report("board.scale.fan.nut_slant", "must leave the nut before the octave's fret under both outer strings");
                return false;
            }
            for (int n = 1; n <= board.scale.frets; ++n) {
                const auto l = lines.fret(n);
                const auto at = l.crossed_by(path.x_at_nut, path.y_at_nut, kernel::path_slope(path));
                if (in_all_lanes(abs(at.y).value() <= kernel::half_width_at<R>(board, at.x).value())) { continue; }
                report("board.scale.fan",
                       messages::joined({"must be places of frets under all strings, but an outer string "
                                         "runs beside the end of fret ",
                                         n}));
                return false;
            }
        }
        return true;
    }
    /// Strings must end on exactly one thing. A solid body has neither feet nor a soundboard that gives.
    template <class Report>
    void report_string_ends(Report&& report) const {
        if (!tailpiece && !pins && !tie_block && !body_bridge) {
            report("tailpiece", "must be given, or pins, or a tie_block, or body_bridge: the strings end on one of them");
        }
        if (tailpiece && pins) { report("tailpiece", "must not be given together with pins"); }
        if (tie_block && tailpiece) { report("tie_block", "must not be given together with a tailpiece"); }
        if (tie_block && pins) { report("tie_block", "must not be given together with pins"); }
        report_bar(report);
        if (!body_bridge) { return; }
        if (tailpiece) { report("body_bridge", "must not be given together with a tailpiece: it holds the strings' ends"); }
        if (pins) { report("body_bridge", "must not be given together with pins: it holds the strings' ends"); }
        if (tie_block) { report("body_bridge", "must not be given together with a tie_block: it holds the strings' ends"); }
        if (feet) {
            report("feet", "must be left out with a body_bridge: it is fixed to the body and does not stand on feet");
        }
        if (soundboard) { report("soundboard", "must be left out with a body_bridge: a solid body has none that gives"); }
    }
    /// A pressing bar must be fixed to the body, between the saddle and what the strings end on.
    template <class Report>
    void report_bar(Report&& report) const {
        if (!pressing_bar) { return; }
        if (!tailpiece && !body_bridge) {
            report("pressing_bar", "must be left out where the bridge itself holds the strings' ends");
            return;
        }
        if (board.scale.fan) {
            report("pressing_bar", "must be left out on fanned frets: where it lies before each saddle is not told");
            return;
        }
        const length<R> end =
            tailpiece ? length<R>(tailpiece->hinge_distance - tailpiece->reach) : length<R>(body_bridge->distance);
        if (!in_all_lanes(is_less<unit::length, R>(pressing_bar->distance, end))) {
            report("pressing_bar.distance", "must be less than to where the strings end: they run under it before");
        }
        if (!in_all_lanes(is_less<unit::length, R>(kernel::most_setback(saddle), pressing_bar->distance))) {
            report("pressing_bar.distance", "must be more than every saddle's setback: it lies behind the saddle");
        }
    }
    /// Checks where guides and rollers are on the head.
    template <class Report>
    void report_head(const length<R>& nearest_nut, Report&& report) const {
        const R c = cos(headstock.pitch), s = sin(headstock.pitch);
        const auto is_behind = [&](const length<R>& along, const length<R>& height, const length<R>& reach) {
            const auto p = kernel::head_point<R>(headstock, along, length<R>(), height, c, s);
            return in_all_lanes(is_less<unit::length, R>(p.x, nearest_nut - reach));
        };
        for (std::size_t k = short_strings.size(); k < posts.size(); ++k) {
            const auto& post = posts[k];
            if (!kernel::stands_on_face<R>(post)) {
                report(messages::path_of("posts", k, "height"),
                       "must be at least 0 mm without a roller: a post stands on the face");
            }
            if (post.roller &&
                !is_behind(post.along, post.height, *post.roller * number<R>(0.5L) + over<R>(4 * units::mm))) {
                report(messages::path_of("posts", k, "roller"), "must be less: it would reach the nut");
            }
            if (post.guide && !is_behind(post.guide->along, post.guide->height, length<R>())) {
                report(messages::path_of("posts", k, "guide.along"), "must be more: the guide would stand before the nut");
            }
            if (post.roller && headstock.slot_start && !kernel::roller_is_behind<R>(post, *headstock.slot_start)) {
                report("headstock.slot_start", "must be less: every roller lies in its slot");
                return;
            }
        }
    }
    [[nodiscard]] bool posts_are_mirrored() const {
        const R none = number<R>(0);
        bool mirrored = posts.size() > 1;
        for (std::size_t i = 0; i < posts.size(); ++i) {
            const R y = posts[i].across.value();
            if (2 * i + 1 < posts.size()) { mirrored = mirrored && in_all_lanes(none < y); }
            if (2 * i + 1 > posts.size()) { mirrored = mirrored && in_all_lanes(y < none); }
        }
        return mirrored;
    }
};
using instrument = basic_instrument<double>;
TAUTLINE_HELD(std::vector<problem> validate<instrument>(const instrument&, std::string_view))
TAUTLINE_HELD(bool is_valid<instrument>(const instrument&))

namespace kernel {

/// A string's own nut on the neck; null where the instrument's nut carries the string.
template <class R>
[[nodiscard]] constexpr const basic_short_string<R>* own_nut_of(const basic_instrument<R>& i, std::size_t string) {
    return string < i.short_strings.size() ? &i.short_strings[string] : nullptr;
}
/// The rule for the number of strings: one for each place at the nut, and one for each nut on the neck.
template <class R, class Report>
void report_string_count(const basic_instrument<R>& i, std::size_t strings, Report&& report) {
    const auto count = static_cast<std::size_t>(string_count(i.nut.spacing)) + i.short_strings.size();
    if (strings == 0) {
        report("strings", "must hold at least one string");
    } else if (strings != count) {
        report("strings",
               messages::joined({"must be ", count, i.short_strings.empty() ? ", as the nut has" : ", as the nut",
                                 i.short_strings.empty() ? "" : " and short_strings have", ", but there are ", strings}));
    }
}

} // namespace kernel

/// Number of strings in each course, bass first: each short string by itself, then the courses that the nut carries.
template <class R>
[[nodiscard]] std::vector<int> courses_of(const basic_instrument<R>& i) {
    std::vector<int> courses(i.short_strings.size(), 1);
    courses.insert(courses.end(), i.nut.spacing.courses.begin(), i.nut.spacing.courses.end());
    return courses;
}

/// Where the neck meets the body: the place of its joint fret on the centre line. On a board without frets that fret is
/// counted on the scale.
template <class R>
[[nodiscard]] length<R> joint_place(const basic_instrument<R>& i) {
    if (i.board.scale.fan) { return kernel::board_lines<R>(i).fret(i.neck.joint_fret).x; }
    auto counted = i.board.scale;
    if (counted.measured_places.empty()) { counted.frets = i.neck.joint_fret; }
    return kernel::fret_position(counted, i.neck.joint_fret);
}

} // namespace tautline
