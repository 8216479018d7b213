#pragma once
/// @file
/// Reads the numbers of a reference table in order.

#include <doctest/doctest.h>

#include <fstream>
#include <string>

class table {
public:
    explicit table(const std::string& name) : file_(std::string(TAUTLINE_TEST_DATA) + "/" + name) {
        REQUIRE_MESSAGE(file_.is_open(), name);
    }
    /// Whether a number follows.
    bool more() { return static_cast<bool>(file_ >> std::ws) && file_.peek() != std::ifstream::traits_type::eof(); }
    double number() {
        double v = 0;
        REQUIRE(static_cast<bool>(file_ >> v));
        return v;
    }
    int whole() { return static_cast<int>(number()); }

private:
    std::ifstream file_;
};
