// A whole solve over several kinds of number; packs, and the widest kinds, have tests of their own.
#include "number_types.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a whole solve in float and long double says what double says") {
    const auto want = number_types::in_double();
    CHECK(number_types::worst<float>(want, 1e-2) < 1e-2); // intonation in cents is a difference of lengths
    CHECK(number_types::worst<long double>(want, 1e-4) < 1e-9);
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
