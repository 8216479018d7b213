#pragma once
/// @file
/// Whether a function answers by a number, or by a sentence, wherever its arguments may lie: at nothing, at the least and
/// the most that their kinds may measure, of either sign, far beyond that, and where nothing was given.

#include <string>
#include <vector>

#include <doctest/doctest.h>

#include <tautline/core/describe.hpp>
#include <tautline/core/leaves.hpp>

namespace corners {

/// Where an argument of a kind may lie.
template <class Q>
struct ends;
template <class U>
struct ends<tautline::bu::quantity<U, double>> {
    static std::vector<tautline::bu::quantity<U, double>> list() {
        constexpr auto least = static_cast<double>(tautline::kind<U>::least),
                       most = static_cast<double>(tautline::kind<U>::most);
        std::vector<tautline::bu::quantity<U, double>> all;
        for (const double v : {0.0, least, -least, most, -most, 1e-300, 1e300, tautline::not_given<double>()}) {
            all.push_back(tautline::bu::quantity<U, double>::from_value(v));
        }
        return all;
    }
};
template <>
struct ends<double> {
    static std::vector<double> list() { return {0, 1, -1, 1e-9, 1e9, -1e9, 1e-300, 1e300, tautline::not_given<double>()}; }
};

/// Whether all that came out is numbers.
template <class T>
bool finite(const T& x) {
    if constexpr (tautline::described<const T>) {
        bool fine = true;
        auto copy = x;
        tautline::for_each_leaf(
            copy, [&](std::string_view, const auto& leaf) { fine = fine && finite(tautline::number_of(leaf)); });
        return fine;
    } else if constexpr (tautline::description::optional_like<T>) {
        return !x.has_value() || finite(*x);
    } else if constexpr (tautline::description::list_like<T>) {
        for (std::size_t i = 0; i < x.size(); ++i) {
            if (!finite(x[i])) { return false; }
        }
        return true;
    } else if constexpr (std::is_arithmetic_v<T>) {
        return tautline::all_finite(static_cast<double>(x));
    } else {
        return tautline::all_finite(tautline::description::leaf(x));
    }
}

/// Calls `f` with every combination of such arguments.
template <class... Qs, class F>
void everywhere(const char* name, F&& f) {
    if constexpr (sizeof...(Qs) == 0) {
        try {
            const auto out = f();
            CHECK_MESSAGE(finite(out), name);
        } catch (const tautline::invalid_input& e) { CHECK_MESSAGE(!e.problems().empty(), name); }
    } else {
        [&]<class Q, class... Rest>(std::type_identity<Q>, std::type_identity<Rest>...) {
            for (const Q& q : ends<Q>::list()) {
                everywhere<Rest...>(name, [&](const auto&... rest) { return f(q, rest...); });
            }
        }(std::type_identity<Qs>{}...);
    }
}

} // namespace corners
