#pragma once
/// @file
/// The moduli of a neck's woods, found from the relief that a straightedge read with the strings slack and at pitch.

#include <array>
#include <limits>

#include "../core/root.hpp"
#include "relief_case.hpp"

namespace tautline {

/// A factor found from a measurement, and its uncertainty.
template <class R = double>
struct basic_calibration {
    using real = R;
    /// Whether a factor explains the measurement. None does in three cases: the woods would have to be more than twenty
    /// times as stiff or ten times as soft; the neck would buckle; the relief jumps past the measured value, from a
    /// back-bow at one crest to an equally large hollow at another.
    bool reachable = false;
    bool unique = true;    ///< false where another factor explains it too, as when the rod acts as strongly as the strings
    R factor = R(1);       ///< multiplies the moduli of board and back; of several the one nearest to 1
    R uncertainty{};       ///< standard uncertainty of the factor
    length<R> predicted{}; ///< change of relief of the calibrated neck: the measured one, or the nearest
    basic_neck<R> neck;    ///< the neck with its moduli multiplied by the factor
};
using calibration = basic_calibration<double>;

namespace kernel {

template <class R>
[[nodiscard]] basic_neck<R> with_moduli_times(basic_neck<R> n, const R& factor) {
    n.board_modulus = n.board_modulus * factor;
    n.back_modulus = n.back_modulus * factor;
    return n;
}

/// The gaps under a straightedge with the strings slack and at pitch.
template <class R>
struct slack_and_strung {
    gap_range<R> slack{};
    gap_range<R> strung{};

    [[nodiscard]] length<R> change() const { return strung.relief() - slack.relief(); }
};

/// One way to read both states: each as hollow or as back-bow. Strings make every gap larger, so no neck is read as
/// hollow when slack and as back-bowed when strung.
struct relief_reading {
    bool slack_hollow = false, strung_hollow = false;

    /// The change of relief when both are read in this way. It never jumps, unlike the relief itself.
    template <class R>
    [[nodiscard]] length<R> change(const slack_and_strung<R>& gaps) const {
        return (strung_hollow ? gaps.strung.hollow : gaps.strung.back) -
               (slack_hollow ? gaps.slack.hollow : gaps.slack.back);
    }
    /// 0 or more where slack and strung may be read in this way somewhere between one neck and another.
    template <class R>
    [[nodiscard]] R may_be_read(const slack_and_strung<R>& one, const slack_and_strung<R>& other) const {
        const auto by = [](bool hollow, const gap_range<R>& a, const gap_range<R>& b) {
            const R x = a.lean().value(), y = b.lean().value();
            return hollow ? max(x, y) : max(R(-x), R(-y));
        };
        return R(min(by(slack_hollow, one.slack, other.slack), by(strung_hollow, one.strung, other.strung)) +
                 hair<R>().value());
    }
};
inline constexpr std::array<relief_reading, 3> ways_to_read{{{true, true}, {false, true}, {false, false}}};

/// A neck as a function of the softness of its woods.
template <class R>
struct softening {
    basic_neck<R> neck;
    basic_relief_case<R> c;
    force<R> rod_pull;
    std::size_t stations;

