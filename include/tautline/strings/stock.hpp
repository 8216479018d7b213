#pragma once
/// @file
/// Choosing strings from a stock: the string nearest to a wanted pull, a set with a wanted balance, and the pull of a
/// set.

#include <span>
#include <vector>

#include "choice.hpp"

namespace tautline {

/// A string that was chosen from a stock, and how far its pull is off.
template <class R = double>
struct basic_chosen_string {
    /// Its place in the stock.
    std::size_t index = 0;
    force<R> wanted{}; ///< the pull wanted at this place
    force<R> pull{};   ///< the pull of the chosen string
    /// Core stress over least strength; nothing when the strength is unknown. Above 1 the string is expected to break.
    std::optional<R> share{};

    /// Error of choosing from the stock: the pull less the wanted one.
    [[nodiscard]] constexpr force<R> off() const { return pull - wanted; }
};
using chosen_string = basic_chosen_string<double>;

/// The string of a stock whose pull at a pitch and speaking length is nearest by ratio to a wanted one. The stock must
/// hold at least one string, and all quantities must be > 0, else `invalid_input`.
template <class R>
[[nodiscard]] basic_chosen_string<R> nearest_in_stock(const std::vector<basic_music_string<R>>& stock,
                                                      param<force<R>> wanted, param<length<R>> speaking_length,
                                                      param<frequency<R>> pitch) {
    require_that(!stock.empty(), "stock", "must have at least one string to choose from");
    require("wanted tension", wanted, more_than(0 * units::N));
    basic_chosen_string<R> best{};
    R least{};
    for (std::size_t i = 0; i < stock.size(); ++i) {
        const force<R> pull = tension<R>(stock[i], speaking_length, pitch);
        const R distance = tautline::abs<R>(log2(ratio<unit::force, R>(pull, wanted)));
        if (i == 0 || in_all_lanes(distance < least)) {
            least = distance;
            best = {i, wanted, pull, std::nullopt};
        }
    }
    best.share = share_of_strength<R>(stock[best.index], best.pull);
    return best;
}

/// A place for a string: the pitch it sounds and its speaking length.
template <class R = double>
struct basic_string_place {
    using real = R;
    needed<length<R>> speaking_length; ///< from nut to saddle
    needed<frequency<R>> pitch;        ///< that it is tuned to

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("speaking_length", between(1 * units::mm, 5000 * units::mm), self.speaking_length...);
        visit("pitch", between(1 * units::Hz, 20000 * units::Hz), self.pitch...);
    }
};
using string_place = basic_string_place<double>;

/// A total pull shared among the strings in proportion to `weights`, one for each string. Equal weights give even
/// tension. At least one weight, all > 0, and total > 0, else `invalid_input`.
template <class R>
[[nodiscard]] std::vector<force<R>> shared_pull(const force<R>& total, const std::vector<R>& weights) {
    require("total pull", total, more_than(0 * units::N));
    require_that(!weights.empty(), "weights", "must have one for each string");
    R sum{};
    for (const R& w : weights) {
        require("weight", w, more_than(0));
        sum += w;
    }
    std::vector<force<R>> pulls;
    for (const R& w : weights) { pulls.push_back(total * R(w / sum)); }
    return pulls;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given, class R>
requires(!a_force<Given>) messages::wanted_are<messages::FORCE> shared_pull(Given, const std::vector<R>&)
TAUTLINE_REFUSED("wanted is a FORCE first: shared_pull(420*N, std::vector{1.0, 1.2})");

/// A total pull shared for an even feel: every string is as stiff sideways at the same share of its length. So the
/// pulls are in proportion to the speaking lengths. On a single scale that is even tension, on a fan it is not.
template <class R>
[[nodiscard]] std::vector<force<R>> even_feel(const force<R>& total, const std::vector<basic_string_place<R>>& places) {
    std::vector<R> weights;
    for (std::size_t i = 0; i < places.size(); ++i) {
        require_valid(places[i], messages::path_of("places", i));
        weights.push_back(places[i].speaking_length.value());
    }
    return shared_pull<R>(total, weights);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given, class R>
requires(!a_force<Given>) messages::wanted_are<messages::FORCE> even_feel(Given, const std::vector<basic_string_place<R>>&)
TAUTLINE_REFUSED("wanted is a FORCE first: even_feel(420*N, std::vector<string_place>())");

/// The nearest string of a stock for each place, as `nearest_in_stock` finds it. Give one wanted pull for each place;
/// all must be valid, else `invalid_input`.
template <class R>
[[nodiscard]] std::vector<basic_chosen_string<R>> choose_set(const std::vector<basic_music_string<R>>& stock,
                                                             const std::vector<basic_string_place<R>>& places,
                                                             const std::vector<force<R>>& wanted) {
    require_that(places.size() == wanted.size(), "wanted pulls", "must be one for each string");
    require_that(!places.empty(), "places", "must have at least one string");
    std::vector<basic_chosen_string<R>> chosen;
    for (std::size_t i = 0; i < places.size(); ++i) {
        require_valid(places[i], messages::path_of("places", i));
        chosen.push_back(nearest_in_stock<R>(stock, wanted[i], places[i].speaking_length, places[i].pitch));
    }
    return chosen;
}

/// The pull of a string set, in total and on each side of the neck.
template <class R = double>
struct basic_string_set_pull {
    force<R> total{}; ///< of all strings
    /// Pull of the first half of the strings. A middle string counts half to each side.
    force<R> bass{};
    /// Pull of the second half.
    force<R> treble{};
};
using string_set_pull = basic_string_set_pull<double>;

/// The pull of a set from the pulls of its strings, bass side first. Each >= 0, else `invalid_input`.
template <class R>
[[nodiscard]] basic_string_set_pull<R> pull_of_string_set(const std::vector<force<R>>& pulls) {
    basic_string_set_pull<R> sum{};
    for (std::size_t i = 0; i < pulls.size(); ++i) {
        require("pull", pulls[i], at_least(0 * units::N));
        const std::size_t twice = 2 * i + 1;
        const long double bass = twice < pulls.size() ? 1 : twice == pulls.size() ? 0.5L : 0;
        sum.total += pulls[i];
        sum.bass += pulls[i] * number<R>(bass);
        sum.treble += pulls[i] * number<R>(1 - bass);
    }
    return sum;
}

} // namespace tautline
