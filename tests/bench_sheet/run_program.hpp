#pragma once
/// @file
/// The program as a user meets it: started with arguments, its exit code and what it prints.

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <string>

#include <sys/wait.h>

#include <doctest/doctest.h>

#include "scratch_folder.hpp"

namespace program {

struct run_result {
    int code = -1;
    std::string out, err;
};

using files::read_all;
inline std::string scratch() {
    static const files::scratch_folder own; // gone with the program
    return own.path.string();
}
/// A command of the shell, its exit code and what it prints.
inline run_result run_command(const std::string& command) {
    const std::string out = scratch() + "/out", err = scratch() + "/err";
    const int status = std::system(("( " + command + " ) >" + out + " 2>" + err + " </dev/null").c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_all(out), read_all(err)};
}
inline run_result run(const std::string& arguments) { return run_command(std::string(BENCH_SHEET " ") + arguments); }
/// A job that names nearly every key.
inline const std::string four_courses = std::string(TEST_JOBS) + "/four_courses.toml";
inline const std::string cittern = std::string(JOBS) + "/ten_string_cittern.toml";

/// That job with one piece of its text replaced.
inline run_result run_with(const std::string& from, const std::string& to, const std::string& arguments = "") {
    std::string text = read_all(four_courses);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    std::ofstream(scratch() + "/job.toml", std::ios::binary) << text;
    return run(scratch() + "/job.toml " + arguments);
}
inline std::string line_number_of(const std::string& part) {
    const std::string text = read_all(four_courses);
    const auto at = text.find(part);
    REQUIRE(at != std::string::npos);
    return std::to_string(1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}
inline bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace program
