#pragma once
/// @file
/// The tailpiece solved backwards: how high its anchor must be for a wanted down-force or break angle.
///
/// Source: statics of bridge.hpp, inverted by a root search. A higher anchor gives less break and less down-force.

#include <optional>
#include <vector>

#include "bridge.hpp"

namespace tautline {

/// A tailpiece that keeps its place: the strings leave a fixed bar square to the centre line.
template <class R = double>
struct basic_rigid_tailpiece {
    using real = R;
    needed<length<R>> x; ///< of the bar
    needed<length<R>> z; ///< of the bar

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument(), self.x...);
        visit("z", about_an_instrument(), self.z...);
    }
};
using rigid_tailpiece = basic_rigid_tailpiece<double>;

/// What the search found: the height that meets the wish, or the nearest allowed one.
template <class R = double>
struct basic_anchor_plan {
    using real = R;
    bool reachable = false; ///< whether the wish is met
    length<R> height{};     ///< of the hinge or of the rigid bar
    force<R> down{};        ///< of all strings together at that height
    angle<R> mean_break{};  ///< mean of the strings' `down_break` at that height
};
using anchor_plan = basic_anchor_plan<double>;

namespace kernel {

template <class R>
constexpr void put_at_height(basic_hinged_tailpiece<R>& tail, const length<R>& z) {
    tail.hinge_z = z;
}
template <class R>
constexpr void put_at_height(basic_rigid_tailpiece<R>& tail, const length<R>& z) {
    tail.z = z;
}
template <class R>
void loads_at(const basic_hinged_tailpiece<R>& tail, std::span<const basic_point<R>> slots,
              std::span<const basic_tail_string<R>> strings, std::span<basic_support_load<R>> loads) {
    kernel::saddle_loads<R>(tail, slots, strings, loads);
}
template <class R>
void loads_at(const basic_rigid_tailpiece<R>& tail, std::span<const basic_point<R>> slots,
              std::span<const basic_tail_string<R>> strings, std::span<basic_support_load<R>> loads) {
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const auto& s = strings[i];
        loads[i] = kernel::support_load<R>(slots[i], s.saddle, basic_point<R>{.x = tail.x, .y = s.across, .z = tail.z},
                                           s.tension, s.tension);
    }
}

/// Strings and tailpiece in number type S, which R converts to, and room for their loads: made once for a search.
template <class S, class Tail>
class anchored {
public:
    template <class R>
    void take(const Tail& tail, std::span<const basic_point<R>> slots, std::span<const basic_tail_string<R>> strings) {
        tail_ = tautline::over<S>(tail);
        slots_.clear();
        strings_.clear();
        for (const auto& p : slots) { slots_.push_back(tautline::over<S>(p)); }
        for (const auto& s : strings) { strings_.push_back(tautline::over<S>(s)); }
        loads_.resize(strings.size());
    }
    /// Down-force and mean break of the strings with the anchor at height z.
    [[nodiscard]] basic_anchor_plan<S> at(const length<S>& z) {
        put_at_height(*tail_, z);
        loads_at<S>(*tail_, slots_, strings_, loads_);
        basic_anchor_plan<S> plan{.reachable = true, .height = z};
        for (const auto& load : loads_) {
            plan.down += load.down();
            plan.mean_break += load.down_break / static_cast<double>(loads_.size());
        }
        return plan;
    }

private:
    std::optional<description::rebound_t<Tail, S>> tail_{};
    std::vector<basic_point<S>> slots_{};
    std::vector<basic_tail_string<S>> strings_{};
    std::vector<basic_support_load<S>> loads_{};
};
/// What a search for an anchor's height holds.
template <class R, class Tail>
struct anchor_room {
    anchored<R, Tail> plain{};
    anchored<dual<R, 1>, Tail> sloped{};
};

/// The same height by Newton's steps from one that is near it; nothing where they do not lead to it.
template <class Tail, class R, class Measure>
[[nodiscard]] std::optional<basic_anchor_plan<R>> anchor_near(const R& wanted, const length<R>& lowest,
                                                              const length<R>& highest, Measure&& measure,
                                                              const length<R>& from, anchor_room<R, Tail>& room) {
    const R tiny = number<R>(1e-7L); // in metres: Newton's next step then changes the last digits
    const length<R> z = length<R>::from_value(newton_root(
        [&](const auto& height) {
            using S = std::remove_cvref_t<decltype(height)>;
            const length<S> there = length<S>::from_value(height);
            if constexpr (std::is_same_v<S, R>) {
                return R(measure(room.plain.at(there)) - wanted);
            } else {
                return S(measure(room.sloped.at(there)) - S(wanted));
            }
        },
        from.value(), tiny));
    if (!in_all_lanes(lowest.value() <= z.value()) || !in_all_lanes(z.value() <= highest.value())) { return std::nullopt; }
    auto found = room.plain.at(z);
    const R off = measure(found) - wanted;
    if (!in_all_lanes(abs(off) <= number<R>(1e-12L) * abs(wanted))) { return std::nullopt; }
    return found;
}

