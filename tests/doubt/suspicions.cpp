#include <tautline/doubt/suspicions.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

using cheap::adjusted;
using cheap::slopes;
bool names(const std::vector<suspicion>& all, std::size_t place) {
    for (const auto& s : all) {
        for (const std::size_t p : s.places) {
            if (p == place) { return true; }
        }
    }
    return false;
}

} // namespace

TEST_SUITE("suspicions") {
    TEST_CASE("nothing is named as long as all agree") {
        CHECK(suspicions_of(tests_of(adjusted(std::vector<double>(8)))).empty());
        CHECK(suspicions_of(tests_of(adjusted({0.02, 0.01, 0.01, 0.02, 0.0, 0.01, 0.01, 0.05}))).empty());
    }
    TEST_CASE("one error far out: it is named, with its size, and nothing that can be told apart from it") {
        for (std::size_t k = 0; k < 8; ++k) {
            std::vector<double> misfit(8);
            misfit[k] = 2 * tests_of(adjusted(misfit)).readings[k].least_detectable;
            const auto all = suspicions_of(tests_of(adjusted(misfit)));
            CAPTURE(k);
            REQUIRE(all.size() == 1);
            CHECK(all[0].places[0] == 8 + k);
            CHECK(near::relative(all[0].test.error, misfit[k], 1e-9));
            const auto tests = tests_of(adjusted(misfit));
            for (std::size_t i = 1; i < all[0].places.size(); ++i) {
                CHECK(std::abs(tests.likeness(8 + k, all[0].places[i])) > too_alike);
            }
        }
    }
    TEST_CASE("an error that one reading alone shows: what moves that reading is named with it") {
        const linear_adjustment a(covariance_root(matrix(2, 2, {0.01, 0, 0, 0.04})), reading_root(matrix(1, 1, {0.0025})),
                                  matrix(1, 2, {1, 0}), {2});
        const auto all = suspicions_of(tests_of(a));
        REQUIRE(all.size() == 1);
        // The reading and the input that moves it; not the other, which nothing controls.
        CHECK(all[0].places.size() == 2);
        CHECK_FALSE(names(all, 1));
        CHECK(names(all, 0));
        CHECK(names(all, 2));
    }
    TEST_CASE("two errors at once: both are named, a sound reading seldom first") {
        // Two errors of 1.3 times the least detectable one each. Together they may look like one error elsewhere: both bass
        // heights too high as the saddle read too low. Such pairs nothing can find out; they are counted apart.
        std::size_t both = 0, sound_first = 0, runs = 0, alike = 0, alike_first = 0;
        const auto clean = tests_of(adjusted(std::vector<double>(8)));
        for (std::uint64_t seed = 0; seed < 500; ++seed) {
            const std::size_t first = seed % 8, second = (first + 1 + (seed / 8) % 7) % 8;
            auto drawn = cheap::drawn(seed, 99);
            std::vector<double> errors(8);
            for (const std::size_t k : {first, second}) {
                const double sign = kernel::normal_deviate(5, seed, k) > 0 ? 1 : -1;
                errors[k] = 1.3 * clean.readings[k].least_detectable * sign;
                drawn.readings[k] += errors[k];
            }
            const auto alone = tests_of(adjusted(errors));
            bool one_error = std::abs(clean.likeness(8 + first, 8 + second)) > 0.7;
            for (std::size_t i = 0; i < 16; ++i) {
                if (i == 8 + first || i == 8 + second) { continue; }
                // Above what either of the two alone, but for those not told apart from them.
                if (std::abs(clean.likeness(8 + first, i)) > too_alike) { continue; }
                if (std::abs(clean.likeness(8 + second, i)) > too_alike) { continue; }
                one_error = one_error || alone.at(i).w * alone.at(i).w > 0.6 * alone.square;
            }
            const auto fit = fit_weighted<double>(cheap::problem(drawn.readings), cheap::model);
            const auto all = suspicions_of(tests_of(adjustment_of(fit)));
            const std::vector<suspicion> one(all.begin(), all.begin() + (all.empty() ? 0 : 1));
            const bool sound = !all.empty() && !names(one, 8 + first) && !names(one, 8 + second);
            if (one_error) {
                ++alike;
                alike_first += sound;
                continue;
            }
            ++runs;
            sound_first += sound;
            both += names(all, 8 + first) && names(all, 8 + second);
        }
        MESSAGE("of ", runs, ": both ", both, ", a sound one first ", sound_first, "; of ", alike,
                " that look like one error elsewhere ", alike_first);
        CHECK(runs > 400);
        CHECK(static_cast<double>(both) > 0.8 * static_cast<double>(runs));
        CHECK(static_cast<double>(sound_first) < 0.10 * static_cast<double>(runs));
    }
}
