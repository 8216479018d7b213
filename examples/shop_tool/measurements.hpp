#pragma once
/// @file
/// Numbers of a model between C++, the database and the bench: what kind each is, how it is shown, how it is typed.

#include <stdexcept>
#include <string>
#include <string_view>

#include <tautline/core/leaves.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/job/former_names.hpp>

#include "../text/shown.hpp"

namespace shop {

using namespace tautline;
using safe_text::shown;

/// What somebody typed is wrong; the text is a sentence for them.
class wrong_input : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// The number with the unit that a bench reads it in.
template <class U>
std::string bench_text(const bu::quantity<U, double>& q) {
    return quantity_text<U>(q.value());
}
inline std::string bench_text(const interval<double>& i) { return with_unit(i.cents(), "cents"); }
inline std::string bench_text(double v) { return number_text(v); }

template <class U>
concept typed_with_units = requires {
    spelling::of<U>::list;
};

/// Reads a number as somebody types it into its place.
template <class U>
void read_into(bu::quantity<U, double>& place, std::string_view path, std::string_view typed) {
    using quantity = bu::quantity<U, double>;
    if constexpr (typed_with_units<U>) {
        if (const auto q = parse_quantity<quantity>(typed)) {
            place = *q;
            return;
        }
        throw wrong_input(shown(path) + " is a " + kind<U>::name + ": \"" + shown(typed) +
                          "\" is not a number with one of these units: " + unit_names<quantity>() + ".");
    } else {
        throw wrong_input(shown(path) + " is a " + kind<U>::name + ", which this program keeps but does not read.");
    }
}
inline void read_into(interval<double>& place, std::string_view path, std::string_view typed) {
    std::string_view rest = typed;
    const auto v = take_number(rest);
    if (!v || spelling::trimmed(rest) != "cents") {
        throw wrong_input(shown(path) + " is an interval: \"" + shown(typed) + "\" is not a number of cents.");
    }
    place = *v * units::cents;
}
inline void read_into(double& place, std::string_view path, std::string_view typed) {
    std::string_view rest = typed;
    const auto v = take_number(rest);
    if (!v || !spelling::trimmed(rest).empty()) {
        throw wrong_input(shown(path) + " is a plain number, without a unit: \"" + shown(typed) + "\" is not.");
    }
    place = *v;
}

/// Changes one measurement, or the note of a string ("string 6.pitch", "strings[0].pitch"), to what somebody typed.
/// @param former what was renamed: such a name is refused with the present one
inline void change(strung_instrument& model, std::string_view named, std::string_view typed,
                   std::span<const former_name> former = former_names) {
    const string_names names = names_of(model.instrument, model.strung);
    const auto path = path_by_number(named, names);
    if (!path) { throw wrong_input("There is no \"" + shown(named) + "\"; there are " + names.range() + "."); }
    for (std::size_t k = 0; k < model.strung.strings.size(); ++k) {
        if (*path == "strings[" + std::to_string(k) + "].pitch") {
            try {
                model.strung.strings[k].pitch = parse_note(typed);
            } catch (const invalid_input&) {
                throw wrong_input("\"" + shown(typed) + "\" is not a note; write E2, F#3 or Bb1.");
            }
            return;
        }
    }
    bool found = false;
    for_each_leaf(model, [&](std::string_view name, auto& leaf) {
        if (name == *path) {
            read_into(leaf, *path, typed);
            found = true;
        }
    });
    if (found) { return; }
    if (const std::string now = present_name(*path, former); !now.empty()) {
        throw wrong_input("\"" + shown(named) + "\" is now named \"" + shown(now) + "\".");
    }
    throw wrong_input("There is no measurement \"" + shown(named) + "\"; `show` lists them.");
}

} // namespace shop
