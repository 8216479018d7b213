#pragma once
/// @file
/// The readings that are named: as few as explain the disagreement, each together with those that cannot be told apart
/// from it.

#include "misreadings.hpp"

namespace tautline {

/// Readings one of which is off; which of them it is cannot be told.
template <std::floating_point R = double>
struct basic_suspicion {
    /// Places among all tests, inputs first: the worst reading, then those that cannot be told apart from it.
    std::vector<std::size_t> places{};
    basic_reading_test<R> test{}; ///< test of the worst one, with all else that is named set aside
    /// Whether some of them explain the misfits only as a pair and none alone.
    bool perhaps_two = false;
};
using suspicion = basic_suspicion<double>;

/// A test with all others that cannot be told apart from it: itself first, then the others by their |w|.
template <std::floating_point R>
[[nodiscard]] basic_suspicion<R> suspicion_about(const basic_reading_tests<R>& tests, std::size_t place) {
    require_that(place < tests.size(), "place", "must be one of the tests");
    basic_suspicion<R> s{{place}, tests.at(place)};
    for (std::size_t j = 0; j < tests.size(); ++j) {
        if (j != place && kernel::can_be_named(tests.at(j)) && std::abs(tests.likeness(place, j)) > R(too_alike)) {
            s.places.push_back(j);
        }
    }
    std::stable_sort(s.places.begin() + 1, s.places.end(),
                     [&](std::size_t a, std::size_t b) { return std::abs(tests.at(a).w) > std::abs(tests.at(b).w); });
    return s;
}

namespace kernel {

/// Adds to a suspicion the readings that explain the misfits nearly as well as its worst one, the most likely first.
template <std::floating_point R>
void add_rivals(const basic_reading_tests<R>& tests, const explanation_of_misfits<R>& named, basic_suspicion<R>& s) {
    std::vector<std::pair<rival, std::size_t>> rivals;
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const auto has = [i](const std::vector<std::size_t>& all) {
            return std::find(all.begin(), all.end(), i) != all.end();
        };
        if (has(s.places) || has(named.places) || !can_be_named(tests.at(i))) { continue; }
        const rival other = rival_with(tests, named, i, s.places.front());
        if (other.less < telling_square) { rivals.emplace_back(other, i); }
    }
    std::stable_sort(rivals.begin(), rivals.end(),
                     [](const auto& a, const auto& b) { return a.first.less < b.first.less; });
    for (const auto& [other, place] : rivals) {
        s.places.push_back(place);
        s.perhaps_two = s.perhaps_two || other.of_more;
    }
}

/// The tests that a suspicion may begin with. Where all agree as a whole, one that others hardly control must stand out
/// by more.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> counting_tests(basic_reading_tests<R> tests) {
    for (std::size_t i = 0; tests.chance > R(disagreeing_chance) && i < tests.size(); ++i) {
        auto& test = tests.at(i);
        const bool hardly = std::abs(test.redundancy) < R(hardly_controlled);
        if (hardly && std::abs(test.w) < R(detectable_shift)) { test = {}; }
    }
    return tests;
}
/// Puts before the worst of a suspicion what explains more but is hardly controlled, the largest |w| first.
/// @param beside the tests with all else that is named set aside
template <std::floating_point R>
void add_barely_controlled(const basic_reading_tests<R>& beside, basic_suspicion<R>& s) {
    const auto size = [&](std::size_t place) { return std::abs(beside.at(place).w); };
    const R worst = size(s.places.front());
    std::vector<std::size_t> more;
    for (std::size_t i = 0; i < beside.size(); ++i) {
        const auto& test = beside.at(i);
        const bool barely = test.controlled() && std::abs(test.redundancy) >= R(barely_controlled);
        if (barely && !can_be_named(test) && size(i) > R(clearly_larger) * worst) { more.push_back(i); }
    }
    std::stable_sort(more.begin(), more.end(), [&](std::size_t a, std::size_t b) { return size(a) > size(b); });
    s.places.insert(s.places.begin(), more.begin(), more.end());
    s.test = beside.at(s.places.front());
}

} // namespace kernel

/// Every suspicion, worst first: the fewest readings that must be set aside for the others to agree. Being named leaves
/// none out of the adjustment.
template <std::floating_point R>
[[nodiscard]] std::vector<basic_suspicion<R>> suspicions_of(const basic_reading_tests<R>& tests) {
    const auto named = kernel::fewest_named(kernel::counting_tests(tests));
    std::vector<basic_suspicion<R>> all;
    for (const std::size_t place : named.places) {
        const auto beside = kernel::tests_without_all<R>(tests, named.places, place);
        if (std::abs(beside.at(place).w) > R(naming_limit)) { all.push_back(suspicion_about(beside, place)); }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return std::abs(a.test.w) > std::abs(b.test.w); });
    for (auto& s : all) {
        const std::size_t worst = s.places.front();
        kernel::add_rivals(tests, named, s);
        kernel::add_barely_controlled(kernel::tests_without_all<R>(tests, named.places, worst), s);
    }
    return all;
}

} // namespace tautline
