#include <tautline/strings/stock.hpp>

#include <numbers>
#include <random>

#include "near.hpp"
#include <tautline/strings/tuning.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {
const wound_rule bronze{.core_material = music_wire(), .core_share = 0.36, .wrap_material = phosphor_bronze()};

std::vector<music_string> plain_stock(std::initializer_list<int> thousandths) {
    std::vector<music_string> stock;
    for (const int g : thousandths) { stock.push_back(plain_string(music_wire(), g * thou)); }
    return stock;
}
} // namespace

TEST_CASE("choice: property, the chosen gauge pulls the wanted tension, plain and wound and of any construction") {
    std::mt19937 random(19);
    std::uniform_real_distribution<double> pull(30, 140), scale(400, 800), hertz(80, 350), share(0.25, 0.6);
    auto odd =
        wound_string({.gauge = 1.0 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()});
    odd.core.section = core_section::hexagonal;
    odd.layers[0].ground = 0.05 * mm;
    odd.layers.push_back(
        {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.1 * mm, .ribbon_width = 0.4 * mm});
    for (int i = 0; i < 300; ++i) {
        const auto model =
            i % 3 == 0 ? plain_string(i % 2 ? music_wire() : nylon(), 0.3 * mm)
            : i % 3 == 1
                ? wound_string(
                      wound_rule{.core_material = music_wire(), .core_share = share(random), .wrap_material = nickel()},
                      1 * mm)
                : odd;
        const auto t = pull(random) * N;
        const auto l = scale(random) * mm;
        const auto f = hertz(random) * Hz;
        const auto s = for_tension(model, t, l, f);
        CHECK(near::relative(tension(s, l, f), t, 1e-4)); // exact but where the core falls on a step of the modulus
        CHECK(near::relative(s.core.diameter / gauge(s), length<double>(model.core.diameter) / gauge(model), 1e-12));
    }
    // Away from a step it is exact.
    CHECK(near::relative(
        tension(for_tension(plain_string(music_wire(), 1 * mm), 70 * N, 640 * mm, 330 * Hz), 640 * mm, 330 * Hz), 70 * N,
        1e-13));
}

TEST_CASE("choice: a plain gauge needs a material and nothing else") {
    const auto s = for_tension(music_wire(), 70 * N, 640 * mm, 330 * Hz);
    CHECK(s.layers.empty());
    CHECK(near::relative(tension(s, 640 * mm, 330 * Hz), 70 * N, 1e-12));
    // Where nothing stretches it is the closed form sqrt(T / (pi rho)) / (L f).
    auto rigid = music_wire();
    rigid.grade = wire_grade::fixed;
    rigid.modulus = 1000 * GPa;
    const double closed = std::sqrt(70 / (std::numbers::pi * 7850)) / (0.64 * 330);
    CHECK(near::relative(gauge(for_tension(rigid, 70 * N, 640 * mm, 330 * Hz)), closed * metre, 1e-3));
    CHECK(gauge(for_tension(rigid, 70 * N, 640 * mm, 330 * Hz)) > closed * metre); // what it stretches it lacks in mass
    CHECK(gauge(for_tension(nylon(), 70 * N, 640 * mm, 330 * Hz)) > gauge(s));
    // Its derivative by the tension against a finite difference.
    using D = dual<double, 1>;
    const auto d = for_tension(over<D>(nylon()), force<D>::from_value(D::variable(70, 0)), 640 * mm, 330 * Hz);
    const auto g = [](double t) { return gauge(for_tension(nylon(), t * N, 640 * mm, 330 * Hz)) / metre; };
    CHECK(near::relative(gauge(d).value().partial[0], (g(70.01) - g(69.99)) / 0.02, 1e-6));
}

