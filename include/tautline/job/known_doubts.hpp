#pragma once
/// @file
/// Everything in a job that may be off: stated doubts of its measurements, usual doubts of the bench where none are
/// stated, and what each step of the work adds.

#include <cmath>

#include "../core/when_used.hpp"
#include "../doubt/tolerance.hpp"
#include "../doubt/usual_doubts.hpp"
#include "../instrument/neck_woods.hpp"
#include "job_setups.hpp"
#include "numbered_paths.hpp"

namespace tautline {

/// A measurement of a job, or a cut, that may be off.
struct known_doubt {
    std::string name{};                ///< path of the job, or what is cut
    any_quantity standard{};           ///< standard uncertainty
    bool usual = false;                ///< whether nobody stated it: it is then the usual one of the bench
    bool cut = false;                  ///< whether it is of a slot or a saddle that may be cut once more
    std::vector<moved_leaf> found{};   ///< what it moves of the strung instrument as found, of states and of gauges
    std::vector<moved_leaf> planned{}; ///< what it moves of the strung instrument as planned
};

/// What the doubt of sanding a board is called.
inline constexpr std::string_view sanding_doubt = "what is sanded off";
/// What the doubt of a neck reset is called: that of the board's line over the body at the saddle.
inline constexpr std::string_view reset_doubt = "the board's line once the neck is reset";

namespace kernel {

/// What a number of a string's order moves in the string that is made from it, by dual numbers through the making.
template <class = when_used>
[[nodiscard]] std::vector<moved_leaf> moved_by_order(const ordered_string& order, std::size_t place, std::string_view key) {
    using D = dual<double, 1>;
    auto seeded = over<D>(order);
    for_each_leaf(seeded, [&](std::string_view path, auto& x) {
        if (path == key) { set_number(x, D::variable(number_of(x).value, 0)); }
    });
    std::vector<moved_leaf> moves;
    const auto made = made_string(seeded);
    for_each_leaf(made, [&](std::string_view path, const auto& x) {
        const double slope = number_of(x).partial[0];
        if (slope != 0) {
            moves.push_back({messages::path_of("strings", place, messages::joined({"string.", path})), slope, true});
        }
    });
    return moves;
}

/// What of the strung instrument a measurement of a job moves. Its path is that of the job without "planned.".
template <class = when_used>
[[nodiscard]] std::vector<moved_leaf> moved_by(std::string_view path, const std::vector<ordered_string>& orders) {
    if (path == "a4") { return {{"standard.a4"}}; }
    for (std::size_t i = 0; is_at_or_below(path, "strings") && i < orders.size(); ++i) {
        const std::string list = messages::path_of("strings", i, "");
        if (path != list && is_at_or_below(path, list)) {
            return moved_by_order(orders[i], i, path.substr(list.size() + 1));
        }
    }
    // Where frets are filed with unlike ends, the wear of a fret is told at both ends.
    if (constexpr std::string_view worn = "frets.wear["; path.starts_with(worn)) {
        const std::string_view fret = path.substr(worn.size() - 1);
        return {{std::string(path)},
                {messages::joined({"frets.wear_bass", fret})},
                {messages::joined({"frets.wear_treble", fret})}};
    }
    // New wire is under the frets, a new arc under the board, the rod's screw by itself.
    const std::string_view sanding = "sanding", wanted = "wanted.";
    if (is_at_or_below(path, "wire")) { return {{messages::joined({"frets.", path})}}; }
    if (is_at_or_below(path, sanding)) { return {{messages::joined({"board.surface", path.substr(sanding.size())})}}; }
    if (path.starts_with("wanted.rod_screw.")) { return {{std::string(path.substr(wanted.size()))}}; }
    // A weight is noted as a mass and acts by its pull.
    if (path.starts_with("states[") && path.ends_with("weight")) {
        return {{std::string(path), static_cast<double>(units::standard_gravity.size), true}};
    }
    return {{std::string(path)}};
}

/// Tells a doubt that moves only a string's mass per length (a weight, the weighed length, a packet's tension) as a doubt
/// of that mass. The sign is kept for what errs together with another.
inline void tell_as_mass(const bench_job& j, known_doubt& d, std::vector<moved_leaf>& moves) {
    if (moves.size() != 1 || !moves.front().path.ends_with("string.weighed")) { return; }
    const double by = moves.front().factor * d.standard.si();
    const bool together = std::any_of(j.correlated.begin(), j.correlated.end(), [&](const correlated_readings& c) {
        return c.first == d.name || c.second == d.name;
    });
    d.standard = linear_density<>::from_value(std::abs(by));
    moves.front().factor = together && by < 0 ? -1 : 1;
    moves.front().converts = false;
}

/// Whether a measurement goes with a sanded surface: its arc, and the set, which is trued.
[[nodiscard]] inline bool is_sanded_away(std::string_view path) {
    return is_at_or_below(path, "board.surface") || is_at_or_below(path, "neck.set") ||
           is_at_or_below(path, "neck.set_bass") || is_at_or_below(path, "neck.set_treble");
}

/// Whether a measurement of what was found no longer holds once the job is done: new strings, frets and surfaces were not
/// measured.
[[nodiscard]] inline bool is_replaced(const bench_job& j, std::string_view path) {
    if (!j.planned) { return false; }
    const auto& plan = *j.planned;
    const auto place = string_of_path(path);
    return plan.changes.names(path) || (place && is_at_or_below(path, "strings") && plan.renews(*place)) ||
           (plan.a4 != j.a4 && path == "a4") || (plan.wire && is_at_or_below(path, "frets")) ||
           (plan.sanding && is_sanded_away(path));
}

/// The usual standard uncertainty of a number of a job. For a modulus it follows the name of its wood or the way it was
/// measured.
template <class = when_used>
[[nodiscard]] std::optional<double> usual_of_job(const bench_job& j, std::string_view path, std::string_view known,
                                                 double value) {
    if (path.ends_with("_modulus")) {
        const bool plan = is_planned(path) && j.planned;
        for (const neck_wood& w : woods_of(plan ? j.planned->changes.values.neck : j.instrument.neck)) {
            if (as_found(path) != messages::joined({"neck.", w.part, "_modulus"})) { continue; }
            if (const auto standard = w.standard()) { return standard->value(); }
        }
    }
    return usual_standard(known, value);
}

/// Adds usual doubts for every number of a part of the job whose doubt is not stated.
template <class Part>
void add_usual(const bench_job& j, std::string_view before, const Part& part, std::vector<known_doubt>& all) {
    for_each_leaf(part, [&](std::string_view at, const auto& x) {
        const std::string path = messages::joined({before, at});
        const auto stated = [&](const stated_doubt& d) { return d.path == path; };
        if (std::any_of(j.doubts.begin(), j.doubts.end(), stated)) { return; }
        if (as_found(path) == "neck.rod_pull" && !j.instrument.neck.rod) { return; }
        const double value = static_cast<double>(number_of(x));
        if (is_none(path, value)) { return; }
        const std::string known = is_at_or_below(as_found(path), "wire") ? messages::joined({"frets.", as_found(path)})
                                                                         : std::string(as_found(path));
        const auto standard = usual_of_job(j, path, known, value);
        if (!standard || !(*standard > 0)) { return; }
        all.push_back({path, any_quantity::of(kind_name_of(x), *standard), true, false, {}, {}});
    });
}

/// Adds usual doubts for a pitch, or for strings as they are ordered, under one path.
/// @param is_new whether the string at a place counts
template <class Strings, class IsNew>
void add_usual_strings(const bench_job& j, std::string_view before, const frequency<>* a4, const Strings& strings,
                       IsNew&& is_new, std::vector<known_doubt>& all) {
    for (std::size_t i = 0; i < strings.size(); ++i) {
        if (is_new(i)) { add_usual(j, messages::joined({before, messages::path_of("strings", i), "."}), strings[i], all); }
    }
    const std::string path = messages::joined({before, "a4"});
    const auto stated = [&](const stated_doubt& d) { return d.path == path; };
    if (!a4 || std::any_of(j.doubts.begin(), j.doubts.end(), stated)) { return; }
    all.push_back({path, any_quantity::of("frequency", *usual_standard("a4", a4->value())), true, false, {}, {}});
}

/// Adds the doubts of what 1 % of moisture does to an instrument that was read in several airs: stated or usual ones.
/// What nobody measured has its large doubt, whether usual doubts count or not.
template <class = when_used>
void add_season(const bench_job& j, std::vector<known_doubt>& all) {
    if (!j.season || !reads_in_other_air(j)) { return; }
    if (j.adjusting.usual_doubts) { add_usual(j, "season.", *j.season, all); }
    if (!j.season->bow) { all.push_back({"season.bow", any_quantity(unmeasured_season_bow), true, false, {}, {}}); }
    if (!j.season->top && !j.instrument.body_bridge) {
        all.push_back({"season.top", any_quantity(unmeasured_season_top * units::metre), true, false, {}, {}});
    }
}

/// Whether a plan changes a height by more than rounding does.
[[nodiscard]] inline bool is_changed(const length<>& by) { return abs(by) > 0.0005 * units::mm; }

/// From the edge that a neck turns about down to its heel's cap, where nobody told it. Common practice, no source.
inline constexpr length<> usual_heel = 90 * units::mm;

/// How far the board's line over the body at the saddle may be off once the neck is reset, where the joint is cut so true
/// at its heel or at the end of its pocket: by similar triangles from the joint's edge. 0 where no neck is reset.
template <class = when_used>
[[nodiscard]] length<> reset_off(const bench_job& j, const setup_plan& p) {
    const bool turned = p.reset && (abs(p.reset->turn) > 0.005 * units::deg || p.reset->edge_cut > length<>());
    if (!turned || !j.wanted || !j.wanted->reset) { return {}; }
    const auto& wish = *j.wanted->reset;
    const length<> depth = wish.heel_depth ? *wish.heel_depth : wish.pocket_length ? *wish.pocket_length : usual_heel;
    const auto& built = p.start.instrument;
    return length<>(j.adjusting.resets_to() * ((line_place(built) - joint_place(built)) / depth));
}

/// Whether a number that a plan changes is planned by value, and moved by no wish besides. How true it comes out is then
/// the doubt of the planned value.
template <class = when_used>
[[nodiscard]] bool set_by_value(const bench_job& j, std::string_view path, const length<>& by_wish) {
    return j.planned && j.planned->changes.names(path) && !is_changed(by_wish);
}

/// What moves when more is sanded off the board, as `after_sanding` measures the instrument from it. A slot that is cut
/// later is cut over the board as it is then.
template <class = when_used>
[[nodiscard]] std::vector<moved_leaf> moved_by_sanding(const setup_plan& p) {
    const auto& on = p.adjusted.instrument;
    std::vector<moved_leaf> moves{{"board.thickness", -1},     {"board.thickness_at_end", -1}, {"neck.depth_at_nut", -1},
                                  {"neck.depth_at_joint", -1}, {"saddle.board_line", -1},      {"headstock.face_drop", -1},
                                  {"neck.rod.z_ends", 1},      {"neck.slots.depth", -1}};
    for (std::size_t i = 0; i < on.neck.inserts.size(); ++i) {
        moves.push_back({messages::path_of("neck.inserts", i, "top")});
    }
    for (std::size_t i = 0; i < on.nut.slot_heights.size(); ++i) {
        const bool is_cut = i < p.slot_change.size() && is_changed(p.slot_change[i]);
        if (!is_cut) { moves.push_back({messages::path_of("nut.slot_heights", i)}); }
    }
    return moves;
}

/// New wire, under the name that a plan has for it.
struct new_frets {
    fret_wire wire;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("wire", self.wire...);
    }
};

} // namespace kernel

