#pragma once
/// @file
/// The steps that set what a plan sets: a neck reset, rod, nut slots, saddle, tailpiece or pins.

#include "bench_step.hpp"
#include "plan.hpp"

namespace tautline::kernel {

/// Whether a wish is among those that are not met.
template <class Plan>
[[nodiscard]] bool misses(const Plan& p, std::string_view wish) {
    return std::any_of(p.shortfalls.begin(), p.shortfalls.end(), [&](const shortfall& f) { return f.wish == wish; });
}

/// The relief of a setup that has one, as a line.
template <class Setup>
[[nodiscard]] step_line relief_line(const char* what, const Setup& s) {
    return worked({what, length<>(s.relief->gap), false}, worked_as::gap, "relief.gap");
}

/// How far the neck turns for each metre by which the board's line at the saddle moves.
template <class Plan>
[[nodiscard]] double turn_of_line(const Plan& p) {
    return 1 / length<>(kernel::line_place(p.start.instrument) - joint_place(p.start.instrument)).value();
}

template <class Job>
void neck_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    const shortfall* missed = nullptr;
    for (const auto& f : p.shortfalls) {
        if (f.wish == "relief") { missed = &f; }
    }
    const bool slackened = rod_slackened(j);
    if (p.rod_pull_change == 0 * units::N && !missed && !slackened) { return; }
    bench_step s{bench_stage::set_rod, "Set the rod", {}, "", ""};
    const force<> pull = p.adjusted.instrument.neck.pull_of_rod();
    s.lines.push_back({"pull of the rod", pull, false});
    s.lines.push_back({"against as found", p.rod_pull_change, true});
    if (p.rod_turns && p.rod_pull_change != 0 * units::N) {
        const double turns = *p.rod_turns, for_each_newton = turns / (p.rod_pull_change / units::N);
        s.lines.push_back(worked({"turns of its nut against as found (+ tightens)", turns, true}, worked_as::turns,
                                 rod_path, rounded_to::nearest, for_each_newton));
        if (slackened) {
            s.lines.push_back(worked({"turns from where it begins to bear", for_each_newton * (pull / units::N), true},
                                     worked_as::turns, rod_path, rounded_to::nearest, for_each_newton));
        }
    }
    if (p.solved.relief) { s.lines.push_back(relief_line("relief at pitch", p.solved)); }
    s.decision = missed ? messages::joined({"The rod does not reach the wanted relief: ", missed->why, "."})
                 : p.rod_pull_change == 0 * units::N ? messages::joined({"The rod goes back to where it was found."})
                 : p.wanted.relief                   ? messages::joined({"The rod reaches the wanted relief."})
                                                     : messages::joined({"The rod is set to its planned pull."});
    s.check = "The rod's nut has made the turns that are told here; a rod that turns hard is not forced.";
    steps.push_back(s);
}

/// On a zero fret the crown takes the place of the slots. It is planned by hand; a plan remarks which crown would give a
/// wish.
template <class Job>
void zero_fret_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    if (!p.adjusted.instrument.board.scale.zero_fret) { return; }
    const length<> now = kernel::crown_left(p.adjusted.instrument.frets, 0);
    bench_step s{bench_stage::cut_nut, "Bring the zero fret to its crown", {}, "", ""};
    const auto tell = [&](std::string what, const length<>& q, bool is_change) {
        s.lines.push_back(worked({std::move(what), q, is_change}, worked_as::cut, "", rounded_to::more));
    };
    bool higher = j.crown_before && now > *j.crown_before;
    if (j.crown_before) {
        tell("crown over the board", now, false);
        tell("change", length<>(now - *j.crown_before), true);
    }
    for (const auto& r : p.remarks) {
        if (!r.wish.starts_with("first_fret") || !r.number.has_value()) { continue; }
        const auto crown = r.number.template as<length<>>();
        const char* const end = r.wish.ends_with("bass") ? "bass" : "treble";
        tell(messages::joined({j.crown_before ? "for the wish, at its " : "crown over the board at its ", end, " end"}),
             crown, false);
        higher = higher || (!j.crown_before && crown > now);
    }
    if (s.lines.empty()) { return; }
    s.decision = higher ? "It must come up: fit a new one of higher wire."
                 : j.crown_before
                     ? ""
                     : "Plan it first: written as planned.frets.zero_crown, it is what the saddle is told for.";
    s.check = "Its crown stands over the board as told, or higher by what is left for pitch, rounded and polished again.";
    steps.push_back(s);
}

