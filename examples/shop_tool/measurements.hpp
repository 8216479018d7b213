#pragma once
/// @file
/// Measurements of a model as somebody types them.

#include <stdexcept>
#include <string>
#include <string_view>

#include <tautline/core/by_path.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/job/former_names.hpp>

#include "../text/shown.hpp"

namespace shop {

using namespace tautline;
using safe_text::shown;

/// A typed value is wrong. The text is a sentence for whoever typed it.
class wrong_input : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Changes one measurement, or the note of a string ("string 6.pitch", "strings[0].pitch"), to what somebody typed.
/// @param former renamed paths; a former name is refused, and the message gives the present one
inline void change(strung_instrument& model, std::string_view named, std::string_view typed,
                   std::span<const former_name> former = former_names) {
    const string_names names = names_of(model.instrument, model.stringing);
    const auto path = path_by_number(named, names);
    if (!path) { throw wrong_input("There is no \"" + shown(named) + "\"; there are " + names.range() + "."); }
    for (std::size_t k = 0; k < model.stringing.strings.size(); ++k) {
        if (*path == "strings[" + std::to_string(k) + "].pitch") {
            try {
                model.stringing.strings[k].pitch = parse_note(typed);
            } catch (const invalid_input&) {
                throw wrong_input("\"" + shown(typed) + "\" is not a note; write E2, F#3 or Bb1.");
            }
            return;
        }
    }
    if (find_at(model, *path).has_value()) {
        try {
            set(model, *path, typed);
        } catch (const invalid_input& e) { throw wrong_input(shown(e.what())); }
        return;
    }
    if (const std::string now = present_name(*path, former); !now.empty()) {
        throw wrong_input("\"" + shown(named) + "\" is now named \"" + shown(now) + "\".");
    }
    throw wrong_input("There is no measurement \"" + shown(named) + "\"; `show` lists them.");
}

} // namespace shop
