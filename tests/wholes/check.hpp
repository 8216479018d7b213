#pragma once
/// @file
/// Runs an invariant over random instruments, and over every instrument that ever broke one.
///
/// An invariant is a function that looks at an instrument and says what is wrong. What breaks it is shrunk toward a plain
/// instrument and printed as a recipe (recipe.hpp) that can be put into `found_before.cpp`.
///
/// The instruments are the same in every run: the seed and how many there are are fixed, and the environment overrides
/// them:
///   TAUTLINE_WHOLES_SEED=7       another set of instruments
///   TAUTLINE_WHOLES_COUNT=10     that many percent of the instruments, 1000 for a long night
///   TAUTLINE_WHOLES_SURVEY=1     says by how much each number is off at most, over all instruments, and where

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "random_instrument.hpp"

namespace wholes {

/// What is wrong with one instrument.
class complaints {
public:
    /// `got` must be within `allowed` of `expected`. NaN never is. `what` is a path or a sentence's beginning.
    void unless_near(const std::string& what, double got, double expected, double allowed);
    /// `holds` must be so.
    void unless(bool holds, const std::string& what);

    [[nodiscard]] bool none() const { return count_ == 0; }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    void add(const std::string& line);
    std::string text_{};
    int count_ = 0;
};

/// An invariant: looks at an instrument, complains where it does not hold. An instrument it says nothing about returns
/// false and does not count.
using invariant = std::function<bool(const whole&, complaints&)>;

/// Checks the invariant on the instruments that broke one before and on `count` random ones; a doctest failure with the
/// shrunk recipe where it does not hold. `biased` may turn any recipe into one that the invariant is about; what it leaves
/// as it is it must leave alone the second time.
void must_hold(
    const char* name, int count, const invariant& holds, const std::function<void(recipe&)>& biased = [](recipe&) {});

/// Every recipe that ever broke an invariant.
[[nodiscard]] const std::vector<recipe>& found_before();

/// The greatest number under each name, for the survey: `worst.at("heights")`, in whatever unit it was noted.
class survey {
public:
    [[nodiscard]] static bool wanted();
    void note(const std::string& name, double off, double allowed, const recipe& where);
    /// Prints what was noted, one name a line, those beyond what is allowed marked.
    void print(const char* title) const;

private:
    struct row {
        double off = 0, allowed = 0;
        recipe where{};
        int beyond = 0, seen = 0;
    };
    std::map<std::string, row> rows_{};
};

} // namespace wholes
