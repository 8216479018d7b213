#pragma once
/// @file
/// How far above its final depth the first cut of a slot or a saddle stops. What is cut away cannot be put back, and the
/// depth that gives a height is as doubtful as everything that was measured. Heights read after the first cut make the
/// last cut sure.
///
/// A string is a straight line over nut and saddle. A doubt may move its heights over fret 1 by e1 and over the action's
/// fret by e2; these frets lie at the shares u1 and u2 of its length. Slot and saddle must then move by the heights at 0
/// and at 1 of the line through (u1, -e1) and (u2, -e2). Each doubt's part of both is computed, then the parts are
/// combined.
///
/// Source: plane geometry. The first cut stops twice the standard uncertainty short, the GUM's coverage at about 95 %:
/// one cut of 40 is too deep.

#include <array>

#include "../core/quantity_text.hpp"
#include "../core/when_used.hpp"
#include "bench_step.hpp"
#include "job_doubts.hpp"

namespace tautline {

/// How much the first cuts leave standing; what stays as it is has no value.
struct first_cuts {
    /// For each string's nut slot.
    std::vector<std::optional<length<>>> slots{};
    /// For the saddle under each string; one top for all strings has values for the two outer strings.
    std::vector<std::optional<length<>>> saddle{};
    std::optional<length<>> zero_fret{}; ///< for the crown of a zero fret, where the plan remarks on it
    /// What is left to cut of a slot, or of a zero fret: `slot_for_height` times the excess of the height over fret 1 at
    /// pitch, less `slot_for_action` times the excess over the action's fret. The latter is 0 where the saddle is not cut.
    double slot_for_height = 1;
    double slot_for_action = 0; ///< see `slot_for_height`
    /// The same for the saddle: `saddle_for_height` times the excess over the action's fret, less `saddle_for_first`
    /// times that over fret 1.
    double saddle_for_height = 1;
    double saddle_for_first = 0; ///< see `saddle_for_height`
    /// The same for the saddle under an outermost bass string that begins at a nut of its own, whose excess over the
    /// action's fret alone counts. Absent where there is none, or where the saddle stays under it.
    std::optional<double> saddle_for_own_nut{};

