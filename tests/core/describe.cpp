#include <tautline/core/describe.hpp>

#include <optional>

#include <tautline/core/short_list.hpp>
#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

enum class kind_of_wood { maple, rosewood };

template <class R>
struct peg {
    using real = R;
    field<length<R>> diameter{over<R>(8 * mm)};
    interval<R> detune{};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("diameter", more_than_up_to(0 * mm, 20 * mm), self.diameter...);
        visit("detune", between(-50 * cents, 50 * cents), self.detune...);
    }
};
template <class R>
struct head {
    using real = R;
    std::string name = "plain";
    kind_of_wood timber = kind_of_wood::maple;
    int slots = 2;
    R taper{number<R>(0.5L)};
    field<length<R>> low{over<R>(10 * mm)};
    field<length<R>> high{over<R>(20 * mm)};
    peg<R> first{};
    std::vector<peg<R>> pegs{};
    std::optional<peg<R>> spare{};
    std::optional<field<force<R>>> load{};
    std::vector<std::optional<R>> shares{};
    short_list<field<length<R>>, 4> gaps{};
    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", self.name...);
        visit("timber", self.timber...);
        visit("slots", between(1, 4), self.slots...);
        visit("taper", between(0, 1), self.taper...);
        visit("low", more_than(0 * mm), self.low...);
        visit("high", more_than(0 * mm), self.high...);
        visit("first", self.first...);
        visit("pegs", self.pegs...);
        visit("spare", self.spare...);
        visit("load", at_least(0 * N), self.load...);
        visit("shares", between(0, 1), self.shares...);
        visit("gaps", more_than(0 * mm), self.gaps...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!(low < high)) { report("low", "must be below the high end"); }
        if (pegs.size() > 3) { report("pegs", "must be at most three"); }
    }
};

head<double> sound() {
    return {.name = "slotted",
            .timber = kind_of_wood::rosewood,
            .slots = 3,
            .taper = 0.25,
            .first = {.diameter = 9 * mm},
            .pegs = {{.diameter = 7 * mm, .detune = 3 * cents}, {.diameter = 6 * mm}},
            .spare = peg<double>{.diameter = 5 * mm},
            .load = 70 * N,
            .shares = {0.5, std::nullopt, 0.75},
            .gaps = {1 * mm, 2 * mm}};
}
std::vector<std::string> sentences(const head<double>& h, std::string_view name = "head") {
    std::vector<std::string> out;
    for (const auto& p : validate(h, name)) { out.push_back(p.sentence()); }
    CHECK(is_valid(h) == out.empty());
    return out;
}
std::string only(const head<double>& h) {
    const auto all = sentences(h);
    return all.size() == 1 ? all.front() : "not one problem";
}

static_assert(described<head<double>> && described<const peg<float>> && !described<double> && !described<std::string>);

} // namespace

