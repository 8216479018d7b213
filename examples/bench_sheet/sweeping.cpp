#include "sweeping.hpp"

#include <cmath>
#include <functional>
#include <ostream>

#include <tautline/core/by_path.hpp>
#include <tautline/doubt/sample_spread.hpp>

#include "csv_sheet.hpp"
#include "csv_units.hpp"
#include "sweep_inputs.hpp"
#include "typed_path.hpp"

namespace bench_sheet {

namespace {

constexpr std::size_t rows_that_take_long = 20'000;

/// A path as a table heads a column with it: with the string it speaks of.
using path_words = std::function<std::string(const std::string&)>;

/// A line of comma-separated values.
std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) { line += (i ? "," : "") + cells[i]; }
    return line + "\r\n";
}
/// A number and its unit, a cell each; both empty where there is none.
void add_csv(std::vector<std::string>& cells, const tl::any_quantity& q, measures m) {
    const csv_unit unit = csv_unit_of(q.kind(), m);
    cells.push_back(std::isnan(q.si()) ? "" : csv_number(q.si() / unit.size));
    cells.emplace_back(std::isnan(q.si()) ? "" : unit.name);
}

std::string said(const tl::sweep_problem& p) {
    return p.problems.empty() ? std::string("could not be solved") : p.problems.front().sentence();
}

std::string rows_csv(const tl::sweep_table& table, const path_words& named, measures m) {
    std::vector<std::string> head;
    for (const auto* columns : {&table.inputs, &table.outputs}) {
        for (const auto& c : *columns) {
            const std::string name = named(c.path);
            head.push_back(csv_field(name));
            head.push_back(csv_field(name + " unit"));
        }
    }
    head.emplace_back("refused because");
    std::string text = csv_line(head);
    auto problem = table.problems.begin();
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string> cells;
        for (std::size_t k = 0; k < table.inputs.size(); ++k) { add_csv(cells, table.input(i, k), m); }
        for (std::size_t k = 0; k < table.outputs.size(); ++k) { add_csv(cells, table.output(i, k), m); }
        const bool refused = problem != table.problems.end() && problem->row == i;
        cells.push_back(refused ? csv_field(said(*problem++)) : "");
        text += csv_line(cells);
    }
    return text;
}

std::string rows_text(const tl::sweep_table& table, const path_words& named, measures m) {
    std::vector<std::string> head;
    for (const auto& c : table.inputs) { head.push_back(named(c.path)); }
    for (const auto& c : table.outputs) { head.push_back(named(c.path)); }
    text_table rows(head);
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string> cells;
        for (std::size_t k = 0; k < table.inputs.size(); ++k) { cells.push_back(in_words(table.input(i, k), m)); }
        for (std::size_t k = 0; k < table.outputs.size(); ++k) {
            const tl::any_quantity v = table.output(i, k);
            cells.push_back(std::isnan(v.si()) ? "-" : in_words(v, m));
        }
        rows.row(cells);
    }
    std::string text = rows.text();
    for (const auto& p : table.problems) { text += wrapped("row " + std::to_string(p.row + 1) + ": " + shown(said(p)), 2); }
    return text;
}

std::string sample_csv(const tl::sweep_table& table, const path_words& named, measures m) {
    std::string text = csv_line({"result", "unit", "mean", "twice the spread", "2.5 % below", "97.5 % below", "variants",
                                 "refused", "first refused because"});
    for (std::size_t k = 0; k < table.outputs.size(); ++k) {
        const tl::sample_spread s = tl::spread_of(table, k);
        const csv_unit unit = csv_unit_of(table.outputs[k].kind, m);
        std::vector<std::string> cells{csv_field(named(table.outputs[k].path)), std::string(unit.name)};
        for (const tl::any_quantity& v : {s.mean, 2 * s.standard, s.low, s.high}) {
            cells.push_back(v.has_value() ? csv_number(v.si() / unit.size) : "");
        }
        cells.push_back(std::to_string(table.rows));
        cells.push_back(std::to_string(table.problems.size()));
        cells.push_back(table.problems.empty() ? "" : csv_field(said(table.problems.front())));
        text += csv_line(cells);
    }
    return text;
}

