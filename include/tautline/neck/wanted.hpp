#pragma once
/// @file
/// From a wanted relief back to the rod's pull or the strings that give it, and the effect of a bar let in.

#include <optional>

#include "../core/root.hpp"
#include "relief_case.hpp"

namespace tautline {

/// Why no pull of a rod leaves a wanted relief.
enum class rod_shortfall {
    none,      ///< a pull does
    most_pull, ///< the rod would have to pull harder than it may
    most_push, ///< a two-way rod would have to push harder than it may
    slack,     ///< even with the rod slack the neck is less hollow, or more back-bowed, than wished
    uneven,    ///< the neck is hollow at one crest and back-bowed at another: no pull leaves so small a relief
    wrong_way, ///< the rod lies so near the neutral axis, or above it, that its pull does not lower the relief
};

/// A rod's pull for a wanted relief.
template <class R = double>
struct basic_rod_answer {
    using real = R;
    /// Why the pull does not give the wanted relief; for a pack, of a lane in which it does not.
    rod_shortfall why = rod_shortfall::none;
    force<R> pull{};          ///< the pull that gives the wanted relief, or comes nearest
    basic_relief<R> relief{}; ///< with that pull

    /// Whether the pull gives the wanted relief.
    [[nodiscard]] constexpr bool reachable() const { return why == rod_shortfall::none; }
};
using rod_answer = basic_rod_answer<double>;

/// How heavy strings may be, and the relief with them.
template <class R = double>
struct basic_heaviest {
    using real = R;
    bool limited = false; ///< false: even the heaviest strings tried keep the limit
    R share{};            ///< factor on all given pulls, more than 0
    force<R> pull{};      ///< all strings together
    length<R> relief{};   ///< with them
};
using heaviest = basic_heaviest<double>;

/// What an insert would change in relief, nut rise and stiffness.
template <class R = double>
struct basic_insert_effect {
    using real = R;
    basic_relief<R> before{};    ///< without the insert
    basic_relief<R> after{};     ///< with it
    length<R> nut_rise_before{}; ///< without the insert
    length<R> nut_rise_after{};  ///< with it
    R stiffer{};                 ///< bending rigidity midway along the insert, after / before
};
using insert_effect = basic_insert_effect<double>;

/// The pull of the rod that leaves the wanted relief, as `relief_between` reads it.
///
/// Crests are hardly ever so even that some pull leaves no gap at all. At one pull the hollow somewhere is as large as
/// the back-bow elsewhere, and the neck is as straight as this rod can make it. That pull is the answer to every wish
/// for less, 0 and small back-bows included, with `rod_shortfall::uneven`. So for a rod that straightens the neck a
/// wish for more relief never takes more pull, and a slightly lower wish takes slightly more.
///
/// @param wanted    positive is hollow, -50 mm to 50 mm
/// @param most_pull the greatest pull that the rod may bear, more than 0; a two-way rod may push as hard
/// @throws invalid_input also where the neck would buckle under the strings with `most_pull`, or with the rod slack
template <class R = double>
[[nodiscard]] basic_rod_answer<R> rod_pull_for_relief(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c,
                                                      param<length<R>> wanted, param<force<R>> most_pull) {
    require_valid(c, "case");
    require("wanted", wanted, between(-50 * units::mm, 50 * units::mm));
    require("most_pull", most_pull, more_than_up_to(0 * units::N, 100000 * units::N));
    require_that(beam.rod.has_value(), "beam.rod", "must be there to be set");
    const R zero = number<R>(0);
    // Where hollow and back-bow are equally large, the one that is wished for is read. The nanometre leaves room for a
    // plan that sets this pull among other things and has settled only that far.
    const length<R> nanometre = length<R>::from_value(number<R>(1e-9L)), none{};
    const auto wants_back = is_less<unit::length, R>(wanted, none);
    const length<R> tie = select<decltype(wants_back), unit::length, R>(wants_back, -nanometre, nanometre);
    const force<R>& most = most_pull;
    const force<R> least = beam.rod->two_way() ? force<R>(-most) : force<R>();
    // Buckling is refused here, at both ends of the range.
    const R loose = kernel::gaps_of(bend(beam, c.strings, least, c.nut), c).above(wanted, tie).value();
    const R tight = kernel::gaps_of(bend(beam, c.strings, most, c.nut), c).above(wanted, tie).value();
    const auto too_hollow = zero < min(loose, tight), too_flat = max(loose, tight) < zero, straightens = tight < loose;
    const auto between_them = min(loose, tight) <= zero && zero <= max(loose, tight);
    const auto one_of = [](const auto& mask, const force<R>& a, const force<R>& b) {
        return force<R>::from_value(select(mask, a.value(), b.value()));
    };
    basic_rod_answer<R> answer;
    answer.pull = one_of(too_hollow, one_of(straightens, most, least), one_of(straightens, least, most));
    if (in_any_lane(between_them)) {
        using D = dual<R, 1>;
        const auto beam_d = over<D>(beam);
        const auto case_d = over<D>(c);
        const auto found = find_root(
            [&](const force<D>& p) {
                return kernel::gaps_under<D>(beam_d, case_d, number<D>(1), p).above(over<D>(wanted), over<D>(tie));
            },
            least, most);
        // The last step may go past an end by a rounding.
        const force<R> kept = max<unit::force, R>(least, min<unit::force, R>(most, found));
        answer.pull = one_of(between_them, kept, answer.pull);
    }
    const auto bowed = bend(beam, c.strings, answer.pull, c.nut);
    answer.relief = relief_between<R>(loaded_crests(bowed, c.crests), c.first, c.last);
    const auto gaps = kernel::gaps_of(bowed, c);
    const R wish = wanted.value(), allowed = number<R>(2) * nanometre.value();
    const auto missed = allowed < abs(R(answer.relief.gap.value() - wish));
    const auto uneven = R(abs(wish) + allowed) < min(gaps.hollow.value(), R(-gaps.back.value()));
    const auto say = [&](const auto& lanes, rod_shortfall why) {
        if (in_any_lane(missed && lanes)) { answer.why = why; }
    };
    say(between_them && uneven, rod_shortfall::uneven);
    say(too_flat && tight <= loose, beam.rod->two_way() ? rod_shortfall::most_push : rod_shortfall::slack);
    say(too_flat && loose < tight, rod_shortfall::most_pull);
    say(too_hollow && loose <= tight, rod_shortfall::wrong_way);
    say(too_hollow && tight < loose, rod_shortfall::most_pull);
    return answer;
}

/// The heaviest strings, all in proportion to the given ones, whose relief is at or below a limit, as `relief_between`
/// reads it. They pull at most ten times as hard as the given ones and never come near buckling. Nothing where no
/// strings keep the limit, since the neck is too hollow without any.
///
/// @param limit    -50 mm to 50 mm
/// @param rod_pull the same with all of them
/// @throws invalid_input also where the neck would buckle under its rod alone
template <class R = double>
[[nodiscard]] std::optional<basic_heaviest<R>> heaviest_strings(const basic_neck_beam<R>& beam,
                                                                const basic_relief_case<R>& c, param<length<R>> limit,
                                                                param<force<R>> rod_pull = force<R>()) {
    require_valid(c, "case");
    require("limit", limit, between(-50 * units::mm, 50 * units::mm));
    require_that(!c.strings.empty(), "case.strings", "must be those to be scaled");
    // Where hollow and back-bow are equally large, the limit is still kept by a hair.
    const length<R> tie = -kernel::hair<R>();
    const auto above = [&]<class S>(const basic_neck_beam<S>& b, const basic_relief_case<S>& strung, const S& share) {
        return kernel::gaps_under<S>(b, strung, share, over<S>(rod_pull)).above(over<S>(limit), over<S>(tie)).value();
    };
    if (one_answer(number<R>(0) <= kernel::gaps_of(bend(beam, {}, rod_pull, c.nut), c).above(limit, tie).value())) {
        return std::nullopt;
    }
    basic_heaviest<R> answer;
    answer.share = kernel::bearable_share(beam, c, force<R>(rod_pull), kernel::rod_load::stays);
    answer.limited = one_answer(number<R>(0) < above(beam, c, answer.share));
    if (answer.limited) {
        using D = dual<R, 1>;
        const auto beam_d = over<D>(beam);
        const auto case_d = over<D>(c);
        answer.share = find_root([&](const D& s) { return D(above(beam_d, case_d, s)); }, number<R>(0), answer.share);
    }
    answer.pull = kernel::gather<R>(c.strings).pull * answer.share;
    answer.relief = kernel::gaps_under<R>(beam, c, answer.share, rod_pull).relief();
    return answer;
}

/// What changes when a bar is let in or a channel is cut.
template <class R = double>
[[nodiscard]] basic_insert_effect<R> effect_of(const basic_neck<R>& n, const basic_insert<R>& added,
                                               const basic_relief_case<R>& c, param<force<R>> rod_pull = force<R>(),
                                               std::size_t stations = 65) {
    basic_neck<R> with = n;
    with.inserts.push_back(added);
    const auto before = make_beam(n, stations), after = make_beam(with, stations);
    basic_insert_effect<R> effect;
    effect.before = relief_under<R>(before, c, rod_pull);
    effect.after = relief_under<R>(after, c, rod_pull);
    effect.nut_rise_before = bend(before, c.strings, rod_pull, c.nut).nut_rise();
    effect.nut_rise_after = bend(after, c.strings, rod_pull, c.nut).nut_rise();
    const length<R> middle = number<R>(0.5L) * (added.x_from + added.x_to);
    effect.stiffer = ratio(section_at(with, middle).bending_rigidity, section_at(n, middle).bending_rigidity);
    return effect;
}

} // namespace tautline
