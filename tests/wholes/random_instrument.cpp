#include "random_instrument.hpp"

#include <algorithm>
#include <cmath>

#include <tautline/instrument/neck_woods.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/strings/wire_materials.hpp>

namespace wholes {

namespace {

using namespace tautline;
using namespace tautline::units;

/// An amount as a number from `plain` (at 1) to `far` (at 100); `plain` also where it is 0.
double from_to(int amount, double plain, double far) { return plain + (far - plain) * std::max(0, amount - 1) / 99.0; }
/// An amount that is 0 at 0, and from `near` to `far` else.
double none_or(int amount, double near, double far) { return amount == 0 ? 0 : from_to(amount, near, far); }

/// A small difference from -1 to 1, the same for the same seed and place; 0 for seed 0.
double uneven(int seed, int place) {
    if (seed == 0) { return 0; }
    auto h = static_cast<unsigned>(seed) * 2654435761U + static_cast<unsigned>(place) * 40503U;
    h = (h ^ (h >> 15U)) * 2246822519U;
    h = (h ^ (h >> 13U)) * 3266489917U;
    h ^= h >> 16U;
    return static_cast<double>(h % 2001U) / 1000.0 - 1;
}

std::vector<int> courses_of(const recipe& r) {
    const int n = r.strings + 1;
    std::vector<int> c;
    if (r.courses == 1 && n % 2 == 0) {
        c.assign(static_cast<std::size_t>(n / 2), 2);
    } else if (r.courses == 2 && n % 3 == 0) {
        c.assign(static_cast<std::size_t>(n / 3), 3);
    } else if (r.courses == 3 && n % 2 == 1) {
        c.assign(static_cast<std::size_t>((n + 1) / 2), 2);
        c.front() = 1;
    } else {
        c.assign(static_cast<std::size_t>(n), 1);
    }
    return c;
}

/// A string of steel, or nylon, that pulls about so many newtons at that pitch.
music_string string_for(const recipe& r, double pull, double speaking, double hertz, int i) {
    const bool nylon_cored = r.stuff == 5;
    const auto core = nylon_cored ? nylon() : music_wire();
    const double mu = pull / std::pow(2 * speaking * hertz, 2);
    const double plain = std::sqrt(4 * mu / (3.14159265 * core.mass_density.value()));
    const double limit = nylon_cored ? 1.0e-3 : 0.5e-3;
    music_string made;
    if (plain <= limit || r.stuff == 0) {
        // A plain string too thick to bend is made lighter instead: it pulls less.
        made = plain_string(core, length<>::from_value(std::min(plain, nylon_cored ? 1.2e-3 : 0.75e-3)));
    } else {
        const double share = r.stuff == 6 ? 0.6 : 0.4 + 0.05 * uneven(r.uneven, 300 + i);
        const auto wrap_metal = nylon_cored ? silver() : i % 2 == 0 ? phosphor_bronze() : nickel_plated_steel();
        // Gauge of a wound string is some 1.06 times that of a plain one of steel, less for heavier wraps.
        const double gauge = 1.04 * plain * std::sqrt(core.mass_density.value() / (nylon_cored ? 8000.0 : 7850.0));
        const double thick = std::max(gauge * share, nylon_cored ? 0.4e-3 : 0.2e-3);
        const double around = std::max((gauge - thick) / 2, 0.04e-3);
        made.core.material = core;
        made.core.diameter = length<>::from_value(thick);
        if (r.stuff == 2 || r.stuff == 6) { made.core.section = core_section::hexagonal; }
        wrap one;
        one.material = wrap_metal;
        one.thickness = length<>::from_value(around);
        if (r.stuff == 3 && i % 2 == 0) {
            one.form = layer_form::ribbon;
            one.ribbon_width = length<>::from_value(3 * around);
        } else if (r.stuff == 3) {
            one.ground = length<>::from_value(0.2 * around);
        }
        made.layers.push_back(one);
        if (r.stuff == 4) { made.bare = bare_ends{.at_nut = 8 * mm, .at_saddle = 25 * mm}; }
    }
    if (r.stuff == 7) { made.weighed = linear_density<>::from_value(mu * (1 + 0.03 * uneven(r.uneven, 320 + i))); }
    return made;
}

void string_it(const recipe& r, double scale, whole& w) {
    const int n = r.strings + 1;
    const auto courses = courses_of(r);
    w.stringing.standard.a4 = from_to(r.standard, 440, 415) * Hz;
    if (r.standard % 2 == 1) {
        for (int k = 0; k < 12; ++k) { w.stringing.standard.offsets.push_back(4 * uneven(r.standard, k) * cents); }
    }
    // Steel breaks at some speed of its waves, whatever the gauge; nylon earlier.
    const double speed = r.stuff == 5 ? from_to(r.pitch, 400, 250) : from_to(r.pitch, 420, 260);
    const int top = static_cast<int>(std::lround(69 + 12 * std::log2(speed / (2 * scale) / 440)));
    const int steps = static_cast<int>(courses.size());
    const int interval = std::max(2, std::min(7 - r.interval, steps > 1 ? 30 / (steps - 1) : 7));
    int i = 0;
    for (int c = 0; c < steps; ++c) {
        for (int k = 0; k < courses[static_cast<std::size_t>(c)]; ++k, ++i) {
            const int octave_up = k == 1 && r.interval == 5 && c == 0 ? 12 : 0;
            const note pitch{top - interval * (steps - 1 - c) + octave_up - (octave_up > 0 && steps == 1 ? 12 : 0)};
            const double hertz = pitch_of(pitch, w.stringing.standard) / Hz;
            const double pull =
                (r.stuff == 5 ? 0.7 : 1.0) * from_to(r.pull, 70, n > 8 ? 40 : 120) * (1 + 0.15 * uneven(r.uneven, i));
            w.stringing.strings.push_back({string_for(r, pull, scale, hertz, i), pitch});
        }
    }
}

/// Two scales between the outer strings, whose places are known; the one scale length is then no part of the board.
void make_fan(const recipe& r, double scale, whole& w) {
    auto& b = w.built.board;
    const double longer = scale * (1 + from_to(r.fan_by, 0.002, 0.06));
    auto& fan = b.scale.fan.emplace();
    fan.bass_scale = 1000 * (r.fan == 3 ? scale : longer) * mm;
    fan.treble_scale = 1000 * (r.fan == 3 ? longer : scale) * mm;
    fan.square_fret = r.fan == 1 ? 0 : std::min(0.25 * r.square, static_cast<double>(r.frets));
    b.scale.scale_length = length<>::from_value(std::nan("")); // no part of it
    const kernel::board_lines<double> lines(w.built);
    const auto last = lines.fret(r.frets > 0 ? r.frets : 12);
    b.board_length = last.x + abs(last.lean) * 0.5 * b.width_at_end + 8 * mm;
}

/// A string needs a length somewhere: one of the two scales where there are two.
void make_board(const recipe& r, double scale, double spread, whole& w) {
    auto& b = w.built.board;
    const bool fanned = r.fan > 0 && w.built.nut.spacing.courses.size() > 1;
    b.scale.scale_length = 1000 * scale * mm;
    b.scale.steps = r.steps == 1 ? 19 : r.steps == 2 ? 24 : r.steps == 3 ? 7 : 12;
    b.scale.frets = r.frets;
    b.scale.zero_fret = r.zero_fret == 1;
    if (r.places == 1 && r.steps == 0 && !fanned) { b.scale.divisor = 18; }
    if (r.places == 2 && r.steps == 0 && !fanned) { b.scale.divisor = 17.817; }
    if (r.places == 3 && !fanned) {
        for (int n = 1; n <= r.frets; ++n) {
            b.scale.measured_places.push_back(equal_step_position(1000 * scale * mm, n, b.scale.steps) +
                                              0.2 * uneven(r.uneven, 100 + n) * mm);
        }
    }
    if (r.places == 4 && !fanned) {
        for (int n = 1; n <= r.frets; ++n) {
            const int major[7] = {0, 2, 4, 5, 7, 9, 11};
            const int semitones = 12 * (n / 7) + major[n % 7];
            b.scale.measured_places.push_back(equal_step_position(1000 * scale * mm, semitones, 12));
        }
        b.scale.steps = 12;
    }
    const double aside = none_or(r.off_nut, 0.2, 1.5);
    b.width_at_nut = (spread + 7 + 2 * aside) * mm;
    b.width_at_end = b.width_at_nut * from_to(r.taper, 1.0, 1.4);
    b.board_length = r.frets > 0 ? fret_position(b.scale, r.frets) + 8 * mm : 0.62 * 1000 * scale * mm;
    if (fanned) { make_fan(r, scale, w); }
    b.thickness = from_to(r.thickness, 5.5, 7.5) * mm;
    if (r.thins > 0) { b.thickness_at_end = b.thickness + from_to(r.thins, 0.6, -1.0) * mm; }
    if (r.arc > 0) {
        const double half = b.width_at_end / mm / 2;
        const double radius = std::max(from_to(r.radius, 400, 150), half * half / 3.5);
        b.surface.radius = radius * mm;
        if (r.arc > 1) {
            b.surface.radius_at_end = radius * 1.6 * mm;
            b.surface.cone_length = b.board_length * (r.arc == 2 ? 1.0 : 1.3);
        }
    }
    w.built.frets.wire = {.crown_height = from_to(r.slots, 1.0, 1.3) * mm,
                          .crown_width = 2.2 * mm,
                          .tang_depth = 1.5 * mm,
                          .tang_thickness = 0.5 * mm};
    if (r.wear > 0) {
        const double deepest = from_to(r.wear, 0.02, 0.3);
        // Fewer marks than frets: those beyond are unworn.
        for (int n = 1; n <= (r.frets + 1) / 2; ++n) {
            w.built.frets.wear.push_back(deepest * (0.6 + 0.4 * uneven(r.uneven, 200 + n)) * mm);
        }
    }
}

/// What stiffens the neck, beside the channel or, where there is none, in the middle.
void make_bars(const recipe& r, whole& w) {
    auto& n = w.built.neck;
    const double thick = w.built.board.thickness / mm;
    const length<> joint = joint_place(w.built);
    insert one{.x_from = joint * 0.1,
               .x_to = joint * 0.92,
               .top = -(thick - 0.3) * mm, // across the glue line
               .width = from_to(r.bars_by, 2, 4) * mm,
               .modulus = from_to(r.bars_by, 130, 60) * GPa};
    if (r.bars == 1) {
        one.height = from_to(r.bars_by, 3, 6) * mm;
    } else {
        one.profile = insert_profile::round;
        if (r.bars == 2) { one.wall = 0.6 * mm; }
    }
    // A narrow neck has no room for two.
    if ((r.bars == 1 || r.bars == 2) && w.built.board.width_at_nut > 26 * mm) {
        for (const double y : {-6.5, 6.5}) {
            one.y = y * mm;
            n.inserts.push_back(one);
        }
    } else if (r.bars == 3 && r.channel == 0) {
        n.inserts.push_back(one);
    }
}

/// The back as a profile gauge gives it, between nut and joint: some ellipse, fuller on one side.
void make_trace(const recipe& r, whole& w) {
    auto& n = w.built.neck;
    for (int k = 1; k <= r.traced; ++k) {
        traced_back t;
        t.x = joint_place(w.built) * (static_cast<double>(k) / (r.traced + 1));
        const length<> half = half_width_at(w.built.board, t.x);
        const double way = t.x / joint_place(w.built);
        const length<> deep = n.depth_at_nut * (1 - way) + n.depth_at_joint * way - thickness_at(w.built.board, t.x) +
                              0.4 * uneven(k, 7) * mm;
        for (int p = 0; p <= 12; ++p) {
            const double u = p / 6.0 - 1;
            t.profile.push_back(
                {.y = half * u, .depth = deep * (1 - std::pow(std::abs(u), 2.4 + (u < 0 ? 0.4 : 0.0))) + 0.2 * mm});
        }
        n.traced.push_back(t);
    }
}

/// The slack board told along both edges in place of one set for both.
void make_edges(const recipe& r, whole& w) {
    if (r.edges == 0) { return; }
    auto& n = w.built.neck;
    const length<> joint = joint_place(w.built);
    const double by = from_to(r.edges_by, 0.03, 0.4) * std::min(1.0, joint / mm / 250.0);
    if (r.edges == 3) {
        n.set.clear();
        for (const double at : {0.0, 0.3, 0.7, 1.0}) {
            n.set_bass.push_back(
                {.x = joint * at, .z = at < 1 ? by * uneven(1 + r.edges_by, static_cast<int>(10 * at)) * mm : 0 * mm});
        }
        for (const double at : {0.0, 0.45, 0.8, 1.0}) {
            n.set_treble.push_back(
                {.x = joint * at, .z = at < 1 ? by * uneven(2 + r.edges_by, static_cast<int>(20 * at)) * mm : 0 * mm});
        }
        return;
    }
    if (n.set.empty()) {
        for (int k = 0; k < 5; ++k) { n.set.push_back({.x = joint * (0.25 * k), .z = 0 * mm}); }
    }
    n.set_bass = n.set_treble = n.set;
    n.set.clear();
    for (std::size_t k = 0; k < n.set_bass.size(); ++k) {
        const double at = n.set_bass[k].x / joint;
        if (r.edges == 1) { n.set_bass[k].z = n.set_bass[k].z - by * (1 - at) * mm; }
        n.set_treble[k].z = n.set_treble[k].z + by * (r.edges == 1 ? 1 - at : -4 * at * (1 - at)) * mm;
    }
}

void make_neck(const recipe& r, whole& w) {
    auto& n = w.built.neck;
    const double thick = w.built.board.thickness / mm;
    n.depth_at_nut = from_to(r.depth, 21, 18) * mm;
    n.depth_at_joint = n.depth_at_nut + none_or(r.deepens, 0.5, 6) * mm;
    n.back_exponent = from_to(r.roundness, 2, r.roundness % 2 == 0 ? 1.2 : 4);
    n.joint_fret = r.frets == 0 ? 12 : std::max(1, r.frets - std::min(r.joint, 2 * r.frets / 3));
    // No neck reaches so far up that it ends under the bridge.
    while (r.frets > 0 && n.joint_fret > 1 &&
           kernel::fret_place(w.built, n.joint_fret) > 0.62 * kernel::line_place(w.built)) {
        --n.joint_fret;
    }
    n.board_modulus = from_to(r.wood, 14, 9) * GPa;
    n.back_modulus = from_to(r.wood, 11, 7) * GPa;
    if (r.yields > 0) { n.joint_stiffness = from_to(r.yields, 40000, 2500) * N_m_per_rad; }
    n.creep_factor = from_to(r.creep, 1, 1.8);
    if (r.sheared > 0) { n.pure_bending_factor = from_to(r.sheared, 1.0, 1.3); }
    if (r.sheared % 3 == 1) { n.back_method = modulus_method::tap_tone; }
    if (r.loose > 0 || r.wedged > 0) {
        n.slots = neck_slots{.depth = from_to(r.loose, 1.5, 2.4) * mm, .bearing = from_to(r.loose, 1, 0)};
        n.slots->shear_ratio = from_to(r.wood, 10, 20);
        n.slots->interference = none_or(r.wedged, 0.01, 0.05) * mm;
        n.slots->wedging = r.wedged > 0 ? 0.2 : 0;
    }
    n.board_strain = (r.moister % 2 == 0 ? 1 : -1) * none_or(r.moister, 2e-5, 3e-4);
    if (r.named > 0) {
        constexpr const char* woods[3][2] = {
            {"African ebony", "hard maple"}, {"Indian rosewood", "Honduras mahogany"}, {"hard maple", "hard maple"}};
        n.board_wood = woods[r.named - 1][0];
        n.back_wood = woods[r.named - 1][1];
        n.board_modulus = n.back_modulus = stress<>::from_value(std::nan(""));
        take_moduli(n);
    }
    const length<> joint = joint_place(w.built);
    if (r.channel > 0) {
        // From the board's underside down, across the glue line where the board thins.
        n.inserts = {{.x_from = joint * 0.15,
                      .x_to = joint * 0.8,
                      .top = -thick * mm,
                      .width = from_to(r.channel, 1, 6) * mm,
                      .height = from_to(r.channel, 2, 6) * mm,
                      .modulus = 0 * GPa}};
    }
    make_bars(r, w);
    make_trace(r, w);
    if (r.set > 0) {
        // On a short neck as much less.
        const double by = from_to(r.set_by, 0.05, 0.6) * std::min(1.0, joint / mm / 250.0);
        const double shapes[4][5] = {
            {0, -0.75, -1, -0.75, 0}, {0, 0.75, 1, 0.75, 0}, {0, -0.8, 0.3, 0.6, 0}, {1, 0.3, -0.1, -0.1, 0}};
        for (int k = 0; k < 5; ++k) { n.set.push_back({.x = joint * (0.25 * k), .z = by * shapes[r.set - 1][k] * mm}); }
    }
    make_edges(r, w);
    if (r.rod > 0) {
        const double neck_mm = joint / mm;
        truss_rod rod;
        rod.x_from = (r.rod_begins == 0 ? std::min(15.0, 0.1 * neck_mm) : -from_to(r.rod_begins, 5, 45)) * mm;
        rod.x_to = neck_mm * from_to(r.rod_ends, 0.9, 1.15) * mm;
        // Under the neutral axis: there its pull takes the bow out.
        rod.z_ends = -std::min(thick + from_to(r.rod_deep, 7, 9), n.depth_at_nut / mm - 4.5) * mm;
        rod.dip = none_or(r.rod_dips, 0.2, 2) * mm;
        rod.free_in_channel = r.rod == 2;
        if (r.rod == 3) { rod.separation = 7 * mm; }
        // A rod free in its channel is straight.
        if (r.rod == 2) { rod.dip = 0 * mm; }
        n.rod = rod;
        const double most = 18.0 * 5 * (r.strings + 1); // bends the neck as much as the strings do, and half more
        n.rod_pull = none_or(r.rod_pull, 0.02, 1) * most * N;
        if (r.rod == 3 && r.rod_pull % 2 == 1) { n.rod_pull = -0.5 * *n.rod_pull; }
    }
}

/// Where the strings cross nut and saddle.
void make_spacings(const recipe& r, double spread, whole& w) {
    auto& i = w.built;
    const auto courses = courses_of(r);
    const double across = courses.size() > 1 ? spread : 0;
    i.nut.spacing = {.spread = across * mm,
                     .rule = r.gaps == 1 ? spacing_rule::equal_gaps : spacing_rule::equal_centres,
                     .courses = courses,
                     .course_gap = 1.8 * mm,
                     .offset = -none_or(r.off_nut, 0.2, 1.5) * mm};
    i.saddle.spacing = i.nut.spacing;
    i.saddle.spacing.spread = across * from_to(r.spread, 1.25, 1.7) * mm;
    i.saddle.spacing.course_gap = 2.6 * mm;
    i.saddle.spacing.offset = none_or(r.off_saddle, 0.3, 3) * mm;
}

/// Single saddles where one top stood, a little uneven.
void make_single(const recipe& r, whole& w) {
    if (r.single == 0) { return; }
    auto& s = w.built.saddle;
    const int count = r.strings + 1;
    const auto [y0, y1] = kernel::outermost(s.spacing);
    std::vector<single_saddle> each;
    for (int k = 0; k < count; ++k) {
        const double share = count == 1 ? 0 : k / (count - 1.0);
        single_saddle one;
        one.height =
            kernel::saddle_height_at<double>(s, y0, y1, y0 + (y1 - y0) * share) + 0.2 * uneven(r.uneven, 400 + k) * mm;
        one.setback = s.setback_bass + (s.setback_treble - s.setback_bass) * share + 0.8 * uneven(r.uneven, 420 + k) * mm;
        each.push_back(one);
    }
    s = single_saddles<double>(s.spacing, each, s.board_line);
    if (r.single == 2) { s.pieces = count > 1 ? std::vector<int>{count / 2, count - count / 2} : std::vector<int>{1}; }
}

void make_ends(const recipe& r, double scale, double spread, whole& w) {
    auto& i = w.built;
    const int count = r.strings + 1;
    const bool several = courses_of(r).size() > 1;
    const double crown = i.frets.wire.crown_height / mm;
    if (r.uneven == 0) {
        i.nut.slot_heights = {(crown + from_to(r.slots, 0.4, 0.9)) * mm};
    } else {
        for (int k = 0; k < count; ++k) {
            i.nut.slot_heights.push_back((crown + from_to(r.slots, 0.4, 0.9) + 0.15 * uneven(r.uneven, 20 + k)) * mm);
        }
    }
    i.headstock = {.pitch = from_to(r.head, 12, 2) * deg, .face_start = 5 * mm, .face_drop = from_to(r.head, 3, 6) * mm};
    const double side = spread / 2;
    for (int k = 0; k < count; ++k) {
        const bool bass = k < (count + 1) / 2;
        const int from_nut = bass ? k : count - 1 - k;
        i.posts.push_back({.along = (45 + from_to(r.posts, 20, 32) * from_nut) * mm,
                           .across = (bass ? -1 : 1) * (0.35 * side + 2 + none_or(r.posts, 1, 12)) * mm,
                           .height = 7 * mm});
    }

    const double wide = several ? i.saddle.spacing.spread / mm : 0;
    i.saddle.board_line = none_or(r.over_top, 1, 15) * mm;
    // Where the board is arched the outer strings stand as much lower as the board does under them.
    const double outer = wide / 2;
    double fall = 0;
    const auto curved = kernel::arc_curvature(i.board.surface, 1000 * scale * mm);
    fall = kernel::arc_drop(curved, outer * mm) / mm;
    const double top = std::max(2 * (crown + from_to(r.action, 2.2, 3.2)) - crown - 0.4 - fall, 1.5);
    i.saddle.height_bass = i.saddle.board_line + (top + 0.4) * mm;
    i.saddle.height_treble = i.saddle.board_line + top * mm;
    const double widest = outer + 2 * std::abs(i.saddle.spacing.offset / mm);
    if (r.saddle_arc == 0 && i.board.surface.radius && several) {
        i.saddle.radius = std::max(1 / curved.value() * 1000, 1.4 * widest) * mm;
    } else if (r.saddle_arc == 2 && several) {
        i.saddle.radius = std::max(220.0, 1.4 * widest) * mm;
    }
    i.saddle.setback_treble = none_or(r.setback, 0.5, 3) * mm;
    i.saddle.setback_bass = i.saddle.setback_treble + none_or(r.slant, 0.3, 4) * mm;

    const double back = std::max(i.saddle.setback_bass, i.saddle.setback_treble) / mm + (r.single > 0 ? 0.8 : 0);
    const double low = i.saddle.height_treble / mm;
    make_single(r, w);
    if (r.end < 2) {
        const double hinge = from_to(r.behind, 180, 110);
        i.tailpiece = tailpiece{.hinge_distance = hinge * mm,
                                .hinge_height = from_to(r.below, -5, -28) * mm,
                                .reach = 0.5 * hinge * mm,
                                .spread = wide * 0.9 * mm};
        if (r.end == 1) {
            i.feet = bridge_feet{.ahead = from_to(r.feet, 6, 11) * mm,
                                 .behind = from_to(r.feet, 8, 6) * mm,
                                 .top_slope = (r.feet % 2 == 0 ? 1 : -1) * none_or(r.feet, 0.2, 3) * deg,
                                 .bass_foot = -(outer + 6) * mm,
                                 .treble_foot = (outer + 4) * mm};
        }
    } else if (r.end > 5) {
        const double behind = from_to(r.behind, r.end == 6 ? 30 : 14, r.end == 6 ? 12 : 7);
        const double edge = r.end == 6 ? from_to(r.below, 0.7, 0.2) * low : from_to(r.below, -2, -20);
        i.body_bridge = body_bridge{.distance = (back + behind) * mm, .height = edge * mm, .spread = wide * 1.02 * mm};
    } else {
        pins held{.distance = (back + from_to(r.behind, 18, 12)) * mm,
                  .height = from_to(r.below, 0.6 * low, 0.1 * low) * mm,
                  .spread = wide * 1.05 * mm,
                  .top_thickness = 2.8 * mm,
                  .saddle_exposed = 3.5 * mm};
        if (r.end == 3) { // the string leaves a tie block just behind the saddle
            held.distance = (back + from_to(r.behind, 12, 8)) * mm;
            held.height = from_to(r.below, 0.8 * low, 0.4 * low) * mm;
        }
        if (r.end == 4) { // a clamp holds it nearly as high as the saddle
            held.distance = (back + from_to(r.behind, 9, 4)) * mm;
            held.height = (low - from_to(r.below, 0.3, 1.0)) * mm;
        }
        if (r.end == 5) { // a ball end sits in the bridge, under the saddle
            held.distance = (back + from_to(r.behind, 7, 3)) * mm;
            held.height = (low - from_to(r.below, 3, 8)) * mm;
        }
        i.pins = held;
    }
    if (r.top > 0 && !i.body_bridge) {
        const double load = (r.strings + 1) / 6.0;
        i.soundboard = soundboard{.sink_stiffness = from_to(r.top, 1500, 180) * std::max(0.4, load) * N_per_mm,
                                  .turn_stiffness = from_to(r.top_turns, 3000, 500) * std::max(0.4, load) * N_m_per_rad,
                                  .saddle_ahead = none_or(r.ahead, -4, 12) * mm,
                                  .saddle_height = from_to(r.ahead, 11, 18) * mm};
    }
}

} // namespace

whole described_by(const recipe& r) {
    whole w;
    w.from = r;
    const double scale = r.length == 0 ? 0.65 : from_to(r.length, 0.36, 1.05);
    const auto gaps = static_cast<double>(courses_of(r).size()) - 1;
    const double spread = gaps > 0 ? gaps * from_to(r.spacing, gaps > 7 ? 5.2 : 7.5, gaps > 7 ? 6.2 : 9.5) : 6;
    string_it(r, scale, w);
    make_spacings(r, spread, w);
    make_board(r, scale, spread, w);
    make_neck(r, w);
    make_ends(r, scale, spread, w);
    auto& p = w.built.playing;
    p.finger.behind = from_to(r.finger, 10, 4) * mm;
    p.finger.depth = from_to(r.finger, 0.1, 0.25) * mm;
    p.pluck_from_saddle = from_to(r.finger, 100, 160) * mm;
    if (r.ends > 0) {
        p.nut_end = from_to(r.ends, 0.5, 1);
        p.fret_end = from_to(r.ends, 0.5, r.ends % 2 == 0 ? 1 : 0);
        p.saddle_end = from_to(r.ends, 0.5, 1);
    }
    if (r.friction > 0) {
        w.built.nut.friction = {.least = 0.05, .most = from_to(r.friction, 0.1, 0.4)};
        w.built.saddle.friction = {.least = 0.1, .most = from_to(r.friction, 0.15, 0.5)};
    }
    return w;
}

void raise_saddle(saddle& s, length<> bass, length<> treble) {
    if (s.single.empty()) {
        s.height_bass = s.height_bass + bass;
        s.height_treble = s.height_treble + treble;
    }
    for (std::size_t i = 0; i < s.single.size(); ++i) {
        const double share = i == 0 ? 0 : static_cast<double>(i) / static_cast<double>(s.single.size() - 1);
        s.single[i].height = s.single[i].height + bass + (treble - bass) * share;
    }
}

std::optional<whole> made_from(const recipe& r) {
    auto w = described_by(r);
    try {
        if (!validate(strung_instrument{w.built, w.stringing}).empty()) { return std::nullopt; }
        setup s;
        solve(strung_instrument{w.built, w.stringing}, s);
        auto& n = w.built.neck;
        const bool rod_sets = n.rod && s.board_relief.has_value();
        if ((r.state == 1 || r.state == 2) && rod_sets) {
            // What the rod takes out is in proportion to its pull.
            const auto relief_at = [&](double pull) {
                n.rod_pull = pull * N;
                solve(strung_instrument{w.built, w.stringing}, s);
                return s.board_relief->gap.value();
            };
            const double slack = relief_at(0), per_newton = (relief_at(100) - slack) / 100;
            const double wanted = r.state == 1 ? from_to(r.state_by, 0, 3e-5) : -from_to(r.state_by, 5e-5, 4e-4);
            const double pull = (wanted - slack) / per_newton;
            if (!(std::abs(pull) < 6000) || (pull < 0 && r.rod != 3)) { return std::nullopt; }
            n.rod_pull = pull * N;
        } else if (r.state == 3) {
            // A softer neck bows as if its strings were heavier.
            const double softer = from_to(r.state_by, 0.3, 0.75) / s.bow.rise_per_rise;
            if (softer > 1) {
                n.board_modulus = n.board_modulus / softer;
                n.back_modulus = n.back_modulus / softer;
            }
        }
        solve(strung_instrument{w.built, w.stringing}, s);
        // A neck that rises by more than this has broken or is no neck.
        if (abs(s.nut_rise) > 60 * mm) { return std::nullopt; }
    } catch (const invalid_input&) { return std::nullopt; }
    return w;
}

} // namespace wholes
