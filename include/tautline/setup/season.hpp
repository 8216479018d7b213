#pragma once
/// @file
/// What the season does to a strung instrument: the same strings at the same pitch in three airs. These are the air it
/// was measured in, and the driest and the dampest air it will live in.
///
/// Source: linear elasticity and statics. No table tells how an instrument responds to 1 % of moisture: its bow depends
/// on the difference of two woods' movement along the grain, which scatters by more than its size. The response is
/// measured over two visits (`season_of_visits`). Otherwise it is 0 and doubtful, and then only the fret ends are sure to
/// move.

#include <array>
#include <string>

#include "../core/by_path.hpp"
#include "../core/dual.hpp"
#include "../core/when_used.hpp"
#include "noted_air.hpp"
#include "solve.hpp"

namespace tautline {

/// What 1 % more moisture in its wood does to an instrument.
template <class R = double>
struct basic_season_response {
    using real = R;
    /// How much more the board grows along the grain than the back, as a share of its length. Positive: a back-bow in
    /// damp air.
    R bow{};
    /// How far the saddle rises over the board's line: arch, doming and the neck's angle in one number. 0 on a solid
    /// body.
    field<length<R>> top = length<R>();
    /// Share by which the neck's bending stiffness grows. Wood softens by some 1.7 % (12 % to green: Wood Handbook, from
    /// memory), while the section grows by an amount that adds some 0.9 %.
    R stiffness = number<R>(-0.008L);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bow", between(-2e-4, 2e-4).fair_default("unmeasured it is 0, give or take twice 9e-5"), self.bow...);
        visit("top", between(-0.5 * units::mm, 0.5 * units::mm).fair_default("unmeasured, and none on a solid body"),
              self.top...);
        visit("stiffness", between(-0.05, 0.05).fair_default("softer wood less a larger section"), self.stiffness...);
    }
};
using season_response = basic_season_response<double>;

/// Standard uncertainty of `season_response::bow` where nobody measured it.
inline constexpr double unmeasured_season_bow = unmeasured_along_the_grain;
/// Standard uncertainty of `season_response::top` where nobody measured it, in metres. Arched tops, domed tops and necks
/// that turn at the body all differ. Common practice, no source.
inline constexpr double unmeasured_season_top = 0.1e-3;
/// Largest `season_response::bow` that is allowed, either way.
inline constexpr double most_season_bow = 2e-4;
/// Largest `season_response::top` that is allowed, either way, in metres.
inline constexpr double most_season_top = 0.5e-3;

/// The airs of an instrument's year, and its response to them.
template <class R = double>
struct basic_season {
    using real = R;
    basic_climate<R> measured_in{};      ///< the air it was measured in, after weeks in it
    basic_climate<R> dry{};              ///< the driest air it will live in
    basic_climate<R> damp{};             ///< the dampest air it will live in
    basic_season_response<R> response{}; ///< what 1 % more moisture does to it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("measured_in", self.measured_in...);
        visit("dry", self.dry...);
        visit("damp", self.damp...);
        visit("response", self.response...);
    }
    template <class Report>
    void rules(Report&& report) const {
        struct told {
            const char* name;
            const basic_climate<R>* air;
        };
        bool fitted = true;
        for (const told& t : {told{"measured_in", &measured_in}, told{"dry", &dry}, told{"damp", &damp}}) {
            const R temperature = t.air->temperature.in_unit();
            if (in_all_lanes(number<R>(-1.2L) <= temperature) && in_all_lanes(temperature <= number<R>(60))) { continue; }
            fitted = false;
            report(messages::joined({t.name, ".temperature"}), "must be -1.2 to 60 deg C: wood's moisture is known there");
        }
        if (!fitted) { return; }
        const auto moisture = [](const basic_climate<R>& air) { return kernel::equilibrium_moisture(air).in_unit(); };
        const R least = moisture(dry), most = moisture(damp), now = moisture(measured_in);
        for (const auto& [name, m] : {std::pair{"measured_in", now}, std::pair{"dry", least}, std::pair{"damp", most}}) {
            if (const char* wrong = kernel::wrong_moisture<R>(m)) { report(messages::joined({name, ".humidity"}), wrong); }
        }
        if (!in_all_lanes(least < most)) { report("dry.humidity", "must leave the wood drier than damp does"); }
    }
};
using season = basic_season<double>;