/// The height between `lowest` and `highest` at which `measure(plan)` is `wanted`; the measure falls with the height.
/// @param from a height that may be near it; null: none is known
template <class Tail, class R, class Measure>
[[nodiscard]] basic_anchor_plan<R> anchor_plan(const Tail& tail, std::span<const basic_point<R>> slots,
                                               std::span<const basic_tail_string<R>> strings, const R& wanted,
                                               const length<R>& lowest, const length<R>& highest, Measure&& measure,
                                               anchor_room<R, Tail>& room, const length<R>* from = nullptr) {
    room.plain.take(tail, slots, strings);
    if (from) {
        room.sloped.take(tail, slots, strings);
        if (const auto found = anchor_near<Tail, R>(wanted, lowest, highest, measure, *from, room)) { return *found; }
    }
    const auto low = room.plain.at(lowest), high = room.plain.at(highest);
    if (!in_all_lanes(wanted <= measure(low)) || !in_all_lanes(measure(high) <= wanted)) {
        auto nearest = in_all_lanes(measure(low) < wanted) ? low : high;
        nearest.reachable = false;
        return nearest;
    }
    room.sloped.take(tail, slots, strings);
    const length<R> z = find_root(
        [&](const length<dual<R, 1>>& height) {
            return length<dual<R, 1>>::from_value(measure(room.sloped.at(height)) - dual<R, 1>(wanted));
        },
        lowest, highest);
    return room.plain.at(z);
}

template <class Tail, class R>
void require_anchor_search(const Tail& tail, std::span<const basic_point<R>> slots,
                           std::span<const basic_tail_string<R>> strings, const length<R>& lowest,
                           const length<R>& highest) {
    // The search looks for this height.
    auto placed = tail;
    put_at_height(placed, length<R>());
    require_valid(placed, "tailpiece");
    require_that(!strings.empty() && slots.size() == strings.size(), "slots and strings",
                 "must have one entry for each string, and at least one");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        // Paths are put together only where they are told.
        if (!is_valid(strings[i])) { require_valid(strings[i], messages::path_of("strings", i)); }
        if (!is_valid(slots[i])) { require_valid(slots[i], messages::path_of("slots", i)); }
        length<R> edge{};
        if constexpr (requires { tail.reach; }) {
            edge = tail.hinge_x - tail.reach;
        } else {
            edge = tail.x;
        }
        if (!in_all_lanes(strings[i].saddle.x.value() < edge.value())) {
            require_that(false, messages::path_of("strings", i, "saddle.x"),
                         "must be before the tailpiece: the bridge stands beyond it");
        }
        if (!in_all_lanes(number<R>(0) < strings[i].tension.value())) {
            require(messages::path_of("strings", i, "tension"), strings[i].tension, more_than(0 * units::N));
        }
    }
    require("lowest", lowest, any_finite<unit::length>());
    require("highest", highest, any_finite<unit::length>());
    require_that(in_all_lanes(lowest.value() < highest.value()), "highest", "must be above the lowest height");
}

/// The same as below with room that is used again.
template <class Tail, class R>
[[nodiscard]] basic_anchor_plan<R>
anchor_for_down_force(const Tail& tail, std::span<const basic_point<R>> slots,
                      std::span<const basic_tail_string<R>> strings, const force<R>& wanted, const length<R>& lowest,
                      const length<R>& highest, anchor_room<R, Tail>& room, const length<R>* from = nullptr) {
    require("wanted", wanted, any_finite<unit::force>());
    require_anchor_search<Tail, R>(tail, slots, strings, lowest, highest);
    return anchor_plan<Tail, R>(
        tail, slots, strings, wanted.value(), lowest, highest, [](const auto& plan) { return plan.down.value(); }, room,
        from);
}

} // namespace kernel

/// Height of a tailpiece's hinge (or of a rigid bar) for a wanted down-force of all strings together.
/// @param slots   axis of each string at the nut
/// @param lowest,highest range of heights that the body and the hanger allow
/// @return the plan; where the wish lies outside, `reachable` is false and the height is the nearest end of the range
template <template <class> class Tail, class R>
[[nodiscard]] basic_anchor_plan<R>
anchor_for_down_force(const Tail<R>& tail, std::type_identity_t<std::span<const basic_point<R>>> slots,
                      std::type_identity_t<std::span<const basic_tail_string<R>>> strings, param<force<R>> wanted,
                      param<length<R>> lowest, param<length<R>> highest) {
    kernel::anchor_room<R, Tail<R>> room;
    return kernel::anchor_for_down_force<Tail<R>, R>(tail, slots, strings, wanted, lowest, highest, room);
}

/// The same for a wanted mean break angle.
template <template <class> class Tail, class R>
[[nodiscard]] basic_anchor_plan<R>
anchor_for_break(const Tail<R>& tail, std::type_identity_t<std::span<const basic_point<R>>> slots,
                 std::type_identity_t<std::span<const basic_tail_string<R>>> strings, param<angle<R>> wanted,
                 param<length<R>> lowest, param<length<R>> highest) {
    require("wanted", wanted, between(-90 * units::deg, 180 * units::deg));
    kernel::require_anchor_search<Tail<R>, R>(tail, slots, strings, lowest, highest);
    kernel::anchor_room<R, Tail<R>> room;
    return kernel::anchor_plan<Tail<R>, R>(
        tail, slots, strings, wanted.value(), lowest, highest, [](const auto& plan) { return plan.mean_break.value(); },
        room);
}

/// The most that one string can press on its saddle, whatever is behind it, `T (1 + sin alpha_1)`: the share of its
/// speaking side and an afterlength that runs straight down.
template <class R = double>
[[nodiscard]] force<R> down_force_limit(const basic_point<R>& nut_point, const basic_point<R>& saddle_point,
                                        param<force<R>> tension) {
    require("tension", tension, at_least(0 * units::N));
    return (number<R>(1) - direction_between(saddle_point, nut_point).z) * tension;
}

} // namespace tautline
