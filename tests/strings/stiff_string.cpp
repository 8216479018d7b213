#include <tautline/strings/stiff_string.hpp>

#include <random>

#include "near.hpp"
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("stiff string: property, at its tension it sounds its pitch, whatever the ends") {
    std::mt19937 random(17);
    std::uniform_real_distribution<double> d(0.2, 0.6), hold(0, 1);
    for (int i = 0; i < 100; ++i) {
        const auto s = i % 3 ? plain_string(music_wire(), d(random) * mm) : plain_string(nylon(), 2 * d(random) * mm);
        const string_ends ends{hold(random), hold(random)};
        const auto f = (i % 3 ? 220 : 150) * Hz;
        const auto pull = tension_of_stiff(s, 640 * mm, f, ends);
        CHECK(near::relative(partial(1, s, 640 * mm, pull, ends), f, 1e-12));
        CHECK(pull < tension(s, 640 * mm, f));
        const auto mu = mass_per_length_at(s, pull);
        CHECK(near::relative(tension_of_stiff(mu, 640 * mm, f, core_bending_stiffness(s), ends), pull, 1e-12));
    }
}

TEST_CASE("stiff string: a limp one is ideal") {
    for (const int n : {1, 2, 7, 50}) {
        CHECK(near::relative(partial<double>(n, 1.0 * g_per_m, 650 * mm, 70 * N, 0 * N_m2),
                             n * pitch_at(1.0 * g_per_m, 650 * mm, 70 * N), 1e-13));
    }
    CHECK(near::relative(tension_of_stiff(1.0 * g_per_m, 650 * mm, 200 * Hz, 0 * N_m2),
                         tension(1.0 * g_per_m, 650 * mm, 200 * Hz), 1e-13));
}

TEST_CASE("stiff string: held harder, sharper; partials stretch more and more; B falls with tension and length") {
    const auto s = plain_string(music_wire(), 17 * thou);
    const auto f = [&](double nut, double saddle) { return partial<double>(1, s, 640 * mm, 80 * N, {nut, saddle}); };
    CHECK(f(0, 0) < f(0.5, 0));
    CHECK(f(0.5, 0) < f(0.5, 0.5));
    CHECK(f(0.5, 0.5) < f(1, 0.5));
    CHECK(near::relative(f(0.2, 0.7), f(0.7, 0.2), 1e-14));
    double before = 0;
    for (int n = 2; n <= 20; ++n) {
        const double c = partial_error(n, s, 640 * mm, 80 * N) / cents;
        CHECK(c > before);
        before = c;
    }
    CHECK(partial_error(1, s, 640 * mm, 80 * N) / cents == doctest::Approx(0.0));
    const auto ei = core_bending_stiffness(s);
    CHECK(near::relative(inharmonicity(ei, 160 * N, 640 * mm), inharmonicity(ei, 80 * N, 640 * mm) / 2, 1e-13));
    CHECK(near::relative(inharmonicity(ei, 80 * N, 1280 * mm), inharmonicity(ei, 80 * N, 640 * mm) / 4, 1e-13));
}

TEST_CASE("stiff string: derivative of the tension by pitch and by stiffness, against differences; other number types") {
    using D = dual<double, 2>;
    const double ei = 4e-4, hertz = 196;
    const auto at = [](auto f, auto stiff) {
        using R = decltype(f);
        return tension_of_stiff<R>(number<R>(1.2e-3L) * kg_per_m, 640 * mm, f * Hz, stiff * N_m2).value();
    };
    const auto d = at(D::variable(hertz, 0), D::variable(ei, 1));
    const double h = 1e-3, he = 1e-8;
    CHECK(near::relative(d.partial[0], (at(hertz + h, ei) - at(hertz - h, ei)) / (2 * h), 1e-7));
    CHECK(near::relative(d.partial[1], (at(hertz, ei + he) - at(hertz, ei - he)) / (2 * he), 1e-6));
    CHECK(near::relative(static_cast<double>(at(196.0f, 4e-4f)), at(hertz, ei), 1e-5));
    CHECK(near::relative(static_cast<double>(at(196.0L, 4e-4L)), at(hertz, ei), 1e-13));
}

TEST_CASE("stiff string: bad input is named") {
    const auto s = plain_string(music_wire(), 17 * thou);
    CHECK_THROWS_AS((void)partial(0, s, 640 * mm, 80 * N), invalid_input);
    CHECK_THROWS_AS((void)partial(1, s, 0.0 * mm, 80 * N), invalid_input);
    CHECK_THROWS_AS((void)partial(1, s, 640 * mm, 0.0 * N), invalid_input);
    CHECK_THROWS_AS((void)partial<double>(1, s, 640 * mm, 80 * N, {1.5, 0}), invalid_input);
    CHECK_THROWS_AS((void)partial(1, s, 10 * mm, 1 * N), invalid_input); // a rod, not a string
    CHECK_THROWS_AS((void)inharmonicity(-1.0 * N_m2, 80 * N, 640 * mm), invalid_input);
    CHECK_THROWS_AS((void)tension_of_stiff(s, 5 * mm, 80 * Hz), invalid_input);
    CHECK_THROWS_AS((void)tension_of_stiff<double>(s, 640 * mm, 80 * Hz, {-1, 0}), invalid_input);
}