/// How much more moisture wood comes to hold in one air than in another, in per cent of its dry mass.
/// @throws invalid_input for airs outside -1.2 to 60 deg C
template <class R>
[[nodiscard]] R moisture_gained(const basic_climate<R>& from, const std::type_identity_t<basic_climate<R>>& to) {
    return equilibrium_moisture(to).in_unit() - equilibrium_moisture(from).in_unit();
}

namespace kernel {

template <class R>
void moisten(basic_strung_instrument<R>& on, const basic_season_response<R>& response, const R& gained) {
    auto& i = on.instrument;
    i.neck.board_strain = i.neck.board_strain + response.bow * gained;
    const R stiffer = number<R>(1) + response.stiffness * gained;
    i.neck.board_modulus = i.neck.board_modulus * stiffer;
    i.neck.back_modulus = i.neck.back_modulus * stiffer;
    // The saddle is measured from the top and rises with it. So the board's line passes that much lower over the top.
    i.saddle.board_line = i.saddle.board_line - response.top * gained;
}

} // namespace kernel

/// The instrument once its wood has come to rest with more moisture (negative: less), in per cent. Strings, nut, slots
/// and crowns stay as they are. The strings are tuned again and pull as before.
/// @param gained moisture in per cent, -10 to 10
/// @throws invalid_input where the instrument, the response or the gain is out of range
template <class R>
[[nodiscard]] basic_strung_instrument<R> moistened(basic_strung_instrument<R> on,
                                                   const std::type_identity_t<basic_season_response<R>>& response,
                                                   const std::type_identity_t<R>& gained) {
    require_valid(on);
    require_valid(response, "response");
    require("moisture gained, in per cent", gained, between(-10, 10));
    require_that(!on.instrument.body_bridge || in_all_lanes(response.top.value() == number<R>(0)), "response.top",
                 "must be 0 on a solid body: it has no top that rises");
    kernel::moisten(on, response, gained);
    require_valid(on);
    return on;
}
TAUTLINE_HELD(strung_instrument moistened<double>(strung_instrument, const season_response&, const double&))

/// The setups of an instrument's year: as measured, and at its dry and its damp end.
template <class R = double>
struct basic_setups_of_year {
    using real = R;
    std::array<basic_setup<R>, 3> each; ///< as measured, dry, damp
    std::array<R, 3> gained{};          ///< moisture in per cent over the measured state: as measured, dry, damp

    /// Least and most value of a result in the three setups, such as `extremes_of("relief.gap")`. A result that moves one
    /// way with moisture stays between them all year, once the wood has come to rest.
    /// @throws invalid_input where no result has that path
    [[nodiscard]] std::array<any_quantity, 2> extremes_of(std::string_view path) const {
        std::array<any_quantity, 2> e{get(each[0], path), get(each[0], path)};
        for (const basic_setup<R>& s : each) {
            const auto q = get(s, path);
            if (q.si() < e[0].si()) { e[0] = q; }
            if (e[1].si() < q.si()) { e[1] = q; }
        }
        return e;
    }
};
using setups_of_year = basic_setups_of_year<double>;

/// Solves an instrument in the three airs of its year.
/// @throws invalid_input where the instrument or the season is out of range, and where the instrument cannot stand at one
/// end of the year
template <class When = when_used>
[[nodiscard]] when_used_t<setups_of_year, When> through_the_year(const when_used_t<strung_instrument, When>& on,
                                                                 const when_used_t<season, When>& year) {
    require_valid(on);
    require_valid(year, "season");
    when_used_t<setups_of_year, When> all;
    all.each[0] = solve(on);
    const std::array ends{&year.dry, &year.damp};
    for (std::size_t k = 0; k < 2; ++k) {
        const double gained = all.gained[k + 1] = moisture_gained(year.measured_in, *ends[k]);
        require_that(std::abs(gained) <= 10, messages::joined({"season.", k == 0 ? "dry" : "damp"}),
                     "must leave the wood within 10 % of the moisture it was measured with");
        all.each[k + 1] = solve(moistened(on, year.response, gained));
    }
    return all;
}
TAUTLINE_HELD(setups_of_year through_the_year<>(const strung_instrument&, const season&))

