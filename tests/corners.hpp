#pragma once
/// @file
/// Whether a function answers by a number, or by a sentence, wherever its arguments may lie: at nothing, at the least and
/// the most that their kinds may measure, of either sign, far beyond that, and where nothing was given.

#include <cmath>
#include <functional>
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

/// A number of a model: how it is set, what it was, and where it may lie.
struct knob {
    std::string path;
    std::function<void(double)> set;
    double was = 0;
    std::vector<double> values;
};
/// Lists the numbers of a model, whole ones too: the ends of what its kind measures and of the range it is described with.
class knob_list {
public:
    std::vector<knob> knobs;

    template <class U, class T>
    void operator()(std::string_view name, const tautline::range_of<U>& range, T& x) {
        go(name, x, &range);
    }
    template <class T>
    void operator()(std::string_view name, T& x) {
        go(name, x, nullptr);
    }

private:
    template <class T>
    void go(std::string_view name, T& x, const tautline::allowed_range* range) {
        const std::string before = path_;
        path_ += (path_.empty() || name.empty() ? "" : ".") + std::string(name);
        visit(x, range);
        path_ = before;
    }
    template <class T>
    void visit(T& x, const tautline::allowed_range* range) {
        if constexpr (std::is_same_v<T, int>) {
            add(x, {0, -1, 1, 2, 13, 1e6, tautline::not_counted}, range, [&x](double v) { x = static_cast<int>(v); });
        } else if constexpr (tautline::described<T>) {
            T::describe(*this, x);
        } else if constexpr (requires { tautline::description::leaf(x); }) {
            std::vector<double> values;
            for (const auto& q : ends_of(x)) { values.push_back(tautline::number_of(q)); }
            add(tautline::number_of(x), values, range, [&x](double v) { tautline::set_number(x, v); });
        } else if constexpr (tautline::description::optional_like<T>) {
            if (x.has_value()) { visit(*x, range); }
        } else if constexpr (tautline::description::list_like<T>) {
            for (std::size_t i = 0; i < x.size(); ++i) {
                const std::string before = path_;
                path_ += "[" + std::to_string(i) + "]";
                visit(x[i], range);
                path_ = before;
            }
        }
    }
    template <class U>
    static auto ends_of(const tautline::bu::quantity<U, double>&) {
        return ends<tautline::bu::quantity<U, double>>::list();
    }
    static std::vector<double> ends_of(double) { return ends<double>::list(); }
    static std::vector<tautline::interval<double>> ends_of(const tautline::interval<double>&) {
        std::vector<tautline::interval<double>> all;
        for (const double v : ends<double>::list()) { all.push_back(tautline::interval<double>::from_cents(v)); }
        return all;
    }
    void add(double was, std::vector<double> values, const tautline::allowed_range* range,
             const std::function<void(double)>& set) {
        if (range) {
            for (const long double end : {range->low, range->high}) {
                if (std::isfinite(end)) { values.push_back(static_cast<double>(end)); }
            }
        }
        knobs.push_back({path_, set, was, std::move(values)});
    }
    std::string path_{};
};

/// Calls `f` with a model of which one number after the other lies at every such place.
template <class Model, class F>
void each_number(const char* name, Model model, F&& f) {
    knob_list list;
    Model::describe(list, model);
    int numbers = 0; // else nothing but refusals was looked at
    for (const knob& k : list.knobs) {
        for (const double v : k.values) {
            k.set(v);
            CAPTURE(name);
            CAPTURE(k.path);
            CAPTURE(v);
            try {
                const auto out = f(std::as_const(model));
                CHECK(finite(out));
                ++numbers;
            } catch (const tautline::invalid_input& e) { CHECK(!e.problems().empty()); }
        }
        k.set(k.was);
    }
    CHECK_MESSAGE(numbers > 0, name);
}

} // namespace corners
