#pragma once
/// @file
/// How far the numbers of a job may be off by being told in steps of the bench.
///
/// A number that is read, such as a height or the relief, may be off by a quarter of its own give or take. A setting, such
/// as the depth of a slot, may be off by what moves no result of the planned setup by more than a quarter of that result's
/// give or take. What a setting moves is found by dual numbers through the solve.
///
/// Settings that are made together are counted together, all at their worst: slots, saddle and hanger; all crowns. Slots,
/// saddle and crowns are told to their shallow side, so that they err to that side alone. What is read again before others
/// are set is counted alone: the board, a reset by the line that it moves, the rod. Each of these groups may take the whole
/// quarter.
///
/// Derivatives tell how results move: one that is the least over many frets, such as the hardest clean pluck, moves
/// somewhat more where another fret becomes the nearest. Which fret lies lowest may change as well. The height of a crest
/// counts by the strings' heights over it, not by itself. For crowns, clearances and plucks do not count: what stands
/// between neighbouring crowns is known more closely than any file works, and a straightedge shows it after the file.
/// Results that nothing makes doubtful, and settings that move no doubtful result, tell no room.

#include <limits>
#include <map>

#include "../core/when_used.hpp"
#include "asked_results.hpp"
#include "first_cut.hpp"

namespace tautline {

/// How far each setting of a plan may be off by its telling.
struct rounding_room {
    /// By the path of the setting in the strung instrument: a nut slot, a saddle, a crown's wear, the rod's pull, ...;
    /// "board" for what is sanded off.
    std::map<std::string, any_quantity, std::less<>> settings{};

