#pragma once
/// @file
/// A reading of a result: what was read, in which state, and how sure it is.

#include <optional>
#include <string>

#include "../action/object_clearance.hpp"
#include "../core/leaves.hpp"
#include "../core/to_text.hpp"
#include "read_instrument.hpp"
#include "readable.hpp"
#include "uncertainty.hpp"
#include "usual_doubts.hpp"

namespace tautline {

/// One reading. The functions below make readings from quantities.
struct reading {
    std::string name{};                  ///< name that the reader gave it; empty: it is told in words
    std::string path{};                  ///< of what is read, as `find_readable` knows it: "relief.gap"
    std::string state{pitch_state};      ///< name of the state in which it was read
    any_quantity value{};                ///< as read
    any_quantity standard{};             ///< its standard uncertainty; absent: the usual one
    any_quantity model{};                ///< standard uncertainty of the model for it; absent: that of the table
    std::string gauge{};                 ///< what it was read with, where that errs alike in others; empty: none
    std::optional<flat_object> object{}; ///< of a gap: what lies under the string

    /// The same reading in another state.
    [[nodiscard]] reading when(std::string_view named) const {
        reading r = *this;
        r.state = named;
        return r;
    }
    /// The same reading taken with a gauge that errs alike in other readings.
    [[nodiscard]] reading with(std::string_view named) const {
        reading r = *this;
        r.gauge = named;
        return r;
    }
};

/// A reading of a path. The give or take is at about 95 %; without one the usual one is taken.
[[nodiscard]] inline reading reading_of(std::string path, const any_quantity& value,
                                        const any_quantity& give_or_take = {}) {
    reading r;
    r.path = std::move(path);
    r.value = value;
    if (give_or_take.has_value()) { r.standard = (1 / coverage_factor) * give_or_take; }
    return r;
}
namespace kernel {

template <class Q>
[[nodiscard]] reading reading_of(std::string_view path, const Q& value, const std::optional<Q>& give_or_take) {
    return tautline::reading_of(std::string(path), value, give_or_take ? any_quantity(*give_or_take) : any_quantity());
}

/// What is said of a break of more than 90 degrees: most often the angle between the string's two sides was read. Empty
/// where the break can be.
[[nodiscard]] inline std::string why_no_break(readable what, const any_quantity& value) {
    if (what != readable::break_at_saddle && what != readable::break_at_nut) { return {}; }
    const double half_turn = 3.14159265358979323846;
    if (!(value.si() > half_turn / 2)) { return {}; }
    const auto rest = any_quantity::of(value.kind(), half_turn - value.si());
    std::string text = "must be how far the string turns there, at most 90 deg";
    if (rest.si() > 0) {
        messages::append(
            text, {"; between the two sides of a string that turns by ", bench_text(rest), " lie ", bench_text(value)});
    }
    return text;
}

} // namespace kernel

/// @{
/// A reading of the thing that the name tells. Strings count from 0, bass first; frets count from 1. Without a give or
/// take the usual one is taken.
[[nodiscard]] inline reading relief_read(const length<>& value, const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of("relief.gap", value, give_or_take);
}
[[nodiscard]] inline reading height_read(std::size_t string, int fret, const length<>& value,
                                         const std::optional<length<>>& give_or_take = {}) {
    require_that(fret >= 1, "fret", "must be at least 1: frets count from the nut", fret);
    return kernel::reading_of(
        messages::path_of("strings", string, messages::path_of("heights", static_cast<std::size_t>(fret - 1))), value,
        give_or_take);
}
[[nodiscard]] inline reading gap_read(std::size_t string, const flat_object& object, const length<>& value,
                                      const std::optional<length<>>& give_or_take = {}) {
    auto r = kernel::reading_of(messages::path_of("strings", string, "gap"), value, give_or_take);
    r.object = object;
    return r;
}
[[nodiscard]] inline reading top_drop_read(const length<>& value, const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of("top.drop", value, give_or_take);
}
[[nodiscard]] inline reading top_sink_read(const length<>& value, const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of("top.sink", value, give_or_take);
}
[[nodiscard]] inline reading line_at_saddle_read(const length<>& value, const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of("line_at_saddle", value, give_or_take);
}
[[nodiscard]] inline reading note_read(std::size_t string, int fret, const interval<double>& off,
                                       const std::optional<interval<double>>& give_or_take = {}) {
    require_that(fret >= 1, "fret", "must be at least 1: frets count from the nut", fret);
    return kernel::reading_of(
        messages::path_of("strings", string, messages::path_of("notes", static_cast<std::size_t>(fret - 1), "error")), off,
        give_or_take);
}
[[nodiscard]] inline reading saddle_break_read(std::size_t string, const angle<>& value,
                                               const std::optional<angle<>>& give_or_take = {}) {
    return kernel::reading_of(messages::path_of("strings", string, "at_saddle.break_angle"), value, give_or_take);
}
[[nodiscard]] inline reading nut_break_read(std::size_t string, const angle<>& value,
                                            const std::optional<angle<>>& give_or_take = {}) {
    return kernel::reading_of(messages::path_of("strings", string, "at_nut.break_angle"), value, give_or_take);
}
[[nodiscard]] inline reading nut_drop_read(const length<>& value, const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of("nut_drop", value, give_or_take);
}
[[nodiscard]] inline reading tailpiece_read(const angle<>& value, const std::optional<angle<>>& give_or_take = {}) {
    return kernel::reading_of("tailpiece_rise", value, give_or_take);
}
[[nodiscard]] inline reading setback_read(std::size_t string, const length<>& value,
                                          const std::optional<length<>>& give_or_take = {}) {
    return kernel::reading_of(messages::path_of("strings", string, "octave_setback"), value, give_or_take);
}
/// @}

/// Standard uncertainty that a reading counts with, in SI (for a note in cents): the squares of its own and of the
/// model's are added.
/// @throws invalid_input where it has none, or where the path names nothing that can be read
[[nodiscard]] inline double standard_of(const reading& r) {
    const auto thing = find_readable(r.path);
    require_that(thing.has_value(), r.path, messages::joined({"must be something that can be read: ", readable_paths()}));
    const double value = r.value.si();
    const double own = r.standard.has_value() ? r.standard.si() : usual_standard(r.path, value).value_or(0);
    const double model = r.model.has_value() ? r.model.si() : std::max(thing->model, thing->model_share * std::abs(value));
    return std::sqrt(own * own + model * model);
}

} // namespace tautline
