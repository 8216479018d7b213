#include <tautline/neck/bow.hpp>

#include <random>
#include <string>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

bow bowed(const neck& n, std::size_t stations = 65, double pull = 110, tautline::force<> rod = 0 * N) {
    return bend(make_beam(n, stations), demo::strings(pull), rod);
}

} // namespace

TEST_CASE(
    "without load and without anything that bends it the neck stays straight; with nothing but its set it shows the set") {
    auto b = bend(make_beam(demo::plain_neck()), {});
    CHECK(b.nut_rise() == 0 * mm);
    CHECK(deflection_at(b, 100 * mm) == 0 * mm);
    neck n = demo::plain_neck();
    n.set = {{.x = 50 * mm, .z = 0.2 * mm}, {.x = 150 * mm, .z = -0.1 * mm}};
    b = bend(make_beam(n), {});
    CHECK(b.nut_rise() == 0 * mm);
    CHECK(near::within(deflection_at(b, 100 * mm), 0.05 * mm, 1e-12 * mm));
    CHECK(near::within(deflection_at(b, 0 * mm), 0.2 * mm, 1e-12 * mm));
    CHECK(near::within(deflection_at(b, 400 * mm), -0.1 * mm, 1e-12 * mm));
}

TEST_CASE("the bow's error falls with the fourth power of the step, whatever is in the neck") {
    for (const bool free : {false, true}) {
        neck n = demo::everything();
        n.rod->free_in_channel = free;
        // Many breaks make short steps from the start: a neck without tangs and bars has room to show the order.
        n.slots.reset();
        n.inserts.pop_back();
        const auto rise = [&](std::size_t stations) { return bowed(n, stations, 110, 800 * N).nut_rise() / mm; };
        const double exact = rise(2049);
        const double coarse = std::abs(rise(17) - exact), fine = std::abs(rise(129) - exact);
        // Over three halvings; their number is rounded up between breaks.
        CHECK(near::within(std::log2(coarse / fine) / 3, 4.0, 0.5));
        CHECK(fine < 1e-7);
    }
    const double exact = bowed(demo::everything(), 2049, 110, 800 * N).nut_rise() / mm;
    CHECK(near::within(bowed(demo::everything(), 65, 110, 800 * N).nut_rise() / mm, exact, 1e-6));
}

TEST_CASE("the bow agrees with the load in its bowed place: curvature times EI is the moment there") {
    const neck n = demo::neck_with_rod();
    const auto beam = make_beam(n, 257);
    const auto pulls = demo::strings();
    const auto b = bend(beam, pulls, 900 * N);
    for (const double at : {60.0, 130.0, 250.0}) {
        const auto x = at * mm, h = 2 * mm;
        const auto w = [&](tautline::length<> place) { return deflection_at(b, place); };
        const auto curved = (w(x + h) - 2.0 * w(x) + w(x - h)) / (h * h);
        const auto s = section_at(n, x);
        moment<> m = -(900 * N) * (s.neutral_axis - (-13.5 * mm));
        for (const auto& p : pulls) {
            const auto nut = p.z_nut + b.nut_rise();
            m += p.pull * (nut + (p.z_saddle - nut) * ratio(x, p.x_saddle) - (s.neutral_axis + w(x)));
        }
        CHECK(near::relative(curved, m / s.bending_rigidity, 2e-4));
    }
}

TEST_CASE("a free rod keeps the line between its anchors: the neck's curvature knows") {
    neck n = demo::neck_with_rod();
    n.rod->free_in_channel = true;
    const auto b = bend(make_beam(n, 257), demo::strings(), 900 * N);
    const auto w = [&](tautline::length<> place) { return deflection_at(b, place); };
    const auto x = 200 * mm, h = 2 * mm;
    const auto s = section_at(n, x);
    const auto line = w(10 * mm) + (w(332 * mm) - w(10 * mm)) * (190.0 / 322);
    moment<> m = -(900 * N) * (s.neutral_axis + w(x) - (-13.5 * mm + line));
    for (const auto& p : demo::strings()) {
        const auto nut = p.z_nut + b.nut_rise();
        m += p.pull * (nut + (p.z_saddle - nut) * ratio(x, p.x_saddle) - (s.neutral_axis + w(x)));
    }
    CHECK(near::relative((w(x + h) - 2.0 * w(x) + w(x - h)) / (h * h), m / s.bending_rigidity, 2e-4));
    neck held = demo::neck_with_rod();
    CHECK(bowed(n, 65, 110, 900 * N).nut_rise() > 1.005 * bowed(held, 65, 110, 900 * N).nut_rise());
}

