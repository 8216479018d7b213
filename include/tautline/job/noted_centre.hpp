#pragma once
/// @file
/// The board's edges as measured from one straight line. From them its centre line is carried to bridge and tail.

#include "../board/centre_line.hpp"

namespace tautline {

/// Edges of the board from one reference line (a taut thread, a straightedge), and the places found at bridge and tail
/// from the same line. Places along are from the front of the nut.
template <class R = double>
struct basic_noted_centre {
    using real = R;
    std::vector<basic_edge_reading<R>> readings{}; ///< from the nut on, at two places or more
    /// How sure one edge reading is, at about 95 %. Absent: it follows from the scatter, which takes three places or
    /// more.
    std::optional<field<length<R>>> give_or_take{};
    std::optional<field<length<R>>> bridge_at{};  ///< middle of the bridge as found, from the reference line
    std::optional<field<length<R>>> tail_at{};    ///< middle of what the strings end on, as found, from that line
    std::optional<field<length<R>>> end_pin{};    ///< from the front of the nut along to the end pin
    std::optional<field<length<R>>> end_pin_at{}; ///< the end pin as found, from the reference line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto across = between(-1000 * units::mm, 1000 * units::mm);
        visit("readings", self.readings...);
        visit("give_or_take", between(0.001 * units::mm, 10 * units::mm), self.give_or_take...);
        visit("bridge_at", across, self.bridge_at...);
        visit("tail_at", across, self.tail_at...);
        visit("end_pin", between(0 * units::mm, 3000 * units::mm), self.end_pin...);
        visit("end_pin_at", across, self.end_pin_at...);
    }
    /// The readings in the form that a line is fitted to.
    [[nodiscard]] basic_edge_readings<R> edges() const {
        basic_edge_readings<R> all{readings, std::nullopt};
        // A reading error is a standard uncertainty: half of what is told at about 95 %.
        if (give_or_take) { all.reading_error = *give_or_take * number<R>(0.5L); }
        return all;
    }
    template <class Report>
    void rules(Report&& report) const {
        edges().rules(report);
        const bool spans =
            readings.size() < 2 || in_all_lanes(number<R>(0.05L) <= (readings.back().x - readings.front().x).value());
        if (!spans) {
            report("readings",
                   "must lie 50 mm or more apart, the first from the last: the line is carried far beyond them");
        }
        if (end_pin_at && !end_pin) { report("end_pin", "must be given where end_pin_at is"); }
    }
};
using noted_centre = basic_noted_centre<double>;

} // namespace tautline