    /// The largest of a list: one number that suits every string.
    [[nodiscard]] static std::optional<length<>> most(const std::vector<std::optional<length<>>>& list) {
        std::optional<length<>> m;
        for (const auto& one : list) {
            if (one && (!m || *one > *m)) { m = one; }
        }
        return m;
    }
};

/// How what a first cut leaves is told: in a file's coarsest step, and rounded so that more is left.
[[nodiscard]] inline bench_rounding left_told(const length<>& left) { return {worked_as::cut, rounded_to::more, left, {}}; }

namespace kernel {

/// In metres. A first cut leaves at least this much: less can be neither cut to nor read.
inline constexpr double least_first_left = 0.03e-3;
/// In metres. Smaller changes are not cut.
inline constexpr double smallest_cut = 0.005e-3;

/// What a first cut leaves where its depth has this standard uncertainty, in metres. Rounded up in steps of 0.01 mm.
[[nodiscard]] inline length<> left_standing(double standard) {
    const double margin = std::max(coverage_factor * standard, least_first_left);
    return std::ceil(margin / 1e-5 - 1e-9) * 1e-5 * units::metre;
}

/// What a first cut leaves, as a line.
[[nodiscard]] inline step_line left_line(std::string what, const length<>& left) {
    step_line l{std::move(what), left, false};
    l.told = left_told(left);
    return l;
}

/// What each doubt does to a height. Doubts about cuts that are still to be made are left out.
[[nodiscard]] inline std::vector<double> parts_of(const setup_doubts& d, std::size_t string, std::size_t fret) {
    const auto* r = find_result(d.results, messages::path_of(messages::path_of("strings", string, "heights"), fret));
    if (!r) { return {}; }
    std::vector<double> parts = r->contributions;
    for (std::size_t k = 0; k < parts.size() && k < d.doubts.size(); ++k) {
        if (std::find(d.cuts.begin(), d.cuts.end(), d.doubts[k].name) != d.cuts.end()) { parts[k] = 0; }
    }
    return parts;
}

/// What each doubt does to the crown of a zero fret: it is measured, or it is that of the wire.
[[nodiscard]] inline std::vector<double> parts_of_zero_crown(const frets& f, const setup_doubts& d) {
    const std::string_view path = f.zero_crown ? "frets.zero_crown" : "frets.wire.crown_height";
    std::vector<double> parts(d.doubts.size());
    for (std::size_t k = 0; k < parts.size(); ++k) {
        for (const moved_leaf& m : d.doubts[k].moves) {
            if (m.path == path) { parts[k] += m.factor * d.doubts[k].standard.si(); }
        }
    }
    return parts;
}

} // namespace kernel

/// How much the first cuts of a plan leave standing. What must come up is cut anew or shimmed, and stands as much too high
/// at first.
/// @param d doubts of the plan's numbers; those about the cuts themselves do not count, since heights are read after the
/// cuts
/// @param crown_planned whether the crown of the zero fret is planned by hand; one that the plan remarks on counts
/// besides
template <class = when_used>
[[nodiscard]] first_cuts first_cuts_of(const setup_plan& p, const setup_doubts& d, bool crown_planned = false) {
    first_cuts cuts;
    const std::size_t count = p.solved.strings.size();
    cuts.slots.resize(count);
    cuts.saddle.resize(count);
    if (p.action_fret < 1) { return cuts; }
    const std::size_t action = static_cast<std::size_t>(p.action_fret) - 1;
    const auto moves = [](const length<>& change) { return std::abs(change.value()) > kernel::smallest_cut; };
    const bool sets_saddle = action > 0 && std::any_of(p.saddle_change.begin(), p.saddle_change.end(), moves);
    // Screws and thumbwheels set, they do not cut.
    const bool cuts_saddle = sets_saddle && p.adjusted.instrument.saddle.single.empty() && !p.adjusters;
    const auto of_zero_fret = [](const plan_remark& r) { return r.wish.starts_with("first_fret") && r.number.has_value(); };
    const bool files_zero_fret = p.adjusted.instrument.board.scale.zero_fret &&
                                 (crown_planned || std::any_of(p.remarks.begin(), p.remarks.end(), of_zero_fret));
    bool cut_slot = false;
    std::optional<std::array<double, 2>> together;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& s = p.solved.strings[i];
        const auto& crest_x = p.solved.crest_places(s);
        const auto left = [&](const std::vector<double>& parts) {
            return kernel::left_standing(kernel::combined<double>(parts, d.together));
        };
        if (s.frets_behind > 0) {
            // There is no fret 1 under it to cut its slot by. Its saddle takes it all.
            if (i > 0 || !cuts_saddle || !moves(p.saddle_change[i]) || action < s.frets_behind) { continue; }
            const double lever = (s.line.saddle_x - s.line.nut_x) / (crest_x[action] - s.line.nut_x);
            auto at_saddle = kernel::parts_of(d, i, action);
            for (double& part : at_saddle) { part *= lever; }
            cuts.saddle[i] = left(at_saddle);
            cuts.saddle_for_own_nut = lever;
            continue;
        }
        const double whole = (s.line.saddle_x - s.line.nut_x).value();
        const double u1 = (crest_x[0] - s.line.nut_x).value() / whole,
                     u2 = (crest_x[action] - s.line.nut_x).value() / whole;
        const auto e1 = kernel::parts_of(d, i, 0), e2 = kernel::parts_of(d, i, action);
        std::vector<double> at_nut(e1.size()), at_saddle(e1.size());
        for (std::size_t k = 0; k < e1.size(); ++k) {
            // Where the saddle stays, the slot takes it all.
            const double slope = sets_saddle ? (e1[k] - e2[k]) / (u2 - u1) : e1[k] / (1 - u1);
            at_nut[k] = -(e1[k] + slope * u1);
            at_saddle[k] = -(e1[k] - slope * (1 - u1));
        }
        if (i < p.slot_change.size() && moves(p.slot_change[i])) {
            cuts.slots[i] = left(at_nut);
            cuts.slot_for_height = std::max(cuts.slot_for_height, 1 / (1 - u1));
            cut_slot = true;
        }
        if (files_zero_fret && (i == 0 || i + 1 == count)) {
            // It is filed to a crown over the board, and not by so much.
            const auto crown = kernel::parts_of_zero_crown(p.adjusted.instrument.frets, d);
            auto filed = at_nut;
            for (std::size_t k = 0; k < std::min(filed.size(), crown.size()); ++k) { filed[k] += crown[k]; }
            const length<> here = left(filed);
            if (!cuts.zero_fret || *cuts.zero_fret < here) { cuts.zero_fret = here; }
            cuts.slot_for_height = std::max(cuts.slot_for_height, 1 / (1 - u1));
            cut_slot = cut_slot || crown_planned; // else the saddle waits for it
        }
        if (cuts_saddle && (i == 0 || i + 1 == count) && moves(p.saddle_change[i])) {
            cuts.saddle[i] = left(at_saddle);
            cuts.saddle_for_height = std::max(cuts.saddle_for_height, 1 / u2);
            // Each also stands too high for the other's height. The line through both heights separates the two.
            if (cut_slot) { together = std::array{u1, u2}; }
        }
    }
    if (together) {
        const auto [u1, u2] = *together;
        cuts.slot_for_height = u2 / (u2 - u1);
        cuts.slot_for_action = u1 / (u2 - u1);
        cuts.saddle_for_height = (1 - u1) / (u2 - u1);
        cuts.saddle_for_first = (1 - u2) / (u2 - u1);
    }
    return cuts;
}
TAUTLINE_HELD(first_cuts first_cuts_of<>(const setup_plan&, const setup_doubts&, bool))

