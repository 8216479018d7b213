#include "sheet.hpp"

#include <cstdio>

namespace bench_sheet {

namespace {

constexpr std::size_t page_width = 106;

const tl::setup& last_setup(const whole_job& w) { return w.a.setups.last(); }
const tl::stringing& last_strings(const whole_job& w) { return w.a.setups.last_strung().stringing; }
std::vector<tl::asked_result> asked_of(const whole_job& w) {
    return tl::asked_results(w.job.wishes_or_none(), last_setup(w));
}

std::string marked(std::string_view mark, bool bold) {
    return bold ? "\033[1m" + std::string(mark) + "\033[0m" : std::string(mark);
}

std::string summary(const whole_job& w, measures m) {
    std::vector<std::string> head{"", "found"};
    if (w.a.setups.planned) { head.insert(head.end(), {"planned", "wanted"}); }
    text_table table(head);
    for (const tl::asked_result& asked : asked_of(w)) {
        const auto cell = [&](const tl::setup& s, const tl::setup_doubts& d) {
            const tl::any_quantity r = tl::find_at(s, asked.path);
            return r.has_value() ? tl::bench_text(r, {.units = m, .give_or_take = d.give_or_take(asked.path)})
                                 : std::string("-");
        };
        std::vector<std::string> row{asked.name, cell(w.a.setups.found, w.a.found_doubts)};
        if (w.a.setups.planned) {
            row.push_back(cell(w.a.setups.plan.solved, w.a.planned_doubts));
            row.push_back(in_words(asked.wanted, m));
        }
        table.row(row);
    }
    const tl::setup_doubts& d = w.a.last_doubts();
    if (d.doubts.empty()) { return table.text(); }
    const bool nothing_stated = d.usual.size() == d.doubts.size() - w.a.readings.said.readings.size();
    return table.text() + "  ± at about 95 %" +
           (nothing_stated    ? "; the file states no doubt: all are what is usual at the bench\n"
            : d.usual.empty() ? ", as far as the file doubts its measurements\n"
                              : "; where the file states no doubt, what is usual at the bench counts\n");
}

/// What the readings of the instrument say.
std::string readings(const whole_job& w, measures m) {
    const bool none = w.a.readings.said.readings.empty();
    std::string text;
    for (const std::string& sentence : tl::sentences_of(w.job, w.a.readings, w.a.learnt, m)) {
        text += wrapped(sentence, 2, page_width);
    }
    return text.empty() ? text : (none ? "Nothing is read yet of what it does\n" : "What the readings say\n") + text;
}

/// One line a string: what it pulls, what its slots become, how tight it runs.
std::string strings(const whole_job& w, measures m) {
    const tl::setup& s = last_setup(w);
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
    head.push_back("octave c");
    head.push_back("break deg");
    text_table table(head);
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        std::vector<std::string> row{s.names.number(i), s.names.note_of(i)};
        add_cells(row, show::height, one.gauge, m);
        if (w.a.setups.planned) { add_cells(row, show::pull, w.a.setups.found.strings[i].tension, m); }
        add_cells(row, show::pull, one.tension, m);
        if (!w.a.setups.planned) {
            row.push_back(one.share_of_strength ? std::to_string(std::lround(100 * *one.share_of_strength)) + " %" : "?");
        }
        if (w.a.setups.planned) {
            const auto& p = w.a.setups.plan;
            const auto change = [&](const tl::length<>& q) {
                show::height.each(m, [&](const auto& u) { row.push_back(tl::shown_number(q, u, true)); });
            };
            add_cells(row, show::height, tl::length<>(p.adjusted.instrument.nut.slot_height(i)), m);
            change(p.slot_change[i]);
            add_cells(row, show::height, p.saddle_height[i], m);
            change(p.saddle_change[i]);
        }
        tl::length<> least = one.clearances.empty() ? tl::length<>() : one.clearances[0].gap;
        for (const auto& c : one.clearances) { least = std::min(least, c.gap); }
        if (one.clearances.empty()) {
            show::height.each(m, [&](const auto&) { row.push_back("-"); });
        } else {
            add_cells(row, show::height, least, m);
        }
        const auto octave = static_cast<std::size_t>(s.octave_fret);
        row.push_back(octave > 0 ? tl::shown_number(one.notes[octave - 1].error, show::interval.metric, true) : "-");
        row.push_back(sections::degrees(one.at_saddle.break_angle));
        table.row(row);
    }
    return "Strings, A4 = " + tl::fixed_text(last_strings(w).standard.a4, tl::units::Hz, 1) + " Hz" +
           (w.a.setups.planned
                ? "; tension found and planned; slot bottoms over board and " +
                      std::string(tl::top_word(w.a.setups.last_strung().instrument)) + ", their change (+ up)"
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
            lines += lines.empty() ? "" : "; ";
            lines += l.what;
            if (l.number.has_value()) {
                lines +=
                    (l.string_index ? ": " : " ") + tl::bench_text(l.number, {.units = how.units, .sign = l.is_change});
            }
        }
        if (in_table) { lines += (lines.empty() ? "" : "; ") + std::string("each string's as in the table above"); }
        if (!lines.empty()) { text += wrapped(lines + ".", 5, page_width); }
        if (!s.decision.empty()) { text += wrapped("Decide: " + s.decision, 5, page_width); }
        text += wrapped("Done when: " + s.check, 5, page_width);
    }
    return text;
}

