// Whole solves in packs: every lane is the solve of its own instrument.
#include <tautline/core/pack.hpp>
#include <tautline/doubt/sweep.hpp>

#include <cmath>
#include <random>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

using P = pack<double>;
constexpr std::size_t lanes = lanes_of<P>::count;

/// Moves every measured number of a model by up to a per cent of itself, but those that stand at an end of what is allowed.
void shake(strung_instrument& model, std::mt19937& random) {
    std::uniform_real_distribution<double> share(-0.01, 0.01);
    for_each_leaf(model, [&](std::string_view path, auto& x) {
        const double v = number_of(x) * (1 + share(random));
        for (const char* bounded : {"friction", "strength", "fill", "creep_factor"}) {
            if (path.find(bounded) != std::string_view::npos) { return; }
        }
        set_number(x, v);
    });
}

void put(basic_strung_instrument<P>& into, std::size_t lane, const strung_instrument& model) {
    std::vector<double> numbers;
    for_each_leaf(model, [&](std::string_view, const auto& x) { numbers.push_back(number_of(x)); });
    std::size_t i = 0;
    for_each_leaf(into, [&](std::string_view, auto& x) {
        P v = number_of(x);
        lanes_of<P>::set(v, lane, numbers[i++]);
        set_number(x, v);
    });
}

strung_instrument pinned_on_top() {
    strung_instrument model{demo::four_course(), demo::unison_pairs()};
    auto& i = model.instrument;
    i.tailpiece.reset();
    i.pins =
        pins{.distance = 25 * mm, .height = 3 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 5 * mm,
                              .saddle_height = 20 * mm};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm, .free_in_channel = true};
    i.neck.rod_pull = 300 * N;
    i.neck.joint_stiffness = 3000 * N_m_per_rad;
    return model;
}
strung_instrument on_feet() {
    strung_instrument model{demo::four_course(), demo::unison_pairs()};
    model.instrument.feet = bridge_feet{
        .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    model.instrument.neck.set = {
        {.x = 0 * mm, .z = 0.2 * mm}, {.x = 140 * mm, .z = -0.2 * mm}, {.x = 260 * mm, .z = 0 * mm}};
    return model;
}

} // namespace

