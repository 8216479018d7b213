#pragma once
/// @file
/// What is planned of an instrument by value. Laid over the instrument, it changes what it names and leaves the rest.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "../core/leaves.hpp"
#include "../instrument/instrument.hpp"

namespace tautline {

/// Planned values with the paths that they are planned under.
template <class R = double>
struct basic_overlay {
    using real = R;
    basic_instrument<R> values; ///< begun as found, so that unnamed values fit the named ones
    /// Paths of the values that count, such as "saddle.height_bass". A list or a part that is named as a whole ("posts",
    /// "pins") is taken as a whole, and is removed where the values have none.
    std::vector<std::string> paths{};

    /// Whether it names this path, or one above it.
    [[nodiscard]] bool names(std::string_view path) const {
        return std::any_of(paths.begin(), paths.end(), [&](const std::string& p) { return is_at_or_below(path, p); });
    }
    /// Whether it names a path below this one.
    [[nodiscard]] bool reaches_into(std::string_view path) const {
        return std::any_of(paths.begin(), paths.end(), [&](const std::string& p) { return is_at_or_below(p, path); });
    }
};
using overlay = basic_overlay<double>;

namespace kernel {

/// Walks two instruments side by side and copies what is named.
template <class R>
struct layer {
    const basic_overlay<R>& over;
    std::string path{};

    template <class U, class From, class To>
    void operator()(std::string_view name, const range_of<U>&, const From& from, To& to) {
        go({path.empty() ? "" : ".", name}, from, to);
    }
    template <class From, class To>
    void operator()(std::string_view name, const From& from, To& to) {
        go({path.empty() ? "" : ".", name}, from, to);
    }

private:
    template <class From, class To>
    void go(std::initializer_list<messages::part> further, const From& from, To& to) {
        const std::size_t before = path.size();
        messages::append(path, further);
        if (over.names(path)) {
            to = from;
        } else if (over.reaches_into(path)) {
            into(from, to);
        }
        path.resize(before);
    }
    template <class From, class To>
    void into(const From& from, To& to) {
        if constexpr (described<const From>) {
            From::describe(*this, from, to);
        } else if constexpr (description::optional_like<From>) {
            if (from && to) {
                into(*from, *to);
            } else if (from) {
                to = from; // a part that was not there is copied as a whole
            }
        } else if constexpr (description::list_like<From>) {
            for (std::size_t i = 0; i < std::min(from.size(), to.size()); ++i) { go({"[", i, "]"}, from[i], to[i]); }
        }
    }
};

} // namespace kernel

/// Lays values over an instrument.
template <class R>
void lay_over(const basic_overlay<R>& over, basic_instrument<R>& on) {
    kernel::layer<R> walk{over};
    basic_instrument<R>::describe(walk, over.values, on);
}

} // namespace tautline
