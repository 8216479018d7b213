#pragma once
/// @file
/// The drawings of a job: its states, and the pictures of its page.

#include <string>
#include <vector>

#include <subject.hpp>

#include "blocks.hpp"

namespace bench_sheet {

/// The states of a job to draw: as found, and as planned if something changes. The job must outlive them.
/// @param fine whether numbers that are worked to have all decimals
[[nodiscard]] std::vector<drawing::subject> subjects_of(const whole_job& w, bool fine = false);

[[nodiscard]] constexpr drawing::measures drawn_in(measures m) {
    return m == measures::metric     ? drawing::measures::metric
           : m == measures::imperial ? drawing::measures::imperial
                                     : drawing::measures::both;
}

/// The part of the page that a picture belongs to.
enum class picture_kind { view, map, folded_map, slots };
/// A picture on a page, with its words.
struct picture {
    std::string heading{};
    drawing::page drawn{};
    std::string told{}; ///< a description for people who cannot see it
    block_rows numbers{};
    picture_kind kind = picture_kind::view;
    std::string words{}; ///< a line below it
};
/// The pictures of a job: the side view, the buzz maps, nut and saddle.
[[nodiscard]] std::vector<picture> pictures_of(const whole_job& w, measures m, bool fine = false);

} // namespace bench_sheet
