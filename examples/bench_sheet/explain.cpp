#include "explain.hpp"

#include <tautline/job/named_numbers.hpp>
#include <tautline/job/typed_names.hpp>

namespace bench_sheet {

namespace {

tl::any_quantity doubt_of(const whole_job& w, const tl::named_number& n) {
    if (n.state == "found") { return w.a.found_doubts.give_or_take(n.path); }
    if (n.state == "planned") { return w.a.planned_doubts.give_or_take(n.path); }
    return {};
}

/// The names of the strings that a number is of.
const tl::string_names& names_of(const whole_job& w, std::string_view name) {
    return (name.starts_with("found.") ? w.a.setups.found : w.a.setups.last()).names;
}

constexpr std::size_t inputs_shown = 12;

} // namespace

std::string explain_list(const whole_job& w, measures m) {
    text_table table({"name", "value", "what"});
    for (const auto& n : tl::named_numbers(w.a.setups)) { table.row({n.name, in_words(n.value, m), shown(n.words)}); }
    return table.text();
}

std::string explain_text(const whole_job& w, const std::string& name, measures m) {
    const auto list = tl::named_numbers(w.a.setups);
    const tl::named_number* n = tl::find_number(list, tl::typed_path(name, names_of(w, name), "--explain"));
    if (!n) {
        const std::string close = tl::nearest_name(list, name);
        throw tl::invalid_input(tl::problem{"no number", "",
                                            "is named \"" + name + '"' +
                                                (close.empty() ? ";" : "; did you mean \"" + close + "\"?") +
                                                " --list names them all"});
    }
    std::string text =
        shown(n->words) + ": " + tl::bench_text(n->value, {.units = m, .give_or_take = doubt_of(w, *n)}) + "\n";
    text += wrapped("named: " + tl::path_with_string(n->name, names_of(w, n->name)), 2) +
            wrapped("made as: " + n->formula, 2) + wrapped("after: " + n->source, 2);
    const auto inputs = tl::inputs_of(w.job, w.a.setups, *n);
    if (inputs.empty()) { return text; }
    const tl::string_names& names = names_of(w, n->name);
    const auto& on = n->state == "found" ? w.a.setups.as_found : w.a.setups.last_strung();
    const std::size_t slots = on.instrument.nut.slot_heights.size();
    text_table table({"moved by", "which is", "one hundredth more of it gives"});
    for (std::size_t i = 0; i < inputs.size() && i < inputs_shown; ++i) {
        const auto& in = inputs[i];
        table.row(
            {tl::path_with_string(in.path, names, slots), in_words(in.value, m),
             in.value.si() == 0 ? "(0 now)" : tl::to_text(in.for_one_percent(), {.units = m, .sign = true, .digits = 3})});
    }
    text += table.text();
    if (inputs.size() > inputs_shown) {
        text += "  and " + std::to_string(inputs.size() - inputs_shown) + " inputs that move it less\n";
    }
    return text;
}

} // namespace bench_sheet
