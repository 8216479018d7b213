#include "sweeping.hpp"

#include <cstdio>
#include <ostream>

#include <tautline/setup/sweep.hpp>

#include "csv_sheet.hpp"

namespace bench_sheet {

namespace {

/// Rows a table may have; a day of them at some ten thousand a second is nobody's question.
constexpr std::size_t most_rows = 2'000'000, rows_that_take_long = 20'000;

/// A text as the number of a kind in SI, or nothing.
template <class... U>
std::optional<double> parsed_as_one_of(std::string_view kind, std::string_view text) {
    std::optional<double> si;
    const auto attempt = [&]<class Unit>() {
        if (kind != tl::kind<Unit>::name) { return; }
        if (const auto q = tl::parse_quantity<tl::bu::quantity<Unit, double>>(text)) { si = q->value(); }
    };
    (attempt.template operator()<U>(), ...);
    return si;
}
std::optional<double> parsed(std::string_view kind, std::string_view text) {
    if (kind == "number" || kind == "interval") {
        char* end = nullptr;
        const std::string copy(text);
        const double v = std::strtod(copy.c_str(), &end);
        return !copy.empty() && *end == '\0' && std::isfinite(v) ? std::optional(v) : std::nullopt;
    }
    namespace unit = tl::unit;
    return parsed_as_one_of<unit::length, unit::force, unit::stress, unit::angle, unit::frequency, unit::density,
                            unit::stiffness, unit::rotational_stiffness>(kind, text);
}

struct model_number {
    std::string path;
    const char* kind;
};
/// The number of the model that an input names: a path, or the gauge of a plain string as the file has it.
model_number find_input(const tl::strung_instrument& model, const std::string& name) {
    std::string path = name;
    const std::string gauge = "].gauge";
    if (path.rfind("strings[", 0) == 0 && path.ends_with(gauge)) {
        const std::size_t i = std::strtoul(path.c_str() + 8, nullptr, 10);
        tl::require_that(i < model.strung.strings.size() && model.strung.strings[i].string.layers.empty(), name,
                         "must be the gauge of a plain string; of a wound one vary string.core.diameter or "
                         "string.layers[0].thickness");
        path = path.substr(0, path.size() - gauge.size()) + "].string.core.diameter";
    }
    if (path == "a4") { path = "standard.a4"; }
    const char* kind = nullptr;
    tl::for_each_leaf(model, [&](std::string_view at, const auto& x) {
        if (at == path) { kind = tl::kernel::leaf_kind<std::remove_cvref_t<decltype(x)>>::name; }
    });
    tl::require_that(kind != nullptr, shown(name),
                     "must be a number of the instrument or its strings, such as saddle.height_bass");
    return {path, kind};
}
double value_of_text(const model_number& n, const std::string& text) {
    std::string_view trimmed = text;
    while (trimmed.starts_with(' ')) { trimmed.remove_prefix(1); }
    while (trimmed.ends_with(' ')) { trimmed.remove_suffix(1); }
    const auto si = parsed(n.kind, trimmed);
    tl::require_that(si.has_value(), n.path,
                     "must be given as a " + std::string(n.kind) + " with its unit, not \"" + shown(text) + "\"");
    return *si;
}

std::vector<tl::knob> knobs_of(const tl::strung_instrument& model, const sweep_request& r) {
    std::vector<tl::knob> knobs;
    for (std::size_t i = 0; i + 3 < r.ranges.size(); i += 4) {
        const auto n = find_input(model, r.ranges[i]);
        const double from = value_of_text(n, r.ranges[i + 1]), to = value_of_text(n, r.ranges[i + 2]);
        const auto count = parsed("number", r.ranges[i + 3]);
        tl::require_that(count && *count >= 1 && *count <= 100000 && *count == std::floor(*count), shown(r.ranges[i]),
                         "must go through a whole number of values, 1 to 100000");
        tl::knob k{n.path, n.kind, {}};
        const auto steps = static_cast<std::size_t>(*count);
        for (std::size_t s = 0; s < steps; ++s) {
            k.values.push_back(steps == 1 ? from
                                          : from + (to - from) * static_cast<double>(s) / static_cast<double>(steps - 1));
        }
        knobs.push_back(std::move(k));
    }
    for (std::size_t i = 0; i + 1 < r.lists.size(); i += 2) {
        const auto n = find_input(model, r.lists[i]);
        tl::knob k{n.path, n.kind, {}};
        std::string_view rest = r.lists[i + 1];
        for (;;) {
            const std::size_t comma = std::min(rest.find(','), rest.size());
            k.values.push_back(value_of_text(n, std::string(rest.substr(0, comma))));
            if (comma == rest.size()) { break; }
            rest.remove_prefix(comma + 1);
        }
        knobs.push_back(std::move(k));
    }
    return knobs;
}

/// Rows as a table: aligned text, or comma-separated.
class rows_out {
public:
    rows_out(std::vector<std::string> head, bool csv) : csv_(csv), table_(head) {
        if (csv) { add(head); }
    }
    void add(const std::vector<std::string>& cells) {
        if (!csv_) {
            table_.row(cells);
            return;
        }
        for (std::size_t i = 0; i < cells.size(); ++i) { text_ += (i ? "," : "") + csv_field(cells[i]); }
        text_ += "\r\n";
    }
    [[nodiscard]] std::string text() const { return csv_ ? text_ : table_.text(); }

private:
    bool csv_;
    std::string text_;
    text_table table_;
};

std::string said(const tl::sweep_problem& p) {
    return p.problems.empty() ? std::string("could not be solved") : p.problems.front().sentence();
}

std::string rows_text(const tl::sweep_table& table, const sweep_request& r, measures m) {
    std::vector<std::string> head;
    for (const auto& c : table.inputs) { head.push_back(c.path); }
    for (const auto& c : table.outputs) { head.push_back(c.path); }
    rows_out out(head, r.csv);
    for (std::size_t i = 0; i < table.rows; ++i) {
        std::vector<std::string> cells;
        for (std::size_t k = 0; k < table.inputs.size(); ++k) {
            cells.push_back(number_in_words(table.inputs[k].kind, table.input(i, k), {}, false, m));
        }
        for (std::size_t k = 0; k < table.outputs.size(); ++k) {
            const double v = table.output(i, k);
            cells.push_back(std::isnan(v) ? "-" : number_in_words(table.outputs[k].kind, v, {}, false, m));
        }
        out.add(cells);
    }
    std::string text = out.text();
    for (std::size_t i = 0; i < table.problems.size() && !r.csv; ++i) {
        text += wrapped("row " + std::to_string(table.problems[i].row + 1) + ": " + shown(said(table.problems[i])), 2);
    }
    return text;
}

/// Mean, spread and the middle 95 % of each result.
std::string sample_text(const tl::sweep_table& table, const sweep_request& r, measures m) {
    rows_out out({"result", "mean", "twice the spread", "2.5 % below", "97.5 % below"}, r.csv);
    for (std::size_t k = 0; k < table.outputs.size(); ++k) {
        std::vector<double> values;
        for (std::size_t i = 0; i < table.rows; ++i) {
            if (const double v = table.output(i, k); !std::isnan(v)) { values.push_back(v); }
        }
        if (values.size() < 2) { continue; }
        std::sort(values.begin(), values.end());
        double mean = 0, squares = 0;
        for (const double v : values) { mean += v / static_cast<double>(values.size()); }
        for (const double v : values) { squares += (v - mean) * (v - mean); }
        const double spread = std::sqrt(squares / static_cast<double>(values.size() - 1));
        const auto at = [&](double share) {
            return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
        };
        const auto words = [&](double v) { return number_in_words(table.outputs[k].kind, v, {}, false, m); };
        out.add({table.outputs[k].path, words(mean), words(2 * spread), words(at(0.025)), words(at(0.975))});
    }
    std::string text = out.text();
    if (!r.csv) {
        text += "  " + std::to_string(table.rows) + " variants, seed " + std::to_string(r.seed);
        text += table.problems.empty() ? ".\n"
                                       : "; " + std::to_string(table.problems.size()) + " of them could not be solved.\n";
    }
    return text;
}

} // namespace

std::string sweep_text(const read_job& job, const answers& a, const sweep_request& r, measures m, std::ostream* progress) {
    const tl::strung_instrument model = a.planned ? a.plan.set : tl::strung_instrument{job.found.instrument, job.strung};
    std::vector<std::string> results = r.results;
    if (results.empty()) {
        for (const auto& asked : asked_results(job, a.planned ? a.plan.solved : a.found)) { results.push_back(asked.path); }
    }
    tl::sweep_settings settings;
    if (progress) {
        settings.progress = [&, told = std::size_t{0}](std::size_t done, std::size_t all) mutable {
            if (all < rows_that_take_long || (done < all && done < told + all / 10)) { return; }
            told = done;
            *progress << done << " of " << all << " variants\n" << std::flush;
        };
    }
    if (r.sample > 0) {
        tl::require_that(r.ranges.empty() && r.lists.empty(), "sample", "must not be mixed with inputs that are varied");
        tl::require_that(r.sample <= most_rows, "sample", "must be at most 2000000 variants");
        const auto doubts = (a.planned ? doubt_planned(job, a) : doubt_found(job)).doubts;
        tl::require_that(!doubts.empty(), "sample", "must find measurements in the file that say \"give or take\"");
        return sample_text(tl::sweep_sample(model, doubts, r.sample, r.seed, results, settings), r, m);
    }
    const auto knobs = knobs_of(model, r);
    std::size_t rows = 1;
    for (const auto& k : knobs) {
        rows *= k.values.size();
        tl::require_that(rows <= most_rows, "sweep", "must have at most 2000000 variants");
    }
    return rows_text(tl::sweep_grid(model, knobs, results, settings), r, m);
}

} // namespace bench_sheet
