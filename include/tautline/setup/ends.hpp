#pragma once
/// @file
/// What the strings of a setup do at nut, saddle and anchors, and how the bridge bears their forces.

#include "../instrument/board_twist.hpp"
#include "../instrument/neck_of.hpp"
#include "../instrument/string_ends.hpp"
#include "../instrument/top_slope.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// Where a string crosses a pressing bar on its way to its end.
template <class R>
[[nodiscard]] basic_point<R> under_pressing_bar(const basic_instrument<R>& built, const basic_setup<R>& out,
                                                std::size_t i) {
    const auto& bar = *built.pressing_bar;
    const length<R> z = bar.height - built.saddle.board_line - out.strings[i].gauge * number<R>(0.5L);
    return crossing_of_bar<R>(out.bridge_strings[i].saddle, out.string_ends[i], line_place(built) + bar.distance, z,
                              bar_side::under);
}

/// Rounds in which a hanging tailpiece and the strings' places under a pressing bar settle. The bar's height is given, so
/// only the places across depend on the tailpiece.
inline constexpr int bar_rounds = 4;

/// Puts the strings' ends on a tailpiece, which is pressed down or turns into their pull.
template <class R>
void end_on_tailpiece(const basic_instrument<R>& built, const string_ends<R>& ends, basic_setup<R>& out) {
    const auto& tail = *built.tailpiece;
    basic_hinged_tailpiece<R> hung;
    hung.hinge_x = ends.x;
    hung.hinge_z = ends.z;
    hung.reach = tail.reach;
    for (int round = 0; round < (built.pressing_bar ? bar_rounds : 1); ++round) {
        out.tailpiece_rise = tail.pressed_height ? rise_at_height<R>(hung, *tail.pressed_height - built.saddle.board_line)
                                                 : kernel::tailpiece_rise<R>(hung, out.tail_strings);
        for (std::size_t i = 0; i < out.strings.size(); ++i) {
            auto& b = out.bridge_strings[i];
            out.string_ends[i] = b.anchor = bar_point<R>(hung, out.tailpiece_rise->value(), out.tail_strings[i].across);
            if (!built.pressing_bar) { continue; }
            out.tail_strings[i].saddle = b.anchor = under_pressing_bar(built, out, i);
        }
    }
    if (tail.pressed_height) {
        out.tailpiece_press = kernel::tailpiece_press<R>(hung, *out.tailpiece_rise, out.tail_strings);
    }
}

/// A string's axis at both ends of its speaking length and at its anchor. A hinged tailpiece turns into the strings'
/// pull. Everything else that strings end on is one body with the bridge. Where the soundboard has given, it moves along
/// with the saddle and turns about it.
template <class R>
void place_anchors(const basic_instrument<R>& built, const basic_top_give<R>& give, basic_setup<R>& out) {
    const std::size_t count = out.strings.size();
    const R half = number<R>(0.5L);
    const string_ends<R> ends = string_ends_of(built);
    const length<R> y_first = out.strings.front().y_at_saddle, y_last = out.strings.back().y_at_saddle;
    const length<R> middle = (y_first + y_last) * half;
    out.bridge_strings.resize(count);
    out.tail_strings.resize(count);
    for (std::size_t i = 0; i < count; ++i) {
        const auto& s = out.strings[i];
        auto& b = out.bridge_strings[i];
        b.slot.x = s.line.nut_x;
        b.slot.y = s.y_at_nut;
        b.slot.z = s.line.nut_z + s.gauge * half;
        b.saddle.x = s.line.saddle_x;
        b.saddle.y = s.y_at_saddle;
        b.saddle.z = s.line.saddle_z + s.gauge * half;
        b.tension = s.tension;
        // Strings spread at the anchor in the same proportions as on the saddle, about the same middle.
        b.anchor.y =
            count < 2
                ? length<R>(s.y_at_saddle)
                : length<R>(middle + ends.spread * R(ratio<unit::length, R>(s.y_at_saddle - middle, y_last - y_first)));
        out.tail_strings[i] = {b.saddle, b.anchor.y, b.tension};
    }

    out.tailpiece_rise.reset();
    out.tailpiece_press.reset();
    out.string_ends.resize(count);
    if (built.tailpiece) {
        end_on_tailpiece(built, ends, out);
        return;
    }
    const R c = cos(give.turn), sine = sin(give.turn);
    for (std::size_t i = 0; i < count; ++i) {
        auto& b = out.bridge_strings[i];
        const length<R> behind = ends.x + b.saddle.y * ends.lean - (b.saddle.x + give.forward);
        const length<R> below = b.saddle.z + give.drop - (ends.z + axis_at_end<R>(built, out.strings[i].gauge));
        b.anchor.x = b.saddle.x + behind * c + below * sine;
        b.anchor.z = b.saddle.z - below * c + behind * sine;
        out.string_ends[i] = b.anchor;
        if (built.pressing_bar) { b.anchor = under_pressing_bar(built, out, i); }
    }
}

