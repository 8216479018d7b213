#pragma once
/// @file
/// Numbers of a described model by their path: `get(model, "saddle.height_bass")`, `set(model, "board.width", "43 mm")`.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "any_from_text.hpp"
#include "leaves.hpp"
#include "near_names.hpp"
#include "when_used.hpp"

namespace tautline {

namespace description {

/// Visits the leaf with one path: calls `f(number)`. Only what lies on the way to it is entered.
template <class F>
struct leaf_search : path_walk<leaf_search<F>> {
    std::string_view wanted;
    F& f;

    leaf_search(std::string_view path_wanted, F& found) : wanted(path_wanted), f(found) {}
    [[nodiscard]] bool enters() const { return is_at_or_below(wanted, this->path); }
    template <class T>
    void at_leaf(T& x) {
        if (this->path == wanted) { f(x); }
    }
};

} // namespace description

/// The paths of all numbers of a model, in the order of its description.
template <described T>
[[nodiscard]] std::vector<std::string> paths_of(const T& model) {
    when_used_t<std::vector<std::string>, T> paths;
    for_each_leaf(model, [&](std::string_view path, const auto&) { paths.emplace_back(path); });
    return paths;
}

/// The number with a path; an `any_quantity` without a value where there is none.
template <described T>
[[nodiscard]] any_quantity find_at(const T& model, std::string_view path) {
    any_quantity found;
    const auto take = [&](const auto& x) { found = any_of(x); };
    description::leaf_search search(path, take);
    search("", model);
    return found;
}

namespace kernel {

template <class T>
[[noreturn]] void refuse_path(const T& model, std::string_view path) {
    const auto paths = paths_of(model);
    const when_used_t<std::vector<std::string_view>, T> known(paths.begin(), paths.end());
    const std::string_view close = nearest(path, known);
    throw invalid_input(problem{
        std::string(path), "",
        messages::joined({"must be the path of a number that is there", close.empty() ? "" : ", such as ", close})});
}
template <class T>
void set_at(T& model, std::string_view path, const any_quantity& q) {
    const auto put = [&](auto& x) { set_number(x, number<std::remove_cvref_t<decltype(number_of(x))>>(q.si())); };
    description::leaf_search search(path, put);
    search("", model);
}

} // namespace kernel

/// The number with a path, with its kind: `get(setup, "relief.gap").as<length<>>()`.
/// @throws invalid_input where no number has that path; it names the nearest path that there is
template <described T>
[[nodiscard]] any_quantity get(const T& model, std::string_view path) {
    const any_quantity found = find_at(model, path);
    if (!found.has_value()) { kernel::refuse_path(model, path); }
    return found;
}

/// The kind of the number with a path. @throws invalid_input as `get` does
template <described T>
[[nodiscard]] kind_name kind_of(const T& model, std::string_view path) {
    return get(model, path).kind();
}

/// Sets the number with a path.
/// @throws invalid_input where no number has that path, and for a quantity of another kind
template <described T>
void set(T& model, std::string_view path, const any_quantity& q) {
    const kind_name kind = kind_of(model, path);
    if (q.kind() != kind) {
        throw invalid_input(problem{std::string(path), q.has_value() ? messages::joined({"a ", q.kind()}) : std::string(),
                                    messages::joined({"must be ", typed_as(kind)})});
    }
    kernel::set_at(model, path, q);
}
/// Sets the number with a path from a text: "12 thou", "-3".
/// @throws invalid_input where no number has that path, and for a text that is not a quantity of its kind
template <described T>
void set(T& model, std::string_view path, std::string_view text) {
    kernel::set_at(model, path, any_from_text(kind_of(model, path), text, path));
}
/// The same from a string literal.
template <described T>
void set(T& model, std::string_view path, const char* text) {
    set(model, path, std::string_view(text));
}

} // namespace tautline