TEST_SUITE("packs") {
    TEST_CASE("lanes whose strings lie taut over other frets are still each their own solve") {
        // Relief in one lane, a back bow in the next: pressed strings touch other crests on their way to the nut.
        const auto base = on_feet();
        auto models = over<P>(base);
        std::vector<strung_instrument> each(lanes, base);
        for (std::size_t k = 0; k < lanes; ++k) {
            const double bow = k % 2 == 0 ? 0.4 : -0.6;
            each[k].instrument.neck.set = {
                {.x = 0 * mm, .z = 0 * mm}, {.x = 140 * mm, .z = -bow * mm}, {.x = 260 * mm, .z = 0 * mm}};
            for (auto& slot : each[k].instrument.nut.slot_heights) { slot = (1.9 + 0.1 * static_cast<double>(k)) * mm; }
            put(models, k, each[k]);
        }
        const auto together = solve(models);
        for (std::size_t k = 0; k < lanes; ++k) {
            const auto alone = solve(each[k]);
            for (std::size_t s = 0; s < alone.strings.size(); ++s) {
                for (std::size_t n = 0; n < alone.strings[s].notes.size(); ++n) {
                    const auto& note = alone.strings[s].notes[n];
                    const auto& lane = together.strings[s].notes[n];
                    CHECK(near::relative(lane.stretch.value()[k], note.stretch.value(), 1e-9));
                    CHECK(near::within(lane.error.cents()[k], note.error.cents(), 1e-9));
                }
            }
        }
    }
    TEST_CASE("each lane of a pack's solve is the scalar solve of its instrument") {
        std::mt19937 random(11);
        basic_setup<P> together;
        setup alone;
        for (int trial = 0; trial < 20; ++trial) {
            const auto base = trial % 2 == 0 ? on_feet() : pinned_on_top();
            auto models = over<P>(base);
            std::vector<strung_instrument> each(lanes, base);
            for (std::size_t k = 0; k < lanes; ++k) {
                shake(each[k], random);
                put(models, k, each[k]);
            }
            solve(models, together);
            for (std::size_t k = 0; k < lanes; ++k) {
                solve(each[k], alone);
                std::vector<double> want;
                for_each_leaf(std::as_const(alone), [&](std::string_view, const auto& x) { want.push_back(number_of(x)); });
                std::size_t i = 0;
                const auto one = lane(together, k);
                for_each_leaf(one, [&](std::string_view path, const auto& x) {
                    REQUIRE(i < want.size());
                    // Which fret is nearest may turn on the last digit; how near it is does not.
                    if (path.ends_with(".fret")) {
                        ++i;
                        return;
                    }
                    INFO(path);
                    CHECK(std::abs(number_of(x) - want[i]) <= 1e-9 * (std::abs(want[i]) + 1e-3));
                    ++i;
                });
                CHECK(i == want.size());
            }
        }
    }
    TEST_CASE("a sweep in packs is the scalar sweep, bad rows and lanes that go other ways included") {
        const auto model = on_feet();
        const std::vector<std::string> outputs{"strings[0].heights[11]", "down_force", "strings[6].share_of_strength",
                                               "standing.even.front_margin", "relief.gap"};
        // Below 0.1 mm no strength is known: neighbours then differ in what they have. A negative height is no height.
        const std::vector<knob> knobs{
            {"strings[6].string.core.diameter", {0.09 * mm, 0.2 * mm, 0.3 * mm}},
            {"saddle.height_bass", {17 * mm, 17.5 * mm, 18 * mm, -1.0 * mm, 18.5 * mm, 19.0 * mm, 19.5 * mm}}};
        const auto scalar = sweep_grid(model, knobs, outputs);
        const auto packs = sweep_grid<P>(model, knobs, outputs, {.threads = 2});
        REQUIRE(scalar.rows == 21);
        REQUIRE(packs.problems.size() == 3);
        CHECK(scalar.problems.size() == 3);
        std::size_t absent = 0;
        for (std::size_t row = 0; row < 21; ++row) {
            for (std::size_t k = 0; k < outputs.size(); ++k) {
                const double a = scalar.output(row, k).si(), b = packs.output(row, k).si();
                CHECK(std::isnan(a) == std::isnan(b));
                if (std::isnan(a)) {
                    ++absent;
                } else {
                    CHECK(std::abs(a - b) <= 1e-9 * (std::abs(a) + 1e-3));
                }
            }
        }
        CHECK(absent == 3 * 5 + 6);
        CHECK(packs.problems[1].row == 10);
        CHECK(packs.problems[1].problems[0].field == "saddle.height_bass");
    }
    TEST_CASE("a neck that would buckle in every lane is refused as one that stands alone is") {
        auto model = on_feet();
        model.instrument.neck.board_modulus = 0.2 * GPa;
        model.instrument.neck.back_modulus = 0.1 * GPa;
        const auto models = over<P>(model);
        CHECK_THROWS_AS((void)solve(model), invalid_input);
        CHECK_THROWS_AS((void)solve(models), invalid_input);
    }
    TEST_CASE("derivatives in packs") {
        using D = dual<P, 1>;
        const auto model = on_feet();
        auto seeded = over<D>(model);
        // Lane k moves the k-th of these.
        const std::vector<std::string> paths{"saddle.height_bass", "neck.back_modulus", "board.scale.scale_length",
                                             "strings[7].string.core.diameter"};
        for (std::size_t k = 0; k < std::min(lanes, paths.size()); ++k) {
            for_each_leaf(seeded, [&](std::string_view path, auto& x) {
                if (path != paths[k]) { return; }
                D v = number_of(x);
                lanes_of<P>::set(v.partial[0], k, 1);
                set_number(x, v);
            });
        }
        const auto s = solve(seeded);
        for (std::size_t k = 0; k < std::min(lanes, paths.size()); ++k) {
            const auto moved = [&](double by) {
                auto m = model;
                for_each_leaf(m, [&](std::string_view path, auto& x) {
                    if (path == paths[k]) { set_number(x, number_of(x) * (1 + by)); }
                });
                return solve(m).down_force.value();
            };
            double size = 0;
            for_each_leaf(model, [&](std::string_view path, const auto& x) {
                if (path == paths[k]) { size = number_of(x); }
            });
            const double slope = (moved(1e-5) - moved(-1e-5)) / (2e-5 * size);
            CHECK(near::relative(s.down_force.value().partial[0][k], slope, 1e-5));
        }
    }
}