    [[nodiscard]] slack_and_strung<R> at(const R& softer) const {
        basic_neck_beam<R> beam;
        kernel::make_beam(with_moduli_times<R>(neck, R(number<R>(1) / softer)), stations, beam);
        return {gaps_under<R>(beam, c, number<R>(0), rod_pull), gaps_under<R>(beam, c, number<R>(1), rod_pull)};
    }
};

/// A search for the softness that explains a change of relief; of several it takes the one nearest to 1.
template <class R>
class softness_search {
public:
    softness_search(const softening<R>& soft, const length<R>& change, const R& hardest, const R& softest)
        : soft_(soft), soft_d_{over<D>(soft.neck), over<D>(soft.c), over<D>(soft.rod_pull), soft.stations},
          change_(change) {
        constexpr std::size_t neighbours = 33;
        const R octaves = log2(R(softest / hardest));
        for (std::size_t i = 0; i < neighbours; ++i) {
            const R s = hardest * exp2(R(octaves * number<R>(static_cast<long double>(i) / (neighbours - 1))));
            row_.push_back({s, soft_.at(s)});
        }
        for (const relief_reading& read : ways_to_read) {
            for (std::size_t i = 1; i < row_.size(); ++i) {
                look_between(read, row_[i - 1], row_[i]);
                if (i + 1 < row_.size()) { look_into_valley(read, row_[i - 1], row_[i], row_[i + 1]); }
            }
        }
        if (!explained()) { look_for_nearest(); }
    }
    [[nodiscard]] bool explained() const { return in_all_lanes(off_ < unreached()); }
    [[nodiscard]] bool unique() const { return unique_; }
    /// The softness that explains the change, or comes nearest.
    [[nodiscard]] const R& softer() const { return best_; }
    /// Change of relief at that softness, with its slope.
    [[nodiscard]] dual<R, 1> change_there() const { return soft_d_.at(D::variable(best_, 0)).change().value(); }

private:
    using D = dual<R, 1>;
    struct place {
        R softer{};
        slack_and_strung<R> gaps{};
    };
    [[nodiscard]] static R unreached() { return number<R>(std::numeric_limits<float>::max()); }
    [[nodiscard]] R miss(const relief_reading& read, const place& p) const {
        return R((read.change(p.gaps) - change_).value());
    }

    /// Takes the softness that explains the change between two places whose changes lie on both sides of the measured
    /// one.
    void look_between(const relief_reading& read, const place& low, const place& high) {
        const R zero = number<R>(0);
        const auto crosses = R(miss(read, low) * miss(read, high)) <= zero && zero <= read.may_be_read(low.gaps, high.gaps);
        if (!in_any_lane(crosses)) { return; }
        const R s = find_root([&](const D& d) { return D((read.change(soft_d_.at(d)) - over<D>(change_)).value()); },
                              low.softer, high.softer);
        const auto there = soft_.at(s);
        const auto explains = crosses && zero <= read.may_be_read(there, there);
        const R distance = abs(R(log(s)));
        if (in_any_lane(explains && off_ < unreached() && number<R>(1e-6L) * s < abs(R(s - best_)))) { unique_ = false; }
        const auto better = explains && distance < off_;
        best_ = select(better, s, best_);
        off_ = select(better, distance, off_);
    }
    /// The same where the change has a turning point between two places on one side of the measured one.
    void look_into_valley(const relief_reading& read, const place& left, const place& middle, const place& right) {
        const R zero = number<R>(0), third = number<R>(1 / 3.0L);
        const R side = select(miss(read, middle) < zero, number<R>(-1), number<R>(1));
        const auto height = [&](const place& p) { return R(miss(read, p) * side); };
        const R met = height(middle);
        const auto turns =
            zero < met && met < min(height(left), height(right)) && zero <= read.may_be_read(left.gaps, right.gaps);
        if (!in_any_lane(turns)) { return; }
        R low = left.softer, high = right.softer;
        place bottom = middle;
        for (int i = 0; i < 30 && in_any_lane(turns && zero < height(bottom)); ++i) {
            const R a = low + (high - low) * third, b = high - (high - low) * third;
            const auto falls = height({b, soft_.at(b)}) < height({a, soft_.at(a)});
            low = select(falls, a, low);
            high = select(falls, high, b);
            bottom.softer = number<R>(0.5L) * (low + high);
            bottom.gaps = soft_.at(bottom.softer);
        }
        look_between(read, left, bottom);
        look_between(read, bottom, right);
    }
    /// Where nothing explains the change, takes the softness that comes nearest: an end of the row, or one side of a
    /// jump.
    void look_for_nearest() {
        R nearest = row_.front().softer, missed = unreached();
        const auto look_at = [&](const R& s) {
            const R off = abs(R((soft_.at(s).change() - change_).value()));
            const auto nearer = off < missed;
            nearest = select(nearer, s, nearest);
            missed = select(nearer, off, missed);
        };
        look_at(row_.front().softer);
        look_at(row_.back().softer);
        for (std::size_t i = 1; i < row_.size(); ++i) {
            for (const auto one : {&slack_and_strung<R>::slack, &slack_and_strung<R>::strung}) {
                const R before = (row_[i - 1].gaps.*one).lean().value(), after = (row_[i].gaps.*one).lean().value();
                if (!in_any_lane(R(before * after) < number<R>(0))) { continue; }
                const bool strung = one == &slack_and_strung<R>::strung;
                const R jump = find_root(
                    [&](const D& d) {
                        const auto gaps = soft_d_.at(d);
                        return D((strung ? gaps.strung : gaps.slack).lean().value());
                    },
                    row_[i - 1].softer, row_[i].softer);
                look_at(R(jump * number<R>(1 - 1e-9L)));
                look_at(R(jump * number<R>(1 + 1e-9L)));
            }
        }
        best_ = select(off_ < unreached(), best_, nearest);
    }