TEST_CASE("a free rod stays straight in a neck that has taken a set; one held in its channel goes along") {
    neck n = demo::neck_with_rod();
    n.set = {{.x = 0 * mm, .z = 0.1 * mm}, {.x = 150 * mm, .z = -0.6 * mm}, {.x = 320 * mm, .z = 0 * mm}};
    const auto set = [&](double at) { return kernel::permanent_bow_at<double>(n.set, at * mm); };
    for (const bool free : {false, true}) {
        n.rod->free_in_channel = free;
        const auto b = bend(make_beam(n, 513), {}, 900 * N);
        const auto w = [&](tautline::length<> place) { return kernel::load_deflection_at<double>(b, place); };
        const double at = 200;
        const auto x = at * mm, h = 2 * mm;
        const auto s = section_at(n, x);
        const double share = (at - 10) / 322;
        const auto axis = s.neutral_axis + set(at) + (free ? w(x) : 0 * mm);
        const auto rod =
            -13.5 * mm + (free ? (set(10) + w(10 * mm)) * (1 - share) + (set(332) + w(332 * mm)) * share : set(at));
        const auto curved = (w(x + h) - 2.0 * w(x) + w(x - h)) / (h * h);
        CHECK(near::relative(curved, -(900 * N) * (axis - rod) / s.bending_rigidity, 5e-4));
    }
}

TEST_CASE("a free rod that begins in the head or ends in the body keeps the line between its anchors there") {
    // The head goes on straight from the nut and the body stays, so the line is known from the bow alone.
    for (const auto& ends : {std::pair{-60.0, 332.0}, {10.0, 358.0}, {-60.0, 358.0}}) {
        // Not a structured binding: clang 14 does not let a lambda see one.
        const double from = ends.first, to = ends.second;
        neck n = demo::neck_with_rod();
        n.rod->free_in_channel = true;
        n.rod->x_from = from * mm;
        n.rod->x_to = to * mm;
        n.joint_stiffness = 20000 * N_m_per_rad;
        const auto pulls = demo::strings();
        const auto b = bend(make_beam(n, 513), pulls, 3000 * N);
        const auto w = [&](tautline::length<> place) { return deflection_at(b, place); };
        const auto line = [&](tautline::length<> place) {
            return w(from * mm) + (w(to * mm) - w(from * mm)) * ratio(place - from * mm, (to - from) * mm);
        };
        const auto moment_at = [&](tautline::length<> x, tautline::length<> neutral_axis) {
            moment<> m = -(3000 * N) * (neutral_axis + w(x) - (-13.5 * mm + line(x)));
            for (const auto& p : pulls) {
                const auto nut = p.z_nut + b.nut_rise();
                m += p.pull * (nut + (p.z_saddle - nut) * ratio(x, p.x_saddle) - (neutral_axis + w(x)));
            }
            return m;
        };
        for (const double at : {30.0, 130.0, 250.0}) {
            const auto x = at * mm, h = 2 * mm;
            const auto s = section_at(n, x);
            CHECK(near::relative((w(x + h) - 2.0 * w(x) + w(x - h)) / (h * h),
                                 moment_at(x, s.neutral_axis) / s.bending_rigidity, 2e-4));
        }
        if (to > 350) { // the rod runs through the joint and turns it as well
            const auto joint = n.joint;
            const auto turned = moment_at(joint, section_at(n, joint).neutral_axis) / (20000 * N_m_per_rad);
            CHECK(near::relative(b.slope.back(), -turned.value(), 1e-6));
        }
    }
}

