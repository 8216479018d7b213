#pragma once
/// @file
/// What intonation needs to know of a string: its mass, its resistance to stretch and to bending, and how its ends hold
/// it.
///
/// Source: stiff string as in H. Fletcher, J. Acoust. Soc. Am. 36(1), 203 (1964), for hinged ends. To the second order:
/// Morse's clamped string, and the string clamped at one end of M. B. Anderson and R. G. Beausoleil, J. Acoust. Soc. Am.
/// 156(1), 683 (2024). Beyond that order: the phase of each end (strings/end_phase.hpp) and its expansion, derived here.

#include <limits>
#include <numbers>

#include "../core/describe.hpp"
#include "../core/local_slopes.hpp"
#include "../core/units.hpp"
#include "../strings/end_phase.hpp"

namespace tautline {

/// A string as it sounds.
///
/// How firmly an end clamps the string is calibrated, not known: 0 is hinged, 1/2 runs on over an edge, 1 is clamped. The
/// sum of both ends moves a plain string's setback by millimetres.
template <class R = double>
struct basic_sounding_string {
    using real = R;
    needed<linear_density<R>> mass_per_length;      ///< at pitch
    needed<frequency<R>> open_pitch;                ///< what the open string is tuned to
    needed<force<R>> axial_stiffness;               ///< E A of the core: tension for each unit of strain
    needed<flexural_rigidity<R>> bending_stiffness; ///< E I of the core, at least 0
    R nut_end = number<R>(0.5L);                    ///< end factor at the nut
    R fret_end = number<R>(0.5L);                   ///< end factor at a fret
    R saddle_end = number<R>(0.5L);                 ///< end factor at the saddle
    /// Length of string beyond nut and saddle that stretches along with the speaking length; 0 where friction holds it.
    field<length<R>> shared_afterlength = length<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("mass_per_length", between(0.001 * units::g_per_m, 1000 * units::g_per_m), self.mass_per_length...);
        visit("open_pitch", between(1 * units::Hz, 20000 * units::Hz), self.open_pitch...);
        visit("axial_stiffness", between(1e-6 * units::N, 1e8 * units::N), self.axial_stiffness...);
        visit("bending_stiffness", between(0 * units::N_m2, 100 * units::N_m2), self.bending_stiffness...);
        visit("nut_end", between(0.0, 1.0).fair_default("half way from hinged to clamped"), self.nut_end...);
        visit("fret_end", between(0.0, 1.0).fair_default("half way from hinged to clamped"), self.fret_end...);
        visit("saddle_end", between(0.0, 1.0).fair_default("half way from hinged to clamped"), self.saddle_end...);
        visit("shared_afterlength",
              between(0 * units::mm, 5000 * units::mm).fair_default("the string holds at nut and saddle"),
              self.shared_afterlength...);
    }
};
using sounding_string = basic_sounding_string<double>;

namespace kernel {

/// How two ends hold a string: the coefficients of the powers of e in `stiffness_series`.
template <class R>
struct held_ends {
    R first{}, second{};              ///< end factors, 0 to 1
    R by_1{}, by_2{}, by_3{}, by_4{}; ///< coefficients of e, e^2, e^3, e^4

    /// The same in another number type.
    template <class D>
    [[nodiscard]] held_ends<D> as() const {
        return {D(first), D(second), D(by_1), D(by_2), D(by_3), D(by_4)};
    }
};

/// `times` pi squared as a Real: one constant. A product of Reals would carry derivatives that are all zero.
template <class R>
[[nodiscard]] constexpr R pi_squared(long double times = 1) {
    return number<R>(times * std::numbers::pi_v<long double> * std::numbers::pi_v<long double>);
}

/// To the third order the phases of both ends add up to `k x + c x^3` with `k = k_1 + k_2`, `c = 3k/2 - beta` and `beta =
/// sum(2 k_i - 3 k_i^2/2 + k_i^3/3)`; here beta is written with k and `k_1 k_2`. Put repeatedly into `a = pi + psi_1 +
/// psi_2` they give the series of `a sqrt(1 + (a e)^2)/pi`.
template <class R>
[[nodiscard]] held_ends<R> held_by(const R& first, const R& second) {
    const R k = first + second, k2 = k * k, half = number<R>(0.5L), three = number<R>(3);
    const R c = k * (number<R>(1.5L) * k - half - number<R>(1 / 3.0L) * k2) - first * second * (three - k);
    const R by_3 = k * k2 + pi_squared<R>() * c;
    return {first, second, k, k2, by_3, k * (by_3 + pi_squared<R>(3) * (c - k))};
}

/// All that the open string's tension at pitch depends on, except its length. The root of the tension is `limp (1 - share
/// (by_1 + share (by_2 + ...)))`. Here `limp` is the root of a limp string's tension and `share = sqrt(EI)/(L limp)`. The
/// coefficients come from `stiffness_series`, power by power.
template <class R>
struct held_open {
    held_ends<R> ends{};
    R by_2{}, by_3{}, by_4{};
    R limp_per_length{}; ///< `2 f sqrt(mu)`
    R root_bending{};    ///< `sqrt(EI)`

