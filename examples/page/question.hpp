#pragma once
/// @file
/// A question of the page. Its first line names it. Lines "key=value" follow, then an empty line, then any text.

#include <map>
#include <string>
#include <string_view>

namespace page {

/// A question in its parts. It holds no text of its own: the text must outlive it.
class question {
public:
    explicit question(std::string_view text) {
        what_ = line(text);
        while (!text.empty()) {
            const std::string_view one = line(text);
            if (one.empty()) { break; }
            const std::size_t sign = one.find('=');
            if (sign == std::string_view::npos) { continue; }
            values_[one.substr(0, sign)] = one.substr(sign + 1);
        }
        rest_ = text;
    }
    [[nodiscard]] std::string_view what() const { return what_; }
    /// The text after the empty line.
    [[nodiscard]] std::string_view rest() const { return rest_; }
    /// The value of a key; empty if the key is missing.
    [[nodiscard]] std::string_view value(std::string_view key) const {
        const auto at = values_.find(key);
        return at == values_.end() ? std::string_view() : at->second;
    }
    [[nodiscard]] const std::map<std::string_view, std::string_view>& values() const { return values_; }

private:
    /// Removes the first line of a text and returns it.
    static std::string_view line(std::string_view& text) {
        const std::size_t end = text.find('\n');
        const std::string_view one = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        return one;
    }
    std::string_view what_, rest_;
    std::map<std::string_view, std::string_view> values_{};
};

} // namespace page
