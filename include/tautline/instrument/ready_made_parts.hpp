#pragma once
/// @file
/// What ready-made instruments are put together from: strings and rows of posts. Included by name only.

#include <vector>

#include "ordered_instrument.hpp"

namespace tautline::ready_made {

namespace detail {

using namespace units;

/// A plain string.
[[nodiscard]] inline ordered_string plain(const char* note, const length<>& gauge) {
    return {.note = note, .gauge = gauge};
}
/// A wound string.
[[nodiscard]] inline ordered_string wound(const char* note, const length<>& gauge, const length<>& core, const char* wrap) {
    return {.note = note, .gauge = gauge, .core = field<length<>>(core), .wrap = wrap};
}
/// Every string twice, side by side as a course.
[[nodiscard]] inline std::vector<ordered_string> in_pairs(const std::vector<ordered_string>& courses) {
    std::vector<ordered_string> all;
    for (const auto& one : courses) { all.insert(all.end(), 2, one); }
    return all;
}
/// Posts along both sides of a head, half of them on each. The outermost strings go to the posts nearest to the nut.
/// @param first,apart along the head: to the first post of each side, and from post to post
/// @param across,wider distance of the first post from the centre line, and how much is added for each further post
[[nodiscard]] inline std::vector<tuner_post> on_both_sides(int count, const length<>& first, const length<>& apart,
                                                           const length<>& across, const length<>& wider,
                                                           const length<>& height) {
    std::vector<tuner_post> posts;
    for (int k = 0; k < count; ++k) {
        const bool bass = 2 * k < count;
        const double place = bass ? k : count - 1 - k;
        posts.push_back(
            {.along = first + apart * place, .across = (across + wider * place) * (bass ? -1.0 : 1.0), .height = height});
    }
    return posts;
}

} // namespace detail

} // namespace tautline::ready_made
