#pragma once
/// @file
/// A mistake on the command line, told as those of a job file are.

#include <stdexcept>
#include <string>

namespace job_file {

/// What was given to an option cannot be: option, what it is, what was expected.
class wrong_option : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
    /// "--units is "furlongs"; expected metric, imperial or both"; what was given is shown as it must be already.
    wrong_option(const std::string& option, const std::string& given, const std::string& expected)
        : runtime_error(option + " is \"" + given + "\"; expected " + expected) {}
};

} // namespace job_file
