#pragma once
/// @file
/// What is drawn of a job: its states, and the pictures of its page.

#include <string>
#include <vector>

#include <subject.hpp>

#include "blocks.hpp"

namespace bench_sheet {

/// The states of a job for the drawings: as found, and as planned where something is to change. The job must outlive them.
/// @param fine whether numbers that are worked to have all decimals
[[nodiscard]] std::vector<drawing::subject> subjects_of(const whole_job& w, bool fine = false);

[[nodiscard]] constexpr drawing::measures drawn_in(measures m) {
    return m == measures::metric     ? drawing::measures::metric
           : m == measures::imperial ? drawing::measures::imperial
                                     : drawing::measures::both;
}

/// Where a picture belongs.
enum class picture_kind { view, map, folded_map, slots };
/// A picture on a page, with what is said of it.
struct picture {
    std::string heading{};
    drawing::page drawn{};
    std::string told{}; ///< for who does not see it
    block_rows numbers{};
    picture_kind kind = picture_kind::view;
    std::string words{}; ///< under it
};
/// The pictures of a job: from the side, where it buzzes, nut and saddle.
[[nodiscard]] std::vector<picture> pictures_of(const whole_job& w, measures m, bool fine = false);

} // namespace bench_sheet
