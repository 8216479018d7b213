#pragma once
/// @file
/// What readings say of an instrument, in sentences for the repairer.

#include <algorithm>
#include <cmath>

#include "../core/to_text.hpp"
#include "readings_to_take.hpp"

namespace tautline {

namespace kernel {

/// Decimals with which a number of this size shows two digits, or one digit from 3 up.
[[nodiscard]] inline int places_for(double size) {
    if (!(size > 0)) { return 2; }
    int places = 0;
    for (; places < 6 && size < 3; ++places) { size *= 10; }
    return places;
}
[[nodiscard]] inline std::string fixed(double v, int places) {
    return shown_number(any_quantity(v), shown_unit{"", 1, places});
}
/// How a quantity is shown, with the decimals for a number of the size of `digits_of`.
[[nodiscard]] inline shown_kind shown_for(const any_quantity& q, double digits_of) {
    shown_kind as = shown_kind_of(q);
    if (as.kind == show::load.kind) { as.metric = {"GPa", 1e9, 1}; }
    // A hung weight in kilograms, a string's in grams.
    if (as.kind == kind<unit::mass>::name && std::abs(q.si()) > 0.5) { as.metric = as.imperial = {"kg", 1, 1}; }
    as.metric.decimals = places_for(std::abs(digits_of / as.metric.size));
    as.imperial.decimals = places_for(std::abs(digits_of / as.imperial.size));
    return as;
}
/// An amount with its unit, such as "0.4 mm".
[[nodiscard]] inline std::string amount(const any_quantity& q, measures units) {
    return bench_text(q, shown_for(q, q.si()), {.units = units});
}
/// A value with its doubt, such as "13.40 ± 0.20 mm", from a standard uncertainty. Decimals follow this uncertainty or
/// the smaller of two.
[[nodiscard]] inline std::string with_doubt(const any_quantity& q, const any_quantity& standard, measures units,
                                            const any_quantity& smaller = {}) {
    const double least = smaller.has_value() && smaller.si() > 0 ? std::min(standard.si(), smaller.si()) : standard.si();
    return bench_text(q, shown_for(q, coverage_factor * least),
                      {.units = units, .give_or_take = coverage_factor * standard});
}
/// A doubt alone, such as "± 0.04 mm"; decimals follow `least`.
[[nodiscard]] inline std::string give_or_take(const any_quantity& standard, const any_quantity& least, measures units) {
    return messages::joined({"\u00b1 ", bench_text(coverage_factor * standard,
                                                   shown_for(standard, coverage_factor * least.si()), {.units = units})});
}
[[nodiscard]] inline std::string percent(double share) {
    return messages::joined({fixed(100 * share, share < 0.0995 ? 1 : 0), " %"});
}
/// The text with a capital letter for the start of a sentence.
[[nodiscard]] inline std::string begun(std::string text) {
    // A path keeps its spelling.
    const std::string_view first = std::string_view(text).substr(0, text.find_first_of(" ,"));
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z' && first.find('.') == std::string_view::npos) {
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    }
    return text;
}
/// A list in words: "a", "a and b", "a, b and c". Names that contain commas are separated as in "a; b; and c".
[[nodiscard]] inline std::string listed(const std::vector<std::string>& all) {
    const auto has_comma = [](const std::string& name) { return name.find(", ") != std::string::npos; };
    const bool parted = all.size() > 2 && std::any_of(all.begin(), all.end(), has_comma);
    std::string text;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const bool last = i + 1 == all.size();
        messages::append(text, {i == 0 ? "" : parted ? last ? "; and " : "; " : last ? " and " : ", ", all[i]});
    }
    return text;
}
/// The sentence about one suspicion.
[[nodiscard]] inline std::string suspicion_in_words(const reconciliation& out, const suspicion& s, measures units) {
    const std::size_t place = s.places.front();
    const bool input = place < out.inputs.size();
    const double slope = input ? out.turned[place].slope(out.fit.t[place]) * out.inputs[place].per_varied : 1;
    const any_quantity& like = input ? out.inputs[place].found : out.readings[place - out.inputs.size()].value;
    // To first order a gross error may be more than there can be; a fit without the item knows better.
    const item_by_others* others = out.others_of(place);
    const bool told_by_others = others && others->value.kind() == like.kind();
    const double off = told_by_others ? out.as_read_at(place).si() - others->value.si() : s.test.error * slope;
    const std::string size = amount(any_quantity::of(like.kind(), std::abs(off)), units);
    std::vector<std::string> names;
    for (const std::size_t p : s.places) { names.push_back(out.name_of(p)); }
    if (names.size() > 1) {
        return messages::joined({begun(listed(names)), " contradict each other: one of them is off",
                                 s.perhaps_two ? ", or two of them together" : "", "; ", names.front(), " by ", size,
                                 " if it is that one. ", out.readings.size() == 1 ? "This one reading" : "These readings",
                                 " cannot tell which. Take one more that depends on only some of them."});
    }
    return messages::joined({begun(names.front()), " disagrees with all the others by ", size, ", ",
                             fixed(std::abs(s.test.w) / coverage_factor, 1),
                             " times what all give or take allows. Measure it again."});
}

} // namespace kernel

