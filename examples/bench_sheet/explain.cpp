#include "explain.hpp"

#include <tautline/job/named_numbers.hpp>

namespace bench_sheet {

namespace {

constexpr std::size_t inputs_shown = 12;

} // namespace

std::string explain_list(const whole_job& w, measures m) {
    text_table table({"name", "value", "what"});
    for (const auto& n : tl::named_numbers(w.a.setups)) { table.row({n.name, in_words(n.value, m), shown(n.words)}); }
    return table.text();
}

std::string explain_text(const whole_job& w, const std::string& name, measures m) {
    const tl::named_number n = tl::number_by_name(w.a.setups, name, "--explain");
    const tl::job_state& of = n.state == "found" ? w.states.front() : w.last();
    const tl::any_quantity doubt = n.state == of.name ? of.doubts.give_or_take(n.path) : tl::any_quantity();
    std::string text = shown(n.words) + ": " + tl::bench_text(n.value, {.units = m, .give_or_take = doubt}) + "\n" +
                       wrapped("named: " + tl::path_with_string(n.name, of.is.names), 2) +
                       wrapped("made as: " + n.formula, 2) + wrapped("after: " + n.source, 2);
    const auto inputs = tl::inputs_of(w.job, w.a.setups, n);
    if (inputs.empty()) { return text; }
    text_table table({"moved by", "which is", "one hundredth more of it gives"});
    for (std::size_t i = 0; i < inputs.size() && i < inputs_shown; ++i) {
        const auto& in = inputs[i];
        table.row(
            {of.named(in.path), in_words(in.value, m),
             in.value.si() == 0 ? "(0 now)" : tl::to_text(in.for_one_percent(), {.units = m, .sign = true, .digits = 3})});
    }
    text += table.text();
    if (inputs.size() > inputs_shown) {
        text += "  and " + std::to_string(inputs.size() - inputs_shown) + " inputs that move it less\n";
    }
    return text;
}

} // namespace bench_sheet
