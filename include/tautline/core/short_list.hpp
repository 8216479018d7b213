#pragma once
/// @file
/// A list with a small fixed capacity that lives inside its owner: no allocation, usable in constant expressions.

#include <array>
#include <cstddef>
#include <initializer_list>
#include <stdexcept>

namespace tautline {

/// A list of at most `Capacity` values in order. One value too many throws `std::length_error`.
template <class T, std::size_t Capacity>
class short_list {
public:
    /// The type of its values.
    using value_type = T;
    constexpr short_list() = default;
    /// From at most Capacity values; more throw `std::length_error`.
    constexpr short_list(std::initializer_list<T> values) {
        for (const T& v : values) { push_back(v); }
    }
    /// Adds a value at the end; throws `std::length_error` when the list is full.
    constexpr void push_back(const T& v) {
        if (size_ == Capacity) { throw std::length_error("short_list: no room for one more"); }
        items_[size_++] = v;
    }
    /// Sets the number of values: cuts off, or fills up with default values. Throws `std::length_error` beyond the
    /// capacity.
    constexpr void resize(std::size_t n) {
        if (n > Capacity) { throw std::length_error("short_list: no room for so many"); }
        for (std::size_t i = n; i < size_; ++i) { items_[i] = T(); }
        size_ = n;
    }
    /// Removes all values.
    constexpr void clear() { resize(0); }
    /// How many values it can hold.
    [[nodiscard]] static constexpr std::size_t capacity() { return Capacity; }
    /// How many values it holds.
    [[nodiscard]] constexpr std::size_t size() const { return size_; }
    /// Whether it holds no value.
    [[nodiscard]] constexpr bool empty() const { return size_ == 0; }
    /// @{
    /// Access to its values as of a vector; places are not checked.
    [[nodiscard]] constexpr T& operator[](std::size_t i) { return items_[i]; }
    [[nodiscard]] constexpr const T& operator[](std::size_t i) const { return items_[i]; }
    [[nodiscard]] constexpr const T& back() const { return items_[size_ - 1]; }
    [[nodiscard]] constexpr auto begin() { return items_.begin(); }
    [[nodiscard]] constexpr auto end() { return items_.begin() + static_cast<std::ptrdiff_t>(size_); }
    [[nodiscard]] constexpr auto begin() const { return items_.begin(); }
    [[nodiscard]] constexpr auto end() const { return items_.begin() + static_cast<std::ptrdiff_t>(size_); }
    /// @}

private:
    std::array<T, Capacity> items_ = std::array<T, Capacity>();
    std::size_t size_ = 0;
};

} // namespace tautline