template <class Job>
void nut_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    bench_step s{bench_stage::cut_nut, "Cut the nut slots near", {}, "", ""};
    bool moved = false;
    for (std::size_t i = 0; i < p.slot_change.size(); ++i) {
        const auto add = [&](step_line l) {
            s.lines.push_back(worked(std::move(l), worked_as::cut, nut_slot_path(i), rounded_to::more));
        };
        add(of_each("slot bottom over the board, ", p.solved.names, i, length<>(p.adjusted.instrument.nut.slot_height(i)),
                    false));
        add(of_each("change, ", p.solved.names, i, p.slot_change[i], true));
        moved = moved || tautline::abs(p.slot_change[i]) > 0.005 * units::mm;
    }
    if (!moved) { return; }
    s.decision = p.reset_instead ? "Leave the saddle at its limit, or reset the neck? Settle that first: with a reset the "
                                   "slots come out otherwise. "
                                 : "";
    s.decision += raises_slots(p) ? "Some slots must come up: shim the nut or make a new one." : "";
    s.check =
        "The bottom of every slot stands over the board as told, or higher by what is left for pitch: a feeler under a "
        "straightedge laid into it.";
    steps.push_back(s);
}

/// The step of a reset, planned by hand or wished: what it takes off, wedges and moves.
template <class Job>
void reset_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    bench_step s{bench_stage::reset_neck, "Reset the neck", {}, "", ""};
    const length<> line = p.start.instrument.saddle.board_line;
    const char *const face = top_word(p.start.instrument), *const slack = slack_words(p.start.instrument);
    const bool by_hand = reset_by_hand(j);
    // The board is sanded later: here its line still stands higher by what that takes off.
    const length<> higher = j.work.line_lowered;
    if (by_hand) {
        s.lines.push_back(worked({"turn that the planned board line speaks of (+ head back and down)",
                                  turn_of_board_line(p.start.instrument, *j.line_before, line), true},
                                 worked_as::tilt, board_line_path, rounded_to::nearest, turn_of_line(p)));
        s.lines.push_back({messages::joined({"board's line over the ", face, " at the saddle, ", slack, ", from"}),
                           length<>(*j.line_before + higher), false});
        s.lines.push_back(worked({"to", length<>(line + higher), false}, worked_as::height, board_line_path));
    }
    if (turns_neck(p)) {
        const auto& r = *p.reset;
        const double for_each = turn_of_line(p);
        // What wood changes with the turn; the whole face comes off besides.
        const auto with_turn = [&](const length<>& q) {
            const double turn = r.turn.value();
            return turn == 0 ? 1.0 : q.value() / turn * for_each;
        };
        const auto add = [&](step_line l, worked_as as, double by, rounded_to side = rounded_to::nearest) {
            s.lines.push_back(worked(std::move(l), as, board_line_path, side, by));
        };
        // The wood first, its angle beside it.
        if (r.heel_cut) {
            add({"off the heel at its cap (- is to add)", *r.heel_cut, true}, worked_as::wood,
                with_turn(length<>(*r.heel_cut - r.edge_cut)), rounded_to::less);
        }
        add({"turn (+ head back and down)", r.turn, true}, worked_as::tilt, for_each);
        if (r.edge_cut > 0 * units::mm) {
            add({"off the whole face, also at its edge", r.edge_cut, true}, worked_as::wood, 1, rounded_to::less);
        }
        if (r.shim) {
            add({*r.shim < 0 * units::mm ? "shim under the nut end of the pocket"
                                         : "shim under the bridge end of the pocket",
                 tautline::abs(*r.shim), false},
                worked_as::wood, with_turn(*r.shim));
        }
        add({messages::joined({"then the board's line over the ", face, " at the saddle, ", slack}),
             length<>(r.board_line + higher), false},
            worked_as::height, 1);
        if (r.wedge) {
            const bool off = *r.wedge < 0 * units::mm;
            add({off ? "off the tongue's underside at the board's end" : "wedge under the tongue at the board's end",
                 tautline::abs(*r.wedge), false},
                worked_as::wood, with_turn(*r.wedge), off ? rounded_to::less : rounded_to::nearest);
        }
        if (r.octave_before) {
            s.lines.push_back({"octave fret by lengths alone, the saddle where it stands, from", *r.octave_before, true});
            s.lines.push_back({"to", *r.octave_after, true});
        }
        s.lines.push_back({"break over the saddle, mean, from", r.break_before, false});
        s.lines.push_back({"to", r.break_after, false});
        const bool held = misses(p, "reset.most_turn") || misses(p, "reset.least_turn");
        s.decision = held ? "Reset as far as the joint is allowed to turn; the saddle takes the rest."
                          : "Reset: the neck brings the action; the saddle stands at its planned height.";
    }
    if (s.lines.empty()) { return; }
    s.check =
        messages::joined({"The joint closes without a gap; a straightedge on the bare board, ", slack,
                          ", passes the saddle as high over the ", face, " as told; the tongue lies without a hump."});
    steps.push_back(s);
}

