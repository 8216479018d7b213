#pragma once
/// @file
/// An instrument reconciled with readings of what it does. Relief, heights, the sink of its top and other readings
/// determine what can hardly be measured, such as woods, rod and the board's line.
///
/// Source: generalised least squares (weighted_fit.hpp); derivatives by dual numbers through the solve itself.

#include "../core/when_used.hpp"
#include "checked_readings.hpp"
#include "reconciliation.hpp"

namespace tautline {

/// By this factor the doubt of an input or a reading is made larger that counts for nothing.
inline constexpr double set_aside_factor = 100;
/// At most so many suspicions are followed by fits without their items.
inline constexpr std::size_t suspicions_followed = 3;
/// At most so many items of each suspicion are followed so.
inline constexpr std::size_t suspects_followed = 4;

/// How reconciling is done.
struct reconcile_settings {
    fit_settings fit{};                           ///< steps and robust weights of the fit
    std::span<const correlation> read_together{}; ///< pairs of readings, by place, that err together beyond gauges
    std::size_t stations = solve_stations;        ///< stations of the neck's beam
    /// Places of inputs and readings, inputs first, that count for nothing: their doubts are made
    /// `set_aside_factor` times as large. Suspicions are then not followed further.
    std::span<const std::size_t> aside{};
};

namespace kernel {

/// A covariance from standard uncertainties and correlations.
[[nodiscard]] inline matrix covariance_of(std::span<const double> standard, std::span<const correlation> together) {
    require_pairs(together, standard.size());
    matrix s = matrix::squares(standard);
    for (const correlation& c : together) {
        s(c.first, c.second) = s(c.second, c.first) = c.coefficient * standard[c.first] * standard[c.second];
    }
    return s;
}
/// The fret that a reading's path names, counted from 1; nothing where it names none.
[[nodiscard]] inline std::optional<int> fret_of(std::string_view path) {
    const auto place = item_of(path, 1);
    if (!place) { return std::nullopt; }
    return static_cast<int>(*place) + 1;
}
/// Keeps of each doubt only the moves of the strung instrument's own leaves: what `propagate` takes.
template <class = when_used>
void keep_moves_of(const strung_instrument& on, std::vector<doubt>& doubts) {
    std::vector<std::string> there;
    for_each_leaf(on, [&](std::string_view path, const auto&) { there.emplace_back(path); });
    std::sort(there.begin(), there.end());
    for (doubt& d : doubts) {
        std::erase_if(d.moves,
                      [&](const moved_leaf& m) { return !std::binary_search(there.begin(), there.end(), m.path); });
    }
}
/// What an input is called. A gauge is told by its name, where it has one.
template <class = when_used>
[[nodiscard]] std::string words_of_input(const read_instrument& model, const string_names& names, std::string_view name) {
    const auto i = name.starts_with("gauges[") && name.ends_with("].zero") ? item_of(name, 0) : std::nullopt;
    if (!i || *i >= model.gauges.size() || model.gauges[*i].name.empty()) { return input_in_words(name, names); }
    return messages::joined({"zero of the gauge \"", model.gauges[*i].name, "\""});
}
/// Tells by their gauges the readings that are otherwise told alike: the same thing read with two tools.
template <class = when_used>
void tell_gauges_apart(std::span<const reading> readings, std::vector<reconciled_reading>& told) {
    std::vector<bool> alike(told.size());
    for (std::size_t k = 0; k < told.size(); ++k) {
        for (std::size_t l = 0; l < k; ++l) {
            if (told[l].words == told[k].words && readings[l].gauge != readings[k].gauge) { alike[l] = alike[k] = true; }
        }
    }
    for (std::size_t k = 0; k < told.size(); ++k) {
        if (!alike[k]) { continue; }
        const std::string& gauge = readings[k].gauge;
        messages::append(told[k].words,
                         {gauge.empty() ? " (read without a gauge)" : " (read with \"", gauge, gauge.empty() ? "" : "\")"});
    }
}
template <class = when_used>
void tell_inputs(const read_instrument& model, const string_names& names, reconciliation& out) {
    const auto learnt = learnt_of(*out.adjustment);
    for (std::size_t i = 0; i < out.turned.size(); ++i) {
        const read_input& input = out.turned[i];
        const double slope = input.slope(out.fit.t[i]);
        const auto in_kind = [&](double si) { return any_quantity::of(input.kind, si); };
        reconciled_input told{input.name,
                              words_of_input(model, names, input.name),
                              in_kind(input.as_read),
                              in_kind(input.standard * input.slope(0)),
                              in_kind(input.at(out.fit.t[i])),
                              in_kind(learnt[i].standard * slope),
                              out.fit.edges[i],
                              learnt[i],
                              out.tests.inputs[i]};
        told.test.error *= slope;
        told.test.least_detectable *= slope;
        out.inputs.push_back(std::move(told));
        doubt d{input.name, input.by_share ? any_quantity(input.standard) : in_kind(input.standard), input.moves};
        for (moved_leaf& m : d.moves) {
            m.factor *= slope;
            m.converts = m.converts || input.by_share;
        }
        out.doubts.push_back(std::move(d));
    }
    const auto& directions = out.adjustment->unit_directions();
    for (std::size_t c = 0; c < directions.columns(); ++c) {
        doubt d{messages::joined({"direction ", c + 1}), 1.0, {}};
        for (std::size_t i = 0; i < out.turned.size(); ++i) {
            if (directions(i, c) == 0) { continue; }
            for (const moved_leaf& m : out.turned[i].moves) {
                d.moves.push_back({m.path, m.factor * out.turned[i].slope(out.fit.t[i]) * directions(i, c), true});
            }
        }
        out.unit_doubts.push_back(std::move(d));
    }
    keep_moves_of(out.adjusted.at_pitch, out.doubts);
    keep_moves_of(out.adjusted.at_pitch, out.unit_doubts);
}

} // namespace kernel

template <class = when_used>
[[nodiscard]] reconciliation reconcile(const read_instrument& model, std::span<const doubt> doubts,
                                       std::span<const correlation> together, std::span<const reading> readings,
                                       const reconcile_settings& settings = {});

namespace kernel {

/// What is set aside where the item of one suspicion is wrong: it, and the worst one of every other suspicion.
[[nodiscard]] inline std::vector<std::size_t> set_aside_with(const std::vector<suspicion>& all, std::size_t one,
                                                             std::size_t place) {
    std::vector<std::size_t> aside{place};
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::size_t worst = all[i].places.front();
        if (i != one && std::find(aside.begin(), aside.end(), worst) == aside.end()) { aside.push_back(worst); }
    }
    return aside;
}
/// Tells what suspected items are without them: each alone, beside the worst ones of other suspicions.
template <class = when_used>
void ask_others(const read_instrument& model, std::span<const doubt> doubts, std::span<const correlation> together,
                std::span<const reading> readings, const reconcile_settings& settings, reconciliation& out) {
    for (std::size_t s = 0; s < std::min(out.suspicions.size(), suspicions_followed); ++s) {
        const auto& places = out.suspicions[s].places;
        for (std::size_t k = 0; k < std::min(places.size(), suspects_followed); ++k) {
            item_by_others one{places[k], set_aside_with(out.suspicions, s, places[k]), {}, {}};
            if (out.others_of(one.place)) { continue; }
            auto without = settings;
            without.aside = one.aside;
            try {
                const auto said = reconcile(model, doubts, together, readings, without);
                if (said.fit.end != fit_end::settled) { continue; }
                if (one.place < said.inputs.size()) {
                    one.value = said.inputs[one.place].found;
                    one.standard = said.inputs[one.place].after;
                } else {
                    const auto row = one.place - said.inputs.size();
                    one.value = said.readings[row].found;
                    one.standard =
                        any_quantity::of(one.value.kind(), said.adjustment->standard(said.adjustment->by_input().row(row)));
                }
                out.by_others.push_back(std::move(one));
            } catch (const invalid_input&) { continue; } // it cannot stand without
        }
    }
}

} // namespace kernel

