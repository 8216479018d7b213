#pragma once
/// @file
/// The lines of a file that somebody else wrote: none longer than it may be, and an error that is not taken for the end.

#include <cerrno>
#include <cstdio>
#include <memory>
#include <string>
#include <system_error>

#include "measurements.hpp"

namespace shop {

/// Most bytes in a line; a name has at most 200, written out in CSV at most four times as many.
inline constexpr std::size_t longest_line = 4000;

/// Reads lines one by one.
class lines {
public:
    /// @throws wrong_input where the file cannot be opened
    explicit lines(std::string name) : lines(name, std::fopen(name.c_str(), "rbe")) {}
    /// Takes an open file over.
    lines(std::string name, std::FILE* opened) : name_(std::move(name)), file_(opened) {
        if (!file_) { fail(); }
    }
    /// The next line without its end; false when there is none.
    /// @throws wrong_input where it cannot be read, or is too long
    bool next(std::string& line) {
        line.clear();
        ++number_;
        errno = 0;
        int c = 0;
        while ((c = std::getc(file_.get())) != EOF && c != '\n') {
            if (line.size() == longest_line) {
                throw wrong_input(place() + "This line is longer than " + std::to_string(longest_line) +
                                  " letters; a line is one measurement.");
            }
            line += static_cast<char>(c);
        }
        if (std::ferror(file_.get()) != 0) { fail(); }
        if (!line.empty() && line.back() == '\r') { line.pop_back(); }
        return c != EOF || !line.empty();
    }
    /// "FILE:12: ", for a sentence about the line that was read last.
    [[nodiscard]] std::string place() const { return shown(name_) + ":" + std::to_string(number_) + ": "; }

private:
    [[noreturn]] void fail() const {
        const std::string why = std::generic_category().message(errno);
        throw wrong_input("The file " + shown(name_) + " cannot be read" + (number_ > 1 ? " to its end" : "") + " (" + why +
                          ").");
    }
    struct closer {
        void operator()(std::FILE* f) const { (void)std::fclose(f); }
    };
    std::string name_;
    std::unique_ptr<std::FILE, closer> file_;
    int number_ = 0;
};

} // namespace shop
