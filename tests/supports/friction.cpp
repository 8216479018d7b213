#include <tautline/supports/friction.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("no wrap or no friction: both sides pull alike") {
    CHECK(capstan_ratio<double>(0.3, 0 * deg) == 1);
    CHECK(capstan_ratio<double>(0.0, 20 * deg) == 1);
    CHECK(near::within(tuning_dead_band(friction{0.1, 0.2}, 0 * deg).most / cents, 0, 1e-15));
}

TEST_CASE("the tension beyond a support lies as far above as below, by ratio") {
    const auto range = tension_beyond(friction{0.1, 0.25}, 80 * N, 14 * deg);
    CHECK(near::relative(ratio(range.most, 80 * N), ratio(80 * N, range.least), 1e-12));
    CHECK(near::relative(range.most, 80 * std::exp(0.25 * (14 * deg / rad)) * N, 1e-12));
}

TEST_CASE("the dead band is the pitch that the tension ratio makes") {
    for (const double mu : {0.05, 0.2, 0.5}) {
        const auto band = tuning_dead_band(friction{0.02, mu}, 12 * deg);
        // f goes with the root of the tension.
        const double by_pitch = 1200 * std::log2(std::sqrt(capstan_ratio<double>(mu, 12 * deg)));
        CHECK(near::relative(band.most / cents, by_pitch, 1e-12));
        CHECK(near::relative(band.least / cents, by_pitch * 0.02 / mu, 1e-12));
    }
}

TEST_CASE("a dual carries the derivative with respect to the friction") {
    using D = dual<double, 1>;
    const auto r = capstan_ratio<D>(D::variable(0.3, 0), angle<D>(20 * deg));
    const double h = 1e-6, theta = 20 * deg / rad;
    CHECK(near::relative(r.partial[0], (std::exp((0.3 + h) * theta) - std::exp((0.3 - h) * theta)) / (2 * h), 1e-8));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)capstan_ratio<double>(-0.1, 10 * deg), "mu is -0.1; it must be at least 0 and at most 2.");
    CHECK_THROWS_WITH((void)tension_beyond(friction{0.4, 0.2}, 10 * N, 10 * deg),
                      "friction.most must be at least as large as the least coefficient.");
    CHECK_THROWS_AS((void)tension_beyond(friction{-0.1, 0.2}, 10 * N, 10 * deg), invalid_input);
    CHECK_THROWS_AS((void)tuning_dead_band(friction{0.1, 0.2}, -1 * deg), invalid_input);
    CHECK_THROWS_AS((void)tuning_dead_band(friction{0.1, std::nan("")}, 1 * deg), invalid_input);
    for (const friction& f :
         {published_friction::metal_on_wood, published_friction::wood_on_wood, published_friction::brass_on_steel,
          published_friction::nylon_on_steel, published_friction::graphite_on_steel, published_friction::ptfe_on_steel}) {
        CHECK(validate(f).empty());
    }
}

TEST_CASE("published bounds, told a second time: OpenStax College Physics table 5.1 and two reference charts") {
    using namespace published_friction;
    const auto is = [](const friction& f, double least, double most) {
        CHECK(f.least == least);
        CHECK(f.most == most);
    };
    is(metal_on_wood, 0.2, 0.65);
    is(wood_on_wood, 0.3, 0.5);
    is(brass_on_steel, 0.11, 0.51);
    is(nylon_on_steel, 0.1, 0.45);
    is(graphite_on_steel, 0.1, 0.1);
    is(ptfe_on_steel, 0.04, 0.22);
}
