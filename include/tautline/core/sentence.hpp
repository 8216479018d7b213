#pragma once
/// @file
/// Puts sentences together from words and whole numbers, and makes the paths of entries of lists.

#include <concepts>
#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

namespace tautline {

namespace messages {

/// A part of a sentence: words, or a whole number in digits. It refers to its words, which must outlive it.
class part {
public:
    part(std::string_view words) : words_(words.data()), size_(words.size()) {}   ///< words
    part(const std::string& words) : words_(words.data()), size_(words.size()) {} ///< words
    part(const char* words) : part(std::string_view(words)) {}                    ///< words
    template <std::integral I>
    requires(sizeof(I) > 1) // a character or a bool is no number
        part(I number)
        : part(number < I{}, static_cast<unsigned long long>(number)) {} ///< a whole number
    /// The part as text.
    [[nodiscard]] std::string_view text() const { return {words_ ? words_ : end() - size_, size_}; }

private:
    part(bool negative, unsigned long long number) {
        char* at = digits_ + sizeof digits_;
        for (unsigned long long left = negative ? 0 - number : number; size_ == 0 || left > 0; left /= 10, ++size_) {
            *--at = static_cast<char>('0' + left % 10);
        }
        if (negative) {
            *--at = '-';
            ++size_;
        }
    }
    [[nodiscard]] const char* end() const { return digits_ + sizeof digits_; }

    const char* words_ = nullptr;
    std::size_t size_ = 0;
    char digits_[24]; // written from the end
};
/// Adds parts of a sentence to a text. Sentences are written with this and not with `+`, because every combination of
/// text, literal and number with `+` is another function to compile.
inline void append(std::string& text, std::initializer_list<part> parts) {
    for (const part& p : parts) { text.append(p.text().data(), p.text().size()); }
}
/// Puts the parts of a sentence together.
[[nodiscard]] inline std::string joined(std::initializer_list<part> parts) {
    std::string text;
    append(text, parts);
    return text;
}
/// Path of an entry of a list, counted from 0, or of one of its fields: "layers[2].pitch".
[[nodiscard]] inline std::string path_of(std::string_view list, std::size_t entry, std::string_view field = "") {
    return joined({list, "[", entry, field.empty() ? "]" : "].", field});
}

} // namespace messages

} // namespace tautline
