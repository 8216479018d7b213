#pragma once
/// @file
/// Included by name only: it brings threads.
///
/// Many setups at once. Inputs of one instrument go through ranges, lists or a random sample of their doubts; chosen
/// results are tabled, on all cores.
///
/// A row depends only on its own inputs, so the table is the same bit for bit whatever the number of threads. With a
/// number type of several lanes (`sweep_grid<pack<double>>(...)`, core/pack.hpp) rows are solved side by side, always the
/// same rows together. A group is solved row by row where one of its rows cannot be solved, or does not follow the same
/// branches as its neighbours.

#include <algorithm>
#include <array>
#include <atomic>
#include <cstdint>
#include <exception>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <thread>
#include <vector>

#include "knob.hpp"
#include "normal_deviate.hpp"
#include "sweep_part.hpp"
#include "sweep_row.hpp"

namespace tautline {

/// How a sweep is run.
struct sweep_settings {
    unsigned threads = 0;                  ///< 0: as many as the machine has
    std::size_t stations = solve_stations; ///< stations of the neck's beam
    /// Which rows of the whole sweep are computed: all, unless told otherwise. Of one lane they are the same bit for bit
    /// as in the whole; of packs only where parts begin at multiples of 64.
    row_range rows{};
    /// Called now and then and at the end, with the rows done and the rows to compute; always from the calling thread.
    std::function<void(std::size_t, std::size_t)> progress{};
};

/// A column of a table: where its numbers come from, and what they are.
struct sweep_column {
    std::string path{}; ///< path, as `for_each_leaf` names it
    kind_name kind{};   ///< kind of its numbers; empty where no row could be solved
};
/// Why a row has no results.
struct sweep_problem {
    std::size_t row = 0;             ///< counted from 0 in its table
    std::vector<problem> problems{}; ///< what is wrong with its setup
};
/// The inputs and results of a sweep, row by row.
struct sweep_table {
    std::vector<sweep_column> inputs{};    ///< one for each number that was varied
    std::vector<sweep_column> outputs{};   ///< one for each result that was asked for
    std::size_t first = 0;                 ///< place of its first row in the whole sweep, from 0
    std::size_t rows = 0;                  ///< number of rows
    std::vector<double> numbers{};         ///< row after row, in SI: first the inputs, then the results
    std::vector<sweep_problem> problems{}; ///< rows that could not be solved, in order; their results are NaN