std::string sample_text(const tl::sweep_table& table, const path_words& named, const sweep_request& r, measures m) {
    text_table rows({"result", "mean", "twice the spread", "2.5 % below", "97.5 % below"});
    for (std::size_t k = 0; k < table.outputs.size(); ++k) {
        const tl::sample_spread s = tl::spread_of(table, k);
        std::vector<std::string> cells{named(table.outputs[k].path)};
        for (const tl::any_quantity& v : {s.mean, 2 * s.standard, s.low, s.high}) {
            cells.push_back(v.has_value() ? in_words(v, m) : "-");
        }
        rows.row(cells);
    }
    std::string text = rows.text() + "  " + std::to_string(table.rows) + " variants, seed " + std::to_string(r.seed);
    return text + (table.problems.empty()
                       ? ".\n"
                       : "; " + std::to_string(table.problems.size()) + " of them could not be solved.\n");
}

/// A result as somebody names it, by its path in the state that is varied: --list writes that state before the path.
std::string result_path(const std::string& name, const tl::setup& s, bool planned) {
    const std::string path = typed_path(name, s.names, "--table");
    const std::string_view varied = planned ? "planned." : "found.", other = planned ? "found." : "";
    if (!other.empty() && path.starts_with(other)) {
        throw wrong_option("--table", shown(name),
                           "a result of the instrument as planned, which is what is varied: planned." +
                               path.substr(other.size()));
    }
    return path.starts_with(varied) ? path.substr(varied.size()) : path;
}

/// The results that are asked for, or those a sheet begins with.
std::vector<std::string> wanted_results(const whole_job& w, const sweep_request& r) {
    const tl::setup& s = w.a.setups.last();
    const std::vector<std::string> paths = tl::paths_of(s);
    std::vector<std::string> results;
    const std::vector<std::string_view> known(paths.begin(), paths.end());
    const auto is_one_of = [](const std::string& name, const auto& list) {
        return std::find(list.begin(), list.end(), name) != list.end();
    };
    if (r.results.empty()) {
        for (const auto& asked : tl::asked_results(w.job.wishes_or_none(), s)) {
            if (is_one_of(asked.path, known)) { results.push_back(asked.path); }
        }
    }
    for (const std::string& name : r.results) {
        const std::string path = result_path(name, s, w.a.setups.planned);
        if (!is_one_of(path, known)) {
            throw wrong_option("--table", shown(name),
                               "the name of a result, such as " + nearest_or(path, known, "relief.gap"));
        }
        if (is_one_of(path, results)) { throw wrong_option("--table", shown(name), "each result once"); }
        results.push_back(path);
    }
    return results;
}

} // namespace

std::string sweep_text(const whole_job& w, const sweep_request& r, measures m, std::ostream* progress) {
    const tl::strung_instrument& model = w.a.setups.last_on();
    const tl::setup& solved = w.a.setups.last();
    const auto results = wanted_results(w, r);
    const path_words named = [&](const std::string& path) {
        return tl::path_with_string(path, solved.names, model.instrument.nut.slot_heights.size());
    };
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
        if (doubts.empty()) {
            throw wrong_option("--sample is given; expected a file with measurements that say how sure they are: "
                               "\"43 ± 0.1 mm\"");
        }
        const auto table = tl::sweep_sample(model, doubts, r.sample, r.seed, results, settings);
        return r.csv ? sample_csv(table, named, m) : sample_text(table, named, r, m);
    }
    const auto knobs = knobs_of(model, r);
    std::size_t rows = 1;
    for (const auto& k : knobs) {
        rows *= k.values.size();
        if (rows > most_variants) {
            throw wrong_option("the inputs make too many variants; expected at most " + std::to_string(most_variants));
        }
    }
    const auto table = tl::sweep_grid(model, knobs, results, settings);
    return r.csv ? rows_csv(table, named, m) : rows_text(table, named, m);
}

} // namespace bench_sheet
