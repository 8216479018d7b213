#pragma once
/// @file
/// Which readings to take next on an instrument, for the sake of one of its results.

#include <cmath>

#include "../core/when_used.hpp"
#include "next_reading.hpp"
#include "reconcile.hpp"

namespace tautline {

/// A reading that is worth taking, given that those before it in the list are taken.
struct reading_to_take {
    std::string words{};     ///< what to read, or which input to measure again
    std::string path{};      ///< of the reading; empty where an input is measured again
    std::string state{};     ///< state in which to read it
    std::size_t input = 0;   ///< index of the input, where `path` is empty
    any_quantity standard{}; ///< standard uncertainty of the reading
    any_quantity before{};   ///< standard uncertainty of the result without it
    any_quantity after{};    ///< standard uncertainty of the result with it
    double information = 0;  ///< what it tells of all inputs together
};

/// How many readings are told unless another number is asked for.
inline constexpr std::size_t readings_wanted = 3;

namespace kernel {

/// What is usually read on an instrument, in each of its described states, without values.
template <class = when_used>
[[nodiscard]] std::vector<reading> usual_readings(const read_instrument& model) {
    const auto& built = model.at_pitch.instrument;
    const auto any = length<>();
    std::vector<reading> all{relief_read(any),         relief_read(any).when(slack_state),
                             line_at_saddle_read(any), line_at_saddle_read(any).when(slack_state),
                             top_drop_read(any),       tailpiece_read(angle<>())};
    const std::size_t last = model.at_pitch.stringing.strings.size() - 1;
    for (const std::size_t string : {std::size_t{0}, last / 2, last}) {
        for (const int fret : {1, std::min(12, built.board.scale.frets), built.board.scale.frets}) {
            if (fret >= 1) { all.push_back(height_read(string, fret, any)); }
        }
    }
    for (const auto& s : model.states) {
        for (const std::size_t string : {std::size_t{0}, last}) {
            if (s.capo) { all.push_back(height_read(string, 1, any).when(s.name)); }
        }
        all.push_back((s.weight ? nut_drop_read(any) : relief_read(any)).when(s.name));
    }
    return all;
}

/// Readings that can be taken on an instrument, and what each tells of its inputs: the same for all its results.
struct readings_ahead {
    std::vector<reading> list{};              ///< with the values to be expected
    std::vector<possible_reading> possible{}; ///< of the list, then of inputs that are measured again
    std::vector<std::size_t> measured{};      ///< which inputs these are
    string_names names{};                     ///< what the strings are called
};
/// Results of the reconciled instrument at pitch, with what each of its inputs does to them.
struct known_at_pitch {
    std::span<const uncertain_result> results{}; ///< with their contributions
    std::vector<std::size_t> places{};           ///< of each input among the contributions; `none` moves no result
    std::vector<double> per{};                   ///< slope by an input's change t for each unit of its contribution
    static constexpr std::size_t none = static_cast<std::size_t>(-1);

