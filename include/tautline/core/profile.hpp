#pragma once
/// @file
/// A measured profile along the board: heights at marks, straight between them, level outside.

#include <vector>

#include "describe.hpp"
#include "number_row.hpp"
#include "units.hpp"

namespace tautline {

/// One point of a profile along the board: height of its shape over a straight line, or excess of its thickness over a
/// linear run.
template <class R = double>
struct basic_profile_mark {
    using real = R;
    needed<length<R>> x; ///< along the board from the nut
    needed<length<R>> z; ///< above the straight line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-300 * units::mm, 3000 * units::mm), self.x...);
        visit("z", between(-50 * units::mm, 50 * units::mm), self.z...);
    }
};
using profile_mark = basic_profile_mark<double>;

namespace kernel {

/// Height of a profile given by marks: straight between them, level outside, 0 without marks. V is R, or a row of places.
template <class R, class V>
[[nodiscard]] constexpr length<V> profile_height(const std::vector<basic_profile_mark<R>>& marks, const length<V>& x) {
    if (marks.empty()) { return {}; }
    length<V> z = everywhere<V>(marks.front().z);
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const length<R> span = marks[i].x - marks[i - 1].x, rise = marks[i].z - marks[i - 1].z;
        const V u = ratio(length<V>(x - everywhere<V>(marks[i - 1].x)), length<V>(everywhere<V>(span)));
        z = z + everywhere<V>(rise) * V(max(number<V>(0), min(number<V>(1), u)));
    }
    return z;
}

/// Reports every mark that does not lie further from the nut than the one before it.
template <class R, class Report>
void report_marks(const std::vector<basic_profile_mark<R>>& marks, std::string_view name, Report&& report) {
    for (std::size_t i = 1; i < marks.size(); ++i) {
        if (!in_all_lanes(marks[i - 1].x.value() < marks[i].x.value())) {
            report(messages::path_of(name, i, "x"), "must be further from the nut than the mark before it");
        }
    }
}

} // namespace kernel

} // namespace tautline