/// The strings' load on a bridge that holds their ends by pins or in a tie block; nothing for other bridges.
template <class R>
void load_pins(const basic_instrument<R>& built, const basic_top_give<R>& give, basic_setup<R>& out) {
    out.pinned.reset();
    if (const auto holds = bridge_holding_ends(built)) {
        basic_pinned_bridge<R> glued;
        glued.top_middle = -built.saddle.board_line - give.drop - holds->top_thickness * number<R>(0.5L);
        glued.saddle_exposed = holds->saddle_exposed;
        glued.top_slope = top_slope(built);
        out.pinned = kernel::pinned_load<R>(glued, out.bridge_strings);
    }
}

/// What the soundboard bears from all that is glued or pressed to it. Under a floating bridge that is the down-force on
/// the saddle. A bridge with pins or a tie block holds the strings' ends too, so only the speaking sides count.
template <class R>
[[nodiscard]] basic_top_load<R> load_top(const basic_instrument<R>& built, const basic_top_give<R>& give,
                                         basic_setup<R>& out) {
    place_anchors(built, give, out);
    if (bridge_holding_ends(built)) {
        return kernel::held_load<R>(*built.soundboard, out.bridge_strings, top_slope(built));
    }
    basic_top_load<R> load;
    for (const auto& b : out.bridge_strings) {
        load.down += kernel::support_force<R>(b.slot, b.saddle, b.anchor, b.tension, b.tension).down();
    }
    return load;
}

/// Height of the neck's set at the nut, at a place across. Where the edges are not alike it differs across.
template <class R>
[[nodiscard]] length<R> nut_set_at(const basic_instrument<R>& built, const length<R>& y) {
    return set_on_centre<R>(built.neck, length<R>()) + twist_at<R>(built, length<R>(), y);
}

/// A string's way to its post under load. Head and posts ride on the neck's end, which rises and turns with the bow.
template <class R>
[[nodiscard]] basic_way_to_post<R> risen_way(const basic_instrument<R>& built, const basic_setup<R>& out, std::size_t i,
                                             const R& c, const R& sine) {
    const auto risen = [&](basic_point<R> p) {
        const length<R> lifted = out.nut_rise + nut_set_at<R>(built, length<R>(p.y));
        p.z = p.z + lifted + p.x * out.bow.slope.front();
        return p;
    };
    return way_from_nut<R>(out.bridge_strings[i].slot, built.headstock, built.posts[i], out.strings[i].gauge, c, sine,
                           risen);
}

/// A short string's way to its peg, which rides on the neck where it stands.
template <class R>
[[nodiscard]] basic_way_to_post<R> way_to_peg(const basic_instrument<R>& built, const basic_setup<R>& out, std::size_t i) {
    const auto& peg = built.posts[i];
    basic_way_to_post<R> way;
    way.post.x = out.bridge_strings[i].slot.x - peg.along;
    way.post.y = peg.across;
    way.post.z = peg.height + deflection_at<R>(out.bow, length<R>(way.post.x)) + twist_at<R>(built, way.post.x, way.post.y);
    way.first = way.post;
    return way;
}

