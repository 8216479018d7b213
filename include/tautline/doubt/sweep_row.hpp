#pragma once
/// @file
/// Included by name only; sweep.hpp includes it.
///
/// One worker of a sweep. It finds once the numbers to set in a model and the results to read from a setup. A row then
/// costs only its solve.

#include <algorithm>
#include <array>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "tolerance.hpp"

namespace tautline::kernel {

/// An input of a sweep. It sets the numbers that it moves, or with `offset` adds to them. A number that would then pass
/// an end of its allowed range is reflected there.
struct sweep_input {
    std::string name{};
    kind_name kind{}; ///< kind that the numbers must have; empty for any
    bool offset = false;
    std::vector<moved_leaf> moves{};
};

/// Finds numbers of a setup by path, also inside optionals that are empty now. It fills these optionals, so the setup
/// must be solved again before it is read.
template <class R>
struct result_finder : description::path_walk<result_finder<R>> {
    struct place {
        const R* number = nullptr;
        kind_name kind{};
        /// Optionals that must hold something for the number to exist.
        std::vector<std::pair<const void*, bool (*)(const void*)>> inside{};
    };
    std::span<const std::string> wanted;
    std::vector<place>& found;
    decltype(place::inside) inside{};

    result_finder(std::span<const std::string> paths, std::vector<place>& places) : wanted(paths), found(places) {}
    /// Whether a wanted path is this one or lies below it. So most of a setup is not visited.
    [[nodiscard]] bool enters() const {
        const std::string_view here = this->path;
        return std::any_of(wanted.begin(), wanted.end(), [&](const std::string& w) {
            return w.compare(0, here.size(), here) == 0 &&
                   (here.empty() || w.size() == here.size() || w[here.size()] == '.' || w[here.size()] == '[');
        });
    }
    template <class T>
    void at_leaf(const T& x) {
        for (std::size_t k = 0; k < wanted.size(); ++k) {
            if (wanted[k] == this->path) { found[k] = {&number_of(x), leaf_kind<T>::name, inside}; }
        }
    }
    template <class T>
    void at_optional(T& x) {
        if (!x.has_value()) { x.emplace(); }
        inside.emplace_back(&x, [](const void* o) { return static_cast<const T*>(o)->has_value(); });
        this->visit(*x);
        inside.pop_back();
    }
};

/// Solves rows in a number type, as many at a time as it has lanes.
template <class R>
class row_solver {
public:
    static constexpr std::size_t lanes = lanes_of<R>::count;

    /// @throws invalid_input for an input that names no number, or a number of another kind
    row_solver(const strung_instrument& base, std::span<const sweep_input> inputs, std::span<const std::string> outputs,
               std::size_t stations)
        : model_(over<R>(base)), stations_(stations), inputs_(inputs), outputs_(outputs), targets_(inputs.size()),
          kinds_(inputs.size()) {
        const leaf_places<R> leaves(model_);
        std::vector<ends> ranges;
        for_each_leaf(model_, [&](std::string_view, const auto&, const allowed_range* r) {
            ranges.push_back(r ? ends{static_cast<double>(r->low), static_cast<double>(r->high)} : ends{});
        });
        std::vector<bool> moved(leaves.size());
        for (std::size_t k = 0; k < inputs.size(); ++k) {
            for (const moved_leaf& m : inputs[k].moves) { find_target(leaves, ranges, k, m, moved); }
        }
    }
    [[nodiscard]] kind_name input_kind(std::size_t k) const { return kinds_[k]; }
    [[nodiscard]] bool knows_outputs() const { return !results_.empty() || outputs_.empty(); }
    [[nodiscard]] bool has_output(std::size_t k) const { return results_[k].number != nullptr; }
    [[nodiscard]] kind_name output_kind(std::size_t k) const { return results_.empty() ? kind_name() : results_[k].kind; }

