#pragma once
/// @file
/// What loosely filled fret slots cost a neck. The same instrument is compared with its slots as they are and with slots
/// that bear all.

#include <cmath>

#include "setup.hpp"

namespace tautline {

/// What loose or empty slots cost a neck.
template <class R = double>
struct basic_loose_slots {
    using real = R;
    R stiffness = number<R>(0); ///< share of the neck's stiffness that is missing, against an even moment from nut to
                                ///< joint; 0 to 1
    length<R> relief{};         ///< how much more relief the board has at pitch than with slots that bear all
    length<R> relief_full{};    ///< the board's relief at pitch with slots that bear all

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("stiffness", self.stiffness...);
        visit("relief", self.relief...);
        visit("relief_full", self.relief_full...);
    }
};
using loose_slots = basic_loose_slots<double>;

/// In metres: a larger change of relief is told as a warning, since a feeler and a hand notice it. Common practice, no
/// source.
inline constexpr double relief_that_counts = 0.05e-3;

namespace kernel {

/// Angle by which an even moment of one along the whole beam turns its nut end, `int dx/EI`, by Simpson's rule over each
/// step. In rad for each N m.
template <class R>
[[nodiscard]] R even_compliance(const basic_neck_beam<R>& beam) {
    R sum = number<R>(0);
    for (const auto& step : beam.steps) {
        const R ends = beam.at(step, 0).bending_compliance.value() + beam.at(step, 2).bending_compliance.value();
        sum = sum + step.span.value() * (ends + number<R>(4) * beam.at(step, 1).bending_compliance.value()) / number<R>(6);
    }
    return sum;
}

/// Whether an instrument's slots bear less than all.
template <class R>
[[nodiscard]] bool has_loose_slots(const basic_instrument<R>& built) {
    return built.neck.slots && !in_all_lanes(built.neck.slots->bearing == number<R>(1));
}

/// Whether a solve tells what loose slots cost: where there are any, and one number for all lanes tells it.
template <class R>
[[nodiscard]] bool tells_loose_slots(const basic_instrument<R>& built) {
    constexpr bool one_number = requires(const R& x) { static_cast<double>(value_of(x)); };
    return one_number && has_loose_slots(built);
}

/// A neck whose slots bear all, as far as loose ones are compared with it.
template <class R>
struct full_slots {
    R compliance{};                    ///< see `even_compliance`
    std::optional<length<R>> relief{}; ///< the board's relief at pitch
};
template <class R>
[[nodiscard]] full_slots<R> full_slots_of(const basic_setup<R>& full) {
    full_slots<R> told{even_compliance(full.beam), std::nullopt};
    if (full.board_relief) { told.relief = full.board_relief->gap; }
    return told;
}
/// What the loose slots of an instrument cost.
/// @param now its solved setup
template <class R>
[[nodiscard]] basic_loose_slots<R> loose_slots_of(const full_slots<R>& full, const basic_setup<R>& now) {
    basic_loose_slots<R> cost;
    cost.stiffness = number<R>(1) - full.compliance / even_compliance(now.beam);
    if (now.board_relief && full.relief) {
        cost.relief = now.board_relief->gap - *full.relief;
        cost.relief_full = *full.relief;
    }
    return cost;
}

/// Adds what loose slots cost to the findings of a solved setup.
template <class R>
void find_loose_slots(const basic_instrument<R>& built, const full_slots<R>& full, basic_setup<R>& out) {
    if constexpr (requires(const R& x) { static_cast<double>(value_of(x)); }) {
        const auto cost = loose_slots_of<R>(full, out);
        const auto plain = [](const auto& x) { return static_cast<double>(value_of(x)); };
        const double bearing = plain(built.neck.slots->bearing), relief = plain(cost.relief.value());
        finding f{.kind = finding_kind::slots_loose,
                  .severity = std::abs(relief) < relief_that_counts ? severity::note : severity::warning,
                  .number = length<double>::from_value(relief),
                  .limit = length<double>::from_value(relief_that_counts),
                  .beside = {bearing, plain(cost.stiffness)}};
        if (out.board_relief) { f.beside.push_back(length<double>::from_value(plain(cost.relief_full.value()))); }
        out.findings.push_back(f);
    }
}

} // namespace kernel

} // namespace tautline
