#include <tautline/action/moved_ends.hpp>

#include <random>
#include <tuple>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {

const string_line line{.nut_x = 0 * mm, .nut_z = 1.4 * mm, .saddle_x = 560 * mm, .saddle_z = 6 * mm};
sounding_string invented(double mu, double f, double ea, double ei) {
    return {
        .mass_per_length = mu * g_per_m, .open_pitch = f * Hz, .axial_stiffness = ea * N, .bending_stiffness = ei * N_m2};
}
const sounding_string plain = invented(0.8, 293.66, 20000, 1.5e-4);
lengths frets(int count) {
    lengths x;
    for (int n = 1; n <= count; ++n) { x.push_back(560 * (1 - std::exp2(-n / 12.0)) * mm); }
    return x;
}
double worst(const sounding_string& s, const string_line& l, const lengths& x) {
    double most = 0;
    for (std::size_t n = 1; n <= x.size(); ++n) {
        most = std::max(most, std::abs(pressed_at(s, l, {}, x, lengths(x.size(), 1 * mm), n).error / cents));
    }
    return most;
}

} // namespace

TEST_CASE("property: the setback brings the octave to zero, and never makes the worst fret worse than none") {
    std::mt19937 random(71);
    std::uniform_real_distribution<double> mu(0.3, 6), ea(3000, 40000), ei(0, 4e-4), top(4, 9);
    const auto x = frets(12);
    const lengths z(12, 1 * mm);
    for (int i = 0; i < 60; ++i) {
        const auto s = invented(mu(random), 196, ea(random), ei(random));
        auto l = line;
        l.saddle_z = top(random) * mm;
        const auto setback = setback_for_fret(s, l, {}, x, z);
        REQUIRE(setback);
        const auto set = moved(l, moved_ends{.setback = *setback});
        CHECK(near::within(pressed_at(s, set, {}, x, z, 12).error / cents, 0, 1e-9));
        CHECK(worst(s, set, x) <= worst(s, l, x) + 1e-9);
        CHECK(*setback > 0 * mm);
    }
}

TEST_CASE("nut, fret and saddle hold each as they do: the note at the setback found is the one that is pressed there") {
    const auto x = frets(15);
    const lengths z(15, 1 * mm);
    auto s = plain;
    for (const auto& [nut, fret, saddle] : {std::tuple{0.1, 0.9, 0.4}, {1.0, 0.2, 0.7}, {0.5, 0.0, 1.0}}) {
        s.nut_end = nut;
        s.fret_end = fret;
        s.saddle_end = saddle;
        const auto setback = setback_for_fret(s, line, {}, x, z);
        REQUIRE(setback);
        const auto set = moved(line, moved_ends{.setback = *setback});
        CHECK(near::within(pressed_at(s, set, {}, x, z, 12).error / cents, 0, 1e-9));
        const auto least = ends_moved_over(s, line, {}, x, z, 1, 15, false);
        REQUIRE(least);
        double squares = 0;
        for (std::size_t n = 1; n <= 15; ++n) {
            squares += std::pow(pressed_at(s, moved(line, *least), {}, x, z, n).error / cents, 2);
        }
        CHECK(near::relative(std::sqrt(squares / 15), least->root_mean_square / cents, 1e-9));
    }
}

TEST_CASE("least squares leave a gradient of zero, and nut and saddle together leave no more than the saddle alone") {
    const auto x = frets(15);
    const lengths z(15, 1 * mm);
    const auto both = ends_moved_over(plain, line, {}, x, z, 1, 15, true);
    const auto alone = ends_moved_over(plain, line, {}, x, z, 1, 15, false);
    REQUIRE(both);
    REQUIRE(alone);
    const auto squares = [&](double setback, double advance) {
        double sum = 0;
        const auto l = moved(line, moved_ends{.setback = setback * metre, .nut_advance = advance * metre});
        for (std::size_t n = 1; n <= 15; ++n) { sum += std::pow(pressed_at(plain, l, {}, x, z, n).error / cents, 2); }
        return sum;
    };
    const double s = both->setback / metre, a = both->nut_advance / metre, h = 1e-5;
    CHECK(near::relative(squares(s, a), 15 * std::pow(both->root_mean_square / cents, 2), 1e-9));
    CHECK(squares(s + h, a) > squares(s, a));
    CHECK(squares(s - h, a) > squares(s, a));
    CHECK(squares(s, a + h) > squares(s, a));
    CHECK(squares(s, a - h) > squares(s, a));
    CHECK(near::within(squares(s + h, a) - squares(s - h, a), 0, 1e-3 * (squares(s + h, a) - squares(s, a))));
    CHECK(both->root_mean_square < alone->root_mean_square);
    CHECK(both->nut_advance > 0 * mm);
}

