#pragma once
/// @file
/// How a pressed string lies from the finger back to the nut: taut over the crests behind the finger, along their upper
/// convex hull.

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <type_traits>

#include "height.hpp"

namespace tautline::kernel {

/// Length in space of a piece of string that goes `dx` along and `dz` up, and `plan` times `dx` in plan.
template <class R>
[[nodiscard, gnu::always_inline]] inline length<R> run_length(const length<R>& dx, const length<R>& dz, const R& plan) {
    const R along = dx.value() * plan;
    return length<R>::from_value(root_or_zero<R>(along * along + dz.value() * dz.value()));
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
    struct corner {
        length<R> x{}, z{};
    };
    /// Its number type without derivatives.
    using plain = std::remove_cvref_t<decltype(value_of(std::declval<const R&>()))>;
    explicit taut_hull(const basic_string_line<R>& s) { corners_[count_++] = {s.nut_x, s.nut_z}; }
    /// Adds a crest beyond all others.
    void add(const length<R>& x, const length<R>& z) {
        const corner c{x, z};
        count_ = seen_from(c);
        shared_ = shared_ && count_ < corners_.size();
        if (!shared_) { return; }
        const auto& before = corners_[count_ - 1];
        rises_[count_] =
            (value_of(z.value()) - value_of(before.z.value())) / (value_of(x.value()) - value_of(before.x.value()));
        corners_[count_++] = c;
    }
    /// Whether all lanes have had the same hull and corners have not run out.
    [[nodiscard]] bool shared() const { return shared_; }
    /// How many corners it has; the first is the nut.
    [[nodiscard]] std::size_t size() const { return count_; }
    /// A corner by its number, from 0.
    [[nodiscard]] const corner& at(std::size_t number) const { return corners_[number]; }
    /// Number of the corner that a finger beyond the last crest sees first, where the hull is shared afterwards.
    [[nodiscard]] std::size_t first_from(const length<R>& x, const length<R>& z) { return seen_from({x, z}) - 1; }
    /// Length from a finger beyond the last crest to the nut; each piece is `plan` times as long in plan as along x.
    /// Returns nothing where lanes differ or corners ran out.
    template <class S>
    [[nodiscard]] std::optional<length<S>> length_from(const length<R>& x, const length<R>& z, const S& plan) {
        const corner finger{x, z};
        const std::size_t first = seen_from(finger);
        if (!shared_) { return std::nullopt; }
        length<S> total{};
        for (std::size_t i = first; i > 0; --i) {
            const corner &a = i == first ? finger : corners_[i], &b = corners_[i - 1];
            total += run_length<S>(over<S>(a.x - b.x), over<S>(a.z - b.z), plan);
        }
        return total;
    }

    /// The most corners that it has room for.
    static constexpr std::size_t most_corners = 24;

private:
    /// How many corners remain without those that a string from `c` passes over.
    [[nodiscard]] std::size_t seen_from(const corner& c) {
        std::size_t n = count_;
        for (; n > 1; --n) {
            const corner& top = corners_[n - 1];
            const plain along = value_of(c.x.value()) - value_of(top.x.value()),
                        up = value_of(c.z.value()) - value_of(top.z.value());
            const auto passed = rises_[n - 1] * along <= up;
            if (!in_any_lane(passed)) { break; }
            if (!in_all_lanes(passed)) {
                shared_ = false;
                break;
            }
        }
        return n;
    }
    std::array<corner, most_corners> corners_;
    std::array<plain, most_corners> rises_; // slope from the corner before to each
    std::size_t count_ = 0;
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
        const auto& before = hull_.at(last - 1);
        along_[last] = along_[last - 1] + run_length<R>(x - before.x, z - before.z, plan_);
    }
    /// Where the string behind a finger goes first, and how long it is from there on.
    struct first_piece {
        length<R> dx{}, dz{}; ///< from the corner that it meets first up to the finger
        length<R> beyond{};   ///< from that corner to the nut
    };
    /// The first piece from a finger beyond the last crest. Nothing where lanes differ or corners ran out.
    [[nodiscard]] std::optional<first_piece> first_from(const length<R>& x, const length<R>& z) {
        const std::size_t number = hull_.first_from(x, z);
        if (!hull_.shared()) { return std::nullopt; }
        const auto& corner = hull_.at(number);
        return first_piece{x - corner.x, z - corner.z, along_[number]};
    }

private:
    R plan_;
    taut_hull<R> hull_;
    std::array<length<R>, taut_hull<R>::most_corners> along_;
};

} // namespace tautline::kernel
