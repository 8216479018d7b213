#pragma once
/// @file
/// What a repairer is told and asked about the woods of a neck: a name that says little, or a modulus that may be
/// dynamic.

#include "../instrument/neck_woods.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// A wood's short name as it ends a name of the table, whose text stays.
[[nodiscard]] constexpr std::string_view ending_of_table(const wood& w, std::string_view name) {
    for (const std::string_view whole : {w.name, w.other_name}) {
        if (whole.size() < name.size()) { continue; }
        const std::string_view end = whole.substr(whole.size() - name.size());
        if (woods::same_name(end, name)) { return end; }
    }
    return w.name;
}

/// The finding about one wood whose modulus nobody measured, or whose way of measuring is not told; nothing where there
/// is nothing to say.
template <class R>
[[nodiscard]] std::optional<finding> about_wood(const basic_neck_wood<R>& w) {
    const auto modulus = stress<double>::from_value(static_cast<double>(value_of(w.modulus.value())));
    finding f{.kind = finding_kind::wood_by_name, .severity = severity::note, .number = modulus, .part = w.part};
    if (const auto named = w.from_name()) {
        if (named->is_one() && !named->may_be[0].printed_gpa.disagree()) { return std::nullopt; }
        f.limit = named->standard;
        f.wood = ending_of_table(named->may_be[0], w.name);
        return f;
    }
    const auto known = w.method == modulus_method::not_told ? woods::find_wood(w.name) : std::nullopt;
    if (!known || !known->modulus() || !woods::is_asked_about(*known, modulus)) { return std::nullopt; }
    f.kind = finding_kind::modulus_asked_about;
    f.limit = stress<double>(*known->modulus() + *known->modulus_standard());
    f.wood = known->name;
    return f;
}

/// Adds the findings about a neck's woods.
template <class R>
void find_woods(const basic_neck_measures<R>& n, basic_setup<R>& out) {
    for (const auto& w : woods_of(n)) {
        if (w.name.empty()) { continue; }
        if (const auto f = about_wood(w)) { out.findings.push_back(*f); }
    }
}

} // namespace tautline::kernel
