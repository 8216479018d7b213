#pragma once
/// @file
/// How a pressed string lies from the finger back to the nut: taut over the crests behind the finger, along their upper
/// convex hull.

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <type_traits>

#include "../core/local_slopes.hpp"
#include "height.hpp"

namespace tautline::kernel {

/// Length in space of a piece of string that goes `dx` along and `dz` up, and `plan` times `dx` in plan.
template <class R>
[[nodiscard, gnu::always_inline]] inline length<R> run_length(const length<R>& dx, const length<R>& dz, const R& plan) {
    return length<R>::from_value(by_local_slopes(
        [](const auto& x, const auto& z, const auto& in_plan) __attribute__((always_inline)) {
            using D = std::remove_cvref_t<decltype(x)>;
            const D along = x * in_plan;
            return std::array<D, 1>{root_or_zero<D>(along * along + z * z)};
        },
        dx.value(), dz.value(), plan)[0]);
}

/// Length of the string that lies taut from the finger back to the nut over the first `count` crests. It follows their
/// upper convex hull, taken edge by edge along the highest line of sight, in each lane by itself.
template <class S, class R>
[[nodiscard]] length<S> taut_length(const basic_string_line<S>& s, std::span<const length<R>> crest_x,
                                    std::span<const length<R>> crest_z, std::size_t count, length<S> x, length<S> z,
                                    const S& plan) {
    length<S> total{};
    const S one = number<S>(1);
    for (std::size_t edge = 0; edge <= count; ++edge) {
        const auto under_way = is_less<unit::length, S>(s.nut_x, x);
        if (!in_any_lane(under_way)) { break; } // every lane has reached the nut: nothing more to add
        length<S> next_x = s.nut_x, next_z = s.nut_z;
        S highest = select(under_way, S((s.nut_z - z).value()), one) / select(under_way, S((x - s.nut_x).value()), one);
        for (std::size_t i = 0; i < count; ++i) {
            const length<S> cx = over<S>(crest_x[i]), cz = over<S>(crest_z[i]);
            const auto ahead = is_less(cx, x);
            const S sight = (cz - z).value() / select(ahead, S((x - cx).value()), one);
            const auto taken = highest < select(ahead, sight, highest);
            highest = select(taken, sight, highest);
            next_x = select(taken, cx, next_x);
            next_z = select(taken, cz, next_z);
        }
        total += select(under_way, run_length<S>(x - next_x, z - next_z, plan), length<S>{});
        x = select(under_way, next_x, x);
        z = select(under_way, next_z, z);
    }
    return total;
}

/// The upper hull of the nut and of the crests added so far: what a taut string behind a finger can touch. All lanes of a
/// pack must have the same hull. Where they differ, or where the hull has more corners than there is room for,
/// `length_from` returns nothing, and `taut_length` does the work.
template <class R>
class taut_hull {
public:
    /// Its number type without derivatives.
    using plain = std::remove_cvref_t<decltype(value_of(std::declval<const R&>()))>;
    explicit taut_hull(const basic_string_line<R>& s) : nut_x_(s.nut_x), nut_z_(s.nut_z) {
        if constexpr (derivatives_in<R> == 0) { corners_[0] = {nut_x_, nut_z_}; }
    }
    /// Adds a crest beyond all others. A crest with derivatives is not copied: it must outlive the hull.
    void add(const length<R>& x, const length<R>& z) {
        count_ = seen_from(value_of(x.value()), value_of(z.value()));
        shared_ = shared_ && count_ < corners_.size();
        if (!shared_) { return; }
        rises_[count_] = (value_of(z.value()) - value_of(this->z(count_ - 1).value())) /
                         (value_of(x.value()) - value_of(this->x(count_ - 1).value()));
        if constexpr (derivatives_in<R> == 0) {
            corners_[count_++] = {x, z};
        } else {
            corners_[count_++] = {&x, &z};
        }
    }
    /// Whether all lanes have had the same hull and corners have not run out.
    [[nodiscard]] bool shared() const { return shared_; }
    /// How many corners it has; the first is the nut.
    [[nodiscard]] std::size_t size() const { return count_; }
    /// @{
    /// Where a corner is, by its number from 0.
    [[nodiscard]] const length<R>& x(std::size_t number) const {
        if constexpr (derivatives_in<R> == 0) {
            return corners_[number].x;
        } else {
            return number == 0 ? nut_x_ : *corners_[number].x;
        }
    }
    [[nodiscard]] const length<R>& z(std::size_t number) const {
        if constexpr (derivatives_in<R> == 0) {
            return corners_[number].z;
        } else {
            return number == 0 ? nut_z_ : *corners_[number].z;
        }
    }
    /// @}
    /// Number of the corner that a finger beyond the last crest sees first, where the hull is shared afterwards.
    [[nodiscard]] std::size_t first_from(const plain& x, const plain& z) { return seen_from(x, z) - 1; }
    /// Length from a finger beyond the last crest to the nut; each piece is `plan` times as long in plan as along x.
    /// Returns nothing where lanes differ or corners ran out.
    template <class S>
    [[nodiscard]] std::optional<length<S>> length_from(const length<R>& x, const length<R>& z, const S& plan) {
        const std::size_t first = seen_from(value_of(x.value()), value_of(z.value()));
        if (!shared_) { return std::nullopt; }
        length<S> total{};
        for (std::size_t i = first; i > 0; --i) {
            const length<R>&to_x = i == first ? x : this->x(i), &to_z = i == first ? z : this->z(i);
            total += run_length<S>(over<S>(to_x - this->x(i - 1)), over<S>(to_z - this->z(i - 1)), plan);
        }
        return total;
    }

