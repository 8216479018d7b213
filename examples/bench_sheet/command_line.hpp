#pragma once
/// @file
/// Reads the command line: a request, or the mistakes in it.

#include <string>
#include <vector>

#include <paper.hpp>

#include "keys.hpp"
#include "sheet.hpp"
#include "sweeping.hpp"

namespace bench_sheet {

using namespace job_file;

/// A request of the command line.
struct request {
    std::string path{}; ///< of the job file; empty where none is read
    sheet_options sheet{};
    bool json = false, csv = false, check = false, list = false, as_read = false;
    const starting_kind* start = nullptr; ///< the kind of instrument that a new file is begun for
    std::string (*document)() = nullptr;  ///< a document that is printed without a job
    std::string explain{}, out{}, drawings{}, page{};
    drawing::paper paper = drawing::paper::a4;
    sweep_request sweep{};
};

/// A command line after reading: a request, a call for help, or mistakes.
struct read_command {
    request asked{};
    std::string help{};                  ///< the help, if it is asked for; otherwise empty
    std::vector<std::string> mistakes{}; ///< sentences; while there are any, the request does not count
};

/// Reads a command line. Options that contradict each other are mistakes, and so is an option without effect.
read_command read_command_line(int argc, const char* const* argv);

} // namespace bench_sheet
