#include "sweeping.hpp"

#include <cmath>
#include <ostream>

#include <tautline/doubt/sample_spread.hpp>
#include <tautline/doubt/sweep.hpp>
#include <tautline/job/typed_names.hpp>

#include "csv_sheet.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t rows_that_take_long = 20'000;

/// A table as it is asked for: of which state of a job, in which units, whether as comma-separated values. As these a cell
/// holds a number alone, and its unit has the next.
struct table_style {
    const tl::job_state& of;
    bool csv;
    measures units;

    /// Adds the name of a result, with the string it speaks of.
    void add_name(std::vector<std::string>& cells, const std::string& path, const char* behind = "") const {
        const std::string name = of.named(path) + behind;
        cells.push_back(csv ? csv_field(name) : name);
    }
    /// Adds a number; one that is not there is a dash or an empty cell.
    void add_number(std::vector<std::string>& cells, const tl::any_quantity& q) const {
        const bool none = !q.has_value() || std::isnan(q.si());
        cells.push_back(csv ? csv_cell(q, tl::column_unit_of(q.kind(), units)) : none ? "-" : in_words(q, units));
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
            as.add_name(rows[0], c.path);
            if (as.csv) { as.add_name(rows[0], c.path, " unit"); }
        }
    }
    if (as.csv) { rows[0].emplace_back("refused because"); }
    auto problem = table.problems.begin();
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string>& cells = rows.emplace_back();
        const auto add = [&](const tl::any_quantity& q) {
            as.add_number(cells, q);
            if (as.csv) { cells.emplace_back(std::isnan(q.si()) ? "" : tl::column_unit_of(q.kind(), as.units).name); }
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
        std::vector<std::string>& cells = rows.emplace_back();
        as.add_name(cells, table.outputs[k].path);
        if (as.csv) { cells.emplace_back(tl::column_unit_of(table.outputs[k].kind, as.units).name); }
        for (const tl::any_quantity& v : {s.mean, 2 * s.standard, s.low, s.high}) { as.add_number(cells, v); }
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
    for (auto of = r.ranges.begin(); of != r.ranges.end(); of += 4) {
        const std::string path = tl::input_path(model, of[0], "--vary");
        knobs.push_back(tl::knob_between(path, tl::kind_of(model, path), of[1], of[2], of[3], "--vary " + of[0]));
    }
    for (auto of = r.lists.begin(); of != r.lists.end(); of += 2) {
        const std::string path = tl::input_path(model, of[0], "--through");
        knobs.push_back(tl::knob_through(path, tl::kind_of(model, path), of[1], "--through " + of[0]));
    }
    return knobs;
}

} // namespace

std::string sweep_text(const whole_job& w, const sweep_request& r, bool csv, measures m, std::ostream* progress) {
    const tl::strung_instrument& model = w.last().on;
    const auto results = tl::result_paths(w.a.setups, w.job.wishes_or_none(), r.results, "--table");
    const table_style as{w.last(), csv, m};
    tl::sweep_settings settings;
    if (progress) {
        settings.progress = [&, told = std::size_t{0}](std::size_t done, std::size_t all) mutable {
            if (all < rows_that_take_long || (done < all && done < told + all / 10)) { return; }
            told = done;
            *progress << done << " of " << all << " variants\n" << std::flush;
        };
    }
    if (r.sample > 0) {
        const auto& doubts = w.last().doubts.apart;
        tl::require_that(!doubts.empty(), "--sample",
                         "must be given with a file whose measurements say how sure they are: \"43 ± 0.1 mm\"");
        return spread_text(tl::sweep_sample(model, doubts, r.sample, r.seed, results, settings), r.seed, as);
    }
    return variants_text(tl::sweep_grid(model, knobs_of(model, r), results, settings), as);
}

} // namespace bench_sheet