TEST_CASE("choice: property, a core and a tension give the wrap") {
    std::mt19937 random(23);
    std::uniform_real_distribution<double> core(0.25, 0.6), wrapped(0.1, 0.6), scale(400, 800), hertz(60, 200);
    for (int i = 0; i < 200; ++i) {
        const double d = core(random), w = wrapped(random);
        const auto section = i % 2 ? core_section::hexagonal : core_section::round;
        const string_core inside{.material = music_wire(), .section = section, .diameter = d * mm};
        music_string there{.core = inside};
        there.layers.push_back({.material = nickel(), .thickness = w * mm});
        const auto l = scale(random) * mm;
        const auto f = hertz(random) * Hz;
        const auto found = for_tension(inside, nickel(), tension(there, l, f), l, f);
        REQUIRE(found);
        CHECK(near::relative(length<double>(found->layers[0].thickness), w * mm, 1e-9));
        // Less than the core alone pulls needs no wrap.
        CHECK_FALSE(for_tension(inside, nickel(), tension(music_string{.core = inside}, l, f) * 0.99, l, f));
    }
    const string_core inside{.material = music_wire(), .diameter = 0.4 * mm};
    CHECK_FALSE(for_tension(inside, nickel(), 5000 * N, 100 * mm, 20 * Hz)); // a wrap of more than 10 mm
}

TEST_CASE("choice: more tension, thicker; longer or higher, thinner") {
    const auto g = [](double t, double l, double f) {
        return gauge(for_tension(wound_string(bronze, 1 * mm), t * N, l * mm, f * Hz));
    };
    CHECK(g(90, 640, 110) < g(100, 640, 110));
    CHECK(g(90, 700, 110) < g(90, 640, 110));
    CHECK(g(90, 640, 120) < g(90, 640, 110));
}

TEST_CASE("choice: a wound string by its rule") {
    const auto s = wound_string(bronze, 50 * thou);
    CHECK(near::relative(gauge(s), 50 * thou, 1e-13));
    CHECK(near::relative(length<double>(s.core.diameter), 18 * thou, 1e-13));
    CHECK(near::relative(length<double>(s.layers[0].thickness), 16 * thou, 1e-13));
    wound_rule hexagonal = bronze;
    hexagonal.section = core_section::hexagonal;
    const auto h = wound_string(hexagonal, 50 * thou);
    CHECK(near::relative(gauge(h), 50 * thou, 1e-13));
    CHECK(near::relative(length<double>(h.core.diameter) * (2 / std::sqrt(3.0)), 18 * thou, 1e-13));
    wound_rule wide = bronze;
    wide.core_share = 1.2; // a core wider than the gauge
    try {
        (void)wound_string(wide, 50 * thou);
        FAIL("built");
    } catch (const invalid_input& e) {
        CHECK(std::string(e.what()) == "rule.core_share is 1.2; it must be at least 0.05 and at most 0.95.");
    }
    CHECK_THROWS_AS((void)wound_string(bronze, 0.0 * mm), invalid_input);
}

TEST_CASE("choice: property, a rule with an offset gives the gauge for a tension, or says that there is none") {
    std::mt19937 random(29);
    std::uniform_real_distribution<double> pull(40, 140), scale(500, 750), hertz(60, 200), share(0.2, 0.4), offset(0, 0.15);
    for (int i = 0; i < 100; ++i) {
        wound_rule rule = bronze;
        rule.core_share = share(random);
        rule.core_offset = offset(random) * mm;
        rule.section = i % 2 ? core_section::hexagonal : core_section::round;
        const auto t = pull(random) * N;
        const auto l = scale(random) * mm;
        const auto f = hertz(random) * Hz;
        const auto s = for_tension(rule, t, l, f);
        REQUIRE(s);
        CHECK(near::relative(tension(*s, l, f), t, 1e-4)); // the core's modulus steps with its size
        CHECK(near::relative(kernel::core_width(s->core), length<double>(rule.core_offset) + gauge(*s) * rule.core_share,
                             1e-12));
    }
    wound_rule rule = bronze;
    rule.core_offset = 0.2 * mm;
    CHECK_FALSE(for_tension(rule, 10 * N, 650 * mm, 330 * Hz)); // its bare core pulls more already
    CHECK_FALSE(for_tension(rule, 1e6 * N, 650 * mm, 110 * Hz));
    CHECK_THROWS_AS((void)wound_string(rule, 0.3 * mm), invalid_input); // a core wider than the gauge
    // Without an offset it is the proportional answer.
    CHECK(near::relative(gauge(*for_tension(bronze, 90 * N, 640 * mm, 110 * Hz)),
                         gauge(for_tension(wound_string(bronze, 1 * mm), 90 * N, 640 * mm, 110 * Hz)), 1e-9));
}