TEST_CASE("a changed action changes the setback that is wanted: more height, more setback") {
    const auto x = frets(12);
    const lengths z(12, 1 * mm);
    auto high = line;
    high.saddle_z = 8 * mm;
    CHECK(*setback_for_fret(plain, high, {}, x, z) > *setback_for_fret(plain, line, {}, x, z));
}

TEST_CASE("what no saddle place can reach comes back as nothing") {
    auto x = frets(12);
    const lengths z(12, 1 * mm);
    x[11] = 330 * mm; // a board for another instrument
    CHECK_FALSE(setback_for_fret(plain, line, {}, x, z));
    CHECK_FALSE(ends_moved_over(plain, line, {}, x, z, 12, 12, false));
}

TEST_CASE("a dual carries the derivative of the setback") {
    const auto setback = [](auto z) {
        using R = real_of_t<decltype(z)>;
        auto l = over<R>(line);
        l.saddle_z = z;
        std::vector<length<R>> x, crest;
        for (const auto& at : frets(12)) {
            x.push_back(over<R>(at));
            crest.push_back(over<R>(1 * mm));
        }
        return std::pair{
            setback_for_fret(over<R>(plain), l, over<R>(finger_press{}), x, crest)->value(),
            ends_moved_over(over<R>(plain), l, over<R>(finger_press{}), x, crest, 1, 12, true)->nut_advance.value()};
    };
    using D = dual<double, 1>;
    const double h = 1e-6;
    const auto up = setback((0.006 + h) * metre), down = setback((0.006 - h) * metre);
    const auto exact = setback(length<D>::from_value(D::variable(0.006, 0)));
    CHECK(near::relative(exact.first.partial[0], (up.first - down.first) / (2 * h), 1e-5));
    CHECK(near::relative(exact.second.partial[0], (up.second - down.second) / (2 * h), 1e-4));
}

TEST_CASE("bad input is named") {
    const auto x = frets(12);
    const lengths z(12, 1 * mm);
    CHECK_THROWS_AS((void)setback_for_fret(plain, line, {}, x, z, 13), invalid_input);
    CHECK_THROWS_AS((void)ends_moved_over(plain, line, {}, x, z, 5, 3, true), invalid_input);
    CHECK_THROWS_WITH((void)ends_moved_over(plain, line, {}, x, z, 5, 5, true),
                      "last must be a later fret than the first where nut and saddle both move.");
}

TEST_CASE("both searches look at what they are given") {
    const auto x = frets(12);
    const lengths z(12, 1 * mm);
    const string_line none{.nut_x = 10 * mm, .nut_z = 0 * mm, .saddle_x = 10 * mm, .saddle_z = 0 * mm};
    CHECK_THROWS_WITH((void)setback_for_fret(plain, none, {}, x, z), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)ends_moved_over(plain, none, {}, x, z, 1, 12, false),
                      "string_line.saddle_x must be beyond the nut.");
    for (const auto& [first, last] : {std::pair{0, 3}, std::pair{5, 3}, std::pair{1, 13}}) {
        CHECK_THROWS_WITH((void)ends_moved_over(plain, line, {}, x, z, static_cast<std::size_t>(first),
                                                static_cast<std::size_t>(last), false),
                          "first and last must be numbers of frets, in this order.");
    }
}
