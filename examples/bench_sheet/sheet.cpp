#include "sheet.hpp"

#include <cstdio>

namespace bench_sheet {

namespace {

constexpr std::size_t page_width = 106;

/// Lengths of a few hand's breadths are told to a tenth, smaller ones to a hundredth of a millimetre.
const shown_kind<tl::unit::length>& length_kind(double si) { return std::abs(si) < 0.03 ? show::height : show::place; }

std::string plain(double v, int decimals, bool with_sign) {
    char buffer[64];
    // Adding zero turns a minus zero into zero.
    const double scale = std::pow(10.0, decimals);
    std::snprintf(buffer, sizeof buffer, with_sign ? "%+.*f" : "%.*f", decimals, std::round(v * scale) / scale + 0.0);
    return buffer;
}

template <class U>
std::string of_kind(const shown_kind<U>& kind, double si, const std::optional<double>& doubt, bool with_sign, measures m) {
    std::string text;
    kind.each(m, [&](const column_unit<U>& u) {
        const double unit = static_cast<double>(u.tag.size);
        text += (text.empty() ? "" : " = ") + plain(si / unit, u.decimals, with_sign);
        if (doubt) { text += " ± " + plain(*doubt / unit, u.decimals, false); }
        text += " " + std::string(u.name);
    });
    return text;
}

std::string with_doubt(const char* unit, double v, int decimals, const std::optional<double>& doubt, bool with_sign) {
    return plain(v, decimals, with_sign) + (doubt ? " ± " + plain(*doubt, decimals, false) : "") + unit;
}

std::string number_text(const tl::finding_value& v, bool with_sign, measures m) {
    return v.has_value() ? number_in_words(v.kind(), v.si(), {}, with_sign, m) : "";
}

const tl::setup& last_setup(const whole_job& w) { return w.a.setups.last(); }
const tl::stringing& last_strings(const whole_job& w) { return w.a.setups.last_on().strung; }
std::vector<tl::asked_result> asked_of(const whole_job& w) {
    return tl::asked_results(w.job.wishes_or_none(), last_setup(w));
}

std::string marked(std::string_view mark, bool bold) {
    return bold ? "\033[1m" + std::string(mark) + "\033[0m" : std::string(mark);
}

/// A result by its path; nothing where a setup has none.
struct result {
    std::string_view kind;
    double value;
};
std::optional<result> result_at(const tl::setup& s, std::string_view path) {
    std::optional<result> r;
    tl::for_each_leaf(s, [&](std::string_view at, const auto& x) {
        if (at == path) { r = result{tl::kind_name_of(x), tl::number_of(x)}; }
    });
    return r;
}

std::string summary(const whole_job& w, measures m) {
    std::vector<std::string> head{"", "found"};
    if (w.a.setups.planned) { head.insert(head.end(), {"planned", "wanted"}); }
    text_table table(head);
    for (const tl::asked_result& asked : asked_of(w)) {
        const auto cell = [&](const tl::setup& s, const tl::setup_doubts& d) {
            const auto r = result_at(s, asked.path);
            return r ? number_in_words(r->kind, r->value, d.give_or_take(asked.path), false, m) : std::string("-");
        };
        std::vector<std::string> row{asked.name, cell(w.a.setups.found, w.a.found_doubts)};
        if (w.a.setups.planned) {
            row.push_back(cell(w.a.setups.plan.solved, w.a.planned_doubts));
            const auto r = result_at(w.a.setups.plan.solved, asked.path);
            row.push_back(asked.wanted && r ? number_in_words(r->kind, *asked.wanted, {}, false, m) : "");
        }
        table.row(row);
    }
    const bool doubtful = !w.a.found_doubts.doubts.empty() || !w.a.planned_doubts.doubts.empty();
    return table.text() + (doubtful ? "  ± as far as the file doubts its measurements, about 95 %\n" : "");
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
                show::height.each(m, [&](const auto& u) {
                    row.push_back(plain(q.value() / static_cast<double>(u.tag.size), u.decimals, true));
                });
            };
            add_cells(row, show::height, tl::length<>(p.set.instrument.nut.slot_height(i)), m);
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
        row.push_back(octave > 0 ? plain(one.notes[octave - 1].error.cents(), 1, true) : "-");
        row.push_back(plain(one.at_saddle.break_angle / tl::units::deg, 1, false));
        table.row(row);
    }
    return "Strings, A4 = " + tl::fixed_text(last_strings(w).standard.a4, tl::units::Hz, 1) + " Hz" +
           (w.a.setups.planned ? "; tension found and planned; slot bottoms over board and " +
                                     std::string(tl::top_word(w.a.setups.last_on().instrument)) + ", their change (+ up)"
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
                lines += (l.string_index ? ": " : " ") + number_text(l.number, l.is_change, how.units);
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
        std::string line = c.words + ": " + number_in_words(c.kind, c.found, {}, false, how.units) + " to " +
                           number_in_words(c.kind, c.planned, {}, false, how.units);
        line += " (" +
                (c.share() && std::abs(*c.share()) < 10 && std::string_view(c.kind) != "interval"
                     ? plain(100 * *c.share(), 0, true) + " %"
                     : number_in_words(c.kind, c.by(), {}, true, how.units)) +
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
    const std::size_t slots = w.a.setups.on.instrument.nut.slot_heights.size();
    const auto asked_for = asked_of(w);
    const bool any_wanted = std::any_of(asked_for.begin(), asked_for.end(), [](const auto& r) { return r.wanted; });
    for (const tl::asked_result& asked : asked_for) {
        // On the page the doubts of what is wanted are enough.
        if (!how.budget && any_wanted && !asked.wanted) { continue; }
        const auto doubt = d.give_or_take(asked.path);
        const auto lines = d.budget(asked.path);
        if (!doubt || lines.empty()) { continue; }
        const auto* r = tl::find_result(d.results, asked.path);
        bool first = true;
        for (const auto& line : lines) {
            table.row({first ? asked.name : "", first ? number_in_words(r->kind, *doubt, {}, false, how.units) : "",
                       tl::path_with_string(line.input, last_setup(w).names, slots),
                       std::to_string(std::lround(100 * line.share)) + " %"});
            first = false;
            if (!how.budget) { break; }
        }
    }
    return "Where doubt comes from" + std::string(w.a.setups.planned ? ", as planned" : "") + "\n" + table.text() +
           "  Measure better what makes most of it. Wood, friction and ends count only where the file doubts them.\n";
}

std::string objects(const whole_job& w, measures m) {
    const tl::job_setups& all = w.a.setups;
    return sections::objects(seen_setup{all.last_on(), all.objects, all.seats}, m);
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
                            (f.nearest.has_value() ? "; nearest " + number_text(f.nearest, false, how.units) : "") +
                            (f.nearest.kind() == "angle" ? ", of " + number_text(f.wanted, false, how.units) : "") + ".",
                        2, page_width);
    }
    for (const tl::plan_remark& r : w.a.setups.plan.remarks) {
        text += wrapped("note: wanted." + r.wish + ": " + r.sentence +
                            (r.number.has_value() ? " " + number_text(r.number, false, how.units) : "") + ".",
                        2, page_width);
    }
    const bool none =
        last_setup(w).findings.empty() && w.a.setups.plan.shortfalls.empty() && w.a.setups.plan.remarks.empty();
    return none ? text + "  Nothing out of range.\n" : text;
}

} // namespace

