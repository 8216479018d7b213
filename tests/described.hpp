#pragma once
/// @file
/// Whether a description lists every member: what it visits must fill the object but for the compiler's padding.
///
/// A member that is left out is never checked, never carried to another number type and never read from a job file, in
/// silence. What hides in padding (a bool before a quantity of doubles) is mostly seen over floats, so both are looked at.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <tautline/core/describe.hpp>

namespace described {

/// Where a member lies in its object, in bytes.
struct place {
    std::string name;
    std::size_t from, to, alignment;
};

/// Where members are missing from the description of T: "after width".
template <class T>
std::vector<std::string> gaps_of() {
    const T x{};
    std::vector<place> places;
    T::describe(
        [&](std::string_view name, const auto&... range_and_member) {
            const auto note = [&](const auto& member) {
                const auto from =
                    static_cast<std::size_t>(reinterpret_cast<const char*>(&member) - reinterpret_cast<const char*>(&x));
                places.push_back({std::string(name), from, from + sizeof member, alignof(decltype(member))});
            };
            const auto last = [&](const auto&, const auto& member) { note(member); };
            if constexpr (sizeof...(range_and_member) == 2) {
                last(range_and_member...);
            } else {
                note(range_and_member...);
            }
        },
        x);
    std::sort(places.begin(), places.end(), [](const place& a, const place& b) { return a.from < b.from; });
    places.push_back({"", sizeof(T), sizeof(T), alignof(T)});
    std::vector<std::string> missing;
    std::size_t end = 0;
    std::string before = "its begin";
    for (const place& p : places) {
        if ((end + p.alignment - 1) / p.alignment * p.alignment != p.from) { missing.push_back("after " + before); }
        end = p.to;
        before = p.name;
    }
    return missing;
}

/// Members that hold something fit to be taken for a measurement before anybody gave one, without a reason why that is
/// fair; and those that give a reason but hold nothing that could be taken.
template <class T>
struct default_reader {
    std::vector<std::string>& unfair;

    template <class Range, class M>
    void operator()(std::string_view name, const Range& range, const M& member) const {
        if constexpr (!std::is_same_v<Range, tautline::range_of<tautline::text_tag>>) {
            if (!tautline::all_finite(range.low) || !tautline::all_finite(range.high)) {
                unfair.push_back(std::string(name) + " has a range without end");
            }
        }
        if constexpr (!std::is_same_v<Range, tautline::range_of<tautline::text_tag>> &&
                      !tautline::description::optional_like<M> && !tautline::description::list_like<M>) {
            const auto value = [&] {
                if constexpr (std::is_integral_v<M>) {
                    return static_cast<long double>(member);
                } else {
                    return static_cast<long double>(tautline::description::leaf(member));
                }
            }();
            if (range.holds(value) != (range.reason != nullptr)) {
                unfair.push_back(std::string(name) + (range.reason ? " has a reason and no default" : " is taken unasked"));
            }
        }
    }
    template <class M>
    void operator()(std::string_view, const M&) const {}
};

/// The same of a model over doubles and over floats: one line each, empty when nothing is left out and nothing is taken
/// that was not given.
template <template <class> class Model>
std::string gaps() {
    std::string text;
    std::vector<std::string> unfair;
    const Model<double> fresh{};
    Model<double>::describe(default_reader<Model<double>>{unfair}, fresh);
    for (const std::string& what : unfair) { text += (text.empty() ? "" : ", ") + what; }
    for (const auto& list : {gaps_of<Model<double>>(), gaps_of<Model<float>>()}) {
        for (const std::string& gap : list) { text += (text.empty() ? "" : ", ") + gap; }
    }
    return text;
}

} // namespace described
