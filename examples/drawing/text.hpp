#pragma once
/// @file
/// Text from outside made fit for paper.

#include <string>
#include <string_view>

namespace drawing {

/// The text as valid UTF-8 that only prints: what is not UTF-8, and what acts instead of showing (controls, changes of
/// direction, invisible separators), becomes U+FFFD; tabs and line ends become spaces. At most `most` characters, a cut one
/// ends with an ellipsis.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = 200);

/// The first `count` characters of valid UTF-8.
[[nodiscard]] std::string first_characters(std::string_view text, std::size_t count);

/// How many characters valid UTF-8 has.
[[nodiscard]] std::size_t character_count(std::string_view text);

} // namespace drawing