/// Doubts of what was measured on the instrument as found, with its strings, states and gauges.
template <class = when_used>
[[nodiscard]] std::vector<known_doubt> doubts_of_found(const bench_job& j) {
    std::vector<known_doubt> all;
    for (const stated_doubt& d : j.doubts) {
        if (!is_planned(d.path)) { all.push_back({d.path, d.standard, false, false, {}, {}}); }
    }
    if (j.adjusting.usual_doubts) {
        const frequency<> a4 = j.a4;
        kernel::add_usual(j, "", j.instrument, all);
        kernel::add_usual_strings(
            j, "", &a4, j.strings, [](std::size_t) { return true; }, all);
        for (std::size_t i = 0; i < j.gauges.size(); ++i) {
            kernel::add_usual(j, messages::joined({messages::path_of("gauges", i), "."}), j.gauges[i], all);
        }
        for (std::size_t i = 0; i < j.states.size(); ++i) {
            const auto turned = [](const noted_state& s) { return s.rod_turns != 0; };
            std::vector<known_doubt> of_state;
            kernel::add_usual(j, messages::joined({messages::path_of("states", i), "."}), j.states[i], of_state);
            for (known_doubt& d : of_state) {
                if (!d.name.ends_with("rod_turns") || turned(j.states[i])) { all.push_back(std::move(d)); }
            }
        }
    }
    kernel::add_season(j, all);
    for (known_doubt& d : all) {
        d.found = kernel::moved_by(d.name, j.strings);
        kernel::tell_as_mass(j, d, d.found);
    }
    return all;
}
TAUTLINE_HELD(std::vector<known_doubt> doubts_of_found<>(const bench_job&))
/// Doubts of what the plan of a job gives anew, stated or usual, and what every cut adds.
template <class = when_used>
[[nodiscard]] std::vector<known_doubt> doubts_of_plan(const bench_job& j, const job_setups& s) {
    std::vector<known_doubt> all;
    if (!s.planned) { return all; }
    for (const stated_doubt& d : j.doubts) {
        if (is_planned(d.path)) { all.push_back({d.path, d.standard, false, false, {}, {}}); }
    }
    for (const stated_doubt& d : j.doubts) {
        // What is set at the bench, planned without a doubt, is set by what measured it as found.
        const std::string planned = messages::joined({"planned.", d.path});
        const bool place = is_at_or_below(d.path, "nut.slot_heights") || is_at_or_below(d.path, "saddle") ||
                           d.path == "tailpiece.hinge_height";
        if (!place || !j.planned || !j.planned->changes.names(d.path)) { continue; }
        const auto same = [&](const known_doubt& k) { return k.name == planned; };
        if (std::any_of(all.begin(), all.end(), same)) { continue; }
        all.push_back({planned, d.standard, false, false, {}, {}});
    }
    if (j.adjusting.usual_doubts && j.planned) {
        const auto& plan = *j.planned;
        std::vector<known_doubt> values;
        kernel::add_usual(j, "planned.", plan.changes.values, values);
        for (known_doubt& d : values) {
            const auto same = [&](const known_doubt& k) { return k.name == d.name; };
            const bool told = std::any_of(all.begin(), all.end(), same);
            if (!told && plan.changes.names(as_found(d.name))) { all.push_back(std::move(d)); }
        }
        const frequency<> a4 = plan.a4;
        kernel::add_usual_strings(
            j, "planned.", plan.a4 != j.a4 ? &a4 : nullptr, plan.strings, [&](std::size_t i) { return plan.renews(i); },
            all);
        if (plan.wire) { kernel::add_usual(j, "planned.", kernel::new_frets{*plan.wire}, all); }
    }
    for (known_doubt& d : all) {
        d.planned = kernel::moved_by(as_found(d.name), j.last_strings());
        kernel::tell_as_mass(j, d, d.planned);
    }
    // Sanding and cutting are as sure as hands and gauges make them.
    const auto done = [&](std::string name, const length<>& give_or_take, bool usual, bool is_cut,
                          std::vector<moved_leaf> moves) {
        if (!(give_or_take > length<>())) { return; }
        all.push_back(
            {std::move(name), any_quantity(length<>(give_or_take / coverage_factor)), usual, is_cut, {}, std::move(moves)});
    };
    const auto cut = [&](std::string name, std::vector<moved_leaf> moves) {
        done(std::move(name), j.adjusting.cuts_to(), !j.adjusting.cut_to.has_value(), true, std::move(moves));
    };
    const auto differs = [](const length<>& q) { return kernel::is_changed(q); };
    const auto& slots = s.plan.adjusted.instrument.nut.slot_heights;
    done(std::string(reset_doubt), kernel::reset_off(j, s.plan), !j.adjusting.reset_to.has_value(), false,
         {{"saddle.board_line"}});
    if (j.planned && j.planned->sanding) {
        done(std::string(sanding_doubt), j.adjusting.sands_to(), !j.adjusting.sanded_to.has_value(), false,
             kernel::moved_by_sanding(s.plan));
    }
    const auto &from = s.plan.base.instrument, &to = s.plan.adjusted.instrument;
    for (std::size_t i = 0; i < s.plan.slot_change.size() && i < slots.size(); ++i) {
        const length<> by_wish = to.nut.slot_height(i) - from.nut.slot_height(i);
        const bool by_value = kernel::set_by_value(j, messages::path_of("nut.slot_heights", i), by_wish);
        if (!differs(s.plan.slot_change[i]) || by_value) { continue; }
        cut(messages::joined({"cutting the nut slot of ", s.plan.solved.names.name(i)}),
            {{messages::path_of("nut.slot_heights", i)}});
    }
    const auto& moved = s.plan.saddle_change;
    const bool single = !s.plan.adjusted.instrument.saddle.single.empty();
    for (std::size_t i = 0; single && i < moved.size(); ++i) {
        const std::string path = messages::path_of("saddle.single", i, "height");
        const length<> by_wish = to.saddle.single[i].height - from.saddle.single[i].height;
        if (!differs(moved[i]) || kernel::set_by_value(j, path, by_wish)) { continue; }
        cut(messages::joined({"setting the saddle of ", s.plan.solved.names.name(i)}), {{path}});
    }
    if (!single && !moved.empty() && (differs(moved.front()) || differs(moved.back()))) {
        const auto end = [&](const char* name, const char* path, const length<>& by_wish) {
            if (!kernel::set_by_value(j, path, by_wish)) { cut(name, {{path}}); }
        };
        end("cutting the saddle at the bass", "saddle.height_bass", to.saddle.height_bass - from.saddle.height_bass);
        end("cutting the saddle at the treble", "saddle.height_treble",
            to.saddle.height_treble - from.saddle.height_treble);
    }
    return all;
}
TAUTLINE_HELD(std::vector<known_doubt> doubts_of_plan<>(const bench_job&, const job_setups&))

} // namespace tautline
