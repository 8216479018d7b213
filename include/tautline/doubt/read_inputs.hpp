#pragma once
/// @file
/// The doubtful inputs of a model as a fit varies them: where they start, in which measure they change, what they move,
/// and how far they may go.

#include <cmath>
#include <limits>
#include <span>

#include "../core/when_used.hpp"
#include "read_instrument.hpp"
#include "tolerance.hpp"
#include "usual_doubts.hpp"

namespace tautline {

/// A doubtful input. Its change is told as `t`: `ln(x / as_read)` where it is doubted by a share of itself, else `x -
/// as_read`.
struct read_input {
    std::string name{};              ///< name of its doubt
    kind_name kind{};                ///< kind of the first number that it moves
    bool by_share = false;           ///< whether t is a logarithm
    double as_read = 0;              ///< x as read; its first leaf is `factor` times this
    double standard = 0;             ///< standard uncertainty of t before the readings of results
    std::vector<moved_leaf> moves{}; ///< what it moves; each leaf changes by factor times the change of x
    double least = -std::numeric_limits<double>::infinity(); ///< least value of t
    double most = std::numeric_limits<double>::infinity();   ///< greatest value of t

    /// The value of x at a change t.
    [[nodiscard]] double at(double t) const { return by_share ? as_read * std::exp(t) : as_read + t; }
    /// Derivative of x by t.
    [[nodiscard]] double slope(double t) const { return by_share ? at(t) : 1; }
};

namespace kernel {

/// Narrows the limits of an input to what the range of one leaf, `low` to `high`, allows.
inline void narrow(read_input& input, double leaf, double factor, double low, double high) {
    if (factor == 0) { return; }
    double from = input.as_read + (low - leaf) / factor, to = input.as_read + (high - leaf) / factor;
    if (factor < 0) { std::swap(from, to); }
    if (input.by_share) {
        from = from > 0 ? std::log(from / input.as_read) : -std::numeric_limits<double>::infinity();
        to = std::log(to / input.as_read);
    } else {
        from -= input.as_read;
        to -= input.as_read;
    }
    input.least = std::max(input.least, std::min(from, 0.0));
    input.most = std::min(input.most, std::max(to, 0.0));
}

} // namespace kernel

/// The inputs of an instrument that doubts are stated for.
/// @throws invalid_input for a doubt that is not more than 0, or that moves no number of the instrument
template <class = when_used>
[[nodiscard]] std::vector<read_input> read_inputs_of(const read_instrument& model, std::span<const doubt> doubts) {
    std::vector<read_input> inputs;
    for (const doubt& d : doubts) {
        const std::string named = messages::joined({"doubt of ", d.name});
        if (!(0 < d.standard.si())) {
            messages::refuse(named, d.standard.is_number() ? to_text(d.standard) : messages::joined({"not a number"}),
                             "must be more than 0: leave out what is exact");
        }
        kernel::require_uncertainty(d);
        require_that(!d.moves.empty(), named, "must move at least one number of the instrument");
        read_input input;
        input.name = d.name;
        input.by_share = true;
        input.moves = d.moves;
        for (const moved_leaf& m : d.moves) {
            kernel::require_factor(m);
            const auto usual = usual_doubt_of(m.path);
            input.by_share = input.by_share && usual && usual->by_share && m.factor > 0;
        }
        inputs.push_back(std::move(input));
    }
    std::vector<std::vector<bool>> there(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) { there[i].resize(inputs[i].moves.size()); }
    const auto each_move = [&](auto&& visit) {
        for_each_leaf(model, [&](std::string_view path, const auto& leaf, const allowed_range* range) {
            for (std::size_t i = 0; i < inputs.size(); ++i) {
                for (std::size_t k = 0; k < inputs[i].moves.size(); ++k) {
                    if (inputs[i].moves[k].path == path) { visit(i, k, number_of(leaf), kind_name_of(leaf), range); }
                }
            }
        });
    };
    each_move([&](std::size_t i, std::size_t k, double value, kind_name kind, const allowed_range*) {
        there[i][k] = true;
        kernel::require_kind(doubts[i], inputs[i].moves[k], kind);
        const double factor = inputs[i].moves[k].factor;
        if (k > 0) { return; }
        inputs[i].as_read = factor != 0 ? value / factor : value;
        inputs[i].kind = kind;
    });
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        read_input& input = inputs[i];
        for (std::size_t k = 0; k < input.moves.size(); ++k) {
            require_that(there[i][k], input.moves[k].path,
                         "must be the path of a number of the instrument or its readings");
        }
        input.by_share = input.by_share && input.as_read > 0;
        input.standard = input.by_share ? doubts[i].standard.si() / input.as_read : doubts[i].standard.si();
    }
    each_move([&](std::size_t i, std::size_t k, double value, kind_name, const allowed_range* range) {
        const auto limit = [](long double v) { return static_cast<double>(v); };
        const double factor = inputs[i].moves[k].factor;
        if (range) {
            const long double low = range->low_open && range->low == 0 ? range->least : range->low;
            kernel::narrow(inputs[i], value, factor, limit(low), limit(range->high));
        }
        const auto& rod = model.at_pitch.instrument.neck.rod;
        if (inputs[i].moves[k].path == "neck.rod_pull" && rod && !rod->two_way()) {
            kernel::narrow(inputs[i], value, factor, 0, std::numeric_limits<double>::infinity()); // a single rod only
                                                                                                  // pulls
        }
    });
    return inputs;
}
TAUTLINE_HELD(std::vector<read_input> read_inputs_of<>(const read_instrument&, std::span<const doubt>))

} // namespace tautline