TEST_CASE("directions: heavier and higher strings raise the nut, a rod lowers it, stiffer wood bows less") {
    const neck n = demo::neck_with_rod();
    const auto rise = [&](const neck& k) { return bowed(k).nut_rise(); };
    CHECK(rise(n) > 0 * mm);
    CHECK(bowed(n, 33, 130).nut_rise() > 1.05 * rise(n));
    CHECK(bowed(n, 65, 110, 500 * N).nut_rise() < rise(n));
    CHECK(bowed(n, 33, 0.1, 2500 * N).nut_rise() < 0 * mm);
    auto changed = n;
    changed.back_modulus = 12 * GPa;
    CHECK(rise(changed) < rise(n));
    auto high = demo::strings();
    for (auto& s : high) { s.z_nut = s.z_nut + 0.5 * mm; }
    CHECK(bend(make_beam(n), high).nut_rise() > rise(n));
    changed = n;
    changed.stations[1].back_depth = 18 * mm;
    CHECK(rise(changed) < rise(n));
    changed = n;
    changed.board_strain = 1e-4; // a damp board pushes the nut back
    CHECK(rise(changed) < rise(n));
    changed = n;
    changed.slots =
        fret_slots{.interference = 0.1 * mm, .share = 0.5, .tang_depth = 2 * mm, .places = {35 * mm, 70 * mm, 100 * mm}};
    CHECK(rise(changed) < rise(n));
    changed = n;
    changed.rod->z_ends = -16 * mm; // deeper rods do more
    CHECK(bowed(changed, 65, 110, 500 * N).nut_rise() < bowed(n, 65, 110, 500 * N).nut_rise());
    changed = n;
    changed.rod->dip = 2 * mm;
    CHECK(bowed(changed, 65, 110, 500 * N).nut_rise() < bowed(n, 65, 110, 500 * N).nut_rise());
}

TEST_CASE("a two-way rod is a couple: it bends the neck either way, wherever the neutral axis is") {
    neck n = demo::neck_with_rod();
    n.rod->separation = 6 * mm;
    const auto none = bowed(n).nut_rise();
    const auto forth = bowed(n, 65, 110, 800 * N).nut_rise(), back = bowed(n, 65, 110, -800 * N).nut_rise();
    CHECK(forth < none);
    CHECK(near::within(none - forth, back - none, 1e-9 * mm));
    CHECK_THROWS_AS((void)bowed(demo::neck_with_rod(), 65, 110, -1 * N), invalid_input);
    CHECK_THROWS_AS((void)bowed(demo::plain_neck(), 65, 110, 100 * N), invalid_input); // no rod
    CHECK_NOTHROW((void)bowed(demo::plain_neck(), 65, 110, 0 * N));
}

TEST_CASE("a joint that gives tilts the neck by M/k; a hard one is a rigid one") {
    neck soft = demo::plain_neck();
    soft.joint_stiffness = 5000 * N_m_per_rad;
    const auto feather = demo::strings(1e-6 - 0); // no second order: 1e-6 N and 3, 6 ... would not do, so one string
    const std::vector<string_pull> one{{.pull = 1e-6 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm}};
    (void)feather;
    const auto rigid = bend(make_beam(demo::plain_neck()), one), tilted = bend(make_beam(soft), one);
    const auto joint = section_at(soft, soft.joint);
    const auto z = 2 * mm + 10 * mm * ratio(soft.joint, 629 * mm);
    const double tilt = ((1e-6 * N) * (z - joint.neutral_axis)).value() / 5000;
    CHECK(near::relative(tilted.nut_rise() - rigid.nut_rise(), tilt * soft.joint, 1e-4));
    CHECK(near::relative(tilted.slope.back(), -tilt, 1e-6));
    soft.joint_stiffness = 1e9 * N_m_per_rad;
    CHECK(near::relative(bowed(soft).nut_rise(), bowed(demo::plain_neck()).nut_rise(), 1e-5));
}