std::string number_in_words(std::string_view kind, double si, std::optional<double> doubt, bool with_sign, measures m) {
    if (kind == "length") { return of_kind(length_kind(si), si, doubt, with_sign, m); }
    if (kind == "force") { return of_kind(show::pull, si, doubt, with_sign, m); }
    if (kind == "stress") { return of_kind(show::load, si, doubt, with_sign, m); }
    if (kind == "moment") { return of_kind(show::turning, si, doubt, with_sign, m); }
    if (kind == "linear_density") { return of_kind(show::mass, si, doubt, with_sign, m); }
    constexpr double degree = 3.14159265358979323846 / 180;
    if (kind == "angle") {
        return with_doubt(" deg", si / degree, 2, doubt ? std::optional(*doubt / degree) : doubt, with_sign);
    }
    if (kind == "interval") { return with_doubt(" cents", si, 1, doubt, with_sign); }
    if (kind == "frequency") { return with_doubt(" Hz", si, 2, doubt, with_sign); }
    if (kind == "number") { return with_doubt("", si, 2, doubt, with_sign); }
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.6g SI", si);
    return buffer;
}

std::string sheet(const whole_job& w, const sheet_options& how) {
    const std::string& title = w.job.title;
    std::string text = title.empty() ? "Untitled instrument" : shown(title);
    if (w.job.planned && w.job.planned->title != title) { text += "\nPlanned: " + shown(w.job.planned->title); }
    text += "\n\n";
    for (const auto& part : {summary(w, how.units), strings(w, how.units), steps(w, how), objects(w, how.units),
                             changes(w, how), budget(w, how), findings(w, how)}) {
        if (!part.empty()) { text += part + "\n"; }
    }
    if (how.detail) {
        const seen_setup found{w.a.setups.on, w.job.objects, w.a.setups.found_seats};
        text += "AS FOUND\n\n" + detail(found, w.a.setups.found, how.units);
        if (w.a.setups.planned) {
            const seen_setup planned{w.a.setups.plan.set, w.a.setups.objects, w.a.setups.seats};
            text += "AS PLANNED\n\n" + detail(planned, w.a.setups.plan.solved, how.units);
        }
    }
    return text + std::string(cautions);
}

} // namespace bench_sheet