/// What setbacks are told from, as a caliper along the centre line finds it.
template <class Plan>
[[nodiscard]] const char* behind_what(const Plan& p) {
    return p.adjusted.instrument.board.scale.fan ? "behind both scales' ends, along the centre line, "
                                                 : "behind the scale length, ";
}
/// Lines about one top for all strings.
template <class Plan>
void top_lines(const Plan& p, std::vector<step_line>& lines) {
    const auto& top = p.adjusted.instrument.saddle;
    if (top.radius) { lines.push_back({"radius of its top", length<>(*top.radius), false}); }
    const auto add = [&](const char* side, const length<>& q, const length<>& change, const char* of) {
        // A reset moves the nut; a saddle that stays is then told from where the scale ends now.
        const bool stays = p.reset && !(tautline::abs(change) > 0.005 * units::mm);
        const char* const as = stays ? "where it stands, after the reset " : "";
        lines.push_back(worked({messages::joined({as, behind_what(p), side}), q, false}, worked_as::height, of));
    };
    add("bass", top.setback_bass, p.setback_change_bass, "saddle.setback_bass");
    add("treble", top.setback_treble, p.setback_change_treble, "saddle.setback_treble");
}
/// Lines about each string's own saddle, and what its travel leaves out of tune.
template <class Plan>
void single_lines(const Plan& p, std::vector<step_line>& lines) {
    // Told on the page, too: the table of all strings has no room for them.
    const auto told = [&](const char* what, std::size_t i, const length<>& by, bool is_change) {
        return step_line{messages::joined({what, p.solved.names.name(i)}), by, is_change, i};
    };
    for (std::size_t i = 0; i < p.singles.size(); ++i) {
        const auto& one = p.singles[i];
        const std::string of = messages::path_of("saddle.single", i, "setback");
        lines.push_back(worked(told(behind_what(p), i, one.setback, false), worked_as::height, of));
        lines.push_back(worked(told("moved back, ", i, one.setback_change, true), worked_as::height, of));
        if (one.octave_left && tautline::abs(one.octave_left->cents()) > 0.5) {
            lines.push_back(
                {messages::joined({"octave fret then off, ", p.solved.names.name(i)}), *one.octave_left, true, i});
        }
    }
}

