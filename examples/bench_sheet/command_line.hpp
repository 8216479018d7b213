#pragma once
/// @file
/// What the command line asks for, or what is wrong with it.

#include <string>
#include <vector>

#include <paper.hpp>

#include "keys.hpp"
#include "sheet.hpp"
#include "sweeping.hpp"

namespace bench_sheet {

using namespace job_file;

/// What the command line asks for.
struct request {
    std::string path{}; ///< of the job file; empty where none is read
    sheet_options sheet{};
    bool json = false, csv = false, check = false, list = false, as_read = false;
    const starting_kind* start = nullptr; ///< what a file is to be begun for
    std::string (*document)() = nullptr;  ///< what is printed without a job
    std::string explain{}, out{}, drawings{}, page{};
    drawing::paper paper = drawing::paper::a4;
    sweep_request sweep{};
};

/// A command line that was read: a request, a wish for help, or mistakes.
struct read_command {
    request asked{};
    std::string help{};                  ///< not empty: it is asked for
    std::vector<std::string> mistakes{}; ///< sentences; nothing is asked for while there are any
};

/// Reads a command line. Each option says what it goes with; what contradicts another, or would do nothing, is a mistake.
read_command read_command_line(int argc, const char* const* argv);

} // namespace bench_sheet
