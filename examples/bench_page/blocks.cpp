#include "blocks.hpp"

#include <algorithm>

#include <tautline/core/by_path.hpp>
#include <tautline/job/doubt_budget.hpp>
#include <tautline/job/names_taken.hpp>
#include <tautline/job/what_cannot_be.hpp>
#include <tautline/job/year_words.hpp>
#include <tautline/setup/findings_told.hpp>

namespace bench_sheet {

block cannot_be_block(const whole_job& w, measures m, bool fine) {
    block b{"First: what cannot be", {}, {}};
    for (const std::string& sentence : tl::what_cannot_be(w.a, m, fine)) { b.sentences.push_back({sentence, true}); }
    return b;
}

namespace {

/// The rounding of a result at the head of the sheet.
tl::bench_rounding told(const tl::asked_result& asked, const tl::any_quantity& doubt, const block_options& how) {
    return how.fine ? tl::bench_rounding{} : tl::rounding_of(asked, doubt);
}

} // namespace

block summary_block(const whole_job& w, const block_options& how) {
    std::vector<std::string> head{"", "found"};
    if (w.a.setups.planned) { head.insert(head.end(), {"planned", "wanted"}); }
    block b{"", {head}, {}};
    for (const tl::asked_result& asked : tl::asked_results(w.job.wishes_or_none(), w.last().is)) {
        std::vector<std::string> row{asked.name};
        for (const tl::job_state& s : w.states) {
            const tl::any_quantity r = tl::find_at(s.is, asked.path), doubt = s.doubts.give_or_take(asked.path);
            // Found numbers are not worked to, so they keep their decimals.
            const bool kept = !asked.wanted.has_value() && tl::keeps(tl::find_at(w.a.setups.found, asked.path), r);
            const auto as = s.name == "planned" && !kept ? told(asked, doubt, how) : tl::bench_rounding{};
            row.push_back(r.has_value() ? tl::told_text(r, as, {.units = how.units, .give_or_take = doubt}) : "-");
        }
        if (w.a.setups.planned) {
            const auto doubt = w.last().doubts.give_or_take(asked.path);
            row.push_back(tl::told_text(asked.wanted, told(asked, doubt, how), {.units = how.units}));
        }
        b.rows.push_back(row);
    }
    const std::string about = tl::words_of(tl::basis_of_doubts(w.job, w.a));
    if (!about.empty()) { b.sentences.push_back({about}); }
    if (w.a.learnt.in_doubt) { b.sentences.push_back({std::string(tl::measure_first)}); }
    return b;
}

block readings_block(const whole_job& w, measures m) {
    const auto said = tl::what_cannot_be(w.a, m);
    block b{w.a.readings.said.readings.empty() ? "Nothing is read yet of what it does" : "What the readings say", {}, {}};
    for (const std::string& sentence : tl::sentences_of(w.job, w.a.readings, w.a.learnt, m)) {
        if (std::find(said.begin(), said.end(), sentence) == said.end()) { b.sentences.push_back({sentence}); }
    }
    return b;
}

block strings_block(const whole_job& w, const block_options& how) {
    const measures m = how.units;
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
    block b{"", {head}, {}};
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        std::vector<std::string> row{s.names.number(i), s.names.note_of(i)};
        add_cells(row, show::height, one.gauge, m);
        if (w.a.setups.planned) { add_cells(row, show::pull, w.a.setups.found.strings[i].tension, m); }
        add_cells(row, show::pull, one.tension, m);
        if (!w.a.setups.planned) { row.push_back(sections::share_of_strength(one)); }
        if (w.a.setups.planned) {
            const auto& p = w.a.setups.plan;
            const auto& on = p.adjusted.instrument;
            const auto slot = how.fine ? tl::bench_rounding{} : w.a.room.of_slot(i);
            const auto saddle = how.fine ? tl::bench_rounding{} : w.a.room.of_saddle(on.saddle, i);
            add_told_cells(row, slot, tl::length<>(on.nut.slot_height(i)), m);
            add_told_cells(row, slot, p.slot_change[i], m, true);
            add_told_cells(row, saddle, p.saddle_height[i], m);
            add_told_cells(row, saddle, p.saddle_change[i], m, true);
        }
        const auto pressed = tl::tightest(one);
        add_cells(row, show::height, pressed ? tl::any_quantity(one.clearances[*pressed].gap) : tl::any_quantity(), m);
        // The octave of a string with its own nut lies that many frets further up.
        const std::size_t octave = s.octave_fret > 0 ? static_cast<std::size_t>(s.octave_fret) + one.frets_behind : 0;
        row.push_back(octave > 0 && octave <= one.notes.size()
                          ? tl::shown_number(one.notes[octave - 1].error, show::interval.metric, true)
                          : "-");
        row.push_back(sections::break_degrees(one.at_saddle));
        b.rows.push_back(row);
    }
    b.heading = "Strings, A4 = " + tl::fixed_text(w.last().on.stringing.standard.a4, tl::units::Hz, 1) + " Hz" +
                (w.a.setups.planned ? "; tension found and planned; slot bottoms over board and " +
                                          std::string(tl::top_word(w.last().on.instrument)) + ", their change (+ up)"
                                    : "");
    return b;
}