    held_open() = default;
    explicit held_open(const basic_sounding_string<R>& s)
        : ends(held_by<R>(s.nut_end, s.saddle_end)), by_2(ends.by_2 + pi_squared<R>(0.5L)),
          by_3(ends.by_3 + ends.by_1 * by_2), by_4(ends.by_4 - pi_squared<R>(0.125L * pi_squared<long double>()) +
                                                   ends.by_1 * (ends.by_3 + ends.by_3) + by_2 * (ends.by_2 + by_2)),
          limp_per_length(number<R>(2) * s.open_pitch.value() * sqrt(R(s.mass_per_length.value()))),
          root_bending(root_or_zero<R>(s.bending_stiffness.value())) {}

    /// The same in another number type.
    template <class D>
    [[nodiscard]] held_open<D> as() const {
        held_open<D> d;
        d.ends = ends.template as<D>();
        d.by_2 = D(by_2);
        d.by_3 = D(by_3);
        d.by_4 = D(by_4);
        d.limp_per_length = D(limp_per_length);
        d.root_bending = D(root_bending);
        return d;
    }
};

/// The bending share beyond which the phase is used instead of the series. The series is up to 0.007 cents off at this
/// share and 0.017 at 0.03.
template <class R>
[[nodiscard]] R series_limit() {
    return number<R>(0.025L);
}

/// Lowest partial of a stiff string over that of a limp one, with `e = sqrt(EI/T)/L`: `sqrt(1 + pi^2 e^2) + k e + k^2 e^2
/// + (k^3 + pi^2 (3k/2 - beta)) e^3 + k (k^3 + pi^2 (3k - 4 beta)) e^4`. Exact for hinges; for all other ends within
/// 2.2e4 e^4 cents of the phase's value up to e = 0.03.
template <class R>
[[nodiscard]] R stiffness_series(const R& e, const held_ends<R>& ends) {
    const R e2 = e * e;
    return sqrt(R(number<R>(1) + pi_squared<R>() * e2)) +
           e * (ends.by_1 + e * (ends.by_2 + e * (ends.by_3 + e * ends.by_4)));
}

/// The same for any stiffness: within a hundredth of a cent of the exact beam up to e = 0.09, and beyond it as near as
/// the phase is.
template <class R>
[[nodiscard, gnu::always_inline]] inline R stiffness_factor(const R& e, const held_ends<R>& ends) {
    const R factor = stiffness_series(e, ends);
    const auto stiff = series_limit<R>() < e;
    if (!in_any_lane(stiff)) { return factor; }
    return select(stiff, partial_ratio<R>(1, e, ends.first, ends.second), factor);
}

/// Root of the tension at which a stiff string sounds its pitch, by the phase. `root a sqrt(1 + x^2) = pi limp` and `x =
/// a bending/root` leave one equation for x: `bending a^2 sqrt(1 + x^2) = pi limp x`.
/// @param limp root of the tension of a limp string
/// @param bending sqrt(EI)/L
/// @param start the root that the series gives
template <class R>
[[nodiscard, gnu::noinline]] R root_by_phase(const R& limp, const R& bending, const R& start, const held_ends<R>& ends) {
    const R one = number<R>(1), two = number<R>(2), wanted = pi<R>() * limp;
    R x = pi<R>() * bending / start, sounds = one;
    for (int i = 0; i < 6; ++i) {
        const end_phase<R> p = end_phase_of<R>(x, ends.first), q = end_phase_of<R>(x, ends.second);
        const R a = pi<R>() + p.phase + q.phase, stretched = sqrt(R(one + x * x));
        sounds = a * stretched;
        const R slope = bending * a * (two * (p.slope + q.slope) * stretched + a * x / stretched) - wanted;
        x = x - (bending * a * sounds - wanted * x) / slope;
    }
    return wanted / sounds;
}

/// Tension at which a stiff string of a given length sounds its pitch. Newton steps work on the root of the tension, in
/// which the law is almost straight, and start from the series to the fourth order. They end where a step is so short
/// that the next would change nothing: for most strings after the first. Up to the limit of the series three steps reach
/// the last digit. Beyond that limit the phase is used.
template <class R>
[[nodiscard]] force<R> tension_at_pitch(const held_open<R>& held, const length<R>& speaking) {
    const held_ends<R>& ends = held.ends;
    const R limp = held.limp_per_length * speaking.value(), a = held.root_bending / speaking.value();
    const R one = number<R>(1), pa2 = pi_squared<R>() * a * a, share = a / limp;
    R root = limp - a * (ends.by_1 + share * (held.by_2 + share * (held.by_3 + share * held.by_4)));
    for (int i = 0; i < 3; ++i) {
        const R e = a / root, e2 = e * e, third = e * ends.by_3, higher = third + e2 * ends.by_4;
        const R miss = sqrt(R(root * root + pa2)) + a * (ends.by_1 + e * (ends.by_2 + higher)) - limp;
        const R step = miss / (one - e2 * (held.by_2 + higher + higher + (higher - third)));
        root = root - step;
        // The error left is of the order of the step's square, and so are its derivatives: the start was near with them.
        const auto by = value_of(step), from = value_of(root);
        using V = std::remove_cvref_t<decltype(by)>;
        if (in_all_lanes(by * by <= V(std::numeric_limits<scalar_of_t<R>>::epsilon()) * from * from)) { break; }
    }
    const auto stiff = series_limit<R>() * root < a;
    if (in_any_lane(stiff)) { root = select(stiff, root_by_phase<R>(limp, a, root, ends), root); }
    return force<R>::from_value(root * root);
}

/// Frequency of a limp string, and the bending share e of a stiff one, from numbers in SI.
template <class R>
struct limp_string {
    R pitch{}, share{};

