#pragma once
/// @file
/// Findings of a solved setup: strings, frets, neck and bridge.

#include "../strings/tension.hpp"
#include "held_findings.hpp"
#include "order_findings.hpp"
#include "saddle_findings.hpp"
#include "twist_finding.hpp"
#include "wood_findings.hpp"

namespace tautline {

namespace kernel {

/// No string is set to stand so far off a fret, in metres, not even for playing with a slide. Common practice, no source.
inline constexpr double out_of_reach_from = 12e-3;

template <class Q>
[[nodiscard]] auto plain(const Q& q) {
    return bu::quantity<typename Q::unit_type, double>::from_value(static_cast<double>(value_of(q.value())));
}

template <class R>
void fill_findings(const basic_instrument<R>& built, basic_setup<R>& out) {
    auto& list = out.findings;
    for (std::size_t i = 0; i < out.strings.size(); ++i) {
        const basic_string_setup<R>& s = out.strings[i];
        const auto add = [&](finding f) {
            f.string_index = i;
            list.push_back(f);
        };

        const auto bears = kernel::plain(s.core_stress);
        if (!s.share_of_strength) {
            add({.kind = finding_kind::strength_unknown, .severity = severity::note, .number = bears});
        } else if (const auto share = static_cast<double>(value_of(*s.share_of_strength)); share >= strength_warning) {
            const bool over = share >= 1;
            add({.kind = over ? finding_kind::core_over_strength : finding_kind::core_near_strength,
                 .severity = over ? severity::stop : severity::warning,
                 .number = share,
                 .limit = over ? 1.0 : strength_warning});
        }

        const auto seat = kernel::plain(s.at_nut.down());
        if (!(seat.value() > 0)) {
            add({.kind = finding_kind::lifts_off_nut,
                 .severity = severity::warning,
                 .number = seat,
                 .limit = force<double>()});
        }
        const auto press = kernel::plain(s.at_saddle.down());
        if (!(press.value() > 0)) {
            add({.kind = finding_kind::lifts_off_saddle,
                 .severity = severity::stop,
                 .number = press,
                 .limit = force<double>()});
        }

        for (std::size_t pressed = 0; pressed < s.clearances.size(); ++pressed) {
            const auto gap = kernel::plain(s.clearances[pressed].gap);
            if (gap.value() > 0 || !s.has_fret(pressed)) { continue; }
            const int at = s.clearances[pressed].fret_number();
            add({.kind = pressed == 0 ? finding_kind::open_string_touches : finding_kind::pressed_string_touches,
                 .severity = severity::warning,
                 .fret = at,
                 .number = gap,
                 .limit = length<double>(),
                 .beside = {static_cast<double>(pressed)}});
        }

        // Told at the octave, where action is told, or at the last fret of a shorter board.
        if (const std::size_t last = s.heights.size(); last > 0) {
            const std::size_t at = std::min(last, std::size_t{12}) - 1;
            const auto height = kernel::plain(s.heights[at]);
            if (height.value() > out_of_reach_from) {
                add({.kind = finding_kind::out_of_reach,
                     .severity = severity::warning,
                     .fret = static_cast<int>(at) + 1,
                     .number = height,
                     .limit = length<double>::from_value(out_of_reach_from)});
            }
        }

        const auto off = [&](const length<R>& y, const length<R>& x) {
            return in_all_lanes(kernel::half_width_at<R>(built.board, x).value() < abs(y).value());
        };
        if (off(s.y_at_nut, length<R>(s.line.nut_x))) {
            const auto y = kernel::plain(s.y_at_nut);
            add({.kind = finding_kind::string_off_board,
                 .severity = severity::warning,
                 .number = y,
                 .limit = kernel::plain(kernel::half_width_at<R>(built.board, length<R>(s.line.nut_x)))});
        }
    }
    kernel::find_held(built, out);
    kernel::find_order(built, out);
    kernel::find_saddle(built, out);
    kernel::find_twist(built, out);
    if (out.standing) {
        // A bridge that was set upright settles to even tension. The limits of friction are met while tuning.
        const auto& b = *out.standing;
        const auto even = kernel::plain(min(b.even.front_margin, b.even.back_margin)),
                   worst = kernel::plain(b.tip_margin());
        if (worst.value() < 0) {
            const bool always = even.value() < 0;
            list.push_back({.kind = finding_kind::bridge_tips,
                            .severity = always ? severity::stop : severity::note,
                            .number = always ? even : worst,
                            .limit = length<double>()});
        }
        const auto has = static_cast<double>(value_of(built.feet->friction.least));
        const auto settled = static_cast<double>(value_of(b.even.friction_needed)),
                   most = static_cast<double>(value_of(b.friction_needed()));
        if (most > has) {
            const bool always = settled > has;
            list.push_back({.kind = finding_kind::bridge_slides,
                            .severity = always ? severity::warning : severity::note,
                            .number = always ? settled : most,
                            .limit = has});
        }
    }
    if (out.board_relief) {
        const auto gap = kernel::plain(out.board_relief->gap);
        if (gap.value() < 0) {
            list.push_back({.kind = finding_kind::back_bow,
                            .severity = severity::warning,
                            .fret = static_cast<int>(out.board_relief->index) + 1,
                            .number = gap,
                            .limit = length<double>()});
        }
    }
    kernel::find_woods(built.neck, out);
}

} // namespace kernel

/// Fills `out.findings` from a solved setup. Within each string the most serious come first. Only values are looked at,
/// also of duals. A pack has several values and gives no findings: take one lane of it, or solve that lane alone.
template <class R>
void fill_findings(const basic_instrument<R>& built, basic_setup<R>& out) {
    out.findings.clear();
    if constexpr (requires(const R& x) { static_cast<double>(value_of(x)); }) { kernel::fill_findings(built, out); }
}

} // namespace tautline