template <class Job>
void bridge_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    const auto& saddle = p.adjusted.instrument.saddle;
    bench_step s{bench_stage::set_saddle, "Set the saddle near", {}, "", ""};
    const std::string slot = messages::joined({"slot over the ", top_word(p.adjusted.instrument), ", "});
    const auto moves = [](const length<>& q) { return tautline::abs(q) > 0.005 * units::mm; };
    bool raised = false, higher = false, moved = moves(p.setback_change_bass) || moves(p.setback_change_treble);
    for (const auto& one : p.singles) { moved = moved || moves(one.setback_change); }
    for (std::size_t i = 0; i < p.saddle_change.size(); ++i) {
        raised = raised || moves(p.saddle_change[i]);
        higher = higher || p.saddle_change[i] > 0.05 * units::mm;
        const auto add = [&](step_line l) {
            s.lines.push_back(worked(std::move(l), worked_as::height, saddle_height_path(saddle, i), rounded_to::more));
        };
        add(of_each(slot.c_str(), p.solved.names, i, p.saddle_height[i], false));
        add(of_each("change, ", p.solved.names, i, p.saddle_change[i], true));
    }
    if (!raised && !moved && !p.saddle_at_limit && !p.reset) { return; }
    single_lines(p, s.lines);
    if (saddle.single.empty()) { top_lines(p, s.lines); }
    if (p.adjusters) {
        const auto add = [&](const char* what, double turns) {
            s.lines.push_back(worked({what, turns, true}, worked_as::turns, saddle_height_path(saddle, 0)));
        };
        add("turns of the bass wheel (+ raises)", p.adjusters->bass_turns);
        add("turns of the treble wheel (+ raises)", p.adjusters->treble_turns);
    }
    if (p.saddle_below_wood) {
        s.title = "Do not cut the saddle so far";
        s.decision =
            "The saddle would have to go below the bridge's wood: cut nothing from it for this action. Plan a reset "
            "of the neck, or wish for the action that can be had.";
    } else if (p.saddle_at_limit) {
        s.title = "Set the saddle as far as it goes";
        if (p.reset_instead) {
            s.lines.push_back(
                worked({"a neck reset that gives the action with it (+ head back and down)", p.reset_instead->turn, true},
                       worked_as::tilt, board_line_path, rounded_to::nearest, turn_of_line(p)));
            s.decision = "Reset: the saddle stops at its limit short of the wanted action. Plan the reset under "
                         "[wanted.reset] before anything is cut, or wish for the action that can be had.";
        } else {
            s.decision = turns_neck(p)
                             ? "Reset and saddle both stop at their limits short of the wanted action."
                             : "The saddle stops at its limit short of the wanted action, and no reset of the neck "
                               "gives it.";
        }
    } else if (turns_neck(p)) {
        s.decision = "Reset: the neck is turned first; the saddle takes what is left to bass and treble.";
    } else if (p.reset) {
        s.decision = "Saddle: the neck needs no turn.";
    } else if (raised) {
        s.decision = messages::joined({p.wanted.action() ? "Saddle: it gives the wanted action within its limits; "
                                                         : "Saddle: it is set to its planned heights; ",
                                       reset_by_hand(j) ? "the neck is reset first." : "the neck stays as it is joined."});
    }
    // What is cut cannot rise; screws and wheels can.
    if (higher && saddle.single.empty() && !p.adjusters) {
        messages::append(s.decision,
                         {s.decision.empty() ? "" : " ", "Some of it must come up: shim the saddle, or make a new one and "
                                                         "leave it high until heights are read at pitch."});
    }
    if (!steps.empty() && steps.back().stage == bench_stage::cut_nut && p.adjusted.instrument.board.scale.zero_fret &&
        !j.crown_before) {
        messages::append(s.decision, {s.decision.empty() ? "" : " ",
                                      "These heights are for the zero fret as it was: with its new crown leave the saddle "
                                      "as it is, string up and read the heights first."});
    }
    s.check = messages::joined({"Every slot stands over the ", top_word(p.adjusted.instrument),
                                " as told, or higher by what is left for pitch, and as far from the nut."});
    steps.push_back(s);
}

/// Tells how far the strings clear the first fret when they are pressed at the third, and returns words for it that follow
/// others. Each string is a straight line from its slot to the third crest. Empty where there are fewer than three frets.
template <class Setup>
[[nodiscard]] std::string pressed_at_third(const Setup& s, bench_step& step) {
    if (s.fret_x.size() < 3) { return ""; }
    std::optional<length<>> least, most;
    for (const auto& one : s.strings) {
        if (one.frets_behind > 0) { continue; }
        const auto& x = s.crest_places(one);
        const length<> clear =
            line_height<double>(length<>(one.line.nut_x), length<>(one.line.nut_z), x[2], one.crest_z[2], x[0]) -
            one.crest_z[0];
        least = least ? min(*least, clear) : clear;
        most = most ? max(*most, clear) : clear;
    }
    if (!least) { return ""; }
    if (*least < 0.005 * units::mm) { return "; pressed at fret 3 some already lie on it"; }
    step.lines.push_back({"pressed at fret 3 the strings clear fret 1 by, least", *least, false});
    step.lines.push_back({"most", *most, false});
    return "; pressed at fret 3 they clear it as told";
}