/// Forces of a string at the nut, and at its guide or slot edge behind it.
template <class R>
void load_head(const basic_instrument<R>& built, std::size_t i, const R& c, const R& sine, basic_setup<R>& out) {
    auto& s = out.strings[i];
    const auto& b = out.bridge_strings[i];
    const auto way = built.short_strings.size() > i ? way_to_peg(built, out, i) : risen_way(built, out, i, c, sine);
    out.posts[i] = way.post;
    out.behind_nut[i] = way.first;
    s.at_nut = kernel::support_load<R>(b.saddle, b.slot, way.first, s.tension, s.tension);
    s.at_guide.reset();
    if (way.via) { s.at_guide = kernel::support_load<R>(b.slot, *way.via, way.post, s.tension, s.tension); }
}

/// Forces of all strings at nut, saddle and anchors.
template <class R>
void load_ends(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto give = out.top.value_or(basic_top_give<R>{});
    place_anchors(built, give, out);
    load_pins(built, give, out);
    out.down_force = force<R>();
    out.push_along = force<R>();
    out.anchor_pull = {};
    out.bar_force.reset();
    if (built.pressing_bar) { out.bar_force = basic_support_force<R>{}; }
    out.posts.resize(out.strings.size());
    out.behind_nut.resize(out.strings.size());
    const R c = cos(built.headstock.pitch), sine = sin(built.headstock.pitch);
    for (std::size_t i = 0; i < out.strings.size(); ++i) {
        auto& s = out.strings[i];
        const auto& b = out.bridge_strings[i];
        load_head(built, i, c, sine, out);
        s.at_saddle = kernel::support_load<R>(b.slot, b.saddle, b.anchor, s.tension, s.tension);
        out.down_force += s.at_saddle.down();
        out.push_along += s.at_saddle.on_support.x;
        if (!built.pressing_bar) {
            out.anchor_pull += s.at_saddle.on_anchor;
            continue;
        }
        *out.bar_force += kernel::support_force<R>(b.saddle, b.anchor, out.string_ends[i], s.tension, s.tension);
        out.anchor_pull += pull_along(kernel::direction_between(out.string_ends[i], b.anchor), s.tension);
    }
    out.top_force.reset();
    if (!built.body_bridge) { out.top_force = out.pinned ? out.pinned->down : out.down_force; }
}

/// Where the line of the crests under load passes the saddle, over a top that may have sunk.
template <class R>
void carry_line_to_saddle(const basic_instrument<R>& built, basic_setup<R>& out) {
    const length<R> line_x = line_place(built);
    out.line_at_saddle.reset();
    if (out.crests.size() >= 2) {
        const auto line = line_through<R>(
            out.crests.size(), [&](std::size_t i) { return out.crests[i].x.value(); },
            [&](std::size_t i) { return out.crests[i].z.value(); });
        out.line_at_saddle = length<R>::from_value(line.offset + line.slope * line_x.value()) + built.saddle.board_line +
                             (out.top ? out.top->drop : length<R>());
    }
}

/// How far friction lets the pitch stay behind the tuner, and how a floating bridge stands.
template <class R>
void put_on_its_feet(const basic_instrument<R>& built, basic_setup<R>& out) {
    for (auto& s : out.strings) {
        s.nut_dead_band = kernel::tuning_dead_band<R>(built.nut.friction, s.at_nut.break_angle);
        s.saddle_dead_band = kernel::tuning_dead_band<R>(built.saddle.friction, s.at_saddle.break_angle);
    }
    const length<R> line_x = line_place(built);
    out.standing.reset();
    if (built.feet) {
        const auto& feet = *built.feet;
        const R slope = tan(feet.top_slope);
        // A soundboard that sinks takes the feet along.
        const length<R> top_z = -built.saddle.board_line - (out.top ? out.top->sink : length<R>());
        basic_floating_bridge<R> bridge;
        bridge.front_edge.x = line_x - feet.ahead;
        bridge.front_edge.z = top_z - feet.ahead * slope;
        bridge.back_edge.x = line_x + feet.behind;
        bridge.back_edge.z = top_z + feet.behind * slope;
        bridge.bass_foot = feet.bass_foot;
        bridge.treble_foot = feet.treble_foot;
        bridge.saddle = built.saddle.friction;
        bridge.foot = feet.friction;
        out.standing = kernel::bridge_summary<R>(bridge, out.bridge_strings);
    }
    carry_line_to_saddle(built, out);
}

} // namespace tautline::kernel
