#include <tautline/core/leaves.hpp>

#include <optional>
#include <vector>

#include <tautline/core/short_list.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

template <class R>
struct layer {
    using real = R;
    field<length<R>> thickness{};
    interval<R> detune{};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("thickness", more_than(0 * mm), self.thickness...);
        visit("detune", self.detune...);
    }
};
template <class R>
struct stack {
    using real = R;
    std::string name = "stack";
    int count = 2;
    R share{};
    std::vector<layer<R>> layers{};
    std::optional<field<force<R>>> load{};
    short_list<field<length<R>>, 3> gaps{};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", self.name...);
        visit("count", self.count...);
        visit("share", between(0, 1), self.share...);
        visit("layers", self.layers...);
        visit("load", more_than(0 * N), self.load...);
        visit("gaps", more_than(0 * mm), self.gaps...);
    }
};

} // namespace

TEST_CASE("leaves: all numbers come by path, in order; texts, whole numbers and absent ones do not") {
    stack<double> s{
        .share = 0.5, .layers = {{.thickness = 1 * mm}, {.thickness = 2 * mm, .detune = 3 * cents}}, .gaps = {4 * mm}};
    std::string seen;
    double sum = 0;
    for_each_leaf(s, [&](std::string_view path, auto& x) {
        seen += std::string(path) + " ";
        sum += static_cast<double>(description::leaf(x));
    });
    CHECK(seen == "share layers[0].thickness layers[0].detune layers[1].thickness layers[1].detune gaps[0] ");
    CHECK(near::within(sum, 0.5 + 0.001 + 0.002 + 3 + 0.004, 1e-12));
    s.load = 3 * N;
    int count = 0;
    for_each_leaf(std::as_const(s), [&](std::string_view, const auto&) { ++count; });
    CHECK(count == 7);
}

TEST_CASE("leaves: a leaf can be changed in place") {
    stack<double> s{.layers = {{.thickness = 1 * mm}}};
    for_each_leaf(s, [](std::string_view path, auto& x) {
        if (path == "layers[0].thickness") { set_number(x, number_of(x) + 0.006); }
        if (path == "layers[0].detune") { set_number(x, 4); }
        if (path == "share") { set_number(x, 0.25); }
    });
    CHECK(s.layers[0].detune == 4 * cents);
    CHECK(s.share == 0.25);
    CHECK(near::relative(s.layers[0].thickness, 7 * mm, 1e-15));
}

TEST_CASE("leaves: with what the description allows, entries of a list as the list") {
    stack<double> s{.layers = {{.thickness = 1 * mm}}, .load = 3 * N, .gaps = {4 * mm, 5 * mm}};
    std::string seen;
    for_each_leaf(s, [&](std::string_view path, const auto& x, const allowed_range* range) {
        seen +=
            std::string(path) + (range ? range->holds(static_cast<long double>(number_of(x))) ? " in " : " out " : " any ");
    });
    CHECK(seen == "share in layers[0].thickness in layers[0].detune any load in gaps[0] in gaps[1] in ");
}