/// What is measured on a visit. Strings are at pitch; hand and tools are the same on each visit.
struct visit_measures {
    needed<length<>> relief; ///< on the centre line, from the first fret to the joint's fret
    needed<length<>> action; ///< mean of the outer strings' heights over fret 12

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("relief", between(-5 * units::mm, 5 * units::mm), self.relief...);
        visit("action", between(0 * units::mm, 50 * units::mm), self.action...);
    }
};

/// Least moisture between two visits, in per cent. With less the readings' own doubt is as large as the change.
inline constexpr double least_moisture_between_visits = 2;

/// An instrument's response to the season from two visits, weeks apart and with the same strings. Bow and top follow from
/// the changes of relief and action; the stiffness is taken from `assumed`.
/// @param on the instrument as it was measured on the first visit
/// @param gained moisture between the visits, in per cent (`moisture_gained`): 2 to 10, or -10 to -2
/// @throws invalid_input where moisture hardly changed, where the board has fewer than twelve frets, and where the answer
/// is outside the range of `basic_season_response`
template <class When = when_used>
[[nodiscard]] season_response
season_of_visits(const when_used_t<strung_instrument, When>& on, const when_used_t<visit_measures, When>& first,
                 const when_used_t<visit_measures, When>& second, when_used_t<double, When> gained,
                 const when_used_t<season_response, When>& assumed = {}) {
    require_valid(on);
    require_valid(first, "first");
    require_valid(second, "second");
    require_valid(assumed, "assumed");
    require("moisture gained, in per cent", gained, between(-10, 10));
    require_that(std::abs(gained) >= least_moisture_between_visits, "moisture gained, in per cent",
                 "must be 2 or more either way: below, a feeler's doubt is as large as what the season does. Come back in "
                 "another season");
    require_that(on.instrument.board.scale.frets >= 12 && on.instrument.neck.joint_fret >= 3, "board.scale.frets",
                 "must be 12 or more, with relief to be measured: action is read over fret 12");
    using D = dual<when_used_t<double, When>, 2>;
    const auto measured = [](const auto& s) {
        return std::array{s.relief->gap, (s.strings.front().heights[11] + s.strings.back().heights[11]) * 0.5};
    };
    const auto before = measured(solve(on));
    const std::array change{second.relief - first.relief, second.action - first.action};
    auto found = assumed;
    const bool solid = on.instrument.body_bridge.has_value();
    // Nearly linear in both unknowns: after a few Newton steps only rounding is left.
    for (int step = 0; step < 8; ++step) {
        auto there = over<D>(on);
        auto response = over<D>(found);
        response.bow = D::variable(found.bow, 0);
        response.top = length<D>::from_value(D::variable(found.top.value(), 1));
        kernel::moisten(there, response, D(gained));
        const auto now = measured(solve(there));
        std::array<double, 4> a{};
        std::array<double, 2> b{};
        for (std::size_t k = 0; k < 2; ++k) {
            const D miss = now[k].value() - D(before[k].value() + change[k].value());
            b[k] = -miss.value;
            a[2 * k] = miss.partial[0];
            a[2 * k + 1] = miss.partial[1];
        }
        found.bow += b[0] / a[0];
        if (!solid) { found.top = found.top + length<>::from_value((b[1] - a[2] * b[0] / a[0]) / a[3]); }
        const auto wrong = validate(found, "response");
        if (!wrong.empty()) {
            throw invalid_input(problem{
                "second", "",
                messages::joined({"must differ less from the first visit: a season does not do that (", wrong.front().field,
                                  " would be ", wrong.front().value, "). See that strings, pitch and rod were the same"})});
        }
    }
    return found;
}
TAUTLINE_HELD(season_response season_of_visits<>(const strung_instrument&, const visit_measures&, const visit_measures&,
                                                 double, const season_response&))

} // namespace tautline
