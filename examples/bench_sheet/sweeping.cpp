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

/// How a table is wanted: the state of a job, the units, and whether it is CSV. In CSV a cell holds the number alone, and
/// the next cell holds its unit.
struct table_style {
    const tl::job_state& of;
    bool csv;
    measures units;

    /// Adds the name of a result, with its string.
    void add_name(std::vector<std::string>& cells, const std::string& path, const char* behind = "") const {
        const std::string name = of.named(path) + behind;
        cells.push_back(csv ? csv_field(name) : name);
    }
    /// Adds a number. A missing number is a dash, in CSV an empty cell.
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

/// The cells of a variant. In CSV each number has a cell, and so has its unit.
void add_variant(const tl::sweep_table& table, std::size_t i, bool inputs, const table_style& as,
                 std::vector<std::string>& cells) {
    const auto add = [&](const tl::any_quantity& q) {
        as.add_number(cells, q);
        if (as.csv) { cells.emplace_back(std::isnan(q.si()) ? "" : tl::column_unit_of(q.kind(), as.units).name); }
    };
    for (std::size_t k = 0; inputs && k < table.inputs.size(); ++k) { add(table.input(i, k)); }
    for (std::size_t k = 0; k < table.outputs.size(); ++k) { add(table.output(i, k)); }
}

/// An aligned table with one row for each variant. Reasons for refused rows follow it.
std::string variants_text(const tl::sweep_table& table, const table_style& as) {
    std::vector<std::vector<std::string>> rows(1);
    for (const auto* columns : {&table.inputs, &table.outputs}) {
        for (const auto& c : *columns) { as.add_name(rows[0], c.path); }
    }
    for (std::size_t i = 0; i < table.rows; ++i) { add_variant(table, i, true, as, rows.emplace_back()); }
    std::string text = as.text_of(rows);
    for (const auto& p : table.problems) { text += wrapped("row " + std::to_string(p.row + 1) + ": " + shown(said(p)), 2); }
    return text;
}
/// The heading of such rows as CSV. A variant of a sample has its number alone: one random number may move several
/// measurements that err together.
std::string csv_head(std::span<const tl::knob> inputs, std::span<const std::string> outputs, bool sample,
                     const table_style& as) {
    std::vector<std::string> cells;
    if (sample) { cells.emplace_back("variant"); }
    const auto add = [&](const std::string& path) {
        as.add_name(cells, path);
        as.add_name(cells, path, " unit");
    };
    for (const tl::knob& k : inputs) { add(k.path); }
    for (const std::string& path : outputs) { add(path); }
    cells.emplace_back("refused because");
    return csv_line(cells) + "\r\n";
}
std::string csv_variants(const tl::sweep_table& table, bool sample, const table_style& as) {
    std::string text;
    auto problem = table.problems.begin();
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string> cells;
        if (sample) { cells.push_back(std::to_string(table.first + i + 1)); }
        add_variant(table, i, !sample, as, cells);
        const bool refused = problem != table.problems.end() && problem->row == i;
        cells.push_back(refused ? csv_field(said(*problem++)) : "");
        text += csv_line(cells) + "\r\n";
    }
    return text;
}

/// The results of a sample's variants, without the random numbers of each.
struct sample_results {
    tl::sweep_table kept{};
    std::size_t refused = 0;
    std::string first_refused{};

    void add(const tl::sweep_table& block) {
        kept.outputs = block.outputs;
        for (std::size_t i = 0; i < block.rows; ++i) {
            for (std::size_t k = 0; k < block.outputs.size(); ++k) { kept.numbers.push_back(block.output(i, k).si()); }
        }
        kept.rows += block.rows;
        if (refused == 0 && !block.problems.empty()) { first_refused = said(block.problems.front()); }
        refused += block.problems.size();
    }
};

/// A table with one row for each result, and its spread over all variants.
std::string spread_text(const sample_results& sample, std::uint64_t seed, const table_style& as) {
    const tl::sweep_table& table = sample.kept;
    std::vector<std::vector<std::string>> rows{{"result", "mean", "twice the spread", "2.5 % below", "97.5 % below"}};
    const std::string all = std::to_string(table.rows), refused = std::to_string(sample.refused);
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
        if (as.csv) { cells.insert(cells.end(), {all, refused, csv_field(sample.first_refused)}); }
    }
    if (as.csv) { return as.text_of(rows); }
    return as.text_of(rows) + "  " + all + " variants, seed " + std::to_string(seed) +
           (sample.refused == 0 ? ".\n" : "; " + refused + " of them could not be solved.\n");
}

/// The inputs to vary, each with its values.
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

void tell_sweep(const whole_job& w, const sweep_request& r, bool csv, measures m, const text_taker& take,
                std::ostream* progress) {
    const tl::strung_instrument& model = w.last().on;
    const auto results = tl::result_paths(w.a.setups, w.job.wishes_or_none(), r.results, "--table");
    const table_style as{w.last(), csv, m};
    const bool sample = r.sample > 0;
    const auto& doubts = w.last().doubts.apart;
    tl::require_that(!sample || !doubts.empty(), "--sample",
                     "must be given with a file whose measurements say how sure they are: \"43 ± 0.1 mm\"");
    const auto knobs = sample ? std::vector<tl::knob>() : knobs_of(model, r);
    const std::size_t all = sample ? r.sample : tl::variants_of(knobs);
    const tl::sweep_part part = r.part.value_or(tl::sweep_part{});
    const tl::row_range rows = part.rows_of(all);

    tl::sweep_settings settings;
    std::size_t told = 0;
    if (progress && rows.count >= rows_that_take_long) {
        settings.progress = [&](std::size_t done, std::size_t) {
            const std::size_t so_far = settings.rows.first - rows.first + done;
            if (so_far < rows.count && so_far < told + rows.count / 10) { return; }
            told = so_far;
            *progress << so_far << " of " << rows.count << " variants\n" << std::flush;
        };
    }
    const auto compute = [&](const tl::row_range& block) {
        settings.rows = block;
        return sample ? tl::sweep_sample(model, doubts, all, r.seed, results, settings)
                      : tl::sweep_grid(model, knobs, results, settings);
    };
    if (sample && !r.part) {
        sample_results kept;
        tl::for_each_block(rows, compute, [&](const tl::sweep_table& block) {
            kept.add(block);
            return true;
        });
        take(spread_text(kept, r.seed, as));
        return;
    }
    if (!csv) {
        take(variants_text(compute(rows), as));
        return;
    }
    if (part.number == 1 && !take(csv_head(knobs, results, sample, as))) { return; }
    tl::for_each_block(rows, compute, [&](const tl::sweep_table& block) { return take(csv_variants(block, sample, as)); });
}

} // namespace bench_sheet
