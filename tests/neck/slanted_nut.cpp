// Strings whose ends rise each as the neck does under it: three integrations and two unknown numbers.

#include <cmath>
#include <vector>

#include <tautline/neck/bending.hpp>
#include <tautline/neck/second_order.hpp>
#include <tautline/neck/wanted.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Strings whose nut ends stand along x as a fan has them: before the beam's end, at it and up to 25 mm beyond.
std::vector<string_pull> fanned_pulls(double lean = 1) {
    std::vector<string_pull> pulls;
    for (int i = 0; i < 5; ++i) {
        pulls.push_back({.pull = (60 + 15 * i) * N,
                         .z_nut = (1.5 + 0.1 * i) * mm,
                         .z_saddle = (11 + 0.7 * i) * mm,
                         .x_nut = lean * (-9 + 8.5 * i) * mm,
                         .x_saddle = (640 + lean * 12 * i) * mm});
    }
    return pulls;
}

/// The bow by going round: moments of the strings' lines as they lie, integrated twice, lines moved along, until nothing
/// moves. It shares the beam's points with the solver and nothing else.
struct round_and_round {
    std::vector<double> w, slope; // at the steps' ends, slope toward the saddle

    round_and_round(const neck_beam& beam, const std::vector<string_pull>& pulls, double rod_pull) {
        const std::size_t n = beam.steps.size();
        w.assign(n + 1, 0);
        slope.assign(n + 1, 0);
        for (int turn = 0; turn < 80; ++turn) {
            const auto before = *this;
            const auto set_at = [&](double x) { return kernel::permanent_bow_at<double>(beam.set, x * metre) / metre; };
            const auto curved = [&](const beam_step& in, const beam_point& p, double x, double rise) {
                double m = 0;
                for (const auto& s : pulls) {
                    if (s.own_nut && in.x + 0.5 * in.span < s.x_nut) { continue; }
                    const double xn = s.x_nut / metre, xs = s.x_saddle / metre;
                    const double zn = s.z_nut / metre + set_at(xn) + before.at(beam, xn), zs = s.z_saddle / metre;
                    const double line = zn + (zs - zn) * (x - xn) / (xs - xn);
                    m += s.pull / N * (line - p.neutral_axis / metre - set_at(x) - rise);
                }
                return std::pair(m, p);
            };
            const auto bent = [&](const beam_step& s, std::size_t place, double x) {
                const auto [m, p] = curved(s, beam.at(s, place), x, before.at(beam, x));
                const double rod = s.rod_acts ? rod_pull * (p.neutral_axis - p.rod_height).value() : 0;
                return (m - rod) * p.bending_compliance.value() + p.free_curvature.value();
            };
            double rise = 0, fall = 0;
            if (beam.joint_stiffness) {
                const auto [m, p] = curved(beam.steps.back(), beam.at(beam.steps.back(), 2), beam.joint / metre, 0);
                const double rod = beam.steps.back().rod_acts ? rod_pull * (p.neutral_axis - p.rod_height).value() : 0;
                fall = (m - rod) / beam.joint_stiffness->value();
            }
            slope[n] = -fall;
            for (std::size_t i = n; i-- > 0;) {
                const auto& s = beam.steps[i];
                const double x = s.x / metre, h = s.span / metre;
                const double near = bent(s, 0, x), middle = bent(s, 1, x + h / 2), far = bent(s, 2, x + h);
                rise += h * fall + h * h * (far + 2 * middle) / 6;
                fall += h * (far + 4 * middle + near) / 6;
                w[i] = rise;
                slope[i] = -fall;
            }
        }
    }
    [[nodiscard]] double at(const neck_beam& beam, double x) const {
        if (x < 0) { return w[0] + x * slope[0]; }
        for (std::size_t i = 0; i < beam.steps.size(); ++i) {
            const double from = beam.steps[i].x / metre, h = beam.steps[i].span / metre;
            if (x > from + h || h == 0) { continue; }
            const double u = (x - from) / h, v = 1 - u;
            return w[i] * v * v * (1 + 2 * u) + h * slope[i] * u * v * v + w[i + 1] * u * u * (3 - 2 * u) -
                   h * slope[i + 1] * u * u * v;
        }
        return 0;
    }
};

/// Necks of every make: plain, with a set, a rod held or free, a joint that yields, all of it.
std::vector<neck> necks_of_every_make() {
    std::vector<neck> list{demo::plain_neck(), demo::neck_with_rod(), demo::neck_with_rod(), demo::everything()};
    list[0].set = {{.x = 0 * mm, .z = 0.3 * mm}, {.x = 120 * mm, .z = -0.1 * mm}, {.x = 250 * mm, .z = 0 * mm}};
    list[0].joint_stiffness = 9000 * N_m_per_rad;
    list[2].rod->free_in_channel = true;
    return list;
}

} // namespace

