#pragma once
/// @file
/// What a repairer should be told about a setup: data that programs filter and sheets print.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "../core/interval.hpp"
#include "../core/invalid_input.hpp"

namespace tautline {

/// What was found.
enum class finding_kind {
    core_near_strength,     ///< core stress close to the wire's least strength
    core_over_strength,     ///< core stress at or over the wire's least strength
    strength_unknown,       ///< no strength is known for a core's material
    lifts_off_nut,          ///< nothing presses the string into its slot
    lifts_off_saddle,       ///< nothing presses the string onto the saddle
    open_string_touches,    ///< the open string lies on a fret
    pressed_string_touches, ///< pressed at a fret, the string lies on a later one
    back_bow,               ///< the neck stands back from the strings under load
    string_off_board,       ///< the string runs beyond the edge of the board
    bridge_tips,            ///< the pull on a floating bridge falls outside its feet
    bridge_slides,          ///< a floating bridge's feet need more friction than they have at least
    listed_treble_first,    ///< all along the set each string sounds lower than the one before
    re_entrant_tuning,      ///< a string stands on the bass side of one that sounds lower
    gauges_against_notes,   ///< the thicker strings are those that sound higher, all along the set
    strings_cross,          ///< two strings cross between nut and posts
};

/// How much it matters.
enum class severity {
    note,    ///< worth knowing
    warning, ///< will be heard or felt, or shortens a part's life
    stop,    ///< do not string it up like this
};

/// The number a finding is about, in its kind; or none.
class finding_value {
public:
    constexpr finding_value() = default;
    /// A plain number.
    constexpr finding_value(double number) : kind_("number"), value_(number) {}
    /// A quantity.
    template <class U>
    constexpr finding_value(const bu::quantity<U, double>& q) : kind_(tautline::kind<U>::name), value_(q.value()) {}
    /// An interval.
    constexpr finding_value(const interval<double>& i) : kind_("interval"), value_(i.cents()) {}

    /// Whether there is a number.
    [[nodiscard]] constexpr bool has_value() const { return !kind_.empty(); }
    /// "length", "force", "interval", ...; "number" for a plain one; empty where there is none.
    [[nodiscard]] constexpr std::string_view kind() const { return kind_; }
    /// In SI, of an interval in cents.
    [[nodiscard]] constexpr double si() const { return value_; }
    /// As a quantity of its kind, `as<length<>>()`; another kind is refused with `invalid_input`.
    template <class Q>
    [[nodiscard]] constexpr Q as() const {
        require_that(kind_ == finding_value(Q()).kind_, "kind of the number", "must be the one asked for");
        if constexpr (std::is_same_v<Q, double>) {
            return value_;
        } else if constexpr (std::is_same_v<Q, interval<double>>) {
            return Q::from_cents(value_);
        } else {
            return Q::from_value(value_);
        }
    }

private:
    std::string_view kind_{};
    double value_ = 0;
};

/// One finding. Its sentence names the string as the trade does (`string_names`), counted from the treble.
struct finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how bad it is
    /// Place of its string in the instrument's list, from 0, as in `strings[0]`; absent where it is not about one string.
    std::optional<std::size_t> string_index{};
    std::optional<int> fret{}; ///< from 1; absent where it is not about one fret
    finding_value number{};    ///< what was found
    finding_value limit{};     ///< what it was held against
    std::string sentence{};    ///< for the repairer
};

/// Whether any finding says that the setup must not be strung up as it is.
[[nodiscard]] inline bool any_stop(const std::vector<finding>& findings) {
    for (const finding& f : findings) {
        if (f.severity == severity::stop) { return true; }
    }
    return false;
}

} // namespace tautline