TEST_SUITE("describe") {
    TEST_CASE("nothing is wrong with a sound one") {
        CHECK(sentences(sound()).empty());
        CHECK(sentences({}).empty());
        CHECK_NOTHROW(require_valid(sound()));
    }
    TEST_CASE("each place is named by its path") {
        auto h = sound();
        h.slots = 5;
        CHECK(only(h) == "head.slots is 5; it must be at least 1 and at most 4.");
        h = sound();
        h.taper = -0.5;
        CHECK(only(h) == "head.taper is -0.5; it must be at least 0 and at most 1.");
        h = sound();
        h.first.diameter = -1 * mm;
        CHECK(only(h) == "head.first.diameter is -1 mm; it must be more than 0 mm and at most 20 mm.");
        h = sound();
        h.pegs[1].diameter = 21 * mm;
        CHECK(only(h) == "head.pegs[1].diameter is 21 mm; it must be more than 0 mm and at most 20 mm.");
        h = sound();
        h.pegs[0].detune = 51 * cents;
        CHECK(only(h) == "head.pegs[0].detune is 51 cents; it must be at least -50 cents and at most 50 cents.");
        h = sound();
        h.spare->diameter = 0 * mm;
        CHECK(only(h) == "head.spare.diameter is 0 mm; it must be more than 0 mm and at most 20 mm.");
        h = sound();
        h.load = -1 * N;
        CHECK(only(h) == "head.load is -1 N; it must be at least 0 N.");
        h = sound();
        h.shares[2] = 2;
        CHECK(only(h) == "head.shares[2] is 2; it must be at least 0 and at most 1.");
        h = sound();
        h.gaps[1] = std::nan("") * mm;
        CHECK(only(h) == "head.gaps[1] is not given, or not a number; it must be more than 0 mm.");
        h = sound();
        h.low = 20 * mm;
        CHECK(only(h) == "head.low must be below the high end.");
    }
    TEST_CASE("without a name the paths start at the members") {
        auto h = sound();
        h.pegs[1].diameter = 0 * mm;
        CHECK(validate(h).front().field == "pegs[1].diameter");
    }
    TEST_CASE("everything that is wrong is said at once, in the order of the description") {
        auto h = sound();
        h.slots = 0;
        h.pegs[0].diameter = 0 * mm;
        h.pegs[1].detune = -99 * cents;
        h.gaps[0] = -1 * mm;
        const auto all = sentences(h);
        REQUIRE(all.size() == 4);
        CHECK(all[0].substr(0, 10) == "head.slots");
        CHECK(all[3].substr(0, 12) == "head.gaps[0]");
        try {
            require_valid(h, "head");
            FAIL("must be refused");
        } catch (const invalid_input& e) { CHECK(e.problems().size() == 4); }
    }
    TEST_CASE("rules between fields wait until the fields themselves are right; then all broken ones are told") {
        auto h = sound();
        h.low = 30 * mm;
        h.pegs.resize(4);
        CHECK(sentences(h).size() == 2);
        h.slots = 0;
        CHECK(only(h).substr(0, 10) == "head.slots");
    }
    TEST_CASE("an absent option and an empty list have nothing to check") {
        auto h = sound();
        h.spare.reset();
        h.load.reset();
        h.pegs.clear();
        h.gaps.clear();
        h.shares.clear();
        CHECK(sentences(h).empty());
    }
    TEST_CASE("over: everything is carried to another number type and back") {
        const auto there = [](auto twin) {
            CHECK(twin.name == "slotted");
            CHECK(twin.timber == kind_of_wood::rosewood);
            CHECK(twin.slots == 3);
            REQUIRE(twin.pegs.size() == 2);
            REQUIRE(twin.spare.has_value());
            REQUIRE(twin.load.has_value());
            REQUIRE(twin.shares.size() == 3);
            REQUIRE(twin.gaps.size() == 2);
            const auto is = [](const auto& got, double want) {
                return near::relative(static_cast<double>(value_of(got)), want, 1e-7);
            };
            CHECK(is(twin.taper, 0.25));
            CHECK(is(twin.low.value(), 0.010));
            CHECK(is(twin.high.value(), 0.020));
            CHECK(is(twin.first.diameter.value(), 0.009));
            CHECK(is(twin.pegs[0].diameter.value(), 0.007));
            CHECK(is(twin.pegs[0].detune.cents(), 3));
            CHECK(is(twin.pegs[1].diameter.value(), 0.006));
            CHECK(is(twin.spare->diameter.value(), 0.005));
            CHECK(is(twin.load->value(), 70));
            CHECK(is(*twin.shares[0], 0.5));
            CHECK_FALSE(twin.shares[1].has_value());
            CHECK(is(*twin.shares[2], 0.75));
            CHECK(is(twin.gaps[0].value(), 0.001));
            CHECK(is(twin.gaps[1].value(), 0.002));
            CHECK(is_valid(twin));
        };
        there(over<double>(sound()));
        there(over<float>(sound()));
        there(over<long double>(sound()));
        there(over<dual<double, 3>>(sound()));
        there(over<dual<dual<double, 1>, 1>>(sound()));
        there(over<double>(over<float>(sound())));
    }
    TEST_CASE("over: a carried constant has no derivative, an absent option stays absent") {
        auto h = sound();
        h.load.reset();
        const auto twin = over<dual<double, 1>>(h);
        CHECK(twin.low.value().partial[0] == 0);
        CHECK_FALSE(twin.load.has_value());
    }
    TEST_CASE("the same checks hold over dual numbers") {
        auto h = over<dual<double, 1>>(sound());
        h.pegs[1].diameter = 21 * mm;
        const auto found = validate(h, "head");
        REQUIRE(found.size() == 1);
        CHECK(found[0].sentence() == "head.pegs[1].diameter is 21 mm; it must be more than 0 mm and at most 20 mm.");
    }
}
