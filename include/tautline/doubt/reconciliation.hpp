#pragma once
/// @file
/// What comes of reconciling an instrument with its readings, and what can be asked of it.

#include "fit_straightness.hpp"
#include "read_inputs.hpp"
#include "reading.hpp"
#include "suspicions.hpp"
#include "what_readings_do.hpp"

namespace tautline {

/// An input before and after.
struct reconciled_input {
    std::string name{};     ///< of its doubt
    std::string words{};    ///< what it is; its name where that is no path of `input_in_words`
    any_quantity as_read{}; ///< what it was read as
    any_quantity before{};  ///< standard uncertainty of that
    any_quantity found{};   ///< with all readings
    any_quantity after{};   ///< standard uncertainty of that
    fit_edge edge{};        ///< it ended at a limit: `after` then means nothing
    learnt_input learnt{};  ///< in the measure of its change
    reading_test test{};    ///< of its own reading; errors in SI
};

/// A reading of a result before and after.
struct reconciled_reading {
    std::string path{};                        ///< what was read
    std::string state{};                       ///< when
    std::string words{};                       ///< what was read, or the name it was given
    any_quantity value{};                      ///< as read
    any_quantity standard{};                   ///< uncertainty it counted with, the model's included
    bool usual = false;                        ///< its own uncertainty was the usual one
    any_quantity expected{};                   ///< by the instrument as read
    any_quantity found{};                      ///< by the instrument with all readings
    reading_test test{};                       ///< errors in SI, of notes in cents
    std::optional<std::size_t> string_index{}; ///< of which string, from 0
    std::optional<int> fret{};                 ///< over which fret, or pressed at which
};

/// A result with and without readings, as far as first order tells.
struct reconciled_result {
    any_quantity before{}; ///< standard uncertainty by the inputs as read
    any_quantity after{};  ///< standard uncertainty with all readings
};
/// A result without one of the readings, to first order.
struct reconciled_without {
    any_quantity value{};    ///< of the result
    any_quantity standard{}; ///< its uncertainty
};

/// An instrument reconciled with its readings.
struct reconciliation {
    read_instrument adjusted;                   ///< as inputs and readings together make most probable
    std::vector<read_input> turned{};           ///< the inputs as the fit turned them
    std::vector<reconciled_input> inputs{};     ///< in the order of the doubts
    std::vector<reconciled_reading> readings{}; ///< in the order they were given
    /// The doubts before, about the adjusted instrument: what `propagate` takes for budgets. What moves nothing of the
    /// strung instrument itself (a gauge, a state) moves nothing here.
    std::vector<doubt> doubts{};
    std::vector<correlation> together{};      ///< of these, as given
    std::vector<correlation> read_together{}; ///< of the readings, as given
    /// Doubts of 1 that do not err together and hold all that is known afterwards: with these `propagate` on the adjusted
    /// instrument, or on one planned from it, gives results with their doubts after the readings.
    std::vector<doubt> unit_doubts{};
    weighted_fit fit{};                            ///< in changes t of the inputs
    reading_tests tests{};                         ///< of inputs and readings
    std::vector<suspicion> suspicions{};           ///< that do not agree, the worst first
    fit_straightness straightness{};               ///< whether first order will do
    std::optional<linear_adjustment> adjustment{}; ///< about the state found
    bool largest_elsewhere = false;                ///< a relief is largest at another fret than as read

    /// Slopes of a result by changes of the inputs, from what `doubts` contribute to it (`propagate`).
    [[nodiscard]] std::vector<double> slopes_of(const uncertain_result& result) const {
        require_that(result.contributions.size() == turned.size(), "result",
                     "must be propagated with the doubts of the reconciliation");
        std::vector<double> slopes;
        for (std::size_t i = 0; i < turned.size(); ++i) { slopes.push_back(result.contributions[i] / turned[i].standard); }
        return slopes;
    }
    /// How sure a result is, from what `doubts` contribute to it.
    [[nodiscard]] reconciled_result result_of(const uncertain_result& result) const {
        const auto slopes = slopes_of(result);
        return {any_quantity::of(result.value.kind(), adjustment->standard_before(slopes)),
                any_quantity::of(result.value.kind(), adjustment->standard(slopes))};
    }
    /// What inputs and readings contribute to a result's doubt, from what `doubts` contribute to it: inputs first, in
    /// order; all signed. `all_together` says which of them err together.
    [[nodiscard]] std::vector<double> contributions_of(const uncertain_result& result) const {
        return contributions_to<double>(*adjustment, slopes_of(result));
    }
    /// Correlations of inputs and readings in one list.
    [[nodiscard]] std::vector<correlation> all_together() const {
        std::vector<correlation> all = together;
        for (const correlation& c : read_together) {
            all.push_back({c.first + inputs.size(), c.second + inputs.size(), c.coefficient});
        }
        return all;
    }
    /// The budget of a result, readings of results among its lines, the largest first.
    [[nodiscard]] std::vector<budget_line<double>> budget_of(const uncertain_result& result) const {
        std::vector<std::string> names;
        for (const auto& i : inputs) { names.push_back(i.name); }
        for (const auto& r : readings) { names.push_back(r.words); }
        const auto parts = contributions_of(result);
        return budget(names, std::span<const double>(parts));
    }
    /// A result without one of the readings, by its place among inputs and readings.
    [[nodiscard]] reconciled_without without(const uncertain_result& result, std::size_t place) const {
        const auto told = without_reading<double>(*adjustment, tests, slopes_of(result), place);
        return {any_quantity::of(result.value.kind(), result.value.si() + told.change),
                any_quantity::of(result.value.kind(), told.standard)};
    }
    /// Whether a place among inputs and readings is one of those that disagree with the rest.
    [[nodiscard]] bool is_suspected(std::size_t place) const {
        return std::any_of(suspicions.begin(), suspicions.end(), [&](const suspicion& s) {
            return std::find(s.places.begin(), s.places.end(), place) != s.places.end();
        });
    }
    /// What a place among inputs and readings is called.
    [[nodiscard]] const std::string& name_of(std::size_t place) const {
        return place < inputs.size() ? inputs[place].words : readings[place - inputs.size()].words;
    }
};

} // namespace tautline
