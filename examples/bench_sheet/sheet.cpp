#include "sheet.hpp"

#include <tautline/job/job_words.hpp>

#include "blocks.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t page_width = 106;

/// A part of the sheet as text. On a terminal the marks of its sentences are bold.
std::string text_of(const block& b, const sheet_options& how) {
    if (b.empty()) { return ""; }
    std::string text = b.heading.empty() ? "" : b.heading + "\n";
    if (!b.rows.empty()) { text += table_text(b.rows); }
    const bool heads = !b.heading.empty() || !b.rows.empty();
    for (const block_sentence& s : b.sentences) {
        const auto mark = how.bold && s.marked ? std::min(s.words.find(": "), s.words.size()) : 0;
        text += wrapped(mark > 0 ? "\033[1m" + s.words.substr(0, mark) + "\033[0m" + s.words.substr(mark) : s.words,
                        heads ? 2 : 0, page_width);
    }
    return text;
}

std::string steps(const whole_job& w, const block_options& how) {
    std::string text;
    int number = 0;
    for (const step_block& s : step_blocks(w, how)) {
        text += "  " + std::to_string(++number) + ". " + s.title + "\n";
        std::string lines;
        for (const std::string& line : s.lines) { lines += (lines.empty() ? "" : "; ") + line; }
        if (s.each_string) { lines += (lines.empty() ? "" : "; ") + std::string("each string's as in the table above"); }
        text += wrapped("In hand: " + s.in_hand + ".", 5, page_width);
        if (!lines.empty()) { text += wrapped(lines + ".", 5, page_width); }
        if (!s.decision.empty()) { text += wrapped("Decide: " + s.decision, 5, page_width); }
        text += wrapped("Done when: " + s.check, 5, page_width);
    }
    return text.empty() ? text : "Steps\n" + text;
}

} // namespace

tl::job_answers answers_of(const tl::bench_job& job) { return tl::answer(job); }

std::string cautions() { return "Cautions\n" + wrapped(tl::job_cautions, 2, page_width); }

std::string sheet(const whole_job& w, const sheet_options& how) {
    const std::string& title = w.job.title;
    std::string text = title.empty() ? "Untitled instrument" : shown(title);
    if (w.job.planned && w.job.planned->title != title) { text += "\nPlanned: " + shown(w.job.planned->title); }
    text += "\n\n";
    const block_options blocks{how.units, how.steps, how.changes, how.budget, how.fine};
    const auto printed = [&](const block& b) { return text_of(b, how); };
    std::string layout;
    for (const block& b : layout_blocks(w, how.units)) { layout += printed(b); }
    for (const auto& part :
         {printed(cannot_be_block(w, how.units, how.fine)), printed(summary_block(w, blocks)),
          printed(readings_block(w, how.units)), printed(strings_block(w, blocks)), steps(w, blocks),
          sections::objects(w.last(), how.units), layout, printed(changes_block(w, blocks)),
          printed(season_block(w, how.units)), printed(budget_block(w, blocks)), printed(findings_block(w, blocks))}) {
        if (!part.empty()) { text += part + "\n"; }
    }
    if (how.detail) {
        for (const tl::job_state& s : w.states) {
            text += (s.name == "found" ? "AS FOUND\n\n" : "AS PLANNED\n\n") + detail(s, how.units);
        }
    }
    return text + cautions();
}

} // namespace bench_sheet
