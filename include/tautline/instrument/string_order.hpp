#pragma once
/// @file
/// Whether a set is listed as it lies on the instrument, bass first. What cannot be meant is refused; what may be meant
/// is asked about.

#include <optional>

#include "stringing.hpp"

namespace tautline {

namespace kernel {

/// Calls `f(first, last)` for each course, bass first: the places of its strings in the list.
template <class F>
constexpr void for_each_course(const std::vector<int>& courses, F&& f) {
    std::size_t first = 0;
    for (const int c : courses) {
        const std::size_t last = first + static_cast<std::size_t>(c);
        f(first, last);
        first = last;
    }
}

} // namespace kernel

/// Whether a set of three courses or more sounds lower from each course to the next along the list. It is then listed
/// treble first: no instrument is tuned so from its bass side. The lowest string of a course counts.
template <class R>
[[nodiscard]] bool is_listed_treble_first(const std::vector<int>& courses,
                                          const std::vector<basic_tuned_string<R>>& strings) {
    bool falls = courses.size() >= 3;
    std::optional<note> before;
    kernel::for_each_course(courses, [&](std::size_t first, std::size_t last) {
        if (last <= first || last > strings.size()) { // no such course
            falls = false;
            return;
        }
        note lowest = strings[first].pitch;
        for (std::size_t i = first; i < last; ++i) { lowest = std::min(lowest, strings[i].pitch); }
        falls = falls && (!before || lowest < *before);
        before = lowest;
    });
    return falls;
}
/// The message for such a set, for whoever wrote it.
inline constexpr const char* must_stand_bass_first =
    "must stand bass first, but each sounds lower than the one before: turn the list round, so that string 1, the highest, "
    "stands last";

} // namespace tautline
