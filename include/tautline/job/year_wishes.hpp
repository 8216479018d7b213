#pragma once
/// @file
/// What holds in the air that a plan was made in but not at the ends of its year: wishes, and strings that clear the
/// frets.

#include <algorithm>
#include <cmath>

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "../doubt/usual_doubts.hpp"
#include "height_wishes.hpp"

namespace tautline {

/// A wish or a clearance that fails at one end of the year.
struct year_miss {
    std::string what{};                        ///< the wish's field, such as "relief" or "action_bass"; or "clearance"
    std::size_t end = 1;                       ///< 1 in the driest air, 2 in the dampest
    bool sure = true;                          ///< false: it may fail only through what nobody measured
    any_quantity wanted{};                     ///< the wish; 0 for a clearance
    any_quantity then{};                       ///< value at that end; where it is not sure, the furthest that it may be
    any_quantity off{};                        ///< how much it fails by, without a sign
    std::optional<std::size_t> string_index{}; ///< index of its string, bass first, from 0
    std::optional<int> pressed{};              ///< of a clearance: fret it is pressed at, 0 is open
    std::optional<int> fret{};                 ///< fret that it is told over, or that the string touches
    std::string words{};                       ///< what it is told of: "relief", or the string and the fret it is over
};

/// A solved setup at one end of the year, with the setups that it may be through what nobody measured.
struct year_end {
    std::size_t end = 1;             ///< 1 in the driest air, 2 in the dampest
    const setup& is;                 ///< the setup as far as is known
    std::vector<const setup*> may{}; ///< setups with each coefficient at either end of its doubt
};

/// Share of a wished force by which it must be off to fail: two forces are not told apart more closely. Common practice,
/// no source.
inline constexpr double force_of_year = 0.02;

namespace kernel {

inline constexpr const char* air_at_end[] = {"", "In the driest air", "In the dampest air"};

/// A wished number, where a setup has it, and how near to the wish counts as kept.
struct year_wish {
    const char* field;
    std::string path;
    any_quantity wanted;
    double tolerance;
    std::string words;
    std::optional<std::size_t> string_index{};
    std::optional<int> fret{};
};

/// The usual doubt of a reading. A number nearer to its wish counts as kept, since nobody could tell.
[[nodiscard]] inline double kept_within(std::string_view path) { return usual_doubt_of(path)->give_or_take; }

template <class = when_used>
[[nodiscard]] std::vector<year_wish> year_wishes_of(const wishes& w, const setup_plan& p) {
    std::vector<year_wish> all;
    const setup& s = p.solved;
    if (w.relief && s.relief) {
        all.push_back({"relief", "relief.gap", any_quantity(length<>(*w.relief)), kept_within("relief.gap"), "relief"});
    }
    const height_targets<double> targets(w, p.untouched, p.kept);
    const auto height = [&](const char* field, std::size_t i, std::size_t n, const length<>& wanted) {
        std::string path = messages::path_of(messages::path_of("strings", i, "heights"), n);
        const double within = kept_within(path);
        all.push_back({field, std::move(path), any_quantity(wanted), within,
                       messages::joined({s.names.name(i), " over fret ", n + 1}), i, static_cast<int>(n) + 1});
    };
    const std::size_t last = s.strings.size() - 1;
    for (const std::size_t i : {std::size_t{0}, last}) {
        const bool bass = i == 0;
        if (!bass && last == 0) { break; }
        const bool first = bass ? w.first_fret_bass || (last == 0 && w.first_fret_treble) : w.first_fret_treble.has_value();
        const bool action = bass ? w.action_bass || (last == 0 && w.action_treble) : w.action_treble.has_value();
        if (first && targets.first && s.strings[i].has_fret(1)) {
            height(bass ? "first_fret_bass" : "first_fret_treble", i, 0, targets.first->at(s, i));
        }
        if (action && targets.action) {
            height(bass ? "action_bass" : "action_treble", i, targets.fret, targets.action_at(s, i));
        }
    }
    if (w.down_force) {
        all.push_back({"down_force", "down_force", any_quantity(force<>(*w.down_force)),
                       force_of_year * w.down_force->value(), "down-force on the saddle"});
    }
    return all;
}

/// How far a number is off its wish at one end of the year: as far as is known, and at most.
struct year_off {
    double now, then, most, value, furthest;
};
template <class = when_used>
[[nodiscard]] year_off off_at(const year_wish& w, const setup& now, const year_end& at) {
    const double wanted = w.wanted.si(), value = get(at.is, w.path).si();
    year_off o{std::abs(get(now, w.path).si() - wanted), std::abs(value - wanted), 0, value, value};
    // The effects of several coefficients add as squares, separately upward and downward.
    double up = 0, down = 0;
    for (const setup* s : at.may) {
        const double d = get(*s, w.path).si() - value;
        (d < 0 ? down : up) += d * d;
    }
    const double high = value + std::sqrt(up), low = value - std::sqrt(down);
    o.furthest = std::abs(high - wanted) > std::abs(low - wanted) ? high : low;
    o.most = std::abs(o.furthest - wanted);
    return o;
}

template <class = when_used>
void find_missed_wishes(const wishes& w, const setup_plan& p, const year_end& at, std::vector<year_miss>& all) {
    for (const year_wish& wish : year_wishes_of(w, p)) {
        const year_off off = off_at(wish, p.solved, at);
        // What the plan itself misses is told elsewhere; here only what the season adds counts.
        const double kept = wish.tolerance + (off.now > wish.tolerance ? off.now : 0);
        const bool fails = off.then > kept, may = off.most > kept;
        if (!fails && !may) { continue; }
        const auto in_kind = [&](double si) { return any_quantity::of(wish.wanted.kind(), si); };
        const double then = fails ? off.value : off.furthest, by = fails ? off.then : off.most;
        all.push_back({.what = wish.field,
                       .end = at.end,
                       .sure = fails,
                       .wanted = wish.wanted,
                       .then = in_kind(then),
                       .off = in_kind(by),
                       .string_index = wish.string_index,
                       .fret = wish.fret,
                       .words = wish.words});
    }
}

/// The least clearance of a string in a setup, among the places that it clears `now`.
struct touch {
    double gap = 1e3;
    int pressed = 0, fret = 0;
};
template <class = when_used>
[[nodiscard]] touch least_touch(const setup& now, const setup& then, std::size_t i) {
    touch t;
    const auto& string = then.strings[i];
    for (std::size_t n = 0; n < string.clearances.size(); ++n) {
        const double gap = string.clearances[n].gap.value();
        if (!string.has_fret(n) || !(now.strings[i].clearances[n].gap.value() > 0) || !(gap < t.gap)) { continue; }
        t = {gap, static_cast<int>(n), string.clearances[n].fret_number()};
    }
    return t;
}

template <class = when_used>
void find_touches(const setup& now, const year_end& at, std::vector<year_miss>& all) {
    for (std::size_t i = 0; i < now.strings.size(); ++i) {
        touch least = least_touch(now, at.is, i);
        const bool fails = !(least.gap > 0);
        for (const setup* s : at.may) {
            if (fails) { break; }
            const touch t = least_touch(now, *s, i);
            if (t.gap < least.gap) { least = t; }
        }
        if (least.gap > 0) { continue; }
        const auto lengthy = [](double m) { return any_quantity(length<>::from_value(m)); };
        all.push_back({.what = "clearance",
                       .end = at.end,
                       .sure = fails,
                       .wanted = lengthy(0),
                       .then = lengthy(least.gap),
                       .off = lengthy(-least.gap),
                       .string_index = i,
                       .pressed = least.pressed,
                       .fret = least.fret,
                       .words = now.names.name(i)});
    }
}

} // namespace kernel

} // namespace tautline