    /// The most corners that it has room for.
    static constexpr std::size_t most_corners = 24;

private:
    struct copied {
        length<R> x, z;
    };
    struct referred_to {
        const length<R>*x, *z;
    };
    /// How many corners remain without those that a string from a place passes over.
    [[nodiscard]] std::size_t seen_from(const plain& x, const plain& z) {
        std::size_t n = count_;
        for (; n > 1; --n) {
            const plain along = x - value_of(this->x(n - 1).value()), up = z - value_of(this->z(n - 1).value());
            const auto passed = rises_[n - 1] * along <= up;
            if (!in_any_lane(passed)) { break; }
            if (!in_all_lanes(passed)) {
                shared_ = false;
                break;
            }
        }
        return n;
    }
    length<R> nut_x_, nut_z_;
    std::array<std::conditional_t<derivatives_in<R> == 0, copied, referred_to>, most_corners> corners_;
    std::array<plain, most_corners> rises_; // slope from the corner before to each
    std::size_t count_ = 1;
    bool shared_ = true;
};

/// The hull of a string that stays where it is, with the length along it from each corner to the nut. So the taut length
/// behind a finger takes one piece however many corners there are.
template <class R>
class measured_hull {
public:
    measured_hull(const basic_string_line<R>& s, const R& plan) : plan_(plan), hull_(s) { along_[0] = length<R>(); }
    void add(const length<R>& x, const length<R>& z) {
        hull_.add(x, z);
        if (!hull_.shared()) { return; }
        const std::size_t last = hull_.size() - 1;
        along_[last] = along_[last - 1] + run_length<R>(x - hull_.x(last - 1), z - hull_.z(last - 1), plan_);
    }
    /// Where the string behind a finger goes first, and how long it is from there on.
    struct first_piece {
        length<R> dx{}, dz{}; ///< from the corner that it meets first up to the finger
        length<R> beyond{};   ///< from that corner to the nut
    };
    /// The first piece from a finger beyond the last crest. Nothing where lanes differ or corners ran out.
    [[nodiscard]] std::optional<first_piece> first_from(const length<R>& x, const length<R>& z) {
        const auto number = hull_.first_from(value_of(x.value()), value_of(z.value()));
        if (!hull_.shared()) { return std::nullopt; }
        return first_piece{x - hull_.x(number), z - hull_.z(number), along_[number]};
    }
    /// The hull itself.
    [[nodiscard]] taut_hull<R>& hull() { return hull_; }
    /// Length from a corner to the nut.
    [[nodiscard]] const length<R>& along(std::size_t number) const { return along_[number]; }

private:
    R plan_;
    taut_hull<R> hull_;
    std::array<length<R>, taut_hull<R>::most_corners> along_;
};

} // namespace tautline::kernel
