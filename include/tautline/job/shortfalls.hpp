#pragma once
/// @file
/// The wishes that a plan does not meet, each with the limit that held it back, and the wishes that something else
/// decides.
///
/// A reason names only what limited the last round; nothing is guessed from signs. Only values count.

#include "../core/to_text.hpp"
#include "../instrument/cut_saddle.hpp"
#include "../setup/findings.hpp"
#include "outcome.hpp"

namespace tautline::kernel {

/// In SI: a wish counts as met within this, which is closer than anything at the bench is measured.
inline constexpr double met_within_length = 1e-6, met_within_force = 0.01;
/// In SI: strings between the outer ones count as meeting a wish within this, which a rule at the bench tells. Common
/// practice, no source.
inline constexpr double met_between_within = 0.05e-3;

/// In metres: crowns that differ by less are one crown at the bench. Common practice, no source.
inline constexpr double crowns_told_apart = 0.02e-3;

[[nodiscard]] inline std::string why_action(const held_back::limits& by, const held_back& held, bool reset) {
    if (by.half_gauge) { return "a string lower than half its gauge rattles at the softest touch"; }
    const char* neck = !reset || !(held.turn_least || held.turn_most) ? ""
                       : held.turn_most                               ? ", the neck at most_turn"
                                                                      : ", the neck at least_turn";
    const bool single = !held.single.empty();
    if (by.saddle_low) {
        return messages::joined(
            {"the saddle would have to come below ", single ? "its travel or " : "", "lowest_saddle", neck});
    }
    if (by.saddle_high) {
        return messages::joined(
            {"the saddle would have to stand above ", single ? "its travel or " : "", "highest_saddle", neck});
    }
    if (by.saddle_on_board) {
        return messages::joined({"the string would have to pass the saddle below the board's line", neck});
    }
    return "the plan does not come to rest: the strings' load follows every change";
}
[[nodiscard]] inline std::string why_first_fret(const held_back::limits& by) {
    if (by.slot_low) { return "the nut slot would have to go below lowest_slot"; }
    if (by.slot_high) { return "the nut slot would have to stand more than 20 mm over the board"; }
    return "the plan does not come to rest: the strings' load follows every change";
}

[[nodiscard]] inline std::string why_relief(rod_shortfall why) {
    switch (why) {
    case rod_shortfall::most_pull:
        return "the rod would have to pull harder than most_rod_pull allows";
    case rod_shortfall::most_push:
        return "the rod would have to push harder than most_rod_pull allows";
    case rod_shortfall::slack:
        return "the strings do not pull the neck so far, even with the rod slack";
    case rod_shortfall::uneven:
        return "the crests stand hollow at one fret and proud at another: no pull of the rod leaves them straighter";
    case rod_shortfall::wrong_way:
        return "the rod lies too near the middle of the neck's stiffness: its pull does not straighten it";
    case rod_shortfall::none:
        break;
    }
    return "the plan does not come to rest: the strings' load follows every change";
}

/// A break this near to its wish meets it: it is read no closer. Common practice, no source.
inline constexpr angle<> met_within_break = 0.5 * units::deg;
/// Holes that lie no further apart are drilled along one line. Common practice, no source.
inline constexpr length<> one_pin_distance = 0.5 * units::mm;

/// Compares the outcome with what was wanted.
template <class R>
class shortfall_teller {
public:
    shortfall_teller(const basic_wishes<R>& w, const held_back& held, basic_setup_plan<R>& plan)
        : w_(w), held_(held), plan_(plan), s_(plan.solved) {}

    void tell() {
        relief();
        first_fret();
        action();
        below_wood();
        reset();
        in_tune();
        forces();
    }

private:
    /// @param why makes the reason, where it is needed
    template <class Q, class Why>
    bool missed(const char* wish, const Q& wanted, const std::type_identity_t<Q>& reached, double tolerance, Why&& why) {
        const auto asked = plain(wanted), got = plain(reached);
        if (std::abs(got.value() - asked.value()) <= tolerance) { return false; }
        plan_.shortfalls.push_back({wish, asked, got, why()});
        return true;
    }
    void refused(const char* wish, const any_quantity& wanted, std::string why) {
        plan_.shortfalls.push_back({wish, wanted, {}, std::move(why)});
    }

