#pragma once
/// @file
/// The fewest readings that explain a disagreement, and other explanations that are nearly as good.
///
/// Source: data snooping as in geodetic networks (from memory). Where one reading does not explain the misfits, pairs are
/// compared before a second is added: two errors together may point at a sound reading.

#include "reading_tests.hpp"

namespace tautline {

/// Two tests with a |correlation| above this cannot be told apart.
inline constexpr double too_alike = 0.95;

/// A reading with less redundancy than this is not named. To be seen it would have to be off by more than twenty times
/// what its doubt allows, and a similar reading that is better controlled explains the same.
inline constexpr double least_control = 0.02;

/// At this chance or less the readings do not agree. At 1 minus it or more the doubts are larger than the scatter shows.
inline constexpr double disagreeing_chance = 0.01;
/// A reading that others control by less is pointed out: a large error in it would go unseen. Where the readings agree as
/// a whole, it is only suspected above `detectable_shift`: of some seventy measurements most are controlled so little, and
/// at `naming_limit` one sound job of fourteen would have one named.
inline constexpr double hardly_controlled = 0.1;
/// A reading with less redundancy than `least_control` and at least this is named with others where it explains more
/// than the worst of them.
inline constexpr double barely_controlled = 0.002;
/// By this factor its |w| must be the larger.
inline constexpr double clearly_larger = 1.02;

/// Two explanations cannot be told apart where one is less than twenty times as likely as the other. A sound reading is
/// then taken for the wrong one in at most one case of twenty. Twice the logarithm of these odds, 2 ln 20, is a
/// difference of squared misfits (likelihood ratio of normal errors).
inline constexpr double telling_square = 5.991464547;

/// An additional reading always explains more. By chance it explains this much more in one case of twenty: chi-square of
/// one degree.
inline constexpr double one_more_square = 3.841458821;

namespace kernel {

/// Whether a reading may be named.
template <std::floating_point R>
[[nodiscard]] bool can_be_named(const basic_reading_test<R>& test) {
    return test.controlled() && std::abs(test.redundancy) >= R(least_control);
}
/// Place of the largest |w| among the tests that may be named; of equal ones the last. Where there
/// is none, the number of tests.
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
/// The tests with several readings set aside, except for `but`.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> tests_without_all(basic_reading_tests<R> tests, std::span<const std::size_t> places,
                                                       std::size_t but) {
    for (const std::size_t p : places) {
        if (p != but && tests.at(p).controlled()) { tests = tests_without(tests, p); }
    }
    return tests;
}
/// The tests with one reading set aside, without the readings that could not be told apart from it.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> others_without(const basic_reading_tests<R>& tests, std::size_t place) {
    auto left = tests_without(tests, place);
    for (std::size_t i = 0; i < left.size(); ++i) {
        if (std::abs(tests.likeness(place, i)) > R(too_alike)) { left.at(i) = {}; }
    }
    return left;
}
/// Readings set aside, and how much of the squared misfits they explain together.
template <std::floating_point R>
struct explanation_of_misfits {
    std::vector<std::size_t> places{};
    R square{};
};
/// The list with one reading put at the place `at`, either at its end or instead of another: the reading that explains
/// most beside the others. Returns nothing where no reading is left.
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
/// The list with one reading more than `places` that explains most. From a single reading, pairs are started from every
/// reading; longer lists extend the one before. Each reading in turn is then exchanged for a better one.
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
/// The fewest readings that must be set aside for the others to agree; none where all agree. An additional reading is
/// named only where it explains as much as naming a single one takes.
template <std::floating_point R>
[[nodiscard]] explanation_of_misfits<R> fewest_named(const basic_reading_tests<R>& tests) {
    const std::size_t worst = worst_of(tests);
    const R enough = R(naming_limit * naming_limit);
    if (worst == tests.size() || !(tests.at(worst).w * tests.at(worst).w > enough)) { return {}; }
    explanation_of_misfits<R> named{{worst}, tests.at(worst).w * tests.at(worst).w};
    while (named.places.size() + 1 < tests.degrees) {
        const auto more = one_more(tests, named.places);
        if (!(more.square - named.square > enough)) { break; }
        named = more;
    }
    return named;
}
/// An explanation of the misfits that leaves one of the named readings in place and sets another aside instead.
struct rival {
    double less = std::numeric_limits<double>::infinity(); ///< squared misfits that it explains less than what is named
    bool of_more = false;                                  ///< whether it sets aside more readings than are named
};
/// The best explanation with `place` and without `instead_of`. It has as many readings as are named, or one more where
/// that explains more than chance would.
template <std::floating_point R>
[[nodiscard]] rival rival_with(basic_reading_tests<R> tests, const explanation_of_misfits<R>& named, std::size_t place,
                               std::size_t instead_of) {
    tests.at(instead_of) = {}; // `instead_of` must not be named.
    rival best;
    explanation_of_misfits<R> other{{place}, tests.at(place).w * tests.at(place).w};
    for (; !other.places.empty() && other.places.size() < tests.degrees;
         other = with_best(tests, other.places, other.places.size())) {
        if (other.places.size() < named.places.size()) { continue; }
        const bool of_more = other.places.size() > named.places.size();
        const double less =
            static_cast<double>(named.square - other.square) + (of_more ? telling_square + one_more_square : 0);
        if (less < best.less) { best = {less, of_more}; }
        if (of_more) { break; }
    }
    return best;
}

} // namespace kernel

} // namespace tautline