    /// One input of a row: the value that was set, or for a sample how far the measurement was off.
    [[nodiscard]] any_quantity input(std::size_t row, std::size_t column) const {
        return any_quantity::of(inputs[column].kind, numbers[row * width() + column]);
    }
    /// One result of a row; NaN where the row could not be solved or the setup has no such thing.
    [[nodiscard]] any_quantity output(std::size_t row, std::size_t column) const {
        return any_quantity::of(outputs[column].kind, numbers[row * width() + inputs.size() + column]);
    }
    /// Count of numbers in a row: inputs and results.
    [[nodiscard]] std::size_t width() const { return inputs.size() + outputs.size(); }
};

namespace kernel {

/// Solves all rows of a table whose inputs are filled in.
template <class R>
void fill(sweep_table& table, const strung_instrument& base, std::span<const sweep_input> inputs,
          std::span<const std::string> outputs, const sweep_settings& settings) {
    constexpr std::size_t lanes = lanes_of<R>::count, rows_at_once = 64;
    static_assert(rows_at_once % lanes == 0);
    std::vector<std::vector<problem>> problems(table.rows);
    const std::size_t width = table.width();
    const auto row_of = [&](std::size_t i) { return std::span<double>(table.numbers).subspan(i * width, width); };

    std::atomic<std::size_t> next{0}, done{0};
    std::atomic<bool> stop{false};
    const auto work = [&](bool reports) {
        // Made only when needed.
        std::optional<row_solver<R>> together;
        std::optional<row_solver<double>> alone;
        const auto solve_alone = [&](std::size_t i) {
            const std::span<double> row = row_of(i);
            if (!alone) { alone.emplace(base, inputs, outputs, settings.stations); }
            if (!alone->solve(std::span(&row, 1), problems[i])) {
                for (double& x : row.subspan(inputs.size())) { x = std::numeric_limits<double>::quiet_NaN(); }
            }
        };
        while (!stop) {
            const std::size_t from = next.fetch_add(rows_at_once), to = std::min(from + rows_at_once, table.rows);
            if (from >= table.rows) { break; }
            for (std::size_t i = from; i < to; i += lanes) {
                if constexpr (lanes > 1) {
                    std::array<std::span<double>, lanes> rows;
                    for (std::size_t k = 0; k < lanes; ++k) { rows[k] = row_of(std::min(i + k, table.rows - 1)); }
                    if (!together) { together.emplace(base, inputs, outputs, settings.stations); }
                    if (together->solve(rows)) { continue; }
                }
                for (std::size_t k = i; k < std::min(i + lanes, to); ++k) { solve_alone(k); }
            }
            const std::size_t so_far = done += to - from;
            if (reports && settings.progress && so_far < table.rows) { settings.progress(so_far, table.rows); }
        }
    };

    const std::size_t asked = settings.threads > 0 ? settings.threads : std::max(1U, std::thread::hardware_concurrency());
    const std::size_t threads = std::min(asked, (table.rows + rows_at_once - 1) / rows_at_once);
    std::vector<std::exception_ptr> failed(threads);
    const auto guarded = [&](std::size_t k) {
        try {
            work(k == 0);
        } catch (...) {
            failed[k] = std::current_exception();
            stop = true;
        }
    };
    {
        struct crew {
            std::vector<std::thread> hands{};
            ~crew() {
                for (auto& t : hands) { t.join(); }
            }
        } others;
        others.hands.reserve(threads);
        for (std::size_t k = 1; k < threads; ++k) { others.hands.emplace_back(guarded, k); }
        if (threads > 0) { guarded(0); }
    }
    for (const auto& f : failed) {
        if (f) { std::rethrow_exception(f); }
    }
    for (std::size_t i = 0; i < table.rows; ++i) {
        if (!problems[i].empty()) { table.problems.push_back({i, std::move(problems[i])}); }
    }
    if (settings.progress) { settings.progress(table.rows, table.rows); }
}

/// A table with room for those of `rows` rows that are asked for, and with its columns named. The kinds of the outputs come
/// from the model as it is; where that cannot be solved, from the first row that can.
template <class FillRow>
[[nodiscard]] sweep_table prepare(const strung_instrument& base, std::span<const sweep_input> inputs,
                                  std::span<const std::string> outputs, std::size_t rows, const row_range& asked,
                                  FillRow&& fill_row) {
    sweep_table table;
    table.first = asked.within(rows).first;
    rows = asked.within(rows).count;
    row_solver<double> trial(base, inputs, outputs, solve_stations);
    for (std::size_t k = 0; k < inputs.size(); ++k) { table.inputs.push_back({inputs[k].name, trial.input_kind(k)}); }
    for (const std::string& path : outputs) { table.outputs.push_back({path, ""}); }
    table.rows = rows;
    table.numbers.resize(rows * table.width());
    for (std::size_t i = 0; i < rows; ++i) {
        fill_row(table.first + i, std::span<double>(table.numbers).subspan(i * table.width(), inputs.size()));
    }
    std::vector<problem> ignored;
    std::vector<double> scratch;
    for (std::size_t i = 0; i < rows && !trial.knows_outputs(); ++i) {
        const auto row = std::span<double>(table.numbers).subspan(i * table.width(), table.width());
        scratch.assign(row.begin(), row.end());
        const std::span<double> copy(scratch);
        (void)trial.solve(std::span(&copy, 1), ignored);
    }
    for (std::size_t k = 0; k < outputs.size(); ++k) {
        require_that(!trial.knows_outputs() || trial.has_output(k), outputs[k],
                     "must be the path of a number of a solved setup");
        table.outputs[k].kind = trial.output_kind(k);
    }
    return table;
}

} // namespace kernel

/// A table of every combination of the knobs' values; the last knob changes fastest.
/// @param outputs paths of numbers of a `setup`: "strings[0].heights[11]", "relief.gap", "down_force"
/// @throws invalid_input for a path that names no number or is varied twice, for a knob of another kind or without
/// values, and for more than `most_variants` combinations
template <class R = double>
[[nodiscard]] sweep_table sweep_grid(const strung_instrument& base, std::span<const knob> knobs,
                                     std::span<const std::string> outputs, const sweep_settings& settings = {}) {
    std::vector<kernel::sweep_input> inputs;
    for (const knob& k : knobs) {
        require_that(!k.values.empty(), k.path, "must be given at least one value");
        require_that(std::count_if(knobs.begin(), knobs.end(), [&](const knob& o) { return o.path == k.path; }) == 1,
                     k.path, "must be varied once");
        const kind_name kind = k.values.front().kind();
        for (const any_quantity& v : k.values) {
            require_that(v.kind() == kind, k.path, "must be given values of one kind");
        }
        inputs.push_back({k.path, kind, false, {{k.path, 1}}});
    }
    const std::size_t rows = variants_of(knobs);
    auto table =
        kernel::prepare(base, inputs, outputs, rows, settings.rows, [&](std::size_t row, std::span<double> values) {
            for (std::size_t k = knobs.size(); k-- > 0;) {
                values[k] = knobs[k].values[row % knobs[k].values.size()].si();
                row /= knobs[k].values.size();
            }
        });
    kernel::fill<R>(table, base, inputs, outputs, settings);
    return table;
}

/// A table from lists of values: each row sets the numbers that `paths` name.
/// @throws invalid_input for a path that names no number, for a row of another length, and for a value of another kind
template <class R = double>
[[nodiscard]] sweep_table sweep_rows(const strung_instrument& base, std::span<const std::string> paths,
                                     std::span<const std::vector<any_quantity>> rows, std::span<const std::string> outputs,
                                     const sweep_settings& settings = {}) {
    std::vector<kernel::sweep_input> inputs;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        require_that(rows[i].size() == paths.size(), messages::path_of("rows", i), "must have one value for each path");
    }
    for (std::size_t k = 0; k < paths.size(); ++k) {
        const kind_name kind = rows.empty() ? kind_name() : rows.front()[k].kind();
        for (const auto& row : rows) { require_that(row[k].kind() == kind, paths[k], "must be given values of one kind"); }
        inputs.push_back({paths[k], kind, false, {{paths[k], 1}}});
    }
    auto table =
        kernel::prepare(base, inputs, outputs, rows.size(), settings.rows, [&](std::size_t row, std::span<double> values) {
            for (std::size_t k = 0; k < values.size(); ++k) { values[k] = rows[row][k].si(); }
        });
    kernel::fill<R>(table, base, inputs, outputs, settings);
    return table;
}

/// A random sample of what the doubts allow: each measurement is off by its standard uncertainty times a normal deviate
/// of its own, independent of the others. The same seed gives the same sample. A number that would pass an end of what
/// it may be (a gap below 0) is reflected there. So no variant is lost, and what is doubted about an end lies on one side
/// of it.
/// @throws invalid_input as `propagate` does
template <class R = double>
[[nodiscard]] sweep_table sweep_sample(const strung_instrument& base, std::span<const doubt> doubts, std::size_t rows,
                                       std::uint64_t seed, std::span<const std::string> outputs,
                                       const sweep_settings& settings = {}) {
    std::vector<kernel::sweep_input> inputs;
    for (const doubt& d : doubts) {
        kernel::require_uncertainty(d);
        inputs.push_back({d.name, d.standard.kind(), true, d.moves});
    }
    auto table =
        kernel::prepare(base, inputs, outputs, rows, settings.rows, [&](std::size_t row, std::span<double> values) {
            for (std::size_t k = 0; k < doubts.size(); ++k) {
                values[k] = doubts[k].standard.si() * kernel::normal_deviate(seed, row, k);
            }
        });
    kernel::fill<R>(table, base, inputs, outputs, settings);
    return table;
}

} // namespace tautline
