#pragma once
/// @file
/// The readings that are named: as few as explain what does not agree, each together with those that cannot be told apart
/// from it.
///
/// Source: data snooping as geodetic networks are searched (from memory). Where one reading does not explain it, pairs are
/// compared before a second is added: two errors together may point at a sound reading.

#include "reading_tests.hpp"

namespace tautline {

/// Two tests whose |correlation| is more than this cannot be told apart.
inline constexpr double too_alike = 0.95;

/// Readings that others control by less are not named: to be seen, one of them would have to be off by more than twenty
/// times what its doubt allows, and a reading that is alike and better controlled explains the same.
inline constexpr double least_control = 0.02;

/// Readings of which one is off, as far as can be told.
template <std::floating_point R = double>
struct basic_suspicion {
    /// Places among all tests, inputs first: the worst, then those that cannot be told apart from it.
    std::vector<std::size_t> places{};
    basic_reading_test<R> test{}; ///< of the worst, all else that is named set aside
};
using suspicion = basic_suspicion<double>;

namespace kernel {

/// Whether a reading may be named.
template <std::floating_point R>
[[nodiscard]] bool can_be_named(const basic_reading_test<R>& test) {
    return test.controlled() && std::abs(test.redundancy) >= R(least_control);
}
/// The place of the largest |w|, of equal ones the last; as many as there are tests where none is controlled.
template <std::floating_point R>
[[nodiscard]] std::size_t worst_of(const basic_reading_tests<R>& tests) {
    std::size_t worst = tests.size();
    for (std::size_t i = 0; i < tests.size(); ++i) {
        if (!can_be_named(tests.at(i))) { continue; }
        const R more = std::abs(tests.at(i).w) * (1 + R(1e-6L));
        if (worst == tests.size() || more > std::abs(tests.at(worst).w)) { worst = i; }
    }
    return worst;
}
/// The tests with some readings set aside, but for one of them.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> tests_without_all(basic_reading_tests<R> tests, std::span<const std::size_t> places,
                                                       std::size_t but) {
    for (const std::size_t p : places) {
        if (p != but && tests.at(p).controlled()) { tests = tests_without(tests, p); }
    }
    return tests;
}
/// The tests once one is set aside, without those that could not be told apart from it.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> others_without(const basic_reading_tests<R>& tests, std::size_t place) {
    auto left = tests_without(tests, place);
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (std::abs(tests.likeness(place, i)) > R(too_alike)) { left.at(i) = {}; }
    }
    return left;
}
/// Readings set aside, and how much of all the misfits, squared, they explain together.
template <std::floating_point R>
struct explanation_of_misfits {
    std::vector<std::size_t> places{};
    R square{};
};
/// The same with one reading put in the place `at` of the list, at its end or in another's stead: the one that explains
/// most beside the others. Nothing where none is left.
template <std::floating_point R>
[[nodiscard]] explanation_of_misfits<R> with_best(const basic_reading_tests<R>& tests, std::vector<std::size_t> places,
                                                  std::size_t at) {
    auto rest = tests;
    R square{};
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (i == at || !rest.at(places[i]).controlled()) { continue; }
        square += rest.at(places[i]).w * rest.at(places[i]).w;
        rest = others_without(rest, places[i]);
    }
    const std::size_t best = worst_of(rest);
    if (best == tests.size()) { return {}; }
    places.resize(std::max(places.size(), at + 1));
    places[at] = best;
    return {std::move(places), square + rest.at(best).w * rest.at(best).w};
}
/// One reading more than `places` that together explain most: pairs from every start, more of them from those before, each
/// in turn exchanged for a better one.
template <std::floating_point R>
[[nodiscard]] explanation_of_misfits<R> one_more(const basic_reading_tests<R>& tests,
                                                 const std::vector<std::size_t>& places) {
    explanation_of_misfits<R> best = with_best(tests, places, places.size());
    for (std::size_t i = 0; places.size() == 1 && i < tests.size(); ++i) {
        if (!can_be_named(tests.at(i))) { continue; }
        if (auto pair = with_best<R>(tests, {i}, 1); pair.square > best.square) { best = std::move(pair); }
    }
    for (std::size_t i = 0; i < best.places.size(); ++i) {
        if (auto other = with_best(tests, best.places, i); other.square > best.square) { best = std::move(other); }
    }
    return best;
}
/// The fewest readings that, set aside, leave others which agree. One more is named only where that explains as much as
/// names a single one.
template <std::floating_point R>
[[nodiscard]] std::vector<std::size_t> fewest_named(const basic_reading_tests<R>& tests) {
    const std::size_t worst = worst_of(tests);
    const R enough = R(naming_limit * naming_limit);
    if (worst == tests.size() || !(tests.at(worst).w * tests.at(worst).w > enough)) { return {}; }
    explanation_of_misfits<R> named{{worst}, tests.at(worst).w * tests.at(worst).w};
    while (named.places.size() + 1 < tests.degrees) {
        const auto more = one_more(tests, named.places);
        if (!(more.square - named.square > enough)) { break; }
        named = more;
    }
    return named.places;
}

} // namespace kernel

/// All that cannot be told apart from one of the tests, itself first, then by their |w|.
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

/// Every suspicion, the worst first: the fewest readings that leave others which agree. None is left out of the adjustment
/// by that.
template <std::floating_point R>
[[nodiscard]] std::vector<basic_suspicion<R>> suspicions_of(const basic_reading_tests<R>& tests) {
    const auto named = kernel::fewest_named(tests);
    std::vector<basic_suspicion<R>> all;
    for (const std::size_t place : named) {
        const auto beside = kernel::tests_without_all<R>(tests, named, place);
        if (std::abs(beside.at(place).w) > R(naming_limit)) { all.push_back(suspicion_about(beside, place)); }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return std::abs(a.test.w) > std::abs(b.test.w); });
    return all;
}

} // namespace tautline
