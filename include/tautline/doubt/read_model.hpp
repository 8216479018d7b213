#pragma once
/// @file
/// What an instrument's model says of readings at any state of its doubtful inputs, with derivatives. Each state in which
/// something is read is solved once for all its readings.

#include <algorithm>
#include <array>
#include <memory>

#include "../core/when_used.hpp"
#include "fit_problem.hpp"
#include "read_inputs.hpp"
#include "state_solve.hpp"

namespace tautline::kernel {

/// What a reading reads, and where.
struct reading_place {
    readable what{};
    std::size_t state = 0;        ///< index among the states that are solved
    std::size_t gauge = no_gauge; ///< index among the instrument's gauges
    static constexpr std::size_t no_gauge = static_cast<std::size_t>(-1);
};

/// An instrument in one number type, with its doubtful numbers found once.
template <class R>
struct turned_instrument {
    basic_read_instrument<R> model;
    std::vector<basic_solved_state<R>> solved{};
    struct leaf {
        R* number;
        double start;
        std::vector<std::pair<std::size_t, double>> inputs{}; ///< each input that moves it, with its factor
    };
    std::vector<leaf> leaves{};

    turned_instrument(const read_instrument& base, std::span<const read_input> inputs, std::size_t states)
        : model(over<R>(base)), solved(states) {
        const leaf_places<R> numbers(model);
        constexpr std::size_t none = static_cast<std::size_t>(-1);
        std::vector<std::size_t> at(numbers.size(), none); // among `leaves`
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            for (const moved_leaf& m : inputs[i].moves) {
                const auto* const found = numbers.find(m.path);
                if (!found) { continue; }
                if (at[found->place] == none) {
                    at[found->place] = leaves.size();
                    leaves.push_back({found->number, static_cast<double>(value_of(*found->number)), {}});
                }
                leaves[at[found->place]].inputs.emplace_back(i, m.factor);
            }
        }
    }
    turned_instrument(const turned_instrument&) = delete;
    turned_instrument& operator=(const turned_instrument&) = delete;

    /// Sets the doubtful numbers; `slope(number, input, change)` adds the input's derivative.
    template <class Slope>
    void turn(std::span<const read_input> inputs, std::span<const double> t, Slope&& slope) {
        for (const leaf& l : leaves) {
            double value = l.start;
            for (const auto& [i, factor] : l.inputs) { value += factor * (inputs[i].at(t[i]) - inputs[i].as_read); }
            *l.number = R(value);
            for (const auto& [i, factor] : l.inputs) { slope(*l.number, i, factor * inputs[i].slope(t[i])); }
        }
    }
};

/// The readings of an instrument as a model for `fit_weighted`.
template <class = when_used>
class model_of_readings {
public:
    static constexpr std::size_t at_once = 8;
    using D = dual<double, at_once>;

    model_of_readings(const read_instrument& base, std::vector<read_input> inputs, std::span<const reading> readings,
                      std::size_t stations = solve_stations)
        : base_(base), inputs_(std::move(inputs)), readings_(readings.begin(), readings.end()), stations_(stations) {
        for (const reading& r : readings_) {
            reading_place p{find_readable(r.path)->what, 0, reading_place::no_gauge};
            const auto at = std::find(states_.begin(), states_.end(), r.state);
            p.state = static_cast<std::size_t>(at - states_.begin());
            if (at == states_.end()) { states_.push_back(r.state); }
            for (std::size_t g = 0; g < base.gauges.size(); ++g) {
                if (base.gauges[g].name == r.gauge) { p.gauge = g; }
            }
            sounds_ = sounds_ || p.what == readable::note || p.what == readable::octave_setback;
            places_.push_back(p);
        }
    }

