#include <tautline/strings/music_string.hpp>
#include <tautline/strings/wound_string.hpp>

#include <tautline/strings/wire_materials.hpp>

#include <numbers>
#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

string_core core_of(wire_material m, core_section section, double d) {
    return {.material = m, .section = section, .diameter = d * mm};
}
linear_density<double> wrap_mass(const music_string& s) {
    music_string bare = s;
    bare.layers.clear();
    return mass_per_length(s) - mass_per_length(bare);
}
std::vector<std::string> sentences(const music_string& s) {
    std::vector<std::string> all;
    for (const auto& p : validate(s, "string")) { all.push_back(p.sentence()); }
    return all;
}

} // namespace

namespace {

/// Whether a call can be made in a constant expression.
template <class F, int = (F{}(), 0)>
constexpr bool is_constant(F) {
    return true;
}
constexpr bool is_constant(...) { return false; }

/// A wrapped string with one part of it changed.
template <class Change>
constexpr music_string wrapped_but(Change change) {
    music_string s = plain_string(music_wire(), 16 * thou);
    s.layers.push_back({.material = phosphor_bronze(), .thickness = 10 * thou});
    change(s);
    return s;
}

} // namespace

TEST_CASE("string: what is wrong at run time does not compile in a constant expression") {
    static_assert(is_constant([] { return mass_per_length(wrapped_but([](auto&) {})); }));
    static_assert(!is_constant([] { return gauge(wrapped_but([](auto& s) { s.core.diameter = 50 * mm; })); }));
    static_assert(!is_constant([] { return mass_per_length(wrapped_but([](auto& s) { s.weighed = -1 * g_per_m; })); }));
    static_assert(
        !is_constant([] { return axial_stiffness(wrapped_but([](auto& s) { s.core.material.modulus = -1000 * MPa; })); }));
    static_assert(!is_constant(
        [] { return core_area(wrapped_but([](auto& s) { s.core.material.mass_density = 1e6 * kg_per_m3; })); }));
    static_assert(
        !is_constant([] { return mass_per_length(wrapped_but([](auto& s) { s.layers[0].thickness = -0.1 * mm; })); }));
    // A rule between two members: turns cannot lie inside each other.
    static_assert(!is_constant([] { return mass_per_length(wrapped_but([](auto& s) { s.layers[0].pitch = 9 * thou; })); }));
    static_assert(
        !is_constant([] { return mass_per_length(wrapped_but([](auto& s) { s.layers[0].ground = 11 * thou; })); }));
    static_assert(is_constant([] {
        return wound_string(
            {.gauge = 46 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    }));
    static_assert(!is_constant([] {
        return wound_string(
            {.gauge = 46 * thou, .core = 46 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    }));
}

TEST_CASE("string: a plain one is a rod") {
    constexpr auto s = plain_string(music_wire(), 13 * thou);
    CHECK(gauge(s) == 13 * thou);
    const double d = 13 * 25.4e-6;
    CHECK(near::relative(mass_per_length(s), 7850 * std::numbers::pi / 4 * d * d * kg_per_m, 1e-13));
    CHECK(near::relative(axial_stiffness(s), 203.4e9 * std::numbers::pi / 4 * d * d * N, 1e-13));
    CHECK(near::relative(core_bending_stiffness(s), 203.4e9 * std::numbers::pi / 64 * d * d * d * d * N_m2, 1e-13));
    static_assert(mass_per_length(s) > 0.67 * g_per_m && mass_per_length(s) < 0.68 * g_per_m);
}

TEST_CASE("string: a close wound layer on a round core fills pi/4 of its annulus (geometry)") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> size(0.1, 1.5);
    for (int i = 0; i < 200; ++i) {
        const double d = size(random), w = size(random);
        const auto s = wound_string(
            {.gauge = (d + 2 * w) * mm, .core = d * mm, .core_material = music_wire(), .wrap_material = nickel()});
        const double annulus = std::numbers::pi / 4 * ((d + 2 * w) * (d + 2 * w) - d * d) * 1e-6;
        CHECK(near::relative(wrap_mass(s), std::numbers::pi / 4 * annulus * 8880 * kg_per_m, 1e-10));
        CHECK(near::relative(gauge(s), (d + 2 * w) * mm, 1e-14));
    }
    constexpr auto at_compile_time = wound_string(
        {.gauge = 52 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    static_assert(mass_per_length(at_compile_time) > 8 * g_per_m && gauge(at_compile_time) > 51.9 * thou);
}

TEST_CASE("string: property, every layer adds mass and thickness; wraps leave the core's stiffness alone") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> core(0.2, 1.0), t(0.03, 0.5);
    for (int i = 0; i < 200; ++i) {
        music_string s{.core = core_of(music_wire(), i % 2 ? core_section::hexagonal : core_section::round, core(random))};
        const auto ea = axial_stiffness(s);
        auto mass = mass_per_length(s);
        auto outside = gauge(s);
        for (int layer = 0; layer < 6; ++layer) {
            wrap w{.material = nickel(), .form = static_cast<layer_form>((i + layer) % 3), .thickness = t(random) * mm};
            if (w.form == layer_form::ribbon) { w.ribbon_width = length<double>(gauge(s) * 0.5); }
            if (w.form == layer_form::sleeve) { w.fill = 0.4; }
            if (w.form == layer_form::round_wire && i % 3 == 0) { w.ground = length<double>(w.thickness * 0.1); }
            s.layers.push_back(w);
            CHECK(mass_per_length(s) > mass);
            CHECK(gauge(s) > outside);
            mass = mass_per_length(s);
            outside = gauge(s);
        }
        CHECK(axial_stiffness(s) == ea);
    }
}

TEST_CASE("string: once around its core") {
    const music_string s{.core = core_of(music_wire(), core_section::round, 0.5)};
    CHECK(near::relative(core_perimeter(s), std::numbers::pi * 0.5 * mm, 1e-14));
    // A hexagon has six sides of its corner radius each: 1 mm over the corners, 3 mm around.
    const music_string hexagonal{.core = core_of(music_wire(), core_section::hexagonal, std::sqrt(0.75))};
    CHECK(near::relative(core_perimeter(hexagonal), 3 * mm, 1e-14));
}

TEST_CASE("string: limits that open winding, ribbons and grinding must reach") {
    music_string s{.core = core_of(music_wire(), core_section::round, 0.5)};
    s.layers.push_back({.material = nickel(), .thickness = 0.3 * mm});
    const auto close = wrap_mass(s);
    // At the touching pitch an open winding is the close one; opening it loses mass, down to a straight wire alongside.
    const double around = std::numbers::pi * 0.8, touching = 0.3 / std::sqrt(1 - std::pow(0.3 / around, 2));
    s.layers[0].pitch = touching * mm;
    CHECK(near::relative(wrap_mass(s), close, 1e-12));
    auto before = close;
    for (const double pitch : {0.4, 0.8, 2.0, 10.0, 50.0}) {
        s.layers[0].pitch = pitch * mm;
        CHECK(wrap_mass(s) < before);
        before = wrap_mass(s);
    }
    s.layers[0].pitch = 100 * mm;
    CHECK(near::relative(wrap_mass(s), 8880 * std::numbers::pi / 4 * 0.09e-6 * kg_per_m, 5e-4));
    // A square ribbon holds 4/pi of round wire of its size; a close wound ribbon fills its annulus.
    s.layers[0] = {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.3 * mm, .ribbon_width = 0.3 * mm};
    CHECK(near::relative(wrap_mass(s), close * (4 / std::numbers::pi), 1e-12));
    const double annulus = std::numbers::pi / 4 * (1.1 * 1.1 - 0.25);
    CHECK(near::relative(wrap_mass(s), 8880 * annulus * 1e-6 * kg_per_m, 1e-12));
    // A sleeve is that annulus too, as full as it is said to be.
    s.layers[0] = {.material = nickel(), .form = layer_form::sleeve, .thickness = 0.3 * mm};
    CHECK(near::relative(wrap_mass(s), 8880 * annulus * 1e-6 * kg_per_m, 1e-12));
    s.layers[0].fill = 0.25;
    CHECK(near::relative(wrap_mass(s), 0.25 * 8880 * annulus * 1e-6 * kg_per_m, 1e-12));
    // Grinding next to nothing off changes next to nothing; half the wire leaves about half.
    s.layers[0] = {.material = nickel(), .thickness = 0.3 * mm, .ground = 1e-6 * mm};
    CHECK(near::relative(wrap_mass(s), close, 1e-6));
    s.layers[0].ground = 0.15 * mm;
    CHECK(wrap_mass(s) < 0.5 * close); // the outer half is the longer one
    CHECK(wrap_mass(s) > 0.4 * close);
    CHECK(near::relative(gauge(s), 0.8 * mm, 1e-12));
}

TEST_CASE("string: mass goes with the square of its measures, whatever the construction") {
    const auto build = [](double k) {
        music_string s{.core = core_of(music_wire(), core_section::hexagonal, 0.4 * k)};
        s.layers.push_back({.material = silk(), .form = layer_form::sleeve, .thickness = 0.02 * k * mm, .fill = 0.5});
        s.layers.push_back({.material = phosphor_bronze(), .thickness = 0.2 * k * mm, .pitch = 0.25 * k * mm});
        s.layers.push_back({.material = nickel(), .thickness = 0.3 * k * mm, .ground = 0.04 * k * mm});
        s.layers.push_back(
            {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.1 * k * mm, .ribbon_width = 0.5 * k * mm});
        return mass_per_length(s);
    };
    CHECK(near::relative(build(2), 4 * build(1), 1e-12));
    CHECK(near::relative(build(0.5), 0.25 * build(1), 1e-12));
}

TEST_CASE("string: a wound string is ordered by gauge and core, as it is sold") {
    const auto s = wound_string(
        {.gauge = 46 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    CHECK(near::relative(gauge(s), 46 * thou, 1e-14));
    CHECK(length<double>(s.core.diameter) == 18 * thou);
    CHECK(near::relative(length<double>(s.layers[0].thickness), 14 * thou, 1e-14));
    CHECK(s.core.material.name == music_wire().name);
    CHECK(s.layers[0].material.name == phosphor_bronze().name);
    // Over the corners of a hexagonal core.
    const wound_order hexagonal{.gauge = 1 * mm,
                                .core = 0.45 * mm,
                                .section = core_section::hexagonal,
                                .core_material = music_wire(),
                                .wrap_material = nickel()};
    CHECK(near::relative(gauge(wound_string(hexagonal)), 1 * mm, 1e-14));
    CHECK(gauge(wound_string(over<float>(hexagonal))).value() == doctest::Approx(1e-3));
}

TEST_CASE("string: a wound string whose core is no core is told") {
    const auto told = [](const wound_order& order) {
        try {
            (void)wound_string(order);
            return std::string("built");
        } catch (const invalid_input& e) { return std::string(e.what()); }
    };
    wound_order order{
        .gauge = 18 * thou, .core = 46 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()};
    CHECK(told(order) == "core must be narrower than the gauge of 0.4572 mm, which is over core and wrap together.");
    order.gauge = order.core;
    CHECK(told(order) == "core must be narrower than the gauge of 1.1684 mm, which is over core and wrap together.");
    order.gauge = 47 * thou;
    CHECK(told(order) == "built");
    order.section = core_section::hexagonal; // over its corners it is wider than across its flats
    CHECK(told(order) == "core must be narrower than the gauge of 1.1938 mm, which is over core and wrap together.");
    order.gauge = 46 * thou;
    order.core = 18 * thou;
    order.section = core_section::round;
    order.wrap_material = wire_material();
    CHECK(told(order).find("wrap_material.mass_density") < 3);
    order.gauge = wound_order().gauge;
    CHECK(told(order).starts_with("gauge is not given, or not a number;"));
}

TEST_CASE("string: the weighed mass overrules the computed one") {
    auto s = wound_string(
        {.gauge = 52 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    s.weighed = 7.9 * g_per_m;
    CHECK(mass_per_length(s) == 7.9 * g_per_m);
    CHECK(gauge(s) ==
          gauge(wound_string(
              {.gauge = 52 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()})));
}

TEST_CASE("string: derivative of mass by wrap diameter, in duals, against a difference; other number types") {
    using D = dual<double, 1>;
    const auto mass = [](auto w) {
        using R = decltype(w);
        basic_music_string<R> s{.core = over<R>(core_of(music_wire(), core_section::hexagonal, 0.4))};
        s.layers.push_back({.material = over<R>(nickel()), .thickness = w * mm, .ground = number<R>(0.05L) * mm});
        return mass_per_length(s).value();
    };
    const double h = 1e-5;
    CHECK(near::relative(mass(D::variable(0.3, 0)).partial[0], (mass(0.3 + h) - mass(0.3 - h)) / (2 * h), 1e-7));
    CHECK(near::relative(static_cast<double>(mass(0.3f)), mass(0.3), 2e-6));
    CHECK(near::relative(static_cast<double>(mass(0.3L)), mass(0.3), 1e-13));
    using DD = dual<D, 1>;
    CHECK(near::relative(value_of(mass(DD(0.3))), mass(0.3), 1e-14));
}

TEST_CASE("string: what cannot be built is told, all of it") {
    auto s = wound_string(
        {.gauge = 38 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
    s.layers[0].ground = 11 * thou; // thinner than its ground depth
    s.layers.push_back({.material = nickel(), .form = layer_form::ribbon, .thickness = 5 * thou});
    s.layers.push_back(
        {.material = silk(), .form = layer_form::sleeve, .thickness = 5 * thou, .pitch = 1 * mm, .ground = 1 * thou});
    CHECK(sentences(s) ==
          std::vector<std::string>{"string.layers[0].ground must be less than the diameter of the wrap wire.",
                                   "string.layers[1].ribbon_width must be more than 0 mm for a ribbon.",
                                   "string.layers[2].ground must be absent except for round wire.",
                                   "string.layers[2].pitch must be absent for a sleeve."});
    CHECK_THROWS_AS((void)mass_per_length(s), invalid_input);
    CHECK_THROWS_AS((void)gauge(s), invalid_input);
    CHECK_THROWS_AS((void)plain_string(music_wire(), 0.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)plain_string(music_wire(), -1.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)plain_string(music_wire(), INFINITY * mm), invalid_input);
    CHECK_THROWS_AS(
        (void)wound_string(
            {.gauge = std::nan("") * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()}),
        invalid_input);

    auto tight =
        wound_string({.gauge = 1.1 * mm, .core = 0.5 * mm, .core_material = music_wire(), .wrap_material = nickel()});
    tight.layers[0].pitch = 0.25 * mm;
    REQUIRE(sentences(tight).size() == 1);
    CHECK(sentences(tight)[0] == "string.layers[0].pitch must be at least 0.30216 mm, where the turns touch.");
    tight.layers[0] = {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.1 * mm, .ribbon_width = 3 * mm};
    CHECK(sentences(tight) ==
          std::vector<std::string>{"string.layers[0].ribbon_width must be less than once around the string."});
    CHECK(validate(music_string()).size() == 3); // density, modulus and diameter of the core
    auto crowded =
        wound_string({.gauge = 1.1 * mm, .core = 0.5 * mm, .core_material = music_wire(), .wrap_material = nickel()});
    for (int i = 0; i < 5; ++i) { crowded.layers.push_back(crowded.layers[0]); }
    CHECK_THROWS_AS(crowded.layers.push_back(crowded.layers[0]), std::length_error);
}