TEST_CASE("choice: same tension elsewhere; scaling keeps the kind") {
    const auto s = plain_string(music_wire(), 12 * thou);
    const auto t = tension(s, 640 * mm, 247 * Hz);
    const auto longer = for_same_tension(s, 640 * mm, 247 * Hz, 700 * mm, 247 * Hz);
    CHECK(near::relative(tension(longer, 700 * mm, 247 * Hz), t, 1e-12));
    CHECK(near::relative(gauge(longer), 12 * 640.0 / 700 * thou, 1e-3)); // Mersenne: d goes as 1/(L f), but for the stretch
    const auto lower = for_same_tension(s, 640 * mm, 247 * Hz, 640 * mm, 220 * Hz);
    CHECK(near::relative(gauge(lower), 12 * 247.0 / 220 * thou, 2e-3));
    auto weighed = wound_string(bronze, 50 * thou);
    weighed.weighed = 7.5 * g_per_m;
    CHECK(near::relative(mass_per_length(of_gauge(weighed, 25 * thou)), 7.5 / 4 * g_per_m, 1e-13));
}

TEST_CASE("choice: the nearest of a stock, and what rounding costs") {
    const auto stock = plain_stock({9, 10, 11, 12, 13});
    const auto wanted = tension(plain_string(music_wire(), 11.3 * thou), 640 * mm, 330 * Hz);
    const auto c = nearest_in_stock(stock, wanted, 640 * mm, 330 * Hz);
    CHECK(c.index == 2);
    CHECK(near::relative(c.pull, tension(stock[2], 640 * mm, 330 * Hz), 1e-14));
    CHECK(near::relative(c.off(), c.pull - wanted, 1e-12));
    CHECK(c.off() < 0.0 * N);
    REQUIRE(c.share);
    CHECK(near::relative(*c.share, *share_of_strength(stock[2], c.pull), 1e-14));
    // It is the nearest by ratio: no other comes closer.
    for (const auto& s : stock) {
        CHECK(std::abs(std::log(tension(s, 640 * mm, 330 * Hz) / wanted)) >= std::abs(std::log(c.pull / wanted)) - 1e-15);
    }
    // A string that will break is still an answer, with its share saying so.
    CHECK(*nearest_in_stock(stock, 300 * N, 900 * mm, 660 * Hz).share > 1);
    try {
        (void)nearest_in_stock(std::vector<music_string>{}, wanted, 640 * mm, 330 * Hz);
        FAIL("chosen from nothing");
    } catch (const invalid_input& e) {
        CHECK(std::string(e.what()) == "stock must have at least one string to choose from.");
    }
    CHECK_THROWS_AS((void)nearest_in_stock(stock, 0.0 * N, 640 * mm, 330 * Hz), invalid_input);
}