    /// The result that a reading reads; null where it is not among these.
    [[nodiscard]] const uncertain_result* of(const reading& r) const {
        return r.state == pitch_state && r.gauge.empty() && !r.object ? find_result(results, r.path) : nullptr;
    }
    /// Slopes of a result by the changes of the inputs.
    [[nodiscard]] std::vector<double> slopes_of(const uncertain_result& result) const {
        std::vector<double> slopes;
        for (std::size_t i = 0; i < places.size(); ++i) {
            slopes.push_back(places[i] == none ? 0 : per[i] * result.contributions[places[i]]);
        }
        return slopes;
    }
};
/// Those of `candidates` that can be taken; of none, the usual ones.
/// @param at_pitch what is known already of the results at pitch; null: nothing
template <class When = when_used>
[[nodiscard]] when_used_t<readings_ahead, When> ahead_of(const read_instrument& model, const reconciliation& out,
                                                         std::span<const reading> candidates,
                                                         const known_at_pitch* at_pitch = nullptr) {
    when_used_t<readings_ahead, When> ahead;
    auto& list = ahead.list;
    list.assign(candidates.begin(), candidates.end());
    if (list.empty()) { list = kernel::usual_readings(model); }
    for (reading& r : list) {
        if (const auto thing = find_readable(r.path)) { r.value = any_quantity::of(thing->kind, 0); }
    }
    std::erase_if(list, [&](const reading& r) {
        for (std::size_t k = 0; k < out.readings.size(); ++k) {
            if (out.readings[k].path == r.path && out.readings[k].state == r.state) { return true; }
        }
        return false;
    });
    for (std::size_t k = list.size(); k-- > 0;) {
        for (std::size_t l = 0; l < k; ++l) {
            if (list[l].path != list[k].path || list[l].state != list[k].state) { continue; }
            list.erase(list.begin() + static_cast<std::ptrdiff_t>(k));
            break;
        }
    }
    if (auto wrong = kernel::wrong_with(model, list); !wrong.empty()) { throw invalid_input(std::move(wrong)); }
    {
        // Leaves out what this instrument does not have.
        kernel::read_model there(model, out.turned, list);
        for (std::size_t s = 0; s < there.states().size(); ++s) { there.solve_as_read(s); }
        std::vector<reading> has;
        for (std::size_t k = 0; k < list.size(); ++k) {
            if (there.last_read(k)) { has.push_back(list[k]); }
        }
        list = std::move(has);
    }
    std::vector<reading> asked; // what the model must be asked for
    for (const reading& r : list) {
        if (!at_pitch || !at_pitch->of(r)) { asked.push_back(r); }
    }
    kernel::read_model says(model, out.turned, asked);
    const auto at = says(out.fit.t, matrix::identity(out.turned.size()));
    std::size_t row = 0;
    for (reading& r : list) {
        std::vector<double> slopes;
        double value = 0;
        if (const auto* known = at_pitch ? at_pitch->of(r) : nullptr) {
            value = known->value.si();
            slopes = at_pitch->slopes_of(*known);
        } else {
            value = at.values[row];
            slopes.assign(at.slopes.row(row).begin(), at.slopes.row(row).end());
            ++row;
        }
        r.value = any_quantity::of(r.value.kind(), value);
        ahead.possible.push_back({std::move(slopes), standard_of(r), find_readable(r.path)->effort});
    }
    constexpr int effort_of_measuring = 5;
    for (std::size_t i = 0; i < out.turned.size(); ++i) {
        const read_input& input = out.turned[i];
        if (input.by_share) { continue; } // woods are looked up, not measured
        // What work did is known by what it leads to: as found there was nothing to measure.
        if (input.moves.front().path.starts_with("after_work[")) { continue; }
        const double usual = usual_standard(input.moves.front().path, input.as_read).value_or(input.standard);
        std::vector<double> unit(out.turned.size());
        unit[i] = 1;
        ahead.possible.push_back({std::move(unit), std::min(usual, input.standard), effort_of_measuring});
        ahead.measured.push_back(i);
    }
    name_strings(model.at_pitch.instrument, model.at_pitch.stringing, ahead.names);
    return ahead;
}
/// The best of them for the sake of one result.
template <class = when_used>
[[nodiscard]] std::vector<reading_to_take> best_of(const readings_ahead& ahead, const reconciliation& out,
                                                   const uncertain_result& result, std::size_t count) {
    const auto& list = ahead.list;
    const auto slopes = out.slopes_of(result);
    double before = out.adjustment->standard(slopes);
    std::vector<reading_to_take> all;
    for (const auto& next : next_readings<double>(*out.adjustment, slopes, ahead.possible, count)) {
        reading_to_take one;
        kind_name kind{};
        double size = ahead.possible[next.reading].standard;
        one.before = any_quantity::of(result.value.kind(), before);
        one.after = any_quantity::of(result.value.kind(), before = next.standard);
        one.information = next.information;
        if (next.reading < list.size()) {
            const reading& r = list[next.reading];
            one.path = r.path;
            one.state = r.state;
            kind = r.value.kind();
            one.words = r.name.empty() ? readable_words(r.path, ahead.names) : r.name;
            if (r.name.empty() && r.state != pitch_state) { messages::append(one.words, {", ", r.state}); }
        } else {
            one.input = ahead.measured[next.reading - list.size()];
            one.words = out.inputs[one.input].words;
            // As it was written, which may be another kind than the fit varies.
            kind = out.inputs[one.input].found.kind();
            size *= std::abs(out.inputs[one.input].per_varied);
        }
        one.standard = any_quantity::of(kind, size);
        all.push_back(std::move(one));
    }
    return all;
}

} // namespace kernel

/// The readings to take next, best first.
/// @param model the instrument as it was reconciled
/// @param out outcome of that; with no readings taken yet, of reconciling without readings
/// @param result of the adjusted instrument or one planned from it, propagated with `out.doubts`
/// @param candidates readings that can be taken, without their values; empty: the usual ones
/// @param count how many are wanted
template <class = when_used>
[[nodiscard]] std::vector<reading_to_take>
readings_to_take(const read_instrument& model, const reconciliation& out, const uncertain_result& result,
                 std::span<const reading> candidates = {}, std::size_t count = readings_wanted) {
    return kernel::best_of(kernel::ahead_of(model, out, candidates), out, result, count);
}

} // namespace tautline