/// Reconciles an instrument with readings of results. Of every item that is suspected, a fit without it tells what it is
/// by all else.
/// @param model the instrument as read, with the states and gauges that readings speak of
/// @param doubts of its inputs; paths are those of `basic_read_instrument`
/// @param together pairs of inputs, by their places among the doubts, that err together
/// @throws invalid_input with all that is wrong with the readings, for correlations that contradict each other, and where
/// the instrument as read cannot stand in a state that is read
template <class>
[[nodiscard]] reconciliation reconcile(const read_instrument& model, std::span<const doubt> doubts,
                                       std::span<const correlation> together, std::span<const reading> readings,
                                       const reconcile_settings& settings) {
    require_valid(model);
    if (auto wrong = kernel::wrong_with(model, readings); !wrong.empty()) { throw invalid_input(std::move(wrong)); }
    reconciliation out;
    out.turned = read_inputs_of(model, doubts);
    kernel::read_model fitted(model, out.turned, readings, settings.stations);
    kernel::require_readings(model, readings, fitted);

    std::vector<double> own, read;
    for (const read_input& i : out.turned) { own.push_back(i.standard); }
    for (const reading& r : readings) { read.push_back(standard_of(r)); }
    for (const std::size_t place : settings.aside) {
        require_that(place < own.size() + read.size(), "aside", "must be places of inputs and readings");
        (place < own.size() ? own[place] : read[place - own.size()]) *= set_aside_factor;
    }
    fit_problem problem{covariance_root(kernel::covariance_of(own, together)),
                        reading_root(kernel::covariance_of(read, settings.read_together)),
                        {},
                        {},
                        {}};
    for (const reading& r : readings) { problem.readings.push_back(r.value.si()); }
    for (const read_input& i : out.turned) {
        problem.least.push_back(i.least);
        problem.most.push_back(i.most);
    }
    const std::vector<double> as_read(own.size());
    const auto expected = fitted(as_read, matrix(own.size(), 0)).values;
    const auto relief_as_read = fitted.relief_places();
    out.fit = fit_weighted<double>(std::move(problem), fitted, settings.fit);
    out.adjustment = settings.fit.huber ? weighted_adjustment_of(out.fit) : adjustment_of(out.fit);
    out.tests = tests_of(settings.fit.huber ? adjustment_of(out.fit) : *out.adjustment);
    out.suspicions = suspicions_of(out.tests);
    out.straightness = straightness_of(out.fit, *out.adjustment, fitted);
    (void)fitted(out.fit.t, matrix(own.size(), 0));
    out.largest_elsewhere = fitted.relief_places() != relief_as_read;
    out.adjusted = fitted.at(out.fit.t);
    out.together.assign(together.begin(), together.end());
    out.read_together.assign(settings.read_together.begin(), settings.read_together.end());

    string_names names;
    name_strings(model.at_pitch.instrument, model.at_pitch.stringing, names);
    for (std::size_t k = 0; k < readings.size(); ++k) {
        const reading& r = readings[k];
        std::string words = r.name.empty() ? readable_words(r.path, names) : r.name;
        if (r.name.empty() && r.state != pitch_state) { messages::append(words, {", ", r.state}); }
        const auto in_kind = [&](double si) { return any_quantity::of(r.value.kind(), si); };
        out.readings.push_back({r.path, r.state, std::move(words), r.value, in_kind(read[k]), !r.standard.has_value(),
                                in_kind(expected[k]), in_kind(out.fit.values[k]), out.tests.readings[k],
                                kernel::item_of(r.path, 0), kernel::fret_of(r.path)});
    }
    kernel::tell_gauges_apart(readings, out.readings);
    kernel::tell_inputs(model, names, out);
    if (settings.aside.empty()) { kernel::ask_others(model, doubts, together, readings, settings, out); }
    return out;
}
TAUTLINE_HELD(reconciliation reconcile<>(const read_instrument&, std::span<const doubt>, std::span<const correlation>,
                                         std::span<const reading>, const reconcile_settings&))
/// The same where all readings are at pitch or slack.
template <class = when_used>
[[nodiscard]] reconciliation reconcile(const strung_instrument& on, std::span<const doubt> doubts,
                                       std::span<const correlation> together, std::span<const reading> readings,
                                       const reconcile_settings& settings = {}) {
    return reconcile(read_instrument{on, {}, {}, {}, {}}, doubts, together, readings, settings);
}
TAUTLINE_HELD(reconciliation reconcile<>(const strung_instrument&, std::span<const doubt>, std::span<const correlation>,
                                         std::span<const reading>, const reconcile_settings&))

} // namespace tautline
