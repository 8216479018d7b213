#pragma once
/// @file
/// How one result was made: its formula and source, and which inputs move it by how much. Found by dual numbers through
/// the same code that made the result.

#include <algorithm>
#include <cmath>

#include "../core/leaves.hpp"
#include "../core/when_used.hpp"
#include "../setup/solve.hpp"
#include "meaning.hpp"

namespace tautline {

/// An input that moves a result.
struct moving_input {
    std::string path{};    ///< of the input, as `for_each_leaf` names it
    any_quantity value{};  ///< value of the input
    any_quantity effect{}; ///< change of the result for each unit of the input in SI (a cent for an interval)

    /// Change of the result when the input grows by a hundredth of itself; 0 where the input is 0.
    [[nodiscard]] any_quantity for_one_percent() const { return 0.01 * value.si() * effect; }
};

/// A result with the inputs that made it.
struct explanation {
    std::string path{};                 ///< of the result, as `for_each_leaf` names it
    any_quantity value{};               ///< value of the result
    std::vector<moving_input> inputs{}; ///< those that move it; the largest effect of a hundredth comes first
};

namespace kernel {

/// Finds a number of a described result by its path, in a dual run; returns whether there is one.
template <class Result, class D>
[[nodiscard]] bool find_leaf(const Result& result, std::string_view path, D& number, kind_name& kind) {
    bool there = false;
    for_each_leaf(result, [&](std::string_view at, const auto& x) {
        if (at != path) { return; }
        number = number_of(x);
        kind = kind_name_of(x);
        there = true;
    });
    return there;
}

} // namespace kernel

/// Explains a result of anything that is computed from a described model.
///
/// @param model each of its numbers is tried as an input, eight at a time
/// @param run computes the described result from the model, in any number type
/// @param path path of a number of the result
/// @throws invalid_input where no number of the result has that path, and whatever `run` throws
template <template <class> class Model, class R, class Run>
[[nodiscard]] explanation explain(const Model<R>& model, Run&& run, std::string_view path) {
    constexpr std::size_t at_once = 8;
    using D = dual<R, at_once>;
    explanation e{std::string(path), {}, {}};
    kind_name kind;
    for_each_leaf(model, [&](std::string_view at, const auto& x) { e.inputs.push_back({std::string(at), any_of(x), {}}); });
    for (std::size_t first = 0; first < e.inputs.size(); first += at_once) {
        auto seeded = over<D>(model);
        std::size_t k = 0;
        for_each_leaf(seeded, [&](std::string_view, auto& x) {
            if (k >= first && k < first + at_once) { set_number(x, D::variable(number_of(x).value, k - first)); }
            ++k;
        });
        D number{};
        const bool there = kernel::find_leaf(run(seeded), path, number, kind);
        require_that(there, std::string(path), "must be the path of a number of the result");
        e.value = any_quantity::of(kind, static_cast<double>(number.value));
        for (k = first; k < std::min(first + at_once, e.inputs.size()); ++k) {
            e.inputs[k].effect = any_quantity::of(kind, static_cast<double>(number.partial[k - first]));
        }
    }
    std::erase_if(e.inputs, [](const moving_input& i) { return i.effect.si() == 0; });
    std::stable_sort(e.inputs.begin(), e.inputs.end(), [](const moving_input& a, const moving_input& b) {
        return std::abs(a.for_one_percent().si()) > std::abs(b.for_one_percent().si());
    });
    return e;
}

/// Explains a result of a setup by its path, such as "relief.gap" or "strings[2].heights[11]".
template <class R = double>
[[nodiscard]] explanation explain(const basic_strung_instrument<R>& model, std::string_view path) {
    return explain<basic_strung_instrument>(
        model, [](const auto& on) { return solve(on); }, path);
}
TAUTLINE_HELD(explanation explain<double>(const strung_instrument&, std::string_view))

} // namespace tautline
