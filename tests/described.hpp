#pragma once
/// @file
/// Whether a description lists every member: what it visits must fill the object but for the compiler's padding. And what
/// it allows each of them and what each is unless told otherwise, in words, to be told a second time by a test.
///
/// A member that is left out is never checked, never carried to another number type and never read from a job file, in
/// silence. What hides in padding (a bool before a quantity of doubles) is mostly seen over floats, so both are looked at.

#include <algorithm>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include <tautline/core/describe.hpp>

namespace described {

/// Where a member lies in its object, in bytes.
struct place {
    std::string name;
    std::size_t from, to, alignment;
};

/// What a description's visitor is given behind the name: the member, or its range and the member.
template <class Member>
const Member& member_of(const Member& member) {
    return member;
}
template <class Range, class Member>
const Member& member_of(const Range&, const Member& member) {
    return member;
}

/// Where members are missing from the description of T: "after width".
template <class T>
std::vector<std::string> gaps_of() {
    const auto x = T();
    std::vector<place> places;
    T::describe(
        [&](std::string_view name, const auto&... range_and_member) {
            const auto& member = member_of(range_and_member...);
            const auto from =
                static_cast<std::size_t>(reinterpret_cast<const char*>(&member) - reinterpret_cast<const char*>(&x));
            places.push_back(
                {std::string(name), from, from + sizeof member, alignof(std::remove_cvref_t<decltype(member)>)});
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
    const auto fresh = Model<double>();
    Model<double>::describe(default_reader<Model<double>>{unfair}, fresh);
    for (const std::string& what : unfair) { text += (text.empty() ? "" : ", ") + what; }
    for (const auto& list : {gaps_of<Model<double>>(), gaps_of<Model<float>>()}) {
        for (const std::string& gap : list) { text += (text.empty() ? "" : ", ") + gap; }
    }
    return text;
}

/// What a model allows each member that has a range, a line each: "width: more than 0 mm and at most 10 mm".
template <template <class> class Model>
std::string ranges() {
    const auto x = Model<double>();
    std::string text;
    const auto tell = [&]<class U>(std::string_view name, const tautline::range_of<U>& range) {
        const std::string must_be = "must be ",
                          allowed = tautline::messages::allowed_text(range, tautline::messages::notation_of<U>);
        text += (text.empty() ? "" : "\n") + std::string(name) + ": " + allowed.substr(must_be.size());
    };
    Model<double>::describe(
        [&](std::string_view name, const auto&... range_and_member) {
            if constexpr (sizeof...(range_and_member) == 2) {
                const auto first = [](const auto& range, const auto&) -> const auto& { return range; };
                tell(name, first(range_and_member...));
            }
        },
        x);
    return text;
}

/// What the members of x are that are not 0, empty or absent: "steps: 12". A member that is a model of its own is told
/// where it is not as its kind is unless told otherwise.
template <class T>
std::string values_of(const T& x) {
    std::string text;
    const auto add = [&](std::string_view name, const std::string& value) {
        text += (text.empty() ? "" : "\n") + std::string(name) + ": " + value;
    };
    const auto number = [&](std::string_view name, long double v, const tautline::messages::notation& write) {
        if (v != 0) { add(name, write(v)); }
    };
    const auto tell = [&](const auto& self, std::string_view name, const auto& member) -> void {
        using M = std::remove_cvref_t<decltype(member)>;
        if constexpr (tautline::described<const M>) {
            if (const std::string told = values_of(member); told != values_of(M())) { add(name, "{" + told + "}"); }
        } else if constexpr (std::is_enum_v<M> || std::is_integral_v<M>) {
            number(name, static_cast<long double>(member), tautline::messages::notation_of<void>);
        } else if constexpr (requires { tautline::description::leaf(member); }) {
            const auto told = [&]<class U, class R>(const boost::units::quantity<U, R>& q) {
                if constexpr (requires { tautline::kind<U>::symbol; }) {
                    number(name, q.value(), tautline::messages::notation_of<U>);
                } else {
                    number(name, q.value(), tautline::messages::notation_of<void>);
                }
            };
            if constexpr (requires { told(member); }) {
                told(member);
            } else {
                number(name, tautline::description::leaf(member), tautline::messages::notation_of<void>);
            }
        } else if constexpr (tautline::description::optional_like<M>) {
            if (member.has_value()) { self(self, name, *member); }
        } else if constexpr (tautline::description::list_like<M>) {
            for (std::size_t i = 0; i < member.size(); ++i) { self(self, name, member[i]); }
        }
    };
    T::describe(
        [&](std::string_view name, const auto&... range_and_member) { tell(tell, name, member_of(range_and_member...)); },
        x);
    return text;
}

/// What a model is unless told otherwise.
template <template <class> class Model>
std::string defaults() {
    return values_of(Model<double>());
}

} // namespace described
