#include "sweeping.hpp"

#include <cmath>
#include <ostream>

#include <tautline/doubt/sample_spread.hpp>
#include <tautline/doubt/sweep.hpp>
#include <tautline/job/typed_names.hpp>

#include "csv_sheet.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t rows_that_take_long = 20'000, most_values = 100'000;

/// A table as it is asked for: what it shows, of which job, in which units.
struct table_style {
    const whole_job& job;
    bool csv;
    measures units;

    /// A path as a column is headed with it: with the string it speaks of.
    [[nodiscard]] std::string named(const std::string& path) const {
        const tl::job_setups& s = job.a.setups;
        return tl::path_with_string(path, s.last().names, s.last_strung().instrument.nut.slot_heights.size());
    }
    [[nodiscard]] std::string text_of(const std::vector<std::vector<std::string>>& rows) const {
        return csv ? csv_text(rows) : table_text(rows);
    }
};

std::string said(const tl::sweep_problem& p) {
    return p.problems.empty() ? std::string("could not be solved") : p.problems.front().sentence();
}

/// A variant a row. As comma-separated values a number and its unit have a cell each.
std::string variants_text(const tl::sweep_table& table, const table_style& as) {
    std::vector<std::vector<std::string>> rows(1);
    for (const auto* columns : {&table.inputs, &table.outputs}) {
        for (const auto& c : *columns) {
            const std::string name = as.named(c.path);
            rows[0].push_back(as.csv ? csv_field(name) : name);
            if (as.csv) { rows[0].push_back(csv_field(name + " unit")); }
        }
    }
    if (as.csv) { rows[0].emplace_back("refused because"); }
    auto problem = table.problems.begin();
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string>& cells = rows.emplace_back();
        const auto add = [&](const tl::any_quantity& q) {
            const bool none = std::isnan(q.si());
            const tl::shown_unit unit = tl::column_unit_of(q.kind(), as.units);
            cells.push_back(as.csv ? csv_cell(q, unit) : none ? "-" : in_words(q, as.units));
            if (as.csv) { cells.emplace_back(none ? "" : unit.name); }
        };
        for (std::size_t k = 0; k < table.inputs.size(); ++k) { add(table.input(i, k)); }
        for (std::size_t k = 0; k < table.outputs.size(); ++k) { add(table.output(i, k)); }
        const bool refused = problem != table.problems.end() && problem->row == i;
        if (as.csv) { cells.push_back(refused ? csv_field(said(*problem++)) : ""); }
    }
    std::string text = as.text_of(rows);
    if (as.csv) { return text; }
    for (const auto& p : table.problems) { text += wrapped("row " + std::to_string(p.row + 1) + ": " + shown(said(p)), 2); }
    return text;
}

/// A result a row, with its spread over all variants.
std::string spread_text(const tl::sweep_table& table, std::uint64_t seed, const table_style& as) {
    std::vector<std::vector<std::string>> rows{{"result", "mean", "twice the spread", "2.5 % below", "97.5 % below"}};
    const std::string all = std::to_string(table.rows), refused = std::to_string(table.problems.size());
    if (as.csv) {
        rows[0].insert(rows[0].begin() + 1, "unit");
        rows[0].insert(rows[0].end(), {"variants", "refused", "first refused because"});
    }
    for (std::size_t k = 0; k < table.outputs.size(); ++k) {
        const tl::sample_spread s = tl::spread_of(table, k);
        const tl::shown_unit unit = tl::column_unit_of(table.outputs[k].kind, as.units);
        const std::string name = as.named(table.outputs[k].path);
        std::vector<std::string>& cells = rows.emplace_back();
        cells.push_back(as.csv ? csv_field(name) : name);
        if (as.csv) { cells.emplace_back(unit.name); }
        for (const tl::any_quantity& v : {s.mean, 2 * s.standard, s.low, s.high}) {
            cells.push_back(as.csv ? csv_cell(v, unit) : v.has_value() ? in_words(v, as.units) : "-");
        }
        if (!as.csv) { continue; }
        const std::string why = table.problems.empty() ? "" : csv_field(said(table.problems.front()));
        cells.insert(cells.end(), {all, refused, why});
    }
    if (as.csv) { return as.text_of(rows); }
    return as.text_of(rows) + "  " + all + " variants, seed " + std::to_string(seed) +
           (table.problems.empty() ? ".\n" : "; " + refused + " of them could not be solved.\n");
}