TEST_CASE("creep multiplies the elastic bow; the set is added and lifts the strings with the nut") {
    neck n = demo::plain_neck();
    const auto fresh = bowed(n);
    n.creep_factor = 1.5;
    const auto old = bowed(n);
    CHECK(near::relative(old.nut_rise(), 1.5 * fresh.nut_rise(), 1e-12));
    CHECK(near::relative(old.slope[3], 1.5 * fresh.slope[3], 1e-12));
    n = demo::plain_neck();
    n.set = {{.x = 0 * mm, .z = 1 * mm}, {.x = 347.7 * mm, .z = 0 * mm}};
    const auto set = bowed(n);
    CHECK(set.nut_rise() != fresh.nut_rise());
    CHECK(near::within(deflection_at(set, 0 * mm), set.nut_rise() + 1 * mm, 1e-12 * mm));
    // A set that lifts everything alike, nut included, brings strings and axis no nearer but for the far saddle.
    auto lifted = demo::strings();
    for (auto& s : lifted) {
        s.z_nut = s.z_nut + 1 * mm;
        s.z_saddle = s.z_saddle + 1 * mm;
    }
    neck level = demo::plain_neck();
    level.set = {{.x = 0 * mm, .z = 1 * mm}};
    auto saddles = demo::strings();
    for (auto& s : saddles) { s.z_saddle = s.z_saddle + 1 * mm; }
    CHECK(near::relative(bend(make_beam(level), saddles).nut_rise(), fresh.nut_rise(), 1e-9));
}

TEST_CASE("between stations the bow is smooth; before the nut it goes on straight, past the joint it is 0") {
    const auto coarse = bowed(demo::plain_neck(), 17), fine = bowed(demo::plain_neck(), 513);
    for (double x = 0; x < 347; x += 7.3) {
        CHECK(near::within(deflection_at(coarse, x * mm), deflection_at(fine, x * mm), 2e-6 * mm));
    }
    CHECK(near::relative(deflection_at(fine, -10 * mm), fine.nut_rise() - 10 * mm * fine.slope.front(), 1e-12));
    CHECK(deflection_at(fine, 347.7 * mm) == 0 * mm);
    CHECK(deflection_at(fine, 500 * mm) == 0 * mm);
    CHECK(near::within(deflection_at(fine, 347.6999 * mm), 0 * mm, 1e-9 * mm));
}

TEST_CASE("property: loads too small for the second order superpose") {
    std::mt19937 random(31);
    std::uniform_real_distribution<double> any(0.2, 1);
    for (int i = 0; i < 50; ++i) {
        const auto beam = make_beam(demo::neck_with_rod(), 33);
        const auto a = string_pull{.pull = 1e-7 * any(random) * N,
                                   .z_nut = 3 * any(random) * mm,
                                   .z_saddle = 20 * any(random) * mm,
                                   .x_saddle = 640 * mm};
        const auto b = string_pull{.pull = 1e-7 * any(random) * N,
                                   .z_nut = 3 * any(random) * mm,
                                   .z_saddle = 20 * any(random) * mm,
                                   .x_saddle = 660 * mm};
        const auto rod = 1e-7 * any(random) * N;
        const auto together = bend(beam, std::vector{a, b}, rod).nut_rise();
        const auto apart =
            bend(beam, std::vector{a}).nut_rise() + bend(beam, std::vector{b}).nut_rise() + bend(beam, {}, rod).nut_rise();
        CHECK(near::relative(together, apart, 1e-7));
    }
}

TEST_CASE("property: with the second order a doubled load more than doubles the bow") {
    const neck n = demo::plain_neck();
    double last = 0;
    for (const double pull : {20.0, 40.0, 80.0, 160.0, 320.0}) {
        const std::vector<string_pull> six(6,
                                           {.pull = pull * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm});
        const double softness = bend(make_beam(n), six).nut_rise() / mm / pull;
        CHECK(softness > last);
        last = softness;
    }
}

