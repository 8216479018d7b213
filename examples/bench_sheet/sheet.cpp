#include "sheet.hpp"

#include <tautline/job/doubt_budget.hpp>
#include <tautline/job/what_cannot_be.hpp>
#include <tautline/setup/findings_told.hpp>

namespace bench_sheet {

namespace {

constexpr std::size_t page_width = 106;

std::string summary(const whole_job& w, measures m) {
    std::vector<std::string> head{"", "found"};
    if (w.a.setups.planned) { head.insert(head.end(), {"planned", "wanted"}); }
    text_table table(head);
    for (const tl::asked_result& asked : tl::asked_results(w.job.wishes_or_none(), w.last().is)) {
        std::vector<std::string> row{asked.name};
        for (const tl::job_state& s : w.states) {
            const tl::any_quantity r = tl::find_at(s.is, asked.path);
            row.push_back(r.has_value() ? tl::bench_text(r, {.units = m, .give_or_take = s.doubts.give_or_take(asked.path)})
                                        : "-");
        }
        if (w.a.setups.planned) { row.push_back(in_words(asked.wanted, m)); }
        table.row(row);
    }
    const std::string about = tl::words_of(tl::basis_of_doubts(w.job, w.a));
    return table.text() + (about.empty() ? "" : "  " + about + "\n");
}

/// What must be known first; in a terminal its first words stand out.
std::string cannot_be(const std::vector<std::string>& hindrances, const sheet_options& how) {
    std::string text;
    for (const std::string& sentence : hindrances) {
        const auto mark = how.bold ? std::min(sentence.find(": "), sentence.size()) : 0;
        text += wrapped(mark > 0 ? "\033[1m" + sentence.substr(0, mark) + "\033[0m" + sentence.substr(mark) : sentence, 2,
                        page_width);
    }
    return text.empty() ? text : "First: what cannot be\n" + text;
}

/// What the readings of the instrument say, but for what was said first.
std::string readings(const whole_job& w, measures m, const std::vector<std::string>& said) {
    const bool none = w.a.readings.said.readings.empty();
    std::string text;
    for (const std::string& sentence : tl::sentences_of(w.job, w.a.readings, w.a.learnt, m)) {
        if (std::find(said.begin(), said.end(), sentence) == said.end()) { text += wrapped(sentence, 2, page_width); }
    }
    return text.empty() ? text : (none ? "Nothing is read yet of what it does\n" : "What the readings say\n") + text;
}

/// One line a string: what it pulls, what its slots become, how tight it runs.
std::string strings(const whole_job& w, measures m) {
    const tl::setup& s = w.last().is;
    std::vector<std::string> head{"string", "note"};
    add_heads(head, "gauge", show::height, m);
    if (w.a.setups.planned) { add_heads(head, "found", show::pull, m); }
    add_heads(head, w.a.setups.planned ? "planned" : "tension", show::pull, m);
    if (!w.a.setups.planned) { head.push_back("of strength"); }
    if (w.a.setups.planned) {
        add_heads(head, "nut slot", show::height, m);
        add_heads(head, "by", show::height, m);
        add_heads(head, "saddle", show::height, m);
        add_heads(head, "by", show::height, m);
    }
    add_heads(head, "clears", show::height, m);
    head.insert(head.end(), {"octave c", "break deg"});
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        std::vector<std::string> row{s.names.number(i), s.names.note_of(i)};
        add_cells(row, show::height, one.gauge, m);
        if (w.a.setups.planned) { add_cells(row, show::pull, w.a.setups.found.strings[i].tension, m); }
        add_cells(row, show::pull, one.tension, m);
        if (!w.a.setups.planned) { row.push_back(sections::share_of_strength(one)); }
        if (w.a.setups.planned) {
            const auto& p = w.a.setups.plan;
            add_cells(row, show::height, tl::length<>(p.adjusted.instrument.nut.slot_height(i)), m);
            add_cells(row, show::height, p.slot_change[i], m, true);
            add_cells(row, show::height, p.saddle_height[i], m);
            add_cells(row, show::height, p.saddle_change[i], m, true);
        }
        const auto pressed = tl::tightest(one);
        add_cells(row, show::height, pressed ? tl::any_quantity(one.clearances[*pressed].gap) : tl::any_quantity(), m);
        // A string with a nut of its own has its octave as many frets further up.
        const std::size_t octave = s.octave_fret > 0 ? static_cast<std::size_t>(s.octave_fret) + one.frets_behind : 0;
        row.push_back(octave > 0 && octave <= one.notes.size()
                          ? tl::shown_number(one.notes[octave - 1].error, show::interval.metric, true)
                          : "-");
        row.push_back(sections::degrees(one.at_saddle.break_angle));
        table.row(row);
    }
    return "Strings, A4 = " + tl::fixed_text(w.last().on.stringing.standard.a4, tl::units::Hz, 1) + " Hz" +
           (w.a.setups.planned ? "; tension found and planned; slot bottoms over board and " +
                                     std::string(tl::top_word(w.last().on.instrument)) + ", their change (+ up)"
                               : "") +
           "\n" + table.text();
}

std::string steps(const whole_job& w, const sheet_options& how) {
    if (!w.a.setups.planned) { return ""; }
    std::string text = "Steps\n";
    int number = 0;
    for (const tl::bench_step& s : w.a.steps) {
        text += "  " + std::to_string(++number) + ". " + s.title + "\n";
        std::string lines;
        bool in_table = false;
        for (const tl::step_line& l : s.lines) {
            // On the page a string's own numbers stand in the table of the strings.
            if (l.one_of_all && !how.steps) {
                in_table = true;
                continue;
            }
            lines += (lines.empty() ? "" : "; ") + tl::words_of(l, how.units);
        }
        if (in_table) { lines += (lines.empty() ? "" : "; ") + std::string("each string's as in the table above"); }
        if (!lines.empty()) { text += wrapped(lines + ".", 5, page_width); }
        if (!s.decision.empty()) { text += wrapped("Decide: " + s.decision, 5, page_width); }
        text += wrapped("Done when: " + s.check, 5, page_width);
    }
    return text;
}

/// What the season does to it in the end.
std::string season(const whole_job& w, measures m) {
    if (!w.a.year) { return ""; }
    text_table table({"", "as measured", "driest air", "dampest air"});
    for (const tl::year_line& line : w.a.year->lines) {
        std::vector<std::string> row{line.words, tl::bench_text(line.values[0], {.units = m})};
        for (std::size_t end : {0U, 1U}) {
            row.push_back(tl::bench_text(line.values[end + 1], {.units = m, .give_or_take = line.give_or_take[end]}));
        }
        table.row(row);
    }
    std::string text = "Through the year\n" + table.text();
    for (const std::string& caution : w.a.year->cautions) { text += wrapped(caution, 2, page_width); }
    return text;
}

std::string changes(const whole_job& w, const sheet_options& how) {
    if (!w.a.setups.planned) { return ""; }
    const auto list = how.changes ? w.a.changes : tl::leading_changes(w.a.changes);
    constexpr std::size_t on_the_page = 6;
    if (list.empty()) { return "Nothing changes that would be noticed.\n"; }
    std::string text = how.changes ? "All changes, most noticed first\n" : "What changes most\n";
    for (std::size_t i = 0; i < list.size() && (how.changes || i < on_the_page); ++i) {
        text += wrapped(tl::words_of(list[i], how.units), 2, page_width);
    }
    return text;
}

std::string budget(const whole_job& w, const sheet_options& how) {
    if (w.last().doubts.doubts.empty()) { return ""; }
    text_table table({"doubt in", "give or take", "most of it from", "share"});
    const std::size_t slots = w.a.setups.as_found.instrument.nut.slot_heights.size();
    // On the page the doubts of what is wanted are enough, and the largest part of each.
    for (const tl::result_budget& one : tl::budgets_of(w.job, w.a, how.budget)) {
        for (std::size_t i = 0; i < (how.budget ? one.parts.size() : 1); ++i) {
            const auto& part = one.parts[i];
            table.row({i == 0 ? one.asked.name : "", i == 0 ? in_words(one.give_or_take, how.units) : "",
                       tl::path_with_string(part.input, w.last().is.names, slots) +
                           (w.last().doubts.is_usual(part.input) ? ", usual" : ""),
                       std::to_string(std::lround(100 * part.share)) + " %"});
        }
    }
    return "Where doubt comes from" + std::string(w.a.setups.planned ? ", as planned" : "") + "\n" + table.text() +
           "  Measure better what makes most of it. Friction counts only where the file doubts it.\n";
}

std::string findings(const whole_job& w, const sheet_options& how, bool all_can_be) {
    std::string text;
    for (const tl::told_finding& f : tl::findings_told(w.last().is.findings, w.last().is.names)) {
        if (f.severity == tl::severity::stop) { continue; } // said first
        const bool bold = how.bold && f.severity != tl::severity::note;
        const std::string mark(tl::name_of(f.severity));
        text += wrapped((bold ? "\033[1m" + mark + "\033[0m: " : mark + ": ") + f.sentence, 2, page_width);
    }
    for (const tl::plan_remark& r : w.a.setups.plan.remarks) {
        text += wrapped("note: " + tl::words_of(r, how.units), 2, page_width);
    }
    if (text.empty() && all_can_be) { text = "  Nothing out of range.\n"; }
    return text.empty() ? text : (w.a.setups.planned ? "Findings, as planned\n" : "Findings\n") + text;
}

} // namespace

tl::job_answers answers_of(const tl::bench_job& job) { return tl::answer(job); }

std::string cautions() { return "Cautions\n" + wrapped(tl::job_cautions, 2, page_width); }

std::string sheet(const whole_job& w, const sheet_options& how) {
    const std::string& title = w.job.title;
    std::string text = title.empty() ? "Untitled instrument" : shown(title);
    if (w.job.planned && w.job.planned->title != title) { text += "\nPlanned: " + shown(w.job.planned->title); }
    text += "\n\n";
    const auto hindrances = tl::what_cannot_be(w.a, how.units);
    for (const auto& part :
         {cannot_be(hindrances, how), summary(w, how.units), readings(w, how.units, hindrances), strings(w, how.units),
          steps(w, how), objects_text(w.last(), how.units), layout_text(w.a.layout, how.units), changes(w, how),
          season(w, how.units), budget(w, how), findings(w, how, hindrances.empty())}) {
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
