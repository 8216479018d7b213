#include "retold.hpp"

#include <algorithm>
#include <cmath>

#include <tautline/action/straight_saddle.hpp>
#include <tautline/core/leaves.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/supports/floating_bridge.hpp>
#include <tautline/supports/friction.hpp>
#include <tautline/supports/pinned_bridge.hpp>

#include "plain_sound.hpp"

namespace wholes {

namespace {

using namespace tautline;

double si(const auto& q) { return q.value(); }
length<> metres(double v) { return length<>::from_value(v); }
force<> newtons(double v) { return force<>::from_value(v); }
point place(const spot& s) { return {.x = metres(s.x), .y = metres(s.y), .z = metres(s.z)}; }

std::string entry(const std::string& list, std::size_t i) { return list + "[" + std::to_string(i) + "]"; }

/// What a wish for exactness comes to where it is small beside something else: a share of it.
constexpr double exact = 1e-8;

/// Tells numbers under one path.
struct teller {
    std::map<std::string, told>& all;

    void tell(const std::string& path, double number, double allowed) { all[path] = {number, allowed, {}}; }
    /// Every leaf of a described result of another function, lengths within `length_off` and so on.
    template <class Model>
    void tell_model(const std::string& path, Model model, double force_off, double length_off, double angle_off,
                    double ratio_off) {
        for_each_leaf(model, [&](std::string_view leaf, const auto& x) {
            using leaf_type = std::remove_cvref_t<decltype(x)>;
            double off = ratio_off;
            if constexpr (std::is_base_of_v<force<>, leaf_type>) { off = force_off; }
            if constexpr (std::is_base_of_v<length<>, leaf_type>) { off = length_off; }
            if constexpr (std::is_base_of_v<angle<>, leaf_type>) { off = angle_off; }
            if constexpr (std::is_base_of_v<moment<>, leaf_type>) { off = force_off * 0.1; }
            tell(path + (leaf.empty() ? "" : ".") + std::string(leaf), number_of(x), off);
        });
    }
};

/// Along x from the string's own end at the nut.
plain_line line_of(const plain_geometry& g, std::size_t i, const motions& m) {
    const spot nut = g.nut(i, m), saddle = g.saddle(i, m);
    const double half = g.gauge(i) / 2;
    return {nut.z - half, saddle.x - nut.x, saddle.z - half, nut.y, saddle.y};
}

/// The greatest gap, with its sign, under the straight line over the first and the last of some points; all places where it
/// is as great.
struct gap_found {
    double gap = 0;
    std::vector<double> places{};
};
gap_found greatest_gap(const std::vector<double>& x, const std::vector<double>& z, std::size_t last) {
    gap_found best;
    std::vector<double> gaps;
    for (std::size_t i = 0; i <= last; ++i) {
        gaps.push_back(z[0] + (z[last] - z[0]) * (x[i] - x[0]) / (x[last] - x[0]) - z[i]);
        if (std::abs(gaps.back()) > std::abs(best.gap)) { best.gap = gaps.back(); }
    }
    for (std::size_t i = 0; i <= last; ++i) {
        if (std::abs(std::abs(gaps[i]) - std::abs(best.gap)) < 1e-8) { best.places.push_back(x[i]); }
    }
    return best;
}

} // namespace

double tailpiece_balance(const plain_geometry& g, const std::vector<double>& tensions, motions m) {
    const auto turning = [&](double rise) {
        m.tail_rise = rise;
        double sum = 0;
        for (std::size_t i = 0; i < g.count(); ++i) {
            const spot bar = g.anchor(i, m);
            sum += tensions[i] * cross(bar - g.hinge(), toward(bar, g.saddle(i, m))).y;
        }
        return sum;
    };
    double low = -1.5, high = 1.5;
    const bool rising = turning(low) < turning(high);
    for (int k = 0; k < 100; ++k) {
        const double middle = (low + high) / 2;
        ((turning(middle) < 0) == rising ? low : high) = middle;
    }
    return (low + high) / 2;
}

rest rest_of(const whole& w, const plain_geometry& g, const plain_neck& n) {
    rest r;
    const std::size_t count = g.count();
    r.tensions.resize(count);
    r.pulls.resize(count);
    const auto& top = w.built.soundboard;
    for (int round = 0; round < 200 && !r.settled; ++round) {
        const motions before = r.at;
        for (std::size_t i = 0; i < count; ++i) {
            // Speaking lengths are those of the unbowed neck, as the solver says of itself.
            const double speaking = g.speaking_unbowed(i, r.at);
            const auto& tuned = w.stringing.strings[i];
            r.tensions[i] = si(tension(tuned.string, metres(speaking), pitch_of(tuned.pitch, w.stringing.standard)));
            motions straight;
            const spot saddle = g.saddle(i, r.at), slot = g.nut(i, straight);
            r.pulls[i] = {r.tensions[i] * (saddle.x - slot.x) / speaking, slot.z - g.set_at(slot.x), saddle.z, saddle.x,
                          slot.x};
        }
        r.bow = n.bowed(r.pulls);
        r.at.nut_rise = r.bow.rise();
        r.at.neck_slope = r.bow.slope.front();
        g.ride(r.at, [&](double x) { return r.bow.at(x); });
        if (g.hung()) { r.at.tail_rise = tailpiece_balance(g, r.tensions, r.at); }
        if (top) {
            // All that the strings do to what is glued or pressed to the top; a glued bridge holds their ends too.
            double down = 0, turning = 0;
            for (std::size_t i = 0; i < count; ++i) {
                const spot saddle = g.saddle(i, r.at);
                spot f = r.tensions[i] * toward(saddle, g.nut(i, r.at));
                if (g.pinned()) {
                    turning += -f.x * si(*top->saddle_height) - f.z * si(*top->saddle_ahead);
                } else {
                    f = f + r.tensions[i] * toward(saddle, g.anchor(i, r.at));
                }
                down -= f.z;
            }
            r.at.sink = down / si(top->sink_stiffness);
            r.at.turn = turning / si(*top->turn_stiffness);
        }
        r.settled = r.bow.settled && std::abs(r.at.sink - before.sink) + 0.01 * std::abs(r.at.turn - before.turn) < 1e-15 &&
                    std::abs(r.at.nut_rise - before.nut_rise) < 1e-14;
        if (!r.bow.settled) { break; }
    }
    return r;
}

std::map<std::string, told> retell(const whole& w) {
    std::map<std::string, told> all;
    teller t{all};
    const plain_geometry g(w);
    const plain_neck neck(w, g);
    const rest r = rest_of(w, g, neck);
    const motions& m = r.at;
    const auto& b = w.built;
    const std::size_t count = g.count();
    const auto frets = static_cast<std::size_t>(b.board.scale.frets);
    double total = 0;
    for (const double one : r.tensions) { total += one; }
    if (!r.settled) { return {}; }
    const double rise_off = 1e-10 + 4e-6 * (std::abs(m.nut_rise) + r.bow.parts);
    const double length_off = rise_off + exact * 1e-3;
    // Small turns: a library may turn what is glued to the bridge, or rides on the neck, with sines or without.
    const double angle_off = 1e-7 + 10 * rise_off + std::pow(std::abs(m.turn), 3) + 0.06 * std::abs(m.neck_slope);
    const double saddle_angle_off = 1e-7 + 100 * rise_off * (g.hung() ? 0.02 : 0.05) + std::pow(std::abs(m.turn), 2);
    const double force_off = exact * total + total * saddle_angle_off;

    // Frets.
    std::vector<double> x(frets), crest(frets), bare(frets);
    for (std::size_t k = 0; k < frets; ++k) {
        x[k] = g.fret(static_cast<int>(k) + 1);
        bare[k] = r.bow.at(x[k]) + g.set_at(x[k]);
        crest[k] = bare[k] + si(crown_left(b.frets, static_cast<int>(k) + 1));
        t.tell(entry("fret_x", k), x[k], 1e-12);
    }

    // A fret is for the step of the octave that lies nearest to its place; the octave's for the twelfth, say.
    std::vector<int> steps(frets);
    std::size_t octave = 0;
    const double scale_length = g.saddle_line();
    for (std::size_t k = 0; k < frets; ++k) {
        const double by_place = -b.board.scale.steps * std::log2(1 - x[k] / scale_length);
        steps[k] =
            b.board.scale.measured_places.empty() ? static_cast<int>(k) + 1 : static_cast<int>(std::lround(by_place));
        const bool nearer = octave == 0 || std::abs(2 * x[k] - scale_length) < std::abs(2 * x[octave - 1] - scale_length);
        if (steps[k] == b.board.scale.steps && nearer) { octave = k + 1; }
    }

    force<> sum{};
    basic_support_force<double> on_all{}, anchor_all{};
    std::vector<bridge_string> on_bridge;
    std::vector<length<>> asked_y, asked_x;
    double setback_off = 0, speaking_sides = 0;
    std::pair<std::vector<double>, std::vector<double>> bass, treble; // places and heights of the crests under them
    for (std::size_t i = 0; i < count; ++i) {
        const std::string s = entry("strings", i) + ".";
        const auto& tuned = w.stringing.strings[i];
        const double pull = r.tensions[i], speaking = g.speaking_unbowed(i, m);
        const auto hertz = pitch_of(tuned.pitch, w.stringing.standard);
        sum += newtons(pull);
        t.tell(s + "gauge", si(gauge(tuned.string)), 1e-15);
        t.tell(s + "pitch", si(hertz), 1e-9);
        t.tell(s + "speaking_length", speaking, 1e-9);
        t.tell(s + "tension", pull, exact * pull);
        const double mass = si(mass_per_length_for(newtons(pull), metres(speaking), hertz));
        t.tell(s + "mass_per_length", mass, exact * mass);
        const double core = si(core_stress(tuned.string, newtons(pull)));
        t.tell(s + "core_stress", core, exact * core);
        if (const auto share = share_of_strength(tuned.string, newtons(pull))) {
            t.tell(s + "share_of_strength", *share, exact);
        }
        const spot post = g.post(i, m), nut = g.nut(i, m), saddle = g.saddle(i, m), anchor = g.anchor(i, m);
        const plain_line line = line_of(g, i, m);
        const double gauge_half = g.gauge(i) / 2;
        t.tell(s + "y_at_nut", nut.y, 1e-12);
        t.tell(s + "y_at_saddle", saddle.y, 1e-12);
        t.tell(s + "line.nut_x", nut.x, g.fanned() ? 1e-12 : 0);
        t.tell(s + "line.nut_y", nut.y, 1e-12);
        t.tell(s + "line.nut_z", line.nut_z, length_off);
        t.tell(s + "line.saddle_x", nut.x + line.saddle_x, 1e-9);
        t.tell(s + "line.saddle_y", saddle.y, 1e-12);
        t.tell(s + "line.saddle_z", line.saddle_z, 1e-9);

        // Crests under the string, and what it clears.
        std::vector<double> z(frets), crossed(frets);
        for (std::size_t k = 0; k < frets; ++k) {
            const auto fret = static_cast<int>(k) + 1;
            const spot at = g.crossing(i, fret, m);
            crossed[k] = at.x;
            z[k] = r.bow.at(at.x) + g.set_at(at.x) + si(crown_left(b.frets, fret)) - g.arc_fall(at.x, at.y) +
                   g.twist_at(at.x, at.y);
            if (g.fanned()) { t.tell(entry(s + "crest_x", k), at.x, 1e-9); }
            t.tell(entry(s + "crest_z", k), z[k], length_off);
            t.tell(entry(s + "heights", k), at.z - gauge_half - z[k], length_off);
        }
        if (i == 0) { bass = {crossed, z}; }
        if (i + 1 == count) { treble = {crossed, z}; }
        std::vector<double> own(frets); // places of the crests from the string's own end
        for (std::size_t k = 0; k < frets; ++k) { own[k] = crossed[k] - nut.x; }
        plain_string_sound sounds;
        sounds.mass = mass;
        sounds.pitch = si(hertz);
        sounds.stretches = si(axial_stiffness(tuned.string));
        sounds.bends = si(core_bending_stiffness(tuned.string));
        sounds.nut = b.playing.nut_end;
        sounds.fret = b.playing.fret_end;
        sounds.saddle = b.playing.saddle_end;
        sounds.behind = si(b.playing.finger.behind);
        sounds.depth = si(b.playing.finger.depth);
        sounds.steps = b.board.scale.steps;
        // The expansion of the stiff string may be off by some hundredth of a cent, open and fretted.
        const double open_share = std::sqrt(sounds.bends / pull) / speaking;
        std::vector<plain_note> notes;
        for (std::size_t k = 0; k < frets; ++k) {
            notes.push_back(pressed(sounds, line, own, z, k + 1, steps[k]));
            const auto& note = notes.back();
            const auto expansion = [](double e) { return e < 0.03 ? 5e4 * std::pow(e, 4) : 0.01; };
            const double path_off =
                1200 / std::numbers::ln2 * (2 * rise_off / note.speaking) *
                    (std::abs(line.saddle_z - z[k]) / note.speaking) +
                600 / std::numbers::ln2 * 4e-2 * rise_off / note.speaking * (sounds.stretches / note.tension);
            const double cents_off = 0.01 + expansion(note.share) + expansion(open_share) + path_off;
            const std::string p = entry(s + "notes", k) + ".";
            t.tell(p + "pitch", note.pitch, note.pitch * cents_off / 1731);
            t.tell(p + "error", note.cents, cents_off);
            // A setup tells the open string's pull as a limp one's; the stretch adds to that.
            const double pulled = pull + note.stretch / speaking * (sounds.stretches + pull);
            t.tell(p + "tension", pulled, note.tension * 2 * cents_off / 1731);
            t.tell(p + "stretch", note.stretch, 1e-9 + 0.2 * rise_off);
            t.tell(p + "speaking", note.speaking, 1e-9 + 0.05 * rise_off);
            if (k + 1 == octave) {
                if (const auto back = setback(sounds, line, own, z, k + 1, steps[k])) {
                    const double per_cent = note.speaking * speaking / (1731 * (speaking - note.speaking));
                    setback_off = std::max(setback_off, 2 * cents_off * per_cent);
                    t.tell(s + "octave_setback", *back, 2 * cents_off * per_cent);
                    asked_y.push_back(metres(saddle.y));
                    asked_x.push_back(metres(saddle.x + *back));
                }
            }
        }
        for (std::size_t pressed_at = 0; pressed_at < frets; ++pressed_at) {
            const double x0 = pressed_at == 0 ? 0 : own[pressed_at - 1],
                         z0 = pressed_at == 0 ? line.nut_z : z[pressed_at - 1];
            const double slope = (line.saddle_z - z0) / (line.saddle_x - x0), l = line.saddle_x - x0;
            const double p = std::min(si(b.playing.pluck_from_saddle), l / 2);
            const double pulled =
                pressed_at == 0 ? pull : pull + notes[pressed_at - 1].stretch / speaking * (sounds.stretches + pull);
            double least = 1e300, room = 1e300;
            std::vector<double> gaps, rooms;
            for (std::size_t k = pressed_at; k < frets; ++k) {
                const double gap = z0 + slope * (own[k] - x0) - z[k], q = line.saddle_x - own[k];
                // The swing's lower bound: the parallelogram's corner at p when pushed down, at l - p when pulled away.
                const auto triangle = [&](double corner) { return q < corner ? q / corner : (l - q) / (l - corner); };
                gaps.push_back(gap);
                rooms.push_back(std::max(gap, 0.0) / std::max(triangle(p), triangle(l - p)));
                least = std::min(least, gap);
                room = std::min(room, rooms.back());
            }
            const std::string c = entry(s + "clearances", pressed_at) + ".", d = entry(s + "plucks", pressed_at) + ".";
            t.tell(c + "gap", least, 2 * length_off);
            told named{-1, 0, {}}, limits{-1, 0, {}};
            for (std::size_t k = 0; k < gaps.size(); ++k) {
                const auto number = static_cast<double>(pressed_at + k + 1);
                if (gaps[k] < least + 2 * length_off + 1e-9) { named.or_else.push_back(number); }
                if (rooms[k] < room + 4 * length_off + 1e-9 + room * 1e-6) { limits.or_else.push_back(number); }
            }
            all[c + "fret"] = named;
            all[d + "fret"] = limits;
            const double reach = 1 / std::max(1e-3, std::min(1.0, (l - (line.saddle_x - own[frets - 1])) / l));
            const double room_off = 4 * length_off * reach + 1e-9;
            t.tell(d + "displacement", room, room_off);
            t.tell(d + "pull", room * pulled * l / (p * (l - p)), (room_off + room * 1e-4) * pulled * l / (p * (l - p)));
        }

        // Ends.
        const auto at_nut = support_load(place(saddle), place(nut), place(post), newtons(pull));
        const auto at_saddle = support_load(place(nut), place(saddle), place(anchor), newtons(pull));
        t.tell_model(s + "at_nut", at_nut, pull * (exact + angle_off), 0, angle_off, 0);
        t.tell_model(s + "at_saddle", at_saddle, pull * (exact + saddle_angle_off), 0, saddle_angle_off, 0);
        const auto nut_band = tuning_dead_band(b.nut.friction, at_nut.break_angle);
        const auto saddle_band = tuning_dead_band(b.saddle.friction, at_saddle.break_angle);
        t.tell_model(s + "nut_dead_band", nut_band, 0, 0, 0, 866 * angle_off * b.nut.friction.most);
        t.tell_model(s + "saddle_dead_band", saddle_band, 0, 0, 0, 866 * saddle_angle_off * b.saddle.friction.most);
        on_all += at_saddle.on_support;
        speaking_sides += si(newtons(pull)) * (saddle.z - nut.z) / distance(saddle, nut);
        anchor_all += at_saddle.on_anchor;
        on_bridge.push_back(
            {.slot = place(nut), .saddle = place(saddle), .anchor = place(anchor), .tension = newtons(pull)});
    }

    // The whole.
    t.tell("total_tension", si(sum), exact * total);
    t.tell("nut_rise", m.nut_rise, rise_off);
    t.tell("down_force", -si(on_all.z), force_off);
    // What is glued to the top holds the strings' ends as well: only their speaking sides are left.
    if (!b.body_bridge) { t.tell("top_force", g.pinned() ? speaking_sides : -si(on_all.z), force_off); }
    t.tell("push_along", si(on_all.x), force_off);
    t.tell_model("anchor_pull", anchor_all, force_off, 0, 0, 0);
    if (g.hung()) { t.tell("tailpiece_rise", m.tail_rise, saddle_angle_off); }
    const auto last = std::min(frets, static_cast<std::size_t>(b.neck.joint_fret));
    if (last >= 3) {
        const auto tell_gap = [&](const std::string& name, const std::vector<double>& along, const std::vector<double>& z) {
            const auto found = greatest_gap(along, z, last - 1);
            // Where hollow and back-bow are alike either may be named.
            const bool either = std::any_of(found.places.begin(), found.places.end(), [&](double at) {
                const auto k = static_cast<std::size_t>(std::find(along.begin(), along.end(), at) - along.begin());
                const double here = z[0] + (z[last - 1] - z[0]) * (at - along[0]) / (along[last - 1] - along[0]) - z[k];
                return here * found.gap < 0;
            });
            t.tell(name + ".gap", found.gap, length_off);
            if (either) { all[name + ".gap"].or_else = {-found.gap}; }
            all[name + ".x"] = {-1, 0, found.places};
        };
        tell_gap("relief", x, crest);
        tell_gap("board_relief", x, bare);
        if (g.fanned() || !b.neck.set_bass.empty()) {
            tell_gap("bass_relief", bass.first, bass.second);
            tell_gap("treble_relief", treble.first, treble.second);
        }
    }
    if (b.feet) {
        floating_bridge f;
        const spot front = g.front_edge(m), back = g.back_edge(m);
        f.front_edge = {.x = metres(front.x), .z = metres(front.z)};
        f.back_edge = {.x = metres(back.x), .z = metres(back.z)};
        f.bass_foot = b.feet->bass_foot;
        f.treble_foot = b.feet->treble_foot;
        f.saddle = b.saddle.friction;
        f.foot = b.feet->friction;
        const auto stands = bridge_summary(f, on_bridge);
        // Margins are moments over the down-force.
        const double down = std::max(1e-3 * total, std::abs(si(stands.even.down)));
        const double share = 3 * force_off / down;
        t.tell_model("standing", stands, 2 * force_off, 0.05 * share, share, 2 * share);
    }
    if (g.pinned()) {
        // Turning is about the middle of the top under each saddle, which goes where the saddle goes.
        pinned_bridge p;
        p.saddle_exposed = b.pins->saddle_exposed;
        p.top_middle = metres(g.top_middle(0, m).z);
        const auto loads = pinned_load(p, on_bridge);
        t.tell_model("pinned", loads, force_off, 0, 1e-3, 0);
        // A lean is a ratio of two forces that may both be small.
        const double size = std::hypot(si(loads.saddle_down), si(loads.saddle_push));
        all["pinned.saddle_lean"].allowed = 2 * force_off / size;
    }
    if (b.soundboard) {
        const auto& top = *b.soundboard;
        const double sink_off = force_off / si(top.sink_stiffness) + 1e-12;
        const double turn_off = 0.1 * force_off / si(*top.turn_stiffness) + 1e-12;
        t.tell("top.sink", m.sink, sink_off);
        t.tell("top.turn", m.turn, turn_off);
        t.tell("top.drop", m.sink + m.turn * si(*top.saddle_ahead), sink_off + turn_off * 0.02);
        t.tell("top.forward", m.turn * si(*top.saddle_height), turn_off * 0.02 + 1e-12);
    }
    if (frets >= 2) {
        double mx = 0, mz = 0, sxx = 0, sxz = 0;
        for (std::size_t k = 0; k < frets; ++k) {
            mx += x[k] / static_cast<double>(frets);
            mz += crest[k] / static_cast<double>(frets);
        }
        for (std::size_t k = 0; k < frets; ++k) {
            sxx += (x[k] - mx) * (x[k] - mx);
            sxz += (x[k] - mx) * (crest[k] - mz);
        }
        const double scale = g.saddle_line();
        // Over the top as it has gone down under the saddle.
        const double gone = b.soundboard ? m.sink + m.turn * si(*b.soundboard->saddle_ahead) : 0;
        t.tell("line_at_saddle", mz + sxz / sxx * (scale - mx) + si(b.saddle.board_line) + gone,
               length_off * (1 + 2 * scale / (x.back() - x.front())));
    }
    if (asked_y.size() >= 2) {
        const auto straight = straight_saddle<double>(asked_y, asked_x);
        const double across = si(asked_y.back()) - si(asked_y.front());
        t.tell("straight_saddle.at_centre", si(straight.at_centre),
               setback_off * (1 + 2 * std::abs(si(asked_y.front()) + si(asked_y.back())) / across));
        t.tell("straight_saddle.slant", straight.slant, 2 * setback_off / across);
    }
    return all;
}

} // namespace wholes
