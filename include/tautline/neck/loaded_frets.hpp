#pragma once
/// @file
/// Frets on the neck under load: relief under the strings, fall-away past the joint, and what levelling has to allow
/// for.
///
/// The beam does not twist, so it bows alike under every string. Relief still differs from string to string, by the
/// board's radius and by wear. Give the crests under each string's own path.

#include <vector>

#include "bow.hpp"
#include "relief.hpp"

namespace tautline {

/// Crests on a bowed neck, in place: each rises by the neck's deflection at it.
///
/// @param unloaded crests on the straight, unloaded neck: surface of the board under the string's path plus crown
///                 height
template <class R = double>
void loaded_crests(const basic_bow<R>& bowed, std::type_identity_t<std::span<const basic_crest<R>>> unloaded,
                   std::vector<basic_crest<R>>& loaded) {
    loaded.resize(unloaded.size());
    for (std::size_t i = 0; i < unloaded.size(); ++i) {
        loaded[i].x = unloaded[i].x;
        loaded[i].z = unloaded[i].z + deflection_at<R>(bowed, unloaded[i].x);
    }
}
/// Crests on a bowed neck.
template <class R = double>
[[nodiscard]] std::vector<basic_crest<R>> loaded_crests(const basic_bow<R>& bowed,
                                                        std::type_identity_t<std::span<const basic_crest<R>>> unloaded) {
    std::vector<basic_crest<R>> loaded;
    loaded_crests(bowed, unloaded, loaded);
    return loaded;
}

/// How far the crests past crest `joint` lie below the line over crests `first` and `joint` carried on. Gives the value
/// of largest magnitude, with its sign and place. Positive falls away, negative stands up and may buzz; 0 when no crest
/// lies past `joint`.
template <class R>
[[nodiscard]] basic_relief<R> fall_away(std::span<const basic_crest<R>> crests, std::size_t first, std::size_t joint) {
    require_that(first < joint && joint < crests.size(), "joint", "must be a crest after the first one");
    kernel::require_crest(crests[first]);
    for (std::size_t i = joint; i < crests.size(); ++i) { kernel::require_crest(crests[i]); }
    basic_relief<R> most{{}, crests[joint].x, joint};
    for (std::size_t i = joint + 1; i < crests.size(); ++i) {
        const length<R> gap = kernel::gap_below_line<R>(crests, first, joint, i);
        const auto larger = is_less(abs(most.gap), abs(gap));
        most.gap = select(larger, gap, most.gap);
        most.x = select(larger, length<R>(crests[i].x), most.x);
        if (one_answer(larger)) { most.index = i; }
    }
    return most;
}
/// The same of crests in a vector.
template <class R, class Allocator>
[[nodiscard]] basic_relief<R> fall_away(const std::vector<basic_crest<R>, Allocator>& crests, std::size_t first,
                                        std::size_t joint) {
    return fall_away(std::span<const basic_crest<R>>(crests), first, joint);
}

/// Relief from the load alone between two places of a board that is straight without it.
template <class R = double>
[[nodiscard]] length<R> relief_from_load(const basic_bow<R>& bowed,
                                         std::type_identity_t<std::span<const basic_crest<R>>> crests, std::size_t first,
                                         std::size_t last) {
    std::vector<basic_crest<R>> straight(crests.begin(), crests.end());
    for (auto& c : straight) { c.z = kernel::load_deflection_at<R>(bowed, c.x); }
    return relief_between<R>(straight, first, last).gap;
}

/// Where to level frets.
enum class levelling_place { bench, under_load };

/// Where to level: on the bench when the load changes the relief by less than `limit`. Otherwise in a jig that bends
/// the neck as its strings do, or to heights that allow for the bow (`bench_heights`). 0.1 mm is common practice, no
/// source.
[[nodiscard]] constexpr levelling_place where_to_level(a_length auto relief_from_load, a_length auto limit) {
    using R = common_real_t<decltype(relief_from_load), decltype(limit)>;
    require("relief_from_load", over<R>(relief_from_load), any_finite<unit::length>());
    require("limit", over<R>(limit), more_than(0 * units::mm));
    return in_all_lanes(abs(over<R>(relief_from_load)) < over<R>(limit)) ? levelling_place::bench
                                                                         : levelling_place::under_load;
}
/// The same with the customary limit of 0.1 mm (common practice, no source).
[[nodiscard]] constexpr levelling_place where_to_level(a_length auto relief_from_load) {
    return where_to_level(relief_from_load, 0.1 * units::mm);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH> where_to_level(Given...)
    TAUTLINE_REFUSED("wanted are two LENGTHS: where_to_level(0.15*mm, 0.1*mm)");

/// Heights to level the crests to on the unloaded neck, so that they lie as `wanted` under load.
template <class R = double>
[[nodiscard]] std::vector<basic_crest<R>> bench_heights(const basic_bow<R>& bowed,
                                                        std::type_identity_t<std::span<const basic_crest<R>>> wanted) {
    std::vector<basic_crest<R>> heights(wanted.begin(), wanted.end());
    for (auto& c : heights) { c.z = c.z - deflection_at<R>(bowed, c.x); }
    return heights;
}

} // namespace tautline
