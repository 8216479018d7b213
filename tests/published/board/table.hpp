#pragma once
/// @file
/// Reads the numbers of a reference table in order.

#include <doctest/doctest.h>

#include <fstream>
#include <string>

class table {
public:
    explicit table(const std::string& name) : file_(beside_the_tests(name)) { REQUIRE_MESSAGE(file_.is_open(), name); }
    /// Whether a number follows.
    bool more() { return static_cast<bool>(file_ >> std::ws) && file_.peek() != std::ifstream::traits_type::eof(); }
    double number() {
        double v = 0;
        REQUIRE(static_cast<bool>(file_ >> v));
        return v;
    }
    int whole() { return static_cast<int>(number()); }

private:
    // In steps: g++ 12 takes a sum of texts here for one that overruns its own.
    static std::string beside_the_tests(const std::string& name) {
        std::string path = TAUTLINE_TEST_DATA;
        path += '/';
        path += name;
        return path;
    }
    std::ifstream file_;
};
