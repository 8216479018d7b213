#pragma once
/// @file
/// The keys of a job file: found by walking the aggregates that the reader fills, with words for each from one table that
/// messages, the starting file and the document share.

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
    std::string preset{};   ///< what it is where it is left out, and why; empty where it is then simply absent
    std::string too_low{};  ///< as TOML, a value below what is allowed; empty where nothing is too low
    std::string too_high{}; ///< the same above
    std::string lowest{};   ///< the least that is allowed
    std::string highest{};  ///< the most that is allowed
    bool list = false;      ///< a list of such values
};

/// All keys in the order of the file, what is planned last.
std::vector<key_row> all_keys();

/// What a key means, by its path with or without places in lists; empty where none is written down. A planned key means
/// what the found one does.
std::string_view meaning_of_key(std::string_view path);

/// The keys as a document (Markdown).
std::string key_document();

/// A kind of instrument that a file can be begun for: by where its strings end, with values of the keys' own examples, or a
/// ready-made one.
struct starting_kind {
    std::string_view name{};                          ///< as the command line has it
    std::string_view words{};                         ///< what it is
    std::vector<std::string_view> begins{};           ///< sections that it has, beyond those that any instrument has
    std::vector<std::string_view> leaves_out{};       ///< sections and keys that say nothing of it
    tautline::ordered_instrument (*make)() = nullptr; ///< the ready-made one; then nothing of the two above is asked
};
/// The kinds there are; the first is the one that examples begin with.
const std::vector<starting_kind>& starting_kinds();

/// A commented file to begin with: the keys that must be there with values to replace, others behind a comment sign, what
/// does not apply left out. Of a ready-made instrument, what it is made of.
std::string starting_file(const starting_kind& kind);

} // namespace job_file
