#pragma once
/// @file
/// Backwards: from a wanted or measured relief to the rod, the moduli, the strings or the bar that give it.

#include "../core/root.hpp"
#include "buckling.hpp"
#include "loaded_frets.hpp"

namespace tautline {

/// What every question is about: the strings on a neck and the crests between which relief is taken.
template <class R>
struct basic_relief_case {
    using real = R;
    std::vector<basic_string_pull<R>> strings{}; ///< what pulls, bass first
    std::vector<basic_crest<R>> crests{};        ///< on the straight, unloaded neck, x increasing
    std::size_t first = 0;                       ///< crests that carry the straightedge
    std::size_t last = 0;                        ///< from 0; at least two after `first`

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("crests", self.crests...);
        visit("first", self.first...);
        visit("last", self.last...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!(first < last && last < crests.size())) {
            report("last", "must be one of the crests, after the first one");
        } else if (last - first < 2) {
            report("last", "must leave at least one crest between the two that carry the straightedge");
        }
        for (std::size_t i = 1; i < crests.size(); ++i) {
            if (!all(crests[i - 1].x.value() < crests[i].x.value())) {
                report(messages::path_of("crests", i, "x"), "must be further from the nut than the crest before it");
            }
        }
    }
};
using relief_case = basic_relief_case<double>;

/// Relief of a beam under the strings and a rod's pull.
template <class R>
[[nodiscard]] basic_relief<R> relief_under(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c,
                                           param<force<R>> rod_pull = force<R>()) {
    require_valid(c, "case");
    const auto loaded = loaded_crests(bend(beam, c.strings, rod_pull), c.crests);
    return relief_between<R>(loaded, c.first, c.last);
}

/// A rod's pull for a wanted relief.
template <class R>
struct basic_rod_answer {
    using real = R;
    bool reachable = false;   ///< whether a pull the rod can take gives it
    force<R> pull{};          ///< the one that gives the wanted relief, or comes nearest
    basic_relief<R> relief{}; ///< with that pull
};

/// A number found from a measurement, with what the measurement's uncertainty makes of it.
template <class R>
struct basic_calibration {
    using real = R;
    bool reachable = false; ///< whether one factor explains the measurement
    R factor = R(1);        ///< by which to multiply the moduli of board and back
    R uncertainty{};        ///< standard uncertainty of the factor
    length<R> predicted{};  ///< change of relief the calibrated neck predicts: the measured one, or the nearest
    basic_neck<R> neck{};   ///< with its moduli multiplied
};

/// How heavy strings may be.
template <class R>
struct basic_heaviest {
    using real = R;
    bool limited = false; ///< false: even the most that was tried keeps the limit
    R share{};            ///< of the given pulls, all alike
    force<R> pull{};      ///< all strings together
    length<R> relief{};   ///< with them
};

/// What an insert would change.
template <class R>
struct basic_insert_effect {
    using real = R;
    basic_relief<R> before{};    ///< without the insert
    basic_relief<R> after{};     ///< with it
    length<R> nut_rise_before{}; ///< without the insert
    length<R> nut_rise_after{};  ///< with it
    R stiffer{};                 ///< bending rigidity midway along the insert, after / before
};

