#pragma once
/// @file
/// An instrument and its strings together: what setups are solved from, planned from and worked on.

#include "../core/when_used.hpp"
#include "../strings/string_names.hpp"
#include "instrument.hpp"
#include "stringing.hpp"

namespace tautline {

/// An instrument with its strings: everything that a solve starts from. All of it has paths from one root, such as
/// "board.thickness", "strings[0].string.core.diameter" and "standard.a4".
template <class R = double>
struct basic_strung_instrument {
    using real = R;
    basic_instrument<R> instrument; ///< without its strings
    basic_stringing<R> stringing{}; ///< its strings

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", self.instrument...);
        visit("", self.stringing...);
    }
    template <class Report>
    void rules(Report&& report) const {
        kernel::report_string_count(instrument, stringing.strings.size(), report);
    }
};
using strung_instrument = basic_strung_instrument<double>;
TAUTLINE_HELD(std::vector<problem> validate<strung_instrument>(const strung_instrument&, std::string_view))
TAUTLINE_HELD(bool is_valid<strung_instrument>(const strung_instrument&))

/// What an instrument's strings are called, written into `names`: by its courses at the nut and by the notes of the
/// strings. Notes have names only where the octave has twelve steps.
template <class R>
void name_strings(const basic_instrument<R>& i, const basic_stringing<R>& strung, string_names& names) {
    names.courses.assign(i.short_strings.size(), 1);
    names.courses.insert(names.courses.end(), i.nut.spacing.courses.begin(), i.nut.spacing.courses.end());
    names.notes.clear();
    if (strung.standard.steps != 12) { return; }
    for (const auto& s : strung.strings) { names.notes.push_back(s.pitch); }
}
/// The same, returned as a value.
template <class R>
[[nodiscard]] string_names names_of(const basic_instrument<R>& i, const basic_stringing<R>& strung) {
    string_names names;
    name_strings(i, strung, names);
    return names;
}

} // namespace tautline
