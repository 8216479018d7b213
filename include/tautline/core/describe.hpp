#pragma once
/// @file
/// One description of each aggregate serves several uses: to check it, to carry it to another number type, to list its
/// inputs.
///
/// A described type says `using real = R;` and has
/// @code
/// template <class Visit, class... Self>
/// static constexpr void describe(Visit&& visit, Self&... self) {
///     visit("diameter", more_than(0 * units::mm), self.diameter...);   // a quantity with its range
///     visit("wraps", self.wraps...);                                   // anything else: nested, list, text, choice
/// }
/// @endcode `describe` takes one object, or several of the same template, and walks them side by side. Rules between
/// fields go into `template <class Report> void rules(Report&& report) const`. It calls `report(field, "must ...")` for
/// each broken rule, or `report(field, "must ...", value)` to tell the given value too.

#include <string>
#include <type_traits>
#include <vector>

#include "invalid_input.hpp"

namespace tautline {

namespace description {

struct ignore {
    template <class... T>
    constexpr void operator()(T&&...) const {}
};

} // namespace description

/// A type with a `describe` as above.
template <class T>
concept described = requires(T& t) {
    T::describe(description::ignore{}, t);
};

namespace description {

template <class T>
concept optional_like = requires(const T& t) {
    t.has_value();
    *t;
};
template <class T>
concept list_like = requires(const T& t) {
    t.size();
    t[0];
}
&&!std::is_convertible_v<const T&, std::string_view>;

template <class U, class R>
constexpr const R& leaf(const bu::quantity<U, R>& q) {
    return q.value();
}
template <class R>
constexpr const R& leaf(const interval<R>& i) {
    return i.cents();
}
template <real R>
constexpr const R& leaf(const R& v) {
    return v;
}

/// Where a checker stands in a model: names and places in lists, from the top down. It becomes text only when something
/// is wrong there.
struct place {
    const place* above = nullptr;
    std::string_view name{};
    std::size_t item = none; // place in the list that is called by the name above
    static constexpr std::size_t none = static_cast<std::size_t>(-1);

    [[nodiscard]] std::string path() const {
        const std::string before = above ? above->path() : std::string();
        if (item != none) { return messages::path_of(before, item); }
        return messages::joined({before, before.empty() || name.empty() ? "" : ".", name});
    }
};

/// Checks every member of a model and counts what is wrong. If it was given a list, it adds each problem to it. Without
/// a list it makes no text, so that nothing is allocated.
class checker {
public:
    constexpr explicit checker(std::vector<problem>* found) : found_(found) {}
    [[nodiscard]] constexpr bool fine() const { return count_ == 0; }

    template <class U, class T>
    constexpr void operator()(std::string_view name, const range_of<U>& range, const T& x) {
        within(place{at_, name}, range, x);
    }
    template <class T>
    constexpr void operator()(std::string_view name, const T& x) {
        inside(place{at_, name}, x);
    }

private:
    /// Checks a leaf with a range, or an optional or a list of such leaves.
    template <class U, class T>
    constexpr void within(const place& at, const range_of<U>& range, const T& x) {
        if constexpr (std::is_same_v<U, text_tag>) {
            if (x.empty()) { say({at.path(), "not given", "must be text"}); }
        } else if constexpr (optional_like<T>) {
            if (x.has_value()) { within(at, range, *x); }
        } else if constexpr (list_like<T>) {
            for (std::size_t i = 0; goes_on() && i < x.size(); ++i) { within(place{&at, {}, i}, range, x[i]); }
        } else if constexpr (std::is_integral_v<T>) {
            const auto count = static_cast<long double>(x);
            const auto v = count == not_counted ? not_given<long double>() : count;
            if (!range.holds(v)) { note(at, {v, true}, range, messages::notation_of<U>); }
        } else {
            if (!range.holds(leaf(x))) { note(at, messages::shown_value(leaf(x)), range, messages::notation_of<U>); }
        }
    }
    /// Checks something by its own description; other things have nothing to check.
    template <class T>
    constexpr void inside(const place& at, const T& x) {
        if constexpr (described<const T>) {
            const place* const outside = at_;
            const std::size_t before = count_;
            at_ = &at;
            T::describe(*this, x);
            if constexpr (requires { x.rules(broken_rule{*this}); }) {
                // Rules between fields make no sense while a field itself is out of range.
                if (count_ == before) { x.rules(broken_rule{*this}); }
            }
            at_ = outside;
        } else if constexpr (optional_like<T>) {
            if (x.has_value()) { inside(at, *x); }
        } else if constexpr (list_like<T>) {
            for (std::size_t i = 0; goes_on() && i < x.size(); ++i) { inside(place{&at, {}, i}, x[i]); }
        }
    }

