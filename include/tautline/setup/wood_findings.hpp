#pragma once
/// @file
/// What a repairer is told and asked about the woods of a neck: a name that says little, or a modulus that may be
/// dynamic.

#include "../instrument/neck_woods.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// The finding about one wood whose modulus nobody measured, or whose way of measuring is not told.
template <class R>
[[nodiscard]] finding about_wood(const basic_neck_wood<R>& w) {
    const auto modulus = stress<double>::from_value(static_cast<double>(value_of(w.modulus.value())));
    finding f{.kind = finding_kind::wood_by_name, .severity = severity::note, .number = modulus};
    if (const auto named = w.from_name()) {
        if (!named->is_one()) {
            f.limit = named->standard;
            f.sentence = messages::joined({"The ", w.part, "'s wood, \"", w.name, "\", may be ", named->names(),
                                           ": their mean is taken, and its doubt holds them all. Say which it is."});
        } else if (const std::string caution = woods::caution_of(named->may_be[0]); !caution.empty()) {
            f.limit = named->standard;
            f.sentence = messages::joined({"The ", w.part, "'s wood, ", caution});
        }
        return f;
    }
    const auto known = w.method == modulus_method::not_told ? woods::find_wood(w.name) : std::nullopt;
    if (!known || !known->modulus()) { return f; }
    if (const std::string question = woods::question_about(*known, modulus); !question.empty()) {
        f.kind = finding_kind::modulus_asked_about;
        f.limit = stress<double>(*known->modulus() + *known->modulus_standard());
        f.sentence = messages::joined({"The ", w.part, "'s modulus: ", question});
    }
    return f;
}

/// Adds the findings about a neck's woods.
template <class R>
void find_woods(const basic_neck_measures<R>& n, basic_setup<R>& out) {
    for (const auto& w : woods_of(n)) {
        if (w.name.empty()) { continue; }
        if (finding f = about_wood(w); !f.sentence.empty()) { out.findings.push_back(std::move(f)); }
    }
}

} // namespace tautline::kernel