    /// Solves one row in each lane. A row holds its inputs and has room for its results. Returns false and writes nothing
    /// where a row cannot be solved or lanes differ.
    [[nodiscard]] bool solve(std::span<const std::span<double>> rows) {
        try {
            solve_rows(rows);
            return true;
        } catch (const invalid_input&) {
        } catch (const lanes_differ&) {}
        return false;
    }
    /// The same for a single row; tells in `wrong` what is wrong with it.
    [[nodiscard]] bool solve(std::span<const std::span<double>> rows, std::vector<problem>& wrong) {
        try {
            solve_rows(rows);
            return true;
        } catch (const invalid_input& e) { wrong = e.problems(); }
        return false;
    }

private:
    struct target {
        R* number;
        double start, factor;
        bool afresh; ///< the first input that moves a number starts from the model's value, later ones add to it
    };
    /// Ends of the range that a number may have.
    struct ends {
        double low = -std::numeric_limits<double>::infinity(), high = std::numeric_limits<double>::infinity();

        /// A number that was drawn, reflected where it passes an end.
        [[nodiscard]] double within(double v) const {
            if (v < low) { v = low + (low - v); }
            if (v > high) { v = high - (v - high); }
            return std::clamp(v, low, high);
        }
    };
    struct drawn {
        R* number;
        ends range;
    };

    void find_target(const leaf_places<R>& leaves, const std::vector<ends>& ranges, std::size_t k, const moved_leaf& m,
                     std::vector<bool>& moved) {
        const leaf_place<R>* const at = leaves.find(m.path);
        require_that(at != nullptr, m.path, "must be the path of a number of the instrument or its strings");
        kinds_[k] = at->kind;
        targets_[k].push_back({at->number, lanes_of<R>::get(*at->number, 0), m.factor, !moved[at->place]});
        if (inputs_[k].offset && !moved[at->place]) { drawn_.push_back({at->number, ranges[at->place]}); }
        moved[at->place] = true;
        const kind_name asked = inputs_[k].kind;
        require_that(asked.empty() || asked == kinds_[k] || m.converts, m.path,
                     messages::joined({"must be moved by a ", kinds_[k], ", as it is one"}));
        if (!asked.empty()) { kinds_[k] = asked; }
    }

    void solve_rows(std::span<const std::span<double>> rows) {
        for (std::size_t k = 0; k < targets_.size(); ++k) {
            for (const target& t : targets_[k]) {
                for (std::size_t lane = 0; lane < lanes; ++lane) {
                    double v = rows[lane][k] * t.factor;
                    if (inputs_[k].offset) { v += t.afresh ? t.start : lanes_of<R>::get(*t.number, lane); }
                    lanes_of<R>::set(*t.number, lane, v);
                }
            }
        }
        for (const drawn& d : drawn_) {
            for (std::size_t lane = 0; lane < lanes; ++lane) {
                lanes_of<R>::set(*d.number, lane, d.range.within(lanes_of<R>::get(*d.number, lane)));
            }
        }
        tautline::solve(model_, solved_, stations_);
        if (!knows_outputs()) {
            results_.resize(outputs_.size());
            result_finder<R>(outputs_, results_)("", solved_);
            tautline::solve(model_, solved_, stations_);
        }
        for (std::size_t k = 0; k < results_.size(); ++k) {
            bool there = results_[k].number != nullptr;
            for (const auto& [optional, has_value] : results_[k].inside) { there = there && has_value(optional); }
            for (std::size_t lane = 0; lane < lanes; ++lane) {
                rows[lane][inputs_.size() + k] =
                    there ? lanes_of<R>::get(*results_[k].number, lane) : std::numeric_limits<double>::quiet_NaN();
            }
        }
    }

    basic_strung_instrument<R> model_;
    basic_setup<R> solved_;
    std::size_t stations_;
    std::span<const sweep_input> inputs_;
    std::span<const std::string> outputs_;
    std::vector<std::vector<target>> targets_;
    std::vector<drawn> drawn_{};
    std::vector<kind_name> kinds_;
    std::vector<typename result_finder<R>::place> results_{};
};

} // namespace tautline::kernel
