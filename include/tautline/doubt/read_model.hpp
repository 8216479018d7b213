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
        moves_.resize(inputs_.size());
        for (const read_input& input : inputs_) {
            changes_neck_.push_back(may_change_neck(base.at_pitch.instrument, input.moves));
        }
        for (const std::string& state : states_) {
            const auto scope = scope_of(base_, state, sounds_);
            for (std::size_t i = 0; i < inputs_.size(); ++i) {
                moves_[i].push_back(std::any_of(inputs_[i].moves.begin(), inputs_[i].moves.end(),
                                                [&](const moved_leaf& m) { return scope.may_be_moved_by(m.path); }));
            }
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
            turn_plain(t);
            for (std::size_t s = 0; s < states_.size(); ++s) { solve_plain(s, t); }
            take_all(
                *plain_, [&](std::size_t k, double v) { out.values[k] = v; }, [](std::size_t) { return true; });
        }
        // Columns that move the same states are taken together, so that a state which none of them moves is not solved.
        // So are those that change the neck, whose beam is then made once for all others.
        const auto order = columns_in_order(along);
        seeded_solves<D> at_pitch;
        for (std::size_t first = 0; first < columns; first += at_once) {
            const auto now = std::span(order).subspan(first, std::min(at_once, columns - first));
            if (!seeded_) { seeded_ = std::make_unique<turned_instrument<D>>(base_, inputs_, states_.size()); }
            seeded_->turn(inputs_, t, [&](D& number, std::size_t i, double slope) {
                for (std::size_t k = 0; k < now.size(); ++k) { number.partial[k] += slope * along(i, now[k].column); }
            });
            const auto moved = [&](std::size_t state) {
                return first == 0 || std::any_of(now.begin(), now.end(), [&](const auto& c) { return c.moves[state]; });
            };
            const bool neck = std::any_of(now.begin(), now.end(), [](const auto& c) { return c.neck; });
            for (std::size_t s = 0; s < states_.size(); ++s) {
                if (!moved(s)) { continue; }
                if (states_[s] == pitch_state) {
                    at_pitch.solve(seeded_->model.at_pitch, seeded_->solved[s].setup, stations_, neck, sounds_);
                } else {
                    solve_state(seeded_->model, states_[s], seeded_->solved[s], stations_, sounds_);
                }
            }
            take_all(
                *seeded_,
                [&](std::size_t k, const D& v) {
                    out.values[k] = v.value;
                    for (std::size_t c = 0; c < now.size(); ++c) { out.slopes(k, now[c].column) = v.partial[c]; }
                },
                moved);
        }
        return out;
    }
    /// The instrument at changes t of its inputs.
    [[nodiscard]] read_instrument at(std::span<const double> t) {
        turn_plain(t);
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
        const std::vector<double> as_read(inputs_.size());
        turn_plain(as_read);
        solve_plain(state, as_read);
    }

private:
    /// A direction of the inputs, which states it may move, and whether it may change the neck.
    struct direction {
        std::size_t column = 0;
        std::vector<bool> moves{};
        bool neck = false;
    };
    [[nodiscard]] std::vector<direction> columns_in_order(const matrix& along) const {
        std::vector<direction> all(along.columns());
        for (std::size_t c = 0; c < all.size(); ++c) {
            all[c] = {c, std::vector<bool>(states_.size())};
            for (std::size_t i = 0; i < inputs_.size(); ++i) {
                if (along(i, c) == 0) { continue; }
                all[c].neck = all[c].neck || changes_neck_[i];
                for (std::size_t s = 0; s < states_.size(); ++s) {
                    if (moves_[i][s]) { all[c].moves[s] = true; }
                }
            }
        }
        std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
            return b.moves < a.moves || (b.moves == a.moves && a.neck && !b.neck);
        });
        return all;
    }
    void turn_plain(std::span<const double> t) {
        if (!plain_) { plain_ = std::make_unique<turned_instrument<double>>(base_, inputs_, states_.size()); }
        plain_->turn(inputs_, t, [](double&, std::size_t, double) {});
    }
    /// Solves a state in plain numbers, unless it was solved last with the same inputs.
    void solve_plain(std::size_t state, std::span<const double> t) {
        solved_at_.resize(states_.size());
        auto& last = solved_at_[state];
        bool moved = last.size() != t.size();
        for (std::size_t i = 0; !moved && i < t.size(); ++i) { moved = moves_[i][state] && last[i] != t[i]; }
        if (!moved && !t.empty()) { return; }
        last.clear(); // known again once it is solved
        solve_state(plain_->model, states_[state], plain_->solved[state], stations_, sounds_);
        last.assign(t.begin(), t.end());
    }
    /// Takes what is read in those states that are `moved`.
    template <class R, class Take, class Moved>
    void take_all(turned_instrument<R>& turned, Take&& take, Moved&& moved) const {
        for (std::size_t k = 0; k < readings_.size(); ++k) {
            if (!moved(places_[k].state)) { continue; }
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
    std::vector<std::vector<bool>> moves_{}; ///< for each input, which states it may move
    std::vector<bool> changes_neck_{};       ///< for each input, whether it may change the neck
    std::vector<std::vector<double>>
        solved_at_{}; ///< changes of the inputs at which each state was solved in plain numbers
    std::unique_ptr<turned_instrument<double>> plain_{};
    std::unique_ptr<turned_instrument<D>> seeded_{};
};
using read_model = model_of_readings<>;

} // namespace tautline::kernel