namespace kernel {

/// Largest gap of either sign under the line over two crests: the hollow when `hollow`, else the back-bow.
template <class R>
[[nodiscard]] length<R> extreme_gap(const basic_bow<R>& bowed, const basic_relief_case<R>& c, bool hollow) {
    const auto loaded_z = [&](std::size_t i) {
        return c.crests[i].z + load_deflection_at<R>(bowed, c.crests[i].x) + set_height<R>(bowed.set, c.crests[i].x);
    };
    const length<R> za = loaded_z(c.first), zb = loaded_z(c.last);
    length<R> extreme{};
    for (std::size_t i = c.first + 1; i < c.last; ++i) {
        const R u = ratio(c.crests[i].x - c.crests[c.first].x, c.crests[c.last].x - c.crests[c.first].x);
        const length<R> gap = za + (zb - za) * u - loaded_z(i);
        if (i == c.first + 1) {
            extreme = gap;
        } else {
            extreme = hollow ? max<unit::length, R>(extreme, gap) : min<unit::length, R>(extreme, gap);
        }
    }
    return extreme;
}

/// Relief by the kernels alone, for searches: assumes a load that does not buckle.
template <class R>
[[nodiscard]] length<R> searched_gap(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c, const R& share,
                                     const force<R>& rod_pull, bool hollow) {
    bow_problem<R> problem{beam, gather<R>(c.strings), rod_pull, set_height<R>(beam.set, length<R>())};
    problem.strings.scale(share);
    basic_bow<R> bowed;
    (void)kernel::bend(problem, bowed);
    return extreme_gap(bowed, c, hollow);
}

/// How often the given loads a neck bears before it buckles, up to ten times.
template <class R>
[[nodiscard]] R bearable_share(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c, const force<R>& rod_pull) {
    const R ten = number<R>(10);
    bow_problem<R> problem{beam, gather<R>(c.strings), rod_pull * ten, set_height<R>(beam.set, length<R>())};
    problem.strings.scale(ten);
    return min(ten, R(number<R>(0.98L) * ten * buckling_share(problem)));
}

template <class R>
[[nodiscard]] basic_neck<R> with_moduli_times(basic_neck<R> n, const R& factor) {
    n.board_modulus = n.board_modulus * factor;
    n.back_modulus = n.back_modulus * factor;
    return n;
}

} // namespace kernel

/// The pull of the rod that leaves the wanted relief: the hollow when `wanted` is 0 or more, the back-bow when it is less.
///
/// @param most_pull what the rod may bear, more than 0; a two-way rod may push as much
template <class R>
[[nodiscard]] basic_rod_answer<R> rod_pull_for_relief(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c,
                                                      param<length<R>> wanted, param<force<R>> most_pull) {
    require_valid(c, "case");
    require("wanted", wanted, between(-50 * units::mm, 50 * units::mm));
    require("most_pull", most_pull, more_than_up_to(0 * units::N, 100000 * units::N));
    require_that(beam.rod.has_value(), "beam.rod", "must be there to be set");
    using D = dual<R, 1>;
    const auto beam_d = over<D>(beam);
    const auto case_d = over<D>(c);
    const bool hollow = all(number<R>(0) <= wanted.value());
    const force<R> most = most_pull, least = beam.rod->two_way() ? force<R>(-most) : force<R>();
    // Buckling is refused at the door, at both ends.
    const auto at_least_pull = kernel::extreme_gap(bend(beam, c.strings, least), c, hollow);
    const auto at_most_pull = kernel::extreme_gap(bend(beam, c.strings, most), c, hollow);
    basic_rod_answer<R> answer;
    answer.reachable = all(at_most_pull.value() <= wanted.value()) && all(wanted.value() <= at_least_pull.value());
    if (answer.reachable) {
        answer.pull = find_root(
            [&](const force<D>& p) {
                return kernel::searched_gap<D>(beam_d, case_d, number<D>(1), p, hollow) - over<D>(wanted);
            },
            least, most);
    } else {
        answer.pull = all(wanted.value() < at_most_pull.value()) ? most : least;
    }
    answer.relief = relief_under<R>(beam, c, answer.pull);
    return answer;
}