/// Adds to the steps that cut slots and saddle where the first cut stops, and to the step that corrects at pitch how to
/// find the last cut.
inline void tell_first_cuts(const first_cuts& cuts, int action_fret, std::vector<bench_step>& steps) {
    const auto times = [](double by) { return fixed_text(by * units::mm, units::mm, 2); };
    const auto at_pitch =
        std::find_if(steps.begin(), steps.end(), [](const bench_step& s) { return s.stage == bench_stage::finish; });
    const auto tell = [&](bench_step& s, const char* where, const char* of, const std::optional<length<>>& left, int fret,
                          double by, int other, double less, const std::optional<double>& own) {
        if (!left) { return; }
        s.lines.push_back(kernel::left_line(messages::joined({"the first time leave ", where, " higher by"}), *left));
        std::string rest = messages::joined({less > 0 ? "with slots and saddle as they are" : "all else set",
                                             ", read heights at pitch; left to cut of ", of, ": ", times(by),
                                             " times what fret ", fret, " is too high"});
        if (less > 0) { messages::append(rest, {", less ", times(less), " times what fret ", other, " is too high"}); }
        if (own) {
            messages::append(rest, {"; under the string that begins at its own nut, ", times(*own), " times what fret ",
                                    fret, " is too high there"});
        }
        auto& told = at_pitch == steps.end() ? s : *at_pitch;
        told.lines.push_back({std::move(rest), {}, false});
    };
    for (bench_step& s : steps) {
        if (s.stage == bench_stage::cut_nut) {
            tell(s, "the slots", "a slot", cuts.most(cuts.slots), 1, cuts.slot_for_height, action_fret,
                 cuts.slot_for_action, {});
            tell(s, "its crown", "the zero fret", cuts.zero_fret, 1, cuts.slot_for_height, action_fret,
                 cuts.slot_for_action, {});
        }
        if (s.stage == bench_stage::set_saddle) {
            tell(s, "the saddle", "the saddle", cuts.most(cuts.saddle), action_fret, cuts.saddle_for_height, 1,
                 cuts.saddle_for_first, cuts.saddle_for_own_nut);
        }
    }
}

} // namespace tautline
