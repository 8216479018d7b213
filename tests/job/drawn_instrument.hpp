#pragma once
// Simulated instruments: each differs from its file by what the file doubts.
#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include <tautline/core/leaves.hpp>
#include <tautline/doubt/normal_deviate.hpp>
#include <tautline/job/answer.hpp>

namespace drawn {

/// The instrument as it really is, one of many.
/// @param left_out names of doubts that are not drawn, such as those of cuts that are still to be made
inline tautline::strung_instrument one_of_many(const tautline::strung_instrument& as_read, const tautline::setup_doubts& d,
                                               std::uint64_t seed, std::size_t row,
                                               const std::vector<std::string>& left_out = {}) {
    std::map<std::string, double, std::less<>> moved;
    for (std::size_t k = 0; k < d.doubts.size(); ++k) {
        if (std::find(left_out.begin(), left_out.end(), d.doubts[k].name) != left_out.end()) { continue; }
        const double off = tautline::kernel::normal_deviate(seed, row, k) * d.doubts[k].standard.si();
        for (const tautline::moved_leaf& m : d.doubts[k].moves) {
            // How a string is plucked bends nothing, and draws of it would leave its range.
            if (!m.path.starts_with("playing.")) { moved[m.path] += m.factor * off; }
        }
    }
    auto is = as_read;
    tautline::for_each_leaf(is, [&](std::string_view path, auto& x) {
        const auto at = moved.find(path);
        if (at == moved.end()) { return; }
        const double v = tautline::number_of(x) + at->second;
        tautline::set_number(x, path.starts_with("frets.wear") ? std::max(v, 0.0) : v); // no crown grows
    });
    return is;
}

} // namespace drawn