std::vector<step_block> step_blocks(const whole_job& w, const block_options& how) {
    std::vector<step_block> steps;
    if (!w.a.setups.planned) { return steps; }
    const auto detail = how.fine ? tl::number_detail::fine : tl::number_detail::bench;
    for (const tl::bench_step& s : w.a.steps) {
        step_block b{s.title, {}, false, s.decision, s.check, s.in_hand};
        for (const tl::step_line& l : s.lines) {
            // On the page the numbers of each string are in the table of the strings.
            b.each_string = b.each_string || (l.one_of_all && !how.steps);
            if (!l.one_of_all || how.steps) { b.lines.push_back(tl::words_of(l, how.units, detail)); }
        }
        steps.push_back(std::move(b));
    }
    return steps;
}

block objects_block(const whole_job& w, measures m) {
    block b{sections::objects_heading, {}, {}};
    for (const std::string& sentence : sections::object_sentences(w.last(), m)) { b.sentences.push_back({sentence}); }
    return b;
}

block season_block(const whole_job& w, measures m) {
    if (!w.a.year) { return {}; }
    block b{"Through the year", {{"", "as measured", "driest air", "dampest air"}}, {}};
    for (const tl::year_line& line : w.a.year->lines) {
        std::vector<std::string> row{line.words, tl::bench_text(line.values[0], {.units = m})};
        for (std::size_t end : {0U, 1U}) {
            row.push_back(tl::bench_text(line.values[end + 1], {.units = m, .give_or_take = line.give_or_take[end]}));
        }
        b.rows.push_back(row);
        if (!line.places[0]) { continue; }
        std::vector<std::string> where{"  its string, pressed at, over fret"};
        for (const auto& at : line.places) { where.push_back(at ? tl::words_of(*at, w.last().is.names) : ""); }
        b.rows.push_back(where);
    }
    for (const std::string& said : tl::sentences_of(*w.a.year, m)) { b.sentences.push_back({said}); }
    return b;
}

block changes_block(const whole_job& w, const block_options& how) {
    if (!w.a.setups.planned) { return {}; }
    const auto list = how.changes ? w.a.changes : tl::leading_changes(w.a.changes);
    constexpr std::size_t on_the_page = 6;
    if (list.empty()) { return {"", {}, {{"Nothing changes that would be noticed."}}}; }
    block b{how.changes ? "All changes, most noticed first" : "What changes most", {}, {}};
    for (std::size_t i = 0; i < list.size() && (how.changes || i < on_the_page); ++i) {
        b.sentences.push_back({tl::words_of(list[i], how.units)});
    }
    return b;
}

block budget_block(const whole_job& w, const block_options& how) {
    if (w.last().doubts.doubts.empty()) { return {}; }
    block b{"Where doubt comes from" + std::string(w.a.setups.planned ? ", as planned" : ""),
            {{"doubt in", "give or take", "most of it from", "share"}},
            {{"Measure better what makes most of it. Friction counts only where the file doubts it."}}};
    const std::size_t slots = w.a.setups.as_found.instrument.nut.slot_heights.size();
    // The page shows only the doubts of wanted results, and the largest part of each.
    for (const tl::result_budget& one : tl::budgets_of(w.job, w.a, how.budget)) {
        for (std::size_t i = 0; i < (how.budget ? one.parts.size() : 1); ++i) {
            const auto& part = one.parts[i];
            b.rows.push_back({i == 0 ? one.asked.name : "", i == 0 ? tl::doubt_text(one.give_or_take, how.units) : "",
                              tl::path_with_string(part.input, w.last().is.names, slots) +
                                  (w.last().doubts.is_usual(part.input) ? ", usual" : ""),
                              std::to_string(std::lround(100 * part.share)) + " %"});
        }
    }
    return b;
}

block findings_block(const whole_job& w, const block_options& how) {
    const measures m = how.units;
    const auto detail = how.fine ? tl::number_detail::fine : tl::number_detail::bench;
    block b{w.a.setups.planned ? "Findings, as planned" : "Findings", {}, {}};
    for (const tl::told_finding& f : tl::findings_told(w.last().is.findings, w.last().is.names, m)) {
        if (f.severity == tl::severity::stop) { continue; } // it is in the first block
        b.sentences.push_back({std::string(tl::name_of(f.severity)) + ": " + f.sentence, f.severity != tl::severity::note});
    }
    if (w.a.setups.planned) {
        for (const tl::told_finding& f :
             tl::told_as_found_only(w.a.setups.found.findings, w.last().is.findings, w.a.setups.found.names, m)) {
            b.sentences.push_back({std::string(tl::name_of(f.severity)) + ": as found: " + f.sentence, true});
        }
    }
    for (const tl::plan_remark& r : w.a.setups.plan.remarks) {
        b.sentences.push_back({"note: " + tl::words_of(r, m, detail)});
    }
    for (const tl::taken_name& t : tl::names_taken(w.job)) { b.sentences.push_back({"note: " + shown(t.sentence)}); }
    if (b.sentences.empty() && tl::what_cannot_be(w.a, m).empty()) { b.sentences.push_back({"Nothing out of range."}); }
    return b;
}

} // namespace bench_sheet
