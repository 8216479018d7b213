#pragma once
/// @file
/// The heights that were read on an instrument, for drawings and tables that show them beside the setup's own.

#include <vector>

#include "readable.hpp"
#include "reconciliation.hpp"
#include "state_solve.hpp"

namespace tautline {

/// A height of an open string over a fret, as it was read.
struct read_height {
    std::size_t string_index = 0; ///< counted from 0, bass first
    int fret = 0;                 ///< counted from 1
    length<> height{};            ///< as read
    length<> give_or_take{};      ///< half width of the interval of about 95 %
    bool disagrees = false;       ///< with what else was read
};

/// The heights that were read at pitch, in the order in which they were given.
[[nodiscard]] inline std::vector<read_height> heights_read(const reconciliation& said) {
    std::vector<read_height> all;
    for (std::size_t k = 0; k < said.readings.size(); ++k) {
        const reconciled_reading& one = said.readings[k];
        if (find_readable(one.path)->what != readable::height || one.state != pitch_state) { continue; }
        all.push_back({*one.string_index, *one.fret, one.value.as<length<>>(),
                       (coverage_factor * one.standard).as<length<>>(), said.is_suspected(said.inputs.size() + k)});
    }
    return all;
}

} // namespace tautline
