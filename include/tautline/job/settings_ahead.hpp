#pragma once
/// @file
/// The rounds of a plan come to rest sooner where a round also goes where the last two lead.
///
/// Each round sets everything from how things stand, and leaves a share of the last error. Where two rounds tell that
/// share, the next one takes it off at once.
///
/// Source: D. G. Anderson, J. ACM 12 (1965), of depth 1, from memory.

#include <type_traits>

#include "../instrument/instrument.hpp"
#include "plan_room.hpp"

namespace tautline::kernel {

/// Calls `visit(setting, size)` for every number that the rounds of a plan set. Divided by its size, in SI, each counts as
/// much as any other. The arc of a saddle follows from the others and is left out.
template <class Instrument, class Visit>
void each_setting(Instrument& i, Visit&& visit) {
    constexpr double millimetre = 1e-3, pull_for_it = 1e3;
    if (i.neck.rod_pull) { visit(*i.neck.rod_pull, pull_for_it); }
    for (auto& slot : i.nut.slot_heights) { visit(slot, millimetre); }
    for (auto& one : i.saddle.single) {
        visit(one.height, millimetre);
        visit(one.setback, millimetre);
    }
    if (i.saddle.single.empty()) {
        for (auto* one :
             {&i.saddle.height_bass, &i.saddle.height_treble, &i.saddle.setback_bass, &i.saddle.setback_treble}) {
            visit(*one, millimetre);
        }
    }
    if (i.tailpiece) { visit(i.tailpiece->hinge_height, millimetre); }
}
/// The settings of an instrument, each over its size.
template <class R>
void take_settings(const basic_instrument<R>& i, std::vector<R>& all) {
    all.clear();
    each_setting(i, [&](const auto& q, double size) { all.push_back(R(q.value() / number<R>(size))); });
}
/// Adds to the settings of an instrument, in their sizes.
template <class R>
void add_to_settings(std::type_identity_t<std::span<const R>> by, basic_instrument<R>& i) {
    std::size_t k = 0;
    each_setting(i, [&](auto& q, double size) {
        using Q = std::remove_cvref_t<decltype(q - q)>;
        q = q + Q::from_value(R(by[k++] * number<R>(size)));
    });
}

/// Finds where the last two rounds of a plan lead: `room.ahead` becomes what to add to the settings of this round. Returns
/// whether they lead anywhere. They do not before the second round, where slots were added, and where this round set little
/// less than the one before.
/// @param room holds the settings `before` this round and, from the last call, what the round before it `set` and by how
/// much that `moved` them
template <class R>
[[nodiscard]] bool look_ahead(const basic_instrument<R>& on, plan_room<R>& room) {
    auto& ahead = room.ahead;
    take_settings(on, ahead);
    const std::size_t count = ahead.size();
    const bool alike = room.before_round.size() == count && room.set.size() == count;
    R across = number<R>(0), apart = number<R>(1e-60L), now = number<R>(0), last = number<R>(0);
    for (std::size_t k = 0; alike && k < count; ++k) {
        const R moved = ahead[k] - room.before_round[k], change = moved - room.moved[k];
        across = across + change * moved;
        apart = apart + change * change;
        now = now + moved * moved;
        last = last + room.moved[k] * room.moved[k];
    }
    const R share = across / apart;
    const bool leads = alike && in_all_lanes(now < last * number<R>(0.25L)) && in_all_lanes(abs(share) < number<R>(1));
    const bool known = room.before_round.size() == count;
    room.moved.resize(count);
    if (!alike) { room.set = ahead; }
    for (std::size_t k = 0; k < count; ++k) {
        const R is = ahead[k];
        room.moved[k] = known ? R(is - room.before_round[k]) : number<R>(0);
        ahead[k] = share * (room.set[k] - is); // 0 for what a limit holds
        room.set[k] = is;
    }
    if (!known) { room.set.clear(); }
    return leads;
}

} // namespace tautline::kernel