TEST_CASE("where a neck starts to buckle its bow carries itself: a rise of the nut makes one as large") {
    auto soft = demo::plain_neck();
    soft.board_modulus = 1.5 * GPa;
    soft.back_modulus = 1 * GPa;
    const auto beam = make_beam(soft);
    const auto pulled = [&](double times) {
        auto s = demo::strings();
        for (auto& one : s) { one.pull = one.pull * times; }
        return bend(beam, s);
    };
    double stands = 0, buckles = 40;
    for (int i = 0; i < 40; ++i) {
        const double times = (stands + buckles) / 2;
        try {
            (void)pulled(times);
            stands = times;
        } catch (const invalid_input&) { buckles = times; }
    }
    REQUIRE(stands > 0.1);
    REQUIRE(buckles < 39);
    CHECK(pulled(0).rise_per_rise == 0);
    CHECK(near::relative(pulled(0.001 * stands).rise_per_rise, 2 * pulled(0.0005 * stands).rise_per_rise, 1e-3));
    CHECK(near::within(pulled(stands).rise_per_rise, 1, 1e-6));
}

TEST_CASE("strings taken together and made heavier are heavier strings taken together") {
    auto strings = demo::strings();
    strings[1].x_nut = 3 * mm;
    auto load = kernel::gather<double>(strings);
    load.scale(1.7);
    for (auto& s : strings) { s.pull = 1.7 * s.pull; }
    const auto heavier = kernel::gather<double>(strings);
    CHECK(near::relative(load.pull, heavier.pull, 1e-13));
    CHECK(near::relative(load.at_zero, heavier.at_zero, 1e-13));
    CHECK(near::relative(load.per_x, heavier.per_x, 1e-13));
    CHECK(near::relative(load.nut_share, heavier.nut_share, 1e-13));
    CHECK(near::relative(load.nut_share_per_x, heavier.nut_share_per_x, 1e-13));
    // Moments about z = 0 by the strings' own lines: at the nut, and halfway.
    const auto by_hand = [&](const length<>& x) {
        moment<> sum{};
        for (const auto& s : strings) {
            sum += s.pull * (s.z_nut + (s.z_saddle - s.z_nut) * ((x - s.x_nut) / (s.x_saddle - s.x_nut)));
        }
        return sum;
    };
    for (const auto& x : {0.0 * mm, 150.0 * mm}) {
        CHECK(near::relative(moment<>(heavier.at_zero + heavier.per_x * x), by_hand(x), 1e-12));
    }
}

TEST_CASE("one string, a hundred strings, a nut that was moved") {
    const auto beam = make_beam(demo::plain_neck());
    const string_pull one{.pull = 660 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm};
    auto small = one;
    small.pull = 6.6 * N;
    CHECK(near::relative(bend(beam, std::vector{one}).nut_rise(), bend(beam, std::vector(100, small)).nut_rise(), 1e-12));
    // The same line in space from a nut further on: only how it follows the neck differs.
    auto moved = one;
    moved.x_nut = 10 * mm;
    moved.z_nut = 2 * mm + 10 * mm * (10.0 / 629);
    CHECK(near::relative(bend(beam, std::vector{moved}).nut_rise(), bend(beam, std::vector{one}).nut_rise(), 0.01));
    CHECK(bend(beam, std::vector{moved}).nut_rise() != bend(beam, std::vector{one}).nut_rise());
}

TEST_CASE("bad input is named") {
    const auto beam = make_beam(demo::plain_neck());
    auto pulls = demo::strings();
    pulls[2].pull = -1 * N;
    CHECK_THROWS_WITH((void)bend(beam, pulls), "strings[2].pull is -1 N; it must be at least 0 N and at most 5000 N.");
    pulls = demo::strings();
    pulls[0].x_saddle = -10 * mm;
    CHECK_THROWS_AS((void)bend(beam, pulls), invalid_input);
    pulls[0].x_saddle = std::nan("") * mm;
    CHECK_THROWS_AS((void)bend(beam, pulls), invalid_input);
    CHECK_THROWS_AS((void)bend(neck_beam{}, demo::strings()), invalid_input);
    CHECK_THROWS_AS((void)deflection_at(bow{}, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)deflection_at(bend(beam, {}), std::nan("") * mm), invalid_input);
}