    void relief() {
        if (!w_.relief) { return; }
        const length<R> wanted = *w_.relief;
        if (!s_.relief) {
            refused("relief", plain(wanted),
                    "relief is told over three frets or more up to the joint, and there are fewer");
            return;
        }
        missed("relief", wanted, s_.relief->gap, met_within_length, [&]() -> std::string {
            return plan_.adjusted.instrument.neck.rod ? why_relief(held_.rod) : "no rod is there to set it by";
        });
    }
    /// Calls `tell_side(bass wish, index of the string, side)` for both outer strings.
    template <class F>
    void each_side(F&& tell_side) {
        tell_side(0, std::size_t{0});
        if (s_.strings.size() > 1) { tell_side(1, s_.strings.size() - 1); }
    }
    [[nodiscard]] bool is_wished(int side, const auto& bass, const auto& treble) const {
        return s_.strings.size() == 1 ? bass || treble : side == 0 ? bass.has_value() : treble.has_value();
    }
    /// The reason; for a side that was not wished but kept, it says so.
    [[nodiscard]] static std::string kept_or(bool wished, const std::string& why) {
        return wished ? why : messages::joined({"not wished, and to be kept as it was: ", why});
    }
    /// A single string takes the bass wish. A treble wish that differs is not met.
    void one_string(const char* wish, const auto& bass, const auto& treble) {
        if (s_.strings.size() > 1 || !bass || !treble) { return; }
        missed(wish, length<R>(*treble), length<R>(*bass), 0,
               []() -> std::string { return "there is one string, and it takes the bass wish"; });
    }
    void first_fret() {
        const height_targets<R> targets(w_, plan_.untouched, plan_.kept);
        if (!targets.first) { return; }
        each_side([&](int side, std::size_t i) {
            const char* wish = side == 0 ? "first_fret_bass" : "first_fret_treble";
            const length<R> wanted = targets.first->at(s_, i), reached = s_.strings[i].heights[0];
            if (!plan_.adjusted.instrument.board.scale.zero_fret) {
                missed(wish, wanted, reached, met_within_length,
                       [&] { return why_first_fret(held_.at[static_cast<std::size_t>(side)]); });
            } else if (side == 0 ? w_.first_fret_bass || s_.strings.size() == 1 : w_.first_fret_treble.has_value()) {
                zero_fret(wish, i, wanted, reached);
            }
        });
        crowns_apart();
        one_string("first_fret_treble", w_.first_fret_bass, w_.first_fret_treble);
        if (plan_.adjusted.instrument.board.scale.zero_fret) { return; }
        between(
            "first_fret_bass", "first_fret_treble", [&](std::size_t i) { return targets.first->at(s_, i); },
            [&](std::size_t i) { return length<R>(s_.strings[i].heights[0]); },
            [&](std::size_t, const length<>& by) {
                held_back::limits held;
                (by > length<>() ? held.slot_low : held.slot_high) = true;
                return std::string(why_first_fret(held));
            });
    }
    /// Tells the strings between the outer ones that miss a wish by more than the outer ones do in proportion, and by more
    /// than the bench can tell.
    /// @param wanted gives the wish of a string, `reached` its height, `why` what stands in the way, from the miss
    template <class Wanted, class Reached, class Why>
    void between(const char* bass, const char* treble, Wanted&& wanted, Reached&& reached, Why&& why) {
        const std::size_t count = s_.strings.size();
        if (count < 3) { return; }
        const auto miss = [&](std::size_t i) { return plain(length<R>(reached(i) - wanted(i))).value(); };
        const outer_heights<R> outer{length<R>::from_value(number<R>(miss(0))),
                                     length<R>::from_value(number<R>(miss(count - 1)))};
        for (std::size_t i = 1; i + 1 < count; ++i) {
            const double by = miss(i);
            if (!(std::abs(by - plain(outer.at(s_, i)).value()) > met_between_within)) { continue; }
            plan_.shortfalls.push_back({2 * i < count ? bass : treble, plain(length<R>(wanted(i))),
                                        plain(length<R>(reached(i))),
                                        messages::joined({s_.names.name(i), ": ", why(i, by * units::metre)}), i});
        }
    }
    /// The reason why a string between the outer ones misses its action: the saddle has one top for all.
    [[nodiscard]] std::string why_off_top(const height_targets<R>& targets, std::size_t i, const length<>& by) const {
        const auto& one = s_.strings[i];
        const double lever = static_cast<double>(value_of(ratio<unit::length, R>(
            one.line.saddle_x - one.line.nut_x, s_.crest_places(one)[targets.fret] - one.line.nut_x)));
        const auto text = [](const length<>& q) { return fixed_text(tautline::abs(q), units::mm, 2); };
        const char* const high = by > length<>() ? "high" : "low";
        return messages::joined({"one arc of the saddle does not suit all strings, and leaves it ", text(by), " mm too ",
                                 high, "; on that arc its slot would lie ", text(length<>(by * lever)), " mm ",
                                 by > length<>() ? "deeper" : "higher", " in the saddle (saddle.slot_offsets)"});
    }
    /// The crown of the zero fret that would give a height. The action is kept where it is wished, else the saddle.
    void zero_fret(const char* wish, std::size_t i, const length<R>& wanted, const length<R>& reached) {
        if (std::abs(plain(wanted - reached).value()) <= met_within_length) { return; }
        const auto& one = s_.strings[i];
        const auto n = static_cast<std::size_t>(plan_.action_fret - 1);
        const bool keep_action = w_.action() || w_.reset;
        const auto& crest_x = s_.crest_places(one);
        const length<R> x = keep_action ? crest_x[n] : length<R>(one.line.saddle_x);
        const length<R> z = keep_action ? one.crest_z[n] + one.heights[n] : length<R>(one.line.saddle_z);
        const length<R> nut_z = line_height<R>(crest_x[0], one.crest_z[0] + wanted, x, z, length<R>(one.line.nut_x));
        const auto crown = plain(kernel::crown_left(plan_.adjusted.instrument.frets, 0) + nut_z - one.line.nut_z);
        if (crown > 0 * units::mm) {
            plan_.remarks.push_back({wish,
                                     "the strings lie on the zero fret and its crown decides this height; for the wish it "
                                     "would stand over the board by",
                                     crown});
        } else {
            plan_.remarks.push_back(
                {wish, "the strings lie on the zero fret and its crown decides this height; no crown is so low", {}});
        }
    }
    /// Tells what one crown leaves where bass and treble ask for two.
    void crowns_apart() {
        std::vector<length<>> asked;
        for (const plan_remark& r : plan_.remarks) {
            if (r.number.has_value()) { asked.push_back(r.number.as<length<>>()); }
        }
        if (asked.size() != 2) { return; }
        const length<> apart = asked[0] - asked[1], mean = (asked[0] + asked[1]) / 2.0;
        if (std::abs(apart.value()) < crowns_told_apart) { return; }
        const bool bass_more = apart.value() > 0;
        plan_.remarks.push_back(
            {"first_fret_bass",
             messages::joined({"bass and treble ask for crowns ", bench_text(any_quantity(abs(apart))),
                               " apart, and planned.frets.zero_crown is one for both: with their mean, ",
                               bench_text(any_quantity(mean)), ", fret 1 is left about ",
                               bench_text(any_quantity(abs(apart) / 2.0)),
                               bass_more ? " too low in the bass and as much too high in the treble"
                                         : " too high in the bass and as much too low in the treble"}),
             {}});
    }
    void action() {
        const height_targets<R> targets(w_, plan_.untouched, plan_.kept);
        if (!targets.action) { return; }
        if (!held_.single.empty()) { return single_actions(targets); }
        each_side([&](int side, std::size_t i) {
            const auto& by = held_.at[static_cast<std::size_t>(side)];
            const bool short_of_it = missed(side == 0 ? "action_bass" : "action_treble", targets.action_at(s_, i),
                                            s_.strings[i].heights[targets.fret], met_within_length, [&] {
                                                return kept_or(is_wished(side, w_.action_bass, w_.action_treble),
                                                               why_action(by, held_, w_.reset.has_value()));
                                            });
            plan_.saddle_at_limit = plan_.saddle_at_limit || (short_of_it && !by.half_gauge && by.saddle());
        });
        one_string("action_treble", w_.action_bass, w_.action_treble);
        bool raised = false;
        between(
            "action_bass", "action_treble", [&](std::size_t i) { return targets.action_of(s_, i, raised); },
            [&](std::size_t i) { return length<R>(s_.strings[i].heights[targets.fret]); },
            [&](std::size_t i, const length<>& by) { return why_off_top(targets, i, by); });
    }
    /// With single saddles every string can miss its height alone; it is told under the wish of its side.
    void single_actions(const height_targets<R>& targets) {
        for (std::size_t i = 0; i < s_.strings.size(); ++i) {
            const auto& by = held_.single[i];
            const int side = 2 * i < s_.strings.size() ? 0 : 1;
            const bool wished = is_wished(side, w_.action_bass, w_.action_treble);
            const bool short_of_it =
                missed(side == 0 ? "action_bass" : "action_treble", targets.action_at(s_, i),
                       s_.strings[i].heights[targets.fret], met_within_length, [&] {
                           return messages::joined(
                               {s_.names.name(i), ": ", kept_or(wished, why_action(by, held_, w_.reset.has_value()))});
                       });
            plan_.saddle_at_limit = plan_.saddle_at_limit || (short_of_it && !by.half_gauge && by.saddle());
        }
    }
    /// Tells octave frets that the travel of single saddles leaves out of tune, with their cents.
    void single_octaves() {
        const auto n = static_cast<std::size_t>(s_.octave_fret - 1);
        for (std::size_t i = 0; i < s_.strings.size(); ++i) {
            const auto& by = held_.single[i];
            const auto& one = s_.strings[i];
            if (!one.octave_setback) {
                refused(
                    "in_tune", {},
                    messages::joined({s_.names.name(i), ": no place within a tenth of the length brings its octave fret "
                                                        "in tune"}));
            } else if (by.too_near || by.too_far) {
                const double left = static_cast<double>(value_of(one.notes[n].error.cents()));
                plan_.shortfalls.push_back(
                    {"in_tune", any_quantity(interval<double>::from_cents(0)),
                     any_quantity(interval<double>::from_cents(left)),
                     messages::joined({s_.names.name(i), ": its saddle is as ", by.too_near ? "near to" : "far from",
                                       " the nut as it can be set"})});
            }
        }
    }
    /// Tells of a saddle that would have to go below the wood that it stands in.
    void below_wood() {
        const auto* exposed = exposed_saddle(plan_.base.instrument);
        if (!exposed || !(w_.action() || w_.reset)) { return; }
        const auto by = plain(length<R>(mean_saddle_height(plan_.adjusted) - mean_saddle_height(plan_.base)));
        const auto stands = plain(length<R>(*exposed));
        plan_.saddle_below_wood = by.value() < -met_within_length && (stands + by).value() < -met_within_length;
        if (!plan_.saddle_below_wood) { return; }
        refused(w_.action_bass     ? "action_bass"
                : w_.action_treble ? "action_treble"
                                   : "reset.saddle_height",
                {},
                messages::joined({"the saddle would have to come down by ", bench_text(any_quantity(length<>(-by))),
                                  ", and ", bench_text(any_quantity(stands)),
                                  " of it stands out of its slot: the strings would lie on the bridge's wood; ",
                                  w_.reset ? "the neck must be reset further, which leaves the saddle higher"
                                           : "a neck reset brings the strings down with the saddle left high, see "
                                             "[wanted.reset]"}));
    }
    void reset() {
        if (!w_.reset) { return; }
        const bool held = held_.turn_least || held_.turn_most;
        if (w_.reset->saddle_height) {
            missed("reset.saddle_height", length<R>(*w_.reset->saddle_height),
                   mean_of<R>(plan_.saddle_height.front(), plan_.saddle_height.back()), met_within_length,
                   [&]() -> std::string {
                       return held_.turn_most
                                  ? "the neck would have to turn further than most_turn; the saddle takes the rest"
                              : held_.turn_least
                                  ? "the neck would have to turn below least_turn; the saddle takes the rest"
                                  : "with it one of the outer slots would pass lowest_saddle or highest_saddle";
                   });
        }
        if (held) {
            missed(held_.turn_most ? "reset.most_turn" : "reset.least_turn", angle<double>::from_value(held_.turn_needed),
                   plain(plan_.reset->turn), 1e-7, []() -> std::string {
                       return "for the wanted saddle the neck would have to turn this far; the saddle takes the rest";
                   });
        }
    }
    void in_tune() {
        if (!w_.in_tune) { return; }
        if (s_.octave_fret == 0) {
            refused("in_tune", {}, "no fret of the board is for the octave, by which a saddle is placed");
        } else if (!held_.single.empty()) {
            single_octaves();
        } else if (s_.strings.size() > 1 ? !s_.straight_saddle : !s_.strings[0].octave_setback) {
            refused("in_tune", {}, "no place within a tenth of the length brings the octave fret in tune");
        } else if (held_.setback) {
            refused("in_tune", {}, "the saddle would have to lie 50 mm or more from the scale length");
        }
    }
    void forces() {
        if (w_.down_force) {
            missed("down_force", force<R>(*w_.down_force), s_.down_force, met_within_force, [&]() -> std::string {
                return held_.hinge_low    ? "the tailpiece would have to hang beyond hinge_lowest"
                       : held_.hinge_high ? "the tailpiece would have to hang beyond hinge_highest"
                                          : "the plan does not come to rest: the strings' load follows every change";
            });
        }
        if (w_.saddle_break && !plan_.pin_holes) {
            const auto& first = s_.strings.front().at_saddle.break_angle;
            plan_.shortfalls.push_back({"saddle_break", plain(angle<R>(*w_.saddle_break)), plain(first),
                                        "no place behind the saddle gives every string this break"});
        }
        if (w_.saddle_break && plan_.pin_holes) { pins_as_they_are(); }
    }