std::string changes(const whole_job& w, const sheet_options& how) {
    if (!w.a.setups.planned) { return ""; }
    const auto list = how.changes ? w.a.changes : tl::leading_changes(w.a.changes);
    constexpr std::size_t on_the_page = 6;
    if (list.empty()) { return "Nothing changes that would be noticed.\n"; }
    std::string text = how.changes ? "All changes, most noticed first\n" : "What changes most\n";
    for (std::size_t i = 0; i < list.size() && (how.changes || i < on_the_page); ++i) {
        const tl::setup_change& c = list[i];
        std::string line = c.words + ": " + in_words(c.found, how.units) + " to " + in_words(c.planned, how.units);
        line += " (" +
                (c.share() && std::abs(*c.share()) < 10 && c.found.kind() != "interval"
                     ? tl::shown_number(100 * *c.share(), {"", 1, 0}, true) + " %"
                     : tl::bench_text(c.by(), {.units = how.units, .sign = true})) +
                ")";
        text += wrapped(line + (c.meaning.empty() ? "" : ": " + std::string(c.meaning)), 2, page_width);
    }
    return text;
}

std::string budget(const whole_job& w, const sheet_options& how) {
    const tl::setup_doubts& d = w.a.last_doubts();
    if (d.doubts.empty()) { return ""; }
    std::string text;
    text_table table({"doubt in", "give or take", "most of it from", "share"});
    const std::size_t slots = w.a.setups.as_found.instrument.nut.slot_heights.size();
    const auto asked_for = asked_of(w);
    const bool any_wanted =
        std::any_of(asked_for.begin(), asked_for.end(), [](const auto& r) { return r.wanted.has_value(); });
    for (const tl::asked_result& asked : asked_for) {
        // On the page the doubts of what is wanted are enough.
        if (!how.budget && any_wanted && !asked.wanted.has_value()) { continue; }
        const auto doubt = d.give_or_take(asked.path);
        const auto lines = d.budget(asked.path);
        if (!doubt.has_value() || lines.empty()) { continue; }
        bool first = true;
        for (const auto& line : lines) {
            table.row(
                {first ? asked.name : "", first ? in_words(doubt, how.units) : "",
                 tl::path_with_string(line.input, last_setup(w).names, slots) + (d.is_usual(line.input) ? ", usual" : ""),
                 std::to_string(std::lround(100 * line.share)) + " %"});
            first = false;
            if (!how.budget) { break; }
        }
    }
    return "Where doubt comes from" + std::string(w.a.setups.planned ? ", as planned" : "") + "\n" + table.text() +
           "  Measure better what makes most of it. Friction counts only where the file doubts it.\n";
}

std::string objects(const whole_job& w, measures m) {
    const tl::job_setups& all = w.a.setups;
    return sections::objects(seen_setup{all.last_strung(), all.objects, all.seats}, m);
}

std::string findings(const whole_job& w, const sheet_options& how) {
    std::string text = w.a.setups.planned ? "Findings, as planned\n" : "Findings\n";
    for (const tl::finding& f : last_setup(w).findings) {
        const char* mark = f.severity == tl::severity::stop      ? "STOP"
                           : f.severity == tl::severity::warning ? "warning"
                                                                 : "note";
        text += wrapped(marked(mark, how.bold && f.severity != tl::severity::note) + ": " + f.sentence, 2, page_width);
    }
    for (const tl::shortfall& f : w.a.setups.plan.shortfalls) {
        text += wrapped(marked("not met", how.bold) + ": wanted." + f.wish + ": " + f.why +
                            (f.nearest.has_value() ? "; nearest " + in_words(f.nearest, how.units) : "") +
                            (f.nearest.kind() == "angle" ? ", of " + in_words(f.wanted, how.units) : "") + ".",
                        2, page_width);
    }
    for (const tl::plan_remark& r : w.a.setups.plan.remarks) {
        text += wrapped("note: wanted." + r.wish + ": " + r.sentence +
                            (r.number.has_value() ? " " + in_words(r.number, how.units) : "") + ".",
                        2, page_width);
    }
    const bool none =
        last_setup(w).findings.empty() && w.a.setups.plan.shortfalls.empty() && w.a.setups.plan.remarks.empty();
    return none ? text + "  Nothing out of range.\n" : text;
}

} // namespace

tl::job_answers answers_of(const tl::bench_job& job) { return tl::answer(job); }

std::string sheet(const whole_job& w, const sheet_options& how) {
    const std::string& title = w.job.title;
    std::string text = title.empty() ? "Untitled instrument" : shown(title);
    if (w.job.planned && w.job.planned->title != title) { text += "\nPlanned: " + shown(w.job.planned->title); }
    text += "\n\n";
    for (const auto& part : {summary(w, how.units), readings(w, how.units), strings(w, how.units), steps(w, how),
                             objects(w, how.units), changes(w, how), budget(w, how), findings(w, how)}) {
        if (!part.empty()) { text += part + "\n"; }
    }
    if (how.detail) {
        const seen_setup found{w.a.setups.as_found, w.job.objects, w.a.setups.found_seats};
        text += "AS FOUND\n\n" + detail(found, w.a.setups.found, how.units);
        if (w.a.setups.planned) {
            const seen_setup planned{w.a.setups.plan.adjusted, w.a.setups.objects, w.a.setups.seats};
            text += "AS PLANNED\n\n" + detail(planned, w.a.setups.plan.solved, how.units);
        }
    }
    return text + std::string(cautions);
}

} // namespace bench_sheet
