#pragma once
/// @file
/// Text from outside made fit for paper.

#include <string>
#include <string_view>

namespace drawing {

/// The text as visible, valid UTF-8 (`safe_text::shown`), of at most `most` characters. A cut text ends with an ellipsis.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = 200);

/// The first `count` characters of valid UTF-8.
[[nodiscard]] std::string first_characters(std::string_view text, std::size_t count);

/// The number of characters in valid UTF-8.
[[nodiscard]] std::size_t character_count(std::string_view text);

} // namespace drawing
