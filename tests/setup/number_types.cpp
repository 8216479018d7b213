// A whole solve over every kind of number; packs have a test of their own.
#include <cmath>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <tautline/core/leaves.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

instrument everything() {
    auto i = demo::four_course();
    i.feet = bridge_feet{
        .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 0 * mm,
                              .saddle_height = 0 * mm};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm, .free_in_channel = true};
    i.neck.rod_pull = 200 * N;
    return i;
}

/// The largest difference from `want`, each as a share of its size or of 1 (SI).
template <class R>
double worst(const std::vector<double>& want, double floor) {
    const auto s = solve(over<R>(strung_instrument{everything(), demo::unison_pairs()}));
    double most = 0;
    std::size_t i = 0;
    for_each_leaf(s, [&](std::string_view path, const auto& x) {
        const double w = want.at(i++);
        if (path.ends_with(".fret")) { return; } // which fret is nearest may turn on the last digit
        const double error = std::abs(static_cast<double>(value_of(number_of(x))) - w) / (std::abs(w) + floor);
        most = error <= most ? most : error; // not a number counts
    });
    CHECK(i == want.size());
    return most;
}

} // namespace

TEST_CASE("a whole solve in float, long double, duals of duals and fifty digits says what double says") {
    std::vector<double> want;
    const auto s = solve(strung_instrument{everything(), demo::unison_pairs()});
    for_each_leaf(s, [&](std::string_view, const auto& x) { want.push_back(number_of(x)); });
    CHECK(worst<float>(want, 1e-2) < 1e-2); // intonation in cents is a difference of lengths
    CHECK(worst<long double>(want, 1e-4) < 1e-9);
    // A plain solve takes places side by side in rows, whose logarithms round in their own way, and finds setbacks by
    // secants.
    CHECK(worst<dual<dual<double, 1>, 1>>(want, 1e-4) < 1e-10);
    CHECK(worst<boost::multiprecision::cpp_bin_float_50>(want, 1e-4) < 1e-9);
}

TEST_SUITE("solve: number types") {
    TEST_CASE("float and long double agree with double") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        const auto d = demo::leaves_of(solve(strung_instrument{i, strung}));
        const auto f = demo::leaves_of(solve(over<float>(strung_instrument{i, strung})));
        const auto l = demo::leaves_of(solve(over<long double>(strung_instrument{i, strung})));
        REQUIRE(f.size() == d.size());
        REQUIRE(l.size() == d.size());
        for (const auto& leaf : d) {
            // Not a structured binding: clang 14 does not let a lambda, and so no check, see one.
            const std::string& path = leaf.first;
            const double value = leaf.second;
            // Heights are differences of numbers a hundred times larger: absolute 2 um for lengths of millimetres. What
            // comes from pressing a string is a stretch of hundredths of a millimetre in half a metre, of which float
            // carries three digits, some tenth of a cent.
            const auto of = [&](const char* what) { return path.find(what) != std::string::npos; };
            const bool from_stretch = of("notes") || of("setback") || of("straight_saddle") || of("plucks");
            const double allowed = (from_stretch ? 3e-3 : 2e-5) * std::abs(value) + (of(".error") ? 0.1 : 2e-6);
            CHECK_MESSAGE(near::within(f.at(path), value, allowed), path);
            CHECK_MESSAGE(near::within(l.at(path), value, 1e-11 * std::abs(value) + 1e-12), path);
        }
    }
    TEST_CASE("a dual's value is the double's, its derivatives those of central differences") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        using D = dual<double, 1>;
        struct knob {
            const char* path;
            double step;
        };
        // One of every module: string, pitch standard aside; board, frets, neck, nut, headstock, saddle, tailpiece.
        for (const knob& k :
             {knob{"board.scale.scale_length", 1e-6}, knob{"board.surface.radius", 1e-6}, knob{"board.thickness", 1e-7},
              knob{"frets.wire.crown_height", 1e-7}, knob{"neck.back_modulus", 1e5}, knob{"neck.depth_at_nut", 1e-7},
              knob{"nut.slot_heights[2]", 1e-7}, knob{"headstock.pitch", 1e-6}, knob{"saddle.height_bass", 1e-7},
              knob{"saddle.radius", 1e-6}, knob{"tailpiece.hinge_height", 1e-7}}) {
            auto dual_body = over<D>(i);
            auto up = i, down = i;
            int seen = 0;
            for_each_leaf(dual_body, [&](std::string_view path, auto& x) {
                if (path == k.path) {
                    set_number(x, D::variable(number_of(x).value, 0));
                    ++seen;
                }
            });
            REQUIRE(seen == 1);
            const auto shift = [&](instrument& body, double by) {
                for_each_leaf(body, [&](std::string_view path, auto& x) {
                    if (path == k.path) { set_number(x, number_of(x) + by); }
                });
            };
            shift(up, k.step);
            shift(down, -k.step);

            const auto s = solve(basic_strung_instrument<D>{dual_body, over<D>(strung)});
            const auto values = demo::leaves_of(s), plain = demo::leaves_of(solve(strung_instrument{i, strung}));
            REQUIRE(values.size() == plain.size());
            for (const auto& [path, is] : plain) { CHECK(near::within(values.at(path), is, 1e-11 * std::abs(is) + 1e-13)); }
            const auto high = demo::leaves_of(solve(strung_instrument{up, strung})),
                       low = demo::leaves_of(solve(strung_instrument{down, strung}));
            for_each_leaf(s, [&](std::string_view path, const auto& x) {
                const D& v = number_of(x);
                const double difference = (high.at(std::string(path)) - low.at(std::string(path))) / (2 * k.step);
                // Differences lose digits where value/step is large; cents come from a stretch of hundredths of a
                // millimetre in half a metre, multiplied by the string's stiffness over its tension, some 500.
                const bool in_cents =
                    path.find("error") != std::string_view::npos || path.find("dead_band") != std::string_view::npos;
                const double noise = (1e-13 * std::abs(v.value) + (in_cents ? 1e-12 : 0)) / k.step;
                CHECK_MESSAGE(near::within(v.partial[0], difference, 1e-5 * std::abs(difference) + 20 * noise + 1e-6),
                              std::string(k.path) << " -> " << std::string(path));
            });
        }
    }
}