/// Sentences that tell whether the readings agree, and what does not.
[[nodiscard]] inline std::vector<std::string> agreement_of(const reconciliation& out, measures units = measures::metric) {
    using messages::joined;
    std::vector<std::string> all;
    const std::size_t count = out.readings.size();
    if (out.inputs.empty()) { all.emplace_back("Nothing to adjust: no number of the instrument has a doubt."); }
    const bool agree = out.suspicions.empty() && !(out.tests.chance < disagreeing_chance);
    if (out.fit.end != fit_end::settled) {
        all.emplace_back(agree ? "The search for the most probable instrument stopped short, as it does where another fret "
                                 "becomes that of the greatest relief. Numbers below are those of the last state that it "
                                 "found, which explains the readings; their ± is rough."
                               : "No state of the instrument near what was read explains the readings; numbers below are "
                                 "those of the nearest that was found.");
    }
    if (count == 0) { return all; }
    const std::string readings =
        count == 1 ? std::string("The one reading agrees with what is known") : joined({"All ", count, " readings agree"});
    if (!out.suspicions.empty()) {
        for (const suspicion& s : out.suspicions) { all.push_back(kernel::suspicion_in_words(out, s, units)); }
    } else if (out.tests.chance < disagreeing_chance) {
        all.push_back(
            joined({"The readings do not agree (so much scatter comes by chance in ", kernel::percent(out.tests.chance),
                    " of cases), but no single one stands out: doubts may be stated too small, or something acts "
                    "that the model does not know."}));
    } else {
        all.push_back(joined({readings, " (as much scatter or more comes by chance in ", kernel::percent(out.tests.chance),
                              " of cases).",
                              count > 2 && out.tests.chance > 1 - disagreeing_chance
                                  ? " They agree better than their doubts say: these may be stated too large."
                                  : ""}));
    }
    return all;
}

/// A sentence about an input that the readings tell something of; empty where they tell nothing.
[[nodiscard]] inline std::string adjustment_of(const reconciled_input& i, measures units = measures::metric) {
    using messages::joined;
    if (i.edge != fit_edge::none) {
        return joined({kernel::begun(i.words), " ends at the edge of what is allowed: at the ",
                       i.edge == fit_edge::least ? "least" : "most", " it may be ", kernel::amount(i.found, units), "."});
    }
    if (i.learnt.left > not_learnt) { return {}; }
    return joined({kernel::begun(i.words), ": ", kernel::with_doubt(i.as_read, i.before, units, i.after), " as read, ",
                   kernel::with_doubt(i.found, i.after, units), " with all readings."});
}