/// The factor on the moduli of board and back that explains a measured change of relief from slack to tuned: it fits the
/// model to the instrument in hand.
///
/// @param change      relief with the strings at pitch less relief with them slack, more than 0
/// @param uncertainty standard uncertainty of that change, at least 0
/// @param rod_pull    the same both times
template <class R>
[[nodiscard]] basic_calibration<R> calibrate_moduli(const basic_neck<R>& n, const basic_relief_case<R>& c,
                                                    param<length<R>> change, param<length<R>> uncertainty,
                                                    param<force<R>> rod_pull = force<R>(), std::size_t stations = 65) {
    require_valid(c, "case");
    require("change", change, more_than_up_to(0 * units::mm, 50 * units::mm));
    require("uncertainty", uncertainty, between(0 * units::mm, 50 * units::mm));
    require_that(!c.strings.empty(), "case.strings", "must be those that change the relief");
    using D = dual<R, 1>;
    const auto neck_d = over<D>(n);
    const auto case_d = over<D>(c);
    const auto give = [&]<class S>(const basic_neck<S>& whole, const basic_relief_case<S>& strung, const S& softer) {
        basic_neck_beam<S> beam;
        kernel::make_beam(kernel::with_moduli_times<S>(whole, R(1) / softer), stations, beam);
        basic_relief_case<S> slack = strung;
        slack.strings.clear();
        const force<S> pull = over<S>(rod_pull);
        return kernel::searched_gap<S>(beam, strung, number<S>(1), pull, true) -
               kernel::searched_gap<S>(beam, slack, number<S>(1), pull, true);
    };
    const auto beam = make_beam(n, stations);
    // Softer wood is as heavier strings: it bears as much of either.
    const R softest = kernel::bearable_share(beam, c, rod_pull), hardest = number<R>(0.05L);
    const length<R> most = give(n, c, softest), least = give(n, c, hardest);
    basic_calibration<R> found;
    found.reachable = all(least.value() <= change.value()) && all(change.value() <= most.value());
    R softer = all(change.value() < least.value()) ? hardest : softest;
    if (found.reachable) {
        softer =
            find_root([&](const D& s) { return D((give(neck_d, case_d, s) - over<D>(change)).value()); }, hardest, softest);
    }
    const D at = give(neck_d, case_d, D::variable(softer, 0)).value();
    found.factor = number<R>(1) / softer;
    // d(factor)/d(change) = -factor^2 / (d(change)/d(softness)).
    found.uncertainty = found.factor * found.factor * uncertainty.value() / at.partial[0];
    found.predicted = length<R>::from_value(at.value);
    found.neck = kernel::with_moduli_times<R>(n, found.factor);
    return found;
}

/// The heaviest strings, all in proportion to the given ones, that keep the hollow at or below a limit; up to ten times the
/// given pulls, and never near buckling.
template <class R>
[[nodiscard]] basic_heaviest<R> heaviest_strings(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c,
                                                 param<length<R>> limit, param<force<R>> rod_pull = force<R>()) {
    require_valid(c, "case");
    require("limit", limit, between(-50 * units::mm, 50 * units::mm));
    require_that(!c.strings.empty(), "case.strings", "must be those to be scaled");
    using D = dual<R, 1>;
    const auto beam_d = over<D>(beam);
    const auto case_d = over<D>(c);
    const auto gap = [&](const R& share) { return kernel::searched_gap<R>(beam, c, share, rod_pull, true); };
    const R most = kernel::bearable_share(beam, c, rod_pull);
    basic_heaviest<R> answer;
    answer.limited = all(limit.value() < gap(most).value());
    answer.share = most;
    if (answer.limited) {
        // Above the limit with no strings at all: none keep it.
        answer.share = all(limit.value() <= gap(number<R>(0)).value())
                           ? number<R>(0)
                           : find_root(
                                 [&](const D& s) {
                                     const auto g = kernel::searched_gap<D>(beam_d, case_d, s, over<D>(rod_pull), true);
                                     return D((g - over<D>(limit)).value());
                                 },
                                 number<R>(0), most);
    }
    answer.pull = kernel::gather<R>(c.strings).pull * answer.share;
    answer.relief = gap(answer.share);
    return answer;
}

/// What letting in a bar, or cutting a channel, changes.
template <class R>
[[nodiscard]] basic_insert_effect<R> effect_of(const basic_neck<R>& n, const basic_insert<R>& added,
                                               const basic_relief_case<R>& c, param<force<R>> rod_pull = force<R>(),
                                               std::size_t stations = 65) {
    basic_neck<R> with = n;
    with.inserts.push_back(added);
    const auto before = make_beam(n, stations), after = make_beam(with, stations);
    basic_insert_effect<R> effect;
    effect.before = relief_under<R>(before, c, rod_pull);
    effect.after = relief_under<R>(after, c, rod_pull);
    effect.nut_rise_before = bend(before, c.strings, rod_pull).nut_rise();
    effect.nut_rise_after = bend(after, c.strings, rod_pull).nut_rise();
    const length<R> middle = number<R>(0.5L) * (added.x_from + added.x_to);
    effect.stiffer = ratio(section_at(with, middle).bending_rigidity, section_at(n, middle).bending_rigidity);
    return effect;
}

} // namespace tautline