    [[nodiscard]] const std::vector<read_input>& inputs() const { return inputs_; }
    [[nodiscard]] const std::vector<std::string>& states() const { return states_; }
    /// The readings at changes t of the inputs, and their derivatives along directions of t.
    /// @throws invalid_input where the instrument cannot stand in a state, or a state has no such thing to read
    [[nodiscard]] modelled operator()(std::span<const double> t, const matrix& along) {
        const std::size_t m = readings_.size(), columns = along.columns();
        modelled out{std::vector<double>(m), matrix(m, columns)};
        if (columns == 0) {
            if (!plain_) { plain_ = std::make_unique<turned_instrument<double>>(base_, inputs_, states_.size()); }
            plain_->turn(inputs_, t, [](double&, std::size_t, double) {});
            solve_all(*plain_, [&](std::size_t k, double v) { out.values[k] = v; });
        }
        for (std::size_t first = 0; first < columns; first += at_once) {
            const std::size_t last = std::min(columns, first + at_once);
            if (!seeded_) { seeded_ = std::make_unique<turned_instrument<D>>(base_, inputs_, states_.size()); }
            seeded_->turn(inputs_, t, [&](D& number, std::size_t i, double slope) {
                for (std::size_t c = first; c < last; ++c) { number.partial[c - first] += slope * along(i, c); }
            });
            solve_all(*seeded_, [&](std::size_t k, const D& v) {
                out.values[k] = v.value;
                for (std::size_t c = first; c < last; ++c) { out.slopes(k, c) = v.partial[c - first]; }
            });
        }
        return out;
    }
    /// The instrument at changes t of its inputs.
    [[nodiscard]] read_instrument at(std::span<const double> t) {
        if (!plain_) { plain_ = std::make_unique<turned_instrument<double>>(base_, inputs_, states_.size()); }
        plain_->turn(inputs_, t, [](double&, std::size_t, double) {});
        return plain_->model;
    }
    /// Value of reading `k` in the states solved last, in plain numbers and without its gauge; nothing where it is not
    /// there.
    [[nodiscard]] std::optional<double> last_read(std::size_t k) const {
        return read_in(plain_->solved[places_[k].state], places_[k].what, readings_[k]);
    }
    /// For each reading of a relief, the crest where it is largest in the states solved last.
    [[nodiscard]] std::vector<std::size_t> relief_places() const {
        std::vector<std::size_t> all;
        for (const reading_place& p : places_) {
            if (p.what != readable::relief_gap || !plain_) { continue; }
            all.push_back(plain_->solved[p.state].setup.relief->index);
        }
        return all;
    }
    /// Solves one state in plain numbers, with the inputs as read.
    void solve_as_read(std::size_t state) {
        if (!plain_) { plain_ = std::make_unique<turned_instrument<double>>(base_, inputs_, states_.size()); }
        plain_->turn(inputs_, std::vector<double>(inputs_.size()), [](double&, std::size_t, double) {});
        solve_state(plain_->model, states_[state], plain_->solved[state], stations_, sounds_);
    }

private:
    template <class R, class Take>
    void solve_all(turned_instrument<R>& turned, Take&& take) const {
        for (std::size_t s = 0; s < states_.size(); ++s) {
            solve_state(turned.model, states_[s], turned.solved[s], stations_, sounds_);
        }
        for (std::size_t k = 0; k < readings_.size(); ++k) {
            const auto v = read_in(turned.solved[places_[k].state], places_[k].what, readings_[k]);
            require_that(v.has_value(), messages::path_of("readings", k), "must be of something that is there");
            const bool gauged = places_[k].gauge != reading_place::no_gauge;
            take(k, gauged ? R(*v + turned.model.gauges[places_[k].gauge].zero.value()) : *v);
        }
    }

    read_instrument base_;
    std::vector<read_input> inputs_;
    std::vector<reading> readings_;
    std::size_t stations_;
    bool sounds_ = false;               ///< whether any reading needs notes: a note or an octave setback
    std::vector<std::string> states_{}; ///< each once, in the order in which they are first read
    std::vector<reading_place> places_{};
    std::unique_ptr<turned_instrument<double>> plain_{};
    std::unique_ptr<turned_instrument<D>> seeded_{};
};
using read_model = model_of_readings<>;

} // namespace tautline::kernel
