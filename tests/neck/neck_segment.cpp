#include <tautline/neck/neck_segment.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
// Sums at one place by the formulas for each piece, none of them interpolated but the station's measures.
std::array<double, kernel::section_sum_count> by_pieces(const neck& n, double u) {
    const auto s = kernel::station_between<double>(n.stations[0], n.stations[1], u);
    const auto a = kernel::back_shape(n.stations[0]), b = kernel::back_shape(n.stations[1]);
    const back_shape shape{a.area + (b.area - a.area) * u, a.first + (b.first - a.first) * u,
                           a.second + (b.second - a.second) * u};
    const tautline::stress<> modulus = n.board_modulus * n.pure_bending_factor;
    const tautline::stress<> back_modulus = n.back_modulus * n.pure_bending_factor;
    const auto board = board_sums(modulus, s.half_width, s.board_thickness, s.board_arc);
    const tautline::length<> glue_line = -s.board_thickness;
    const auto whole = board + back_sums<double>(back_modulus, s.half_width, s.back_depth, glue_line, shape);
    const tautline::length<> half_width = s.half_width, depth = n.slots->tang_depth;
    const tautline::curvature<> arc = s.board_arc;
    const auto tangs = kernel::board_sums<double>(modulus, half_width, depth, arc, true);
    return {whole.ea.value(), whole.es.value(), whole.ej.value(), board.ea.value(),
            board.es.value(), tangs.ea.value(), tangs.es.value(), tangs.ej.value()};
}
neck slotted(double arc_at_nut, double arc_at_joint) {
    neck n = demo::plain_neck();
    n.stations.resize(2);
    n.stations[0].board_arc = arc_at_nut * per_metre;
    n.stations[1].board_arc = arc_at_joint * per_metre;
    n.stations[1].back_exponent = 3;
    n.slots = fret_slots{.interference = 0.05 * mm, .share = 0.5, .tang_depth = 2 * mm, .places = {30 * mm, 60 * mm}};
    return n;
}
} // namespace

TEST_CASE("sums along a segment are those of its pieces; polynomials keep them at every place") {
    struct {
        double nut, joint, allowed;
    } const boards[] = {{0, 0, 1e-13},
                        {3, 3, 1e-13},
                        {1000 / 184.0, 1000 / 406.0, 1e-9},
                        {1000 / 500.0, 1000 / 250.0, 1e-11},
                        {0, 4, 2e-11}}; // what is left at the best places: 1.8e-11
    for (const auto& board : boards) {
        const neck n = slotted(board.nut, board.joint);
        const kernel::neck_segment<double> segment(n, 0);
        const kernel::segment_polynomials<double> polynomials(segment, kernel::section_sum_count);
        for (int i = 0; i <= 40; ++i) {
            const double u = i / 40.0;
            const auto want = by_pieces(n, u), exact = segment.at(u);
            kernel::sums_at_places<double, 1> quick;
            polynomials.at<1>({u}, quick);
            for (std::size_t sum = 0; sum < want.size(); ++sum) {
                CHECK(near::relative(exact[sum], want[sum], 1e-12));
                // The layer's second moment is taken from that of the whole, some thousand times as large.
                const double of = want[sum == kernel::tangs_ej ? std::size_t{kernel::whole_ej} : sum];
                CHECK(near::within(quick[sum][0], want[sum], board.allowed * std::abs(of)));
            }
        }
    }
}

TEST_CASE("several places side by side are each place alone, and sums that are not wanted stay 0") {
    const neck n = slotted(2, 3);
    const kernel::neck_segment<double> segment(n, 0);
    const kernel::segment_polynomials<double> with(segment, kernel::section_sum_count), without(segment, kernel::tangs_ea);
    const std::array<double, 4> u{0, 0.2, 0.7, 1};
    kernel::sums_at_places<double, 4> together, no_tangs{};
    with.at(u, together);
    without.at(u, no_tangs);
    for (std::size_t k = 0; k < u.size(); ++k) {
        kernel::sums_at_places<double, 1> alone;
        with.at<1>({u[k]}, alone);
        for (std::size_t sum = 0; sum < together.size(); ++sum) {
            CHECK(near::relative(together[sum][k], alone[sum][0], 1e-14));
            const bool of_tangs = sum >= kernel::tangs_ea;
            CHECK(near::relative(no_tangs[sum][k], of_tangs ? 0.0 : alone[sum][0], 1e-14));
        }
    }
}

