#pragma once
/// @file
/// The outcome of reconciling an instrument with its readings, and what can be asked of it.

#include "fit_straightness.hpp"
#include "read_inputs.hpp"
#include "reading.hpp"
#include "suspicions.hpp"
#include "what_readings_do.hpp"

namespace tautline {

/// An input before and after the readings.
struct reconciled_input {
    std::string name{};     ///< name of its doubt
    std::string words{};    ///< what it is, in words; its name where `input_in_words` has none for its path
    any_quantity as_read{}; ///< what it was read as
    any_quantity before{};  ///< standard uncertainty of `as_read`
    any_quantity found{};   ///< its value with all readings
    any_quantity after{};   ///< standard uncertainty of `found`
    fit_edge edge{};        ///< the limit it ended at; `after` then means nothing
    learnt_input learnt{};  ///< what was learnt of it, in the measure of its change t
    reading_test test{};    ///< test of its own reading; errors in SI
    double per_varied = 1;  ///< its change for each unit of the number that the fit varied, where that is another kind
};

/// A reading of a result before and after the adjustment.
struct reconciled_reading {
    std::string path{};                        ///< path of what was read
    std::string state{};                       ///< state in which it was read
    std::string words{};                       ///< what was read, in words, or the name that it was given
    any_quantity value{};                      ///< as read
    any_quantity standard{};                   ///< standard uncertainty that it counted with, including the model's
    bool usual = false;                        ///< whether its own uncertainty was the usual one
    any_quantity expected{};                   ///< value from the instrument as read
    any_quantity found{};                      ///< value from the instrument with all readings
    reading_test test{};                       ///< errors in SI, of notes in cents
    std::optional<std::size_t> string_index{}; ///< index of its string, from 0
    std::optional<int> fret{};                 ///< fret that it is over or pressed at
};

/// The doubt of a result with and without readings, to first order.
struct reconciled_result {
    any_quantity before{}; ///< standard uncertainty from the inputs as read
    any_quantity after{};  ///< standard uncertainty with all readings
};
/// A result without one of the readings, to first order.
struct reconciled_without {
    any_quantity value{};    ///< of the result
    any_quantity standard{}; ///< its standard uncertainty
};

/// A suspected reading or input as all that is not suspected has it, from a fit in which it counts for nothing.
struct item_by_others {
    std::size_t place = 0;            ///< place of the item, inputs first
    std::vector<std::size_t> aside{}; ///< what that fit set aside: the item, and the worst one of each other suspicion
    any_quantity value{};             ///< what the item is then
    any_quantity standard{};          ///< its standard uncertainty then
};

/// An instrument reconciled with its readings.
struct reconciliation {
    read_instrument adjusted;                   ///< the most probable instrument by inputs and readings together
    std::vector<read_input> turned{};           ///< the inputs as the fit varied them
    std::vector<reconciled_input> inputs{};     ///< in the order of the doubts
    std::vector<reconciled_reading> readings{}; ///< in the order in which they were given
    /// The doubts before the readings, about the adjusted instrument: what `propagate` takes for budgets. A doubt that
    /// moves nothing of the strung instrument itself (a gauge, a state) moves nothing here.
    std::vector<doubt> doubts{};
    std::vector<correlation> together{};      ///< correlations of these, as given
    std::vector<correlation> read_together{}; ///< correlations of the readings, as given
    /// Doubts of 1 that do not err together and hold all that is known afterwards. `propagate` with these, on the
    /// adjusted instrument or on one planned from it, gives results with their doubts after the readings.
    std::vector<doubt> unit_doubts{};
    weighted_fit fit{};                  ///< the fit, in changes t of the inputs
    reading_tests tests{};               ///< tests of inputs and readings
    std::vector<suspicion> suspicions{}; ///< readings that do not agree, worst first
    /// What suspected items are by all else, in the order of the suspicions; absent where no fit without it settles.
    std::vector<item_by_others> by_others{};
    fit_straightness straightness{};               ///< whether first order is enough
    std::optional<linear_adjustment> adjustment{}; ///< about the state found
    bool largest_elsewhere = false;                ///< whether some relief is largest at another fret than in the
                                                   ///< instrument as read

    /// Slopes of a result by the changes of the inputs. `result` must be propagated with `doubts`.
    [[nodiscard]] std::vector<double> slopes_of(const uncertain_result& result) const {
        require_that(result.contributions.size() == turned.size(), "result",
                     "must be propagated with the doubts of the reconciliation");
        std::vector<double> slopes;
        for (std::size_t i = 0; i < turned.size(); ++i) { slopes.push_back(result.contributions[i] / turned[i].standard); }
        return slopes;
    }
    /// Standard uncertainty of a result before and after the readings. `result` must be propagated with `doubts`.
    [[nodiscard]] reconciled_result result_of(const uncertain_result& result) const {
        const auto slopes = slopes_of(result);
        return {any_quantity::of(result.value.kind(), adjustment->standard_before(slopes)),
                any_quantity::of(result.value.kind(), adjustment->standard(slopes))};
    }
    /// What inputs and readings contribute to a result's doubt, inputs first, in order and signed. `result` must be
    /// propagated with `doubts`. `all_together` tells which contributions err together.
    [[nodiscard]] std::vector<double> contributions_of(const uncertain_result& result) const {
        return contributions_to<double>(*adjustment, slopes_of(result));
    }
    /// Correlations of inputs and readings, with places in one list.
    [[nodiscard]] std::vector<correlation> all_together() const {
        std::vector<correlation> all = together;
        for (const correlation& c : read_together) {
            all.push_back({c.first + inputs.size(), c.second + inputs.size(), c.coefficient});
        }
        return all;
    }
    /// The budget of a result, with readings of results among its lines, largest first.
    [[nodiscard]] std::vector<budget_line<double>> budget_of(const uncertain_result& result) const {
        std::vector<std::string> names;
        for (const auto& i : inputs) { names.push_back(i.name); }
        for (const auto& r : readings) { names.push_back(r.words); }
        const auto parts = contributions_of(result);
        return budget(names, std::span<const double>(parts));
    }
    /// A result without one of the readings; `place` counts inputs first, then readings.
    [[nodiscard]] reconciled_without without(const uncertain_result& result, std::size_t place) const {
        const auto told = without_reading<double>(*adjustment, tests, slopes_of(result), place);
        return {any_quantity::of(result.value.kind(), result.value.si() + told.change),
                any_quantity::of(result.value.kind(), told.standard)};
    }
    /// Whether the reading at a place, inputs first, is one of those that disagree with the rest.
    [[nodiscard]] bool is_suspected(std::size_t place) const {
        return std::any_of(suspicions.begin(), suspicions.end(), [&](const suspicion& s) {
            return std::find(s.places.begin(), s.places.end(), place) != s.places.end();
        });
    }
    /// The suspected item at a place as all the others have it; null where that is not known.
    [[nodiscard]] const item_by_others* others_of(std::size_t place) const {
        const auto at = std::find_if(by_others.begin(), by_others.end(),
                                     [place](const item_by_others& one) { return one.place == place; });
        return at == by_others.end() ? nullptr : &*at;
    }
    /// What the input or reading at a place was read as, inputs first.
    [[nodiscard]] const any_quantity& as_read_at(std::size_t place) const {
        return place < inputs.size() ? inputs[place].as_read : readings[place - inputs.size()].value;
    }
    /// What the input or reading at a place is called, inputs first.
    [[nodiscard]] const std::string& name_of(std::size_t place) const {
        return place < inputs.size() ? inputs[place].words : readings[place - inputs.size()].words;
    }
};

} // namespace tautline