    struct broken_rule {
        checker& self;
        /// @param value as given, where the rule is about one value alone
        constexpr void operator()(std::string_view field, std::string_view rule, std::string_view value = {}) const {
            ++self.count_;
            if (self.found_) { self.tell(field, rule, value); }
        }
    };
    void tell(std::string_view field, std::string_view rule, std::string_view value) {
        found_->push_back({place{at_, field}.path(), messages::joined({value}), messages::joined({rule})});
    }
    void say(problem p) {
        ++count_;
        if (found_) { found_->push_back(std::move(p)); }
    }
    constexpr void note(const place& at, const messages::shown_number& value, const allowed_range& range,
                        const messages::notation& write) {
        ++count_;
        if (found_) { tell_range(at, value, range, write); }
    }
    void tell_range(const place& at, const messages::shown_number& value, const allowed_range& range,
                    const messages::notation& write) {
        found_->push_back(messages::out_of_range(at.path(), value, range, write));
        if (value.shown && value.value != value.value) { found_->back().value = "not given, or not a number"; }
    }
    [[nodiscard]] constexpr bool goes_on() const { return found_ || count_ == 0; }

    std::vector<problem>* found_;
    std::size_t count_ = 0;
    const place* at_ = nullptr;
};

/// Copies a model into its twin over another number type, number by number through `Convert`.
template <class Convert>
struct carrier {
    Convert convert;

    template <class U, class From, class To>
    constexpr void operator()(std::string_view, const range_of<U>&, const From& from, To& to) const {
        carry(from, to);
    }
    template <class From, class To>
    constexpr void operator()(std::string_view, const From& from, To& to) const {
        carry(from, to);
    }
    template <class From, class To>
    constexpr void carry(const From& from, To& to) const {
        if constexpr (std::is_same_v<From, To>) {
            to = from;
        } else if constexpr (described<const From>) {
            From::describe(*this, from, to);
        } else if constexpr (optional_like<From>) {
            to.reset();
            if (from.has_value()) { carry(*from, to.emplace()); }
        } else if constexpr (list_like<From>) {
            to.resize(from.size());
            for (std::size_t i = 0; i < from.size(); ++i) { carry(from[i], to[i]); }
        } else {
            to = converted(from, to);
        }
    }
    template <class U, class R, class S>
    constexpr bu::quantity<U, S> converted(const bu::quantity<U, R>& from, const bu::quantity<U, S>&) const {
        return bu::quantity<U, S>::from_value(convert.template operator()<S>(from.value()));
    }
    template <class R, class S>
    constexpr interval<S> converted(const interval<R>& from, const interval<S>&) const {
        return interval<S>::from_cents(convert.template operator()<S>(from.cents()));
    }
    template <real R, real S>
    constexpr S converted(const R& from, const S&) const {
        return convert.template operator()<S>(from);
    }
};
struct cast {
    template <class S, class R>
    constexpr S operator()(const R& from) const {
        return static_cast<S>(from);
    }
};
struct look {
    template <class S, class R>
    constexpr S operator()(const R& from) const {
        return tautline::searched(from);
    }
};
struct take_lane {
    std::size_t lane;
    template <class S, class R>
    constexpr S operator()(const R& from) const {
        return lanes_of<R>::get(from, lane);
    }
};

template <class T, class S>
struct rebound;
template <template <class> class Model, class R, class S>
struct rebound<Model<R>, S> {
    using type = Model<S>;
};
template <class T, class S>
using rebound_t = typename rebound<T, S>::type;

} // namespace description

/// Everything that is wrong with a described value; empty when nothing is. `name` is the first part of every path.
template <described T>
[[nodiscard]] std::vector<problem> validate(const T& x, std::string_view name = "") {
    std::vector<problem> found;
    description::checker{&found}(name, x);
    return found;
}

/// Whether nothing is wrong with a described value. It allocates nothing if so.
template <described T>
[[nodiscard]] bool is_valid(const T& x) {
    description::checker checker(nullptr);
    checker("", x);
    return checker.fine();
}

/// Checks a described value: throws `invalid_input` with everything that is wrong with it.
template <described T>
void require_valid(const T& x, std::string_view name = "") {
    if (is_valid(x)) { return; }
    if (auto found = validate(x, name); !found.empty()) { throw invalid_input(std::move(found)); }
}

/// As `require_valid`, for functions that work in constant expressions too: there a wrong value does not compile.
template <described T>
constexpr void constexpr_require_valid(const T& x, std::string_view name = "") {
    if (std::is_constant_evaluated()) {
        description::checker checker(nullptr);
        checker(name, x);
        require_that(checker.fine(), name, "must be valid");
    } else {
        require_valid(x, name);
    }
}

/// The same model over number type `S`. By it a setup described in doubles is solved in duals, floats or packs.
template <class S, described T>
[[nodiscard]] constexpr description::rebound_t<T, S> over(const T& model) {
    auto twin = description::rebound_t<T, S>();
    description::carrier<description::cast>{}.carry(model, twin);
    return twin;
}

/// The same model as a search looks at it: over `search_t` of its number type.
template <described T>
[[nodiscard]] constexpr description::rebound_t<T, search_t<typename T::real>> searched(const T& model) {
    auto twin = description::rebound_t<T, search_t<typename T::real>>();
    description::carrier<description::look>{}.carry(model, twin);
    return twin;
}

/// The model of one lane from a model over packs. It has all that the description lists.
template <described T>
[[nodiscard]] constexpr description::rebound_t<T, scalar_of_t<typename T::real>> lane(const T& model, std::size_t i) {
    auto one = description::rebound_t<T, scalar_of_t<typename T::real>>();
    description::carrier<description::take_lane>{{i}}.carry(model, one);
    return one;
}

} // namespace tautline
