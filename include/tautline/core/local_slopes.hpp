#pragma once
/// @file
/// Derivatives of a formula that has few inputs and many steps. A dual carries all its partials through every step. Here a
/// formula is worked out with slopes by its own inputs alone, and the inputs' partials are put together once, at the end.
///
/// Source: A. Griewank and A. Walther, "Evaluating Derivatives" (2nd ed., 2008), preaccumulation (from memory).

#include <array>
#include <cstddef>
#include <utility>

#include "dual.hpp"

namespace tautline::kernel {

/// What a formula of so many inputs is worked out in: R itself, or a dual by these inputs alone where that has at most half
/// as many partials.
template <class R, std::size_t inputs>
struct local_number {
    using type = R;
};
template <class R, std::size_t N, class P, std::size_t inputs>
struct local_number<dual<R, N, P>, inputs> {
    static constexpr std::size_t together = std::is_same_v<R, P> ? 1 : lanes_of<P>::count; // inputs in one partial
    static constexpr std::size_t partials = (inputs + together - 1) / together;
    using type = std::conditional_t<derivatives_in<R> == 0 && 2 * partials <= N, dual<R, partials, P>, dual<R, N, P>>;
};
/// Whether a formula of so many inputs has slopes of its own.
template <class R, std::size_t inputs>
inline constexpr bool has_local_slopes = !std::is_same_v<typename local_number<R, inputs>::type, R>;

/// The slope by one input.
template <class R, std::size_t N, class P>
[[nodiscard, gnu::always_inline]] constexpr R slope_by(const dual<R, N, P>& y, std::size_t input) {
    if constexpr (std::is_same_v<R, P>) {
        return y.partial[input];
    } else {
        return R(lanes_of<P>::get(y.partial[input / lanes_of<P>::count], input % lanes_of<P>::count));
    }
}
template <class R, std::size_t N, class P, std::size_t... i, class... More>
[[nodiscard, gnu::always_inline]] constexpr dual<R, N, P>
from_slopes(const R& f, const std::array<R, 1 + sizeof...(More)>& slopes, std::index_sequence<i...>,
            const dual<R, N, P>& first, const More&... more) {
    const P along(slopes[0]);
    const std::array<P, sizeof...(i)> slope{P(slopes[i + 1])...};
    return dual<R, N, P>::made(
        f, [&](std::size_t k) __attribute__((always_inline)) {
            P sum = along * first.partial[k];
            ((sum = P(sum + P(slope[i] * more.partial[k]))), ...);
            return sum;
        });
}
/// The dual of a function of several duals, from its value and its slope by each.
template <class R, std::size_t N, class P, class... More>
[[nodiscard, gnu::always_inline]] constexpr dual<R, N, P>
from_slopes(const R& f, const std::array<R, 1 + sizeof...(More)>& slopes, const dual<R, N, P>& first, const More&... more) {
    return from_slopes(f, slopes, std::make_index_sequence<sizeof...(More)>{}, first, more...);
}
template <class D, std::size_t... i, class R, class... More>
[[nodiscard, gnu::always_inline]] constexpr R of_result(const D& y, std::index_sequence<i...>, const R& first,
                                                        const More&... more) {
    return from_slopes(y.value, {slope_by(y, i)...}, first, more...);
}
/// All results with the partials of the inputs.
template <class D, std::size_t M, std::size_t... result, class R, class... More>
[[nodiscard, gnu::always_inline]] constexpr std::array<R, M>
with_partials(const std::array<D, M>& y, std::index_sequence<result...>, const R& first, const More&... more) {
    return {{of_result(y[result], std::make_index_sequence<1 + sizeof...(More)>{}, first, more...)...}};
}
template <class D, class F, std::size_t... i, class... X>
[[nodiscard, gnu::always_inline]] constexpr auto at_variables(F& f, std::index_sequence<i...>, const X&... x) {
    return f(D::variable(x.value, i)...);
}

/// The results of a formula, with all derivatives of its inputs.
/// @param f callable with its inputs over any Real; it returns an array of results. It should be inlined.
template <class F, class R, class... More>
[[nodiscard, gnu::always_inline]] constexpr auto by_local_slopes(F&& f, const R& first, const More&... more) {
    constexpr std::size_t inputs = 1 + sizeof...(More);
    if constexpr (!has_local_slopes<R, inputs>) {
        return f(first, more...);
    } else {
        using D = typename local_number<R, inputs>::type;
        const auto y = at_variables<D>(f, std::make_index_sequence<inputs>{}, first, more...);
        return with_partials(y, std::make_index_sequence<std::tuple_size_v<std::remove_cvref_t<decltype(y)>>>{}, first,
                             more...);
    }
}

} // namespace tautline::kernel