    [[gnu::always_inline]] limp_string(const R& length_per_mass, const R& speaking, const R& tension, const R& bending) {
        const R per_length = number<R>(1) / speaking;
        share = root_or_zero<R>(bending / tension) * per_length;
        pitch = sqrt(R(tension * length_per_mass)) * R(number<R>(0.5L) * per_length);
    }
};

/// Frequency of the lowest partial.
/// @param length_per_mass the reciprocal of the mass per length
template <class R>
[[nodiscard, gnu::always_inline]] inline frequency<R>
lowest_partial(const bu::quantity<unit::length_per_mass, R>& length_per_mass, const length<R>& speaking,
               const force<R>& tension, const flexural_rigidity<R>& bending, const held_ends<R>& ends) {
    if constexpr (has_local_slopes<R, 8>) {
        const auto share =
            limp_string(length_per_mass.value().value, speaking.value().value, tension.value().value, bending.value().value)
                .share;
        if (in_all_lanes(share <= series_limit<std::remove_cv_t<decltype(share)>>())) {
            return frequency<R>::from_value(by_local_slopes(
                [](const auto& per_mass, const auto& l, const auto& pull, const auto& rigidity, const auto&... by)
                    __attribute__((always_inline)) {
                        using D = std::remove_cvref_t<decltype(l)>;
                        const limp_string<D> limp(per_mass, l, pull, rigidity);
                        return std::array<D, 1>{limp.pitch * stiffness_series<D>(limp.share, {D(0), D(0), by...})};
                    },
                length_per_mass.value(), speaking.value(), tension.value(), bending.value(), ends.by_1, ends.by_2,
                ends.by_3, ends.by_4)[0]);
        }
    }
    const limp_string<R> limp(length_per_mass.value(), speaking.value(), tension.value(), bending.value());
    return frequency<R>::from_value(limp.pitch * stiffness_factor(limp.share, ends));
}

} // namespace kernel

namespace kernel {

/// Whether a string can sound its open pitch over a speaking length. It cannot where its stiffness would make up a tenth
/// or more of the pull that the pitch needs.
template <class R>
[[nodiscard]] auto can_sound(const basic_sounding_string<R>& s, const length<R>& speaking) {
    const R limp = R(number<R>(2) * speaking.value() * s.open_pitch.value()) * sqrt(R(s.mass_per_length.value()));
    const R stiff = root_or_zero<R>(s.bending_stiffness.value()) / speaking.value();
    return number<R>(10) * stiff <= limp;
}
inline constexpr const char* is_a_bar =
    "must be less: a tenth of the pull that the pitch needs would be the stiffness, and this is a bar, not a string";

} // namespace kernel

/// Checks that a string can sound its open pitch over a speaking length; refuses a string that is too stiff to do so.
template <class R = double>
void require_sounds(const basic_sounding_string<R>& s, param<length<R>> speaking) {
    require_valid(s, "string");
    require("speaking length", speaking, more_than(0 * units::mm));
    require_that(in_all_lanes(kernel::can_sound<R>(s, speaking)), "string.bending_stiffness", kernel::is_a_bar);
}

/// Tension at which the open string, stiffness included, sounds its pitch over a speaking length. Refuses a string that
/// is too stiff to sound it.
template <class R = double>
[[nodiscard]] force<R> tension_at_pitch(const basic_sounding_string<R>& s, param<length<R>> speaking) {
    require_sounds<R>(s, speaking);
    return kernel::tension_at_pitch<R>(kernel::held_open<R>(s), speaking);
}

} // namespace tautline
