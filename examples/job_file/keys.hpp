#pragma once
/// @file
/// The keys of a job file. They are found by walking the aggregates that the reader fills. Their words come from one table,
/// which messages, the starting file and the document share.

#include <string>
#include <string_view>
#include <vector>

#include <tautline/instrument/ordered_instrument.hpp>

namespace job_file {

/// One key.
struct key_row {
    std::string path{};     ///< lists as "strings[]"
    std::string expected{}; ///< "length", "text", "yes or no", "one of: ...", "list of lengths"
    std::string allowed{};  ///< "must be more than 0 mm"; may be empty
    bool required = false;
    std::string preset{};   ///< its value if it is left out, and why; empty if it is then absent
    std::string too_low{};  ///< as TOML, a value below what is allowed; empty if nothing is too low
    std::string too_high{}; ///< the same above what is allowed
    std::string lowest{};   ///< the least allowed value
    std::string highest{};  ///< the greatest allowed value
    bool list = false;      ///< a list of such values
};

/// All keys in the order of the file, planned ones last.
std::vector<key_row> all_keys();

/// The meaning of a key, by its path with or without places in lists; empty if none is written down. A planned key has the
/// meaning of the found one.
std::string_view meaning_of_key(std::string_view path);

/// The keys as a document (Markdown).
std::string key_document();

/// A kind of instrument to start a file for. Either it is told by where its strings end, with the keys' example values, or
/// it is a ready-made instrument.
struct starting_kind {
    std::string_view name{};                          ///< its name on the command line
    std::string_view words{};                         ///< what it is
    std::vector<std::string_view> begins{};           ///< its sections, beyond those of every instrument
    std::vector<std::string_view> leaves_out{};       ///< sections and keys that do not apply to it
    tautline::ordered_instrument (*make)() = nullptr; ///< makes the ready-made one; the two members above are then not used
};
/// All kinds. Examples use the first.
const std::vector<starting_kind>& starting_kinds();

/// A commented file to start with. Required keys have values to replace, others are commented out, and those that do not
/// apply are left out. For a ready-made instrument it holds that instrument's values.
std::string starting_file(const starting_kind& kind);

} // namespace job_file