TEST_CASE("choice: a set, even in tension, in feel, or by a profile") {
    const auto even = shared_pull(600 * N, std::vector<double>(6, 1.0));
    REQUIRE(even.size() == 6);
    for (const auto& t : even) { CHECK(near::relative(t, 100 * N, 1e-14)); }
    const auto profile = shared_pull(100 * N, std::vector<double>{1, 3});
    CHECK(near::relative(profile[1], 75 * N, 1e-14));
    CHECK_THROWS_AS((void)shared_pull(100 * N, std::vector<double>{}), invalid_input);
    CHECK_THROWS_AS((void)shared_pull(100 * N, std::vector<double>{1, 0}), invalid_input);

    std::vector<string_place> fan;
    const auto notes = parse_tuning("E2 A2 D3 G3 B3 E4").notes;
    for (std::size_t i = 0; i < 6; ++i) {
        fan.push_back({.speaking_length = (690 - 12.0 * static_cast<double>(i)) * mm, .pitch = pitch_of(notes[i])});
    }
    const auto feel = even_feel(600 * N, fan);
    const auto total = pull_of_string_set(feel).total;
    CHECK(near::relative(total, 600 * N, 1e-13));
    for (std::size_t i = 1; i < 6; ++i) {
        // The same force pushes each aside in the middle by the same distance for its length.
        const auto feel_of = [&](std::size_t k) { return feel[k] / fan[k].speaking_length; };
        CHECK(near::relative(feel_of(i).value(), feel_of(0).value(), 1e-13));
    }

    std::vector<music_string> stock = plain_stock({9, 10, 11, 12, 13, 14, 15, 16, 17, 18});
    for (int g = 20; g <= 60; g += 2) { stock.push_back(wound_string(bronze, g * thou)); }
    const auto set = choose_set(stock, fan, feel);
    REQUIRE(set.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(std::abs(set[i].off() / set[i].wanted) < 0.15); // steps of a stock like this one
        CHECK(near::relative(set[i].pull, tension(stock[set[i].index], fan[i].speaking_length, fan[i].pitch), 1e-14));
    }
    CHECK_THROWS_AS((void)choose_set(stock, fan, even_feel(1 * N, std::vector<string_place>(1, fan[0]))), invalid_input);
    auto wrong = fan;
    wrong[2].pitch = 0.0 * Hz;
    try {
        (void)choose_set(stock, wrong, feel);
        FAIL("chosen for no pitch");
    } catch (const invalid_input& e) { CHECK(e.problems()[0].field == "places[2].pitch"); }
}

TEST_CASE("choice: what a set pulls on each side") {
    const auto even = pull_of_string_set(std::vector<force<double>>{10 * N, 20 * N, 30 * N, 40 * N});
    CHECK(even.total == 100 * N);
    CHECK(even.bass == 30 * N);
    CHECK(even.treble == 70 * N);
    const auto odd = pull_of_string_set(std::vector<force<double>>{10 * N, 20 * N, 30 * N});
    CHECK(odd.bass == 20 * N);
    CHECK(odd.treble == 40 * N);
    const auto one = pull_of_string_set(std::vector<force<double>>{10 * N});
    CHECK(one.bass == 5 * N);
    CHECK(pull_of_string_set(std::vector<force<double>>(100, 2 * N)).treble == 100 * N);
    CHECK(pull_of_string_set(std::vector<force<double>>{}).total == 0.0 * N);
    CHECK_THROWS_AS((void)pull_of_string_set(std::vector<force<double>>{std::nan("") * N}), invalid_input);
}

TEST_CASE("choice: derivative of the gauge by the wanted tension, against a difference") {
    using D = dual<double, 1>;
    wound_rule rule = bronze;
    rule.core_offset = 0.1 * mm;
    const auto model = wound_string(bronze, 1 * mm);
    const auto d = gauge(for_tension<D>(over<D>(model), D::variable(95.0, 0) * N, 640 * mm, 110 * Hz));
    const auto by_rule = gauge(*for_tension<D>(over<D>(rule), D::variable(95.0, 0) * N, 640 * mm, 110 * Hz));
    const double h = 1e-3;
    const auto at = [&](double t) { return gauge(for_tension(model, t * N, 640 * mm, 110 * Hz)).value(); };
    const auto at_rule = [&](double t) { return gauge(*for_tension(rule, t * N, 640 * mm, 110 * Hz)).value(); };
    CHECK(near::relative(d.value().partial[0], (at(95 + h) - at(95 - h)) / (2 * h), 1e-7));
    CHECK(near::relative(by_rule.value().partial[0], (at_rule(95 + h) - at_rule(95 - h)) / (2 * h), 1e-7));
}
