#pragma once
/// @file
/// Text from outside made fit for paper.

#include <string>
#include <string_view>

namespace drawing {

/// The text as valid UTF-8 that is seen, as every output of the programs shows it (`safe_text::shown`). At most `most`
/// characters, a cut one ends with an ellipsis.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = 200);

/// The first `count` characters of valid UTF-8.
[[nodiscard]] std::string first_characters(std::string_view text, std::size_t count);

/// How many characters valid UTF-8 has.
[[nodiscard]] std::size_t character_count(std::string_view text);

} // namespace drawing