TEST_CASE("a place's share of the way and the glue line go straight between the stations") {
    const neck n = slotted(0, 0);
    const kernel::neck_segment<double> segment(n, 0);
    const tautline::length<> a = n.stations[0].x, b = n.stations[1].x;
    CHECK(segment.share(a) == 0);
    CHECK(near::relative(segment.share(b), 1.0, 1e-15));
    CHECK(near::within(segment.glue_line(0.5), -0.5 * (n.stations[0].board_thickness + n.stations[1].board_thickness),
                       1e-15 * mm));
}

TEST_CASE("between two stations the board is a cone: its radius goes straight from one to the other") {
    const neck n = slotted(1000 / 184.0, 1000 / 406.0);
    for (const double u : {0.0, 0.25, 0.5, 1.0}) {
        const auto s = kernel::station_between<double>(n.stations[0], n.stations[1], u);
        CHECK(near::relative(1 / (s.board_arc / per_metre), 0.184 + (0.406 - 0.184) * u, 1e-14));
    }
    // Next to a flat station there is no radius to go straight from: the arc does.
    for (const auto& [a, b] : {std::pair{0.0, 4.0}, {4.0, 0.0}, {0.0, 0.0}}) {
        const neck flat = slotted(a, b);
        for (const double u : {0.0, 0.3, 1.0}) {
            const auto s = kernel::station_between<double>(flat.stations[0], flat.stations[1], u);
            CHECK(near::relative(s.board_arc / per_metre, a + (b - a) * u, 1e-14));
        }
    }
}

TEST_CASE("two stations of a cone are many stations of the same cone") {
    for (const double radius_at_joint : {406.0, 120.0}) {
        neck two = demo::neck_with_rod();
        two.stations = {two.stations[0], two.stations[2]};
        two.stations[0].board_arc = 1000 / 184.0 * per_metre;
        two.stations[1].board_arc = 1000 / radius_at_joint * per_metre;
        two.stations[1].back_exponent = two.stations[0].back_exponent;
        neck many = two;
        many.stations.clear();
        for (int i = 0; i <= 24; ++i) {
            auto s = kernel::station_between<double>(two.stations[0], two.stations[1], i / 24.0);
            s.board_arc = 1000 / (184 + (radius_at_joint - 184) * i / 24.0) * per_metre;
            s.back_exponent = two.stations[0].back_exponent;
            many.stations.push_back(s);
        }
        for (int i = 0; i <= 24; ++i) { // at the stations themselves nothing lies between
            const auto x = many.stations[static_cast<std::size_t>(i)].x;
            const auto a = section_at(two, x), b = section_at(many, x);
            CHECK(near::relative(a.bending_rigidity, b.bending_rigidity, 1e-12));
            CHECK(near::relative(a.neutral_axis, b.neutral_axis, 1e-12));
        }
        const auto c = demo::relief_from_first_to_joint();
        const auto a = make_beam(two, 1025), b = make_beam(many, 1025);
        CHECK(near::relative(bend(a, c.strings, 500 * N).nut_rise(), bend(b, c.strings, 500 * N).nut_rise(), 1e-9));
        CHECK(near::relative(relief_under(a, c, 500 * N).gap, relief_under(b, c, 500 * N).gap, 1e-9));
    }
}

TEST_CASE("a cone's derivatives by its radii, also where it is a cylinder") {
    using D = dual<double, 1>;
    const auto rise = [](auto arc) {
        using R = decltype(arc);
        auto n = over<R>(slotted(3, 3));
        n.joint = over<R>(170 * mm);
        n.stations[1].board_arc = curvature<R>::from_value(arc);
        std::vector<basic_string_pull<R>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<R>(s)); }
        return bend<R>(make_beam(n), pulls).nut_rise().value();
    };
    for (const double arc : {2.0, 3.0, 5.0}) {
        CHECK(near::relative(rise(D::variable(arc, 0)).partial[0], (rise(arc + 1e-4) - rise(arc - 1e-4)) / 2e-4, 1e-5));
    }
}
