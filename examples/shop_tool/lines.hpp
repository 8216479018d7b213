#pragma once
/// @file
/// Lines of a file from outside. A line has a largest length, and a read error is not mistaken for the end of the file.

#include <cerrno>
#include <cstdio>
#include <memory>
#include <string>
#include <system_error>

#include "measurements.hpp"

namespace shop {

/// Largest number of bytes in a line. A name has at most 200 bytes, and CSV writes at most four for each.
inline constexpr std::size_t longest_line = 4000;

/// Reads lines one by one.
class lines {
public:
    /// @throws wrong_input when the file cannot be opened
    explicit lines(std::string name) : lines(name, std::fopen(name.c_str(), "rbe")) {}
    /// Takes ownership of an open file.
    lines(std::string name, std::FILE* opened) : name_(std::move(name)), file_(opened) {
        if (!file_) { fail(); }
    }
    /// The next line without its end; false when there is none.
    /// @throws wrong_input when the line cannot be read or is too long
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
    /// "FILE:12: ", the start of a sentence about the line read last.
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