/// Cautions, in sentences: readings that nothing controls, doubts that nobody stated, a model that bends.
/// @param adjusts whether the numbers that are told follow the readings
[[nodiscard]] inline std::vector<std::string> cautions_of(const reconciliation& out, measures units = measures::metric,
                                                          bool adjusts = true) {
    using messages::joined;
    std::vector<std::string> all, usual;
    for (const reconciled_reading& r : out.readings) {
        if (!r.test.controlled()) {
            all.push_back(joined({"Nothing controls ", r.words, ": an error of any size would go unseen."}));
        } else if (r.test.redundancy < hardly_controlled) {
            all.push_back(joined({"Hardly anything controls ", r.words, ": an error below ",
                                  kernel::amount(any_quantity::of(r.value.kind(), r.test.least_detectable), units),
                                  " would go unseen."}));
        }
    }
    for (const reconciled_reading& r : out.readings) {
        if (r.usual) {
            usual.push_back(
                joined({r.words, " (",
                        kernel::amount(any_quantity::of(r.value.kind(),
                                                        coverage_factor * usual_standard(r.path, r.value.si()).value_or(0)),
                                       units),
                        " either way)"}));
        }
    }
    if (!usual.empty()) {
        all.push_back(joined({"Nobody stated a doubt for ", kernel::listed(usual), ": the usual one was taken."}));
    }
    if (out.straightness.far_off()) {
        all.push_back(joined({"The readings ", adjusts ? "moved" : "would move",
                              " the instrument far from what was read of it: see that nothing was read wrong."}));
    }
    if (adjusts && out.straightness.stretched()) {
        all.emplace_back(
            "Doubts are only rough here: what the readings hang on bends too much within them. A sample of the "
            "instrument says more.");
    }
    if (out.largest_elsewhere) {
        all.emplace_back("The relief is largest at another fret than the file as read has it: see where it was read.");
    }
    return all;
}

/// Sentences about a reconciliation, most important first: whether all agree, what does not, what was found, what the
/// readings cannot tell, and what to be careful about.
[[nodiscard]] inline std::vector<std::string> sentences_of(const reconciliation& out, measures units = measures::metric) {
    using messages::joined;
    std::vector<std::string> all = agreement_of(out, units), unlearnt;
    for (const reconciled_input& i : out.inputs) {
        if (std::string text = adjustment_of(i, units); !text.empty()) {
            all.push_back(std::move(text));
        } else {
            unlearnt.push_back(i.words);
        }
    }
    for (std::size_t i = 0; i < out.inputs.size(); ++i) {
        std::vector<std::string> together{out.inputs[i].words};
        bool first = true;
        for (const std::size_t j : out.inputs[i].learnt.together) {
            first = first && j > i;
            together.push_back(out.inputs[j].words);
        }
        if (together.size() > 1 && first) {
            all.push_back(joined({kernel::begun(kernel::listed(together)), " are only found together."}));
        }
    }
    if (!unlearnt.empty() && !out.readings.empty()) {
        all.push_back(joined({"The readings say nothing of ", kernel::listed(unlearnt), "."}));
    }
    for (std::string& text : cautions_of(out, units)) { all.push_back(std::move(text)); }
    return all;
}

/// A sentence about one result with the readings and, where one of them is suspected, also without it.
/// @param words what the result is, such as "action as planned"
/// @param result as `reconciliation::result_of` takes it
[[nodiscard]] inline std::string sentence_of(const reconciliation& out, std::string_view words,
                                             const uncertain_result& result, measures units = measures::metric) {
    const auto both = out.result_of(result);
    std::string text = messages::joined({kernel::begun(std::string(words)), ": ",
                                         kernel::with_doubt(result.value, both.after, units), " with all readings"});
    if (out.suspicions.empty()) {
        messages::append(text, {", ", kernel::give_or_take(both.before, both.before, units), " without them."});
        return text;
    }
    const std::size_t place = out.suspicions.front().places.front();
    const auto without = out.without(result, place);
    messages::append(
        text, {"; without ", out.name_of(place), ": ", kernel::with_doubt(without.value, without.standard, units), "."});
    return text;
}

/// A sentence that proposes a reading to take.
/// @param words the result that it serves, such as "planned action"
[[nodiscard]] inline std::string sentence_of(const reading_to_take& next, std::string_view words,
                                             measures units = measures::metric) {
    std::string after = kernel::give_or_take(next.after, next.after, units),
                before = kernel::give_or_take(next.before, next.after, units);
    // What would read alike is told with as many digits as tell it apart.
    for (int digits = 2; digits <= 6 && after == before; ++digits) {
        const auto told = [&](const any_quantity& standard) {
            return messages::joined({"\u00b1 ", to_text(coverage_factor * standard, {.units = units, .digits = digits})});
        };
        after = told(next.after);
        before = told(next.before);
    }
    return messages::joined({"Read next: ", next.words, ", to ", kernel::give_or_take(next.standard, next.standard, units),
                             ". ", kernel::begun(std::string(words)), " is then known to ", after, " instead of ", before,
                             "."});
}

} // namespace tautline