    /// A plan places the pins' holes and leaves them as they are in its numbers.
    void pins_as_they_are() {
        const auto wanted = plain(angle<R>(*w_.saddle_break));
        auto worst = wanted;
        for (const auto& one : s_.strings) {
            const auto is = plain(one.at_saddle.break_angle);
            if (tautline::abs(is - wanted) > tautline::abs(worst - wanted)) { worst = is; }
        }
        if (!(tautline::abs(worst - wanted) > met_within_break)) { return; }
        const auto by_distance = [](const auto& a, const auto& b) { return plain(a.distance) < plain(b.distance); };
        const auto [nearest, furthest] = std::minmax_element(plan_.pin_places.begin(), plan_.pin_places.end(), by_distance);
        const length<> apart = plain(length<R>(furthest->distance - nearest->distance));
        plan_.shortfalls.push_back(
            {"saddle_break", wanted, worst,
             apart > one_pin_distance
                 ? messages::joined(
                       {"the holes stay as they are in these numbers, and no one pins.distance gives it to all "
                        "strings: the step for the pins tells each string's hole"})
                 : messages::joined({"the holes stay as they are in these numbers; planned.pins.distance of ",
                                     bench_text(plain(mean_of<R>(nearest->distance, furthest->distance))), " gives it"})});
    }

    const basic_wishes<R>& w_;
    const held_back& held_;
    basic_setup_plan<R>& plan_;
    const basic_setup<R>& s_;
};

template <class R>
void tell_shortfalls(const basic_wishes<R>& w, const held_back& held, basic_setup_plan<R>& plan) {
    shortfall_teller<R>(w, held, plan).tell();
}
/// Whether a plan misses an action.
template <class R>
[[nodiscard]] bool missed_action(const basic_setup_plan<R>& plan) {
    for (const auto& f : plan.shortfalls) {
        const bool outer = !f.string_index;
        if (outer && (f.wish == "action_bass" || f.wish == "action_treble")) { return true; }
    }
    return false;
}

} // namespace tautline::kernel
