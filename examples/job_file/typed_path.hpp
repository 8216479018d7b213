#pragma once
/// @file
/// Names of numbers as somebody types them: a string may be named by its number.

#include <string>

#include <tautline/job/former_names.hpp>

#include "mistakes.hpp"
#include "wrong_option.hpp"

namespace job_file {

namespace tl = tautline;

/// "string 6.tension" as the path it means, "strings[0].tension"; any other name as it is.
/// @throws wrong_option for a string that is not there, and for a name that was changed, with the present one
inline std::string typed_path(const std::string& name, const tl::string_names& names, const std::string& option) {
    const auto path = tl::path_by_number(name, names);
    if (!path) { throw wrong_option(option, shown(name), "a string that is there; there are " + names.range()); }
    if (const std::string now = tl::present_name(*path); !now.empty()) {
        throw wrong_option(option + " is \"" + shown(name) + "\", which is now named \"" + now + "\"");
    }
    return *path;
}

} // namespace job_file