TEST_SUITE("slanted nut") {
    TEST_CASE("forced on ends that all stand at the nut, three integrations give what two do") {
        for (const neck& n : necks_of_every_make()) {
            const auto beam = make_beam(n);
            const auto pull = n.rod ? 700 * N : 0 * N;
            auto pulls = fanned_pulls(0);
            const auto two = bend(beam, pulls, pull), three = bend(beam, pulls, pull, nut_kind::slanted);
            for (std::size_t i = 0; i < two.w.size(); ++i) {
                CHECK(std::abs((three.w[i] - two.w[i]).value()) <= 1e-12 * std::abs(two.nut_rise().value()));
                CHECK(std::abs(three.slope[i] - two.slope[i]) <= 1e-12 * std::abs(two.slope[0]));
            }
            CHECK(near::within(three.rise_per_rise, two.rise_per_rise, 1e-12));
            // Moments along it, with the lines' rise.
            const auto m2 = bending_along(beam, pulls, pull), m3 = bending_along(beam, pulls, pull, nut_kind::slanted);
            REQUIRE(m2.size() == m3.size());
            for (std::size_t i = 0; i < m2.size(); ++i) {
                CHECK(std::abs((m3[i].moment - m2[i].moment).value()) <= 1e-11 * std::abs(m2[0].moment.value()));
            }
            CHECK(near::relative(second_order_growth(beam, pulls, pull, nut_kind::slanted),
                                 second_order_growth(beam, pulls, pull), 1e-11));
        }
    }
    TEST_CASE("the bow is the one that goes round and round until lines and neck agree") {
        for (const neck& n : necks_of_every_make()) {
            if (n.rod && n.rod->free_in_channel) { continue; }
            const auto beam = make_beam(n, 513);
            const double rod = n.rod ? 700 : 0;
            const auto pulls = fanned_pulls();
            const auto once = bend(beam, pulls, rod * N, nut_kind::slanted);
            const round_and_round slow(beam, pulls, rod);
            const double creep = n.creep_factor, rise = std::abs(slow.w[0]) * creep;
            for (std::size_t i = 0; i < once.w.size(); ++i) {
                CHECK(std::abs(once.w[i] / metre - slow.w[i] * creep) < 1e-7 * rise);
            }
            // It is not what ends that all ride on the neck's end would give.
            CHECK(std::abs((bend(beam, pulls, rod * N).nut_rise() - once.nut_rise()) / metre) > 1e-4 * rise);
        }
    }
    TEST_CASE("a string from a nut of its own on the neck bends it from there on") {
        for (const neck& n : necks_of_every_make()) {
            if (n.rod && n.rod->free_in_channel) { continue; }
            const auto beam = make_beam(n, 513);
            const double rod = n.rod ? 700 : 0;
            // Two of them, each at the end of a step; the others from the end of the neck.
            auto pulls = fanned_pulls(0);
            const std::size_t at[] = {beam.steps.size() / 4, beam.steps.size() / 3};
            for (std::size_t k = 0; k < 2; ++k) {
                pulls[k].own_nut = true;
                pulls[k].x_nut = beam.steps[at[k]].x;
            }
            const auto once = bend(beam, pulls, rod * N, nut_kind::slanted);
            const round_and_round slow(beam, pulls, rod);
            const double creep = n.creep_factor, rise = std::abs(slow.w[0]) * creep;
            for (std::size_t i = 0; i < once.w.size(); ++i) {
                CHECK(std::abs(once.w[i] / metre - slow.w[i] * creep) < 1e-7 * rise);
            }
            // Not what strings over the whole neck would do.
            auto whole = pulls;
            for (auto& s : whole) { s.own_nut = false; }
            CHECK(std::abs((bend(beam, whole, rod * N, nut_kind::slanted).nut_rise() - once.nut_rise()) / metre) >
                  0.01 * rise);
            // The moment jumps by the pull times its lever at each of the two nuts, and by nothing elsewhere.
            const auto along = bending_along(beam, pulls, rod * N, nut_kind::slanted);
            for (std::size_t k = 0; k < 2; ++k) {
                double before = 0, behind = 0;
                for (const auto& b : along) {
                    const double x = b.x / metre, there = pulls[k].x_nut / metre;
                    if (x < there) { before = b.moment / N_m; }
                    if (x > there && behind == 0) { behind = b.moment / N_m; }
                }
                const double lever = (pulls[k].z_nut - beam.at(beam.steps[at[k]], 0).neutral_axis) / metre;
                CHECK(near::within(behind - before, pulls[k].pull / N * lever, 0.1 * std::abs(pulls[k].pull / N * lever)));
            }
        }
    }
    TEST_CASE("a free rod closes its own loop as well") {
        neck n = demo::neck_with_rod();
        n.rod->free_in_channel = true;
        const auto beam = make_beam(n);
        const auto pulls = fanned_pulls();
        const auto b = bend(beam, pulls, 700 * N, nut_kind::slanted);
        // Curvature times EI is the moment at each place; both are told by functions of their own.
        const auto along = bending_along(beam, pulls, 700 * N, nut_kind::slanted);
        for (const double at : {61.0, 133.0, 251.0}) {
            const auto x = at * mm, h = 2 * mm;
            const auto w = [&](length<> place) { return deflection_at(b, place); };
            const double curved = ((w(x + h) - 2.0 * w(x) + w(x - h)) / (h * h)).value();
            for (std::size_t i = 1; i < along.size(); ++i) {
                if (!(along[i - 1].x <= x && x < along[i].x)) { continue; }
                const double u = (x - along[i - 1].x) / (along[i].x - along[i - 1].x);
                CHECK(near::relative(curved, along[i - 1].curvature.value() * (1 - u) + along[i].curvature.value() * u,
                                     2e-3));
            }
        }
        // A rod that does not pull is not felt, free or not.
        n.rod->free_in_channel = false;
        CHECK(near::relative(bend(beam, pulls, 0 * N, nut_kind::slanted).nut_rise(),
                             bend(make_beam(n), pulls, 0 * N, nut_kind::slanted).nut_rise(), 1e-12));
    }
    TEST_CASE("a micrometre of slant moves the bow by its slope times a micrometre, and no jump") {
        const auto beam = make_beam(demo::plain_neck());
        const auto straight = bend(beam, fanned_pulls(0), 0 * N);
        const auto rise = [&](double lean) { return bend(beam, fanned_pulls(lean), 0 * N, nut_kind::slanted).nut_rise(); };
        const double slope = (rise(1e-3) - rise(-1e-3)) / mm / 2e-3, least = 1e-3 / 34; // 1 um at the farthest end
        CHECK(
            near::within((rise(least) - straight.nut_rise()) / mm, slope * least, 1e-5 * std::abs(slope) * least + 1e-14));
    }
    TEST_CASE("buckling begins at one load for both ways, and near it for a fan") {
        const auto beam = make_beam(demo::plain_neck());
        const auto share = [&](const std::vector<string_pull>& pulls, nut_kind nut) {
            auto heavy = kernel::problem_of<double>(beam, pulls, 0 * N, nut);
            heavy.scale_strings(200);
            return 200 * kernel::buckling_share(heavy);
        };
        const auto square = fanned_pulls(0);
        const double at = share(square, nut_kind::square);
        REQUIRE(at < 200);
        CHECK(near::relative(share(square, nut_kind::slanted), at, 1e-10));
        CHECK(near::relative(share(fanned_pulls(), nut_kind::slanted), at, 0.2));
        auto heavy = fanned_pulls();
        for (int i = 0; i < 6; ++i) { heavy.insert(heavy.end(), heavy.begin(), heavy.begin() + 5); }
        for (auto& s : heavy) { s.pull = 4000 * N; }
        CHECK_THROWS_AS((void)bend(beam, heavy, 0 * N, nut_kind::slanted), invalid_input);
    }
    TEST_CASE("a wanted relief is met with the strings as they lie") {
        const auto n = demo::neck_with_rod();
        const auto beam = make_beam(n);
        relief_case c{.strings = fanned_pulls(), .nut = nut_kind::slanted};
        for (int k = 1; k <= 14; ++k) { c.crests.push_back({600 * (1 - std::exp2(-k / 12.0)) * mm, 1 * mm}); }
        c.last = 11;
        const auto answer = rod_pull_for_relief(beam, c, 0.12 * mm, 3000 * N);
        REQUIRE(answer.reachable());
        const auto bowed = bend(beam, c.strings, answer.pull, nut_kind::slanted);
        CHECK(near::within(relief_between(loaded_crests(bowed, c.crests), 0, 11).gap, 0.12 * mm, 1e-7 * mm));
        const auto lim = heaviest_strings(beam, c, 0.2 * mm, answer.pull);
        REQUIRE(lim.has_value());
        auto heavier = c;
        for (auto& s : heavier.strings) { s.pull = s.pull * lim->share; }
        CHECK(near::within(relief_under(beam, heavier, answer.pull).gap, 0.2 * mm, 1e-7 * mm));
    }
    TEST_CASE("derivatives and lanes are those of plain numbers") {
        using D = dual<double, 1>;
        auto n = demo::neck_with_rod();
        n.rod->free_in_channel = true;
        const auto beam = make_beam(n);
        auto pulls = fanned_pulls();
        std::vector<basic_string_pull<D>> seeded;
        for (const auto& s : pulls) { seeded.push_back(over<D>(s)); }
        seeded[3].x_nut = length<D>::from_value(D::variable(pulls[3].x_nut.value(), 0));
        const auto d = bend(over<D>(beam), seeded, over<D>(600 * N), nut_kind::slanted).nut_rise().value().partial[0];
        const auto moved = [&](double by) {
            auto other = pulls;
            other[3].x_nut = other[3].x_nut + by * mm;
            return bend(beam, other, 600 * N, nut_kind::slanted).nut_rise() / mm;
        };
        CHECK(near::relative(d, (moved(1e-3) - moved(-1e-3)) / 2e-3, 1e-5));
        CHECK(near::relative(
            double(bend(over<float>(beam),
                        std::vector<basic_string_pull<float>>{over<float>(pulls[0]), over<float>(pulls[4])},
                        over<float>(600 * N), nut_kind::slanted)
                       .nut_rise()
                       .value()),
            bend(beam, std::vector<string_pull>{pulls[0], pulls[4]}, 600 * N, nut_kind::slanted).nut_rise().value(), 1e-3));
    }
}
