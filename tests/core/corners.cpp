#include "corners.hpp"

#include <tautline/core/climate.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;
using corners::everywhere;

// Fits, roots, linear systems and programmes are for callers who have checked what they hand over; they say so.
TEST_CASE("corners: any quantity is written so that it can be read, or is said to be none") {
    const auto read_back = []<class U>(const bu::quantity<U, double>& q) {
        const auto back = parse_quantity<bu::quantity<U, double>>(quantity_text<U>(q.value()));
        const double size = std::abs(q.value());
        if (size <= static_cast<double>(kind<U>::most) && (size == 0 || size >= static_cast<double>(kind<U>::least))) {
            REQUIRE(back.has_value());
            CHECK(std::abs(back->value() - q.value()) <= 1e-5 * size);
        } else if (!all_finite(q)) {
            CHECK_FALSE(back.has_value());
        }
        return back.value_or(bu::quantity<U, double>());
    };
    everywhere<length<>>("a length", read_back);
    everywhere<force<>>("a force", read_back);
    everywhere<stress<>>("a stress", read_back);
    everywhere<frequency<>>("a frequency", read_back);
    everywhere<angle<>>("an angle", read_back);
    everywhere<length<>>("fixed_text", [](auto q) { return static_cast<int>(fixed_text(q, mm, 2).size()); });
    everywhere<length<>>("inch_fraction_text", [](auto q) {
        const std::string text = inch_fraction_text(q);
        CHECK(!text.empty());
        return static_cast<int>(text.size());
    });
}
TEST_CASE("corners: air and wood are what they can be, or are refused") {
    everywhere<double>("temperature", [](auto t) {
        require_valid(t * celsius, "temperature");
        return (t * celsius) / celsius;
    });
    everywhere<double>("humidity", [](auto h) {
        require_valid(h * percent_rh, "humidity");
        return h * percent_rh / percent_rh;
    });
    everywhere<double>("moisture", [](auto m) {
        require_valid(m * percent_mc, "moisture");
        return m * percent_mc / percent_mc;
    });
}