/// The last step of rod, nut and saddle: measured and corrected at pitch.
template <class Job>
void finishing(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    const auto is_set = [&](bench_stage stage) {
        return std::any_of(steps.begin(), steps.end(), [&](const bench_step& s) { return s.stage == stage; });
    };
    const bool rod = is_set(bench_stage::set_rod), nut = is_set(bench_stage::cut_nut),
               saddle = is_set(bench_stage::set_saddle);
    const bool hung = is_set(bench_stage::hang_tailpiece);
    if (!rod && !nut && !saddle && !hung) { return; }
    bench_step s{bench_stage::finish, "At pitch, measure and correct", {}, "", ""};
    s.checked = bench_state::at_pitch;
    std::string check;
    const auto also = [&](const std::string& words) { messages::append(check, {check.empty() ? "" : "; ", words}); };
    if (rod && p.solved.relief) {
        s.lines.push_back(relief_line("relief at pitch", p.solved));
        also("relief at pitch is as told once the neck has rested, else an eighth of a turn at a time");
    }
    if (nut) { also("strings at pitch clear the first fret as told" + pressed_at_third(p.solved, s)); }
    if (saddle) {
        also(messages::joined({p.action_fret > 0
                                   ? messages::joined({"action at pitch over fret ", p.action_fret, " is as told"})
                                   : messages::joined({"heights at pitch are as told"}),
                               ", bass and treble", p.solved.octave_fret > 0 ? "; octave and pressed octave agree" : ""}));
    }
    if (hung) { also("the break over the saddle looks alike on all strings and none lifts"); }
    check.front() = static_cast<char>(check.front() - 'a' + 'A');
    s.check = check + ".";
    if (nut && saddle && !p.adjusted.instrument.board.scale.zero_fret) {
        s.decision = messages::joined(
            {rod ? "The rod first: it moves all heights. " : "",
             "Some cut the nut first, since a slot moves the action by little. Others set the saddle first, "
             "since it moves the first fret by little. Either is right where both are measured again "
             "after the last cut."});
    }
    steps.push_back(s);
}

template <class Job>
void anchor_step(const Job& j, std::vector<bench_step>& steps) {
    const auto& p = j.plan;
    if (!p.hinge_change && !p.pin_holes) { return; }
    bench_step s{bench_stage::hang_tailpiece, p.hinge_change ? "Hang the tailpiece" : "Place the pins", {}, "", ""};
    if (p.hinge_change) {
        // As it was measured: a reset does not move the body's own plane.
        const auto add = [&](step_line l) { s.lines.push_back(worked(std::move(l), worked_as::height, hinge_path)); };
        add({"hanger over the soundboard's plane", length<>(p.start.instrument.tailpiece->hinge_height + *p.hinge_change),
             false});
        add({"change", *p.hinge_change, true});
        s.lines.push_back({"then the strings press the saddle with", p.solved.down_force, false});
    } else {
        const auto told = [&](const char* what, std::size_t i, const length<>& by) {
            s.lines.push_back({messages::joined({what, p.solved.names.name(i)}), by, false, i});
        };
        bool moved = false;
        for (std::size_t i = 0; i < p.pin_places.size(); ++i) {
            told("hole behind the saddle, ", i, p.pin_places[i].behind_saddle);
            told("behind the end of the scale length, ", i, p.pin_places[i].distance);
            moved =
                moved || tautline::abs(p.pin_places[i].distance - p.adjusted.instrument.pins->distance) > 0.05 * units::mm;
        }
        s.lines.push_back({"the holes as they are, behind the end of the scale length",
                           length<>(p.adjusted.instrument.pins->distance), false});
        s.decision = moved ? "All other numbers are for the holes as they are: write where they are drilled as "
                             "planned.pins.distance to see the rest for it."
                           : "";
    }
    s.check = p.hinge_change ? "The hanger stands over the soundboard's plane as told, before a string is on."
                             : "The holes lie behind the saddle as told, on a line that follows it.";
    steps.push_back(s);
}

} // namespace tautline::kernel