    /// The room of a setting; empty where it is not known.
    [[nodiscard]] any_quantity of(std::string_view path) const {
        const auto at = settings.find(path);
        return at == settings.end() ? any_quantity() : at->second;
    }
    /// How the bottom of a string's nut slot is told: never deeper than it is to be.
    [[nodiscard]] bench_rounding of_slot(std::size_t string) const {
        return {worked_as::cut, rounded_to::more, of(nut_slot_path(string)), {}};
    }
    /// How the saddle under a string is told: never lower than it is to be.
    [[nodiscard]] bench_rounding of_saddle(const tautline::saddle& s, std::size_t string) const {
        return {worked_as::height, rounded_to::more, of(saddle_height_path(s, string)), {}};
    }
};

namespace kernel {

/// The share of a result's give or take by which telling numbers may move it.
inline constexpr double told_share = 0.25;

/// A setting as a doubt of one unit.
struct told_setting {
    doubt one{};            ///< a unit of it, and the numbers that it moves
    bool one_sided = false; ///< whether it is told to one side only
};
/// Settings that are made together.
using settings_together = std::vector<told_setting>;

/// The settings of a plan that are worked to.
template <class = when_used>
[[nodiscard]] std::vector<settings_together> settings_of(const setup_plan& p, const work_done& work) {
    const auto& on = p.adjusted.instrument;
    const auto leaves = leaf_paths(p.adjusted);
    const any_quantity one_mm(1.0 * units::mm), one_newton(1.0 * units::N);
    std::vector<settings_together> all;
    const auto add = [&](settings_together& to, std::string name, const any_quantity& unit, std::vector<moved_leaf> moves,
                         bool one_sided) {
        moves = there(leaves, std::move(moves));
        if (!moves.empty()) { to.push_back({{std::move(name), unit, std::move(moves)}, one_sided}); }
    };
    settings_together slots_and_saddle, crowns;
    const auto add_leaf = [&](const std::string& path, bool one_sided) {
        add(slots_and_saddle, path, one_mm, {{path}}, one_sided);
    };
    if (std::any_of(p.slot_change.begin(), p.slot_change.end(), is_changed)) {
        for (std::size_t i = 0; i < p.slot_change.size(); ++i) { add_leaf(nut_slot_path(i), true); }
    }
    for (std::size_t i = 0; i < on.saddle.single.size(); ++i) {
        add_leaf(saddle_height_path(on.saddle, i), true);
        add_leaf(messages::path_of("saddle.single", i, "setback"), false);
    }
    if (on.saddle.single.empty()) {
        for (const char* path : {"saddle.height_bass", "saddle.height_treble"}) { add_leaf(path, !p.adjusters); }
        for (const char* path : {"saddle.setback_bass", "saddle.setback_treble"}) { add_leaf(path, false); }
    }
    if (p.hinge_change) { add_leaf(hinge_path, false); }
    all.push_back(std::move(slots_and_saddle));
    if (work.levelling) {
        for (std::size_t n = 0; n < static_cast<std::size_t>(on.board.scale.frets); ++n) {
            add(crowns, crown_path(n), one_mm,
                {{crown_path(n)}, {messages::path_of("frets.wear_bass", n)}, {messages::path_of("frets.wear_treble", n)}},
                true);
        }
        all.push_back(std::move(crowns));
    }
    const auto alone = [&](const char* name, const any_quantity& unit, std::vector<moved_leaf> moves) {
        settings_together one;
        add(one, name, unit, std::move(moves), false);
        all.push_back(std::move(one));
    };
    if (work.removal) { alone(whole_board, one_mm, moved_by_sanding(p)); }
    alone(board_line_path, one_mm, {{board_line_path}});
    if (p.rod_turns && p.rod_pull_change != 0 * units::N) { alone(rod_path, one_newton, {{rod_path}}); }
    return all;
}

/// All settings of a plan in one list, as doubts of one unit each.
[[nodiscard]] inline std::vector<doubt> units_of(const std::vector<settings_together>& groups) {
    std::vector<doubt> all;
    for (const auto& group : groups) {
        for (const auto& setting : group) { all.push_back(setting.one); }
    }
    return all;
}

/// Whether a result stands between neighbouring crowns.
[[nodiscard]] inline bool is_between_crowns(std::string_view path) {
    return path.find(".clearances[") != path.npos || path.find(".plucks[") != path.npos;
}

/// One top under all strings may be as far off under each string as at that end which has less room.
inline void even_out(rounding_room& room) {
    const auto bass = room.settings.find("saddle.height_bass"), treble = room.settings.find("saddle.height_treble");
    if (bass == room.settings.end() || treble == room.settings.end()) { return; }
    const double least = std::min(bass->second.si(), treble->second.si());
    bass->second = treble->second = any_quantity::of(bass->second.kind(), least);
}

} // namespace kernel

namespace kernel {

/// The room of settings.
/// @param moved what a unit of each setting does to each result, in the order of `d.results`
[[nodiscard]] inline rounding_room room_of(const std::vector<settings_together>& groups, const matrix& moved,
                                           const setup_doubts& d) {
    rounding_room room;
    const auto units = units_of(groups);
    std::vector<double> share(units.size(), std::numeric_limits<double>::infinity());
    for (std::size_t row = 0; row < moved.rows() && row < d.results.size(); ++row) {
        const auto& result = d.results[row]; // both are of the same instrument
        const double may = told_share * coverage_factor * result.standard(d.together).si();
        if (!(may > 0) || result.path.find(".crest_z[") != std::string::npos) { continue; }
        const bool between = is_between_crowns(result.path);
        std::size_t first = 0;
        for (const auto& group : groups) {
            const bool of_crowns = !group.empty() && group.front().one.name.starts_with("frets.wear");
            if (of_crowns && between) {
                first += group.size();
                continue;
            }
            double up = 0, down = 0;
            for (std::size_t k = first; k < first + group.size(); ++k) {
                const double by = moved(row, k);
                if (by > 0 || !group[k - first].one_sided) { up += std::abs(by); }
                if (by < 0 || !group[k - first].one_sided) { down += std::abs(by); }
            }
            const double worst = std::max(up, down);
            for (std::size_t k = first; k < first + group.size() && worst > 0; ++k) {
                if (moved(row, k) != 0) { share[k] = std::min(share[k], may / worst); }
            }
            first += group.size();
        }
    }
    for (std::size_t k = 0; k < units.size(); ++k) {
        if (std::isfinite(share[k])) { room.settings[units[k].name] = share[k] * units[k].standard; }
    }
    even_out(room);
    return room;
}

} // namespace kernel

/// How far the settings of a plan may be off by their telling.
/// @param d doubts of the plan's numbers; without any no room is known
template <class = when_used>
[[nodiscard]] rounding_room rounding_room_of(const setup_plan& p, const work_done& work, const setup_doubts& d) {
    if (d.results.empty()) { return {}; }
    const auto groups = kernel::settings_of(p, work);
    kernel::carried_beside settings{kernel::units_of(groups), {}};
    (void)kernel::propagate_both(p.adjusted, {}, &settings);
    return kernel::room_of(groups, settings.contributions, d);
}
TAUTLINE_HELD(rounding_room rounding_room_of<>(const setup_plan&, const work_done&, const setup_doubts&))

/// How a result with which a sheet begins is told: relief and heights by what reads them, any other as it is.
/// @param give_or_take of the result, at about 95 %; empty: not known
[[nodiscard]] inline bench_rounding rounding_of(const asked_result& asked, const any_quantity& give_or_take) {
    bench_rounding how;
    how.as = asked.path == "relief.gap"                          ? worked_as::gap
             : asked.path.find(".heights[") != std::string::npos ? worked_as::height
                                                                 : worked_as::value;
    if (give_or_take.has_value()) { how.room = kernel::told_share * give_or_take; }
    how.wish = asked.wanted;
    return how;
}

/// Whether a plan keeps a length that was there before. It is then told as what was.
[[nodiscard]] inline bool keeps(const any_quantity& was, const any_quantity& is) {
    return was.has_value() && was.kind() == is.kind() && is.kind() == show::height.kind &&
           std::abs(is.si() - was.si()) < kernel::lies_on_step;
}

namespace kernel {

/// Where strings lie beyond the adjusters of a bridge, each adjuster moves them by more than itself.
[[nodiscard]] inline double reach_beyond(const bridge_adjusters& a, const setup& s) {
    const length<> middle = (a.bass + a.treble) / 2, half = (a.treble - a.bass) / 2;
    const length<> out =
        max(abs(length<>(s.strings.front().y_at_saddle - middle)), abs(length<>(s.strings.back().y_at_saddle - middle)));
    return std::max(1.0, out.value() / half.value());
}

} // namespace kernel

/// Gives the lines of steps that are worked to the room in which they may be told, and heights the wish that they meet.
/// @param d doubts of the plan's numbers
/// @param w what is wanted
inline void tell_room(const rounding_room& room, const setup_plan& p, const setup_doubts& d, const wishes& w,
                      std::vector<bench_step>& steps) {
    const auto asked = asked_results(w, p.solved);
    for (bench_step& s : steps) {
        for (step_line& l : s.lines) {
            if (l.told.as == worked_as::value || l.told.room.has_value()) { continue; }
            const any_quantity setting = room.of(l.of);
            if (setting.has_value()) {
                double for_each = l.for_each;
                if (l.told.as == worked_as::turns && l.of != kernel::rod_path && w.adjusters) {
                    for_each = 1 / (w.adjusters->thread_pitch.value() * kernel::reach_beyond(*w.adjusters, p.solved));
                }
                l.told.room = any_quantity::of(l.number.kind(), setting.si() * for_each);
                continue;
            }
            const any_quantity own = d.give_or_take(l.of);
            if (own.has_value() && own.kind() == l.number.kind()) { l.told.room = kernel::told_share * own; }
            const auto is_it = [&](const asked_result& r) { return r.path == l.of && r.wanted.has_value(); };
            const auto at = std::find_if(asked.begin(), asked.end(), is_it);
            if (at != asked.end()) { l.told.wish = at->wanted; }
            if (at == asked.end() && keeps(find_at(p.untouched, l.of), l.number)) { l.told = {}; }
        }
    }
}

} // namespace tautline