    softening<R> soft_;
    softening<D> soft_d_;
    length<R> change_;
    std::vector<place> row_;
    R best_ = number<R>(1), off_ = unreached(); ///< the best softness that explains it, and how far it lies from 1
    bool unique_ = true;
};

} // namespace kernel

/// The factor on the moduli of board and back that explains a measured change of relief from slack to pitch. It fits
/// the model to the instrument in hand. Relief is the signed gap of `relief_between`, both times.
///
/// The change is always an increase. Strings pull above the neutral axis, which makes each signed gap under the
/// straightedge larger, and the relief with it. As wood gets softer, the relief may jump where the back-bow at one
/// crest is as large as the hollow at another. So the search follows each way of reading on its own, which does not
/// jump, between 32 neighbouring places. It takes a result only where the neck is read in that way.
///
/// @param change      relief with the strings at pitch less relief with them slack, more than 0
/// @param uncertainty standard uncertainty of that change, at least 0
/// @param rod_pull    pull of the rod, the same both times; it must be one that the neck's rod can have, else
///                    `invalid_input`
template <class R = double>
[[nodiscard]] basic_calibration<R> calibrate_moduli(const basic_neck<R>& n, const basic_relief_case<R>& c,
                                                    param<length<R>> change, param<length<R>> uncertainty,
                                                    param<force<R>> rod_pull = force<R>(), std::size_t stations = 65) {
    require_valid(c, "case");
    require("change", change, more_than_up_to(0 * units::mm, 50 * units::mm));
    require("uncertainty", uncertainty, between(0 * units::mm, 50 * units::mm));
    require_that(!c.strings.empty(), "case.strings", "must be those that change the relief");
    // Softer wood acts as heavier strings do, so a neck that withstands the one withstands the other.
    const auto beam = make_beam(n, stations);
    (void)kernel::checked_problem<R>(beam, c.strings, rod_pull);
    const R softest = kernel::bearable_share(beam, c, force<R>(rod_pull), kernel::rod_load::grows);
    const R hardest = min(number<R>(0.05L), R(number<R>(0.5L) * softest));
    const kernel::softness_search<R> search({n, c, rod_pull, stations}, change, hardest, softest);
    basic_calibration<R> found;
    found.reachable = search.explained();
    found.unique = search.unique();
    found.factor = number<R>(1) / search.softer();
    const auto at = search.change_there();
    // d(factor)/d(change) = -factor^2 / (d(change)/d(softness)).
    found.uncertainty = found.factor * found.factor * uncertainty.value() / abs(at.partial[0]);
    found.predicted = length<R>::from_value(at.value);
    found.neck = kernel::with_moduli_times<R>(n, found.factor);
    return found;
}

} // namespace tautline
