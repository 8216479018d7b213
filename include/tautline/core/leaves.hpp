#pragma once
/// @file
/// Every number of a described model with its path. By it uncertainties find their inputs, sweeps their knobs and
/// printers their rows.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "any_quantity.hpp"
#include "describe.hpp"

namespace tautline {

namespace description {

/// What every walk over the numbers of a model does with what it meets: it enters descriptions and what optional members
/// hold. `Walk` derives from it: its `at_leaf` and `at_list` tell the rest, and an `at_optional` of its own goes before
/// this one.
template <class Walk>
struct number_visit {
    template <class T>
    void visit(T& x) {
        using plain = std::remove_const_t<T>;
        auto& walk = static_cast<Walk&>(*this);
        if constexpr (described<T>) {
            T::describe(walk, x);
        } else if constexpr (requires { leaf(x); }) {
            walk.at_leaf(x);
        } else if constexpr (optional_like<plain>) {
            walk.at_optional(x);
        } else if constexpr (list_like<plain>) {
            walk.at_list(x);
        }
    }
    template <class T>
    void at_optional(T& x) {
        if (x.has_value()) { visit(*x); }
    }
};

/// A walk over a described model that knows its path. The path is extended and cut back in place, not copied. `Walk`
/// derives from it: its `enters()` tells whether to enter a place, its `at_leaf` what to do with a number.
template <class Walk>
struct path_walk : number_visit<Walk> {
    std::string path{};

    template <class U, class T>
    void operator()(std::string_view name, const range_of<U>&, T& x) {
        (*this)(name, x);
    }
    template <class T>
    void operator()(std::string_view name, T& x) {
        go({path.empty() || name.empty() ? "" : ".", name}, x);
    }
    template <class T>
    void at_list(T& list) {
        for (std::size_t i = 0; i < list.size(); ++i) { go({"[", i, "]"}, list[i]); }
    }

private:
    template <class T>
    void go(std::initializer_list<messages::part> further, T& x) {
        const std::size_t before = path.size();
        messages::append(path, further);
        auto& walk = static_cast<Walk&>(*this);
        if (walk.enters()) { walk.visit(x); }
        path.resize(before);
    }
};

/// Visits all leaves: calls `f(path, number)`, or `f(path, number, range)` with the range of the description, null
/// without one.
template <class F>
struct leaf_walk : path_walk<leaf_walk<F>> {
    using base = path_walk<leaf_walk<F>>;
    F& f;
    const allowed_range* range = nullptr;

    explicit leaf_walk(F& for_each) : f(for_each) {}
    using base::operator();
    template <class U, class T>
    void operator()(std::string_view name, const range_of<U>& allowed, T& x) {
        range = &allowed;
        base::operator()(name, x);
        range = nullptr;
    }
    [[nodiscard]] bool enters() const { return true; }
    template <class T>
    void at_leaf(T& x) {
        if constexpr (requires { f(std::string_view(this->path), x, range); }) {
            f(std::string_view(this->path), x, range);
        } else {
            f(std::string_view(this->path), x);
        }
    }
};

/// Visits all leaves in the same order without their paths: calls `f(number)`.
template <class F>
struct number_walk : number_visit<number_walk<F>> {
    F& f;

    explicit number_walk(F& for_each) : f(for_each) {}
    template <class U, class T>
    void operator()(std::string_view, const range_of<U>&, T& x) {
        this->visit(x);
    }
    template <class T>
    void operator()(std::string_view, T& x) {
        this->visit(x);
    }
    template <class T>
    void at_leaf(T& x) {
        f(x);
    }
    template <class T>
    void at_list(T& x) {
        for (std::size_t i = 0; i < x.size(); ++i) { this->visit(x[i]); }
    }
};

} // namespace description

/// Calls `f(path, number)` for every quantity, interval and Real of a described model, in the order of its description.
/// Whole numbers, texts and choices are not leaves. `number` is the member itself and may be changed. A function of three
/// parameters also gets the number's `const allowed_range*`, null where the description has none.
template <class T, class F>
requires described<T>
void for_each_leaf(T& model, F&& f) {
    description::leaf_walk<std::remove_reference_t<F>> walk(f);
    walk("", model);
}

/// Calls `f(number)` for every number that `for_each_leaf` visits, in the same order. No path is put together, which is
/// most of the work of visiting a large model.
template <class T, class F>
requires described<T>
void for_each_number(T& model, F&& f) {
    description::number_walk<std::remove_reference_t<F>> walk(f);
    walk.visit(model);
}

/// Whether a path is equal to another or names a part of it: "strings[2].gauge" is a part of "strings".
[[nodiscard]] constexpr bool is_at_or_below(std::string_view path, std::string_view above) {
    if (path.substr(0, above.size()) != above) { return false; }
    return path.size() == above.size() || above.empty() || path[above.size()] == '.' || path[above.size()] == '[';
}

/// The bare number of a leaf: of a quantity in SI, of an interval in cents, of a Real itself.
template <class T>
[[nodiscard]] constexpr const auto& number_of(const T& leaf) {
    return description::leaf(leaf);
}

/// The kind of a leaf: "length", "force", ...; "number" for a ratio, "interval" in cents.
template <class T>
[[nodiscard]] constexpr kind_name kind_name_of(const T&) {
    return kernel::leaf_kind<T>::name;
}
/// A leaf with its kind. Of a dual number it is the value.
template <class T>
[[nodiscard]] constexpr any_quantity any_of(const T& leaf) {
    return any_quantity::of(kernel::leaf_kind<T>::name, static_cast<double>(value_of(number_of(leaf))));
}

namespace kernel {

/// Where a number of a model lies.
template <class R>
struct leaf_place {
    std::string path{};    ///< its path
    R* number = nullptr;   ///< the bare number in the model
    kind_name kind{};      ///< what it measures
    std::size_t place = 0; ///< among all leaves, in the order of `for_each_leaf`
};

/// All numbers of a model, which must outlive them, found by path.
template <class R>
class leaf_places {
public:
    template <described T>
    explicit leaf_places(T& model) {
        for_each_leaf(model, [&](std::string_view path, auto& x) {
            // The model is not const.
            all_.push_back({std::string(path), const_cast<R*>(&number_of(x)), kind_name_of(x), all_.size()});
        });
        std::sort(all_.begin(), all_.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
    }
    /// The number of a path; null where there is none.
    [[nodiscard]] const leaf_place<R>* find(std::string_view path) const {
        const auto at = std::lower_bound(all_.begin(), all_.end(), path,
                                         [](const auto& l, std::string_view wanted) { return l.path < wanted; });
        return at == all_.end() || at->path != path ? nullptr : &*at;
    }
    /// How many numbers there are.
    [[nodiscard]] std::size_t size() const { return all_.size(); }

private:
    std::vector<leaf_place<R>> all_{};
};

} // namespace kernel

/// Sets a quantity from its number in SI.
template <class U, class R>
constexpr void set_number(bu::quantity<U, R>& leaf, const std::type_identity_t<R>& v) {
    leaf = bu::quantity<U, R>::from_value(v);
}
/// Sets an interval from a number of cents.
template <class R>
constexpr void set_number(interval<R>& leaf, const std::type_identity_t<R>& v) {
    leaf = interval<R>::from_cents(v);
}
/// Sets a plain number.
template <real R>
constexpr void set_number(R& leaf, const std::type_identity_t<R>& v) {
    leaf = v;
}

} // namespace tautline