/// What is to be turned, through which values.
std::vector<tl::knob> knobs_of(const tl::strung_instrument& model, const sweep_request& r) {
    std::vector<tl::knob> knobs;
    for (std::size_t i = 0; i + 3 < r.ranges.size(); i += 4) {
        const std::string path = tl::input_path(model, r.ranges[i], "--vary"), what = "--vary " + r.ranges[i];
        const tl::kind_name kind = tl::kind_of(model, path);
        const auto from = tl::any_from_text(kind, r.ranges[i + 1], what + ", from,"),
                   to = tl::any_from_text(kind, r.ranges[i + 2], what + ", to,"),
                   count = tl::any_from_text("number", r.ranges[i + 3], what + ", how many,");
        if (count.si() < 1 || count.si() > most_values || count.si() != std::floor(count.si())) {
            throw tl::invalid_input(tl::problem{what + ", how many,", '"' + r.ranges[i + 3] + '"',
                                                "must be a whole number, 1 to " + std::to_string(most_values)});
        }
        knobs.push_back(tl::knob_between(path, from, to, static_cast<std::size_t>(count.si())));
    }
    for (std::size_t i = 0; i + 1 < r.lists.size(); i += 2) {
        const std::string path = tl::input_path(model, r.lists[i], "--through");
        knobs.push_back(tl::knob_through(path, tl::kind_of(model, path), r.lists[i + 1], "--through " + r.lists[i]));
    }
    return knobs;
}

/// The results that are asked for, or those a sheet begins with.
std::vector<std::string> wanted_results(const whole_job& w, const sweep_request& r) {
    std::vector<std::string> results;
    if (r.results.empty()) {
        for (const auto& asked : tl::asked_results(w.job.wishes_or_none(), w.a.setups.last())) {
            if (tl::find_at(w.a.setups.last(), asked.path).has_value()) { results.push_back(asked.path); }
        }
    }
    for (const std::string& name : r.results) {
        const std::string path = tl::result_path(w.a.setups, name, "--table");
        if (std::find(results.begin(), results.end(), path) != results.end()) {
            throw tl::invalid_input(tl::problem{"--table", '"' + name + '"', "must name each result once"});
        }
        results.push_back(path);
    }
    return results;
}

} // namespace

std::string sweep_text(const whole_job& w, const sweep_request& r, bool csv, measures m, std::ostream* progress) {
    const tl::strung_instrument& model = w.a.setups.last_strung();
    const auto results = wanted_results(w, r);
    const table_style as{w, csv, m};
    tl::sweep_settings settings;
    if (progress) {
        settings.progress = [&, told = std::size_t{0}](std::size_t done, std::size_t all) mutable {
            if (all < rows_that_take_long || (done < all && done < told + all / 10)) { return; }
            told = done;
            *progress << done << " of " << all << " variants\n" << std::flush;
        };
    }
    if (r.sample > 0) {
        const auto& doubts = w.a.last_doubts().apart;
        tl::require_that(!doubts.empty(), "--sample",
                         "must be given with a file whose measurements say how sure they are: \"43 ± 0.1 mm\"");
        return spread_text(tl::sweep_sample(model, doubts, r.sample, r.seed, results, settings), r.seed, as);
    }
    const auto knobs = knobs_of(model, r);
    std::size_t rows = 1;
    for (const auto& k : knobs) {
        rows *= k.values.size();
        tl::require_that(rows <= most_variants, "what is varied",
                         "must make at most " + std::to_string(most_variants) + " variants together");
    }
    return variants_text(tl::sweep_grid(model, knobs, results, settings), as);
}

} // namespace bench_sheet
